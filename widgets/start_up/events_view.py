"""Events and alarms: what needs somebody above, everything that happened below, and a line for a remark."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.events.alarms import WORDS, Alarm, AlarmState
from app.events.events import Event
from app.language import translate as app_text
from widgets.document.save_as import FileKind, where_to_save, write_or_say
from widgets.document.settings import Settings
from widgets.kit.commands import allow, command
from widgets.kit.controls import Choice, push_button
from widgets.kit.elided import search_box
from widgets.kit.flow import FlowLayout
from widgets.kit.plain import plain_label
from widgets.start_up.events_table import Civil, EventFilter, EventGroup, EventsModel, EventsTable, group_names

MOST_ALARMS: Final = 3
"""Rows of alarms that are in sight at once."""


class EventsView(QWidget):
    """Shows events; what people want done about them is emitted."""

    acknowledge_wanted = Signal(object)
    """A tuple of alarms (indexes of overrides in the project's screen changes) that somebody has seen."""
    note_wanted = Signal(str)
    """Somebody wrote a remark."""
    moment_chosen = Signal(float)
    """Somebody wants to see the moment of an event."""
    said = Signal(str)
    """Something to tell the user."""

    def __init__(self, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        self.model = EventsModel(self)
        self.table = EventsTable(self.model)
        self.alarms = QListWidget()
        self.alarms.setAccessibleName(self.tr("Alarms"))
        self.alarms.setSelectionMode(QListWidget.SelectionMode.ExtendedSelection)
        self.groups = Choice()
        self.groups.setAccessibleName(self.tr("Which events"))
        for group, name in group_names():
            self.groups.addItem(name, group)
        self.filter = search_box(self.tr("Filter"), self.tr("Filter of the events"))
        self.note = QLineEdit()
        self.note.setPlaceholderText(self.tr("Type a remark and press Enter"))
        self.note.setAccessibleName(self.tr("Remark"))
        self._make_actions()
        self._lay_out()
        self.groups.currentIndexChanged.connect(lambda _index: self._want())
        self.filter.textChanged.connect(lambda _text: self._want())
        self.note.returnPressed.connect(self._write_note)
        self.table.activated.connect(lambda _index: self._choose_moment())
        self.show_alarms({})

    def _make_actions(self) -> None:
        self.acknowledge_action = command(self, self.tr("&Acknowledge the alarms"), self._acknowledge, "Alt+Shift+A")
        self.note_action = command(self, self.tr("Write a &remark"), self.note.setFocus, "Alt+Shift+R")
        self.copy_action = command(self, self.tr("&Copy the events"), self.copy, "Alt+Shift+C", within=True)
        self.save_action = command(self, self.tr("&Save the events\u2026"), self.save, "Alt+Shift+S", within=True)
        self.moment_action = command(
            self, self.tr("Go to the &moment"), self._choose_moment, "Alt+Shift+G", within=True
        )

    def _lay_out(self) -> None:
        self._heading = plain_label(self.tr("Events"), "heading")
        self.acknowledge = push_button(self.tr("Acknowledge"), self.acknowledge_action.trigger)
        self._count = plain_label("", "faint")
        bar = FlowLayout(spacing=8)
        bar.addWidget(self._heading)
        bar.addWidget(self.groups)
        self.filter.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        bar.addWidget(self.filter)
        bar.addWidget(self._count)
        self._alarm_row = QWidget()
        alarm_row = QHBoxLayout(self._alarm_row)
        alarm_row.setContentsMargins(0, 0, 0, 0)
        alarm_row.addWidget(self.alarms, 1)
        alarm_row.addWidget(self.acknowledge, 0, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 4, 6, 4)
        layout.setSpacing(4)
        layout.addWidget(self._alarm_row)
        layout.addLayout(bar)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.note)

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu."""
        menu.addActions([self.acknowledge_action, self.note_action])
        menu.addSeparator()
        menu.addActions([self.moment_action, self.copy_action, self.save_action])

    # What is shown

    def set_source_clock(self, civil: Civil) -> None:
        """Show times by this clock: from the time of an event to the civil time."""
        self.model.set_civil(civil)

    def set_events(self, events: Iterable[Event]) -> None:
        """Show these events instead."""
        self.model.set_events(events)
        self._say_count()

    def add_events(self, events: tuple[Event, ...]) -> None:
        """These have just happened."""
        self.model.add(events)
        self._say_count()

    def show_alarms(self, alarms: Mapping[int, Alarm]) -> None:
        """The alarms of the project, by the index of their override; those that are normal are not listed."""
        listed = {index: alarm for index, alarm in alarms.items() if alarm.state is not AlarmState.NORMAL}
        texts = {
            index: self.tr("\u26a0 {screen}: {condition} \u2013 {state}").format(
                screen=alarm.screen, condition=alarm.condition, state=app_text("record", WORDS[alarm.state])
            )
            for index, alarm in listed.items()
        }
        shown = {
            item.data(Qt.ItemDataRole.UserRole): item.text()
            for item in (self.alarms.item(row) for row in range(self.alarms.count()))
        }
        if shown != texts:
            self.alarms.clear()
            for index, text in texts.items():
                item = QListWidgetItem(text)
                item.setData(Qt.ItemDataRole.UserRole, index)
                self.alarms.addItem(item)
        waiting = any(alarm.state in (AlarmState.UNACKNOWLEDGED, AlarmState.RETURNED) for alarm in listed.values())
        allow(self.acknowledge_action, waiting, self.tr("no alarm to acknowledge"))
        self.acknowledge.setEnabled(waiting)
        self._alarm_row.setVisible(bool(listed))
        rows = min(len(listed), MOST_ALARMS)
        self.alarms.setFixedHeight(rows * (self.fontMetrics().height() + 6) + 6)

    def set_notes_allowed(self, allowed: bool) -> None:
        """Whether remarks can be written: not into a recording that is played."""
        self.note.setVisible(allowed)
        allow(self.note_action, allowed, self.tr("remarks can only be added while live"))

    # What people do

    def copy(self) -> None:
        """Put the selected events, or all that are shown, on the clipboard, for a spreadsheet."""
        QGuiApplication.clipboard().setText(self.model.as_text(self.table.chosen_rows()))

    def save(self) -> None:
        """Ask for a file and write the selected events, or all that are shown, into it."""
        kind = FileKind(self.tr("Comma-separated values (*.csv)"), ".csv")
        place = where_to_save(
            self, self._settings, "start_up_folder", self.tr("Save the events"), self.tr("events"), (kind,)
        )
        if place is not None:
            content = self.model.as_text(self.table.chosen_rows(), ",").encode("utf-8-sig")
            write_or_say(place[0], content, self.said.emit)

    def _acknowledge(self) -> None:
        chosen = [item.data(Qt.ItemDataRole.UserRole) for item in self.alarms.selectedItems()]
        rows = [self.alarms.item(row) for row in range(self.alarms.count())]
        self.acknowledge_wanted.emit(tuple(chosen or [item.data(Qt.ItemDataRole.UserRole) for item in rows]))

    def _write_note(self) -> None:
        text = self.note.text().strip()
        if text:
            self.note.clear()
            self.note_wanted.emit(text)

    def _choose_moment(self) -> None:
        event = self.table.current_event()
        if event is not None:
            self.moment_chosen.emit(event.at)

    def _want(self) -> None:
        group = self.groups.currentData()
        self.model.want(
            EventFilter(
                group if isinstance(group, EventGroup) else EventGroup.ALL, tuple(self.filter.text().casefold().split())
            )
        )
        self._say_count()

    def _say_count(self) -> None:
        shown, total = len(self.model.shown), self.model.total
        self._count.setText(
            str(total) if shown == total else self.tr("{shown} of {total}").format(shown=shown, total=total)
        )
