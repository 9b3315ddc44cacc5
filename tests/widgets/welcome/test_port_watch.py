"""Watching the serial ports: aside, one look at a time, and only while it is wanted."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from functools import partial

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from pytestqt.qtbot import QtBot

from app.modbus.ports_here import PortHere
from widgets.welcome import port_watch
from widgets.welcome.port_watch import PortWatch

PORT = PortHere("COM3")


class SlowSystem:
    """Tells its ports when it is let: each look waits for `let`."""

    def __init__(self) -> None:
        self.let = threading.Semaphore(0)
        self.asked = 0
        self.at_once = 0
        self.most_at_once = 0
        self.fails = False

    def __call__(self) -> tuple[PortHere, ...]:
        self.asked += 1
        self.at_once += 1
        self.most_at_once = max(self.most_at_once, self.at_once)
        self.let.acquire()
        self.at_once -= 1
        if self.fails:
            raise OSError("pulled out")
        return (PORT,)

    def has_been_asked(self, times: int) -> bool:
        return self.asked == times


@pytest.fixture
def system(monkeypatch: pytest.MonkeyPatch) -> Iterator[SlowSystem]:
    made = SlowSystem()
    monkeypatch.setattr(port_watch, "ports_here", made)
    monkeypatch.setattr(port_watch, "LOOK_EVERY_MS", 10)
    monkeypatch.setattr(port_watch, "LOOKED_AFTER_MS", 2)
    yield made
    made.let.release(100)


@pytest.fixture
def watch(system: SlowSystem, qapp: object) -> Iterator[PortWatch]:
    made = PortWatch()
    yield made
    made.stop()


def looking() -> bool:
    return any(thread.name == "serial ports" for thread in threading.enumerate())


def test_it_looks_again_and_again_one_look_at_a_time_and_nobody_waits(
    watch: PortWatch, system: SlowSystem, qtbot: QtBot
) -> None:
    watch.start()
    ticks: list[None] = []
    watch._timer.timeout.connect(lambda: ticks.append(None))
    qtbot.waitUntil(lambda: len(ticks) > 5)  # the window's thread goes on, and no other look begins
    assert (system.asked, system.most_at_once) == (1, 1)
    for asked in (2, 3, 4):
        with qtbot.waitSignal(watch.found) as found:
            system.let.release()
        assert found.args == [(PORT,)]
        qtbot.waitUntil(partial(system.has_been_asked, asked))
    assert system.most_at_once == 1


def test_whoever_asks_during_a_look_gets_another_one(watch: PortWatch, system: SlowSystem, qtbot: QtBot) -> None:
    watch.look()
    qtbot.waitUntil(lambda: system.asked == 1)
    watch.look()
    watch.look()
    with qtbot.waitSignals([watch.found, watch.found]):
        system.let.release(2)
    assert system.asked == 2


def test_no_thread_is_left_when_it_is_stopped(watch: PortWatch, system: SlowSystem, qtbot: QtBot) -> None:
    watch.start()
    qtbot.waitUntil(lambda: system.asked == 1)
    watch.stop()
    with qtbot.waitSignal(watch.found):
        system.let.release()
    qtbot.waitUntil(lambda: not looking())
    assert not watch._timer.isActive()
    assert system.asked == 1


def test_whoever_wanted_it_may_be_gone_before_a_look_ends(system: SlowSystem, qtbot: QtBot) -> None:
    gone = PortWatch()
    gone.start()
    qtbot.waitUntil(lambda: system.asked == 1)
    gone.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    system.let.release()
    qtbot.waitUntil(lambda: not looking())
    assert system.asked == 1


def test_its_thread_touches_nothing_of_qt(system: SlowSystem, watch: PortWatch, qtbot: QtBot) -> None:
    """What it leaves is told from the window's thread, and what it is held by is no object of Qt."""
    told: list[threading.Thread] = []
    watch.found.connect(lambda _ports: told.append(threading.current_thread()), Qt.ConnectionType.DirectConnection)
    watch.look()
    qtbot.waitUntil(lambda: system.asked == 1)
    (thread,) = (one for one in threading.enumerate() if one.name == "serial ports")
    held = [thread, *vars(thread).values()]
    assert not [one for one in held if isinstance(one, QObject) or isinstance(getattr(one, "__self__", None), QObject)]
    with qtbot.waitSignal(watch.found):
        system.let.release()
    assert told == [threading.main_thread()]


def test_a_system_that_does_not_tell_is_asked_again(watch: PortWatch, system: SlowSystem, qtbot: QtBot) -> None:
    system.fails = True
    watch.start()
    system.let.release()
    qtbot.waitUntil(lambda: system.asked == 2)
    system.fails = False
    with qtbot.waitSignal(watch.found):
        system.let.release()
