"""Curves from what was observed and from a recording: the same values, the same gaps, bits as they changed."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from app.curves.source import CurveSource, LiveSource, Recorded, plottable
from app.line.samples import Sample
from app.project.binding import bindings
from app.recording.history import SampleHistory
from app.recording.reader import Recording
from app.recording.writer import Writer
from app.signals.reading import Quality, Reading
from tests.app.recording.test_reader import PROJECT, Clocks


def sample(signal: str, at: float, *words: int) -> Sample:
    if not words:
        return Sample(signal, at, (), Reading(quality=Quality.STALE, reason="silent"))
    return Sample(signal, at, words, bindings(PROJECT)[signal].reading(words, at))


def story() -> list[Sample]:
    """The speed for ten seconds, silence for five, the speed again; its lowest bit changes with every other sample."""
    made = []
    for number in range(200):
        at = 1000.0 + number * 0.1
        if number == 100:
            made.append(sample("speed", at))
        if 100 <= number < 150:
            continue
        made.append(sample("speed", at, number // 2))
    return made


@pytest.fixture
def observed() -> CurveSource:
    clocks = Clocks()
    history = SampleHistory(PROJECT, clocks.clock)
    events = story()
    history.add(events[:70])
    history.add(events[70:])
    clocks.now = 1020.0
    return LiveSource(history)


@pytest.fixture
def recorded(tmp_path: Path) -> CurveSource:
    clocks = Clocks()
    writer = Writer(tmp_path / "a.fanrec", PROJECT, clock=clocks.clock)
    for each in story():
        writer.add(each.signal, each.at, each.reading.quality, each.words)
    writer.close()
    return Recorded(Recording.open(tmp_path / "a.fanrec"))


@pytest.fixture(params=["observed", "recorded"])
def source(request: pytest.FixtureRequest) -> tuple[CurveSource, float]:
    """A source, and the time in it at which the story begins."""
    found: CurveSource = request.getfixturevalue(request.param)
    return found, 1000.0 if request.param == "observed" else 0.0


def test_values_and_the_gap(source: tuple[CurveSource, float]) -> None:
    found, zero = source
    assert found.project is not None
    assert found.at("speed", zero + 5.05) == pytest.approx(25 / 200)
    assert np.isnan(found.at("speed", zero + 12.0))
    assert found.at("speed", zero + 15.01) == pytest.approx(75 / 200)
    envelope = found.envelope("speed", zero, zero + 20, 20)
    assert np.isnan(envelope.low).tolist() == [10 <= column < 15 for column in range(20)]
    assert envelope.high[19] == pytest.approx(99 / 200)


def test_a_window_has_a_neighbour_on_either_side(source: tuple[CurveSource, float]) -> None:
    found, zero = source
    times, values = found.window("speed", zero + 5.02, zero + 5.28)
    assert (times - zero).tolist() == pytest.approx([5.0, 5.1, 5.2, 5.3])
    assert values.tolist() == pytest.approx([25 / 200, 25 / 200, 26 / 200, 26 / 200])


def test_a_bit_holds_until_it_changes(source: tuple[CurveSource, float]) -> None:
    found, zero = source
    for number in (10, 11, 12, 13, 160, 163):
        assert found.at("running", zero + number * 0.1 + 0.01) == (number // 2) % 2
    assert np.isnan(found.at("running", zero + 12.0))
    envelope = found.envelope("running", zero, zero + 10, 200)
    assert set(envelope.low[:199:4].tolist()) | set(envelope.low[2:199:4].tolist()) <= {0.0, 1.0}
    long_outline = found.envelope("running", zero, zero + 20, 10)
    assert long_outline.low[:5].tolist() == [0.0] * 5
    assert long_outline.high[:5].tolist() == [1.0] * 5
    assert np.isnan(long_outline.low[6])


def test_the_span_and_the_civil_time(source: tuple[CurveSource, float]) -> None:
    found, zero = source
    begin, end = found.span()
    assert begin == pytest.approx(zero)
    assert end >= zero + 19.9
    assert found.civil(zero + 3.0).timestamp() == pytest.approx(1_700_001_003.0)
    assert found.civil(zero).tzinfo is not None


def test_texts_and_held_values_have_no_curve(source: tuple[CurveSource, float]) -> None:
    found, zero = source
    assert plottable(PROJECT) == ("speed", "hours", "coil", "running")
    with pytest.raises(KeyError):
        found.at("preset", zero)


def test_nothing_observed_yet_is_an_empty_span() -> None:
    clocks = Clocks()
    history = SampleHistory(PROJECT, clocks.clock)
    found = LiveSource(history)
    begin, end = found.span()
    assert begin == end
    assert np.isnan(found.at("speed", 0.0))
    history.add([Sample("nowhere", 1.0, (1,), Reading(1, Fraction(1), Quality.GOOD, "", 1.0))])
    assert found.span() == (begin, end)
