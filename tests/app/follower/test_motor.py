"""Equations of motor, load and rectifier, and the rule that integrates them."""

from __future__ import annotations

import math

import pytest

from app.follower.motor import RPM, LoadData, MotorData, load_torque, stepped


def test_the_current_is_the_name_plates_at_rated_torque_and_the_magnetising_part_at_none() -> None:
    motor = MotorData()
    assert motor.current_at(motor.torque) == pytest.approx(motor.current)
    assert motor.current_at(-motor.torque) == pytest.approx(motor.current)
    assert motor.current_at(0) == pytest.approx(motor.magnetising_current)


def test_the_torque_line_passes_through_rated_speed_at_rated_torque() -> None:
    motor = MotorData()
    slip = motor.field_speed(motor.frequency) - motor.speed_rpm * RPM
    assert motor.stiffness * slip == pytest.approx(motor.torque)
    assert motor.slip_frequency == pytest.approx(50 / 30)  # 50 min-1 of 1500


def test_field_speed_and_frequency_are_each_others_inverse() -> None:
    motor = MotorData()
    assert motor.field_frequency(motor.field_speed(37.5)) == pytest.approx(37.5)


def test_the_load_takes_its_share_at_rated_speed_and_is_odd() -> None:
    motor, load = MotorData(), LoadData(share=0.8, friction=0.05)
    parts = load.breakaway(motor), load.square(motor)
    rated = motor.speed_rpm * RPM
    assert load_torque(rated, *parts) == pytest.approx(0.8 * motor.torque)
    assert load_torque(-rated, *parts) == pytest.approx(-0.8 * motor.torque)
    assert load_torque(0.0, *parts) == 0


def test_the_rule_is_exact_on_a_straight_line_however_stiff() -> None:
    # dx/dt = -k (x - 3): x = 3 + (x0 - 3) exp(-k t)
    for stiffness in (0.1, 10.0, 5000.0):
        value = stepped(8.0, -stiffness * (8.0 - 3), -stiffness, 0.01)
        assert value == pytest.approx(3 + 5 * math.exp(-stiffness * 0.01))


def test_the_rule_is_of_second_order() -> None:
    # dx/dt = -x^2, x(0) = 1: x = 1 / (1 + t)
    def error(steps: int) -> float:
        x = 1.0
        for _ in range(steps):
            x = stepped(x, -x * x, -2 * x, 1 / steps)
        return abs(x - 0.5)

    assert error(20) / error(40) == pytest.approx(4, rel=0.1)
