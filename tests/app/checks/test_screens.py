from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest

from app.checks import check
from app.project.binding import shown_text, value_span
from app.project.model import Blinking, Condition, Field, HeldSignal, RegisterSignal

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


def test_text_beyond_the_last_column(good: Draft) -> None:
    slow = good.place("screen", "slow")
    finding = good.change(slow, text=("Slow speed       Hz", "Only while the belt is empty")).only()
    assert (finding.rule, finding.severity, finding.place) == ("text-outside-panel", "error", (*slow, "text", 1))
    assert finding.where == "screen 'slow', text, row 2"
    assert "28 characters" in finding.message
    assert "'is empty' is lost" in finding.message
    assert good.change(slow, text=("Slow speed       Hz", "Only on an empty one")).clean()


def test_text_below_the_last_row(good: Draft) -> None:
    slow = good.place("screen", "slow")
    finding = good.change(slow, text=("Slow speed       Hz", "", "", "", "more")).only()
    assert (finding.rule, finding.severity, finding.place) == ("text-outside-panel", "error", (*slow, "text", 4))
    assert good.change(slow, text=("Slow speed       Hz", "", "", "more")).clean()


def test_blanks_outside_the_panel_are_no_text(good: Draft) -> None:
    assert good.change(good.place("screen", "slow"), text=("Slow speed       Hz" + " " * 20, "", "", "", "  ")).clean()


@pytest.mark.parametrize("at", [(4, 0), (-1, 0), (1, 16), (1, -1)])
def test_a_field_outside_the_panel(good: Draft, at: tuple[int, int]) -> None:
    field = Field(at=at, width=5, signal="speed set")
    broken = good.add_field("slow", field)
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("field-outside-panel", "error")
    assert finding.place == (*good.place("screen", "slow"), "field", 1)
    assert broken.field("slow", 1, at=(1, 15)).clean()


def test_cells_that_blink_outside_the_panel(good: Draft) -> None:
    when = Condition(signal="fault")
    broken = good.change(good.place("screen", "slow"), blinking=(Blinking(at=(0, 40), width=3, when=when),))
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("blinking-outside-panel", "warning")
    assert finding.place == (*good.place("screen", "slow"), "blink", 0)
    assert good.change(good.place("screen", "slow"), blinking=(Blinking(at=(0, 0), width=3, when=when),)).clean()
    unknown = good.change(
        good.place("screen", "slow"), blinking=(Blinking(when=Condition(signal="slow speed")),)
    ).only()
    assert unknown.place[-2:] == ("blink", 0)  # set and clear are for single bits


def test_fields_that_overlap(good: Draft) -> None:
    broken = good.add_field("slow", Field(at=(1, 0), width=5, signal="speed set"))
    broken = broken.add_field("slow", Field(at=(1, 4), width=6, signal="frequency"))
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("fields-overlap", "error")
    assert finding.place == (*good.place("screen", "slow"), "field", 2)
    assert "1 cell of" in finding.message
    assert broken.field("slow", 2, at=(1, 5)).clean()
    assert broken.field("slow", 2, at=(2, 4)).clean()


def test_a_field_over_text(good: Draft) -> None:
    broken = good.field("slow", 0, at=(0, 9))
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("field-over-text", "warning")
    assert finding.place == (*good.place("screen", "slow"), "field", 0)
    assert "'d'" in finding.message
    assert broken.field("slow", 0, at=(0, 10)).clean()


# A field too narrow ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("screen", "number", "enough", "severity", "worst"),
    [
        ("run", 0, 5, "warning", "327.7"),  # uint16: 65535 counts of 0.005 Hz; its limits end at 50.0
        ("run", 1, 6, "error", "-163.8"),  # int16: -32768 counts of 0.005 Hz
        ("run", 2, 7, "error", "stopped"),
        ("scale", 0, 10, "error", "4294967295"),
        ("scale", 1, 8, "warning", "8 characters"),
        ("scale", 2, 3, "error", "off"),
        ("scale", 3, 5, "error", "-10.0"),  # a float, proved over its limits
        ("slow", 0, 4, "error", "20.0"),
    ],
)
def test_a_field_one_cell_too_narrow(
    good: Draft, screen: str, number: int, enough: int, severity: str, worst: str
) -> None:
    broken = good.field(screen, number, width=enough - 1)
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("field-too-narrow", severity)
    assert finding.place == (*good.place("screen", screen), "field", number)
    assert worst in finding.message
    assert broken.field(screen, number, width=enough).clean()


@pytest.mark.parametrize("encoding", ["uint16", "int16", "uint32", "int32", "uint64", "int64", "bcd16", "bcd32"])
@pytest.mark.parametrize("decimals", [0, 1, 4])
@pytest.mark.parametrize("scale", [(1, 1), (3, 7), (1000, 1), (-10, 1), (1, 100)])
def test_what_is_found_wide_enough_is_wide_enough(
    good: Draft, encoding: Any, decimals: int, scale: tuple[int, int]
) -> None:
    """The narrowest width without a finding shows both ends of the range, and one cell less does not show one."""
    signal = RegisterSignal(name="probe", follower="scale", table="input", number=30_101, encoding=encoding)
    signal = signal.replace(decimals=decimals, scale={"raw": (0, scale[0]), "value": (0, scale[1])})
    draft = good.panel(columns=40).add(signal).add_field("slow", Field(at=(1, 0), width=1, signal="probe"))

    def too_narrow(width: int) -> bool:
        return any(finding.rule == "field-too-narrow" for finding in check(draft.field("slow", 1, width=width).project))

    width = next(width for width in range(1, 40) if not too_narrow(width))
    span = value_span(draft.project, "probe")
    assert span is not None
    shown = [shown_text(draft.project, "probe", end, width, "number") for end in span]
    assert not any("#" in text for text in shown)
    assert any("#" in shown_text(draft.project, "probe", end, width - 1, "number") for end in span) or width == 1


@pytest.mark.parametrize(("encoding", "enough"), [("uint16", 5), ("int16", 5), ("int32", 9), ("uint64", 17)])
def test_a_field_in_hexadecimal_has_four_digits_a_register_and_an_h(good: Draft, encoding: Any, enough: int) -> None:
    signal = RegisterSignal(name="code", follower="scale", table="input", number=30_101, encoding=encoding)
    field = Field(at=(1, 0), width=enough - 1, signal="code", kind="hexadecimal")
    broken = good.panel(columns=40).add(signal).add_field("slow", field)
    finding = next(each for each in check(broken.project) if each.rule == "field-too-narrow")
    assert finding.severity == "error"
    wide = broken.field("slow", 1, width=enough)
    assert not [each for each in check(wide.project) if "code" in each.message and each.rule != "unused"]
    span = value_span(wide.project, "code")
    assert span is not None
    for end in span:
        assert shown_text(wide.project, "code", end, enough, "hexadecimal")[-1] == "h"
        assert "#" in shown_text(wide.project, "code", end, enough - 1, "hexadecimal")


@pytest.mark.parametrize(
    "more", [{"encoding": "float32"}, {"encoding": "bcd16"}, {"scale": {"raw": (0, 10), "value": (0, 1)}}]
)
def test_what_is_no_whole_number_in_registers_is_not_shown_in_hexadecimal(good: Draft, more: dict[str, Any]) -> None:
    signal = RegisterSignal(name="code", follower="scale", table="input", number=30_101, **more)
    broken = good.add(signal).add_field("slow", Field(at=(1, 0), width=12, signal="code", kind="hexadecimal"))
    assert "not-hexadecimal" in [finding.rule for finding in check(broken.project)]
    assert "not-hexadecimal" not in [finding.rule for finding in check(broken.field("slow", 1, kind="number").project)]


@pytest.mark.parametrize(("decimals", "offered"), [(0, True), (2, False)])
def test_a_field_in_hexadecimal_is_made_a_number_only_where_that_has_room(
    good: Draft, decimals: int, offered: bool
) -> None:
    signal = RegisterSignal(name="code", follower="scale", number=40_101, decimals=decimals, write=True)
    entered = Field(at=(1, 0), width=5, signal="code", kind="hexadecimal", entry=True)
    found = check(good.add(signal).add_field("slow", entered).project)
    [finding] = [each for each in found if each.rule == "not-hexadecimal"]
    assert (finding.fix is not None) == offered


def test_a_float_without_limits_is_noted(good: Draft) -> None:
    broken = good.signal("power", limits=None)
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("field-too-narrow", "note")
    assert finding.place == (*good.place("screen", "scale"), "field", 3)


def test_a_held_value_that_nobody_limits_has_the_room_of_its_content(good: Draft) -> None:
    held = HeldSignal(name="number", held=Decimal(1234))
    broken = good.add(held).add_field("slow", Field(at=(1, 0), width=3, signal="number"))
    assert broken.only().rule == "field-too-narrow"
    assert broken.field("slow", 1, width=4).clean()


def test_a_bar_is_never_too_narrow(good: Draft) -> None:
    assert good.field("run", 3, width=1).clean()


# Texts and characters -------------------------------------------------------------------------------------------------


def test_a_choice_without_texts(good: Draft) -> None:
    broken = good.signal("running", texts={})
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("choice-without-text", "warning")
    assert finding.place == (*good.place("screen", "run"), "field", 2)
    assert broken.field("run", 2, kind="number").clean()


def test_a_bit_with_one_text_only(good: Draft) -> None:
    finding = good.signal("running", texts={"1": "running"}).only()
    assert (finding.rule, finding.severity) == ("choice-without-text", "warning")
    assert "can be 0" in finding.message


@pytest.mark.parametrize(
    ("encoding", "texts", "lacking"),
    [
        ("uint16", {"0": "a", "1": "b"}, "2"),
        ("uint16", {"1": "a", "2": "b"}, "0"),
        ("int16", {str(value): "x" for value in range(32_768)}, "-1"),
    ],
)
def test_values_without_a_text_are_noted(good: Draft, encoding: Any, texts: dict[str, str], lacking: str) -> None:
    mode = RegisterSignal(name="mode", follower="scale", table="input", number=30_101, encoding=encoding, texts=texts)
    finding = good.add(mode).add_field("slow", Field(at=(1, 0), width=5, signal="mode", kind="choice")).only()
    assert (finding.rule, finding.severity) == ("choice-without-text", "note")
    assert finding.place == (*good.place("screen", "slow"), "field", 1)
    assert f"can be {lacking}," in finding.message


def test_a_text_for_all_other_values_leaves_none_without(good: Draft) -> None:
    texts = {"0": "a", "otherwise": "other"}
    mode = RegisterSignal(name="mode", follower="scale", table="input", number=30_101, texts=texts)
    draft = good.add(mode).add_field("slow", Field(at=(1, 0), width=5, signal="mode", kind="choice"))
    assert draft.clean()
    finding = draft.signal("mode", texts={"0": "a", "otherwise": "others"}).only()
    assert finding.rule == "field-too-narrow"
    assert "'others', the text of 'mode' for otherwise, has 6 characters" in finding.message


def test_a_text_for_every_limited_held_value(good: Draft) -> None:
    held = HeldSignal(name="mode", held=Decimal(1), limits=(Decimal(1), Decimal(3)))
    draft = good.add(held).add_field("slow", Field(at=(1, 0), width=4, signal="mode", kind="choice", entry=True))
    assert draft.signal("mode", texts={"1": "slow", "2": "even", "3": "fast"}).clean()
    finding = draft.signal("mode", texts={"1": "slow", "3": "fast"}).only()
    assert "can be 2," in finding.message


def test_a_text_for_a_value_that_cannot_be(good: Draft) -> None:
    broken = good.signal("running", texts={"0": "stopped", "1": "running", "2": "reverse"})
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("text-for-no-value", "warning")
    assert finding.place == good.place("signal", "running")


def test_a_character_in_the_text_that_the_panel_lacks(good: Draft) -> None:
    slow = good.place("screen", "slow")
    broken = good.change(slow, text=("Slow speed       Hz", "", "schräg → 5 °"))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("character-missing", "error", (*slow, "text", 2))
    assert finding.hint.startswith("use other characters; ")
    assert "'ä' (U+00E4) '→' (U+2192) '°' (U+00B0)" in finding.message
    assert broken.panel(repertoire="lcd-kana").clean()


def test_the_repertoires_that_have_what_is_missing_are_named(good: Draft) -> None:
    hints = [good.signal("lamp", unit=unit).only().hint for unit in ("\u00b0C", "\u00e9", "\u4e2d")]
    assert [hint.partition(": ")[2] for hint in hints] == [
        "latin-1, lcd-kana, lcd-european",
        "latin-1, lcd-european",
        "",
    ]
    assert hints[2] == "use other characters; no character set has all of these"


@pytest.mark.parametrize(("change", "lacking"), [({"unit": "m³/h"}, "³"), ({"texts": {"0": "off", "1": "für"}}, "ü")])
def test_a_character_of_a_signal_that_the_panel_lacks(good: Draft, change: dict[str, Any], lacking: str) -> None:
    broken = good.signal("lamp", **change)
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("character-missing", "error")
    assert finding.place == good.place("signal", "lamp")
    assert f"'{lacking}'" in finding.message
    assert broken.panel(repertoire="latin-1").clean()


# Bars -----------------------------------------------------------------------------------------------------------------


def test_a_bar_without_ends(good: Draft) -> None:
    broken = good.signal("power", limits=None).field("scale", 3, kind="bar")
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("bar-without-range", "error")
    assert finding.place == (*good.place("screen", "scale"), "field", 3)
    assert broken.field("scale", 3, kind="bar", range=(0, 10)).clean()
    assert broken.signal("power", limits=(0, 10)).clean()


def test_a_bar_with_one_end(good: Draft) -> None:
    finding = good.field("run", 3, range=(50, 50)).only()
    assert (finding.rule, finding.place) == ("bar-without-range", (*good.place("screen", "run"), "field", 3))
    assert good.field("run", 3, range=(50, 0)).clean()


def test_a_bar_of_a_text(good: Draft) -> None:
    finding = good.field("scale", 1, kind="bar").only()
    assert (finding.rule, finding.place) == ("bar-without-range", (*good.place("screen", "scale"), "field", 1))
