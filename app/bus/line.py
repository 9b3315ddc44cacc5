"""One line at work: it connects and connects again, reads what is due, and lets writes go first."""

from __future__ import annotations

import asyncio
import heapq
import logging
import random
import time
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass
from itertools import count
from typing import Final

from app.bus.conversation import Conversation, Reopen, words_of
from app.bus.endpoint import Endpoint
from app.bus.faults import Fault, FaultKind, LineFault
from app.bus.plan import LinePlan, Read
from app.bus.readings import Readings
from app.bus.requests import Request, read_request
from app.bus.states import FollowerState, LineState
from app.bus.transactions import Transaction
from app.bus.writes import WriteReport
from app.bus.writing import Writing
from app.project.binding import Binding, bindings
from app.project.model import Project
from app.signals.reading import Value

FIRST_PAUSE_S: Final = 0.1
"""Before the second attempt to open a line; doubled with every further one."""
LONGEST_PAUSE_S: Final = 0.5
"""Between attempts to open a line, unless its time-out is shorter: a line that can be had again is had soon."""
REFUSED_EVERY_S: Final = 2.0
"""How often a signal whose register the follower never had is asked for again, at most."""
BEHIND_S: Final = 0.001
"""By how much a failed read steps back behind the others of its follower."""
AT_ONCE_AGAIN: Final = 0.35
"""How often, by chance, a failed read is tried again at once instead: a follower that fails in step with the reads (every
third request, say) would else always fail at the same ones."""

_CONNECTING: Final = Fault(FaultKind.CLOSED, "it is not connected yet")

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class _Job:
    """One read of the plan, its request, and where each signal stands: its address and its width."""

    read: Read
    request: Request
    parts: tuple[tuple[Binding, int, int], ...]


class LineAtWork:
    """The work of one line. Everything but `armed` (a plain flag) belongs to the engine's event loop."""

    def __init__(
        self,
        project: Project,
        plan: LinePlan,
        endpoint: Endpoint,
        readings: Readings,
        record: Callable[[Transaction], None],
        changed: Callable[[], None],
        *,
        armed: bool = False,
    ) -> None:
        self.name = plan.line
        self._endpoint = endpoint
        self._readings = readings
        self._changed = changed
        self._conversation = Conversation(project, plan.line, endpoint, readings, record, changed)
        self._client = self._conversation.client
        self._client.on_closed = lambda _: self._wake()
        self._writing = Writing(project, plan.line, self._conversation, readings, changed)
        self._writing.armed = armed
        self._writing.down = _CONNECTING
        self._bound = bindings(project)
        self._jobs = [self._job(read) for read in plan.reads]
        self._due: list[tuple[float, int, _Job]] = []
        self._order = count()
        self._connected = False
        self._trouble: Fault | None = None
        self._waker: asyncio.Future[None] | None = None

    @property
    def armed(self) -> bool:
        """Whether the line may be written to. May be set from any thread; `disarm` then drops what waits."""
        return self._writing.armed

    @armed.setter
    def armed(self, on: bool) -> None:
        self._writing.armed = on

    @property
    def waiting(self) -> int:
        """Writes that wait or are under way."""
        return self._writing.waiting

    def state(self) -> LineState:
        """How the line is doing."""
        trouble, statistics = self._trouble, self._conversation.statistics
        return LineState(
            self.name,
            str(self._endpoint),
            self._connected,
            self.armed,
            trouble.sentence if trouble else "" if self._connected else "connecting",
            trouble.short if trouble else "",
            statistics.requests,
            statistics.good,
            statistics.faults_now(),
            self.waiting,
        )

    def follower_states(self) -> dict[str, FollowerState]:
        """How its followers are doing, by name."""
        return {name: partner.state for name, partner in self._conversation.partners.items()}

    def want(self, binding: Binding, value: Value, future: Future[WriteReport]) -> None:
        """Let a value wait to be written, or refuse it."""
        self._writing.want(binding, value, future)
        self._wake()

    def disarm(self) -> None:
        """Nothing is written any more; what waits is dropped."""
        self._writing.forget(f"line '{self.name}' was disarmed")
        self._changed()

    # the life of the line ------------------------------------------------------------------------------------------

    async def run(self) -> None:
        """Work until cancelled."""
        pause = FIRST_PAUSE_S
        longest = max(FIRST_PAUSE_S, min(LONGEST_PAUSE_S, self._endpoint.timeout_ms / 1000))
        statistics = self._conversation.statistics
        try:
            while True:
                good = statistics.good
                try:
                    await self._client.open()
                    self._up()
                    await self._poll()
                except LineFault as failed:
                    statistics.fault(failed.fault.kind)
                    self._down(failed.fault)
                except Reopen:
                    self._client.close()
                    self._connected, self._writing.down = False, _CONNECTING
                    self._writing.forget(f"the connection of line '{self.name}' was given up")
                    pause = FIRST_PAUSE_S
                    continue  # the requests that went unanswered were pause enough
                if statistics.good > good:
                    pause = FIRST_PAUSE_S
                await asyncio.sleep(pause)
                pause = min(2 * pause, longest)
        except Exception:
            _log.exception("line '%s' stopped working", self.name)
            self._down(Fault(FaultKind.CLOSED, f"line '{self.name}' stopped by a fault of this program; start it anew"))
            raise
        finally:
            self._client.close()
            self._connected = False
            self._writing.forget(f"line '{self.name}' was stopped")

    def ended(self) -> None:
        """The engine has ended: nothing is live any more."""
        self._conversation.ended()
        self._trouble = Fault(FaultKind.CLOSED, "the line was stopped")

    def _up(self) -> None:
        self._connected, self._trouble, self._writing.down = True, None, None
        self._conversation.connected()
        now = time.monotonic()
        self._due = [(now, next(self._order), job) for job in self._jobs]
        self._changed()

    def _down(self, fault: Fault) -> None:
        """The line as a whole is down: nothing on it is live, and nothing waits to be written."""
        self._client.close()
        self._connected, self._trouble, self._writing.down = False, fault, fault
        self._writing.forget(fault.sentence)
        self._conversation.lost(fault)
        self._changed()

    async def _poll(self) -> None:
        """Write and read until the connection is lost. Raises LineFault or Reopen."""
        while True:
            if not self._client.connected:
                raise LineFault(self._client.down_fault)
            if await self._writing.one():
                continue
            now = time.monotonic()
            refresh = self._writing.refresh_due
            if refresh is not None and refresh <= now:
                await self._writing.refresh(now)
            elif self._due and self._due[0][0] <= now:
                due, _, job = heapq.heappop(self._due)
                await self._read(job, due, now)
            else:
                soon = [self._due[0][0]] if self._due else []
                soon += [] if refresh is None else [refresh]
                await self._idle(min(soon) - now if soon else None)

    async def _idle(self, at_most_s: float | None) -> None:
        """Wait until something is due, or somebody calls `_wake`."""
        loop = asyncio.get_running_loop()
        waker: asyncio.Future[None] = loop.create_future()
        self._waker = waker
        alarm = None if at_most_s is None else loop.call_later(at_most_s, self._wake)
        try:
            await waker
        finally:
            if alarm is not None:
                alarm.cancel()
            self._waker = None

    def _wake(self) -> None:
        if self._waker is not None and not self._waker.done():
            self._waker.set_result(None)

    # reading -------------------------------------------------------------------------------------------------------

    def _job(self, read: Read) -> _Job:
        parts = tuple((self._bound[span.signal], span.address, span.count) for span in read.spans)
        return _Job(read, read_request(read.unit, read.table, read.address, read.count), parts)

    def _again(self, job: _Job, at: float) -> None:
        heapq.heappush(self._due, (at, next(self._order), job))

    async def _read(self, job: _Job, due: float, now: float) -> None:
        """Read what is due, unless its follower is being left alone, and let it wait for its next time."""
        partner = self._conversation.partners[job.read.follower]
        if partner.retry_at > now:
            self._again(job, partner.retry_at)
            return
        request = self._client.settling.distinct(job.request, now, wider=partner.follower.gaps)
        if request is None:
            self._again(job, now + self._endpoint.timeout_ms / 1000)
            return
        whole = request is job.request
        try:
            pdu, at = await self._conversation.ask(job.read.follower, request)
        except LineFault as failed:
            fault = failed.fault
            if fault.of_connection:
                raise
            if fault.kind is not FaultKind.EXCEPTION:
                # Behind the follower's other reads, so that each of them is tried.
                behind = random.random() >= AT_ONCE_AGAIN
                self._again(job, max(time.monotonic(), partner.retry_at) + BEHIND_S if behind else due)
                if partner.answering is not False:
                    self._readings.unread(job.read.signals, fault.sentence)
            elif whole:
                self._refused(job, fault, now)
            else:
                self._again(job, now)
            return
        words = words_of(request, pdu)
        first, end = request.address, request.address + request.count
        for binding, address, width in job.parts:
            if first <= address and address + width <= end:
                self._readings.take(binding, words[address - first : address - first + width], at)
        self._again(job, max(due + job.read.every_ms / 1000, now) if whole else now)
        self._changed()

    def _refused(self, job: _Job, fault: Fault, now: float) -> None:
        """The follower refused a read. If one register in it may be the guilty one, ask in halves from now on."""
        halves = job.read.halves(self._client.pace) if fault.code in (2, 3) else None
        if halves is not None:
            parts = [self._job(half) for half in halves]
            self._jobs = [other for other in self._jobs if other is not job] + parts
            for part in parts:
                self._again(part, now)
            return
        for binding, _, _ in job.parts:
            self._readings.refused((binding.signal.name,), f"{_where(binding)}: {fault.sentence}")
        never = not any(self._readings.ever_read(name) for name in job.read.signals)
        lasting = REFUSED_EVERY_S if never and fault.code in (1, 2, 3) else 0.0
        self._again(job, now + max(job.read.every_ms / 1000, lasting))
        self._changed()


def _where(binding: Binding) -> str:
    """The register of a signal as its manual names it."""
    number = binding.base.number
    return (
        f"{binding.table} register {number}" if binding.table in ("holding", "input") else f"{binding.table} {number}"
    )
