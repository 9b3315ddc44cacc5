"""One whole job by ear: what is said while a pump is started, trips, is reset, set, lost and disarmed, and when."""

from __future__ import annotations

import time
from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.follower.drive_bank import DriveBank
from app.follower.simulation import Simulation
from app.project.model import Project, TcpLine
from app.project_file.files import load
from projects import demo_path
from tests.widgets.driving import MakeWindow, focused, press
from tests.widgets.listening import Listener, listening
from widgets.shell.window import MainWindow
from widgets.speech import voice

QUICKLY = 0.02
"""Seconds a letter: so quickly nobody speaks, but the test need not wait for a whole sentence."""

LIMIT_S = 20.0


def pump_project(port: int) -> Project:
    """The pump of the demo, on a real line that leads to this port of this computer."""
    project = load(demo_path("booster-pump"))
    line = TcpLine(name=project.lines[0].name, kind="tcp", host="127.0.0.1", port=port, timeout_ms=300)
    return project.model_copy(update={"lines": (line,)})


class Job:
    """A window on a pump, and somebody who listens and does not look."""

    def __init__(self, window: MainWindow, pump: DriveBank, listener: Listener, qtbot: QtBot) -> None:
        self.window, self.pump, self.listener, self._qtbot = window, pump, listener, qtbot

    def key(self, name: str) -> float:
        """Press a key of the panel; gives when."""
        at = time.monotonic()
        QTest.mouseClick(self.window.bench.face.keypad.buttons[name], Qt.MouseButton.LeftButton)
        return at

    def hear(self, *parts: str, after: float) -> float:
        """Wait until each of these was said, in this order; gives when the last one was."""
        for part in parts:
            found = self.listener.first(part, after)
            limit = time.monotonic() + LIMIT_S
            while found is None:
                assert time.monotonic() < limit, f"{part!r} was not said, but {self.said_between(after, limit)}"
                self._qtbot.wait(10)
                found = self.listener.first(part, after)
            after = found.at
        return after

    def said_between(self, begin: float, end: float) -> list[str]:
        return [each.words for each in self.listener.log if begin <= each.at < end]


@pytest.fixture
def job(make_window: MakeWindow, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> Iterator[Job]:
    monkeypatch.setattr(voice, "PER_LETTER_S", QUICKLY)
    window = make_window()
    with listening() as listener, Simulation(load(demo_path("booster-pump"))) as simulation:
        _, port = simulation.serve_tcp(None, "127.0.0.1", 0)
        pump = simulation.models["pump"]
        assert isinstance(pump, DriveBank)
        window.take(pump_project(port), None)
        window.show_workspace(1)
        window.bench.operate()
        listener.listen()
        window.live.connect_to(window.document.project, None)
        yield Job(window, pump, listener, qtbot)
        window.live.disconnect_from_line()


def test_one_job_by_ear(job: Job) -> None:
    live, pump = job.window.live, job.pump
    job.hear("Real line, locked", "BOOSTER PUMP remote; Set point 41.7 Hz; Speed 0.0 Hz; stopped", after=0.0)

    at = time.monotonic()
    live.arm()
    job.hear("ARMED: keys move the machine", after=at)

    began = job.key("start")
    ended = job.hear("running", "Speed 41.7 Hz", after=began)
    numbers = [words for words in job.said_between(began, ended) if "Speed" in words]
    assert len(numbers) <= ended - began, "about one sentence of numbers a second, at most"

    at = time.monotonic()
    pump.inputs.external_fault = True
    assert job.hear("Alarm: fault is set: active", after=at) - at < 1.0
    job.hear("PUMP TRIPPED; external fault; Code 9000h; Clear cause, RESET", after=at)
    at = job.key("reset")
    job.hear("Not acknowledged: “fault” is still on", after=at)
    pump.inputs.external_fault = False
    at = job.key("reset")
    job.hear("Alarm: fault is set: returned to normal", "BOOSTER PUMP remote", after=at)

    at = time.monotonic()
    press(Qt.Key.Key_Return)
    at = job.hear("Change speed set point: 41.7 Hz; from 20.0 Hz to 50.0 Hz", after=at)
    press(Qt.Key.Key_Up, times=3)
    at = job.hear("Set point 42.0 Hz", after=at)
    press(Qt.Key.Key_Return)
    job.hear("speed set point: 42.0 Hz written", after=at)

    lost = time.monotonic()
    pump.silent = True
    job.hear("pump does not answer", "was disarmed", after=lost)
    job.hear("pump does not answer", "Old values: ", after=lost)
    back = time.monotonic()
    pump.silent = False
    assert [words for words in job.said_between(lost, back) if "Set point" in words and "Old values" not in words] == []
    job.hear("it answers again", after=back)
    job.hear("BOOSTER PUMP remote; Set point 42.0 Hz; Speed 0.0 Hz; stopped", after=back)

    at = time.monotonic()
    live.disarm()
    at = job.hear("Real line, locked", after=at)
    job.key("start")
    job.hear("run command: 1 was not written", after=at)
    at = time.monotonic()
    live.disconnect_from_line()
    job.hear("Not connected: nothing can be written", after=at)


@pytest.mark.parametrize("place", ["readings", "design", "connect"])
def test_a_trip_is_told_within_a_second_whatever_has_the_focus(job: Job, place: str) -> None:
    job.hear("BOOSTER PUMP", after=0.0)
    if place == "readings":
        job.window.bench.readings.view.setFocus()
    elif place == "design":
        job.window.show_workspace(0)
    else:
        job.window.header.connect_bar.button.setFocus()
    assert not job.window.bench.face.isAncestorOf(focused())
    assert focused() is not job.window.bench.face
    at = time.monotonic()
    job.pump.inputs.external_fault = True
    assert job.hear("Alarm: fault is set: active", after=at) - at < 1.0


def test_what_has_the_focus_is_itself_again_afterwards(job: Job, qtbot: QtBot) -> None:
    job.hear("BOOSTER PUMP", after=0.0)
    button = job.window.header.connect_bar.button
    button.setFocus()
    own = button.accessibleDescription()
    at = time.monotonic()
    job.pump.silent = True
    job.hear("pump does not answer", after=at)
    assert button.accessibleDescription() != own
    job.window.bench.operate()
    qtbot.waitUntil(lambda: button.accessibleDescription() == own)
    assert job.window.bench.face.accessibleDescription().startswith("Old values: BOOSTER PUMP")
    at = time.monotonic()
    job.pump.silent = False
    job.hear("Set point", after=at)
    button.setFocus()
    qtbot.waitUntil(lambda: job.window.bench.face.accessibleDescription().startswith("BOOSTER PUMP"))
