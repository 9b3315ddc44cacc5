"""The screen changes from one screen and to it, as they stand in its properties beside the map."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from app import edits
from app.panel.layout import PanelLayout
from app.project.model import Project, ScreenChange
from widgets.design.forms.form import BESIDE_UP_TO, CAPTION_WIDTH
from widgets.design.forms.part_texts import cause_text, when_text
from widgets.document.document import Document
from widgets.face.key_cap import cap_legend
from widgets.kit.elided import ShortChoice
from widgets.kit.plain import plain_label
from widgets.kit.row_list import RowList
from widgets.kit.scaling import line_height, percent, scaled
from widgets.kit.tables import ROW

translate = QCoreApplication.translate
MOST_LINES: Final = 8
"""Lines of a list until it scrolls."""
NOWHERE: Final = ""


@dataclass(frozen=True, slots=True)
class WayOut:
    """One screen change that holds on a screen. `own` if it holds there alone; `to` as it is stored."""

    screen_change: int
    cause: str
    spoken: str
    to: str
    own: bool


@dataclass(frozen=True, slots=True)
class WayIn:
    """One screen change that leads to a screen: from which one (None: from every screen), in words."""

    screen_change: int
    from_: str | None
    words: str


def ways_out(project: Project, screen: str) -> list[WayOut]:
    """Where the keys of a screen lead, in the order of the keys, and where it leads without a key."""
    behaviour = PanelLayout.of(project).behaviour
    found = [behaviour.key_screen_change(screen, key) for key in project.panel.keys]
    changes = [(each[0], each[1]) for each in found if each is not None]
    idle = behaviour.idle_screen_change(screen)
    if idle is not None:
        changes.append(idle)
    return [
        WayOut(index, _cause(change), cause_text(change), change.to, change.from_ is not None)
        for index, change in changes
    ]


def ways_in(project: Project, screen: str) -> list[WayIn]:
    """What leads to a screen: from others by their keys, from every screen, and without a key."""
    behaviour = PanelLayout.of(project).behaviour
    found: dict[tuple[int, str | None], WayIn] = {}
    for name in project.screen_named:
        for key in project.panel.keys:
            led = behaviour.key_screen_change(name, key) if name != screen else None
            if led is not None and led[2] == screen:
                # One that leads here from everywhere is one line, not one for each screen.
                from_ = None if led[1].from_ is None and led[1].to == screen else name
                words = translate("PageMap", "From {screen}: {cause}").format(
                    screen=from_ or translate("PageMap", "every screen"), cause=_cause(led[1])
                )
                found[led[0], from_] = WayIn(led[0], from_, words)
    for index, change in enumerate(project.screen_changes):
        if change.to == screen and change.key is None and change.from_ != screen:
            found[index, None] = WayIn(index, change.from_, _cause(change))
    return list(found.values())


def opened_by(project: Project, screen: str) -> str:
    """What leads to a screen, in short."""
    inward = ways_in(project, screen)
    keys = sum(project.screen_changes[way.screen_change].key is not None for way in inward)
    found = [translate("PageMap", "start")] if PanelLayout.of(project).start == screen else []
    if keys:
        words = translate("PageMap", "1 key") if keys == 1 else translate("PageMap", "{n} keys")
        found.append(words.format(n=keys))
    found += [way.words for way in inward if project.screen_changes[way.screen_change].key is None]
    return ", ".join(found) or translate("PageMap", "nothing yet")


def _cause(change: ScreenChange) -> str:
    """The cause of a screen change in few words, with the picture of its key."""
    if change.key is not None:
        return translate("PageMap", "key {key}").format(key=cap_legend(change.key))
    if change.when is not None:
        return when_text(change.when)
    return translate("PageMap", "after {seconds} s without a key").format(seconds=change.idle_s)


class FromHere(QWidget):
    """For each screen change of a screen its cause and a choice of where it leads."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self._screen = ""
        self._options: list[tuple[str, str]] = []
        self.ways: list[WayOut] = []
        """What is shown."""
        self.choices: list[ShortChoice] = []
        """A choice for each of them; more may be kept for later."""
        self._captions: list[QLabel] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(scaled(8))
        self._grid.setVerticalSpacing(scaled(8))
        self._grid.setColumnStretch(1, 1)
        self._nothing = plain_label(self.tr("No key leads on from here yet."), "faint", wrap=True)
        self._grid.addWidget(self._nothing, 0, 0, 1, 2)

    def show_screen(self, project: Project, screen: str) -> None:
        """Show the screen changes of this screen."""
        self._screen, self.ways = screen, ways_out(project, screen)
        options = [(name, name) for name in project.screen_named if name != screen]
        options += [("next", self.tr("the next screen")), ("previous", self.tr("the previous screen"))]
        if options != self._options:
            self._options = options
        self._nothing.setVisible(not self.ways)
        while len(self.choices) < len(self.ways):
            self._add_row()
        for number, (caption, choice) in enumerate(zip(self._captions, self.choices, strict=True)):
            shown = number < len(self.ways)
            caption.setVisible(shown)
            choice.setVisible(shown)
            if shown:
                self._show_way(self.ways[number], caption, choice)

    def _add_row(self) -> None:
        caption, choice = plain_label("", wrap=True), ShortChoice()
        caption.setBuddy(choice)
        number = len(self.choices)
        choice.activated.connect(lambda _index: self._choose(number))
        beside = percent() <= BESIDE_UP_TO
        row = 1 + number * (1 if beside else 2)
        self._grid.addWidget(caption, row, 0, 1, 1 if beside else 2)
        if beside:
            caption.setFixedWidth(scaled(CAPTION_WIDTH))
            self._grid.addWidget(choice, row, 1)
        else:
            self._grid.addWidget(choice, row + 1, 0, 1, 2)
        self._captions.append(caption)
        self.choices.append(choice)

    def _show_way(self, way: WayOut, caption: QLabel, choice: ShortChoice) -> None:
        caption.setText(way.cause[:1].upper() + way.cause[1:])
        choice.offer(self._options if not way.own else [*self._options, (NOWHERE, self.tr("(delete it)"))])
        if (index := choice.place_of(way.to)) >= 0:
            choice.setCurrentIndex(index)
        elsewhere = "" if way.own else self.tr("It holds on every screen; a choice here is for this screen alone.")
        choice.setAccessibleName(self.tr("{cause} shows").format(cause=way.spoken))
        choice.setAccessibleDescription(elsewhere)
        choice.set_hint(elsewhere)

    def _choose(self, number: int) -> None:
        way, to, screen = self.ways[number], self.choices[number].currentData(), self._screen
        if to == way.to:
            return
        change = self._document.project.screen_changes[way.screen_change]
        step = self.tr("Redirect screen change")
        if to == NOWHERE:
            step = self.tr("Delete screen change")
            self._document.do(step, lambda project: edits.delete_screen_change(project, way.screen_change))
        elif way.own:
            self._document.do(step, lambda project: edits.edit_screen_change(project, way.screen_change, to=to))
        elif change.key is not None:
            key = change.key
            self._document.do(step, lambda project: edits.lead_key(project, screen, key, to))
        else:
            own = edits.screen_change(from_=screen, idle_s=change.idle_s, to=to)
            self._document.do(step, lambda project: edits.add_screen_change(project, own))


class ToHere(QWidget):
    """A line for all that leads to a screen; a click or Enter goes to its sentence."""

    wanted = Signal(int, object)
    """A screen change, at the screen that it leads from (None: from every screen)."""

    def __init__(self) -> None:
        super().__init__()
        self.list = RowList()
        self.list.setFrameShape(RowList.Shape.NoFrame)
        self.list.viewport().setAutoFillBackground(False)
        self.list.setAccessibleName(self.tr("To here"))
        self.list.itemClicked.connect(lambda _item, _column: self._go())
        self.list.itemActivated.connect(lambda _item, _column: self._go())
        self._nothing = plain_label(
            self.tr("Nothing leads here yet. Drag a key of another screen here."), "faint", wrap=True
        )
        self._shown: list[WayIn] = []
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self._nothing)
        column.addWidget(self.list)

    def show_screen(self, project: Project, screen: str) -> None:
        """Show what leads to this screen."""
        ways = ways_in(project, screen)
        if ways != self._shown or not self.list.topLevelItemCount():
            self._shown = ways
            self.list.clear()
            for way in ways:
                self.list.add_row(way, way.words)
        self.list.setVisible(bool(ways))
        self._nothing.setVisible(not ways)
        self.list.setFixedHeight(line_height(ROW) * max(1, min(len(ways), MOST_LINES)))

    def _go(self) -> None:
        way = self.list.current_value()
        if isinstance(way, WayIn):
            self.wanted.emit(way.screen_change, way.from_)
