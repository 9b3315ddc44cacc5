"""The arrows of the page map, and the inlets of what leads to a screen from everywhere."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import hypot
from typing import Final

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QFont,
    QFontMetricsF,
    QPainter,
    QPainterPath,
    QPainterPathStroker,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from app.page_map.arrows import Arrow, ArrowKind, Inlet
from app.page_map.routes import Route
from app.project.model import Project
from widgets.design.forms.part_texts import when_text
from widgets.design.page_map.node import Node, wash
from widgets.face.keypad import key_legend
from widgets.kit import palette
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled

LABEL: Final = 0.4
WEB: Final = 0.2
"""The scale below which all arrows but those that stand out are drawn as one web of thin lines (by the scene)."""
"""The scale from which on labels are drawn."""
LEAST: Final = 10
"""The height in pixels of the letters of a label, at least."""
LONG: Final = 900.0
"""From this length on an arrow steps back until one of its screens is selected."""
HEAD: Final = 10.0
INLET: Final = 23.0
"""Heights: of an arrow's head, of an inlet with its gap."""
INLETS: Final = 2
"""As many stand on a screen at most; the last one tells how many more there are."""
HAT_PART: Final = 0.85
"""Of a node's width, what its inlets take."""

translate = QCoreApplication.translate


@dataclass(frozen=True, slots=True)
class Label:
    """The words of one screen change on the map. `faulty` where a check found something."""

    screen_change: int
    text: str
    faulty: bool = False


def screen_change_label(project: Project, screen_change: int, from_everywhere: bool = False) -> str:
    """A screen change in as few words as will do on the map."""
    part = project.screen_changes[screen_change]
    if part.when is not None:
        return when_text(part.when)
    if part.idle_s is not None:
        return translate("PageMap", "idle {seconds} s").format(seconds=part.idle_s)
    if from_everywhere:
        return translate("PageMap", "{key}, any screen").format(key=key_legend(part.key or ""))
    return key_legend(part.key or "")


@lru_cache(maxsize=64)
def label_font(bold: bool = False, underlined: bool = False, pixels: int = 11) -> QFont:
    """The font of the words at arrows."""
    font = QFont()
    font.setPixelSize(pixels)
    font.setBold(bold)
    font.setUnderline(underlined)
    return font


@lru_cache(maxsize=1024)
def label_width(text: str) -> float:
    """The width of words in that font, with some room."""
    return QFontMetricsF(label_font()).horizontalAdvance(text) + 10


def line_style(kind: ArrowKind) -> Qt.PenStyle:
    """How the lines of each kind are drawn, so that no colour is needed to tell them apart."""
    return {"key": Qt.PenStyle.SolidLine, "idle": Qt.PenStyle.DotLine, "override": Qt.PenStyle.DashLine}[kind]


class ScreenChangeItem(QGraphicsItem):
    """What stands for screen changes on the map: it can be selected, and one of them is the current one."""

    def __init__(self, labels: tuple[Label, ...], parent: QGraphicsItem | None = None) -> None:
        super().__init__(parent)
        self.labels = labels
        self.current = 0
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIsSelectable)

    @property
    def screen_change(self) -> int:
        """The index of the current screen change."""
        return self.labels[self.current].screen_change

    def holds(self, screen_change: int) -> bool:
        """Whether it stands for this screen change, which becomes the current one."""
        for number, label in enumerate(self.labels):
            if label.screen_change == screen_change:
                self.current = number
                return True
        return False


class ArrowItem(ScreenChangeItem):
    """One arrow with its label."""

    def __init__(self, arrow: Arrow, labels: tuple[Label, ...], route: Route) -> None:
        super().__init__(labels)
        self.arrow = arrow
        self.near = False
        """Whether one of its screens is selected, so that it stands out."""
        self.setZValue(1)
        self._route: Route | None = None
        self.set_route(route)
        said = ", ".join(label.text for label in labels)
        self.setToolTip(plain_tip(f"{arrow.from_} \N{RIGHTWARDS ARROW} {arrow.to}: {said}"))

    @property
    def label(self) -> str:
        """All its words."""
        return ", ".join(label.text for label in self.labels)

    @property
    def tip(self) -> QPointF:
        """Where it meets the screen that it leads to, in the coordinates of the scene."""
        return self.mapToScene(self._end)

    def set_route(self, route: Route) -> None:
        """Go this way from now on."""
        if route == self._route:
            return
        self._route = route
        self.prepareGeometryChange()
        points = [QPointF(x, y) for x, y in route.points]
        self._points, self._begin, self._end = points, points[0], points[-1]
        self._line: tuple[QPainterPath, QPolygonF] | None = None
        self._length = sum(abs(a.x() - b.x()) + abs(a.y() - b.y()) for a, b in pairwise(points))
        width = label_width(self.label) + 12 * any(label.faulty for label in self.labels)
        self._plate = QRectF(route.label[0] - width / 2, route.label[1] - 8, width, 16)
        # Labels grow as one goes further away.
        wide, high = (factor * (scaled(LEAST) / 11 / LABEL - 1) / 2 for factor in (width, 16))
        grown = self._plate.adjusted(-wide, -high, wide, high)
        across, down = [x for x, _ in route.points], [y for _, y in route.points]
        line = QRectF(QPointF(min(across), min(down)), QPointF(max(across), max(down)))
        self._bounds = line.united(grown).adjusted(-8, -8, 8, 8)
        self._hit: QPainterPath | None = None

    @property
    def _drawn_line(self) -> tuple[QPainterPath, QPolygonF]:
        """The line and the head, made when they are first looked at: of many arrows few are in view."""
        if self._line is None:
            self._line = drawn_line(self._points)
        return self._line

    def add_to(self, web: QPainterPath) -> None:
        """Add its line, without the round corners, to a path."""
        web.moveTo(self._begin)
        for point in self._points[1:]:
            web.lineTo(point)

    @property
    def start(self) -> QPointF:
        """Where it leaves its screen, in the coordinates of the scene."""
        return self.mapToScene(self._begin)

    def crosses(self, area: QRectF) -> bool:
        """Whether it goes through an area of the scene."""
        return self._bounds.intersects(area) and self.shape().intersects(area)

    def set_near(self, near: bool) -> None:
        """Stand out, or not."""
        if near != self.near:
            self.near = near
            self.setZValue(1.5 if near or self.isSelected() else 1)
            self.update()

    def label_rect(self) -> QRectF:
        """Where the label stands, in the coordinates of the scene."""
        return self.mapRectToScene(self._plate)

    def boundingRect(self) -> QRectF:
        return self._bounds

    def shape(self) -> QPainterPath:
        if self._hit is None:
            stroker = QPainterPathStroker()
            stroker.setWidth(12)
            self._hit = stroker.createStroke(self._drawn_line[0])
            self._hit.setFillRule(Qt.FillRule.WindingFill)
            self._hit.addRect(self._plate)
        return self._hit

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002
        scale = option.levelOfDetailFromTransform(painter.worldTransform())
        chosen = self.isSelected()
        if scale < WEB and not (chosen or self.near):
            return
        path, head = self._drawn_line
        window = palette.current()
        colour = window.colour("accent" if chosen else "ink" if self.near else "faint")
        steps_back = self._length > LONG and not (chosen or self.near)
        if steps_back:
            colour = wash(colour, 90)
        if self.arrow.ring:
            band = QPen(wash(window.colour("accent"), 34), 13)
            band.setCapStyle(Qt.PenCapStyle.RoundCap)
            painter.setPen(band)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPath(path)
        pen = QPen(colour, 2.6 if chosen else 2.0 if self.near else 1.5, line_style(self.arrow.kind))
        if scale < LABEL:
            pen.setWidthF(1.8 if chosen or self.near else 1.0)
            pen.setCosmetic(True)
        if steps_back:
            # A thin line along the pixels: it looks the same, and of a long one most lies out of sight.
            pen.setWidth(0)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, not steps_back)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPolygon(head)
        if scale >= LABEL:
            painter.save()
            larger = max(1.0, scaled(LEAST) / 11 / scale)
            painter.translate(self._plate.center())
            painter.scale(larger, larger)
            painter.translate(-self._plate.center())
            self._paint_label(painter, chosen)
            painter.restore()

    def _paint_label(self, painter: QPainter, chosen: bool) -> None:
        window = palette.current()
        painter.setBrush(window.colour("base"))
        painter.setPen(QPen(window.colour("line"), 1) if self.near or chosen else Qt.PenStyle.NoPen)
        painter.drawRoundedRect(self._plate, 4, 4)
        _paint_words(painter, self._plate, self.labels, self.current if chosen else None)


class InletItem(ScreenChangeItem):
    """A small plate on top of a screen: a screen change that leads there from wherever the panel is."""

    def __init__(self, node: Node, labels: tuple[Label, ...], inlet: Inlet, row: int, more: int, tip: str) -> None:
        """Stand in this row, from 0 at the screen; `more` screen changes are not shown but can be reached from here."""
        super().__init__(labels, node)
        self.inlet = inlet
        self._more = more
        self._width = node.face_rect().width() * HAT_PART - 4
        self.setPos(4, -INLET * (row + 1) - 3)
        self.setToolTip(plain_tip(tip))

    @property
    def label(self) -> str:
        """The words that are shown."""
        if self._more:
            return translate("PageMap", "{label} and {n} more").format(
                label=self.labels[self.current].text, n=self._more
            )
        return self.labels[0].text

    def label_rect(self) -> QRectF:
        """Where the label stands, in the coordinates of the scene."""
        return self.mapRectToScene(self._plate())

    def _plate(self) -> QRectF:
        return QRectF(0, 0, self._width, INLET - 4)

    def boundingRect(self) -> QRectF:
        return self._plate().adjusted(-3, -3, 3, 9)

    def shape(self) -> QPainterPath:
        path = QPainterPath()
        path.addRect(self._plate())
        return path

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002
        window = palette.current()
        scale = option.levelOfDetailFromTransform(painter.worldTransform())
        chosen = self.isSelected()
        colour = window.colour("accent" if chosen else "faint")
        plate = self._plate()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour, 2 if chosen else 1.3, line_style(self.inlet.lead.kind)))
        painter.setBrush(window.colour("raised"))
        painter.drawRoundedRect(plate, 5, 5)
        if scale < LABEL:
            return
        # The head points down to the screen, out of the plate.
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        x, y = 11.0, plate.bottom() - 1
        painter.drawPolygon(QPolygonF([QPointF(x - 5, y), QPointF(x + 5, y), QPointF(x, y + 6)]))
        words = plate.adjusted(2, 0, 0, 0)
        pixels = min(round(max(11, scaled(LEAST) / scale)), 16)
        metrics = QFontMetricsF(label_font(pixels=pixels))
        text = metrics.elidedText(self.label, Qt.TextElideMode.ElideRight, words.width() - 6)
        shown = Label(self.screen_change, text, any(label.faulty for label in self.labels))
        _paint_words(painter, words, (shown,), 0 if chosen else None, pixels)


def _paint_words(
    painter: QPainter, plate: QRectF, labels: tuple[Label, ...], current: int | None, pixels: int = 11
) -> None:
    """The words of screen changes, the current one underlined, those that a check found something about with a sign."""
    window = palette.current()
    painter.setPen(window.colour("ink" if current is None else "accent"))
    x = plate.left() + 5
    for number, label in enumerate(labels):
        here = number == current and len(labels) > 1
        font = label_font(here, here, pixels)
        painter.setFont(font)
        if label.faulty:
            painter.save()
            painter.setPen(window.colour("caution"))
            painter.drawText(QRectF(x, plate.top(), 12, plate.height()), Qt.AlignmentFlag.AlignVCenter, "\u26a0")
            painter.restore()
            x += 12
        text = label.text if number == len(labels) - 1 else f"{label.text}, "
        width = QFontMetricsF(font).horizontalAdvance(text)
        painter.drawText(QRectF(x, plate.top(), width + 4, plate.height()), Qt.AlignmentFlag.AlignVCenter, text)
        x += width


def drawn_line(points: list[QPointF]) -> tuple[QPainterPath, QPolygonF]:
    """A line through the corners, which it rounds, and the head at its end."""
    end, before = points[-1], points[-2]
    length = max(hypot(end.x() - before.x(), end.y() - before.y()), 0.01)
    unit = (end - before) / length
    across = QPointF(-unit.y(), unit.x())
    head = QPolygonF([end, end - unit * HEAD + across * 4.8, end - unit * HEAD - across * 4.8])
    path = QPainterPath(points[0])
    for last, corner, following in zip(points, points[1:], points[2:], strict=False):
        into = hypot(corner.x() - last.x(), corner.y() - last.y())
        away = hypot(following.x() - corner.x(), following.y() - corner.y())
        radius = min(10.0, into / 2, away / 2)
        if radius > 0.5:
            path.lineTo(corner + (last - corner) * (radius / into))
            path.quadTo(corner, corner + (following - corner) * (radius / away))
        else:
            path.lineTo(corner)
    path.lineTo(end - unit * min(HEAD - 2, length / 2))
    return path, head
