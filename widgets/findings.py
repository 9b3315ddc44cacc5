"""The list of what the design checks found, and of what was typed but could not be taken over yet."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QIcon, QKeyEvent, QPainter, QPixmap, QPolygonF, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.checks.finding import GRAVITY, Finding, Severity
from widgets import palette
from widgets.drafts import Drafts
from widgets.part_table import RowDelegate

_ROLE: Final = Qt.ItemDataRole.UserRole


def severity_icon(severity: Severity | str, size: int = 14) -> QIcon:
    """A shape for how grave a finding is: a square with a cross, a triangle, a ring; a pencil stroke for a draft."""
    colours = palette.current()
    names = {"error": "fault", "warning": "caution", "note": "faint", "draft": "fault"}
    icon = QIcon(_shape(severity, colours.colour(names[severity]), QColor(colours.base), size))
    # In a selected row it stands on the accent, in which none of its own colours can be seen.
    selected = _shape(severity, colours.colour("on_accent"), colours.colour("accent"), size)
    icon.addPixmap(selected, QIcon.Mode.Selected)
    return icon


def _shape(severity: str, colour: QColor, ground: QColor, size: int) -> QPixmap:
    pixmap = QPixmap(size * 2, size * 2)
    pixmap.setDevicePixelRatio(2)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _paint_shape(painter, severity, colour, ground, float(size))
    painter.end()
    return pixmap


def _paint_shape(painter: QPainter, severity: str, colour: QColor, ground: QColor, size: float) -> None:
    area = QRectF(1, 1, size - 2, size - 2)
    pen = painter.pen()
    pen.setWidthF(1.8)
    pen.setColor(colour)
    if severity == "error":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawRoundedRect(area, 2, 2)
        pen.setColor(ground)
        painter.setPen(pen)
        inner = area.adjusted(3, 3, -3, -3)
        painter.drawLine(inner.topLeft(), inner.bottomRight())
        painter.drawLine(inner.topRight(), inner.bottomLeft())
    elif severity == "warning":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPolygon(QPolygonF([QPointF(size / 2, 1), QPointF(size - 1, size - 1), QPointF(1, size - 1)]))
        pen.setColor(ground)
        painter.setPen(pen)
        painter.drawLine(QPointF(size / 2, size * 0.42), QPointF(size / 2, size * 0.68))
        painter.drawPoint(QPointF(size / 2, size * 0.84))
    elif severity == "draft":
        painter.setPen(pen)
        painter.drawLine(QPointF(2, size - 3), QPointF(size - 3, 2))
        painter.drawLine(QPointF(2, size - 1), QPointF(size - 2, size - 1))
    else:
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(area.adjusted(1, 1, -1, -1))
        painter.drawPoint(area.center())


class FindingsList(QWidget):
    """Findings, the gravest first. A click or Enter asks to go to the place."""

    place_chosen = Signal(object)
    """A `Place` of a finding."""
    draft_chosen = Signal(object, str)
    """Subject and row of something typed and not taken over."""

    def __init__(self, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._drafts = drafts
        self._findings: tuple[Finding, ...] = ()
        self.title = QLabel(self.tr("Findings"))
        self.title.setProperty("look", "heading")
        self.summary = QLabel()
        self.summary.setProperty("look", "faint")
        top = QHBoxLayout()
        top.setContentsMargins(8, 2, 8, 0)
        top.setSpacing(8)
        top.addWidget(self.title)
        top.addWidget(self.summary, 1)
        self.tree = _Tree()
        self.tree.setColumnCount(3)
        self.tree.setHeaderLabels([self.tr("Place"), self.tr("What is wrong"), self.tr("What to do")])
        self.tree.setRootIsDecorated(False)
        self.tree.setUniformRowHeights(True)
        self.tree.setItemDelegate(RowDelegate(self.tree))
        self.tree.setAlternatingRowColors(True)
        self.tree.setIconSize(QSize(14, 14))
        self.tree.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.tree.setAccessibleName(self.tr("Findings of the design checks"))
        self.tree.setTextElideMode(Qt.TextElideMode.ElideRight)
        header = self.tree.header()
        header.setStretchLastSection(True)
        header.setProperty("look", "narrow")
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        self.tree.itemClicked.connect(lambda item, _column: self._choose(item))
        self.tree.entered_by_key.connect(self._choose)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(top)
        layout.addWidget(self.tree, 1)
        drafts.changed.connect(self._fill)
        self._fill()

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is listed."""
        return self._findings

    def set_findings(self, findings: Sequence[Finding]) -> None:
        """List these."""
        ordered = tuple(sorted(findings, key=lambda finding: GRAVITY[finding.severity]))
        if ordered != self._findings:
            self._findings = ordered
            self._fill()

    def _fill(self) -> None:
        at = self.tree.currentIndex().row()
        self.tree.clear()
        for subject, row, texts, reason in self._drafts.all():
            what = self.tr("'{text}' is not taken over: {reason}").format(text=" ".join(texts), reason=reason)
            item = QTreeWidgetItem([f"{_subject_text(subject)}, {row}", what, self.tr("correct it there")])
            item.setIcon(0, severity_icon("draft"))
            item.setData(0, _ROLE, ("draft", subject, row))
            self._add(item, self.tr("not taken over"))
        words = {"error": self.tr("error"), "warning": self.tr("warning"), "note": self.tr("note")}
        for finding in self._findings:
            item = QTreeWidgetItem([finding.where, finding.message, finding.hint])
            item.setIcon(0, severity_icon(finding.severity))
            item.setData(0, _ROLE, ("place", finding.place, ""))
            self._add(item, words[finding.severity])
        here = self.tree.topLevelItem(at)
        if here is not None:
            self.tree.setCurrentItem(here)
        self.summary.setText(self._counts())

    def _add(self, item: QTreeWidgetItem, word: str) -> None:
        for column in range(3):
            item.setToolTip(column, f"{word}: {item.text(column)}")
        item.setData(0, Qt.ItemDataRole.AccessibleTextRole, f"{word}: {item.text(0)}: {item.text(1)}; {item.text(2)}")
        self.tree.addTopLevelItem(item)

    def _counts(self) -> str:
        counts = dict.fromkeys(GRAVITY, 0)
        for finding in self._findings:
            counts[finding.severity] += 1
        drafts = len(self._drafts.all())
        parts = []
        if drafts:
            parts.append(self.tr("%n not taken over", "", drafts))
        if counts["error"]:
            parts.append(_counted(counts["error"], self.tr("error"), self.tr("errors")))
        if counts["warning"]:
            parts.append(_counted(counts["warning"], self.tr("warning"), self.tr("warnings")))
        if counts["note"]:
            parts.append(_counted(counts["note"], self.tr("note"), self.tr("notes")))
        return ", ".join(parts) if parts else self.tr("nothing found")

    def _choose(self, item: QTreeWidgetItem | None) -> None:
        if item is None:
            return
        kind, what, row = item.data(0, _ROLE)
        if kind == "draft":
            self.draft_chosen.emit(what, row)
        elif what is not None:
            self.place_chosen.emit(what)

    def refresh_colours(self) -> None:
        """Draw the shapes in the colours of now."""
        self._fill()


class _Tree(QTreeWidget):
    entered_by_key = Signal(QTreeWidgetItem)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            place = min(210, self.viewport().width() // 4)
            self.header().resizeSection(0, place)
            self.header().resizeSection(1, (self.viewport().width() - place) * 56 // 100)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.currentItem() is not None:
            self.entered_by_key.emit(self.currentItem())
            return
        super().keyPressEvent(event)


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"


def _subject_text(subject: Hashable) -> str:
    if isinstance(subject, tuple):
        return " ".join(
            f"'{part}'" if isinstance(part, str) and number else str(part + 1 if isinstance(part, int) else part)
            for number, part in enumerate(subject)
        )
    return str(subject)
