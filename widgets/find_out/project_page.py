"""The page "Project": what of all that was found goes into a project."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from app.matching.advice import Namer
from app.signals.numbering import Numbering
from widgets.find_out.found_tables import NamedModel
from widgets.find_out.investigation import Investigation
from widgets.find_out.labelled import labelled
from widgets.kit.controls import Choice, push_button
from widgets.kit.empty_state import EmptyState
from widgets.kit.flow import FlowLayout
from widgets.kit.plain import plain_label
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import scaled
from widgets.kit.tables import selected_rows, set_widths


class ProjectPage(QWidget):
    """Names can be taken away again; how a device's manual counts is chosen for all of them."""

    numbering_chosen = Signal(object)

    def __init__(self, investigation: Investigation, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._about = investigation
        self.summary = plain_label("", "heading", wrap=True)
        self.numbering = Choice()
        self.numbering.setAccessibleName(self.tr("How the manual counts registers"))
        ways: list[tuple[str, Numbering]] = [
            (self.tr("from 0, as on the wire"), "from-0"),
            (self.tr("from 1"), "from-1"),
            (self.tr("with the table in front, from 1 (40001)"), "prefixed"),
        ]
        for text, numbering in ways:
            self.numbering.addItem(text, numbering)
        self.numbering.activated.connect(lambda _at: self.numbering_chosen.emit(self.numbering.currentData()))
        self.model = NamedModel(self)
        self.table = QuickTable(self.model)
        self.table.setAccessibleName(self.tr("Named registers"))
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._enable())
        set_widths(self.table, {0: scaled(100), 1: scaled(200), 2: scaled(180), 3: scaled(90), 4: scaled(190)})
        self.remove_button = push_button(self.tr("&Remove name"), self._remove, "quiet")
        row = FlowLayout(spacing=scaled(8))
        row.addWidget(labelled(self.tr("Its man&ual counts registers"), self.numbering))
        row.add_stretch()
        row.addWidget(self.remove_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(scaled(8))
        layout.addWidget(self.summary)
        layout.addLayout(row)
        self._stack = QStackedWidget()
        self._stack.addWidget(self.table)
        self._stack.addWidget(
            EmptyState(
                self.tr("No register has a name yet"),
                self.tr(
                    "\u201cWhich register?\u201d finds those whose value the device shows. A project can be made "
                    "without names, too."
                ),
            )
        )
        layout.addWidget(self._stack, 1)
        layout.addWidget(
            plain_label(
                self.tr(
                    "The project gets the line with the settings that were found, each device with its limits, and a "
                    "signal for each named register; without any names, for the first registers of each device. "
                    "Nothing can be written until you allow it for a signal."
                ),
                "faint",
                wrap=True,
            )
        )
        self._enable()

    def show_newest(self, name: Namer) -> None:
        """Show what has a name now; `name` calls a place as people do."""
        rows = [
            (unit, register, name(register.table, register.address, register.address))
            for unit, registers in self._about.named.items()
            for register in registers
        ]
        self.model.show(rows)
        self._stack.setCurrentIndex(0 if rows else 1)
        first = next((self._about.numbering.get(one.unit) for one in self._about.devices), None)
        self.numbering.setCurrentIndex(self.numbering.findData(first or "from-0"))
        devices = len(self._about.devices)
        text = self.tr("Devices: {devices}, named registers: {signals}")
        self.summary.setText(text.format(devices=devices, signals=len(rows)))
        self._enable()

    def _remove(self) -> None:
        for unit, register, _ in [self.model.rows[row] for row in selected_rows(self.table)]:
            self._about.forget(unit, register)

    def _enable(self) -> None:
        self.remove_button.setEnabled(bool(selected_rows(self.table)))
