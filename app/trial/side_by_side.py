"""The same keys pressed on the simulation and on a device, at the same time, and what differs.

The simulation begins where the device stands: its registers are given what was read there. After each key both are
looked at until they agree, on readings newer than the key, or the time for it is over. Numbers that a device only
measures are left out. The first key after which they differ ends it, since all later ones would follow from that.
"""

from __future__ import annotations

import threading
import time
from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from app.errors import FanlightError
from app.follower.errors import FollowerError
from app.language import translate
from app.panel.events import Write
from app.panel.state import Mode, State
from app.project.binding import plain_text
from app.project.model import AnySignal, HeldSignal, Project, RegisterSignal
from app.signals.reading import Reading
from app.trial.outcome import PersonAsked
from app.trial.random_keys import HOLD_S, KeyLimits, draw, press, shortened
from app.trial.runner import ANSWER_S, Person, TrialStopped, restore, values_to_restore
from app.trial.stand import PanelStep, RehearsedStand, Stand

SETTLE_S: Final = 5.0
"""How long both may take to agree after a key, in seconds."""
MOST_TRIES: Final = 200
"""Shorter sequences that are tried on the simulation at most."""
MOST_TRIES_AT_DEVICE: Final = 20

Aspect = Literal["screen", "row", "signal", "message", "written"]


@dataclass(frozen=True, slots=True)
class KeyDifference:
    """One thing in which simulation and device differ, each as text: `subject` is the row, from 1, or the signal."""

    aspect: Aspect
    subject: str
    simulated: str
    device: str

    @property
    def words(self) -> str:
        """In one line."""
        what = {
            "screen": translate("trial", "screen"),
            "row": translate("trial", "row {subject}"),
            "signal": translate("trial", "'{subject}'"),
            "message": translate("trial", "message"),
            "written": translate("trial", "written to '{subject}'"),
        }[self.aspect].format(subject=self.subject)
        words = translate("trial", "{what}: simulated {simulated}, device {device}")
        return words.format(what=what, simulated=self.simulated or "-", device=self.device or "-")


@dataclass(frozen=True, slots=True)
class SideBySideOutcome:
    """What came of it: the keys that were drawn, how many were pressed, and what differed after the last of those.

    `from_beginning` is what differed before any key, and was left out. `shortest` is the shortest sequence found that
    shows it: tried at the device, or on the simulation alone. Sentences of `not_restored` say what to look at.
    """

    drawn: tuple[str, ...]
    pressed: int
    differences: tuple[KeyDifference, ...] = ()
    from_beginning: tuple[KeyDifference, ...] = ()
    shortest: tuple[str, ...] = ()
    tried_at_device: bool = False
    restored: tuple[str, ...] = ()
    not_restored: tuple[str, ...] = ()
    stopped: bool = False


class NotAgreedError(FanlightError):
    """Nobody agreed that keys are pressed at the device; the text says why."""


_Face = dict[tuple[Aspect, str], str]
"""What is compared, each as text, by its aspect and its subject."""


class SideBySide:
    """One comparison. It waits in the thread of whoever calls `run`; another thread may `stop` it."""

    def __init__(
        self,
        project: Project,
        device: Stand,
        limits: KeyLimits,
        person: Person,
        *,
        settle_s: float = SETTLE_S,
    ) -> None:
        """`device` is armed only while keys are pressed, and only after `person` has agreed, where it is a real one."""
        self._project = project
        self._device = device
        self._limits = limits
        self._person = person
        self._settle_s = settle_s
        self._model = RehearsedStand(project)
        self._stop = threading.Event()
        self._ending = False
        self._ahead = 0.0
        """The clock of the device less that of the simulation."""
        self._written: dict[Stand, Counter[tuple[str, str]]] = {device: Counter(), self._model: Counter()}
        self._changed: dict[str, None] = {}
        """What the panel has written to the device and was not put back yet."""
        self._restored: list[str] = []
        self._not_restored: list[str] = []
        for stand in (device, self._model):
            stand.observers.append(lambda told, stand=stand: self._note_writes(stand, told))  # type: ignore[misc]
        device.ticked.append(self._look_for_stop)

    def stop(self) -> None:
        """End it as soon as may be, from any thread: the stop key is pressed, keys are let go, values are put back."""
        self._stop.set()

    def run(self, seed: int) -> SideBySideOutcome:
        """Draw keys and press them. Raises NotAgreedError, or another FanlightError if nothing can be run."""
        drawn: tuple[str, ...] = ()
        pressed = 0
        differences: tuple[KeyDifference, ...] = ()
        shortest: tuple[str, ...] = ()
        at_device = stopped = False
        self._begun: Mapping[str, Reading] = {}
        self._before: Mapping[str, Fraction] = {}
        begun: tuple[KeyDifference, ...] = ()
        try:
            self._device.begin()
            self._begun = dict(self._device.readings())
            self._before = values_to_restore(self._device)
            drawn = draw(self._fresh_model(), self._limits, seed)
            self._agree("may move", self._words_before(drawn))
            begun, pressed, differences = self._try(drawn)
            if differences:
                shortest = self._shortened_on_model(drawn[:pressed], differences)
                if len(shortest) > 1 or len(shortest) < pressed:
                    shortest, at_device = self._shortened_at_device(drawn[:pressed], shortest, differences)
        except TrialStopped:
            stopped = True
        finally:
            self._ending = True
            unproved = self._device.end()
        if unproved:
            words = translate("trial", "the stop of {signals} is not proved: look at the machine")
            self._not_restored.append(words.format(signals=", ".join(unproved)))
        return SideBySideOutcome(
            drawn,
            pressed,
            differences,
            begun,
            shortest,
            at_device,
            tuple(dict.fromkeys(self._restored)),
            tuple(dict.fromkeys(self._not_restored)),
            stopped,
        )

    # Both at once

    def _try(self, keys: Sequence[str]) -> tuple[tuple[KeyDifference, ...], int, tuple[KeyDifference, ...]]:
        """Press keys on both: what differed before any, how many were pressed, and what differed after the last."""
        device, model = self._device, self._model
        device.begin()
        self._begin_model(model, self._begun)
        self._ahead = device.now() - model.now()
        self._forget_writes()
        differing, pressed = self._settled(device.now(), {}), 0
        left_out = frozenset(differing)
        begun = _told(differing)
        try:
            device.arm(True)
            for key in keys:
                pressed += 1
                differing = self._press(key, left_out)
                if differing:
                    return begun, pressed, _told(differing)
            return begun, pressed, ()
        finally:
            self._put_back(self._before)

    def _press(self, key: str, left_out: frozenset[tuple[Aspect, str]]) -> Mapping[tuple[Aspect, str], tuple[str, str]]:
        self._forget_writes()
        for stand in (self._device, self._model):
            stand.key_down(key)
        try:
            self._pass(HOLD_S)
        finally:
            for stand in (self._device, self._model):
                stand.key_up(key)
        return self._settled(self._device.now(), left_out)

    def _settled(
        self, since: float, left_out: Mapping[tuple[Aspect, str], object] | frozenset[tuple[Aspect, str]]
    ) -> Mapping[tuple[Aspect, str], tuple[str, str]]:
        """Let time pass until both agree on new readings; gives what differs when the time for it is over."""
        end = self._device.now() + self._settle_s
        while True:
            self._tick()
            ours, theirs = self._face(self._model), self._face(self._device)
            differing = {
                one: (ours.get(one, ""), theirs.get(one, ""))
                for one in dict.fromkeys((*ours, *theirs))
                if ours.get(one, "") != theirs.get(one, "") and one not in left_out
            }
            over = self._device.now() >= end
            if over or (not differing and not self._device.panel.state.sent and self._is_new(since)):
                return differing

    def _put_back(self, before: Mapping[str, Fraction]) -> None:
        """Press the stop key, let go of all, and put back what was written; whoever stops it does not stop this."""
        device, was = self._device, self._ending
        self._ending = True
        try:
            if self._limits.stop is not None:
                for stand in (device, self._model):
                    stand.key_down(self._limits.stop)
                self._pass(HOLD_S)
            for stand in (device, self._model):
                stand.release_all()
            end = device.now() + self._settle_s
            since = device.now()
            while (device.panel.state.sent or not self._is_new(since)) and device.now() < end:
                since = device.now() if device.panel.state.sent else since
                self._tick()
            if not device.simulated:
                restore(device, before, tuple(self._changed), self._restored, self._not_restored)
                self._changed.clear()
        finally:
            device.arm(False)
            self._ending = was

    def _tick(self) -> None:
        self._device.tick()
        while self._device.now() - self._model.now() > self._ahead:
            self._model.tick()

    def _pass(self, seconds: float) -> None:
        end = self._device.now() + seconds
        while self._device.now() < end:
            self._tick()

    def _look_for_stop(self) -> None:
        if self._stop.is_set() and not self._ending:
            raise TrialStopped

    # What is compared

    def _face(self, stand: Stand) -> _Face:
        """All that is compared: what the panel shows but for measured numbers, and what may be written."""
        project, state, readings = self._project, stand.panel.state, stand.readings()
        found: _Face = {("screen", ""): state.shown}
        message = "" if state.message is None else state.message.text
        found["message", ""] = message
        rows = [list(row) for row in stand.rows()]
        screen = project.screen_named.get(state.shown)
        for field in () if screen is None else screen.fields:
            signal = project.signal_named.get(field.signal)
            if signal is not None and _is_measured(signal) and not message:
                rows[field.at[0]][field.at[1] : field.at[1] + field.width] = "*" * field.width
        found |= {("row", str(number)): "".join(row).rstrip() for number, row in enumerate(rows, 1)}
        for signal in project.signals:
            if isinstance(signal, HeldSignal) or signal.write:
                reading = readings[signal.name]
                shown = plain_text(project, signal.name, reading.value) if reading.good else str(reading.quality)
                found["signal", signal.name] = shown
        found |= {("written", name): value for (name, value) in self._written[stand]}
        return found

    def _is_new(self, since: float) -> bool:
        """Whether what the device may be written was read after `since`, as far as it can be read."""
        readings = self._device.readings()
        times = [
            readings[signal.name].time
            for signal in self._project.signals
            if isinstance(signal, RegisterSignal) and signal.write and readings[signal.name].good
        ]
        return all(at is not None and at >= since for at in times)

    def _note_writes(self, stand: Stand, told: PanelStep) -> None:
        for effect in told.effects:
            if isinstance(effect, Write):
                self._written[stand][effect.signal, plain_text(self._project, effect.signal, effect.value)] += 1
                if stand is self._device:
                    self._changed[effect.signal] = None

    def _forget_writes(self) -> None:
        for written in self._written.values():
            written.clear()

    # The simulation alone

    def _fresh_model(self) -> RehearsedStand:
        stand = RehearsedStand(self._project)
        self._begin_model(stand, self._begun)
        return stand

    def _begin_model(self, stand: RehearsedStand, readings: Mapping[str, Reading]) -> None:
        """Begin where the device stands, as far as its registers can be set."""
        stand.begin()
        for signal in self._project.signals:
            reading = readings.get(signal.name)
            model = stand.models.get(signal.follower) if isinstance(signal, RegisterSignal) else None
            if model is not None and reading is not None and reading.good and reading.value is not None:
                with suppress(FollowerError):  # what a model works out by itself is not set
                    model.set(signal.name, reading.value)
        stand.tick()

    def _shortened_on_model(self, keys: Sequence[str], differences: Sequence[KeyDifference]) -> tuple[str, ...]:
        """The keys without which the simulation comes to the same by the last one.

        Where a signal differs, that is what counts, wherever the panel shows it; else the place counts, too.
        """
        signals = [one for one in differences if one.aspect in ("signal", "written")]
        wanted = self._end_of(keys, signals or differences, place=not signals)
        return shortened(
            keys, lambda left: self._end_of(left, signals or differences, place=not signals) == wanted, MOST_TRIES
        )

    def _end_of(self, keys: Sequence[str], differences: Sequence[KeyDifference], *, place: bool) -> tuple[object, ...]:
        """What the simulation has come to in what differs, whether by the last key, and where that was pressed."""
        stand = self._fresh_model()
        self._written[stand] = Counter()
        stand.observers.append(lambda told: self._note_writes(stand, told))
        for key in keys[:-1]:
            press(stand, key)
        where = _place(stand.panel.state) if place else None
        self._written[stand].clear()
        before = self._face(stand)
        press(stand, keys[-1])
        after = self._face(stand)
        del self._written[stand]
        found = [(one.aspect, one.subject) for one in differences]
        return where, *((after.get(one, ""), before.get(one, "") == after.get(one, "")) for one in found)

    # A person

    def _shortened_at_device(
        self, keys: Sequence[str], shortest: tuple[str, ...], differences: Sequence[KeyDifference]
    ) -> tuple[tuple[str, ...], bool]:
        """Try shorter sequences at the device, too, if a person agrees; gives whether that was done."""
        words = translate(
            "trial",
            "Press shorter sequences at the device too, at most {tries} of at most {keys} keys each, to find the "
            "shortest that shows the difference? The same limits hold.",
        )
        try:
            self._agree("ask", words.format(tries=MOST_TRIES_AT_DEVICE, keys=len(keys)))
        except NotAgreedError:
            return shortest, False
        wanted = {(one.aspect, one.subject) for one in differences}

        def shows(left: Sequence[str]) -> bool:
            _, pressed, found = self._try(left)
            return pressed == len(left) and not wanted.isdisjoint((one.aspect, one.subject) for one in found)

        begin = shortest if shows(shortest) else tuple(keys)
        return shortened(begin, shows, MOST_TRIES_AT_DEVICE - 1), True

    def _agree(self, kind: Literal["may move", "ask"], words: str) -> None:
        """Ask a person whether keys may be pressed. Raises NotAgreedError."""
        if self._device.simulated:
            return
        self._person.ask(PersonAsked(kind, translate("trial", "keys at random"), words))
        began = time.monotonic()
        while (answer := self._person.answer()) is None:
            if time.monotonic() - began > ANSWER_S:
                raise NotAgreedError(translate("trial", "nobody answered"))
            self._device.tick()
        if not answer.yes:
            raise NotAgreedError(answer.remark or translate("trial", "the answer was no"))

    def _words_before(self, drawn: Sequence[str]) -> str:
        limits = self._limits
        words = translate(
            "trial",
            "{count} keys are pressed at the device, drawn at random of: {keys}. Screens: {screens}. At the end: "
            "{stop}. Values that are entered are written, within their limits, and put back afterwards. This can move "
            "the machine. Is everybody clear of it?",
        )
        return words.format(
            count=len(drawn),
            keys=", ".join(limits.keys),
            screens=", ".join(limits.screens) or translate("trial", "all"),
            stop=limits.stop or translate("trial", "no stop key"),
        )


def _told(differing: Mapping[tuple[Aspect, str], tuple[str, str]]) -> tuple[KeyDifference, ...]:
    return tuple(KeyDifference(aspect, subject, *texts) for (aspect, subject), texts in differing.items())


def _place(state: State) -> tuple[object, ...]:
    entry = state.entry
    return state.shown, state.mode, None if state.mode is Mode.WATCH or entry is None else entry.field


def _is_measured(signal: AnySignal) -> bool:
    """Whether it is a number that the device measures: no two look at the same moment."""
    if isinstance(signal, HeldSignal) or signal.write or signal.texts:
        return False
    scaled = isinstance(signal, RegisterSignal) and signal.scale is not None
    return bool(signal.unit or signal.decimals or scaled)
