"""The glass of the panel face: rows of cells, painted by runs, with a cursor, a selection and outlines of fields."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import ceil
from typing import Final

from PySide6.QtCore import QPoint, QPointF, QRect, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontDatabase,
    QFontMetricsF,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QPolygon,
    QStaticText,
    QTransform,
)
from PySide6.QtWidgets import QWidget

from app.panel.rendering import Attribute, Row, Rows
from widgets.face_colours import LIGHT, FaceColours

SMALLEST: Final = 6
LARGEST: Final = 40
"""Font sizes of a cell in pixels."""
BLINK_MS: Final = 500
RULER_PX: Final = 20
_INVERSE: Final = int(Attribute.INVERSE)
_BLINK: Final = int(Attribute.BLINK)
_STALE: Final = int(Attribute.STALE)


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
class CellSize:
    """The geometry of one cell, in pixels."""

    font: QFont
    italic: QFont
    width: int
    height: int
    baseline: int
    above: int
    """From the top of the cell to the top of the text."""


@lru_cache(maxsize=128)
def cell_size(pixels: int) -> CellSize:
    """The cell that holds a character of `pixels` height in the system's fixed-pitch font.

    The letter spacing is set so that a character is exactly one cell wide: a run is painted in one call and still
    stands in its cells.
    """
    font = QFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont))
    font.setFamilies([*font.families(), "DejaVu Sans Mono", "Consolas", "Menlo", "Courier New"])
    font.setStyleHint(QFont.StyleHint.Monospace)
    font.setFixedPitch(True)
    font.setPixelSize(pixels)
    font.setKerning(False)
    metrics = QFontMetricsF(font)
    advance = metrics.horizontalAdvance("0")
    width = max(ceil(advance) + max(1, pixels // 10), 3)
    ascent, descent = ceil(metrics.ascent()), ceil(metrics.descent())
    font.setLetterSpacing(QFont.SpacingType.AbsoluteSpacing, width - advance)
    italic = QFont(font)
    italic.setItalic(True)
    above = max(1, pixels // 12)
    return CellSize(font, italic, width, ascent + descent + max(2, pixels // 6), ascent + above, above)


@lru_cache(maxsize=4096)
def _one_cell_wide(pixels: int, character: str) -> bool:
    size = cell_size(pixels)
    return abs(QFontMetricsF(size.font).horizontalAdvance(character) - size.width) < 0.01


@lru_cache(maxsize=4096)
def _pieces(pixels: int, text: str) -> tuple[tuple[int, str, bool], ...]:
    """A run in pieces to paint in one call each: offset, text, whether its characters are one cell wide.

    Characters that the font lacks come from another font with another width; each is a piece of its own.
    """
    if text.isascii():
        return ((0, text, True),)
    pieces: list[tuple[int, str, bool]] = []
    for offset, character in enumerate(text):
        fits = _one_cell_wide(pixels, character)
        if fits and pieces and pieces[-1][2]:
            start, before, _ = pieces[-1]
            pieces[-1] = (start, before + character, True)
        else:
            pieces.append((offset, character, fits))
    return tuple(pieces)


@lru_cache(maxsize=4096)
def _laid_out(pixels: int, stale: int, text: str) -> QStaticText:
    """A piece of text, laid out once: that takes longer than to paint it."""
    size = cell_size(pixels)
    laid_out = QStaticText(text)
    laid_out.setTextFormat(Qt.TextFormat.PlainText)
    laid_out.setPerformanceHint(QStaticText.PerformanceHint.AggressiveCaching)
    laid_out.prepare(QTransform(), size.italic if stale else size.font)
    return laid_out


def runs(row: Row) -> Iterator[tuple[int, str, Attribute]]:
    """The longest stretches of equal attributes of a row: column, text, attribute. Plain blank ones are left out."""
    start = 0
    attributes = row.attributes
    for column in range(1, len(attributes) + 1):
        if column == len(attributes) or attributes[column] != attributes[start]:
            text = row.text[start:column]
            if attributes[start] or not text.isspace():
                yield start, text, attributes[start]
            start = column


def paint_row(
    painter: QPainter, row: Row, at: QPoint, pixels: int, colours: FaceColours, blinked_off: bool = False
) -> None:
    """Paint a row of cells whose upper left corner is `at`, in characters of `pixels` height."""
    size = cell_size(pixels)
    top = at.y()
    for column, text, attribute in runs(row):
        left = at.x() + column * size.width
        bits = int(attribute)
        stale, inverse = bits & _STALE, bits & _INVERSE
        ink = colours.dim if stale else colours.ink
        if inverse:
            painter.fillRect(left, top, len(text) * size.width, size.height - 1, ink)
        if stale:
            # Dimmed, slanted and hatched: an old value must not pass for a live one where colours are hard to tell.
            hatch = QBrush(colours.hatch, Qt.BrushStyle.BDiagPattern)
            painter.fillRect(QRect(left, top, len(text) * size.width, size.height), hatch)
        if bits & _BLINK and blinked_off:
            continue
        painter.setPen(colours.cell if inverse else ink)
        painter.setFont(size.italic if stale else size.font)
        for offset, piece, fits in _pieces(pixels, text):
            if fits:
                painter.drawStaticText(left + offset * size.width, top + size.above, _laid_out(pixels, stale, piece))
            else:
                _paint_odd(painter, left + offset * size.width, top, pixels, piece)


def _paint_odd(painter: QPainter, left: int, top: int, pixels: int, character: str) -> None:
    """A character of another width, centred in its cell."""
    size = cell_size(pixels)
    advance = QFontMetricsF(size.font).horizontalAdvance(character)
    painter.save()
    painter.setClipRect(left, top, size.width, size.height, Qt.ClipOperation.IntersectClip)
    painter.drawText(QPointF(left + (size.width - advance) / 2, top + size.baseline), character)
    painter.restore()


class CellGrid(QWidget):
    """Shows rows of cells. Knows nothing of projects: it reports what was pointed at, and others decide.

    Row and column in signals and arguments count from 0.
    """

    cell_pressed = Signal(int, int, Qt.KeyboardModifier)
    cell_dragged = Signal(int, int)
    cell_released = Signal(int, int)
    cell_double_clicked = Signal(int, int)
    cell_menu = Signal(int, int, QPoint)
    handle_pressed = Signal(int)
    """The right edge of the outline with this index was taken hold of."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: Rows = ()
        self._count = (4, 20)
        self._pixels = 20
        self._colours = LIGHT
        self._ruler = False
        self._cursor: tuple[int, int] | None = None
        self._insert = False
        self._selection: QRect | None = None
        self._outlines: tuple[Outline, ...] = ()
        self._ghost: tuple[Outline, bool] | None = None
        self._ground: QPixmap | None = None
        self._blinked_off = False
        self._pressed = False
        self._blink = QTimer(self)
        self._blink.setInterval(BLINK_MS)
        self._blink.timeout.connect(self._turn_blink)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    # What is shown

    def set_count(self, rows: int, columns: int) -> None:
        """How many cells there are."""
        if (rows, columns) != self._count:
            self._count = (rows, columns)
            self._rows = ()
            self._reground()

    def set_pixels(self, pixels: int) -> None:
        """The height of a character, `SMALLEST` to `LARGEST` pixels."""
        pixels = min(max(pixels, SMALLEST), LARGEST)
        if pixels != self._pixels:
            self._pixels = pixels
            self._reground()

    def set_colours(self, colours: FaceColours) -> None:
        """Another set of colours."""
        if colours is not self._colours:
            self._colours = colours
            self._reground()

    def set_ruler(self, on: bool) -> None:
        """Number rows and columns along the edges."""
        if on != self._ruler:
            self._ruler = on
            self._reground()

    def set_rows(self, rows: Rows) -> None:
        """New cells. Only the rows that differ are painted again."""
        old, self._rows = self._rows, rows
        if len(old) != len(rows):
            self.update()
        else:
            for number, (before, now) in enumerate(zip(old, rows, strict=True)):
                if before is not now and before != now:
                    self.update(self.row_rect(number))
        blinking = any(attribute & Attribute.BLINK for row in rows for attribute in set(row.attributes))
        if blinking and not self._blink.isActive():
            self._blink.start()
        elif not blinking and self._blink.isActive():
            self._blink.stop()
            self._blinked_off = False

    def set_cursor(self, cell: tuple[int, int] | None, insert: bool = False) -> None:
        """The cell where typed text goes; `insert` draws a bar before it instead of a frame around it."""
        if (cell, insert) != (self._cursor, self._insert):
            for place in (self._cursor, cell):
                if place is not None:
                    self.update(self.cell_rect(*place).adjusted(-3, -3, 3, 3))
            self._cursor, self._insert = cell, insert
            if self._ruler:
                self.update()

    def set_selection(self, cells: QRect | None) -> None:
        """A block of selected cells: x and width count columns, y and height rows."""
        if cells != self._selection:
            self._selection = cells
            self.update()

    def set_outlines(self, outlines: Iterable[Outline]) -> None:
        """The fields to draw around their cells."""
        outlines = tuple(outlines)
        if outlines != self._outlines:
            self._outlines = outlines
            self.update()

    def set_ghost(self, outline: Outline | None, fits: bool = True) -> None:
        """Where a dragged field would come to lie, and whether it fits there."""
        ghost = None if outline is None else (outline, fits)
        if ghost != self._ghost:
            self._ghost = ghost
            self.update()

    @property
    def rows(self) -> Rows:
        """What is shown."""
        return self._rows

    @property
    def pixels(self) -> int:
        """The height of a character in pixels."""
        return self._pixels

    @property
    def outlines(self) -> tuple[Outline, ...]:
        """The fields that are drawn."""
        return self._outlines

    # Geometry

    def sizeHint(self) -> QSize:
        """The size that suits it best."""
        return self.size_at(self._pixels)

    def minimumSizeHint(self) -> QSize:
        """The least size that it can be used at."""
        return self.size_at(self._pixels)

    def size_at(self, pixels: int) -> QSize:
        """The size of the whole at a character height."""
        size = cell_size(pixels)
        rows, columns = self._count
        left, top = self._margins(pixels)
        edge = self._edge(pixels)
        return QSize(left + columns * size.width + edge, top + rows * size.height + edge)

    def cell_rect(self, row: int, column: int, width: int = 1) -> QRect:
        """The pixels of `width` cells."""
        size = cell_size(self._pixels)
        left, top = self._margins(self._pixels)
        return QRect(left + column * size.width, top + row * size.height, width * size.width, size.height)

    def row_rect(self, row: int) -> QRect:
        """The pixels of a row, overhanging italics included."""
        return self.cell_rect(row, 0, self._count[1]).adjusted(-2, 0, 3, 0)

    def cell_at(self, point: QPoint, inside: bool = False) -> tuple[int, int] | None:
        """The cell at a pixel; with `inside` None beside the cells, else the nearest one."""
        size = cell_size(self._pixels)
        left, top = self._margins(self._pixels)
        row, column = (point.y() - top) // size.height, (point.x() - left) // size.width
        rows, columns = self._count
        if inside and not (0 <= row < rows and 0 <= column < columns):
            return None
        return min(max(row, 0), rows - 1), min(max(column, 0), columns - 1)

    def _edge(self, pixels: int) -> int:
        return max(4, pixels // 2)

    def _margins(self, pixels: int) -> tuple[int, int]:
        edge = self._edge(pixels)
        return (RULER_PX + 4, RULER_PX) if self._ruler else (edge, edge)

    def _reground(self) -> None:
        self._ground = None
        self.updateGeometry()
        self.update()

    # Painting

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        ratio = self.devicePixelRatioF()
        ground = self._ground
        if ground is None or ground.devicePixelRatioF() != ratio or ground.size() != self.size() * ratio:
            ground = self._ground = self._paint_ground(ratio)
        clip = event.rect()
        painter.drawPixmap(0, 0, ground)
        if self._selection is not None:
            wash = QColor(self._colours.accent)
            wash.setAlpha(60)
            area = self._selection
            whole = self.cell_rect(area.y(), area.x()).united(self.cell_rect(area.bottom(), area.right()))
            painter.fillRect(whole, wash)
        colours = self._colours
        for number, row in enumerate(self._rows[: self._count[0]]):
            if clip.intersects(self.row_rect(number)):
                paint_row(painter, row, self.cell_rect(number, 0).topLeft(), self._pixels, colours, self._blinked_off)
        for outline in self._outlines:
            self._paint_outline(painter, outline)
        if self._ghost is not None:
            self._paint_ghost(painter, *self._ghost)
        if self._cursor is not None:
            self._paint_cursor(painter, *self._cursor)
        if self._ruler:
            self._paint_ruler_mark(painter)

    def _paint_ground(self, ratio: float) -> QPixmap:
        ground = QPixmap(self.size() * ratio)
        ground.setDevicePixelRatio(ratio)
        ground.fill(self._colours.glass)
        painter = QPainter(ground)
        rows, columns = self._count
        gap = 1 if self._pixels >= 10 else 0
        for row in range(rows):
            for column in range(columns):
                painter.fillRect(self.cell_rect(row, column).adjusted(0, 0, -gap, -gap), self._colours.cell)
        if self._ruler:
            self._paint_ruler(painter)
        painter.end()
        return ground

    def _paint_outline(self, painter: QPainter, outline: Outline) -> None:
        colours = self._colours
        area = self.cell_rect(outline.row, outline.column, outline.width).adjusted(0, 0, -2, -2)
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
        corner = max(5, self._pixels // 3)
        if outline.entry:
            at = area.topLeft()
            painter.drawPolygon(QPolygon([at, at + QPoint(corner, 0), at + QPoint(0, corner)]))
        if outline.wrong:
            self._paint_wave(painter, area)
        if outline.selected:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(colour)
            painter.drawRect(area.right() - 2, area.center().y() - corner // 2, 5, corner)

    def _paint_wave(self, painter: QPainter, area: QRect) -> None:
        bottom = area.bottom() - 1
        points = [QPoint(x, bottom - 2 * (n % 2)) for n, x in enumerate(range(area.left(), area.right(), 3))]
        painter.setPen(QPen(self._colours.wrong, 1))
        painter.drawPolyline(points)

    def _paint_ghost(self, painter: QPainter, outline: Outline, fits: bool) -> None:
        colour = self._colours.accent if fits else self._colours.wrong
        area = self.cell_rect(outline.row, outline.column, outline.width).adjusted(0, 0, -2, -2)
        wash = QColor(colour)
        wash.setAlpha(70)
        painter.fillRect(area, QBrush(wash, Qt.BrushStyle.SolidPattern if fits else Qt.BrushStyle.DiagCrossPattern))
        painter.setPen(QPen(colour, 2, Qt.PenStyle.DashLine))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(area)

    def _paint_cursor(self, painter: QPainter, row: int, column: int) -> None:
        area = self.cell_rect(row, column)
        face = self.parentWidget()
        active = face is not None and face.hasFocus()
        colour = self._colours.accent
        if self._insert:
            painter.fillRect(area.left() - 1, area.top(), 3, area.height() - 1, colour)
            return
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(colour, 2 if active else 1))
        painter.drawRect(area.adjusted(-1, -1, 0, 0))
        if active:
            painter.fillRect(area.left(), area.bottom() - 3, area.width(), 3, colour)

    def _ruler_font(self) -> QFont:
        font = QFont(self.font())
        font.setPixelSize(10)
        return font

    def _paint_ruler(self, painter: QPainter) -> None:
        painter.setFont(self._ruler_font())
        painter.setPen(self._colours.ruler)
        rows, columns = self._count
        size = cell_size(self._pixels)
        painter.fillRect(0, 0, self.width(), RULER_PX - 3, self._colours.bezel)
        painter.fillRect(0, 0, RULER_PX, self.height(), self._colours.bezel)
        for column in range(columns):
            area = self.cell_rect(0, column)
            numbered = column == 0 or (column + 1) % 5 == 0
            x = area.center().x()
            if numbered:
                wide = QRect(x - 14, 0, 28, RULER_PX - 5)
                painter.drawText(wide, Qt.AlignmentFlag.AlignCenter, str(column + 1))
            else:
                painter.drawLine(x, RULER_PX - 8, x, RULER_PX - 5)
        every = 1 if size.height >= 12 else 5
        for row in range(0, rows, every):
            area = QRect(0, self.cell_rect(row, 0).top(), RULER_PX - 3, size.height)
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter, str(row + 1))

    def _paint_ruler_mark(self, painter: QPainter) -> None:
        if self._cursor is None:
            return
        row, column = self._cursor
        area = self.cell_rect(row, column)
        painter.fillRect(area.left(), RULER_PX - 3, area.width() - 1, 2, self._colours.accent)
        painter.fillRect(RULER_PX - 1, area.top(), 2, area.height() - 1, self._colours.accent)

    def _turn_blink(self) -> None:
        self._blinked_off = not self._blinked_off
        for number, row in enumerate(self._rows):
            if any(attribute & Attribute.BLINK for attribute in set(row.attributes)):
                self.update(self.row_rect(number))

    # The mouse and input methods

    def handle_at(self, point: QPoint) -> int | None:
        """The index of the outline whose right edge is at a pixel; the selected one first."""
        reach = max(4, cell_size(self._pixels).width // 3)
        order = sorted(range(len(self._outlines)), key=lambda index: not self._outlines[index].selected)
        for index in order:
            outline = self._outlines[index]
            area = self.cell_rect(outline.row, outline.column, outline.width)
            if area.top() <= point.y() <= area.bottom() and abs(point.x() - area.right()) <= reach:
                return index if outline.selected else None
        return None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Report what was taken hold of."""
        point = event.position().toPoint()
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        handle = self.handle_at(point)
        self._pressed = True
        if handle is not None:
            self.handle_pressed.emit(handle)
            return
        cell = self.cell_at(point)
        if cell is not None:
            self.cell_pressed.emit(*cell, event.modifiers())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Report the cell under a drag, or show that an edge can be taken hold of."""
        point = event.position().toPoint()
        if self._pressed:
            cell = self.cell_at(point)
            if cell is not None:
                self.cell_dragged.emit(*cell)
            return
        handle = self._outlines and self.handle_at(point) is not None
        self.setCursor(Qt.CursorShape.SizeHorCursor if handle else Qt.CursorShape.ArrowCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Report where a drag ended."""
        if event.button() == Qt.MouseButton.LeftButton and self._pressed:
            self._pressed = False
            cell = self.cell_at(event.position().toPoint())
            if cell is not None:
                self.cell_released.emit(*cell)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Report a double click."""
        cell = self.cell_at(event.position().toPoint(), inside=True)
        if cell is not None:
            self.cell_double_clicked.emit(*cell)
