"""What the rules ask about a project again and again, looked up once: places, spans, registers, uses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from app.panel.paging import PagingGraph
from app.project.binding import bindings, value_span
from app.project.model import (
    Action,
    BitSignal,
    Condition,
    Field,
    Follower,
    HeldSignal,
    HeldValue,
    Project,
    RegisterSignal,
    Screen,
)
from app.project.problems import Place
from app.signals.encoding import is_float, is_text
from app.signals.numbering import Table

AnySignal = RegisterSignal | BitSignal | HeldSignal
Span = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Block:
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


class Survey:
    """A project, looked at by many rules.

    Nothing here raises for a wrong project: what cannot be known is left out or None, and the rule that is about it
    says so. Names that are used twice mean the first of the two, as they do in the project.
    """

    def __init__(self, project: Project) -> None:
        self.project = project
        self._spans: dict[str, Span | None] = {}

    @cached_property
    def paging(self) -> PagingGraph:
        """Which screens lead to which."""
        return PagingGraph.of(self.project)

    def signal(self, name: str | None) -> AnySignal | None:
        """The signal of that name, None if there is none."""
        return None if name is None else self.project.signal_named.get(name)

    def fields(self) -> Iterator[tuple[Place, Screen, Field]]:
        """Every field of every screen."""
        for index, screen in enumerate(self.project.screens):
            for number, field in enumerate(screen.fields):
                yield ("screen", index, "field", number), screen, field

    def actions(self) -> Iterator[tuple[Place, Action]]:
        """Every action."""
        for index, action in enumerate(self.project.actions):
            yield ("action", index), action

    def conditions(self) -> Iterator[tuple[Place, Condition]]:
        """Every condition, wherever it stands."""
        for place, _, field in self.fields():
            if field.blink is not None:
                yield place, field.blink
        for index, turn in enumerate(self.project.turns):
            if turn.when is not None:
                yield ("turn", index), turn.when
        for place, action in self.actions():
            if action.when is not None:
                yield place, action.when

    def span(self, name: str) -> Span | None:
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

        So it is of a bit, of a coil, of a register whose bits are signals that may be written, and of a register that
        has a text per value.
        """
        signal = self.signal(name)
        if signal is None or isinstance(signal, HeldSignal):
            return False
        return self.of_one_bit(signal) or name in self._command_words or bool(signal.texts)

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

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        """Every register signal's registers in the order of the file, without those that cannot be bound."""
        bound = bindings(self.project)
        found = []
        for index, signal in enumerate(self.project.signals):
            binding = bound.get(signal.name)
            if binding is not None and binding.signal is signal and isinstance(signal, RegisterSignal):
                found.append(Block(index, signal, binding.follower, binding.table, binding.address, binding.count))
        return tuple(found)

    @cached_property
    def used(self) -> frozenset[str]:
        """The names of all signals that a field, a condition, an action or another signal makes use of."""
        names = {field.signal for _, _, field in self.fields()}
        names.update(condition.signal for _, condition in self.conditions())
        for _, action in self.actions():
            if action.signal is not None:
                names.add(action.signal)
            if isinstance(action.value, HeldValue):
                names.add(action.value.from_)
        names.update(signal.bit.of for signal in self.project.signals if isinstance(signal, BitSignal))
        if self.project.panel.language is not None:
            names.add(self.project.panel.language)
        return frozenset(names)


def overlap(first: Action, second: Action) -> bool:
    """Whether two actions by keys act on some screen both."""
    return None in (first.from_, second.from_) or first.from_ == second.from_
