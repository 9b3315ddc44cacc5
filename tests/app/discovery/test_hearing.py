"""Listening before anything is sent, on a line that is sampled bit by bit: which speed, and which parity."""

from __future__ import annotations

import pytest

from app.discovery.hearing import hear
from app.modbus.serial_port import LineSettings
from app.probing.probe import Overheard
from tests.modelled_line import ModelledLine
from tests.serial_port import frames_as_bits, sampled
from tests.traffic import answer, ask

USUAL = [LineSettings(baud, "even", 1) for baud in (19_200, 9600, 38_400, 115_200)]
FRAMES = [ask(5, 3, 16, 4), answer(5, 3, [8330, 2, 771, 65_001])]


class Master(ModelledLine):
    """Somebody polls at these settings; `counts` says whether the port counts damaged characters."""

    def __init__(self, speaks: LineSettings, *, counts: bool = True) -> None:
        super().__init__([])
        self.speaking = speaks
        self.counts = counts
        self.listened: list[int] = []

    def listen(self, seconds: float) -> Overheard:
        self.clock += seconds
        self.listened.append(self.settings.baud)
        bits = frames_as_bits(3 * FRAMES, self.speaking.parity, self.speaking.stop_bits)
        got = sampled(bits, self.speaking.baud, (self.settings.baud, self.settings.parity))
        errors = (got.parity_errors, got.framing_errors, got.breaks) if self.counts else (None, None, None)
        return Overheard(self.settings, seconds, [(seconds / 2, got.data)], *errors)


@pytest.mark.parametrize(
    "speaks",
    [
        LineSettings(9600, "even", 1),
        LineSettings(9600, "odd", 1),
        LineSettings(38_400, "none", 2),
        LineSettings(9600, "none", 1),
        LineSettings(115_200, "odd", 1),
    ],
    ids=str,
)
def test_speed_and_parity_of_another_master(speaks: LineSettings) -> None:
    line = Master(speaks)
    heard = hear(line, USUAL, 1.0)
    assert heard is not None
    assert heard.understood
    assert (heard.settings, heard.parity_known) == (speaks, True)
    assert heard.as_json()["parity_known"] is True
    assert sum(line.sent.values()) == 0


def test_a_port_that_counts_nothing_tells_no_parity() -> None:
    heard = hear(Master(LineSettings(9600, "odd", 1), counts=False), USUAL, 1.0)
    assert heard is not None
    assert heard.understood
    assert heard.settings is not None
    assert (heard.settings.baud, heard.parity_known) == (9600, False)


def test_goes_where_the_bytes_point() -> None:
    # What comes of 2400 at 19 200 has long bits, so faster speeds are left for later though they are likelier.
    line = Master(LineSettings(2400, "even", 1))
    heard = hear(line, [*USUAL, LineSettings(2400, "even", 1)], 1.0)
    assert heard is not None
    assert heard.understood
    assert not {38_400, 115_200} & set(line.listened)
