"""Rows of an inspector: a label, an editor that is checked as one types, and beneath it in words what is wrong."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import Final

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, QTimer
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from widgets.document.drafts import Drafts, DraftTexts
from widgets.kit import palette
from widgets.kit.elided import ShortLabel
from widgets.kit.look import CONTROL, set_look
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.scaling import line_height, percent, scaled
from widgets.kit.section import Section

Get = Callable[[], DraftTexts | None]
"""What the document holds now, as the editors show it; None: this row does not apply."""
Put = Callable[[DraftTexts], str | None]
"""Takes what was typed into the document. Returns None, or in words why not."""
OptionsSource = Callable[[], Sequence[tuple[str, str]]]
"""The choices: what is stored, and what a person reads."""


CAPTION_WIDTH: Final = 116
"""Of a caption beside its row, in pixels at 100 per cent."""
BESIDE_UP_TO: Final = 125
"""Per cent of size up to which captions stand beside their rows; at larger sizes they stand above."""
ABOVE_TEXT: Final = 4
"""Pixels at 100 per cent above a caption, and above what is only read: their texts stand beside those of editors."""
BETWEEN: Final = " \u00b7 "
MOST_IN_SUMMARY: Final = 3
"""Rows of a closed part of a form that its heading tells of."""
_OPEN: Final[dict[tuple[str, int], bool]] = {}
"""Which parts of which forms a person opened or closed."""


class NotYet(str):
    """A reason that is none to be alarmed about while somebody is still typing: more is to come."""

    __slots__ = ()


class FormRow(QWidget):
    """One row: the editors of one value. Subclasses make the editors and say what stands in them."""

    def __init__(self, label: str, get: Get, put: Put, hint: str = "") -> None:
        super().__init__()
        self.label = label
        self.hint = hint
        self.get = get
        self.put = put
        self.caption = plain_label(label, wrap=True) if percent() > BESIDE_UP_TO else ShortLabel(label)
        self.caption.setToolTip(plain_tip("\n".join(filter(None, (label, hint)))))
        self.message = plain_label("", "fault", wrap=True)
        """Hangs over the rows below while the focus is here, so that nothing moves when something is wrong."""
        self.message.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.message.setAutoFillBackground(True)
        self.message.setMargin(scaled(6))
        self.message.hide()
        self.single = False
        """Whether it is about one part only, and goes where several are shown."""
        self.differs = False
        """Whether several parts are shown that differ in this."""
        self._layout = QHBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(4)
        self._form: Form | None = None
        self._setting = False
        self._committing = False
        self._taken: tuple[DraftTexts, DraftTexts] | None = None
        self._first: DraftTexts | None = None
        """What stood here before somebody began to type."""
        self._reason = ""
        self.company: Sequence[FormRow] = (self,)
        """The rows that make one value together: while one of them is typed in, the others may wait."""

    # For subclasses

    def editors(self) -> tuple[QWidget, ...]:
        """The widgets that are edited."""
        raise NotImplementedError

    def texts(self) -> DraftTexts:
        """What stands in the editors."""
        raise NotImplementedError

    def set_texts(self, texts: DraftTexts) -> None:
        """Show these."""
        raise NotImplementedError

    def before_refresh(self) -> None:
        """Bring choices up to date."""

    def blank(self) -> DraftTexts:
        """What the editors hold where several parts are shown that differ in this."""
        return ("",) * max(1, len(self.editors()))

    def show_differing(self, differing: bool) -> None:
        """Say in empty editors that the parts differ, or no longer."""

    def summary(self) -> str:
        """What it says in short, for the heading of a part of a form that is closed; empty: nothing."""
        return ""

    @property
    def reason(self) -> str:
        """What is wrong with what stands in the editors, in words; empty: nothing is."""
        return self._reason

    # The way of a value

    def join(self, form: Form) -> None:
        """Belong to a form."""
        self._form = form
        for number, editor in enumerate(self.editors()):
            name = self.label if len(self.editors()) == 1 else f"{self.label}, {number + 1}"
            if not editor.accessibleName():
                editor.setAccessibleName(name)
            if self.hint:
                editor.setAccessibleDescription(self.hint)
                if not editor.toolTip():
                    editor.setToolTip(self.hint)
            editor.installEventFilter(self)

    def commit(self) -> None:
        """Something was typed or chosen: take it over, or say why not."""
        if self._setting or self._form is None:
            return
        self._committing = True
        try:
            self._commit(self._form)
        finally:
            self._committing = False

    def _commit(self, form: Form) -> None:
        texts = self.texts()
        if self._first is None and not self.differs:
            self._first = self.get()
        reason = self.put(texts)
        if reason is None:
            form.drafts.drop(form.subject, self.label)
            now = self.get()
            self._taken = (texts, now) if now is not None else None
            self.show_reason("")
            return
        # On the way to "31o" stood "31": that nobody meant, so what stood here before comes back.
        if self._first is not None and self.get() != self._first:
            self.put(self._first)
        form.drafts.keep(form.subject, self.label, texts, reason)
        self.show_reason(reason)

    def refresh(self, other: bool = False) -> None:
        """Show what the document holds, or what was typed here and is not right yet. `other`: of another part."""
        form = self._form
        if form is None or self._committing:
            return  # what is being typed stays as it is typed
        if other:
            self._taken = self._first = None
        now = self.get()
        applies = now is not None
        self.setVisible(applies)
        self.caption.setVisible(applies)
        if now is None:
            self.message.hide()
            return
        self.before_refresh()
        self.show_differing(self.differs)
        draft = form.drafts.get(form.subject, self.label)
        shown = self.texts()
        if draft is not None:
            self._set(draft[0])
            self.show_reason(draft[1])
            return
        self.show_reason("")
        typing = any(editor.hasFocus() for editor in self.editors())
        if typing and self._taken == (shown, now):
            return  # "5." stands for 5: do not take the point away while somebody types on
        self._taken = None
        self._set(now)

    def _set(self, texts: DraftTexts) -> None:
        if self.texts() != texts:
            self._setting = True
            try:
                self.set_texts(texts)
            finally:
                self._setting = False

    def show_reason(self, reason: str) -> None:
        """Say what is wrong: by the outline, and while the focus is here in words; empty: nothing is."""
        self._reason = reason
        here = any(editor.hasFocus() for editor in self.editors())
        waiting = isinstance(reason, NotYet) and any(
            editor.hasFocus() for row in self.company for editor in row.editors()
        )
        set_look(self.message, "faint" if waiting else "fault")
        self.message.setText(reason)
        for editor in self.editors():
            set_look(editor, "wrong" if reason and not waiting else "")
            editor.setAccessibleDescription("; ".join(filter(None, (reason, self.hint))))
        self._hang(bool(reason) and here)

    def _hang(self, wanted: bool) -> None:
        """Show what is wrong over the rows below, or above this one where there are none, or put it away."""
        if not wanted or self._form is None or not self.isVisible():
            self.message.hide()
            return
        palette_of = self.message.palette()
        palette_of.setColor(self.message.backgroundRole(), palette.current().colour("fault_soft"))
        self.message.setPalette(palette_of)
        at = self.mapTo(self._form, QPoint(0, self.height()))
        height = self.message.heightForWidth(self.width())
        if at.y() + height > self._form.height():
            at.setY(at.y() - self.height() - height)
        self.message.setGeometry(at.x(), at.y(), self.width(), height)
        self.message.show()
        self.message.raise_()

    def _leave(self) -> None:
        """The focus is elsewhere now: what was still to come is missing."""
        for row in self.company:
            if row._reason:
                row.show_reason(row._reason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() in (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress):
            return self._key(event)
        if event.type() == QEvent.Type.FocusIn and self._reason:
            QTimer.singleShot(0, self, lambda: self.show_reason(self._reason))
        if event.type() == QEvent.Type.FocusOut and isinstance(event, QFocusEvent):
            self._first = None
            QTimer.singleShot(0, self, self._leave)
            if event.reason() != Qt.FocusReason.PopupFocusReason and self._taken is not None:
                self._taken = None
                now = self.get()
                if (
                    now is not None
                    and self._form is not None
                    and not self._form.drafts.get(self._form.subject, self.label)
                ):
                    self._set(now)
        return super().eventFilter(watched, event)

    def _key(self, event: QKeyEvent) -> bool:
        """Undo belongs to the document, not to the editor; but what is not taken over yet is dropped first."""
        undo = event.matches(QKeySequence.StandardKey.Undo)
        if not undo and not event.matches(QKeySequence.StandardKey.Redo):
            return False
        form = self._form
        draft = form is not None and form.drafts.get(form.subject, self.label) is not None
        if undo and draft and form is not None:
            if event.type() == QEvent.Type.ShortcutOverride:
                event.accept()
            else:
                form.drafts.drop(form.subject, self.label)
                self.refresh()
            return True
        event.ignore()
        return event.type() == QEvent.Type.ShortcutOverride


class Form(QWidget):
    """Rows under one another, for one subject at a time."""

    caption_width = CAPTION_WIDTH

    def __init__(self, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.drafts = drafts
        self.subject: Hashable = None
        self.rows: list[FormRow] = []
        self._sections: list[tuple[Section, int]] = []
        """Each with how many rows stand before it."""
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(scaled(12), scaled(8), scaled(12), scaled(8))
        self._column.setSpacing(scaled(8))
        self._beside = percent() <= BESIDE_UP_TO
        self._at = 0
        body = QWidget()
        self._grid = self._new_grid(body)
        self._column.addWidget(body)

    def _new_grid(self, body: QWidget) -> QGridLayout:
        grid = QGridLayout(body)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(scaled(8))
        grid.setVerticalSpacing(scaled(8 if self._beside else 2))
        grid.setColumnMinimumWidth(0, scaled(self.caption_width) if self._beside else 0)
        grid.setColumnStretch(1, 1)
        return grid

    def add(self, row: FormRow) -> FormRow:
        """Put a row beneath the others."""
        row.caption.setBuddy(row.editors()[0] if row.editors() else row)
        row.message.setParent(self)
        if self._beside:
            row.caption.setFixedSize(scaled(self.caption_width), line_height(CONTROL))
            self._grid.addWidget(row.caption, self._at, 0, Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(row, self._at, 1)
        else:
            self._grid.addWidget(row.caption, self._at, 0, 1, 2)
            self._at += 1
            self._grid.addWidget(row, self._at, 0, 1, 2)
        self._at += 1
        self.rows.append(row)
        row.join(self)
        return row

    def add_heading(self, text: str, *, closed: bool = False) -> Section:
        """A heading over the rows that follow, which opens and closes them; it goes when none of them applies.

        Whether it is open is kept for all forms of this kind while the program runs; at first it is not if `closed`.
        """
        key = (type(self).__name__, len(self._sections))
        body = QWidget()
        section = Section(text, body, is_open=_OPEN.get(key, not closed))
        section.toggled.connect(lambda is_open: _OPEN.__setitem__(key, is_open))
        self._sections.append((section, len(self.rows)))
        self._grid, self._at = self._new_grid(body), 0
        self._column.addWidget(section)
        return section

    def add_wide(self, widget: QWidget) -> None:
        """Something over the whole width."""
        self._grid.addWidget(widget, self._at, 0, 1, 2)
        self._at += 1

    def finish(self) -> None:
        """Push all rows to the top."""
        self._column.addStretch(1)

    def show_subject(self, subject: Hashable) -> None:
        """Show another subject (or the same again after a change). None: nothing to show."""
        other = subject != self.subject
        self.subject = subject
        for row in self.rows:
            row.refresh(other)
        end = len(self.rows)
        for section, start in reversed(self._sections):
            rows = [row for row in self.rows[start:end] if not row.isHidden()]
            section.setHidden(start < end and not rows)
            section.set_summary(BETWEEN.join(list(filter(None, (row.summary() for row in rows)))[:MOST_IN_SUMMARY]))
            end = start

    def focus_row(self, label: str) -> bool:
        """Give the focus to the row of that label. False if it is not there."""
        for number, row in enumerate(self.rows):
            if row.label == label and row.editors() and not row.isHidden():
                for section, start in reversed(self._sections):
                    if start <= number:
                        section.set_open(True)
                        break
                _go_to(row.editors()[0])
                return True
        return False


def _go_to(editor: QWidget) -> None:
    editor.setFocus(Qt.FocusReason.OtherFocusReason)
    # Not before a form that has just come to the front is laid out.
    QTimer.singleShot(0, editor, lambda: _bring_into_view(editor))


def _bring_into_view(editor: QWidget) -> None:
    area = editor.parentWidget()
    while area is not None and not isinstance(area, QScrollArea):
        area = area.parentWidget()
    if area is not None:
        area.ensureWidgetVisible(editor)
