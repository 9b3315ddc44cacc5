"""Questions with named answers, of which the safe one is the default."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from widgets.kit.plain import plain_tip

_A = TypeVar("_A")


def question_box(parent: QWidget | None, icon: QMessageBox.Icon, title: str, text: str, more: str = "") -> QMessageBox:
    """A question whose texts are shown as they are, whatever a name in them holds; `more` stands smaller below."""
    box = QMessageBox(icon, title, "", parent=parent)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(text)
    box.setInformativeText(plain_tip(more))
    return box


def answer_to(
    box: QMessageBox,
    ways: Sequence[tuple[str, _A]],
    else_: _A,
    out: QMessageBox.StandardButton = QMessageBox.StandardButton.Cancel,
) -> _A:
    """Which way was taken; `else_` for the safe way out, which is the default."""
    buttons = [(box.addButton(words, QMessageBox.ButtonRole.AcceptRole), way) for words, way in ways]
    box.setDefaultButton(box.addButton(out))
    box.exec()
    clicked = box.clickedButton()
    box.deleteLater()
    return next((way for button, way in buttons if button is clicked), else_)


def confirm(box: QMessageBox, yes: QMessageBox.StandardButton, no: QMessageBox.StandardButton) -> bool:
    """Show a box with two buttons, of which `no` is the safe one that Enter takes. Gives whether `yes` was pressed."""
    box.setStandardButtons(yes | no)
    box.setDefaultButton(no)
    pressed = box.exec()
    box.deleteLater()
    return pressed == yes


def say(parent: QWidget | None, icon: QMessageBox.Icon, title: str, text: str) -> None:
    """Say `text` and wait until it was read."""
    box = question_box(parent, icon, title, text)
    box.exec()
    box.deleteLater()
