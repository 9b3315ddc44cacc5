"""The start page: what can be begun with, what was worked on last, and the way from the desk to the machine."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent, QKeySequence, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from widgets.kit import palette
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled
from widgets.welcome import drawings
from widgets.welcome.card import Card
from widgets.welcome.recent_list import RecentList

MARGIN: Final = 64
BETWEEN: Final = 16
RECENT: Final = 312
"""Pixels at 100 per cent: around the page, between cards, and of the list of recent files beside them."""
WIDEST: Final = 1500
"""Of the whole page: on a wider window it stands in the middle."""
_ARROWS: Final = {
    Qt.Key.Key_Left: (0, -1),
    Qt.Key.Key_Right: (0, 1),
    Qt.Key.Key_Up: (-1, 0),
    Qt.Key.Key_Down: (1, 0),
}


class StartPage(QScrollArea):
    """Arrows walk the cards, Enter takes one. It does nothing by itself: whoever shows it does what is wanted."""

    demo_wanted = Signal()
    new_wanted = Signal()
    find_out_wanted = Signal()
    open_wanted = Signal()
    file_wanted = Signal(object)
    """A recent file is to be opened: its path."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(self.tr("Start page"))
        self.cards = self._make_cards()
        self.recent = RecentList()
        self.recent.wanted.connect(self.file_wanted)
        self.recent.left_wanted.connect(lambda: self.cards[1].setFocus(Qt.FocusReason.OtherFocusReason))
        self._nothing = plain_label(self.tr("Projects that you open or save are listed here."), "faint", wrap=True)
        self._columns = 0
        self._lay_out()
        for card in self.cards:
            card.installEventFilter(self)
        self.setFocusProxy(self.cards[0])

    def show_files(self, paths: tuple[Path, ...]) -> None:
        """List the recent files."""
        self.recent.show_files(paths)
        self.recent.setVisible(bool(paths))
        self._nothing.setVisible(not paths)
        self._arrange()

    def _make_cards(self) -> tuple[Card, ...]:
        key = QKeySequence.StandardKey
        demo = Card(
            self.tr("See a demo run"),
            self.tr("A finished panel, live against a simulated drive. Press its keys, then look how it is made."),
            drawings.running_panel,
        )
        new = Card(
            self.tr("New panel with a drive"),
            self.tr("A few questions, all answered already: screens, keys and signals to start and stop it are made."),
            drawings.panel_and_drive,
            QKeySequence(key.New),
        )
        find_out = Card(
            self.tr("Find out an unknown device"),
            self.tr("Its speed, unit address, registers and scales are searched for, only by reading."),
            drawings.unknown_device,
        )
        opens = Card(
            self.tr("Open a project or recording"),
            self.tr("Or drop a file anywhere into this window."),
            drawings.folder,
            QKeySequence(key.Open),
        )
        for card, wanted in (
            (demo, self.demo_wanted),
            (new, self.new_wanted),
            (find_out, self.find_out_wanted),
            (opens, self.open_wanted),
        ):
            card.clicked.connect(wanted)
        return demo, new, find_out, opens

    # Layout

    def _lay_out(self) -> None:
        page = QWidget()
        self._whole = QHBoxLayout(page)
        self._beside = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._beside.setSpacing(scaled(40))
        self._grid = QGridLayout()
        self._grid.setSpacing(scaled(BETWEEN))
        left = QVBoxLayout()
        left.setSpacing(scaled(8))
        left.addWidget(plain_label(self.tr("What would you like to do?"), "page", wrap=True))
        sentence = self.tr(
            "Nothing here touches a machine: a real line is written to only after you connect it and arm it."
        )
        left.addWidget(plain_label(sentence, "faint", wrap=True))
        left.addSpacing(scaled(12))
        left.addLayout(self._grid)
        left.addSpacing(scaled(20))
        left.addWidget(plain_label(self.tr("From the desk to the machine"), "heading"))
        left.addLayout(self._make_steps())
        left.addStretch(1)
        right = QVBoxLayout()
        right.setSpacing(scaled(12))
        right.addWidget(plain_label(self.tr("Recent"), "title"))
        right.addWidget(self.recent, 1)
        right.addWidget(self._nothing)
        right.addStretch(0)
        self._right = QWidget()
        self._right.setLayout(right)
        right.setContentsMargins(0, 0, 0, 0)
        self._beside.addLayout(left, 1)
        self._beside.addWidget(self._right)
        self._whole.addStretch(1)
        self._whole.addLayout(self._beside, 1000)
        self._whole.addStretch(1)
        self.setWidget(page)

    def _make_steps(self) -> QHBoxLayout:
        steps = QHBoxLayout()
        steps.setSpacing(scaled(12))
        for number, (name, words) in enumerate(
            (
                (self.tr("Design"), self.tr("screens, keys, signals")),
                (self.tr("Bench"), self.tr("operate it, simulated or real")),
                (self.tr("Start-up"), self.tr("watch, record, measure")),
            ),
            start=1,
        ):
            steps.addWidget(_Step(number), 0, Qt.AlignmentFlag.AlignTop)
            texts = QVBoxLayout()
            texts.setSpacing(2)
            texts.addWidget(plain_label(name, "heading"))
            texts.addWidget(plain_label(words, "note", wrap=True))
            texts.addStretch(1)
            steps.addLayout(texts, 1)
        return steps

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        """Recent files beside the cards where there is room, else below; cards in two columns or in one."""
        width = min(self.viewport().width(), scaled(WIDEST))
        margin = scaled(MARGIN) if width >= scaled(1100) else scaled(24)
        self._whole.setContentsMargins(margin, scaled(40) if margin == scaled(MARGIN) else margin, margin, scaled(12))
        beside = width >= scaled(1000)
        self._beside.setDirection(QBoxLayout.Direction.LeftToRight if beside else QBoxLayout.Direction.TopToBottom)
        self._right.setFixedWidth(scaled(RECENT)) if beside else self._right.setMaximumWidth(16_777_215)
        self._right.setMinimumWidth(scaled(RECENT) if beside else 0)
        self.recent.setMinimumHeight(0 if beside else self.recent.sizeHint().height())
        columns = 2 if width - 2 * margin - (scaled(RECENT + 40) if beside else 0) >= scaled(640) else 1
        if columns != self._columns:
            self._columns = columns
            for number, card in enumerate(self.cards):
                self._grid.addWidget(card, number // columns, number % columns)
            for column in range(2):
                self._grid.setColumnStretch(column, int(column < columns))

    # Keys

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent) and event.key() in _ARROWS:
            self._walk(self.cards.index(watched), *_ARROWS[Qt.Key(event.key())])
            return True
        return super().eventFilter(watched, event)  # type: ignore[arg-type]

    def _walk(self, number: int, down: int, right: int) -> None:
        """From one card to the one beside, above or below it; to the right of all are the recent files."""
        row, column = divmod(number, self._columns)
        row, column = row + down, column + right
        if column >= self._columns and self.recent.count():
            self.recent.setFocus(Qt.FocusReason.OtherFocusReason)
        elif 0 <= column < self._columns and 0 <= row < len(self.cards) // self._columns:
            card = self.cards[row * self._columns + column]
            card.setFocus(Qt.FocusReason.OtherFocusReason)
            self.ensureWidgetVisible(card)


class _Step(QWidget):
    """The number of a step in a ring."""

    def __init__(self, number: int) -> None:
        super().__init__()
        self._number = number
        self.setFixedSize(QSize(scaled(26), scaled(26)))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colour = palette.current().colour("accent")
        painter.setPen(QPen(colour, 2))
        painter.drawEllipse(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        font = QFont(self.font())
        font.setWeight(QFont.Weight.Bold)
        painter.setFont(font)
        painter.drawText(self.rect(), int(Qt.AlignmentFlag.AlignCenter), str(self._number))
