"""The blank project, which every window begins with."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.project.model import Panel, Project, Screen

translate = QCoreApplication.translate


def blank(rows: int, columns: int) -> Project:
    """A project with one empty screen."""
    first = translate("Template", "main")
    return Project(panel=Panel(rows=rows, columns=columns, start=first), screens=(Screen(name=first),))
