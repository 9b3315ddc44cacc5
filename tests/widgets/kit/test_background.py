"""Jobs aside: the window waits for none of them, and nobody waits for ever."""

from __future__ import annotations

import threading

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QProgressDialog, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from widgets.kit.background import Background, GaveUp, run_with_wait_dialog, wait_pointer


@pytest.fixture
def parent(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    made.show()
    return made


def test_of_jobs_with_one_key_only_the_last_waiting_one_is_done() -> None:
    begun, go_on = threading.Event(), threading.Event()
    done: list[str] = []

    def first() -> None:
        begun.set()
        go_on.wait(20)
        done.append("first")

    aside = Background("test")
    aside.post("copy", first)
    assert begun.wait(20)
    for name in ("second", "third"):
        aside.post("copy", lambda name=name: done.append(name))  # type: ignore[misc]
    aside.post("other", lambda: done.append("other"))
    go_on.set()
    aside.stop()
    assert done == ["first", "third", "other"]
    assert "test" not in {thread.name for thread in threading.enumerate()}


def test_a_job_that_hangs_is_left_alone() -> None:
    go_on = threading.Event()
    aside = Background("test")
    aside.post("look", lambda: go_on.wait(20))
    aside.stop(0.05)
    go_on.set()


def test_a_quick_job_shows_nothing(parent: QWidget) -> None:
    assert run_with_wait_dialog(parent, "Opening", lambda: 7) == 7
    assert QApplication.activeModalWidget() is None


def test_what_a_job_raises_is_raised(parent: QWidget) -> None:
    def job() -> None:
        raise OSError("no")

    with pytest.raises(OSError, match="no"):
        run_with_wait_dialog(parent, "Opening", job)


def test_a_slow_job_says_what_is_waited_for_while_the_window_lives(parent: QWidget) -> None:
    go_on = threading.Event()
    seen: list[str] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, QProgressDialog)
        seen.append(dialog.findChildren(QLabel)[0].text())
        go_on.set()

    QTimer.singleShot(0, parent, look)
    assert run_with_wait_dialog(parent, "Opening pump.toml", lambda: go_on.wait(20))
    assert seen == ["Opening pump.toml"]


def test_a_drive_that_does_not_answer_need_not_be_waited_for(parent: QWidget) -> None:
    go_on = threading.Event()

    def give_up() -> None:
        dialog = QApplication.activeModalWidget()
        assert dialog is not None
        QTest.mouseClick(dialog.findChildren(QPushButton)[0], Qt.MouseButton.LeftButton)

    QTimer.singleShot(0, parent, give_up)
    with pytest.raises(GaveUp):
        run_with_wait_dialog(parent, "Opening pump.toml", lambda: go_on.wait(20))
    go_on.set()


def test_the_pointer_tells_that_the_window_works_and_no_longer_once_that_went_wrong(parent: QWidget) -> None:
    shapes: list[Qt.CursorShape] = []

    @wait_pointer()
    def fail() -> None:
        shown = QApplication.overrideCursor()
        shapes.extend([] if shown is None else [shown.shape()])
        raise OSError("no")

    with pytest.raises(OSError, match="no"):
        fail()
    assert shapes == [Qt.CursorShape.WaitCursor]
    assert QApplication.overrideCursor() is None
