"""What simulated followers answer to one request, as bytes of the PDU: no sockets, no framing.

pymodbus decodes requests and carries them out on its simulator (`SimDevice`), whose actions read and write the models.
What its own server would answer differently from a device is settled here, before and after: a request of a wrong shape
gets its function's own exception, a bit that does not exist gets exception 02 though its neighbours in the word exist,
writes are answered with what was asked, and nobody answers for a unit that is not there.
Limits, lengths and exceptions are those of the MODBUS Application Protocol Specification V1.1b3 (from memory).
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from typing import Final

from pymodbus.constants import ExcCodes
from pymodbus.pdu import DecodePDU, ExceptionResponse
from pymodbus.simulator import DataType, SimData, SimDevice
from pymodbus.simulator.simcore import SimCore

from app.follower.errors import FollowerError
from app.follower.identity import ENCAPSULATED, REPORT_SERVER_ID
from app.follower.register_bank import RegisterBank
from app.language import mark
from app.modbus.requests import MOST_BITS
from app.project.model import DIRECT_UNITS
from app.signals.functions import TABLE_OF_FUNCTION, WRITING
from app.signals.numbering import LAST_ADDRESS, Table

BROADCAST: Final = 0
"""The unit that all followers of a serial line obey and none answers; on Modbus TCP it is one like others."""

_DIAGNOSTICS: Final = 8
_ECHOED: Final = frozenset({5, 6, 22})
"""Functions whose good answer is the request itself."""

_WRITE_BITS: Final = 1968
_WRITE_REGISTERS: Final = 123
_READ_WRITE_REGISTERS: Final = 121


class Responder:
    """The followers of one line, as one endpoint simulates them."""

    def __init__(
        self, models: Iterable[RegisterBank], clock: Callable[[], float] = time.monotonic, *, rtu: bool = False
    ) -> None:
        """`rtu`: the frames are those of a serial line, where every follower has a unit from 1 to 247.

        Raises FollowerError if one has another there, if two have the same, or there is none.
        """
        self.models: dict[int, RegisterBank] = {}
        for model in models:
            other = self.models.setdefault(model.follower.unit, model)
            if other is not model:
                raise FollowerError(
                    mark(
                        "follower",
                        "devices '{one}' and '{other}' have the same unit address {unit} and cannot be simulated at "
                        "one endpoint; choose one of them by name",
                    ),
                    one=other.name,
                    other=model.name,
                    unit=model.follower.unit,
                )
        if not self.models:
            raise FollowerError(
                mark("follower", "there is no device to simulate; add one to the project, or choose an existing one")
            )
        for unit in DIRECT_UNITS & self.models.keys() if rtu else ():
            raise FollowerError(
                mark(
                    "follower",
                    "device '{name}' has unit address {unit}, which is for Modbus TCP only; on a serial line use 1 to "
                    "247",
                ),
                name=self.models[unit].name,
                unit=unit,
            )
        if not rtu:
            # A device that is reached directly takes either.
            for unit in self.models.keys() & DIRECT_UNITS:
                self.models.setdefault(255 - unit, self.models[unit])
        self._clock = clock
        self._decoder = DecodePDU(True)
        self._places = {model: place for place, model in enumerate(dict.fromkeys(self.models.values()), 1)}
        """For the simulator, where a device of number 0 would stand for all."""
        self._core = SimCore([_device(place, model) for model, place in self._places.items()])

    async def answer(self, unit: int, pdu: bytes) -> bytes | None:
        """The answer of the follower at `unit` to a request; None: silence.

        `pdu` is the function code and what follows it, at least one byte.
        """
        model = self.models.get(unit)
        if model is None or model.absent:
            return None
        model.advance_to(self._clock())
        model.on_request()
        function = pdu[0]
        if function in (REPORT_SERVER_ID, ENCAPSULATED):
            return model.identity.answer(pdu)
        refused = _not_offered(function, model) or wrong(pdu, model.follower.max_registers) or _absent(pdu, model)
        if refused is not None:
            return bytes((function | 0x80, refused))
        if function == _DIAGNOSTICS:
            return pdu
        request = self._decoder.decode(pdu)
        if request is None:
            return bytes((function | 0x80, ExcCodes.ILLEGAL_VALUE))
        response = await request.datastore_update(self._core, self._places[model])  # type: ignore[arg-type]
        if function in _ECHOED and not isinstance(response, ExceptionResponse):
            return pdu
        return bytes((response.function_code,)) + response.encode()

    async def broadcast(self, pdu: bytes) -> None:
        """Let every follower carry out a write to unit 0. Reads make no sense there and are ignored."""
        if pdu[0] in WRITING:
            for unit in self.models:
                await self.answer(unit, pdu)


def wrong(pdu: bytes, max_registers: int = 125) -> ExcCodes | None:
    """What is wrong with the shape of a request, as the exception to answer; None if nothing is.

    In the order of the specification's state diagrams: the function, then lengths, quantities and values.
    `max_registers` is the most that the follower answers in one read.
    """
    function, size = pdu[0], len(pdu)
    if function == _DIAGNOSTICS:
        # Only sub-function 00, which returns the request: enough to prove a line.
        return None if size >= 5 and _word(pdu, 1) == 0 else ExcCodes.ILLEGAL_FUNCTION
    if function not in TABLE_OF_FUNCTION:
        return ExcCodes.ILLEGAL_FUNCTION
    match function:
        case 1 | 2:
            good = size == 5 and 1 <= _word(pdu, 3) <= MOST_BITS
        case 3 | 4:
            good = size == 5 and 1 <= _word(pdu, 3) <= max_registers
        case 5:
            good = size == 5 and _word(pdu, 3) in (0x0000, 0xFF00)
        case 6:
            good = size == 5
        case 15:
            good = size >= 6 and 1 <= _word(pdu, 3) <= _WRITE_BITS
            good = good and pdu[5] == (_word(pdu, 3) + 7) // 8 == size - 6
        case 16:
            good = size >= 6 and 1 <= _word(pdu, 3) <= _WRITE_REGISTERS
            good = good and pdu[5] == 2 * _word(pdu, 3) == size - 6
        case 22:
            good = size == 7
        case _:
            good = size >= 10 and 1 <= _word(pdu, 3) <= max_registers and 1 <= _word(pdu, 7) <= _READ_WRITE_REGISTERS
            good = good and pdu[9] == 2 * _word(pdu, 7) == size - 10
    return None if good else ExcCodes.ILLEGAL_VALUE


def _not_offered(function: int, model: RegisterBank) -> ExcCodes | None:
    """Exception 01 for a function that writes and that the follower does not offer; 23 writes as 16 does."""
    as_known = 16 if function == 23 else function
    if function in WRITING and as_known not in model.follower.write_functions:
        return ExcCodes.ILLEGAL_FUNCTION
    return None


def _absent(pdu: bytes, model: RegisterBank) -> ExcCodes | None:
    """Exception 02 for a well-shaped request past the last address, beyond what the model has, or to read what is never
    read."""
    function = pdu[0]
    if function == _DIAGNOSTICS:
        return None
    table = TABLE_OF_FUNCTION[function]
    first = _word(pdu, 1), 1 if function in (5, 6, 22) else _word(pdu, 3)
    spans = [first, (_word(pdu, 5), _word(pdu, 7))] if function == 23 else [first]
    fine = all(address + count - 1 <= LAST_ADDRESS and model.has(table, address, count) for address, count in spans)
    if function not in WRITING or function == 23:
        fine = fine and model.readable(table, *first)
    return None if fine else ExcCodes.ILLEGAL_ADDRESS


def _word(pdu: bytes, place: int) -> int:
    return int.from_bytes(pdu[place : place + 2], "big")


def _device(place: int, model: RegisterBank) -> SimDevice:
    """A model as pymodbus's simulator sees it: four blocks of its own, and an action that leads to the model.

    The blocks hold no values of their own: every access passes through the action, which fills in what the model holds
    or hands over what was written.
    """

    async def action(
        function: int, start: int, address: int, count: int, held: list[int], written: list[int] | list[bool] | None
    ) -> ExcCodes | None:
        table = TABLE_OF_FUNCTION[function]
        if written is not None:
            return model.write(table, address, [int(value) for value in written])
        if table in ("coil", "discrete"):
            # Of bits, `count` is in words of 16 and `start` is a word's number.
            first = address // 16
            held[first - start : first - start + count] = model.read_packed(table, first, count)
        else:
            held[address - start : address - start + count] = model.read(table, address, count)
        return None

    return SimDevice(
        place,
        (
            _bits(model, "coil"),
            _bits(model, "discrete"),
            _registers(model, "holding"),
            _registers(model, "input"),
        ),
        action=action,
    )


def _bits(model: RegisterBank, table: Table) -> list[SimData]:
    """All bits of a table. A block may not be empty; `_absent` keeps requests away from what only fills it."""
    runs = _runs(model, table) or [(0, 1, False)]
    return [SimData(address, values=[False] * count, datatype=DataType.BITS) for address, count, _ in runs]


def _registers(model: RegisterBank, table: Table) -> list[SimData]:
    """All registers of a table, those that the line may not write marked so."""
    return [
        SimData(address, count, datatype=DataType.REGISTERS, readonly=read_only)
        for address, count, read_only in _runs(model, table)
    ] or [SimData(0)]


def _runs(model: RegisterBank, table: Table) -> list[tuple[int, int, bool]]:
    """First address, count and whether read-only, of the runs of existing cells."""
    runs: list[tuple[int, int, bool]] = []
    for address in sorted(model.cells(table)):
        read_only = model.read_only(table, address)
        if runs and runs[-1][0] + runs[-1][1] == address and runs[-1][2] == read_only:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1, read_only)
        else:
            runs.append((address, 1, read_only))
    return runs
