"""A simulated drive behind the registers of a project that says what of it each signal is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.follower.drive import CommandBit, Drive
from app.follower.drive_bank import DriveBank
from app.follower.drive_face import BITS, NUMBERS, SHOWN, SIGNED_NUMBERS, Command, ShownNumber, parts_of
from app.language import translate
from app.project.binding import Binding
from app.project.drive_roles import DRIVE_VALUES, DriveValue
from app.signals.encoding import Implausible, OutOfRange, is_text, raw_range
from app.signals.numbering import Table
from app.signals.reading import Value
from app.signals.text import number_digits

_EXACT_TO: Final = 6
"""Decimals of the drive's own numbers, which are binary floats; what comes behind them is nothing of the machine."""


@dataclass(frozen=True, slots=True)
class _Part:
    """A signal that is something of the drive."""

    binding: Binding
    value: DriveValue
    parts: Fraction
    """How many of the signal's unit make one of the drive's."""


class SimulatedDriveBank(DriveBank):
    """A drive that the line sees through those signals of its follower that have a role in it.

    The registers of `app.follower.layout` are not there: a real device has but its own. All other registers are those
    of a bank. With a control word it goes by that alone; signals that are a command bit of it have no effect then.
    """

    def works_out(self, binding: Binding) -> bool:
        """Whether the signal shows something of the drive."""
        return binding.signal.drive_role in SHOWN

    def _lay_out(self) -> None:
        drive = self.drive
        drive.communication_timeout_s = self.follower.communication_timeout_ms / 1000
        parts = tuple(_parts(drive, tuple(self._bindings.values())))
        self._shown = tuple(part for part in parts if part.value in SHOWN)
        self._obeyed = tuple(part for part in parts if part.value not in SHOWN)
        commanded = {(part.binding.table, place) for part in self._obeyed for place in _places(part.binding)}
        self._kept.update((part.binding.table, place) for part in self._shown for place in _places(part.binding))
        self._kept -= commanded
        self._numbers = NUMBERS
        if any(part.value == "control-word" for part in self._obeyed):
            drive.obey_standard(0)  # else it would go by a plain one, until the first one comes
            self._numbers = SIGNED_NUMBERS
            self._obeyed = tuple(part for part in self._obeyed if part.value not in BITS)
        for part in self._obeyed:
            if part.value in self._numbers:
                self._show(part, self._numbers[part.value].stands(drive))
        for part in self._shown:
            self._show(part, SHOWN[part.value].tell(drive))

    def _refresh(self, table: Table, first: int, last: int) -> None:
        for part in _parts_in(self._shown, table, first, last):
            self._show(part, SHOWN[part.value].tell(self.drive))

    def _show(self, part: _Part, number: float) -> None:
        """A number of the drive into the registers of its signal; beyond their range they show the range's end."""
        binding = part.binding
        value = Fraction(round(number, _EXACT_TO)) * part.parts
        if binding.single or binding.bit is not None:
            value = Fraction(bool(value))
        cells = self._cells[binding.table]
        words = [cells[place] for place in _places(binding)]
        try:
            told = binding.encode(value, words)
        except OutOfRange:
            least, greatest = raw_range(binding.base.encoding)
            raw = max(Fraction(least), min(Fraction(greatest), binding.scale.raw(value)))
            told = binding.encode(binding.scale.value(raw), words)
        cells.update(enumerate(told if isinstance(told, tuple) else (int(told),), binding.address))

    def _unfit(self, table: Table, address: int, values: Sequence[int]) -> str | None:
        written = dict(enumerate(values, address))
        for part in _parts_in(self._obeyed, table, address, address + len(values) - 1):
            command = self._numbers.get(part.value)
            if command is None:
                continue
            cells = self._cells[table]
            try:
                value = _number(part.binding, [written.get(place, cells[place]) for place in _places(part.binding)])
            except Implausible as why:
                return str(why)
            if not command.low <= value / part.parts <= command.high:
                return _refusal(part, command)
        return None

    def _after_write(self, table: Table, address: int, values: Sequence[int]) -> None:
        command = self.drive.command
        for part in _parts_in(self._obeyed, table, address, address + len(values) - 1):
            cells = self._cells[table]
            try:
                value = _number(part.binding, [cells[place] for place in _places(part.binding)])
            except Implausible:
                continue
            if part.value in BITS:
                bit = BITS[part.value]
                command = command | bit if value else command & ~bit
            else:
                self._numbers[part.value].obey(self.drive, float(value / part.parts))
        if command != self.drive.command:
            self.drive.obey(CommandBit(command))


def _parts(drive: Drive, bindings: Sequence[Binding]) -> Iterator[_Part]:
    for binding in bindings:
        value = binding.signal.drive_role
        if value is None or (is_text(binding.base.encoding) and not binding.single):
            continue
        number: Command | ShownNumber | None = SHOWN.get(value) or NUMBERS.get(value)
        yield _Part(binding, value, parts_of(drive, number, binding.signal.unit) if number else Fraction(1))


def _places(binding: Binding) -> range:
    return range(binding.address, binding.address + binding.count)


def _parts_in(parts: Sequence[_Part], table: Table, first: int, last: int) -> Iterator[_Part]:
    return (
        part
        for part in parts
        if part.binding.table == table
        and part.binding.address <= last
        and first < part.binding.address + part.binding.count
    )


def _number(binding: Binding, words: Sequence[int]) -> Fraction:
    value: Value = binding.decode(words)[1]
    return Fraction(0) if isinstance(value, str) else value


def _refusal(part: _Part, command: Command) -> str:
    signal = part.binding.signal

    def told(number: float) -> str:
        return number_digits(Fraction(number) * part.parts, signal.decimals)

    return (
        translate("follower", "{name} of the drive must be {low} to {high} {unit}")
        .format(
            name=translate("project", DRIVE_VALUES[part.value]),
            low=told(command.low),
            high=told(command.high),
            unit=signal.unit,
        )
        .rstrip()
    )
