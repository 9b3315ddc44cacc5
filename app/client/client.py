"""One line's client: requests go out, each answer is verified or its fault told, the silent interval kept.

A line is closed, open, or down: closed by itself, with the reason. On an open line of RTU frames one request comes
after the other: it waits for silence, is outstanding, is perhaps listened for beyond its time-out, and is over. On
Modbus TCP several may be outstanding; each answer finds its request by the transaction identifier, in whatever order
they come.

What can go wrong on the wire, and what takes care of it:

- Bytes are missing, changed, or not ours, and come in whatever pieces. `app.client.reply_guard` lets only a verified
  answer pass, and says what came instead.
- Nothing comes in time. An RTU answer does not say which request it answers, so a late one could pass for the next of
  its kind: `app.client.pending_answers` remembers what may still come, and how to ask without mistaking it. A device
  that is merely slow is listened for first (`app.client.late_answers`). On Modbus TCP the number of a request that was
  given up is not used again for KEPT_LATE requests.
- An answer comes twice, or two devices answer: `app.client.repeated_answers` holds an answer back until it is proved to
  be its own.
- The adapter hands our own frames back. The echo of nearly every read is no answer; that of a write of one register
  has the form of its acknowledgement, so before such a write a read finds out whether there is an echo. That may change
  while the line is open, so every exchange that can tell does (`_learn`).
- Another client asks on the same wire. What it asked may be answered while ours is outstanding, and is remembered like
  a late answer of our own.
- The connection ends, or the port vanishes: all that is outstanding fails at once.

What holds, and why:

- Bytes that came before a request left are never part of its answer: `_keep_silence` takes them away as the last thing
  before the sending, and nothing is awaited in between.
- `permit` is asked there too. So what it allowed is still true when the bytes go out.
- Each request that left is told to have been answered or not, once, whatever ends it. Also when it was cancelled: its
  answer comes all the same.
- Whether an answer could be mistaken for an earlier one is not looked at here: whoever asks takes `unambiguous` first.
- Everything happens in one event loop, so nothing changes between two awaits, and there are no locks.

There are two clocks. `time.perf_counter()` measures the wire; `time.monotonic()`, which on Windows may stand still for
16 ms, is what times are told in, since readings, samples and events are compared by it.
"""

from __future__ import annotations

import asyncio
import os
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import replace
from math import inf
from typing import Final, NamedTuple

from app.client.endpoint import Endpoint
from app.client.faults import Fault, FaultKind, LineFault, closed_fault, exception_fault
from app.client.late_answers import Lateness
from app.client.pending_answers import PendingAnswers
from app.client.repeated_answers import REPEATED_WITHIN_S, Chain, Repeats, Unasked
from app.client.reply_guard import KEPT_BYTES, Guard, MbapGuard, MbapStream, RtuGuard, late_fault
from app.client.timing import BROADCAST_TURNAROUND_S, PunctualSleep, ResponseTimes, pace_of
from app.client.transactions import Transaction
from app.client.transport import Wire
from app.language import translate
from app.modbus.framing import sound_frames, whole_frames
from app.modbus.overheard import overheard, read_in
from app.modbus.requests import MOST_REGISTERS, Request, read_request

BETWEEN_PIECES_S: Final = 0.02
"""Longest pause inside one frame that is put down to adapters and drivers, which hand on bytes in lumps (seconds)."""
BETWEEN_PIECES_NETWORK_S: Final = 0.05
"""The same for a converter on a network."""
KEPT_LATE: Final = 16_384
"""Unanswered requests of a Modbus TCP connection that are remembered: their numbers are not given out again, so that a
late answer, however late, is never taken for another's."""
PATIENCE_S: Final = 60.0
"""See Settling.patience_s; at least 100 time-outs."""

USUAL: Final = 0.95
"""A unit is busy no longer than this share of its latest answers took, and an eighth more."""
PROOF_MARGIN_S: Final = 0.002 if os.name != "nt" else 0.02
"""And so many seconds more, for clocks and drivers. Windows wakes a sleeper, and looks at a port, every 16 ms."""
FEW_ANSWERS: Final = 8
UNKNOWN_MARGIN_S: Final = 0.02
"""As long as a unit has given few answers, its usual time may be exceeded by so many seconds."""

_TRANSACTIONS: Final = 0x10000


_UNANSWERED: Final = (FaultKind.SILENCE, FaultKind.CUT, FaultKind.GARBLED)
"""After these the answer may still come."""
_WRONGLY: Final = (FaultKind.WRONG_LENGTH, FaultKind.WRONG_FUNCTION, FaultKind.WRONG_ECHO)
"""What a unit's own answer may be called that is sound and not the right one."""


class Answer(NamedTuple):
    """A verified answer: its PDU (empty for a broadcast), and `time.monotonic()` when it was complete."""

    pdu: bytes
    at: float


class _Flight:
    """One request that is outstanding."""

    __slots__ = ("answer", "guard", "judged", "late", "limit_s", "quiet", "request", "sent")

    def __init__(self, request: Request, guard: Guard, limit_s: float) -> None:
        self.request = request
        self.guard = guard
        self.sent = 0.0
        self.limit_s = limit_s
        """Since `sent`."""
        self.late: Fault | None = None
        """That the answer to an earlier request came meanwhile."""
        self.judged = 0
        """Of what the guard has received: behind the frames that were looked at for that."""
        self.quiet: asyncio.TimerHandle | None = None
        self.answer: asyncio.Future[bytes] = asyncio.get_running_loop().create_future()


class Client:
    """The client of one line. Everything happens in one event loop.

    On an RTU line exchanges must come one after the other; on Modbus TCP up to `in_flight` of them may be under way at
    the same time. `record` gets every transaction; `follower_of` names a unit in it.
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
        self.settling = PendingAnswers(max(PATIENCE_S, 100 * endpoint.timeout_ms / 1000))
        self.repeats = Repeats()
        self.lateness = Lateness(endpoint.timeout_ms / 1000)
        self.response_times: dict[int, ResponseTimes] = {}
        """How long each unit takes to answer, by unit."""
        self._record = record
        self._follower_of = follower_of
        self._rtu = endpoint.rtu
        self._timeout_s = endpoint.timeout_ms / 1000
        self._silence_s = self.pace.silence_ms / 1000
        self._character_s = self.pace.character_ms / 1000
        pieces = BETWEEN_PIECES_S if endpoint.kind == "serial" else BETWEEN_PIECES_NETWORK_S
        self._quiet_s = max(pieces, 2 * self._silence_s)
        self._wire: Wire | None = None
        self._down: Fault | None = None
        self._flight: _Flight | None = None
        self._flights: dict[int, _Flight] = {}
        self._stream = MbapStream()
        self._sleep = PunctualSleep()
        self._busy_until = 0.0
        self._last_byte = 0.0
        self._idle = b""
        self._echo: bool | None = None
        self._transaction = 0
        self._late: OrderedDict[int, float] = OrderedDict()
        """When the requests went out that were given up, by their numbers."""
        self._opened_before = False
        self._sweeper: asyncio.TimerHandle | None = None
        self._prover: asyncio.TimerHandle | None = None
        self._lingering: _Flight | None = None
        self.pressed: Callable[[], bool] = lambda: False
        """Whether something waits that cannot: then nobody listens for an answer beyond its time-out."""
        self.on_closed: Callable[[Fault], None] = lambda _: None
        """Called when the line closes by itself."""
        self.on_timeout: Callable[[Request, Fault], None] = lambda *_: None
        """Called when a request timed out, before the client lingers for a late answer."""
        self.on_late: Callable[[int, Fault], None] = lambda *_: None
        """Called with unit and fault when an answer arrives after its request was given up."""
        self.on_unasked: Callable[[int, bytes, Unasked], None] = lambda *_: None
        """Called with the unit and the frame of an answer that nobody had asked for."""

    @property
    def connected(self) -> bool:
        """Whether the line is open."""
        return self._wire is not None and self._down is None

    @property
    def in_flight(self) -> int:
        """How many exchanges may be under way at the same time."""
        return 1 if self._rtu else self.endpoint.in_flight

    @property
    def down_fault(self) -> Fault:
        """Why the line is not open."""
        return self._down or closed_fault(self.endpoint, None)

    def predicted_ms(self, request: Request) -> float:
        """Predicted time from the request's first character to the answer's last one, in milliseconds.

        With what the unit's response time has been so far; the silent interval before the request is not in it.
        """
        measured = self.response_times.get(request.unit)
        response_time = measured.median_ms if measured is not None else None
        return self.pace.exchange_ms(len(request.rtu), request.answer_characters, response_time)

    async def open(self) -> None:
        """Open the line. Raises LineFault if it cannot be.

        An answer to what another program, or an earlier run of this one, has asked on a line of RTU frames may still be
        on its way: so at the first opening the first request waits for one time-out. Later openings know what is open.
        """
        self.close()
        self._down = None
        wire = Wire(self.endpoint, self._receive, self._lose_connection)
        await wire.open()
        self._wire = wire
        self._echo = None
        self._transaction = 0
        self._late.clear()
        self._stream = MbapStream()
        self._idle = b""
        if self._rtu and not self._opened_before:
            self._busy_until = time.perf_counter() + self._timeout_s
        self._opened_before = True

    def close(self) -> None:
        """Close the line; a request that is on its way fails. Closing a closed line does nothing."""
        if self._wire is not None:
            self._wire.close()
            self._wire = None
            for timer in (self._sweeper, self._prover):
                if timer is not None:
                    timer.cancel()
            self._sweeper = self._prover = None
            self.repeats.drop()
            self._fail_all(closed_fault(self.endpoint, None))

    async def exchange(
        self,
        request: Request,
        *,
        linger: bool = False,
        permit: Callable[[], None] | None = None,
        at_once: bool = False,
    ) -> Answer:
        """Send `request` and wait for its verified answer.

        With `linger`, a time-out is followed by listening longer (see `late_answers`), unless several requests may be
        under way, so that an answer that is merely late is told as that, and nothing is asked while it is owed;
        `on_timeout` is called first. `permit` is asked at the last moment before the request goes out; what it raises
        is passed on, and nothing is sent. A write to unit 0 of an RTU line is a broadcast: nobody answers, and the
        followers' time to do it is waited for instead. `at_once` leaves out to learn first whether the line echoes; the
        answer to such a write may be its echo, and proves nothing without a read.
        Raises LineFault: with an exception code of the follower, with what was wrong with its answer, or because the
        line is down. A request whose answer could be mistaken for an earlier one's must not come here; see
        `pending_answers`.
        Raises ValueError for a read of unit 0 on an RTU line.
        """
        if not self._rtu:
            return await self._exchange_mbap(request, permit, linger=linger and self.in_flight == 1)
        if request.unit == 0:
            return await self._broadcast(request, permit)
        if self._echo is None and request.echo_could_answer and not at_once:
            await self._find_echo(request)
        return await self._exchange_rtu(request, linger=linger, permit=permit)

    # RTU frames ----------------------------------------------------------------------------------------------------

    async def _exchange_rtu(
        self, request: Request, *, linger: bool, permit: Callable[[], None] | None = None
    ) -> Answer:
        # All that can be made ready beforehand is, so that nothing but the sending comes after the silence.
        frame = request.rtu
        on_the_wire = len(frame) * self._character_s
        guard = RtuGuard(request, echo=self._echo)
        flight = _Flight(request, guard, on_the_wire + self._timeout_s)
        predicted = self.predicted_ms(request)
        chain = self.repeats.chain(request)
        if chain is not None and chain.answers and not request.writes and chain.wants_pause(self._free_at()):
            await self._proof(chain)
        await self._keep_silence()
        wire = self._ready(permit)
        self._flight = flight
        fault: Fault | None = None
        pdu = b""
        at, sent = time.monotonic(), time.perf_counter()
        flight.sent = sent
        self.repeats.note_request(request)
        self._busy_until = sent + on_the_wire
        try:
            wire.send_bytes(frame)
            pdu = await self._await_answer(flight)
            if pdu[0] & 0x80:
                fault = exception_fault(pdu[1], request.deed)
        except LineFault as failed:
            fault = failed.fault
            if linger and (flight.late is not None or fault.kind in _UNANSWERED):
                fault, pdu = await self._linger(flight, fault)
        except asyncio.CancelledError:
            self.settling.note_silence(request, at)
            self.repeats.note_silence(request, self._due(request, at, at))
            raise
        finally:
            self._flight = None
        ended = time.perf_counter()
        if fault is None or fault.kind is FaultKind.EXCEPTION:
            ended = min(ended, self._last_byte)  # the loop may have come to it later than its last byte did
        elif flight.late is not None and not pdu and not fault.of_connection:
            fault = flight.late
        fault = self._judge(request, guard, fault, pdu, at, at + (ended - sent))
        self._learn(request, guard, fault, pdu, at)
        took = 1000 * (ended - sent)
        if fault is None or fault.kind is FaultKind.EXCEPTION:
            self._took(request.unit, took - (len(frame) + len(pdu) + 3) * self.pace.character_ms)
        self._tell(at, request, frame, guard.received, took, fault, predicted)
        if fault is not None:
            raise LineFault(fault)
        return Answer(pdu, at + (ended - sent))

    async def _linger(self, flight: _Flight, fault: Fault) -> tuple[Fault, bytes]:
        """Listen longer; gives what is wrong after all, and the late answer."""
        self.on_timeout(flight.request, flight.late or fault)
        unit = flight.request.unit
        sent = time.monotonic() - (time.perf_counter() - flight.sent) + len(flight.request.rtu) * self._character_s
        while (left := self.lateness.until(unit, sent, time.monotonic()) - time.monotonic()) > 0:
            if self.pressed():
                return fault, b""
            flight.answer = asyncio.get_running_loop().create_future()
            flight.limit_s = time.perf_counter() - flight.sent + left
            self._lingering = flight
            try:
                pdu = await self._await_answer(flight)
            except LineFault as failed:
                if failed.fault.of_connection:
                    return failed.fault, b""
            else:
                return late_fault(unit, 1000 * self.lateness.late(unit, sent, time.monotonic())), pdu
            finally:
                self._lingering = None
        self.lateness.gave_up(unit)
        return fault, b""

    def hurry(self) -> None:
        """Something waits that cannot (see `pressed`): listen no longer for an answer whose time-out is over."""
        flight = self._lingering
        if flight is not None and not flight.answer.done():
            flight.answer.set_exception(LineFault(flight.guard.verdict()))

    async def _broadcast(self, request: Request, permit: Callable[[], None] | None) -> Answer:
        if not request.writes:
            raise ValueError("unit address 0 is a broadcast: it can be written, not read")
        await self._keep_silence()
        wire = self._ready(permit)
        at, sent = time.monotonic(), time.perf_counter()
        on_the_wire = len(request.rtu) * self._character_s
        wire.send_bytes(request.rtu)
        self._busy_until = sent + on_the_wire + BROADCAST_TURNAROUND_S
        await self._sleep.until(self._busy_until)
        took = 1000 * (on_the_wire + BROADCAST_TURNAROUND_S)
        heard, self._idle = self._idle, b""
        self._tell(at, request, request.rtu, heard, took, None, took)
        return Answer(b"", at + took / 1000)

    async def _find_echo(self, write: Request) -> None:
        """Learn by a read whether the line gives our own frames back, before what looks like an echo counts."""
        read = read_request(write.unit, write.table, write.address, 1)
        asked, _ = self.unambiguous(read, wider=False)
        if asked is None or asked.echo_could_answer:
            return
        try:
            await self._exchange_rtu(asked, linger=True)
        except LineFault as failed:
            if failed.fault.of_connection:
                raise

    def _free_at(self) -> float:
        """When the line will have been silent for t3.5 (monotonic seconds)."""
        due = max(self._busy_until, self._last_byte) + self._silence_s
        return time.monotonic() + max(0.0, due - time.perf_counter())

    async def _keep_silence(self) -> None:
        """Wait until the line has been silent for t3.5; what arrives meanwhile belongs to nothing."""
        while True:
            due = max(self._busy_until, self._last_byte) + self._silence_s
            if due <= time.perf_counter():
                break
            await self._sleep.until(due)
        self._heed()

    def _heed(self) -> None:
        """Judge what came while nothing was outstanding, and let out what is proved by nothing having come."""
        data, self._idle = self._idle, b""
        if data:
            late = self._late_answer(data)
            if late is not None:
                self.on_late(*late)
            self._judge_unasked(data, time.monotonic())
        self.repeats.prove(time.monotonic())

    # proof that no answer is a copy of another: see repeats --------------------------------------------------------

    def unambiguous(
        self, request: Request, *, wider: bool, at_most: int = MOST_REGISTERS
    ) -> tuple[Request | None, float]:
        """A read like `request` whose answer cannot be mistaken for any other's that may come.

        See Settling.distinct. None if time alone helps; then until when to wait as well (monotonic seconds).
        """
        now = time.monotonic()
        taken = self.repeats.taken_heads(request.unit, now) if self._rtu else {}
        found = self.settling.unambiguous(request, now, wider=wider, taken=taken, at_most=at_most)
        if found is not None or request.writes:
            return found, now
        return None, taken.get(request.answer_head, now + REPEATED_WITHIN_S)

    def when_proved(self, request: Request, let_out: Callable[[], None]) -> None:
        """Do this once the answer to `request`, which has just come, is proved to be its own; never if it is not."""
        chain = self.repeats.chain(request) if self._rtu else None
        if chain is None:
            let_out()
        else:
            chain.waiting.append(let_out)

    async def proof(self, request: Request, pdu: bytes = b"") -> bool:
        """Whether the answer to `request`, which has just come, is its own. Nothing must be asked meanwhile."""
        chain = self.repeats.chain(request, pdu) if self._rtu else None
        return chain is None or await self._proof(chain)

    async def _proof(self, chain: Chain) -> bool:
        while chain.proved is None:
            now = time.monotonic()
            await self._sleep.until(time.perf_counter() + max(0.0, chain.due - now))
            self._look()
            if chain.proved is None and chain.due <= time.monotonic():
                await asyncio.sleep(self._quiet_s)  # something is just arriving
        return chain.proved

    def _due(self, request: Request, sent: float, came: float) -> float:
        """Until when the true answer to a request must have come, had another one been taken for it."""
        measured = self.response_times.get(request.unit)
        usual = (measured.quantile(USUAL) or 0.0) / 1000 if measured is not None else 0.0
        few = measured is None or measured.count < FEW_ANSWERS
        margin = usual / 8 + PROOF_MARGIN_S + (UNKNOWN_MARGIN_S if few else 0.0)
        on_the_wire = (len(request.rtu) + request.answer_characters) * self._character_s
        return max(sent + on_the_wire + usual, came) + margin

    def _look(self) -> float:
        """Let out what is proved, unless something is arriving that may speak against it.

        Gives after how many seconds to look again; infinite if that comes by itself.
        """
        flight = self._flight
        if flight is not None and (flight.guard.received or flight.answer.done()):
            return inf
        since = time.perf_counter() - self._last_byte
        if self._idle and since < self._quiet_s:
            frames = whole_frames(self._idle)
            if since < self._silence_s or not frames or sum(frames[-1]) < len(self._idle):
                return self._silence_s
        self._heed()
        return self.repeats.next_due - time.monotonic()

    def _look_later(self, wait_s: float) -> None:
        if self._prover is None and wait_s < inf:  # one that is set already is not later
            self._prover = asyncio.get_running_loop().call_later(max(0.0, wait_s), self._look_again)

    def _look_again(self) -> None:
        self._prover = None
        self._look_later(self._look())

    def _judge(
        self, request: Request, guard: RtuGuard, fault: Fault | None, pdu: bytes, sent: float, came: float
    ) -> Fault | None:
        """An exchange is over: what came ahead of its answer and behind it, and what that proves. Gives its fault."""
        if fault is not None and fault.of_connection:
            self.repeats.drop()
            return fault
        if not request.echo_could_answer:
            for frame, at in self.repeats.echoes():
                if not guard.echo_seen:
                    self._tell_unasked(frame, at)
        if pdu:
            if guard.ahead:
                self._judge_unasked(guard.ahead, came)
            self._idle = guard.behind + self._idle
        elif guard.received:
            # Where the copy of an earlier answer came instead, the device has not answered wrongly, but not at all.
            again = [
                frame
                for frame in sound_frames(guard.ahead)
                if self.repeats.is_known(frame[0], frame[1:-2], came) and not self.settling.expects(frame)
            ]
            for frame in again:
                self._tell_unasked(frame, came)
            if again and fault is not None and fault.kind in _WRONGLY:
                fault = replace(
                    fault,
                    kind=FaultKind.SILENCE,
                    detail=translate("bus", "unit {unit} did not answer; an earlier answer was repeated").format(
                        unit=request.unit
                    ),
                )
        due = self._due(request, sent, came)
        if pdu:
            self.repeats.note_answer(request, pdu, came, due)
        else:
            self.repeats.note_silence(request, due)
        self._look_later(self._look())
        return fault

    def _judge_unasked(self, data: bytes, now: float) -> None:
        """Judge frames that are no answer to what is outstanding: answers that nobody asked for, others' questions."""
        for frame in sound_frames(data):
            other = read_in(frame)
            if other is not None:
                self.settling.note_silence(other, now)
            elif self.settling.expects(frame):
                self.repeats.doubt(frame[0], frame[1:-2])
            elif self._echo or not self.repeats.perhaps_echo(frame, now):
                self._tell_unasked(frame, now)

    def _tell_unasked(self, frame: bytes, now: float) -> None:
        unasked = self.repeats.note_unasked(frame[0], frame[1:-2], now)
        if unasked is not None:
            self.on_unasked(frame[0], frame, unasked)

    def _late_answer(self, data: bytes) -> tuple[int, Fault] | None:
        """The last of the answers in `data` to requests that were given up: of which unit, and how late it is."""
        last: tuple[int, Fault] | None = None
        came = time.monotonic() - (time.perf_counter() - self._last_byte)
        for frame in sound_frames(data):
            found = self.settling.late(frame)
            if found is not None:
                request, sent_at = found
                late_s = self.lateness.late(request.unit, sent_at + len(request.rtu) * self._character_s, came)
                last = request.unit, late_fault(request.unit, 1000 * late_s)
        return last

    def _hear_late(self, flight: _Flight) -> None:
        """Look at once for the late answers in what arrives, so that it is known when they came."""
        news = flight.guard.received[flight.judged :]
        if flight.request.echo_could_answer and news.startswith(flight.request.rtu):
            # Its own echo, or its own answer that could be that: no sign of a slow unit.
            flight.judged += len(flight.request.rtu)
            return
        frames = whole_frames(news)
        if frames:
            flight.judged += sum(frames[-1])
            late = self._late_answer(news)
            flight.late = late[1] if late is not None else flight.late

    def _learn(self, request: Request, guard: RtuGuard, fault: Fault | None, pdu: bytes, at: float) -> None:
        """What an exchange tells about the next ones: whether the line echoes, and which answers may still come."""
        if guard.echo_seen:
            if not request.echo_could_answer:
                self._echo = True
        elif not request.echo_could_answer and guard.clean:
            # Nothing came ahead of the answer: there is no echo. Silence proves nothing: an echo may be lost too.
            self._echo = False
        if pdu:
            self.lateness.note_answer(request.unit, time.monotonic())
            self.settling.note_answer(request, at, refused=bool(pdu[0] & 0x80))
        else:
            wrongly = fault is not None and fault.kind in _WRONGLY
            self.settling.note_silence(request, at, wrongly=wrongly)
        if fault is not None and guard.received:
            # Without our own echo, which would be taken for another client's request.
            for other in overheard(guard.received.replace(request.rtu, b"", 1)):
                self.settling.note_silence(other, at)

    # Modbus TCP ----------------------------------------------------------------------------------------------------

    async def _exchange_mbap(
        self, request: Request, permit: Callable[[], None] | None, *, linger: bool = False
    ) -> Answer:
        wire = self._ready(permit)
        transaction = self._next_transaction()
        frame = request.mbap(transaction)
        guard = MbapGuard(request, transaction)
        flight = _Flight(request, guard, self._timeout_s)
        predicted = self.predicted_ms(request)
        at, flight.sent = time.monotonic(), time.perf_counter()
        self._flights[transaction] = flight
        if self._sweeper is None:
            self._sweeper = asyncio.get_running_loop().call_later(self._timeout_s, self._sweep)
        fault: Fault | None = None
        pdu = b""
        try:
            if len(self._flights) > 1:
                wire.gather_bytes(frame)
            else:
                wire.send_bytes(frame)
            pdu = await flight.answer
            if pdu[0] & 0x80:
                fault = exception_fault(pdu[1], request.deed)
        except LineFault as failed:
            fault = failed.fault
            if linger and fault.kind in (FaultKind.SILENCE, FaultKind.LATE):
                fault, pdu = await self._linger(flight, fault)
        finally:
            del self._flights[transaction]
            if flight.quiet is not None:
                flight.quiet.cancel()
            if not pdu:
                self._late[transaction] = at
                if len(self._late) > KEPT_LATE:
                    self._late.popitem(last=False)
        took = 1000 * (time.perf_counter() - flight.sent)
        if pdu:
            self.lateness.note_answer(request.unit, time.monotonic())
            if fault is None or fault.kind is FaultKind.EXCEPTION:
                self._took(request.unit, took)
        self._tell(at, request, frame, guard.received, took, fault, predicted)
        if fault is not None:
            raise LineFault(fault)
        return Answer(pdu, at + took / 1000)

    def _sweep(self) -> None:
        """Fail what is outstanding for too long. All have the same time-out, so the oldest is the next one."""
        self._sweeper = None
        now = time.perf_counter()
        for flight in list(self._flights.values()):
            left = flight.sent + flight.limit_s - now
            if left > 0:
                self._sweeper = asyncio.get_running_loop().call_later(left, self._sweep)
                return
            self._give_up(flight)

    def _next_transaction(self) -> int:
        """A number that no answer which may still come has; never 0, which some followers answer to everything."""
        while True:
            self._transaction = self._transaction % (_TRANSACTIONS - 1) + 1
            if self._transaction not in self._late and self._transaction not in self._flights:
                return self._transaction

    def _frame_arrived(self, frame: bytes) -> None:
        transaction = int.from_bytes(frame[:2], "big")
        flight = self._flights.get(transaction)
        if flight is not None:
            pdu = flight.guard.take(frame)  # type: ignore[union-attr]
            if not flight.answer.done():
                if pdu is not None:
                    flight.answer.set_result(pdu)
                elif flight.quiet is None:
                    flight.quiet = asyncio.get_running_loop().call_later(self._quiet_s, self._quiet, flight)
            return
        oldest = next(iter(self._flights.values()), None)
        sent = self._late.pop(transaction, None)
        if sent is not None:
            late_ms = 1000 * self.lateness.late(frame[6], sent, time.monotonic())
            self.on_late(frame[6], late_fault(frame[6], late_ms))
            if oldest is not None:
                oldest.guard.earlier[transaction] = late_ms  # type: ignore[union-attr]
        if oldest is not None:
            oldest.guard.take(frame)  # type: ignore[union-attr]

    # both ----------------------------------------------------------------------------------------------------------

    def _ready(self, permit: Callable[[], None] | None) -> Wire:
        wire = self._wire
        if wire is None or self._down is not None:
            raise LineFault(self.down_fault)
        if permit is not None:
            permit()
        return wire

    async def _await_answer(self, flight: _Flight) -> bytes:
        left = flight.sent + flight.limit_s - time.perf_counter()
        give_up = asyncio.get_running_loop().call_later(left, self._give_up, flight)
        try:
            return await flight.answer
        finally:
            give_up.cancel()
            if flight.quiet is not None:
                flight.quiet.cancel()
                flight.quiet = None

    def _receive(self, data: bytes) -> None:
        self._last_byte = time.perf_counter()
        if not self._rtu:
            for frame in self._stream.feed(data, self._flights):
                self._frame_arrived(frame)
            return
        flight = self._flight
        if flight is None or flight.answer.done():
            self._idle = (self._idle + data)[-KEPT_BYTES:]
            return
        pdu = flight.guard.feed(data)
        if pdu is None and self.settling.owes(flight.request.unit):
            self._hear_late(flight)
        if pdu is not None:
            flight.answer.set_result(pdu)
        elif flight.quiet is None:
            flight.quiet = asyncio.get_running_loop().call_later(self._quiet_s, self._quiet, flight)

    def _quiet(self, flight: _Flight) -> None:
        """Something has arrived and nothing more since: if it was the answer, the whole time-out need not be waited."""
        if flight.answer.done():
            return
        left = self._last_byte + self._quiet_s - time.perf_counter()
        if left > 0:
            flight.quiet = asyncio.get_running_loop().call_later(left, self._quiet, flight)
            return
        flight.quiet = None
        pdu = flight.guard.last_look()
        if pdu is not None:
            flight.answer.set_result(pdu)
        elif (
            not self.settling.owes(flight.request.unit)
            and not self.repeats.careful(flight.request.unit, time.monotonic())
            and flight.guard.wrongly_answered()
            and not self._is_repeat(flight.guard.received)
        ):
            flight.answer.set_exception(LineFault(flight.guard.verdict()))

    def _is_repeat(self, data: bytes) -> bool:
        """Whether an answer of a while ago stands in `data`: then the one that is waited for may still come."""
        now = time.monotonic()
        return any(self.repeats.is_known(frame[0], frame[1:-2], now) for frame in sound_frames(data))

    def _lose_connection(self, error: Exception | None) -> None:
        self._down = closed_fault(self.endpoint, error)
        self._fail_all(self._down)
        self.on_closed(self._down)

    def _fail_all(self, fault: Fault) -> None:
        for flight in (*self._flights.values(), *([] if self._flight is None else [self._flight])):
            if not flight.answer.done():
                flight.answer.set_exception(LineFault(fault))

    def _give_up(self, flight: _Flight) -> None:
        """The time is up: fail the request, unless its answer is just arriving."""
        if flight.answer.done():
            return
        now = time.perf_counter()
        # A line that babbles on must not keep a request for ever: so the answer has its own length more to arrive.
        longest = flight.limit_s + (flight.request.answer_characters + 1) * self._character_s + self._quiet_s
        if flight.guard.received and now - self._last_byte < self._quiet_s and now - flight.sent < longest:
            asyncio.get_running_loop().call_later(self._quiet_s, self._give_up, flight)
            return
        if not self._rtu:
            for frame in self._stream.give_up():
                self._frame_arrived(frame)
            if flight.answer.done():
                return
            if self._stream.rest and len(self._flights) == 1:
                flight.guard.note(self._stream.rest)  # type: ignore[union-attr]
        else:
            pdu = flight.guard.last_look()
            if pdu is not None:
                flight.answer.set_result(pdu)
                return
        flight.answer.set_exception(LineFault(flight.guard.verdict()))

    def _took(self, unit: int, ms: float) -> None:
        measured = self.response_times.get(unit)
        if measured is None:
            measured = self.response_times[unit] = ResponseTimes()
        measured.add(ms)

    def _tell(
        self,
        at: float,
        request: Request,
        sent: bytes,
        received: bytes,
        took: float,
        fault: Fault | None,
        predicted: float,
    ) -> None:
        name = self._follower_of(request.unit)
        self._record(Transaction(at, self.line, name, request, sent, received, took, fault, predicted))
