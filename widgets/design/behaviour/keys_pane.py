"""What does each key do here? A small face with the chosen key ringed, and a line for all that each key does."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QFontInfo, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from app.panel.rendering import Rows
from widgets.design.behaviour.key_lines import KeyLine, key_lines
from widgets.design.behaviour.key_list import KeyList
from widgets.design.behaviour.rule_edits import RuleEdits
from widgets.design.behaviour.sentences import translate
from widgets.document.document import Document
from widgets.face.face import PanelFace
from widgets.face.sample_values import Specimens
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled

FACE: Final = 190
SMALLER: Final = (0.8, 0.7, 0.6, 0.5)
"""Pixels at 100 per cent of the face; the largest keys of the face that fit, as parts
of the size of other texts."""


class KeysPane(QWidget):
    """Answers for the screen that is looked at; a line leads to its sentence, a free key is used from here."""

    rule_wanted = Signal(str, int)
    """The sentence of this rule is wanted."""
    key_wanted = Signal(str)
    """A free key is to be used on this screen."""

    def __init__(self, document: Document, edits: RuleEdits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._edits = edits
        self._specimens = Specimens()
        self.lines: list[KeyLine] = []
        """What stands in the list."""
        self.face = PanelFace()
        self.face.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.face.setAccessibleName(self.tr("Keys of the panel"))
        self.face.setFixedHeight(scaled(FACE))
        self.face.key_pressed.connect(self._key_pressed)
        self.list = KeyList()
        self.list.setAccessibleName(self.tr("What each key does here"))
        self.list.rule_wanted.connect(self.rule_wanted)
        self.list.key_wanted.connect(self.key_wanted)
        self.list.told.connect(document.refused)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.face)
        layout.addWidget(self.list, 1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)

    def show_screen(self, screen: str, key: str) -> None:
        """Show what the keys do on a screen; this key is the chosen one."""
        project = self._document.spoken
        uses = key_lines(self._edits, screen)
        if uses != self.lines:
            self.lines = uses
            self.list.show_uses(uses)
        if project.panel is not self.face.panel:
            self.face.set_panel(project.panel)
            self._fit_face()
        shown = project.screen_named.get(screen)
        rows: Rows = () if shown is None else self._specimens.rows(project, shown)
        self.face.set_rows(rows)
        self.face.keypad.mark_key(key)
        for name, button in self.face.keypad.buttons.items():
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            words = ", ".join(use.words for use in uses if use.key == name and use.words)
            button.setToolTip(plain_tip(words or translate("Keys", "free")))

    def _fit_face(self) -> None:
        """Draw the keys as large as all of them fit; very many are left to the list."""
        self.face.set_keys_shown(True)
        for factor in SMALLER:
            small = QFont(self.font())
            small.setPointSizeF(QFontInfo(small).pointSizeF() * factor)
            if self.face.font() != small:
                self.face.setFont(small)
            if self.face.minimumSizeHint().width() <= self.width():
                return
        self.face.set_keys_shown(False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width() and self.face.panel is not None:
            self._fit_face()

    def _key_pressed(self, key: str) -> None:
        self.face.release_all()
        self.follow_key(key)

    def follow_key(self, key: str) -> None:
        """Go to the first that a key does here, or begin what it is to do."""
        self.list.follow(next((use for use in self.lines if use.key == key), None))
