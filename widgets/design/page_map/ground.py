"""What lies beneath the screens of the page map: dots, the band of screens that no key leads to, the web of arrows."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPixmap

from widgets.design.page_map.arrows import WEB, ArrowItem, label_font
from widgets.design.page_map.node import wash
from widgets.kit import palette
from widgets.kit.scaling import scaled

HEADING: Final = 36
"""Over the screens of the band, for its heading, in the coordinates of the scene."""
APART: Final = 24
"""Between the dots, in pixels at 100 per cent."""
MOST_PIXELS: Final = 4_000_000
"""Of a web that is kept as a picture."""

translate = QCoreApplication.translate


class MapGround:
    """Painted in the colours of now, however often they change."""

    def __init__(self) -> None:
        self._web: QPainterPath | None = None
        self._picture: tuple[float, str, QPixmap] | None = None

    def forget_web(self) -> None:
        """The arrows have changed."""
        self._web = self._picture = None

    def paint(self, painter: QPainter, rect: QRectF, edges: Iterable[ArrowItem], band: QPointF | None) -> None:
        """Paint a part of it. `band` is where the heading of the band begins; None if there is no band."""
        window = palette.current()
        painter.fillRect(rect, window.colour("canvas"))
        near = painter.worldTransform().m11() >= WEB
        if near:
            _paint_dots(painter, rect)
        if band is not None and band.y() < rect.bottom():
            _paint_band(painter, rect, band)
        if not near:
            self._paint_web(painter, edges)

    def _paint_web(self, painter: QPainter, edges: Iterable[ArrowItem]) -> None:
        """From afar, all arrows at once: many thin lines that tell how the map hangs together."""
        if self._web is None:
            self._web = QPainterPath()
            for edge in edges:
                edge.add_to(self._web)
        area, transform = self._web.boundingRect(), painter.worldTransform()
        ratio, colour = painter.device().devicePixelRatioF(), palette.current().faint
        scale = transform.m11() * ratio
        if area.width() * area.height() * scale * scale > MOST_PIXELS:
            _paint_lines(painter, self._web)
            return
        if self._picture is None or self._picture[:2] != (scale, colour):
            picture = QPixmap(round(area.width() * scale) + 2, round(area.height() * scale) + 2)
            picture.fill(Qt.GlobalColor.transparent)
            own = QPainter(picture)
            own.scale(scale, scale)
            own.translate(-area.topLeft())
            _paint_lines(own, self._web)
            own.end()
            picture.setDevicePixelRatio(ratio)
            self._picture = scale, colour, picture
        painter.save()
        painter.resetTransform()
        painter.drawPixmap(transform.map(area.topLeft()).toPoint(), self._picture[2])
        painter.restore()


def _paint_lines(painter: QPainter, path: QPainterPath) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(QPen(wash(palette.current().colour("faint"), 90), 0))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(path)


def _paint_dots(painter: QPainter, rect: QRectF) -> None:
    """As far apart at every zoom; they move along with the map."""
    window, transform = palette.current(), painter.worldTransform()
    painter.save()
    painter.resetTransform()
    painter.setBrushOrigin(transform.map(QPointF()).toPoint())
    painter.fillRect(transform.mapRect(rect), QBrush(_dot(window.line if window.dark else window.edge, scaled(APART))))
    painter.restore()


@lru_cache(maxsize=8)
def _dot(colour: str, side: int) -> QPixmap:
    """One dot with the room around it."""
    tile = QPixmap(side, side)
    tile.fill(Qt.GlobalColor.transparent)
    painter = QPainter(tile)
    painter.fillRect(0, 0, scaled(1), scaled(1), QColor(colour))
    painter.end()
    return tile


def _paint_band(painter: QPainter, rect: QRectF, heading: QPointF) -> None:
    """The ground of the band, and its heading in a size that can be read."""
    window, transform = palette.current(), painter.worldTransform()
    top = heading.y()
    painter.fillRect(QRectF(QPointF(rect.left(), max(top, rect.top())), rect.bottomRight()), window.colour("pane"))
    painter.setPen(QPen(window.colour("line"), 0))
    painter.drawLine(QPointF(rect.left(), top), QPointF(rect.right(), top))
    painter.save()
    painter.resetTransform()
    painter.setFont(label_font(bold=True, pixels=scaled(12)))
    painter.setPen(window.colour("faint"))
    painter.drawText(transform.map(heading) + QPointF(0, scaled(18)), translate("PageMap", "Shown without a key"))
    painter.restore()
