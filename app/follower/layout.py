"""The registers of the simulated drive, as tables. Addresses are those on the wire, from 0; the layout is our own.

There are two register maps, with the same registers: in one the control word and the status word are those of
IEC 61800-7-201, in the other plain ones of our own. Coils 0 to 15 are the bits of the control word. Whatever spans two
registers has its high word first, whatever the project says of the follower.
"""

from __future__ import annotations

import enum
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from app.follower.drive import BASE_FREQUENCY, FAULT_TEXT, Drive, FaultCode, WarningBit
from app.follower.states import DriveState, StatusBit
from app.language import mark
from app.project.drive_roles import RegisterMap
from app.signals.encoding import EncodingName

FULL_SPEED: Final = 10_000
"""Counts of a reference or of the output frequency at base frequency."""

_A_REGISTER: Final = 65_535
_FAULT_CODES: Final = ", ".join(f"{code} ({code:04X}h) {FAULT_TEXT[code]}" for code in FaultCode)

_WARNINGS: Final = ", ".join(
    f"bit {bit.value.bit_length() - 1} {(bit.name or '').lower().replace('_', ' ')}" for bit in WarningBit
)


@dataclass(frozen=True, slots=True)
class Setting:
    """A holding register that the line reads and writes. Writing outside `low`..`high` is refused, exception 03.

    With a `low` below 0 it is an int16.
    """

    name: str
    address: int
    low: int
    high: int
    start: int
    meaning: str
    obey: Callable[[Drive, int], None] | None = None
    """What a written count does to the drive; None: it is only stored."""

    def count(self, word: int) -> int:
        """The number that a register means."""
        return word - 0x10000 if self.low < 0 and word & 0x8000 else word


@dataclass(frozen=True, slots=True)
class Measured:
    """What the drive tells: an input register, and at the same number a holding register that is only read."""

    name: str
    address: int
    encoding: EncodingName
    meaning: str
    raw: Callable[[Drive], float]
    """The raw number before it is rounded and kept within the encoding."""


@dataclass(frozen=True, slots=True)
class Indicator:
    """A discrete input."""

    name: str
    address: int
    meaning: str
    state: Callable[[Drive], bool]


@dataclass(frozen=True, slots=True)
class RegisterLayout:
    """The registers of one register map."""

    control: Setting
    """The control word, whose bits the coils are."""
    settings: tuple[Setting, ...]
    """All of them, the control word too."""
    measured: tuple[Measured, ...]


class PlainStatusBit(enum.IntFlag):
    """The bits of the plain status word: a bit of the control word is answered by the bit of the same number."""

    QUICK_STOP = 1 << 2
    RUNNING = 1 << 4
    REVERSE = 1 << 5
    FAULT = 1 << 7
    READY = 1 << 8
    REMOTE = 1 << 9
    AT_REFERENCE = 1 << 10
    INTERNAL_LIMIT = 1 << 11
    WARNING = 1 << 12


def plain_status(drive: Drive) -> int:
    """The plain status word."""
    shown = {
        PlainStatusBit.QUICK_STOP: drive.state is DriveState.QUICK_STOP_ACTIVE,
        PlainStatusBit.RUNNING: drive.running,
        PlainStatusBit.REVERSE: drive.running and drive.frequency < 0,
        PlainStatusBit.FAULT: drive.faulted,
        PlainStatusBit.READY: bool(drive.status_word & StatusBit.READY_TO_SWITCH_ON) and not drive.faulted,
        PlainStatusBit.REMOTE: drive.inputs.remote,
        PlainStatusBit.AT_REFERENCE: drive.at_reference,
        PlainStatusBit.INTERNAL_LIMIT: drive.limiting,
        PlainStatusBit.WARNING: bool(drive.warnings),
    }
    return sum(bit for bit, on in shown.items() if on)


def _reference(drive: Drive, count: int) -> None:
    drive.reference = count * BASE_FREQUENCY / FULL_SPEED


def _ramp_up(drive: Drive, count: int) -> None:
    drive.ramp_up_s = count / 10


def _ramp_down(drive: Drive, count: int) -> None:
    drive.ramp_down_s = count / 10


def _preset(number: int) -> Callable[[Drive, int], None]:
    def obey(drive: Drive, count: int) -> None:
        drive.presets[number] = count * BASE_FREQUENCY / FULL_SPEED

    return obey


def _rounding(drive: Drive, count: int) -> None:
    drive.rounding_s = count / 10


def _direction_lock(drive: Drive, count: int) -> None:
    drive.direction_lock = count


def _communication_timeout(drive: Drive, count: int) -> None:
    drive.communication_timeout_s = count / 1000


CONTROL: Final = 300
_CONTROL_NAME: Final = mark("follower", "control word")
_REFERENCE_NAME: Final = mark("follower", "speed reference")
COMMUNICATION_TIMEOUT: Final = Setting(
    mark("follower", "communication time-out"), 301, 0, _A_REGISTER, 0, "ms; 0 = none", _communication_timeout
)

_PRESET: Final = "as the speed reference; overrides it while its input is set"

_SETTINGS: Final = (
    COMMUNICATION_TIMEOUT,
    Setting(
        mark("follower", "direction lock"), 302, 0, 2, 0, "0 none, 1 forward only, 2 reverse only", _direction_lock
    ),
    Setting(mark("follower", "ramp-up time"), 311, 1, 36_000, 50, "0.1 s, from standstill to base frequency", _ramp_up),
    Setting(
        mark("follower", "ramp-down time"), 312, 1, 36_000, 50, "0.1 s, from base frequency to standstill", _ramp_down
    ),
    Setting(mark("follower", "S-ramp time"), 313, 0, 600, 0, "0.1 s, of both ends of a ramp; 0 = straight", _rounding),
    Setting(mark("follower", "preset speed 1"), 320, 0, FULL_SPEED, 0, _PRESET, _preset(0)),
    Setting(mark("follower", "preset speed 2"), 321, 0, FULL_SPEED, 0, _PRESET, _preset(1)),
    Setting(mark("follower", "preset speed 3"), 322, 0, FULL_SPEED, 0, _PRESET, _preset(2)),
    Setting(mark("follower", "preset speed 4"), 323, 0, FULL_SPEED, 0, _PRESET, _preset(3)),
)

_MEASURED: Final = (
    Measured(
        "output frequency",
        401,
        "int16",
        "10000 = base frequency, negative in reverse",
        lambda drive: drive.frequency * FULL_SPEED / BASE_FREQUENCY,
    ),
    Measured("current", 402, "uint16", "0.01 A", lambda drive: drive.current * 100),
    Measured("DC-link voltage", 403, "uint16", "0.1 V", lambda drive: drive.dc_voltage * 10),
    Measured("fault code", 404, "uint16", _FAULT_CODES, lambda drive: drive.fault),
    Measured("shaft speed", 405, "int16", "1/min, negative in reverse", lambda drive: drive.speed_rpm),
    Measured(
        "run time", 406, "uint32", "s, while the inverter feeds the motor", lambda drive: int(drive.run_time_s + 1e-6)
    ),
    Measured("mechanical power", 408, "float32", "kW", lambda drive: drive.power_kw),
    Measured("electrical power", 410, "float32", "kW, of the motor", lambda drive: drive.supply_power_kw),
    Measured(
        "motor thermal load",
        412,
        "uint16",
        "0.1 % of the heat at which it trips",
        lambda drive: drive.heat.share * 1000,
    ),
    Measured("warning word", 413, "uint16", _WARNINGS, lambda drive: drive.warnings),
)

INDICATORS: Final = (
    Indicator("remote", 0, "remote: commanded by the bus", lambda drive: drive.inputs.remote),
    Indicator("external fault input", 1, "the input is set", lambda drive: drive.inputs.external_fault),
    Indicator("running", 2, "the inverter feeds the motor", lambda drive: drive.running),
    Indicator("fault", 3, "a fault is active or waits for its reset", lambda drive: drive.faulted),
    Indicator("safe torque off", 4, "the input is set", lambda drive: drive.inputs.safe_torque_off),
    Indicator("preset", 5, "a preset speed overrides the reference", lambda drive: drive.inputs.preset > 0),
    Indicator("warning", 6, "a trip limit is near", lambda drive: bool(drive.warnings)),
)

COILS: Final = range(16)
"""The bits of the control word under addresses of their own."""


def _layout(control: Setting, reference: Setting, status: Measured) -> RegisterLayout:
    return RegisterLayout(control, (control, reference, *_SETTINGS), (status, *_MEASURED))


LAYOUTS: Final[Mapping[RegisterMap, RegisterLayout]] = MappingProxyType(
    {
        "plain": _layout(
            Setting(
                _CONTROL_NAME,
                CONTROL,
                0,
                _A_REGISTER,
                0,
                "bit 2 quick stop, 4 run, 5 reverse, 7 fault reset by rising edge",
                Drive.obey,
            ),
            Setting(_REFERENCE_NAME, 310, 0, FULL_SPEED, 0, "10000 = base frequency, 50 Hz", _reference),
            Measured(
                "status word",
                400,
                "uint16",
                "bit 2 quick stop active, 4 running, 5 in reverse, 7 fault, 8 ready, 9 remote, 10 at reference, "
                "11 torque limit, 12 warning",
                plain_status,
            ),
        ),
        "iec-61800-7-201": _layout(
            Setting(
                _CONTROL_NAME,
                CONTROL,
                0,
                _A_REGISTER,
                0,
                "bit 0 switch on, 1 enable voltage, 2 no quick stop, 3 enable operation, 7 fault reset by rising edge, "
                "8 halt",
                Drive.obey_standard,
            ),
            Setting(
                _REFERENCE_NAME,
                310,
                -FULL_SPEED,
                FULL_SPEED,
                0,
                "int16, 10000 = base frequency, 50 Hz, negative in reverse",
                _reference,
            ),
            Measured(
                "status word", 400, "uint16", "bits of IEC 61800-7-201; bit 9 remote", lambda drive: drive.status_word
            ),
        ),
    }
)
