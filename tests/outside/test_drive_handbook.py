"""The drive model against handbook values and analytic solutions.

Handbook values (electrical machines and power electronics; widely printed): synchronous speed n = 120 f / p; shaft
torque T = 9550 P / n; mean of a six-pulse rectifier 1.35 U, its peak sqrt(2) U; affinity laws of fans and pumps.
"""

from __future__ import annotations

import math

import pytest

from app.follower.drive import STEP, CommandBit, Drive
from app.follower.motor import (
    RPM,
    LoadData,
    MotorData,
    rectifier_mean,
    rectifier_peak,
    synchronous_speed,
)


@pytest.mark.parametrize(("hertz", "poles", "rpm"), [(50, 2, 3000), (50, 4, 1500), (50, 6, 1000), (60, 4, 1800)])
def test_synchronous_speed(hertz: float, poles: int, rpm: float) -> None:
    assert synchronous_speed(hertz, poles) == rpm
    assert MotorData(poles=poles).field_speed(hertz) / RPM == pytest.approx(rpm)


def test_rated_torque() -> None:
    # T = 9550 P / n: 9550 x 7.5 kW / 1450 min-1 = 49.4 Nm
    assert MotorData().torque == pytest.approx(49.4, abs=0.05)


def test_rated_current_of_a_common_motor() -> None:
    # 7.5 kW, 400 V, cos phi 0.84, efficiency 0.89: 7500 / (1.732 x 400 x 0.84 x 0.89) = 14.5 A
    assert MotorData().current == pytest.approx(14.5, abs=0.05)


def test_dc_link_of_a_400_v_supply() -> None:
    assert rectifier_mean(400) == pytest.approx(540, abs=0.5)
    assert rectifier_peak(400) == pytest.approx(566, abs=0.5)


def at(hertz: float, load: LoadData) -> Drive:
    """A drive that has long been at a frequency."""
    drive = Drive(load=load)
    drive.reference = hertz
    drive.advance(0.1)
    drive.obey(CommandBit.RUN)
    drive.advance(30.0)
    assert drive.frequency == hertz
    return drive


def test_at_rated_frequency_and_load_the_name_plate_comes_out() -> None:
    drive = at(50.0, LoadData(share=1.0))
    assert drive.speed_rpm == pytest.approx(1450, abs=0.1)
    assert drive.torque == pytest.approx(49.4, abs=0.05)
    assert drive.power_kw == pytest.approx(7.5, abs=0.005)
    assert drive.current == pytest.approx(14.5, abs=0.05)
    assert drive.dc_voltage == pytest.approx(540, abs=1)


@pytest.mark.parametrize("hertz", [10.0, 20.0, 25.0, 40.0])
def test_affinity_laws(hertz: float) -> None:
    # Torque goes with the square and power with the cube of the speed; bearings without friction.
    load = LoadData(share=1.0, friction=0.0)
    full, part = at(50.0, load), at(hertz, load)
    ratio = part.speed / full.speed
    assert part.torque / full.torque == pytest.approx(ratio**2, rel=1e-3)
    assert part.power_kw / full.power_kw == pytest.approx(ratio**3, rel=1e-3)
    assert ratio == pytest.approx(hertz / 50, rel=0.04)  # but for the slip


def coasting(load: LoadData) -> Drive:
    """A drive at full speed whose inverter has just been switched off by the external fault."""
    drive = at(50.0, load)
    drive.inputs.external_fault = True
    drive.advance(STEP)
    return drive


def test_coasting_against_a_fan_alone() -> None:
    # J dw/dt = -k w^2, so w = w0 / (1 + k w0 t / J)
    load = LoadData(share=0.9, friction=0.0)
    drive = coasting(load)
    start, square = drive.speed, load.square(drive.motor)
    for _ in range(6):
        drive.advance(5.0)
    seconds = 30.0
    expected = start / (1 + square * start * seconds / load.inertia)
    assert drive.speed == pytest.approx(expected, rel=1e-4)


def test_coasting_against_fan_and_friction() -> None:
    # J dw/dt = -(c + k w^2), so w = sqrt(c / k) tan(arctan(w0 sqrt(k / c)) - sqrt(c k) t / J),
    # and it stands after J / sqrt(c k) arctan(w0 sqrt(k / c)).
    load = LoadData(share=0.9, friction=0.05)
    drive = coasting(load)
    start = drive.speed
    c, k = load.breakaway(drive.motor), load.square(drive.motor)
    angle = math.atan(start * math.sqrt(k / c))
    stop = load.inertia / math.sqrt(c * k) * angle
    drive.advance(stop / 2)
    passed = math.floor(stop / 2 / STEP + 1e-6) * STEP
    expected = math.sqrt(c / k) * math.tan(angle - math.sqrt(c * k) * passed / load.inertia)
    assert drive.speed == pytest.approx(expected, rel=1e-3)
    steps = 0
    while drive.speed > 0:
        drive.advance(STEP)
        steps += 1
        assert steps * STEP < stop
    assert passed + steps * STEP == pytest.approx(stop, abs=3 * STEP)


def test_acceleration_along_the_ramp_takes_the_torque_of_inertia_and_load() -> None:
    # T = J dw/dt + T_load along a straight ramp, long after its start.
    load = LoadData(share=0.5, friction=0.0, inertia=0.6)
    drive = Drive(load=load)
    drive.reference, drive.ramp_up_s = 50.0, 10.0
    drive.advance(0.1)
    drive.obey(CommandBit.RUN)
    drive.advance(5.0)
    before = drive.speed
    drive.advance(STEP)
    acceleration = (drive.speed - before) / STEP
    needed = load.inertia * acceleration + load.square(drive.motor) * drive.speed**2
    assert drive.torque == pytest.approx(needed, rel=2e-3)
    assert acceleration == pytest.approx(drive.motor.field_speed(5.0), rel=0.06)  # 5 Hz a second, less growing slip
