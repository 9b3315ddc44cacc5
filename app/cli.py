"""The command line: one command, a verb a job. It speaks English, whatever the window speaks: scripts read it."""

from __future__ import annotations

import argparse
import errno
import json
import logging
import re
import shlex
import sys
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from app.project.files import ProjectFileError, load
from app.project.model import HeldSignal, Project
from app.record_verbs import export, export_arguments, record, record_arguments
from app.snapshot_verbs import differences, differences_arguments, snapshot, snapshot_arguments
from app.verbs import (
    COULD_NOT_RUN,
    FINE,
    FOUND_WRONG,
    CouldNotRun,
    add_endpoint,
    add_json,
    add_project,
    complain_of_endpoints,
    interrupted,
    print_json,
    seconds,
    session_of,
    started,
)

if TYPE_CHECKING:  # what only some verbs need is imported when they run: the command answers quickly
    from app.bus.engine import Snapshot
    from app.follower.simulation import Simulation
    from app.line_watch import LineWatch
    from app.session import Session
    from app.signals.reading import Reading, Value

CAUTION = (
    "Caution: this can move a machine. A key on a panel is no emergency stop; motion can start at once; "
    "keep people clear; local codes and a licensed person decide."
)


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command with `argv` (without the program's name) and return its exit status."""
    args = _parser().parse_args(_with_verb(sys.argv[1:] if argv is None else argv))
    logging.getLogger("pymodbus").addHandler(logging.NullHandler())
    logging.getLogger("pymodbus").propagate = False
    try:
        status: int = args.run(args)
        if sys.stdout is not None:  # the GUI entry point of Windows has none
            sys.stdout.flush()
    except CouldNotRun as why:
        return _complain(str(why))
    except ProjectFileError as why:
        return _complain(str(why))
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        # Whoever read our output stopped reading; leave without a second complaint when Python flushes.
        sys.stdout = None
        return COULD_NOT_RUN
    except OSError as why:
        if why.errno not in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO):
            raise
        sys.stdout = None
        return _complain(
            "the output cannot be written: the disk is full or failing; free some space, or write elsewhere"
        )
    return status


def _complain(message: str) -> int:
    print(f"fanlight: {message}", file=sys.stderr)
    return COULD_NOT_RUN


# The parser ---------------------------------------------------------------------------------------------------------


WORKPLACES = ("design", "bench", "start-up")
"""In the order of the switcher of the window."""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        self.exit(COULD_NOT_RUN, f"{self.prog}: {message}; try '{self.prog} --help'\n")


def _with_verb(argv: Sequence[str]) -> list[str]:
    """`fanlight [PROJECT]` is short for `fanlight window [PROJECT]`."""
    words = list(argv)
    if words and (words[0] in VERBS or words[0] in ("-h", "--help", "--version")):
        return words
    if len(words) > 1 and not any(word.startswith("-") for word in words[:2]):
        _parser().error(f"'{words[0]}' is no verb; the verbs are {', '.join(VERBS)}")
    return ["window", *words]


def _parser() -> argparse.ArgumentParser:
    from importlib.metadata import version

    parser = _Parser(
        prog="fanlight",
        description="Design small text panels for Modbus devices, prove them and hand them over.",
        epilog="'fanlight PROJECT' opens the window. Exit status: 0 fine, 1 something wrong found, 2 could not run.",
    )
    parser.add_argument("--version", action="version", version=f"fanlight {version('fanlight')}")
    verbs = parser.add_subparsers(metavar="VERB", required=True)
    for name, (run, describe, help_text) in VERBS.items():
        verb = verbs.add_parser(name, help=help_text, description=help_text)
        describe(verb)
        verb.set_defaults(run=run)
    return parser


def _grab(verb: argparse.ArgumentParser) -> None:
    verb.add_argument("--grab", metavar="FILE.png", type=Path, help="save a picture of the window, then exit")
    verb.add_argument("--for", dest="for_s", metavar="S", type=seconds, help="seconds to run before the picture")
    verb.add_argument("--palette", choices=["light", "dark"], help="left out: as chosen in the window")
    verb.add_argument("--language", choices=["en", "de"], help="of the window; left out: as chosen in it")
    verb.add_argument("--workplace", choices=WORKPLACES, help="the one to begin with")


# Window verbs -------------------------------------------------------------------------------------------------------


def _window_arguments(verb: argparse.ArgumentParser) -> None:
    verb.add_argument("project", metavar="PROJECT", nargs="?", help="a project file, or a recording to play")
    _grab(verb)


def _window(args: argparse.Namespace) -> int:
    return _open(args, Path(args.project) if args.project else None)


def _open(
    args: argparse.Namespace, project: Path | None, *, demo: bool = False, keys: Sequence[str | float] = ()
) -> int:
    from widgets.application import run_window
    from widgets.language import Language
    from widgets.palette import Appearance

    return run_window(
        project,
        demo=demo,
        grab=args.grab,
        for_s=args.for_s,
        appearance=Appearance(args.palette) if args.palette else None,
        keys=keys,
        language=Language(args.language) if args.language else None,
        workplace=WORKPLACES.index(args.workplace) if args.workplace else None,
    )


def _demo_arguments(verb: argparse.ArgumentParser) -> None:
    from projects import demos

    verb.add_argument("name", metavar="NAME", nargs="?", choices=demos(), help=f"one of: {', '.join(demos())}")
    verb.add_argument("--keys", metavar="KEYS", help="press these keys of the panel once it is live")
    _grab(verb)


def _demo(args: argparse.Namespace) -> int:
    from projects import demo_path, demos

    path = demo_path(args.name or demos()[0])
    return _open(args, path, demo=True, keys=_presses(load(path), args.keys or ""))


# check and plan -----------------------------------------------------------------------------------------------------


def _check_arguments(verb: argparse.ArgumentParser) -> None:
    add_project(verb)
    add_json(verb)


def _check(args: argparse.Namespace) -> int:
    from app.checks import check

    try:
        findings = [
            {
                "rule": finding.rule,
                "severity": str(finding.severity),
                "where": finding.where,
                "message": finding.message,
                "hint": finding.hint,
            }
            for finding in check(load(args.project))
        ]
    except ProjectFileError as error:
        if error.unreadable:
            raise
        findings = [
            {
                "rule": "project-file",
                "severity": "error",
                "where": problem.where,
                "message": problem.message,
                "hint": problem.hint,
            }
            for problem in error.problems
        ]
    if args.json:
        print_json({"findings": findings})
    else:
        for finding in findings:
            hint = f"\n    {finding['hint']}" if finding["hint"] else ""
            print(f"{finding['severity']}: {finding['where']}: {finding['message']} [{finding['rule']}]{hint}")
        print(_count(findings), file=sys.stderr)
    return FOUND_WRONG if any(finding["severity"] == "error" for finding in findings) else FINE


def _count(findings: Sequence[dict[str, str]]) -> str:
    if not findings:
        return "nothing found"
    kinds = [(kind, sum(finding["severity"] == kind for finding in findings)) for kind in ("error", "warning", "note")]
    return ", ".join(f"{n} {kind}{'s' if n != 1 else ''}" for kind, n in kinds if n)


def _plan_arguments(verb: argparse.ArgumentParser) -> None:
    add_project(verb)
    add_json(verb)


def _plan(args: argparse.Namespace) -> int:
    from app.bus.plan import make_plan

    plan = make_plan(load(args.project))
    for reason in plan.left_out.values():
        print(f"not read: {reason}", file=sys.stderr)
    status = FOUND_WRONG if plan.left_out else FINE
    if args.json:
        print_json(plan.as_json())
        return status
    for line in plan.lines:
        print(f"line '{line.line}': one pass over all reads takes {line.cycle_ms:.1f} ms")
        for read in line.reads:
            span = f"{read.address}..{read.address + read.count - 1}" if read.count > 1 else f"{read.address}"
            print(
                f"  {read.follower} (unit {read.unit}) {read.table} {span}, every {read.every_ms} ms, "
                f"{read.ms:.1f} ms: {', '.join(read.signals)}"
            )
    return status


# compare ------------------------------------------------------------------------------------------------------------


def _compare_arguments(verb: argparse.ArgumentParser) -> None:
    verb.add_argument("before", metavar="A", help="a project file")
    verb.add_argument("after", metavar="B", help="the project file that it is compared with")
    add_json(verb)


def _compare(args: argparse.Namespace) -> int:
    from app.project.comparison import compare
    from app.project.comparison_words import as_json, in_lines, summary

    comparison = compare(load(args.before), load(args.after))
    if args.json:
        print_json(as_json(comparison))
    else:
        for line in in_lines(comparison):
            print(line)
        print(summary(comparison), file=sys.stderr)
    return FINE if comparison.same else FOUND_WRONG


# follower -----------------------------------------------------------------------------------------------------------


def _follower_arguments(verb: argparse.ArgumentParser) -> None:
    add_project(verb)
    verb.add_argument("--follower", metavar="NAME", action="append", help="play this one only (may be given again)")
    where = verb.add_mutually_exclusive_group(required=True)
    where.add_argument("--tcp", metavar="HOST:PORT", type=_host_and_port, help="listen here; port 0 takes a free one")
    where.add_argument("--serial", metavar="DEVICE", help="answer on this serial port")
    verb.add_argument(
        "--order",
        metavar="FOLLOWER.WHAT=VALUE",
        action="append",
        default=[],
        help="operate a follower from the start: its inputs (external-fault, local, safe-torque-off, jammed: on or "
        "off; preset, supply), a signal's value, or trouble on the line (delay and jitter in ms; silence, noise, crc "
        "and exceptions in per cent of the answers; exception CODE; reboot in s; seed). May be given again",
    )
    verb.add_argument("--operate", action="store_true", help="take more of these from standard input, one a line")


def _host_and_port(text: str) -> tuple[str, int]:
    found = re.fullmatch(r"(?:\[(?P<six>[^\]]+)\]|(?P<host>[^:]*)):(?P<port>\d{1,5})", text)
    if found is None or int(found["port"]) > 65_535:
        raise argparse.ArgumentTypeError(f"'{text}' is not HOST:PORT, such as 127.0.0.1:5020")
    return found["six"] or found["host"] or "127.0.0.1", int(found["port"])


def _follower(args: argparse.Namespace) -> int:
    from app.follower.simulation import FollowerError, Simulation

    try:
        simulation = Simulation(load(args.project), args.follower)
        simulation.start()
        try:
            if args.tcp:
                host, port = simulation.serve_tcp(None, *args.tcp)
                where = f"tcp://{host}:{port}"
            else:
                simulation.serve_serial(args.serial)
                where = f"serial:{args.serial}"
            names = ", ".join(f"'{name}'" for name in simulation.models)
            for deed in args.order:
                _operate(simulation, deed)
            print(f"playing {names} at {where}; Ctrl+C ends it", file=sys.stderr, flush=True)
            with interrupted() as ended:
                if args.operate:
                    _take_orders(simulation)
                ended.wait()
        finally:
            simulation.stop()
    except FollowerError as why:
        raise CouldNotRun(str(why)) from None
    return FINE


def _take_orders(simulation: Simulation) -> None:
    """Operate followers as the lines of standard input say, in a thread that ends with the program."""

    def read() -> None:
        for line in sys.stdin:
            if not line.strip():
                continue
            try:
                _operate(simulation, line.strip())
                print(f"done: {line.strip()}", file=sys.stderr, flush=True)
            except CouldNotRun as why:
                print(f"fanlight: {why}", file=sys.stderr, flush=True)

    threading.Thread(target=read, name="orders", daemon=True).start()


# read and panel -----------------------------------------------------------------------------------------------------


def _read_arguments(verb: argparse.ArgumentParser) -> None:
    add_project(verb)
    add_endpoint(verb)
    verb.add_argument("--signal", metavar="NAME", action="append", help="this one only (may be given again)")
    add_json(verb)


def _read(args: argparse.Namespace) -> int:
    project = load(args.project)
    names = args.signal or [signal.name for signal in project.signals if not isinstance(signal, HeldSignal)]
    for name in names:
        if name not in project.signal_named:
            raise CouldNotRun(f"{args.project}: there is no signal '{name}'")
        if isinstance(project.signal_named[name], HeldSignal):
            raise CouldNotRun(f"signal '{name}' is a held value: it lives in the panel and is not read from the line")
    with started(session_of(args, project)) as session:
        if args.for_s is None:
            _wait(lambda: _tried(session.snapshot(), names), limit_s=_patience(project))
        else:
            _wait(lambda: False, limit_s=args.for_s)
        snapshot = session.snapshot()
    complain_of_endpoints(snapshot)
    return _report_readings(args, project, names, snapshot)


def _tried(snapshot: Snapshot, names: Sequence[str]) -> bool:
    """Whether each of the signals was read, or could not be."""
    from app.signals.reading import NEVER_READ

    return all(snapshot.readings.get(name, NEVER_READ) is not NEVER_READ for name in names)


def _patience(project: Project) -> float:
    """Seconds in which every read of `project` has been tried once, even if nobody answers."""
    return 2.0 + sum(line.timeout_ms for line in project.lines) / 1000 * (2 + len(project.followers))


def _report_readings(args: argparse.Namespace, project: Project, names: Sequence[str], snapshot: Snapshot) -> int:
    from app.project.binding import plain_text
    from app.signals.reading import NEVER_READ

    readings = {name: snapshot.readings.get(name, NEVER_READ) for name in names}
    if args.json:
        print_json(
            {
                "readings": {
                    name: {
                        "raw": reading.raw,
                        "value": _number(reading.value),
                        "text": plain_text(project, name, reading.value),
                        "quality": str(reading.quality),
                        "reason": reading.reason,
                        "age_ms": _age_ms(reading, snapshot.at),
                    }
                    for name, reading in readings.items()
                },
                "line": {
                    "requests": sum(line.requests for line in snapshot.lines.values()),
                    "good": sum(line.good for line in snapshot.lines.values()),
                    "faults": _faults(snapshot),
                },
            }
        )
    else:
        width = max((len(name) for name in names), default=0)
        for name, reading in readings.items():
            shown = f"{plain_text(project, name, reading.value)} {project.signal_named[name].unit}".strip()
            print(
                f"{name:<{width}}  {shown:>12}  " + ("good" if reading.good else f"{reading.quality}: {reading.reason}")
            )
    return FINE if all(reading.good for reading in readings.values()) else FOUND_WRONG


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


def _line_arguments(verb: argparse.ArgumentParser) -> None:
    add_project(verb)
    add_endpoint(verb)
    verb.add_argument("--follower", metavar="NAME", help="only what concerns this follower")
    verb.add_argument("--faults", action="store_true", help="only what went wrong")
    verb.add_argument("--explain", action="store_true", help="put every byte into words")
    verb.add_argument("--json", action="store_true", help="print a JSON object a line for another program to read")


def _line(args: argparse.Namespace) -> int:
    from app.line_watch import LineWatch

    project = load(args.project)
    if args.follower is not None and args.follower not in project.follower_named:
        names = ", ".join(f"'{name}'" for name in project.follower_named) or "none"
        raise CouldNotRun(f"{args.project}: there is no follower '{args.follower}'; it has: {names}")
    with started(session_of(args, project)) as session, interrupted() as ended:
        where = ", ".join(f"'{name}' at {endpoint}" for name, endpoint in session.endpoints.items())
        print(f"watching {where}; Ctrl+C ends it", file=sys.stderr, flush=True)
        watch = LineWatch(session, follower=args.follower, faults_only=args.faults)
        end = None if args.for_s is None else time.monotonic() + args.for_s
        over = False
        while not over:
            over = ended.wait(0.05) or (end is not None and time.monotonic() >= end)
            _tell_look(args, watch)
        told = time.monotonic()
        _wait(lambda: session.snapshot().at >= told, limit_s=1.0)
        snapshot = session.snapshot()
        _tell_lines(args, watch)
    complain_of_endpoints(snapshot)
    wrong = watch.faults or not watch.requests
    return FOUND_WRONG if wrong else FINE


def _tell_look(args: argparse.Namespace, watch: LineWatch) -> None:
    from app.bus.transcript import as_json, clock_text, many_lines, one_line

    look = watch.look()
    for name, reason in look.lines:
        print(f"line '{name}' is {f'down: {reason}' if reason else 'up again'}", file=sys.stderr, flush=True)
    if look.missed:
        print(f"{look.missed} transactions went by too fast to be told", file=sys.stderr, flush=True)
    offset = watch.clock_offset
    for explanation in look.transactions:
        at = explanation.transaction.at + offset
        if args.json:
            print(json.dumps({"transaction": as_json(explanation, at)}, ensure_ascii=False))
        elif args.explain:
            print(many_lines(explanation, clock_text(at)), end="\n\n")
        else:
            print(one_line(explanation, clock_text(at)))
            if explanation.fault:
                print(f"{'':14}{explanation.fault}")
    if look.transactions:
        sys.stdout.flush()


def _tell_lines(args: argparse.Namespace, watch: LineWatch) -> None:
    """The statistics at the end."""
    from app.bus.transcript import figures_json, figures_text

    if args.json:
        print(json.dumps({"statistics": [figures_json(*line) for line in watch.figures()]}, ensure_ascii=False))
    else:
        print("\n".join(text for line in watch.figures() for text in figures_text(*line)))
    if not watch.requests:
        print("nothing went over the line", file=sys.stderr)


def _panel_arguments(verb: argparse.ArgumentParser) -> None:
    add_project(verb)
    add_endpoint(verb)
    verb.add_argument(
        "--keys",
        metavar="KEYS",
        help="press these keys one after another; '1.5s' among them waits that long, and "
        "'FOLLOWER.WHAT=VALUE' operates a simulated follower, such as pump.external-fault=on",
    )
    verb.add_argument("--armed", action="store_true", help="allow writing to a real line. " + CAUTION)
    add_json(verb)


def _panel(args: argparse.Namespace) -> int:
    project = load(args.project)
    presses = _presses(project, args.keys or "")
    by_hand = args.keys is None and args.for_s is None and not args.json
    if by_hand and not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise CouldNotRun("to be operated by hand the panel needs a terminal; without one give '--keys' or '--for'")
    session = session_of(args, project, armed=args.armed)
    if session.simulation is None and any(_is_deed(press) for press in presses):
        raise CouldNotRun("only simulated followers can be operated so: add '--via simulated'")
    if args.armed and args.via != "simulated":
        print(CAUTION, file=sys.stderr)
    with started(session):
        if by_hand:
            from app.terminal import operate

            return operate(session)
        _settle(session)
        for press in presses:
            if isinstance(press, float):
                _run(session, press)
            elif _is_deed(press):
                _operate(session.simulation, press)
                _settle(session)
            else:
                session.key_down(press)
                session.key_up(press)
                _settle(session)
        _run(session, args.for_s or 0.0)
        complain_of_endpoints(session.snapshot())
        return _report_panel(args, session)


def _presses(project: Project, keys: str) -> list[str | float]:
    """What `--keys` asks for: names of keys, waits in seconds, and deeds at simulated followers."""
    presses: list[str | float] = []
    try:
        words = shlex.split(keys)  # so that a follower's name may have blanks
    except ValueError as why:
        raise CouldNotRun(f"the keys cannot be read: {why}") from None
    for word in words:
        if _is_deed(word) or word in project.panel.keys:
            presses.append(word)
        elif re.fullmatch(r"\d+(\.\d+)?s", word):
            try:
                presses.append(seconds(word[:-1]))
            except argparse.ArgumentTypeError as why:
                raise CouldNotRun(f"a wait among the keys: {why}") from None
        else:
            raise CouldNotRun(f"the panel has no key '{word}'; its keys are: {', '.join(project.panel.keys)}")
    return presses


def _is_deed(press: str | float) -> bool:
    """Whether it operates a simulated follower rather than a key."""
    return isinstance(press, str) and "=" in press


def _operate(simulation: Simulation | None, deed: str) -> None:
    from app.follower.errors import FollowerError
    from app.follower.operate import operate

    try:
        operate({} if simulation is None else simulation.models, deed)
    except FollowerError as why:
        raise CouldNotRun(str(why)) from None


def _settle(session: Session) -> None:
    """Wait until what the shown screen needs has been read after now, and every write has been answered."""
    project = session.project
    since = time.monotonic()
    limit = since + _patience(project)

    def fresh(name: str) -> bool:
        signal = project.signal_named.get(name)
        if signal is None or isinstance(signal, HeldSignal):
            return True
        reading = session.snapshot().readings.get(name)
        if reading is None:
            return False
        if not reading.good:
            return _tried(session.snapshot(), [name])
        return reading.time is not None and reading.time >= since

    def settled() -> bool:
        session.tick()
        shown = project.screen_named.get(session.state.shown)
        return not session.writing and all(fresh(field.signal) for field in (shown.fields if shown else ()))

    _wait(settled, limit_s=limit - since)
    session.tick()


def _run(session: Session, seconds: float) -> None:
    def ticked() -> bool:
        session.tick()
        return False

    _wait(ticked, limit_s=seconds)


def _wait(condition: Callable[[], bool], *, limit_s: float) -> None:
    """Ask `condition` some fifty times a second until it holds or the time is over."""
    end = time.monotonic() + limit_s
    while not condition() and (left := end - time.monotonic()) > 0:
        time.sleep(min(0.02, left))


def _report_panel(args: argparse.Namespace, session: Session) -> int:
    from app.panel.entry import entry_report

    rows = [row.text for row in session.rows()]
    if args.json:
        print_json(
            {"screen": session.state.shown, "cells": rows, "entry": entry_report(session.project, session.state)}
        )
    else:
        edge = "+" + "-" * session.project.panel.columns + "+"
        print("\n".join([edge, *(f"|{row}|" for row in rows), edge]))
    doubtful = _doubtful(session)
    for name, reason in doubtful.items():
        print(f"signal '{name}' is not live: {reason}", file=sys.stderr)
    return FOUND_WRONG if doubtful else FINE


def _doubtful(session: Session) -> dict[str, str]:
    """The signals on the shown screen whose values are not live, each with the reason."""
    from app.panel.machine import view

    project, state = session.project, session.state
    seen = view(project, state, session.snapshot().readings)
    screen = project.screen_named.get(state.shown)
    names = [field.signal for field in (screen.fields if screen else ())]
    return {name: seen[name].reason for name in names if not seen[name].good}


VERBS: dict[str, tuple[Callable[[argparse.Namespace], int], Callable[[argparse.ArgumentParser], None], str]] = {
    "window": (_window, _window_arguments, "open the window"),
    "demo": (_demo, _demo_arguments, "open the window on a demo project, live against its simulated follower"),
    "check": (_check, _check_arguments, "check the design of a project"),
    "compare": (_compare, _compare_arguments, "show what differs between two project files"),
    "plan": (_plan, _plan_arguments, "show which registers are read together, and how long it takes"),
    "follower": (_follower, _follower_arguments, "play the followers of a project until interrupted"),
    "read": (_read, _read_arguments, "read the signals of a project"),
    "line": (_line, _line_arguments, "show each transaction of the line as it happens, its bytes explained"),
    "panel": (_panel, _panel_arguments, "operate the panel in the terminal"),
    "record": (record, record_arguments, "record what is read from a project's lines, until interrupted"),
    "export": (export, export_arguments, "write a recording as text for a spreadsheet or a script"),
    "snapshot": (snapshot, snapshot_arguments, "read all readable registers of a follower into a file"),
    "differences": (differences, differences_arguments, "show what differs between two snapshots of registers"),
}


if __name__ == "__main__":
    raise SystemExit(main())
