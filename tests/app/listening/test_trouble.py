"""Trouble is named from what was counted, likeliest first, and it is said where the counts do not tell."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from app.listening.evidence import EvidenceGatherer, LineEvidence
from app.listening.listener import Listener
from app.listening.trouble import LineTrouble, line_trouble
from app.modbus.serial_port import LineSettings, Parity
from tests.serial_port import frames_as_bits, sampled
from tests.traffic import answer, ask

FRAMES = [frame for at in range(20) for frame in (ask(1, 3, 10 * at, 5), answer(1, 3, [8330 + at, 0, 17, 65_535, at]))]
GOOD = answer(7, 3, [8330])
SPEEDS = (1200, 2400, 4800, 9600, 19_200, 38_400, 57_600, 115_200)


def listened(sender: tuple[int, Parity], receiver: tuple[int, Parity], *, inverted: bool = False) -> LineEvidence:
    """What a port counts of another master's traffic, sampled bit by bit."""
    line = frames_as_bits(FRAMES, sender[1])
    if inverted:
        line = [1 - level for level in line]
    got = sampled(line, sender[0], receiver, rest=1 - inverted, keep=True)
    listener = Listener()
    listener.feed(got.data, 0.0)
    gather = EvidenceGatherer(LineSettings(receiver[0], receiver[1], 1))
    gather.listened(
        1.0,
        got.data,
        listener.frames,
        listener.stray,
        parity_errors=got.parity_errors,
        framing_errors=got.framing_errors,
        breaks=got.breaks,
    )
    return gather.evidence()


def kinds(trouble: LineTrouble) -> list[tuple[str, str]]:
    return [(one.kind, one.likelihood) for one in trouble.suspicions]


def asked(units: Sequence[int] = (7,), times: int = 20) -> EvidenceGatherer:
    """So many sound answers of each unit."""
    gather = EvidenceGatherer(LineSettings(19_200, "even", 1))
    for unit in units:
        for _ in range(times):
            gather.asked(unit, "answer", answer(unit, 3, [8330]))
    return gather


def test_a_sound_line_has_no_trouble() -> None:
    trouble = line_trouble([asked().evidence()])
    assert trouble.suspicions == ()
    assert "Nothing" in trouble.summary


def test_nothing_at_all_says_nothing() -> None:
    assert line_trouble([]).suspicions == ()
    assert "Too little" in line_trouble([LineEvidence()]).summary


# Speed, parity and swapped wires, on a line that is sampled bit by bit


@pytest.mark.parametrize("speed", [4800, 9600, 38_400, 57_600, 115_200])
def test_a_wrong_speed_is_suspected(speed: int) -> None:
    trouble = line_trouble([listened((19_200, "even"), (speed, "even"))])
    assert kinds(trouble)[0] == ("speed", "likely")
    assert "speeds tried: 1" in trouble.suspicions[0].evidence


@pytest.mark.parametrize("sends", ["even", "odd"])
def test_the_other_parity_is_told_though_frames_are_sound(sends: Parity) -> None:
    trouble = line_trouble([listened((19_200, sends), (19_200, "odd" if sends == "even" else "even"))])
    assert kinds(trouble) == [("parity", "very likely")]


def test_a_parity_bit_that_is_not_expected_is_told() -> None:
    assert kinds(line_trouble([listened((19_200, "even"), (19_200, "none"))])) == [("parity", "very likely")]


def test_a_parity_bit_that_does_not_come_looks_like_another_speed_and_is_named_beside_it() -> None:
    trouble = line_trouble([listened((9600, "none"), (9600, "even"))])
    assert [kind for kind, _ in kinds(trouble)] == ["speed", "parity", "swapped wires"]


def test_swapped_wires_come_first_once_no_usual_speed_gives_a_frame() -> None:
    some = [listened((19_200, "even"), (speed, "even"), inverted=True) for speed in SPEEDS[:3]]
    every = [listened((19_200, "even"), (speed, "even"), inverted=True) for speed in SPEEDS]
    assert kinds(line_trouble(some))[0] == ("speed", "likely")
    assert kinds(line_trouble(every))[0] == ("swapped wires", "likely")


def test_a_line_that_rests_at_the_wrong_level_has_swapped_wires() -> None:
    evidence = []
    for speed in SPEEDS[:3]:
        got = sampled([0] * 50, 1200, (speed, "even"), rest=0)
        assert (len(got.data), got.breaks) == (1, 1)
        gather = EvidenceGatherer(LineSettings(speed, "even", 1))
        gather.listened(0.5, got.data, 0, 1, framing_errors=0, breaks=1)
        evidence.append(gather.evidence())
    assert kinds(line_trouble(evidence)) == [("swapped wires", "likely")]


def test_where_the_port_counts_no_errors_its_bytes_are_judged() -> None:
    # As a POSIX terminal in raw mode hands on characters without a stop bit: as zeros.
    got = sampled(frames_as_bits(FRAMES, "even"), 19_200, (57_600, "even"))
    gather = EvidenceGatherer(LineSettings(57_600, "even", 1))
    gather.listened(1.0, got.data, 0, len(got.data))
    evidence = gather.evidence()
    assert evidence.framing_errors is None
    assert kinds(line_trouble([evidence]))[0] == ("speed", "likely")


def test_frames_in_ascii_mode_are_known() -> None:
    gather = EvidenceGatherer(LineSettings(9600, "none", 1))
    gather.listened(1.0, b":010300000001FB\r\n" * 4, 0, 68, framing_errors=0)
    assert kinds(line_trouble([gather.evidence()])) == [("other protocol", "very likely")]


def test_sound_characters_without_a_frame_are_another_protocol() -> None:
    gather = EvidenceGatherer(LineSettings(9600, "even", 1))
    gather.listened(1.0, bytes(range(0x41, 0x7F)), 0, 62, framing_errors=0, parity_errors=0)
    assert kinds(line_trouble([gather.evidence()])) == [("other protocol", "possible")]


# Silence


def silent(*speeds: int) -> list[LineEvidence]:
    gathered = []
    for speed in speeds:
        gather = EvidenceGatherer(LineSettings(speed, "even", 1))
        for unit in range(1, 30):
            gather.asked(unit, "silence", b"")
        gathered.append(gather.evidence())
    return gathered


def test_silence_has_several_causes_and_the_speed_is_none_once_all_usual_ones_were_tried() -> None:
    trouble = line_trouble(silent(*SPEEDS))
    assert kinds(trouble) == [("contact", "likely"), ("swapped wires", "possible")]
    assert f"for {29 * len(SPEEDS)} requests; speeds tried: {len(SPEEDS)}" in trouble.suspicions[0].evidence
    assert "in this order" in trouble.summary
    assert ("speed", "possible") in kinds(line_trouble(silent(19_200)))


def test_it_is_too_early_to_say_anything_of_a_silence_that_was_cut_short() -> None:
    trouble = line_trouble(silent(19_200), finished=False)
    assert trouble.suspicions == ()
    assert trouble.summary.startswith("Too early to say: so far none of 29 requests")
    # What did come is evidence at any time.
    assert kinds(line_trouble([listened((19_200, "even"), (9600, "even"))], finished=False))[0] == ("speed", "likely")


def test_nothing_is_said_about_wires_where_there_are_none() -> None:
    gather = EvidenceGatherer()
    for unit in range(30):
        gather.asked(unit, "silence", b"")
    trouble = line_trouble([gather.evidence()], two_wires=False)
    assert trouble.suspicions == ()
    assert "none of 30 requests was answered" in trouble.summary


def test_an_echo_alone_shows_that_the_adapter_works() -> None:
    gather = EvidenceGatherer(LineSettings(19_200, "even", 1))
    for unit in range(1, 30):
        own = ask(unit, 3, 0, 1)
        gather.asked(unit, "silence", own, echo=own)
    evidence = gather.evidence()
    assert evidence.characters == 0
    trouble = line_trouble([evidence])
    assert kinds(trouble)[0] == ("echo", "very likely")
    assert "Our own requests" in trouble.suspicions[1].evidence
    assert kinds(line_trouble([evidence], finished=False)) == [("echo", "very likely")]


# A line that is understood, but not well


def test_answers_that_come_twice_are_two_devices() -> None:
    gather = asked((7, 8))
    for _ in range(3):
        gather.asked(8, "answer", GOOD + GOOD, doubled=True)
    trouble = line_trouble([gather.evidence()])
    assert kinds(trouble) == [("same address", "likely")]
    assert trouble.suspicions[0].unit == 8


def test_one_unit_whose_answers_are_garbled_among_sound_ones_is_two_devices() -> None:
    gather = asked((1, 2, 3))
    for _ in range(10):
        # Two answers at the same time: what a receiver sees is neither (common practice, no source).
        both = bytes(a & b for a, b in zip(answer(2, 3, [8330]), answer(2, 3, [100]), strict=True))
        gather.asked(2, "garbled", both)
    trouble = line_trouble([gather.evidence()])
    assert kinds(trouble)[0] == ("same address", "likely")
    assert trouble.suspicions[0].unit == 2


def test_single_bits_turned_over_at_every_unit_are_a_disturbed_line() -> None:
    gather = asked((1, 2))
    for unit in (1, 2):
        bad = bytearray(answer(unit, 3, [8330]))
        bad[4] ^= 0x10
        gather.asked(unit, "garbled", bytes(bad))
    trouble = line_trouble([gather.evidence()])
    assert gather.evidence().one_bit == 2
    assert kinds(trouble) == [("termination", "likely")]


def test_a_garbled_answer_with_several_bits_wrong_is_not_one_with_a_single_bit() -> None:
    gather = asked()
    bad = bytearray(GOOD)
    bad[3] ^= 0xFF
    for _ in range(2):
        gather.asked(7, "garbled", bytes(bad))
    assert gather.evidence().one_bit == 0
    assert kinds(line_trouble([gather.evidence()])) == [("termination", "possible")]


def test_answers_without_their_first_byte_are_an_adapter_that_switches_late() -> None:
    gather = asked()
    for _ in range(5):
        gather.asked(7, "garbled", GOOD[1:])
    assert kinds(line_trouble([gather.evidence()])) == [("late switching", "very likely")]


def test_noise_while_nothing_is_sent_is_a_line_that_floats_or_a_missing_ground() -> None:
    quiet = asked()
    quiet.listened(10.0, b"\x00\xff\x80\x00\xfe", 0, 5)
    assert kinds(line_trouble([quiet.evidence()])) == [("bias", "likely")]
    for _ in range(3):
        quiet.asked(7, "garbled", b"\x12\x34\x56\x78\x9a")
    assert kinds(line_trouble([quiet.evidence()]))[0] == ("ground", "likely")


def test_characters_lost_by_this_computer_are_not_the_lines_fault() -> None:
    gather = asked()
    gather.asked(7, "answer", GOOD, overruns=3)
    assert kinds(line_trouble([gather.evidence()])) == [("lost characters", "very likely")]


def test_devices_that_answer_only_sometimes_are_named() -> None:
    gather = asked()
    for _ in range(4):
        gather.asked(7, "silence", b"")
    assert kinds(line_trouble([gather.evidence()])) == [("contact", "possible")]


def test_every_suspicion_has_words() -> None:
    for trouble in (
        line_trouble([listened((19_200, "even"), (9600, "even"))]),
        line_trouble([listened((19_200, "even"), (19_200, "odd"))]),
    ):
        for one in trouble.suspicions:
            assert one.title
            assert one.to_do.endswith(".")
            assert one.likely in ("very likely", "likely", "possible")
            assert "{" not in one.evidence
