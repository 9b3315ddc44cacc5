"""The tables of lines and followers, and how their registers are read."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from app import edits
from app.edits.refused import free_name
from app.planning.plan import LinePlan, make_plan
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
from widgets.design.lines.reads_table import ReadsTable
from widgets.design.tables.part_editing import PartEditing, Steps
from widgets.design.tables.part_table import PartTable
from widgets.design.tables.part_views import TwoTables
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.kit.controls import push_button
from widgets.kit.scaling import scaled


class LinesView(TwoTables):
    """All lines, all followers and all requests, under one another."""

    find_out_wanted = Signal()
    """An unknown device is to be found out."""

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(document, parent)
        self._planned: tuple[object, ...] | None = None
        self._plans: dict[str, LinePlan] = {}
        columns = line_columns(self._plans)
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
            tools=(push_button(self.tr("Find out a device\u2026"), self.find_out_wanted.emit),),
        )
        for table in (self.lines, self.followers):
            if table.work is not None:
                table.work.told.connect(document.refused)
        self._take_tables(("line", self.lines), ("follower", self.followers))
        self.reads = ReadsTable()
        self._lay_out()
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
        self._plan()

    def _lay_out(self) -> None:
        self._parts = QWidget()
        column = QVBoxLayout(self._parts)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(scaled(12))
        for part in (self.lines, self.followers, self.reads):
            column.addWidget(part)
        column.addStretch(1)
        self._scrolled = QScrollArea()
        self._scrolled.setFrameShape(QFrame.Shape.NoFrame)
        self._scrolled.setWidgetResizable(True)
        self._scrolled.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scrolled.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scrolled.setWidget(self._parts)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._scrolled)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """Let each table be as high as its rows, up to a third; the last one has what the others leave."""
        gap = scaled(12)
        left = self.height() - 2 * gap
        third = left // 3
        for part in (self.lines, self.followers):
            part.fit_rows(third)
            left -= part.sizeHint().height()
        self.reads.fit_rows(max(third, left))

    def _plan(self) -> None:
        """Work out how the registers are read, if anything that counts for it is another."""
        project = self._document.project
        of = (project.lines, project.followers, project.signals)
        if self._planned is None or any(one is not other for one, other in zip(of, self._planned, strict=True)):
            self._planned = of
            plan = make_plan(project)
            self._plans.clear()
            self._plans.update({line.line: line for line in plan.lines})
            self.reads.show_plan(project, plan)
            self.lines.table.viewport().update()
        self._fit()

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
