from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from app.project.model import Action, HeldValue, ScreenChange

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


@pytest.mark.parametrize("source", [None, "run"])
def test_two_turns_by_one_key(good: Draft, source: str | None) -> None:
    once = good.add(ScreenChange(from_=source, key="down", to="scale"))
    assert once.clean()
    broken = once.add(ScreenChange(from_=source, key="down", to="slow"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("screen-changes-conflict", "error", ("screen_change", 5))
    assert broken.change(("screen_change", 5), key="up").clean()


def test_a_turn_of_a_screen_goes_before_one_of_all(good: Draft) -> None:
    assert good.add(ScreenChange(from_="run", key="right", to="slow")).clean()


def test_a_turn_to_the_same_screen(good: Draft) -> None:
    broken = good.add(ScreenChange(from_="run", key="down", to="run"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == (
        "screen-change-to-itself",
        "warning",
        ("screen_change", 4),
    )
    assert broken.change(("screen_change", 4), to="slow").clean()


def test_one_key_that_sets_and_clears(good: Draft) -> None:
    broken = good.add(Action(from_="run", key="start", do="clear", signal="run"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("actions-conflict", "error", ("action", 4))
    assert broken.change(("action", 4), key="down").clean()


def test_one_key_that_does_the_same_twice(good: Draft) -> None:
    finding = good.add(Action(from_="run", key="start", do="set", signal="run")).only()
    assert (finding.rule, finding.severity) == ("actions-conflict", "warning")


def test_one_key_that_writes_a_word_and_a_bit_of_it(good: Draft) -> None:
    broken = good.add(Action(key="stop", do="write", signal="command", value=Decimal(0)))
    finding = broken.only()
    assert (finding.rule, finding.place) == ("actions-conflict", ("action", 4))


def test_one_key_that_does_two_things_is_fine(good: Draft) -> None:
    assert good.add(Action(key="start", do="set", signal="lamp"), Action(key="stop", do="clear", signal="lamp")).clean()


def test_one_key_that_does_different_things_on_different_screens_is_fine(good: Draft) -> None:
    jogging = [action for action in good.project.actions if action.key == "jog"]
    assert len({action.from_ for action in jogging}) == 2
    assert good.clean()


@pytest.mark.parametrize("source", [None, "slow"])
def test_a_momentary_key_that_turns_the_screen(good: Draft, source: str | None) -> None:
    broken = good.add(ScreenChange(from_=source, key="jog", to="run"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("momentary-left-behind", "error", ("action", 2))
    assert broken.change(("screen_change", 4), key="up").clean()
    assert broken.change(("screen_change", 4), from_="scale").clean()


def test_a_begin_key_that_turns_the_screen(good: Draft) -> None:
    broken = good.add(ScreenChange(from_="slow", key="enter", to="run"))
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("begin-key-taken", "error")
    assert finding.place == good.place("screen", "slow")
    assert broken.add(Action(from_="slow", key="down", do="begin-entry")).clean()
    assert broken.change(("screen_change", 4), from_="fault").clean()


def test_a_begin_key_that_acts(good: Draft) -> None:
    speed = HeldValue(from_="slow speed")
    broken = good.add(Action(from_="slow", key="enter", do="write", signal="speed set", value=speed))
    finding = broken.only()
    assert (finding.rule, finding.place) == ("begin-key-taken", good.place("screen", "slow"))


@pytest.mark.parametrize(("source", "signal"), [("fault", None), ("run", "slow speed"), (None, "weight")])
def test_beginning_an_entry_that_is_not_there(good: Draft, source: str | None, signal: str | None) -> None:
    broken = good.add(Action(from_=source, key="down", do="begin-entry", signal=signal))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("nothing-to-enter", "warning", ("action", 4))
    assert broken.change(("action", 4), from_="slow", signal="slow speed").clean()


def test_an_entry_that_begins_on_the_screen_that_the_key_turns_to(good: Draft) -> None:
    turned = good.add(ScreenChange(from_="fault", key="down", to="slow"))
    assert turned.add(Action(from_="fault", key="down", do="begin-entry", signal="slow speed")).clean()


def test_keys_that_do_nothing_on_any_screen(good: Draft) -> None:
    keys = good.project.panel.keys
    broken = good.panel(keys=(*keys, "F7", "F8"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("key-unused", "note", ("panel", "keys"))
    assert "'F7', 'F8'" in finding.message
    assert broken.add(ScreenChange(from_="run", key="F7", to="slow"), ScreenChange(key="F8", to="slow")).clean()


def test_no_key_is_said_to_do_nothing_before_any_does_something(empty: Draft) -> None:
    assert all(finding.rule != "key-unused" for finding in empty.panel(keys=("F7",)).all())
