"""The line strip: what it counts and tells, what it draws, and stepping through it by keyboard."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.client.statistics import Outage, Outages
from widgets.kit import palette
from widgets.live.activity_strip import FAULT_STAYS_S, KEPT, PITCH, ActivityStrip, StripMark


class Clock:
    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def strip(qtbot: QtBot, clock: Clock) -> ActivityStrip:
    made = ActivityStrip(clock=clock)
    qtbot.addWidget(made)
    made.set_lines(["pumproom", "roof"])
    made.resize(1200, made.sizeHint().height())
    with qtbot.waitExposed(made):
        made.show()
    return made


def read(at: float, line: str = "pumproom", words: str = "pump: 2 holding registers from 310, 4 ms") -> StripMark:
    return StripMark(line, words, good=True, write=False, at=at)


def fault(at: float, line: str = "pumproom", words: str = "pump: no answer within 300 ms") -> StripMark:
    return StripMark(line, words, good=False, write=False, at=at)


def test_tells_the_counts_of_each_line_apart(strip: ActivityStrip) -> None:
    strip.set_counts("pumproom", 2, 1)
    strip.set_counts("roof", 1, 0)
    strip.set_counts("elsewhere", 5, 5)
    assert strip.counts("pumproom") == (2, 1)
    assert strip.counts("roof") == (1, 0)


def test_a_line_that_is_not_shown_is_left_out(strip: ActivityStrip) -> None:
    strip.add([read(100, line="elsewhere")])
    assert strip.lane_text("pumproom") == "nothing yet"


def test_keeps_the_newest(strip: ActivityStrip) -> None:
    strip.add(read(100 + n) for n in range(KEPT + 50))
    assert [strip_mark.at for strip_mark in strip.marks("pumproom")] == [150 + n for n in range(KEPT)]


def test_the_words_of_a_fault_stay_a_while(strip: ActivityStrip, clock: Clock) -> None:
    strip.add([fault(100.0)])
    clock.now = 103.0
    strip.add([read(103.0)])
    assert "no answer within 300 ms" in strip.lane_text("pumproom")
    assert "3 s ago" in strip.lane_text("pumproom")
    clock.now = 100.1 + FAULT_STAYS_S
    strip.add([read(clock.now)])
    assert "no answer" not in strip.lane_text("pumproom")


def test_a_fault_shows_at_once(strip: ActivityStrip) -> None:
    strip.add([read(100.0), fault(100.01)])
    assert "no answer" in strip.lane_text("pumproom")


def test_good_words_stay_long_enough_to_be_read(strip: ActivityStrip) -> None:
    strip.add([read(100.0, words="first"), read(100.1, words="second")])
    assert strip.lane_text("pumproom") == "first"
    strip.add([read(100.8, words="third")])
    assert strip.lane_text("pumproom") == "third"


def test_assistive_technology_hears_the_words(strip: ActivityStrip) -> None:
    strip.add([fault(100.0)])
    assert "no answer within 300 ms" in strip.accessibleDescription()


def test_left_and_right_step_through_the_marks(strip: ActivityStrip) -> None:
    first, second, third = read(100.0, words="first"), fault(100.1, words="second"), read(100.2, words="third")
    strip.add([first, second, third])
    strip.setFocus()
    QTest.keyClick(strip, Qt.Key.Key_Left)
    assert strip.chosen is third
    QTest.keyClick(strip, Qt.Key.Key_Left)
    QTest.keyClick(strip, Qt.Key.Key_Left)
    QTest.keyClick(strip, Qt.Key.Key_Left)
    assert strip.chosen is first
    assert strip.lane_text("pumproom").startswith("first")
    QTest.keyClick(strip, Qt.Key.Key_Right)
    assert strip.chosen is second
    QTest.keyClick(strip, Qt.Key.Key_Escape)
    assert strip.chosen is None


def test_down_steps_to_the_next_line(strip: ActivityStrip) -> None:
    other = read(100.2, line="roof")
    strip.add([read(100.0), other])
    strip.setFocus()
    QTest.keyClick(strip, Qt.Key.Key_Left)
    QTest.keyClick(strip, Qt.Key.Key_Down)
    assert strip.chosen is other


def test_stepping_without_any_mark_does_nothing(strip: ActivityStrip) -> None:
    strip.setFocus()
    QTest.keyClick(strip, Qt.Key.Key_Left)
    QTest.keyClick(strip, Qt.Key.Key_Down)
    assert strip.chosen is None


def test_good_and_fault_differ_in_shape(strip: ActivityStrip) -> None:
    """The rows of pixels that the newest mark reaches: a cross is taller than a stroke."""
    heights = []
    for strip_mark, colour in ((read(100.0), "good"), (fault(100.0), "fault")):
        strip.set_lines(["pumproom"])
        strip.resize(1200, strip.sizeHint().height())
        strip.add([strip_mark])
        image = strip.grab().toImage()
        wanted = QColor(getattr(palette.current(), colour))
        track = strip.track(0)
        columns = range(track.right() - PITCH - 2, track.right())
        touched = [y for y in range(image.height()) if any(_near(image.pixelColor(x, y), wanted) for x in columns)]
        heights.append(len(touched))
    stroke, cross = heights
    assert stroke >= 6
    assert cross >= stroke + 4


def test_an_outage_breaks_the_line_where_it_was(strip: ActivityStrip) -> None:
    before, after = read(100.0), read(104.2, words="after")
    strip.add([before, read(100.1), after])
    outages = Outages(1, 4.1, Outage(100.1, 104.2, "connection to port 502 refused"))
    for _ in range(2):  # a second time it is no news
        strip.set_outages("pumproom", outages)
    kept = strip.marks("pumproom")
    assert [strip_mark.gap for strip_mark in kept] == [False, False, True, False]
    assert strip.lane_text("pumproom").startswith("no answer for 4.1 s: connection to port 502 refused")
    image = strip.grab().toImage()
    wanted = QColor(palette.current().fault)
    track = strip.track(0)
    columns = range(track.right() - 2 * PITCH - 2, track.right())
    assert sum(_near(image.pixelColor(x, y), wanted) for x in columns for y in range(image.height())) > 10
    strip.set_outages("roof", Outages())
    assert strip.lane_text("roof") == "nothing yet"


def _near(colour: QColor, wanted: QColor) -> bool:
    return (
        sum(
            abs(a - b)
            for a, b in ((colour.red(), wanted.red()), (colour.green(), wanted.green()), (colour.blue(), wanted.blue()))
        )
        < 150
    )


def test_what_is_drawn_mark_by_mark_is_what_is_drawn_as_a_whole(
    strip: ActivityStrip, clock: Clock, qtbot: QtBot
) -> None:
    def settle() -> None:
        qtbot.waitUntil(lambda: strip.up_to_date)
        QApplication.processEvents()

    for number, count in enumerate((3, 1, 40, 1, 7, 2, 1)):
        clock.now += 1
        marks = [(fault if number + at % 3 == 0 else read)(clock.now + at / 100) for at in range(count)]
        strip.add([*marks, StripMark("roof", "roof: written", good=True, write=True, at=clock.now)])
        if number == 3:
            strip.grab()  # a picture of what is not drawn yet changes nothing
        if number == 4:
            strip.set_outages("pumproom", Outages(1, 4.0, Outage(clock.now - 4, clock.now + 0.03, "no answer")))
        settle()
        shown = strip.screen().grabWindow(strip.winId()).toImage()
        assert shown == strip.grab().toImage(), f"after {count} more"


@pytest.mark.parametrize("points", [9, 13, 20, 27])
def test_the_marks_keep_room_and_no_letter_is_cut(strip: ActivityStrip, points: int) -> None:
    font = strip.font()
    font.setPointSize(points)
    strip.setFont(font)
    strip.add([read(100.0)])
    for width in (820, 546, 400):
        strip.resize(width, strip.sizeHint().height())
        label, track, words, counts = strip.places(0)
        assert track.width() >= 60
        assert label.height() >= strip.fontMetrics().height()
        shown = [place for place in (label, track, words, counts) if not place.isEmpty()]
        assert all(one.right() < other.left() for one, other in pairwise(shown))
        assert shown[-1].right() == width - 11
        assert words.width() >= min(160, width // 4)


def test_not_connected_is_said_at_the_right_edge(strip: ActivityStrip) -> None:
    strip.set_lines([])
    image = strip.grab().toImage()
    ground = QColor(palette.current().frame)
    inked = [x for x in range(image.width()) if any(image.pixelColor(x, y) != ground for y in range(3, image.height()))]
    assert image.width() - 20 < max(inked) < image.width() - 8
    assert min(inked) > image.width() // 2
