"""A recorder at work: nothing is lost, files follow one another, a full disk and a killed program leave it whole."""

from __future__ import annotations

import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from app.events.events import Event, EventKind
from app.line.samples import SampleBus
from app.recording.limits import Limits
from app.recording.reader import Recording
from app.recording.recorder import Recorder
from app.recording.writer import CannotRecord
from app.signals.reading import Quality, Reading
from tests.app.recording.test_reader import PROJECT
from tests.waiting import wait_for

ROOT = Path(__file__).parents[3]


pytestmark = pytest.mark.usefixtures("no_thread_is_left")


def put(bus: SampleBus, count: int, at: float) -> None:
    bus.put("speed", at, (count % 60_000,), Reading(count, Fraction(count), Quality.GOOD, "", at))


def recorded(path: Path) -> list[int]:
    with Recording.open(path) as recording:
        return [int(word) for word in recording.samples("speed", -1e9, 1e9).words[:, 0]]


def test_everything_that_came_is_in_the_file(tmp_path: Path) -> None:
    bus = SampleBus()
    recorder = Recorder(tmp_path / "a.fanrec", PROJECT, bus)
    for number in range(5000):
        put(bus, number, time.monotonic() + number * 1e-6)
    recorder.event(Event(time.monotonic(), EventKind.NOTE, "", "a remark"))
    recorder.keep_held("preset", time.monotonic(), Fraction(7))
    progress = recorder.stop()
    assert recorder.stop() == progress
    assert (progress.samples, progress.lost, progress.trouble) == (5000, 0, "")
    assert recorded(tmp_path / "a.fanrec") == list(range(5000))
    with Recording.open(tmp_path / "a.fanrec") as recording:
        kinds = [event.kind for event in recording.events(-1e9, 1e9)]
        assert kinds == [EventKind.RECORDING, EventKind.NOTE, EventKind.RECORDING]
        assert recording.held_values(1e9) == {"preset": 7}
    put(bus, 1, 0.0)
    assert not bus.wanted


def test_two_recorders_cannot_have_one_file(tmp_path: Path) -> None:
    bus = SampleBus()
    recorder = Recorder(tmp_path / "a.fanrec", PROJECT, bus)
    with pytest.raises(CannotRecord, match="already exists"):
        Recorder(tmp_path / "a.fanrec", PROJECT, bus)
    recorder.stop()


@pytest.mark.parametrize("limits", [Limits(size=60_000), Limits(seconds=0.2)])
def test_a_recording_goes_on_in_another_file_and_loses_nothing(tmp_path: Path, limits: Limits) -> None:
    bus = SampleBus()
    recorder = Recorder(tmp_path / "a.fanrec", PROJECT, bus, limits=limits, compress=False)
    number = 0

    def files() -> list[Path]:
        nonlocal number
        for _ in range(3000):
            put(bus, number, time.monotonic())
            number += 1
        return sorted(tmp_path.glob("*.fanrec"))

    wait_for(lambda: len(files()) >= 3)
    recorder.stop()
    names = [tmp_path / "a.fanrec", tmp_path / "a-2.fanrec"]
    names += [path for path in (tmp_path / f"a-{k}.fanrec" for k in range(3, 30)) if path.exists()]
    found = [count for path in names for count in recorded(path)]
    assert found == [count % 60_000 for count in range(number)]


def test_of_many_files_the_oldest_go(tmp_path: Path) -> None:
    bus = SampleBus()
    recorder = Recorder(tmp_path / "a.fanrec", PROJECT, bus, limits=Limits(seconds=0.05, files=2))
    wait_for(lambda: recorder.progress.path.stem == "a-4")
    recorder.stop()
    assert len(list(tmp_path.glob("*.fanrec"))) == 2
    assert not (tmp_path / "a.fanrec").exists()
    assert recorder.progress.files == int(recorder.progress.path.stem.removeprefix("a-"))


def test_an_old_file_that_cannot_be_deleted_ends_nothing_and_goes_later(tmp_path: Path) -> None:
    first, bus = tmp_path / "a.fanrec", SampleBus()
    recorder = Recorder(first, PROJECT, bus)
    recorder.limits = Limits(seconds=0.05, files=2)
    wait_for(lambda: recorder.progress.path.stem == "a-2")
    first.unlink()
    first.mkdir()  # deleting it as a file fails for anybody, on every system
    wait_for(lambda: recorder.progress.path.stem == "a-4")
    assert recorder.running
    assert recorder.progress.trouble == ""
    first.rmdir()
    first.write_text("let go of again")
    wait_for(lambda: not first.exists())
    last = recorder.stop().path
    assert len(list(tmp_path.iterdir())) == 2
    with Recording.open(last) as recording:
        assert recording.ended is not None


def test_an_old_file_that_cannot_be_deleted_is_noted(tmp_path: Path) -> None:
    first = tmp_path / "a.fanrec"
    recorder = Recorder(first, PROJECT, SampleBus())
    recorder.limits = Limits(seconds=0.05, files=2)
    wait_for(lambda: recorder.progress.path.stem == "a-2")
    first.unlink()
    first.mkdir()
    wait_for(lambda: recorder.progress.path.stem == "a-3")
    recorder.limits = Limits()
    last = recorder.stop().path
    with Recording.open(last) as recording:
        assert any(event.text.startswith("a.fanrec could not be deleted: ") for event in recording.events(-1e9, 1e9))


def test_what_is_held_and_where_it_goes_on_stand_in_every_file(tmp_path: Path) -> None:
    bus = SampleBus()
    recorder = Recorder(tmp_path / "a.fanrec", PROJECT, bus)
    recorder.keep_held("preset", time.monotonic(), Fraction(7))
    put(bus, 1, time.monotonic())
    wait_for(lambda: recorder.progress.samples == 1)
    recorder.limits = Limits(seconds=0.001)
    wait_for(lambda: recorder.progress.path.stem == "a-2")
    recorder.limits = Limits()
    recorder.stop()
    with Recording.open(tmp_path / "a.fanrec") as first, Recording.open(tmp_path / "a-2.fanrec") as second:
        assert first.held_values(1e9) == second.held_values(1e9) == {"preset": 7}
        assert first.events(-1e9, 1e9)[-1].text == "recording continues in a-2.fanrec"
        texts = [event.text for event in second.events(-1e9, 1e9)]
    assert texts == ["recording continued from a.fanrec", "recording ended"]


def test_while_the_disk_is_full_it_waits_and_goes_on_once_there_is_room(
    tmp_path: Path, databases: list[sqlite3.Connection]
) -> None:
    """On a real file system of a quarter of a megabyte where this may be mounted; else as SQLite says it."""
    small = tmp_path / "small"
    small.mkdir()
    mounted = shutil.which("mount") is not None and (
        subprocess.run(
            ["mount", "-t", "tmpfs", "-o", "size=256k", "tmpfs", str(small)], capture_output=True, check=False
        ).returncode
        == 0
    )
    try:
        bus = SampleBus()
        recorder = Recorder(small / "a.fanrec", PROJECT, bus, compress=False)
        database = databases[-1]
        if not mounted:
            database.execute("PRAGMA max_page_count = 20")
        number = 0

        def fills() -> bool:
            nonlocal number
            for _ in range(5000):
                put(bus, number, time.monotonic())
                number += 1
            return "full" in recorder.progress.trouble

        wait_for(fills)
        if mounted:
            subprocess.run(["mount", "-o", "remount,size=64m", str(small)], check=True)
        else:
            database.execute("PRAGMA max_page_count = 1000000")
        wait_for(lambda: recorder.progress.trouble == "")
        assert recorder.stop().lost == 0
        assert recorded(small / "a.fanrec") == [count % 60_000 for count in range(number)]
    finally:
        if mounted:
            subprocess.run(["umount", str(small)], check=True)


def test_what_there_is_no_room_for_is_counted_and_noted(
    tmp_path: Path, databases: list[sqlite3.Connection], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.recording.recorder.KEPT_WHILE_FULL", 1000)
    bus = SampleBus()
    recorder = Recorder(tmp_path / "a.fanrec", PROJECT, bus, compress=False)
    database = databases[-1]
    database.execute("PRAGMA max_page_count = 12")
    number = 0

    def lost() -> int:
        nonlocal number
        for _ in range(3000):
            put(bus, number, time.monotonic())
            number += 1
        return recorder.progress.lost

    wait_for(lambda: lost() > 0)
    database.execute("PRAGMA max_page_count = 1000000")
    progress = recorder.stop()
    assert progress.samples - progress.lost == len(recorded(tmp_path / "a.fanrec"))
    with Recording.open(tmp_path / "a.fanrec") as recording:
        assert any("were lost" in event.text for event in recording.events(-1e9, 1e9))


def killed_once(number: int) -> tuple[int, float, float]:
    """Samples in the file; for how many seconds samples had been handed over that are not in it, and in it alone."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "run.fanrec"
        command = [sys.executable, "-m", "tests.app.recording.recording_process", str(path), "2000"]
        process = subprocess.Popen(command, stdout=subprocess.PIPE, cwd=ROOT, text=True)
        assert process.stdout is not None
        handed: list[tuple[int, float]] = []
        until = random.Random(number).uniform(0.3, 2.5)
        for line in process.stdout:
            count, at = line.split()
            handed.append((int(count), float(at)))
            if handed[-1][1] >= until:
                break
        process.send_signal(signal.SIGKILL if hasattr(signal, "SIGKILL") else signal.SIGTERM)
        process.wait()
        process.stdout.close()
        alone = Path(folder) / "stick" / "run.fanrec"
        alone.parent.mkdir()
        shutil.copy(path, alone)
        lost = []
        for file in (alone, path):
            with Recording.open(file) as recording:
                found = recording.samples("speed", -1e9, 1e9)
                assert recording.ended is None
                assert ("run.fanrec-wal" in recording.remark) is (file is path)
                assert "not closed properly" in recording.remark or file is path
                assert recording.damage == []
                assert found.words[:, 0].tolist() == [count % 60_000 for count in range(len(found))]
                assert (np.diff(found.times) >= 0).all()
            # When was the first sample handed over that is not in the file?
            first_lost = next((at for count, at in handed if count > len(found)), handed[-1][1])
            lost.append(handed[-1][1] - first_lost)
        database = sqlite3.connect(path)
        assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        database.close()
        return len(found), lost[1], lost[0]


def test_killed_fifty_times_it_loses_a_second_at_most() -> None:
    with ThreadPoolExecutor(4) as several:
        outcomes = list(several.map(killed_once, range(50)))
    assert all(lost_s <= 1.0 for _, lost_s, _ in outcomes), outcomes
    assert all(lost_s <= 1.5 for _, _, lost_s in outcomes), "the one file alone, in its first seconds"
    assert sum(count > 0 for count, _, _ in outcomes) > 35
