"""New projects: blank panels of usual sizes and copies of the demo projects, with a look at each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QCoreApplication, QSize
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QVBoxLayout,
    QWidget,
)

from app.panel.machine import begin
from app.panel.rendering import render
from app.project.files import load
from app.project.model import Panel, Project, Screen
from projects import demo_path, demos
from widgets.face import PanelFace
from widgets.size import comfortable, scaled

translate = QCoreApplication.translate

BLANK_SIZES: Final = ((4, 20), (2, 16), (4, 40), (8, 40), (16, 40))
"""Rows and columns, in the order of the list."""


@dataclass(frozen=True, slots=True)
class Template:
    """Something a new project starts as."""

    name: str
    make: Callable[[], Project]


def blank(rows: int, columns: int) -> Project:
    """A project with one empty screen."""
    first = translate("Template", "main")
    return Project(panel=Panel(rows=rows, columns=columns, start=first), screens=(Screen(name=first),))


def templates() -> tuple[Template, ...]:
    """All templates, blank ones first."""
    sizes = tuple(
        Template(
            translate("Template", "Blank, {rows} rows of {columns}").format(rows=rows, columns=columns),
            lambda rows=rows, columns=columns: blank(rows, columns),  # type: ignore[misc]
        )
        for rows, columns in BLANK_SIZES
    )
    copies = tuple(
        Template(
            translate("Template", "Copy of the demo: {name}").format(name=name.replace("-", " ")),
            lambda name=name: load(demo_path(name)),  # type: ignore[misc]
        )
        for name in demos()
    )
    return sizes + copies


class TemplateDialog(QDialog):
    """Choose what a new project starts as."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("New project"))
        self.resize(comfortable(self, 760, 420))
        self._templates = templates()
        self._made: dict[int, Project] = {}
        self.list = QListWidget()
        self.list.setAccessibleName(self.tr("Templates"))
        self.list.addItems([template.name for template in self._templates])
        self._title = QLabel()
        self._title.setProperty("look", "heading")
        self._notes = QLabel()
        self._notes.setWordWrap(True)
        self._face = PanelFace()
        self._face.setMinimumSize(QSize(scaled(400), scaled(200)))
        self._face.setEnabled(False)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        self._ok = buttons.button(QDialogButtonBox.StandardButton.Ok)
        self._ok.setText(self.tr("C&reate"))
        side = QVBoxLayout()
        side.addWidget(self._title)
        side.addWidget(self._notes)
        side.addWidget(self._face, 1)
        middle = QHBoxLayout()
        middle.addWidget(self.list, 2)
        middle.addLayout(side, 3)
        layout = QVBoxLayout(self)
        layout.addWidget(QLabel(self.tr("Start from:")))
        layout.addLayout(middle, 1)
        layout.addWidget(buttons)
        self.list.currentRowChanged.connect(self._look)
        self.list.itemDoubleClicked.connect(lambda _item: self.accept())
        self.list.setCurrentRow(0)
        self.list.setFocus()

    @property
    def project(self) -> Project:
        """What was chosen."""
        return self._project(self.list.currentRow())

    def _project(self, row: int) -> Project:
        if row not in self._made:
            self._made[row] = self._templates[row].make()
        return self._made[row]

    def _look(self, row: int) -> None:
        if row < 0:
            return
        project = self._project(row)
        self._title.setText(project.title or self._templates[row].name)
        self._notes.setText(project.notes)
        self._notes.setVisible(bool(project.notes))
        self._face.set_panel(project.panel)
        self._face.set_rows(render(project, begin(project, 0.0), {}, 0.0))
