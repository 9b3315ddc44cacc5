"""What a signal can be to the simulated drive behind it: a command that it gives, or a value that it shows."""

from __future__ import annotations

from typing import Final, Literal

from app.language import mark

DriveCommand = Literal[
    "run",
    "reverse",
    "fault-reset",
    "quick-stop",
    "control-word",
    "speed-reference",
    "ramp-up-time",
    "ramp-down-time",
]
"""What the line sets."""

DriveShown = Literal[
    "ready",
    "running",
    "at-reference",
    "fault",
    "warning",
    "remote",
    "status-word",
    "fault-code",
    "output-frequency",
    "shaft-speed",
    "current",
    "torque",
    "mechanical-power",
    "electrical-power",
    "dc-link-voltage",
    "motor-heat",
    "run-time",
]
"""What the line reads."""

DriveValue = Literal[DriveCommand, DriveShown]

DRIVE_VALUES: Final[dict[DriveValue, str]] = {
    "run": mark("project", "command: run"),
    "reverse": mark("project", "command: reverse"),
    "fault-reset": mark("project", "command: fault reset (rising edge)"),
    "quick-stop": mark("project", "command: quick stop"),
    "control-word": mark("project", "command: control word (IEC 61800-7-201)"),
    "speed-reference": mark("project", "command: speed reference"),
    "ramp-up-time": mark("project", "command: ramp-up time"),
    "ramp-down-time": mark("project", "command: ramp-down time"),
    "ready": mark("project", "ready to run"),
    "running": mark("project", "running"),
    "at-reference": mark("project", "at reference"),
    "fault": mark("project", "fault active"),
    "warning": mark("project", "warning active"),
    "remote": mark("project", "remote (commanded by the bus)"),
    "status-word": mark("project", "status word (IEC 61800-7-201)"),
    "fault-code": mark("project", "fault code, 0 = none"),
    "output-frequency": mark("project", "output frequency"),
    "shaft-speed": mark("project", "shaft speed"),
    "current": mark("project", "current"),
    "torque": mark("project", "torque"),
    "mechanical-power": mark("project", "mechanical power"),
    "electrical-power": mark("project", "electrical power"),
    "dc-link-voltage": mark("project", "DC-link voltage"),
    "motor-heat": mark("project", "motor thermal load"),
    "run-time": mark("project", "run time"),
}
"""What a person reads of each, in the order in which they are offered."""

COMMAND_BITS: Final[frozenset[DriveValue]] = frozenset({"run", "reverse", "fault-reset", "quick-stop"})
"""The commands that are on or off. A drive with a control word goes by that, and not by these."""

COMMAND_ROLES: Final = COMMAND_BITS | {"control-word"}
"""What starts and stops a drive: a number written there is a command, and not a value."""

DRIVE_BITS: Final = COMMAND_BITS | {"ready", "running", "at-reference", "fault", "warning", "remote"}
"""All that is on or off."""

RegisterMap = Literal["plain", "iec-61800-7-201"]
"""Which control word and status word a drive has in its built-in registers."""

REGISTER_MAPS: Final[dict[RegisterMap, str]] = {
    "plain": mark("project", "plain: bit 2 quick stop, 4 run, 5 reverse, 7 fault reset"),
    "iec-61800-7-201": mark("project", "control word of IEC 61800-7-201"),
}
"""What a person reads of each."""

OWN_REGISTERS: Final = {"holding": (300, 413), "input": (400, 413), "coil": (0, 15), "discrete": (0, 6)}
"""Where the built-in registers of a drive are on the wire: first and last address of each table."""

OWN_CONTROL: Final = 300
OWN_STATUS: Final = 400
"""Where its control word and its status word are on the wire; coils 0 to 15 are the bits of the control word."""

OWN_CONTROL_BITS: Final[dict[RegisterMap, frozenset[int]]] = {
    "plain": frozenset({2, 4, 5, 7}),
    "iec-61800-7-201": frozenset({0, 1, 2, 3, 7, 8}),
}
OWN_STATUS_BITS: Final[dict[RegisterMap, frozenset[int]]] = {
    "plain": frozenset({2, 4, 5, 7, 8, 9, 10, 11, 12}),
    "iec-61800-7-201": frozenset({*range(8), 9, 10, 11}),
}
"""The bits of these words that mean anything."""
