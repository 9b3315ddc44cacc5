"""Drawing everything larger: chosen by key, at once, remembered; with what was open staying open."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QApplication, QScrollArea, QScrollBar, QWidget

from tests.pictures.stage import Setting, settle, staged
from tests.widgets import driving
from widgets.document.settings import Settings
from widgets.kit import scaling
from widgets.kit.language import Language

PROGRAM = """
import sys
from PySide6.QtCore import QSettings, QTimer
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[1])
from projects import demo_path
from widgets.shell.application import run_window
from widgets.shell.window import MainWindow

def windows():
    return [each for each in QApplication.topLevelWidgets() if isinstance(each, MainWindow) and each.isVisible()]

def go():
    (first,) = windows()
    if not first.live.connected or not first.isActiveWindow():
        first.activateWindow()
        QTimer.singleShot(50, go)
        return
    first.document.do("Title", lambda project: project.replace(title="Larger"))
    heights.append(first.menuBar().height())
    QTest.keySequence(first, QKeySequence("Ctrl+Shift+8"))
    QTimer.singleShot(0, lambda: check(first))

def check(first):
    found = windows()
    if found == [first]:
        QTimer.singleShot(20, lambda: check(first))
        return
    (second,) = found
    larger = second.menuBar().height() > 1.6 * heights[0]
    print(larger, second.live.connected, second.document.project.title, second.document.undo_name)
    second.leave()

heights = []
QTimer.singleShot(0, go)
sys.exit(run_window(demo_path("booster-pump"), demo=True))
"""


def test_a_key_makes_all_larger_at_once_and_nothing_is_lost(tmp_path: Path) -> None:
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
    assert done.stdout.split() == ["True", "True", "Larger", "Title"]


@pytest.mark.parametrize(("stored", "read"), [(150, 150), (160, 150), (10, 100), (900, 200), ("large", 100), ("", 100)])
def test_the_size_is_remembered_and_anything_else_is_the_nearest(tmp_path: Path, stored: object, read: int) -> None:
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path))
    settings = Settings()
    assert settings.size == 100
    if isinstance(stored, int):
        settings.size = stored
    else:
        driving.stored().setValue("size", stored)
    assert Settings().size == read


@pytest.mark.parametrize("percent", scaling.SIZES)
def test_texts_icons_and_measures_grow_together(percent: int) -> None:
    with staged(Setting()) as window:
        text = window.fontMetrics().height()
        icon = window.design.screens.list.add_button.iconSize().width()
    with staged(Setting(percent=percent)) as window:
        assert window.fontMetrics().height() == pytest.approx(text * percent / 100, abs=2)
        assert window.design.screens.list.add_button.iconSize().width() == pytest.approx(icon * percent / 100, abs=1)
        assert scaling.scaled(100) == percent
    assert scaling.percent() == 100
    assert isinstance(QApplication.instance(), QApplication)


def area_of(form: QWidget) -> QScrollArea:
    """Where a form scrolls."""
    return next(area for area in form.window().findChildren(QScrollArea) if area.widget() is form)


@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
@pytest.mark.parametrize("percent", scaling.SIZES)
def test_no_form_is_cut_at_the_right_however_narrow_the_properties_are(percent: int, language: Language) -> None:
    with staged(Setting(percent=percent, language=language)) as window:
        inspector = window.design.inspector
        bar = QScrollBar(Qt.Orientation.Vertical, inspector).sizeHint().width()
        room = inspector.minimumWidth() - bar
        wide = {kind: form.minimumSizeHint().width() for kind, form in inspector.forms.items()}
        in_own_view = {kind: wide.pop(kind) for kind in ("panel", "messages")}
        assert {kind: width for kind, width in wide.items() if width > room} == {}
        window.design.show_view("panel")
        settle()
        areas = {kind: area_of(inspector.forms[kind]) for kind in in_own_view}
        rooms = {kind: area.width() - bar for kind, area in areas.items()}
        assert all(area.isVisible() for area in areas.values())
        assert {kind: width for kind, width in in_own_view.items() if width > rooms[kind]} == {}
