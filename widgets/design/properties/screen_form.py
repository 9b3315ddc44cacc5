"""The properties of a screen: its name, what opens it, what its keys do; beside the map where it leads."""

from __future__ import annotations

from typing import Any, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app import edits
from app.project.model import Screen
from widgets.design.behaviour.key_lines import key_lines
from widgets.design.behaviour.key_list import LINE, KeyList
from widgets.design.behaviour.rule_edits import RuleEdits
from widgets.design.forms.part_form import PartForm
from widgets.design.forms.rows import InfoRow
from widgets.design.properties.ways import FromHere, ToHere, opened_by
from widgets.document.document import Document, Edit
from widgets.document.drafts import Drafts
from widgets.document.unfinished import Unfinished
from widgets.kit.controls import push_button
from widgets.kit.icons import icon
from widgets.kit.scaling import scaled

MOST_LINES: Final = 12
"""Keys in sight until their list scrolls."""


class ScreenForm(PartForm):
    """Shows and edits the screen, and says what its keys do, or beside the map what leads where."""

    rule_wanted = Signal(str, int)
    """The sentence of a rule, by its kind and index."""
    way_wanted = Signal(int, object)
    """A screen change on the map, at the screen it leads from (None: every screen)."""
    add_rule_wanted = Signal(str)
    """What a key does on this screen is to be added."""
    blink_wanted = Signal()
    """It is to be said when the selected cells blink."""
    add_way_wanted = Signal()
    """A screen change from the screen that is chosen on the map is to be added."""

    def __init__(self, document: Document, drafts: Drafts, begun: Unfinished, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, parent)
        self.step_name = self.tr("Change screen")
        self._edits = RuleEdits(document, begun, self)
        self._on_map = False
        self.name_row(self.tr("Name"), edits.rename_screen, self.tr("Renaming updates every use"))
        self.add(InfoRow(self.tr("Opened by"), self._opened_by))
        self.start_button = push_button(self.tr("Make it the start screen"), self._make_start)
        self.add_wide(self.start_button)
        self.blink = push_button(self.tr("Text here blinks when\u2026"), self.blink_wanted.emit)
        self.blink.setToolTip(self.tr("The selected cells, or the whole screen (Ctrl+Alt+K)"))
        self.add_wide(self.blink)
        self._keys = self.add_heading(self.tr("Keys on this screen"))
        self.keys = KeyList()
        self.keys.setAccessibleName(self.tr("Keys on this screen"))
        self.keys.setToolTip(self.tr("Enter or a click shows it in the Keys and screen changes view"))
        self.keys.rule_wanted.connect(self.rule_wanted)
        self.keys.told.connect(document.refused)
        self.add_wide(self.keys)
        self.add_rule = push_button(self.tr("Add what a key does"), self._add_rule)
        self.add_rule.setIcon(icon("plus"))
        self.add_wide(self.add_rule)
        self._from = self.add_heading(self.tr("From here"))
        self.from_here = FromHere(document)
        self.add_wide(self.from_here)
        self.add_way = push_button(self.tr("Add a screen change"), self.add_way_wanted.emit)
        self.add_way.setIcon(icon("plus"))
        self.add_wide(self.add_way)
        self._to = self.add_heading(self.tr("To here"))
        self.to_here = ToHere()
        self.to_here.wanted.connect(self.way_wanted)
        self.add_wide(self.to_here)
        self.add_heading(self.tr("Documentation"), closed=True)
        self.notes(self.tr("Notes"))
        self.finish()

    @property
    def part(self) -> Screen | None:
        """The screen that is shown."""
        name = self.subject[1] if isinstance(self.subject, tuple) else ""
        return self.project.screen_named.get(name)

    def show_screen(self, name: str, *, on_map: bool) -> None:
        """Show this screen."""
        self.show_subject(("screen", name) if name in self.project.screen_named else None)
        part = self.part
        self.setEnabled(part is not None)
        self.start_button.setVisible(part is not None and self.project.panel.start != part.name)
        self._keys.setHidden(on_map)
        self.blink.setHidden(on_map)
        self._from.setHidden(not on_map)
        self._to.setHidden(not on_map)
        if part is None:
            return
        if on_map:
            self.from_here.show_screen(self.project, name)
            self.to_here.show_screen(self.project, name)
            return
        lines = key_lines(self._edits, name)
        used = [line for line in lines if line.words]
        if used != self.keys.lines:
            self.keys.show_uses(used)
        self.keys.setVisible(bool(used))
        self.keys.setFixedHeight(scaled(LINE) * max(1, min(len(used), MOST_LINES)))
        count = len({line.key for line in used})
        self._keys.set_note(self.tr("{n} of {count} used").format(n=count, count=len(self.project.panel.keys)))

    def _opened_by(self) -> tuple[str, ...] | None:
        return None if self.part is None else (opened_by(self.project, self.part.name),)

    def change(self, **changes: Any) -> Edit:
        """The edit that changes the notes of the screen."""
        name = self.subject[1] if isinstance(self.subject, tuple) else ""
        return lambda project: edits.set_screen_notes(project, name, **changes)

    def _make_start(self) -> None:
        part = self.part
        if part is not None:
            self.document.do(self.tr("Change the start screen"), lambda project: edits.set_start(project, part.name))

    def _add_rule(self) -> None:
        if self.part is not None:
            self.add_rule_wanted.emit(self.part.name)
