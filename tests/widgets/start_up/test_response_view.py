"""A response in figures: none of them finer than the polling, the register or the digits that are shown."""

from __future__ import annotations

import numpy as np
import pytest
from pytestqt.qtbot import QtBot

from tests.widgets.start_up.test_trend_view import Told
from widgets.start_up.response_view import ResponseView


def test_a_step_that_is_polled_twice_a_second(qtbot: QtBot) -> None:
    """Its registers count whole Hz, so there is no tenth to be told though one digit is shown."""
    told = Told()
    times = np.arange(0.0, 40.0, 0.525)
    told.put("set", times.tolist(), np.where(times < 10, 10.0, 30.0).tolist())
    actual = np.clip(10 + (times - times[times >= 10][0]) * 2.5, 10.0, 30.0)
    told.put("speed", times.tolist(), (actual + np.where(times > 25, 7e-15, 0)).tolist())
    view = ResponseView()
    qtbot.addWidget(view)
    view.show_source(told, ("set", "speed"))
    assert (view.signal.currentText(), view.set_point.currentText()) == ("speed", "set")
    view.show_span(9.0, 35.0)
    assert [tuple(each) for each in view.figures] == [
        ("From, to", "10 \N{RIGHTWARDS ARROW} 30", "Hz"),
        ("Rise time", "6.4 \u00b1 0.5", "s"),
        ("Overshoot", "5 at most", "%"),
        ("Settling time", "7.8 \u00b1 0.5", "s"),
        ("Ripple at the end", "0", "Hz"),
        ("Set point minus final value", "0", "Hz"),
        ("Least, greatest", "10; 30", "Hz"),
    ]
    assert view.kind.currentText() == "found: a step"
    at = view.kind.findData("ramp")
    view.kind.setCurrentIndex(at)
    view.kind.activated.emit(at)
    assert [tuple(each) for each in view.figures] == [
        ("From, to", "10 \N{RIGHTWARDS ARROW} 30", "Hz"),
        ("Slope", "2.5 \u00b1 0.2", "Hz/s"),
        ("Ramp time", "8.0 \u00b1 0.5", "s"),
        ("Overshoot", "5 at most", "%"),
        ("Ripple at the end", "0", "Hz"),
        ("Ramp time of the set point", "0.5 at most", "s"),
        ("Lag", "4.3 \u00b1 0.5", "s"),
        ("Least, greatest", "10; 30", "Hz"),
    ]
    view.signal.setCurrentIndex(0)
    view.kind.setCurrentIndex(0)
    view.kind.activated.emit(0)
    assert view.figures[1] == ("Rise time", "0.5 at most", "s")


def ramp_view(qtbot: QtBot, *, wanted: bool) -> ResponseView:
    """A clean ramp of 10 s from 0 to 50 Hz, that of its set point 0.5 s before it."""
    told = Told()
    times = np.arange(0.0, 40.0, 0.1)
    told.put("set", times.tolist(), (np.clip((times - 10) * 5, 0, 50) if wanted else np.full(400, 50.0)).tolist())
    told.put("speed", times.tolist(), np.clip((times - 10.5) * 5, 0, 50).tolist())
    view = ResponseView()
    qtbot.addWidget(view)
    view.show_source(told, ("set", "speed"))
    return view


@pytest.mark.parametrize("wanted", [True, False])
def test_a_ramp_is_measured_as_one_by_the_course_of_its_set_point_or_by_its_own(qtbot: QtBot, wanted: bool) -> None:
    view = ramp_view(qtbot, wanted=wanted)
    view.show_span(8.0, 35.0)
    figures = {each.name: each for each in view.figures}
    assert view.kind.currentText() == "found: a ramp"
    assert figures["Ramp time"].value.startswith("10.0")
    assert ("Lag" in figures) == wanted
    assert figures["Least, greatest"].value == "0; 50"


def test_what_still_moves_at_the_end_gets_no_overshoot_and_no_ripple(qtbot: QtBot) -> None:
    """The last part of a ramp is no final value: it would give an overshoot, and a ripple as large as that part."""
    view = ramp_view(qtbot, wanted=True)
    view.show_span(8.0, 19.0)
    assert not view.figures
    assert "still moving" in view.result.text()
    assert "Least, greatest: 0; 42 Hz" in view.result.text()
