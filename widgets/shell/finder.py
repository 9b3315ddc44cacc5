"""Finding a command, a screen or a part of the project by a few letters of its name, and going there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication, QEvent, QEventLoop, QObject, Qt, QTimer
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent, QWindow
from PySide6.QtWidgets import (
    QApplication,
    QTableView,
    QWidget,
)
from shiboken6 import isValid

from widgets.document.settings import Settings
from widgets.kit.commands import Listed, keys_of, native, why_off
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.elided import search_box
from widgets.kit.fuzzy_match import Fit, fit
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled
from widgets.kit.tables import TableModel, set_up, set_widths

if TYPE_CHECKING:
    from widgets.design.workspace import DesignWorkspace

MOST_SHOWN: Final = 200
"""Rows: nobody reads more, and each costs."""
PAGE: Final = 10
"""Rows that Page Up and Page Down go."""
GATHER_AFTER_MS: Final = 20
"""From its being there until it goes on to gather: it is drawn first."""
translate = QCoreApplication.translate


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


class _Targets(TableModel):
    """What fits, the best first."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.titles = (self.tr("Command"), self.tr("Where"), self.tr("Keys"))
        self.shown: Sequence[Target] = ()

    def show(self, targets: Sequence[Target]) -> None:
        self.beginResetModel()
        self.shown = targets
        self.endResetModel()

    def count(self) -> int:
        return len(self.shown)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        target = self.shown[row]
        place = self.tr("{place} (not now)").format(place=target.place) if target.unusable else target.place
        return (target.name, place, target.keys)[column], "faint" if column or target.unusable else "ink"


class CommandFinder(Dialog):
    """Type to narrow the list, Up and Down to choose, Enter to run. `chosen` says what, after it was accepted.

    While nothing is typed nothing is chosen, unless by Up or Down. What is typed as it opens reaches it.
    """

    def __init__(
        self,
        targets: Sequence[Target],
        recent: Sequence[str] = (),
        parent: QWidget | None = None,
        *,
        gather: Iterator[Sequence[Target]] | None = None,
    ) -> None:
        """`gather` goes on to make what else can be found, each time all there is then; it begins once this is seen."""
        super().__init__(parent, width=780, height=480)
        self._targets = targets
        self._gather = gather
        self._catching = True
        """Whether it is not in front yet: what is typed still comes to the window below."""
        self._enter = False
        """Whether Enter waits until everything is there."""
        self._left_off = 0
        self._rank = {token: place for place, token in enumerate(recent)}
        self.chosen: Target | None = None
        self.setWindowTitle(self.tr("Find a command"))
        self.search = search_box(self.tr("Parts of a command, screen or signal"), self.tr("Search term"))
        self.model = _Targets(self)
        self.list = QTableView()
        self.list.setModel(self.model)
        self.list.setAccessibleName(self.tr("Commands and places"))
        self.list.setSelectionMode(QTableView.SelectionMode.SingleSelection)
        set_up(self.list)
        set_widths(self.list, {0: scaled(430), 1: scaled(170)})
        self.list.horizontalHeader().setStretchLastSection(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.told = plain_label("", "faint", wrap=True)
        self.body.addWidget(self.search)
        self.body.addWidget(self.list, 1)
        self.add_beside_buttons(self.told)
        self.search.setFocus()
        self.search.textChanged.connect(self._narrow)
        self.search.installEventFilter(self)
        self.list.selectionModel().currentChanged.connect(lambda _now, _before: self._tell())
        self.list.activated.connect(lambda _index: self._accept())
        self._narrow("")

    def targets(self) -> list[Target]:
        """What is listed now, the best first."""
        return list(self.model.shown)

    @property
    def current(self) -> Target | None:
        """What Enter would run."""
        row = self.list.currentIndex().row()
        return self.model.shown[row] if 0 <= row < self.model.count() else None

    @property
    def complete(self) -> bool:
        """Whether all that can be found is there."""
        return self._gather is None

    # Gathering

    def ask(self) -> Target | None:
        """Show it until something is chosen, or it is left: by Escape, or for another window. Returns what was chosen.

        Other windows are not blocked: the system would drop what is typed into them until this one is in front.
        """
        waiting = QEventLoop()
        self.finished.connect(waiting.quit)
        self.show()
        self.activateWindow()
        waiting.exec()
        return self.chosen

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        application = QApplication.instance()
        if application is not None and not event.spontaneous():
            application.installEventFilter(self)
            QTimer.singleShot(GATHER_AFTER_MS, self, self._go_on)

    def hideEvent(self, event: QHideEvent) -> None:
        self._catch_no_longer()
        super().hideEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isVisible():
            if self.isActiveWindow():
                self._catch_no_longer()
            elif not self._catching:
                self.reject()

    def _catch_no_longer(self) -> None:
        self._catching = False
        application = QApplication.instance()
        if application is not None:
            application.removeEventFilter(self)
        parent = self.parentWidget()
        if parent is not None and self.isVisible():
            parent.window().installEventFilter(self)

    def _go_on(self) -> None:
        """Make the next part of what can be found; keys that are typed meanwhile wait for their turn."""
        if self._gather is None or not self.isVisible():
            return
        targets = next(self._gather, None)
        if targets is not None:
            self._targets = targets
            self._narrow(self.search.text())
            QTimer.singleShot(0, self, self._go_on)
            return
        self._gather = None
        self._tell()
        if self._enter:
            self._accept()

    # Narrowing

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
        self._enter = self._enter and self._gather is not None
        most = MOST_SHOWN if typed.strip() else len(fitting)  # before anything is typed one may look through all
        self._left_off = max(0, len(fitting) - most)
        self.model.show(fitting[:most])
        if typed.strip() and self.model.count():
            self.list.setCurrentIndex(self.model.index(0, 0))
        self._tell()

    def _tell(self) -> None:
        target = self.current
        if not self.model.count():
            words = self.tr("No match. Try fewer letters.")
        elif target is not None and target.unusable:
            words = (
                self.tr("Not available now: {why}").format(why=target.why)
                if target.why
                else self.tr("Not available now.")
            )
        elif self._left_off:
            words = self.tr("More matches: {count}. Type more letters to narrow the list.").format(count=self._left_off)
        elif target is None:
            words = self.tr("Type a few letters, or choose with Down.")
        else:
            words = self.tr("Enter runs it, Escape closes.")
        self.told.setText(words)

    def _accept(self) -> None:
        if self._gather is not None:
            self._enter = True  # what is not there yet may fit better
            return
        self._enter = False
        target = self.current
        if target is None:
            return
        if target.unusable:
            QApplication.beep()
            return
        self.chosen = target
        self.accept()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The keys that choose in the list work while one types; what is typed before this is in front reaches it."""
        if watched is self.search:
            return isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and self._choose(event)
        if event.type() in (QEvent.Type.Close, QEvent.Type.Hide) and watched is self.parentWidget():
            self.reject()
        elif self._catching and isinstance(event, QKeyEvent) and watched is not self.windowHandle():
            return isinstance(watched, QWindow) and self._catch(event)
        return super().eventFilter(watched, event)

    def _catch(self, event: QKeyEvent) -> bool:
        """Take a key that the system still sent to the window below."""
        if event.type() == QEvent.Type.KeyPress:
            key = QKeyEvent(event.type(), event.key(), event.modifiers(), event.text(), event.isAutoRepeat())
            QApplication.sendEvent(self.search, key)
        return True

    def _choose(self, event: QKeyEvent) -> bool:
        ways = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_PageUp: -PAGE, Qt.Key.Key_PageDown: PAGE}
        key = Qt.Key(event.key())
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._accept()
            return True
        count = self.model.count()
        if key not in ways or not count:
            return False
        row = min(max(self.list.currentIndex().row() + ways[key], 0), count - 1)
        self.list.setCurrentIndex(self.model.index(row, 0))
        return True


def find(
    now: Callable[[], Iterable[Listed]],
    rest: Sequence[Callable[[], object]],
    design: Callable[[], DesignWorkspace | None],
    settings: Settings,
    window: QWidget,
) -> None:
    """Ask for a command or a place by name, and go there.

    `now` gives the commands that the menus have just then. `rest` makes, part by part, what has commands of its own and
    was not wanted yet: it would take too long to do so first.
    """
    focus = QApplication.focusWidget()

    def all_targets() -> list[Target]:
        made = design()
        return [*command_targets(now()), *(part_targets(made) if made is not None else ())]

    def gather() -> Iterator[Sequence[Target]]:
        for make in rest:
            make()
            yield all_targets()

    finder = CommandFinder(all_targets(), settings.recent_commands, window, gather=gather())
    chosen = finder.ask()
    if not isValid(finder):
        return  # the window was closed meanwhile
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
