"""Typed words and the names they fit."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from widgets.kit.fuzzy_match import Fit, best_first, fit

NAMES = ["Place a field", "Delete the field", "Save", "Save as", "Undo: Type text", "L\u00f6schen", "Gr\u00f6\u00dfe"]


def best(typed: str) -> list[str]:
    return best_first(typed, NAMES, lambda name: name, lambda _name: "Menu Ctrl+X")


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
    assert fit("menu", "Save", "Menu") is Fit.BESIDE


def test_the_name_itself_is_first_then_beginnings_then_words_then_parts_then_places() -> None:
    signals = {
        "heat speed": "pump holding 5 float32",
        "speed reference": "pump holding 6 float32",
        "set speed at": "",
        "at speed limit": "",
        "At  Speed": "bit 10 of status",
        "plate speeds": "",
        "flow": "at pump speed 1",
    }
    found = best_first("at speed", signals, lambda name: name, lambda name: signals[name])
    assert found == [
        "At  Speed",
        "at speed limit",
        "set speed at",
        "heat speed",
        "plate speeds",
        "speed reference",
        "flow",
    ]


@given(st.sampled_from(NAMES), st.data())
def test_every_part_of_a_name_finds_it(name: str, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(name) - 1))
    end = data.draw(st.integers(start + 1, len(name)))
    assert fit(name[start:end], name) is not None
    assert fit(name, name) is Fit.EXACT


@given(st.text(max_size=40), st.text(max_size=40), st.text(max_size=20))
def test_nothing_typed_is_ever_an_error(typed: str, name: str, beside: str) -> None:
    fit(typed, name, beside)
