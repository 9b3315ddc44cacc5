"""Which registers a device has: hidden maps, and what devices do that makes it hard."""

from __future__ import annotations

import json
import random
import struct
from collections.abc import Callable

import pytest

from app.probing.found import FoundRange
from app.probing.probe import SearchStopped
from app.probing.registers import (
    READ_OF_ALL,
    RegisterSearch,
    RegisterState,
    estimate,
    likely_beginnings,
    sunspec_models,
)
from tests.bench.register_search import shares
from tests.hidden_maps import KINDS, LONGEST, Kind, hidden_map, model_sizes
from tests.modelled_line import HiddenDevice, ModelledLine

SPAN = range(3000)


def searched(device: HiddenDevice, how: str = "likely", **options: object) -> RegisterState:
    state = RegisterState()
    search = RegisterSearch(ModelledLine([device]), device.unit, "holding", state, **options)  # type: ignore[arg-type]
    search.run(how)  # type: ignore[arg-type]
    return state


def bank_of(*blocks: tuple[int, int]) -> dict[int, int]:
    return {address: address * 7 & 0xFFFF for first, last in blocks for address in range(first, last + 1)}


@pytest.mark.parametrize(
    ("kind", "least", "later"), [("chain", 0.99, 0.999), ("apart", 0.96, 0.98), ("holes", 0.98, 0.99)]
)
def test_hidden_maps(kind: Kind, least: float, later: float) -> None:
    soon, at_last = shares(kind, 25)
    assert soon >= least
    assert at_last >= later


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("seed", range(5))
def test_a_dense_pass_finds_all(kind: Kind, seed: int) -> None:
    chance = random.Random(seed)
    bank = {address % 3000: word for address, word in hidden_map(chance, kind).items()}
    state = searched(HiddenDevice(holding=bank, longest=chance.choice(LONGEST)), "all", span=SPAN)
    assert state.words == bank
    assert not set(state.refused) & set(bank)


def test_blocks_are_found_whole_with_their_edges() -> None:
    state = searched(HiddenDevice(holding=bank_of((0, 9), (100, 331), (1000, 1000))), span=SPAN)
    assert state.ranges("holding") == (
        FoundRange("holding", 0, 9),
        FoundRange("holding", 100, 331),
        FoundRange("holding", 1000, 1000),
    )
    assert {10, 99, 332, 999, 1001} <= set(state.refused)
    assert set(state.refused.values()) == {2}


@pytest.mark.parametrize("longest", [1, 2, 7, 16, 32, 120, 124, 125])
def test_the_longest_read_is_found(longest: int) -> None:
    state = searched(HiddenDevice(holding=bank_of((0, 299)), longest=longest), span=SPAN)
    assert state.longest_read == longest
    assert len(state.words) == 300


def test_the_longest_read_is_not_made_up() -> None:
    # Twenty registers say nothing of how many would come at once.
    state = searched(HiddenDevice(holding=bank_of((0, 19))), span=SPAN)
    assert state.longest == 20
    assert state.longest_read is None


def test_what_is_never_to_be_touched_is_not() -> None:
    device = HiddenDevice(holding=bank_of((0, 200)))
    state = searched(device, "all", span=range(300), never=[range(50, 60), range(0, 1)])
    for pdu in device.asked:
        first, count = struct.unpack(">HH", pdu[1:5])
        assert not set(range(first, first + count)) & {0, *range(50, 60)}
    assert set(state.words) == set(range(1, 201)) - set(range(50, 60))


def test_nothing_outside_of_the_span_is_asked_for() -> None:
    device = HiddenDevice(holding=bank_of((0, 500)))
    searched(device, span=range(100, 200))
    for pdu in device.asked:
        first, count = struct.unpack(">HH", pdu[1:5])
        assert first >= 100
        assert first + count <= 200


def test_a_device_that_answers_to_every_address_is_known() -> None:
    device = HiddenDevice(own=lambda pdu: _words(pdu, lambda address: 0))
    state = searched(device)
    assert state.everywhere
    assert len(state.words) == READ_OF_ALL
    assert state.probes < 100


def test_silence_for_an_address_is_a_refusal() -> None:
    bank = bank_of((0, 30))
    device = HiddenDevice(own=lambda pdu: _words(pdu, bank.get))
    state = searched(device, span=range(200))
    assert state.words == bank
    assert set(state.refused.values()) == {0}


def test_a_lost_answer_is_asked_for_again() -> None:
    bank = bank_of((0, 60))
    chance = random.Random(3)
    device = HiddenDevice(own=lambda pdu: None if chance.random() < 0.05 else _refusing(pdu, bank.get))
    state = searched(device, span=range(200))
    assert state.words == bank


def test_values_of_two_registers_are_read_in_pairs() -> None:
    bank = bank_of((0, 39))

    def pairs(pdu: bytes) -> bytes:
        first, count = struct.unpack(">HH", pdu[1:5])
        return _refusing(pdu, bank.get) if first % 2 == 0 and count % 2 == 0 else bytes((pdu[0] | 0x80, 2))

    state = searched(HiddenDevice(own=pairs), span=range(200))
    assert state.in_pairs
    assert state.words == bank


def test_a_busy_device_is_asked_again() -> None:
    bank = bank_of((0, 30))
    calls: list[int] = []

    def busy(pdu: bytes) -> bytes:
        calls.append(1)
        return bytes((pdu[0] | 0x80, 6)) if len(calls) % 2 else _refusing(pdu, bank.get)

    assert searched(HiddenDevice(own=busy), span=range(100)).words == bank


def test_a_function_that_is_not_there_ends_it_at_once() -> None:
    device = HiddenDevice(own=lambda pdu: bytes((pdu[0] | 0x80, 1)))
    state = searched(device)
    assert state.absent
    assert state.probes == 1


def test_coils_are_bits() -> None:
    def coils(pdu: bytes) -> bytes:
        first, count = struct.unpack(">HH", pdu[1:5])
        if first + count > 40:
            return bytes((pdu[0] | 0x80, 2))
        bits = sum(1 << place for place in range(count) if (first + place) % 3 == 0)
        return bytes((pdu[0], -(-count // 8))) + bits.to_bytes(-(-count // 8), "little")

    state = RegisterState()
    RegisterSearch(ModelledLine([HiddenDevice(own=coils)]), 1, "coil", state, span=SPAN).run()
    assert state.words == {address: int(address % 3 == 0) for address in range(40)}


def test_is_taken_up_again_where_it_was() -> None:
    device = HiddenDevice(holding=bank_of((0, 99), (500, 777)))
    state = RegisterState()

    def stop(state: RegisterState) -> None:
        if state.probes == 30:
            raise SearchStopped

    with pytest.raises(SearchStopped):
        RegisterSearch(ModelledLine([device]), 1, "holding", state, span=SPAN, told=stop).run()
    again = RegisterState.from_json(json.loads(json.dumps(state.as_json())))
    assert again == state
    RegisterSearch(ModelledLine([device]), 1, "holding", again, span=SPAN).run()
    whole = searched(HiddenDevice(holding=device.holding), span=SPAN)
    assert again.words == whole.words == device.holding
    assert again.probes <= whole.probes + 2


def test_sunspec_maps_are_recognized() -> None:
    bank = hidden_map(random.Random(4), "chain")
    found = sunspec_models(bank)
    assert found is not None
    base, models = found
    assert (bank[base], bank[base + 1]) == tuple(struct.unpack(">HH", b"SunS"))
    assert models[0] == (1, model_sizes()[1] - 2)
    assert sum(length + 2 for _, length in models) + 4 == len(bank)
    assert sunspec_models(bank_of((0, 50))) is None


def test_likely_beginnings_come_once_and_inside() -> None:
    all_of_them = list(likely_beginnings())
    assert len(all_of_them) == len(set(all_of_them))
    assert min(all_of_them) == 0
    assert max(all_of_them) <= 65_535
    assert estimate("likely", 1, 0.03)[0] == len(all_of_them)
    probes, seconds = estimate("all", 2, 0.03, range(100))
    assert probes == 200
    assert seconds == pytest.approx(6.0)


def _words(pdu: bytes, held: Callable[[int], int | None]) -> bytes | None:
    first, count = struct.unpack(">HH", pdu[1:5])
    words = [held(first + place) for place in range(count)]
    if None in words:
        return None
    return struct.pack(f">BB{count}H", pdu[0], 2 * count, *(word or 0 for word in words))


def _refusing(pdu: bytes, held: Callable[[int], int | None]) -> bytes:
    return _words(pdu, held) or bytes((pdu[0] | 0x80, 2))


def test_an_answer_that_is_lost_behind_a_gateway_is_asked_for_again() -> None:
    """Else one lost frame would be a hole in the map for good."""
    honest, lost = HiddenDevice(), set()

    def behind(pdu: bytes) -> bytes:
        if pdu in lost:
            return honest.answer(pdu) or b""
        lost.add(pdu)
        return bytes((pdu[0] | 0x80, 11))

    state = RegisterState()
    RegisterSearch(ModelledLine([HiddenDevice(own=behind)], "tcp"), 1, "holding", state, span=range(200)).run()
    assert state.words == dict(honest.holding)
    assert 11 not in state.refused.values()
