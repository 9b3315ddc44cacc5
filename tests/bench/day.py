"""A day of operation, 20 signals ten times a second, through curves and a recording, with what the memory does.

A plain script, since it measures this computer: `python -m tests.bench.day`. The day passes as fast as it can.
"""

from __future__ import annotations

import argparse
import gc
import tempfile
import time
from fractions import Fraction
from pathlib import Path

from app.events.event_detector import EventDetector
from app.line.samples import Sample
from app.project.model import Project
from app.project_file.files import parse
from app.recording.clock import CivilClock
from app.recording.history import SampleHistory
from app.recording.reader import Recording
from app.recording.writer import Writer
from app.signals.reading import Quality, Reading

SIGNALS, EVERY_S = 20, 0.1


def project() -> Project:
    """20 signals of one follower, each with a bit that is watched."""
    signals = "".join(
        f'[[signal]]\nname = "s{n}"\nfollower = "f"\nregister = {n}\nevery_ms = 100\n'
        f'[[signal]]\nname = "b{n}"\nbit = {{ of = "s{n}", number = 12 }}\n'
        for n in range(SIGNALS)
    )
    return parse(
        'format = 2\n[panel]\nstart = "s"\n[[screen]]\nname = "s"\n[[line]]\nname = "l"\nkind = "tcp"\nhost = "h"\n'
        f'[[follower]]\nname = "f"\nline = "l"\n{signals}'
    )


def resident_mb() -> float:
    """Memory of this process, MB; 0 where the system does not tell."""
    try:
        pages = int(Path("/proc/self/statm").read_text().split()[1])
    except OSError:
        return 0.0
    return pages * 4096 / 1e6


def main() -> None:
    """Pass the day and print what it took."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--hours", type=int, default=24)
    args = parser.parse_args()
    made = project()
    now = [0.0]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "day.fanrec"
        clock = CivilClock(lambda: now[0], lambda: 1.7e9 + now[0])
        writer = Writer(path, made, clock=clock)
        history = SampleHistory(made, clock)
        watch = EventDetector(made, clock=lambda: now[0])
        names = [f"s{n}" for n in range(SIGNALS)]
        began, events = time.perf_counter(), 0
        for hour in range(args.hours):
            for second in range(3600):
                samples = []
                for tenth in range(10):
                    at = hour * 3600 + second + tenth * EVERY_S
                    for number, name in enumerate(names):
                        word = (second * 7 + tenth + number * 311) % 8192
                        reading = Reading(word, Fraction(word), Quality.GOOD, "", at)
                        samples.append(Sample(name, at, (word,), reading))
                now[0] = hour * 3600 + second + 1
                history.add(samples)
                watch.samples(samples)
                for sample in samples:
                    writer.add(sample.signal, sample.at, Quality.GOOD, sample.words)
                for event in watch.take():
                    writer.event(event)
                    events += 1
                writer.commit()
            gc.collect()
            print(f"hour {hour + 1}: {resident_mb():.0f} MB, {writer.size / 1e6:.1f} MB on the disk", flush=True)
        writer.close()
        took = time.perf_counter() - began
        with Recording.open(path) as recording:
            count = sum(recording.count(name) for name in names)
        print(
            f"{count:,} samples and {events:,} events in {took:.0f} s, {path.stat().st_size / count:.2f} bytes a sample"
        )


if __name__ == "__main__":
    main()
