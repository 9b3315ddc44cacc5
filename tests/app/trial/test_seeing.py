"""What counts as seen: rows in three ways, values within a tolerance, and nothing that is older than the last deed."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from app.trial.script import Expectation
from app.trial.seeing import concerned, fits, look, patience, picture, tolerance_of
from app.trial.stand import RehearsedStand
from tests.trial_panel import small


@pytest.fixture
def stand() -> RehearsedStand:
    made = RehearsedStand(small())
    made.begin()
    return made


def sees(stand: RehearsedStand, **keys: object) -> bool:
    return look(stand, Expectation(**keys), 0.0, ()).holds  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("keys", "so"),
    [
        ({"text": "Level  42.5 %"}, True),
        ({"text": "Level 42.5 %"}, False),
        ({"text": "  Level  42.5 %  "}, True),
        ({"like": "Level*%"}, True),
        ({"like": "Level  ??.? %"}, True),
        ({"like": "Level  ??.?? %"}, False),
        ({"like": "level*"}, False),
        ({"cells": "Level  42.5 %"}, True),
        ({"cells": " Level  42.5 %"}, False),
    ],
    ids=str,
)
def test_a_row_is_seen_as_text_as_pattern_or_cell_by_cell(
    stand: RehearsedStand, keys: dict[str, object], so: bool
) -> None:
    assert sees(stand, row=2, **keys) is so


def test_letters_that_mean_something_in_patterns_are_letters(stand: RehearsedStand) -> None:
    assert not sees(stand, row=1, like="T.NK")
    assert not sees(stand, row=1, like="[T]ANK")


def test_a_signal_is_seen_by_its_value_its_text_and_its_quality(stand: RehearsedStand) -> None:
    assert sees(stand, signal="level", value=Decimal("42.5"))
    assert not sees(stand, signal="level", value=Decimal("42.6"))
    assert sees(stand, signal="level", above=Decimal(42), below=Decimal(43))
    assert not sees(stand, signal="level", above=Decimal("42.5"))
    assert sees(stand, signal="mode", text="off")
    assert sees(stand, signal="level", quality=("stale", "good"))
    assert not sees(stand, signal="level", quality="none")


def test_the_tolerance_is_half_of_the_last_digit_unless_it_is_said() -> None:
    project = small()
    for tolerance, wide in ((None, Fraction(1, 20)), (Decimal("0.4"), Fraction(2, 5)), ("2%", Fraction(1))):
        seen = Expectation(signal="level", value=Decimal(50), tolerance=tolerance)
        assert tolerance_of(project, seen, Fraction(50)) == wide
        assert fits(project, seen, 50 + wide)
        assert not fits(project, seen, 50 + wide + Fraction(1, 1000))


def test_what_was_read_before_the_last_deed_cannot_be_judged(stand: RehearsedStand) -> None:
    seen = Expectation(signal="level", value=Decimal("42.5"))
    assert look(stand, seen, stand.now() + 1, ()).blocked
    row = Expectation(row=2, text="Level  42.5 %")
    assert "not read again" in look(stand, row, stand.now() + 1, ()).blocked
    held = Expectation(signal="gain", value=Decimal("1.5"))
    assert look(stand, held, stand.now() + 1, ()).holds  # the panel's own is never old


def test_a_device_that_is_silent_blocks_what_needs_it_but_not_the_question_whether_it_is(
    stand: RehearsedStand,
) -> None:
    stand.order("tank.silent=on")
    stand.tick()
    assert look(stand, Expectation(signal="level", value=Decimal("42.5")), 0.0, ()).blocked
    assert look(stand, Expectation(row=2, text="Level  42.5 %"), 0.0, ()).blocked
    assert sees(stand, signal="level", quality=("stale", "none"))
    assert sees(stand, row=1, text="TANK")


def test_what_a_row_is_about_are_the_signals_of_its_fields(stand: RehearsedStand) -> None:
    assert concerned(stand, Expectation(screen="set", row=2, like="*")) == ("mode",)
    assert concerned(stand, Expectation(row=1, like="*")) == ()
    assert concerned(stand, Expectation(signal="gain", value=Decimal(1))) == ("gain",)


def test_slow_signals_are_waited_for_longer(stand: RehearsedStand) -> None:
    # 2 s, and twice the 500 ms between two reads and the 300 ms that an answer may take.
    assert patience(stand, Expectation(signal="level", value=Decimal(1))) == pytest.approx(3.6)
    assert patience(stand, Expectation(screen="set")) == pytest.approx(2.6)


def test_the_picture_has_raw_value_quality_and_age(stand: RehearsedStand) -> None:
    seen = picture(stand, ["level"])
    assert (seen.screen, seen.rows[1].rstrip()) == ("run", "Level  42.5 %")
    reading = seen.readings[0]
    assert (reading.value, reading.raw, reading.quality) == ("42.5 %", "425", "good")
    assert reading.age_s == pytest.approx(0.0, abs=0.05)


def test_an_alarm_is_seen_in_its_state(stand: RehearsedStand) -> None:
    stand.order("tank.high=1")
    for _ in range(3):
        stand.tick()
    assert sees(stand, alarm="too high", state="UNACK")
    assert not sees(stand, alarm="too high", state="NORM")
