"""Operating simulated followers by words, from the command line and from scripts: their inputs, values and faults."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from app.follower.drive import FaultCode
from app.follower.drive_bank import DriveBank
from app.follower.errors import FollowerError
from app.follower.faults import LONGEST_S, number, order_fault
from app.follower.register_bank import RegisterBank
from app.language import mark, translate

SWITCHES: Final[Mapping[str, tuple[str, bool]]] = {
    "jammed": ("jammed", True),
    "safe-torque-off": ("safe_torque_off", True),
    "external-fault": ("external_fault", True),
    "local": ("remote", False),
}
"""The switches of a drive: the attribute of its inputs, and what "on" makes of it."""

_LONGEST_RUN_S: Final = 3600.0 * 100_000

_ON: Final = {"on": True, "1": True, "off": False, "0": False}
_DEED: Final = re.compile(r"(?P<follower>[^.=]+)\.(?P<what>[^=]+)=(?P<value>.*)")


def operate(models: Mapping[str, RegisterBank], deed: str) -> None:
    """Do what a deed says: NAME.WHAT=VALUE.

    WHAT is a switch of a drive (`jammed`, `safe-torque-off`, `external-fault`, `local`: on or off), `supply` (per
    cent), `preset` (0 to 4), `trip` (the code of a fault to trip with), `motor-heat` (per cent of where the overload
    protection trips), `run-time` (seconds that it has run), `silent` (on or off), `reboot` (seconds without power), a
    fault of the line (`delay`, `jitter`, `silence`, `noise`, `crc`, `exceptions`, `exception`, `seed`), or a signal of
    the follower, which gets this engineering value.
    Raises FollowerError, in words.
    """
    found = _DEED.fullmatch(deed.strip())
    if found is None:
        raise FollowerError(mark("follower", "'{deed}' is not NAME.WHAT=VALUE, such as fan.jammed=on"), deed=deed)
    name, what, value = (found[key].strip() for key in ("follower", "what", "value"))
    model = models.get(name)
    if model is None:
        known = ", ".join(f"'{each}'" for each in models)
        raise FollowerError(
            mark("follower", "there is no simulated device '{name}'; choose from: {known}"), name=name, known=known
        )
    try:
        if what == "silent":
            model.silent = _on(value)
        elif what == "reboot":
            model.reboot(number(value.removesuffix("s"), what, 0, LONGEST_S))
        elif isinstance(model, DriveBank) and _drive(model, what, value):
            pass
        elif not order_fault(model.faults, what, value):
            model.set(what, _value(value))
    except ValueError as why:
        raise FollowerError(f"{name}.{what}: {why}") from None


def _drive(model: DriveBank, what: str, value: str) -> bool:
    if what in SWITCHES:
        attribute, on = SWITCHES[what]
        setattr(model.inputs, attribute, _on(value) is on)
    elif what == "preset":
        if value not in ("0", "1", "2", "3", "4"):
            raise ValueError(translate("follower", "the preset must be 0 to 4, not '{value}'").format(value=value))
        model.inputs.preset = int(value)
    elif what == "supply":
        share = float(value.removesuffix("%")) / 100 if re.fullmatch(r"\d{1,3}%?", value) else -1.0
        if not 0 <= share <= 1.5:
            raise ValueError(translate("follower", "the supply must be 0 to 150 %, not '{value}'").format(value=value))
        model.inputs.supply = share
    elif what == "trip":
        model.inputs.trip = _fault(value)
    elif what == "motor-heat":
        model.age(heat=number(value.removesuffix("%"), what, 0, 99) / 100)
    elif what == "run-time":
        model.age(run_time_s=number(value.removesuffix("s"), what, 0, _LONGEST_RUN_S))
    else:
        return False
    return True


def _fault(value: str) -> FaultCode:
    known = {str(int(code)): code for code in FaultCode if code}
    if value not in known:
        raise ValueError(
            translate("follower", "there is no fault '{value}'; choose from: {known}").format(
                value=value, known=", ".join(known)
            )
        )
    return known[value]


def _on(value: str) -> bool:
    if value not in _ON:
        raise ValueError(translate("follower", "use on or off, not '{value}'").format(value=value))
    return _ON[value]


def _value(value: str) -> Fraction | str:
    return Fraction(value) if re.fullmatch(r"[+-]?\d{1,20}(\.\d{1,20})?", value) else value
