"""The panel as a state machine: what each key, tick and reading does, in one table of transitions.

Nothing here reads a clock, a line or a keyboard: events come in, effects go out.

What the table cannot say:

- A key acts on what the panel showed when it was pressed. Only then the readings are judged, so a fault that arrives at
  the same moment never gets a key that was meant for the screen before it.
- A key first does all its actions that hold for the shown screen, in the order of the file, then its screen change;
  `begin-entry` comes last, on the screen that is shown then. A screen change of the screen itself goes before one of
  every screen.
- The key that begins entry does so where it has neither an action nor a screen change. During entry the entry keys do
  nothing else; every other key does what it always does (a stop key stops), and its screen change abandons the entry.
- Overrides: the first one in the order of the file whose condition holds is shown. Nobody but its condition ends it. A
  key may lead away from it, by a screen change from that screen or from every screen: then the panel says that it still
  holds, and after `ASIDE_S` without a key it is shown again, until its condition clears. When it does, the operator is
  back where he was. Whatever covers or uncovers a screen abandons the entry there.
- Conditions are judged on good readings only: without one an override neither begins nor ends.
- An action on a condition acts once each time the condition begins to hold. The first good reading is only what it is
  compared with: starting a panel commands nothing. The same holds after the reading was not good for a while: a line
  that comes back commands nothing by itself. Only actions that clear are kept for that moment, since they stop things.
- The signal that chooses the language does so while its reading is good; what it last chose stays. A value without a
  language means the first one. Without such a signal the language is the panel's own, and begins as the first.
- A toggle needs a good reading to switch on. What was on when it was last read is switched off without one, where that
  stops something: a key must not fail to stop because an answer was lost just then.
- A momentary action ends when its key comes up, when another screen is shown, and on `ReleaseAll`.
- What a write is for goes with it (`app.project.purpose`): the line owes what stops something, the release of a
  momentary action among it, until it is proved. A machine must not go on jogging because one message was lost.
- Idle time counts from the last key or the last change of screen, whichever was later; not while a key is down, during
  entry, or under an override.
"""

from __future__ import annotations

import enum
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from app.language import translate
from app.panel import acting, entering
from app.panel.conditions import holds, in_words
from app.panel.entry import Entry
from app.panel.events import (
    Effect,
    Entered,
    KeyDown,
    KeyUp,
    PanelEvent,
    Refused,
    ReleaseAll,
    ScreenChanged,
    Tick,
    Write,
    WriteDone,
    WriteFailed,
)
from app.panel.layout import PanelLayout
from app.panel.messages import Saying, of_kept
from app.panel.state import Message, Mode, State
from app.panel.work import MESSAGE_S, REASON_S, StepInProgress
from app.project.model import Action, HeldSignal, Project
from app.signals.reading import Reading

__all__ = [
    "ASIDE_S",
    "MESSAGE_S",
    "REASON_S",
    "TRANSITIONS",
    "Cause",
    "Effect",
    "Entered",
    "Entry",
    "KeyDown",
    "KeyUp",
    "Message",
    "Mode",
    "PanelEvent",
    "Refused",
    "ReleaseAll",
    "ScreenChanged",
    "State",
    "Tick",
    "Transition",
    "Write",
    "WriteDone",
    "WriteFailed",
    "begin",
    "step",
]

ASIDE_S: Final = 20.0
"""An override that a key led away from is shown again after so many seconds without a key, while it still holds."""


class Cause(enum.StrEnum):
    """Why something changes. What a key causes depends on the mode: see `_cause_of_key`."""

    KEY = "key"
    """A key that acts or changes the screen here."""
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

    does: Callable[[StepInProgress, str], None]
    to: frozenset[Mode]


def begin(project: Project, at: float) -> State:
    """The panel as it wakes up: on its first screen, with the first contents of its held values."""
    held = {signal.name: Fraction(signal.held) for signal in project.signals if isinstance(signal, HeldSignal)}
    state = State(screen=PanelLayout.of(project).start, last_key=at, since=at, held=MappingProxyType(held))
    # One look without readings: what held values are at first begins nothing later.
    return step(project, state, Tick(at), {})[0]


def step(
    project: Project, state: State, event: PanelEvent, readings: Mapping[str, Reading]
) -> tuple[State, tuple[Effect, ...]]:
    """What one event makes of the panel, and what the panel wants done, in this order.

    `readings` are the newest ones of the line, by signal; held values and bits are worked out from them. Events come in
    the order of their times. If nothing changes, the very same state is returned.
    """
    work = StepInProgress(project, state, event.at, readings)
    _fit(work)
    if isinstance(event, KeyDown):
        _key_down(work, event.key)
    elif isinstance(event, KeyUp):
        _key_up(work, event.key)
    elif isinstance(event, ReleaseAll):
        _release_all(work)
    elif isinstance(event, WriteDone):
        _settle_sent(work, event.signal, event.value)
        _take_back(work, event.signal, event.value)
    elif isinstance(event, WriteFailed):
        _settle_sent(work, event.signal, event.value)
        kept = event.kept
        saying = Saying(event.message) if kept is None else of_kept(work.spoken, event.signal, kept)
        work.tell(saying, event.reason, event.signal, event.value)
    else:
        _pass_time(work)
    _judge(work)
    if isinstance(event, Tick):
        _idle_if_due(work)
    return work.state, tuple(work.effects)


# What a key does when nothing is being changed ------------------------------------------------------------------------


def _act(work: StepInProgress, key: str) -> None:
    shown = work.state.shown
    actions = work.layout.behaviour.key_actions(shown, key)
    screen_change = work.layout.behaviour.key_screen_change(shown, key)
    for action in actions:
        if action.do != "begin-entry":
            acting.do(work, action, key)
    if screen_change is not None:
        _change_screen_by_key(work, screen_change[2], key)
    for action in actions:
        if action.do == "begin-entry":
            _begin_on(work, action.signal)


def _change_screen_by_key(work: StepInProgress, to: str, key: str) -> None:
    state = work.state
    if state.override is None:
        _show(work, to, None, None, _by_key(key))
        return
    same_screen = {
        one.index for one in work.layout.behaviour.overrides if one.index in state.holding and one.to == state.cover
    }
    covered = state.cover
    work.change(aside=state.aside | same_screen)
    _show(work, to, None, None, _by_key(key))
    work.tell(Saying("still_on", covered or ""))


def _by_key(key: str) -> str:
    return translate("panel", "key {key}").format(key=key)


def _begin(work: StepInProgress, _key: str) -> None:
    entering.begin_with(work, Entry(work.layout.screen(work.state.shown).entry_fields))


def _begin_on(work: StepInProgress, signal: str | None) -> None:
    """Begin entry because an action says so: on the field of `signal`, or as the begin key would."""
    screen = work.layout.screen(work.state.shown)
    fields = screen.entry_fields
    if signal is not None:
        fields = tuple(index for index in fields if screen.fields[index].signal == signal)[:1]
    if fields:
        entering.begin_with(work, Entry(fields))
    else:
        work.refuse(signal or "", translate("panel", "nothing to enter here"), Saying("nothing_to_enter"))


# Screens that change by themselves ------------------------------------------------------------------------------------


def _cover(work: StepInProgress, _key: str) -> None:
    state = work.state
    for override in work.layout.behaviour.overrides:
        if override.index in state.holding and override.index not in state.aside:
            _show(work, state.screen, override.index, override.to, in_words(override.condition))
            return
    _show(work, state.screen, None, None, translate("panel", "override ended"))


def _idle(work: StepInProgress, _key: str) -> None:
    found = work.layout.behaviour.idle_screen_change(work.state.screen)
    if found is not None:
        words = translate("panel", "idle for {seconds} s").format(seconds=found[1].idle_s)
        _show(work, found[1].to, None, None, words)


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
        (_CHOOSE, Cause.UP): Transition(entering.choose_previous, frozenset({_CHOOSE})),
        (_CHOOSE, Cause.LEFT): Transition(entering.choose_previous, frozenset({_CHOOSE})),
        (_CHOOSE, Cause.DOWN): Transition(entering.choose_next, frozenset({_CHOOSE})),
        (_CHOOSE, Cause.RIGHT): Transition(entering.choose_next, frozenset({_CHOOSE})),
        (_CHOOSE, Cause.CONFIRM): Transition(entering.adjust_chosen, frozenset({_CHOOSE, _ADJUST})),
        (_CHOOSE, Cause.ABANDON): Transition(entering.leave, frozenset({_WATCH})),
        (_CHOOSE, Cause.TIME_OUT): Transition(entering.leave, frozenset({_WATCH})),
        (_CHOOSE, Cause.COVER): Transition(_cover, frozenset({_WATCH})),
        #
        (_ADJUST, Cause.KEY): Transition(_act, frozenset({_WATCH, _CHOOSE, _ADJUST})),
        (_ADJUST, Cause.UP): Transition(entering.raise_value, frozenset({_ADJUST})),
        (_ADJUST, Cause.DOWN): Transition(entering.lower_value, frozenset({_ADJUST})),
        (_ADJUST, Cause.LEFT): Transition(entering.cursor_left, frozenset({_ADJUST})),
        (_ADJUST, Cause.RIGHT): Transition(entering.cursor_right, frozenset({_ADJUST})),
        (_ADJUST, Cause.REPEAT): Transition(entering.repeat_change, frozenset({_ADJUST})),
        (_ADJUST, Cause.CONFIRM): Transition(entering.confirm, frozenset({_WATCH, _CHOOSE, _ADJUST})),
        (_ADJUST, Cause.ABANDON): Transition(entering.restore, frozenset({_WATCH, _CHOOSE})),
        (_ADJUST, Cause.TIME_OUT): Transition(entering.leave, frozenset({_WATCH})),
        (_ADJUST, Cause.COVER): Transition(_cover, frozenset({_WATCH})),
    }
)
"""For each mode and cause what is done; a pair that is missing does nothing."""


def _fire(work: StepInProgress, cause: Cause, key: str = "") -> None:
    transition = TRANSITIONS.get((work.state.mode, cause))
    if transition is not None:
        transition.does(work, key)
        assert work.state.mode in transition.to, f"{cause} led to {work.state.mode}"


def _cause_of_key(work: StepInProgress, key: str) -> Cause | None:
    """What a key causes in the present mode; None: nothing."""
    state, layout, roles = work.state, work.layout, work.project.panel.entry
    if state.mode is Mode.WATCH:
        if (
            layout.behaviour.key_actions(state.shown, key)
            or layout.behaviour.key_screen_change(state.shown, key) is not None
        ):
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


def _key_down(work: StepInProgress, key: str) -> None:
    # A second press of a key that is down is a keyboard repeating by itself; the panel has its own repeat.
    if key not in work.layout.keys or key in work.state.down:
        return
    entering.stop_repeat(work)
    work.change(down=work.state.down | {key}, last_key=work.at, since=work.at, message=None, said=None)
    cause = _cause_of_key(work, key)
    if cause is not None:
        _fire(work, cause, key)


def _key_up(work: StepInProgress, key: str) -> None:
    if key not in work.state.down:
        return
    work.change(down=work.state.down - {key}, last_key=work.at, since=work.at)
    entering.stop_repeat(work, key)
    acting.let_go(work, [pair for pair in work.state.pressing if pair[0] == key])


def _release_all(work: StepInProgress) -> None:
    if work.state.down:
        work.change(down=frozenset(), last_key=work.at, since=work.at)
    entering.stop_repeat(work)
    acting.let_go(work, work.state.pressing)


def _settle_sent(work: StepInProgress, signal: str, value: Fraction | None) -> None:
    if signal in work.state.sent and value in (work.state.sent[signal], None):
        left = {name: value for name, value in work.state.sent.items() if name != signal}
        work.change(sent=MappingProxyType(left))


def _take_back(work: StepInProgress, signal: str, value: Fraction | None) -> None:
    """What was said of a write that failed is not true any more: the signal is written now."""
    said = work.state.said
    if said is None or said.signal != signal:
        return
    held_by_key = any(action.do == "momentary" and action.signal == signal for action in work.project.actions)
    if held_by_key and value != said.value:
        return  # letting go of a key that is held came through, which its press did not
    work.change(message=None, said=None)


def _pass_time(work: StepInProgress) -> None:
    state = work.state
    if state.message is not None and state.message.until <= work.at:
        work.change(message=None)
    if state.said is not None and state.said.until + REASON_S - MESSAGE_S <= work.at:
        work.change(said=None)
    entry = state.entry
    if entry is None:
        return
    if entry.editing is not None and entry.editing.repeat is not None and entry.editing.repeat.next_at <= work.at:
        _fire(work, Cause.REPEAT)
    limit = work.project.panel.entry.timeout_s
    if limit and not state.down and work.at - state.last_key >= limit:
        _fire(work, Cause.TIME_OUT)


def _idle_if_due(work: StepInProgress) -> None:
    state = work.state
    if state.mode is not Mode.WATCH or state.override is not None or state.down:
        return
    found = work.layout.behaviour.idle_screen_change(state.screen)
    if found is not None and work.at - state.since >= (found[1].idle_s or 0):
        _fire(work, Cause.IDLE)


def _judge(work: StepInProgress) -> None:
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
            _fire(work, Cause.COVER)
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
        acting.do(work, action, "")
    _speak(work)


def _speak(work: StepInProgress) -> None:
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


def _fit(work: StepInProgress) -> None:
    """Fit a state to a project that was edited since: what is no longer there is left."""
    state, layout = work.state, work.layout
    if state.screen not in layout.names or (state.override is not None and not _still_overrides(layout, state)):
        screen = state.screen if state.screen in layout.names else layout.start
        _show(work, screen, None, None, translate("panel", "project edited"))
    elif state.entry is not None and not set(state.entry.fields) <= set(layout.screen(state.shown).entry_fields):
        work.change(entry=None)


def _still_overrides(layout: PanelLayout, state: State) -> bool:
    return any(one.index == state.override and one.to == state.cover for one in layout.behaviour.overrides)


# What the handlers share ----------------------------------------------------------------------------------------------


def _show(work: StepInProgress, screen: str, override: int | None, cover: str | None, cause: str) -> None:
    """Show another screen, or the same one for another reason. Ends what belonged to the former one."""
    before = work.state.shown
    work.change(screen=screen, override=override, cover=cover, entry=None, since=work.at)
    acting.let_go(work, work.state.pressing)
    if work.state.shown != before:
        work.effects.append(ScreenChanged(work.state.shown, cause))
