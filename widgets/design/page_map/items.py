"""The page map: screens as small faces, screen changes as labelled arrows between them."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import QAccessible, QContextMenuEvent, QFocusEvent, QKeyEvent, QMouseEvent, QPaintEvent
from PySide6.QtWidgets import QApplication, QGraphicsView, QWidget

from app.panel.paging import PagingGraph
from app.project.model import Project
from widgets.design.page_map.arrows import ArrowItem, InletItem, ScreenChangeItem
from widgets.design.page_map.gestures import Dragging, Drawing, Drawn, head_at, node_at
from widgets.design.page_map.keyboard import MapKeyboard
from widgets.design.page_map.keys import FreeKeys, KeyStrip, free_keys, key_uses
from widgets.design.page_map.node import Node
from widgets.speech.roles import give_role

HOVER_MS: Final = 250
"""How long the mouse rests on a screen until its keys are shown."""


class PageMap(MapKeyboard):
    """Shows all screens of a project, and reports what is asked for by mouse and keyboard; it edits nothing itself."""

    screen_change_drawn = Signal(str, str, str)
    """From a screen, by a key, to a screen."""
    screen_change_dropped = Signal(str, str, object, QPoint)
    """From a screen, by a key, to an empty place (a Place), at this point of the display."""
    screen_change_redirected = Signal(int, object, str)
    """A screen change, at the screen it was taken hold of (None: everywhere), leads to this screen from now on."""
    menu_wanted = Signal(QPoint, object)
    """At a point of the display, over a Place."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setMouseTracking(True)
        self.strip = KeyStrip()
        self.free = FreeKeys()
        self._free_scale = 0.0
        for strip in (self.strip, self.free):
            self.map_scene.addItem(strip)
        self._drawing: Drawing | None = None
        self._dragging: Dragging | None = None
        self._held: tuple[QPoint, ArrowItem | InletItem] | None = None
        self._hovered: Node | None = None
        self._hover = QTimer(self)
        self._hover.setSingleShot(True)
        self._hover.setInterval(HOVER_MS)
        self._hover.timeout.connect(self._show_keys)

    # Keys of a screen

    def _show_keys(self) -> None:
        """Show the keys of the screen on which the mouse rests."""
        node = self._hovered
        project = self.map_scene.project
        if self._dragging is not None or node is None or project is None or node.name not in project.screen_named:
            self.strip.show_at(None, [])
        else:
            self.strip.show_at(node, key_uses(project, node.name))

    def _show_free(self) -> None:
        """Show the free keys of the screen that is selected alone."""
        names, project = self.selected_screens(), self.map_scene.project
        self._free_scale = self.transform().m11()
        if project is None or len(names) != 1 or names[0] not in project.screen_named or self._dragging is not None:
            self.free.show_at(None, [])
        else:
            self.free.show_free(self.nodes[names[0]], free_keys(project, names[0]), self._free_scale)

    def _note_selection(self) -> None:
        super()._note_selection()
        self._show_free()

    def paintEvent(self, event: QPaintEvent) -> None:
        """At another zoom there is room for other keys."""
        super().paintEvent(event)
        if self._free_scale != self.transform().m11():
            self._free_scale = self.transform().m11()
            QTimer.singleShot(0, self, self._show_free)

    def _hover_over(self, point: QPoint) -> None:
        self.free.key_at(point, self)
        if self.strip.covers(point, self) or self.free.covers(point, self):
            self._hover.stop()
            return
        node = node_at(self.map_scene, self.mapToScene(point))
        if node is not self._hovered:
            self._hovered = node
            self._hover.start()

    def set_project(self, project: Project, graph: PagingGraph, spoken: Project | None = None) -> None:
        """Draw this project, the faces as `spoken` has them: in another language."""
        super().set_project(project, graph, spoken)
        if self._hovered is not None and self.nodes.get(self._hovered.name) is not self._hovered:
            self._hovered = None
        self._show_keys()
        self._show_free()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Give up what is being drawn; use the keys of this part."""
        if event.key() == Qt.Key.Key_Escape and (self._drawing is not None or self._dragging is not None):
            self.give_up()
            event.accept()
        else:
            super().keyPressEvent(event)

    # The mouse

    def mousePressEvent(self, event: QMouseEvent) -> None:
        point = event.position().toPoint()
        if event.button() == Qt.MouseButton.LeftButton:
            for strip in (self.strip, self.free):
                key = strip.key_at(point, self)
                if key is not None and strip.node is not None:
                    self._draw(Drawn(key, strip.node.name, key), self.mapToScene(strip.cap_point(key, self)))
                    return
            item = self.itemAt(point)
            over = head_at(self, self.map_scene, point)
            self._held = None if over is None else (point, over)
            if isinstance(item, ScreenChangeItem) and item.isSelected() and len(item.labels) > 1:
                # Another click on an arrow of several screen changes goes to the next of them.
                item.current = (item.current + 1) % len(item.labels)
                item.update()
                self._follow_selection()
            self._fits = False if item is None else self._fits
            if item is None and event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
                self.setDragMode(QGraphicsView.DragMode.RubberBandDrag)
        super().mousePressEvent(event)
        if event.button() == Qt.MouseButton.LeftButton and isinstance(self.map_scene.mouseGrabberItem(), Node):
            self._dragging = Dragging(self.map_scene, self.selected_screens())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        point = event.position().toPoint()
        if self._drawing is not None:
            self._drawing.to(self.mapToScene(point), self.transform().m11())
            self.scroll_along(point)
            return
        if self._held is not None:
            begun, item = self._held
            if (point - begun).manhattanLength() >= QApplication.startDragDistance():
                self._held = None
                self._take_hold(item, begun)
                return
        super().mouseMoveEvent(event)
        if self._dragging is not None and self._dragging.has_moved:
            self.strip.hide()
            self.free.hide()
            self._dragging.follow()
        elif not event.buttons():
            self.strip.key_at(point, self)
            self._hover_over(point)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._held = None
        if self._drawing is not None:
            if event.button() == Qt.MouseButton.LeftButton:
                self._finish(event.position().toPoint(), event.globalPosition().toPoint())
            return
        super().mouseReleaseEvent(event)
        self.setDragMode(QGraphicsView.DragMode.ScrollHandDrag)
        dragging, self._dragging = self._dragging, None
        if dragging is not None and dragging.has_moved:
            self._drop(dragging)
        elif dragging is not None:
            self._show_keys()

    def _draw(self, what: Drawn, start: QPointF) -> None:
        self._hover.stop()
        self._drawing = Drawing(self.map_scene, what, start)
        self._drawing.to(start, self.transform().m11())
        self.viewport().setCursor(Qt.CursorShape.CrossCursor)
        self.setFocus(Qt.FocusReason.MouseFocusReason)

    def _take_hold(self, item: ArrowItem | InletItem, point: QPoint) -> None:
        """Take the head of an arrow to another screen."""
        self.choose((item,))
        if isinstance(item, ArrowItem):
            self._draw(
                Drawn(item.labels[item.current].text, item.arrow.from_, screen_change=item.screen_change), item.start
            )
        else:
            self._draw(
                Drawn(item.labels[item.current].text, None, screen_change=item.screen_change), self.mapToScene(point)
            )

    def _finish(self, point: QPoint, at: QPoint) -> None:
        drawing = self._drawing
        if drawing is None:
            return
        what, target = drawing.what, drawing.target
        # A press that was not drawn anywhere is not meant.
        stayed = any(strip.covers(point, self) for strip in (self.strip, self.free))
        stayed = stayed or node_at(self.map_scene, self.mapToScene(point)) is not None
        self.give_up()
        if what.screen_change >= 0:
            if target is not None:
                self.screen_change_redirected.emit(what.screen_change, what.from_, target.name)
        elif target is not None and what.from_ is not None:
            self.screen_change_drawn.emit(what.from_, what.key, target.name)
        elif not stayed:
            self.screen_change_dropped.emit(what.from_, what.key, self.place_under(point), at)

    def _drop(self, dragging: Dragging) -> None:
        scene = self.map_scene
        if dragging.into is not None:
            name, to = dragging.names[0], dragging.number
            dragging.give_up()
            self.ring_moved.emit(name, to)
            return
        places = {name: scene.dropped_at(name) for name in dragging.names}
        if any(place != (None if name in scene.band else scene.places[name]) for name, place in places.items()):
            self.screens_placed.emit(places)
        else:
            dragging.give_up()
        self.see_to_room()
        self._show_keys()
        self._show_free()

    def give_up(self) -> None:
        """Leave what is being drawn or moved as it was."""
        if self._drawing is not None:
            self._drawing.end()
            self._drawing = None
            self.viewport().setCursor(Qt.CursorShape.OpenHandCursor)
        if self._dragging is not None:
            if (grabber := self.map_scene.mouseGrabberItem()) is not None:
                grabber.ungrabMouse()
            dragging, self._dragging = self._dragging, None
            dragging.give_up()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        item = self.itemAt(event.position().toPoint())
        if isinstance(item, Node):
            self.screen_opened.emit(item.name)
        elif isinstance(item, ScreenChangeItem):
            self.screen_change_opened.emit(item.screen_change)
        else:
            super().mouseDoubleClickEvent(event)
            return
        event.accept()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if event.reason() == QContextMenuEvent.Reason.Mouse:
            item = self.itemAt(event.pos())
            if isinstance(item, Node | ScreenChangeItem):
                if not item.isSelected():
                    self.choose((item,))
            else:
                self.choose(())
        self.menu_wanted.emit(event.globalPos(), self.place_under(event.pos()))
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self._hovered = None
        self._hover.start()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Give up what is being drawn when the window is left."""
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.give_up()


give_role(PageMap, QAccessible.Role.Canvas)
