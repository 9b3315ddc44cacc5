"""What was typed into a form and not accepted yet, as one line of a recovery copy."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from app.project.model import Project

_MARK: Final = "# fanlight not accepted: "
_MARKS: Final = (_MARK.encode(), b"# fanlight not taken over: ")
_FORMER_KINDS: Final = {"turn": "screen_change"}
"""The second mark, and what kinds of parts were called, are of the time when project files had format 1."""
LARGEST_LINE: Final = 4 * 1024 * 1024
"""Characters of such a line at most; what is pasted into a form by mistake may be of any size."""


@dataclass(frozen=True, slots=True)
class KeptDraft:
    """The texts of one row of a form that were not right yet."""

    subject: tuple[str | int, ...]
    """The part: its kind, then its name or its index counted from 0, as in ("signal", "level") or ("field", "a", 0)."""
    row: str
    """What the row was called, in the language of that window."""
    place: int
    """Which row of its form it was, counted from 0."""
    texts: tuple[str, ...]
    reason: str
    """What was wrong with them, in words."""

    def belongs_to(self, project: Project) -> bool:
        """Whether the part is in this project."""
        match self.subject:
            case ("panel",):
                return True
            case ("messages",):
                return not project.panel.languages
            case ("messages", str(language)):
                return language in project.panel.languages
            case ("signal", str(name)):
                return name in project.signal_named
            case ("screen", str(name)):
                return name in project.screen_named
            case ("line", str(name)):
                return name in project.line_named
            case ("follower", str(name)):
                return name in project.follower_named
            case ("screen_change", int(index)):
                return index < len(project.screen_changes)
            case ("action", int(index)):
                return index < len(project.actions)
            case ("field", str(screen), int(index)):
                return screen in project.screen_named and index < len(project.screen_named[screen].fields)
            case _:
                return False


def line_of(drafts: Sequence[KeptDraft]) -> str:
    """A remark that holds these, with the end of its line; empty if there are none.

    Texts that would make the line longer than LARGEST_LINE are missing in it, which `drafts_in` tells.
    """
    if not drafts:
        return ""
    entries: list[str] = []
    room = LARGEST_LINE - len(_MARK)
    for draft in drafts:
        about = {"subject": draft.subject, "row": draft.row, "place": draft.place, "reason": draft.reason}
        entry = json.dumps({**about, "texts": draft.texts})
        if len(entry) > room:
            entry = "null"
        entries.append(entry)
        room -= len(entry) + len(", ")
    # A remark must not hold control characters: JSON in ASCII writes them as escapes.
    return f"{_MARK}[{', '.join(entries)}]\n"


def is_line_of_drafts(line: bytes) -> bool:
    """Whether a line of a copy is such a remark, be it sound or not."""
    return line.startswith(_MARKS)


def drafts_in(line: bytes) -> tuple[tuple[KeptDraft, ...], bool]:
    """What such a line holds, and whether that is all of it: entries that make no sense are left out.

    Any other line holds none, as the copies of former versions do.
    """
    if not is_line_of_drafts(line):
        return (), True
    try:
        entries = json.loads(line.partition(b": ")[2].decode("ascii"))
    except (ValueError, RecursionError):
        return (), False
    if not isinstance(entries, list):
        return (), False
    drafts = tuple(draft for draft in map(_draft, entries) if draft is not None)
    return drafts, len(drafts) == len(entries)


def _draft(entry: object) -> KeptDraft | None:
    if not isinstance(entry, dict):
        return None
    subject, row, place = entry.get("subject"), entry.get("row"), entry.get("place")
    texts, reason = entry.get("texts"), entry.get("reason")
    if not (
        isinstance(subject, list) and subject and all(isinstance(each, str) or _is_place(each) for each in subject)
    ):
        return None
    if not (isinstance(texts, list) and texts and all(isinstance(each, str) for each in texts)):
        return None
    if not (isinstance(row, str) and isinstance(reason, str) and isinstance(place, int) and _is_place(place)):
        return None
    subject[0] = _FORMER_KINDS.get(subject[0], subject[0])
    return KeptDraft(tuple(subject), row, place, tuple(texts), reason)


def _is_place(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value >= 0
