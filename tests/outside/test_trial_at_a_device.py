"""Trials against a device that shares no code with the program: what it saw itself is what the record may say.

The device is `tests/counting_device.py`: bare sockets, frames by hand, a log of its own of every write.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction

import pytest

from app.client.endpoint import Endpoint
from app.project.model import Action, Condition, Project
from app.project_file.files import parse
from app.signals.reading import Reading
from app.trial.coverage import Coverage
from app.trial.outcome import CaseOutcome, PersonAsked, Reply, Result, StepOutcome, TrialOutcome
from app.trial.runner import Nobody, Person, Runner, Watcher
from app.trial.script_file import trial_of
from app.trial.stand import SessionStand
from tests.counting_device import SET_POINT, STATUS, CountingDevice

PROJECT = parse(f"""
format = 2
[panel]
start = "run"
keys = ["up", "down", "enter", "escape", "zero", "left", "right"]
[panel.entry]
by = "step"
[[line]]
name = "line"
kind = "tcp"
host = "unused"
timeout_ms = 200
[[follower]]
name = "drive"
line = "line"
unit = 1
[[signal]]
name = "set point"
follower = "drive"
register = {SET_POINT}
limits = [0, 50]
write = true
every_ms = 50
[[signal]]
name = "status"
follower = "drive"
table = "input"
register = {STATUS}
every_ms = 50
[[signal]]
name = "running"
bit = {{ of = "status", number = 0 }}
texts = {{ 0 = "stopped", 1 = "running" }}
[[screen]]
name = "run"
text = ["Set", ""]
[[screen.field]]
at = [0, 6]
width = 4
signal = "set point"
entry = true
[[screen.field]]
at = [1, 0]
width = 8
signal = "running"
kind = "choice"
[[action]]
key = "zero"
do = "write"
signal = "set point"
value = 0
stops = true
""")

BY_ITSELF = Action(when=Condition(signal="running", is_="clear"), do="write", signal="set point", value=Decimal(3))
"""What the panel writes without a key, as soon as it may."""

CASE = """
format = 1
[[case]]
name = "the set point arrives"
[[case.step]]
enter = "set point"
value = 7
[[case.step]]
expect = { signal = "running", text = "running" }
within_s = 5
[[case.step]]
expect = { row = 2, text = "running" }
"""


class Agrees(Nobody):
    """Somebody who says yes to everything."""

    def answer(self) -> Reply | None:
        return Reply(True, by="M. Tester")


@pytest.fixture
def device() -> Iterator[CountingDevice]:
    with CountingDevice() as running:
        yield running


class SeenLate(SessionStand):
    """What is read of the set point is seen a while later, as when reading takes long and writing does not."""

    late_s = 0.3

    def __init__(self, project: Project, via: Endpoint, *, armed: bool) -> None:
        self._seen: list[Reading] = []
        super().__init__(project, via, armed=armed)

    def readings(self) -> Mapping[str, Reading]:
        now = super().readings()
        self._seen.append(now["set point"])
        seen = [each for each in self._seen if each.time is not None and each.time <= self.now() - self.late_s]
        return {**now, "set point": (seen or self._seen)[-1 if seen else 0]}


def run(
    device: CountingDevice,
    text: str = CASE,
    *,
    armed: bool = True,
    person: Person | None = None,
    watcher: Watcher | None = None,
    project: Project = PROJECT,
    made: type[SessionStand] = SessionStand,
) -> TrialOutcome:
    trial = trial_of(tomllib.loads(text, parse_float=Decimal))
    stand = made(project, Endpoint.tcp("127.0.0.1", device.port, timeout_ms=200), armed=armed)
    return Runner(trial, stand, person or Agrees(), watcher).run()


def test_what_the_record_says_is_what_the_device_saw_and_the_value_is_put_back(device: CountingDevice) -> None:
    outcome = run(device)
    assert [step.result for step in outcome.cases[0].steps] == [Result.PASS] * 3
    assert not outcome.simulated
    assert [value for _, value in device.taken] == [7, 0], "entered once, put back once, and nothing else"
    assert outcome.cases[0].restored == ("'set point' is 0 again",)


@pytest.mark.parametrize("steps", [CASE, CASE[: CASE.index("[[case.step]]\nexpect")]], ids=["awaited", "not awaited"])
def test_an_old_reading_is_not_taken_for_what_there_was_before_nor_for_what_there_is_again(
    device: CountingDevice, steps: str
) -> None:
    second = steps.replace("format = 1\n", "").replace("the set point arrives", "and again")
    outcome = run(device, steps + second, made=SeenLate)
    assert [value for _, value in device.taken] == [7, 0, 7, 0]
    assert [case.restored for case in outcome.cases] == [("'set point' is 0 again",)] * 2


def test_unarmed_nothing_is_written_and_the_trial_does_not_pass(device: CountingDevice) -> None:
    outcome = run(device, armed=False)
    assert device.taken == []
    assert outcome.cases[0].steps[0].result is Result.BLOCKED


def test_nothing_is_written_unless_somebody_agrees_not_even_without_a_key(device: CountingDevice) -> None:
    asked: list[PersonAsked | None] = []

    class Ear(Watcher):
        def asked(self, question: PersonAsked | None) -> None:
            asked.append(question)

    project = PROJECT.replace(actions=(*PROJECT.actions, BY_ITSELF))
    outcome = run(device, person=Nobody(), watcher=Ear(), project=project)
    assert device.taken == []
    assert [question.kind for question in asked if question] == ["may move"]
    assert {step.result for step in outcome.cases[0].steps} == {Result.NOT_TESTED}


def test_a_device_that_falls_silent_in_a_case_blocks_it_and_the_next_one_goes_on_when_it_is_back(
    device: CountingDevice,
) -> None:
    """It comes back between the cases: what could not be put back is said, and the next case is not tainted."""

    class Plug(Watcher):
        def step_ends(self, index: int, outcome: StepOutcome) -> None:
            if index == 0 and outcome.number == 1:
                device.silent = True

        def case_ends(self, index: int, outcome: CaseOutcome) -> None:
            device.silent = False

    second = CASE.replace("format = 1\n", "").replace("the set point arrives", "and again")
    # A key behind which nothing counts that was read before the device fell silent.
    pressed = CASE.replace("value = 7\n", 'value = 7\n[[case.step]]\nkey = "left"\n')
    outcome = run(device, pressed + second, watcher=Plug())
    first, again = outcome.cases
    assert [step.result for step in first.steps[:2]] == [Result.PASS] * 2
    assert [step.result for step in first.steps[2:]] == [Result.BLOCKED] * 2
    assert len(first.not_restored) == 1
    assert "'set point' was 0 before and could not be put back" in first.not_restored[0]
    assert [step.result for step in again.steps][1:] == [Result.PASS] * 2


def test_stopping_in_a_case_starts_nothing_and_puts_back(device: CountingDevice) -> None:
    trial = trial_of(tomllib.loads(CASE + "[[case.step]]\nwait = 60\n", parse_float=Decimal))
    stand = SessionStand(PROJECT, Endpoint.tcp("127.0.0.1", device.port, timeout_ms=200), armed=True)

    class Impatient(Watcher):
        def step_begins(self, index: int, part: str, number: int, words: str) -> None:
            if number == 4:
                runner.stop()

    runner = Runner(trial, stand, Agrees(), Impatient())
    outcome = runner.run()
    assert not outcome.finished
    assert outcome.cases[0].stopped
    assert [value for _, value in device.taken] == [7, 0]


def test_a_value_past_the_panel_is_written_as_it_was(device: CountingDevice) -> None:
    stand = SessionStand(PROJECT, Endpoint.tcp("127.0.0.1", device.port, timeout_ms=200), armed=True)
    stand.begin()
    assert "not armed" in stand.put("set point", Fraction(11))
    stand.arm(True)
    assert stand.put("set point", Fraction(12)) == ""
    assert device.taken[-1][1] == 12
    stand.end()


@pytest.mark.parametrize("deed", ['key = "zero"', 'enter = "set point"\nvalue = 7'])
def test_what_writes_proves_nothing_and_tries_nothing_while_writing_is_off(device: CountingDevice, deed: str) -> None:
    """The panel only looks as if the key had done something: nothing has left it."""
    text = f'format = 1\n[[case]]\nname = "a"\n[[case.step]]\n{deed}\n[[case.step]]\nnote = "on"\n'
    stand = SessionStand(PROJECT, Endpoint.tcp("127.0.0.1", device.port, timeout_ms=200))
    coverage = Coverage(stand)
    found = Runner(trial_of(tomllib.loads(text, parse_float=Decimal)), stand, Agrees()).run().cases[0]
    assert device.taken == []
    assert [step.result for step in found.steps] == [Result.BLOCKED] * 2
    assert found.steps[0].reason == "line 'line' is not armed"
    reached = {one.words for one in coverage.covered.reached}
    assert not {words for words in reached if words.startswith(("action", "entry"))}


@pytest.mark.parametrize(
    ("stops", "told"),
    [(True, "'set point' is not confirmed to be written"), (False, "'set point' was not written: ")],
)
def test_a_key_whose_write_did_not_arrive_is_told_in_the_record(device: CountingDevice, stops: bool, told: str) -> None:
    """A key pressed while the line is cut is a fair deed: the record says that nothing came of it."""

    class Cutting(Watcher):
        def step_begins(self, index: int, part: str, number: int, words: str) -> None:
            device.silent = part == "step" and number == 1

    text = 'format = 1\n[[case]]\nname = "a"\n[[case.step]]\nkey = "zero"\n[[case.step]]\nnote = "on"\n'
    project = PROJECT.model_copy(update={"actions": (PROJECT.actions[0].model_copy(update={"stops": stops}),)})
    stand = SessionStand(project, Endpoint.tcp("127.0.0.1", device.port, timeout_ms=200), armed=True)
    found = Runner(trial_of(tomllib.loads(text, parse_float=Decimal)), stand, Agrees(), Cutting()).run().cases[0]
    assert found.steps[0].result is Result.PASS
    assert found.steps[0].found.startswith(told)
