"""How the file of a project stands while it is edited: is it still the same, whose is it, may it be written?"""

from __future__ import annotations

import hashlib
import os
from pathlib import Path
from typing import TYPE_CHECKING, Final, Protocol

from PySide6.QtCore import QObject

from app.project.model import FORMAT
from app.project_file.files import kept_as, may_write
from app.project_file.locks import take
from widgets.document.document import Document
from widgets.document.file_watch import FileWatch
from widgets.kit.notice_slot import Gravity, NoticeAction, NoticeSlot

if TYPE_CHECKING:
    from filelock import BaseFileLock


OF_FILES: Final = ("changed", "gone", "elsewhere", "no-copy", "last", "format", "read-only")
"""What notices of a file are about."""


class FileActions(Protocol):
    """What can be done about a file that is not as it should be."""

    def save(self) -> bool:
        """Save to the file."""

    def save_as(self) -> bool:
        """Save elsewhere."""

    def reload(self) -> bool:
        """Take what the file holds."""

    def compare_conflict(self, path: Path) -> None:
        """Show both versions."""


class FileStatus(QObject):
    """Follows one file, and says among the notices whatever the user should know about it."""

    def __init__(
        self,
        document: Document,
        state: Path | None,
        actions: FileActions,
        notices: NoticeSlot,
        parent: QObject | None = None,
    ) -> None:
        """`state` is the folder for notes of open files; None keeps none. `notices` is where it is said."""
        super().__init__(parent)
        self._document = document
        self._state = state
        self._actions = actions
        self._notices = notices
        self.known: str | None = None
        """The digest of the file as it was read or saved here last."""
        self.format = FORMAT
        """That of the file."""
        self._path: Path | None = None
        self._open_here: BaseFileLock | None = None
        self.watch = FileWatch(self)
        self.watch.found.connect(self._judge)

    def follow(self, path: Path | None, known: str | None, number: int = FORMAT) -> None:
        """The document belongs to this file from now on, which holds the content `known` in the format `number`."""
        former, self._path, self.known, self.format = self._path, path, known, number
        self.watch.follow(path, known)
        for about in OF_FILES:
            self._notices.retract(about)
        if path is not None and number < FORMAT:
            self._say_former_format(path)
        if path == former:
            return
        self._leave()
        if path is None:
            return
        alone, self._open_here = self._enter(path)
        if not alone:
            self._say_open_elsewhere(path)
        elif path.exists() and not may_write(path):
            self._say_read_only(path)

    def look(self) -> None:
        """Look now: the user comes back from another program."""
        self.watch.look()
        if self._path is not None and self._open_here is None:
            alone, self._open_here = self._enter(self._path)
            if alone:
                self._notices.retract("elsewhere")

    def is_open_elsewhere(self, path: Path) -> bool:
        """Whether another window has this file open."""
        alone, lock = self._enter(path)
        if lock is not None:
            lock.release()
        return not alone

    def close(self) -> None:
        """Let go of the file."""
        self.watch.stop()
        self._leave()

    def _enter(self, path: Path) -> tuple[bool, BaseFileLock | None]:
        """Note that this window has the file open. False if another one has noted that already, and the note."""
        if self._state is None:
            return True, None
        folder = self._state / "open"
        name = hashlib.sha256(os.fsencode(os.path.realpath(path))).hexdigest()[:32]
        try:
            folder.mkdir(parents=True, exist_ok=True)
            lock = take(folder / f"{name}.lock")
        except OSError:
            return True, None  # no note can be kept; that the folder is no good is said along with the first copy
        return lock is not None, lock

    def _leave(self) -> None:
        if self._open_here is not None:
            self._open_here.release()
            self._open_here = None

    def _judge(self, path: Path, digest: str | None) -> None:
        if path != self._path:
            return
        if digest == self.known:
            self._notices.retract("changed")
            self._notices.retract("gone")
        elif digest is None:
            self._say_gone(path)
        else:
            self.say_changed(path)

    # What is said

    def say_changed(self, path: Path) -> None:
        """Another program has changed the file."""
        if self._document.modified:
            words = self.tr("{file} was changed by another program, and you have unsaved changes.")
        else:
            words = self.tr("{file} was changed by another program.")
        deeds: tuple[NoticeAction, ...] = (
            (self.tr("Co&mpare"), lambda: self._actions.compare_conflict(path)),
            (self.tr("Re&load"), self._actions.reload),
        )
        self._notices.say("changed", words.format(file=path.name), deeds)

    def say_no_copy(self, reason: str) -> None:
        """The copy of unsaved work cannot be written."""
        words = self.tr("No recovery copy can be written to {folder}: {reason}. Save often.")
        self._notices.say("no-copy", words.format(folder=self._state, reason=reason), gravity=Gravity.FAULT)

    def say_not_opened(self, why: str, again: NoticeAction) -> None:
        """The project of the last window was not opened at the start."""
        words = self.tr("{why} Nothing is open.")
        self._notices.say("last", words.format(why=why), (again,))

    def _say_gone(self, path: Path) -> None:
        words = self.tr(
            "{file} is missing or cannot be read: deleted, renamed, or its disk was removed. This window holds the "
            "only copy."
        )
        deeds: tuple[NoticeAction, ...] = (
            (self.tr("Save it &there again"), self._actions.save),
            (self.tr("Save &as\u2026"), self._actions.save_as),
        )
        self._notices.say("gone", words.format(file=path.name), deeds, Gravity.FAULT)

    def _say_open_elsewhere(self, path: Path) -> None:
        words = self.tr(
            "{file} is open in another window too. You can edit it here; whichever window saves second asks before "
            "overwriting."
        )
        self._notices.say("elsewhere", words.format(file=path.name))

    def _say_former_format(self, path: Path) -> None:
        words = self.tr(
            "{file} has format {format} of an earlier Fanlight. Saving writes format {now}, which an earlier one "
            "cannot open; the present file is then kept as {backup}."
        )
        backup = kept_as(path.name, self.format)
        self._notices.say("format", words.format(file=path.name, format=self.format, now=FORMAT, backup=backup))

    def _say_read_only(self, path: Path) -> None:
        words = self.tr("{file} is read-only: you can edit it, but must save it under another name.")
        self._notices.say(
            "read-only", words.format(file=path.name), ((self.tr("Save &as\u2026"), self._actions.save_as),)
        )
