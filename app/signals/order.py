"""Which end comes first, of the words of a long value and of the bytes of a word."""

from typing import Literal

Order = Literal["high-first", "low-first"]
