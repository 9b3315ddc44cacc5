"""The verb of the command line that finds out what is on an unknown line. It only reads."""

from __future__ import annotations

import argparse
import json
import os
import re
import time
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from app.cli.options import add_json
from app.cli.outcome import COULD_NOT_RUN, FINE, FOUND_WRONG, CouldNotRun, put, put_json, say, tell
from app.cli.sessions import watch_for_end

if TYPE_CHECKING:
    from app.client.endpoint import Endpoint
    from app.discovery.examination import Examination
    from app.discovery.search import Search, SearchState, Wanted
    from app.probing.found import Found, FoundFollower
    from app.probing.requests import Untouched
    from app.signals.numbering import Table

CAUTION: Final = (
    "caution: reading can disturb a machine too, where another client commands it. Search on a line that nobody else "
    "uses; nothing is written."
)
_TABLES: Final[dict[str, Table]] = {"coils": "coil", "discrete": "discrete", "holding": "holding", "input": "input"}
_SAVED_EVERY_S: Final = 1.0
_TOLD_EVERY_S: Final = 1.0
_FORMAT: Final = "fanlight search 1"


def find_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight find`."""
    place = verb.add_mutually_exclusive_group(required=True)
    place.add_argument("--serial", metavar="DEVICE", help="a serial port, such as /dev/ttyUSB0 or COM3")
    place.add_argument("--tcp", metavar="HOST[:PORT]", help="Modbus TCP; the usual port is 502")
    place.add_argument("--serial-over-tcp", metavar="HOST:PORT", help="RTU frames in a TCP stream")
    verb.add_argument(
        "--listen",
        metavar="S",
        type=_seconds,
        help="listen for so many seconds before anything is sent; left out: 1. Nothing is sent where another client "
        "is heard",
    )
    verb.add_argument("--units", metavar="1-247", type=_units, default=(), help="search these only, such as 1-20,100")
    verb.add_argument("--settings", metavar="LIST", help="try these only, such as '19200 8E1,9600 8N1'")
    verb.add_argument(
        "--tables", metavar="LIST", type=_tables, default=(), help=f"look for these only: {','.join(_TABLES)}"
    )
    verb.add_argument(
        "--range", metavar="0-9999", type=_range, default=(0, 65_535), help="registers, as on the wire from 0"
    )
    verb.add_argument(
        "--never",
        metavar="LIST",
        type=_never,
        default={},
        help="never touch these, as some are cleared by reading: holding:100-119,input:7, as on the wire from 0; "
        "--resume keeps them too",
    )
    verb.add_argument("--budget", metavar="S", type=_seconds, help="end after so many seconds")
    verb.add_argument("--to", metavar="PROJECT", type=Path, help="make a project of what is found: a new file")
    verb.add_argument("--snapshot", metavar="FILE", type=Path, help="keep what the registers hold: a new file")
    verb.add_argument(
        "--resume",
        metavar="FILE",
        type=Path,
        help="keep in this file what was tried; if it is there, go on from it",
    )
    add_json(verb)


def find(args: argparse.Namespace) -> int:
    """Find the settings, the units and the registers of what is on a line."""
    from app.discovery.search import Search
    from app.probing.line import ReadingLine
    from app.probing.untouched import all_of

    place, wanted = _place(args), _wanted(args)
    for path in (args.to, args.snapshot):
        # Looked at first: a search may take an hour.
        if path is not None and os.path.lexists(path):
            raise CouldNotRun(f"{path} already exists; choose another name, or move it away")
        _folder_of(path)
    _folder_of(args.resume)
    state, examined, never = _kept(args.resume, place)
    wanted = replace(wanted, never=all_of(wanted.never, never))
    tell(CAUTION)
    with watch_for_end() as ended, ReadingLine(place, ended.is_set) as line:
        keeper = _Keeper(args.resume, place, state, examined, wanted.never)
        search = Search(line, wanted, state, keeper.told, keeper.examination)
        try:
            found = search.run()
        finally:
            keeper.save()
    return _outcome(args, place, search, found, keeper)


def _outcome(args: argparse.Namespace, place: Endpoint, search: Search, found: Found, keeper: _Keeper) -> int:
    if search.state.why:
        say(search.state.why)
    if args.json:
        put_json(found.as_json())
    else:
        put(*_lines(found))
    devices = [one for one in found.followers if not one.gateway]
    if args.to is not None and devices:
        from app.discovery.into_project import save_found

        save_found(place, found, args.to, never=keeper.never)
        tell(f"{args.to}: a project of {_count(devices)}")
    if args.snapshot is not None:
        _save_snapshots(args.snapshot, place, devices, keeper.examination)
    if not devices and not found.heard:
        tell(search.trouble.summary)
        tell(*(f"{each.likely}: {each.title}. {each.evidence} {each.to_do}" for each in search.trouble.suspicions))
        return COULD_NOT_RUN if found.stopped_by == "port gone" else FOUND_WRONG
    return FINE


def _save_snapshots(path: Path, place: Endpoint, devices: list[FoundFollower], examination: Examination) -> None:
    """One file a device."""
    from app.snapshots.files import paths_of_units, save

    read = [one.unit for one in devices if examination.registers(one.unit)]
    if not read:
        tell(f"{path}: not written, no register was read")
    for unit, file in paths_of_units(path, read).items():
        taken = examination.snapshot(unit, str(place))
        save(taken, file)
        tell(f"{file}: {len(taken.registers)} registers of unit {unit}")


def _count(devices: list[FoundFollower]) -> str:
    return "1 device" if len(devices) == 1 else f"{len(devices)} devices"


def _lines(found: Found) -> list[str]:
    lines = [] if found.settings is None else [f"settings: {found.settings}"]
    if found.heard is not None:
        lines.append("another client was heard on this line, so nothing was sent; all of this is what it asked for")
        if found.settings is not None and not found.heard["parity_known"]:
            lines.append("this port does not tell which parity it hears; another one at that speed is possible")
    for one in found.followers:
        if one.gateway:
            lines += one.notes
            continue
        response = "" if one.response_ms is None else f", answers after {one.response_ms:g} ms"
        lines.append(f"unit {one.unit}{response}")
        if one.identification:
            lines += [f"  {name}: {text}" for name, text in one.identification.items()]
        if one.functions:
            lines.append(f"  functions: {', '.join(f'{function:02}' for function in one.functions)}")
        if one.longest_read:
            lines.append(f"  longest read: {one.longest_read} registers")
        if one.in_flight is not None:
            taken = "one at a time" if one.in_flight == 1 else f"{one.in_flight} at a time; more was not tried"
            lines.append(f"  requests: {taken}")
        lines += [f"  {part.table} {part.first} to {part.last}" for part in one.ranges]
        lines += [f"  {note}" for note in one.notes]
    if not found.followers and found.heard is None:
        lines.append("nothing was found")
    ended = "" if found.stopped_by == "done" else f"; ended before the end: {found.stopped_by}"
    return [*lines, f"{found.probes} requests, {found.seconds:.1f} s{ended}"]


class _Keeper:
    """Tells the person how it goes, and keeps the state in its file."""

    def __init__(
        self, path: Path | None, place: Endpoint, state: SearchState, examined: list[object], never: Untouched
    ) -> None:
        self.never = never
        self._path = path
        self._place = place
        self._state = state
        self.examination = _examination(examined)
        self._saved = self._said = time.monotonic()

    def told(self, _found: Found, sentence: str, seconds: float | None) -> None:
        now = time.monotonic()
        if now - self._said >= _TOLD_EVERY_S:
            self._said = now
            tell(sentence if seconds is None else f"{sentence} About {seconds:.0f} s more.")
        if now - self._saved >= _SAVED_EVERY_S:
            self._saved = now
            self.save()

    def save(self) -> None:
        from app.probing.untouched import untouched_text
        from app.project_file.replace_file import write_whole

        if self._path is None:
            return
        data: dict[str, object] = {"format": _FORMAT, "place": str(self._place), **self._state.as_json()}
        data["registers"] = self.examination.as_json()
        data["never"] = untouched_text(self.never)
        try:
            write_whole(self._path, json.dumps(data).encode())
        except OSError as why:
            say(f"{self._path} cannot be written: {why.strerror}; this search cannot be taken up again")
            self._path = None


def _examination(examined: list[object]) -> Examination:
    from app.discovery.examination import Examination

    made = Examination()
    made.take_json(examined)
    return made


def _kept(path: Path | None, place: Endpoint) -> tuple[SearchState, list[object], Untouched]:
    from app.discovery.search import SearchState
    from app.probing.untouched import parse_untouched

    if path is None or not os.path.lexists(path):
        return SearchState(), [], {}
    try:
        data = json.loads(path.read_text("utf-8"))
        if data["format"] != _FORMAT:
            raise ValueError
        kept, where = SearchState.from_json(data), data["place"]
        never = parse_untouched(data.get("never", ""))
        _examination(data["registers"])
    except OSError as why:
        raise CouldNotRun(f"{path} cannot be read: {why.strerror}") from None
    except (ValueError, KeyError, TypeError, RecursionError):
        raise CouldNotRun(f"{path} is not the file of a search; choose another name for --resume") from None
    if where != str(place):
        raise CouldNotRun(f"{path} is of a search on {where}; choose another file for {place}")
    return kept, data["registers"], never


def _folder_of(path: Path | None) -> None:
    if path is not None and not path.parent.is_dir():
        raise CouldNotRun(f"there is no folder {path.parent}; choose one that exists")


def _place(args: argparse.Namespace) -> Endpoint:
    from app.client.endpoint import Endpoint
    from app.project.model import TcpLine

    if args.serial is not None:
        return Endpoint.serial(args.serial)
    text = f"tcp://{args.tcp}" if args.tcp is not None else f"serial+tcp://{args.serial_over_tcp}"
    if args.tcp is not None and not re.search(r":\d+$", args.tcp.rpartition("]")[2]):
        text += ":502"
    return Endpoint.parse(text, TcpLine(name="line", kind="tcp", host="localhost"))


def _wanted(args: argparse.Namespace) -> Wanted:
    from app.discovery.search import Wanted
    from app.probing.probe import MOST_UNIT
    from app.probing.settings_search import parse_settings

    try:
        settings = parse_settings(args.settings) if args.settings else ()
    except ValueError as why:
        raise CouldNotRun(f"--settings: '{why}' is not speed and characters, such as 19200 8E1") from None
    if settings and args.serial is None:
        raise CouldNotRun("--settings is for --serial; what speed a converter has, only it knows")
    strange = next((unit for unit in args.units if not 1 <= unit <= MOST_UNIT), None)
    if args.tcp is None and strange is not None:
        raise CouldNotRun(f"--units: a serial line has units 1-{MOST_UNIT}, and {strange} is none")
    wanted = Wanted(
        args.units, settings, first=args.range[0], last=args.range[1], budget_s=args.budget, never=args.never
    )
    if args.tables:
        wanted = replace(wanted, tables=args.tables)
    return wanted if args.listen is None else replace(wanted, listen_s=args.listen)


def _seconds(text: str) -> float:
    value = float(text)
    if not 0 <= value <= 1e6:
        raise argparse.ArgumentTypeError(f"'{text}' is not a number of seconds")
    return value


def _span(text: str, most: int, what: str) -> tuple[int, int]:
    parts = re.fullmatch(r"\s*(\d{1,6})(?:-(\d{1,6}))?\s*", text)
    if parts is None or not int(parts[1]) <= int(parts[2] or parts[1]) <= most:
        raise argparse.ArgumentTypeError(f"'{text}' is not {what}")
    return int(parts[1]), int(parts[2] or parts[1])


def _range(text: str) -> tuple[int, int]:
    return _span(text, 65_535, "a range of registers from 0 to 65535, such as 0-9999")


def _never(text: str) -> Untouched:
    from app.probing.untouched import parse_untouched

    try:
        return parse_untouched(text)
    except ValueError as part:
        raise argparse.ArgumentTypeError(f"'{part}' names no registers; write holding:100-119,input:7") from None


def _units(text: str) -> tuple[int, ...]:
    spans = [_span(part, 255, "a list of units, such as 1-20,100") for part in text.split(",")]
    return tuple(dict.fromkeys(unit for first, last in spans for unit in range(first, last + 1)))


def _tables(text: str) -> tuple[Table, ...]:
    names = [part.strip() for part in text.split(",")]
    for name in names:
        if name not in _TABLES:
            raise argparse.ArgumentTypeError(f"'{name}' is not one of {', '.join(_TABLES)}")
    return tuple(_TABLES[name] for name in names)
