"""One line's client: one request at a time, its answer verified or its fault told, the silent interval kept."""

from __future__ import annotations

import asyncio
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from app.bus.endpoint import Endpoint
from app.bus.faults import Fault, FaultKind, LineFault, closed_fault, exception_fault
from app.bus.guard import Guard, MbapGuard, RtuGuard, late_fault
from app.bus.requests import Request
from app.bus.settling import Settling
from app.bus.timing import pace_of
from app.bus.transactions import Transaction
from app.bus.wire import Wire

BETWEEN_PIECES_S: Final = 0.02
"""Longest pause inside one frame that is put down to adapters and drivers, which hand on bytes in lumps (seconds)."""
KEPT_LATE: Final = 64
"""Unanswered requests of a Modbus TCP connection that are remembered, so that a late answer can be named."""
PATIENCE: Final = 10
"""An RTU answer is no longer expected after this many time-outs, but not before PATIENCE_S."""
PATIENCE_S: Final = 5.0


@dataclass(frozen=True, slots=True)
class Answer:
    """A verified answer: its PDU, and `time.monotonic()` when it was complete."""

    pdu: bytes
    at: float


class Client:
    """The client of one line. Everything happens in one event loop; requests must come one after the other.

    `record` gets every transaction; `follower_of` names a unit in it.
    """

    def __init__(
        self,
        line: str,
        endpoint: Endpoint,
        record: Callable[[Transaction], None],
        follower_of: Callable[[int], str] = str,
    ) -> None:
        self.line = line
        self.endpoint = endpoint
        self.pace = pace_of(endpoint)
        self.settling = Settling(max(PATIENCE_S, PATIENCE * endpoint.timeout_ms / 1000))
        self._record = record
        self._follower_of = follower_of
        self._timeout_s = endpoint.timeout_ms / 1000
        self._silence_s = self.pace.silence_ms / 1000
        self._character_s = self.pace.character_ms / 1000
        self._wire: Wire | None = None
        self._down: Fault | None = None
        self._guard: Guard | None = None
        self._answer: asyncio.Future[bytes] | None = None
        self._busy_until = 0.0
        self._last_byte = 0.0
        self._echo = False
        self._transaction = 0
        self._late: OrderedDict[int, float] = OrderedDict()
        self.on_closed: Callable[[Fault], None] = lambda _: None
        """Called when the line closes by itself."""
        self.on_timeout: Callable[[Request, Fault], None] = lambda *_: None
        """Called when a request timed out, before the client lingers for a late answer."""
        self.on_late: Callable[[int, Fault], None] = lambda *_: None
        """Called with unit and fault when an answer arrives after its request was given up, between two requests."""

    @property
    def connected(self) -> bool:
        """Whether the line is open."""
        return self._wire is not None and self._down is None

    @property
    def down_fault(self) -> Fault:
        """Why the line is not open."""
        return self._down or closed_fault(self.endpoint, None)

    async def open(self) -> None:
        """Open the line. Raises LineFault if it cannot be."""
        self.close()
        self._down = None
        wire = Wire(self.endpoint, self._arrived, self._closed)
        await wire.open()
        self._wire = wire
        self._echo = False
        self._transaction = 0
        self._late.clear()
        self.settling.forget()

    def close(self) -> None:
        """Close the line; a request that is on its way fails. Closing a closed line does nothing."""
        if self._wire is not None:
            self._wire.close()
            self._wire = None

    async def exchange(
        self, request: Request, *, linger: bool = False, permit: Callable[[], None] | None = None
    ) -> Answer:
        """Send `request` and wait for its verified answer.

        With `linger`, a time-out on a line whose frames carry no number is followed by listening for one time-out
        more, so that an answer that is merely late is told as that and cannot be mistaken later; `on_timeout` is
        called first. `permit` is asked at the last moment before the request goes out; what it raises is passed on,
        and nothing is sent.
        Raises LineFault: with an exception code of the follower, with what was wrong with its answer, or because the
        line is down. A request whose answer could be mistaken for an earlier one's must not come here; see `settling`.
        """
        if self.endpoint.rtu:
            await self._keep_silence()
        wire = self._wire
        if wire is None or self._down is not None:
            raise LineFault(self.down_fault)
        if permit is not None:
            permit()
        guard: Guard
        if self.endpoint.rtu:
            frame = request.rtu
            guard = RtuGuard(request, echo=self._echo)
        else:
            self._transaction = self._transaction % 0xFFFF + 1
            frame = request.mbap(self._transaction)
            guard = MbapGuard(request, self._transaction, self._lateness() if self._late else None)
        sent_at = time.monotonic()
        on_the_wire = len(frame) * self._character_s
        self._busy_until = sent_at + on_the_wire
        self._guard = guard
        fault: Fault | None = None
        pdu = b""
        try:
            wire.send_bytes(frame)
            pdu = await self._await_answer(guard, request, sent_at, on_the_wire + self._timeout_s)
            if pdu[0] & 0x80:
                fault = exception_fault(pdu[1])
        except LineFault as failed:
            fault = failed.fault
            if linger and self.endpoint.rtu and not fault.of_connection:
                fault = await self._linger(guard, request, sent_at, fault)
        finally:
            self._guard = self._answer = None
        now = time.monotonic()
        self._learn(request, guard, fault, sent_at)
        took = 1000 * (now - sent_at)
        follower = self._follower_of(request.unit)
        self._record(Transaction(sent_at, self.line, follower, request, frame, guard.received, took, fault))
        if fault is not None:
            raise LineFault(fault)
        return Answer(pdu, now)

    async def _await_answer(self, guard: Guard, request: Request, sent_at: float, limit_s: float) -> bytes:
        loop = asyncio.get_running_loop()
        answer: asyncio.Future[bytes] = loop.create_future()
        self._answer = answer
        give_up = loop.call_later(limit_s, self._give_up, answer, guard, request, sent_at)
        try:
            return await answer
        finally:
            give_up.cancel()

    async def _linger(self, guard: Guard, request: Request, sent_at: float, fault: Fault) -> Fault:
        """Listen for one more time-out; gives what is wrong after all."""
        self.on_timeout(request, fault)
        started = time.monotonic()
        try:
            await self._await_answer(guard, request, sent_at, self._timeout_s)
        except LineFault as failed:
            return failed.fault if failed.fault.of_connection else fault
        return late_fault(request.unit, 1000 * (time.monotonic() - started))

    async def _keep_silence(self) -> None:
        """Wait until the line has been silent for t3.5; what arrives meanwhile belongs to nothing."""
        while True:
            wait = max(self._busy_until, self._last_byte) + self._silence_s - time.monotonic()
            if wait <= 0:
                return
            await asyncio.sleep(wait)

    def _arrived(self, data: bytes) -> None:
        self._last_byte = time.monotonic()
        if self._guard is None or self._answer is None or self._answer.done():
            if self._late and len(data) > 6:
                late_ms = self._lateness().get(int.from_bytes(data[:2], "big"))
                if late_ms is not None:
                    self.on_late(data[6], late_fault(data[6], late_ms))
            return
        pdu = self._guard.feed(data)
        if pdu is not None:
            self._answer.set_result(pdu)

    def _closed(self, error: Exception | None) -> None:
        self._down = closed_fault(self.endpoint, error)
        if self._answer is not None and not self._answer.done():
            self._answer.set_exception(LineFault(self._down))
        self.on_closed(self._down)

    def _give_up(self, answer: asyncio.Future[bytes], guard: Guard, request: Request, sent_at: float) -> None:
        """The time is up: fail the request, unless its answer is just arriving."""
        if answer.done():
            return
        now = time.monotonic()
        longest = (len(request.rtu) + request.answer_length + 4) * self._character_s + self._timeout_s
        if guard.received and now - self._last_byte < BETWEEN_PIECES_S and now - sent_at < longest + BETWEEN_PIECES_S:
            asyncio.get_running_loop().call_later(BETWEEN_PIECES_S, self._give_up, answer, guard, request, sent_at)
            return
        pdu = guard.last_look()
        if pdu is not None:
            answer.set_result(pdu)
        else:
            answer.set_exception(LineFault(guard.verdict()))

    def _learn(self, request: Request, guard: Guard, fault: Fault | None, sent_at: float) -> None:
        """What an exchange tells about the next ones: whether the line echoes, and which answers may still come."""
        if not self.endpoint.rtu:
            if fault is not None and not fault.of_connection and fault.kind is not FaultKind.EXCEPTION:
                self._late[self._transaction] = sent_at + self._timeout_s
                while len(self._late) > KEPT_LATE:
                    self._late.popitem(last=False)
            return
        if guard.echo_seen:
            self._echo = True
        elif fault is None and not request.answer_is_echo:
            self._echo = False
        if fault is None or fault.kind in (FaultKind.EXCEPTION, FaultKind.LATE):
            self.settling.answered(request, refused=fault is not None and fault.kind is FaultKind.EXCEPTION)
        elif fault.kind is not FaultKind.BAD_CRC and not fault.of_connection:
            self.settling.unanswered(request, sent_at)

    def _lateness(self) -> dict[int, float]:
        now = time.monotonic()
        return {transaction: 1000 * (now - due) for transaction, due in self._late.items()}
