"""Reading all readable registers of a follower: in blocks, around what is never read, and searching what it refuses."""

from __future__ import annotations

import datetime
import time
from collections.abc import Callable, Iterable
from concurrent.futures import Future, TimeoutError as NotYet
from dataclasses import dataclass
from typing import Final, Protocol

from app.client.faults import EXCEPTIONS, Fault, FaultKind, LineFault, exception_text
from app.errors import FanlightError
from app.language import mark, translate
from app.modbus.requests import MOST_BITS
from app.project.capability import never_read
from app.project.model import Follower, Project
from app.project.raw_register import number_of
from app.signals.numbering import LAST_ADDRESS, NotARegister, Table, register_text, wire_address
from app.snapshots.snapshot import TABLES, RegisterPlace, RegisterSnapshot, UnreadableRange, said_of, signals_of

ATTEMPTS: Final = 3
"""How often a block is asked for that brings no answer, or that the follower is too busy for."""
BUSY_PAUSE_S: Final = 0.2
LOOK_EVERY_S: Final = 0.05
"""How often a wait looks whether somebody wants to stop it."""

_PIECE_REFUSED: Final = (2, 3, 4)
"""Exception codes that a single register of a block may be the cause of."""
_BUSY: Final = (5, 6)
_NOBODY: Final = (10, 11)
"""Exception codes of a gateway that has no way to the follower, or no answer from it."""

OnProgress = Callable[[float], None]
"""Told the part that is done, 0 to 1. What it raises ends the work."""


class Asked(Protocol):
    """What a snapshot needs of the engine."""

    def read(self, follower: str, table: Table, address: int, count: int) -> Future[tuple[int, ...]]:
        """See app.line.engine.Engine.read."""


class CannotTake(FanlightError):
    """There is no snapshot; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class RegisterRange:
    """Wire addresses of one table, `last` belongs to them."""

    table: Table
    first: int
    last: int


def range_of(follower: Follower, text: str) -> RegisterRange:
    """A range as a person writes it, in the follower's own numbering: 'holding:0-999', 'coil:5'.

    Raises CannotTake in words.
    """
    table, _, numbers = text.partition(":")
    first, dash, last = (part.strip() for part in numbers.partition("-"))
    found = next((each for each in TABLES if each == table.strip()), None)
    plain = first.isascii() and first.isdecimal() and (not dash or (last.isascii() and last.isdecimal()))
    if found is None or not plain or len(first) > 6 or len(last) > 6:
        raise CannotTake(
            mark(
                "snapshots",
                "'{text}' is not a range; write it as holding:0-99, with coil, discrete, input or holding first",
            ),
            text=text,
        )
    return numbered_range(follower, found, int(first), int(last) if dash else int(first))


def numbered_range(follower: Follower, table: Table, first: int, last: int) -> RegisterRange:
    """A range in the follower's own numbering. Raises CannotTake in words."""
    if first > last:
        raise CannotTake(
            mark("snapshots", "the first register {first} is after the last one {last}"), first=first, last=last
        )
    try:
        begin, end = (wire_address(follower.numbering, table, number) for number in (first, last))
    except NotARegister as why:
        raise CannotTake(str(why)) from None
    return RegisterRange(table, begin, end)


def ranges_like(snapshot: RegisterSnapshot) -> tuple[RegisterRange, ...]:
    """The registers that another snapshot has: to be read again."""
    found: list[RegisterRange] = []
    for table, at in sorted(snapshot.registers):
        if found and (found[-1].table, found[-1].last + 1) == (table, at):
            found[-1] = RegisterRange(table, found[-1].first, at)
        else:
            found.append(RegisterRange(table, at, at))
    return tuple(found)


def take(
    engine: Asked,
    project: Project,
    follower: str,
    ranges: Iterable[RegisterRange] = (),
    *,
    line: str = "",
    notes: str = "",
    progress: OnProgress = lambda _part: None,
) -> RegisterSnapshot:
    """Read what the project's signals and `ranges` name. Waits for the line; not for the window's thread.

    A register that the follower refuses is noted, and the others are read all the same. Raises CannotTake if the
    follower does not answer or there is nothing to read, and whatever `progress` raises.
    """
    device = project.follower_named[follower]
    taken = datetime.datetime.now().astimezone()
    taking = _Taking(engine, device, progress)
    spans: dict[Table, list[tuple[int, int]]] = {table: [] for table in TABLES}
    for binding in signals_of(project, follower).values():
        spans[binding.table].append((binding.address, binding.address + binding.count))
    wanted: dict[Table, set[int]] = {
        table: {at for first, end in spans[table] for at in range(first, end)} for table in TABLES
    }
    for each in ranges:
        wanted[each.table].update(range(each.first, min(each.last, LAST_ADDRESS) + 1))
    for table in TABLES:
        for first, end in never_read(device, table):
            wanted[table].difference_update(range(first, end))
    taking.total = sum(map(len, wanted.values()))
    if not taking.total:
        raise CannotTake(
            mark("snapshots", "No signal of device '{follower}' is on the line; enter register ranges to read."),
            follower=follower,
        )
    for table in TABLES:
        taking.table(table, wanted[table], spans[table])
    if not taking.registers:
        reason = taking.refused[0].reason if taking.refused else ""
        raise CannotTake(
            mark("snapshots", "Device '{follower}' refuses all requested registers: {reason}"),
            follower=follower,
            reason=reason,
        )
    registers = dict(sorted(taking.registers.items(), key=lambda item: (TABLES.index(item[0][0]), item[0][1])))
    return RegisterSnapshot(
        follower,
        device.unit,
        line,
        device.numbering,
        taken.replace(microsecond=0),
        registers,
        project.title,
        tuple(_join(taking.refused)),
        said_of(project, follower, registers),
        notes,
    )


class _Taking:
    """One snapshot being taken."""

    def __init__(self, engine: Asked, follower: Follower, progress: OnProgress) -> None:
        self.registers: dict[RegisterPlace, int] = {}
        self.refused: list[UnreadableRange] = []
        self.total = 1
        self._judged = 0
        self._engine = engine
        self._follower = follower
        self._progress = progress

    def table(self, table: Table, wanted: set[int], spans: list[tuple[int, int]]) -> None:
        """Read these addresses, and cut no value of several registers in two unless it must be."""
        inner = {at for first, end in spans for at in range(first + 1, end)}
        most = self._follower.max_registers
        most = most if table in ("holding", "input") else min(MOST_BITS, 16 * most)
        waiting = list(reversed(list(_blocks(sorted(wanted), inner, most))))
        while waiting:
            first, end = waiting.pop()
            refused = self._block(table, first, end)
            if refused is None:
                continue
            code, reason = refused
            cut = _middle(first, end, inner) if code in _PIECE_REFUSED else None
            if cut is not None:
                waiting += [(cut, end), (first, cut)]
                continue
            pieces = [(first, end), *(reversed(waiting) if code == 1 else ())]
            if code == 1:  # the table as a whole is not there
                waiting.clear()
            for begin, behind in pieces:
                self.refused.append(UnreadableRange(table, begin, behind - 1, reason))
                self._count(behind - begin)

    def _block(self, table: Table, first: int, end: int) -> tuple[int, str] | None:
        """Read a block; gives code and words of a refusal. Raises CannotTake if nobody answers."""
        for attempt in range(ATTEMPTS):
            last_time = attempt == ATTEMPTS - 1
            try:
                words = self.wait(self._engine.read(self._follower.name, table, first, end - first))
            except LineFault as failed:
                fault = failed.fault
                refusal = fault.kind is FaultKind.EXCEPTION and fault.code not in _NOBODY
                if fault.of_connection or (last_time and not refusal):
                    raise self._silent(table, first, end, fault.sentence) from None
                if refusal and (fault.code not in _BUSY or last_time):
                    return fault.code, _refusal(fault)
                if fault.kind is FaultKind.EXCEPTION:
                    self._pause(BUSY_PAUSE_S)
                continue
            for place, word in enumerate(words):
                self.registers[table, first + place] = word
            self._count(end - first)
            return None
        raise AssertionError("every attempt ends in an answer or a fault")

    def _silent(self, table: Table, first: int, end: int, reason: str) -> CannotTake:
        numbers = [number_of(self._follower.numbering, table, at) for at in (first, end - 1)]
        return CannotTake(
            translate(
                "snapshots",
                "Device '{follower}' does not answer at {where}: {reason}. The snapshot was discarded.",
            ).format(follower=self._follower.name, where=register_text(table, *numbers), reason=reason)
        )

    def wait(self, future: Future[tuple[int, ...]]) -> tuple[int, ...]:
        """The words, as soon as they are there; somebody may stop it meanwhile."""
        try:
            while True:
                try:
                    return future.result(LOOK_EVERY_S)
                except NotYet:
                    self._progress(self._judged / self.total)
        finally:
            future.cancel()

    def _pause(self, seconds: float) -> None:
        end = time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0:
            self._progress(self._judged / self.total)
            time.sleep(min(left, LOOK_EVERY_S))

    def _count(self, judged: int) -> None:
        self._judged += judged
        self._progress(self._judged / self.total)


def _refusal(fault: Fault) -> str:
    """In words that neighbours share: without the place, and without advice for somebody who polls."""
    return exception_text(fault.code)[0] if fault.code in EXCEPTIONS else fault.short


def _blocks(addresses: list[int], inner: set[int], most: int) -> Iterable[tuple[int, int]]:
    """Runs of addresses, each at most `most` long, that begin at no address of `inner` if that can be helped."""
    place = 0
    while place < len(addresses):
        end = place + 1
        while end < len(addresses) and addresses[end] == addresses[end - 1] + 1 and end - place < most:
            end += 1
        cut = end
        joins = end < len(addresses) and addresses[end] == addresses[end - 1] + 1
        while joins and cut > place + 1 and addresses[cut] in inner:
            cut -= 1
        end = end if joins and addresses[cut] in inner else cut
        yield addresses[place], addresses[end - 1] + 1
        place = end


def _middle(first: int, end: int, inner: set[int]) -> int | None:
    """Where to cut a refused block: nearest to its middle, through no value; None if it is one value or register."""
    middle = (first + end) // 2
    return min((at for at in range(first + 1, end) if at not in inner), key=lambda at: abs(at - middle), default=None)


def _join(refused: list[UnreadableRange]) -> Iterable[UnreadableRange]:
    """Neighbours that were refused in the same words, as one."""
    kept: UnreadableRange | None = None
    for each in sorted(refused, key=lambda one: (TABLES.index(one.table), one.first)):
        if kept is not None and (kept.table, kept.last + 1, kept.reason) == (each.table, each.first, each.reason):
            kept = UnreadableRange(kept.table, kept.first, each.last, kept.reason)
            continue
        if kept is not None:
            yield kept
        kept = each
    if kept is not None:
        yield kept
