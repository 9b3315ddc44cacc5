"""The drive's protection and ramps against a standard's figures and against scipy.

Trip classes: IEC 60947-4-1 (from memory): from cold at 7.2 times the set current class 10 trips after 4 to 10 s, class
20 after 6 to 20 s, class 30 after 9 to 30 s; it must not trip at 1.05 times that current and must at 1.2 times.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import integrate, signal

from app.follower.drive import STEP, CommandBit, Drive
from app.follower.motor import LoadData
from app.follower.ramp import Ramp
from app.follower.thermal import Heat


@pytest.mark.parametrize(("trip_class", "least", "most"), [(10, 4, 10), (20, 6, 20), (30, 9, 30)])
def test_the_class_trips_within_its_band(trip_class: int, least: float, most: float) -> None:
    heat, seconds = Heat(trip_class), 0.0
    while not heat.trips:
        heat.step(7.2, STEP)
        seconds += STEP
    assert least < seconds <= most


@pytest.mark.parametrize("trip_class", [10, 20, 30])
def test_it_holds_at_1_05_and_trips_at_1_2_times_the_current(trip_class: int) -> None:
    for current, trips in ((1.05, False), (1.2, True)):
        heat = Heat(trip_class)
        for _ in range(2 * 3600):
            heat.step(current, 1.0)
        assert heat.trips is trips


def test_a_rounded_ramp_is_a_straight_one_seen_through_a_window() -> None:
    """The mean over a time is the convolution with a box of that length: here by scipy."""
    steps, rise = 80, 250
    straight = np.clip(np.arange(1, 500) / rise, 0, 1) * 50
    expected = signal.convolve(np.concatenate([np.zeros(steps), straight]), np.ones(steps) / steps)[steps : steps + 499]
    ramp = Ramp()
    ramp.round_over(steps)
    ours = [ramp.step(50.0, 50 / rise, 50 / rise) for _ in range(499)]
    assert np.allclose(ours, expected, atol=1e-9)


@pytest.mark.parametrize("kind", ["quadratic", "linear", "constant"])
def test_free_wheel_as_scipy_integrates_it(kind: str) -> None:
    """J dw/dt = -T_load(w), by an adaptive Runge-Kutta method of order 8."""
    load = LoadData(share=0.8, friction=0.05, inertia=1.0, kind=kind)  # type: ignore[arg-type]
    drive = Drive(load=load)
    drive.reference, drive.ramp_up_s = 45.0, 3.0
    drive.advance(0.1)
    drive.obey(CommandBit.RUN)
    drive.advance(20.0)
    drive.inputs.safe_torque_off = True
    drive.advance(2 * STEP)
    start, motor = drive.speed, drive.motor
    c, k1, k2 = load.breakaway(motor), load.line(motor), load.square(motor)
    seconds = 1.0
    found = integrate.solve_ivp(
        lambda _t, w: -(c + k1 * w + k2 * w * np.abs(w)) / load.inertia, (0, seconds), [start], "DOP853", rtol=1e-10
    )
    drive.advance(seconds)
    assert drive.speed == pytest.approx(float(found.y[0, -1]), rel=2e-3)


def test_run_up_as_scipy_integrates_it() -> None:
    """The field on a straight ramp, the motor's straight torque line against a fan, stiff: by an implicit method."""
    load = LoadData(share=0.9, friction=0.0, inertia=0.6)
    drive = Drive(load=load)
    drive.reference, drive.ramp_up_s = 50.0, 6.0
    drive.advance(0.1)
    drive.obey(CommandBit.RUN)
    drive.advance(3 * STEP)
    motor, t0 = drive.motor, drive.frequency / 50.0 * 6.0
    square = load.square(motor)

    def slope(t: float, w: np.ndarray) -> np.ndarray:
        field = motor.field_speed(min(50.0, 50.0 * (t0 + t) / 6.0))
        return np.asarray((motor.stiffness * (field - w) - square * w * np.abs(w)) / load.inertia)

    found = integrate.solve_ivp(slope, (0, 4.0), [drive.speed], "Radau", rtol=1e-8, max_step=0.05)
    drive.advance(4.0)
    assert drive.speed == pytest.approx(float(found.y[0, -1]), rel=5e-3)
