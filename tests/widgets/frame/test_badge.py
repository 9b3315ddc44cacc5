"""The badge of arming: it tells in words, by shape and by colour, in one size, and nothing of it is ever cut."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.pictures.stage import Setting, staged
from widgets.frame.badge import WIDTH, ArmingBadge, ArmingStripe, WriteState, state_of
from widgets.kit import palette
from widgets.kit.language import Language
from widgets.kit.palette import DARK, LIGHT, Appearance, Theme, contrast
from widgets.kit.scaling import scaled
from widgets.live.arming import WritePermission

STATES = {
    WriteState.NONE: WritePermission(),
    WriteState.SIMULATED: WritePermission(live=True, simulated=True, armed=("a",)),
    WriteState.LOCKED: WritePermission(live=True),
    WriteState.DISARMED: WritePermission(live=True, disarmed="line 'a' was lost"),
    WriteState.ARMED: WritePermission(live=True, armed=("pump room", "roof")),
}


@pytest.fixture
def badge(qtbot: QtBot) -> ArmingBadge:
    arm, disarm = QAction("Arm\u2026"), QAction("Disarm")
    made = ArmingBadge(arm, disarm)
    arm.setParent(made)
    disarm.setParent(made)
    qtbot.addWidget(made)
    made.show()
    return made


def picture(badge: ArmingBadge) -> QImage:
    return badge.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)


@pytest.mark.parametrize(
    ("state", "words", "button"),
    [
        (WriteState.NONE, "Not connected: nothing can be written", None),
        (WriteState.SIMULATED, "Simulated: nothing real can move", None),
        (WriteState.LOCKED, "Real line, locked: reading only", "Arm"),
        (WriteState.DISARMED, "Disarmed itself: only stops are written", "Arm"),
        (WriteState.ARMED, "ARMED: keys move the machine", "Disarm"),
    ],
)
def test_it_tells_in_words(badge: ArmingBadge, state: WriteState, words: str, button: str | None) -> None:
    assert state_of(STATES[state]) is state
    badge.show_writing(STATES[state])
    assert badge.words == words
    assert badge.accessibleName() == words
    assert badge.button.isVisible() == (button is not None)
    if button is not None:
        assert badge.button.text() == button


def test_armed_it_names_the_lines_to_whoever_asks(badge: ArmingBadge) -> None:
    badge.show_writing(STATES[WriteState.ARMED])
    assert badge.toolTip() == "Keys write to pump room, roof"
    assert badge.accessibleDescription() == "Keys write to pump room, roof"


def test_as_long_as_one_line_is_armed_it_is_armed(badge: ArmingBadge, qtbot: QtBot) -> None:
    badge.show_writing(WritePermission(live=True, armed=("roof",), disarmed="line 'pump room' was lost"))
    assert badge.state is WriteState.ARMED
    assert "line 'pump room' was lost" in badge.toolTip()


def test_it_disarms_at_one_click(badge: ArmingBadge, qtbot: QtBot) -> None:
    badge.show_writing(STATES[WriteState.ARMED])
    disarm = badge.button.defaultAction()
    with qtbot.waitSignal(disarm.triggered):
        QTest.mouseClick(badge.button, Qt.MouseButton.LeftButton)


def test_one_size_in_all_states(badge: ArmingBadge) -> None:
    sizes = set()
    for writing in STATES.values():
        badge.show_writing(writing)
        sizes.add(badge.size().toTuple())
    assert len(sizes) == 1


@pytest.mark.parametrize("percent", [100, 150, 200])
@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
def test_nothing_of_it_is_cut_and_it_is_no_wider_than_planned(language: Language, percent: int) -> None:
    with staged(Setting(language=language, percent=percent)) as window:
        badge = window.header.badge
        assert badge.needed_width() <= badge.width()
        assert badge.width() == scaled(WIDTH), f"its words need {badge.needed_width()}"


@pytest.mark.parametrize("appearance", [Appearance.LIGHT, Appearance.DARK])
def test_only_armed_has_its_colour_and_each_state_its_shape(
    badge: ArmingBadge, qapp: QApplication, appearance: Appearance
) -> None:
    theme = Theme(qapp)
    theme.choose(appearance)
    try:
        amber: QColor = palette.current().colour("armed")
        shapes: list[bytes] = []
        for state, writing in STATES.items():
            badge.show_writing(writing)
            image = picture(badge)
            share = sum(
                image.pixelColor(x, y) == amber for x in range(0, image.width(), 2) for y in range(0, image.height(), 2)
            ) / (image.width() * image.height() / 4)
            assert (share > 0.5) == (state is WriteState.ARMED)
            assert share == 0 or state is WriteState.ARMED
            grey = image.copy(0, 0, scaled(44), image.height()).convertToFormat(QImage.Format.Format_Grayscale8)
            shapes.append(bytes(grey.constBits()))
        assert all(one != other for one, other in pairwise(shapes))
        assert len(set(shapes)) == len(shapes)
    finally:
        theme.choose(Appearance.LIGHT)


def test_what_is_written_on_it_stands_out() -> None:
    """WCAG 2.2, 1.4.3: 4.5 to 1 for text; 7 to 1 (1.4.6) where a machine can move."""
    for colours in (LIGHT, DARK):
        assert contrast(colours.on_armed, colours.armed) >= 7
        for ink, ground in (("ink", "frame"), ("sim", "sim_soft"), ("caution", "caution_soft")):
            assert contrast(getattr(colours, ink), getattr(colours, ground)) >= 4.5
            assert contrast(colours.faint, getattr(colours, ground)) >= 4.5


def test_the_stripe_is_striped_only_while_keys_move_the_machine(qtbot: QtBot) -> None:
    stripe = ArmingStripe()
    qtbot.addWidget(stripe)
    stripe.resize(600, stripe.height())
    stripe.show()
    colours = palette.current()
    for state, writing in STATES.items():
        stripe.show_writing(writing)
        assert stripe.armed == (state is WriteState.ARMED)
        image = stripe.grab().toImage()
        seen = {image.pixelColor(x, image.height() // 2).name() for x in range(image.width())}
        assert (colours.armed in seen) == stripe.armed
        assert (colours.on_armed in seen) == stripe.armed
