"""Adding a screen change by keyboard: which key of a screen, and where it leads."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QWidget,
)

from app.project.model import Project
from widgets.design.page_map.keys import KeyUse, key_uses
from widgets.face.keypad import key_legend
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.elided import search_box
from widgets.kit.fuzzy_match import best_first
from widgets.kit.plain import plain_label
from widgets.kit.row_list import RowDelegate

_NAME = Qt.ItemDataRole.UserRole


class ScreenChangeDialog(Dialog):
    """Choose a key with Up and Down, type to narrow the screens, Enter to add the screen change."""

    wanted = Signal(object, str, str)
    """From a screen (None: from every screen), by a key, to a screen or to "next" or "previous"."""

    def __init__(self, project: Project, screen: str, parent: QWidget | None = None) -> None:
        super().__init__(parent, height=440)
        self._screen = screen
        self._targets = [name for name in project.screen_named if name != screen]
        self._uses = key_uses(project, screen)
        self.tell(self.tr("Add screen change from '{screen}'").format(screen=screen))
        self.keys = QListWidget()
        self.keys.setAccessibleName(self.tr("Key"))
        self.keys.setWordWrap(True)
        self.keys.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for use in self._uses:
            item = QListWidgetItem(self.tr("{key}: {uses}").format(key=key_legend(use.key), uses=use.words))
            item.setData(_NAME, use)
            self.keys.addItem(item)
        self.search = search_box(self.tr("Name of a screen"), self.tr("Filter the screens"))
        self.targets = QListWidget()
        self.targets.setAccessibleName(self.tr("Goes to"))
        for each in (self.keys, self.targets):
            each.setItemDelegate(RowDelegate(each))
        self.everywhere = QCheckBox(self.tr("On &every screen, not only on '{screen}'").format(screen=screen))
        self.told = plain_label("", "faint", wrap=True)
        key_label, to_label = QLabel(self.tr("&Key")), QLabel(self.tr("&Goes to"))
        key_label.setBuddy(self.keys)
        to_label.setBuddy(self.search)
        grid = QGridLayout()
        grid.addWidget(key_label, 0, 0)
        grid.addWidget(to_label, 0, 1)
        grid.addWidget(self.keys, 1, 0, 2, 1)
        grid.addWidget(self.search, 1, 1)
        grid.addWidget(self.targets, 2, 1)
        self.body.addLayout(grid)
        self.body.addWidget(self.everywhere)
        self.body.addWidget(self.told)
        self.add = self.add_deed(self.tr("&Add screen change"), self._accept)
        self.add_cancel()
        self._narrow("")
        # The first key that does nothing yet is most likely meant.
        free = (row for row, use in enumerate(self._uses) if use.leads_to is None and not use.deeds)
        self.keys.setCurrentRow(next(free, 0))
        self.search.textChanged.connect(self._narrow)
        self.search.installEventFilter(self)
        self.keys.currentRowChanged.connect(lambda _row: self._tell())
        self.targets.currentRowChanged.connect(lambda _row: self._tell())
        self.everywhere.toggled.connect(lambda _on: self._tell())
        self.targets.itemDoubleClicked.connect(lambda _item: self._accept())
        self._tell()
        self.keys.setFocus()

    def _narrow(self, text: str) -> None:
        """The screens whose names fit, the best first; without a text the two directions of the ring last."""
        choices = [(name, name) for name in self._targets]
        choices += [("next", self.tr("the next screen")), ("previous", self.tr("the previous screen"))]
        self.targets.clear()
        for value, words in best_first(text, choices, lambda each: each[1], lambda _each: ""):
            item = QListWidgetItem(words)
            item.setData(_NAME, value)
            self.targets.addItem(item)
        self.targets.setCurrentRow(0)
        self._tell()

    def _choice(self) -> tuple[KeyUse, str] | None:
        key, target = self.keys.currentItem(), self.targets.currentItem()
        return None if key is None or target is None else (key.data(_NAME), target.data(_NAME))

    def _tell(self) -> None:
        choice = self._choice()
        self.add.setEnabled(choice is not None)
        if choice is None:
            text = (
                self.tr("The panel has no keys yet.")
                if not self._uses
                else self.tr("There is no other screen with that name.")
            )
        elif self.everywhere.isChecked():
            text = self.tr("Screens that have their own screen change for the key {key} keep it.").format(
                key=key_legend(choice[0].key)
            )
        elif choice[0].leads_to is not None and choice[0].own:
            text = self.tr("The key {key} goes to {screen} now; this will be changed.").format(
                key=key_legend(choice[0].key), screen=choice[0].leads_to
            )
        elif choice[0].leads_to is not None:
            text = self.tr("On the other screens the key {key} stays as it is.").format(key=key_legend(choice[0].key))
        elif choice[0].deeds:
            text = self.tr("The key {key} keeps its actions: {deeds}.").format(
                key=key_legend(choice[0].key), deeds=", ".join(choice[0].deeds)
            )
        else:
            text = self.tr("The key {key} is free on this screen.").format(key=key_legend(choice[0].key))
        self.told.setText(text)
        self.told.setAccessibleName(text)

    def _accept(self) -> None:
        choice = self._choice()
        if choice is not None:
            self.wanted.emit(None if self.everywhere.isChecked() else self._screen, choice[0].key, choice[1])
            self.accept()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let Up and Down choose while one types."""
        if watched is self.search and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            by = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()))
            if by is not None and self.targets.count():
                self.targets.setCurrentRow(min(max(self.targets.currentRow() + by, 0), self.targets.count() - 1))
                return True
        return super().eventFilter(watched, event)
