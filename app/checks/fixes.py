"""What fixes a finding: functions from a project and the place of the finding to the project without it.

Each is one edit, and refuses in words what cannot be done. `place` may lead into a part; what lies in the part is named
by `keys` of the file.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, cast

from app import edits
from app.edits import EditRefused
from app.edits.refused import changed, free_name
from app.language import translate
from app.panel.messages import ready_for
from app.project.messages import Known
from app.project.model import BitSignal, Field, HeldSignal, Panel, Part, Project, RegisterSignal, Screen
from app.project.paths import attributes
from app.project.problems import Place, quoted
from app.project.references import RELATIVE_SCREENS

FixFunction = Callable[..., Project]

_P = TypeVar("_P")


def set_at(project: Project, place: Place, keys: Place, value: object) -> Project:
    """With `value` under `keys` of the part at `place`."""
    return _change_at(project, (*_part(place), *keys), lambda _: value)


def set_here(project: Project, place: Place, value: object) -> Project:
    """With `value` at the very place."""
    return _change_at(project, place, lambda _: value)


def set_in_signal(project: Project, _place: Place, name: str, key: str, value: object) -> Project:
    """With `value` under one key of the signal called `name`."""
    return _change_at(project, ("signal", _index_of(project, name), key), lambda _: value)


def set_elsewhere(project: Project, _place: Place, keys: Place, value: object) -> Project:
    """With `value` under keys of the project that lead to another part than the finding is about."""
    return _change_at(project, keys, lambda _: value)


def remove(project: Project, place: Place) -> Project:
    """Without the part at `place`."""
    part = _part(place)
    index = cast("int", part[-1])
    return _change_at(project, part[:-1], lambda parts: (*parts[:index], *parts[index + 1 :]))


def add_screen(project: Project, _place: Place) -> Project:
    """With a screen more."""
    return edits.add_screen(project)


def add_key(project: Project, _place: Place, key: str) -> Project:
    """With a key more on the panel."""
    return edits.set_keys(project, (*project.panel.keys, key))


def rename_apart(project: Project, place: Place) -> Project:
    """With a name of its own for what has a name twice. What uses the name goes on meaning the first of the two."""
    part = _part(place)
    if part[:2] == ("panel", "keys"):
        keys = project.panel.keys
        index = cast("int", part[2])
        return changed(project, panel=changed(project.panel, keys=(*keys[:index], *keys[index + 1 :])))
    kind, index = cast("str", part[0]), cast("int", part[1])
    parts = getattr(project, attributes(Project)[kind])
    taken = {other.name for other in parts} | set(RELATIVE_SCREENS)
    return _change_at(project, (kind, index, "name"), lambda name: free_name(name, taken))


def add_screen_change(project: Project, _place: Place, key: str, source: str, target: str) -> Project:
    """With a screen change by a key from one screen to another."""
    return edits.add_screen_change(project, edits.screen_change(from_=source, key=key, to=target))


def blank_under(project: Project, place: Place, language: str | None = None) -> Project:
    """With blanks under all fields of the row of text that the field at `place` hides a part of.

    `place` may lead to a row of text in a language instead: then it is that row, in that language.
    """
    screen = project.screens[_number(place)]
    row = _field(project, place)[1].at[0] if language is None else cast("int", place[-1])
    keys: Place = ("text", row) if language is None else ("text_in", language, row)

    def blanked(text: str) -> str:
        for field in screen.fields:
            begin, end = field.at[1], field.at[1] + field.width
            if field.at[0] == row and begin >= 0:
                text = text[:begin] + " " * len(text[begin:end]) + text[end:]
        return text.rstrip()

    return _change_at(project, (*place[:2], *keys), blanked)


def reshape_field(project: Project, place: Place, at: tuple[int, int], width: int) -> Project:
    """With the field at `place` at other cells. Refused where they are taken, by another field or by text."""
    screen, _ = _field(project, place)
    index = cast("int", place[3])
    if not is_free(project.panel, screen, at, width, index):
        raise EditRefused(translate("checks", "the cells needed for this are no longer free"))
    return _change_at(project, place[:4], lambda field: changed(field, at=at, width=width))


def add_texts(project: Project, _place: Place, name: str, texts: tuple[tuple[str, str], ...]) -> Project:
    """With more texts for the signal called `name`. Refused where a field has no room for one of them."""
    longest = max(len(text) for _, text in texts)
    for screen in project.screens:
        for number, field in enumerate(screen.fields, start=1):
            if field.signal == name and field.kind == "choice" and field.width < longest:
                raise EditRefused(
                    translate("checks", "field {number} of screen {screen} has no room for these texts").format(
                        number=number, screen=quoted(screen.name)
                    )
                )
    return _change_at(project, ("signal", _index_of(project, name), "texts"), lambda known: {**known, **dict(texts)})


def drop_text(project: Project, place: Place, value: str) -> Project:
    """Without the text of the signal at `place` for one value."""
    return _change_at(
        project,
        (*place[:2], "texts"),
        lambda known: {other: text for other, text in known.items() if other != value},
    )


def fill_messages(project: Project, _place: Place, number: int, known: Known) -> Project:
    """With the words that are ready for the messages that the panel leaves out in its language `number`."""
    return edits.fill_messages(project, number, ready_for(project, known))


# What rules ask before they offer a fix


def is_free(panel: Panel, screen: Screen, at: tuple[int, int], width: int, besides: int) -> bool:
    """Whether the cells lie on the panel and hold neither another field than number `besides` nor text."""
    row, column = at
    if not (0 <= row < panel.rows and column >= 0 and column + width <= panel.columns):
        return False
    own = screen.fields[besides]
    for index, field in enumerate(screen.fields):
        beside = field.at[1] >= column + width or column >= field.at[1] + field.width
        if index != besides and field.at[0] == row and not beside:
            return False
    for rows in (screen.text, *screen.text_in.values()):
        text = rows[row] if row < len(rows) else ""
        for cell in range(column, min(column + width, len(text))):
            under_own = own.at[0] == row and own.at[1] <= cell < own.at[1] + own.width
            if text[cell] != " " and not under_own:
                return False
    return True


def room_for(panel: Panel, screen: Screen, index: int, width: int) -> tuple[int, int] | None:
    """Where field `index` can begin with that width without moving its right or its left end; None if nowhere.

    To the right a blank is kept between the field and what follows; to the left too.
    """
    field = screen.fields[index]
    row, column = field.at
    for begin in (column, column + field.width - width):
        if is_free(panel, screen, (row, begin), width, index):
            return row, begin
    return None


def free_run(panel: Panel, screen: Screen, index: int) -> tuple[int, int] | None:
    """Free cells that field `index` fits in: on its own row if there are some, else the first; None if nowhere."""
    field = screen.fields[index]
    rows = sorted(range(panel.rows), key=lambda row: (row != field.at[0], row))
    for row in rows:
        starts = sorted(range(panel.columns - field.width + 1), key=lambda column: abs(column - field.at[1]))
        for column in starts if row == field.at[0] else sorted(starts):
            if is_free(panel, screen, (row, column), field.width, index) and (row, column) != field.at:
                return row, column
    return None


def writable(signal: RegisterSignal | BitSignal | HeldSignal, word: RegisterSignal | None) -> bool:
    """Whether the registers of a signal stand in a table that can be written."""
    source = signal if isinstance(signal, RegisterSignal) else word
    return source is not None and source.table in ("coil", "holding")


# Reaching into a project


def _part(place: Place) -> Place:
    """The place as far as its last index."""
    ends = [at for at, step in enumerate(place) if isinstance(step, int)]
    return place[: ends[-1] + 1] if ends else place


def _number(place: Place) -> int:
    return cast("int", place[1])


def _field(project: Project, place: Place) -> tuple[Screen, Field]:
    screen = project.screens[_number(place)]
    return screen, screen.fields[cast("int", place[3])]


def _index_of(project: Project, name: str) -> int:
    signal = project.signal_named.get(name)
    if signal is None:
        raise EditRefused(translate("checks", "signal {signal} no longer exists").format(signal=quoted(name)))
    return next(index for index, other in enumerate(project.signals) if other is signal)


def _change_at(node: _P, keys: Place, change: Callable[[Any], object]) -> _P:
    """`node` with what stands under `keys` changed; all else is shared."""
    if not keys:
        return cast("_P", change(node))
    key, rest = keys[0], keys[1:]
    if isinstance(node, tuple):
        index = cast("int", key)
        return cast("_P", (*node[:index], _change_at(node[index], rest, change), *node[index + 1 :]))
    if isinstance(node, dict):
        return cast("_P", {**node, key: _change_at(node[key], rest, change)})
    part = cast("Part", node)
    attribute = attributes(type(part))[cast("str", key)]
    return cast("_P", changed(part, **{attribute: _change_at(getattr(part, attribute), rest, change)}))
