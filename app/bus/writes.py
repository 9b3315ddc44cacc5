"""What is waiting to be written, and what became of it.

All writes of a line go out in the order in which they were asked for: a speed that is to hold before the start must be
there before it. Only what was asked for one after another may become one request: a newer set point takes the place of
the same signal's older one, and bits of one register are written together.
"""

from __future__ import annotations

import enum
import time
from collections.abc import Iterable
from concurrent.futures import Future, InvalidStateError
from contextlib import suppress
from dataclasses import dataclass, field

from app.project.binding import Binding
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
class Wanted:
    """One signal's value on its way, and who waits for the report."""

    binding: Binding
    value: Value
    futures: list[Future[WriteReport]]

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
        report = WriteReport(self.signal, self.value, kept, ok, reason, outcome, obstacle)
        for future in self.futures:
            with suppress(InvalidStateError):
                future.set_result(report)


@dataclass(slots=True)
class WriteJob:
    """What goes out in one request: one signal's registers or coil, or several bits of one register.

    `register` is the wire address of that one register and None for a signal's whole registers.
    """

    wanted: list[Wanted]
    register: int | None = None
    until: float | None = None
    """Of a release: until when it may go out although the line is no longer armed (monotonic seconds)."""

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

    def of(self, signal: str) -> Wanted | None:
        """What is wanted of that signal here, if anything."""
        return next((wanted for wanted in self.wanted if wanted.signal == signal), None)


@dataclass(slots=True)
class WriteQueue:
    """The writes of one line that wait, oldest first. Belongs to the engine's thread."""

    _jobs: list[WriteJob] = field(default_factory=list)

    def __len__(self) -> int:
        return len(self._jobs)

    def put(self, binding: Binding, value: Value, future: Future[WriteReport], until: float | None = None) -> None:
        """Let `value` wait to be written; `until` as in WriteJob."""
        register = None if binding.bit is None else binding.mask_write(0)[0]
        touching = [job for job in self._jobs if job.touches(binding, register)]
        last = touching[-1] if touching else None
        fresh = Wanted(binding, value, [future])
        if last is not None and last is self._jobs[-1] and last.register == register:
            same = last.of(fresh.signal)
            command = binding.single or register is not None
            if same is not None:
                # Of a command that changes its mind twice while waiting, the last two states are kept: a press that is
                # shorter than one pass of the line still arrives as a press and a release.
                if not command or same.value == value or len(touching) > 1:
                    same.replaced_by(value, future)
                    last.until = until
                    return
            elif register is not None:
                last.wanted.append(fresh)
                last.until = until
                return
        self._jobs.append(WriteJob([fresh], register, until))

    def take(self) -> WriteJob | None:
        """The oldest job, taken out, or None."""
        return self._jobs.pop(0) if self._jobs else None

    def drop(self, reason: str, obstacle: Obstacle) -> None:
        """Give up everything that waits, and say so."""
        jobs, self._jobs = self._jobs, []
        for job in jobs:
            drop(job.wanted, reason, obstacle=obstacle)


def drop(
    wanted: Iterable[Wanted],
    reason: str,
    outcome: Outcome = Outcome.NOT_SENT,
    obstacle: Obstacle | None = None,
) -> None:
    """Report that these were not written, or not for certain."""
    for one in wanted:
        one.report(ok=False, reason=reason, outcome=outcome, obstacle=obstacle)


def _extent(binding: Binding, register: int | None) -> tuple[int, int]:
    if register is not None:
        return register, register
    return binding.address, binding.address + binding.count - 1
