"""Keys drawn at random stay within their limits; a sequence is made as short as can be."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from app.trial.random_keys import KeyLimits, draw, press, shortened, starting_keys, stop_key
from app.trial.stand import RehearsedStand
from tests.builders import demo
from tests.trial_panel import small


def drawn(limits: KeyLimits, seed: int = 1) -> tuple[str, ...]:
    stand = RehearsedStand(small())
    stand.begin()
    return draw(stand, limits, seed)


def test_a_key_that_may_start_something_is_one_and_the_one_that_stops_is_none() -> None:
    assert starting_keys(small()) == {"go", "jog", "f1"}
    assert stop_key(small()) == "halt"
    assert starting_keys(demo("booster-pump")) == {"start", "reset", "f1"}
    assert stop_key(demo("booster-pump")) == "stop"
    assert starting_keys(demo("drying-hall")) == {"start", "reset", "f1", "f2"}
    assert stop_key(demo("drying-hall")) == "stop"


def test_the_same_seed_draws_the_same_keys_and_another_others() -> None:
    limits = KeyLimits(("left", "right", "up", "enter"), presses=50)
    assert drawn(limits) == drawn(limits)
    assert drawn(limits) != drawn(limits, 2)
    assert len(drawn(limits)) == 50
    assert set(drawn(limits)) == set(limits.keys)


@pytest.mark.parametrize("seed", range(10))
def test_no_screen_is_gone_to_but_those_allowed(seed: int) -> None:
    stand = RehearsedStand(demo("booster-pump"))
    stand.begin()
    limits = KeyLimits(("left", "right", "up", "down", "enter", "escape"), ("run", "measured"), presses=40)
    keys = draw(stand, limits, seed)
    assert len(keys) == 40
    again = RehearsedStand(demo("booster-pump"))
    again.begin()
    for key in keys:
        press(again, key)
        assert again.panel.state.shown in limits.screens


def test_where_no_key_may_be_pressed_any_more_it_ends() -> None:
    assert drawn(KeyLimits(("right",), ("nowhere",), presses=10)) == ()


def test_a_sequence_loses_what_is_not_needed_and_keeps_its_last_key() -> None:
    def shows(keys: Sequence[str]) -> bool:
        return keys[-1] == "z" and "".join(keys).count("a") >= 2

    assert shortened(tuple("xaxbxacxxxz"), shows, 1000) == ("a", "a", "z")
    assert shortened(("z",), lambda _: True, 1000) == ("z",)


def test_only_so_many_tries_are_made() -> None:
    tried = []

    def shows(keys: Sequence[str]) -> bool:
        tried.append(keys)
        return False

    assert shortened(tuple("abcdefz"), shows, 3) == tuple("abcdefz")
    assert len(tried) == 3
