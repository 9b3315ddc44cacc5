"""Properties of several parts at once: what they share is shown, and what is changed is changed in all of them."""

from __future__ import annotations

from PySide6.QtWidgets import QCheckBox, QComboBox, QLineEdit
from pytestqt.qtbot import QtBot

from tests.widgets.driving import designed, type_in
from widgets.design.forms.form import Form, FormRow
from widgets.document.document import Document, Selection


def row_of(form: Form, label: str) -> FormRow:
    (row,) = (row for row in form.rows if row.label == label and not row.isHidden())
    return row


def test_signals_are_changed_together_as_one_step(document: Document, qtbot: QtBot) -> None:
    design = designed(document, qtbot)
    design.show_view("signals")
    names = [signal.name for signal in document.project.signals]
    chosen = [names.index(name) for name in ("ramp up", "ramp down", "frequency")]
    table = design.signals.table.table
    table.select_rows(chosen)
    form = design.inspector.signal_form
    assert design.inspector.path.words()[-1] == "3 signals"
    assert not [row for row in form.rows if row.label in ("Name", "Used by") and not row.isHidden()]
    interval, unit, writing = (row_of(form, label) for label in ("Poll interval", "Unit", "Writing"))
    (edit,) = unit.editors()
    assert isinstance(edit, QLineEdit)
    assert (edit.text(), edit.placeholderText(), unit.differs) == ("", "different", True)  # s, s and Hz
    (box,) = writing.editors()
    assert isinstance(box, QCheckBox)
    assert box.checkState().name == "PartiallyChecked"
    (edit,) = interval.editors()
    assert isinstance(edit, QLineEdit)
    edit.setFocus()
    edit.selectAll()
    type_in("250")
    after = [document.project.signals[at] for at in chosen]
    assert [getattr(signal, "every_ms", None) for signal in after] == [250, 250, 250]
    assert [signal.unit for signal in after] == ["s", "s", "Hz"]  # nobody touched it
    document.undo()
    assert {getattr(document.project.signals[at], "every_ms", None) for at in chosen} != {250}
    table.select_rows(chosen[:1])
    assert row_of(form, "Name").texts() == ("ramp up",)
    assert row_of(form, "Unit").texts() == ("s",)


def test_fields_are_changed_together_and_one_that_cannot_keeps_all_as_they_are(
    document: Document, qtbot: QtBot
) -> None:
    design = designed(document, qtbot)
    fields = document.project.screen_named["times"].fields
    document.select(Selection("times", (0, 0), tuple(range(len(fields)))))
    form = design.inspector.field_form
    design.inspector.choose_form(form)
    kind = row_of(form, "Shown as")
    (box,) = kind.editors()
    assert isinstance(box, QComboBox)
    assert not kind.differs
    box.setCurrentIndex(box.findData("bar"))
    box.activated.emit(box.currentIndex())
    assert {field.kind for field in document.project.screen_named["times"].fields} == {"bar"}
    document.undo()
    assert document.project.screen_named["times"].fields == fields
    signal = row_of(form, "Signal")
    (box,) = signal.editors()
    assert isinstance(box, QComboBox)
    assert (box.currentIndex(), box.placeholderText()) == (-1, "different")
