"""Recordings that were made to do harm: each is refused or read within bounds of time and memory,
in a process of its own.
"""

from __future__ import annotations

import itertools
import sqlite3
import struct
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from app.recording.reader import Recording, RecordingUnreadable, TooMany
from app.recording.samples import Samples, pack
from app.recording.tables import APPLICATION_ID, FORMAT
from tests.app.recording.test_damaged import path

__all__ = ["path"]

READER = """
import io, resource, sys
from pathlib import Path
from app.recording.export import write_samples
from app.recording.reader import Recording, TooMany
from app.recording.replay import Replay
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
with Recording.open(Path(sys.argv[1])) as recording:
    begin, end = recording.span()
    for name in recording.signals:
        recording.envelope(name, begin, end + 1, 50)
        try:
            recording.samples(name, begin, end)
        except TooMany:
            pass
    replay = Replay(recording)
    for at in (begin, end / 2, end):
        replay.seek(at)
        replay.panel.rows()
        dict(replay.panel.readings())
    try:
        write_samples(recording, io.StringIO(), recording.signals, begin, begin + 0.1)
    except TooMany:
        pass
print("done", len(recording.damage))
print("grown by", (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) // 1000, "MB")
"""


def change(path: Path, *statements: str) -> None:
    database = sqlite3.connect(path)
    for statement in statements:
        database.execute(statement)
    database.commit()
    database.close()


ENDLESS = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n)"


@pytest.mark.parametrize(
    ("statements", "what"),
    [
        (
            [
                "DROP TABLE loose",
                f"CREATE VIEW loose AS {ENDLESS} "
                "SELECT i AS id, 1 AS signal, i AS t, 0 AS quality, x'0000' AS words FROM n",
            ],
            "view 'loose'",
        ),
        (
            ["DROP TABLE meta", f"CREATE VIEW meta AS {ENDLESS} SELECT 'a' || i AS key, 'b' AS value FROM n"],
            "view 'meta'",
        ),
        ([f"CREATE VIEW more AS {ENDLESS} SELECT i FROM n"], "view 'more'"),
        (["CREATE TRIGGER t AFTER INSERT ON event BEGIN DELETE FROM event; END"], "trigger 't'"),
        (["CREATE VIRTUAL TABLE v USING fts5(x)"], "table 'v'"),
        (["CREATE INDEX other ON event (hex(data))"], "index 'other'"),
        (
            [
                "DROP TABLE held",
                "CREATE TABLE held (id INTEGER PRIMARY KEY, t INTEGER, signal TEXT, "
                "value TEXT GENERATED ALWAYS AS (hex(zeroblob(40000000))))",
                "INSERT INTO held (t, signal) VALUES (1, 'preset')",
            ],
            "table 'held'",
        ),
        (["CREATE TABLE extra (a)"], "table 'extra'"),
    ],
)
def test_what_no_recording_holds_is_refused_at_once(path: Path, statements: list[str], what: str) -> None:
    change(path, *statements)
    began = time.monotonic()
    with pytest.raises(RecordingUnreadable) as refused:
        Recording.open(path)
    assert time.monotonic() - began < 5
    words = str(refused.value)
    assert str(path) in words
    assert what in words
    assert "ask the sender" in words


def test_a_file_that_calls_itself_a_recording_and_has_only_views_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "a.fanrec"
    change(
        path,
        f"PRAGMA application_id = {APPLICATION_ID}",
        f"PRAGMA user_version = {FORMAT}",
        *(
            f"CREATE VIEW {name} AS {ENDLESS} SELECT i AS t, i AS id, i AS key, i AS value FROM n"
            for name in ("meta", "clock", "signal", "block", "loose", "held", "event")
        ),
    )
    with pytest.raises(RecordingUnreadable, match="view 'meta'"):
        Recording.open(path)


def heap(database: sqlite3.Connection, count: int, samples: int, first: Callable[[int], int], step: int) -> None:
    """Blocks of zeros, which take next to nothing."""
    made = Samples(np.arange(samples) * step, np.zeros(samples, np.uint8), np.zeros((samples, 1), np.uint16))
    data = pack(made, compress=True)
    rows = [
        (1, first(number), first(number) + step * (samples - 1), samples, 0.0, 0.0, 1, data) for number in range(count)
    ]
    database.executemany(
        "INSERT INTO block (signal, first, last, count, low, high, packed, data) VALUES (?, ?, ?, ?, ?, ?, ?, ?)", rows
    )
    database.commit()


@pytest.mark.parametrize(
    ("count", "samples", "first", "step"),
    [
        (255, 1_000_000, lambda _: 0, 10),  # as it was found: 2.1 MB that ate 3.8 GB
        (10_000, 4096, lambda _: 0, 1000),  # many at one moment
        (10_000, 4096, lambda number: number, 1000),  # hardly one behind the other
        (10_000, 4096, lambda number: number * 4096, 1),  # closer than anything can be read
        (10_000, 4096, lambda number: number * 4096 * 100, 100),
    ],
)
def test_blocks_that_would_fill_the_memory_do_not(
    path: Path, count: int, samples: int, first: Callable[[int], int], step: int
) -> None:
    pytest.importorskip("resource")
    database = sqlite3.connect(path)
    database.execute("DELETE FROM block")
    heap(database, count, samples, first, step)
    database.close()
    assert path.stat().st_size < 16_000_000
    done = subprocess.run(
        [sys.executable, "-c", READER, str(path)], capture_output=True, text=True, timeout=110, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("done ")
    assert int(done.stdout.split("grown by ")[1].split()[0]) < 300, done.stdout


def test_a_tree_of_pages_that_never_ends_is_given_up(path: Path) -> None:
    """Fifteen pages, each of which leads hundreds of times to the next one: no view, and rows without end.

    The format of pages: https://www.sqlite.org/fileformat2.html, section 1.6.
    """
    change(path, "PRAGMA journal_mode = DELETE", "DELETE FROM block")
    database = sqlite3.connect(path)
    (root,) = database.execute("SELECT rootpage FROM sqlite_master WHERE name = 'held'").fetchone()
    database.close()
    content = bytearray(path.read_bytes())
    size = struct.unpack(">H", content[16:18])[0]
    leaf = content[(root - 1) * size : root * size]
    first = len(content) // size + 1
    pages = [root, *range(first, first + 15)]
    for page, child in itertools.pairwise(pages):
        cells = size // 14
        made = bytearray(size)
        made[:12] = struct.pack(">BHHHBI", 5, 0, cells, size - 5 * cells, 0, child)
        for cell in range(cells):
            place = size - 5 * (cell + 1)
            made[12 + 2 * cell : 14 + 2 * cell] = struct.pack(">H", place)
            made[place : place + 5] = struct.pack(">IB", child, cell % 128)
        content[(page - 1) * size : page * size] = made
    content += leaf
    content[28:32] = struct.pack(">I", len(content) // size)
    path.write_bytes(content)
    began = time.monotonic()
    with Recording.open(path) as recording:
        recording.held_changes()
        assert "took more steps than a file of this size can need" in "; ".join(recording.damage)
    assert time.monotonic() - began < 10


def test_nothing_is_written_to_what_is_read(path: Path, databases: list[sqlite3.Connection]) -> None:
    before = path.read_bytes()
    with Recording.open(path) as recording:
        recording.span()
        with pytest.raises(sqlite3.OperationalError):
            databases[-1].execute("DELETE FROM main.event")
    assert path.read_bytes() == before
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_a_span_of_more_samples_than_are_taken_at_once_is_told(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.recording.reader.MOST_AT_ONCE", 1000)
    with Recording.open(path) as recording, pytest.raises(TooMany, match="choose a shorter one"):
        recording.samples("speed", *recording.span())
