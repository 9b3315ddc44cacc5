"""The view "Keys and screen changes": all of them as sentences, edited in place."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QMenu, QPushButton, QVBoxLayout, QWidget

from app.checks.by_part import FindingsByPart
from app.project.model import ScreenChange
from widgets.design.behaviour.keys_pane import KeysPane
from widgets.design.behaviour.rule_edits import RuleEdits, RulePlace, SentenceCause
from widgets.design.behaviour.sentence_editor import SentenceEditor
from widgets.design.behaviour.sentence_list import SentenceList
from widgets.design.behaviour.sentence_model import SentenceGroup, SentenceModel
from widgets.design.behaviour.sentences import word_names
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.document.unfinished import RuleKind, Unfinished, unmade
from widgets.kit.commands import mark_entry
from widgets.kit.elided import search_box
from widgets.kit.flow import FlowLayout
from widgets.kit.own_keys import TABLE
from widgets.kit.scaling import scaled


class BehaviourView(QWidget):
    """Screen changes and actions in one list, grouped by where they count."""

    chosen = Signal()
    """Another sentence is chosen."""

    def __init__(self, document: Document, drafts: Drafts, begun: Unfinished, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._found = FindingsByPart()
        self._chosen: RulePlace | None = None
        self._showing = False
        self._names = word_names()
        self.edits = RuleEdits(document, begun, self)
        self.model = SentenceModel(self.edits)
        self.editor = SentenceEditor(self.edits, drafts)
        self.table = SentenceList(self.model, self.editor)
        self.table.setAccessibleName(self.tr("Keys and screen changes"))
        self.keys = KeysPane(document, self.edits)
        self.keys.rule_wanted.connect(lambda kind, index: self.open(kind, index))
        self.keys.key_wanted.connect(self.add_for_key)
        self._lay_out()
        self.edits.wanted.connect(self._want)
        self.table.chosen.connect(self._row_chosen)
        self.table.key.connect(self._press)
        self.table.add_wanted.connect(self._add_in)
        self.table.moved.connect(lambda place, to: self.edits.move_to(place, to, self.model.counting(place)))
        self.table.customContextMenuRequested.connect(self._context_menu)
        document.selection_changed.connect(self._selection_changed)
        drafts.changed.connect(self._drafts_changed)

    def _lay_out(self) -> None:
        self.narrow = search_box(self.tr("Find a key, screen or signal"), self.tr("Filter the sentences"))
        self.narrow.setMaximumWidth(scaled(220))
        self.here = QPushButton()
        self.all = QPushButton()
        which = QButtonGroup(self)
        for button in (self.here, self.all):
            button.setCheckable(True)
            button.setAutoDefault(False)
            which.addButton(button)
        self.here.setChecked(True)
        self.narrow.textChanged.connect(lambda _text: self.refresh())
        which.buttonToggled.connect(lambda _button, on: self.refresh() if on else None)
        both = QWidget()
        touching = QHBoxLayout(both)
        touching.setContentsMargins(0, 0, 0, 0)
        touching.setSpacing(0)
        touching.addWidget(self.here)
        touching.addWidget(self.all)
        bar = FlowLayout(spacing=scaled(8))
        bar.setContentsMargins(scaled(12), scaled(8), scaled(12), scaled(8))
        bar.addWidget(self.narrow)
        bar.addWidget(both)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(bar)
        layout.addWidget(self.table, 1)

    # What is shown

    def show_project(self, found: FindingsByPart) -> None:
        """Show what the document has now, and what the checks found about it."""
        self._found = found
        self.refresh()

    def refresh(self) -> None:
        """Bring the list up to date; the chosen sentence stays chosen."""
        screen = self._document.selection.screen
        self._showing = True
        self.model.show(self._found, screen if self.here.isChecked() else None, self.narrow.text())
        self._showing = False
        self.here.setText(self.tr("Screen {name} and everywhere").format(name=screen))
        self.all.setText(self.tr("All {count}").format(count=self.model.count))
        if self._chosen is None or not self.table.choose(self._chosen):
            self._chosen = self.table.current_place()
            self.table.place_editor()
        self.table.viewport().update()
        self._show_keys()

    def _show_keys(self) -> None:
        rule = None if self._chosen is None else self.edits.rule(self._chosen)
        self.keys.show_screen(self._document.selection.screen, "" if rule is None else rule.key or "")

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh()

    def _selection_changed(self) -> None:
        if self.isVisible():
            self.refresh()

    def _drafts_changed(self) -> None:
        if self.isVisible():
            self.table.place_editor()

    def _row_chosen(self) -> None:
        if not self._showing:
            self._chosen = self.table.current_place()
            self._show_keys()
            self.chosen.emit()

    def _want(self, kind: RuleKind, index: int) -> None:
        self._chosen = (kind, index)
        if self.edits.rule(self._chosen) is not None:
            self.select(kind, index)

    # For those who lead here

    @property
    def first(self) -> QWidget:
        """What takes the focus."""
        return self.table

    def current(self) -> tuple[str, int]:
        """Kind and index of the chosen rule; -1: none is."""
        return self._chosen or ("screen_change", -1)

    def select(self, kind: str, index: int) -> None:
        """Choose a rule; if it is left out, all are shown."""
        place: RulePlace = ("action" if kind == "action" else "screen_change", index)
        self._chosen = place
        if self.edits.rule(place) is None:
            return
        ways: tuple[Callable[[], object], ...] = (self.refresh, self.narrow.clear, lambda: self.all.setChecked(True))
        for show_more in ways:
            if self.model.index_of(place).isValid():
                break
            show_more()
        self._chosen = place
        self.table.choose(place)
        self._show_keys()

    def open(self, kind: str, index: int) -> None:
        """Choose a rule and give its sentence the focus."""
        self.select(kind, index)
        self.to_words()

    def focus(self, _kind: str) -> None:
        """Give the list the focus."""
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def to_words(self) -> None:
        """Give the chosen sentence's first open word the focus."""
        self.table.place_editor()
        if self.editor.place is None:
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.editor.focus_first()

    def focus_word(self, label: str) -> None:
        """Give the word of this name of the chosen sentence the focus."""
        self.table.place_editor()
        if not self.editor.focus_word(label):
            self.to_words()

    def names_since(self, former: BehaviourView) -> dict[tuple[str, str], str]:
        """What the words of a former view, perhaps of another language, are called here; each with its kind."""
        return {
            (kind, then): self._names[slot]
            for kind in ("screen_change", "action")
            for slot, then in former._names.items()
        }

    # Whole rows

    def add(self, cause: SentenceCause, screen: str | None = None, key: str = "") -> None:
        """Begin a sentence, and go to its first word."""
        self.edits.begin(cause, screen, key)
        self.to_words()

    def add_screen_change(self, cause: str, screen: str | None = None, key: str = "") -> None:
        """Begin a screen change by `key`, by a condition (`when`) or after `idle` time; with `screen` from there."""
        if cause == "key":
            self.edits.start(unmade(ScreenChange, key=key, from_=screen, to=""))
        else:
            self.edits.begin("show" if cause == "when" else "idle", screen)
        self.to_words()

    def add_action(self, cause: str, screen: str | None = None) -> None:
        """Begin what a `key` does, or what is done by a condition (`when`); with `screen` on that screen only."""
        self.add("when" if cause == "when" else "key", screen)

    def add_for_key(self, key: str) -> None:
        """Begin what this key does on the screen that is looked at."""
        self.add("key", self._document.selection.screen, key)

    def _add_in(self, group: SentenceGroup, at: QPoint) -> None:
        if group.kind != "without":
            self.add("key", group.screen or None)
            return
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        causes: tuple[tuple[SentenceCause, str], ...] = (
            ("show", self.tr("While a condition is true: show a screen")),
            ("when", self.tr("When a condition becomes true: do something")),
            ("idle", self.tr("After time without a key: show a screen")),
        )
        for cause, words in causes:
            mark_entry(menu.addAction(words, lambda cause=cause: self.add(cause)))  # type: ignore[misc]
        menu.popup(at)

    def add_here(self) -> None:
        """Add to the group that is current."""
        self.table.add_here()

    def duplicate_rows(self) -> None:
        """A copy of the chosen sentence."""
        place = self.table.current_place()
        if place is not None:
            self.edits.duplicate(place)

    def delete_rows(self) -> None:
        """Delete the selected sentences; the one below is chosen then."""
        places = self.table.places()
        if places:
            following = self._beside(places)
            self.edits.delete(places)
            if following is not None:
                self.select(*following)
            else:
                self.refresh()

    def _beside(self, going: list[RulePlace]) -> RulePlace | None:
        """The place that the next row has, or the one before, once some are gone."""
        shown = [row.place for group in self.model.groups for row in group.rows]
        after = [place for place in shown[shown.index(going[-1]) :] if place not in going]
        before = [place for place in shown[: shown.index(going[0])] if place not in going]
        stays = after[0] if after else before[-1] if before else None
        if stays is None:
            return None
        return stays[0], stays[1] - sum(kind == stays[0] and index < stays[1] for kind, index in going)

    def move_rows(self, way: int) -> None:
        """Move the selected sentences up (-1) or down (1) among those of their kind in the group."""
        places = self.table.places()
        if places:
            self.edits.move(places, -1 if way < 0 else 1, self.model.counting(places[0]))

    def copy_rows(self) -> None:
        """The selected sentences as text."""
        rows = [self.model.row(self.model.index_of(place)) for place in self.table.places()]
        texts = [str(self.model.data(self.model.index_of(row.place))) for row in rows if row is not None]
        if texts:
            QGuiApplication.clipboard().setText("\n".join(texts))

    def to_narrow(self) -> None:
        """Give the filter the focus."""
        self.narrow.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.narrow.selectAll()

    def _deeds(self) -> dict[str, Callable[[], object]]:
        return {
            "add": self.add_here,
            "delete": self.delete_rows,
            "delete rows": self.delete_rows,
            "duplicate": self.duplicate_rows,
            "duplicate rows": self.duplicate_rows,
            "move up": lambda: self.move_rows(-1),
            "move down": lambda: self.move_rows(1),
            "copy": self.copy_rows,
            "narrow": self.to_narrow,
            "open": self.to_words,
        }

    def _press(self, event: QKeyEvent) -> None:
        run = self._deeds().get(TABLE.deed(event) or "")
        if run is not None:
            run()
            event.accept()

    def _context_menu(self, point: QPoint) -> None:
        index = self.table.indexAt(point)
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        entries = [(self.tr("Add"), "add")]
        if self.model.row(index) is not None:
            entries += [
                (self.tr("Duplicate"), "duplicate"),
                (self.tr("Copy as text"), "copy"),
                (self.tr("Move up"), "move up"),
                (self.tr("Move down"), "move down"),
                (self.tr("Delete"), "delete"),
            ]
        for words, deed in entries:
            action = menu.addAction(words, self._deeds()[deed])
            mark_entry(action)
            action.setShortcut(TABLE.first_key(deed))
            action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
            action.setShortcutVisibleInContextMenu(True)
        menu.popup(self.table.viewport().mapToGlobal(point))
