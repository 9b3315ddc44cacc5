"""The register cells of one simulated follower, and what a person at the bench may do to it."""

from __future__ import annotations

import threading
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from types import MappingProxyType
from typing import Final, get_args

from pymodbus.constants import ExcCodes

from app.follower.errors import FollowerError
from app.follower.faults import Faults
from app.follower.identity import Identity
from app.language import mark
from app.modbus.requests import MOST_BITS
from app.project.binding import Binding, bindings_of
from app.project.capability import never_read
from app.project.model import Follower, Project, RegisterSignal
from app.signals.encoding import Implausible, OutOfRange, is_text
from app.signals.numbering import Table
from app.signals.reading import Value

TABLES: Final[tuple[Table, ...]] = get_args(Table)


@dataclass(frozen=True, slots=True)
class Quantity:
    """One of a simulated follower's own values, for a person to look at."""

    name: str
    value: Value | float | bool
    unit: str = ""


class RegisterBank:
    """Registers, coils and inputs of the project's signals of one follower, holding their start values.

    A cell that no signal names does not exist: the line gets exception 02. But where the project says that such cells
    may be read along (`gaps`), those between two signals read 0, as far as one read reaches; they cannot be written.
    A signal's `start_value` is an engineering value; without one its registers hold 0. Holding registers and coils take
    what the line writes, also those of signals with `write = false`: that key says what the panel may do, and most
    devices do not know it. Inputs and discrete inputs are only read. What the project says of the follower holds: to
    read what is never read is refused with exception 02, a function for writing that it does not offer with 01. All
    methods may be called from any thread.
    """

    def __init__(self, project: Project, follower: Follower) -> None:
        """Raises FollowerError if a start value does not fit its signal."""
        self.follower = follower
        self.silent = False
        """While true the follower is as if unplugged from the line: it neither hears nor answers."""
        self.identity = Identity(project, follower)
        """What it says it is."""
        self.faults = Faults()
        """Trouble on order between it and its line."""
        self._lock = threading.RLock()
        self._bindings = bindings_of(project, follower.name)
        self._never_read = {table: never_read(follower, table) for table in TABLES}
        self._cells: dict[Table, dict[int, int]] = {table: {} for table in TABLES}
        self._kept: set[tuple[Table, int]] = set()
        """Cells of writable tables that the line may not write all the same."""
        for binding in self._bindings.values():
            for address in range(binding.address, binding.address + binding.count):
                self._cells[binding.table].setdefault(address, 0)
        self._begin()
        if follower.gaps:
            self._fill_gaps()

    def _fill_gaps(self) -> None:
        """Add the cells that a read of two signals brings along."""
        named: dict[Table, set[int]] = {}
        for binding in self._bindings.values():
            named.setdefault(binding.table, set()).update(range(binding.address, binding.address + binding.count))
        for table, addresses in named.items():
            cells = self._cells[table]
            reach = MOST_BITS if table in ("coil", "discrete") else self.follower.max_registers
            for before, behind in pairwise(sorted(addresses)):
                between = range(before + 1, behind) if behind - before < reach else ()
                for address in between:
                    if address not in cells:
                        cells[address] = 0
                        self._kept.add((table, address))

    def _begin(self) -> None:
        """Let every cell hold what it holds after a power-up. Raises FollowerError if a start value does not fit."""
        for cells in self._cells.values():
            cells.update(dict.fromkeys(cells, 0))
        self._lay_out()
        for name, binding in self._bindings.items():
            if isinstance(binding.signal, RegisterSignal) and binding.signal.start_value is not None:
                try:
                    self._store(binding, _start_words(binding, binding.signal.start_value))
                except OutOfRange as why:
                    raise FollowerError(
                        mark(
                            "follower",
                            "device '{follower}' cannot be simulated: start_value {value} of signal '{signal}' does "
                            "not fit: {why}",
                        ),
                        follower=self.name,
                        value=binding.signal.start_value,
                        signal=name,
                        why=why,
                    ) from None

    @property
    def name(self) -> str:
        """The follower's name in the project."""
        return self.follower.name

    def cells(self, table: Table) -> Mapping[int, int]:
        """All cells of a table, by wire address. A live view; addresses never come or go."""
        return MappingProxyType(self._cells[table])

    def read_only(self, table: Table, address: int) -> bool:
        """Whether the line may not write the cell."""
        return table in ("input", "discrete") or (table, address) in self._kept

    def has(self, table: Table, address: int, count: int) -> bool:
        """Whether all cells from `address` on exist."""
        cells = self._cells[table]
        return all(place in cells for place in range(address, address + count))

    def readable(self, table: Table, address: int, count: int) -> bool:
        """Whether the line may read all of these cells; a person may in any case."""
        return not any(address < end and first < address + count for first, end in self._never_read[table])

    def read(self, table: Table, address: int, count: int) -> list[int]:
        """What stands in existing cells: registers 0..65535, or 0 and 1."""
        with self._lock:
            self._refresh(table, address, address + count - 1)
            cells = self._cells[table]
            return [cells[place] for place in range(address, address + count)]

    def read_packed(self, table: Table, word: int, count: int) -> list[int]:
        """Coils or discrete inputs from address 16 `word` on, 16 to a word, the first lowest; absent ones read 0."""
        with self._lock:
            self._refresh(table, 16 * word, 16 * (word + count) - 1)
            cells = self._cells[table]
            return [
                sum(cells.get(16 * place + bit, 0) << bit for bit in range(16)) for place in range(word, word + count)
            ]

    def write(self, table: Table, address: int, values: Sequence[int]) -> ExcCodes | None:
        """The line writes existing cells: all of them, or none and the exception code to answer."""
        with self._lock:
            if refused := self._refused(table, address, values):
                return refused
            self._cells[table].update(enumerate(values, address))
            self._after_write(table, address, values)
        return None

    def set(self, signal: str, value: Value | int) -> None:
        """A person sets what a signal reads, in engineering units, whatever the line may do to it.

        Raises FollowerError if the follower has no such signal or the value does not fit it.
        """
        binding = self._binding(signal)
        with self._lock:
            words = self.read(binding.table, binding.address, binding.count)
            try:
                self._store(binding, binding.encode(value, words))
            except OutOfRange as why:
                raise FollowerError(
                    mark("follower", "signal '{signal}' cannot be set to {value}: {why}"),
                    signal=signal,
                    value=value,
                    why=why,
                ) from None

    def get(self, signal: str) -> Value:
        """What a signal reads now, in engineering units.

        Raises FollowerError if there is no such signal or its registers hold something that its encoding cannot mean.
        """
        binding = self._binding(signal)
        try:
            return binding.decode(self.read(binding.table, binding.address, binding.count))[1]
        except Implausible as why:
            raise FollowerError(mark("follower", "signal '{signal}': {why}"), signal=signal, why=why) from None

    @property
    def absent(self) -> bool:
        """Whether it neither hears nor answers just now: unplugged from the line, or starting anew."""
        return self.silent or self.faults.away

    def reboot(self, seconds: float) -> None:
        """Lose power and start anew: absent for so long (at most `LONGEST_S`), then as after a power-up."""
        with self._lock:
            self.faults.leave(seconds)
            self._begin()

    def on_request(self) -> None:
        """A request for this follower arrived."""

    def advance_to(self, now: float) -> None:
        """Let the model's time run up to `now`, seconds of a monotonic clock. A bank has nothing that moves."""

    def pause(self) -> None:
        """The clock stops: what passes until the next `advance_to` does not count."""

    def overview(self) -> tuple[Quantity, ...]:
        """The follower's own values: of a bank its signals, but for those that hold nothing plausible."""
        found = []
        for name, binding in self._bindings.items():
            try:
                found.append(Quantity(name, self.get(name), binding.signal.unit))
            except FollowerError:
                continue
        return tuple(found)

    def works_out(self, binding: Binding) -> bool:  # noqa: ARG002
        """Whether a model decides what stands in a signal's place, so that setting it by hand would not last."""
        return False

    def _binding(self, signal: str) -> Binding:
        try:
            return self._bindings[signal]
        except KeyError:
            raise FollowerError(
                mark("follower", "device '{follower}' has no input or signal '{signal}'"),
                follower=self.name,
                signal=signal,
            ) from None

    def _store(self, binding: Binding, words: tuple[int, ...] | bool) -> None:
        values = words if isinstance(words, tuple) else (int(words),)
        if unfit := self._unfit(binding.table, binding.address, values):
            raise OutOfRange(unfit)
        with self._lock:
            self._cells[binding.table].update(enumerate(values, binding.address))
            self._after_write(binding.table, binding.address, values)

    def _lay_out(self) -> None:
        """Add the cells that a model has whether or not a signal names them."""

    def _refresh(self, table: Table, first: int, last: int) -> None:
        """Bring those cells up to date, from address `first` to `last`, that show something of a model."""

    def _refused(self, table: Table, address: int, values: Sequence[int]) -> ExcCodes | None:
        """Why the line may not write these values into existing cells."""
        if any(self.read_only(table, place) for place in range(address, address + len(values))):
            return ExcCodes.ILLEGAL_ADDRESS
        return ExcCodes.ILLEGAL_VALUE if self._unfit(table, address, values) else None

    def _unfit(self, table: Table, address: int, values: Sequence[int]) -> str | None:
        """Why a model cannot take these values, in words. A bank takes all."""

    def _after_write(self, table: Table, address: int, values: Sequence[int]) -> None:
        """Let a model know of cells that were written."""


def _start_words(binding: Binding, start: Decimal | str) -> tuple[int, ...] | bool:
    """The registers of a start value, which is an engineering value. Raises OutOfRange if it does not fit."""
    if isinstance(start, str) != (is_text(binding.base.encoding) and not binding.single):
        raise OutOfRange(mark("follower", "a text is only possible with the data type 'string'"))
    return binding.encode(start if isinstance(start, str) else Fraction(start))
