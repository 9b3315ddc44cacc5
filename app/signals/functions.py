"""The functions of Modbus that reach registers or bits: MODBUS Application Protocol Specification V1.1b3, section 6."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from app.signals.numbering import Table

TABLE_OF_FUNCTION: Final[Mapping[int, Table]] = MappingProxyType(
    {
        1: "coil",
        2: "discrete",
        3: "holding",
        4: "input",
        5: "coil",
        6: "holding",
        15: "coil",
        16: "holding",
        22: "holding",
        23: "holding",
    }
)
"""The table that each of them reaches."""

READING: Final = frozenset({1, 2, 3, 4})
"""Those that only read."""

WRITING: Final = frozenset({5, 6, 15, 16, 22, 23})
"""Those that change what they reach."""
