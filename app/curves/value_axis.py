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
FROM_ZERO: Final = frozenset({"mA", "A", "kA", "W", "kW", "MW", "VA", "kVA", "MVA"})
"""Units whose axis begins at 0: what matters of a current or a power is its size. Common practice, no source."""
LEAST_SPANS: Final = {
    **{"Hz": 5.0, "%": 10.0, "V": 20.0, "\N{DEGREE SIGN}C": 5.0, "bar": 0.5, "mbar": 20.0, "Pa": 50.0, "kPa": 5.0},
    **{"A": 1.0, "mA": 10.0, "kW": 0.5, "W": 50.0, "kVA": 0.5, "Nm": 5.0, "rpm": 50.0, "1/min": 50.0, "min-1": 50.0},
    **{"m/s": 0.5, "m/min": 5.0, "mm": 5.0, "l/min": 5.0, "m\N{SUPERSCRIPT THREE}/h": 1.0},
}
"""The shortest span of an axis that is worth showing, by unit: noise of a value at rest stays small.

Common practice, no source."""


def bounds(
    low: float, high: float, *, least: float = 0.0, now: tuple[float, float] | None = None, zero: bool = False
) -> tuple[float, float]:
    """Bounds of an axis for values from `low` to `high`, in their unit.

    `now` is kept while the values lie in it and fill a good part of it: an axis that follows every value cannot be
    read. `least` is the shortest span that is worth showing, so that the last digit of a value at rest does not look
    like a storm. With `zero` the axis holds 0, and ends there where no value is beyond it. Raises ValueError for bounds
    that are not finite or not in order.
    """
    if not (math.isfinite(low) and math.isfinite(high) and low <= high):
        raise ValueError(f"values from {low} to {high} have no axis")
    if zero:
        low, high = min(low, 0.0), max(high, 0.0)
    span = max(high - low, least, 1e-9 * max(abs(low), abs(high)), 1e-12)
    if now is not None and now[0] <= low and high <= now[1] and span >= FILLED * (now[1] - now[0]):
        return now
    middle, half = (low + high) / 2, span * (0.5 + MARGIN)
    step = _round_step(2 * half / INTERVALS)
    if zero and low == 0.0:
        return 0.0, math.ceil(span * (1 + MARGIN) / step) * step
    if zero and high == 0.0:
        return math.floor(-span * (1 + MARGIN) / step) * step, 0.0
    return math.floor((middle - half) / step) * step, math.ceil((middle + half) / step) * step


def _round_step(about: float) -> float:
    """The least of 1, 2 and 5 times a power of ten that is not below `about`."""
    power = 10.0 ** math.floor(math.log10(about))
    return next(step for step in (power, 2 * power, 5 * power, 10 * power) if step >= about * (1 - 1e-9))
