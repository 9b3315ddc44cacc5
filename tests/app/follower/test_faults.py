"""Trouble on order, over real sockets: delays, silence, noise, checksums, exceptions and reboots; seeded."""

from __future__ import annotations

import asyncio
import itertools
from fractions import Fraction

import pytest

from app.client.endpoint import Endpoint
from app.client.faults import FaultKind
from app.follower.drive import FaultCode
from app.follower.drive_bank import DriveBank
from app.follower.errors import FollowerError
from app.follower.faults import Faults
from app.follower.operate import operate
from app.follower.requests import Responder
from app.follower.simulation import Simulation
from app.follower.states import DriveState
from app.line.engine import Engine
from app.project_file.files import load, parse
from projects import demo_path
from tests.waiting import wait_for

PROJECT = parse("""\
format = 2
[panel]
start = "run"
[[screen]]
name = "run"
[[line]]
name = "l"
kind = "serial-over-tcp"
host = "127.0.0.1"
timeout_ms = 100
[[follower]]
name = "f"
line = "l"
[[signal]]
name = "x"
follower = "f"
register = 1
every_ms = 20
start_value = 7
""")


@pytest.mark.parametrize(
    ("deed", "kind"),
    [
        ("f.silence=100", FaultKind.SILENCE),
        ("f.crc=100", FaultKind.BAD_CRC),
        ("f.exception=4", FaultKind.EXCEPTION),
        ("f.delay=400", FaultKind.SILENCE),
        ("f.reboot=30", FaultKind.SILENCE),
        ("f.silent=on", FaultKind.SILENCE),
    ],
)
def test_what_is_ordered_is_what_the_line_finds_and_it_recovers(deed: str, kind: FaultKind) -> None:
    with Simulation(PROJECT) as simulation:
        host, port = simulation.serve_tcp("l", "127.0.0.1", 0, "rtu")
        engine = Engine(PROJECT, {"l": Endpoint.serial_over_tcp(host, port, timeout_ms=100)})
        engine.start()
        try:
            wait_for(lambda: engine.snapshot().readings["x"].good)
            operate(simulation.models, deed)
            wait_for(lambda: kind in engine.snapshot().lines["l"].faults)
            simulation.models["f"].faults.clear()
            simulation.models["f"].silent = False
            good = engine.snapshot().lines["l"].good
            wait_for(lambda: engine.snapshot().lines["l"].good > good and engine.snapshot().readings["x"].good)
            assert engine.snapshot().readings["x"].value == 7
        finally:
            engine.stop()


def test_noise_before_answers_costs_no_value() -> None:
    with Simulation(PROJECT) as simulation:
        host, port = simulation.serve_tcp("l", "127.0.0.1", 0, "rtu")
        operate(simulation.models, "f.noise=100")
        engine = Engine(PROJECT, {"l": Endpoint.serial_over_tcp(host, port, timeout_ms=100)})
        engine.start()
        try:
            wait_for(lambda: engine.snapshot().lines["l"].good >= 5)
            assert engine.snapshot().readings["x"].value == 7
        finally:
            engine.stop()


def test_the_same_seed_gives_the_same_trouble() -> None:
    def story(seed: int) -> list[object]:
        faults = Faults(silence=0.3, noise=0.3, bad_crc=0.2, exceptions=0.2, delay_ms=10, jitter_ms=8)
        faults.reseed(seed)
        return [
            (faults.answer(b"\x03\x02\x00\x07"), faults.wait_s(), faults.frame(b"\x01\x03\x11\x22")) for _ in range(50)
        ]

    assert story(3) == story(3)
    assert story(3) != story(4)


def test_shares_are_kept() -> None:
    faults = Faults(silence=0.25)
    silent = sum(faults.answer(b"\x03") is None for _ in range(4000))
    assert 850 < silent < 1150
    assert all(0 <= Faults(delay_ms=5, jitter_ms=50).wait_s() <= 0.055 for _ in range(100))


def test_a_reboot_ends_by_itself() -> None:
    times = itertools.count(0.0, 1.0)
    faults = Faults(clock=lambda: next(times))
    faults.leave(2.5)
    assert [faults.answer(b"\x03") for _ in range(5)] == [None, None, b"\x03", b"\x03", b"\x03"]


def test_the_inputs_of_a_drive_and_values_are_operated_by_words() -> None:
    simulation = Simulation(load(demo_path("drying-hall")))
    fan = simulation.models["fan"]
    assert isinstance(fan, DriveBank)
    for deed in (
        "fan.external-fault=on",
        "fan.local=on",
        "fan.safe-torque-off=on",
        "fan.jammed=1",
        "fan.preset=3",
        "fan.supply=85%",
        "climate.door=0",
        "climate . upper racks = 61.5",
    ):
        operate(simulation.models, deed)
    inputs = fan.inputs
    assert (inputs.external_fault, inputs.remote, inputs.safe_torque_off, inputs.jammed) == (True, False, True, True)
    assert (inputs.preset, inputs.supply) == (3, 0.85)
    assert simulation.models["climate"].get("door") == 0
    assert simulation.models["climate"].get("upper racks") == Fraction("61.5")


def test_a_drive_trips_when_it_is_told_to_once_and_has_the_past_that_it_is_given() -> None:
    simulation = Simulation(load(demo_path("drying-hall")))
    fan = simulation.models["fan"]
    assert isinstance(fan, DriveBank)
    for deed in ("fan.trip=8976", "fan.run-time=7200", "fan.motor-heat=95"):
        operate(simulation.models, deed)
    fan.advance(0.1)
    assert fan.drive.fault is FaultCode.OVERCURRENT
    assert fan.get("fan fault code") == 8976
    assert fan.get("fan run time") == 2
    assert fan.drive.heat.warns
    fan.drive.obey_standard(0x80)
    fan.advance(0.1)
    assert not fan.drive.faulted  # its cause was the order, and that is over


def test_a_trip_ordered_while_it_stands_tripped_does_not_wait_for_the_reset() -> None:
    simulation = Simulation(load(demo_path("drying-hall")))
    fan = simulation.models["fan"]
    assert isinstance(fan, DriveBank)
    operate(simulation.models, "fan.trip=36864")
    fan.advance(0.1)
    operate(simulation.models, "fan.trip=8976")
    fan.advance(0.1)
    fan.drive.obey_standard(0x80)
    fan.advance(0.1)
    assert not fan.drive.faulted


@pytest.mark.parametrize(
    ("deed", "words"),
    [
        ("fan.trip=1", "choose from: 8976"),
        ("fan.motor-heat=100", "from 0 to 99"),
        ("fan.run-time=-1", "from 0 to"),
        ("fan", "is not NAME.WHAT=VALUE"),
        ("van.local=on", "no simulated device 'van'"),
        ("fan.local=maybe", "on or off"),
        ("fan.preset=5", "0 to 4"),
        ("fan.supply=300", "0 to 150"),
        ("fan.silence=101", "from 0 to 100"),
        ("fan.delay=soon", "'soon'"),
        ("fan.nothing=1", "no input or signal 'nothing'"),
        ("climate.door=7", "'door'"),
    ],
)
def test_a_deed_that_cannot_be_done_is_told(deed: str, words: str) -> None:
    simulation = Simulation(load(demo_path("drying-hall")))
    with pytest.raises(FollowerError, match=words):
        operate(simulation.models, deed)


def test_a_hundred_followers_are_read_ten_times_a_second_each() -> None:
    followers = "".join(
        f'[[follower]]\nname = "f{n}"\nline = "l{n // 25}"\nunit = {n % 25 + 1}\nsimulate = "drive"\n'
        f'[[signal]]\nname = "s{n}"\nfollower = "f{n}"\ntable = "input"\nregister = 400\nevery_ms = 100\n'
        for n in range(100)
    )
    lines = "".join(f'[[line]]\nname = "l{n}"\nkind = "tcp"\nhost = "127.0.0.1"\n' for n in range(4))
    project = parse(f'format = 2\n[panel]\nstart = "s"\n[[screen]]\nname = "s"\n{lines}{followers}')
    with Simulation(project) as simulation:
        ends = {line.name: simulation.serve_tcp(line.name, "127.0.0.1", 0) for line in project.lines}
        engine = Engine(project, {name: Endpoint.tcp(host, port) for name, (host, port) in ends.items()})
        engine.start()
        try:
            wait_for(lambda: all(engine.snapshot().readings[f"s{n}"].good for n in range(100)))
            before = {name: line.good for name, line in engine.snapshot().lines.items()}
            at = engine.snapshot().at
            wait_for(lambda: engine.snapshot().at - at >= 2.0)
            after = engine.snapshot()
            rate = sum(after.lines[name].good - count for name, count in before.items()) / (after.at - at)
            assert rate > 500, "all of them are read again and again, also on a busy computer"
            assert not any(line.faults for line in after.lines.values())
        finally:
            engine.stop()


def test_a_reboot_is_a_power_up() -> None:
    """Absent for its time: nothing is heard, the motor coasts; then everything is as after a power-up."""
    now = [0.0]
    simulation = Simulation(load(demo_path("booster-pump")), clock=lambda: now[0])
    pump = simulation.models["pump"]
    assert isinstance(pump, DriveBank)
    pump.faults.clock = lambda: now[0]
    responder = Responder([pump], lambda: now[0])

    def ask(pdu: str) -> str | None:
        answer = asyncio.run(responder.answer(3, bytes.fromhex(pdu)))
        return None if answer is None else answer.hex()

    def run(seconds: float) -> None:
        for _ in range(round(seconds / 0.5)):
            now[0] += 0.5
            pump.on_request()
            pump.advance_to(now[0])

    run(1)
    for deed in ("pump.speed set point=45", "pump.ramp up=2", "pump.run command=1"):
        operate(simulation.models, deed)
    run(20)
    assert (pump.drive.state, pump.drive.frequency) == (DriveState.OPERATION_ENABLED, 45)
    heat, ran, turning = pump.drive.heat.share, pump.drive.run_time_s, pump.drive.speed
    assert ask("0601360fff") == "0601360fff"
    operate(simulation.models, "pump.reboot=3")
    assert ask("0301360001") is None
    assert ask("06013607d0") is None
    assert asyncio.run(responder.broadcast(bytes.fromhex("06013607d0"))) is None
    run(2)
    assert ask("0301360001") is None
    assert (pump.drive.state, pump.drive.frequency) == (DriveState.NOT_READY_TO_SWITCH_ON, 0)
    assert 0 < pump.drive.speed < turning
    assert pump.drive.dc_voltage < 1
    run(1)
    run(1)
    assert ask("0301360003") == "0306" + "208a" + "0032" + "0050"
    assert pump.get("command") == 0
    assert pump.get("line lost after") == 3
    assert (pump.drive.state, pump.drive.fault) == (DriveState.READY_TO_SWITCH_ON, FaultCode.NONE)
    assert pump.drive.dc_voltage > 500
    assert pump.drive.run_time_s == ran
    assert 0 < pump.drive.heat.share < heat
    operate(simulation.models, "pump.run command=1")
    run(20)
    assert pump.drive.frequency == pytest.approx(41.65)


@pytest.mark.parametrize("deed", ["climate.door=0", "climate.upper racks=99"])
def test_a_bank_comes_back_with_its_start_values(deed: str) -> None:
    simulation = Simulation(load(demo_path("drying-hall")))
    climate = simulation.models["climate"]
    signal = deed.partition("=")[0].partition(".")[2]
    started = climate.get(signal)
    operate(simulation.models, deed)
    assert climate.get(signal) != started
    operate(simulation.models, "climate.reboot=1s")
    assert climate.absent
    assert climate.get(signal) == started


@pytest.mark.parametrize("value", ["-1", "61", "soon", ""])
def test_a_reboot_takes_a_sensible_time(value: str) -> None:
    simulation = Simulation(PROJECT)
    with pytest.raises(FollowerError, match=r"f\.reboot: reboot must be a number from 0 to 60"):
        operate(simulation.models, f"f.reboot={value}")
    assert not simulation.models["f"].absent


def test_a_fault_is_gone_after_a_reboot_but_not_its_cause() -> None:
    simulation = Simulation(load(demo_path("booster-pump")))
    pump = simulation.models["pump"]
    assert isinstance(pump, DriveBank)
    seen = []
    operate(simulation.models, "pump.external-fault=on")
    for reboots in (False, True, False):
        if reboots:
            pump.reboot(0)
        else:
            pump.advance(0.5)
        seen.append(pump.drive.fault)
    assert seen == [FaultCode.EXTERNAL, FaultCode.NONE, FaultCode.EXTERNAL]
