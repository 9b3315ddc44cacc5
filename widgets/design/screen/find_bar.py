"""Finding and replacing on all screens, in a bar below the face."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRect, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QFrame,
    QGridLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app import edits
from app.edits import Match, Refusal, Replaced, Sought
from app.project.languages import edited_in
from app.project.model import Project
from widgets.document.document import Document, Selection
from widgets.kit.controls import Choice
from widgets.kit.flow import FlowLayout
from widgets.kit.icons import tool
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label, plain_tip

COUNT_AFTER_MS: Final = 150
"""Time after an edit until the places are counted again."""
LIST_HEIGHT: Final = 84
"""Pixels of the list of places that were left, at most."""
_TEXTS, _SIGNALS, _BOTH = range(3)


class FindBar(QFrame):
    """Enter goes to the next place, Shift+Enter to the one before, Escape back to the face."""

    closed = Signal()

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._matches: tuple[Match, ...] | None = None
        self._began = document.selection
        self._build()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(COUNT_AFTER_MS)
        self._timer.timeout.connect(self._say_count)
        document.changed.connect(self._stale)
        document.language_changed.connect(self._stale)
        document.selection_changed.connect(self._say_if_counted)
        self.hide()

    def _build(self) -> None:
        self.sought = _Line(self.tr("Find"))
        self.sought.textChanged.connect(self._sought_changed)
        self.sought.entered.connect(self.go)
        self.put = _Line(self.tr("Replace with"))
        self.put.entered.connect(lambda _way: self.replace())
        self.where = Choice()
        self.where.setAccessibleName(self.tr("Search in"))
        self.where.setToolTip(self.tr("In the texts of the screens, or in the names of the signals that fields show"))
        self.where.addItems([self.tr("Texts"), self.tr("Signals"), self.tr("Both")])
        self.where.activated.connect(lambda _index: self._sought_changed())
        self.case = QCheckBox(self.tr("Match &case"))
        self.case.setToolTip(self.tr("Distinguish upper and lower case"))
        self.case.toggled.connect(lambda _on: self._sought_changed())
        self.words = QCheckBox(self.tr("Wh&ole words"))
        self.words.toggled.connect(lambda _on: self._sought_changed())
        self.count = plain_label()
        self.count.setMinimumWidth(80)
        self.count.setContentsMargins(4, 0, 8, 0)
        self.before = tool("up", self.tr("Previous match"), self, self.tr("Previous match (Shift+F3)"))
        self.before.clicked.connect(lambda: self.go(-1))
        self.after = tool("down", self.tr("Next match"), self, self.tr("Next match (F3)"))
        self.after.clicked.connect(lambda: self.go(1))
        self.close_button = tool("cross", self.tr("Close the search"), self, self.tr("Close the search (Escape)"))
        self.close_button.clicked.connect(self.close_bar)
        self.replace_button = QPushButton(self.tr("&Replace"))
        self.replace_button.clicked.connect(self.replace)
        self.all_button = QPushButton(self.tr("Replace &all"))
        self.all_button.clicked.connect(self.replace_everywhere)
        self.put_label = QLabel(self.tr("Replace with"))
        self.left = QListWidget()
        self.left.setAccessibleName(self.tr("Matches not replaced"))
        self.left.itemActivated.connect(self._go_to_left)
        self.left.currentItemChanged.connect(lambda item: None if item is None else self._go_to_left(item))
        grid = QGridLayout()
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(3)
        grid.addWidget(QLabel(self.tr("Find")), 0, 0)
        grid.addWidget(self.sought, 0, 1)
        grid.addWidget(self.put_label, 1, 0)
        grid.addWidget(self.put, 1, 1)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(2, 3)
        upper, lower = FlowLayout(spacing=4), FlowLayout(spacing=4)
        for widget in (self.before, self.after, self.where, self.case, self.words, self.count):
            upper.addWidget(widget)
        for button in (self.replace_button, self.all_button):
            lower.addWidget(button)
        grid.addLayout(upper, 0, 2)
        grid.addLayout(lower, 1, 2)
        grid.addWidget(self.close_button, 0, 3, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 4, 8, 4)
        layout.setSpacing(3)
        layout.addLayout(grid)
        layout.addWidget(self.left)
        self.left.hide()

    # Opening and closing

    def open_bar(self, *, replacing: bool) -> None:
        """Show the bar, with the selected text to look for, and put the focus in it."""
        selected = self._selected_text()
        for widget in (self.put_label, self.put, self.replace_button, self.all_button):
            widget.setVisible(replacing)
        self.show()
        self._began = self._document.selection
        if selected:
            self.sought.setText(selected)
        self._stale()
        field = self.put if replacing and self.sought.hasFocus() and self.sought.text() else self.sought
        field.setFocus(Qt.FocusReason.ShortcutFocusReason)
        field.selectAll()

    def close_bar(self) -> None:
        """Hide the bar; what was found last stays selected."""
        self.hide()
        self._forget_left()
        self.closed.emit()

    def _selected_text(self) -> str:
        block = self._document.selection.block
        screen = self._document.spoken.screen_named.get(self._document.selection.screen)
        if block is None or block.height() != 1 or screen is None or block.top() >= len(screen.text):
            return ""
        return screen.text[block.top()][block.left() : block.right() + 1].strip()

    # Finding

    @property
    def asked(self) -> Sought:
        """What the bar asks for."""
        where = self.where.currentIndex()
        return Sought(
            self.sought.text(),
            case=self.case.isChecked(),
            words=self.words.isChecked(),
            texts=where in (_TEXTS, _BOTH),
            signals=where in (_SIGNALS, _BOTH),
        )

    @property
    def matches(self) -> tuple[Match, ...]:
        """All places, in the project as it is now."""
        if self._matches is None:
            self._matches = edits.find(self._document.spoken, self.asked)
        return self._matches

    def go(self, way: int) -> bool:
        """Go to the next place behind the cursor (1), or to the one before it (-1), around the end."""
        matches, order = self.matches, self._order()
        if not matches:
            self._say_count()
            return False
        here = self._position()
        places = [self._place(match, order) for match in matches]
        if way > 0:
            found = next((n for n, place in enumerate(places) if place > here), 0)
        else:
            found = next((n for n in reversed(range(len(places))) if places[n] < here), len(places) - 1)
        self._show(matches[found])
        return True

    def _sought_changed(self) -> None:
        """Go to the first place from where the search began."""
        self._matches = None
        self._forget_left()
        order = self._order()
        began = order.get(self._began.screen, 0), *self._began.cell
        found = next((match for match in self.matches if self._place(match, order) >= began), None)
        if found is None and self.matches:
            found = self.matches[0]
        if found is not None:
            self._show(found)
        else:
            self._document.select(self._began)
        self._say_count()

    def _show(self, match: Match) -> None:
        cell = (match.row, match.column)
        if match.field is not None:
            self._document.select(Selection(match.screen, cell, (match.field,)))
        else:
            self._document.select(Selection(match.screen, cell, (), QRect(match.column, match.row, match.width, 1)))
        self._say_count()

    def _current(self) -> int | None:
        """Which of the matches is selected."""
        selection = self._document.selection
        for number, match in enumerate(self.matches):
            if match.screen == selection.screen and (match.row, match.column) == selection.cell:
                if match.field is not None and selection.fields == (match.field,):
                    return number
                if selection.block == QRect(match.column, match.row, match.width, 1):
                    return number
        return None

    def _stale(self) -> None:
        self._matches = None
        if self.isVisible():
            self._timer.start()

    def _say_if_counted(self) -> None:
        if self.isVisible() and self._matches is not None:
            self._say_count()

    def _say_count(self) -> None:
        self._timer.stop()
        if not self.sought.text():
            self._say("")
        elif not self.matches:
            self._say(self.tr("Not found"), "caution")
        else:
            at = self._current()
            total = len(self.matches)
            self._say(
                self.tr("Found: {count}").format(count=total)
                if at is None
                else self.tr("{number} of {count}").format(number=at + 1, count=total)
            )
        for button in (self.before, self.after, self.replace_button, self.all_button):
            button.setEnabled(bool(self.matches))

    def _say(self, words: str, look: str = "faint") -> None:
        self.count.setText(words)
        set_look(self.count, look)

    def _order(self) -> dict[str, int]:
        return {name: number for number, name in enumerate(self._document.project.screen_named)}

    def _position(self) -> tuple[int, int, int]:
        selection = self._document.selection
        return self._order().get(selection.screen, 0), *selection.cell

    def _place(self, match: Match, order: dict[str, int]) -> tuple[int, int, int]:
        return order.get(match.screen, 0), match.row, match.column

    # Replacing

    def replace(self) -> None:
        """Replace the selected place and go to the next one; where none is selected, go there first."""
        number = self._current()
        if number is None:
            self.go(1)
            return
        match, asked, put, language = self.matches[number], self.asked, self.put.text(), self._document.language

        def edit(project: Project) -> Project:
            return edited_in(project, language, lambda spoken: edits.replace_match(spoken, match, asked, put))

        # The cursor stays before what was put in only where that does not match itself.
        behind = (match.row, min(match.column + max(len(put) - 1, 0), self._document.project.panel.columns - 1))
        where = Selection(match.screen, behind if match.field is None else (match.row, match.column))
        if self._document.do(self.tr("Replace"), edit, select=where) is None:
            self.go(1)

    def replace_everywhere(self) -> None:
        """Replace all places that the new text fits, as one step; list the others."""
        asked, put, language = self.asked, self.put.text(), self._document.language
        results: list[Replaced] = []

        def edit(project: Project) -> Project:
            def replaced(spoken: Project) -> Project:
                results.append(edits.replace_all(spoken, asked, put))
                return results[-1].project

            return edited_in(project, language, replaced)

        reason = self._document.do(self.tr("Replace all"), edit)
        if reason is None and results:
            self._matches = None
            self._list_left(results[-1])

    def _list_left(self, result: Replaced) -> None:
        self._forget_left()
        for refusal in result.refused:
            item = QListWidgetItem(self._in_words(refusal))
            item.setData(Qt.ItemDataRole.UserRole, refusal.match)
            item.setToolTip(plain_tip(item.text()))
            self.left.addItem(item)
        needed = self.left.sizeHintForRow(0) * len(result.refused) + 2 * self.left.frameWidth()
        self.left.setFixedHeight(max(1, min(needed, LIST_HEIGHT)))
        self.left.setVisible(bool(result.refused))
        words = self.tr("Replaced: {count}").format(count=result.count)
        if result.refused:
            words = self.tr("Replaced: {count}, not replaced: {left}").format(
                count=result.count, left=len(result.refused)
            )
        self._timer.stop()
        self._say(words, "caution" if result.refused else "good")

    def _in_words(self, refusal: Refusal) -> str:
        match = refusal.match
        return self.tr("Not replaced: screen '{screen}', row {row}, column {column}: {reason}").format(
            screen=match.screen, row=match.row + 1, column=match.column + 1, reason=refusal.reason
        )

    def _forget_left(self) -> None:
        self.left.clear()
        if not self.left.isHidden():
            self.left.hide()

    def _go_to_left(self, item: QListWidgetItem) -> None:
        match = item.data(Qt.ItemDataRole.UserRole)
        if isinstance(match, Match):
            self._show(match)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.close_bar()
            event.accept()
        else:
            super().keyPressEvent(event)


class _Line(QLineEdit):
    """A line that says which way Enter goes."""

    entered = Signal(int)

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setMinimumWidth(120)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered.emit(-1 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1)
            event.accept()
        else:
            super().keyPressEvent(event)
