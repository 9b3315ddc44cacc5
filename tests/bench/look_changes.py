"""How long another palette, size or language takes, every workplace made and connected, each workplace in front.

A plain script, not a test, since it measures this computer: `python -m tests.bench.look_changes`. Each figure is from
the choice to the painted window, the median of some rounds. Beside it is the floor of the same rounds: a window of as
many push buttons and nothing else, drawn by Qt's own style, that gets another palette and is painted.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterable
from statistics import median

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QEvent, QSettings, QTimer
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QGridLayout, QPushButton, QStyleFactory, QWidget

from projects import demo_path
from tests.waiting import wait_for
from widgets.kit.language import Language
from widgets.kit.palette import DARK, LIGHT, Appearance, qt_palette
from widgets.shell.application import make_application, run_window
from widgets.shell.window import MainWindow

WORKSPACES = ("Design", "Bench", "Start-up", "Trial")
TARGET_PALETTE_MS, TARGET_WINDOW_MS = 150.0, 400.0


def _shown() -> MainWindow:
    (window,) = (each for each in QApplication.topLevelWidgets() if isinstance(each, MainWindow) and each.isVisible())
    return window


def _painted() -> None:
    """Let everything be laid out and painted that is due now."""
    QApplication.processEvents()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    QApplication.processEvents()


def _took(deed: Callable[[], object]) -> float:
    """Milliseconds that a deed takes until it is painted."""
    begin = time.perf_counter()
    deed()
    _painted()
    return (time.perf_counter() - begin) * 1000


def _grown(change: Callable[[MainWindow], object]) -> float:
    """Milliseconds until another window stands in the place of the one that is shown."""
    former = _shown()
    begin = time.perf_counter()
    change(former)
    while _shown() is former:
        QApplication.processEvents()
    _painted()
    took = (time.perf_counter() - begin) * 1000
    _shown().succeed_wholly()
    _painted()
    return took


def _floor(count: int) -> QWidget:
    """A window of so many buttons, drawn by Qt alone."""
    made = QWidget()
    made.resize(1366, 768)
    grid = QGridLayout(made)
    fusion = QStyleFactory.create("Fusion")
    fusion.setParent(made)
    for number in range(count):
        button = QPushButton(str(number))
        button.setStyle(fusion)
        grid.addWidget(button, number // 40, number % 40)
    return made


def _floor_took(plain: QWidget) -> float:
    """Milliseconds that the floor takes for another palette."""
    dark = plain.palette().color(QPalette.ColorRole.Window).name() == DARK.pane
    return _took(lambda: plain.setPalette(qt_palette(LIGHT if dark else DARK)))


def _rounds(rounds: int) -> Iterable[tuple[str, float, float, float]]:
    """What was changed, its median, the floor's, and the mark, all in milliseconds."""
    for number, name in enumerate(WORKSPACES):
        palettes, sizes, languages, floors = [], [], [], []
        for _ in range(rounds):
            window = _shown()
            window.show_workspace(number)
            _painted()
            plain = _floor(len(window.findChildren(QWidget)))
            plain.show()
            _painted()
            floors += [_floor_took(plain), _floor_took(plain)]
            plain.close()
            plain.deleteLater()
            _painted()
            palettes += [
                _took(lambda: _shown().choose_look(Appearance.DARK)),
                _took(lambda: _shown().choose_look(Appearance.LIGHT)),
            ]
            sizes += [_grown(lambda former: former.choose_size(150)), _grown(lambda former: former.choose_size(100))]
            languages += [
                _grown(lambda former: former.choose_language(Language.GERMAN)),
                _grown(lambda former: former.choose_language(Language.ENGLISH)),
            ]
        floor = median(floors)
        yield f"palette, {name} in front", median(palettes), floor, TARGET_PALETTE_MS
        yield f"size, {name} in front", median(sizes), floor, TARGET_WINDOW_MS
        yield f"language, {name} in front", median(languages), floor, TARGET_WINDOW_MS


def main() -> int:
    """Measure and print; 1 if a figure misses its mark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=5)
    args = parser.parse_args()
    found: list[tuple[str, float, float, float]] = []

    def go() -> None:
        window = _shown()

        def live() -> bool:
            _painted()
            return any(each.good for each in window.live.readings().values())

        wait_for(live)
        for number in range(len(WORKSPACES)):
            window.show_workspace(number)
            _painted()
        found.extend(_rounds(args.rounds))
        _shown().leave()

    with tempfile.TemporaryDirectory() as folder:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        make_application()
        QTimer.singleShot(0, go)
        run_window(
            demo_path("booster-pump"), demo=True, appearance=Appearance.LIGHT, language=Language.ENGLISH, workspace=1
        )
    missed = False
    for what, took, floor, mark in found:
        missed |= took >= mark
        sys.stdout.write(f"{what:32} {took:6.0f} ms, {took / floor:5.2f} of the floor (mark {mark:.0f} ms)\n")
    return 1 if missed or not found else 0


if __name__ == "__main__":
    raise SystemExit(main())
