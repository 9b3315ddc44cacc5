from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.project.model import Condition, Screen, ScreenChange

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


@pytest.fixture
def branched(good: Draft) -> Draft:
    """The good project with its ring replaced by single screen changes, and the idle one gone."""
    draft = good
    for _ in range(2):
        draft = draft.without(("screen_change", 0))
    draft = draft.without(("screen_change", 1))
    for source, key, target in (
        ("run", "right", "scale"),
        ("scale", "right", "slow"),
        ("slow", "left", "run"),
        ("scale", "left", "run"),
    ):
        draft = draft.add(ScreenChange(from_=source, key=key, to=target))
    assert draft.clean()
    return draft


def test_a_screen_that_nothing_leads_to(branched: Draft) -> None:
    broken = branched.add(Screen(name="service"), ScreenChange(from_="service", key="left", to="run"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("unreachable-screen", "warning", ("screen", 4))
    assert broken.add(ScreenChange(from_="slow", key="right", to="service")).clean()
    assert broken.add(ScreenChange(when=Condition(signal="lamp"), to="service")).clean()


def test_a_screen_without_a_way_back(branched: Draft) -> None:
    broken = branched.without(("screen_change", 3))
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("dead-end", "warning")
    assert finding.place == branched.place("screen", "slow")
    assert broken.add(ScreenChange(key="escape", to="run")).clean()
    assert broken.add(ScreenChange(idle_s=60, to="run")).clean()
    assert broken.add(ScreenChange(from_="slow", key="left", to="scale")).clean()


def test_two_screens_that_lead_only_to_each_other(branched: Draft) -> None:
    broken = branched.add(
        Screen(name="service"),
        ScreenChange(from_="slow", key="right", to="service"),
        ScreenChange(from_="service", key="left", to="slow"),
    )
    assert broken.clean()
    found = broken.without(("screen_change", 3)).only_all("dead-end")
    assert [finding.place for finding in found] == [("screen", 2), ("screen", 4)]


def test_an_override_is_no_dead_end(branched: Draft) -> None:
    assert "fault" in branched.project.screen_named
    assert branched.clean()


def test_an_override_behind_one_of_the_same_condition(good: Draft) -> None:
    broken = good.add(Screen(name="help"), ScreenChange(when=Condition(signal="fault"), to="help"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("override-never-shown", "warning", ("screen_change", 4))
    assert broken.change(("screen_change", 4), when=Condition(signal="fault", is_="clear")).clean()


def test_two_idle_turns_from_one_screen(good: Draft) -> None:
    broken = good.add(
        ScreenChange(from_="scale", idle_s=30, to="slow"), ScreenChange(from_="scale", idle_s=60, to="run")
    )
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == (
        "idle-screen-changes-conflict",
        "warning",
        ("screen_change", 5),
    )
    assert broken.change(("screen_change", 5), from_="slow").clean()
    sooner = broken.change(("screen_change", 5), idle_s=10).only()
    assert sooner.place == ("screen_change", 4)


def test_idle_turns_that_lead_on_from_each_other_are_fine(good: Draft) -> None:
    assert good.add(ScreenChange(idle_s=60, to="slow")).clean()
