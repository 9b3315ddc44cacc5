"""The alarm of a stop that is not proved: large, in sight on every workplace, and nothing moves for it."""

from __future__ import annotations

import time

import pytest
from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

import app.line.poller
import app.line.writer
from app.events.events import EventKind
from app.follower.simulation import Simulation
from app.session.session import Session
from tests.widgets.driving import MakeWindow, connect
from widgets.document.settings import Settings
from widgets.shell.window import BENCH, START_UP, MainWindow

pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


@pytest.fixture
def window(make_window: MakeWindow, device: Simulation, qtbot: QtBot) -> MainWindow:
    """A window connected to a real line, armed, its fan running."""
    made = make_window(Settings(keep=False), workspace=BENCH)
    connect(made, device, qtbot)
    made.live.arm()
    made.live.key_down("start")
    made.live.key_up("start")
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)
    return made


def session(window: MainWindow) -> Session:
    assert window.live.session is not None
    return window.live.session


def told_of_stops(window: MainWindow) -> list[str]:
    """The events of stops, in the order of their times."""
    events = sorted(window.observation.events, key=lambda event: event.at)
    return [event.text for event in events if (event.kind, event.subject) == (EventKind.STOP, "run")]


def places(window: MainWindow) -> dict[str, QRect]:
    """Where the face of the workplace in front is, and each of its keys."""
    face = window.start_up.face if window.workspace is not window.bench else window.bench.face
    return {
        f"{number} {type(child).__name__}": QRect(child.mapTo(window, QPoint()), child.size())
        for number, child in enumerate((face, *face.findChildren(QWidget)))
    }


@pytest.mark.parametrize("workspace", [BENCH, START_UP])
def test_a_stop_that_is_not_confirmed_is_in_sight_and_moves_nothing(
    window: MainWindow, device: Simulation, workspace: int, qtbot: QtBot
) -> None:
    window.show_workspace(workspace)
    assert not window.alarm.isVisible()
    device.models["fan"].silent = True
    qtbot.waitUntil(lambda: session(window).snapshot().followers["fan"].answering is False)
    pressed = time.monotonic()
    window.live.key_down("stop")
    window.live.key_up("stop")
    released = time.monotonic()
    qtbot.waitUntil(lambda: not session(window).writing or window.alarm.isVisible())
    qtbot.wait(50)
    before = places(window)
    qtbot.waitUntil(window.alarm.isVisible)
    assert "STOP NOT CONFIRMED: 'run' may still be on" in window.alarm.headline.text()
    assert "sent" in window.alarm.headline.toolTip()
    assert not window.alarm.seen.isVisible()
    assert places(window) == before
    alarm = QRect(window.alarm.mapTo(window, QPoint()), window.alarm.size())
    assert not any(place.intersects(alarm) for place in before.values())
    device.models["fan"].silent = False
    qtbot.waitUntil(lambda: not window.alarm.isVisible())
    assert device.models["fan"].get("command") == 0
    assert places(window) == before
    qtbot.waitUntil(lambda: len(told_of_stops(window)) > 1)
    unproved, confirmed = (event for event in window.observation.events if event.kind is EventKind.STOP)
    assert unproved.text.startswith("STOP NOT CONFIRMED: it may still be on; ")
    assert pressed <= unproved.at <= released + 0.1
    took = f"{confirmed.at - unproved.at:.1f}"
    assert confirmed.text == f"the stop was confirmed late, {took} s after the request"


def test_a_stop_that_failed_stays_until_somebody_has_looked(
    window: MainWindow, device: Simulation, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app.line.writer, "OWED_S", 0.5)
    device.models["fan"].silent = True
    window.live.key_down("stop")
    window.live.key_up("stop")
    qtbot.waitUntil(lambda: "STOP FAILED: 'run'" in window.alarm.headline.text())
    device.models["fan"].silent = False
    qtbot.waitUntil(lambda: window.live.readings()["command"].good)
    assert window.alarm.isVisible()
    window.alarm.seen.click()
    assert not window.alarm.isVisible()
    qtbot.waitUntil(lambda: len(told_of_stops(window)) > 2)
    unproved, failed, looked = told_of_stops(window)
    assert unproved.startswith("STOP NOT CONFIRMED")
    assert failed == "STOP FAILED: it may still be on. Stop the machine at the machine."
    assert looked == "the machine has been checked"
    told = [event.text for event in window.observation.events if event.kind is EventKind.NOT_WRITTEN]
    assert told
    assert not any("not written: not written" in text for text in told)


def test_disarming_a_line_that_disarmed_itself_ends_its_stops_too(
    window: MainWindow, device: Simulation, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", 0.3)
    device.models["fan"].silent = True
    with qtbot.waitSignal(window.live.disarmed):
        pass
    device.models["fan"].silent = False
    qtbot.waitUntil(lambda: window.live.readings()["command"].good)
    window.connecting.disarm_action.trigger()
    qtbot.waitUntil(lambda: window.badge.words == "Real line, locked: reading only")
    window.live.key_down("stop")
    window.live.key_up("stop")
    qtbot.waitUntil(lambda: not session(window).writing)
    assert device.models["fan"].get("command") == 16


def test_a_lost_line_is_disarmed_in_words(
    window: MainWindow, device: Simulation, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", 0.3)
    device.models["fan"].silent = True
    with qtbot.waitSignal(window.live.disarmed):
        pass
    assert window.notices.words.startswith("Line 'hall' was disarmed: device 'fan' did not answer for 0.3 s")
    assert window.badge.words == "Disarmed itself: only stops are written"
    device.models["fan"].silent = False
    qtbot.waitUntil(lambda: window.live.readings()["command"].good)
    window.live.key_down("stop")
    window.live.key_up("stop")
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 0)
    window.live.key_down("start")
    window.live.key_up("start")
    qtbot.waitUntil(lambda: not session(window).writing)
    assert device.models["fan"].get("command") == 0
    assert window.connecting.arm_action.isEnabled()
    assert window.connecting.disarm_action.isEnabled()
    window.live.arm()
    qtbot.waitUntil(lambda: window.notices.about == "")
    assert window.badge.words == "ARMED: keys move the machine"
