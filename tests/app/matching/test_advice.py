"""What is said about a match."""

from __future__ import annotations

import random

import pytest

from app.matching.advice import advice, mere_chance
from tests.app.matching.test_match import at, compare, crowd

CROWD = crowd(1)


@pytest.mark.parametrize(
    ("readings", "words"),
    [
        ([({3: 0}, "0.0")], "0 is no evidence"),
        ([({3: 250}, "25.0")], "One value alone"),
        ([({3: 250}, "25.0"), ({3: 250}, "25.0")], "once more is no evidence (reading 2)"),
        ([({3: 250}, "25.0"), ({3: 250}, "31.0")], "No register changed"),
        ([({3: 7}, "25.0"), ({3: 8}, "3.0")], "A third reading"),
        ([({3: 7}, "25.0"), ({3: 8}, "3.0"), ({3: 9}, "31.0")], "Check what was typed"),
        ([({3: 7}, "25.0 A"), ({3: 8}, "30 Hz"), ({3: 9}, "31 hz")], "different units: A, hz."),
        ([({3: 7}, "25.0 Hz"), ({3: 8}, "3.0"), ({3: 9}, "31.0 hz")], "Check what was typed"),
        ([(at(CROWD, 9, 4165), "41.65"), (at(CROWD, 9, 1212), "12.13")], "one too high or too low"),
        ([({4: 0, 5: 4165}, "41.65 Hz"), ({4: 0, 5: 1212}, "12.12 Hz")], "a value above 655.35 Hz would tell"),
        ([({5: 4165}, "41.65"), ({5: 1212}, "12.12")], "or one above 327.67"),
        (
            [({5: 4165, 9: 4165}, "41.65"), ({5: 1212, 9: 1212}, "12.12")],
            "reading: holding register 5, holding register 9.",
        ),
        ([({5: 400, 9: 401}, "40.0"), ({5: 201, 9: 200}, "20.0")], "Other registers are possible as well: 1."),
        (
            [({4: 0, 5: 0, 6: 1, 7: 4165}, "69701"), ({4: 0, 5: 0, 6: 2, 7: 12}, "131084")],
            "a value above 4294967295 would tell",
        ),
        ([({5: 400, 9: 401}, "40.0"), ({5: 201, 9: 200}, "20.0")], "An uneven value such as 28.3"),
    ],
)
def test_sentences(readings: list[tuple[dict[int, int], str]], words: str) -> None:
    assert words in " ".join(advice(compare(*readings)))


def test_what_cannot_be_told_apart_comes_before_what_hardly_matters() -> None:
    """Whoever takes a set point for the actual value is misled; the sign of a speed that is never so high is not."""
    found = compare(({4: 0, 5: 4165, 9: 4165}, "41.65 Hz"), ({4: 0, 5: 1212, 9: 1212}, "12.12 Hz"))
    first, *others = advice(found)
    assert first.startswith("The same value at every reading")
    assert "coarser step" in first
    assert not any("to be sure" in each for each in others), "no other value tells them apart"
    assert any("would tell" in each for each in others)


def test_what_agrees_by_chance_is_called_so() -> None:
    """No register holds what was typed, as after a reading that was taken while the value moved; but among twenty that
    move by themselves there is a straight line."""
    stray = random.Random(3)
    texts = "7.7 A", "5.5 A", "9.0 A"
    moving = [at(CROWD, 20, *(stray.randrange(65_536) for _ in range(20))) for _ in texts]
    found = compare(*zip(moving, texts, strict=True))
    assert mere_chance(found)
    assert "agrees by chance, most likely" in advice(found)[0]
    steady = compare(*zip([at(CROWD, 5, raw) for raw in (770, 550, 900)], texts, strict=True))
    assert not mere_chance(steady)
    assert not mere_chance(compare((at(CROWD, 5, 770), "7.7 A")))
    assert not mere_chance(compare())


def test_nothing_more_is_asked_for_when_it_is_clear() -> None:
    found = compare((at(CROWD, 9, 41_650), "416.50"), (at(CROWD, 9, 64_612), "646.12"), (at(CROWD, 9, 33), "0.33"))
    assert found.candidates[0].one_in >= 1000
    assert not [each for each in advice(found) if "again" in each]
    assert advice(compare()) == ()
