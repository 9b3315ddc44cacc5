"""Register numbers of manuals: what they lead to, what they refuse and with which hint."""

from __future__ import annotations

from typing import Literal, get_args

import pytest

from app.signals.numbering import NotARegister, Numbering, Table, documented_number, wire_address


@pytest.mark.parametrize(
    ("numbering", "table", "number", "address"),
    [
        ("from-0", "holding", 0, 0),
        ("from-0", "input", 65_535, 65_535),
        ("from-1", "holding", 1, 0),
        ("from-1", "coil", 65_536, 65_535),
        ("prefixed", "holding", 40_001, 0),
        ("prefixed", "holding", 49_999, 9_998),
        ("prefixed", "holding", 400_001, 0),
        ("prefixed", "holding", 410_000, 9_999),
        ("prefixed", "holding", 465_536, 65_535),
        ("prefixed", "input", 30_401, 400),
        ("prefixed", "input", 365_536, 65_535),
        ("prefixed", "discrete", 10_001, 0),
        ("prefixed", "discrete", 100_001, 0),
        ("prefixed", "discrete", 165_536, 65_535),
        ("prefixed", "coil", 1, 0),
        ("prefixed", "coil", 9_999, 9_998),
        ("prefixed", "coil", 20_000, 19_999),
        ("prefixed", "coil", 65_536, 65_535),
    ],
)
def test_numbers_lead_to_addresses(numbering: Numbering, table: Table, number: int, address: int) -> None:
    assert wire_address(numbering, table, number) == address


@pytest.mark.parametrize(
    ("numbering", "table", "number", "message"),
    [
        ("from-0", "holding", 65_536, "not in 0..65535"),
        ("from-0", "holding", -1, "not in 0..65535"),
        ("from-0", "holding", 400_001, "looks like number 1 of the table 'holding': is the numbering 'prefixed'"),
        ("from-1", "holding", 0, "not in 1..65536; if the manual has a register 0, the numbering is 'from-0'"),
        ("from-1", "input", 65_537, "not in 1..65536"),
        ("from-1", "input", 365_536, "looks like number 65536 of the table 'input'"),
        (
            "prefixed",
            "holding",
            30_001,
            "prefix of the table 'input' \\(number 1\\), but the signal has table 'holding'",
        ),
        (
            "prefixed",
            "input",
            40_310,
            "prefix of the table 'holding' \\(number 310\\), but the signal has table 'input'",
        ),
        ("prefixed", "holding", 310, "40001..49999 or 400001..465536"),
        ("prefixed", "holding", 40_000, "not have the prefix of the table 'holding'"),
        ("prefixed", "holding", 400_000, "not have the prefix of the table 'holding'"),
        ("prefixed", "holding", 465_537, "not have the prefix of the table 'holding'"),
        ("prefixed", "holding", 20_001, "not have the prefix of the table 'holding'"),
        ("prefixed", "discrete", 0, "10001..19999 or 100001..165536"),
        ("prefixed", "coil", 0, "prefixed coils are 1..9999"),
        ("prefixed", "coil", 65_537, "prefixed coils are 1..9999"),
        ("prefixed", "coil", 40_001, "prefix of the table 'holding' \\(number 1\\), but the signal has table 'coil'"),
        ("prefixed", "coil", 10_005, "the table 'discrete' \\(number 5\\)"),
    ],
)
def test_what_names_no_register_is_refused_with_a_hint(
    numbering: Numbering, table: Table, number: int, message: str
) -> None:
    with pytest.raises(NotARegister, match=message):
        wire_address(numbering, table, number)


@pytest.mark.parametrize(
    ("table", "address", "digits", "number"),
    [
        ("holding", 0, 5, 40_001),
        ("holding", 0, 6, 400_001),
        ("holding", 9_998, 5, 49_999),
        ("holding", 9_999, 5, 410_000),
        ("input", 65_535, 5, 365_536),
        ("discrete", 4, 5, 10_005),
        ("coil", 4, 5, 5),
        ("coil", 4, 6, 5),
    ],
)
def test_addresses_lead_back_to_prefixed_numbers(
    table: Table, address: int, digits: Literal[5, 6], number: int
) -> None:
    assert documented_number("prefixed", table, address, digits) == number


@pytest.mark.parametrize("address", [-1, 65_536])
def test_there_is_no_number_for_an_address_outside(address: int) -> None:
    with pytest.raises(NotARegister, match=r"not in 0\.\.65535"):
        documented_number("from-1", "holding", address)


@pytest.mark.parametrize("table", get_args(Table))
@pytest.mark.parametrize("numbering", get_args(Numbering))
@pytest.mark.parametrize("digits", [5, 6])
def test_all_addresses_have_a_number_that_leads_back(numbering: Numbering, table: Table, digits: Literal[5, 6]) -> None:
    unnumbered = 0
    for address in range(65_536):
        try:
            number = documented_number(numbering, table, address, digits)
        except NotARegister:
            unnumbered += 1
            continue
        assert wire_address(numbering, table, number) == address
    # coils whose numbers read as five digits of another table: 10001..19999, 30001..39999 and 40001..49999
    assert unnumbered == (3 * 9_999 if (numbering, table) == ("prefixed", "coil") else 0)
