"""How much of a core the live window takes with 50 signals read ten times a second, and how long a key press takes.

A plain script, not a test, since it measures this computer: `python -m tests.bench.window_live`. The simulated follower
runs in another process, as a device would. Both figures are for the offscreen platform, which paints everything that a
screen would show.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from decimal import Decimal
from pathlib import Path
from statistics import median

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QCoreApplication, QSettings, Qt
from PySide6.QtTest import QTest

from app.project.model import Field, Follower, Panel, Project, RegisterSignal, Screen, ScreenChange, TcpLine
from tests.bench.playing import played
from tests.bench.repaints import Painted, run_for
from widgets.document.settings import Settings
from widgets.kit.palette import Appearance, Theme
from widgets.shell.application import make_application
from widgets.shell.focus_ring import FocusRing
from widgets.shell.window import MainWindow

SIGNALS, EVERY_MS = 50, 100
TARGET_SHARE, TARGET_START_UP, TARGET_KEY_MS = 0.06, 0.10, 16.0


def project(port: int) -> Project:
    """50 signals of one follower, all read every 100 ms, 12 of them on the screen that is shown."""
    names = [f"value {number}" for number in range(SIGNALS)]
    shown = [
        Field(at=(row, 7 + 6 * column), width=5, signal=names[3 * row + column])
        for row in range(4)
        for column in range(2)
    ]
    return Project(
        panel=Panel(start="first"),
        lines=(TcpLine(name="line", host="127.0.0.1", port=port),),
        followers=(Follower(name="device", line="line"),),
        signals=tuple(
            RegisterSignal(
                name=name, follower="device", number=100 + number, every_ms=EVERY_MS, start_value=Decimal(number)
            )
            for number, name in enumerate(names)
        ),
        screens=(
            Screen(name="first", text=("Values",) * 4, fields=tuple(shown)),
            Screen(name="second", text=("Second", "", "", "")),
        ),
        screen_changes=(ScreenChange(key="right", to="next"), ScreenChange(key="left", to="previous")),
    )


def key_times(window: MainWindow, presses: int) -> list[float]:
    """Milliseconds from a key press to the glass painted anew, screen by screen."""
    face, times = window.bench.face, []
    face.setFocus()
    for number in range(presses):
        painted = Painted()
        run_for(0.03)
        face.grid.installEventFilter(painted)
        before, start = face.rows, time.perf_counter()
        QTest.keyPress(face, Qt.Key.Key_Right if number % 2 == 0 else Qt.Key.Key_Left)
        while not (painted.done and face.rows is not before):
            QCoreApplication.processEvents()
        times.append((time.perf_counter() - start) * 1000)
        face.grid.removeEventFilter(painted)
        QTest.keyRelease(face, Qt.Key.Key_Right if number % 2 == 0 else Qt.Key.Key_Left)
    return times


def main() -> int:
    """Measure and print; 1 if a figure misses its mark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument(
        "--for", dest="seconds", type=float, default=10.0, help="seconds to measure the share of a core"
    )
    parser.add_argument("--presses", type=int, default=60)
    parser.add_argument("--start-up", action="store_true", help="with trend, events and a recording instead")
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, played(project(1)) as port:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        application = make_application()
        theme = Theme(application)
        theme.choose(Appearance.LIGHT)
        ring = FocusRing(application)
        window = MainWindow(Settings(), theme)
        window.resize(1366, 768)
        window.take(project(port), None)
        window.show()
        window.show_workspace(1)
        window.connecting.choose(1)
        window.connecting.connect_line()
        if args.start_up:
            window.show_workspace(2)
            window.start_up.recording_control.record_into(Path(folder) / "run.fanrec")
        run_for(2.0)
        wall, whole, own = time.perf_counter(), time.process_time(), time.thread_time()
        run_for(args.seconds)
        wall, whole, own = time.perf_counter() - wall, time.process_time() - whole, time.thread_time() - own
        readings = window.live.readings()
        total, not_good = len(readings), sum(not reading.good for reading in readings.values())
        times = [] if args.start_up else key_times(window, args.presses)
        window.leave()
        ring.stop()
    if not_good:
        sys.stdout.write(f"{not_good} of {total} readings were not good: the figures mean nothing\n")
        return 1
    if args.start_up:
        sys.stdout.write(
            f"{total} signals every {EVERY_MS} ms, trend, events and a recording, window 1366 x 768:\n"
            f"  share of one core, whole process   {whole / wall:7.1%}"
            f"  (mark {TARGET_START_UP:.0%}, ratio {whole / wall / TARGET_START_UP:.2f})\n"
            f"  share of one core, window's thread {own / wall:7.1%}\n"
        )
        return 0 if whole / wall < TARGET_START_UP else 1
    share, worst = whole / wall, sorted(times)[int(len(times) * 0.95)]
    sys.stdout.write(
        f"{total} signals every {EVERY_MS} ms, window 1366 x 768:\n"
        f"  share of one core, whole process   {share:7.1%}"
        f"  (mark {TARGET_SHARE:.0%}, ratio {share / TARGET_SHARE:.2f})\n"
        f"  share of one core, window's thread {own / wall:7.1%}\n"
        f"  key press to redrawn face, median  {median(times):7.2f} ms\n"
        f"  key press to redrawn face, 95 %    {worst:7.2f} ms"
        f"  (mark {TARGET_KEY_MS:.0f}, ratio {worst / TARGET_KEY_MS:.2f})\n"
    )
    return 0 if share < TARGET_SHARE and worst < TARGET_KEY_MS else 1


if __name__ == "__main__":
    raise SystemExit(main())
