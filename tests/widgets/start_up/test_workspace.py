"""The Start-up workplace in a real window: live curves and events, a recording made and played, a step measured."""

from __future__ import annotations

import gc
import sqlite3
import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QScrollArea, QTabWidget
from pytestqt.qtbot import QtBot

from app.events.events import Event, EventKind
from app.follower.drive_bank import DriveBank
from app.project.binding import bindings
from app.project.model import Project
from app.project_file.files import load
from app.recording.clock import CivilClock
from app.recording.reader import Recording
from app.recording.writer import Writer
from app.signals.reading import Quality
from projects import demo_path
from tests.pictures.stage import SMALLEST_SCREEN, Setting, settle, staged
from tests.widgets.driving import MakeWindow
from widgets.document.settings import Settings
from widgets.kit.commands import why_off
from widgets.kit.language import Language
from widgets.kit.scaling import scaled
from widgets.shell.window import BENCH, DESIGN, START_UP, MainWindow
from widgets.start_up.trend_lanes import LEAST
from widgets.start_up.trend_legend import LegendColumn
from widgets.start_up.workspace import StartUpWorkspace

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
ALT = Qt.KeyboardModifier.AltModifier


pytestmark = pytest.mark.usefixtures("no_thread_is_left")


@pytest.fixture
def window(make_window: MakeWindow, pump: Project) -> MainWindow:
    made = make_window(Settings(keep=False), None, workspace=BENCH)
    made.take(pump, None)
    return made


@pytest.fixture
def start_up(window: MainWindow) -> StartUpWorkspace:
    QTest.keyClick(window, Qt.Key.Key_3, CTRL)
    assert window.workspace_number == START_UP
    return window.start_up


def connect(window: MainWindow, qtbot: QtBot) -> None:
    QTest.keyClick(window, Qt.Key.Key_K, CTRL)
    qtbot.waitUntil(lambda: rows(window.start_up)[:1] == ["BOOSTER PUMP  remote"])


def rows(start_up: StartUpWorkspace) -> list[str]:
    return [row.text.rstrip() for row in start_up.face.rows]


def press(start_up: StartUpWorkspace, *keys: Qt.Key) -> None:
    start_up.face.setFocus()
    for key in keys:
        QTest.keyClick(start_up.face, key)


def now_of(start_up: StartUpWorkspace) -> str:
    item = start_up.trend.legend.item(0, LegendColumn.NOW)
    return "" if item is None else item.text()


def subjects(start_up: StartUpWorkspace) -> list[str]:
    return [event.subject for event in start_up.events.model.shown]


def test_the_machine_is_operated_and_watched(window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot) -> None:
    assert "the line is connected" in start_up.trend.plot.sentence
    assert start_up.trend.signals[:2] == ("speed set point", "frequency"), "the lanes that there will be"
    connect(window, qtbot)
    qtbot.waitUntil(lambda: window.live.readings()["run command"].quality is Quality.GOOD)  # else it is not changed
    button = start_up.face.keypad.buttons["start"]
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "running" in subjects(start_up))
    source = start_up.observation.source
    assert source is not None
    qtbot.waitUntil(lambda: source.at("frequency", source.span()[1]) > 1)
    assert start_up.trend.signals[:2] == ("speed set point", "frequency")
    drawn = start_up.trend.plot.curves["frequency"].getData  # no arrays before it is drawn for the first time
    qtbot.waitUntil(lambda: drawn()[1] is not None and float(np.nanmax(drawn()[1], initial=0)) > 1)


def test_a_trip_is_listed_as_an_alarm_and_acknowledged_by_key(
    window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot
) -> None:
    connect(window, qtbot)
    session = window.live.session
    assert session is not None
    assert session.simulation is not None
    drive = next(iter(session.simulation.models.values()))
    assert isinstance(drive, DriveBank)
    drive.inputs.external_fault = True
    qtbot.waitUntil(lambda: start_up.alarm.shown is not None)
    assert [flag.words for flag in start_up.trend.plot.flags] == ["fault"]
    QTest.keyClick(start_up, Qt.Key.Key_A, ALT | SHIFT)
    assert start_up.alarm.state.text() == "active, acknowledged"
    assert not start_up.alarm.acknowledge.isEnabled()


def test_a_recording_is_made_and_played_while_the_panel_writes_nothing(
    window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    start_up.said.connect(lambda words, _trouble: said.append(words))
    QTest.keyClick(window, Qt.Key.Key_R, CTRL)
    assert "Connect first" in said[-1]
    connect(window, qtbot)
    window.settings.start_up_folder = tmp_path
    QTest.keyClick(window, Qt.Key.Key_R, CTRL)
    assert start_up.observation.recording, "at once: no dialog stands between a START and its recording"
    begun = next(tmp_path.glob("*.fanrec"))
    assert begun.name.startswith("Booster pump")
    assert str(begun) in said[-1]
    press(start_up, Qt.Key.Key_Return, Qt.Key.Key_Up, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "recording 00:00:0" in start_up.recording_control.state.text())
    start_up.events.note.setFocus()
    QTest.keyClicks(start_up.events.note, "first run")
    QTest.keyClick(start_up.events.note, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: subjects(start_up).count("speed set point") >= 2)
    QTest.keyClick(window, Qt.Key.Key_R, CTRL | ALT)
    assert not start_up.observation.recording
    assert str(begun) in said[-1]
    path = tmp_path / "run.fanrec"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path.with_suffix("")), ""))
    start_up.recording_control.rename_action.trigger()
    assert path.exists()
    assert not begun.exists()
    assert window.last_minutes.action in start_up.record_menu.actions()
    window.live.disconnect_from_line()

    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    QTest.keyClick(window, Qt.Key.Key_O, CTRL | ALT)
    bar = start_up.replay_bar
    assert bar.isVisible()
    replay = bar.replay
    assert replay is not None
    bar.seek(replay.end)
    assert "first run" in [event.text for event in start_up.events.model.shown]
    assert rows(start_up)[1] == "Set point   41.8 Hz"
    bar.seek(replay.begin)
    assert rows(start_up)[1] != "Set point   41.8 Hz"
    bar.speeds.setFocus()
    QTest.keyClick(bar.speeds, Qt.Key.Key_End)
    QTest.keyClick(window, Qt.Key.Key_Space, ALT | SHIFT)
    qtbot.waitUntil(lambda: not replay.playing)
    assert rows(start_up)[1] == "Set point   41.8 Hz"
    at = replay.at
    QTest.keyClick(window, Qt.Key.Key_Comma, ALT | SHIFT)
    assert replay.at < at
    press(start_up, Qt.Key.Key_Return, Qt.Key.Key_Up, Qt.Key.Key_Return)
    assert rows(start_up)[2:] == ["not written: writing", "is off"]
    assert start_up.why.text() == "'speed set point': “not written: writing is off”: not possible in a recording"
    QTest.keyClick(window, Qt.Key.Key_W, ALT | SHIFT)
    assert bar.isHidden()


def test_curves_are_kept_with_the_recording_and_with_the_session(
    window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot, tmp_path: Path
) -> None:
    connect(window, qtbot)
    usual = start_up.trend.signals
    assert start_up.recording_control.record_into(tmp_path / "run.fanrec")
    start_up.trend.show_signals(("current", "running"))
    start_up.observation.end_recording()
    window.last_minutes.save_into(tmp_path / "last.fanrec")
    qtbot.waitUntil(lambda: "Saved in last.fanrec" in window.told)
    start_up.trend.show_signals(usual)
    for name in ("run", "last"):
        assert start_up.play(tmp_path / f"{name}.fanrec")
        assert start_up.trend.signals == ("current", "running")
        start_up.close_recording()
        assert start_up.trend.signals == usual


def test_saving_the_last_minutes_tells_how_far_it_is_and_can_be_stopped(
    window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    connect(window, qtbot)
    monkeypatch.setattr("widgets.kit.notice_slot.WORK_AFTER_MS", 0)

    def save(_kept: object, _path: Path, _curves: object, tell: Callable[[float], object]) -> int:
        while True:  # as a drive that takes long
            tell(0.4)
            time.sleep(0.01)

    monkeypatch.setattr("app.recording.saving.save", save)
    window.last_minutes.save_into(tmp_path / "last.fanrec")
    slot = window.notices
    qtbot.waitUntil(lambda: slot.words == "Saving last.fanrec\u2026" and slot.progress.value() == 40)
    assert why_off(window.last_minutes.action) == "saving is in progress"
    (stop,) = slot.buttons
    stop.click()
    qtbot.waitUntil(lambda: window.told == "last.fanrec was not saved: it was stopped")
    assert window.last_minutes.action.isEnabled()


def test_curves_that_were_chosen_in_a_project_are_there_the_next_time(
    make_window: MakeWindow, pump: Project, tmp_path: Path
) -> None:
    settings, one, other = Settings(keep=False), tmp_path / "pump.toml", tmp_path / "other.toml"

    def curves(path: Path) -> tuple[str, ...]:
        window = make_window(settings, None, workspace=START_UP)
        window.take(pump, path)
        return window.start_up.trend.signals

    usual = curves(one)
    assert "current" in usual
    window = make_window(settings, None, workspace=START_UP)
    window.take(pump, one)
    window.start_up.trend.show_signals(("running", "current"))
    assert curves(one) == ("running", "current")
    assert curves(other) == usual, "those of another project are its own"
    window.take(pump, one)
    window.start_up.trend.show_signals(usual)
    assert settings.curves(one) == (), "what is shown anyway is not remembered"


@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
@pytest.mark.parametrize("percent", [150, 200])
def test_large_sizes_keep_the_work(percent: int, language: Language) -> None:
    with staged(Setting(language=language, percent=percent)) as window:
        window.show_workspace(START_UP)
        settle()
        start_up = window.start_up
        assert (window.width(), window.height()) == SMALLEST_SCREEN
        tabs = start_up.findChild(QTabWidget)
        assert tabs is not None
        assert tabs.count() == 3, "legend, events, response"
        plot = start_up.trend.plot
        high = [round(plot.curves[lane.names[0]].getViewBox().height()) for lane in plot.lanes if not lane.band]
        assert min(high) >= scaled(LEAST), "they are scrolled, not squeezed"
        for button in start_up.face.keypad.buttons.values():
            assert button.visibleRegion().boundingRect().size() == button.size()


def test_recordings_are_made_and_looked_for_where_the_last_one_lies(
    window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    offered: list[Path] = []
    first, second = tmp_path / "one" / "run.fanrec", tmp_path / "two" / "run.fanrec"
    first.parent.mkdir()
    second.parent.mkdir()
    Writer(second, load(demo_path("booster-pump"))).close()

    def answer(path: Path) -> Callable[..., tuple[str, str]]:
        def asked(_parent: object, _title: str, offer: str, _kinds: str, *_: object) -> tuple[str, str]:
            offered.append(Path(offer))
            return str(path), ""

        return asked

    connect(window, qtbot)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", answer(first))
    QTest.keyClick(window, Qt.Key.Key_R, CTRL | ALT | SHIFT)
    QTest.keyClick(window, Qt.Key.Key_R, CTRL | ALT)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", answer(second))
    QTest.keyClick(window, Qt.Key.Key_O, CTRL | ALT)
    assert offered[1] == first.parent
    QTest.keyClick(window, Qt.Key.Key_W, ALT | SHIFT)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", answer(second.with_name("next.fanrec")))
    QTest.keyClick(window, Qt.Key.Key_R, CTRL | ALT | SHIFT)
    assert offered[2].parent == second.parent
    assert offered[2].suffix == ".fanrec"


def test_what_is_no_recording_is_told(
    window: MainWindow, start_up: StartUpWorkspace, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    start_up.said.connect(lambda words, _trouble: said.append(words))
    (tmp_path / "x.fanrec").write_text("no recording")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(tmp_path / "x.fanrec"), ""))
    QTest.keyClick(window, Qt.Key.Key_O, CTRL | ALT)
    assert "is not a recording" in said[-1]
    assert start_up.replay_bar.isHidden()


def test_a_step_is_found_and_measured(
    window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot, tmp_path: Path
) -> None:
    project = load(demo_path("booster-pump"))
    clock = [0.0]
    writer = Writer(tmp_path / "step.fanrec", project, clock=CivilClock(lambda: clock[0]))
    for number in range(600):
        at = clock[0] = number * 0.1
        wanted = 20.0 if at < 10 else 40.0
        actual = 20.0 if at < 10 else 40 - 20 * np.exp(-(at - 10) / 2.0)
        for name, value in (("speed set point", wanted), ("frequency", actual)):
            words = bindings(project)[name].encode(Fraction(round(value * 1000), 1000))
            assert isinstance(words, tuple)
            writer.add(name, at, Quality.GOOD, words)
    writer.close()
    assert start_up.play(tmp_path / "step.fanrec")
    view = start_up.response
    assert (view.signal.currentText(), view.set_point.currentText()) == ("frequency", "speed set point")
    where = view.next_step.mapTo(window, QPoint(0, 0))
    QTest.mouseClick(view.next_step, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(view.figures) > 0)
    assert view.next_step.mapTo(window, QPoint(0, 0)) == where, "it can be clicked again"
    figures = view.figures
    assert figures[0] == ("From, to", "20.0 \N{RIGHTWARDS ARROW} 40.0", "Hz")
    assert figures[2:] == (
        ("Overshoot", "0.5 at most", "%"),
        figures[3],
        ("Ripple at the end", "0.0", "Hz"),
        ("Set point minus final value", "0.0", "Hz"),
        ("Least, greatest", "20.0; 40.0", "Hz"),
    ), "no figure is finer than the register, the digits or the polling"
    for name, number, expected, within in (
        ("Rise time", 1, 2.0 * np.log(9), 0.1),
        ("Settling time", 3, 2.0 * np.log(50), 0.15),
    ):
        assert (figures[number].name, figures[number].unit) == (name, "s")
        value, off = figures[number].value.split(" \u00b1 ")
        assert off == "0.1"
        assert float(value) == pytest.approx(expected, abs=within)
    QTest.keyClick(view, Qt.Key.Key_C, ALT | SHIFT)
    assert QApplication.clipboard().text().splitlines()[2] == "Overshoot\t0.5 at most\t%"
    assert start_up.trend.cursors is not None
    QTest.keyClick(window, Qt.Key.Key_W, ALT | SHIFT)
    gc.collect()  # panes that are gone are gone for good
    connect(window, qtbot)
    qtbot.waitUntil(lambda: now_of(start_up)[:1].isdigit())
    assert start_up.trend.cursors is None
    assert view.result.text().startswith("Put the cursors"), "what was marked in the recording is not measured live"


def test_what_happened_before_start_up_was_opened_is_there_with_its_times(
    window: MainWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    QTest.keyClick(window, Qt.Key.Key_K, CTRL)
    qtbot.waitUntil(lambda: window.live.readings()["speed set point"].quality is Quality.GOOD)
    connected = time.monotonic()
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Up, Qt.Key.Key_Return):
        QTest.keyClick(window.bench.face, key)
    pressed = time.monotonic()
    qtbot.waitUntil(lambda: any(event.kind is EventKind.WRITTEN for event in window.observation.events))
    qtbot.waitUntil(lambda: time.monotonic() > pressed + 0.5)
    assert window.findChild(StartUpWorkspace) is None
    QTest.keyClick(window, Qt.Key.Key_3, CTRL)
    shown = window.start_up.events.model.shown
    assert [event.at for event in shown] == sorted(event.at for event in shown)
    times = {event.kind: event.at for event in shown}
    assert connected < times[EventKind.ENTERED] < pressed
    assert times[EventKind.ENTERED] < times[EventKind.WRITTEN] < pressed + 0.4
    source = window.observation.source
    assert source is not None
    assert source.span()[0] < connected, "curves reach back to the connection"
    assert not np.isnan(source.at("speed set point", connected))


@pytest.mark.parametrize("workspace", [DESIGN, BENCH, START_UP])
def test_the_last_minutes_are_saved_by_key_in_every_workplace(
    window: MainWindow, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, workspace: int
) -> None:
    path = tmp_path / "trip.fanrec"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path.with_suffix("")), ""))
    assert "there has been no connection yet" in why_off(window.last_minutes.action)
    QTest.keyClick(window, Qt.Key.Key_K, CTRL)
    qtbot.waitUntil(lambda: window.live.readings()["speed set point"].quality is Quality.GOOD)
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Up, Qt.Key.Key_Return):
        QTest.keyClick(window.bench.face, key)
    qtbot.waitUntil(lambda: any(event.kind is EventKind.WRITTEN for event in window.observation.events))
    window.live.disconnect_from_line()  # also afterwards
    window.show_workspace(workspace)
    with qtbot.waitActive(window):  # offscreen no window manager gives it back what a part took while it was made
        window.activateWindow()
    QTest.keyClick(window, Qt.Key.Key_S, CTRL | ALT)
    qtbot.waitUntil(lambda: "Saved in trip.fanrec: the last 0 min" in window.told)
    history = window.observation.history
    assert history is not None
    with Recording.open(path) as recording:
        assert recording.count("frequency") == sum(len(block) for block in history.samples("frequency")) > 0
        told = [(recording.civil(event.at), event.text) for event in recording.events(*recording.span())]
        assert [
            (history.clock.at(event.at), event.text) for event in history.events if event.kind is EventKind.WRITTEN
        ] == [pair for pair in told if "was written" in pair[1]]
    with qtbot.waitActive(window):
        window.activateWindow()
    QTest.keyClick(window, Qt.Key.Key_S, CTRL | ALT)
    qtbot.waitUntil(lambda: "already exists" in window.notices.words)


def test_no_view_of_a_replay_shows_another_time_than_the_play_head(
    window: MainWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    """The recording is opened before Start-up was ever shown, which is how a file is opened from outside."""
    project = load(demo_path("booster-pump"))
    clock = [0.0]
    writer = Writer(tmp_path / "ramp.fanrec", project, clock=CivilClock(lambda: clock[0]))
    for number in range(301):
        clock[0] = number * 0.1
        for name, value in (("speed set point", number), ("frequency", 2 * number)):
            words = bindings(project)[name].encode(Fraction(value, 10))
            assert isinstance(words, tuple)
            writer.add(name, clock[0], Quality.GOOD, words)
        if number % 50 == 0:
            writer.event(Event(clock[0], EventKind.NOTE, "", f"at {number // 10} s"))
    writer.close()

    def shown(window: MainWindow, at: int) -> None:
        start_up = window.start_up
        assert rows(start_up)[1] == f"Set point   {at:2}.0 Hz"
        names = start_up.trend.signals
        values = {
            name: item.text()
            for row, name in enumerate(names)
            if (item := start_up.trend.legend.item(row, LegendColumn.NOW)) is not None
        }
        assert values["speed set point"] == f"{at}.0"
        assert float(values["frequency"]) == 2.0 * at
        assert [event.text for event in start_up.events.model.shown] == [f"at {s} s" for s in range(0, at + 1, 5)]

    assert window.open_file(tmp_path / "ramp.fanrec")
    start_up = window.start_up
    shown(window, 0)
    start_up.trend.show_signals(("frequency", "speed set point"))
    shown(window, 0)
    start_up.replay_bar.seek(12.0)
    shown(window, 12)
    window.show_workspace(BENCH)
    window.show_workspace(START_UP)
    shown(window, 12)
    second = MainWindow(Settings(keep=False), None, workspace=START_UP, former=window)
    qtbot.addWidget(second)
    with qtbot.waitExposed(second):
        second.show()
    shown(second, 12)
    second.start_up.close_recording()
    assert rows(second.start_up) == [], "nothing is connected"
    second.leave()


def test_another_window_takes_over_with_curves_events_and_the_recording(
    window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot, tmp_path: Path
) -> None:
    connect(window, qtbot)
    assert start_up.recording_control.record_into(tmp_path / "run.fanrec")
    press(start_up, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: len(subjects(start_up)) > 0)
    second = MainWindow(Settings(keep=False), None, workspace=START_UP, former=window)
    qtbot.addWidget(second)
    try:
        assert second.start_up.observation.recording
        assert subjects(second.start_up) == subjects(start_up)
        count = len(subjects(second.start_up))
        press(second.start_up, Qt.Key.Key_Right)
        qtbot.waitUntil(lambda: len(subjects(second.start_up)) > count)
    finally:
        second.leave()
    with Recording.open(tmp_path / "run.fanrec") as recording:
        assert recording.ended is not None


def test_a_recording_is_opened_like_a_file_and_what_is_none_is_told(window: MainWindow, tmp_path: Path) -> None:
    path = tmp_path / "a.fanrec"
    project = load(demo_path("booster-pump"))
    writer = Writer(path, project)
    writer.add("frequency", writer.seconds, Quality.GOOD, (5,))
    writer.close()
    assert window.open_file(path)
    assert window.workspace_number == START_UP
    assert window.start_up.replay_bar.replay is not None
    (tmp_path / "b.fanrec").write_bytes(b"nothing")
    assert not window.open_file(tmp_path / "b.fanrec")
    assert "is not a recording" in window.notices.words
    window.start_up.close_recording()


def test_a_recording_that_is_refused_is_named_with_what_to_do_until_another_is_played(
    window: MainWindow, tmp_path: Path
) -> None:
    for name in ("evil", "alone", "good"):
        writer = Writer(tmp_path / f"{name}.fanrec", load(demo_path("booster-pump")))
        writer.add("frequency", time.monotonic(), Quality.GOOD, (5,))
        writer.commit()
        if name == "alone":
            writer.abandon()
        else:
            writer.close()
    with sqlite3.connect(tmp_path / "evil.fanrec") as database:
        database.execute(
            "CREATE VIEW more AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i FROM n) SELECT i FROM n"
        )
    database.close()
    assert not window.open_file(tmp_path / "evil.fanrec")
    said = window.notices.words
    assert "evil.fanrec was not opened" in said
    assert "ask the sender" in said
    assert window.open_file(tmp_path / "alone.fanrec")
    assert "alone.fanrec was not closed properly" in window.notices.words
    assert window.open_file(tmp_path / "good.fanrec")
    assert window.notices.about == ""
    window.start_up.close_recording()


def test_all_figures_of_a_response_stand_below_the_face_on_the_least_of_screens(
    window: MainWindow, start_up: StartUpWorkspace, qtbot: QtBot
) -> None:
    window.resize(1366, 768)
    area = next(each for each in start_up.findChildren(QScrollArea) if each.widget() is start_up.response)
    qtbot.waitUntil(lambda: start_up.width() == 1366)
    assert area.verticalScrollBar().maximum() == 0
    assert area.mapTo(start_up, QPoint(0, 0)) == start_up.alarm.mapTo(start_up, QPoint(0, start_up.alarm.height()))
