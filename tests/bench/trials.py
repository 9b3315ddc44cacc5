"""Whether the trials of the demo projects ever give another result: run each so many times, on a loaded machine too.

    python -m tests.bench.trials [RUNS]

Prints how many runs did not pass, and the longest and the shortest in seconds. Nothing but 0 is right.
"""

from __future__ import annotations

import sys
import time

from app.project_file.files import load
from app.trial.outcome import TrialOutcome, Verdict
from app.trial.runner import Runner
from app.trial.script_file import load_trial
from app.trial.stand import RehearsedStand
from projects import demo_path, demos, trial_path

RUNS = 200


def main(runs: int) -> int:
    """Run all; gives how many did not pass, or were not the same as the first to the last digit."""
    wrong = 0
    for name in demos():
        project, trial = load(demo_path(name)), load_trial(trial_path(name))
        first: list[tuple[object, ...]] = []
        times = []
        for number in range(runs):
            began = time.perf_counter()
            outcome = Runner(trial, RehearsedStand(project)).run()
            times.append(time.perf_counter() - began)
            seen = _seen(outcome)
            first = first or seen
            if outcome.verdict is not Verdict.PASSED or seen != first:
                wrong += 1
                print(f"{name}: run {number + 1} is {outcome.verdict}")
        print(f"{name}: {runs} runs, {min(times):.2f} to {max(times):.2f} s each")
    print(f"{wrong} not as they should be")
    return wrong


def _seen(outcome: TrialOutcome) -> list[tuple[object, ...]]:
    return [
        (case.name, step.number, step.result, step.found, step.took_s, step.seen)
        for case in outcome.cases
        for step in case.steps
    ]


if __name__ == "__main__":
    sys.exit(bool(main(int(sys.argv[1]) if len(sys.argv) > 1 else RUNS)))
