"""Which register is it: the rules, one by one, and how often it comes true over hidden devices."""

from __future__ import annotations

import random
from collections import Counter
from fractions import Fraction

import pytest

from app.listening.heard import HeardRequest, HeardUnit, HeardValues
from app.matching.candidates import DisplayReading, MatchResult
from app.matching.match import match
from app.matching.reading_ways import RegisterWords, Way
from app.matching.shown import shown
from app.signals.encoding import encode
from tests.hidden_banks import draw, operating_points


def compare(*readings: tuple[dict[int, int], str]) -> MatchResult:
    """Holding registers and what the display showed, several times."""
    return match(
        [DisplayReading({("holding", at): word for at, word in words.items()}, shown(text)) for words, text in readings]
    )


def crowd(seed: int, count: int = 200) -> dict[int, int]:
    """Registers that never change."""
    chance = random.Random(seed)
    return {
        at: chance.choice((0, 0, 0, chance.randint(0, 50), 500, 5000, chance.randrange(65_536))) for at in range(count)
    }


def at(words: dict[int, int], address: int, *more: int) -> dict[int, int]:
    return {**words, **{address + step: word for step, word in enumerate(more)}}


def test_two_readings_find_the_register_and_its_scale() -> None:
    crowded = crowd(1)
    found = compare((at(crowded, 37, 4165), "41.65 Hz"), (at(crowded, 37, 1212), "12.12 Hz"))
    first = found.candidates[0]
    assert first.best[:4] == ("holding", 37, Way("uint16"), Fraction(1, 100))
    assert first.one_in >= 10_000
    assert first.raws == (4165, 1212)
    assert found.changed == 1


def test_a_candidate_changes_when_the_value_does() -> None:
    """Register 3 holds 250 all the time, and register 4 moves the other way."""
    found = compare(({3: 250, 4: 251, 5: 0}, "25.0"), ({3: 250, 4: 250, 5: 9}, "25.1"))
    assert not [each for each in found.candidates if {3, 4} & set(each.best.places) and each.best.way.width == 1]


def test_a_candidate_resolves_what_is_shown() -> None:
    """Whole hertz cannot be what shows 25.0; tens can be what shows 1450, as far as it only ever shows tens."""
    assert not compare(({3: 25}, "25.0"), ({3: 38}, "38.0")).candidates
    tens = compare(({3: 145}, "1450 min-1"), ({3: 92}, "920 min-1")).candidates
    assert tens[0].best.slope == 10
    assert not compare(({3: 145}, "1450 min-1"), ({3: 92}, "921 min-1")).candidates


def test_one_digit_off_is_tolerated_and_told() -> None:
    crowded = crowd(2)
    found = compare(
        (at(crowded, 9, 4165), "41.65"), (at(crowded, 9, 1212), "12.13"), (at(crowded, 9, 3333), "33.33")
    ).candidates[0]
    assert (found.best.address, found.one_off) == (9, (1,))
    assert found.chance < 0.001
    assert not [
        each
        for each in compare((at(crowded, 9, 4165), "41.65"), (at(crowded, 9, 1212), "12.15")).candidates
        if each.best.address == 9 and each.best.slope == Fraction(1, 100)
    ]


def test_zeros_and_equal_readings_are_no_evidence() -> None:
    crowded = crowd(3)
    once = compare((at(crowded, 9, 4165), "41.65"), (at(crowded, 9, 1212), "12.12"))
    more = compare(
        (at(crowded, 9, 4165), "41.65"), (at(crowded, 9, 1212), "12.12"), (at(crowded, 9, 0), "0.00"),
        (at(crowded, 9, 4165), "41.65"),
    )  # fmt: skip
    assert more.told == (0, 1)
    assert more.candidates[0].chance == pytest.approx(once.candidates[0].chance, rel=0.5)
    only = compare((crowded, "0.0"), (crowded, "0.0"))
    assert (only.candidates, only.told) == ((), ())


def test_zeros_rule_out() -> None:
    found = compare(({3: 250, 7: 250}, "25.0"), ({3: 0, 7: 31}, "0.0"))
    assert {each.best.address for each in found.candidates if each.best.way == Way("uint16")} == {3}


def test_the_narrower_of_equal_explanations_is_told_and_the_others_are_named() -> None:
    """A 32-bit number below 65 536 beside a register of zeros."""
    first = compare(
        ({4: 0, 5: 4165, 6: 0, 7: 0}, "41.65"), ({4: 0, 5: 1212, 6: 0, 7: 0}, "12.12")
    ).candidates[0]  # fmt: skip
    assert first.best[:3] == ("holding", 5, Way("uint16"))
    named = {(each.address, each.way) for each in first.also}
    assert (4, Way("uint32")) in named
    assert (5, Way("uint32", "low-first")) in named
    assert (5, Way("int16")) in named
    large = compare(({4: 1, 5: 4165, 6: 0}, f"{(65_536 + 4165) / 100:.2f}"), ({4: 0, 5: 1212, 6: 0}, "12.12"))
    assert large.candidates[0].best[:3] == ("holding", 4, Way("uint32"))


def test_twins_share_their_chance_and_are_named() -> None:
    crowded = crowd(4)
    found = compare(
        (at(at(crowded, 9, 4165), 50, 4165), "41.65"), (at(at(crowded, 9, 1212), 50, 1212), "12.12")
    ).candidates
    assert {found[0].best.address, found[1].best.address} == {9, 50}
    assert found[0].chance == pytest.approx(0.5, rel=0.05)
    assert [each.address for each in found[0].twins] == [found[1].best.address]


@pytest.mark.parametrize("word_order", ["high-first", "low-first"])
@pytest.mark.parametrize("byte_order", ["high-first", "low-first"])
@pytest.mark.parametrize(
    "encoding", ["uint16", "int16", "uint32", "int32", "float32", "float64", "int64", "bcd16", "bcd32"]
)
def test_every_way_is_found(encoding: str, word_order: str, byte_order: str) -> None:
    word_order = "high-first" if encoding.endswith("16") else word_order
    way = Way(encoding, word_order, byte_order)  # type: ignore[arg-type]
    crowded = crowd(5)
    values = ("4.165", "-2.117") if encoding.startswith("int") else ("4.165", "2.117")
    slope = Fraction(1) if encoding.startswith("float") else Fraction(1, 1000)
    readings = [
        (at(crowded, 60, *encode(way.encoding, Fraction(value) / slope, way.word_order, way.byte_order)), value)
        for value in values
    ]
    first, *_ = compare(*readings).candidates
    assert (60, way) in {(each.address, each.way) for each in (first.best, *first.also)}
    assert first.best.slope == slope
    assert first.chance < 0.05


def test_a_free_straight_line_takes_three_readings() -> None:
    """Tenths of a kelvin, shown in degrees Celsius: 0 degrees Celsius are 273.15 K by definition."""
    crowded = crowd(6)
    temperatures = ("25.1", "60.4", "83.7", "41.9")
    readings = [(at(crowded, 11, round(10 * float(each)) + 2732), each) for each in temperatures]
    assert not [each for each in compare(*readings[:2]).candidates if each.best.address == 11]
    first = compare(*readings).candidates[0]
    assert (first.best.address, first.best.slope) == (11, Fraction(1, 10))
    assert -273.25 <= float(first.best.offset) <= -273.15
    assert first.chance >= 0.001, "what moves with a value often lies on a straight line with it"


def test_a_last_digit_that_flickers_makes_no_offset() -> None:
    """At 3.25 A the display shows 3.3, and a moment later the register holds 3.2 A (10 A are 4096).

    A straight line with an offset of 0.05 A would fit as well, and show 0.1 A at standstill.
    """
    crowded = crowd(6)
    found = compare(
        (at(crowded, 4, 1311), "3.3 A"),
        (at(crowded, 4, 2662), "6.5 A"),
        (at(crowded, 4, 3482), "8.5 A"),
        (at(crowded, 4, 0), "0.0 A"),
        (at(crowded, 4, 1843), "4.5 A"),
    ).candidates[0]
    assert (found.best.address, found.best.offset, found.one_off) == (4, Fraction(0), (0,))
    assert [round(found.best.value(raw), 1) for raw in (0, 1352, 1843, 3482)] == [0.0, 3.3, 4.5, 8.5]
    assert found.chance >= 0.0025


def test_an_unusual_scale_through_zero_takes_two_readings() -> None:
    crowded = crowd(7)
    first = compare(*((at(crowded, 11, raw), f"{raw / 80:.1f}") for raw in (3333, 1217, 2501))).candidates[0]
    assert (first.best.address, first.best.slope) == (11, Fraction(1, 80))


def test_the_low_word_of_a_float_moves_with_it() -> None:
    """The word before a float of the usual order would do as well for the low word of one of the other order."""
    crowded = crowd(8)
    first = compare(
        *((at(crowded, 20, 0, *encode("float32", float(text) + 0.0003)), text) for text in ("41.7", "12.1"))
    )
    assert first.candidates[0].best[:3] == ("holding", 21, Way("float32"))


def test_one_value_is_never_certain() -> None:
    assert compare(({3: 1, 4: 17_185}, "82721")).candidates[0].chance >= 0.02


def test_nothing_at_all() -> None:
    assert match([]).candidates == ()
    assert compare(({}, "25.0")).candidates == ()
    assert compare(({3: 7}, "25.0"), ({3: 7}, "30.0")).changed == 0


def test_input_registers_count_as_well() -> None:
    moments: list[RegisterWords] = [{("input", 8): raw, ("holding", 8): 3} for raw in (4165, 1212)]
    found = match([DisplayReading(moments[0], shown("41.65")), DisplayReading(moments[1], shown("12.12"))])
    assert (found.candidates[0].best.table, found.candidates[0].best.address) == ("input", 8)


def test_from_listening_without_asking_the_device() -> None:
    """What another master reads, at the times when somebody looked at the display."""
    samples = (HeardValues(0.0, (7, 4165, 0)), HeardValues(8.0, (7, 2001, 0)), HeardValues(20.0, (7, 1212, 0)))
    asked = HeardRequest(3, "holding", 100, 3, False, asked=40, answered=40, last_s=30.0, samples=samples)
    unit = HeardUnit(5, (3,), (asked,))
    found = match([DisplayReading(unit.words(5.0), shown("41.65")), DisplayReading(unit.words(), shown("12.12"))])
    assert (found.candidates[0].best.address, found.candidates[0].best.slope) == (101, Fraction(1, 100))


def test_hidden_devices_are_found_and_certainty_is_not_claimed_falsely() -> None:
    """The small version of `tests/bench/matching.py`, which has the figures; the bounds here allow for 150 devices."""
    count: Counter[str] = Counter()
    for seed in range(150):
        chance = random.Random(seed)
        device = draw(chance)
        found = match([device.reading(x, chance) for x in operating_points(chance, device, 2)]).candidates
        count["first"] += any(map(device.names_it, found[:1]))
        count["third"] += any(map(device.names_it, found[:3]))
        count["false"] += bool(found) and found[0].chance <= 0.001 and not device.names_it(found[0])
    assert count["first"] >= 0.90 * 150
    assert count["third"] >= 0.97 * 150
    assert count["false"] == 0


def test_whatever_is_told_holds() -> None:
    """Of arbitrary registers and readings: each candidate is checked by exact arithmetic, not by the arrays."""
    chance = random.Random(12)
    told = 0
    for _ in range(60):
        small = chance.choice((3, 60, 3000, 65_536))
        readings = []
        for _ in range(chance.randint(1, 5)):
            decimals = chance.randint(0, 2)
            words: RegisterWords = {
                (chance.choice(("holding", "input")), chance.randint(0, 60)): chance.randrange(small) for _ in range(60)
            }
            readings.append(DisplayReading(words, shown(f"{chance.uniform(-3, 90):.{decimals}f}")))
        found = match(readings)
        assert [each.chance for each in found.candidates] == sorted(each.chance for each in found.candidates)
        for each in found.candidates:
            assert 0 < each.chance <= 1
            for meaning in (each.best, *each.also, *each.twins):
                for number, (words, display) in enumerate(readings):
                    raw = meaning.way.raw(words, meaning.table, meaning.address)
                    assert raw is not None
                    off = abs(meaning.slope * Fraction(raw) + meaning.offset - display.value)
                    spare = abs(display.value) / 10**5
                    assert off <= 2 * (display.half + display.digit) + spare
                    assert number in each.one_off or off <= display.half + spare or meaning != each.best
                told += 1
    assert told > 100
