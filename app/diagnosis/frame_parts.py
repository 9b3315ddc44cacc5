"""One frame taken apart: each part named and put into words, right or wrong.

Frames as in MODBUS Application Protocol V1.1b3, MODBUS over Serial Line V1.02 and MODBUS Messaging on TCP/IP V1.0b
(from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from app.client.faults import bytes_text
from app.diagnosis.frame_words import (
    FUNCTIONS,
    bits_set,
    bits_text,
    crc_words,
    cut_off,
    data_follow,
    exception_words,
    first_numbers,
    hex_text,
    instead,
    registers_text,
    span_text,
    switch_text,
)
from app.diagnosis.frames import Frame, FramePart, FrameRole
from app.diagnosis.register_names import RegisterNames
from app.language import translate
from app.modbus.crc import crc_fits
from app.modbus.overheard import read_in
from app.modbus.requests import RETURN_QUERY_DATA, Request
from app.signals.functions import TABLE_OF_FUNCTION
from app.signals.numbering import Table, register_text


class _Cursor:
    """Takes parts off the front of some bytes; what is not there any more makes no part, or a short one."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        self.at = 0
        self.parts: list[FramePart] = []

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
            self.parts.append(FramePart(data, name, cut_off(len(data), size), signals, True))
        else:
            words = say if isinstance(say, str) else say(data)
            self.parts.append(FramePart(data, name, words, signals, wrong if isinstance(wrong, bool) else wrong(data)))
        return data

    def rest(self, name: str, words: str, *, wrong: bool = False) -> None:
        """Take whatever is left."""
        self.take(self.left, name, words, wrong=wrong)


@dataclass(frozen=True, slots=True)
class FrameReader:
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

    def frame(self, role: FrameRole, data: bytes, *, headless: bool = False) -> Frame:
        """A frame in its parts. `headless`: its first byte, the unit, is missing."""
        cursor, reader = _Cursor(data), self
        asking = role in (FrameRole.REQUEST, FrameRole.ECHO, FrameRole.OTHER_CLIENT)
        if role is FrameRole.OTHER_CLIENT and (other := read_in(data)) is not None:
            reader = replace(self, request=other, follower=self.follower if other.unit == self.request.unit else "")
        if self.label is None:
            if not headless:
                self._unit(cursor)
            # The last two bytes are the check sum, unless the frame broke off before it.
            body = len(data) - 2 if role is not FrameRole.CUT else len(data)
            pdu = _Cursor(data[cursor.at : body])
            reader._pdu(pdu, asking=asking)
            cursor.parts += pdu.parts
            cursor.at = max(cursor.at, body)
            covered = bytes((self.request.unit,)) + data[:-2] if headless else data[:-2]
            fits = _crc_fits(covered, data)
            cursor.take(2, translate("bus", "check sum"), crc_words(covered, fits=fits), wrong=not fits)
        else:
            self._header(cursor, self.label, asking=asking)
            pdu = _Cursor(data[cursor.at :])
            self._pdu(pdu, asking=asking)
            cursor.parts += pdu.parts
        parts = cursor.parts
        if role in (FrameRole.DAMAGED, FrameRole.CUT, FrameRole.STRANGER):
            # Nobody must take for a reading what the program did not.
            doubted = translate("bus", "unreliable: {words}")
            parts = [replace(part, words=doubted.format(words=part.words)) if part.signals else part for part in parts]
        return Frame(role, tuple(parts))

    def _unit(self, cursor: _Cursor) -> None:
        asked = self.request.unit

        def say(data: bytes) -> str:
            unit = data[0]
            if unit != asked:
                return instead(unit, asked)
            if unit == 0 and self.label is None:
                return translate("bus", "0, broadcast to all devices")
            return translate("bus", "{unit}, device {name}").format(unit=unit, name=self.follower)

        cursor.take(1, translate("bus", "unit address"), say, wrong=lambda data: data[0] != asked)

    def _header(self, cursor: _Cursor, label: bytes, *, asking: bool) -> None:
        own = int.from_bytes(label, "big")

        def number(part: bytes) -> str:
            found = int.from_bytes(part, "big")
            if asking:
                return f"{found}"
            return (
                translate("bus", "{found}, as requested").format(found=found) if found == own else instead(found, own)
            )

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
                return translate("bus", "{bytes} follow").format(bytes=bytes_text(said))
            return translate("bus", "{bytes} should follow, but there are {found}").format(
                bytes=bytes_text(said), found=follow
            )

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
            words = told if plain == own else instead(told, f"{own:02d}")
            cursor.take(1, translate("bus", "function"), words, wrong=plain != own)
            cursor.take(1, translate("bus", "exception code"), lambda data: exception_words(data[0]))
            cursor.rest(
                translate("bus", "extra bytes"), translate("bus", "more bytes than an exception has"), wrong=True
            )
            return
        wrong = function != own
        told = f"{function:02d}, {name}"
        cursor.take(1, translate("bus", "function"), instead(told, f"{own:02d}") if wrong else told, wrong=wrong)
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
                self._data_to_write(cursor, function)
        elif function == RETURN_QUERY_DATA:
            self._query(cursor)
        elif function == 22:
            self._mask(cursor)
        elif function == 23:
            self._both(cursor, asking=asking)
        if function in TABLE_OF_FUNCTION:
            cursor.rest(
                translate("bus", "extra bytes"), translate("bus", "more bytes than this function has"), wrong=True
            )
        else:
            cursor.rest(translate("bus", "data"), translate("bus", "not decoded"))

    def _address(self, cursor: _Cursor, function: int, name: str = "") -> None:
        request, table = self.request, TABLE_OF_FUNCTION[function]

        def say(data: bytes) -> str:
            address = int.from_bytes(data, "big")
            words = self._place(table, address)
            return instead(words, request.address) if wrong(data) else words

        def wrong(data: bytes) -> bool:
            return function == request.function != 23 and int.from_bytes(data, "big") != request.address

        signals: tuple[str, ...] = ()
        if function == request.function:
            signals = self.names.at(self.follower, table, request.address, self.count)
        cursor.take(2, name or translate("bus", "address"), say, wrong=wrong, signals=signals)

    def _place(self, table: Table, address: int) -> str:
        """'holding register 310; in the manual 40311'."""
        documented = self.names.documented_number(self.follower, table, address)
        place = register_text(table, address)
        if documented is None:
            return place
        return translate("bus", "{register}; {number} in the manual").format(register=place, number=documented)

    def _count(self, cursor: _Cursor, function: int, name: str = "") -> None:
        request = self.request
        bits = TABLE_OF_FUNCTION[function] in ("coil", "discrete")

        def wrong(data: bytes) -> bool:
            return function == request.function != 23 and int.from_bytes(data, "big") != self.count

        def say(data: bytes) -> str:
            count = int.from_bytes(data, "big")
            words = bits_text(count) if bits else registers_text(count)
            return instead(words, self.count) if wrong(data) else words

        cursor.take(2, name or translate("bus", "count"), say, wrong=wrong)

    def _read_answer(self, cursor: _Cursor, function: int) -> None:
        request = self.request
        bits = function in (1, 2)
        due = (self.count + 7) // 8 if bits else 2 * self.count
        ours = function == request.function
        fits = False

        def say(data: bytes) -> str:
            words = data_follow(data)
            if not ours or data[0] == due:
                return words
            return translate("bus", "{follow}; expected: {due}").format(follow=words, due=due)

        said = cursor.take(1, translate("bus", "byte count"), say, wrong=lambda data: ours and data[0] != due)
        if said:
            fits = ours and said[0] == due
            size = min(said[0], cursor.left)
            if not fits:
                wrong_length = translate("bus", "does not match this request: wrong length")
                words = wrong_length if ours else translate("bus", "does not match this request")
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
            numbers = first_numbers(words[group.address - address : group.end - address])
            told = group.words or translate("bus", "no signal: {numbers}").format(numbers=numbers)
            cursor.take(2 * count, span_text(group.address, group.end - 1), told, signals=group.signals)
        if len(data) % 2:
            cursor.take(2, span_text(address + len(words), address + len(words)), "")

    def _bits(self, cursor: _Cursor, data: bytes, address: int, count: int, table: Table | None = None) -> None:
        """Bits, byte by byte: the lowest bit of the first byte is the first coil or input."""
        table = table or self.request.table
        for start in range(0, min(count, 8 * len(data)), 8):
            byte = data[start // 8]
            states = [bool(byte >> place & 1) for place in range(min(8, count - start))]
            first, last = address + start, address + start + len(states) - 1
            groups = self.names.groups(self.follower, table, first, states)
            named = "; ".join(group.words for group in groups if group.words)
            plain = translate("bus", "lowest bit first: {bits}").format(
                bits=" ".join("1" if on else "0" for on in states)
            )
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
                words = switch_text(data)
                named = self._values_text([data == b"\xff\x00"])
            else:
                number = int.from_bytes(data, "big")
                words, named = str(number), self._values_text([number])
            words = named or words
            if not ours or data == wanted:
                return words
            return translate("bus", "{found}; written: {wanted}").format(found=words, wanted=hex_text(wanted))

        signals = self.names.at(self.follower, request.table, request.address, self.count) if ours else ()
        cursor.take(2, translate("bus", "value"), say, wrong=lambda data: ours and data != wanted, signals=signals)

    def _values_text(self, words: list[int] | list[bool]) -> str:
        request = self.request
        groups = self.names.groups(self.follower, request.table, request.address, words)
        return "; ".join(group.words for group in groups if group.words)

    def _data_to_write(self, cursor: _Cursor, function: int) -> None:
        """The byte count and the data of functions 15 and 16."""
        request = self.request
        said = cursor.take(1, translate("bus", "byte count"), data_follow)
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
                return translate("bus", "sent: {wanted}").format(wanted=hex_text(wanted))
            return translate("bus", "must come back unchanged")

        def diagnosis(data: bytes) -> str:
            return (
                translate("bus", "0, return query data") if data == b"\0\0" else translate("bus", "another diagnostic")
            )

        cursor.take(2, translate("bus", "sub-function"), diagnosis)
        cursor.take(2, translate("bus", "data"), say, wrong=lambda data: ours and data != wanted)

    def _mask(self, cursor: _Cursor) -> None:
        """Function 22, whose answer repeats the request."""
        self._address(cursor, 22)
        ours = self.request.function == 22
        wanted = self.request.pdu[3:7]

        def keeping(data: bytes) -> str:
            return translate("bus", "keeps bits {bits}").format(bits=bits_set(data))

        def putting(data: bytes) -> str:
            keep, put = int.from_bytes(kept, "big"), int.from_bytes(data, "big")
            named = self.names.mask_text(self.follower, self.request.address, keep, put) if ours else ""
            bits = bits_set((put & ~keep & 0xFFFF).to_bytes(2, "big"))
            if named:
                return translate("bus", "{named} (sets bits {bits})").format(named=named, bits=bits)
            return translate("bus", "sets bits {bits}, clears the other bits that are not kept").format(bits=bits)

        signals = self.names.at(self.follower, "holding", self.request.address, 1) if ours else ()
        kept = cursor.take(2, translate("bus", "AND mask"), keeping, wrong=lambda data: ours and data != wanted[:2])
        cursor.take(
            2, translate("bus", "OR mask"), putting, wrong=lambda data: ours and data != wanted[2:], signals=signals
        )

    def _both(self, cursor: _Cursor, *, asking: bool) -> None:
        if not asking:
            said = cursor.take(1, translate("bus", "byte count"), data_follow)
            if said:
                cursor.take(said[0], translate("bus", "data"), translate("bus", "the registers that were read"))
            return
        self._address(cursor, 23, translate("bus", "read address"))
        self._count(cursor, 23, translate("bus", "read count"))
        self._address(cursor, 23, translate("bus", "write address"))
        self._count(cursor, 23, translate("bus", "write count"))
        said = cursor.take(1, translate("bus", "byte count"), data_follow)
        if said:
            cursor.take(said[0], translate("bus", "data"), translate("bus", "the registers that are written"))


def _crc_fits(covered: bytes, data: bytes) -> bool:
    return len(covered) > 0 and crc_fits(covered + data[-2:])
