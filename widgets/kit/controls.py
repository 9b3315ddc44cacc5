"""Buttons that Enter elsewhere does not press; choices, number boxes and sliders that the wheel leaves alone.

The wheel changes them only while they have the focus: Qt gives the focus to what lies under the wheel before it hands
the wheel on, so that scrolling through a form would change what happens to come under the pointer. All of the program's
are made of these.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QCompleter,
    QDoubleSpinBox,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSlider,
    QSpinBox,
    QStyledItemDelegate,
    QWidget,
)

from widgets.kit import palette
from widgets.kit.drawn.buttons import LEFT_ALIKE, RIGHT_ALIKE, SEGMENT
from widgets.kit.look import UNIT_ROOM, take_look
from widgets.kit.scaling import scaled

UNIT_COLUMN: Final = 46
"""Pixels at 100 per cent that the unit of a number has in its line."""

if TYPE_CHECKING:
    _Editor = QWidget
else:
    _Editor = object


class _Steady(_Editor):
    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to what is scrolled, unless somebody went to this one."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()


class Choice(_Steady, QComboBox):
    """One of several."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def setEditable(self, editable: bool) -> None:
        """Let the text be typed; the list keeps the rows of all lists, unlike with Qt's own delegate."""
        super().setEditable(editable)
        self.setItemDelegate(QStyledItemDelegate(self))

    def setAccessibleName(self, name: str) -> None:
        """Say what is chosen here: as description, too, since on Linux Qt reads out what is chosen for the name."""
        if self.accessibleDescription() == self.accessibleName():
            self.setAccessibleDescription(name)
        super().setAccessibleName(name)


def completions_list(completer: QCompleter) -> QAbstractItemView:
    """The list that a completer opens, with the rows of all lists, which Qt's own delegate there does not ask for."""
    popup = completer.popup()
    assert popup is not None  # there is one for choices that pop up
    popup.setItemDelegate(QStyledItemDelegate(popup))
    return popup


class WholeNumber(_Steady, QSpinBox):
    """A whole number; the keys Up and Down step, and there are no arrows."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setButtonSymbols(QSpinBox.ButtonSymbols.NoButtons)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)


class DecimalNumber(_Steady, QDoubleSpinBox):
    """A number with decimals; the keys Up and Down step, and there are no arrows."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setButtonSymbols(QDoubleSpinBox.ButtonSymbols.NoButtons)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)


class Slider(_Steady, QSlider):
    """A place on a scale."""

    def __init__(self, orientation: Qt.Orientation, parent: QWidget | None = None) -> None:
        super().__init__(orientation, parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)


def push_button(text: str, run: Callable[[], object], rank: str = "") -> QPushButton:
    """A button that calls `run`. In a dialog, Enter in another widget does not press it.

    Its rank: `primary` for the deed that one comes for, of which a window shows one at most; `quiet` for a tool beside
    a heading; `caution` for what can let a machine move; empty for all others, which have an outline.
    """
    button = QPushButton(text)
    if rank:
        button.setProperty("look", rank)
    button.setAutoDefault(False)
    button.clicked.connect(lambda _checked=False: run())
    return button


def toggle_button(text: str, run: Callable[[bool], object], *, on: bool = False) -> QPushButton:
    """A button that stays pressed, which calls `run` with whether it is. In a dialog, Enter elsewhere leaves it."""
    button = QPushButton(text)
    button.setAutoDefault(False)
    button.setCheckable(True)
    button.setChecked(on)
    button.toggled.connect(run)
    return button


class Segments(QWidget):
    """Two or three choices that exclude one another, as buttons that touch. Arrow keys go from one to the next."""

    chosen = Signal(str)
    """The key of what a person chose."""

    def __init__(self, options: Sequence[tuple[str, str]], parent: QWidget | None = None) -> None:
        """`options` are the key and the text of each; the first is chosen."""
        super().__init__(parent)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        self.buttons: dict[str, QPushButton] = {}
        for number, (key, text) in enumerate(options):
            button = QPushButton(text)
            button.setAutoDefault(False)
            button.setCheckable(True)
            button.setAutoExclusive(True)
            button.setProperty(SEGMENT, (number > 0) * LEFT_ALIKE + (number < len(options) - 1) * RIGHT_ALIKE)
            button.clicked.connect(lambda _checked=False, key=key: self.chosen.emit(key))
            row.addWidget(button)
            self.buttons[key] = button
        self.choose(options[0][0])

    @property
    def current(self) -> str:
        """The key of what is chosen."""
        return next(key for key, button in self.buttons.items() if button.isChecked())

    def choose(self, key: str) -> None:
        """Choose one, which nobody is told."""
        self.buttons[key].setChecked(True)


class UnitLine(QLineEdit):
    """A line for a number: at the right, with its unit in a column of its own behind a hairline, empty without one.

    Digits of lines that stand under one another so stand under one another too, whatever their units.
    """

    def __init__(self, unit: str = "") -> None:
        super().__init__()
        self._unit = ""
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.set_unit(unit)

    def set_unit(self, unit: str) -> None:
        """Another unit."""
        self._unit = unit
        self.setProperty(UNIT_ROOM, self._column())
        take_look(self, self.property("look") or "")
        self.setAccessibleDescription(unit)
        self.update()

    def _column(self) -> int:
        """How wide that column is: as wide as the unit, 46 pixels at 100 per cent at least, half the line at most."""
        wanted = max(scaled(UNIT_COLUMN), self.fontMetrics().horizontalAdvance(self._unit) + scaled(12))
        return min(wanted, self.maximumWidth() // 2)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._unit:
            return
        colours = palette.current()
        place = self.rect().adjusted(self.width() - min(self._column(), self.width() // 2), 1, -1, -1)
        painter = QPainter(self)
        painter.fillRect(place.left(), place.top(), 1, place.height(), colours.colour("line"))
        painter.setPen(colours.colour("faint" if self.isEnabled() else "off"))
        inner = place.adjusted(scaled(6), 0, -2, 0)
        text = self.fontMetrics().elidedText(self._unit, Qt.TextElideMode.ElideRight, inner.width())
        painter.drawText(inner, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, text)
