"""Choosing a signal, and how to show it, for a new field."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QWidget,
)

from app.project.model import BitSignal, HeldSignal, Project, RegisterSignal
from widgets.face.sample_values import likely_kind, width_needed
from widgets.kit.controls import Choice
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.elided import search_box
from widgets.kit.fuzzy_match import best_first
from widgets.kit.plain import plain_label
from widgets.kit.row_list import RowList


def signal_origin(project: Project, name: str) -> str:
    """Where a signal comes from, short: "pump holding 310 uint16", "bit 2 of status", "held in the panel"."""
    signal = project.signal_named.get(name)
    if isinstance(signal, RegisterSignal):
        kind = "" if signal.table in ("coil", "discrete") else f" {signal.encoding}"
        return f"{signal.follower} {signal.table} {signal.number}{kind}"
    if isinstance(signal, BitSignal):
        return QCoreApplication.translate("SignalPicker", "bit {number} of {of}").format(
            number=signal.bit.number, of=signal.bit.of
        )
    if isinstance(signal, HeldSignal):
        return QCoreApplication.translate("SignalPicker", "held in the panel")
    return ""


_choices: list[tuple[object, tuple[tuple[str, str], ...]]] = [(None, ())]


def signal_choices(project: Project) -> tuple[tuple[str, str], ...]:
    """The signals to choose from, as the rows of forms take them: the same object as long as they have these names."""
    signals, choices = _choices[0]
    if signals is not project.signals:
        now = tuple((name, name) for name in project.signal_named)
        choices = choices if now == choices else now
        _choices[0] = (project.signals, choices)
    return choices


class SignalPicker(Dialog):
    """Type to narrow the list, Up and Down to choose, Enter to place."""

    picked = Signal(str, str, bool)
    """The signal, the kind of field, and whether the operator may change the value there."""
    new_signal_wanted = Signal(str)

    def __init__(self, project: Project, parent: QWidget | None = None) -> None:
        super().__init__(parent, height=440)
        self._project = project
        self.setObjectName("signal picker")
        self.tell(self.tr("Place a field"))
        self.search = search_box(self.tr("Name or register of a signal"), self.tr("Filter the signals"))
        self.list = RowList(2)
        self.list.setAccessibleName(self.tr("Signals"))
        self.kind = Choice()
        self.kind.setAccessibleName(self.tr("Kind of field"))
        for value, text in kinds():
            self.kind.addItem(text, value)
        self.cells = plain_label("", "faint")
        self.entry = QCheckBox(self.tr("The &operator may change it"))
        self.none = plain_label(
            self.tr("There is no signal with that name. Create it in the Signals view first."), wrap=True
        )
        self.none.hide()
        row = QHBoxLayout()
        row.addWidget(QLabel(self.tr("Shown as")))
        row.addWidget(self.kind)
        row.addWidget(self.cells, 1)
        self.body.addWidget(self.search)
        self.body.addWidget(self.list, 1)
        self.body.addWidget(self.none)
        self.body.addLayout(row)
        self.body.addWidget(self.entry)
        self.add_extra(self.tr("New signal\u2026"), self._new)
        self.place = self.add_deed(self.tr("Place"), self._accept)
        self.add_cancel()
        self.search.textChanged.connect(self._narrow)
        self.search.installEventFilter(self)
        self.list.currentItemChanged.connect(lambda _now, _before: self._current())
        self.list.itemDoubleClicked.connect(lambda _item, _column: self._accept())
        self.kind.currentIndexChanged.connect(lambda _index: self._kind_chosen())
        self._narrow("")

    def _narrow(self, text: str) -> None:
        self.list.clear()
        signals = [(name, signal_origin(self._project, name)) for name in self._project.signal_named]
        for name, origin in best_first(text, signals, lambda each: each[0], lambda each: each[1]):
            self.list.add_row(name, name, origin)
        self.list.choose_row(0)
        some = self.list.topLevelItemCount() > 0
        self.none.setVisible(not some)
        self.place.setEnabled(some)

    def _current(self) -> None:
        name = self.list.current_value()
        if name is not None:
            kind = likely_kind(self._project, str(name))
            self.kind.setCurrentIndex(self.kind.findData(kind))
        self.entry.setChecked(False)  # it was said of another signal
        self._kind_chosen()

    def _kind_chosen(self) -> None:
        signal = self._project.signal_named.get(str(self.list.current_value()))
        writable = isinstance(signal, HeldSignal) or (signal is not None and signal.write)
        self.entry.setEnabled(writable and self.kind.currentData() != "bar")
        self._say_width()

    def _say_width(self) -> None:
        name = self.list.current_value()
        if name is None:
            self.cells.clear()
            return
        width = width_needed(self._project, str(name), str(self.kind.currentData()))
        self.cells.setText(self.tr("{width} cells wide").format(width=width))

    def _accept(self) -> None:
        name = self.list.current_value()
        if name is not None:
            entry = self.entry.isEnabled() and self.entry.isChecked()
            self.picked.emit(str(name), str(self.kind.currentData()), entry)
            self.accept()

    def _new(self) -> None:
        self.new_signal_wanted.emit(self.search.text().strip())
        self.reject()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.search and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            ways = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_PageUp: -8, Qt.Key.Key_PageDown: 8}
            way = ways.get(Qt.Key(event.key()))
            count = self.list.topLevelItemCount()
            if way is not None and count:
                self.list.choose_row(min(max(self.list.row() + way, 0), count - 1))
                return True
        return super().eventFilter(watched, event)


def kinds() -> list[tuple[str, str]]:
    """The kinds of fields: stored word and what a person reads."""
    return [
        ("number", QCoreApplication.translate("SignalPicker", "number")),
        ("hexadecimal", QCoreApplication.translate("SignalPicker", "hexadecimal")),
        ("choice", QCoreApplication.translate("SignalPicker", "text per value")),
        ("bar", QCoreApplication.translate("SignalPicker", "bar")),
    ]
