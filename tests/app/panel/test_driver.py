"""A panel that is driven: what it is told in which order, and what leaves it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

import pytest

from app.panel.driver import PanelDriver
from app.panel.events import Effect, KeyDown, PanelEvent, ReleaseAll, ScreenChanged, Tick, Write, WriteFailed
from app.project.purpose import Purpose
from app.signals.reading import Quality, Reading
from tests.app.panel.operating import project, register

PROJECT = project(
    panel={"keys": ["go", "jog", "next"], "start": "first"},
    signal=[register("run", 1), register("jog", 2)],
    screen=[
        {"name": "first", "field": [{"signal": "run", "at": [0, 0], "width": 3}]},
        {"name": "second"},
    ],
    screen_change=[{"from": "first", "to": "second", "key": "next"}],
    action=[
        {"key": "go", "do": "write", "signal": "run", "value": 1},
        {"key": "jog", "do": "momentary", "signal": "jog"},
    ],
)


class Machine:
    """Behind the panel: keeps what leaves it, and has answers ready."""

    def __init__(self) -> None:
        self.now = 100.0
        self.left: list[tuple[Effect, type[PanelEvent]]] = []
        self.ready: list[PanelEvent] = []
        self.run = 0

    def registers(self) -> Mapping[str, Reading]:
        return {"run": Reading(self.run, Fraction(self.run), Quality.GOOD, "", self.now)}

    def answers(self) -> Iterable[PanelEvent]:
        ready, self.ready = self.ready, []
        return ready

    def carry_out(self, effects: tuple[Effect, ...], cause: PanelEvent) -> tuple[Effect, ...]:
        self.left += [(effect, type(cause)) for effect in effects]
        return tuple(effect for effect in effects if not isinstance(effect, Write))


@pytest.fixture
def machine() -> Machine:
    return Machine()


@pytest.fixture
def panel(machine: Machine) -> PanelDriver:
    return PanelDriver(PROJECT, machine, lambda: machine.now)


def test_each_write_leaves_the_panel_once_with_what_it_is_for(panel: PanelDriver, machine: Machine) -> None:
    panel.key_down("jog")
    panel.release_all()
    panel.key_up("jog")
    panel.tick()
    assert machine.left == [
        (Write("jog", Fraction(1)), KeyDown),
        (Write("jog", Fraction(0), Purpose.RELEASE), ReleaseAll),
    ]


def test_what_it_says_it_did_is_what_was_carried_out(panel: PanelDriver, machine: Machine) -> None:
    assert panel.key_down("go") == ()
    assert [effect for effect, _ in machine.left] == [Write("run", Fraction(1))]
    assert [type(effect) for effect in panel.key_down("next")] == [ScreenChanged]


def test_answers_come_before_time_passes(panel: PanelDriver, machine: Machine) -> None:
    panel.key_down("go")
    assert panel.state.sent == {"run": 1}
    machine.now += 0.5
    machine.ready = [WriteFailed("run", "no answer came", machine.now, Fraction(1), "no_answer")]
    panel.tick()
    assert panel.state.sent == {}
    assert panel.state.said is not None
    assert (panel.state.said.reason, panel.at) == ("no answer came", machine.now)
    assert machine.ready == []


def test_it_shows_the_newest_readings_or_those_that_it_is_given(panel: PanelDriver, machine: Machine) -> None:
    machine.run = 7
    assert panel.rows()[0].text.startswith("  7")
    assert panel.readings()["run"].value == 7
    assert panel.rows({})[0].text.startswith("---")
    assert not panel.readings({})["run"].good


def test_begun_anew_it_wakes_up(panel: PanelDriver, machine: Machine) -> None:
    panel.key_down("next")
    assert panel.state.shown == "second"
    machine.now += 60
    panel.begin()
    panel.take(Tick(machine.now))
    assert (panel.state.shown, panel.state.down, panel.state.since) == ("first", frozenset(), machine.now)
