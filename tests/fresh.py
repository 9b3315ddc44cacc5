"""An empty project for tests to begin with."""

from __future__ import annotations

from app.project.model import Panel, Project, Screen


def fresh_project() -> Project:
    """A panel of 4 rows and 20 columns with one empty screen, and no line yet."""
    panel = Panel(start="first")
    return Project(panel=panel, screens=(Screen(name="first", text=("",) * panel.rows),))
