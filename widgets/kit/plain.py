"""Texts of users and devices shown as they are written, never as the rich text that Qt takes them for."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import Qt as GuiQt
from PySide6.QtWidgets import QLabel


def plain_tip(text: str) -> str:
    """`text` for a tool tip, which cannot be told that it is plain: what looks like tags is written out.

    A name such as `<img src=...>` would load a picture, on Windows also from another computer's share.
    """
    normal = GuiQt.WhiteSpaceMode.WhiteSpaceNormal
    return GuiQt.convertFromPlainText(text, normal) if GuiQt.mightBeRichText(text) else text


def plain_label(text: str = "", look: str = "", *, wrap: bool = False) -> QLabel:
    """A label that shows `text` as it is, in one of the looks of `widgets/kit/look.py`; `wrap`: on several lines."""
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(wrap)
    if look:
        label.setProperty("look", look)
    return label
