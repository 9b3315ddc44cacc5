from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest

from app.project.model import Action, EntryKeys, Field, RegisterSignal

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


def test_entry_on_what_may_not_be_written(good: Draft) -> None:
    broken = good.signal("frequency", limits=(0, 50)).field("run", 1, entry=True)
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("entry-not-writable", "error")
    assert finding.place == (*good.place("screen", "run"), "field", 1)
    assert broken.field("run", 1, entry=False).clean()


def test_entry_on_a_text(good: Draft) -> None:
    finding = good.field("scale", 1, entry=True).only()
    assert (finding.rule, finding.place) == ("entry-not-writable", (*good.place("screen", "scale"), "field", 1))


def test_entry_without_limits(good: Draft) -> None:
    broken = good.signal("speed set", limits=None)
    finding = broken.only_of("entry-without-limits")
    assert finding.severity == "error"
    assert finding.place == (*good.place("screen", "run"), "field", 0)


def test_entry_of_a_held_value_without_limits(good: Draft) -> None:
    finding = good.signal("slow speed", limits=None).only()
    assert (finding.rule, finding.place) == ("entry-without-limits", (*good.place("screen", "slow"), "field", 0))


def test_entry_of_a_bit_or_a_choice_needs_no_limits(good: Draft) -> None:
    assert good.signal("lamp", texts={}).field("scale", 2, kind="number").clean()
    mode = RegisterSignal(name="mode", follower="scale", number=40_001, write=True, texts={"0": "a", "1": "b"})
    shown = Field(at=(1, 0), width=5, signal="mode", kind="choice", entry=True)
    finding = good.add(mode).add_field("slow", shown).only()
    assert (finding.rule, finding.severity) == ("choice-without-text", "note")


@pytest.mark.parametrize(
    ("limits", "fits"),
    [
        ((5, 328), (5, Decimal("327.67"))),  # 65535 counts of 0.005 Hz are 327.675 Hz
        ((-1, 50), (0, 50)),
    ],
)
def test_limits_wider_than_the_registers(good: Draft, limits: Any, fits: Any) -> None:
    finding = good.signal("speed set", limits=limits).only()
    assert (finding.rule, finding.severity) == ("limits-too-wide", "error")
    assert finding.place == good.place("signal", "speed set")
    assert good.signal("speed set", limits=fits).clean()


def test_limits_of_what_is_only_shown_are_less_grave(good: Draft) -> None:
    finding = good.signal("weight", limits=(-1, 100)).only()
    assert (finding.rule, finding.severity) == ("limits-too-wide", "warning")
    assert good.signal("weight", limits=(0, 100)).clean()


def test_limits_of_a_single_bit(good: Draft) -> None:
    finding = good.signal("lamp", limits=(0, 2)).only()
    assert (finding.rule, finding.severity) == ("limits-too-wide", "error")


def test_limits_that_a_float_cannot_hold(good: Draft) -> None:
    broken = good.signal("power", limits=(0, Decimal("1e39"))).field("scale", 3, kind="bar", range=(0, 10))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == (
        "limits-too-wide",
        "warning",
        good.place("signal", "power"),
    )
    assert broken.signal("power", limits=(0, Decimal("1e38"))).clean()


def test_a_step_finer_than_a_count(good: Draft) -> None:
    broken = good.signal("speed set", step=Decimal("0.004"), decimals=3).field("run", 0, at=(1, 0), width=7)
    broken = broken.field("run", 1, at=(0, 10)).change(good.place("screen", "run"), text=())
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("step-too-fine", "warning")
    assert finding.place == good.place("signal", "speed set")
    assert "0.005 Hz" in finding.message
    assert broken.signal("speed set", step=Decimal("0.005")).clean()


def test_a_step_that_cannot_be_seen(good: Draft) -> None:
    broken = good.signal("speed set", step=Decimal("0.05"))
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("step-not-shown", "warning")
    assert finding.place == good.place("signal", "speed set")
    assert broken.signal("speed set", step=Decimal("0.1")).clean()


@pytest.mark.parametrize(("limits", "step"), [((5, 20), 16), ((10, 10), None)])
def test_a_step_wider_than_the_limits(good: Draft, limits: Any, step: Any) -> None:
    broken = good.signal("slow speed", limits=limits, step=step)
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("step-too-wide", "warning")
    assert finding.place == (*good.place("screen", "slow"), "field", 0)
    assert broken.signal("slow speed", limits=(5, 20), step=15).clean()


def test_a_choice_that_the_limits_forbid(good: Draft) -> None:
    broken = good.signal("slow speed", limits=(9, 11), step=1, decimals=0, held=9)
    broken = broken.signal("slow speed", texts={"9": "low", "10": "mid", "11": "high", "12": "top"})
    broken = broken.field("slow", 0, kind="choice")
    found = broken.only_of("choice-outside-limits")
    assert (found.severity, found.place) == ("warning", (*good.place("screen", "slow"), "field", 0))
    assert broken.signal("slow speed", limits=(9, 12)).clean()


def test_a_held_value_that_begins_outside_its_limits(good: Draft) -> None:
    broken = good.signal("slow speed", limits=(5, 9))
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("first-value-refused", "error")
    assert finding.place == good.place("signal", "slow speed")
    assert broken.signal("slow speed", held=5).clean()


@pytest.mark.parametrize(
    ("signal", "wrong", "right"),
    [
        ("speed set", 328, 327),
        ("speed set", "fast", 20),
        ("weight", -1, 0),
        ("lamp", 2, 1),
        ("batch", "ABCDEFGHI", "ABCDEFGH"),
        ("batch", 5, "5"),
        ("power", Decimal("1e39"), Decimal("1e38")),
    ],
)
def test_a_start_value_that_does_not_fit(good: Draft, signal: str, wrong: Any, right: Any) -> None:
    finding = good.signal(signal, start_value=wrong).only()
    assert (finding.rule, finding.severity) == ("first-value-refused", "error")
    assert finding.place == good.place("signal", signal)
    assert good.signal(signal, start_value=right).clean()


@pytest.mark.parametrize(
    ("keys", "severity", "word"),
    [
        (EntryKeys(begin="ok"), "error", "to start an entry"),
        (EntryKeys(confirm="ok"), "error", "confirm"),
        (EntryKeys(up="plus"), "warning", "increase"),
        (EntryKeys(down="minus"), "warning", "decrease"),
        (EntryKeys(abandon="back"), "note", "cancel"),
        (EntryKeys(up="down"), "error", "both to increase and to decrease"),
        (EntryKeys(abandon="enter"), "error", "cancels"),
    ],
)
def test_keys_that_entry_needs(good: Draft, keys: EntryKeys, severity: str, word: str) -> None:
    finding = good.panel(entry=keys).only()
    assert (finding.rule, finding.severity, finding.place) == ("entry-without-keys", severity, ("panel",))
    assert word in finding.message


def test_no_key_to_change_the_value_at_all(good: Draft) -> None:
    found = good.panel(entry=EntryKeys(up="plus", down="minus")).only_all("entry-without-keys")
    assert [finding.severity for finding in found] == ["error", "error"]


def test_other_keys_serve_as_well(good: Draft) -> None:
    keys = EntryKeys(begin="jog", confirm="jog", up="right", down="left")
    assert good.without(("action", 2)).without(("action", 2)).panel(entry=keys).clean()


def test_an_action_begins_entry_in_place_of_the_key(good: Draft) -> None:
    draft = good.panel(entry=EntryKeys(begin="ok"))
    assert draft.add(Action(key="down", do="begin-entry")).clean()


def test_a_panel_without_entry_needs_no_keys_for_it(good: Draft) -> None:
    draft = good.panel(entry=EntryKeys(begin="a", up="b", down="c", confirm="d", abandon="e"))
    for screen, number in (("run", 0), ("scale", 2), ("slow", 0)):
        draft = draft.field(screen, number, entry=False)
    assert draft.clean()
