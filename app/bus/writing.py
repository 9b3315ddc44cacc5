"""Writing to one line: only while it is armed, ahead of the reads, and read back to see what the follower kept."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass
from typing import Final

from app.bus.conversation import Conversation
from app.bus.faults import Fault, FaultKind, LineFault
from app.bus.readings import Readings
from app.bus.requests import Request, write_coil, write_register, write_registers
from app.bus.writes import Wanted, WriteJob, WriteQueue, WriteReport, drop
from app.project.binding import Binding, bindings, refusal
from app.project.model import Project
from app.signals.reading import Value
from app.signals.text import number_digits

READ_BACK_AGAIN_S: Final = 0.05
"""A value read back unlike the written one is read once more after this time: some followers take it over late."""
REFRESH_FAILURES: Final = 2
"""After this many failures in a row a refreshed output is no longer written: the follower has stopped by itself by
then, and must not be started again by a value of long ago."""

_UNSURE: Final = "not acknowledged, and perhaps written all the same"


class Dropped(Exception):
    """A write must not go out any more; the message says why."""


@dataclass(slots=True)
class _Refresh:
    """An output that is written again and again; `due` is `time.monotonic()`."""

    binding: Binding
    words: tuple[int, ...]
    due: float
    every_s: float


class Writing:
    """The writes of one line. Everything but the plain flag `armed` belongs to the engine's event loop."""

    def __init__(
        self, project: Project, line: str, conversation: Conversation, readings: Readings, changed: Callable[[], None]
    ) -> None:
        self.armed = False
        self.down: Fault | None = None
        """Why the line is down; None while it is open."""
        self._line = line
        self._project = project
        self._bound = bindings(project)
        self._conversation = conversation
        self._readings = readings
        self._changed = changed
        self._queue = WriteQueue()
        self._under_way = False
        self._refreshes: dict[tuple[str, int], _Refresh] = {}

    @property
    def waiting(self) -> int:
        """Writes that wait or are under way."""
        return len(self._queue) + self._under_way

    @property
    def refresh_due(self) -> float | None:
        """When the next output has to be written again (monotonic seconds), if any."""
        return min((refresh.due for refresh in self._refreshes.values()), default=None)

    def want(self, binding: Binding, value: Value, future: Future[WriteReport]) -> None:
        """Let a value wait to be written, or refuse it."""
        wanted = Wanted(binding, value, [future])
        try:
            self._permits(binding)
        except Dropped as why:
            drop((wanted,), str(why))
            return
        reason = refusal(self._project, wanted.signal, value)
        if reason is not None:
            drop((wanted,), reason)
        else:
            self._queue.put(binding, value, future)

    def forget(self, reason: str) -> None:
        """Drop what waits, and say so; write nothing again."""
        self._queue.drop(f"not written: {reason}")
        self._refreshes.clear()

    async def one(self) -> bool:
        """Write what has waited longest; gives whether anything waited.

        Raises LineFault if the line is down, and Reopen.
        """
        job = self._queue.take()
        if job is None:
            return False
        self._under_way = True
        try:
            if job.register is None:
                await self._write_signal(job.wanted[0])
            else:
                await self._write_bits(job, job.register)
        except Dropped as why:
            drop(job.wanted, f"not written: {why}")
        except LineFault as failed:
            fault = failed.fault
            if fault.kind is FaultKind.EXCEPTION:
                drop(job.wanted, f"follower '{job.follower}' {fault.sentence}")
            else:
                drop(job.wanted, f"{_UNSURE}: {fault.sentence}")
            if fault.of_connection:
                raise
        finally:
            self._under_way = False
            drop(job.wanted, f"{_UNSURE}: the connection was given up")  # only who has no report yet
            self._changed()
        return True

    def _line_permits(self) -> None:
        """Raises Dropped if nothing may be written to this line now."""
        if not self.armed:
            raise Dropped(f"line '{self._line}' is not armed")
        if self.down is not None:
            raise Dropped(f"line '{self._line}' is down: {self.down.sentence}")

    def _permits(self, binding: Binding) -> None:
        """Raises Dropped if nothing may be written to that follower now.

        To a follower that does not answer nothing is sent: what it takes over later, nobody is watching.
        """
        self._line_permits()
        partner = self._conversation.partners[binding.follower.name]
        if partner.answering is False:
            reason = partner.fault.sentence if partner.fault else "it was not reached"
            raise Dropped(f"follower '{binding.follower.name}' does not answer: {reason}")

    async def _send(self, binding: Binding, request: Request) -> None:
        """Send one write, and once more if it was not acknowledged: sent twice it does what it does once."""
        follower = binding.follower.name
        try:
            await self._conversation.ask(follower, request, lambda: self._permits(binding))
        except LineFault as failed:
            if failed.fault.of_connection or failed.fault.kind is FaultKind.EXCEPTION:
                raise
            await self._conversation.ask(follower, request, self._line_permits)

    async def _write_signal(self, wanted: Wanted) -> None:
        binding = wanted.binding
        unit = binding.follower.unit
        encoded = binding.encode(wanted.value)
        if isinstance(encoded, bool):
            asked: tuple[int, ...] = (encoded,)
            await self._send(binding, write_coil(unit, binding.address, encoded))
        else:
            asked = encoded
            await self._send(binding, _write_words(unit, binding.address, encoded))
            self._keep_fresh(binding, encoded)
        words = await self._read_back([wanted], lambda words: words == asked)
        if words is not None:
            _report(wanted, _value(wanted, words), same=words == asked)

    async def _write_bits(self, job: WriteJob, register: int) -> None:
        """Change bits of one register and keep its others: read it, change it, write it, read it back."""
        binding = job.wanted[0].binding
        self._permits(binding)
        (word,) = await self._conversation.registers(binding.follower.name, binding.table, register, 1)
        for bit in job.wanted:
            _, keep, put = bit.binding.mask_write(bit.value)
            word = word & keep | put
        await self._send(binding, write_register(binding.follower.unit, register, word))
        words = await self._read_back(
            job.wanted, lambda words: all(_value(bit, words) == bit.value for bit in job.wanted)
        )
        if words is None:
            return
        asked = list(words)
        asked[register - binding.address] = word
        self._keep_fresh(binding, tuple(asked))
        for bit in job.wanted:
            kept = _value(bit, words)
            _report(bit, kept, same=kept == bit.value)

    async def _read_back(self, wanted: list[Wanted], kept: Callable[[tuple[int, ...]], bool]) -> tuple[int, ...] | None:
        """The registers as they are after a write; they become the reading of their signal too.

        They are read a second time if not `kept`. None if they cannot be read, which is then reported. Raises
        LineFault if the line is down.
        """
        binding = wanted[0].binding
        where = binding.follower.name, binding.table, binding.address, binding.count
        try:
            words = await self._conversation.registers(*where)
            if not kept(words):
                await asyncio.sleep(READ_BACK_AGAIN_S)
                words = await self._conversation.registers(*where)
        except LineFault as failed:
            fault = failed.fault
            for one in wanted:
                # A register that can only be written was acknowledged; more than that nobody can know.
                ok = fault.kind is FaultKind.EXCEPTION
                one.report(ok=ok, reason=f"acknowledged, but not read back: {fault.sentence}")
            if fault.of_connection:
                raise
            return None
        base = self._bound.get(binding.base.name)
        if base is not None:
            self._readings.take(base, words, time.monotonic())
            self._changed()
        return words

    def _keep_fresh(self, binding: Binding, words: tuple[int, ...]) -> None:
        """Write these registers again from now on, if their signal asks for it.

        Only what this program has written on this connection, while armed, is written again.
        """
        every_s = binding.base.refresh_ms / 1000
        if every_s > 0 and self.armed:
            key = binding.follower.name, binding.address
            self._refreshes[key] = _Refresh(binding, words, time.monotonic() + every_s, every_s)

    async def refresh(self, now: float) -> None:
        """Write again the output that has waited longest. Raises LineFault if the line is down, and Reopen."""
        refresh = min(self._refreshes.values(), key=lambda refresh: refresh.due)
        binding = refresh.binding
        follower = binding.follower.name
        partner = self._conversation.partners[follower]
        refresh.due = max(refresh.due + refresh.every_s, now)
        if partner.failures >= REFRESH_FAILURES:
            self._refreshes = {key: kept for key, kept in self._refreshes.items() if key[0] != follower}
            return
        request = _write_words(binding.follower.unit, binding.address, refresh.words)
        try:
            await self._conversation.ask(follower, request, self._line_permits)
        except Dropped:
            self._refreshes.clear()
        except LineFault as failed:
            if failed.fault.of_connection:
                raise


def _report(wanted: Wanted, kept: Value | None, *, same: bool) -> None:
    if same or kept == wanted.value:
        wanted.report(ok=True, kept=kept)
        return
    binding = wanted.binding
    held = "something that its encoding cannot mean" if kept is None else _said(binding, kept)
    reason = f"follower '{binding.follower.name}' kept {held} instead of {_said(binding, wanted.value)}"
    wanted.report(ok=False, kept=kept, reason=reason)


def _write_words(unit: int, address: int, words: tuple[int, ...]) -> Request:
    return write_register(unit, address, words[0]) if len(words) == 1 else write_registers(unit, address, words)


def _value(wanted: Wanted, words: tuple[int, ...]) -> Value | None:
    """What a signal's registers mean, if anything."""
    return wanted.binding.reading(words, 0.0).value


def _said(binding: Binding, value: Value) -> str:
    if isinstance(value, str):
        return f"'{value}'"
    signal = binding.signal
    return f"{number_digits(value, signal.decimals)} {signal.unit}".rstrip()
