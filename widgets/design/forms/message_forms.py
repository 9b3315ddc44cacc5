"""What the panel says of its own accord, written in the language that the document shows."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from operator import is_

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Signal
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from app import edits
from app.panel.messages import entered_in, ready_for, widest
from app.panel.rendering import message_alone
from app.project.messages import (
    MESSAGES,
    PLACEHOLDERS,
    Known,
    chosen_form,
    fill_in,
    fits,
    known_language,
    message_rows,
    unsaid,
    words_in,
)
from app.project.model import Panel, PanelMessage, Project, Screen
from widgets.design.forms.form import Get, Put
from widgets.design.forms.message_preview import MessagePreview
from widgets.design.forms.part_form import PartForm, taking
from widgets.design.forms.rows import ChoiceRow, LineRow
from widgets.document.document import Document
from widgets.document.drafts import Drafts, DraftTexts
from widgets.kit.elided import ELIDES
from widgets.kit.plain import plain_label, plain_tip

translate = QCoreApplication.translate


def message_names() -> Mapping[PanelMessage, str]:
    """When the panel says a message, in a few words."""
    return {
        "at_most": translate("MessagesForm", "Above the limit"),
        "at_least": translate("MessagesForm", "Below the limit"),
        "no_room": translate("MessagesForm", "No more digits"),
        "read_only": translate("MessagesForm", "Read-only"),
        "nothing_to_enter": translate("MessagesForm", "No entry here"),
        "no_value": translate("MessagesForm", "No value yet"),
        "not_possible": translate("MessagesForm", "Not possible"),
        "still_on": translate("MessagesForm", "Condition still active"),
        "writing_off": translate("MessagesForm", "Not armed"),
        "no_connection": translate("MessagesForm", "No connection"),
        "no_answer": translate("MessagesForm", "No answer"),
        "refused": translate("MessagesForm", "Refused"),
        "kept": translate("MessagesForm", "Different value"),
        "not_confirmed": translate("MessagesForm", "Unconfirmed"),
        "not_written": translate("MessagesForm", "Not written"),
    }


def message_hints() -> Mapping[PanelMessage, str]:
    """When exactly the panel says a message."""
    return {
        "at_most": translate("MessagesForm", "The operator enters a value above the limit of the signal."),
        "at_least": translate("MessagesForm", "The operator enters a value below the limit of the signal."),
        "no_room": translate("MessagesForm", "The field has no cell left for another digit."),
        "read_only": translate("MessagesForm", "The value is a text or a register that must not be written."),
        "nothing_to_enter": translate("MessagesForm", "A key starts an entry on a screen without an entry field."),
        "no_value": translate("MessagesForm", "The value to be changed has not been read yet, or it is not good."),
        "not_possible": translate("MessagesForm", "A key asks for something that is not possible here."),
        "still_on": translate(
            "MessagesForm", "The operator tries to leave a screen that is shown while a condition is true."
        ),
        "writing_off": translate("MessagesForm", "A value is to be written, but writing is not armed."),
        "no_connection": translate("MessagesForm", "A value could not be written: the line is down."),
        "no_answer": translate("MessagesForm", "A value could not be written: the device does not answer."),
        "refused": translate("MessagesForm", "A value could not be written: the device answers with an exception."),
        "kept": translate("MessagesForm", "A value was written, but a different one was read back."),
        "not_confirmed": translate(
            "MessagesForm", "A value was sent, but it is not known whether the device accepted it."
        ),
        "not_written": translate("MessagesForm", "A value could not be written for another reason."),
    }


class MessageRow(LineRow):
    """The words of one message; while there are none, those that the panel says instead are shown faintly."""

    entered = Signal()
    """Somebody came here to write."""

    def __init__(self, label: str, get: Get, put: Put, hint: str, instead: Callable[[], str]) -> None:
        super().__init__(label, get, put, hint)
        self._instead = instead
        self.edit.setProperty(ELIDES, True)

    @property
    def edit(self) -> QLineEdit:
        """Where the words are written."""
        return self._edits[0]

    def before_refresh(self) -> None:
        """Bring what is said without words of its own up to date."""
        instead = self._instead()
        self.edit.setPlaceholderText(instead)
        hint = "\n".join((self.hint, self.tr("If empty: \u201c{words}\u201d").format(words=instead)))
        self.edit.setToolTip(hint)
        self.edit.setAccessibleDescription(hint)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tell when somebody comes here."""
        if event.type() == QEvent.Type.FocusIn:
            self.entered.emit()
        return super().eventFilter(watched, event)


class LongestValues:
    """The longest value that can come into each message, worked out anew only where it may be another.

    With thousands of signals that takes longer than a key may.
    """

    def __init__(self) -> None:
        self._screens: tuple[Screen, ...] | None = None
        self._entered: frozenset[str] = frozenset()
        self._parts: tuple[object, ...] = ()
        self._found: Mapping[PanelMessage, str] = {}

    def of(self, project: Project) -> Mapping[PanelMessage, str]:
        """The values of `project`; an edit leaves most parts of it the same objects."""
        entered, parts = self._entered, (project.signals, project.followers, project.screen_changes, project.actions)
        if project.screens is not self._screens:
            self._screens, entered = project.screens, entered_in(project)
        same = len(parts) == len(self._parts) and all(map(is_, parts, self._parts))
        if not same or entered != self._entered:
            self._entered, self._parts, self._found = entered, parts, widest(project, entered)
        return self._found


class MessagesForm(PartForm):
    """A row for each message, in the language that the document shows; `preview` is to stand over it."""

    caption_width = 200

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, parent)
        self.preview = MessagePreview()
        self._current: PanelMessage = MESSAGES[0]
        self._longest = LongestValues()
        self._names, self._hints = message_names(), message_hints()
        self.heading = self.add_heading(self.tr("Panel messages"))
        self.add(
            ChoiceRow(
                self.tr("Language"),
                lambda: (str(self.number),) if len(self.part.languages) > 1 else None,
                self._choose_language,
                lambda: [(str(number), name) for number, name in enumerate(self.part.languages)],
                self.tr("Language in which all texts of the panel are shown and entered"),
            )
        )
        self._fill_texts: dict[Known, str] = {"en": self.tr("Fill in English"), "de": self.tr("Fill in German")}
        self.fill_button = QPushButton()
        self.fill_button.clicked.connect(self._fill)
        self.add_wide(self.fill_button)
        self.why_not = plain_label("", "faint", wrap=True)
        self.add_wide(self.why_not)
        for message in MESSAGES:
            self._add_message(message)
        self.finish()

    def _add_message(self, message: PanelMessage) -> None:
        row = MessageRow(
            self._names[message],
            lambda: (words_in(self.part, self.number).get(message, ""),),
            self._put_message(message),
            self._hints[message],
            lambda: self._instead(message),
        )
        row.entered.connect(lambda: self._show_preview(message))
        self.add(row)

    def _put_message(self, message: PanelMessage) -> Put:
        def make(texts: DraftTexts) -> Callable[[Project], Project]:
            number, words = self.number, texts[0].rstrip()
            return lambda project: edits.set_message(project, number, message, words)

        def merge() -> Hashable:
            return self.subject, message

        name = self.tr("Change message \u201c{name}\u201d").format(name=self._names[message])
        take = taking(self.document, lambda _texts: name, merge, make)

        def put(texts: DraftTexts) -> str | None:
            reason = take(texts)
            self._show_preview(message)
            return reason

        return put

    # What is shown

    @property
    def part(self) -> Panel:
        """The panel."""
        return self.project.panel

    @property
    def number(self) -> int:
        """The language that is written: its index among the panel's, 0 where there are none."""
        return self.document.language

    def show_messages(self) -> None:
        """Show the messages of the panel in the language of the document."""
        languages = self.part.languages
        language = languages[self.number] if languages else ""
        self.heading.set_title(
            self.tr("Panel messages in {language}").format(language=language) if language else self.tr("Panel messages")
        )
        self.show_subject(("messages", language) if language else ("messages",))
        self._show_fill(language)
        self._show_preview(self._current)

    def focus_message(self, message: PanelMessage) -> None:
        """Give the focus to the row of a message."""
        self.focus_row(self._names[message])

    def focus_first(self) -> None:
        """Give the focus to the first message that is not written in this language, or else to the first of all."""
        self.focus_message(next(unsaid(self.part, self.number), MESSAGES[0]))

    def _value(self, message: PanelMessage) -> str:
        """The longest value that can come into a message."""
        return self._longest.of(self.project).get(message, "")

    def _instead(self, message: PanelMessage) -> str:
        """What the panel says while the project says nothing in this language."""
        first = self.part.messages.get(message) if self.number else None
        return first or chosen_form(self.part, "en", message, self._value(message))

    def _show_preview(self, message: PanelMessage) -> None:
        self._current = message
        panel, value, place = self.part, self._value(message), PLACEHOLDERS.get(message)
        words = words_in(panel, self.number).get(message) or self._instead(message)
        text = fill_in(message, words, value)
        rows = message_rows(panel)
        room = (
            self.tr("Room for one row of {columns} cells.")
            if rows == 1
            else self.tr("Room for {rows} rows of {columns} cells.")
        )
        lines = [room.format(rows=rows, columns=panel.columns)]
        if place is not None and value:
            lines.append(
                self.tr("The longest value for {place} is \u201c{value}\u201d.").format(place=place, value=value)
            )
        elif place is not None:
            lines.append(self.tr("{place} is replaced by the value.").format(place=place))
        self.preview.show_message(
            self._hints[message],
            message_alone(panel, text),
            lines,
            fits=fits(panel, text),
        )

    # The language, and words that are ready in it

    def _choose_language(self, texts: DraftTexts) -> None:
        self.document.choose_language(int(texts[0]))

    def _known_language(self) -> Known | None:
        languages = self.part.languages
        return known_language(languages[self.number]) if languages else None

    def _show_fill(self, language: str) -> None:
        known = self._known_language()
        missing = known is not None and any(unsaid(self.part, self.number))
        self.fill_button.setEnabled(missing)
        self.fill_button.setText(self._fill_texts[known] if known else self.tr("Fill in"))
        if not language:
            reason = self.tr(
                "Ready-made texts exist in English and German; set the language in the properties of the panel."
            )
        elif known is None:
            reason = self.tr("Ready-made texts exist in English and German only.")
        elif not missing and known == "en" and not words_in(self.part, self.number):
            reason = self.tr("Nothing is missing: the panel has all messages in English already.")
        else:
            reason = self.tr("Nothing is missing in {language}.").format(language=language)
        self.why_not.setText(reason)
        self.why_not.setVisible(not missing)
        self.fill_button.setAccessibleDescription("" if missing else reason)
        self.fill_button.setToolTip(plain_tip("" if missing else reason))

    def _fill(self) -> None:
        known, number = self._known_language(), self.number
        if known is not None:
            words = ready_for(self.project, known)
            name = self._fill_texts[known]
            self.document.do(name, lambda project: edits.fill_messages(project, number, words))
