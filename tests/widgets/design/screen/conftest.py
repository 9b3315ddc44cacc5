"""A screen editor on a small project."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.project.model import Field, Project, Screen
from app.project_file.files import load
from projects import demo_path
from widgets.design.screen.editor import ScreenEditor
from widgets.document.document import Document
from widgets.kit.notice import Notice


@pytest.fixture
def project() -> Project:
    """The booster pump, with a screen of one number and one text in front of its others."""
    whole = load(demo_path("booster-pump"))
    bench = Screen(
        name="bench",
        text=("Speed       Hz", "", "", ""),
        fields=(
            Field(at=(0, 6), width=5, signal="frequency"),
            Field(at=(2, 10), width=8, signal="running", kind="choice"),
        ),
    )
    return whole.replace(screens=(bench, *whole.screens), panel=whole.panel.replace(start="bench"))


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    made.resize(900, 500)
    return made


@pytest.fixture
def editor(document: Document, window: QWidget, qtbot: QtBot) -> ScreenEditor:
    notice = Notice(window)
    made = ScreenEditor(document, notice, window)
    document.refused.connect(notice.say)
    made.resize(900, 460)
    with qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    made.face.setFocus()
    qtbot.waitUntil(made.face.hasFocus)
    return made
