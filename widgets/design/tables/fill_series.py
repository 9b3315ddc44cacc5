"""Copies of signals that count up, and names from a pattern: asked for with the result in sight."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Final

from pydantic import ValidationError
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFormLayout,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from app.edits.copies import MOST_COPIES, counted_copies, likely_step, numbered_names
from app.edits.refused import EditRefused
from app.edits.several import put_parts
from app.project.model import Project
from app.project_file.validation_messages import refusal_of
from widgets.design.forms.signal_picker import signal_origin
from widgets.kit.controls import WholeNumber
from widgets.kit.focus import RingDialog
from widgets.kit.plain import plain_label
from widgets.kit.row_list import RowList
from widgets.kit.scaling import comfortable

MOST_SHOWN: Final = 200


class _Asking(RingDialog):
    """Asks, and shows what will come of it; what cannot be is said and cannot be confirmed."""

    def __init__(self, columns: int, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.form = QFormLayout()
        self.preview = RowList(columns)
        self.preview.setHeaderHidden(False)
        self.preview.setAccessibleName(self.tr("Result"))
        self.reason = plain_label("", "fault", wrap=True)
        self.reason.hide()
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(self.form)
        layout.addWidget(self.preview, 1)
        layout.addWidget(self.reason)
        layout.addWidget(self.buttons)
        self.resize(comfortable(self, 520, 420))

    def show_rows(self, rows: Sequence[tuple[str, ...]], reason: str = "") -> None:
        """Show these rows, or why there are none."""
        self.preview.clear()
        for row in rows[:MOST_SHOWN]:
            self.preview.add_row(row[0], *row)
        if len(rows) > MOST_SHOWN:
            self.preview.add_row("", self.tr("and more: {count}").format(count=len(rows) - MOST_SHOWN))
        self.reason.setText(reason)
        self.reason.setVisible(bool(reason))
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(bool(rows) and not reason)


class CopiesDialog(_Asking):
    """How many copies of some signals, and how far on their registers are."""

    def __init__(self, project: Project, names: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(2, parent)
        self.setWindowTitle(self.tr("Numbered copies"))
        self.setObjectName("copies")
        self._project = project
        self._names = list(names)
        self.copies = WholeNumber()
        self.copies.setRange(1, MOST_COPIES)
        self.copies.setAccessibleName(self.tr("Number of copies"))
        self.step = WholeNumber()
        self.step.setRange(-65_535, 65_535)
        self.step.setValue(likely_step(project, self._names))
        self.step.setAccessibleName(self.tr("Register offset per copy"))
        self.form.addRow(self.tr("&Number of copies"), self.copies)
        self.form.addRow(self.tr("&Register offset per copy"), self.step)
        self.preview.setHeaderLabels([self.tr("New signal"), self.tr("Source")])
        self.copies.valueChanged.connect(lambda _value: self._show())
        self.step.valueChanged.connect(lambda _value: self._show())
        self._show()
        self.copies.selectAll()
        self.copies.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self) -> None:
        try:
            found = counted_copies(self._project, self._names, self.copies.value(), self.step.value())
        except EditRefused as refused:
            self.show_rows([], refused.message)
            return
        shown = self._project.replace(signals=(*self._project.signals, *found))
        self.show_rows([(part.name, signal_origin(shown, part.name)) for part in found])


class NumberingDialog(_Asking):
    """A pattern for the names of some signals."""

    def __init__(self, project: Project, places: Sequence[int], parent: QWidget | None = None) -> None:
        super().__init__(2, parent)
        self.setWindowTitle(self.tr("Number the names"))
        self.setObjectName("numbering")
        self._project = project
        self._places = list(places)
        self.pattern = QLineEdit(f"{_stem(project.signals[places[0]].name)}#")
        self.pattern.setAccessibleName(self.tr("Pattern"))
        self.pattern.setToolTip(self.tr("# stands for the number, ## for at least two digits"))
        self.first = WholeNumber()
        self.first.setRange(0, 99_999)
        self.first.setValue(1)
        self.first.setAccessibleName(self.tr("First number"))
        self.by = WholeNumber()
        self.by.setRange(1, 1_000)
        self.by.setAccessibleName(self.tr("Step"))
        self.form.addRow(self.tr("&Pattern (# is the number)"), self.pattern)
        self.form.addRow(self.tr("&First number"), self.first)
        self.form.addRow(self.tr("&Step"), self.by)
        self.preview.setHeaderLabels([self.tr("New name"), self.tr("Current name")])
        self.pattern.textChanged.connect(lambda _text: self._show())
        self.first.valueChanged.connect(lambda _value: self._show())
        self.by.valueChanged.connect(lambda _value: self._show())
        self._show()
        self.pattern.setFocus(Qt.FocusReason.OtherFocusReason)

    def edit(self) -> Callable[[Project], Project]:
        """The edit that names them so."""
        names = numbered_names(self.pattern.text().strip(), len(self._places), self.first.value(), self.by.value())
        places = tuple(self._places)

        def edit(project: Project) -> Project:
            parts: dict[int, Any] = {
                place: project.signals[place].replace(name=name) for place, name in zip(places, names, strict=True)
            }
            return put_parts(project, "signal", parts)

        return edit

    def _show(self) -> None:
        try:
            names = numbered_names(self.pattern.text().strip(), len(self._places), self.first.value(), self.by.value())
            self.edit()(self._project)
        except EditRefused as refused:
            self.show_rows([], refused.message)
            return
        except ValidationError as error:
            self.show_rows([], refusal_of(error))
            return
        self.show_rows(
            [(name, self._project.signals[place].name) for name, place in zip(names, self._places, strict=True)]
        )


def _stem(name: str) -> str:
    """A name without the number at its end, ready for one."""
    stem = name.rstrip("0123456789")
    return stem if stem != name else f"{name} "
