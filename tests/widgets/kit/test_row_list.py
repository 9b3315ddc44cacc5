"""Lists of rows: a cell has the size of what is in it, also after something else is."""

from __future__ import annotations

from PySide6.QtGui import QFont
from PySide6.QtWidgets import QTreeWidget
from pytestqt.qtbot import QtBot

from widgets.kit.icons import icon
from widgets.kit.row_list import list_row, set_up_list


def test_a_column_follows_its_texts_their_font_and_their_icons(qtbot: QtBot) -> None:
    tree = QTreeWidget()
    qtbot.addWidget(tree)
    set_up_list(tree, ("Name", "Keys"))
    row = list_row("speed", "a longer text than the heading")
    tree.addTopLevelItem(row)
    tree.show()

    def width() -> int:
        tree.resizeColumnToContents(1)
        return tree.columnWidth(1)

    plain = width()
    assert width() == plain
    row.setText(1, "a longer text than the heading, and longer still")
    longer = width()
    assert longer > plain
    font = QFont(tree.font())
    font.setBold(True)
    row.setFont(1, font)
    bold = width()
    assert bold > longer
    row.setIcon(1, icon("plus"))
    assert width() > bold
    row.setData(1, 0, "a longer text than the heading")
    row.setIcon(1, type(row.icon(1))())
    row.setFont(1, QFont())
    assert width() == plain
