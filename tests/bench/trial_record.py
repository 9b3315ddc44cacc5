"""A record of 10 000 steps: written, signed, verified, each in seconds, and each for one step in microseconds.

python -m tests.bench.trial_record [--steps 10000]
"""

from __future__ import annotations

import argparse
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from app.signing.keys import make_key
from app.trial.outcome import CaseOutcome
from app.trial_record.record import load_record, save_record
from app.trial_record.verifying import sign_record, verify_record
from tests.app.trial_record.test_record import made

T = TypeVar("T")


def timed(name: str, deed: Callable[[], T], steps: int) -> T:
    """Do it, and tell how long that took."""
    begin = time.perf_counter()
    found = deed()
    took = time.perf_counter() - begin
    print(f"{name:10} {took:6.3f} s  {took / steps * 1e6:6.1f} us a step")
    return found


def main() -> None:
    """Measure it once."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--steps", type=int, default=10_000)
    steps = parser.parse_args().steps
    small = made()
    each = small.cases[1].steps
    cases = tuple(
        CaseOutcome(f"case {number}", tuple(each[at % len(each)] for at in range(100)))
        for number in range(steps // 100)
    )
    record = replace(small, cases=cases)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "large.trial.json"
        key = make_key(Path(folder) / "key")
        content = timed("written", lambda: save_record(record, path), steps)
        timed("signed", lambda: sign_record(path, key), steps)
        timed("verified", lambda: verify_record(path), steps)
        timed("read", lambda: load_record(path), steps)
        print(f"{len(content) / 1e6:.1f} MB")


if __name__ == "__main__":
    main()
