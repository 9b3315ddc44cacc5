"""The alarm that a stop is not proved: large, over the foot of the window, so that nothing moves away under a hand."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent, QHideEvent, QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QWidget

from widgets.kit.controls import push_button
from widgets.kit.elided import ShortLabel
from widgets.kit.notice_slot import slot_height
from widgets.kit.plain import plain_tip
from widgets.live.live_session import LiveSession


class StopAlarm(QFrame):
    """Shows what `Session.unproved` says, over the places of some widgets. It takes no focus when it comes."""

    def __init__(self, live: LiveSession, over: Sequence[QWidget], parent: QWidget) -> None:
        """`over` are the widgets of `parent` that it covers."""
        super().__init__(parent)
        self._live = live
        self._parent = parent
        self._over = tuple(over)
        self.setProperty("look", "alarm")
        self.setAutoFillBackground(True)
        self.headline = ShortLabel()
        self.headline.setProperty("look", "alarm")
        self.seen = push_button(self.tr("Confirm: machine checked"), self._forget)
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 2, 8, 2)
        row.addWidget(self.headline, 1)
        row.addWidget(self.seen, 0, Qt.AlignmentFlag.AlignVCenter)
        live.frame.connect(self._look)
        live.connection_changed.connect(self._look)
        self.hide()

    def showEvent(self, event: QShowEvent) -> None:
        """Watch what it covers; not before, since a filter costs something at every event of these."""
        super().showEvent(event)
        self._place()
        for widget in (self._parent, *self._over):
            widget.installEventFilter(self)

    def hideEvent(self, event: QHideEvent) -> None:
        """Watch no longer."""
        super().hideEvent(event)
        for widget in (self._parent, *self._over):
            widget.removeEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay over what it covers."""
        if event.type() in (QEvent.Type.Resize, QEvent.Type.Move, QEvent.Type.Show, QEvent.Type.Hide):
            self._place()
        return super().eventFilter(watched, event)

    def _place(self) -> None:
        parent = self._parent
        place = QRect()
        for widget in self._over:
            if widget.isVisibleTo(parent):
                place |= QRect(widget.mapTo(parent, QPoint()), widget.size())
        foot = parent.height()
        top = min(place.top() if place.isValid() else foot, foot - slot_height())
        self.setGeometry(0, top, parent.width(), foot - top)

    def _look(self) -> None:
        session = self._live.session
        unproved = None if session is None else session.unproved
        if unproved is None:
            if not self.isHidden():
                self.hide()
            return
        text = f"\u26a0 {unproved.headline}"
        if text != self.headline.text() or self.isHidden():
            self.headline.setText(text)
            self.setAccessibleName(unproved.headline)
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.Alert))
        self.headline.setToolTip(plain_tip(f"{unproved.headline}\n{unproved.words}"))
        self.setAccessibleDescription(unproved.words)
        self.seen.setVisible(unproved.failed)
        self.show()
        self.raise_()

    def _forget(self) -> None:
        if self._live.session is not None:
            self._live.session.forget_failed()
        self._look()
