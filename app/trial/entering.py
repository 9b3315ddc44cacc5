"""The operator's entry of a value, done by the keys of the panel as a person would."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from app.language import translate
from app.panel.entry import ACCELERATION, SHARE_OF_SPAN, Editing
from app.panel.state import Mode
from app.project.binding import plain_text, step_of
from app.signals.scaling import round_half_away
from app.trial.stand import TICK_S, Stand

MOST_PRESSES: Final = 20_000
"""Presses of one entry at most; a value that takes more is not entered by anybody."""
HOLD_FROM: Final = 30
"""A value that is so many steps away is gone to with the key held down."""


class Enterer:
    """Enters one value. It sees what an operator sees, the value under change, and nothing else."""

    def __init__(self, stand: Stand) -> None:
        self._stand = stand
        self._roles = stand.project.panel.entry
        self._presses = 0
        self._told: list[list[object]] = []

    @property
    def told(self) -> str:
        """The keys that were pressed, in words: "enter, up x 12, enter"."""
        return ", ".join(str(key) if times == 1 else f"{key} x {times}" for key, times in self._told)

    def enter(self, signal: str, value: Fraction, *, refused: bool = False) -> str:
        """Enter `value`; gives why that was not possible, or an empty text.

        With `refused` it gives why it was possible after all: the panel has to stop short of the value, or to refuse.
        """
        why = self._begin(signal)
        if why:
            return "" if refused and self._stand.panel.state.said is not None else why
        reached = self._go_to(signal, value)
        if refused:
            self._abandon()
            words = translate("trial", "the panel lets {value} be entered")
            return words.format(value=plain_text(self._stand.project, signal, value)) if reached else ""
        if not reached:
            editing = self._editing
            at = "" if editing is None else plain_text(self._stand.project, signal, editing.value)
            words = translate("trial", "the keys do not lead to {value}; the panel stays at {at}")
            self._abandon()
            return words.format(value=plain_text(self._stand.project, signal, value), at=at)
        self._press(self._roles.confirm)
        state = self._stand.panel.state
        if state.mode is Mode.ADJUST:
            why = state.said.reason if state.said is not None else translate("trial", "it was not accepted")
            self._abandon()
            return why
        if state.mode is Mode.CHOOSE:
            self._press(self._roles.abandon)
        return ""

    # How it begins and ends

    def _begin(self, signal: str) -> str:
        """Come to changing the value of the signal."""
        stand = self._stand
        project = stand.project
        screen = project.screen_named.get(stand.panel.state.shown)
        fields = [] if screen is None else [field for field in screen.fields if field.entry and field.signal == signal]
        if not fields:
            words = translate("trial", "screen '{screen}' has no entry field of '{signal}'")
            return words.format(screen=stand.panel.state.shown, signal=signal)
        if stand.panel.state.mode is Mode.WATCH:
            self._press(self._begin_key(signal))
        assert screen is not None
        seen = 0
        choosing = next((key for key in (self._roles.down, self._roles.right) if key in project.panel.keys), None)
        while (entry := stand.panel.state.entry) is not None and entry.editing is None and seen <= len(entry.fields):
            seen += 1
            if screen.fields[entry.field].signal == signal:
                self._press(self._roles.confirm)
                break
            if choosing is None:
                break
            self._press(choosing)
        entry = stand.panel.state.entry
        if entry is not None and entry.editing is not None and screen.fields[entry.field].signal == signal:
            return ""
        said = stand.panel.state.said
        self._abandon()
        if said is not None:
            return said.reason or said.text
        return translate("trial", "no key begins the entry of '{signal}' here").format(signal=signal)

    def _begin_key(self, signal: str) -> str:
        """The key that begins an entry here: one with an action for it, else the panel's own."""
        project, shown = self._stand.project, self._stand.panel.state.shown
        for action in project.actions:
            here = action.from_ in (None, shown)
            if action.do == "begin-entry" and action.key and here and action.signal in (None, signal):
                return action.key
        return self._roles.begin

    def _abandon(self) -> None:
        for _ in range(3):
            if self._stand.panel.state.mode is Mode.WATCH or self._roles.abandon not in self._stand.project.panel.keys:
                break
            self._press(self._roles.abandon)

    # How the value is reached

    def _go_to(self, signal: str, value: Fraction) -> bool:
        """Change the value until it is the wanted one, or the keys lead no nearer."""
        editing = self._editing
        if editing is None:
            return False
        if editing.choices:
            for _ in range(len(editing.choices) + 1):
                if self._value == value:
                    return True
                self._press(self._roles.up)
            return self._value == value
        if editing.digit is not None:
            return self._by_digit(signal, value)
        return self._by_step(signal, value)

    def _by_step(self, signal: str, value: Fraction) -> bool:
        step = step_of(self._stand.project, signal)
        editing = self._editing
        if editing is not None and (value - editing.value) % step:
            # Steps from here miss it; from a limit, where the keys come to a stop, they may not.
            limits = (limit for limit in (editing.low, editing.high) if limit is not None)
            for limit in (limit for limit in limits if (value - limit) % step == 0):
                self._step_to(limit, step)
                break
        return self._step_to(value, step)

    def _step_to(self, value: Fraction, step: Fraction) -> bool:
        """Go there by steps; not quite, if a limit or the steps do not let it be reached."""
        while (now := self._value) is not None and now != value and self._presses < MOST_PRESSES:
            way = 1 if value > now else -1
            key = self._roles.up if way > 0 else self._roles.down
            if abs(value - now) > HOLD_FROM * step:
                self._hold(key, value, way, step)
            else:
                self._press(key)
            after = self._value
            if after == now or (after is not None and (value - after) * way < 0 and abs(value - after) < step):
                return False  # at a limit, or between two steps
        return self._value == value

    def _hold(self, key: str, value: Fraction, way: int, step: Fraction) -> None:
        """Keep the key down until the next repeat would go beyond the value."""
        stand = self._stand
        self._note(key)
        stand.key_down(key)
        try:
            before, still = self._value, 0
            while (editing := self._editing) is not None and still < 100:
                repeats = editing.repeat.count if editing.repeat is not None else 0
                if (value - editing.value) * way <= _jump(editing, repeats, step):
                    break
                stand.tick()
                still = still + 1 if self._value == before else 0
                before = self._value
        finally:
            stand.key_up(key)

    def _by_digit(self, signal: str, value: Fraction) -> bool:
        """Digit by digit from the left, each turned by as much as is still missing."""
        decimals = self._stand.project.signal_named[signal].decimals
        while self._cursor_moves(self._roles.left):
            pass
        while True:
            editing = self._editing
            if editing is None or editing.digit is None:
                return False
            unit = Fraction(10) ** editing.digit
            now = round_half_away(editing.value, decimals)
            missing = value - now
            times = int(abs(missing) / unit)
            for _ in range(times):
                at = self._value
                self._press(self._roles.up if missing > 0 else self._roles.down)
                if self._value == at:
                    break
            if self._value == value:
                return True
            if not self._cursor_moves(self._roles.right):
                # A digit of its own may be wanted beyond a limit: one press more is what a person would try.
                last = self._value
                self._press(self._roles.up if last is not None and value > last else self._roles.down)
                return self._value == value

    def _cursor_moves(self, key: str) -> bool:
        before = self._editing.digit if self._editing is not None else None
        self._press(key)
        return self._editing is not None and self._editing.digit != before

    # Keys

    @property
    def _editing(self) -> Editing | None:
        entry = self._stand.panel.state.entry
        return None if entry is None else entry.editing

    @property
    def _value(self) -> Fraction | None:
        return None if self._editing is None else self._editing.value

    def _press(self, key: str) -> None:
        self._note(key)
        self._presses += 1
        self._stand.key_down(key)
        try:
            self._stand.tick()
        finally:
            self._stand.key_up(key)

    def _note(self, key: str) -> None:
        if self._told and self._told[-1][0] == key:
            self._told[-1][1] = int(str(self._told[-1][1])) + 1
        else:
            self._told.append([key, 1])


def _jump(editing: Editing, repeats: int, step: Fraction) -> Fraction:
    """How far the next repeat of a key that is held goes at most."""
    factor = next(factor for after, factor in ACCELERATION if repeats + 1 >= after)
    if editing.low is not None and editing.high is not None:
        while factor > 1 and factor * step * SHARE_OF_SPAN > editing.high - editing.low:
            factor //= 10
    return factor * step


assert TICK_S < 0.1  # a repeat must not be missed
