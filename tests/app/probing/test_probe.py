"""The words that all searches share."""

from __future__ import annotations

import pytest

from app.probing.probe import LineSettings, Probe, ProbeResult


def test_settings_are_said_as_the_trade_says_them() -> None:
    assert str(LineSettings(19_200, "even", 1)) == "19200 8E1"
    assert str(LineSettings(9600, "none", 2)) == "9600 8N2"


def test_a_character_with_parity_or_two_stop_bits_has_eleven_bits() -> None:
    # MODBUS over Serial Line V1.02, section 2.5.1 (from memory): 1 start, 8 data, parity or a second stop bit, 1 stop.
    assert LineSettings(19_200, "even", 1).character_s == pytest.approx(11 / 19_200)
    assert LineSettings(9600, "none", 2).character_s == pytest.approx(11 / 9600)
    assert LineSettings(9600, "none", 1).character_s == pytest.approx(10 / 9600)


def test_an_exception_proves_that_somebody_is_there() -> None:
    probe = Probe(7, b"\x03\x00\x00\x00\x01")
    assert ProbeResult(probe, "exception", pdu=b"\x83\x02").alive
    assert ProbeResult(probe, "exception", pdu=b"\x83\x02").code == 2
    assert not ProbeResult(probe, "garbled", received=b"\x00").alive
    assert ProbeResult(probe, "answer", pdu=b"\x03\x02\x00\x05").code == 0
