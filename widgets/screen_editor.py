"""The screen under edit: the face with a cursor, its tool bar, and a line that says what lies under the cursor."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from PySide6.QtCore import QCoreApplication, QPoint, QRect, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QMenu,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.panel.layout import Layout
from app.project import edits
from app.project.model import Project, Screen
from widgets.cells import Outline
from widgets.document import Document, Selection
from widgets.editor_bar import EditorBar
from widgets.face import PanelFace
from widgets.field_places import describe_field, field_at
from widgets.notice import Notice
from widgets.screen_commands import ScreenCommands, block_between
from widgets.signal_picker import SignalPicker, kinds
from widgets.specimen import Shown, specimen_rows

translate = QCoreApplication.translate
MOST_PASTED: Final = 200_000
"""Characters of the clipboard that are looked at: far more than any panel has, far less than a clipboard can hold."""
_ARROWS: Final = {
    Qt.Key.Key_Left: (0, -1),
    Qt.Key.Key_Right: (0, 1),
    Qt.Key.Key_Up: (-1, 0),
    Qt.Key.Key_Down: (1, 0),
}
_LINES: Final = {
    "number": Qt.PenStyle.SolidLine,
    "choice": Qt.PenStyle.DashLine,
    "bar": Qt.PenStyle.DotLine,
}
_PLAIN: Final = Qt.KeyboardModifier.NoModifier
_SHIFT: Final = Qt.KeyboardModifier.ShiftModifier
_CTRL: Final = Qt.KeyboardModifier.ControlModifier
_ALT: Final = Qt.KeyboardModifier.AltModifier


class ScreenEditor(QWidget):
    """Text is typed in place; fields are placed, moved, resized and deleted by keys or by the mouse."""

    field_opened = Signal()
    """Enter or a double click on a field: its properties are wanted."""
    next_screen_wanted = Signal(int)
    new_signal_wanted = Signal(str)

    def __init__(self, document: Document, notice: Notice, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.notice = notice
        self._shown = Shown.SAMPLE
        self.commands = ScreenCommands(document, self)
        self.commands.done.connect(notice.hide)
        self._wrong: frozenset[int] = frozenset()
        self._drag: _Drag | None = None
        self.face = PanelFace()
        self.face.set_editing(True)
        self._build()
        self.face.edit_key.connect(self._key)
        self.face.text_composed.connect(self.commands.type)
        self.face.key_pressed.connect(self._follow_key)
        grid = self.face.grid
        grid.cell_pressed.connect(self._cell_pressed)
        grid.cell_dragged.connect(self._cell_dragged)
        grid.cell_released.connect(self._cell_released)
        grid.cell_double_clicked.connect(self._cell_double_clicked)
        grid.handle_pressed.connect(self._handle_pressed)
        grid.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        grid.customContextMenuRequested.connect(self._menu)
        document.changed.connect(self._show)
        document.selection_changed.connect(self._show)
        self._show()

    def _build(self) -> None:
        self.bar = EditorBar()
        self.bar.place_wanted.connect(self.pick_signal)
        self.bar.delete_wanted.connect(self.commands.delete_fields)
        self.bar.insert_turned.connect(self._turn_insert)
        self.bar.keys_toggled.connect(self.face.set_keys_shown)
        self.bar.shown_chosen.connect(self.set_shown)
        self.bar.zoom_wanted.connect(self._zoom)
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setWidget(self.face)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.status = QLabel()
        self.status.setContentsMargins(10, 3, 10, 4)
        self.status.setAccessibleName(self.tr("Under the cursor"))
        self.status.setTextFormat(Qt.TextFormat.PlainText)
        self.status.setMinimumWidth(10)
        self.empty = QLabel(
            self.tr("This project has no screen yet.\nAdd one with the plus sign over the list at the left.")
        )
        self.empty.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.empty.setProperty("look", "faint")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.bar)
        layout.addWidget(self.area, 1)
        layout.addWidget(self.empty, 1)
        layout.addWidget(self.status)

    @property
    def shown(self) -> Shown:
        """What stands in the fields."""
        return self._shown

    def set_shown(self, shown: Shown) -> None:
        """Marks, sample or widest values in the fields."""
        self._shown = shown
        self._show()

    def set_wrong(self, fields: frozenset[int]) -> None:
        """The fields of this screen that a finding is about."""
        if fields != self._wrong:
            self._wrong = fields
            self._outline()

    def say(self, text: str) -> None:
        """Show why something was not done, without getting in the way."""
        self.notice.say(text)

    def _turn_insert(self) -> None:
        self.commands.insert = not self.commands.insert
        self._show()

    def _zoom(self, by: int) -> None:
        now = self.face.zoom or self.face.grid.pixels
        self.face.set_zoom(now + by if by else 0)

    def _show(self) -> None:
        project, screen = self._document.project, self._document.screen
        self.area.setVisible(screen is not None)
        self.status.setVisible(screen is not None)
        self.empty.setVisible(screen is None)
        self.bar.show_state(
            screen=screen is not None,
            insert=self.commands.insert,
            fields=bool(self._document.selection.fields),
            shown=self._shown,
        )
        if screen is None:
            return
        self.face.set_panel(project.panel)
        self.face.set_rows(specimen_rows(project, screen, self._shown))
        selection = self._document.selection
        self.face.grid.set_cursor(selection.cell, self.commands.insert)
        self.face.grid.set_selection(selection.block)
        self._outline()
        self._say_turns(project, screen)
        self.status.setText(self._under_cursor(project, screen, selection))
        row, column = selection.cell
        area = self.face.grid.cell_rect(row, column)
        middle = self.face.grid.mapTo(self.face, area.center())
        self.area.ensureVisible(middle.x(), middle.y(), area.width() * 2, area.height() * 2)

    def _say_turns(self, project: Project, screen: Screen) -> None:
        layout = Layout.of(project)
        for key, button in self.face.keypad.buttons.items():
            turn = layout.key_turn(screen.name, key)
            if turn is None:
                button.setToolTip(self.tr("Turns no screen here"))
            else:
                button.setToolTip(self.tr("Turns to '{screen}'").format(screen=turn[2]))

    def _follow_key(self, key: str) -> None:
        """A key of the panel was pressed on the screen: go where it turns."""
        screen = self._document.screen
        if screen is None:
            return
        turn = Layout.of(self._document.project).key_turn(screen.name, key)
        if turn is None:
            self.say(self.tr("On this screen the key '{key}' turns to no other.").format(key=key))
        else:
            self._document.select_screen(turn[2])

    def _outline(self) -> None:
        screen = self._document.screen
        if screen is None:
            return
        chosen = self._document.selection.fields
        self.face.grid.set_outlines(
            Outline(
                *field.at,
                field.width,
                _LINES[field.kind],
                entry=field.entry,
                selected=index in chosen,
                wrong=index in self._wrong,
            )
            for index, field in enumerate(screen.fields)
        )

    def _under_cursor(self, project: Project, screen: Screen, selection: Selection) -> str:
        row, column = selection.cell
        where = self.tr("Row {row}, column {column}").format(row=row + 1, column=column + 1)
        if selection.block is not None:
            block = selection.block
            where += self.tr("; {rows} x {columns} cells selected").format(rows=block.height(), columns=block.width())
        if len(selection.fields) > 1:
            return where + self.tr("; {count} fields selected").format(count=len(selection.fields))
        index = selection.fields[0] if selection.fields else field_at(screen, row, column)
        if index is None:
            return where
        field = screen.fields[index]
        return f"{where}   \N{MIDDLE DOT}   {describe_field(project, field)}"

    def _key(self, event: QKeyEvent) -> None:
        if self._document.screen is not None and self._handle(event):
            event.accept()

    def _handle(self, event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if key in _ARROWS:
            return self._arrow(_ARROWS[key], modifiers)
        if key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            return self.commands.to_end(key == Qt.Key.Key_End, modifiers)
        if key in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown) and modifiers == _PLAIN:
            self.next_screen_wanted.emit(-1 if key == Qt.Key.Key_PageUp else 1)
            return True
        if key == Qt.Key.Key_Insert and modifiers == _PLAIN:
            self._turn_insert()
            return True
        if key == Qt.Key.Key_Delete and modifiers == _PLAIN:
            self.commands.delete()
            return True
        if key == Qt.Key.Key_Backspace and modifiers in (_PLAIN, _SHIFT):
            self.commands.backspace()
            return True
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            return self._enter(modifiers)
        if key == Qt.Key.Key_Escape and modifiers == _PLAIN:
            return self._escape()
        if modifiers == _CTRL and key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal, Qt.Key.Key_Minus, Qt.Key.Key_0):
            if key == Qt.Key.Key_0:
                self.face.set_zoom(0)
            else:
                self._zoom(-2 if key == Qt.Key.Key_Minus else 2)
            return True
        if modifiers == _CTRL and key == Qt.Key.Key_D:
            self.commands.duplicate_field()
            return True
        if event.matches(QKeySequence.StandardKey.SelectAll):
            panel = self._document.project.panel
            self.commands.select_block(QRect(0, 0, panel.columns, panel.rows))
            return True
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
            return True
        if event.matches(QKeySequence.StandardKey.Cut):
            self.copy()
            self.commands.delete()
            return True
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
            return True
        text = event.text()
        if text and text.isprintable() and not modifiers & (_CTRL | _ALT | Qt.KeyboardModifier.MetaModifier):
            self.commands.type(text)
            return True
        # AltGr arrives as Ctrl+Alt on some systems and still types a character.
        if text and text.isprintable() and modifiers & _CTRL and modifiers & _ALT:
            self.commands.type(text)
            return True
        return False

    def _arrow(self, way: tuple[int, int], modifiers: Qt.KeyboardModifier) -> bool:
        selection = self._document.selection
        row, column = selection.cell
        if modifiers == _PLAIN:
            self.commands.go(row + way[0], column + way[1])
            return True
        if modifiers == _SHIFT:
            self.commands.stretch_block(row + way[0], column + way[1])
            return True
        if modifiers == _ALT:
            self.commands.move_fields(*way)
            return True
        if modifiers in (_ALT | _SHIFT, _CTRL | _ALT) and way[0] == 0:
            self.commands.widen_field(way[1])
            return True
        if modifiers == _CTRL and way[0] == 0:
            self.commands.jump(way[1])
            return True
        return False

    def _escape(self) -> bool:
        if self._drag is not None:
            self._end_drag()
            return True
        selection = self._document.selection
        if selection.fields or selection.block is not None:
            self._document.select(Selection(selection.screen, selection.cell))
            return True
        self.notice.hide()
        return False

    def _enter(self, modifiers: Qt.KeyboardModifier) -> bool:
        if modifiers == _CTRL:
            self.pick_signal()
            return True
        if modifiers != _PLAIN:
            return False
        if self._document.selection.fields:
            self.field_opened.emit()
        else:
            self.commands.new_line()
        return True

    def copy(self) -> None:
        """Put the selected cells, or the row of the cursor, on the clipboard as plain text."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        rows = [row.text for row in self.face.rows]
        block = selection.block
        if block is None:
            text = rows[selection.cell[0]].rstrip()
        else:
            lines = rows[block.top() : block.bottom() + 1]
            text = "\n".join(line[block.left() : block.right() + 1].rstrip() for line in lines)
        QGuiApplication.clipboard().setText(text)

    def paste(self) -> None:
        """Write the plain text of the clipboard over the cells from the cursor on."""
        screen = self._document.screen
        panel = self._document.project.panel
        text = QGuiApplication.clipboard().text()[:MOST_PASTED]
        lines = text.replace("\t", " ").splitlines()
        if screen is None or not lines:
            return
        top, left = self._document.selection.cell
        if top + len(lines) > panel.rows or left + max(len(line) for line in lines) > panel.columns:
            self.say(
                self.tr(
                    "The text on the clipboard needs {rows} x {columns} cells; there is no such room at the cursor."
                ).format(rows=len(lines), columns=max(len(line) for line in lines))
            )
            return

        def edit(project: Project) -> Project:
            for number, line in enumerate(lines):
                if line:
                    project = edits.type_text(project, screen.name, top + number, left, line)
            return project

        self.commands.edit(
            self.tr("Paste"), edit, cell=(top + len(lines) - 1, min(left + len(lines[-1]), panel.columns - 1))
        )

    def pick_signal(self) -> None:
        """Ask for a signal and place a field for it at the cursor."""
        if self._document.screen is None:
            return
        picker = SignalPicker(self._document.project, self)
        picker.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        picker.picked.connect(self.commands.place_field)
        picker.new_signal_wanted.connect(self.new_signal_wanted)
        picker.finished.connect(lambda _result: self.face.setFocus(Qt.FocusReason.OtherFocusReason))
        picker.open()

    def _cell_pressed(self, row: int, column: int, modifiers: Qt.KeyboardModifier) -> None:
        screen = self._document.screen
        if screen is None:
            return
        if modifiers & _SHIFT:
            self.commands.stretch_block(row, column)
            return
        index = field_at(screen, row, column)
        chosen = self._document.selection.fields
        if index is not None and modifiers & _CTRL:
            fields = tuple(other for other in chosen if other != index) if index in chosen else (*chosen, index)
            self._document.select(Selection(screen.name, (row, column), fields))
            return
        if index is not None:
            fields = chosen if index in chosen and len(chosen) > 1 else (index,)
            self._document.select(replace(self._document.selection, cell=(row, column), fields=fields))
            self._drag = _Drag((row, column), index)
            return
        self._document.select(Selection(screen.name, (row, column)))
        self._drag = _Drag((row, column), None)

    def _handle_pressed(self, index: int) -> None:
        self._drag = _Drag(self._document.selection.cell, index, resizing=True)

    def _cell_dragged(self, row: int, column: int) -> None:
        drag, screen = self._drag, self._document.screen
        if drag is None or screen is None:
            return
        if drag.field is None:
            if (row, column) != drag.start or self._document.selection.block is not None:
                self.commands.select_block(block_between(drag.start, (row, column)), (row, column))
            return
        field = screen.fields[drag.field]
        if drag.resizing:
            drag.width = max(1, column - field.at[1] + 1)
            at = field.at
            width = drag.width
        else:
            drag.by = (row - drag.start[0], column - drag.start[1])
            at = (field.at[0] + drag.by[0], field.at[1] + drag.by[1])
            width = field.width
        fits = self._fits(screen, drag)
        self.face.grid.set_ghost(Outline(*at, width, _LINES[field.kind]), fits)

    def _fits(self, screen: Screen, drag: _Drag) -> bool:
        """Whether the edit that the drag stands for would be taken."""
        project = self._document.project
        try:
            if drag.resizing and drag.field is not None:
                edits.change_field(project, screen.name, drag.field, width=drag.width)
            else:
                edits.move_fields(project, screen.name, self._document.selection.fields, *drag.by)
        except edits.EditRefused:
            return False
        return True

    def _cell_released(self, _row: int, _column: int) -> None:
        drag, screen = self._drag, self._document.screen
        self._end_drag()
        if drag is None or screen is None or drag.field is None:
            return
        if drag.resizing and drag.width:
            self._document.seal()
            self.commands.resize(drag.field, drag.width)
        elif drag.by != (0, 0):
            self._document.seal()
            self.commands.move_fields(*drag.by)
        self._document.seal()

    def _end_drag(self) -> None:
        self._drag = None
        self.face.grid.set_ghost(None)

    def _cell_double_clicked(self, row: int, column: int) -> None:
        screen = self._document.screen
        if screen is None:
            return
        self._end_drag()
        if field_at(screen, row, column) is not None:
            self.field_opened.emit()
        else:
            self.commands.go(row, column)

    def _menu(self, at: QPoint) -> None:
        screen = self._document.screen
        if screen is None:
            return
        cell = self.face.grid.cell_at(at)
        if cell is not None and field_at(screen, *cell) not in self._document.selection.fields:
            self.commands.go(*cell)
        menu = QMenu(self)
        menu.addAction(self.tr("Place a field\u2026"), self.pick_signal)
        chosen = self._document.selection.fields
        if chosen:
            if len(chosen) == 1:
                index = chosen[0]
                menu.addAction(self.tr("Properties"), self.field_opened.emit)
                show_as = menu.addMenu(self.tr("Show as"))
                for value, text in kinds():
                    action = show_as.addAction(text)
                    action.setCheckable(True)
                    action.setChecked(screen.fields[index].kind == value)
                    action.triggered.connect(lambda _on=False, value=value: self._show_as(index, value))
                menu.addAction(self.tr("Duplicate"), self.commands.duplicate_field)
            menu.addAction(self.tr("Delete"), self.commands.delete_fields)
        menu.addSeparator()
        menu.addAction(self.tr("Copy text"), self.copy)
        menu.addAction(self.tr("Paste text"), self.paste)
        menu.exec(self.face.grid.mapToGlobal(at))

    def _show_as(self, index: int, kind: str) -> None:
        screen = self._document.screen
        if screen is not None:
            self._document.do(
                self.tr("Change field"), lambda project: edits.change_field(project, screen.name, index, kind=kind)
            )


class _Drag:
    """A drag of the mouse: from which cell, and the field that it moves or resizes; none selects a block."""

    def __init__(self, start: tuple[int, int], field: int | None, resizing: bool = False) -> None:
        self.start = start
        self.field = field
        self.resizing = resizing
        self.by = (0, 0)
        self.width = 0
