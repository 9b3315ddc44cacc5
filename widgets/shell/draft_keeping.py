"""Drafts on their way into a recovery copy and back from there, perhaps into a window of another language."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import TYPE_CHECKING, TypeGuard

from app.project_file.pending_edits import KeptDraft
from widgets.document.drafts import Drafts

if TYPE_CHECKING:  # a window that begins on the Bench has no forms yet
    from widgets.design.forms.form import Form
    from widgets.design.inspector import Inspector


def to_keep(drafts: Drafts, inspector: Inspector) -> tuple[KeptDraft, ...]:
    """All drafts as they are kept."""
    forms = inspector.forms
    return tuple(
        KeptDraft(subject, row, labels.index(row), texts, reason)
        for subject, row, texts, reason in drafts.all()
        if _is_part(subject) and row in (labels := [each.label for each in forms[str(subject[0])].rows])
    )


def bring_back(kept: Iterable[KeptDraft], drafts: Drafts, inspector: Inspector) -> int:
    """Make drafts of them again, and show them where their part is shown. Returns how many no row fits."""
    forms = inspector.forms
    left_out = 0
    for draft in kept:
        row = _row(draft, forms[str(draft.subject[0])])
        if row is None:
            left_out += 1
        else:
            drafts.keep(draft.subject, row, draft.texts, draft.reason)
    if (form := inspector.current_form()) is not None:
        form.show_subject(form.subject)
    return left_out


def _is_part(subject: Hashable) -> TypeGuard[tuple[str | int, ...]]:
    return isinstance(subject, tuple)


def _row(draft: KeptDraft, form: Form) -> str | None:
    """What the row of a draft is called here; None if there is none for as many texts."""
    rows = [row for row in form.rows if row.label == draft.row]
    if not rows:  # the window that kept it spoke another language
        rows = form.rows[draft.place : draft.place + 1]
    return next((row.label for row in rows if len(row.texts()) == len(draft.texts)), None)
