"""The limits of recordings: asked for by keys, said in words, kept, and gone by while a recording is made."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel
from pytestqt.qtbot import QtBot

from app.project.model import Project
from app.recording.limits import Limits
from app.recording.reader import Recording
from tests.widgets.driving import MakeWindow
from widgets.document.settings import Settings
from widgets.kit.commands import list_commands
from widgets.live.recording_limits import LimitsDialog, outcome, size_words, time_words
from widgets.shell.finder import command_targets
from widgets.shell.window import START_UP, MainWindow

KEY = Qt.Key
CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
ALT = Qt.KeyboardModifier.AltModifier


pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def window(make_window: MakeWindow, pump: Project) -> MainWindow:
    made = make_window(Settings(), None, workspace=START_UP)
    made.take(pump, None)
    QTest.keyClick(made, KEY.Key_3, CTRL)
    return made


def asked(window: MainWindow, qtbot: QtBot) -> LimitsDialog:
    """The dialog, opened by its key."""
    QTest.keyClick(window, KEY.Key_L, ALT | SHIFT)
    dialog = window.findChild(LimitsDialog)
    assert dialog is not None
    qtbot.waitUntil(dialog.isActiveWindow)
    return dialog


def fill_in(dialog: LimitsDialog, size: str, time: str, unit: str, files: str) -> None:
    """Type over all of it, from part to part by Tab, the unit by its first letter."""
    for text in (size, time, unit, files):
        widget = dialog.focusWidget()
        assert widget is not None
        if widget is not dialog.unit:
            QTest.keyClick(widget, KEY.Key_A, CTRL)
            QTest.keyClick(widget, KEY.Key_Delete)
        QTest.keyClicks(widget, text)
        if widget is not dialog.files_edit:
            QTest.keyClick(widget, KEY.Key_Tab)


def confirm(window: MainWindow, dialog: LimitsDialog, qtbot: QtBot) -> None:
    assert dialog.focusWidget() is dialog.files_edit
    QTest.keyClick(dialog.files_edit, KEY.Key_Return)
    to_window(window, qtbot)


def to_window(window: MainWindow, qtbot: QtBot) -> None:
    """Go on in the window: without a desktop nobody else brings it to the front."""
    qtbot.waitUntil(lambda: window.findChild(LimitsDialog) is None)
    with qtbot.waitActive(window):
        window.activateWindow()


def begin(window: MainWindow, qtbot: QtBot, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Connect to the simulated follower and record into `path`."""
    QTest.keyClick(window, KEY.Key_K, CTRL)
    qtbot.waitUntil(lambda: any(each.quality == "good" for each in window.live.readings().values()))
    # The system's own file dialog cannot be operated in a test.
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_more: (str(path), ""))
    QTest.keySequence(window, "Ctrl+Alt+Shift+R")


def state(window: MainWindow) -> str:
    return window.start_up.recording_control.state.text()


def test_files_follow_one_another_and_the_oldest_goes(
    window: MainWindow, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    dialog = asked(window, qtbot)
    fill_in(dialog, "250", "1", "s", "2")
    confirm(window, dialog, qtbot)
    limits = Limits(size=250_000_000, seconds=1.0, files=2)
    assert Settings().recording_limits == limits
    begin(window, qtbot, tmp_path / "run.fanrec", monkeypatch)
    qtbot.waitUntil(lambda: "run.fanrec, file 1 (kept: 2)" in state(window))
    qtbot.waitUntil(lambda: "run-2.fanrec, file 2 (kept: 2)" in state(window), timeout=20_000)
    qtbot.waitUntil(lambda: "run-3.fanrec, file 3 (kept: 2)" in state(window), timeout=20_000)
    qtbot.waitUntil(lambda: not (tmp_path / "run.fanrec").exists())
    QTest.keyClick(window, KEY.Key_R, CTRL | ALT)
    files = list(tmp_path.glob("*.fanrec"))
    assert len(files) == 2
    assert state(window).startswith("recorded 00:00:")
    assert " files \u00b7 last " in state(window)
    for file in files:
        with Recording.open(file) as recording:
            assert recording.ended is not None
            assert not recording.damage


def test_they_count_at_once_for_a_recording_that_is_being_made(
    window: MainWindow, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begin(window, qtbot, tmp_path / "run.fanrec", monkeypatch)
    qtbot.waitUntil(lambda: "\u00b7 run.fanrec, " in state(window))
    dialog = asked(window, qtbot)
    fill_in(dialog, "", "1", "s", "")
    confirm(window, dialog, qtbot)
    qtbot.waitUntil(lambda: "\u00b7 run-2.fanrec, file 2, " in state(window), timeout=20_000)
    dialog = asked(window, qtbot)
    fill_in(dialog, "", "", "m", "0")
    confirm(window, dialog, qtbot)
    assert " samples in total" in window.start_up.recording_control.state.toolTip()
    QTest.keyClick(window, KEY.Key_R, CTRL | ALT)
    assert (tmp_path / "run.fanrec").exists()
    assert Settings().recording_limits == Limits()


@pytest.mark.skipif(sys.platform == "win32", reason="a folder with an open file is not renamed there")
def test_trouble_is_told_in_every_workplace_and_that_it_is_over(
    window: MainWindow, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.settings.recording_limits = Limits(seconds=1.0)
    folder = tmp_path / "folder"
    folder.mkdir()
    begin(window, qtbot, folder / "run.fanrec", monkeypatch)
    QTest.keyClick(window, KEY.Key_2, CTRL)
    folder.rename(tmp_path / "elsewhere")  # where no other file can begin
    qtbot.waitUntil(lambda: "run-" in window.notices.words, timeout=20_000)
    (tmp_path / "elsewhere").rename(folder)
    qtbot.waitUntil(lambda: window.told == "The recording continues.", timeout=20_000)
    QTest.keyClick(window, KEY.Key_3, CTRL)
    qtbot.waitUntil(lambda: "\u00b7 run-" in state(window))
    QTest.keyClick(window, KEY.Key_R, CTRL | ALT)
    with Recording.open(folder / "run.fanrec") as recording:
        assert recording.ended is not None


def test_the_panel_stays_in_reach_and_there_is_one_dialog_only(window: MainWindow, qtbot: QtBot) -> None:
    dialog = asked(window, qtbot)
    assert not dialog.isModal()
    QTest.keyClick(window, KEY.Key_L, ALT | SHIFT)
    assert window.findChildren(LimitsDialog) == [dialog]
    QTest.keyClick(dialog, KEY.Key_Escape)
    to_window(window, qtbot)


def test_escape_changes_nothing(window: MainWindow, qtbot: QtBot) -> None:
    window.settings.recording_limits = Limits(size=5_000_000, seconds=5400.0, files=7)
    dialog = asked(window, qtbot)
    assert (dialog.size_edit.text(), dialog.time_edit.text(), dialog.files_edit.text()) == ("5", "90", "7")
    fill_in(dialog, "9", "9", "h", "9")
    QTest.keyClick(dialog, KEY.Key_Escape)
    to_window(window, qtbot)
    assert window.settings.recording_limits == Limits(size=5_000_000, seconds=5400.0, files=7)


def test_it_is_found_by_its_name_in_the_menu_of_start_up(window: MainWindow) -> None:
    found = [each for each in list_commands(window.menus.all()) if each.name == "Limits of recordings"]
    assert [each.path for each in found] == [("Start-up",)]
    assert any("Limits of recordings" in str(target) for target in command_targets(found))


@pytest.mark.parametrize(
    ("size", "time", "unit", "files", "limits"),
    [
        ("", "", "m", "", Limits()),
        ("0", "0", "m", "0", Limits()),
        ("1,5", "", "m", "", Limits(size=1_500_000)),
        ("", "0.5", "h", "3", Limits(seconds=1800.0, files=3)),
        (" 20 ", "10", "m", " 4 ", Limits(size=20_000_000, seconds=600.0, files=4)),
    ],
)
def test_what_is_typed_is_read(
    window: MainWindow, qtbot: QtBot, size: str, time: str, unit: str, files: str, limits: Limits
) -> None:
    dialog = asked(window, qtbot)
    fill_in(dialog, size, time, unit, files)
    confirm(window, dialog, qtbot)
    assert window.settings.recording_limits == limits


@pytest.mark.parametrize(
    ("size", "time", "unit", "files", "words"),
    [
        ("much", "", "m", "", "Size of a file in MB: 'much' is not a number"),
        ("-5", "", "m", "", "The size of a file must be 1 MB to 1 TB."),
        ("0.2", "", "m", "", "The size of a file must be 1 MB to 1 TB."),
        ("1e30", "", "m", "", "The size of a file must be 1 MB to 1 TB."),
        ("", "soon", "m", "", "Time of a file: 'soon' is not a number"),
        ("", "0.001", "m", "", "The time of a file must be 1 s to 10000 h."),
        ("", "", "m", "2.5", "Number of files kept: '2.5' is not a whole number"),
        ("", "", "m", "-1", "At most 100000 files can be kept; 0 means all."),
    ],
)
def test_what_cannot_be_is_said_and_cannot_be_confirmed(
    window: MainWindow, qtbot: QtBot, size: str, time: str, unit: str, files: str, words: str
) -> None:
    dialog = asked(window, qtbot)
    fill_in(dialog, size, time, unit, files)
    assert dialog.reason.isVisible()
    assert dialog.reason.text() == words
    assert not dialog.deed.isEnabled()
    QTest.keyClick(dialog.files_edit, KEY.Key_Return)
    assert dialog.isVisible()
    QTest.keyClick(dialog, KEY.Key_Escape)
    to_window(window, qtbot)
    assert window.settings.recording_limits == Limits()


def test_labels_lead_to_what_they_name(window: MainWindow, qtbot: QtBot) -> None:
    dialog = asked(window, qtbot)
    for key, edit in ((KEY.Key_F, dialog.time_edit), (KEY.Key_K, dialog.files_edit), (KEY.Key_A, dialog.size_edit)):
        QTest.keyClick(dialog, key, ALT)
        assert QApplication.focusWidget() is edit
    buddies = [label.buddy() for label in dialog.findChildren(QLabel) if label.buddy() is not None]
    assert buddies == [dialog.size_edit, dialog.time_edit, dialog.files_edit]
    QTest.keyClick(dialog, KEY.Key_Escape)
    to_window(window, qtbot)


@pytest.mark.parametrize(
    ("limits", "sentences"),
    [
        (Limits(), ["A recording is a single file, regardless of its length.", "Nothing is deleted."]),
        (
            Limits(files=3),
            [
                "A recording is a single file, regardless of its length.",
                "The number of files only applies when new files are started.",
            ],
        ),
        (
            Limits(size=100_000_000, files=5),
            [
                "A recording starts a new file at 100 MB.",
                "At most about 500 MB of a recording are kept; beyond that the oldest file is deleted.",
            ],
        ),
        (
            Limits(seconds=1800, files=5),
            [
                "A recording starts a new file after 30 min.",
                "At most about 2.5 h of a recording are kept; beyond that the oldest file is deleted.",
            ],
        ),
        (
            Limits(size=500_000_000, seconds=3600, files=4),
            [
                "A recording starts a new file at 500 MB or after 1 h.",
                "At most about 2 GB and 4 h of a recording are kept; beyond that the oldest file is deleted.",
            ],
        ),
        (
            Limits(seconds=3600),
            ["A recording starts a new file after 1 h.", "All files are kept."],
        ),
        (
            Limits(seconds=3600, files=1),
            [
                "A recording starts a new file after 1 h.",
                "⚠ Whenever a new file starts, everything recorded before it is deleted.",
            ],
        ),
    ],
)
def test_what_will_come_of_them_is_said(limits: Limits, sentences: list[str]) -> None:
    assert outcome(limits) == sentences


def test_amounts_are_said_in_the_unit_that_is_easily_grasped() -> None:
    sizes = [1_000_000, 1_500_000, 999_000_000, 1_250_000_000, 10**12]
    assert [size_words(size) for size in sizes] == ["1 MB", "1.5 MB", "999 MB", "1.25 GB", "1 TB"]
    times = [1, 1.2, 59, 60, 90, 600, 3600, 5400, 7200, 9000, 36_000_000]
    assert [time_words(seconds) for seconds in times] == [
        *("1 s", "1.2 s", "59 s", "1 min", "1.5 min", "10 min", "1 h", "90 min", "2 h", "2.5 h", "10000 h")
    ]
