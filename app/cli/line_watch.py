"""The lines of a running session as somebody watches them: what went over them since the last look, and how they do."""

from __future__ import annotations

import time
from collections import Counter, deque
from dataclasses import dataclass
from typing import Final

from app.client.faults import FaultKind
from app.client.timing import pace_of
from app.client.transactions import Transaction
from app.diagnosis.explain import Explanation, explain
from app.diagnosis.figures import Figures, figures
from app.diagnosis.register_names import RegisterNames
from app.line.states import LineState
from app.session.session import Session

MEASURED: Final = 2000
"""How many of the newest transactions of each line the figures are of."""


@dataclass(frozen=True, slots=True)
class LineNews:
    """What one look brought: transactions, lines that went down or came up, and how many transactions were missed.

    `lines` are (name, reason) of those that changed; an empty reason: the line is up.
    """

    transactions: tuple[Explanation, ...]
    lines: tuple[tuple[str, str], ...]
    missed: int


class LineWatch:
    """Watches a session that runs; `follower` and `faults_only` choose what is told.

    Look several times a second: the log of transactions is bounded, and what fell out of it is only counted.
    """

    def __init__(self, session: Session, *, follower: str | None = None, faults_only: bool = False) -> None:
        self._session = session
        self._follower = follower
        self._faults_only = faults_only
        self._names = RegisterNames.of(session.project)
        self._seen = 0
        self._newest: dict[str, deque[Transaction]] = {}
        self._reasons: dict[str, str] = {}
        self.requests = 0
        """Transactions of the chosen follower, or of all, whether told or not."""
        self.faults: Counter[FaultKind] = Counter()
        """Those of them that were not good, by kind."""

    @property
    def clock_offset(self) -> float:
        """What makes seconds since 1970 of the time of a transaction."""
        return time.time() - time.monotonic()

    def look(self) -> LineNews:
        """What is new since the last look."""
        count, news = self._session.engine.transactions.since(self._seen)
        missed = count - self._seen - len(news)
        self._seen = count
        told = []
        for transaction in news:
            self._newest.setdefault(transaction.line, deque(maxlen=MEASURED)).append(transaction)
            if self._follower is not None and transaction.follower != self._follower:
                continue
            self.requests += 1
            if transaction.fault is not None:
                self.faults[transaction.fault.kind] += 1
            elif self._faults_only:
                continue
            told.append(explain(transaction, self._names))
        return LineNews(tuple(told), self._changed_lines(), missed)

    def _changed_lines(self) -> tuple[tuple[str, str], ...]:
        changed = []
        for name, line in self._session.snapshot().lines.items():
            reason = "" if line.connected else line.reason
            before = self._reasons.get(name, "")
            if reason != before and not line.connecting:
                changed.append((name, reason))
                self._reasons[name] = reason
        return tuple(changed)

    def figures(self) -> tuple[tuple[LineState, Figures], ...]:
        """How the lines are doing, and what their newest transactions show, of all followers."""
        endpoints = self._session.endpoints
        return tuple(
            (state, figures(tuple(self._newest.get(name, ())), pace_of(endpoints[name])))
            for name, state in self._session.snapshot().lines.items()
        )
