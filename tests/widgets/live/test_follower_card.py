"""A follower's card: its state in words, its own values, and values set by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox
from pytestqt.qtbot import QtBot

from app.client.faults import FaultKind
from app.follower.drive_bank import DriveBank
from app.follower.register_bank import RegisterBank
from app.line.states import FollowerState
from app.project.model import Project
from tests.widgets.bench_project import bench_project
from widgets.live.follower_card import FollowerCard, ValueSetter


@pytest.fixture
def project() -> Project:
    return bench_project()


@pytest.fixture
def card(project: Project, qtbot: QtBot) -> FollowerCard:
    made = FollowerCard(project, project.follower_named["fan"])
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.mark.parametrize("narrow", [False, True])
def test_a_card_in_the_making_opens_no_window_of_its_own(project: Project, narrow: bool, qtbot: QtBot) -> None:
    before = {widget for widget in QApplication.topLevelWidgets() if widget.isVisible()}
    made = FollowerCard(project, project.follower_named["fan"], narrow=narrow)
    qtbot.addWidget(made)
    assert {widget for widget in QApplication.topLevelWidgets() if widget.isVisible()} <= before
    assert made.state.isHidden() == narrow


@pytest.mark.parametrize(
    ("state", "words", "reason"),
    [
        (None, "not connected", ""),
        (FollowerState("fan", "hall", 1), "… not polled yet", ""),
        (FollowerState("fan", "hall", 1, answering=True, answer_ms=0.4), "✓ answering, < 1 ms", ""),
        (FollowerState("fan", "hall", 1, answering=True, answer_ms=12.4), "✓ answering, 12 ms", ""),
        (FollowerState("fan", "hall", 1, answering=True, answer_ms=147.0), "✓ answering, 150 ms", ""),
        (
            FollowerState("fan", "hall", 1, answering=False, reason="unit 1 did not answer"),
            "⚠ not answering",
            "unit 1 did not answer",
        ),
        (
            FollowerState("fan", "hall", 1, answering=False, reason="it is off", last_answer=93.0),
            "⚠ not answering, last answer 7 s ago",
            "it is off",
        ),
    ],
)
def test_the_state_in_words(card: FollowerCard, state: FollowerState | None, words: str, reason: str) -> None:
    card.show_state(state, 100.0)
    assert card.state.text() == words
    assert card.body.text() == reason


def test_a_real_device_tells_its_line_and_its_counts(card: FollowerCard) -> None:
    state = FollowerState("fan", "hall", 1, answering=True, requests=20, good=17, faults={FaultKind.SILENCE: 2})
    card.show_state(state, 100.0)
    assert card.body.text() == "on line hall, good answers: 17, faults: 2"
    card.show_state(None, 100.0)
    assert card.body.text() == ""


def test_a_simulated_drive_shows_its_own_speed_and_current(card: FollowerCard, project: Project) -> None:
    bank = DriveBank(project, project.follower_named["fan"])
    card.simulate(bank)
    bank.set("command", 16)
    bank.advance(4.0)
    card.refresh()
    assert "operation enabled" in card.body.text()
    assert all(unit in card.body.text() for unit in ("Hz", "1/min", "A"))
    assert " 0.0 Hz" not in card.body.text()


def test_the_boxes_turn_the_switches_by_keyboard(card: FollowerCard, project: Project) -> None:
    bank = DriveBank(project, project.follower_named["fan"])
    card.simulate(bank)
    boxes = {box.text(): box for box in card.findChildren(QCheckBox)}
    QTest.keyClick(boxes["Shaft &blocked"], Qt.Key.Key_Space)
    assert bank.inputs.jammed
    QTest.keyClick(boxes["Does not &answer"], Qt.Key.Key_Space)
    assert bank.silent
    QTest.keyClick(boxes["Shaft &blocked"], Qt.Key.Key_Space)
    assert not bank.inputs.jammed


def test_what_the_drive_works_out_itself_is_not_offered(project: Project, card: FollowerCard) -> None:
    card.simulate(DriveBank(project, project.follower_named["fan"]))
    setter = card.findChild(ValueSetter)
    assert setter is not None
    offered = [setter.signal.itemText(row) for row in range(setter.signal.count())]
    assert offered == ["command", "run", "set point"]


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
