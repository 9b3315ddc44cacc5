"""Files dragged onto the window: what they will become is said meanwhile, and what is no use is refused in words."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDropEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.recording.writer import Writer
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import when_asked
from widgets.design.exchange.import_list import ImportDialog
from widgets.shell.window import START_UP, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings")

COPY, LEFT, NO = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


def dragged(*files: Path) -> QMimeData:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(file)) for file in files])
    return data


def enter(window: MainWindow, data: QMimeData) -> str:
    """Drag over the window. Returns what is said then."""
    QApplication.sendEvent(window, QDragEnterEvent(QPoint(60, 60), COPY, data, LEFT, NO))
    return window.notices.words


def drop(window: MainWindow, data: QMimeData) -> None:
    QApplication.sendEvent(window, QDropEvent(QPointF(60, 60), COPY, data, LEFT, NO))


def test_a_project_is_opened(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    data = dragged(file)
    assert enter(window, data) == "Drop it to open the project pump room.toml."
    drop(window, data)
    qtbot.waitUntil(lambda: window.document.path == file)
    assert window.notices.about == ""


def test_a_recording_is_played(window: MainWindow, tmp_path: Path, qtbot: QtBot) -> None:
    path = tmp_path / "run.fanrec"
    Writer(path, bench_project()).close()
    data = dragged(path)
    assert enter(window, data) == "Drop it to play the recording run.fanrec."
    drop(window, data)
    qtbot.waitUntil(lambda: window.workspace_number == START_UP)
    assert window.start_up.replay_bar.replay is not None


def test_a_register_list_is_imported(window: MainWindow, tmp_path: Path, qtbot: QtBot) -> None:
    path = tmp_path / "registers.csv"
    path.write_text("Name;Address;Type\nSupply speed;40101;UINT16\n", encoding="utf-8")
    data = dragged(path)
    assert enter(window, data) == "Drop it to import signals from registers.csv."
    asked = when_asked(lambda dialog: dialog.reject())
    drop(window, data)
    qtbot.waitUntil(lambda: bool(asked))
    assert isinstance(asked[0], ImportDialog)


def test_what_leaves_again_is_forgotten(window: MainWindow, file: Path) -> None:
    enter(window, dragged(file))
    QApplication.sendEvent(window, QDragLeaveEvent())
    assert window.notices.words == ""
    assert window.document.path is None


@pytest.mark.parametrize("name", ["picture.png", "as found.registers.toml", "noending"])
def test_what_nobody_can_open_is_refused_in_words(window: MainWindow, tmp_path: Path, name: str) -> None:
    data = dragged(tmp_path / name)
    words = enter(window, data)
    assert words.startswith(f"{name} is no project (.toml), no recording (.fanrec) and no register list (")
    before = window.document.project
    drop(window, data)
    assert window.told == words
    assert window.document.project is before


def test_several_at_once_are_refused_in_words(window: MainWindow, file: Path, tmp_path: Path) -> None:
    data = dragged(file, tmp_path / "other.toml")
    assert enter(window, data) == "Only one file of this computer can be opened at a time."
    drop(window, data)
    assert window.told == "Only one file of this computer can be opened at a time."
    assert window.document.path is None
