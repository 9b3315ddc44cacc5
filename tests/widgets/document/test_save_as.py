"""Where something is saved: endings, the question of overwriting, the folder; the same for all of the window."""

from __future__ import annotations

import ast
import errno
import os
from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog, QWidget
from pytestqt.qtbot import QtBot

import widgets
from tests.widgets.driving import button_of
from widgets.document.save_as import FileKind, where_to_save, write_or_say
from widgets.document.settings import Settings
from widgets.kit.dialogs.questions import Question

CSV = FileKind("Text (*.csv)", ".csv")
PNG, SVG = FileKind("Pictures (*.png)", ".png"), FileKind("Drawings (*.svg)", ".svg")
SNAPSHOT = FileKind("Snapshots (*.toml)", ".registers.toml", ".toml")


class Desk:
    """Answers the file dialog of the system with a name, and the question of overwriting with a yes or a no."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> None:
        self.typed: tuple[Path, str] = (Path(), "")
        self.replace = True
        self.asked: list[str] = []
        self.starts: list[Path] = []
        self.options: list[object] = []
        self.window = QWidget()
        qtbot.addWidget(self.window)
        self.settings = Settings(keep=False)
        monkeypatch.setattr(QFileDialog, "getSaveFileName", self._choose)
        monkeypatch.setattr(Question, "exec", lambda box: self._answer(box))

    def _choose(
        self, _parent: QWidget, _title: str, start: str, _kinds: str, _chosen: str, options: object
    ) -> tuple[str, str]:
        self.starts.append(Path(start))
        self.options.append(options)
        return str(self.typed[0]), self.typed[1]

    def _answer(self, box: Question) -> None:
        self.asked.append(box.headline.text())
        button_of(box, "Replace" if self.replace else "Cancel").click()

    def save(self, *kinds: FileKind, new_only: bool = False) -> Path | None:
        place = where_to_save(self.window, self.settings, "start_up_folder", "Save", "usual", kinds, new_only=new_only)
        return None if place is None else place[0]


@pytest.fixture
def desk(monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> Desk:
    return Desk(monkeypatch, qtbot)


@pytest.mark.parametrize(
    ("typed", "chosen", "kinds", "name"),
    [
        ("events", "", (CSV,), "events.csv"),
        ("pump 1.5 kW", "", (CSV,), "pump 1.5 kW.csv"),
        ("events.CSV", "", (CSV,), "events.CSV"),
        ("events.txt", "", (CSV,), "events.txt.csv"),
        ("trend", "", (PNG, SVG), "trend.png"),
        ("trend", SVG.words, (PNG, SVG), "trend.svg"),
        ("trend.svg", PNG.words, (PNG, SVG), "trend.svg"),
        ("as found", "", (SNAPSHOT,), "as found.registers.toml"),
        ("as found.toml", "", (SNAPSHOT,), "as found.toml"),
    ],
)
def test_the_ending_comes_before_the_question_and_the_question_always(
    desk: Desk, tmp_path: Path, typed: str, chosen: str, kinds: tuple[FileKind, ...], name: str
) -> None:
    desk.typed = tmp_path / typed, chosen
    assert desk.save(*kinds) == tmp_path / name
    assert desk.asked == [], "there is no such file yet"
    (tmp_path / name).write_text("kept")
    desk.replace = False
    assert desk.save(*kinds) is None
    assert desk.asked == [f"{name} already exists. Replace it?"]
    desk.replace = True
    assert desk.save(*kinds) == tmp_path / name
    assert desk.options == [QFileDialog.Option.DontConfirmOverwrite] * 3, "it is asked once, about the whole name"


def test_the_folder_is_remembered_once_something_is_to_be_saved_there(desk: Desk, tmp_path: Path) -> None:
    desk.typed = Path(), ""
    desk.settings.start_up_folder = tmp_path
    desk.typed = tmp_path / "below" / "a.csv", ""
    (tmp_path / "below").mkdir()
    desk.save(CSV)
    assert desk.settings.start_up_folder == tmp_path / "below"
    desk.save(CSV)
    assert desk.starts == [tmp_path / "usual", tmp_path / "below" / "usual"]


def test_what_is_never_replaced_is_not_asked_about(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "run.fanrec").write_text("kept")
    desk.typed = tmp_path / "run", ""
    assert desk.save(FileKind("Recordings (*.fanrec)", ".fanrec"), new_only=True) == tmp_path / "run.fanrec"
    assert desk.asked == []


def test_nothing_else_asks_where_to_save() -> None:
    found = []
    for path in sorted(Path(widgets.__file__).parent.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            saves = isinstance(node, ast.Attribute) and (
                node.attr in ("getSaveFileName", "getSaveFileUrl", "saveFileContent", "AcceptSave")
            )
            made = isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "QFileDialog"
            if saves or made:
                found.append(path.name)
    assert found == ["save_as.py"]


def test_what_is_written_replaces_the_former_file_or_leaves_it_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "line.txt"
    said: list[str] = []
    assert write_or_say(file, "41.65 Hz \N{WARNING SIGN}\n", said.append)
    assert (file.read_bytes().decode("utf-8"), said) == ("41.65 Hz \N{WARNING SIGN}\n", [])

    def full(_handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert not write_or_say(file, b"the half of", said.append)
    assert file.read_bytes().decode("utf-8") == "41.65 Hz \N{WARNING SIGN}\n"
    assert [each.name for each in tmp_path.iterdir()] == ["line.txt"], "nothing is left beside it"
    assert str(file) in said[0]
    assert "No space left on device" in said[0]


def test_nothing_else_writes_files_of_the_users_choice() -> None:
    """Path.write_text and open empty a file before they fill it: when the disk is full, neither content is there."""
    found = [
        f"{path.name}:{node.lineno}"
        for path in sorted(Path(widgets.__file__).parent.rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Attribute) and node.attr in ("write_text", "write_bytes")
    ]
    assert found == []
