"""The panel in a terminal: a real pseudo-terminal, looked at through a terminal emulator."""

from __future__ import annotations

import os
import select
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from app.cli.terminal_panel import keyboard
from projects import demo_path
from tests.outside.lossy_device import LossyDevice
from tests.outside.lossy_stops import PROJECT, set_going
from tests.waiting import wait_for

ROWS, COLUMNS = 24, 100


class Terminal:
    """A program running in a pseudo-terminal, and what it shows."""

    def __init__(self, *command: str) -> None:
        import fcntl
        import pty
        import struct
        import termios

        import pyte

        self.screen = pyte.Screen(COLUMNS, ROWS)
        self._stream = pyte.ByteStream(self.screen)
        self._ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
        self.process = subprocess.Popen(
            command, stdin=theirs, stdout=theirs, stderr=theirs, env=os.environ | {"TERM": "xterm-256color"}
        )
        os.close(theirs)

    def shows(self, text: str) -> bool:
        """Whether `text` stands on the screen by now."""
        while select.select([self._ours], [], [], 0)[0]:
            try:
                self._stream.feed(os.read(self._ours, 65_536))
            except OSError:  # the program has ended
                break
        return any(text in line for line in self.screen.display)

    def press(self, data: bytes) -> None:
        os.write(self._ours, data)

    def close(self) -> None:
        self.process.kill()
        self.process.wait()
        os.close(self._ours)


@pytest.fixture
def terminal() -> Iterator[Terminal]:
    if sys.platform == "win32":
        pytest.skip("no pseudo-terminals")
    opened = Terminal(sys.executable, "-m", "app", "panel", str(demo_path("booster-pump")), "--via", "simulated")
    yield opened
    opened.close()


def test_the_panel_is_live_and_turned_and_left_by_keys(terminal: Terminal) -> None:
    wait_for(lambda: terminal.shows("41.7 Hz"))
    assert terminal.shows("|BOOSTER PUMP  remote|")
    assert terminal.shows("pump: answering")
    terminal.press(b"\x1b[C")
    wait_for(lambda: terminal.shows("|DC link"))
    terminal.press(b"\x1b[D")
    wait_for(lambda: terminal.shows("|BOOSTER PUMP"))
    terminal.press(b"\r\x1b[A\r")
    wait_for(lambda: terminal.shows("41.8 Hz"))  # 41.65 and one step of 0.1
    terminal.press(b"\x03")
    wait_for(lambda: terminal.process.poll() is not None)
    assert terminal.process.returncode == 0


def test_an_entry_is_abandoned_by_escape(terminal: Terminal) -> None:
    wait_for(lambda: terminal.shows("41.7 Hz"))
    terminal.press(b"\r\x1b[A")
    wait_for(lambda: terminal.shows("41.8 Hz"))
    terminal.press(b"\x1b")
    wait_for(lambda: terminal.shows("41.7 Hz"))


def test_another_program_ends_it_by_a_signal(terminal: Terminal) -> None:
    wait_for(lambda: terminal.shows("leave: Ctrl+C"))
    terminal.process.send_signal(signal.SIGINT)
    assert terminal.process.wait(20) == 0


def test_keys_without_a_keyboard_key_of_their_name_lie_on_function_keys() -> None:
    keys = ("left", "enter", "start", "stop")
    assert keyboard(keys) == {"left": "left", "enter": "enter", "start": "f1", "stop": "f2"}
    assert len(set(keyboard(tuple(f"key {n}" for n in range(40))).values())) == 12


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals")
def test_a_stop_that_is_not_confirmed_is_shown_until_it_is(tmp_path: Path) -> None:
    with LossyDevice("tcp", 0.0) as device:
        project = tmp_path / "drive.toml"
        project.write_text(PROJECT.replace('host = "unused"', f'host = "127.0.0.1"\nport = {device.where}'))
        set_going(device)
        opened = Terminal(sys.executable, "-m", "app", "panel", str(project), "--armed")
        try:
            wait_for(lambda: opened.shows("drive: answering"))
            device.share = 1.0
            opened.press(b"\x1bOP")  # F1, which clears the coil
            wait_for(lambda: opened.shows("STOP NOT CONFIRMED: 'run coil' may still be on"))
            device.share = 0.0
            wait_for(lambda: opened.shows("drive: answering") and not opened.shows("STOP"))
            assert device.coils[5] == 0
        finally:
            opened.close()
