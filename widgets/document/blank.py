"""The blank project. Apart from other templates, since every window begins with it."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.project.model import Panel, Project, Screen, Turn

translate = QCoreApplication.translate


def blank(rows: int, columns: int, *, paged: bool = False) -> Project:
    """A project with one empty screen; `paged` adds a second one, and the keys left and right change between them."""
    first = translate("Template", "main")
    screens = [Screen(name=first)]
    turns: tuple[Turn, ...] = ()
    if paged:
        screens.append(Screen(name=translate("Template", "second")))
        turns = (Turn(key="right", to="next"), Turn(key="left", to="previous"))
    panel = Panel(rows=rows, columns=columns, start=first)
    return Project(panel=panel, screens=tuple(screens), screen_changes=turns)
