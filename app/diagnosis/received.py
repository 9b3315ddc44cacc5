"""The frames in what arrived for a request, found as far as they go: noise, echoes, frames of others, what was cut."""

from __future__ import annotations

from collections.abc import Iterator

from app.client.faults import FaultKind
from app.client.transactions import Transaction
from app.diagnosis.frame_parts import FrameReader
from app.diagnosis.frame_words import cut_off
from app.diagnosis.frames import Frame, FramePart, FrameRole
from app.language import translate
from app.modbus.crc import crc_fits
from app.modbus.framing import COUNTED, LONGEST_RTU, MBAP_HEADER, SHORTEST_RTU, mbap_length, whole_frame
from app.modbus.overheard import read_in
from app.modbus.requests import Request


def rtu_frames(transaction: Transaction, reader: FrameReader) -> Iterator[Frame]:
    """The frames in what arrived on a line whose frames carry a unit and a check sum."""
    request, data = transaction.request, transaction.received
    echoed = _echo_due(transaction)
    head = bytes((request.unit,)) + request.answer_head
    whole = request.answer_length + 3
    found: list[tuple[int, int, FrameRole]] = []
    at = 0
    while at < len(data):
        if echoed and data.startswith(request.rtu, at):
            found.append((at, len(request.rtu), FrameRole.ECHO))
            echoed = False
        elif data.startswith(head, at) and len(data) - at >= whole and crc_fits(data[at : at + whole]):
            found.append((at, whole, FrameRole.ANSWER))
        elif length := _sound_length(data, at):
            found.append((at, length, _role(request, data[at : at + length])))
        else:
            at += 1
            continue
        at += found[-1][1]
    answered = any(role in (FrameRole.ANSWER, FrameRole.REFUSAL) for _, _, role in found)
    end = 0
    for start, length, role in [*found, (len(data), 0, FrameRole.NOISE)]:
        if start > end:
            stray = data[end:start]
            yield from [_noise(stray)] if answered else _remains(stray, reader)
        if length:
            yield reader.frame(role, data[start : start + length])
        end = start + length


def _echo_due(transaction: Transaction) -> bool:
    """Whether the first copy of the request in what arrived is an echo rather than the answer."""
    request = transaction.request
    if not request.echo_could_answer:
        return True
    copies = transaction.received.count(request.rtu)
    fault = transaction.fault
    return copies > 1 or (fault is not None and fault.kind is not FaultKind.LATE)


def _remains(data: bytes, reader: FrameReader) -> Iterator[Frame]:
    """Bytes that make no sound frame, while the answer is missing: what may be left of it."""
    request = reader.request
    head = bytes((request.unit,)) + request.answer_head
    refusal = bytes((request.unit, request.function | 0x80))
    at = next((place for place in (data.find(head), data.find(refusal), data.find(head[:2])) if place >= 0), -1)
    if at < 0:
        if len(data) >= 4 and crc_fits(bytes((request.unit,)) + data):
            yield reader.frame(FrameRole.DAMAGED, data, headless=True)
        elif head.startswith(data):
            yield reader.frame(FrameRole.CUT, data)
        else:
            yield _noise(data)
        return
    if at:
        yield _noise(data[:at])
    rest = data[at:]
    if rest.startswith(refusal):
        length = 5
    elif request.function in COUNTED and len(rest) > 2:
        length = min(rest[2] + 5, LONGEST_RTU)
    else:
        length = request.answer_length + 3
    if len(rest) < length:
        # The whole of a shorter answer may have arrived with a byte count that is damaged.
        yield _cut_frame(rest, length, reader)
        return
    yield reader.frame(FrameRole.DAMAGED, rest[:length])
    if len(rest) > length:
        yield _noise(rest[length:])


def _cut_frame(data: bytes, length: int, reader: FrameReader) -> Frame:
    """An answer of which `length` bytes should have come: its check sum may have begun."""
    if len(data) == length - 1:
        frame = reader.frame(FrameRole.CUT, data[:-1])
        return Frame(
            FrameRole.CUT, (*frame.parts, FramePart(data[-1:], translate("bus", "check sum"), cut_off(1, 2), (), True))
        )
    return reader.frame(FrameRole.CUT, data)


def _noise(data: bytes) -> Frame:
    name = translate("bus", "stray bytes") if len(data) > 1 else translate("bus", "stray byte")
    return Frame(FrameRole.NOISE, (FramePart(data, name, translate("bus", "not a frame"), (), True),))


def _role(request: Request, frame: bytes) -> FrameRole:
    """What a sound frame is that is neither our echo nor the answer."""
    if read_in(frame) is not None:
        return FrameRole.OTHER_CLIENT
    refused = frame[0] == request.unit and frame[1] == request.function | 0x80
    return FrameRole.REFUSAL if refused else FrameRole.STRANGER


def _sound_length(data: bytes, at: int) -> int:
    """The length of the frame of whomever to whatever that begins at `at`, if its check sum fits; else 0.

    All that is left may be one frame of a function, or of a length, that the standard does not have.
    """
    rest = data[at:]
    odd = SHORTEST_RTU <= len(rest) <= LONGEST_RTU and 1 <= rest[0] <= 247 and crc_fits(rest)
    return whole_frame(data, at, wait=False) or (len(rest) if odd else 0)


def mbap_frames(data: bytes, reader: FrameReader) -> Iterator[Frame]:
    """The frames in what arrived on a line whose frames carry a header with a transaction number."""
    label = reader.label or b""
    at = stray = 0
    while at < len(data):
        length = mbap_length(data, at)
        if length is None:
            at += 1
            continue
        if at > stray:
            yield _noise(data[stray:at])
        frame = data[at : at + length]
        yield reader.frame(_mbap_role(reader.request, label, frame, length), frame)
        at += len(frame)
        stray = at
    if at > stray:
        rest = data[stray:]
        begun = (label + b"\0\0").startswith(rest[:4])
        yield reader.frame(FrameRole.CUT, rest) if begun else _noise(rest)


def _mbap_role(request: Request, label: bytes, frame: bytes, length: int) -> FrameRole:
    if len(frame) < length:
        return FrameRole.CUT
    ours = frame[:2] == label and frame[6] == request.unit
    if ours and frame[7:].startswith(request.answer_head) and len(frame) == request.answer_length + MBAP_HEADER:
        return FrameRole.ANSWER
    if ours and frame[7] == request.function | 0x80 and len(frame) == MBAP_HEADER + 2:
        return FrameRole.REFUSAL
    return FrameRole.STRANGER
