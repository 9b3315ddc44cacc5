"""What a window observes of its session: curves, events, alarms, and a recording of all of it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from pytestqt.qtbot import QtBot

from app.events.events import Event, EventKind
from app.follower.drive_bank import DriveBank
from app.line.samples import Subscription
from app.project_file.files import load
from app.recording.reader import Recording
from app.recording.writer import CannotRecord
from projects import demo_path
from tests.pressing import press
from widgets.live.live_session import LiveSession
from widgets.live.live_source import Observation

pytestmark = pytest.mark.usefixtures("no_thread_is_left")


@pytest.fixture
def observation(live: LiveSession) -> Observation:
    return Observation(live)


def connect(live: LiveSession, observation: Observation, qtbot: QtBot) -> None:
    live.connect_to(load(demo_path("booster-pump")), "simulated")
    assert observation.source is not None
    source = observation.source
    qtbot.waitUntil(lambda: not np.isnan(source.at("frequency", source.span()[1])))
    session = live.session
    assert session is not None
    # The panel lives by snapshots, which come a little later than the readings that are observed.
    qtbot.waitUntil(lambda: session.snapshot().readings["speed set point"].good)


def kinds(events: object) -> list[tuple[EventKind, str]]:
    return [(event.kind, event.subject) for event in events]  # type: ignore[attr-defined]


def test_readings_become_curves_and_deeds_become_events(
    live: LiveSession, observation: Observation, qtbot: QtBot
) -> None:
    connect(live, observation, qtbot)
    told: list[Event] = []
    observation.happened.connect(told.extend)
    press(live, "start")
    qtbot.waitUntil(lambda: (EventKind.RISE, "running") in kinds(observation.events))
    source = observation.source
    assert source is not None
    qtbot.waitUntil(lambda: source.at("frequency", source.span()[1]) > 0)
    assert (EventKind.RISE, "running") in kinds(told)


def test_the_very_first_readings_are_observed(live: LiveSession, observation: Observation, qtbot: QtBot) -> None:
    early: list[Subscription] = []
    live.about_to_start.connect(lambda session: early.append(session.samples.subscribe()))
    connect(live, observation, qtbot)
    first = next(sample.at for sample in early[0].take() if sample.signal == "frequency")
    source = observation.source
    assert source is not None
    assert source.span()[0] <= first
    assert not np.isnan(source.at("frequency", first))
    assert np.isnan(source.at("frequency", first - 1e-3))


def test_a_disconnected_session_leaves_its_curves_and_another_one_begins_anew(
    live: LiveSession, observation: Observation, qtbot: QtBot
) -> None:
    connect(live, observation, qtbot)
    first = observation.source
    live.disconnect_from_line()
    assert observation.source is first
    with qtbot.waitSignal(observation.begun):
        connect(live, observation, qtbot)
    assert observation.source is not first


def test_an_alarm_waits_until_it_is_acknowledged(live: LiveSession, observation: Observation, qtbot: QtBot) -> None:
    connect(live, observation, qtbot)
    session = live.session
    assert session is not None
    assert session.simulation is not None
    drive = next(iter(session.simulation.models.values()))
    assert isinstance(drive, DriveBank)
    drive.inputs.external_fault = True
    watch = observation.watch
    assert watch is not None
    qtbot.waitUntil(lambda: bool(watch.alarms.waiting))
    observation.acknowledge(watch.alarms.waiting)
    assert not watch.alarms.waiting
    assert observation.events[-1].data["state"] == "ACKED"


def test_a_recording_has_all_of_it(live: LiveSession, observation: Observation, qtbot: QtBot, tmp_path: Path) -> None:
    with pytest.raises(CannotRecord, match="Connect first"):
        observation.record(tmp_path / "early.fanrec")
    connect(live, observation, qtbot)
    with qtbot.waitSignal(observation.recording_changed):
        observation.record(tmp_path / "run.fanrec")
    assert observation.recording
    with pytest.raises(CannotRecord, match="already exists"):
        observation.record(tmp_path / "run.fanrec")
    observation.record(tmp_path / "second.fanrec")
    for key in ("enter", "up", "enter"):
        press(live, key)
    observation.note("bearing sounds right")
    qtbot.waitUntil(lambda: any(event.kind is EventKind.WRITTEN for event in observation.events))
    live.disconnect_from_line()
    assert not observation.recording
    progress = observation.progress
    assert progress is not None
    assert progress.trouble == ""
    assert progress.lost == 0
    with Recording.open(tmp_path / "second.fanrec") as recording:
        found = kinds(recording.events(-1e9, 1e9))
        assert (EventKind.ENTERED, "speed set point") in found
        assert (EventKind.WRITTEN, "speed set point") in found
        assert (EventKind.NOTE, "") in found
        assert recording.count("frequency") > 0
        assert recording.held_values(1e9) == {"filling ramp": 30}
        assert recording.ended is not None


def test_another_observation_goes_on_with_what_the_first_has(
    live: LiveSession, observation: Observation, qtbot: QtBot, tmp_path: Path
) -> None:
    connect(live, observation, qtbot)
    observation.record(tmp_path / "run.fanrec")
    second_live = LiveSession()
    second_live.take_over(live)
    second = Observation(second_live)
    second.take_over(observation)
    assert second.recording
    assert not observation.recording
    count = len(second.events)
    press(second_live, "right")
    qtbot.waitUntil(lambda: len(second.events) > count)
    second_live.disconnect_from_line()
    with Recording.open(tmp_path / "run.fanrec") as recording:
        assert EventKind.SCREEN_CHANGED in [event.kind for event in recording.events(-1e9, 1e9)]
