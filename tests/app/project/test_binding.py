"""What a signal of a project means: where it stands, its span, its text, its refusals."""

from __future__ import annotations

import gc
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from app.project import binding as room
from app.project.binding import (
    Binding,
    Unbound,
    bind,
    bindings,
    derive_bit,
    derive_bits,
    plain_text,
    refusal,
    shown_text,
    step_of,
    unbound,
    unwritable,
    value_span,
)
from app.project.model import BitSignal, Project
from app.signals.encoding import Implausible, OutOfRange
from app.signals.reading import NEVER_READ, Quality, Reading
from tests.builders import project_of

SCALED = {"scale": {"raw": [0, 10_000], "value": [0, 50]}, "decimals": 1, "unit": "Hz"}


def pump_of(*signals: dict[str, Any], repertoire: str = "ascii", **follower: Any) -> Project:
    """A project with these signals; those that name no follower and are on a line are the pump's."""
    whole = [
        signal if "bit" in signal or "held" in signal else {"follower": "pump", "register": 310, **signal}
        for signal in signals
    ]
    return project_of(
        panel={"repertoire": repertoire},
        follower=[{"name": "pump", "line": "pumproom", "unit": 3, **follower}],
        signal=whole,
    )


def of(signal: dict[str, Any], **follower: Any) -> Project:
    return pump_of({"name": "it", **signal}, **follower)


def read(binding: Binding, words: Any) -> Any:
    """What the binding decodes, for comparing with plain numbers."""
    return binding.decode(words)


# Where it stands


def test_a_register_signal_is_bound_by_its_follower_and_encoding() -> None:
    binding = bind(of({"register": 40_311, "encoding": "float32"}, numbering="prefixed"), "it")
    assert (binding.table, binding.address, binding.count, binding.bit) == ("holding", 310, 2, None)
    assert binding.follower.unit == 3
    assert binding.base is binding.signal
    assert not binding.single


def test_a_bit_is_bound_to_the_registers_of_its_base() -> None:
    both = pump_of(
        {"name": "status", "table": "input", "register": 400, "encoding": "uint32"},
        {"name": "running", "bit": {"of": "status", "number": 18}},
    )
    binding = bind(both, "running")
    assert (binding.table, binding.address, binding.count, binding.bit) == ("input", 400, 2, 18)
    assert binding.base.name == "status"


def test_coils_take_no_encoding() -> None:
    binding = bind(of({"table": "coil", "register": 5, "encoding": "float64"}), "it")
    assert binding.single
    assert binding.count == 1


@pytest.mark.parametrize(
    ("signal", "reason"),
    [
        ({"follower": "fan"}, "signal 'it': there is no device 'fan'"),
        ({"register": 65_536}, r"signal 'it': register 65536 is not in 0\.\.65535"),
        (
            {"register": 65_535, "encoding": "uint32"},
            "its 2 registers starting at address 65535 \\(0-based\\) end beyond 65535",
        ),
        ({"encoding": "string"}, "signal 'it': a string needs a length"),
        ({"bit": {"of": "nothing", "number": 0}}, "there is no signal 'nothing' that could contain the bit"),
        ({"bit": {"of": "other bit", "number": 0}}, "'other bit' is itself one bit"),
        ({"bit": {"of": "coil", "number": 0}}, "'coil' is in the table 'coil' and is itself one bit"),
        ({"bit": {"of": "held", "number": 0}}, "'held' is a held value; only registers have bits"),
        ({"bit": {"of": "word", "number": 16}}, "uint16 has bits 0 to 15; there is no bit 16"),
        ({"bit": {"of": "power", "number": 0}}, "float32 has no single bits"),
        ({"held": 5}, "'it' is a held value, not on the line"),
    ],
)
def test_what_is_not_on_the_line_says_why(signal: dict[str, Any], reason: str) -> None:
    whole = pump_of(
        {"name": "it", **signal},
        {"name": "word"},
        {"name": "power", "encoding": "float32"},
        {"name": "coil", "table": "coil"},
        {"name": "held", "held": 1},
        {"name": "other bit", "bit": {"of": "word", "number": 1}},
    )
    with pytest.raises(Unbound, match=reason):
        bind(whole, "it")
    assert "it" not in bindings(whole)
    assert ("it" in unbound(whole)) == ("held" not in signal)
    assert set(bindings(whole)) == {"word", "power", "coil", "other bit"}


def test_an_unknown_signal_is_not_bound() -> None:
    with pytest.raises(Unbound, match="there is no signal 'sped'"):
        bind(pump_of(), "sped")


def test_an_edit_keeps_the_bindings_it_did_not_touch() -> None:
    before = pump_of({"name": "speed"}, {"name": "status"}, {"name": "running", "bit": {"of": "status", "number": 2}})
    speed, running = bind(before, "speed"), bind(before, "running")
    status = before.signal_named["status"]
    after = before.replace(signals=(before.signals[0], status.replace(number=400), before.signals[2]))
    assert bind(after, "speed") is speed
    assert bind(after, "status").address == 400
    assert bind(after, "running").address == 400
    assert bind(before, "running") == running
    moved = after.replace(followers=(after.followers[0].replace(numbering="from-1"),))
    assert bind(moved, "speed").address == 309


def test_bindings_live_no_longer_than_their_project() -> None:
    gc.collect()  # what other tests left must not go in between
    known = len(room._OF_PROJECT)
    whole = pump_of({"name": "speed"})
    bind(whole, "speed")
    assert len(room._OF_PROJECT) == known + 1
    del whole
    gc.collect()
    assert len(room._OF_PROJECT) == known


# Reading and writing


def test_registers_become_raw_counts_and_exact_values() -> None:
    binding = bind(of({"encoding": "int16", **SCALED}), "it")
    assert read(binding, (8_330,)) == (8_330, Fraction("41.65"))
    assert read(binding, [0xFFFF]) == (-1, Fraction(-1, 200))


def test_a_follower_says_how_its_words_and_bytes_stand() -> None:
    binding = bind(of({"encoding": "uint32"}, word_order="low-first", byte_order="low-first"), "it")
    assert read(binding, (0x0403, 0x0201)) == (0x0102_0304, 0x0102_0304)
    assert binding.encode(0x0102_0304) == (0x0403, 0x0201)


@pytest.mark.parametrize("of_follower", ["high-first", "low-first"])
def test_a_signal_may_say_how_its_words_stand_whatever_its_follower_says(of_follower: str) -> None:
    low = bind(of({"encoding": "uint32", "word_order": "low-first"}, word_order=of_follower), "it")
    high = bind(of({"encoding": "uint32", "word_order": "high-first"}, word_order=of_follower), "it")
    assert read(low, (0x0304, 0x0102)) == read(high, (0x0102, 0x0304)) == (0x0102_0304, 0x0102_0304)
    assert (low.encode(0x0102_0304), high.encode(0x0102_0304)) == ((0x0304, 0x0102), (0x0102, 0x0304))
    bit = {"name": "it", "bit": {"of": "word", "number": 17}}
    signals = ({"name": "word", "encoding": "uint32", "word_order": "low-first"}, bit)
    assert bind(pump_of(*signals, word_order=of_follower), "it").mask_write(1) == (311, 0xFFFD, 0x0002)


@pytest.mark.parametrize("bits", [True, 1, [True], (1,)])
def test_a_coil_reads_as_one(bits: Any) -> None:
    binding = bind(of({"table": "coil"}), "it")
    assert read(binding, bits) == (1, 1)
    assert read(binding, [False]) == (0, 0)
    assert binding.encode(1) is True
    assert binding.encode(Fraction(0)) is False
    with pytest.raises(OutOfRange, match="2 is not possible for a single bit"):
        binding.encode(2)


def test_a_float_is_scaled_as_the_decimal_it_stands_for() -> None:
    binding = bind(of({"encoding": "float32", "scale": {"raw": [0, 1], "value": [0, 1000]}}), "it")
    words = binding.encode(100)
    assert not isinstance(words, bool)
    assert read(binding, words) == (pytest.approx(0.1), 100)


def test_a_value_is_written_as_the_nearest_count_half_away_from_zero() -> None:
    binding = bind(of({"encoding": "int16", "scale": {"raw": [0, 2], "value": [0, 1]}}), "it")
    assert binding.encode(Fraction(1, 4)) == (1,)
    assert binding.encode(Fraction(-1, 4)) == (0xFFFF,)
    assert binding.encode(Fraction(6, 25)) == (0,)


def test_a_falling_scale_leads_both_ways() -> None:
    binding = bind(of({"scale": {"raw": [0, 100], "value": [100, 0]}}), "it")
    assert read(binding, (30,)) == (30, 70)
    assert binding.encode(70) == (30,)
    with pytest.raises(OutOfRange, match="-1 does not fit uint16"):
        binding.encode(101)


def test_a_text_is_read_and_written() -> None:
    binding = bind(of({"encoding": "string", "length": 3}), "it")
    assert read(binding, (0x5055, 0x4D50, 0)) == ("PUMP", "PUMP")
    assert binding.encode("PUMP") == (0x5055, 0x4D50, 0)


@pytest.mark.parametrize("encoding", ["uint16", "int16"])
def test_a_bit_written_keeps_the_others(encoding: str) -> None:
    whole = pump_of({"name": "word", "encoding": encoding}, {"name": "it", "bit": {"of": "word", "number": 2}})
    binding = bind(whole, "it")
    assert binding.encode(1, (0xA0A0,)) == (0xA0A4,)
    assert binding.encode(0, (0xFFFF,)) == (0xFFFB,)
    assert binding.mask_write(1) == (310, 0xFFFB, 0x0004)
    assert binding.mask_write(0) == (310, 0xFFFB, 0)
    assert read(binding, (0x8004,)) == (1, 1)
    assert read(binding, (0x8000,)) == (0, 0)
    with pytest.raises(OutOfRange, match="read it first"):
        binding.encode(1)
    with pytest.raises(OutOfRange, match="not a bit of a register"):
        bind(whole, "word").mask_write(1)


def test_a_bit_of_a_long_value_is_in_the_register_where_it_stands() -> None:
    signals = ({"name": "word", "encoding": "uint32"}, {"name": "it", "bit": {"of": "word", "number": 17}})
    assert bind(pump_of(*signals), "it").mask_write(1) == (310, 0xFFFD, 0x0002)
    assert bind(pump_of(*signals, word_order="low-first"), "it").mask_write(1) == (311, 0xFFFD, 0x0002)
    assert bind(pump_of(*signals, byte_order="low-first"), "it").mask_write(1) == (310, 0xFDFF, 0x0200)


def test_a_reading_has_the_time_of_its_answer() -> None:
    binding = bind(of(SCALED), "it")
    assert binding.reading((200,), 12.5) == Reading(200, Fraction(1), Quality.GOOD, "", 12.5)


def test_an_implausible_reading_keeps_the_last_good_value_and_its_time() -> None:
    binding = bind(of({"encoding": "bcd16"}), "it")
    with pytest.raises(Implausible):
        binding.decode((0xFFFF,))
    first = binding.reading((0x0042,), 1.0)
    second = binding.reading((0xFFFF,), 2.0, first)
    assert (second.raw, second.value, second.time) == (42, Fraction(42), 1.0)
    assert second.quality is Quality.IMPLAUSIBLE
    assert "digit above 9" in second.reason
    assert binding.reading((0xFFFF,), 2.0).value is None


# Bits from the readings of their words


def test_bits_have_the_quality_of_their_word() -> None:
    whole = pump_of(
        {"name": "status", "encoding": "int16"},
        {"name": "running", "bit": {"of": "status", "number": 2}},
        {"name": "top", "bit": {"of": "status", "number": 15}},
        {"name": "wrong", "bit": {"of": "status", "number": 16}},
    )
    stale = Reading(-32_768 + 4, Fraction(-32_764), Quality.STALE, "no answer for 2 s", 3.0)
    derived = derive_bits(whole, {"status": stale})
    assert derived["running"] == Reading(1, Fraction(1), Quality.STALE, "no answer for 2 s", 3.0)
    assert derived["top"].raw == 1
    assert derived["wrong"].quality is Quality.IMPLAUSIBLE
    assert "there is no bit 16" in derived["wrong"].reason
    running = whole.signal_named["running"]
    assert isinstance(running, BitSignal)
    assert derive_bit(whole, running, {"status": stale}) == derived["running"]
    assert derive_bits(whole, {})["running"] == NEVER_READ


# Its span and its step


@pytest.mark.parametrize(
    ("signal", "span"),
    [
        ({}, (0, 65_535)),
        ({"encoding": "int16"}, (-32_768, 32_767)),
        ({"encoding": "bcd16"}, (0, 9_999)),
        ({"encoding": "uint64"}, (0, 2**64 - 1)),
        ({"encoding": "int16", **SCALED}, (Fraction("-163.84"), Fraction("163.835"))),
        ({"scale": {"raw": [0, 100], "value": [100, 0]}}, (-65_435, 100)),
        ({"limits": [0, 50]}, (0, 65_535)),
        ({"table": "discrete"}, (0, 1)),
        ({"bit": {"of": "it", "number": 3}}, (0, 1)),
        ({"held": 5, "limits": [Decimal("0.5"), 30]}, (Fraction(1, 2), 30)),
        ({"held": 5}, None),
        ({"encoding": "float32"}, None),
        ({"encoding": "float32", "limits": [-5, 5]}, (-5, 5)),
        ({"encoding": "string", "length": 4}, None),
    ],
)
def test_the_span_holds_every_value_of_the_whole_raw_range(
    signal: dict[str, Any], span: tuple[Fraction, Fraction] | None
) -> None:
    assert value_span(of(signal), "it") == span


def test_an_unknown_signal_has_no_span() -> None:
    assert value_span(pump_of(), "it") is None


@pytest.mark.parametrize(
    ("signal", "step"),
    [
        ({}, 1),
        ({"decimals": 2}, 1),  # one raw count is 1
        (SCALED, Fraction(1, 10)),
        ({**SCALED, "decimals": 3}, Fraction(1, 200)),
        ({"scale": {"raw": [0, 1], "value": [0, -5]}}, 5),
        ({"step": Decimal("0.25"), "decimals": 1}, Fraction(1, 4)),
        ({"encoding": "float32", "decimals": 2}, Fraction(1, 100)),
        ({"held": 1, "decimals": 1}, Fraction(1, 10)),
        ({"table": "coil", "decimals": 2}, 1),
        ({"bit": {"of": "it", "number": 3}, "decimals": 2}, 1),
    ],
)
def test_a_step_is_a_shown_unit_but_no_less_than_a_count(signal: dict[str, Any], step: Fraction) -> None:
    assert step_of(of(signal), "it") == step


def test_an_unknown_signal_has_no_step() -> None:
    with pytest.raises(Unbound, match="no signal 'sped'"):
        step_of(pump_of(), "sped")


# What is refused


@pytest.mark.parametrize(
    ("signal", "value", "reason"),
    [
        ({}, 1, "signal 'it' is read-only ('write' is not set)"),
        ({"write": True, "table": "input"}, 1, "signal 'it' is in the table 'input', which is read-only"),
        ({"write": True, "table": "discrete"}, 1, "signal 'it' is in the table 'discrete', which is read-only"),
        ({"write": True, "follower": "fan"}, 1, "signal 'it': there is no device 'fan'"),
        ({"write": True, "limits": [0, 50], **SCALED}, "50.1", "50.1 Hz is above the limit 50.0 Hz"),
        ({"write": True, "limits": [0, 50], **SCALED}, "50.004", "50.004 Hz is above the limit 50.0 Hz"),
        ({"write": True, "limits": [5, 50]}, 4, "4 is below the limit 5"),
        ({"write": True}, 65_536, "65536 would be raw 65536; the range of uint16 is 0 to 65535"),
        ({"write": True}, -1, "-1 would be raw -1; the range of uint16 is 0 to 65535"),
        ({"write": True, **SCALED}, 400, "400.0 Hz would be raw 80000; the range of uint16 is 0 to 65535"),
        ({"write": True, "encoding": "bcd16"}, 10_000, "10000 would be raw 10000; the range of bcd16 is 0 to 9999"),
        ({"write": True, "encoding": "float32"}, 10**39, "the number is too large for float32"),
        ({"write": True, "table": "coil"}, 2, "2 is not possible for a single bit; use 0 or 1"),
        ({"write": True}, "fast", "'fast' is a text, but signal 'it' is a number"),
        ({"write": True, "encoding": "string", "length": 2}, 7, "7 is a number, but signal 'it' is a text"),
        (
            {"write": True, "encoding": "string", "length": 1},
            "PUMP",
            "the text has 4 characters, but its registers hold only 2",
        ),
        ({"held": 5, "limits": [0, 9]}, 10, "10 is above the limit 9"),
        ({"held": 5}, "x", "'x' is a text, but signal 'it' is a number"),
    ],
)
def test_a_refusal_says_why(signal: dict[str, Any], value: Any, reason: str) -> None:
    number = Fraction(value) if isinstance(value, str) and value[0].isdigit() else value
    assert refusal(of(signal), "it", number) == reason


@pytest.mark.parametrize(
    ("signal", "value"),
    [
        ({"write": True}, 65_535),
        ({"write": True, "limits": [0, 50], **SCALED}, 50),
        ({"write": True, "limits": [0, 50], **SCALED}, Fraction(1, 3)),
        ({"write": True, "table": "coil"}, 1),
        ({"write": True, "encoding": "string", "length": 2}, "PUMP"),
        ({"held": 5}, 10**9),
        ({"held": 5, "limits": [0, 9]}, 9),
    ],
)
def test_what_may_be_written_is_not_refused(signal: dict[str, Any], value: Any) -> None:
    assert refusal(of(signal), "it", value) is None
    assert unwritable(of(signal), "it") is None


def test_a_bit_may_be_written_where_its_word_may() -> None:
    def bit(table: str, **keys: Any) -> Project:
        return pump_of({"name": "word", "table": table}, {"name": "it", "bit": {"of": "word", "number": 0}, **keys})

    assert refusal(bit("holding", write=True), "it", 1) is None
    assert refusal(bit("holding", write=True), "it", 2) == "2 is not possible for a single bit; use 0 or 1"
    assert refusal(bit("input", write=True), "it", 1) == "signal 'it' is in the table 'input', which is read-only"
    assert refusal(bit("holding"), "it", 1) == "signal 'it' is read-only ('write' is not set)"


def test_an_unknown_signal_is_refused() -> None:
    assert refusal(pump_of(), "sped", 1) == "there is no signal 'sped'"


# What is shown


@pytest.mark.parametrize(
    ("signal", "value", "width", "kind", "text"),
    [
        (SCALED, "41.65", 5, "number", " 41.7"),
        (SCALED, "141.65", 4, "number", "####"),
        (SCALED, None, 4, "number", "----"),
        ({"texts": {"0": "stopped", "1": "running"}}, 1, 8, "choice", "running "),
        ({"texts": {"0": "stopped", "1": "running"}}, 1, 6, "choice", "######"),
        ({"texts": {"0": "stopped", "1": "running"}}, 7, 6, "choice", "7     "),
        ({"texts": {"-1": "back", "007": "seven"}}, -1, 5, "choice", "back "),
        ({"texts": {"-1": "back", "007": "seven"}}, 7, 5, "choice", "seven"),
        ({"texts": {"0": "none"}, "decimals": 1}, "0.4", 4, "choice", "0.4 "),
        ({"texts": {"0": "zu °"}}, 0, 4, "choice", "zu ?"),
        ({"texts": {"0": "stopped"}}, 0, 4, "number", "   0"),
        ({"limits": [0, 100]}, 50, 10, "bar", "=====     "),
        ({"limits": [0, 100]}, 500, 10, "bar", "=========>"),
        ({}, 65_535, 4, "bar", "===="),
        ({"encoding": "float32"}, 5, 4, "bar", "----"),
        ({"held": 1}, None, 3, "bar", "---"),
        ({}, 36864, 6, "hexadecimal", " 9000h"),
        ({}, 36864, 4, "hexadecimal", "####"),
        ({"encoding": "uint32"}, 36864, 9, "hexadecimal", "00009000h"),
        ({"encoding": "int16"}, -1, 5, "hexadecimal", "FFFFh"),
        ({"texts": {"0": "none"}}, 0, 5, "hexadecimal", "0000h"),
        (SCALED, "20.5", 5, "hexadecimal", " 20.5"),
        ({"encoding": "bcd16"}, 1234, 5, "hexadecimal", " 1234"),
        ({}, None, 5, "hexadecimal", "-----"),
    ],
)
def test_a_field_shows_exactly_its_width(signal: dict[str, Any], value: Any, width: int, kind: Any, text: str) -> None:
    number = Fraction(value) if value is not None else None
    assert shown_text(of(signal), "it", number, width, kind) == text


def test_a_text_from_the_follower_is_shown_in_the_panels_characters() -> None:
    text = of({"encoding": "string", "length": 4})
    assert shown_text(text, "it", "PUMP", 6, "number") == "PUMP  "
    assert shown_text(text, "it", "PUMP \xff", 6, "choice") == "PUMP ?"
    assert shown_text(text, "it", "PUMPROOM", 6, "number") == "######"


def test_a_bar_takes_the_range_of_its_field_first() -> None:
    assert shown_text(of({"limits": [0, 100]}), "it", 5, 4, "bar", (Fraction(0), Fraction(10))) == "==  "
    solid = pump_of({"name": "it", "limits": [0, 100]}, repertoire="lcd-kana")
    assert shown_text(solid, "it", 50, 4, "bar") == "██  "


def test_a_signal_that_is_not_there_shows_dashes() -> None:
    assert shown_text(pump_of(), "sped", Fraction(1), 3, "number") == "---"


def test_values_without_a_text_of_their_own_show_the_one_for_all_others() -> None:
    whole = of({"texts": {"0": "no fault", "01": "overload", "otherwise": "other fault"}, "decimals": 1})
    assert shown_text(whole, "it", 0, 12, "choice") == "no fault    "
    assert shown_text(whole, "it", 1, 12, "choice") == "overload    "
    for value in (2, -1, 36_864, Fraction(1, 2)):
        assert shown_text(whole, "it", value, 12, "choice") == "other fault "
    assert plain_text(whole, "it", 1) == "overload"
    assert plain_text(whole, "it", 4) == "other fault (4.0)", "what it is stays to be read outside of the panel"


def test_a_signal_shown_in_hexadecimal() -> None:
    # The status word of a running drive of IEC 61800-7-201, bits 0, 1, 2, 4 and 5 set, and the sign of an int16.
    word = of({"hex": True, "encoding": "int16", "texts": {"0": "off", "otherwise": "other"}})
    assert plain_text(word, "it", 0b11_0111) == "other (0037h)"
    assert plain_text(word, "it", -1) == "other (FFFFh)"
    assert plain_text(word, "it", 0) == "off"
    assert plain_text(of({"hex": True, "encoding": "uint32"}), "it", 0x9000) == "00009000h"
    for decimal in ({"scale": {"raw": [0, 10], "value": [0, 1]}}, {"encoding": "float32"}):
        assert plain_text(of({"hex": True, **decimal}), "it", 12) == "12"
    assert plain_text(of({"hex": True}), "it", Fraction(1, 2)) == "1", "no register holds it: as without"


def test_plain_text_is_as_wide_as_it_gets() -> None:
    whole = of({"texts": {"1": "running"}, "decimals": 1})
    assert plain_text(whole, "it", 1) == "running"
    assert plain_text(whole, "it", Fraction("-1234567.85")) == "-1234567.9"
    assert plain_text(whole, "it", "PUMP") == "PUMP"
    assert plain_text(whole, "it", None) == ""
    assert plain_text(whole, "sped", Fraction(1, 2)) == "1/2"
