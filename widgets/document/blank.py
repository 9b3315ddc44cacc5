"""The blank project. Apart from other templates, since every window begins with it."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.project.model import Panel, Project, Screen, ScreenChange

translate = QCoreApplication.translate


def blank(rows: int, columns: int, *, paged: bool = False) -> Project:
    """A project with one empty screen; `paged` adds a second one, and the keys left and right change between them."""
    first = translate("Template", "main")
    screens = [Screen(name=first)]
    screen_changes: tuple[ScreenChange, ...] = ()
    if paged:
        screens.append(Screen(name=translate("Template", "second")))
        screen_changes = (ScreenChange(key="right", to="next"), ScreenChange(key="left", to="previous"))
    panel = Panel(rows=rows, columns=columns, start=first)
    return Project(panel=panel, screens=tuple(screens), screen_changes=screen_changes)
