"""What is asked of a follower, and exactly which bytes its answer must begin with and how long it must be.

The bytes are pymodbus's; what a true answer looks like follows MODBUS Application Protocol V1.1b3, section 6.
"""

from __future__ import annotations

import struct
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from pymodbus.framer import FramerRTU, FramerSocket
from pymodbus.pdu import DecodePDU, ModbusPDU
from pymodbus.pdu.bit_message import (
    ReadCoilsRequest,
    ReadCoilsResponse,
    ReadDiscreteInputsRequest,
    WriteMultipleCoilsRequest,
    WriteSingleCoilRequest,
)
from pymodbus.pdu.diag_message import ReturnQueryDataRequest
from pymodbus.pdu.register_message import (
    MaskWriteRegisterRequest,
    ReadHoldingRegistersRequest,
    ReadInputRegistersRequest,
    WriteMultipleRegistersRequest,
    WriteSingleRegisterRequest,
)

from app.language import translate
from app.signals.functions import WRITING
from app.signals.numbering import Table

MOST_REGISTERS: Final = 125
"""Registers in one read (V1.1b3)."""
MOST_BITS: Final = 2000
"""Coils or discrete inputs in one read (V1.1b3)."""

RETURN_QUERY_DATA: Final = 8
"""Function 08, sub-function 0 (V1.1b3, section 6.8, from memory): the follower gives back what it was sent."""

_READS: Final[dict[Table, type[ModbusPDU]]] = {
    "coil": ReadCoilsRequest,
    "discrete": ReadDiscreteInputsRequest,
    "holding": ReadHoldingRegistersRequest,
    "input": ReadInputRegistersRequest,
}
_RTU: Final = FramerRTU(DecodePDU(False))
_MBAP: Final = FramerSocket(DecodePDU(False))


def data_bytes(table: Table, count: int) -> int:
    """Bytes of data in the answer to a read of `count` registers (two each) or bits (eight to a byte)."""
    return 2 * count if table in ("holding", "input") else (count + 7) // 8


@dataclass(frozen=True, slots=True)
class Request:
    """One request to one unit.

    `pdu` is the function code and its data. A true answer is `answer_length` bytes of PDU that begin with
    `answer_head`: for a read the function and its byte count, for a write all that the follower has to echo.
    `address` is the wire address, from 0; `count` is in registers or bits.
    """

    unit: int
    table: Table
    address: int
    count: int
    pdu: bytes
    answer_head: bytes
    answer_length: int
    rtu: bytes = field(compare=False, repr=False)
    mbap_body: bytes = field(compare=False, repr=False)
    """The frame of Modbus TCP behind its transaction identifier."""
    mbap_answer: bytes = field(compare=False, repr=False)
    """What a true answer's frame of Modbus TCP has behind its transaction identifier, as far as `answer_head` goes."""

    @property
    def function(self) -> int:
        """The function code."""
        return self.pdu[0]

    @property
    def writes(self) -> bool:
        """Whether it changes something in the follower."""
        return self.function in WRITING

    @property
    def deed(self) -> str:
        """What is asked for, in a few words: 'read holding 300..311'."""
        if self.function == RETURN_QUERY_DATA:
            return translate("bus", "check that the device answers")
        # A request that is only to settle the line has no count of its own.
        count = self.count or (int.from_bytes(self.pdu[3:5], "big") if self.function < 5 else 1)
        span = f"{self.address}..{self.address + count - 1}" if count > 1 else f"{self.address}"
        deed = translate("bus", "write {table} {span}") if self.writes else translate("bus", "read {table} {span}")
        return deed.format(table=self.table, span=span)

    @property
    def echo_could_answer(self) -> bool:
        """Whether the request's own frame has the form of an answer to it.

        So it is with functions 05, 06, 08 and 22, and with a read of 17 to 24 bits whose address has the high byte 03.
        """
        return len(self.pdu) == self.answer_length and self.pdu.startswith(self.answer_head)

    @property
    def answer_characters(self) -> int:
        """Characters of a true answer in RTU framing."""
        return self.answer_length + 3

    def mbap(self, transaction: int) -> bytes:
        """The frame of Modbus TCP with transaction identifier `transaction`, 1..65535."""
        return transaction.to_bytes(2, "big") + self.mbap_body


def read_request(unit: int, table: Table, address: int, count: int) -> Request:
    """Ask `unit` for `count` registers or bits of `table` from wire address `address` on (functions 01 to 04).

    Raises ValueError for an address outside 0..65535 or a count that the protocol does not allow.
    """
    pdu = _READS[table](address=address, count=count, dev_id=unit)
    amount = data_bytes(table, count)
    return _request(unit, table, address, count, pdu, bytes((pdu.function_code, amount & 0xFF)), 2 + amount)


def write_register(unit: int, address: int, word: int) -> Request:
    """Put one word, 0..65535, into a holding register (function 06)."""
    return _echo_request(
        unit, "holding", address, WriteSingleRegisterRequest(address=address, registers=[word], dev_id=unit)
    )


def write_registers(unit: int, address: int, words: Sequence[int]) -> Request:
    """Put words into consecutive holding registers (function 16)."""
    pdu = WriteMultipleRegistersRequest(address=address, registers=list(words), dev_id=unit)
    return _range_request(unit, "holding", address, len(words), pdu)


def mask_write(unit: int, address: int, and_mask: int, or_mask: int) -> Request:
    """Change bits of one holding register inside the follower, so that nothing can come in between (function 22).

    The register becomes (itself AND `and_mask`) OR (`or_mask` AND NOT `and_mask`).
    """
    pdu = MaskWriteRegisterRequest(address=address, and_mask=and_mask, or_mask=or_mask, dev_id=unit)
    return _echo_request(unit, "holding", address, pdu)


def write_coil(unit: int, address: int, on: bool) -> Request:
    """Set or clear one coil (function 05)."""
    return _echo_request(unit, "coil", address, WriteSingleCoilRequest(address=address, bits=[on], dev_id=unit))


def write_coils(unit: int, address: int, bits: Sequence[bool]) -> Request:
    """Set or clear consecutive coils (function 15)."""
    pdu = WriteMultipleCoilsRequest(address=address, bits=list(bits), dev_id=unit)
    return _range_request(unit, "coil", address, len(bits), pdu)


def query_data_request(like: Request, data: int) -> Request:
    """Ask the unit that `like` asks to give back two bytes of `data`, 0..65535 (function 08, sub-function 0).

    It concerns no register, so its `count` is 0.
    """
    pdu = ReturnQueryDataRequest(message=data.to_bytes(2, "big"), dev_id=like.unit)
    whole = bytes((pdu.function_code,)) + pdu.encode()
    return _request(like.unit, like.table, like.address, 0, pdu, whole, len(whole))


def registers_of(pdu: bytes) -> tuple[int, ...]:
    """The words in a verified answer to a read of registers."""
    return struct.unpack_from(f">{pdu[1] // 2}H", pdu, 2)


def bits_of(pdu: bytes, count: int) -> tuple[bool, ...]:
    """The first `count` bits in a verified answer to a read of coils or discrete inputs."""
    answer = ReadCoilsResponse()
    answer.decode(pdu[1:])
    return tuple(answer.bits[:count])


def _echo_request(unit: int, table: Table, address: int, pdu: ModbusPDU) -> Request:
    whole = bytes((pdu.function_code,)) + pdu.encode()
    return _request(unit, table, address, 1, pdu, whole, len(whole))


def _range_request(unit: int, table: Table, address: int, count: int, pdu: ModbusPDU) -> Request:
    head = (bytes((pdu.function_code,)) + pdu.encode())[:5]
    return _request(unit, table, address, count, pdu, head, 5)


def _request(unit: int, table: Table, address: int, count: int, pdu: ModbusPDU, head: bytes, length: int) -> Request:
    data = bytes((pdu.function_code,)) + pdu.encode()
    answer = b"\0\0" + (length + 1).to_bytes(2, "big") + bytes((unit,)) + head
    rtu, mbap = _RTU.encode(data, unit, 0), _MBAP.encode(data, unit, 0)
    return Request(unit, table, address, count, data, head, length, rtu, mbap[2:], answer)
