"""The tool bar over the screen under edit."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QToolButton, QWidget

from widgets.icons import cross_icon, minus_icon, plus_icon, tool
from widgets.specimen import Shown


class EditorBar(QWidget):
    """Buttons to place and delete fields, what the fields show, how typing works, and the zoom."""

    place_wanted = Signal()
    delete_wanted = Signal()
    insert_turned = Signal()
    keys_toggled = Signal(bool)
    shown_chosen = Signal(object)
    """A `Shown`."""
    zoom_wanted = Signal(int)
    """By so many pixels; 0: as large as fits."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.place_button = self._button(self.tr("Place a field"), self.tr("Place a field at the cursor (Ctrl+Enter)"))
        self.place_button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.place_button.clicked.connect(self.place_wanted)
        self.delete_button = tool(
            cross_icon(), self.tr("Delete the field"), self, self.tr("Delete the selected fields (Delete)")
        )
        self.delete_button.clicked.connect(self.delete_wanted)
        self.mode = self._button(self.tr("Overwrite"), self.tr("Typing overwrites or inserts (Insert)"))
        self.mode.setCheckable(True)
        self.mode.clicked.connect(self.insert_turned)
        self.keys = self._button(
            self.tr("Keys"), self.tr("Show the keys of the panel; pressing one goes where it turns")
        )
        self.keys.setCheckable(True)
        self.keys.setChecked(True)
        self.keys.toggled.connect(self.keys_toggled)
        self.contents = QComboBox()
        self.contents.setAccessibleName(self.tr("What the fields show"))
        self.contents.setToolTip(self.tr("What the fields show while you design"))
        self.contents.addItem(self.tr("Sample values"), Shown.SAMPLE)
        self.contents.addItem(self.tr("Widest values"), Shown.WIDEST)
        self.contents.addItem(self.tr("Marks"), Shown.MARKS)
        self.contents.activated.connect(lambda _index: self.shown_chosen.emit(self.contents.currentData()))
        self.smaller = tool(minus_icon(), self.tr("Smaller"), self, self.tr("Smaller cells (Ctrl+-)"))
        self.smaller.clicked.connect(lambda: self.zoom_wanted.emit(-2))
        self.fitting = self._button(self.tr("Fit"), self.tr("As large as fits (Ctrl+0)"))
        self.fitting.clicked.connect(lambda: self.zoom_wanted.emit(0))
        self.larger = tool(plus_icon(), self.tr("Larger"), self, self.tr("Larger cells (Ctrl++)"))
        self.larger.clicked.connect(lambda: self.zoom_wanted.emit(2))
        self._redraw()
        row = QHBoxLayout(self)
        row.setContentsMargins(6, 2, 6, 2)
        row.setSpacing(4)
        row.addWidget(self.place_button)
        row.addWidget(self.delete_button)
        row.addStretch(1)
        row.addWidget(self.mode)
        row.addWidget(self.keys)
        row.addSpacing(8)
        row.addWidget(self.contents)
        row.addSpacing(8)
        for widget in (self.smaller, self.fitting, self.larger):
            row.addWidget(widget)

    def _button(self, text: str, tip: str) -> QToolButton:
        button = QToolButton(self)
        button.setText(text)
        button.setToolTip(tip)
        button.setAutoRaise(True)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return button

    def show_state(self, *, screen: bool, insert: bool, fields: bool, shown: Shown) -> None:
        """Whether there is a screen, typing inserts, fields are selected; and what they show."""
        self.setEnabled(screen)
        self.mode.setText(self.tr("Insert") if insert else self.tr("Overwrite"))
        self.mode.setChecked(insert)
        self.delete_button.setEnabled(fields)
        self.contents.setCurrentIndex(self.contents.findData(shown))

    def _redraw(self) -> None:
        self.place_button.setIcon(plus_icon())
        self.delete_button.setIcon(cross_icon())
        self.smaller.setIcon(minus_icon())
        self.larger.setIcon(plus_icon())

    def changeEvent(self, event: QEvent) -> None:
        """Draw the icons anew in another palette."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "larger"):
            self._redraw()
