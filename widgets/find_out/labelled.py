"""An editor with its label at the left, as one piece, so that a bar never parts them."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled


def labelled(text: str, editor: QWidget, width: int = 0) -> QWidget:
    """Both side by side; `width` in pixels at 100 per cent of the editor, 0: as it wants."""
    both = QWidget()
    both.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
    row = QHBoxLayout(both)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(scaled(8))
    label = plain_label(text)
    label.setBuddy(editor)
    if width:
        editor.setFixedWidth(scaled(width))
    row.addWidget(label)
    row.addWidget(editor)
    return both
