"""What is asked before a new project is made, and what may be answered."""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass
from typing import Final, Literal

from app.errors import FanlightError
from app.language import Template, mark
from app.project.drive_roles import RegisterMap
from app.project.model import DIRECT_UNITS, LAST_UNIT, SerialLine, TcpLine

StarterName = Literal["one-drive", "pump-pair", "temperature", "empty"]

STARTERS: Final[dict[StarterName, tuple[Template, Template]]] = {
    "one-drive": (
        mark("starters", "One drive"),
        mark("starters", "Start, stop, set point, direction, speed and current of one drive, and a fault screen."),
    ),
    "pump-pair": (
        mark("starters", "Two pumps"),
        mark("starters", "Two drives on one line: each started on its own screen, both stopped by one key."),
    ),
    "temperature": (
        mark("starters", "Temperature controller"),
        mark("starters", "Heating on and off, set point, temperature and output, and an alarm screen."),
    ),
    "empty": (
        mark("starters", "Empty panel"),
        mark("starters", "One empty screen, a line and a device."),
    ),
}
"""What a new project can start as, in the order in which it is offered: its name and what it has."""

DRIVES: Final[frozenset[StarterName]] = frozenset({"one-drive", "pump-pair"})
"""Those whose registers are asked for: control words differ."""

DEVICES: Final[dict[StarterName, int]] = {"one-drive": 1, "pump-pair": 2, "temperature": 1, "empty": 1}
"""How many devices each has, at unit addresses that follow one another."""

Registers = Literal[RegisterMap, "list"]

REGISTERS: Final[dict[Registers, Template]] = {
    "iec-61800-7-201": mark("starters", "Control word of IEC 61800-7-201"),
    "plain": mark("starters", "Plain: run, reverse, fault reset"),
    "list": mark("starters", "A register list to import"),
}

SIZES: Final = ((4, 20), (2, 16), (2, 20), (4, 40), (8, 40), (16, 40))
"""Usual panels, rows and columns; the first is the one to begin with."""

LEAST_ROWS: Final = 2
LEAST_COLUMNS: Final = 16
"""Of a panel that a starter with screens of its own has room on; the empty one may be of any size."""

KeyNames = Literal["words", "numbers"]

KEY_NAMES: Final[dict[KeyNames, dict[str, str]]] = {
    "words": {"start": "start", "stop": "stop", "reset": "reset"},
    "numbers": {"start": "f1", "stop": "f2", "reset": "f3"},
}
"""What the keys beside arrows, enter and escape are called."""

LineChoice = Literal["simulated", "serial", "tcp"]

USUAL_PORT: Final = "COM1" if sys.platform == "win32" else "/dev/ttyUSB0"
"""Of a line whose port nobody has chosen yet, since it is simulated at first."""

_HOST: Final = re.compile(r"(?P<host>\[[0-9A-Fa-f:.%\w]+\]|[^:/\[\]\s]+)(?::(?P<port>\d{1,5}))?")


class UnusableAnswer(FanlightError, ValueError):
    """An answer that nothing can be made of; the message says what would be right. `about` names the answer."""

    @property
    def about(self) -> str:
        """Which field of `Answers` it is."""
        return str(self.parameters["about"])


@dataclass(frozen=True, slots=True)
class Answers:
    """What was answered, each with a sensible answer already given."""

    starter: StarterName = "one-drive"
    title: str = ""
    """Left out: that of the starter."""
    rows: int = SIZES[0][0]
    columns: int = SIZES[0][1]
    keys: KeyNames = "words"
    where: LineChoice = "simulated"
    port: str = USUAL_PORT
    """Of a serial line: /dev/ttyUSB0, COM3."""
    host: str = ""
    """Of a TCP line: a name or an address, with `:port` behind it where that is not 502."""
    unit: int = 1
    """The address of the first device, 1 to 247, on a TCP line also 0 or 255 if there is only one."""
    registers: Registers = "iec-61800-7-201"

    def line(self, name: str) -> SerialLine | TcpLine:
        """The line of that name. Raises UnusableAnswer without a port or a host."""
        if self.where != "tcp":
            port = self.port.strip() if self.where == "serial" else USUAL_PORT
            if not port:
                raise UnusableAnswer(
                    mark("starters", "Choose the serial port that the device is connected to."), about="port"
                )
            return SerialLine(name=name, device=port)
        found = _HOST.fullmatch(self.host.strip())
        number = int(found["port"] or 502) if found else 0
        if found is None or not 1 <= number <= 65_535:
            raise UnusableAnswer(
                mark(
                    "starters",
                    "Enter the name or IP address that is set at the device, e.g. 192.0.2.20 or drive-3:502.",
                ),
                about="host",
            )
        return TcpLine(name=name, host=found["host"].strip("[]"), port=number)

    def check(self) -> None:
        """Raises UnusableAnswer for the first answer that does not fit."""
        self.line("line")
        last = self.unit + DEVICES[self.starter] - 1
        direct = self.where == "tcp" and self.unit in DIRECT_UNITS and last == self.unit
        if not direct and not 1 <= self.unit <= last <= LAST_UNIT:
            raise UnusableAnswer(
                mark("starters", "Unit addresses go from 1 to {last}."),
                about="unit",
                last=LAST_UNIT - DEVICES[self.starter] + 1,
            )
        if self.starter != "empty" and (self.rows < LEAST_ROWS or self.columns < LEAST_COLUMNS):
            raise UnusableAnswer(
                mark("starters", "These screens need at least {rows} rows of {columns} cells."),
                about="size",
                rows=LEAST_ROWS,
                columns=LEAST_COLUMNS,
            )
