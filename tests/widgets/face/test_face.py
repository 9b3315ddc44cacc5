"""The panel face, operated: keys by keyboard, mouse and space bar, and their release."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QRect, Qt
from PySide6.QtGui import QAccessible, QColor, QFocusEvent, QKeyEvent, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.panel.rendering import Attribute, Row
from app.project.model import Panel
from tests.widgets.driving import shown
from widgets.face.cells import LARGEST, SMALLEST
from widgets.face.colours import DARK, LIGHT
from widgets.face.face import LEGIBLE, PanelFace

PANEL = Panel(start="run", keys=("left", "right", "up", "down", "enter", "escape", "start", "stop"))
ROWS = tuple(Row(text.ljust(20), (Attribute.NONE,) * 20) for text in ("BOOSTER PUMP", "Set point   41.7 Hz", "", "run"))


class Heard:
    def __init__(self, face: PanelFace) -> None:
        self.events: list[str] = []
        face.key_pressed.connect(lambda key: self.events.append(f"+{key}"))
        face.key_released.connect(lambda key: self.events.append(f"-{key}"))


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    made = QWidget()
    layout = QVBoxLayout(made)
    face = PanelFace()
    face.set_panel(PANEL)
    face.set_rows(ROWS)
    layout.addWidget(face)
    layout.addWidget(QLineEdit())
    shown(made, qtbot, 700, 460)
    face.setFocus()
    qtbot.waitUntil(face.hasFocus)
    return made


@pytest.fixture
def face(window: QWidget) -> PanelFace:
    found = window.findChild(PanelFace)
    assert isinstance(found, PanelFace)
    return found


@pytest.fixture
def heard(face: PanelFace) -> Heard:
    return Heard(face)


def test_a_keyboard_key_is_pressed_and_released(face: PanelFace, heard: Heard) -> None:
    QTest.keyPress(face, Qt.Key.Key_Up)
    assert face.keypad.buttons["up"].isDown(), "the key on the screen goes down with it"
    assert face.held_keys == ("up",)
    QTest.keyRelease(face, Qt.Key.Key_Up)
    assert heard.events == ["+up", "-up"]
    assert not face.keypad.buttons["up"].isDown()


def test_the_repeat_of_a_held_key_is_no_new_press(face: PanelFace, heard: Heard) -> None:
    QTest.keyPress(face, Qt.Key.Key_Up)
    for kind in (QEvent.Type.KeyRelease, QEvent.Type.KeyPress):
        again = QKeyEvent(kind, Qt.Key.Key_Up, Qt.KeyboardModifier.NoModifier, "", True)
        QApplication.sendEvent(face, again)
    QTest.keyRelease(face, Qt.Key.Key_Up)
    assert heard.events == ["+up", "-up"]


def test_a_key_is_let_go_whatever_shift_has_made_of_it_meanwhile(
    face: PanelFace, heard: Heard, window: QWidget
) -> None:
    face.set_panel(Panel(start="run", rows=2, columns=16, keys=("plus", "minus")))
    scan, shift, none = 21, Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.NoModifier
    down = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Plus, shift, scan, Qt.Key.Key_Plus.value, 1, "+")
    up = QKeyEvent(QEvent.Type.KeyRelease, Qt.Key.Key_Equal, none, scan, Qt.Key.Key_Equal.value, 0, "=")
    QApplication.sendEvent(face, down)
    assert heard.events == ["+plus"]
    QApplication.sendEvent(face, up)
    assert heard.events == ["+plus", "-plus"]
    assert not face.held_keys


def test_two_keys_may_be_held_at_once(face: PanelFace, heard: Heard) -> None:
    QTest.keyPress(face, Qt.Key.Key_Up)
    QTest.keyPress(face, Qt.Key.Key_F1)
    QTest.keyRelease(face, Qt.Key.Key_Up)
    QTest.keyRelease(face, Qt.Key.Key_F1)
    assert heard.events == ["+up", "+start", "-up", "-start"]


def test_the_mouse_presses_a_key_without_taking_the_focus(face: PanelFace, heard: Heard) -> None:
    stop = face.keypad.buttons["stop"]
    QTest.mousePress(stop, Qt.MouseButton.LeftButton)
    assert heard.events == ["+stop"]
    QTest.mouseRelease(stop, Qt.MouseButton.LeftButton)
    assert heard.events == ["+stop", "-stop"]
    assert face.hasFocus()


def test_the_space_bar_presses_the_key_that_has_the_focus(face: PanelFace, heard: Heard, qtbot: QtBot) -> None:
    enter = face.keypad.buttons["enter"]
    while not enter.hasFocus():
        before = QApplication.focusWidget()
        assert before is not None
        QTest.keyClick(before, Qt.Key.Key_Tab)
        assert QApplication.focusWidget() is not face, "Tab never reaches the key"
    QTest.keyPress(enter, Qt.Key.Key_Space)
    QTest.keyRelease(enter, Qt.Key.Key_Space)
    assert heard.events == ["+enter", "-enter"]
    QTest.keyClick(enter, Qt.Key.Key_Left)
    assert heard.events[2:] == ["+left", "-left"], "arrows still operate the panel"


def test_losing_the_focus_releases_what_is_held(face: PanelFace, heard: Heard, window: QWidget, qtbot: QtBot) -> None:
    QTest.keyPress(face, Qt.Key.Key_F2)
    other = window.findChild(QLineEdit)
    assert isinstance(other, QLineEdit)
    other.setFocus()
    qtbot.waitUntil(other.hasFocus)
    assert heard.events == ["+stop", "-stop"]
    assert face.held_keys == ()


def test_hiding_the_window_releases_what_is_held(face: PanelFace, heard: Heard, window: QWidget) -> None:
    QTest.mousePress(face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
    window.hide()
    assert heard.events == ["+start", "-start"]


def test_another_panel_releases_what_is_held(face: PanelFace, heard: Heard) -> None:
    QTest.keyPress(face, Qt.Key.Key_Up)
    face.set_panel(Panel(start="run", rows=2, columns=16, keys=("enter",)))
    assert heard.events == ["+up", "-up"]
    assert list(face.keypad.buttons) == ["enter"]


def test_keys_that_the_panel_lacks_stay_with_the_window(face: PanelFace, heard: Heard) -> None:
    QTest.keyClick(face, Qt.Key.Key_Q)
    QTest.keyClick(face, Qt.Key.Key_Up, Qt.KeyboardModifier.ControlModifier)
    assert heard.events == []


def test_panel_keys_come_before_shortcuts_of_the_window(face: PanelFace) -> None:
    for key, claimed in ((Qt.Key.Key_F1, True), (Qt.Key.Key_Escape, True), (Qt.Key.Key_F9, False)):
        event = QKeyEvent(QEvent.Type.ShortcutOverride, key, Qt.KeyboardModifier.NoModifier)
        event.ignore()
        QApplication.sendEvent(face, event)
        assert event.isAccepted() is claimed


def test_edited_it_reports_no_panel_keys(face: PanelFace, heard: Heard) -> None:
    typed: list[str] = []
    face.set_editing(True)
    face.edit_key.connect(lambda event: typed.append(event.text()))
    QTest.keyClicks(face, "ab")
    QTest.keyClick(face, Qt.Key.Key_Up)
    assert heard.events == []
    assert typed == ["a", "b", ""]


def test_assistive_technology_reads_the_rows(face: PanelFace) -> None:
    interface = QAccessible.queryAccessibleInterface(face)
    assert interface.text(QAccessible.Text.Name) == "Panel of 4 rows of 20 cells"
    assert "Set point 41.7 Hz" in interface.text(QAccessible.Text.Description).split("; ")
    keys = face.keypad.buttons.values()
    names = [QAccessible.queryAccessibleInterface(key).text(QAccessible.Text.Name) for key in keys]
    assert names[0] == "Key left"
    assert all(names)


def test_a_small_face_is_legible_while_it_is_edited(face: PanelFace, window: QWidget, qtbot: QtBot) -> None:
    face.set_editing(True)
    assert face.minimumSizeHint().width() > face.grid.size_at(LEGIBLE).width()
    layout = window.layout()
    assert layout is not None
    layout.setEnabled(False)
    face.resize(150, 90)
    assert face.grid.pixels == LEGIBLE
    face.set_editing(False)
    assert face.grid.pixels == SMALLEST


def test_the_mark_is_left_out_where_keys_cover_its_place(face: PanelFace, window: QWidget) -> None:
    def mark_seen() -> bool:
        image = face.grab().toImage()
        body = face.bezel_rect()
        corner = QRect(body.left() + 14, body.bottom() - 22, 20, 12)
        lightness = [
            image.pixelColor(x, y).lightness()
            for x in range(corner.left(), corner.right())
            for y in range(corner.top(), corner.bottom())
            if not face.keypad.geometry().contains(x, y)
        ]
        return bool(lightness) and max(lightness) - min(lightness) > 30

    layout = window.layout()
    assert layout is not None
    layout.setEnabled(False)
    face.resize(700, 460)
    assert mark_seen()
    face.resize(face.minimumSizeHint())
    assert not mark_seen()


def test_it_uses_the_largest_cells_that_fit(face: PanelFace, window: QWidget, qtbot: QtBot) -> None:
    large = face.grid.pixels
    window.resize(420, 300)
    qtbot.waitUntil(lambda: face.grid.pixels < large)
    assert face.bezel_rect().width() <= face.width()
    assert face.bezel_rect().height() <= face.height()
    face.set_zoom(1000)
    assert face.grid.pixels == LARGEST
    assert face.minimumSizeHint().width() > 420, "a scroll area around it knows its size"
    face.set_zoom(1)
    assert face.grid.pixels == SMALLEST
    face.set_zoom(0)
    assert SMALLEST < face.grid.pixels < large


def test_keys_grow_with_the_font_of_the_window(face: PanelFace, window: QWidget) -> None:
    before = face.keypad.size_when(roomy=False)
    larger = window.font()
    larger.setPixelSize(2 * window.fontInfo().pixelSize())
    window.setFont(larger)
    assert face.keypad.size_when(roomy=False).width() > before.width()


def test_it_follows_the_palette_of_the_window(face: PanelFace, window: QWidget) -> None:
    def glass() -> QColor:
        return face.grid.grab().toImage().pixelColor(1, 1)

    light = QPalette()
    light.setColor(QPalette.ColorRole.Window, QColor("#ffffff"))
    light.setColor(QPalette.ColorRole.WindowText, QColor("#000000"))
    window.setPalette(light)
    assert glass() == LIGHT.glass
    dark = QPalette()
    dark.setColor(QPalette.ColorRole.Window, QColor("#202020"))
    dark.setColor(QPalette.ColorRole.WindowText, QColor("#f0f0f0"))
    window.setPalette(dark)
    assert glass() == DARK.glass


def test_the_focus_can_be_seen(face: PanelFace, window: QWidget, qtbot: QtBot) -> None:
    with_focus = face.grab().toImage()
    other = window.findChild(QLineEdit)
    assert isinstance(other, QLineEdit)
    other.setFocus()
    qtbot.waitUntil(other.hasFocus)
    assert face.grab().toImage() != with_focus
    stop = face.keypad.buttons["stop"]
    plain = stop.grab().toImage()
    stop.setFocus()
    qtbot.waitUntil(stop.hasFocus)
    assert stop.grab().toImage() != plain


@pytest.mark.parametrize(("rows", "columns"), [(1, 1), (2, 16), (16, 40), (64, 132)])
def test_every_size_of_panel_is_drawn_whole(qtbot: QtBot, rows: int, columns: int) -> None:
    face = PanelFace()
    qtbot.addWidget(face)
    face.set_panel(Panel(start="run", rows=rows, columns=columns, keys=tuple(f"key {n}" for n in range(40))))
    face.set_rows(tuple(Row("x" * columns, (Attribute.NONE,) * columns) for _ in range(rows)))
    face.resize(face.sizeHint())
    face.show()
    assert face.rect().contains(face.bezel_rect())
    assert face.bezel_rect().contains(face.grid.geometry())
    assert face.bezel_rect().contains(face.keypad.geometry())
    assert not face.grab().isNull()


def test_a_popup_that_takes_the_focus_event_away_is_survived(face: PanelFace) -> None:
    QApplication.sendEvent(face, QFocusEvent(QEvent.Type.FocusOut, Qt.FocusReason.PopupFocusReason))
    QApplication.sendEvent(face, QFocusEvent(QEvent.Type.FocusIn, Qt.FocusReason.PopupFocusReason))
    assert not face.grab().isNull()
