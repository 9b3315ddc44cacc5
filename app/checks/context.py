"""What the rules ask about a project again and again, looked up once: places, spans, registers, uses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final

from app.checks.rule import PartKind
from app.panel.paging import PagingGraph
from app.project.binding import bindings, value_span
from app.project.drive_roles import COMMAND_ROLES
from app.project.model import (
    Action,
    AnySignal,
    BitSignal,
    Condition,
    Field,
    Follower,
    HeldSignal,
    HeldValue,
    Panel,
    Part,
    Project,
    RegisterSignal,
    Screen,
    ScreenChange,
    SerialLine,
    SerialOverTcpLine,
    TcpLine,
)
from app.project.problems import Place
from app.project.references import KnownNames, known_names
from app.signals.encoding import is_float, is_text
from app.signals.numbering import Table

ValueSpan = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class RegisterRun:
    """The registers of one signal: `count` of them from the wire address `address` on."""

    index: int
    signal: RegisterSignal
    follower: Follower
    table: Table
    address: int
    count: int

    @property
    def end(self) -> int:
        """The address after the last register."""
        return self.address + self.count


_WORKED_OUT_FROM: Final[dict[str, tuple[str, ...]]] = {
    "screen_names": ("screens",),
    "entered": ("screens",),
    "entered_names": ("entered",),
    "chosen": ("screens",),
    "shown": ("screens",),
    "used": ("panel", "signals", "screen_changes", "actions", "shown"),
    "known_names": ("panel", "lines", "followers", "signals", "screen_names"),
    "paging": ("panel", "screen_changes", "screen_names"),
    "blocks": ("signals", "followers"),
    "_spans": ("signals",),
    "_key_actions": ("actions",),
    "_screen_changes_by_key": ("screen_changes",),
    "_acting_on": ("actions", "signals", "panel"),
    "_command_words": ("signals",),
}
"""What is kept from the context of the former project if what it was worked out from is still the same."""


_OF_PROJECT: Final = frozenset(Project.model_fields)


class CheckContext:
    """A project, looked at by many rules.

    Nothing here raises for a wrong project: what cannot be known is left out or None, and the rule that is about it
    says so. Names that are used twice mean the first of the two, as they do in the project.
    """

    def __init__(self, project: Project, former: CheckContext | None = None) -> None:
        """Look at `project`; what it shares with that of the `former` context need not be worked out again."""
        self.project = project
        self._sights: dict[int, tuple[object, ...]] = {}
        same = former is not None and all(self.same(former, fact) for fact in ("panel", "signals", "followers"))
        self.epoch: object = former.epoch if same and former is not None else object()
        """The same object for as long as nothing changes that a `dependencies` could see."""
        for name, facts in _WORKED_OUT_FROM.items() if former is not None else ():
            if former is not None and name in former.__dict__ and all(self.same(former, fact) for fact in facts):
                self.__dict__[name] = former.__dict__[name]

    # What rules may say that they look at

    @property
    def panel(self) -> Panel:
        """The panel."""
        return self.project.panel

    @cached_property
    def screen_names(self) -> tuple[str, ...]:
        """The names of all screens, in the order of the file."""
        return tuple([screen.name for screen in self.project.screens])

    @cached_property
    def entered(self) -> dict[str, frozenset[str]]:
        """The signals that fields with entry show, by the name of the screen; screens without such fields left out."""
        found: dict[str, frozenset[str]] = {}
        for screen in self.project.screens:
            names = frozenset([field.signal for field in screen.fields if field.entry])
            if names:
                found.setdefault(screen.name, names)
        return found

    @cached_property
    def entered_names(self) -> frozenset[str]:
        """The names of the signals that fields with entry show, on whatever screen."""
        return frozenset().union(*self.entered.values())

    @cached_property
    def chosen(self) -> frozenset[str]:
        """The names of the signals that choice fields show."""
        return frozenset(
            [field.signal for screen in self.project.screens for field in screen.fields if field.kind == "choice"]
        )

    @cached_property
    def shown(self) -> frozenset[str]:
        """The names that fields show, and those that their blinking hangs on."""
        return frozenset().union(*[screen.signal_names for screen in self.project.screens])

    @cached_property
    def used(self) -> frozenset[str]:
        """The names of all signals that a field, a condition, an action or another signal makes use of."""
        project = self.project
        names = set(self.shown)
        names.update(
            screen_change.when.signal for screen_change in project.screen_changes if screen_change.when is not None
        )
        for action in project.actions:
            names.update(signals_named_in(action))
        names.update(signal.bit.of for signal in project.signals if isinstance(signal, BitSignal))
        if project.panel.language is not None:
            names.add(project.panel.language)
        return frozenset(names)

    @cached_property
    def known_names(self) -> KnownNames:
        """What names can point to."""
        return known_names(self.project)

    def fact(self, fact: str) -> object:
        """What a rule looks at that has `fact` among what it sees."""
        return getattr(self.project if fact in _OF_PROJECT else self, fact)

    def same(self, other: CheckContext, fact: str) -> bool:
        """Whether both have the same to show."""
        mine, its = self.fact(fact), other.fact(fact)
        return mine is its or (fact not in _OF_PROJECT and mine == its)

    def dependencies(self, part: Part) -> tuple[object, ...]:
        """All that a rule about this one part may look at besides it, to be compared by identity.

        The panel, and of every signal that the part names (a signal names itself) the signal, the word that holds it if
        it is a bit, and the follower.
        """
        found = self._sights.get(id(part))
        if found is None:
            found = self._sights[id(part)] = self._sight(part)
        return found

    def _sight(self, part: Part) -> tuple[object, ...]:
        signals, followers = self.project.signal_named, self.project.follower_named
        named: list[object] = [signals.get(name) for name in signals_named_in(part)]
        if named and named[0] is not part and section_of(part) == "signal":
            named.append(part)  # another one has its name: what that one stands on is not what this one does
        seen: list[object] = [self.project.panel]
        for signal in named:
            seen.append(signal)
            base = signal
            if isinstance(signal, BitSignal):
                base = signals.get(signal.bit.of)
                seen.append(base)
            if isinstance(base, RegisterSignal):
                seen.append(followers.get(base.follower))
        return tuple(seen)

    # Looking up

    @cached_property
    def paging(self) -> PagingGraph:
        """Which screens lead to which."""
        return PagingGraph(self.project)

    def signal(self, name: str | None) -> AnySignal | None:
        """The signal of that name, None if there is none."""
        return None if name is None else self.project.signal_named.get(name)

    def actions(self) -> Iterator[tuple[Place, Action]]:
        """Every action."""
        for index, action in enumerate(self.project.actions):
            yield ("action", index), action

    @cached_property
    def _spans(self) -> dict[str, ValueSpan | None]:
        return {}

    def span(self, name: str) -> ValueSpan | None:
        """All values that the signal can take: as `app.project.binding.value_span` has it.

        None if there is no knowing, or the signal is unknown or a text.
        """
        if name not in self._spans:
            self._spans[name] = value_span(self.project, name)
        return self._spans[name]

    @staticmethod
    def of_one_bit(signal: AnySignal) -> bool:
        """Whether the signal is 0 or 1 by what it is: a bit, a coil or a discrete input."""
        return isinstance(signal, BitSignal) or (
            isinstance(signal, RegisterSignal) and signal.table in ("coil", "discrete")
        )

    def is_float(self, signal: AnySignal) -> bool:
        """Whether the registers hold an IEEE 754 number, whose raw range says nothing about the values to expect."""
        return isinstance(signal, RegisterSignal) and not self.of_one_bit(signal) and is_float(signal.encoding)

    def is_text(self, signal: AnySignal) -> bool:
        """Whether the signal is a string of characters."""
        return isinstance(signal, RegisterSignal) and not self.of_one_bit(signal) and is_text(signal.encoding)

    def word_of(self, signal: BitSignal) -> RegisterSignal | None:
        """The signal that holds the bit, None if it is unknown or has no registers."""
        word = self.signal(signal.bit.of)
        return word if isinstance(word, RegisterSignal) else None

    def key_actions(self, screen: str) -> tuple[Action, ...]:
        """The actions by keys on that screen: its own and those of every screen."""
        return self._key_actions.get(None, ()) + self._key_actions.get(screen, ())

    @cached_property
    def _key_actions(self) -> dict[str | None, tuple[Action, ...]]:
        found: dict[str | None, tuple[Action, ...]] = {}
        for action in self.project.actions:
            if action.key is not None:
                found[action.from_] = (*found.get(action.from_, ()), action)
        return found

    def screen_changes_by_key(self, key: str | None) -> tuple[tuple[int, ScreenChange], ...]:
        """The screen changes by that key, each with its index."""
        return self._screen_changes_by_key.get(key, ())

    @cached_property
    def _screen_changes_by_key(self) -> dict[str | None, tuple[tuple[int, ScreenChange], ...]]:
        found: dict[str | None, list[tuple[int, ScreenChange]]] = {}
        for index, screen_change in enumerate(self.project.screen_changes):
            if screen_change.key is not None:
                found.setdefault(screen_change.key, []).append((index, screen_change))
        return {key: tuple(screen_changes) for key, screen_changes in found.items()}

    def acting_on(self, name: str | None) -> tuple[Action, ...]:
        """The actions by keys that the panel has on the signal, on the word that holds it, or on other bits of that."""
        return self._acting_on.get(self._home(name), ())

    @cached_property
    def _acting_on(self) -> dict[str | None, tuple[Action, ...]]:
        keys = frozenset(self.project.panel.keys)
        found: dict[str | None, list[Action]] = {}
        for action in self.project.actions:
            if action.key in keys and action.signal is not None:
                found.setdefault(self._home(action.signal), []).append(action)
        return {home: tuple(actions) for home, actions in found.items()}

    def _home(self, name: str | None) -> str | None:
        signal = self.signal(name)
        return signal.bit.of if isinstance(signal, BitSignal) else name

    def commands(self, name: str) -> bool:
        """Whether a number written to the signal switches something rather than sets a value.

        So it is of a bit, of a coil, of a register whose bits are signals that may be written, of one that has a text
        per value, and of the control word of a drive.
        """
        signal = self.signal(name)
        if signal is None or isinstance(signal, HeldSignal):
            return False
        switches = self.of_one_bit(signal) or name in self._command_words or bool(signal.texts)
        return switches or signal.drive_role in COMMAND_ROLES

    @cached_property
    def _command_words(self) -> frozenset[str]:
        bits = (signal for signal in self.project.signals if isinstance(signal, BitSignal))
        return frozenset(bit.bit.of for bit in bits if bit.write)

    def source(self, name: str | None) -> RegisterSignal | None:
        """The signal that a value of this name is written to: itself, or the word that holds the bit."""
        signal = self.signal(name)
        if isinstance(signal, BitSignal):
            return self.word_of(signal)
        return signal if isinstance(signal, RegisterSignal) else None

    def follower_of(self, name: str | None) -> Follower | None:
        """The follower that the signal is read from, None for a held value or a wrong name."""
        source = self.source(name)
        return None if source is None else self.project.follower_named.get(source.follower)

    def count_size(self, signal: AnySignal) -> Fraction | None:
        """What one raw count is worth, above 0. None if the signal is not made of whole counts."""
        if not isinstance(signal, RegisterSignal) or self.of_one_bit(signal):
            return None
        if self.is_float(signal) or self.is_text(signal):
            return None
        if signal.scale is None:
            return Fraction(1)
        binding = bindings(self.project).get(signal.name)
        if binding is not None:
            return abs(binding.scale.slope)
        (raw0, raw1), (value0, value1) = signal.scale.raw, signal.scale.value
        return abs((Fraction(value1) - Fraction(value0)) / (Fraction(raw1) - Fraction(raw0)))

    def block(self, signal: AnySignal, index: int = 0) -> RegisterRun | None:
        """The registers of one signal; None if it has none, or cannot be bound."""
        binding = bindings(self.project).get(signal.name)
        if binding is None or binding.signal is not signal or not isinstance(signal, RegisterSignal):
            return None
        return RegisterRun(index, signal, binding.follower, binding.table, binding.address, binding.count)

    @cached_property
    def blocks(self) -> tuple[RegisterRun, ...]:
        """Every register signal's registers in the order of the file, without those that cannot be bound."""
        found = []
        for index, signal in enumerate(self.project.signals):
            block = self.block(signal, index)
            if block is not None:
                found.append(block)
        return tuple(found)


def section_of(part: Part) -> PartKind:
    """What the file calls the kind of a part."""
    return _SECTIONS[type(part)]


_SECTIONS: Final[dict[type[Part], PartKind]] = {
    SerialLine: "line",
    TcpLine: "line",
    SerialOverTcpLine: "line",
    Follower: "follower",
    RegisterSignal: "signal",
    BitSignal: "signal",
    HeldSignal: "signal",
    Screen: "screen",
    ScreenChange: "screen_change",
    Action: "action",
}


def fields_of(screen: Screen) -> Iterator[tuple[Place, Field]]:
    """The fields of a screen, each with its place on it."""
    for number, field in enumerate(screen.fields):
        yield ("field", number), field


def conditions_of(part: Screen | ScreenChange | Action) -> Iterator[tuple[Place, Condition]]:
    """The conditions that stand in a part, each with its place in it."""
    if isinstance(part, Screen):
        yield from part.conditions
    elif part.when is not None:
        yield (), part.when


def signals_named_in(part: Part) -> list[str]:
    """The names of all signals that a part has to do with; of a signal its own, too."""
    names: list[str] = []
    if isinstance(part, Screen):
        names.extend(part.signal_names)
    elif isinstance(part, ScreenChange | Action):
        if part.when is not None:
            names.append(part.when.signal)
        if isinstance(part, Action):
            if part.signal is not None:
                names.append(part.signal)
            if isinstance(part.value, HeldValue):
                names.append(part.value.from_)
    elif isinstance(part, RegisterSignal | BitSignal | HeldSignal):
        names.append(part.name)
    return names


def overlap(first: Action, second: Action) -> bool:
    """Whether two actions by keys act on some screen both."""
    return None in (first.from_, second.from_) or first.from_ == second.from_
