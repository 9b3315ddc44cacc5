"""The file of a register snapshot: TOML, a register a line, so that a diff shows what changed.

format = 1
kind = "register snapshot"
follower = "pump"
unit = 3
line = "tcp://10.0.0.5:502"
numbering = "from-1"                  # how its manual counts; below it is counted from 0, as on the wire
taken = 2026-03-01T09:30:00+01:00
project = "Booster pump"
notes = ""

[holding]                             # coil, discrete, input, holding: wire address = word
309 = 5000

[[not_readable]]
table = "holding"
first = 400
last = 409
reason = "..."

[[signal]]                            # what the words meant to the project, for people and for comparisons
name = "speed"
table = "holding"
address = 309
count = 1
text = "50.0 Hz"
measured = false
"""

from __future__ import annotations

import datetime
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Final, TypeVar, get_args

import tomli_w

from app.errors import FanlightError
from app.language import mark, translate
from app.project_file.bounded_read import NotOrdinary, read_ordinary
from app.project_file.replace_file import write_whole
from app.signals.numbering import LAST_ADDRESS, Numbering, Table
from app.snapshots.snapshot import TABLES, RegisterPlace, RegisterSnapshot, Said, UnreadableRange

_T = TypeVar("_T")

FORMAT: Final = 1
KIND: Final = "register snapshot"
ENDING: Final = ".registers.toml"
"""Of the names of these files."""
LARGEST_FILE: Final = 8 * 1024 * 1024
"""Bytes. All 65 536 registers of all four tables have half of this."""


class NotASnapshot(FanlightError):
    """The file cannot be read; the message names it and says what is wrong."""


class CannotKeep(FanlightError):
    """The file cannot be written; the message says why."""


def paths_of_units(path: Path, units: Sequence[int]) -> dict[int, Path]:
    """A file for each: of several, each gets its unit address into its name."""
    if len(units) <= 1:
        return dict.fromkeys(units, path)
    stem = path.name.partition(".")[0]
    return {unit: path.with_name(f"{stem}-unit-{unit}{ENDING}") for unit in units}


def text_of_file(snapshot: RegisterSnapshot) -> str:
    """The text of the file; equal snapshots give equal texts."""
    head: dict[str, object] = {
        "format": FORMAT,
        "kind": KIND,
        "follower": snapshot.follower,
        "unit": snapshot.unit,
        "line": snapshot.line,
        "numbering": snapshot.numbering,
        "taken": snapshot.taken,
        "project": snapshot.project,
        "notes": snapshot.notes,
    }
    for table in TABLES:
        words = {str(at): word for (its, at), word in sorted(snapshot.registers.items()) if its == table}
        if words:
            head[table] = words
    text = tomli_w.dumps(head)
    for each in snapshot.not_readable:
        text += "\n[[not_readable]]\n" + tomli_w.dumps(
            {"table": each.table, "first": each.first, "last": each.last, "reason": each.reason}
        )
    for said in snapshot.signals:
        text += "\n[[signal]]\n" + tomli_w.dumps(
            {
                "name": said.name,
                "table": said.table,
                "address": said.address,
                "count": said.count,
                "text": said.text,
                "measured": said.measured,
            }
        )
    return text


def save(snapshot: RegisterSnapshot, path: Path) -> None:
    """Write the file, whole or not at all. Raises CannotKeep."""
    try:
        write_whole(path, text_of_file(snapshot).encode())
    except (OSError, ValueError) as why:
        raise CannotKeep(
            mark("snapshots", "{path} cannot be written: {reason}"), path=path, reason=_reason(why)
        ) from None


def _reason(why: OSError | ValueError) -> str:
    return (why.strerror if isinstance(why, OSError) else None) or str(why)


def open_snapshot(path: Path) -> RegisterSnapshot:
    """Read a file. Raises NotASnapshot."""
    try:
        content = read_ordinary(path, LARGEST_FILE)
    except NotOrdinary:
        raise NotASnapshot(mark("snapshots", "{path} is not a regular file"), path=path) from None
    except (OSError, ValueError) as why:
        raise NotASnapshot(
            mark("snapshots", "{path} cannot be read: {reason}"), path=path, reason=_reason(why)
        ) from None
    if len(content) > LARGEST_FILE:
        raise NotASnapshot(
            mark("snapshots", "{path} has more than {most} MB, too large for a snapshot"),
            path=path,
            most=LARGEST_FILE // 1024**2,
        )
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise NotASnapshot(mark("snapshots", "{path} is not a text file, so not a snapshot"), path=path) from None
    try:
        return snapshot_of_text(text)
    except NotASnapshot as why:
        raise NotASnapshot(f"{path}: {why}") from None


def snapshot_of_text(text: str) -> RegisterSnapshot:
    """The snapshot in a text. Raises NotASnapshot, naming the key."""
    try:
        data = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as why:
        raise NotASnapshot(mark("snapshots", "this is not TOML: {reason}"), reason=why) from None
    if data.get("kind") != KIND:
        raise NotASnapshot(mark("snapshots", "this is not a register snapshot"))
    if data.get("format") != FORMAT:
        raise NotASnapshot(
            mark("snapshots", "its format is {found}, but this program reads {known}"),
            found=data.get("format"),
            known=FORMAT,
        )
    taken = _get(data, "taken", datetime.datetime)
    if taken.tzinfo is None:
        raise _bad("taken")
    numbering: Numbering | None = next((each for each in get_args(Numbering) if each == data.get("numbering")), None)
    if numbering is None:
        raise _bad("numbering")
    registers: dict[RegisterPlace, int] = {}
    for table in TABLES:
        most = 65_535 if table in ("holding", "input") else 1
        words = data.get(table, {})
        if not isinstance(words, dict):
            raise _bad(table)
        for key, word in words.items():
            fits = type(word) is int and 0 <= word <= most
            if not (key.isascii() and key.isdecimal() and len(key) <= 5 and int(key) <= LAST_ADDRESS and fits):
                raise _bad(f"{table}.{key}")
            registers[table, int(key)] = word
    refused, said = [], []
    for number, each in enumerate(_list(data, "not_readable")):
        at = f"not_readable[{number}]."
        first, last = _get(each, "first", int, at), _get(each, "last", int, at)
        if not 0 <= first <= last <= LAST_ADDRESS:
            raise _bad(at + "first")
        refused.append(UnreadableRange(_table(each, at), first, last, _get(each, "reason", str, at)))
    for number, each in enumerate(_list(data, "signal")):
        at = f"signal[{number}]."
        first, count = _get(each, "address", int, at), _get(each, "count", int, at)
        if not (0 <= first <= LAST_ADDRESS and 1 <= count <= 125):
            raise _bad(at + "address")
        meaning = _get(each, "text", str, at), _get(each, "measured", bool, at)
        said.append(Said(_get(each, "name", str, at), _table(each, at), first, count, *meaning))
    return RegisterSnapshot(
        _get(data, "follower", str),
        _get(data, "unit", int),
        _get(data, "line", str),
        numbering,
        taken,
        registers,
        _get(data, "project", str),
        tuple(refused),
        tuple(said),
        _get(data, "notes", str),
    )


def _get(data: object, key: str, kind: type[_T], at: str = "") -> _T:
    value = data.get(key) if isinstance(data, dict) else None
    if not isinstance(value, kind) or type(value) is not kind:  # True is no number here
        raise _bad(at + key)
    return value


def _table(data: object, at: str) -> Table:
    name = _get(data, "table", str, at)
    table = next((each for each in TABLES if each == name), None)
    if table is None:
        raise _bad(at + "table")
    return table


def _list(data: dict[str, object], key: str) -> list[object]:
    found = data.get(key, [])
    if not isinstance(found, list):
        raise _bad(key)
    return found


def _bad(key: str) -> NotASnapshot:
    return NotASnapshot(translate("snapshots", "the key {key} is missing or wrong").format(key=key))
