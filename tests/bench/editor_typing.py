"""How quick the editor is in a project of 200 screens and 2 000 signals: opening, typing, undo, and what it keeps.

A plain script, not a test, since it measures this computer: `python -m tests.bench.editor_typing`. The window is the
real one on the offscreen platform, which paints all that a screen would show; keys are real key events. Typing goes
in bursts with pauses between, so that design checks begin, run and are overtaken by the next key. What is timed is
everything from the key event to the glass painted with the new character, with whatever the window was doing then.
"""

from __future__ import annotations

import argparse
import gc
import os
import random
import sys
import tempfile
import time
import tracemalloc
from pathlib import Path
from statistics import median

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QCoreApplication, QSettings, Qt
from PySide6.QtTest import QTest

from app.edits import change_signal, type_text
from app.project_file.files import save
from tests.bench.repaints import Painted, run_for
from tests.big_project import big_project
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.kit.palette import Appearance, Theme
from widgets.shell.application import make_application
from widgets.shell.focus_ring import FocusRing
from widgets.shell.window import MainWindow

MEDIAN_MS, WORST_MS, OPEN_S, UNDO_MS, KEPT_MB, GROWN_MB = 16.0, 50.0, 1.0, 16.0, 32.0, 2.0
CHARACTERS = "abcdefgh jklm opqr tuvw yz"


class Editor:
    """A window with the big project, and the key events for it."""

    def __init__(self, window: MainWindow) -> None:
        self.window = window
        self.face = window.design.editor.face
        self.painted = Painted()
        self.face.grid.installEventFilter(self.painted)

    def until_painted(self) -> None:
        """Let events run until the glass was painted."""
        end = time.perf_counter() + 5
        while not self.painted.done:
            QCoreApplication.processEvents()
            if time.perf_counter() > end:
                raise SystemExit("the face was not painted within five seconds")

    def type(self, character: str) -> float:
        """Milliseconds from a key to the glass painted with its character, with the events that were due before it."""
        before = self.window.document.project
        start = time.perf_counter()
        QCoreApplication.processEvents()
        self.painted.done = False
        QTest.keyClicks(self.face, character)
        self.until_painted()
        passed = (time.perf_counter() - start) * 1000
        if self.window.document.project is before:
            raise SystemExit(f"{character!r} was not typed")
        return passed


def opening(path: Path, window: MainWindow) -> float:
    """Seconds from the request to open the file to a window in which a key types."""
    start = time.perf_counter()
    if not window.open_file(path):
        raise SystemExit("the project was not opened")
    editor = Editor(window)
    editor.face.setFocus()
    QTest.keyClicks(editor.face, "x")
    editor.until_painted()
    passed = time.perf_counter() - start
    if not window.document.modified:
        raise SystemExit("nothing could be typed")
    window.document.undo()
    window.document.mark_saved(path)
    return passed


def typing(editor: Editor, keys: int) -> list[float]:
    """Milliseconds of each key, typed in words of one to five letters with pauses of up to a second between them."""
    chance = random.Random(7)
    document = editor.window.document
    times: list[float] = []
    while len(times) < keys:
        screen = chance.choice(document.project.screens)
        document.select_screen(screen.name)
        run_for(0.02)
        QTest.keyClick(editor.face, Qt.Key.Key_Home)
        for _ in range(chance.randint(1, 5)):
            here = document.screen
            row, column = document.selection.cell
            shown = here.text[row][column : column + 1] if here is not None and row < len(here.text) else ""
            letter = chance.choice([letter for letter in CHARACTERS if letter not in (shown, " ")])
            times.append(editor.type(letter))
            run_for(chance.choice((0.0, 0.03, 0.08, 0.15)))
        run_for(chance.choice((0.05, 0.21, 0.25, 0.3, 0.5, 1.0)))
    return times[:keys]


def undoing(editor: Editor) -> list[float]:
    """Milliseconds of every undo, from the call to the painted window, and then of every redo."""
    document = editor.window.document
    times: list[float] = []
    for name, step in (("undo_name", document.undo), ("redo_name", document.redo)):
        while getattr(document, name) is not None:
            QCoreApplication.processEvents()
            editor.painted.done = False
            shown = editor.face.rows
            start = time.perf_counter()
            step()
            if editor.face.rows != shown:
                editor.until_painted()
            times.append((time.perf_counter() - start) * 1000)
    return times


def keeping(edits: int) -> tuple[float, float]:
    """Megabytes that Python holds more after so many edits of a document, and after undoing and doing as many anew."""
    document = Document(big_project())
    names = [screen.name for screen in document.project.screens]

    def edit(number: int) -> None:
        name = names[number % len(names)]
        document.seal()
        if number % 3:
            letter = "ab"[number // len(names) % 2]
            document.do("Type", lambda project: type_text(project, name, 0, 0, letter))
        else:
            document.do("Note", lambda project: change_signal(project, f"signal {number % 2000}", notes=f"{number}"))

    def held() -> float:
        gc.collect()
        return tracemalloc.get_traced_memory()[0] / 1e6

    tracemalloc.start()
    start = held()
    for number in range(edits):
        edit(number)
    once = held() - start
    for _ in range(edits):
        document.undo()
    for number in range(edits):
        edit(number)
    twice = held() - start
    tracemalloc.stop()
    return once, twice


def growing(editor: Editor, edits: int) -> float:
    """Megabytes that the process with its window holds more after so many edits and undos of them, twice over."""
    document = editor.window.document

    def there_and_back() -> None:
        for number in range(edits):
            document.seal()
            QTest.keyClicks(editor.face, "ab"[number % 2])
            QTest.keyClick(editor.face, Qt.Key.Key_Left)
        while document.undo_name:
            document.undo()
        run_for(0.5)
        gc.collect()

    document.open(document.project, document.path)
    there_and_back()
    start = resident()
    there_and_back()
    there_and_back()
    return resident() - start


def resident() -> float:
    """Megabytes of memory of this process; 0 where the system does not say."""
    pages = Path("/proc/self/statm")
    return int(pages.read_text().split()[1]) * 4096 / 1e6 if pages.exists() else 0.0


def main() -> int:
    """Measure and print; 1 if a figure misses its mark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--keys", type=int, default=1000)
    parser.add_argument("--edits", type=int, default=10_000, help="for the memory kept; 0 leaves it out")
    args = parser.parse_args()
    missed = []

    def tell(what: str, value: float, mark: float, unit: str) -> None:
        sys.stdout.write(f"  {what:<58}{value:9.2f} {unit:<3} (mark {mark:g}, ratio {value / mark:.2f})\n")
        sys.stdout.flush()
        if value > mark:
            missed.append(what)

    with tempfile.TemporaryDirectory() as folder:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        application = make_application()
        theme = Theme(application)
        theme.choose(Appearance.LIGHT)
        ring = FocusRing(application)
        path = Path(folder) / "hall.toml"
        save(big_project(), path)
        window = MainWindow(Settings(), theme)
        window.resize(1366, 768)
        window.show()
        run_for(0.5)
        opened = []
        for _ in range(5):
            opened.append(opening(path, window))
            run_for(1.0)
        tell("opening to the first typed character, median of 5", median(opened), OPEN_S, "s")
        run_for(2.0)
        editor = Editor(window)
        editor.face.setFocus()
        times = sorted(typing(editor, args.keys))
        tell(f"key to redrawn face, median of {len(times)}", median(times), MEDIAN_MS, "ms")
        tell("key to redrawn face, 95 %", times[int(len(times) * 0.95)], WORST_MS, "ms")
        tell("key to redrawn face, worst", times[-1], WORST_MS, "ms")
        undos = sorted(undoing(editor))
        tell(f"undo or redo to redrawn face, median of {len(undos)}", median(undos), UNDO_MS, "ms")
        tell("undo or redo to redrawn face, worst", undos[-1], UNDO_MS, "ms")
        if args.edits:
            once, twice = keeping(args.edits)
            tell(f"documents after {args.edits} edits, each a step of its own", once, KEPT_MB, "MB")
            tell("documents after as many undos and edits again", twice, KEPT_MB, "MB")
            tell(
                f"window after {args.edits // 5} edits and undos more",
                growing(editor, args.edits // 10),
                GROWN_MB,
                "MB",
            )
        window.document.mark_saved(path)
        window.leave()
        ring.stop()
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main())
