"""Trials as values: what a step may say, and rows put into their cases."""

from __future__ import annotations

from decimal import Decimal

import pytest
from pydantic import ValidationError

from app.trial.script import (
    Case,
    EnterStep,
    Expectation,
    ExpectStep,
    KeyStep,
    OrderStep,
    Trial,
    WaitStep,
    fill,
    kind_of_step,
)


@pytest.mark.parametrize(
    "keys",
    [
        {},
        {"screen": "run", "signal": "level", "value": Decimal(1)},
        {"row": 1},
        {"row": 1, "text": "a", "like": "a*"},
        {"text": "a"},
        {"signal": "level"},
        {"signal": "level", "value": Decimal(1), "above": Decimal(0)},
        {"signal": "level", "above": Decimal(0), "tolerance": Decimal(1)},
        {"screen": "run", "value": Decimal(1)},
        {"screen": "run", "quality": "good"},
        {"alarm": "hot"},
        {"screen": "run", "state": "NORM"},
        {"event": "never heard of"},
        {"screen": "run", "about": "level"},
        {"signal": "level", "value": Decimal(1), "tolerance": "a lot"},
    ],
    ids=str,
)
def test_an_expectation_is_about_one_thing_and_says_what(keys: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        Expectation(**keys)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "keys",
    [
        {"screen": "run"},
        {"screen": "run", "row": 2, "like": "*"},
        {"signal": "level", "value": Decimal(1), "tolerance": "1.5%"},
        {"signal": "level", "above": Decimal(1), "below": Decimal(2)},
        {"signal": "level", "quality": ("stale", "none")},
        {"event": "written", "about": "level"},
        {"alarm": "hot", "state": "UNACK"},
    ],
    ids=str,
)
def test_each_kind_of_expectation_can_be_said(keys: dict[str, object]) -> None:
    assert Expectation(**keys)  # type: ignore[arg-type]


def test_a_step_is_told_by_the_first_of_its_keys() -> None:
    assert kind_of_step({"expect": {}, "remark": "x"}) == "expect"
    assert kind_of_step({"nothing": 1}) == ""
    assert kind_of_step(KeyStep(key="up")) == "key"


def test_rows_are_put_into_every_text_and_a_lone_placeholder_is_the_value_itself() -> None:
    case = Case(
        name="{mode} shows {code}",
        each=({"mode": "fill", "code": Decimal(1)}, {"mode": "drain", "code": Decimal("3.5")}),
        steps=(
            OrderStep(order="tank.mode={code}"),
            EnterStep(enter="mode", value="{code}"),
            ExpectStep(expect=Expectation(row=1, like="*{mode}*")),
        ),
    )
    assert case.holes == {"mode", "code"}
    first, second = case.rows()
    assert (first.name, first.steps[0].order) == ("fill shows 1", "tank.mode=1")  # type: ignore[union-attr]
    assert second.steps[1].value == Decimal("3.5")  # type: ignore[union-attr]
    assert second.steps[2].expect.like == "*drain*"  # type: ignore[union-attr]
    assert Trial(cases=(case,)).expanded == (first, second)


def test_a_row_that_does_not_fit_is_refused() -> None:
    case = Case(name="it", each=({"v": "much"},), steps=(EnterStep(enter="level", value="{v}"),))
    with pytest.raises(ValidationError):
        list(case.rows())


def test_what_no_row_names_stays_as_it_is_written() -> None:
    assert fill("{a} and {b}", {"a": Decimal(2)}) == "2 and {b}"


def test_a_case_is_for_one_side_or_both() -> None:
    sides = {
        on: [Case(name="it", on=on).is_on(simulated=simulated) for simulated in (True, False)]
        for on in ("simulated", "device", "both")
    }
    assert sides == {"simulated": [True, False], "device": [False, True], "both": [True, True]}


def test_times_are_not_negative_and_end_with_the_day() -> None:
    assert WaitStep(wait=Decimal(86_400))
    for seconds in (-1, 86_401):
        with pytest.raises(ValidationError):
            WaitStep(wait=Decimal(seconds))
