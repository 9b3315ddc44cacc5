"""What may still come after a time-out on a line whose frames carry no number, and how to ask without mistaking it.

An RTU answer does not say which request it answers. After a time-out the answer may still be on its way, and would pass
for the answer to the next request of the same shape: a wrong value. So requests that went unanswered are remembered;
while one is, a read is asked in another length, whose answer cannot be mistaken. Followers answer in order, hence one
unmistakable answer clears what came before.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from app.bus.requests import MOST_BITS, MOST_REGISTERS, Request, read_request

LAST_ADDRESS: Final = 65_535


@dataclass(slots=True)
class Settling:
    """The requests of one line that went unanswered, by unit.

    `patience_s` is after how many seconds an answer is no longer expected at all.
    """

    patience_s: float
    _open: dict[int, list[tuple[float, Request]]] = field(default_factory=dict)

    def unanswered(self, request: Request, sent_at: float) -> None:
        """`request`, sent at `sent_at` (monotonic seconds), timed out."""
        self._open.setdefault(request.unit, []).append((sent_at, request))

    def answered(self, request: Request, *, refused: bool = False) -> None:
        """`request` was answered. `refused`: with an exception, as any open request of its function may have been."""
        pending = self._open.get(request.unit)
        if not pending:
            return
        if refused:
            # It may have been the oldest one's exception; then the answer to this request is still to come.
            oldest_sent = pending[0][0]
            self._open[request.unit] = [*pending[1:], (oldest_sent, request)]
            if len(pending) == 1 and pending[0][1].function != request.function:
                del self._open[request.unit]
        else:
            del self._open[request.unit]

    def mistakable(self, request: Request, now: float) -> bool:
        """Whether an answer still on its way could pass for the answer to `request`."""
        return request.answer_head in self._heads(request.unit, now)

    def distinct(self, request: Request, now: float, *, wider: bool = True) -> Request | None:
        """A read like `request`, in a length whose answer cannot be mistaken; None if there is none.

        It reads fewer registers of the same range if it can, from its start and from its end in turn, else more; with
        `wider` false never more, for followers of which only the named registers may be read.
        """
        heads = self._heads(request.unit, now)
        if request.answer_head not in heads:
            return request
        if request.writes:
            return None
        step = 1 if request.table in ("holding", "input") else 8
        most = MOST_REGISTERS if step == 1 else MOST_BITS
        at_end = len(heads) % 2 == 0
        longer = range(request.count + step, most + 1, step) if wider else ()
        for count in (*range(request.count - step, 0, -step), *longer):
            address = request.address
            if count < request.count and at_end:
                address += request.count - count
            elif count > request.count:
                address = min(address, LAST_ADDRESS + 1 - count)
                if address < 0:
                    break
            other = read_request(request.unit, request.table, address, count)
            if other.answer_head not in heads:
                return other
        return None

    def forget(self) -> None:
        """The connection is new: nothing sent on the old one can be answered on it."""
        self._open.clear()

    def _heads(self, unit: int, now: float) -> set[bytes]:
        pending = self._open.get(unit)
        if not pending:
            return set()
        pending = [entry for entry in pending if now - entry[0] < self.patience_s]
        if pending:
            self._open[unit] = pending
        else:
            del self._open[unit]
        return {request.answer_head for _, request in pending}
