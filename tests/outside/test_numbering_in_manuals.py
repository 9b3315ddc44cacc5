"""Register numbers as the Modbus documents use them.

Source: MODBUS Application Protocol Specification V1.1b3, the examples of sections 6.1 to 6.6 and 6.16 (from memory):
each names registers as a manual does, from 1, and shows the address in the request.
"""

from __future__ import annotations

import pytest

from app.signals.numbering import Table, documented_number, wire_address

EXAMPLES: list[tuple[Table, int, int]] = [
    ("coil", 20, 0x0013),  # 6.1 read coils 20 to 38: 01 00 13 00 13
    ("discrete", 197, 0x00C4),  # 6.2 read discrete inputs 197 to 218: 02 00 C4 00 16
    ("holding", 108, 0x006B),  # 6.3 read holding registers 108 to 110: 03 00 6B 00 03
    ("input", 9, 0x0008),  # 6.4 read input register 9: 04 00 08 00 01
    ("coil", 173, 0x00AC),  # 6.5 write coil 173: 05 00 AC FF 00
    ("holding", 2, 0x0001),  # 6.6 write register 2: 06 00 01 00 03
    ("holding", 5, 0x0004),  # 6.16 mask write register 5: 16 00 04 00 F2 00 25
]


@pytest.mark.parametrize(("table", "number", "address"), EXAMPLES)
def test_numbers_of_the_specification(table: Table, number: int, address: int) -> None:
    assert wire_address("from-1", table, number) == address
    assert documented_number("from-1", table, address) == number
    assert wire_address("from-0", table, address) == address


# The prefixes 0, 1, 3 and 4 of the four tables, five digits or six: common practice, no source.
@pytest.mark.parametrize(("table", "number", "address"), EXAMPLES)
def test_the_same_registers_with_the_prefix_of_their_table(table: Table, number: int, address: int) -> None:
    prefix = {"coil": 0, "discrete": 1, "input": 3, "holding": 4}[table]
    for five_or_six in (10_000, 100_000):
        assert wire_address("prefixed", table, prefix * five_or_six + number) == address
