from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest

from app.project.model import Action, Bit, BitSignal, Condition, Field, RegisterSignal, Screen, ScreenChange

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


@pytest.mark.parametrize("do", ["clear", "toggle"])
def test_an_action_on_what_may_not_be_written(good: Draft, do: Any) -> None:
    broken = good.add(Action(key="down", do=do, signal="fault"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("action-refused", "error", ("action", 4))
    assert broken.change(("action", 4), signal="lamp").clean()


@pytest.mark.parametrize(("value", "word"), [(60, "above"), (4, "below")])
def test_a_value_outside_the_limits(good: Draft, value: int, word: str) -> None:
    broken = good.add(Action(key="down", do="write", signal="speed set", value=Decimal(value)))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("action-refused", "error", ("action", 4))
    assert word in finding.message
    assert broken.change(("action", 4), value=40).clean()


def test_setting_what_has_limits_above_one(good: Draft) -> None:
    finding = good.add(Action(key="down", do="clear", signal="slow speed")).only()
    assert (finding.rule, finding.place) == ("action-refused", ("action", 4))


def test_a_held_value_that_its_target_refuses(good: Draft) -> None:
    broken = good.signal("slow speed", limits=(3, 20))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("held-value-refused", "warning", ("action", 3))
    assert broken.signal("speed set", limits=(3, 50)).clean()


# Start and stop -------------------------------------------------------------------------------------------------------


def test_a_start_without_a_stop(good: Draft) -> None:
    broken = good.without(("action", 1)).without(("action", 1))
    assert {found.rule for found in broken.all()} == {"start-without-stop", "key-unused"}
    finding = broken.only_of("start-without-stop")
    assert (finding.rule, finding.severity, finding.place) == ("start-without-stop", "warning", ("action", 0))
    assert "'start'" in finding.message
    assert broken.add(Action(key="stop", do="clear", signal="run")).clean()


@pytest.mark.parametrize(
    "stop",
    [
        {"do": "clear", "signal": "run"},
        {"do": "toggle", "signal": "run"},
        {"do": "write", "signal": "run", "value": 0},
        {"do": "write", "signal": "command", "value": 0},
        {"do": "write", "signal": "command", "value": 4},  # a quick stop, with the run bit clear
        {"do": "clear", "signal": "command"},
        {"do": "clear", "signal": "run again"},
    ],
)
def test_what_is_a_stop(good: Draft, stop: dict[str, Any]) -> None:
    twin = BitSignal(name="run again", bit=Bit(of="command", number=4), write=True)
    draft = good.without(("action", 1)).without(("action", 1)).add(twin)
    draft = draft.add_field("slow", Field(at=(1, 0), width=1, signal="run again"))
    assert draft.add(Action(key="stop", **stop, stops=True)).clean()


@pytest.mark.parametrize(
    "no_stop",
    [
        {"key": "stop", "do": "write", "signal": "run", "value": 1},
        {"key": "stop", "do": "write", "signal": "command", "value": 20},
        {"when": Condition(signal="fault"), "do": "clear", "signal": "run"},
        {"key": "stop", "do": "clear", "signal": "lamp"},
        {"key": "stop", "do": "momentary", "signal": "run"},
    ],
)
def test_what_is_no_stop(good: Draft, no_stop: dict[str, Any]) -> None:
    draft = good.without(("action", 1)).without(("action", 1))
    rules = {(finding.rule, finding.place) for finding in draft.add(Action(**no_stop)).all()}
    assert ("start-without-stop", ("action", 0)) in rules


def test_a_toggle_brings_its_own_stop(good: Draft) -> None:
    draft = good.without(("action", 0)).without(("action", 0)).without(("action", 0))
    draft = draft.panel(keys=tuple(key for key in good.project.panel.keys if key != "stop"))
    assert draft.add(Action(key="start", do="toggle", signal="run")).clean()


def test_a_set_point_is_no_start(good: Draft) -> None:
    assert good.add(Action(key="down", do="write", signal="speed set", value=Decimal(50))).clean()


def test_a_command_by_numbers(good: Draft) -> None:
    mode = RegisterSignal(name="mode", follower="scale", number=40_001, write=True, texts={"1": "run", "2": "stop"})
    draft = good.add(mode).add(Action(key="up", do="write", signal="mode", value=Decimal(1)))
    finding = draft.only()
    assert (finding.rule, finding.place) == ("start-without-stop", ("action", 4))
    assert draft.add(Action(key="down", do="write", signal="mode", value=Decimal(2))).clean()


def test_a_start_on_a_screen_without_the_stop(good: Draft) -> None:
    broken = good.change(("action", 1), from_="run").without(("action", 2))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("stop-out-of-reach", "warning", ("action", 0))
    assert "'fault'" in finding.message
    assert broken.change(("action", 1), from_=None).clean()


def test_a_stop_on_the_screen_of_the_start_only(good: Draft) -> None:
    broken = good.change(("action", 1), from_="run").change(("action", 0), from_="run").without(("action", 2))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("stop-out-of-reach", "note", ("action", 0))
    assert "'slow'" in finding.message


def test_a_stop_key_that_serves_in_entry(good: Draft) -> None:
    broken = good.change(("action", 1), key="escape").without(("action", 2))
    assert {found.rule for found in broken.all()} == {"stop-lost-in-entry", "key-unused"}
    finding = broken.only_of("stop-lost-in-entry")
    assert (finding.rule, finding.severity, finding.place) == ("stop-lost-in-entry", "warning", ("action", 0))
    assert "'escape'" in finding.message
    assert broken.change(("action", 1), key="stop").clean()
    assert broken.add(Action(key="stop", do="clear", signal="run")).clean()


# Momentary actions ----------------------------------------------------------------------------------------------------


def test_a_momentary_action_on_a_follower_that_does_not_watch_the_line(good: Draft) -> None:
    broken = good.change(("follower", 0), communication_timeout_ms=0)
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("momentary-without-time-out", "warning", ("action", 2))
    assert "'belt'" in finding.message
    assert broken.change(("follower", 0), communication_timeout_ms=1000).clean()


def test_a_momentary_action_on_a_held_value_needs_no_time_out(good: Draft) -> None:
    draft = good.signal("slow speed", limits=(0, 20)).signal("speed set", limits=(0, 50))
    assert draft.add(Action(from_="run", key="jog", do="momentary", signal="slow speed")).clean()


# Conditions -----------------------------------------------------------------------------------------------------------


def test_a_condition_on_a_text(good: Draft) -> None:
    broken = good.field("run", 1, blink=Condition(signal="batch"))
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("condition-without-number", "error")
    assert finding.place == (*good.place("screen", "run"), "field", 1)
    assert broken.field("run", 1, blink=Condition(signal="fault")).clean()


@pytest.mark.parametrize(
    ("is_", "value", "word", "fixed"),
    [
        ("above", Decimal("163.84"), "never", Decimal("163.8")),  # int16: -163.84 to 163.835 Hz
        ("above", -200, "always", 0),
        ("below", Decimal("-163.84"), "never", Decimal("-163.8")),
        ("below", 200, "always", 0),
        ("equal", 200, "never", 0),
    ],
)
def test_a_condition_that_is_settled(good: Draft, is_: Any, value: Any, word: str, fixed: Any) -> None:
    condition = Condition(signal="frequency", is_=is_, value=value)
    broken = good.add(Screen(name="fast"), ScreenChange(when=condition, to="fast"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("condition-settled", "warning", ("screen_change", 4))
    assert f"is {word} true" in finding.message
    assert broken.change(("screen_change", 4), when=condition.replace(value=fixed)).clean()


def test_a_held_value_that_is_always_set(good: Draft) -> None:
    broken = good.field("run", 1, blink=Condition(signal="slow speed"))
    finding = broken.only()
    assert (finding.rule, finding.place) == ("condition-settled", (*good.place("screen", "run"), "field", 1))
    assert (
        broken.signal("slow speed", limits=(0, 20))
        .field("run", 1, blink=Condition(signal="run"))
        .only_of("held-value-refused")
    )


def test_a_float_beyond_its_limits_may_come(good: Draft) -> None:
    assert good.field("run", 1, blink=Condition(signal="power", is_="above", value=Decimal(20))).clean()
