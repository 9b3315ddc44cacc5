"""The main window: files and unsaved changes, workplaces, menus and shortcuts, dropping a file, leaving in order."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QTimer, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from app.follower.simulation import Simulation
from app.project.model import Project
from app.project_file.files import load, save
from tests.big_project import big_project
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import button_of, words_of
from widgets.design.exchange.import_list import ImportDialog
from widgets.document.problems import ProblemsDialog
from widgets.kit.dialogs.questions import Question
from widgets.shell.help import AboutDialog, CautionsDialog, ShortcutsDialog
from widgets.shell.window import BENCH, DESIGN, START_UP, TRIAL, MainWindow

BAD = """
format = 2
[panel]
start = "run"
rows = 4
columns = 20
colour = "green"
[[screen]]
name = "run"
text = ["a", "b", "c", "d"]
[[screen.field]]
at = [0, 0]
width = 3
signal = "sped"
[[signal]]
name = "speed"
held = 1
"""


pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


def test_a_workplace_is_made_when_it_is_first_wanted(qtbot: QtBot) -> None:
    """A demo begins on the Bench, and is live sooner without the others."""
    window = MainWindow(workspace=1)
    qtbot.addWidget(window)
    window.document.open(bench_project(), None)
    assert window.workspace is window.bench
    assert not window.has_design
    window.show_workspace(0)
    assert window.has_design
    assert window.workspace is window.design
    window.leave()


def retitle(project: Project) -> Project:
    return project.replace(title=project.title + "!")


def change(window: MainWindow) -> None:
    window.document.do("Title", retitle)


def when_asked(answer: Callable[[QWidget], object]) -> list[tuple[type[QWidget], str]]:
    """Answer the next modal dialog; what it was and what it said stands in the list afterwards."""
    asked: list[tuple[type[QWidget], str]] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        assert dialog is not None, "nothing was asked"
        asked.append((type(dialog), words_of(dialog) if isinstance(dialog, Question) else ""))
        answer(dialog)

    QTimer.singleShot(0, look)
    return asked


def press(words: str) -> Callable[[QWidget], None]:
    return lambda dialog: QTest.mouseClick(button_of(dialog, words), Qt.MouseButton.LeftButton)


def press_accept(dialog: QWidget) -> None:
    assert isinstance(dialog, Question)
    QTest.mouseClick(dialog.deed, Qt.MouseButton.LeftButton)


def name_file(monkeypatch: pytest.MonkeyPatch, method: str, path: Path | None) -> None:
    """The system's own file dialog cannot be operated in a test: it answers this."""
    monkeypatch.setattr(QFileDialog, method, lambda *_args, **_more: ("" if path is None else str(path), ""))


# Files


def test_begins_with_a_blank_project_and_the_design(window: MainWindow) -> None:
    assert window.workspace is window.design
    assert window.windowTitle() == "untitled[*] \u2013 Fanlight"
    assert not window.isWindowModified()


def test_opens_a_file_and_remembers_it(window: MainWindow, file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    name_file(monkeypatch, "getOpenFileName", file)
    QTest.keySequence(window, "Ctrl+O")
    assert window.document.project == bench_project()
    assert window.windowTitle() == "pump room[*] \u2013 Fanlight"
    assert window.settings.recent == (file,)
    assert file.name in window.files.recent.actions()[0].text()


def test_a_change_is_marked_and_undo_takes_the_mark_away(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    change(window)
    assert window.isWindowModified()
    assert window.menus.undo.text() == "&Undo: Title"
    QTest.keySequence(window, "Ctrl+Z")
    assert not window.isWindowModified()
    assert not window.menus.undo.isEnabled()
    assert window.menus.redo.text() == "&Redo: Title"
    QTest.keySequence(window, "Ctrl+Shift+Z")
    assert window.isWindowModified()
    QTest.keySequence(window, "Ctrl+Z")
    QTest.keySequence(window, "Ctrl+Y")
    assert window.isWindowModified()


def test_saves_to_its_file(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    change(window)
    QTest.keySequence(window, "Ctrl+S")
    assert load(file).title == "Bench!"
    assert not window.isWindowModified()
    assert window.told == "Saved pump room.toml"
    window.notices.close_shown()
    assert re.match(r"Saved \d", window.notices.text.text()), "and, faint, when"


def test_remarks_in_a_file_are_not_lost_unasked(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    text = file.read_text("utf-8") + "\n# the filter was changed in March\n"
    file.write_text(text, "utf-8")
    window.open_file(file)
    change(window)
    asked = when_asked(press("Cancel"))
    QTest.keySequence(window, "Ctrl+S")
    assert "'#'" in asked[0][1]
    assert file.read_text("utf-8") == text
    assert window.isWindowModified()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    when_asked(press("Save"))
    QTest.keySequence(window, "Ctrl+S")
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    assert load(file).title == "Bench!"
    assert (file.parent / (file.name + ".bak")).read_text("utf-8") == text
    change(window)
    QTest.keySequence(window, "Ctrl+S")
    assert not window.isWindowModified(), "nothing is left to ask about"


def test_saving_what_has_no_file_asks_for_one_and_adds_the_suffix(
    window: MainWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name_file(monkeypatch, "getSaveFileName", tmp_path / "first")
    change(window)
    QTest.keySequence(window, "Ctrl+S")
    assert load(tmp_path / "first.toml").title == "!"
    assert window.document.path == tmp_path / "first.toml"
    assert window.windowTitle() == "first[*] \u2013 Fanlight"


def test_a_point_in_a_name_is_no_suffix(window: MainWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    name_file(monkeypatch, "getSaveFileName", tmp_path / "press 1.5 kW")
    change(window)
    assert window.save()
    assert window.document.path == tmp_path / "press 1.5 kW.toml"


def test_a_file_that_the_suffix_leads_to_is_not_replaced_unasked(
    window: MainWindow, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name_file(monkeypatch, "getSaveFileName", file.with_suffix(""))
    change(window)
    asked = when_asked(press("Cancel"))
    assert not window.save()
    assert "pump room.toml already exists" in asked[0][1]
    assert load(file).title == "Bench"
    when_asked(press("Replace"))
    assert window.save()
    assert load(file).title == "!"


def test_no_name_given_is_not_saved(window: MainWindow, monkeypatch: pytest.MonkeyPatch) -> None:
    name_file(monkeypatch, "getSaveFileName", None)
    change(window)
    assert not window.save()
    assert window.isWindowModified()


def test_what_cannot_be_saved_is_said_and_stays_changed(window: MainWindow, file: Path, tmp_path: Path) -> None:
    window.open_file(file)
    change(window)
    gone = tmp_path / "no such folder" / "x.toml"
    asked = when_asked(press("Close"))
    assert not window.files.save_to(gone)
    assert asked[0][0] is Question
    assert str(gone.parent) in asked[0][1]
    assert window.isWindowModified()
    assert load(file).title == "Bench"


def test_what_cannot_be_saved_there_is_saved_elsewhere(
    window: MainWindow, file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.open_file(file)
    change(window)
    name_file(monkeypatch, "getSaveFileName", tmp_path / "elsewhere.toml")
    when_asked(press_accept)
    assert window.files.save_to(tmp_path / "no such folder" / "x.toml")
    assert load(tmp_path / "elsewhere.toml").title == "Bench!"
    assert not window.isWindowModified()


def test_all_problems_of_a_bad_file_are_shown_and_the_project_stays(
    window: MainWindow, file: Path, tmp_path: Path
) -> None:
    window.open_file(file)
    bad = tmp_path / "bad.toml"
    bad.write_text(BAD)
    window.settings.remember(bad)
    shown: list[str] = []

    def read(dialog: QWidget) -> None:
        assert isinstance(dialog, ProblemsDialog)
        shown.append(dialog.list.toPlainText())
        dialog.reject()

    when_asked(read)
    assert not window.open_file(bad)
    assert "colour" in shown[0]
    assert "sped" in shown[0]
    assert "speed" in shown[0]
    assert window.document.project == bench_project()
    assert window.document.path == file
    assert bad in window.settings.recent, "mended elsewhere, it is opened from there again"


def test_a_recent_file_that_is_gone_says_so_and_is_taken_off_if_wanted(
    window: MainWindow, file: Path, qtbot: QtBot
) -> None:
    window.open_file(file)
    file.unlink()
    when_asked(lambda dialog: dialog.close())
    assert not window.open_file(file)
    assert file in window.settings.recent, "its drive may only be away"
    menu = window.files.recent
    menu.popup(window.pos())
    qtbot.waitUntil(lambda: "(not found)" in menu.actions()[0].text())
    menu.close()
    next(action for action in menu.actions() if action.text().startswith("&Remove missing")).trigger()
    assert file not in window.settings.recent


def test_a_file_that_cannot_be_opened_asks_for_no_change_to_be_given_up(window: MainWindow, tmp_path: Path) -> None:
    change(window)
    asked = when_asked(lambda dialog: dialog.close())
    assert not window.open_file(tmp_path / "none.toml")
    assert [kind for kind, _ in asked] == [ProblemsDialog]
    assert window.isWindowModified()


@pytest.mark.parametrize(
    "content", [None, b"", b"\x00\xff\xfe\x80binary", b"[[[["], ids=["missing", "empty", "bin", "toml"]
)
def test_what_is_no_project_file_is_said(window: MainWindow, tmp_path: Path, content: bytes | None) -> None:
    path = tmp_path / "x.toml"
    if content is not None:
        path.write_bytes(content)
    shown: list[str] = []

    def read(dialog: QWidget) -> None:
        assert isinstance(dialog, ProblemsDialog)
        shown.append(dialog.text)
        dialog.reject()

    when_asked(read)
    assert not window.open_file(path)
    assert "x.toml" in shown[0]
    assert len(shown[0]) > 40


def test_recent_files_open_from_the_menu(window: MainWindow, file: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.toml"
    save(bench_project().replace(title="Other"), other)
    window.open_file(other)
    window.open_file(file)
    assert [action.text().split("  ")[1] for action in window.files.recent.actions()[:2]] == [file.name, other.name]
    window.files.recent.actions()[1].trigger()
    assert window.document.project.title == "Other"


# Unsaved changes


@pytest.mark.parametrize(
    ("button", "closed", "title"),
    [
        ("Save", True, "Bench!"),
        ("Discard", True, "Bench"),
        ("Cancel", False, "Bench"),
    ],
)
def test_closing_with_unsaved_changes_asks(
    window: MainWindow, file: Path, button: str, closed: bool, title: str
) -> None:
    window.open_file(file)
    change(window)
    asked = when_asked(press(button))
    window.close()
    assert asked
    assert window.isVisible() is not closed
    assert load(file).title == title


def test_escape_in_that_question_keeps_the_window(window: MainWindow) -> None:
    change(window)
    when_asked(lambda dialog: QTest.keyClick(dialog, Qt.Key.Key_Escape))
    window.close()
    assert window.isVisible()
    assert window.document.modified


def test_closing_without_changes_does_not_ask(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    QTest.keySequence(window, "Ctrl+Q")
    assert not window.isVisible()


def begin_an_action(window: MainWindow) -> str:
    """Begin an action that does nothing yet; what it is called."""
    window.show_workspace(0)
    window.design.behaviour.add_action("key")
    return f"action {len(window.document.project.actions) + 1}"


def told_by(press_it: Callable[[QWidget], None], said: list[str]) -> Callable[[QWidget], None]:
    def look(dialog: QWidget) -> None:
        said.append(words_of(dialog))
        press_it(dialog)

    return look


def test_what_is_not_complete_is_unsaved_and_said_to_be_in_no_file(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    assert not window.isWindowModified()
    action = begin_an_action(window)
    assert window.isWindowModified()
    QTest.keySequence(window, "Ctrl+S")
    assert window.isWindowModified()
    assert window.told.endswith(f"Incomplete, so not included: {action}")
    window.design.begun.clear()
    assert not window.isWindowModified()
    window.save()
    assert "Incomplete" not in window.told


def test_what_is_typed_and_not_taken_over_is_unsaved_too(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    name = window.document.project.signals[0].name
    window.design.drafts.keep(("signal", name), "Register", ("31o",), "no number")
    assert window.isWindowModified()
    assert window.not_taken_over() == [f"signal '{name}', Register"]
    window.design.drafts.drop(("signal", name), "Register")
    assert not window.isWindowModified()


@pytest.mark.parametrize("leaves", [True, False])
def test_leaving_asks_before_what_is_not_complete_is_lost(window: MainWindow, file: Path, leaves: bool) -> None:
    window.open_file(file)
    action = begin_an_action(window)
    said: list[str] = []

    def answer(dialog: QWidget) -> None:
        words = "Leave" if leaves else "Cancel"
        QTest.mouseClick(button_of(dialog, words), Qt.MouseButton.LeftButton)

    when_asked(told_by(answer, said))
    assert window.open_file(file) is leaves
    assert action in said[0]
    assert "It will be lost" in said[0]
    assert bool(window.not_taken_over()) is not leaves
    assert window.isWindowModified() is not leaves


def test_with_unsaved_changes_the_one_question_names_it_too(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    change(window)
    action = begin_an_action(window)
    said: list[str] = []
    when_asked(told_by(press("Cancel"), said))
    window.close()
    assert window.isVisible()
    assert f"Incomplete and therefore not saved: {action}" in said[0]


@pytest.mark.parametrize("what", ["open", "new", "recent"])
def test_another_project_asks_too(window: MainWindow, file: Path, what: str, monkeypatch: pytest.MonkeyPatch) -> None:
    change(window)
    name_file(monkeypatch, "getOpenFileName", file)
    asked = when_asked(press("Cancel"))
    if what == "recent":
        assert not window.open_file(file)
    else:
        QTest.keySequence(window, "Ctrl+O" if what == "open" else "Ctrl+N")
    assert asked
    assert window.document.project.title == "!"


# Dropping a file


def drop(window: MainWindow, *urls: QUrl) -> bool:
    data = QMimeData()
    data.setUrls(list(urls))
    where, none = QPointF(50, 50), Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(where.toPoint(), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, none)
    QApplication.sendEvent(window, enter)
    if enter.isAccepted():
        event = QDropEvent(where, Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, none)
        QApplication.sendEvent(window, event)
    return enter.isAccepted()


def test_a_file_dropped_on_the_window_opens(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    assert drop(window, QUrl.fromLocalFile(str(file)))
    qtbot.waitUntil(lambda: window.document.path == file)


def test_a_register_list_dropped_on_the_window_is_imported(window: MainWindow, tmp_path: Path, qtbot: QtBot) -> None:
    path = tmp_path / "list.csv"
    path.write_text("Register,Name,Type\n500,flow,UINT\n501,level,UINT\n")
    asked: list[Path] = []

    def enter() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, ImportDialog) or not dialog.bring_in.isEnabled():
            QTimer.singleShot(20, enter)
            return
        asked.append(Path(dialog.file.text()))
        focus = dialog.focusWidget()
        assert focus is not None
        QTest.keyClick(focus, Qt.Key.Key_Return)

    QTimer.singleShot(0, enter)
    assert drop(window, QUrl.fromLocalFile(str(path)))
    qtbot.waitUntil(lambda: {"flow", "level"} <= set(window.document.project.signal_named))
    assert asked == [path]
    assert [part.name for part in window.design.signals.selected_signals()] == ["flow", "level"]


def test_two_files_or_a_web_address_are_not_taken(window: MainWindow, file: Path) -> None:
    url = QUrl.fromLocalFile(str(file))
    for urls in ((url, url), (QUrl("https://example.org/x.toml"),)):
        window.notices.close_shown()
        drop(window, *urls)
        assert window.told == "Only one file of this computer can be opened at a time."
        QApplication.processEvents()
        assert window.document.path is None


@pytest.mark.parametrize("keys", ["Ctrl+Alt+O", "Ctrl+O", "Ctrl+Shift+S", "Ctrl+F1", "Ctrl+Shift+F1", "Ctrl+J"])
@pytest.mark.parametrize("workspace", [DESIGN, BENCH, START_UP, TRIAL])
def test_after_a_dialog_the_focus_is_where_it_was(
    window: MainWindow, file: Path, workspace: int, keys: str, qtbot: QtBot
) -> None:
    QApplication.setAttribute(Qt.ApplicationAttribute.AA_DontUseNativeDialogs)
    window.open_file(file)
    _ = window.start_up  # whose command one of them is
    window.show_workspace(workspace)
    before = window.focusWidget()
    assert before is not None

    def leave() -> None:
        dialogs = [each for each in QApplication.topLevelWidgets() if isinstance(each, QDialog) and each.isVisible()]
        if not dialogs:
            QTimer.singleShot(10, leave)
            return
        # As the file dialogs of some systems leave it behind.
        before.clearFocus()
        dialogs[0].reject()

    QTimer.singleShot(0, leave)
    QTest.keySequence(before, keys)
    window.activateWindow()
    qtbot.waitUntil(before.hasFocus)


# Workplaces, menus, shortcuts


def test_workplaces_change_by_shortcut(window: MainWindow) -> None:
    QTest.keySequence(window, "Ctrl+2")
    assert window.bench.isVisible()
    assert window.bench.face.hasFocus()
    QTest.keySequence(window, "Ctrl+1")
    assert window.design.isVisible()
    assert window.focusWidget() is window.design.editor.face, "typing goes to the face at once"
    assert not window.bench.isVisible()


@pytest.mark.parametrize(
    ("keys", "kind"),
    [("Ctrl+F1", ShortcutsDialog), ("Ctrl+Shift+F1", CautionsDialog), ("Ctrl+Shift+H", AboutDialog)],
)
def test_help_opens_and_closes_by_keyboard(window: MainWindow, keys: str, kind: type[QWidget]) -> None:
    asked = when_asked(lambda dialog: QTest.keyClick(dialog, Qt.Key.Key_Escape))
    QTest.keySequence(window, keys)
    assert asked[0][0] is kind


def test_the_shortcuts_list_the_keys_of_the_panel_and_the_commands(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    dialog = ShortcutsDialog(window.menus.all(), window.document.project.panel, window)
    words = dialog.text()
    assert "Key jog" in words
    assert "Ctrl+S" in words
    assert "Pause" in words
    dialog.deleteLater()


def test_the_line_strip_hides_and_shows(window: MainWindow) -> None:
    QTest.keySequence(window, "Ctrl+Shift+L")
    assert not window.strip.isVisible()
    QTest.keySequence(window, "Ctrl+Shift+L")
    assert window.strip.isVisible()


def test_the_look_is_remembered(window: MainWindow) -> None:
    QTest.keySequence(window, "Ctrl+Shift+3")
    assert window.settings.appearance == "dark"
    QTest.keySequence(window, "Ctrl+Shift+1")
    assert window.settings.appearance == "system"


# Live


def test_connected_the_strip_and_the_badge_tell_and_closing_leaves_nothing(
    window: MainWindow, file: Path, qtbot: QtBot
) -> None:
    window.open_file(file)
    QTest.keySequence(window, "Ctrl+K")
    qtbot.waitUntil(lambda: window.strip.lines == ("hall",) and window.strip.counts("hall")[0] > 5)
    assert window.badge.words == "Simulated: nothing real can move"
    window.close()
    assert not window.live.connected
    assert window.strip.lines == ()


def test_an_armed_line_is_not_left_unasked(window: MainWindow, file: Path, qtbot: QtBot) -> None:
    with Simulation(bench_project()) as device:
        window.take(bench_project(device.serve_tcp(None, "127.0.0.1", 0)[1]), None)
        window.connecting.choose(1)
        QTest.keySequence(window, "Ctrl+K")
        qtbot.waitUntil(lambda: window.strip.lines == ("hall",) and window.strip.counts("hall")[0] > 5)
        window.live.arm()
        asked = when_asked(press("Cancel"))
        assert not window.close()
        assert "armed on hall" in asked[0][1]
        asked = when_asked(lambda dialog: QTest.keyClick(dialog, Qt.Key.Key_Return))
        assert not window.open_file(file), "Return is the safe answer"
        assert asked
        assert window.live.writing.armed == ("hall",)
        when_asked(press_accept)
        assert window.open_file(file)
        assert not window.live.connected


def test_what_could_not_be_let_go_is_said(window: MainWindow, qtbot: QtBot) -> None:
    with Simulation(bench_project()) as device:
        window.take(bench_project(device.serve_tcp(None, "127.0.0.1", 0)[1]), None)
        window.connecting.choose(1)
        QTest.keySequence(window, "Ctrl+K")
        qtbot.waitUntil(lambda: window.strip.lines == ("hall",) and window.strip.counts("hall")[0] > 5)
        window.live.arm()
        window.live.key_down("jog")
        qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)
        device.models["fan"].silent = True
        asked = when_asked(press("Close"))
        window.live.disconnect_from_line()
        assert "run" in asked[0][1]
        assert "may still be on" in asked[0][1]


def test_the_strip_says_why_a_line_is_down(window: MainWindow, qtbot: QtBot) -> None:
    window.take(bench_project(1), None)
    window.connecting.choose(1)
    QTest.keySequence(window, "Ctrl+K")
    qtbot.waitUntil(lambda: "hall" in window.strip.lines and "port 1" in window.strip.lane_text("hall"))
    assert window.badge.words == "Real line, locked: reading only"


@pytest.mark.parametrize("keys", ["Pause", "Ctrl+."])
@pytest.mark.parametrize("workspace", [0, 1])
def test_disarming_works_by_key_from_every_workplace(window: MainWindow, workspace: int, keys: str) -> None:
    window.take(bench_project(1), None)
    window.connecting.choose(1)
    window.connecting.connect_line()
    window.live.arm()
    assert window.badge.words == "ARMED: keys move the machine"
    window.show_workspace(workspace)
    focus = QApplication.focusWidget()
    assert focus is not None
    QTest.keySequence(focus, keys)
    assert not window.live.writing.armed
    assert window.badge.words == "Real line, locked: reading only"


def test_another_project_disconnects(window: MainWindow, file: Path) -> None:
    window.open_file(file)
    window.connecting.connect_line()
    window.open_file(file)
    assert not window.live.connected


def test_connecting_from_design_leaves_the_focus_there_and_says_what_cannot_be(
    window: MainWindow, qtbot: QtBot
) -> None:
    window.take(bench_project(), None)
    window.show_workspace(0)
    face = window.design.editor.face
    qtbot.waitUntil(face.hasFocus)
    window.connecting.choose(0)
    QTest.keySequence(window, "Ctrl+K")
    assert window.live.connected
    assert face.hasFocus()
    QTest.keySequence(window, "Ctrl+Shift+K")
    qtbot.waitUntil(lambda: not window.live.connected)
    window.take(
        bench_project().replace(lines=(), followers=(), signals=(), actions=(), screen_changes=(), screens=()), None
    )
    window.connecting.connect_line()
    assert "no line" in window.notices.words


def test_long_checks_are_told_in_the_slot_until_they_are_through(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("widgets.kit.notice_slot.WORK_AFTER_MS", 0)
    window = MainWindow()
    qtbot.addWidget(window)
    window.show()
    window.take(big_project(screens=40, signals=400), None)
    slot, parts = window.notices, set[int]()

    def going_on() -> bool:
        parts.add(slot.progress.value())
        return slot.words == "Checking the project\u2026" and len(parts) > 2

    qtbot.waitUntil(going_on)
    change(window)  # which makes the rest of it void
    assert slot.words == ""
    qtbot.waitUntil(lambda: window.design.checks.up_to_date)
    assert slot.words == ""
    window.leave()


def test_the_pointer_tells_that_a_workspace_is_being_made(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    shapes: list[Qt.CursorShape | None] = []

    def look(*_: object) -> None:
        shown = QApplication.overrideCursor()
        shapes.append(None if shown is None else shown.shape())

    window = MainWindow(workspace=BENCH)
    qtbot.addWidget(window)
    monkeypatch.setattr("widgets.shell.window_state.arrange_parts", look)
    window.show_workspace(DESIGN)
    window.show_workspace(START_UP)
    assert shapes == [Qt.CursorShape.WaitCursor] * 2
    assert QApplication.overrideCursor() is None
    window.leave()
