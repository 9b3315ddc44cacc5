"""What the window says of its session in the one slot for notices: how the line stands, and what became of writing."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from widgets.kit.dialogs.questions import say
from widgets.kit.notice_slot import Gravity, NoticeSlot
from widgets.live.follower_card import DOUBTED
from widgets.live.live_session import LiveSession

if TYPE_CHECKING:  # imported with the line, when something is connected
    from app.line.status import Status

STATUS: Final = "status"
NOT_CONNECTED: Final = "not connected"
DISARMED: Final = "disarmed"
RECORDINGS: Final = "recordings"
WITHHELD: Final = "withheld"
"""What notices are about."""
STATUS_EVERY_S: Final = 0.4
"""How often it is said how lines, devices and data stand."""


class WindowNews(QObject):
    """Follows the session of a window, and says in its slot what whoever works there must know in any workspace."""

    def __init__(
        self, window: QWidget, live: LiveSession, notices: NoticeSlot, *, explained: Callable[[Status], bool]
    ) -> None:
        """`explained` tells whether the reason stands in sight elsewhere: then the slot does not say it again."""
        super().__init__(window)
        self._explained = explained
        self._said = ""
        self._window = window
        self._live = live
        self._notices = notices
        self._looked_at = 0.0
        self._status: Status | None = None
        live.frame.connect(self._say_status)
        live.connection_changed.connect(self._follow)
        live.left_on.connect(self._say_left_on)
        live.disarmed.connect(self._say_disarmed)

    def tell(self, words: str, trouble: bool = False) -> None:
        """Say what happened."""
        self._notices.tell(words, Gravity.CAUTION if trouble else Gravity.NOTE)

    def say_of_recordings(self, words: str, trouble: bool) -> None:
        """What is wrong with recordings stays until all is well."""
        if trouble:
            self._notices.say(RECORDINGS, words)
        else:
            self._notices.retract(RECORDINGS)
            self.tell(words)

    def say_withheld(self, why: str) -> None:
        """Why no recording takes the place of the live panel; empty once one may."""
        self._say_or_retract(WITHHELD, why)

    def say_refused(self, why: str) -> None:
        """Why nothing was connected; empty once it is tried again."""
        self._say_or_retract(NOT_CONNECTED, why)

    def _say_or_retract(self, about: str, words: str) -> None:
        self._notices.retract(about)
        if words:
            self._notices.say(about, words)  # anew: somebody asked for it again

    def _follow(self) -> None:
        if not self._live.writing.disarmed:
            self._notices.retract(DISARMED)
        self._looked_at = 0.0
        self._say_status()

    def _say_status(self) -> None:
        """The worst that is wrong; once it was put away not again, until something else is."""
        now = time.monotonic()
        if now - self._looked_at < STATUS_EVERY_S:
            return
        self._looked_at = now
        statuses = self._live.statuses()
        worst = None if statuses is None or statuses.worst.level < DOUBTED else statuses.worst
        words = "" if worst is None else worst.words if self._explained(worst) else worst.sentence
        same = worst == self._status
        if same and (words == self._said or not self._notices.has(STATUS)):
            return
        self._status, self._said = worst, words
        if worst is None:
            self._notices.retract(STATUS)
        else:
            self._notices.say(STATUS, words, gravity=Gravity.CAUTION if worst.level == DOUBTED else Gravity.FAULT)

    def _say_disarmed(self, why: str) -> None:
        words = self.tr("{why}. Keys that stop still write; arm again for the others.")
        self._notices.say(DISARMED, words.format(why=why[:1].upper() + why[1:]), gravity=Gravity.ALARM)

    def _say_left_on(self, signals: tuple[str, ...]) -> None:
        words = self.tr(
            "No confirmation that these signals were stopped or switched off: {signals}. They may still "
            "be on. Check the machine before anyone approaches it."
        ).format(signals=", ".join(signals))
        say(self._window, "caution", self.tr("Possibly still on"), words)
