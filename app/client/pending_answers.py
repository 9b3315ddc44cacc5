"""What may still come after a time-out on a line whose frames carry no number, and how to ask without mistaking it.

An RTU answer does not say which request it answers. After a time-out the answer may still be on its way, and would pass
for the answer to the next request of the same shape: a wrong value. How late it may come nobody can say. So a request
that went unanswered is remembered as long as it takes, and over a new connection too, because a follower behind a port
or a converter does not hear of it.

What clears it is the follower's own order: it answers requests in the order in which they came. Hence an answer that
can only be that of a later request proves that everything before it was answered or is lost. While anything is open, a
read is asked in another length, whose answer cannot be mistaken. If there is no such length, a request is asked whose
answer is used for this proof only: a read of a length that is open since last, or the return of query data (function
08) with a number of its own in it.
"""

from __future__ import annotations

import secrets
from collections.abc import Collection
from dataclasses import dataclass, field, replace
from itertools import count as counting
from typing import Final

from app.modbus.requests import (
    MOST_BITS,
    MOST_REGISTERS,
    RETURN_QUERY_DATA,
    Request,
    data_bytes,
    query_data_request,
    read_request,
)
from app.signals.numbering import LAST_ADDRESS

MOST_SHAPES: Final = 8
"""So many shapes may be open with one unit before no further one is tried: a dead follower uses up no more lengths."""

MOST_TAKEN: Final = 32
"""A read is not made longer than by so many registers, or bytes of bits, so that no copy is mistaken."""

_MARKERS: Final = bytes((RETURN_QUERY_DATA,))


@dataclass(slots=True)
class _Open:
    """Unanswered requests of one shape; `first` and `last` are the ends of those that may still be answered.

    They count what was sent to the unit. `since` is when the first one was sent, as far as that is known, `at` when the
    last one was.
    """

    request: Request
    first: int
    last: int
    since: float
    at: float
    wrongly: bool
    """Whether the last one was answered, if wrongly: nothing more need be on its way, though it may."""


@dataclass(slots=True)
class PendingAnswers:
    """The requests of one line that went unanswered, by unit.

    `patience_s` is the last resort, for a follower of which only one shape of named registers may be read and which
    does not react to function 08 either: then, and only then, an answer is no longer expected after so many seconds.
    """

    patience_s: float
    _open: dict[int, dict[bytes, _Open]] = field(default_factory=dict)
    _order: counting[int] = field(default_factory=counting)
    _marker: int = field(default_factory=lambda: secrets.randbelow(0x10000))

    def note_silence(self, request: Request, sent_at: float, *, wrongly: bool = False) -> None:
        """`request`, sent at `sent_at` (monotonic seconds), brought no answer that could be verified.

        `wrongly`: but another answer of the unit. So no answer that comes later is called the late one to this.
        """
        shapes = self._open.setdefault(request.unit, {})
        shape, number = _shape(request), next(self._order)
        former = shapes.get(shape)
        if former is None:
            shapes[shape] = _Open(request, number, number, sent_at, sent_at, wrongly)
        else:
            shapes[shape] = _Open(request, former.first, number, former.since, sent_at, wrongly)

    def note_answer(self, request: Request, sent_at: float = 0.0, *, refused: bool = False) -> None:
        """An answer to `request` came. `refused`: an exception, which any open request of its function may have got."""
        shapes = self._open.get(request.unit)
        if not shapes:
            return
        if refused:
            owners = [entry.first for entry in shapes.values() if entry.request.function == request.function]
        else:
            owners = [shapes[request.answer_head].first] if request.answer_head in shapes else []
        if not owners:
            del self._open[request.unit]
            return
        self._settle_until(request.unit, min(owners))  # it may be that of an earlier one, at the earliest of this one
        self.note_silence(request, sent_at)

    def late(self, frame: bytes) -> tuple[Request, float] | None:
        """A sound frame came that answers nothing that is outstanding.

        If it looks like the answer to something that is open: to what, and when that was sent (monotonic seconds). That
        is enough for a diagnosis, and proves nothing: a follower that answers in a wrong length may be at work.
        """
        silent = [entry for entry in self._owners(frame) if not entry.wrongly]
        if not silent:
            return None
        oldest = min(silent, key=lambda entry: entry.first)
        return oldest.request, oldest.since

    def expects(self, frame: bytes) -> bool:
        """Whether this looks like the answer to something that is open, be it answered wrongly so far."""
        return bool(self._owners(frame))

    def _owners(self, frame: bytes) -> list[_Open]:
        pdu = frame[1:-2]
        entries = self._open.get(frame[0], {}).values()
        if pdu[0] & 0x80:
            return [entry for entry in entries if entry.request.function == pdu[0] & 0x7F]
        return [
            entry
            for entry in entries
            if len(pdu) == entry.request.answer_length
            and (pdu[0] == RETURN_QUERY_DATA or pdu.startswith(entry.request.answer_head))
        ]

    def _settle_until(self, unit: int, number: int) -> None:
        """What was sent to `unit` up to `number` is answered, or lost for ever."""
        shapes = self._open[unit]
        for shape, entry in list(shapes.items()):
            if entry.last <= number:
                del shapes[shape]
            elif entry.first <= number:
                entry.first, entry.since = number + 1, entry.at
        if not shapes:
            del self._open[unit]

    def owes(self, unit: int) -> bool:
        """Whether an answer of `unit` may still be on its way."""
        return bool(self._open.get(unit))

    def mistakable(self, request: Request) -> bool:
        """Whether an answer still on its way could pass for the answer to `request`."""
        return request.answer_head in self._open.get(request.unit, ())

    def unambiguous(
        self,
        request: Request,
        now: float,
        *,
        wider: bool = True,
        taken: Collection[bytes] = (),
        at_most: int = MOST_REGISTERS,
    ) -> Request | None:
        """A read like `request`, in a length whose answer cannot be mistaken; None if there is nothing to ask.

        It reads fewer registers of the same range if it can, from its start and from its end in turn, else more; with
        `wider` false never more, for followers of which only the named registers may be read. If there is no such
        length, a request whose `count` is 0: its answer brings no value, and only takes away what is open.
        `taken` is how answers begin that may come a second time. If they alone are in the way, longer reads are tried
        first, up to `at_most` registers, since these bring all that is wanted; and if no length is left, time alone
        helps.
        """
        mistakable = self.mistakable(request)
        if not mistakable and request.answer_head not in taken:
            return request
        if request.writes:
            return None
        shapes = self._open.get(request.unit, {})
        reads = {shape: entry for shape, entry in shapes.items() if shape != _MARKERS and not entry.request.writes}
        if not mistakable:
            more = min(MOST_TAKEN, at_most - request.count) if request.table in ("holding", "input") else MOST_TAKEN
            return _other_length(request, {*reads, *taken}, wider=wider, longer_first=True, most=more)
        if len(reads) < MOST_SHAPES:
            other = _other_length(request, {*reads, *taken}, wider=wider)
            if other is not None:
                return other
        newest = max(reads.values(), key=lambda entry: entry.first)
        if len(reads) > 1:
            return replace(newest.request, count=0)
        own = reads[request.answer_head]
        if now - own.at >= self.patience_s:
            del shapes[request.answer_head]
            return request
        self._marker = (self._marker + 1) % 0x10000
        return query_data_request(request, self._marker)


def _shape(request: Request) -> bytes:
    return _MARKERS if request.function == RETURN_QUERY_DATA else request.answer_head


def _other_length(
    request: Request, heads: Collection[bytes], *, wider: bool, longer_first: bool = False, most: int = MOST_REGISTERS
) -> Request | None:
    """A read near `request` with an answer of another length than all of `heads`.

    At most `most` registers, or bytes of bits, longer.
    """
    table = request.table
    step, limit = (1, MOST_REGISTERS) if table in ("holding", "input") else (8, MOST_BITS)
    at_end = len(heads) % 2 == 0
    shorter = range(request.count - step, 0, -step)
    longer = range(request.count + step, min(limit, request.count + most * step) + 1, step) if wider else ()
    for count in (*longer, *shorter) if longer_first else (*shorter, *longer):
        if bytes((request.function, data_bytes(table, count) & 0xFF)) in heads:
            continue
        address = request.address
        if count < request.count and at_end:
            address += request.count - count
        elif count > request.count:
            address = min(address, LAST_ADDRESS + 1 - count)
            if address < 0:
                continue
        return read_request(request.unit, table, address, count)
    return None
