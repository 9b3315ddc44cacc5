"""A table of parts of one kind: its heading, filter and buttons, and the grid that they work on."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QHeaderView,
    QLineEdit,
    QMenu,
    QPushButton,
    QSizePolicy,
    QTableView,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Project
from widgets.design.tables.cell_editor import CellDelegate, CellWays
from widgets.design.tables.part_editing import PartEditing
from widgets.design.tables.part_grid import PartGrid
from widgets.design.tables.part_model import PartModel
from widgets.design.tables.table_work import TableWork
from widgets.design.values.column import Column
from widgets.kit.commands import OWN_KEYS, mark_entry
from widgets.kit.controls import push_button
from widgets.kit.elided import shorten_placeholder
from widgets.kit.flow import FlowLayout
from widgets.kit.icons import icon, tool
from widgets.kit.own_keys import TABLE
from widgets.kit.plain import plain_label
from widgets.kit.scaling import heading_width, percent, scaled

Keep = Callable[[Project, Any, int], bool]
KEEP_MS: Final = 400
WIDEST: Final = 2_000
"""Pixels at 100 per cent of a column; more was not kept by this program."""
_ALL: Final = ("", None)
"""The first choice of what is shown."""


@dataclass(frozen=True, slots=True)
class Narrowing:
    """How a list is narrowed: the text in which words are sought, and choices of which parts are shown."""

    text: Callable[[Project, Any], str]
    choices: Sequence[tuple[str, Keep]] = ()


def height_of(grid: QTableView, rows: int, most: int) -> int:
    """The height in which so many rows of a table are seen, two at least, but not more than `most` pixels."""
    row = grid.verticalHeader().defaultSectionSize()
    around = grid.horizontalHeader().sizeHint().height() + 2 * grid.frameWidth()
    bar = grid.horizontalScrollBar()
    around += bar.sizeHint().height() if bar.maximum() > 0 else 0
    return around + row * max(2, min(rows, (most - around) // row))


class PartTable(QWidget):
    """Places in signals are indices in the list of the project, whatever the view shows and in which order."""

    chosen = Signal(int)
    """A row became current; -1: none."""
    opened = Signal(int)
    """The properties of a part are wanted."""
    add_wanted = Signal(str)
    """One of the kinds that were offered."""
    duplicate_wanted = Signal(object)
    """Places, a tuple."""
    delete_wanted = Signal(object)
    """Places, a tuple."""
    move_wanted = Signal(object, int)
    """Places, a tuple, and -1 for up or 1 for down."""
    arranged = Signal()
    """Other rows are shown, or in another order, or more of them are selected."""

    def __init__(
        self,
        title: str,
        columns: Sequence[Column],
        kinds: Sequence[tuple[str, str]],
        *,
        narrowing: Narrowing | None = None,
        editing: PartEditing | None = None,
        empty: str = "",
        add_text: str = "",
        tools: Sequence[QWidget] = (),
        parent: QWidget | None = None,
    ) -> None:
        """`empty` is what an empty table says, such as how to begin; `add_text` what the button says that adds a part,
        before which the `tools` stand.
        """
        super().__init__(parent)
        self._empty = empty
        self.model = PartModel(columns, spare=editing is not None)
        self.editing = editing
        self.table = PartGrid(self.model, cells=editing is not None)
        self.table.setAccessibleName(title)
        self._kinds = tuple(kinds)
        self._add_text = add_text
        self._tools = tuple(tools)
        self.row_actions: dict[str, QAction] = {}
        self.columns_menu: QMenu | None = None
        self._narrowing = narrowing
        self._several = False
        self._quiet = False
        self._faded = False
        self.work = TableWork(self.table, editing) if editing is not None else None
        self._lay_out(title)
        self._fit_columns(columns)
        self._connect()
        self._enable()

    def _lay_out(self, title: str) -> None:
        narrowed = self._narrowing is not None
        self.heading = plain_label(title, "heading")
        self.count = plain_label("", "faint")
        self.narrow = QLineEdit(self)
        shorten_placeholder(self.narrow, self.tr("Filter by name, unit\u2026"))
        self.narrow.setAccessibleName(self.tr("Filter"))
        self.narrow.setClearButtonEnabled(True)
        self.narrow.addAction(icon("search", "faint"), QLineEdit.ActionPosition.LeadingPosition)
        self.narrow.setMinimumWidth(scaled(120))
        self.narrow.setMaximumWidth(scaled(190))
        self.toggles = QButtonGroup(self)
        for at, (text, _) in enumerate((_ALL, *self._narrowing.choices) if self._narrowing is not None else ()):
            toggle = QPushButton(text or self.tr("All"))
            toggle.setCheckable(True)
            toggle.setChecked(at == 0)
            toggle.setAutoDefault(False)
            self.toggles.addButton(toggle, at)
        self.file_order = push_button(self.tr("File order"), self.to_file_order)
        self.file_order.setToolTip(self.tr("Sorting changes the view only. Go back to the order of the file"))
        self.add_button = QPushButton(icon("plus"), self._add_text or self.tr("Add"))
        self.add_button.setAutoDefault(False)
        self.add_button.setToolTip(self.tr("Add (Insert)"))
        if len(self._kinds) > 1:
            menu = QMenu(self)
            for value, text in self._kinds:
                mark_entry(menu.addAction(text, lambda value=value: self.add_wanted.emit(value)))  # type: ignore[misc]
            self.add_button.setMenu(menu)
        self.more_button = tool("more", self.tr("More"), self, self.tr("More of what can be done with the rows"))
        self.more = QMenu(self)
        for name, text, deed, run in (
            ("copy", self.tr("&Duplicate"), "duplicate rows", self.duplicate_rows),
            ("up", self.tr("Move &up"), "move up", lambda: self.move_rows(-1)),
            ("down", self.tr("Move do&wn"), "move down", lambda: self.move_rows(1)),
            ("delete", self.tr("D&elete"), "delete rows", self.delete_rows),
        ):
            action = mark_entry(self.more.addAction(icon(name), text, run))
            action.setProperty(OWN_KEYS, TABLE.first_key(deed))  # which the grid takes
            self.row_actions[name] = action
        self.more_button.setMenu(self.more)
        self.more_button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        bar = FlowLayout(spacing=8)
        bar.setContentsMargins(12, 6, 8, 6)
        # Only hidden: shown here, where they have no parent yet, they would be windows for a moment.
        for left_out in (self.heading, self.count) if narrowed else (self.narrow,):
            left_out.setParent(self)  # without one it would outlive the table
            left_out.hide()
        if narrowed:
            self.narrow.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            bar.addWidget(self.narrow)
            for button in self.toggles.buttons():
                bar.addWidget(button)
        else:
            bar.addWidget(self.heading)
            bar.addWidget(self.count)
        bar.add_stretch()
        for each in (self.file_order, *self._tools, self.add_button, self.more_button):
            bar.addWidget(each)
        self.file_order.hide()
        self.nothing = plain_label("", "faint", wrap=True)
        self.nothing.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        over = QVBoxLayout(self.table.viewport())
        free = self.table.verticalHeader().defaultSectionSize() * self.model.rowCount()
        over.setContentsMargins(12, free + 10, 12, 10)
        over.addWidget(self.nothing, 0, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(bar)
        layout.addWidget(self.table, 1)

    def fit_rows(self, most: int) -> None:
        """Be as high as the rows need, but not above `most` pixels, and show two rows at least."""
        self.table.setFixedHeight(height_of(self.table, self.model.rowCount(), most - self.bar_height()))

    def bar_height(self) -> int:
        """Pixels above the grid."""
        return self.sizeHint().height() - self.table.sizeHint().height()

    def show_counts(self, counts: Sequence[int]) -> None:
        """Say how many rows there are, and how many each choice would show."""
        if self._narrowing is None:
            self.count.setText(str(counts[0]))
        texts = [self.tr("All"), *(text for text, _ in self._narrowing.choices)] if self._narrowing is not None else []
        for button, text, count in zip(self.toggles.buttons(), texts, counts, strict=False):
            button.setText(f"{text} {count}")

    def _fit_columns(self, columns: Sequence[Column]) -> None:
        header = self.table.horizontalHeader()
        for number, column in enumerate(columns):
            if column.width:
                self.table.setColumnWidth(number, max(scaled(column.width), heading_width(header, column.title)))
            else:
                header.setSectionResizeMode(number, QHeaderView.ResizeMode.Stretch)
                header.setMinimumSectionSize(max(header.minimumSectionSize(), heading_width(header, column.title)))
            self.table.setColumnHidden(number, column.seldom)

        header.setStretchLastSection(all(column.width for column in columns))
        if any(column.seldom for column in columns):
            self.more.addSeparator()
            self.columns_menu = self.more.addMenu(self.tr("&Columns"))
            mark_entry(self.columns_menu.menuAction())
            for column in columns[1:]:
                entry = mark_entry(self.columns_menu.addAction(column.title))
                entry.setCheckable(True)
                entry.setChecked(not column.seldom)
                entry.toggled.connect(lambda on, key=column.key: self.show_column(key, on=on))
            header.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
            header.customContextMenuRequested.connect(
                lambda point: self.columns_menu.popup(header.viewport().mapToGlobal(point))
            )

    def show_column(self, key: str, *, on: bool) -> None:
        """Show or hide the column of that key."""
        at = next(number for number, column in enumerate(self.model.columns) if column.key == key)
        self.table.setColumnHidden(at, not on)
        if self.columns_menu is not None:
            self.columns_menu.actions()[at - 1].setChecked(on)

    def keep_columns(self, kept: Callable[[], str], keep: Callable[[str], object]) -> None:
        """Show the columns as they were kept, and keep each change; both are asked anew for another project."""
        waiting = QTimer(self)
        waiting.setSingleShot(True)
        waiting.setInterval(KEEP_MS)  # a column that is pulled wider changes with every pixel
        waiting.timeout.connect(lambda: keep(self._columns_text()))
        first = self._columns_text()

        def arrange() -> None:
            self._arrange_columns(first)
            self._arrange_columns(kept())
            waiting.stop()

        arrange()
        self.table.horizontalHeader().sectionResized.connect(lambda *_: waiting.start())
        if self.editing is not None:
            self.editing.document.replaced.connect(arrange)

    def _columns_text(self) -> str:
        """The width of each column at 100 per cent; below 0 where it is hidden."""
        grid, widths = self.table, {}
        for at, column in enumerate(self.model.columns):
            hidden = grid.isColumnHidden(at)
            widths[column.key] = -1 if hidden else grid.columnWidth(at) * 100 // percent()
        return json.dumps(widths)

    def _arrange_columns(self, text: str) -> None:
        try:
            widths = json.loads(text or "{}")
        except ValueError:
            return
        for at, column in enumerate(self.model.columns):
            width = widths.get(column.key) if isinstance(widths, dict) else None
            if not isinstance(width, int) or width > WIDEST:
                continue
            if at:
                self.show_column(column.key, on=width >= 0)
            if width > 0:
                self.table.setColumnWidth(at, scaled(width))

    def _connect(self) -> None:
        editing = self.editing
        ways = None
        if editing is not None:
            ways = CellWays(
                lambda row, column, text: editing.refusal(self.model.place(row), column, text),
                lambda row, column: editing.completions(self.model.place(row), column),
                self._take,
            )
            # What was typed into a cell of another project is not meant for this one.
            editing.document.replaced.connect(self.table.reset)
            header = self.table.horizontalHeader()
            header.setSortIndicatorClearable(True)
            header.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
            header.setSectionsClickable(True)
            header.setSortIndicatorShown(False)  # the arrow stands in the heading, where it can be seen
            header.sortIndicatorChanged.connect(self.sort)
            self.table.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self._delegate = CellDelegate(self.table, self.model, ways)
        if self.work is not None:
            self._delegate.done.connect(self.work.follow_edit)
            self.work.hidden.connect(self.show_all)
        self.table.setItemDelegate(self._delegate)
        if len(self._kinds) == 1:
            self.add_button.clicked.connect(lambda: self.add_wanted.emit(self._kinds[0][0]))
        self.narrow.textChanged.connect(lambda _text: self._narrow())
        self.toggles.idToggled.connect(lambda _id, on: self._narrow() if on else None)
        selection = self.table.selectionModel()
        selection.currentRowChanged.connect(lambda _now, _before: self._tell_chosen())
        selection.selectionChanged.connect(lambda _now, _before: self._selected())
        if editing is None:
            self.table.doubleClicked.connect(lambda _index: self.open_current())
        self.table.key.connect(self._press)
        self.table.wanted.connect(self._do_deed)

    def _selected(self) -> None:
        self._enable()
        several = len(self.table.area().rows) > 1
        if several or self._several:
            self._tell_chosen()
        self._several = several

    def _take(self, row: int, column: int, text: str) -> None:
        if self.editing is not None and not self.editing.take(self.model.place(row), column, text):
            self.chosen.emit(self.current())  # the properties show what is not accepted

    # What is shown

    def show_parts(
        self, project: Project, parts: tuple[Any, ...], wrong: frozenset[int] = frozenset(), *, redraw: bool = True
    ) -> None:
        """Show these parts, keeping the current row where it can be kept.

        `redraw`: other parts may say something else of those that did not change, such as how often they are used.
        """
        current = self.current()
        self._quiet = True
        self.model.show(project, parts, wrong)
        self._quiet = False
        lost = current >= 0 or not self.table.currentIndex().isValid()
        if self.current() < 0 and lost and self.model.shown:
            self.select(self.model.place(min(max(current, 0), self.model.shown - 1)))
        if redraw and self.isVisible():
            self.table.viewport().update()
        self._enable()

    def current(self) -> int:
        """The place of the current part; -1 if there is none, also in the empty row."""
        index = self.table.currentIndex()
        return self.model.place(index.row()) if index.isValid() else -1

    def select(self, index: int) -> None:
        """Make a part current, its whole row selected, without telling."""
        marked = self._faded or self.table.selectionModel().hasSelection()
        if index == self.current() and (index < 0 or marked):
            return
        self.select_places((index,) if index >= 0 else ())

    def select_places(self, places: Sequence[int]) -> None:
        """Select these whole rows without telling; shows them if they are left out."""
        self._faded = False
        self._quiet = True
        rows = [self.model.row_of(place) for place in places]
        if any(row < 0 for row in rows):
            self.show_all()
            rows = [self.model.row_of(place) for place in places]
        if rows:
            self.table.select_rows(sorted(rows), current=rows[0])
            self.table.scrollTo(self.table.currentIndex())
        else:
            self.table.setCurrentIndex(self.model.index(-1, -1))
        self._quiet = False
        self._enable()

    def fade(self) -> None:
        """Show no row as selected, since something else is. The current row is kept for the return."""
        self._faded = True
        self.table.clearSelection()

    def light_up(self) -> None:
        """Show the current row as selected again."""
        self._faded = False
        index = self.table.currentIndex()
        if index.isValid() and not self.table.selectionModel().hasSelection():
            self.table.selectRow(index.row())

    # Sorting and narrowing

    def sort(self, column: int, order: Qt.SortOrder) -> None:
        """Sort the view by a column; -1: as in the file."""
        self.model.sort(column, order)
        self._show_arrangement()

    def sort_by_current(self) -> None:
        """Sort by the column of the current cell; again: the other way; once more: as in the file."""
        column = max(self.table.currentIndex().column(), 0)
        header = self.table.horizontalHeader()
        up = Qt.SortOrder.AscendingOrder
        now = self.model.sorted_by
        if now is None or now[0] != column:
            header.setSortIndicator(column, up)
        elif now[1] == up:
            header.setSortIndicator(column, Qt.SortOrder.DescendingOrder)
        else:
            self.to_file_order()

    def to_file_order(self) -> None:
        """Show the parts in the order of the file."""
        self.table.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)

    def to_narrow(self) -> None:
        """Give the filter the focus, where there is one."""
        if self._narrowing is not None:
            self.narrow.setFocus(Qt.FocusReason.ShortcutFocusReason)
            self.narrow.selectAll()

    def show_all(self) -> None:
        """Leave none out."""
        self.narrow.clear()
        if self._narrowing is not None:
            self.toggles.button(0).setChecked(True)

    def _narrow(self) -> None:
        narrowing = self._narrowing
        if narrowing is None:
            return
        words = self.narrow.text().casefold().split()
        choice = self.toggles.checkedId() - 1
        text = narrowing.text

        def keep(project: Project, part: Any, place: int) -> bool:
            if choice >= 0 and not narrowing.choices[choice][1](project, part, place):
                return False
            return not words or all(word in text(project, part).casefold() for word in words)

        self.model.leave_out(keep if words or choice >= 0 else None)
        self._show_arrangement()

    def _show_arrangement(self) -> None:
        self.file_order.setVisible(self.model.sorted_by is not None)
        self.model.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(self.model.columns) - 1)
        index = self.table.currentIndex()
        if index.isValid():
            self.table.scrollTo(index)
        elif self.model.shown:
            self.table.go(0, 0)
        self._enable()

    # Keys and buttons

    def _press(self, event: QKeyEvent) -> None:
        """Do what a key asks for; the event is accepted if that was anything."""
        deed = TABLE.deed(event)
        if deed is not None and self._do_deed(deed):
            event.accept()

    def _do_deed(self, deed: str) -> bool:
        """Do what a key or the menu asks for. False if it means nothing in this table."""
        run = (self._deeds_on_rows() | self._deeds_on_cells()).get(deed)
        if run is not None:
            run()
        return run is not None

    def _deeds_on_rows(self) -> dict[str, Callable[[], object]]:
        grid = self.table
        deeds: dict[str, Callable[[], object]] = {
            "add": self.add,
            "delete": self.delete,
            "duplicate": self.duplicate,
            "duplicate rows": self.duplicate_rows,
            "delete rows": self.delete_rows,
            "move up": lambda: self.move_rows(-1),
            "move down": lambda: self.move_rows(1),
            "open": self.open_current,
            "whole rows": lambda: grid.select_rows(list(grid.area().rows), current=grid.currentIndex().row()),
        }
        if self.editing is None:
            deeds["down"] = self.open_current
        return deeds

    def _deeds_on_cells(self) -> dict[str, Callable[[], object]]:
        work = self.work
        if work is None:
            return {}

        def cut() -> None:
            work.copy()
            self.delete()

        return {
            "copy": work.copy,
            "copy headed": lambda: work.copy(headed=True),
            "paste": work.paste,
            "cut": cut,
            "narrow": self.to_narrow,
            "fill": work.fill_current,
            "down": lambda: work.down(1),
            "up": lambda: work.down(-1),
            "next cell": lambda: self.table.tab(1),
            "cell before": lambda: self.table.tab(-1),
            "leave": lambda: self.table.leave(1),
            "leave back": lambda: self.table.leave(-1),
            "escape": self.table.escape,
        }

    def _tell_chosen(self) -> None:
        self._enable()
        if not self._quiet:
            self.chosen.emit(self.current())

    def _enable(self) -> None:
        at = self.current()
        none = self.model.shown == 0
        if none:
            left_out = self.model.filtered and bool(self.model.parts)
            self.nothing.setText(self.tr("The filter hides all rows.") if left_out else self._empty)
        self.nothing.setVisible(none)
        if self._narrowing is None:
            self.show_counts([len(self.model.parts)])
        self.row_actions["copy"].setEnabled(at >= 0)
        self.row_actions["delete"].setEnabled(at >= 0)
        ordered = self.model.in_file_order
        rows = self.table.area().rows if at >= 0 and ordered else ()
        self.row_actions["up"].setEnabled(bool(rows) and rows[0] > 0)
        self.row_actions["down"].setEnabled(bool(rows) and rows[-1] < len(self.model.parts) - 1)
        self.arranged.emit()

    def _of_selected(self, emit: Callable[[tuple[int, ...]], None]) -> None:
        places = self.table.places()
        if places:
            emit(places)

    def open_current(self) -> None:
        """Ask for the properties of the current part."""
        if self.current() >= 0:
            self.opened.emit(self.current())

    def delete_rows(self) -> None:
        """Ask for the selected parts to be deleted."""
        self._of_selected(self.delete_wanted.emit)

    def move_rows(self, way: Literal[-1, 1]) -> None:
        """Ask for the selected parts to be moved up or down in the file."""
        if self.model.in_file_order:
            self._of_selected(lambda places: self.move_wanted.emit(places, way))

    def add(self) -> None:
        """Add a part, or ask of which kind."""
        if self.add_button.menu() is not None:
            self.add_button.showMenu()
        else:
            self.add_wanted.emit(self._kinds[0][0])

    def duplicate(self) -> None:
        """Duplicate the selected rows; cells of several rows are filled down instead."""
        area = self.table.area()
        if self.work is not None and not area.whole and len(area.rows) > 1:
            self.work.fill_down()
        else:
            self.duplicate_rows()

    def duplicate_rows(self) -> None:
        """Ask for copies of the selected parts."""
        self._of_selected(self.duplicate_wanted.emit)

    def delete(self) -> None:
        """Delete whole rows, and parts whose names are selected; empty other cells."""
        area = self.table.area()
        if self.work is None or area.whole or area.columns == (0,):
            self.delete_rows()
        else:
            self.work.clear()
