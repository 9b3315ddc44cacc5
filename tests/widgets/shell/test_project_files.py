"""The file of a project under edit: changed by others, gone, read-only, open twice; compared; left and resumed."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app import edits
from app.project_file.files import load, save
from app.project_file.recovery import left_behind
from tests.former_formats import FORMAT_1, FORMAT_2
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow, button_of, words_of
from widgets.compare.window import ComparisonWindow
from widgets.document import file_status
from widgets.document.document import Selection
from widgets.document.settings import Settings
from widgets.shell.recovery_dialog import RecoveryDialog
from widgets.shell.window import BENCH, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def make(make_window: MakeWindow, tmp_path: Path) -> Callable[[], MainWindow]:
    return lambda: make_window(size=None, state=tmp_path / "state")


@pytest.fixture
def window(make: Callable[[], MainWindow]) -> MainWindow:
    return make()


def change(window: MainWindow) -> None:
    window.document.do("Title", lambda project: edits.set_title(project, "mine"))


def change_on_disk(file: Path) -> None:
    save(edits.set_title(load(file), "theirs"), file)


def bar(window: MainWindow) -> str:
    return window.notices.standing


def press(window: MainWindow, words: str) -> None:
    button = next(each for each in window.notices.buttons if words in each.text().replace("&", ""))
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def answer(words: str) -> list[str]:
    """Press this button of the next question; what it said stands in the list afterwards."""
    asked: list[str] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is None:
            QTimer.singleShot(10, look)
            return
        asked.append(words_of(dialog))
        QTest.mouseClick(button_of(dialog, words), Qt.MouseButton.LeftButton)

    QTimer.singleShot(0, look)
    return asked


def comparison_of(window: MainWindow, qtbot: QtBot) -> ComparisonWindow:
    qtbot.waitUntil(lambda: bool(window.findChildren(ComparisonWindow)))
    return window.findChildren(ComparisonWindow)[-1]


# Changed by another program


def test_a_change_by_another_program_is_said_and_reloaded_in_place(
    window: MainWindow, file: Path, qtbot: QtBot
) -> None:
    window.open_file(file)
    window.document.select(Selection("tank", (2, 3)))
    change_on_disk(file)
    qtbot.waitUntil(lambda: "changed by another program" in bar(window))
    assert window.document.project.title == "Bench"
    press(window, "Reload")
    assert window.document.project.title == "theirs"
    assert not window.isWindowModified()
    assert bar(window) == ""
    assert window.document.selection.screen == "tank", "the place is kept"
    assert window.document.selection.cell == (2, 3)
    QTest.keySequence(window, "Ctrl+Z")
    assert window.document.project.title == "Bench", "reloading is a step like any other"
    assert window.isWindowModified()


def test_the_same_content_written_again_says_nothing(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    window.open_file(file)
    change_on_disk(file)
    qtbot.waitUntil(lambda: bool(bar(window)))
    save(bench_project(), file)
    qtbot.waitUntil(lambda: not bar(window))


def test_own_saving_is_no_change_by_another(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    window.open_file(file)
    for title in ("a", "b", "c"):
        window.document.do("Title", lambda project, title=title: edits.set_title(project, title))  # type: ignore[misc]
        QTest.keySequence(window, "Ctrl+S")
    looked: list[object] = []
    window.files.status.watch.found.connect(lambda *found: looked.append(found))
    (file.parent / "other.toml").touch()
    change_on_disk(file)
    qtbot.waitUntil(lambda: bool(looked))
    assert len(looked) == 1
    assert load(file).title == "theirs"


@pytest.mark.parametrize("way", ["Overwrite", "Save as", "Reload", "Compare", "Cancel"])
def test_a_file_changed_by_another_is_never_overwritten_unasked(
    window: MainWindow, file: Path, way: str, tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.open_file(file)
    change(window)
    change_on_disk(file)
    elsewhere = tmp_path / "elsewhere.toml"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_more: (str(elsewhere), ""))
    asked = answer(way)
    saved = window.save()
    assert "pump room.toml was changed by another program" in asked[0]
    assert saved == (way in ("Overwrite", "Save as"))
    others = list(tmp_path.glob("pump room (*).toml"))
    if way == "Overwrite":
        assert load(file).title == "mine"
        assert [load(path).title for path in others] == ["theirs"], "the other version is not lost"
    else:
        assert load(file).title == "theirs"
        assert others == []
    if way == "Save as":
        assert load(elsewhere).title == "mine"
        assert window.document.path == elsewhere
    if way == "Reload":
        assert window.document.project.title == "theirs"
        window.document.undo()
        assert window.document.project.title == "mine"
    if way == "Compare":
        dialog = comparison_of(window, qtbot)
        assert [(each.key, each.before, each.after) for each in dialog.comparison.project] == [
            ("title", '"theirs"', '"mine"')
        ]
        button = next(each for each in dialog.findChildren(QPushButton) if "Save over" in each.text().replace("&", ""))
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)
        assert load(file).title == "mine"
    if way == "Cancel":
        assert window.isWindowModified()


def test_after_reloading_and_undoing_it_is_saved_without_a_question(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    change(window)
    change_on_disk(file)
    QTest.keySequence(window, "F5")
    assert window.document.project.title == "theirs"
    window.document.undo()
    assert window.save(), "the other version was seen"
    assert load(file).title == "mine"


def test_a_file_that_is_gone_is_said_and_written_again(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    window.open_file(file)
    file.unlink()
    qtbot.waitUntil(lambda: "is missing" in bar(window))
    press(window, "Save it there again")
    assert load(file).title == "Bench"
    assert bar(window) == ""


def test_a_folder_that_is_gone_leads_to_another_place(
    window: MainWindow, file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "stick"
    folder.mkdir()
    moved = folder / file.name
    file.rename(moved)
    window.open_file(moved)
    change(window)
    shutil.rmtree(folder)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_more: (str(tmp_path / "safe.toml"), ""))
    asked = answer("Save as")
    assert window.save()
    assert f"there is no folder {folder}" in asked[0]
    assert load(tmp_path / "safe.toml").title == "mine"


def test_a_link_is_watched_where_it_leads(window: MainWindow, file: Path, tmp_path: Path, qtbot: QtBot) -> None:
    link = tmp_path / "link.toml"
    link.symlink_to(file)
    window.open_file(link)
    change_on_disk(file)
    qtbot.waitUntil(lambda: "link.toml was changed" in bar(window))


def test_a_read_only_file_is_said_when_it_is_opened(
    window: MainWindow, file: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    file.chmod(0o444)
    # An administrator may write everything; what an ordinary account may, `may_write` is tested for with files.
    monkeypatch.setattr(file_status, "may_write", lambda path: bool(path.stat().st_mode & 0o200))
    window.open_file(file)
    assert "is read-only" in bar(window)
    change(window)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_a, **_m: (str(tmp_path / "mine.toml"), ""))
    press(window, "Save as")
    assert load(tmp_path / "mine.toml").title == "mine"
    assert bar(window) == ""


# Two windows


def test_a_file_of_an_earlier_format_is_said_until_it_is_saved_in_the_present_one(
    window: MainWindow, file: Path
) -> None:
    former = (FORMAT_1 / "every-word.toml").read_bytes()
    file.write_bytes(former)
    window.open_file(file)
    said = bar(window)
    assert "has format 1 of an earlier Fanlight. Saving writes format 2" in said
    assert "kept as pump room.toml.format-1.bak" in said
    assert not window.document.modified
    assert window.files.reload()
    assert bar(window) == said
    assert file.read_bytes() == former, "nothing is written unasked"
    assert window.save()
    assert bar(window) == ""
    assert file.read_bytes() == (FORMAT_2 / "every-word.toml").read_bytes()
    assert file.with_name("pump room.toml.format-1.bak").read_bytes() == former
    window.open_file(file)
    assert bar(window) == ""


def test_the_second_window_on_a_file_says_so_and_is_asked_first(
    make: Callable[[], MainWindow], file: Path, qtbot: QtBot
) -> None:
    first, second = make(), make()
    first.open_file(file)
    assert bar(first) == ""
    second.open_file(file)
    assert "open in another window too" in bar(second)
    change(first)
    assert first.save()
    second.document.do("Title", lambda project: edits.set_title(project, "second"))
    asked = answer("Cancel")
    assert not second.save()
    assert asked
    assert load(file).title == "mine"


def test_when_the_first_window_goes_the_second_one_has_the_file_alone(
    make: Callable[[], MainWindow], file: Path, qtbot: QtBot
) -> None:
    first, second, third = make(), make(), make()
    first.open_file(file)
    second.open_file(file)
    first.leave()
    second.files.look()
    assert bar(second) == ""
    third.open_file(file)
    assert "open in another window too" in bar(third)


# Comparing


def test_what_was_edited_is_compared_with_what_is_saved(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    window.open_file(file)
    window.document.do("Type", lambda project: edits.type_text(project, "run", 3, 0, "Stop"))
    QTest.keySequence(window, "F7")
    dialog = comparison_of(window, qtbot)
    assert [part.after for part in dialog.comparison.screens] == ["run"]
    assert "pump room.toml, as saved" in dialog.windowTitle()
    window.document.do("Type", lambda project: edits.type_text(project, "tank", 3, 0, "Stop"))
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    dialog.activateWindow()
    qtbot.waitUntil(lambda: [part.after for part in dialog.comparison.screens] == ["run", "tank"])
    dialog.close()


def test_another_file_is_compared(
    window: MainWindow, file: Path, tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "other.toml"
    save(edits.set_title(bench_project(), "Other"), other)
    window.open_file(file)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_more: (str(other), ""))
    QTest.keySequence(window, "Shift+F7")
    assert comparison_of(window, qtbot).comparison.project[0].before == '"Other"'


def test_a_project_without_a_file_is_compared_with_nothing(window: MainWindow) -> None:
    QTest.keySequence(window, "F7")
    assert "never saved" in window.told
    QTest.keySequence(window, "F5")
    assert "never saved" in window.told


# Recovery within one process


def test_a_copy_is_written_while_typing_and_goes_when_it_is_saved(
    window: MainWindow, file: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    folder = tmp_path / "state" / "recovery"
    window.open_file(file)
    autosave = window.files.autosave
    assert autosave is not None
    with qtbot.waitSignal(autosave.written, timeout=15_000):
        QTest.keyClicks(window.design.editor.face, "abc")
    assert len(list(folder.glob("*.toml"))) == 1
    assert left_behind(folder) == (), "a window that lives holds its copy"
    assert window.save()
    qtbot.waitUntil(lambda: not list(folder.glob("*.toml")))
    with qtbot.waitSignal(autosave.written, timeout=15_000):
        QTest.keyClicks(window.design.editor.face, "def")
    QTest.keySequence(window, "Ctrl+Z")
    qtbot.waitUntil(lambda: not list(folder.glob("*.toml")), timeout=15_000)


def test_discarded_work_leaves_no_copy(window: MainWindow, file: Path, tmp_path: Path, qtbot: QtBot) -> None:
    window.open_file(file)
    autosave = window.files.autosave
    assert autosave is not None
    with qtbot.waitSignal(autosave.written, timeout=15_000):
        change(window)
    answer("Discard")
    window.close()
    assert list((tmp_path / "state" / "recovery").iterdir()) == []


def test_work_that_nobody_was_asked_about_is_offered_and_recovered(
    make: Callable[[], MainWindow], file: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    first = make()
    first.open_file(file)
    change(first)
    first.leave()
    second = make()
    shown: list[str] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, RecoveryDialog)
        shown.extend([dialog.where.text(), dialog.differences.toPlainText()])
        QTest.keyClick(dialog, Qt.Key.Key_Return)

    QTimer.singleShot(0, look)
    QTest.keySequence(second, "Shift+F5")
    assert str(file) in shown[0]
    assert 'title: "Bench" -> "mine"' in shown[1]
    assert second.document.project.title == "mine"
    assert second.document.path == file
    assert second.isWindowModified()
    assert load(file).title == "Bench"
    assert second.document.undo_name == "Recover unsaved work"
    second.document.undo()
    assert second.document.project.title == "Bench"
    second.document.redo()
    assert second.save()
    qtbot.waitUntil(lambda: not list((tmp_path / "state" / "recovery").glob("*.toml")))


def test_unsaved_work_is_deleted_only_after_a_question(
    make: Callable[[], MainWindow], file: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    first = make()
    first.open_file(file)
    change(first)
    first.leave()
    second = make()

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, RecoveryDialog)
        answer("Cancel")
        QTest.mouseClick(dialog.delete_button, Qt.MouseButton.LeftButton)
        assert dialog.list.count() == 1
        answer("Delete")
        QTest.mouseClick(dialog.delete_button, Qt.MouseButton.LeftButton)

    QTimer.singleShot(0, look)
    QTest.keySequence(second, "Shift+F5")
    assert list((tmp_path / "state" / "recovery").iterdir()) == []
    second.activateWindow()
    qtbot.waitUntil(second.isActiveWindow)
    QTest.keySequence(second, "Shift+F5")
    assert "no unsaved work" in second.told


def test_a_folder_for_copies_that_is_no_good_is_said(qtbot: QtBot, tmp_path: Path) -> None:
    (tmp_path / "state").write_text("no folder")
    window = MainWindow(state=tmp_path / "state")
    window.show()
    change(window)
    qtbot.waitUntil(lambda: "No recovery copy can be written" in bar(window), timeout=15_000)
    window.leave()
    window.deleteLater()


# Where it was left


def test_the_next_window_begins_where_the_last_one_was_left(
    make: Callable[[], MainWindow], file: Path, qtbot: QtBot
) -> None:
    first = make()
    first.open_file(file)
    first.document.select_screen("tank")
    first.design.show_view("map")
    QTest.keySequence(first, "Ctrl+Shift+V")
    assert first.line.window.isVisible()
    first.resize(780, 560)
    first.design.across.setSizes([200, 270, 340])
    sizes = first.design.across.sizes()
    first.close()
    second = make()
    second.take_up()
    assert second.document.path == file
    assert second.document.selection.screen == "tank"
    assert second.workspace is second.design
    assert second.design.view == "map"
    assert second.line.window.isVisible()
    assert second.menus.line_view.isChecked()
    assert second.design.across.sizes() == sizes
    second.line.window.close()
    second.show_workspace(BENCH)
    second.close()
    third = make()
    third.take_up()
    assert third.workspace is third.bench
    assert not third.line.in_sight
    assert not third.line.apart


def test_a_project_that_is_gone_is_said_plainly(make: Callable[[], MainWindow], file: Path) -> None:
    first = make()
    first.open_file(file)
    first.close()
    file.unlink()
    second = make()
    second.take_up()
    assert second.document.path is None
    assert "file not found" in bar(second)
    assert "Nothing is open" in bar(second)


def test_a_project_that_another_window_has_open_is_left_to_it(make: Callable[[], MainWindow], file: Path) -> None:
    first, other = make(), make()
    first.open_file(file)
    first.close()
    other.open_file(file)
    second = make()
    second.take_up()
    assert second.document.path is None
    assert "is open in another window" in bar(second)
    press(second, "Open it")
    assert second.document.path == file


def test_who_wants_to_begin_empty_does(make: Callable[[], MainWindow], file: Path) -> None:
    first = make()
    first.open_file(file)
    QTest.keySequence(first, "Ctrl+Shift+J")
    assert not Settings().resumes
    first.close()
    second = make()
    second.take_up()
    assert second.document.path is None
    assert bar(second) == ""


def test_a_run_that_keeps_nothing_changes_no_settings(tmp_path: Path, file: Path, qtbot: QtBot) -> None:
    window = MainWindow(Settings(keep=False))
    window.show()
    window.open_file(file)
    window.close()
    window.deleteLater()
    assert not (tmp_path / "settings").exists()
    assert Settings().recent == ()


def test_dialogs_have_no_parent_that_outlives_them(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    window.open_file(file)
    change(window)
    for _ in range(3):
        QTest.keySequence(window, "F7")
        dialog = comparison_of(window, qtbot)
        dialog.close()
        qtbot.waitUntil(lambda: not window.findChildren(ComparisonWindow))
        window.activateWindow()
        qtbot.waitUntil(window.isActiveWindow)
    kinds: list[type[QWidget]] = [ComparisonWindow, RecoveryDialog]
    assert [kind for kind in kinds if window.findChildren(kind)] == []
