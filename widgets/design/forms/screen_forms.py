"""The properties of a field and of the panel."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import Any

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QMenu, QPushButton, QWidget

from app import edits
from app.project.binding import value_span
from app.project.model import Field, Panel, Project
from app.signals.text import spoken_digits
from app.signals.typed import pair, plain, whole
from widgets.design.forms.condition_row import ConditionRow, condition_texts, read_condition
from widgets.design.forms.part_form import PartForm
from widgets.design.forms.rows import ChoiceRow, InfoRow, LineRow, NotesRow
from widgets.design.forms.signal_picker import kinds, signal_choices
from widgets.document.document import Document, Edit, Selection
from widgets.document.drafts import Drafts, DraftTexts
from widgets.face.sample_values import width_needed
from widgets.kit.commands import ENTRY
from widgets.kit.plain import plain_label

translate = QCoreApplication.translate


class FieldForm(PartForm):
    """Shows and edits the selected field."""

    signal_wanted = Signal(str)
    """The properties of this signal are wanted."""

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, parent)
        self.step_name = self.tr("Change field")
        self.choice(self.tr("Signal"), "signal", lambda: signal_choices(self.project))
        self.choice(self.tr("Shown as"), "kind", kinds)
        self.add(
            LineRow(
                self.tr("Row, column"),
                lambda: None if (part := self.part) is None else (str(part.at[0] + 1), str(part.at[1] + 1)),
                self.put(self._read_at),
                self.tr("Position of the first cell, counted from 1"),
                between=[","],
                names=(self.tr("Row"), self.tr("Column")),
                numeric=True,
            )
        )
        self.line(self.tr("Width"), "width", whole, suffix=self.tr("cells"))
        self.add(InfoRow(self.tr("Required"), self._needs))
        self.check(self.tr("Entry"), "entry", self.tr("the operator may change it"))
        self.add(
            LineRow(
                self.tr("Bar range"),
                lambda: (
                    None
                    if (part := self.part) is None or part.kind != "bar"
                    else tuple(plain(value) for value in part.range or ("", ""))
                ),
                self.put(lambda texts: self.change(range=pair(texts))),
                self.tr("Values at which the bar is empty and full. Left blank: the limits of the signal"),
                between=[self.tr("to")],
                names=(self.tr("Empty at"), self.tr("Full at")),
                numeric=True,
                suffix=lambda: self.common(self._unit),
            )
        )
        self.add(
            ConditionRow(
                self.tr("Blinks when"),
                lambda: None if self.part is None else condition_texts(self.part.blink),
                self.put(lambda texts: self.change(blink=read_condition(texts))),
                lambda: signal_choices(self.project),
                optional=True,
            )
        )
        self.go_button = QPushButton(self.tr("Properties of the signal"))
        self.go_button.clicked.connect(self._go)
        self.add_wide(self.go_button)
        self.nothing = plain_label(
            self.tr("No field is selected. Put the cursor on one, or place a new one at the cursor with Ctrl+Enter."),
            "faint",
            wrap=True,
        )
        self.add_wide(self.nothing)
        self.finish()

    @property
    def part(self) -> Field | None:
        """The field that is shown."""
        if not isinstance(self.subject, tuple):
            return None
        screen = self.project.screen_named.get(self.subject[1])
        index = self.subject[2]
        return screen.fields[index] if screen is not None and 0 <= index < len(screen.fields) else None

    def show_selection(self, selection: Selection) -> None:
        """Show the selected fields, or say that there is none."""
        subjects = [("field", selection.screen, index) for index in selection.fields]
        others = subjects[1:]
        self.show_subject(subjects[0] if subjects else None, others)
        self.nothing.setVisible(len(selection.fields) != 1)
        self.go_button.setVisible(len(selection.fields) == 1)
        if others:
            words = self.tr("{n} fields are selected. What you change here is changed in all of them.")
            self.nothing.setText(words.format(n=len(selection.fields)))
        else:
            self.nothing.setText(
                self.tr(
                    "No field is selected. Put the cursor on one, or place a new one at the cursor with Ctrl+Enter."
                )
            )

    def change(self, **changes: Any) -> Edit:
        """The edit that changes attributes of the field."""
        if not isinstance(self.subject, tuple):
            return lambda project: project
        _, screen, index = self.subject
        return lambda project: edits.change_field(project, screen, index, **changes)

    def _read_at(self, texts: DraftTexts) -> Edit:
        row, column = (whole(text) - 1 for text in texts)
        return self.change(at=(row, column))

    def _unit(self) -> str:
        signal = None if self.part is None else self.project.signal_named.get(self.part.signal)
        return "" if signal is None else signal.unit

    def _needs(self) -> DraftTexts | None:
        part = self.part
        if part is None:
            return None
        signal = self.project.signal_named.get(part.signal)
        if signal is None:
            return (self.tr("an existing signal"),)
        if part.kind == "bar":
            return (self.tr("any width"),)
        needed = width_needed(self.project, part.signal, part.kind)
        text = self.tr("{n} cells").format(n=needed) if needed != 1 else self.tr("1 cell")
        span = value_span(self.project, part.signal)
        if span is not None and not (part.kind == "choice" and signal.texts):
            low, high = (spoken_digits(value, signal.decimals) for value in span)
            return (
                self.tr("{cells} for {low} to {high} {unit}")
                .format(cells=text, low=low, high=high, unit=signal.unit)
                .rstrip(),
            )
        return (text,)

    def _go(self) -> None:
        if self.part is not None:
            self.signal_wanted.emit(self.part.signal)


class PanelForm(PartForm):
    """Shows and edits the panel and the title of the project."""

    caption_width = 124

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, parent)
        self.step_name = self.tr("Change panel")
        self.add(
            LineRow(
                self.tr("Title"),
                lambda: (self.project.title,),
                self.put(lambda texts: lambda project: edits.set_title(project, texts[0])),
                self.tr("Title of the project, as used in its documents"),
            )
        )
        self.line(self.tr("Rows"), "rows", whole, self.tr("1 to 64"))
        self.line(self.tr("Columns"), "columns", whole, self.tr("1 to 132"))
        self.choice(
            self.tr("Character set"),
            "repertoire",
            _repertoires,
            self.tr("Characters that the panel's display can show"),
        )
        self.line(
            self.tr("Keys"),
            "keys",
            read_keys,
            self.tr("Names of the keys, separated by commas: left, right, up, down, enter, escape, F1"),
        )
        self.choice(self.tr("Start screen"), "start", lambda: [(name, name) for name in self.project.screen_named])
        self._language_rows()
        self.add_heading(self.tr("Value entry"))
        self.add(
            ChoiceRow(
                self.tr("Entry mode"),
                lambda: (self.project.panel.entry.by,),
                self.put(lambda texts: self._change_entry(by=texts[0])),
                lambda: [("step", self.tr("in steps")), ("digit", self.tr("digit by digit"))],
            )
        )
        for attribute, label in (
            ("begin", self.tr("Begin key")),
            ("up", self.tr("Increase key")),
            ("down", self.tr("Decrease key")),
            ("left", self.tr("Left key")),
            ("right", self.tr("Right key")),
            ("confirm", self.tr("Confirm key")),
            ("abandon", self.tr("Cancel key")),
        ):
            self._entry_key(attribute, label)
        self.add(
            LineRow(
                self.tr("Cancel after"),
                lambda: (str(self.project.panel.entry.timeout_s),),
                self.put(lambda texts: self._change_entry(timeout_s=whole(texts[0]))),
                self.tr("Seconds without a key press after which the entry is cancelled. 0: never"),
                suffix="s",
                numeric=True,
            )
        )
        self.add_heading(self.tr("Documentation"), closed=True)
        self.add(
            NotesRow(
                self.tr("Notes"),
                lambda: (self.project.notes,),
                self.put(lambda texts: lambda project: edits.set_notes(project, texts[0])),
            )
        )
        self.finish()

    def _language_rows(self) -> None:
        self.add_heading(self.tr("Languages of the texts"))
        self.line(
            self.tr("Languages"),
            "languages",
            read_languages,
            self.tr(
                "Names of the languages, separated by commas; the first is used where another has no text. "
                "Empty: one language only"
            ),
        )
        self.add(
            ChoiceRow(
                self.tr("Selected by"),
                lambda: (self.project.panel.language or "",) if len(self.project.panel.languages) > 1 else None,
                self.put(lambda texts: lambda project: edits.set_language_signal(project, texts[0] or None)),
                lambda: [("", self.tr("key action")), *((name, name) for name in self.project.signal_named)],
                self.tr("Signal whose value is the number of the language; 0 is the first"),
            )
        )
        self.take_out = QPushButton(self.tr("Remove a language"))
        self._take_out_menu = QMenu(self.take_out)
        self.take_out.setMenu(self._take_out_menu)
        self.add_wide(self.take_out)

    def show_subject(self, subject: Hashable, others: Sequence[Hashable] = ()) -> None:
        """Show the panel as it is now."""
        super().show_subject(subject, others)
        languages = self.project.panel.languages
        self.take_out.setVisible(len(languages) > 1)
        if [action.text() for action in self._take_out_menu.actions()] != list(languages):
            self._take_out_menu.clear()
            for language in languages:
                action = self._take_out_menu.addAction(language.replace("&", "&&"))
                action.setProperty(ENTRY, True)
                action.triggered.connect(lambda _checked=False, language=language: self._take_out(language))

    def _take_out(self, language: str) -> None:
        left = [each for each in self.project.panel.languages if each != language]
        self.document.do(
            self.tr("Remove the language \u201c{name}\u201d").format(name=language),
            lambda project: edits.set_languages(project, left),
        )

    def _entry_key(self, attribute: str, label: str) -> None:
        def options() -> list[tuple[str, str]]:
            # A name that the panel has not means that the step is not offered; it can be chosen as such.
            return [(key, key) for key in self.project.panel.keys]

        self.add(
            ChoiceRow(
                label,
                lambda: (str(getattr(self.project.panel.entry, attribute)),),
                self.put(lambda texts: self._change_entry(**{attribute: texts[0]})),
                options,
            )
        )

    @property
    def part(self) -> Panel:
        """The panel."""
        return self.project.panel

    def show_panel(self) -> None:
        """Show the panel of the document."""
        self.show_subject(("panel",))

    def change(self, **changes: Any) -> Edit:
        """The edit that changes one attribute of the panel."""
        ((attribute, value),) = changes.items()
        panel = self.project.panel
        return {
            "rows": lambda project: edits.set_size(project, value, panel.columns),
            "columns": lambda project: edits.set_size(project, panel.rows, value),
            "repertoire": lambda project: edits.set_repertoire(project, value),
            "keys": lambda project: with_keys(project, value),
            "start": lambda project: edits.set_start(project, value),
            "languages": lambda project: with_languages(project, value),
        }[attribute]

    def _change_entry(self, **changes: Any) -> Edit:
        return lambda project: edits.change_entry(project, **changes)


def with_keys(project: Project, keys: tuple[str, ...]) -> Project:
    """With these keys on the panel; where one was only spelled anew, what uses it follows."""
    old = project.panel.keys
    differing = [place for place, (one, other) in enumerate(zip(old, keys, strict=False)) if one != other]
    if len(old) == len(keys) and len(differing) == 1 and keys[differing[0]] not in old:
        return edits.rename_key(project, old[differing[0]], keys[differing[0]])
    return edits.set_keys(project, keys)


def read_keys(text: str) -> tuple[str, ...]:
    """Key names with commas between. Raises ValueError in words for a name that stands there twice."""
    names = tuple(name.strip() for name in text.split(",") if name.strip())
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise ValueError(translate("PanelForm", "the key '{name}' is listed twice").format(name=twice))
    return names


def with_languages(project: Project, languages: tuple[str, ...]) -> Project:
    """With these languages of the panel; where one was only spelled anew, its texts follow.

    Refused where texts would go: a slip of the keyboard must not delete what somebody translated.
    """
    old = project.panel.languages
    differing = [place for place, (one, other) in enumerate(zip(old, languages, strict=False)) if one != other]
    if len(old) == len(languages) and len(differing) == 1 and languages[differing[0]] not in old:
        return edits.rename_language(project, old[differing[0]], languages[differing[0]])
    # Where another language becomes the first, its texts come into the place of those of the first one.
    first_goes = bool(old and languages) and languages[0] in old and _has_texts(project, languages[0])
    for language in old if first_goes else old[1:]:
        if language not in languages and (language == old[0] or _has_texts(project, language)):
            raise edits.EditRefused(
                translate(
                    "PanelForm", "there are texts in \u201c{name}\u201d; remove that language with the button"
                ).format(name=language)
            )
    return edits.set_languages(project, languages)


def _has_texts(project: Project, language: str) -> bool:
    return (
        language in project.panel.messages_in
        or any(language in screen.text_in for screen in project.screens)
        or any(language in signal.texts_in for signal in project.signals)
    )


def read_languages(text: str) -> tuple[str, ...]:
    """Names of languages with commas between."""
    return tuple(name.strip() for name in text.split(",") if name.strip())


def _repertoires() -> list[tuple[str, str]]:
    return [
        ("ascii", "ASCII"),
        ("latin-1", "Latin-1"),
        ("lcd-kana", translate("PanelForm", "LCD (Kana)")),
        ("lcd-european", translate("PanelForm", "LCD (European)")),
    ]
