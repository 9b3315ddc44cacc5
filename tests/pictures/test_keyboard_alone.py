"""The main job by keys alone: every pane is reached, and a small panel is made, tried and saved without a mouse."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QPushButton, QWidget

from app.project.model import RegisterSignal
from app.project_file.files import load
from tests.pictures.stage import Setting, settle, settle_until, staged
from widgets.design.forms.signal_picker import SignalPicker
from widgets.shell.finder import CommandFinder
from widgets.shell.help import AboutDialog, CautionsDialog, ShortcutsDialog
from widgets.shell.window import MainWindow
from widgets.welcome.new_panel import NewPanelDialog

KEY = Qt.Key
NONE = Qt.KeyboardModifier.NoModifier
CONTROL, SHIFT, ALT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
)


@pytest.fixture
def window() -> Iterator[MainWindow]:
    with staged(Setting()) as made:
        yield made


def focused() -> QWidget:
    settle()
    widget = QApplication.focusWidget()
    assert widget is not None, "nothing has the focus"
    return widget


def press(key: Qt.Key, *modifiers: Qt.KeyboardModifier) -> None:
    both = Qt.KeyboardModifier.NoModifier
    for each in modifiers:
        both |= each
    QTest.keyClick(focused(), key, both)
    settle()


def press_keys(keys: str) -> None:
    QTest.keySequence(focused(), keys)
    settle()


def type_text(text: str) -> None:
    QTest.keyClicks(focused(), text)
    settle()


def when_asked(kind: type[QDialog], use: Callable[[QDialog], object]) -> list[str]:
    """Use the next dialog of this kind, as soon as it is open. What went wrong stands in the list afterwards."""
    wrong: list[str] = ["it was not opened"]

    def look() -> None:
        dialogs = [each for each in QApplication.topLevelWidgets() if isinstance(each, QDialog) and each.isVisible()]
        if not dialogs:
            QTimer.singleShot(20, look)
            return
        try:
            assert isinstance(dialogs[0], kind), type(dialogs[0]).__name__
            wrong[:] = ["it could not be used as it should"]
            use(dialogs[0])
            wrong.clear()
        finally:  # an open dialog would wait for ever
            for dialog in dialogs:
                if dialog.isVisible():
                    dialog.reject()

    QTimer.singleShot(0, look)
    return wrong


def to_window(window: MainWindow) -> None:
    """Go on in the window after a dialog: without a desktop nobody else brings it to the front."""
    window.activateWindow()
    settle_until(window.isActiveWindow)


@pytest.mark.parametrize("view", range(1, 7))
def test_tab_goes_through_all_parts_and_comes_round(window: MainWindow, view: int) -> None:
    """Nothing holds the focus for ever: from every part a key goes on (in a table of cells Tab goes by cells first)."""
    press_keys(f"Alt+{view}")
    seen: list[QWidget] = []
    while focused() not in seen:
        here = focused()
        seen.append(here)
        press(KEY.Key_Tab)
        if focused() is here:
            press(KEY.Key_Tab, CONTROL)
        assert focused() is not here, f"Tab does not leave {type(here).__name__}"
    assert len(seen) > 12


def test_views_workplaces_properties_and_findings_have_keys(window: MainWindow) -> None:
    design = window.design
    for number, expected in enumerate(
        (
            design.editor.face,
            design.map,
            design.behaviour.first,
            design.signals.first,
            design.lines.first,
        ),
        start=1,
    ):
        press_keys(f"Alt+{number}")
        assert focused() is expected
        press(KEY.Key_F4)
        assert design.inspector.isAncestorOf(focused())
    press(KEY.Key_F8)
    assert focused() is design.findings.tree
    press_keys("Ctrl+2")
    assert focused() is window.bench.face
    press_keys("Ctrl+F")
    assert focused() is window.bench.readings.filter
    press_keys("Ctrl+L")
    assert window.line.view.isVisible()
    press_keys("Ctrl+L")
    press_keys("Ctrl+1")
    assert focused() is design.editor.face


def test_a_panel_is_made_checked_tried_and_saved_by_keys(
    window: MainWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "by keys.toml"
    # The system's own file dialog cannot be operated in a test.
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_more: (str(file), ""))
    document = window.document

    def make_empty(dialog: QDialog) -> None:
        for key, modifier in ((KEY.Key_Tab, SHIFT), (KEY.Key_End, NONE), (KEY.Key_M, ALT)):
            settle()
            QTest.keyClick(dialog.focusWidget(), key, modifier)
        settle_until(lambda: not dialog.isVisible())

    # A new panel with nothing on it yet.
    wrong = when_asked(NewPanelDialog, make_empty)
    press_keys("Ctrl+N")
    to_window(window)
    assert wrong == []
    assert (document.project.panel.rows, document.project.panel.columns) == (4, 20)
    assert document.project.signals == ()

    # Another line than the one it has, a device on it, and a signal read from it.
    press_keys("Alt+5")
    press_keys("Ctrl+W, M")
    press_keys("Ctrl+W, D")
    press_keys("Ctrl+W, S")
    type_text("speed")
    project = document.project
    assert [line.kind for line in project.lines] == ["serial", "tcp"]
    assert len(project.followers) == 2
    signal = project.signal_named["speed"]
    assert isinstance(signal, RegisterSignal)
    press_keys("Ctrl+Z")
    press_keys("Ctrl+Shift+Z")
    assert "speed" in document.project.signal_named

    # A screen with a text and a field.
    press_keys("Alt+1")
    press_keys("Ctrl+Shift+A")
    type_text("level")
    press(KEY.Key_Return)
    assert "level" in document.project.screen_named
    press_keys("Alt+1")
    press(KEY.Key_Home, CONTROL)
    type_text("Speed ")
    assert document.project.screen_named["level"].text[0].startswith("Speed")

    def place(dialog: QDialog) -> None:
        QTest.keyClicks(dialog.focusWidget(), "speed")
        QTest.keyClick(dialog.focusWidget(), KEY.Key_Return)

    wrong = when_asked(SignalPicker, place)
    press_keys("Ctrl+Return")
    settle_until(lambda: not wrong or document.project.screen_named["level"].fields)
    assert wrong == []
    to_window(window)
    assert window.design.notice.isHidden(), window.design.notice.text.text()
    field = document.project.screen_named["level"].fields[0]
    assert (field.signal, field.at) == ("speed", (0, 6))

    # Screen changes between the two screens, checked, tried, and saved.
    press_keys("Alt+3")
    press_keys("Ctrl+W, G")
    assert not document.project.screen_changes, "it has no screen to go to yet"
    assert focused().accessibleName() == "Key"
    type_text("r")
    press(KEY.Key_Tab)
    press(KEY.Key_Tab)
    assert focused().accessibleName() == "Target screen"
    type_text("level")
    press(KEY.Key_Return)
    assert [(each.key, each.to) for each in document.project.screen_changes] == [("right", "level")]
    press(KEY.Key_F8)
    assert focused() is window.design.findings.tree
    press_keys("Alt+1")
    press(KEY.Key_F9)
    settle_until(lambda: window.design.editor.tryout.isVisible())
    press(KEY.Key_F9)
    settle_until(lambda: not window.design.editor.tryout.isVisible())
    press_keys("Ctrl+S")
    settle_until(file.exists)
    assert load(file) == document.project
    assert not document.modified


def test_what_has_no_key_one_remembers_is_found_by_name(window: MainWindow) -> None:
    def find(dialog: QDialog) -> None:
        QTest.keyClicks(dialog.focusWidget(), "keys and screen")
        QTest.keyClick(dialog.focusWidget(), KEY.Key_Return)
        settle_until(lambda: not dialog.isVisible())

    wrong = when_asked(CommandFinder, find)
    press_keys("Ctrl+J")
    assert wrong == []
    assert window.design.view == "behaviour"


@pytest.mark.parametrize(
    ("keys", "kind"),
    [
        ("Ctrl+N", NewPanelDialog),
        ("Ctrl+F1", ShortcutsDialog),
        ("Ctrl+Shift+F1", CautionsDialog),
        ("Ctrl+Shift+H", AboutDialog),
    ],
)
def test_buttons_of_a_dialog_are_reached_by_tab_and_escape_leaves_it(
    window: MainWindow, keys: str, kind: type[QDialog]
) -> None:
    def walk(dialog: QDialog) -> None:
        reached: set[QWidget] = set()
        for _ in range(20):
            here = dialog.focusWidget()
            if here is not None:
                reached.add(here)
            QTest.keyClick(here or dialog, KEY.Key_Tab)
        buttons = {each for each in dialog.findChildren(QPushButton) if each.isVisible() and each.isEnabled()}
        assert buttons
        assert buttons <= reached, [each.text() for each in buttons - reached]
        QTest.keyClick(dialog, KEY.Key_Escape)
        assert not dialog.isVisible()

    wrong = when_asked(kind, walk)
    press_keys(keys)
    assert wrong == []
