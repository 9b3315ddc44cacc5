"""The ways to the parts of a project in Design: each to its view, its row there and its properties at the right."""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from shiboken6 import isValid

from app.project.messages import MESSAGES
from app.project.model import Project
from app.project.problems import Place
from widgets.design.behaviour.sentence_editor import SentenceEditor
from widgets.design.inspector import Inspector
from widgets.design.views import DesignViews
from widgets.document.document import Document, Selection
from widgets.document.drafts import Drafts
from widgets.document.unfinished import Unfinished
from widgets.kit.path_bar import Step

MOST_AT_ONCE: Final = 1_000
"""Signals that the properties show at once; of more selected ones only the current one, since comparing them takes."""


class Navigator(QObject):
    """Shows a part and its properties, and leads the focus there and back."""

    properties_wanted = Signal()
    """The focus is about to go to the properties, which may not be in sight."""
    left = Signal()
    """The focus came back from the properties."""

    def __init__(
        self,
        document: Document,
        drafts: Drafts,
        begun: Unfinished,
        screens: QWidget,
        views: DesignViews,
        inspector: Inspector,
    ) -> None:
        super().__init__(views)
        self._document = document
        self._begun = begun
        self._screens = screens
        self._views = views
        self._inspector = inspector
        self._simulated = inspector.add_guest(views.editor.tryout.followers)
        self._keys = inspector.add_guest(views.behaviour.keys)
        self.sentence = SentenceEditor(views.behaviour.edits, drafts)
        self._screen_change = inspector.add_guest(self.sentence)
        self._came_from: QWidget | None = None
        inspector.left.connect(self.back)

    def show_properties(self) -> None:
        """Show the properties of what is chosen in the view in the middle; while a screen is tried, its followers."""
        project, inspector = self._document.project, self._inspector
        if self._views.editor.tryout.running:
            inspector.show_guest(self._simulated)
            inspector.path.set_path((), self.tr("Simulated devices"))
        elif self._views.view == "panel":
            inspector.show_panel()
        elif self._views.view in ("screen", "map"):
            screen_change = self._views.map.selected_screen_change() if self._views.view == "map" else None
            if screen_change is None:
                inspector.show_screen(on_map=self._views.view == "map")
                self._show_path_to_screen()
            else:
                self.sentence.show_place(("screen_change", screen_change))
                inspector.show_guest(self._screen_change)
                rule = self._begun.rule(project, "screen_change", screen_change)
                self._show_path_to_rule(getattr(rule, "from_", None), self.tr("Screen change"))
        elif self._views.view == "behaviour":
            inspector.show_guest(self._keys)
            screen = self._document.screen
            self._show_path_to_rule(None if screen is None else screen.name, self.tr("Keys"))
        elif self._views.view == "signals":
            index = self._views.signals.current()
            name = project.signals[index].name if 0 <= index < len(project.signals) else None
            chosen = self._views.signals.selected_signals()
            names = [part.name for part in chosen] if len(chosen) <= MOST_AT_ONCE else []
            # A row becomes the current one before the selection follows it.
            others = [each for each in names if each != name] if name in names else []
            inspector.show_part("signal", *(("signal", each) for each in ([] if name is None else [name, *others])))
            self._show_path_in_view(self.tr("{count} signals").format(count=len(others) + 1) if others else name)
        else:
            kind, index = self._views.lines.current()
            parts: tuple[Any, ...] = project.lines if kind == "line" else project.followers
            name = parts[index].name if 0 <= index < len(parts) else None
            inspector.show_part(kind, *([] if name is None else [(kind, name)]))
            self._show_path_in_view(name)

    # The path to what is shown

    def _panel_step(self) -> Step:
        return self.tr("Panel"), lambda: self._views.show_view("panel")

    def _screen_step(self, name: str) -> Step:
        def go() -> None:
            self._views.bring_up("screen")
            self._document.select_screen(name)
            self._inspector.choose_form(self._inspector.screen_form)
            self.show_properties()
            self.to_properties()

        return name, go

    def _show_path_to_screen(self) -> None:
        screen, chosen = self._document.screen, self._document.selection.fields
        if screen is None:
            self._inspector.path.set_path((), self.tr("Panel"))
        elif not self._inspector.shows_field:
            self._inspector.path.set_path((self._panel_step(),), screen.name)
        else:
            if len(chosen) == 1:
                last = screen.fields[chosen[0]].signal
            else:
                last = self.tr("{count} fields").format(count=len(chosen)) if chosen else self.tr("no field")
            self._inspector.path.set_path((self._panel_step(), self._screen_step(screen.name)), last)

    def _show_path_to_rule(self, screen: str | None, last: str) -> None:
        steps = [self._panel_step()]
        if screen is not None:
            steps.append(self._screen_step(screen))
        self._inspector.path.set_path(steps, last)

    def _show_path_in_view(self, name: str | None) -> None:
        view = self._views.view
        title = self._views.titles[self._views.currentIndex()]
        if name is None:
            self._inspector.path.set_path((), title)
        else:
            self._inspector.path.set_path(((title, lambda: self._views.show_view(view)),), name)

    # To the parts

    def show_signal(self, name: str) -> None:
        """Go to a signal in its table."""
        names = [signal.name for signal in self._document.project.signals]
        if name in names:
            self._views.bring_up("signals")
            self._views.signals.select(names.index(name))
            self.show_properties()

    def show_screen_change(self, index: int) -> None:
        """Go to the sentence of a screen change."""
        self._views.bring_up("behaviour")
        self._views.behaviour.select("screen_change", index)
        self.show_properties()

    def show_key(self, key: str) -> None:
        """Go to what a key does on the screen that is edited; a free one is used."""
        self._views.show_view("behaviour")
        self._views.behaviour.keys.follow_key(key)

    def show_action(self, index: int) -> None:
        """Go to the sentence of an action."""
        self._views.bring_up("behaviour")
        self._views.behaviour.select("action", index)
        self.show_properties()

    def show_rule(self, kind: str, index: int) -> None:
        """Go to the sentence of a screen change or an action."""
        (self.show_screen_change if kind == "screen_change" else self.show_action)(index)

    def to_properties(self) -> None:
        """Give the focus to the first of the properties that are shown, and remember where it was."""
        page, focused = self._inspector.current_form(), QApplication.focusWidget()
        if focused is not None and not self._inspector.isAncestorOf(focused):
            self._came_from = focused
        self.properties_wanted.emit()
        if page is None:
            if self._views.view == "behaviour":
                self._views.behaviour.keys.list.setFocus(Qt.FocusReason.ShortcutFocusReason)
            elif self._views.view == "map":
                self.sentence.focus_first()
            else:
                self._simulated.focusNextChild()
            return
        if page is self._inspector.field_form and not self._document.selection.fields:
            page = self._inspector.screen_form  # no field is selected: the screen has properties all the same
            self._inspector.choose_form(self._inspector.screen_form)
            self.show_properties()
        for row in page.rows:
            if row.editors() and row.isVisibleTo(page):
                editor = row.editors()[0]
                editor.setFocus(Qt.FocusReason.ShortcutFocusReason)
                if isinstance(editor, QLineEdit):  # it may have had the focus already, on another part
                    editor.selectAll()
                return

    def to_properties_and_back(self) -> None:
        """To the properties; from there back to where the focus was."""
        focused = QApplication.focusWidget()
        if focused is not None and self._inspector.isAncestorOf(focused):
            self.back()
        else:
            self.to_properties()

    def back(self) -> None:
        """From the properties to where the focus was before it went there."""
        came_from, self._came_from = self._came_from, None
        there = came_from is not None and isValid(came_from) and came_from.isVisible()
        (came_from if came_from is not None and there else self._views.first).setFocus(
            Qt.FocusReason.ShortcutFocusReason
        )
        self.left.emit()

    def to_messages(self) -> None:
        """Go to the messages of the panel, in the language that is shown."""
        self._show_messages(self._document.language)
        self._inspector.messages_form.focus_first()

    def _show_messages(self, language: int) -> None:
        self._views.bring_up("panel")
        self._document.choose_language(language)
        self.show_properties()

    def to_uses(self) -> None:
        """Go to the list of the places where the current signal is used."""
        row = self._inspector.signal_form.used_row
        if self._views.signals.current() < 0 or not row.texts():
            self._views.editor.say(self.tr("No signal is selected, or nothing uses it yet."))
        else:
            self.properties_wanted.emit()
            self._inspector.signal_form.focus_row(row.label)

    def open_field(self) -> None:
        """Go to the properties of the selected field."""
        self._inspector.choose_form(self._inspector.field_form)
        self.show_properties()
        self.to_properties()

    def open_screen(self, name: str) -> None:
        """Go to the face of a screen."""
        self._document.select_screen(name)
        self._views.show_view("screen")

    def next_screen(self, way: int) -> None:
        """Select the screen `way` places further on in their list, round its end."""
        names = list(self._document.project.screen_named)
        if names:
            at = names.index(self._document.selection.screen) + way
            self._document.select_screen(names[at % len(names)])

    def add_signal(self, name: str) -> None:
        """Make a signal of a register and go to its properties."""
        self._views.show_view("signals")
        self._views.signals.add("register", name)
        self.to_properties()

    def add_action_on(self, screen: str) -> None:
        """Begin what a key does on this screen and go to its words."""
        self._views.bring_up("behaviour")
        self._views.behaviour.add_action("key", screen)

    def go_to(self, place: Place) -> None:
        """Show the part at a place of the project, as a finding names it, with the focus on it."""
        project = self._document.project
        kind = place[0] if place else "project"
        index = place[1] if len(place) > 1 and isinstance(place[1], int) else None
        if kind == "screen" and index is None:
            self._screens.setFocus(Qt.FocusReason.OtherFocusReason)
        elif kind == "screen" and index is not None and index < len(project.screens):
            self._go_to_screen(project, index, place[2:])
        elif kind == "signal" and index is None:
            # A signal needs a follower to be read from: begin with what is missing first.
            self._views.show_view("signals" if project.followers else "lines")
        elif kind == "signal" and index is not None and index < len(project.signals):
            self.show_signal(project.signals[index].name)
            self._views.signals.first.setFocus(Qt.FocusReason.OtherFocusReason)
        elif kind in ("screen_change", "action"):
            (self.show_screen_change if kind == "screen_change" else self.show_action)(index or 0)
            self._views.behaviour.focus(str(kind))
        elif kind in ("line", "follower"):
            self._views.bring_up("lines")
            self._views.lines.select(str(kind), index or 0)
            self.show_properties()
            self._views.lines.focus(str(kind))
        elif kind == "panel" and place[1:2] in (("messages",), ("messages_in",)):
            self._go_to_messages(project, place[1:])
        else:
            self._views.show_view("panel")

    def _go_to_screen(self, project: Project, index: int, rest: Place) -> None:
        screen = project.screens[index]
        selection = Selection(screen=screen.name)
        if len(rest) > 1:
            if rest[0] == "field" and isinstance(rest[1], int) and rest[1] < len(screen.fields):
                selection = Selection(screen.name, screen.fields[rest[1]].at, (rest[1],))
            elif rest[0] == "text" and isinstance(rest[1], int):
                self._document.choose_language(0)
                selection = Selection(screen.name, (rest[1], 0))
            elif rest[0] == "text_in" and rest[1] in project.panel.languages:
                self._document.choose_language(project.panel.languages.index(str(rest[1])))
                row = rest[2] if len(rest) > 2 and isinstance(rest[2], int) else 0
                selection = Selection(screen.name, (row, 0))
        self._document.select(selection)
        self._views.show_view("screen")
        self._inspector.choose_form(self._inspector.field_form if selection.fields else self._inspector.screen_form)
        self.show_properties()

    def _go_to_messages(self, project: Project, place: Place) -> None:
        """Go to the messages of the first language, or of another that `place` names, or to one of them."""
        languages, message = project.panel.languages, place[1:]
        number = 0
        if place[0] == "messages_in":
            number = languages.index(str(place[1])) if place[1] in languages else 0
            message = place[2:]
        self._show_messages(number)
        form = self._inspector.messages_form
        known = next((each for each in MESSAGES if message == (each,)), None)
        if known is None:
            form.focus_first()
        else:
            form.focus_message(known)

    def go_to_draft(self, subject: Any, row: str) -> None:
        """Go to the row of the properties in which something typed is not accepted yet."""
        kind = subject[0]
        project = self._document.project
        if kind == "begun":
            self.go_to(self._begun.place(project, self._begun.all()[subject[1]]))
            self._views.behaviour.to_words()
            return
        if kind == "field":
            self._views.bring_up("screen")
            screen = project.screen_named.get(subject[1])
            if screen is not None and subject[2] < len(screen.fields):
                self._document.select(Selection(screen.name, screen.fields[subject[2]].at, (subject[2],)))
            self._inspector.choose_form(self._inspector.field_form)
        elif kind == "screen":
            self._views.bring_up("screen")
            self._document.select_screen(subject[1])
            self._inspector.choose_form(self._inspector.screen_form)
        elif kind == "panel":
            self._views.bring_up("panel")
        elif kind == "messages":
            languages = project.panel.languages
            self._show_messages(languages.index(subject[1]) if subject[1:] and subject[1] in languages else 0)
        elif kind == "signal":
            self.show_signal(subject[1])
        elif kind in ("screen_change", "action"):
            (self.show_screen_change if kind == "screen_change" else self.show_action)(subject[1])
            self._views.behaviour.focus_word(row)
            return
        else:
            names = list(project.line_named if kind == "line" else project.follower_named)
            if subject[1] in names:
                self._views.bring_up("lines")
                self._views.lines.select(kind, names.index(subject[1]))
                self.show_properties()
        self.properties_wanted.emit()
        self._inspector.form_of(kind).focus_row(row)
