"""The page map under the keyboard: what is selected, said and asked for."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from functools import partial
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QKeyEvent
from PySide6.QtWidgets import QWidget

from app.checks.finding import Finding
from app.page_map.arrows import ArrowKind
from app.panel.paging import PagingGraph
from app.project.model import Project
from widgets.design.page_map.arrows import ArrowItem, InletItem, ScreenChangeItem
from widgets.design.page_map.node import Node
from widgets.design.page_map.spoken import map_in_words, screen_change_in_words, screen_in_words
from widgets.design.page_map.view import MapView
from widgets.kit.own_keys import MAP

STEP_OF_ZOOM: Final = 1.2
_WAYS: Final = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}


class MapKeyboard(MapView):
    """Walks the map by keys, and reports what is asked for.

    Arrow keys go from screen to screen (with Shift they are selected together, with Ctrl moved, with Alt moved in the
    ring), Page Up and Page Down through the screen changes of a screen, Home goes to the start; Enter opens, Delete
    deletes, + and - zoom, 0 shows all, a letter begins a search.
    """

    screen_chosen = Signal(str)
    """Selected, by a click or by the keyboard."""
    screen_opened = Signal(str)
    screen_change_chosen = Signal(int)
    """The current screen change of an arrow; -1 when nothing is selected any more."""
    screen_change_opened = Signal(int)
    screens_placed = Signal(object)
    """Screens that were moved, by name, with their Place."""
    ring_moved = Signal(str, int)
    """A screen of the ring and its new number there, from 0."""
    refused = Signal(str)
    """Something cannot be done; why, in words."""
    delete_wanted = Signal()
    add_wanted = Signal(object)
    """A screen at a Place; None: anywhere."""
    search_begun = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Page map"))
        self._shown: tuple[Project | None, PagingGraph | None, Project | None] = (None, None, None)
        self._anew = False
        self._quiet = False
        self.map_scene.selectionChanged.connect(self._follow_selection)

    def give_up(self) -> None:
        """Leave what is being drawn or moved as it was."""

    # What is shown

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
        self._say()
        self.see_to_room(anew=self._anew)
        self._anew = False

    def forget(self) -> None:
        """Another project is shown next, with places of its own."""
        self.map_scene.forget()
        self._shown = (None, None, None)
        self._anew = True

    def set_findings(self, findings: Iterable[Finding]) -> None:
        """Mark the screens and screen changes about which checks found something."""
        self._quiet = True
        self.map_scene.set_findings(findings)
        self._quiet = False
        self._say()

    def set_kinds(self, kinds: Collection[ArrowKind]) -> None:
        """Show the screen changes of these kinds only."""
        self.map_scene.set_kinds(kinds)

    def mark(self, names: Collection[str] | None) -> None:
        """Let these screens stand out among the others; None ends that."""
        for name, node in self.nodes.items():
            node.light(names is not None and name in names, names is not None and name not in names)

    def refresh_colours(self) -> None:
        """Draw in the colours of now."""
        project, graph, spoken = self._shown
        if project is not None and graph is not None:
            self.map_scene.show_project(project, graph, self.palette(), spoken)
        self.viewport().update()

    # Selection

    def select_screen(self, name: str) -> None:
        """Select a screen without telling, and bring it into view."""
        node = self.nodes.get(name)
        if node is None or node.isSelected():
            return
        self.choose((node,), quiet=True)
        self.see(node)

    def go_to(self, name: str) -> None:
        """Select a screen and bring it to the middle, in a size that can be read."""
        node = self.nodes.get(name)
        if node is not None:
            self.select_screen(name)
            self.look_at(node)

    def select_screen_change(self, screen_change: int, from_: str | None = None) -> None:
        """Select the arrow of a screen change, of several that from this screen; and tell."""
        self._quiet = True
        self.map_scene.clearSelection()
        found = self.map_scene.select_screen_change(screen_change, from_)
        self._quiet = False
        self._follow_selection()
        if found and (item := self.selected_screen_change_item()) is not None:
            self.see(item)

    def choose(self, items: Iterable[Node | ScreenChangeItem], quiet: bool = False) -> None:
        """Select these and nothing else; and tell, unless `quiet`."""
        before, self._quiet = self._quiet, True
        self.map_scene.clearSelection()
        for item in items:
            item.setSelected(True)
        self._quiet = before
        if quiet:
            self._note_selection()
        else:
            self._follow_selection()

    def _follow_selection(self) -> None:
        if self._quiet:
            return
        self._note_selection()
        name, screen_change = self.selected_screen(), self.selected_screen_change()
        if screen_change is not None or name is None:
            self.screen_change_chosen.emit(-1 if screen_change is None else screen_change)
        else:
            self.screen_chosen.emit(name)

    def _note_selection(self) -> None:
        self.map_scene.show_near()
        self._say()

    def _say(self) -> None:
        """Tell assistive technology what is selected."""
        names, item = self.selected_screens(), self.selected_screen_change_item()
        if item is not None:
            text = screen_change_in_words(item)
        elif len(names) > 1:
            text = self.tr("Screens selected: {names}").format(names=", ".join(names))
        else:
            arrows = self.map_scene.screen_change_items()
            text = screen_in_words(self.nodes[names[0]], arrows) if names else map_in_words(self.nodes, arrows)
        if text != self.accessibleDescription():
            self.setAccessibleDescription(text)
            if self.hasFocus():
                QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, text))

    # The keyboard

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self._key(event):
            event.accept()
        else:
            super().keyPressEvent(event)

    def _key(self, event: QKeyEvent) -> bool:
        modifiers = event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
        deed = MAP.deed(event)
        if deed is not None:
            self._deeds()[deed]()
        elif event.text().isalnum() and not modifiers:
            self.search_begun.emit(event.text())
        else:
            return False
        return True

    def _deeds(self) -> dict[str, Callable[[], object]]:
        deeds: dict[str, Callable[[], object]] = {
            "ring back": lambda: self.move_in_ring(-1),
            "ring on": lambda: self.move_in_ring(1),
            "screen change before": lambda: self.next_screen_change(-1),
            "screen change after": lambda: self.next_screen_change(1),
            "start": self.go_to_start,
            "open": self.open,
            "add": lambda: self.add_wanted.emit(None),
            "delete": self.delete_wanted.emit,
            "larger": lambda: self.zoom(STEP_OF_ZOOM),
            "smaller": lambda: self.zoom(1 / STEP_OF_ZOOM),
            "whole": self.fit,
        }
        for way, (dx, dy) in _WAYS.items():
            deeds[way] = partial(self._go, dx, dy, False)
            deeds[f"also {way}"] = partial(self._go, dx, dy, True)
            deeds[f"move {way}"] = partial(self._move, dx, dy)
        return deeds

    def _move(self, dx: int, dy: int) -> None:
        places = self.map_scene.places
        moved = {name: (places[name][0] + dx, places[name][1] + dy) for name in self.selected_screens()}
        if moved:
            self.screens_placed.emit(moved)

    def move_in_ring(self, way: int) -> None:
        """Move the selected screen one place on (1) or back (-1) in the ring."""
        name = self.selected_screen()
        ring = self.map_scene.ring_at(name)
        if ring is None or name is None:
            self.refused.emit(self.tr("To move a screen within its ring, select it first."))
        else:
            self.ring_moved.emit(name, (ring.screens.index(name) + way) % len(ring.screens))

    def open(self) -> None:
        """Open the screen or the screen change that is selected."""
        screen_change, name = self.selected_screen_change(), self.selected_screen()
        if screen_change is not None:
            self.screen_change_opened.emit(screen_change)
        elif name is not None:
            self.screen_opened.emit(name)

    def go_to_start(self) -> None:
        """Select the screen that the panel starts with."""
        graph = self.map_scene.graph
        if graph is not None and graph.start in self.nodes:
            node = self.nodes[graph.start]
            self.choose((node,))
            self.see(node)

    def next_screen_change(self, way: int) -> None:
        """To the next (1) or previous (-1) screen change: within its arrow, then the other arrows of the screen."""
        item = self.selected_screen_change_item()
        if item is not None and 0 <= item.current + way < len(item.labels):
            item.current += way
            item.update()
            self._follow_selection()
            return
        name = self.selected_screen()
        if isinstance(item, ArrowItem):
            name = item.arrow.from_
        elif isinstance(item, InletItem):
            name = item.inlet.to
        found: list[ScreenChangeItem] = [edge for edge in self.edges if edge.arrow.from_ == name]
        found += [inlet for inlet in self.inlets if inlet.inlet.to == name]
        if not found:
            return
        at = found.index(item) + way if item in found else (0 if way > 0 else -1)
        following = found[at % len(found)]
        following.current = 0 if way > 0 else len(following.labels) - 1
        self.choose((following,))
        self.see(following)

    def _go(self, dx: int, dy: int, together: bool) -> None:
        name = self.selected_screen()
        item = self.selected_screen_change_item()
        if isinstance(item, ArrowItem):
            # From an arrow back to the screen that it comes from.
            self.choose((self.nodes[item.arrow.from_],))
            return
        if isinstance(item, InletItem):
            self.choose((self.nodes[item.inlet.to],))
            return
        if name is None:
            self.go_to_start()
            return
        chosen = self.selected_screens()
        ends = [self.nodes[each].pos() for each in chosen]
        band = self.map_scene.band
        here = max(ends, key=lambda point: point.x() * dx + point.y() * dy)

        def cost(node: Node) -> float | None:
            there = node.pos() - here
            if dx and (node.name in band) != (chosen[0] in band):
                return None  # the band lies below all of the map, and not beside it
            along = there.x() * dx + there.y() * dy
            aside = abs(there.x() * dy) + abs(there.y() * dx)
            return along + 3 * aside if along > 1 else None

        ranked = [(price, node) for node in self.nodes.values() if (price := cost(node)) is not None]
        if ranked:
            nearest = min(ranked, key=lambda pair: pair[0])[1]
            self.choose((nearest, *(self.nodes[each] for each in chosen)) if together else (nearest,))
            self.see(nearest)
