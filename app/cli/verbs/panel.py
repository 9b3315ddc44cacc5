"""Operating the panel in the terminal, by hand or unattended."""

from __future__ import annotations

import argparse
import sys
import time
from typing import TYPE_CHECKING

from app.cli.options import add_endpoint, add_json, add_project
from app.cli.outcome import FINE, FOUND_WRONG, CouldNotRun, put, put_json, tell
from app.cli.presses import give_order, is_order, presses
from app.cli.sessions import all_tried, complain_of_endpoints, patience, run_session, session_of, wait
from app.project.by_itself import written_by_itself
from app.project.model import HeldSignal
from app.project_file.files import load

if TYPE_CHECKING:
    from collections.abc import Iterator

    from app.session.session import Session

CAUTION = (
    "Caution: this can move a machine. No key on a panel is an emergency stop; motion can start immediately; "
    "keep people clear; local regulations and a qualified person decide."
)


def panel_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight panel`."""
    add_project(verb)
    add_endpoint(verb)
    verb.add_argument(
        "--keys",
        metavar="KEYS",
        help="press these keys one after another; '1.5s' among them waits that long, and "
        "'NAME.WHAT=VALUE' operates a simulated device, such as pump.jammed=on",
    )
    verb.add_argument("--armed", action="store_true", help="allow writing to a real line. " + CAUTION)
    add_json(verb)


def panel(args: argparse.Namespace) -> int:
    """Operate the panel by hand, or press what is asked for and print what it shows."""
    project = load(args.project)
    asked = presses(project, args.keys or "")
    by_hand = args.keys is None and args.for_s is None and not args.json
    if by_hand and not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise CouldNotRun("operating the panel by hand needs a terminal; without one use '--keys' or '--for'")
    session = session_of(args, project, armed=args.armed)
    if session.simulation is None and any(is_order(press) for press in asked):
        raise CouldNotRun("only simulated devices can be operated this way: add '--via simulated'")
    if args.armed and args.via != "simulated":
        tell(CAUTION)
        for each in written_by_itself(project):
            tell(f"{'Without a key, can start something' if each.starts else 'Without a key'}: {each.words}")
    with run_session(session):
        if by_hand:
            from app.cli.terminal_panel import operate

            return operate(session)
        _settle(session)
        for press in asked:
            if isinstance(press, float):
                _run(session, press)
            elif is_order(press):
                give_order(session.simulation, press)
                _settle(session)
            else:
                session.panel.key_down(press)
                session.panel.key_up(press)
                _settle(session)
        _run(session, args.for_s or 0.0)
        _see_stops_through(session)
        complain_of_endpoints(session.snapshot())
        return _report_panel(args, session)


def _settle(session: Session) -> None:
    """Wait until what the shown screen needs has been read after now, and every write has been answered."""
    project = session.project
    since = time.monotonic()
    limit = since + patience(project)

    def fresh(name: str) -> bool:
        signal = project.signal_named.get(name)
        if signal is None or isinstance(signal, HeldSignal):
            return True
        reading = session.snapshot().readings.get(name)
        if reading is None:
            return False
        if not reading.good:
            return all_tried(session.snapshot(), [name])
        return reading.time is not None and reading.time >= since

    def settled() -> bool:
        session.panel.tick()
        shown = project.screen_named.get(session.panel.state.shown)
        return not session.writing and all(fresh(field.signal) for field in (shown.fields if shown else ()))

    wait(settled, limit_s=limit - since)
    session.panel.tick()


def _see_stops_through(session: Session) -> None:
    """Stay until every stop is proved, or given up."""
    from app.line.writer import OWED_S

    def over() -> bool:
        session.panel.tick()
        return not session.owed

    wait(over, limit_s=OWED_S + 1)


def _run(session: Session, seconds: float) -> None:
    def ticked() -> bool:
        session.panel.tick()
        return False

    wait(ticked, limit_s=seconds)


def _report_panel(args: argparse.Namespace, session: Session) -> int:
    from app.line.status import Statuses
    from app.panel.state import entry_report

    rows = [row.text for row in session.panel.rows()]
    if args.json:
        put_json(
            {
                "screen": session.panel.state.shown,
                "cells": rows,
                "entry": entry_report(session.project, session.panel.state),
                "status": Statuses(session.project, session.snapshot()).worst.as_json(),
            }
        )
    else:
        edge = "+" + "-" * session.project.panel.columns + "+"
        put(edge, *(f"|{row}|" for row in rows), edge)
    for words in dict.fromkeys(_failed_writes(session)):
        tell(words)
    unproved = session.unproved
    if unproved is not None:
        tell(unproved.headline, *unproved.words.splitlines())
    doubtful = _doubtful(session)
    for name, reason in doubtful.items():
        tell(f"signal '{name}' is not live: {reason}")
    return FOUND_WRONG if doubtful or unproved is not None else FINE


def _failed_writes(session: Session) -> Iterator[str]:
    """What was not written or not kept, in words: the panel shows it for some seconds only."""
    from app.line.write_queue import Obstacle

    for report in session.take_reports():
        if not report.ok:
            hint = "; add '--armed' to write to it" if report.obstacle is Obstacle.NOT_ARMED else ""
            yield f"writing signal '{report.signal}': {report.reason}{hint}"


def _doubtful(session: Session) -> dict[str, str]:
    """The signals on the shown screen whose values are not live, each with the reason."""
    seen = session.panel.readings()
    screen = session.project.screen_named.get(session.panel.state.shown)
    names = [field.signal for field in (screen.fields if screen else ())]
    return {name: seen[name].reason for name in names if not seen[name].good}
