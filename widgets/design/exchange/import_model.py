"""What a SunSpec model does not say by itself: where it stands, how often its groups repeat, what its factors are."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QFormLayout,
    QHBoxLayout,
    QHeaderView,
    QSpinBox,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.exchange.sunspec import ModelWay, SunSpecModel
from widgets.kit.controls import WholeNumber
from widgets.kit.plain import plain_label

_NOT_KNOWN: Final = -11
"""One below the least exponent that the specification allows, -10: shown as a word."""


class ModelChoices(QWidget):
    """The address, the repeats and the exponents of a model."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._model: SunSpecModel | None = None
        self.start = WholeNumber()
        self.start.setRange(0, 65_535)
        self.start.setKeyboardTracking(False)
        self.start.setMaximumWidth(140)
        self.start.setAccessibleName(self.tr("Address of the model's ID"))
        self.bits = QCheckBox(self.tr("Each &bit of a bitfield becomes a signal"))
        self.bits.setChecked(True)
        self.numbers = QTableWidget(0, 2)
        self.numbers.setHorizontalHeaderLabels([self.tr("In the device"), self.tr("Value")])
        self.numbers.setAccessibleName(self.tr("Repeats and scale factors"))
        self.numbers.verticalHeader().hide()
        self.numbers.verticalHeader().setDefaultSectionSize(self.start.sizeHint().height() + 4)
        self.numbers.setTabKeyNavigation(False)
        self.numbers.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.numbers.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.numbers.horizontalHeader().setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.numbers.setColumnWidth(1, 120)
        self.numbers.setFixedHeight(118)
        self._repeats: dict[str, QSpinBox] = {}
        self._factors: dict[str, QSpinBox] = {}
        explained = plain_label(
            self.tr(
                "The address is 0-based, as in the frames. Devices begin at 40000, 50000 or 0 with two registers "
                "that contain SunS; then follow the common model with 68 registers, and the others."
            ),
            "faint",
            wrap=True,
        )
        form = QFormLayout()
        form.addRow(self.tr("&Address of the model's ID"), self.start)
        form.addRow(self.bits)
        left = QVBoxLayout()
        left.addLayout(form)
        left.addWidget(explained)
        left.addStretch(1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(16)
        row.addLayout(left, 3)
        row.addWidget(self.numbers, 2)
        self.start.valueChanged.connect(lambda _value: self.changed.emit())
        self.bits.clicked.connect(lambda _on: self.changed.emit())

    def show_model(self, model: SunSpecModel) -> None:
        """Ask about this model."""
        if model is self._model:
            return
        self._model = model
        with QSignalBlocker(self.start):
            self.start.setValue(model.usual_start)
        self._repeats, self._factors = {}, {}
        self.numbers.setRowCount(0)
        for group in model.repeated:
            editor = self._add(self.tr("Number of {group}").format(group=group), 1, 200)
            self._repeats[group] = editor
        for factor in model.scale_factors:
            editor = self._add(self.tr("Scale factor {name}").format(name=factor), _NOT_KNOWN, 10)
            editor.setSpecialValueText(self.tr("unknown"))
            self._factors[factor] = editor
        self.numbers.setVisible(bool(self._repeats or self._factors))

    def _add(self, caption: str, least: int, most: int) -> QSpinBox:
        at = self.numbers.rowCount()
        self.numbers.insertRow(at)
        item = QTableWidgetItem(caption)
        item.setFlags(Qt.ItemFlag.ItemIsEnabled)
        self.numbers.setItem(at, 0, item)
        editor = WholeNumber()
        editor.setRange(least, most)
        editor.setValue(least)
        editor.setKeyboardTracking(False)
        editor.setFrame(False)
        editor.setAccessibleName(caption)
        editor.valueChanged.connect(lambda _value: self.changed.emit())
        self.numbers.setCellWidget(at, 1, editor)
        return editor

    @property
    def factors(self) -> dict[str, QSpinBox]:
        """The editors of the scale factors by name."""
        return self._factors

    @property
    def repeats(self) -> dict[str, QSpinBox]:
        """The editors of the repeats by group."""
        return self._repeats

    def way(self) -> ModelWay:
        """What is chosen."""
        return ModelWay(
            self.start.value(),
            tuple((group, editor.value()) for group, editor in self._repeats.items()),
            tuple((name, editor.value()) for name, editor in self._factors.items() if editor.value() != _NOT_KNOWN),
            self.bits.isChecked(),
        )
