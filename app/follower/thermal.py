"""The heat of a motor as its overload protection sees it: current squared, with one time constant.

In shares of the steady heat at rated current the model is d(heat)/dt = ((I / In)^2 - heat) / tau (handbook of motor
protection; from memory). It trips where a steady current of TRIP_AT times the rated one would bring it in the end:
IEC 60947-4-1 wants no trip at 1.05 times the rated current and one at 1.2 times (from memory).
"""

from __future__ import annotations

import math
from typing import Final

TRIP_AT: Final = 1.125
"""Steady current at which it just trips, of the rated one."""

TRIP_HEAT: Final = TRIP_AT**2

WARN_SHARE: Final = 0.9
"""From this share of the heat at which it trips on it warns. Common practice, no source."""

CLASS_TEST: Final = 7.2
"""The current of the class test, of the rated one: class 10 trips within 10 s from cold, class 20 within 20 s, class
30 within 30 s, and none sooner than 4, 6 and 9 s (IEC 60947-4-1, from memory)."""

CLASS_SHARE: Final = 0.8
"""Of the class's longest time: where in its band our model trips."""


def time_constant(trip_class: int) -> float:
    """tau in seconds of a trip class 10, 20 or 30: from cold at CLASS_TEST it trips after CLASS_SHARE times the class.

    From the solution heat(t) = i^2 (1 - exp(-t / tau)).
    """
    squared = CLASS_TEST**2
    return CLASS_SHARE * trip_class / math.log(squared / (squared - TRIP_HEAT))


class Heat:
    """The heat of one motor. 0 is cold, 1 what rated current holds it at."""

    def __init__(self, trip_class: int = 10) -> None:
        self.heat = 0.0
        self._tau = time_constant(trip_class)
        self._dt = 0.0
        self._keep = 1.0

    def step(self, current: float, dt: float) -> None:
        """Let `dt` seconds pass at a current given as a share of the rated one; exact while that is constant."""
        if dt != self._dt:
            self._dt, self._keep = dt, math.exp(-dt / self._tau)
        squared = current * current
        self.heat = squared + (self.heat - squared) * self._keep

    @property
    def share(self) -> float:
        """Of the heat at which it trips: 1 is there."""
        return self.heat / TRIP_HEAT

    @share.setter
    def share(self, share: float) -> None:
        self.heat = share * TRIP_HEAT

    @property
    def warns(self) -> bool:
        """Whether it is near."""
        return self.share >= WARN_SHARE

    @property
    def trips(self) -> bool:
        """Whether it is too hot."""
        return self.share >= 1.0
