"""Trends: what is drawn of a source, gaps and steps, rolling and standing still, cursors, and what is saved."""

from __future__ import annotations

import csv
import datetime
import gc
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QAction, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QMenu
from pytestqt.qtbot import QtBot

from app.curves.source import Unread, plottable
from app.language import speak
from app.project.model import Project
from app.project_file.files import parse
from app.recording.envelope import Envelope, extremes
from tests.widgets.driving import shown
from widgets.document.settings import Settings
from widgets.kit import palette
from widgets.kit.palette import DARK, LIGHT, Appearance, Theme
from widgets.kit.scaling import scaled
from widgets.start_up.trend_curves import is_lane, is_stepped, pen, shape
from widgets.start_up.trend_export import spreadsheets
from widgets.start_up.trend_lanes import LEAST
from widgets.start_up.trend_legend import NOTHING, LegendColumn
from widgets.start_up.trend_plot import FREE, Flag
from widgets.start_up.trend_view import TrendView

PROJECT = parse("""\
format = 2
[panel]
start = "s"
[[screen]]
name = "s"
[[line]]
name = "l"
kind = "tcp"
host = "h"
[[follower]]
name = "f"
line = "l"
[[signal]]
name = "set"
follower = "f"
register = 1
unit = "Hz"
decimals = 1
write = true
every_ms = 100
[[signal]]
name = "speed"
follower = "f"
table = "input"
register = 2
unit = "Hz"
decimals = 1
every_ms = 100
[[signal]]
name = "current"
follower = "f"
table = "input"
register = 3
unit = "A"
decimals = 2
every_ms = 100
[[signal]]
name = "running"
bit = { of = "speed", number = 0 }
texts = { 0 = "stopped", 1 = "running" }
""")


class Told:
    """A source whose values a test makes up."""

    def __init__(self) -> None:
        self.project: Project = PROJECT
        self.now = 100.0
        self.series = {name: (np.empty(0), np.empty(0)) for name in plottable(PROJECT)}

    def put(self, name: str, times: list[float], values: list[float]) -> None:
        former = self.series[name]
        self.series[name] = np.append(former[0], times), np.append(former[1], values)

    def span(self) -> tuple[float, float]:
        return 0.0, self.now

    def envelope(self, signal: str, begin: float, end: float, columns: int) -> Envelope:
        times, values = self.series[signal]
        inside = (times >= begin) & (times <= end)
        return extremes(np.linspace(begin, end, columns + 1), times[inside], values[inside])

    def window(self, signal: str, begin: float, end: float) -> tuple[np.ndarray, np.ndarray]:
        times, values = self.series[signal]
        first, last = np.searchsorted(times, begin) - 1, np.searchsorted(times, end, side="right") + 1
        return times[max(0, first) : last], values[max(0, first) : last]

    def at(self, signal: str, moment: float) -> float:
        times, values = self.series[signal]
        index = np.searchsorted(times, moment, side="right") - 1
        return float(values[index]) if index >= 0 else float("nan")

    def civil(self, moment: float) -> datetime.datetime:
        return datetime.datetime(2030, 1, 2, 3, 0, tzinfo=datetime.UTC) + datetime.timedelta(seconds=moment)


@pytest.fixture
def source() -> Told:
    told = Told()
    steps = [number / 10 for number in range(1001)]
    told.put("speed", steps, [0.4 * at for at in steps])
    told.put("current", steps, [2.0 if at < 50 else float("nan") if at < 60 else 3.0 for at in steps])
    told.put("set", [0.0, 40.0, 80.0], [10.0, 40.0, 25.0])
    told.put("running", [0.0, 30.0], [0.0, 1.0])
    return told


@pytest.fixture
def view(qtbot: QtBot, source: Told) -> TrendView:
    made = shown(TrendView(Settings(keep=False)), qtbot, 900, 520)
    made.set_source(source)
    made.plot.setFocus()
    return made


def drawn(view: TrendView, name: str) -> tuple[np.ndarray, np.ndarray]:
    times, values = view.plot.curves[name].getData()
    return (np.array([]), np.array([])) if times is None else (times, values)


def values_of(view: TrendView, column: LegendColumn) -> list[str]:
    return [item.text() for row in range(view.legend.rowCount()) if (item := view.legend.item(row, column)) is not None]


# Shapes


def test_a_gap_breaks_the_line(source: Told) -> None:
    for pixels in (2000, 20):  # each sample, and the extremes in each pixel
        found = shape(source, "current", 0.0, 100.0, pixels)
        gap = found.values[(found.times > 50.2) & (found.times < 59.8)]
        assert len(gap)
        assert np.isnan(gap).all()
        assert np.nanmax(found.values) == 3.0


def test_a_set_point_is_a_staircase_until_now(source: Told) -> None:
    found = shape(source, "set", 0.0, 100.0, 2000)
    assert list(zip(found.times.tolist(), found.values.tolist(), strict=True)) == [
        (0.0, 10.0),
        (40.0, 10.0),
        (40.0, 40.0),
        (80.0, 40.0),
        (80.0, 25.0),
        (100.0, 25.0),
    ]
    assert is_stepped(PROJECT, "set")
    assert not is_stepped(PROJECT, "speed")
    assert is_lane(PROJECT, "running")


# The view


def test_at_first_it_shows_what_one_would_look_at_and_rolls(view: TrendView, source: Told) -> None:
    assert view.signals == ("set", "speed", "current", "running")
    assert view.plot.span == (40.0, 100.0)
    assert [(lane.unit, lane.names, lane.band) for lane in view.plot.lanes] == [
        ("Hz", ("set", "speed"), False),
        ("A", ("current",), False),
        ("", ("running",), True),
    ]
    times, values = drawn(view, "speed")
    assert np.allclose(values, 0.4 * times)
    source.now = 101.0
    view.refresh()
    assert view.plot.span == pytest.approx((42.2, 102.2)), "a little is free for what comes"
    source.now = 102.0
    view.refresh()
    assert view.plot.span == pytest.approx((42.2, 102.2)), "which is filled first"
    assert values_of(view, LegendColumn.NOW) == ["25.0", "40.0", "3.00", "running"]


def ranges(view: TrendView) -> list[tuple[float, float]]:
    return [view.plot.value_range(place) for place in range(len(view.plot.lanes))]


def test_value_axes_rest_while_values_wander_and_move_when_they_leave(view: TrendView, source: Told) -> None:
    before = ranges(view)
    assert before[1] == pytest.approx((0.0, 3.2)), "round, from 0 to the greatest value of 3 A"
    assert before[0][0] < 10.0, "and that of a speed is no longer than it need be"
    source.put("current", [100.1], [3.05])
    source.now = 100.5
    view.refresh()
    assert ranges(view) == before
    source.put("current", [101.0], [30.0])
    source.now = 101.5
    view.refresh()
    after = ranges(view)
    assert after[1][1] > 30.0
    assert [*after[:1], *after[2:]] == [*before[:1], *before[2:]]


def test_a_value_at_rest_is_a_level_line_off_the_edge_of_its_lane(view: TrendView, source: Told) -> None:
    source.put("current", [198.0, 200.0, 201.0], [0.0, 0.0, 0.0])
    source.put("speed", [198.0, 200.0, 201.0], [12.3, 12.3, 12.3])
    source.now = 300.0
    view.look_at(199.0, 202.0)
    view.fit_action.trigger()
    speed, current, _ = ranges(view)
    assert current == pytest.approx((0.0, 1.1)), "the current of a machine at rest is 0, and its axis says nothing less"
    assert speed[1] - speed[0] >= 5.0, "noise of a tenth of a Hz is no storm"
    for name, place in (("current", 1), ("speed", 0)):
        lane, rect = view.plot.curves[name].getViewBox(), view.plot.curves[name].getViewBox().sceneBoundingRect()
        y = lane.mapViewToScene(QPointF(200.0, ranges(view)[place][0])).y()
        assert rect.bottom() - y >= FREE - 1, "the least value does not lie on the edge"


def test_lanes_share_the_height_and_are_scrolled_where_they_would_be_low(view: TrendView) -> None:
    least = scaled(LEAST)
    assert view.plot.height() == view.plot.parentWidget().height(), "as high as there is room"
    for height in (460, 160):
        view.resize(900, height)
        boxes = [view.plot.curves[lane.names[0]].getViewBox() for lane in view.plot.lanes]
        assert all(box.height() >= least for box, lane in zip(boxes, view.plot.lanes, strict=True) if not lane.band)
        assert all(box.width() > 300 for box in boxes)
        rows = [view.legend.visualRect(view.legend.model().index(row, 0)) for row in range(4)]
        tops = [round(box.sceneBoundingRect().top()) for box in boxes]
        assert [rows[row].top() + view.legend.verticalOffset() for row in (0, 2, 3)] == tops, "beside their lanes"
    assert view.plot.height() > view.plot.parentWidget().height()
    QTest.keyClick(view.plot, Qt.Key.Key_PageDown)
    assert view.legend.verticalScrollBar().value() == -view.plot.y() > 0, "the legend goes with them"


def test_set_points_are_dashed_and_a_curve_keeps_its_colour_when_another_goes(view: TrendView) -> None:
    styles = {name: curve.opts["pen"].style() for name, curve in view.plot.curves.items()}
    assert styles["set"] is Qt.PenStyle.DashLine
    assert {styles[name] for name in ("speed", "current", "running")} == {Qt.PenStyle.SolidLine}
    before = view.plot.curves["current"].opts["pen"].color()
    view.show_signals(("speed", "current"))
    assert view.plot.curves["current"].opts["pen"].color() == before


def test_space_stands_still_without_losing_what_comes_and_end_follows_again(view: TrendView, source: Told) -> None:
    QTest.keyClick(view.plot, Qt.Key.Key_Space)
    source.put("speed", [100.1, 105.0], [99.0, 98.0])
    source.now = 110.0
    view.refresh()
    assert view.plot.span == (40.0, 100.0)
    QTest.keyClick(view.plot, Qt.Key.Key_End)
    assert view.plot.span == pytest.approx((51.2, 111.2))
    assert 99.0 in drawn(view, "speed")[1]


def test_keys_move_and_zoom(view: TrendView) -> None:
    view.look_at(40.0, 100.0)
    QTest.keyClick(view.plot, Qt.Key.Key_Left)
    assert view.plot.span == pytest.approx((34.0, 94.0))
    QTest.keyClick(view.plot, Qt.Key.Key_Up)
    assert view.plot.span == pytest.approx((44.0, 84.0))
    QTest.keyClick(view.plot, Qt.Key.Key_Down)
    assert view.plot.span == pytest.approx((34.0, 94.0))
    QTest.keyClick(view.plot, Qt.Key.Key_Home)
    assert view.plot.span == pytest.approx((0.0, 100.0))


def test_cursors_give_values_and_differences(view: TrendView, qtbot: QtBot) -> None:
    shift, ctrl = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier
    view.plot.set_span(0.0, 100.0)
    QTest.keyClick(view.plot, Qt.Key.Key_Right, shift)
    with qtbot.waitSignal(view.span_chosen) as chosen:
        QTest.keyClick(view.plot, Qt.Key.Key_Right, ctrl)
    first, second = chosen.args
    assert (first, second) == (view.cursors or (0, 0))
    QTest.keyClick(view.plot, Qt.Key.Key_Right, shift)
    moved = view.plot.cursors[0]
    assert moved is not None
    assert moved == pytest.approx(first + 0.6, abs=0.5)
    at_a, at_b = float(values_of(view, LegendColumn.FIRST)[1]), float(values_of(view, LegendColumn.SECOND)[1])
    assert at_a == pytest.approx(0.4 * moved, abs=0.06)
    assert float(values_of(view, LegendColumn.DIFFERENCE)[1]) == pytest.approx(at_b - at_a, abs=0.11)
    assert view.head.time_between() == f"{second - moved:.3f} s"
    view.plot.set_cursor(0, 55.0)
    assert values_of(view, LegendColumn.FIRST)[2] == "\N{EN DASH}", "there was no reading"


def test_curves_are_taken_out_and_added(view: TrendView, qtbot: QtBot) -> None:
    first = view.legend.visualRect(view.legend.model().index(0, LegendColumn.NAME))
    QTest.mouseClick(view.legend.viewport(), Qt.MouseButton.LeftButton, pos=first.center())
    with qtbot.waitSignal(view.signals_changed):
        QTest.keyClick(
            view.legend, Qt.Key.Key_Delete, Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ShiftModifier
        )
    assert list(view.signals) == ["speed", "current", "running"]
    QTest.keyClick(view, Qt.Key.Key_Insert, Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ShiftModifier)
    assert view.picker.isVisible()
    QTest.keyClicks(view.picker.filter, "se")
    QTest.keyClick(view.picker.filter, Qt.Key.Key_Return)
    assert list(view.signals) == ["speed", "current", "running", "set"]
    assert view.picker.isVisible(), "the next one can be ticked at once"
    view.picker.close()


def test_the_menu_of_a_curve_removes_it_colours_it_and_copies_its_value(view: TrendView) -> None:
    def entry(menu: QMenu, words: str) -> QAction:
        return next(action for action in menu.actions() if action.text().replace("&", "") == words)

    assert view.plot.curve_near(QPoint(round(view.plot.x_of(90.0)), 5)) in ("set", "speed")
    at = view.plot.curves["current"].getViewBox().sceneBoundingRect().center().toPoint()
    assert view.plot.curve_near(at) == "current"
    menu = view.menu_of("current")
    entry(menu, "Copy the value 3.00").trigger()
    assert QApplication.clipboard().text() == "3.00"
    colours = entry(menu, "Colour").menu()
    assert isinstance(colours, QMenu)
    entry(colours, "red").trigger()
    assert view.plot.curves["current"].opts["pen"] == pen(6, dark=palette.current().dark)
    entry(menu, "Fit the value axis").trigger()
    entry(menu, "Remove current").trigger()
    assert "current" not in view.signals
    assert view.menu_of("").actions()[0].text().startswith("A&dd a curve")


def test_cursors_are_taken_hold_of_in_the_head_and_in_the_lanes(view: TrendView) -> None:
    view.cursors_action.trigger()
    assert view.cursors is not None
    left = Qt.MouseButton.LeftButton
    for part, number in ((view.head, 0), (view.plot.viewport(), 1)):
        at = view.plot.cursors[number]
        assert at is not None
        begin = QPoint(round(view.plot.x_of(at)), 10)
        QTest.mousePress(part, left, pos=begin)
        QTest.mouseMove(part, begin + QPoint(40, 0))
        QTest.mouseRelease(part, left, pos=begin + QPoint(40, 0))
        moved = view.plot.cursors[number]
        assert moved is not None
        assert moved - at == pytest.approx(40 * view.plot.pixel_s, abs=2 * view.plot.pixel_s)
    view.cursors_action.trigger()
    assert view.plot.cursors == (None, None)
    assert view.legend.isColumnHidden(LegendColumn.FIRST)


def test_an_alarm_is_a_flag_that_leads_to_its_moment(view: TrendView, qtbot: QtBot) -> None:
    view.set_flags([Flag(70.0, "fault"), Flag(5.0, "before the span")])
    with qtbot.waitSignal(view.moment_chosen) as chosen:
        QTest.mouseClick(view.head, Qt.MouseButton.LeftButton, pos=QPoint(round(view.plot.x_of(70.0)) + 3, 8))
    assert chosen.args == [70.0]
    drawn = view.plot.grab().toImage()
    assert palette.current().fault in {drawn.pixelColor(round(view.plot.x_of(70.0)), y).name() for y in range(10, 60)}


def test_a_screen_reader_is_told_what_is_shown(view: TrendView) -> None:
    view.legend.setFocus()
    view.plot.setFocus()
    told = view.plot.accessibleDescription()
    assert "speed 40.0 Hz" in told
    assert "running running" in told
    assert "60 s are shown" in told
    assert "live" in told
    view.cursors_action.trigger()
    QTest.keyClick(view.plot, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert "paused" in view.plot.accessibleDescription()
    assert "between the cursors" in view.plot.accessibleDescription()


def test_cursors_and_the_moment_live_through_other_curves_and_other_sources(view: TrendView, source: Told) -> None:
    view.plot.set_span(0.0, 100.0)
    QTest.keyClick(view.plot, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClick(view.plot, Qt.Key.Key_Right, Qt.KeyboardModifier.ControlModifier)
    view.set_moment(50.0)
    before = view.cursors
    view.show_signals(["speed", "current"])
    gc.collect()  # panes that are gone are gone for good
    QTest.keyClick(view.plot, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    after = view.cursors
    assert before is not None
    assert after is not None
    assert after[0] > before[0]
    assert after[1] == before[1]
    view.set_source(source)
    gc.collect()
    view.plot.set_moment(None)
    assert view.cursors is None


def test_another_palette_recolours_what_is_there(view: TrendView, qapp: QApplication, qtbot: QtBot) -> None:
    theme = Theme(qapp)
    theme.choose(Appearance.LIGHT)
    view.plot.set_cursor(0, 5.0)
    lanes = view.plot.lanes
    theme.choose(Appearance.DARK)
    qtbot.waitUntil(lambda: view.plot.backgroundBrush().color().name() == DARK.base)
    assert view.plot.lanes == lanes
    for number, name in enumerate(view.plot.names):
        assert view.plot.curves[name].opts["pen"] == pen(number, dark=True, wanted=name == "set")
    assert view.plot.cursors[0] == 5.0
    theme.choose(Appearance.LIGHT)
    qtbot.waitUntil(lambda: view.plot.backgroundBrush().color().name() == LIGHT.base)
    theme.deleteLater()


def test_a_recording_is_shown_whole_and_a_replay_is_marked(view: TrendView, source: Told) -> None:
    view.set_source(source, moment=0.0)
    assert view.plot.span == (0.0, 100.0)
    assert not view.follow_action.isEnabled()
    for begin, end in ((0.023061, 8.082656), (0.02359, 8.09555)):
        view.plot.set_span(begin, end)
        view.set_moment(begin)
        assert view.plot.span == (begin, end), "its first moment is in sight"
    view.plot.set_span(0.0, 10.0)
    view.set_moment(50.0)
    assert view.plot.span == (45.0, 55.0)
    assert values_of(view, LegendColumn.NOW)[1] == "20.0"


def test_the_table_shows_a_replay_where_it_stands_whatever_is_done_to_the_trend(
    view: TrendView, source: Told, qtbot: QtBot
) -> None:
    view.hide()
    view.set_source(source, moment=20.0)
    heading = view.legend.horizontalHeaderItem(LegendColumn.NOW)
    expected = ["10.0", "8.0", "2.00", "stopped"]
    assert heading is not None
    assert heading.text() == "Here"
    assert values_of(view, LegendColumn.NOW) == expected
    with qtbot.waitExposed(view):
        view.show()
    for deed in (
        view.refresh,
        view.show_all,
        lambda: view.show_signals(("set", "speed")),
        lambda: view.show_signals(("set", "speed", "current", "running")),
        lambda: view.spans.activated.emit(0),
        lambda: view.look_at(60.0, 70.0),
        view.follow_action.trigger,
        lambda: view.resize(700, 400),
        lambda: QTest.keyClick(view.plot, Qt.Key.Key_End),
    ):
        deed()
        assert values_of(view, LegendColumn.NOW) == expected[: len(view.signals)]
    view.set_moment(35.0)
    assert values_of(view, LegendColumn.NOW) == ["10.0", "14.0", "2.00", "running"]
    view.set_source(source)
    heading = view.legend.horizontalHeaderItem(LegendColumn.NOW)
    assert heading is not None
    assert heading.text() == "Now"
    assert values_of(view, LegendColumn.NOW) == ["25.0", "40.0", "3.00", "running"]


def test_a_signal_with_texts_has_them_in_the_table_and_no_difference(view: TrendView) -> None:
    view.plot.set_cursor(0, 10.0)
    view.plot.set_cursor(1, 40.0)
    assert values_of(view, LegendColumn.FIRST)[3] == "stopped"
    assert values_of(view, LegendColumn.SECOND)[3] == "running"
    assert values_of(view, LegendColumn.DIFFERENCE)[1:] == ["+12.0", "0.00", ""]


def test_the_values_at_the_cursors_stay_with_their_signals(view: TrendView) -> None:
    view.plot.set_cursor(0, 10.0)
    view.plot.set_cursor(1, 40.0)
    view.show_signals(("running", "speed"))
    assert view.legend.names == ("speed", "running"), "bits stand below"
    assert values_of(view, LegendColumn.FIRST) == ["4.0", "stopped"]
    assert values_of(view, LegendColumn.SECOND) == ["16.0", "running"]
    assert values_of(view, LegendColumn.NOW) == ["40.0", "running"]


def test_nothing_observed_is_said(qtbot: QtBot) -> None:
    view = TrendView(Settings(keep=False))
    qtbot.addWidget(view)
    assert "the line is connected" in view.plot.sentence
    view.set_source(Unread(PROJECT))
    assert len(view.plot.lanes) == 3, "what will be there is drawn, without values"
    assert "the line is connected" in view.plot.sentence
    assert set(values_of(view, LegendColumn.NOW)) == {NOTHING}


def test_the_values_between_the_cursors_are_saved(
    view: TrendView, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    view.plot.set_cursor(0, 49.85)
    view.plot.set_cursor(1, 50.15)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "values"), ""))
    view.save_values()
    with (tmp_path / "values.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    assert rows[0] == ["time", "seconds", "set [Hz]", "speed [Hz]", "current [A]", "running"]
    assert [row[3] for row in rows[1:]] == ["19.96", "20", "20.04"]
    assert [row[4] for row in rows[1:]] == ["2", "lost", "lost"]
    assert rows[1][0] == "2030-01-02T03:00:49.900+00:00"


def test_the_values_are_saved_for_a_spreadsheet_with_a_decimal_comma(
    view: TrendView, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    view.look_at(49.85, 50.15)
    offered: list[str] = []

    def answer(*asked: object) -> tuple[str, str]:
        offered[:] = str(asked[3]).split(";;")
        return str(tmp_path / "values"), offered[1]

    monkeypatch.setattr(QFileDialog, "getSaveFileName", answer)
    view.save_values()
    assert "decimal comma" in offered[1], "that of the language comes first"
    with (tmp_path / "values.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file, delimiter=";"))
    assert [row[3] for row in rows[1:] if row[3]] == ["19,96", "20", "20,04"]
    speak(None, ",")
    try:
        assert spreadsheets()[0].mark == ","
    finally:
        speak(None)


@pytest.mark.parametrize("ending", ["png", "svg"])
def test_the_picture_is_saved(view: TrendView, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ending: str) -> None:
    path = tmp_path / f"trend.{ending}"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    view.save_picture()
    if ending == "png":
        image = QImage(str(path))
        assert image.width() > 300
        assert len({image.pixel(x, image.height() // 2) for x in range(0, image.width(), 3)}) > 1
    else:
        assert "<svg" in path.read_text(encoding="utf-8")[:300]


def test_a_file_that_cannot_be_written_is_told(
    view: TrendView, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "none" / "t.png"), ""))
    with qtbot.waitSignal(view.said) as said:
        view.save_picture()
    assert "cannot be written" in said.args[0]


def test_the_times_along_the_axis_are_those_of_the_events_also_when_the_clock_was_set(
    view: TrendView, source: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    def civil(moment: float) -> datetime.datetime:
        return Told.civil(source, moment - 3600.0 if moment >= 50.0 else moment)

    def hour_of_the_axis() -> int:
        marks = view.plot.marks()
        assert len(marks) > 1
        assert all(mark.civil == civil(mark.at) for mark in marks)
        return marks[0].civil.hour

    monkeypatch.setattr(source, "civil", civil)
    view.look_at(10.0, 40.0)
    view.plot.set_cursor(0, 60.0)
    assert hour_of_the_axis() == source.civil(40.0).hour == 3
    view.look_at(52.0, 90.0)
    assert hour_of_the_axis() == source.civil(90.0).hour == 2
    assert view.plot.cursors[0] == 60.0
    times, values = drawn(view, "speed")
    assert np.allclose(values, 0.4 * times)


def test_the_grid_moves_with_the_time_and_the_span_between_the_cursors_is_tinted(view: TrendView) -> None:
    """Kept as a picture, the ground went on showing where the marks had been."""
    plot = view.plot
    row = int(plot.height() - 6)  # of the band, between its curves

    def ground() -> QImage:
        drawn: QImage = plot.grab().toImage()
        return drawn

    ground()
    for begin in (20.0, 23.7):
        plot.set_span(begin, begin + 60.0)
        image = ground()
        places = [round(plot.x_of(mark.at)) for mark in plot.marks() if plot.x_of(mark.at) < plot.width() - 4]
        assert places
        for x in places:
            assert image.pixelColor(x, row) != image.pixelColor(x + 3, row), (begin, x)
    bare = ground()
    for number, at in enumerate((40.0, 60.0)):
        plot.set_cursor(number, at)
    between = round(plot.x_of(50.0)) + 3
    assert ground().pixelColor(between, row) != bare.pixelColor(between, row)


def test_cursors_stand_at_the_thirds_of_what_was_measured(view: TrendView) -> None:
    """A few seconds of values in a minute: both cursors stood on one another."""
    view.plot.set_span(-500.0, 110.0)
    view.cursors_action.trigger()
    begin, end = view.plot.span
    assert (begin, end) == (0.0, 100.0)
    assert view.plot.cursors == pytest.approx((100 / 3, 200 / 3))
    assert "measure" in view.state.text()


def test_without_a_line_nothing_is_said_to_be_kept_or_followed(view: TrendView) -> None:
    view.receive(False)
    assert "kept" not in view.state.text()
    assert not view.follow_action.isEnabled()
    view.receive(True)
    assert view.follow_action.isEnabled()
    assert "live" in view.state.text()
