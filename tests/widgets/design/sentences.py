"""Sentences of "Keys and screen changes" read and changed as somebody in front of them does it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit

from widgets.design.behaviour.word_editors import SoughtWord, WordEditor
from widgets.design.workspace import DesignWorkspace


def rows(design: DesignWorkspace) -> list[str]:
    """All sentences that are shown, from the top."""
    model = design.behaviour.model
    return [str(model.data(model.index_of(row.place))) for group in model.groups for row in group.rows]


def chosen_row(design: DesignWorkspace) -> str:
    """The sentence that is chosen."""
    return str(design.behaviour.model.data(design.behaviour.table.currentIndex()))


def note(design: DesignWorkspace) -> str:
    """What is said of the chosen sentence."""
    return design.behaviour.editor.accessibleDescription()


def word(design: DesignWorkspace, slot: str) -> WordEditor:
    """The editor of a word of the chosen sentence."""
    return design.behaviour.editor.words[slot]


def chosen(design: DesignWorkspace, slot: str) -> str:
    """What a word of the chosen sentence says."""
    box = word(design, slot).box
    assert isinstance(box, QComboBox | QLineEdit)
    text = box.currentText() if isinstance(box, QComboBox) else box.text()
    line = box.lineEdit() if isinstance(box, QComboBox) else box
    return text or (line.placeholderText() if line is not None else "")


def choose(design: DesignWorkspace, slot: str, text: str) -> None:
    """Choose a word as the list of it does."""
    if slot == "cause":
        next(each for each in design.behaviour.editor.cause.menu().actions() if each.text() == text).trigger()
        return
    box = word(design, slot).box
    assert isinstance(box, QComboBox)
    at = box.findText(text.upper() if slot == "key" else text)
    assert at >= 0, [box.itemText(each) for each in range(box.count())]
    box.setCurrentIndex(at)
    box.activated.emit(at)


def type_word(design: DesignWorkspace, slot: str, text: str, end: Qt.Key = Qt.Key.Key_Return) -> None:
    """Type a word over, and end."""
    editor = word(design, slot)
    line = editor.line if isinstance(editor, SoughtWord) else editor.box
    assert isinstance(line, QLineEdit)
    editor.box.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(editor.box, end)
