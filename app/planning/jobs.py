"""The reads that a line makes: those of its plan, and what is asked instead of one that the follower refuses.

A follower refuses a whole read for a single register that it does not have, and says not which. So the read is asked in
halves, at once, until each piece is answered or is one signal alone, which is then guilty. What lies around the guilty
is read together again; the guilty are asked alone, ever more rarely.

No split is for good. A device that boots refuses everything for a while. So a search that finds nothing good gives up
soon: the read is made as ever, and its first answer ends the matter. Where some was good, the whole read is tried again
at the end of the search, when something guilty is answered, and else ever more rarely. Its answer puts it back in the
place of its pieces.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final

from app.client.timing import Pace
from app.modbus.requests import Request
from app.planning.plan import Read, reads_of
from app.planning.spans import AddressRange
from app.project.binding import Binding
from app.project.capability import never_read
from app.project.model import Follower

AGAIN_S: Final = 2.0
"""After so many seconds what was refused is asked for again; twice as many with every further refusal."""
LONGEST_S: Final = 64.0
"""The longest, in seconds, that what was refused is left alone."""
REFUSALS_WITHOUT_ANSWER: Final = 16
"""A search gives up after so many refusals if nothing was answered; the next one after twice as many."""


@dataclass(slots=True, eq=False)
class Job:
    """One read, its request, and where each signal stands: its address and its width."""

    read: Read
    request: Request
    parts: tuple[tuple[Binding, int, int], ...]
    piece_of: Split | None = None
    """The search in which it is to be judged, or was found guilty."""
    half_of: _Parted | None = None
    tries: Split | None = None
    """It asks for the whole of what was split."""
    refusals: int = 0
    """How often in a row it was refused; of a whole read, how many searches found nothing good."""
    search_at: float = 0.0
    """If it is refused before this time (monotonic seconds), no search begins."""
    retired: bool = False
    """Others have taken its place."""
    alone: bool = False
    """Its follower refused to read more along with it."""
    signals: tuple[str, ...] = field(init=False)
    """What it brings."""

    def __post_init__(self) -> None:
        self.signals = self.read.signals

    @property
    def every_s(self) -> float:
        """How often it is to be made, in seconds."""
        return self.read.every_ms / 1000


@dataclass(slots=True)
class _Parted:
    """A refused read parted in two: if both are answered, the follower cannot read across the `gap` between them."""

    gap: AddressRange
    answered: int = 0


@dataclass(slots=True, eq=False)
class Split:
    """A read that was refused, and what is known of its pieces."""

    read: Read
    patience: int
    """Refusals before the search gives up, while nothing was answered."""
    open: int = 1
    """Pieces that are not judged yet."""
    answered: bool = False
    """Whether any piece was."""
    guilty: list[Job] = field(default_factory=list)
    barriers: list[AddressRange] = field(default_factory=list)
    """Gaps that the follower cannot read across."""
    whole: Job | None = None
    """What tries the whole read again."""
    tried: int = 0
    """How often in a row that was refused."""
    loose: bool = False
    """Something guilty was answered since the good ones were joined."""


class Jobs:
    """The reads of one line as they are made now. Belongs to the engine's event loop, and asks nothing itself."""

    def __init__(
        self,
        reads: Iterable[Read],
        make: Callable[[Read], Job],
        put: Callable[[Job, float], None],
        followers: Mapping[str, Follower],
        pace: Pace,
    ) -> None:
        """`make` makes a read's job; `put` lets a job be due at a time (monotonic seconds)."""
        self._make, self._put, self._followers, self._pace = make, put, followers, pace
        self._alive = [make(read) for read in reads]

    def __iter__(self) -> Iterator[Job]:
        return iter(self._alive)

    def note_answer(self, job: Job, now: float) -> None:
        """A job was answered. It is due again as ever, by whoever asked."""
        if job.retired:
            return
        job.refusals = 0
        split = job.piece_of
        if job.tries is not None:
            self._replace(job.signals, [self._make(job.read)], now + job.every_s)
        elif split is not None:
            job.piece_of = None
            if job in split.guilty:
                split.guilty.remove(job)
                split.loose = True
                self._try_whole(split, now)
                return
            split.answered = True
            if job.half_of is not None:
                job.half_of.answered += 1
                first, end = job.half_of.gap
                if job.half_of.answered == 2 and first < end:
                    split.barriers.append((first, end))
            self._note_piece(split, now)

    def note_refusal(self, job: Job, now: float, *, known: bool, divisible: bool = True) -> Job | None:
        """A job was refused: it is put again, or others in its place.

        `known`: it was answered before, so the follower has what is asked; `divisible`: it may be refused for one of
        its registers. Gives the job whose signals must be called refused; None while a search, or what was found
        before, may still bring them.
        """
        if job.retired:
            return None
        if job.tries is not None:
            self._still_refused(job.tries, now)
            return None
        split = job.piece_of
        if split is not None and job not in split.guilty:
            split.patience -= 1
            if split.patience < 0 and not split.answered:
                return self._given_up(split, now)
        halves = job.read.halves(self._pace) if divisible else None
        if halves is None:
            longest = LONGEST_S if not known else AGAIN_S if split is not None else 0.0
            self._put(job, now + max(job.every_s, min(longest, _pause(job.refusals))))
            job.refusals += 1
            if split is not None and job not in split.guilty:
                split.guilty.append(job)
                return self._note_piece(split, now) or job
            return job
        if split is None:
            if now < job.search_at:
                self._put(job, now + job.every_s)
                return job
            split = Split(job.read, REFUSALS_WITHOUT_ANSWER << min(job.refusals, 10))
            split.tried = job.refusals
        first, last = halves
        parted = _Parted((first.address + first.count, last.address))
        pieces = [self._make(half) for half in halves]
        for piece in pieces:
            piece.piece_of, piece.half_of = split, parted
        split.open += 1
        self._replace(job.signals, pieces, now)
        return None

    def _note_piece(self, split: Split, now: float) -> Job | None:
        """One piece was judged. After the last one what is good is joined."""
        split.open -= 1
        if split.open:
            return None
        if not split.answered:
            return self._given_up(split, now)
        self._join(split, now)
        self._try_whole(split, now)  # the follower may have booted meanwhile
        return None

    def _given_up(self, split: Split, now: float) -> Job:
        """Nothing of it is good: it is asked as a whole, and searched again after a while."""
        whole = self._make(split.read)
        pause = _pause(split.tried)
        whole.refusals, whole.search_at = split.tried + 1, now + pause
        self._replace(whole.signals, [whole], now + min(whole.every_s, pause))
        return whole

    def _join(self, split: Split, now: float) -> None:
        """Read what is good together again, around what is not."""
        split.loose = False
        if not split.guilty and not split.barriers:
            return  # all of it can be had, but not at once: the pieces stay
        guilty = {name for job in split.guilty for name in job.signals}
        spans = [span for span in split.read.spans if span.signal not in guilty]
        follower, table = self._followers[split.read.follower], split.read.table
        bad = [(job.read.address, job.read.address + job.read.count) for job in split.guilty]
        never = [
            (first, end)
            for first, end in (*never_read(follower, table), *split.barriers, *bad)
            if not any(span.address < end and first < span.end for span in spans)
        ]
        joined = reads_of(follower, table, spans, self._pace, never)
        good = [span.signal for span in spans]
        if len(joined) < len(self._within(good)):
            self._replace(good, [self._make(read) for read in joined], now)

    def _try_whole(self, split: Split, at: float) -> None:
        if split.whole is not None:
            split.whole.retired = True
        split.whole = self._make(split.read)
        split.whole.tries = split
        self._alive = [job for job in self._alive if not job.retired]
        self._alive.append(split.whole)
        self._put(split.whole, at)

    def _still_refused(self, split: Split, now: float) -> None:
        pause = _pause(split.tried)
        split.tried += 1
        if split.loose and not split.open:
            self._join(split, now)
        self._try_whole(split, now + pause)

    def _within(self, signals: Iterable[str]) -> list[Job]:
        """The jobs that bring some of these signals and no others."""
        names = set(signals)
        return [job for job in self._alive if names.issuperset(job.signals)]

    def _replace(self, signals: Iterable[str], jobs: list[Job], at: float) -> None:
        """Let these jobs be what brings these signals, from `at` on."""
        for job in self._within(signals):
            job.retired = True
        self._alive = [job for job in self._alive if not job.retired] + jobs
        for job in jobs:
            self._put(job, at)


def _pause(refusals: int) -> float:
    """How long what was refused so often before is left alone, in seconds."""
    return min(LONGEST_S, AGAIN_S * 2.0 ** min(refusals, 10))
