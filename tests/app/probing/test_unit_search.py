"""Which units answer: on a serial line, on a network, behind a gateway, and one that answers for all."""

from __future__ import annotations

import json

import pytest

from app.probing.priors import usual_priors
from app.probing.probe import SearchStopped
from app.probing.unit_search import NextUnit, UnitState, find_units, units_in_order
from tests.modelled_line import HiddenDevice, ModelledLine

ALL = units_in_order(usual_priors(), network=False)


def test_serial_units_are_1_to_247_and_never_0() -> None:
    assert sorted(ALL) == list(range(1, 248))
    assert ALL[0] == 1
    assert units_in_order(usual_priors(), network=False, wanted=[9, 0, 300, 1]) == [1, 9]


def test_on_a_network_255_0_and_1_come_first() -> None:
    assert units_in_order(usual_priors(), network=True)[:4] == [255, 0, 1, 2]


@pytest.mark.parametrize("network", [True, False])
def test_a_unit_that_somebody_named_comes_first_and_no_other_is_left_out(network: bool) -> None:
    order = units_in_order(usual_priors().expecting(77), network)
    assert order[0] == 77
    assert sorted(order) == sorted(units_in_order(usual_priors(), network))


def test_finds_all_devices_of_a_line() -> None:
    line = ModelledLine([HiddenDevice(unit) for unit in (3, 17, 200)])
    state = UnitState()
    find_units(line, ALL, state)
    assert state.answering == [3, 17, 200]
    assert state.asked == set(ALL)
    assert not state.every_unit


def test_a_converter_that_answers_for_all_is_one() -> None:
    line = ModelledLine([HiddenDevice(every_unit=True)], "tcp")
    state = UnitState()
    find_units(line, units_in_order(usual_priors(), network=True), state)
    assert state.every_unit
    assert state.answering == [255]
    assert sum(line.sent.values()) < 30


def test_six_devices_at_the_first_addresses_are_six() -> None:
    line = ModelledLine([HiddenDevice(unit) for unit in range(1, 7)])
    state = UnitState()
    find_units(line, ALL, state)
    assert state.answering == [1, 2, 3, 4, 5, 6]
    assert not state.every_unit


def test_a_gateway_is_told_from_the_devices_behind_it() -> None:
    def gateway(pdu: bytes) -> bytes:
        return bytes((pdu[0] | 0x80, 11))

    here = [HiddenDevice(unit) for unit in (2, 5, 9, 40, 41)]
    line = ModelledLine([*here, HiddenDevice(every_unit=True, own=gateway)], "tcp")
    state = UnitState()
    find_units(line, units_in_order(usual_priors(), network=True), state)
    assert sorted(state.answering) == [2, 5, 9, 40, 41]
    assert len(state.behind_gateway) == 249 - 5
    assert not state.every_unit


def test_one_that_sleeps_is_found_when_nobody_else_is() -> None:
    line = ModelledLine([HiddenDevice(4, answers_after_s=0.8)])
    state = UnitState()
    find_units(line, ALL, state)
    assert state.answering == [4]


def test_goes_on_where_it_was_stopped() -> None:
    line = ModelledLine([HiddenDevice(2), HiddenDevice(150)])
    state = UnitState()

    def stop(now: NextUnit) -> None:
        if now.left == 200:
            raise SearchStopped

    with pytest.raises(SearchStopped):
        find_units(line, ALL, state, told=stop)
    assert state.answering == [2]
    again = UnitState.from_json(json.loads(json.dumps(state.as_json())))
    assert again == state
    later = ModelledLine([HiddenDevice(2), HiddenDevice(150)])
    find_units(later, ALL, again)
    assert again.answering == [2, 150]
    silent = len(ALL) - 2
    assert sum(later.sent.values()) == 200 + 1 + 2 * silent, "each that was silent is asked twice more at the end"
