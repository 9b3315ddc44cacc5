"""The view of the page map: what is drawn, which part of it is in sight, and what is selected."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent, QShowEvent, QWheelEvent
from PySide6.QtWidgets import QGraphicsView, QWidget

from app.page_map.layout import MapPlace
from widgets.design.page_map.arrows import ArrowItem, InletItem, ScreenChangeItem
from widgets.design.page_map.node import Node
from widgets.design.page_map.scene import MapScene
from widgets.kit import palette
from widgets.kit.scaling import percent

LARGEST_FIT: Final = 1.5
READABLE: Final = 0.5
"""Scales: the largest that is used to fill the room, and the least at which faces can still be read."""
SMALLEST: Final = 0.04
LARGEST: Final = 4.0
AT_EDGE: Final = 14
"""Pixels from the edge of the view within which it moves along with the mouse, and by which it does so."""


def readable() -> float:
    """The least scale at which faces can be read, at the size in which everything is drawn."""
    return READABLE * percent() / 100


class MapView(QGraphicsView):
    """Shows the whole map or a part of it. As long as nobody looks elsewhere, it keeps all in sight."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.map_scene = MapScene(self)
        self.setScene(self.map_scene)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setDragMode(QGraphicsView.DragMode.ScrollHandDrag)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.AnchorUnderMouse)
        self.setFrameShape(QGraphicsView.Shape.NoFrame)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.SmartViewportUpdate)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._fits = True
        self._content = QRectF()

    # What is shown

    @property
    def nodes(self) -> dict[str, Node]:
        """The screens, by name."""
        return self.map_scene.nodes

    @property
    def edges(self) -> list[ArrowItem]:
        """The arrows."""
        return self.map_scene.edges

    @property
    def inlets(self) -> list[InletItem]:
        """What leads to a screen from every screen."""
        return self.map_scene.inlets

    # What is selected

    def selected_screen(self) -> str | None:
        """The screen that is selected; the first of several."""
        return next((name for name, node in self.nodes.items() if node.isSelected()), None)

    def selected_screens(self) -> tuple[str, ...]:
        """All screens that are selected."""
        return tuple(name for name, node in self.nodes.items() if node.isSelected())

    def selected_screen_change(self) -> int | None:
        """The current screen change of the arrow that is selected."""
        item = self.selected_screen_change_item()
        return None if item is None else item.screen_change

    def selected_screen_change_item(self) -> ScreenChangeItem | None:
        """The arrow or inlet that is selected."""
        return next((item for item in self.map_scene.screen_change_items() if item.isSelected()), None)

    # What is in sight

    def see_to_room(self, *, anew: bool = False) -> None:
        """Give the scene room around what is drawn; after a change of that, or `anew`, see to it that all fits."""
        content = self.map_scene.content_rect()
        if content == self._content and not anew:
            return
        self._content = content
        across, down = self.map_scene.step()
        self.map_scene.setSceneRect(content.adjusted(-across, -down, across, down))
        if anew:
            self._fits = True
        if self._fits:
            self.fit(readable())

    def look_at(self, node: Node) -> None:
        """Bring a screen to the middle, in a size that can be read."""
        self._fits = False
        if self.transform().m11() < readable():
            self.resetTransform()
            self.scale(readable(), readable())
        self.centerOn(self.rect_of(node).center())

    def see(self, item: Node | ScreenChangeItem) -> None:
        """Move what is in sight as little as shows this."""
        area = self.rect_of(item) if isinstance(item, Node) else QRectF()
        if isinstance(item, ArrowItem | InletItem):
            area = item.label_rect()
        self.ensureVisible(area, 20, 20)

    def rect_of(self, node: Node) -> QRectF:
        """Where a screen is drawn, in the coordinates of the scene."""
        return node.mapRectToScene(node.face_rect())

    def place_under(self, point: QPoint) -> MapPlace:
        """The place of a screen whose middle is at a point of the viewport."""
        across, down = self.map_scene.step()
        return self.map_scene.place_of(self.mapToScene(point) - QPointF(across * 0.35, down * 0.25))

    def scroll_along(self, point: QPoint) -> None:
        """Look further where the mouse comes to the edge."""
        area = self.viewport().rect()
        for bar, here, end in (
            (self.horizontalScrollBar(), point.x(), area.width()),
            (self.verticalScrollBar(), point.y(), area.height()),
        ):
            if here < AT_EDGE or here > end - AT_EDGE:
                self._fits = False
                bar.setValue(bar.value() + (-AT_EDGE if here < AT_EDGE else AT_EDGE))

    def fit(self, least: float = 0.0) -> None:
        """Show all of it, as large as it fits but no larger than LARGEST_FIT.

        Where that would be smaller than `least`, show the part around the selected screen at that scale instead.
        """
        self._fits = True
        area = self.map_scene.content_rect()
        if area.isEmpty() or self.viewport().width() < 10:
            return
        scale = self._scale_for(area)
        self.resetTransform()
        self.scale(max(scale, least), max(scale, least))
        chosen = self.nodes.get(self.selected_screen() or "")
        self.centerOn(area.center() if scale >= least or chosen is None else self.rect_of(chosen).center())

    def _scale_for(self, area: QRectF) -> float:
        room = self.viewport().size()
        return min(room.width() / area.width(), room.height() / area.height(), LARGEST_FIT * percent() / 100)

    def fit_selection(self) -> None:
        """Show the selected screens with what is around them."""
        area = QRectF()
        for name in self.selected_screens():
            area = area.united(self.rect_of(self.nodes[name]))
        if area.isEmpty():
            return
        self._fits = False
        across, down = self.map_scene.step()
        area = area.adjusted(-across / 2, -down / 2, across / 2, down / 2)
        scale = self._scale_for(area)
        self.resetTransform()
        self.scale(scale, scale)
        self.centerOn(area.center())

    def zoom(self, factor: float) -> None:
        """Look closer, or from further away."""
        now = self.transform().m11() * factor
        if SMALLEST <= now <= LARGEST:
            self._fits = False
            self.scale(factor, factor)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom with Ctrl held."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom(1.15 if event.angleDelta().y() > 0 else 1 / 1.15)
            event.accept()
            return
        self._fits = False
        super().wheelEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._fits:
            self.fit(readable())

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._fits:
            self.fit(readable())

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self.nodes:
            painter = QPainter(self.viewport())
            painter.setPen(palette.current().colour("faint"))
            painter.drawText(
                self.viewport().rect(),
                Qt.AlignmentFlag.AlignCenter,
                self.tr("No screens yet. Insert adds one."),
            )
