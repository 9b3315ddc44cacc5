"""The models: what they refuse, what they share."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from pydantic import ValidationError

from app.project.model import (
    Action,
    BitSignal,
    Condition,
    Field,
    HeldSignal,
    HeldValue,
    Panel,
    RegisterSignal,
    Scale,
    Screen,
    ScreenChange,
    SerialLine,
    TcpLine,
)
from tests.builders import project_of


def test_the_form_of_a_signal_follows_from_its_keys() -> None:
    read = project_of(
        signal=[
            {"name": "speed", "follower": "pump", "register": 310},
            {"name": "running", "bit": {"of": "status", "number": 2}},
            {"name": "preset", "held": Decimal("5.0")},
        ]
    )
    assert [type(signal) for signal in read.signals] == [RegisterSignal, BitSignal, HeldSignal]


def test_the_form_of_a_line_follows_from_its_kind() -> None:
    read = project_of(
        line=[
            {"name": "a", "kind": "serial", "device": "COM3"},
            {"name": "b", "kind": "tcp", "host": "panel.example"},
        ]
    )
    assert [type(line) for line in read.lines] == [SerialLine, TcpLine]


def test_an_edited_copy_shares_what_did_not_change() -> None:
    before = project_of(screen=[{"name": "run"}, {"name": "status"}], signal=[{"name": "preset", "held": 5}])
    after = before.replace(title="Booster pump")
    assert after.title == "Booster pump"
    assert before.title == ""
    assert after.screens is before.screens
    assert after.signals[0] is before.signals[0]


def test_an_edited_copy_finds_its_own_parts_by_name() -> None:
    before = project_of(screen=[{"name": "run"}])
    assert set(before.screen_named) == {"run"}
    after = before.replace(screens=(*before.screens, Screen(name="status")))
    assert set(after.screen_named) == {"run", "status"}
    assert set(before.screen_named) == {"run"}


def test_equal_parts_are_equal_whatever_was_looked_up_in_them() -> None:
    one, other = project_of(screen=[{"name": "run"}]), project_of(screen=[{"name": "run"}])
    assert one.screen_named
    assert one == other


def test_of_two_things_with_one_name_the_first_is_found() -> None:
    read = project_of(screen=[{"name": "run", "notes": "first"}, {"name": "run", "notes": "second"}])
    assert read.screen_named["run"].notes == "first"


def test_parts_cannot_be_changed_in_place() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        project_of().title = "other"  # type: ignore[misc]


@pytest.mark.parametrize(
    ("cls", "data", "words"),
    [
        (Panel, {"start": "run", "rows": 0}, "greater than or equal to 1"),
        (Panel, {"start": "run", "rows": True}, "valid integer"),
        (Panel, {"start": "run", "colums": 20}, "Extra inputs"),
        (Scale, {"raw": [5, 5], "value": [0, 50]}, "two raw numbers are equal"),
        (Scale, {"raw": [0, 5], "value": [50, 50]}, "two values are equal"),
        (Scale, {"raw": [0, 5, 6], "value": [0, 50]}, "at most 2 items"),
        (HeldSignal, {"name": "x", "held": 1, "limits": [5, 1]}, "lower limit 5 is above the upper limit 1"),
        (HeldSignal, {"name": " x", "held": 1}, "pattern"),
        (HeldSignal, {"name": "x", "held": Decimal("NaN")}, "finite"),
        (Condition, {"signal": "x", "is": "above"}, "needs a value"),
        (Condition, {"signal": "x", "is": "set", "value": 1}, "has no value"),
        (Field, {"at": [0, 0], "width": 0, "signal": "x"}, "greater than or equal to 1"),
        (ScreenChange, {"to": "run"}, "exactly one of"),
        (ScreenChange, {"to": "run", "key": "up", "idle_s": 5}, "exactly one of"),
        (ScreenChange, {"to": "next", "idle_s": 5}, "is only possible with a key"),
        (ScreenChange, {"to": "run", "from": "a", "when": {"signal": "x"}}, "has no 'from'"),
        (Action, {"do": "set", "signal": "x"}, "exactly one of 'key' and 'when'"),
        (Action, {"do": "momentary", "signal": "x", "when": {"signal": "y"}}, "is only possible with a key"),
        (Action, {"do": "set", "key": "up"}, "needs a signal"),
        (Action, {"do": "write", "key": "up", "signal": "x"}, "'value' is required"),
        (Action, {"do": "set", "key": "up", "signal": "x", "value": 1}, "'value' is required"),
    ],
)
def test_what_cannot_be_meant_is_refused(cls: Any, data: dict[str, Any], words: str) -> None:
    with pytest.raises(ValidationError, match=words):
        cls.model_validate(data)


def test_numbers_are_kept_exactly() -> None:
    held = HeldSignal.model_validate({"name": "x", "held": Decimal("0.1"), "limits": [0, Decimal("50.00")]})
    assert held.held == Decimal("0.1")
    assert held.limits == (Decimal(0), Decimal(50))


def test_a_written_value_is_a_number_or_a_held_value() -> None:
    number = Action.model_validate({"do": "write", "key": "up", "signal": "x", "value": 5})
    held = Action.model_validate({"do": "write", "key": "up", "signal": "x", "value": {"from": "preset"}})
    assert number.value == Decimal(5)
    assert held.value == HeldValue(from_="preset")
