"""Answers that come twice on a line whose frames carry no number, and when an answer is proved to be none of them.

An RTU answer says which unit it is of, its function and its length, and no more. Where two devices have one address, or
a radio or a converter repeats, a second answer comes some time after the first: 5 ms, or 200. If it comes while a
request of the same shape (unit, function and length) is outstanding, it looks like the answer to that.

What gives it away is the count. A unit answers each request once; so if a request was answered by a copy, its own
answer comes as well, one too many. Requests of one shape that follow each other make a chain. An answer is proved when
nothing of its shape has come since, for as long as the unit may still have been busy with the request: up to a moment
(`due`) that is reckoned from how long the unit usually takes. That proves what stands before it in its chain, too.
Until then nothing of a chain is let out. On a serial line the next request is hardly out by then, so that the proof
costs nothing; nor does it where the line pauses, or reads other shapes or units in between. Where answers come so fast
that a chain goes on, it is given a pause when one is cheap (COST), and after HOLD_S in any case. If one answer too many
has come, the whole chain is dropped.

From then on the unit is handled with care, for CAREFUL_S after the last unasked answer: no shape is used again as long
as a copy of its last answer may come (`taken_heads`), which is REPEATED_WITHIN_S until enough is known to say how late
the copies come, and twice that delay afterwards. Then every copy is known as what it is. One that differs from the
first answer cannot be a repetition: two devices have this address, and of neither is anything believed meanwhile.

What acknowledges a write of one register or coil is the request over again. Where such an acknowledgement comes twice,
one of the two may be an echo: a two-wire adapter has begun to hand our own frames back. That is no unasked answer. The
next request that its echo could not answer tells (`perhaps_echo`, `echoes`); until then the unit is handled with care.

Not noticed is a copy that is taken for an answer while that answer itself gets lost, in the same chain and before the
first unasked answer was ever seen; and a second device that is always the only one to answer.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from math import inf
from typing import Final

from app.modbus.requests import Request

REPEATED_WITHIN_S: Final = 0.5
"""No copy is expected later than this, in seconds."""
CAREFUL_S: Final = 60.0
"""How long a unit is handled with care after its last unasked answer, in seconds."""
COST: Final = 0.0125
"""A pause that proves a chain may take this share of the time since its first answer."""
HOLD_S: Final = 0.2
"""After so many seconds a chain is given its pause, whatever that costs: nothing is held back for much longer."""
KNOWN_AFTER: Final = 8
"""So many copies have to be seen before their delay is relied on."""
SLACK_S: Final = 0.01
"""What a copy may be later than twice the longest delay so far, in seconds."""

AnswerShape = tuple[int, bytes, int]
"""Unit, how the answer begins, and the length of its PDU."""


@dataclass(slots=True)
class Chain:
    """Requests of one shape in a row, from the first that is not proved. Times are monotonic seconds."""

    oldest: float = inf
    """When its first answer came."""
    answers: int = 0
    due: float = inf
    """When it is proved if nothing comes before."""
    outstanding: bool = False
    """Whether another request of its shape is under way."""
    proved: bool | None = None
    waiting: list[Callable[[], None]] = field(default_factory=list)
    """What is done once it is proved."""

    def wants_pause(self, at: float) -> bool:
        """Whether the next request of its shape, which might go out `at`, had better wait until it is proved."""
        held = at - self.oldest
        return held > HOLD_S or self.due - at < COST * held


@dataclass(frozen=True, slots=True)
class _Taken:
    """An answer that was taken for that to `request`."""

    request: Request
    shape: AnswerShape
    pdu: bytes
    at: float


@dataclass(slots=True)
class _Care:
    """What is known of the unasked answers of a unit."""

    until: float = 0.0
    longest: float = 0.0
    known: int = 0
    differing_until: float = 0.0

    def window(self) -> float:
        """How long after an answer a copy of it may come, in seconds."""
        if self.known < KNOWN_AFTER:
            return REPEATED_WITHIN_S
        return min(REPEATED_WITHIN_S, 2 * self.longest + SLACK_S)


@dataclass(frozen=True, slots=True)
class Unasked:
    """What an unasked answer is. `delay_s` is how long after the first copy it came, if it is the copy of one."""

    request: Request | None
    """What was asked when the first copy came, if that can be told."""
    delay_s: float | None
    differs: bool
    """Whether it surely differs from the answer that was taken: two devices answer."""


@dataclass(slots=True)
class Repeats:
    """Of one line."""

    _chains: dict[AnswerShape, Chain] = field(default_factory=dict)
    _taken: dict[int, deque[_Taken]] = field(default_factory=dict)
    _care: dict[int, _Care] = field(default_factory=dict)
    _echoes: list[tuple[bytes, float]] = field(default_factory=list)

    def note_request(self, request: Request) -> None:
        """`request` goes out: it is outstanding until `note_answer` or `note_silence`."""
        self._chains.setdefault(_shape(request, b""), Chain()).outstanding = True

    def note_answer(self, request: Request, pdu: bytes, at: float, due: float) -> None:
        """`pdu` came at `at` and passed for the answer to `request`; its true answer must have come by `due`."""
        shape = _shape(request, pdu)
        answers = self._taken.setdefault(request.unit, deque())
        while answers and answers[0].at < at - REPEATED_WITHIN_S:
            answers.popleft()
        answers.append(_Taken(request, shape, pdu, at))
        asked = _shape(request, b"")
        if shape != asked:
            self.note_silence(request, due)
        chain = self._chains.setdefault(shape, Chain())
        chain.answers += 1
        chain.oldest, chain.due, chain.outstanding = min(chain.oldest, at), due, False

    def note_silence(self, request: Request, due: float) -> None:
        """No answer to `request` was taken; one that might be the answer to it would come by `due`."""
        shape = _shape(request, b"")
        chain = self._chains.get(shape)
        if chain is not None:
            chain.due, chain.outstanding = due, False
            if not chain.answers:
                del self._chains[shape]

    def chain(self, request: Request, pdu: bytes = b"") -> Chain | None:
        """The chain that the answer `pdu` to `request` belongs to, unless it is proved or dropped."""
        return self._chains.get(_shape(request, pdu))

    @property
    def next_due(self) -> float:
        """When the next chain is to be proved; infinite if there is none."""
        return min((chain.due for chain in self._chains.values()), default=inf)

    def prove(self, now: float) -> None:
        """Let out what is proved at `now`: all that came until then is judged, and nothing waits to be."""
        for shape, chain in [entry for entry in self._chains.items() if entry[1].due <= now]:
            self._end(shape, proved=True)
            for let_out in chain.waiting:
                let_out()

    def drop(self, unit: int | None = None) -> None:
        """Nothing that is not proved is let out any more, of one unit or of all."""
        for shape in [shape for shape in self._chains if unit is None or shape[0] == unit]:
            self._end(shape, proved=False)

    def _end(self, shape: AnswerShape, *, proved: bool) -> None:
        """A chain is proved, or dropped; what is outstanding begins a new one."""
        chain = self._chains.pop(shape)
        chain.proved = proved
        if chain.outstanding:
            self._chains[shape] = Chain(outstanding=True)

    def doubt(self, unit: int, pdu: bytes) -> None:
        """An answer came that may be that to a request which was given up: so one more than was counted."""
        for shape in [shape for shape, chain in self._chains.items() if chain.answers and _fits(pdu, unit, shape)]:
            self._end(shape, proved=False)

    def is_known(self, unit: int, pdu: bytes, now: float) -> bool:
        """Whether this is, byte for byte, what `unit` has answered of late."""
        return self.times_known(unit, pdu, now) > 0

    def times_known(self, unit: int, pdu: bytes, now: float) -> int:
        """How often `unit` has answered this, byte for byte, of late."""
        return sum(taken.pdu == pdu and taken.at > now - REPEATED_WITHIN_S for taken in self._taken.get(unit, ()))

    def perhaps_echo(self, frame: bytes, now: float) -> bool:
        """Whether this copy of an answer may be due to an echo; if so it is kept for `echoes`.

        One copy of each answer may be, if that is its request over again.
        """
        pdu = frame[1:-2]
        echoed = sum(
            taken.pdu == pdu == taken.request.pdu and taken.at > now - REPEATED_WITHIN_S
            for taken in self._taken.get(frame[0], ())
        )
        if sum(frame == kept for kept, _ in self._echoes) >= echoed:
            return False
        self._echoes.append((frame, now))
        return True

    def echoes(self) -> list[tuple[bytes, float]]:
        """What was kept as perhaps due to an echo: frames, and when each came. None is kept any longer."""
        kept, self._echoes = self._echoes, []
        return kept

    def note_unasked(self, unit: int, pdu: bytes, now: float) -> Unasked | None:
        """A sound answer of `unit` came that was not taken for any; None if this unit never answered anything.

        Whatever it is, what it makes doubtful is dropped.
        """
        answers = self._taken.get(unit)
        if answers is None:
            return None
        alike = [taken for taken in answers if taken.at > now - REPEATED_WITHIN_S and _fits(pdu, unit, taken.shape)]
        same = next((taken for taken in reversed(alike) if taken.pdu == pdu), None)
        for shape in {taken.shape for taken in alike}:
            chain = self._chains.get(shape)
            # To a single request the same answer twice: whichever is its own, it says the same.
            if chain is not None and chain.answers and (chain.answers > 1 or alike[-1].pdu != pdu):
                self._end(shape, proved=False)
        care = self._care.setdefault(unit, _Care())
        if now > care.until:
            care.longest, care.known = 0.0, 0
        care.until = now + CAREFUL_S
        differs = False
        if same is not None:
            care.longest, care.known = max(care.longest, now - same.at), care.known + 1
        elif len(alike) == 1:
            differs = True
            care.differing_until = now + CAREFUL_S
            self.drop(unit)
        else:
            # The copy of one answer and the true answer to the request that took it, or another device: with every
            # shape used once only the next one tells.
            care.known = 0
        newest = same or (alike[-1] if alike else None)
        return Unasked(newest.request if newest else None, now - same.at if same else None, differs)

    def careful(self, unit: int, now: float) -> bool:
        """Whether `unit` has sent unasked answers of late, or what may be one."""
        care = self._care.get(unit)
        return (care is not None and now < care.until) or any(frame[0] == unit for frame, _ in self._echoes)

    def differing(self, unit: int, now: float) -> bool:
        """Whether two devices answer as `unit`."""
        care = self._care.get(unit)
        return care is not None and now < care.differing_until

    def taken_heads(self, unit: int, now: float) -> dict[bytes, float]:
        """How answers begin of which a copy may still come, and until when it may. Empty for a unit without any."""
        care = self._care.get(unit)
        if care is None or now >= care.until:
            return {}
        window = care.window()
        return {taken.shape[1]: taken.at + window for taken in self._taken[unit] if taken.at + window > now}


def _shape(request: Request, pdu: bytes) -> AnswerShape:
    """Of the answer `pdu` to `request`, or of the one that is expected."""
    if pdu and pdu[0] & 0x80:
        return request.unit, pdu[:1], len(pdu)
    return request.unit, request.answer_head, request.answer_length


def _fits(pdu: bytes, unit: int, shape: AnswerShape) -> bool:
    return unit == shape[0] and len(pdu) == shape[2] and pdu.startswith(shape[1])
