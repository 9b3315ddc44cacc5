"""From a register list to a live panel, through the window: how many actions that takes."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from app.checks import check
from tests.widgets.design.sentences import choose, type_word
from tests.widgets.driving import focused
from widgets.design.exchange.import_list import ImportDialog
from widgets.shell.window import MainWindow
from widgets.welcome.new_panel import NewPanelDialog

MOST_ACTIONS = 41
"""Of the whole task; 45 are wanted."""
MOST_SECONDS = 150
MIND_S, POINT_S, BUTTON_S, KEY_S = 1.35, 1.1, 0.2, 0.28
"""Of the keystroke-level model (Card, Moran and Newell 1980, from memory): to make up one's mind for each action, to
point, to press a button of the mouse, and a key. What the program itself takes comes on top: tests.bench."""
# A list of our own, with titles as lists have them.
ROWS: list[list[object]] = [
    ["Register", "Name", "Table", "Data type", "Factor", "Unit", "Access", "Min", "Max", "Bit"],
    [610, "Belt control word", "holding", "UINT", None, None, "RW", None, None, None],
    [610, "Belt run", "holding", None, None, None, "RW", None, None, 0],
    [610, "Belt reverse", "holding", None, None, None, "RW", None, None, 1],
    [700, "Belt status word", "input", "UINT", None, None, "R", None, None, None],
    [700, "Belt fault", "input", None, None, None, "R", None, None, 3],
    [614, "Set point", "holding", "UINT", 0.01, "Hz", "RW", 5, 50, None],
    [702, "Frequency", "input", "UINT", 0.01, "Hz", "R", None, None, None],
    [703, "Current", "input", "UINT", 0.1, "A", "R", None, None, None],
    [704, "Torque", "input", "INT", 0.1, "%", "R", None, None, None],
    [705, "Speed", "input", "INT", None, "1/min", "R", None, None, None],
    [706, "Drive temperature", "input", "INT", None, "K", "R", None, None, None],
    [707, "Hours", "input", "UDINT", None, "h", "R", None, None, None],
    [709, "Fault code", "input", "UINT", None, None, "R", None, None, None],
]


def workbook(folder: Path) -> Path:
    """The list on the second sheet, behind a cover."""
    book = openpyxl.Workbook()
    cover = book.active
    assert cover is not None
    cover.title = "Cover"
    cover.append(["Conveyor 4", "register list"])
    sheet = book.create_sheet("Registers")
    for row in ROWS:
        sheet.append(row)
    path = folder / "conveyor.xlsx"
    book.save(path)
    return path


def text_file(folder: Path) -> Path:
    """The same as text."""
    path = folder / "conveyor.csv"
    path.write_text("\n".join(",".join("" if cell is None else str(cell) for cell in row) for row in ROWS), "utf-8")
    return path


class Hands:
    """What a person does, counted: a key or chord, a click, a text typed, a choice from a list."""

    def __init__(self, window: MainWindow, qtbot: QtBot) -> None:
        self.window = window
        self.qtbot = qtbot
        self.actions = 0
        self.seconds = 0.0
        """Of a person who knows the way, by the model above."""

    def count(self, *, clicks: int = 0, keys: int = 0, letters: int = 0) -> None:
        """Clicks, single keys or chords, and texts, which are one action however long."""
        self.actions += clicks + keys + (1 if letters else 0)
        minds = clicks + keys + (1 if letters else 0)
        self.seconds += minds * MIND_S + clicks * (POINT_S + BUTTON_S) + (keys + letters) * KEY_S

    def chord(self, keys: str) -> None:
        self.count(keys=keys.count(",") + 1)
        QTest.keySequence(focused(), keys)

    def back(self) -> None:
        """Go on in the window after a dialog: without a desktop nobody else brings it to the front."""
        self.window.activateWindow()
        self.qtbot.waitUntil(self.window.isActiveWindow)

    def key(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self.count(keys=1)
        QTest.keyClick(focused(), key, modifiers)

    def click(self, widget: QWidget, place: QPoint | None = None) -> None:
        """Click on something, left out in its middle."""
        self.count(clicks=1)
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=place or widget.rect().center())

    def enter(self, text: str) -> None:
        self.count(letters=len(text))
        QTest.keyClicks(focused(), text)

    def pick(self, box: QComboBox, text: str) -> None:
        """Open the list and choose: two actions."""
        self.count(clicks=2)
        at = box.findText(text, Qt.MatchFlag.MatchContains)
        assert at >= 0, [box.itemText(each) for each in range(box.count())]
        box.setCurrentIndex(at)
        box.activated.emit(at)

    def word(self, slot: str, text: str) -> None:
        """Choose a word of a sentence: its list is open or opens by typing, Enter takes it."""
        self.count(clicks=2)
        choose(self.window.design, slot, text)

    def written(self, slot: str, text: str) -> None:
        """Type a word of a sentence and end it."""
        self.count(keys=1, letters=len(text))
        type_word(self.window.design, slot, text)

    def when(self, kind: type[QDialog], then: Callable[[QDialog], None]) -> None:
        """Once such a dialog is open and ready, go on in it."""

        def look() -> None:
            dialog = QApplication.activeModalWidget()
            if dialog is not None and not isinstance(dialog, kind):
                dialog.close()  # or the test would wait for it for ever
                return
            focused_now = QApplication.focusWidget()
            busy = isinstance(dialog, ImportDialog) and not dialog.bring_in.hasFocus()
            busy = busy or dialog is None or focused_now is None or not dialog.isAncestorOf(focused_now)
            if isinstance(dialog, kind) and isinstance(dialog, QDialog) and not busy:
                then(dialog)
            else:
                QTimer.singleShot(20, look)

        QTimer.singleShot(0, look)


@pytest.mark.parametrize("make", [workbook, text_file])
def test_from_a_register_list_to_a_live_panel(
    window: MainWindow, qtbot: QtBot, tmp_path: Path, make: Callable[[Path], Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    hands = Hands(window, qtbot)

    # A panel with a ring of three screens and the way back, and the list for it: its name and Enter in the system's
    # dialog, and Enter once more.
    def file_dialog(*_: object) -> tuple[str, str]:
        hands.count(keys=1, letters=len("conveyor.xlsx"))
        return str(make(tmp_path)), ""

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, NewPanelDialog)
        hands.enter("Belt")
        hands.pick(dialog.registers, "list")
        hands.key(Qt.Key.Key_Return)
        hands.when(ImportDialog, lambda _dialog: hands.key(Qt.Key.Key_Return))

    monkeypatch.setattr(QFileDialog, "getOpenFileName", file_dialog)
    hands.when(NewPanelDialog, answer)
    hands.chord("Ctrl+N")
    design, document = window.design, window.document
    qtbot.waitUntil(lambda: len(document.project.signals) == len(ROWS) - 1)
    assert len(document.project.followers) == len(document.project.lines) == 1
    hands.back()

    # Screens of what is to be seen: of some signals on each, all at once.
    tray = design.left.tray
    hands.chord("Alt+1")
    for screen, first, last in (("screen 1", "Set point", "Current"), ("screen 2", "Torque", "Drive temperature")):
        document.select_screen(screen)
        hands.count(clicks=1)  # on it in the list of screens
        names = [part.name for part in document.project.signals]
        tray.choose(names[names.index(first) : names.index(last) + 1])
        hands.count(clicks=2)  # on the first, and with Shift on the last
        tray.list.setFocus()
        hands.key(Qt.Key.Key_Return)
        assert len(document.project.screen_named[screen].fields) == 3

    # A screen of its own for the fault.
    hands.chord("Ctrl+Shift+A")
    hands.enter("fault")
    hands.key(Qt.Key.Key_Return)
    fault = "fault"
    qtbot.waitUntil(lambda: document.selection.screen == fault)
    grid = design.editor.face.grid
    hands.click(grid, grid.cell_rect(0, 0).center())
    hands.enter("BELT FAULT")
    assert document.project.screen_named[fault].text[0] == "BELT FAULT"

    # What the keys do, and what comes by itself.
    hands.chord("Alt+3")
    buttons = design.behaviour.keys.face.keypad.buttons
    for key, do, target in (("start", "", "run"), ("stop", "", "run"), ("up", "toggles", "reverse")):
        hands.click(buttons[key])
        if do:  # what START and STOP do is said by their names
            hands.word("do", do)
        hands.written("target", f"Belt {target}")
    assert [(each.key, each.do, each.signal) for each in document.project.actions] == [
        ("start", "set", "Belt run"),
        ("stop", "clear", "Belt run"),
        ("up", "toggle", "Belt reverse"),
    ]
    hands.chord("Ctrl+W, C")
    hands.written("signal", "Belt fault")
    hands.word("to", fault)
    assert not [finding for finding in check(document.project) if finding.severity == "error"]

    # Live, on simulated devices.
    hands.click(window.header.connect_bar.button)
    qtbot.waitUntil(lambda: bool(window.live.readings()) and all(one.good for one in window.live.readings().values()))
    assert hands.actions <= MOST_ACTIONS
    assert hands.seconds <= MOST_SECONDS
