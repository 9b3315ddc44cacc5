"""Starting the window: from the command line, on a project or a demo, and for a picture."""

from __future__ import annotations

import gc
import logging
import os
import signal
import socket
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from platformdirs import user_state_path
from PySide6.QtCore import QMessageLogContext, QSocketNotifier, QTimer, QtMsgType, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

from app.cli.outcome import COULD_NOT_RUN, FINE, say as complain, tell
from app.project_file.files import ProjectFileError, load_known
from widgets.document.settings import Settings
from widgets.kit import scaling
from widgets.kit.background import wait_pointer
from widgets.kit.dialogs.questions import say
from widgets.kit.fonts import for_texts
from widgets.kit.icons import program_icon
from widgets.kit.language import Language, Translation, spoken_for
from widgets.kit.look import Look
from widgets.kit.palette import Appearance, Theme
from widgets.shell.focus_ring import FocusRing
from widgets.shell.window import BENCH, DESIGN, RECORDING, START_PAGE, MainWindow

COLLECT_AFTER_MS: Final = 2000
"""From the window being there until garbage is collected, where that was off: well behind the first values."""
KEYS_AFTER_MS: Final = 1000
KEYS_EVERY_MS: Final = 150
"""Time before the first key, and from one to the next."""
ENDING: Final = tuple(
    getattr(signal, name)
    for name in ("SIGINT", "SIGTERM", "SIGHUP")
    if hasattr(signal, name)  # not all on Windows
)
"""Signals by which a user, the system or a closing terminal asks the program to end."""
SCREENS: Final = {
    "": ("DISPLAY", "WAYLAND_DISPLAY"),
    "xcb": ("DISPLAY",),
    "wayland": ("WAYLAND_DISPLAY",),
    "wayland-egl": ("WAYLAND_DISPLAY",),
}
"""Of the platforms of Qt that need a screen on Linux, one left open among them: variables of which one says where."""
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
    workspace: int | None = None,
    language: Language | None = None,
    state: Path | None = None,
) -> int:
    """Open the window and stay until it is closed. Returns the exit status: 0, or 2 with a sentence on standard error.

    `demo` edits a copy of the project without a file and goes live at once, on the Bench, against its simulated
    follower. `grab` saves a picture (PNG) of the window `for_s` seconds after it opened, then closes it; without
    `grab`, `for_s` closes it without a picture. `appearance` and `language` override what the user chose, for this run
    only.
    `state` is the folder for copies of unsaved work, left out: where the system keeps such. With `demo`, `grab` or
    `for_s` the user's settings are neither used nor changed, and no copies are kept unless `state` is given.
    `keys` of the panel are pressed one after another once a demo is live, so that its picture shows something moving.
    `workspace` is the one to begin with, counted from 0 in the order of the switcher; left out the usual one. A
    recording as `project_path` is played.
    """
    if trouble := _no_screen(grab) or (grab is not None and _not_a_place(grab)):
        return _complain(trouble)
    application = make_application()
    ordinary = not demo and grab is None and for_s is None
    settings = Settings(keep=ordinary)
    if state is None and ordinary:
        state = user_state_path("fanlight", appauthor=False)
    theme = Theme(application)
    theme.resize(settings.size)
    theme.choose(appearance or settings.appearance)
    speech = Translation(application)
    speech.speak(language or settings.language)
    fresh = (
        ordinary and project_path is None and workspace is None and not (settings.resumes and settings.left_off.path)
    )
    front = BENCH if demo else START_PAGE if fresh else DESIGN
    place = _Place(MainWindow(settings, theme, front, state), settings, theme, speech)
    window = place.window
    ring = FocusRing(application)
    outcome = _Outcome()
    try:
        with _interruptible(place):
            recording = project_path is not None and project_path.suffix == RECORDING
            if project_path is not None and not recording:
                found = load_known(project_path)
                if demo:
                    window.take(found.project, None)
                else:
                    window.take(found.project, project_path, found.known, found.format)
            if grab is not None:
                window.resize(*GRAB_SIZE)
            window.show()
            if ordinary:
                QTimer.singleShot(0, window, lambda: begin(window, resume=project_path is None, workspace=workspace))
            if project_path is not None and recording and not window.open_file(project_path):
                outcome.trouble = window.told
                window.leave()
            elif workspace is not None:
                window.show_workspace(workspace)
            if demo:
                window.connecting.connect_line()
                QTimer.singleShot(KEYS_AFTER_MS, application, lambda: _press(place, keys))
            QTimer.singleShot(COLLECT_AFTER_MS, application, _collect_again)
            if ordinary:  # nobody has connected yet: then this would be imported while somebody waits
                QTimer.singleShot(COLLECT_AFTER_MS, window, window.ahead.begin)
            if grab is not None or for_s is not None:
                after = GRAB_AFTER_S if for_s is None else for_s
                QTimer.singleShot(int(after * 1000), application, lambda: _finish(place.window, grab, outcome))
            if window.isVisible():
                application.exec()
    except ProjectFileError as error:
        outcome.trouble = str(error)
    finally:
        # Whatever happened: no line stays open, and no thread outlives the window.
        _collect_again()
        place.window.live.disconnect_from_line()
        place.window.deleteLater()
        ring.stop()
    return _complain(outcome.trouble) if outcome.trouble else FINE


def _collect_again() -> None:
    """Let the collector of garbage begin if it was off while the program started; what is there now it leaves alone."""
    if not gc.isenabled():
        gc.freeze()
        gc.enable()


def make_application() -> QApplication:
    """The application, with our name, icon and style; the one that already runs, if one does."""
    qInstallMessageHandler(_tell_qt_message)
    running = QApplication.instance()
    application = running if isinstance(running, QApplication) else QApplication(sys.argv[:1])
    application.setApplicationName("fanlight")
    application.setApplicationDisplayName("Fanlight")
    application.setDesktopFileName("fanlight")
    if not isinstance(application.style(), Look):
        application.setStyle(Look())
        application.setFont(for_texts(application.font()))
    application.setWindowIcon(program_icon())
    logging.getLogger("pymodbus").addHandler(logging.NullHandler())
    return application


def _tell_qt_message(kind: QtMsgType, _context: QMessageLogContext, text: str) -> None:
    """Pass on what Qt has to say, but for a remark of its platform for pictures that is no trouble of the user's."""
    if "propagateSizeHints" not in text:
        tell(f"{kind.name}: {text}")


class _Place:
    """Where the window of this run stands. Another one takes its place for another language or another size."""

    def __init__(self, window: MainWindow, settings: Settings, theme: Theme, speech: Translation) -> None:
        self._settings, self._theme, self._speech = settings, theme, speech
        self._enter(window)

    def _enter(self, window: MainWindow) -> None:
        self.window = window
        # Later, when the menu is closed that this was chosen in: it goes with its window.
        window.language_chosen.connect(lambda language: QTimer.singleShot(0, window, lambda: self._change(language)))
        window.size_chosen.connect(lambda percent: QTimer.singleShot(0, window, lambda: self._resize(percent)))

    def _change(self, language: Language) -> None:
        if self.window.isVisible() and spoken_for(language) is not spoken_for(self._speech.wish):
            self._speech.speak(language)
            self._succeed()

    def _resize(self, percent: int) -> None:
        if self.window.isVisible() and percent != scaling.percent():
            self._theme.resize(percent)
            self._succeed()

    def _succeed(self) -> None:
        former = self.window
        with wait_pointer():
            former.succeed_wholly()
            self._enter(MainWindow(self._settings, self._theme, former.workspace_number, former=former))


def begin(window: MainWindow, *, resume: bool, workspace: int | None = None) -> None:
    """Take up what was left: the project of the last window if none was asked for, and work that was not saved.

    Where there is nothing to take up, the start page is shown, unless a `workspace` was asked for.
    """
    if resume and not window.take_up() and workspace is None:
        window.show_workspace(START_PAGE)
    window.files.offer_left_behind()


class _Outcome:
    """What went wrong while the window ran; empty if nothing did."""

    trouble = ""


def _press(place: _Place, keys: Sequence[str | float]) -> None:
    """Press the first of `keys` as an operator would, and the others after it. A number waits so many seconds."""
    if not keys:
        return
    first, pause_ms = keys[0], KEYS_EVERY_MS
    if isinstance(first, str) and "=" in first:
        from app.follower.errors import FollowerError
        from app.follower.operate import operate

        session = place.window.live.session
        if session is not None and session.simulation is not None:
            try:
                operate(session.simulation.models, first)
            except FollowerError as why:
                place.window.tell(str(why), trouble=True)
    elif isinstance(first, str):
        place.window.live.key_down(first)
        place.window.live.key_up(first)
    else:
        pause_ms = int(first * 1000)
    QTimer.singleShot(pause_ms, place.window, lambda: _press(place, keys[1:]))


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
    # Qt ends the process itself where it cannot reach the screen of the platform that it was told to use.
    screens = SCREENS.get(os.environ.get("QT_QPA_PLATFORM", "").partition(":")[0], ())
    if sys.platform != "linux" or not screens or any(os.environ.get(name) for name in screens):
        return ""
    if grab is not None:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
        return ""
    return (
        f"there is no display to open a window on ({' or '.join(screens)} is not set); start it from a desktop, "
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
        say(None, "alarm", "Fanlight", words)
    else:
        complain(words)
    return COULD_NOT_RUN


@contextmanager
def _interruptible(place: _Place) -> Iterator[None]:
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
        place.window.live.disarm()
        if asked:
            place.window.leave()
        else:
            asked = True
            place.window.close()

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
