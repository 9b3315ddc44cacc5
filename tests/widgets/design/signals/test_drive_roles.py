"""Signals that say what of the simulated drive they are: in their form, in their follower's, and played by hand."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox
from pytestqt.qtbot import QtBot

from app import edits
from app.follower.simulation import Simulation
from app.project.model import HeldSignal, Project
from tests.app.follower.playing import drive_project, signal
from tests.widgets.design.test_workspace import choose, editor_of, row_of
from widgets.design.forms.form import Form
from widgets.design.signals.form import SignalForm
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.kit.section import Section
from widgets.live.follower_card import FollowerCard
from widgets.live.value_setter import ValueSetter

SIGNALS = (
    signal("command", 5200, write=True),
    {"name": "start", "bit": {"of": "command", "number": 4}, "write": True},
    {"name": "kept", "held": 3},
    signal("speed", 5301, unit="Hz"),
    signal("room", 5310),
)


@pytest.fixture
def project() -> Project:
    return drive_project(*SIGNALS)


def rows(box: object) -> list[str]:
    assert isinstance(box, QComboBox)
    return [box.itemText(row) for row in range(box.count())]


def plays(document: Document, name: str) -> str | None:
    part = document.project.signal_named[name]
    assert not isinstance(part, HeldSignal)
    return part.drive_role


def show(design: DesignWorkspace, name: str) -> SignalForm:
    design.navigator.show_signal(name)
    return design.inspector.signal_form


def register_map(design: DesignWorkspace) -> str:
    return design.document.project.followers[0].simulated.register_map


def headings(form: Form) -> list[str]:
    return [section.title for section in form.findChildren(Section) if section.isVisible()]


def test_a_signal_is_made_something_of_the_drive_in_its_form(design: DesignWorkspace) -> None:
    document = design.document
    form = show(design, "speed")
    choose(form, "Role", "output frequency")
    assert plays(document, "speed") == "output-frequency"
    choose(form, "Role", "(no role)")
    assert plays(document, "speed") is None


def test_a_single_bit_is_offered_only_what_is_on_or_off(design: DesignWorkspace) -> None:
    offered = rows(editor_of(show(design, "start"), "Role"))
    assert "command: run" in offered
    assert "current" not in offered
    assert "current" in rows(editor_of(show(design, "command"), "Role"))
    assert not any("control word" in row for row in offered)
    choose(show(design, "command"), "Role", "command: control word (IEC 61800-7-201)")
    assert plays(design.document, "command") == "control-word"


def test_nothing_is_offered_where_no_drive_is_simulated(design: DesignWorkspace) -> None:
    form = show(design, "speed")
    assert "Simulation" in headings(form)
    assert headings(show(design, "kept")) == ["Source", "Display", "Writing and polling", "Documentation"]
    design.document.do("Simulate as a bank", lambda project: edits.change_follower(project, "it", simulate="bank"))
    form = show(design, "speed")
    assert all(row.label != "Role" or row.isHidden() for row in form.rows)


def test_the_form_of_a_follower_says_what_its_drive_obeys(design: DesignWorkspace) -> None:
    design.navigator.go_to(("follower", 0))
    form = design.inspector.follower_form
    assert row_of(form, "Registers").texts()[0].startswith("built-in registers (300 to 413)")
    choose(form, "Register map", "control word of IEC 61800-7-201")
    assert register_map(design) == "iec-61800-7-201"
    choose(form, "Register map", "plain: bit 2 quick stop, 4 run, 5 reverse, 7 fault reset")
    assert register_map(design) == "plain"
    design.document.do("Play", lambda project: edits.change_signal(project, "start", drive_role="run"))
    assert all(row.isHidden() for row in form.rows if row.label == "Register map")
    assert row_of(form, "Registers").texts() == ("signals with a role: 1",)


def test_bits_are_set_by_hand_but_for_those_that_the_drive_works_out(qtbot: QtBot) -> None:
    project = drive_project(
        *SIGNALS,
        {"name": "ready", "bit": {"of": "room", "number": 0}, "drive_role": "ready"},
        {"name": "door", "bit": {"of": "room", "number": 3}},
    )
    model = Simulation(project).models["it"]
    card = FollowerCard(project, project.followers[0])
    qtbot.addWidget(card)
    card.simulate(model)
    card.show()
    setter = card.findChild(ValueSetter)
    assert setter is not None
    assert rows(setter.signal) == ["speed", "room", "door", "command", "start"]
    setter.signal.setFocus()
    QTest.keyClicks(setter.signal, "door")
    QTest.keyClicks(setter.value, "1")
    QTest.keyClick(setter.value, Qt.Key.Key_Return)
    assert model.get("door") == 1
    assert model.get("ready") == 0
    assert model.get("room") == 8
