"""A value set by hand: of a simulated follower at once, of a real one only asked for."""

from __future__ import annotations

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.follower.register_bank import RegisterBank
from app.follower.simulation import Simulation
from app.project.model import Project
from app.project_file.files import load
from projects import demo_path
from tests.widgets.bench_project import bench_project
from widgets.live.value_setter import ValueSetter, settable, writable


@pytest.fixture
def project() -> Project:
    return bench_project()


@pytest.fixture
def tank(project: Project) -> RegisterBank:
    return RegisterBank(project, project.follower_named["tank"])


@pytest.fixture
def setter(project: Project, tank: RegisterBank, qtbot: QtBot) -> ValueSetter:
    made = ValueSetter(project, tank, ["level"])
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.fixture
def refused(setter: ValueSetter) -> list[str]:
    heard: list[str] = []
    setter.refused.connect(heard.append)
    return heard


@pytest.mark.parametrize(("text", "value"), [("71", 71), (" 8 ", 8), ("12,4", 12), ("12.5", 13)])
def test_a_value_is_set(setter: ValueSetter, tank: RegisterBank, refused: list[str], text: str, value: int) -> None:
    QTest.keyClicks(setter.value, text)
    QTest.keyClick(setter.value, Qt.Key.Key_Return)
    assert tank.get("level") == Fraction(value)
    assert refused[-1] == ""


@pytest.mark.parametrize("text", ["", "full", "1e999999999", "nan", "--1", "70000", "-1"])
def test_what_does_not_fit_is_refused_in_words(
    setter: ValueSetter, tank: RegisterBank, refused: list[str], text: str
) -> None:
    QTest.keyClicks(setter.value, text)
    QTest.keyClick(setter.value, Qt.Key.Key_Return)
    assert tank.get("level") == 63
    assert len(refused[-1]) > 10


def test_the_unit_stands_in_the_editor_and_leaves_its_room_to_it(project: Project, qtbot: QtBot) -> None:
    made = ValueSetter(project, None, ["set point", "command"])
    qtbot.addWidget(made)
    made.show()
    assert made.value.accessibleDescription() == "Hz"
    beside = made.value.textMargins().right()
    made.signal.setCurrentIndex(1)
    assert made.value.accessibleDescription() == ""
    assert made.value.textMargins().right() == beside, "digits stay where they are"


def test_without_a_bank_what_is_typed_is_only_wanted(project: Project, qtbot: QtBot) -> None:
    made = ValueSetter(project, None, ["set point"])
    qtbot.addWidget(made)
    heard: list[tuple[str, str]] = []
    made.wanted.connect(lambda name, text: heard.append((name, text)))
    made.value.setText(" 41,65 ")
    QTest.keyClick(made.value, Qt.Key.Key_Return)
    assert heard == [("set point", "41,65")]


def test_what_the_operator_enters_at_the_panel_is_offered_first() -> None:
    project = load(demo_path("booster-pump"))
    follower = project.followers[0]
    assert writable(project, follower)[0] == "speed set point"
    model = Simulation(project).models[follower.name]
    assert settable(project, model)[0] == "speed set point"


def test_what_was_typed_for_one_signal_is_not_kept_for_another(project: Project, qtbot: QtBot) -> None:
    made = ValueSetter(project, None, ["set point", "command"])
    qtbot.addWidget(made)
    made.value.setText("42")
    made.serve(None, ["set point", "command"])
    assert made.value.text() == "42", "nothing else is chosen"
    made.signal.setCurrentIndex(1)
    assert made.value.text() == ""
    made.value.setText("7")
    made.serve(None, ["set point"])
    assert made.value.text() == ""
