"""Copies of signals by an offset, and names from a pattern: asked for with the result in sight."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Final

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QLineEdit, QWidget

from app.edits.copies import (
    MOST_COPIES,
    CopiedSignal,
    Copying,
    counted_name,
    likely_step,
    numbered_names,
    numbers_in,
    plan_copies,
)
from app.edits.refused import EditRefused
from app.edits.several import put_parts
from app.project.model import LAST_UNIT, BitSignal, Project, RegisterSignal
from app.project_file.validation_messages import refusal_of
from app.signals.numbering import LAST_ADDRESS
from widgets.kit.controls import Choice, WholeNumber
from widgets.kit.dialogs.dialog import FORM, Dialog
from widgets.kit.plain import plain_label
from widgets.kit.row_list import RowList

translate = QCoreApplication.translate
MOST_SHOWN: Final = 200
_NEW_DEVICES: Final = "\0new"
"""Stands for new devices; no name has this character."""


class _Asking(Dialog):
    """Asks, and shows what will come of it; what cannot be is said and cannot be confirmed."""

    def __init__(self, columns: int, deed: str, parent: QWidget | None, width: int, height: int) -> None:
        super().__init__(parent, width=width, height=height)
        self.preview = RowList(columns)
        self.preview.setHeaderHidden(False)
        self.preview.setAccessibleName(self.tr("Result"))
        self.reason = plain_label("", "fault", wrap=True)
        self.reason.hide()
        _ = self.form  # above the preview
        self.body.addWidget(self.preview, 1)
        self.body.addWidget(self.reason)
        self.deed = self.add_deed(deed)
        self.add_cancel()

    def show_rows(self, rows: Sequence[tuple[str, ...]], reason: str = "") -> None:
        """Show these rows, or why there are none."""
        self.preview.clear()
        for row in rows[:MOST_SHOWN]:
            self.preview.add_row(row[0], *row)
        if len(rows) > MOST_SHOWN:
            self.preview.add_row("", self.tr("and more: {count}").format(count=len(rows) - MOST_SHOWN))
        self.reason.setText(reason)
        self.reason.setVisible(bool(reason))
        self.deed.setEnabled(bool(rows) and not reason)


class CopiesDialog(_Asking):
    """How some signals are copied by an offset, with what comes of it and what it would clash with."""

    def __init__(self, project: Project, names: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(5, translate("CopiesDialog", "&Copy"), parent, 760, 520)
        self.tell(
            self.tr("Copy by an offset"),
            self.tr("Each copy reads its registers so many numbers further on."),
        )
        self.setObjectName("copies")
        self._project = project
        self._names = list(names)
        self._makers = {
            part.follower for name in names if isinstance(part := project.signal_named[name], RegisterSignal)
        }
        self.copies = WholeNumber()
        self.copies.setRange(1, MOST_COPIES)
        self.step = WholeNumber()
        self.step.setRange(-LAST_ADDRESS, LAST_ADDRESS)
        self.step.setValue(likely_step(project, self._names))
        self.counted = Choice()
        for counted in (*reversed(range(numbers_in(names))), None):
            self.counted.addItem(counted_name(names[0], 1, counted), counted)
        self.device = Choice()
        self.device.addItem(self.tr("the same"), None)
        for name in project.follower_named:
            if {name} != self._makers:
                self.device.addItem(name, name)
        if len(self._makers) == 1:
            self.device.addItem(self.tr("a new device for each copy"), _NEW_DEVICES)
        self.unit = WholeNumber()
        self.unit.setRange(1, LAST_UNIT)
        self.unit.setValue(self._free_unit())
        for label, editor in (
            (self.tr("&Number of copies"), self.copies),
            (self.tr("&Register offset per copy"), self.step),
            (self.tr("Name of the &first copy"), self.counted),
            (self.tr("&Device"), self.device),
            (self.tr("&Unit address of the first"), self.unit),
        ):
            self.add_row(label, editor)
        self.preview.setHeaderLabels(
            [self.tr("New signal"), self.tr("Device"), self.tr("Register"), self.tr("Source"), self.tr("Note")]
        )
        for number in (self.copies, self.step, self.unit):
            number.valueChanged.connect(lambda _value: self._show())
        self.counted.currentIndexChanged.connect(lambda _index: self._show())
        self.device.currentIndexChanged.connect(lambda _index: self._take_device())
        self._show()
        self.copies.selectAll()
        self.copies.setFocus(Qt.FocusReason.OtherFocusReason)

    def copying(self) -> Copying:
        """What is chosen."""
        device = self.device.currentData()
        new = device == _NEW_DEVICES
        return Copying(
            self.copies.value(),
            self.step.value(),
            self.counted.currentData(),
            None if new else device,
            self.unit.value() if new else None,
        )

    def _free_unit(self) -> int:
        """The first unit address behind that of the device which the signals are of."""
        owner = next(iter(self._makers), None)
        return min(self._project.follower_named[owner].unit + 1, LAST_UNIT) if owner is not None else 1

    def _take_device(self) -> None:
        # On another device the registers are mostly the same, on the same one they cannot be.
        self.step.setValue(0 if self.device.currentData() is not None else likely_step(self._project, self._names))
        self._show()

    def _show(self) -> None:
        self.form.setRowVisible(self.unit, self.device.currentData() == _NEW_DEVICES)
        try:
            plan = plan_copies(self._project, self._names, self.copying())
        except EditRefused as refused:
            self.show_rows([], refused.message)
            return
        self.show_rows([_row(each) for each in plan.signals], plan.fault())
        if plan.skipped and not plan.fault():
            words = self.tr("Numbers left out because a signal has such a name: {count}")
            self.reason.setText(words.format(count=plan.skipped))
            self.reason.setVisible(True)


def _row(copied: CopiedSignal) -> tuple[str, ...]:
    """The texts of a row of the preview; signs tell what cannot be and what is to be looked at."""
    signal = copied.signal
    device = register = ""
    if isinstance(signal, RegisterSignal):
        device, register = signal.follower, f"{signal.table} {signal.number}"
    elif isinstance(signal, BitSignal):
        device = signal.bit.of
        register = QCoreApplication.translate("SignalCells", "bit {number}").format(number=signal.bit.number)
    sign = "\N{MULTIPLICATION X} " if copied.fault else "\N{WARNING SIGN} " if copied.doubt else ""
    return copied.name, device, register, copied.source, f"{sign}{copied.fault or copied.doubt}"


class NumberingDialog(_Asking):
    """A pattern for the names of some signals."""

    def __init__(self, project: Project, places: Sequence[int], parent: QWidget | None = None) -> None:
        super().__init__(2, translate("NumberingDialog", "&Rename"), parent, FORM, 420)
        self.tell(self.tr("Number the names"), self.tr("Everything that uses these signals follows their new names."))
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
