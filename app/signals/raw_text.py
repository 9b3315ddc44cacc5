"""Raw numbers as a person reads them: counted, in hexadecimal as manuals print them (9000h), or bit by bit."""

from __future__ import annotations

import enum
import struct
from typing import Final

from app.language import with_mark
from app.signals.reading import Raw

REGISTER: Final = 16
"""Bits of one register."""


class RawForm(enum.StrEnum):
    """How a raw number is written."""

    DECIMAL = "decimal"
    HEXADECIMAL = "hexadecimal"
    BITS = "bits"


def raw_text(raw: Raw | None, registers: int, form: RawForm = RawForm.DECIMAL) -> str:
    """A raw number of so many registers (0: of none, such as one coil or a held value).

    In decimal a float has the six figures that all of them have. Hexadecimal and bits show the registers, the highest
    first: negative numbers in two's complement, floats as IEEE 754 has them. Texts stay texts; empty for None.
    """
    if raw is None or isinstance(raw, str):
        return raw or ""
    if form is RawForm.DECIMAL or not registers:
        return with_mark(f"{raw:.6g}") if isinstance(raw, float) else str(raw)
    if isinstance(raw, float):
        raw = int.from_bytes(struct.pack(">d" if registers == 4 else ">f", raw), "big")
    raw &= (1 << REGISTER * registers) - 1
    words = [raw >> REGISTER * place & 0xFFFF for place in reversed(range(registers))]
    if form is RawForm.HEXADECIMAL:
        return " ".join(f"{word:04X}" for word in words) + "h"
    return " ".join(f"{word >> nibble & 0xF:04b}" for word in words for nibble in (12, 8, 4, 0))


def widest(registers: int, form: RawForm) -> str:
    """A text as wide as any of `raw_text`, for the width of a column."""
    if form is RawForm.DECIMAL:
        return "-" + "0" * {0: 9, 1: 9, 2: 10, 4: 20}.get(registers, 20)
    return raw_text(0, max(1, min(registers, 4)), form)
