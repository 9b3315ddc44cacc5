from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from app.checks import check
from app.project.model import Bit, BitSignal, Field, NeverRead, RegisterSignal

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


@pytest.mark.parametrize(
    ("signal", "number", "fixed"),
    [
        ("frequency", 65_536, 65_535),  # from-0: 0..65535
        ("weight", 40_001, 30_001),  # prefixed: the digit of another table
        ("weight", 0, 365_535),  # two registers: the last ones there are
        ("lamp", 10_001, 9_999),
    ],
)
def test_a_register_outside_its_table(good: Draft, signal: str, number: int, fixed: int) -> None:
    finding = good.signal(signal, number=number).only()
    assert (finding.rule, finding.severity) == ("register-outside", "error")
    assert finding.place == (*good.place("signal", signal), "register")
    assert finding.where == f"signal '{signal}'"
    assert good.signal(signal, number=fixed).clean()


def test_a_value_that_runs_over_the_end(good: Draft) -> None:
    finding = good.signal("power", number=65_535).only()
    assert (finding.rule, finding.place) == ("register-outside", (*good.place("signal", "power"), "register"))
    assert good.signal("power", number=65_534).clean()


def test_a_value_longer_than_the_follower_answers(good: Draft) -> None:
    broken = good.change(("follower", 1), max_registers=3)
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("read-too-long", "error", good.place("signal", "batch"))
    assert broken.change(("follower", 1), max_registers=4).clean()


@pytest.mark.parametrize(
    ("number", "encoding"),
    [(30_002, "uint16"), (30_001, "float32"), (30_001, "int32"), (30_001, "uint16"), (30_010, "uint32")],
)
def test_signals_that_share_registers(good: Draft, number: int, encoding: Any) -> None:
    other = RegisterSignal(name="tare", follower="scale", table="input", number=number, encoding=encoding)
    broken = good.add(other).signal("tare", limits=(0, 9)).field("scale", 3, signal="tare", width=11)
    findings = [finding for finding in check(broken.project) if finding.severity != "note"]
    assert [(finding.rule, finding.severity, finding.place) for finding in findings if "registers" in finding.rule] == [
        ("registers-overlap", "warning", ("signal", 12))
    ]


def test_one_register_in_two_scales_is_fine(good: Draft) -> None:
    twin = RegisterSignal(name="tonnes", follower="scale", table="input", number=30_001, encoding="uint32", decimals=3)
    twin = twin.replace(scale={"raw": (0, 1000), "value": (0, 1)})
    shown = Field(at=(1, 0), width=11, signal="tonnes")
    assert good.add(twin).add_field("slow", shown).clean()


def test_the_same_number_of_another_table_or_follower_is_another_register(good: Draft) -> None:
    weight = RegisterSignal(name="tare", follower="scale", number=40_001)
    assert good.add(weight).add_field("slow", Field(at=(1, 0), width=5, signal="tare")).clean()
    power = RegisterSignal(name="other", follower="scale", table="input", number=30_409)
    assert good.add(power).add_field("slow", Field(at=(1, 0), width=5, signal="other")).clean()


@pytest.mark.parametrize("signal", ["frequency", "fault"])
def test_writing_where_nothing_can_be_written(good: Draft, signal: str) -> None:
    finding = good.signal(signal, write=True).only()
    assert (finding.rule, finding.severity) == ("write-to-read-only", "error")
    assert finding.place == good.place("signal", signal)
    assert "'input'" in finding.message
    assert good.signal(signal, write=False).clean()


def test_writing_again_and_again_what_may_not_be_written(good: Draft) -> None:
    broken = good.signal("frequency", refresh_ms=500)
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("refresh-without-write", "warning")
    assert finding.place == good.place("signal", "frequency")
    assert good.signal("speed set", refresh_ms=500).only().rule == "written-by-itself"


def test_a_bit_that_its_word_has_not(good: Draft) -> None:
    finding = good.signal("running", bit=Bit(of="status", number=16)).only()
    assert (finding.rule, finding.severity) == ("bit-outside-word", "error")
    assert finding.place == (*good.place("signal", "running"), "bit")
    good = good.change(("follower", 0), simulate="bank")  # to whose status word every bit may mean something
    assert good.signal("running", bit=Bit(of="status", number=15)).clean()


@pytest.mark.parametrize("base", ["power", "lamp", "batch"])
def test_a_bit_of_what_has_no_bits(good: Draft, base: str) -> None:
    finding = good.signal("running", bit=Bit(of=base, number=0)).only()
    assert (finding.rule, finding.place) == ("bit-outside-word", (*good.place("signal", "running"), "bit"))


def test_a_bit_of_a_long_value(good: Draft) -> None:
    bit = BitSignal(name="overload", bit=Bit(of="weight", number=31))
    assert good.add(bit).add_field("slow", Field(at=(1, 0), width=1, signal="overload")).clean()


def test_a_string_without_a_length(good: Draft) -> None:
    finding = good.signal("batch", length=None).only()
    assert (finding.rule, finding.severity) == ("string-length", "error")
    assert finding.place == good.place("signal", "batch")
    assert good.signal("batch", length=2).clean()


def test_a_length_of_a_number(good: Draft) -> None:
    finding = good.signal("weight", length=2).only()
    assert (finding.rule, finding.severity, finding.place) == (
        "string-length",
        "warning",
        good.place("signal", "weight"),
    )


@pytest.mark.parametrize("signal", ["lamp", "batch", "status"])
def test_a_word_order_that_means_nothing(good: Draft, signal: str) -> None:
    finding = good.signal(signal, word_order="low-first").only()
    assert (finding.rule, finding.severity) == ("word-order-without-meaning", "warning")
    assert good.signal(signal, word_order=None).signal("weight", word_order="low-first").clean()


@pytest.mark.parametrize("signal", ["lamp", "batch", "frequency", "power"])
def test_hexadecimal_of_what_is_no_whole_number(good: Draft, signal: str) -> None:
    finding = good.signal(signal, hex=True).only()
    assert (finding.rule, finding.severity) == ("hexadecimal-without-meaning", "warning")
    assert good.signal(signal, hex=False).signal("status", hex=True).clean()


@pytest.mark.parametrize("signal", ["lamp", "batch"])
def test_a_scale_that_is_not_applied(good: Draft, signal: str) -> None:
    finding = good.signal(signal, scale={"raw": (0, 10), "value": (0, 1)}).only()
    assert (finding.rule, finding.severity) == ("scale-without-meaning", "warning")
    assert finding.place == good.place("signal", signal)
    assert good.signal(signal, scale=None).clean()


def test_a_signal_in_registers_that_are_never_read(good: Draft) -> None:
    def never(first: int, last: int) -> tuple[NeverRead, ...]:
        return (NeverRead(table="holding", first=first, last=last),)

    finding = good.change(("follower", 0), never_read=never(305, 310)).only()
    assert (finding.rule, finding.severity, finding.place) == (
        "never-read-signal",
        "error",
        good.place("signal", "speed set"),
    )
    assert good.change(("follower", 0), never_read=never(301, 309)).clean()


def test_a_range_that_is_never_read_and_names_no_registers(good: Draft) -> None:
    broken = good.change(("follower", 1), never_read=(NeverRead(table="holding", first=7, last=9),))
    finding = broken.only()
    assert (finding.rule, finding.place) == ("never-read-signal", ("follower", 1))
    fixed = (NeverRead(table="holding", first=40_007, last=40_009),)
    assert good.change(("follower", 1), never_read=fixed).clean()


def test_a_signal_that_its_follower_cannot_be_written(good: Draft) -> None:
    broken = good.change(("follower", 0), write_functions=(22,))
    findings = [finding for finding in check(broken.project) if finding.rule == "write-not-offered"]
    assert [finding.place for finding in findings] == [
        good.place("signal", "command"),
        good.place("signal", "speed set"),
    ]
    assert all("06 or 16" in finding.message for finding in findings)
    assert good.change(("follower", 0), write_functions=(16,)).clean()
