"""How long `fanlight demo` takes from the start of its process to the first live value on the panel's face.

A plain script, not a test, since it measures this computer: `python -m tests.bench.start_up`. In turn with it runs the
floor: a program that opens a window of PySide6 with one label and reads one register by pymodbus. The first run of
each warms the file cache and is not counted. Beside them is `fanlight --version`.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from statistics import median

from app.follower.simulation import Simulation
from app.project_file.files import load
from projects import demo_path, demos

TARGET, TARGET_VERSION_MS, RUNS = 1.8, 100.0, 7
"""Times the floor; milliseconds."""

DEMO = """
import sys, threading, time
began = float(sys.argv[1])
sys.argv[1:] = ["demo", "--for", "20"]

def watch():
    name = "widgets.shell.application"
    while name not in sys.modules or not hasattr(sys.modules[name], "run_window"):
        time.sleep(0.005)
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication
    while QApplication.instance() is None:
        time.sleep(0.005)
    QTimer.singleShot(0, QApplication.instance(), look)

def look():
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication
    for window in QApplication.topLevelWidgets():
        # Before the first reading there are dashes and no digit on it.
        if hasattr(window, "live") and any(cell.isdigit() for row in window.bench.face.rows for cell in row.text):
            window.bench.face.repaint()
            print(time.time() - began, flush=True)
            window.leave()
            return
    QTimer.singleShot(5, look)

threading.Thread(target=watch).start()
from app.cli.parser import main
sys.exit(main())
"""
FLOOR = """
import sys, time
from PySide6.QtWidgets import QApplication, QLabel
from pymodbus.client import ModbusTcpClient

application = QApplication([])
label = QLabel("-")
label.show()
client = ModbusTcpClient("127.0.0.1", port=int(sys.argv[2]))
assert client.connect()
answer = client.read_input_registers(400, count=1, device_id=3)
assert not answer.isError(), answer
label.setText(str(answer.registers[0]))
label.repaint()
print(time.time() - float(sys.argv[1]), flush=True)
client.close()
"""


def seconds(program: str, *arguments: str) -> float:
    """One start, in seconds."""
    done = subprocess.run(
        [sys.executable, "-c", program, str(time.time()), *arguments],
        env={"QT_QPA_PLATFORM": "offscreen"} | os.environ,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return float(done.stdout.split()[-1])


def version() -> float:
    """One `fanlight --version`, in milliseconds."""
    begin = time.perf_counter()
    subprocess.run([sys.executable, "-m", "app", "--version"], check=True, capture_output=True)
    return (time.perf_counter() - begin) * 1000


def main() -> int:
    """Measure and print; 1 if a target is missed."""
    device = Simulation(load(demo_path(demos()[0])))
    device.start()
    port = str(device.serve_tcp(None, "127.0.0.1", 0)[1])
    pairs = [(seconds(DEMO), seconds(FLOOR, port), version()) for _ in range(RUNS + 1)][1:]
    device.stop()
    demo, floor, told = (median(times) for times in zip(*pairs, strict=True))
    ratio = median(one / other for one, other, _ in pairs)
    print(f"first live value after {demo:.2f} s, a window with one reading by pymodbus after {floor:.2f} s")
    print(f"that is {ratio:.2f} of it (mark {TARGET}); median of {RUNS} pairs")
    print(f"--version after {told:.0f} ms (mark {TARGET_VERSION_MS:.0f})")
    return int(ratio > TARGET or told > TARGET_VERSION_MS)


if __name__ == "__main__":
    raise SystemExit(main())
