"""The verbs of the command line about registers as found and as left: taking a snapshot, and what differs."""

from __future__ import annotations

import argparse
import os
from pathlib import Path
from typing import TYPE_CHECKING

from app.cli.options import add_json, add_project
from app.cli.outcome import FINE, FOUND_WRONG, CouldNotRun, put, put_json, say, tell
from app.cli.sessions import run_session, session_of
from app.project_file.files import load

if TYPE_CHECKING:
    from app.snapshots.snapshot import RegisterSnapshot

_VIA = "tcp://HOST:PORT, serial:DEVICE, serial+tcp://HOST:PORT or 'simulated'; left out: as set in the project"


def snapshot_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight snapshot`."""
    add_project(verb)
    verb.add_argument("--follower", metavar="NAME", help="the device to read; left out: the only one of the project")
    verb.add_argument(
        "--to", metavar="FILE", type=Path, required=True, help="a new file, such as as-found.registers.toml"
    )
    verb.add_argument("--via", metavar="ENDPOINT", help=_VIA)
    verb.add_argument(
        "--range",
        dest="ranges",
        metavar="RANGE",
        action="append",
        default=[],
        help="read these registers too, such as holding:0-99 (may be repeated)",
    )
    verb.add_argument("--notes", metavar="TEXT", default="", help="notes to store in the file")


def snapshot(args: argparse.Namespace) -> int:
    """Read all readable registers of a follower into a file. Nothing is written to the line."""
    from app.snapshots.files import save

    # Asked before the follower is read, which may take minutes on a slow line.
    if os.path.lexists(args.to):
        raise CouldNotRun(f"{args.to} already exists; choose another name, or move it away")
    if not args.to.parent.is_dir():
        raise CouldNotRun(f"there is no folder {args.to.parent}; choose one that exists")
    taken = _take(args, args.project, args.ranges, args.notes)
    save(taken, args.to)
    put(f"{args.to}: {len(taken.registers)} registers of device '{taken.follower}'")
    for each in taken.not_readable:
        say(f"not readable: {each.table} {each.first} to {each.last}: {each.reason}")
    return FINE


def differences_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight differences`."""
    verb.add_argument("before", metavar="BEFORE", type=Path, help="a snapshot")
    verb.add_argument("after", metavar="AFTER", type=Path, nargs="?", help="a second snapshot; left out: --live")
    verb.add_argument("--live", metavar="PROJECT", help="compare with the device as it is now")
    verb.add_argument("--follower", metavar="NAME", help="device of --live; left out: the one of the snapshot")
    verb.add_argument("--via", metavar="ENDPOINT", help=_VIA)
    add_json(verb)


def differences(args: argparse.Namespace) -> int:
    """Show what differs between two snapshots, or between a snapshot and the follower."""
    from app.snapshots.differences import compare
    from app.snapshots.files import open_snapshot

    if (args.after is None) == (args.live is None):
        raise CouldNotRun("give either a second snapshot or --live PROJECT")
    before = open_snapshot(args.before)
    if args.after is not None:
        after = open_snapshot(args.after)
    else:
        args.follower = args.follower or before.follower
        after = _take(args, args.live, [], "", before)
    rows = [row for row in compare(before, after) if row.differs]
    if args.json:
        keys = ("table", "address", "number", "signal", "before", "after", "text_before", "text_after", "measured")
        put_json({"differences": [{key: getattr(row, key) for key in keys} for row in rows]})
    else:
        for row in rows:
            name = f" '{row.signal}'" if row.signal else ""
            mark = " (measured)" if row.measured else ""
            put(f"{row.table} {row.number}{name}: {row.said_before or '-'} -> {row.said_after or '-'}{mark}")
        if not rows:
            tell("no differences")
    return FOUND_WRONG if rows else FINE


def _take(
    args: argparse.Namespace, path: str, ranges: list[str], notes: str, like: RegisterSnapshot | None = None
) -> RegisterSnapshot:
    from app.snapshots.taking import range_of, ranges_like, take

    project = load(path)
    name = args.follower or (project.followers[0].name if len(project.followers) == 1 else "")
    if name not in project.follower_named:
        names = ", ".join(f"'{each.name}'" for each in project.followers) or "none"
        raise CouldNotRun(f"{path}: choose a device with --follower; the project has {names}")
    args.project = path
    follower = project.follower_named[name]
    wanted = [range_of(follower, text) for text in ranges]
    wanted += [] if like is None else ranges_like(like)
    with run_session(session_of(args, project)) as session:
        endpoint = session.endpoints.get(follower.line)
        return take(session.engine, project, name, wanted, line=str(endpoint or ""), notes=notes)
