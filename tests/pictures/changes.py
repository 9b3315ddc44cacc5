"""Changes the look of a running program that was used for everything before: `python -m tests.pictures.changes WHAT`.

A change goes to every widget there is, from inside Qt's own walk over them: what makes or destroys widgets on that
occasion ends the process. Every pane and dialog is opened first, a line is connected and a recording runs.
"""

from __future__ import annotations

import sys
import tempfile
import traceback
from collections.abc import Callable
from pathlib import Path
from typing import Final

from PySide6.QtCore import QEvent, QObject, QSettings, Qt, QTimer
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget
from shiboken6 import getCppPointer

from projects import demo_path
from tests.pictures.panes import panes
from tests.pictures.stage import DEMO, settle, settle_until
from widgets.kit import palette
from widgets.kit.language import Language
from widgets.kit.palette import Appearance
from widgets.shell.application import make_application, run_window
from widgets.shell.window import BENCH, START_UP, MainWindow

Change = Callable[[MainWindow], object]


def _look(appearance: Appearance) -> Change:
    return lambda window: window.choose_look(appearance)


def _system(*, dark: bool) -> Change:
    """The desktop turns dark or light; no platform that needs no desktop can be told to."""

    def change(_window: MainWindow) -> None:
        palette.system_is_dark = lambda: dark
        scheme = Qt.ColorScheme.Dark if dark else Qt.ColorScheme.Light
        QApplication.styleHints().colorSchemeChanged.emit(scheme)
        assert palette.current().dark is dark

    return change


def _colours_of_another_desktop(_window: MainWindow) -> None:
    QApplication.setPalette(QPalette(QColor("#406080")))


def _size(percent: int) -> Change:
    return lambda window: window.choose_size(percent)


def _language(language: Language) -> Change:
    return lambda window: window.choose_language(language)


CHANGES: Final[dict[str, tuple[Change, ...]]] = {
    "palette": (
        *(_look(each) for each in (Appearance.DARK, Appearance.LIGHT, Appearance.DARK, Appearance.SYSTEM)),
        _system(dark=True),
        _system(dark=False),
        _colours_of_another_desktop,
        _system(dark=True),
        _system(dark=False),
    ),
    "texts": (_size(200), _size(125), _language(Language.GERMAN), _size(100), _language(Language.ENGLISH)),
}


class _Strays(QObject):
    """Notes every window that is shown besides the main window."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[str] = []

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        shown = event.type() == QEvent.Type.Show and isinstance(watched, QWidget) and watched.isWindow()
        if shown and not isinstance(watched, QMainWindow):
            self.seen.append(f"{type(watched).__name__} {watched.objectName()!r}")
        return False


def _shown() -> MainWindow:
    (window,) = (each for each in QApplication.topLevelWidgets() if isinstance(each, MainWindow) and each.isVisible())
    return window


def _use(window: MainWindow, recording: Path) -> None:
    """Open everything there is, connect, record, and leave Start-up in front."""
    window.activateWindow()
    settle_until(window.isActiveWindow)
    for pane in panes():
        with pane.open(window):
            pass
    QTimer.singleShot(0, lambda: QTimer.singleShot(0, _close_question))
    window.show_shortcuts()
    window.show_workspace(START_UP)
    window.connecting.connect_line()
    settle_until(lambda: any(each.quality == "good" for each in window.live.readings().values()))
    window.start_up.recording_control.record_into(recording)


def _close_question() -> None:
    dialog = QApplication.activeModalWidget()
    assert dialog is not None
    dialog.close()


def _alive() -> set[int]:
    """The addresses of all widgets that there are."""
    return {getCppPointer(widget)[0] for widget in QApplication.allWidgets()}


def _samples(window: MainWindow) -> int:
    progress = window.start_up.observation.progress
    return 0 if progress is None else progress.samples


def _check(change: Change, window: MainWindow, strays: _Strays) -> None:
    session, observed = window.live.session, window.start_up.observation
    source, events = observed.source, observed.events
    assert session is not None
    assert source is not None
    begin, signals = source.span()[0], window.start_up.trend.signals
    strays.seen.clear()
    widgets = _alive()
    change(window)
    settle()
    assert strays.seen == [], strays.seen
    after = _shown()
    if after is window:
        assert _alive() == widgets, "a change of colours made or destroyed widgets, in the middle of a walk over them"
    assert after.live.session is session
    assert after.workspace_number == START_UP
    now = after.start_up.observation
    assert now.recording
    assert now.source is source
    assert now.events is events
    assert source.span()[0] == begin
    assert after.start_up.trend.signals == signals
    number, samples = session.snapshot().number, _samples(after)
    settle_until(lambda: session.snapshot().number > number and _samples(after) > samples)


def main(what: str) -> int:
    """Do all changes of this kind. Returns 0 if all was well after each; the trouble is printed if not."""
    application = make_application()
    trouble: list[str] = []

    def go() -> None:
        try:
            _use(_shown(), Path(folder) / "run.fanrec")
            strays = _Strays()
            application.installEventFilter(strays)
            for change in CHANGES[what]:
                _check(change, _shown(), strays)
        except Exception:  # noqa: BLE001  # in a slot of Qt's it would only be printed
            trouble.append(traceback.format_exc())
        _shown().leave()

    with tempfile.TemporaryDirectory() as folder:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        QTimer.singleShot(0, go)
        status = run_window(
            demo_path(DEMO), demo=True, appearance=Appearance.LIGHT, language=Language.ENGLISH, workspace=BENCH
        )
    sys.stderr.writelines(trouble)
    return 1 if trouble else status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
