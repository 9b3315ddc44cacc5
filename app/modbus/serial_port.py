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
