"""The shape of a signal over a span, in as many columns as a picture has pixels: what a long curve is drawn from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Envelope:
    """The shape of a signal over a span, in columns of equal width: the least and greatest value in each.

    `edges` are the beginnings of the columns in seconds since the recording began, with the end behind them; `low` and
    `high` are not-a-number in columns without a good sample.
    """

    edges: NDArray[np.float64]
    low: NDArray[np.float64]
    high: NDArray[np.float64]


def spread(
    edges: NDArray[np.float64],
    begins: NDArray[np.float64],
    ends: NDArray[np.float64],
    low: NDArray[np.float64],
    high: NDArray[np.float64],
) -> Envelope:
    """Spans of time with their least and greatest values, put into columns: each into every column that it touches.

    What lies outside of all columns is in none.
    """
    columns = len(edges) - 1
    lows, highs = np.full(columns, np.inf), np.full(columns, -np.inf)
    some = ~np.isnan(low) & (ends >= edges[0]) & (begins <= edges[-1])
    scale = columns / (edges[-1] - edges[0])
    from_column = np.clip(((begins[some] - edges[0]) * scale).astype(np.int64), 0, columns - 1)
    to_column = np.clip(((ends[some] - edges[0]) * scale).astype(np.int64), 0, columns - 1)
    low, high = low[some], high[some]
    reach = int((to_column - from_column).max(initial=0))
    for further in range(reach + 1):
        there = from_column + further <= to_column
        np.minimum.at(lows, from_column[there] + further, low[there])
        np.maximum.at(highs, from_column[there] + further, high[there])
    lows[np.isinf(lows)] = np.nan
    highs[np.isinf(highs)] = np.nan
    return Envelope(edges, lows, highs)


def extremes(edges: NDArray[np.float64], times: NDArray[np.float64], values: NDArray[np.float64]) -> Envelope:
    """Values in the order of their times, put into columns: the least and greatest of each."""
    columns = len(edges) - 1
    cuts = np.searchsorted(times, edges, side="left")
    cuts[-1] = len(times)
    lows, highs = np.full(columns, np.nan), np.full(columns, np.nan)
    filled = np.flatnonzero(np.diff(cuts) > 0)
    if len(filled):
        part = values[int(cuts[0]) :]
        starts = cuts[filled] - int(cuts[0])
        lows[filled] = np.fmin.reduceat(part, starts)
        highs[filled] = np.fmax.reduceat(part, starts)
    return Envelope(edges, lows, highs)
