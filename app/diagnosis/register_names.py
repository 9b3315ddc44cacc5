"""Which signals of a project stand in which registers, to put names and values to the bytes of a transaction."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Self

from app.language import translate
from app.project.binding import Binding, bindings, plain_text
from app.project.model import Project
from app.signals.encoding import Implausible
from app.signals.numbering import NotARegister, Table, documented_number


@dataclass(frozen=True, slots=True)
class RegisterGroup:
    """Neighbouring registers or bits that belong together, from wire address `address` up to `end`, not included.

    `words` says what stands there, signal by signal; it is empty, and so is `signals`, where no signal stands.
    """

    address: int
    end: int
    signals: tuple[str, ...] = ()
    words: str = ""


@dataclass(frozen=True, slots=True)
class _Place:
    """A register signal, and the signals that are bits of it."""

    binding: Binding
    bits: tuple[Binding, ...]

    @property
    def address(self) -> int:
        return self.binding.address

    @property
    def end(self) -> int:
        return self.binding.address + self.binding.count


class _Stretch:
    """The signals of one table of a follower, in the order of their addresses."""

    def __init__(self, places: list[_Place]) -> None:
        self._places = sorted(places, key=lambda place: (place.address, place.end))
        self._starts = [place.address for place in self._places]
        self._longest = max(place.binding.count for place in places)

    def within(self, address: int, count: int) -> list[_Place]:
        first = bisect_left(self._starts, address - self._longest + 1)
        behind = bisect_left(self._starts, address + count)
        return [place for place in self._places[first:behind] if place.end > address]


class RegisterNames:
    """The signals of one project by follower, table and wire address. Immutable; worked out when first asked."""

    def __init__(self, project: Project | None) -> None:
        """None: no names are known."""
        self._project = project

    @classmethod
    def of(cls, project: Project) -> Self:
        """The names of all signals of `project` that can be found on a line."""
        return cls(project)

    @cached_property
    def _places(self) -> Mapping[tuple[str, Table], _Stretch]:
        bits: dict[str, list[Binding]] = {}
        bound = bindings(self._project) if self._project is not None else {}
        for binding in bound.values():
            if binding.bit is not None:
                bits.setdefault(binding.base.name, []).append(binding)
        places: dict[tuple[str, Table], list[_Place]] = {}
        for name, binding in bound.items():
            if binding.bit is None:
                key = binding.follower.name, binding.table
                places.setdefault(key, []).append(_Place(binding, tuple(bits.get(name, ()))))
        return {key: _Stretch(found) for key, found in places.items()}

    def documented_number(self, follower: str, table: Table, address: int) -> int | None:
        """The number that the follower's manual gives the register; None if that is the wire address, or unknown."""
        found = self._project.follower_named.get(follower) if self._project else None
        if found is None:
            return None
        try:
            number = documented_number(found.numbering, table, address)
        except NotARegister:
            return None
        return None if number == address else number

    def at(self, follower: str, table: Table, address: int, count: int) -> tuple[str, ...]:
        """The signals that stand, whole or in part, in `count` registers or bits from wire address `address` on."""
        return tuple(place.binding.signal.name for place in self._within(follower, table, address, count))

    def groups(
        self, follower: str, table: Table, address: int, words: Sequence[int] | Sequence[bool]
    ) -> tuple[RegisterGroup, ...]:
        """`words`, from wire address `address` on, parted into groups: signals that share a register stay together.

        The groups follow one another without a gap and cover all of `words`.
        """
        end = address + len(words)
        clusters: list[list[_Place]] = []
        reach = address
        for place in self._within(follower, table, address, len(words)):
            if clusters and place.address < reach:
                clusters[-1].append(place)
            else:
                clusters.append([place])
            reach = max(reach, place.end)
        groups: list[RegisterGroup] = []
        at = address
        for cluster in clusters:
            first = max(address, cluster[0].address)
            behind = min(end, max(place.end for place in cluster))
            if first > at:
                groups.append(RegisterGroup(at, first))
            told = [self._value_text(place, address, words) for place in cluster]
            names = tuple(place.binding.signal.name for place in cluster)
            groups.append(RegisterGroup(first, behind, names, "; ".join(told)))
            at = behind
        if at < end:
            groups.append(RegisterGroup(at, end))
        return tuple(groups)

    def mask_text(self, follower: str, address: int, keep: int, put: int) -> str:
        """The bit signals that a mask write changes in a holding register, with their new values; empty if none.

        `keep` is the AND mask, `put` the OR mask of function 22.
        """
        told = []
        for place in self._within(follower, "holding", address, 1):
            for bit in place.bits:
                register, _, mine = bit.mask_write(1)
                if register == address and not keep & mine and self._project is not None:
                    name = bit.signal.name
                    told.append(f"{name} = {plain_text(self._project, name, int(bool(put & mine)))}")
        return ", ".join(told)

    def _within(self, follower: str, table: Table, address: int, count: int) -> list[_Place]:
        found = self._places.get((follower, table))
        return [] if found is None else found.within(address, count)

    def _value_text(self, place: _Place, address: int, words: Sequence[int] | Sequence[bool]) -> str:
        """A signal with its value, and its bits with theirs: 'speed = 41.7 Hz (raw 8330)'."""
        binding = place.binding
        name = binding.signal.name
        first = place.address - address
        own = words[first : first + binding.count] if first >= 0 else ()
        if len(own) < binding.count:
            return translate("bus", "a part of {name}, which has {count} registers").format(
                name=name, count=binding.count
            )
        try:
            raw, value = binding.decode(own)
        except Implausible as why:
            return f"{name}: {why}"
        assert self._project is not None  # there are no places without one
        text = plain_text(self._project, name, value)
        shown = f"{text} {binding.signal.unit}".rstrip()
        told = (
            f"{name} = {shown}"
            if isinstance(raw, str) or text == str(raw)
            else translate("bus", "{name} = {shown} (raw {raw})").format(name=name, shown=shown, raw=raw)
        )
        for bit in place.bits:
            on = bit.decode(own)[1]
            text = plain_text(self._project, bit.signal.name, on)
            told += f", {bit.signal.name} = {text}"
        return told


NO_NAMES: Final = RegisterNames(None)
"""For bytes of which no project is known."""
