"""The aid for a scale, and the scale in the form: by keys, exact, and without a fuss while one is still typing."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QLineEdit
from pytestqt.qtbot import QtBot

from app.project.model import RegisterSignal, Scale
from tests.widgets.driving import when_asked
from widgets.design.forms.form import FormRow
from widgets.design.signals.scaling_aid import ScalingAid
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document

Key = Qt.Key
CTRL = Qt.KeyboardModifier.ControlModifier


def aid_for(document: Document, name: str, qtbot: QtBot) -> ScalingAid:
    part = document.project.signal_named[name]
    assert isinstance(part, RegisterSignal)
    aid = ScalingAid(document.project, part)
    qtbot.addWidget(aid)
    aid.show()
    return aid


def write(edit: QLineEdit, text: str) -> None:
    edit.setFocus()
    QTest.keyClick(edit, Key.Key_A, CTRL)
    QTest.keyClick(edit, Key.Key_Delete)
    QTest.keyClicks(edit, text)


def scale(raw0: str, raw1: str, value0: str, value1: str) -> Scale:
    return Scale(raw=(Decimal(raw0), Decimal(raw1)), value=(Decimal(value0), Decimal(value1)))


def ok_of(aid: ScalingAid) -> bool:
    return aid.deed.isEnabled()


def test_raw_value_and_shown_text_stand_side_by_side(document: Document, qtbot: QtBot) -> None:
    aid = aid_for(document, "speed set point", qtbot)
    assert [edit.text() for edit in (*aid.raw, *aid.value)] == ["0", "10000", "0", "50"]
    assert [label.text() for label in aid.shown[:2]] == ["0.0 Hz", "50.0 Hz"]
    assert aid.told.text().splitlines()[:2] == [
        "value = raw x 0.005 + 0",
        "uint16 covers raw 0 to 65535: that is 0.0 Hz to 327.7 Hz.",
    ]
    assert "The limits 20 to 50 are raw 4000 to 10000." in aid.told.text()
    assert "The longest text is 327.7; cells: 5." in aid.told.text()


def test_a_value_is_tried_in_both_directions(document: Document, qtbot: QtBot) -> None:
    aid = aid_for(document, "speed set point", qtbot)
    write(aid.try_raw, "8330")
    assert aid.try_value.text() == "41.65"
    assert aid.shown[2].text() == "41.7 Hz", "half away from zero"
    write(aid.try_value, "12,3456")
    assert aid.try_raw.text() == "2469"
    assert aid.shown[2].text() == "12.3 Hz  (exactly 12.345)"
    write(aid.try_raw, "70000")
    assert aid.shown[2].text() == "raw 70000 is outside uint16"
    write(aid.try_value, "fast")
    assert "'fast' is not a number" in aid.shown[2].text()


def test_a_factor_makes_the_points_and_points_make_the_factor(document: Document, qtbot: QtBot) -> None:
    aid = aid_for(document, "status", qtbot)
    write(aid.slope, "0.1")
    write(aid.offset, "-40")
    assert aid.scale == scale("0", "1000", "-40", "60")
    assert aid.value[1].text() == "60"
    write(aid.raw[1], "2000")
    assert aid.slope.text() == "0.05"
    write(aid.raw[1], "300")
    assert aid.slope.text() == "1/3", "told without loss"
    assert aid.told.text().startswith("value = raw x 1/3 - 40")


def test_what_is_no_scale_cannot_be_confirmed_and_is_said(document: Document, qtbot: QtBot) -> None:
    aid = aid_for(document, "speed set point", qtbot)
    write(aid.raw[1], "")
    assert not ok_of(aid)
    assert aid.reason.property("look") == "faint", "nobody is alarmed while more is to come"
    write(aid.raw[1], "0")
    assert not ok_of(aid)
    assert aid.reason.property("look") == "fault"
    assert "two raw numbers are equal" in aid.reason.text()
    write(aid.raw[1], "1,000")
    assert "can mean 1.000 or 1000" in aid.reason.text()
    QTest.mouseClick(aid.none, Qt.MouseButton.LeftButton)
    assert ok_of(aid)
    assert aid.scale is None


def test_fields_that_get_too_narrow_are_named(document: Document, qtbot: QtBot) -> None:
    aid = aid_for(document, "speed set point", qtbot)
    for _ in range(4):
        QTest.keyClick(aid.decimals, Key.Key_Up)
    assert aid.decimals.value() == 5
    assert "Fields that are too narrow for it: screen 'run', field" in aid.told.text()


def test_it_is_opened_by_a_key_and_its_scale_is_one_step(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    design.show_view("signals")
    design.navigator.show_signal("speed set point")

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, ScalingAid)
        QTest.keyClicks(dialog.raw[0], "100")
        write(dialog.value[1], "60")
        QTest.keyClick(dialog.value[1], Key.Key_Return)

    when_asked(answer)
    QTest.keySequence(design.signals.table.table, "Ctrl+F12")
    part = document.project.signal_named["speed set point"]
    assert isinstance(part, RegisterSignal)
    assert part.scale == scale("100", "10000", "0", "60")
    document.undo()
    assert document.project is before


def test_there_is_none_for_what_has_no_scale(design: DesignWorkspace) -> None:
    design.show_view("signals")
    design.navigator.show_signal("running")
    QTest.keySequence(design.signals.table.table, "Ctrl+F12")
    assert design.notice.text.text() == "Only a number in registers can be scaled."


# The rows of the form


def scale_row(design: DesignWorkspace, label: str) -> FormRow:
    return next(row for row in design.inspector.signal_form.rows if row.label == label)


def test_half_a_scale_is_no_alarm_until_it_is_left(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    design.navigator.show_signal("status")
    first, second = scale_row(design, "Scale, from"), scale_row(design, "Scale, to")
    for row, number in ((first, 0), (first, 1), (second, 0)):
        editor = row.editors()[number]
        editor.setFocus()
        QTest.keyClicks(editor, "1")
        assert row.message.property("look") == "faint"
        assert row.message.text()
        assert editor.property("look") != "wrong"
    design.inspector.signal_form.focus_row("Unit")
    qtbot.waitUntil(lambda: second.editors()[0].property("look") == "wrong")
    assert second.message.property("look") == "fault"
    assert "pending" in design.findings.summary.text()
    second.editors()[0].setFocus()
    QTest.keyClicks(second.editors()[0], "0")
    QTest.keyClicks(second.editors()[1], "5")
    part = document.project.signal_named["status"]
    assert isinstance(part, RegisterSignal)
    assert part.scale == scale("1", "10", "1", "5")
    assert not second.message.isVisible()
    assert design.drafts.all() == ()


def test_a_wrong_number_in_a_scale_is_said_at_once(design: DesignWorkspace) -> None:
    design.navigator.show_signal("speed set point")
    row = scale_row(design, "Scale, from")
    editor = row.editors()[0]
    editor.setFocus()
    QTest.keyClicks(editor, "x")
    assert editor.property("look") == "wrong"
    assert row.message.property("look") == "fault"
