"""The registers of the simulated drive, as a table. Addresses are those on the wire, from 0; the layout is our own.

Whatever spans two registers has its high word first, whatever the project says of the follower.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from app.follower.drive import BASE_FREQUENCY, FAULT_TEXT, Drive, FaultCode, WarningBit
from app.language import mark
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
    """A holding register that the line reads and writes. Writing outside `low`..`high` is refused, exception 03."""

    name: str
    address: int
    low: int
    high: int
    start: int
    meaning: str
    obey: Callable[[Drive, int], None] | None = None
    """What a written count does to the drive; None: it is only stored."""


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
class CommandCoil:
    """A coil that is a bit of the command word under another address."""

    name: str
    address: int
    bit: int
    meaning: str


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


COMMAND: Final = Setting(
    mark("follower", "command word"),
    300,
    0,
    _A_REGISTER,
    0,
    "bit 0 run, 1 reverse, 2 fault reset by rising edge, 3 quick stop",
    Drive.obey,
)
COMMUNICATION_TIMEOUT: Final = Setting(
    mark("follower", "communication time-out"), 301, 0, _A_REGISTER, 0, "ms; 0 = none", _communication_timeout
)

_PRESET: Final = "as the speed reference; outranks it while its input is set"

SETTINGS: Final = (
    COMMAND,
    COMMUNICATION_TIMEOUT,
    Setting(
        mark("follower", "direction lock"), 302, 0, 2, 0, "0 none, 1 forward only, 2 reverse only", _direction_lock
    ),
    Setting(mark("follower", "speed reference"), 310, 0, FULL_SPEED, 0, "10000 = base frequency, 50 Hz", _reference),
    Setting(mark("follower", "ramp-up time"), 311, 1, 36_000, 50, "0.1 s, from standstill to base frequency", _ramp_up),
    Setting(
        mark("follower", "ramp-down time"), 312, 1, 36_000, 50, "0.1 s, from base frequency to standstill", _ramp_down
    ),
    Setting(
        mark("follower", "ramp rounding"), 313, 0, 600, 0, "0.1 s, of both ends of a ramp; 0 = straight", _rounding
    ),
    Setting(mark("follower", "preset speed 1"), 320, 0, FULL_SPEED, 0, _PRESET, _preset(0)),
    Setting(mark("follower", "preset speed 2"), 321, 0, FULL_SPEED, 0, _PRESET, _preset(1)),
    Setting(mark("follower", "preset speed 3"), 322, 0, FULL_SPEED, 0, _PRESET, _preset(2)),
    Setting(mark("follower", "preset speed 4"), 323, 0, FULL_SPEED, 0, _PRESET, _preset(3)),
)

MEASURED: Final = (
    Measured("status word", 400, "uint16", "bits of IEC 61800-7-201; bit 9 remote", lambda drive: drive.status_word),
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
    Measured("shaft speed", 405, "int16", "min-1, negative in reverse", lambda drive: drive.speed_rpm),
    Measured(
        "run time", 406, "uint32", "s, while the inverter feeds the motor", lambda drive: int(drive.run_time_s + 1e-6)
    ),
    Measured("mechanical power", 408, "float32", "kW", lambda drive: drive.power_kw),
    Measured("electrical power", 410, "float32", "kW, of the motor", lambda drive: drive.supply_power_kw),
    Measured("motor heat", 412, "uint16", "0.1 % of the heat at which it trips", lambda drive: drive.heat.share * 1000),
    Measured("warning word", 413, "uint16", _WARNINGS, lambda drive: drive.warnings),
)

INDICATORS: Final = (
    Indicator("remote", 0, "the line commands the drive", lambda drive: drive.inputs.remote),
    Indicator("external fault input", 1, "the input is set", lambda drive: drive.inputs.external_fault),
    Indicator("running", 2, "the inverter feeds the motor", lambda drive: drive.running),
    Indicator("fault", 3, "a fault is active or waits for its reset", lambda drive: drive.faulted),
    Indicator("safe torque off", 4, "the input is set", lambda drive: drive.inputs.safe_torque_off),
    Indicator("preset", 5, "a preset speed outranks the reference", lambda drive: drive.inputs.preset > 0),
    Indicator("warning", 6, "something is near to a trip", lambda drive: bool(drive.warnings)),
)

COILS: Final = (
    CommandCoil("run", 0, 0, "bit 0 of the command word"),
    CommandCoil("fault reset", 1, 2, "bit 2 of the command word"),
)
