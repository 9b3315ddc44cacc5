"""Project files of earlier formats, brought forward one format at a time."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, Final

from app.errors import FanlightError
from app.language import translate
from app.project.model import FORMAT

Tables = dict[str, Any]
"""A project file as TOML has it: tables, lists, texts, numbers (`int` and `Decimal`)."""


class UnknownFormat(FanlightError):
    """The format cannot be read; the message says why, `hint` what to do."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


def migrated(tables: Tables) -> Tables:
    """`tables` in the present format.

    The key `format` must be a whole number. Raises UnknownFormat if it is newer than this program, or older than
    the entries of MIGRATIONS reach.
    """
    found = int(tables["format"])
    if found > FORMAT:
        raise UnknownFormat(
            translate("project", "the file has format {shown}, but this program reads formats up to {last}").format(
                shown=_number_text(found), last=FORMAT
            ),
            translate("project", "open it with a newer Fanlight"),
        )
    for number in range(found, FORMAT) if found >= min(MIGRATIONS, default=FORMAT) else (found,):
        if number not in MIGRATIONS:
            raise UnknownFormat(
                translate("project", "there is no format {shown}").format(shown=_number_text(found)),
                translate("project", "the current format is {format}").format(format=FORMAT),
            )
        tables = {**MIGRATIONS[number](tables), "format": number + 1}
    return tables


def _number_text(number: int) -> str:
    return str(number) if abs(number) < 10**6 else translate("project", "with that number")


# From 1 to 2: other words for the same things ------------------------------------------------------------------------

_REPERTOIRES_1: Final = {"hd44780-a00": "lcd-kana", "hd44780-a02": "lcd-european"}
_RULES_1: Final = {
    "actions-fight": "actions-conflict",
    "turns-fight": "screen-changes-conflict",
    "idle-turns-fight": "idle-screen-changes-conflict",
    "turn-to-itself": "screen-change-to-itself",
    "momentary-turned-away": "momentary-left-behind",
    "drive-by-itself": "drive-without-role",
}
_OF_PANEL_1: Final = "rows|columns|repertoire|keys|languages|language|start"
_IN_PANEL_1: Final = r"(?: / languages?| / messages(?: / [a-z_]+)?| / messages_in / [^/]+(?: / [a-z_]+)?)?"


def _from_1_to_2(tables: Tables) -> Tables:
    tables = _rename_keys(tables, {"turn": "screen_change"})
    if isinstance(panel := tables.get("panel"), dict):
        tables["panel"] = _saying(panel, "repertoire", _REPERTOIRES_1)
    _each(tables, "signal", lambda signal: _rename_keys(signal, {"plays": "drive_role"}))
    _each(tables, "accepted", _accepted_1)
    return tables


def _accepted_1(accepted: Tables) -> Tables:
    """Places were told by the keys of the file, but the panel by all that it says, which no other place begins with."""
    accepted = _saying(accepted, "rule", _RULES_1)
    if isinstance(about := accepted.get("about"), str):
        about = re.sub(r"^turn(?= / |$)", "screen_change", about)
        accepted["about"] = re.sub(rf"^(?:{_OF_PANEL_1}) .*?(?={_IN_PANEL_1}$)", "panel", about, flags=re.DOTALL)
    return accepted


# What migrations have in common: none changes the tables it is given, and what makes no sense is left for the checks
# of the present format to tell.


def _rename_keys(table: Tables, names: Mapping[str, str]) -> Tables:
    """With other names for keys, in the same order. A key that is there by its new name already is an odd one out."""
    return {names[key] if key in names and names[key] not in table else key: table[key] for key in table}


def _saying(table: Tables, key: str, words: Mapping[str, str]) -> Tables:
    """With another word under a key."""
    word = table.get(key)
    return {**table, key: words[word]} if isinstance(word, str) and word in words else table.copy()


def _each(tables: Tables, key: str, change: Callable[[Tables], Tables]) -> None:
    """Put what `change` makes of each table of a list in its place."""
    if isinstance(items := tables.get(key), list):
        tables[key] = [change(item) if isinstance(item, dict) else item for item in items]


MIGRATIONS: Final[dict[int, Callable[[Tables], Tables]]] = {1: _from_1_to_2}
"""For each earlier format, what makes the next one of it. The key `format` is set by `migrated`, not by the entries.

A new format 3 adds the entry `2: _from_2_to_3` and a test with a file of format 2. Entries are never changed
afterwards.
"""
