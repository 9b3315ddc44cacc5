"""The mouse on the face while it is edited: selecting, dragging with a ghost, resizing by handles."""

from __future__ import annotations

import enum
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QObject, QRect, Qt, Signal

from app import edits
from app.project.model import Field, Project, Screen
from widgets.design.screen.arranging import Arranging
from widgets.design.screen.commands import ScreenCommands
from widgets.design.screen.field_places import Cell, block_of, field_at
from widgets.document.document import Document, Selection
from widgets.face.cells import CellGrid
from widgets.face.marks import Ghost, Outline, Piece

KIND_LINES: Final = {
    "number": Qt.PenStyle.SolidLine,
    "hexadecimal": Qt.PenStyle.SolidLine,
    "choice": Qt.PenStyle.DashLine,
    "bar": Qt.PenStyle.DotLine,
}
"""How a field of a kind is outlined."""
_SHIFT: Final = Qt.KeyboardModifier.ShiftModifier
_CTRL: Final = Qt.KeyboardModifier.ControlModifier


class _What(enum.Enum):
    SELECT = enum.auto()
    MOVE = enum.auto()
    RIGHT_EDGE = enum.auto()
    LEFT_EDGE = enum.auto()


@dataclass
class _Drag:
    """From where a button went down, what that does, and where the mouse is now."""

    what: _What
    start: Cell
    at: Cell
    field: int | None = None
    toggles: bool = False
    """A click that does not move takes the field into the selection, or out of it."""
    moved: bool = False
    copies: bool = False

    @property
    def by(self) -> Cell:
        return self.at[0] - self.start[0], self.at[1] - self.start[1]


class EditorMouse(QObject):
    """Turns presses and drags on the grid into selections and edits. What does not fit is refused in words."""

    said = Signal(str)
    """Where what is dragged would go, or why it does not fit; empty once the drag is over."""
    pointed = Signal(int, int)
    """The cell that a drag has come to; it should be in view."""
    field_opened = Signal()

    def __init__(
        self, grid: CellGrid, document: Document, commands: ScreenCommands, arranging: Arranging, parent: QObject
    ) -> None:
        super().__init__(parent)
        self._grid = grid
        self._document = document
        self._commands = commands
        self._arranging = arranging
        self._drag: _Drag | None = None
        grid.cell_pressed.connect(self._press)
        grid.cell_dragged.connect(self._drag_to)
        grid.cell_released.connect(self._release)
        grid.cell_double_clicked.connect(self._double_clicked)
        grid.handle_pressed.connect(self._handle_pressed)

    @property
    def dragging(self) -> bool:
        """Whether something is dragged just now."""
        return self._drag is not None and self._drag.moved and self._drag.what is not _What.SELECT

    def give_up(self) -> bool:
        """End a drag without an edit. Returns whether there was one."""
        was = self.dragging
        self._end()
        return was

    def modifiers_changed(self, modifiers: Qt.KeyboardModifier) -> None:
        """Ctrl was pressed or let go: from now on the drag copies, or moves."""
        drag = self._drag
        if drag is not None and drag.what is _What.MOVE and drag.moved:
            drag.copies = bool(modifiers & _CTRL)
            self._show(drag)

    def _press(self, row: int, column: int, modifiers: Qt.KeyboardModifier) -> None:
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        cell = (row, column)
        if modifiers & _SHIFT:
            anchor = self._commands.anchor()
            self._commands.stretch_block(row, column, anchor)
            self._drag = _Drag(_What.SELECT, anchor, cell)
            return
        index = field_at(screen, row, column)
        ctrl = bool(modifiers & _CTRL)
        if selection.block is not None and selection.block.contains(column, row):
            self._drag = _Drag(_What.MOVE, cell, cell, index, toggles=ctrl and index is not None)
            return
        if index is None:
            self._document.select(Selection(screen.name, cell))
            self._drag = _Drag(_What.SELECT, cell, cell)
            return
        if not ctrl:
            fields = selection.fields if index in selection.fields else (index,)
            self._document.select(Selection(screen.name, cell, fields))
        self._drag = _Drag(_What.MOVE, cell, cell, index, toggles=ctrl)

    def _handle_pressed(self, index: int, left: bool) -> None:
        cell = self._document.selection.cell
        self._drag = _Drag(_What.LEFT_EDGE if left else _What.RIGHT_EDGE, cell, cell, index)

    def _drag_to(self, row: int, column: int, modifiers: Qt.KeyboardModifier) -> None:
        drag = self._drag
        if drag is None or self._document.screen is None:
            return
        if drag.what is _What.SELECT:
            if (row, column) != drag.start or self._document.selection.block is not None:
                self._commands.stretch_block(row, column, drag.start)
            return
        if not drag.moved and drag.what is _What.MOVE:
            if (row, column) == drag.start:
                return
            self._take_hold(drag)
        drag.moved = True
        drag.at = (row, column)
        drag.copies = drag.what is _What.MOVE and bool(modifiers & _CTRL)
        self._show(drag)
        self.pointed.emit(row, column)

    def _take_hold(self, drag: _Drag) -> None:
        """A drag with Ctrl begins on a field that is not selected yet: it copies that one."""
        screen, selection = self._document.screen, self._document.selection
        if screen is not None and drag.field is not None and selection.block is None:
            fields = selection.fields if drag.field in selection.fields else (drag.field,)
            self._document.select(Selection(screen.name, drag.start, fields))

    def _show(self, drag: _Drag) -> None:
        """Draw the ghost, and say where it is or why it does not fit."""
        screen = self._document.screen
        if screen is None:
            return
        why = self._refusal(screen, drag)
        outlines, block, pieces = self._ghost_parts(screen, drag)
        ghost = Ghost(outlines, block, pieces, fits=why is None, copies=drag.copies)
        self._grid.set_ghost(ghost)
        self._grid.setCursor(
            Qt.CursorShape.SizeHorCursor
            if drag.what is not _What.MOVE
            else Qt.CursorShape.ForbiddenCursor
            if why is not None
            else Qt.CursorShape.DragCopyCursor
            if drag.copies
            else Qt.CursorShape.ClosedHandCursor
        )
        self.said.emit(self._in_words(ghost, drag) if why is None else self.tr("Does not fit: {why}").format(why=why))

    def _in_words(self, ghost: Ghost, drag: _Drag) -> str:
        area = ghost.area()
        if drag.what is not _What.MOVE:
            where = self.tr("Width {width}, from column {first} to {last}").format(
                width=area.width(), first=area.left() + 1, last=area.right() + 1
            )
            return self._with_covered(where, self._covered_text(ghost))
        template = (
            self.tr("Copy to row {row}, column {column}")
            if drag.copies
            else self.tr("Move to row {row}, column {column}; hold Ctrl to copy")
        )
        where = template.format(row=area.top() + 1, column=area.left() + 1)
        return self._with_covered(where, self._covered_text(ghost))

    def _covered_text(self, ghost: Ghost) -> str:
        """The first text that dragged fields would come to cover: that is allowed, but seldom meant."""
        screen = self._document.spoken.screen_named.get(self._document.selection.screen)
        if screen is None or ghost.block is not None:
            return ""
        for outline in ghost.outlines:
            row = screen.text[outline.row] if 0 <= outline.row < len(screen.text) else ""
            text = row[max(outline.column, 0) : outline.column + outline.width].strip()
            if text:
                return text
        return ""

    def _with_covered(self, where: str, covered: str) -> str:
        if not covered:
            return where
        return self.tr("{where}. It would cover the text '{text}'.").format(where=where, text=covered)

    def _ghost_parts(self, screen: Screen, drag: _Drag) -> tuple[tuple[Outline, ...], QRect | None, tuple[Piece, ...]]:
        selection, rows = self._document.selection, self._grid.rows
        if drag.what is not _What.MOVE and drag.field is not None:
            field = screen.fields[drag.field]
            left, width = _stretch(field, drag)
            return (Outline(field.at[0], left, width, KIND_LINES[field.kind]),), None, ()
        down, right = drag.by
        outlines = tuple(
            Outline(field.at[0] + down, field.at[1] + right, field.width, KIND_LINES[field.kind], entry=field.entry)
            for field in (screen.fields[index] for index in selection.fields)
        )
        if selection.block is not None:
            block = selection.block
            pieces = tuple(
                Piece(row + down, block.left() + right, rows[row].text[block.left() : block.right() + 1])
                for row in range(block.top(), block.bottom() + 1)
                if row < len(rows)
            )
            return outlines, block.translated(right, down), pieces
        pieces = tuple(
            Piece(
                field.at[0] + down, field.at[1] + right, rows[field.at[0]].text[field.at[1] : field.at[1] + field.width]
            )
            for field in (screen.fields[index] for index in selection.fields)
            if 0 <= field.at[0] < len(rows)
        )
        return outlines, None, pieces

    def _refusal(self, screen: Screen, drag: _Drag) -> str | None:
        """Why the edit that the drag stands for would be refused; None if it would be taken."""
        try:
            self._edit_of(screen, drag)(self._document.project)
        except edits.EditRefused as why:
            return str(why)
        return None

    def _edit_of(self, screen: Screen, drag: _Drag) -> Callable[[Project], Project]:
        selection, name, by = self._document.selection, screen.name, drag.by
        field = drag.field
        if drag.what is _What.RIGHT_EDGE and field is not None:
            width = _stretch(screen.fields[field], drag)[1]
            return lambda project: edits.change_field(project, name, field, width=width)
        if drag.what is _What.LEFT_EDGE and field is not None:
            return lambda project: edits.stretch_field(project, name, field, drag.at[1])
        if selection.block is not None:
            block = block_of(selection.block)
            if drag.copies:
                return lambda project: edits.copy_block(project, name, block, *by)
            return lambda project: edits.move_block(project, name, block, *by)
        fields = selection.fields
        if drag.copies:
            return lambda project: edits.copy_fields(project, name, fields, *by)
        return lambda project: edits.move_fields(project, name, fields, *by)

    def _release(self, row: int, column: int, modifiers: Qt.KeyboardModifier) -> None:
        drag, screen = self._drag, self._document.screen
        if drag is not None and drag.moved and drag.what is _What.MOVE:
            drag.copies = bool(modifiers & _CTRL)
        self._end()
        if drag is None or screen is None or drag.what is _What.SELECT:
            return
        if not drag.moved:
            self._click(screen, drag)
            return
        drag.at = (row, column)
        self._document.seal()
        if drag.what is _What.MOVE:
            self._drop(drag)
        elif drag.field is not None:
            left, width = _stretch(screen.fields[drag.field], drag)
            if drag.what is _What.LEFT_EDGE:
                self._arranging.stretch_left(drag.field, left)
            else:
                self._arranging.resize(drag.field, width)
        self._document.seal()

    def _drop(self, drag: _Drag) -> None:
        if drag.by != (0, 0):
            (self._arranging.copy if drag.copies else self._arranging.move)(*drag.by)

    def _click(self, screen: Screen, drag: _Drag) -> None:
        """The button went down and up on one cell."""
        index, chosen = drag.field, self._document.selection.fields
        if drag.what is not _What.MOVE:
            return
        if drag.toggles and index is not None:
            fields = tuple(other for other in chosen if other != index) if index in chosen else (*chosen, index)
            self._document.select(Selection(screen.name, drag.start, fields))
        else:
            self._commands.go(*drag.start)

    def _end(self) -> None:
        self._drag = None
        self._grid.set_ghost(None)
        self._grid.unsetCursor()
        self.said.emit("")

    def _double_clicked(self, row: int, column: int) -> None:
        screen = self._document.screen
        if screen is None:
            return
        self._end()
        if field_at(screen, row, column) is not None:
            self.field_opened.emit()
        else:
            self._commands.select_word(row, column)


def _stretch(field: Field, drag: _Drag) -> tuple[int, int]:
    """Where a field would begin, and its width, with the dragged edge at the mouse."""
    column, end = field.at[1], field.at[1] + field.width
    if drag.what is _What.LEFT_EDGE:
        left = min(drag.at[1], end - 1)
        return left, end - left
    return column, max(1, drag.at[1] - column + 1)
