"""The requests that an unknown line is asked, and how their answers are told from anything else.

Functions 01 to 04, 08 with sub-function 00, 17, and 43 with 14 of the MODBUS Application Protocol V1.1b3 (from memory):
all that read, and nothing else. That this room knows no function that writes is the safety of the whole search.
"""

from __future__ import annotations

import struct
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final, Literal

from app.modbus.crc import crc
from app.probing.probe import Probe, ProbeResult
from app.signals.functions import READING, TABLE_OF_FUNCTION
from app.signals.numbering import LAST_ADDRESS, Table

MOST: Final[Mapping[Table, int]] = {"coil": 2000, "discrete": 2000, "holding": 125, "input": 125}
"""Registers or bits in one read."""
TABLE_READ_BY: Final[Mapping[int, Table]] = {function: TABLE_OF_FUNCTION[function] for function in sorted(READING)}
FUNCTION_OF: Final[Mapping[Table, int]] = {table: function for function, table in TABLE_READ_BY.items()}
ECHO_QUERY, SERVER_ID, ENCAPSULATED = 8, 17, 43
ASKED: Final = frozenset((*TABLE_READ_BY, ECHO_QUERY, SERVER_ID, ENCAPSULATED))
"""The functions of all requests that are ever sent."""
_IDENTIFICATION: Final = 14
_EXCEPTION: Final = 0x80
_FRAME: Final = 3
"""Characters of an RTU frame beside its PDU: unit, CRC."""
UNDECIDED: Final = -1

Untouched = Mapping[Table, Sequence[range]]
"""Wire addresses that must never be read, by table: registers that are cleared by reading exist."""

Level = Literal[1, 2, 3, 4]
"""Of identification: basic, regular, extended, one object alone."""


def read(unit: int, table: Table, address: int, count: int = 1) -> Probe:
    """Ask for `count` registers or bits from the wire address `address` on. Raises ValueError."""
    if not 1 <= count <= MOST[table] or not 0 <= address <= LAST_ADDRESS + 1 - count:
        raise ValueError(f"{count} of {table} from {address} on cannot be read at once")
    return Probe(unit, struct.pack(">BHH", FUNCTION_OF[table], address, count))


def echo_query(unit: int, data: int = 0xA55A) -> Probe:
    """Ask to give two bytes back (08, sub-function 00). An adapter that echoes does so as well, with nobody there."""
    return Probe(unit, struct.pack(">BHH", ECHO_QUERY, 0, data))


def server_id(unit: int) -> Probe:
    """Ask what it calls itself (17)."""
    return Probe(unit, bytes((SERVER_ID,)))


def identification(unit: int, first: int = 0, level: Level = 1) -> Probe:
    """Ask for its identification (43/14) from the object `first`, 0..255, on."""
    return Probe(unit, bytes((ENCAPSULATED, _IDENTIFICATION, level, first)))


def may_be_sent(probe: Probe) -> bool:
    """Whether it is one of the requests above, whole: asked again as the last thing before bytes leave."""
    pdu = probe.pdu
    match pdu[0] if pdu else 0:
        case 1 | 2 | 3 | 4 as function:
            count = int.from_bytes(pdu[3:5], "big")
            return len(pdu) == 5 and 1 <= count <= MOST[TABLE_READ_BY[function]]
        case 8:
            return len(pdu) == 5 and pdu[1:3] == b"\0\0"
        case 17:
            return len(pdu) == 1
        case 43:
            return len(pdu) == 4 and pdu[1] == _IDENTIFICATION
    return False


def touchable(never: Iterable[range]) -> Iterator[int]:
    """Wire addresses of a table that may be read, from 0 on."""
    spans = tuple(never)
    return (address for address in range(LAST_ADDRESS + 1) if not any(address in span for span in spans))


def touches(probe: Probe, never: Untouched) -> bool:
    """Whether it would read what must never be read."""
    table = TABLE_READ_BY.get(probe.function)
    if table is None:
        return False
    first, count = struct.unpack(">HH", probe.pdu[1:5])
    return any(first < span.stop and span.start < first + count for span in never.get(table, ()))


def rtu(probe: Probe) -> bytes:
    """The request as a frame of a serial line."""
    frame = bytes((probe.unit,)) + probe.pdu
    return frame + crc(frame).to_bytes(2, "little")


def mbap(probe: Probe, transaction: int) -> bytes:
    """The request as a frame of Modbus TCP with transaction identifier `transaction`, 0..65535."""
    return struct.pack(">HHHB", transaction, 0, len(probe.pdu) + 1, probe.unit) + probe.pdu


def answer_length(probe: Probe, pdu: bytes) -> int:
    """Bytes that the answer's PDU beginning so must have; UNDECIDED as long as too few are there, 0 if it is none."""
    if not pdu:
        return UNDECIDED
    function = probe.function
    if pdu[0] == function | _EXCEPTION:
        return 2
    if pdu[0] != function:
        return 0
    if function == ECHO_QUERY:
        return len(probe.pdu)
    if function == ENCAPSULATED:
        return _objects_length(pdu)
    if len(pdu) < 2:
        return UNDECIDED
    if function == SERVER_ID:
        return 2 + pdu[1]
    amount = bytes_of_answer(probe)
    return 2 + amount if pdu[1] == amount else 0


def bytes_of_answer(probe: Probe) -> int:
    """Bytes that the answer to 01 to 04 carries, which it says of itself."""
    count = int.from_bytes(probe.pdu[3:5], "big")
    return 2 * count if probe.function > 2 else -(-count // 8)


def _objects_length(pdu: bytes) -> int:
    """43, 14, level, conformity, more follows, next object, number of objects, and each: number, length, bytes."""
    if len(pdu) < 7:
        return UNDECIDED
    if pdu[1] != _IDENTIFICATION:
        return 0
    at = 7
    for _ in range(pdu[6]):
        if len(pdu) < at + 2:
            return UNDECIDED
        at += 2 + pdu[at + 1]
    return at


def is_answer(probe: Probe, pdu: bytes) -> bool:
    """Whether a PDU that came whole is the answer to this request, an exception too."""
    length = answer_length(probe, pdu)
    whole = 0 < length == len(pdu)
    return whole and (probe.function != ECHO_QUERY or pdu[0] != ECHO_QUERY or pdu == probe.pdu)


def answers_in(probe: Probe, data: bytes) -> tuple[list[bytes], bool]:
    """The PDUs of all answers to this request that stand whole in RTU bytes, and whether another one may have begun."""
    found: list[bytes] = []
    at, begun = 0, False
    while at < len(data):
        length = answer_length(probe, data[at + 1 :]) if data[at] == probe.unit else 0
        end = at + length + _FRAME
        if length == UNDECIDED or (length and end > len(data)):
            begun = True
        elif length and crc(data[at:end]) == 0 and is_answer(probe, data[at + 1 : end - 2]):
            found.append(data[at + 1 : end - 2])
            at, begun = end, False
            continue
        at += 1
    return found, begun


def words_of(result: ProbeResult) -> tuple[int, ...]:
    """The registers in an answer to 03 or 04, or the bits (0 or 1) in one to 01 or 02. Empty for anything else."""
    if result.kind != "answer" or result.probe.function not in TABLE_READ_BY:
        return ()
    count, carried = int.from_bytes(result.probe.pdu[3:5], "big"), result.pdu[2:]
    if result.probe.function > 2:
        return struct.unpack(f">{count}H", carried)
    return tuple(carried[place // 8] >> place % 8 & 1 for place in range(count))


def objects_of(result: ProbeResult) -> tuple[dict[int, bytes], int | None]:
    """The objects in an answer to 43/14, by number, and the one to go on with; None if no more follow."""
    if result.kind != "answer" or result.probe.function != ENCAPSULATED:
        return {}, None
    pdu, at = result.pdu, 7
    found = {}
    for _ in range(pdu[6]):
        length = pdu[at + 1]
        found[pdu[at]] = pdu[at + 2 : at + 2 + length]
        at += 2 + length
    return found, pdu[5] if pdu[4] == 0xFF else None
