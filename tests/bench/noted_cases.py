"""Panels operated by chance, noted, and run again: `python -m tests.bench.noted_cases [HOW MANY] [FIRST SEED]`.

Of each demo so many (200 if left out); tells every case that did not pass, and at last how many did.
"""

from __future__ import annotations

import sys

from app.trial.outcome import Result
from tests.builders import demo
from tests.noting_hand import DRIVES, operated, run_again


def main(many: int = 200, first: int = 0) -> int:
    """Exit status: 0 if every case passed."""
    passed = steps = 0
    for name, drive in DRIVES.items():
        project = demo(name)
        for seed in range(first, first + many):
            outcome = run_again(operated(project, drive, seed), project)
            steps += len(outcome.steps)
            passed += outcome.result is Result.PASS
            if outcome.result is not Result.PASS:
                step = next(step for step in outcome.steps if step.result is not Result.PASS)
                print(f"{name}, seed {seed}, step {step.number}: {step.words}: {step.reason}")
    print(f"{passed} of {many * len(DRIVES)} cases passed, {steps} steps")
    return 0 if passed == many * len(DRIVES) else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
