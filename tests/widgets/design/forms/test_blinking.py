"""The question when cells blink."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import QRect
from PySide6.QtWidgets import QComboBox
from pytestqt.qtbot import QtBot

from app.project.model import Blinking, Condition
from tests.widgets.driving import shown
from widgets.design.forms.blinking import BlinkDialog
from widgets.document.document import Document, Selection


def blinking(document: Document) -> tuple[Blinking, ...]:
    screen = document.screen
    assert screen is not None
    return screen.blinking


def asked(document: Document, qtbot: QtBot, selection: Selection) -> BlinkDialog:
    document.select(selection)
    return shown(BlinkDialog(document), qtbot, 420, 240)


def choose(box: object, value: str) -> None:
    assert isinstance(box, QComboBox)
    box.setCurrentIndex(box.findData(value))
    box.activated.emit(box.currentIndex())


def take_over(dialog: BlinkDialog) -> None:
    dialog.deed.click()


def test_selected_text_blinks_while_a_signal_is_set_and_then_no_more(document: Document, qtbot: QtBot) -> None:
    dialog = asked(document, qtbot, Selection("fault", (0, 0), (), QRect(0, 0, 20, 2)))
    choose(dialog.when.editors()[0], "fault")
    take_over(dialog)
    when = Condition(signal="fault")
    assert blinking(document) == (Blinking(at=(0, 0), width=20, when=when), Blinking(at=(1, 0), width=20, when=when))
    assert document.undo_name == "Let cells blink"
    dialog = asked(document, qtbot, Selection("fault", (1, 5)))  # without a block: the run under the cursor
    assert dialog.when.texts() == ("fault", "set", "")
    choose(dialog.when.editors()[0], "")
    take_over(dialog)
    assert blinking(document) == (Blinking(at=(0, 0), width=20, when=when),)
    assert document.undo_name == "Stop blinking"


def test_a_whole_screen_blinks_above_a_value(document: Document, qtbot: QtBot) -> None:
    dialog = asked(document, qtbot, Selection("motor", (0, 0)))
    assert dialog.target.texts() == ("screen",)
    choose(dialog.when.editors()[0], "thermal load")
    choose(dialog.when.editors()[1], "above")
    take_over(dialog)
    assert blinking(document) == ()  # a value is needed first
    dialog.when._value.setText("95")
    dialog.when.commit()
    take_over(dialog)
    assert blinking(document) == (Blinking(when=Condition(signal="thermal load", is_="above", value=Decimal(95))),)
