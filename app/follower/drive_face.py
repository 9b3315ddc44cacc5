"""What a drive takes and tells as numbers of a unit, for signals that say what of it they are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from app.follower.drive import BASE_FREQUENCY, CommandBit, Drive
from app.follower.motor import rectifier_peak, synchronous_speed
from app.follower.states import StatusBit
from app.project.drive_roles import DriveValue

_SHORTEST_RAMP_S: Final = 0.01
_LONGEST_RAMP_S: Final = 3600.0

_PARTS: Final[dict[str, dict[str, Fraction]]] = {
    "Hz": {"hz": Fraction(1)},
    "min-1": {
        **dict.fromkeys(("min-1", "1/min", "rpm", "r/min", "u/min", "min\u207b\u00b9"), Fraction(1)),
        **dict.fromkeys(("s-1", "1/s", "rps"), Fraction(1, 60)),
    },
    "A": {"a": Fraction(1), "ma": Fraction(1000)},
    "V": {"v": Fraction(1), "kv": Fraction(1, 1000)},
    "Nm": {"nm": Fraction(1)},
    "kW": {"kw": Fraction(1), "w": Fraction(1000)},
    "s": {"s": Fraction(1), "ms": Fraction(1000), "min": Fraction(1, 60), "h": Fraction(1, 3600)},
}
"""How many of a signal's unit make one of the drive's own, by the drive's unit and the signal's in small letters."""


@dataclass(frozen=True, slots=True)
class Command:
    """A number that the line sets, in the drive's own unit."""

    unit: str
    low: float
    high: float
    obey: Callable[[Drive, float], None]
    stands: Callable[[Drive], float]
    """What the drive goes by now."""
    whole: Callable[[Drive], float] | None = None
    """What 100 % are, for signals in per cent."""


@dataclass(frozen=True, slots=True)
class ShownNumber:
    """A number that the line reads, in the drive's own unit; without a unit it is no measure: a bit, a code, a word."""

    unit: str
    tell: Callable[[Drive], float]
    whole: Callable[[Drive], float] | None = None
    """What 100 % are, for signals in per cent."""


def _refer(drive: Drive, hertz: float) -> None:
    drive.reference = hertz


def _ramp_up(drive: Drive, seconds: float) -> None:
    drive.ramp_up_s = seconds


def _ramp_down(drive: Drive, seconds: float) -> None:
    drive.ramp_down_s = seconds


def _status(bit: StatusBit) -> ShownNumber:
    return ShownNumber("", lambda drive: float(bool(drive.status_word & bit)))


def _base_frequency(_drive: Drive) -> float:
    return BASE_FREQUENCY


def _rated_power(drive: Drive) -> float:
    return drive.motor.power_kw


BITS: Final[dict[DriveValue, CommandBit]] = {
    "run": CommandBit.RUN,
    "reverse": CommandBit.REVERSE,
    "fault-reset": CommandBit.FAULT_RESET,
    "quick-stop": CommandBit.QUICK_STOP,
}
"""The commands that are bits."""


def _control(drive: Drive, word: float) -> None:
    drive.obey_standard(int(word))


NUMBERS: Final[dict[DriveValue, Command]] = {
    "control-word": Command("", -0x8000, 0xFFFF, _control, lambda drive: drive.control_word),
    "speed-reference": Command("Hz", 0.0, BASE_FREQUENCY, _refer, lambda drive: drive.reference, _base_frequency),
    "ramp-up-time": Command("s", _SHORTEST_RAMP_S, _LONGEST_RAMP_S, _ramp_up, lambda drive: drive.ramp_up_s),
    "ramp-down-time": Command("s", _SHORTEST_RAMP_S, _LONGEST_RAMP_S, _ramp_down, lambda drive: drive.ramp_down_s),
}
"""The commands that are numbers."""

SIGNED_NUMBERS: Final = NUMBERS | {"speed-reference": replace(NUMBERS["speed-reference"], low=-BASE_FREQUENCY)}
"""The same for a drive with a control word: that has no bit for reverse, so the sign of the reference says it."""

SHOWN: Final[dict[DriveValue, ShownNumber]] = {
    "ready": _status(StatusBit.READY_TO_SWITCH_ON),
    "running": ShownNumber("", lambda drive: float(drive.running)),
    "at-reference": _status(StatusBit.TARGET_REACHED),
    "fault": ShownNumber("", lambda drive: float(drive.faulted)),
    "warning": ShownNumber("", lambda drive: float(bool(drive.warnings))),
    "remote": ShownNumber("", lambda drive: float(drive.inputs.remote)),
    "status-word": ShownNumber("", lambda drive: float(drive.status_word)),
    "fault-code": ShownNumber("", lambda drive: float(drive.fault)),
    "output-frequency": ShownNumber("Hz", lambda drive: drive.frequency, _base_frequency),
    "shaft-speed": ShownNumber("min-1", lambda drive: drive.speed_rpm, lambda drive: drive.motor.speed_rpm),
    "current": ShownNumber("A", lambda drive: drive.current, lambda drive: drive.motor.current),
    "torque": ShownNumber("Nm", lambda drive: drive.torque, lambda drive: drive.motor.torque),
    "mechanical-power": ShownNumber("kW", lambda drive: drive.power_kw, _rated_power),
    "electrical-power": ShownNumber("kW", lambda drive: drive.supply_power_kw, _rated_power),
    "dc-link-voltage": ShownNumber(
        "V", lambda drive: drive.dc_voltage, lambda drive: rectifier_peak(drive.motor.supply_voltage)
    ),
    "motor-heat": ShownNumber("%", lambda drive: 100 * drive.heat.share),
    "run-time": ShownNumber("s", lambda drive: drive.run_time_s),
}
"""What is read."""


def parts_of(drive: Drive, value: Command | ShownNumber, unit: str) -> Fraction:
    """How many of `unit`, that of a signal, make one of the drive's own unit of this value.

    Per cent are those of the rated value (of the base frequency, of the voltage without load); frequencies may be
    told as the speed of the motor's field. A unit that is not known is taken for the drive's own.
    """
    known = " ".join(unit.split()).casefold()
    if known == "%" and value.whole is not None:
        return 100 / Fraction(value.whole(drive))
    if value.unit == "Hz" and known in _PARTS["min-1"]:
        return Fraction(synchronous_speed(1.0, drive.motor.poles)) * _PARTS["min-1"][known]
    return _PARTS.get(value.unit, {}).get(known, Fraction(1))
