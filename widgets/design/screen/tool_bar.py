"""The tool bar over the screen under edit."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QToolButton, QWidget

from widgets.face.sample_values import FieldContents
from widgets.kit.controls import Choice
from widgets.kit.flow import FlowLayout
from widgets.kit.icons import tool
from widgets.kit.plain import plain_tip


class EditorBar(QWidget):
    """Buttons to place and delete fields, what the fields show, how typing works, and the zoom."""

    place_wanted = Signal()
    delete_wanted = Signal()
    insert_turned = Signal()
    keys_toggled = Signal(bool)
    shown_chosen = Signal(object)
    """A `FieldContents`."""
    language_chosen = Signal(int)
    """The number of a language of the panel, 0 the first one."""
    try_wanted = Signal()
    zoom_wanted = Signal(int)
    """By so many pixels; 0: as large as fits."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.place_button = self._button(self.tr("Place a field"), self.tr("Place a field at the cursor (Ctrl+Enter)"))
        self.place_button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.place_button.clicked.connect(self.place_wanted)
        self.delete_button = tool(
            "delete", self.tr("Delete the field"), self, self.tr("Delete the selected fields (Delete)")
        )
        self.delete_button.clicked.connect(self.delete_wanted)
        self.mode = self._button(self.tr("Overwrite"), self.tr("Typing overwrites or inserts (Insert)"))
        self.mode.setCheckable(True)
        self.mode.clicked.connect(self.insert_turned)
        self.keys = self._button(
            self.tr("Keys"), self.tr("Show the keys of the panel; pressing one goes to its target screen")
        )
        self.keys.setCheckable(True)
        self.keys.setChecked(True)
        self.keys.toggled.connect(self.keys_toggled)
        self.contents = Choice()
        self.contents.setAccessibleName(self.tr("What the fields show"))
        self.contents.setToolTip(self.tr("What the fields show while you design"))
        self.contents.addItem(self.tr("Sample values"), FieldContents.SAMPLE)
        self.contents.addItem(self.tr("Widest values"), FieldContents.WIDEST)
        self.contents.addItem(self.tr("Marks"), FieldContents.MARKS)
        self.contents.addItem(self.tr("Live values"), FieldContents.LIVE)
        self.contents.activated.connect(lambda _index: self.shown_chosen.emit(self.contents.currentData()))
        self.language = Choice()
        self.language.setAccessibleName(self.tr("Language of the texts"))
        self.language.setToolTip(self.tr("Language in which texts are shown and typed (Ctrl+Shift+Space)"))
        self.language.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.language.activated.connect(self.language_chosen)
        self.language.hide()
        self.try_button = self._button(
            self.tr("Try it"), self.tr("Operate the panel here, with simulated values (F9; Space on a field)")
        )
        self.try_button.clicked.connect(self.try_wanted)
        self.smaller = tool("minus", self.tr("Smaller"), self, self.tr("Smaller cells (Ctrl+-)"))
        self.smaller.clicked.connect(lambda: self.zoom_wanted.emit(-2))
        self.fitting = self._button(self.tr("Fit"), self.tr("As large as fits (Ctrl+0)"))
        self.fitting.clicked.connect(lambda: self.zoom_wanted.emit(0))
        self.larger = tool("plus", self.tr("Larger"), self, self.tr("Larger cells (Ctrl++)"))
        self.larger.clicked.connect(lambda: self.zoom_wanted.emit(2))
        row = FlowLayout(self, spacing=4)
        row.setContentsMargins(6, 2, 6, 2)
        row.addWidget(self.place_button)
        row.addWidget(self.delete_button)
        row.addWidget(self.try_button)
        row.add_stretch()
        row.addWidget(self.language)
        row.addWidget(self.mode)
        row.addWidget(self.keys)
        row.addWidget(self.contents)
        for widget in (self.smaller, self.fitting, self.larger):
            row.addWidget(widget)

    def _button(self, text: str, tip: str) -> QToolButton:
        button = QToolButton(self)
        button.setText(text)
        button.setToolTip(plain_tip(tip))
        button.setAutoRaise(True)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return button

    def show_state(self, *, screen: bool, insert: bool, fields: bool, shown: FieldContents) -> None:
        """Whether there is a screen, typing inserts, fields are selected; and what they show."""
        self.setEnabled(screen)
        self.mode.setChecked(not insert)
        self.delete_button.setEnabled(fields)
        self.contents.setCurrentIndex(self.contents.findData(shown))

    def show_languages(self, languages: Sequence[str], chosen: int) -> None:
        """The languages to choose from; with fewer than two there is no choice."""
        if [self.language.itemText(index) for index in range(self.language.count())] != list(languages):
            self.language.clear()
            self.language.addItems(list(languages))
        self.language.setCurrentIndex(chosen)
        self.language.setVisible(len(languages) > 1)
