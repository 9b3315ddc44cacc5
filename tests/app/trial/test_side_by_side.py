"""The simulation beside a device on bare sockets, which behaves as it, or has a planted fault that is to be found."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest

from app.client.endpoint import Endpoint
from app.project.model import Project
from app.project_file.files import parse
from app.trial.outcome import PersonAsked, Reply
from app.trial.random_keys import KeyLimits
from app.trial.runner import Nobody
from app.trial.side_by_side import NotAgreedError, SideBySide, SideBySideOutcome
from app.trial.stand import SessionStand
from tests.register_device import RegisterDevice
from tests.trial_panel import SMALL

QUICK = SMALL.replace("register = ", "every_ms = 20\nregister = ")
HARMLESS = ("left", "right", "up", "down", "enter", "escape", "f2")
LEVEL, WORD = 5, 8


@pytest.fixture
def device() -> Iterator[RegisterDevice]:
    with RegisterDevice({LEVEL: 425, 7: 0, WORD: 0}) as running:
        yield running


class Person(Nobody):
    """Says yes so many times, then no."""

    def __init__(self, agrees: int) -> None:
        self.asked: list[PersonAsked] = []
        self._agrees = agrees

    def ask(self, question: PersonAsked) -> None:
        self.asked.append(question)

    def answer(self) -> Reply | None:
        return Reply(len(self.asked) <= self._agrees)


def side_by_side(
    device: RegisterDevice, limits: KeyLimits, agrees: int = 1, *, project: Project | None = None, armed: bool = True
) -> tuple[SideBySide, Person]:
    person = Person(agrees)
    of = project or parse(QUICK)
    stand = SessionStand(of, Endpoint.tcp("127.0.0.1", device.port, timeout_ms=500), armed=armed)
    return SideBySide(of, stand, limits, person, settle_s=1.0), person


def compare(device: RegisterDevice, limits: KeyLimits, seed: int = 1, agrees: int = 1) -> SideBySideOutcome:
    return side_by_side(device, limits, agrees)[0].run(seed)


def test_a_device_that_behaves_as_the_model_differs_in_nothing(device: RegisterDevice) -> None:
    outcome = compare(device, KeyLimits((*HARMLESS, "go", "halt", "jog"), presses=40, stop="halt"))
    assert outcome.differences == ()
    assert outcome.from_beginning == ()
    assert outcome.pressed == len(outcome.drawn) == 40
    assert set(outcome.drawn) >= {"go", "right", "enter"}
    assert device.taken, "something was written, so there was something to compare"


def test_it_begins_where_the_device_stands_and_everything_is_put_back(device: RegisterDevice) -> None:
    device.registers.update({LEVEL: 800, 7: 3, WORD: 4})
    before = dict(device.registers)
    outcome = compare(device, KeyLimits((*HARMLESS, "f1"), presses=40, stop="halt"), seed=3)
    assert outcome.from_beginning == ()
    assert outcome.differences == ()
    assert device.registers | {WORD: 0} == before | {WORD: 0}
    assert device.registers[WORD] & 4 == 0, "the stop key was pressed"
    assert outcome.not_restored == ("'pump' was pumps before; it is not set by itself",)


def test_a_bit_that_is_swapped_is_found_and_the_one_key_that_shows_it(device: RegisterDevice) -> None:
    device.swapped[WORD] = (2, 5)
    outcome = compare(device, KeyLimits((*HARMLESS, "go"), presses=60, stop="halt"))
    assert outcome.pressed < 60
    assert outcome.drawn[outcome.pressed - 1] == "go"
    found = {(one.aspect, one.subject): (one.simulated, one.device) for one in outcome.differences}
    assert found["signal", "pump"] == ("pumps", "rests")
    assert outcome.shortest == ("go",)
    assert not outcome.tried_at_device


def test_a_limit_of_the_device_is_found_and_shrunk_at_the_device_if_somebody_agrees(device: RegisterDevice) -> None:
    device.most[LEVEL] = 430
    limits = KeyLimits(("right", "up", "enter", "escape"), ("run", "set"), presses=200)
    comparison, person = side_by_side(device, limits, agrees=2)
    outcome = comparison.run(7)
    found = {(one.aspect, one.subject): (one.simulated, one.device) for one in outcome.differences}
    assert found["signal", "level"][1] == "43.0"
    assert outcome.tried_at_device
    assert len(outcome.shortest) < outcome.pressed
    assert outcome.shortest[0] == "right"
    assert outcome.shortest.count("up") >= 2
    assert outcome.shortest[-1] == "enter"
    assert [question.kind for question in person.asked] == ["may move", "ask"]
    assert device.registers[LEVEL] == 425


def test_whoever_does_not_agree_has_nothing_written(device: RegisterDevice) -> None:
    comparison, person = side_by_side(device, KeyLimits((*HARMLESS, "go"), presses=10), agrees=0)
    with pytest.raises(NotAgreedError):
        comparison.run(1)
    assert device.taken == []
    assert "drawn at random of: left, right, up, down, enter, escape, f2, go" in person.asked[0].text
    assert "no stop key" in person.asked[0].text


def test_unarmed_nothing_is_written_even_if_somebody_agrees(device: RegisterDevice) -> None:
    comparison, _ = side_by_side(device, KeyLimits(("go", "jog"), presses=10), armed=False)
    assert comparison.run(1).differences
    assert device.taken == []


def test_it_is_stopped_in_the_middle_and_keys_are_let_go(device: RegisterDevice) -> None:
    comparison, _ = side_by_side(device, KeyLimits(("jog",), presses=1000, stop="halt"))
    found: list[SideBySideOutcome] = []
    thread = threading.Thread(target=lambda: found.append(comparison.run(1)))
    thread.start()
    while not device.taken and thread.is_alive():
        thread.join(0.01)
    comparison.stop()
    thread.join(20)
    assert found[0].stopped
    assert device.coils.get(1, 0) == 0
