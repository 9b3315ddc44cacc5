"""The verbs of the command line about recordings: making one without a window, and writing one out."""

from __future__ import annotations

import argparse
import sys
import threading
import time
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from app.cli.options import add_endpoint, add_json, add_project
from app.cli.outcome import FINE, FOUND_WRONG, CouldNotRun, Results, put, put_json, say
from app.cli.sessions import complain_of_endpoints, run_session, session_of
from app.project_file.files import load
from app.project_file.replace_file import temporary

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

    from app.language import DecimalMark
    from app.recording.reader import Recording
    from app.recording.recorder import Recorder, RecordingProgress
    from app.session.session import Session

LOOK_EVERY_S = 0.05
TELL_EVERY_S = 10.0
"""How often the recording says how it is doing."""


def record_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight record`."""
    add_project(verb)
    add_endpoint(verb)
    verb.add_argument("--to", metavar="FILE", type=Path, required=True, help="a new file, such as run.fanrec")
    verb.add_argument("--max-mb", type=_positive, metavar="MB", help="start a new file at this size")
    verb.add_argument("--max-minutes", type=_positive, metavar="MIN", help="start a new file after so many minutes")
    verb.add_argument("--files", type=int, metavar="N", default=0, help="keep only the newest N files")
    verb.add_argument("--plain", action="store_true", help="do not compress the samples")
    add_json(verb)


def record(args: argparse.Namespace) -> int:
    """Record until the time is over or somebody ends it. Nothing is ever written to the line."""
    from app.recording.limits import Limits
    from app.recording.recorder import Recorder

    project = load(args.project)
    limits = Limits(
        size=int((args.max_mb or 0) * 1_000_000), seconds=(args.max_minutes or 0) * 60, files=max(0, args.files)
    )
    session = session_of(args, project)
    # Before the line is opened: the first readings belong to it.
    recorder = Recorder(
        args.to, project, session.samples, limits=limits, compress=not args.plain, state=session.panel.state
    )
    try:
        with run_session(session):
            # Ctrl+C is the usual end of a recording, and no failure.
            with suppress(KeyboardInterrupt):
                _watch(args, session, recorder)
            progress = recorder.stop()
            _report(args, progress)
            if progress.samples == 0:
                complain_of_endpoints(session.snapshot())
    finally:
        recorder.stop()
    return FOUND_WRONG if progress.trouble or progress.lost or not progress.samples else FINE


def _watch(args: argparse.Namespace, session: Session, recorder: Recorder) -> None:
    """Keep the session going and its events coming."""
    from app.events.event_detector import EventDetector

    watch = EventDetector(session.project)
    watch.changed_held(session.panel.state)
    samples = session.engine.samples.subscribe()
    began = told = time.monotonic()
    pause = threading.Event()
    trouble = ""
    try:
        while args.for_s is None or time.monotonic() - began < args.for_s:
            watch.effects(session.panel.tick(), session.panel.at)
            watch.samples(samples.take())
            watch.reports(session.take_reports())
            watch.look(session.snapshot(), session.panel.state, (), session.panel.at)
            now = time.monotonic()
            for name, value in watch.changed_held(session.panel.state):
                recorder.keep_held(name, now, value)
            for event in watch.take():
                recorder.event(event)
            progress = recorder.progress
            if progress.trouble != trouble:
                trouble = progress.trouble
                say(trouble or "recording continues")
            elif now - told >= TELL_EVERY_S:
                told = now
                say(f"{progress.seconds:.0f} s, {progress.samples} samples, {progress.size / 1e6:.1f} MB")
            pause.wait(LOOK_EVERY_S)
    finally:
        watch.end()
        for event in watch.take():
            recorder.event(event)


def _report(args: argparse.Namespace, progress: RecordingProgress) -> None:
    if args.json:
        put_json(
            {
                "file": str(progress.path),
                "seconds": round(progress.seconds, 3),
                "samples": progress.samples,
                "bytes": progress.size,
                "lost": progress.lost,
                "trouble": progress.trouble,
            }
        )
    else:
        put(f"{progress.path}: {progress.samples} samples in {progress.seconds:.1f} s, {progress.size} bytes")
        if progress.lost:
            say(f"{progress.lost} samples were lost")


def export_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight export`."""
    verb.add_argument("recording", metavar="RECORDING", type=Path, help="a recording, such as run.fanrec")
    verb.add_argument("--to", metavar="FILE.csv", type=Path, help="a new file; left out: standard output")
    verb.add_argument("--signal", metavar="NAME", action="append", help="this signal only (may be repeated)")
    verb.add_argument("--from", dest="begin", metavar="S", type=float, help="from this second of the recording on")
    verb.add_argument("--until", dest="end", metavar="S", type=float, help="up to this second of the recording")
    what = verb.add_mutually_exclusive_group()
    what.add_argument("--rows", action="store_true", help="one row per sample, with its quality and registers")
    what.add_argument("--every", metavar="S", type=_positive, help="one row every S seconds, with the last values")
    what.add_argument("--events", action="store_true", help="events instead of samples")
    what.add_argument("--project", action="store_true", help="the project file as it was when recorded")
    verb.add_argument(
        "--decimal-comma", action="store_true", help="write 10,3 instead of 10.3, and separate columns by semicolons"
    )
    verb.add_argument("--semicolons", action="store_true", help="separate columns by semicolons instead of commas")


def export(args: argparse.Namespace) -> int:
    """Write a recording as text."""
    from app.recording.reader import Recording

    if args.begin is not None and args.end is not None and args.end < args.begin:
        raise CouldNotRun(f"--until {args.end:g} lies before --from {args.begin:g}")
    with Recording.open(args.recording) as recording:
        names = args.signal or list(recording.signals)
        for name in names:
            if name not in recording.plottable:
                raise CouldNotRun(f"{args.recording}: there is no signal '{name}' in the recording")
        if args.to is None:
            sys.stdout.reconfigure(newline="")  # type: ignore[union-attr]  # the ends of lines are ours
            _write(args, recording, names, Results())
        else:
            _write_file(args, recording, names)
        if recording.remark:
            say(recording.remark)
        for damage in recording.damage:
            say(f"{args.recording} is damaged: {damage}; the readable part is exported")
        return FOUND_WRONG if recording.damage else FINE


def _write_file(args: argparse.Namespace, recording: Recording, names: list[str]) -> None:
    target: Path = args.to
    if target.exists():
        raise CouldNotRun(f"{target} already exists; choose another name, or move it away")
    try:
        with temporary(target) as begun:
            with begun.open("w", encoding="utf-8-sig", newline="") as out:
                _write(args, recording, names, out)
            begun.replace(target)
    except OSError as why:
        raise CouldNotRun(f"{target} cannot be written: {why.strerror or why}") from None


def _write(args: argparse.Namespace, recording: Recording, names: list[str], out: SupportsWrite[str]) -> None:
    from app.recording.export import write_events, write_grid, write_samples, write_table

    if args.project:
        out.write(recording.project_text)
        return
    begin, end = recording.span()
    begin = begin if args.begin is None else args.begin
    end = end if args.end is None else args.end
    delimiter = ";" if args.semicolons or args.decimal_comma else ","
    mark: DecimalMark = "," if args.decimal_comma else "."
    if args.events:
        write_events(recording, out, begin, end, delimiter=delimiter, mark=mark)
    elif args.rows:
        write_samples(recording, out, names, begin, end, delimiter=delimiter, mark=mark)
    elif args.every is not None:
        write_grid(recording, out, names, begin, end, args.every, delimiter=delimiter, mark=mark)
    else:
        write_table(recording, out, names, begin, end, delimiter=delimiter, mark=mark)


def _positive(text: str) -> float:
    try:
        found = float(text)
    except ValueError:
        found = 0.0
    if not 0 < found < 1e9:
        raise argparse.ArgumentTypeError(f"'{text}' is not a number above 0")
    return found
