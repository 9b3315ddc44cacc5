"""What stands in the row of tools while a screen is edited: what its fields show, its language, the zoom, trying it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QSizePolicy, QWidget

from widgets.design.screen.actions import EditorActions
from widgets.face.sample_values import FieldContents
from widgets.kit.commands import mark_entry
from widgets.kit.controls import push_button
from widgets.kit.icons import icon
from widgets.kit.plain import plain_tip


class EditorTools(QObject):
    """Actions for a row of tools, most of which stand in a menu of the window as well, and the button to try it."""

    language_chosen = Signal(int)
    """The number of a language of the panel, 0 the first one."""
    zoom_wanted = Signal(int)
    """By so many pixels; 0: as large as fits."""
    try_wanted = Signal()

    def __init__(self, actions: EditorActions, parent: QWidget) -> None:
        super().__init__(parent)
        self._titles = {shown: action.text().replace("&", "") for shown, action in actions.shown.items()}
        self.values = QAction(self)
        self.values.setToolTip(self.tr("What the fields show while you design"))
        self._values = QMenu(parent)
        self._values.addActions(list(actions.shown.values()))
        self.values.setMenu(self._values)
        self.language = QAction(self)
        self.language.setToolTip(self.tr("Language in which texts are shown and typed (Ctrl+Shift+Space)"))
        self._languages = QMenu(parent)
        self._several = False
        self._group = QActionGroup(self)
        self.language.setMenu(self._languages)
        self.language.setVisible(False)
        self.smaller = self._zoom("zoom-out", self.tr("Smaller"), self.tr("Smaller cells (Ctrl+-)"), -2)
        self.fitting = self._zoom("fit", self.tr("Fit"), self.tr("As large as fits (Ctrl+0)"), 0)
        self.larger = self._zoom("zoom-in", self.tr("Larger"), self.tr("Larger cells (Ctrl++)"), 2)
        self._try_texts = (self.tr("Try it  F9"), self.tr("Edit again  F9"))
        self.try_button = push_button(self._try_texts[0], self.try_wanted.emit, "primary")
        self.try_button.setIcon(icon("try", "on_accent"))
        self.try_button.setToolTip(self.tr("Operate the panel here, with simulated values (F9; Space on a field)"))
        self.try_button.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    @property
    def actions(self) -> tuple[QAction, ...]:
        """The tools from left to right, without the button to try it."""
        return self.language, self.values, self.smaller, self.fitting, self.larger

    def _zoom(self, picture: str, text: str, tip: str, by: int) -> QAction:
        action = mark_entry(QAction(icon(picture), text, self))  # a command of a menu, once more
        action.setToolTip(plain_tip(tip))
        action.triggered.connect(lambda _checked=False: self.zoom_wanted.emit(by))
        return action

    def show_state(self, *, usable: bool, trying: bool, shown: FieldContents) -> None:
        """Whether there is a screen to edit, whether it is tried just now; and what its fields show."""
        for action in self.actions:
            action.setEnabled(usable)
        self.values.setText(self._titles[shown])
        self.try_button.setText(self._try_texts[trying])
        self.try_button.setEnabled(usable or trying)

    def show_languages(self, languages: Sequence[str], chosen: int) -> None:
        """The languages to choose from; with fewer than two there is no choice."""
        if [action.text() for action in self._languages.actions()] != list(languages):
            self._languages.clear()
            for number, language in enumerate(languages):
                action = mark_entry(self._languages.addAction(language))
                action.setCheckable(True)
                action.triggered.connect(lambda _on=False, number=number: self.language_chosen.emit(number))
                self._group.addAction(action)
        for number, action in enumerate(self._languages.actions()):
            action.setChecked(number == chosen)
        self.language.setText(languages[chosen] if chosen < len(languages) else "")
        self._several = len(languages) > 1
        self.language.setVisible(self._several and self.values.isVisible())

    def set_shown(self, on: bool) -> None:
        """They belong to the screen: in other views there are others, or none."""
        for action in self.actions:
            action.setVisible(on and (action is not self.language or self._several))
