"""What both ends of a serial line have to know of the port that they open."""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal, NamedTuple

from app.language import translate

Parity = Literal["none", "even", "odd"]

PortTrouble = Literal["", "in use", "no permission"]
"""Why a port cannot be opened now; empty: nothing is known against it."""
_LOCKS: Final = ("/run/lock", "/var/lock")
"""Where programs on Linux say that they have a port, by a file LCK..name (Filesystem Hierarchy Standard 3.0, 5.9)."""
_LETTERS: Final[dict[Parity, str]] = {"none": "N", "even": "E", "odd": "O"}
_PSEUDO_TERMINALS: Final = ("/dev/pts/", "/dev/ttys")
"""How those of Linux and of macOS begin."""


class LineSettings(NamedTuple):
    """How a serial line carries characters: bits a second, parity, stop bits. As text: '19200 8E1'."""

    baud: int
    parity: Parity
    stop_bits: Literal[1, 2]

    def __str__(self) -> str:
        return f"{self.baud} 8{self.parity[0].upper()}{self.stop_bits}"

    @property
    def character_s(self) -> float:
        """The time of one character with its start, parity and stop bits, in seconds."""
        return (9 + (self.parity != "none") + self.stop_bits) / self.baud


def parity_letter(device: str, parity: Parity) -> str:
    """The letter by which pyserial knows a parity.

    A pseudo terminal carries no parity bit, and the system refuses to pretend that it does: there it is always none.
    """
    return "N" if is_pseudo_terminal(device) else _LETTERS[parity]


def is_pseudo_terminal(device: str) -> bool:
    """Whether a path leads to a pseudo terminal, which has no line behind it: no bits, and no errors in them."""
    return os.path.realpath(device).startswith(_PSEUDO_TERMINALS)


@dataclass(frozen=True, slots=True)
class PortHere:
    """A serial port of this computer; texts are empty where the system does not tell."""

    device: str
    """The name to open it with: /dev/ttyUSB0, COM3."""
    description: str
    maker: str
    """Of the adapter."""
    serial_number: str
    """Of the adapter."""

    @property
    def trouble(self) -> PortTrouble:
        """What keeps this program from it now."""
        return port_trouble(self.device)


def all_ports() -> tuple[PortHere, ...]:
    """The serial ports that this computer has now.

    Pseudo terminals and other paths that can be opened as well are not among them.
    """
    from serial.tools.list_ports import comports  # only where somebody chooses a port

    def told(text: str | None) -> str:
        return "" if text in (None, "n/a") else str(text)

    return tuple(
        PortHere(port.device, told(port.description), told(port.manufacturer), told(port.serial_number))
        for port in sorted(comports())
    )


def ports_here() -> dict[str, str]:
    """The same, by the name to open each with; what each is, empty if unknown."""
    return {port.device: port.description for port in all_ports()}


def how_to_get(trouble: PortTrouble) -> str:
    """What to do about it, in a sentence; empty if there is none."""
    if trouble == "in use":
        return translate("bus", "another program has this port open; close it there")
    if not trouble:
        return ""
    if sys.platform == "linux":
        return translate(
            "bus",
            "this user may not open serial ports; an administrator adds the user to the group that owns the port "
            "(dialout, mostly: sudo usermod -aG dialout NAME), then log out and in again",
        )
    return translate("bus", "this user may not open the port; an administrator can change that")


def port_trouble(device: str, processes: Path = Path("/proc")) -> PortTrouble:
    """What keeps this program from a port, as far as it can be told without opening it: that may reset what is on the
    line.

    "in use" is told on Linux only, of a port with a lock file or that is open in a process that may be looked into.
    """
    port = Path(device)
    if os.name != "posix" or not port.exists():
        return ""
    if not os.access(device, os.R_OK | os.W_OK):
        return "no permission"
    if any(Path(folder, f"LCK..{port.name}").exists() for folder in _LOCKS):
        return "in use"
    real = port.resolve()
    me = str(os.getpid())
    for link in processes.glob("[0-9]*/fd/*"):
        try:
            if link.parts[-3] != me and link.readlink() == real:
                return "in use"
        except OSError:
            continue  # another's process, or one that has ended
    return ""
