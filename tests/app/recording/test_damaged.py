"""Recordings with rows that cannot be: each costs itself, is told, and everything else is read."""

from __future__ import annotations

import io
import sqlite3
import zlib
from fractions import Fraction
from pathlib import Path

import pytest

from app.events.events import Event, EventKind
from app.project_file.files import parse
from app.recording.clock import CivilClock
from app.recording.export import write_events, write_samples, write_table
from app.recording.reader import Recording, RecordingUnreadable
from app.recording.replay import Replay
from app.recording.writer import BLOCK, Writer
from app.signals.reading import Quality

PROJECT = parse("""\
format = 2
title = "Damaged"
[panel]
start = "s"
[[screen]]
name = "s"
[[line]]
name = "l"
kind = "tcp"
host = "h"
[[follower]]
name = "f"
line = "l"
[[signal]]
name = "speed"
follower = "f"
register = 1
[[signal]]
name = "load"
follower = "f"
register = 2
[[signal]]
name = "preset"
held = 5
""")
COUNT = 2 * BLOCK + 9


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A recording of two blocks of each signal and some loose samples, two events and a held value."""
    file = tmp_path / "run.fanrec"
    now = 0.0
    writer = Writer(file, PROJECT, clock=CivilClock(lambda: now, lambda: 1_700_000_000.0 + now))
    writer.event(Event(0.0, EventKind.NOTE, "", "began"))
    writer.event(Event(1.0, EventKind.ENTERED, "preset", "5 to 6", {"old": "5", "new": "6"}))
    writer.keep_held("preset", 1.0, Fraction(6))
    for number in range(COUNT):
        now = 0.1 * number
        writer.add("speed", now, Quality.GOOD, (number,))
        writer.add("load", now, Quality.GOOD, (7,))
        if number % BLOCK == BLOCK - 1:
            writer.commit()
    writer.commit()
    writer.abandon()  # as if it had died: loose samples stay loose
    return file


def read_all(path: Path) -> tuple[list[int], list[str]]:
    """Do all that is done with a recording; the samples of 'speed' that were found, and the damage."""
    with Recording.open(path) as recording:
        begin, end = recording.span()
        for name in recording.signals:
            recording.count(name)
            recording.before(name, 1.0)
            recording.after(name, 1.0)
            recording.envelope(name, begin, end + 1, 50)
        for write in (write_samples, write_table):
            write(recording, io.StringIO(), recording.signals, begin, end)
        write_events(recording, io.StringIO(), begin, end)
        replay = Replay(recording)
        for at in (begin, end / 2, end):
            replay.seek(at)
            replay.panel.rows()
            dict(replay.panel.readings())
        recording.civil(1.0)
        found = recording.samples("speed", begin, end) if "speed" in recording.signals else None
        return ([] if found is None else found.words[:, 0].tolist()), recording.damage


def test_a_sound_recording_has_no_damage(path: Path) -> None:
    assert read_all(path) == (list(range(COUNT)), [])


ALL = list(range(COUNT))
SECOND_BLOCK = "(SELECT id FROM block WHERE signal = 1 ORDER BY first DESC LIMIT 1)"


@pytest.mark.parametrize(
    ("change", "left", "told"),
    [
        ("UPDATE clock SET civil = 'yesterday'", ALL, "'clock'"),
        ("UPDATE clock SET civil = '2026-13-01T00:00:00+00:00'", ALL, "'clock'"),
        ("UPDATE clock SET civil = x'fffe'", ALL, "'clock'"),
        ("UPDATE clock SET t = 9223372036854775807", ALL, "'clock'"),
        ("UPDATE event SET data = '{' WHERE id = 2", ALL, "'event'"),
        ("UPDATE event SET data = '[1]' WHERE id = 2", ALL, "'event'"),
        ("UPDATE event SET t = 9223372036854775807 WHERE id = 2", ALL, "'event'"),
        ("UPDATE event SET t = 'soon' WHERE id = 2", ALL, "'event'"),
        ("UPDATE held SET value = '1/0'", ALL, "'held'"),
        ("UPDATE held SET value = '1e999999999'", ALL, "'held'"),
        ("UPDATE held SET signal = 'speed'", ALL, "'held'"),
        ("UPDATE signal SET words = 'two' WHERE name = 'load'", ALL, "'signal'"),
        ("UPDATE signal SET words = -9223372036854775808 WHERE name = 'load'", ALL, "'signal'"),
        ("UPDATE signal SET name = 'torque' WHERE name = 'load'", ALL, "'signal'"),
        ("UPDATE signal SET name = 'preset' WHERE name = 'speed'", [], "'signal'"),
        (f"UPDATE block SET data = 5 WHERE id = {SECOND_BLOCK}", ALL[:BLOCK] + ALL[2 * BLOCK :], "is empty"),
        (f"UPDATE block SET data = x'00' WHERE id = {SECOND_BLOCK}", ALL[:BLOCK] + ALL[2 * BLOCK :], "cannot be read"),
        (f"UPDATE block SET count = -1 WHERE id = {SECOND_BLOCK}", ALL[:BLOCK] + ALL[2 * BLOCK :], "'block'"),
        (f"UPDATE block SET first = 'x' WHERE id = {SECOND_BLOCK}", ALL[:BLOCK] + ALL[2 * BLOCK :], "'block'"),
        (f"UPDATE block SET low = 'x' WHERE id = {SECOND_BLOCK}", ALL[:BLOCK] + ALL[2 * BLOCK :], "'block'"),
        ("UPDATE loose SET words = x'00' WHERE signal = 1", ALL[: 2 * BLOCK], "'loose'"),
        ("UPDATE loose SET quality = 9 WHERE signal = 1", ALL[: 2 * BLOCK], "'loose'"),
        ("UPDATE loose SET t = 1e300 WHERE signal = 1", ALL[: 2 * BLOCK], "'loose'"),
        ("DROP TABLE held", ALL, "no such table"),
        ("DROP TABLE event", ALL, "no such table"),
    ],
)
def test_what_is_damaged_is_told_and_the_rest_is_read(path: Path, change: str, left: list[int], told: str) -> None:
    with sqlite3.connect(path) as database:
        database.execute(change)
    database.close()
    found, damage = read_all(path)
    assert found == left
    assert told in "; ".join(damage)


def test_a_recording_without_its_project_is_none(path: Path) -> None:
    with sqlite3.connect(path) as database:
        database.execute("UPDATE meta SET value = x'00' WHERE key = 'project'")
    database.close()
    with pytest.raises(RecordingUnreadable, match="project"):
        Recording.open(path)


def test_a_block_that_would_fill_the_memory_is_given_up(path: Path) -> None:
    bomb = zlib.compress(bytes(200_000_000), 9)
    with sqlite3.connect(path) as database:
        database.execute(f"UPDATE block SET data = ? WHERE id = {SECOND_BLOCK}", (bomb,))
    database.close()
    found, damage = read_all(path)
    assert found == ALL[:BLOCK] + ALL[2 * BLOCK :]
    assert "bytes instead of" in "; ".join(damage)


def test_a_quality_that_there_is_not_harms_its_block_only(path: Path) -> None:
    with sqlite3.connect(path) as database:
        ((data,),) = database.execute(f"SELECT data FROM block WHERE id = {SECOND_BLOCK}")
        plain = bytearray(zlib.decompress(data))
        plain[4 * BLOCK] = 99
        database.execute(f"UPDATE block SET data = ? WHERE id = {SECOND_BLOCK}", (zlib.compress(plain),))
    database.close()
    found, damage = read_all(path)
    assert found == ALL[:BLOCK] + ALL[2 * BLOCK :]
    assert "quality" in "; ".join(damage)


def test_an_export_passes_over_a_gap_of_years(path: Path) -> None:
    """Sooner than anybody could go through it in steps."""
    with sqlite3.connect(path) as database:
        database.execute("UPDATE loose SET t = t + 300000000000000 WHERE signal = 1")
    database.close()
    with Recording.open(path) as recording:
        begin, end = recording.span()
        assert end > 299_000_000
        out = io.StringIO()
        assert write_samples(recording, out, ["speed"], begin, end) == COUNT
        assert write_table(recording, out, ["speed", "load"], begin, end) == COUNT + 9


def test_a_name_that_no_file_can_have_is_told(tmp_path: Path) -> None:
    for name in ("\0", "a" * 5000):
        with pytest.raises(RecordingUnreadable, match="there is no file"):
            Recording.open(tmp_path / name)


@pytest.mark.parametrize("curves", ["[", "5", '["load", "speed", 7, [], "nowhere", "preset"]'])
def test_curves_that_there_are_not_are_passed_over(path: Path, curves: str) -> None:
    with sqlite3.connect(path) as database:
        database.execute("INSERT INTO meta VALUES ('curves', ?)", (curves,))
    database.close()
    with Recording.open(path) as recording:
        assert recording.curves == (("load", "speed") if "load" in curves else ())
