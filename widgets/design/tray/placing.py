"""What a signal becomes where it is placed on a screen: its label, a field of the right kind and width, its unit."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from PySide6.QtCore import QCoreApplication

from app import edits
from app.edits.rows import BLANK, full_rows
from app.project.capability import cannot_write
from app.project.model import Field, Project, Screen
from app.signals.repertoire import characters
from widgets.document.document import Edit
from widgets.face.sample_values import likely_kind, width_needed

translate = QCoreApplication.translate

Run = tuple[int, int, str]
"""Row, column and text, counted from 0."""
_LEAST_OF_WORD: Final = 3
"""Letters of a word that are left at least where a label is shortened."""
_SPELLED: Final = {"\N{GREEK SMALL LETTER MU}": "u", "\N{MICRO SIGN}": "u", "\N{DOT OPERATOR}": "*"}


@dataclass(frozen=True, slots=True)
class Placement:
    """One signal on one screen."""

    field: Field
    texts: tuple[Run, ...]
    behind: tuple[int, int]
    """Where the cursor goes on."""
    unit: str
    """As it stands behind the field; empty if it has none there."""
    room: int
    """Cells that there are from the beginning of the field on."""

    @property
    def label(self) -> str:
        """As it stands before the field; empty if it has none there."""
        return next((text for row, column, text in self.texts if column < self.field.at[1]), "")


class NoRoom(Exception):
    """A signal cannot be placed there; why, in words. `run` are the cells that it would take."""

    def __init__(self, why: str, run: tuple[int, int, int]) -> None:
        super().__init__(why)
        self.run = run


def placement(
    project: Project, screen: Screen, name: str, cell: tuple[int, int], *, value_only: bool = False
) -> Placement:
    """What `name` becomes at this cell of `screen`, whose texts are those of the language that is shown.

    On an empty row label, value and unit share the whole row; elsewhere, and with `value_only`, the value begins at
    the cell. Raises NoRoom.
    """
    row, column = cell
    kind, width = likely_kind(project, name), width_needed(project, name, likely_kind(project, name))
    columns = project.panel.columns
    text = full_rows(project, screen.text)[row]
    taken = {
        at for field in screen.fields if field.at[0] == row for at in range(field.at[1], field.at[1] + field.width)
    }
    taken |= {at for at, character in enumerate(text[:columns]) if character != BLANK}
    unit = unit_of(project, name)
    if not taken and not value_only:
        if width > columns:
            raise NoRoom(_too_narrow(name, width, columns), (row, 0, columns))
        end = _end_like_above(project, screen, row, name, width, unit)
        return in_row(project, name, row, end)
    room = next((at for at in range(column, columns) if at in taken), columns) - column
    if room < width:
        raise NoRoom(_too_narrow(name, width, room), (row, column, max(1, min(width, columns - column))))
    field = _field(project, name, kind, (row, column), width)
    end = column + width
    stands_there = bool(unit) and text[end:].lstrip().startswith(unit)
    if value_only or stands_there or room < width + 1 + len(unit):
        unit = ""
    texts = ((row, end + 1, unit),) if unit else ()
    return Placement(field, texts, _behind(project, row, end + (1 + len(unit) if unit else 0)), unit, room)


def in_row(project: Project, name: str, row: int, end: int = 0, *, label: str | None = None) -> Placement:
    """Label, value and unit of a signal over an empty row; the value ends before column `end`, 0: as far right as can.

    The label is shortened as far as it must be; the unit is left out where the value needs its room.
    """
    columns = project.panel.columns
    kind = likely_kind(project, name)
    width = min(width_needed(project, name, kind), columns)
    unit = unit_of(project, name)
    if width + 1 + len(unit) > columns:
        unit = ""
    end = min(end or columns, columns - (1 + len(unit) if unit else 0))
    start = max(end - width, 0)
    room = start - 1
    words = shortened(writable(project, name if label is None else label), room) if room > 0 else ""
    texts = [(row, 0, words)] if words else []
    if unit:
        texts.append((row, start + width + 1, unit))
    field = _field(project, name, kind, (row, start), width)
    # The row is laid out, whatever cells are left of it: the next signal goes into the next one.
    return Placement(field, tuple(texts), _behind(project, row, columns), unit, columns)


def edit_of(screen: str, placed: Sequence[Placement], spoken: Callable[[Edit, str], Edit]) -> Edit:
    """Place these on a screen as one edit; `spoken` makes an edit of text one of the language that is shown."""

    def write(project: Project) -> Project:
        for each in placed:
            for row, column, text in each.texts:
                project = edits.type_text(project, screen, row, column, text)
        return project

    def place(project: Project) -> Project:
        project = spoken(write, screen)(project)
        for each in placed:
            project = edits.add_field(project, screen, each.field)
        return project

    return place


def unit_of(project: Project, name: str) -> str:
    """The unit of a signal in characters that the panel has."""
    signal = project.signal_named.get(name)
    return "" if signal is None or likely_kind(project, name) == "choice" else writable(project, signal.unit)


def writable(project: Project, text: str) -> str:
    """The text in characters that the panel has: "m3/h" for "m\N{SUPERSCRIPT THREE}/h" where it must be."""
    known = characters(project.panel.repertoire)
    found = []
    for character in text:
        if character in known:
            found.append(character)
        else:
            plain = _SPELLED.get(character) or unicodedata.normalize("NFKD", character)
            found.append("".join(each for each in plain if each in known))
    return "".join(found)


def shortened(text: str, room: int) -> str:
    """A label in so many cells, beginning with a capital.

    One long word is cut if that is enough, else the last words go; numbers stay, which tell alike ones apart.
    """
    text = " ".join(text.split())
    words = (text[:1].upper() + text[1:]).split()
    while len(" ".join(words)) > room:
        over = len(" ".join(words)) - room
        # The full stop takes a cell, so one letter more goes.
        cuts = [at for at, word in enumerate(words) if word.isalpha() and len(word) - over - 1 >= _LEAST_OF_WORD]
        if cuts:
            at = max(cuts, key=lambda at: (len(words[at]), at))
            words[at] = words[at][: -over - 1] + "."
            break
        going = [at for at, word in enumerate(words) if at and not any(map(str.isdigit, word))]
        if not going:
            rest = "".join(f" {word}" for word in words[1:])
            return (words[0][: max(room - len(rest), 0)].rstrip() + rest)[: max(room, 0)]
        del words[going[-1]]
    return " ".join(words)


def _field(project: Project, name: str, kind: str, at: tuple[int, int], width: int) -> Field:
    return Field.model_validate(
        {"at": at, "width": width, "signal": name, "kind": kind, "entry": _entered(project, name)}
    )


def _entered(project: Project, name: str) -> bool:
    """Whether the operator may enter it: it can be written, and has limits that hold him."""
    signal = project.signal_named.get(name)
    return (
        signal is not None
        and signal.limits is not None
        and signal.limits[0] < signal.limits[1]
        and cannot_write(project, name, Fraction(signal.limits[0])) is None
    )


def _end_like_above(project: Project, screen: Screen, row: int, name: str, width: int, unit: str) -> int:
    """Where the value of the nearest row above ends, if label, value and unit fit around it; else 0."""
    above = [field for field in screen.fields if field.at[0] < row and field.kind == "number"]
    if not above:
        return 0
    nearest = max(above, key=lambda field: (field.at[0], -field.at[1]))
    end = nearest.at[1] + nearest.width
    fits = end + (1 + len(unit) if unit else 0) <= project.panel.columns
    return end if fits and len(writable(project, name)) + 1 + width <= end else 0


def _behind(project: Project, row: int, column: int) -> tuple[int, int]:
    """The cell behind a run, in the next row where it ends at the edge; the last cell of the last row stays."""
    if column < project.panel.columns:
        return row, column
    return (row + 1, 0) if row + 1 < project.panel.rows else (row, project.panel.columns - 1)


def _too_narrow(name: str, needed: int, room: int) -> str:
    if room <= 0:
        return translate("Placing", "there is something else already")
    why = translate("Placing", "\u201c{signal}\u201d needs {needed} cells, and there is room for {room}")
    return why.format(signal=name, needed=needed, room=room)
