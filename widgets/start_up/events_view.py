"""Everything that happened, as a list that can be narrowed, and a line for a remark."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLineEdit, QMenu, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.events.events import Event
from widgets.document.save_as import where_to_save, write_or_say
from widgets.document.settings import Settings
from widgets.kit.commands import allow, command
from widgets.kit.elided import search_box, shorten_placeholder
from widgets.kit.flow import FlowLayout
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled
from widgets.start_up.events_table import (
    Civil,
    EventColumn,
    EventFilter,
    EventGroup,
    EventsModel,
    EventsTable,
    group_text,
)
from widgets.start_up.trend_export import chosen_spreadsheet, spreadsheets

LOW: Final = 110
"""Pixels at 100 per cent of the table where there is room for a few rows only: less is scrolled."""
ROOM_FOR: Final = 999
"""Events whose count has room from the start."""


class EventsView(QWidget):
    """Shows events; what people want done about them is emitted."""

    note_wanted = Signal(str)
    """Somebody wrote a remark."""
    moment_chosen = Signal(float)
    """Somebody wants to see the moment of an event."""
    said = Signal(str)
    """Something to tell the user."""

    def __init__(self, settings: Settings, parent: QWidget | None = None, *, low: bool = False) -> None:
        """`low`: there is room for a few rows only, and a tab says what they are."""
        super().__init__(parent)
        self._settings = settings
        self.model = EventsModel(self)
        self.table = EventsTable(self.model)
        self.toggles = {group: _toggle() for group in EventGroup}
        self.filter = search_box(self.tr("Filter"), self.tr("Filter of the events"))
        self.note = QLineEdit()
        shorten_placeholder(self.note, self.tr("Type a remark and press Enter"))
        self.note.setAccessibleName(self.tr("Remark"))
        self._make_actions()
        self._lay_out(low=low)
        for toggle in self.toggles.values():
            toggle.toggled.connect(lambda _on: self._want())
        self.filter.textChanged.connect(lambda _text: self._want())
        self.note.returnPressed.connect(self._write_note)
        self.table.activated.connect(lambda _index: self._choose_moment())
        self._say_count()

    def _make_actions(self) -> None:
        self.note_action = command(self, self.tr("Write a &remark"), self.note.setFocus, "Alt+Shift+R")
        self.copy_action = command(self, self.tr("&Copy the events"), self.copy, "Alt+Shift+C", within=True)
        self.save_action = command(self, self.tr("&Save the events\u2026"), self.save, "Alt+Shift+S", within=True)
        self.moment_action = command(
            self, self.tr("Go to the &moment"), self._choose_moment, "Alt+Shift+G", within=True
        )

    def _lay_out(self, *, low: bool) -> None:
        self._count = plain_label("", "faint")
        bar = FlowLayout(spacing=scaled(8))
        bar.setContentsMargins(scaled(12), scaled(8), scaled(12), scaled(8))
        if not low:
            bar.addWidget(plain_label(self.tr("Events"), "heading"))
        for line in (self.filter, self.note):
            line.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        bar.addWidget(self.filter)
        for group, toggle in self.toggles.items():
            # Room for what is to come: nothing moves under a pointer as the counts grow.
            toggle.setText(group_text(group, ROOM_FOR))
            toggle.setMinimumWidth(toggle.sizeHint().width())
            bar.addWidget(toggle)
            if low and group in (EventGroup.SIGNALS, EventGroup.LINE):
                toggle.hide()
        self._count.setMinimumWidth(self._count.fontMetrics().horizontalAdvance(f"{ROOM_FOR} / {ROOM_FOR}"))
        if not low:
            bar.addWidget(self._count)
            bar.addWidget(self.note)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(bar)
        layout.addWidget(self.table, 1)
        if low:
            layout.addWidget(self.note)
            self.table.setMinimumHeight(scaled(LOW))
            self.table.setColumnHidden(EventColumn.STATE, True)  # which stands in the words, too

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu."""
        menu.addAction(self.note_action)
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

    def set_notes_allowed(self, allowed: bool) -> None:
        """Whether remarks can be written: not into a recording that is played."""
        self.note.setEnabled(allowed)
        allow(self.note_action, allowed, self.tr("remarks can only be added while live"))

    # What people do

    def copy(self) -> None:
        """Put the selected events, or all that are shown, on the clipboard, for a spreadsheet."""
        QGuiApplication.clipboard().setText(self.model.as_text(self.table.chosen_rows()))

    def save(self) -> None:
        """Ask for a file and write the selected events, or all that are shown, into it."""
        kinds = [each.kind for each in spreadsheets()]
        place = where_to_save(
            self, self._settings, "start_up_folder", self.tr("Save the events"), self.tr("events"), kinds
        )
        if place is not None:
            delimiter = chosen_spreadsheet(place[1]).delimiter
            content = self.model.as_text(self.table.chosen_rows(), delimiter).encode("utf-8-sig")
            write_or_say(place[0], content, self.said.emit)

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
        groups = frozenset(group for group, toggle in self.toggles.items() if toggle.isChecked())
        self.model.want(EventFilter(groups, tuple(self.filter.text().casefold().split())))
        self._say_count()

    def _say_count(self) -> None:
        shown, total = len(self.model.shown), self.model.total
        self._count.setText("" if shown == total else self.tr("{shown} of {total}").format(shown=shown, total=total))
        for group, toggle in self.toggles.items():
            toggle.setText(group_text(group, self.model.number(group)))


def _toggle() -> QToolButton:
    button = QToolButton()
    button.setCheckable(True)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    return button
