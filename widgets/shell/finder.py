"""Finding a command, a screen or a part of the project by a few letters of its name, and going there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QApplication,
    QTreeWidget,
    QVBoxLayout,
    QWidget,
)
from shiboken6 import isValid

from widgets.document.settings import Settings
from widgets.kit import palette
from widgets.kit.commands import Listed, keys_of, native, why_off
from widgets.kit.elided import search_box
from widgets.kit.focus import RingDialog
from widgets.kit.fuzzy_match import Fit, fit
from widgets.kit.plain import plain_label
from widgets.kit.row_list import list_row, set_up_list
from widgets.kit.scaling import comfortable

if TYPE_CHECKING:
    from widgets.design.workspace import DesignWorkspace

MOST_SHOWN: Final = 200
"""Rows: nobody reads more, and each costs."""
PAGE: Final = 10
"""Rows that Page Up and Page Down go."""
translate = QCoreApplication.translate
_TARGET: Final = Qt.ItemDataRole.UserRole


@dataclass(frozen=True, slots=True)
class Target:
    """Something that can be found and chosen."""

    name: str
    place: str
    """The menus that lead to it, or what kind of part it is."""
    keys: str
    run: Callable[[], object]
    unusable: bool = False
    why: str = ""
    """Why it cannot be used just now; empty if nobody knows."""
    always: bool = True
    """Whether it is listed before anything is typed."""
    subject: str = ""
    """Of a part of the project its own name, which `name` stands around."""

    @property
    def token(self) -> str:
        """By which it is remembered. What undo would take back changes its name, so a key says it better."""
        return f"{self.place}\t{self.keys or self.name}"


def command_targets(commands: Iterable[Listed]) -> Iterator[Target]:
    """The commands of the menus."""
    for each in commands:
        action = each.action
        # "Light" alone says little, "Appearance: Light" enough.
        yield Target(
            ": ".join((*each.path[1:], each.name)),
            each.path[0],
            native(keys_of(action)),
            action.trigger,
            not action.isEnabled(),
            why_off(action),
        )


class CommandFinder(RingDialog):
    """Type to narrow the list, Up and Down to choose, Enter to run. `chosen` says what, after it was accepted."""

    def __init__(self, targets: Sequence[Target], recent: Sequence[str] = (), parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._targets = targets
        self._rank = {token: place for place, token in enumerate(recent)}
        self.chosen: Target | None = None
        self.setWindowTitle(self.tr("Find a command"))
        self.search = search_box(self.tr("Parts of a command, screen or signal"), self.tr("Search term"))
        self.list = QTreeWidget()
        self.list.setAccessibleName(self.tr("Commands and places"))
        set_up_list(self.list, (self.tr("Command"), self.tr("Where"), self.tr("Keys")))
        self.list.setUniformRowHeights(True)
        self.list.setAllColumnsShowFocus(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.told = plain_label("", "faint", wrap=True)
        layout = QVBoxLayout(self)
        layout.addWidget(self.search)
        layout.addWidget(self.list, 1)
        layout.addWidget(self.told)
        self.resize(comfortable(self, 780, 480))
        self.search.setFocus()
        self.search.textChanged.connect(self._narrow)
        self.search.installEventFilter(self)
        self.list.currentItemChanged.connect(lambda _now, _before: self._tell())
        self.list.itemActivated.connect(lambda _item, _column: self._accept())
        self._narrow("")

    def targets(self) -> list[Target]:
        """What is listed now, the best first."""
        return [self._target(row) for row in range(self.list.topLevelItemCount())]

    def _target(self, row: int) -> Target:
        item = self.list.topLevelItem(row)
        target = item.data(0, _TARGET) if item is not None else None
        assert isinstance(target, Target)
        return target

    def _fitting(self, typed: str) -> list[Target]:
        """Those that fit, the best first; of equal ones those used last, then those that can be used."""
        if not typed.strip():
            fitting = [(Fit.EXACT, target) for target in self._targets if target.always]
        else:
            fitting = [(found, target) for target in self._targets if (found := _fit(typed, target)) is not None]
        never = len(self._rank)
        fitting.sort(key=lambda each: (each[0], self._rank.get(each[1].token, never), each[1].unusable))
        return [target for _, target in fitting]

    def _narrow(self, typed: str) -> None:
        fitting = self._fitting(typed)
        faint = palette.current().colour("faint")
        self.list.clear()
        rows = []
        for target in fitting[:MOST_SHOWN]:
            place = self.tr("{place} (not now)").format(place=target.place) if target.unusable else target.place
            row = list_row(target.name, place, target.keys, data=target)
            for column in range(3):
                if column or target.unusable:
                    row.setForeground(column, faint)
            rows.append(row)
        self.list.addTopLevelItems(rows)
        self._left_off = len(fitting) - len(rows)
        if rows:
            self.list.setCurrentItem(rows[0])
        self._tell()

    def _tell(self) -> None:
        item = self.list.currentItem()
        target = item.data(0, _TARGET) if item is not None else None
        if not isinstance(target, Target):
            self.told.setText(self.tr("No match. Try fewer letters."))
        elif target.unusable:
            self.told.setText(
                self.tr("Not available now: {why}").format(why=target.why)
                if target.why
                else self.tr("Not available now.")
            )
        elif self._left_off:
            self.told.setText(
                self.tr("More matches: {count}. Type more letters to narrow the list.").format(count=self._left_off)
            )
        else:
            self.told.setText(self.tr("Enter runs it, Escape closes."))

    def _accept(self) -> None:
        item = self.list.currentItem()
        target = item.data(0, _TARGET) if item is not None else None
        if not isinstance(target, Target):
            return
        if target.unusable:
            QApplication.beep()
            return
        self.chosen = target
        self.accept()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The keys that choose in the list work while one types."""
        if watched is self.search and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            ways = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_PageUp: -PAGE, Qt.Key.Key_PageDown: PAGE}
            key = Qt.Key(event.key())
            if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self._accept()
                return True
            count = self.list.topLevelItemCount()
            if key in ways and count:
                row = min(max(self.list.currentIndex().row() + ways[key], 0), count - 1)
                self.list.setCurrentIndex(self.list.model().index(row, 0))
                return True
        return super().eventFilter(watched, event)


def find(commands: Iterable[Listed], design: DesignWorkspace, settings: Settings, window: QWidget) -> None:
    """Ask for a command or a place by name, and go there."""
    focus = QApplication.focusWidget()
    finder = CommandFinder([*command_targets(commands), *part_targets(design)], settings.recent_commands, window)
    finder.exec()
    chosen = finder.chosen
    finder.deleteLater()
    if chosen is not None:
        settings.remember_command(chosen.token)
        if focus is not None and isValid(focus):
            focus.setFocus(Qt.FocusReason.OtherFocusReason)  # many commands are about what has the focus
        chosen.run()


def _fit(typed: str, target: Target) -> Fit | None:
    found = [fit(typed, target.name, f"{target.place} {target.keys}"), fit(typed, target.subject or target.name)]
    return min((each for each in found if each is not None), default=None)


def part_targets(design: DesignWorkspace) -> Iterator[Target]:
    """The screens, signals, lines and followers of the project, to go to."""
    document = design.document
    project = document.project
    for index, screen in enumerate(project.screens):
        name = translate("CommandFinder", "Go to the screen {name}").format(name=screen.name)
        yield _part(design, name, screen.name, translate("CommandFinder", "Screen"), ("screen", index))
    for index, signal in enumerate(project.signals):
        name = translate("CommandFinder", "Go to the signal {name}").format(name=signal.name)
        yield _part(design, name, signal.name, translate("CommandFinder", "Signal"), ("signal", index))
    for index, line in enumerate(project.lines):
        yield _part(
            design,
            translate("CommandFinder", "Go to the line {name}").format(name=line.name),
            line.name,
            translate("CommandFinder", "Line"),
            ("line", index),
        )
    for index, follower in enumerate(project.followers):
        name = translate("CommandFinder", "Go to the device {name}").format(name=follower.name)
        kind = translate("CommandFinder", "Device")
        yield _part(design, name, follower.name, kind, ("follower", index))


def _part(design: DesignWorkspace, name: str, subject: str, kind: str, place: tuple[str, int]) -> Target:
    def go() -> None:
        design.wanted.emit()
        design.navigator.go_to(place)

    return Target(name, kind, "", go, always=False, subject=subject)
