"""The findings in one line under the canvas; the whole list opens upwards over it."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QPushButton, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.checks.finding import SEVERITY_ORDER, Severity
from widgets.design.findings import FindingsList
from widgets.design.findings_model import kind_names, severity_icon
from widgets.design.panes import DRAWERS_FROM
from widgets.kit import palette
from widgets.kit.elided import ShortLabel
from widgets.kit.icons import icon, tool
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import line_height, percent, scaled

HEIGHT: Final = 36
LEAST_HEIGHT: Final = 30
SHARED_FROM: Final = 175
"""Per cent of size from which the line shares a row with the line under the cursor: the panel needs the room."""
LIST_HEIGHT: Final = 300
"""Pixels at 100 per cent of the line, and of the list at most; it never covers more than COVERED of the canvas."""
COVERED: Final = 0.7
_LONGEST_BUTTON: Final = 24
"""Characters of a fix on its button; the rest is in its tool tip."""
_ICON: Final = 16


class FindingsStrip(QWidget):
    """Counts, the finding gone to last or else the most severe as a sentence, and what can be done about it."""

    opened = Signal(bool)
    """The list is wanted, or no longer."""

    def __init__(self, findings: FindingsList, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._findings = findings
        # At large sizes the panel needs the room more; the buttons fit all the same.
        self.setFixedHeight(line_height(HEIGHT if percent() < DRAWERS_FROM else LEAST_HEIGHT) + 1)
        self.opener = self._flat(self.tr("Findings"))
        self.opener.setToolTip(self.tr("List all findings (F8)"))
        self.opener.setCheckable(True)
        self.opener.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.opener.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.opener.toggled.connect(self._turn)
        self.counts: dict[Severity, QToolButton] = {}
        for severity in SEVERITY_ORDER:
            button = self.counts[severity] = self._flat("0")
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
            button.setIconSize(QSize(scaled(_ICON), scaled(_ICON)))
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            button.clicked.connect(self.opener.toggle)
        self.sentence = ShortLabel()
        self.sentence.installEventFilter(self)
        self.act = QPushButton()
        self.act.setAutoDefault(False)
        self.act.clicked.connect(lambda _checked=False: findings.act())
        self.before = tool(
            "chevron-left", self.tr("Previous finding"), self, self.tr("Previous finding (Ctrl+Shift+F8)")
        )
        self.before.clicked.connect(lambda: findings.step(-1))
        self.after = tool("chevron-right", self.tr("Next finding"), self, self.tr("Next finding (Ctrl+F8)"))
        self.after.clicked.connect(lambda: findings.step(1))
        self.brief = False
        """Whether it shows no more than the counts."""
        row = QHBoxLayout(self)
        row.setContentsMargins(scaled(8), 1, scaled(8), 0)
        row.setSpacing(scaled(4))
        row.addWidget(self.opener)
        for button in self.counts.values():
            row.addWidget(button)
        row.addSpacing(scaled(8))
        row.addWidget(self.sentence, 1)
        for part in (self.act, self.before, self.after):
            row.addWidget(part)
        self._turn_chevron()
        findings.shown_changed.connect(self.refresh)
        self.refresh()

    def _flat(self, text: str) -> QToolButton:
        button = QToolButton(self)
        button.setText(text)
        button.setAutoRaise(True)
        return button

    def set_brief(self, on: bool) -> None:
        """Show the counts only, beside something else: the sentence and what can be done stand in the list."""
        self.brief = on
        self.setSizePolicy(QSizePolicy.Policy.Maximum if on else QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        style = Qt.ToolButtonStyle
        self.opener.setToolButtonStyle(style.ToolButtonIconOnly if on else style.ToolButtonTextBesideIcon)
        for part in (self.sentence, self.act, self.before, self.after):
            part.setVisible(not on)

    def refresh(self) -> None:
        """Say what was found as it is now."""
        names = kind_names()
        for severity, count in self._findings.counted().items():
            button = self.counts[severity]
            button.setText(str(count))
            button.setIcon(severity_icon(severity, none=count == 0))
            button.setEnabled(count > 0)
            button.setAccessibleName(f"{names[severity]}: {count}")
            button.setToolTip(button.accessibleName())
        row, fix = self._findings.shown(), self._findings.deed_of_shown()
        self.sentence.setText(self._findings.summary.text() if row is None else f"{row.where}: {row.what}")
        words = self.tr("Go there") if fix is None else fix.words
        self.act.setText(words if len(words) <= _LONGEST_BUTTON else words[: _LONGEST_BUTTON - 1] + "\u2026")
        tip = (
            self.tr("Go to the place of this finding") if fix is None else self.tr("{words} (Ctrl+F7). Can be undone.")
        )
        self.act.setToolTip(plain_tip(tip.format(words=words)))
        self.act.setAccessibleName(words)
        # A button that went while it has the focus would take the focus elsewhere.
        for part in (self.act, self.before, self.after):
            part.setEnabled(row is not None or part.hasFocus())
        self.act.setVisible(self.act.isEnabled())

    def _turn(self, on: bool) -> None:
        self._turn_chevron()
        self.opened.emit(on)

    def _turn_chevron(self) -> None:
        self.opener.setIcon(icon("chevron-down" if self.opener.isChecked() else "chevron-up"))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A click on the sentence opens the list."""
        if watched is self.sentence and event.type() == QEvent.Type.MouseButtonRelease:
            self.opener.toggle()
        return super().eventFilter(watched, event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The ground of the frame, with a hairline above and one before the sentence."""
        painter = QPainter(self)
        colours = palette.current()
        painter.fillRect(self.rect(), colours.colour("frame"))
        painter.fillRect(0, 0, self.width(), 1, colours.colour("line"))
        left = 0 if self.brief else self.sentence.x() - scaled(8)
        painter.fillRect(left, 1, 1, self.height(), colours.colour("line"))


class CanvasWithFindings(QWidget):
    """What is edited, and the strip under it; the list of findings lies over the canvas, which keeps its place."""

    def __init__(self, canvas: QWidget, findings: FindingsList, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.strip = FindingsStrip(findings)
        self._findings = findings
        self._came_from: QWidget | None = None
        self._shared: QWidget | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(canvas, 1)
        self._row = QHBoxLayout()
        self._row.setSpacing(0)
        self._row.addWidget(self.strip)
        column.addLayout(self._row)
        findings.setParent(self)
        findings.setAutoFillBackground(True)
        findings.hide()
        self.strip.installEventFilter(self)
        self.strip.opened.connect(self._show)
        findings.left.connect(self.close_list)
        findings.shown_changed.connect(self._place)

    def share_row(self, line: QWidget) -> None:
        """Put this at the left of the strip, which then is brief while it is there."""
        self._row.insertWidget(0, line, 1)
        line.setFixedHeight(self.strip.height())
        line.installEventFilter(self)
        self._shared = line

    @property
    def list_open(self) -> bool:
        """Whether the list is to be seen."""
        return not self._findings.isHidden()

    def open_list(self) -> None:
        """Open the list and go to it; from the list back to where one was."""
        focused = QApplication.focusWidget()
        if focused is not None and self._findings.isAncestorOf(focused):
            self.close_list()
            return
        self._came_from = focused
        self.strip.opener.setChecked(True)
        self._findings.tree.setFocus(Qt.FocusReason.ShortcutFocusReason)
        if self._findings.current() is None:
            self._findings.select(0)

    def close_list(self) -> None:
        """Close the list and give the focus back."""
        focused = QApplication.focusWidget()
        inside = focused is not None and self._findings.isAncestorOf(focused)
        if inside:
            back = self._came_from
            there = back is not None and back.isVisible()
            (back if back is not None and there else self.strip.opener).setFocus(Qt.FocusReason.OtherFocusReason)
        self.strip.opener.setChecked(False)

    def _show(self, on: bool) -> None:
        self._findings.setVisible(on)
        if on:
            self._place()
            self._findings.raise_()

    def _place(self) -> None:
        """On the strip, as high as its rows, but no higher than LIST_HEIGHT."""
        room = self.strip.y()
        height = min(self._findings.whole_height(), scaled(LIST_HEIGHT), round(room * COVERED))
        self._findings.setGeometry(0, room - height, self.width(), height)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The list stands on the strip wherever that is; the strip is brief beside what shares its row."""
        if watched is self._shared and event.type() in (QEvent.Type.ShowToParent, QEvent.Type.HideToParent):
            self.strip.set_brief(event.type() == QEvent.Type.ShowToParent)
        if watched is self.strip and event.type() in (QEvent.Type.Move, QEvent.Type.Resize) and self.list_open:
            self._place()
        return super().eventFilter(watched, event)
