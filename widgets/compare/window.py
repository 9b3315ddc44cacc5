"""The window that compares two projects: what differs as a list, screens side by side, keys before and after."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QSplitter,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.comparison.comparison import Change, Comparison, Difference, ScreenDifference, compare
from app.comparison.words import order_text, summary, title
from app.project.model import Field, Project
from widgets.compare.faces import ScreenPair
from widgets.design.forms.part_texts import cause_text, deed_text, from_text, target_text
from widgets.kit.commands import command
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.row_list import group_row, list_row, set_up_list
from widgets.kit.scaling import scaled

SIGNS: Final = {"added": "+", "removed": "\u2212", "renamed": "\u2192", "changed": "\u2260", "same": "="}
"""In front of each part, beside the word."""
_ROLE: Final = Qt.ItemDataRole.UserRole


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two projects, and what it is called."""

    name: str
    project: Callable[[], Project]


@dataclass(frozen=True, slots=True)
class _Shown:
    """What is shown when an entry of the list is chosen."""

    difference: Difference | None = None
    changes: tuple[Change, ...] = ()
    screen: str = ""
    """A screen that is the same on both sides."""


class ComparisonWindow(Dialog):
    """Compares `before` with `after`, anew whenever it comes to the front and one of them has changed.

    `deeds` are offered as buttons: what they say, and what they do; each closes the window first.
    """

    screen_wanted = Signal(str)
    """A screen of the project on the right should be edited."""

    def __init__(
        self,
        before: Side,
        after: Side,
        deeds: Sequence[tuple[str, Callable[[], object]]] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent, width=1200, height=680)
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self.setWindowTitle(self.tr("Compare: {before} \u2013 {after}").format(before=before.name, after=after.name))
        self._sides = (before, after)
        self._projects = (before.project(), after.project())
        self.comparison = Comparison()
        self.list = QTreeWidget()
        self.pair = ScreenPair()
        self.table = QTreeWidget()
        self.nothing = plain_label()
        self.same = QCheckBox(self.tr("Also &show identical screens"))
        self._lay_out(deeds)
        self._make_commands()
        self.list.currentItemChanged.connect(lambda item, _former: self._show(item))
        self.list.itemActivated.connect(self._activate)
        self.same.toggled.connect(lambda _on: self._fill())
        self._compare()
        self.list.setFocus()

    def _lay_out(self, deeds: Sequence[tuple[str, Callable[[], object]]]) -> None:
        set_up_list(self.list, (self.tr("Difference"), self.tr("Change")))
        self.list.setAccessibleName(self.tr("Difference"))
        self.list.setUniformRowHeights(True)
        set_up_list(self.table, (self.tr("Property"), self._sides[0].name, self._sides[1].name), stretch=(1, 2))
        self.table.setAccessibleName(self.tr("Changes"))
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.nothing.setWordWrap(True)
        self._legend = plain_label(
            self.tr("Wavy line: other text. Box: modified field. Dashed box: field on this side only."),
            "faint",
            wrap=True,
        )
        above = QWidget()
        faces = QVBoxLayout(above)
        faces.setContentsMargins(0, 0, 0, 0)
        faces.addWidget(self.pair, 1)
        faces.addWidget(self._legend)
        self._above = above
        right = QSplitter(Qt.Orientation.Vertical)
        right.addWidget(above)
        right.addWidget(self.table)
        right.addWidget(self.nothing)
        right.setStretchFactor(0, 3)
        right.setStretchFactor(1, 2)
        right.setChildrenCollapsible(False)
        left = QWidget()
        listed = QVBoxLayout(left)
        listed.setContentsMargins(0, 0, 0, 0)
        listed.addWidget(self.list, 1)
        listed.addWidget(self.same)
        across = QSplitter(Qt.Orientation.Horizontal)
        across.addWidget(left)
        across.addWidget(right)
        across.setStretchFactor(1, 1)
        across.setSizes([scaled(380), scaled(820)])
        across.setChildrenCollapsible(False)
        self._steps = (
            self.add_extra(self.tr("&Previous difference"), lambda: self._step(-1)),
            self.add_extra(self.tr("&Next difference"), lambda: self._step(1)),
        )
        for words, deed in deeds:
            self.add_other(words, partial(self._leave_for, deed))
        self.add_close()
        self.body.addWidget(across, 1)

    def _make_commands(self) -> None:
        previous = command(self, self.tr("Previous difference"), lambda: self._step(-1), "Shift+F7")
        following = command(self, self.tr("Next difference"), lambda: self._step(1), "F7")
        for button, action in zip(self._steps, (previous, following), strict=True):
            button.setToolTip(action.shortcut().toString())

    # What is listed

    def _compare(self) -> None:
        before, after = self._projects
        self.comparison = compare(before, after)
        text = summary(self.comparison)
        self.tell(text[:1].upper() + text[1:])
        self._fill()

    def _fill(self) -> None:
        kept = self.list.currentItem()
        former = kept.text(0) if kept is not None else ""
        self.list.clear()
        found = self.comparison
        whole = [
            _entry(name, "changed", self.tr("modified"), _Shown(changes=changes))
            for name, changes in ((self.tr("Project"), found.project), (self.tr("Panel"), found.panel))
            if changes
        ]
        whole += [_entry(_capital(order_text(sort)), "changed", self.tr("order"), _Shown()) for sort in found.reordered]
        self._group(self.tr("Project and panel"), whole)
        self._group(self.tr("Screens"), self._screens())
        for head, parts in (
            (self.tr("Signals"), found.signals),
            (self.tr("Lines and devices"), (*found.lines, *found.followers)),
            (self.tr("Keys and screen changes"), (*found.screen_changes, *found.actions)),
        ):
            self._group(head, [self._part(part) for part in parts])
        self.list.expandAll()
        items = self._items()
        for button in self._steps:
            button.setEnabled(len(self._steps_of(items)) > 1)
        current = next((item for item in items if item.text(0) == former), items[0] if items else None)
        if current is not None:
            self.list.setCurrentItem(current)
        self._show(current)

    def _screens(self) -> list[QTreeWidgetItem]:
        entries = [self._part(part) for part in self.comparison.screens]
        if self.same.isChecked():
            differing = {part.after for part in self.comparison.screens}
            entries += [
                _entry(screen.name, "same", self.tr("identical"), _Shown(screen=screen.name))
                for screen in self._projects[1].screens
                if screen.name not in differing
            ]
        return entries

    def _part(self, part: Difference) -> QTreeWidgetItem:
        words = {
            "added": self.tr("added"),
            "removed": self.tr("removed"),
            "renamed": self.tr("renamed"),
            "changed": self.tr("modified"),
        }
        name = part.after or part.before
        if part.kind == "renamed":
            name = self.tr("{before} \u2192 {after}").format(before=part.before, after=part.after)
        elif part.sort in ("screen_change", "action"):
            name = self._nameless(part)
        return _entry(name, part.kind, words[part.kind], _Shown(part, part.changes))

    def _nameless(self, part: Difference) -> str:
        """What stands for the name of a screen change or an action: its cause, its screen and what comes of it."""
        side = 1 if part.indexes[1] is not None else 0
        project, index = self._projects[side], part.indexes[side]
        if index is None:
            return _capital(title(part))
        if part.sort == "screen_change":
            screen_change = project.screen_changes[index]
            return self.tr("{cause} \u2192 {target} ({screen})").format(
                cause=cause_text(screen_change), target=target_text(screen_change), screen=from_text(screen_change)
            )
        action = project.actions[index]
        return self.tr("{cause}: {deed} ({screen})").format(
            cause=cause_text(action), deed=deed_text(action), screen=from_text(action)
        )

    def _group(self, head: str, entries: Iterable[QTreeWidgetItem]) -> None:
        rows = list(entries)
        if rows:
            group_row(self.list, head, rows).setFlags(Qt.ItemFlag.ItemIsEnabled)

    def _items(self) -> list[QTreeWidgetItem]:
        """The entries of the list, in order, without the heads of the groups."""
        tops = [self.list.topLevelItem(number) for number in range(self.list.topLevelItemCount())]
        entries = [top.child(number) for top in tops if top is not None for number in range(top.childCount())]
        return [entry for entry in entries if entry is not None]

    def _steps_of(self, items: Sequence[QTreeWidgetItem]) -> list[QTreeWidgetItem]:
        return [item for item in items if not item.data(0, _ROLE).screen]

    def _step(self, way: int) -> None:
        items = self._steps_of(self._items())
        if not items:
            return
        current = self.list.currentItem()
        at = items.index(current) + way if current in items else 0
        self.list.setCurrentItem(items[at % len(items)])

    # What is shown of one

    def _show(self, item: QTreeWidgetItem | None) -> None:
        shown: _Shown | None = None if item is None else item.data(0, _ROLE)
        difference = None if shown is None else shown.difference
        screens = shown is not None and (bool(shown.screen) or isinstance(difference, ScreenDifference))
        self._above.setVisible(screens)
        self.table.clear()
        if shown is None:
            self._say(self.tr("Both projects are identical, down to the last cell.") if item is None else "")
            return
        if screens:
            self._show_screens(shown)
        self._fill_table(shown)
        if self.table.topLevelItemCount() or screens:
            self._say("")
        else:
            self._say(item.text(0) if item is not None else "")

    def _show_screens(self, shown: _Shown) -> None:
        before, after = self._projects
        difference = shown.difference if isinstance(shown.difference, ScreenDifference) else None
        if difference is None:
            names = (shown.screen, shown.screen)
            pair = (before.screen_named.get(shown.screen), after.screen_named.get(shown.screen))
            if pair[0] is None:  # it is only called otherwise there; never so for one that is the same
                return
        else:
            names = (difference.before, difference.after)
            at, at_now = difference.indexes
            pair = (
                None if at is None else before.screens[at],
                None if at_now is None else after.screens[at_now],
            )
        captions = tuple(
            f"{side.name}:  {name}" if name else side.name for side, name in zip(self._sides, names, strict=True)
        )
        self._legend.setVisible(difference is not None and None not in pair)
        self.pair.show_screens(((before, pair[0]), (after, pair[1])), difference, (captions[0], captions[1]))

    def _fill_table(self, shown: _Shown) -> None:
        difference = shown.difference
        rows = [_row(change) for change in shown.changes]
        if isinstance(difference, ScreenDifference):
            for field in difference.fields:
                rows.append(self._field_row(field, difference))
                rows += [_row(change, indent=True) for change in field.changes]
        elif difference is not None and not shown.changes and difference.kind in ("added", "removed"):
            words = self.tr("added") if difference.kind == "added" else self.tr("removed")
            rows.append(list_row(words, difference.before, difference.after))
        self.table.addTopLevelItems(rows)
        self.table.setVisible(bool(rows))

    def _field_row(self, field: Difference, screen: ScreenDifference) -> QTreeWidgetItem:
        words = {
            "added": self.tr("+ field added"),
            "removed": self.tr("\u2212 field removed"),
            "changed": self.tr("\u2260 field modified"),
        }
        sides = [
            "" if index is None or at is None else self._field_name(project.screens[at].fields[index])
            for project, at, index in zip(self._projects, screen.indexes, field.indexes, strict=True)
        ]
        row = QTreeWidgetItem([words[field.kind], *sides])
        for column in range(3):
            row.setToolTip(column, plain_tip(row.text(column)))
        return row

    def _field_name(self, field: Field) -> str:
        words = self.tr("{signal} at row {row}, column {column}")
        return words.format(signal=field.signal, row=field.at[0] + 1, column=field.at[1] + 1)

    def _say(self, words: str) -> None:
        self.nothing.setText(words)
        self.nothing.setVisible(bool(words))
        if words:
            self.table.hide()

    def _activate(self, item: QTreeWidgetItem) -> None:
        shown: _Shown | None = item.data(0, _ROLE)
        if shown is None:
            return
        screen = shown.screen or (shown.difference.after if isinstance(shown.difference, ScreenDifference) else "")
        if screen:
            self.screen_wanted.emit(screen)

    def _leave_for(self, deed: Callable[[], object]) -> None:
        self.accept()
        deed()

    def changeEvent(self, event: QEvent) -> None:
        """Compare anew if a project was edited while another window was in front."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            projects = (self._sides[0].project(), self._sides[1].project())
            if any(now is not then for now, then in zip(projects, self._projects, strict=True)):
                self._projects = projects
                self._compare()


def _entry(name: str, kind: str, words: str, shown: _Shown) -> QTreeWidgetItem:
    row = list_row(f"{SIGNS[kind]}  {name}", words, data=shown)
    row.setToolTip(0, plain_tip(name))
    return row


def _row(change: Change, *, indent: bool = False) -> QTreeWidgetItem:
    return list_row(("      " if indent else "") + change.key, change.before, change.after)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
