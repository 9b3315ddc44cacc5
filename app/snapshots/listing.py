"""Rows of a comparison as text for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from app.exchange.quoting import quoted
from app.snapshots.differences import RegisterDifference


def as_csv(rows: Iterable[RegisterDifference], *, alone: bool = False) -> str:
    """A line for each row under a heading; numbers of registers as the follower counts them.

    `alone`: one snapshot only, whose values stand in one column.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(["table", "register", "wire address", "signal", *(["value"] if alone else ["before", "after"])])
    for row in rows:
        values = [row.said_before] if alone else [row.said_before, row.said_after]
        writer.writerow([row.table, row.number, row.address, *(quoted(text) for text in (row.signal, *values))])
    return out.getvalue()
