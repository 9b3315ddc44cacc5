"""What a reader of a trial is told of its steps."""

from __future__ import annotations

import pytest

from app.trial.words import range_words, step_words
from tests.trial_panel import case, small

SAID = [
    ('{ key = "up", times = 3, hold_s = 1.5 }', "press up 3 times, held for 1.5 s"),
    ('{ keys = ["up", "down"] }', "press up, down"),
    ('{ enter = "level", value = 50 }', "enter 50 % for 'level'"),
    ('{ enter = "level", value = 101, refused = true }', "try to enter 101 % for 'level': must not be possible"),
    ('{ order = "tank.level=3" }', "simulated: tank.level=3"),
    ("{ wait = 2 }", "wait 2 s"),
    ('{ wait = { screen = "set" } }', "wait until screen 'set' is shown"),
    ('{ expect = { screen = "set", row = 2, text = "Mode" } }', "expect: screen 'set' is shown, row 2 is 'Mode'"),
    ('{ expect = { row = 2, like = "M*" }, hold_s = 2 }', "expect: row 2 is like 'M*', for 2 s"),
    ('{ expect = { row = 1, cells = "TANK" } }', "expect: row 1 is 'TANK', cell by cell"),
    ('{ expect = { signal = "level", value = 5, tolerance = "1%" } }', "expect: 'level' is 5 %, give or take 1%"),
    (
        '{ expect = { signal = "level", above = 5, below = 6.5 } }',
        "expect: 'level' is above 5 % and below 6.5 %",
    ),
    ('{ expect = { signal = "mode", text = "fill" } }', "expect: 'mode' is 'fill'"),
    ('{ expect = { signal = "mode", quality = ["stale", "none"] } }', "expect: 'mode' reads stale / none"),
    ('{ expect = { event = "written", about = "level" } }', "expect: event 'written' of 'level'"),
    ('{ ask = "Does it turn?" }', "Does it turn?"),
    ('{ measure = "supply", unit = "V" }', "measure: supply"),
    ('{ note = "So far." }', "So far."),
]


@pytest.mark.parametrize(("step", "words"), SAID, ids=[words for _, words in SAID])
def test_every_step_is_said_in_a_line(step: str, words: str) -> None:
    assert step_words(small(), case(step).cases[0].steps[0]) == words


def test_an_alarm_is_said_in_the_words_of_the_list_of_alarms() -> None:
    said = step_words(small(), case('{ expect = { alarm = "too high", state = "UNACK" } }').cases[0].steps[0])
    assert said.startswith("expect: alarm 'too high' is ")
    assert "UNACK" not in said


def test_a_range_may_be_open() -> None:
    step = case('{ measure = "supply", at_least = 360, at_most = 440.5 }').cases[0].steps[0]
    low, high = step.at_least, step.at_most  # type: ignore[union-attr]
    assert range_words(low, high, "V") == "360 to 440.5 V"
    assert range_words(low, None, "V") == "at least 360 V"
    assert range_words(None, high, "") == "at most 440.5"
    assert range_words(None, None, "V") == "any value, V"
