"""The page map: screens as small faces, turns as labelled arrows between them."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Final

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QApplication, QGraphicsView, QWidget

from app.checks.finding import Finding
from app.panel.map_arrows import Kind
from app.panel.map_layout import Place
from app.panel.paging import PagingGraph
from app.project.model import Project
from widgets import palette
from widgets.page_map_arrows import Edge, InletItem, Turning
from widgets.page_map_gestures import Dragging, Drawing, Drawn, head_at, node_at
from widgets.page_map_keys import KeyStrip, key_uses
from widgets.page_map_node import Node
from widgets.page_map_scene import MapScene
from widgets.size import percent

LARGEST_FIT: Final = 1.5
READABLE: Final = 0.5
"""Scales: the largest that is used to fill the room, and the least at which faces can still be read."""
SMALLEST: Final = 0.04
LARGEST: Final = 4.0
HOVER_MS: Final = 250
"""How long the mouse rests on a screen until its keys are shown."""
_WAYS: Final = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}


def readable() -> float:
    """The least scale at which faces can be read, at the size in which everything is drawn."""
    return READABLE * percent() / 100


class PageMap(QGraphicsView):
    """Shows all screens of a project, and reports what is asked for by mouse and keyboard; it edits nothing itself.

    Arrow keys go from screen to screen (with Shift they are selected together, with Ctrl moved, with Alt moved in the
    ring), Page Up and Page Down through the turns of a screen, Home goes to the start; Enter opens, Delete deletes,
    + and - zoom, 0 shows all, a letter begins a search.
    """

    screen_chosen = Signal(str)
    """Selected, by a click or by the keyboard."""
    screen_opened = Signal(str)
    turn_chosen = Signal(int)
    """The current turn of an arrow; -1 when nothing is selected any more."""
    turn_opened = Signal(int)
    turn_drawn = Signal(str, str, str)
    """From a screen, by a key, to a screen."""
    turn_dropped = Signal(str, str, object, QPoint)
    """From a screen, by a key, to an empty place (a Place), at this point of the display."""
    turn_led = Signal(int, object, str)
    """A turn, at the screen it was taken hold of (None: everywhere), leads to this screen from now on."""
    screens_placed = Signal(object)
    """Screens that were moved, by name, with their Place."""
    ring_moved = Signal(str, int)
    """A screen of the ring and its new number there, from 0."""
    delete_wanted = Signal()
    add_wanted = Signal(object)
    """A screen at a Place; None: anywhere."""
    search_begun = Signal(str)
    menu_wanted = Signal(QPoint, object)
    """At a point of the display, over a Place."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.map_scene = MapScene(self)
        self.setScene(self.map_scene)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setDragMode(QGraphicsView.DragMode.ScrollHandDrag)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.AnchorUnderMouse)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.SmartViewportUpdate)
        self.setBackgroundBrush(palette.current().colour("base"))
        self.setAccessibleName(self.tr("Page map"))
        self.setMouseTracking(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.strip = KeyStrip()
        self.map_scene.addItem(self.strip)
        self._drawing: Drawing | None = None
        self._dragging: Dragging | None = None
        self._held: tuple[QPoint, Edge | InletItem] | None = None
        self._hovered: Node | None = None
        self._fits = True
        self._content = QRectF()
        self._shown: tuple[Project | None, PagingGraph | None, Project | None] = (None, None, None)
        self._quiet = False
        self._hover = QTimer(self)
        self._hover.setSingleShot(True)
        self._hover.setInterval(HOVER_MS)
        self._hover.timeout.connect(self._show_keys)
        self.map_scene.selectionChanged.connect(self._selected)

    # What is shown

    @property
    def nodes(self) -> dict[str, Node]:
        """The screens, by name."""
        return self.map_scene.nodes

    @property
    def edges(self) -> list[Edge]:
        """The arrows."""
        return self.map_scene.edges

    @property
    def inlets(self) -> list[InletItem]:
        """What leads to a screen from every screen."""
        return self.map_scene.inlets

    def set_project(self, project: Project, graph: PagingGraph, spoken: Project | None = None) -> None:
        """Draw this project, the faces as `spoken` has them: in another language."""
        shown = (project, graph, spoken)
        if all(now is before for now, before in zip(shown, self._shown, strict=True)):
            return
        self._shown = shown
        self.give_up()
        self._quiet = True
        try:
            self.map_scene.show_project(project, graph, self.palette(), spoken)
        finally:
            self._quiet = False
        self._hovered = None if self._hovered not in self.nodes.values() else self._hovered
        self._show_keys()
        self._say()
        self._set_room()

    def _set_room(self) -> None:
        content = self.map_scene.content_rect()
        if content == self._content:
            return
        self._content = content
        across, down = self.map_scene.step()
        self.map_scene.setSceneRect(content.adjusted(-across, -down, across, down))
        if self._fits:
            self.fit(readable())

    def forget(self) -> None:
        """Another project is shown next, with places of its own."""
        self.map_scene.forget()
        self._content = QRectF()
        self._fits = True

    def set_findings(self, findings: Iterable[Finding]) -> None:
        """Mark the screens and turns about which checks found something."""
        self._quiet = True
        self.map_scene.set_findings(findings)
        self._quiet = False
        self._say()

    def set_kinds(self, kinds: Collection[Kind]) -> None:
        """Show the turns of these kinds only."""
        self.map_scene.set_kinds(kinds)

    def mark(self, names: Collection[str] | None) -> None:
        """Let these screens stand out among the others; None ends that."""
        for name, node in self.nodes.items():
            node.light(names is not None and name in names, names is not None and name not in names)

    def refresh_colours(self) -> None:
        """Draw in the colours of now."""
        project, graph, spoken = self._shown
        if project is not None and graph is not None:
            self.setBackgroundBrush(palette.current().colour("base"))
            self.map_scene.show_project(project, graph, self.palette(), spoken)
        self.viewport().update()

    # Selection

    def selected_screen(self) -> str | None:
        """The screen that is selected; the first of several."""
        return next((name for name, node in self.nodes.items() if node.isSelected()), None)

    def selected_screens(self) -> tuple[str, ...]:
        """All screens that are selected."""
        return tuple(name for name, node in self.nodes.items() if node.isSelected())

    def selected_turn(self) -> int | None:
        """The current turn of the arrow that is selected."""
        item = self.selected_turning()
        return None if item is None else item.turn

    def selected_turning(self) -> Turning | None:
        """The arrow or inlet that is selected."""
        return next((item for item in self.map_scene.turnings() if item.isSelected()), None)

    def select_screen(self, name: str) -> None:
        """Select a screen without telling, and bring it into view."""
        node = self.nodes.get(name)
        if node is None or node.isSelected():
            return
        self._select((node,), quiet=True)
        self.ensureVisible(self._rect_of(node), 20, 20)

    def go_to(self, name: str) -> None:
        """Bring a screen to the middle, in a size that can be read."""
        node = self.nodes.get(name)
        if node is None:
            return
        self.select_screen(name)
        self._fits = False
        if self.transform().m11() < readable():
            self.resetTransform()
            self.scale(readable(), readable())
        self.centerOn(self._rect_of(node).center())

    def select_turn(self, turn: int, from_: str | None = None) -> None:
        """Select the arrow of a turn, of several that from this screen; and tell."""
        self._quiet = True
        self.map_scene.clearSelection()
        found = self.map_scene.select_turn(turn, from_)
        self._quiet = False
        self._selected()
        if found and (item := self.selected_turning()) is not None:
            self.ensureVisible(item.label_rect() if isinstance(item, Edge | InletItem) else QRectF(), 20, 20)

    def _select(self, items: Iterable[Node | Turning], quiet: bool = False) -> None:
        before, self._quiet = self._quiet, True
        self.map_scene.clearSelection()
        for item in items:
            item.setSelected(True)
        self._quiet = before
        if quiet:
            self._note_selection()
        else:
            self._selected()

    def _selected(self) -> None:
        if self._quiet:
            return
        self._note_selection()
        name, turn = self.selected_screen(), self.selected_turn()
        if turn is not None or name is None:
            self.turn_chosen.emit(-1 if turn is None else turn)
        else:
            self.screen_chosen.emit(name)

    def _note_selection(self) -> None:
        self.map_scene.show_near()
        self._show_keys()
        self._say()

    def _say(self) -> None:
        """Tell assistive technology what is selected."""
        names, item = self.selected_screens(), self.selected_turning()
        if item is not None:
            text = self._spoken_turn(item)
        elif len(names) > 1:
            text = self.tr("Screens selected: {names}").format(names=", ".join(names))
        else:
            text = self._spoken(names[0]) if names else ""
        if text != self.accessibleDescription():
            self.setAccessibleDescription(text)

    def _spoken(self, name: str) -> str:
        """A screen as assistive technology reads it: what is said of it, and where its arrows lead."""
        facts = self.nodes[name].facts
        comes = [inlet.label for inlet in self.inlets if inlet.inlet.to == name]
        here = [edge for edge in self.edges if edge.arrow.from_ == name]
        leads = [f"{edge.label} \N{RIGHTWARDS ARROW} {edge.arrow.to}" for edge in here]
        said = (name, *facts.words, facts.ring_words, facts.findings_words, *comes, *leads)
        return "; ".join(part for part in said if part)

    def _spoken_turn(self, item: Turning) -> str:
        label = item.labels[item.current].text
        if isinstance(item, Edge):
            text = self.tr("Turn from {from_} to {to}: {cause}").format(
                from_=item.arrow.from_, to=item.arrow.to, cause=label
            )
        elif isinstance(item, InletItem):
            text = self.tr("Turn from every screen to {to}: {cause}").format(to=item.inlet.to, cause=label)
        else:
            text = label
        if len(item.labels) > 1:
            text = self.tr("{turn}; {n} of {count} here").format(turn=text, n=item.current + 1, count=len(item.labels))
        return text

    # Keys of a screen

    def _show_keys(self) -> None:
        """Show the keys of the screen on which the mouse rests."""
        node = self._hovered
        project = self.map_scene.project
        if self._dragging is not None or node is None or project is None or node.name not in project.screen_named:
            self.strip.show_at(None, [])
        else:
            self.strip.show_at(node, key_uses(project, node.name))

    def _hover_over(self, point: QPoint) -> None:
        if self.strip.covers(point, self):
            self._hover.stop()
            return
        node = node_at(self.map_scene, self.mapToScene(point))
        if node is not self._hovered:
            self._hovered = node
            self._hover.start()

    # The keyboard

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Use the keys of this part; leave all others to whom they belong."""
        if self._key(event):
            event.accept()
        else:
            super().keyPressEvent(event)

    def _key(self, event: QKeyEvent) -> bool:
        key, text = Qt.Key(event.key()), event.text()
        modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        modifier = Qt.KeyboardModifier
        if key == Qt.Key.Key_Escape and (self._drawing is not None or self._dragging is not None):
            self.give_up()
        elif key in _WAYS:
            self._arrow_key(*_WAYS[key], modifiers)
        elif modifiers & (modifier.ControlModifier | modifier.AltModifier):
            return False
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._open()
        elif key in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp):
            self._next_turn(1 if key == Qt.Key.Key_PageDown else -1)
        elif key == Qt.Key.Key_Home:
            self._go_to_start()
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.delete_wanted.emit()
        elif key == Qt.Key.Key_Insert:
            self.add_wanted.emit(None)
        elif text in ("+", "="):
            self.zoom(1.2)
        elif text == "-":
            self.zoom(1 / 1.2)
        elif text == "0":
            self.fit()
        elif text.isalpha():
            self.search_begun.emit(text)
        else:
            return False
        return True

    def _arrow_key(self, dx: int, dy: int, modifiers: Qt.KeyboardModifier) -> None:
        modifier = Qt.KeyboardModifier
        if modifiers == modifier.ControlModifier:
            places = self.map_scene.places
            moved = {name: (places[name][0] + dx, places[name][1] + dy) for name in self.selected_screens()}
            if moved:
                self.screens_placed.emit(moved)
        elif modifiers == modifier.AltModifier:
            self.move_in_ring(dx + dy)
        elif modifiers in (modifier.NoModifier, modifier.ShiftModifier):
            self._go(dx, dy, modifiers == modifier.ShiftModifier)

    def move_in_ring(self, way: int) -> None:
        """Move the selected screen one place on (1) or back (-1) in the ring."""
        name, ring = self.selected_screen(), self.map_scene.ring
        if name in ring:
            self.ring_moved.emit(name, (ring.index(name) + way) % len(ring))

    def _open(self) -> None:
        turn, name = self.selected_turn(), self.selected_screen()
        if turn is not None:
            self.turn_opened.emit(turn)
        elif name is not None:
            self.screen_opened.emit(name)

    def _go_to_start(self) -> None:
        graph = self.map_scene.graph
        if graph is not None and graph.start in self.nodes:
            node = self.nodes[graph.start]
            self._select((node,))
            self.ensureVisible(self._rect_of(node), 20, 20)

    def _next_turn(self, way: int) -> None:
        """To the next turn: within its arrow, then the other arrows of the same screen."""
        item = self.selected_turning()
        if item is not None and 0 <= item.current + way < len(item.labels):
            item.current += way
            item.update()
            self._selected()
            return
        name = self.selected_screen()
        if isinstance(item, Edge):
            name = item.arrow.from_
        elif isinstance(item, InletItem):
            name = item.inlet.to
        found: list[Turning] = [edge for edge in self.edges if edge.arrow.from_ == name]
        found += [inlet for inlet in self.inlets if inlet.inlet.to == name]
        if not found:
            return
        at = found.index(item) + way if item in found else (0 if way > 0 else -1)
        following = found[at % len(found)]
        following.current = 0 if way > 0 else len(following.labels) - 1
        self._select((following,))
        if isinstance(following, Edge | InletItem):
            self.ensureVisible(following.label_rect(), 20, 20)

    def _go(self, dx: int, dy: int, together: bool) -> None:
        name = self.selected_screen()
        item = self.selected_turning()
        if isinstance(item, Edge):
            # From an arrow back to the screen that it comes from.
            self._select((self.nodes[item.arrow.from_],))
            return
        if isinstance(item, InletItem):
            self._select((self.nodes[item.inlet.to],))
            return
        if name is None:
            self._go_to_start()
            return
        chosen = self.selected_screens()
        ends = [self.nodes[each].pos() for each in chosen]
        here = max(ends, key=lambda point: point.x() * dx + point.y() * dy)

        def cost(node: Node) -> float | None:
            there = node.pos() - here
            along = there.x() * dx + there.y() * dy
            aside = abs(there.x() * dy) + abs(there.y() * dx)
            return along + 3 * aside if along > 1 else None

        ranked = [(price, node) for node in self.nodes.values() if (price := cost(node)) is not None]
        if ranked:
            nearest = min(ranked, key=lambda pair: pair[0])[1]
            self._select((nearest, *(self.nodes[each] for each in chosen)) if together else (nearest,))
            self.ensureVisible(self._rect_of(nearest), 20, 20)

    # The mouse

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin to draw, to move or to look around."""
        point = event.position().toPoint()
        if event.button() == Qt.MouseButton.LeftButton:
            key = self.strip.key_at(point, self)
            if key is not None and self.strip.node is not None:
                self._draw(Drawn(key, self.strip.node.name, key), self.mapToScene(self.strip.cap_point(key, self)))
                return
            item = self.itemAt(point)
            over = head_at(self, self.map_scene, point)
            self._held = None if over is None else (point, over)
            if isinstance(item, Turning) and item.isSelected() and len(item.labels) > 1:
                # Another click on an arrow of several turns goes to the next of them.
                item.current = (item.current + 1) % len(item.labels)
                item.update()
                self._selected()
            self._fits = False if item is None else self._fits
            if item is None and event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
                self.setDragMode(QGraphicsView.DragMode.RubberBandDrag)
        super().mousePressEvent(event)
        if event.button() == Qt.MouseButton.LeftButton and isinstance(self.map_scene.mouseGrabberItem(), Node):
            self._dragging = Dragging(self.map_scene, self.selected_screens())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Go on with what was begun, or look what is under the mouse."""
        point = event.position().toPoint()
        if self._drawing is not None:
            self._drawing.to(self.mapToScene(point))
            self._scroll_along(point)
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
            self._dragging.moved()
        elif not event.buttons():
            self.strip.key_at(point, self)
            self._hover_over(point)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Finish what was begun."""
        self._held = None
        if self._drawing is not None:
            if event.button() == Qt.MouseButton.LeftButton:
                self._finish(event.position().toPoint(), event.globalPosition().toPoint())
            return
        super().mouseReleaseEvent(event)
        self.setDragMode(QGraphicsView.DragMode.ScrollHandDrag)
        dragging, self._dragging = self._dragging, None
        if dragging is not None and dragging.has_moved:
            self._dropped(dragging)
        elif dragging is not None:
            self._show_keys()

    def _draw(self, what: Drawn, start: QPointF) -> None:
        self._hover.stop()
        self._drawing = Drawing(self.map_scene, what, start)
        self._drawing.to(start)
        self.viewport().setCursor(Qt.CursorShape.CrossCursor)
        self.setFocus(Qt.FocusReason.MouseFocusReason)

    def _take_hold(self, item: Edge | InletItem, point: QPoint) -> None:
        """Take the head of an arrow to another screen."""
        self._select((item,))
        if isinstance(item, Edge):
            self._draw(Drawn(item.labels[item.current].text, item.arrow.from_, turn=item.turn), item.start)
        else:
            self._draw(Drawn(item.labels[item.current].text, None, turn=item.turn), self.mapToScene(point))

    def _finish(self, point: QPoint, at: QPoint) -> None:
        drawing = self._drawing
        if drawing is None:
            return
        what, target = drawing.what, drawing.target
        # A press that was not drawn anywhere is not meant.
        stayed = self.strip.covers(point, self) or node_at(self.map_scene, self.mapToScene(point)) is not None
        self.give_up()
        if what.turn >= 0:
            if target is not None:
                self.turn_led.emit(what.turn, what.from_, target.name)
        elif target is not None and what.from_ is not None:
            self.turn_drawn.emit(what.from_, what.key, target.name)
        elif not stayed:
            self.turn_dropped.emit(what.from_, what.key, self._place_under(point), at)

    def _dropped(self, dragging: Dragging) -> None:
        scene = self.map_scene
        if dragging.into is not None:
            name, arrow = dragging.names[0], dragging.into.arrow
            rest = [each for each in scene.ring if each != name]
            one, other = rest.index(arrow.from_), rest.index(arrow.to)
            # Between the two; around the end of the ring that is the end.
            to = max(one, other) if abs(one - other) == 1 else len(rest)
            dragging.give_up()
            self.ring_moved.emit(name, to)
            return
        places = {name: scene.place_of(self.nodes[name].pos()) for name in dragging.names}
        if any(scene.places[name] != place for name, place in places.items()):
            self.screens_placed.emit(places)
        else:
            dragging.give_up()
        self._set_room()
        self._show_keys()

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

    def _place_under(self, point: QPoint) -> Place:
        """The place of a screen whose middle is at a point of the viewport."""
        across, down = self.map_scene.step()
        return self.map_scene.place_of(self.mapToScene(point) - QPointF(across * 0.35, down * 0.25))

    def _scroll_along(self, point: QPoint) -> None:
        """Look further where the mouse comes to the edge."""
        area, by = self.viewport().rect(), 14
        for bar, here, end in (
            (self.horizontalScrollBar(), point.x(), area.width()),
            (self.verticalScrollBar(), point.y(), area.height()),
        ):
            if here < by or here > end - by:
                self._fits = False
                bar.setValue(bar.value() + (-by if here < by else by))

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Open what is under the mouse."""
        item = self.itemAt(event.position().toPoint())
        if isinstance(item, Node):
            self.screen_opened.emit(item.name)
        elif isinstance(item, Turning):
            self.turn_opened.emit(item.turn)
        else:
            super().mouseDoubleClickEvent(event)
            return
        event.accept()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Select what is under the mouse and ask for a menu."""
        if event.reason() == QContextMenuEvent.Reason.Mouse:
            item = self.itemAt(event.pos())
            if isinstance(item, Node | Turning):
                if not item.isSelected():
                    self._select((item,))
            else:
                self._select(())
        self.menu_wanted.emit(event.globalPos(), self._place_under(event.pos()))
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        """Nothing is under the mouse any more."""
        super().leaveEvent(event)
        self._hovered = None
        self._hover.start()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Give up what is being drawn when the window is left."""
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.give_up()

    # Zoom

    def fit(self, least: float = 0.0) -> None:
        """Show all of it, as large as it fits but no larger than LARGEST_FIT.

        Where that would be smaller than `least`, show the part around the selected screen at that scale instead.
        """
        self._fits = True
        area = self.map_scene.content_rect()
        if area.isEmpty() or self.viewport().width() < 10:
            return
        largest = LARGEST_FIT * percent() / 100
        scale = min(self.viewport().width() / area.width(), self.viewport().height() / area.height(), largest)
        self.resetTransform()
        self.scale(max(scale, least), max(scale, least))
        chosen = self.nodes.get(self.selected_screen() or "")
        self.centerOn(area.center() if scale >= least or chosen is None else self._rect_of(chosen).center())

    def fit_selection(self) -> None:
        """Show the selected screens with what is around them."""
        area = QRectF()
        for name in self.selected_screens():
            area = area.united(self._rect_of(self.nodes[name]))
        if area.isEmpty():
            return
        self._fits = False
        across, down = self.map_scene.step()
        area = area.adjusted(-across / 2, -down / 2, across / 2, down / 2)
        largest = LARGEST_FIT * percent() / 100
        scale = min(self.viewport().width() / area.width(), self.viewport().height() / area.height(), largest)
        self.resetTransform()
        self.scale(scale, scale)
        self.centerOn(area.center())

    def zoom(self, factor: float) -> None:
        """Look closer, or from further away."""
        now = self.transform().m11() * factor
        if SMALLEST <= now <= LARGEST:
            self._fits = False
            self.scale(factor, factor)

    def _rect_of(self, node: Node) -> QRectF:
        return node.mapRectToScene(node.face_rect())

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom with Ctrl held."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom(1.15 if event.angleDelta().y() > 0 else 1 / 1.15)
            event.accept()
            return
        self._fits = False
        super().wheelEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        super().resizeEvent(event)
        if self._fits:
            self.fit(readable())

    def showEvent(self, event: QShowEvent) -> None:
        """Fit what came into view."""
        super().showEvent(event)
        if self._fits:
            self.fit(readable())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Say so where there is nothing to draw."""
        super().paintEvent(event)
        if not self.nodes:
            painter = QPainter(self.viewport())
            painter.setPen(palette.current().colour("faint"))
            painter.drawText(
                self.viewport().rect(),
                Qt.AlignmentFlag.AlignCenter,
                self.tr("There is no screen yet. Insert adds one."),
            )
