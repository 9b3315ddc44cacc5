"""What the page map shows of a project: nodes, arrows and inlets, each made anew only where something has changed."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Final

from PySide6.QtCore import QCoreApplication, QObject, QPointF, QRect, QRectF
from PySide6.QtGui import QPainter, QPalette
from PySide6.QtWidgets import QGraphicsScene

from app.checks.finding import Finding
from app.page_map.arrows import KINDS, Arrow, ArrowKind, Inlet, arrows_of, inlets_of
from app.page_map.band import BESIDE, band_of
from app.page_map.boxes import Box, Gaps
from app.page_map.labels import Pair
from app.page_map.layout import STEP, MapPlace, places
from app.page_map.rings import Ring, rings_of
from app.page_map.routes import Route, Shapes, kept_shapes, routes
from app.panel.paging import PagingGraph
from app.project.model import Project
from widgets.design.forms.part_texts import cause_text
from widgets.design.page_map.arrows import (
    CAP,
    HAT_PART,
    INLETS,
    ArrowItem,
    InletItem,
    Label,
    ScreenChangeItem,
    plate_width,
    screen_change_label,
)
from widgets.design.page_map.ground import HEADING, MapGround
from widgets.design.page_map.node import GAP_X, GAP_Y, HAT, Facts, Node, node_size
from widgets.face.colours import face_colours
from widgets.face.key_cap import cap_legend
from widgets.face.sample_values import Specimens
from widgets.kit.scaling import percent

translate = QCoreApplication.translate
GROWN: Final = 1.3
"""Arrows leave their labels so much more room than these need at full scale: from afar they are drawn larger."""
BESIDE_MAP: Final = 24 + GAP_X / 2
"""Left and right of all screens."""
GAPS: Final = Gaps(GAP_X, GAP_Y, HAT)


class MapScene(QGraphicsScene):
    """The items of a map. Which of them is selected, and what is done with them, is the view's."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.nodes: dict[str, Node] = {}
        self.edges: list[ArrowItem] = []
        self.inlets: list[InletItem] = []
        self.places: dict[str, MapPlace] = {}
        self.rings: tuple[Ring, ...] = ()
        self.kinds: frozenset[ArrowKind] = frozenset(KINDS)
        self.project: Project | None = None
        self.graph: PagingGraph | None = None
        self.band: frozenset[str] = frozenset()
        """The screens that no key leads to."""
        self._order: tuple[str, ...] = ()
        self._specimens = Specimens()
        self._findings: dict[tuple[str, int], tuple[int, int]] = {}
        self._drawn: object = None
        self._shapes: Shapes = {}
        self._boxes: dict[str, Box] = {}
        self._ground = MapGround()

    # What is shown

    def show_project(
        self, project: Project, graph: PagingGraph, colours: QPalette, spoken: Project | None = None
    ) -> None:
        """Draw this project, the faces as `spoken` has them: in another language.

        Costs what has changed since the last one: a letter on a screen repaints that screen.
        """
        self.project, self.graph = project, graph
        self._place(project, graph)
        self._show_nodes(spoken or project, colours)
        self._show_screen_changes()

    def forget(self) -> None:
        """Another project is shown next: no screen keeps the place that it has found."""
        self.places, self._order, self.rings = {}, (), ()

    def set_findings(self, findings: Iterable[Finding]) -> None:
        """Mark the screens and the screen changes about which checks found an error or a warning."""
        found: dict[tuple[str, int], tuple[int, int]] = {}
        for finding in findings:
            place = finding.place
            if finding.severity == "note" or len(place) < 2 or place[0] not in ("screen", "screen_change"):
                continue
            if isinstance(place[0], str) and isinstance(place[1], int):
                errors, warnings = found.get((place[0], place[1]), (0, 0))
                error = finding.severity == "error"
                found[place[0], place[1]] = errors + error, warnings + (not error)
        if found != self._findings:
            self._findings = found
            self._show_facts()
            self._show_screen_changes()

    def set_kinds(self, kinds: Collection[ArrowKind]) -> None:
        """Show the screen changes of these kinds only."""
        if frozenset(kinds) != self.kinds:
            self.kinds = frozenset(kinds)
            self._show_screen_changes()

    # Places

    def step(self) -> tuple[float, float]:
        """The way from a screen to the one beside it and to the one below it."""
        panel = None if self.project is None else self.project.panel
        width, height = node_size(panel.columns, panel.rows) if panel is not None else node_size(20, 4)
        return width + GAP_X, height + GAP_Y

    def ring_at(self, name: str | None) -> Ring | None:
        """The ring that a screen is in."""
        return next((ring for ring in self.rings if name in ring.screens), None)

    def point_of(self, place: MapPlace) -> QPointF:
        """Where a screen at that place has its upper left corner."""
        across, down = self.step()
        return QPointF(place[0] * across / STEP, place[1] * down / STEP)

    def place_of(self, point: QPointF) -> MapPlace:
        """The place nearest to a point."""
        across, down = self.step()
        return round(point.x() * STEP / across), round(point.y() * STEP / down)

    def dropped_at(self, name: str) -> MapPlace | None:
        """The place of a screen where it was dragged to; None in the band, where it has none of its own."""
        node, top = self.nodes[name], self.band_top()
        keyless = self.graph is not None and name not in self.graph.presses_from_start
        if keyless and top is not None and node.mapRectToScene(node.face_rect()).center().y() > top:
            return None
        return self.place_of(node.pos())

    def content_rect(self) -> QRectF:
        """The room that the screens take."""
        width, height = (a - b for a, b in zip(self.step(), (GAP_X, GAP_Y), strict=True))
        area = QRectF()
        for place in self.places.values():
            at = self.point_of(place)
            area = area.united(QRectF(at.x(), at.y(), width, height))
        below = 24 if self.band else 24 + GAP_Y / 2
        return area.adjusted(-BESIDE_MAP, -24 - HAT, BESIDE_MAP, below) if self.places else area

    def band_top(self) -> float | None:
        """Where the band begins in which the screens stand that no key leads to; None if there is none."""
        tops = [self.point_of(self.places[name]).y() for name in self.band]
        return min(tops) - HEADING if tops else None

    def _place(self, project: Project, graph: PagingGraph) -> None:
        names, rings = tuple(project.screen_named), rings_of(project, graph)
        shown = dict(self.places)
        before = [ring.screens for ring in self.rings]
        if len(names) == len(self._order):
            # A screen with another name stands where it stood.
            changed = [(old, new) for old, new in zip(self._order, names, strict=True) if old != new]
            if len(changed) == 1 and changed[0][1] not in shown and changed[0][0] in shown:
                old, new = changed[0]
                shown[new] = shown.pop(old)
                before = [tuple(new if name == old else name for name in screens) for screens in before]
        for ring in rings:
            former = next((screens for screens in before if set(screens) == set(ring.screens)), ring.screens)
            # Another order of a ring: its screens change places among one another, the picture stays.
            spots = [shown.get(name) for name in former]
            for name, spot in zip(_orient(ring, former), spots, strict=True):
                if spot is not None:
                    shown[name] = spot
        across, down = self.step()
        for name in self.band:
            shown.pop(name, None)  # one that a key leads to now finds a place among the others
        self.places = places(project, graph, shown, across / down)
        self.band = frozenset(band_of(project, graph))
        self._order, self.rings = names, rings

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """The ground, and from afar the arrows on it."""
        top = self.band_top()
        heading = None if top is None else QPointF(self.content_rect().left() + BESIDE_MAP, top)
        self._ground.paint(painter, QRectF(rect), self.edges, heading)

    def _forget_web(self) -> None:
        self._ground.forget_web()
        self.invalidate(self.sceneRect(), QGraphicsScene.SceneLayer.BackgroundLayer)

    # Nodes

    def _show_nodes(self, project: Project, colours: QPalette) -> None:
        panel = project.panel
        face = face_colours(colours)
        for name in set(self.nodes) - set(self.places):
            node = self.nodes.pop(name)
            self.inlets = [inlet for inlet in self.inlets if inlet.parentItem() is not node]
            self.removeItem(node)
            self._drawn = None
        for name in self.places:
            if name not in self.nodes:
                node = self.nodes[name] = Node(name)
                self.addItem(node)
                self._drawn = None
        specimens = self._specimens
        for name, place in self.places.items():
            node, screen = self.nodes[name], project.screen_named[name]
            node.setPos(self.point_of(place))
            node.show_screen(
                (screen, project.signals, panel),
                lambda screen=screen: specimens.rows(project, screen),  # type: ignore[misc]
                specimens.known_rows(project, screen),
                panel,
                face,
            )
        self._show_facts()

    def _show_facts(self) -> None:
        project, graph = self.project, self.graph
        if project is None or graph is None:
            return
        unreachable, stuck = frozenset(graph.unreachable), frozenset(graph.no_way_back)
        overrides = {edge.target for edge in graph.edges if edge.kind == "override"}
        numbers = {
            name: (number, len(ring.screens))
            for ring in self.rings
            for number, name in enumerate(ring.screens, start=1)
        }
        presses = graph.presses_from_start
        back: dict[str, tuple[str, ...]] = {}
        for edge in graph.edges if self.band else ():
            if edge.kind == "key" and edge.source in self.band and edge.target in presses:
                back[edge.source] = (*back.get(edge.source, ()), edge.label)
        for index, screen in enumerate(project.screens):
            name = screen.name
            errors, warnings = self._findings.get(("screen", index), (0, 0))
            self.nodes[name].show_facts(
                Facts(
                    name,
                    name == graph.start,
                    presses.get(name),
                    name in overrides,
                    name in unreachable,
                    name in stuck,
                    numbers.get(name),
                    errors,
                    warnings,
                    back.get(name, ()),
                )
            )

    # Arrows

    def _show_screen_changes(self) -> None:
        project, graph = self.project, self.graph
        if project is None or graph is None:
            return
        marked = frozenset(index for kind, index in self._findings if kind == "screen_change")
        now = (project.screen_changes, graph, project.panel, self.places, self.kinds, marked)
        if self._drawn == now:
            return
        self._drawn = now
        self._forget_web()
        chosen = next((item.screen_change for item in self.screen_change_items() if item.isSelected()), None)
        self.blockSignals(True)
        for inlet in self.inlets:
            self.removeItem(inlet)
        arrows = arrows_of(project, graph, self.kinds)
        inlets = inlets_of(project, graph, self.kinds)
        labels = {(arrow.from_, arrow.to): self._labels(project, arrow, marked) for arrow in arrows}
        found = self._routes(labels, {inlet.to for inlet in inlets} - self.band)
        self._show_arrows(arrows, labels, found)
        self.inlets = list(self._made_inlets(project, inlets, marked))
        if chosen is not None:
            self.select_screen_change(chosen)
        self.blockSignals(False)
        self.show_near()

    def _show_arrows(
        self, arrows: Iterable[Arrow], labels: Mapping[Pair, tuple[Label, ...]], found: Mapping[Pair, Route]
    ) -> None:
        """Keep the items of arrows that say the same; most of them do after an edit."""
        before = {(edge.arrow.from_, edge.arrow.to): edge for edge in self.edges}
        self.edges = []
        for arrow in arrows:
            pair = arrow.from_, arrow.to
            edge = before.get(pair)
            if edge is not None and edge.arrow == arrow and edge.labels == labels[pair]:
                del before[pair]
                edge.set_route(found[pair])
            else:
                edge = ArrowItem(arrow, labels[pair], found[pair])
                self.addItem(edge)
            edge.aside = arrow.from_ in self.band
            self.edges.append(edge)
        for gone in before.values():
            self.removeItem(gone)

    def screen_change_items(self) -> list[ScreenChangeItem]:
        """All that stands for screen changes."""
        return [*self.edges, *self.inlets]

    def select_screen_change(self, screen_change: int, from_: str | None = None) -> bool:
        """Select what stands for a screen change; of several arrows the one from this screen. False if nothing does."""
        found = [item for item in self.screen_change_items() if item.holds(screen_change)]
        found.sort(key=lambda item: isinstance(item, ArrowItem) and item.arrow.from_ != from_)
        for item in found[:1]:
            item.setSelected(True)
        return bool(found)

    def _labels(self, project: Project, arrow: Arrow, marked: frozenset[int]) -> tuple[Label, ...]:
        return tuple(
            Label(
                lead.screen_change,
                screen_change_label(project, lead.screen_change),
                lead.screen_change in marked,
                cap_legend(project.screen_changes[lead.screen_change].key or ""),
            )
            for lead in arrow.leads
        )

    def _made_inlets(self, project: Project, inlets: Iterable[Inlet], marked: frozenset[int]) -> Iterable[InletItem]:
        at: dict[str, list[Inlet]] = {}
        for inlet in inlets:
            at.setdefault(inlet.to, []).append(inlet)
        for name, here in at.items():
            labels = [
                Label(
                    one.lead.screen_change,
                    screen_change_label(project, one.lead.screen_change, True),
                    one.lead.screen_change in marked,
                )
                for one in here
            ]
            last = INLETS - 1 if len(here) > INLETS else len(here)
            node, room = self.nodes[name], BESIDE * self.step()[0] / STEP if name in self.band else 0.0
            for row, inlet in enumerate(here[:last]):
                yield InletItem(node, (labels[row],), inlet, row, 0, self._inlet_words(project, (inlet,)), room)
            if last < len(here):
                more = len(here) - last - 1
                words = self._inlet_words(project, here[last:])
                yield InletItem(node, tuple(labels[last:]), here[last], last, more, words, room)

    @staticmethod
    def _inlet_words(project: Project, inlets: Sequence[Inlet]) -> str:
        screen_changes = [project.screen_changes[inlet.lead.screen_change] for inlet in inlets]
        return "\n".join(
            translate("PageMap", "From every screen to {to}: {cause}").format(
                to=screen_change.to, cause=cause_text(screen_change)
            )
            for screen_change in screen_changes
        )

    def _routes(self, labels: Mapping[Pair, tuple[Label, ...]], hats: Iterable[str]) -> dict[Pair, Route]:
        width, height = (a - b for a, b in zip(self.step(), (GAP_X, GAP_Y), strict=True))
        boxes = {}
        for name, place in self.places.items():
            at = self.point_of(place)
            boxes[name] = Box(at.x(), at.y(), at.x() + width, at.y() + height)
        if boxes != self._boxes:
            self._shapes = kept_shapes(self._shapes, self._boxes, boxes, GAPS)
            self._boxes = boxes
        return routes(boxes, self._sizes(labels), GAPS, dict.fromkeys(hats, HAT_PART), self._shapes)

    @staticmethod
    def _sizes(labels: Mapping[Pair, tuple[Label, ...]]) -> dict[Pair, tuple[float, float]]:
        """The room that the labels need at the size in which everything is drawn."""
        larger = GROWN * percent() / 100
        found = {}
        for pair, each in labels.items():
            found[pair] = plate_width(each) * larger, CAP * larger
        return found

    def follow(self, moving: Collection[str]) -> None:
        """Let the arrows follow screens that are being dragged."""
        boxes = dict(self._boxes)
        for name in moving:
            node = self.nodes[name]
            at, size = node.pos(), node.face_rect()
            boxes[name] = Box(at.x(), at.y(), at.x() + size.width(), at.y() + size.height())
        touched = {
            (edge.arrow.from_, edge.arrow.to): edge
            for edge in self.edges
            if edge.arrow.from_ in moving or edge.arrow.to in moving
        }
        hats = dict.fromkeys({inlet.inlet.to for inlet in self.inlets} - self.band, HAT_PART)
        sizes = self._sizes({pair: edge.labels for pair, edge in touched.items()})
        for pair, route in routes(boxes, sizes, GAPS, hats).items():
            touched[pair].set_route(route)
        self._forget_web()

    def redraw_screen_changes(self) -> None:
        """Put nodes and arrows back where they belong, after a drag that changed nothing."""
        for name, place in self.places.items():
            self.nodes[name].setPos(self.point_of(place))
        self._drawn = None
        self._show_screen_changes()

    def show_near(self) -> None:
        """Let the arrows that lead from the selected screens stand out."""
        chosen = {name for name, node in self.nodes.items() if node.isSelected()}
        for edge in self.edges:
            edge.set_near(edge.arrow.from_ in chosen)


def _orient(ring: Ring, former: tuple[str, ...]) -> tuple[str, ...]:
    """The screens of a ring, from the one on and in the direction in which most stand where they stood formerly."""
    screens = ring.screens
    if not ring.keys or screens == former:
        return screens  # the order of the file has a first one
    screen_changes = [way[at:] + way[:at] for way in (screens, screens[::-1]) for at in range(len(screens))]
    return max(
        screen_changes,
        key=lambda screen_change: sum(one == other for one, other in zip(screen_change, former, strict=True)),
    )
