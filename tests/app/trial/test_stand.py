"""Where trials run: models in a time of their own, and sessions on lines of a real socket."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.errors import FanlightError
from app.events.events import EventKind
from app.project_file.files import load
from app.trial.runner import Runner
from app.trial.stand import TICK_S, PanelStep, RehearsedStand, SessionStand
from projects import demo_path
from tests.trial_panel import case, small


def test_time_passes_only_when_it_is_told_to() -> None:
    stand = RehearsedStand(small())
    stand.begin()
    at = stand.now()
    for _ in range(50):
        stand.tick()
    assert stand.now() - at == pytest.approx(50 * TICK_S)


def test_every_case_begins_anew() -> None:
    stand = RehearsedStand(small())
    stand.begin()
    stand.order("tank.level=80")
    stand.key_down("right")
    stand.tick()
    assert (stand.panel.state.shown, stand.readings()["level"].value) == ("set", Fraction(80))
    stand.begin()
    assert (stand.panel.state.shown, stand.readings()["level"].value) == ("run", Fraction("42.5"))
    assert not stand.panel.state.down


def test_observers_are_told_what_each_key_did() -> None:
    told: list[PanelStep] = []
    stand = RehearsedStand(small(), [told.append])
    stand.begin()
    stand.key_down("right")
    step = told[-1]
    assert (step.key, step.before.shown, step.after.shown) == ("right", "run", "set")
    stand.tick()
    assert told[-1].key is None


def test_events_come_with_what_the_panel_and_the_device_did() -> None:
    stand = RehearsedStand(small())
    stand.begin()
    stand.take_events()
    stand.order("tank.pump=1")
    stand.order("tank.high=1")
    for _ in range(30):  # by then a line has read all of it again
        stand.tick()
    kinds = {(event.kind, event.subject) for event in stand.take_events()}
    assert (EventKind.CHANGED, "pump") in kinds or (EventKind.RISE, "pump") in kinds
    assert (EventKind.SCREEN_CHANGED, "too high") in kinds
    assert stand.take_events() == []


def test_an_order_to_nobody_is_an_error_in_words() -> None:
    stand = RehearsedStand(small())
    stand.begin()
    with pytest.raises(FanlightError, match="choose from: 'tank'"):
        stand.order("tonk.level=1")


def test_a_session_with_simulated_devices_runs_the_same_steps_in_real_time() -> None:
    """The pump of the demo started and stopped over a real socket."""
    stand = SessionStand(load(demo_path("booster-pump")), "simulated")
    assert stand.simulated
    steps = """{ key = "start" }
        { wait = { signal = "running", value = 1 }, within_s = 5 }
        { expect = { screen = "run", row = 4, like = "running*" } }
        { key = "stop" }
        { expect = { signal = "run command", value = 0 } }"""
    found = Runner(case(steps, '{ key = "stop" }'), stand).run()
    assert [step.reason for step in found.cases[0].steps if step.reason] == []
    assert found.verdict == "passed"
    assert not stand.session.running


def test_a_session_begins_each_case_of_simulated_devices_anew() -> None:
    stand = SessionStand(load(demo_path("booster-pump")), "simulated")
    try:
        stand.begin()
        first = stand.session
        stand.order("pump.local=on")
        stand.begin()
        assert stand.session is not first
        assert stand.readings()["remote"].value == 1
        assert stand.put("ramp up", Fraction(7)) == ""
        assert "limit" in stand.put("ramp up", Fraction(7000))
    finally:
        assert stand.end() == ()
