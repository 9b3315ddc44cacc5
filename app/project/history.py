"""Undo and redo as a list of steps: every edit can be taken back, to the very start."""

from __future__ import annotations

import time
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

from app.project.model import Project

MERGE_WITHIN_S: Final = 1.5
"""Seconds between two edits of one kind that still make one step."""
KEPT_WHOLE: Final = 50
"""So many documents on either side of the present one are kept as they are; farther ones as what changed."""


@dataclass(frozen=True, slots=True)
class _Run:
    """A run of the items of one attribute that differs between two documents, or a whole attribute (`at` is None)."""

    attribute: str
    at: int | None
    old: Any
    new: Any

    def put(self, values: dict[str, Any], *, back: bool) -> None:
        """Make the new of the old in `values`, or the old of the new."""
        gone, come = (self.new, self.old) if back else (self.old, self.new)
        if self.at is None:
            values[self.attribute] = come
        else:
            items = values[self.attribute]
            values[self.attribute] = (*items[: self.at], *come, *items[self.at + len(gone) :])


@dataclass(slots=True)
class _Step:
    """An edit that was done: what it changed, what it is called, and what may merge into it."""

    runs: tuple[_Run, ...]
    keys: tuple[frozenset[str], frozenset[str]]
    """The attributes that are given, before and after."""
    name: str
    merge_key: object
    at: float
    document: Project | None
    """What the edit made, as long as it is near the present."""


class EditHistory:
    """The documents of one editing session, as many as there come to be.

    `project` is the present one. Documents share all that an edit left alone, and those that are far from the present
    are put together again from what each edit changed, so that a step costs no more memory than that. Belongs to one
    thread.
    """

    def __init__(self, project: Project, *, saved: bool = True) -> None:
        """Begin with `project`. `saved=False` for one that is not in a file yet."""
        self._first: Project | None = project
        self._present = project
        self._steps: list[_Step] = []
        self._position = 0
        self._saved: Project | None = project if saved else None
        self._saved_at: int | None = 0 if saved else None
        self._mergeable = False

    @property
    def project(self) -> Project:
        """The present document."""
        return self._present

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to take back."""
        return self._position > 0

    @property
    def can_redo(self) -> bool:
        """Whether there is a step to do again."""
        return self._position < len(self._steps)

    @property
    def undo_name(self) -> str | None:
        """What `undo` would take back, or None if nothing."""
        return self._steps[self._position - 1].name if self.can_undo else None

    @property
    def redo_name(self) -> str | None:
        """What `redo` would bring back, or None if nothing."""
        return self._steps[self._position].name if self.can_redo else None

    @property
    def names(self) -> tuple[str, ...]:
        """What was done, the oldest first, including what can be redone."""
        return tuple(step.name for step in self._steps)

    @property
    def position(self) -> int:
        """How many of `names` are done now."""
        return self._position

    @property
    def saved_at(self) -> int | None:
        """The position of the document that was saved last; None if none was, or if a new step took its place."""
        return self._saved_at

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
        if project is self._present:
            return
        at = time.monotonic() if at is None else at
        del self._steps[self._position :]
        if self._saved_at is not None and self._saved_at > self._position:
            self._saved_at = None
        last = self._steps[-1] if self._steps else None
        same_kind = merge_key is not None and last is not None and merge_key == last.merge_key
        before = self._present
        if last is not None and self._mergeable and same_kind and at - last.at <= MERGE_WITHIN_S:
            before = self._before_last()
            self._steps.pop()
        runs, keys = _difference(before, project)
        self._steps.append(_Step(runs, keys, name, merge_key, at, project))
        self._position = len(self._steps)
        self._present = project
        self._forget_far()
        self._mergeable = True

    def seal(self) -> None:
        """Let the next step not merge into the last, whatever it is."""
        self._mergeable = False

    def undo(self) -> Project:
        """Take the last step back and return the document. At the start nothing happens."""
        if self.can_undo:
            self._present = self._before_last()
            self._position -= 1
            self._hold()
        self.seal()
        return self._present

    def redo(self) -> Project:
        """Do again what was taken back last and return the document. At the end nothing happens."""
        if self.can_redo:
            step = self._steps[self._position]
            self._present = step.document or _apply(self._present, step, back=False)
            self._position += 1
            self._hold()
        self.seal()
        return self._present

    def go_to(self, position: int) -> Project:
        """Take steps back, or do them again, until so many are done, or none or all are, and return the document."""
        position = min(max(position, 0), len(self._steps))
        while self._position > position:
            self.undo()
        while self._position < position:
            self.redo()
        return self._present

    def mark_saved(self) -> None:
        """The present document is in its file now."""
        self._saved, self._saved_at = self._present, self._position
        self.seal()

    def _before_last(self) -> Project:
        """The document before the last step that is done."""
        step = self._steps[self._position - 1]
        kept = self._steps[self._position - 2].document if self._position > 1 else self._first
        return kept or _apply(self._present, step, back=True)

    def _hold(self) -> None:
        """Keep the present document whole, and those far from it no longer."""
        if self._position:
            self._steps[self._position - 1].document = self._present
        else:
            self._first = self._present
        self._forget_far()

    def _forget_far(self) -> None:
        """Of each side one at a time is enough: the present moves by one step."""
        behind, ahead = self._position - KEPT_WHOLE, self._position + KEPT_WHOLE
        if 0 <= behind < len(self._steps):
            self._steps[behind].document = None
        if ahead < len(self._steps):
            self._steps[ahead].document = None


def _difference(before: Project, after: Project) -> tuple[tuple[_Run, ...], tuple[frozenset[str], frozenset[str]]]:
    """What it takes to make the one of the other. Items are the same if they are one object, as edits leave them."""
    runs: list[_Run] = []
    for attribute in Project.model_fields:
        old, new = getattr(before, attribute), getattr(after, attribute)
        if old is new:
            continue
        if not (isinstance(old, tuple) and isinstance(new, tuple)):
            runs.append(_Run(attribute, None, old, new))
            continue
        shorter = min(len(old), len(new))
        at = next((index for index in range(shorter) if old[index] is not new[index]), shorter)
        rest = range(1, shorter - at + 1)
        tail = next((index - 1 for index in rest if old[-index] is not new[-index]), shorter - at)
        runs.append(_Run(attribute, at, old[at : len(old) - tail], new[at : len(new) - tail]))
    return tuple(runs), (_one_set(before.model_fields_set), _one_set(after.model_fields_set))


@lru_cache(maxsize=64)
def _intern(keys: frozenset[str]) -> frozenset[str]:
    return keys


def _one_set(keys: set[str]) -> frozenset[str]:
    """Such a set, one for all steps: nearly all have the same."""
    return _intern(frozenset(keys))


def _apply(project: Project, step: _Step, *, back: bool) -> Project:
    """`project` with a step taken back, or done again. All parts were validated when the edit was made."""
    values = {attribute: getattr(project, attribute) for attribute in Project.model_fields}
    for run in step.runs:
        run.put(values, back=back)
    made = Project.model_construct(set(step.keys[0 if back else 1]), **values)
    project.hand_down(made)
    return made
