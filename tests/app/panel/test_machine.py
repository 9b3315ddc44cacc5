"""The panel as it behaves: screen changes, overrides, idle time, actions."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from app.language import speak
from app.panel.machine import (
    ASIDE_S,
    MESSAGE_S,
    REASON_S,
    TRANSITIONS,
    Cause,
    KeyDown,
    Mode,
    Refused,
    ScreenChanged,
    Tick,
    Write,
    WriteDone,
    WriteFailed,
    begin,
    step,
)
from app.project.model import Project
from app.project.purpose import Purpose
from app.signals.reading import Quality
from tests.app.panel.operating import Operator, project, register

SIGNALS: list[dict[str, Any]] = [
    register("command", 300),
    {"name": "run command", "bit": {"of": "command", "number": 4}, "write": True},
    {"name": "reset", "bit": {"of": "command", "number": 7}, "write": True},
    register("set point", 310, scale={"raw": [0, 10000], "value": [0, 50]}, decimals=1, limits=[0, 50], step=0.1),
    register("status", 400, table="input", write=False),
    {"name": "fault", "bit": {"of": "status", "number": 3}},
    {"name": "warning", "bit": {"of": "status", "number": 7}},
    {"name": "preset", "held": 27.5, "decimals": 1, "limits": [20, 40]},
    {"name": "lamp", "held": 0},
]
SCREENS: list[dict[str, Any]] = [
    {"name": "run", "text": ["run"]},
    {"name": "status", "text": ["status"]},
    {"name": "fault", "text": ["fault"]},
    {"name": "warning", "text": ["warning"]},
]
FAULT, WARNING = 1 << 3, 1 << 7
SET_POINT = {"at": [0, 8], "width": 5, "signal": "set point", "entry": True}


def panel(*screen_changes: dict[str, Any], actions: list[dict[str, Any]] | None = None, **more: Any) -> Operator:
    keys = ["left", "right", "up", "down", "enter", "escape", "f1", "f2"]
    return Operator(
        project(
            panel={"keys": keys, **more.pop("panel", {})},
            **{
                "signal": SIGNALS,
                "screen": SCREENS,
                "screen_change": list(screen_changes),
                "action": actions or [],
                **more,
            },
        )
    )


def with_faults(*screen_changes: dict[str, Any], **more: Any) -> Operator:
    overrides = [{"when": {"signal": "fault"}, "to": "fault"}, {"when": {"signal": "warning"}, "to": "warning"}]
    operator = panel(*overrides, *screen_changes, **more)
    operator.read("status", 0)
    operator.tick()
    return operator


# Screen changes -------------------------------------------------------------------------------------------------------


def test_a_key_turns_the_screen() -> None:
    operator = panel({"from": "run", "key": "right", "to": "status"})
    assert operator.down("right") == (ScreenChanged("status", "key right"),)
    assert operator.state.shown == "status"
    assert operator.press("right") == ()


def test_a_key_that_repeats_by_itself_or_is_not_on_the_panel_does_nothing() -> None:
    operator = panel({"key": "right", "to": "next"}, {"key": "f9", "to": "status"})
    operator.down("right")
    assert operator.down("right") == ()
    assert operator.down("f9") == ()
    assert operator.state.shown == "status"
    assert operator.state.down == {"right"}


def test_nothing_new_gives_the_very_same_state() -> None:
    operator = with_faults()
    before = operator.state
    operator.wait(5)
    assert operator.state is before


def test_a_project_without_screens_stands_still() -> None:
    empty = Project.model_validate({"panel": {"start": "gone"}})
    state = begin(empty, 0.0)
    assert state.shown == ""
    for event in (KeyDown("enter", 1.0), Tick(2.0)):
        state, effects = step(empty, state, event, {})
        assert effects == ()


def test_a_screen_that_was_edited_away_is_left_for_the_first_one() -> None:
    operator = panel({"key": "right", "to": "next"})
    operator.press("right")
    operator.project = operator.project.replace(screens=operator.project.screens[:1])
    assert operator.tick() == (ScreenChanged("run", "project edited"),)


def test_an_override_that_was_edited_away_is_left() -> None:
    operator = with_faults()
    operator.read("status", FAULT)
    operator.tick()
    operator.project = operator.project.replace(screen_changes=operator.project.screen_changes[1:])
    operator.tick()
    assert (operator.state.shown, operator.state.holding) == ("run", frozenset())


def test_a_field_that_was_edited_away_ends_its_entry() -> None:
    operator = entering()
    bare = operator.project.screens[0].replace(fields=())
    operator.project = operator.project.replace(screens=(bare, *operator.project.screens[1:]))
    operator.press("enter")
    assert operator.does(Mode.WATCH)
    assert operator.writes == []


# Idle time ------------------------------------------------------------------------------------------------------------


def test_idle_time_counts_from_the_last_key() -> None:
    operator = panel({"key": "right", "to": "next"}, {"idle_s": 10, "to": "run"})
    operator.press("right")
    operator.wait(9)
    operator.press("f2")
    assert operator.wait(9.9) == ()
    assert operator.wait(0.2) == (ScreenChanged("run", "idle for 10 s"),)


def test_idle_turns_can_go_round() -> None:
    operator = panel(
        {"from": "run", "idle_s": 10, "to": "status"},
        {"from": "status", "idle_s": 10, "to": "run"},
    )
    turned = [effect.screen for effect in operator.wait(45) if isinstance(effect, ScreenChanged)]
    assert turned == ["status", "run", "status", "run"]


def test_a_key_that_is_down_is_no_idle_time() -> None:
    operator = panel({"key": "right", "to": "next"}, {"idle_s": 10, "to": "run"})
    operator.down("right")
    assert operator.wait(60) == ()
    operator.up("right")
    assert operator.wait(10.1) == (ScreenChanged("run", "idle for 10 s"),)


def test_no_idle_turn_under_an_override_and_a_full_wait_after_it() -> None:
    operator = with_faults({"key": "right", "to": "status"}, {"idle_s": 10, "to": "run"})
    operator.press("right")
    operator.read("status", FAULT)
    operator.wait(60)
    operator.read("status", 0)
    assert operator.wait(9) == (ScreenChanged("status", "override ended"),)
    assert operator.wait(2) == (ScreenChanged("run", "idle for 10 s"),)


# Overrides ------------------------------------------------------------------------------------------------------------


def test_an_override_comes_and_the_operator_is_back_where_he_was() -> None:
    operator = with_faults({"key": "right", "to": "status"})
    operator.press("right")
    operator.read("status", FAULT)
    assert operator.tick() == (ScreenChanged("fault", "fault is set"),)
    assert (operator.state.screen, operator.state.shown) == ("status", "fault")
    operator.read("status", 0)
    assert operator.tick() == (ScreenChanged("status", "override ended"),)


def test_the_first_override_of_the_file_goes_first() -> None:
    operator = with_faults()
    operator.read("status", WARNING)
    operator.tick()
    assert operator.state.shown == "warning"
    operator.read("status", WARNING | FAULT)
    operator.tick()
    assert operator.state.shown == "fault"
    operator.read("status", WARNING)
    operator.tick()
    assert operator.state.shown == "warning"


@pytest.mark.parametrize("quality", [quality for quality in Quality if quality is not Quality.GOOD])
def test_without_a_good_reading_an_override_neither_begins_nor_ends(quality: Quality) -> None:
    operator = with_faults()
    operator.read("status", FAULT, quality)
    assert operator.tick() == ()
    operator.read("status", FAULT)
    operator.tick()
    operator.read("status", 0, quality)
    operator.wait(100)
    assert operator.state.shown == "fault"
    operator.read("status", 0)
    operator.tick()
    assert operator.state.shown == "run"


def test_turns_of_another_screen_do_not_lead_away_from_an_override() -> None:
    operator = with_faults({"from": "run", "key": "right", "to": "status"})
    operator.read("status", FAULT)
    operator.tick()
    assert operator.press("right") == ()
    assert operator.state.shown == "fault"


@pytest.mark.parametrize("from_", [{"from": "fault"}, {}])
def test_a_key_leads_away_from_an_override_for_a_time_and_says_so(from_: dict[str, str]) -> None:
    operator = with_faults({**from_, "key": "right", "to": "status"})
    operator.read("status", FAULT)
    operator.tick()
    operator.press("right")
    assert operator.state.shown == "status"
    assert operator.texts[-1] == "still active    "
    assert operator.wait(ASIDE_S - 1) == ()
    assert operator.wait(1.1) == (ScreenChanged("fault", "fault is set"),)
    operator.read("status", 0)
    operator.tick()
    assert operator.state.shown == "status"


def test_an_override_that_was_left_comes_back_at_once_when_it_holds_anew() -> None:
    operator = with_faults({"from": "fault", "key": "right", "to": "run"})
    operator.read("status", FAULT)
    operator.tick()
    operator.press("right")
    operator.read("status", 0)
    operator.tick()
    operator.read("status", FAULT)
    operator.tick()
    assert operator.state.shown == "fault"


def test_leaving_one_override_shows_the_next_that_holds() -> None:
    operator = with_faults({"from": "fault", "key": "right", "to": "run"})
    operator.read("status", FAULT | WARNING)
    operator.tick()
    operator.press("right")
    assert operator.state.shown == "warning"


def test_two_overrides_to_one_screen_are_left_together() -> None:
    operator = panel(
        {"when": {"signal": "fault"}, "to": "fault"},
        {"when": {"signal": "warning"}, "to": "fault"},
        {"from": "fault", "key": "right", "to": "status"},
    )
    operator.read("status", FAULT | WARNING)
    operator.tick()
    operator.press("right")
    assert operator.state.shown == "status"


def test_a_key_acts_on_the_screen_that_was_shown_when_it_was_pressed() -> None:
    operator = with_faults(actions=[{"from": "run", "key": "f1", "do": "set", "signal": "run command"}])
    operator.read("status", FAULT)  # arrives together with the key
    assert operator.down("f1") == (Write("run command", Fraction(1)), ScreenChanged("fault", "fault is set"))


def test_an_override_on_a_held_value_is_there_from_the_start() -> None:
    operator = panel({"when": {"signal": "preset", "is": "above", "value": 27}, "to": "warning"})
    assert operator.state.shown == "warning"


# Actions --------------------------------------------------------------------------------------------------------------


def test_set_clear_and_write() -> None:
    operator = panel(
        actions=[
            {"key": "up", "do": "set", "signal": "run command"},
            {"key": "down", "do": "clear", "signal": "run command"},
            {"key": "f1", "do": "write", "signal": "set point", "value": 12.5},
            {"key": "f2", "do": "write", "signal": "set point", "value": {"from": "preset"}},
        ]
    )
    operator.press("up", "down", "f1", "f2")
    assert operator.writes == [
        ("run command", 1),
        ("run command", 0),
        ("set point", Fraction("12.5")),
        ("set point", Fraction("27.5")),
    ]


def test_all_actions_of_a_key_act_in_order_and_then_its_turn() -> None:
    operator = panel(
        {"key": "f1", "to": "status"},
        actions=[
            {"key": "f1", "do": "set", "signal": "run command"},
            {"from": "run", "key": "f1", "do": "write", "signal": "set point", "value": 5},
            {"from": "status", "key": "f1", "do": "write", "signal": "set point", "value": 6},
        ],
    )
    assert operator.down("f1") == (
        Write("run command", Fraction(1)),
        Write("set point", Fraction(5)),
        ScreenChanged("status", "key f1"),
    )


def test_actions_on_held_values_stay_in_the_panel() -> None:
    operator = panel(
        actions=[
            {"key": "up", "do": "write", "signal": "preset", "value": 33},
            {"key": "f1", "do": "toggle", "signal": "lamp"},
        ]
    )
    assert operator.press("up", "f1") == ()
    assert operator.state.held == {"preset": 33, "lamp": 1}
    operator.press("f1")
    assert operator.state.held["lamp"] == 0


def test_a_value_that_may_not_be_written_is_refused_and_says_so() -> None:
    operator = panel(actions=[{"key": "f1", "do": "write", "signal": "set point", "value": 50.5}])
    (effect,) = operator.press("f1")
    assert isinstance(effect, Refused)
    assert effect.signal == "set point"
    assert "50.5" in effect.reason
    assert operator.texts[-1] == "at most 50.0    "


@pytest.mark.parametrize(
    "action",
    [
        {"do": "set", "signal": "gone"},
        {"do": "momentary", "signal": "status"},
        {"do": "write", "signal": "set point", "value": {"from": "gone"}},
        {"do": "set", "signal": "fault"},
    ],
)
def test_what_cannot_be_done_is_refused(action: dict[str, Any]) -> None:
    operator = panel(actions=[{"key": "f1", **action}])
    (effect,) = operator.press("f1")
    assert isinstance(effect, Refused)
    assert effect.reason


def test_what_the_window_tells_of_the_panel_is_in_the_language_that_is_spoken() -> None:
    actions = [
        {"key": "f1", "do": "toggle", "signal": "run command"},
        {"key": "f2", "do": "next-language"},
        {"key": "up", "do": "begin-entry"},
    ]
    operator = with_faults(
        {"key": "right", "to": "status"},
        {"idle_s": 5, "to": "run"},
        actions=actions,
        panel={"languages": ["English"]},
    )
    speak(lambda context, text: f"<{context}: {text}>")
    try:
        effects = [*operator.press("f1"), *operator.press("f2"), *operator.press("up"), *operator.press("right")]
        effects += operator.wait(6)
        operator.read("status", FAULT)
        effects += operator.tick()
        operator.read("status", 0)
        effects += operator.tick()
    finally:
        speak(None)
    told = [effect.reason if isinstance(effect, Refused) else getattr(effect, "cause", "") for effect in effects]
    assert len(told) == 7
    assert all(words.startswith("<panel: ") for words in told), told


def test_toggle_needs_a_good_reading_to_switch_on() -> None:
    operator = panel(actions=[{"key": "f1", "do": "toggle", "signal": "run command"}])
    (effect,) = operator.press("f1")
    assert effect == Refused("run command", "cannot toggle: not read yet")
    operator.read("command", 0)
    operator.lose("command", reason="no answer for 2 s")
    assert operator.press("f1") == (Refused("run command", "cannot toggle: no answer for 2 s"),)


@pytest.mark.parametrize("lost", [True, False])
def test_toggle_switches_off_what_was_on_when_it_was_last_read(lost: bool) -> None:
    operator = panel(actions=[{"key": "f1", "do": "toggle", "signal": "run command"}])
    operator.read("command", 16)
    if lost:
        operator.lose("command", reason="no answer for 2 s")
    assert operator.press("f1") == (Write("run command", Fraction(0), Purpose.STOP),)


def test_toggle_that_stops_nothing_needs_a_good_reading_to_switch_off_too() -> None:
    operator = panel(actions=[{"key": "f1", "do": "toggle", "signal": "run command", "stops": False}])
    operator.read("command", 16)
    operator.lose("command", reason="no answer for 2 s")
    assert operator.press("f1") == (Refused("run command", "cannot toggle: no answer for 2 s"),)


def test_a_second_toggle_is_the_way_back_even_before_the_line_has_answered() -> None:
    operator = panel(actions=[{"key": "f1", "do": "toggle", "signal": "run command"}])
    operator.read("command", 0)
    operator.press("f1", "f1")
    assert operator.writes == [("run command", 1), ("run command", 0)]
    operator.feed(WriteDone("run command", operator.at))
    operator.read("command", 16)
    operator.press("f1")
    assert operator.writes[-1] == ("run command", 0)


def test_a_failed_write_is_shown_for_a_while() -> None:
    operator = panel(actions=[{"key": "f1", "do": "set", "signal": "run command"}])
    operator.press("f1")
    operator.feed(WriteFailed("run command", "not armed", operator.at, message="writing_off"))
    assert operator.texts == ["run             ", "writing is off  "]
    assert operator.state.sent == {}
    operator.wait(MESSAGE_S - 0.1)
    assert operator.texts[-1] == "writing is off  "
    operator.wait(0.2)
    assert operator.texts[-1].strip() == ""


def reason(operator: Operator) -> tuple[str, str]:
    said = operator.state.said
    return ("", "") if said is None else (said.signal, said.reason)


def test_the_reason_of_a_failed_write_names_its_signal_and_can_be_read_longer_than_the_message() -> None:
    operator = panel()
    operator.feed(WriteFailed("set point", "no answer", operator.at, Fraction("41.65")))
    operator.wait(REASON_S - 0.1)
    assert operator.state.message is None
    assert reason(operator) == ("set point", "no answer")
    operator.wait(0.2)
    assert reason(operator) == ("", "")


def test_the_next_key_takes_the_reason_away_too() -> None:
    operator = panel()
    operator.feed(WriteFailed("set point", "no answer", operator.at))
    operator.wait(MESSAGE_S + 1)
    operator.press("f1")
    assert reason(operator) == ("", "")


def test_a_failed_write_is_not_said_any_more_when_its_signal_is_written_after_all() -> None:
    """Two presses one soon after the other: the first is given up only when the second is on its way already."""
    operator = panel(actions=[{"key": "f1", "do": "set", "signal": "run command"}])
    operator.press("f1", "f1")
    operator.feed(WriteFailed("run command", "no answer", operator.at, Fraction(1), "no_answer"))
    operator.feed(WriteDone("set point", operator.at, Fraction(30)))
    assert reason(operator) == ("run command", "no answer")
    assert operator.texts[-1] == "no answer       "
    operator.feed(WriteDone("run command", operator.at, Fraction(1)))
    assert reason(operator) == ("", "")
    assert operator.texts[-1].strip() == ""


def test_that_a_held_key_was_let_go_does_not_hide_that_its_press_failed() -> None:
    operator = panel(actions=[{"key": "f1", "do": "momentary", "signal": "run command"}])
    operator.press("f1")
    operator.feed(WriteFailed("run command", "no answer", operator.at, Fraction(1), "no_answer"))
    operator.feed(WriteDone("run command", operator.at, Fraction(0)))
    assert reason(operator) == ("run command", "no answer")
    operator.feed(WriteDone("run command", operator.at, Fraction(1)))
    assert reason(operator) == ("", "")


def test_the_next_key_takes_a_message_away() -> None:
    operator = panel()
    operator.feed(WriteFailed("set point", "no answer", operator.at))
    operator.press("f1")
    assert operator.texts[-1].strip() == ""


# Momentary actions ----------------------------------------------------------------------------------------------------

JOG = [{"key": "up", "do": "momentary", "signal": "reset"}]


def test_momentary_lasts_as_long_as_the_key() -> None:
    operator = panel(actions=JOG)
    assert operator.down("up") == (Write("reset", Fraction(1)),)
    assert operator.wait(5) == ()
    assert operator.up("up") == (Write("reset", Fraction(0), Purpose.RELEASE),)
    assert operator.up("up") == ()


def test_momentary_ends_when_the_focus_is_lost() -> None:
    operator = panel(actions=JOG)
    operator.down("up")
    assert operator.release_all() == (Write("reset", Fraction(0), Purpose.RELEASE),)
    assert operator.up("up") == ()
    assert operator.release_all() == ()


def test_momentary_ends_when_another_screen_is_shown() -> None:
    operator = panel({"key": "right", "to": "status"}, actions=JOG)
    operator.down("up")
    assert operator.down("right") == (
        Write("reset", Fraction(0), Purpose.RELEASE),
        ScreenChanged("status", "key right"),
    )
    assert operator.up("up") == ()


def test_momentary_ends_when_an_override_comes_and_when_it_goes() -> None:
    operator = with_faults(actions=JOG)
    operator.down("up")
    operator.read("status", FAULT)
    assert operator.tick() == (Write("reset", Fraction(0), Purpose.RELEASE), ScreenChanged("fault", "fault is set"))
    operator.up("up")
    operator.down("up")
    operator.read("status", 0)
    operator.tick()
    assert operator.writes == [("reset", 1), ("reset", 0), ("reset", 1), ("reset", 0)]


def test_a_signal_pressed_by_two_keys_is_released_with_the_last() -> None:
    operator = panel(actions=[*JOG, {"key": "f1", "do": "momentary", "signal": "reset"}])
    operator.down("up")
    assert operator.down("f1") == ()
    assert operator.up("up") == ()
    assert operator.up("f1") == (Write("reset", Fraction(0), Purpose.RELEASE),)


def test_what_could_not_be_released_is_not_pressed() -> None:
    operator = panel(
        signal=[register("jog", 1, limits=[1, 5])],
        actions=[{"key": "up", "do": "momentary", "signal": "jog"}],
    )
    (effect,) = operator.press("up")
    assert isinstance(effect, Refused)


# Actions on conditions ------------------------------------------------------------------------------------------------

ON_FAULT = [{"when": {"signal": "fault"}, "do": "clear", "signal": "run command"}]


def test_an_action_on_a_condition_acts_once_each_time_it_begins() -> None:
    operator = panel(actions=ON_FAULT)
    operator.read("status", 0)
    operator.tick()
    for _ in range(2):
        operator.read("status", FAULT)
        assert operator.tick() == (Write("run command", Fraction(0), Purpose.STOP),)
        assert operator.wait(2) == ()
        operator.read("status", 0)
        assert operator.tick() == ()


def test_starting_a_panel_commands_nothing() -> None:
    operator = panel(actions=ON_FAULT)
    operator.wait(1)
    operator.read("status", FAULT)
    assert operator.wait(1) == ()


def test_a_lost_reading_between_makes_no_new_beginning() -> None:
    operator = panel(actions=ON_FAULT)
    operator.read("status", 0)
    operator.tick()
    operator.read("status", FAULT)
    operator.tick()
    operator.lose("status")
    operator.tick()
    operator.read("status", FAULT)
    assert operator.tick() == ()
    operator.read("status", 0, Quality.IMPLAUSIBLE)
    operator.tick()
    operator.read("status", FAULT)
    assert operator.tick() == ()


@pytest.mark.parametrize(
    ("action", "effects"),
    [
        ({"do": "clear", "signal": "run command"}, (Write("run command", Fraction(0), Purpose.STOP),)),
        ({"do": "set", "signal": "run command"}, ()),
        ({"do": "toggle", "signal": "run command"}, ()),
        ({"do": "write", "signal": "set point", "value": 20}, ()),
    ],
)
def test_a_line_that_comes_back_stops_things_but_starts_nothing(
    action: dict[str, Any], effects: tuple[Write, ...]
) -> None:
    operator = panel(actions=[{"when": {"signal": "fault"}, **action}])
    operator.read("command", 0)
    operator.read("status", 0)
    operator.tick()
    operator.lose("status")
    operator.wait(1)
    operator.read("status", FAULT)
    assert operator.tick() == effects
    operator.read("status", 0)
    operator.tick()
    operator.read("status", FAULT)
    assert len(operator.tick()) == 1, "from then on it acts as ever"


def test_a_held_value_is_sent_when_an_input_rises() -> None:
    operator = panel(
        signal=[*SIGNALS, register("apply", 1, table="discrete", write=False)],
        actions=[{"when": {"signal": "apply"}, "do": "write", "signal": "set point", "value": {"from": "preset"}}],
    )
    operator.read("apply", 0)
    operator.tick()
    operator.read("apply", 1)
    assert operator.tick() == (Write("set point", Fraction("27.5")),)


def test_a_held_value_that_a_key_changes_can_begin_a_condition() -> None:
    operator = panel(
        actions=[
            {"key": "f1", "do": "set", "signal": "lamp"},
            {"when": {"signal": "lamp"}, "do": "set", "signal": "run command"},
        ]
    )
    assert operator.down("f1") == (Write("run command", Fraction(1)),)


# Entry among the rest -------------------------------------------------------------------------------------------------

ENTRY_SCREENS = [{"name": "run", "text": ["run"], "field": [SET_POINT]}, *SCREENS[1:]]


def entering(*screen_changes: dict[str, Any], **more: Any) -> Operator:
    operator = with_faults(*screen_changes, screen=ENTRY_SCREENS, **more)
    operator.read("set point", 20)
    operator.press("enter", "up")
    assert operator.does(Mode.ADJUST)
    return operator


def test_an_override_abandons_entry_and_nothing_is_written() -> None:
    operator = entering()
    operator.read("status", FAULT)
    operator.tick()
    assert operator.state.entry is None
    operator.read("status", 0)
    operator.tick()
    assert (operator.state.shown, operator.state.mode) == ("run", Mode.WATCH)
    assert operator.writes == []


def test_a_stop_key_stops_during_entry_and_leaves_it_alone() -> None:
    operator = entering(actions=[{"key": "f1", "do": "clear", "signal": "run command"}])
    assert operator.press("f1") == (Write("run command", Fraction(0), Purpose.STOP),)
    assert operator.does(Mode.ADJUST)


def test_the_entry_keys_do_nothing_else_during_entry() -> None:
    operator = entering(
        {"key": "right", "to": "status"},
        actions=[{"key": "up", "do": "set", "signal": "run command"}],
    )
    operator.press("up", "right", "left")
    assert operator.effects == []
    assert operator.state.shown == "run"


def test_another_key_that_turns_the_screen_abandons_entry() -> None:
    operator = entering({"key": "f2", "to": "status"})
    operator.press("f2")
    assert (operator.state.shown, operator.state.mode) == ("status", Mode.WATCH)
    assert operator.writes == []


def test_the_begin_key_with_a_turn_or_an_action_does_not_begin_entry() -> None:
    operator = with_faults({"from": "run", "key": "enter", "to": "status"}, screen=ENTRY_SCREENS)
    operator.read("set point", 20)
    operator.press("enter")
    assert (operator.state.shown, operator.state.mode) == ("status", Mode.WATCH)


def test_begin_entry_comes_after_the_turn_of_its_key() -> None:
    operator = panel(
        {"from": "status", "key": "f1", "to": "run"},
        screen=ENTRY_SCREENS,
        actions=[{"key": "f1", "do": "begin-entry", "signal": "set point"}],
        panel={"start": "status"},
    )
    operator.read("set point", 20)
    operator.press("f1")
    assert (operator.state.shown, operator.state.mode) == ("run", Mode.ADJUST)


def test_begin_entry_where_there_is_no_such_field_is_refused() -> None:
    operator = panel(actions=[{"key": "f1", "do": "begin-entry", "signal": "set point"}])
    assert operator.press("f1") == (Refused("set point", "nothing to enter here"),)
    assert operator.does(Mode.WATCH)


def test_the_table_knows_every_mode_and_every_cause() -> None:
    assert {mode for mode, _ in TRANSITIONS} == set(Mode)
    assert {cause for _, cause in TRANSITIONS} == set(Cause)
    # From every mode of entry there are at least three ways out: abandon, time-out, override.
    for mode in (Mode.CHOOSE, Mode.ADJUST):
        for cause in (Cause.ABANDON, Cause.TIME_OUT, Cause.COVER):
            assert Mode.WATCH in TRANSITIONS[mode, cause].to
