"""What the proposed trial of a sound project finds in a panel with one fault: at least 48 of 50."""

from __future__ import annotations

import pytest

from app.proposing.propose import propose
from app.trial.outcome import Result, StepOutcome
from app.trial.runner import Runner, Watcher
from app.trial.script import Trial
from app.trial.stand import RehearsedStand
from tests.fuzz.mutants import MUTANTS, Mutant, mutated, sound

NOT_FOUND: frozenset[str] = frozenset()
"""The faults that the trial does not find, by name."""


class _FirstFailure(Watcher):
    """Stops a run at the first step that does not pass, and remembers it."""

    def __init__(self) -> None:
        self.runner: Runner | None = None
        self.found: list[str] = []

    def step_ends(self, index: int, outcome: StepOutcome) -> None:
        if outcome.result is not Result.PASS and self.runner is not None:
            self.found.append(f"{outcome.words}: {outcome.reason}")
            self.runner.stop()


@pytest.fixture(scope="module")
def proposed() -> Trial:
    return propose(sound(), "booster-pump.toml")


def failures(trial: Trial, panel: Mutant | None) -> list[str]:
    """What does not pass first, of the sound machine with a panel that may have a fault."""
    first = _FirstFailure()
    machine = sound()
    first.runner = Runner(trial, RehearsedStand(mutated(panel) if panel else machine, machine=machine), watcher=first)
    first.runner.run()
    return first.found


def test_there_are_fifty_of_which_forty_eight_must_be_found() -> None:
    assert len(MUTANTS) == len({mutant.name for mutant in MUTANTS}) == 50
    assert len(NOT_FOUND) <= 2


def test_a_sound_panel_at_the_sound_machine_passes(proposed: Trial) -> None:
    assert failures(proposed, None) == []


@pytest.mark.parametrize("mutant", MUTANTS, ids=[mutant.name for mutant in MUTANTS])
def test_a_fault_is_found(proposed: Trial, mutant: Mutant) -> None:
    assert bool(failures(proposed, mutant)) is (mutant.name not in NOT_FOUND)
