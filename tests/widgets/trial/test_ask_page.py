"""Questions to a person: no answer by chance, and nothing taken for measured that is not."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.trial.outcome import Instrument, PersonAsked, Reply
from tests.widgets.driving import press, shown, type_in
from widgets.kit.commands import command
from widgets.trial.ask_page import AskedNow, AskPage

QUIET = PersonAsked("ask", "a case", "Does it run quietly?")
VOLTAGE = PersonAsked("measure", "a case", "Voltage at the terminals", "V", instrument=True)
METER = Instrument("Multimeter 1", "4711", date(2027, 3, 31))


class Asking:
    def __init__(self, qtbot: QtBot) -> None:
        window = self.window = QWidget()
        keys = [command(window, key, lambda key=key: self.said(key), key) for key in ("Y", "N", "U")]
        self.page = AskPage(*keys)
        layout = QVBoxLayout(window)
        layout.addWidget(self.page)
        self.replies: list[Reply] = []
        self.page.answered.connect(self.replies.append)
        shown(window, qtbot, 360, 600)
        self.actions: list[QAction] = keys

    def said(self, key: str) -> None:
        {"Y": self.page.say_yes, "N": self.page.say_no, "U": self.page.say_unknown}[key]()

    def ask(self, question: PersonAsked, expected: str = "") -> None:
        self.page.ask(AskedNow(question, expected, "A. Tester"))
        self.page.take_focus()


@pytest.fixture
def asking(qtbot: QtBot) -> Asking:
    return Asking(qtbot)


@pytest.mark.parametrize(("key", "yes"), [(Qt.Key.Key_Y, True), (Qt.Key.Key_N, False), (Qt.Key.Key_U, None)])
def test_a_key_answers(asking: Asking, key: Qt.Key, yes: bool | None) -> None:
    asking.ask(QUIET)
    press(key)
    assert asking.replies == [Reply(yes, "", "A. Tester")]


def test_enter_answers_nothing(asking: Asking) -> None:
    asking.ask(QUIET)
    for part in (asking.page, asking.page.yes, asking.page.no):
        part.setFocus()
        press(Qt.Key.Key_Return)
    assert asking.replies == []


def test_letters_in_the_remark_are_no_answers(asking: Asking) -> None:
    asking.ask(QUIET)
    asking.page.remark.setFocus()
    type_in("Yes, a bit noisy")
    assert asking.replies == []
    QTest.mouseClick(asking.page.no, Qt.MouseButton.LeftButton)
    assert asking.replies == [Reply(False, "Yes, a bit noisy", "A. Tester")]
    asking.ask(QUIET)
    assert asking.page.remark.toPlainText() == "", "the remark was about another question"


def test_a_measurement_needs_its_value_and_its_instrument(asking: Asking) -> None:
    asking.ask(VOLTAGE, "360 to 440 V")
    assert asking.page.expected.text() == "Expected: 360 to 440 V"
    press(Qt.Key.Key_Return)
    assert asking.page.wrong.text() == "The value is missing, or it is no number."
    type_in("401,5")
    press(Qt.Key.Key_Return)
    assert asking.page.wrong.text().startswith("Which instrument was it?")
    assert asking.page.name.hasFocus()
    type_in("Multimeter 1")
    asking.page.serial.setText("4711")
    asking.page.due.setText("31.3.2027")
    press(Qt.Key.Key_Return)
    assert asking.page.wrong.text().startswith("A date is written")
    asking.page.due.setText("2027-03-31")
    press(Qt.Key.Key_Return)
    assert asking.replies == [Reply(True, "", "A. Tester", Fraction(803, 2), METER)]


def test_the_instrument_used_last_stands_there_the_next_time(asking: Asking) -> None:
    asking.page.remember([METER])
    asking.ask(VOLTAGE)
    type_in("400")
    press(Qt.Key.Key_Return)
    assert asking.replies[0].instrument == METER
    asking.ask(VOLTAGE)
    assert asking.page.value.text() == "", "the value was another one"


def test_no_letter_says_that_something_was_measured_as_wanted(asking: Asking) -> None:
    asking.ask(VOLTAGE)
    asking.page.setFocus()
    press(Qt.Key.Key_Y)
    press(Qt.Key.Key_N)
    assert asking.replies == []
    press(Qt.Key.Key_U)
    assert asking.replies == []  # the value has the focus by now, and takes the letter
    asking.page.setFocus()
    press(Qt.Key.Key_U)
    assert asking.replies == [Reply(None, "", "A. Tester")]


def test_before_the_machine_may_move_the_cautions_stand_there_and_nobody_can_say_that_he_does_not_know(
    asking: Asking,
) -> None:
    asking.ask(PersonAsked("may move", "a case", "Is everybody clear of it?"))
    assert any("emergency stop" in words for words in asking.page.cautions_shown())
    assert not asking.page.unknown.isVisible()
    press(Qt.Key.Key_U)
    assert asking.replies == []
    press(Qt.Key.Key_N)
    assert asking.replies == [Reply(False, "", "A. Tester")]


def test_what_is_done_by_hand_is_said_to_be_done(asking: Asking) -> None:
    asking.ask(PersonAsked("by hand", "a case", "Close the gate."))
    assert (asking.page.yes.text(), asking.page.no.text()) == ("Done", "Not possible")
