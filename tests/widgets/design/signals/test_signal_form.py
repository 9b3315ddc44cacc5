"""The form of a signal has a row for each attribute of the table, and what is chosen there is taken over."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QComboBox, QLineEdit, QPlainTextEdit, QWidget

from app.project.attributes import ATTRIBUTES, SIGNAL
from app.project.model import RegisterSignal
from tests.widgets.design.test_workspace import editor_of
from widgets.design.signals.form import SignalForm
from widgets.design.workspace import DesignWorkspace


def shown(design: DesignWorkspace, name: str) -> SignalForm:
    design.navigator.show_signal(name)
    return design.inspector.signal_form


@pytest.mark.parametrize("name", ["command", "run time", "running", "fault"])
def test_every_attribute_of_a_signal_has_its_row(design: DesignWorkspace, name: str) -> None:
    form = shown(design, name)
    part = form.part
    rows = {row.label for row in form.rows if not row.isHidden()}
    # Texts in other languages are written in the dialog of the panel's languages; a scale has a row for each point.
    own = {"texts_in": set[str](), "scale": {"Scale, from", "Scale, to"}, "drive_role": set[str]()}
    for attribute in SIGNAL:
        if attribute.is_of(part):
            assert own.get(attribute.key, {attribute.label}) <= rows, attribute.key


@pytest.mark.parametrize(
    ("key", "editor"),
    [
        ("follower", QComboBox),
        ("table", QComboBox),
        ("encoding", QComboBox),
        ("unit", QLineEdit),
        ("hex", QCheckBox),
        ("write", QCheckBox),
        ("texts", QPlainTextEdit),
        ("every_ms", QLineEdit),
        ("notes", QPlainTextEdit),
    ],
)
def test_a_row_has_the_editor_of_its_kind(design: DesignWorkspace, key: str, editor: type[QWidget]) -> None:
    assert isinstance(editor_of(shown(design, "command"), ATTRIBUTES[key].label), editor)


def test_a_word_is_shown_in_hexadecimal(design: DesignWorkspace) -> None:
    box = editor_of(shown(design, "command"), "Hexadecimal")
    QTest.keyClick(box, Qt.Key.Key_Space)
    part = design.document.project.signal_named["command"]
    assert isinstance(part, RegisterSignal)
    assert part.hex
    design.document.undo()
    assert design.document.project.signal_named["command"] != part


def test_what_is_no_whole_number_has_no_such_row(design: DesignWorkspace) -> None:
    for name in ("running", "speed set point"):
        form = shown(design, name)
        assert all(row.isHidden() for row in form.rows if row.label == "Hexadecimal"), name
