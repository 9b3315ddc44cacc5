"""The questions about a project file that must be answered before something is done or lost."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QDialogButtonBox, QWidget

from widgets.kit.dialogs.questions import Question

translate = QCoreApplication.translate
MOST_NAMED: Final = 4
"""Of what is not complete."""


class Leaving(enum.Enum):
    """What becomes of unsaved changes."""

    SAVE = enum.auto()
    DISCARD = enum.auto()
    STAY = enum.auto()


class Conflict(enum.Enum):
    """What is done where another program has changed the file that is to be saved."""

    COMPARE = enum.auto()
    SAVE_OVER = enum.auto()
    SAVE_AS = enum.auto()
    RELOAD = enum.auto()
    NOTHING = enum.auto()


def what_of_changes(parent: QWidget, name: str, lost: Sequence[str] = ()) -> Leaving:
    """Ask what becomes of the unsaved changes to `name`; `lost` is what is not complete and lost either way."""
    more = translate("files", "Otherwise they will be lost.")
    if lost:
        more = f"{more}\n\n{_loss(lost)}"
    question = translate("files", "Save the changes to \u201c{name}\u201d?").format(name=name)
    return Question(parent, "asks", translate("files", "Unsaved changes"), question, more).ask(
        ((translate("files", "&Save"), Leaving.SAVE),),
        Leaving.STAY,
        apart=((translate("files", "&Discard"), Leaving.DISCARD),),
        enter=True,
    )


def may_lose(parent: QWidget, name: str, lost: Sequence[str]) -> bool:
    """Ask whether `name` may be left though `lost` is not complete."""
    words = translate("files", "Leave \u201c{name}\u201d with incomplete entries?").format(name=name)
    question = Question(parent, "asks", translate("files", "Incomplete"), words, _loss(lost))
    return question.confirm(translate("files", "&Leave"))


def some_of(things: Sequence[str]) -> str:
    """The first of them, and how many more there are."""
    text = "; ".join(things[:MOST_NAMED])
    more = len(things) - MOST_NAMED
    return translate("files", "{first}; and {count} more").format(first=text, count=more) if more > 0 else text


def _loss(lost: Sequence[str]) -> str:
    words = translate("files", "Incomplete and therefore not saved: {what}. It will be lost.")
    return words.format(what=some_of(lost))


def may_let_go(parent: QWidget, lines: Sequence[str], disarmed: str = "") -> bool:
    """Ask whether armed `lines` may be disconnected, and those that disarmed themselves, which says `disarmed`."""
    why = f"{disarmed[:1].upper()}{disarmed[1:]}"
    more = translate(
        "files",
        "Disconnecting does not stop anything: a running machine keeps running, and the panel can no longer stop it.",
    )
    if lines:
        title = translate("files", "Armed")
        words = translate("files", "Fanlight is armed on {lines}. Disconnect?").format(lines=", ".join(lines))
        more = f"{why}.\n{more}" if disarmed else more
    else:
        title = translate("files", "Disarmed automatically")
        words = translate("files", "Stop keys still write. Disconnect?")
        more = f"{why}.\n{more}"
    return Question(parent, "caution", title, words, more).confirm(translate("files", "&Disconnect"))


def may_replace(parent: QWidget, path: Path, title: str) -> bool:
    """Ask whether a file that exists already may be replaced; `title` says what for."""
    words = translate("files", "{file} already exists. Replace it?").format(file=path.name)
    return Question(parent, "asks", title, words).confirm(translate("files", "&Replace"))


def may_drop_remarks(parent: QWidget, path: Path) -> bool:
    """Ask whether saving may go on though the file holds remarks, which are not kept."""
    words = translate(
        "files",
        "{file} contains comments after '#', which are lost when it is saved. The present file is kept as "
        "{file}.bak until you save again. Put what should last into the notes.",
    ).format(file=path.name)
    question = translate("files", "Save without the comments?")
    return Question(parent, "asks", translate("files", "Comments in the file"), question, words).confirm(
        translate("files", "&Save")
    )


def wants_another_place(parent: QWidget, why: str) -> bool:
    """Say why a project was not saved, and ask whether it should be saved elsewhere."""
    title = translate("files", "Not saved")
    return Question(parent, "alarm", title, title, why).ask(
        ((translate("files", "Save &as\u2026"), True),), False, way_out=QDialogButtonBox.StandardButton.Close
    )


def what_of_conflict(parent: QWidget, path: Path) -> Conflict:
    """Ask what to do where another program has changed the file meanwhile."""
    question = Question(
        parent,
        "caution",
        translate("files", "Changed by another program"),
        translate("files", "{file} was changed by another program").format(file=path.name),
        translate(
            "files",
            "Nothing has been saved yet. Compare shows both versions side by side. Overwrite saves your version and "
            "keeps the other one in a separate file. Reload opens the other version; undo brings yours back.",
        ),
    )
    return question.ask(
        (
            (translate("files", "&Overwrite"), Conflict.SAVE_OVER),
            (translate("files", "Save &as\u2026"), Conflict.SAVE_AS),
            (translate("files", "&Reload"), Conflict.RELOAD),
        ),
        Conflict.NOTHING,
        apart=((translate("files", "&Compare"), Conflict.COMPARE),),
    )
