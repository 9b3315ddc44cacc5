"""Predicted times on a line."""

from __future__ import annotations

import pytest

from app.bus.endpoint import Endpoint
from app.bus.timing import character_bits, pace_of, silent_intervals_ms


@pytest.mark.parametrize(("count", "ms"), [(1, 12.6), (10, 22.9), (50, 68.8), (125, 154.7)])
def test_a_read_at_19200_bd(count: int, ms: float) -> None:
    # Computed by hand from MODBUS over Serial Line V1.02 (from memory): 8 characters out, 5 + 2n back, two silent
    # intervals of 3.5 characters, 11 bits a character, no turnaround.
    assert pace_of(Endpoint.serial("x", baud=19_200)).read_ms("holding", count) == pytest.approx(ms, abs=0.05)


def test_silent_intervals() -> None:
    # MODBUS over Serial Line V1.02 (from memory): fixed above 19 200 Bd.
    assert silent_intervals_ms(115_200) == (0.750, 1.750)
    assert silent_intervals_ms(19_201) == (0.750, 1.750)
    assert silent_intervals_ms(9600) == pytest.approx((1.71875, 4.0104), abs=1e-4)


def test_characters() -> None:
    # V1.02 (from memory): 11 bits; without parity a second stop bit keeps it at 11.
    assert character_bits("even", 1) == character_bits("none", 2) == 11
    assert character_bits("none", 1) == 10


def test_bits_are_charged_by_the_byte() -> None:
    pace = pace_of(Endpoint.serial("x", baud=19_200))
    assert pace.read_ms("coil", 1) == pace.read_ms("coil", 8) < pace.read_ms("coil", 9)


def test_the_turnaround_is_added() -> None:
    pace = pace_of(Endpoint.tcp("h"))
    assert pace.read_ms("input", 3, 7.5) == pytest.approx(pace.read_ms("input", 3) + 7.5)
