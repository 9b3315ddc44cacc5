"""Typed words and the names they fit."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from widgets.matching import cost

NAMES = ["Place a field", "Delete the field", "Save", "Save as", "Undo: Type text", "L\u00f6schen", "Gr\u00f6\u00dfe"]


def best(typed: str) -> list[str]:
    found = [(value, name) for name in NAMES if (value := cost(typed, name, "Menu Ctrl+X")) is not None]
    return [name for _, name in sorted(found, key=lambda each: each[0])]


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("field place", "Place a field"),
        ("FIELD DEL", "Delete the field"),
        ("sav", "Save"),
        ("plfi", "Place a field"),
        ("paf", "Place a field"),
        ("losch", "L\u00f6schen"),
        ("grosse", "Gr\u00f6\u00dfe"),
        ("type text", "Undo: Type text"),
    ],
)
def test_words_in_any_order_beginnings_and_accents(typed: str, first: str) -> None:
    assert best(typed)[0] == first


def test_a_word_that_is_nowhere_fits_nothing() -> None:
    assert best("field xyzzy") == []
    assert best("fp") == [], "beginnings stand in the order of the words"


def test_menu_and_keys_are_found_but_come_behind() -> None:
    assert cost("menu", "Save", "Menu") is not None
    assert cost("save", "Save", "x") < cost("save", "Open", "Save")  # type: ignore[operator]


@given(st.sampled_from(NAMES), st.data())
def test_every_part_of_a_name_finds_it(name: str, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(name) - 1))
    end = data.draw(st.integers(start + 1, len(name)))
    assert cost(name[start:end], name) is not None


@given(st.text(max_size=40), st.text(max_size=40), st.text(max_size=20))
def test_nothing_typed_is_ever_an_error(typed: str, name: str, beside: str) -> None:
    found = cost(typed, name, beside)
    assert found is None or found >= 0
