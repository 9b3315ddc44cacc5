"""Writing signals out by the dialog, and bringing the file back in."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.exchange.import_plan import ImportTarget
from app.exchange.importing import begin
from app.project.model import Project
from widgets.design.exchange.export_list import ExportDialog
from widgets.document.settings import Settings

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def dialog(qtbot: QtBot, project: Project) -> ExportDialog:
    dialog = ExportDialog(project, Settings(keep=False), "pump", project.signals[:3])
    qtbot.addWidget(dialog)
    with qtbot.waitActive(dialog):
        dialog.show()
        dialog.activateWindow()
    return dialog


def save_to(path: Path, dialog: ExportDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args: (str(path), ""))
    QTest.mouseClick(dialog.save, LEFT)
    qtbot.waitUntil(lambda: not dialog.work.busy, timeout=20_000)


def come_back(path: Path, project: Project) -> Project:
    bare = project.replace(signals=(), actions=(), screen_changes=(), screens=(project.screens[0].replace(fields=()),))
    return begin(path, bare, ImportTarget(None, None)).plan.edit(bare)


@pytest.mark.parametrize("kind", ["xlsx", "csv", "semicolon"])
def test_a_file_that_comes_back_unchanged(
    dialog: ExportDialog, project: Project, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: str
) -> None:
    if kind != "xlsx":
        QTest.mouseClick(dialog.text, LEFT, pos=dialog.text.rect().topLeft() + dialog.text.rect().center() / 6)
        assert dialog.text.isChecked()
    if kind == "semicolon":
        dialog.separator.setFocus()
        QTest.keyClick(dialog.separator, Qt.Key.Key_Down)
        assert dialog.decimal_mark.currentData() == ","
    save_to(tmp_path / "out", dialog, qtbot, monkeypatch)
    assert dialog.written == tmp_path / f"out.{'xlsx' if kind == 'xlsx' else 'csv'}"
    assert come_back(dialog.written, project).signals == project.signals


def test_the_selected_signals_alone(
    dialog: ExportDialog, project: Project, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    dialog.which.setFocus()
    QTest.keyClick(dialog.which, Qt.Key.Key_Down)
    assert dialog.which.currentText() == "Selected (3)"
    save_to(tmp_path / "some.xlsx", dialog, qtbot, monkeypatch)
    assert come_back(tmp_path / "some.xlsx", project).signals == project.signals[:3]


def test_a_place_that_cannot_be_written_is_said_and_nothing_is_left(
    dialog: ExportDialog, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    save_to(tmp_path / "no such folder" / "out.xlsx", dialog, qtbot, monkeypatch)
    assert "there is no folder" in dialog.trouble.text()
    assert dialog.isVisible()
    assert dialog.save.isEnabled()
    (tmp_path / "folder.xlsx").mkdir()
    save_to(tmp_path / "folder.xlsx", dialog, qtbot, monkeypatch)
    assert "there is a folder with this name" in dialog.trouble.text()
    assert [path.name for path in tmp_path.iterdir()] == ["folder.xlsx"]
