from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.checks import check
from app.project.model import Action, HeldValue, RegisterSignal, Screen, ScreenChange

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


def test_a_field_of_no_signal(good: Draft) -> None:
    broken = good.field("run", 1, signal="frequenzy")
    finding = broken.only()
    assert finding.rule == "dangling-name"
    assert finding.severity == "error"
    assert finding.place == ("screen", 0, "field", 1, "signal")
    assert "frequenzy" in finding.message
    assert "'frequency'" in finding.hint
    assert broken.field("run", 1, signal="frequency").clean()


def test_a_turn_to_no_screen(good: Draft) -> None:
    finding = good.add(ScreenChange(from_="run", key="down", to="nowhere")).only()
    assert (finding.rule, finding.place) == ("dangling-name", ("screen_change", 4, "to"))
    assert good.add(ScreenChange(from_="run", key="down", to="scale")).clean()


def test_an_action_by_a_key_that_the_panel_has_not(good: Draft) -> None:
    finding = good.add(Action(key="stopp", do="clear", signal="run")).only()
    assert (finding.rule, finding.place) == ("dangling-name", ("action", 4, "key"))
    assert "'stop'" in finding.hint


def test_a_value_from_what_is_no_held_value(good: Draft) -> None:
    held = HeldValue(from_="weight")
    finding = good.change(("action", 3), value=held).only_of("dangling-name")
    assert finding.place == ("action", 3, "value", "from")


def test_a_start_screen_that_is_not_there(good: Draft) -> None:
    findings = check(good.panel(start="begin").project)
    assert [(finding.rule, finding.place) for finding in findings if finding.severity == "error"] == [
        ("dangling-name", ("panel", "start"))
    ]


def test_two_signals_of_one_name(good: Draft) -> None:
    twin = RegisterSignal(name="power", follower="scale", table="input", number=30031)
    finding = good.add(twin).only()
    assert (finding.rule, finding.severity, finding.place) == ("name-clash", "error", ("signal", 12))
    assert good.add(twin.replace(name="power 2")).only().rule == "unused"


@pytest.mark.parametrize("name", ["next", "previous"])
def test_a_screen_called_like_a_neighbour(good: Draft, name: str) -> None:
    finding = good.add(Screen(name=name)).only()
    assert (finding.rule, finding.place) == ("name-clash", ("screen", 4))
    assert good.add(Screen(name="last")).clean()


def test_a_key_listed_twice(good: Draft) -> None:
    keys = good.project.panel.keys
    finding = good.panel(keys=(*keys, "stop")).only()
    assert (finding.rule, finding.place) == ("name-clash", ("panel", "keys", 9))
    assert good.panel(keys=(*keys, "help")).only().rule == "key-unused"
