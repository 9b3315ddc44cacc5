"""Sessions that verbs run: made as the options say, waited for, and stopped in order whatever ends the program."""

from __future__ import annotations

import argparse
import signal
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, NoReturn

from app.cli.outcome import CouldNotRun, say
from app.project.model import Project

if TYPE_CHECKING:
    from app.line.engine import Snapshot
    from app.session.session import Session


@contextmanager
def watch_for_end() -> Iterator[threading.Event]:
    """An event that is set when the user or the system asks this program to end."""
    ended = threading.Event()
    before = {number: signal.signal(number, lambda *_: ended.set()) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield ended
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def session_of(args: argparse.Namespace, project: Project, *, armed: bool = False) -> Session:
    """A session of `project` where `--via` says. Raises FanlightError."""
    from app.client.endpoint import BadEndpoint, Endpoint
    from app.session.session import Session

    if not project.lines:
        raise CouldNotRun(f"{args.project}: there is no line in the project; add a [[line]] and its [[follower]]")
    try:
        if args.via is None or args.via == "simulated":
            return Session(project, args.via, armed=armed)
        return Session(project, Endpoint.parse(args.via, project.lines[0]), armed=armed)
    except BadEndpoint as why:
        if ":" in str(args.via):
            raise
        raise CouldNotRun(f"{why}, or 'simulated'") from None


@contextmanager
def run_session(session: Session) -> Iterator[Session]:
    """Run a session, and stop it in order whatever ends the program. Raises FanlightError."""
    with ending_in_order():
        session.start()
        try:
            yield session
        finally:
            for name in session.stop():
                say(
                    f"the line has not confirmed the stop of signal '{name}'; it may still be on: "
                    "look at the machine, and stop it there"
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
    from app.client.faults import FaultKind

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


def all_tried(snapshot: Snapshot, names: Sequence[str]) -> bool:
    """Whether each of the signals was read, or could not be."""
    from app.signals.reading import NEVER_READ

    return all(snapshot.readings.get(name, NEVER_READ) is not NEVER_READ for name in names)


def patience(project: Project) -> float:
    """Seconds in which every read of `project` has been tried once, even if nobody answers."""
    return 2.0 + sum(line.timeout_ms for line in project.lines) / 1000 * (2 + len(project.followers))


def wait(condition: Callable[[], bool], *, limit_s: float) -> None:
    """Ask `condition` some fifty times a second until it holds or the time is over."""
    end = time.monotonic() + limit_s
    while not condition() and (left := end - time.monotonic()) > 0:
        time.sleep(min(0.02, left))
