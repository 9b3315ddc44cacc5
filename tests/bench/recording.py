"""How fast a recording is written, how large it is, and how quickly one of 100 million samples is drawn and sought in.

A plain script, since it measures this computer and needs a gigabyte of room: `python -m tests.bench.recording`.
"""

from __future__ import annotations

import argparse
import os
import tempfile
import time
from fractions import Fraction
from pathlib import Path
from statistics import median

import numpy as np

from app.curves.source import LiveSource, Recorded, plottable
from app.line.samples import Sample
from app.project.binding import bindings
from app.project.model import Project
from app.project_file.files import load
from app.recording.clock import CivilClock
from app.recording.history import SampleHistory
from app.recording.reader import Recording
from app.recording.replay import Replay
from app.recording.samples import Samples
from app.recording.writer import BLOCK, Writer
from app.signals.reading import Quality, Reading
from projects import demo_path

RATE, SIZE_S, DRAW_S, SEEK_MS = 200_000, 10, 2.0, 100.0
COLUMNS = 1000


def lone_words(project: Project) -> list[str]:
    """Ten signals of one register each."""
    return [name for name, binding in bindings(project).items() if binding.bit is None and binding.count == 1][:10]


def rate_and_size(folder: Path, compress: bool) -> tuple[float, float]:
    """Samples a second through the writer, commits included, and bytes a sample: ten signals, counts that wander."""
    project = load(demo_path("drying-hall"))
    clock = [0.0]
    path = folder / f"rate-{compress}.fanrec"
    writer = Writer(path, project, compress=compress, clock=CivilClock(lambda: clock[0]))
    names = lone_words(project)
    rng = np.random.default_rng(1)
    each = RATE // len(names)
    walks = [np.clip(5000 + np.cumsum(rng.integers(-3, 4, each * SIZE_S)), 0, 10_000).tolist() for _ in names]
    began = time.perf_counter()
    for second in range(SIZE_S):
        for half in (0.0, 0.5):
            for number in range(each // 2):
                at = second + half + number / each
                place = int((second + half) * each) + number
                for name, walk in zip(names, walks, strict=True):
                    writer.add(name, at, Quality.GOOD, (walk[place],))
            clock[0] = second + half + 0.5
            writer.commit()
    took = time.perf_counter() - began
    count = writer.samples
    writer.close()
    return count / took, path.stat().st_size / count


def long_recording(folder: Path, millions: int) -> Path:
    """A recording of so many million samples of ten signals, written block by block."""
    project = load(demo_path("drying-hall"))
    path = folder / "long.fanrec"
    writer = Writer(path, project)
    signals = [(name, signal) for name, signal in writer._signals.items() if signal.width == 1][:10]
    rng = np.random.default_rng(2)
    blocks = millions * 1_000_000 // len(signals) // BLOCK
    with writer._database:
        for name, signal in signals:
            for block in range(blocks):
                times = (np.arange(BLOCK, dtype=np.int64) + block * BLOCK) * 100_000
                words = (5000 + rng.integers(-40, 41, BLOCK)).astype(np.uint16).reshape(-1, 1)
                writer._write_blocks(name, signal, Samples(times, np.zeros(BLOCK, np.uint8), words))
    writer.close()
    return path


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--millions", type=int, default=100, help="samples of the long recording")
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for compress in (True, False):
            rate, size = rate_and_size(folder, compress)
            print(
                f"written {'packed' if compress else 'plain'}: {rate:,.0f} samples a second, {size:.2f} bytes a sample"
            )
        path = long_recording(folder, args.millions)
        os.sync()
        began = time.perf_counter()
        with Recording.open(path) as recording:
            begin, end = recording.span()
            names = [name for name in recording.signals if recording.count(name)]
            for signal in names:
                recording.envelope(signal, begin, end, COLUMNS)
            total = sum(recording.count(name) for name in names)
            print(f"opened and drawn whole, {total:,} samples: {time.perf_counter() - began:.2f} s (mark {DRAW_S:g})")
            replay = Replay(recording)
            taken = []
            for place in np.random.default_rng(3).uniform(begin, end, 40):
                began = time.perf_counter()
                replay.seek(float(place))
                replay.panel.rows()
                for signal in names:
                    replay.reading(signal)
                taken.append(1000 * (time.perf_counter() - began))
            print(f"sought: {median(taken):.1f} ms median, {max(taken):.1f} ms at most (mark {SEEK_MS:g})")
            source = Recorded(recording)
            began = time.perf_counter()
            source.envelope(names[0], (begin + end) / 2, (begin + end) / 2 + 3600, COLUMNS)
            print(f"an hour in the middle: {1000 * (time.perf_counter() - began):.1f} ms")
    in_memory()


def in_memory() -> None:
    """The last minutes: what a sample costs to keep, and the outlines of six curves when the room is full."""
    project = load(demo_path("drying-hall"))
    clock = [0.0]
    history = SampleHistory(project, CivilClock(lambda: clock[0]))
    known = bindings(project)
    names = [name for name in plottable(project) if known[name].count == 1 and known[name].bit is None][:6]
    reading = Reading(5000, Fraction(5000), Quality.GOOD, "", 0.0)
    count = 0
    began = time.perf_counter()
    while history.since == 0.0:
        history.add([Sample(name, clock[0], (5000 + count % 97,), reading) for name in names])
        clock[0] += 0.1
        count += len(names)
    took = time.perf_counter() - began
    source = LiveSource(history)
    began = time.perf_counter()
    source.envelope(names[0], 0.0, clock[0], COLUMNS)
    print(f"the first outline of one of them: {1000 * (time.perf_counter() - began):.1f} ms")
    taken = []
    for _ in range(20):
        began = time.perf_counter()
        for name in names:
            source.envelope(name, 0.0, clock[0], COLUMNS)
        taken.append(1000 * (time.perf_counter() - began))
    print(
        f"kept in memory: {count:,} samples in {history.size / 1e6:.0f} MB, {1e6 * took / count:.2f} us each with its "
        f"making; outlines of six curves of all of them: {median(taken):.1f} ms"
    )


if __name__ == "__main__":
    main()
