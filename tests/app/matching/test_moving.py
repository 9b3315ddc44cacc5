"""Whether a display moved while it was read, told from its register among many that stand or move by themselves."""

from __future__ import annotations

import pytest

from app.matching.candidates import DisplayReading
from app.matching.moving import still_moving
from app.matching.reading_ways import RegisterWords
from app.matching.shown import shown
from tests.app.matching.test_match import at, crowd


def words(raw: int, other: int = 0) -> RegisterWords:
    """Register 37 is that of the display, in hundredths; 60 moves by itself."""
    held = at(at(crowd(1), 37, raw), 60, other)
    return {("holding", address): word for address, word in held.items()}


def two(raw: int, text: str) -> list[DisplayReading]:
    """One that was read well, and one more."""
    return [DisplayReading(words(1240, 7), shown("12.40 Hz")), DisplayReading(words(raw, 8), shown(text))]


@pytest.mark.parametrize(
    ("raw", "text", "again", "moving"),
    [
        (4165, "41.65 Hz", words(4165, 8), False),
        (4165, "41.65 Hz", words(4165, 999), False),
        (4165, "41.65 Hz", words(4171, 8), True),
        (4165, "41.6 Hz", words(4168, 8), False),
        (4300, "41.65 Hz", words(4420, 8), True),
        (4165, "41.65 Hz", {}, False),
    ],
    ids=["all stand", "another one moves", "it moves", "by less than it shows", "typed too late", "not read again"],
)
def test_of_two_readings(raw: int, text: str, again: RegisterWords, moving: bool) -> None:
    assert still_moving(two(raw, text), again) is moving


def test_of_one_reading() -> None:
    first = [DisplayReading(words(4165, 7), shown("41.65 Hz"))]
    assert still_moving(first, words(4180, 7))
    assert not still_moving(first, words(4165, 9))


def test_a_step_that_somebody_gave_is_no_movement() -> None:
    coarse = [DisplayReading(each.registers, shown(each.shown.text, shown("0.5").value)) for each in two(4165, "41.65")]
    assert not still_moving(coarse, words(4180, 8))
    assert still_moving(coarse, words(4280, 8))
