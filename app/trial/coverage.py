"""How much of a project a run has tried: screens, screen changes, overrides, entries, actions, texts."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.checks.run import check
from app.language import translate
from app.line.write_queue import WriteReport
from app.panel.conditions import in_words
from app.panel.events import Entered, Write
from app.panel.layout import PanelLayout
from app.panel.messages import bounds
from app.panel.paging import PagingArrow, PagingGraph
from app.panel.state import State
from app.project.binding import plain_text, unwritable
from app.project.model import OTHERWISE, BitSignal, Field, HeldSignal, Project, RegisterSignal, by_number
from app.trial.stand import PanelStep, Stand

PARTS: Final = ("screens", "screen changes", "overrides", "entries", "actions", "texts")
"""What is counted, in the order in which it is told."""


@dataclass(frozen=True, slots=True)
class ToCover:
    """One thing that can be tried: `part` is one of PARTS, `words` name it for a person."""

    part: str
    key: tuple[object, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Covered:
    """What a run has reached out of all there is. `findings` counts the open findings of the design checks."""

    all: tuple[ToCover, ...]
    reached: frozenset[ToCover]
    arrows: frozenset[PagingArrow]
    """The screen changes that came about, as they are drawn on the page map."""
    screens: frozenset[str]
    findings: int

    @property
    def missing(self) -> tuple[ToCover, ...]:
        """What was never reached."""
        return tuple(one for one in self.all if one not in self.reached)

    def count(self, part: str) -> tuple[int, int]:
        """How many of a part were reached, and how many there are."""
        of = [one for one in self.all if one.part == part]
        return sum(one in self.reached for one in of), len(of)

    @property
    def share(self) -> float:
        """How much of everything was reached, 0 to 1; 1 where there is nothing."""
        return len(self.reached) / len(self.all) if self.all else 1.0

    def as_data(self) -> dict[str, object]:
        """The same as plain data: of each part how many, in words what is missing; for the page map what came about.

        A screen change on the map is where it led from (None: from any screen), where to, and its index.
        """
        changes = [[arrow.source, arrow.target, arrow.screen_change] for arrow in self.arrows]
        on_map = {"screens": sorted(self.screens), "changes": sorted(changes, key=str)}
        found: dict[str, object] = {"findings": self.findings, "map": on_map}
        for part in PARTS:
            reached, of = self.count(part)
            missing = [one.words for one in self.missing if one.part == part]
            found[part] = {"reached": reached, "of": of, "missing": missing}
        return found


class Coverage:
    """Watches a stand while a trial runs on it, whoever wrote the trial."""

    def __init__(self, stand: Stand) -> None:
        project = self._project = stand.project
        self._stand = stand
        self._behaviour = PanelLayout.of(project).behaviour
        edges = PagingGraph(project).edges
        self._by_key = {(arrow.source, arrow.label): arrow for arrow in edges if arrow.kind == "key"}
        self._by_index = {arrow.screen_change: arrow for arrow in edges if arrow.kind != "key"}
        self._all = {(one.part, one.key): one for one in _everything(project, edges)}
        self._reached: set[ToCover] = set()
        self._arrows: set[PagingArrow] = set()
        self._screens: set[str] = set()
        self._action_numbers = {id(action): number for number, action in enumerate(project.actions)}
        self._pressed: set[int] = set()
        self._texts_left = {
            screen.name: [field for field in screen.fields if _has_texts(project, field)] for screen in project.screens
        }
        self._on_the_way: dict[str, list[tuple[object, ...]]] = {}
        """What counts once the write of a signal was sent: a write that never left the panel has tried nothing."""
        stand.observers.append(self._told)
        stand.reported.append(self._sent)
        stand.ticked.append(self._look)

    @property
    def covered(self) -> Covered:
        """What was reached so far."""
        return Covered(
            tuple(self._all.values()),
            frozenset(self._reached),
            frozenset(self._arrows),
            frozenset(self._screens),
            len(check(self._project)),
        )

    def _reach(self, part: str, *key: object) -> None:
        found = self._all.get((part, key))
        if found is not None:
            self._reached.add(found)

    def _reach_by(self, written: Container[str], signal: str | None, part: str, *key: object) -> None:
        """Reach it at once, or as soon as the write is sent that does it."""
        if signal is not None and signal in written:
            self._on_the_way.setdefault(signal, []).append((part, *key))
        else:
            self._reach(part, *key)

    def _sent(self, reports: Sequence[WriteReport]) -> None:
        for report in reports:
            for part, *key in self._on_the_way.pop(report.signal, ()):
                if report.obstacle is None:
                    self._reach(str(part), *key)

    def _told(self, step: PanelStep) -> None:
        before, after = step.before, step.after
        if step.key is not None:
            self._see(before)
            self._read_texts(before)  # what was shown until now may have come since the last tick
        self._see(after)
        if after is before and not step.effects:
            return
        if before.shown != after.shown or before.override != after.override:
            self._changed(step)
        for index in before.holding - after.holding:
            self._reach("overrides", index, "ended")
        self._entry(step)
        self._actions(step)

    def _see(self, state: State) -> None:
        if state.shown not in self._screens:
            self._screens.add(state.shown)
            self._reach("screens", state.shown)

    def _changed(self, step: PanelStep) -> None:
        before, after = step.before, step.after
        if after.override is not None and after.override != before.override:
            self._reach("overrides", after.override, "raised")
            self._arrows.add(self._by_index[after.override])
        elif step.key is not None:
            arrow = self._by_key.get((before.shown, step.key))
            if arrow is not None and arrow.target == after.shown:
                self._reach("screen changes", arrow)
                self._arrows.add(arrow)
        elif before.override is None and before.screen != after.screen:
            found = self._behaviour.idle_screen_change(before.screen)
            if found is not None and found[1].to == after.screen:
                arrow = self._by_index[found[0]]
                self._reach("screen changes", arrow)
                self._arrows.add(arrow)

    # Entries

    def _entry(self, step: PanelStep) -> None:
        before = step.before
        if before.entry is None or before.entry.editing is None:
            return
        field = self._project.screen_named[before.shown].fields[before.entry.field]
        place = (before.shown, field.signal)
        editing, ends = before.entry.editing, bounds(self._project, field.signal)
        entered = next((effect for effect in step.effects if isinstance(effect, Entered)), None)
        if entered is not None:
            what: object = "between"
            if editing.choices:
                what = entered.new
            elif ends is not None and entered.new in ends:
                what = "low" if entered.new == ends[0] else "high"
            self._reach_by(_written(step), field.signal, "entries", *place, what)
            return
        after = step.after.entry
        if after is None or after.editing is None:
            if step.key == self._project.panel.entry.abandon:
                self._reach("entries", *place, "abandoned")
            return
        if after.field != before.entry.field or editing.value != after.editing.value or ends is None:
            return
        repeat = editing.repeat if step.key is None and after.editing.repeat != editing.repeat else None
        up = step.key == self._project.panel.entry.up or (repeat is not None and repeat.way > 0)
        down = step.key == self._project.panel.entry.down or (repeat is not None and repeat.way < 0)
        if up and editing.value == ends[1]:
            self._reach("entries", *place, "above")
        elif down and editing.value == ends[0]:
            self._reach("entries", *place, "below")

    # Actions

    def _actions(self, step: PanelStep) -> None:
        before, after = step.before, step.after
        written = _written(step)
        for index, truth in after.judged.items():
            if truth and before.judged.get(index) is False:
                self._reach_by(written, self._project.actions[index].signal, "actions", index)
        for pair in before.pressing:
            if pair not in after.pressing:
                for number in self._pressed:
                    action = self._project.actions[number]
                    if (action.key, action.signal) == pair:
                        self._reach_by(written, action.signal, "actions", number)
        if step.key is None or step.key not in after.down or step.key in before.down:
            return
        for action in self._behaviour.key_actions(before.shown, step.key):
            number = self._action_numbers[id(action)]
            if action.do == "momentary":
                if (step.key, action.signal) in after.pressing:
                    self._pressed.add(number)
                continue
            done = action.signal in written or isinstance(
                self._project.signal_named.get(action.signal or ""), HeldSignal
            )
            if action.do == "begin-entry":
                done = before.entry is None and after.entry is not None
            elif action.do == "next-language":
                done = after.language != before.language or self._project.panel.language in written
            if done:
                self._reach_by(written, action.signal, "actions", number)

    # Texts

    def _look(self) -> None:
        self._read_texts(self._stand.panel.state)

    def _read_texts(self, state: State) -> None:
        left = self._texts_left.get(state.shown)
        if not left or state.message is not None or state.entry is not None:
            return
        readings = self._stand.readings()
        for field in left:
            reading = readings[field.signal]
            if not reading.good or not isinstance(reading.value, Fraction):
                continue
            texts = self._project.signal_named[field.signal].texts
            key = next((text for text in texts if text != OTHERWISE and int(text) == reading.value), OTHERWISE)
            self._reach("texts", state.shown, field.signal, key, state.language)


def _written(step: PanelStep) -> set[str]:
    return {effect.signal for effect in step.effects if isinstance(effect, Write)}


# Everything there is --------------------------------------------------------------------------------------------------


def _everything(project: Project, edges: Iterable[PagingArrow]) -> Iterator[ToCover]:
    for screen in project.screens:
        yield ToCover("screens", (screen.name,), screen.name)
    for arrow in edges:
        if arrow.kind == "override":
            continue
        source = arrow.source or translate("trial", "any screen")
        words = translate("trial", "'{source}' to '{target}' by {cause}")
        yield ToCover("screen changes", (arrow,), words.format(source=source, target=arrow.target, cause=arrow.label))
    for index, screen_change in enumerate(project.screen_changes):
        if screen_change.when is None or screen_change.to not in project.screen_named:
            continue
        said = {"screen": screen_change.to, "condition": in_words(screen_change.when)}
        yield ToCover("overrides", (index, "raised"), translate("trial", "'{screen}': {condition}").format(**said))
        ended = translate("trial", "'{screen}' ends: {condition} no more")
        yield ToCover("overrides", (index, "ended"), ended.format(**said))
    yield from _entries(project)
    keys = project.panel.keys
    for number, action in enumerate(project.actions):
        if action.when is None and action.key not in keys:
            continue
        words = translate("trial", "action {number}: {cause}, {deed} {signal}")
        cause = action.key if action.when is None else in_words(action.when)
        said = {"number": str(number + 1), "cause": str(cause), "deed": action.do, "signal": action.signal or ""}
        yield ToCover("actions", (number,), words.format(**said).rstrip())
    yield from _texts(project)


_ENDS: Final = ("low", "high", "below", "above", "between")


def _entries(project: Project) -> Iterator[ToCover]:
    words_for: Mapping[str, str] = {
        "low": translate("trial", "entry of '{signal}' on '{screen}': lower limit"),
        "high": translate("trial", "entry of '{signal}' on '{screen}': upper limit"),
        "below": translate("trial", "entry of '{signal}' on '{screen}': below the lower limit"),
        "above": translate("trial", "entry of '{signal}' on '{screen}': above the upper limit"),
        "between": translate("trial", "entry of '{signal}' on '{screen}': a value between"),
        "abandoned": translate("trial", "entry of '{signal}' on '{screen}': abandoned"),
        "choice": translate("trial", "entry of '{signal}' on '{screen}': {choice}"),
    }
    for screen in project.screens:
        for field in screen.fields:
            name = field.signal
            if not field.entry or name not in project.signal_named or unwritable(project, name) is not None:
                continue
            said = {"signal": name, "screen": screen.name}
            choices = _choices(project, field)
            for choice in choices:
                text = plain_text(project, name, choice)
                yield ToCover("entries", (screen.name, name, choice), words_for["choice"].format(**said, choice=text))
            ends = bounds(project, name)
            if not choices and ends is not None:
                for what in _ENDS if ends[0] < ends[1] else _ENDS[:4]:
                    yield ToCover("entries", (screen.name, name, what), words_for[what].format(**said))
            elif not choices:
                yield ToCover("entries", (screen.name, name, "between"), words_for["between"].format(**said))
            yield ToCover("entries", (screen.name, name, "abandoned"), words_for["abandoned"].format(**said))


def _choices(project: Project, field: Field) -> tuple[Fraction, ...]:
    signal = project.signal_named[field.signal]
    if field.kind == "choice" and signal.texts:
        found = [Fraction(value) for value in sorted(by_number(signal.texts))]
    elif isinstance(signal, BitSignal) or (isinstance(signal, RegisterSignal) and signal.table == "coil"):
        found = [Fraction(0), Fraction(1)]
    else:
        return ()
    ends = bounds(project, field.signal)
    return tuple(value for value in found if ends is None or ends[0] <= value <= ends[1])


def _has_texts(project: Project, field: Field) -> bool:
    signal = project.signal_named.get(field.signal)
    return field.kind == "choice" and signal is not None and bool(signal.texts)


def _texts(project: Project) -> Iterator[ToCover]:
    languages = project.panel.languages or ("",)
    told: set[tuple[str, str]] = set()
    for screen in project.screens:
        for field in screen.fields:
            if not _has_texts(project, field) or (screen.name, field.signal) in told:
                continue
            told.add((screen.name, field.signal))
            for key, text in project.signal_named[field.signal].texts.items():
                for number, language in enumerate(languages):
                    words = translate("trial", "'{text}' of '{signal}' on '{screen}'")
                    said = words.format(text=text, signal=field.signal, screen=screen.name)
                    yield ToCover(
                        "texts",
                        (screen.name, field.signal, key, number),
                        f"{said} ({language})" if number else said,
                    )
