"""Writing to one line: only while it is armed, ahead of the reads, and read back to see what the follower kept.

What may start or raise something is sent once, and only while the line is sure: not while it is down, while the
follower does not answer, or while a stop of that follower is not proved. What a follower takes over later, nobody is
watching.

What stops something (`app.project.purpose`) is *owed*:

- It goes out at the next chance, ahead of all else: also while the follower does not answer, and as soon as a
  connection that is down or being opened is there. All it waits for is the exchange that is under way, and that no
  longer than its time-out, also where a slow follower would be listened for beyond it.
- It is sent again while it is not proved: at once the first time, then after pauses that leave others OTHERS of the
  line's time, however many stops are owed. What was not sent yet goes first, what is for followers that answer ahead
  of what is for silent ones: a dead drive must not keep the next one running.
- Proved means: acknowledged and read back; or, where the acknowledgement was lost, read back as wanted while the
  follower was known to hold something else before. What it has kept instead is an answer, too; it is told, and ends
  the stop. Only where all is as before it is sent once more: what acknowledged it may have been an echo, or an earlier
  answer. An exception ends no stop: a device that boots refuses what it takes a second later.
- Of a bit that shares its register the others are kept: the register is read first. Where that read brings no answer
  the register as it was read last will do, for `KNOWN_FOR_S`: a stop that never leaves is worse than a neighbour's bit
  of some seconds ago.
- It is given up after `OWED_S`, and that is told. By then somebody has stopped the machine in another way, or stands at
  it; a stop of long ago must not interrupt what is done there.
- The same stop asked for anew takes its place and begins its time anew.
- The release of a momentary action stays behind its own press, and is not sent if that never left.

A start that meets a stop:

- Asked for before the stop and still waiting: it is dropped. A stop that overtook it would else be undone by it.
- Under way: it cannot be called back. Its read-back is left out, and the stop follows at once.
- Asked for while the stop is on its first way: it waits behind it, and goes out only if the stop is proved by that try.
  So a start is late by one exchange at most.
- Asked for while the stop is not proved after that: it is refused. The operator starts again when the stop is proved or
  given up. Nothing else supersedes a stop.

Whether a value may be written is two questions. What the project and the follower allow is asked once before it comes
here (`app.project.capability.cannot_write`). What the line permits now is asked here, by one function: when the value
comes, since what cannot go out must not wait for a moment in which it could, and last of all as its request goes out.

Disarming drops all that waits, but for stops. When somebody disarms, stops get `engine.RELEASE_S`. When the
line disarms itself because a follower was lost, they keep their time, and stops asked for afterwards are sent, too: it
is the starts that nobody can be sure of.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.client.faults import Fault, FaultKind, LineFault
from app.errors import FanlightError
from app.language import translate
from app.line.followers import Followers
from app.line.readings import Readings
from app.line.states import Owed
from app.line.write_queue import Obstacle, Outcome, QueuedWrite, WriteJob, WriteQueue, WriteReport, drop, give_up
from app.modbus.requests import Request, mask_write, write_coil, write_coils, write_register, write_registers
from app.project.binding import Binding, bindings
from app.project.capability import write_function
from app.project.model import Project
from app.project.purpose import Purpose
from app.signals.reading import Value
from app.signals.text import spoken_digits

OWED_S: Final = 30.0
"""How long a stop is sent again while it is not proved, in seconds: longer than a switch, a converter or a drive takes
to come back after its supply was lost, and than an operator waits before he goes to the machine. Common practice, no
source."""
OTHERS: Final = 0.2
"""What reads and other writes get at least of a line's time while stops are owed; less only while each of these is sent
for the first time, or at once again."""
REFUSED_AGAIN_S: Final = 0.5
"""How long a stop that was refused waits at least for its next try, in seconds: refusals come quickly, and would leave
the line to nothing else."""
KNOWN_FOR_S: Final = 10.0
"""So long, in seconds, a register that was read counts as known for a stop of one of its bits: an operator who presses
stop again and again has gone to the machine by then. Common practice, no source."""
READ_BACK_AGAIN_S: Final = 0.05
"""A value read back unlike the written one is read once more after this time: some followers take it over late."""
REFRESH_FAILURES: Final = 2
"""After this many failures in a row a refreshed output is no longer written: the follower has stopped by itself by
then, and must not be started again by a value of long ago."""

STEADY_READS: Final = 4
"""Before bits of a register are changed it is read until two reads in a row agree, at most so many times."""
BIT_ATTEMPTS: Final = 3
"""So many times bits are cleared anew if somebody else wrote the register meanwhile and undid that."""

_REFUSED_OUTRIGHT: Final = (1, 2, 3)
"""Exception codes after which a register surely is as it was; who is busy (05, 06) may still carry the write out."""


class Dropped(FanlightError):
    """A write must not go out any more; the message says why."""

    def __init__(self, reason: str, obstacle: Obstacle | None) -> None:
        super().__init__(reason)
        self.obstacle = obstacle


@dataclass(slots=True)
class _Refresh:
    """An output that is written again and again; `due` is `time.monotonic()`."""

    binding: Binding
    words: tuple[int, ...]
    """The registers; or, with `masks`, nothing."""
    due: float
    every_s: float
    masks: tuple[int, int, int] | None = None
    """Of bits that are written by mask: their register, what to keep and what to put."""


class WriteExecutor:
    """The writes of one line. Everything but the plain flag `armed` belongs to the engine's event loop."""

    def __init__(
        self, project: Project, line: str, followers: Followers, readings: Readings, changed: Callable[[], None]
    ) -> None:
        self.armed = False
        self.down: Fault | None = None
        """Why the line is down; None while it is open."""
        self._line = line
        self._bound = bindings(project)
        self._followers = followers
        self._readings = readings
        self._changed = changed
        self._queue = WriteQueue()
        self._under_way: WriteJob | None = None
        self._refreshes: dict[tuple[str, int], _Refresh] = {}
        self._without_mask: set[str] = set()
        """Followers that refused function 22."""
        self._pressed: set[str] = set()
        """Signals that were perhaps given something else than 0: only these need a release."""

    @property
    def waiting(self) -> int:
        """Writes that wait or are under way."""
        return len(self._queue) + (self._under_way is not None)

    @property
    def owed(self) -> tuple[Owed, ...]:
        """The stops that are not proved yet."""
        stops = self._queue.stops
        if self._under_way is not None and self._under_way.stops:
            stops = (self._under_way, *stops)
        return tuple(
            Owed(wanted.signal, wanted.value, job.since, job.until, job.tries, job.reason)
            for job in stops
            for wanted in job.wanted
            if not wanted.reported
        )

    @property
    def stop_due(self) -> bool:
        """Whether a stop waits that should go out now."""
        now = time.monotonic()
        return any(job.due <= now for job in self._queue.stops)

    @property
    def write_deadline(self) -> float | None:
        """When something must go out that cannot wait (monotonic seconds), if anything."""
        due = [job.due for job in self._queue.stops]
        return min(due if self.refresh_due is None else [*due, self.refresh_due], default=None)

    @property
    def refresh_due(self) -> float | None:
        """When the next output has to be written again (monotonic seconds), if any."""
        return min((refresh.due for refresh in self._refreshes.values()), default=None)

    def want(
        self, binding: Binding, value: Value, future: Future[WriteReport], purpose: Purpose = Purpose.VALUE
    ) -> None:
        """Let a value wait to be written that the project allows, unless it could not go out now.

        That the line takes stops was asked before: while it was still armed for the release of a key that disarms it.
        """
        wanted = QueuedWrite(binding, value, [future])
        if purpose is not Purpose.VALUE:
            self._owe(wanted, purpose)
            return
        try:
            self._permits(binding)
        except Dropped as why:
            drop((wanted,), str(why), obstacle=why.obstacle)
            return
        self._queue.put(binding, value, future)

    def _owe(self, wanted: QueuedWrite, purpose: Purpose) -> None:
        signal, now = wanted.signal, time.monotonic()
        if purpose is Purpose.RELEASE and signal not in self._pressed and not self._queue.has(signal):
            under_way = self._under_way is not None and self._under_way.of(signal) is not None
            if not under_way:
                drop((wanted,), translate("bus", "the key press was not sent"))
                return
        self._queue.owe(wanted.binding, wanted.value, wanted.futures[0], purpose, since=now, until=now + OWED_S)
        self._changed()

    def forget(self, reason: str, obstacle: Obstacle = Obstacle.DOWN, until: float | None = None) -> None:
        """Drop what waits, and say so; write nothing again. Stops stay, no longer than `until` (monotonic seconds)."""
        self._queue.drop_values(reason, obstacle)
        self._refreshes.clear()
        for job in self._stops_at_work():
            job.until = job.until if until is None else min(job.until, until)

    def end(self, reason: str) -> None:
        """Drop all that waits, stops too, and say so."""
        self._refreshes.clear()
        self._queue.drop(reason, Obstacle.DOWN)

    def note_connected(self) -> None:
        """The line is open: what is owed goes out at once."""
        self.down = None
        for job in self._queue.stops:
            job.due = 0.0

    def drop_late(self, now: float) -> None:
        """Give up the stops whose time is over."""
        if self._queue.drop_late(now):
            self._changed()

    def _stops_at_work(self) -> tuple[WriteJob, ...]:
        under_way = self._under_way
        return (*self._queue.stops, *((under_way,) if under_way is not None and under_way.stops else ()))

    async def one(self) -> bool:
        """Write what goes out next; gives whether anything did.

        Raises LineFault if the line is down, and Reopen.
        """
        began = time.monotonic()
        silent = {name for name, polled in self._followers.polled_followers.items() if polled.answering is False}
        job = self._queue.take(began, silent)
        if job is None:
            return False
        self._under_way = job
        # Told once: after a try that was not answered nothing of the follower is good.
        job.differed |= all(self._readings.known_value(one.signal) not in (None, one.value) for one in job.wanted)
        refreshed = {key: kept for key, kept in self._refreshes.items() if job.touches(kept.binding, None)}
        unchanged = False
        try:
            if job.register is None:
                await self._write_signal(job)
            else:
                await self._write_bits(job, job.register)
        except Dropped as why:
            give_up(job, str(why), why.obstacle)
        except LineFault as failed:
            fault = failed.fault
            if fault.kind is FaultKind.EXCEPTION:
                unchanged = fault.code in _REFUSED_OUTRIGHT
                reason = translate("bus", "device '{follower}' {sentence}").format(
                    follower=job.follower, sentence=fault.sentence
                )
                if job.stops:
                    job.reason, job.refused = reason, True
                else:
                    drop(job.wanted, reason, Outcome.REFUSED)
            else:
                self._report_unproved(job, _unsure(fault.sentence))
            if fault.of_connection:
                raise
        finally:
            self._under_way = None
            if not unchanged:
                # What was to be replaced and may have been is not written again: a stop whose answer was lost must not
                # be undone. What was written anew has another entry.
                self._refreshes = {key: kept for key, kept in self._refreshes.items() if refreshed.get(key) is not kept}
            # Only who has no report yet:
            if job.stops:
                self._owe_again(job, time.monotonic() - began)
            else:
                drop(job.wanted, _unsure(translate("bus", "the connection was closed")), Outcome.UNPROVED)
            self._changed()
        return True

    def _report_unproved(self, job: WriteJob, reason: str) -> None:
        """Say that it is not sure whether it was written; of a stop only once it is given up."""
        job.reason = reason
        if not job.stops:
            drop(job.wanted, reason, Outcome.UNPROVED)

    def _owe_again(self, job: WriteJob, took_s: float) -> None:
        """Let what is not proved of a stop wait for its next try, and drop the starts that wait behind it."""
        job.tries += 1
        self._pressed -= {wanted.signal for wanted in job.wanted if wanted.done}
        job.wanted = [wanted for wanted in job.wanted if not wanted.reported]
        if not job.wanted:
            return
        self._queue.drop_values(self._not_proved(job), Obstacle.STOP_FIRST, job.follower)
        now = time.monotonic()
        if now >= job.until:
            give_up(job, translate("bus", "the connection was closed"), Obstacle.DOWN)
            return
        self._queue.put_back(job)
        if job.tries == 1:
            job.due = now
            return
        for stop in self._queue.stops:
            if stop.tries:
                stop.due = max(stop.due, now + took_s * OTHERS / (1 - OTHERS))
        if job.refused:
            job.due, job.refused = max(job.due, now + REFUSED_AGAIN_S), False

    @staticmethod
    def _not_proved(job: WriteJob) -> str:
        return translate("bus", "a stop of device '{name}' ('{signal}') is not confirmed yet").format(
            name=job.follower, signal=job.wanted[0].signal
        )

    def _unless_owed(self, binding: Binding) -> None:
        """Raises Dropped if a stop of that follower was sent and is not proved."""
        for job in self._stops_at_work():
            if job.follower == binding.follower.name and job.tries:
                raise Dropped(self._not_proved(job), Obstacle.STOP_FIRST)

    def _gives_way(self, job: WriteJob) -> bool:
        """Whether a stop of the same follower waits: another one than the release of this very press."""
        return not job.stops and any(
            stop.follower == job.follower
            and not (stop.purpose is Purpose.RELEASE and stop.touches(job.wanted[0].binding, job.register))
            for stop in self._queue.stops
        )

    def _line_permits(self) -> None:
        """Raises Dropped if nothing may be written to this line now."""
        if not self.armed:
            raise Dropped(translate("bus", "line '{line}' is not armed").format(line=self._line), Obstacle.NOT_ARMED)
        if self.down is not None:
            raise Dropped(
                translate("bus", "line '{line}' is down: {sentence}").format(
                    line=self._line, sentence=self.down.sentence
                ),
                Obstacle.DOWN,
            )

    def _permits(self, binding: Binding, job: WriteJob | None = None) -> None:
        """Raises Dropped if nothing may be written to that follower now: asked to wait for it, and as it goes out.

        To a follower that does not answer nothing is sent but stops: what it takes over later, nobody is watching.
        """
        if job is not None and job.stops:
            if time.monotonic() > job.until:
                raise Dropped(job.reason or translate("bus", "too late to be sent"), Obstacle.DOWN)
            if job.purpose is Purpose.RELEASE and job.wanted[0].signal not in self._pressed:
                raise Dropped(translate("bus", "the key press was not sent"), None)
            return
        self._line_permits()
        self._unless_owed(binding)
        if job is not None and self._gives_way(job):
            raise Dropped(translate("bus", "a stop was requested in the meantime"), Obstacle.STOP_FIRST)
        polled = self._followers.polled_followers[binding.follower.name]
        if polled.answering is False:
            reason = polled.fault.sentence if polled.fault else translate("bus", "the device could not be reached")
            raise Dropped(
                translate("bus", "device '{name}' does not answer: {reason}").format(
                    name=binding.follower.name, reason=reason
                ),
                Obstacle.NO_ANSWER,
            )

    async def _send(self, job: WriteJob, request: Request) -> None:
        """Send one write, once: what may start something is not sent again by itself."""
        binding = job.wanted[0].binding

        def permit() -> None:
            self._permits(binding, job)
            for wanted in job.wanted:
                if wanted.value:
                    self._pressed.add(wanted.signal)

        job.acknowledged = True
        try:
            await self._followers.ask(
                binding.follower.name, request, permit, at_once=job.stops and not job.tries, patient=not job.stops
            )
        except LineFault as failed:
            if not job.stops or failed.fault.of_connection or failed.fault.kind is FaultKind.EXCEPTION or not job.tries:
                raise  # the first time it is sent again before anything is read
            # It may have arrived all the same, and that can be seen.
            job.acknowledged, job.reason = False, _unsure(failed.fault.sentence)

    async def _write_signal(self, job: WriteJob) -> None:
        (wanted,) = job.wanted
        binding = wanted.binding
        former = self._readings.known_value(wanted.signal)
        encoded = binding.encode(wanted.value)
        asked: tuple[int, ...] = (encoded,) if isinstance(encoded, bool) else encoded
        await self._send(job, _request(binding, asked))
        if not binding.single:
            self._keep_fresh(_Refresh(binding, asked, 0.0, 0.0))
        words = await self._read_back(job, lambda words: words == asked)
        if words is not None:
            self._judge(job, wanted, words, former, same=words == asked)

    async def _write_bits(self, job: WriteJob, register: int) -> None:
        """Change bits of one register and keep its others."""
        binding = job.wanted[0].binding
        follower = binding.follower
        former = {bit.signal: self._readings.known_value(bit.signal) for bit in job.wanted}
        keep, put = 0xFFFF, 0
        for bit in job.wanted:
            _, and_mask, or_mask = bit.binding.mask_write(bit.value)
            keep, put = keep & and_mask, put & and_mask | or_mask
        words, note = None, ""
        if write_function(binding) == 22 and follower.name not in self._without_mask:
            try:
                await self._send(job, mask_write(follower.unit, register, keep, put))
            except LineFault as failed:
                if failed.fault.code != 1 or not {6, 16} & set(follower.write_functions):
                    raise
                self._without_mask.add(follower.name)
                words, note = await self._change_word(job, register, keep, put)
            else:
                self._keep_fresh(_Refresh(binding, (), 0.0, 0.0, (register, keep, put)))
                words = await self._read_back(job, lambda words: _all_kept(job, words))
        else:
            words, note = await self._change_word(job, register, keep, put)
        if words is None:
            return
        for bit in job.wanted:
            self._judge(job, bit, words, former[bit.signal], note=note)

    def _judge(
        self,
        job: WriteJob,
        wanted: QueuedWrite,
        words: tuple[int, ...],
        former: Value | None,
        *,
        same: bool = False,
        note: str = "",
    ) -> None:
        """Report what was read back; but a stop after which all is as before is sent once more first."""
        kept = _value(wanted, words)
        if job.stops and not job.tries and not same and kept == former != wanted.value:
            job.reason = translate("bus", "acknowledged, but nothing changed")
            return
        _report(wanted, kept, former, same=same, note=note)

    async def _change_word(
        self, job: WriteJob, register: int, keep: int, put: int
    ) -> tuple[tuple[int, ...] | None, str]:
        """Read a register until it stands still, change its bits, write it, read it back, and again if need be.

        What another client or the follower itself changes in the register shows between two reads, and is then kept;
        what undoes our bits after the write shows when it is read back. Bits that were cleared are then cleared anew;
        bits that were set are not: somebody may have stopped what they started. Only a change between the last read and
        the write, the time of one frame, cannot be seen. Gives the registers read back, None
        if they cannot be (which is then reported), and what could not be proved.
        """
        binding = job.wanted[0].binding
        follower, place = binding.follower.name, register - binding.address
        note = ""
        words: tuple[int, ...] | None = None
        for _ in range(1 if put else BIT_ATTEMPTS):
            self._permits(binding, job)
            word, note = await self._word_now(job, register)
            for _ in range(STEADY_READS - 1):
                if job.stops:
                    break  # each read more is one more that a bad line can lose
                self._permits(binding, job)
                former = word
                (word,) = await self._followers.registers(follower, binding.table, register, 1)
                if word == former:
                    break
            else:
                note = translate(
                    "bus", "register {number} keeps changing; its other bits may have been overwritten"
                ).format(number=binding.base.number + place)
            asked = word & keep | put
            await self._send(job, _write_words(binding, register, (asked,)))
            words = await self._read_back(job, lambda words: _all_kept(job, words))
            if words is None:
                return None, note
            if _all_kept(job, words):
                self._keep_fresh(_Refresh(binding, words, 0.0, 0.0))
                return words, note
            if not (words[place] ^ asked) & keep:
                return words, note  # nobody else wrote: the follower did not take it
        somebody = (
            translate("bus", "another client wrote register {number}")
            if put
            else translate("bus", "another client keeps writing register {number}")
        )
        return words, somebody.format(number=binding.base.number + place)

    async def _word_now(self, job: WriteJob, register: int) -> tuple[int, str]:
        """A register before some of its bits are changed, and a remark if it is not what it holds now.

        A stop does not wait for it: where the device does not answer, or refuses, the register as it was read last
        will do, if that is no longer ago than KNOWN_FOR_S. Raises LineFault if there is none, or the line is down.
        """
        binding = job.wanted[0].binding
        try:
            (word,) = await self._followers.registers(binding.follower.name, binding.table, register, 1)
        except LineFault as failed:
            known = self._readings.words(binding.base.name, time.monotonic() - KNOWN_FOR_S)
            if not job.stops or failed.fault.of_connection or known is None:
                raise
            return known[register - binding.address], translate(
                "bus", "the other bits of register {number} were written with the values last read"
            ).format(number=binding.base.number + register - binding.address)
        return word, ""

    async def _read_back(self, job: WriteJob, kept: Callable[[tuple[int, ...]], bool]) -> tuple[int, ...] | None:
        """The registers as they are after a write; they become the reading of their signal too.

        They are read a second time if not `kept`. None if they cannot be read, which is then reported. Raises
        LineFault if the line is down.
        """
        binding = job.wanted[0].binding
        if self._gives_way(job):
            self._report_unproved(job, translate("bus", "acknowledged, but not read back: a stop took priority"))
            return None
        where = binding.follower.name, binding.table, binding.address, binding.count
        try:
            words = await self._followers.registers(*where)
            if not kept(words):
                await asyncio.sleep(READ_BACK_AGAIN_S)
                words = await self._followers.registers(*where)
        except LineFault as failed:
            fault = failed.fault
            reason = translate("bus", "acknowledged, but not read back: {sentence}").format(sentence=fault.sentence)
            sure = job.acknowledged and self._followers.polled_followers[where[0]].acknowledged
            if sure and fault.kind is FaultKind.EXCEPTION and fault.code in _REFUSED_OUTRIGHT:
                # A register that can only be written was acknowledged; more than that nobody can know.
                for one in job.wanted:
                    one.report(ok=True, reason=reason)
            elif job.acknowledged:
                self._report_unproved(job, reason)
            if fault.of_connection:
                raise
            return None
        base = self._bound.get(binding.base.name)
        if base is not None:
            self._readings.take(base, words, time.monotonic())
            self._changed()
        if not job.acknowledged and not (job.differed and kept(words)):
            return None
        return words

    def _keep_fresh(self, refresh: _Refresh) -> None:
        """Write these registers or bits again from now on, if their signal asks for it.

        Only what this program has written on this connection, while armed, is written again.
        """
        binding = refresh.binding
        refresh.every_s = binding.base.refresh_ms / 1000
        if refresh.every_s <= 0 or not self.armed:
            return
        key = binding.follower.name, binding.address
        former = self._refreshes.get(key)
        if refresh.masks is not None and former is not None:
            register, keep, put = refresh.masks
            if former.masks is None:
                place = register - binding.address
                words = list(former.words)
                words[place] = words[place] & keep | put
                refresh.words, refresh.masks = tuple(words), None
            elif former.masks[0] == register:
                refresh.masks = register, former.masks[1] & keep, former.masks[2] & keep | put
        refresh.due = time.monotonic() + refresh.every_s
        self._refreshes[key] = refresh

    async def refresh(self, now: float) -> None:
        """Write again the output that has waited longest. Raises LineFault if the line is down, and Reopen."""
        refresh = min(self._refreshes.values(), key=lambda refresh: refresh.due)
        binding = refresh.binding
        follower = binding.follower.name
        polled = self._followers.polled_followers[follower]
        refresh.due = max(refresh.due + refresh.every_s, now)
        if polled.failures >= REFRESH_FAILURES:
            self._refreshes = {key: kept for key, kept in self._refreshes.items() if key[0] != follower}
            return
        if refresh.masks is not None:
            request = mask_write(binding.follower.unit, *refresh.masks)
        else:
            request = _write_words(binding, binding.address, refresh.words)
        try:
            await self._followers.ask(follower, request, self._line_permits)
        except Dropped:
            self._refreshes.clear()
        except LineFault as failed:
            if failed.fault.of_connection:
                raise


def _report(wanted: QueuedWrite, kept: Value | None, former: Value | None, *, same: bool, note: str = "") -> None:
    """What the follower kept, against what it held before, as far as that is known."""
    if same or kept == wanted.value:
        wanted.report(ok=True, kept=kept, reason=note)
        return
    binding = wanted.binding
    held = translate("bus", "a value that its data type cannot hold") if kept is None else _value_text(binding, kept)
    reason = translate("bus", "device '{name}' kept {held} instead of {wanted}").format(
        name=binding.follower.name, held=held, wanted=_value_text(binding, wanted.value)
    )
    outcome = Outcome.CHANGED
    if kept is not None and kept == former:
        outcome = Outcome.IGNORED
        reason = translate(
            "bus",
            "{kept}, unchanged: the register may be read-only, limited, or not writable in the device's present state",
        ).format(kept=reason)
    elif _between(former, kept, wanted.value):
        outcome = Outcome.LIMITED
        reason = translate(
            "bus", "{kept}: the device limits this value; compare its limits with those of the signal"
        ).format(kept=reason)
    wanted.report(ok=False, kept=kept, reason=f"{reason}; {note}" if note else reason, outcome=outcome)


def _unsure(why: str) -> str:
    return translate("bus", "not acknowledged, but may have been written: {why}").format(why=why)


def _between(former: Value | None, kept: Value | None, wanted: Value) -> bool:
    if not isinstance(kept, Fraction) or not isinstance(former, Fraction) or not isinstance(wanted, Fraction):
        return False
    return min(former, wanted) < kept < max(former, wanted)


def _request(binding: Binding, words: tuple[int, ...]) -> Request:
    """The write of a whole signal with a function that its follower offers."""
    if not binding.single:
        return _write_words(binding, binding.address, words)
    unit, on = binding.follower.unit, bool(words[0])
    if 5 in binding.follower.write_functions:
        return write_coil(unit, binding.address, on)
    return write_coils(unit, binding.address, (on,))


def _write_words(binding: Binding, address: int, words: tuple[int, ...]) -> Request:
    unit = binding.follower.unit
    if len(words) == 1 and 6 in binding.follower.write_functions:
        return write_register(unit, address, words[0])
    return write_registers(unit, address, words)


def _all_kept(job: WriteJob, words: tuple[int, ...]) -> bool:
    return all(_value(bit, words) == bit.value for bit in job.wanted)


def _value(wanted: QueuedWrite, words: tuple[int, ...]) -> Value | None:
    """What a signal's registers mean, if anything."""
    return wanted.binding.reading(words, 0.0).value


def _value_text(binding: Binding, value: Value) -> str:
    if isinstance(value, str):
        return f"'{value}'"
    signal = binding.signal
    return f"{spoken_digits(value, signal.decimals)} {signal.unit}".rstrip()
