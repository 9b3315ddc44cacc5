"""The tables of lines and followers."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QWidget

from app import edits
from app.edits.refused import free_name
from app.project.model import Follower, Project
from widgets.design.lines.cells import (
    follower_columns,
    follower_reader,
    free_unit,
    line_columns,
    line_reader,
    new_name,
)
from widgets.design.lines.forms import line_kinds, line_of_kind
from widgets.design.tables.part_editing import PartEditing, Steps
from widgets.design.tables.part_table import PartTable
from widgets.design.tables.part_views import TwoTables
from widgets.document.document import Document
from widgets.document.drafts import Drafts


class LinesView(TwoTables):
    """All lines and all followers."""

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(document, parent)
        columns = line_columns()
        steps = Steps(self.tr("Change lines"), self.tr("Paste lines"), self.tr("Reorder lines"))
        self.lines = PartTable(
            self.tr("Lines"),
            columns,
            line_kinds(),
            editing=PartEditing(document, drafts, line_reader(columns), steps),
            empty=self.tr("No line yet. Insert adds one."),
            add_text=self.tr("Add line"),
        )
        columns = follower_columns()
        steps = Steps(self.tr("Change devices"), self.tr("Paste devices"), self.tr("Reorder devices"))
        self.followers = PartTable(
            self.tr("Devices"),
            columns,
            [("follower", self.tr("Device"))],
            editing=PartEditing(document, drafts, follower_reader(columns), steps),
            empty=self.tr("No device yet. Insert adds one, once there is a line for it."),
            add_text=self.tr("Add device"),
        )
        for table in (self.lines, self.followers):
            if table.work is not None:
                table.work.told.connect(document.refused)
        self._add_tables(("line", self.lines), ("follower", self.followers), [190, 260])
        self.lines.add_wanted.connect(self.add_line)
        self.lines.duplicate_wanted.connect(lambda places: self._duplicate_line(places[-1]))
        self.lines.delete_wanted.connect(lambda places: self._delete_several("line", self.tr("Delete line"), places))
        self.lines.move_wanted.connect(
            lambda places, way: self._move_several("line", self.tr("Move line"), places, way)
        )
        self.followers.add_wanted.connect(lambda _kind: self.add_follower())
        self.followers.duplicate_wanted.connect(lambda places: self._duplicate_follower(places[-1]))
        self.followers.delete_wanted.connect(
            lambda places: self._delete_several("follower", self.tr("Delete device"), places)
        )
        self.followers.move_wanted.connect(
            lambda places, way: self._move_several("follower", self.tr("Move device"), places, way)
        )

    def show_project(self, project: Project, wrong_lines: frozenset[int], wrong_followers: frozenset[int]) -> None:
        """Show the lines and followers of a project; the wrong ones have errors."""
        self.lines.show_parts(project, project.lines, wrong_lines)
        self.followers.show_parts(project, project.followers, wrong_followers)

    def add_line(self, kind: str) -> None:
        """Add a line of a kind of the project file: `serial`, `tcp` or `serial-over-tcp`."""
        project = self._document.project
        line = line_of_kind(kind, new_name(project, "line"))
        self._add("line", self.tr("Add line"), lambda p: edits.add_line(p, line), len(project.lines))

    def _duplicate_line(self, index: int) -> None:
        project = self._document.project
        line = project.lines[index].replace(name=free_name(project.lines[index].name, project.line_named))
        self._add("line", self.tr("Duplicate line"), lambda p: edits.add_line(p, line), len(project.lines))

    def add_follower(self) -> None:
        """Add a follower on the current line."""
        project = self._document.project
        if not project.lines:
            self._document.refused.emit(self.tr("A device needs a line; add one first."))
            return
        kind, index = self.current()
        line = project.lines[index if kind == "line" and index >= 0 else 0].name
        follower = Follower(name=new_name(project, "follower"), line=line, unit=free_unit(project, line))
        self._add("follower", self.tr("Add device"), lambda p: edits.add_follower(p, follower), len(project.followers))

    def _duplicate_follower(self, index: int) -> None:
        project = self._document.project
        part = project.followers[index]
        copy = part.replace(
            name=free_name(part.name, project.follower_named), unit=free_unit(project, part.line, part.unit)
        )
        self._add(
            "follower", self.tr("Duplicate device"), lambda p: edits.add_follower(p, copy), len(project.followers)
        )

    def _add(self, kind: str, name: str, edit: Any, at: int) -> None:
        if self._document.do(name, edit) is None:
            self.select(kind, at)
            self.chosen.emit()
            self.added.emit()
