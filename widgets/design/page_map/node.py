"""A screen on the page map: a small face with its name, what stands out about it, and how far it is from the start."""

from __future__ import annotations

import operator
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from PySide6.QtCore import QCoreApplication, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QPainter,
    QPainterPath,
    QPen,
    QPixmap,
    QPolygonF,
)
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from app.panel.rendering import Rows
from app.project.model import Panel
from widgets.face.cells import cell_size, paint_row
from widgets.face.colours import FaceColours
from widgets.face.key_cap import cap_legend
from widgets.kit import palette
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled

CELL_PIXELS: Final = 11
PAD: Final = 8
TITLE: Final = 26
FOOT: Final = 24
GAP_X: Final = 96
GAP_Y: Final = 104
HAT: Final = 50
"""Between nodes; how much of the gap above a node belongs to its inlets."""
DETAIL: Final = 0.42
"""The scale from which on the content of a face is drawn; below it, names in a size that can be read."""

translate = QCoreApplication.translate


@dataclass(frozen=True, slots=True)
class Facts:
    """What is said about a screen besides its content. `presses` is None where keys do not lead to it."""

    name: str
    start: bool = False
    presses: int | None = None
    override: bool = False
    unreachable: bool = False
    dead_end: bool = False
    ring: tuple[int, int] | None = None
    """Which screen of the ring it is, from 1, and of how many."""
    errors: int = 0
    warnings: int = 0
    back: tuple[str, ...] = ()
    """Where keys do not lead to it: the keys that lead from it to where they do."""

    @property
    def caution(self) -> bool:
        """Whether something about the way here or back is wrong."""
        return self.unreachable or self.dead_end

    @property
    def cautions(self) -> tuple[str, ...]:
        """What is wrong with the way here or back, in words."""
        found = []
        if self.unreachable:
            found.append(translate("PageMap", "unreachable"))
        if self.dead_end:
            found.append(translate("PageMap", "no way back"))
        return tuple(found)

    @property
    def words(self) -> tuple[str, ...]:
        """All of it in words, what stands out most first."""
        found = list(self.cautions)
        if self.start:
            found.append(translate("PageMap", "start"))
        elif self.presses == 1:
            found.append(translate("PageMap", "1 press"))
        elif self.presses is not None:
            found.append(translate("PageMap", "{n} presses").format(n=self.presses))
        elif self.override:
            found.append(translate("PageMap", "by condition only"))
        return tuple(found)

    @property
    def ring_words(self) -> str:
        """Its number in the ring, spoken; empty outside the ring."""
        if self.ring is None:
            return ""
        return translate("PageMap", "number {n} of {count} in the ring").format(n=self.ring[0], count=self.ring[1])

    @property
    def findings_words(self) -> str:
        """What the checks found there; empty if nothing."""
        found = []
        if self.errors:
            found.append(translate("PageMap", "Errors: {count}").format(count=self.errors))
        if self.warnings:
            found.append(translate("PageMap", "Warnings: {count}").format(count=self.warnings))
        return ", ".join(found)


def node_size(columns: int, lines: int) -> tuple[float, float]:
    """Width and height of a node for a panel of that size."""
    size = cell_size(CELL_PIXELS)
    return max(columns * size.width, 20 * size.width) + 2 * PAD, lines * size.height + TITLE + FOOT


class Node(QGraphicsItem):
    """One screen as a small face. Its content is asked for when it is first painted large enough to be read."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.name = name
        self.facts = Facts(name)
        self.columns = 20
        self.lines = 4
        self.lit = False
        """Marked as what an arrow would lead to, or as found."""
        self.faded = False
        self._content: tuple[object, ...] = ()
        self._rows: Callable[[], Rows] = tuple
        self._painted: Rows | None = None
        """What is painted of the face; None as long as nothing is, as from afar."""
        self._colours: FaceColours | None = None
        self._picture: tuple[float, QPixmap] | None = None
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIsSelectable)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIsMovable)
        self.setAcceptHoverEvents(True)
        self.setZValue(2)

    def show_screen(
        self,
        content: tuple[object, ...],
        rows: Callable[[], Rows],
        kept: Rows | None,
        panel: Panel,
        colours: FaceColours,
    ) -> None:
        """Show the face that `rows` gives, which is `kept` if that is known already.

        As long as `content` holds the same objects, so is the face.
        """
        now = (panel.columns, panel.rows)
        alike = colours is self._colours and now == (self.columns, self.lines)
        if alike and len(content) == len(self._content) and all(map(operator.is_, content, self._content)):
            return
        self._content, self._rows = content, rows
        if alike and kept is not None and kept is self._painted:
            return
        if now != (self.columns, self.lines):
            self.prepareGeometryChange()
        self._colours, self._picture, self._painted = colours, None, None
        self.columns, self.lines = now
        self.update(self.face_rect().adjusted(-3, -3, 3, 3))

    def show_facts(self, facts: Facts) -> None:
        """Say this about the screen."""
        if facts != self.facts:
            self.facts = facts
            said = (self.name, *facts.words, facts.ring_words, facts.findings_words)
            self.setToolTip(plain_tip("\n".join(part for part in said if part)))
            self.update()

    def light(self, lit: bool = False, faded: bool = False) -> None:
        """Mark it, or let it step back behind those that are marked."""
        if (lit, faded) != (self.lit, self.faded):
            self.lit, self.faded = lit, faded
            self.setOpacity(0.35 if faded else 1.0)
            self.update()

    def face_rect(self) -> QRectF:
        """The drawn panel with its title and marks."""
        width, height = node_size(self.columns, self.lines)
        return QRectF(0, 0, width, height)

    def boundingRect(self) -> QRectF:
        """All that it may draw on: seen from afar, the name reaches into the gaps."""
        return self.face_rect().adjusted(-GAP_X / 2, -GAP_Y / 2, GAP_X / 2, GAP_Y / 2)

    def shape(self) -> QPainterPath:
        path = QPainterPath()
        path.addRect(self.face_rect())
        return path

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002
        colours = self._colours
        if colours is None:
            return
        scale = option.levelOfDetailFromTransform(painter.worldTransform())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._frame(painter, scale, colours)
        if scale >= DETAIL:
            self._detail(painter, scale, colours)
        else:
            self._afar(painter, scale, colours)

    def _frame(self, painter: QPainter, scale: float, colours: FaceColours) -> None:
        window = palette.current()
        area = self.face_rect()
        if self.isSelected() or self.lit:
            pen = QPen(window.colour("accent"), 2)
        elif self.facts.caution:
            # Dashed where nothing leads to it, double weight where nothing leads on: told apart without colour.
            style = Qt.PenStyle.DashLine if self.facts.unreachable else Qt.PenStyle.SolidLine
            pen = QPen(window.colour("caution"), 2.4, style)
        else:
            pen = QPen(window.colour("edge"), 1.2)
        pen.setCosmetic(True)
        painter.setPen(pen)
        ground = window.colour("soft" if self.isSelected() else "base")
        painter.setBrush(ground if scale >= DETAIL else colours.cell)
        painter.drawRoundedRect(area, 6, 6)

    def _detail(self, painter: QPainter, scale: float, colours: FaceColours) -> None:
        area = self.face_rect()
        title = QRectF(PAD, 0, area.width() - 2 * PAD, TITLE)
        if self.facts.start:
            flag = QRectF(PAD, TITLE / 2 - 5, 9, 10)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(palette.current().colour("ink"))
            point = QPointF(flag.right(), flag.center().y())
            painter.drawPolygon(QPolygonF([flag.topLeft(), point, flag.bottomLeft()]))
            title.setLeft(flag.right() + 4)
        if self.facts.findings_words:
            title.setRight(title.right() - 18)
            _sign(painter, QPointF(area.right() - PAD - 7, TITLE / 2), 7, bool(self.facts.errors))
        font = _font(min(round(max(13, scaled(11) / scale)), 16), bold=True)
        painter.setFont(font)
        painter.setPen(palette.current().colour("ink"))
        name = QFontMetricsF(font).elidedText(self.name, Qt.TextElideMode.ElideMiddle, title.width())
        painter.drawText(title, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, name)
        size = cell_size(CELL_PIXELS)
        glass = QRectF(PAD, TITLE, self.columns * size.width, self.lines * size.height)
        painter.setPen(QPen(colours.bezel, 1.5))
        painter.setBrush(colours.glass)
        painter.drawRoundedRect(glass.adjusted(-3, -3, 3, 3), 3, 3)
        ratio = painter.device().devicePixelRatioF()
        if self._picture is None or self._picture[0] != scale * ratio:
            # Drawn for this scale, so that its letters are as clear as they can be; the next pictures cost little.
            self._picture = scale * ratio, self._face_picture(glass, colours, scale * ratio, ratio)
        # Put on whole pixels: a picture that is stretched by half a pixel loses a column.
        transform = painter.worldTransform()
        at = transform.map(glass.topLeft())
        painter.resetTransform()
        painter.drawPixmap(QPointF(round(at.x() * ratio) / ratio, round(at.y() * ratio) / ratio), self._picture[1])
        painter.setWorldTransform(transform)
        self._foot(painter, scale, area)

    def _foot(self, painter: QPainter, scale: float, area: QRectF) -> None:
        below = QRectF(PAD, area.bottom() - FOOT + 3, area.width() - 2 * PAD, FOOT - 5)
        pixels = min(round(max(12, scaled(11) / scale)), FOOT - 9)
        painter.setFont(_font(pixels))
        aside = ""
        if self.facts.ring is not None:
            aside = translate("PageMap", "ring {n}/{count}").format(n=self.facts.ring[0], count=self.facts.ring[1])
        elif self.facts.caution and self.facts.presses is not None:
            aside = str(self.facts.presses)
        if aside:
            width = QFontMetricsF(_font(pixels)).horizontalAdvance(aside)
            painter.setPen(palette.current().colour("faint" if self.facts.ring else "ink"))
            painter.drawText(below, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, aside)
            if self.facts.ring is None:
                # No room for "2 presses" beside the warning: the number on a key.
                cap = QRectF(below.right() - width - 4, below.top() + 2, width + 7, below.height() - 4)
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRoundedRect(cap, 3, 3)
            below.setRight(below.right() - width - 8)
        if self.facts.caution:
            area = QRectF(below.left(), below.top() + 1, 12, below.height() - 2)
            _sign(painter, area.center(), 6, False)
            below.setLeft(area.right() + 4)
        font = _font(pixels, bold=self.facts.caution)
        painter.setFont(font)
        painter.setPen(palette.current().colour("caution" if self.facts.caution else "faint"))
        shown = self.facts.cautions or self.facts.words
        if self.facts.override and self.facts.presses is None and not self.facts.cautions:
            keys = " ".join(map(cap_legend, self.facts.back))
            leads = translate("PageMap", "{key} leads back").format(key=keys)
            shown = (leads if keys else translate("PageMap", "goes back by itself"),)
        words = QFontMetricsF(font).elidedText(", ".join(shown), Qt.TextElideMode.ElideRight, below.width() + 1)
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)

    def _face_picture(self, glass: QRectF, colours: FaceColours, scale: float, ratio: float) -> QPixmap:
        picture = QPixmap(max(round(glass.width() * scale), 1), max(round(glass.height() * scale), 1))
        picture.fill(colours.glass)
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(scale, scale)
        self._paint_rows(painter, colours)
        painter.end()
        picture.setDevicePixelRatio(ratio)
        return picture

    def _paint_rows(self, painter: QPainter, colours: FaceColours) -> None:
        height = cell_size(CELL_PIXELS).height
        self._painted = self._rows()
        for number, row in enumerate(self._painted):
            paint_row(painter, row, QPoint(0, number * height), CELL_PIXELS, colours)

    def _afar(self, painter: QPainter, scale: float, colours: FaceColours) -> None:
        """Seen from afar: the name in a size that can be read, and the signs of what stands out."""
        transform = painter.worldTransform()
        area = self.face_rect()
        frame = transform.mapRect(area)
        width = frame.width() + GAP_X * scale - 6
        pixels = scaled(11 if scale > 0.2 else 10 if scale > 0.12 else 9)
        bold = self.facts.start or self.isSelected()
        font = _font(pixels, bold)
        line = _line_height(pixels)
        lines = max(1, int((frame.height() + GAP_Y * scale - 2) // line))
        words, widths = _wrap(self.name, pixels, bold, int(width), min(lines, 3))
        middle = frame.center()
        top = middle.y() - line * len(words) / 2
        painter.resetTransform()
        widest = max(widths) + 4
        ink, ground = colours.ink, colours.cell
        if self.isSelected() or self.lit:
            ink, ground = palette.current().colour("on_accent"), palette.current().colour("accent")
        if ground is not colours.cell or widest > frame.width() or line * len(words) > frame.height():
            painter.fillRect(QRectF(middle.x() - widest / 2, top, widest, line * len(words)), ground)
        painter.setFont(font)
        painter.setPen(ink)
        for number, (text, wide) in enumerate(zip(words, widths, strict=True)):
            painter.drawText(QPointF(middle.x() - wide / 2, top + line * (number + 0.78)), text)
        if self.facts.start:
            at = QPointF(min(frame.left(), middle.x() - widest / 2) - 6, middle.y())
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(palette.current().colour("accent"))
            painter.drawPolygon(QPolygonF([at + QPointF(x, y) for x, y in ((-5, -6), (5, 0), (-5, 6))]))
        if self.facts.caution or self.facts.findings_words:
            size = 6 if frame.height() > 20 else 4.5
            _sign(painter, frame.topRight() + QPointF(size / 2, -size / 2), size, bool(self.facts.errors))
        painter.setWorldTransform(transform)


def _sign(painter: QPainter, at: QPointF, size: float, error: bool) -> None:
    """An error (a disc) or a warning (a triangle), each with its own sign in it."""
    window = palette.current()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(window.colour("fault" if error else "caution"))
    if error:
        painter.drawEllipse(at, size, size)
    else:
        corners = ((0, -size), (size, 0.9 * size), (-size, 0.9 * size))
        painter.drawPolygon(QPolygonF([at + QPointF(x, y) for x, y in corners]))
    painter.setPen(QPen(window.colour("base"), size / 4))
    if error:
        reach = size * 0.4
        painter.drawLine(at + QPointF(-reach, -reach), at + QPointF(reach, reach))
        painter.drawLine(at + QPointF(-reach, reach), at + QPointF(reach, -reach))
    else:
        painter.drawLine(at + QPointF(0, -size * 0.4), at + QPointF(0, size * 0.25))
        painter.drawPoint(at + QPointF(0, size * 0.65))


@lru_cache(maxsize=16)
def _font(pixels: int, bold: bool = False) -> QFont:
    font = QFont()
    font.setPixelSize(pixels)
    font.setBold(bold)
    return font


@lru_cache(maxsize=16)
def _line_height(pixels: int) -> float:
    return QFontMetricsF(_font(pixels)).height()


@lru_cache(maxsize=4096)
def _wrap(text: str, pixels: int, bold: bool, width: int, lines: int) -> tuple[tuple[str, ...], tuple[float, ...]]:
    """A name in at most so many lines of that width, and their widths; what does not fit loses its middle."""
    metrics = QFontMetricsF(_font(pixels, bold))
    found: list[str] = []
    words = text.split(" ")
    while words and len(found) < lines - 1:
        line = words.pop(0)
        while words and metrics.horizontalAdvance(f"{line} {words[0]}") <= width:
            line = f"{line} {words.pop(0)}"
        found.append(line)
    if words:
        found.append(" ".join(words))
    cut = tuple(metrics.elidedText(line, Qt.TextElideMode.ElideMiddle, width) for line in found)
    return cut, tuple(metrics.horizontalAdvance(line) for line in cut)


def wash(colour: QColor, alpha: int) -> QColor:
    """A colour that lets through what lies beneath it; `alpha` from 0 to 255."""
    thin = QColor(colour)
    thin.setAlpha(alpha)
    return thin
