"""Cases of one shape folded into one with a row for each: shorter to read, and the very same when it is run."""

from __future__ import annotations

from decimal import Decimal

from app.project_file.files import load
from app.proposing.folding import folded
from app.proposing.propose import propose
from app.trial.script import Case, Expectation, ExpectStep, KeyStep, OrderStep
from projects import demo_path


def case(name: str, code: int, text: str, *, keys: int = 1) -> Case:
    shown = ExpectStep(expect=Expectation(screen="fault", row=2, text=f"Cause {text}"))
    return Case(
        name=f"Text '{name}'", steps=(KeyStep(key="up", times=keys), OrderStep(order=f"pump.trip={code}"), shown)
    )


TRIPS = [
    case("overcurrent", 8976, "overcurrent"),
    case("blocked", 28961, "blocked"),
    case("external", 36864, "external"),
]


def test_what_differs_stands_in_a_row_each_and_what_says_the_same_in_one_column() -> None:
    (whole,) = folded(TRIPS)
    assert whole.name == "Text '{case}'"
    assert whole.each == (
        {"case": "overcurrent", "order": Decimal(8976)},
        {"case": "blocked", "order": Decimal(28961)},
        {"case": "external", "order": Decimal(36864)},
    )
    assert whole.steps[1].order == "pump.trip={order}"  # type: ignore[union-attr]
    assert whole.steps[2].expect.text == "Cause {case}"  # type: ignore[union-attr]


def test_what_is_run_is_the_same() -> None:
    (whole,) = folded(TRIPS)
    assert list(whole.rows()) == TRIPS


def test_two_are_not_worth_a_table() -> None:
    assert folded(TRIPS[:2]) == TRIPS[:2]


def test_cases_of_another_shape_stay_by_themselves() -> None:
    other = case("low", 12832, "low", keys=2)
    assert folded([*TRIPS, other])[1:] == [other]
    assert folded([TRIPS[0], other, TRIPS[1], TRIPS[2]]) == [TRIPS[0], other, TRIPS[1], TRIPS[2]]


def test_texts_that_hold_braces_are_left_as_they_are() -> None:
    braces = [case(f"{{{name}}}", number, name) for number, name in enumerate(("a", "b", "c"))]
    assert folded(braces) == braces


def test_the_trips_of_the_demo_are_a_table() -> None:
    cases = propose(load(demo_path("booster-pump"))).cases
    table = next(case for case in cases if case.name == "Text '{case}' of 'fault code' on 'fault'")
    assert len(table.each) == 7
