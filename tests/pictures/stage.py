"""A real window on a demo project, in a look, a language and a size, without a display."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QEvent, QSettings
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication

from app.project_file.files import load
from projects import demo_path
from tests.waiting import wait_for
from widgets.document.settings import Settings
from widgets.kit.language import Language, Translation
from widgets.kit.palette import Appearance, Theme
from widgets.shell.application import make_application
from widgets.shell.window import MainWindow

SMALLEST_SCREEN: Final = (1366, 768)
"""Of the computers that the window is made for, in device-independent pixels."""
LARGE_SCREEN: Final = (1920, 1080)
"""What most have by now."""
DEMO: Final = "booster-pump"


@dataclass(frozen=True, slots=True)
class Setting:
    """How the window is shown."""

    appearance: Appearance = Appearance.LIGHT
    language: Language = Language.ENGLISH
    percent: int = 100
    family: str = ""
    """Of the font of all texts; empty: what the program takes here."""
    size: tuple[int, int] = SMALLEST_SCREEN

    def __str__(self) -> str:
        parts = [str(self.appearance), str(self.language)]
        parts += [str(self.percent)] if self.percent != 100 else []
        parts += [self.family.replace(" ", "").lower()] if self.family else []
        return "-".join(parts + ([f"{self.size[0]}"] if self.size != SMALLEST_SCREEN else []))


def settle() -> None:
    """Let everything be laid out and drawn, and everything end that was to be deleted."""
    for _ in range(4):
        QApplication.processEvents()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def settle_until(condition: Callable[[], object]) -> None:
    """Go on until this holds; fail if it does not come about."""

    def settled() -> object:
        settle()
        return condition()

    wait_for(settled)


@contextmanager
def staged(setting: Setting, demo: str = DEMO) -> Iterator[MainWindow]:
    """A window on a demo, shown. All settings are as before afterwards."""
    application = make_application()
    before = application.palette(), application.font()
    if setting.family:
        other = QFont(before[1])
        other.setFamilies([setting.family])
        application.setFont(other)
    theme, speech = Theme(application), Translation(application)
    with tempfile.TemporaryDirectory() as folder:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        theme.resize(setting.percent)
        theme.choose(setting.appearance)
        speech.speak(setting.language)
        window = MainWindow(Settings(), theme)
        try:
            window.take(load(demo_path(demo)), None)
            window.resize(*setting.size)
            window.show()
            window.activateWindow()
            settle_until(window.isActiveWindow)
            yield window
        finally:
            window.leave()
            window.deleteLater()
            speech.speak(Language.ENGLISH)
            theme.resize(100)
            application.setPalette(before[0])
            application.setFont(before[1])
            theme.deleteLater()
            speech.deleteLater()
            settle()
