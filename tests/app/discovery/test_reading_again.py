"""Registers that were found, read anew."""

from __future__ import annotations

import pytest

from app.discovery.reading_again import read_again
from app.probing.found import FoundFollower, FoundRange
from tests.modelled_line import HiddenDevice, ModelledLine

HELD = {address: 3 * address for address in (*range(300), 500)}
RANGES = (FoundRange("holding", 0, 299), FoundRange("holding", 500, 500), FoundRange("input", 2, 3))
INPUTS = {2: 7, 3: 9}
ALL = {**{("holding", at): word for at, word in HELD.items()}, ("input", 2): 7, ("input", 3): 9}


@pytest.mark.parametrize("longest", [3, 50, 125])
@pytest.mark.parametrize("known", [True, False])
def test_reads_what_is_there(longest: int, known: bool) -> None:
    device = HiddenDevice(4, holding=HELD, inputs=INPUTS, longest=longest)
    follower = FoundFollower(4, longest_read=longest if known else None)
    told: list[float] = []
    assert read_again(ModelledLine([device]), follower, RANGES, 0.1, told.append) == ALL
    assert told == sorted(told)
    assert told[-1] == 1


def test_leaves_out_what_is_gone() -> None:
    device = HiddenDevice(4, holding={at: word for at, word in HELD.items() if at != 500}, inputs=INPUTS)
    found = read_again(ModelledLine([device]), FoundFollower(4), RANGES, 0.1)
    assert found == {place: word for place, word in ALL.items() if place != ("holding", 500)}


def test_asks_again_what_was_lost() -> None:
    calls: list[int] = []
    plain = HiddenDevice(4, holding=HELD, inputs=INPUTS)

    def lossy(pdu: bytes) -> bytes | None:
        calls.append(1)
        return None if len(calls) % 3 == 1 else plain.answer(pdu)

    assert read_again(ModelledLine([HiddenDevice(4, own=lossy)]), FoundFollower(4), RANGES, 0.1) == ALL


@pytest.mark.parametrize("never", [[range(30, 33)], [range(10)], [range(0), range(505, 600), range(3, 4)]], ids=str)
def test_leaves_out_what_is_never_to_be_touched(never: list[range]) -> None:
    device = HiddenDevice(4, holding=HELD, inputs=INPUTS)
    untouched = {("holding", address) for span in never for address in span}
    found = read_again(ModelledLine([device]), FoundFollower(4), RANGES, 0.1, never={"holding": never})
    assert found == {place: word for place, word in ALL.items() if place not in untouched}
    for pdu in device.asked:
        first, count = int.from_bytes(pdu[1:3], "big"), int.from_bytes(pdu[3:5], "big")
        assert pdu[0] != 3 or not {("holding", first + place) for place in range(count)} & untouched
