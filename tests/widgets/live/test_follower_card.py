"""A follower's card: its state in words, its own values and its switches, and the same height with all of them."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox
from pytestqt.qtbot import QtBot

from app.client.faults import FaultKind
from app.follower.drive_bank import DriveBank
from app.line.states import FollowerState
from app.project.model import HeldSignal, Project
from tests.widgets.bench_project import bench_project
from widgets.kit.dialogs.questions import Question
from widgets.live.follower_card import HEIGHT, FollowerCard, FollowerCards, own_values
from widgets.live.value_setter import ValueSetter


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


def test_nothing_is_offered_to_be_set_where_nothing_may_be_written(project: Project, qtbot: QtBot) -> None:
    signals = [signal if isinstance(signal, HeldSignal) else signal.replace(write=False) for signal in project.signals]
    made = FollowerCard(project.replace(signals=tuple(signals)), project.follower_named["fan"])
    qtbot.addWidget(made)
    made.show_state(FollowerState("fan", "hall", 1, answering=True, answer_ms=12.4), 100.0)
    assert not made.setter.button.isEnabled()
    assert "may be written" in made.setter.toolTip()


@pytest.mark.parametrize(
    ("state", "words", "reason"),
    [
        (None, "unread: not connected", ""),
        (FollowerState("fan", "hall", 1), "unread: not polled yet", ""),
        (FollowerState("fan", "hall", 1, answering=True, answer_ms=0.4), "good: answering, < 1 ms", ""),
        (FollowerState("fan", "hall", 1, answering=True, answer_ms=12.4), "good: answering, 12 ms", ""),
        (FollowerState("fan", "hall", 1, answering=True, answer_ms=147.0), "good: answering, 150 ms", ""),
        (
            FollowerState("fan", "hall", 1, answering=False, reason="unit 1 did not answer"),
            "alarm: not answering",
            "unit 1 did not answer",
        ),
        (
            FollowerState("fan", "hall", 1, answering=False, reason="it is off", last_answer=93.0),
            "alarm: not answering, last answer 7 s ago",
            "it is off",
        ),
    ],
)
def test_the_state_in_words(card: FollowerCard, state: FollowerState | None, words: str, reason: str) -> None:
    card.show_state(state, 100.0)
    assert f"{card.state.state}: {card.state.text()}" == words
    assert card.body.text() == reason
    assert card.body.isVisible() == bool(reason)
    assert card.values.isVisible() != card.body.isVisible()


def test_a_real_device_tells_its_counts_and_where_its_line_leads(card: FollowerCard) -> None:
    state = FollowerState("fan", "hall", 1, answering=True, requests=20, good=17, faults={FaultKind.SILENCE: 2})
    card.show_state(state, 100.0)
    assert card.values.text() == "Requests 20, Good answers 17, Faults 2"
    assert card.line.isVisible()
    assert card.line.text() == "127.0.0.1:1502 \u00b7 time-out 150 ms"
    assert not card.buttons[0].isVisible()
    card.show_state(None, 100.0)
    assert card.values.text() == "Requests \u2013, Good answers \u2013, Faults \u2013", "no old number stays"
    assert not card.setter.isEnabled()


def test_what_is_typed_for_a_real_device_is_wanted_and_set_by_nobody_here(card: FollowerCard) -> None:
    wanted: list[tuple[str, str]] = []
    card.write_wanted.connect(lambda name, text: wanted.append((name, text)))
    card.show_state(FollowerState("fan", "hall", 1, answering=True), 100.0)
    setter = card.setter
    assert [setter.signal.itemText(row) for row in range(setter.signal.count())] == ["set point", "command", "run"]
    setter.signal.setCurrentIndex(0)
    QTest.keyClicks(setter.value, "41.65")
    QTest.mouseClick(setter.button, Qt.MouseButton.LeftButton)
    assert wanted == [("set point", "41.65")]


def test_a_simulated_drive_shows_its_own_speed_and_current(card: FollowerCard, project: Project) -> None:
    bank = DriveBank(project, project.follower_named["fan"])
    card.simulate(bank)
    bank.set("command", 16)
    bank.advance(4.0)
    card.refresh()
    told = dict(own_values(bank))
    assert told["State"] == "operation enabled"
    assert told["Speed"].endswith(" 1/min")
    assert float(told["Speed"].removesuffix(" 1/min")) > 100
    assert all(f"{caption} {value}" in card.values.text() for caption, value in told.items())
    assert told["Speed"] in card.values.accessibleName()


def test_the_switches_act_by_keyboard_and_follow_the_menu(card: FollowerCard, project: Project) -> None:
    assert [button.text() for button in card.buttons] == ["Shaft blocked", "Supply low", "Silent"]
    assert not any(button.isEnabled() for button in card.buttons), "nothing is simulated yet"
    bank = DriveBank(project, project.follower_named["fan"])
    card.simulate(bank)
    jammed, low, silent = card.buttons
    for at, button in enumerate((jammed, low, silent)):
        for on in (True, False):
            QTest.keyClick(button, Qt.Key.Key_Space)
            assert (bank.inputs.jammed, bank.inputs.supply < 1, bank.silent)[at] is on
    assert card.switches is not None
    card.switches.silent.trigger()
    assert silent.isChecked()


def test_a_low_supply_trips_the_drive(card: FollowerCard, project: Project) -> None:
    bank = DriveBank(project, project.follower_named["fan"])
    card.simulate(bank)
    bank.set("command", 16)
    bank.advance(4.0)
    QTest.mouseClick(card.buttons[1], Qt.MouseButton.LeftButton)
    for _ in range(20):
        bank.advance(0.1)
    fault = next(each.value for each in bank.overview() if each.name == "fault")
    assert fault == "undervoltage of the DC link"


def test_narrow_it_has_boxes_one_below_the_other(project: Project, qtbot: QtBot) -> None:
    card = FollowerCard(project, project.follower_named["fan"], narrow=True)
    qtbot.addWidget(card)
    bank = DriveBank(project, project.follower_named["fan"])
    card.simulate(bank)
    card.show()
    boxes = {box.text(): box for box in card.findChildren(QCheckBox)}
    assert list(boxes) == ["Shaft blocked", "Supply low", "Silent"]
    QTest.keyClick(boxes["Shaft blocked"], Qt.Key.Key_Space)
    assert bank.inputs.jammed


def test_it_is_as_high_whatever_it_says_and_all_of_it_is_a_press_away(
    card: FollowerCard, project: Project, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(Question, "exec", lambda box: told.append(box.sentence.text()))
    card.resize(600, card.sizeHint().height())
    long = "what was seen, where, and what is best done about it; " * 9
    for state in (
        None,
        FollowerState("fan", "hall", 1, answering=True),
        FollowerState("fan", "hall", 1, answering=False, reason="it is off"),
        FollowerState("fan", "hall", 1, answering=False, reason=long),
    ):
        card.show_state(state, 0.0)
        qtbot.wait(0)
        assert card.height() == HEIGHT
        assert card.more_words.isVisible() == (state is not None and state.reason == long)
    QTest.mouseClick(card.more_words, Qt.MouseButton.LeftButton)
    assert told == [long]


def test_a_card_shows_its_values_from_the_moment_it_is_seen(project: Project, qtbot: QtBot) -> None:
    """It had dashes for half a second while the readings beside it were there."""
    made = FollowerCard(project, project.follower_named["fan"])
    qtbot.addWidget(made)
    made.simulate(DriveBank(project, project.follower_named["fan"]))
    assert "Hz" not in made.values.text()
    made.show()
    assert "Hz" in made.values.text()


def test_what_the_drive_works_out_itself_is_not_offered(project: Project, card: FollowerCard) -> None:
    card.simulate(DriveBank(project, project.follower_named["fan"]))
    setter = card.findChild(ValueSetter)
    assert setter is card.setter
    offered = [setter.signal.itemText(row) for row in range(setter.signal.count())]
    assert offered == ["set point", "command", "run"]


def test_a_second_device_takes_no_room_from_the_panel_above(qtbot: QtBot, pump: Project) -> None:
    """Its heads have their room from the beginning: no key of the panel moves when they come."""
    cards = FollowerCards()
    qtbot.addWidget(cards)
    cards.show_project(pump)
    alone = cards.wanted_height
    first = pump.followers[0]
    cards.show_project(pump.replace(followers=(first, first.replace(name="second", unit=first.unit + 1))))
    assert not cards.heads.isHidden()
    assert cards.wanted_height == alone
    assert cards.heads.sizeHint().height() < alone
