"""What a line's bytes tell of another master and its devices, though nothing is sent and no time is known."""

from __future__ import annotations

import random

import pytest

from app.listening.heard import Heard, HeardRange
from app.listening.listener import MOST_SAMPLES, Listener
from app.modbus.serial_port import LineSettings
from tests.traffic import answer, ask, bits_answer, framed, words_of, write_many

SETTINGS = LineSettings(19_200, "even", 1)


def heard(*frames: bytes, lump: int = 0) -> Heard:
    """What is understood of these frames, one a tenth of a second, or in lumps of so many bytes."""
    listener = Listener()
    pieces = list(frames)
    if lump:
        data = b"".join(frames)
        pieces = [data[at : at + lump] for at in range(0, len(data), lump)]
    for place, piece in enumerate(pieces):
        listener.feed(piece, place / 10)
    return listener.heard(SETTINGS, len(pieces) / 10)


def poll(unit: int, first: int, values: list[int], function: int = 3) -> bytes:
    return ask(unit, function, first, len(values)) + answer(unit, function, values)


# Pairs and what is read by them


def test_examples_of_the_standard_are_understood() -> None:
    # MODBUS Application Protocol V1.1b3, sections 6.1, 6.3 and 6.4 (from memory).
    pairs = (
        ("01 00 13 00 13", "01 03 CD 6B 05"),
        ("03 00 6B 00 03", "03 06 02 2B 00 00 00 64"),
        ("04 00 08 00 01", "04 02 00 0A"),
    )
    frames = [framed(17, bytes.fromhex(part)) for pair in pairs for part in pair]
    unit = heard(*frames, *frames).unit(17)
    assert unit is not None
    assert unit.functions == (1, 3, 4)
    assert unit.ranges == (HeardRange("coil", 19, 37), HeardRange("holding", 107, 109), HeardRange("input", 8, 8))
    words = unit.words()
    assert [words["holding", at] for at in (107, 108, 109)] == [0x022B, 0, 0x64]
    assert words["input", 8] == 10
    # "the status of outputs 27-20 is shown as the byte value CD hex": coil 20 (wire 19) is its lowest bit.
    assert [words["coil", at] for at in range(19, 27)] == [1, 0, 1, 1, 0, 0, 1, 1]
    assert [words["coil", at] for at in (35, 36, 37)] == [1, 0, 1]


def test_nothing_is_believed_that_came_once() -> None:
    once = poll(5, 100, [8330, 0])
    assert not heard(once).understood
    assert heard(once).pairs == 1
    assert heard(once, once).understood


@pytest.mark.parametrize("lump", [1, 2, 7, 62, 4096])
def test_it_does_not_matter_how_bytes_are_lumped(lump: int) -> None:
    frames = [poll(5, 100, [8330 + step, 7]) for step in range(40)]
    assert heard(*frames, lump=lump).units[0].ranges == (HeardRange("holding", 100, 101),)
    assert heard(*frames, lump=lump).pairs == 40


def test_values_are_followed_over_time() -> None:
    values = [10, 10, 10, 8330, 8330, 12]
    unit = heard(*(poll(1, 4, [value]) for value in values)).units[0]
    assert list(unit.history("holding", 4)) == [(0.0, 10), (0.3, 8330), (0.5, 12)]
    assert unit.words(0.2) == {("holding", 4): 10}
    assert unit.words(0.35) == {("holding", 4): 8330}
    assert unit.words() == {("holding", 4): 12}


def test_a_register_that_two_reads_hold_has_the_newer_value() -> None:
    wide, narrow = poll(1, 0, [1, 2, 3]), poll(1, 1, [9])
    assert heard(wide, narrow, wide, narrow).units[0].words()["holding", 1] == 9
    assert heard(narrow, wide, narrow, wide).units[0].words()["holding", 1] == 2


def test_changes_that_are_kept_have_an_end() -> None:
    unit = heard(*(poll(1, 0, [step]) for step in range(MOST_SAMPLES + 10))).units[0]
    assert len(unit.requests[0].samples) == MOST_SAMPLES
    assert unit.words() == {("holding", 0): MOST_SAMPLES + 9}


def test_words_of_two_moments_are_what_matching_takes() -> None:
    from app.matching.reading_ways import RegisterWords

    unit = heard(*(poll(1, 4, [value]) for value in (10, 8330))).units[0]
    before: RegisterWords = unit.words(0.05)
    after: RegisterWords = unit.words()
    assert (before["holding", 4], after["holding", 4]) == (10, 8330)


# Which shape a frame has


def test_a_request_for_coils_with_the_shape_of_an_answer_is_told_by_what_follows() -> None:
    # Its first address, 0x0305, reads as a byte count of three: 5 + 3 bytes, as a request has.
    one = ask(1, 1, 0x0305, 20) + bits_answer(1, 1, [1, 0] * 10)
    unit = heard(one, one, one).units[0]
    assert unit.ranges == (HeardRange("coil", 0x0305, 0x0305 + 19),)
    assert unit.requests[0].answered == 3


def test_an_answer_with_the_shape_of_a_request_is_told_by_what_went_before() -> None:
    one = ask(1, 2, 0, 24) + bits_answer(1, 2, [0] * 8 + [1] * 16)
    found = heard(one, one, ask(1, 2, 0, 24), one)
    assert [(request.first, request.count) for request in found.units[0].requests] == [(0, 24)]
    assert found.units[0].requests[0].answered == 3


def test_an_answer_is_not_taken_for_that_to_a_request_of_another_length() -> None:
    found = heard(*(ask(1, 3, 0, 3) + answer(1, 3, [1, 2]) for _ in range(4)))
    assert found.pairs == 0
    assert [unit.answers for unit in found.units] == [False]


def test_the_answer_behind_a_damaged_answer_and_a_damaged_request_belongs_to_neither() -> None:
    broken = bytearray(answer(1, 3, [5, 6]) + ask(1, 3, 50, 2))
    broken[4] ^= 1
    broken[-1] ^= 1
    found = heard(*(ask(1, 3, 10, 2) + bytes(broken) + answer(1, 3, [7, 8]) for _ in range(5)))
    assert found.pairs == 0


def test_a_bit_of_noise_between_request_and_answer_does_no_harm() -> None:
    found = heard(*(ask(1, 3, 10, 2) + b"\x00\xff" + answer(1, 3, [7, 8]) for _ in range(3)))
    assert found.pairs == 3
    assert found.stray == 6


def test_an_answer_minutes_later_is_that_to_another_request() -> None:
    listener = Listener()
    for at in range(0, 400, 100):
        listener.feed(ask(1, 3, 10, 1), at)
        listener.feed(answer(1, 3, [7]), at + 50)
    assert listener.pairs == 0


# What the other master writes


def test_writes_are_seen_with_what_they_write() -> None:
    coil = framed(1, bytes.fromhex("05 00 AC FF 00"))
    register = framed(1, bytes.fromhex("06 00 01 20 8A"))
    registers = write_many(1, 700, [3, 4])
    coils = framed(1, bytes.fromhex("0F 00 13 00 0A 02 CD 01"))
    mask = framed(1, bytes.fromhex("16 00 04 00 F2 00 25"))
    both = framed(1, b"\x17" + words_of((800, 2, 900, 1)) + b"\x02" + words_of((77,)))
    once = (
        coil + coil,
        register + register,
        registers + framed(1, registers[1:6]),
        coils + framed(1, coils[1:6]),
        mask + mask,
        both + answer(1, 23, [5, 6]),
    )
    unit = heard(*once, *once).units[0]
    assert unit.functions == (5, 6, 15, 16, 22, 23)
    written = {
        (request.function, request.first): request.samples[0].words if request.samples else ()
        for request in unit.requests
        if request.writes
    }
    assert written == {
        (5, 0xAC): (1,),
        (6, 1): (8330,),
        (15, 0x13): (1, 0, 1, 1, 0, 0, 1, 1, 1, 0),
        (16, 700): (3, 4),
        (22, 4): (),
        (23, 900): (77,),
    }
    assert unit.words()["holding", 800] == 5
    assert unit.words()["holding", 700] == 3


def test_a_single_write_counts_at_a_unit_that_is_known() -> None:
    write = framed(1, bytes.fromhex("06 00 01 20 8A"))
    assert not heard(write, write).understood
    known = poll(1, 50, [3])
    assert heard(known, known, write, write).units[0].words()["holding", 1] == 8330


def test_what_everybody_is_told_is_seen_and_nobody_answers() -> None:
    stop = framed(0, bytes.fromhex("06 00 01 00 00"))
    found = heard(stop, stop, *(poll(1, 5, [1]) for _ in range(2)))
    assert found.unit(0) is not None
    everybody, device = found.units
    assert (everybody.unit, everybody.answers, everybody.words()) == (0, False, {("holding", 1): 0})
    assert device.answers


# What does not answer


def test_a_unit_that_is_asked_and_never_answers_is_told() -> None:
    found = heard(*(ask(9, 3, 0, 2) for _ in range(5)))
    assert [(unit.unit, unit.answers, unit.ranges) for unit in found.units] == [(9, False, ())]
    assert found.units[0].requests[0].asked == 5


def test_refusals_are_counted_by_their_code_and_prove_no_register() -> None:
    refused = ask(1, 3, 9000, 4) + framed(1, b"\x83\x02")
    unit = heard(refused, refused, refused).units[0]
    assert unit.requests[0].refused == {2: 3}
    assert unit.ranges == ()
    assert unit.answers


# Noise


def test_noise_alone_is_understood_as_nothing() -> None:
    draw = random.Random(12)
    listener = Listener()
    for step in range(300):
        listener.feed(draw.randbytes(1000), step / 10)
    found = listener.heard(SETTINGS, 30)
    assert not found.understood
    assert found.pairs == 0
    assert found.characters == 300_000
    assert 0 < found.frames < 30  # about nine a million by chance, from the research of this project: it is not zero


def test_what_had_begun_does_not_wait_for_ever() -> None:
    listener = Listener()
    listener.feed(b"\x01\x03\xfa" + b"\x00" * 4, 0.0)  # the beginning of an answer of 255 bytes that never comes
    for step in range(1, 3):
        listener.feed(poll(1, 0, [4]), float(step))
    assert listener.pairs == 2


def test_it_is_told_to_scripts() -> None:
    told = heard(*(poll(5, 100, [8330, 0]) for _ in range(2))).as_json()
    assert told["settings"] == "19200 8E1"
    assert told["units"] == [
        {
            "unit": 5,
            "answers": True,
            "functions": [3],
            "ranges": [{"table": "holding", "first": 100, "last": 101}],
            "requests": [
                {
                    "function": 3,
                    "table": "holding",
                    "first": 100,
                    "last": 101,
                    "writes": False,
                    "asked": 2,
                    "answered": 2,
                    "refused": {},
                    "values": [8330, 0],
                }
            ],
        }
    ]
