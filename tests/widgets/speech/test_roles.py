"""Widgets that draw themselves say what they are, and what says so lives exactly as long as they do."""

from __future__ import annotations

import gc

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QLabel, QWidget

from widgets.design.page_map.items import PageMap
from widgets.face.face import PanelFace
from widgets.speech import roles
from widgets.start_up.trend_plot import TrendPlot


@pytest.mark.parametrize(
    ("kind", "role"),
    [
        (PanelFace, QAccessible.Role.Canvas),
        (PageMap, QAccessible.Role.Canvas),
        (TrendPlot, QAccessible.Role.Chart),
    ],
)
def test_what_draws_itself_has_a_role_a_name_and_parts(
    qapp: object, kind: type[QWidget], role: QAccessible.Role
) -> None:
    widget = kind()
    child = QLabel("part", widget)
    interface = QAccessible.queryAccessibleInterface(widget)
    assert interface is not None
    assert interface.role() == role
    assert interface.text(QAccessible.Text.Name)
    assert child in [interface.child(number).object() for number in range(interface.childCount())]
    widget.deleteLater()


def test_hundreds_come_and_go(qapp: object) -> None:
    for number in range(300):
        widget = PanelFace()
        interface = QAccessible.queryAccessibleInterface(widget)
        assert interface is not None
        assert interface.isValid()
        widget.deleteLater()
        if number % 7 == 0:
            del interface
            QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
            gc.collect()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert QAccessible.queryAccessibleInterface(PanelFace()) is not None
    assert len(roles._made) < 10
