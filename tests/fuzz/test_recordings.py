"""Recordings with any cells in any table, and with any bytes: whatever can be read is, the rest is told in words."""

from __future__ import annotations

import contextlib
import io
import sqlite3
import tempfile
from functools import cache
from pathlib import Path

from hypothesis import HealthCheck, given, settings, strategies as st

from app.events.events import Event, EventKind
from app.project.binding import bindings
from app.project_file.files import load
from app.recording.clock import CivilClock
from app.recording.export import write_events, write_samples, write_table
from app.recording.reader import Recording, RecordingUnreadable
from app.recording.replay import Replay
from app.recording.writer import BLOCK, Writer
from app.signals.reading import Quality
from projects import demo_path

COLUMNS = {
    "meta": ("key", "value"),
    "clock": ("t", "civil"),
    "signal": ("id", "name", "words"),
    "block": ("id", "signal", "first", "last", "count", "low", "high", "packed", "data"),
    "loose": ("id", "signal", "t", "quality", "words"),
    "held": ("id", "t", "signal", "value"),
    "event": ("id", "t", "kind", "subject", "text", "data"),
}
CELLS = st.one_of(
    st.none(),
    st.integers(-(2**63), 2**63 - 1),
    st.integers(-3, 300),
    st.floats(),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=12),
    st.sampled_from(["", "1/0", "[]", '{"a": 1}', "2026-02-30", "9999-12-31T23:59:59+00:00", "nan"]),
    st.binary(max_size=12),
)
PLACES = st.sampled_from([(table, column) for table, columns in COLUMNS.items() for column in columns])
CHANGES = st.lists(st.tuples(PLACES, CELLS, st.booleans()), min_size=1, max_size=3)


@cache
def _recording() -> bytes:
    project = load(demo_path("booster-pump"))
    now = 0.0
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "run.fanrec"
        writer = Writer(path, project, clock=CivilClock(lambda: now, lambda: 1_700_000_000.0 + now))
        widths = {name: binding.count for name, binding in bindings(project).items() if name == binding.base.name}
        for number in range(BLOCK + 20):
            now = number / 10
            for name in list(widths)[:3]:
                writer.add(name, now, Quality.GOOD if number % 7 else Quality.STALE, [number] * widths[name])
            if number % 100 == 0:
                writer.event(Event(now, EventKind.SCREEN_CHANGED, "run", "another screen", {"cause": "key"}))
            if number == BLOCK:
                writer.commit()
        writer.commit()
        writer.abandon()
        return path.read_bytes()


def _use(path: Path) -> None:
    try:
        recording = Recording.open(path)
    except RecordingUnreadable:
        return
    with recording:
        begin, end = recording.span()
        for name in recording.signals:
            recording.count(name)
            recording.before(name, 1.0)
            recording.after(name, 1.0)
            recording.envelope(name, begin, end + 1, 20)
        write_samples(recording, io.StringIO(), recording.signals, begin, end)
        write_table(recording, io.StringIO(), recording.signals, begin, end)
        write_events(recording, io.StringIO(), begin, end)
        replay = Replay(recording)
        replay.seek((begin + end) / 2)
        replay.step(1)
        dict(replay.panel.readings())
        replay.panel.rows()


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(CHANGES)
def test_any_cells(changes: list[tuple[tuple[str, str], object, bool]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "run.fanrec"
        path.write_bytes(_recording())
        database = sqlite3.connect(path)
        for (table, column), value, everywhere in changes:
            one = "" if everywhere else f" WHERE rowid = (SELECT rowid FROM {table} LIMIT 1)"
            with contextlib.suppress(sqlite3.IntegrityError, sqlite3.OperationalError):
                database.execute(f"UPDATE OR REPLACE {table} SET {column} = ?{one}", (value,))
        database.commit()
        database.close()
        _use(path)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.tuples(st.floats(0, 1, exclude_max=True), st.binary(min_size=1, max_size=40)), max_size=8))
def test_any_bytes(splashes: list[tuple[float, bytes]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "run.fanrec"
        content = bytearray(_recording())
        for where, splash in splashes:
            place = int(where * len(content))
            content[place : place + len(splash)] = splash
        path.write_bytes(content[: len(_recording())])
        _use(path)
