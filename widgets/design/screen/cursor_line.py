"""One line under the face: the cell under the cursor, and what must be known of the field on it."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from app import edits
from app.project.binding import value_span
from app.project.model import Field, Project, RegisterSignal, Screen
from app.signals.repertoire import characters
from app.signals.text import spoken_digits
from widgets.design.forms.part_texts import condition_text
from widgets.design.forms.signal_picker import kinds
from widgets.design.screen.field_places import field_at
from widgets.document.document import Selection
from widgets.face.accessibility import announce
from widgets.face.sample_values import widest_text, width_needed
from widgets.kit import palette
from widgets.kit.elided import ShortLabel
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.scaling import percent, scaled

LONGEST: Final = 40
"""Characters of a widest text that are shown; the whole of it is in the tip."""
BETWEEN: Final = "   \N{MIDDLE DOT}   "


HEIGHT: Final = 28
LEAST_HEIGHT: Final = 21
"""Pixels at 100 per cent, whatever it says; the least where the panel needs the room more."""
BRIEF_ABOVE: Final = 125
"""Per cent of size above which that is so."""


class CursorLine(QWidget):
    """Always as high, so that the face does not move with the cursor; what has no room is in the tips."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Under the cursor"))
        self.setFixedHeight(scaled(HEIGHT if percent() <= BRIEF_ABOVE else LEAST_HEIGHT))
        self.where = plain_label("", "heading")
        self.what = ShortLabel()
        self.note = plain_label("", "caution")
        self.note.hide()
        self._drag = ""
        self._announced = ""
        self._faint = False
        self._texts = ("", "", "", "", False)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(scaled(12), 0, scaled(12), 0)
        layout.setSpacing(scaled(8))
        layout.addWidget(self.where)
        layout.addWidget(self.what, 1)
        layout.addWidget(self.note)

    def minimumSizeHint(self) -> QSize:
        return QSize(10, super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A ground of its own on the canvas."""
        QPainter(self).fillRect(self.rect(), palette.current().colour("pane"))

    def set_note(self, text: str) -> None:
        """Say of all of the face why it does not show what it should; empty: it does."""
        if text != self.note.text():
            self.note.setText(text)
            self.note.setVisible(bool(text))

    def text(self) -> str:
        """All that it says."""
        return self._drag or BETWEEN.join((self.where.text(), self.what.text()))

    def show_cursor(
        self, project: Project, screen: Screen, selection: Selection, character: str, reading: str = ""
    ) -> None:
        """Say what lies under the cursor: `character` is what its cell shows, `reading` what its field reads now."""
        row, column = selection.cell
        where = self.tr("Row {row}, column {column}").format(row=row + 1, column=column + 1)
        parts: list[str] = []
        index = field_at(screen, row, column)
        tip, wrong = "", False
        if index is None:
            parts.append(self._cell(project, character))
            what = self.tr("No field here. Type text, or place a field with Ctrl+Enter.")
        else:
            field = screen.fields[index]
            parts.append(
                self.tr("field {number}, cell {cell} of {width}").format(
                    number=index + 1, cell=column - field.at[1] + 1, width=field.width
                )
            )
            what, tip, wrong = self._field(project, field)
            if reading:
                parts.insert(0, reading)
        blinking = edits.blinking_at(screen, row, column)
        if blinking is not None:
            parts.append(self.tr("blinks when {condition}").format(condition=condition_text(blinking.when)))
        if selection.block is not None:
            block = selection.block
            parts.append(
                self.tr("{rows} x {columns} cells selected").format(rows=block.height(), columns=block.width())
            )
        if len(selection.fields) > 1:
            parts.append(self.tr("fields selected: {count}").format(count=len(selection.fields)))
        self._texts = (where, what, BETWEEN.join(parts), tip, wrong)
        self._faint = index is None
        self._show()

    def say_drag(self, text: str) -> None:
        """Say where what is dragged would go, or why it does not fit there; empty: the drag is over."""
        if text != self._drag:
            self._drag = text
            self._show()

    def _show(self) -> None:
        where, what, more, tip, wrong = self._texts
        self.where.setVisible(not self._drag)
        self.where.setText(where)
        # Of a field what it shows comes first, without one what stands in the cell.
        said = BETWEEN.join((more, what) if self._faint else (what, more))
        self.what.setText(self._drag or said)
        if tip and not self._drag:
            self.what.setToolTip(plain_tip(f"{said}\n{tip}"))
        set_look(
            self.what, "caution" if wrong and not self._drag else "faint" if self._faint and not self._drag else ""
        )
        if self.text() != self.accessibleDescription():
            self.setAccessibleDescription(self.text())
            # Another cell of the same field is told by its place alone: the rest was read out before.
            news = self._drag or (BETWEEN.join((where, more)) if what == self._announced else self.text())
            self._announced = what
            announce(self, news)

    def _cell(self, project: Project, character: str) -> str:
        if not character.strip():
            return self.tr("blank")
        if character not in characters(project.panel.repertoire):
            return self.tr("this panel cannot show {character}").format(character=character)
        return self.tr("text \u201c{character}\u201d").format(character=character)

    def _field(self, project: Project, field: Field) -> tuple[str, str, bool]:
        """What is said of a field, the tip, and whether its widest text does not fit."""
        signal = project.signal_named.get(field.signal)
        if signal is None:
            return self.tr("'{name}', a signal that does not exist").format(name=field.signal), "", True
        kind = next((text for value, text in kinds() if value == field.kind), field.kind)
        parts = [self.tr("{signal}: {kind}, {width} wide").format(signal=field.signal, kind=kind, width=field.width)]
        span = value_span(project, field.signal)
        if field.kind == "choice" and signal.texts:
            limits = self.tr("texts: {count}").format(count=len(signal.texts))
        elif isinstance(signal, RegisterSignal) and signal.encoding == "string":
            limits = self.tr("any text of up to {count} characters").format(count=2 * (signal.length or 1))
        elif span is None:
            limits = self.tr("any value")
        else:
            low, high = (spoken_digits(value, signal.decimals) for value in span)
            limits = self.tr("range {low} to {high} {unit}").format(low=low, high=high, unit=signal.unit).rstrip()
        widest, needed = widest_text(project, field), width_needed(project, field.signal, field.kind)
        tip, wrong = "", False
        if widest is not None:
            shown = (
                widest if len(widest) <= LONGEST else f"{widest[: LONGEST - 12]}\N{HORIZONTAL ELLIPSIS}{widest[-11:]}"
            )
            tip = "" if shown == widest else widest
            wrong = max(needed, len(widest)) > field.width
            template = (
                self.tr("widest \u201c{text}\u201d: \u26a0 needs {needed}, has {width}")
                if wrong
                else self.tr("widest \u201c{text}\u201d: fits")
            )
            parts.append(
                template.format(
                    text=shown,
                    needed=max(needed, len(widest)),
                    width=field.width,
                )
            )
        if field.entry:
            parts.append(self.tr("entry"))
        parts.append(limits)  # last, since it is cut off first
        return BETWEEN.join(parts), tip, wrong
