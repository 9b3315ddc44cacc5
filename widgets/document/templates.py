"""New projects: blank panels of usual sizes or of any other, and copies of the demo projects, with a look at each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QCoreApplication, QSize
from PySide6.QtWidgets import (
    QCheckBox,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Project
from app.project_file.files import load
from projects import demo_path, demos
from widgets.document.blank import blank
from widgets.face.face import PanelFace
from widgets.face.sample_values import FieldContents, specimen_rows
from widgets.kit.controls import WholeNumber
from widgets.kit.focus import RingDialog
from widgets.kit.plain import plain_label
from widgets.kit.scaling import comfortable, scaled

translate = QCoreApplication.translate

BLANK_SIZES: Final = ((4, 20), (2, 16), (4, 40), (8, 40), (16, 40))
"""Rows and columns, in the order of the list."""


MOST_ROWS: Final = 64
MOST_COLUMNS: Final = 132
"""What the model of a panel allows."""


@dataclass(frozen=True, slots=True)
class ProjectTemplate:
    """Something a new project starts as."""

    name: str
    make: Callable[[], Project]
    size: tuple[int, int] | None = None
    """Rows and columns of a blank panel; None for a copy of a demo."""
    free: bool = False
    """Whether the size is for the user to choose."""


def templates() -> tuple[ProjectTemplate, ...]:
    """All templates, blank ones first."""
    sizes = tuple(
        ProjectTemplate(
            translate("Template", "Blank, {rows} rows of {columns} cells").format(rows=rows, columns=columns),
            lambda rows=rows, columns=columns: blank(rows, columns),  # type: ignore[misc]
            (rows, columns),
        )
        for rows, columns in BLANK_SIZES
    )
    rows, columns = BLANK_SIZES[0]
    sizes += (
        ProjectTemplate(
            translate("Template", "Blank, other size"), lambda: blank(rows, columns), (rows, columns), True
        ),
    )
    copies = tuple(
        ProjectTemplate(
            translate("Template", "Copy of the demo: {name}").format(name=name.replace("-", " ")),
            lambda name=name: load(demo_path(name)),  # type: ignore[misc]
        )
        for name in demos()
    )
    return sizes + copies


class TemplateDialog(RingDialog):
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
        self._title = plain_label("", "heading")
        self._notes = plain_label(wrap=True)
        self.size_row = QWidget()
        self.rows_editor, self.columns_editor = WholeNumber(), WholeNumber()
        self.paged = QCheckBox(self.tr("&With a second screen, reached with the keys left and right"))
        self._make_size_row()
        self.face = PanelFace()
        self.face.setMinimumSize(QSize(scaled(400), scaled(200)))
        self.face.setEnabled(False)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        self._ok = buttons.button(QDialogButtonBox.StandardButton.Ok)
        self._ok.setText(self.tr("Cr&eate"))
        side = QVBoxLayout()
        side.addWidget(self._title)
        side.addWidget(self._notes)
        side.addWidget(self.size_row)
        side.addWidget(self.paged)
        side.addWidget(self.face, 1)
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

    def _make_size_row(self) -> None:
        row = QHBoxLayout(self.size_row)
        row.setContentsMargins(0, 0, 0, 0)
        for editor, most, at_first, words, name in (
            (self.rows_editor, MOST_ROWS, BLANK_SIZES[0][0], self.tr("&Rows:"), self.tr("Rows")),
            (self.columns_editor, MOST_COLUMNS, BLANK_SIZES[0][1], self.tr("C&olumns:"), self.tr("Columns")),
        ):
            editor.setRange(1, most)
            editor.setValue(at_first)
            editor.setAccessibleName(name)
            label = QLabel(words)
            label.setBuddy(editor)
            row.addWidget(label)
            row.addWidget(editor)
            editor.valueChanged.connect(lambda _value: self._look(self.list.currentRow()))
        row.addStretch(1)
        self.paged.toggled.connect(lambda _on: self._look(self.list.currentRow()))

    @property
    def project(self) -> Project:
        """What was chosen."""
        return self._project(self.list.currentRow())

    def _project(self, row: int) -> Project:
        template = self._templates[row]
        if template.size is not None:
            rows, columns = template.size
            if template.free:
                rows, columns = self.rows_editor.value(), self.columns_editor.value()
            return blank(rows, columns, paged=self.paged.isChecked())
        if row not in self._made:
            self._made[row] = template.make()
        return self._made[row]

    def _look(self, row: int) -> None:
        if row < 0:
            return
        self.size_row.setVisible(self._templates[row].free)
        self.paged.setVisible(self._templates[row].size is not None)
        project = self._project(row)
        self._title.setText(project.title or self._templates[row].name)
        self._notes.setText(project.notes)
        self._notes.setVisible(bool(project.notes))
        self.face.set_panel(project.panel)
        start = project.screen_named.get(project.panel.start) or project.screens[0]
        self.face.set_rows(specimen_rows(project, start, FieldContents.SAMPLE))
