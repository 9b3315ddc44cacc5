"""What a step or a ramp looked like in numbers: rise, overshoot, settling, error and ripple of a recorded signal.

Definitions follow the International Electrotechnical Vocabulary, part 351 (IEC 60050-351, control technology; from
memory): with the response scaled so that it goes from 0 (its value before the step) to 1 (its final value),

- rise time: from 10 % to 90 %, both times the first crossing;
- overshoot: the greatest excess over the final value, as a share of the whole change;
- settling time: from the step until the response stays within a band around the final value, here 2 % of the change on
  either side unless another one is asked for;
- steady-state deviation: set point minus final value.

The final value is the mean of the last part of the span that is looked at (`TAIL`); whether that was long enough is for
the person to judge who chose the span, and `settled` says whether it looks so. Times between samples are interpolated
along straight lines; nobody knows when between two samples something happened, so every time is told with the bounds
between which it lies for certain (`Measurement`), and a value with the step of its last digit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, NamedTuple, Self

import numpy as np

from app.curves.source import Array
from app.errors import FanlightError
from app.language import mark

TAIL: Final = 0.1
"""The share of the span, at its end, that the final value and the ripple are taken from."""

FEWEST: Final = 8
"""Samples below which nothing is said."""


class NoResponse(FanlightError, ValueError):
    """Nothing can be measured there; the message is for the person who chose the span."""


class Measurement(float):
    """A measured quantity that lies between `low` and `high`: as far as the samples tell."""

    low: float
    high: float

    def __new__(cls, value: float, low: float, high: float) -> Self:
        """The value, and its bounds in the same unit."""
        made = super().__new__(cls, value)
        made.low, made.high = low, high
        return made

    @property
    def within(self) -> float:
        """How far off it may be to either side."""
        return (self.high - self.low) / 2


class _Crossing(NamedTuple):
    """Something happened at `at`, as far as can be told: behind `after` and not later than `by`."""

    at: float
    after: float
    by: float

    def until(self, later: _Crossing) -> Measurement:
        """The time from here to there."""
        return Measurement(later.at - self.at, later.after - self.by, later.by - self.after)


@dataclass(frozen=True, slots=True)
class StepResponse:
    """A step, measured. Times are in seconds, values in the unit of the signal, shares 0 to 1 and more.

    `rise_s` and `settling_s` are None where the response did not get so far; `error` is None without a set point.
    """

    initial: float
    final: float
    rise_s: Measurement | None
    overshoot: Measurement
    settling_s: Measurement | None
    settled: bool
    error: float | None
    ripple: float
    """Between the least and the greatest value of the last part."""


@dataclass(frozen=True, slots=True)
class RampResponse:
    """A ramp, measured between 20 % and 80 % of the change, where it is straight.

    `slope` is in the unit of the signal per second; `ramp_s` the time that the whole change takes at that slope;
    `lag_s` how long after the set ramp the signal passes the middle, None without one.
    """

    initial: float
    final: float
    slope: Measurement
    ramp_s: Measurement
    set_ramp_s: Measurement | None
    lag_s: Measurement | None
    overshoot: Measurement
    ripple: float


def is_ramp(times: Array, values: Array, begin: float, end: float) -> bool:
    """Whether a set point goes from `begin` to `end` by many small changes and not mostly by one.

    One change of at least half of the way is a step. Common practice, no source.
    """
    known = ~np.isnan(values)
    times, values = times[known], values[known]
    first = max(0, int(np.searchsorted(times, begin)) - 1)  # what was before a step at the very beginning
    inside = values[first : int(np.searchsorted(times, end, "right"))]
    moves = np.abs(np.diff(inside))
    return int((moves > 0).sum()) > 2 and float(moves.max()) < float(np.ptp(inside)) / 2


def is_straight(times: Array, values: Array, begin: float, end: float) -> bool:
    """Whether a signal goes along a straight line between 10 % and 90 % of its change, for five samples at least.

    Straight: never farther from the line than 4 % of the change. The exponential of a first-order lag, which a step
    brings about, is about 20 % away from it there. Common practice, no source.
    """
    times, values, before = _span(times, values, begin, end)
    change = _tail(times, values, end) - before
    if change == 0:
        return False
    scaled = (values - before) / change
    low, high = np.flatnonzero(scaled > 0.1), np.flatnonzero(scaled >= 0.9)
    if not len(low) or not len(high) or high[0] - low[0] < 5:
        return False
    part = slice(int(low[0]), int(high[0]))
    line = np.polynomial.Polynomial.fit(times[part], scaled[part], 1)
    return float(np.abs(scaled[part] - line(times[part])).max()) <= 0.04


def step_response(
    times: Array,
    values: Array,
    begin: float,
    end: float,
    *,
    set_point: float | None = None,
    band: float = 0.02,
    quantum: float = 0.0,
    begin_after: float | None = None,
) -> StepResponse:
    """Measure the response of a signal to a step at `begin`, looking on until `end`.

    `quantum` is the step of the last digit of the values; `begin_after` when the step had not come yet, for certain:
    the sample of the set point before. Values that are not numbers (where nothing good was read) are left out. Raises
    NoResponse where there are too few samples or the signal does not change.
    """
    times, values, before = _span(times, values, begin, end)
    initial, final, ripple = before, _tail(times, values, end), _ripple(times, values, end)
    change = final - initial
    if abs(change) <= max(ripple, quantum, 1e-12 * max(abs(initial), abs(final), 1.0)):
        raise NoResponse(
            mark("record", "the signal changes no more than its ripple; choose a span that contains a step")
        )
    _at_rest(times, values, end, change)
    scaled = (values - initial) / change
    low, high = _first_crossing(times, scaled, 0.1), _first_crossing(times, scaled, 0.9)
    rest = _settling(times, scaled, band)
    step = _Crossing(begin, begin if begin_after is None else begin_after, begin)
    settling = None if rest is None else step.until(rest)
    return StepResponse(
        initial=initial,
        final=final,
        rise_s=None if low is None or high is None else low.until(high),
        overshoot=_overshoot(scaled, quantum / abs(change)),
        settling_s=settling,
        settled=settling is not None and settling <= (end - begin) * (1 - TAIL),
        error=None if set_point is None else set_point - final,
        ripple=ripple,
    )


def ramp_response(
    times: Array,
    values: Array,
    begin: float,
    end: float,
    *,
    set_times: Array | None = None,
    set_values: Array | None = None,
    quantum: float = 0.0,
) -> RampResponse:
    """Measure a signal that follows a ramp, from `begin` to `end`, against the ramp of its set point if that is given.

    `quantum` is the step of the last digit of the values. Raises NoResponse where there are too few samples, or no
    change.
    """
    times, values, before = _span(times, values, begin, end)
    final, ripple = _tail(times, values, end), _ripple(times, values, end)
    change = final - before
    if abs(change) <= max(ripple, quantum):
        raise NoResponse(
            mark("record", "the signal changes no more than its ripple; choose a span that contains a ramp")
        )
    _at_rest(times, values, end, change)
    slope, middle = _straight_part(times, (values - before) / change)
    set_ramp = lag = None
    if set_times is not None and set_values is not None:
        wanted_times, wanted, wanted_before = _span(set_times, set_values, begin, end)
        wanted_change = float(wanted[-1]) - wanted_before
        if wanted_change:
            wanted_scaled = (wanted - wanted_before) / wanted_change
            from_, to = (_first_crossing(wanted_times, wanted_scaled, level) for level in (1e-3, 1 - 1e-3))
            halfway = _first_crossing(wanted_times, wanted_scaled, 0.5)
            if from_ is not None and to is not None and halfway is not None:
                set_ramp, lag = from_.until(to), halfway.until(middle)
    scaled = (values - before) / change
    apart = _apart(times)
    ramp = Measurement(1 / slope, max(1 / slope - apart, apart), 1 / slope + apart)
    steepest, flattest = (change / ramp.low, change / ramp.high)
    return RampResponse(
        initial=before,
        final=final,
        slope=Measurement(slope * change, min(steepest, flattest), max(steepest, flattest)),
        ramp_s=ramp,
        set_ramp_s=set_ramp,
        lag_s=lag,
        overshoot=_overshoot(scaled, quantum / abs(change)),
        ripple=ripple,
    )


def steps(times: Array, values: Array, *, least: float | None = None, hold_s: float = 1.0) -> list[float]:
    """Where a set point jumps: the times of changes of at least `least`, before and after which it holds for `hold_s`.

    Left out, `least` is 2 % of the whole range of the values.
    """
    known = ~np.isnan(values)
    times, values = times[known], values[known]
    if len(values) < 2:
        return []
    reach = float(values.max() - values.min())
    least = 0.02 * reach if least is None else least
    if reach <= 0:
        return []
    found: list[float] = []
    for index in np.flatnonzero(np.abs(np.diff(values)) >= max(least, 1e-12)) + 1:
        at = float(times[index])
        first = min(int(np.searchsorted(times, at - hold_s)), int(index) - 1)
        before = values[first:index]
        after = values[(times >= at) & (times <= at + hold_s)]
        held = float(np.ptp(before)) < least and float(np.ptp(after)) < least
        if held and times[0] <= at - hold_s and times[-1] >= at + hold_s:
            found.append(at)
    return found


def _span(times: Array, values: Array, begin: float, end: float) -> tuple[Array, Array, float]:
    """The samples of a span, from the last one before it on, and the value at its beginning."""
    known = ~np.isnan(values)
    times, values = times[known], values[known]
    inside = (times >= begin) & (times <= end)
    earlier = np.flatnonzero(times < begin)
    if int(inside.sum()) < FEWEST:
        raise NoResponse(
            mark("record", "there are fewer than {count} good samples in this span; choose a longer one"), count=FEWEST
        )
    rest = values[earlier[times[earlier] >= begin - (end - begin) * TAIL]]
    if len(rest):
        initial = float(rest.mean())
    elif len(earlier):
        initial = float(values[earlier[-1]])
    else:
        initial = float(values[inside][0])
    return times[inside], values[inside], initial


def _at_rest(times: Array, values: Array, end: float, change: float) -> None:
    """Raise NoResponse if a signal still goes one way in the last part: then nothing there is its final value."""
    part = _last_part(times, values, end)
    third = max(1, len(part) // 3)
    drift = float(part[-third:].mean() - part[:third].mean())
    # Swinging comes back within the part; going on does not.
    if abs(drift) > max(0.05 * abs(change), 0.5 * float(np.ptp(part))) and len(part) >= 3:
        raise NoResponse(mark("record", "the signal is still moving at the end; put B where it has come to rest"))


def _last_part(times: Array, values: Array, end: float) -> Array:
    part = values[times >= end - (end - float(times[0])) * TAIL]
    return part if len(part) >= 2 else values[-2:]


def _tail(times: Array, values: Array, end: float) -> float:
    return float(_last_part(times, values, end).mean())


def _ripple(times: Array, values: Array, end: float) -> float:
    return float(np.ptp(_last_part(times, values, end)))


def _apart(times: Array) -> float:
    """The usual time from one sample to the next."""
    return float(np.median(np.diff(times)))


def _overshoot(scaled: Array, step: float) -> Measurement:
    over = max(0.0, float(scaled.max()) - 1.0)
    return Measurement(over, max(0.0, over - step), over + step)


def _first_crossing(times: Array, scaled: Array, level: float) -> _Crossing | None:
    above = np.flatnonzero(scaled >= level)
    if not len(above):
        return None
    index = int(above[0])
    if index == 0:  # it was there already: since at most the time between two samples
        first = float(times[0])
        return _Crossing(first, first - _apart(times), first)
    return _between(times, scaled, index, level)


def _between(times: Array, scaled: Array, index: int, level: float) -> _Crossing:
    """When the straight line from the sample before to the one at `index` passes `level`."""
    (t0, t1), (y0, y1) = times[index - 1 : index + 1], scaled[index - 1 : index + 1]
    at = float(t1) if y0 == y1 else float(t0 + (t1 - t0) * (level - y0) / (y1 - y0))
    return _Crossing(at, float(t0), float(t1))


def _settling(times: Array, scaled: Array, band: float) -> _Crossing | None:
    outside = np.flatnonzero(np.abs(scaled - 1.0) > band)
    if not len(outside):
        return _Crossing(float(times[0]), float(times[0]), float(times[0]))
    last = int(outside[-1])
    if last + 1 >= len(scaled):
        return None
    return _between(times, scaled, last + 1, 1.0 + band if scaled[last] > 1.0 else 1.0 - band)


def _straight_part(times: Array, scaled: Array) -> tuple[float, _Crossing]:
    """Slope per second, and the time of the middle, between 20 % and 80 %."""
    first, last = np.flatnonzero(scaled >= 0.2), np.flatnonzero(scaled >= 0.8)
    middle = _first_crossing(times, scaled, 0.5)
    if not len(first) or not len(last) or middle is None:
        raise NoResponse(mark("record", "the signal does not reach its final value; choose a longer span"))
    part = slice(int(first[0]), int(last[0]) + 1)
    if int(last[0]) - int(first[0]) < 2:
        raise NoResponse(
            mark("record", "the change is over within three samples: measure it as a step, or read faster")
        )
    slope = float(np.polynomial.Polynomial.fit(times[part], scaled[part], 1).convert().coef[1])
    if slope <= 0:
        raise NoResponse(mark("record", "the signal does not ramp straight to its final value; measure it as a step"))
    return slope, middle
