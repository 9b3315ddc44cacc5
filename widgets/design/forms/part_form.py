"""What the forms of all kinds of parts have in common: rows that read and change attributes of one part."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from functools import reduce
from typing import Any, Final, TypeVar

from PySide6.QtWidgets import QWidget

from app.project.attributes import CHOICE, NOTES, YES_NO, PartAttribute, attribute_text
from app.project.model import Project
from app.signals.typed import number, optional_number, plain, whole
from widgets.design.forms.form import Form, FormRow, Put
from widgets.design.forms.rows import CheckRow, ChoiceRow, LineRow, NotesRow
from widgets.document.document import Document, Edit
from widgets.document.drafts import Drafts, DraftTexts

Where = Callable[[Any], bool]
BETWEEN: Final = " \N{EN DASH} "
SHORT: Final = 24
"""Characters of a value up to which the list of steps repeats it."""
_T = TypeVar("_T")


def taking(
    document: Document,
    name: Callable[[DraftTexts], str],
    merge: Callable[[], Hashable],
    make: Callable[[DraftTexts], Edit],
) -> Put:
    """A `Put` that reads the texts by `make` and makes the edit as a step that `name` calls.

    `make` raises ValueError in words if it cannot read them.
    """

    def put(texts: DraftTexts) -> str | None:
        try:
            edit = make(texts)
        except ValueError as error:
            return str(error)
        return document.do(name(texts), edit, merge=merge(), aloud=False)

    return put


def always(_part: object) -> bool:
    """Every part has this row."""
    return True


class PartForm(Form):
    """A form for one part at a time. Subclasses say which part, and how it is changed."""

    step_name = ""
    """What a change is called in the list of steps."""

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(drafts, parent)
        self.document = document
        self.others: tuple[Hashable, ...] = ()
        """What is shown besides the subject, and changed with it."""
        self._changing = ""
        """The label of the row that is taken over just now."""

    @property
    def project(self) -> Project:
        """The project as it is now."""
        return self.document.project

    @property
    def part(self) -> Any:
        """The part that is shown; None if there is none."""
        raise NotImplementedError

    def change(self, **changes: Any) -> Edit:
        """The edit that changes attributes of the part."""
        raise NotImplementedError

    def merge_key(self) -> Hashable:
        """Changes with the same key become one step while they follow one another."""
        return (self.subject, *self.others, self._changing)

    def put(self, make: Callable[[DraftTexts], Edit]) -> Put:
        """Take texts over by the edit that `make` makes of them, made to every part that is shown."""

        def of_all(texts: DraftTexts) -> Edit:
            edits = [self._of(subject, lambda: make(texts)) for subject in self._subjects]
            return (
                edits[0] if len(edits) == 1 else lambda project: reduce(lambda made, edit: edit(made), edits, project)
            )

        return taking(self.document, self._step_of, self.merge_key, of_all)

    def _step_of(self, texts: DraftTexts) -> str:
        """What a change is called: of which part what, and to what where that is short."""
        if not self._changing:
            return self.step_name
        value = BETWEEN.join(text for text in texts if text)
        if self.others:
            words = self.tr("{change}: \u201c{label}\u201d of {count}")
        elif isinstance(self.subject, tuple) and isinstance(self.subject[-1], str):
            words = self.tr("{change} \u201c{name}\u201d: \u201c{label}\u201d")
        else:
            words = self.tr("{change}: \u201c{label}\u201d")
        names = {"change": self.step_name, "label": self._changing, "count": len(self._subjects)}
        name = self.subject[-1] if isinstance(self.subject, tuple) else ""
        said = words.format(name=name, **names)
        return f"{said} \N{RIGHTWARDS ARROW} {value}" if value and len(value) <= SHORT and "\n" not in value else said

    # Several parts at once

    def show_subject(self, subject: Hashable, others: Sequence[Hashable] = ()) -> None:
        """Show another part, or several at once: what they share, and what is changed is changed in all of them."""
        other = self.others != tuple(others)
        self.others = tuple(others)
        if other and subject == self.subject:
            super().show_subject(None)
        super().show_subject(subject)

    @property
    def _subjects(self) -> tuple[Hashable, ...]:
        return (self.subject, *self.others)

    def _of(self, subject: Hashable, call: Callable[[], _T]) -> _T:
        """What `call` gives while this one is the part that is shown."""
        shown, self.subject = self.subject, subject
        try:
            return call()
        finally:
            self.subject = shown

    def common(self, call: Callable[[], str]) -> str:
        """What `call` gives for every part that is shown; empty where they differ in it."""
        found = {self._of(subject, call) for subject in self._subjects}
        return found.pop() if len(found) == 1 else ""

    def add(self, row: FormRow) -> FormRow:
        """Put a row beneath the others; of several parts it shows what they share."""
        get = row.get

        def shared() -> DraftTexts | None:
            texts = get()
            if not self.others or texts is None:
                row.differs = False
                return texts
            if row.single:
                return None
            found = [self._of(subject, get) for subject in self.others]
            row.differs = any(each != texts for each in found)
            return None if any(each is None for each in found) else row.blank() if row.differs else texts

        put = row.put

        def named(texts: DraftTexts) -> str | None:
            self._changing = row.label
            try:
                return put(texts)
            finally:
                self._changing = ""

        row.get, row.put = shared, named
        return super().add(row)

    def line(
        self,
        label: str,
        attribute: str,
        read: Callable[[str], Any] = str,
        hint: str = "",
        *,
        suffix: str | Callable[[], str] = "",
        placeholder: str = "",
        numeric: bool | None = None,
        where: Where = always,
        completions: Callable[[], Sequence[str]] | None = None,
    ) -> FormRow:
        """A row for an attribute that is typed. Parts without the attribute have no such row."""
        return self.add(
            LineRow(
                label,
                self._get(attribute, where),
                self.put(lambda texts: self.change(**{attribute: read(texts[0])})),
                hint,
                suffix=suffix,
                placeholder=placeholder,
                numeric=read in (whole, number, optional_number) if numeric is None else numeric,
                completions=completions,
            )
        )

    def choice(
        self,
        label: str,
        attribute: str,
        options: Callable[[], Sequence[tuple[str, str]]],
        hint: str = "",
        *,
        where: Where = always,
        read: Callable[[str], Any] = str,
    ) -> FormRow:
        """A row for an attribute that is chosen."""
        return self.add(
            ChoiceRow(
                label,
                self._get(attribute, where),
                self.put(lambda texts: self.change(**{attribute: read(texts[0])})),
                options,
                hint,
            )
        )

    def check(self, label: str, attribute: str, text: str, hint: str = "", *, where: Where = always) -> FormRow:
        """A row for yes or no."""

        def get() -> DraftTexts | None:
            part = self.part
            if part is None or not hasattr(part, attribute) or not where(part):
                return None
            return ("1" if getattr(part, attribute) else "",)

        return self.add(
            CheckRow(label, get, self.put(lambda texts: self.change(**{attribute: bool(texts[0])})), text, hint)
        )

    def attribute(
        self,
        attribute: PartAttribute,
        *,
        where: Where | None = None,
        read: Callable[[str], Any] | None = None,
        options: Callable[[], Sequence[tuple[str, str]]] | None = None,
        completions: Callable[[], Sequence[str]] | None = None,
        suffix: Callable[[], str] | None = None,
    ) -> FormRow:
        """The row of an attribute by the table of attributes; what is given goes before that."""
        key, kind, choices = attribute.key, attribute.kind, attribute.choices
        label, hint = attribute_text(attribute.label), attribute_text(attribute.hint)
        where = where or attribute.applies
        if kind is YES_NO:
            return self.check(label, key, attribute_text(attribute.yes), hint, where=where)
        if kind is NOTES:
            return self.notes(label, key, hint)
        if kind is CHOICE or options is not None:
            none = [("", attribute_text(attribute.none))] if attribute.none else []
            offered = options or (lambda: [*none, *(choices(self.part) if choices is not None else {}).items()])
            taken = (lambda text: text or None) if none else str
            return self.choice(label, key, offered, hint, where=where, read=taken)
        unit = attribute_text(attribute.unit)
        return self.line(
            label,
            key,
            read or kind.read,
            hint,
            suffix=suffix or unit,
            numeric=kind.right,
            where=where,
            completions=completions,
        )

    def notes(self, label: str, attribute: str = "notes", hint: str = "", *, lines: int = 3) -> FormRow:
        """A row for a longer text."""
        return self.add(
            NotesRow(
                label,
                self._get(attribute, always),
                self.put(lambda texts: self.change(**{attribute: texts[0]})),
                hint,
                lines=lines,
            )
        )

    def _get(self, attribute: str, where: Where) -> Callable[[], DraftTexts | None]:
        def get() -> DraftTexts | None:
            part = self.part
            if part is None or not hasattr(part, attribute) or not where(part):
                return None
            return (plain(getattr(part, attribute)),)

        return get

    def name_row(self, label: str, rename: Callable[[Project, str, str], Project], hint: str = "") -> FormRow:
        """A row for the name; a change of it changes every use."""

        def put(texts: DraftTexts) -> str | None:
            if not isinstance(self.subject, tuple):
                return None
            kind, old = self.subject
            new = texts[0]
            self.drafts.move((kind, old), (kind, new))
            reason = self.document.do(
                self.tr("Rename"), lambda project: rename(project, old, new), merge=("rename", kind), aloud=False
            )
            if reason is not None:
                self.drafts.move((kind, new), (kind, old))
            return reason

        row = LineRow(label, self._get("name", always), put, hint)
        row.single = True
        return self.add(row)
