"""The screen under edit: the face with a cursor, its tool bar, and a line that says what lies under the cursor."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import replace
from typing import Final

from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QRect, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QMenu,
    QScrollArea,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.panel.layout import Layout
from app.project import edits
from app.project.binding import value_span
from app.project.model import Field, Project, Screen
from app.signals.text import number_digits
from widgets.cells import Outline
from widgets.document import Document, Edit, Selection
from widgets.face import PanelFace
from widgets.icons import cross_icon, minus_icon, plus_icon, tool
from widgets.notice import Notice
from widgets.signal_picker import SignalPicker, kinds
from widgets.specimen import Shown, specimen_rows, width_needed

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
        self._insert = False
        self._wrong: frozenset[int] = frozenset()
        self._drag: _Drag | None = None
        self.face = PanelFace()
        self.face.set_editing(True)
        self._build()
        self.face.edit_key.connect(self._key)
        self.face.text_composed.connect(self._type)
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
        self.place_button = QToolButton()
        self.place_button.setText(self.tr("Place a field"))
        self.place_button.setIcon(plus_icon())
        self.place_button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.place_button.setToolTip(self.tr("Place a field at the cursor (Ctrl+Enter)"))
        self.place_button.setAutoRaise(True)
        self.place_button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.place_button.clicked.connect(self.pick_signal)
        self.delete_button = tool(
            cross_icon(), self.tr("Delete the field"), self, self.tr("Delete the selected fields (Delete)")
        )
        self.delete_button.clicked.connect(self.delete_fields)
        self.contents = QComboBox()
        self.contents.setAccessibleName(self.tr("What the fields show"))
        self.contents.setToolTip(self.tr("What the fields show while you design"))
        self.contents.addItem(self.tr("Sample values"), Shown.SAMPLE)
        self.contents.addItem(self.tr("Widest values"), Shown.WIDEST)
        self.contents.addItem(self.tr("Marks"), Shown.MARKS)
        self.contents.activated.connect(self._contents_chosen)
        self.mode = QToolButton()
        self.mode.setCheckable(True)
        self.mode.setAutoRaise(True)
        self.mode.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.mode.setToolTip(self.tr("Typing overwrites or inserts (Insert)"))
        self.mode.clicked.connect(self._turn_insert)
        self.keys = QToolButton()
        self.keys.setText(self.tr("Keys"))
        self.keys.setCheckable(True)
        self.keys.setChecked(True)
        self.keys.setAutoRaise(True)
        self.keys.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.keys.setToolTip(self.tr("Show the keys of the panel; pressing one goes where it turns"))
        self.keys.toggled.connect(self.face.set_keys_shown)
        self.smaller = tool(minus_icon(), self.tr("Smaller"), self, self.tr("Smaller cells (Ctrl+-)"))
        self.fitting = QToolButton()
        self.fitting.setText(self.tr("Fit"))
        self.fitting.setAutoRaise(True)
        self.fitting.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.fitting.setToolTip(self.tr("As large as fits (Ctrl+0)"))
        self.larger = tool(plus_icon(), self.tr("Larger"), self, self.tr("Larger cells (Ctrl++)"))
        self.smaller.clicked.connect(lambda: self._zoom(-2))
        self.larger.clicked.connect(lambda: self._zoom(2))
        self.fitting.clicked.connect(lambda: self.face.set_zoom(0))
        bar = QHBoxLayout()
        bar.setContentsMargins(6, 2, 6, 2)
        bar.setSpacing(4)
        bar.addWidget(self.place_button)
        bar.addWidget(self.delete_button)
        bar.addStretch(1)
        bar.addWidget(self.mode)
        bar.addWidget(self.keys)
        bar.addSpacing(8)
        bar.addWidget(self.contents)
        bar.addSpacing(8)
        for widget in (self.smaller, self.fitting, self.larger):
            bar.addWidget(widget)
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
        layout.addLayout(bar)
        layout.addWidget(self.area, 1)
        layout.addWidget(self.empty, 1)
        layout.addWidget(self.status)

    # What is shown

    @property
    def shown(self) -> Shown:
        """What stands in the fields."""
        return self._shown

    def set_shown(self, shown: Shown) -> None:
        """Marks, sample or widest values in the fields."""
        self._shown = shown
        self.contents.setCurrentIndex(self.contents.findData(shown))
        self._show()

    def set_wrong(self, fields: frozenset[int]) -> None:
        """The fields of this screen that a finding is about."""
        if fields != self._wrong:
            self._wrong = fields
            self._outline()

    def say(self, text: str) -> None:
        """Show why something was not done, without getting in the way."""
        self.notice.say(text)

    def _contents_chosen(self) -> None:
        self._shown = self.contents.currentData()
        self._show()

    def _turn_insert(self) -> None:
        self._insert = not self._insert
        self._show()

    def _zoom(self, by: int) -> None:
        now = self.face.zoom or self.face.grid.pixels
        self.face.set_zoom(now + by)

    def _show(self) -> None:
        project, screen = self._document.project, self._document.screen
        self.area.setVisible(screen is not None)
        self.status.setVisible(screen is not None)
        self.empty.setVisible(screen is None)
        for button in (
            self.place_button,
            self.contents,
            self.mode,
            self.keys,
            self.smaller,
            self.larger,
            self.fitting,
        ):
            button.setEnabled(screen is not None)
        self.mode.setText(self.tr("Insert") if self._insert else self.tr("Overwrite"))
        self.mode.setChecked(self._insert)
        self.delete_button.setEnabled(bool(self._document.selection.fields))
        if screen is None:
            return
        self.face.set_panel(project.panel)
        self.face.set_rows(specimen_rows(project, screen, self._shown))
        selection = self._document.selection
        self.face.grid.set_cursor(selection.cell, self._insert)
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

    # Keys

    def _key(self, event: QKeyEvent) -> None:
        if self._document.screen is not None and self._handle(event):
            event.accept()

    def _handle(self, event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if key in _ARROWS:
            return self._arrow(_ARROWS[key], modifiers)
        if key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            return self._to_end(key == Qt.Key.Key_End, modifiers)
        if key in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown) and modifiers == _PLAIN:
            self.next_screen_wanted.emit(-1 if key == Qt.Key.Key_PageUp else 1)
            return True
        if key == Qt.Key.Key_Insert and modifiers == _PLAIN:
            self._turn_insert()
            return True
        if key == Qt.Key.Key_Delete and modifiers == _PLAIN:
            self._delete()
            return True
        if key == Qt.Key.Key_Backspace and modifiers in (_PLAIN, _SHIFT):
            self._backspace()
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
            self.duplicate_field()
            return True
        if event.matches(QKeySequence.StandardKey.SelectAll):
            panel = self._document.project.panel
            self._select_block(QRect(0, 0, panel.columns, panel.rows))
            return True
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
            return True
        if event.matches(QKeySequence.StandardKey.Cut):
            self.copy()
            self._delete()
            return True
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
            return True
        text = event.text()
        if text and text.isprintable() and not modifiers & (_CTRL | _ALT | Qt.KeyboardModifier.MetaModifier):
            self._type(text)
            return True
        # AltGr arrives as Ctrl+Alt on some systems and still types a character.
        if text and text.isprintable() and modifiers & _CTRL and modifiers & _ALT:
            self._type(text)
            return True
        return False

    def _arrow(self, way: tuple[int, int], modifiers: Qt.KeyboardModifier) -> bool:
        selection = self._document.selection
        row, column = selection.cell
        if modifiers == _PLAIN:
            self._go(row + way[0], column + way[1])
            return True
        if modifiers == _SHIFT:
            self._stretch_block(row + way[0], column + way[1])
            return True
        if modifiers == _ALT:
            self.move_fields(*way)
            return True
        if modifiers in (_ALT | _SHIFT, _CTRL | _ALT) and way[0] == 0:
            self.widen_field(way[1])
            return True
        if modifiers == _CTRL and way[0] == 0:
            self._jump(way[1])
            return True
        return False

    def _go(self, row: int, column: int) -> None:
        """Put the cursor on a cell; a field there is selected with it."""
        panel, screen = self._document.project.panel, self._document.screen
        if screen is None:
            return
        row, column = min(max(row, 0), panel.rows - 1), min(max(column, 0), panel.columns - 1)
        index = field_at(screen, row, column)
        self._document.select(Selection(screen.name, (row, column), () if index is None else (index,)))

    def _to_end(self, end: bool, modifiers: Qt.KeyboardModifier) -> bool:
        panel = self._document.project.panel
        row, _ = self._document.selection.cell
        column = panel.columns - 1 if end else 0
        if modifiers == _PLAIN:
            self._go(row, column)
        elif modifiers == _CTRL:
            self._go(panel.rows - 1 if end else 0, column)
        elif modifiers == _SHIFT:
            self._stretch_block(row, column)
        else:
            return False
        return True

    def _jump(self, way: int) -> None:
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
        self._go(*target)

    def _stretch_block(self, row: int, column: int) -> None:
        panel, selection = self._document.project.panel, self._document.selection
        row, column = min(max(row, 0), panel.rows - 1), min(max(column, 0), panel.columns - 1)
        anchor = self._anchor(selection)
        self._select_block(_block(anchor, (row, column)), (row, column))

    def _anchor(self, selection: Selection) -> tuple[int, int]:
        block = selection.block
        if block is None:
            return selection.cell
        row, column = selection.cell
        return (
            block.bottom() if row == block.top() else block.top(),
            block.right() if column == block.left() else block.left(),
        )

    def _select_block(self, block: QRect, cell: tuple[int, int] | None = None) -> None:
        screen = self._document.screen
        if screen is None:
            return
        inside = tuple(
            index
            for index, field in enumerate(screen.fields)
            if block.contains(QRect(field.at[1], field.at[0], field.width, 1))
        )
        self._document.select(Selection(screen.name, cell or (block.top(), block.left()), inside, block))

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
            row, _ = self._document.selection.cell
            self._go(row + 1, 0)
        return True

    # Text

    def _type(self, text: str) -> None:
        screen = self._document.screen
        if screen is None or not text:
            return
        row, column = self._document.selection.cell
        insert = self._insert
        after = self._behind(row, column + len(text))
        self._edit(
            self.tr("Type"),
            lambda project: edits.type_text(project, screen.name, row, column, text, insert=insert),
            merge=("type", screen.name, row),
            cell=after,
        )

    def _behind(self, row: int, column: int) -> tuple[int, int]:
        """Where the cursor goes after the last character: behind a full row to the next one."""
        panel = self._document.project.panel
        if column < panel.columns:
            return row, column
        return (row + 1, 0) if row + 1 < panel.rows else (row, panel.columns - 1)

    def _backspace(self) -> None:
        screen = self._document.screen
        if screen is None:
            return
        row, column = self._document.selection.cell
        if self._document.selection.block is not None:
            self._delete()
            return
        if column == 0:
            return
        insert = self._insert
        self._edit(
            self.tr("Delete text"),
            lambda project: edits.erase_text(project, screen.name, row, column - 1, 1, close_up=insert),
            merge=("erase", screen.name, row),
            cell=(row, column - 1),
        )

    def _delete(self) -> None:
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
        insert = self._insert
        self._edit(
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

        self._edit(self.tr("Clear cells"), edit, cell=(block.top(), block.left()))

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

        self._edit(self.tr("Paste"), edit, cell=(top + len(lines) - 1, min(left + len(lines[-1]), panel.columns - 1)))

    # Fields

    def pick_signal(self) -> None:
        """Ask for a signal and place a field for it at the cursor."""
        if self._document.screen is None:
            return
        picker = SignalPicker(self._document.project, self)
        picker.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        picker.picked.connect(self.place_field)
        picker.new_signal_wanted.connect(self.new_signal_wanted)
        picker.finished.connect(lambda _result: self.face.setFocus(Qt.FocusReason.OtherFocusReason))
        picker.open()

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
        self._edit(name, lambda project: edits.delete_fields(project, screen.name, chosen))

    def duplicate_field(self) -> None:
        """Place a copy of the selected field at the nearest free cells below or to the right."""
        screen, chosen = self._document.screen, self._document.selection.fields
        if screen is None or len(chosen) != 1:
            self.say(self.tr("Select one field to duplicate it."))
            return
        field = screen.fields[chosen[0]]
        free = free_place(self._document.project, screen, field)
        if free is None:
            self.say(self.tr("There is no room on this screen for another field of that width."))
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
            self.say(self.tr("Select a field to move it: put the cursor on it."))
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
            self.say(self.tr("Select one field to change its width: put the cursor on it."))
            return
        index = selection.fields[0]
        self._resize(index, screen.fields[index].width + by)

    def _resize(self, index: int, width: int) -> None:
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

    def _edit(
        self,
        name: str,
        edit: Edit,
        *,
        merge: Hashable = None,
        cell: tuple[int, int] | None = None,
    ) -> None:
        selection = self._document.selection
        where = Selection(selection.screen, cell or selection.cell)
        reason = self._document.do(name, edit, merge=merge, select=where)
        if reason is None:
            self.notice.hide()
            self._select_under()

    def _select_under(self) -> None:
        """Select the field that the cursor has come to."""
        selection, screen = self._document.selection, self._document.screen
        if screen is None or selection.fields:
            return
        index = field_at(screen, *selection.cell)
        if index is not None:
            self._document.select(replace(selection, fields=(index,)))

    # The mouse

    def _cell_pressed(self, row: int, column: int, modifiers: Qt.KeyboardModifier) -> None:
        screen = self._document.screen
        if screen is None:
            return
        if modifiers & _SHIFT:
            self._stretch_block(row, column)
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
                self._select_block(_block(drag.start, (row, column)), (row, column))
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
            self._resize(drag.field, drag.width)
        elif drag.by != (0, 0):
            self._document.seal()
            self.move_fields(*drag.by)
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
            self._go(row, column)

    def _menu(self, at: QPoint) -> None:
        screen = self._document.screen
        if screen is None:
            return
        cell = self.face.grid.cell_at(at)
        if cell is not None and field_at(screen, *cell) not in self._document.selection.fields:
            self._go(*cell)
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
                menu.addAction(self.tr("Duplicate"), self.duplicate_field)
            menu.addAction(self.tr("Delete"), self.delete_fields)
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

    def changeEvent(self, event: QEvent) -> None:
        """Follow a change of the palette or the font."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "larger"):
            self.place_button.setIcon(plus_icon())
            self.delete_button.setIcon(cross_icon())
            self.smaller.setIcon(minus_icon())
            self.larger.setIcon(plus_icon())


class _Drag:
    """A drag of the mouse: from which cell, and the field that it moves or resizes; none selects a block."""

    def __init__(self, start: tuple[int, int], field: int | None, resizing: bool = False) -> None:
        self.start = start
        self.field = field
        self.resizing = resizing
        self.by = (0, 0)
        self.width = 0


def field_at(screen: Screen, row: int, column: int) -> int | None:
    """The index of the field on a cell; the later of two, which is the one that shows."""
    for index in range(len(screen.fields) - 1, -1, -1):
        field = screen.fields[index]
        if field.at[0] == row and field.at[1] <= column < field.at[1] + field.width:
            return index
    return None


def free_place(project: Project, screen: Screen, field: Field) -> tuple[int, int] | None:
    """The nearest cells for a copy of a field: the same columns of the rows below, then anywhere in reading order."""
    panel = project.panel
    spots = [(row, field.at[1]) for row in range(field.at[0] + 1, panel.rows)]
    spots += [(row, column) for row in range(panel.rows) for column in range(panel.columns - field.width + 1)]
    for row, column in spots:
        if column + field.width <= panel.columns and all(
            other.at[0] != row or other.at[1] + other.width <= column or column + field.width <= other.at[1]
            for other in screen.fields
        ):
            return row, column
    return None


def describe_field(project: Project, field: Field) -> str:
    """Signal, kind, width and what the signal can be, in one line."""
    signal = project.signal_named.get(field.signal)
    if signal is None:
        return translate("ScreenEditor", "'{name}', a signal that does not exist").format(name=field.signal)
    text = translate("ScreenEditor", "{signal}, {width} wide").format(signal=field.signal, width=field.width)
    needed = width_needed(project, field.signal, field.kind)
    if field.kind != "bar" and needed > field.width:
        text += translate("ScreenEditor", " (needs {needed})").format(needed=needed)
    span = value_span(project, field.signal)
    if span is not None and not signal.texts:
        low, high = (number_digits(value, signal.decimals) for value in span)
        text += (
            translate("ScreenEditor", "; can be {low} to {high} {unit}")
            .format(low=low, high=high, unit=signal.unit)
            .rstrip()
        )
    if field.entry:
        text += translate("ScreenEditor", "; entry")
    return text


def _block(one: tuple[int, int], other: tuple[int, int]) -> QRect:
    top, bottom = sorted((one[0], other[0]))
    left, right = sorted((one[1], other[1]))
    return QRect(left, top, right - left + 1, bottom - top + 1)
