"""The page map with its tools: what is drawn on it becomes edits of the document."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Final

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QAction, QCursor, QKeyEvent
from PySide6.QtWidgets import (
    QMenu,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app import edits
from app.edits.refused import free_name
from app.page_map.arrows import KINDS, ArrowKind
from app.page_map.layout import MapPlace, arranged, free_place
from app.page_map.several import MapLine, in_line, ring_keys, spread
from app.panel.paging import PagingGraph
from app.project.model import Project, ScreenChange
from widgets.design.page_map.add_screen_change import ScreenChangeDialog
from widgets.design.page_map.arrows import ArrowItem, InletItem
from widgets.design.page_map.items import PageMap
from widgets.design.page_map.keyboard import STEP_OF_ZOOM
from widgets.design.page_map.keys import key_uses
from widgets.document.document import Document, Selection
from widgets.face.keypad import key_legend
from widgets.kit.commands import OWN_KEYS, command, keys_of, native, plain
from widgets.kit.elided import search_box
from widgets.kit.fuzzy_match import best_first
from widgets.kit.icons import icon
from widgets.kit.own_keys import MAP
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import percent, scaled

MERGE_MOVES: Final = "map"
"""Moves of the same screens one after the other are one step."""
SEARCH: Final = 140
"""Pixels at 100 per cent of the line in which a screen is looked for; it stands in the row of tools."""
ROW_IS_SHORT_FROM: Final = 150
"""Per cent of size from which the row of tools has no room for that line."""
USUAL_IDLE_S: Final = 120
"""Seconds of a new idle return."""


class PageMapPane(QWidget):
    """Edits the project by its map: draws, redirects and deletes screen changes, places, orders and adds screens."""

    wanted = Signal()
    """A command of the map was chosen somewhere else: it should come into view."""
    rename_wanted = Signal()
    """Of the screen that is edited."""
    delete_wanted = Signal(str)
    """Of a screen: it may need questions that belong to the list of screens."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._graph: PagingGraph | None = None
        self.view = PageMap()
        self.search = search_box(self.tr("Find a screen"), self.tr("Find a screen on the map"))
        self.search.setFixedWidth(scaled(SEARCH))
        self.search_comes = percent() >= ROW_IS_SHORT_FROM
        """Whether the line to look for a screen is over the map only while one looks, and not in the row of tools."""
        self._make_actions()
        self._lay_out()
        self._connect()
        self.setFocusProxy(self.view)

    # Making it

    def _make_actions(self) -> None:
        self._commands: list[QAction | None] = []
        self.screen_change_action = self._action(
            self.tr("Add a screen c&hange\u2026"), self.add_screen_change, "Ctrl+T"
        )
        self.earlier_action = self._action(
            self.tr("&Earlier in the ring"), lambda: self.view.move_in_ring(-1), "Alt+Left"
        )
        self.later_action = self._action(self.tr("&Later in the ring"), lambda: self.view.move_in_ring(1), "Alt+Right")
        self.ring_action = self._action(self.tr("Make a rin&g of the selection\u2026"), self.make_ring, "Ctrl+Alt+G")
        self.back_action = self._action(self.tr("Lead &the selection back to the start"), self.lead_back, "Ctrl+Alt+B")
        self._commands.append(None)
        self.row_action = self._action(
            self.tr("Put side &by side"), lambda: self._line_up(in_line, "row"), "Ctrl+Alt+H"
        )
        self.column_action = self._action(
            self.tr("Put one below the other"), lambda: self._line_up(in_line, "column"), "Ctrl+Alt+V"
        )
        self.spread_row_action = self._action(
            self.tr("Spread evenly a&cross"), lambda: self._line_up(spread, "row"), "Ctrl+Alt+Shift+H"
        )
        self.spread_column_action = self._action(
            self.tr("Spread evenl&y down"), lambda: self._line_up(spread, "column"), "Ctrl+Alt+Shift+V"
        )
        self._commands.append(None)
        self.arrange_action = self._action(self.tr("A&rrange the map"), self.arrange, "Ctrl+Shift+M")
        self.find_action = self._action(self.tr("&Find a screen on the map"), self.look_for, "Ctrl+M")
        self.fit_action = self._action(self.tr("Show the &whole map"), self.view.fit, "Ctrl+0")
        self.selection_action = self._action(self.tr("Show the &selected screens"), self.view.fit_selection, "Ctrl+9")
        self._commands.append(None)
        view = self.view
        self._own(self.tr("O&pen the selection"), view.open, "open")
        self._own(self.tr("&Delete the selection"), self.delete, "delete")
        self._own(self.tr("Select the &next screen change"), lambda: view.next_screen_change(1), "screen change after")
        self._own(
            self.tr("Select the previo&us screen change"), lambda: view.next_screen_change(-1), "screen change before"
        )
        self._own(self.tr("Go to the st&art screen"), view.go_to_start, "start")
        self.closer_action = self._own(self.tr("&Zoom in"), lambda: view.zoom(STEP_OF_ZOOM), "larger")
        self.further_action = self._own(self.tr("Zoo&m out"), lambda: view.zoom(1 / STEP_OF_ZOOM), "smaller")
        self._commands.append(None)
        self.override_action = self._toggle(self.tr("Sh&ow screens by condition"), "Ctrl+Shift+Y")
        self.idle_action = self._toggle(self.tr("Show &idle returns"), "Ctrl+Shift+U")

    def _action(self, text: str, run: Callable[[], object], keys: str) -> QAction:
        def run_here() -> None:
            self.wanted.emit()
            run()

        action = command(self, text, run_here, keys, within=True)
        self._commands.append(action)
        return action

    def _own(self, text: str, run: Callable[[], object], deed: str) -> QAction:
        """A command whose keys the map handles itself: they mean something else elsewhere."""
        action = QAction(text, self)
        action.setProperty(OWN_KEYS, MAP.first_key(deed))

        def run_here() -> None:
            self.wanted.emit()
            run()

        action.triggered.connect(lambda _checked=False: run_here())
        self._commands.append(action)
        return action

    def _toggle(self, text: str, keys: str) -> QAction:
        action = command(self, text, self._show_kinds, keys, toggles=True, within=True)
        action.blockSignals(True)
        action.setChecked(True)
        action.blockSignals(False)
        self._commands.append(action)
        return action

    @property
    def wide_actions(self) -> tuple[QAction, ...]:
        """The commands that are of use from everywhere around the map too."""
        return self.screen_change_action, self.arrange_action, self.find_action

    def _lay_out(self) -> None:
        for action, picture, text in (
            (self.screen_change_action, "arrow", self.tr("Add screen change")),
            (self.ring_action, "ring", self.tr("Make a ring")),
            (self.arrange_action, "arrange", self.tr("Arrange")),
            (self.override_action, "arrow-dashed", self.tr("By condition")),
            (self.idle_action, "arrow-dotted", self.tr("Idle returns")),
            (self.selection_action, "selection", self.tr("Selection")),
            (self.further_action, "zoom-out", self.tr("Zoom out")),
            (self.fit_action, "fit", self.tr("Whole map")),
            (self.closer_action, "zoom-in", self.tr("Zoom in")),
        ):
            action.setIcon(icon(picture))
            action.setIconText(text)
            tip = f"{plain(action.text())} ({native(keys_of(action))})"
            if action is self.screen_change_action:
                tip += "\n" + self.tr("Or hover over a screen and drag one of its keys to another screen.")
            action.setToolTip(plain_tip(tip))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.search)
        layout.addWidget(self.view)
        self.search.setVisible(False)

    @property
    def tools(self) -> tuple[QAction, ...]:
        """What stands in the row of tools while the map is in front, from left to right."""
        return self.arrange_action, self.ring_action, self.further_action, self.fit_action, self.closer_action

    @property
    def more_tools(self) -> tuple[QAction, ...]:
        """What is wanted there less often."""
        find = (self.find_action,) if self.search_comes else ()
        return *find, self.screen_change_action, self.selection_action, self.override_action, self.idle_action

    def _connect(self) -> None:
        view, document = self.view, self._document
        document.replaced.connect(view.forget)
        document.language_changed.connect(self._language_changed)
        view.refused.connect(document.refused)
        view.screen_change_drawn.connect(self.lead)
        view.screen_change_dropped.connect(self._offer_screen)
        view.screen_change_redirected.connect(self._redirect_screen_change)
        view.screens_placed.connect(self._place)
        view.ring_moved.connect(self._move_in_ring)
        view.delete_wanted.connect(self.delete)
        view.add_wanted.connect(self._add_screen)
        view.search_begun.connect(self.look_for)
        view.menu_wanted.connect(self._menu)
        self.search.textChanged.connect(self._mark)
        self.search.installEventFilter(self)

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands of the map into a menu."""
        for action in self._commands:
            if action is None:
                menu.addSeparator()
            else:
                menu.addAction(action)

    # What is shown

    def set_project(self, project: Project, graph: PagingGraph) -> None:
        """Draw this project, in the language in which its texts are typed."""
        self._graph = graph
        self.view.set_project(project, graph, self._document.spoken)
        if self.search.text():
            self._mark(self.search.text())

    def _language_changed(self) -> None:
        if self._graph is not None and self.view.map_scene.project is self._document.project:
            self.set_project(self._document.project, self._graph)

    def _show_kinds(self, _on: bool = True) -> None:
        shown: list[ArrowKind] = [kind for kind in KINDS if kind == "key"]
        shown += ["override"] * self.override_action.isChecked()
        shown += ["idle"] * self.idle_action.isChecked()
        self.view.set_kinds(shown)

    # Finding

    def look_for(self, text: str = "") -> None:
        """Look for a screen by its name, which begins with `text`."""
        self.search.show()
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        if text:
            self.search.setText(text)
        else:
            self.search.selectAll()

    def _matches(self) -> list[str]:
        """The screens whose names fit what is searched, the best first."""
        wanted = self.search.text()
        return best_first(wanted, self.view.nodes, lambda name: name, lambda _name: "") if wanted else []

    def _mark(self, text: str) -> None:
        self.view.mark(self._matches() if text else None)

    def _go_to_found(self, way: int) -> None:
        found = self._matches()
        if not found:
            return
        here = self.view.selected_screen()
        at = found.index(here) + way if here in found else 0
        self._document.select_screen(found[at % len(found)])
        self.view.go_to(found[at % len(found)])

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Enter goes to the screen that was found, Up and Down to the others, Escape back to the map."""
        if watched is self.search and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            key = event.key()
            if key in (Qt.Key.Key_Down, Qt.Key.Key_Up):
                self._go_to_found(1 if key == Qt.Key.Key_Down else -1)
                return True
            if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape):
                if key != Qt.Key.Key_Escape and self.view.selected_screen() not in self._matches():
                    self._go_to_found(1)
                self.search.clear()
                self.view.setFocus(Qt.FocusReason.OtherFocusReason)
                self.search.setVisible(not self.search_comes)
                return True
        return super().eventFilter(watched, event)

    # Screen changes

    def add_screen_change(self) -> None:
        """Ask which key of the selected screen shall lead where."""
        name = self.view.selected_screen() or self._document.selection.screen
        project = self._document.project
        if name not in project.screen_named:
            self._document.refused.emit(self.tr("A screen change needs a screen to start from; add one first."))
            return
        dialog = ScreenChangeDialog(project, name, self)
        dialog.wanted.connect(self.lead)
        dialog.exec()
        dialog.deleteLater()
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def lead(self, screen: str | None, key: str, to: str) -> None:
        """Let a key lead from one screen (None: from every screen) to another."""
        if (
            self._document.do(self.tr("Draw screen change"), lambda project: edits.lead_key(project, screen, key, to))
            is None
        ):
            self._select_screen_change_of(screen, key)

    def _select_screen_change_of(self, screen: str | None, key: str) -> None:
        for index, screen_change in enumerate(self._document.project.screen_changes):
            if screen_change.from_ == screen and screen_change.key == key:
                self.view.select_screen_change(index, screen)

    def _redirect_screen_change(self, index: int, from_: str | None, to: str) -> None:
        screen_change = self._document.project.screen_changes[index]
        if from_ is not None and screen_change.from_ is None and screen_change.key is not None:
            # One of many arrows of a screen change that applies everywhere: this screen gets one of its own.
            self.lead(from_, screen_change.key, to)
            return
        step = self.tr("Redirect screen change")
        if self._document.do(step, lambda project: edits.edit_screen_change(project, index, to=to)) is None:
            self.view.select_screen_change(index, from_)

    def make_ring(self) -> None:
        """Ask by which keys the selected screens shall become a ring, in the order of their list."""
        project = self._document.project
        chosen = self.view.selected_screens()
        ring = [name for name in project.screen_named if name in chosen]
        if len(ring) < 2:
            self._document.refused.emit(
                self.tr("Select two screens or more first: Shift and drag around them, or Ctrl and click.")
            )
            return
        choices = ring_keys(project, ring)
        if not choices:
            self._document.refused.emit(self.tr("Every key does something on one of these screens already."))
            return
        menu = QMenu(self)
        for keys in choices:
            words = self.tr("By {onward} and {back}") if len(keys) > 1 else self.tr("By {onward} alone")
            words = words.format(onward=key_legend(keys[0]), back=key_legend(keys[-1]))
            taken = [key for key in keys for name in ring if self._leads_elsewhere(name, key, ring)]
            if taken:
                words = self.tr("{keys}; changes where they lead now").format(keys=words)
            menu.addAction(words.replace("&", "&&"), partial(self.join_in_ring, ring, keys))
        menu.setActiveAction(menu.actions()[0])
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(self._below_used(self.ring_action, ring[0]))

    def _below_used(self, action: QAction, screen: str) -> QPoint:
        """Where a menu of a command opens: below its button if that was clicked, else below this screen."""
        pointer = QCursor.pos()
        for each in action.associatedObjects():
            button = each if isinstance(each, QToolButton) and each.isVisible() else None
            if button is not None and button.rect().contains(button.mapFromGlobal(pointer)):
                return button.mapToGlobal(button.rect().bottomLeft())
        return self.view.mapToGlobal(self.view.rect_of(self.view.nodes[screen]).bottomLeft().toPoint())

    def join_in_ring(self, ring: Sequence[str], keys: Sequence[str]) -> None:
        """Let keys lead round these screens, and back if there are two, as one step."""
        step = self.tr("Make a ring of {count} screens").format(count=len(ring))
        self._document.do(step, lambda project: edits.make_ring(project, ring, keys))

    def _leads_elsewhere(self, screen: str, key: str, ring: Sequence[str]) -> bool:
        use = next(use for use in key_uses(self._document.project, screen) if use.key == key)
        return bool(use.deeds) or (use.leads_to is not None and use.leads_to not in ring)

    def lead_back(self) -> None:
        """Let a key lead from the selected screens back to the start: escape, or the first that does nothing there."""
        project = self._document.project
        start = project.panel.start
        chosen = [name for name in self.view.selected_screens() if name != start]
        free = [key for (key, *others) in ring_keys(project, chosen) if not others]
        key = next((each for each in ("escape", "esc", *free) if each in free), None)
        if not chosen:
            self._document.refused.emit(
                self.tr("Select the screens that lead back to \u201c{start}\u201d first.").format(start=start)
            )
        elif key is None:
            self._document.refused.emit(self.tr("No key is free on all of these screens."))
        else:
            step = self.tr("Lead back to \u201c{start}\u201d by {key}").format(start=start, key=key)
            self._document.do(step, lambda project: edits.lead_back(project, chosen, start, key))

    def _line_up(self, how: Callable[[Mapping[str, MapPlace], MapLine], dict[str, MapPlace]], line: MapLine) -> None:
        chosen = self.view.selected_screens()
        if len(chosen) < 2:
            self._document.refused.emit(self.tr("Select two screens or more first."))
            return
        shown = self.view.map_scene.places
        moved = how({name: shown[name] for name in chosen}, line)
        self._document.do(
            self.tr("Line up {count} screens").format(count=len(chosen)),
            lambda project: edits.place_screens(project, moved),
        )

    def _show_on_condition(self, name: str) -> None:
        """Add an override that shows a screen; its condition is then chosen in the properties."""
        signals = self._document.project.signal_named
        if not signals:
            self._document.refused.emit(self.tr("A condition needs a signal; the project has none yet."))
            return
        condition = edits.condition(signal=next(iter(signals)))
        self._add_and_open(self.tr("Add override"), edits.screen_change(when=condition, to=name))

    def _return_when_idle(self, name: str) -> None:
        """Add an idle return to a screen; its time can then be changed in the properties."""
        self._add_and_open(self.tr("Add idle return"), edits.screen_change(idle_s=USUAL_IDLE_S, to=name))

    def _add_and_open(self, step: str, screen_change: ScreenChange) -> None:
        index = len(self._document.project.screen_changes)
        if self._document.do(step, lambda project: edits.add_screen_change(project, screen_change)) is None:
            self.override_action.setChecked(True)
            self.idle_action.setChecked(True)
            self.view.select_screen_change(index)
            self.view.screen_change_opened.emit(index)

    def _offer_screen(self, screen: str, key: str, place: MapPlace, at: QPoint) -> None:
        menu = QMenu(self)
        menu.addAction(self.tr("New &screen here"), lambda: self.lead_to_new(screen, key, place))
        menu.addSeparator()
        menu.addAction(self.tr("To the &next screen"), lambda: self.lead(screen, key, "next"))
        menu.addAction(self.tr("To the &previous screen"), lambda: self.lead(screen, key, "previous"))
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(at)

    def lead_to_new(self, screen: str, key: str, place: MapPlace) -> None:
        """Add a screen at a place, with a screen change to it."""
        project = self._document.project
        name = free_name(self.tr("screen"), project.screen_named)
        at = list(project.screen_named).index(screen) + 1
        free = free_place(self.view.map_scene.places.values(), place)

        def edit(project: Project) -> Project:
            project = edits.place_screens(edits.add_screen(project, name, at), {name: free})
            return edits.lead_key(project, screen, key, name)

        self._document.do(self.tr("Draw screen change to a new screen"), edit, select=Selection(name))

    # Screens

    def _add_screen(self, place: MapPlace | None) -> None:
        project = self._document.project
        name = free_name(self.tr("screen"), project.screen_named)
        names, current = list(project.screen_named), self._document.selection.screen
        at = names.index(current) + 1 if current in names else len(names)

        def edit(project: Project) -> Project:
            added = edits.add_screen(project, name, at)
            if place is None:
                return added
            return edits.place_screens(added, {name: free_place(self.view.map_scene.places.values(), place)})

        self._document.do(self.tr("Add screen"), edit, select=Selection(name))

    def _place(self, places: dict[str, MapPlace | None]) -> None:
        self._document.do(
            self.tr("Move on the map"),
            lambda project: edits.place_screens(project, places),
            merge=(MERGE_MOVES, tuple(sorted(places))),
        )

    def _move_in_ring(self, name: str, to: int) -> None:
        ring = self.view.map_scene.ring_at(name)
        if ring is None:
            return

        def edit(project: Project) -> Project:
            if ring.keys:
                return edits.relink_ring(project, name, to, ring.screens, ring.keys)
            return edits.reorder_ring(project, name, to, ring.screens)

        self._document.do(self.tr("Move in the ring"), edit, merge=(MERGE_MOVES, name))

    def arrange(self) -> None:
        """Give every screen the place that the automatic layout finds; those that no key leads to go to their band."""
        across, down = self.view.map_scene.step()

        def edit(project: Project) -> Project:
            graph = PagingGraph(project)
            found = arranged(graph, across / down)
            reached = graph.presses_from_start
            return edits.place_screens(project, {name: found[name] if name in reached else None for name in found})

        self._document.do(self.tr("Arrange the map"), edit)
        self.view.fit()

    def delete(self) -> None:
        """Delete the screen change or the screen that is selected."""
        item, name = self.view.selected_screen_change_item(), self.view.selected_screen()
        if item is None:
            if name is not None:
                self.delete_wanted.emit(name)
            else:
                self._document.refused.emit(self.tr("Select a screen or an arrow to delete it."))
            return
        index = item.screen_change
        step = self.tr("Delete screen change")
        screen_change = self._document.project.screen_changes[index]
        shared = screen_change.from_ is None and isinstance(item, ArrowItem)

        def delete() -> None:
            self._document.do(step, lambda project: edits.delete_screen_change(project, index))

        if shared:
            self._document.offered.emit(
                self.tr(
                    "This screen change applies on every screen: all arrows of the key {key} would be deleted."
                ).format(key=screen_change.key),
                self.tr("Delete on all screens"),
                delete,
            )
        else:
            delete()
            if isinstance(item, ArrowItem):
                self.view.select_screen(item.arrow.from_)
            elif isinstance(item, InletItem):
                self.view.select_screen(item.inlet.to)

    def _menu(self, at: QPoint, place: MapPlace) -> None:
        menu = QMenu(self)
        name, screen_change = self.view.selected_screen(), self.view.selected_screen_change()
        if screen_change is not None:
            menu.addAction(self.tr("&Properties"), lambda: self.view.screen_change_opened.emit(screen_change))
            menu.addAction(self.tr("&Delete the screen change"), self.delete)
        elif len(self.view.selected_screens()) > 1:
            menu.addActions([self.ring_action, self.back_action])
            menu.addSeparator()
            menu.addActions([self.row_action, self.column_action, self.spread_row_action, self.spread_column_action])
        elif name is not None:
            menu.addAction(self.tr("&Open"), lambda: self.view.screen_opened.emit(name))
            menu.addAction(self.screen_change_action)
            menu.addAction(self.tr("Re&name"), self.rename_wanted.emit)
            menu.addAction(
                self.tr("&Make it the start screen"),
                lambda: self._document.do(
                    self.tr("Change the start screen"), lambda project: edits.set_start(project, name)
                ),
            )
            menu.addSeparator()
            menu.addAction(self.tr("Show it while a &condition is true\u2026"), lambda: self._show_on_condition(name))
            menu.addAction(self.tr("Return here when &idle\u2026"), lambda: self._return_when_idle(name))
            if self.view.map_scene.ring_at(name) is not None:
                menu.addSeparator()
                menu.addAction(self.earlier_action)
                menu.addAction(self.later_action)
            menu.addSeparator()
            menu.addAction(self.tr("&Delete the screen"), self.delete)
        else:
            menu.addAction(self.tr("&Add a screen here"), lambda: self._add_screen(place))
            menu.addSeparator()
            menu.addAction(self.arrange_action)
            menu.addAction(self.fit_action)
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(at)
