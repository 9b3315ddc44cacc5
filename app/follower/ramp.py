"""The ramp of the output frequency: straight, or rounded at both ends so that nothing jerks."""

from __future__ import annotations

import math
from collections import deque


def ramped(frequency: float, target: float, up: float, down: float) -> float:
    """`frequency` moved towards `target` by at most `up` away from zero or `down` towards it.

    A reversal goes through zero: down first, and only then up on the other side.
    """
    goal = 0.0 if frequency * target < 0 else target
    most = down if abs(goal) < abs(frequency) else up
    if abs(goal - frequency) <= most + 1e-9:
        return goal
    return frequency + math.copysign(most, goal - frequency)


class Ramp:
    """A frequency on its way. With a rounding it is the mean of the straight ramp over that time.

    The mean of a straight ramp over a time T begins and ends along a parabola of length T, with the greatest change of
    acceleration a / T, and takes T longer in all: the usual S shape. Where the change is over before the rounding is,
    the parabolas meet. It never passes its target, and lies on it exactly in the end.
    """

    def __init__(self) -> None:
        self._straight = 0.0
        self._window: deque[float] = deque([0.0], maxlen=1)

    @property
    def frequency(self) -> float:
        """Where it is, Hz."""
        if self._window.count(self._straight) == len(self._window):
            return self._straight  # without the rounding of a mean
        return math.fsum(self._window) / len(self._window)

    def round_over(self, steps: int) -> None:
        """Round over so many steps from now on; fewer than two: not at all."""
        length = max(1, steps)
        if length != self._window.maxlen:
            here = self.frequency
            self._window = deque([here] * length, maxlen=length)

    def step(self, target: float, up: float, down: float) -> float:
        """One step towards `target`, by at most `up` away from zero or `down` towards it; gives the frequency."""
        self._straight = ramped(self._straight, target, up, down)
        self._window.append(self._straight)
        return self.frequency

    def be(self, frequency: float) -> None:
        """Stand at a frequency that something else decided: a shaft that is caught, or cannot follow."""
        self._straight = frequency
        self._window.extend([frequency] * (self._window.maxlen or 1))
