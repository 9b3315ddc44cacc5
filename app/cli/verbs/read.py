"""Reading the signals of a project."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from app.cli.options import add_endpoint, add_json, add_project
from app.cli.outcome import FINE, FOUND_WRONG, CouldNotRun, put, put_json, tell
from app.cli.sessions import all_tried, complain_of_endpoints, patience, run_session, session_of, wait
from app.project.model import HeldSignal, Project
from app.project_file.files import load

if TYPE_CHECKING:
    from app.line.engine import Snapshot
    from app.signals.reading import Reading, Value


def read_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight read`."""
    add_project(verb)
    add_endpoint(verb)
    verb.add_argument("--signal", metavar="NAME", action="append", help="this signal only (may be repeated)")
    add_json(verb)


def read(args: argparse.Namespace) -> int:
    """Read signals once, or for as long as asked."""
    project = load(args.project)
    names = args.signal or [signal.name for signal in project.signals if not isinstance(signal, HeldSignal)]
    for name in names:
        if name not in project.signal_named:
            raise CouldNotRun(f"{args.project}: there is no signal '{name}'")
        if isinstance(project.signal_named[name], HeldSignal):
            raise CouldNotRun(f"signal '{name}' is a held value of the panel and is not read from the line")
    with run_session(session_of(args, project)) as session:
        if args.for_s is None:
            wait(lambda: all_tried(session.snapshot(), names), limit_s=patience(project))
        else:
            wait(lambda: False, limit_s=args.for_s)
        snapshot = session.snapshot()
    complain_of_endpoints(snapshot)
    return _report_readings(args, project, names, snapshot)


def _report_readings(args: argparse.Namespace, project: Project, names: Sequence[str], snapshot: Snapshot) -> int:
    from app.line.status import Statuses, StatusLevel
    from app.project.binding import plain_text
    from app.signals.reading import NEVER_READ

    readings = {name: snapshot.readings.get(name, NEVER_READ) for name in names}
    status = Statuses(project, snapshot).worst
    if args.json:
        put_json(
            {
                "readings": {
                    name: {
                        "raw": reading.raw,
                        "value": _number(reading.value),
                        "text": plain_text(project, name, reading.value),
                        "quality": str(reading.quality),
                        "reason": reading.reason,
                        "doubt": reading.doubt,
                        "age_ms": _age_ms(reading, snapshot.at),
                    }
                    for name, reading in readings.items()
                },
                "line": {
                    "requests": sum(line.requests for line in snapshot.lines.values()),
                    "good": sum(line.good for line in snapshot.lines.values()),
                    "faults": _faults(snapshot),
                },
                "status": status.as_json(),
            }
        )
    else:
        width = max((len(name) for name in names), default=0)
        for name, reading in readings.items():
            shown = f"{plain_text(project, name, reading.value)} {project.signal_named[name].unit}".strip()
            put(f"{name:<{width}}  {shown:>12}  {_quality_words(reading)}")
        if status.level >= StatusLevel.DATA:
            tell(status.sentence)
    return FINE if all(reading.good for reading in readings.values()) else FOUND_WRONG


def _quality_words(reading: Reading) -> str:
    if reading.good:
        return f"good, but doubtful: {reading.doubt}" if reading.doubt else "good"
    return f"{reading.quality}: {reading.reason}"


def _age_ms(reading: Reading, now: float) -> int | None:
    age = reading.age(now)
    return None if age is None else round(1000 * age)


def _faults(snapshot: Snapshot) -> dict[str, int]:
    faults: dict[str, int] = {}
    for line in snapshot.lines.values():
        for kind, count in line.faults.items():
            faults[str(kind)] = faults.get(str(kind), 0) + count
    return faults


def _number(value: Value | None) -> int | float | str | None:
    if value is None or isinstance(value, str):
        return value
    return int(value) if value.denominator == 1 else float(value)
