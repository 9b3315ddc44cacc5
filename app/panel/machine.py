"""The panel as a state machine: what each key, tick and reading does, in one table of transitions.

Nothing here reads a clock, a line or a keyboard: events come in, effects go out.

What the table cannot say:

- A key acts on what the panel showed when it was pressed. Only then the readings are judged, so a fault that arrives
  at the same moment never gets a key that was meant for the screen before it.
- A key first does all its actions that hold for the shown screen, in the order of the file, then its turn;
  `begin-entry` comes last, on the screen that is shown then. A turn of the screen itself goes before one of every
  screen.
- The key that begins entry does so where it has neither an action nor a turn. During entry the entry keys do nothing
  else; every other key does what it always does (a stop key stops), and its turn abandons the entry.
- Overrides: the first one in the order of the file whose condition holds is shown. Nobody but its condition ends it. A
  key may lead away from it, by a turn from that screen or from every screen: then the panel says that it still holds,
  and after `ASIDE_S` without a key it is shown again, until its condition clears. When it does, the operator is back
  where he was. Whatever covers or uncovers a screen abandons the entry there.
- Conditions are judged on good readings only: without one an override neither begins nor ends.
- An action on a condition acts once each time the condition begins to hold. The first good reading is only what it is
  compared with: starting a panel commands nothing. The same holds after the reading was not good for a while: a line
  that comes back commands nothing by itself. Only actions that clear are kept for that moment, since they stop things.
- The signal that chooses the language does so while its reading is good; what it last chose stays. A value without a
  language means the first one. Without such a signal the language is the panel's own, and begins as the first.
- A momentary action ends when its key comes up, when another screen is shown, and on `ReleaseAll`.
- The release of a momentary action is owed until the line says that it is written: while it fails, it is sent again
  every `RELEASE_AGAIN_S`. A machine must not go on jogging because one message was lost.
- Idle time counts from the last key or the last change of screen, whichever was later; not while a key is down, during
  entry, or under an override.
"""

from __future__ import annotations

import enum
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import inf
from types import MappingProxyType
from typing import Any, Final

from app.panel.conditions import holds, in_words
from app.panel.entry import (
    REPEAT_AFTER_S,
    REPEAT_EVERY_S,
    Editing,
    Entry,
    EntryRefused,
    Repeat,
    change,
    move_cursor,
    start,
)
from app.panel.events import (
    Effect,
    Entered,
    Event,
    KeyDown,
    KeyUp,
    Refused,
    ReleaseAll,
    Tick,
    Turned,
    Write,
    WriteDone,
    WriteFailed,
)
from app.panel.layout import Layout
from app.panel.messages import Saying, of_kept, of_refusal, said
from app.panel.state import Message, Mode, State
from app.panel.view import View
from app.project.binding import refusal
from app.project.languages import in_language
from app.project.model import Action, Field, HeldSignal, HeldValue, Project
from app.signals.reading import Reading

__all__ = [
    "ASIDE_S",
    "MESSAGE_S",
    "RELEASE_AGAIN_S",
    "TRANSITIONS",
    "Cause",
    "Effect",
    "Entered",
    "Entry",
    "Event",
    "KeyDown",
    "KeyUp",
    "Message",
    "Mode",
    "Refused",
    "ReleaseAll",
    "State",
    "Tick",
    "Transition",
    "Turned",
    "Write",
    "WriteDone",
    "WriteFailed",
    "begin",
    "step",
    "view",
]

MESSAGE_S: Final = 3.0
"""How long a message stays on the panel, in seconds; the next key takes it away sooner."""

RELEASE_AGAIN_S: Final = 0.5
"""How long after a failure the release of a momentary action is sent again, in seconds."""

ASIDE_S: Final = 20.0
"""An override that a key led away from is shown again after so many seconds without a key, while it still holds."""


class Cause(enum.StrEnum):
    """Why something changes. What a key causes depends on the mode: see `_cause_of_key`."""

    KEY = "key"
    """A key that acts or turns here."""
    BEGIN = "begin"
    UP = "up"
    DOWN = "down"
    LEFT = "left"
    RIGHT = "right"
    CONFIRM = "confirm"
    ABANDON = "abandon"
    REPEAT = "repeat"
    """The key that changes the value has been held down long enough for once more."""
    TIME_OUT = "time-out"
    """No key for as long as an entry may wait."""
    COVER = "cover"
    """An override comes, goes, or makes way for another."""
    IDLE = "idle"


@dataclass(frozen=True, slots=True)
class Transition:
    """What is done, and in which mode the panel may be afterwards."""

    does: Callable[[_Work, str], None]
    to: frozenset[Mode]


def begin(project: Project, at: float) -> State:
    """The panel as it wakes up: on its first screen, with the first contents of its held values."""
    held = {signal.name: Fraction(signal.held) for signal in project.signals if isinstance(signal, HeldSignal)}
    state = State(screen=Layout.of(project).start, last_key=at, since=at, held=MappingProxyType(held))
    # One look without readings: what held values are at first begins nothing later.
    return step(project, state, Tick(at), {})[0]


def step(
    project: Project, state: State, event: Event, readings: Mapping[str, Reading]
) -> tuple[State, tuple[Effect, ...]]:
    """What one event makes of the panel, and what the panel wants done, in this order.

    `readings` are the newest ones of the line, by signal; held values and bits are worked out from them. Events come in
    the order of their times. If nothing changes, the very same state is returned.
    """
    work = _Work(project, state, event.at, readings)
    _fit(work)
    if isinstance(event, KeyDown):
        _key_down(work, event.key)
    elif isinstance(event, KeyUp):
        _key_up(work, event.key)
    elif isinstance(event, ReleaseAll):
        _release_all(work)
    elif isinstance(event, WriteDone):
        _answered(work, event.signal, event.value)
        if event.signal in work.state.owed and event.value in (0, None):
            work.owe(event.signal, None)
    elif isinstance(event, WriteFailed):
        _answered(work, event.signal, event.value)
        if event.signal in work.state.owed and event.value in (0, None):
            work.owe(event.signal, event.at + RELEASE_AGAIN_S)
        kept = event.kept
        saying = Saying(event.message) if kept is None else of_kept(work.spoken, event.signal, kept)
        work.tell(saying, event.reason)
    else:
        _pass_time(work)
    _judge(work)
    if isinstance(event, Tick):
        _idle_if_due(work)
    return work.state, tuple(work.effects)


def view(project: Project, state: State, readings: Mapping[str, Reading]) -> Mapping[str, Reading]:
    """The readings of all signals of the project as the panel sees them: held values and bits included."""
    return View(project, state.held, readings)


class _Work:
    """One step in the making: the state so far and the effects so far."""

    __slots__ = ("_view", "at", "effects", "layout", "project", "readings", "state")

    def __init__(self, project: Project, state: State, at: float, readings: Mapping[str, Reading]) -> None:
        self.project = project
        self.layout = Layout.of(project)
        self.state = state
        self.at = at
        self.readings = readings
        self.effects: list[Effect] = []
        self._view: View | None = None

    @property
    def view(self) -> View:
        if self._view is None:
            self._view = View(self.project, self.state.held, self.readings)
        return self._view

    def change(self, **changes: Any) -> None:
        self.state = replace(self.state, **changes)

    def hold(self, signal: str, value: Fraction) -> None:
        self.change(held=MappingProxyType({**self.state.held, signal: value}))
        self._view = None

    def owe(self, signal: str, due: float | None) -> None:
        """Note when the release of a signal is sent again; None: it is owed no longer."""
        left = {name: time for name, time in self.state.owed.items() if name != signal}
        self.change(owed=MappingProxyType(left if due is None else {**left, signal: due}))

    @property
    def spoken(self) -> Project:
        """The project in the language that the panel shows."""
        return in_language(self.project, self.state.language)

    def tell(self, saying: Saying, reason: str = "") -> None:
        self.change(message=Message(said(self.spoken, saying), self.at + MESSAGE_S, reason))

    def refuse(self, signal: str, reason: str, saying: Saying) -> None:
        self.effects.append(Refused(signal, reason))
        self.tell(saying, reason)

    def fire(self, cause: Cause, key: str = "") -> None:
        transition = TRANSITIONS.get((self.state.mode, cause))
        if transition is not None:
            transition.does(self, key)
            assert self.state.mode in transition.to, f"{cause} led to {self.state.mode}"

    @property
    def fields(self) -> tuple[Field, ...]:
        return self.layout.screen(self.state.shown).fields

    @property
    def editing(self) -> tuple[Entry, Editing]:
        """The entry under change. Only in the mode that adjusts."""
        entry = self.state.entry
        assert entry is not None
        assert entry.editing is not None
        return entry, entry.editing


# What a key does when nothing is being changed ------------------------------------------------------------------------


def _act(work: _Work, key: str) -> None:
    shown = work.state.shown
    actions = work.layout.behaviour.key_actions(shown, key)
    turn = work.layout.behaviour.key_turn(shown, key)
    for action in actions:
        if action.do != "begin-entry":
            _do(work, action, key)
    if turn is not None:
        _turn_by_key(work, turn[2], key)
    for action in actions:
        if action.do == "begin-entry":
            _begin_on(work, action.signal)


def _turn_by_key(work: _Work, to: str, key: str) -> None:
    state = work.state
    if state.override is None:
        _show(work, to, None, None, f"key {key}")
        return
    same_screen = {
        one.index for one in work.layout.behaviour.overrides if one.index in state.holding and one.to == state.cover
    }
    covered = state.cover
    work.change(aside=state.aside | same_screen)
    _show(work, to, None, None, f"key {key}")
    work.tell(Saying("still_on", covered or ""))


def _begin(work: _Work, _key: str) -> None:
    _begin_with(work, Entry(work.layout.screen(work.state.shown).entry_fields))


def _begin_on(work: _Work, signal: str | None) -> None:
    """Begin entry because an action says so: on the field of `signal`, or as the begin key would."""
    screen = work.layout.screen(work.state.shown)
    fields = screen.entry_fields
    if signal is not None:
        fields = tuple(index for index in fields if screen.fields[index].signal == signal)[:1]
    if fields:
        _begin_with(work, Entry(fields))
    else:
        work.refuse(signal or "", "nothing to enter here", Saying("nothing_to_enter"))


def _begin_with(work: _Work, entry: Entry) -> None:
    if len(entry.fields) == 1:
        _adjust(work, entry)
    else:
        work.change(entry=entry, since=work.at)


# Choosing a field -----------------------------------------------------------------------------------------------------


def _choose_next(work: _Work, _key: str) -> None:
    _choose(work, 1)


def _choose_previous(work: _Work, _key: str) -> None:
    _choose(work, -1)


def _choose(work: _Work, way: int) -> None:
    entry = work.state.entry
    assert entry is not None
    work.change(entry=replace(entry, place=(entry.place + way) % len(entry.fields)))


def _adjust_chosen(work: _Work, _key: str) -> None:
    entry = work.state.entry
    assert entry is not None
    _adjust(work, entry)


def _adjust(work: _Work, entry: Entry) -> None:
    field = work.fields[entry.field]
    by_digit = work.project.panel.entry.by == "digit"
    try:
        editing, message = start(work.project, field, work.view[field.signal], by_digit)
    except EntryRefused as refused:
        work.change(entry=_without_editing(entry), since=work.at)
        work.refuse(field.signal, str(refused), refused.saying)
        return
    work.change(entry=replace(entry, editing=editing), since=work.at)
    if message is not None:
        work.tell(message)


def _without_editing(entry: Entry) -> Entry | None:
    """What an entry goes back to: choosing, where there are several fields to choose from."""
    return replace(entry, editing=None) if len(entry.fields) > 1 else None


# Changing a value -----------------------------------------------------------------------------------------------------


def _raise(work: _Work, key: str) -> None:
    _change(work, key, 1)


def _lower(work: _Work, key: str) -> None:
    _change(work, key, -1)


def _change(work: _Work, key: str, way: int) -> None:
    entry, editing = work.editing
    editing, message = change(work.project, work.fields[entry.field], editing, way)
    # Choices go round: repeated, they would rush past.
    repeat = None if editing.choices else Repeat(key, way, work.at + REPEAT_AFTER_S)
    work.change(entry=replace(entry, editing=replace(editing, repeat=repeat)))
    if message is not None:
        work.tell(message)


def _repeat(work: _Work, _key: str) -> None:
    entry, editing = work.editing
    field = work.fields[entry.field]
    message: Saying | None = None
    while (repeat := editing.repeat) is not None and repeat.next_at <= work.at:
        # After a pause without ticks the value must not rush on to make up for it.
        next_at = max(repeat.next_at, work.at - 2 * REPEAT_EVERY_S) + REPEAT_EVERY_S
        editing, message = change(work.project, field, editing, repeat.way)
        editing = replace(editing, repeat=replace(repeat, next_at=next_at, count=repeat.count + 1))
    work.change(entry=replace(entry, editing=editing))
    if message is not None:
        work.tell(message)


def _cursor_left(work: _Work, _key: str) -> None:
    _move_cursor(work, 1)


def _cursor_right(work: _Work, _key: str) -> None:
    _move_cursor(work, -1)


def _move_cursor(work: _Work, way: int) -> None:
    entry, editing = work.editing
    editing = move_cursor(work.project, work.fields[entry.field], editing, way)
    work.change(entry=replace(entry, editing=editing))


def _confirm(work: _Work, _key: str) -> None:
    entry, editing = work.editing
    signal = work.fields[entry.field].signal
    reason = refusal(work.project, signal, editing.value)
    if reason is not None:
        work.refuse(signal, reason, of_refusal(work.project, signal, editing.value))
        return
    work.change(entry=_without_editing(entry), since=work.at)
    work.effects.append(Entered(signal, editing.old, editing.value))
    _put(work, signal, editing.value)


def _restore(work: _Work, _key: str) -> None:
    entry, _ = work.editing
    work.change(entry=_without_editing(entry), since=work.at)


def _leave(work: _Work, _key: str) -> None:
    work.change(entry=None, since=work.at)


# Screens that change by themselves ------------------------------------------------------------------------------------


def _cover(work: _Work, _key: str) -> None:
    state = work.state
    for override in work.layout.behaviour.overrides:
        if override.index in state.holding and override.index not in state.aside:
            _show(work, state.screen, override.index, override.to, in_words(override.condition))
            return
    _show(work, state.screen, None, None, "override over")


def _idle(work: _Work, _key: str) -> None:
    found = work.layout.behaviour.idle_turn(work.state.screen)
    if found is not None:
        _show(work, found[1].to, None, None, f"idle for {found[1].idle_s} s")


# The table ------------------------------------------------------------------------------------------------------------

_WATCH, _CHOOSE, _ADJUST = Mode.WATCH, Mode.CHOOSE, Mode.ADJUST

TRANSITIONS: Final[Mapping[tuple[Mode, Cause], Transition]] = MappingProxyType(
    {
        # mode     cause                       does what            leads to
        (_WATCH, Cause.KEY): Transition(_act, frozenset({_WATCH, _CHOOSE, _ADJUST})),
        (_WATCH, Cause.BEGIN): Transition(_begin, frozenset({_WATCH, _CHOOSE, _ADJUST})),
        (_WATCH, Cause.COVER): Transition(_cover, frozenset({_WATCH})),
        (_WATCH, Cause.IDLE): Transition(_idle, frozenset({_WATCH})),
        #
        (_CHOOSE, Cause.KEY): Transition(_act, frozenset({_WATCH, _CHOOSE, _ADJUST})),
        (_CHOOSE, Cause.UP): Transition(_choose_previous, frozenset({_CHOOSE})),
        (_CHOOSE, Cause.LEFT): Transition(_choose_previous, frozenset({_CHOOSE})),
        (_CHOOSE, Cause.DOWN): Transition(_choose_next, frozenset({_CHOOSE})),
        (_CHOOSE, Cause.RIGHT): Transition(_choose_next, frozenset({_CHOOSE})),
        (_CHOOSE, Cause.CONFIRM): Transition(_adjust_chosen, frozenset({_CHOOSE, _ADJUST})),
        (_CHOOSE, Cause.ABANDON): Transition(_leave, frozenset({_WATCH})),
        (_CHOOSE, Cause.TIME_OUT): Transition(_leave, frozenset({_WATCH})),
        (_CHOOSE, Cause.COVER): Transition(_cover, frozenset({_WATCH})),
        #
        (_ADJUST, Cause.KEY): Transition(_act, frozenset({_WATCH, _CHOOSE, _ADJUST})),
        (_ADJUST, Cause.UP): Transition(_raise, frozenset({_ADJUST})),
        (_ADJUST, Cause.DOWN): Transition(_lower, frozenset({_ADJUST})),
        (_ADJUST, Cause.LEFT): Transition(_cursor_left, frozenset({_ADJUST})),
        (_ADJUST, Cause.RIGHT): Transition(_cursor_right, frozenset({_ADJUST})),
        (_ADJUST, Cause.REPEAT): Transition(_repeat, frozenset({_ADJUST})),
        (_ADJUST, Cause.CONFIRM): Transition(_confirm, frozenset({_WATCH, _CHOOSE, _ADJUST})),
        (_ADJUST, Cause.ABANDON): Transition(_restore, frozenset({_WATCH, _CHOOSE})),
        (_ADJUST, Cause.TIME_OUT): Transition(_leave, frozenset({_WATCH})),
        (_ADJUST, Cause.COVER): Transition(_cover, frozenset({_WATCH})),
    }
)
"""For each mode and cause what is done; a pair that is missing does nothing."""


def _cause_of_key(work: _Work, key: str) -> Cause | None:
    """What a key causes in the present mode; None: nothing."""
    state, layout, roles = work.state, work.layout, work.project.panel.entry
    if state.mode is Mode.WATCH:
        if layout.behaviour.key_actions(state.shown, key) or layout.behaviour.key_turn(state.shown, key) is not None:
            return Cause.KEY
        return Cause.BEGIN if key == roles.begin and layout.screen(state.shown).entry_fields else None
    # Leaving comes first: a key that has two parts must never be one that cannot abandon.
    for cause, role in (
        (Cause.ABANDON, roles.abandon),
        (Cause.CONFIRM, roles.confirm),
        (Cause.UP, roles.up),
        (Cause.DOWN, roles.down),
        (Cause.LEFT, roles.left),
        (Cause.RIGHT, roles.right),
    ):
        if key == role:
            return cause
    return Cause.KEY


# Events ---------------------------------------------------------------------------------------------------------------


def _key_down(work: _Work, key: str) -> None:
    # A second press of a key that is down is a keyboard repeating by itself; the panel has its own repeat.
    if key not in work.layout.keys or key in work.state.down:
        return
    _stop_repeat(work)
    work.change(down=work.state.down | {key}, last_key=work.at, since=work.at, message=None)
    cause = _cause_of_key(work, key)
    if cause is not None:
        work.fire(cause, key)


def _key_up(work: _Work, key: str) -> None:
    if key not in work.state.down:
        return
    work.change(down=work.state.down - {key}, last_key=work.at, since=work.at)
    _stop_repeat(work, key)
    _let_go(work, [pair for pair in work.state.pressing if pair[0] == key])


def _release_all(work: _Work) -> None:
    if work.state.down:
        work.change(down=frozenset(), last_key=work.at, since=work.at)
    _stop_repeat(work)
    _let_go(work, work.state.pressing)


def _answered(work: _Work, signal: str, value: Fraction | None) -> None:
    if signal in work.state.sent and value in (work.state.sent[signal], None):
        left = {name: value for name, value in work.state.sent.items() if name != signal}
        work.change(sent=MappingProxyType(left))


def _pass_time(work: _Work) -> None:
    for signal, due in work.state.owed.items():
        if due <= work.at:
            _release(work, signal)
    state = work.state
    if state.message is not None and state.message.until <= work.at:
        work.change(message=None)
    entry = state.entry
    if entry is None:
        return
    if entry.editing is not None and entry.editing.repeat is not None and entry.editing.repeat.next_at <= work.at:
        work.fire(Cause.REPEAT)
    limit = work.project.panel.entry.timeout_s
    if limit and not state.down and work.at - state.last_key >= limit:
        work.fire(Cause.TIME_OUT)


def _idle_if_due(work: _Work) -> None:
    state = work.state
    if state.mode is not Mode.WATCH or state.override is not None or state.down:
        return
    found = work.layout.behaviour.idle_turn(state.screen)
    if found is not None and work.at - state.since >= (found[1].idle_s or 0):
        work.fire(Cause.IDLE)


def _judge(work: _Work) -> None:
    """Judge all conditions on the readings: overrides come and go, actions act."""
    layout, seen, state = work.layout, work.view, work.state
    if layout.behaviour.overrides or state.holding:
        holding = set()
        for override in layout.behaviour.overrides:
            truth = holds(override.condition, seen)
            if truth or (truth is None and override.index in state.holding):
                holding.add(override.index)
        waited = not state.down and work.at - state.last_key >= ASIDE_S
        aside = frozenset() if waited else state.aside & holding
        if holding != state.holding or aside != state.aside:
            work.change(holding=frozenset(holding), aside=aside)
        shown = next(
            (one.index for one in layout.behaviour.overrides if one.index in holding and one.index not in aside), None
        )
        if shown != state.override:
            work.fire(Cause.COVER)
    due: list[Action] = []
    judged = dict(state.judged)
    for one in layout.behaviour.conditionals:
        truth = holds(one.condition, seen)
        if truth is None:
            if one.action.do != "clear":
                judged.pop(one.index, None)
            continue
        if truth and judged.get(one.index) is False:
            due.append(one.action)
        judged[one.index] = truth
    if judged != state.judged:
        work.change(judged=MappingProxyType(judged))
    for action in due:
        _do(work, action, "")
    _speak(work)


def _speak(work: _Work) -> None:
    """Take the language from the signal that chooses it, if one does."""
    panel = work.project.panel
    language = work.state.language if work.state.language < len(panel.languages) else 0
    if panel.language in work.project.signal_named:
        reading = work.view[panel.language]
        if reading.good and isinstance(reading.value, Fraction):
            known = reading.value.denominator == 1 and 0 <= reading.value < len(panel.languages)
            language = int(reading.value) if known else 0
    if language != work.state.language:
        work.change(language=language)


def _fit(work: _Work) -> None:
    """Fit a state to a project that was edited since: what is no longer there is left."""
    state, layout = work.state, work.layout
    if state.screen not in layout.names or (state.override is not None and not _still_overrides(layout, state)):
        screen = state.screen if state.screen in layout.names else layout.start
        _show(work, screen, None, None, "edited")
    elif state.entry is not None and not set(state.entry.fields) <= set(layout.screen(state.shown).entry_fields):
        work.change(entry=None)


def _still_overrides(layout: Layout, state: State) -> bool:
    return any(one.index == state.override and one.to == state.cover for one in layout.behaviour.overrides)


# What the handlers share ----------------------------------------------------------------------------------------------


def _show(work: _Work, screen: str, override: int | None, cover: str | None, cause: str) -> None:
    """Show another screen, or the same one for another reason. Ends what belonged to the former one."""
    before = work.state.shown
    work.change(screen=screen, override=override, cover=cover, entry=None, since=work.at)
    _let_go(work, work.state.pressing)
    if work.state.shown != before:
        work.effects.append(Turned(work.state.shown, cause))


def _do(work: _Work, action: Action, key: str) -> None:
    signal = action.signal or ""
    if action.do == "next-language":
        _next_language(work)
    elif signal not in work.project.signal_named:
        work.refuse(signal, f"there is no signal '{signal}'", Saying("not_possible"))
    elif action.do == "momentary":
        _press(work, key, signal)
    elif action.do == "toggle":
        _toggle(work, signal)
    elif action.do == "set":
        _write(work, signal, Fraction(1))
    elif action.do == "clear":
        _write(work, signal, Fraction(0))
    elif isinstance(action.value, HeldValue):
        held = work.state.held.get(action.value.from_)
        if held is None:
            work.refuse(signal, f"there is no held value '{action.value.from_}'", Saying("not_possible"))
        else:
            _write(work, signal, held)
    elif action.value is not None:
        _write(work, signal, Fraction(action.value))


def _next_language(work: _Work) -> None:
    panel = work.project.panel
    if len(panel.languages) < 2:
        work.refuse("", "there is one language only", Saying("not_possible"))
        return
    if panel.language is None:
        work.change(language=(work.state.language + 1) % len(panel.languages))
        return
    # As with toggle, what is on its way counts.
    now = work.state.sent.get(panel.language, Fraction(work.state.language))
    _write(work, panel.language, (now + 1) % len(panel.languages))


def _toggle(work: _Work, signal: str) -> None:
    # What is on its way counts: a second press means the way back, though the line still reads the former value.
    value = work.state.sent.get(signal)
    if value is None:
        reading = work.view[signal]
        if not reading.good or not isinstance(reading.value, Fraction):
            work.refuse(signal, f"cannot toggle: {reading.reason or 'not a number'}", Saying("no_value"))
            return
        value = reading.value
    _write(work, signal, Fraction(0 if value else 1))


def _press(work: _Work, key: str, signal: str) -> None:
    # What cannot be released again is not pressed.
    for value in (Fraction(1), Fraction(0)):
        reason = refusal(work.project, signal, value)
        if reason is not None:
            work.refuse(signal, reason, of_refusal(work.project, signal, value))
            return
    already = any(pressed == signal for _, pressed in work.state.pressing)
    if signal in work.state.owed:
        work.owe(signal, None)
    work.change(pressing=(*work.state.pressing, (key, signal)))
    if not already:
        _put(work, signal, Fraction(1))


def _let_go(work: _Work, pairs: Iterable[tuple[str, str]]) -> None:
    """End momentary actions. A signal that two keys press is released with the last of them."""
    ending = set(pairs)
    if not ending:
        return
    before = work.state.pressing
    left = tuple(pair for pair in before if pair not in ending)
    work.change(pressing=left)
    still = {signal for _, signal in left}
    for signal in dict.fromkeys(signal for key, signal in before if (key, signal) in ending):
        if signal not in still:
            _release(work, signal)


def _release(work: _Work, signal: str) -> None:
    """Write the 0 that ends a momentary action; it is owed until the line has it."""
    _put(work, signal, Fraction(0))
    if signal in work.state.sent:
        work.owe(signal, inf)


def _write(work: _Work, signal: str, value: Fraction) -> None:
    reason = refusal(work.project, signal, value)
    if reason is not None:
        work.refuse(signal, reason, of_refusal(work.project, signal, value))
    else:
        if signal in work.state.owed:
            work.owe(signal, None)
        _put(work, signal, value)


def _put(work: _Work, signal: str, value: Fraction) -> None:
    """Bring an allowed value to where the signal lives: the panel or the line."""
    known = work.project.signal_named.get(signal)
    if isinstance(known, HeldSignal):
        work.hold(signal, value)
    elif known is not None:
        work.change(sent=MappingProxyType({**work.state.sent, signal: value}))
        work.effects.append(Write(signal, value))


def _stop_repeat(work: _Work, key: str | None = None) -> None:
    entry = work.state.entry
    if entry is None or entry.editing is None or entry.editing.repeat is None:
        return
    if key is None or entry.editing.repeat.key == key:
        work.change(entry=replace(entry, editing=replace(entry.editing, repeat=None)))
