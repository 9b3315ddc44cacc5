"""The kinds of rows of a form: short texts in a line, a choice, yes or no, notes, and what is only read."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QCompleter,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QSizePolicy,
    QWidget,
)

from widgets.design.forms.form import ABOVE_TEXT, BESIDE_UP_TO, FormRow, Get, OptionsSource, Put
from widgets.document.drafts import DraftTexts
from widgets.kit.controls import UnitLine, completions_list
from widgets.kit.elided import ShortChoice
from widgets.kit.fonts import for_cells
from widgets.kit.look import CONTROL
from widgets.kit.plain import plain_label
from widgets.kit.scaling import line_height, percent, scaled

RANGE: Final = " \u2026 "
BOTH: Final = "\0"
"""Stands for a box of several parts, of which some are checked and others are not."""
NOTHING_CHOSEN: Final = "\0"
"""Stands for a box in which nothing is chosen; the empty text may be a choice."""


class LineRow(FormRow):
    """One or more short texts in a line, with words between them."""

    def __init__(
        self,
        label: str,
        get: Get,
        put: Put,
        hint: str = "",
        *,
        between: Sequence[str] = (),
        names: Sequence[str] = (),
        placeholder: str = "",
        suffix: str | Callable[[], str] = "",
        numeric: bool = False,
        completions: Callable[[], Iterable[str]] | None = None,
    ) -> None:
        super().__init__(label, get, put, hint)
        self._edits: list[QLineEdit] = []
        self._completions = completions
        count = len(between) + 1
        for number in range(count):
            if number:
                word = plain_label(between[number - 1], "faint")
                self._layout.addWidget(word)
            edit = UnitLine() if numeric and number == count - 1 else QLineEdit()
            if numeric:
                edit.setAlignment(Qt.AlignmentFlag.AlignRight)
            edit.setPlaceholderText(placeholder)
            edit.setMinimumWidth(36)
            if number < len(names):
                edit.setAccessibleName(names[number])
            edit.textEdited.connect(lambda _text: self.commit())
            self._edits.append(edit)
            self._layout.addWidget(edit, 1)
        self._placeholder = placeholder
        self._says_different = False
        self._suffix = suffix

    def before_refresh(self) -> None:
        """Show the unit as it is now."""
        edit = self._edits[-1]
        if isinstance(edit, UnitLine):
            edit.set_unit(self._suffix if isinstance(self._suffix, str) else self._suffix())

    def show_differing(self, differing: bool) -> None:
        """Say so in the empty lines."""
        if differing != self._says_different:
            self._says_different = differing
            for edit in self._edits:
                edit.setPlaceholderText(self.tr("different") if differing else self._placeholder)

    def summary(self) -> str:
        """What stands in it, with its unit."""
        texts = [text for text in self.texts() if text]
        unit = self._suffix if isinstance(self._suffix, str) else self._suffix()
        return " ".join([RANGE.join(texts), unit]).strip() if texts else ""

    def editors(self) -> tuple[QWidget, ...]:
        """The line edits."""
        return tuple(self._edits)

    def texts(self) -> DraftTexts:
        """What stands in them."""
        return tuple(edit.text() for edit in self._edits)

    def set_texts(self, texts: DraftTexts) -> None:
        """Show these."""
        for edit, text in zip(self._edits, texts, strict=True):
            if edit.text() != text:
                edit.setText(text)
                if not edit.hasFocus():
                    edit.setCursorPosition(0)  # of a long text the beginning says more

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Bring the completions up to date when somebody comes to type."""
        if event.type() == QEvent.Type.FocusIn and self._completions is not None and watched is self._edits[0]:
            completer = QCompleter(list(dict.fromkeys(self._completions())), self._edits[0])
            completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
            completer.activated.connect(self._take_completion)
            completions_list(completer)
            # Its popup takes the focus for a moment, which must not be taken for coming here again.
            former = self._edits[0].completer()
            popup = None if former is None else former.popup()
            if popup is None or not popup.isVisible():
                self._edits[0].setCompleter(completer)
        return super().eventFilter(watched, event)

    def _take_completion(self, text: str) -> None:
        """Commit what was chosen: Qt tells of what is typed only."""
        self._edits[0].setText(text)
        self.commit()


class ChoiceRow(FormRow):
    """One of several choices. A stored value that is no choice any more is shown as it is, with the word "missing"."""

    def __init__(self, label: str, get: Get, put: Put, options: OptionsSource, hint: str = "") -> None:
        super().__init__(label, get, put, hint)
        self._options = options
        self._offered: Sequence[tuple[str, str]] = ()
        self._combo = ShortChoice()
        self._combo.set_hint(hint)
        self._combo.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self._combo.setMinimumContentsLength(8)
        self._combo.setMaxVisibleItems(24)
        self._combo.activated.connect(lambda _index: self.commit())
        self._layout.addWidget(self._combo, 1)

    def editors(self) -> tuple[QWidget, ...]:
        """The box."""
        return (self._combo,)

    def texts(self) -> DraftTexts:
        """The stored form of the choice."""
        if self._combo.currentIndex() < 0:
            return (NOTHING_CHOSEN,)
        return (str(self._combo.currentData()),)

    def blank(self) -> DraftTexts:
        """Nothing is chosen."""
        return (NOTHING_CHOSEN,)

    def show_differing(self, differing: bool) -> None:
        """Say so where nothing is chosen."""
        self._combo.setPlaceholderText(self.tr("different") if differing else "")

    def summary(self) -> str:
        """What is chosen."""
        return self._combo.currentText()

    def set_texts(self, texts: DraftTexts) -> None:
        """Choose this; if it is no choice, add it marked as missing."""
        index = self._combo.place_of(texts[0])
        if texts[0] == NOTHING_CHOSEN:
            self._combo.setCurrentIndex(-1)
            return
        if index < 0:
            text = self.tr("{name} (missing)").format(name=texts[0]) if texts[0] else self.tr("(choose)")
            self._combo.put_missing(texts[0], text)
            self._offered = ()  # the list is made anew at the next refresh, without what is missing
            index = 0
        self._combo.setCurrentIndex(index)

    def before_refresh(self) -> None:
        """Bring the choices up to date."""
        options = self._options()
        if options is not self._offered and list(options) != list(self._offered):
            self._setting = True
            self._combo.offer(options)
            self._setting = False
        self._offered = options


class CheckRow(FormRow):
    """Yes or no."""

    def __init__(self, label: str, get: Get, put: Put, text: str, hint: str = "") -> None:
        super().__init__(label, get, put, hint)
        self._box = QCheckBox()
        self._box.setAccessibleName(text)
        self._box.clicked.connect(lambda _on: self.commit())
        self._text = text
        words = _Words(text, self._box)
        words.setToolTip(hint)
        self._layout.addWidget(self._box, 0, Qt.AlignmentFlag.AlignTop)
        self._layout.addWidget(words, 1)

    def editors(self) -> tuple[QWidget, ...]:
        """The box."""
        return (self._box,)

    def texts(self) -> DraftTexts:
        """`1` or empty."""
        return ("1" if self._box.isChecked() else "",)

    def blank(self) -> DraftTexts:
        """Neither checked nor unchecked."""
        return (BOTH,)

    def set_texts(self, texts: DraftTexts) -> None:
        """Check or uncheck it; half if the parts differ. A click on that checks it."""
        if texts[0] == BOTH:
            self._box.setCheckState(Qt.CheckState.PartiallyChecked)
        else:
            self._box.setTristate(False)
            self._box.setChecked(bool(texts[0]))

    def summary(self) -> str:
        """What it says, where it is checked."""
        return self._text if self._box.isChecked() else ""


class _Words(QLabel):
    """What a box says, in as many lines as it needs (Qt's own box has one). A click counts for the box."""

    def __init__(self, text: str, box: QCheckBox) -> None:
        super().__init__(text)
        self._box = box
        self.setWordWrap(True)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go over the words: as if the box was clicked."""
        if event.button() == Qt.MouseButton.LeftButton and self.rect().contains(event.position().toPoint()):
            self._box.setFocus(Qt.FocusReason.MouseFocusReason)
            self._box.click()


class NotesRow(FormRow):
    """A longer text of several lines."""

    def __init__(
        self, label: str, get: Get, put: Put, hint: str = "", *, lines: int = 3, fixed: bool = False, example: str = ""
    ) -> None:
        super().__init__(label, get, put, hint)
        self._edit = QPlainTextEdit()
        self._example = example
        self._says_different = False
        self._edit.setPlaceholderText(example)
        self._edit.setTabChangesFocus(True)
        self._edit.setFixedHeight(self._edit.fontMetrics().lineSpacing() * lines + 14)
        if fixed:
            self._edit.setFont(for_cells(self._edit.font()))
        self._edit.textChanged.connect(self.commit)
        self._layout.addWidget(self._edit, 1)

    def editors(self) -> tuple[QWidget, ...]:
        """The edit."""
        return (self._edit,)

    def texts(self) -> DraftTexts:
        """The text."""
        return (self._edit.toPlainText(),)

    def show_differing(self, differing: bool) -> None:
        """Say so in the empty editor."""
        if differing != self._says_different:
            self._says_different = differing
            self._edit.setPlaceholderText(self.tr("different") if differing else self._example)

    def summary(self) -> str:
        """Its first line."""
        return self._edit.toPlainText().partition("\n")[0]

    def set_texts(self, texts: DraftTexts) -> None:
        """Show this text."""
        self._edit.setPlainText(texts[0])


class InfoRow(FormRow):
    """Something to read only."""

    def __init__(self, label: str, get: Get, hint: str = "") -> None:
        super().__init__(label, get, lambda _texts: None, hint)
        self._text = plain_label(wrap=True)
        self._text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._text.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._text.setContentsMargins(0, scaled(ABOVE_TEXT) if percent() <= BESIDE_UP_TO else 0, 0, 0)
        self._text.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.setMinimumHeight(line_height(CONTROL))
        self._layout.addWidget(self._text, 1)

    def editors(self) -> tuple[QWidget, ...]:
        """None."""
        return ()

    def texts(self) -> DraftTexts:
        """What is shown."""
        return (self._text.text(),)

    def blank(self) -> DraftTexts:
        """That they differ."""
        return (self.tr("different"),)

    def set_texts(self, texts: DraftTexts) -> None:
        """Show this."""
        self._text.setText(texts[0])
