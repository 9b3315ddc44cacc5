"""What a frame of others may be, request or answer, by its first bytes; whether it is one its CRC decides.

Frames as in MODBUS Application Protocol V1.1b3 and MODBUS over Serial Line V1.02 (from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from app.modbus.framing import LONGEST_RTU, SHORTEST_RTU
from app.signals.functions import READING, TABLE_OF_FUNCTION, WRITING
from app.signals.numbering import LAST_ADDRESS, Table

SHORTEST_REQUEST: Final = 4
"""Bytes of the shortest request: unit, function, CRC."""
MORE: Final = 0
"""Instead of a length: more bytes are needed to tell it."""
NONE: Final = -1
"""Instead of a length: no such frame begins so."""

_BOTH: Final = 23
"""Writes registers and reads registers, in one request."""
READ_TABLES: Final[dict[int, Table]] = {function: TABLE_OF_FUNCTION[function] for function in (*READING, _BOTH)}
WRITE_TABLES: Final[dict[int, Table]] = {function: TABLE_OF_FUNCTION[function] for function in WRITING}
FOR_EVERYBODY: Final = frozenset((5, 6, 15, 16, 22))
"""What may be sent to unit 0."""
_BITS: Final = frozenset((1, 2, 15))
_ONLY_ASKED: Final = frozenset((7, 11, 12, 17))
"""Functions whose requests carry no data."""
_ANSWERS: Final = {5: 8, 6: 8, 7: 5, 8: 8, 11: 8, 15: 8, 16: 8, 22: 10}
_COUNTED: Final = frozenset((1, 2, 3, 4, 12, 17, 23))
_ECHOED: Final = {5: 6, 6: 6, 8: 4, 15: 6, 16: 6, 22: 8}
"""How many bytes of the request the answer begins with."""
_IDENTIFICATION: Final = 43
_OBJECTS: Final = 14


def _word(data: bytes, at: int) -> int:
    return data[at] << 8 | data[at + 1]


def _fits(first: int, count: int, most: int) -> bool:
    return 1 <= count <= most and first + count <= LAST_ADDRESS + 1


def request_length(data: bytes, at: int, left: int) -> int:
    """The length of the request that may begin at `at`, of which `left` bytes are there; MORE or NONE."""
    function = data[at + 1]
    if function in _ONLY_ASKED:
        return 4
    if function == _IDENTIFICATION:
        return 7 if left < 3 or data[at + 2] == _OBJECTS else NONE
    if function in (5, 6, 8):
        return 8
    if function == 22:
        return 10
    if function not in READ_TABLES and function not in WRITE_TABLES:
        return NONE
    if left < 6:
        return MORE
    most = 2000 if function in _BITS else 125
    if not _fits(_word(data, at + 2), _word(data, at + 4), most):
        return NONE
    if function <= 4:
        return 8
    counted = 10 if function == 23 else 6
    if left <= counted:
        return MORE
    count = _word(data, at + counted - 2)
    carried = -(-count // 8) if function == 15 else 2 * count
    length = counted + 3 + carried
    return length if data[at + counted] == carried and count and length <= LONGEST_RTU else NONE


def answer_length(data: bytes, at: int, left: int) -> int:
    """The length of the answer that may begin at `at`, an exception too; MORE or NONE."""
    function = data[at + 1]
    if function > 0x80:
        return SHORTEST_RTU
    if function == _IDENTIFICATION:
        return _objects_length(data, at, left)
    if function not in _COUNTED:
        return _ANSWERS.get(function, NONE)
    if left < 3:
        return MORE
    amount = data[at + 2]
    if not amount or amount > LONGEST_RTU - SHORTEST_RTU or (function in (3, 4, 23) and amount % 2):
        return NONE
    return SHORTEST_RTU + amount


def _objects_length(data: bytes, at: int, left: int) -> int:
    """Of an answer with identification: its objects, each with its number and its length (V1.1b3, 6.21)."""
    if left < 8:
        return MORE
    if data[at + 2] != _OBJECTS:
        return NONE
    length = 8
    for _ in range(data[at + 7]):
        if left < length + 2:
            return MORE
        length += 2 + data[at + length + 1]
        if length + 2 > LONGEST_RTU:
            return NONE
    return length + 2


@dataclass(frozen=True, slots=True)
class MasterRequest:
    """A request of the other master that was heard whole."""

    frame: bytes
    time_s: float

    @property
    def unit(self) -> int:
        """0 is everybody: nobody answers."""
        return self.frame[0]

    @property
    def function(self) -> int:
        """The function code."""
        return self.frame[1]

    @property
    def read(self) -> tuple[Table, int, int] | None:
        """Table, first address and count of what it reads."""
        table = READ_TABLES.get(self.function)
        return None if table is None else (table, _word(self.frame, 2), _word(self.frame, 4))

    @property
    def written(self) -> tuple[Table, int, int] | None:
        """Table, first address and count of what it writes."""
        table = WRITE_TABLES.get(self.function)
        if table is None:
            return None
        if self.function == 23:
            return table, _word(self.frame, 6), _word(self.frame, 8)
        return table, _word(self.frame, 2), _word(self.frame, 4) if self.function in (15, 16) else 1

    @property
    def carried(self) -> bytes:
        """The values that it writes, as they stand in it; empty where it says none (a mask)."""
        if self.function in (5, 6):
            return self.frame[4:6]
        return self.frame[7:-2] if self.function in (15, 16) else self.frame[11:-2] if self.function == 23 else b""

    def answered_by(self, frame: bytes) -> bool:
        """Whether a sound frame is the answer to it, or the exception: unit, function, amount or echo agree."""
        if frame[0] != self.unit or frame[1] & 0x7F != self.function:
            return False
        if frame[1] & 0x80:
            return len(frame) == SHORTEST_RTU
        if self.read is not None:
            count = self.read[2]
            amount = -(-count // 8) if self.function in _BITS else 2 * count
            return frame[2] == amount and len(frame) == SHORTEST_RTU + amount
        echoed = _ECHOED.get(self.function, 2)
        return frame[:echoed] == self.frame[:echoed]


def values(function: int, count: int, carried: bytes) -> tuple[int, ...]:
    """Words, or bits as 0 and 1, from the bytes that carry them in an answer or in a request to write."""
    if function == 5:
        return (int(carried[0] == 0xFF),)
    if function in _BITS:
        return tuple(carried[place // 8] >> place % 8 & 1 for place in range(count))
    return tuple(_word(carried, 2 * place) for place in range(count))


LengthRule = Callable[[bytes, int, int], int]
