"""A recording written out as text that a spreadsheet or a script reads: samples a row each, or a column each signal."""

from __future__ import annotations

import csv
import heapq
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np

from app.exchange.quoting import quoted
from app.language import DecimalMark
from app.recording.reader import Recording
from app.recording.tables import GOOD, QUALITIES, SECOND

if TYPE_CHECKING:
    from _csv import Writer

    from _typeshed import SupportsWrite

CHUNK_S = 30.0
"""Seconds that are read at once: a long recording need not fit into the memory."""


def write_samples(
    recording: Recording,
    out: SupportsWrite[str],
    names: Sequence[str],
    begin: float,
    end: float,
    *,
    delimiter: str = ",",
    mark: DecimalMark = ".",
) -> int:
    """Write every sample from `begin` to `end` as a row of its own, in the order of their times; gives how many.

    Columns: civil time, seconds since the recording began, signal, value, unit, quality, registers in hexadecimal.
    """
    writer = csv.writer(out, delimiter=delimiter, lineterminator="\n")
    writer.writerow(["time", "seconds", "signal", "value", "unit", "quality", "registers"])
    units = {name: recording.project.signal_named[name].unit for name in names}
    count = 0
    for at, name, value, quality, words in _merge(recording, names, begin, end):
        civil = recording.civil(at).isoformat(timespec="milliseconds")
        registers = " ".join(f"{word:04X}" for word in words) if QUALITIES[quality] == "good" else ""
        writer.writerow(
            [
                civil,
                number_cell(f"{at:.6f}", mark),
                quoted(name),
                _cell(value, mark),
                quoted(units[name]),
                str(QUALITIES[quality]),
                registers,
            ]
        )
        count += 1
    return count


def write_table(
    recording: Recording,
    out: SupportsWrite[str],
    names: Sequence[str],
    begin: float,
    end: float,
    *,
    delimiter: str = ",",
    mark: DecimalMark = ".",
) -> int:
    """Write a column for each signal and a row for each moment at which one of them was read; gives how many rows.

    A cell is empty where its signal was not read at that moment, and "lost" where it could not be read.
    """
    writer = _table_writer(recording, out, names, delimiter)
    columns = {name: number for number, name in enumerate(names)}
    count = 0
    row: list[str] = []
    row_at: float | None = None

    def finish() -> None:
        nonlocal count
        if row_at is not None:
            civil = recording.civil(row_at).isoformat(timespec="milliseconds")
            writer.writerow([civil, number_cell(f"{row_at:.6f}", mark), *row])
            count += 1

    for at, name, value, quality, _ in _merge(recording, names, begin, end):
        if at != row_at:
            finish()
            row, row_at = [""] * len(names), at
        row[columns[name]] = _cell(value, mark) if quality == GOOD else "lost"
    finish()
    return count


def write_grid(
    recording: Recording,
    out: SupportsWrite[str],
    names: Sequence[str],
    begin: float,
    end: float,
    every: float,
    *,
    delimiter: str = ",",
    mark: DecimalMark = ".",
) -> int:
    """Write a column for each signal and a row every `every` seconds from `begin` on; gives how many rows.

    A cell holds the last value that was read at its time or before, "lost" if it could not be read since, and nothing
    if it was never read. `every` is above 0.
    """
    writer = _table_writer(recording, out, names, delimiter)
    columns = {name: number for number, name in enumerate(names)}
    row = [_before(recording, name, begin, mark) for name in names]
    count = 0

    def fill(until: float) -> None:
        """Write the rows whose time is before this one."""
        nonlocal count
        while (at := begin + count * every) < until:
            civil = recording.civil(at).isoformat(timespec="milliseconds")
            writer.writerow([civil, number_cell(f"{at:.6f}", mark), *row])
            count += 1

    for at, name, value, quality, _ in _merge(recording, names, begin, end):
        fill(at - 0.5 / SECOND)
        row[columns[name]] = _cell(value, mark) if quality == GOOD else "lost"
    fill(end + 0.5 / SECOND)
    return count


def _before(recording: Recording, name: str, at: float, mark: DecimalMark) -> str:
    """The cell of the last sample before a time."""
    found = recording.before(name, at)
    if not len(found):
        return ""
    if int(found.qualities[0]) != GOOD:
        return "lost"
    texts = recording.texts(name, found)
    return _cell(float(recording.values(name, found)[0]) if texts is None else texts[0], mark)


def _table_writer(recording: Recording, out: SupportsWrite[str], names: Sequence[str], delimiter: str) -> Writer:
    """Writes rows of a table whose heading is written."""
    writer = csv.writer(out, delimiter=delimiter, lineterminator="\n")
    project = recording.project
    headings = [f"{name} [{unit}]" if (unit := project.signal_named[name].unit) else name for name in names]
    writer.writerow(["time", "seconds", *map(quoted, headings)])
    return writer


def write_events(
    recording: Recording,
    out: SupportsWrite[str],
    begin: float,
    end: float,
    *,
    delimiter: str = ",",
    mark: DecimalMark = ".",
) -> int:
    """Write what happened from `begin` to `end`, a row each; gives how many."""
    writer = csv.writer(out, delimiter=delimiter, lineterminator="\n")
    writer.writerow(["time", "seconds", "kind", "subject", "text"])
    events = recording.events(begin, end)
    for event in events:
        civil = recording.civil(event.at).isoformat(timespec="milliseconds")
        writer.writerow(
            [civil, number_cell(f"{event.at:.6f}", mark), str(event.kind), quoted(event.subject), quoted(event.text)]
        )
    return len(events)


_Row = tuple[float, str, float | str, int, list[int]]


def _merge(recording: Recording, names: Sequence[str], begin: float, end: float) -> Iterator[_Row]:
    """All samples in the order of their times, then of the names: time, signal, value, quality by number, registers."""
    first: float | None = begin
    while first is not None:
        last = min(first + CHUNK_S, end)
        final = last >= end
        streams = [_rows(recording, name, place, first, last, final) for place, name in enumerate(names)]
        for (at, _), row in heapq.merge(*streams, key=lambda pair: pair[0]):
            yield (at / SECOND, *row)
        first = None if final else _next(recording, names, last)


def _next(recording: Recording, names: Sequence[str], at: float) -> float | None:
    """The time of the first sample at `at` or behind it; None if there is none. Passes over gaps of any length."""
    behind = (recording.after(name, at - 1 / SECOND) for name in names)
    return min((found for found in behind if found is not None), default=None)


def _rows(
    recording: Recording, name: str, place: int, begin: float, end: float, final: bool
) -> Iterator[tuple[tuple[int, int], tuple[str, float | str, int, list[int]]]]:
    found = recording.samples(name, begin, end)
    if not final:  # the last moment belongs to the next chunk
        found = found.part(found.times < round(end * SECOND))
    texts = recording.texts(name, found)
    values = recording.values(name, found) if texts is None else None
    for index in range(len(found)):
        value: float | str = float(values[index]) if values is not None else texts[index] if texts is not None else ""
        row = (name, value, int(found.qualities[index]), [int(word) for word in found.words[index]])
        yield (int(found.times[index]), place), row


def number_cell(number: str, mark: DecimalMark) -> str:
    """A number with a point as a spreadsheet of another language reads it: 10.3 is a date to one that writes 10,3."""
    return number if mark == "." else number.replace(".", mark)


def _cell(value: float | str, mark: DecimalMark) -> str:
    if isinstance(value, str):
        return quoted(value)
    return "" if np.isnan(value) else number_cell(f"{value:.12g}", mark)
