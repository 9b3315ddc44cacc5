"""What to do about a signal whose value looks wrong: the ways to read it, and a button for each thing to put right."""

from __future__ import annotations

from collections import deque
from functools import partial
from pathlib import Path
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFileDialog,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QStackedWidget,
    QWidget,
)

from app.discovery.repairs import (
    Moment,
    Repair,
    ShownValue,
    WayToRead,
    can_be_explained,
    explanations,
    moment_in,
    repairs,
)
from app.errors import FanlightError
from app.matching.reading_ways import RegisterWords
from app.project.binding import bind
from app.snapshots.files import open_snapshot
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.kit.controls import UnitLine, push_button
from widgets.kit.dialogs.dialog import TABLE, Dialog, WholeArea
from widgets.kit.elided import ShortLabel
from widgets.kit.empty_state import EmptyState
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import air, scaled
from widgets.kit.tables import add_copying, selected_rows, set_widths
from widgets.live.live_session import LiveSession
from widgets.repair.reads_around import ReadsAround
from widgets.repair.ways_model import WayColumn, WaysModel

_KEPT: Final = 12
"""So many of the last moments show what changes by itself."""
_WIDTHS: Final = {
    WayColumn.REGISTER: 78,
    WayColumn.TYPE: 78,
    WayColumn.ORDER: 170,
    WayColumn.RAW: 110,
    WayColumn.VALUE: 110,
}


class RepairDialog(Dialog):
    """Stays open while things are put right: each button makes one ordinary step, which can be undone. Reads only."""

    def __init__(
        self, document: Document, live: LiveSession, settings: Settings, name: str, parent: QWidget | None = None
    ) -> None:
        """`name` is a signal of which `can_be_explained` is true."""
        super().__init__(parent, width=TABLE, height=640)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._document, self._live, self._settings, self._name = document, live, settings, name
        self._file = ""
        """The snapshot that was opened last; from then on the device is not read."""
        self._seen: deque[Moment] = deque(maxlen=_KEPT)
        self._typed: list[tuple[str, Moment]] = []
        self._followed: WayToRead | None = None
        self.trouble = ""
        """Why nothing could be read the last time."""
        self._offered: tuple[Repair, ...] | None = None
        self._step = self.tr("Put a signal right")
        self._reads = ReadsAround(live, self)
        self.tell(
            self.tr("The value of '{name}' looks wrong").format(name=name),
            self.tr(
                "Its registers and their neighbours, in every data type and order, the likeliest first. Nothing is "
                "written to the device."
            ),
        )
        self._build_typing()
        self.model = WaysModel(self)
        self.table = QuickTable(self.model)
        self._build_table()
        self.repair_buttons: dict[str, QWidget] = {}
        self._fixes = QWidget()
        self._grid = QGridLayout(self._fixes)
        self._grid.setContentsMargins(2, 2, 2, 2)  # the focus is drawn around a button
        self._grid.setHorizontalSpacing(scaled(12))
        self._grid.setVerticalSpacing(air(6))
        self._grid.setColumnStretch(1, 1)
        self.evidence = ShortLabel()  # whole, where the column of the table is too narrow for it
        set_look(self.evidence, "faint")
        head = QHBoxLayout()
        head.setSpacing(scaled(12))
        head.addWidget(plain_label(self.tr("To read it as in the selected row"), "heading"))
        head.addWidget(self.evidence, 1)
        self.body.addLayout(head)
        area = WholeArea(self._fixes)
        area.setFixedHeight(max(scaled(100), 150))  # always kept: what comes and goes moves nothing
        self.body.addWidget(area)
        self.undo = self.add_extra(self.tr("&Undo the last change"), self._undo)
        self.undo.setEnabled(False)
        self.open_button = self.add_extra(self.tr("Open a &snapshot\u2026"), self._open)
        self.add_way_out(QDialogButtonBox.StandardButton.Close)
        self.add_shown.setDefault(True)  # Enter compares; it closes nothing
        self._reads.read.connect(self.take)
        self._reads.failed.connect(self._tell_failure)
        live.connection_changed.connect(self._connection_changed)
        document.changed.connect(self._project_changed)
        document.status_changed.connect(lambda: self.undo.setEnabled(document.undo_name == self._step))
        self._connection_changed()
        self._project_changed()
        self.shown_value.setFocus(Qt.FocusReason.OtherFocusReason)

    def _build_typing(self) -> None:
        signal = self._document.project.signal_named[self._name]
        self.shown_value = UnitLine(signal.unit)
        self.shown_value.setMaximumWidth(scaled(190))
        self.shown_value.setPlaceholderText(self.tr("e.g. 41.65"))
        caption = QLabel(self.tr("The device's own &display shows"))
        caption.setBuddy(self.shown_value)
        self.shown_value.setAccessibleName(self.tr("What the device's own display shows"))
        self.add_shown = push_button(self.tr("&Compare with it"), self._add_typed)
        self.forget = push_button(self.tr("&Forget these"), self._forget_typed)
        self.forget.setEnabled(False)
        row = QHBoxLayout()
        row.setSpacing(scaled(8))
        for widget in (caption, self.shown_value, self.add_shown, self.forget):
            row.addWidget(widget)
        row.addStretch(1)
        self.body.addLayout(row)
        self.told = plain_label(wrap=True)
        self.told.setMinimumHeight(2 * self.told.fontMetrics().lineSpacing())
        self.told.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.body.addWidget(self.told)
        self._say_what_next()

    def _build_table(self) -> None:
        self.table.setAccessibleName(self.tr("Ways to read the signal"))
        self.table.setFrameShape(QFrame.Shape.NoFrame)
        set_widths(self.table, {column: scaled(width) for column, width in _WIDTHS.items()})
        add_copying(
            self.table, self.tr("Copy the selected rows"), lambda: self.model.as_lines(selected_rows(self.table))
        )
        self.table.setSelectionMode(QuickTable.SelectionMode.SingleSelection)
        self.table.selectionModel().currentRowChanged.connect(lambda *_: self._chosen())
        self.empty = EmptyState()
        self._pages = QStackedWidget()
        self._pages.addWidget(self.empty)
        self._pages.addWidget(self.table)
        self.body.addWidget(self._pages, 1)

    # What is read

    def _connection_changed(self) -> None:
        if self._live.session is None:
            self.empty.say(
                self.tr("Not connected"),
                self.tr("Connect, and the registers are read here once a second; or open a snapshot."),
            )
        else:
            self.empty.say(self.tr("Reading"), self.tr("The registers around this signal are being read."))

    def _tell_failure(self, why: str) -> None:
        self.trouble = why
        self.empty.say(self.tr("Not read"), why)
        if self._seen:
            self._say(why, "caution")

    def take(self, registers: RegisterWords) -> None:
        """Show these registers, which were read just now."""
        self.trouble = ""
        self._seen.append(Moment(dict(registers)))
        self._show_ways()

    def _open(self) -> None:
        """Ask for a snapshot, and take its registers instead of those that are read."""
        title, kind = self.tr("Open a snapshot"), self.tr("Register snapshots (*.toml)")
        file, _ = QFileDialog.getOpenFileName(self, title, str(self._settings.start_up_folder), kind)
        if not file:
            return
        try:
            found = moment_in(self._document.project, self._name, open_snapshot(Path(file)))
        except FanlightError as why:
            self._say(str(why), "fault")
            return
        self._settings.start_up_folder = Path(file).parent
        if not self._file:
            self._reads.stop()
            self._seen.clear()
        self._file = Path(file).name
        self._say_what_next()
        self.take(found.registers)

    def _project_changed(self) -> None:
        if not can_be_explained(self._document.project, self._name):
            self._reads.stop()
            self.close()
            return
        if not self._file:
            self._reads.read_for(self._document.project, self._name)
        self._show_ways()

    # What is typed

    def _add_typed(self) -> None:
        text = self.shown_value.text().strip()
        if not text:
            self.shown_value.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        if not self._seen:
            self._say(self.tr("Nothing has been read yet that it could be compared with."), "caution")
            return
        try:
            shown = ShownValue.of(text)
        except ValueError as error:
            self._say(str(error)[:1].upper() + str(error)[1:], "fault")
            return
        self._typed.append((text, Moment(self._seen[-1].registers, shown)))
        self.shown_value.clear()
        self.forget.setEnabled(True)
        self._followed = None
        self._say_what_next()
        self._show_ways()

    def _forget_typed(self) -> None:
        self._typed.clear()
        self.forget.setEnabled(False)
        self.shown_value.setFocus(Qt.FocusReason.OtherFocusReason)
        self._followed = None
        self._say_what_next()
        self._show_ways()

    def _say_what_next(self) -> None:
        compared = self.tr("Compared with {values}.").format(values="; ".join(text for text, _ in self._typed))
        if self._file:
            text = self.tr(
                "From {file}; the device is not read. Type what its display showed then, and open another snapshot, of "
                "another value."
            ).format(file=self._file)
            text = f"{text} {compared}" if self._typed else text
        elif not self._typed:
            text = self.tr("Type what it shows now. Change the value at the device, and type it again.")
        elif len(self._typed) == 1:
            text = self.tr("Compared with {values}. Change the value at the device, and type it again.")
            text = text.format(values=self._typed[0][0])
        else:
            text = compared
        self._say(text, "faint")

    def _say(self, text: str, look: str) -> None:
        set_look(self.told, look)
        self.told.setText(text)

    # The ways and what puts them right

    def _show_ways(self) -> None:
        self._pages.setCurrentIndex(int(bool(self._seen)))
        if not self._seen:
            self._offer(())
            return
        project = self._document.project
        wanted = self._followed
        history = [moment for _, moment in self._typed] or list(self._seen)[:-1]
        ways = explanations(project, self._name, [*history, self._seen[-1]])
        if self.model.show_ways(bind(project, self._name), ways) or wanted is None:
            row = self.model.row_of(wanted) if wanted is not None else 0
            self.table.selectRow(max(row, 0))
            self._followed = wanted
        self._offer_for_current()

    def _chosen(self) -> None:
        row = self.table.currentIndex().row()
        if row >= 0 and self.table.hasFocus():
            self._followed = self.model.way(row)
        self._offer_for_current()

    def _offer_for_current(self) -> None:
        row = self.table.currentIndex().row()
        chosen = self.model.way(row) if 0 <= row < self.model.count() else None
        self.evidence.setText("" if chosen is None else self.model.cell(row, WayColumn.WHY)[0])
        self._offer(() if chosen is None else repairs(self._document.project, self._name, chosen))

    def _offer(self, offered: tuple[Repair, ...]) -> None:
        said = [(repair.words, repair.consequence) for repair in offered]
        if self._offered is not None and said == [(each.words, each.consequence) for each in self._offered]:
            self._offered = offered
            return
        self._offered = offered
        while (item := self._grid.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        self.repair_buttons = {}
        for row, repair in enumerate(offered):
            button = push_button(repair.words, partial(self._repair, repair.key))
            button.setAutoDefault(True)  # Enter presses it, and not the one that compares
            button.setAccessibleDescription(repair.consequence)
            self.repair_buttons[repair.key] = button
            self._grid.addWidget(button, row, 0)
            self._grid.addWidget(plain_label(repair.consequence, wrap=True), row, 1)
        if not offered:
            rest = self.tr("The project reads it so already.") if self._seen else ""
            self._grid.addWidget(plain_label(rest, "faint"), 0, 0, 1, 2)
        self._grid.setRowStretch(max(len(offered), 1), 1)

    def _repair(self, key: str) -> None:
        repair = next((each for each in self._offered or () if each.key == key), None)
        if repair is None:
            return
        row = self.table.currentIndex().row()
        self._followed = self.model.way(row) if row >= 0 else None
        refused = self._document.do(self._step, repair.edit, aloud=False)
        if refused is not None:
            self._say(refused, "fault")
        (next(iter(self.repair_buttons.values()), None) or self.shown_value).setFocus(Qt.FocusReason.OtherFocusReason)

    def _undo(self) -> None:
        if self._document.undo_name == self._step:
            self._document.undo()

    def hideEvent(self, event: QHideEvent) -> None:
        self._reads.stop()
        super().hideEvent(event)
