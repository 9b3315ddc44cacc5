"""A panel is operated, what happens is noted, and the case that comes of it passes when it is run again."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.noting.case_notes import CaseNotes
from app.project_file.canonical import canonical_text
from app.trial.outcome import Result
from app.trial.script import (
    AskStep,
    EnterStep,
    Expectation,
    ExpectStep,
    KeyStep,
    NoteStep,
    OrderStep,
    Trial,
    WaitStep,
)
from app.trial.script_file import load_trial, save_trial, trial_of
from app.trial.stand import RehearsedStand
from tests.big_project import big_project
from tests.builders import demo
from tests.noting_hand import DRIVES, Hand, operated, run_again
from tests.trial_panel import small


@pytest.fixture
def hand() -> Hand:
    return Hand(RehearsedStand(small()))


@pytest.fixture
def pump() -> Hand:
    return Hand(RehearsedStand(demo("booster-pump")))


def passes(hand: Hand) -> bool:
    outcome = run_again(hand.notes.case("it"), hand.stand.project)
    assert outcome.result is Result.PASS, [(step.words, step.reason) for step in outcome.steps]
    return True


def test_keys_are_steps_and_several_of_one_key_are_one(hand: Hand) -> None:
    hand.press("right", "f2", "f2", "f2", "go")
    assert hand.notes.steps == (KeyStep(key="right"), KeyStep(key="f2", times=3), KeyStep(key="go"))


def test_a_key_is_held_as_long_as_it_was_where_that_does_something(hand: Hand) -> None:
    hand.press("jog", hold_s=1.26)
    hand.press("f2", hold_s=1.26)
    assert hand.notes.steps == (KeyStep(key="jog", hold_s=Decimal("1.3")), KeyStep(key="f2"))


def test_an_entry_is_one_step_however_it_was_come_to(hand: Hand) -> None:
    hand.press("right", "enter", "enter", "up", "up", "down")
    hand.press("up", hold_s=1.0)
    shown = hand.stand.panel.state.entry
    assert shown is not None
    assert shown.editing is not None
    hand.press("enter", "escape")
    value = shown.editing.value
    assert hand.notes.steps == (KeyStep(key="right"), EnterStep(enter="level", value=Decimal(str(float(value)))))
    hand.notes.mark_row(0)
    assert passes(hand)


def test_two_entries_in_one_go_are_two_steps(hand: Hand) -> None:
    hand.press("right", "enter", "enter", "up", "enter", "down", "enter", "up", "enter")
    entered = [step for step in hand.notes.steps if isinstance(step, EnterStep)]
    assert [(step.enter, step.value) for step in entered] == [("level", Decimal(43)), ("mode", Decimal(1))]
    assert passes(hand)


def test_an_entry_that_is_given_up_is_no_step_but_what_else_was_pressed_in_it_is(hand: Hand) -> None:
    hand.press("right", "enter", "enter", "up", "halt", "up", "escape", "escape")
    assert hand.notes.steps == (KeyStep(key="right"), KeyStep(key="halt"))
    assert passes(hand)


def test_an_entry_that_goes_on_is_shown_key_by_key_and_left_out_of_the_case(hand: Hand) -> None:
    hand.press("right", "enter", "enter", "up")
    assert hand.notes.steps[1:] == (KeyStep(key="enter", times=2), KeyStep(key="up"))
    assert hand.notes.case("it").steps == (KeyStep(key="right"),)


def test_an_entry_in_whose_middle_a_row_is_marked_stays_key_by_key(hand: Hand) -> None:
    hand.press("right", "enter", "enter", "up")
    hand.notes.mark_row(0)
    hand.press("up", hold_s=0.92)
    hand.notes.mark_row(0)
    hand.press("enter", "escape")
    steps = hand.notes.steps
    assert isinstance(steps[3], ExpectStep)
    assert steps[3].expect == Expectation(screen="set", row=1, text="Level  43.0 %")
    assert steps[4] == KeyStep(key="up", hold_s=Decimal("0.95")), "until it has repeated five times"
    assert passes(hand)


def test_a_value_between_the_steps_is_reached_by_way_of_the_limit() -> None:
    hand = Hand(RehearsedStand(small()))
    hand.order("tank.level=42.7")
    hand.press("right", "enter", "enter")
    hand.press("up", hold_s=6)
    hand.press("down", "enter", "escape")
    assert hand.notes.steps[-1] == EnterStep(enter="level", value=Decimal("99.5"))
    assert passes(hand)


def test_a_row_is_expected_as_it_is_and_a_number_that_moves_may_be_another(pump: Hand) -> None:
    pump.notes.mark_row(2)
    pump.press("start")
    pump.wait(1)
    pump.notes.mark_row(2)
    pump.wait(30)
    pump.notes.mark_row(2)
    first, moving, last = [step for step in pump.notes.steps if isinstance(step, ExpectStep)]
    assert first.expect == Expectation(screen="run", row=3, text="Speed        0.0 Hz")
    assert moving.expect == Expectation(screen="run", row=3, like="Speed     * Hz")
    assert last.expect.text is not None
    assert first.within_s is None
    assert last.within_s is not None
    assert 4 <= last.within_s <= 15, "it stood after four seconds, however long somebody looked at it"
    assert passes(pump)


def test_what_is_measured_moves_from_its_first_change_on_and_stands_soon_after_its_last(pump: Hand) -> None:
    pump.press("start", then_s=0.06)
    pump.notes.mark_row(2)
    pump.wait(8)
    pump.notes.mark_signal("frequency")
    first, later = [step.expect for step in pump.notes.steps if isinstance(step, ExpectStep)]
    assert first == Expectation(screen="run", row=3, like="Speed     * Hz")
    assert later == Expectation(signal="frequency", value=Decimal("41.7"), tolerance=Decimal("0.1"))
    assert passes(pump)


def test_a_value_is_expected_in_its_unit_within_a_tolerance_where_it_is_measured(pump: Hand) -> None:
    pump.notes.mark_signal("speed set point")
    pump.press("start")
    pump.wait(30)
    pump.notes.mark_signal("frequency")
    pump.notes.mark_signal("running")
    marks = [step.expect for step in pump.notes.steps if isinstance(step, ExpectStep)]
    assert marks == [
        Expectation(signal="speed set point", value=Decimal("41.7")),
        Expectation(signal="frequency", value=Decimal("41.7"), tolerance=Decimal("0.1")),
        Expectation(signal="running", text="running"),
    ]
    assert passes(pump)


def test_a_deed_waits_for_what_it_came_after_if_that_counts(pump: Hand) -> None:
    pump.press("start")
    pump.wait(20)
    pump.press("right", "left", "stop")
    pump.wait(20)
    assert not [step for step in pump.notes.steps if isinstance(step, WaitStep)], "nothing was marked"
    pump.notes.mark_signal("frequency")
    waited = [step.wait for step in pump.notes.steps if isinstance(step, WaitStep)]
    assert any(isinstance(wait, Expectation) and wait.signal == "frequency" for wait in waited)
    assert passes(pump)


def test_in_the_middle_of_a_motion_a_deed_waits_for_its_time(pump: Hand) -> None:
    pump.press("start")
    pump.wait(1.3)
    pump.press("stop")
    pump.wait(0.5)
    pump.notes.mark_signal("frequency")
    assert [step.wait for step in pump.notes.steps if isinstance(step, WaitStep)] == [Decimal("1.5")]
    assert passes(pump)


def test_a_screen_that_comes_by_itself_is_waited_for_before_the_next_key(pump: Hand) -> None:
    pump.order("pump.external-fault=on")
    pump.wait(1)
    pump.press("right")
    steps = pump.notes.steps
    assert steps[0] == OrderStep(order="pump.external-fault=on")
    assert isinstance(steps[1], WaitStep)
    assert steps[1].wait == Expectation(screen="fault")
    assert pump.notes.case("it").on == "simulated"
    assert passes(pump)


def test_waiting_asking_and_noting(pump: Hand) -> None:
    pump.press("start")
    pump.notes.mark_screen()
    pump.notes.mark_signal("running", wait=True)
    pump.notes.ask("Does it turn?")
    pump.notes.note("So much for that.")
    _, screen, until, ask, note = pump.notes.steps
    assert isinstance(screen, ExpectStep)
    assert isinstance(until, WaitStep)
    assert ask == AskStep(ask="Does it turn?")
    assert note == NoteStep(note="So much for that.")
    assert passes(pump)


def test_nothing_is_marked_while_a_key_is_down(hand: Hand) -> None:
    hand.notes.key_down("jog", lambda: hand.stand.key_down("jog"))
    assert not hand.notes.can_mark
    hand.notes.release_all(hand.stand.release_all)
    assert hand.notes.can_mark


def test_the_last_step_is_forgotten(hand: Hand) -> None:
    hand.press("right", "enter", "enter", "up", "enter", "escape")
    hand.notes.mark_screen()
    hand.notes.undo()
    assert [type(step) for step in hand.notes.steps] == [KeyStep, EnterStep]
    hand.notes.undo()
    hand.notes.undo()
    assert hand.notes.steps == ()
    hand.notes.undo()


def test_the_case_stands_in_a_file(pump: Hand, tmp_path: object) -> None:
    from pathlib import Path

    pump.press("start")
    pump.wait(10)
    pump.notes.mark_row(2)
    case = pump.notes.case("it starts")
    path = Path(str(tmp_path)) / "a.trial.toml"
    save_trial(trial_of({"format": 1}).model_copy(update={"cases": (case,)}), path)
    assert load_trial(path).cases == (case,)
    assert "case" in canonical_text(Trial.model_validate({"case": [case]}))


def test_what_is_read_for_the_first_time_has_not_moved(pump: Hand) -> None:
    pump.stand.order("pump.silent=on")
    pump.stand.tick()
    pump.notes = CaseNotes(pump.stand.project, pump.stand.panel)
    pump.wait(1)
    pump.stand.order("pump.silent=off")
    pump.wait(1)
    pump.press("start")
    pump.notes.mark_signal("frequency")
    assert [type(step) for step in pump.notes.steps] == [KeyStep, ExpectStep]


def test_of_very_many_signals_any_can_be_marked_all_the_same() -> None:
    project = big_project(screens=5, signals=600, fields=2)
    hand = Hand(RehearsedStand(project))
    hand.wait(1)
    names = {field.signal for screen in project.screens for field in screen.fields}
    other = next(signal.name for signal in project.signals if signal.name not in names)
    hand.notes.mark_signal(other)
    (step,) = hand.notes.steps
    assert isinstance(step, ExpectStep)
    assert step.expect.signal == other
    assert passes(hand)


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize(("name", "drive"), DRIVES.items())
def test_what_was_operated_by_chance_passes_when_it_is_run_again(name: str, drive: str, seed: int) -> None:
    """Two hundred of each: `python -m tests.bench.noted_cases`."""
    project = demo(name)
    outcome = run_again(operated(project, drive, seed), project)
    assert outcome.result is Result.PASS, [(step.words, step.reason) for step in outcome.steps]
