"""The wiring, over real sockets."""

from __future__ import annotations

import threading
from fractions import Fraction

import pytest

import app.line.poller
import app.line.writer
from app.client.endpoint import Endpoint
from app.follower.register_bank import RegisterBank
from app.follower.simulation import FollowerError, Simulation
from app.line.engine import Engine
from app.panel.machine import Entered, Write
from app.project.model import Project, TcpLine
from app.project.purpose import Purpose
from app.project_file.files import parse
from app.session.session import CannotConnect, Session
from app.signals.reading import Quality
from tests.outside.lossy_stops import PROJECT
from tests.pressing import press
from tests.staged_follower import Answer, Asked, Registers, StagedFollower
from tests.waiting import wait_for


def value(session: Session, name: str) -> object:
    reading = session.snapshot().readings.get(name)
    return reading.value if reading is not None and reading.good else None


def started(project: Project) -> tuple[Session, RegisterBank]:
    """A session with the simulated pump, and the model behind it. The caller stops it."""
    session = Session(project, "simulated")
    session.start()
    assert session.simulation is not None
    return session, session.simulation.models["pump"]


def test_a_set_point_goes_from_the_key_to_the_drive_and_back(pump: Project) -> None:
    with Session(pump, "simulated") as session:
        wait_for(lambda: value(session, "speed set point") == Fraction("41.65"))
        press(session.panel, "enter", "up")
        effects = session.panel.key_down("enter")
        assert Write("speed set point", Fraction("41.75")) in effects
        assert Entered("speed set point", Fraction("41.65"), Fraction("41.75")) in effects
        wait_for(lambda: session.panel.tick() is not None and not session.writing)
        wait_for(lambda: value(session, "speed set point") == Fraction("41.75"))
        assert "41.8" in session.panel.rows()[1].text  # 41.75, half away from zero


def test_the_drive_runs_and_stops_by_keys(pump: Project) -> None:
    with Session(pump, "simulated") as session:
        wait_for(lambda: value(session, "remote") == 1 and value(session, "command") is not None)
        press(session.panel, "start")
        wait_for(lambda: session.panel.tick() is not None and value(session, "frequency") not in (None, 0))
        press(session.panel, "stop")
        wait_for(lambda: session.panel.tick() is not None and value(session, "frequency") == 0)


def test_a_dead_follower_shows_and_comes_back(pump: Project) -> None:
    player = Simulation(pump)
    player.start()
    host, port = player.serve_tcp(None, "127.0.0.1", 0)
    try:
        with Session(pump, Endpoint.tcp(host, port, timeout_ms=300)) as session:
            wait_for(lambda: value(session, "frequency") is not None)
            player.stop()
            wait_for(lambda: session.snapshot().readings["frequency"].quality is Quality.STALE)
            assert session.snapshot().readings["frequency"].reason
            player = Simulation(pump)
            player.start()
            player.serve_tcp(None, host, port)
            wait_for(lambda: value(session, "frequency") is not None)
    finally:
        player.stop()


def test_a_real_line_refuses_to_write_until_armed(pump: Project) -> None:
    player = Simulation(pump)
    player.start()
    host, port = player.serve_tcp(None, "127.0.0.1", 0)
    try:
        with Session(pump, Endpoint.tcp(host, port, timeout_ms=300)) as session:
            wait_for(lambda: value(session, "command") is not None)
            press(session.panel, "start")
            wait_for(lambda: session.panel.tick() is not None and not session.writing)
            assert session.panel.state.message is not None
            assert session.panel.state.message.text == "not written: writing is off"
            assert "line 'pump room' is not armed" in session.panel.state.message.reason
            assert player.models["pump"].get("run command") == 0
            session.engine.arm("pump room", True)
            press(session.panel, "start")
            wait_for(lambda: session.panel.tick() is not None and value(session, "running") == 1)
    finally:
        player.stop()


def test_no_thread_is_left(pump: Project) -> None:
    before = set(threading.enumerate())
    with Session(pump, "simulated") as session:
        wait_for(lambda: value(session, "frequency") is not None)
        assert set(threading.enumerate()) > before
    assert set(threading.enumerate()) == before


def test_a_held_momentary_key_is_let_go_at_the_stop(pump: Project) -> None:
    with Session(pump, "simulated") as session:
        wait_for(lambda: value(session, "command") is not None)
        assert Write("fault reset", Fraction(1)) in session.panel.key_down("reset")
        assert Write("fault reset", Fraction(0), Purpose.RELEASE) in session.panel.release_all()


def test_a_key_let_go_just_before_the_stop_is_released_all_the_same(pump: Project) -> None:
    session, drive = started(pump)
    try:
        wait_for(lambda: session.panel.tick() is not None and value(session, "command") is not None)
        session.panel.key_down("reset")
        wait_for(lambda: session.panel.tick() is not None and drive.get("fault reset") == 1 and not session.writing)
        session.panel.key_up("reset")
    finally:
        unreleased = session.stop()
    assert drive.get("fault reset") == 0
    assert unreleased == ()


def test_a_stop_pressed_just_before_the_end_reaches_the_drive(pump: Project) -> None:
    session, drive = started(pump)
    try:
        wait_for(lambda: session.panel.tick() is not None and value(session, "command") is not None)
        press(session.panel, "start")
        wait_for(lambda: session.panel.tick() is not None and drive.get("run command") == 1 and not session.writing)
        press(session.panel, "stop")
    finally:
        session.stop()
    assert drive.get("run command") == 0


def test_the_stop_names_what_it_could_not_release(pump: Project) -> None:
    session, drive = started(pump)
    try:
        wait_for(lambda: session.panel.tick() is not None and value(session, "command") is not None)
        session.panel.key_down("reset")
        wait_for(lambda: session.panel.tick() is not None and drive.get("fault reset") == 1 and not session.writing)
        drive.silent = True
    finally:
        unreleased = session.stop()
    assert drive.get("fault reset") == 1
    assert unreleased == ("fault reset",)


@pytest.mark.parametrize("let_go", [False, True])
def test_disarming_releases_what_a_key_has_set_and_writes_nothing_else(pump: Project, let_go: bool) -> None:
    player = Simulation(pump)
    player.start()
    host, port = player.serve_tcp(None, "127.0.0.1", 0)
    drive = player.models["pump"]
    try:
        with Session(pump, Endpoint.tcp(host, port, timeout_ms=300), armed=True) as session:
            wait_for(lambda: session.panel.tick() is not None and value(session, "command") is not None)
            session.panel.key_down("reset")
            wait_for(lambda: session.panel.tick() is not None and drive.get("fault reset") == 1 and not session.writing)
            if let_go:
                session.panel.key_up("reset")
            session.disarm()
            assert not session.engine.is_armed("pump room")
            press(session.panel, "start")
            wait_for(lambda: session.panel.tick() is not None and not session.writing)
            assert drive.get("fault reset") == 0
            assert drive.get("run command") == 0
    finally:
        player.stop()


def test_a_line_that_cannot_be_simulated_leaves_no_thread(pump: Project) -> None:
    before = set(threading.enumerate())
    lonely = pump.replace(lines=(*pump.lines, pump.lines[0].replace(name="spare", device="/dev/ttyUSB1")))
    session = Session(lonely, "simulated")
    with pytest.raises(FollowerError, match="spare"):
        session.start()
    assert not session.running
    assert set(threading.enumerate()) == before


def test_one_endpoint_cannot_stand_in_for_two_lines(pump: Project) -> None:
    two = pump.replace(lines=(*pump.lines, pump.lines[0].replace(name="second", device="/dev/ttyUSB1")))
    with pytest.raises(CannotConnect, match="2"):
        Session(two, Endpoint.tcp("127.0.0.1", 502, timeout_ms=300))


@pytest.mark.parametrize("unit", [0, 255])
def test_a_unit_of_modbus_tcp_is_asked_and_written_there_and_nowhere_else(pump: Project, unit: int) -> None:
    """A write to unit 0 of a serial line would be obeyed by every device on it."""
    direct = pump.replace(followers=(pump.followers[0].replace(unit=unit),))
    there = direct.replace(lines=(TcpLine(name=pump.lines[0].name, host="127.0.0.1", port=1),))
    for via in (Endpoint.serial("/dev/ttyUSB0"), Endpoint.serial_over_tcp("127.0.0.1", 1)):
        with pytest.raises(CannotConnect, match=f"'pump' has unit address {unit}, which is for Modbus TCP only"):
            Session(there, via, armed=True)
    with pytest.raises(CannotConnect, match="is a serial line; use the address set at the device"):
        Session(direct, armed=True)
    with Simulation(direct) as player:
        endpoint = Endpoint.tcp(*player.serve_tcp(None, "127.0.0.1", 0), timeout_ms=1000)
        with Session(direct, endpoint, armed=True) as session:
            wait_for(lambda: value(session, "speed set point") is not None)
            before = player.models["pump"].get("speed set point")
            assert isinstance(before, Fraction)
            press(session.panel, "enter", "up", "enter")
            wait_for(
                lambda: (
                    session.panel.tick() is not None and value(session, "speed set point") == before + Fraction(1, 10)
                )
            )
            assert session.snapshot().followers["pump"].unit == unit


def test_a_write_to_a_line_that_is_down_is_told(pump: Project) -> None:
    # nobody listens on port 1 of this computer
    with Session(pump, Endpoint.tcp("127.0.0.1", 1, timeout_ms=100), armed=True) as session:
        effects = session.panel.key_down("f1")
        assert [type(effect) for effect in effects] == [Write]
        wait_for(lambda: session.panel.tick() is not None and not session.writing)
        assert session.panel.state.message is not None
        assert session.panel.state.message.text == "not written: no connection"
        assert "line 'pump room' is down: " in session.panel.state.message.reason


def test_the_line_is_told_what_is_on_the_screen(pump: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[set[str]] = []
    monkeypatch.setattr(Engine, "show", lambda _, names: told.append(set(names)))

    def fields(session: Session) -> set[str]:
        return {field.signal for field in pump.screen_named[session.panel.state.shown].fields}

    with Session(pump, "simulated") as session:
        assert told[-1] >= fields(session) > set()
        first, count = session.panel.state.shown, len(told)
        session.panel.tick()
        assert len(told) == count
        press(session.panel, "right")
        assert session.panel.state.shown != first
        assert told[-1] >= fields(session)


def served(project: Project) -> tuple[Simulation, Endpoint]:
    player = Simulation(project)
    player.start()
    host, port = player.serve_tcp(None, "127.0.0.1", 0)
    return player, Endpoint.tcp(host, port, timeout_ms=100)


def test_a_stop_is_owed_in_words_until_it_is_proved_and_a_start_does_not_pass_it(pump: Project) -> None:
    player, endpoint = served(pump)
    drive = player.models["pump"]
    try:
        with Session(pump, endpoint, armed=True) as session:
            wait_for(lambda: value(session, "remote") == 1 and value(session, "command") is not None)
            press(session.panel, "start")
            wait_for(lambda: session.panel.tick() is not None and drive.get("run command") == 1 and not session.writing)
            assert session.unproved is None
            drive.silent = True
            press(session.panel, "stop")
            wait_for(lambda: session.panel.tick() is not None and session.unproved is not None)
            press(session.panel, "start")
            unproved = session.unproved
            assert unproved is not None
            assert unproved.headline == "STOP NOT CONFIRMED: 'run command' may still be on"
            assert not unproved.failed
            drive.silent = False
            wait_for(lambda: session.panel.tick() is not None and not session.writing)
            assert drive.get("run command") == 0
            wait_for(lambda: session.unproved is None)
    finally:
        player.stop()


def test_a_stop_that_failed_is_told_until_it_succeeds_after_all(pump: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(app.line.writer, "OWED_S", 0.4)
    player, endpoint = served(pump)
    drive = player.models["pump"]
    try:
        with Session(pump, endpoint, armed=True) as session:
            wait_for(lambda: value(session, "command") is not None)
            drive.silent = True
            press(session.panel, "stop")
            wait_for(lambda: session.panel.tick() is not None and bool(session.failed))
            assert session.unproved is not None
            assert session.unproved.failed
            assert session.unproved.headline.startswith("STOP FAILED: 'run command' may still be on.")
            drive.silent = False
            wait_for(lambda: value(session, "command") is not None)
            press(session.panel, "stop")
            wait_for(lambda: session.panel.tick() is not None and not session.writing)
            assert session.unproved is None
    finally:
        player.stop()


def test_unarmed_nothing_was_pressed_and_nothing_is_to_be_released(pump: Project) -> None:
    player, endpoint = served(pump)
    try:
        session = Session(pump, endpoint)
        session.start()
        wait_for(lambda: value(session, "command") is not None)
        session.panel.key_down("reset")
        wait_for(lambda: session.panel.tick() is not None and not session.writing)
        session.panel.key_up("reset")
        press(session.panel, "stop")
        assert session.stop() == ()
    finally:
        player.stop()


def test_a_key_that_is_held_while_the_line_disarms_itself_is_let_go(
    pump: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app.line.poller, "LOST_S", 0.3)
    own = pump.replace(followers=tuple(follower.replace(communication_timeout_ms=0) for follower in pump.followers))
    player, endpoint = served(own)
    drive = player.models["pump"]
    try:
        with Session(own, endpoint, armed=True) as session:
            wait_for(lambda: value(session, "command") is not None)
            session.panel.key_down("reset")
            wait_for(lambda: session.panel.tick() is not None and drive.get("fault reset") == 1 and not session.writing)
            drive.silent = True
            wait_for(lambda: session.panel.tick() is not None and bool(session.disarmed))
            assert not session.engine.is_armed("pump room")
            drive.silent = False
            wait_for(lambda: session.panel.tick() is not None and drive.get("fault reset") == 0)
    finally:
        player.stop()


@pytest.mark.parametrize(
    ("kept", "told"),
    [(50, "unchanged"), (20, "the device limits this value"), (60, ""), (0, "")],
    ids=["ignored", "limited", "changed", "taken"],
)
def test_what_a_device_made_of_a_stop_is_told_where_it_may_go_on(kept: int, told: str) -> None:
    honest = Registers({10: 50, 20: 0, 21: 0, 30: 0})

    def answer(asked: Asked) -> Answer:
        if asked.function != 6:
            return honest(asked)
        honest.words[10] = kept
        return [asked.framed(asked.pdu)]

    with StagedFollower("tcp", answer) as device, Session(parse(PROJECT), device.endpoint, armed=True) as session:
        wait_for(lambda: value(session, "set point") == 50)
        press(session.panel, "register")
        wait_for(lambda: session.panel.tick() is not None and not session.writing)
        unproved = session.unproved
        assert (unproved is not None) == bool(told)
        assert unproved is None or told in unproved.words
