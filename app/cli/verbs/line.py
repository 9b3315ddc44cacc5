"""Showing each transaction of the line as it happens."""

from __future__ import annotations

import argparse
import sys
import time
from typing import TYPE_CHECKING

from app.cli.options import add_endpoint, add_project
from app.cli.outcome import FINE, FOUND_WRONG, CouldNotRun, put, put_json, tell
from app.cli.sessions import complain_of_endpoints, run_session, session_of, wait, watch_for_end
from app.project_file.files import load

if TYPE_CHECKING:
    from app.cli.line_watch import LineWatch


def line_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight line`."""
    add_project(verb)
    add_endpoint(verb)
    verb.add_argument("--follower", metavar="NAME", help="this device only")
    verb.add_argument("--faults", action="store_true", help="faults only")
    verb.add_argument("--explain", action="store_true", help="explain every byte")
    verb.add_argument("--json", action="store_true", help="print one JSON object per line for another program to read")


def line(args: argparse.Namespace) -> int:
    """Tell each transaction as it happens, then how the lines did."""
    from app.cli.line_watch import LineWatch

    project = load(args.project)
    if args.follower is not None and args.follower not in project.follower_named:
        names = ", ".join(f"'{name}'" for name in project.follower_named) or "none"
        raise CouldNotRun(f"{args.project}: there is no device '{args.follower}'; it has: {names}")
    with run_session(session_of(args, project)) as session, watch_for_end() as ended:
        where = ", ".join(f"'{name}' at {endpoint}" for name, endpoint in session.endpoints.items())
        tell(f"watching {where}; Ctrl+C ends it")
        watch = LineWatch(session, follower=args.follower, faults_only=args.faults)
        end = None if args.for_s is None else time.monotonic() + args.for_s
        over = False
        while not over:
            over = ended.wait(0.05) or (end is not None and time.monotonic() >= end)
            _tell_look(args, watch)
        told = time.monotonic()
        wait(lambda: session.snapshot().at >= told, limit_s=1.0)
        snapshot = session.snapshot()
        _tell_lines(args, watch)
    complain_of_endpoints(snapshot)
    wrong = watch.faults or not watch.requests
    return FOUND_WRONG if wrong else FINE


def _tell_look(args: argparse.Namespace, watch: LineWatch) -> None:
    from app.diagnosis.transcript import as_json, clock_text, many_lines, one_line

    look = watch.look()
    for name, reason in look.lines:
        tell(f"line '{name}' is {f'down: {reason}' if reason else 'up again'}")
    if look.missed:
        tell(f"{look.missed} transactions were too fast to be shown")
    offset = watch.clock_offset
    for explanation in look.transactions:
        at = explanation.transaction.at + offset
        if args.json:
            put_json({"transaction": as_json(explanation, at)}, indent=None)
        elif args.explain:
            put(*many_lines(explanation, clock_text(at)).split("\n"), "")
        else:
            put(one_line(explanation, clock_text(at)))
            if explanation.fault:
                put(f"{'':14}{explanation.fault}")
    if look.transactions:
        sys.stdout.flush()


def _tell_lines(args: argparse.Namespace, watch: LineWatch) -> None:
    """The statistics at the end."""
    from app.diagnosis.transcript import figures_json, figures_text

    if args.json:
        put_json({"statistics": [figures_json(*line) for line in watch.figures()]}, indent=None)
    else:
        put(*(text for line in watch.figures() for text in figures_text(*line)))
    if not watch.requests:
        tell("no traffic on the line")
