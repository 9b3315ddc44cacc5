"""What the keys and the mouse do to the screen under edit: each command is one step of the document."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import replace

from PySide6.QtCore import QObject, QRect, Qt, Signal

from app.project import edits
from app.project.model import Field, Project
from widgets.document import Document, Edit, Selection
from widgets.field_places import field_at, free_place
from widgets.specimen import width_needed


class ScreenCommands(QObject):
    """Commands at the cursor of a document. Where one cannot be done, the document says why (`refused`)."""

    done = Signal()
    """An edit was taken."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.insert = False
        """Whether typing moves what stands behind it, instead of writing over it."""
        self._full: Selection | None = None
        """The selection right after a row was typed full, when the cursor has gone to the next row by itself."""

    def go(self, row: int, column: int) -> None:
        """Put the cursor on a cell; a field there is selected with it."""
        panel, screen = self._document.project.panel, self._document.screen
        if screen is None:
            return
        row, column = min(max(row, 0), panel.rows - 1), min(max(column, 0), panel.columns - 1)
        index = field_at(screen, row, column)
        self._document.select(Selection(screen.name, (row, column), () if index is None else (index,)))

    def to_end(self, end: bool, modifiers: Qt.KeyboardModifier) -> bool:
        """To the first or the last cell of the row, of the panel with Ctrl; with Shift the block goes along."""
        panel = self._document.project.panel
        row, _ = self._document.selection.cell
        column = panel.columns - 1 if end else 0
        if modifiers == Qt.KeyboardModifier.NoModifier:
            self.go(row, column)
        elif modifiers == Qt.KeyboardModifier.ControlModifier:
            self.go(panel.rows - 1 if end else 0, column)
        elif modifiers == Qt.KeyboardModifier.ShiftModifier:
            self.stretch_block(row, column)
        else:
            return False
        return True

    def jump(self, way: int) -> None:
        """To the next or the previous field of the screen, in reading order, around the end."""
        screen = self._document.screen
        if screen is None or not screen.fields:
            return
        order = sorted(field.at for field in screen.fields)
        here = self._document.selection.cell
        if way > 0:
            target = next((at for at in order if at > here), order[0])
        else:
            target = next((at for at in reversed(order) if at < here), order[-1])
        self.go(*target)

    def stretch_block(self, row: int, column: int) -> None:
        """Stretch the block of selected cells to this cell."""
        panel, selection = self._document.project.panel, self._document.selection
        row, column = min(max(row, 0), panel.rows - 1), min(max(column, 0), panel.columns - 1)
        anchor = self._anchor(selection)
        self.select_block(block_between(anchor, (row, column)), (row, column))

    def _anchor(self, selection: Selection) -> tuple[int, int]:
        block = selection.block
        if block is None:
            return selection.cell
        row, column = selection.cell
        return (
            block.bottom() if row == block.top() else block.top(),
            block.right() if column == block.left() else block.left(),
        )

    def select_block(self, block: QRect, cell: tuple[int, int] | None = None) -> None:
        """Select a block of cells and the fields that lie wholly in it."""
        screen = self._document.screen
        if screen is None:
            return
        inside = tuple(
            index
            for index, field in enumerate(screen.fields)
            if block.contains(QRect(field.at[1], field.at[0], field.width, 1))
        )
        self._document.select(Selection(screen.name, cell or (block.top(), block.left()), inside, block))

    def type(self, text: str) -> None:
        """Write text at the cursor."""
        screen = self._document.screen
        if screen is None or not text:
            return
        row, column = self._document.selection.cell
        insert = self.insert
        after = self._behind(row, column + len(text))
        self.edit(
            self.tr("Type"),
            lambda project: edits.type_text(project, screen.name, row, column, text, insert=insert),
            merge=("type", screen.name, row),
            cell=after,
        )
        now = self._document.selection
        self._full = now if now.cell == after == (row + 1, 0) else None

    def new_line(self) -> None:
        """To the beginning of the next row; where a full row has just brought the cursor there, it stays."""
        selection = self._document.selection
        full, self._full = self._full, None
        if selection is not full:
            self.go(selection.cell[0] + 1, 0)

    def _behind(self, row: int, column: int) -> tuple[int, int]:
        """Where the cursor goes after the last character: behind a full row to the next one."""
        panel = self._document.project.panel
        if column < panel.columns:
            return row, column
        return (row + 1, 0) if row + 1 < panel.rows else (row, panel.columns - 1)

    def backspace(self) -> None:
        """Delete the character before the cursor."""
        screen = self._document.screen
        if screen is None:
            return
        row, column = self._document.selection.cell
        if self._document.selection.block is not None:
            self.delete()
            return
        if column == 0:
            return
        insert = self.insert
        self.edit(
            self.tr("Delete text"),
            lambda project: edits.erase_text(project, screen.name, row, column - 1, 1, close_up=insert),
            merge=("erase", screen.name, row),
            cell=(row, column - 1),
        )

    def delete(self) -> None:
        """Delete what is selected, or the character under the cursor."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        if selection.block is not None:
            self._clear_block(selection.block)
            return
        if selection.fields:
            self.delete_fields()
            return
        row, column = selection.cell
        insert = self.insert
        self.edit(
            self.tr("Delete text"),
            lambda project: edits.erase_text(project, screen.name, row, column, 1, close_up=insert),
            merge=("erase", screen.name, row),
        )

    def _clear_block(self, block: QRect) -> None:
        screen, fields = self._document.screen, self._document.selection.fields
        if screen is None:
            return

        def edit(project: Project) -> Project:
            if fields:
                project = edits.delete_fields(project, screen.name, fields)
            for row in range(block.top(), block.bottom() + 1):
                project = edits.erase_text(project, screen.name, row, block.left(), block.width())
            return project

        self.edit(self.tr("Clear cells"), edit, cell=(block.top(), block.left()))

    def place_field(self, signal: str, kind: str) -> None:
        """Place a field for a signal at the cursor, as wide as its widest value if there is room."""
        project, screen = self._document.project, self._document.screen
        if screen is None:
            return
        row, column = self._document.selection.cell
        width = min(width_needed(project, signal, kind), edits.room_at(project, screen.name, row, column))
        field = Field.model_validate({"at": (row, column), "width": max(width, 1), "signal": signal, "kind": kind})
        where = Selection(screen.name, (row, column), (len(screen.fields),))
        self._document.do(
            self.tr("Place field"), lambda project: edits.add_field(project, screen.name, field), select=where
        )

    def delete_fields(self) -> None:
        """Delete the selected fields."""
        screen, chosen = self._document.screen, self._document.selection.fields
        if screen is None or not chosen:
            return
        name = self.tr("Delete field") if len(chosen) == 1 else self.tr("Delete fields")
        self.edit(name, lambda project: edits.delete_fields(project, screen.name, chosen))

    def duplicate_field(self) -> None:
        """Place a copy of the selected field at the nearest free cells below or to the right."""
        screen, chosen = self._document.screen, self._document.selection.fields
        if screen is None or len(chosen) != 1:
            self._document.refused.emit(self.tr("Select one field to duplicate it."))
            return
        field = screen.fields[chosen[0]]
        free = free_place(self._document.project, screen, field)
        if free is None:
            self._document.refused.emit(self.tr("There is no room on this screen for another field of that width."))
            return
        where = Selection(screen.name, free, (len(screen.fields),))
        self._document.do(
            self.tr("Duplicate field"),
            lambda project: edits.add_field(project, screen.name, field.but(at=free)),
            select=where,
        )

    def move_fields(self, rows: int, columns: int) -> None:
        """Move the selected fields by so many cells."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        if not selection.fields:
            self._document.refused.emit(self.tr("Select a field to move it: put the cursor on it."))
            return
        block = None if selection.block is None else selection.block.translated(columns, rows)
        after = replace(selection, cell=(selection.cell[0] + rows, selection.cell[1] + columns), block=block)
        self._document.do(
            self.tr("Move field") if len(selection.fields) == 1 else self.tr("Move fields"),
            lambda project: edits.move_fields(project, screen.name, selection.fields, rows, columns),
            merge=("move", screen.name, selection.fields),
            select=after,
        )

    def widen_field(self, by: int) -> None:
        """Make the selected field wider or narrower by so many cells."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        if len(selection.fields) != 1:
            self._document.refused.emit(self.tr("Select one field to change its width: put the cursor on it."))
            return
        index = selection.fields[0]
        self.resize(index, screen.fields[index].width + by)

    def resize(self, index: int, width: int) -> None:
        """Give a field another width."""
        screen = self._document.screen
        if screen is None or width == screen.fields[index].width:
            return
        field = screen.fields[index]
        row, column = self._document.selection.cell
        cell = (row, min(column, field.at[1] + max(width, 1) - 1))
        self._document.do(
            self.tr("Resize field"),
            lambda project: edits.change_field(project, screen.name, index, width=width),
            merge=("resize", screen.name, index),
            select=Selection(screen.name, cell, (index,)),
        )

    def edit(
        self,
        name: str,
        edit: Edit,
        *,
        merge: Hashable = None,
        cell: tuple[int, int] | None = None,
    ) -> None:
        """Make an edit of the screen as one step; the cursor goes to `cell`, if it is given."""
        selection = self._document.selection
        where = Selection(selection.screen, cell or selection.cell)
        reason = self._document.do(name, edit, merge=merge, select=where)
        if reason is None:
            self.done.emit()
            self._select_under()

    def _select_under(self) -> None:
        """Select the field that the cursor has come to."""
        selection, screen = self._document.selection, self._document.screen
        if screen is None or selection.fields:
            return
        index = field_at(screen, *selection.cell)
        if index is not None:
            self._document.select(replace(selection, fields=(index,)))


def block_between(one: tuple[int, int], other: tuple[int, int]) -> QRect:
    """The smallest block that holds two cells."""
    top, bottom = sorted((one[0], other[0]))
    left, right = sorted((one[1], other[1]))
    return QRect(left, top, right - left + 1, bottom - top + 1)
