"""The page map: screens as small faces, turns as labelled arrows between them."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, hypot
from typing import Final

from PySide6.QtCore import QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFont,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPainterPathStroker,
    QPen,
    QPolygonF,
    QResizeEvent,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsScene,
    QGraphicsView,
    QStyleOptionGraphicsItem,
    QWidget,
)

from app.panel.layout import Layout
from app.panel.paging import PagingGraph
from app.panel.rendering import Rows
from app.project.model import Project, Turn
from widgets import palette
from widgets.cells import cell_size, paint_row
from widgets.face_colours import FaceColours, face_colours
from widgets.phrases import condition_text
from widgets.specimen import Specimens

CELL_PIXELS: Final = 9
LARGEST_FIT: Final = 1.5
READABLE: Final = 0.5
"""Scales: the largest that is used to fill the room, and the least at which names can still be read."""
ASPECT: Final = 1.6
"""Width by height of the room that the map is laid out for."""
PAD: Final = 6
TITLE: Final = 20
FOOT: Final = 18
GAP_X: Final = 88
GAP_Y: Final = 64


@dataclass(frozen=True, slots=True)
class Arrow:
    """All turns from one screen to another. `turns` are indexes in the project's tuple."""

    from_: str
    to: str
    label: str
    turns: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Marks:
    """What is said about a screen besides its content: words, and whether they are a warning."""

    words: tuple[str, ...]
    caution: bool = False


def arrows_of(project: Project, graph: PagingGraph) -> tuple[Arrow, ...]:
    """The turns by key and by idle time between two screens, one arrow for all of the same two."""
    found: dict[tuple[str, str], tuple[list[str], list[int]]] = {}
    for edge in graph.edges:
        # What leads from every screen to the same one is a mark there; arrows from all would hide the map.
        turn = project.turns[edge.turn]
        if edge.source is None or (turn.from_ is None and turn.to not in ("next", "previous")):
            continue
        labels, turns = found.setdefault((edge.source, edge.target), ([], []))
        labels.append(edge.label)
        turns.append(edge.turn)
    return tuple(Arrow(a, b, ", ".join(labels), tuple(turns)) for (a, b), (labels, turns) in found.items())


def places_of(project: Project, width: float, height: float) -> dict[str, QPointF]:
    """Where the nodes of `width` x `height` go: the screens of the ring in rows, in their order; overrides below."""
    layout = Layout.of(project)
    ring = [name for name in project.screen_named if name in set(layout.ring)]
    covered = [name for name in project.screen_named if name not in set(layout.ring)]
    step_x, step_y = width + GAP_X, height + GAP_Y
    across = _across(len(ring), len(covered), step_x, step_y)
    places: dict[str, QPointF] = {}
    for number, name in enumerate(ring):
        row, column = divmod(number, across)
        # Rows run to and fro, so that the arrow at the end of a row is short.
        column = column if row % 2 == 0 else across - 1 - column
        places[name] = QPointF(column * step_x, row * step_y)
    below = ceil(len(ring) / across) * step_y
    for number, name in enumerate(covered):
        row, column = divmod(number, across)
        places[name] = QPointF(column * step_x, below + row * step_y)
    return places


def _across(ring: int, covered: int, step_x: float, step_y: float) -> int:
    """How many nodes to put side by side so that the whole can be drawn as large as possible."""

    def size(across: int) -> float:
        down = ceil(ring / across) + ceil(covered / across)
        return max(across * step_x / ASPECT, down * step_y)

    return min(range(1, max(ring, covered, 1) + 1), key=size)


class Node(QGraphicsItem):
    """One screen as a small face."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.name = name
        self.rows: Rows = ()
        self.marks = Marks(())
        self.columns = 20
        self.lines = 4
        self.colours: FaceColours | None = None
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIsSelectable)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
        self.setZValue(1)

    def show_screen(self, rows: Rows, marks: Marks, columns: int, lines: int, colours: FaceColours) -> None:
        """Show this content."""
        now = (rows, marks, columns, lines, colours)
        if now != (self.rows, self.marks, self.columns, self.lines, self.colours):
            if (columns, lines) != (self.columns, self.lines):
                self.prepareGeometryChange()
            self.rows, self.marks, self.columns, self.lines, self.colours = now
            self.setToolTip("\n".join((self.name, *marks.words)))
            self.update()

    def face_rect(self) -> QRectF:
        """The drawn panel with its title and marks."""
        width, height = node_size(self.columns, self.lines)
        return QRectF(0, 0, width, height)

    def boundingRect(self) -> QRectF:
        """All that it may draw on."""
        return self.face_rect().adjusted(-4, -4, 4, 4)

    def shape(self) -> QPainterPath:
        """What a click hits."""
        path = QPainterPath()
        path.addRect(self.face_rect())
        return path

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionGraphicsItem,  # noqa: ARG002
        widget: QWidget | None = None,  # noqa: ARG002
    ) -> None:
        """Draw it."""
        colours = self.colours
        if colours is None:
            return
        window = palette.current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        area = self.face_rect()
        selected = self.isSelected()
        painter.setPen(QPen(colours.accent if selected else colours.rim, 3 if selected else 1.2))
        painter.setBrush(colours.bezel)
        painter.drawRoundedRect(area, 6, 6)
        font = QFont(painter.font())
        font.setPixelSize(12)
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(colours.key_ink)
        title = QRectF(PAD, 0, area.width() - 2 * PAD, TITLE)
        name = QFontMetricsF(font).elidedText(self.name, Qt.TextElideMode.ElideRight, title.width())
        painter.drawText(title, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, name)
        size = cell_size(CELL_PIXELS)
        glass = QRectF(PAD, TITLE, self.columns * size.width, self.lines * size.height)
        painter.fillRect(glass.adjusted(-2, -2, 2, 2), colours.glass)
        for number, row in enumerate(self.rows):
            paint_row(painter, row, QPoint(PAD, TITLE + number * size.height), CELL_PIXELS, colours)
        if self.marks.words:
            font.setBold(self.marks.caution)
            font.setPixelSize(10)
            painter.setFont(font)
            painter.setPen(window.colour("caution") if self.marks.caution else colours.key_ink)
            below = QRectF(PAD, area.bottom() - FOOT + 1, area.width() - 2 * PAD, FOOT - 2)
            text = QFontMetricsF(font).elidedText(
                ", ".join(self.marks.words), Qt.TextElideMode.ElideRight, below.width()
            )
            painter.drawText(below, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, text)


class Edge(QGraphicsItem):
    """One arrow with its label."""

    def __init__(self, arrow: Arrow, path: QPainterPath, head: QPolygonF, label_at: QPointF) -> None:
        super().__init__()
        self.arrow = arrow
        self._path = path
        self._head = head
        self._font = QFont()
        self._font.setPixelSize(11)
        metrics = QFontMetricsF(self._font)
        width = min(metrics.horizontalAdvance(arrow.label), GAP_X - 26.0)
        self._text = metrics.elidedText(arrow.label, Qt.TextElideMode.ElideRight, width + 1)
        self._label = QRectF(label_at.x() - width / 2 - 4, label_at.y() - 8, width + 8, 16)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIsSelectable)
        self.setToolTip(f"{arrow.from_} \N{RIGHTWARDS ARROW} {arrow.to}: {arrow.label}")

    def label_rect(self) -> QRectF:
        """Where the label stands, in the coordinates of the scene."""
        return self.mapRectToScene(self._label)

    def boundingRect(self) -> QRectF:
        """All that it may draw on."""
        return self._path.boundingRect().united(self._head.boundingRect()).united(self._label).adjusted(-4, -4, 4, 4)

    def shape(self) -> QPainterPath:
        """What a click hits."""
        stroker = QPainterPathStroker()
        stroker.setWidth(10)
        path = stroker.createStroke(self._path)
        path.addRect(self._label)
        return path

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionGraphicsItem,  # noqa: ARG002
        widget: QWidget | None = None,  # noqa: ARG002
    ) -> None:
        """Draw it."""
        window = palette.current()
        colour = window.colour("accent" if self.isSelected() else "faint")
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour, 2.4 if self.isSelected() else 1.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(self._path)
        painter.setBrush(colour)
        painter.drawPolygon(self._head)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(window.colour("base"))
        painter.drawRoundedRect(self._label, 4, 4)
        painter.setPen(window.colour("accent" if self.isSelected() else "ink"))
        painter.setFont(self._font)
        painter.drawText(self._label, Qt.AlignmentFlag.AlignCenter, self._text)


def node_size(columns: int, lines: int) -> tuple[float, float]:
    """Width and height of a node for a panel of that size."""
    size = cell_size(CELL_PIXELS)
    return max(columns * size.width, 20 * size.width) + 2 * PAD, lines * size.height + TITLE + FOOT


class PageMap(QGraphicsView):
    """Shows all screens of a project. Arrow keys go from node to node, Enter opens one, + and - zoom, 0 fits all."""

    screen_chosen = Signal(str)
    """Selected, by a click or by the keyboard."""
    screen_opened = Signal(str)
    turn_chosen = Signal(int)
    """The first turn of an arrow; -1 when nothing is selected any more."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._scene = QGraphicsScene(self)
        self.setScene(self._scene)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setDragMode(QGraphicsView.DragMode.ScrollHandDrag)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.AnchorUnderMouse)
        self.setAccessibleName(self.tr("Page map"))
        self.nodes: dict[str, Node] = {}
        self.edges: list[Edge] = []
        self._project: Project | None = None
        self._specimens = Specimens()
        self._fits = True
        self._quiet = False
        self._graph: PagingGraph | None = None
        self._scene.selectionChanged.connect(self._selected)

    def set_project(self, project: Project, graph: PagingGraph) -> None:
        """Draw this project."""
        if project is self._project:
            return
        self._project, self._graph = project, graph
        self._quiet = True
        try:
            self._draw(project, graph)
        finally:
            self._quiet = False

    def _draw(self, project: Project, graph: PagingGraph) -> None:
        panel = project.panel
        colours = face_colours(self.palette())
        self.setBackgroundBrush(palette.current().colour("base"))
        width, height = node_size(panel.columns, panel.rows)
        places = places_of(project, width, height)
        for name in set(self.nodes) - set(places):
            self._scene.removeItem(self.nodes.pop(name))
        for name, place in places.items():
            node = self.nodes.get(name)
            if node is None:
                node = self.nodes[name] = Node(name)
                self._scene.addItem(node)
            node.setPos(place)
            rows = self._specimens.rows(project, project.screen_named[name])
            node.show_screen(rows, self._marks(project, graph, name), panel.columns, panel.rows, colours)
        chosen = self.selected_turn()
        for edge in self.edges:
            self._scene.removeItem(edge)
        arrows = arrows_of(project, graph)
        pairs = {(arrow.from_, arrow.to) for arrow in arrows}
        self.edges = []
        for arrow in arrows:
            path, head, label_at = _route(
                QRectF(places[arrow.from_], places[arrow.from_] + QPointF(width, height)),
                QRectF(places[arrow.to], places[arrow.to] + QPointF(width, height)),
                (arrow.to, arrow.from_) in pairs,
            )
            edge = Edge(arrow, path, head, label_at)
            self._scene.addItem(edge)
            if chosen is not None and chosen in arrow.turns:
                edge.setSelected(True)
            self.edges.append(edge)
        self._scene.setSceneRect(self._scene.itemsBoundingRect().adjusted(-24, -24, 24, 24))
        if self._fits:
            self.fit(READABLE)

    def _marks(self, project: Project, graph: PagingGraph, name: str) -> Marks:
        words: list[str] = []
        if name == graph.start:
            words.append(self.tr("start"))
        for turn in project.turns:
            if turn.to == name and (text := self._arrival(turn)):
                words.append(text)
        presses = graph.presses_from_start.get(name)
        if presses:
            words.append(self.tr("1 press") if presses == 1 else self.tr("{n} presses").format(n=presses))
        caution = False
        if name in graph.unreachable:
            words.insert(0, self.tr("no way here"))
            caution = True
        if name in graph.no_way_back:
            words.insert(0, self.tr("no way back"))
            caution = True
        return Marks(tuple(words), caution)

    def _arrival(self, turn: Turn) -> str:
        if turn.when is not None:
            return self.tr("when {condition}").format(condition=condition_text(turn.when))
        if turn.from_ is None and turn.idle_s is not None:
            return self.tr("after {seconds} s").format(seconds=turn.idle_s)
        if turn.from_ is None and turn.key is not None:
            return self.tr("key {key} from every screen").format(key=turn.key)
        return ""

    # Selection and keys

    def selected_screen(self) -> str | None:
        """The screen that is selected."""
        return next((name for name, node in self.nodes.items() if node.isSelected()), None)

    def selected_turn(self) -> int | None:
        """The first turn of the arrow that is selected."""
        return next((edge.arrow.turns[0] for edge in self.edges if edge.isSelected()), None)

    def select_screen(self, name: str) -> None:
        """Select a node without telling."""
        node = self.nodes.get(name)
        if node is None or node.isSelected():
            return
        self._quiet = True
        self._scene.clearSelection()
        node.setSelected(True)
        self._quiet = False
        self.ensureVisible(node, 20, 20)

    def _selected(self) -> None:
        name = self.selected_screen()
        turn = self.selected_turn()
        self.setAccessibleDescription("" if name is None else self._spoken(name))
        if self._quiet:
            return
        if name is not None:
            self.screen_chosen.emit(name)
        else:
            self.turn_chosen.emit(-1 if turn is None else turn)

    def _spoken(self, name: str) -> str:
        """A node as assistive technology reads it: its marks, and where its arrows lead."""
        leads = [
            f"{edge.arrow.label} \N{RIGHTWARDS ARROW} {edge.arrow.to}"
            for edge in self.edges
            if edge.arrow.from_ == name
        ]
        return "; ".join((name, *self.nodes[name].marks.words, *leads))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Use the keys of this part; leave all others to whom they belong."""
        ways = {
            Qt.Key.Key_Left: (-1, 0),
            Qt.Key.Key_Right: (1, 0),
            Qt.Key.Key_Up: (0, -1),
            Qt.Key.Key_Down: (0, 1),
        }
        key = Qt.Key(event.key())
        if key in ways and not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            self._go(*ways[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            name = self.selected_screen()
            if name is not None:
                self.screen_opened.emit(name)
        elif event.text() in ("+", "="):
            self._zoom(1.2)
        elif event.text() == "-":
            self._zoom(1 / 1.2)
        elif event.text() == "0":
            self.fit()
        else:
            super().keyPressEvent(event)
            return
        event.accept()

    def _go(self, dx: int, dy: int) -> None:
        name = self.selected_screen()
        if name is None:
            if self.nodes:
                next(iter(self.nodes.values())).setSelected(True)
            return
        here = self.nodes[name].pos()

        def cost(node: Node) -> float | None:
            there = node.pos() - here
            along = there.x() * dx + there.y() * dy
            aside = abs(there.x() * dy) + abs(there.y() * dx)
            return along + 3 * aside if along > 1 else None

        ranked = [(price, node) for node in self.nodes.values() if (price := cost(node)) is not None]
        if ranked:
            nearest = min(ranked, key=lambda pair: pair[0])[1]
            self._scene.blockSignals(True)
            self._scene.clearSelection()
            self._scene.blockSignals(False)
            nearest.setSelected(True)
            self.ensureVisible(nearest, 20, 20)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Report a double click."""
        item = self.itemAt(event.position().toPoint())
        if isinstance(item, Node):
            self.screen_opened.emit(item.name)
            event.accept()
            return
        super().mouseDoubleClickEvent(event)

    # Zoom

    def fit(self, least: float = 0.0) -> None:
        """Show all of it, as large as it fits but no larger than LARGEST_FIT.

        Where that would be smaller than `least`, show the part around the selected screen at that scale instead.
        """
        self._fits = True
        area = self._scene.sceneRect()
        if area.isEmpty() or self.viewport().width() < 10:
            return
        scale = min(self.viewport().width() / area.width(), self.viewport().height() / area.height(), LARGEST_FIT)
        self.resetTransform()
        self.scale(max(scale, least), max(scale, least))
        chosen = self.nodes.get(self.selected_screen() or "")
        self.centerOn(area.center() if scale >= least or chosen is None else chosen.sceneBoundingRect().center())

    def _zoom(self, factor: float) -> None:
        now = self.transform().m11() * factor
        if 0.05 <= now <= 4:
            self._fits = False
            self.scale(factor, factor)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom with Ctrl held."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._zoom(1.15 if event.angleDelta().y() > 0 else 1 / 1.15)
            event.accept()
            return
        super().wheelEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        super().resizeEvent(event)
        if self._fits:
            self.fit(READABLE)

    def showEvent(self, event: QShowEvent) -> None:
        """Fit what came into view."""
        super().showEvent(event)
        if self._fits:
            self.fit(READABLE)

    def refresh_colours(self) -> None:
        """Draw in the colours of now."""
        project, self._project = self._project, None
        if project is not None and self._graph is not None:
            self.set_project(project, self._graph)
        self.viewport().update()


def _route(start: QRectF, end: QRectF, both_ways: bool) -> tuple[QPainterPath, QPolygonF, QPointF]:
    """A curve from the edge of one node to that of another, its head, and where its label goes.

    Of two arrows between the same nodes each keeps to its right, so that they do not lie on one another.
    """
    way = end.center() - start.center()
    length = max(hypot(way.x(), way.y()), 1.0)
    along = QPointF(way.x() / length, way.y() / length)
    aside = QPointF(-along.y(), along.x())
    near_x = abs(way.x()) <= start.width() + GAP_X + 1
    near_y = abs(way.y()) <= start.height() + GAP_Y + 1
    neighbours = near_x and near_y
    shift = aside * (16.0 if both_ways else 0.0)
    first = _border(start, along) + shift
    last = _border(end, along * -1) + shift
    bow = aside * (4.0 if neighbours else 0.16 * length + 0.5 * start.height())
    middle = (first + last) / 2 + bow
    path = QPainterPath(first)
    path.quadTo(middle, last)
    arriving = last - middle
    size = max(hypot(arriving.x(), arriving.y()), 1.0)
    unit = QPointF(arriving.x() / size, arriving.y() / size)
    across = QPointF(-unit.y(), unit.x())
    head = QPolygonF([last, last - unit * 9 + across * 4.5, last - unit * 9 - across * 4.5])
    return path, head, (first + last) / 4 + middle / 2


def _border(area: QRectF, way: QPointF) -> QPointF:
    """Where a ray from the middle of a rectangle leaves it."""
    half_x, half_y = area.width() / 2, area.height() / 2
    reach = min(
        half_x / abs(way.x()) if way.x() else float("inf"),
        half_y / abs(way.y()) if way.y() else float("inf"),
    )
    return area.center() + way * reach
