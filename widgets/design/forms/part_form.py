"""What the forms of all kinds of parts have in common: rows that read and change attributes of one part."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import Any

from PySide6.QtWidgets import QWidget

from app.project.attributes import CHOICE, NOTES, YES_NO, PartAttribute, attribute_text
from app.project.model import Project
from app.signals.typed import plain
from widgets.design.forms.form import Form, FormRow, Put
from widgets.design.forms.rows import CheckRow, ChoiceRow, LineRow, NotesRow
from widgets.document.document import Document, Edit
from widgets.document.drafts import Drafts, DraftTexts

Where = Callable[[Any], bool]


def taking(document: Document, name: str, merge: Callable[[], Hashable], make: Callable[[DraftTexts], Edit]) -> Put:
    """A `Put` that reads the texts by `make` and makes the edit as a step called `name`.

    `make` raises ValueError in words if it cannot read them.
    """

    def put(texts: DraftTexts) -> str | None:
        try:
            edit = make(texts)
        except ValueError as error:
            return str(error)
        return document.do(name, edit, merge=merge(), aloud=False)

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
        return self.subject

    def put(self, make: Callable[[DraftTexts], Edit]) -> Put:
        """Take texts over by the edit that `make` makes of them."""
        return taking(self.document, self.step_name, self.merge_key, make)

    def line(
        self,
        label: str,
        attribute: str,
        read: Callable[[str], Any] = str,
        hint: str = "",
        *,
        suffix: str = "",
        placeholder: str = "",
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
        return self.line(label, key, read or kind.read, hint, suffix=unit, where=where, completions=completions)

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

        return self.add(LineRow(label, self._get("name", always), put, hint))
