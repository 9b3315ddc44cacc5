"""A recording written and read back: samples, losses, events, times, trouble; and read by its documented tables."""

from __future__ import annotations

import json
import sqlite3
import struct
import zlib
from datetime import datetime
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from app.events.events import Event, EventKind
from app.project_file.files import dump, load, parse
from app.recording.clock import CivilClock
from app.recording.reader import Recording, RecordingUnreadable
from app.recording.tables import QUALITIES, TABLES
from app.recording.writer import BLOCK, CannotRecord, DiskFull, Writer
from app.signals.reading import Quality
from tests.former_formats import FORMAT_1, FORMAT_2, FORMER

PROJECT = parse("""\
format = 2
title = "Recorded"
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
scale = { raw = [0, 10000], value = [0, 50] }
[[signal]]
name = "hours"
follower = "f"
register = 2
encoding = "uint32"
[[signal]]
name = "coil"
follower = "f"
table = "coil"
register = 1
[[signal]]
name = "running"
bit = { of = "speed", number = 0 }
[[signal]]
name = "preset"
held = 5
""")


class Clocks:
    """Time as a test wants it: seconds since some moment, and the civil time then."""

    def __init__(self) -> None:
        self.now = 1000.0
        self.ahead = 1_700_000_000.0
        self.clock = CivilClock(self.monotonic, self.civil)

    def monotonic(self) -> float:
        return self.now

    def civil(self) -> float:
        return self.now + self.ahead


@pytest.fixture
def clocks() -> Clocks:
    return Clocks()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "run.fanrec"


def writer(path: Path, clocks: Clocks, *, compress: bool = True) -> Writer:
    return Writer(path, PROJECT, compress=compress, clock=clocks.clock)


def fill(writer: Writer, clocks: Clocks, count: int, commit_every: int = 100) -> None:
    for number in range(count):
        clocks.now += 0.1
        writer.add("speed", clocks.now, Quality.GOOD, (number % 10_000,))
        if number % commit_every == commit_every - 1:
            writer.commit()
    writer.commit()


@pytest.mark.parametrize("compress", [True, False])
@pytest.mark.parametrize("count", [0, 1, 99, BLOCK - 1, BLOCK, 3 * BLOCK + 7])
def test_every_sample_comes_back_once_and_in_order(path: Path, clocks: Clocks, count: int, compress: bool) -> None:
    written = writer(path, clocks, compress=compress)
    fill(written, clocks, count)
    with Recording.open(path) as while_written:
        found = while_written.samples("speed", 0, 1e6)
        assert found.words[:, 0].tolist() == [number % 10_000 for number in range(count)]
    written.close()
    with Recording.open(path) as recording:
        assert recording.count("speed") == count
        found = recording.samples("speed", 0, 1e6)
        assert found.words[:, 0].tolist() == [number % 10_000 for number in range(count)]
        assert found.times.tolist() == [round((number + 1) * 0.1 * 1e6) for number in range(count)]
        assert np.allclose(recording.values("speed", found), [number % 10_000 / 200 for number in range(count)])
        assert recording.damage == []
        assert recording.ended is not None


def test_parts_of_it_are_read_with_both_ends(path: Path, clocks: Clocks) -> None:
    written = writer(path, clocks)
    fill(written, clocks, 2 * BLOCK + 50)
    with Recording.open(path) as recording:
        found = recording.samples("speed", 102.3, 103.0)
        assert (found.times / 100_000).tolist() == [1023, 1024, 1025, 1026, 1027, 1028, 1029, 1030]
        assert recording.before("speed", 205.25).times.tolist() == [205_200_000]
        assert recording.before("speed", 50.05).times.tolist() == [50_000_000]
        assert len(recording.before("speed", 0.05)) == 0
        assert recording.span() == (0.1, 209.8)


def test_wide_signals_coils_and_bits(path: Path, clocks: Clocks) -> None:
    written = writer(path, clocks)
    written.add("hours", clocks.now, Quality.GOOD, (1, 2))
    written.add("coil", clocks.now, Quality.GOOD, (1,))
    written.add("speed", clocks.now, Quality.GOOD, (3,))
    written.close()
    with Recording.open(path) as recording:
        for signal, value in (("hours", 65538.0), ("coil", 1.0), ("running", 1.0), ("speed", 0.015)):
            assert recording.values(signal, recording.samples(signal, 0, 1)).tolist() == [value]
        with pytest.raises(KeyError):
            recording.samples("preset", 0, 1)


def test_registers_at_a_time_as_on_the_wire(path: Path, clocks: Clocks) -> None:
    written = writer(path, clocks)
    written.add("hours", clocks.now, Quality.GOOD, (1, 2))
    written.add("speed", clocks.now + 1, Quality.GOOD, (3,))
    written.add("speed", clocks.now + 2, Quality.STALE, ())
    written.close()
    with Recording.open(path) as recording:
        assert recording.registers("f", 0.5) == {("holding", 2): 1, ("holding", 3): 2}
        assert recording.registers("f", 1.5) == {("holding", 1): 3, ("holding", 2): 1, ("holding", 3): 2}
        assert ("holding", 1) not in recording.registers("f", 2.5), "it was not read any more"
        assert recording.registers("another", 1.5) == {}


def test_a_loss_is_a_sample_without_a_value(path: Path, clocks: Clocks) -> None:
    written = writer(path, clocks)
    written.add("speed", clocks.now, Quality.GOOD, (100,))
    written.add("speed", clocks.now + 1, Quality.STALE, ())
    written.commit()
    for loose in (True, False):
        with Recording.open(path) as recording:
            found = recording.samples("speed", 0, 2)
            assert [QUALITIES[number] for number in found.qualities] == [Quality.GOOD, Quality.STALE]
            assert np.isnan(recording.values("speed", found)).tolist() == [False, True]
        if loose:
            written.close()  # puts it into a block


def test_events_and_held_values(path: Path, clocks: Clocks) -> None:
    written = writer(path, clocks)
    written.event(Event(clocks.now + 2, EventKind.ENTERED, "preset", "5 became 7", {"old": "5", "new": "7"}))
    written.event(Event(clocks.now + 1, EventKind.RISE, "running", "running"))
    written.keep_held("preset", clocks.now + 2, Fraction(19, 4))
    written.keep_held("preset", clocks.now + 4, Fraction(8))
    written.close()
    with Recording.open(path) as recording:
        assert [(event.at, event.kind, event.subject) for event in recording.events(0, 10)] == [
            (1.0, EventKind.RISE, "running"),
            (2.0, EventKind.ENTERED, "preset"),
        ]
        assert recording.events(1.5, 2.5)[0].data == {"old": "5", "new": "7"}
        assert recording.held_values(1.0) == {}
        assert recording.held_values(3.0) == {"preset": Fraction(19, 4)}
        assert recording.held_values(4.0) == {"preset": Fraction(8)}


def test_the_project_is_in_it_as_it_was(path: Path, clocks: Clocks) -> None:
    writer(path, clocks).close()
    with Recording.open(path) as recording:
        assert recording.project == PROJECT
        assert recording.project_text == dump(PROJECT)


def test_a_clock_that_is_set_back_changes_civil_times_and_no_order(path: Path, clocks: Clocks) -> None:
    written = writer(path, clocks)
    start = datetime.fromtimestamp(clocks.civil()).astimezone()
    fill(written, clocks, 100)
    clocks.ahead -= 3600
    fill(written, clocks, 100)
    written.close()
    with Recording.open(path) as recording:
        times = recording.samples("speed", 0, 100).times
        assert (np.diff(times) > 0).all()
        assert recording.civil(0.0) == start
        assert (recording.civil(19.9) - start).total_seconds() == pytest.approx(19.9, abs=0.01)
        assert (recording.civil(20.5) - start).total_seconds() == pytest.approx(20.5 - 3600, abs=0.01)


def test_an_outline_has_every_peak_and_keeps_gaps(path: Path, clocks: Clocks) -> None:
    written = writer(path, clocks)
    rng = np.random.default_rng(7)
    known: list[tuple[float, float]] = []
    for part in range(2):
        for _ in range(400 * BLOCK // 2):
            clocks.now += 0.01
            value = int(rng.integers(0, 10_000))
            written.add("speed", clocks.now, Quality.GOOD, (value,))
            known.append((clocks.now - 1000.0, value / 200))
        written.commit()
        if part == 0:
            clocks.now += 600.0
    written.close()
    times, seen = np.array(known).T
    with Recording.open(path) as recording:
        begin, end = recording.span()
        columns = 100
        envelope = recording.envelope("speed", begin, end, columns)
        slack = (end - begin) / columns  # a block may reach into the column beside it
        for column in range(columns):
            left, right = envelope.edges[column], envelope.edges[column + 1]
            inside = seen[(times >= left) & (times < right)]
            if len(inside):
                assert envelope.low[column] <= inside.min() + 1e-9
                assert envelope.high[column] >= inside.max() - 1e-9
            near = seen[(times >= left - slack) & (times < right + slack)]
            if not len(near):
                assert np.isnan(envelope.low[column])
        assert np.isnan(envelope.low).sum() > 5, "ten minutes without a reading are a gap"
        close = recording.envelope("speed", 10.0, 20.0, 1000)
        assert np.nanmax(close.high) == seen[(times >= 10.0) & (times <= 20.0)].max()


# A file that others can read


@pytest.mark.parametrize("name", FORMER)
def test_a_recording_of_a_project_in_an_earlier_format_is_read(path: Path, clocks: Clocks, name: str) -> None:
    """Written with the present tables, which are as they were; then the project and an event as they stood in it."""
    project = load(FORMAT_2 / f"{name}.toml")
    written = Writer(path, project, clock=clocks.clock)
    written.event(Event(clocks.now, EventKind.SCREEN_CHANGED, "run", "the panel shows 'run'"))
    written.close()
    text = (FORMAT_1 / f"{name}.toml").read_text("utf-8")
    database = sqlite3.connect(path)
    database.execute("UPDATE meta SET value = ? WHERE key = 'project'", (text,))
    database.execute("UPDATE event SET kind = 'turned'")
    database.commit()
    database.close()
    with Recording.open(path) as recording:
        assert recording.damage == []
        assert recording.project == project
        assert recording.project_text == text, "as it was recorded"
        assert [event.kind for event in recording.events(0, 1e6)] == [EventKind.SCREEN_CHANGED]


def test_the_documented_tables_are_enough_to_read_it(path: Path, clocks: Clocks) -> None:
    """Nothing of the program is used here but the file: sqlite3, struct, zlib and what `tables.py` says."""
    written = writer(path, clocks)
    fill(written, clocks, BLOCK + 30)
    written.add("hours", clocks.now, Quality.REFUSED, ())
    written.event(Event(clocks.now, EventKind.NOTE, "", "oil changed", {"by": "hand"}))
    written.close()
    database = sqlite3.connect(path)
    meta = dict(database.execute("SELECT key, value FROM meta"))
    assert meta["format"] == "1"
    assert meta["project"].startswith("format = 2")
    assert datetime.fromisoformat(meta["began"]) < datetime.fromisoformat(meta["ended"])
    raw = []
    for first, count, packed, data, width in database.execute(
        "SELECT first, count, packed, data, words FROM block JOIN signal ON signal.id = block.signal "
        "WHERE name = 'speed' ORDER BY first"
    ):
        plain = zlib.decompress(data) if packed else data
        t = first
        for number in range(count):
            t += struct.unpack_from("<I", plain, 4 * number)[0]
            quality = plain[4 * count + number]
            (word,) = struct.unpack_from("<H", plain, 5 * count + 2 * width * number)
            raw.append((t, quality, word))
    assert raw == [(round((number + 1) * 0.1 * 1e6), 0, number) for number in range(BLOCK + 30)]
    assert database.execute("SELECT quality FROM loose").fetchall() == []
    text, data = database.execute("SELECT text, data FROM event").fetchone()
    assert (text, json.loads(data)) == ("oil changed", {"by": "hand"})
    assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    database.close()
    assert "CREATE TABLE block" in TABLES


# Trouble


def test_a_recording_is_never_written_over(path: Path, clocks: Clocks) -> None:
    first = writer(path, clocks)
    with pytest.raises(CannotRecord, match="already exists"):
        writer(path, clocks)
    first.close()
    with pytest.raises(CannotRecord, match="already exists"):
        writer(path, clocks)


def test_a_folder_that_is_not_there_is_told(tmp_path: Path, clocks: Clocks) -> None:
    with pytest.raises(CannotRecord, match="cannot be written"):
        writer(tmp_path / "nowhere" / "run.fanrec", clocks)


def test_a_full_disk_is_told_and_what_waits_goes_in_once_there_is_room(
    path: Path, clocks: Clocks, databases: list[sqlite3.Connection]
) -> None:
    written = writer(path, clocks, compress=False)
    fill(written, clocks, 10)
    database = databases[-1]
    (pages,) = database.execute("PRAGMA page_count").fetchone()
    database.execute(f"PRAGMA max_page_count = {pages}")  # SQLite says what it says when a disk is full
    for number in range(5 * BLOCK):
        clocks.now += 0.1
        written.add("speed", clocks.now, Quality.GOOD, (number,))
    with pytest.raises(DiskFull, match="full"):
        written.commit()
    assert written.waiting == 5 * BLOCK
    database.execute("PRAGMA max_page_count = 1000000")
    written.commit()
    written.close()
    with Recording.open(path) as recording:
        assert recording.count("speed") == 10 + 5 * BLOCK


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "not a Fanlight recording"),
        (b"format = 2\n", "not a recording, or its beginning is damaged"),
        (b"SQLite format 3\x00" + bytes(84), "not a recording"),
    ],
)
def test_another_file_is_told(path: Path, content: bytes, words: str) -> None:
    path.write_bytes(content)
    with pytest.raises(RecordingUnreadable, match=words):
        Recording.open(path)


def test_another_database_another_layout_and_no_file_are_told(path: Path, clocks: Clocks, tmp_path: Path) -> None:
    other = tmp_path / "other.db"
    sqlite3.connect(other).execute("CREATE TABLE a (b)").connection.close()
    with pytest.raises(RecordingUnreadable, match="not a Fanlight recording"):
        Recording.open(other)
    with pytest.raises(RecordingUnreadable, match="there is no file"):
        Recording.open(tmp_path / "none")
    writer(path, clocks).close()
    for version, words in ((2, "newer Fanlight"), (0, "file version \\(0\\)")):
        with sqlite3.connect(path) as database:
            database.execute(f"PRAGMA user_version = {version}")
        database.close()
        with pytest.raises(RecordingUnreadable, match=words):
            Recording.open(path)


def test_of_a_recording_cut_in_half_what_is_left_can_be_read(path: Path, clocks: Clocks) -> None:
    written = writer(path, clocks, compress=False)
    for number in range(60 * BLOCK):
        clocks.now += 0.1
        written.add("speed", clocks.now, Quality.GOOD, (number % 10_000,))
        if number % 512 == 0:
            written.commit()
    written.close()
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    with Recording.open(path) as recording:
        found = recording.samples("speed", 0, 1e6)
        assert recording.damage
        assert (np.diff(found.times) > 0).all()
        assert recording.project == PROJECT
