"""A project running behind the window, on real sockets: connecting, arming, disarming, leaving nothing behind."""

from __future__ import annotations

import socket
from fractions import Fraction

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.follower.simulation import Simulation
from app.panel.events import ScreenChanged, Write
from app.project.model import Panel, Project, Screen
from app.project.purpose import Purpose
from app.signals.reading import Quality
from tests.widgets.bench_project import bench_project
from widgets.live.live_session import LiveSession, NotConnectedError

pytestmark = pytest.mark.usefixtures("no_thread_is_left")


@pytest.fixture
def real(device: Simulation) -> Project:
    _, port = device.serve_tcp(None, "127.0.0.1", 0)
    return bench_project(port)


def value(live: LiveSession, name: str) -> object:
    reading = live.readings().get(name)
    return reading.value if reading is not None and reading.good else None


def hold_jog(live: LiveSession, real: Project, device: Simulation, qtbot: QtBot) -> None:
    """Connect, arm, and hold the key that the device runs by."""
    live.connect_to(real, None)
    qtbot.waitUntil(lambda: value(live, "command") == 0)
    live.arm()
    live.key_down("jog")
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)


def test_simulated_it_reads_and_needs_no_arming(live: LiveSession, qtbot: QtBot) -> None:
    live.connect_to(bench_project(), "simulated")
    qtbot.waitUntil(lambda: value(live, "set point") == 20)
    assert live.writing.live
    assert live.writing.simulated
    live.key_down("start")
    live.key_up("start")
    qtbot.waitUntil(lambda: (value(live, "frequency") or 0) > 0)  # type: ignore[operator]


def test_the_first_reading_does_not_wait_for_a_frame(
    qapp: object, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Frames are an hour apart here; what the first readings wait for is not."""
    monkeypatch.setattr("widgets.live.live_session.FRAME_MS", 3_600_000)
    shown: list[bool] = []
    parent = QObject()
    slow = LiveSession(parent)

    def look() -> None:
        assert slow.session is not None
        shown.append(any(each.good for each in slow.session.snapshot().readings.values()))

    slow.frame.connect(look)
    slow.connect_to(bench_project(), "simulated")
    qtbot.waitUntil(lambda: any(shown))
    slow.disconnect_from_line()
    parent.deleteLater()


def test_held_values_are_among_the_readings(live: LiveSession) -> None:
    live.connect_to(bench_project(), "simulated")
    assert value(live, "recipe") == Fraction(4)


def test_frames_come_and_tell_what_the_panel_did(live: LiveSession, qtbot: QtBot) -> None:
    live.connect_to(bench_project(), "simulated")
    with qtbot.waitSignals([live.frame, live.frame]):
        pass
    with qtbot.waitSignal(live.happened) as happened:
        live.key_down("right")
    assert isinstance(happened.args[0], ScreenChanged)
    assert happened.args[0].screen == "tank"


def test_every_transaction_is_told_once(live: LiveSession, qtbot: QtBot) -> None:
    told: list[object] = []
    live.transactions.connect(told.extend)
    live.connect_to(bench_project(), "simulated")
    qtbot.waitUntil(lambda: len(told) > 20)
    assert len({id(each) for each in told}) == len(told)


def test_a_real_line_begins_disarmed_and_refuses_to_write(
    live: LiveSession, real: Project, device: Simulation, qtbot: QtBot
) -> None:
    live.connect_to(real, None)
    qtbot.waitUntil(lambda: value(live, "set point") == 20)
    assert not live.writing.armed
    live.key_down("start")
    live.key_up("start")
    session = live.session
    assert session is not None
    qtbot.waitUntil(lambda: not session.writing)
    assert device.models["fan"].get("command") == 0


def test_armed_it_writes_and_disarmed_it_does_not(
    live: LiveSession, real: Project, device: Simulation, qtbot: QtBot
) -> None:
    live.connect_to(real, None)
    qtbot.waitUntil(lambda: value(live, "command") == 0)
    with qtbot.waitSignal(live.connection_changed):
        live.arm()
    assert live.writing.armed == ("hall",)
    live.key_down("start")
    live.key_up("start")
    qtbot.waitUntil(lambda: device.models["fan"].get("command") == 16)
    with qtbot.waitSignal(live.connection_changed):
        live.disarm()
    assert not live.writing.armed
    live.key_down("stop")
    live.key_up("stop")
    session = live.session
    assert session is not None
    qtbot.waitUntil(lambda: not session.writing)
    assert device.models["fan"].get("command") == 16


@pytest.mark.parametrize("how", ["disarm", "disconnect"])
def test_a_held_key_is_let_go_before_writing_ends(
    live: LiveSession, real: Project, device: Simulation, qtbot: QtBot, how: str
) -> None:
    hold_jog(live, real, device, qtbot)
    if how == "disarm":
        live.disarm()
        assert live.writing.armed == (), "at once"
        live.key_down("start")  # comes too late
        live.key_up("jog")
        qtbot.waitUntil(lambda: device.models["fan"].get("command") == 0)
    else:
        live.disconnect_from_line()
        assert not live.connected
    assert device.models["fan"].get("command") == 0


def test_a_held_key_that_cannot_be_let_go_is_told_when_disconnecting(
    live: LiveSession, real: Project, device: Simulation, qtbot: QtBot
) -> None:
    hold_jog(live, real, device, qtbot)
    device.models["fan"].silent = True
    with qtbot.waitSignal(live.left_on) as told:
        live.disconnect_from_line()
    assert told.args == [("run",)]


def test_disarming_does_not_wait_for_a_follower_that_is_silent(
    live: LiveSession, real: Project, device: Simulation, qtbot: QtBot
) -> None:
    hold_jog(live, real, device, qtbot)
    device.models["fan"].silent = True
    live.disarm()
    qtbot.waitUntil(lambda: live.writing.armed == ())


def test_losing_the_focus_lets_go_of_a_held_key(live: LiveSession, qtbot: QtBot) -> None:
    live.connect_to(bench_project(), "simulated")
    qtbot.waitUntil(lambda: value(live, "command") == 0)
    live.key_down("jog")
    qtbot.waitUntil(lambda: value(live, "run") == 1)
    done: list[object] = []
    live.happened.connect(done.append)
    live.release_all()
    assert Write("run", Fraction(0), Purpose.RELEASE) in done
    qtbot.waitUntil(lambda: value(live, "run") == 0)


def test_connecting_again_ends_the_former_session_and_arming(live: LiveSession, real: Project, qtbot: QtBot) -> None:
    live.connect_to(real, None)
    live.arm()
    former = live.session
    live.connect_to(real, None)
    assert former is not None
    assert not former.running
    assert not live.writing.armed


def test_arming_is_for_real_lines_only(live: LiveSession, qtbot: QtBot) -> None:
    live.arm()
    assert not live.writing.live
    live.connect_to(bench_project(), "simulated")
    with qtbot.assertNotEmitted(live.connection_changed):
        live.arm()
        live.disarm()


def test_a_project_without_a_line_says_so(live: LiveSession) -> None:
    with pytest.raises(NotConnectedError, match="no line"):
        live.connect_to(Project(panel=Panel(start="a"), screens=(Screen(name="a"),)), "simulated")
    assert not live.connected


def test_nobody_there_is_told_in_words_and_reading_goes_on_when_somebody_is(live: LiveSession, qtbot: QtBot) -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    live.connect_to(bench_project(port), None)
    session = live.session
    assert session is not None
    qtbot.waitUntil(lambda: f"connection to port {port}" in session.snapshot().lines["hall"].reason)
    with Simulation(bench_project()) as late:
        late.serve_tcp(None, "127.0.0.1", port)
        qtbot.waitUntil(lambda: value(live, "set point") == 20, timeout=20_000)
    qtbot.waitUntil(lambda: live.readings()["set point"].quality is not Quality.GOOD, timeout=20_000)
    live.disconnect_from_line()
