"""Two tables under one another; those of screen changes and actions."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from app import edits
from app.edits.several import ListedKind, delete_parts, order_parts, parts_of, shifted_order
from app.project.model import Action, Project, ScreenChange
from widgets.design.forms.part_texts import cause_text, deed_text, from_text, target_text
from widgets.design.tables.part_table import PartTable
from widgets.design.values.column import Column
from widgets.document.document import Document
from widgets.document.unfinished import RuleKind, Unfinished, no_condition, of_kind, unmade


class TwoTables(QWidget):
    """Two tables under one another; the one that was used last is the current one."""

    chosen = Signal()
    opened = Signal()
    added = Signal()
    """A part was added and is current: it wants a name and the rest."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._tables: dict[str, PartTable] = {}
        self._kind = ""

    def _add_tables(self, upper: tuple[str, PartTable], lower: tuple[str, PartTable], sizes: list[int]) -> None:
        self._tables = dict((upper, lower))
        self._kind = upper[0]
        splitter = QSplitter(Qt.Orientation.Vertical)
        for kind, table in self._tables.items():
            splitter.addWidget(table)
            table.chosen.connect(lambda index, kind=kind: self._choose(kind, index))
            table.opened.connect(lambda _index, kind=kind: self._open(kind))
            table.table.gained_focus.connect(lambda kind=kind: self._choose(kind, 0))
        splitter.setSizes(sizes)
        splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(splitter)

    @property
    def table(self) -> PartTable:
        """The table that was used last."""
        return self._tables[self._kind]

    @property
    def first(self) -> QWidget:
        """What takes the focus."""
        return self._tables[self._kind].table

    def _choose(self, kind: str, index: int) -> None:
        if index >= 0:
            self._make_current(kind)
            self.chosen.emit()

    def _make_current(self, kind: str) -> None:
        self._kind = kind
        for other, table in self._tables.items():
            if other != kind:
                table.fade()
        self._tables[kind].light_up()

    def _open(self, kind: str) -> None:
        self._make_current(kind)
        self.opened.emit()

    def _delete_several(self, kind: ListedKind, name: str, places: tuple[int, ...]) -> None:
        self._document.do(name, lambda project: delete_parts(project, kind, places))

    def _move_several(self, kind: ListedKind, name: str, places: tuple[int, ...], way: Any) -> None:
        order = shifted_order(len(parts_of(self._document.project, kind)), places, way)
        if self._document.do(name, lambda project: order_parts(project, kind, order)) is None:
            self._make_current(kind)
            self._tables[kind].select_places([order.index(place) for place in places])
            self.chosen.emit()

    def current(self) -> tuple[str, int]:
        """Kind and index of the current part; -1 for none."""
        return self._kind, self._tables[self._kind].current()

    def select(self, kind: str, index: int) -> None:
        """Make a part current."""
        self._tables[kind].select(index)
        self._make_current(kind)

    def focus(self, kind: str) -> None:
        """Give a table the focus."""
        self._tables[kind].table.setFocus(Qt.FocusReason.OtherFocusReason)


class BehaviourView(TwoTables):
    """All screen changes and all actions, in their order: of two that could count, the first does."""

    def __init__(self, document: Document, begun: Unfinished, parent: QWidget | None = None) -> None:
        super().__init__(document, parent)
        self._begun = begun
        self._added: RuleKind | None = None
        begun.completed.connect(self._stay_with)
        self.screen_changes = PartTable(
            self.tr("Screen changes"),
            [
                Column(self.tr("Cause"), lambda _project, part: cause_text(part)),
                Column(self.tr("On screen"), lambda _project, part: from_text(part), 150),
                Column(self.tr("Goes to"), lambda _project, part: target_text(part), 170),
            ],
            [("key", self.tr("By a key")), ("when", self.tr("By a condition")), ("idle", self.tr("After idle time"))],
            empty=self.tr("No screen changes yet. Insert adds one."),
        )
        self.actions_table = PartTable(
            self.tr("Actions"),
            [
                Column(self.tr("Cause"), lambda _project, part: cause_text(part)),
                Column(self.tr("On screen"), lambda _project, part: from_text(part), 150),
                Column(self.tr("Effect"), lambda _project, part: deed_text(part), 270),
            ],
            [("key", self.tr("By a key")), ("when", self.tr("By a condition"))],
            empty=self.tr("No actions yet. Insert adds one."),
        )
        self._add_tables(("screen_change", self.screen_changes), ("action", self.actions_table), [260, 220])
        self.screen_changes.add_wanted.connect(lambda cause: self.add_screen_change(cause))
        self.screen_changes.duplicate_wanted.connect(lambda places: self._duplicate_screen_change(places[-1]))
        self.screen_changes.delete_wanted.connect(
            lambda places: self._delete("screen_change", self.tr("Delete screen change"), places)
        )
        self.screen_changes.move_wanted.connect(
            lambda places, way: self._move("screen_change", self.tr("Move screen change"), places, way)
        )
        self.actions_table.add_wanted.connect(lambda cause: self.add_action(cause))
        self.actions_table.duplicate_wanted.connect(lambda places: self._duplicate_action(places[-1]))
        self.actions_table.delete_wanted.connect(
            lambda places: self._delete("action", self.tr("Delete action"), places)
        )
        self.actions_table.move_wanted.connect(
            lambda places, way: self._move("action", self.tr("Move action"), places, way)
        )

    def show_project(
        self, project: Project, wrong_screen_changes: frozenset[int], wrong_actions: frozenset[int]
    ) -> None:
        """Show the screen changes and actions of a project; the wrong ones have errors."""
        self.screen_changes.show_parts(project, self._rules(project, "screen_change"), wrong_screen_changes)
        self.actions_table.show_parts(project, self._rules(project, "action"), wrong_actions)
        kind, self._added = self._added, None
        if kind is not None and self.current() != (kind, at := len(of_kind(project, kind)) - 1):
            self.select(kind, at)
            self.chosen.emit()

    def _stay_with(self, kind: RuleKind, new: bool) -> None:
        """A new rule comes in behind the complete ones, so before those that were begun earlier: stay with it."""
        if new:
            self._added = kind

    def _rules(self, project: Project, kind: RuleKind) -> tuple[Any, ...]:
        """The rules of the project, and behind them new ones that are not complete yet."""
        rules, new = of_kind(project, kind), self._begun.new(kind)
        return (*rules, *new) if new else rules

    def _begin(self, kind: RuleKind, rule: ScreenChange | Action) -> None:
        """Begin a rule in which nothing is chosen that would make it act."""
        self._begun.begin(rule)
        self.select(kind, self._begun.place(self._document.project, rule)[1])
        self.chosen.emit()
        self.added.emit()

    def _complete(self, kind: RuleKind, places: tuple[int, ...]) -> tuple[int, ...]:
        count = len(of_kind(self._document.project, kind))
        return tuple(place for place in places if place < count)

    def _delete(self, kind: RuleKind, name: str, places: tuple[int, ...]) -> None:
        complete = self._complete(kind, places)
        if complete != places:
            new, count = self._begun.new(kind), len(of_kind(self._document.project, kind))
            self._begun.drop(*(new[place - count] for place in places if place >= count))
        if complete:
            self._delete_several(kind, name, complete)

    def _move(self, kind: RuleKind, name: str, places: tuple[int, ...], way: Any) -> None:
        if self._complete(kind, places) == places:
            self._move_several(kind, name, places, way)

    def add_screen_change(self, cause: str, screen: str | None = None) -> None:
        """Add a screen change by `key`, by a condition (`when`) or after `idle` time; with `screen` from there."""
        project = self._document.project
        if not project.screens:
            self._document.refused.emit(self.tr("A screen change needs a screen to go to; add one first."))
            return
        if cause == "when":
            if not project.signals:
                self._document.refused.emit(self.tr("A condition needs a signal; add one first."))
                return
            screen_change = unmade(ScreenChange, when=no_condition(), to="")
        elif cause == "idle":
            screen_change = unmade(ScreenChange, idle_s=120, to="")
        elif not project.panel.keys:
            self._document.refused.emit(self.tr("The panel has no keys; add some in its properties first."))
            return
        else:
            screen_change = unmade(ScreenChange, key=_free_key(project, screen), from_=screen, to="")
        self._begin("screen_change", screen_change)

    def add_action(self, cause: str, screen: str | None = None) -> None:
        """Add an action by `key` or by a condition (`when`); with `screen` on that screen only."""
        project = self._document.project
        if not project.signals:
            self._document.refused.emit(self.tr("An action needs a signal; add one first."))
            return
        if cause == "when":
            action = unmade(Action, when=no_condition(), do="")
        elif not project.panel.keys:
            self._document.refused.emit(self.tr("The panel has no keys; add some in its properties first."))
            return
        else:
            action = unmade(Action, key=_free_key(project, screen), from_=screen, do="")
        self._begin("action", action)

    def _duplicate_screen_change(self, index: int) -> None:
        if not self._complete("screen_change", (index,)):
            return
        screen_change = self._document.project.screen_changes[index]
        if (
            self._document.do(
                self.tr("Duplicate screen change"), lambda p: edits.add_screen_change(p, screen_change, index + 1)
            )
            is None
        ):
            self.select("screen_change", index + 1)
            self.chosen.emit()
            self.added.emit()

    def _duplicate_action(self, index: int) -> None:
        if not self._complete("action", (index,)):
            return
        action = self._document.project.actions[index]
        if self._document.do(self.tr("Duplicate action"), lambda p: edits.add_action(p, action, index + 1)) is None:
            self.select("action", index + 1)
            self.chosen.emit()
            self.added.emit()


def _free_key(project: Project, screen: str | None) -> str:
    """A key that has no screen change and no action there yet, or the first one."""
    taken = {screen_change.key for screen_change in project.screen_changes if screen_change.from_ in (None, screen)}
    taken |= {action.key for action in project.actions if action.from_ in (None, screen)}
    return next((key for key in project.panel.keys if key not in taken), project.panel.keys[0])
