"""How a window stands and is divided: remembered when it closes, taken up again by the next one."""

from __future__ import annotations

from typing import Final

from PySide6.QtWidgets import QMainWindow, QSplitter, QWidget

from widgets.document.settings import Settings

_DOCKS: Final = "docks"


def remember(window: QMainWindow, settings: Settings) -> None:
    """Keep where this window stands and how it is divided."""
    settings.geometry = window.saveGeometry()
    settings.keep_arrangement(_DOCKS, window.saveState())
    for splitter in _named_splitters(window):
        settings.keep_arrangement(splitter.objectName(), splitter.saveState())


def arrange(window: QMainWindow, settings: Settings) -> None:
    """Put the window where the last one stood, divided as that was."""
    if not settings.geometry.isEmpty():
        window.restoreGeometry(settings.geometry)
    state = settings.arrangement(_DOCKS)
    if not state.isEmpty():
        window.restoreState(state)
    arrange_parts(window, settings)


def arrange_parts(widget: QWidget, settings: Settings) -> None:
    """Divide what is in `widget` as it was divided last."""
    for splitter in _named_splitters(widget):
        state = settings.arrangement(splitter.objectName())
        if not state.isEmpty():
            splitter.restoreState(state)


def _named_splitters(widget: QWidget) -> list[QSplitter]:
    return [splitter for splitter in widget.findChildren(QSplitter) if splitter.objectName()]
