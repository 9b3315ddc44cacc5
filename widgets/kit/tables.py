"""Tables that are only read: their model, how they are set up, and what is copied of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, Final, Generic, NamedTuple, Protocol, TypeAlias, TypeVar, cast

from PySide6.QtCore import QAbstractTableModel, QItemSelectionRange, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QAbstractItemView, QApplication, QHeaderView, QTableView, QTreeView, QWidget

from widgets.kit import palette
from widgets.kit.fonts import for_figures
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import heading_width, line_height

Index: TypeAlias = QModelIndex | QPersistentModelIndex
R = TypeVar("R")
R_contra = TypeVar("R_contra", contravariant=True)
_ROOT: Final = QModelIndex()
_LEFT: Final = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT: Final = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


def to_the_right(*columns: int) -> Mapping[int, Qt.AlignmentFlag]:
    """The alignment of columns: these to the right, as numbers are, all others to the left."""
    return defaultdict(lambda: _LEFT, dict.fromkeys(columns, _RIGHT))


class Trim(NamedTuple):
    """What a quick cell has beside its text."""

    icon: str = ""
    """The name of an icon before the text, in the colour `icon_ink`."""
    icon_ink: str = "ink"
    indent: int = 0
    """How deep it stands under the row above."""
    strong: bool = False
    ground: str = ""
    """The name of the colour behind it; empty: as all others."""


class TableModel(QAbstractTableModel):
    """Rows under headings. Who derives from it says how many rows there are (`count`) and what stands in a `cell`.

    Nothing is worked out but for cells that are asked for, and a view asks for those in sight.
    """

    titles: Sequence[str] = ()
    """The headings."""
    alignment: Mapping[int, Qt.AlignmentFlag] = to_the_right()
    """How the texts of each column and its heading are aligned."""
    explained: Mapping[int, str] = {}
    """Tool tips of headings."""

    def count(self) -> int:
        """How many rows there are."""
        raise NotImplementedError

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """The text of a cell and the name of its colour, `ink` where nothing is special."""
        raise NotImplementedError

    def tip(self, row: int, column: int) -> str:
        """What the tool tip of a cell says: the whole text, of which a narrow column shows the beginning."""
        return self.cell(row, column)[0]

    def spoken(self, row: int, column: int) -> str:  # noqa: ARG002 - for those who derive from it
        """What a screen reader says of a cell; empty: its text."""
        return ""

    def drawn(self, row: int, column: int) -> tuple[str, str, Qt.AlignmentFlag]:
        """All that quick cells need, in one call."""
        return *self.cell(row, column), self.alignment[column]

    def trim(self, row: int, column: int) -> Trim | None:  # noqa: ARG002 - for those who derive from it
        """What a quick cell has beside its text, if anything."""
        return None

    def as_lines(self, rows: Sequence[int]) -> str:
        """Rows as text: a line each, tabs between their cells."""
        return "\n".join("\t".join(self.cell(row, at)[0] for at in range(len(self.titles))) for row in rows)

    # What Qt asks for

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else self.count()

    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.titles)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.titles[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return self.alignment[section]
        return self.explained.get(section) if role == Qt.ItemDataRole.ToolTipRole else None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        row, column = index.row(), index.column()
        if role == Qt.ItemDataRole.DisplayRole:
            return self.cell(row, column)[0]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return self.alignment[column]
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(self.tip(row, column)) or None
        if role == Qt.ItemDataRole.ForegroundRole:
            ink = self.cell(row, column)[1]
            return None if ink == "ink" else palette.current().colour(ink)
        return (self.spoken(row, column) or None) if role == Qt.ItemDataRole.AccessibleTextRole else None


class WantedRows(Protocol[R_contra]):
    """Which rows are shown."""

    def takes(self, row: R_contra, /) -> bool:
        """Whether this one is."""


class LogModel(TableModel, Generic[R]):
    """What comes again and again, oldest first: the newest are kept, and of these the wanted ones are shown.

    At least `keep` are kept; `slack` more may come before the oldest go, as taking them out one by one would cost more.
    """

    def __init__(self, wanted: WantedRows[R], parent: QObject | None, *, keep: int, slack: int) -> None:
        super().__init__(parent)
        self._keep, self._slack = keep, slack
        self._all: list[R] = []
        self._shown: list[R] = []
        self._wanted = wanted

    @property
    def shown(self) -> tuple[R, ...]:
        """Those that are shown, oldest first."""
        return tuple(self._shown)

    @property
    def total(self) -> int:
        """How many are kept, shown or not."""
        return len(self._all)

    def count(self) -> int:
        """How many are shown."""
        return len(self._shown)

    def row(self, number: int) -> R:
        """One of those that are shown."""
        return self._shown[number]

    def want(self, wanted: WantedRows[R]) -> None:
        """Show others."""
        if wanted != self._wanted:
            self._wanted = wanted
            self._reset(self._all)

    def _reset(self, rows: list[R]) -> None:
        self.beginResetModel()
        self._all = rows
        self._shown = [row for row in rows if self._wanted.takes(row)]
        self.endResetModel()

    def _insert(self, at: int, rows: Sequence[R]) -> None:
        """Show these, which are wanted, from a row on."""
        if rows:
            self.beginInsertRows(_ROOT, at, at + len(rows) - 1)
            self._shown[at:at] = rows
            self.endInsertRows()


ROW: Final = 28
LOG_ROW: Final = 26
"""Pixels at 100 per cent of a row, and of one of many that come by themselves."""


def set_up(view: QTableView, row: int = ROW) -> None:
    """Set a table up to be read: whole rows are selected, the Tab key leaves it, each row has so many pixels."""
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    view.setShowGrid(False)
    view.setWordWrap(False)
    view.setTabKeyNavigation(False)
    view.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    view.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    rows, titles = view.verticalHeader(), view.horizontalHeader()
    rows.hide()
    rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
    rows.setDefaultSectionSize(row_height(view, row))
    view.setFont(for_figures(view.font()))
    titles.setHighlightSections(False)
    titles.setDefaultAlignment(_LEFT)


def row_height(view: QWidget, row: int = ROW) -> int:
    """Pixels of a row: those at the size in use, or more where the font of the system needs them."""
    return max(line_height(row), view.fontMetrics().height() + 2)


def set_widths(view: QTableView | QTreeView, widths: Mapping[int, int]) -> None:
    """Make columns so many pixels wide, or wider where their heading needs it."""
    header = view.header() if isinstance(view, QTreeView) else view.horizontalHeader()
    for column, width in widths.items():
        title = str(view.model().headerData(column, Qt.Orientation.Horizontal))
        view.setColumnWidth(column, max(width, heading_width(header, title)))


def keep_headings_whole(header: QHeaderView) -> None:
    """Let no column become narrower than any heading."""
    model = header.model()
    titles = [str(model.headerData(at, Qt.Orientation.Horizontal)) for at in range(model.columnCount())]
    widest = max(heading_width(header, title) for title in titles)
    header.setMinimumSectionSize(widest)
    header.setDefaultSectionSize(max(widest, header.defaultSectionSize()))


def selected_rows(view: QAbstractItemView) -> list[int]:
    """The rows of which anything is selected, from the top."""
    parts = cast("Iterable[QItemSelectionRange]", view.selectionModel().selection())  # what the stubs do not say of it
    return sorted({row for part in parts for row in range(part.top(), part.bottom() + 1)})


def add_copying(view: QWidget, words: str, text: Callable[[], str]) -> QAction:
    """Let `text` be put on the clipboard: by the usual keys in the view, and by its menu, in these words.

    Empty text leaves the clipboard alone.
    """

    def copy() -> None:
        if copied := text():
            QApplication.clipboard().setText(copied)

    action = QAction(words, view)
    action.setShortcut(QKeySequence.StandardKey.Copy)
    action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
    action.triggered.connect(copy)
    view.addAction(action)
    view.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)
    return action
