"""The one voice of the program: what is said while something happens, one after the other, the grave things first.

A screen reader breaks off what it is saying whenever it is given something new. So what could be said is kept here
until what is being said has probably been heard.
"""

from __future__ import annotations

import enum
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from itertools import count
from typing import Final

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QAccessibleEvent
from PySide6.QtWidgets import QAbstractItemView, QApplication, QWidget
from shiboken6 import isValid

from widgets.speech.roles import give_role

PER_LETTER_S: Final = 0.065
AT_LEAST_S, AT_MOST_S = 0.4, 4.0
"""How long what is said is waited for: about 15 letters a second (common practice, no source). Of a long sentence
the end may be broken off: what to do about it."""
NUMBERS_EVERY_S: Final = 1.0
"""From one sentence about numbers to the next, at least."""
NO_FOCUS_MS: Final = 200
"""From one attempt to the next while nothing has the focus."""
FORGOTTEN_S: Final = 15.0
"""What could not be said for so long is said no more."""

SpokenWords = str | Callable[[], str]
"""What to say; worked out when it is its turn, where it may be no longer true by then. Empty: nothing any more."""


class Urgency(enum.IntEnum):
    """What waits for what, and what is broken off for it."""

    NUMBER = 0
    """Said when nothing else is."""
    RESULT = 1
    """What became of something; broken off where the panel shows it, too."""
    NEWS = 2
    """Said next; what is newer about the same matter breaks it off."""
    URGENT = 3
    """Said at once, and broken off for nothing."""


@dataclass(frozen=True, slots=True)
class Utterance:
    """Something to say; `about` names the matter, of which only the newest is said."""

    words: SpokenWords
    urgency: Urgency
    about: str
    at: float
    broken_off: Callable[[], object] | None = None
    number: int = field(default_factory=count().__next__)


class Voice(QObject):
    """Says one thing after the other, through whatever has the focus. Costs nothing while nobody listens."""

    said = Signal(str)
    """This is being said."""

    def __init__(
        self,
        mouth: Callable[[str, bool], bool],
        clock: Callable[[], float] = time.monotonic,
        parent: QObject | None = None,
    ) -> None:
        """`mouth` says words, assertively or not, and whether it could."""
        super().__init__(parent)
        self._mouth, self._clock = mouth, clock
        self._waiting: list[Utterance] = []
        self._now: Utterance | None = None
        self._words = ""
        self._until = 0.0
        """When what is being said has been heard."""
        self._number_at = -NUMBERS_EVERY_S
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.go_on)

    def say(
        self,
        words: SpokenWords,
        urgency: Urgency = Urgency.NEWS,
        about: str = "",
        broken_off: Callable[[], object] | None = None,
    ) -> None:
        """Say this when it is its turn, instead of what waits about the same matter.

        News that something urgent breaks off is said again, or else `broken_off` is called, who knows what is so by
        then.
        """
        if not words or not QAccessible.isActive():
            return
        if about:
            self.forget(about)
        self._waiting.append(Utterance(words, urgency, about, self._clock(), broken_off))
        self.go_on()

    def forget(self, about: str) -> None:
        """What waits about this is so no longer."""
        self._waiting = [each for each in self._waiting if each.about != about]

    def go_on(self) -> None:
        """Say what is due."""
        while self._waiting:
            now = self._clock()
            due = max(self._waiting, key=lambda each: (each.urgency, -each.number))
            free = self._free_at(due)
            if free > now:
                self._timer.start(max(1, round(1000 * (free - now))))
                return
            words = due.words if isinstance(due.words, str) else due.words()
            repeated = words == self._words and now < self._until
            if words and not repeated and now - due.at < FORGOTTEN_S and not self._speak(due, words, now):
                self._timer.start(NO_FOCUS_MS)
                return
            if due in self._waiting:  # what is said may have made it forgotten
                self._waiting.remove(due)

    def _free_at(self, due: Utterance) -> float:
        """When it may be said."""
        current = self._now
        if current is None:
            return 0.0
        newer = due.about and due.about == current.about and due.urgency is not Urgency.URGENT
        at = 0.0 if due.urgency > current.urgency or newer else self._until
        return max(at, self._number_at + NUMBERS_EVERY_S) if due.urgency is Urgency.NUMBER else at

    def _speak(self, due: Utterance, words: str, now: float) -> bool:
        if not self._mouth(words, due.urgency is Urgency.URGENT):
            return False
        current, cut = self._now, now < self._until
        self._now, self._words = due, words
        self._until = now + min(max(AT_LEAST_S, PER_LETTER_S * len(words)), AT_MOST_S)
        if due.urgency is Urgency.NUMBER:
            self._number_at = now
        self.said.emit(words)
        if current is not None and cut and due.urgency > current.urgency is Urgency.NEWS:
            if current.broken_off is not None:
                current.broken_off()
            else:
                self._waiting.append(current)
        return True


class SpokenNotice(QWidget):
    """Has the role of a notification, which is read whatever has the focus; it is never seen."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setFixedSize(1, 1)
        self.lower()
        self.show()

    def say(self, words: str) -> None:
        """Have this read out."""
        self.setAccessibleName(words)
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.ObjectShow))


class Mouth(QObject):
    """Has words read out by what reads the screen.

    Where it reads announcements (Windows, macOS), by one. The reader of Linux desktops in use ignores them (Orca 43):
    it reads the description of what has the focus when that changes. So that becomes the words, and its own again as
    soon as it has the focus no more. It takes the tab of any bar that turns over for what has the focus (Qt 6.11 says
    so whatever has it), so it is told each time what really has. Where a cell of a table has the focus, or a menu is
    open, it reads a notification.
    """

    def __init__(self, application: QApplication) -> None:
        super().__init__(application)
        self._described: tuple[QWidget, str, str] | None = None
        """What has the focus, its own description, and what was said in its place."""
        application.focusChanged.connect(lambda: QTimer.singleShot(0, self, self._restore))  # not read out by then

    def __call__(self, words: str, assertive: bool) -> bool:
        """Have this read out; False if nothing has the focus."""
        focus = QApplication.focusWidget()
        if focus is None:
            return False
        if sys.platform in ("win32", "darwin"):
            event = QAccessibleAnnouncementEvent(focus, words)
            if assertive:
                event.setPoliteness(QAccessible.AnnouncementPoliteness.Assertive)
            QAccessible.updateAccessibility(event)
        elif isinstance(focus, QAbstractItemView) or QApplication.activePopupWidget() is not None:
            window = focus.window()
            (window.findChild(SpokenNotice) or SpokenNotice(window)).say(words)
        else:
            self._describe(focus, words)
        return True

    def _describe(self, focus: QWidget, words: str) -> None:
        own = focus.accessibleDescription()
        if self._described is not None and self._described[0] is focus and self._described[2] == own:
            own = self._described[1]
        self._described = focus, own, words
        QAccessible.updateAccessibility(QAccessibleEvent(focus, QAccessible.Event.Focus))
        if focus.accessibleDescription() != words:
            focus.setAccessibleDescription(words)
        else:
            QAccessible.updateAccessibility(QAccessibleEvent(focus, QAccessible.Event.DescriptionChanged))

    def _restore(self) -> None:
        if self._described is None:
            return
        widget, own, words = self._described
        if not isValid(widget):
            self._described = None
        elif not widget.hasFocus():
            self._described = None
            if widget.accessibleDescription() == words:
                widget.setAccessibleDescription(own)


give_role(SpokenNotice, QAccessible.Role.Notification)


@cache
def _voice_of(application: QCoreApplication) -> Voice:
    assert isinstance(application, QApplication)
    return Voice(Mouth(application), parent=application)


def voice() -> Voice:
    """The voice of the program. Only where there is an application."""
    application = QApplication.instance()
    assert application is not None, "there is no application"
    return _voice_of(application)
