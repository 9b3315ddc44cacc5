"""Starting the window: from the command line, on a project or a demo, and for a picture."""

from __future__ import annotations

import logging
import os
import signal
import socket
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib import resources
from pathlib import Path
from typing import Final

from PySide6.QtCore import QMessageLogContext, QSocketNotifier, QTimer, QtMsgType, qInstallMessageHandler
from PySide6.QtGui import QIcon, QPixmap
from PySide6.QtWidgets import QApplication, QMessageBox

from app.project.files import ProjectFileError, load_known
from widgets.focus_ring import FocusRing
from widgets.palette import Appearance, Theme
from widgets.settings import Settings
from widgets.window import MainWindow

FINE, COULD_NOT_RUN = 0, 2
"""Exit statuses."""

KEYS_AFTER_MS: Final = 1000
KEYS_EVERY_MS: Final = 150
"""Time before the first key, and from one to the next."""
ENDING: Final = tuple(
    getattr(signal, name)
    for name in ("SIGINT", "SIGTERM", "SIGHUP")
    if hasattr(signal, name)  # not all on Windows
)
"""Signals by which a user, the system or a closing terminal asks the program to end."""
SCREENS: Final = ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY")
"""Variables of which one is set wherever a window can be opened on Linux."""
GRAB_SIZE: Final = (1366, 768)
"""Of a picture: the smallest screen that the window is made for."""
GRAB_AFTER_S: Final = 2.0
"""Seconds before a picture if none were asked for: long enough for first values."""


def run_window(
    project_path: Path | None = None,
    demo: bool = False,
    grab: Path | None = None,
    for_s: float | None = None,
    *,
    appearance: Appearance | None = None,
    keys: Sequence[str | float] = (),
) -> int:
    """Open the window and stay until it is closed. Returns the exit status: 0, or 2 with a sentence on standard error.

    `demo` edits a copy of the project without a file and goes live at once, on the Bench, against its simulated
    follower. `grab` saves a picture (PNG) of the window `for_s` seconds after it opened, then closes it; without
    `grab`, `for_s` closes it without a picture. `appearance` overrides what the user chose, for this run only.
    `keys` of the panel are pressed one after another once a demo is live, so that its picture shows something moving.
    """
    if trouble := _no_screen(grab) or (grab is not None and _not_a_place(grab)):
        return _complain(trouble)
    application = make_application()
    settings = Settings()
    theme = Theme(application)
    theme.prepare(appearance or settings.appearance)
    window = MainWindow(settings, theme, workplace=1 if demo else 0)
    theme.choose(theme.appearance)
    ring = FocusRing(application)
    outcome = _Outcome()
    try:
        with _interruptible(window):
            if project_path is not None:
                project, known = load_known(project_path)
                window.take(project, *((None,) if demo else (project_path, known)))
            if grab is not None:
                window.resize(*GRAB_SIZE)
            window.show()
            if demo:
                window.bench.connect_line()
                QTimer.singleShot(KEYS_AFTER_MS, window, lambda: _press(window, keys))
            if grab is not None or for_s is not None:
                after = GRAB_AFTER_S if for_s is None else for_s
                QTimer.singleShot(int(after * 1000), window, lambda: _finish(window, grab, outcome))
            if window.isVisible():
                application.exec()
    except ProjectFileError as error:
        outcome.trouble = str(error)
    finally:
        # Whatever happened: no line stays open, and no thread outlives the window.
        window.live.disconnect_from_line()
        window.deleteLater()
        ring.stop()
    return _complain(outcome.trouble) if outcome.trouble else FINE


def make_application() -> QApplication:
    """The application, with our name, icon and style; the one that already runs, if one does."""
    qInstallMessageHandler(_tell_qt_message)
    running = QApplication.instance()
    application = running if isinstance(running, QApplication) else QApplication(sys.argv[:1])
    application.setApplicationName("fanlight")
    application.setApplicationDisplayName("Fanlight")
    application.setDesktopFileName("fanlight")
    application.setStyle("Fusion")
    application.setWindowIcon(window_icon())
    logging.getLogger("pymodbus").addHandler(logging.NullHandler())
    return application


def _tell_qt_message(kind: QtMsgType, _context: QMessageLogContext, text: str) -> None:
    """Pass on what Qt has to say, but for a remark of its platform for pictures that is no trouble of the user's."""
    if "propagateSizeHints" not in text:
        sys.stderr.write(f"{kind.name}: {text}\n")


def window_icon() -> QIcon:
    """Our icon, or an empty one if this installation has none."""
    picture = QPixmap()
    file = resources.files("resources") / "icons" / "fanlight.svg"
    if not file.is_file() or not picture.loadFromData(file.read_bytes(), "SVG"):
        return QIcon()
    return QIcon(picture)


class _Outcome:
    """What went wrong while the window ran; empty if nothing did."""

    trouble = ""


def _press(window: MainWindow, keys: Sequence[str | float]) -> None:
    """Press the first of `keys` as an operator would, and the others after it. A number waits so many seconds."""
    if not keys:
        return
    first, pause_ms = keys[0], KEYS_EVERY_MS
    if isinstance(first, str):
        window.live.key_down(first)
        window.live.key_up(first)
    else:
        pause_ms = int(first * 1000)
    QTimer.singleShot(pause_ms, window, lambda: _press(window, keys[1:]))


def _finish(window: MainWindow, grab: Path | None, outcome: _Outcome) -> None:
    if grab is not None:
        window.repaint()
        if not window.grab().save(str(grab), "PNG"):
            outcome.trouble = (
                f"the picture cannot be written to {grab}; check the folder, its rights and the free space"
            )
    window.leave()


def _no_screen(grab: Path | None) -> str:
    """Why no window can be opened here. A picture needs no screen, so one is drawn without it."""
    if sys.platform != "linux" or any(os.environ.get(name) for name in SCREENS):
        return ""
    if grab is not None:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
        return ""
    return (
        "there is no screen to open a window on (neither DISPLAY nor WAYLAND_DISPLAY is set); start it from a desktop, "
        "or use 'fanlight panel' in this terminal"
    )


def _not_a_place(grab: Path) -> str:
    if grab.suffix.lower() != ".png":
        return f"{grab}: a picture is saved as PNG; give it a name that ends in .png"
    if grab.is_dir():
        return f"{grab} is a folder; give the name of a file in it"
    if not grab.parent.is_dir():
        return f"the folder {grab.parent} does not exist; make it first, or name another one"
    if not os.access(grab.parent, os.W_OK) or (grab.exists() and not os.access(grab, os.W_OK)):
        return f"{grab} may not be written; check the rights of the folder {grab.parent}"
    return ""


def _complain(words: str) -> int:
    if sys.stderr is None:  # started without a terminal by the GUI entry point of Windows
        QMessageBox.critical(None, "Fanlight", words)
    else:
        sys.stderr.write(f"fanlight: {words}\n")
    return COULD_NOT_RUN


@contextmanager
def _interruptible(window: MainWindow) -> Iterator[None]:
    """Let Ctrl+C and the system's wish to end close the window, so that the line is disarmed and left in order.

    The first time it asks about unsaved changes as ever; the second time it does not. Qt's loop does not return to
    Python while nothing happens, so the signal is noticed through a socket.
    """
    ours, theirs = socket.socketpair()
    ours.setblocking(False)
    theirs.setblocking(False)
    notifier = QSocketNotifier(ours.fileno(), QSocketNotifier.Type.Read)

    asked = False

    def _leave() -> None:
        nonlocal asked
        ours.recv(64)
        window.live.disarm()
        if asked:
            window.leave()
        else:
            asked = True
            window.close()

    notifier.activated.connect(_leave)
    before = {number: signal.signal(number, lambda *_: None) for number in ENDING}
    woken = signal.set_wakeup_fd(theirs.fileno())
    try:
        yield
    finally:
        signal.set_wakeup_fd(woken)
        for number, handler in before.items():
            signal.signal(number, handler)
        notifier.setEnabled(False)
        ours.close()
        theirs.close()
