"""Widgets shown and operated as somebody in front of them does it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from PySide6.QtCore import QSettings, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.follower.simulation import Simulation
from tests.widgets.bench_project import bench_project
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.kit.dialogs.dialog import Dialog
from widgets.shell.window import MainWindow

W = TypeVar("W", bound=QWidget)
MakeWindow = Callable[..., MainWindow]
NO = Qt.KeyboardModifier.NoModifier


def shown(widget: W, qtbot: QtBot, width: int, height: int) -> W:
    """The widget as a window of this size in front, closed after the test."""
    qtbot.addWidget(widget)
    widget.resize(width, height)
    with qtbot.waitActive(widget):
        widget.show()
        widget.activateWindow()
    return widget


def designed(document: Document, qtbot: QtBot) -> DesignWorkspace:
    """The Design workplace on this document, its checks done."""
    design = shown(DesignWorkspace(document), qtbot, 1366, 640)
    design.checks.finish()
    return design


def connect(window: MainWindow, device: Simulation, qtbot: QtBot) -> None:
    """Connect the window to the followers of the bench project on a real line; writing is off."""
    _, port = device.serve_tcp(None, "127.0.0.1", 0)
    window.take(bench_project(port), None)
    window.live.connect_to(window.document.project, None)
    qtbot.waitUntil(lambda: all(window.live.readings()[name].good for name in ("command", "set point")))


def stored() -> QSettings:
    """The file of the user's settings, as somebody else may write it."""
    return QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "fanlight", "fanlight")


def focused() -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None, "nothing has the focus"
    return widget


def press(key: Qt.Key, modifiers: Qt.KeyboardModifier = NO, times: int = 1) -> None:
    """Press a key in whatever has the focus."""
    for _ in range(times):
        QTest.keyClick(focused(), key, modifiers)


def type_in(text: str) -> None:
    """Type into whatever has the focus; the first letter may open an editor."""
    for letter in text:
        QTest.keyClicks(focused(), letter)


def when_asked(answer: Callable[[QDialog], object]) -> list[QDialog]:
    """Once a dialog is open, answer it; it stands in the list afterwards."""
    asked: list[QDialog] = []

    def look() -> None:
        dialog, here = QApplication.activeModalWidget(), QApplication.focusWidget()
        if isinstance(dialog, QDialog) and here is not None and dialog.isAncestorOf(here):
            asked.append(dialog)
            answer(dialog)
        else:
            QTimer.singleShot(10, look)

    QTimer.singleShot(0, look)
    return asked


def button_of(dialog: QWidget | None, words: str) -> QPushButton:
    """The button of a dialog that says this."""
    assert isinstance(dialog, QDialog), "no dialog is open"
    return next(each for each in dialog.findChildren(QPushButton) if words in each.text().replace("&", ""))


def words_of(dialog: QWidget | None) -> str:
    """What a dialog says, its question and its sentence."""
    assert isinstance(dialog, Dialog), "no dialog is open"
    return f"{dialog.headline.text()}\n{dialog.sentence.text()}"
