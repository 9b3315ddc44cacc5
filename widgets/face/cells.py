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
    QFont,
    QFontMetricsF,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPixmap,
    QStaticText,
    QTransform,
)
from PySide6.QtWidgets import QWidget

from app.panel.rendering import Attribute, Row, Rows
from widgets.face.accessibility import SpokenRows
from widgets.face.blinking import BLINK_MS, blinks
from widgets.face.colours import LIGHT, FaceColours
from widgets.face.marks import (
    RULER_PX,
    Ghost,
    Outline,
    paint_cursor,
    paint_ghost,
    paint_outline,
    paint_ruler,
    paint_ruler_mark,
    paint_selection,
)
from widgets.kit.fonts import for_cells

SMALLEST: Final = 6
LARGEST: Final = 72
"""Font sizes of a cell in pixels."""
_INVERSE: Final = int(Attribute.INVERSE)
_BLINK: Final = int(Attribute.BLINK)
_STALE: Final = int(Attribute.STALE)


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
    """The cell that holds a character of `pixels` height in our font of fixed pitch.

    The letter spacing is set so that a character is exactly one cell wide: a run is painted in one call and still
    stands in its cells.
    """
    font = for_cells(QFont())
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
    cell_dragged = Signal(int, int, Qt.KeyboardModifier)
    cell_released = Signal(int, int, Qt.KeyboardModifier)
    cell_double_clicked = Signal(int, int)
    handle_pressed = Signal(int, bool)
    """An edge of the outline with this index was taken hold of; True: the left one."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: Rows = ()
        self._spoken = SpokenRows(self, self.row_rect)
        self._count = (4, 20)
        self._pixels = 20
        self._colours = LIGHT
        self._ruler = False
        self._cursor: tuple[int, int] | None = None
        self._insert = False
        self._selection: QRect | None = None
        self._outlines: tuple[Outline, ...] = ()
        self._ghost: Ghost | None = None
        self._ground: QPixmap | None = None
        self._dirty = QRect()
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
            self._spoken.say(())
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
        self._spoken.say(rows)
        if len(old) != len(rows):
            self.update()
        else:
            for number, (before, now) in enumerate(zip(old, rows, strict=True)):
                if before is not now and before != now:
                    self._touch(self.row_rect(number))
        blinking = any(attribute & Attribute.BLINK for row in rows for attribute in set(row.attributes))
        if blinking and not self._blink.isActive():
            self._blink.start()
        elif not blinking and self._blink.isActive():
            self._blink.stop()
            self._blinked_off = False

    def _touch(self, area: QRect) -> None:
        """Paint this anew, in one rectangle with what else is to be: Qt paints faster in one than in several."""
        self._dirty = self._dirty.united(area)
        self.update(self._dirty)

    def set_cursor(self, cell: tuple[int, int] | None, insert: bool = False) -> None:
        """The cell where typed text goes; `insert` draws a bar before it instead of a frame around it."""
        if (cell, insert) != (self._cursor, self._insert):
            for place in (self._cursor, cell):
                if place is not None:
                    self._touch(self.cell_rect(*place).adjusted(-3, -3, 3, 3))
            if self._ruler:
                row = None if self._cursor is None or cell is None else self._cursor[0]
                same_row = cell is not None and row == cell[0]
                self._touch(QRect(0, 0, self.width(), RULER_PX + 2 if same_row else self.height()))
            self._cursor, self._insert = cell, insert

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

    def set_ghost(self, ghost: Ghost | None) -> None:
        """Where what is dragged would come to lie."""
        if ghost != self._ghost:
            self._ghost = ghost
            self.update()

    @property
    def ghost(self) -> Ghost | None:
        """The ghost that is drawn."""
        return self._ghost

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
        return self.size_at(self._pixels)

    def minimumSizeHint(self) -> QSize:
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
        return max(4, pixels // 3)

    def _margins(self, pixels: int) -> tuple[int, int]:
        edge = self._edge(pixels)
        return (RULER_PX + 4, RULER_PX) if self._ruler else (edge, edge)

    def _reground(self) -> None:
        self._ground = None
        self._spoken.place()
        self.updateGeometry()
        self.update()

    # Painting

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        ratio = self.devicePixelRatioF()
        ground = self._ground
        if ground is None or ground.devicePixelRatioF() != ratio or ground.size() != self.size() * ratio:
            ground = self._ground = self._paint_ground(ratio)
        clip = event.rect()
        self._dirty = QRect()
        painter.drawPixmap(0, 0, ground)
        colours = self._colours
        for number, row in enumerate(self._rows[: self._count[0]]):
            if clip.intersects(self.row_rect(number)):
                paint_row(painter, row, self.cell_rect(number, 0).topLeft(), self._pixels, colours, self._blinked_off)
        if self._selection is not None:
            paint_selection(painter, self, self._selection, colours)
        for outline in self._outlines:
            if clip.intersects(self.cell_rect(outline.row, outline.column, outline.width).adjusted(-3, -3, 3, 3)):
                paint_outline(painter, self, outline, colours)
        if self._cursor is not None:
            face = self.parentWidget()
            active = face is not None and face.hasFocus()
            paint_cursor(painter, self, self._cursor, colours, insert=self._insert, active=active)
        if self._ghost is not None:
            paint_ghost(painter, self, self._ghost, colours)
        if self._ruler and self._cursor is not None:
            paint_ruler_mark(painter, self, self._cursor, self._selection, self.font(), colours)

    def paint_text(self, painter: QPainter, row: int, column: int, text: Row) -> None:
        """Paint characters into cells, from this one on."""
        paint_row(painter, text, self.cell_rect(row, column).topLeft(), self._pixels, self._colours)

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
            paint_ruler(painter, self, self._count, self.font(), self._colours)
        painter.end()
        return ground

    def _turn_blink(self) -> None:
        dark = blinks() and not self._blinked_off
        if dark == self._blinked_off:
            return
        self._blinked_off = dark
        for number, row in enumerate(self._rows):
            if any(attribute & Attribute.BLINK for attribute in set(row.attributes)):
                self.update(self.row_rect(number))

    # The mouse and input methods

    def handle_at(self, point: QPoint) -> tuple[int, bool] | None:
        """The selected outline whose edge is at a pixel, by its index, and whether it is the left edge."""
        reach = max(4, cell_size(self._pixels).width // 3)
        for index, outline in enumerate(self._outlines):
            if not outline.selected:
                continue
            area = self.cell_rect(outline.row, outline.column, outline.width)
            if not area.top() <= point.y() <= area.bottom():
                continue
            if abs(point.x() - area.right()) <= reach:
                return index, False
            if abs(point.x() - area.left()) <= min(reach, 4):
                return index, True
        return None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        point = event.position().toPoint()
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        handle = self.handle_at(point)
        self._pressed = True
        if handle is not None:
            self.handle_pressed.emit(*handle)
            return
        cell = self.cell_at(point)
        if cell is not None:
            self.cell_pressed.emit(*cell, event.modifiers())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        point = event.position().toPoint()
        if self._pressed:
            cell = self.cell_at(point)
            if cell is not None:
                self.cell_dragged.emit(*cell, event.modifiers())
            return
        handle = self._outlines and self.handle_at(point) is not None
        self.setCursor(Qt.CursorShape.SizeHorCursor if handle else Qt.CursorShape.ArrowCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and self._pressed:
            self._pressed = False
            cell = self.cell_at(event.position().toPoint())
            if cell is not None:
                self.cell_released.emit(*cell, event.modifiers())

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        cell = self.cell_at(event.position().toPoint(), inside=True)
        if cell is not None:
            self.cell_double_clicked.emit(*cell)
