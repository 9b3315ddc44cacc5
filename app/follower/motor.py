"""An induction motor, what it turns, and the rectifier that feeds its inverter: data and equations.

Angular speeds are rad/s of the shaft, torques Nm, powers W, frequencies Hz, voltages V, currents A. Nothing here has a
memory; `app.follower.drive` integrates.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final

RPM: Final = 2 * math.pi / 60
"""One revolution a minute, in rad/s."""


def synchronous_speed(frequency: float, poles: int) -> float:
    """Shaft speed in min-1 of the rotating field: n = 120 f / p, with p the number of poles (handbook)."""
    return 120 * frequency / poles


def shaft_torque(power_kw: float, speed_rpm: float) -> float:
    """Torque in Nm that carries a power in kW at a speed in min-1: T = 9550 P / n (handbook; 9549.3 rounded)."""
    return 9550 * power_kw / speed_rpm


def rectifier_mean(line_voltage: float) -> float:
    """Mean DC voltage of a loaded six-pulse bridge: 3 sqrt(2) / pi = 1.35 times the line voltage (handbook)."""
    return 3 * math.sqrt(2) / math.pi * line_voltage


def rectifier_peak(line_voltage: float) -> float:
    """DC voltage to which a bridge charges an unloaded capacitor: sqrt(2) times the line voltage (handbook)."""
    return math.sqrt(2) * line_voltage


@dataclass(frozen=True)
class MotorData:
    """The name plate of a four-quadrant V/f driven induction motor and the supply of its drive."""

    power_kw: float = 7.5
    voltage: float = 400.0
    frequency: float = 50.0
    poles: int = 4
    speed_rpm: float = 1450.0
    power_factor: float = 0.84
    efficiency: float = 0.89
    supply_voltage: float = 400.0

    @cached_property
    def torque(self) -> float:
        """Rated torque, Nm."""
        return self.power_kw * 1000 / (self.speed_rpm * RPM)

    @cached_property
    def current(self) -> float:
        """Rated current: P / (sqrt(3) U cos(phi) eta), A."""
        return self.power_kw * 1000 / (math.sqrt(3) * self.voltage * self.power_factor * self.efficiency)

    @cached_property
    def magnetising_current(self) -> float:
        """The part of the rated current that makes the field, taken as its reactive part: I sin(phi), A."""
        return self.current * math.sqrt(1 - self.power_factor**2)

    @cached_property
    def torque_current(self) -> float:
        """The part of the rated current that makes rated torque: I cos(phi), A."""
        return self.current * self.power_factor

    @cached_property
    def slip_frequency(self) -> float:
        """By how much the shaft lags behind the field at rated torque, Hz of the supply."""
        return self.frequency - self.speed_rpm * self.poles / 120

    @cached_property
    def stiffness(self) -> float:
        """Torque per lag of the shaft behind the field, Nm s/rad: the straight part of the torque-speed curve."""
        return self.torque / (self.field_speed(self.frequency) - self.speed_rpm * RPM)

    def field_speed(self, frequency: float) -> float:
        """Shaft speed of the rotating field, rad/s."""
        return frequency * self._speed_per_hertz

    def field_frequency(self, speed: float) -> float:
        """Supply frequency whose field turns with the shaft at `speed` rad/s, Hz."""
        return speed / self._speed_per_hertz

    @cached_property
    def _speed_per_hertz(self) -> float:
        return synchronous_speed(1.0, self.poles) * RPM

    def current_at(self, torque: float) -> float:
        """Current at constant flux: magnetising and torque parts stand at right angles, A."""
        return math.hypot(self.magnetising_current, self.torque_current * torque / self.torque)


@dataclass(frozen=True, slots=True)
class LoadData:
    """A fan or a centrifugal pump on the shaft: friction + k w^2, the affinity law of torque.

    `share` is how much of the rated torque it takes at rated speed, `friction` how much of the rated torque the
    bearings take at any speed (Coulomb); `inertia` is of everything that turns, kg m^2.
    """

    share: float = 0.9
    friction: float = 0.02
    inertia: float = 0.6

    def breakaway(self, motor: MotorData) -> float:
        """Friction torque, Nm."""
        return self.friction * motor.torque

    def square(self, motor: MotorData) -> float:
        """k of the quadratic part, Nm s^2."""
        return (self.share - self.friction) * motor.torque / (motor.speed_rpm * RPM) ** 2


def load_torque(speed: float, breakaway: float, square: float) -> float:
    """Torque against the motion, Nm: friction + k w |w|. At standstill 0: friction only holds, it never drives."""
    if speed == 0:
        return 0.0
    return math.copysign(breakaway, speed) + square * speed * abs(speed)


def stepped(value: float, slope: float, gradient: float, dt: float) -> float:
    """One step of the exponential Rosenbrock-Euler rule for dx/dt = f(x), second order and stable at any stiffness.

    x + dt phi1(dt f'(x)) f(x), phi1(z) = (exp(z) - 1) / z (Hochbruck and Ostermann, Exponential integrators, Acta
    Numerica 2010, from memory). `slope` is f(x), `gradient` f'(x); exact where f is a straight line.
    """
    z = gradient * dt
    return value + slope * dt * (math.expm1(z) / z if abs(z) > 1e-9 else 1.0)
