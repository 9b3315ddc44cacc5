"""Trouble on order, over real sockets: delays, silence, noise, checksums, exceptions and reboots; seeded."""

from __future__ import annotations

import itertools
from fractions import Fraction

import pytest

from app.bus.endpoint import Endpoint
from app.bus.engine import Engine
from app.bus.faults import FaultKind
from app.follower.drive_bank import DriveBank
from app.follower.errors import FollowerError
from app.follower.faults import Faults
from app.follower.operate import operate
from app.follower.simulation import Simulation
from app.project.files import load, parse
from projects import demo_path
from tests.waiting import wait_for

PROJECT = parse("""\
format = 1
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
    faults.reboot(2.5)
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


@pytest.mark.parametrize(
    ("deed", "words"),
    [
        ("fan", "is not FOLLOWER.WHAT=VALUE"),
        ("van.local=on", "no simulated follower 'van'"),
        ("fan.local=maybe", "on or off"),
        ("fan.preset=5", "0 to 4"),
        ("fan.supply=300", "0 to 150"),
        ("fan.silence=101", "from 0 to 100"),
        ("fan.delay=soon", "'soon'"),
        ("fan.nothing=1", "no signal 'nothing'"),
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
    project = parse(f'format = 1\n[panel]\nstart = "s"\n[[screen]]\nname = "s"\n{lines}{followers}')
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
