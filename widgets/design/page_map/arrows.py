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
from widgets.kit.icons import paint_icon
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled

LABEL: Final = 0.4
"""The scale from which on labels are drawn."""
WEB: Final = 0.2
"""The scale below which all arrows but those that stand out are drawn as one web of thin lines (by the scene)."""
LEAST: Final = 10
"""The height in pixels of the letters of a label, at least."""
LONG: Final = 900.0
"""From this length on an arrow steps back until one of its screens is selected."""
HEAD: Final = 10.0
INLET: Final = 25.0
CAP: Final = 18.0
"""Heights: of an arrow's head, of an inlet with its gap, of a key at an arrow."""
APART: Final = 3.0
SIGN: Final = 13.0
ICON: Final = 18.0
"""Between the keys at one arrow; the width of the sign of a finding, and of an icon with its gap."""
ARROW: Final = 40.0
"""The least length of the arrow from an inlet to the screen right of it."""
INLETS: Final = 2
"""As many stand on a screen at most; the last one tells how many more there are."""
HAT_PART: Final = 1.2
"""Of a node's width, what its inlets take at most: a sentence reaches into the gap beside it."""

translate = QCoreApplication.translate


@dataclass(frozen=True, slots=True)
class Label:
    """The words of one screen change on the map; `cap` is what stands on its key, empty if none brings it about.

    `faulty` where a check found something.
    """

    screen_change: int
    text: str
    faulty: bool = False
    cap: str = ""

    @property
    def width(self) -> float:
        """Its room at full scale."""
        return max(label_width(self.cap or self.text), CAP + 4) + SIGN * self.faulty


def screen_change_label(project: Project, screen_change: int, from_everywhere: bool = False) -> str:
    """A screen change in as few words as will do on the map."""
    part = project.screen_changes[screen_change]
    if part.when is not None:
        return when_text(part.when)
    if part.idle_s is not None:
        return translate("PageMap", "after {seconds} s without a key").format(seconds=part.idle_s)
    if from_everywhere:
        return translate("PageMap", "{key}, any screen").format(key=key_legend(part.key or ""))
    return key_legend(part.key or "")


def plate_width(labels: tuple[Label, ...]) -> float:
    """The room of all labels at an arrow at full scale."""
    return sum(label.width for label in labels) + APART * (len(labels) - 1)


@lru_cache(maxsize=64)
def label_font(bold: bool = False, pixels: int = 11) -> QFont:
    """The font of the words at arrows."""
    font = QFont()
    font.setPixelSize(pixels)
    font.setBold(bold)
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
        """Whether it leads from a selected screen, so that it stands out."""
        self.aside = False
        """Whether it leads from a screen that no key leads to, which says itself what leads back."""
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
        width = plate_width(self.labels)
        self._plate = QRectF(route.label[0] - width / 2, route.label[1] - CAP / 2, width, CAP)
        # Labels grow as one goes further away.
        wide, high = (factor * (scaled(LEAST) / 11 / LABEL - 1) / 2 for factor in (width, CAP))
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
        colour = window.colour("accent" if chosen or self.near else "faint")
        steps_back = (self._length > LONG or self.aside) and not (chosen or self.near)
        if steps_back:
            colour = wash(colour, 90)
        pen = QPen(colour, 3.0 if chosen else 2.0 if self.near else 1.5, line_style(self.arrow.kind))
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
        if scale >= LABEL and not (steps_back and self.aside):
            painter.save()
            larger = max(1.0, scaled(LEAST) / 11 / scale)
            painter.translate(self._plate.center())
            painter.scale(larger, larger)
            painter.translate(-self._plate.center())
            self._paint_label(painter, chosen)
            painter.restore()

    def _paint_label(self, painter: QPainter, chosen: bool) -> None:
        """A cap for every key, a plate with words for what comes about otherwise; the current one stands out."""
        window = palette.current()
        x = self._plate.left()
        for number, label in enumerate(self.labels):
            plate = QRectF(x, self._plate.top(), label.width, CAP)
            here = chosen and number == self.current
            style = Qt.PenStyle.SolidLine if label.cap else Qt.PenStyle.DashLine
            painter.setPen(QPen(window.colour("accent" if here else "edge"), 2 if here else 1, style))
            painter.setBrush(window.colour("soft" if here else "raised"))
            painter.drawRoundedRect(plate, 4, 4)
            if label.faulty:
                _paint_sign(painter, plate.adjusted(4, 0, 0, 0))
                plate.setLeft(plate.left() + SIGN)
            painter.setPen(window.colour("ink"))
            painter.setFont(label_font(bold=bool(label.cap)))
            painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, label.cap or label.text)
            x += label.width + APART


class InletItem(ScreenChangeItem):
    """A small plate on top of a screen, or left of it: a screen change that leads there from wherever the panel is."""

    def __init__(
        self,
        node: Node,
        labels: tuple[Label, ...],
        inlet: Inlet,
        row: int,
        more: int,
        tip: str,
        beside: float = 0.0,
    ) -> None:
        """Stand in this row, from 0 at the screen; `more` screen changes are not shown but can be reached from here.

        With `beside` stand so far left of the screen, the first row at its middle.
        """
        super().__init__(labels, node)
        self.inlet = inlet
        self._more = more
        needed = QFontMetricsF(label_font(pixels=min(scaled(13), 16))).horizontalAdvance(self.label) + 20
        needed += ICON * (inlet.lead.kind != "key") + SIGN * any(label.faulty for label in labels)
        self._beside = beside
        if not beside:
            self._width = min(needed, node.face_rect().width() * HAT_PART - 4)
            self.setPos(4, -INLET * (row + 1) - 3)
        else:
            self._width = min(needed, beside - ARROW)
            self.setPos(-beside, node.face_rect().center().y() + INLET * (row - 0.5))
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
        return self._plate().adjusted(-3, -3, max(self._beside - self._width, 0) + 3, 9)

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
        kind = self.inlet.lead.kind
        painter.setPen(QPen(colour, 2 if chosen else 1.3, line_style(kind)))
        painter.setBrush(window.colour("soft" if chosen else "base"))
        painter.drawRoundedRect(plate, plate.height() / 2, plate.height() / 2)
        if scale < LABEL:
            return
        if self._beside:
            begin = QPointF(plate.right(), plate.center().y())
            path, head = drawn_line([begin, begin + QPointF(self._beside - self._width, 0)])
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPath(path)
        else:
            # It points down to the screen, out of the plate.
            x, y = 16.0, plate.bottom() - 1
            head = QPolygonF([QPointF(x - 5, y), QPointF(x + 5, y), QPointF(x, y + 6)])
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPolygon(head)
        words = plate.adjusted(8, 0, -6, 0)
        if kind != "key":
            place = QRectF(words.left(), words.top(), ICON - 4, words.height())
            paint_icon(painter, "time" if kind == "idle" else "condition", "faint", place.toRect())
            words.setLeft(words.left() + ICON)
        if any(label.faulty for label in self.labels):
            _paint_sign(painter, words)
            words.setLeft(words.left() + SIGN)
        font = label_font(pixels=min(round(max(11, scaled(LEAST) / scale)), 16))
        painter.setFont(font)
        painter.setPen(window.colour("accent" if chosen else "ink"))
        text = QFontMetricsF(font).elidedText(self.label, Qt.TextElideMode.ElideRight, words.width() + 1)
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, text)


def _paint_sign(painter: QPainter, place: QRectF) -> None:
    """A check found something."""
    painter.setPen(palette.current().colour("caution"))
    painter.setFont(label_font())
    painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, "\u26a0")


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
