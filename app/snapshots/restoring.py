"""Writing chosen values of a snapshot back: what may be offered, and one after another, each looked at before."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, TimeoutError as NotYet
from dataclasses import dataclass
from typing import Protocol, TypeVar

from app.client.faults import LineFault
from app.language import translate
from app.line.write_queue import Outcome, WriteReport
from app.project.binding import Binding
from app.project.capability import cannot_write
from app.project.drive_roles import COMMAND_ROLES
from app.project.model import BitSignal, Project
from app.signals.encoding import Implausible
from app.signals.numbering import Table, register_text
from app.signals.reading import Value
from app.snapshots.differences import RegisterDifference
from app.snapshots.snapshot import RegisterPlace, signals_of
from app.snapshots.taking import LOOK_EVERY_S, OnProgress

_T = TypeVar("_T")
_COMMANDS = ("set", "clear", "toggle", "momentary", "write")


class Writes(Protocol):
    """What writing back needs of the engine."""

    def read(self, follower: str, table: Table, address: int, count: int) -> Future[tuple[int, ...]]:
        """See app.line.engine.Engine.read."""

    def write(self, signal: str, value: Value | int) -> Future[WriteReport]:
        """See app.line.engine.Engine.write."""

    def write_register(self, follower: str, table: Table, address: int, word: int) -> Future[WriteReport]:
        """See app.line.engine.Engine.write_register."""


@dataclass(frozen=True, slots=True)
class Offer:
    """Whether a row's former value can be written back, and whether it is chosen by itself."""

    row: RegisterDifference
    possible: bool
    chosen: bool
    why: str = ""
    """Why it cannot be written back, or is not chosen by itself."""


@dataclass(frozen=True, slots=True)
class Restored:
    """What became of one row."""

    row: RegisterDifference
    ok: bool
    words: str


def offers(project: Project, follower: str, rows: Sequence[RegisterDifference]) -> tuple[Offer, ...]:
    """Whether and how `before` of each row may be written to the follower, which holds `after` now."""
    bound = signals_of(project, follower)
    parts = {(each.table, each.address + at): name for name, each in bound.items() for at in range(each.count)}
    return tuple(_offer(project, bound, parts, row) for row in rows)


def offer(project: Project, follower: str, row: RegisterDifference) -> Offer:
    """The offer for one row."""
    return offers(project, follower, [row])[0]


def _offer(
    project: Project, bound: Mapping[str, Binding], parts: Mapping[RegisterPlace, str], row: RegisterDifference
) -> Offer:
    reason = _impossible(project, bound, parts, row)
    if reason is not None:
        return Offer(row, False, False, reason)
    caution = _caution(project, row)
    return Offer(row, True, not caution, caution)


def _impossible(
    project: Project, bound: Mapping[str, Binding], parts: Mapping[RegisterPlace, str], row: RegisterDifference
) -> str | None:
    if not row.differs:
        return translate("snapshots", "equal")
    if row.before is None:
        return translate("snapshots", "not in the snapshot")
    if row.after is None:
        return translate("snapshots", "the device does not return it now")
    if row.table in ("discrete", "input"):
        return translate("snapshots", "the table '{table}' is read-only").format(table=row.table)
    if row.measured:
        return translate("snapshots", "a measured value: 'write' is not set")
    if not row.signal:
        whole = parts.get((row.table, row.address))
        if whole is None:
            return None
        return translate("snapshots", "part of signal '{name}', which is only written as a whole").format(name=whole)
    binding = bound.get(row.signal)
    if binding is None or (binding.table, binding.address, binding.count) != (row.table, row.address, row.count):
        return translate("snapshots", "the project no longer has this signal, or it is at another register")
    try:
        _, value = binding.decode(row.before)
    except Implausible as why:
        return str(why)
    return cannot_write(project, row.signal, value)


def _caution(project: Project, row: RegisterDifference) -> str:
    """Why a row is not chosen by itself; empty if it is."""
    if row.table == "coil":
        return translate("snapshots", "a coil: it may be a command")
    if not row.signal:
        return translate("snapshots", "no signal uses it: check the manual first")
    signal = project.signal_named[row.signal]
    bits = {each.name for each in project.signals if isinstance(each, BitSignal) and each.bit.of == row.signal}
    if any(isinstance(each, BitSignal) and each.write and each.name in bits for each in project.signals):
        return translate("snapshots", "it contains command bits")
    if getattr(signal, "drive_role", None) in COMMAND_ROLES:
        return translate("snapshots", "it starts or stops a drive")
    if any(action.do in _COMMANDS and action.signal in {row.signal, *bits} for action in project.actions):
        return translate("snapshots", "an action of the panel writes it")
    if getattr(signal, "refresh_ms", 0):
        return translate("snapshots", "an output that is refreshed cyclically")
    return ""


def restore(
    engine: Writes,
    project: Project,
    follower: str,
    rows: Sequence[RegisterDifference],
    *,
    progress: OnProgress = lambda _part: None,
    told: Callable[[Restored], None] = lambda _done: None,
) -> tuple[Restored, ...]:
    """Write `row.before` of each row, whole, and read it back. Waits for the line; not for the window's thread.

    What no longer holds `row.after` is left alone: it was not this that was confirmed. What `progress` raises ends the
    work between two writes. Nothing is written while the line is not armed; each report then says so.
    """
    done = []
    for number, row in enumerate(rows):
        progress(number / len(rows))
        restored = _one(engine, project, follower, row)
        done.append(restored)
        told(restored)
    return tuple(done)


def _one(engine: Writes, project: Project, follower: str, row: RegisterDifference) -> Restored:
    allowed = offer(project, follower, row)
    if not allowed.possible or row.before is None:
        return Restored(row, False, translate("snapshots", "not written: {why}").format(why=allowed.why))
    try:
        now = _result(engine.read(follower, row.table, row.address, row.count))
    except LineFault as failed:
        return Restored(row, False, translate("snapshots", "not written: {why}").format(why=failed.fault.sentence))
    if now == row.before:
        return Restored(row, True, translate("snapshots", "it already has this value"))
    if now != row.after:
        return Restored(
            row, False, translate("snapshots", "not written: the value has changed since the comparison; compare again")
        )
    if row.signal:
        _, value = signals_of(project, follower)[row.signal].decode(row.before)
        report = _result(engine.write(row.signal, value))
    else:
        report = _result(engine.write_register(follower, row.table, row.address, row.before[0]))
    if report.outcome is Outcome.NOT_SENT:
        return Restored(row, False, translate("snapshots", "not written: {why}").format(why=report.reason))
    return Restored(row, report.ok, report.reason or translate("snapshots", "written and read back"))


def _result(future: Future[_T]) -> _T:
    while True:
        try:
            return future.result(LOOK_EVERY_S)
        except NotYet:
            continue


def place_text(row: RegisterDifference) -> str:
    """The registers of a row in the follower's own numbering, and its signal: "holding register 310, 'speed'"."""
    where = register_text(row.table, row.number, row.number + row.count - 1)
    if not row.signal:
        return where
    return translate("snapshots", "{where}, '{signal}'").format(where=where, signal=row.signal)
