"""An induction motor, what it turns, and the rectifier that feeds its inverter: data and equations.

Angular speeds are rad/s of the shaft, torques Nm, powers W, frequencies Hz, voltages V, currents A. Nothing here has a
memory; `app.follower.drive` integrates.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal

RPM: Final = 2 * math.pi / 60
"""One revolution a minute, in rad/s."""


def synchronous_speed(frequency: float, poles: int) -> float:
    """Shaft speed in min-1 of the rotating field: n = 120 f / p, with p the number of poles (handbook)."""
    return 120 * frequency / poles


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

    def supply_power_kw(self, torque: float, frequency: float) -> float:
        """Power that the motor takes from the inverter, kW, negative while it feeds back.

        What crosses the air gap is T times the speed of the field (so rotor losses are slip times that), and the stator
        adds losses with the square of the current; at the name plate it is P / efficiency (handbook).
        """
        stator = self._stator_losses_kw * (self.current_at(torque) / self.current) ** 2
        return torque * self.field_speed(frequency) / 1000 + stator

    @cached_property
    def _stator_losses_kw(self) -> float:
        air_gap = self.torque * self.field_speed(self.frequency) / 1000
        return max(0.0, self.power_kw / self.efficiency - air_gap)

    def current_at(self, torque: float) -> float:
        """Current at constant flux: magnetising and torque parts stand at right angles, A."""
        return math.hypot(self.magnetising_current, self.torque_current * torque / self.torque)


@dataclass(frozen=True, slots=True)
class LoadData:
    """What the motor turns, against friction and against a torque that goes with the speed in one of three ways.

    `quadratic`: a fan or a centrifugal pump, k w^2, the affinity law of torque. `linear`: k w, a calender or a mixer in
    a thick liquid. `constant`: the same at every speed, a conveyor or a piston pump (handbook). `share` is how much of
    the rated torque it takes at rated speed, friction included; `friction` how much of the rated torque the bearings
    take at any speed (Coulomb); `inertia` is of everything that turns, kg m^2.
    """

    share: float = 0.9
    friction: float = 0.02
    inertia: float = 0.6
    kind: Literal["quadratic", "linear", "constant"] = "quadratic"

    def breakaway(self, motor: MotorData) -> float:
        """Torque that is there at any speed, Nm."""
        return (max(self.share, self.friction) if self.kind == "constant" else self.friction) * motor.torque

    def line(self, motor: MotorData) -> float:
        """k of the linear part, Nm s."""
        return self._over(motor) / (motor.speed_rpm * RPM) if self.kind == "linear" else 0.0

    def square(self, motor: MotorData) -> float:
        """k of the quadratic part, Nm s^2."""
        return self._over(motor) / (motor.speed_rpm * RPM) ** 2 if self.kind == "quadratic" else 0.0

    def _over(self, motor: MotorData) -> float:
        return (self.share - self.friction) * motor.torque


def load_torque(speed: float, breakaway: float, square: float, line: float = 0.0) -> float:
    """Torque against the motion, Nm: friction + k1 w + k2 w |w|. At standstill 0: friction holds, it never drives."""
    if speed == 0:
        return 0.0
    return math.copysign(breakaway, speed) + line * speed + square * speed * abs(speed)


def stepped(value: float, slope: float, gradient: float, dt: float) -> float:
    """One step of the exponential Rosenbrock-Euler rule for dx/dt = f(x), second order and stable at any stiffness.

    x + dt phi1(dt f'(x)) f(x), phi1(z) = (exp(z) - 1) / z (Hochbruck and Ostermann, Exponential integrators, Acta
    Numerica 2010, from memory). `slope` is f(x), `gradient` f'(x); exact where f is a straight line.
    """
    z = gradient * dt
    return value + slope * dt * (math.expm1(z) / z if abs(z) > 1e-9 else 1.0)
