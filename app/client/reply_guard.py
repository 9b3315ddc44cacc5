"""The reply guard: of all bytes that arrive, only a verified answer to the outstanding request passes.

Without any input or output of its own: bytes go in as they arrive, in whatever pieces; an answer comes out, or nothing.
What passes has the unit, the function (or its exception), the length and, for a write, the echoed address and value
that the request demands, and a CRC or an MBAP header that fits. If no answer came, `verdict` says what did.

An RTU frame has no mark at its beginning. The standard parts frames by silence, but drivers, adapters and converters
hand bytes on in lumps, and no silence outlives them. So the answer is looked for: from each place on, the bytes can be
our echo, our answer, a whole frame of somebody else, the beginning of any of these, or none of them.

- Noise is skipped a byte at a time. That lets no more damaged frames pass than their CRC does, since what begins
  anywhere must also have the right head and length (`tests/faults` counts them).
- A whole frame of somebody else is stepped over as a whole: what stands inside may look like an answer.
- Where a frame may have begun that is not complete, nothing behind its beginning is judged before `last_look`, when no
  more will come. So how the stream was cut into pieces makes no difference; `tests/fuzz` cuts it in any way.
- Our echo is stripped once. Where it has the form of the answer it is stripped unless the line certainly has none: an
  acknowledgement that was missed is told, an echo that is taken for one is a write that nobody did.
- Once another client was heard to ask for what would be answered alike, nothing passes any more: whose answer comes
  cannot be told.

A Modbus TCP frame says how long it is, and which request it answers. So the stream is cut by lengths, by one
`MbapStream` for as long as the connection lives: begun anew for each request, it would look for a header in the second
half of a late answer. A frame that breaks off would swallow what follows it; so once it was given up, a header of
something outstanding is taken for its end.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Final, TypeAlias

from app.client.faults import Fault, FaultKind, bytes_text
from app.language import translate
from app.modbus.crc import crc_fits
from app.modbus.damage import likely_cause
from app.modbus.framing import (
    MBAP_HEADER,
    REQUEST,
    SHORTEST_RTU,
    UNDECIDED,
    mbap_frames,
    mbap_length,
    whole_frame,
    whole_frames,
)
from app.modbus.overheard import read_in
from app.modbus.requests import Request

KEPT_BYTES: Final = 2048
"""Bytes that are looked at for one request; of a line that babbles on, the newest."""


class RtuGuard:
    """The guard for RTU frames.

    `echo` says whether this line gives our own frames back: True, False, or None if that is not known yet. It matters
    where the echo of a request would have the form of an answer (functions 05 and 06): unless there is certainly no
    echo, the first copy is not yet an answer.
    """

    def __init__(self, request: Request, *, echo: bool | None = False) -> None:
        self.received = b""
        """All that arrived since the request, up to KEPT_BYTES."""
        self.echo_seen = False
        """Whether the request itself came back first, as from a two-wire adapter that hears itself."""
        self._request = request
        self._strip = echo is not False or not request.echo_could_answer
        self._head = bytes((request.unit,)) + request.answer_head
        self._length = request.answer_length + 3
        self._refusal = bytes((request.unit, request.function | 0x80))
        self._start = 0
        """Where the echo ends."""
        self._at = 0
        """Where the search goes on: all before it can neither be nor become a part of the answer."""
        self._passed_at: int | None = None
        self._passed_length = 0
        self._doubtful = False

    @property
    def ahead(self) -> bytes:
        """What arrived behind the echo and ahead of the answer; all of it if none has passed."""
        return self.received[self._start : self._passed_at]

    @property
    def behind(self) -> bytes:
        """What arrived together with the answer and does not belong to it."""
        return b"" if self._passed_at is None else self.received[self._passed_at + self._passed_length :]

    @property
    def clean(self) -> bool:
        """Whether an answer, the true one or not, was the very first thing to arrive: the line gives no echo."""
        if self._passed_at == 0:
            return True
        first = whole_frame(self.received, 0, wait=False) if len(self.received) >= SHORTEST_RTU else 0
        return first > 0 and not self.received.startswith(self._request.rtu)

    def feed(self, data: bytes) -> bytes | None:
        """Take what arrived. Gives the PDU of the verified answer once it is complete."""
        self.received += data
        surplus = len(self.received) - KEPT_BYTES
        if surplus > 0:
            self._start, self._at = max(0, self._start - surplus), max(0, self._at - surplus)
            self.received = self.received[surplus:]
        return self._search(final=False)

    def last_look(self) -> bytes | None:
        """No more will come: an answer that was held back only because a longer frame might have begun before it."""
        return self._search(final=True)

    def _search(self, *, final: bool) -> bytes | None:
        data, at, own = self.received, self._at, self._request.rtu
        end = len(data)
        passed: bytes | None = None
        while at < end and not self._doubtful:
            strip = self._strip and not self.echo_seen
            if strip and data.startswith(own, at):
                self.echo_seen = True
                at = self._start = at + len(own)
                continue
            if data.startswith(self._head, at):
                length, waits = self._length, end - at < self._length
            elif data.startswith(self._refusal, at):
                length, waits = 5, end - at < 5
            else:
                length, waits = 0, self._head.startswith(data[at:]) or self._refusal.startswith(data[at:])
            if waits or (strip and own.startswith(data[at:])):
                if not final:
                    break
            elif length and crc_fits(data[at : at + length]):
                passed = data[at + 1 : at + length - 2]
                self._passed_at, self._passed_length = at, length
                break
            whole = whole_frame(data, at, wait=not final)
            if whole == UNDECIDED:
                break
            if whole == REQUEST and self._asked_alike(data[at : at + REQUEST]):
                self._doubtful = True
            at += whole or 1
        if not final:
            self._at = at
        return passed

    def _asked_alike(self, frame: bytes) -> bool:
        """Whether somebody else has just asked for what would be answered like our request."""
        if frame == self._request.rtu:
            return False
        other = read_in(frame)
        return other is not None and other.unit == self._request.unit and other.answer_head == self._request.answer_head

    def wrongly_answered(self) -> bool:
        """Whether an answer has come, whole, though a wrong or a damaged one: nothing more is to be expected."""
        data, request = self.received[self._start :], self._request
        if len(data) < SHORTEST_RTU or self._doubtful:
            return False
        for at, length in whole_frames(data):
            frame = data[at : at + length]
            if frame[0] == request.unit and read_in(frame) is None:
                return True
            if frame[1:].startswith(request.answer_head) and length == self._length:
                return True
        return len(data) >= self._length - 1

    def verdict(self) -> Fault:
        """What is wrong, judged by what has arrived so far."""
        request, unit = self._request, self._request.unit
        data = self.received[self._start :]
        if self._doubtful:
            return Fault(
                FaultKind.OTHER_CLIENT,
                translate(
                    "bus",
                    "another client sent unit {unit} a similar request at the same time; it is not clear whose answer "
                    "this is",
                ).format(unit=unit),
            )
        if not data:
            if self.echo_seen:
                return Fault(
                    FaultKind.SILENCE,
                    translate(
                        "bus", "unit {unit} did not answer; only our own request came back from the adapter"
                    ).format(unit=unit),
                )
            return Fault(FaultKind.SILENCE, translate("bus", "unit {unit} did not answer").format(unit=unit))
        found = [data[at : at + length] for at, length in whole_frames(data)]
        if not found and len(data) >= 4 and crc_fits(data):
            found = [data]
        answers = [frame for frame in found if read_in(frame) is None]
        if found:
            frame = next((frame for frame in answers if frame[0] == unit), (answers or found)[0])
            if not answers:
                return Fault(
                    FaultKind.OTHER_CLIENT,
                    translate("bus", "another client polled unit {asked} while unit {unit} was answering").format(
                        asked=frame[0], unit=unit
                    ),
                )
            return _other_frame(request, frame[0], frame[1:-2])
        return self._damage(data)

    def _damage(self, data: bytes) -> Fault:
        """What is wrong with bytes among which no frame is sound."""
        request, unit = self._request, self._request.unit
        at = data.find(self._head)
        wanted = self._length
        if at < 0:
            at = data.find(self._refusal)
            wanted = 5 if at >= 0 else wanted
        if at >= 0 and len(data) - at < wanted:
            return _cut_fault(unit, len(data) - at, wanted)
        if len(data) < len(self._head) and (self._head.startswith(data) or self._refusal.startswith(data)):
            return _cut_fault(unit, len(data), wanted)
        begun = at if at >= 0 else data.find(self._head[:2])
        cause = likely_cause(request, data[begun:] if begun > 0 else data)
        if begun >= 0 or (cause is not None and cause.of_answer):
            return Fault(
                FaultKind.BAD_CRC,
                translate("bus", "the answer of unit {unit} arrived damaged: {seen}").format(
                    unit=unit, seen=cause.seen if cause else translate("bus", "its check sum is wrong")
                ),
                check=cause.check if cause else "",
            )
        if cause is None:
            return _no_frame(data, unit)
        return Fault(
            FaultKind.GARBLED,
            translate("bus", "{bytes} arrived instead of an answer of unit {unit}: {seen}").format(
                bytes=bytes_text(len(data)), unit=unit, seen=cause.seen
            ),
            check=cause.check,
        )


class MbapStream:
    """Cuts what arrives on one connection of Modbus TCP into frames, whoever they are for.

    It lives as long as the connection, so that the second half of a late answer is never looked into. Bytes that cannot
    be a header are skipped.
    """

    def __init__(self) -> None:
        self.rest = b""
        """A frame that has begun, or less."""
        self._given_up = False

    def feed(self, data: bytes, expected: Collection[int] = ()) -> list[bytes]:
        """The frames that are complete with `data`. `expected` are the transactions that are outstanding."""
        if self._given_up and self.rest:
            self._given_up = False
            if not self._can_continue(data) and mbap_length(data, 0) and int.from_bytes(data[:2], "big") in expected:
                self.rest = b""  # the one that broke off ends there: here begins what was asked for
        if not self.rest and mbap_length(data, 0) == len(data):
            return [data]
        frames, self.rest = mbap_frames(self.rest + data if self.rest else data, final=False)
        return frames

    def _can_continue(self, data: bytes) -> bool:
        """Whether `data` can be what is missing of the frame that has begun: behind it another one begins, or nothing.

        Only what can not be that may be taken for a new frame, or the inside of a late answer could be.
        """
        length = mbap_length(self.rest, 0)
        if length is None:
            return True
        behind = data[length - len(self.rest) :]
        return mbap_length(behind, 0) is not None if len(behind) > MBAP_HEADER else not any(behind[2:4])

    def give_up(self) -> list[bytes]:
        """What has begun did not end in time. Gives frames that stand behind its beginning, if that was no header."""
        self._given_up = True
        frames, rest = mbap_frames(self.rest, final=True)
        if frames:
            self.rest = rest
        return frames


class MbapGuard:
    """The guard for Modbus TCP.

    `transaction` is the identifier of the outstanding request; `earlier` says of requests that went unanswered by how
    many milliseconds an answer that arrives now missed its time-out, by transaction identifier.
    """

    def __init__(self, request: Request, transaction: int, earlier: Mapping[int, float] | None = None) -> None:
        self.received = b""
        self.earlier = dict(earlier) if earlier else {}
        self._request = request
        self._stream: MbapStream | None = None
        self._transaction = transaction
        self._label = transaction.to_bytes(2, "big")
        self._head = self._label + request.mbap_answer
        self._length = request.answer_length + MBAP_HEADER

    def feed(self, data: bytes) -> bytes | None:
        """See RtuGuard. For a connection with one request at a time, whose stream is this guard's alone."""
        if self._stream is None:
            self._stream = MbapStream()
        return self._first(self._stream.feed(data, (self._transaction,)), data)

    def last_look(self) -> bytes | None:
        """See RtuGuard."""
        return None if self._stream is None else self._first(self._stream.give_up(), b"")

    def take(self, frame: bytes) -> bytes | None:
        """One whole frame of the connection. Gives the PDU if it is the verified answer."""
        if not self.received and len(frame) == self._length and frame.startswith(self._head):
            self.received = frame
            return frame[MBAP_HEADER:]
        self.received = (self.received + frame)[-KEPT_BYTES:]
        return self._first((frame,), b"")

    def note(self, data: bytes) -> None:
        """Bytes that arrived and are no frame."""
        self.received = (self.received + data)[-KEPT_BYTES:]

    def _first(self, frames: Collection[bytes], data: bytes) -> bytes | None:
        self.received = (self.received + data)[-KEPT_BYTES:]
        for frame in frames:
            if frame.startswith(self._head) and len(frame) == self._length:
                return frame[MBAP_HEADER:]
            if len(frame) == MBAP_HEADER + 2 and frame.startswith(self._refusal):
                return frame[MBAP_HEADER:]
        return None

    @property
    def _refusal(self) -> bytes:
        return self._label + b"\0\0\0\x03" + bytes((self._request.unit, self._request.function | 0x80))

    def wrongly_answered(self) -> bool:
        """See RtuGuard."""
        return any(frame[:2] == self._label for frame in mbap_frames(self.received, final=False)[0])

    def verdict(self) -> Fault:
        """See RtuGuard."""
        request, data = self._request, self.received
        if not data:
            return Fault(FaultKind.SILENCE, translate("bus", "unit {unit} did not answer").format(unit=request.unit))
        others: list[Fault] = []
        at = 0
        while len(data) - at > MBAP_HEADER:
            length = mbap_length(data, at)
            if length is None:
                at += 1
                continue
            frame = data[at : at + length]
            transaction = int.from_bytes(frame[:2], "big")
            if transaction in self.earlier:
                others.append(late_fault(frame[6], self.earlier[transaction]))
            elif frame[:2] != self._label:
                others.append(
                    Fault(
                        FaultKind.WRONG_TRANSACTION,
                        translate("bus", "the answer has transaction number {found} instead of {asked}").format(
                            found=transaction, asked=self._transaction
                        ),
                    )
                )
            elif len(frame) < length:
                others.append(_cut_fault(request.unit, len(frame), length))
            else:
                others.append(_other_frame(request, frame[6], frame[7:]))
            at += length
        if others:
            return others[-1]
        if self._head.startswith(data):
            return _cut_fault(request.unit, len(data), self._length)
        return _no_frame(data, request.unit)


Guard: TypeAlias = RtuGuard | MbapGuard
"""That of either framing."""


def late_fault(unit: int, late_ms: float) -> Fault:
    """The true answer of `unit` came `late_ms` milliseconds after the time-out."""
    return Fault(
        FaultKind.LATE,
        translate("bus", "unit {unit} answered {late_ms:.0f} ms after the time-out").format(unit=unit, late_ms=late_ms),
        late_ms=late_ms,
    )


def _other_frame(request: Request, unit: int, pdu: bytes) -> Fault:
    """What is wrong with a sound frame that is not the answer."""
    if unit != request.unit:
        return Fault(
            FaultKind.WRONG_UNIT,
            translate("bus", "unit {unit} answered instead of unit {asked}").format(unit=unit, asked=request.unit),
        )
    function = pdu[0]
    if function & 0x7F != request.function:
        return Fault(
            FaultKind.WRONG_FUNCTION,
            translate("bus", "unit {unit} answered with function {function:02d} instead of {asked:02d}").format(
                unit=unit, function=function & 0x7F, asked=request.function
            ),
        )
    if request.writes and len(pdu) == request.answer_length:
        return Fault(
            FaultKind.WRONG_ECHO,
            translate("bus", "unit {unit} acknowledged a different register or value from the one written").format(
                unit=unit
            ),
        )
    return Fault(
        FaultKind.WRONG_LENGTH,
        translate(
            "bus", "unit {unit} sent an answer of {bytes}; the answer to this request has {answer_length}"
        ).format(unit=unit, bytes=bytes_text(len(pdu)), answer_length=request.answer_length),
    )


def _no_frame(data: bytes, unit: int) -> Fault:
    return Fault(
        FaultKind.GARBLED,
        translate("bus", "{bytes} arrived instead of an answer of unit {unit}, not a frame").format(
            bytes=bytes_text(len(data)), unit=unit
        ),
    )


def _cut_fault(unit: int, came: int, wanted: int) -> Fault:
    return Fault(
        FaultKind.CUT,
        translate("bus", "the answer of unit {unit} ended after {came} of {wanted} bytes").format(
            unit=unit, came=came, wanted=wanted
        ),
    )
