"""One sentence under edit: an editor for each word that can be changed, and beside it what is not right yet."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QToolButton, QWidget

from widgets.design.behaviour.rule_edits import RuleEdits, RulePlace
from widgets.design.behaviour.sentence_painting import CAUSES, MARGIN, ROW
from widgets.design.behaviour.sentences import (
    TYPED,
    Word,
    cause_of,
    choices,
    sentence,
    sentence_text,
    word_names,
    word_value,
)
from widgets.design.behaviour.word_editors import SOUGHT, WordEditor, word_editor
from widgets.document.drafts import Drafts
from widgets.document.unfinished import lacking
from widgets.kit.commands import mark_entry
from widgets.kit.elided import ShortLabel
from widgets.kit.flow import FlowLayout
from widgets.kit.icons import icon, tool
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.scaling import scaled

translate = QCoreApplication.translate
NOTE_WIDTH: Final = 150
BUTTON: Final = 28
ABOVE: Final = (ROW - BUTTON) // 2
"""Pixels at 100 per cent: the least of a note, a button, the room above and below."""
TEXT_LEFT: Final = BUTTON + 2
"""Pixels from the left edge to the first word."""


class SentenceEditor(QWidget):
    """Edits the words of one rule in place. Choices count at once, what is typed when its word is left.

    Tab goes from the cause to the words, from word to word; Enter ends, Escape gives back what stood there.
    """

    ended = Signal()
    """Enter or Escape: the focus may go back."""
    row_wanted = Signal(int, str)
    """Another row is wanted, so many further down, with this word."""
    left = Signal(bool)
    """Tab went beyond the last word (True), or back from the first."""
    resized = Signal()
    """It needs another height, perhaps."""

    def __init__(self, edits: RuleEdits, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edits = edits
        self.drafts = drafts
        self.place: RulePlace | None = None
        self.words: dict[str, WordEditor] = {}
        self._names = word_names()
        self._shape: list[str] = []
        self._before: dict[str, str] = {}
        """What stood in a word when it got the focus."""
        self._drop = False
        self.cause = tool("keyboard", "", self)
        self.cause.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.cause.setMenu(QMenu(self.cause))
        self._line = QWidget()
        self.note = ShortLabel(parent=self._line)
        self.note.setMinimumWidth(scaled(NOTE_WIDTH))
        self.note.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.note.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.copy = tool("copy", self.tr("Duplicate"), self, self.tr("Duplicate (Ctrl+D)"))
        self.delete = tool("cross", self.tr("Delete"), self, self.tr("Delete (Del)"))
        self.copy.clicked.connect(lambda: self.place is not None and self.edits.duplicate(self.place))
        self.delete.clicked.connect(lambda: self.place is not None and self.edits.delete([self.place]))
        for button in (self.cause, self.copy, self.delete):
            button.installEventFilter(self)
        self._flow = FlowLayout(self._line, spacing=scaled(6))
        self.cause.setFixedWidth(scaled(BUTTON))
        top = Qt.AlignmentFlag.AlignTop
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, scaled(ABOVE), scaled(MARGIN), scaled(ABOVE))
        layout.setSpacing(scaled(2))
        layout.addWidget(self.cause, 0, top)
        layout.addWidget(self._line, 1, top)
        layout.addSpacing(scaled(4))
        layout.addWidget(self.copy, 0, top)
        layout.addWidget(self.delete, 0, top)

    # What is shown

    def show_place(self, place: RulePlace | None, note: tuple[str, str] = ("", "")) -> None:
        """Show the rule at a place as it is now, and what is to be said of it."""
        rule = None if place is None else self.edits.rule(place)
        focused = self.focused_slot()
        if place is None or rule is None:
            self.place = None
            self._clear()
            return
        if place != self.place:
            self._before.clear()
        pieces = sentence(self.edits.project, rule, whole=True)
        shape = [piece if isinstance(piece, str) else f"{{{piece.slot}}}" for piece in pieces]
        other = shape != self._shape
        if other:
            self._build(shape)
        self.place = place
        for piece in pieces:
            if isinstance(piece, Word):
                self._show_word(piece)
        self._show_cause(cause_of(rule))
        self.setAccessibleName(sentence_text(self.edits.project, rule))
        self._show_note(note)
        if other and focused in self.words:
            self.words[focused].box.setFocus(Qt.FocusReason.OtherFocusReason)
        self.resized.emit()

    def _show_word(self, word: Word) -> None:
        rule = None if self.place is None else self.edits.rule(self.place)
        if rule is None or self.place is None:
            return
        editor = self.words[word.slot]
        options = choices(self.edits.project, rule, word.slot) or ()
        draft = self.drafts.get(self.place, self._names[word.slot])
        editor.show_word(word, options)
        if draft is not None:
            editor.show_text(draft[0][0])
        editor.show_wrong("" if draft is None else draft[1], empty=word.empty)

    def _show_note(self, note: tuple[str, str]) -> None:
        words, state = note
        for slot in self.words:
            draft = None if self.place is None else self.drafts.get(self.place, self._names[slot])
            if draft is not None:
                words, state = draft[1], "fault"
                break
        set_look(self.note, "faint" if state in ("note", "") else state)
        self.note.setText(words)
        self.note.setVisible(bool(words))
        rule = None if self.place is None else self.edits.rule(self.place)
        missing = ", ".join(lacking(rule)) if rule is not None and self.edits.begun.keeps(rule) else ""
        if missing:
            words = self.tr("{note}. Missing: {what}").format(note=words, what=missing)
            self.note.setToolTip(plain_tip(words))
        self.setAccessibleDescription(words)

    def _show_cause(self, cause: str) -> None:
        rule = None if self.place is None else self.edits.rule(self.place)
        if rule is None:
            return
        self.cause.setIcon(icon(CAUSES[cause]))
        menu = self.cause.menu()
        options = choices(self.edits.project, rule, "cause") or ()
        if [action.data() for action in menu.actions()] != [value for value, _ in options]:
            menu.clear()
            for value, text in options:
                action = menu.addAction(text)
                mark_entry(action)
                action.setData(value)
                action.setCheckable(True)
                action.triggered.connect(lambda _on=False, value=value: self._take("cause", value))
        for action in menu.actions():
            action.setChecked(action.data() == cause)
        words = self.tr("{name}: {value}").format(name=self._names["cause"], value=dict(options).get(cause, ""))
        self.cause.setAccessibleName(words)
        self.cause.setToolTip(plain_tip(words))

    def _clear(self) -> None:
        self._shape = []
        self.words = {}
        while (item := self._flow.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None and widget is not self.note:
                widget.hide()
                widget.deleteLater()

    def _build(self, shape: list[str]) -> None:
        self._clear()
        self._shape = shape
        for each in shape:
            if not each.startswith("{"):
                if each != ",":  # the editors stand apart as it is
                    self._put(plain_label(each.removeprefix(", ")))
                continue
            editor = word_editor(each[1:-1], self._names[each[1:-1]])
            editor.changed.connect(lambda editor=editor: self._commit(editor))
            editor.entered.connect(lambda editor=editor: self._end(editor))
            editor.box.installEventFilter(self)
            self.words[editor.slot] = editor
            self._put(editor)
        self._flow.addWidget(self.note)

    def _put(self, widget: QWidget) -> None:
        self._flow.addWidget(widget)
        widget.show()

    def height_at(self, width: int) -> int:
        """Pixels that it needs at a width, with the hairline below it."""
        sides = scaled(TEXT_LEFT) + self.copy.sizeHint().width() + self.delete.sizeHint().width()
        sides += scaled(4 + MARGIN) + 3 * scaled(2)
        return max(scaled(ROW), self._flow.heightForWidth(max(width - sides, 40)) + 2 * scaled(ABOVE) + 1)

    # The way of a word

    def _editor_of(self, watched: QObject) -> WordEditor | None:
        return next((each for each in self.words.values() if watched is each.box), None)

    def focused_slot(self) -> str:
        """The word that has the focus; empty: none."""
        return next((slot for slot, each in self.words.items() if each.box.hasFocus()), "")

    def _commit(self, editor: WordEditor) -> None:
        if self.place is None or self.words.get(editor.slot) is not editor or self._drop:
            return
        rule = self.edits.rule(self.place)
        if rule is None:
            return
        slot, text = editor.slot, editor.text
        label = self._names[slot]
        same = text == word_value(rule, slot)
        if same and (self.drafts.get(self.place, label) is None or not text):
            self.drafts.drop(self.place, label)
            return
        reason: str | None
        if slot in SOUGHT and text not in [value for value, _ in choices(self.edits.project, rule, slot) or ()]:
            reason = self.tr("there is no \u201c{name}\u201d").format(name=text)
        else:
            reason = self._accept(slot, text)
        if reason is None:
            return
        self.drafts.keep(self.place, label, (text,), reason)
        self.show_place(self.place)

    def _accept(self, slot: str, text: str) -> str | None:
        place, label = self.place, self._names[slot]
        if place is None:
            return None
        self.drafts.drop(place, label)
        return self.edits.put(place, slot, text)

    def _take(self, slot: str, text: str) -> None:
        if self.place is not None:
            reason = self._accept(slot, text)
            if reason is not None:
                self.edits.document.refused.emit(reason)

    def _give_back(self, editor: WordEditor) -> None:
        """What stood in the word before it was gone to."""
        if self.place is None:
            return
        slot = editor.slot
        self.drafts.drop(self.place, self._names[slot])
        rule = self.edits.rule(self.place)
        before = self._before.get(slot)
        if rule is not None and before and before != word_value(rule, slot):
            self._accept(slot, before)
        self._drop = True
        self.show_place(self.place)

    def commit_all(self) -> None:
        """Take over what is typed."""
        editor = self.words.get(self.focused_slot())
        if editor is not None:
            self._commit(editor)

    def open_word(self, slot: str) -> None:
        """Give a word the focus and begin to change it."""
        editor = self.words.get(slot)
        if editor is not None:
            editor.open()

    def focus_word(self, label: str) -> bool:
        """Give the word of this name the focus."""
        slot = next((slot for slot, name in self._names.items() if name == label), "")
        if slot == "cause":
            self.cause.setFocus(Qt.FocusReason.OtherFocusReason)
            return True
        if slot not in self.words:
            return False
        self.words[slot].box.setFocus(Qt.FocusReason.OtherFocusReason)
        return True

    def focus_first(self) -> None:
        """Give the focus to the first word that is not chosen yet, else to the first."""
        rule = None if self.place is None else self.edits.rule(self.place)
        if rule is None:
            return
        empty = [slot for slot in self.words if not word_value(rule, slot) and slot not in ("from", "stops")]
        if self.edits.begun.keeps(rule) and empty:
            self.words[empty[0]].box.setFocus(Qt.FocusReason.TabFocusReason)
        elif self.words:
            next(iter(self.words.values())).box.setFocus(Qt.FocusReason.TabFocusReason)

    def enter(self) -> None:
        """Give the focus to what stands first."""
        self._stops()[0].setFocus(Qt.FocusReason.TabFocusReason)

    def _stops(self) -> list[QWidget]:
        return [self.cause, *(each.box for each in self.words.values()), self.copy, self.delete]

    def _step(self, watched: QObject, way: int) -> None:
        stops = self._stops()
        at = next((at for at, each in enumerate(stops) if each is watched), 0)
        editor = self._editor_of(watched)
        slot = "" if editor is None else editor.slot
        following = None
        if 0 <= at + way < len(stops):
            other = self._editor_of(stops[at + way])
            following = (other.slot if other is not None else "", stops[at + way])
        self.commit_all()
        if following is None:
            self.left.emit(way > 0)
            return
        if slot and self.words and watched not in self._stops():
            # The sentence is another one now: go on behind the same word.
            slots = list(self.words)
            at = slots.index(slot) + 1 + way if slot in slots else 1
            self._stops()[at].setFocus(Qt.FocusReason.TabFocusReason)
            return
        target = self.words[following[0]].box if following[0] in self.words else following[1]
        target.setFocus(Qt.FocusReason.TabFocusReason if way > 0 else Qt.FocusReason.BacktabFocusReason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if isinstance(event, QKeyEvent) and kind in (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress):
            return self._key(watched, event)
        editor = self._editor_of(watched)
        if editor is not None and isinstance(event, QFocusEvent) and event.reason() != Qt.FocusReason.PopupFocusReason:
            rule = None if self.place is None else self.edits.rule(self.place)
            if kind == QEvent.Type.FocusIn and rule is not None:
                self._drop = False
                self._before = {editor.slot: word_value(rule, editor.slot)}
            elif kind == QEvent.Type.FocusOut:
                if editor.slot in TYPED or editor.slot in SOUGHT:
                    self._commit(editor)
                self.edits.document.seal()
        return super().eventFilter(watched, event)

    def _key(self, watched: QObject, event: QKeyEvent) -> bool:
        press = event.type() == QEvent.Type.KeyPress
        editor = self._editor_of(watched)
        if event.matches(QKeySequence.StandardKey.Undo) or event.matches(QKeySequence.StandardKey.Redo):
            # Undo belongs to the document; but what is typed and not taken over is dropped first.
            if press and editor is not None and event.matches(QKeySequence.StandardKey.Undo) and self._typing(editor):
                self._give_back(editor)
                self._drop = False
                return True
            if not press and editor is not None and self._typing(editor):
                event.accept()
                return True
            event.ignore()
            return not press
        if event.modifiers() & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier):
            return False
        key = event.key()
        if editor is not None and editor.opened:
            return False
        if key in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            if press:
                back = key == Qt.Key.Key_Backtab or event.modifiers() & Qt.KeyboardModifier.ShiftModifier
                self._step(watched, -1 if back else 1)
            return press
        if key == Qt.Key.Key_Escape or (key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and editor is not None):
            if not press:
                event.accept()
                return True
            if editor is not None and key == Qt.Key.Key_Escape:
                self._give_back(editor)
            self._end(None if key == Qt.Key.Key_Escape else editor)
            return True
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            if press:
                slot = "" if editor is None else editor.slot
                if editor is not None:
                    self._commit(editor)
                self.row_wanted.emit(1 if key == Qt.Key.Key_Down else -1, slot)
            else:
                event.accept()
            return True
        return False

    def _end(self, editor: WordEditor | None) -> None:
        if editor is not None:
            self._commit(editor)
        self.ended.emit()
        self._drop = False

    def event(self, event: QEvent) -> bool:
        """Words that are drawn for the first time, or in another size, may need more lines."""
        if event.type() == QEvent.Type.LayoutRequest:
            self.resized.emit()
        return super().event(event)

    def _typing(self, editor: WordEditor) -> bool:
        rule = None if self.place is None else self.edits.rule(self.place)
        return rule is not None and editor.text != word_value(rule, editor.slot)
