"""What several verbs of the command line share: their options, running a session, and how they end."""

from __future__ import annotations

import argparse
import json
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, NoReturn

from app.project.model import Project

if TYPE_CHECKING:  # what only some verbs need is imported when they run: the command answers quickly
    from app.bus.engine import Snapshot
    from app.session import Session

FINE, FOUND_WRONG, COULD_NOT_RUN = 0, 1, 2
"""Exit statuses: fine; it ran and found something wrong; it could not run."""


class CouldNotRun(Exception):
    """The command cannot do its work; the message says what is wrong and what to do."""


def add_project(verb: argparse.ArgumentParser) -> None:
    """The project file."""
    verb.add_argument("project", metavar="PROJECT", help="a project file")


def add_json(verb: argparse.ArgumentParser) -> None:
    """JSON instead of words."""
    verb.add_argument("--json", action="store_true", help="print JSON for another program to read")


def seconds(text: str) -> float:
    """What `--for` takes. Raises argparse.ArgumentTypeError in words."""
    try:
        found = float(text)
    except ValueError:
        found = -1.0
    if not 0 <= found <= 86_400:
        raise argparse.ArgumentTypeError(f"'{text}' is not a number of seconds from 0 to 86400")
    return found


def add_endpoint(verb: argparse.ArgumentParser) -> None:
    """Where the followers are, and for how long."""
    verb.add_argument(
        "--via",
        metavar="ENDPOINT",
        help="tcp://HOST:PORT, serial:DEVICE, serial+tcp://HOST:PORT or 'simulated'; left out: as the project says",
    )
    verb.add_argument("--for", dest="for_s", metavar="S", type=seconds, help="run for S seconds")


@contextmanager
def interrupted() -> Iterator[threading.Event]:
    """An event that is set when the user or the system asks this program to end."""
    ended = threading.Event()
    before = {number: signal.signal(number, lambda *_: ended.set()) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield ended
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def session_of(args: argparse.Namespace, project: Project, *, armed: bool = False) -> Session:
    """A session of `project` where `--via` says. Raises CouldNotRun."""
    from app.bus.endpoint import BadEndpoint, Endpoint
    from app.session import CannotConnect, Session

    if not project.lines:
        raise CouldNotRun(f"{args.project}: the project has no line; add a [[line]] and its [[follower]]")
    try:
        if args.via is None or args.via == "simulated":
            return Session(project, args.via, armed=armed)
        return Session(project, Endpoint.parse(args.via, project.lines[0]), armed=armed)
    except (BadEndpoint, CannotConnect) as why:
        raise CouldNotRun(str(why)) from None


@contextmanager
def started(session: Session) -> Iterator[Session]:
    """Run a session, and stop it in order whatever ends the program. Raises CouldNotRun."""
    from app.follower.simulation import FollowerError

    with ending_in_order():
        try:
            session.start()
        except FollowerError as why:
            raise CouldNotRun(str(why)) from None
        try:
            yield session
        finally:
            for name in session.stop():
                print(
                    f"fanlight: the line has not confirmed that signal '{name}' was released; it may still be on: "
                    "look at the machine, and stop it there",
                    file=sys.stderr,
                )


@contextmanager
def ending_in_order() -> Iterator[None]:
    """Take the system's wish to end, or a terminal that is closed, as Ctrl+C: what a key holds is released first."""

    def interrupt(*_: object) -> NoReturn:
        raise KeyboardInterrupt

    names = [name for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]  # Windows has no SIGHUP
    before = {name: signal.signal(getattr(signal, name), interrupt) for name in names}
    try:
        yield
    finally:
        for name, handler in before.items():
            signal.signal(getattr(signal, name), handler)


def complain_of_endpoints(snapshot: Snapshot) -> None:
    """Raise CouldNotRun if a line cannot be opened because of something on this computer rather than the far end."""
    from app.bus.faults import FaultKind

    here = {
        FaultKind.NO_SUCH_HOST,
        FaultKind.PORT_MISSING,
        FaultKind.PORT_BUSY,
        FaultKind.PORT_PERMISSION,
        FaultKind.PORT_SETTINGS,
    }
    for line in snapshot.lines.values():
        if not line.connected and not line.good and here & line.faults.keys():
            raise CouldNotRun(line.reason)


def print_json(value: object) -> None:
    """Print JSON for another program."""
    print(json.dumps(value, indent=2, ensure_ascii=False))
