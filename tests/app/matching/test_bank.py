"""Arrays of registers decode as single registers do, and mirrors are left out."""

from __future__ import annotations

import math
import random

from app.matching.bank import banks, decoded
from app.matching.reading_ways import WAYS, RegisterWords
from app.signals.numbering import Table


def words(chance: random.Random, count: int = 120, table: Table = "holding") -> dict[tuple[Table, int], int]:
    """With gaps, nibbles that are decimal, exponents that are none."""
    found: dict[tuple[Table, int], int] = {}
    for at in range(count):
        if chance.random() < 0.95:
            decimal = int(str(chance.randint(0, 9999)), 16)
            found[table, at] = chance.choice((chance.randrange(65_536), decimal, decimal, 0, 0xFFFF, 0x7F80, 0x7FF0))
    return found


def test_every_way_decodes_as_a_single_value_does() -> None:
    """Against `app.signals.encoding`, which is checked against other libraries."""
    chance = random.Random(3)
    moments: list[RegisterWords] = [words(chance), words(chance)]
    (bank,) = banks(moments)
    seen = 0
    for way, columns, raws in decoded(bank, moved=False):
        expected = [
            at for at in range(120) if all(("holding", at + n) in each for each in moments for n in range(way.width))
        ]
        assert bank.addresses[columns].tolist() == expected
        for row, moment in zip(raws, moments, strict=True):
            for at, raw in zip(expected, row.tolist(), strict=True):
                single = way.raw(moment, "holding", at)
                assert math.isnan(raw) if single is None else raw == float(single)
                seen += single is not None
    assert seen > 34 * 100
    assert {way for way, _, _ in decoded(bank, moved=False)} == set(WAYS)


def test_only_numbers_of_which_some_register_changed() -> None:
    first = {("holding", at): 5 for at in range(10)}
    second = {**first, ("holding", 4): 6}
    (bank,) = banks([first, second])  # type: ignore[list-item]
    for way, columns, _ in decoded(bank, moved=True):
        assert bank.addresses[columns].tolist() == list(range(5 - way.width, 5))


def test_input_registers_that_are_the_holding_registers_again_are_left_out() -> None:
    chance = random.Random(8)
    holding = words(chance)
    mirror: RegisterWords = {**holding, **{("input", at): word for (_, at), word in holding.items()}}
    assert [bank.table for bank in banks([mirror])] == ["holding"]
    other: RegisterWords = {**holding, **words(chance, table="input")}
    assert [bank.table for bank in banks([other])] == ["holding", "input"]
    assert list(banks([{}])) == []
