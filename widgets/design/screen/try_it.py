"""The screen under edit, tried in place: its panel operated against simulated values, without any line."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QSizePolicy, QVBoxLayout, QWidget

from app.panel.events import Entered, Refused, ScreenChanged, Write
from app.panel.rendering import Rows
from app.project.binding import plain_text
from app.project.model import Project
from widgets.face.column import FaceColumn
from widgets.face.face import PanelFace
from widgets.kit.controls import push_button
from widgets.kit.elided import ShortLines
from widgets.kit.flow import FlowLayout
from widgets.kit.notice_slot import lines_here
from widgets.kit.scaling import scaled
from widgets.live.follower_card import CardColumn, FollowerCard
from widgets.live.live_session import FRAME_MS

if TYPE_CHECKING:  # models of followers are needed only once somebody tries a screen
    from app.session.rehearsal import Rehearsal

CARDS_EVERY_S: Final = 0.4
"""How often the followers' own values are brought up to date: nobody reads faster."""


class Tryout(QWidget):
    """Stands in the place of the face under edit while it is tried. Space, or its button, ends it."""

    ended = Signal(str)
    """The operator has enough; the screen on which the panel was."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rehearsal: Rehearsal | None = None
        self._chosen = ""
        self._rows: Rows = ()
        self._cards: list[FollowerCard] = []
        self._cards_at = 0.0
        self.face = PanelFace()
        self.face.key_pressed.connect(self._key_down)
        self.face.key_released.connect(self._key_up)
        self.said = ShortLines(lines_here())
        self.said.setContentsMargins(10, 3, 10, 4)
        self.said.setAccessibleName(self.tr("Last actions of the panel"))
        self.back = push_button(self.tr("Back to editing (Space)"), self.end)
        self.followers = CardColumn()
        """The cards of the simulated devices, to be shown beside; it belongs to whoever shows it."""
        self._lay_out()
        self.setFocusProxy(self.face)
        self._timer = QTimer(self)
        self._timer.setInterval(FRAME_MS)
        self._timer.timeout.connect(self._frame)

    def _lay_out(self) -> None:
        banner = QFrame()
        banner.setProperty("look", "notice")
        words = ShortLines(
            lines_here(),
            self.tr("Trying the panel with simulated values of its own: no key here reaches a line or a machine."),
        )
        words.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        words.setMinimumWidth(scaled(240))
        row = FlowLayout(banner)
        row.setContentsMargins(10, 4, 4, 4)
        row.addWidget(words)
        row.addWidget(self.back)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(banner)
        layout.addWidget(FaceColumn(self.face, self.said, narrowest=260), 1)

    @property
    def running(self) -> bool:
        """Whether a project is being tried."""
        return self._rehearsal is not None

    def begin(self, project: Project, screen: str, zoom: int, language: int = 0) -> str | None:
        """Operate `project` from `screen` on, as large as `zoom` says (see PanelFace.set_zoom).

        The panel begins in its language number `language`.

        Returns None, or in words why it cannot be tried.
        """
        from app.session.rehearsal import FollowerError, Rehearsal

        try:
            rehearsal = Rehearsal(project, screen, language=language)
        except FollowerError as why:
            return str(why)
        self._rehearsal = rehearsal
        self._chosen = screen
        self._rows = ()
        self.said.setText(self._keys_in_words(project))
        self.face.set_panel(project.panel)
        self.face.set_zoom(zoom)
        self._cards = [FollowerCard(project, follower, narrow=True) for follower in project.followers]
        for card in self._cards:
            card.simulate(rehearsal.models[card.follower.name])
        self.followers.show_cards(self._cards)
        self._timer.start()
        self._frame()
        return None

    def show_screen(self, screen: str) -> None:
        """Stand on a screen that was chosen beside the panel; the one that was chosen last changes nothing."""
        rehearsal = self._rehearsal
        if rehearsal is None or screen == self._chosen:
            return
        self._chosen = screen
        if screen not in rehearsal.project.screen_named:
            self.say(
                self.tr("\u201c{screen}\u201d is new: end trying and begin again to see it.").format(screen=screen)
            )
            return
        self.face.release_all()
        self._tell(rehearsal.show(screen))
        cover = rehearsal.panel.state.cover
        if cover not in (None, screen):
            words = self.tr("\u201c{cover}\u201d covers \u201c{screen}\u201d while its condition holds.")
            self.say(words.format(cover=cover, screen=screen))
        self._draw()

    def end(self) -> None:
        """Let go of all keys and stop."""
        rehearsal, self._rehearsal = self._rehearsal, None
        if rehearsal is None:
            return
        self._timer.stop()
        self.face.release_all()
        self._cards = []
        self.followers.show_cards([])
        self.ended.emit(rehearsal.panel.state.shown)

    def _keys_in_words(self, project: Project) -> str:
        return self.tr("Keys of the panel: {keys}").format(keys=", ".join(project.panel.keys) or self.tr("none"))

    def _key_down(self, key: str) -> None:
        if self._rehearsal is not None:
            self._tell(self._rehearsal.panel.key_down(key))
            self._draw()

    def _key_up(self, key: str) -> None:
        if self._rehearsal is not None:
            self._tell(self._rehearsal.panel.key_up(key))
            self._draw()

    def _frame(self) -> None:
        rehearsal = self._rehearsal
        if rehearsal is None:
            return
        self._tell(rehearsal.panel.tick())
        self._draw()
        now = time.monotonic()
        if now - self._cards_at >= CARDS_EVERY_S:
            self._cards_at = now
            for card in self._cards:
                card.refresh()

    def _draw(self) -> None:
        rehearsal = self._rehearsal
        if rehearsal is None:
            return
        rows = rehearsal.panel.rows()
        if rows != self._rows:
            self._rows = rows
            self.face.set_rows(rows)

    def say(self, words: str) -> None:
        """Say something where it covers no key."""
        self.said.setText(f"\u26a0 {words}")

    def _tell(self, effects: tuple[Any, ...]) -> None:
        words = [words for effect in effects if (words := self._in_words(effect))]
        if words:
            self.said.setText("   \N{MIDDLE DOT}   ".join(words))

    def _in_words(self, effect: object) -> str:
        project = self._rehearsal.project if self._rehearsal is not None else None
        if project is None:
            return ""
        if isinstance(effect, ScreenChanged):
            return self.tr("Went to \u201c{screen}\u201d: {cause}").format(screen=effect.screen, cause=effect.cause)
        if isinstance(effect, Write):
            value = plain_text(project, effect.signal, effect.value)
            return self.tr("Wrote {value} to {signal}").format(value=value, signal=effect.signal)
        if isinstance(effect, Entered):
            old, new = (plain_text(project, effect.signal, value) for value in (effect.old, effect.new))
            return self.tr("Entered {signal}: {old} \u2192 {new}").format(signal=effect.signal, old=old, new=new)
        if isinstance(effect, Refused):
            return self.tr("Refused: {reason}").format(reason=effect.reason)
        return ""

    # Events

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space ends it, unless it presses the key or the button that has the focus."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            event.accept()
            self.end()
            return
        super().keyPressEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        """A window that is not in front holds no key."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self._rehearsal is not None and not self.isActiveWindow():
            self._tell(self._rehearsal.panel.release_all())

    def hideEvent(self, event: QHideEvent) -> None:
        """Nobody tries what nobody sees."""
        super().hideEvent(event)
        self.end()
