"""Beginning: the start page, the demo and what it says afterwards, and a conveyor from nothing until it is live."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from app.checks import check
from app.follower.drive_bank import DriveBank
from app.project.model import Project, TcpLine
from app.project_file.files import load, save
from app.starters.answers import Answers
from app.starters.build import build
from projects import demo_path
from tests.builders import fresh_project
from tests.outside.test_starters_on_a_device import Drive
from tests.widgets.driving import MakeWindow, when_asked
from tests.widgets.operator import Operator
from widgets.design.exchange.import_list import ImportDialog
from widgets.document.settings import Settings
from widgets.kit.controls import Choice
from widgets.kit.drawn.bars import NOWHERE
from widgets.shell.application import begin
from widgets.shell.window import BENCH, DESIGN, START_PAGE, MainWindow
from widgets.welcome.new_panel import NewPanelDialog

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")

KEY = Qt.Key
MOST_ACTIONS = 25


@pytest.fixture
def window(make_window: MakeWindow) -> MainWindow:
    """A window that was started without a project."""
    made = make_window(workspace=START_PAGE)
    made.beginning.page.setFocus()
    return made


def focused() -> QWidget | None:
    return QApplication.focusWidget()


def rows(window: MainWindow) -> str:
    return "\n".join(row.text for row in window.bench.face.rows)


def choose(dialog: NewPanelDialog, choice: Choice, data: object) -> None:
    choice.setCurrentIndex(choice.findData(data))


def test_a_window_without_a_project_shows_the_start_page_and_makes_no_workspace(window: MainWindow) -> None:
    assert window.beginning.shown
    assert window.workspace_number == START_PAGE
    assert not window.has_design
    assert window.focusWidget() is window.beginning.page.cards[0]
    header = window.header
    assert not header.tabs.isEnabled()
    assert not header.badge.isVisible()
    assert not header.connect_bar.isVisible()
    QTest.keySequence(window, "Ctrl+1")
    assert window.beginning.shown


def test_what_may_be_written_is_never_hidden(window: MainWindow, qtbot: QtBot) -> None:
    window.files.show_demo()
    qtbot.waitUntil(lambda: window.live.connected)
    window.show_workspace(START_PAGE)
    assert window.beginning.shown
    assert window.header.badge.isVisible()
    assert window.header.tabs.isEnabled()
    window.live.disconnect_from_line()
    assert window.header.badge.isVisible(), "a project is open"


def test_a_conveyor_from_nothing_to_live_and_through_its_day(window: MainWindow, qtbot: QtBot) -> None:
    """Set point, start, stop, direction, speed, current, fault screen, ring of three, idle return."""
    operator = Operator()

    def answer(_dialog: QDialog) -> None:
        operator.type("Conveyor 7")
        operator.key(KEY.Key_Return)

    when_asked(answer)
    operator.click(window.beginning.page.cards[1])
    qtbot.waitUntil(lambda: window.live.connected and "remote" in rows(window))
    live_after = operator.actions
    assert live_after <= 3
    assert window.workspace_number == BENCH
    project = window.document.project
    assert project.title == "Conveyor 7"
    assert check(project) == ()
    assert "CONVEYOR 7" in rows(window)

    window.activateWindow()  # as a desktop does when a dialog is closed
    qtbot.waitUntil(lambda: focused() is window.bench.face)
    operator.key(KEY.Key_F1)  # START, as the key's legend says
    qtbot.waitUntil(lambda: "running" in rows(window) and "Speed         0.0" not in rows(window))
    for key in (KEY.Key_Return, KEY.Key_Up, KEY.Key_Return):
        operator.key(key)
    qtbot.waitUntil(lambda: "42.2 Hz" in rows(window))
    operator.key(KEY.Key_Right)
    qtbot.waitUntil(lambda: "Current" in rows(window) and "forward" in rows(window))
    operator.key(KEY.Key_F2)
    session = window.live.session
    assert session is not None
    assert session.simulation is not None
    drive = session.simulation.models["drive"]
    assert isinstance(drive, DriveBank)
    qtbot.waitUntil(lambda: not drive.drive.running)
    drive.inputs.external_fault = True
    qtbot.waitUntil(lambda: "DRIVE FAULT" in rows(window) and "external fault" in rows(window))
    drive.inputs.external_fault = False
    operator.key(KEY.Key_F3)
    qtbot.waitUntil(lambda: "Current" in rows(window))
    operator.key(KEY.Key_Right)
    qtbot.waitUntil(lambda: "RAMPS" in rows(window))
    operator.key(KEY.Key_Right)
    qtbot.waitUntil(lambda: "CONVEYOR 7" in rows(window))
    assert [change.idle_s for change in project.screen_changes if change.idle_s] == [60]
    assert operator.actions <= MOST_ACTIONS


def test_the_same_by_keys_alone_from_anywhere(window: MainWindow, qtbot: QtBot) -> None:
    operator = Operator()
    when_asked(lambda _dialog: operator.key(KEY.Key_Return))
    QTest.keySequence(window, "Ctrl+N")
    qtbot.waitUntil(lambda: window.live.connected and "CONVEYOR" in rows(window))
    assert operator.actions + 1 == 2


def test_a_new_panel_is_unsaved_work(window: MainWindow) -> None:
    when_asked(lambda dialog: QTest.mouseClick(dialog.make_button, Qt.MouseButton.LeftButton))  # type: ignore[attr-defined]
    QTest.keySequence(window, "Ctrl+N")
    assert window.workspace_number == DESIGN
    assert window.isWindowModified()
    assert not window.live.connected


def test_a_new_panel_on_a_real_device_is_connected_and_not_armed(window: MainWindow, qtbot: QtBot) -> None:
    with Drive(standard=True) as drive:

        def answer(dialog: QDialog) -> None:
            assert isinstance(dialog, NewPanelDialog)
            choose(dialog, dialog.line, "tcp")
            dialog.host.setText(f"127.0.0.1:{drive.where}")
            QTest.keyClick(dialog.title, KEY.Key_Return)

        when_asked(answer)
        QTest.keySequence(window, "Ctrl+N")
        qtbot.waitUntil(lambda: "remote" in rows(window))
        assert not window.live.writing.simulated
        assert window.live.writing.armed == ()
        QTest.keyClick(window.bench.face, KEY.Key_F1)
        qtbot.waitUntil(lambda: "writing is off" in rows(window) or "not written" in rows(window))
        assert drive.log == []
        assert isinstance(window.document.project.lines[0], TcpLine)
        window.live.disconnect_from_line()


def test_a_list_is_imported_next(window: MainWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "list.csv"
    path.write_text("Name,Register\nspeed,40001\n")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_more: (str(path), ""))
    opened: list[ImportDialog] = []

    def close_import() -> None:
        dialog = QApplication.activeModalWidget()
        if isinstance(dialog, ImportDialog):
            opened.append(dialog)
            dialog.reject()
        else:
            QTimer.singleShot(10, close_import)

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, NewPanelDialog)
        choose(dialog, dialog.registers, "list")
        QTimer.singleShot(10, close_import)
        QTest.keyClick(dialog.title, KEY.Key_Return)

    when_asked(answer)
    QTest.keySequence(window, "Ctrl+N")
    assert opened
    assert window.workspace_number == DESIGN
    assert len(window.document.project.screens) == 3


def test_the_demo_runs_and_says_once_what_comes_next(window: MainWindow, qtbot: QtBot) -> None:
    QTest.keyClick(window.beginning.page.cards[0], KEY.Key_Return)
    qtbot.waitUntil(lambda: window.live.connected and "BOOSTER PUMP" in rows(window))
    assert window.workspace_number == BENCH
    assert window.document.path is None
    window.live.disconnect_from_line()
    qtbot.waitUntil(lambda: "Ctrl+N" in window.told)
    window.tell("")
    QTest.keySequence(window, "Ctrl+Alt+D")
    qtbot.waitUntil(lambda: window.live.connected)
    window.live.disconnect_from_line()
    assert "Ctrl+N" not in window.told


def test_a_recent_file_is_opened_and_the_page_is_left(window: MainWindow, tmp_path: Path) -> None:
    path = tmp_path / "pump.toml"
    save(load(demo_path("booster-pump")), path)
    window.settings.remember(path)
    window.show_workspace(START_PAGE)
    recent = window.beginning.page.recent
    assert recent.count() == 1
    recent.setFocus()
    QTest.keyClick(recent, KEY.Key_Return)
    assert window.document.path == path
    assert window.workspace_number == DESIGN


@pytest.mark.parametrize("name", ["pump.toml", "run.fanrec"])
def test_projects_and_recordings_are_opened_by_one_dialog(
    window: MainWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    path = tmp_path / name
    opened: list[Path] = []
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_more: (str(path), ""))
    monkeypatch.setattr(window.files, "open_file", opened.append)
    monkeypatch.setattr(window.start_up, "play", opened.append)
    QTest.keyClick(window.beginning.page.cards[3], KEY.Key_Return)
    assert opened == [path]


def test_the_start_page_comes_back_and_the_project_stays(window: MainWindow) -> None:
    window.take(build(Answers()), None)
    assert window.workspace_number == DESIGN
    QTest.keySequence(window, "Ctrl+Alt+Home")
    assert window.beginning.shown
    assert window.document.project.title == "Conveyor"
    QTest.keySequence(window, "Ctrl+1")
    assert window.workspace_number == DESIGN


def begun(window: MainWindow, *, workspace: int | None = None) -> int:
    begin(window, resume=True, workspace=workspace)
    return window.workspace_number


def test_what_was_left_comes_before_the_start_page(
    window: MainWindow, tmp_path: Path, qtbot: QtBot, make_window: MakeWindow
) -> None:
    path = tmp_path / "pump.toml"
    save(load(demo_path("booster-pump")), path)
    window.open_file(path)
    window.show_workspace(BENCH)
    window.close()
    assert begun(make_window()) == BENCH
    path.unlink()
    assert begun(make_window()) == START_PAGE
    assert begun(make_window(), workspace=DESIGN) == DESIGN


def test_a_closed_start_page_is_no_workspace_to_come_back_to(window: MainWindow) -> None:
    window.close()
    assert Settings().left_off.workspace == DESIGN


def test_the_first_steps_lead_to_their_places_and_tick_themselves(window: MainWindow, qtbot: QtBot) -> None:
    window.take(fresh_project(), None)
    steps = window.design.first_steps
    assert steps.isVisible()
    for name, view in (("line", "lines"), ("signals", "signals"), ("changes", "map"), ("screen", "screen")):
        steps.wanted.emit(name)
        assert window.design.view == view
    window.take(build(Answers()), None)
    steps.wanted.emit("try")
    assert window.design.editor.tryout.running
    assert steps.is_done("try")
    window.design.try_it()
    steps.wanted.emit("connect")
    qtbot.waitUntil(lambda: window.live.connected)
    assert window.workspace_number == BENCH
    assert steps.is_done("connect")
    window.live.disconnect_from_line()


def test_first_steps_that_were_put_away_come_back_from_the_menu(window: MainWindow) -> None:
    window.take(fresh_project(), None)
    QTest.mouseClick(window.design.first_steps.away, Qt.MouseButton.LeftButton)
    assert not window.design.first_steps.isVisible()
    window.show_workspace(BENCH)
    QTest.keySequence(window, "Ctrl+Alt+F")
    assert window.workspace_number == DESIGN
    assert window.design.first_steps.isVisible()


def test_on_the_start_page_no_workspace_is_in_front_and_each_tab_leads_away(window: MainWindow, qtbot: QtBot) -> None:
    window.files.show_demo()
    qtbot.waitUntil(lambda: window.live.connected)
    tabs = window.header.tabs
    for number in range(3):
        window.show_workspace(number)
        assert not tabs.property(NOWHERE)
        window.show_workspace(START_PAGE)
        assert tabs.property(NOWHERE)
        QTest.mouseClick(tabs, Qt.MouseButton.LeftButton, pos=tabs.tabRect(number).center())
        assert window.workspace_number == number
    window.live.disconnect_from_line()


def test_a_project_is_closed_back_to_the_start_page_and_unsaved_work_is_asked_about(
    window: MainWindow, pump: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.take(pump, None)
    assert not window.beginning.shown
    monkeypatch.setattr(window.files, "may_leave", lambda: False)
    QTest.keyClick(window, KEY.Key_F4, Qt.KeyboardModifier.ControlModifier)
    assert window.document.project is pump, "somebody wanted to keep it"
    monkeypatch.undo()
    QTest.keyClick(window, KEY.Key_F4, Qt.KeyboardModifier.ControlModifier)
    assert window.beginning.shown
    assert window.files.nothing_open
