"""The line view: every transaction in a list, the chosen one's bytes taken apart, and the statistics of the lines."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QItemSelection, QSignalBlocker, QSize, Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QMenu,
    QSizePolicy,
    QSplitter,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Project
from widgets.document.save_as import FileKind, where_to_save, write_or_say
from widgets.document.settings import Settings
from widgets.kit.background import wait_pointer
from widgets.kit.commands import allow
from widgets.kit.controls import Choice
from widgets.kit.dialogs.questions import say
from widgets.kit.elided import search_box
from widgets.kit.flow import FlowLayout
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled
from widgets.live.line_figures import LineFigures
from widgets.live.live_session import LiveSession
from widgets.live.transaction_parts import TransactionParts
from widgets.live.transactions_table import (
    KEPT,
    TransactionFilter,
    TransactionRow,
    TransactionsModel,
    TransactionsTable,
)

if TYPE_CHECKING:  # the bus is imported only when a line is connected
    from app.client.transactions import Transaction
    from app.diagnosis.register_names import RegisterNames
    from app.session.session import Session

FIGURES_EVERY_S: Final = 0.5
"""How often the statistics are brought up to date."""
TAKE_EVERY_S: Final = 0.06
"""How often the list takes what came: every second frame, since nobody reads faster."""
MEASURED: Final = 1000
"""How many of the newest transactions of each line the statistics are of."""


class LineView(QWidget):
    """What goes over the lines, as it happens.

    It takes the transactions of some frames at once. Paused or hidden it goes on collecting them; what is kept is
    bounded.
    """

    def __init__(self, live: LiveSession, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        self._live = live
        self._waiting: deque[TransactionRow] = deque(maxlen=KEPT)
        self._newest: dict[str, deque[Transaction]] = {}
        self._names: RegisterNames | None = None
        self._project: Project | None = None
        self._session: Session | None = None
        self._figures_at = 0.0
        self._taken_at = 0.0
        self.model = TransactionsModel(self)
        self.table = TransactionsTable(self.model)
        self.parts = TransactionParts()
        self.figures = LineFigures()
        self._make_actions()
        self._lay_out()
        self.setFocusProxy(self.table)
        self.table.selectionModel().selectionChanged.connect(self._follow_selection)
        self.model.modelReset.connect(lambda: self.parts.show_row(None))
        live.transactions.connect(self.add)
        live.frame.connect(self._frame)
        live.connection_changed.connect(self._connection_changed)
        self._connection_changed()
        self._tell()

    # What comes in

    def add(self, transactions: Sequence[Transaction]) -> None:
        """Take these too, oldest first."""
        if self._names is None:
            from app.diagnosis.register_names import NO_NAMES

            self._names = NO_NAMES
        names = self._names
        offset = time.time() - time.monotonic()
        for transaction in transactions:
            self._newest.setdefault(transaction.line, deque(maxlen=MEASURED)).append(transaction)
        self._waiting.extend(
            TransactionRow(transaction, transaction.at + offset, names) for transaction in transactions
        )
        if self.paused and self.isVisible():
            self._tell()

    @property
    def paused(self) -> bool:
        """Whether the list stands still."""
        return self.pause_action.isChecked()

    @property
    def waiting(self) -> int:
        """How many transactions were collected and are not in the list yet."""
        return len(self._waiting)

    def show_transaction(self, transaction: Transaction) -> bool:
        """Choose this transaction, whatever the filters and the pause say. False if it is kept no longer."""
        self._take()
        if self.model.place(transaction) is None:
            self._unfilter()
        place = self.model.place(transaction)
        if place is None:
            return False
        self.table.choose(place)
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        return True

    # Commands

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands of this view into a menu."""
        menu.addActions([self.pause_action, self.newest_action])
        menu.addSeparator()
        menu.addActions([self.filter_action, self.faults_action])
        menu.addSeparator()
        menu.addActions([self.copy_action, self.copy_words_action, self.save_action])
        menu.addActions([self.parts.copy_action, self.figures.copy_action])
        menu.addSeparator()
        menu.addAction(self.clear_action)

    def to_newest(self) -> None:
        """Let go of what was chosen and follow the newest transaction."""
        self.table.follow()
        self._tell()

    def text(self, *, words: bool, rows: Sequence[TransactionRow] | None = None) -> str:
        """Transactions as text, the shown ones or `rows`: a line each, or with `words` every byte explained."""
        from app.diagnosis.explain import explain
        from app.diagnosis.transcript import clock_text, many_lines, one_line

        form, between = (many_lines, "\n\n") if words else (one_line, "\n")
        chosen = self.model.shown if rows is None else rows
        with wait_pointer():  # thousands of them take a second or two
            return between.join(form(explain(row.transaction, row.names), clock_text(row.at)) for row in chosen)

    def copy(self, *, words: bool) -> None:
        """Put the selected transactions, or all that are shown if none is selected, on the clipboard."""
        QApplication.clipboard().setText(self.text(words=words, rows=self.table.selected_rows() or None))

    def save(self) -> None:
        """Ask for a file, and save there what is shown."""
        plain = self.tr("One line per transaction (*.txt)")
        words = self.tr("Every byte explained (*.txt)")
        kinds = (FileKind(plain, ".txt"), FileKind(words, ".txt"))
        title = self.tr("Save the transactions as text")
        place = where_to_save(self, self._settings, "start_up_folder", title, "line.txt", kinds)
        if place is not None:
            path, kind = place
            self.save_to(path, words=kind.words == words)

    def save_to(self, path: Path, *, words: bool) -> bool:
        """Save what is shown as UTF-8 text, the statistics at its end. False if it was not saved; that was said."""
        figures = self.figures.text()
        parts = [self.text(words=words), *([figures] if figures else [])]
        return write_or_say(
            path,
            "\n\n".join(parts) + "\n",
            lambda words: say(self, "alarm", self.tr("Not saved"), words),
        )

    def clear(self) -> None:
        """Forget all transactions."""
        self._waiting.clear()
        self.model.clear()
        self.to_newest()

    def _make_actions(self) -> None:
        self.pause_action = self._action(self.tr("&Pause"), self._follow_pause, "Ctrl+Shift+P", toggles=True)
        self.newest_action = self._action(self.tr("To the &newest"), self.to_newest, "Ctrl+Shift+E")
        self.filter_action = self._action(self.tr("F&ilter the transactions"), self._filter, "Ctrl+Shift+G")
        self.faults_action = self._action(self.tr("Only &faults"), self._search, "Ctrl+Shift+X", toggles=True)
        self.copy_action = self._action(self.tr("&Copy one line each"), lambda: self.copy(words=False), "Ctrl+Shift+B")
        self.copy_words_action = self._action(
            self.tr("Copy &with explanation"), lambda: self.copy(words=True), "Ctrl+Shift+C"
        )
        self.save_action = self._action(self.tr("&Save as text\u2026"), self.save, "Ctrl+Shift+T")
        self.clear_action = self._action(self.tr("C&lear list"), self.clear, "Ctrl+Shift+Backspace")

    def _action(self, text: str, run: Callable[[], object], keys: str, *, toggles: bool = False) -> QAction:
        action = QAction(text, self)
        action.setShortcut(keys)
        action.setCheckable(toggles)
        (action.toggled if toggles else action.triggered).connect(lambda _on=False: run())
        return action

    def _filter(self) -> None:
        self.words.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.words.selectAll()

    # Layout

    def _lay_out(self) -> None:
        self.follower = Choice()
        self.follower.setAccessibleName(self.tr("Device"))
        self.follower.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.follower.currentIndexChanged.connect(self._search)
        self.words = search_box(
            self.tr("Filter: part of a signal, fault, register or bytes"), self.tr("Filter of the transactions")
        )
        self.words.setMinimumWidth(scaled(200))
        self.words.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.words.textChanged.connect(self._search)
        self.only_faults = QCheckBox(self.tr("Only faults"))
        self.only_faults.toggled.connect(self.faults_action.setChecked)
        self.faults_action.toggled.connect(self.only_faults.setChecked)
        self.told = plain_label()
        longest = (
            self.tr("{shown} of {total} shown").format(shown=5000, total=5000),
            self.tr("Paused: {waiting} waiting").format(waiting=5000),
        )
        self.told.setMinimumWidth(max(map(self.told.fontMetrics().horizontalAdvance, longest)) + 12)
        heading = plain_label(self.tr("Line"), "heading")
        bar = FlowLayout(spacing=scaled(8))
        bar.setContentsMargins(scaled(12), scaled(7), scaled(12), scaled(8))
        bar.addWidget(heading)
        bar.addWidget(self.follower)
        bar.addWidget(self.words)
        bar.addWidget(self.only_faults)
        bar.addWidget(self.told)
        for action, text in (
            (self.pause_action, self.tr("Pause")),
            (self.newest_action, self.tr("Newest")),
            (self.copy_words_action, self.tr("Copy")),
            (self.save_action, self.tr("Save\u2026")),
        ):
            bar.addWidget(_button(action, text))
        self._bar = bar
        copy = QAction(self.tr("Copy one line each"), self.table)
        copy.setShortcut(QKeySequence.StandardKey.Copy)
        copy.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        copy.triggered.connect(lambda: self.copy(words=False))
        self.table.addActions([copy, self.copy_words_action, self.save_action])
        self.table.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.setObjectName("line view parts")
        split.setChildrenCollapsible(False)
        for widget, stretch in ((self.table, 0), (self.parts, 1), (self.figures, 0)):
            split.addWidget(widget)
            split.setStretchFactor(split.count() - 1, stretch)
        split.setHandleWidth(1)
        # The list whole, then the figures; the bytes of one transaction break their lines in what is left.
        split.setSizes([self.table.whole_width(), scaled(380), self.figures.whole_width()])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(bar)
        layout.addWidget(split, 1)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def offer(self, action: QAction, text: str) -> None:
        """Have a button for this command too, with a short text."""
        self._bar.addWidget(_button(action, text))

    # Keeping it in step

    @property
    def _taking(self) -> bool:
        return self.isVisible() and not self.paused

    def _take(self) -> None:
        """Put what was collected into the list."""
        if self._waiting:
            rows = list(self._waiting)
            self._waiting.clear()
            self.table.add(rows)
        self._tell()

    def _follow_pause(self) -> None:
        self.pause_action.setIconText(self.tr("Continue") if self.paused else self.tr("Pause"))
        if self._taking:
            self._take()
        self._tell()

    def _follow_selection(self, _on: QItemSelection, _off: QItemSelection) -> None:
        current = self.table.currentIndex()
        rows = self.table.selectionModel().selectedRows()
        self.parts.show_row(self.model.row(current.row() if current in rows else rows[-1].row()) if rows else None)
        self._tell()

    def _search(self) -> None:
        words = tuple(self.words.text().casefold().split())
        self.model.want(TransactionFilter(self.follower.currentData() or "", self.faults_action.isChecked(), words))
        self.table.follow()
        self._tell()

    def _unfilter(self) -> None:
        with QSignalBlocker(self.words), QSignalBlocker(self.follower):
            self.words.clear()
            self.follower.setCurrentIndex(0)
        self.faults_action.setChecked(False)
        self._search()

    def _tell(self) -> None:
        shown, total = self.model.rowCount(), self.model.total
        words = self.tr("{total} shown").format(total=total)
        if shown != total:
            words = self.tr("{shown} of {total} shown").format(shown=shown, total=total)
        if self.paused:
            words = self.tr("Paused: {waiting} waiting").format(waiting=len(self._waiting))
        if words != self.told.text():
            self.told.setText(words)
        set_look(self.told, "caution" if self.paused else "faint")
        allow(self.newest_action, not self.table.following, self.tr("the newest is shown"))

    def _connection_changed(self) -> None:
        session = self._live.session
        if session is not self._session:
            self._session = session
            if session is not None:
                self._newest.clear()
            elif self._taking:
                self._take()
        if session is None or session.project is self._project:
            return
        from app.diagnosis.register_names import RegisterNames

        self._project = session.project
        self._names = RegisterNames.of(session.project)
        before = self.follower.currentData()
        with QSignalBlocker(self.follower):
            self.follower.clear()
            self.follower.addItem(self.tr("All devices"), "")
            for follower in session.project.followers:
                self.follower.addItem(follower.name, follower.name)
            self.follower.setCurrentIndex(max(0, self.follower.findData(before)))
        self._search()

    def _frame(self) -> None:
        now = time.monotonic()
        if self._waiting and self._taking and now - self._taken_at >= TAKE_EVERY_S:
            self._taken_at = now
            self._take()
        session = self._live.session
        if session is not None and self.isVisible() and now - self._figures_at >= FIGURES_EVERY_S:
            self._figures_at = now
            self._show_figures(session)

    def _show_figures(self, session: Session) -> None:
        from app.client.timing import pace_of
        from app.diagnosis.figures import figures

        measured = {
            name: figures(tuple(self._newest.get(name, ())), pace_of(endpoint))
            for name, endpoint in session.endpoints.items()
        }
        self.figures.show_states(session.snapshot().lines.values(), measured)

    def sizeHint(self) -> QSize:
        """The same whatever is shown: a sentence more must not push the workspace together."""
        return QSize(900, 250)

    def showEvent(self, event: QShowEvent) -> None:
        """What was collected while nobody looked comes into the list."""
        super().showEvent(event)
        if self._taking:
            self._take()
        else:
            self._tell()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.parts.refresh_look()
            self.figures.refresh_look()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and not self.table.following:
            self.to_newest()
        else:
            super().keyPressEvent(event)


def _button(action: QAction, text: str) -> QToolButton:
    """A button for a command, with a short text."""
    action.setIconText(text)
    button = QToolButton()
    button.setDefaultAction(action)
    button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    return button
