"""The followers of one line: asking them, how each is doing, and how long a silent one is left alone."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from math import inf
from typing import Final

from app.client.client import Answer, Client
from app.client.endpoint import Endpoint
from app.client.faults import Fault, FaultKind, LineFault
from app.client.repeated_answers import CAREFUL_S, REPEATED_WITHIN_S, Unasked
from app.client.statistics import Counts, OutageBook
from app.client.transactions import Transaction
from app.errors import FanlightError
from app.language import translate
from app.line.readings import Readings
from app.line.states import FollowerState
from app.modbus.requests import Request, bits_of, read_request, registers_of
from app.project.binding import bindings_of
from app.project.model import Follower, Project
from app.signals.numbering import Table

LINGER_FAILURES: Final = 2
"""After this many time-outs in a row nobody listens for a late answer any more: it would have come before."""
DEAD_SHARE: Final = Fraction(1, 5)
"""While others answer, followers that do not answer take together at most this share of the line's time."""
LEAST_PROBE_S: Final = 0.02
"""A follower that did not answer before is listened to for at least so long, even if an output is to be written again
meanwhile."""
SILENCES_BEFORE_REOPENING: Final = 3
"""A network connection on which nobody answered so many requests in a row is opened afresh: the other end may have been
switched off and on without a word."""
UNASKED_SHOWN_S: Final = 10.0
"""How long an unasked answer is told beside a follower that answers."""
SETTLING_READS: Final = 128
"""Reads at most to get one register whose answer cannot be mistaken; each of them takes one doubt away."""

Permit = Callable[[], None]
"""Asked at the last moment before a request goes out; raises if it must not."""


class ConnectionStale(FanlightError):
    """The connection seems dead without having said so."""


@dataclass(slots=True)
class PolledFollower:
    """What is known of one follower. `retry_at` is `time.monotonic()` before which it is left alone."""

    follower: Follower
    signals: tuple[str, ...]
    """Its signals that are read, without bits."""
    answering: bool | None = None
    fault: Fault | None = None
    failures: int = 0
    retry_at: float = 0.0
    last_answer: float | None = None
    lost_at: float | None = None
    """When it was first asked in vain since its last answer (`time.monotonic()`); None while it answers, or never
    did."""
    answer_ms: float | None = None
    postponed: bool = False
    """Whether it is asked later than it might have been, for the sake of what must go out on time."""
    acknowledged: bool = False
    """Whether what acknowledged the latest write cannot be the copy of an earlier acknowledgement."""
    unasked: tuple[float, Fault] | None = None
    """The latest unasked answer, and when it came."""
    statistics: Counts = field(default_factory=Counts)
    since: float = 0.0

    def becomes(self, answering: bool | None) -> None:
        """It answers from now on, or does not."""
        if answering is not self.answering:
            self.answering, self.since = answering, time.monotonic()

    def note_silence(self, at: float) -> None:
        """It was asked in vain at this time."""
        if self.lost_at is None and self.last_answer is not None:
            self.lost_at = at

    @property
    def may_read_more(self) -> bool:
        """Whether registers that no signal names may be read, and any of them."""
        return self.follower.gaps and not self.follower.never_read

    @property
    def state(self) -> FollowerState:
        """How it is doing, as a value."""
        fault = self.fault
        return FollowerState(
            self.follower.name,
            self.follower.line,
            self.follower.unit,
            self.answering,
            fault.sentence if fault else "",
            fault.short if fault else "",
            fault.kind if fault else None,
            self.last_answer,
            self.answer_ms,
            self.statistics.requests,
            self.statistics.good,
            self.statistics.faults,
            self.since,
        )


class Followers:
    """Asks the followers of one line. Belongs to the engine's event loop."""

    def __init__(
        self,
        project: Project,
        line: str,
        endpoint: Endpoint,
        readings: Readings,
        record: Callable[[Transaction], None],
        changed: Callable[[], None],
    ) -> None:
        self.statistics = Counts()
        self.outages = OutageBook()
        self.client = Client(line, endpoint, self._count, self._name_of)
        self.client.on_timeout = self._timed_out
        self.client.on_late = self._came_late
        self.client.on_unasked = self._came_unasked
        self._endpoint = endpoint
        self._readings = readings
        self._record = record
        self._changed = changed
        self._silences = 0
        self.write_deadline: Callable[[], float | None] = lambda: None
        """When something must go out that cannot wait (monotonic seconds), or None."""
        self.polled_followers = {
            follower.name: PolledFollower(
                follower,
                tuple(name for name, each in bindings_of(project, follower.name).items() if each.bit is None),
            )
            for follower in project.followers
            if follower.line == line
        }
        self._of_unit: dict[int, PolledFollower] = {}
        for polled in self.polled_followers.values():
            self._of_unit.setdefault(polled.follower.unit, polled)

    async def ask(
        self,
        follower: str,
        request: Request,
        permit: Permit | None = None,
        *,
        at_once: bool = False,
        patient: bool = True,
    ) -> tuple[bytes, float]:
        """The PDU of the verified answer, and when it was complete (monotonic seconds).

        `at_once` as in `Client.exchange`; not `patient`: the answer is not listened for beyond its time-out. Raises
        LineFault, Reopen, and what `permit` raises.
        """
        polled = self.polled_followers[follower]
        started = time.monotonic()
        try:
            try:
                answer = await self._exchange(polled, request, permit, at_once, patient)
            except LineFault as failed:
                fault = failed.fault
                if request.writes and fault.kind is FaultKind.EXCEPTION and not await self.believes(request, fault):
                    raise LineFault(_refused_or_not(request.unit)) from None
                raise
            if self.client.repeats.differing(request.unit, time.monotonic()):
                raise LineFault(_two_devices(request.unit))
            if request.writes:
                known = self.client.repeats.times_known(request.unit, answer.pdu, answer.at)
                polled.acknowledged = known < 2 or not self.client.repeats.careful(request.unit, answer.at)
        except LineFault as failed:
            if failed.fault.kind is FaultKind.EXCEPTION:
                self._note_answer(polled, time.monotonic(), None)
            elif not failed.fault.of_connection:
                self._note_failure(polled, failed.fault, time.monotonic() - started)
            raise
        self._note_answer(polled, answer.at, 1000 * (answer.at - started))
        return answer.pdu, answer.at

    async def _exchange(
        self, polled: PolledFollower, request: Request, permit: Permit | None, at_once: bool, patient: bool
    ) -> Answer:
        """Exchange, but do not listen to a silent follower beyond the time at which something else must go out."""
        timeout_s = self._endpoint.timeout_ms / 1000
        pressing = self.write_deadline()
        left = inf if pressing is None else pressing - time.monotonic()
        slow = self.client.lateness.slow(request.unit, time.monotonic())
        linger = patient and (polled.failures < LINGER_FAILURES or slow) and left > 2 * timeout_s
        if not polled.failures or request.writes or left > timeout_s + self.client.pace.fixed_ms / 1000:
            return await self.client.exchange(request, linger=linger, permit=permit, at_once=at_once)
        listened = max(left, LEAST_PROBE_S, 2 * (polled.answer_ms or 0) / 1000)
        started = time.monotonic()
        try:
            async with asyncio.timeout(listened):
                return await self.client.exchange(request, permit=permit)
        except TimeoutError:
            took = 1000 * (time.monotonic() - started)
            fault = Fault(
                FaultKind.SILENCE,
                translate(
                    "bus", "unit {unit} did not answer within {took:.0f} ms, then an output had to be refreshed"
                ).format(unit=request.unit, took=took),
            )
            sent = request.rtu if self._endpoint.rtu else request.mbap(0)
            name = polled.follower.name
            self._count(Transaction(started, self.client.line, name, request, sent, b"", took, fault))
            raise LineFault(fault) from None

    async def believes(self, request: Request, refusal: Fault) -> bool:
        """Whether the refusal of `request`, which has just come, is not the copy of an earlier one."""
        unit, pdu = request.unit, bytes((request.function | 0x80, refusal.code))
        now = time.monotonic()
        repeats = self.client.repeats
        if repeats.times_known(unit, pdu, now) < 2:
            return True
        return not repeats.careful(unit, now) and await self.client.proof(request, pdu)

    def unambiguous(
        self, polled: PolledFollower, request: Request, *, alone: bool = False
    ) -> tuple[Request | None, float]:
        """See Client.distinct. `alone`: nothing may be read along with what is wanted."""
        wider = polled.may_read_more and not alone
        return self.client.unambiguous(request, wider=wider, at_most=polled.follower.max_registers)

    def better_after(self, polled: PolledFollower, now: float) -> float | None:
        """When a silent follower is better asked: right after what must go out before its time-out would be over.

        None for now.
        """
        pressing = self.write_deadline()
        near = pressing is not None and now < pressing <= now + self._endpoint.timeout_ms / 1000
        polled.postponed = bool(polled.failures) and near and not polled.postponed
        return pressing if polled.postponed else None

    async def registers(self, follower: str, table: Table, address: int, width: int) -> tuple[int, ...]:
        """Registers or bits as they are now. Raises LineFault and Reopen."""
        asked = self.polled_followers[follower].follower
        wanted = read_request(asked.unit, table, address, width)
        for _ in range(SETTLING_READS):
            request, free_at = self.unambiguous(self.polled_followers[follower], wanted)
            if request is None:
                await asyncio.sleep(max(0.0, free_at - time.monotonic()))
                continue
            try:
                pdu, _ = await self.ask(follower, request)
            except LineFault as failed:
                if failed.fault.kind is FaultKind.EXCEPTION:
                    if request is not wanted:
                        continue  # it answers, and that was the use of asking for more than is wanted
                    if not await self.believes(request, failed.fault):
                        await asyncio.sleep(REPEATED_WITHIN_S)
                        continue
                raise
            if not await self.client.proof(request):
                continue
            first = request.address
            if first <= address and address + width <= first + request.count:
                return words_of(request, pdu)[address - first : address - first + width]
        raise LineFault(
            Fault(
                FaultKind.LATE,
                translate("bus", "unit {unit} may still answer an earlier request").format(unit=wanted.unit),
            )
        )

    def note_connected(self) -> None:
        """The line was opened."""
        self._silences = 0

    def note_lost(self, fault: Fault) -> None:
        """The line is down, and with it everybody on it."""
        self.outages.note_failure(time.monotonic(), fault.sentence)
        for polled in self.polled_followers.values():
            polled.becomes(False)
            polled.fault, polled.failures, polled.retry_at = fault, 0, 0.0
            polled.note_silence(time.monotonic())
            self._readings.mark_lost(polled.signals, fault.sentence)

    def note_ended(self) -> None:
        """Nobody is asked any more."""
        for polled in self.polled_followers.values():
            polled.becomes(None)
            self._readings.mark_lost(polled.signals, translate("bus", "the line was stopped"))

    def _note_answer(self, polled: PolledFollower, at: float, took_ms: float | None) -> None:
        self._silences = 0
        self.outages.note_answer(at)
        shown = polled.unasked[1] if polled.unasked and at < polled.unasked[0] + UNASKED_SHOWN_S else None
        if polled.answering is not True or polled.fault is not shown:
            polled.becomes(True)
            polled.fault = shown
            self._changed()
        polled.failures, polled.retry_at, polled.last_answer, polled.lost_at = 0, 0.0, at, None
        if took_ms is not None:
            former = polled.answer_ms
            polled.answer_ms = took_ms if former is None else 0.9 * former + 0.1 * took_ms

    def _note_failure(self, polled: PolledFollower, fault: Fault, cost_s: float) -> None:
        """A request brought no answer."""
        polled.failures += 1
        polled.note_silence(time.monotonic() - cost_s)
        self._show(polled, fault)
        others = any(other.answering for other in self.polled_followers.values() if other is not polled)
        if not others:
            late = fault.kind is FaultKind.LATE
            self.outages.note_failure(time.monotonic() - cost_s, fault.sentence, late=late)
        pause = 0.0
        if polled.failures > 1:
            dead = sum(other.failures > 1 for other in self.polled_followers.values())
            # The first ones were listened for longer: that was pause enough.
            alone = self._endpoint.timeout_ms / 2000 if polled.failures > LINGER_FAILURES else 0.0
            pause = float((1 / DEAD_SHARE - 1) * dead) * cost_s if others else alone
        polled.retry_at = time.monotonic() + pause
        if fault.kind is FaultKind.SILENCE and self._endpoint.kind != "serial":
            self._silences += 1
            if self._silences >= SILENCES_BEFORE_REOPENING and not others:
                raise ConnectionStale

    def _show(self, polled: PolledFollower, fault: Fault) -> None:
        """Silent, a follower counts as dead at once; disturbed, at the second time."""
        polled.fault = fault
        if polled.failures > 1 or fault.kind in (FaultKind.SILENCE, FaultKind.LATE):
            polled.becomes(False)
            self._readings.mark_lost(polled.signals, fault.sentence)
        self._changed()

    def _timed_out(self, request: Request, fault: Fault) -> None:
        """A time-out, told before it is certain that the answer is not merely late: the panel must know at once."""
        polled = self._of_unit.get(request.unit)
        known = polled is not None and polled.fault is not None and polled.fault.kind is FaultKind.LATE
        if polled is not None and not (known and polled.answering is False):
            self._show(polled, fault)

    def _came_late(self, unit: int, fault: Fault) -> None:
        """A Modbus TCP answer came after its request was given up."""
        self._silences = 0
        self.statistics.fault(fault.kind)
        polled = self._of_unit.get(unit)
        if polled is not None:
            polled.statistics.fault(fault.kind)
            if polled.failures:
                self._show(polled, fault)
                self.outages.late(fault.sentence)

    def _came_unasked(self, unit: int, frame: bytes, unasked: Unasked) -> None:
        """A unit that is asked sent an answer too many."""
        fault = _two_devices(unit) if unasked.differs else _unasked_fault(unit, unasked.delay_s)
        now = time.monotonic()
        self.statistics.fault(fault.kind)
        polled = self._of_unit.get(unit)
        if polled is not None:
            polled.statistics.fault(fault.kind)
            shown = polled.unasked[1] if polled.unasked and now < polled.unasked[0] + UNASKED_SHOWN_S else fault
            # Words that stay while more of the same comes can be read.
            polled.unasked = now, fault if unasked.differs else shown
            if polled.answering and polled.fault is not polled.unasked[1]:
                polled.fault = polled.unasked[1]
                self._changed()
        if unasked.request is not None:
            ms = 1000 * (unasked.delay_s or 0.0)
            self._record(
                Transaction(now, self.client.line, self._name_of(unit), unasked.request, b"", frame, ms, fault)
            )

    def _count(self, transaction: Transaction) -> None:
        polled = self._of_unit.get(transaction.request.unit)
        self.statistics.count(transaction)
        if polled is not None:
            polled.statistics.count(transaction)
        self._record(transaction)

    def _name_of(self, unit: int) -> str:
        polled = self._of_unit.get(unit)
        return polled.follower.name if polled else str(unit)


def words_of(request: Request, pdu: bytes) -> tuple[int, ...]:
    """The words or bits in a verified answer to a read."""
    return registers_of(pdu) if request.table in ("holding", "input") else bits_of(pdu, request.count)


def _unasked_fault(unit: int, delay_s: float | None) -> Fault:
    if delay_s is None:
        return Fault(
            FaultKind.UNASKED,
            translate("bus", "unit {unit} sent an answer without a request").format(unit=unit),
        )
    return Fault(
        FaultKind.UNASKED,
        translate("bus", "unit {unit} answered a second time, {delay:.0f} ms after the first").format(
            unit=unit, delay=1000 * delay_s
        ),
    )


def _refused_or_not(unit: int) -> Fault:
    return Fault(
        FaultKind.UNASKED,
        translate("bus", "unit {unit} refused, or an earlier refusal was repeated").format(unit=unit),
    )


def _two_devices(unit: int) -> Fault:
    return Fault(
        FaultKind.UNASKED,
        translate(
            "bus",
            "unit {unit} gave two different answers to one request; neither is shown until this has not happened for "
            "{seconds:.0f} s",
        ).format(unit=unit, seconds=CAREFUL_S),
    )
