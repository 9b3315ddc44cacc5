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
from widgets.design.tray.screens_of import ScreensOfDialog
from widgets.kit.commands import plain
from widgets.shell.window import MainWindow

MOST_ACTIONS = 45
"""What is wanted of the whole task."""
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

    def chord(self, keys: str) -> None:
        self.actions += keys.count(",") + 1
        QTest.keySequence(focused(), keys)

    def back(self) -> None:
        """Go on in the window after a dialog: without a desktop nobody else brings it to the front."""
        self.window.activateWindow()
        self.qtbot.waitUntil(self.window.isActiveWindow)

    def key(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self.actions += 1
        QTest.keyClick(focused(), key, modifiers)

    def click(self, button: QWidget) -> None:
        """Click near the right edge: in a line that is filled in, behind its text."""
        self.actions += 1
        place = QPoint(button.width() - 8, button.height() // 2)
        QTest.mouseClick(button, Qt.MouseButton.LeftButton, pos=place)

    def enter(self, text: str) -> None:
        self.actions += 1
        QTest.keyClicks(focused(), text)

    def pick(self, box: QComboBox, text: str) -> None:
        """Open the list and choose: two actions."""
        self.actions += 2
        at = box.findText(text, Qt.MatchFlag.MatchContains)
        assert at >= 0, [box.itemText(each) for each in range(box.count())]
        box.setCurrentIndex(at)
        box.activated.emit(at)

    def word(self, slot: str, text: str) -> None:
        """Choose a word of a sentence: its list is open or opens by typing, Enter takes it."""
        self.actions += 2
        choose(self.window.design, slot, text)

    def written(self, slot: str, text: str) -> None:
        """Type a word of a sentence and end it."""
        self.actions += 2
        type_word(self.window.design, slot, text)

    def when(self, kind: type[QDialog], then: Callable[[QDialog], None]) -> None:
        """Once such a dialog is open and ready, go on in it."""

        def look() -> None:
            dialog = QApplication.activeModalWidget()
            if dialog is not None and not isinstance(dialog, kind):
                dialog.close()  # or the test would wait for it for ever
                return
            busy = isinstance(dialog, ImportDialog) and not dialog.bring_in.hasFocus()
            if isinstance(dialog, kind) and isinstance(dialog, QDialog) and not busy:
                then(dialog)
            else:
                QTimer.singleShot(20, look)

        QTimer.singleShot(0, look)


@pytest.mark.parametrize("make", [workbook, text_file])
def test_from_a_register_list_to_a_live_panel(
    window: MainWindow, qtbot: QtBot, tmp_path: Path, make: Callable[[Path], Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    design, document = window.design, window.document
    window.show_workspace(0)
    hands = Hands(window, qtbot)

    # The screen that is there will say what is wrong.
    hands.enter("BELT FAULT")
    assert document.project.screens[0].text[0].startswith("BELT FAULT")

    # The list: Ctrl+I, its name and Enter in the system's dialog, Enter again.
    def file_dialog(*_: object) -> tuple[str, str]:
        hands.actions += 2
        return str(make(tmp_path)), ""

    monkeypatch.setattr(QFileDialog, "getOpenFileName", file_dialog)
    hands.when(ImportDialog, lambda _dialog: hands.key(Qt.Key.Key_Return))
    hands.chord("Ctrl+I")
    assert len(document.project.signals) == len(ROWS) - 1
    assert len(document.project.followers) == len(document.project.lines) == 1

    # Screens of what is to be seen, in a ring.
    grid = design.signals.table.table
    places = [place for place, part in enumerate(document.project.signals) if part.name in ("Set point", "Fault code")]
    grid.select_rows(list(range(places[0], places[1])))
    hands.actions += 2  # a click on the first row, and one with Shift on the last

    hands.back()
    lay_out = next(action for action in design.actions() if plain(action.text()).startswith("A screen of these"))
    hands.chord(lay_out.shortcut().toString())
    dialog = QApplication.activeModalWidget()
    assert isinstance(dialog, ScreensOfDialog)
    qtbot.waitUntil(lambda: dialog.title.hasFocus())
    hands.enter("Belt")
    assert dialog.ring.currentIndex() > 0, "a ring is offered"
    hands.key(Qt.Key.Key_Return)
    hands.back()
    assert [screen.name for screen in document.project.screens][1:] == ["Belt", "Belt 2", "Belt 3"]

    # The panel gets two keys and begins with the first of the new screens.
    hands.chord("Alt+6")
    form = design.inspector.panel_form
    row = next(row for row in form.rows if row.label == "Keys")
    hands.click(row.editors()[0])
    hands.enter(", start, stop")
    hands.key(Qt.Key.Key_Tab)
    start = next(row for row in form.rows if row.label == "Start screen").editors()[0]
    assert isinstance(start, QComboBox)
    hands.pick(start, "Belt")
    assert document.project.panel.keys[-2:] == ("start", "stop")
    assert document.project.panel.start == "Belt"

    # What the keys do, and what comes by itself.
    hands.chord("Alt+3")
    assert document.selection.screen == "Belt"
    buttons = design.behaviour.keys.face.keypad.buttons
    for key, do, target in (("start", "sets", "run"), ("stop", "clears", "run"), ("up", "toggles", "reverse")):
        hands.click(buttons[key])
        hands.word("do", do)
        hands.written("target", f"Belt {target}")
    assert [(each.key, each.do, each.signal) for each in document.project.actions] == [
        ("start", "set", "Belt run"),
        ("stop", "clear", "Belt run"),
        ("up", "toggle", "Belt reverse"),
    ]
    hands.chord("Ctrl+W, C")
    hands.written("signal", "Belt fault")
    hands.word("to", "main")
    hands.chord("Ctrl+W, I")
    hands.written("idle", "60")
    hands.word("to", "Belt")
    wrong = {finding.rule for finding in check(document.project) if finding.severity == "error"}
    assert wrong == {"no-address"}, "only the real line is open yet"

    # Live, on simulated devices.
    hands.click(window.header.connect_bar.button)
    qtbot.waitUntil(lambda: bool(window.live.readings()) and all(one.good for one in window.live.readings().values()))
    assert hands.actions <= MOST_ACTIONS
