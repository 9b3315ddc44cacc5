"""Keeping a copy of unsaved work, a few seconds behind the hand, so that a crash loses next to nothing."""

from __future__ import annotations

import contextlib
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.project_file.incremental_dump import KeptText
from app.project_file.pending_edits import KeptDraft
from app.project_file.recovery import Origin, Slot, new_slot
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.kit.background import Background

QUIET_S: Final = 0.8
"""Seconds without an edit after which a copy is written."""
LONGEST_S: Final = 2.0
"""Seconds after which one is begun even though the edits go on."""
PREPARE_AFTER_MS: Final = 100
"""Time for a project that was just opened to be shown first."""
SLICE_S: Final = 0.002
SLICE_EVERY_MS: Final = 8
"""The text of a large project is written in slices of so many seconds, so that typing is not held up in between."""


class Autosave(QObject):
    """Writes what a document holds to a place of its own while it is unsaved; never to the user's file.

    What is typed and not accepted yet belongs to it, and is unsaved whatever the document holds.

    The text is made in the window's thread, part by part and only of parts that changed; the drive is waited for in
    another.
    """

    failed = Signal(str)
    """No copy could be written; why, in words. Said once until it works again."""
    written = Signal()
    """A copy is on the drive."""

    def __init__(
        self, document: Document, folder: Path, origin: Callable[[], Origin], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._document = document
        self._folder = folder
        self._origin = origin
        self._drafts: Callable[[], tuple[KeptDraft, ...]] = tuple
        self._text = KeptText()
        self._since: float | None = None
        self._posted = False
        self._broken = False
        self._slot: Slot | None = None  # belongs to the thread
        self._aside = Background("recovery copy")
        self._quiet = QTimer(self)
        self._quiet.setSingleShot(True)
        self._quiet.timeout.connect(self._slices_begin)
        self._slices = QTimer(self)
        self._slices.setInterval(SLICE_EVERY_MS)
        self._slices.timeout.connect(self._slice)
        document.changed.connect(self._note_change)
        aside = self._aside
        self.destroyed.connect(lambda: aside.stop(1.0))

    def watch(self, drafts: Drafts, kept: Callable[[], tuple[KeptDraft, ...]]) -> None:
        """Keep what is not accepted yet as well; `kept` gives it as it is now."""
        self._drafts = kept
        drafts.changed.connect(self._note_change)

    @property
    def _unsaved(self) -> bool:
        return self._document.modified or bool(self._drafts())

    def settle(self) -> None:
        """The document was saved, or another one was opened: the copy has done its work if nothing is unsaved now."""
        self._quiet.stop()
        self._slices.stop()
        self._since = None
        if self._unsaved:
            self._note_change()
            return
        if self._posted:
            self._posted = False
            self._aside.post("copy", self._clear)
        # The text of a large project takes longer the first time: it is begun before there is anything to be lost.
        self._quiet.start(PREPARE_AFTER_MS)

    def adopt(self, slot: Slot) -> None:
        """Go on with a place that another window left, the copy in it included."""
        self._posted = True
        self._aside.post("adopt", lambda: self._exchange(slot))

    def close(self, *, keep: bool) -> None:
        """End. What is unsaved is kept for the next start with `keep`, else there is nothing to be kept."""
        self._quiet.stop()
        self._slices.stop()
        if keep and self._unsaved:
            self._post()
        else:
            self._aside.post("copy", self._clear)
        self._aside.post("end", self._end)
        self._aside.stop()

    # In the window's thread

    def _note_change(self) -> None:
        if self._slices.isActive():
            self._since = self._since or time.monotonic()
            return  # the slices go on with the newest value
        now = time.monotonic()
        self._since = self._since or now
        self._quiet.start(max(0, int(1000 * min(QUIET_S, self._since + LONGEST_S - now))))

    def _slices_begin(self) -> None:
        self._slices.start()
        self._slice()

    def _slice(self) -> None:
        if not self._text.prepare(self._document.project, self._slice_s()):
            return
        self._slices.stop()
        changed, self._since = self._since is not None, None
        if changed and self._unsaved:
            self._post()
        elif self._posted:
            self._posted = False
            self._aside.post("copy", self._clear)

    def _slice_s(self) -> float:
        """Seconds for the next slice: more and more where edits leave no time in between, lest no copy is finished."""
        waiting = 0.0 if self._since is None else time.monotonic() - self._since
        return SLICE_S if waiting < LONGEST_S else SLICE_S * 10 if waiting < 1.5 * LONGEST_S else LONGEST_S

    def _post(self) -> None:
        text = self._text.text(self._document.project)
        origin, drafts = replace(self._origin(), at=time.time()), self._drafts()
        self._posted = True
        self._aside.post("copy", lambda: self._write(text, origin, drafts))

    # In the other thread

    def _write(self, text: str, origin: Origin, drafts: tuple[KeptDraft, ...]) -> None:
        try:
            if self._slot is None:
                self._slot = new_slot(self._folder)
            self._slot.write(text, origin, drafts)
        except OSError as error:
            if not self._broken:
                self._broken = True
                with contextlib.suppress(RuntimeError):  # the window may be gone
                    self.failed.emit(error.strerror or str(error))
            return
        self._broken = False
        with contextlib.suppress(RuntimeError):
            self.written.emit()

    def _clear(self) -> None:
        if self._slot is not None:
            with contextlib.suppress(OSError):
                self._slot.clear()

    def _exchange(self, slot: Slot) -> None:
        self._clear()
        self._end()
        self._slot = slot

    def _end(self) -> None:
        if self._slot is not None:
            self._slot.release()
            self._slot = None
