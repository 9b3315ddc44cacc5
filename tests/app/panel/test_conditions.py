"""Conditions, judged on good readings only."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from app.panel.conditions import holds, in_words
from app.project.model import Condition
from app.signals.reading import Quality, Reading
from tests.app.panel.operating import exact


def condition(is_: str, value: Any = None) -> Condition:
    return Condition.model_validate(exact({"signal": "x", "is": is_} | ({} if value is None else {"value": value})))


def good(value: Fraction | str) -> Reading:
    return Reading(None, value, Quality.GOOD, "", 0.0)


@pytest.mark.parametrize(
    ("is_", "value", "below", "at", "above"),
    [
        ("above", 4.5, False, False, True),
        ("below", 4.5, True, False, False),
        ("equal", 4.5, False, True, False),
    ],
)
def test_comparisons_are_exact(is_: str, value: float, below: bool, at: bool, above: bool) -> None:
    asked = condition(is_, value)
    hair = Fraction(1, 10**30)
    assert holds(asked, {"x": good(Fraction("4.5") - hair)}) is below
    assert holds(asked, {"x": good(Fraction("4.5"))}) is at
    assert holds(asked, {"x": good(Fraction("4.5") + hair)}) is above


def test_set_is_anything_but_zero() -> None:
    for value in (Fraction(1), Fraction(-3), Fraction(1, 7)):
        assert holds(condition("set"), {"x": good(value)}) is True
        assert holds(condition("clear"), {"x": good(value)}) is False
    assert holds(condition("set"), {"x": good(Fraction(0))}) is False
    assert holds(condition("clear"), {"x": good(Fraction(0))}) is True


@pytest.mark.parametrize("quality", [quality for quality in Quality if quality is not Quality.GOOD])
@pytest.mark.parametrize("is_", ["set", "clear"])
def test_nothing_is_judged_on_a_reading_that_is_not_good(quality: Quality, is_: str) -> None:
    assert holds(condition(is_), {"x": Reading(1, Fraction(1), quality, "why", 0.0)}) is None


def test_a_text_or_a_missing_signal_cannot_be_judged() -> None:
    assert holds(condition("equal", 0), {"x": good("0")}) is None
    assert holds(condition("set"), {}) is None


def test_a_condition_in_words() -> None:
    assert in_words(condition("set")) == "x is set"
    assert in_words(condition("above", 4.5)) == "x is above 4.5"
