"""Speed and parity by listening, on a line that is sampled bit by bit."""

from __future__ import annotations

import random
from statistics import mean
from typing import Final, Literal

import pytest

from app.listening.listener import Listener
from app.listening.settings import settings_spoken, speeds_to_try, too_fast
from app.modbus.serial_port import LineSettings, Parity
from tests.serial_port import Sampled, frames_as_bits, sampled
from tests.traffic import answer, ask

SPEEDS: Final = (9600, 19_200, 38_400, 115_200, 57_600, 4800, 2400, 1200)
"""The likeliest first."""
PAIRS: Final = 8


def talk(seed: int) -> list[bytes]:
    """Frames of a master and its device: many zeros and small numbers, as registers hold."""
    draw = random.Random(seed)
    frames = []
    for _ in range(PAIRS):
        count, first = draw.randint(1, 12), draw.randrange(2000)
        values = [draw.choice((0, draw.randrange(100), draw.randrange(65_536))) for _ in range(count)]
        frames += [ask(draw.randint(1, 20), 3, first, count), answer(1, 3, values)]
    return frames


def heard_at(receiver: LineSettings, sender: LineSettings, seed: int = 1, *, keep: bool = True) -> Sampled:
    line = frames_as_bits(talk(seed), sender.parity, sender.stop_bits)
    return sampled(line, sender.baud, (receiver.baud, receiver.parity), keep=keep)


def sound_frames(data: bytes) -> int:
    listener = Listener()
    listener.feed(data, 0.0)
    return listener.frames


@pytest.mark.parametrize("keep", [True, False])
@pytest.mark.parametrize("sends", [9600, 19_200, 115_200])
def test_only_the_right_speed_gives_frames(sends: int, keep: bool) -> None:
    sender = LineSettings(sends, "even", 1)
    frames = {speed: sound_frames(heard_at(LineSettings(speed, "even", 1), sender, keep=keep).data) for speed in SPEEDS}
    assert frames.pop(sends) == 2 * PAIRS
    assert set(frames.values()) == {0}


@pytest.mark.parametrize("keep", [True, False])
def test_what_is_received_says_in_which_direction_to_go(keep: bool) -> None:
    told = 0
    for seed in range(2):
        for sends in SPEEDS:
            for port in SPEEDS:
                fast = too_fast(
                    heard_at(LineSettings(port, "even", 1), LineSettings(sends, "even", 1), seed, keep=keep).data
                )
                if fast is None or port == 2 * sends:
                    continue  # too few characters; or in between, where either answer leads there
                assert fast == (port > 2 * sends), (port, sends, seed)
                told += 1
    assert told >= 80


def tries(sends: int, seed: int, *, hints: bool) -> int:
    """How many speeds are listened at until somebody is understood."""
    tried: dict[int, bytes] = {}
    sender = LineSettings(sends, "even", 1)
    while True:
        speed = speeds_to_try(SPEEDS, tried)[0]
        data = heard_at(LineSettings(speed, "even", 1), sender, seed).data
        tried[speed] = data if hints else b""
        if sound_frames(data):
            return len(tried)


def test_hints_shorten_the_way_to_the_right_speed() -> None:
    with_hints = [tries(sends, seed, hints=True) for sends in SPEEDS for seed in range(2)]
    without = [tries(sends, seed, hints=False) for sends in SPEEDS for seed in range(2)]
    assert mean(without) == 4.5
    assert mean(with_hints) <= 3.2
    assert max(with_hints) <= 5


def test_every_speed_comes_in_the_end_whatever_the_hints_say() -> None:
    order = speeds_to_try(SPEEDS, {9600: bytes(100)})
    assert order[:3] == [4800, 2400, 1200]
    assert sorted(order) == sorted(set(SPEEDS) - {9600})


EVEN, ODD, NONE, TWO = "8E1", "8O1", "8N1", "8N2"
FORMS: Final[dict[str, tuple[Parity, Literal[1, 2]]]] = {
    EVEN: ("even", 1),
    ODD: ("odd", 1),
    NONE: ("none", 1),
    TWO: ("none", 2),
}


@pytest.mark.parametrize(
    ("port", "sends"),
    [(EVEN, EVEN), (EVEN, ODD), (EVEN, TWO), (ODD, EVEN), (ODD, ODD), (ODD, TWO), (NONE, NONE)],
)
def test_parity_errors_say_which_parity_it_is(port: str, sends: str) -> None:
    receiver, sender = (LineSettings(19_200, *FORMS[form]) for form in (port, sends))
    got = heard_at(receiver, sender)
    assert sound_frames(got.data) == 2 * PAIRS
    assert settings_spoken(receiver, got.data, got.parity_errors, got.framing_errors + got.breaks) == (sender, True)


@pytest.mark.parametrize("sends", [EVEN, ODD])
def test_a_port_without_parity_tells_it_by_missing_stop_bits(sends: str) -> None:
    receiver, sender = (LineSettings(19_200, *FORMS[form]) for form in (NONE, sends))
    got = heard_at(receiver, sender)
    assert settings_spoken(receiver, got.data, got.parity_errors, got.framing_errors + got.breaks).settings == sender


def test_it_is_not_sure_where_errors_are_not_counted_or_do_not_separate() -> None:
    at = LineSettings(19_200, "even", 1)
    assert settings_spoken(at, bytes(100), None, None) == (at, False)
    assert settings_spoken(at, bytes(5), 0, 0) == (at, False)
    # All of these bytes have an even number of ones: odd parity and two stop bits give the same errors.
    assert not settings_spoken(at, bytes(100), 100, 0).sure
