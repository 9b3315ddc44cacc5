"""The polling engine: all lines of a project in one thread with its own event loop, and snapshots of what it knows."""

from __future__ import annotations

import asyncio
import os
import threading
import time
from collections.abc import Iterable, Mapping
from concurrent.futures import Future
from contextlib import suppress
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from app.client.endpoint import Endpoint
from app.client.faults import Fault, FaultKind, LineFault
from app.client.timing import exact_loop
from app.client.transactions import TransactionLog
from app.language import translate
from app.line.poller import LinePoller
from app.line.read_requests import AdHocRead
from app.line.readings import Readings
from app.line.samples import SampleBus
from app.line.states import FollowerState, LineState, Snapshot
from app.line.write_queue import Obstacle, Outcome, WriteReport
from app.modbus.requests import read_request
from app.planning.plan import make_plan
from app.project.binding import Binding, Unbound, bind, unencodable
from app.project.capability import cannot_write, not_offered
from app.project.model import Project
from app.project.purpose import Purpose
from app.project.raw_register import bind_register
from app.signals.numbering import Table
from app.signals.reading import Value

__all__ = ["Engine", "FollowerState", "LineState", "Snapshot"]

PUBLISH_EVERY_S: Final = 0.02
"""Snapshots follow one another no faster than this: nobody can see more."""
PUBLISH_AT_LEAST_S: Final = 0.3
"""Nor slower than this, whatever happens: what counts on is in them, too."""
FLUSH_EVERY_S: Final = 0.005
RELEASE_S: Final = 1.0
"""How long what stops something may still take when somebody disarms a line, in seconds."""
AGE_EVERY_S: Final = 0.1
"""How often readings are looked through for those that have grown too old."""


class Engine:
    """Reads and writes all lines of a project. Every method may be called from any thread, and none waits for a line.

    `endpoints` says where each line leads; a line without one stays down. `armed` names the lines that may be written
    to from the start; `stays_armed` lets them be so when they were lost for long, since nothing real can move there.
    `samples` gets every reading; whoever subscribed to it before has the first ones, too. An engine runs once: after
    `stop` make another one.
    """

    def __init__(
        self,
        project: Project,
        endpoints: Mapping[str, Endpoint],
        *,
        armed: Iterable[str] = (),
        stays_armed: bool = False,
        samples: SampleBus | None = None,
    ) -> None:
        self._project = project
        self._plan = make_plan(project, endpoints=endpoints)
        self.transactions = TransactionLog()
        """The newest transactions of all lines."""
        self.samples = samples or SampleBus()
        """Every reading as it comes, for those who subscribe."""
        cycles = {line.line: line.cycle_ms for line in self._plan.lines}
        self._readings = Readings(project, cycles, self._plan.left_out, self.samples)
        arming = frozenset(armed)
        self._lines = {
            plan.line: LinePoller(
                project,
                plan,
                endpoints[plan.line],
                self._readings,
                self.transactions.append,
                self._note_change,
                armed=plan.line in arming,
                stays_armed=stays_armed,
                shared_with=_sharing(plan.line, endpoints),
            )
            for plan in self._plan.lines
            if plan.line in endpoints
        }
        self._unled = {
            line.name: LineState(line.name, "", reason=translate("bus", "this line has no port or host"))
            for line in project.lines
            if line.name not in endpoints
        }
        self._unasked = {each.name: FollowerState(each.name, each.line, each.unit) for each in project.followers}
        self._loop: asyncio.AbstractEventLoop | None = None
        self._stopping: asyncio.Event | None = None
        self._thread: threading.Thread | None = None
        self._ended = False
        self._lock = threading.Lock()
        self._number = 0
        self._published = 0.0
        self._publishing: asyncio.TimerHandle | None = None
        self._snapshot = self._make_snapshot()

    @property
    def running(self) -> bool:
        """Whether it was started and not stopped."""
        return self._thread is not None and not self._ended

    def start(self) -> None:
        """Start the thread. Returns when it runs, not when a line is open. Raises RuntimeError after `stop`."""
        with self._lock:
            if self._ended:
                raise RuntimeError("an engine runs once; make another one")
            if self._thread is not None:
                return
            ready = threading.Event()
            self._thread = threading.Thread(target=self._run, args=(ready,), name="fanlight-line", daemon=True)
            self._thread.start()
        ready.wait()

    def stop(self) -> None:
        """Close all lines and end the thread. Writes that wait are dropped, and reported so. May be called twice."""
        with self._lock:
            thread, self._ended = self._thread, True
        if thread is None or thread is threading.current_thread():
            return
        if self._loop is not None and self._stopping is not None and thread.is_alive():
            with suppress(RuntimeError):  # the loop may have ended by itself
                self._loop.call_soon_threadsafe(self._stopping.set)
        thread.join()

    def snapshot(self) -> Snapshot:
        """The newest snapshot. Immutable; taking it costs nothing."""
        return self._snapshot

    def write(self, signal: str, value: Value | int, purpose: Purpose = Purpose.VALUE) -> Future[WriteReport]:
        """Write an engineering value to a signal, ahead of all reads, and read it back.

        What stops something is sent again until it is proved (see `app.line.writer`); the report says how that ended.
        The future always gets a report, never an exception; a refused write has `ok` false and a reason.
        """
        wanted: Value = value if isinstance(value, str) else Fraction(value)
        reason = cannot_write(self._project, signal, wanted)
        if reason is None:
            try:
                return self._hand_over(bind(self._project, signal), wanted, purpose)
            except Unbound as why:
                reason = str(why)
        return _not_sent(signal, wanted, reason)

    def _hand_over(self, binding: Binding, value: Value, purpose: Purpose = Purpose.VALUE) -> Future[WriteReport]:
        """Give a write, which the project allows, to its line, if that takes it."""
        name = binding.follower.line
        line = self._lines.get(name)
        if line is None:
            reason, obstacle = translate("bus", "line '{line}' is down: it has no port or host"), Obstacle.DOWN
        elif not (line.armed if purpose is Purpose.VALUE else line.takes_stops):
            reason, obstacle = translate("bus", "line '{line}' is not armed"), Obstacle.NOT_ARMED
        else:
            # Under the lock, so that `stop` comes behind: what was handed over is then still reported.
            with self._lock:
                if self._loop is not None and self.running:
                    future: Future[WriteReport] = Future()
                    self._loop.call_soon_threadsafe(line.want, binding, value, future, purpose)
                    return future
            reason, obstacle = translate("bus", "line '{line}' is stopped"), Obstacle.DOWN
        return _not_sent(binding.signal.name, value, reason.format(line=name), obstacle)

    def read(self, follower: str, table: Table, address: int, count: int) -> Future[tuple[int, ...]]:
        """Read registers or bits that no plan names, from wire address `address` on, between the reads of the plan.

        The future gets the words (bits as 0 and 1), or raises LineFault: refused, unanswered, or the line is down.
        While the line is being opened it waits. Cancelling the future takes it back. Raises KeyError for an
        unknown follower, ValueError for addresses or a count that the protocol does not know.
        """
        line_name = self._project.follower_named[follower].line
        ad_hoc = AdHocRead(follower, table, address, count, Future())
        read_request(1, table, address, count)
        line = self._lines.get(line_name)
        reason = translate("bus", "line '{line}' is stopped").format(line=line_name)
        if line is None:
            reason = translate("bus", "line '{line}' is down: it has no port or host").format(line=line_name)
        # Under the lock, so that `stop` comes behind: what was handed over is then still answered.
        with self._lock:
            if line is not None and self._loop is not None and not self._ended:
                self._loop.call_soon_threadsafe(line.look_up, ad_hoc)
                return ad_hoc.words
        ad_hoc.words.set_exception(LineFault(Fault(FaultKind.CLOSED, reason)))
        return ad_hoc.words

    def write_register(self, follower: str, table: Table, address: int, word: int) -> Future[WriteReport]:
        """Write one raw word, 0..65535, or one coil, 0 or 1, that no signal names, and read it back.

        As `write` in all else; the report names the register instead of a signal. Raises KeyError for an unknown
        follower and Unbound if a signal names the register: then `write` knows its limits.
        """
        binding = bind_register(self._project, follower, table, address)
        wanted = Fraction(word)
        # Without a signal there are no limits, but for what the register can hold.
        reason = unencodable(binding, wanted) or not_offered(binding)
        return self._hand_over(binding, wanted) if reason is None else _not_sent(binding.signal.name, wanted, reason)

    def arm(self, line: str, on: bool = True, *, stops_s: float = RELEASE_S) -> None:
        """Allow or forbid writing to a line. Raises KeyError for an unknown line.

        Forbidding drops what waits; only the stops that are owed still go out, for `stops_s` seconds at most.
        """
        if line in self._unled:
            return
        at_work = self._lines[line]
        at_work.arm(on)
        if self._loop is not None and self.running:
            with suppress(RuntimeError):  # stopped meanwhile: all is dropped anyway
                if on:
                    self._loop.call_soon_threadsafe(self._note_change)
                else:
                    self._loop.call_soon_threadsafe(at_work.disarm, time.monotonic() + stops_s)

    def is_armed(self, line: str) -> bool:
        """Whether a line may be written to."""
        return line in self._lines and self._lines[line].armed

    def show(self, signals: Iterable[str]) -> None:
        """Read these signals first from now on: what is on the shown screen. The others are read all the same.

        What comes on and was not read just now is read at once. Names that are not on a line are passed over.
        """
        names = frozenset(signals)
        if self._loop is not None and self.running:
            with suppress(RuntimeError):  # stopped meanwhile
                self._loop.call_soon_threadsafe(self._show, names)

    def flush(self, timeout_s: float) -> bool:
        """Wait until no write is waiting or under way, at most `timeout_s` seconds. Gives whether that was reached.

        For the moment before `stop`: what a key held down must be able to release.
        """
        if self._loop is None or not self.running or threading.current_thread() is self._thread:
            return True
        deadline = time.monotonic() + timeout_s
        while (left := deadline - time.monotonic()) > 0:
            # Asked in the engine's thread, behind the writes that are still on their way to it.
            waiting: Future[bool] = Future()
            try:
                self._loop.call_soon_threadsafe(self._tell_waiting, waiting)
                if not waiting.result(left):
                    return True
            except (RuntimeError, TimeoutError):
                return False
            time.sleep(FLUSH_EVERY_S)
        return False

    # in the engine's thread ----------------------------------------------------------------------------------------

    def _run(self, ready: threading.Event) -> None:
        try:
            with asyncio.Runner(loop_factory=exact_loop) as runner:
                runner.run(self._main(ready))
        finally:
            ready.set()

    async def _main(self, ready: threading.Event) -> None:
        self._loop = asyncio.get_running_loop()
        self._stopping = asyncio.Event()
        tasks = [asyncio.create_task(line.run(), name=f"line {name}") for name, line in self._lines.items()]
        tasks.append(asyncio.create_task(self._grow_old(), name="ageing"))
        ready.set()
        if self._ended:  # stopped before the loop was there
            self._stopping.set()
        await self._stopping.wait()
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)
        await asyncio.sleep(0)  # writes that were handed over meanwhile are refused by their stopped line
        if self._publishing is not None:
            self._publishing.cancel()
        for line in self._lines.values():
            line.note_ended()
        self._snapshot = self._make_snapshot()

    def _show(self, names: frozenset[str]) -> None:
        for line in self._lines.values():
            line.show(names)

    def _tell_waiting(self, future: Future[bool]) -> None:
        future.set_result(any(line.waiting for line in self._lines.values()))

    async def _grow_old(self) -> None:
        while True:
            await asyncio.sleep(AGE_EVERY_S)
            now = time.monotonic()
            for line in self._lines.values():
                line.look_after(now)
            if self._readings.age(now) or now - self._published >= PUBLISH_AT_LEAST_S:
                self._note_change()

    def _note_change(self) -> None:
        """Something is new: publish it, at once or a little later."""
        if self._publishing is None and self._loop is not None:
            wait = max(0.0, self._published + PUBLISH_EVERY_S - time.monotonic())
            self._publishing = self._loop.call_later(wait, self._publish)

    def _publish(self) -> None:
        self._publishing = None
        self._published = time.monotonic()
        self._snapshot = self._make_snapshot()

    def _make_snapshot(self) -> Snapshot:
        self._number += 1
        followers = self._unasked.copy()
        for line in self._lines.values():
            followers.update(line.follower_states())
        lines = {**self._unled, **{name: line.state() for name, line in self._lines.items()}}
        return Snapshot(
            time.monotonic(),
            self._number,
            MappingProxyType(self._readings.now()),
            MappingProxyType(followers),
            MappingProxyType(lines),
        )


def _not_sent(signal: str, value: Value, reason: str, obstacle: Obstacle | None = None) -> Future[WriteReport]:
    future: Future[WriteReport] = Future()
    future.set_result(
        WriteReport(signal, value, None, ok=False, reason=reason, outcome=Outcome.NOT_SENT, obstacle=obstacle)
    )
    return future


def _sharing(line: str, endpoints: Mapping[str, Endpoint]) -> str:
    """Another line on the same serial port, or an empty text."""
    own = endpoints[line]
    if own.kind != "serial":
        return ""
    port = os.path.realpath(own.device)
    others = (name for name, end in endpoints.items() if name != line and end.kind == "serial")
    return next((name for name in others if os.path.realpath(endpoints[name].device) == port), "")
