"""Entries by the keys of a panel: by step, by digit, with a key held, of choices; and what must not be reached."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.panel.state import Mode
from app.project_file.files import load, parse
from app.trial.entering import Enterer
from app.trial.stand import RehearsedStand
from projects import demo_path
from tests.trial_panel import SMALL, small


def at_settings(by: str = "step") -> RehearsedStand:
    stand = RehearsedStand(small(by))
    stand.begin()
    stand.key_down("right")
    stand.tick()
    stand.key_up("right")
    return stand


def value(stand: RehearsedStand, signal: str) -> Fraction:
    stand.tick()
    found = stand.readings()[signal].value
    assert isinstance(found, Fraction)
    return found


@pytest.mark.parametrize("by", ["step", "digit"])
@pytest.mark.parametrize("wanted", ["0", "42.5", "43", "57.5", "100"])
def test_a_value_is_entered_by_step_and_by_digit(by: str, wanted: str) -> None:
    stand = at_settings(by)
    assert Enterer(stand).enter("level", Fraction(wanted)) == ""
    assert value(stand, "level") == Fraction(wanted)
    assert stand.panel.state.mode is Mode.WATCH


@pytest.mark.parametrize("by", ["step", "digit"])
@pytest.mark.parametrize("beyond", ["-0.5", "100.5"])
def test_what_is_beyond_a_limit_is_not_reached_and_the_value_stays(by: str, beyond: str) -> None:
    stand = at_settings(by)
    assert Enterer(stand).enter("level", Fraction(beyond), refused=True) == ""
    assert value(stand, "level") == Fraction("42.5")
    assert "do not lead to" in Enterer(stand).enter("level", Fraction(beyond))
    assert stand.panel.state.mode is Mode.WATCH


def test_a_value_that_must_be_refused_and_is_not_is_told() -> None:
    stand = at_settings()
    assert Enterer(stand).enter("level", Fraction(60), refused=True) == "the panel lets 60.0 be entered"
    assert value(stand, "level") == Fraction("42.5")


def test_a_value_between_two_steps_cannot_be_entered() -> None:
    assert "do not lead to 42.7" in Enterer(at_settings()).enter("level", Fraction("42.7"))


def test_far_away_is_gone_to_with_the_key_held_down_and_arrives_exactly() -> None:
    stand = at_settings()
    enterer = Enterer(stand)
    assert enterer.enter("level", Fraction(99)) == ""
    assert value(stand, "level") == 99
    # 113 steps of 0.5; held down, the key is pressed a few times only.
    presses = sum(int(part.partition(" x ")[2] or 1) for part in enterer.told.split(", "))
    assert presses < 60


def test_choices_are_gone_through_and_an_unknown_one_is_not_found() -> None:
    stand = at_settings()
    assert Enterer(stand).enter("mode", Fraction(3)) == ""
    assert value(stand, "mode") == 3
    assert Enterer(stand).enter("mode", Fraction(2))
    assert Enterer(stand).enter("mode", Fraction(2), refused=True) == ""
    assert value(stand, "mode") == 3


def test_a_held_value_is_entered_as_any_other() -> None:
    stand = at_settings()
    assert Enterer(stand).enter("gain", Fraction(3)) == ""
    assert value(stand, "gain") == 3


def test_where_there_is_no_entry_it_says_so() -> None:
    stand = RehearsedStand(small())
    stand.begin()
    assert Enterer(stand).enter("level", Fraction(50)) == "screen 'run' has no entry field of 'level'"


def test_where_no_key_leads_to_the_field_it_says_so() -> None:
    project = parse(
        SMALL.replace('"up", "down",', '"up",')
        .replace('"left", "right",', '"left", "f3",')
        .replace('key = "right"', 'key = "f3"')
    )
    stand = RehearsedStand(project)
    stand.begin()
    for step in (stand.key_down, stand.key_up):
        step("f3")
    assert "no key begins the entry of 'mode'" in Enterer(stand).enter("mode", Fraction(1))
    assert Enterer(stand).enter("level", Fraction(50)) == ""


def test_what_was_not_read_cannot_be_entered() -> None:
    stand = at_settings()
    stand.order("tank.silent=on")
    assert Enterer(stand).enter("level", Fraction(50))
    assert stand.panel.state.mode is Mode.WATCH


def test_the_widest_entry_of_the_demo_takes_seconds_not_minutes() -> None:
    stand = RehearsedStand(load(demo_path("drying-hall")))
    stand.begin()
    for key in ("right", "right", "right"):
        stand.key_down(key)
        stand.tick()
        stand.key_up(key)
    began = stand.now()
    assert Enterer(stand).enter("fan ramp up", Fraction(300)) == ""
    assert value(stand, "fan ramp up") == 300
    assert stand.now() - began < 30


def test_a_value_that_the_steps_from_here_miss_is_come_to_from_a_limit() -> None:
    stand = at_settings()
    stand.order("tank.level=42.7")
    stand.tick()
    assert Enterer(stand).enter("level", Fraction("99.5")) == ""
    assert "do not lead to 99.7" in Enterer(stand).enter("level", Fraction("99.7"))
