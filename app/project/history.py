"""Undo and redo as a list of documents: every edit can be taken back, to the very start."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import Final

from app.project.model import Project

MERGE_WITHIN_S: Final = 1.5
"""Seconds between two edits of one kind that still make one step."""


@dataclass(frozen=True, slots=True)
class _Step:
    """An edit that was done: what it made, what it is called, and what may merge into it."""

    document: Project
    name: str
    merge_key: object
    at: float


class History:
    """The documents of one editing session. Unlimited; documents share all that an edit left alone.

    `project` is the present one. Belongs to one thread.
    """

    def __init__(self, project: Project, *, saved: bool = True) -> None:
        """Begin with `project`. `saved=False` for one that is not in a file yet."""
        self._steps = [_Step(project, "", None, 0.0)]
        self._position = 0
        self._saved: Project | None = project if saved else None
        self._mergeable = False

    @property
    def project(self) -> Project:
        """The present document."""
        return self._steps[self._position].document

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to take back."""
        return self._position > 0

    @property
    def can_redo(self) -> bool:
        """Whether there is a step to do again."""
        return self._position + 1 < len(self._steps)

    @property
    def undo_name(self) -> str | None:
        """What `undo` would take back, or None if nothing."""
        return self._steps[self._position].name if self.can_undo else None

    @property
    def redo_name(self) -> str | None:
        """What `redo` would bring back, or None if nothing."""
        return self._steps[self._position + 1].name if self.can_redo else None

    @property
    def names(self) -> tuple[str, ...]:
        """What was done, the oldest first, including what can be redone."""
        return tuple(step.name for step in self._steps[1:])

    @property
    def position(self) -> int:
        """How many of `names` are done now."""
        return self._position

    @property
    def dirty(self) -> bool:
        """Whether the present document differs from the saved one."""
        return self._saved is None or (self.project is not self._saved and self.project != self._saved)

    def record(self, project: Project, name: str, merge_key: object = None, at: float | None = None) -> None:
        """Make `project` the present document, as a step called `name`; what could be redone is forgotten.

        Steps with the same `merge_key` (not None) that follow each other within MERGE_WITHIN_S become one, so that a
        word typed or a field dragged is undone at once. `at` is `time.monotonic()` in seconds, now if left out.
        A document that is the present one already makes no step.
        """
        if project is self.project:
            return
        step = _Step(project, name, merge_key, time.monotonic() if at is None else at)
        last = self._steps[self._position]
        del self._steps[self._position + 1 :]
        same_kind = merge_key is not None and merge_key == last.merge_key
        if self._mergeable and same_kind and step.at - last.at <= MERGE_WITHIN_S:
            self._steps[self._position] = step
        else:
            self._steps.append(step)
            self._position += 1
        self._mergeable = True

    def seal(self) -> None:
        """Let the next step not merge into the last, whatever it is."""
        self._mergeable = False

    def undo(self) -> Project:
        """Take the last step back and return the document. At the start nothing happens."""
        self._position = max(0, self._position - 1)
        self.seal()
        return self.project

    def redo(self) -> Project:
        """Do again what was taken back last and return the document. At the end nothing happens."""
        self._position = min(len(self._steps) - 1, self._position + 1)
        self.seal()
        return self.project

    def mark_saved(self) -> None:
        """The present document is in its file now."""
        self._saved = self.project
        self.seal()
