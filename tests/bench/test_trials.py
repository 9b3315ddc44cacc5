"""How long trials take: what a step costs besides what it waits for, the proposed trial of the drying hall."""

from __future__ import annotations

import time
from decimal import Decimal
from statistics import median

from pytest_benchmark.fixture import BenchmarkFixture

from app.project_file.files import load
from app.proposing.propose import propose
from app.trial.coverage import Coverage
from app.trial.outcome import Verdict
from app.trial.runner import Runner
from app.trial.script import Case, Expectation, ExpectStep, Trial
from app.trial.stand import RehearsedStand
from projects import demo_path

HALL = load(demo_path("drying-hall"))
STEPS = 500
MARK_MS = 5.0
MARK_S = 60.0


def test_a_step_that_waits_for_nothing(benchmark: BenchmarkFixture) -> None:
    rows = [
        Expectation(screen="hall", row=3, like="Upper racks*"),
        Expectation(signal="upper racks", value=Decimal("43.8")),
    ]
    steps = tuple(ExpectStep(expect=rows[number % 2]) for number in range(STEPS))
    trial = Trial(cases=(Case(name="it", steps=steps),))

    times: list[float] = []

    def run() -> None:
        stand = RehearsedStand(HALL)
        Coverage(stand)
        began = time.perf_counter()
        assert Runner(trial, stand).run().verdict is Verdict.PASSED
        times.append(time.perf_counter() - began)

    benchmark.pedantic(run, rounds=3 if benchmark.enabled else 1)
    if benchmark.enabled:
        each = median(times) * 1000 / STEPS
        print(f"\na step of a trial: {each:.2f} ms, mark {MARK_MS:g} ms")


def test_the_proposed_trial_of_the_drying_hall(benchmark: BenchmarkFixture) -> None:
    trial = propose(HALL)
    if not benchmark.enabled:
        trial = trial.replace(cases=trial.cases[:10])
    seconds: list[tuple[float, float]] = []

    def run() -> None:
        began = time.perf_counter()
        outcome = Runner(trial, RehearsedStand(HALL)).run()
        assert outcome.verdict is Verdict.PASSED
        seconds.append((outcome.took_s, time.perf_counter() - began))

    benchmark.pedantic(run, rounds=1)
    if benchmark.enabled:
        simulated, took = seconds[0]
        print(f"\n{simulated:.0f} s of the drying hall's proposed trial in {took:.1f} s, mark {MARK_S:g} s")
