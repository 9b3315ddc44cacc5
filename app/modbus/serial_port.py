"""What both ends of a serial line have to know of the port that they open."""

from __future__ import annotations

import os
from typing import Final, Literal, NamedTuple

Parity = Literal["none", "even", "odd"]

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
