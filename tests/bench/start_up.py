"""How long `fanlight demo` takes from the start of its process to the first live value on the panel's face.

A plain script, not a test, since it measures this computer: `python -m tests.bench.start_up`. The first run warms the
file cache and is not counted.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from statistics import median

TARGET_S, RUNS = 1.5, 5

CHILD = """
import sys, time
from PySide6.QtCore import QTimer
from projects import demo_path, demos
from widgets.application import make_application, run_window
from widgets.window import MainWindow

application = make_application()

def look():
    for window in application.topLevelWidgets():
        if isinstance(window, MainWindow) and any(reading.good for reading in window.live.readings().values()):
            window.repaint()
            print(time.time() - float(sys.argv[1]), flush=True)
            timer.stop()
            window.leave()

timer = QTimer(interval=5)
timer.timeout.connect(look)
timer.start()
sys.exit(run_window(demo_path(demos()[0]), demo=True, for_s=20))
"""


def seconds() -> float:
    """One start, in seconds."""
    done = subprocess.run(
        [sys.executable, "-c", CHILD, str(time.time())],
        env={"QT_QPA_PLATFORM": "offscreen"} | os.environ,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    return float(done.stdout.split()[-1])


def main() -> int:
    """Measure and print; 1 if the target is missed."""
    seconds()
    times = [seconds() for _ in range(RUNS)]
    interpreter = time.perf_counter()
    subprocess.run([sys.executable, "-c", ""], check=True)
    interpreter = time.perf_counter() - interpreter
    print(
        f"first live value after {median(times):.2f} s; median of {RUNS}, worst {max(times):.2f} s, target {TARGET_S} s"
    )
    print(f"that is {median(times) / interpreter:.0f} times an empty Python process, {interpreter:.3f} s")
    return int(median(times) > TARGET_S)


if __name__ == "__main__":
    raise SystemExit(main())
