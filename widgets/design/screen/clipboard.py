"""Cells, fields and screens on the clipboard: as plain text for every program, and whole for every Fanlight."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from typing import Final

from PySide6.QtCore import QMimeData, QObject, QRect, Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QWidget

from app import edits
from app.edits import EditRefused
from app.panel.layout import PanelLayout
from app.panel.rendering import Rows
from app.project.model import Project
from app.project.problems import quoted
from app.project_file.files import LARGEST_FILE, ProjectFileError, dump, parse
from widgets.design.screen.commands import ScreenCommands
from widgets.design.screen.field_places import around, block_of
from widgets.design.screen.paste_dialog import ArrivalsDialog
from widgets.document.document import Document, Edit, Selection

CELLS: Final = "application/x-fanlight-cells"
SCREENS: Final = "application/x-fanlight-screens"
"""What is copied, as the text of a small project file (see app.edits.transfer)."""
MOST_PASTED: Final = 20_000
"""Characters of plain text that are looked at: the largest panel has 8448 cells."""


class Clipboard(QObject):
    """Copies from the document and pastes into it; every paste is one step, with all that comes along."""

    said = Signal(str)
    """What came along with a paste, in words."""

    def __init__(self, document: Document, commands: ScreenCommands, rows: Callable[[], Rows], parent: QWidget) -> None:
        """`rows` are the cells as they are shown: other programs get what one sees."""
        super().__init__(parent)
        self._document = document
        self._commands = commands
        self._rows = rows
        self._over = parent

    # Cells

    def copy(self) -> bool:
        """Copy the selected cells or fields, or the row of the cursor where nothing is selected."""
        screen, selection = self._document.screen, self._document.selection
        if screen is None:
            return False
        only_fields = selection.block is None and bool(selection.fields)
        area = around(screen, selection.fields) if only_fields else selection.block or self._row()
        try:
            piece = edits.cells_of(
                self._document.project, screen.name, block_of(area), selection.fields if only_fields else None
            )
        except EditRefused as why:
            self._commands.refuse(str(why))
            return False
        rows = self._rows()[area.top() : area.bottom() + 1]
        self._put("\n".join(row.text[area.left() : area.right() + 1].rstrip() for row in rows), CELLS, piece)
        return True

    def cut(self) -> None:
        """Copy, and take what was copied out of the screen."""
        if not self.copy():
            return
        selection = self._document.selection
        if selection.block is None and selection.fields:
            self._commands.delete_fields(self.tr("Cut"))
        else:
            self._commands.clear(selection.block or self._row(), self.tr("Cut"), in_all_languages=True)

    def paste(self) -> None:
        """Paste what is on the clipboard, its upper left corner at the cursor or at the selected block."""
        mime = _content()
        if mime.hasFormat(SCREENS):
            self.paste_screens()
        elif mime.hasFormat(CELLS):
            piece = self._piece(CELLS)
            if piece is not None:
                self._paste_cells(piece)
        elif mime.hasText():
            self._paste_text(mime.text())
        else:
            self._commands.refuse(self.tr("There is nothing on the clipboard that a panel could show."))

    def _row(self) -> QRect:
        return QRect(0, self._document.selection.cell[0], self._document.project.panel.columns, 1)

    def _corner(self) -> tuple[int, int]:
        selection = self._document.selection
        return selection.cell if selection.block is None else (selection.block.top(), selection.block.left())

    def _paste_cells(self, piece: Project) -> None:
        screen = self._document.screen
        if screen is None:
            return
        row, column = self._corner()
        rows, columns = piece.panel.rows, piece.panel.columns
        if columns == self._document.project.panel.columns:
            column = 0  # whole rows go where they came from
        part = piece.screens[0]
        first = len(screen.fields)

        def edit_of(renaming: bool) -> Edit:
            return lambda project: edits.paste_cells(project, piece, screen.name, row, column, renaming=renaming)

        def paste(edit: Edit) -> bool:
            return self._commands.edit(
                self.tr("Paste"),
                edit,
                cell=(row, column),
                block=QRect(column, row, columns, rows) if part.text else None,
                fields=None if part.text else tuple(range(first, first + len(part.fields))),
            )

        self._with_arrivals(piece, edit_of, paste)

    def _paste_text(self, text: str) -> None:
        screen, panel = self._document.screen, self._document.project.panel
        if screen is None:
            return
        if len(text) > MOST_PASTED:
            self._commands.refuse(
                self.tr("The text on the clipboard has {count} characters; this panel has {cells} cells.").format(
                    count=len(text), cells=panel.rows * panel.columns
                )
            )
            return
        lines = text.replace("\t", " ").splitlines()
        if not any(lines):
            self._commands.refuse(self.tr("The text on the clipboard is empty."))
            return
        row, column = self._corner()
        if column + max(map(len, lines)) > panel.columns:
            lines = [line.rstrip() for line in lines]
        widest = max(map(len, lines))
        if row + len(lines) > panel.rows or column + widest > panel.columns:
            self._commands.refuse(
                self.tr(
                    "The text on the clipboard needs {rows} x {columns} cells; there is not enough room at the cursor."
                ).format(rows=len(lines), columns=widest)
            )
            return
        insert = self._commands.insert
        self._commands.edit(
            self.tr("Paste"),
            lambda project: edits.type_text(project, screen.name, row, column, "\n".join(lines), insert=insert),
            cell=(row + len(lines) - 1, min(column + len(lines[-1]), panel.columns - 1)),
            spoken=True,
        )

    # Screens

    def copy_screens(self, names: Iterable[str]) -> bool:
        """Copy whole screens, with the signals that they show."""
        project = self._document.project
        try:
            piece = edits.screens_of(project, names)
        except EditRefused as why:
            self._commands.refuse(str(why))
            return False
        layout = PanelLayout.of(project)
        texts = ("\n".join(row.rstrip() for row in layout.screen(screen.name).rows) for screen in piece.screens)
        self._put("\n\n".join(texts), SCREENS, piece)
        return True

    def paste_screens(self) -> None:
        """Paste whole screens behind the one that is edited."""
        if not _content().hasFormat(SCREENS):
            self._commands.refuse(self.tr("There is no screen on the clipboard. Copy one in the list of screens."))
            return
        piece = self._piece(SCREENS)
        if piece is not None:
            self._paste_screens(piece)

    def _paste_screens(self, piece: Project) -> None:
        names = list(self._document.project.screen_named)
        current = self._document.selection.screen
        at = names.index(current) + 1 if current in names else len(names)
        name = self.tr("Paste screen") if len(piece.screens) == 1 else self.tr("Paste screens")

        def first_new(project: Project) -> Selection:
            return Selection(screen=project.screens[at].name)

        def edit_of(renaming: bool) -> Edit:
            return lambda project: edits.paste_screens(project, piece, at, renaming=renaming)

        def paste(edit: Edit) -> bool:
            return self._document.do(name, edit, select=first_new) is None

        self._with_arrivals(piece, edit_of, paste)

    # What comes along

    def _with_arrivals(self, piece: Project, edit_of: Callable[[bool], Edit], paste: Callable[[Edit], bool]) -> None:
        """Paste, after the question about what has the same name here but differs; then say what came along.

        `edit_of` makes the edit, with new names for what differs or without; `paste` does it.
        """
        project = self._document.project
        arrivals = edits.arrivals(project, piece)
        if not arrivals.differing:
            self._paste(edit_of(False), paste)
            return
        try:
            edit_of(False)(project)
        except EditRefused as why:
            self._commands.refuse(str(why))  # before a question that would be in vain
            return
        dialog = ArrivalsDialog(arrivals, self._over)
        focus = QApplication.focusWidget()
        if focus is not None:
            dialog.finished.connect(lambda _result: focus.setFocus(Qt.FocusReason.OtherFocusReason))
        dialog.chosen.connect(lambda renaming: self._paste(edit_of(renaming), paste))
        dialog.open()

    def _paste(self, edit: Edit, paste: Callable[[Edit], bool]) -> None:
        """Paste, and say which parts are new in this project."""
        before = self._document.project
        if not paste(edit):
            return
        after = self._document.project
        parts = [
            template.format(names=_name_list(new))
            for template, new in (
                (self.tr("signals {names}"), _new(after.signal_named, before.signal_named)),
                (self.tr("devices {names}"), _new(after.follower_named, before.follower_named)),
                (self.tr("lines {names}"), _new(after.line_named, before.line_named)),
            )
            if new
        ]
        words = [self.tr("Also copied: {parts}.").format(parts="; ".join(parts))] if parts else []
        if len(after.screens) > len(before.screens):
            words.append(
                self.tr(
                    "Screen changes between these screens were copied too; add the screen changes that lead to them."
                )
                if len(after.screen_changes) > len(before.screen_changes)
                else self.tr("No screen change leads here yet; add one.")
            )
        if words:
            self.said.emit(" ".join(words))

    # The clipboard itself

    def _put(self, text: str, kind: str, piece: Project) -> None:
        mime = QMimeData()
        mime.setText(text)
        mime.setData(kind, dump(piece).encode())
        QGuiApplication.clipboard().setMimeData(mime)

    def _piece(self, kind: str) -> Project | None:
        """What another Fanlight, or this one, put there; None if it cannot be read, which has been said."""
        data = _content().data(kind)
        why = self.tr("it is larger than any project")
        if data.size() <= LARGEST_FILE:
            try:
                piece = parse(bytes(data.data()))
            except ProjectFileError as error:
                why = str(error.problems[0])
            else:
                if piece.screens:
                    return piece
                why = self.tr("it contains no screen")
        self._commands.refuse(self.tr("What is on the clipboard cannot be read: {why}").format(why=why))
        return None


def _content() -> QMimeData:
    """What is on the clipboard; empty content where nobody has put anything there yet, for which Qt has None."""
    content: QMimeData | None = QGuiApplication.clipboard().mimeData()
    return QMimeData() if content is None else content


def _new(names: Iterable[str], known: Collection[str]) -> tuple[str, ...]:
    return tuple(name for name in names if name not in known)


def _name_list(names: tuple[str, ...]) -> str:
    """The first few names in a sentence."""
    shown = ", ".join(quoted(name) for name in names[:6])
    return shown if len(names) <= 6 else f"{shown}, \N{HORIZONTAL ELLIPSIS} ({len(names)})"
