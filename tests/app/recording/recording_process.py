"""Records as fast as it is told, and says on standard output what it has handed to the recorder: to be killed."""

from __future__ import annotations

import sys
import time
from fractions import Fraction
from pathlib import Path

from app.line.samples import SampleBus
from app.recording.recorder import Recorder
from app.signals.reading import Quality, Reading
from tests.app.recording.test_reader import PROJECT


def main() -> None:
    path, rate = Path(sys.argv[1]), float(sys.argv[2])
    bus = SampleBus()
    recorder = Recorder(path, PROJECT, bus)
    began, number = time.monotonic(), 0
    while recorder.running:
        while number < (time.monotonic() - began) * rate:
            count = number % 60_000
            reading = Reading(count, Fraction(count), Quality.GOOD, "", time.monotonic())
            bus.put("speed", time.monotonic(), (count,), reading)
            number += 1
        sys.stdout.write(f"{number} {time.monotonic() - began:.3f}\n")
        sys.stdout.flush()
        time.sleep(0.01)


if __name__ == "__main__":
    main()
