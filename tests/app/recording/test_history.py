"""The last minutes in memory: bounded, complete from `since` on, and saved afterwards as if they had been recorded."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from app.client.endpoint import Endpoint
from app.curves.source import LiveSource
from app.events.event_detector import EventDetector
from app.events.events import Event, EventKind
from app.line.samples import Sample
from app.project.binding import bindings
from app.project_file.files import parse
from app.recording.clock import SECOND
from app.recording.gathering import OVERHEAD
from app.recording.history import SampleHistory
from app.recording.reader import Recording
from app.recording.recorder import Recorder
from app.recording.replay import Replay
from app.recording.samples import Samples
from app.recording.saving import save
from app.recording.writer import CannotRecord
from app.session.session import Session
from app.signals.reading import Quality, Reading
from tests.app.recording.test_reader import PROJECT, Clocks
from tests.counting_device import PROJECT_TEXT, CountingDevice
from tests.waiting import wait_for

COUNTING = parse(PROJECT_TEXT)


def sample(signal: str, at: float, *words: int) -> Sample:
    quality = Quality.GOOD if words else Quality.STALE
    return Sample(signal, at, words, Reading(quality=quality))


def times_of(history: SampleHistory, signal: str) -> list[float]:
    return [time / SECOND for block in history.samples(signal) for time in block.times]


def test_the_oldest_go_when_the_room_is_full_and_it_says_from_when_on_all_is_there() -> None:
    clocks = Clocks()
    room = 100_000
    history = SampleHistory(PROJECT, clocks.clock, room)
    began = history.since
    put: dict[str, list[float]] = {"speed": [], "coil": [], "hours": []}
    for number in range(30_000):
        clocks.now += 0.1
        for name, words, every in (("speed", (number % 100,), 1), ("coil", (1,), 10), ("hours", (1, 2), 1000)):
            if number % every == 0:
                put[name].append(clocks.now)
                history.add([sample(name, clocks.now, *words)])
        assert history.size <= room
    assert history.size > room // 2
    assert history.since > began
    held = sum(len(block) * block.sample_size for name in put for block in history.samples(name))
    blocks = sum(len(history.samples(name)) for name in put)
    tracks = sum(binding.bit is None for binding in bindings(PROJECT).values())
    assert history.size == pytest.approx(held + OVERHEAD * (blocks + tracks - 3), rel=0.02)
    for name, times in put.items():
        there = times_of(history, name)
        assert there == sorted(there)
        wanted = [at for at in times if at >= history.since]
        assert there[-len(wanted) :] == pytest.approx(wanted, abs=1e-6), name
    begin, end = LiveSource(history).span()
    assert (begin, end) == (history.since, clocks.now)


def test_slow_signals_do_not_lose_their_newest_values_to_quick_ones() -> None:
    clocks = Clocks()
    history = SampleHistory(PROJECT, clocks.clock, 50_000)
    history.add([sample("hours", clocks.now, 0, 7)])
    for _ in range(20_000):
        clocks.now += 0.1
        history.add([sample("speed", clocks.now, 1)])
    assert LiveSource(history).at("hours", clocks.now) == 7


def test_many_signals_leave_the_room_as_it_is() -> None:
    signals = "".join(f'[[signal]]\nname = "s{number}"\nfollower = "f"\nregister = {number}\n' for number in range(500))
    project = parse(
        'format = 2\n[panel]\nstart = "s"\n[[screen]]\nname = "s"\n[[line]]\nname = "l"\nkind = "tcp"\nhost = "h"\n'
        f'[[follower]]\nname = "f"\nline = "l"\n{signals}'
    )
    clocks = Clocks()
    room = 1_000_000
    history = SampleHistory(project, clocks.clock, room)
    for _ in range(200):
        clocks.now += 1.0
        history.add([sample(f"s{number}", clocks.now, number) for number in range(500)])
    assert history.size <= room
    assert clocks.now - history.since > 60


def test_a_long_outline_has_every_peak_and_no_gap_is_closed() -> None:
    clocks = Clocks()
    history = SampleHistory(PROJECT, clocks.clock)
    rng = np.random.default_rng(1)
    words = rng.integers(0, 5000, 40_000)
    words[::997] = 9999
    words[9_900:9_990] = words[20_010:20_090] = 20_000
    times = clocks.now + np.arange(40_000) * 0.1
    times[20_000:] += 300.0
    history.add([sample("speed", at, word) for at, word in zip(times.tolist(), words.tolist(), strict=True)])
    clocks.now = float(times[-1])
    source = LiveSource(history)
    begin, end = source.span()
    edges = np.linspace(begin, end, 101)
    for name, values in (("speed", words / 200), ("running", words & 1)):
        found = source.envelope(name, begin, end, 100)
        for column, (low, high) in enumerate(itertools.pairwise(edges)):
            inside = values[(times > low + 0.01) & (times < high - 0.01)]
            near = values[(times > low - 7) & (times < high + 7)]
            if len(inside):
                assert found.low[column] <= inside.min() + 1e-9
                assert found.high[column] >= inside.max() - 1e-9
            if len(near):
                assert found.low[column] >= near.min() - 1e-9
            else:
                assert np.isnan(found.low[column]), "nothing was read there"
        again = source.envelope(name, begin, end, 100)
        assert np.array_equal(again.low, found.low, equal_nan=True)
        # Nothing of what lies outside of the span is in its first or last column.
        part = source.envelope(name, begin + 1007.0, begin + 1993.0, 100)
        inside = values[(times > begin + 1000.0) & (times < begin + 2000.0)]
        assert np.nanmax(part.high) <= inside.max() + 1e-9
        assert np.nanmin(part.low) >= inside.min() - 1e-9


@pytest.fixture
def device() -> Iterator[CountingDevice]:
    with CountingDevice() as made:
        yield made


def test_what_is_saved_afterwards_is_what_the_device_answered_and_what_was_recorded(
    device: CountingDevice, tmp_path: Path
) -> None:
    """The device writes down itself what it answered when; a recorder runs beside it as a third witness."""
    made = Session(COUNTING, Endpoint.tcp("127.0.0.1", device.port, timeout_ms=200), armed=True)
    history, samples = SampleHistory(COUNTING), made.samples.subscribe()
    clock = history.clock
    with made as session:
        watch = EventDetector(COUNTING)
        recorder = Recorder(tmp_path / "beside.fanrec", COUNTING, session.engine.samples, clock=clock)

        def look() -> None:
            watch.effects(session.panel.tick())
            came = samples.take()
            history.add(came)
            watch.samples(came)
            watch.reports(session.take_reports())
            watch.look(session.snapshot(), session.panel.state, ())
            events = watch.take()
            history.add_events(events)
            for event in events:
                recorder.event(event)

        def until(count: int) -> None:
            def reached() -> bool:
                look()
                return len(device.answered) >= count

            wait_for(reached)

        until(50)
        device.silent = True
        wait_for(lambda: session.snapshot().followers["counter"].answering is False)
        look()
        device.silent = False
        until(250)
        recorder.stop()
        look()
        kept = history.contents()
    assert save(kept, tmp_path / "after.fanrec") > 250
    with Recording.open(tmp_path / "after.fanrec") as after, Recording.open(tmp_path / "beside.fanrec") as beside:
        assert after.ended is not None
        found = after.samples("answers", *after.span())
        good = found.part(found.qualities == 0)
        counted = [int(value) for value in after.values("answers", good)]
        log = {value: at for at, value in device.answered}
        assert counted == list(range(counted[0], counted[0] + len(counted))), "each answer once, in their order"
        assert counted[0] == 0
        assert counted[-1] >= 249
        for value, time in zip(counted, good.times.tolist(), strict=True):
            at = kept.begin + time / SECOND
            assert log[value] - 0.01 <= at < log[value] + 0.2
        for name in after.signals:
            ours, theirs = after.samples(name, -1e9, 1e9), beside.samples(name, -1e9, 1e9)
            shift = (after.civil(0.0) - beside.civil(0.0)).total_seconds()
            first = int(np.searchsorted(ours.times / SECOND + shift, theirs.times[0] / SECOND - 1e-6))
            same = ours.part(slice(first, first + len(theirs)))
            assert np.abs(same.times / SECOND + shift - theirs.times / SECOND).max() < 2e-6
            assert np.array_equal(same.words, theirs.words)
            assert np.array_equal(same.qualities, theirs.qualities)
        told = [(after.civil(event.at), event.text) for event in after.events(*after.span())]
        for event in beside.events(*beside.span()):
            if event.kind is not EventKind.RECORDING:
                assert (beside.civil(event.at), event.text) in told
        assert sum(event.kind is EventKind.LINE_FAULT for event in after.events(*after.span())) == 1


def test_a_replay_of_what_was_saved_shows_what_was_live_also_where_the_oldest_are_gone(tmp_path: Path) -> None:
    clocks = Clocks()
    history = SampleHistory(PROJECT, clocks.clock, 40_000)
    history.screen = PROJECT.panel.start
    history.hold("preset", clocks.now, Fraction(5))
    history.add([sample("hours", clocks.now, 0, 7)])
    for number in range(10_000):
        clocks.now += 0.1
        history.add([sample("speed", clocks.now, number % 1000)])
        if number == 100:
            history.hold("preset", clocks.now, Fraction(6))
        if number == 9_950:  # somebody sets the clock back
            clocks.ahead -= 3600.0
            clocks.clock.look()
        if number == 9_900:
            history.hold("preset", clocks.now, Fraction(7))
            history.add_events([Event(clocks.now, EventKind.NOTE, "", "late")])
        if number == 50:
            history.add_events([Event(clocks.now, EventKind.NOTE, "", "long ago")])
    live = LiveSource(history)
    kept = history.contents()
    assert kept.begin > 1100
    save(kept, tmp_path / "a.fanrec")
    with Recording.open(tmp_path / "a.fanrec") as recording:
        assert recording.samples("speed", -1e9, 1e9).times[1] >= 0, "of what is not whole only the last value before"
        assert [event.text for event in recording.events(-1e9, 1e9) if event.kind is EventKind.NOTE] == ["late"]
        assert recording.held_values(0.0) == {"preset": 6}
        assert recording.held_values(1e9) == {"preset": 7}
        replay = Replay(recording)
        for at in np.linspace(0, kept.end - kept.begin, 50):
            replay.seek(float(at))
            moment = kept.begin + replay.at
            for name in ("speed", "hours", "running"):
                shown = replay.panel.readings()[name].value
                assert float(shown) == pytest.approx(live.at(name, moment)), (name, at)  # type: ignore[arg-type]
            assert recording.civil(replay.at) == live.civil(moment)


def test_the_screen_of_the_panel_is_known_from_the_beginning_on(tmp_path: Path) -> None:
    two = parse(
        'format = 2\n[panel]\nstart = "a"\nkeys = ["right"]\n[[screen]]\nname = "a"\n[[screen]]\nname = "b"\n'
        '[[screen_change]]\nfrom = "a"\nto = "b"\nkey = "right"\n'
    )
    clocks = Clocks()
    history = SampleHistory(two, clocks.clock)
    history.add_events([Event(clocks.now + 1, EventKind.SCREEN_CHANGED, "b", "the panel shows 'b'")])
    clocks.now = history.since = 1010.0
    save(history.contents(), tmp_path / "a.fanrec")
    with Recording.open(tmp_path / "a.fanrec") as recording:
        assert Replay(recording).panel.state.shown == "b"


def test_saving_tells_how_far_it_is_and_can_be_stopped(tmp_path: Path) -> None:
    clocks = Clocks()
    history = SampleHistory(PROJECT, clocks.clock)
    for number in range(20_000):
        clocks.now += 0.1
        history.add([sample("speed", clocks.now, number % 100), sample("coil", clocks.now, 1)])
    kept = history.contents()
    told: list[float] = []
    save(kept, tmp_path / "whole.fanrec", tell=told.append)
    assert told == sorted(told)
    assert told[0] == 0
    assert 0 < told[-1] < 1

    def stop(part: float) -> None:
        if part > 0:
            raise InterruptedError

    with pytest.raises(InterruptedError):
        save(kept, tmp_path / "half.fanrec", tell=stop)
    assert [each.name for each in tmp_path.iterdir()] == ["whole.fanrec"]


def test_what_cannot_be_saved_leaves_no_file_and_writes_over_none(tmp_path: Path) -> None:
    history = SampleHistory(PROJECT)
    there = tmp_path / "there.fanrec"
    there.write_text("mine")
    with pytest.raises(CannotRecord, match="already exists"):
        save(history.contents(), there)
    assert there.read_text() == "mine"
    with pytest.raises(CannotRecord):
        save(history.contents(), tmp_path / "nowhere" / "a.fanrec")
    broken = history.contents()
    broken.samples["speed"] = [object()]  # type: ignore[list-item]
    with pytest.raises(TypeError):
        save(broken, tmp_path / "half.fanrec")
    assert [path.name for path in tmp_path.iterdir()] == ["there.fanrec"]


def test_blocks_are_read_while_more_comes() -> None:
    history = SampleHistory(PROJECT)
    history.add([sample("speed", history.since + 1, 5)])
    parts = [Samples.of(block.copy()) for block in history.samples("speed")]
    history.add([sample("speed", history.since + 2, 6)])
    assert parts[0].words.tolist() == [[5]]
    assert LiveSource(history).at("speed", history.since + 3) == pytest.approx(6 / 200)
