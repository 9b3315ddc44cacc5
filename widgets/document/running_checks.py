"""The design checks of the project that is edited, run in the pauses between events."""

from __future__ import annotations

import time
from collections.abc import Iterator
from operator import is_
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.checks import Checker, Finding
from app.checks.by_part import FindingsByPart
from widgets.document.document import Document

BEGIN_AFTER_MS: Final = 60
"""After an edit, so that a key that repeats is not slowed by a check that the next one would make void."""
SLICE_S: Final = 0.003
"""How long a check goes on before whatever else has come up is done: keys, painting."""
PAUSE_MS: Final = 2


class RunningChecks(QObject):
    """Keeps the findings in a document up to date.

    All is done in the window's own thread, in slices. Another thread would compete with it for the interpreter; a slice
    ends when it is told to, and the next edit makes the rest of them void.
    """

    found = Signal()
    """Other findings than before, or the first ones of another project."""
    progressed = Signal(float)
    """How far the check is that goes on, 0 to 1; 1 also where the next edit makes the rest of it void."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._checker = Checker()
        self._by_part: tuple[object, FindingsByPart] = (None, FindingsByPart())
        self._steps: Iterator[None] | None = None
        self.checked = False
        """Whether this project was ever checked to the end: until then no findings do not mean that all is well."""
        self._begin = self._timer(BEGIN_AFTER_MS, self._start)
        self._go_on = self._timer(PAUSE_MS, self._slice)
        document.changed.connect(self._restart)
        document.replaced.connect(self._start_anew)
        self._begin.start()

    def _timer(self, after_ms: int, then: object) -> QTimer:
        timer = QTimer(self)
        timer.setSingleShot(True)
        timer.setInterval(after_ms)
        timer.timeout.connect(then)
        return timer

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was found last."""
        return self._checker.findings

    @property
    def accepted(self) -> tuple[Finding, ...]:
        """What was found last and is accepted, with the reasons."""
        return self._checker.accepted

    @property
    def by_part(self) -> FindingsByPart:
        """The same, by the part that each is about."""
        findings, found = self._by_part
        if findings is not self._checker.findings:
            found = FindingsByPart(self._checker.findings)
            self._by_part = self._checker.findings, found
        return found

    @property
    def up_to_date(self) -> bool:
        """Whether the project was checked as it is now."""
        return self._checker.project is self._document.project

    def finish(self) -> None:
        """Check the project as it is now to the end, without a pause."""
        self._begin.stop()
        self._go_on.stop()
        before = self._now
        self._drop()
        self._checker.check(self._document.project)
        self._finish(before)

    def _restart(self) -> None:
        self._drop()
        self._go_on.stop()
        if self.up_to_date:  # there and back again
            self._begin.stop()
        else:
            self._begin.start()

    def _start_anew(self) -> None:
        self._checker = Checker()
        self._drop()
        self.checked = False
        self.found.emit()

    def _start(self) -> None:
        self._steps = self._checker.steps(self._document.project)
        self._slice()

    def _slice(self) -> None:
        if self._steps is None:
            return
        before = self._now
        end = time.perf_counter() + SLICE_S
        for _ in self._steps:
            if time.perf_counter() > end:
                self.progressed.emit(self._checker.part)
                self._go_on.start()
                return
        self._finish(before)

    @property
    def _now(self) -> tuple[object, object]:
        return self._checker.findings, self._checker.accepted

    def _drop(self) -> None:
        if self._steps is not None:
            self._steps = None
            self.progressed.emit(1.0)

    def _finish(self, before: tuple[object, object]) -> None:
        self._drop()
        first, self.checked = not self.checked, True
        if first or not all(map(is_, self._now, before)):
            self.found.emit()
