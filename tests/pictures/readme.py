"""Takes the pictures of the README anew: `python -m tests.pictures.readme`.

The demos are live against their simulated drives, as after `fanlight demo`; the pump is run up, given another set
point, and its supply sags until it trips. What the window that finds out a device and the trial show is staged.
"""

from __future__ import annotations

import os
import time
from pathlib import Path
from typing import Final

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QBuffer, QByteArray, QIODevice

from app.follower.drive_bank import DriveBank
from app.session.session import Session
from tests.pictures import find_out, trial
from tests.pictures.stage import Setting, settle, settle_until, staged
from widgets.face.blinking import BLINK_MS
from widgets.kit.palette import Appearance
from widgets.shell.window import MainWindow

FOLDER: Final = Path(__file__).parents[2] / "resources" / "pictures"
DESIGN, BENCH, START_UP = range(3)


def main() -> None:
    """Overwrite the pictures."""
    with staged(Setting()) as window:
        connected(window)
        press(window, "start")
        settle_until(lambda: drive(window).drive.at_reference)
        rest(1.0)
        save(window, "bench")
        press(window, "stop")
    with staged(Setting()) as window:
        connected(window)
        window.show_workspace(START_UP)
        rest(3.0)
        press(window, "start")
        settle_until(lambda: drive(window).drive.at_reference)
        rest(2.0)
        press(window, "enter", "up", "up", "up", "enter")
        rest(4.0)
        drive(window).inputs.supply = 0.6
        settle_until(lambda: drive(window).drive.faulted)
        drive(window).inputs.supply = 1.0
        rest(6.0)
        save(window, "start-up")
    with staged(Setting(Appearance.DARK), "drying-hall") as window:
        connected(window)
        window.show_workspace(DESIGN)
        rest(1.0)
        save(window, "design")
    with staged(Setting()) as window, find_out.PANES["dialog-find-out-readings"](window) as shown:
        shown.grab().save(str(FOLDER / "find-out.png"), "PNG")
    with staged(Setting()) as window, trial.PANES["trial-asking"](window) as shown:
        shown.grab().save(str(FOLDER / "trial.png"), "PNG")


def connected(window: MainWindow) -> None:
    """Connect the window to its simulated drives, and wait for the first values."""
    window.show_workspace(BENCH)
    window.connecting.choose(0)
    window.connecting.connect_line()
    settle_until(lambda: all(reading.good for reading in session(window).snapshot().readings.values()))


def session(window: MainWindow) -> Session:
    """The session of a window that is connected."""
    assert window.live.session is not None
    return window.live.session


def drive(window: MainWindow) -> DriveBank:
    """The first of the simulated drives."""
    simulation = session(window).simulation
    assert simulation is not None
    return next(model for model in simulation.models.values() if isinstance(model, DriveBank))


def press(window: MainWindow, *keys: str) -> None:
    """Press keys of the panel one after another."""
    for key in keys:
        window.live.key_down(key)
        window.live.key_up(key)
        settle()


def rest(seconds: float) -> None:
    """Let the window run on."""
    end = time.monotonic() + seconds
    settle_until(lambda: time.monotonic() > end)


def save(window: MainWindow, name: str) -> None:
    """Save a picture of the window: of two, half a blink apart, the larger file, in which what blinks is to be seen."""
    pictures = []
    for _ in range(2):
        rest(BLINK_MS / 1000)
        data = QByteArray()
        buffer = QBuffer(data)
        buffer.open(QIODevice.OpenModeFlag.WriteOnly)
        window.grab().save(buffer, "PNG")
        pictures.append(data.data())
    (FOLDER / f"{name}.png").write_bytes(max(pictures, key=len))


if __name__ == "__main__":
    main()
