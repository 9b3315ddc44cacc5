"""Texts that are shortened where there is no room for them; the whole text is the tool tip.

Only for names and sentences of any length that stand in one line. All other texts get the room they need.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QRect, QSize, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QPaintEvent, QPalette, QTextLayout, QTextOption, QWheelEvent
from PySide6.QtWidgets import (
    QLabel,
    QLineEdit,
    QSizePolicy,
    QStyle,
    QStyleOptionComboBox,
    QStylePainter,
    QTabBar,
    QWidget,
)

from widgets.kit import palette
from widgets.kit.controls import Choice
from widgets.kit.icons import SIDE, state_icon
from widgets.kit.look import set_look
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled

ELIDES: Final = "elides"
"""Dynamic property of all that is shortened."""
MANY: Final = 250
PAUSE_MS: Final = 20
"""So many entries of a choice are made at once, which takes about a millisecond; after which pause the next ones."""
Options = Sequence[tuple[str, str]]
"""The choices: what is stored, and what a person reads."""


class ShortLabel(QLabel):
    """A plain text in one line, as wide as there is room."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty(ELIDES, True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.setText(text)

    def setText(self, text: str) -> None:
        """Show this, and the whole of it as the tool tip."""
        # Qt would lay out everything around it anew, up to the window, though it needs the same room as before. What
        # is hidden asks for no room.
        quiet = not self.isHidden() and self._as_high(text)
        if quiet:
            self.setAttribute(Qt.WidgetAttribute.WA_WState_Hidden)
        super().setText(text)
        if quiet:
            self.setAttribute(Qt.WidgetAttribute.WA_WState_Hidden, on=False)
        self.setToolTip(plain_tip(text))

    def _as_high(self, text: str) -> bool:
        """Whether this text is as high as the present one."""
        return bool(text) == bool(self.text()) and text.count("\n") == self.text().count("\n")

    def clear(self) -> None:
        self.setText("")

    def minimumSizeHint(self) -> QSize:
        return QSize(0, super().minimumSizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        painter = QStylePainter(self)
        room = self.contentsRect().adjusted(self.margin(), self.margin(), -self.margin(), -self.margin())
        lines = [
            self.fontMetrics().elidedText(line, Qt.TextElideMode.ElideRight, room.width())
            for line in self.text().splitlines()
        ]
        self.style().drawItemText(
            painter,
            room,
            self.alignment(),
            self.palette(),
            self.isEnabled(),
            "\n".join(lines),
            self.foregroundRole(),
        )


class StateLabel(ShortLabel):
    """Words about a state with its icon before them, one of `icons.STATES`."""

    LOOKS: Final = {"good": "good", "caution": "caution", "alarm": "fault"}

    def __init__(self, parent: QWidget | None = None) -> None:
        self.state = ""
        super().__init__("", parent)

    def show_state(self, state: str, words: str) -> None:
        """Say these words of this state."""
        if state != self.state:
            self.state = state
            set_look(self, self.LOOKS.get(state, "faint"))
            self.update()
        if words != self.text():
            self.setText(words)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        painter = QStylePainter(self)
        side, gap = (scaled(SIDE), scaled(6)) if self.state else (0, 0)
        room = self.contentsRect()
        text = self.fontMetrics().elidedText(
            self.text(), Qt.TextElideMode.ElideRight, max(0, room.width() - side - gap)
        )
        wide = side + gap + self.fontMetrics().horizontalAdvance(text)
        to_the_right = self.alignment() & Qt.AlignmentFlag.AlignRight
        left = room.right() + 1 - wide if to_the_right else room.left()
        if self.state:
            state_icon(self.state).paint(painter, QRect(left, room.center().y() - side // 2, side, side))
        place = QRect(left + side + gap, room.top(), wide - side - gap + 2, room.height())
        self.style().drawItemText(
            painter,
            place,
            Qt.AlignmentFlag.AlignVCenter,
            self.palette(),
            self.isEnabled(),
            text,
            self.foregroundRole(),
        )

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        return QSize(hint.width() + scaled(SIDE) + scaled(6), max(hint.height(), scaled(SIDE)))


class ShortLines(ShortLabel):
    """A plain text over a number of lines that never changes: what says more keeps no more room than what says less.

    Where all of it has no room, the last line ends in dots, and the whole of it is the tool tip.
    """

    def __init__(self, lines: int, text: str = "", parent: QWidget | None = None) -> None:
        self._lines = lines
        super().__init__(text, parent)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)

    def sizeHint(self) -> QSize:
        """As high as all lines, whatever it says."""
        margins = self.contentsMargins()
        height = self._lines * self.fontMetrics().lineSpacing() + margins.top() + margins.bottom()
        return QSize(0, height)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def _as_high(self, text: str) -> bool:  # noqa: ARG002
        return True

    @property
    def whole(self) -> bool:
        """Whether nothing of it is cut off at its present width."""
        return self._broken()[1]

    def text_height(self) -> int:
        """Pixels from the top of the label to the end of its last line, where the text stands at the top."""
        return self.contentsMargins().top() + len(self._broken()[0]) * self.fontMetrics().lineSpacing()

    def _broken(self) -> tuple[list[str], bool]:
        """The lines as they are drawn, and whether they say all."""
        width = self.contentsRect().width()
        lines: list[str] = []
        paragraphs = self.text().splitlines()
        for number, paragraph in enumerate(paragraphs):
            layout = QTextLayout(paragraph, self.font())
            option = QTextOption()
            option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
            layout.setTextOption(option)
            layout.beginLayout()
            while (line := layout.createLine()).isValid():
                line.setLineWidth(width)
                start, length = line.textStart(), line.textLength()
                if len(lines) == self._lines - 1 and (start + length < len(paragraph) or number + 1 < len(paragraphs)):
                    rest = " ".join([paragraph[start:], *paragraphs[number + 1 :]])
                    metrics = self.fontMetrics()
                    lines.append(metrics.elidedText(rest, Qt.TextElideMode.ElideRight, width))
                    return lines, lines[-1] == rest
                lines.append(paragraph[start : start + length].rstrip())
            layout.endLayout()
        return lines, True

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        painter = QStylePainter(self)
        self.style().drawItemText(
            painter,
            self.contentsRect(),
            self.alignment(),
            self.palette(),
            self.isEnabled(),
            "\n".join(self._broken()[0]),
            self.foregroundRole(),
        )


class ShortChoice(Choice):
    """A choice whose text may be longer than the box."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._hint = ""
        self._wanted: Options = ()
        self._filled: list[tuple[str, str]] = []
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(lambda: self._fill(MANY))
        self.setProperty(ELIDES, True)
        self.currentTextChanged.connect(lambda _text: self._tip())

    def offer(self, options: Options) -> None:
        """Let one choose among these. What was chosen stays so, if it can. For a box that gets its entries only so.

        Only what is another is made anew; where that is much, the box is filled in the pauses or when it is wanted.
        """
        if options is not self._wanted:
            self._wanted = options
            self._fill(MANY)

    def place_of(self, value: str) -> int:
        """Where a value stands; -1 if it is not offered."""
        at = self.findData(value)
        if at < 0 and self._later.isActive():
            self._fill()
            at = self.findData(value)
        return at

    def put_missing(self, value: str, text: str) -> None:
        """Put a value that is not offered before the others, until the next `offer`."""
        self.insertItem(0, text, value)
        self._filled.insert(0, (value, text))
        self._wanted = ()
        self._later.stop()

    def _fill(self, most: int | None = None) -> None:
        wanted, filled = self._wanted, self._filled
        shorter = min(len(wanted), len(filled))
        same = next((at for at in range(shorter) if wanted[at] != filled[at]), shorter)
        ends = range(1, shorter - same + 1)
        tail = next((back - 1 for back in ends if wanted[-back] != filled[-back]), shorter - same)
        chosen = self.currentData()
        if gone := len(filled) - same - tail:
            self.model().removeRows(same, gone)
            del filled[same : same + gone]
        come = wanted[same : len(wanted) - tail]
        now = come[:most]
        for at, (value, text) in enumerate(now, start=same):
            self.insertItem(at, text, value)
        filled[same:same] = now
        if gone or now:
            self.setCurrentIndex(self.findData(chosen))
        if len(now) < len(come):
            self._later.start(PAUSE_MS)
        else:
            self._later.stop()

    def showPopup(self) -> None:
        self._fill_now()
        super().showPopup()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        self._fill_now()
        super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        self._fill_now()
        super().wheelEvent(event)

    def _fill_now(self) -> None:
        if self._later.isActive():
            self._fill()

    def set_hint(self, hint: str) -> None:
        """What the choice is about, below its whole text in the tool tip."""
        self._hint = hint
        self._tip()

    def _tip(self) -> None:
        self.setToolTip(plain_tip("\n".join(text for text in (self.currentText(), self._hint) if text)))

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        painter = QStylePainter(self)
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        field = self.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox, option, QStyle.SubControl.SC_ComboBoxEditField, self
        )
        text = self.currentText() or self.placeholderText()
        if not self.currentText():
            option.palette.setColor(QPalette.ColorRole.ButtonText, palette.current().colour("faint"))
        option.currentText = self.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, field.width() - 2)
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)


def shorten_placeholder(edit: QLineEdit, text: str) -> None:
    """Show a hint in an empty field, which Qt cuts with dots."""
    edit.setPlaceholderText(text)
    edit.setToolTip(plain_tip(text))
    edit.setProperty(ELIDES, True)


def search_box(placeholder: str, name: str) -> QLineEdit:
    """A line to search or filter by; a screen reader calls it `name`."""
    box = QLineEdit()
    shorten_placeholder(box, placeholder)
    box.setAccessibleName(name)
    box.setClearButtonEnabled(True)
    return box


def shorten_tabs(bar: QTabBar) -> None:
    """Cut the titles of tabs with dots instead of pushing tabs out of sight. Their tool tips name them in full."""
    bar.setElideMode(Qt.TextElideMode.ElideRight)
    bar.setUsesScrollButtons(False)
