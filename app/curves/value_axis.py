"""The bounds of a value axis: round, around all values, and at rest while values wander within them."""

from __future__ import annotations

import math
from typing import Final

MARGIN: Final = 0.06
"""Of the span of the values: what is left free above and below them at least."""
FILLED: Final = 0.3
"""Values that fill less of the axis than this get a closer one."""
INTERVALS: Final = 20
"""About so many round steps make an axis."""


def bounds(
    low: float, high: float, *, least: float = 0.0, now: tuple[float, float] | None = None
) -> tuple[float, float]:
    """Bounds of an axis for values from `low` to `high`, in their unit.

    `now` is kept while the values lie in it and fill a good part of it: an axis that follows every value cannot be
    read. `least` is the shortest span that is worth showing, so that the last digit of a value at rest does not look
    like a storm. Raises ValueError for bounds that are not finite or not in order.
    """
    if not (math.isfinite(low) and math.isfinite(high) and low <= high):
        raise ValueError(f"values from {low} to {high} have no axis")
    span = max(high - low, least, 1e-9 * max(abs(low), abs(high)), 1e-12)
    if now is not None and now[0] <= low and high <= now[1] and span >= FILLED * (now[1] - now[0]):
        return now
    middle, half = (low + high) / 2, span * (0.5 + MARGIN)
    step = _round_step(2 * half / INTERVALS)
    return math.floor((middle - half) / step) * step, math.ceil((middle + half) / step) * step


def _round_step(about: float) -> float:
    """The least of 1, 2 and 5 times a power of ten that is not below `about`."""
    power = 10.0 ** math.floor(math.log10(about))
    return next(step for step in (power, 2 * power, 5 * power, 10 * power) if step >= about * (1 - 1e-9))
