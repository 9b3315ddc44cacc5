"""What both ends of a serial line have to know of the port that they open."""

from __future__ import annotations

import os
from typing import Final, Literal

Parity = Literal["none", "even", "odd"]

_LETTERS: Final[dict[Parity, str]] = {"none": "N", "even": "E", "odd": "O"}
_PSEUDO_TERMINALS: Final = ("/dev/pts/", "/dev/ttys")
"""How those of Linux and of macOS begin."""


def parity_letter(device: str, parity: Parity) -> str:
    """The letter by which pyserial knows a parity.

    A pseudo terminal carries no parity bit, and the system refuses to pretend that it does: there it is always none.
    """
    return "N" if os.path.realpath(device).startswith(_PSEUDO_TERMINALS) else _LETTERS[parity]


def ports_here() -> dict[str, str]:
    """The serial ports that this computer has now, by the name to open each with; what each is, empty if unknown.

    Pseudo terminals and other paths that can be opened as well are not among them.
    """
    from serial.tools.list_ports import comports  # only where somebody chooses a port

    return {port.device: "" if port.description in (None, "n/a") else port.description for port in sorted(comports())}
