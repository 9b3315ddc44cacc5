"""Arming: a deliberate act by mouse or keyboard, after everything that must be known."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from app.project.by_itself import ByItself
from widgets.kit.language import Language, Translation
from widgets.live.arming import ArmingDialog, HoldButton

HOLD_MS = 60


@pytest.fixture
def button(qtbot: QtBot) -> HoldButton:
    made = HoldButton("Hold to arm", hold_ms=HOLD_MS)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_held_long_enough_with_the_mouse_it_acts_once(button: HoldButton, qtbot: QtBot) -> None:
    acts: list[int] = []
    button.held.connect(lambda: acts.append(1))
    with qtbot.waitSignal(button.held):
        QTest.mousePress(button, Qt.MouseButton.LeftButton)
        assert button.holding
    QTest.mouseRelease(button, Qt.MouseButton.LeftButton)
    assert acts == [1]
    assert not button.holding


def test_held_long_enough_with_the_space_bar_it_acts(button: HoldButton, qtbot: QtBot) -> None:
    button.setFocus()
    with qtbot.waitSignal(button.held):
        QTest.keyPress(button, Qt.Key.Key_Space)


@pytest.mark.parametrize("by", ["mouse", "keyboard", "hiding"])
def test_let_go_too_early_it_does_nothing(qtbot: QtBot, by: str) -> None:
    button = HoldButton("Hold to arm", hold_ms=60_000)
    qtbot.addWidget(button)
    button.show()
    with qtbot.assertNotEmitted(button.held):
        if by == "keyboard":
            QTest.keyPress(button, Qt.Key.Key_Space)
            assert button.holding
            QTest.keyRelease(button, Qt.Key.Key_Space)
        else:
            QTest.mousePress(button, Qt.MouseButton.LeftButton)
            assert button.holding
            if by == "hiding":
                button.hide()
            else:
                QTest.mouseRelease(button, Qt.MouseButton.LeftButton)
        assert not button.holding


def test_a_mere_click_does_nothing(button: HoldButton, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(button.held, wait=3 * HOLD_MS):
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def test_dragging_off_the_button_lets_go(button: HoldButton, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(button.held, wait=3 * HOLD_MS):
        QTest.mousePress(button, Qt.MouseButton.LeftButton)
        QTest.mouseMove(button, QPoint(-80, -80))


@pytest.fixture
def dialog(qtbot: QtBot) -> ArmingDialog:
    made = ArmingDialog(["pump room: serial:/dev/ttyUSB0"], hold_ms=HOLD_MS)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_the_button_waits_for_every_caution(dialog: ArmingDialog) -> None:
    assert len(dialog.ticks) == 4
    for tick in dialog.ticks:
        assert not dialog.hold.isEnabled()
        QTest.keyClick(tick.box, Qt.Key.Key_Space)
    assert dialog.hold.isEnabled()
    QTest.keyClick(dialog.ticks[2].box, Qt.Key.Key_Space)
    assert not dialog.hold.isEnabled()


def test_the_cautions_say_what_must_be_known(dialog: ArmingDialog) -> None:
    words = " ".join(tick.box.accessibleName() for tick in dialog.ticks)
    said = ("is an emergency stop", "Motion can start", "near the machine", "Local regulations", "qualified person")
    for part in said:
        assert part in words


def listed(dialog: ArmingDialog) -> list[str]:
    return [dialog.by_itself.item(row).text() for row in range(dialog.by_itself.count())]


def test_it_says_that_nothing_is_written_without_a_key(dialog: ArmingDialog) -> None:
    assert listed(dialog) == []
    assert any("only when a key is pressed" in label.text() for label in dialog.findChildren(QLabel))


def test_it_lists_what_is_written_without_a_key_and_asks_for_what_can_start(qtbot: QtBot) -> None:
    by_itself = [ByItself("when 'remote' is set: 'run' is set to 1", True), ByItself("'alive' is written again", False)]
    dialog = ArmingDialog(["line"], by_itself=by_itself, hold_ms=HOLD_MS)
    qtbot.addWidget(dialog)
    dialog.show()
    assert listed(dialog) == ["⚠ when 'remote' is set: 'run' is set to 1", "'alive' is written again"]
    assert len(dialog.ticks) == 5
    for tick in dialog.ticks[:4]:
        tick.box.setChecked(True)
    assert not dialog.hold.isEnabled()
    dialog.ticks[4].box.setChecked(True)
    assert dialog.hold.isEnabled()


def test_what_only_stops_without_a_key_is_listed_and_not_asked_for(qtbot: QtBot) -> None:
    dialog = ArmingDialog(["line"], by_itself=[ByItself("when 'fault' is set: 'run' is set to 0", False)])
    qtbot.addWidget(dialog)
    assert listed(dialog) == ["when 'fault' is set: 'run' is set to 0"]
    assert len(dialog.ticks) == 4


def test_it_names_the_lines(dialog: ArmingDialog) -> None:
    assert any("serial:/dev/ttyUSB0" in label.text() for label in dialog.findChildren(QLabel))


def test_ticked_and_held_by_keyboard_alone_it_is_accepted(dialog: ArmingDialog, qtbot: QtBot) -> None:
    for _ in dialog.ticks:
        focus = dialog.focusWidget()
        assert focus is not None
        QTest.keyClick(focus, Qt.Key.Key_Space)
        QTest.keyClick(focus, Qt.Key.Key_Tab)
    while dialog.focusWidget() is not dialog.hold:
        QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_Tab)
    with qtbot.waitSignal(dialog.accepted):
        QTest.keyPress(dialog.hold, Qt.Key.Key_Space)


def test_enter_and_escape_never_arm(dialog: ArmingDialog, qtbot: QtBot) -> None:
    for tick in dialog.ticks:
        tick.box.setChecked(True)
    with qtbot.assertNotEmitted(dialog.accepted, wait=3 * HOLD_MS):
        QTest.keyClick(dialog.ticks[0].box, Qt.Key.Key_Return)
    dialog.show()
    with qtbot.waitSignal(dialog.rejected):
        QTest.keyClick(dialog, Qt.Key.Key_Escape)


@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
def test_what_to_do_next_is_whole_and_moves_no_button(qtbot: QtBot, qapp: QApplication, language: Language) -> None:
    speech = Translation(qapp)
    speech.speak(language)
    try:
        dialog = ArmingDialog(["line: tcp://host:502"])
        qtbot.addWidget(dialog)
        with qtbot.waitExposed(dialog):
            dialog.show()
        before = dialog.hold.mapTo(dialog, QPoint(0, 0)), dialog.minimumSizeHint().width()
        for tick in dialog.ticks:
            QTest.keyClick(tick.box, Qt.Key.Key_Space)
        assert dialog.hold.isEnabled()
        qtbot.waitUntil(lambda: dialog.hint.height() >= dialog.hint.heightForWidth(dialog.hint.width()))
        words, width = dialog.hint.text(), dialog.hint.width()
        lines = dialog.hint.fontMetrics().boundingRect(0, 0, width, 1000, Qt.TextFlag.TextWordWrap, words)
        assert lines.width() <= width
        assert (dialog.hold.mapTo(dialog, QPoint(0, 0)), dialog.minimumSizeHint().width()) == before
    finally:
        speech.speak(Language.ENGLISH)
        speech.deleteLater()
