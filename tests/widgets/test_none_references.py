"""Guard: the Qt binding must not give away references to None.

A build of PySide6 that does so dies after some ten thousand calls with "none_dealloc"; 6.12.0 on CPython 3.11 is one.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager

import pytest
from PySide6.QtCore import QObject, QPoint, QRect, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QPixmap, QPolygon, QStandardItem, QStandardItemModel
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGraphicsRectItem,
    QGraphicsScene,
    QLabel,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QTableView,
    QTreeWidget,
    QTreeWidgetItem,
    QWidget,
)
from pytestqt.qtbot import QtBot

CALLS = 300
SLACK = 60
"""References that other threads and caches may take or give meanwhile; a leak gives away one at each call."""


class Emitter(QObject):
    happened = Signal(int)


Calls = dict[str, Callable[[], object]]


@contextmanager
def painting() -> Iterator[Calls]:
    pixmap = QPixmap(64, 64)
    painter = QPainter(pixmap)
    pen, font, colour = QPen(QColor("#336699"), 2), QFont(), QColor("#ffffff")
    polygon = QPolygon([QPoint(0, 0), QPoint(4, 0), QPoint(0, 4)])

    def save_and_restore() -> None:
        painter.save()
        painter.restore()

    yield {
        "QPainter.setPen": lambda: painter.setPen(pen),
        "QPainter.setBrush": lambda: painter.setBrush(colour),
        "QPainter.setFont": lambda: painter.setFont(font),
        "QPainter.setRenderHint": lambda: painter.setRenderHint(QPainter.RenderHint.Antialiasing),
        "QPainter.fillRect": lambda: painter.fillRect(0, 0, 8, 8, colour),
        "QPainter.drawText": lambda: painter.drawText(0, 10, "41.7"),
        "QPainter.drawRect": lambda: painter.drawRect(0, 0, 4, 4),
        "QPainter.drawRoundedRect": lambda: painter.drawRoundedRect(QRectF(0, 0, 9, 9), 2, 2),
        "QPainter.drawLine": lambda: painter.drawLine(0, 0, 4, 4),
        "QPainter.drawPolygon": lambda: painter.drawPolygon(polygon),
        "QPainter.drawPolyline": lambda: painter.drawPolyline(polygon),
        "QPainter.drawPixmap": lambda: painter.drawPixmap(0, 0, QPixmap(4, 4)),
        "QPainter.drawPie": lambda: painter.drawPie(QRectF(0, 0, 9, 9), 0, 90 * 16),
        "QPainter.save and restore": save_and_restore,
        "QPainter.setClipRect": lambda: painter.setClipRect(0, 0, 64, 64),
        "QPainter.translate": lambda: painter.translate(0, 0),
        "QPixmap.fill": lambda: QPixmap(4, 4).fill(colour),
        "QPen.setWidthF": lambda: pen.setWidthF(1.5),
        "QFont.setPixelSize": lambda: font.setPixelSize(12),
    }
    painter.end()


@contextmanager
def widgets() -> Iterator[Calls]:
    widget, label, line, combo, box = QWidget(), QLabel(), QLineEdit(), QComboBox(), QCheckBox()
    plain, rows, tree, table, timer = QPlainTextEdit(), QListWidget(), QTreeWidget(), QTableView(), QTimer()
    model = QStandardItemModel(1, 1)
    item, leaf, emitter = QStandardItem("x"), QTreeWidgetItem(["x"]), Emitter()
    scene, box_item = QGraphicsScene(), QGraphicsRectItem(0, 0, 4, 4)
    scene.addItem(box_item)
    model.setItem(0, 0, item)
    table.setModel(model)
    tree.addTopLevelItem(leaf)
    rows.addItem("x")
    combo.addItem("x", 1)
    received: list[int] = []
    emitter.happened.connect(lambda number: received.append(number))
    yield {
        "QWidget.update": widget.update,
        "QWidget.update(rect)": lambda: widget.update(QRect(0, 0, 4, 4)),
        "QWidget.updateGeometry": widget.updateGeometry,
        "QWidget.resize": lambda: widget.resize(20, 20),
        "QWidget.setGeometry": lambda: widget.setGeometry(0, 0, 20, 20),
        "QWidget.setVisible": lambda: widget.setVisible(False),
        "QWidget.setEnabled": lambda: widget.setEnabled(True),
        "QWidget.setToolTip": lambda: widget.setToolTip("x"),
        "QWidget.setAccessibleName": lambda: widget.setAccessibleName("x"),
        "QWidget.setAccessibleDescription": lambda: widget.setAccessibleDescription("x"),
        "QWidget.setStyleSheet": lambda: widget.setStyleSheet(""),
        "QWidget.setCursor": lambda: widget.setCursor(Qt.CursorShape.ArrowCursor),
        "QLabel.setText": lambda: label.setText("41.7 Hz"),
        "QLineEdit.setText": lambda: line.setText("41.7"),
        "QLineEdit.setCursorPosition": lambda: line.setCursorPosition(0),
        "QPlainTextEdit.setPlainText": lambda: plain.setPlainText("x"),
        "QComboBox.setCurrentIndex": lambda: combo.setCurrentIndex(0),
        "QComboBox.setItemText": lambda: combo.setItemText(0, "x"),
        "QCheckBox.setChecked": lambda: box.setChecked(True),
        "QListWidget.setCurrentRow": lambda: rows.setCurrentRow(0),
        "QTreeWidgetItem.setText": lambda: leaf.setText(0, "x"),
        "QTableView.setColumnWidth": lambda: table.setColumnWidth(0, 40),
        "QStandardItem.setText": lambda: item.setText("x"),
        "QTimer.start": lambda: timer.start(10_000),
        "QTimer.stop": timer.stop,
        "Signal.emit": lambda: emitter.happened.emit(1),
        "QGraphicsItem.setPos": lambda: box_item.setPos(1, 1),
        "QGraphicsItem.setSelected": lambda: box_item.setSelected(False),
        "QGraphicsScene.setSceneRect": lambda: scene.setSceneRect(0, 0, 9, 9),
    }


@pytest.mark.parametrize("calls", [painting, widgets], ids=["painting", "widgets"])
def test_no_call_gives_away_a_reference_to_none(
    qtbot: QtBot, calls: Callable[[], AbstractContextManager[Calls]]
) -> None:
    if sys.version_info >= (3, 12):
        pytest.skip("None is immortal from CPython 3.12 on and has no reference count")
    lost = {}
    with calls() as every:
        for name, call in every.items():
            call()
            before = sys.getrefcount(None)
            for _ in range(CALLS):
                call()
            lost[name] = before - sys.getrefcount(None)
    assert {name: count for name, count in lost.items() if abs(count) > SLACK} == {}
