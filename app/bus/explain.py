"""One transaction's bytes taken apart: each part named and put into words, right or wrong, without input or output.

Frames as in MODBUS Application Protocol V1.1b3, MODBUS over Serial Line V1.02 and MODBUS Messaging on TCP/IP V1.0b
(from memory). What arrived is explained as far as it goes: noise, an echo, frames of others, a damaged or cut answer.
Nothing is left out: the parts, put together again, are the bytes that went over the line.
"""

from __future__ import annotations

import enum
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from pymodbus.framer import FramerRTU

from app.bus.faults import EXCEPTIONS, FaultKind, exception_text
from app.bus.register_names import NO_NAMES, RegisterNames
from app.bus.requests import RETURN_QUERY_DATA, Request, crc_fits
from app.bus.transactions import Transaction
from app.language import mark, translate
from app.signals.numbering import Table, register_text

FUNCTIONS: Final = {
    1: mark("bus", "read coils"),
    2: mark("bus", "read discrete inputs"),
    3: mark("bus", "read holding registers"),
    4: mark("bus", "read input registers"),
    5: mark("bus", "write one coil"),
    6: mark("bus", "write one register"),
    7: mark("bus", "read exception status"),
    8: mark("bus", "diagnostics"),
    11: mark("bus", "read event counter"),
    12: mark("bus", "read event log"),
    15: mark("bus", "write coils"),
    16: mark("bus", "write registers"),
    17: mark("bus", "report server identification"),
    20: mark("bus", "read file record"),
    21: mark("bus", "write file record"),
    22: mark("bus", "mask write register"),
    23: mark("bus", "read and write registers"),
    24: mark("bus", "read FIFO queue"),
    43: mark("bus", "encapsulated transport"),
}
"""What the standard's functions do."""

_TABLE: Final[dict[int, Table]] = {
    1: "coil",
    2: "discrete",
    3: "holding",
    4: "input",
    5: "coil",
    6: "holding",
    15: "coil",
    16: "holding",
    22: "holding",
    23: "holding",
}
_WHOLE: Final = {5: 8, 6: 8, 7: 5, 8: 8, 11: 8, 15: 8, 16: 8, 22: 10}
"""RTU frames of answers that have one length, by function."""
_COUNTED: Final = frozenset((1, 2, 3, 4, 12, 17, 20, 21, 23))
"""Functions whose answers carry a byte count behind the function."""
_LONGEST_RTU: Final = 256
_MBAP: Final = 7
_LONGEST_MBAP: Final = 254


class Role(enum.StrEnum):
    """What a frame, or a run of bytes that is none, is to the request."""

    REQUEST = "request"
    ANSWER = "answer"
    REFUSAL = "refusal"
    """The follower answered with an exception."""
    ECHO = "echo"
    """Our own request, heard again through the adapter."""
    STRANGER = "stranger"
    """A sound frame that does not answer this request."""
    DAMAGED = "damaged"
    """The answer, with a check sum that does not fit or without its first byte."""
    CUT = "cut"
    """The answer, broken off."""
    NOISE = "noise"
    """Bytes that make no frame."""


ROLE_WORDS: Final = {
    Role.REQUEST: mark("bus", "request"),
    Role.ANSWER: mark("bus", "answer"),
    Role.REFUSAL: mark("bus", "answer: refused"),
    Role.ECHO: mark("bus", "echo of the request, from the adapter"),
    Role.STRANGER: mark("bus", "a frame that does not answer this request"),
    Role.DAMAGED: mark("bus", "damaged answer"),
    Role.CUT: mark("bus", "answer that broke off"),
    Role.NOISE: mark("bus", "bytes that make no frame"),
}


@dataclass(frozen=True, slots=True)
class Part:
    """Some bytes of a frame, what they are, and what they say. `wrong` marks what does not fit the request.

    `signals` names the signals of the project that these bytes are about.
    """

    data: bytes
    name: str
    words: str
    signals: tuple[str, ...] = ()
    wrong: bool = False


@dataclass(frozen=True, slots=True)
class Frame:
    """A frame, or a run of bytes that is none, in its parts."""

    role: Role
    parts: tuple[Part, ...]

    @property
    def data(self) -> bytes:
        """All its bytes."""
        return b"".join(part.data for part in self.parts)

    @property
    def words(self) -> str:
        """What it is to the request."""
        return translate("bus", ROLE_WORDS[self.role])


@dataclass(frozen=True, slots=True)
class Explanation:
    """A transaction in words. `fault` is empty if a verified answer came; `signals` are all that it was about."""

    transaction: Transaction
    sent: Frame
    received: tuple[Frame, ...]
    signals: tuple[str, ...]
    timing: str
    fault: str

    @property
    def result(self) -> str:
        """How it ended, in at most 20 characters."""
        fault = self.transaction.fault
        return fault.short if fault else translate("bus", "good")


def explain(transaction: Transaction, names: RegisterNames = NO_NAMES) -> Explanation:
    """Take a transaction apart; `names` puts the signals of a project to the registers."""
    request = transaction.request
    rtu = transaction.sent == request.rtu
    reader = _Parts(request, transaction.follower, names, None if rtu else transaction.sent[:2])
    received = tuple(_rtu_received(transaction, reader) if rtu else _mbap_received(transaction.received, reader))
    fault = transaction.fault
    return Explanation(
        transaction,
        reader.frame(Role.REQUEST, transaction.sent),
        received,
        names.at(transaction.follower, request.table, request.address, reader.count),
        _timing(transaction),
        fault.sentence if fault else "",
    )


def _timing(transaction: Transaction) -> str:
    """Measured against predicted time, in words."""
    fault = transaction.fault
    answered = fault is None or fault.kind in (FaultKind.EXCEPTION, FaultKind.LATE)
    took, predicted = milliseconds(transaction.ms), transaction.predicted_ms
    if not predicted:
        return f"{took} ms" if answered else translate("bus", "given up after {took} ms").format(took=took)
    if answered:
        told = translate("bus", "{took} ms, predicted {predicted} ms")
    else:
        told = translate("bus", "given up after {took} ms, predicted {predicted} ms")
    return told.format(took=took, predicted=milliseconds(predicted))


# The parts of one frame ----------------------------------------------------------------------------------------------


class _Cursor:
    """Takes parts off the front of some bytes; what is not there any more makes no part, or a short one."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        self.at = 0
        self.parts: list[Part] = []

    @property
    def left(self) -> int:
        return len(self.data) - self.at

    def take(
        self,
        size: int,
        name: str,
        say: Callable[[bytes], str] | str,
        *,
        wrong: Callable[[bytes], bool] | bool = False,
        signals: tuple[str, ...] = (),
    ) -> bytes:
        """Take a part of `size` bytes; `say` and `wrong` are asked only if it is whole."""
        data = self.data[self.at : self.at + max(0, size)]
        self.at += len(data)
        if not data:
            return data
        if len(data) < size:
            self.parts.append(Part(data, name, _cut_off(len(data), size), signals, True))
        else:
            words = say if isinstance(say, str) else say(data)
            self.parts.append(Part(data, name, words, signals, wrong if isinstance(wrong, bool) else wrong(data)))
        return data

    def rest(self, name: str, words: str, *, wrong: bool = False) -> None:
        """Take whatever is left."""
        self.take(self.left, name, words, wrong=wrong)


@dataclass(frozen=True, slots=True)
class _Parts:
    """Takes the frames of one transaction apart. `label`: its transaction number on the wire; None: RTU frames."""

    request: Request
    follower: str
    names: RegisterNames
    label: bytes | None

    @property
    def count(self) -> int:
        """Registers or bits that are asked for; a read that is only to settle the line has them in its bytes alone."""
        request = self.request
        return request.count or (int.from_bytes(request.pdu[3:5], "big") if request.function < 5 else 0)

    def frame(self, role: Role, data: bytes, *, headless: bool = False) -> Frame:
        """A frame in its parts. `headless`: its first byte, the unit, is missing."""
        cursor = _Cursor(data)
        asking = role in (Role.REQUEST, Role.ECHO)
        if self.label is None:
            if not headless:
                self._unit(cursor)
            # The last two bytes are the check sum, unless the frame broke off before it.
            body = len(data) - 2 if role is not Role.CUT else len(data)
            pdu = _Cursor(data[cursor.at : body])
            self._pdu(pdu, asking=asking)
            cursor.parts += pdu.parts
            cursor.at = max(cursor.at, body)
            covered = bytes((self.request.unit,)) + data[:-2] if headless else data[:-2]
            fits = _crc_fits(covered, data)
            cursor.take(2, translate("bus", "check sum"), _crc_words(covered, fits=fits), wrong=not fits)
        else:
            self._header(cursor, self.label, asking=asking)
            pdu = _Cursor(data[cursor.at :])
            self._pdu(pdu, asking=asking)
            cursor.parts += pdu.parts
        parts = cursor.parts
        if role in (Role.DAMAGED, Role.CUT, Role.STRANGER):
            # Nobody must take for a reading what the program did not.
            doubted = translate("bus", "not to be trusted: {words}")
            parts = [replace(part, words=doubted.format(words=part.words)) if part.signals else part for part in parts]
        return Frame(role, tuple(parts))

    def _unit(self, cursor: _Cursor) -> None:
        asked = self.request.unit

        def say(data: bytes) -> str:
            unit = data[0]
            if unit != asked:
                return _instead(unit, asked)
            if unit == 0:
                return translate("bus", "0, a broadcast to all units")
            return translate("bus", "{unit}, follower {name}").format(unit=unit, name=self.follower)

        cursor.take(1, translate("bus", "unit"), say, wrong=lambda data: data[0] != asked)

    def _header(self, cursor: _Cursor, label: bytes, *, asking: bool) -> None:
        own = int.from_bytes(label, "big")

        def number(part: bytes) -> str:
            found = int.from_bytes(part, "big")
            if asking:
                return f"{found}"
            return translate("bus", "{found}, as asked").format(found=found) if found == own else _instead(found, own)

        cursor.take(2, translate("bus", "transaction"), number, wrong=lambda part: part != label)
        cursor.take(
            2,
            translate("bus", "protocol"),
            lambda part: "Modbus" if part == b"\0\0" else translate("bus", "not Modbus: this must be 0"),
            wrong=lambda part: part != b"\0\0",
        )
        follow = max(0, len(cursor.data) - 6)

        def length(part: bytes) -> str:
            said = int.from_bytes(part, "big")
            if said == follow:
                return translate("bus", "{bytes} follow").format(bytes=_bytes(said))
            return translate("bus", "{bytes} should follow, {found} do").format(bytes=_bytes(said), found=follow)

        cursor.take(2, translate("bus", "length"), length, wrong=lambda part: int.from_bytes(part, "big") != follow)
        self._unit(cursor)

    # the function and its data

    def _pdu(self, cursor: _Cursor, *, asking: bool) -> None:
        if not cursor.left:
            return
        own = self.request.function
        function = cursor.data[0]
        plain = function & 0x7F
        name = translate("bus", FUNCTIONS[plain]) if plain in FUNCTIONS else translate("bus", "not in the standard")
        if function & 0x80 and not asking:
            told = translate("bus", "{code:02d}, {name}: refused (80h added)").format(code=plain, name=name)
            words = told if plain == own else _instead(told, f"{own:02d}")
            cursor.take(1, translate("bus", "function"), words, wrong=plain != own)
            cursor.take(1, translate("bus", "exception"), lambda data: _exception_words(data[0]))
            cursor.rest(translate("bus", "surplus"), translate("bus", "more than an exception has"), wrong=True)
            return
        wrong = function != own
        told = f"{function:02d}, {name}"
        cursor.take(1, translate("bus", "function"), _instead(told, f"{own:02d}") if wrong else told, wrong=wrong)
        if function in (1, 2, 3, 4):
            if asking:
                self._address(cursor, function)
                self._count(cursor, function)
            else:
                self._read_answer(cursor, function)
        elif function in (5, 6):
            self._single(cursor, function)
        elif function in (15, 16):
            self._address(cursor, function)
            self._count(cursor, function)
            if asking:
                self._written(cursor, function)
        elif function == RETURN_QUERY_DATA:
            self._query(cursor)
        elif function == 22:
            self._mask(cursor)
        elif function == 23:
            self._both(cursor, asking=asking)
        if function in _TABLE:
            cursor.rest(translate("bus", "surplus"), translate("bus", "more than this function has"), wrong=True)
        else:
            cursor.rest(translate("bus", "data"), translate("bus", "not told apart"))

    def _address(self, cursor: _Cursor, function: int, name: str = "") -> None:
        request, table = self.request, _TABLE[function]

        def say(data: bytes) -> str:
            address = int.from_bytes(data, "big")
            words = self._place(table, address)
            return _instead(words, request.address) if wrong(data) else words

        def wrong(data: bytes) -> bool:
            return function == request.function != 23 and int.from_bytes(data, "big") != request.address

        signals: tuple[str, ...] = ()
        if function == request.function:
            signals = self.names.at(self.follower, table, request.address, self.count)
        cursor.take(2, name or translate("bus", "address"), say, wrong=wrong, signals=signals)

    def _place(self, table: Table, address: int) -> str:
        """'holding register 310; in the manual 40311'."""
        documented = self.names.documented(self.follower, table, address)
        place = register_text(table, address)
        if documented is None:
            return place
        return translate("bus", "{register}; in the manual {number}").format(register=place, number=documented)

    def _count(self, cursor: _Cursor, function: int, name: str = "") -> None:
        request = self.request
        bits = _TABLE[function] in ("coil", "discrete")

        def wrong(data: bytes) -> bool:
            return function == request.function != 23 and int.from_bytes(data, "big") != self.count

        def say(data: bytes) -> str:
            count = int.from_bytes(data, "big")
            words = _bits_text(count) if bits else _registers_text(count)
            return _instead(words, self.count) if wrong(data) else words

        cursor.take(2, name or translate("bus", "count"), say, wrong=wrong)

    def _read_answer(self, cursor: _Cursor, function: int) -> None:
        request = self.request
        bits = function in (1, 2)
        due = (self.count + 7) // 8 if bits else 2 * self.count
        ours = function == request.function
        fits = False

        def say(data: bytes) -> str:
            words = _data_follow(data)
            if not ours or data[0] == due:
                return words
            return translate("bus", "{follow}; {due} were due").format(follow=words, due=due)

        said = cursor.take(1, translate("bus", "byte count"), say, wrong=lambda data: ours and data[0] != due)
        if said:
            fits = ours and said[0] == due
            size = min(said[0], cursor.left)
            if not fits:
                wrong_length = translate("bus", "not for this request: its length is wrong")
                words = wrong_length if ours else translate("bus", "not for this request")
                cursor.take(said[0], translate("bus", "data"), words)
            elif bits:
                self._bits(cursor, cursor.data[cursor.at : cursor.at + size], request.address, self.count)
            else:
                self._registers(cursor, cursor.data[cursor.at : cursor.at + size], request.address)

    def _registers(self, cursor: _Cursor, data: bytes, address: int, table: Table | None = None) -> None:
        """Registers, signal by signal."""
        table = table or self.request.table
        words = [int.from_bytes(data[i : i + 2], "big") for i in range(0, len(data) - 1, 2)]
        for group in self.names.groups(self.follower, table, address, words):
            count = group.end - group.address
            numbers = _numbers(words[group.address - address : group.end - address])
            told = group.words or translate("bus", "no signal: {numbers}").format(numbers=numbers)
            cursor.take(2 * count, _span(group.address, group.end - 1), told, signals=group.signals)
        if len(data) % 2:
            cursor.take(2, _span(address + len(words), address + len(words)), "")

    def _bits(self, cursor: _Cursor, data: bytes, address: int, count: int, table: Table | None = None) -> None:
        """Bits, byte by byte: the lowest bit of the first byte is the first coil or input."""
        table = table or self.request.table
        for start in range(0, min(count, 8 * len(data)), 8):
            byte = data[start // 8]
            states = [bool(byte >> place & 1) for place in range(min(8, count - start))]
            first, last = address + start, address + start + len(states) - 1
            groups = self.names.groups(self.follower, table, first, states)
            named = "; ".join(group.words for group in groups if group.words)
            plain = translate("bus", "lowest first: {bits}").format(bits=" ".join("1" if on else "0" for on in states))
            cursor.take(
                1,
                register_text(table, first, last),
                f"{named} ({plain})" if named else plain,
                signals=tuple(name for group in groups for name in group.signals),
            )

    def _single(self, cursor: _Cursor, function: int) -> None:
        """Functions 05 and 06, whose answer repeats the request."""
        request = self.request
        self._address(cursor, function)
        ours = function == request.function
        wanted = request.pdu[3:5]

        def say(data: bytes) -> str:
            if function == 5:
                words = _switch_text(data)
                named = self._told([data == b"\xff\x00"])
            else:
                number = int.from_bytes(data, "big")
                words, named = str(number), self._told([number])
            words = named or words
            if not ours or data == wanted:
                return words
            return translate("bus", "{found}; written was {wanted}").format(found=words, wanted=_hex(wanted))

        signals = self.names.at(self.follower, request.table, request.address, self.count) if ours else ()
        cursor.take(2, translate("bus", "value"), say, wrong=lambda data: ours and data != wanted, signals=signals)

    def _told(self, words: list[int] | list[bool]) -> str:
        request = self.request
        groups = self.names.groups(self.follower, request.table, request.address, words)
        return "; ".join(group.words for group in groups if group.words)

    def _written(self, cursor: _Cursor, function: int) -> None:
        """The byte count and the data of functions 15 and 16."""
        request = self.request
        said = cursor.take(1, translate("bus", "byte count"), _data_follow)
        if said:
            data = cursor.data[cursor.at : cursor.at + said[0]]
            if function == 15:
                self._bits(cursor, data, request.address, self.count)
            else:
                self._registers(cursor, data, request.address)

    def _query(self, cursor: _Cursor) -> None:
        """Function 08; its sub-function 0 gives the data back as they came."""
        ours = self.request.function == RETURN_QUERY_DATA
        wanted = self.request.pdu[3:5]

        def say(data: bytes) -> str:
            if ours and data != wanted:
                return translate("bus", "sent was {wanted}").format(wanted=_hex(wanted))
            return translate("bus", "comes back as it was sent")

        def diagnosis(data: bytes) -> str:
            return (
                translate("bus", "0, return query data") if data == b"\0\0" else translate("bus", "another diagnosis")
            )

        cursor.take(2, translate("bus", "sub-function"), diagnosis)
        cursor.take(2, translate("bus", "data"), say, wrong=lambda data: ours and data != wanted)

    def _mask(self, cursor: _Cursor) -> None:
        """Function 22, whose answer repeats the request."""
        self._address(cursor, 22)
        ours = self.request.function == 22
        wanted = self.request.pdu[3:7]

        def keeping(data: bytes) -> str:
            return translate("bus", "keeps bits {bits}").format(bits=_bits_set(data))

        def putting(data: bytes) -> str:
            keep, put = int.from_bytes(kept, "big"), int.from_bytes(data, "big")
            named = self.names.masked(self.follower, self.request.address, keep, put) if ours else ""
            bits = _bits_set((put & ~keep & 0xFFFF).to_bytes(2, "big"))
            if named:
                return translate("bus", "{named} (sets bits {bits})").format(named=named, bits=bits)
            return translate("bus", "sets bits {bits}, clears the others that are not kept").format(bits=bits)

        signals = self.names.at(self.follower, "holding", self.request.address, 1) if ours else ()
        kept = cursor.take(2, translate("bus", "AND mask"), keeping, wrong=lambda data: ours and data != wanted[:2])
        cursor.take(
            2, translate("bus", "OR mask"), putting, wrong=lambda data: ours and data != wanted[2:], signals=signals
        )

    def _both(self, cursor: _Cursor, *, asking: bool) -> None:
        if not asking:
            said = cursor.take(1, translate("bus", "byte count"), _data_follow)
            if said:
                cursor.take(said[0], translate("bus", "data"), translate("bus", "the registers that were read"))
            return
        self._address(cursor, 23, translate("bus", "read address"))
        self._count(cursor, 23, translate("bus", "read count"))
        self._address(cursor, 23, translate("bus", "write address"))
        self._count(cursor, 23, translate("bus", "write count"))
        said = cursor.take(1, translate("bus", "byte count"), _data_follow)
        if said:
            cursor.take(said[0], translate("bus", "data"), translate("bus", "the registers that are written"))


# What arrived --------------------------------------------------------------------------------------------------------


def _rtu_received(transaction: Transaction, reader: _Parts) -> Iterator[Frame]:
    """The frames in what arrived on a line whose frames carry a unit and a check sum."""
    request, data = transaction.request, transaction.received
    echoed = _echo_due(transaction)
    head = bytes((request.unit,)) + request.answer_head
    whole = request.answer_length + 3
    found: list[tuple[int, int, Role]] = []
    at = 0
    while at < len(data):
        if echoed and data.startswith(request.rtu, at):
            found.append((at, len(request.rtu), Role.ECHO))
            echoed = False
        elif data.startswith(head, at) and len(data) - at >= whole and crc_fits(data[at : at + whole]):
            found.append((at, whole, Role.ANSWER))
        elif (length := _sound_length(data, at)) is not None:
            refused = data[at] == request.unit and data[at + 1] == request.function | 0x80
            found.append((at, length, Role.REFUSAL if refused else Role.STRANGER))
        else:
            at += 1
            continue
        at += found[-1][1]
    answered = any(role in (Role.ANSWER, Role.REFUSAL) for _, _, role in found)
    end = 0
    for start, length, role in [*found, (len(data), 0, Role.NOISE)]:
        if start > end:
            stray = data[end:start]
            yield from [_noise(stray)] if answered else _damaged(stray, reader)
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


def _damaged(data: bytes, reader: _Parts) -> Iterator[Frame]:
    """Bytes that make no sound frame, while the answer is missing: what may be left of it."""
    request = reader.request
    head = bytes((request.unit,)) + request.answer_head
    refusal = bytes((request.unit, request.function | 0x80))
    at = next((place for place in (data.find(head), data.find(refusal), data.find(head[:2])) if place >= 0), -1)
    if at < 0:
        if len(data) >= 4 and crc_fits(bytes((request.unit,)) + data):
            yield reader.frame(Role.DAMAGED, data, headless=True)
        elif head.startswith(data):
            yield reader.frame(Role.CUT, data)
        else:
            yield _noise(data)
        return
    if at:
        yield _noise(data[:at])
    rest = data[at:]
    if rest.startswith(refusal):
        length = 5
    elif request.function in _COUNTED and len(rest) > 2:
        length = min(rest[2] + 5, _LONGEST_RTU)
    else:
        length = request.answer_length + 3
    if len(rest) < length:
        # The whole of a shorter answer may have arrived with a byte count that is damaged.
        yield _cut(rest, length, reader)
        return
    yield reader.frame(Role.DAMAGED, rest[:length])
    if len(rest) > length:
        yield _noise(rest[length:])


def _cut(data: bytes, length: int, reader: _Parts) -> Frame:
    """An answer of which `length` bytes should have come: its check sum may have begun."""
    if len(data) == length - 1:
        frame = reader.frame(Role.CUT, data[:-1])
        return Frame(Role.CUT, (*frame.parts, Part(data[-1:], translate("bus", "check sum"), _cut_off(1, 2), (), True)))
    return reader.frame(Role.CUT, data)


def _noise(data: bytes) -> Frame:
    name = translate("bus", "stray bytes") if len(data) > 1 else translate("bus", "stray byte")
    return Frame(Role.NOISE, (Part(data, name, translate("bus", "no frame"), (), True),))


def _sound_length(data: bytes, at: int) -> int | None:
    """The length of a whole answer of whomever to whatever that begins at `at`, if its check sum fits."""
    if len(data) - at < 5 or not 1 <= data[at] <= 247:
        return None
    function = data[at + 1]
    length = data[at + 2] + 5 if function in _COUNTED else 5 if function >= 0x81 else _WHOLE.get(function, 0)
    if not length or len(data) - at < length or not crc_fits(data[at : at + length]):
        return None
    return length


def _mbap_received(data: bytes, reader: _Parts) -> Iterator[Frame]:
    """The frames in what arrived on a line whose frames carry a header with a transaction number."""
    label = reader.label or b""
    at = stray = 0
    while at < len(data):
        length = _mbap_length(data, at)
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
        yield reader.frame(Role.CUT, rest) if begun else _noise(rest)


def _mbap_role(request: Request, label: bytes, frame: bytes, length: int) -> Role:
    if len(frame) < length:
        return Role.CUT
    ours = frame[:2] == label and frame[6] == request.unit
    if ours and frame[7:].startswith(request.answer_head) and len(frame) == request.answer_length + _MBAP:
        return Role.ANSWER
    if ours and frame[7] == request.function | 0x80 and len(frame) == _MBAP + 2:
        return Role.REFUSAL
    return Role.STRANGER


def _mbap_length(data: bytes, at: int) -> int | None:
    """The length of the frame whose header stands at `at`; None if none can stand there."""
    if len(data) - at <= _MBAP or data[at + 2 : at + 4] != b"\0\0":
        return None
    length = int.from_bytes(data[at + 4 : at + 6], "big")
    return 6 + length if 2 < length <= _LONGEST_MBAP and data[at + 7] & 0x7F else None


# Words ---------------------------------------------------------------------------------------------------------------


def milliseconds(ms: float) -> str:
    """A time in milliseconds, as fine as is worth reading."""
    return f"{ms:.2f}" if ms < 1 else f"{ms:.1f}" if ms < 100 else f"{ms:.0f}"


def _crc_fits(covered: bytes, data: bytes) -> bool:
    return len(covered) > 0 and crc_fits(covered + data[-2:])


def _crc_words(covered: bytes, *, fits: bool) -> str:
    if fits:
        return translate("bus", "fits")
    due = _hex(FramerRTU.compute_CRC(covered).to_bytes(2, "big"))
    return translate("bus", "does not fit: these bytes would have {due}").format(due=due)


def _exception_words(code: int) -> str:
    if code in EXCEPTIONS:
        name, meaning = exception_text(code)
        return f"{code:02d}, {name}: {meaning}"
    return translate("bus", "{code:02d}, not in the standard: see the follower's manual").format(code=code)


def _instead(found: object, asked: object) -> str:
    return translate("bus", "{found}; asked was {asked}").format(found=found, asked=asked)


def _cut_off(came: int, size: int) -> str:
    return translate("bus", "cut off: {came} of {size} bytes").format(came=came, size=size)


def _data_follow(data: bytes) -> str:
    return translate("bus", "{bytes} of data follow").format(bytes=_bytes(data[0]))


def _switch_text(data: bytes) -> str:
    if data in (b"\xff\x00", b"\x00\x00"):
        return translate("bus", "on") if data[0] else translate("bus", "off")
    return translate("bus", "neither FF00h (on) nor 0000h (off)")


def _span(first: int, last: int) -> str:
    if first == last:
        return translate("bus", "register {first}").format(first=first)
    return translate("bus", "registers {first} to {last}").format(first=first, last=last)


def _bits_text(count: int) -> str:
    return translate("bus", "1 bit") if count == 1 else translate("bus", "{count} bits").format(count=count)


def _registers_text(count: int) -> str:
    return translate("bus", "1 register") if count == 1 else translate("bus", "{count} registers").format(count=count)


def _bits_set(data: bytes) -> str:
    word = int.from_bytes(data, "big")
    if word == 0xFFFF:
        return translate("bus", "0 to 15")
    return " ".join(str(bit) for bit in range(16) if word >> bit & 1) or translate("bus", "none")


def _numbers(words: list[int]) -> str:
    shown = " ".join(str(word) for word in words[:8])
    return f"{shown} \u2026" if len(words) > 8 else shown


def _bytes(count: int) -> str:
    return translate("bus", "1 byte") if count == 1 else translate("bus", "{count} bytes").format(count=count)


def _hex(data: bytes) -> str:
    return data.hex(" ").upper()
