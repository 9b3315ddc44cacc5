"""Measures of a response against the analytic second-order step and against python-control's own measurement.

Formulas of the underdamped second-order system with damping d and natural frequency w (textbook of control
engineering, for example K. Ogata, Modern Control Engineering, transient response; from memory): overshoot
exp(-pi d / sqrt(1 - d^2)), time of the peak pi / (w sqrt(1 - d^2)).
"""

from __future__ import annotations

import math

import control
import numpy as np
import pytest
from scipy import signal

from app.curves.response import NoResponse, ramp_response, step_response, steps

DAMPINGS = (0.2, 0.4, 0.6, 0.8)


def second_order(damping: float, w: float, seconds: float, count: int) -> tuple[np.ndarray, np.ndarray]:
    times = np.linspace(0.0, seconds, count)
    found, values = signal.step(([w * w], [1.0, 2 * damping * w, w * w]), T=times)
    return np.asarray(found), np.asarray(values)


@pytest.mark.parametrize("damping", DAMPINGS)
@pytest.mark.parametrize(("offset", "height"), [(0.0, 1.0), (10.0, 40.0), (50.0, -30.0)])
def test_overshoot_of_a_second_order_step(damping: float, offset: float, height: float) -> None:
    times, values = second_order(damping, 2.0, 60.0, 60_001)
    before = np.linspace(-5.0, -0.001, 5000)
    times = np.concatenate([before, times])
    values = offset + height * np.concatenate([np.zeros(5000), values])
    found = step_response(times, values, 0.0, 60.0, set_point=offset + height)
    root = math.sqrt(1 - damping**2)
    assert found.overshoot == pytest.approx(math.exp(-math.pi * damping / root), abs=2e-4)
    assert found.final == pytest.approx(offset + height, rel=1e-3)
    assert found.error == pytest.approx(0.0, abs=1e-2)
    assert found.initial == pytest.approx(offset)
    assert found.settled


@pytest.mark.parametrize("damping", DAMPINGS)
@pytest.mark.parametrize("band", [0.02, 0.05])
def test_rise_and_settling_as_python_control_has_them(damping: float, band: float) -> None:
    times, values = second_order(damping, 1.5, 80.0, 80_001)
    theirs = control.step_info(values, T=times, SettlingTimeThreshold=band, RiseTimeLimits=(0.1, 0.9), yfinal=1.0)
    found = step_response(times, values, 0.0, 80.0, band=band)
    assert found.rise_s == pytest.approx(theirs["RiseTime"], abs=3e-3)
    assert found.settling_s == pytest.approx(theirs["SettlingTime"], abs=3e-3)
    assert 100 * found.overshoot == pytest.approx(theirs["Overshoot"], abs=0.05)


def test_a_first_order_lag_rises_in_2_2_time_constants() -> None:
    """ln 9 = 2.197 time constants from 10 % to 90 % (calculus)."""
    times = np.linspace(0.0, 30.0, 3001)
    found = step_response(times, 1 - np.exp(-times / 2.0), 0.0, 30.0)
    assert found.rise_s == pytest.approx(2.0 * math.log(9), abs=1e-3)
    assert found.settling_s == pytest.approx(2.0 * math.log(50), abs=1e-2)
    assert found.overshoot < 1e-6


def test_a_slow_reading_is_interpolated() -> None:
    """Read five times a second, the straight lines between the samples still give the times within a tenth of that."""
    times = np.arange(0.0, 30.0, 0.2)
    found = step_response(times, 1 - np.exp(-times / 2.0), 0.0, 30.0)
    assert found.rise_s == pytest.approx(2.0 * math.log(9), abs=0.02)


def test_a_ramp_against_its_set_point() -> None:
    times = np.arange(-2.0, 30.0, 0.05)
    wanted = np.clip(times / 10.0, 0.0, 1.0) * 40 + 5
    actual = np.clip((times - 0.4) / 12.5, 0.0, 1.0) * 40 + 5
    found = ramp_response(times, actual, 0.0, 29.0, set_times=times, set_values=wanted)
    assert found.ramp_s == pytest.approx(12.5, rel=1e-3)
    assert found.set_ramp_s == pytest.approx(10.0, rel=5e-3)
    assert found.slope == pytest.approx(40 / 12.5, rel=1e-3)
    assert found.lag_s == pytest.approx(0.4 + 6.25 - 5.0, abs=0.05)


def test_ripple_is_what_is_left_of_the_swing() -> None:
    times = np.linspace(0.0, 10.0, 2001)
    values = np.where(times < 1.0, times, 1.0) + 0.01 * np.sin(40 * times)
    assert step_response(times, values, 0.0, 10.0).ripple == pytest.approx(0.02, rel=0.02)


def test_what_has_not_come_to_rest_is_not_called_settled() -> None:
    times, values = second_order(0.02, 20.0, 6.0, 601)
    assert not step_response(times, values, 0.0, 6.0).settled
    # So slow that the end sees a part of one swing: there is nothing that could be the final value.
    times, values = second_order(0.05, 2.0, 6.0, 601)
    with pytest.raises(NoResponse, match="still moving"):
        step_response(times, values, 0.0, 6.0)


def test_gaps_are_left_out_and_too_little_is_refused() -> None:
    times = np.linspace(0.0, 10.0, 101)
    values = 1 - np.exp(-times)
    values[10:20] = np.nan
    assert step_response(times, values, 0.0, 10.0).rise_s == pytest.approx(math.log(9), abs=0.05)
    with pytest.raises(NoResponse, match="fewer than"):
        step_response(times, np.full(101, np.nan), 0.0, 10.0)
    with pytest.raises(NoResponse, match="changes no more than its ripple"):
        step_response(times, np.full(101, 3.0), 0.0, 10.0)
    with pytest.raises(NoResponse, match="measure it as a step"):
        ramp_response(times, np.where(times < 5, 0.0, 1.0), 0.0, 10.0)


def test_steps_are_found_where_a_set_point_jumps_and_holds() -> None:
    times = np.arange(0.0, 60.0, 0.1)
    values = np.select([times < 10, times < 25, times < 25.3, times < 40], [0.0, 20.0, 90.0, 20.0], 35.0)
    assert steps(times, values) == pytest.approx([10.0, 40.0], abs=0.11)
    assert steps(times, np.zeros_like(times)) == []


@pytest.mark.parametrize("every", [0.1, 0.5, 1.0])
def test_the_true_times_lie_between_the_bounds_however_the_polling_falls(every: float) -> None:
    """Of a first-order lag the times are known (calculus); its samples fall anywhere."""
    tau = 2.0
    for phase in np.random.default_rng(5).uniform(0.0, every, 40):
        times = np.arange(-3.0, 30.0, every) + phase
        times = times[times < 30.0]
        values = np.where(times < 0, 0.0, 1 - np.exp(-np.maximum(times, 0.0) / tau))
        wanted = (times >= 0).astype(float)
        (jump,) = steps(times, wanted, hold_s=0.0)
        before = float(times[times < jump][-1])
        found = step_response(times, values, jump, 30.0, begin_after=before)
        for measured, true in ((found.rise_s, tau * math.log(9)), (found.settling_s, tau * math.log(50))):
            assert measured is not None
            assert measured.low - 1e-3 <= true <= measured.high + 1e-3
            assert measured.low <= measured <= measured.high
            assert measured.within <= 1.01 * every


def test_what_is_over_between_two_samples_has_no_figure_of_its_own() -> None:
    """A jump polled every half a second takes anything from nothing to a second, and not 0.525 s."""
    times = np.arange(0.0, 20.0, 0.5)
    wanted = np.where(times < 5, 10.0, 30.0)
    actual = np.clip(10 + (times - 5.0) * 4.0, 10.0, 30.0)
    found = step_response(times, wanted, 5.0, 19.0)
    assert found.rise_s is not None
    assert (found.rise_s.low, found.rise_s.high) == (-0.5, 0.5)
    ramp = ramp_response(times, actual, 4.0, 19.0, set_times=times, set_values=wanted)
    assert ramp.set_ramp_s is not None
    assert ramp.set_ramp_s.low <= 0
    assert ramp.ramp_s == pytest.approx(5.0)
    assert ramp.ramp_s.within == pytest.approx(0.5)
    assert ramp.slope.low == pytest.approx(20 / 5.5)


def test_what_changes_by_no_more_than_the_last_digit_has_not_changed() -> None:
    times = np.arange(0.0, 20.0, 0.1)
    values = np.where(times < 5, 10.0, 10.1)
    assert step_response(times, values, 5.0, 19.0).final == pytest.approx(10.1)
    with pytest.raises(NoResponse, match="changes no more than its ripple"):
        step_response(times, values, 5.0, 19.0, quantum=0.11)
