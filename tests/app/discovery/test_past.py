"""Registers at moments of the past, of a recording and of what was heard, found by the time of day."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from app.discovery.past import PastRegisters, heard_of, recorded
from app.listening.listener import Listener
from app.recording.reader import Recording
from app.signals.reading import Quality
from tests.app.recording.test_reader import Clocks, writer
from tests.traffic import answer, ask

BEGIN = datetime.datetime(2026, 3, 1, 23, 59, 50, 400_000, tzinfo=datetime.UTC)
PAST = PastRegisters("x", 7, BEGIN, 30.0, lambda _at: {})


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("23:59:50", 0.0), ("23:59:51", 0.6), (" 23:59:52.4", 2.0), ("23:59:52,4", 2.0), ("00:00:00", 9.6), ("0000", 9.6)],
)
def test_a_time_of_day_is_a_moment(text: str, seconds: float) -> None:
    assert PAST.moment(text) == pytest.approx(seconds)


@pytest.mark.parametrize(("text", "words"), [("soon", "such as 23:59:50"), ("00:01", "from 23:59:50 to 00:00:20")])
def test_what_is_none_is_said(text: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        PAST.moment(text)


def test_a_recording_knows_its_devices(tmp_path: Path) -> None:
    clocks = Clocks()
    path = tmp_path / "a.fanrec"
    written = writer(path, clocks)
    for second, raw in enumerate((8330, 1240)):
        written.add("speed", clocks.now + 10 * second, Quality.GOOD, (raw,))
    written.close()
    with Recording.open(path) as recording:
        (past,) = recorded(recording)
        assert "a.fanrec" in past.title
        assert past.unit == recording.project.followers[0].unit
        at = f"{past.begin + datetime.timedelta(seconds=5):%H:%M:%S}"
        assert list(past.registers(past.moment(at)).values()) == [8330]
        assert list(past.registers(past.seconds).values()) == [1240]


def test_what_was_heard_is_known_over_time() -> None:
    listener = Listener()
    for turn in range(20):
        for frame in (ask(7, 3, 100, 1), answer(7, 3, [8330 if turn < 10 else 1240])):
            listener.feed(frame, float(turn))
    heard = listener.heard(None, 20.0)
    past = heard_of(heard, 7, BEGIN)
    assert past is not None
    assert past.end == BEGIN
    assert past.registers(past.moment("23:59:36")) == {("holding", 100): 8330}
    assert past.registers(past.moment("23:59:49")) == {("holding", 100): 1240}
    assert heard_of(heard, 8, BEGIN) is None
