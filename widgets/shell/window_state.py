"""How a window was left: remembered when it closes, taken up again when the next one opens."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QSplitter, QWidget

from widgets.document.settings import LeftOff, Settings

if TYPE_CHECKING:
    from widgets.shell.window import MainWindow

_DOCKS: Final = "docks"


def remember(window: MainWindow) -> None:
    """Keep where this window stands, what it shows and how it is divided."""
    settings = window.settings
    settings.geometry = window.saveGeometry()
    settings.keep_arrangement(_DOCKS, window.saveState())
    for splitter in _named_splitters(window):
        settings.keep_arrangement(splitter.objectName(), splitter.saveState())
    former = settings.left_off
    settings.left_off = LeftOff(
        path=window.document.path,
        workspace=window.workspace_number,
        view=window.design.view if window.has_design else former.view,
        screen=window.document.selection.screen,
    )


def arrange(window: MainWindow) -> None:
    """Put the window where the last one stood, divided as that was."""
    settings = window.settings
    if not settings.geometry.isEmpty():
        window.restoreGeometry(settings.geometry)
    state = settings.arrangement(_DOCKS)
    if not state.isEmpty() and window.restoreState(state):
        for action, on in (
            (window.menus.line_view, not window.line_dock.isHidden()),
            (window.menus.line_window, window.line_dock.isFloating()),
        ):
            with QSignalBlocker(action):  # it is so already, and opening it anew would take the focus
                action.setChecked(on)
        if not window.line_dock.isHidden():
            _ = window.line_view
    arrange_parts(window, settings)


def arrange_parts(widget: QWidget, settings: Settings) -> None:
    """Divide what is in `widget` as it was divided last."""
    for splitter in _named_splitters(widget):
        state = settings.arrangement(splitter.objectName())
        if not state.isEmpty():
            splitter.restoreState(state)


def take_up(window: MainWindow) -> None:
    """Begin where the last window was left: its project, its workspace, its view and its screen."""
    left = window.settings.left_off
    if not window.settings.resumes or left.path is None or not window.files.open_last(left.path):
        return
    window.document.select_screen(left.screen)
    window.show_workspace(left.workspace)
    if left.workspace == 0 and left.view:
        from widgets.design.views import VIEWS  # with its workspace, which is made only when it is wanted

        if left.view in VIEWS:
            window.design.show_view(left.view)


def _named_splitters(widget: QWidget) -> list[QSplitter]:
    return [splitter for splitter in widget.findChildren(QSplitter) if splitter.objectName()]
