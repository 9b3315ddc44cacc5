"""Two panels side by side that show one screen of two projects, with what differs marked on the cells."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, QPointF, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.comparison.comparison import Difference, ScreenDifference
from app.project.model import Project, Screen
from widgets.face.colours import face_colours
from widgets.face.face import PanelFace
from widgets.face.sample_values import FieldContents, specimen_rows
from widgets.kit.plain import plain_tip


class CellMark(enum.Enum):
    """What is said of a run of cells; each has a shape of its own."""

    TEXT = enum.auto()
    """The static text differs: a wavy line below, over a wash."""
    CHANGED = enum.auto()
    """The field is on both sides, and differs: a box."""
    ONE_SIDED = enum.auto()
    """The field is on this side only: a dashed box with two filled corners."""


@dataclass(frozen=True, slots=True)
class Marked:
    """A run of cells with its mark; row and column from 0."""

    row: int
    column: int
    width: int
    mark: CellMark


def marks_of(difference: ScreenDifference, screen: Screen, side: int) -> tuple[Marked, ...]:
    """What to mark on `screen`, which is the one before (`side` 0) or after (1)."""
    return (*_runs(difference.cells), *_fields(difference.fields, screen, side))


def _runs(cells: Iterable[tuple[int, int]]) -> Iterator[Marked]:
    """Cells side by side as one run."""
    start: tuple[int, int] | None = None
    last: tuple[int, int] | None = None
    for row, column in sorted(cells):
        if start is None or last != (row, column - 1):
            if start is not None and last is not None:
                yield Marked(start[0], start[1], last[1] - start[1] + 1, CellMark.TEXT)
            start = (row, column)
        last = (row, column)
    if start is not None and last is not None:
        yield Marked(start[0], start[1], last[1] - start[1] + 1, CellMark.TEXT)


def _fields(fields: Iterable[Difference], screen: Screen, side: int) -> Iterator[Marked]:
    for field in fields:
        index = field.indexes[side]
        if index is not None:
            there = screen.fields[index]
            mark = CellMark.CHANGED if field.kind == "changed" else CellMark.ONE_SIDED
            yield Marked(there.at[0], there.at[1], there.width, mark)


class MarkedFace(PanelFace):
    """A panel that is only looked at, with marks over its cells."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setEnabled(False)
        self.set_keys_shown(False)
        self.marks: tuple[Marked, ...] = ()
        self._overlay = _Overlay(self)

    def set_marks(self, marks: tuple[Marked, ...]) -> None:
        """Draw these marks instead of the former ones."""
        self.marks = marks
        self._overlay.raise_()
        self._overlay.update()


class _Overlay(QWidget):
    """Lies over the glass and lets everything through but its marks."""

    def __init__(self, face: MarkedFace) -> None:
        super().__init__(face.grid)
        self._face = face
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        face.grid.installEventFilter(self)
        self.resize(face.grid.size())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay as large as the glass."""
        if event.type() == QEvent.Type.Resize:
            self.resize(self._face.grid.size())
        return super().eventFilter(watched, event)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        colours = face_colours(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for marked in self._face.marks:
            area = self._face.grid.cell_rect(marked.row, marked.column, marked.width)
            if marked.mark is CellMark.TEXT:
                _paint_wave(painter, area, colours.accent)
            else:
                _paint_box(painter, area.adjusted(0, 0, -1, -1), colours.accent, marked.mark)


def _paint_wave(painter: QPainter, area: QRect, colour: QColor) -> None:
    wash = QColor(colour)
    wash.setAlpha(40)
    painter.fillRect(area, wash)
    painter.setPen(QPen(colour, 1.6))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    bottom = area.bottom() - 1.5
    points = [QPointF(x, bottom - 2.5 * (n % 2)) for n, x in enumerate(range(area.left(), area.right() + 2, 3))]
    painter.drawPolyline(QPolygonF(points))


def _paint_box(painter: QPainter, area: QRect, colour: QColor, mark: CellMark) -> None:
    dashed = mark is CellMark.ONE_SIDED
    painter.setPen(QPen(colour, 2, Qt.PenStyle.DashLine if dashed else Qt.PenStyle.SolidLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(area)
    if not dashed:
        return
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    size = max(4, area.height() // 3)
    left, right = QPointF(area.topLeft()), QPointF(area.bottomRight())
    painter.drawPolygon(QPolygonF([left, left + QPointF(size, 0), left + QPointF(0, size)]))
    painter.drawPolygon(QPolygonF([right, right - QPointF(size, 0), right - QPointF(0, size)]))


class ScreenPair(QWidget):
    """One screen on both sides; a side that does not have it says so."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.faces = (MarkedFace(), MarkedFace())
        self.captions = (QLabel(), QLabel())
        self._absent = (QLabel(), QLabel())
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(10)
        for face, caption, absent in zip(self.faces, self.captions, self._absent, strict=True):
            caption.setProperty("look", "heading")
            caption.setTextFormat(Qt.TextFormat.PlainText)
            caption.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
            absent.setText(self.tr("This screen does not exist on this side."))
            absent.setProperty("look", "faint")
            absent.setAlignment(Qt.AlignmentFlag.AlignCenter)
            absent.setWordWrap(True)
            column = QVBoxLayout()
            column.addWidget(caption)
            column.addWidget(face, 1)
            column.addWidget(absent, 1)
            row.addLayout(column, 1)

    def show_screens(
        self,
        sides: tuple[tuple[Project, Screen | None], tuple[Project, Screen | None]],
        difference: ScreenDifference | None,
        captions: tuple[str, str],
    ) -> None:
        """Show a screen of each project (None: it is not there), marked with what differs."""
        for side, (project, screen) in enumerate(sides):
            face = self.faces[side]
            self.captions[side].setText(captions[side])
            self.captions[side].setToolTip(plain_tip(captions[side]))
            face.setVisible(screen is not None)
            self._absent[side].setVisible(screen is None)
            if screen is None:
                face.set_marks(())
                continue
            face.set_panel(project.panel)
            face.set_rows(specimen_rows(project, screen, FieldContents.SAMPLE))
            face.set_marks(() if difference is None else marks_of(difference, screen, side))
