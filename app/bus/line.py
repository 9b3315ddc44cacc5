"""One line at work: it connects and connects again, reads what is due, and lets writes go first."""

from __future__ import annotations

import asyncio
import heapq
import logging
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Future
from dataclasses import dataclass, field
from itertools import count
from typing import Final

from app.bus.client import Client
from app.bus.endpoint import Endpoint
from app.bus.faults import Fault, FaultKind, LineFault
from app.bus.plan import LinePlan, Read
from app.bus.readings import Readings
from app.bus.requests import (
    Request,
    bits_of,
    read_request,
    registers_of,
    write_coil,
    write_register,
    write_registers,
)
from app.bus.states import FollowerState, LineState
from app.bus.statistics import LineStatistics
from app.bus.transactions import Transaction
from app.bus.writes import Wanted, WriteJob, WriteQueue, WriteReport, drop
from app.project.binding import Binding, bindings, refusal
from app.project.model import Follower, Project
from app.signals.numbering import NotARegister, Table, documented_number
from app.signals.reading import Value
from app.signals.text import number_digits

LINGER_FAILURES: Final = 2
"""After this many time-outs in a row nobody listens for a late answer any more: it would have come before."""
QUIET_SHARE: Final = 4
"""A follower that does not answer is left alone for this many times what its silence cost, while others answer: so it
takes at most a fifth of the line's time."""
FIRST_PAUSE_S: Final = 0.1
"""Before the second attempt to open a line; doubled with every further one."""
LONGEST_PAUSE_S: Final = 1.0
"""Between attempts to open a line, unless two time-outs are longer."""
SILENCES_BEFORE_REOPENING: Final = 3
"""A network connection on which nobody answered so many requests in a row is opened afresh: the other end may have been
switched off and on without a word."""
REFRESH_FAILURES: Final = 2
"""After this many failures in a row a refreshed output is no longer written: the follower has stopped by itself by
then, and must not be started again by a value of long ago."""
READ_BACK_AGAIN_S: Final = 0.05
"""A value read back unlike the written one is read once more after this time: some followers take it over late."""
REFUSED_EVERY_S: Final = 2.0
"""How often a signal whose register the follower does not have is asked for again."""

BEHIND_S: Final = 0.001
"""By how much a failed read steps back behind the others of its follower."""

_log = logging.getLogger(__name__)


class Dropped(Exception):
    """A write must not go out any more; the message says why."""


class _Reopen(Exception):
    """The connection seems dead without having said so."""


@dataclass(slots=True)
class _Follower:
    """What the line knows of one follower."""

    follower: Follower
    answering: bool | None = None
    fault: Fault | None = None
    failures: int = 0
    retry_at: float = 0.0
    last_answer: float | None = None
    answer_ms: float | None = None
    signals: tuple[str, ...] = ()


@dataclass(slots=True)
class _Job:
    """One read of the plan, its request, and where each signal stands in the answer."""

    read: Read
    request: Request
    parts: tuple[tuple[Binding, int, int], ...]


@dataclass(slots=True)
class _Refresh:
    """An output that is written again and again."""

    binding: Binding
    words: tuple[int, ...]
    due: float
    every_s: float = field(default=0.0)


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
        self.armed = armed
        self._project = project
        self._endpoint = endpoint
        self._readings = readings
        self._record = record
        self._changed = changed
        self._statistics = LineStatistics()
        self._queue = WriteQueue()
        self._refreshes: dict[tuple[str, int], _Refresh] = {}
        followers = [follower for follower in project.followers if follower.line == plan.line]
        self._followers = {follower.name: _Follower(follower) for follower in followers}
        self._of_unit = {follower.unit: self._followers[follower.name] for follower in reversed(followers)}
        bound = bindings(project)
        for state in self._followers.values():
            state.signals = tuple(
                name
                for name, binding in bound.items()
                if binding.follower.name == state.follower.name and binding.bit is None
            )
        self._client = Client(plan.line, endpoint, self._recorded, self._name_of)
        self._client.on_closed = self._line_closed
        self._client.on_timeout = self._timed_out
        self._client.on_late = self._late
        self._bound = bound
        self._order: Iterator[int] = count()
        self._due: list[tuple[float, int, _Job]] = []
        self._first_jobs = [self._job(read) for read in plan.reads]
        self._connected = False
        self._trouble: Fault | None = None
        self._silences = 0
        self._waker: asyncio.Future[None] | None = None
        self._writing: WriteJob | None = None

    # states --------------------------------------------------------------------------------------------------------

    def state(self) -> LineState:
        """How the line is doing."""
        trouble = self._trouble
        return LineState(
            self.name,
            str(self._endpoint),
            self._connected,
            self.armed,
            trouble.sentence if trouble else "" if self._connected else "connecting",
            trouble.short if trouble else "",
            self._statistics.requests,
            self._statistics.good,
            self._statistics.faults_now(),
            len(self._queue) + (self._writing is not None),
        )

    def follower_states(self) -> dict[str, FollowerState]:
        """How its followers are doing, by name."""
        return {name: self._state_of(follower) for name, follower in self._followers.items()}

    def _state_of(self, one: _Follower) -> FollowerState:
        fault = one.fault
        return FollowerState(
            one.follower.name,
            self.name,
            one.follower.unit,
            one.answering,
            fault.sentence if fault else "",
            fault.short if fault else "",
            fault.kind if fault else None,
            one.last_answer,
            one.answer_ms,
        )

    # the life of the line ------------------------------------------------------------------------------------------

    async def run(self) -> None:
        """Work until cancelled."""
        pause = FIRST_PAUSE_S
        try:
            while True:
                try:
                    await self._client.open()
                except LineFault as failed:
                    self._statistics.fault(failed.fault.kind)
                    self._down(failed.fault)
                    await asyncio.sleep(pause)
                    pause = min(2 * pause, max(LONGEST_PAUSE_S, 2 * self._endpoint.timeout_ms / 1000))
                    continue
                answers = self._statistics.good
                self._connected, self._trouble, self._silences = True, None, 0
                self._changed()
                try:
                    await self._poll()
                except LineFault as failed:
                    self._statistics.fault(failed.fault.kind)
                    self._down(failed.fault)
                except _Reopen:
                    self._client.close()
                    self._connected = False
                    self._forget_writes(f"the connection of line '{self.name}' was lost")
                if self._statistics.good > answers:
                    pause = FIRST_PAUSE_S
                await asyncio.sleep(pause)
                pause = min(2 * pause, max(LONGEST_PAUSE_S, 2 * self._endpoint.timeout_ms / 1000))
        except Exception:
            _log.exception("line '%s' stopped working", self.name)
            self._down(
                Fault(FaultKind.CLOSED, f"line '{self.name}' stopped by a fault of this program; start it again")
            )
            raise
        finally:
            self._client.close()
            self._connected = False
            self._forget_writes(f"line '{self.name}' was stopped")

    def stopped(self) -> None:
        """The engine has ended: nothing is live any more."""
        for one in self._followers.values():
            one.answering = None
            self._readings.lost(one.signals, "the line was stopped")
        self._trouble = None

    def _down(self, fault: Fault) -> None:
        """The line as a whole is down: nothing on it is live, and nothing waits to be written."""
        self._client.close()
        self._connected = False
        self._trouble = fault
        self._forget_writes(fault.sentence)
        for one in self._followers.values():
            one.answering, one.fault, one.failures, one.retry_at = False, fault, 0, 0.0
            self._readings.lost(one.signals, fault.sentence)
        self._changed()

    def _line_closed(self, _: Fault) -> None:
        self._wake()

    def _name_of(self, unit: int) -> str:
        one = self._of_unit.get(unit)
        return one.follower.name if one else str(unit)

    def _recorded(self, transaction: Transaction) -> None:
        self._statistics.requests += 1
        fault = transaction.fault
        if fault is None:
            self._statistics.good += 1
        elif not fault.of_connection:
            self._statistics.fault(fault.kind)
        self._record(transaction)

    async def _poll(self) -> None:
        """Read and write until the connection is lost. Raises LineFault or _Reopen."""
        now = time.monotonic()
        self._due = [(now, next(self._order), job) for job in self._first_jobs]
        heapq.heapify(self._due)
        while True:
            if not self._client.connected:
                raise LineFault(self._client.down_fault)
            write = self._queue.take()
            if write is not None:
                await self._write(write)
                continue
            now = time.monotonic()
            refresh = min(self._refreshes.values(), key=lambda refresh: refresh.due, default=None)
            if refresh is not None and refresh.due <= now:
                await self._refresh(refresh, now)
                continue
            if self._due and self._due[0][0] <= now:
                due, _, job = heapq.heappop(self._due)
                await self._read(job, due, now)
                continue
            soon = [self._due[0][0]] if self._due else []
            if refresh is not None:
                soon.append(refresh.due)
            await self._idle(min(soon) - now if soon else 3600.0)

    async def _idle(self, at_most_s: float) -> None:
        """Wait until something is due, or somebody calls `_wake`."""
        loop = asyncio.get_running_loop()
        waker: asyncio.Future[None] = loop.create_future()
        self._waker = waker
        alarm = loop.call_later(at_most_s, self._wake)
        try:
            await waker
        finally:
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
        one = self._followers[job.read.follower]
        if one.retry_at > now:
            self._again(job, one.retry_at)
            return
        request = self._client.settling.distinct(job.request, now)
        if request is None:
            self._again(job, now + self._endpoint.timeout_ms / 1000)
            return
        try:
            pdu, at = await self._ask(one, request)
        except LineFault as failed:
            if failed.fault.of_connection:
                self._again(job, now)
                raise
            if failed.fault.kind is not FaultKind.EXCEPTION:
                self._lose(one, job)
                # Behind the follower's other reads, so that each of them is tried.
                self._again(job, max(time.monotonic(), one.retry_at) + BEHIND_S)
            elif request is not job.request:
                self._again(job, now)
            else:
                self._refuse(job, failed.fault, now)
            return
        self._take(job, request, pdu, at)
        next_due = due + job.read.every_ms / 1000
        self._again(job, (now if request is not job.request else max(next_due, now)))
        self._changed()

    def _take(self, job: _Job, request: Request, pdu: bytes, at: float) -> None:
        """Put what arrived into the readings, of those signals that it holds whole."""
        words: tuple[int, ...] | tuple[bool, ...]
        words = registers_of(pdu) if request.table in ("holding", "input") else bits_of(pdu, request.count)
        first, end = request.address, request.address + request.count
        for binding, address, width in job.parts:
            if address >= first and address + width <= end:
                self._readings.take(binding, words[address - first : address - first + width], at)

    async def _ask(self, one: _Follower, request: Request) -> tuple[bytes, float]:
        """Exchange with one follower and note how it does. Raises LineFault."""
        started = time.monotonic()
        try:
            answer = await self._client.exchange(request, linger=one.failures < LINGER_FAILURES)
        except LineFault as failed:
            if failed.fault.kind is FaultKind.EXCEPTION:
                self._answered(one, time.monotonic(), None)
            elif not failed.fault.of_connection:
                self._failed(one, failed.fault, time.monotonic() - started)
            raise
        self._answered(one, answer.at, 1000 * (answer.at - started))
        return answer.pdu, answer.at

    def _answered(self, one: _Follower, at: float, took_ms: float | None) -> None:
        self._silences = 0
        if one.answering is not True or one.fault is not None:
            one.answering, one.fault = True, None
            self._changed()
        one.failures, one.retry_at, one.last_answer = 0, 0.0, at
        if took_ms is not None:
            one.answer_ms = took_ms if one.answer_ms is None else 0.9 * one.answer_ms + 0.1 * took_ms

    def _failed(self, one: _Follower, fault: Fault, cost_s: float) -> None:
        """A request to `one` brought no answer. Silent, it counts as dead at once; disturbed, at the second time."""
        one.failures += 1
        self._show_failure(one, fault)
        if one.failures >= REFRESH_FAILURES:
            for key in [key for key in self._refreshes if key[0] == one.follower.name]:
                del self._refreshes[key]
        others = any(other.answering for other in self._followers.values() if other is not one)
        pause = 0.0
        if one.failures > 1:
            pause = QUIET_SHARE * cost_s if others else self._endpoint.timeout_ms / 2000
        one.retry_at = time.monotonic() + pause
        if fault.kind is FaultKind.SILENCE and self._endpoint.kind != "serial":
            self._silences += 1
            if self._silences >= SILENCES_BEFORE_REOPENING and not others:
                raise _Reopen

    def _show_failure(self, one: _Follower, fault: Fault) -> None:
        one.fault = fault
        if one.failures > 1 or fault.kind in (FaultKind.SILENCE, FaultKind.LATE):
            one.answering = False
            self._readings.lost(one.signals, fault.sentence)
        self._changed()

    def _timed_out(self, request: Request, fault: Fault) -> None:
        """A time-out, told before it is certain that the answer is not merely late: the panel must know at once."""
        one = self._of_unit.get(request.unit)
        if one is not None:
            self._show_failure(one, fault)

    def _late(self, unit: int, fault: Fault) -> None:
        """A Modbus TCP answer came after its request was given up."""
        self._statistics.fault(fault.kind)
        one = self._of_unit.get(unit)
        if one is not None and one.failures:
            self._show_failure(one, fault)

    def _lose(self, one: _Follower, job: _Job) -> None:
        """A read failed: what it should have brought for the first time has now a reason why it is not there."""
        if one.fault is not None and one.answering is not False:
            self._readings.unread(job.read.signals, one.fault.sentence)

    def _refuse(self, job: _Job, fault: Fault, now: float) -> None:
        """The follower refused a read. If a register in it may be the guilty one, ask in halves from now on."""
        halves = job.read.halves(self._client.pace) if fault.code in (2, 3) else None
        if halves is not None:
            for half in halves:
                self._again(self._job(half), now)
            self._first_jobs = [other for other in self._first_jobs if other is not job]
            self._first_jobs += [self._job(half) for half in halves]
            return
        for binding, _, _ in job.parts:
            self._readings.refused((binding.signal.name,), f"{_where(binding)}: {fault.sentence}")
        self._again(job, now + max(job.read.every_ms / 1000, REFUSED_EVERY_S if fault.code in (1, 2, 3) else 0.0))
        self._changed()

    # writing -------------------------------------------------------------------------------------------------------

    def want(self, binding: Binding, value: Value, future: Future[WriteReport]) -> None:
        """Let a value wait to be written, or refuse it."""
        wanted = Wanted(binding, value, [future])
        try:
            self._may_write(binding)
        except Dropped as why:
            drop((wanted,), str(why))
            return
        reason = refusal(self._project, wanted.signal, value)
        if reason is not None:
            drop((wanted,), reason)
            return
        self._queue.put(binding, value, future)
        self._wake()

    def disarm(self) -> None:
        """Nothing is written any more; what waits is dropped."""
        self._forget_writes(f"line '{self.name}' was disarmed")
        self._changed()

    def _forget_writes(self, reason: str) -> None:
        self._queue.drop(f"not written: {reason}")
        self._refreshes.clear()

    def _may_write(self, binding: Binding) -> None:
        """Raises Dropped if a write to that follower must not go out now."""
        if not self.armed:
            raise Dropped(f"line '{self.name}' is not armed")
        if not self._connected:
            trouble = self._trouble.sentence if self._trouble else "it is not connected yet"
            raise Dropped(f"line '{self.name}' is down: {trouble}")
        one = self._followers[binding.follower.name]
        if one.answering is False:
            reason = one.fault.sentence if one.fault else "it does not answer"
            raise Dropped(f"follower '{binding.follower.name}' does not answer: {reason}")

    async def _write(self, job: WriteJob) -> None:
        """Write one job and read it back. Raises LineFault if the line is down and _Reopen; reports in any case."""
        self._writing = job
        try:
            if job.register is None:
                await self._write_signal(job.wanted[0])
            else:
                await self._write_bits(job.wanted, job.register)
        except Dropped as why:
            drop(job.wanted, f"not written: {why}")
        except LineFault as failed:
            fault = failed.fault
            if fault.kind is FaultKind.EXCEPTION:
                drop(job.wanted, f"follower '{job.follower}' {fault.sentence}")
            else:
                drop(job.wanted, f"not acknowledged, and perhaps written all the same: {fault.sentence}")
            if fault.of_connection:
                raise
        finally:
            self._writing = None
            drop(job.wanted, "the line was stopped")  # only those who have no report yet
            self._changed()

    async def _write_signal(self, wanted: Wanted) -> None:
        binding = wanted.binding
        self._may_write(binding)
        one = self._followers[binding.follower.name]
        unit = binding.follower.unit
        encoded = binding.encode(wanted.value)
        if isinstance(encoded, bool):
            await self._ask(one, write_coil(unit, binding.address, encoded))
        else:
            await self._ask(one, _write_words(unit, binding.address, encoded))
            self._keep_fresh(binding, encoded)
        asked = (encoded,) if isinstance(encoded, bool) else encoded
        try:
            words = await self._read_back(one, binding)
            if words != asked:
                await asyncio.sleep(READ_BACK_AGAIN_S)
                words = await self._read_back(one, binding)
        except LineFault as failed:
            wanted.report(
                ok=not failed.fault.of_connection and failed.fault.kind is FaultKind.EXCEPTION,
                reason=f"acknowledged, but not read back: {failed.fault.sentence}",
            )
            if failed.fault.of_connection:
                raise
            return
        self._report(wanted, binding.reading(words, 0.0).value, same=words == asked)

    async def _write_bits(self, wanted: list[Wanted], register: int) -> None:
        """Change bits of one register and keep its others: read it, change it, write it, read it back."""
        binding = wanted[0].binding
        self._may_write(binding)
        one = self._followers[binding.follower.name]
        (word,) = await self._registers(one, "holding", register, 1)
        for bit in wanted:
            _, keep, put = bit.binding.mask_write(bit.value)
            word = word & keep | put
        self._may_write(binding)
        await self._ask(one, write_register(binding.follower.unit, register, word))
        try:
            base = await self._read_back(one, binding)
            if any(binding_bit(bit.binding, base) != bit.value for bit in wanted):
                await asyncio.sleep(READ_BACK_AGAIN_S)
                base = await self._read_back(one, binding)
        except LineFault as failed:
            for bit in wanted:
                bit.report(
                    ok=failed.fault.kind is FaultKind.EXCEPTION,
                    reason=f"acknowledged, but not read back: {failed.fault.sentence}",
                )
            if failed.fault.of_connection:
                raise
            return
        self._keep_fresh(
            binding, tuple(word if binding.address + index == register else other for index, other in enumerate(base))
        )
        for bit in wanted:
            kept = binding_bit(bit.binding, base)
            self._report(bit, kept, same=kept == bit.value)

    def _report(self, wanted: Wanted, kept: Value | None, *, same: bool) -> None:
        if same or kept == wanted.value:
            wanted.report(ok=True, kept=wanted.value if kept is None else kept)
            return
        follower = wanted.binding.follower.name
        held = "something that its encoding cannot mean" if kept is None else _said(wanted.binding, kept)
        wanted.report(
            ok=False,
            kept=kept,
            reason=f"follower '{follower}' kept {held} instead of {_said(wanted.binding, wanted.value)}",
        )

    async def _read_back(self, one: _Follower, binding: Binding) -> tuple[int, ...]:
        """The registers of the binding's base signal as they are now; they become its reading too."""
        words = await self._registers(one, binding.table, binding.address, binding.count)
        base = self._bound.get(binding.base.name)
        if base is not None:
            self._readings.take(base, words, time.monotonic())
            self._changed()
        return words

    async def _registers(self, one: _Follower, table: Table, address: int, width: int) -> tuple[int, ...]:
        """Registers or bits as they are now. Raises LineFault."""
        wanted = read_request(one.follower.unit, table, address, width)
        for _ in range(width + 126):
            request = self._client.settling.distinct(wanted, time.monotonic())
            if request is None:
                break
            pdu, _ = await self._ask(one, request)
            if request is wanted or (request.address <= address and address + width <= request.address + request.count):
                words = registers_of(pdu) if table in ("holding", "input") else bits_of(pdu, request.count)
                return tuple(words[address - request.address : address - request.address + width])
        raise LineFault(Fault(FaultKind.LATE, f"unit {one.follower.unit} may still answer an earlier request"))

    # refreshing ----------------------------------------------------------------------------------------------------

    def _keep_fresh(self, binding: Binding, words: tuple[int, ...]) -> None:
        """Write these registers again from now on, if their signal asks for it.

        Only what this program has written on this connection, while armed, is written again.
        """
        every_s = binding.base.refresh_ms / 1000
        if every_s > 0 and self.armed:
            key = binding.follower.name, binding.address
            self._refreshes[key] = _Refresh(binding, words, time.monotonic() + every_s, every_s)

    async def _refresh(self, refresh: _Refresh, now: float) -> None:
        binding = refresh.binding
        one = self._followers[binding.follower.name]
        refresh.due = max(refresh.due + refresh.every_s, now)
        try:
            self._may_write(binding)
        except Dropped:
            if not self.armed:
                self._refreshes.clear()
            if one.retry_at > now:
                return
        try:
            await self._ask(one, _write_words(binding.follower.unit, binding.address, refresh.words))
        except LineFault as failed:
            if failed.fault.of_connection:
                raise


def binding_bit(binding: Binding, words: tuple[int, ...]) -> Value | None:
    """The value of a bit signal in the registers of its base."""
    return binding.reading(words, 0.0).value


def _write_words(unit: int, address: int, words: tuple[int, ...]) -> Request:
    return write_register(unit, address, words[0]) if len(words) == 1 else write_registers(unit, address, words)


def _said(binding: Binding, value: Value) -> str:
    if isinstance(value, str):
        return f"'{value}'"
    signal = binding.signal
    return f"{number_digits(value, signal.decimals)} {signal.unit}".rstrip()


def _where(binding: Binding) -> str:
    """The register of a signal as its manual names it."""
    try:
        number = documented_number(binding.follower.numbering, binding.table, binding.address)
    except NotARegister:
        number = binding.base.number
    return (
        f"{binding.table} register {number}" if binding.table in ("holding", "input") else f"{binding.table} {number}"
    )
