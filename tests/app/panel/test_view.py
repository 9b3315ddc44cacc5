"""What the panel sees beside the readings of the line."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.panel.view import View
from app.signals.reading import NEVER_READ, Quality, Reading
from tests.app.panel.operating import Operator, project, register


@pytest.fixture
def operator() -> Operator:
    return Operator(
        project(
            signal=[
                register("status", 400),
                register("speed", 401),
                {"name": "fault", "bit": {"of": "status", "number": 3}},
                {"name": "preset", "held": 5.5},
            ],
            screen=[{"name": "run"}],
        )
    )


def test_held_values_read_good(operator: Operator) -> None:
    seen = View(operator.project, operator.state.held, {})
    assert seen["preset"].good
    assert seen["preset"].value == Fraction("5.5")


def test_a_bit_has_the_value_and_the_quality_of_its_word(operator: Operator) -> None:
    operator.read("status", 0b1000)
    assert View(operator.project, operator.state.held, operator.readings)["fault"].value == 1
    operator.lose("status")
    bit = View(operator.project, operator.state.held, operator.readings)["fault"]
    assert (bit.value, bit.quality, bit.reason) == (Fraction(1), Quality.STALE, "no answer")


def test_a_bit_that_the_line_reports_is_taken_as_reported(operator: Operator) -> None:
    operator.read("status", 0)
    operator.readings["fault"] = Reading(1, Fraction(1), Quality.GOOD, "", 5.0)
    assert View(operator.project, operator.state.held, operator.readings)["fault"].value == 1


def test_what_nobody_read_is_not_read_yet(operator: Operator) -> None:
    seen = View(operator.project, operator.state.held, {})
    assert seen["speed"] is NEVER_READ
    assert seen["fault"].quality is Quality.NONE
    assert set(seen) == {"status", "speed", "fault", "preset"}
    assert len(seen) == 4
    with pytest.raises(KeyError):
        seen["nobody"]
