"""A recording played: the panel shows what it showed, time runs and jumps, keys change screens, nothing is written."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from app.events.event_detector import EventDetector
from app.panel.events import Entered, ScreenChanged, Write
from app.project.binding import bindings
from app.project.model import BitSignal, Project
from app.recording.clock import CivilClock
from app.recording.reader import Recording
from app.recording.replay import FASTEST, Replay
from app.recording.writer import Writer
from app.session.rehearsal import Rehearsal
from app.signals.reading import Quality

STEP_S = 0.05


class Clock:
    def __init__(self) -> None:
        self.now = 500.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def played(pump: Project, tmp_path: Path) -> tuple[Path, dict[float, tuple[str, ...]]]:
    """A rehearsal of the pump written down: the file, and what the panel showed at which time."""
    clock = Clock()
    rehearsal, watch = Rehearsal(pump, clock=clock), EventDetector(pump, clock)
    path = tmp_path / "run.fanrec"
    writer = Writer(path, pump, clock=CivilClock(clock))
    shown: dict[float, tuple[str, ...]] = {}
    keys = {1.0: "start", 6.0: "right", 9.0: "left", 12.0: "enter", 12.5: "up", 13.0: "enter", 20.0: "stop"}
    registers = [name for name, binding in bindings(pump).items() if not isinstance(binding.signal, BitSignal)]
    for number in range(600):
        clock.now += STEP_S
        at = round((number + 1) * STEP_S, 6)
        watch.effects(rehearsal.panel.tick())
        if at in keys:
            watch.effects(rehearsal.panel.key_down(keys[at]))
            watch.effects(rehearsal.panel.key_up(keys[at]))
        if at == 24.0:
            next(iter(rehearsal.models.values())).inputs.external_fault = True  # type: ignore[attr-defined]
        for name in registers:
            binding = bindings(pump)[name]
            words = rehearsal.models[binding.follower.name].read(binding.table, binding.address, binding.count)
            writer.add(name, clock.now, Quality.GOOD, words)
        watch.effects(rehearsal.panel.tick())
        for event in watch.take():
            writer.event(event)
        for name, value in watch.changed_held(rehearsal.panel.state):
            writer.keep_held(name, clock.now, value)
        if rehearsal.panel.state.message is None and rehearsal.panel.state.entry is None:
            shown[at] = tuple(row.text for row in rehearsal.panel.rows())
        if number % 10 == 0:
            writer.commit()
    writer.close()
    return path, shown


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def replay(played: tuple[Path, dict[float, tuple[str, ...]]], clock: Clock) -> Iterator[Replay]:
    with Recording.open(played[0]) as recording:
        yield Replay(recording, clock)


def texts(replay: Replay) -> tuple[str, ...]:
    return tuple(row.text for row in replay.panel.rows())


def test_at_every_moment_the_panel_shows_what_it_showed(
    replay: Replay, played: tuple[Path, dict[float, tuple[str, ...]]]
) -> None:
    _, shown = played
    assert len(set(shown.values())) > 20, "something must have happened"
    for at in sorted(shown, key=lambda at: (at * 7919) % 1):  # here and there
        replay.seek(at + 0.001)
        assert texts(replay) == shown[at], at


def test_played_it_shows_the_same_as_sought(
    replay: Replay, clock: Clock, played: tuple[Path, dict[float, tuple[str, ...]]]
) -> None:
    _, shown = played
    replay.seek(0.0)
    replay.play()
    for at in sorted(shown):
        clock.now += at + 0.001 - replay.at
        replay.panel.tick()
        assert replay.at == pytest.approx(min(at + 0.001, replay.end))
        assert texts(replay) == shown[at], at


def test_time_runs_faster_when_asked_and_ends_at_the_end(replay: Replay, clock: Clock) -> None:
    replay.seek(2.0)
    replay.speed = 10.0
    replay.play()
    clock.now += 1.0
    replay.panel.tick()
    assert replay.at == pytest.approx(12.0)
    replay.pause()
    clock.now += 1.0
    replay.panel.tick()
    assert replay.at == pytest.approx(12.0)
    replay.speed = 10 * FASTEST
    assert replay.speed == FASTEST
    replay.play()
    clock.now += 100.0
    replay.panel.tick()
    assert (replay.at, replay.playing) == (replay.end, False)
    replay.play()
    assert replay.at == replay.begin


def test_keys_turn_the_panel_and_write_nothing(replay: Replay) -> None:
    replay.seek(3.0)
    before = replay.panel.state.shown
    effects = replay.panel.key_down("right")
    replay.panel.key_up("right")
    assert any(isinstance(effect, ScreenChanged) for effect in effects)
    assert replay.panel.state.shown != before
    replay.seek(3.0)
    seen = []
    for key in ("enter", "up", "enter"):
        seen += [*replay.panel.key_down(key), *replay.panel.key_up(key)]
    assert any(isinstance(effect, Entered) for effect in seen)
    assert not any(isinstance(effect, Write) for effect in seen)
    assert replay.panel.state.message is not None
    assert replay.panel.state.message.text == "not written: writing is off"
    assert replay.panel.state.message.reason == "not possible in a recording"
    assert replay.panel.state.sent == {}
    for key in ("reset", "start", "stop"):
        replay.panel.key_down(key)
        replay.panel.key_up(key)
        assert replay.panel.state.sent == {}


def test_another_moment_leads_the_panel_back(replay: Replay, played: tuple[Path, dict[float, tuple[str, ...]]]) -> None:
    replay.seek(3.0)
    replay.panel.key_down("right")
    replay.panel.key_up("right")
    replay.seek(4.0501)
    assert texts(replay) == played[1][4.05]


def test_steps_go_from_sample_to_sample_and_to_events(replay: Replay) -> None:
    replay.seek(5.0)
    replay.step(1)
    assert replay.at == pytest.approx(5.05, abs=1e-3)
    replay.step(-1)
    replay.step(-1)
    assert replay.at == pytest.approx(4.95, abs=1e-3)
    replay.seek(replay.end)
    replay.step(1)
    assert replay.at == replay.end
    replay.seek(replay.begin)
    replay.step(-1)
    assert replay.at == replay.begin


def test_the_events_so_far(replay: Replay) -> None:
    replay.seek(0.5)
    assert replay.events() == []
    replay.seek(replay.end)
    subjects = [event.subject for event in replay.events()]
    assert "fault" in subjects
