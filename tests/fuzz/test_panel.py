"""The panel under random keys, ticks and readings: what must always hold."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from hypothesis import HealthCheck, settings, strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from app.panel.machine import (
    ASIDE_S,
    Effect,
    Entered,
    KeyDown,
    KeyUp,
    Mode,
    PanelEvent,
    Refused,
    ReleaseAll,
    ScreenChanged,
    Tick,
    Write,
    WriteDone,
    WriteFailed,
    begin,
    step,
)
from app.panel.rendering import Attribute, render
from app.panel.view import View
from app.project.binding import refusal
from app.project.model import HeldSignal, Project
from app.signals.reading import Quality, Reading

KEYS = ["left", "right", "up", "down", "enter", "escape", "jog", "f1", "f2", "f3"]


def _project(by: str) -> Project:
    register: dict[str, Any] = {"follower": "pump", "write": True}
    half = {"raw": [0, 10], "value": [Decimal("-0.5"), Decimal("0.5")]}
    return Project.model_validate(
        {
            "panel": {
                "rows": 3,
                "columns": 18,
                "keys": KEYS,
                "start": "run",
                "entry": {"by": by, "timeout_s": 4},
            },
            "line": [{"name": "line", "kind": "tcp", "host": "pump.example"}],
            "follower": [{"name": "pump", "line": "line"}],
            "signal": [
                {**register, "name": "command", "register": 300},
                {
                    **register,
                    "name": "speed",
                    "register": 310,
                    "scale": half,
                    "decimals": 1,
                    "unit": "°C",
                    "limits": [Decimal("-3.25"), 41],
                    "step": Decimal("0.3"),
                },
                {**register, "name": "free", "register": 311, "encoding": "int16"},
                {
                    **register,
                    "name": "mode",
                    "register": 312,
                    "texts": {"0": "off", "1": "on", "9": "beyond"},
                    "limits": [0, 5],
                },
                {**register, "name": "impulse", "register": 313},
                {**register, "name": "jog", "register": 315},
                {**register, "name": "fixed", "register": 314, "table": "input"},
                {"name": "lamp", "bit": {"of": "command", "number": 1}, "write": True},
                {**register, "name": "status", "register": 400, "table": "input", "write": False},
                {"name": "fault", "bit": {"of": "status", "number": 0}},
                {"name": "warning", "bit": {"of": "status", "number": 1}},
                {"name": "preset", "held": 3, "limits": [1, 60]},
            ],
            "screen": [
                {
                    "name": "run",
                    "text": ["run"],
                    "field": [
                        {"at": [0, 8], "width": 5, "signal": "speed", "entry": True, "blink": {"signal": "fault"}},
                        {"at": [1, 0], "width": 9, "signal": "speed", "kind": "bar"},
                        {"at": [1, 15], "width": 9, "signal": "free"},
                    ],
                },
                {
                    "name": "set",
                    "text": ["set"],
                    "field": [
                        {"at": [0, 4], "width": 4, "signal": "preset", "entry": True},
                        {"at": [0, 9], "width": 3, "signal": "free", "entry": True},
                        {"at": [1, 0], "width": 6, "signal": "mode", "kind": "choice", "entry": True},
                        {"at": [1, 8], "width": 6, "signal": "fixed", "entry": True},
                        {"at": [2, 0], "width": 1, "signal": "lamp", "entry": True},
                    ],
                },
                {
                    "name": "fault",
                    "text": ["FAULT"],
                    "field": [{"at": [1, 0], "width": 3, "signal": "preset", "entry": True}],
                },
                {"name": "warning", "text": ["WARNING"]},
                {"name": "end", "text": ["nowhere to go but by time"]},
            ],
            "screen_change": [
                {"key": "right", "to": "next"},
                {"key": "left", "to": "previous"},
                {"from": "warning", "key": "escape", "to": "end"},
                {"when": {"signal": "fault"}, "to": "fault"},
                {"when": {"signal": "warning"}, "to": "warning"},
                {"when": {"signal": "preset", "is": "above", "value": 50}, "to": "warning"},
                {"idle_s": 9, "to": "run"},
            ],
            "action": [
                {"key": "jog", "do": "momentary", "signal": "jog"},
                {"from": "run", "key": "f1", "do": "momentary", "signal": "impulse"},
                {"key": "f1", "do": "toggle", "signal": "lamp"},
                {"from": "set", "key": "f2", "do": "begin-entry", "signal": "mode"},
                {"key": "f3", "do": "write", "signal": "speed", "value": {"from": "preset"}},
                {"key": "f3", "do": "set", "signal": "fixed"},
                {"when": {"signal": "fault"}, "do": "clear", "signal": "command"},
                {"when": {"signal": "preset", "is": "equal", "value": 4}, "do": "set", "signal": "command"},
            ],
        }
    )


PROJECTS = {by: _project(by) for by in ("step", "digit")}
ON_THE_LINE = ["command", "speed", "free", "mode", "status"]
MOMENTARY = ("jog", "impulse")
"""Written by nothing but a momentary action."""


class PanelMachine(RuleBasedStateMachine):
    """A panel, an operator who presses anything, and a line that reads and answers anything."""

    @initialize(by=st.sampled_from(sorted(PROJECTS)))
    def start(self, by: str) -> None:
        self.project = PROJECTS[by]
        self.at = 50.0
        self.readings: dict[str, Reading] = {}
        self.state = begin(self.project, self.at)
        self.level = dict.fromkeys(MOMENTARY, Fraction(0))

    def feed(self, event: PanelEvent) -> tuple[Effect, ...]:
        before = self.state
        self.state, effects = step(self.project, before, event, self.readings)
        for effect in effects:
            if isinstance(effect, Write):
                assert refusal(self.project, effect.signal, effect.value) is None
                assert not isinstance(self.project.signal_named[effect.signal], HeldSignal)
                if effect.signal in self.level:
                    self.level[effect.signal] = effect.value
            elif isinstance(effect, Refused):
                assert effect.reason
                assert self.state.message is not None
            elif isinstance(effect, Entered):
                # Only confirming an entry that was under change sends it.
                assert before.mode is Mode.ADJUST
                assert isinstance(event, KeyDown)
                assert event.key == self.project.panel.entry.confirm
                assert before.entry is not None
                assert before.entry.editing is not None
                assert effect.new == before.entry.editing.value
                assert refusal(self.project, effect.signal, effect.new) is None
            elif isinstance(effect, ScreenChanged):
                assert effect.screen in self.project.screen_named
        if self.state.shown != before.shown:
            assert any(isinstance(effect, ScreenChanged) for effect in effects)
            assert self.state.entry is None or isinstance(event, KeyDown)
        return effects

    @rule(key=st.sampled_from([*KEYS, "no such key"]), later=st.sampled_from([0.0, 0.01, 0.3]))
    def key_down(self, key: str, later: float) -> None:
        self.at += later
        was_adjusting = self.state.mode is Mode.ADJUST
        new = key in KEYS and key not in self.state.down
        effects = self.feed(KeyDown(key, self.at))
        if was_adjusting and new and key == self.project.panel.entry.abandon:
            assert not any(isinstance(effect, Entered) for effect in effects)
            assert self.state.mode is not Mode.ADJUST
        if not new:
            assert not any(isinstance(effect, Entered | Refused) for effect in effects)

    @rule(key=st.sampled_from(KEYS), later=st.sampled_from([0.0, 0.1]))
    def key_up(self, key: str, later: float) -> None:
        self.at += later
        self.feed(KeyUp(key, self.at))
        assert all(pressed != key for pressed, _ in self.state.pressing)

    @rule(keys=st.lists(st.sampled_from(KEYS), min_size=1, max_size=4))
    def press(self, keys: list[str]) -> None:
        for key in keys:
            self.key_down(key, 0.05)
            self.key_up(key, 0.1)

    @rule(later=st.sampled_from([0.0, 0.05, 0.6, 3.0, 5.0, 10.0, ASIDE_S + 1]))
    def tick(self, later: float) -> None:
        self.at += later
        effects = self.feed(Tick(self.at))
        assert not any(isinstance(effect, Entered) for effect in effects)

    @rule(
        signal=st.sampled_from(ON_THE_LINE),
        raw=st.integers(0, 3) | st.integers(-500, 70_000),
        quality=st.sampled_from([Quality.GOOD, Quality.GOOD, Quality.GOOD, *Quality]),
    )
    def reading(self, signal: str, raw: int, quality: Quality) -> None:
        reason = "" if quality is Quality.GOOD else "why"
        value = None if quality is Quality.NONE else Fraction(raw)
        self.readings = {**self.readings, signal: Reading(raw, value, quality, reason, self.at)}

    @rule(signal=st.sampled_from(["speed", "lamp", "gone"]), good=st.booleans())
    def answer(self, signal: str, good: bool) -> None:
        self.feed(WriteDone(signal, self.at) if good else WriteFailed(signal, "nö", self.at))

    @rule()
    def focus_lost(self) -> None:
        self.feed(ReleaseAll(self.at))
        assert self.state.pressing == ()
        assert self.state.down == frozenset()

    @precondition(lambda self: self.state.holding)
    @rule()
    def nobody_hides_an_override_for_long(self) -> None:
        self.feed(ReleaseAll(self.at))
        self.at += ASIDE_S + 0.001
        self.feed(Tick(self.at))
        if self.state.holding:
            assert self.state.override == min(self.state.holding)

    @invariant()
    def the_shown_screen_exists(self) -> None:
        assert self.state.shown in self.project.screen_named
        assert self.state.screen in self.project.screen_named

    @invariant()
    def the_face_is_full(self) -> None:
        panel = self.project.panel
        rows = render(self.project, self.state, self.readings, self.at)
        assert len(rows) == panel.rows
        for row in rows:
            assert len(row.text) == len(row.attributes) == panel.columns
            assert row.text.isascii()
            assert all(isinstance(attribute, Attribute) for attribute in row.attributes)

    @invariant()
    def entry_is_on_an_entry_field_within_its_limits(self) -> None:
        entry = self.state.entry
        if entry is None:
            return
        fields = self.project.screen_named[self.state.shown].fields
        assert all(fields[index].entry for index in entry.fields)
        if entry.editing is None:
            assert len(entry.fields) > 1
            return
        signal = self.project.signal_named[fields[entry.field].signal]
        editing = entry.editing
        if editing.choices:
            assert editing.value in editing.choices or editing.value == editing.old
        elif signal.limits is not None:
            assert signal.limits[0] <= editing.value <= signal.limits[1]

    @invariant()
    def held_values_stay_within_their_limits(self) -> None:
        assert set(self.state.held) == {"preset"}
        assert 1 <= self.state.held["preset"] <= 60

    @invariant()
    def what_is_pressed_is_high_and_what_is_not_is_low(self) -> None:
        pressed = {signal for _, signal in self.state.pressing}
        assert {key for key, _ in self.state.pressing} <= self.state.down
        assert self.level == {signal: int(signal in pressed) for signal in MOMENTARY}

    @invariant()
    def the_first_override_that_holds_is_shown(self) -> None:
        visible = self.state.holding - self.state.aside
        assert self.state.override == (min(visible) if visible else None)

    @invariant()
    def the_view_is_whole(self) -> None:
        seen = View(self.project, self.state.held, self.readings)
        assert all(isinstance(seen[name], Reading) for name in seen)

    def teardown(self) -> None:
        if hasattr(self, "project"):
            self.feed(ReleaseAll(self.at))
            assert set(self.level.values()) == {0}


PanelMachine.TestCase.settings = settings(
    max_examples=60, stateful_step_count=60, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
TestPanel = PanelMachine.TestCase
