"""A register snapshot as a value: what a follower's registers held at one time, and which of them it refused."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from app.project.binding import Binding, bindings, plain_text
from app.project.model import Project
from app.signals.encoding import Implausible
from app.signals.numbering import Numbering, Table

TABLES: tuple[Table, ...] = ("coil", "discrete", "input", "holding")
"""The four tables, in the order of files and lists."""

RegisterPlace = tuple[Table, int]
"""A table and an address on the wire, 0..65535."""


@dataclass(frozen=True, slots=True)
class UnreadableRange:
    """Registers from the wire address `first` to `last` that the follower refused, and in which words."""

    table: Table
    first: int
    last: int
    reason: str


@dataclass(frozen=True, slots=True)
class Said:
    """What a signal's registers meant when they were read: for people, and for a comparison without the project."""

    name: str
    table: Table
    address: int
    count: int
    text: str
    """The value with its unit; empty if the registers can mean nothing."""
    measured: bool = False
    """Whether it changes by itself: an input, or a signal that is not to be written."""


@dataclass(frozen=True, slots=True)
class RegisterSnapshot:
    """Registers of one follower. Words are 0..65535, coils and discrete inputs 0 or 1."""

    follower: str
    unit: int
    line: str
    """Where it was read, in words."""
    numbering: Numbering
    taken: datetime
    """Civil time with its zone, when the reading began."""
    registers: Mapping[RegisterPlace, int]
    project: str = ""
    """The title of the project."""
    not_readable: tuple[UnreadableRange, ...] = ()
    signals: tuple[Said, ...] = ()
    notes: str = ""

    def words(self, table: Table, address: int, count: int) -> tuple[int, ...] | None:
        """So many words from an address on; None unless all of them were read."""
        found = [self.registers.get((table, at)) for at in range(address, address + count)]
        words = tuple(word for word in found if word is not None)
        return words if len(words) == count else None


def signals_of(project: Project, follower: str) -> dict[str, Binding]:
    """The signals that stand in registers of a follower of their own, by name; bits of other signals are left out."""
    return {
        name: binding
        for name, binding in bindings(project).items()
        if binding.follower.name == follower and binding.bit is None
    }


def is_measured(binding: Binding) -> bool:
    """Whether a signal changes by itself: an input, or one that is not to be written."""
    return binding.table in ("discrete", "input") or not binding.signal.write


def text_of(project: Project, binding: Binding, words: tuple[int, ...]) -> str:
    """What words mean as a signal, with its unit; empty if they can mean nothing."""
    try:
        _, value = binding.decode(words)
    except Implausible:
        return ""
    return f"{plain_text(project, binding.signal.name, value)} {binding.signal.unit}".strip()


def said_of(project: Project, follower: str, registers: Mapping[RegisterPlace, int]) -> tuple[Said, ...]:
    """What the signals of a follower mean in these registers, as far as all of theirs are there."""
    found = []
    for name, binding in signals_of(project, follower).items():
        table, first = binding.table, binding.address
        words = [registers[table, at] for at in range(first, first + binding.count) if (table, at) in registers]
        if len(words) == binding.count:
            text = text_of(project, binding, tuple(words))
            found.append(Said(name, table, first, binding.count, text, is_measured(binding)))
    return tuple(found)
