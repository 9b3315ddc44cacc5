"""The reply guard: of all bytes that arrive, only a verified answer to the outstanding request passes.

Without any input or output of its own: bytes go in as they arrive, in whatever pieces; an answer comes out, or nothing.
What passes has the unit, the function (or its exception), the length and, for a write, the echoed address and value
that the request demands, and a CRC or an MBAP header that fits. Noise before it is skipped; whole frames of others are
stepped over, so nothing inside them is taken for an answer. If no answer came, `verdict` says what did.

Frames as in MODBUS Application Protocol V1.1b3 and MODBUS over Serial Line V1.02 (from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, Protocol

from app.bus.faults import Fault, FaultKind
from app.bus.requests import Request, crc_fits

KEPT_BYTES: Final = 2048
"""Bytes that are looked at for one request; of a line that babbles on, the newest."""

_SHORTEST_RTU: Final = 5
_MBAP_HEADER: Final = 7
_LONGEST_PDU: Final = 253
_FIXED_LENGTH: Final = {5: 8, 6: 8, 7: 5, 8: 8, 11: 8, 15: 8, 16: 8, 22: 10}
"""Whole RTU frames of answers that have one length, by function."""
_COUNTED: Final = frozenset((1, 2, 3, 4, 12, 17, 20, 21, 23))
"""Functions whose answers carry a byte count as their first data byte."""


class Guard(Protocol):
    """What the two framings have in common."""

    @property
    def received(self) -> bytes:
        """All that arrived since the request, up to KEPT_BYTES."""
        ...

    @property
    def echo_seen(self) -> bool:
        """Whether the request itself came back first, as from a two-wire adapter that hears itself."""
        ...

    def feed(self, data: bytes) -> bytes | None:
        """Take what arrived. Gives the PDU of the verified answer once it is complete."""
        ...

    def last_look(self) -> bytes | None:
        """No more will come: an answer that was held back only because a longer one might have begun before it."""
        ...

    def verdict(self) -> Fault:
        """What is wrong, judged by what has arrived so far."""
        ...


class RtuGuard:
    """The guard for RTU frames.

    `echo` says that this line is known to give our own frames back, so that the first copy of a request whose answer
    equals it (functions 05 and 06) is not yet an answer.
    """

    def __init__(self, request: Request, *, echo: bool = False) -> None:
        self.received = b""
        self.echo_seen = False
        self._request = request
        self._echo = echo or not request.answer_is_echo
        self._head = bytes((request.unit,)) + request.answer_head
        self._length = request.answer_length + 3
        self._refusal = bytes((request.unit, request.function | 0x80))
        self._from = 0

    def feed(self, data: bytes) -> bytes | None:
        """See Guard."""
        self.received += data
        if len(self.received) > KEPT_BYTES:
            self._from = max(0, self._from - (len(self.received) - KEPT_BYTES))
            self.received = self.received[-KEPT_BYTES:]
        return self._search(final=False)

    def last_look(self) -> bytes | None:
        """See Guard."""
        return self._search(final=True)

    def _search(self, *, final: bool) -> bytes | None:
        data, at = self.received, self._from
        end = len(data)
        while end - at >= _SHORTEST_RTU:
            if not self.echo_seen and self._echo and data.startswith(self._request.rtu, at):
                self.echo_seen = True
                at = self._from = at + len(self._request.rtu)
                continue
            if data.startswith(self._head, at):
                frame = data[at : at + self._length]
                if len(frame) == self._length:
                    if crc_fits(frame):
                        return frame[1:-2]
                elif not final:
                    # A true answer that begins later is as long and ends later: nothing is lost by waiting.
                    return None
            elif data.startswith(self._refusal, at) and crc_fits(data[at : at + 5]):
                return data[at + 1 : at + 3]
            at += _whole_frame(data, at) or 1
        return None

    def verdict(self) -> Fault:
        """See Guard."""
        request, unit = self._request, self._request.unit
        data = self.received[self._from :]
        if not data:
            if self.echo_seen:
                return Fault(
                    FaultKind.SILENCE, f"unit {unit} did not answer; only our own request came back from the adapter"
                )
            return Fault(FaultKind.SILENCE, f"unit {unit} did not answer")
        for at in range(len(data)):
            length = _whole_frame(data, at)
            if length is None and at == 0 and len(data) >= 4 and crc_fits(data):
                length = len(data)
            if length is not None:
                return _other_frame(request, data[at], data[at + 1 : at + length - 2])
        at = data.find(self._head[:2])
        if at < 0:
            at = data.find(self._refusal)
        if at >= 0:
            wanted = 5 if data.startswith(self._refusal, at) else self._length
            if data.startswith(self._head, at) or wanted == 5:
                if len(data) - at < wanted:
                    return _cut(unit, len(data) - at, wanted)
                return Fault(
                    FaultKind.BAD_CRC, f"the answer of unit {unit} arrived damaged: its check sum does not fit"
                )
            if len(data) - at <= 3 and self._head.startswith(data[at:]):
                return _cut(unit, len(data) - at, wanted)
            return Fault(FaultKind.BAD_CRC, f"the answer of unit {unit} arrived damaged: its check sum does not fit")
        if len(data) >= 4 and crc_fits(bytes((unit,)) + data):
            return Fault(FaultKind.BAD_CRC, f"the answer of unit {unit} arrived without its first byte")
        if self._head.startswith(data):
            return _cut(unit, len(data), self._length)
        return Fault(
            FaultKind.GARBLED, f"{_bytes(len(data))} arrived instead of an answer of unit {unit}, and no frame"
        )


class MbapGuard:
    """The guard for Modbus TCP.

    `transaction` is the identifier of the outstanding request; `earlier` says of requests that went unanswered by how
    many milliseconds an answer that arrives now missed its time-out, by transaction identifier.
    """

    def __init__(self, request: Request, transaction: int, earlier: Mapping[int, float] | None = None) -> None:
        self.received = b""
        self.echo_seen = False
        self._request = request
        self._earlier = earlier or {}
        self._label = transaction.to_bytes(2, "big") + b"\0\0"
        self._unit = bytes((request.unit,))
        length = request.answer_length + 1
        self._head = self._label + length.to_bytes(2, "big") + self._unit + request.answer_head
        self._length = length + 6
        self._refusal = self._label + b"\0\x03" + self._unit + bytes((request.function | 0x80,))

    def feed(self, data: bytes) -> bytes | None:
        """See Guard."""
        if not self.received and len(data) == self._length and data.startswith(self._head):
            self.received = data
            return data[_MBAP_HEADER:]
        self.received = (self.received + data)[-KEPT_BYTES:]
        return self._search()

    def last_look(self) -> bytes | None:
        """See Guard."""
        return self._search()

    def _search(self) -> bytes | None:
        data, at = self.received, 0
        end = len(data)
        while end - at > _MBAP_HEADER:
            if data.startswith(self._head, at):
                if end - at < self._length:
                    return None
                return data[at + _MBAP_HEADER : at + self._length]
            if data.startswith(self._refusal, at) and end - at >= _MBAP_HEADER + 2:
                return data[at + _MBAP_HEADER : at + _MBAP_HEADER + 2]
            length = _mbap_length(data, at)
            at += length if length is not None and end - at >= length else 1
        return None

    def verdict(self) -> Fault:
        """See Guard."""
        request, data = self._request, self.received
        if not data:
            return Fault(FaultKind.SILENCE, f"unit {request.unit} did not answer")
        others: list[Fault] = []
        at = 0
        while len(data) - at > _MBAP_HEADER:
            length = _mbap_length(data, at)
            if length is None:
                at += 1
                continue
            frame = data[at : at + length]
            transaction = int.from_bytes(frame[:2], "big")
            if transaction in self._earlier:
                others.append(late_fault(frame[6], self._earlier[transaction]))
            elif frame[:2] != self._label[:2]:
                others.append(
                    Fault(
                        FaultKind.WRONG_TRANSACTION,
                        f"an answer came with transaction number {transaction}; "
                        f"asked was {int.from_bytes(self._label[:2], 'big')}",
                    )
                )
            elif len(frame) < length:
                others.append(_cut(request.unit, len(frame), length))
            else:
                others.append(_other_frame(request, frame[6], frame[7:]))
            at += length
        if others:
            return others[-1]
        if self._head.startswith(data):
            return _cut(request.unit, len(data), self._length)
        return Fault(
            FaultKind.GARBLED, f"{_bytes(len(data))} arrived instead of an answer of unit {request.unit}, and no frame"
        )


def late_fault(unit: int, late_ms: float) -> Fault:
    """The true answer of `unit` came `late_ms` milliseconds after the time-out."""
    return Fault(FaultKind.LATE, f"unit {unit} answered {late_ms:.0f} ms after the time-out", late_ms=late_ms)


def _whole_frame(data: bytes, at: int) -> int | None:
    """The length of a complete answer, of whomever to whatever, that begins at `at` and whose CRC fits."""
    if len(data) - at < _SHORTEST_RTU or not 1 <= data[at] <= 247:
        return None
    function = data[at + 1]
    if function in _COUNTED:
        length = data[at + 2] + 5
    elif function >= 0x81:
        length = 5
    else:
        length = _FIXED_LENGTH.get(function, 0)
    if not length or len(data) - at < length or not crc_fits(data[at : at + length]):
        return None
    return length


def _mbap_length(data: bytes, at: int) -> int | None:
    """The length of the frame whose MBAP header and function stand at `at`, or None if they cannot."""
    length = int.from_bytes(data[at + 4 : at + 6], "big")
    if data[at + 2 : at + 4] != b"\0\0" or not 2 < length <= _LONGEST_PDU + 1 or not data[at + 7] & 0x7F:
        return None
    return 6 + length


def _other_frame(request: Request, unit: int, pdu: bytes) -> Fault:
    """What is wrong with a sound frame that is not the answer."""
    if unit != request.unit:
        return Fault(FaultKind.WRONG_UNIT, f"unit {unit} answered instead of unit {request.unit}")
    function = pdu[0]
    if function & 0x7F != request.function:
        return Fault(
            FaultKind.WRONG_FUNCTION,
            f"unit {unit} answered function {function & 0x7F:02d} instead of {request.function:02d}",
        )
    if request.writes and len(pdu) == request.answer_length:
        return Fault(
            FaultKind.WRONG_ECHO, f"unit {unit} acknowledged another register or value than the one that was written"
        )
    return Fault(
        FaultKind.WRONG_LENGTH,
        f"unit {unit} answered {_bytes(len(pdu))} long; the answer to this request is {request.answer_length} long",
    )


def _cut(unit: int, came: int, wanted: int) -> Fault:
    return Fault(FaultKind.CUT, f"the answer of unit {unit} broke off after {came} of {wanted} bytes")


def _bytes(count: int) -> str:
    return "1 byte" if count == 1 else f"{count} bytes"
