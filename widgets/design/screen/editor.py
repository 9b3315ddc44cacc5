"""The screen under edit: the face with a cursor, and the line that says what lies under the cursor."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QMenu,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.panel.layout import PanelLayout
from app.panel.rendering import Rows
from app.project.model import Project, Screen
from app.signals.reading import Reading
from widgets.design.forms.blinking import BlinkDialog
from widgets.design.forms.signal_picker import SignalPicker, kinds
from widgets.design.screen.actions import EditorActions
from widgets.design.screen.arranging import Arranging
from widgets.design.screen.clipboard import Clipboard
from widgets.design.screen.commands import ScreenCommands
from widgets.design.screen.cursor_line import CursorLine
from widgets.design.screen.field_places import field_at
from widgets.design.screen.find_bar import FindBar
from widgets.design.screen.keys import EditorKeys
from widgets.design.screen.live_rows import LiveReadings, live_rows, reading_in_words
from widgets.design.screen.mouse import KIND_LINES, EditorMouse
from widgets.design.screen.tools import EditorTools
from widgets.design.screen.try_it import Tryout
from widgets.document.document import Document
from widgets.face.face import PanelFace
from widgets.face.marks import Outline
from widgets.face.sample_values import FieldContents, specimen_rows
from widgets.kit import palette
from widgets.kit.commands import mark_entry
from widgets.kit.notice import Notice
from widgets.kit.plain import plain_label, plain_tip


class ScreenEditor(QWidget):
    """Text is typed in place; fields are placed, moved, resized and deleted by keys or by the mouse."""

    field_opened = Signal()
    """Enter or a double click on a field: its properties are wanted."""
    next_screen_wanted = Signal(int)
    new_signal_wanted = Signal(str)
    key_wanted = Signal(str)
    """What this key does here is to be shown, and changed."""
    trying_changed = Signal(bool)
    """The panel is operated in place from now on, or edited again."""
    wanted = Signal()
    """A command of the editor was chosen, perhaps while something else is in front."""

    def __init__(self, document: Document, notice: Notice, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.notice = notice
        self._shown = FieldContents.SAMPLE
        self._wrong: frozenset[int] = frozenset()
        self._wrong_rows: frozenset[int] = frozenset()
        self._live: LiveReadings | None = None
        self._in_front = True
        self._readings: dict[str, Reading] = {}
        self.face = PanelFace()
        self.face.set_editing(True)
        self.commands = ScreenCommands(document, self)
        self.arranging = Arranging(document, self.commands, self)
        self.clipboard = Clipboard(document, self.commands, lambda: self.face.rows, self)
        self.keys = EditorKeys(document, self.commands, self)
        self.mouse = EditorMouse(self.face.grid, document, self.commands, self.arranging, self)
        self._build()
        self.actions_of = EditorActions(self, self.face, self.commands, self.arranging, self.clipboard)
        self.tools = EditorTools(self.actions_of, self)
        self._connect()
        self.refresh()

    def _build(self) -> None:
        self.tryout = Tryout()
        self.tryout.hide()
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setWidget(self.face)
        for part in (self.face, self.area.viewport()):
            part.setAutoFillBackground(False)  # the canvas shows
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.area.installEventFilter(self)
        self.status = CursorLine()
        self.find_bar = FindBar(self._document)
        self.empty = plain_label(
            self.tr("This project has no screens yet.\nAdd one with the plus sign above the list on the left."),
            "faint",
            wrap=True,
        )
        self.empty.setAlignment(Qt.AlignmentFlag.AlignCenter)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.area, 1)
        layout.addWidget(self.empty, 1)
        layout.addWidget(self.status)
        layout.addWidget(self.find_bar)
        layout.addWidget(self.tryout, 1)

    def _connect(self) -> None:
        document, actions = self._document, self.actions_of
        self.tools.language_chosen.connect(document.choose_language)
        for source in (self.tools, actions):
            source.zoom_wanted.connect(self.zoom)
        actions.keys_toggled.connect(self.set_keys_shown)
        actions.shown_chosen.connect(self.set_shown)
        actions.chosen.connect(self.wanted)
        actions.insert_chosen.connect(self.set_insert)
        actions.blink_wanted.connect(self.ask_blinking)
        actions.find_wanted.connect(self.find_text)
        actions.replace_wanted.connect(self.replace_text)
        actions.find_next_wanted.connect(self.find_next)
        self.tryout.ended.connect(self._leave_tryout)
        self.commands.done.connect(self.notice.hide)
        self.clipboard.said.connect(self.say)
        self.keys.escaped.connect(self._escape)
        self.keys.next_screen_wanted.connect(self.next_screen_wanted)
        self.keys.field_opened.connect(self.field_opened)
        self.keys.place_wanted.connect(self.pick_signal)
        self.keys.try_wanted.connect(self.try_it)
        self.mouse.said.connect(self.say_drag)
        self.mouse.pointed.connect(self._bring_into_view)
        self.mouse.field_opened.connect(self.field_opened)
        self.find_bar.closed.connect(self._search_closed)
        self.face.edit_key.connect(self._key)
        self.face.edit_modifiers.connect(self.mouse.modifiers_changed)
        self.face.text_composed.connect(self.commands.type)
        self.face.key_pressed.connect(self._follow_key)
        self.face.keypad.menu_wanted.connect(self._key_menu)
        grid = self.face.grid
        grid.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        grid.customContextMenuRequested.connect(self._menu)
        document.shown_changed.connect(self._document_changed)

    # Trying it in place

    def try_it(self) -> None:
        """Operate the panel where it stands, with simulated values; once more, and it is edited again."""
        if self.tryout.running:
            self.tryout.end()
            return
        screen = self._document.screen
        if screen is None:
            self.say(self.tr("Add a screen first, then try it."))
            return
        document = self._document
        reason = self.tryout.begin(document.project, screen.name, self.face.zoom, document.language)
        if reason is not None:
            self.say(reason)
            return
        self.notice.hide()
        self._show_parts()
        self._show_state()
        self.tryout.show()
        self.tryout.setFocus()
        self.trying_changed.emit(True)

    def _leave_tryout(self, screen: str) -> None:
        focused = self.tryout.isAncestorOf(QApplication.focusWidget() or self)
        self.tryout.hide()
        self._document.select_screen(screen)
        self.refresh()
        if focused:
            self.face.setFocus()
        self.trying_changed.emit(False)

    # What is shown

    @property
    def shown(self) -> FieldContents:
        """What stands in the fields."""
        return self._shown

    def set_shown(self, shown: FieldContents) -> None:
        """Marks, sample, widest or live values in the fields."""
        self._shown = shown
        self.refresh()

    def set_readings_source(self, source: LiveReadings) -> None:
        """Where live values come from. The editor only reads there."""
        self._live = source
        source.changed.connect(self._readings_changed)
        self.refresh()

    def set_wrong(self, fields: frozenset[int], rows: frozenset[int] = frozenset()) -> None:
        """The fields and the rows of text of this screen that a finding is about."""
        if (fields, rows) != (self._wrong, self._wrong_rows):
            self._wrong, self._wrong_rows = fields, rows
            self._outline()

    def set_insert(self, on: bool) -> None:
        """Let typing move what stands behind it, or write over it."""
        self.commands.insert = on
        self.refresh()

    def set_keys_shown(self, on: bool) -> None:
        """Draw the keys of the panel below the glass, or leave them out."""
        self.face.set_keys_shown(on)
        self._show_state()

    def zoom(self, by: int) -> None:
        """Larger or smaller characters by so many pixels; 0: as large as fits."""
        self.face.set_zoom((self.face.zoom or self.face.grid.pixels) + by if by else 0)

    def say(self, text: str, button: str = "", deed: Callable[[], object] | None = None) -> None:
        """Show why something was not done, with a way out of it if there is one, without getting in the way.

        While a screen is tried it is said below the panel, and no button comes: nothing may lie over its keys.
        """
        if self.tryout.running:
            self.tryout.say(text)
        else:
            self.notice.say(text, button, deed)

    def _document_changed(self) -> None:
        if self.parentWidget() is None or not self.isHidden():  # behind another view: `refresh` follows when it is not
            self.refresh()

    def refresh(self) -> None:
        """Show the document as it is now."""
        # What is drawn speaks the chosen language; what is edited is the project, which holds all of them.
        project = self._document.spoken
        screen = project.screen_named.get(self._document.selection.screen)
        self._show_parts()
        self._show_state()
        self.tools.show_languages(project.panel.languages, self._document.language)
        if screen is None:
            return
        self.tryout.show_screen(screen.name)
        self.face.set_panel(project.panel)
        self._show_rows(project, screen)
        selection = self._document.selection
        self.face.grid.set_cursor(selection.cell, self.commands.insert)
        self.face.grid.set_selection(selection.block)
        self._outline()
        self._say_screen_changes(project, screen)
        self._bring_into_view(*selection.cell)

    def _bring_into_view(self, row: int, column: int) -> None:
        area = self.face.grid.cell_rect(row, column)
        middle = self.face.grid.mapTo(self.face, area.center())
        self.area.ensureVisible(middle.x(), middle.y(), area.width() * 2, area.height() * 2)

    def _show_parts(self) -> None:
        """While the panel is tried, its own widget stands in the place of all of this."""
        screen, trying = self._document.screen is not None, self.tryout.running
        self.area.setVisible(screen and not trying)
        self.show_status(self._in_front)
        self.empty.setVisible(not screen and not trying)
        if trying or not screen:
            self.find_bar.hide()

    def show_status(self, in_front: bool) -> None:
        """Show the line under the cursor, which may stand outside of the editor, or put it away with the editor."""
        self._in_front = in_front
        self.status.setVisible(in_front and self._document.screen is not None and not self.tryout.running)

    def _show_state(self) -> None:
        screen, trying = self._document.screen is not None, self.tryout.running
        if hasattr(self, "tools"):
            self.tools.show_state(usable=screen and not trying, trying=trying, shown=self._shown)
            self.actions_of.show_state(
                screen=screen,
                trying=trying,
                insert=self.commands.insert,
                shown=self._shown,
                keys=not self.face.keypad.isHidden(),
            )

    def _show_rows(self, project: Project, screen: Screen) -> None:
        self.face.set_rows(self._rows(project, screen))
        row, column = self._document.selection.cell
        text = screen.text[row] if row < len(screen.text) else ""
        index = field_at(screen, row, column)
        reading = ""
        if self._shown is FieldContents.LIVE and index is not None:
            name = screen.fields[index].signal
            if name in self._readings:
                reading = reading_in_words(project, name, self._readings[name])
        self.status.show_cursor(project, screen, self._document.selection, text[column : column + 1], reading)

    def _rows(self, project: Project, screen: Screen) -> Rows:
        note = ""
        if self._shown is not FieldContents.LIVE:
            rows = specimen_rows(project, screen, self._shown)
        elif self._live is None or not self._live.connected:
            self._readings = {}
            rows = specimen_rows(project, screen, FieldContents.LIVE)
            note = self.tr("No live values: nothing is connected. Connect with Ctrl+K.")
        else:
            self._readings = self._live.of(self._document.project, screen.signal_names)
            rows = live_rows(project, screen, self._readings)
        self.status.set_note(note)
        return rows

    def _readings_changed(self) -> None:
        if self._shown is not FieldContents.LIVE or not self.area.isVisible():
            return
        project = self._document.spoken
        screen = project.screen_named.get(self._document.selection.screen)
        if screen is not None:
            self._show_rows(project, screen)

    def _say_screen_changes(self, project: Project, screen: Screen) -> None:
        layout = PanelLayout.of(project)
        for key, button in self.face.keypad.buttons.items():
            screen_change = layout.behaviour.key_screen_change(screen.name, key)
            if screen_change is None:
                button.setToolTip(self.tr("Does not change the screen here"))
            else:
                button.setToolTip(plain_tip(self.tr("Goes to '{screen}'").format(screen=screen_change[2])))

    def _follow_key(self, key: str) -> None:
        """A key of the panel was pressed on the screen: go to the screen that it goes to."""
        screen = self._document.screen
        if screen is None:
            return
        screen_change = PanelLayout.of(self._document.project).behaviour.key_screen_change(screen.name, key)
        if screen_change is None:
            self.say(
                self.tr("On this screen the key {key} does not change the screen.").format(key=key.upper()),
                self.tr("What it does"),
                lambda: self.key_wanted.emit(key),
            )
        else:
            self._document.select_screen(screen_change[2])

    def _outline(self) -> None:
        screen = self._document.screen
        if screen is None:
            return
        chosen = self._document.selection.fields
        fields = [
            Outline(
                *field.at,
                field.width,
                KIND_LINES[field.kind],
                entry=field.entry,
                selected=index in chosen,
                wrong=index in self._wrong,
            )
            for index, field in enumerate(screen.fields)
        ]
        columns = self._document.project.panel.columns
        spoken = self._document.spoken.screen_named.get(screen.name, screen).text
        rows = [
            Outline(row, 0, max(1, min(columns, len(spoken[row]))), Qt.PenStyle.NoPen, wrong=True)
            for row in sorted(self._wrong_rows)
            if row < len(spoken)
        ]
        self.face.grid.set_outlines((*fields, *rows))

    # Keys

    def _key(self, event: QKeyEvent) -> None:
        if self._document.screen is not None and self.keys.handle(event):
            event.accept()

    def _escape(self) -> None:
        if self.mouse.give_up():
            self.keys.use_escape()
        elif self.find_bar.isVisible():
            self.find_bar.close_bar()
            self.keys.use_escape()
        elif self.notice.isVisible():
            self.notice.hide()
            self.keys.use_escape()

    def say_drag(self, words: str) -> None:
        """Say what is dragged over the glass; empty: nothing is any more."""
        if words:
            self.notice.hide()
        self.status.say_drag(words)

    # Finding

    def ask_blinking(self) -> None:
        """Ask when the selected cells blink, or the whole screen."""
        dialog = BlinkDialog(self._document, self)
        dialog.exec()
        dialog.deleteLater()

    def find_text(self) -> None:
        """Open the search below the face."""
        self._open_search(replacing=False)

    def replace_text(self) -> None:
        """Open the search with a second line for what is put in the place of what is found."""
        self._open_search(replacing=True)

    def _open_search(self, *, replacing: bool) -> None:
        if self._document.screen is not None and not self.tryout.running:
            self.find_bar.open_bar(replacing=replacing)

    def find_next(self, way: int) -> None:
        """Go to the next (1) or the previous (-1) place of what was looked for last."""
        if not self.find_bar.sought.text():
            self.find_text()
        elif not self.find_bar.go(way):
            self.say(self.tr("'{text}' was not found.").format(text=self.find_bar.sought.text()))

    def _search_closed(self) -> None:
        self.face.setFocus(Qt.FocusReason.OtherFocusReason)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The canvas behind the face."""
        QPainter(self).fillRect(self.rect(), palette.current().colour("canvas"))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keep messages over the lower edge clear of the lines below the face, however tall these are."""
        if watched is self.area and event.type() in (QEvent.Type.Resize, QEvent.Type.Move, QEvent.Type.Show):
            over = self.notice.parentWidget()
            if over is not None and over.isAncestorOf(self.area):
                bottom = self.area.mapTo(over, self.area.rect().bottomLeft()).y()
                self.notice.keep_free(over.height() - bottom - 1)
        return super().eventFilter(watched, event)

    # Fields

    def pick_signal(self) -> None:
        """Ask for a signal and place a field for it at the cursor."""
        if self._document.screen is None or self.tryout.running:
            return
        picker = SignalPicker(self._document.project, self)
        picker.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        picker.picked.connect(self.arranging.place_field)
        picker.new_signal_wanted.connect(self.new_signal_wanted)
        picker.finished.connect(lambda _result: self.face.setFocus(Qt.FocusReason.OtherFocusReason))
        picker.open()

    def delete_fields(self) -> None:
        """Delete the selected fields; not while the panel is tried, when nobody sees which these are."""
        if not self.tryout.running:
            self.commands.delete_fields()

    def _key_menu(self, key: str, at: QPoint) -> None:
        if self.tryout.running:
            return
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        mark_entry(menu.addAction(self.tr("What this key does"), lambda: self.key_wanted.emit(key)))
        menu.popup(at)

    def _menu(self, at: QPoint) -> None:
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return
        cell = self.face.grid.cell_at(at)
        in_block = selection.block is not None and cell is not None and selection.block.contains(cell[1], cell[0])
        if cell is not None and not in_block and field_at(screen, *cell) not in selection.fields:
            self.commands.go(*cell)
        menu = QMenu(self)
        menu.addAction(self.tr("Place a field\u2026"), self.pick_signal)
        chosen = self._document.selection.fields
        if len(chosen) == 1:
            index = chosen[0]
            menu.addAction(self.tr("Properties"), self.field_opened.emit)
            show_as = menu.addMenu(self.tr("Show as"))
            for value, text in kinds():
                action = show_as.addAction(text)
                action.setCheckable(True)
                action.setChecked(screen.fields[index].kind == value)
                action.triggered.connect(lambda _on=False, value=value: self.arranging.show_as(index, value))
        menu.addSeparator()
        menu.addActions(self.actions_of.transfer)
        menu.addAction(self.actions_of.blink)
        menu.addAction(self.tr("Delete"), self.commands.delete)
        menu.addActions([self.actions_of.insert, self.actions_of.keys])
        menu.addSeparator()
        self.actions_of.fill_arranging(menu)
        menu.exec(self.face.grid.mapToGlobal(at))
        menu.deleteLater()
