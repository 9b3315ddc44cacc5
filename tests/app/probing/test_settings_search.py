"""The search for settings and unit: its order, what it believes, and that it can be taken up again."""

from __future__ import annotations

import json
import random

import pytest

from app.probing.priors import Priors, usual_priors
from app.probing.probe import LineSettings, ProbeResult
from app.probing.settings_search import (
    Attempt,
    SettingsOrder,
    SettingsState,
    find_settings,
    first_question,
    parse_settings,
    settings_text,
)
from tests.bench.settings_search import expected, ours, unit_by_unit
from tests.modelled_line import HiddenDevice, ModelledLine

DEFAULT = LineSettings(19_200, "even", 1)
FEW = usual_priors().among(
    [DEFAULT, LineSettings(9600, "none", 1), LineSettings(9600, "even", 1), LineSettings(1200, "odd", 1)], range(1, 9)
)


def test_priors_are_shares() -> None:
    priors = usual_priors()
    assert sum(priors.settings.values()) == pytest.approx(1)
    assert sum(priors.units.values()) == pytest.approx(1)
    assert len(priors.units) == 247
    assert priors.likeliest_units()[:3] == [1, 2, 3]
    assert sum(FEW.settings.values()) == pytest.approx(1)


def test_a_unit_that_somebody_named_is_asked_first_at_every_likely_setting() -> None:
    order = SettingsOrder(usual_priors().expecting(77), SettingsState()).left()
    assert {attempt.unit for attempt in order[:6]} == {77}
    assert sum(usual_priors().expecting(77).units.values()) == pytest.approx(1)
    assert usual_priors().expecting(None) is usual_priors()


def test_settings_that_nobody_thought_of_can_be_asked_for() -> None:
    odd = LineSettings(31_250, "none", 1)
    assert usual_priors().among([odd]).settings == {odd: 1.0}


@pytest.mark.parametrize("seed", range(12))
def test_finds_a_hidden_device_whatever_it_is_set_to(seed: int) -> None:
    chance = random.Random(seed)
    settings = chance.choice(list(FEW.settings))
    device = HiddenDevice(chance.choice(list(FEW.units)), settings)
    line = ModelledLine([device])
    found = find_settings(line, SettingsOrder(FEW, SettingsState()))
    assert found is not None
    assert (found.settings, found.unit) == (settings, device.unit)
    assert len(found.results) == 2


def test_finds_one_that_sleeps() -> None:
    line = ModelledLine([HiddenDevice(3, DEFAULT, answers_after_s=0.8)])
    found = find_settings(line, SettingsOrder(FEW, SettingsState()))
    assert found is not None
    assert found.unit == 3


def test_an_exception_is_an_answer() -> None:
    line = ModelledLine([HiddenDevice(2, DEFAULT, own=lambda pdu: bytes((pdu[0] | 0x80, 1)))])
    found = find_settings(line, SettingsOrder(FEW, SettingsState()))
    assert found is not None
    assert found.results[0].code == 1


def test_what_answers_once_and_never_again_is_not_believed() -> None:
    answered: list[bytes] = []

    def once(pdu: bytes) -> bytes | None:
        answered.append(pdu)
        return bytes.fromhex("03020001") if len(answered) == 1 else None

    line = ModelledLine([HiddenDevice(1, DEFAULT, own=once)])
    assert find_settings(line, SettingsOrder(FEW, SettingsState())) is None


def test_nobody_there_ends_after_everything_was_tried() -> None:
    state = SettingsState()
    order = SettingsOrder(FEW, state)
    before = order.outlook()
    line = ModelledLine([])
    assert find_settings(line, order) is None
    all_of_them = len(FEW.settings) * len(FEW.units)
    assert len(state.tried) == 2 * all_of_them
    assert sum(line.sent.values()) == 3 * all_of_them, "quick, patient, and quick behind that"
    assert order.outlook() == type(before)(0.0, 0.0, 0.0)
    # A tuning costs its time only where the settings change.
    assert before.seconds_all == pytest.approx(line.now(), rel=0.25)


def test_asks_in_the_order_of_probability_per_second() -> None:
    order = SettingsOrder(FEW, SettingsState())
    worth: list[float] = []
    while (attempt := order.next()) is not None:
        share = FEW.settings[attempt.settings] * FEW.units[attempt.unit]
        worth.append(share * (FEW.late if attempt.late else 1 - FEW.late) / attempt.cost_s)
        order.note(attempt, ProbeResult(first_question(attempt.unit), "silence"))
    assert worth == sorted(worth, reverse=True)


def test_no_other_order_of_a_few_is_sooner() -> None:
    # Against all orders: the expected time of the greedy one is the least (Smith 1956, from memory).
    from itertools import permutations

    few = Priors({DEFAULT: 0.7, LineSettings(1200, "none", 1): 0.3}, {1: 0.8, 2: 0.2}, 0.1)
    order = SettingsOrder(few, SettingsState())
    attempts = order.left()

    def mean(these: tuple[Attempt, ...]) -> float:
        seconds = total = 0.0
        for one in these:
            seconds += one.cost_s
            share = few.settings[one.settings] * few.units[one.unit] * (few.late if one.late else 1 - few.late)
            total += share * seconds
        return total

    best = min(mean(these) for these in permutations(attempts))
    assert mean(tuple(attempts)) == pytest.approx(best)


def test_bytes_without_a_frame_make_their_speed_likelier() -> None:
    order = SettingsOrder(usual_priors(), SettingsState())
    slow = LineSettings(2400, "even", 1)
    place = _place(order, Attempt(LineSettings(2400, "none", 1), 1))
    order.note(Attempt(slow, 1), ProbeResult(first_question(1), "garbled", received=b"\x00\x80"))
    assert _place(order, Attempt(LineSettings(2400, "none", 1), 1)) < place


def test_is_much_sooner_than_by_hand() -> None:
    found, by_hand = expected(ours()), expected(unit_by_unit())
    assert found.mean < 60
    assert found.quantiles[0] < 3
    assert found.mean < by_hand.mean / 2


def _place(order: SettingsOrder, attempt: Attempt) -> int:
    return order.left().index(attempt)


def test_is_taken_up_again_where_it_was() -> None:
    device = HiddenDevice(7, LineSettings(1200, "odd", 1))
    state = SettingsState()
    order = SettingsOrder(FEW, state)
    line = ModelledLine([device])
    for _ in range(10):
        attempt = order.next()
        assert attempt is not None
        line.tune(attempt.settings)
        order.note(attempt, line.ask(first_question(attempt.unit), attempt.timeout_s))
    state.said[DEFAULT] = 6.0
    again = SettingsState.from_json(json.loads(json.dumps(state.as_json())))
    assert again == state
    later = ModelledLine([device])
    found = find_settings(later, SettingsOrder(FEW, again))
    assert found is not None
    assert found.unit == 7
    whole = ModelledLine([device])
    find_settings(whole, SettingsOrder(FEW, SettingsState()))
    assert sum(later.sent.values()) < sum(whole.sent.values())


@pytest.mark.parametrize("text", ["19200 8E1", "9600 8N2, 19200 8O1"])
def test_settings_are_written_as_they_are_read(text: str) -> None:
    assert settings_text(parse_settings(text)) == text


@pytest.mark.parametrize("text", ["", "19200", "9600 7E1", "9600 8X1", "9600 8N3", "fast 8N1", "9600 8N1,", "9 8N1"])
def test_what_is_no_setting_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r".*"):
        parse_settings(text)
