"""Copies of unsaved work, which outlive the program: one for each window, in a folder of the user's own.

A copy is a project file with a remark in front that tells where it belongs, and a second one for what was typed and not
accepted yet, if anything was. As long as its window lives it is locked; one that nobody holds was left by a program
that died.
"""

from __future__ import annotations

import contextlib
import json
import secrets
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from app.language import translate
from app.project.model import Project
from app.project.problems import Problem
from app.project_file.bounded_read import read_ordinary
from app.project_file.files import LARGEST_FILE, ProjectFileError, parse
from app.project_file.locks import take
from app.project_file.pending_edits import LARGEST_LINE, KeptDraft, drafts_in, is_line_of_drafts, line_of
from app.project_file.replace_file import write_whole

if TYPE_CHECKING:
    from filelock import BaseFileLock

_MARK: Final = "# fanlight unsaved work: "
_LARGEST_MARK: Final = 64 * 1024
_LARGEST_COPY: Final = LARGEST_FILE + _LARGEST_MARK + LARGEST_LINE


@dataclass(frozen=True, slots=True)
class Origin:
    """Where unsaved work belongs."""

    path: Path | None
    """The file that it would have been saved to; None if it never had one."""
    known: str | None = None
    """The digest of that file when it was last read or saved; see `app.project_file.files.save`."""
    at: float = 0.0
    """When the copy was written, in seconds since 1970."""


@dataclass(frozen=True, slots=True)
class UnsavedWork:
    """Unsaved work, as it stands in a copy."""

    project: Project
    origin: Origin
    drafts: tuple[KeptDraft, ...] = ()
    """What was typed and not accepted yet, each of a part that is in the project."""
    all_drafts: bool = True
    """False if some of that makes no sense, or was too large to be kept."""


class Slot:
    """The place of one window's copy, locked until it is let go. Not shared between threads but for `write`."""

    def __init__(self, file: Path, lock: BaseFileLock) -> None:
        self.file = file
        self._lock = lock

    def write(self, text: str, origin: Origin, drafts: Sequence[KeptDraft] = ()) -> None:
        """Keep the canonical text of a project and what is not accepted yet, in place of the former copy.

        Raises OSError.
        """
        about = {"path": None if origin.path is None else str(origin.path), "known": origin.known, "at": origin.at}
        write_whole(self.file, f"{_MARK}{json.dumps(about)}\n{line_of(drafts)}{text}".encode())

    @property
    def filled(self) -> bool:
        """Whether there is a copy."""
        return self.file.exists()

    def read(self) -> UnsavedWork:
        """The copy. Raises ProjectFileError if its project cannot be read."""
        try:
            content = read_ordinary(self.file, _LARGEST_COPY)
        except (OSError, ValueError) as error:
            reason = getattr(error, "strerror", None) or error
            words = translate("recovery", "the copy cannot be read: {reason}").format(reason=reason)
            raise ProjectFileError((Problem("", words),), self.file, unreadable=True) from None
        content, line = _without_drafts(content)
        try:
            project = parse(content, loose=True)
        except ProjectFileError as error:
            raise ProjectFileError(error.problems, self.file, unreadable=error.unreadable) from None
        drafts, whole = drafts_in(line)
        there = tuple(draft for draft in drafts if draft.belongs_to(project))
        return UnsavedWork(project, _origin(content), there, whole and len(there) == len(drafts))

    @property
    def origin(self) -> Origin:
        """Where the copy belongs, as far as it can be read."""
        try:
            origin = _origin(read_ordinary(self.file, _LARGEST_MARK))
            return origin if origin.at else Origin(origin.path, origin.known, self.file.stat().st_mtime)
        except (OSError, ValueError):
            return Origin(None)

    def clear(self) -> None:
        """Forget the copy: it was saved, or is not wanted. Raises OSError."""
        self.file.unlink(missing_ok=True)

    def release(self) -> None:
        """Let go of the place. A copy in it waits for whoever looks next."""
        with contextlib.suppress(OSError):
            if not self.file.exists():
                self.file.with_suffix(".lock").unlink(missing_ok=True)
        self._lock.release()


def new_slot(folder: Path) -> Slot:
    """A place for the copy of a window, empty. Raises OSError if the folder cannot be used."""
    folder.mkdir(parents=True, exist_ok=True)
    while True:
        name = time.strftime("%Y%m%d-%H%M%S-") + secrets.token_hex(4)
        lock = take(folder / f"{name}.lock")
        if lock is not None:
            return Slot(folder / f"{name}.toml", lock)


def left_behind(folder: Path) -> tuple[Slot, ...]:
    """The copies of windows that are gone, the newest first. They are held until released, so nobody else gets them."""
    return tuple(sorted(_left_behind(folder), key=lambda slot: slot.origin.at, reverse=True))


def _left_behind(folder: Path) -> Iterator[Slot]:
    try:
        files = sorted(file for file in folder.glob("*.toml") if not file.name.startswith("."))
    except OSError:
        return
    for file in sorted({*files, *(lock.with_suffix(".toml") for lock in folder.glob("*.lock"))}):
        try:
            lock = take(file.with_suffix(".lock"))
        except OSError:
            continue
        if lock is None:
            continue
        if file.is_file():  # a pipe or a folder of that name is no copy
            yield Slot(file, lock)
        else:  # its window ended in order just now, or died with nothing unsaved
            with contextlib.suppress(OSError):
                file.with_suffix(".lock").unlink(missing_ok=True)
            lock.release()


def _origin(content: bytes) -> Origin:
    line = content.split(b"\n", 1)[0].decode("utf-8", "replace")
    try:
        about = json.loads(line.removeprefix(_MARK)) if line.startswith(_MARK) else None
    except (ValueError, RecursionError):
        about = None
    if not isinstance(about, dict):
        return Origin(None)
    path, known, at = about.get("path"), about.get("known"), about.get("at")
    return Origin(
        Path(path) if isinstance(path, str) and path else None,
        known if isinstance(known, str) else None,
        float(at) if isinstance(at, int | float) and not isinstance(at, bool) and 0 < at < 1e11 else 0.0,
    )


def _without_drafts(content: bytes) -> tuple[bytes, bytes]:
    """The copy with an empty remark in place of the drafts, lest damage there cost the project; and their line."""
    first, *others = content.split(b"\n", 2)
    if not (first.startswith(_MARK.encode()) and len(others) == 2 and is_line_of_drafts(others[0])):
        return content, b""
    return b"\n".join([first, b"#", others[1]]), others[0]
