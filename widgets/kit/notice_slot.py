"""The one place of the window that says what happened and what stays so, with what can be done about it."""

from __future__ import annotations

import enum
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import partial
from itertools import count
from typing import Final

from PySide6.QtCore import QPoint, QRect, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QProgressBar,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from widgets.kit import palette
from widgets.kit.controls import push_button
from widgets.kit.elided import ShortLines
from widgets.kit.icons import state_icon, tool
from widgets.kit.look import set_look
from widgets.kit.row_list import RowList
from widgets.kit.scaling import line_height, percent, scaled

NoticeAction = tuple[str, Callable[[], object]]
"""What a button says, and what it does."""
HEIGHT: Final = 34
"""Pixels at 100 per cent, also while it says nothing: what comes and goes here moves nothing."""
BRIEF_ABOVE: Final = 125
"""Per cent of size above which it has one line only, and is as much lower."""
TOLD_MS: Final = 8_000
"""How long it is told what happened, where nobody has to know it."""
LOOKED_AT_MS: Final = 1_000
"""For so long more, again and again, while the pointer or the focus is on it."""
KEPT: Final = 20
"""Of what was said, in the list behind the icon."""
WORK_AFTER_MS: Final = 1_000
"""Work that is done sooner is not told."""
BAR: Final = 4
"""Width of the edge in the colour of what is wrong, in pixels at 100 per cent."""


def lines_here() -> int:
    """How many lines of text a slot for words has at the size in use."""
    return 2 if percent() <= BRIEF_ABOVE else 1


def slot_height() -> int:
    """Pixels that the slot takes at the size in use."""
    return scaled(HEIGHT) if percent() <= BRIEF_ABOVE else line_height(HEIGHT - 6)


class Gravity(enum.IntEnum):
    """How much it matters that somebody reads it."""

    NOTE = 0
    GOOD = 1
    CAUTION = 2
    FAULT = 3
    ALARM = 4
    """A fault that is about moving a machine: no other fault covers it."""


_ICONS: Final = {
    Gravity.NOTE: "note",
    Gravity.GOOD: "good",
    Gravity.CAUTION: "caution",
    Gravity.FAULT: "alarm",
    Gravity.ALARM: "alarm",
}


@dataclass(slots=True)
class SaidNotice:
    """What was said, and when. `about` names what stays so until it is retracted; empty: something that happened."""

    about: str
    text: str
    gravity: Gravity
    deeds: tuple[NoticeAction, ...] = ()
    at: datetime = field(default_factory=lambda: datetime.now().astimezone())
    number: int = field(default_factory=count().__next__)
    """The later it was said, the higher."""


class SlotWork:
    """Work that the slot tells of while it lasts; see `NoticeSlot.begin`."""

    def __init__(self, slot: NoticeSlot, words: str, stop: Callable[[], object] | None) -> None:
        self.words, self.stop = words, stop
        self.part: float | None = None
        """The part that is done, 0 to 1; None while nobody knows."""
        self._slot = slot

    def show(self, part: float) -> None:
        """So much is done, 0 to 1."""
        self.part = part
        self._slot.show_progress(self)

    def end(self) -> None:
        """It is done, or stopped."""
        self._slot.end(self)


class NoticeSlot(QFrame):
    """Says the newest of what is so; closed or no longer so, it gives way to the one before. It takes no focus.

    A fault leads. What merely happened is told for a while, over cautions, never over a fault; what went wrong just now
    leads for a while whatever else is so, since it may answer what somebody did, and stays until it is closed, until it
    is so no longer, or until the next thing happens.
    """

    wants = Signal(int)
    """So many pixels all of what it says now would take in one line."""
    said = Signal(object)
    """This SaidNotice is new, or has other words."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._notices: dict[str, SaidNotice] = {}
        self._told: SaidNotice | None = None
        self._idle = ""
        self._fresh: SaidNotice | None = None
        """What is wrong and was said just now, perhaps in answer to what somebody did."""
        self._works: list[SlotWork] = []
        self._waiting: list[SlotWork] = []
        """Work that has not lasted yet."""
        self._shown: SaidNotice | SlotWork | None = None
        self.history: deque[SaidNotice] = deque(maxlen=KEPT)
        """What was said last, the newest at the end."""
        self.list_button = tool("state-note", self.tr("What was said last"), self)
        self.list_button.clicked.connect(self.show_list)
        self.text = ShortLines(lines_here())
        self.text.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.progress = QProgressBar()
        self.progress.setTextVisible(False)
        self.progress.setFixedSize(scaled(120), scaled(8))
        self.progress.setAccessibleName(self.tr("Progress"))
        self.buttons: list[QPushButton] = []
        self._row = QHBoxLayout()
        self._row.setSpacing(scaled(4))
        self._close = tool("cross", self.tr("Close the message"), self)
        self._close.clicked.connect(self.close_shown)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(scaled(BAR) + scaled(4), 0, scaled(6), 0)
        layout.setSpacing(scaled(6))
        layout.addWidget(self.list_button)
        layout.addWidget(self.text, 1)
        layout.addWidget(self.progress)
        layout.addLayout(self._row)
        layout.addWidget(self._close)
        self.setFixedHeight(slot_height())
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._let_go)
        self._again = QTimer(self)
        self._again.timeout.connect(self._show)
        self._while_fresh = QTimer(self)
        self._while_fresh.timeout.connect(self._no_longer_fresh)
        for timer in (self._timer, self._again, self._while_fresh):
            timer.setSingleShot(True)
        self._show()

    # What is said

    @property
    def about(self) -> str:
        """What stays so and was said last; empty if nothing does."""
        return max(self._notices.values(), key=lambda notice: notice.number).about if self._notices else ""

    def has(self, about: str) -> bool:
        """Whether something is said about this and was not put away."""
        return about in self._notices

    @property
    def standing(self) -> str:
        """The words of what stays so and was said last."""
        return self._notices[self.about].text if self._notices else ""

    @property
    def words(self) -> str:
        """What is shown and matters; empty if nothing does."""
        shown = self._shown
        return shown.text if isinstance(shown, SaidNotice) else "" if shown is None else shown.words

    @property
    def gravity(self) -> Gravity:
        """Of what is shown."""
        return self._shown.gravity if isinstance(self._shown, SaidNotice) else Gravity.NOTE

    @property
    def told(self) -> str:
        """What happened last; empty if that is told no longer."""
        return "" if self._told is None else self._told.text

    def say(
        self,
        about: str,
        text: str,
        deeds: Sequence[NoticeAction] = (),
        gravity: Gravity = Gravity.CAUTION,
        *,
        leads: bool = False,
    ) -> None:
        """Show a sentence until it is closed or retracted, and a button for each deed, which closes it first.

        What is wrong and was not said before leads for a while; `leads`: this too, though nothing is wrong.
        """
        notice = self._notices.get(about)
        if notice is None:
            notice = self._notices[about] = SaidNotice(about, text, gravity, tuple(deeds))
            self.history.append(notice)
            if leads or gravity >= Gravity.CAUTION:
                self._put_first(notice)
        else:  # the same matter still, in other words perhaps
            notice.text, notice.gravity, notice.deeds = text, gravity, tuple(deeds)
        self._show(anew=notice is self._shown)
        self.said.emit(notice)

    def retract(self, about: str) -> None:
        """It is no longer so."""
        if self._notices.pop(about, None) is not None:
            self._show()

    def tell(self, text: str, gravity: Gravity = Gravity.NOTE, deeds: Sequence[NoticeAction] = ()) -> None:
        """Say what happened: for a while, or, if it is a caution or worse, until it is closed or something else is."""
        self._fresh = None
        if not text:
            self._told = None
        else:
            self._told = SaidNotice("", text, gravity, tuple(deeds))
            self.history.append(self._told)
            self._timer.stop()
            if gravity < Gravity.CAUTION:
                self._timer.start(TOLD_MS)
            else:
                self._put_first(self._told)
        self._show()
        if self._told is not None:
            self.said.emit(self._told)

    def _put_first(self, notice: SaidNotice) -> None:
        """Let it lead for a while, whatever else is so."""
        self._fresh = notice
        self._while_fresh.start(TOLD_MS)

    def set_idle(self, text: str) -> None:
        """What stands here, faint, while nothing else does."""
        self._idle = text
        self._show()

    def close_shown(self) -> None:
        """Put away what is shown."""
        shown = self._shown
        if isinstance(shown, SaidNotice):
            self._drop(shown)
        self._show()

    def _drop(self, notice: SaidNotice) -> None:
        if notice is self._told:
            self._told = None
        elif self._notices.get(notice.about) is notice:
            del self._notices[notice.about]

    def _no_longer_fresh(self) -> None:
        if self._is_looked_at():
            self._while_fresh.start(LOOKED_AT_MS)
        else:
            self._fresh = None
            self._show()

    def _is_looked_at(self) -> bool:
        focus = QApplication.focusWidget()
        return self.underMouse() or (focus is not None and self.isAncestorOf(focus))

    def _let_go(self) -> None:
        if self._is_looked_at():
            self._timer.start(LOOKED_AT_MS)
        else:
            self._told = None
            self._show()

    # Long work

    def begin(self, words: str, stop: Callable[[], object] | None = None) -> SlotWork:
        """Tell of work that has begun, if it lasts; `stop` is asked for by a button."""
        work = SlotWork(self, words, stop)
        self._waiting.append(work)
        QTimer.singleShot(WORK_AFTER_MS, self, lambda: self._tell_of(work))
        return work

    def _tell_of(self, work: SlotWork) -> None:
        if work in self._waiting:
            self._waiting.remove(work)
            self._works.append(work)
            self._show()

    def show_progress(self, work: SlotWork) -> None:
        """How far a work is has changed."""
        if work is self._shown:
            self.progress.setRange(0, 0 if work.part is None else 100)
            self.progress.setValue(round(100 * (work.part or 0)))

    def end(self, work: SlotWork) -> None:
        """A work is done."""
        for works in (self._waiting, self._works):
            if work in works:
                works.remove(work)
                self._show()

    # Showing it

    def _to_show(self) -> SaidNotice | SlotWork | None:
        said = [*self._notices.values(), *([self._told] if self._told is not None else [])]
        if any(notice is self._fresh for notice in said):
            return self._fresh
        worst = max(said, key=lambda notice: (notice.gravity, notice.number), default=None)
        if worst is not None and worst.gravity >= Gravity.FAULT:
            return worst
        return self._works[-1] if self._works else max(said, key=lambda notice: notice.number, default=None)

    def _show(self, *, anew: bool = False) -> None:
        shown = self._to_show()
        if shown is self._shown and shown is not None and not anew:
            return
        grave = isinstance(shown, SaidNotice) and shown.gravity >= Gravity.FAULT
        if not grave and self._is_about_to_be_taken():
            self._again.start(LOOKED_AT_MS)
            return
        self._shown = shown
        for button in self.buttons:
            self._row.removeWidget(button)
            button.hide()
            button.deleteLater()
        self.buttons = []
        notice = shown if isinstance(shown, SaidNotice) else None
        work = shown if isinstance(shown, SlotWork) else None
        words = self.words or self._idle
        self.text.setText(words)
        set_look(self.text, "" if self.words else "faint")
        self.setAccessibleName(words)
        self.list_button.setIcon(state_icon(_ICONS[self.gravity], none=not self.words))
        self._close.setVisible(notice is not None)
        self.progress.setVisible(work is not None)
        if work is not None:
            self.show_progress(work)
            if work.stop is not None:
                self._add_button(self.tr("Stop"), work.stop)
        if notice is not None:
            for text, deed in notice.deeds:
                self._add_button(text, partial(self._take, notice, deed))
        self.wants.emit(self._wanted_width())
        self.update()

    def _wanted_width(self) -> int:
        parts = [self.list_button, *([self.progress] if isinstance(self._shown, SlotWork) else []), *self.buttons]
        parts += [self._close] if isinstance(self._shown, SaidNotice) else []
        words = self.text.fontMetrics().horizontalAdvance(self.text.text())
        return words + sum(part.sizeHint().width() + scaled(6) for part in parts) + scaled(BAR) + scaled(16)

    def _is_about_to_be_taken(self) -> bool:
        """Whether the pointer is on a button of what is shown, which is still so: it must not become another one."""
        shown = self._shown
        so = isinstance(shown, SaidNotice) and (shown is self._told or shown is self._notices.get(shown.about))
        return so and any(button.underMouse() for button in self.buttons)

    def _add_button(self, words: str, run: Callable[[], object]) -> None:
        button = push_button(words, run, "quiet")
        self._row.addWidget(button)
        self.buttons.append(button)

    def _take(self, notice: SaidNotice, deed: Callable[[], object]) -> None:
        self._drop(notice)
        self._show()
        deed()

    def show_list(self) -> None:
        """Show what was said last, over the slot, until something else is clicked or Escape is pressed."""
        said = _SaidList(list(self.history), self)
        said.show()

    def minimumSizeHint(self) -> QSize:
        """Its buttons, and a few words."""
        return QSize(super().minimumSizeHint().width(), self.height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The ground of the frame; what is good or wrong has its own, and an edge at the left."""
        painter = QPainter(self)
        colours = palette.current()
        painter.fillRect(self.rect(), colours.colour("frame"))
        if self.gravity > Gravity.NOTE:
            colour = "fault" if self.gravity >= Gravity.FAULT else self.gravity.name.lower()
            painter.fillRect(self.rect(), colours.colour(f"{colour}_soft"))
            painter.fillRect(0, 0, scaled(BAR), self.height(), colours.colour(colour))
        else:
            painter.fillRect(0, 0, self.width(), 1, colours.colour("line"))


class _SaidList(QFrame):
    """What was said last, the newest first."""

    def __init__(self, said: Sequence[SaidNotice], slot: NoticeSlot) -> None:
        super().__init__(slot, Qt.WindowType.Popup)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setProperty("look", "card")
        self.list = RowList(2)
        self.list.setAccessibleName(self.tr("What was said last"))
        for notice in reversed(said):
            self.list.add_row(notice, notice.at.strftime("%H:%M:%S"), notice.text)
            item = self.list.topLevelItem(self.list.topLevelItemCount() - 1)
            if item is not None:
                item.setIcon(1, state_icon(_ICONS[notice.gravity]))
        if not said:
            self.list.add_row(None, "", self.tr("Nothing has been said yet"))
        header = self.list.header()
        header.setStretchLastSection(True)
        header.setSectionResizeMode(0, header.ResizeMode.ResizeToContents)
        self.list.choose_row(0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.addWidget(self.list)
        rows = min(max(len(said), 1), 10)
        row = max(self.list.sizeHintForRow(0), self.fontMetrics().lineSpacing())
        size = QSize(max(slot.width(), scaled(420)), rows * row + scaled(12))
        corner = slot.mapToGlobal(QPoint(0, 0)) - QPoint(0, size.height())
        screen = QGuiApplication.screenAt(corner) or slot.screen()
        self.setGeometry(
            QRect(corner, size) & screen.availableGeometry() if screen is not None else QRect(corner, size)
        )
        self.list.setFocus()
