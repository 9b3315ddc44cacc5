"""Exchanging words and bytes."""

from __future__ import annotations

import pytest

from app.signals.order import WordOrder, arranged, swapped


def test_a_swapped_word_has_its_bytes_exchanged() -> None:
    assert swapped(0x1234) == 0x3412
    assert swapped(0x00FF) == 0xFF00


@pytest.mark.parametrize(
    ("word_order", "byte_order", "wire"),
    [
        ("high-first", "high-first", [0x0102, 0x0304, 0x0506, 0x0708]),
        ("low-first", "high-first", [0x0708, 0x0506, 0x0304, 0x0102]),
        ("high-first", "low-first", [0x0201, 0x0403, 0x0605, 0x0807]),
        ("low-first", "low-first", [0x0807, 0x0605, 0x0403, 0x0201]),
    ],
)
def test_every_arrangement_leads_there_and_back(word_order: WordOrder, byte_order: WordOrder, wire: list[int]) -> None:
    plain = [0x0102, 0x0304, 0x0506, 0x0708]
    assert list(arranged(plain, word_order, byte_order)) == wire
    assert list(arranged(wire, word_order, byte_order)) == plain
