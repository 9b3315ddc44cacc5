"""The verbs of the command line about trials: running one, proposing one, and verifying a record."""

from __future__ import annotations

import argparse
import os
import secrets
import sys
import threading
from collections.abc import Callable, Mapping
from dataclasses import asdict
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from app.cli.options import add_json, add_project
from app.cli.outcome import FINE, FOUND_WRONG, CouldNotRun, put, put_json, say, tell
from app.cli.sessions import ending_in_order
from app.project.by_itself import written_by_itself
from app.project.model import Project
from app.project_file.files import load
from app.trial.runner import Watcher

if TYPE_CHECKING:
    from app.signing.keys import SigningKey
    from app.trial.outcome import CaseOutcome, StepOutcome
    from app.trial.random_keys import KeyLimits
    from app.trial.runner import KilledRun, Person
    from app.trial.script import Case, Trial
    from app.trial.side_by_side import SideBySideOutcome
    from app.trial.stand import Stand
    from app.trial_record.record import TrialRecord

CAUTION = (
    "Caution: a trial presses the panel's keys by itself, and this can move a machine. Nothing in it is an emergency "
    "stop; motion can start immediately; keep people clear; local regulations and a qualified person decide."
)

_Done = TypeVar("_Done")

MOST_SHOWN = 10
"""Of one kind of what was not tried."""


def trial_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight trial`."""
    add_project(verb)
    verb.add_argument(
        "trial",
        metavar="TRIAL",
        nargs="?",
        help="a trial file, such as pump.trial.toml; left out with --random",
    )
    verb.add_argument(
        "--via",
        metavar="ENDPOINT",
        help="tcp://HOST:PORT, serial:DEVICE, serial+tcp://HOST:PORT or 'simulated'; left out: as set in the project",
    )
    verb.add_argument(
        "--real-time",
        action="store_true",
        help="with '--via simulated': over a real line and in real time; left out: as quickly as the computer can",
    )
    verb.add_argument("--armed", action="store_true", help="allow writing to a real line. " + CAUTION)
    verb.add_argument(
        "--case", metavar="NAME", action="append", default=[], help="run this case only (may be repeated)"
    )
    verb.add_argument(
        "--answers",
        metavar="FILE",
        type=Path,
        help="answers to its questions, TOML tables [[answer]]: may_move = true, or question = '...' with yes = true "
        "or value = 401",
    )
    verb.add_argument("--by", metavar="NAME", default="", help="who runs it, for the record")
    verb.add_argument("--place", metavar="TEXT", default="", help="where it is run, for the record")
    verb.add_argument("--record", metavar="FILE", type=Path, help="a new file for the record, NAME.trial.json")
    verb.add_argument("--sign", metavar="KEY", type=Path, help="sign the record with this private key (Ed25519)")
    verb.add_argument("--junit", metavar="FILE", type=Path, help="a file for the results as JUnit XML")
    verb.add_argument(
        "--random",
        metavar="N",
        type=int,
        help="instead of a trial: press N keys drawn at random on the simulation and on the device at the other end, "
        "and tell what differs; needs '--armed', and asks before it begins",
    )
    verb.add_argument(
        "--seed",
        metavar="S",
        type=int,
        help="with --random: the same seed draws the same keys again; left out: any, which is told",
    )
    verb.add_argument(
        "--keys",
        metavar="A,B",
        type=_names,
        help="with --random: the keys to draw from; left out: all but those that may start something",
    )
    verb.add_argument(
        "--screens", metavar="A,B", type=_names, default=(), help="with --random: no key that leads to another screen"
    )
    verb.add_argument(
        "--stop", metavar="KEY", help="with --random: pressed at the end; left out: the key that stops on every screen"
    )
    add_json(verb)


def _names(text: str) -> tuple[str, ...]:
    return tuple(filter(None, (name.strip() for name in text.split(","))))


def trial(args: argparse.Namespace) -> int:
    """Run a trial of a project, or keys at random. Exit status: 0 passed, 1 not, 2 could not run."""
    if args.random is not None:
        return _at_random(args)
    if args.trial is None:
        raise CouldNotRun("name a trial file, or say '--random N'")
    from app.trial.outcome import Verdict
    from app.trial.script_file import load_trial, problems_with, project_digest

    project, script = load(args.project), load_trial(args.trial)
    if problems := problems_with(script, project):
        shown = "\n".join(f"  {problem}" for problem in problems[:30])
        raise CouldNotRun(f"{args.trial} does not fit {args.project}:\n{shown}")
    if script.digest and script.digest != project_digest(project):
        say(f"{args.trial} was made for another state of this project; what has changed since is not tested by it")
    names = {case.name for case in script.expanded}
    for name in args.case:
        if name not in names:
            raise CouldNotRun(f"there is no case '{name}' in {args.trial}")
    _refuse_what_is_there(args)
    key = _key(args.sign) if args.sign is not None else None
    stand = _stand(args, project)
    person, printer = _person(args, script), _Printer(quiet=args.json)
    if not any(case.is_on(simulated=stand.simulated) for case in script.expanded if case.name in (args.case or names)):
        kind = "simulated devices" if stand.simulated else "a real device"
        raise CouldNotRun(f"{args.trial} has no case that can be run against {kind}")
    args.unfinished = _set_aside(args.record, stand, armed=args.armed) if args.record is not None else None
    if not stand.simulated:
        _say_cautions(args, project)
    record = _run(args, project, script, stand, person, printer)
    if args.junit is not None:
        from app.trial_record.junit import junit

        _write(args.junit, junit(record))
    if key is not None and record.finished:
        from app.trial_record.verifying import sign_record

        signature = sign_record(args.record, key)
        say(f"{signature}: signed by the key {key.fingerprint}")
    if args.json:
        from app.trial_record.record import plain

        put_json(plain(record))
    else:
        _report(args, record)
    return FINE if record.result is Verdict.PASSED else FOUND_WRONG


def propose_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight propose`."""
    add_project(verb)
    verb.add_argument("--to", metavar="TRIAL", type=Path, required=True, help="a new file, such as NAME.trial.toml")


def propose(args: argparse.Namespace) -> int:
    """Make a trial from a project alone: each screen change, entry, limit, text and action is tried."""
    from app.proposing.propose import propose as proposed
    from app.trial.script_file import save_trial

    project = load(args.project)
    if os.path.lexists(args.to):
        raise CouldNotRun(f"{args.to} already exists; choose another name, or move it away")
    made = proposed(project, Path(args.project).name)
    try:
        save_trial(made, args.to)
    except OSError as why:
        raise CouldNotRun(f"{args.to} was not written: {why.strerror or why}") from None
    put(f"{args.to}: {len(made.cases)} cases, {sum(len(case.steps) for case in made.cases)} steps")
    return FINE


def verify_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight verify`."""
    verb.add_argument("record", metavar="RECORD", type=Path, help="a record, NAME.trial.json")
    verb.add_argument(
        "--signers", metavar="FILE", type=Path, help="whose signatures count: a file as ssh-keygen's allowed signers"
    )
    add_json(verb)


def verify(args: argparse.Namespace) -> int:
    """Tell whether a record is as it was signed, by whom, and whether the files that belong to it are whole."""
    from app.trial_record.verifying import verify_record

    found = verify_record(args.record, args.signers)
    if args.json:
        put_json(found.plain())
    else:
        put(*found.words())
    return FINE if found.good else FOUND_WRONG


def _key(file: Path) -> SigningKey:
    from app.signing.keys import load_key

    def pass_phrase(of: str) -> str | None:
        from getpass import getpass

        return getpass(f"pass phrase of {of}: ") if sys.stdin is not None and sys.stdin.isatty() else None

    return load_key(file, pass_phrase)


# How it is run --------------------------------------------------------------------------------------------------------


def _refuse_what_is_there(args: argparse.Namespace) -> None:
    """Nothing is written over: asked before anything moves."""
    from app.trial_record.journal import journal_of
    from app.trial_record.record import recording_of

    if args.sign is not None and args.record is None:
        raise CouldNotRun("'--sign' signs a record: add '--record FILE'")
    if args.record is None:
        return
    if not args.record.parent.is_dir():
        raise CouldNotRun(f"there is no folder {args.record.parent}; choose one that exists")
    of_killed = journal_of(args.record).exists()  # then the curves are those of that run, and set aside with it
    for path in (args.record, recording_of(args.record)):
        if os.path.lexists(path) and not (of_killed and path != args.record):
            raise CouldNotRun(f"{path} already exists; choose another name, or move it away")


def _set_aside(record: Path, stand: Stand, *, armed: bool) -> KilledRun | None:
    """A run before was killed: its record so far is kept as an unfinished one, and what it may have left is told.

    What it has left at a device is known from there alone, so only a run that can put it back may set it aside.
    """
    from app.trial_record.journal import journal_of, leftover, set_aside
    from app.trial_record.record import DEVICE

    left = leftover(record)
    if left is not None and left.case and left.record.against == DEVICE and (stand.simulated or not armed):
        raise CouldNotRun(
            f"an earlier run at the device ended in the case '{left.case}', which had not been cleaned up: run it "
            f"again at the device with '--armed', or look at the machine and move {journal_of(record)} away"
        )
    found = set_aside(record)
    if found is None:
        return None
    aside, unfinished = found
    say(f"an earlier run was not ended; its record so far is {aside}")
    if unfinished is not None:
        say(f"it ended in the case '{unfinished.case}', which had not been cleaned up")
        for name, value in unfinished.before.items():
            tell(f"   before it, '{name}' was {float(value):g}")
    return unfinished


def _stand(args: argparse.Namespace, project: Project) -> Stand:
    from app.cli.sessions import session_of
    from app.trial.stand import RehearsedStand, SessionStand

    if args.via == "simulated" and not args.real_time:
        return RehearsedStand(project)
    if args.real_time and args.via != "simulated":
        raise CouldNotRun("'--real-time' is for simulated devices: add '--via simulated'")
    session = session_of(args, project)  # says what is wrong with the endpoint
    via = args.via if args.via in (None, "simulated") else next(iter(session.endpoints.values()))
    return SessionStand(project, via, armed=args.armed)


def _say_cautions(args: argparse.Namespace, project: Project) -> None:
    tell(CAUTION)
    if not args.armed:
        say("writing is off: keys that write will be refused; add '--armed' to allow it")
        return
    for each in written_by_itself(project):
        tell(f"{'Without a key, can start something' if each.starts else 'Without a key'}: {each.words}")


def _run(
    args: argparse.Namespace, project: Project, script: Trial, stand: Stand, person: Person, printer: Watcher
) -> TrialRecord:
    from app.trial.coverage import Coverage
    from app.trial.stand import SessionStand
    from app.trial_record.identify import identification
    from app.trial_record.record import Circumstances
    from app.trial_record.recorded_run import TrialRun

    endpoints = stand.session.endpoints if isinstance(stand, SessionStand) and not stand.simulated else {}
    names = identification(project, endpoints) if args.record is not None else {}
    around = Circumstances(args.by, args.place, args.project, str(args.trial), endpoints, names)
    run = TrialRun(
        script,
        project,
        stand,
        person,
        [printer],
        around=around,
        record=args.record,
        only=args.case,
        unfinished=args.unfinished,
    )
    covered = Coverage(stand)
    record = _stoppable(
        lambda: run.run(coverage=lambda: covered.covered.as_data()),
        run.stop,
        "stopping: keys are let go, and what the case cleans up is cleaned up",
    )
    if run.trouble:
        say(run.trouble)
    return record


def _stoppable(work: Callable[[], _Done], stop: Callable[[], object], words: str) -> _Done:
    """Do this in a thread of its own; Ctrl-C stops it in order, and these words say so."""
    done: list[_Done] = []
    failed: list[BaseException] = []
    over = threading.Event()

    def run() -> None:
        try:
            done.append(work())
        except BaseException as why:  # noqa: BLE001  # raised again where it can be told
            failed.append(why)
        finally:
            over.set()

    with ending_in_order():
        threading.Thread(target=run, name="fanlight-trial").start()
        while not over.is_set():
            try:
                over.wait()  # not a join: a thread whose join is interrupted counts as ended
            except KeyboardInterrupt:
                say(words)
                stop()
    if failed:
        raise failed[0]
    return done[0]


# Keys at random -------------------------------------------------------------------------------------------------------


def _at_random(args: argparse.Namespace) -> int:
    """Press keys at random on simulation and device. Exit status: 0 nothing differs, 1 something does, 2 not run."""
    from app.trial.side_by_side import NotAgreedError, SideBySide

    if args.trial is not None or args.case or any((args.record, args.sign, args.junit)):
        raise CouldNotRun("'--random' runs no trial and keeps no record: leave out TRIAL, --case, --record and such")
    project = load(args.project)
    limits = _limits(args, project)
    if args.via == "simulated" and not args.real_time:
        raise CouldNotRun("'--random' compares the simulation with a device: name it by '--via ENDPOINT'")
    if args.via != "simulated" and not args.armed:
        raise CouldNotRun("'--random' presses keys that write to the device; allow it by '--armed'. " + CAUTION)
    stand = _stand(args, project)
    if not stand.simulated:
        _say_cautions(args, project)
    seed = secrets.randbelow(1_000_000) if args.seed is None else args.seed
    tell(f"seed {seed}; keys: {', '.join(limits.keys)}; at the end: {limits.stop or 'no stop key'}")
    comparison = SideBySide(project, stand, limits, _person(args))
    try:
        outcome = _stoppable(
            lambda: comparison.run(seed),
            comparison.stop,
            "stopping: the stop key is pressed, keys are let go, and values are put back",
        )
    except NotAgreedError as why:
        raise CouldNotRun(f"nothing was pressed, since nobody agreed: {why}") from None
    for words in outcome.not_restored:
        say(words)
    if args.json:
        put_json({"seed": seed, "limits": asdict(limits), **asdict(outcome)})
    else:
        _report_random(outcome)
    if outcome.stopped:
        raise CouldNotRun("it was stopped before it was over")
    return FOUND_WRONG if outcome.differences or outcome.not_restored else FINE


def _limits(args: argparse.Namespace, project: Project) -> KeyLimits:
    from app.trial.random_keys import MOST_PRESSES, KeyLimits, starting_keys, stop_key

    if not 1 <= args.random <= MOST_PRESSES:
        raise CouldNotRun(f"'--random' takes 1 to {MOST_PRESSES} keys, not {args.random}")
    keys, screens = project.panel.keys, project.screen_named
    for name in (*(args.keys or ()), *((args.stop,) if args.stop else ())):
        if name not in keys:
            raise CouldNotRun(f"the panel has no key '{name}'; its keys are: {', '.join(keys)}")
    for name in args.screens:
        if name not in screens:
            raise CouldNotRun(f"there is no screen '{name}' in {args.project}")
    starts = starting_keys(project)
    chosen = tuple(key for key in keys if key not in starts) if args.keys is None else args.keys
    if said := [key for key in chosen if key in starts]:
        say(f"these keys may start something, and are among those drawn: {', '.join(said)}")
    return KeyLimits(chosen, args.screens, args.random, args.stop or stop_key(project))


def _report_random(outcome: SideBySideOutcome) -> None:
    tell(*(f"   differs from the beginning, and is left out: {one.words}" for one in outcome.from_beginning))
    tell(*(f"   put back: {words}" for words in outcome.restored))
    if not outcome.differences:
        put(f"{outcome.pressed} keys pressed: simulation and device do the same")
        return
    put(f"after {outcome.pressed} keys, the last of them '{outcome.drawn[outcome.pressed - 1]}', they differ:")
    put(*(f"   {one.words}" for one in outcome.differences))
    where = "tried at the device" if outcome.tried_at_device else "tried on the simulation only"
    put(f"shortest way there ({where}): {', '.join(outcome.shortest)}")


def _person(args: argparse.Namespace, script: Trial | None = None) -> Person:
    from app.trial.replies import load_replies
    from app.trial.runner import Nobody

    known = load_replies(args.answers) if args.answers is not None else None
    for problem in () if known is None or script is None else known.never_asked(script):
        say(f"{args.answers}: {problem}")
    if sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty() and not args.json:
        from app.cli.trial_questions import TerminalPerson

        return TerminalPerson(known)
    return known or Nobody()


class _Printer(Watcher):
    """Tells in the terminal how the run goes on."""

    def __init__(self, *, quiet: bool) -> None:
        self._quiet = quiet

    def case_begins(self, index: int, case: Case, before: Mapping[str, Fraction]) -> None:  # noqa: ARG002
        """The name of the case."""
        if not self._quiet:
            put(f"{index + 1}. {case.name}")

    def step_ends(self, index: int, outcome: StepOutcome) -> None:  # noqa: ARG002
        """A line for the step."""
        if not self._quiet:
            said = outcome.reason or (outcome.found if outcome.answer is not None else "")
            why = f": {said}" if said else ""
            put(f"   {outcome.result.value:10} {outcome.words}{why}")

    def case_ends(self, index: int, outcome: CaseOutcome) -> None:  # noqa: ARG002
        """What was put back, and what was not."""
        if not self._quiet:
            put(*(f"   put back   {words}" for words in outcome.restored))
        for words in outcome.not_restored:
            say(words)


def _report(args: argparse.Namespace, record: TrialRecord) -> None:
    from app.trial.outcome import Result

    results = [case.result for case in record.cases]
    counts = ", ".join(f"{results.count(each)} {each.value}" for each in Result if each in results)
    missing = 0
    for part, told in record.coverage.items():
        if isinstance(told, dict) and "reached" in told:
            put(f"{told['reached']} of {told['of']} {part}")
            missing += len(told["missing"])
            tell(*(f"   not tried: {words}" for words in told["missing"][:MOST_SHOWN]))
    if missing > MOST_SHOWN:
        tell("   all that was not tried stands in the record")
    put(f"{record.result.value.upper()} against {record.against}: {counts or 'no case was run'}, {record.took_s:.1f} s")
    if args.record is not None:
        put(f"{args.record}: the record")


def _write(path: Path, content: bytes) -> None:
    from app.project_file.replace_file import write_whole

    try:
        write_whole(path, content)
    except OSError as why:
        raise CouldNotRun(f"{path} was not written: {why.strerror or why}") from None
