"""A dialog with long work: when it shows how far it is, and how the work and the dialog end."""

from __future__ import annotations

from concurrent.futures import Future
from threading import Event

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QVBoxLayout
from pytestqt.qtbot import QtBot

from app.exchange.sheet import Progress, Stopped
from widgets.kit.dialogs.long_work import WorkDialog

ATTENTION_S = 5.0
"""A piece of work that nobody ends gives up after so long."""


@pytest.fixture
def dialog(qtbot: QtBot) -> WorkDialog:
    dialog = WorkDialog()
    qtbot.addWidget(dialog)
    QVBoxLayout(dialog).addWidget(dialog.progress)
    dialog.show_progress(False)
    dialog.show()
    return dialog


def until_stopped(progress: Progress) -> None:
    """Work whose every step is 1 ms long."""
    for _ in range(round(ATTENTION_S * 1000)):
        progress(0.5)
        Event().wait(0.001)


def test_work_that_takes_long_shows_how_far_it_is(dialog: WorkDialog, qtbot: QtBot) -> None:
    dialog.begin(until_stopped)
    assert not dialog.progress.isVisible()
    qtbot.waitUntil(lambda: dialog.progress.isVisible() and dialog.progress.value() == 50)


def test_quick_work_shows_no_progress(dialog: WorkDialog, qtbot: QtBot) -> None:
    with qtbot.waitSignal(dialog.work.ended):
        dialog.begin(lambda _progress: "done")
    with qtbot.waitSignal(dialog.work.ended):
        dialog.begin(lambda _progress: Event().wait(0.4))
    assert dialog.progress.isVisible(), "longer than a blink, so it was shown"
    dialog.show_progress(False)
    with qtbot.waitSignal(dialog.work.ended):
        dialog.begin(lambda _progress: "done")
    with qtbot.assertNotEmitted(dialog.work.progressed, wait=400):
        pass
    assert not dialog.progress.isVisible()


def test_escape_stops_the_work_and_then_closes_the_dialog(dialog: WorkDialog, qtbot: QtBot) -> None:
    ended: list[Future[object]] = []
    dialog.work.ended.connect(ended.append)
    dialog.begin(until_stopped)
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert dialog.isVisible()
    qtbot.waitUntil(lambda: bool(ended))
    with pytest.raises(Stopped):
        ended[0].result()
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert (dialog.isVisible(), dialog.result()) == (False, QDialog.DialogCode.Rejected)


def test_a_dialog_that_is_closed_by_its_window_stops_the_work(dialog: WorkDialog) -> None:
    began, went_on = Event(), Event()

    def work(progress: Progress) -> None:
        began.set()
        until_stopped(progress)
        went_on.set()

    dialog.begin(work)
    assert began.wait(ATTENTION_S)
    dialog.close()
    assert not went_on.is_set()
    assert not dialog.work.busy
