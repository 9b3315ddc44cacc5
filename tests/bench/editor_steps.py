"""What undo and redo cost by the kind of the step and by the view that is shown, in 200 screens and 2 000 signals.

A plain script, not a test, since it measures this computer: `python -m tests.bench.editor_steps`. The window is the
real one on the offscreen platform. Timed is everything from the call to the painted window; what is put off until after
that must not hold up the next key either, so the longest that the window does not answer then is told beside it.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from statistics import median

from PySide6.QtCore import QCoreApplication, QSettings, Qt
from PySide6.QtTest import QTest

from app.edits import (
    Sought,
    add_signal,
    change_field,
    delete_screen,
    lead_key,
    rename_signal,
    replace_all,
    type_text,
)
from app.edits.several import put_parts
from app.project.model import HeldSignal, Project
from app.project_file.files import save
from tests.big_project import big_project
from widgets.design.views import VIEWS
from widgets.document.settings import Settings
from widgets.kit.palette import Appearance, Theme
from widgets.shell.application import make_application
from widgets.shell.focus_ring import FocusRing
from widgets.shell.window import MainWindow

UNDO_MS = 16.0
REST_S = 0.45
"""Seconds in which everything that was put off is done."""

Edit = Callable[[Project], Project]


def used_everywhere(project: Project) -> Project:
    """The project with "signal 0" in the first field of every screen."""
    for screen in project.screens:
        project = change_field(project, screen.name, 0, signal="signal 0")
    return project


def many_signals(project: Project) -> Project:
    """The project with twice as many signals, as an import leaves it."""
    brought = [
        HeldSignal.model_validate({"name": f"brought {number}", "held": Decimal("1.5"), "unit": "s", "decimals": 1})
        for number in range(2000)
    ]
    return put_parts(project, "signal", {}, brought)


def without_half(project: Project) -> Project:
    """The project without every second screen."""
    for screen in project.screens[1::2]:
        project = delete_screen(project, screen.name, with_screen_changes=True)
    return project


STEPS: dict[str, Edit] = {
    "a letter": lambda project: type_text(project, "screen 3", 0, 0, "q"),
    "a letter of another screen": lambda project: type_text(project, "screen 120", 0, 0, "q"),
    "a screen change": lambda project: lead_key(project, "screen 100", "down", "screen 3"),
    "a signal added": lambda project: add_signal(
        project, HeldSignal.model_validate({"name": "one more", "held": Decimal(0)})
    ),
    "a signal renamed everywhere": lambda project: rename_signal(project, "signal 0", "belt speed"),
    "a letter replaced in 1 600 places": lambda project: replace_all(project, Sought("e"), "o").project,
    "2 000 signals brought in": many_signals,
    "100 screens deleted": without_half,
}


@dataclass(frozen=True, slots=True)
class Taken:
    """Milliseconds: until the window was painted, those of the processor among them, the longest hold-up afterwards."""

    wall: float
    processor: float
    held_up: float


def rest(seconds: float) -> float:
    """Let the window live; gives the longest milliseconds that one turn of its loop took."""
    longest, end = 0.0, time.perf_counter() + seconds
    while (now := time.perf_counter()) < end:
        began = time.thread_time()
        QCoreApplication.processEvents()
        longest = max(longest, (time.thread_time() - began) * 1000)
        if time.perf_counter() - now < 0.0005:
            time.sleep(0.0005)
    return longest


def take(step: Callable[[], None]) -> Taken:
    """Take a step and see it painted."""
    QCoreApplication.processEvents()
    began, of_processor = time.perf_counter(), time.thread_time()
    step()
    # What is to be painted has been posted.
    QCoreApplication.sendPostedEvents()
    wall, processor = time.perf_counter() - began, time.thread_time() - of_processor
    return Taken(wall * 1000, processor * 1000, rest(REST_S))


def measured(window: MainWindow, edit: Edit, rounds: int) -> list[Taken]:
    """Undo and redo one step so many times."""
    document = window.document
    reason = document.do("Step", edit)
    if reason is not None:
        raise SystemExit(f"the step was refused: {reason}")
    rest(REST_S * 2)
    found = []
    for _ in range(rounds):
        found.append(take(document.undo))
        found.append(take(document.redo))
    document.undo()
    rest(REST_S)
    return found


@contextmanager
def opened_window(folder: Path) -> Iterator[MainWindow]:
    """The real window with the project, at rest."""
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(folder))
    application = make_application()
    theme = Theme(application)
    theme.choose(Appearance.LIGHT)
    ring = FocusRing(application)
    path = folder / "hall.toml"
    save(used_everywhere(big_project()), path)
    window = MainWindow(Settings(), theme)
    window.resize(1366, 768)
    window.show()
    rest(0.5)
    if not window.open_file(path):
        raise SystemExit("the project was not opened")
    rest(3.0)
    window.document.select_screen("screen 3")
    QTest.keyClick(window.design.editor.face, Qt.Key.Key_Home)
    rest(1.0)
    yield window
    window.document.mark_saved(path)
    window.leave()
    ring.stop()


def main() -> int:
    """Measure and print; 1 if a figure misses its mark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=4, help="undos and redos of each kind in each view")
    parser.add_argument("--view", choices=VIEWS, action="append")
    parser.add_argument("--step", action="append", help="only steps with this in their name")
    args = parser.parse_args()
    missed = 0
    with tempfile.TemporaryDirectory() as folder, opened_window(Path(folder)) as window:
        sys.stdout.write("  median (of it processor), worst, mark, ratio; longest hold-up afterwards\n")
        for view in args.view or VIEWS:
            window.design.show_view(view)
            rest(1.0)
            for name, edit in STEPS.items():
                if args.step and not any(part in name for part in args.step):
                    continue
                found = measured(window, edit, args.rounds)
                middle, worst = median(each.wall for each in found), max(each.wall for each in found)
                processor, held_up = median(each.processor for each in found), max(each.held_up for each in found)
                missed += middle > UNDO_MS
                sys.stdout.write(
                    f"  {view:<10}{name:<35}{middle:7.1f} ({processor:6.1f}) {worst:7.1f} ms"
                    f"  (mark {UNDO_MS:g}, ratio {middle / UNDO_MS:.2f}){held_up:7.1f} ms\n"
                )
                sys.stdout.flush()
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main())
