"""Texts that are cut where there is no room: another text must not lay out the window anew."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from widgets.kit.elided import ShortLabel, ShortLines


class Requests(QObject):
    """Counts how often a widget is asked to lay out what lies in it."""

    def __init__(self) -> None:
        super().__init__()
        self.count = 0

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        self.count += event.type() == QEvent.Type.LayoutRequest
        return False


def test_only_a_text_of_another_height_asks_for_another_room(qtbot: QtBot) -> None:
    around, label, lines, requests = QWidget(), ShortLabel("one line"), ShortLines(3), Requests()
    layout = QVBoxLayout(around)
    layout.addWidget(label)
    layout.addWidget(lines)
    qtbot.addWidget(around)
    with qtbot.waitExposed(around):
        around.show()
    around.installEventFilter(requests)
    label.setText("another line that is far longer")
    lines.setText("a few words\nand more of them")
    QApplication.processEvents()
    assert requests.count == 0
    assert label.isVisible()
    assert not label.isHidden()
    height = label.height()
    label.setText("two\nlines")
    QApplication.processEvents()
    assert requests.count > 0
    assert label.sizeHint().height() > height
    label.hide()
    label.setText("three\nlines\nnow")
    assert label.isHidden()
