"""For how long the window's thread does not answer with thousands of signals: connected, live, and disconnected.

A plain script, not a test, since it measures this computer: `python -m tests.bench.large_live`. The followers run in
another process, as devices would, and all their values change once a second. A block is what lies between two turns of
the window's loop: measured in its own processor time, which other programs do not stretch, and by the clock.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from dataclasses import dataclass
from decimal import Decimal

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QSettings, Qt, QTimer

from app.project.model import Field, Follower, Panel, Project, RegisterSignal, Screen, TcpLine
from tests.bench.playing import played
from tests.bench.repaints import run_for
from widgets.document.settings import Settings
from widgets.kit.palette import Appearance, Theme
from widgets.shell.application import make_application
from widgets.shell.window import MainWindow

SIZES = (2_000, 20_000)
FOLLOWERS = 10
EVERY_MS = 1_000
MARKS_MS = {2_000: 100.0, 20_000: 300.0}


def project(signals: int, port: int) -> Project:
    """So many signals, spread over ten followers and all read once a second, eight of them on the screen."""
    names = [f"value {number}" for number in range(signals)]
    shown = (
        Field(at=(row, 10 * column), width=6, signal=names[row + 4 * column]) for row in range(4) for column in (0, 1)
    )
    return Project(
        panel=Panel(start="first"),
        lines=(TcpLine(name="line", host="127.0.0.1", port=port),),
        followers=tuple(Follower(name=f"device {unit}", line="line", unit=unit) for unit in range(1, FOLLOWERS + 1)),
        signals=tuple(
            RegisterSignal(
                name=name,
                follower=f"device {1 + number % FOLLOWERS}",
                number=number // FOLLOWERS,
                every_ms=EVERY_MS,
                start_value=Decimal(number),
            )
            for number, name in enumerate(names)
        ),
        screens=(Screen(name="first", text=("",) * 4, fields=tuple(shown)),),
    )


@dataclass
class Block:
    """The longest stay in one turn of the window's loop, in milliseconds."""

    own: float = 0.0
    wall: float = 0.0


class ScreenChanges:
    """Watches the turns of the window's loop."""

    def __init__(self) -> None:
        self.longest = Block()
        self._timer = QTimer()
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._turn)
        self._last = time.perf_counter(), time.thread_time()
        self._timer.start(2)

    def _turn(self) -> None:
        now = time.perf_counter(), time.thread_time()
        wall, own = ((is_ - was) * 1000 for is_, was in zip(now, self._last, strict=True))
        self.longest = Block(max(self.longest.own, own), max(self.longest.wall, wall))
        self._last = now

    def over(self, seconds: float) -> Block:
        """The longest of the next seconds."""
        self._turn()
        self.longest = Block()
        run_for(seconds)
        return self.longest


def measured(signals: int, seconds: float, theme: Theme, *, simulated: bool) -> tuple[str, dict[str, Block]]:
    """A window from its connection on: what was read in it, and its longest block in each state."""
    with tempfile.TemporaryDirectory() as folder, played(project(signals, 1), spread=10) as port:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        window = MainWindow(Settings(), theme)
        window.resize(1366, 768)
        window.take(project(signals, port), None)
        window.show()
        window.show_workspace(1)
        window.connecting.choose(0 if simulated else 1)
        run_for(2.0)
        screen_changes = ScreenChanges()
        QTimer.singleShot(0, window.connecting.connect_line)
        found = {"connected": screen_changes.over(seconds)}
        whole, wall = time.process_time(), time.perf_counter()
        found["live"] = screen_changes.over(seconds)
        share = (time.process_time() - whole) / (time.perf_counter() - wall)
        readings = window.live.readings()
        good = sum(reading.good for reading in readings.values())
        QTimer.singleShot(0, lambda: window.show_workspace(2))
        found["Start-up"] = screen_changes.over(seconds)
        QTimer.singleShot(0, window.connecting.disconnect_line)
        found["disconnected"] = screen_changes.over(1.0)
        window.leave()
        window.deleteLater()
    return f"{signals} signals every {EVERY_MS} ms, {good} of them good, {share:.0%} of a core while live", found


def main() -> int:
    """Measure and print; 1 if a block is longer than its mark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--signals", type=int, nargs="*", default=list(SIZES))
    parser.add_argument("--for", dest="seconds", type=float, default=8.0, help="seconds in each state")
    parser.add_argument("--simulated", action="store_true", help="followers in the window's own process")
    args = parser.parse_args()
    theme = Theme(make_application())
    theme.choose(Appearance.LIGHT)
    missed = False
    for signals in args.signals:
        words, found = measured(signals, args.seconds, theme, simulated=args.simulated)
        mark = MARKS_MS.get(signals, MARKS_MS[max(MARKS_MS)])
        sys.stdout.write(f"{words}:\n")
        for state, block in found.items():
            missed = missed or block.own > mark
            sys.stdout.write(
                f"  longest block, {state:<13}{block.own:8.0f} ms of its own"
                f"  (mark {mark:.0f}, ratio {block.own / mark:.2f}){block.wall:8.0f} ms by the clock\n"
            )
        sys.stdout.flush()
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main())
