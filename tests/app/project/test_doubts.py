"""Values that hardly can be what their signal says are good and said to be doubtful; others are not."""

from __future__ import annotations

import struct

import pytest

from app.project.binding import bindings
from app.project_file.files import parse
from app.signals.reading import Quality, Reading

TEXT = """
format = 2
[panel]
start = "a"
[[screen]]
name = "a"
[[line]]
name = "l"
kind = "tcp"
host = "h"
[[follower]]
name = "f"
line = "l"
[[signal]]
name = "s"
follower = "f"
register = 0
{more}
"""


def read(more: str, *words: int) -> Reading:
    return bindings(parse(TEXT.format(more=more)))["s"].reading(words, 1.0)


def swapped(value: float) -> tuple[int, int]:
    """The two registers of a 32 bit float in the other order than high word first."""
    low_first = struct.unpack(">HH", struct.pack(">f", value))[::-1]
    return low_first[0], low_first[1]


FLOAT = 'encoding = "float32"'
SCALED = 'unit = "Hz"\nscale = { raw = [0, 10000], value = [0, 50] }\nlimits = [5, 50]\ndecimals = 1'


@pytest.mark.parametrize("value", [41.65, 50.0, 230.4, 0.1, 566.25, -12.5])
def test_floats_with_their_words_in_the_wrong_order(value: float) -> None:
    reading = read(FLOAT + '\nunit = "Hz"\nlimits = [-100, 2000]', *swapped(value))
    assert reading.quality is Quality.GOOD
    assert reading.value is not None, "it is not hidden"
    assert reading.doubt
    assert not read(FLOAT + '\nunit = "Hz"\nlimits = [-100, 2000]', *reversed(swapped(value))).doubt


@pytest.mark.parametrize("words", [(0xEE8F, 0x1234), (0x0000, 0x4248), (0x7E00, 0x0000)])
def test_a_float_of_an_absurd_exponent_needs_no_limits(words: tuple[int, int]) -> None:
    """The first is about -2.2e28."""
    assert "word order" in read(FLOAT, *words).doubt


@pytest.mark.parametrize("value", [0.0, 1e-9, 41.65, 8.4e6, 1e11])
def test_an_ordinary_float_is_believed(value: float) -> None:
    assert not read(FLOAT, *reversed(swapped(value))).doubt


@pytest.mark.parametrize("raw", [8330, 1000, 10000])
def test_within_the_limits_of_a_signal(raw: int) -> None:
    assert not read(SCALED, raw).doubt


@pytest.mark.parametrize("raw", [999, 10001, 65535])
def test_outside_the_limits_of_a_signal(raw: int) -> None:
    assert read(SCALED, raw).doubt.startswith("outside its limits 5 to 50 Hz: check the register")


def test_a_count_that_rounds_a_limit_is_within_it() -> None:
    """50 Hz at 3 counts a Hz and a third: the nearest count may lie beyond the limit."""
    scale = "scale = { raw = [0, 3], value = [0, 1] }\nlimits = [0, 50.1]"
    assert not read(scale, 151).doubt
    assert read(scale, 152).doubt


@pytest.mark.parametrize("limit", ["0.1", "41.65", "0.3"])
def test_a_float_that_rounds_its_limit_is_within_it(limit: str) -> None:
    words = struct.unpack(">HH", struct.pack(">f", float(limit)))
    assert not read(f"{FLOAT}\nlimits = [0, {limit}]", *words).doubt
    assert not read(f"{FLOAT}\nlimits = [-{limit}, 0]", words[0] | 0x8000, words[1]).doubt


def test_what_is_usual_for_a_unit() -> None:
    """A count of 32 bits with its words exchanged: 1 000 becomes 65 536 000."""
    whole = 'encoding = "int32"\nunit = "Hz"'
    assert "usual range -1000 to 1000 Hz" in read(whole, 1000, 0).doubt
    assert not read(whole, 0, 1000).doubt
    assert "-273.15" in read('encoding = "int16"\nunit = "\u00b0C"', 0xF830).doubt  # -2000


@pytest.mark.parametrize("more", ['encoding = "uint16"', 'encoding = "uint32"\nunit = "kWh"', 'table = "coil"'])
def test_where_nothing_is_known_nothing_is_doubted(more: str) -> None:
    assert not read(more, *[0xFFFF] * (2 if "32" in more else 1)).doubt


def test_a_falling_scale() -> None:
    falling = 'unit = "Hz"\nscale = { raw = [0, 100], value = [50, 0] }\nlimits = [0, 50]'
    assert not read(falling, 0).doubt
    assert not read(falling, 100).doubt
    assert read(falling, 101).doubt
