"""The alarm that waits for somebody, with its acknowledgement: a box whose room is kept while there is none."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QHBoxLayout, QLabel, QMenu, QVBoxLayout, QWidget

from app.events.alarms import WORDS, Alarm, AlarmState
from app.language import translate as app_text
from widgets.kit import palette
from widgets.kit.commands import allow, command, mark_entry
from widgets.kit.controls import push_button
from widgets.kit.elided import ShortLabel
from widgets.kit.icons import SIDE, state_icon
from widgets.kit.look import set_look
from widgets.kit.scaling import scaled

HEIGHT: Final = 60
LOW: Final = 44
"""Of the box, in pixels at 100 per cent, and where there is little room."""
BAR: Final = 4
"""Width of the bar at its left while an alarm waits, in pixels at 100 per cent."""
_ORDER: Final = (AlarmState.UNACKNOWLEDGED, AlarmState.RETURNED, AlarmState.ACKNOWLEDGED)
"""Which alarm is shown first."""
_WAITING: Final = frozenset({AlarmState.UNACKNOWLEDGED, AlarmState.RETURNED})


class AlarmBox(QWidget):
    """Shows one alarm, and how many more there are. What one does not see one does not acknowledge."""

    acknowledge_wanted = Signal(object)
    """A tuple with the alarm (index of its override in the project's screen changes) that somebody has seen."""

    def __init__(self, parent: QWidget | None = None, *, low: bool = False) -> None:
        """`low`: there is little room."""
        super().__init__(parent)
        self._alarms: dict[int, Alarm] = {}
        self._chosen: int | None = None
        self._may = True
        self.setFixedHeight(scaled(LOW if low else HEIGHT))
        self.acknowledge_action = command(self, self.tr("&Acknowledge the alarm"), self._acknowledge, "Alt+Shift+A")
        self.sign = QLabel()
        self.title = ShortLabel()
        self.state = ShortLabel()
        self.more = push_button("", self._show_more)
        self.acknowledge = push_button(self.tr("Acknowledge"), self.acknowledge_action.trigger)
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addStretch()
        words.addWidget(self.title)
        words.addWidget(self.state)
        words.addStretch()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(scaled(12), 0, scaled(12), 0)
        layout.addWidget(self.sign)
        layout.addLayout(words, 1)
        layout.addWidget(self.more)
        layout.addWidget(self.acknowledge)
        self.show_alarms({})

    @property
    def shown(self) -> int | None:
        """The alarm in the box; None: there is none."""
        return self._chosen

    @property
    def listed(self) -> tuple[int, ...]:
        """The alarms that are not normal, in the order in which they are shown."""
        return tuple(self._alarms)

    def show_alarms(self, alarms: Mapping[int, Alarm], *, may_acknowledge: bool = True) -> None:
        """The alarms of the project by the index of their override, of which the normal ones are left out.

        Those of a recording cannot be acknowledged.
        """
        listed = [(index, alarm) for index, alarm in alarms.items() if alarm.state is not AlarmState.NORMAL]
        listed.sort(key=lambda found: (_ORDER.index(found[1].state), found[1].since or 0.0))
        if dict(listed) == self._alarms and may_acknowledge == self._may and self.title.text():
            return
        if self._chosen is not None and dict(listed).get(self._chosen) != self._alarms.get(self._chosen):
            self._chosen = None  # acknowledged, or over: on to the one that waits most
        self._alarms, self._may = dict(listed), may_acknowledge
        if self._chosen not in self._alarms:
            self._chosen = next(iter(self._alarms), None)
        self._show()

    def _show(self) -> None:
        alarm = None if self._chosen is None else self._alarms[self._chosen]
        waits, side = alarm is not None and alarm.state in _WAITING, scaled(SIDE)
        if alarm is None:
            self.title.setText(self.tr("no alarm"))
            self.state.setText("")
        else:
            self.title.setText(alarm.condition)
            self.state.setText(app_text("record", WORDS[alarm.state]))
        set_look(self.title, "faint" if alarm is None else "heading")
        set_look(self.state, "fault" if waits else "faint")
        others = len(self._alarms) - 1
        self.more.setVisible(others > 0)
        self.more.setText(self.tr("{count} more").format(count=others))
        why = self.tr("an alarm of a recording") if not self._may else self.tr("no alarm to acknowledge")
        allow(self.acknowledge_action, waits and self._may, why)
        self.acknowledge.setEnabled(waits and self._may)
        self.acknowledge.setVisible(alarm is not None and self._may)
        self.state.setVisible(alarm is not None)
        self.setAccessibleName(self.tr("Alarm"))
        self.setAccessibleDescription(". ".join(part for part in (self.title.text(), self.state.text()) if part))
        self.sign.setPixmap(QPixmap() if alarm is None else state_icon("alarm").pixmap(side, side))
        self.update()

    def _acknowledge(self) -> None:
        if self._chosen is not None:
            self.acknowledge_wanted.emit((self._chosen,))

    def _show_more(self) -> None:
        menu = QMenu(self)
        for index, alarm in self._alarms.items():
            words = f"{alarm.condition}  \N{EN DASH}  {app_text('record', WORDS[alarm.state])}"
            entry = mark_entry(menu.addAction(words.replace("&", "&&")))
            entry.setCheckable(True)
            entry.setChecked(index == self._chosen)
            entry.triggered.connect(lambda _checked=False, index=index: self._choose(index))
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(self.more.mapToGlobal(self.more.rect().bottomLeft()))

    def _choose(self, index: int) -> None:
        if index in self._alarms:
            self._chosen = index
            self._show()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, colours = QPainter(self), palette.current()
        alarm = None if self._chosen is None else self._alarms[self._chosen]
        waits = alarm is not None and alarm.state in _WAITING
        painter.fillRect(self.rect(), colours.colour("fault_soft" if waits else "pane"))
        if waits:
            painter.fillRect(0, 0, scaled(BAR), self.height(), colours.colour("fault"))
        for y in (0, self.height() - 1):
            painter.fillRect(0, y, self.width(), 1, colours.colour("line"))
