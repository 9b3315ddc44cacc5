"""Reading a recording back: its samples and events between two times, and outlines of long spans for drawing."""

from __future__ import annotations

import bisect
import datetime
import json
import os
import sqlite3
from fractions import Fraction
from functools import cached_property
from operator import itemgetter
from pathlib import Path
from typing import Final, Self

import numpy as np
from numpy.typing import NDArray

from app.errors import FanlightError
from app.events.events import Event, EventKind
from app.language import mark, translate
from app.project.binding import Binding, bindings
from app.project.model import HeldSignal, Project
from app.project_file.files import ProjectFileError, parse
from app.recording.envelope import Envelope, spread
from app.recording.integrity import LONGEST, believe_sound_rows, civil_of, fraction_of, particulars_of
from app.recording.opening import Budget, Foreign, check_schema, connect, has_log
from app.recording.samples import Samples, unpack, values
from app.recording.tables import APPLICATION_ID, FORMAT, GOOD, SECOND
from app.recording.writer import loose_samples
from app.signals.numbering import Table

DECODED_BLOCKS: Final = 256
"""An outline of more blocks than this is drawn from what the blocks say of themselves."""

MOST_AT_ONCE: Final = 5_000_000
"""Samples of one signal: nearly a week at ten a second."""

_BLOCK: Final = "SELECT id, first, count, packed, data FROM block WHERE signal = ?"


_SOME_TIME: Final = datetime.datetime.fromtimestamp(0, datetime.UTC)
"""Stands for the civil time where a damaged recording has none."""


class RecordingUnreadable(FanlightError):
    """The file is no recording, or one that this program cannot read; the message says which and what to do."""


class TooMany(FanlightError, ValueError):
    """More samples than are taken at once; the message is for the person who chose the span."""


class Recording:
    """An opened recording. Times are seconds since it began. Belongs to one thread."""

    def __init__(self, path: Path, database: sqlite3.Connection, budget: Budget) -> None:
        self.path = path
        self._database = database
        self._budget = budget
        self.damage: list[str] = []
        """What could not be read, in words; the rest can be."""
        self._opened = False
        budget.begin()
        harmed = believe_sound_rows(database)
        database.execute("PRAGMA query_only = ON")
        meta = dict(self._rows("SELECT key, value FROM meta"))
        self.began: str = meta.get("began", "")
        """Civil time of the beginning, ISO 8601 with its zone."""
        self.ended: str | None = meta.get("ended")
        """Civil time of the end; None if it is still being written, or the program that wrote it died."""
        self.screen: str = meta.get("screen", "")
        """Where the operator was on the panel at the beginning; empty if that is not known."""
        self._curves = meta.get("curves", "[]")
        self.project_text: str = meta.get("project", "")
        try:
            self.project: Project = parse(self.project_text)
        except ProjectFileError as why:
            raise RecordingUnreadable(
                translate("record", "the project in {path} cannot be read: {reason}").format(path=path, reason=why)
            ) from None
        self._bindings = bindings(self.project)
        listed = self._rows("SELECT id, name, words FROM signal")
        self._signals = {name: (number, width) for number, name, width in listed if self._fits(name, width)}
        self._opened = True
        if len(self._signals) < len(listed):
            harmed.append("signal")
        for table in harmed:
            self._note_table(table)

    @classmethod
    def open(cls, path: Path) -> Self:
        """Open a recording for reading; one that is being written may be read too. Raises RecordingUnreadable."""
        if not os.path.isfile(path):  # noqa: PTH113  # Path.is_file raises for names that no file can have
            raise RecordingUnreadable(translate("record", "there is no file {path}").format(path=path))
        try:
            database, budget = connect(path)
        except sqlite3.Error as why:
            raise RecordingUnreadable(
                translate("record", "{path} cannot be opened: {reason}").format(path=path, reason=why)
            ) from None
        try:
            _check_version(path, database)
            check_schema(database)
            return cls(path, database, budget)
        except Foreign as why:
            database.close()
            raise RecordingUnreadable(
                translate(
                    "record",
                    "{path} was not opened: it contains something that Fanlight never writes ({what}) and may be "
                    "malicious; ask the sender for the original file",
                ).format(path=path, what=why)
            ) from None
        except sqlite3.Error as why:
            database.close()
            raise RecordingUnreadable(
                translate("record", "{path} is not a recording, or its beginning is damaged: {reason}").format(
                    path=path, reason=why
                )
            ) from None
        except BaseException:
            database.close()
            raise

    def close(self) -> None:
        """Let the file go."""
        self._database.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def remark(self) -> str:
        """What somebody should know who has this file and perhaps not all of the recording, in words; or empty."""
        name = self.path.name
        if has_log(self.path):
            return translate(
                "record",
                "{name} is still being written, or the program that wrote it crashed: the newest seconds are in "
                "{name}-wal in the same folder. Always copy both files.",
            ).format(name=name)
        if self.ended is None:
            return translate(
                "record",
                "{name} was not closed properly, or was copied while being written: up to 10 seconds may be missing "
                "at the end.",
            ).format(name=name)
        return ""

    # What there is

    @property
    def signals(self) -> tuple[str, ...]:
        """The register signals that it has a place for, in the order of the project."""
        return tuple(self._signals)

    @property
    def plottable(self) -> frozenset[str]:
        """The register signals and the bits of them."""
        return frozenset(name for name, binding in self._bindings.items() if binding.base.name in self._signals)

    @property
    def curves(self) -> tuple[str, ...]:
        """The signals whose curves somebody looked at while it was made, as far as they have one."""
        try:
            found = json.loads(self._curves)
        except (ValueError, RecursionError):
            return ()
        known = self.plottable
        named = found if isinstance(found, list) else []
        return tuple(name for name in named if isinstance(name, str) and name in known)

    def span(self) -> tuple[float, float]:
        """The times of the first and of the last sample, in seconds; (0, 0) if there are none."""
        # One by one: of a damaged file one table may be readable and another not.
        ends = [
            *self._rows("SELECT MIN(first), MAX(last) FROM block"),
            *self._rows("SELECT MIN(t), MAX(t) FROM loose"),
            *self._rows("SELECT MIN(t), MAX(t) FROM event"),
        ]
        first = [begin for begin, _ in ends if begin is not None]
        last = [end for _, end in ends if end is not None]
        return (min(first) / SECOND, max(last) / SECOND) if first else (0.0, 0.0)

    def count(self, signal: str) -> int:
        """How many samples of a register signal there are."""
        number, _ = self._place(signal)
        rows = self._rows(
            "SELECT SUM(count) FROM block WHERE signal = ? UNION ALL SELECT COUNT(*) FROM loose WHERE signal = ?",
            (number, number),
        )
        return sum(count or 0 for (count,) in rows)

    def civil(self, at: float) -> datetime.datetime:
        """The civil time, with its zone, at a time of the recording."""
        known = self._clock
        index = max(0, bisect.bisect_right(known, _moment(at), key=itemgetter(0)) - 1)
        t, civil = known[index]
        return civil + datetime.timedelta(microseconds=_moment(at) - t)

    @cached_property
    def _clock(self) -> list[tuple[int, datetime.datetime]]:
        rows = self._rows("SELECT t, civil FROM clock ORDER BY t")
        known = [(t, civil) for t, text in rows if (civil := civil_of(text)) is not None]
        if len(known) < len(rows):
            self._note_table("clock")
        return known or [(0, civil_of(self.began) or _SOME_TIME)]

    # Samples

    def samples(self, signal: str, begin: float, end: float) -> Samples:
        """The samples of a signal, or of the word of a bit, from `begin` to `end`, both included.

        Raises KeyError if the recording has no such signal, TooMany if there are more than MOST_AT_ONCE.
        """
        number, width = self._place(signal)
        first, last = _moment(begin), _moment(end)
        blocks = self._rows(
            f"{_BLOCK} AND first <= ? AND last >= ? ORDER BY first",
            (number, last, first),
        )
        if (count := sum(block[2] for block in blocks)) > MOST_AT_ONCE:
            raise TooMany(
                mark("record", "this span has {count} samples of '{signal}', too many at once; choose a shorter one"),
                place=str(self.path),
                count=count,
                signal=signal,
            )
        parts = [part for block in blocks if (part := self._unpack(block, width)) is not None]
        loose = self._rows(
            "SELECT t, quality, words FROM loose WHERE signal = ? AND t BETWEEN ? AND ? ORDER BY id",
            (number, first, last),
        )
        if loose:
            parts.append(self._loose(loose, width))
        found = Samples.joined(parts, width)
        return found.part((found.times >= first) & (found.times <= last))

    def values(self, signal: str, samples: Samples) -> NDArray[np.float64]:
        """The engineering values of samples of a signal; not-a-number where one is not good."""
        return values(self._bindings[signal], samples)

    def texts(self, signal: str, samples: Samples) -> list[str] | None:
        """What samples of a signal that holds characters say; None if it holds a number."""
        binding = self._bindings[signal]
        if binding.single or binding.base.encoding != "string":
            return None
        found = []
        for quality, words in zip(samples.qualities.tolist(), samples.words.tolist(), strict=True):
            found.append(str(binding.decode(words)[1]) if quality == GOOD else "")
        return found

    def before(self, signal: str, at: float) -> Samples:
        """The last sample at `at` or before it, or none."""
        number, width = self._place(signal)
        t = _moment(at)
        loose = self._rows(
            "SELECT t, quality, words FROM loose WHERE signal = ? AND t <= ? ORDER BY id DESC LIMIT 1", (number, t)
        )
        if loose and len(found := self._loose(loose, width)):
            return found
        blocks = self._rows(
            f"{_BLOCK} AND first <= ? ORDER BY first DESC LIMIT 1",
            (number, t),
        )
        part = self._unpack(blocks[0], width) if blocks else None
        if part is None:
            return Samples.none(width)
        place = int(np.searchsorted(part.times, t, side="right"))
        return part.part(slice(place - 1, place))

    def registers(self, follower: str, at: float) -> dict[tuple[Table, int], int]:
        """What registers of a follower held at a time, by table and wire address, as on the wire: of its signals with a
        good sample by then."""
        held: dict[tuple[Table, int], int] = {}
        for name in self._signals:
            binding, last = self._bindings[name], self.before(name, at)
            if binding.follower.name == follower and len(last) and last.qualities[-1] == GOOD:
                for address, word in enumerate(last.words[-1].tolist(), binding.address):
                    held[binding.table, address] = word
        return held

    def after(self, signal: str, at: float) -> float | None:
        """The time of the first sample behind `at`, or None."""
        number, _ = self._place(signal)
        t = _moment(at)
        rows = self._rows(
            "SELECT MIN(t) FROM (SELECT MIN(t) AS t FROM loose WHERE signal = ? AND t > ? "
            "UNION ALL SELECT MIN(first) FROM block WHERE signal = ? AND first > ?)",
            (number, t, number, t),
        )
        inside = self._rows(f"{_BLOCK} AND first <= ? AND last > ? ORDER BY first LIMIT 1", (number, t, t))
        times = [first for (first,) in rows if first is not None]
        part = self._unpack(inside[0], self._place(signal)[1]) if inside else None
        if part is not None:
            times += part.times[int(np.searchsorted(part.times, t, side="right")) :][:1].tolist()
        return min(times) / SECOND if times else None

    def envelope(self, signal: str, begin: float, end: float, columns: int) -> Envelope:
        """The shape of a signal from `begin` to `end` in so many columns. Long spans cost no more than short ones.

        Raises KeyError if the recording has no such signal, ValueError if the span is empty.
        """
        if not end > begin or columns < 1:
            raise ValueError("an outline needs a span and at least one column")
        number, _ = self._place(signal)
        binding = self._bindings[signal]
        edges = np.linspace(begin, end, columns + 1)
        first, last = _moment(begin), _moment(end)
        if binding.bit is None:
            rows = self._rows(
                "SELECT first, last, low, high FROM block WHERE signal = ? AND first <= ? AND last >= ?",
                (number, last, first),
            )
            if len(rows) > DECODED_BLOCKS:
                return self._from_blocks(signal, rows, edges)
        found = self.samples(signal, begin, end)
        seen = self.values(signal, found)
        return spread(edges, found.times / SECOND, found.times / SECOND, seen, seen)

    def _from_blocks(
        self, signal: str, rows: list[tuple[int, int, float, float]], edges: NDArray[np.float64]
    ) -> Envelope:
        table = np.array(rows, np.float64)
        number, width = self._place(signal)
        loose = self._rows("SELECT t, quality, words FROM loose WHERE signal = ? ORDER BY id", (number,))
        begins, ends, low, high = table[:, 0], table[:, 1], table[:, 2], table[:, 3]
        if loose:
            tail = self._loose(loose, width)
            seen = self.values(signal, tail)
            begins, ends = np.concatenate([begins, tail.times]), np.concatenate([ends, tail.times])
            low, high = np.concatenate([low, seen]), np.concatenate([high, seen])
        return spread(edges, begins / SECOND, ends / SECOND, low, high)

    # Events

    def events(self, begin: float, end: float) -> list[Event]:
        """What happened from `begin` to `end`, both included, oldest first; `at` counts from the beginning."""
        rows = self._rows(
            "SELECT t, kind, subject, text, data FROM event WHERE t BETWEEN ? AND ? ORDER BY t, id",
            (_moment(begin), _moment(end)),
        )
        known = {str(kind): kind for kind in EventKind} | {
            "turned": EventKind.SCREEN_CHANGED
        }  # what it was called at first
        found = []
        for t, kind, subject, text, data in rows:
            particulars = particulars_of(data)
            if particulars is None:
                self._note_table("event")
            found.append(Event(t / SECOND, known.get(kind, EventKind.NOTE), subject, text, particulars or {}))
        return found

    def held_values(self, at: float) -> dict[str, Fraction]:
        """What the held values were at `at`; those that had not changed by then are not in it."""
        return {signal: value for when, signal, value in self.held_changes() if when <= at}

    def held_changes(self) -> list[tuple[float, str, Fraction]]:
        """When which held value became what, oldest first."""
        rows = self._rows("SELECT t, signal, value FROM held ORDER BY t, id")
        found = []
        for t, signal, text in rows:
            value = fraction_of(text)
            if value is None or not isinstance(self.project.signal_named.get(signal), HeldSignal):
                self._note_table("held")
            else:
                found.append((t / SECOND, signal, value))
        return found

    # The file

    def _place(self, signal: str) -> tuple[int, int]:
        """The number and the width of the register signal that holds a signal."""
        binding: Binding = self._bindings[signal]
        return self._signals[binding.base.name]

    def _fits(self, name: str, width: int) -> bool:
        """Whether the project has such a register signal, of so many registers."""
        binding = self._bindings.get(name)
        return binding is not None and binding.base.name == name and binding.count == width

    def _loose(self, rows: list[tuple[int, int, bytes]], width: int) -> Samples:
        fitting = [row for row in rows if len(row[2]) in (0, 2 * width)]
        if len(fitting) < len(rows):
            self._note_table("loose")
        return loose_samples(fitting, width)

    def _unpack(self, block: tuple[int, int, int, object, object], width: int) -> Samples | None:
        number, first, count, packed, data = block
        try:
            return unpack(data, first, count, width, packed=bool(packed))
        except ValueError as why:
            self._note(translate("record", "block {number}: {reason}").format(number=number, reason=why))
            return None

    def _rows(self, query: str, arguments: tuple[object, ...] = ()) -> list[tuple]:  # type: ignore[type-arg]
        """The rows of a query; of a damaged file those that can be read."""
        found = []
        self._budget.begin()
        try:
            for row in self._database.execute(query, arguments):
                found.append(row)
        except sqlite3.DatabaseError as why:
            if not self._opened:
                raise  # without its beginning nothing can be made of it
            self._note(
                translate("record", "reading was stopped: it took more steps than a file of this size can need")
                if self._budget.spent
                else str(why)
            )
        return found

    def _note_table(self, table: str) -> None:
        self._note(translate("record", "rows of table '{table}' contain invalid values").format(table=table))

    def _note(self, words: str) -> None:
        if words not in self.damage:
            self.damage.append(words)


def _check_version(path: Path, database: sqlite3.Connection) -> None:
    (application,) = database.execute("PRAGMA application_id").fetchone()
    (version,) = database.execute("PRAGMA user_version").fetchone()
    if application != APPLICATION_ID:
        raise RecordingUnreadable(translate("record", "{path} is not a Fanlight recording").format(path=path))
    if version > FORMAT:
        raise RecordingUnreadable(
            translate(
                "record",
                "{path} was written by a newer Fanlight (file version {version}); use that version or a later one",
            ).format(path=path, version=version)
        )
    if version < FORMAT:
        raise RecordingUnreadable(
            translate("record", "{path} has an unreleased file version ({version})").format(path=path, version=version)
        )


def _moment(at: float) -> int:
    """Microseconds since the beginning, of a time in seconds however far off."""
    return round(min(max(at * SECOND, -LONGEST), LONGEST))
