"""A case noted while a person operates the panel: the deeds as they are done, and what the person marks.

What is noted is a log; the steps are worked out from it (`app.noting.log`). So an entry that was begun, adjusted and
confirmed is one step, and an entry that came to nothing is none; only one in whose middle something was marked stays
key by key. Time is no part of a case but where it has to be: before a deed it is waited for the screen that came by
itself, and for a value that moved and counts later on, because it is marked or because the panel acts on it. Keys that
were down at once are noted one after the other.
"""

from __future__ import annotations

import math
import re
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from statistics import median_high
from typing import Final

from app.noting.log import (
    KeyNoted,
    MarkNoted,
    Moved,
    Noted,
    OrderNoted,
    SayingNoted,
    ScreenNoted,
    StepPlaced,
    entered_signal,
    placed_steps,
)
from app.panel.driver import PanelDriver
from app.panel.entry import Editing
from app.panel.rendering import Attribute
from app.panel.state import Mode, State
from app.project.binding import plain_text
from app.project.model import AnySignal, Field, Project, RegisterSignal
from app.signals.reading import Quality, Reading
from app.signals.scaling import round_half_away
from app.trial.script import AskStep, Case, Expectation, NoteStep, OrderStep, TrialStep

ECHO_S: Final = 1.0
"""A value that changes within so many seconds of a deed, and then stays, is its echo and does not move by itself."""
LIVE_S: Final = 1.0
"""A value that changed by itself within so many seconds is still moving."""
INEXACT: Final = 20
"""One part in so many of a value that moves is left to chance: nobody comes back to it at the same moment."""
CREEP_S: Final = 60.0
CREEPING: Final = 5
"""A value creeps if it went digit by digit within so many seconds (heat, a level): one part in so many of it is left to
chance, since when it is looked at says more than what was done."""
MANY: Final = 500
"""Of more signals not all are watched."""
LOOK_S: Final = 0.05
"""How often the readings are looked through at most."""


@dataclass(slots=True)
class _Motion:
    """How a value moves, as it is shown."""

    value: object
    changed_at: float = -math.inf
    changes: int = 0
    """How many followed each other closely until now."""
    jumps: deque[tuple[float, Fraction]] = field(default_factory=lambda: deque(maxlen=64))
    """The last of them, and when."""
    travel: Fraction = Fraction(0)
    """How far it has gone since the last deed."""
    ever: bool = False
    """It has moved by itself at some time in the case."""


class CaseNotes:
    """One case as it comes about. It begins where a case does: the panel wakes up, simulated devices begin anew."""

    def __init__(self, project: Project, panel: PanelDriver) -> None:
        self._project = project
        self._panel = panel
        self._log: list[Noted] = []
        self._state = panel.state
        self._began = self._deed_at = self._looked_at = self._screen_at = panel.at
        self._rows: list[tuple[str, float]] = [(row.text, panel.at) for row in panel.rows()]
        """What each row says, and since when."""
        self._motions: dict[str, _Motion] = {}
        self._watched = _watched(project)
        self._down: dict[str, int] = {}
        """The keys that are down: where in the log they stand."""
        self._look_through()

    # What is done and what happens

    def key_down(self, key: str, tell: Callable[[], object]) -> None:
        """A key goes down; `tell` tells the panel so."""
        self.look()
        self._look_through()
        before, moved = self._state, self._moved()
        tell()
        after, confirmed = self._panel.state, None
        if before.mode is Mode.ADJUST and after.mode is not Mode.ADJUST and key == self._project.panel.entry.confirm:
            editing = _editing(before)
            confirmed = None if editing is None else editing.value
        self._down[key] = len(self._log)
        self._log.append(KeyNoted(self._panel.at, key, before, after, confirmed=confirmed, moved=moved))
        self._deed_done()

    def key_up(self, key: str, tell: Callable[[], object]) -> None:
        """A key comes up again; `tell` tells the panel so."""
        self.look()
        known = self._let_go(key)
        tell()
        if known:
            self._deed_done()

    def release_all(self, tell: Callable[[], object]) -> None:
        """No key is held any longer; `tell` tells the panel so."""
        self.look()
        held = [key for key in tuple(self._down) if self._let_go(key)]
        tell()
        if held:
            self._deed_done()

    def order(self, order: str) -> None:
        """A simulated device was operated: DEVICE.WHAT=VALUE."""
        # It has been done already: what comes of it now did not move before it.
        self._log.append(OrderNoted(self._panel.at, order, self._moved()))
        self._deed_done()

    def look(self) -> None:
        """Time has passed. To be called about as often as the panel is told so."""
        at, state = self._panel.at, self._panel.state
        if state.shown != self._state.shown:
            self._log.append(ScreenNoted(at, state.shown))
            self._screen_at = at
        if state.said is not None and state.said is not self._state.said:
            self._note_refusal(state.said.signal)
        self._state = state
        if not 0 <= at - self._looked_at < LOOK_S:
            self._look_through()

    # What the person marks

    @property
    def can_mark(self) -> bool:
        """Whether anything can be marked now: not while a key is down, since a step ends with its key let go."""
        return not self._down

    def mark_screen(self, *, wait: bool = False) -> None:
        """Expect this screen; or with `wait` wait until it is shown."""
        self.look()
        self._log.append(MarkNoted(Expectation(screen=self._state.shown), self._screen_at, wait))

    def mark_row(self, row: int, *, wait: bool = False) -> None:
        """Expect this row, counted from 0, as it is now; a number in it that moves may be another one."""
        self._look_now()
        state = self._state
        fields = [field for field in self._fields() if field.at[0] == row]
        text = written = self._rows[row][0]
        if Attribute.INVERSE not in self._panel.rows()[row].attributes:  # no message lies over it, nothing is entered
            for field in sorted(fields, key=lambda field: -field.at[1]):
                name = field.signal
                moving = self._is_live(name) or self._creeps(name)
                if moving and _is_quantity(self._project.signal_named[name]):
                    start = field.at[1]
                    written = f"{written[:start]}*{written[start + field.width :]}"
        if written == text:
            seen = Expectation(screen=state.shown, row=row + 1, text=text.strip())
        else:
            like = re.sub(r"^ *\* +|^ +| +\* *$| +$", lambda found: "*" if "*" in found[0] else "", written)
            seen = Expectation(screen=state.shown, row=row + 1, like=like)
        since = self._rows[row][1]
        reached = since if since > self._screen_at + LOOK_S and seen.text is not None else -math.inf
        names = frozenset(field.signal for field in fields)
        self._log.append(MarkNoted(seen, max(since, self._screen_at), wait, names, reached))

    def mark_signal(self, name: str, *, wait: bool = False) -> None:
        """Expect the value of this signal, or how it reads if it has none; its tolerance follows from its decimals."""
        if name not in self._motions:
            self._watched = (*self._watched, self._project.signal_named[name])
        self._look_now()
        seen = self._as_it_is(name, self._panel.readings()[name], loosely=True)
        since = self._motions[name].changed_at
        self._log.append(MarkNoted(seen, since, wait, frozenset({name}), since))

    def ask(self, question: str) -> None:
        """Have a person asked what a program cannot see."""
        self._log.append(SayingNoted(AskStep(ask=question)))

    def note(self, sentence: str) -> None:
        """A sentence for whoever runs the case."""
        self._log.append(SayingNoted(NoteStep(note=sentence)))

    # What comes of it

    @property
    def steps(self) -> tuple[TrialStep, ...]:
        """The steps so far; those of an entry that is not yet confirmed are its keys."""
        return tuple(step for step, _ in self._placed(open_too=True))

    def undo(self) -> None:
        """Forget the last step. What it did to the panel stays done."""
        placed = self._placed(open_too=True)
        if placed:
            at = placed[-1][1]
            self._log[at:] = [noted for noted in self._log[at:] if isinstance(noted, ScreenNoted)]
            self._down.clear()

    def case(self, name: str) -> Case:
        """The case; an entry that is not confirmed is left out. Raises pydantic.ValidationError for a bad name."""
        steps = tuple(step for step, _ in self._placed(open_too=False))
        simulated = any(isinstance(step, OrderStep) for step in steps)
        return Case.model_validate({"name": name, "on": "simulated" if simulated else "both", "step": steps})

    def _placed(self, *, open_too: bool) -> list[StepPlaced]:
        open_entry = self._panel.state.mode is not Mode.WATCH
        return placed_steps(self._project, self._log, self._began, open_entry=open_entry, open_too=open_too)

    # Following what moves

    def _deed_done(self) -> None:
        """What moves is counted from now on."""
        at, state = self._panel.at, self._panel.state
        if state.shown != self._state.shown:
            self._screen_at = at
        self._state = state
        self._deed_at = at
        for motion in self._motions.values():
            motion.travel = Fraction(0)
        self._look_through()

    def _let_go(self, key: str) -> bool:
        place = self._down.pop(key, None)
        if place is None:
            return False
        noted = self._log[place]
        assert isinstance(noted, KeyNoted)
        self._log[place] = replace(noted, until=self._panel.at, repeats=self._repeats(key))
        return True

    def _repeats(self, key: str) -> int:
        editing = _editing(self._state)
        repeat = None if editing is None else editing.repeat
        return repeat.count if repeat is not None and repeat.key == key else 0

    def _look_now(self) -> None:
        self.look()
        self._look_through()

    def _look_through(self) -> None:
        at = self._looked_at = self._panel.at
        for index, row in enumerate(self._panel.rows()):
            if row.text != self._rows[index][0]:
                self._rows[index] = row.text, at
        readings = self._panel.readings()
        for signal in self._watched:
            reading = readings[signal.name]
            value: object = reading.value if reading.good else reading.quality
            if isinstance(value, Fraction):
                value = round_half_away(value, signal.decimals)
            motion = self._motions.get(signal.name)
            if motion is None:
                self._motions[signal.name] = _Motion(value)
            elif value != motion.value:
                self._note_change(signal.name, motion, value, at)

    def _note_change(self, name: str, motion: _Motion, value: object, at: float) -> None:
        if isinstance(motion.value, Quality):
            motion.value = value  # it is read only now, which is no motion
            return
        if isinstance(value, Fraction) and isinstance(motion.value, Fraction):
            jump = abs(value - motion.value)
            motion.jumps.append((at, jump))
            motion.travel += jump
        follows = at - motion.changed_at <= self._live_s(name)
        motion.changes = motion.changes + 1 if follows else 1
        motion.value, motion.changed_at = value, at
        motion.ever = motion.ever or self._moves(name, motion)

    def _moves(self, name: str, motion: _Motion) -> bool:
        """Whether its last changes were more than an echo of the last deed: an amount that is only read has none."""
        signal = self._project.signal_named[name]
        measured = isinstance(signal, RegisterSignal) and not signal.write and _is_quantity(signal)
        return measured or motion.changes > 2 or motion.changed_at - self._deed_at > ECHO_S

    def _is_live(self, name: str) -> bool:
        motion = self._motions[name]
        return motion.ever and self._panel.at - motion.changed_at <= self._live_s(name)

    def _creeps(self, name: str) -> bool:
        """Whether it moves by itself, but only digit by digit, and not in quick succession."""
        signal, motion = self._project.signal_named[name], self._motions[name]
        last = [one for one in motion.jumps if one[0] >= self._panel.at - CREEP_S][-3:]
        slowly = all(later[0] - one[0] > 4 * LOOK_S for one, later in pairwise(last))
        return motion.ever and bool(last) and slowly and max(jump for _, jump in last) * 10**signal.decimals <= 1

    def _live_s(self, name: str) -> float:
        signal = self._project.signal_named[name]
        return max(LIVE_S, 2.5 * signal.every_ms / 1000) if isinstance(signal, RegisterSignal) else LIVE_S

    def _moved(self) -> tuple[Moved, ...]:
        """What had moved since the last deed at the last look, as it is now."""
        moved = [
            (name, one)
            for name, one in self._motions.items()
            if (one.changed_at > self._deed_at and self._moves(name, one)) or self._is_live(name)
        ]
        if not moved:
            return ()
        readings = self._panel.readings()
        return tuple(
            Moved(
                name,
                self._as_it_is(name, readings[name], loosely=False),
                one.changed_at,
                self._in_digits(name, one.travel),
                self._is_live(name),
            )
            for name, one in moved
        )

    def _in_digits(self, name: str, travel: Fraction) -> Fraction:
        signal = self._project.signal_named[name]
        return travel * 10**signal.decimals if _is_quantity(signal) else Fraction(0)

    def _note_refusal(self, signal: str) -> None:
        """The panel says something of a signal: the value that was confirmed last was not taken, if it is of that."""
        place = next((at for at in reversed(range(len(self._log))) if isinstance(self._log[at], KeyNoted)), None)
        noted = None if place is None else self._log[place]
        if place is None or not isinstance(noted, KeyNoted) or noted.confirmed is None:
            return
        if entered_signal(self._project, noted.before) == signal:
            self._log[place] = replace(noted, refused=True)

    # What is expected

    def _as_it_is(self, name: str, reading: Reading, *, loosely: bool) -> Expectation:
        """What a signal reads, `loosely` if it moves: as it is to be found, not as it is to be waited for."""
        signal, value = self._project.signal_named[name], reading.value
        if value is None or reading.quality not in (Quality.GOOD, Quality.STALE):
            return Expectation.model_validate({"signal": name, "quality": str(reading.quality)})
        if isinstance(value, str) or signal.texts:
            return Expectation(signal=name, text=plain_text(self._project, name, value))
        motion = self._motions[name]
        tolerance: Decimal | None = None
        if motion.ever and _is_quantity(signal):
            room = Fraction(1, 10**signal.decimals)
            since = self._panel.at - self._live_s(name)
            if jumps := [jump for at, jump in motion.jumps if at >= since]:
                room += 2 * median_high(jumps) + abs(value) / INEXACT if loosely else median_high(jumps)
            if self._creeps(name):
                room += abs(value) / CREEPING
            tolerance = _decimal(room, signal.decimals)
        return Expectation(signal=name, value=_decimal(value, signal.decimals), tolerance=tolerance)

    def _fields(self) -> Sequence[Field]:
        screen = self._project.screen_named.get(self._state.shown)
        return [] if screen is None else [one for one in screen.fields if one.signal in self._project.signal_named]


def _watched(project: Project) -> tuple[AnySignal, ...]:
    """The signals that are looked at again and again: all, or of very many those that the panel shows or acts on."""
    if len(project.signals) <= MANY:
        return project.signals
    conditions = [one.when for one in project.screen_changes] + [one.when for one in project.actions]
    names = {field.signal for screen in project.screens for field in screen.fields}
    names |= {condition.signal for condition in conditions if condition is not None}
    return tuple(signal for signal in project.signals if signal.name in names)


def _is_quantity(signal: AnySignal) -> bool:
    """Whether its value is an amount, not a word of bits or the number of a text."""
    scaled = isinstance(signal, RegisterSignal) and signal.scale is not None
    return not signal.texts and bool(signal.unit or signal.decimals or scaled)


def _editing(state: State) -> Editing | None:
    return None if state.entry is None else state.entry.editing


def _decimal(value: Fraction, decimals: int) -> Decimal:
    """The number as it is shown."""
    return Decimal(int(round_half_away(value, decimals) * 10**decimals)).scaleb(-decimals)
