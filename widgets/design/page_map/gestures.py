"""What is drawn and dragged on the page map with the mouse: screen changes, the heads of arrows, screens."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsView, QStyleOptionGraphicsItem, QWidget

from widgets.design.page_map.arrows import ArrowItem, InletItem, drawn_line, label_font, label_width
from widgets.design.page_map.node import Node
from widgets.design.page_map.scene import MapScene
from widgets.kit import palette
from widgets.kit.scaling import scaled

HEAD_REACH: Final = 16
"""Pixels around the tip of an arrow within which its head can be taken hold of."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """What is being drawn: a key of a screen, or a screen change that is redirected. `word` is shown at the mouse."""

    word: str
    from_: str | None
    key: str = ""
    screen_change: int = -1


class Rubber(QGraphicsItem):
    """The arrow that follows the mouse while a screen change is drawn."""

    def __init__(self) -> None:
        super().__init__()
        self._path, self._head = drawn_line([QPointF(), QPointF(1, 1)])
        self._word = ""
        self._at = QPointF()
        self._larger = 1.0
        self.setZValue(20)

    def stretch(self, start: QPointF, end: QPointF, word: str, scale: float) -> None:
        """Go from here to there, with this word beside the end, on a map that is shown at this scale."""
        self.prepareGeometryChange()
        self._path, self._head = drawn_line([start, end])
        self._word, self._at, self._larger = word, end, scaled(100) / 100 / max(scale, 0.01)

    def boundingRect(self) -> QRectF:
        reach = (label_width(self._word) + 40) * self._larger
        return self._path.boundingRect().united(QRectF(self._at, self._at)).adjusted(-reach, -reach, reach, reach)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002
        window = palette.current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        pen = QPen(window.colour("accent"), 2.4)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.drawPath(self._path)
        # Head and words are as large on the display as ever, from however far one looks.
        painter.translate(self._at)
        painter.scale(self._larger, self._larger)
        painter.translate(-self._at)
        painter.setBrush(window.colour("accent"))
        painter.drawPolygon(self._head)
        plate = QRectF(self._at.x() + 14, self._at.y() + 10, label_width(self._word), 18)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.drawRoundedRect(plate, 4, 4)
        painter.setPen(window.colour("on_accent"))
        painter.setFont(label_font())
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, self._word)


class Drawing:
    """An arrow from a screen to the mouse, until it is let go over another screen, or given up."""

    def __init__(self, scene: MapScene, what: Drawn, start: QPointF) -> None:
        self.what = what
        self.target: Node | None = None
        self._scene = scene
        self._start = start
        self._rubber = Rubber()
        scene.addItem(self._rubber)

    def to(self, point: QPointF, scale: float) -> None:
        """The mouse is there now, in the coordinates of the scene, which is shown at this scale."""
        target = node_at(self._scene, point)
        if target is not None and target.name == self.what.from_:
            target = None
        if target is not self.target:
            if self.target is not None:
                self.target.light()
            if target is not None:
                target.light(lit=True)
            self.target = target
        word = self.what.word
        if target is not None:
            word = f"{word} \N{RIGHTWARDS ARROW} {target.name}"
        self._rubber.stretch(self._start, point, word, scale)

    def end(self) -> None:
        """Take the arrow away again."""
        if self.target is not None:
            self.target.light()
        self._scene.removeItem(self._rubber)


class Dragging:
    """Screens that are being moved. One screen of the ring, dropped on an arrow of the ring, takes its place there."""

    def __init__(self, scene: MapScene, names: tuple[str, ...]) -> None:
        self.names = names
        self.into: ArrowItem | None = None
        self._scene = scene
        self._before = {name: scene.nodes[name].pos() for name in names}

    def follow(self) -> None:
        """The screens are at another point."""
        self._scene.follow(self.names)
        into = self._ring_arrow()
        if into is not self.into:
            for edge in (self.into, into):
                if edge is not None:
                    edge.set_near(edge is into)
            self.into = into

    def _ring_arrow(self) -> ArrowItem | None:
        name = self.names[0] if len(self.names) == 1 else None
        ring = self._scene.ring_at(name)
        if name is None or ring is None:
            return None
        node = self._scene.nodes[name]
        area = node.mapRectToScene(node.face_rect())
        middle = area.adjusted(area.width() / 4, area.height() / 4, -area.width() / 4, -area.height() / 4)
        found = [
            edge
            for edge in self._scene.edges
            if edge.arrow.ring
            and name not in (edge.arrow.from_, edge.arrow.to)
            and edge.arrow.from_ in ring.screens
            and edge.crosses(middle)
        ]
        return found[0] if found else None

    @property
    def number(self) -> int:
        """The number in its ring, from 0, that the screen gets by being dropped on the arrow `into`."""
        ring, project = self._scene.ring_at(self.names[0]), self._scene.project
        if ring is None or project is None or self.into is None:
            return 0
        arrow = self.into.arrow
        onward = any(ring.goes_onward(project.screen_changes[lead.screen_change]) for lead in arrow.leads)
        return ring.number_between(self.names[0], arrow.from_, arrow.to, onward)

    @property
    def has_moved(self) -> bool:
        """Whether any of them is elsewhere than before."""
        return any(self._scene.nodes[name].pos() != point for name, point in self._before.items())

    def give_up(self) -> None:
        """Put them back."""
        for name, point in self._before.items():
            self._scene.nodes[name].setPos(point)
        self._scene.redraw_screen_changes()


def node_at(scene: MapScene, point: QPointF) -> Node | None:
    """The screen at a point of the scene."""
    return next((item for item in scene.items(point) if isinstance(item, Node)), None)


def head_at(view: QGraphicsView, scene: MapScene, point: QPoint) -> ArrowItem | InletItem | None:
    """The arrow whose head is at a point of the viewport, the selected one first; or the inlet there."""
    item = view.itemAt(point)
    if isinstance(item, InletItem):
        return item
    reach = HEAD_REACH / max(view.transform().m11(), 0.01)
    at = view.mapToScene(point)
    near = [
        edge
        for edge in scene.edges
        if abs(edge.tip.x() - at.x()) < reach and abs(edge.tip.y() - at.y()) < reach and edge.isVisible()
    ]
    near.sort(key=lambda edge: (not edge.isSelected(), not edge.near))
    if isinstance(item, Node) and not any(edge.isSelected() for edge in near):
        return None
    return near[0] if near else None
