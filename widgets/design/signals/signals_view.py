"""The table of all signals, with what can be done to many of them at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app import edits
from app.edits.copies import add_copies
from app.edits.several import delete_parts, order_parts, shifted_order, uses_that_stay
from app.project.model import Bit, BitSignal, HeldSignal, Project, RegisterSignal
from widgets.design.exchange.signal_lists import is_list
from widgets.design.forms.signal_picker import signal_origin
from widgets.design.signals.cells import free_register, new_signal_name, signal_reader
from widgets.design.signals.columns import signal_columns
from widgets.design.signals.uses import use_counts
from widgets.design.tables.fill_series import CopiesDialog, NumberingDialog
from widgets.design.tables.information_line import InformationLine
from widgets.design.tables.part_editing import PartEditing, Steps
from widgets.design.tables.part_table import Narrowing, PartTable
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.kit.commands import mark_entry
from widgets.kit.controls import push_button
from widgets.kit.icons import icon


class SignalsView(QWidget):
    """All signals in one table."""

    chosen = Signal()
    opened = Signal()
    added = Signal()
    """A part was added and is current: it wants a name and the rest."""
    lines_wanted = Signal()
    """A follower is needed first."""
    import_wanted = Signal(object)
    """A register list is wanted from outside: of this file, or None for one yet to be chosen."""
    export_wanted = Signal()
    scaling_wanted = Signal()
    """The aid for the scale of the current signal."""
    wrong_wanted = Signal()
    """The value of the current signal looks wrong."""
    uses_wanted = Signal()
    """The places where the current signal is used."""

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._found: frozenset[int] = frozenset()
        self._counts: Counter[str] | None = None
        columns = signal_columns()
        editing = PartEditing(
            document,
            drafts,
            signal_reader(columns),
            Steps(self.tr("Change signals"), self.tr("Paste signals"), self.tr("Reorder signals")),
        )
        self.import_button = push_button(self.tr("Import\u2026"), lambda: self.import_wanted.emit(None))
        self.import_button.setIcon(icon("import"))
        self.import_button.setToolTip(self.tr("Import signals from a register list (Ctrl+I)"))
        self.table = PartTable(
            self.tr("Signals"),
            columns,
            [
                ("register", self.tr("Read from a device")),
                ("bit", self.tr("One bit of another signal")),
                ("held", self.tr("Held in the panel")),
            ],
            narrowing=Narrowing(
                _sought_in,
                [
                    (self.tr("Written"), lambda _project, part, _place: is_written(part)),
                    (self.tr("Not used"), lambda project, part, _place: not use_counts(project)[part.name]),
                    (self.tr("With findings"), lambda _project, _part, place: place in self._found),
                ],
            ),
            editing=editing,
            empty=self.tr(
                "No signals yet. Insert adds one, Ctrl+V pastes rows from a spreadsheet, Import reads a register list."
            ),
            add_text=self.tr("Add signal"),
            tools=[self.import_button],
        )
        self.table.more.addSeparator()
        for name, text, run in (
            ("copy", self.tr("Copy by an &offset\u2026"), self.count_up),
            ("list", self.tr("&Number the names\u2026"), self.number_names),
            ("export", self.tr("E&xport\u2026"), self.export_wanted.emit),
        ):
            mark_entry(self.table.more.addAction(icon(name), text, run))
        self.about_cell = InformationLine(
            self.table, document, self.tr("F2 edits \u00b7 Ctrl+Enter into all selected rows")
        )
        self.setAcceptDrops(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.about_cell)
        self.table.chosen.connect(lambda _index: self.chosen.emit())
        self.table.opened.connect(lambda _index: self.opened.emit())
        self.table.add_wanted.connect(lambda kind: self.add(kind))
        self.table.duplicate_wanted.connect(self._duplicate)
        self.table.delete_wanted.connect(self._delete)
        self.table.move_wanted.connect(self._move)
        self.table.table.doubleClicked.connect(
            lambda index: self.uses_wanted.emit() if columns[index.column()].key == "uses" else None
        )
        if self.table.work is not None:
            self.table.work.told.connect(document.refused)

    @property
    def first(self) -> QWidget:
        """What takes the focus."""
        return self.table.table

    def show_project(self, project: Project, wrong: frozenset[int], found: frozenset[int] = frozenset()) -> None:
        """Show the signals of a project; `wrong` have errors, `found` have findings of any kind."""
        self._found = found
        former, self._counts = self._counts, use_counts(project) if self.isVisible() else None
        self.table.show_parts(project, project.signals, wrong, redraw=self._counts is not former)
        self._count()

    def current(self) -> int:
        """The index of the current signal; -1 for none."""
        return self.table.current()

    def selected_signals(self) -> tuple[RegisterSignal | BitSignal | HeldSignal, ...]:
        """The signals of the selected rows, in the order of the file."""
        signals = self._document.project.signals
        places = self.table.table.places() if self.current() >= 0 else ()
        return tuple(signals[place] for place in places if place < len(signals))

    def select(self, index: int) -> None:
        """Make a signal current."""
        self.table.select(index)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take one file that may be a register list; others go to the window."""
        if _dragged_list(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Import the file, once the drag is over."""
        path = _dragged_list(event)
        if path is not None:
            event.acceptProposedAction()
            # A dialog inside the drop would hold the program that the file was dragged from.
            QTimer.singleShot(0, self, lambda: self.import_wanted.emit(path))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._count()

    def _count(self) -> None:
        """Say how many signals there are, may be written, are not used and have findings."""
        if not self.isVisible():
            return
        project = self._document.project
        written = sum(map(is_written, project.signals))
        used = len(use_counts(project).keys() & project.signal_named.keys())
        count = len(project.signals)
        self.table.show_counts([count, written, count - used, len(self._found)])

    # Adding

    def add(self, kind: str, name: str = "") -> None:
        """Add a signal of a kind: `register`, `bit` or `held`."""
        project = self._document.project
        name = new_signal_name(project, name)
        signal: RegisterSignal | BitSignal | HeldSignal
        current = self.current()
        part = project.signals[current] if 0 <= current < len(project.signals) else None
        if kind == "bit":
            words = [part.name for part in project.signals if isinstance(part, RegisterSignal)]
            if not words:
                self._document.refused.emit(self.tr("A bit needs a register signal; add one first."))
                return
            base = part.name if part is not None else words[0]
            signal = BitSignal(name=name, bit=Bit(of=base if base in words else words[0], number=0))
        elif kind == "held":
            signal = HeldSignal(name=name, held=Decimal(0))
        else:
            if not project.followers:
                self._document.offered.emit(
                    self.tr("A register needs a device; add one first."),
                    self.tr("Lines and devices"),
                    self.lines_wanted.emit,
                )
                return
            follower = part.follower if isinstance(part, RegisterSignal) else project.followers[0].name
            if follower not in project.follower_named:
                follower = project.followers[0].name
            signal = RegisterSignal(name=name, follower=follower, number=free_register(project, follower))
        at = len(project.signals)
        if self._do(self.tr("Add signal"), lambda project: edits.add_signal(project, signal)):
            self._select_new(range(at, at + 1))

    def _do(self, step: str, edit: Any) -> bool:
        return self._document.do(step, edit) is None

    def _select_new(self, places: Sequence[int]) -> None:
        self.table.select_places(places)
        self.chosen.emit()
        if len(places) == 1:
            self.added.emit()

    def _duplicate(self, places: tuple[int, ...]) -> None:
        known = self._document.project.signal_named
        names = [self._document.project.signals[place].name for place in places]
        if len(places) > 1:
            self.count_up()
            return
        if self._do(self.tr("Duplicate signal"), lambda project: edits.duplicate_signal(project, names[0])):
            self._select_new(
                [place for place, part in enumerate(self._document.project.signals) if part.name not in known]
            )

    def count_up(self) -> None:
        """Ask how the selected signals are to be copied by an offset, and do it."""
        places = self.table.table.places()
        if not places:
            self._document.refused.emit(self.tr("Select the signals to copy first."))
            return
        project = self._document.project
        names = [project.signals[place].name for place in places]
        dialog = CopiesDialog(project, names, self.window())
        if dialog.exec() == CopiesDialog.DialogCode.Accepted:
            copying = dialog.copying()
            if self._do(self.tr("Copy signals by an offset"), lambda p: add_copies(p, names, copying)):
                self._select_new(range(places[-1] + 1, places[-1] + 1 + copying.copies * len(names)))
        dialog.deleteLater()

    def number_names(self) -> None:
        """Ask for a pattern of names, and name the selected signals by it, in the order of the view."""
        rows = self.table.table.area().rows if self.current() >= 0 else ()
        if not rows:
            self._document.refused.emit(self.tr("Select the signals to number first."))
            return
        places = [self.table.model.place(row) for row in rows]
        dialog = NumberingDialog(self._document.project, places, self.window())
        if dialog.exec() == NumberingDialog.DialogCode.Accepted:
            edit = dialog.edit()
            self._do(self.tr("Number signals"), edit)
        dialog.deleteLater()

    # Deleting and moving

    def _delete(self, places: tuple[int, ...]) -> None:
        project = self._document.project
        used = uses_that_stay(project, "signal", places)
        free = tuple(place for place in places if project.signals[place].name not in used)
        if used and free and not uses_that_stay(project, "signal", free):
            try:
                delete_parts(project, "signal", places)
            except edits.EditRefused as refused:
                self._document.offered.emit(
                    refused.message,
                    self.tr("Delete the others ({count})").format(count=len(free)),
                    lambda: self._delete(free),
                )
            return
        step = self.tr("Delete signal") if len(places) == 1 else self.tr("Delete signals")
        self._do(step, lambda project: delete_parts(project, "signal", places))

    def _move(self, places: tuple[int, ...], way: Any) -> None:
        order = shifted_order(len(self._document.project.signals), places, way)
        step = self.tr("Move signal") if len(places) == 1 else self.tr("Move signals")
        if self._do(step, lambda project: order_parts(project, "signal", order)):
            self.table.select_places([order.index(place) for place in places])
            self.chosen.emit()

    def keep_order(self) -> None:
        """Make the order of the view that of the file."""
        if self.table.model.sorted_by is None:
            self._document.refused.emit(self.tr("The signals are in file order already. Sort them first."))
            return
        order = self.table.model.order()
        current = self.current()
        if self._do(self.table.editing.steps.order, lambda project: order_parts(project, "signal", order)):  # type: ignore[union-attr]
            self.table.to_file_order()
            self.table.select(order.index(current) if current >= 0 else -1)


def is_written(signal: Any) -> bool:
    """Whether a signal may be written to a line."""
    return getattr(signal, "write", False)


def _sought_in(project: Project, part: Any) -> str:
    texts = " ".join(part.texts.values())
    return f"{part.name} {signal_origin(project, part.name)} {part.unit} {texts} {part.notes}"


def _dragged_list(event: QDropEvent) -> Path | None:
    urls = event.mimeData().urls()
    path = Path(urls[0].toLocalFile()) if len(urls) == 1 and urls[0].isLocalFile() else None
    return path if path is not None and is_list(path) else None
