"""What is drawn over the cells while a screen is edited: outlines of fields, the ghost of a drag, cursor and ruler."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Protocol

from PySide6.QtCore import QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPen, QPolygon

from app.panel.rendering import Attribute, Row
from widgets.face.colours import FaceColours

RULER_PX: Final = 20
"""Width of the strip with the numbers of rows and columns."""
GHOST_INK: Final = 0.55
"""Opacity of the text in a ghost: what is not there yet must not look as if it were."""


@dataclass(frozen=True, slots=True)
class Outline:
    """A field drawn around its cells. `line` tells the kind, so that no colour is needed to know it."""

    row: int
    column: int
    width: int
    line: Qt.PenStyle = Qt.PenStyle.SolidLine
    entry: bool = False
    selected: bool = False
    wrong: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of text in a ghost."""

    row: int
    column: int
    text: str


@dataclass(frozen=True, slots=True)
class Ghost:
    """Where dragged fields, or a block (x and width count columns), would come to lie."""

    outlines: tuple[Outline, ...] = ()
    block: QRect | None = None
    pieces: tuple[Piece, ...] = ()
    fits: bool = True
    copies: bool = False
    """What is dragged stays, and a copy comes here."""

    def area(self) -> QRect:
        """The cells that it takes, as a block."""
        area = QRect() if self.block is None else QRect(self.block)
        for outline in self.outlines:
            area = area.united(QRect(outline.column, outline.row, outline.width, 1))
        return area


class Cells(Protocol):
    """Where cells lie in pixels."""

    @property
    def pixels(self) -> int:
        """The height of a character."""

    def cell_rect(self, row: int, column: int, width: int = 1) -> QRect:
        """The pixels of `width` cells."""

    def paint_text(self, painter: QPainter, row: int, column: int, text: Row) -> None:
        """Paint characters into cells."""


def block_rect(cells: Cells, block: QRect) -> QRect:
    """The pixels of a block of cells."""
    return cells.cell_rect(block.top(), block.left()).united(cells.cell_rect(block.bottom(), block.right()))


def paint_selection(painter: QPainter, cells: Cells, block: QRect, colours: FaceColours) -> None:
    """A wash over selected cells with a line around it: the wash alone is hard to see beside the cursor."""
    area = block_rect(cells, block)
    wash = QColor(colours.accent)
    wash.setAlpha(60)
    painter.fillRect(area, wash)
    painter.setPen(QPen(colours.accent, 1, Qt.PenStyle.DotLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(area.adjusted(0, 0, -1, -1))


def paint_outline(painter: QPainter, cells: Cells, outline: Outline, colours: FaceColours) -> None:
    """A field: its kind by the line, entry by a corner, something wrong by a wave, selected by handles at its edges."""
    area = _inner(cells, outline)
    colour = colours.wrong if outline.wrong else colours.accent
    if outline.selected:
        wash = QColor(colours.accent)
        wash.setAlpha(46)
        painter.fillRect(area, wash)
    painter.setPen(QPen(colour, 2 if outline.selected else 1, outline.line))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(area)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    corner = max(5, cells.pixels // 3)
    if outline.entry:
        at = area.topLeft()
        painter.drawPolygon(QPolygon([at, at + QPoint(corner, 0), at + QPoint(0, corner)]))
    if outline.wrong:
        bottom = area.bottom() - 1
        points = [QPoint(x, bottom - 2 * (n % 2)) for n, x in enumerate(range(area.left(), area.right(), 3))]
        painter.setPen(QPen(colours.wrong, 1))
        painter.drawPolyline(points)
    if outline.selected:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        for edge in (area.left(), area.right()):
            painter.drawRect(edge - 2, area.center().y() - corner // 2, 5, corner)


def paint_ghost(painter: QPainter, cells: Cells, ghost: Ghost, colours: FaceColours) -> None:
    """What is dragged, where it would lie; crossed out with a sign of refusal where it does not fit."""
    colour = colours.accent if ghost.fits else colours.wrong
    wash = QColor(colour)
    wash.setAlpha(64)
    brush = QBrush(wash, Qt.BrushStyle.SolidPattern if ghost.fits else Qt.BrushStyle.DiagCrossPattern)
    areas = [_inner(cells, outline) for outline in ghost.outlines]
    for area in [block_rect(cells, ghost.block)] if ghost.block is not None else areas:
        glass = QColor(colours.cell)
        glass.setAlpha(220)
        painter.fillRect(area, glass)
        painter.fillRect(area, brush)
    painter.save()
    painter.setOpacity(GHOST_INK)
    for piece in ghost.pieces:
        plain = (Attribute.NONE,) * len(piece.text)
        cells.paint_text(painter, piece.row, piece.column, Row(piece.text, plain))
    painter.restore()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colour, 2, Qt.PenStyle.DashLine))
    for area in areas:
        painter.drawRect(area)
    if ghost.block is not None:
        painter.drawRect(block_rect(cells, ghost.block).adjusted(1, 1, -2, -2))
    if not ghost.fits or ghost.copies:
        whole = block_rect(cells, ghost.area())
        _paint_sign(painter, whole.topRight(), colour, colours.cell, refused=not ghost.fits)


def _paint_sign(painter: QPainter, at: QPoint, colour: QColor, ground: QColor, *, refused: bool) -> None:
    """A barred circle (does not fit) or a plus (a copy) over the corner of a ghost."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    circle = QRectF(at.x() - 12, at.y() - 4, 17, 17)
    painter.setPen(QPen(colour, 2.4))
    painter.setBrush(ground)
    painter.drawEllipse(circle)
    middle = circle.center()
    if refused:
        painter.drawLine(middle + QPoint(-5, 5), middle + QPoint(5, -5))
    else:
        painter.drawLine(middle + QPoint(-4, 0), middle + QPoint(4, 0))
        painter.drawLine(middle + QPoint(0, -4), middle + QPoint(0, 4))
    painter.restore()


def paint_cursor(
    painter: QPainter, cells: Cells, cell: tuple[int, int], colours: FaceColours, *, insert: bool, active: bool
) -> None:
    """The cell where typed text goes: framed, or with a bar before it where text is put in."""
    area = cells.cell_rect(*cell)
    colour = colours.accent
    if insert:
        painter.fillRect(area.left() - 1, area.top(), 3, area.height() - 1, colour)
        return
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colour, 2 if active else 1))
    painter.drawRect(area.adjusted(-1, -1, 0, 0))
    if active:
        painter.fillRect(area.left(), area.bottom() - 3, area.width(), 3, colour)


def paint_ruler(painter: QPainter, cells: Cells, count: tuple[int, int], font: QFont, colours: FaceColours) -> None:
    """The numbers of rows and columns, counted from 1, along the upper and the left edge."""
    small = QFont(font)
    small.setPixelSize(10)
    painter.setFont(small)
    painter.setPen(colours.dim)
    rows, columns = count
    corner = cells.cell_rect(rows, columns)
    painter.fillRect(0, 0, corner.right() + RULER_PX, RULER_PX - 3, colours.glass)
    painter.fillRect(0, 0, RULER_PX, corner.bottom() + RULER_PX, colours.glass)
    for column in range(columns):
        x = cells.cell_rect(0, column).center().x()
        if column == 0 or (column + 1) % 5 == 0:
            wide = QRect(x - 14, 0, 28, RULER_PX - 5)
            painter.drawText(wide, Qt.AlignmentFlag.AlignCenter, str(column + 1))
        else:
            painter.drawLine(x, RULER_PX - 8, x, RULER_PX - 5)
    height = cells.cell_rect(0, 0).height()
    for row in range(0, rows, 1 if height >= 12 else 5):
        area = QRect(0, cells.cell_rect(row, 0).top(), RULER_PX - 3, height)
        painter.drawText(area, Qt.AlignmentFlag.AlignCenter, str(row + 1))


def paint_ruler_mark(
    painter: QPainter, cells: Cells, cell: tuple[int, int], block: QRect | None, font: QFont, colours: FaceColours
) -> None:
    """Row and column of the cursor on the ruler, as numbers, and the extent of the selected block as bars."""
    row, column = cell
    spot = cells.cell_rect(row, column)
    reach = spot if block is None else block_rect(cells, block)
    painter.fillRect(reach.left(), RULER_PX - 3, reach.width() - 1, 2, colours.accent)
    painter.fillRect(RULER_PX - 1, reach.top(), 2, reach.height() - 1, colours.accent)
    bold = QFont(font)
    bold.setPixelSize(10)
    bold.setBold(True)
    painter.setFont(bold)
    middle = spot.center()
    for area, number in (
        (QRect(middle.x() - 9, 1, 19, RULER_PX - 6), column + 1),
        (QRect(1, middle.y() - 7, RULER_PX - 4, 14), row + 1),
    ):
        painter.fillRect(area, colours.accent)
        painter.setPen(colours.accent_ink)
        painter.drawText(area, Qt.AlignmentFlag.AlignCenter, str(number))


def _inner(cells: Cells, outline: Outline) -> QRect:
    return cells.cell_rect(outline.row, outline.column, outline.width).adjusted(0, 0, -2, -2)
