"""A response in figures: none of them finer than the polling, the register or the digits that are shown."""

from __future__ import annotations

import numpy as np
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
    ]
    view.kind.setCurrentIndex(1)
    view.kind.activated.emit(1)
    assert [tuple(each) for each in view.figures] == [
        ("From, to", "10 \N{RIGHTWARDS ARROW} 30", "Hz"),
        ("Slope", "2.5 \u00b1 0.2", "Hz/s"),
        ("Ramp time", "8.0 \u00b1 0.5", "s"),
        ("Overshoot", "5 at most", "%"),
        ("Ripple at the end", "0", "Hz"),
        ("Ramp time of the set point", "0.5 at most", "s"),
        ("Lag", "4.3 \u00b1 0.5", "s"),
    ]
    view.signal.setCurrentIndex(0)
    view.kind.setCurrentIndex(0)
    view.kind.activated.emit(0)
    assert view.figures[1] == ("Rise time", "0.5 at most", "s")
