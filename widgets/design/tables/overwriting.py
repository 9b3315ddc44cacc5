"""Whether what is pasted may go over cells that are not selected."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QWidget

from widgets.kit.dialogs.questions import Question

translate = QCoreApplication.translate
MOST_LISTED: Final = 8


class Over(enum.Enum):
    """What becomes of what is pasted."""

    OVERWRITE = enum.auto()
    AS_NEW = enum.auto()
    NOTHING = enum.auto()


@dataclass(frozen=True, slots=True)
class Overwritten:
    """A cell that would be overwritten: the name of its row, its column, what stands there and what would."""

    name: str
    column: str
    old: str
    new: str


def what_of_overwriting(cells: Sequence[Overwritten], replaced: int, pasted: int, parent: QWidget) -> Over:
    """Say which cells would be overwritten, and ask: `replaced` rows of the table by what is pasted, or `pasted` rows
    added.
    """
    lines = [
        translate("Overwriting", "Cells that are not selected would get other contents: {count}").format(
            count=len(cells)
        )
    ]
    lines += [
        translate("Overwriting", "{name}, {column}: {old} \u2192 {new}").format(
            name=cell.name,
            column=cell.column,
            old=cell.old,
            new=cell.new or translate("Overwriting", "(empty)"),
        )
        for cell in cells[:MOST_LISTED]
    ]
    if len(cells) > MOST_LISTED:
        lines.append(translate("Overwriting", "and {count} more").format(count=len(cells) - MOST_LISTED))
    question = Question(
        parent.window(),
        "caution",
        translate("Overwriting", "Paste over cells"),
        translate("Overwriting", "Replace rows: {replaced}, or insert rows: {pasted}?").format(
            replaced=replaced, pasted=pasted
        ),
        "\n".join(lines),
    )
    return question.ask(
        (
            (translate("Overwriting", "&Replace {count}").format(count=replaced), Over.OVERWRITE),
            (translate("Overwriting", "&Insert {count}").format(count=pasted), Over.AS_NEW),
        ),
        Over.NOTHING,
    )
