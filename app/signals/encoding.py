"""Registers to raw numbers and back."""

from __future__ import annotations

from typing import Literal

EncodingName = Literal[
    "uint16", "int16", "uint32", "int32", "uint64", "int64", "float32", "float64", "bcd16", "bcd32", "string"
]
