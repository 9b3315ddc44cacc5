"""Moving the cursor, selecting and typing on the screen under edit: each edit is one step of the document."""

from __future__ import annotations

from collections.abc import Hashable

from PySide6.QtCore import QObject, QRect, Qt, Signal

from app import edits
from app.project.model import Project
from widgets.design.screen.field_places import Cell, block_between, block_of, field_at, fields_inside, word_around
from widgets.document.document import Document, Edit, Selection


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
        """The selection right after a row was typed full: the cursor is still on its last cell, though behind it in
        the mind of who types. What is typed there goes nowhere, neither over that cell nor into the next row."""

    def edit(
        self,
        name: str,
        edit: Edit,
        *,
        merge: Hashable = None,
        cell: Cell | None = None,
        block: QRect | None = None,
        fields: tuple[int, ...] | None = None,
        spoken: bool = False,
    ) -> bool:
        """Make an edit of the screen as one step. Returns whether it was taken.

        Afterwards the cursor is on `cell`, or where it was; `block` and `fields` are selected, left out the field
        under the cursor. `spoken`: the edit is about the text in the language that is shown.
        """
        selection = self._document.selection
        at = cell or selection.cell

        def select(project: Project) -> Selection:
            chosen = fields
            screen = project.screen_named.get(selection.screen)
            if chosen is None and screen is not None:
                under = field_at(screen, *at)
                chosen = fields_inside(screen, block) if block is not None else () if under is None else (under,)
            return Selection(selection.screen, at, chosen or (), block)

        if spoken:
            edit = self._document.in_spoken(edit, selection.screen)
        taken = self._document.do(name, edit, merge=merge, select=select) is None
        if taken:
            self.done.emit()
        return taken

    def refuse(self, why: str) -> None:
        """Say why a command cannot be done here."""
        self._document.refused.emit(why)

    # The cursor

    def go(self, row: int, column: int) -> None:
        """Put the cursor on a cell; a field there is selected with it."""
        screen = self._document.screen
        if screen is None:
            return
        row, column = self._inside(row, column)
        index = field_at(screen, row, column)
        self._document.select(Selection(screen.name, (row, column), () if index is None else (index,)))

    def step(self, row: int, column: int) -> None:
        """Move the cursor by so many cells."""
        at = self._document.selection.cell
        self.go(at[0] + row, at[1] + column)

    def to_end(self, end: bool, modifiers: Qt.KeyboardModifier) -> bool:
        """To the first or the last cell of the row, of the panel with Ctrl; with Shift the block goes along."""
        panel = self._document.project.panel
        row, _ = self._document.selection.cell
        column = panel.columns - 1 if end else 0
        if modifiers & Qt.KeyboardModifier.ControlModifier:
            row = panel.rows - 1 if end else 0
            modifiers &= ~Qt.KeyboardModifier.ControlModifier
        if modifiers == Qt.KeyboardModifier.NoModifier:
            self.go(row, column)
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

    def new_line(self) -> None:
        """To the beginning of the next row."""
        self.go(self._document.selection.cell[0] + 1, 0)

    def _inside(self, row: int, column: int) -> Cell:
        panel = self._document.project.panel
        return min(max(row, 0), panel.rows - 1), min(max(column, 0), panel.columns - 1)

    # Selecting

    def anchor(self) -> Cell:
        """The corner of the block that stays where it is while the block is stretched: the one across the cursor."""
        selection = self._document.selection
        block = selection.block
        if block is None:
            return selection.cell
        row, column = selection.cell
        return (
            block.bottom() if row == block.top() else block.top(),
            block.right() if column == block.left() else block.left(),
        )

    def stretch_block(self, row: int, column: int, anchor: Cell | None = None) -> None:
        """Stretch the block of selected cells to this cell."""
        cell = self._inside(row, column)
        self.select_block(block_between(anchor or self.anchor(), cell), cell)

    def select_block(self, block: QRect, cell: Cell | None = None) -> None:
        """Select a block of cells and the fields that lie wholly in it."""
        screen = self._document.screen
        if screen is not None:
            inside = fields_inside(screen, block)
            self._document.select(Selection(screen.name, cell or (block.top(), block.left()), inside, block))

    def select_all(self) -> None:
        """Select every cell."""
        panel = self._document.project.panel
        self.select_block(QRect(0, 0, panel.columns, panel.rows))

    def select_word(self, row: int, column: int) -> None:
        """Select the word on a cell; on a blank one put the cursor there."""
        screen = self._document.spoken.screen_named.get(self._document.selection.screen)
        text = screen.text[row] if screen is not None and row < len(screen.text) else ""
        start, end = word_around(text, column)
        if start < end <= self._document.project.panel.columns:
            self.select_block(QRect(start, row, end - start, 1))
        else:
            self.go(row, column)

    def select_nothing(self) -> bool:
        """Leave the cursor, and select neither fields nor a block. Returns whether anything was selected."""
        selection = self._document.selection
        if not selection.fields and selection.block is None:
            return False
        self._document.select(Selection(selection.screen, selection.cell))
        return True

    # Text

    def type(self, text: str) -> None:
        """Write text at the cursor, or in the place of the text that is selected in one row."""
        screen = self._document.screen
        if screen is None or not text:
            return
        selection, insert = self._document.selection, self.insert
        if selection is self._full:
            self.refuse(self.tr("The row is full. Enter goes to the next one."))
            return
        row, column = selection.cell
        block = selection.block if selection.block is not None and selection.block.height() == 1 else None
        if block is not None:
            column = block.left()
        behind, last = column + len(text), self._document.project.panel.columns - 1

        def type_text(project: Project) -> Project:
            if block is not None:  # what is typed takes the place of the selected text
                project = edits.erase_text(project, screen.name, row, column, block.width())
            return edits.type_text(project, screen.name, row, column, text, insert=insert)

        merge = ("type", screen.name, row)
        typed = self.edit(self.tr("Type"), type_text, merge=merge, cell=(row, min(behind, last)), spoken=True)
        self._full = self._document.selection if typed and behind > last else None

    def backspace(self) -> None:
        """Delete the character before the cursor."""
        screen = self._document.screen
        if screen is None:
            return
        row, column = self._document.selection.cell
        if self._document.selection.block is not None:
            self.delete()
        elif self._document.selection is self._full:
            self._erase(screen.name, row, column)
        elif column > 0:
            self._erase(screen.name, row, column - 1)

    def delete(self) -> None:
        """Delete what is selected, or the character under the cursor."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        if selection.block is not None:
            self.clear(selection.block)
        elif selection.fields:
            self.delete_fields()
        else:
            self._erase(screen.name, *selection.cell)

    def _erase(self, screen: str, row: int, column: int) -> None:
        insert = self.insert
        self.edit(
            self.tr("Delete text"),
            lambda project: edits.erase_text(project, screen, row, column, 1, close_up=insert),
            merge=("erase", screen, row),
            cell=(row, column),
            spoken=True,
        )

    def clear(self, block: QRect, name: str = "", *, in_all_languages: bool = False) -> None:
        """Take text and whole fields out of a block."""
        screen = self._document.selection.screen
        cells = block_of(block)
        self.edit(
            name or self.tr("Clear cells"),
            lambda project: edits.clear_block(project, screen, cells, in_all_languages=in_all_languages),
            cell=(block.top(), block.left()),
            spoken=not in_all_languages,
        )

    def delete_fields(self, name: str = "") -> None:
        """Delete the selected fields."""
        screen, chosen = self._document.screen, self._document.selection.fields
        if screen is None:
            return
        if not chosen:
            self.refuse(self.tr("To delete a field, put the cursor on it."))
            return
        name = name or (self.tr("Delete field") if len(chosen) == 1 else self.tr("Delete fields"))
        self.edit(name, lambda project: edits.delete_fields(project, screen.name, chosen))
