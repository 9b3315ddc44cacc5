"""Two tables under one another."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from app.edits.several import ListedKind, delete_parts, order_parts, parts_of, shifted_order
from widgets.design.tables.part_table import PartTable
from widgets.document.document import Document


class TwoTables(QWidget):
    """Two tables under one another; the one that was used last is the current one."""

    chosen = Signal()
    opened = Signal()
    added = Signal()
    """A part was added and is current: it wants a name and the rest."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._tables: dict[str, PartTable] = {}
        self._kind = ""

    def _add_tables(self, upper: tuple[str, PartTable], lower: tuple[str, PartTable], sizes: list[int]) -> None:
        self._take_tables(upper, lower)
        splitter = QSplitter(Qt.Orientation.Vertical)
        for table in self._tables.values():
            splitter.addWidget(table)
        splitter.setSizes(sizes)
        splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(splitter)

    def _take_tables(self, upper: tuple[str, PartTable], lower: tuple[str, PartTable]) -> None:
        self._tables = dict((upper, lower))
        self._kind = upper[0]
        for kind, table in self._tables.items():
            table.chosen.connect(lambda index, kind=kind: self._choose(kind, index))
            table.opened.connect(lambda _index, kind=kind: self._open(kind))
            table.table.gained_focus.connect(lambda kind=kind: self._choose(kind, 0))

    @property
    def table(self) -> PartTable:
        """The table that was used last."""
        return self._tables[self._kind]

    @property
    def first(self) -> QWidget:
        """What takes the focus."""
        return self._tables[self._kind].table

    def _choose(self, kind: str, index: int) -> None:
        if index >= 0:
            self._make_current(kind)
            self.chosen.emit()

    def _make_current(self, kind: str) -> None:
        self._kind = kind
        for other, table in self._tables.items():
            if other != kind:
                table.fade()
        self._tables[kind].light_up()

    def _open(self, kind: str) -> None:
        self._make_current(kind)
        self.opened.emit()

    def _delete_several(self, kind: ListedKind, name: str, places: tuple[int, ...]) -> None:
        self._document.do(name, lambda project: delete_parts(project, kind, places))

    def _move_several(self, kind: ListedKind, name: str, places: tuple[int, ...], way: Any) -> None:
        order = shifted_order(len(parts_of(self._document.project, kind)), places, way)
        if self._document.do(name, lambda project: order_parts(project, kind, order)) is None:
            self._make_current(kind)
            self._tables[kind].select_places([order.index(place) for place in places])
            self.chosen.emit()

    def current(self) -> tuple[str, int]:
        """Kind and index of the current part; -1 for none."""
        return self._kind, self._tables[self._kind].current()

    def select(self, kind: str, index: int) -> None:
        """Make a part current."""
        self._tables[kind].select(index)
        self._make_current(kind)

    def focus(self, kind: str) -> None:
        """Give a table the focus."""
        self._tables[kind].table.setFocus(Qt.FocusReason.OtherFocusReason)
