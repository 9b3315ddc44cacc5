"""Another language while the program runs: a window that speaks it takes the place of the one that was there."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from app.edits import add_screen
from app.follower.simulation import Simulation
from app.project.model import Project
from app.project_file.files import load
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import stored
from widgets.document.settings import Settings
from widgets.kit.language import Language, Translation
from widgets.live.line_view import LineView
from widgets.shell.window import BENCH, START_UP, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def german(speech: Translation, file: Path, tmp_path: Path, qtbot: QtBot) -> Iterator[MainWindow]:
    """A German window in the place of an English one that was live, with a change that is not saved."""
    state = tmp_path / "state"
    english = MainWindow(workspace=1, state=state)
    english.show()
    english.take(load(file), file)
    english.document.do("Change the title", lambda project: project.replace(title="Changed"))
    english.connecting.connect_line()
    session = english.live.session
    assert session is not None
    live = english.live
    qtbot.waitUntil(lambda: live.readings()["level"].good)
    speech.speak(Language.GERMAN)
    made = MainWindow(workspace=english.workspace_number, former=english)
    assert not english.isVisible()
    assert made.live.session is session
    assert english.live.session is None
    qtbot.waitUntil(lambda: not isValid(english))
    yield made
    made.leave()
    made.deleteLater()


def titled(project: Project, title: str) -> Project:
    return project.replace(title=title)


def entries(menu: QMenu) -> Iterator[QAction]:
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            yield from entries(inner)
        elif not action.isSeparator():
            yield action


def test_it_speaks_the_other_language_at_once(german: MainWindow) -> None:
    titles = [menu.title().replace("&", "") for menu in german.menus.all()]
    assert titles[:3] == ["Datei", "Bearbeiten", "Ansicht"]
    assert german.isVisible()


def test_the_project_with_its_steps_and_its_file_stays(german: MainWindow, file: Path) -> None:
    assert german.document.path == file
    assert german.document.modified
    assert german.document.project.title == "Changed"
    german.menus.undo.trigger()
    assert german.document.project == load(file)
    assert not german.document.modified
    german.menus.redo.trigger()
    assert german.document.project.title == "Changed"


def test_the_session_goes_on_and_only_the_new_window_shows_it(german: MainWindow, qtbot: QtBot) -> None:
    session = german.live.session
    assert session is not None
    before = session.snapshot().number
    qtbot.waitUntil(lambda: session.snapshot().number > before)
    qtbot.waitUntil(lambda: bool(german.strip.lines) and german.live.readings()["level"].good)
    german.document.do("Rename", lambda project: titled(project, "Again"))
    german.live.disconnect_from_line()
    assert not german.live.connected


def test_what_was_typed_and_not_taken_over_yet_is_still_there(qtbot: QtBot, speech: Translation) -> None:
    english = MainWindow()
    english.show()
    english.take(bench_project(), None)
    english.design.show_view("signals")
    english.design.drafts.keep(("signal", "level"), "Unit", ("a unit that is much too long",), "too long")
    speech.speak(Language.GERMAN)
    german = MainWindow(former=english)
    ((subject, row, texts, _),) = german.design.drafts.all()
    assert (subject, row, texts) == (("signal", "level"), "Einheit", ("a unit that is much too long",))
    assert "Einheit" in [each.label for each in german.design.inspector.signal_form.rows]
    german.leave()
    german.deleteLater()


def test_what_was_found_is_there_at_once_in_the_other_language(qtbot: QtBot, speech: Translation) -> None:
    english = MainWindow()
    english.show()
    english.take(bench_project(), None)
    english.document.do("A screen", lambda project: add_screen(project, "adrift"))
    qtbot.waitUntil(lambda: english.design.checks.up_to_date)
    assert english.design.checks.findings
    speech.speak(Language.GERMAN)
    german = MainWindow(former=english)
    rules = [each.rule for each in english.design.checks.findings]
    assert [each.rule for each in german.design.checks.findings] == rules
    assert german.design.findings.model.rowCount() == english.design.findings.model.rowCount()
    german.leave()
    german.deleteLater()


@pytest.mark.parametrize("at_once", [True, False])
def test_what_is_not_in_front_follows_by_itself_and_nothing_of_the_former_window_stays(
    qtbot: QtBot, speech: Translation, *, at_once: bool
) -> None:
    def windows() -> int:
        """Everything that is a window to Qt: menus, too."""
        gc.collect()
        return len(QApplication.topLevelWidgets())

    window = MainWindow(Settings(keep=False))
    window.show()
    window.take(bench_project(), None)
    window.design.drafts.keep(("signal", "level"), "Unit", ("a unit that is much too long",), "too long")
    window.show_workspace(START_UP)
    window.connecting.connect_line()
    qtbot.waitUntil(lambda: window.live.readings()["level"].good)
    window.start_up.trend.show_signals(("level",))
    alive: list[int] = []
    for language in (Language.GERMAN, Language.ENGLISH, Language.GERMAN):
        speech.speak(language)
        former, window = window, MainWindow(Settings(keep=False), workspace=BENCH, former=window)
        assert not window.has_design
        if at_once:
            window.succeed_wholly()
        qtbot.waitUntil(lambda former=former: not isValid(former))  # type: ignore[misc]
        assert window.has_design
        assert [texts for _, _, texts, _ in window.design.drafts.all()] == [("a unit that is much too long",)]
        assert window.start_up.trend.signals == ("level",)
        qtbot.waitUntil(lambda window=window: window.findChild(LineView) is not None)  # it is made late
        alive.append(windows())
    assert alive[0] == alive[2]
    window.leave()
    window.deleteLater()


def test_saving_goes_to_the_same_file(german: MainWindow, file: Path) -> None:
    assert german.save()
    assert load(file).title == "Changed"


def test_an_armed_line_stays_armed_and_the_new_window_says_so(qtbot: QtBot, speech: Translation) -> None:
    with Simulation(bench_project()) as device:
        _, port = device.serve_tcp(None, "127.0.0.1", 0)
        english = MainWindow(workspace=1)
        english.show()
        english.take(bench_project(port), None)
        english.live.connect_to(english.document.project, None)
        english.live.arm()
        speech.speak(Language.GERMAN)
        german = MainWindow(workspace=1, former=english)
        assert german.badge.words == "FREIGEGEBEN: Tasten bewegen die Maschine"
        assert german.live.writing.armed == ("hall",)
        assert not english.live.writing.armed
        german.live.key_down("start")
        german.live.key_up("start")
        qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)
        german.leave()
        german.deleteLater()


def test_every_command_keeps_its_key(qtbot: QtBot, speech: Translation) -> None:
    keys = []
    for language in (Language.ENGLISH, Language.GERMAN):
        speech.speak(language)
        window = MainWindow()
        qtbot.addWidget(window)
        actions = [action for menu in window.menus.all() for action in entries(menu)]
        keys.append([[each.toString() for each in action.shortcuts()] for action in actions])
        window.leave()
    assert keys[0] == keys[1]


@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
def test_no_access_key_stands_twice_in_a_menu(qtbot: QtBot, speech: Translation, language: Language) -> None:
    speech.speak(language)
    window = MainWindow()
    qtbot.addWidget(window)
    top = [menu.menuAction() for menu in window.menus.all()]
    inner = [menu.actions() for menu in window.findChildren(QMenu) if menu.parent() is not window]
    for actions in [top, *inner]:
        texts = [action.text() for action in actions if not QKeySequence.mnemonic(action.text()).isEmpty()]
        keys = [QKeySequence.mnemonic(text).toString() for text in texts]
        assert sorted(set(keys)) == sorted(keys), texts
    window.leave()


def test_choosing_is_kept_for_the_next_start(qtbot: QtBot) -> None:
    window = MainWindow()
    qtbot.addWidget(window)
    with qtbot.waitSignal(window.language_chosen) as chosen:
        window.choose_language(Language.GERMAN)
    assert chosen.args == [Language.GERMAN]
    assert Settings().language is Language.GERMAN
    window.leave()


def test_nonsense_in_the_settings_is_the_language_of_the_system() -> None:
    stored().setValue("language", "elvish")
    assert Settings().language is Language.SYSTEM


PROGRAM = """
import sys
from pathlib import Path
from PySide6.QtCore import QSettings, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[1])
from projects import demo_path
from widgets.shell.application import make_application, run_window
from widgets.kit.language import Language
from widgets.shell.window import MainWindow

def windows():
    return [each for each in QApplication.topLevelWidgets() if isinstance(each, MainWindow) and each.isVisible()]

def go():
    (first,) = windows()
    first.activateWindow()
    if not (first.live.connected and first.isActiveWindow()):
        QTimer.singleShot(50, go)
        return
    QTest.keyClick(first, Qt.Key.Key_F11, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    QTimer.singleShot(0, lambda: check(first))

def check(first):
    found = windows()
    if found == [first]:
        QTimer.singleShot(20, lambda: check(first))
        return
    (second,) = found
    print(second.menuBar().actions()[0].text(), second.live.connected, second.bench.isVisible())
    second.leave()

application = make_application()
QTimer.singleShot(0, go)
sys.exit(run_window(demo_path("booster-pump"), demo=True, language=Language.ENGLISH))
"""


def test_a_key_changes_the_language_of_the_running_program(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, str(tmp_path / "settings")],
        cwd=Path(__file__).parents[3],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.split() == ["&Datei", "True", "True"]


def test_the_counts_of_the_lines_go_on(german: MainWindow, qtbot: QtBot) -> None:
    """They are those of the line, and not of the window."""
    session = german.live.session
    assert session is not None
    german.strip.set_lines(german.strip.lines)
    before = session.snapshot().lines["hall"]
    assert before.good > 5
    qtbot.waitUntil(lambda: german.strip.counts("hall")[0] > 0)
    assert german.strip.counts("hall")[0] >= before.good
    assert german.strip.counts("hall")[1] == sum(before.faults.values())
