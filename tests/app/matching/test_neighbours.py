"""Neighbours side by side, and the order of words by what a counter and a float do."""

from __future__ import annotations

import random

import pytest

from app.matching.neighbours import likely_orders, neighbours
from app.matching.reading_ways import ORDERS, WAYS, RegisterWords, Way
from app.signals.encoding import EncodingName, encode
from app.signals.order import WordOrder


def at(address: int, words: tuple[int, ...]) -> RegisterWords:
    return {("holding", address + step): word for step, word in enumerate(words)}


def test_neighbours_show_the_register_one_off() -> None:
    history = [at(99, (0, 412, 7, 0)), at(99, (0, 833, 7, 0))]
    found = {(each.address, each.way): each.raws for each in neighbours(history, "holding", 101)}
    assert found[100, Way("uint16")] == (412, 833)
    assert found[101, Way("uint16")] == (7, 7)
    assert found[102, Way("uint16", byte_order="low-first")] == (0, 0)


def test_neighbours_leave_out_what_is_not_there() -> None:
    found = neighbours([at(0, (0x00A1, 0))], "holding", 0)
    assert {each.address for each in found} == {0, 1}
    assert ("bcd16", 0) not in {
        (each.way.encoding, each.address) for each in found if each.way.byte_order == "high-first"
    }
    assert len(WAYS) == 3 * 2 + 4 * 4 + 3 * 4


@pytest.mark.parametrize("word_order", ORDERS)
@pytest.mark.parametrize("byte_order", ORDERS)
@pytest.mark.parametrize(
    ("encoding", "numbers"),
    [
        ("uint32", [65_000 + 120 * step for step in range(8)]),
        ("uint64", [5_000_000_000 + 3 * step for step in range(5)]),
        ("int32", [-70_000 + 9 * step for step in range(5)]),
        ("float32", [41.65, 41.7, 41.62, 41.68]),
        ("float64", [400.2, 399.8, 401.1]),
    ],
)
def test_the_order_is_clear_from_what_changes(
    encoding: EncodingName, numbers: list[float], word_order: WordOrder, byte_order: WordOrder
) -> None:
    history = [at(40, encode(encoding, number, word_order, byte_order)) for number in numbers]
    first, *others = likely_orders(history, "holding", 40, encoding)
    assert (first.word_order, first.byte_order, first.clear) == (word_order, byte_order, True)
    assert not any(other.clear for other in others)


def test_a_wrong_order_is_never_clear() -> None:
    chance = random.Random(5)
    for _ in range(400):
        word_order, byte_order = chance.choice(ORDERS), chance.choice(ORDERS)
        start, step = chance.randint(0, 200_000), chance.choice((1, 3, 40, 700))
        history = [
            at(7, encode("uint32", start + step * n, word_order, byte_order)) for n in range(chance.randint(1, 6))
        ]
        for order in likely_orders(history, "holding", 7, "uint32"):
            assert not order.clear or (order.word_order, order.byte_order) == (word_order, byte_order)


def test_what_stands_still_tells_no_order() -> None:
    first, *_ = likely_orders([at(7, (5, 0))] * 3, "holding", 7, "uint32")
    assert not first.clear
    assert "again" in first.evidence
    assert likely_orders([at(7, (5,))], "holding", 7, "uint16") == ()
    assert likely_orders([{}], "holding", 7, "uint32") == ()
