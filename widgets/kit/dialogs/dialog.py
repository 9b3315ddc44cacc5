"""The one look of dialogs: a question or a deed, one sentence of what comes of it, the contents, and the buttons."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Final

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QHideEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFormLayout,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from widgets.kit.focus import RingDialog
from widgets.kit.icons import SIDE, STATES, paint_icon
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import air, comfortable, percent, scaled

QUESTION: Final = 420
FORM: Final = 560
TABLE: Final = 900
"""Widths in pixels at 100 per cent: of a question, of something to be filled in, of a table."""
PADDING: Final = 20
_ROLE: Final = QDialogButtonBox.ButtonRole
_left: dict[tuple[str, int], QSize] = {}
"""How large somebody left a dialog of a kind, at each size of text."""


class Sign(QWidget):
    """The icon of a state, as high as a line of text or so many times that."""

    def __init__(self, state: str = "", times: float = 1.0) -> None:
        super().__init__()
        self._state = state
        side = round(scaled(SIDE) * times)
        self.setFixedSize(side, side)

    def show_state(self, state: str) -> None:
        """Another one of `icons.STATES`; none hides it."""
        self._state = state
        self.setVisible(bool(state))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._state:
            paint_icon(QPainter(self), f"state-{self._state}", STATES[self._state], self.rect())


class Dialog(RingDialog):
    """Stands in the middle of its window, never larger than that.

    Enter does the deed, except where that writes or deletes something: there the way out has the focus.
    """

    def __init__(self, parent: QWidget | None = None, *, width: int = FORM, height: int = 0) -> None:
        """`width` and `height` in pixels at 100 per cent; without a height it is as high as its contents need.

        One with a height comes back as large as somebody left it.
        """
        super().__init__(parent)
        self._wanted = width, height
        self._opened_as: QSize | None = None
        self.sign = Sign(times=1.5)
        self.headline = plain_label("", "title", wrap=True)
        self.sentence = plain_label(wrap=True)
        self.body = QVBoxLayout()
        """The contents, from the top."""
        self.body.setSpacing(air(8))
        self.buttons = QDialogButtonBox()
        self.buttons.rejected.connect(self.reject)
        words = QVBoxLayout()
        words.setSpacing(air(6))
        words.addWidget(self.headline)
        words.addWidget(self.sentence)
        self._head = QHBoxLayout()
        self._head.setSpacing(scaled(12))
        self._head.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignTop)
        self._head.addLayout(words, 1)
        self._foot = QHBoxLayout()
        self._foot.setSpacing(scaled(12))
        self._foot.addWidget(self.buttons, 1)
        self._whole = whole = QVBoxLayout(self)
        whole.setContentsMargins(*[air(PADDING)] * 4)
        whole.setSpacing(air(12))
        whole.addLayout(self._head)
        whole.addLayout(self.body, 1)
        whole.addLayout(self._foot)
        self.tell("")

    # What it says

    def tell(self, headline: str, sentence: str = "", sign: str = "") -> None:
        """Say what it is about: a question or a deed, one sentence of what comes of it, and the icon of a state."""
        for label, text in ((self.headline, headline), (self.sentence, sentence)):
            label.setText(text)
            label.setVisible(bool(text))
        self.sign.show_state(sign)
        self.setAccessibleDescription(sentence)
        if not self.windowTitle():
            self.setWindowTitle(headline)

    @cached_property
    def form(self) -> QFormLayout:
        """Rows of a label and an editor, which begin where they are first asked for."""
        form = _form()
        self.body.addLayout(form)
        return form

    def let_form_scroll(self) -> None:
        """Let the rows of the form scroll where the window is too low for all; to be called before the first."""
        rows = QWidget()
        self.form = _form()
        self.form.setContentsMargins(scaled(2), 0, scaled(8), 0)
        rows.setLayout(self.form)
        self.body.addWidget(WholeArea(rows))

    def add_row(self, label: str, editor: QWidget) -> None:
        """One more row of the form; a screen reader calls the editor what its label says."""
        if label and not editor.accessibleName():
            editor.setAccessibleName(label.replace("&", ""))
        self.form.addRow(label, editor)

    # Buttons

    def add_deed(self, text: str, run: Callable[[], object] | None = None, *, writes: bool = False) -> QPushButton:
        """The button that one comes for; without `run` it accepts the dialog. Enter presses it unless it `writes`."""
        button = self.deed = self.add_other(text, run or self.accept)
        if not writes:
            set_look(button, "primary")
            button.setDefault(True)
        return button

    def add_other(self, text: str, run: Callable[[], object]) -> QPushButton:
        """Something else that one may come for, beside the deed."""
        return self._add_button(text, _ROLE.AcceptRole, run)

    def add_button(self, button: QPushButton) -> None:
        """A button of another kind in the place of the deed."""
        self.buttons.addButton(button, _ROLE.AcceptRole)

    def add_extra(self, text: str, run: Callable[[], object]) -> QPushButton:
        """Something that leaves the dialog open, at the other end of the row."""
        return self._add_button(text, _ROLE.ResetRole, run)

    def add_way_out(self, text: str | QDialogButtonBox.StandardButton, *, safe: bool = False) -> QPushButton:
        """The button that does nothing but close; `safe`: Enter presses it, and it has the focus at first."""
        if isinstance(text, str):
            button = self.buttons.addButton(text, _ROLE.RejectRole)
        else:
            button = self.buttons.addButton(text)
        if safe:
            button.setDefault(True)
            button.setFocus(Qt.FocusReason.OtherFocusReason)
        return button

    def add_cancel(self, *, safe: bool = False) -> QPushButton:
        """The usual way out of a dialog with a deed."""
        return self.add_way_out(QDialogButtonBox.StandardButton.Cancel, safe=safe)

    def add_close(self) -> QPushButton:
        """The way out of a dialog without one."""
        return self.add_way_out(QDialogButtonBox.StandardButton.Close, safe=True)

    def add_beside_buttons(self, part: QWidget, stretch: int = 1) -> None:
        """Put something at the left of the buttons."""
        self._foot.insertWidget(self._foot.count() - 1, part, stretch)
        self._foot.setStretch(self._foot.count() - 1, 0)

    def _add_button(self, text: str, role: QDialogButtonBox.ButtonRole, run: Callable[[], object]) -> QPushButton:
        button = self.buttons.addButton(text, role)
        button.clicked.connect(lambda _checked=False: run())
        return button

    # Size

    def setVisible(self, visible: bool) -> None:
        """Take the size before anything is seen, unless somebody gave it one."""
        if visible and self._opened_as is None and not self.testAttribute(Qt.WidgetAttribute.WA_Resized):
            self._take_size()
            self._opened_as = self.size()
        super().setVisible(visible)

    def keep_within_window(self) -> None:
        """Be no larger than the window that it belongs to."""
        self.resize(self.size().boundedTo(comfortable(self, 1 << 14, 1 << 14)))

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        if self._wanted[1] and self._opened_as is not None and self._opened_as != self.size():
            _left[type(self).__name__, percent()] = self.size()

    def _take_size(self) -> None:
        width, height = self._wanted
        room = comfortable(self, 1 << 14, 1 << 14)
        left = _left.get((type(self).__name__, percent()))
        if left is not None:
            self.resize(left.boundedTo(room))
            return
        layout = self._whole
        wide = min(max(scaled(width), layout.totalMinimumSize().width()), room.width())
        self.resize(wide, self.height())
        layout.activate()  # rows that wrap ask for another height at another width
        needed = layout.totalHeightForWidth(wide) if layout.hasHeightForWidth() else layout.totalSizeHint().height()
        self.resize(wide, min(scaled(height) if height else needed, room.height()))


def _form() -> QFormLayout:
    form = QFormLayout()
    form.setHorizontalSpacing(scaled(12))
    form.setVerticalSpacing(air(8))
    form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
    return form


class WholeArea(QScrollArea):
    """Asks for the room of all that it holds, and gets along with less."""

    def __init__(self, rows: QWidget) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(rows)
        self._rows = rows

    def sizeHint(self) -> QSize:
        hint = self._rows.sizeHint()
        if self._rows.hasHeightForWidth():
            hint.setHeight(self._rows.heightForWidth(self.viewport().width()))
        return self._whole(hint)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()

    def minimumSizeHint(self) -> QSize:
        least = self._whole(self._rows.minimumSizeHint())
        return QSize(least.width(), min(self.sizeHint().height(), scaled(110)))

    def _whole(self, inner: QSize) -> QSize:
        return inner + QSize(self.verticalScrollBar().sizeHint().width(), 2)
