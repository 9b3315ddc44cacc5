"""Writing one recording: samples and events into an SQLite file that a crash leaves whole."""

from __future__ import annotations

import datetime
import json
import sqlite3
from collections.abc import Iterable
from contextlib import suppress
from fractions import Fraction
from importlib.metadata import version
from pathlib import Path
from typing import Final

import numpy as np

from app.errors import FanlightError
from app.events.events import Event
from app.language import mark, translate
from app.project.binding import bindings
from app.project.model import BitSignal, Project
from app.project_file.files import dump
from app.project_file.replace_file import write_first
from app.recording.clock import CivilClock, microseconds
from app.recording.gathering import Gathering
from app.recording.samples import Samples, pack, values
from app.recording.tables import APPLICATION_ID, FORMAT, QUALITY_NUMBER, TABLES
from app.signals.reading import Quality

BLOCK: Final = 1024
"""Samples in a block: enough to compress well, few enough to be taken out quickly."""


TOGETHER_EVERY_S: Final = 5.0
"""How often what was committed is put into the one file: a copy of that file alone lacks at most this and a commit."""

EARLY_S: Final = 10.0
"""For so long after the beginning it is put there at every commit."""


class CannotRecord(FanlightError):
    """The recording cannot be written; the message says why and what to do."""


class DiskFull(CannotRecord):
    """There is no room for more."""


class Writer:
    """Writes a new recording. Nothing is in the file before `commit`, and all of it together then.

    Belongs to one thread. The file is in SQLite's write-ahead mode: others may read it meanwhile, and what was
    committed survives the end of the program, however sudden, in the file and the one beside it whose name ends in
    -wal. Every TOGETHER_EVERY_S the one file has all of it. (A power failure may take the last commits with it, but
    leaves the file whole.)
    """

    def __init__(
        self,
        path: Path,
        project: Project,
        *,
        compress: bool = True,
        clock: CivilClock | None = None,
        begin: float | None = None,
        screen: str = "",
    ) -> None:
        """Begin the recording `path`, which must not exist yet.

        `clock` is the one whose monotonic seconds the times of the samples are; `begin` the moment of it at which the
        recording begins, now if left out; `screen` where the operator is on the panel then. Raises CannotRecord.
        """
        self.path = path
        self.project = project
        self.samples = 0
        """How many were added."""
        self._compress = compress
        self._clock = clock or CivilClock()
        # Before the file is made, which may take a while: what comes meanwhile belongs to the recording.
        self._zero = self._clock_told = self._clock.now() if begin is None else begin
        self._zero_us = microseconds(self._zero)
        self._pending: list[tuple[str, tuple[object, ...]]] = []
        self._signals = {
            name: _Signal(number, binding.count)
            for number, (name, binding) in enumerate(
                (
                    (name, binding)
                    for name, binding in bindings(project).items()
                    if not isinstance(binding.signal, BitSignal)
                ),
                start=1,
            )
        }
        began = civil_text(self._clock.at(self._zero))
        about = [
            ("format", str(FORMAT)),
            ("began", began),
            ("program", f"fanlight {version('fanlight')}"),
            ("project", dump(project)),
        ]
        self._insert("meta", *about, *([("screen", screen)] if screen else []))
        self._insert("clock", (0, began))
        self._insert("signal", *((each.number, name, each.width) for name, each in self._signals.items()))
        self._database = _create(path, self._pending)
        self._pending = []
        self._gathered_at = self._clock.now()

    @property
    def seconds(self) -> float:
        """How long it has been going on."""
        return self._clock.now() - self._zero

    @property
    def waiting(self) -> int:
        """How many samples were added and are not in the file yet."""
        return sum(len(signal.added) for signal in self._signals.values())

    @property
    def size(self) -> int:
        """Bytes on the disk, the write-ahead file included."""
        return sum(_size(self.path.with_name(self.path.name + ending)) for ending in ("", "-wal"))

    def add(self, signal: str, at: float, quality: Quality, words: Iterable[int]) -> None:
        """Keep a sample of a register signal: `at` in seconds of the clock, the registers as read, none if nothing was.

        Signals that the project does not have on a line are passed over.
        """
        known = self._signals.get(signal)
        if known is None:
            return
        known.added.add(self._time(at), QUALITY_NUMBER[quality], words)
        self.samples += 1

    def add_block(self, signal: str, samples: Samples) -> None:
        """Keep many samples of a register signal at once; their times are microseconds of the clock."""
        known = self._signals[signal].added
        known.times.frombytes((samples.times - self._zero_us).tobytes())
        known.qualities.frombytes(samples.qualities.tobytes())
        known.words.frombytes(samples.words.tobytes())
        self.samples += len(samples)

    def event(self, event: Event) -> None:
        """Keep an event."""
        data = json.dumps(dict(event.data), ensure_ascii=False)
        self._insert("event", (None, self._time(event.at), str(event.kind), event.subject, event.text, data))

    def curves(self, signals: Iterable[str]) -> None:
        """Keep which signals somebody looks at: their curves are shown first when it is played."""
        self._insert("meta", ("curves", json.dumps(list(signals), ensure_ascii=False)))

    def keep_held(self, signal: str, at: float, value: Fraction) -> None:
        """Keep what a held value became."""
        self._insert("held", (None, self._time(at), signal, str(value)))

    def commit(self) -> None:
        """Write all that was added. Raises DiskFull or CannotRecord; then it stays, and the next commit tries again."""
        self._watch_clock()
        for signal in self._signals.values():
            signal.fresh, signal.gathered = 0, False
        with _in_words(self.path), self._database as database:
            _insert_all(database, self._pending)
            for name, signal in self._signals.items():
                self._write(name, signal)
        self._pending.clear()
        for signal in self._signals.values():
            signal.note_commit()
        now = self._clock.now()
        if now - self._zero < EARLY_S or now - self._gathered_at >= TOGETHER_EVERY_S:
            self._gathered_at = now
            with _in_words(self.path):
                self._database.execute("PRAGMA wal_checkpoint(PASSIVE)")

    def forget(self) -> int:
        """Give up the samples that were not committed, for want of room; gives how many."""
        given_up = sum(len(signal.added) for signal in self._signals.values())
        for signal in self._signals.values():
            signal.empty()
        return given_up

    def close(self, end: float | None = None) -> None:
        """Write all that was added, put what is loose into blocks, and let the file go.

        `end` is the moment at which the recording ends, now if left out. Raises as `commit`; the file is let go all
        the same.
        """
        try:
            self._insert("meta", ("ended", civil_text(self._clock.at(self._clock.now() if end is None else end))))
            self.commit()
            with _in_words(self.path), self._database:
                for name, signal in self._signals.items():
                    self._gather(name, signal)
            with _in_words(self.path):
                self._database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
            with suppress(sqlite3.OperationalError):  # somebody is reading it: then it stays as it is
                self._database.execute("PRAGMA journal_mode = DELETE")
        finally:
            self._database.close()

    def abandon(self) -> None:
        """Let the file go as it is, without what was not committed."""
        self._database.close()

    # within a transaction

    def _write(self, name: str, signal: _Signal) -> None:
        count = len(signal.added)
        if not count:
            return
        new = Samples.of(signal.added)
        if count >= BLOCK:
            if signal.loose:
                self._gather(name, signal, new)
            else:
                self._write_blocks(name, signal, new)
            return
        rows = zip(new.times.tolist(), new.qualities.tolist(), new.words.astype("<u2"), strict=True)
        nothing = QUALITY_NUMBER[Quality.GOOD]
        self._database.executemany(
            "INSERT INTO loose (signal, t, quality, words) VALUES (?, ?, ?, ?)",
            (
                (signal.number, t, quality, row.tobytes() if quality == nothing or row.any() else b"")
                for t, quality, row in rows
            ),
        )
        signal.fresh = count
        if signal.loose + count >= BLOCK:
            self._gather(name, signal)

    def _gather(self, name: str, signal: _Signal, new: Samples | None = None) -> None:
        """Move what is loose into blocks, with `new` behind it."""
        rows = self._database.execute(
            "SELECT t, quality, words FROM loose WHERE signal = ? ORDER BY id", (signal.number,)
        ).fetchall()
        parts = [loose_samples(rows, signal.width)] if rows else []
        if new is not None:
            parts.append(new)
        self._write_blocks(name, signal, Samples.joined(parts, signal.width))
        self._database.execute("DELETE FROM loose WHERE signal = ?", (signal.number,))
        signal.gathered = True

    def _write_blocks(self, name: str, signal: _Signal, samples: Samples) -> None:
        binding = bindings(self.project)[name]
        for run in samples.runs():
            for begin in range(0, len(run), BLOCK):
                part = run.part(slice(begin, begin + BLOCK))
                found = values(binding, part)
                found = found[np.isfinite(found)]
                low, high = (float(found.min()), float(found.max())) if len(found) else (None, None)
                self._database.execute(
                    "INSERT INTO block (signal, first, last, count, low, high, packed, data) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                    (
                        signal.number,
                        int(part.times[0]),
                        int(part.times[-1]),
                        len(part),
                        low,
                        high,
                        int(self._compress),
                        pack(part, compress=self._compress),
                    ),
                )

    # what is kept until then

    def _insert(self, table: str, *rows: tuple[object, ...]) -> None:
        self._pending += [(table, row) for row in rows]

    def _time(self, at: float) -> int:
        return microseconds(at) - self._zero_us

    def _watch_clock(self) -> None:
        """Note it if the civil clock was set since the last commit."""
        self._clock.look()
        for at, civil in self._clock.settings(self._clock_told):
            self._insert("clock", (self._time(at), civil_text(civil)))
            self._clock_told = at


class _Signal:
    """A signal of the recording: what was added since the last commit, and how much of it is loose in the file."""

    def __init__(self, number: int, width: int) -> None:
        self.number = number
        self.width = width
        self.added = Gathering(width)
        self.loose = 0
        self.fresh = 0
        self.gathered = False

    def note_commit(self) -> None:
        """The commit succeeded."""
        self.loose = 0 if self.gathered else self.loose + self.fresh
        self.fresh, self.gathered = 0, False
        self.empty()

    def empty(self) -> None:
        """Give up what was added."""
        if self.added.times:
            self.added.empty()


def loose_samples(rows: list[tuple[int, int, bytes]], width: int) -> Samples:
    """Rows of the table `loose` (time, quality, registers) as samples of signals of `width` registers."""
    blank = bytes(2 * width)
    return Samples(
        np.array([t for t, _, _ in rows], np.int64),
        np.array([quality for _, quality, _ in rows], np.uint8),
        np.frombuffer(b"".join(words or blank for _, _, words in rows), "<u2").astype(np.uint16).reshape(-1, width),
    )


def civil_text(civil: datetime.datetime) -> str:
    """A civil time as a recording holds it: ISO 8601 with its zone, to the microsecond."""
    return civil.isoformat(timespec="microseconds")


def _create(path: Path, first: list[tuple[str, tuple[object, ...]]]) -> sqlite3.Connection:
    """Make the file, whole from its first byte on: whoever is ended meanwhile leaves a recording, or none."""
    with _in_words(path):
        blank = sqlite3.connect(":memory:")
        try:
            blank.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            blank.execute(f"PRAGMA user_version = {FORMAT}")
            blank.executescript(TABLES)
            with blank:
                _insert_all(blank, first)
            content = bytearray(blank.serialize())
            content[18:20] = b"\2\2"  # in write-ahead mode from the start (fileformat2.html, section 1.3)
        finally:
            blank.close()
        try:
            write_first(path, bytes(content))
        except FileExistsError:
            raise CannotRecord(
                mark("record", "{path} already exists; recordings are not overwritten: choose another name"), path=path
            ) from None
        database = sqlite3.connect(path, isolation_level="IMMEDIATE", check_same_thread=False)
        try:
            database.execute("PRAGMA journal_mode = WAL")
            database.execute("PRAGMA synchronous = NORMAL")
            database.execute("PRAGMA busy_timeout = 2000")
        except BaseException:
            database.close()
            raise
    return database


def _insert_all(database: sqlite3.Connection, rows: list[tuple[str, tuple[object, ...]]]) -> None:
    for table, row in rows:
        database.execute(f"REPLACE INTO {table} VALUES ({', '.join('?' * len(row))})", row)


class _in_words:  # noqa: N801  # reads as a word at its place: with _in_words(path)
    """Says in our own words what SQLite or the system could not do with the file."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def __enter__(self) -> None:
        return None

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, _trace: object) -> None:
        if isinstance(error, sqlite3.Error):
            if getattr(error, "sqlite_errorcode", None) == sqlite3.SQLITE_FULL:  # Python's own errors have none
                raise DiskFull(
                    mark("record", "no space for {path}: the disk is full; free some space"), path=self._path
                ) from error
            raise CannotRecord(
                mark("record", "{path} cannot be written: {reason}"), path=self._path, reason=error
            ) from error
        if isinstance(error, OSError):
            reason = error.strerror or str(error)
            if isinstance(error, FileNotFoundError) and not self._path.parent.is_dir():
                reason = translate("record", "there is no folder {folder}").format(folder=self._path.parent)
            raise CannotRecord(
                mark("record", "{path} cannot be written: {reason}"), path=self._path, reason=reason
            ) from error


def _size(path: Path) -> int:
    try:
        return path.stat().st_size
    except OSError:
        return 0
