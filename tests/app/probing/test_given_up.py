"""How long a gateway takes is read off what comes late from it, whatever it keeps, drops or says."""

from __future__ import annotations

import pytest

from app.probing import requests
from app.probing.given_up import MARGIN, MOST_OPEN, MOST_PATIENCE_S, GivenUp

OWN_S = 1.0
"""The time-out of the gateway below on its own line."""


def asked(*sent: float) -> GivenUp:
    """Units 1, 2, 3 ... asked at these times."""
    given_up = GivenUp()
    for unit, at in enumerate(sent, 1):
        given_up.sent(bytes((0, unit)), requests.read(unit, "holding", 0), at)
    return given_up


def test_nothing_is_known_as_long_as_all_comes_in_time() -> None:
    given_up = asked(0.0)
    assert given_up.answered(b"\0\1", 0, late=False, now=0.2) == pytest.approx(0.2)
    assert (given_up.patience_s, given_up.free, bool(given_up)) == (0.0, float("-inf"), False)


def test_a_gateway_that_says_so_late() -> None:
    given_up = asked(0.0, 0.3, 0.6, 0.9)
    given_up.answered(b"\0\1", 11, late=True, now=OWN_S)
    assert given_up.own_s == pytest.approx(OWN_S)
    assert given_up.free == pytest.approx(OWN_S + 3 * MARGIN * OWN_S), "three stand in its queue"
    given_up.answered(b"\0\2", 0, late=True, now=1.01)
    given_up.answered(b"\0\3", 11, late=True, now=2.01)
    assert given_up.own_s == pytest.approx(OWN_S), "each from where the one before was done with"
    assert given_up.free == pytest.approx(2.01 + MARGIN * OWN_S)


def test_a_gateway_that_drops_what_is_silent() -> None:
    """It says nothing of 1, 3 and 4: what 2 and 5 had to wait for shows how long each took."""
    given_up = asked(0.0, 0.3, 0.6, 0.9, 1.2)
    given_up.answered(b"\0\2", 0, late=True, now=OWN_S)
    assert given_up.own_s == pytest.approx(OWN_S)
    given_up.answered(b"\0\5", 0, late=True, now=3 * OWN_S)
    assert given_up.own_s == pytest.approx(OWN_S)


def test_a_gateway_that_asks_several_at_once() -> None:
    given_up = asked(0.0, 0.3)
    given_up.answered(b"\0\2", 0, late=False, now=0.31)
    given_up.answered(b"\0\1", 11, late=True, now=OWN_S)
    assert given_up.own_s == pytest.approx(OWN_S)


def test_what_takes_very_long_is_not_waited_for_and_still_known() -> None:
    given_up = asked(0.0)
    given_up.answered(b"\0\1", 11, late=True, now=60.0)
    assert given_up.own_s == MOST_PATIENCE_S
    many = asked(*range(250))
    assert many.asked_as(b"\0\1") is not None
    for number in range(1000, 1000 + MOST_OPEN):
        many.sent(number.to_bytes(2, "big"), requests.read(1, "holding", 0), 300.0)
    assert many.asked_as(b"\0\1") is None, "it does not grow for ever"


def test_another_connection_owes_nothing_of_the_former() -> None:
    given_up = asked(0.0)
    given_up.forget()
    assert not given_up
    assert given_up.asked_as(b"\0\1") is None
