"""Editors of single words of a sentence: chosen from a list, sought by typing, or typed."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QObject, QSize, QStringListModel, Qt, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QComboBox, QCompleter, QHBoxLayout, QLineEdit, QSizePolicy, QWidget

from widgets.design.behaviour.sentences import TYPED, Choices, Word
from widgets.kit.controls import completions_list
from widgets.kit.elided import ELIDES, ShortChoice
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.scaling import scaled

SOUGHT: Final = ("to", "signal", "target", "held", "from")
"""Words with many choices, which are found by typing."""
NARROWEST: Final = 64
WIDEST: Final = 230
ARROW: Final = 42
LIST: Final = 220
"""Pixels at 100 per cent: of an editor, of its edges and its arrow, of an open list at least."""


class WordEditor(QWidget):
    """The editor of one word. `box` has the focus."""

    changed = Signal()
    """Another choice was made. What is typed counts when the word is left."""
    entered = Signal()
    """Enter was pressed while a list was open."""

    def __init__(self, slot: str, name: str) -> None:
        super().__init__()
        self.slot = slot
        self.name = name
        self._layout = QHBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(scaled(4))
        self._wide = scaled(NARROWEST)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def _hold(self, box: QWidget) -> None:
        box.setAccessibleName(self.name)
        box.setMinimumWidth(scaled(NARROWEST))
        box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.box = box
        self._layout.addWidget(box)
        self.setFocusProxy(box)

    @property
    def text(self) -> str:
        """What is chosen or typed, as it is stored."""
        raise NotImplementedError

    def show_word(self, word: Word, choices: Choices) -> None:
        """Show this."""
        raise NotImplementedError

    def show_text(self, text: str) -> None:
        """Show what was typed and could not be taken."""

    def open(self) -> None:
        """Begin to choose or to type."""
        self.box.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def opened(self) -> bool:
        """Whether a list is open, which takes the keys."""
        return False

    def show_wrong(self, reason: str, *, empty: bool) -> None:
        """Say what is wrong; empty: nothing is."""
        set_look(self.box, "wrong" if reason else "")
        asked = self.tr("nothing is chosen yet") if empty else ""
        self.box.setAccessibleDescription(reason or asked)

    def _fit(self, text: str) -> None:
        width = self.box.fontMetrics().horizontalAdvance(text) + scaled(ARROW)
        self._wide = min(max(width, scaled(NARROWEST)), scaled(WIDEST))
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        """As wide as the word, within limits; it can be narrower."""
        return QSize(self._wide, super().sizeHint().height())


class ChosenWord(WordEditor):
    """A word of a short list."""

    def __init__(self, slot: str, name: str) -> None:
        super().__init__(slot, name)
        self._choice = ShortChoice()
        self._choice.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self._choice.setMaxVisibleItems(24)
        self._choice.activated.connect(lambda _index: self.changed.emit())
        self._hold(self._choice)

    @property
    def text(self) -> str:
        """The value of the choice, as it is stored."""
        return str(self._choice.currentData() or "")

    def show_word(self, word: Word, choices: Choices) -> None:
        """Show this; one that is no choice any more stands in the list as missing."""
        self._choice.offer(choices)
        at = self._choice.place_of(word.value)
        if at < 0 or word.empty:
            missing = word.text if word.empty else self.tr("{name} (missing)").format(name=word.text)
            self._choice.put_missing(word.value, missing)
            at = 0
        self._choice.setCurrentIndex(at)
        self._fit(self._choice.currentText())

    def open(self) -> None:
        """Go to it with its list open."""
        super().open()
        self._choice.showPopup()


class SoughtWord(WordEditor):
    """A word of a long list: typing finds it, the arrow shows all."""

    def __init__(self, slot: str, name: str) -> None:
        super().__init__(slot, name)
        self._choices: Choices = ()
        self._stored = ""
        self._shown = ""
        self._combo = _Sought()
        self._combo.activated.connect(lambda _index: self.changed.emit())
        self._hold(self._combo)
        self.line.returnPressed.connect(self.entered)

    @property
    def line(self) -> QLineEdit:
        """What is typed in."""
        line = self._combo.lineEdit()
        assert line is not None
        return line

    @property
    def text(self) -> str:
        """The value of what is typed, or of the only one that has it in its name; else as it is typed."""
        typed = self.line.text().strip()
        if typed == self._shown:
            return self._stored
        sought = typed.casefold()
        same = [value for value, words in self._choices if words == typed]
        same = same or [value for value, words in self._choices if words.casefold() == sought]
        if same or not typed:
            return same[0] if same else typed
        # A part of a name is enough where only one has it, as in the list that is open meanwhile.
        near = [value for value, words in self._choices if sought in words.casefold()]
        return near[0] if len(near) == 1 else typed

    def show_word(self, word: Word, choices: Choices) -> None:
        """Show this, and look among these choices."""
        if choices is not self._choices:
            self._choices = choices
            self._combo.offer(choices)
        self._stored = word.value
        self._shown = "" if word.empty else word.text
        self.line.setPlaceholderText(word.text if word.empty else "")
        self._combo.setCurrentText(self._shown)
        self.line.setCursorPosition(0)
        self._combo.setToolTip(plain_tip(word.text))
        self._fit(word.text)

    def show_text(self, text: str) -> None:
        """Show what was typed and is none of the choices."""
        self._combo.setCurrentText(text)
        self._fit(text)

    def open(self) -> None:
        """Go to it with all choices listed, what stands there ready to be typed over."""
        super().open()
        self.line.selectAll()
        self._combo.list_all()

    @property
    def opened(self) -> bool:
        """Whether the list that typing narrows is open."""
        popup = self._combo.found.popup()
        return popup is not None and popup.isVisible()


class _Sought(ShortChoice):
    """A box with a list that typing narrows."""

    def __init__(self) -> None:
        super().__init__()
        self.setEditable(True)
        self.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMaxVisibleItems(24)
        self.setProperty(ELIDES, True)
        self.found = completer = QCompleter(self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setMaxVisibleItems(16)
        self.setCompleter(completer)
        completions_list(completer).setMinimumWidth(scaled(LIST))
        self.view().setMinimumWidth(scaled(LIST))
        line = self.lineEdit()
        if line is not None:
            line.setTextMargins(scaled(4), 0, 0, 0)
            line.installEventFilter(self)
        completer.activated.connect(self._take)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A click opens the list, as it does in a box where nothing is typed; a dragged mouse selects text."""
        line = self.lineEdit()
        if watched is line and isinstance(event, QMouseEvent) and event.button() == Qt.MouseButton.LeftButton:
            if event.type() == QEvent.Type.MouseButtonPress and not line.hasFocus():
                self.setFocus(Qt.FocusReason.MouseFocusReason)
                line.selectAll()
                return True
            if event.type() == QEvent.Type.MouseButtonRelease and line.selectedText() in ("", line.text()):
                self.list_all()
        return super().eventFilter(watched, event)

    def offer(self, options: Choices) -> None:
        """Choose among these: a list that all boxes with the same choices share, since it may be long."""
        names = _names_of(options)
        self.setModel(names)
        self.found.setModel(names)

    def list_all(self) -> None:
        """Show the list from which typing chooses."""
        self.found.setCompletionPrefix("")
        self.found.complete()

    def _take(self, text: str) -> None:
        at = self.findText(text, Qt.MatchFlag.MatchExactly)
        self.setCurrentIndex(at)
        self.setEditText(text)
        self.activated.emit(at)

    def paintEvent(self, event: object) -> None:
        QComboBox.paintEvent(self, event)  # type: ignore[arg-type]


_shared: list[tuple[Choices, QStringListModel]] = []
_MOST_SHARED: Final = 6


def _names_of(options: Choices) -> QStringListModel:
    for known, names in _shared:
        if known is options or list(known) == list(options):
            return names
    names = QStringListModel([text for _, text in options])
    _shared.append((options, names))
    del _shared[:-_MOST_SHARED]
    return names


class TypedWord(WordEditor):
    """A number, with its unit behind it."""

    def __init__(self, slot: str, name: str) -> None:
        super().__init__(slot, name)
        self._edit = QLineEdit()
        self._hold(self._edit)
        self._unit = plain_label("", "faint")
        self._layout.addWidget(self._unit)

    @property
    def text(self) -> str:
        """What is typed."""
        return self._edit.text().strip()

    def show_word(self, word: Word, choices: Choices) -> None:  # noqa: ARG002
        """Show this number and its unit."""
        self._edit.setPlaceholderText(word.text if word.empty else "")
        self.show_text("" if word.empty else word.text)
        self._unit.setText(word.unit)
        self._unit.setVisible(bool(word.unit))
        self.updateGeometry()

    def show_text(self, text: str) -> None:
        """Show what was typed and is no number that can be taken."""
        if self._edit.text() != text:
            self._edit.setText(text)
        self._fit(text or self._edit.placeholderText())

    def sizeHint(self) -> QSize:
        unit = self._unit.sizeHint().width() + self._layout.spacing() if self._unit.text() else 0
        return super().sizeHint() + QSize(unit, 0)

    def open(self) -> None:
        """Go to it, what stands there ready to be typed over."""
        super().open()
        self._edit.selectAll()


def word_editor(slot: str, name: str) -> WordEditor:
    """The editor that a word needs."""
    if slot in TYPED:
        return TypedWord(slot, name)
    return SoughtWord(slot, name) if slot in SOUGHT else ChosenWord(slot, name)
