"""The Design workspace: screens at the left, the face, map and tables in the middle, properties at the right."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QVBoxLayout, QWidget

from app.checks.finding import SEVERITY_ORDER
from app.panel.paging import PagingGraph
from widgets.design.exchange.signal_lists import SignalLists
from widgets.design.finding_deeds import FindingDeeds
from widgets.design.findings import FindingsList
from widgets.design.findings_strip import SHARED_FROM, CanvasWithFindings
from widgets.design.forms.panel_view import PanelView
from widgets.design.inspector import Inspector
from widgets.design.left_pane import LeftPane
from widgets.design.navigation import Navigator
from widgets.design.panes import DesignPanes, walk
from widgets.design.part_commands import PartCommands
from widgets.design.screen.live_rows import LiveReadings
from widgets.design.screens_pane import ScreensPane
from widgets.design.table_commands import TableCommands
from widgets.design.tools import DesignTools
from widgets.design.views import VIEWS, DesignViews
from widgets.document.document import Document
from widgets.document.drafts import Drafts, follow_drafts, subject_text
from widgets.document.running_checks import RunningChecks
from widgets.document.settings import Settings
from widgets.document.unfinished import Unfinished
from widgets.kit.commands import Keys, command
from widgets.kit.scaling import percent
from widgets.welcome.first_steps import FirstSteps


class DesignWorkspace(QWidget):
    """Everything about a project is edited here; `document` holds it."""

    wanted = Signal()
    """A command of this workspace was chosen, perhaps while another workspace is in front."""
    wrong_wanted = Signal(str)
    """The value of this signal looks wrong."""
    find_out_wanted = Signal()
    """An unknown device is to be found out."""
    not_taken_over_changed = Signal()
    """Something was begun, typed, completed or put away that is not in the project."""

    def __init__(self, document: Document, settings: Settings | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self._settings = settings or Settings()
        self.lists = SignalLists(document, self._settings, self, lambda words: self.editor.say(words))
        self.drafts = Drafts(self)
        self.begun = Unfinished(self)
        self.checks = RunningChecks(document, self)
        self._before = document.project
        self._graph = PagingGraph(document.project)
        self._graph_of = document.project
        self._make_parts()
        self._lay_out()
        self.navigator = Navigator(document, self.drafts, self.begun, self.screens, self.views, self.inspector)
        self._make_actions()
        self._connect()
        self._show_panes()
        self.setFocusProxy(self.editor.face)
        self._follow_document()
        self._shown_changed()

    def _make_parts(self) -> None:
        document = self.document
        self.screens = ScreensPane(document)
        self.inspector = Inspector(document, self.drafts, self.begun)
        panel = PanelView(self.inspector.panel_form, self.inspector.messages_form)
        self.views = DesignViews(document, self.drafts, self.begun, panel)
        self.notice = self.views.notice
        self.editor = self.views.editor
        self.map_pane = self.views.map_pane
        self.map = self.views.map
        self.behaviour = self.views.behaviour
        self.signals = self.views.signals
        self.lines = self.views.lines
        self.screens.use_clipboard(self.editor.clipboard)
        self.findings = FindingsList(self.drafts, self.begun)

    def _lay_out(self) -> None:
        self.tools = DesignTools(self.document, self.views)
        self.finding_deeds = FindingDeeds(self.document, self.checks, self.findings)
        self.canvas = CanvasWithFindings(self.views, self.findings)
        self.left = LeftPane(self.document, self.screens, self.editor)
        self.first_steps = FirstSteps(self.document, self._settings)
        self.left.add_below(self.first_steps)
        self.panes = DesignPanes(self.tools, self.left, self.canvas, self.inspector)
        self.across = self.panes.across
        self.tools.show_left(self.panes.left_button)
        if percent() >= SHARED_FROM:
            self.canvas.share_row(self.editor.status)
            self.views.currentChanged.connect(lambda _index: self.editor.show_status(self.views.view == "screen"))
        # At large sizes the letters of the panel need the room of its keys, which do little while it is designed.
        self.editor.set_keys_shown(not self.panes.drawers)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.panes)

    def _make_actions(self) -> None:
        self._actions: list[QAction | str | None] = []
        """In the order of the menu: None stands for a line across it, a text begins a menu up to the next."""
        editor = self.editor
        self._action(self.tr("&Place a field\u2026"), editor.pick_signal, "Ctrl+Return")
        self._action(self.tr("&Delete the field"), editor.delete_fields, "Ctrl+Delete")
        self._action(self.tr("A screen of these signals\u2026"), self._screens_of, "Ctrl+Alt+N")
        self._actions.append(None)
        self._action(self.tr("&Try it here"), self.try_it, ("F9", "Ctrl+Space"))
        self._action(self.tr("Next &language of the texts"), self._next_language, "Ctrl+Shift+Space")
        self._actions.append(None)
        self._action(self.tr("&Add a screen"), self.screens.add, "Ctrl+Shift+A")
        self._action(self.tr("&Rename the screen"), self.screens.list.rename_current, "Shift+F2")
        self._action(self.tr("Pre&vious screen"), lambda: self.navigator.next_screen(-1), "Alt+PgUp")
        self._action(self.tr("Ne&xt screen"), lambda: self.navigator.next_screen(1), "Alt+PgDown")
        self._actions.append(self.tr("Views"))
        for number, (name, title) in enumerate(zip(VIEWS, self.views.titles, strict=True), start=1):
            self._action(
                self.tr("Show: {view}").format(view=title),
                lambda name=name: self.show_view(name),  # type: ignore[misc]
                f"Alt+{number}",
            )
        self._actions.append(None)
        self._action(self.tr("&Import signals\u2026"), self.import_signals, "Ctrl+I")
        self._action(self.tr("Export signals\u2026"), self.export_signals, "Ctrl+U")
        self._actions.append(self.tr("Go to"))
        self._action(self.tr("Go to the pr&operties and back"), self.navigator.to_properties_and_back, "F4")
        self._action(self.tr("Next pane"), lambda: self._walk(1), "F6")
        self._action(self.tr("Previous pane"), lambda: self._walk(-1), "Shift+F6")
        self._action(self.tr("Edit the panel &messages"), self.navigator.to_messages, "Ctrl+Shift+D")
        self._actions.append(self.tr("Findings"))
        self._action(self.tr("Go to the findings and back"), self.canvas.open_list, "F8")
        self.part_commands = PartCommands(self, self.views, self.document)
        self.table_commands = TableCommands(self, self.views, self.document, self.part_commands, self.navigator.to_uses)
        for commands in (self.part_commands, self.table_commands):
            commands.chosen.connect(self.wanted)
        self._action(self.tr("Next finding"), lambda: self.findings.step(1), "Ctrl+F8")
        self._action(self.tr("Previo&us finding"), lambda: self.findings.step(-1), "Ctrl+Shift+F8")
        self._action(self.tr("&Fix the finding"), self.finding_deeds.fix_shown, "Ctrl+F7")
        self._action(self.tr("Accept the finding\u2026"), self.finding_deeds.accept_shown, "Ctrl+Shift+F7")
        self.addActions(self.map_pane.wide_actions)
        self.screens.addActions([editor.actions_of.find, editor.actions_of.replace])

    def try_it(self) -> None:
        """Operate the screen where it is drawn, with simulated values; once more, and it is edited again."""
        if self.view != "screen":
            self.show_view("screen")
        self.editor.try_it()

    def import_signals(self, path: Path | None = None) -> None:
        """Bring signals in from a register list: of this file, or of one that is chosen."""
        new = frozenset(self.lists.bring_in(path))
        if new:
            self.show_view("signals")
            # All are selected: what is done next is mostly done with all of them, such as screens.
            signals = self.document.project.signals
            self.signals.table.select_places([place for place, part in enumerate(signals) if part.name in new])
            self.signals.chosen.emit()

    def export_signals(self) -> None:
        """Write the signals to a file; those selected in their table are offered apart."""
        self.lists.write_out(self.signals.selected_signals() if self.view == "signals" else ())

    def _next_language(self) -> None:
        count = len(self.document.project.panel.languages)
        if count < 2:
            self._say(self.tr("The panel has only one language; add more in the panel's properties."))
        else:
            self.document.choose_language((self.document.language + 1) % count)

    def _action(self, text: str, run: Callable[[], object], shortcut: Keys) -> None:
        def run_here() -> None:
            self.wanted.emit()
            run()

        self._actions.append(command(self, text, run_here, shortcut, within=True))

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands of this workspace into a menu of the window."""
        into = menu
        for entry in self._actions:
            if entry is None:
                into = menu
                menu.addSeparator()
            elif isinstance(entry, str):
                into = menu.addMenu(entry)
            else:
                into.addAction(entry)
        menu.addSeparator()
        self.screens.list.fill_menu(menu.addMenu(self.tr("W&hole screens")))
        self.editor.actions_of.fill_menu(menu)
        self.part_commands.fill_menu(menu.addMenu(self.tr("Add a part")))
        self.map_pane.fill_menu(menu.addMenu(self.tr("Pag&e map")))
        tables = menu.addMenu(self.tr("Ta&bles"))
        self.table_commands.fill_menu(tables)
        self.part_commands.fill_rows_menu(tables)

    def _connect(self) -> None:
        document = self.document
        document.replaced.connect(self._forget_former)
        document.changed.connect(self._follow_document)
        document.selection_changed.connect(self._selection_changed)
        document.shown_changed.connect(self._shown_changed)
        document.refused.connect(self._say)
        document.offered.connect(self._offer)
        self.views.currentChanged.connect(lambda _index: self._view_changed())
        self.editor.trying_changed.connect(lambda _on: self.navigator.show_properties())
        self.editor.tools.try_wanted.connect(self.try_it)
        self.editor.face.grid.cell_released.connect(lambda *_: self._point_at_properties())
        self.editor.wanted.connect(self._to_editor)
        self.editor.field_opened.connect(self.navigator.open_field)
        self.editor.next_screen_wanted.connect(self.navigator.next_screen)
        self.editor.new_signal_wanted.connect(self.navigator.add_signal)
        self.editor.key_wanted.connect(self.navigator.show_key)
        self.screens.opened.connect(lambda _name: self.show_view("screen"))
        self.screens.opened.connect(lambda _name: self.panes.close_left())
        self.map.screen_chosen.connect(document.select_screen)
        self.map.screen_opened.connect(self.navigator.open_screen)
        self.map.screen_change_chosen.connect(lambda _index: self.navigator.show_properties())
        self.map.screen_change_opened.connect(lambda _index: self.navigator.to_properties())
        self.map_pane.wanted.connect(self._to_map)
        self.map_pane.delete_wanted.connect(self.screens.delete)
        self.map_pane.rename_wanted.connect(self.screens.list.rename_current)
        self.signals.lines_wanted.connect(lambda: self.show_view("lines"))
        self.signals.import_wanted.connect(self.import_signals)
        self.signals.export_wanted.connect(self.export_signals)
        self.behaviour.chosen.connect(self.navigator.show_properties)
        self.begun.changed.connect(self._begun_changed)
        for signal in (self.begun.changed, self.begun.completed, self.drafts.changed):
            signal.connect(lambda *_: self.not_taken_over_changed.emit())
        self.signals.chosen.connect(self.navigator.show_properties)
        self.signals.table.keep_columns(
            lambda: self._settings.columns(document.path), lambda text: self._settings.keep_columns(document.path, text)
        )
        self.signals.scaling_wanted.connect(self.inspector.signal_form.open_scaling)
        self.signals.wrong_wanted.connect(self.inspector.signal_form.ask_about_value)
        self.inspector.signal_form.wrong_wanted.connect(self.wrong_wanted)
        self.signals.uses_wanted.connect(self.navigator.to_uses)
        self.inspector.signal_form.place_wanted.connect(self.navigator.go_to)
        self.lines.chosen.connect(self.navigator.show_properties)
        self.lines.find_out_wanted.connect(self.find_out_wanted)
        for view in (self.signals, self.lines):
            view.opened.connect(self.navigator.to_properties)
            view.added.connect(self.navigator.to_properties)
        for part in (self.inspector, self.left.tray):
            part.signal_wanted.connect(self.navigator.show_signal)
        self.left.tray.new_wanted.connect(self.navigator.add_signal)
        self.navigator.properties_wanted.connect(self.panes.open_right)
        self.navigator.left.connect(self.panes.close_right)
        of_screen = self.inspector.screen_form
        of_screen.rule_wanted.connect(self.navigator.show_rule)
        of_screen.add_rule_wanted.connect(self.navigator.add_action_on)
        of_screen.blink_wanted.connect(self.editor.ask_blinking)
        of_screen.way_wanted.connect(self.map.select_screen_change)
        of_screen.add_way_wanted.connect(self.map_pane.add_screen_change)
        self.findings.place_chosen.connect(self.navigator.go_to)
        self.findings.draft_chosen.connect(self.navigator.go_to_draft)
        self.checks.found.connect(self._show_findings)

    # Keeping it in step

    def _follow_document(self) -> None:
        project = self.document.project
        follow_drafts(self.drafts, self._before, project)
        self.begun.follow(project)
        self._before = project
        self.screens.show_project(project, self._paging(), self.checks.findings)
        self.panes.left_button.setText(self.tr("Screens ({count})").format(count=len(project.screens)))
        self._refresh_view()

    def _refresh_view(self) -> None:
        """Bring the view in the middle up to date. The others are when they come there."""
        project, found = self.document.project, self.checks.by_part
        if self.view == "map":
            self.map_pane.set_project(project, self._paging())
            self.map.set_findings(self.checks.findings)
        elif self.view == "behaviour":
            self.behaviour.show_project(found)
        elif self.view == "signals":
            self.signals.show_project(project, found.parts("signal"), found.parts("signal", *SEVERITY_ORDER))
        elif self.view == "lines":
            self.lines.show_project(project, found.parts("line"), found.parts("follower"))

    def _begun_changed(self) -> None:
        if self.view == "behaviour":
            self._refresh_view()
            self.navigator.show_properties()

    def _shown_changed(self) -> None:
        self._mark_fields()
        self.navigator.show_properties()

    def _forget_former(self) -> None:
        """Another project: nothing of the former one is true any more."""
        self.drafts.clear()
        self.begun.clear()
        self.map.set_findings(())
        self._before = self.document.project

    def _paging(self) -> PagingGraph:
        """The graph of the project as it is now; the former one where no screen change, key or screen has changed."""
        now, then = self.document.project, self._graph_of
        if now is not then:
            same = now.screen_changes is then.screen_changes and now.panel is then.panel
            if not same or list(now.screen_named) != list(then.screen_named):
                self._graph = PagingGraph(now)
            self._graph_of = now
        return self._graph

    def _selection_changed(self) -> None:
        self.screens.show_selection()
        if self.view == "map":
            self.map.select_screen(self.document.selection.screen)
        elif self.view == "screen":
            self._choose_form()

    def _point_at_properties(self) -> None:
        """A click on what is marked already shows its properties too, though nothing else is marked by it."""
        if self.view == "screen" and self.inspector.shows_field != bool(self.document.selection.fields):
            self._choose_form()
            self.navigator.show_properties()

    def _choose_form(self) -> None:
        """The properties follow what is marked on the face."""
        fields = self.document.selection.fields
        self.inspector.choose_form(self.inspector.field_form if fields else self.inspector.screen_form)

    def _show_findings(self) -> None:
        """Show what the checks found."""
        self.findings.set_findings(self.checks.findings, self.checks.accepted, checked=self.checks.checked)
        self.screens.show_project(self.document.project, self._paging(), self.checks.findings)
        self._refresh_view()
        self._mark_fields()

    def _mark_fields(self) -> None:
        screen = self.document.screen
        if screen is None or self.view != "screen":
            return
        project = self.document.project
        at = next(index for index, other in enumerate(project.screens) if other is screen)
        fields, rows = set[int](), set[int]()
        for finding in self.checks.by_part.about("screen", at):
            place = finding.place
            if len(place) < 4 or finding.severity == "note":
                continue
            number = place[-1] if place[2] == "text_in" else place[3]
            if not isinstance(number, int):
                continue
            if place[2] == "field":
                fields.add(number)
            elif number < project.panel.rows and (place[2] == "text_in") == bool(self.document.language):
                rows.add(number)
        self.editor.set_wrong(frozenset(fields), frozenset(rows))

    def _say(self, text: str) -> None:
        self.editor.say(text)

    def _offer(self, text: str, button: str, deed: Callable[[], object]) -> None:
        self.editor.say(text, button, deed)

    def not_taken_over(self) -> list[str]:
        """What was begun or typed and is not in the project, so in no file either, in words."""
        project = self.document.project
        return [
            *(subject_text(self.begun.place(project, rule)) for rule in self.begun.all()),
            *(f"{subject_text(subject)}, {row}" for subject, row, _, _ in self.drafts.all()),
        ]

    # Views

    @property
    def view(self) -> str:
        """Which view is in the middle; one of VIEWS."""
        return self.views.view

    def take_over(self, former: DesignWorkspace) -> None:
        """Go on with what was typed in a former workspace and not accepted yet, in the same view."""
        self.begun.take_over(former.begun)
        rows = self.inspector.rows_since(former.inspector) | self.behaviour.names_since(former.behaviour)
        self.drafts.take_over(former.drafts, rows)
        self.views.setCurrentIndex(former.views.currentIndex())
        if former.checks.checked:
            self.checks.finish()  # nobody has to see that nothing is found for a moment

    def show_view(self, name: str) -> None:
        """Bring a view to the middle and give it the focus."""
        self.views.show_view(name)

    def _show_panes(self) -> None:
        """Those that the view in front has any use for: beside tables and the panel the screens are of none."""
        self.left.tray.setVisible(self.view == "screen")
        self.panes.want(left=self.view in ("screen", "map", "behaviour"), right=self.view != "panel")

    def _view_changed(self) -> None:
        self.notice.hide()
        self._show_panes()
        self._refresh_view()
        if self.view == "screen":
            self.editor.refresh()
            self._mark_fields()
            self._choose_form()
        elif self.view == "map":
            self.map.select_screen(self.document.selection.screen)
            self.inspector.choose_form(self.inspector.screen_form)
        self.navigator.show_properties()

    def set_readings_source(self, source: LiveReadings) -> None:
        """Where the live values come from that the face can show. Nothing here writes to a line."""
        self.editor.set_readings_source(source)

    def _to_editor(self) -> None:
        self.wanted.emit()
        if self.view != "screen":
            self.show_view("screen")

    def _to_map(self) -> None:
        self.wanted.emit()
        if self.view != "map":
            self.show_view("map")

    def _screens_of(self) -> None:
        at_table = [each.name for each in self.signals.selected_signals()]
        self.left.make_screens(at_table if self.view == "signals" else self.left.tray.chosen())

    def _walk(self, way: int) -> None:
        """Lead the focus to the next pane or the one before, as one reads."""
        reason = Qt.FocusReason.ShortcutFocusReason
        walk(
            [
                (self.tools, lambda: self.views.tabs.setFocus(reason)),
                (self.panes.left, lambda: self.screens.list.list.setFocus(reason)),
                (self.views, lambda: self.views.first.setFocus(reason)),
                (self.panes.right, self.navigator.to_properties),
                (self.canvas.strip, lambda: self.canvas.strip.opener.setFocus(reason)),
            ],
            way,
        )

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "findings"):
            self.findings.refresh_colours()
            self.map_pane.view.refresh_colours()

    def sizeHint(self) -> QSize:
        return QSize(1366, 640)
