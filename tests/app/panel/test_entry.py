"""Entry: beginning, choosing, changing by step and by digit, confirming, abandoning, limits."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest

from app.panel.entry import REPEAT_AFTER_S, REPEAT_EVERY_S
from app.panel.machine import Entered, Mode, Refused, Write, WriteFailed
from app.panel.rendering import Attribute
from app.panel.state import entry_report
from app.signals.reading import Quality
from tests.app.panel.operating import Operator, project, register

HZ = register("speed", 310, scale={"raw": [0, 100], "value": [0, 1]}, unit="Hz", decimals=1, limits=[0, 50], step=0.1)


def field(signal: str, at: tuple[int, int] = (0, 8), width: int = 6, **more: Any) -> dict[str, Any]:
    return {"at": list(at), "width": width, "signal": signal, "entry": True, **more}


def panel(*fields: dict[str, Any], signal: list[dict[str, Any]], **entry: Any) -> Operator:
    return Operator(
        project(
            panel={"rows": 3, "entry": entry},
            signal=signal,
            screen=[{"name": "run", "text": ["run"], "field": list(fields)}],
        )
    )


def one(value: Fraction | int | str = 20, signal: dict[str, Any] = HZ, **entry: Any) -> Operator:
    operator = panel(field(signal["name"]), signal=[signal], **entry)
    operator.read(signal["name"], Fraction(value))
    return operator


def current(operator: Operator) -> Fraction:
    entry = operator.state.entry
    assert entry is not None
    assert entry.editing is not None
    return entry.editing.value


# Beginning and ending -------------------------------------------------------------------------------------------------


def test_one_field_is_changed_at_once_and_sent_on_confirm() -> None:
    operator = one("41.65")
    assert operator.press("enter") == ()
    assert operator.does(Mode.ADJUST)
    operator.press("up", "up", "down")
    assert operator.press("enter") == (
        Entered("speed", Fraction("41.65"), Fraction("41.75")),
        Write("speed", Fraction("41.75")),
    )
    assert operator.does(Mode.WATCH)


def test_abandon_restores() -> None:
    operator = one(20)
    operator.press("enter", "up", "escape")
    assert operator.does(Mode.WATCH)
    assert operator.effects == []
    assert operator.texts[0] == "run       20.0  "


def test_time_out_abandons_and_each_key_gives_new_time() -> None:
    operator = one(20, timeout_s=10)
    operator.press("enter", "up")
    operator.wait(9.8)
    operator.press("up")
    operator.wait(9.8)
    assert operator.does(Mode.ADJUST)
    operator.wait(0.4)
    assert operator.does(Mode.WATCH)
    assert operator.effects == []


def test_a_time_out_of_none_waits_for_ever() -> None:
    operator = one(20, timeout_s=0)
    operator.press("enter")
    operator.wait(100_000, every=1000)
    assert operator.does(Mode.ADJUST)


def test_other_keys_can_be_given_the_parts() -> None:
    operator = Operator(
        project(
            panel={
                "keys": ["set", "more", "less", "ok", "no"],
                "entry": {"begin": "set", "up": "more", "down": "less", "confirm": "ok", "abandon": "no"},
            },
            signal=[HZ],
            screen=[{"name": "run", "field": [field("speed")]}],
        )
    )
    operator.read("speed", 20)
    operator.press("set", "more", "less", "less", "ok")
    assert operator.writes == [("speed", Fraction("19.9"))]
    operator.press("set", "more", "no")
    assert len(operator.writes) == 1


def test_a_held_value_is_changed_in_the_panel_only() -> None:
    operator = panel(field("preset"), signal=[{"name": "preset", "held": 5, "limits": [0, 9]}])
    assert operator.press("enter", "up", "enter") == (Entered("preset", Fraction(5), Fraction(6)),)
    assert operator.state.held == {"preset": 6}
    assert operator.texts[0] == "run          6  "


@pytest.mark.parametrize(
    ("signal", "value", "quality", "reason", "told"),
    [
        ({**HZ, "write": False}, 20, Quality.GOOD, "is read-only", "read only"),
        ({**HZ, "table": "input"}, 20, Quality.GOOD, "is read-only", "read only"),
        (HZ, 20, Quality.REFUSED, "exception 02", "no value"),
        (HZ, 20, Quality.IMPLAUSIBLE, "exception 02", "no value"),
        (HZ, None, Quality.NONE, "not read yet", "no value"),
        (register("speed", 310, encoding="string", length=4), "text", Quality.GOOD, "text cannot", "read only"),
        ({**HZ, "limits": [900, 950]}, 20, Quality.GOOD, "outside the range of its registers", "not possible"),
    ],
)
def test_what_cannot_be_changed_is_refused_with_the_reason(
    signal: dict[str, Any], value: int | str | None, quality: Quality, reason: str, told: str
) -> None:
    operator = panel(field("speed"), signal=[signal])
    if value is not None:
        operator.read("speed", value, quality, "" if quality is Quality.GOOD else "exception 02")
    (effect,) = operator.press("enter")
    assert isinstance(effect, Refused)
    assert reason in effect.reason
    assert operator.does(Mode.WATCH)
    assert operator.told == told
    assert operator.state.message is not None
    assert operator.state.message.reason == effect.reason


def test_a_stale_value_may_be_changed() -> None:
    operator = one(20)
    operator.lose("speed")
    operator.press("enter", "up", "enter")
    assert operator.writes == [("speed", Fraction("20.1"))]


def test_a_value_that_the_line_refuses_is_told() -> None:
    operator = one(20)
    operator.press("enter", "up", "enter")
    operator.feed(WriteFailed("speed", "device 'pump' does not answer", operator.at, message="no_answer"))
    assert operator.told == "no answer"
    operator.feed(WriteFailed("speed", "device 'pump' kept 20.0 Hz", operator.at, kept=Fraction(20)))
    assert operator.told == "stays 20.0 Hz"


# Choosing -------------------------------------------------------------------------------------------------------------


@pytest.fixture
def three() -> Operator:
    signals: list[dict[str, Any]] = [{"name": name, "held": 1, "limits": [0, 9]} for name in "abc"]
    # Out of order in the file: reading order is what counts.
    operator = panel(field("c", (1, 0), 2), field("a", (0, 4), 2), field("b", (0, 8), 2), signal=signals)
    operator.press("enter")
    return operator


def chosen(operator: Operator) -> str:
    entry = operator.state.entry
    assert entry is not None
    return operator.project.screens[0].fields[entry.field].signal


def test_several_fields_are_chosen_from_in_reading_order(three: Operator) -> None:
    assert three.does(Mode.CHOOSE)
    seen = [chosen(three)]
    for key in ("right", "down", "right", "left", "up"):
        three.press(key)
        seen.append(chosen(three))
    assert seen == ["a", "b", "c", "a", "c", "b"]


def test_the_chosen_field_is_inverse(three: Operator) -> None:
    assert three.looks(Attribute.INVERSE) == [".... 1..........", "." * 16, "." * 16]


def test_after_a_value_the_next_field_can_be_chosen(three: Operator) -> None:
    three.press("enter", "up", "enter")
    assert three.does(Mode.CHOOSE)
    three.press("right", "enter", "up", "escape")
    assert three.does(Mode.CHOOSE)
    three.press("escape")
    assert three.does(Mode.WATCH)
    assert three.state.held == {"a": 2, "b": 1, "c": 1}


def test_begin_entry_on_one_field_skips_the_choosing() -> None:
    operator = Operator(
        project(
            panel={"keys": ["f1", "up", "enter"]},
            signal=[{"name": name, "held": 1} for name in "ab"],
            screen=[{"name": "run", "field": [field("a", (0, 4), 2), field("b", (0, 8), 2)]}],
            action=[{"key": "f1", "do": "begin-entry", "signal": "b"}],
        )
    )
    operator.press("f1", "up", "enter")
    assert operator.does(Mode.WATCH)
    assert operator.state.held == {"a": 1, "b": 2}


# By step --------------------------------------------------------------------------------------------------------------


def test_limits_hold_and_are_told() -> None:
    operator = one("49.95")
    operator.press("enter", "up")
    assert current(operator) == 50
    assert operator.texts[-1] == "at most 50.0 Hz "
    operator.press("up")
    assert current(operator) == 50
    operator.press("down")
    assert current(operator) == Fraction("49.9")
    assert operator.texts[-1].strip() == ""


def test_a_limit_finer_than_the_shown_decimals_is_told_in_full() -> None:
    operator = one(20, {**HZ, "limits": [0, 20.05]})
    operator.press("enter", "up")
    assert operator.texts[-1] == "at most 20.05 Hz"


def test_a_value_outside_its_limits_begins_at_the_limit() -> None:
    operator = one(60, {**HZ, "limits": [10, 50]})
    operator.press("enter")
    assert current(operator) == 50
    assert operator.texts[-1] == "at most 50.0 Hz "


def test_what_the_registers_can_hold_is_a_limit_too() -> None:
    # uint16 with 100 counts a unit: 655.35 at most
    operator = one("655.3", {key: value for key, value in HZ.items() if key != "limits"})
    operator.press("enter", "up")
    assert current(operator) == Fraction("655.35")
    assert operator.told == "max 655.35 Hz"


def test_a_number_does_not_outgrow_its_field() -> None:
    operator = panel(field("x", width=2), signal=[{"name": "x", "held": 98}])
    operator.press("enter", "up", "up", "up")
    assert current(operator) == 99
    assert operator.told == "no more digits"


def test_a_held_key_repeats_and_accelerates() -> None:
    operator = one(0, {**HZ, "limits": [0, 600]})
    operator.press("enter")
    operator.down("up")
    assert current(operator) == Fraction("0.1")
    operator.wait(REPEAT_AFTER_S - 0.1)
    assert current(operator) == Fraction("0.1")
    # The first repeat comes after 0.5 s. Ten repeats of one step each, ...
    operator.wait(0.101 + 9 * REPEAT_EVERY_S)
    assert current(operator) == Fraction("1.1")
    # ... twenty of ten steps, ...
    operator.wait(20 * REPEAT_EVERY_S)
    assert current(operator) == Fraction("21.1")
    # ... then a hundred steps each time.
    operator.wait(REPEAT_EVERY_S)
    assert current(operator) == Fraction("31.1")
    operator.up("up")
    stopped = current(operator)
    operator.wait(2)
    assert current(operator) == stopped


def test_acceleration_stays_small_against_the_span() -> None:
    operator = one(0, {**HZ, "limits": [0, 10]})
    operator.press("enter")
    operator.down("up")
    values = []
    for _ in range(50):
        operator.wait(0.1)
        values.append(current(operator))
    assert max(after - before for before, after in pairwise(values)) == Fraction("0.1")


def test_a_pause_without_ticks_is_not_made_up_for() -> None:
    operator = one(0)
    operator.press("enter")
    operator.down("up")
    operator.at += 3600
    operator.tick()
    assert current(operator) <= Fraction("0.5")


def test_another_key_or_a_lost_focus_stops_the_repeat() -> None:
    def other_key(operator: Operator) -> None:
        operator.down("left")

    def lost_focus(operator: Operator) -> None:
        operator.release_all()

    for stop in (other_key, lost_focus):
        operator = one(0)
        operator.press("enter")
        operator.down("up")
        stop(operator)
        operator.wait(2)
        assert current(operator) == Fraction("0.1")


# By digit -------------------------------------------------------------------------------------------------------------


def test_the_cursor_moves_within_the_digits_that_the_limits_need() -> None:
    operator = one(5, by="digit")
    operator.press("enter")
    cursors = [operator.looks(Attribute.BLINK)[0]]
    for _ in range(3):
        operator.press("left")
        cursors.append(operator.looks(Attribute.BLINK)[0])
    # Tenths, units, tens; no hundreds, since the limit is 50. The point is passed over.
    assert cursors == [
        ".............0..",
        "...........5....",
        "..........0.....",
        "..........0.....",
    ]
    assert operator.texts[0] == "run       05.0  "
    operator.press("right", "right", "right")
    assert operator.looks(Attribute.BLINK)[0] == ".............0.."


def test_each_digit_is_changed_with_carry_within_the_limits() -> None:
    operator = one("37.65", by="digit")
    operator.press("enter", "up")
    assert current(operator) == Fraction("37.8")
    operator.press("left", "up", "up", "up")
    assert current(operator) == Fraction("40.8")
    operator.press("left", "up")
    assert current(operator) == 50
    assert operator.texts[-1] == "at most 50.0 Hz "
    operator.press("down", "enter")
    assert operator.writes == [("speed", 40)]


def test_a_negative_number_keeps_its_sign_before_the_zeros() -> None:
    torque = register("torque", 1, encoding="int16", limits=[-300, 300])
    operator = one(-5, torque, by="digit")
    operator.press("enter", "left", "left")
    assert operator.texts[0] == "run       -005  "
    operator.press("up")
    assert operator.texts[0] == "run        095  "


def test_the_cursor_stays_inside_a_narrow_field() -> None:
    operator = panel(field("x", width=2), signal=[{"name": "x", "held": 5, "limits": [0, 900]}], by="digit")
    operator.press("enter", "left", "left", "left")
    assert operator.looks(Attribute.BLINK)[0] == "........0......."


def test_the_cursor_leaves_a_cell_for_the_sign() -> None:
    torque = register("torque", 1, encoding="int16", limits=[-900, 900])
    operator = panel(field("torque", width=3), signal=[torque], by="digit")
    operator.read("torque", 5)
    operator.press("enter", "left", "left", "left", "down")
    assert operator.texts[0] == "run     -05     "


# Choices --------------------------------------------------------------------------------------------------------------

MODE = register("mode", 320, texts={"0": "off", "1": "slow", "7": "fast"}, limits=[0, 7])


def choices(value: int, **changes: Any) -> Operator:
    operator = panel(field("mode", kind="choice"), signal=[{**MODE, **changes}])
    operator.read("mode", value)
    operator.press("enter")
    return operator


def test_choices_are_stepped_through_and_go_round() -> None:
    operator = choices(0)
    seen = []
    for key in ("up", "up", "up", "down"):
        operator.press(key)
        seen.append(operator.texts[0].split()[1])
    assert seen == ["slow", "fast", "off", "fast"]
    operator.press("enter")
    assert operator.writes == [("mode", 7)]


def test_a_choice_beyond_the_limits_is_not_offered() -> None:
    operator = choices(0, limits=[0, 1])
    operator.press("up", "up")
    assert current(operator) == 0


def test_a_value_that_is_no_choice_stays_until_the_first_step_and_cannot_be_sent_past_the_limits() -> None:
    operator = choices(9)
    operator.press("enter")
    assert operator.writes == []
    assert operator.does(Mode.ADJUST)
    operator.press("down")
    assert current(operator) == 7


def test_a_held_key_does_not_rush_through_choices() -> None:
    operator = choices(0)
    operator.down("up")
    operator.wait(5)
    assert current(operator) == 1


def test_a_bit_and_a_coil_are_changed_between_0_and_1() -> None:
    signals = [
        register("word", 1),
        {"name": "bit", "bit": {"of": "word", "number": 3}, "write": True},
        register("coil", 1, table="coil"),
    ]
    operator = panel(field("bit", (0, 4), 1), field("coil", (0, 8), 1), signal=signals)
    operator.read("word", 0b1000)
    operator.read("coil", 0)
    operator.press("enter", "enter", "up", "enter", "right", "enter", "up", "enter")
    assert operator.writes == [("bit", 0), ("coil", 1)]


# The report -----------------------------------------------------------------------------------------------------------


def test_the_report_of_an_entry() -> None:
    operator = one(20)
    assert entry_report(operator.project, operator.state) is None
    operator.press("enter", "up")
    assert entry_report(operator.project, operator.state) == {
        "mode": "adjust",
        "signal": "speed",
        "value": 20.1,
        "text": "20.1",
    }


def test_the_report_while_choosing(three: Operator) -> None:
    assert entry_report(three.project, three.state) == {"mode": "choose", "signal": "a"}
