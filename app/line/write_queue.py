"""What is waiting to be written, and what became of it.

All writes of a line go out in the order in which they were asked for: a speed that is to hold before the start must be
there before it. Only what was asked for one after another may become one request: a newer set point takes the place of
the same signal's older one, and bits of one register are written together.

What stops something overtakes all of them, and what still waits for its follower is dropped: a start that was asked for
before the stop must not go out behind it. Only the release of a momentary action stays behind its own press, so that a
press that is shorter than one pass of the line still arrives as both.
"""

from __future__ import annotations

import enum
import time
from collections.abc import Collection, Iterable
from concurrent.futures import Future, InvalidStateError
from contextlib import suppress
from dataclasses import dataclass, field

from app.language import translate
from app.project.binding import Binding
from app.project.purpose import Purpose
from app.signals.reading import Value


class Outcome(enum.StrEnum):
    """What became of a write, in one word."""

    KEPT = "kept"
    """The follower holds what was written; or it acknowledged what cannot be read back."""
    LIMITED = "limited"
    """It holds a value between the former and the wanted one."""
    IGNORED = "ignored"
    """It acknowledged, and holds what it held before."""
    CHANGED = "changed"
    """It holds another value."""
    REFUSED = "refused"
    """It answered with an exception."""
    UNPROVED = "unproved"
    """It did not acknowledge, or could not be read back."""
    NOT_SENT = "not-sent"
    """Nothing was sent."""


class Obstacle(enum.StrEnum):
    """Why nothing was sent, where that lies with the line."""

    NOT_ARMED = "not-armed"
    DOWN = "down"
    """The line is down, or was given up or stopped before the write's turn came."""
    NO_ANSWER = "no-answer"
    """The follower does not answer."""
    STOP_FIRST = "stop-first"
    """A stop of the same follower goes first, or is not proved yet."""


@dataclass(frozen=True, slots=True)
class WriteReport:
    """What became of a write.

    `wanted` is the value that was written last for this call (a newer one may have taken its place), `kept` the value
    that the follower held when it was read back, or None if it was not read back. `ok` says that it was written and,
    as far as it could be read back, kept; `reason` says in words why not, or what could not be proved. `obstacle` tells
    why nothing was sent; None where the value or the design is why. `at` is `time.monotonic()` when that was known.
    """

    signal: str
    wanted: Value
    kept: Value | None
    ok: bool
    reason: str = ""
    outcome: Outcome = Outcome.KEPT
    obstacle: Obstacle | None = None
    at: float = field(default_factory=time.monotonic, compare=False)


@dataclass(slots=True)
class QueuedWrite:
    """One signal's value on its way, and who waits for the report."""

    binding: Binding
    value: Value
    futures: list[Future[WriteReport]]
    reported: bool = False
    done: bool = False
    """Whether the report said that it is written."""

    @property
    def signal(self) -> str:
        """The signal's name."""
        return self.binding.signal.name

    def replaced_by(self, value: Value, future: Future[WriteReport]) -> None:
        """A newer value takes this one's place; both callers get its report."""
        self.value = value
        self.futures.append(future)

    def report(
        self,
        *,
        ok: bool,
        kept: Value | None = None,
        reason: str = "",
        outcome: Outcome = Outcome.KEPT,
        obstacle: Obstacle | None = None,
    ) -> None:
        """Tell everyone who waits. Cancelled calls are passed over."""
        self.reported, self.done = True, ok
        report = WriteReport(self.signal, self.value, kept, ok, reason, outcome, obstacle)
        for future in self.futures:
            with suppress(InvalidStateError):
                future.set_result(report)


@dataclass(slots=True)
class WriteJob:
    """What goes out in one request: one signal's registers or coil, or several bits of one register.

    `register` is the wire address of that one register and None for a signal's whole registers.
    """

    wanted: list[QueuedWrite]
    register: int | None = None
    purpose: Purpose = Purpose.VALUE
    since: float = 0.0
    """Of a stop, here and below (monotonic seconds): when it was asked for."""
    until: float = 0.0
    """How long it is sent again while it is not proved."""
    due: float = 0.0
    """When it goes out next."""
    tries: int = 0
    """How often it went out, or would have."""
    reason: str = ""
    """Why it is not proved yet."""
    refused: bool = False
    """Whether the last try was refused with an exception."""
    acknowledged: bool = True
    """Whether the last try was."""
    differed: bool = False
    """Whether the follower was known to hold something else before a try."""

    @property
    def stops(self) -> bool:
        """Whether it is owed."""
        return self.purpose is not Purpose.VALUE

    @property
    def follower(self) -> str:
        """The follower's name."""
        return self.wanted[0].binding.follower.name

    def touches(self, binding: Binding, register: int | None) -> bool:
        """Whether it writes any register that `binding` (or its one `register`) stands in."""
        own = self.wanted[0].binding
        if own.follower.name != binding.follower.name or own.table != binding.table:
            return False
        first, last = _extent(own, self.register)
        other_first, other_last = _extent(binding, register)
        return first <= other_last and other_first <= last

    def of(self, signal: str) -> QueuedWrite | None:
        """What is wanted of that signal here, if anything."""
        return next((wanted for wanted in self.wanted if wanted.signal == signal), None)


@dataclass(slots=True)
class WriteQueue:
    """The writes of one line that wait, oldest first. Belongs to the engine's thread."""

    _jobs: list[WriteJob] = field(default_factory=list)

    def __len__(self) -> int:
        return len(self._jobs)

    def put(self, binding: Binding, value: Value, future: Future[WriteReport]) -> None:
        """Let `value` wait to be written."""
        register = _register(binding)
        touching = [job for job in self._jobs if job.touches(binding, register)]
        last = touching[-1] if touching else None
        fresh = QueuedWrite(binding, value, [future])
        if last is not None and last is self._jobs[-1] and last.register == register and not last.stops:
            same = last.of(fresh.signal)
            command = binding.single or register is not None
            if same is not None:
                # Of a command that changes its mind twice while waiting, the last two states are kept: a press that is
                # shorter than one pass of the line still arrives as a press and a release.
                if not command or same.value == value or len(touching) > 1:
                    same.replaced_by(value, future)
                    return
            elif register is not None:
                last.wanted.append(fresh)
                return
        self._jobs.append(WriteJob([fresh], register))

    def owe(
        self,
        binding: Binding,
        value: Value,
        future: Future[WriteReport],
        purpose: Purpose,
        *,
        since: float,
        until: float,
    ) -> None:
        """Let a `value` that stops something wait, ahead of what does not; times as in WriteJob."""
        register = _register(binding)
        fresh = WriteJob([QueuedWrite(binding, value, [future])], register, purpose, since, until)
        behind = 0
        if purpose is Purpose.RELEASE:
            waiting = [job for job in self._jobs if not job.stops and job.touches(binding, register)]
            behind = self._jobs.index(waiting[-1]) + 1 if waiting else 0
        else:
            self.drop_values(
                translate("bus", "a stop was requested in the meantime"), Obstacle.STOP_FIRST, binding.follower.name
            )
        if not behind:
            for job in self._jobs:
                same = job.of(fresh.wanted[0].signal) if job.stops else None
                if same is not None:
                    same.replaced_by(value, future)
                    job.until, job.due = max(job.until, until), 0.0
                    return
            stops = [job for job in self._jobs if job.stops]
            behind = self._jobs.index(stops[-1]) + 1 if stops else 0
        self._jobs.insert(behind, fresh)

    def put_back(self, job: WriteJob) -> None:
        """Let a stop wait again that is not proved; what was asked for anew meanwhile takes its place."""
        for wanted in list(job.wanted):
            newer = next((other for other in self._jobs if other.stops and other.of(wanted.signal)), None)
            if newer is not None:
                newer.wanted[0].futures += wanted.futures
                newer.differed |= job.differed
                job.wanted.remove(wanted)
        if job.wanted:
            self._jobs.append(job)

    def take(self, now: float, silent: Collection[str] = ()) -> WriteJob | None:
        """What goes out next, taken out: a stop that is due, else the oldest of the others. None if nothing does.

        Of stops, what was never sent goes ahead of what is sent again, then what is not for a `silent` follower, then
        what has waited longest.
        """
        due = [job for job in self._jobs if job.stops and job.due <= now]
        if due:
            job = min(due, key=lambda job: (job.tries > 0, job.follower in silent))
            # A press that its release may not overtake goes with it.
            first = next(
                other
                for other in self._jobs
                if other is job or (not other.stops and other.touches(job.wanted[0].binding, job.register))
            )
            self._jobs.remove(first)
            return first
        for job in self._jobs:
            if not job.stops:
                self._jobs.remove(job)
                return job
        return None

    def has(self, signal: str) -> bool:
        """Whether anything waits to be written to that signal."""
        return any(job.of(signal) is not None for job in self._jobs)

    @property
    def stops(self) -> tuple[WriteJob, ...]:
        """The stops that wait."""
        return tuple(job for job in self._jobs if job.stops)

    def drop(self, reason: str, obstacle: Obstacle) -> None:
        """Give up everything that waits, and say so."""
        self.drop_values(reason, obstacle)
        jobs, self._jobs = self._jobs, []
        for job in jobs:
            give_up(job, reason, obstacle)

    def drop_values(self, reason: str, obstacle: Obstacle, follower: str | None = None) -> None:
        """Give up what waits (for `follower`, or for all of them) and does not stop anything, and say so."""
        dropped = [job for job in self._jobs if not job.stops and follower in (None, job.follower)]
        self._jobs = [job for job in self._jobs if job not in dropped]
        for job in dropped:
            drop(job.wanted, reason, obstacle=obstacle)

    def drop_late(self, now: float) -> bool:
        """Give up the stops whose time is over, and say so. Gives whether there were any."""
        late = [job for job in self._jobs if job.stops and job.until <= now]
        self._jobs = [job for job in self._jobs if job not in late]
        for job in late:
            give_up(job, job.reason or translate("bus", "it could not be sent"), Obstacle.DOWN)
        return bool(late)


def give_up(job: WriteJob, reason: str, obstacle: Obstacle | None) -> None:
    """Report that it is not written; of what was sent, that it is not proved."""
    if job.tries:
        drop(job.wanted, job.reason or reason, Outcome.UNPROVED)
    else:
        drop(job.wanted, reason, obstacle=obstacle)


def drop(
    wanted: Iterable[QueuedWrite],
    reason: str,
    outcome: Outcome = Outcome.NOT_SENT,
    obstacle: Obstacle | None = None,
) -> None:
    """Report that these were not written, or not for certain; those that were reported already are passed over."""
    for one in wanted:
        if not one.reported:
            one.report(ok=False, reason=reason, outcome=outcome, obstacle=obstacle)


def _register(binding: Binding) -> int | None:
    """The wire address of the register that a bit stands in; None for whole registers."""
    return None if binding.bit is None else binding.mask_write(0)[0]


def _extent(binding: Binding, register: int | None) -> tuple[int, int]:
    if register is not None:
        return register, register
    return binding.address, binding.address + binding.count - 1
