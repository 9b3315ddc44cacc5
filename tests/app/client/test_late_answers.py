"""How long a silent unit is listened for, and by how much a slow one is too slow."""

from __future__ import annotations

from app.client.late_answers import KNOWN_S, LINGERING, MOST, PATIENCE, SILENT, Lateness

T = 0.3


def test_a_unit_that_is_not_known_to_be_slow_is_listened_for_a_little_longer() -> None:
    lateness = Lateness(T)
    assert not lateness.slow(3, 10.0)
    assert lateness.until(3, 10.0, 10.0 + T) == 10.0 + T * (1 + LINGERING)


def test_how_late_it_is_is_counted_from_when_it_could_begin() -> None:
    lateness = Lateness(T)
    assert round(lateness.late(3, 10.0, 10.5), 6) == 0.2
    # Asked 20 ms before its first answer: it began with this when it had given that one.
    assert round(lateness.late(3, 10.48, 11.0), 6) == 0.2
    assert round(lateness.late(4, 10.48, 11.0), 6) == 0.22, "units do not wait for each other"


def test_a_slow_unit_is_listened_for_as_long_as_it_takes_and_not_for_ever() -> None:
    lateness = Lateness(T)
    lateness.late(3, 10.0, 10.5)
    assert lateness.slow(3, 10.5)
    assert lateness.until(3, 10.48, 10.78) == 10.5 + PATIENCE * 0.5
    lateness.late(3, 20.0, 25.0)
    assert lateness.until(3, 30.0, 30.3) == 30.0 + MOST * T
    assert not lateness.slow(3, 25.0 + KNOWN_S)


def test_a_slow_unit_that_is_silent_again_and_again_counts_as_dead() -> None:
    lateness = Lateness(T)
    lateness.late(3, 10.0, 10.5)
    for _ in range(SILENT - 1):
        lateness.gave_up(3)
    lateness.note_answer(3, 12.0)
    for _ in range(SILENT - 1):
        lateness.gave_up(3)
    assert lateness.slow(3, 13.0)
    lateness.gave_up(3)
    assert not lateness.slow(3, 13.0)
