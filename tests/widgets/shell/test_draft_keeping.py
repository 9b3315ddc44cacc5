"""What is typed and not taken over yet outlives the window: kept in the recovery copy, and brought back from it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.project_file.canonical import canonical
from app.project_file.files import load, save
from app.project_file.pending_edits import KeptDraft
from app.project_file.recovery import Origin, left_behind, new_slot
from projects import demo_path
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import MakeWindow, button_of, words_of
from widgets.design.forms.form import FormRow
from widgets.kit.language import Language, Translation
from widgets.shell.recovery_dialog import RecoveryDialog
from widgets.shell.window import MainWindow

Key = Qt.Key
STEP = ("signal", "set point"), "Step"


pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "state" / "recovery"


@pytest.fixture
def make(make_window: MakeWindow, tmp_path: Path) -> Callable[[], MainWindow]:
    return lambda: make_window(state=tmp_path / "state")


@pytest.fixture
def window(make: Callable[[], MainWindow], file: Path) -> MainWindow:
    """A window with the project, in which the step of the third signal is typed wrong."""
    window = make()
    window.open_file(file)
    QTest.keySequence(window, "Alt+4")
    for _ in range(2):
        QTest.keyClick(focused(), Key.Key_Down)
    editor = step_of(window).editors()[0]
    editor.setFocus()
    QTest.keySequence(editor, "Ctrl+A")
    QTest.keyClicks(editor, "fast")
    assert [draft[:3] for draft in window.design.drafts.all()] == [(*STEP, ("fast",))]
    assert not window.document.modified
    return window


def step_of(window: MainWindow, label: str = "Step") -> FormRow:
    return next(row for row in window.design.inspector.signal_form.rows if row.label == label)


def focused() -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def copies(folder: Path) -> list[Path]:
    return list(folder.glob("*.toml"))


@dataclass
class Offer:
    """What the dialog said before it was answered."""

    differences: str = ""


def recover(window: MainWindow, qtbot: QtBot) -> Offer:
    """Ask for unsaved work, and recover the first that is offered."""
    offer = Offer()

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, RecoveryDialog)
        offer.differences = dialog.differences.toPlainText()
        QTest.keyClick(dialog, Key.Key_Return)

    QTimer.singleShot(0, look)
    QTest.keySequence(window, "Shift+F5")
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    return offer


def let_go(window: MainWindow) -> None:
    """Answer the question about what is not taken over, as soon as it is asked: it is lost."""

    def answer() -> None:
        box = QApplication.activeModalWidget()
        assert "signal 'set point', Step" in words_of(box)
        QTest.mouseClick(button_of(box, "Leave"), Qt.MouseButton.LeftButton)

    assert window.isWindowModified()
    QTimer.singleShot(0, answer)


def leave_behind(folder: Path, file: Path, *drafts: KeptDraft) -> None:
    slot = new_slot(folder)
    slot.write(canonical(load(file)), Origin(file, None, 5.0), drafts)
    slot.release()


def test_it_comes_back_in_its_row_and_the_finding_leads_there(
    window: MainWindow, make: Callable[[], MainWindow], file: Path, folder: Path, qtbot: QtBot
) -> None:
    qtbot.waitUntil(lambda: bool(copies(folder)), timeout=15_000)
    message = step_of(window).message.text()
    assert message
    before = window.design.drafts.all()
    window.leave()

    second = make()
    offer = recover(second, qtbot)
    assert "Everything that was accepted is in its file" in offer.differences
    assert "signal 'set point', Step: 'fast'" in offer.differences
    assert second.told == "Recovered. Not accepted yet, see the findings: 1"
    assert second.document.path == file
    assert not second.document.modified
    assert second.design.drafts.all() == before
    assert "1 pending" in second.design.findings.summary.text()

    QTest.keySequence(second, "F8")
    QTest.keyClick(focused(), Key.Key_Home)
    QTest.keyClick(focused(), Key.Key_Return)
    editor = focused()
    assert isinstance(editor, QLineEdit)
    assert editor is step_of(second).editors()[0]
    assert editor.text() == "fast"
    assert step_of(second).message.text() == message

    QTest.keySequence(editor, "Ctrl+A")
    QTest.keyClicks(editor, "2")
    assert second.design.drafts.all() == ()
    assert second.save()
    assert load(file).signal_named["set point"].step == 2
    qtbot.waitUntil(lambda: not copies(folder), timeout=15_000)


def test_it_comes_back_along_with_what_was_taken_over(
    window: MainWindow, make: Callable[[], MainWindow], qtbot: QtBot
) -> None:
    QTest.keySequence(window, "Alt+1")
    QTest.keyClicks(window.design.editor.face, "abc")
    window.leave()
    second = make()
    offer = recover(second, qtbot)
    assert "screen 'run' modified" in offer.differences
    assert "Step: 'fast'" in offer.differences
    assert second.told == "Recovered. Not saved yet. Not accepted yet, see the findings: 1"
    screen = second.document.screen
    assert screen is not None
    assert screen.text[0].startswith("abc")
    QTest.keySequence(second, "Ctrl+Z")
    assert not second.document.modified
    assert second.design.drafts.get(*STEP) is not None, "undo takes back what was taken over, and nothing else"


def test_every_row_of_every_form_gets_its_own_back(make: Callable[[], MainWindow], qtbot: QtBot) -> None:
    window = make()
    window.open_file(demo_path("booster-pump"))
    project = window.document.project
    subjects = (
        ("panel",),
        ("messages",),
        ("screen", project.screens[1].name),
        ("field", project.screens[1].name, 0),
        ("signal", project.signals[1].name),
        ("line", project.lines[0].name),
        ("follower", project.followers[0].name),
    )
    forms = window.design.inspector.forms
    assert [kind for kind, *_ in subjects if kind not in forms] == []
    assert len(subjects) == len(forms)
    for subject in subjects:
        for number, row in enumerate(forms[str(subject[0])].rows):
            texts = tuple(f"{number} {at}" for at in range(len(row.texts())))
            if texts:
                window.design.drafts.keep(subject, row.label, texts, f"reason {number}")
    kept = window.design.drafts.all()
    assert len(kept) > 50
    window.leave()
    second = make()
    recover(second, qtbot)
    assert second.design.drafts.all() == kept


def test_it_is_kept_over_saving_until_it_is_dropped(window: MainWindow, folder: Path, qtbot: QtBot) -> None:
    autosave = window.files.autosave
    assert autosave is not None
    QTest.keySequence(window, "Alt+1")
    with qtbot.waitSignal(autosave.written, timeout=15_000):
        QTest.keyClicks(window.design.editor.face, "abc")
    with qtbot.waitSignal(autosave.written, timeout=15_000):
        QTest.keySequence(window, "Ctrl+S")
    assert not window.document.modified
    assert len(copies(folder)) == 1
    QTest.keySequence(window, "Alt+4")
    editor = step_of(window).editors()[0]
    editor.setFocus()
    QTest.keySequence(editor, "Ctrl+Z")
    assert window.design.drafts.all() == ()
    qtbot.waitUntil(lambda: not copies(folder), timeout=15_000)


def test_an_orderly_end_leaves_no_copy(window: MainWindow, folder: Path, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: bool(copies(folder)), timeout=15_000)
    let_go(window)
    window.close()
    assert not window.isVisible()
    assert list(folder.iterdir()) == []


def test_another_project_leaves_no_copy(window: MainWindow, tmp_path: Path, folder: Path, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: bool(copies(folder)), timeout=15_000)
    other = tmp_path / "other.toml"
    save(bench_project(), other)
    let_go(window)
    assert window.open_file(other)
    qtbot.waitUntil(lambda: not copies(folder), timeout=15_000)


def test_a_copy_that_is_declined_keeps_it(window: MainWindow, make: Callable[[], MainWindow], folder: Path) -> None:
    window.leave()
    second = make()

    def decline() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, RecoveryDialog)
        QTest.keyClick(dialog, Key.Key_Escape)

    QTimer.singleShot(0, decline)
    QTest.keySequence(second, "Shift+F5")
    assert second.design.drafts.all() == ()
    (slot,) = left_behind(folder)
    assert [draft.texts for draft in slot.read().drafts] == [("fast",)]
    slot.release()


def test_a_window_of_another_language_shows_it_in_the_same_row(
    window: MainWindow, make: Callable[[], MainWindow], speech: Translation, qtbot: QtBot
) -> None:
    place = window.design.inspector.signal_form.rows.index(step_of(window))
    window.leave()
    speech.speak(Language.GERMAN)
    german = make()
    recover(german, qtbot)
    row = german.design.inspector.signal_form.rows[place]
    assert row.label != "Step"
    ((subject, label, texts, _),) = german.design.drafts.all()
    assert (subject, label, texts) == (("signal", "set point"), row.label, ("fast",))


def test_what_no_part_and_no_row_fits_is_left_out_and_said(
    make: Callable[[], MainWindow], file: Path, folder: Path, qtbot: QtBot
) -> None:
    fits = KeptDraft(("panel",), "Rows", 0, ("many",), "no number")
    gone = KeptDraft(("signal", "no such"), "Step", 0, ("x",), "no number")
    no_row = KeptDraft(("panel",), "no such", 10_000, ("x",), "no number")
    too_many = KeptDraft(("signal", "set point"), "Step", 0, ("x", "y"), "no number")
    leave_behind(folder, file, gone, no_row, too_many, fits)
    window = make()
    offer = recover(window, qtbot)
    assert "no such" not in offer.differences.split("panel", 1)[0]
    assert "Some texts that were not accepted yet cannot be restored" in offer.differences
    assert [texts for _, _, texts, _ in window.design.drafts.all()] == [("many",)]
    assert window.told == ("Recovered. Some texts could not be restored. Not accepted yet, see the findings: 1")


def test_a_damaged_line_costs_no_more_than_what_stood_in_it(
    make: Callable[[], MainWindow], file: Path, folder: Path, qtbot: QtBot
) -> None:
    leave_behind(folder, file, KeptDraft(("panel",), "Rows", 0, ("many",), "no number"))
    (copy,) = copies(folder)
    copy.write_bytes(copy.read_bytes().replace(b'"many"', b"\xff\0"))
    window = make()
    recover(window, qtbot)
    assert window.document.project == load(file)
    assert window.design.drafts.all() == ()
    assert window.told == "Recovered. Some texts could not be restored"
