"""Placing, moving, copying, resizing and aligning fields and blocks of the screen under edit."""

from __future__ import annotations

from PySide6.QtCore import QObject

from app import edits
from app.edits import Alignment
from app.project.model import Field, Project
from widgets.design.screen.commands import ScreenCommands
from widgets.design.screen.field_places import block_of, free_offset
from widgets.document.document import Document, Edit
from widgets.face.sample_values import width_needed


class Arranging(QObject):
    """Commands about what is selected. Where one cannot be done, the document says why (`refused`)."""

    def __init__(self, document: Document, commands: ScreenCommands, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._commands = commands

    def place_field(self, signal: str, kind: str, entry: bool = False) -> None:
        """Place a field for a signal at the cursor, as wide as its widest value if there is room.

        `entry`: the operator may change the value there.
        """
        project, screen = self._document.project, self._document.screen
        if screen is None:
            return
        row, column = self._document.selection.cell
        width = min(width_needed(project, signal, kind), edits.room_at(project, screen.name, row, column))
        field = Field.model_validate(
            {"at": (row, column), "width": max(width, 1), "signal": signal, "kind": kind, "entry": entry}
        )
        self._commands.edit(
            self.tr("Place field"),
            lambda project: edits.add_field(project, screen.name, field),
            fields=(len(screen.fields),),
        )

    def duplicate(self) -> None:
        """Place a copy of the selected block or fields where nothing is covered: below, or wherever there is room."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        block, chosen = selection.block, selection.fields
        if block is None and not chosen:
            self._commands.refuse(self.tr("Select a field or cells to duplicate them."))
            return
        offset = free_offset(self._document.project, screen, block, chosen)
        if offset is None:
            self._commands.refuse(self.tr("There is no room for a copy on this screen: text or fields are in the way."))
        else:
            self.copy(*offset, self.tr("Duplicate"))

    def copy(self, down: int, right: int, name: str = "") -> None:
        """Copy the selected block, or the selected fields, by so many cells; then the copy is selected."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        name = name or self.tr("Copy cells")
        cell = (selection.cell[0] + down, selection.cell[1] + right)
        if selection.block is not None:
            block = block_of(selection.block)
            self._commands.edit(
                name,
                lambda project: edits.copy_block(project, screen.name, block, down, right),
                cell=cell,
                block=selection.block.translated(right, down),
            )
            return
        first = len(screen.fields)
        self._commands.edit(
            name,
            lambda project: edits.copy_fields(project, screen.name, selection.fields, down, right),
            cell=cell,
            fields=tuple(range(first, first + len(selection.fields))),
        )

    def move(self, down: int, right: int) -> None:
        """Move the selected block, or the selected fields, by so many cells."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        cell = (selection.cell[0] + down, selection.cell[1] + right)
        if selection.block is not None:
            block = block_of(selection.block)
            self._commands.edit(
                self.tr("Move cells"),
                lambda project: edits.move_block(project, screen.name, block, down, right),
                merge=("move", screen.name, block.rows, block.columns),
                cell=cell,
                block=selection.block.translated(right, down),
            )
        elif selection.fields:
            self._commands.edit(
                self.tr("Move field") if len(selection.fields) == 1 else self.tr("Move fields"),
                lambda project: edits.move_fields(project, screen.name, selection.fields, down, right),
                merge=("move", screen.name, selection.fields),
                cell=cell,
                fields=selection.fields,
            )
        else:
            self._commands.refuse(self.tr("Select a field or cells to move them: put the cursor on the field."))

    def widen(self, by: int) -> None:
        """Make the selected field wider or narrower by so many cells, at its right edge."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        if len(selection.fields) != 1:
            self._commands.refuse(self.tr("Select one field to change its width: put the cursor on it."))
            return
        index = selection.fields[0]
        self.resize(index, screen.fields[index].width + by)

    def resize(self, index: int, width: int) -> None:
        """Give a field another width; its left edge stays."""
        screen = self._document.screen
        if screen is None or width == screen.fields[index].width:
            return
        field = screen.fields[index]
        row, column = self._document.selection.cell
        self._commands.edit(
            self.tr("Resize field"),
            lambda project: edits.change_field(project, screen.name, index, width=width),
            merge=("resize", screen.name, index),
            cell=(row, min(column, field.at[1] + max(width, 1) - 1)),
            fields=(index,),
        )

    def stretch_left(self, index: int, column: int) -> None:
        """Put the left edge of a field on another column; its right edge stays."""
        screen = self._document.screen
        if screen is None or column == screen.fields[index].at[1]:
            return
        row, at = self._document.selection.cell
        self._commands.edit(
            self.tr("Resize field"),
            lambda project: edits.stretch_field(project, screen.name, index, column),
            merge=("stretch", screen.name, index),
            cell=(row, max(at, column)),
            fields=(index,),
        )

    def fit_width(self) -> None:
        """Make the selected fields just as wide as their widest values; numbers keep their right edge."""
        screen, chosen = self._document.screen, self._document.selection.fields
        if screen is None:
            return
        if not chosen:
            self._commands.refuse(self.tr("Select a field to fit its width: put the cursor on it."))
            return

        def fit(project: Project) -> Project:
            for index in chosen:
                field = screen.fields[index]
                width = width_needed(project, field.signal, field.kind)
                if field.kind == "bar" or width == field.width:
                    continue
                if field.kind in ("number", "hexadecimal"):
                    column = max(0, field.at[1] + field.width - width)
                    at = (field.at[0], column)
                    project = edits.change_field(project, screen.name, index, at=at, width=width)
                else:
                    project = edits.change_field(project, screen.name, index, width=width)
            return project

        self._edit_fields(self.tr("Fit the width"), fit, chosen)

    def same_width(self) -> None:
        """Make the selected fields as wide as the widest of them."""
        screen, chosen = self._document.screen, self._document.selection.fields
        if screen is None:
            return
        if len(chosen) < 2:
            self._commands.refuse(self.tr("Select two or more fields to make them equally wide: Ctrl+click them."))
            return
        self._edit_fields(
            self.tr("Make equally wide"), lambda project: edits.same_width(project, screen.name, chosen), chosen
        )

    def align(self, side: Alignment) -> None:
        """Align the content of the selected cells; the edges of several selected fields; or the row of the cursor."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        name = {"left": self.tr("Align left"), "centre": self.tr("Centre"), "right": self.tr("Align right")}[side]
        if selection.block is None and len(selection.fields) > 1:
            chosen = selection.fields
            self._edit_fields(name, lambda project: edits.align_fields(project, screen.name, chosen, side), chosen)
            return
        panel, row = self._document.project.panel, selection.cell[0]
        block = edits.Block(row, 0, 1, panel.columns) if selection.block is None else block_of(selection.block)
        # The field that was selected goes along with its row, and so does the cursor on it.
        index = selection.fields[0] if selection.block is None and selection.fields else None

        def align(project: Project) -> Project:
            return edits.align_block(project, screen.name, block, side)

        cell = selection.cell
        if index is not None:
            try:
                after = align(self._document.project).screen_named[screen.name].fields[index]
                cell = (row, cell[1] + after.at[1] - screen.fields[index].at[1])
            except edits.EditRefused:
                pass  # it is said when the edit is made
        self._commands.edit(name, align, cell=cell, block=selection.block)

    def show_as(self, index: int, kind: str) -> None:
        """Show the signal of a field in another way."""
        screen = self._document.screen
        if screen is not None:
            self._document.do(
                self.tr("Change field"), lambda project: edits.change_field(project, screen.name, index, kind=kind)
            )

    def _edit_fields(self, name: str, edit: Edit, chosen: tuple[int, ...]) -> None:
        """Make an edit after which the cursor is on the first of the chosen fields."""
        screen = self._document.screen
        if screen is None:
            return
        try:
            after = edit(self._document.project).screen_named[screen.name]
        except edits.EditRefused as why:
            self._commands.refuse(str(why))
            return
        self._commands.edit(name, edit, cell=after.fields[chosen[0]].at, fields=chosen)
