"""Finding commands and places by name, in the real window."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.project.model import Project
from tests.waiting import wait_for
from tests.widgets.driving import MakeWindow
from widgets.document.settings import Settings
from widgets.kit.commands import list_commands
from widgets.shell.finder import MOST_SHOWN, PAGE, CommandFinder, Target
from widgets.shell.window import BENCH, MainWindow

FIND = "Ctrl+J"


pytestmark = pytest.mark.usefixtures("own_settings")


@pytest.fixture
def window(window: MainWindow, pump: Project) -> MainWindow:
    window.take(pump, None)
    return window


def finding(window: MainWindow, use: Callable[[CommandFinder], object]) -> list[str]:
    """Open the finder by key, use it, and press Escape if it is still open. Returns the names it listed last."""
    names: list[str] = []
    opened: list[CommandFinder] = []

    def look() -> None:
        dialog = window.findChild(CommandFinder)
        if dialog is None or not dialog.isActiveWindow():
            QTimer.singleShot(5, look)
            return
        opened.append(dialog)
        wait_for(lambda: QApplication.processEvents() or dialog.complete)
        try:
            use(dialog)
            names.extend(target.name for target in dialog.targets())
        finally:  # an open dialog would wait for ever
            if dialog.isVisible():
                QTest.keyClick(dialog, Qt.Key.Key_Escape)

    window.activateWindow()
    wait_for(lambda: QApplication.processEvents() or window.isActiveWindow())
    QTimer.singleShot(0, look)
    QTest.keySequence(window.focusWidget(), FIND)
    assert opened, "the finder did not open"
    return names


def run(words: str) -> Callable[[CommandFinder], None]:
    def use(dialog: CommandFinder) -> None:
        QTest.keyClicks(dialog.search, words)
        QTest.keyClick(dialog.search, Qt.Key.Key_Return)

    return use


def test_every_command_of_the_menus_is_listed_under_its_name(window: MainWindow) -> None:
    names = finding(window, lambda _dialog: None)
    expected = [
        ": ".join((*each.path[1:], each.name))
        for each in list_commands(window.menus.all())
        if each.action is not window.menus.find
    ]
    assert sorted(names) == sorted(expected)
    assert len(names) > 40
    assert not [name for name in names if "&" in name or not name]


def test_a_command_is_run_by_a_few_letters(window: MainWindow) -> None:
    before = len(window.document.project.screens)
    finding(window, run("scre add"))
    assert len(window.document.project.screens) == before + 1


def test_a_command_of_the_design_brings_it_to_the_front(window: MainWindow) -> None:
    window.show_workspace(1)
    finding(window, run("go to the findings"))
    assert window.workspace is window.design
    assert window.focusWidget() is window.design.findings.tree


def test_undo_is_found_by_the_name_of_its_step(window: MainWindow) -> None:
    window.document.do("Title", lambda project: project.replace(title="other"))
    finding(window, run("undo titl"))
    assert window.document.project.title != "other"


def test_what_cannot_be_used_is_listed_with_the_reason_and_not_run(window: MainWindow) -> None:
    said: list[str] = []

    def use(dialog: CommandFinder) -> None:
        QTest.keyClicks(dialog.search, "disarm")
        QTest.keyClick(dialog.search, Qt.Key.Key_Return)
        assert dialog.isVisible()
        assert dialog.targets()[0].unusable
        said.extend([dialog.model.cell(0, 1)[0], dialog.told.text()])

    assert finding(window, use)[0] == "Disarm"
    assert "not now" in said[0]
    assert "not armed" in said[1]


def test_screens_and_signals_are_places_to_go_to(window: MainWindow) -> None:
    project = window.document.project
    last = project.screens[-1].name
    finding(window, run(f"screen {last}"))
    assert window.document.selection.screen == last
    window.show_workspace(1)
    signal = project.signals[-1].name
    finding(window, run(f"go signal {signal}"))
    assert window.workspace is window.design
    assert window.design.view == "signals"
    assert project.signals[window.design.signals.current()].name == signal


def test_what_was_used_last_comes_first_also_after_a_restart(window: MainWindow) -> None:
    finding(window, run("light"))
    finding(window, run("next screen"))
    assert finding(window, lambda _dialog: None)[:2] == ["Next screen", "Appearance: Light"]
    assert len(window.settings.recent_commands) == 2
    other = MainWindow()
    assert other.settings.recent_commands == window.settings.recent_commands
    other.leave()
    other.deleteLater()


def test_up_and_down_choose_while_one_types(window: MainWindow) -> None:
    chosen: list[str] = []

    def use(dialog: CommandFinder) -> None:
        QTest.keyClicks(dialog.search, "screen")
        for key in (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Up, Qt.Key.Key_PageDown, Qt.Key.Key_PageUp):
            QTest.keyClick(dialog.search, key)
            assert dialog.current is not None
            chosen.append(dialog.current.name)
        assert dialog.focusWidget() is dialog.search

    names = finding(window, use)
    last = len(names) - 1
    assert last > PAGE, "too few to turn a page"
    assert chosen == [names[place] for place in (1, 2, 1, min(1 + PAGE, last), min(1 + PAGE, last) - PAGE)]


def test_while_nothing_is_typed_enter_does_nothing(window: MainWindow) -> None:
    before = window.document.project

    def use(dialog: CommandFinder) -> None:
        QTest.keyClick(dialog.search, Qt.Key.Key_Return)
        assert dialog.isVisible()
        assert dialog.current is None
        QTest.keyClicks(dialog.search, "  ")
        QTest.keyClick(dialog.search, Qt.Key.Key_Return)
        assert dialog.isVisible()
        QTest.keyClick(dialog.search, Qt.Key.Key_Down)
        assert dialog.current == dialog.targets()[0], "chosen on purpose"

    finding(window, use)
    assert window.document.project is before


def test_what_is_typed_while_it_opens_is_not_lost(
    make_window: MakeWindow, pump: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Typed right behind Ctrl+J: some of it still comes to the window below, and Enter comes before all is gathered."""
    window = make_window(Settings(keep=False), workspace=BENCH)
    window.take(pump, None)
    assert not window.has_design
    seen: list[tuple[str, bool]] = []

    def type_on() -> None:
        dialog, handle = window.findChild(CommandFinder), window.windowHandle()
        assert dialog is not None
        assert handle is not None
        QTimer.singleShot(5000, dialog, dialog.reject)  # an open dialog would wait for ever
        assert not dialog.isActiveWindow()
        for letter in "next screen":
            QTest.keyClick(handle, Qt.Key(ord(letter.upper())))
        seen.append((dialog.search.text(), dialog.complete))
        QTest.keyClick(handle, Qt.Key.Key_Return)

    monkeypatch.setattr("widgets.shell.finder.GATHER_AFTER_MS", 500)
    # As long as the system has not brought it to the front.
    monkeypatch.setattr(CommandFinder, "changeEvent", lambda _dialog, _event: None)
    monkeypatch.setattr(CommandFinder, "activateWindow", lambda _dialog: QTimer.singleShot(0, type_on))
    show = CommandFinder.show

    def show_behind(dialog: CommandFinder) -> None:
        dialog.setAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating)
        show(dialog)

    monkeypatch.setattr(CommandFinder, "show", show_behind)
    screen = window.document.selection.screen
    QTest.keySequence(window.focusWidget(), FIND)
    assert seen == [("next screen", False)]
    assert window.has_design
    assert window.document.selection.screen != screen, "what it found when all was there was run"


def test_nothing_found_says_so_and_escape_changes_nothing(window: MainWindow) -> None:
    before = window.document.project
    said: list[str] = []

    def use(dialog: CommandFinder) -> None:
        QTest.keyClicks(dialog.search, "qqqq zzz")
        QTest.keyClick(dialog.search, Qt.Key.Key_Return)
        said.append(dialog.told.text())

    assert finding(window, use) == []
    assert "No match" in said[0]
    assert window.document.project is before


def test_very_many_places_stay_a_short_list(qtbot: QtBot) -> None:
    many = [Target(f"Go to the signal s{number}", "Signal", "", lambda: None, always=False) for number in range(2000)]
    dialog = CommandFinder(many)
    qtbot.addWidget(dialog)
    assert dialog.targets() == []
    dialog.search.setText("signal")
    assert len(dialog.targets()) == MOST_SHOWN
    assert str(2000 - MOST_SHOWN) in dialog.told.text()
    dialog.search.setText("s1999")
    assert [target.name for target in dialog.targets()] == ["Go to the signal s1999"]


def test_the_exact_name_of_a_part_comes_before_everything(window: MainWindow) -> None:
    def use(dialog: CommandFinder) -> None:
        QTest.keyClicks(dialog.search, "fault")

    assert finding(window, use)[:2] == ["Go to the screen fault", "Go to the signal fault"]
