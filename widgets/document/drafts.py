"""What was typed into a form and could not be accepted yet, kept until it is right."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from typing import Any

from PySide6.QtCore import QObject, Signal

from app.project.model import Project
from app.project.paths import kind_name
from app.project.problems import quoted

DraftTexts = tuple[str, ...]
"""What stands in the editors of one row."""

Names = tuple[str, ...]


class Drafts(QObject):
    """What was typed and could not be accepted yet. It is shown again wherever its place is shown again."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._kept: dict[tuple[Hashable, str], tuple[DraftTexts, str]] = {}

    def get(self, subject: Hashable, row: str) -> tuple[DraftTexts, str] | None:
        """The texts and what is wrong with them."""
        return self._kept.get((subject, row))

    def keep(self, subject: Hashable, row: str, texts: DraftTexts, reason: str) -> None:
        """Keep these texts until they are right or dropped."""
        if self._kept.get((subject, row)) != (texts, reason):
            self._kept[subject, row] = (texts, reason)
            self.changed.emit()

    def drop(self, subject: Hashable, row: str) -> None:
        """They are right now, or not wanted any more."""
        if self._kept.pop((subject, row), None) is not None:
            self.changed.emit()

    def follow(self, now: Mapping[Any, Hashable]) -> None:
        """Subjects are called otherwise from now on, all at once; those that are None now are gone."""
        kept = {
            (now.get(subject, subject), row): what
            for (subject, row), what in self._kept.items()
            if now.get(subject, subject) is not None
        }
        if kept != self._kept:
            self._kept = kept
            self.changed.emit()

    def move(self, subject: Hashable, to: Hashable) -> None:
        """The subject is called otherwise from now on."""
        self._kept = {(to if kept == subject else kept, row): what for (kept, row), what in self._kept.items()}

    def take_over(self, former: Drafts, labels: Mapping[tuple[str, str], str]) -> None:
        """Go on with what another one keeps. `labels`: for a kind of subject and a row of then, the row of now."""
        self._kept = {
            (subject, labels.get((subject[0], row), row) if isinstance(subject, tuple) else row): kept
            for (subject, row), kept in former._kept.items()
        }
        self.changed.emit()

    def clear(self) -> None:
        """Drop all of them: another project."""
        if self._kept:
            self._kept.clear()
            self.changed.emit()

    def all(self) -> tuple[tuple[Hashable, str, DraftTexts, str], ...]:
        """Subject, row, texts and reason of each."""
        return tuple((subject, row, texts, reason) for (subject, row), (texts, reason) in self._kept.items())


def subject_text(subject: Hashable) -> str:
    """What a draft belongs to: "signal 'speed'", "field 'run' 2"."""
    if not isinstance(subject, tuple):
        return str(subject)
    kind, *parts = subject
    return " ".join([kind_name(kind), *(quoted(part) if isinstance(part, str) else str(part + 1) for part in parts)])


def follow_drafts(drafts: Drafts, before: Project, after: Project) -> None:
    """Drop the drafts of parts that are gone, and renumber those of screen changes, actions and fields that moved."""
    subjects = {subject for subject, _, _, _ in drafts.all()}
    drafts.follow({subject: _follow(subject, before, after) for subject in subjects if isinstance(subject, tuple)})


def _follow(subject: tuple[Any, ...], before: Project, after: Project) -> tuple[Any, ...] | None:
    kind, *rest = subject
    if kind == "messages":
        return _messages_followed(before.panel.languages, after.panel.languages, rest)
    if kind == "screen_change":
        index = _new_place(before.screen_changes, after.screen_changes, rest[0])
        return None if index is None else (kind, index)
    if kind == "action":
        index = _new_place(before.actions, after.actions, rest[0])
        return None if index is None else (kind, index)
    if kind == "field":
        old, new = before.screen_named.get(rest[0]), after.screen_named.get(rest[0])
        if new is None:
            return None
        index = rest[1] if old is None else _new_place(old.fields, new.fields, rest[1])
        return None if index is None or index >= len(new.fields) else (kind, rest[0], index)
    names: dict[str, Any] = {
        "signal": after.signal_named,
        "screen": after.screen_named,
        "line": after.line_named,
        "follower": after.follower_named,
    }
    return None if kind in names and rest[0] not in names[kind] else subject


def _messages_followed(before: Names, after: Names, language: list[str]) -> tuple[str, ...] | None:
    """Where the messages of a language are now: under its new name, or without one if there are no languages."""
    if not language:
        return ("messages", *after[:1])
    if language[0] in after:
        return ("messages", language[0])
    if not after:
        return ("messages",) if language[0] == before[0] else None
    return ("messages", after[before.index(language[0])]) if len(before) == len(after) else None


def _new_place(before: tuple[Any, ...], after: tuple[Any, ...], index: int) -> int | None:
    """Where the part at `index` is now: the same object, or the same place if it was edited; None if it is gone."""
    if before is after:
        return index
    part = before[index] if index < len(before) else None
    found = next((place for place, other in enumerate(after) if other is part), None)
    if found is not None:
        return found
    return index if len(before) == len(after) else None
