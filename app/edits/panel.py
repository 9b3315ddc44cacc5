"""Editing the panel itself, and the title and notes of the project."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from app.edits.refused import (
    EditRefused,
    changed,
    must_be_free,
    must_be_unused,
    must_exist,
    name_uses,
)
from app.language import translate
from app.project.model import Project, RepertoireName, Screen
from app.project.paths import in_words
from app.project.problems import Place
from app.project.references import Use, renamed


def set_size(project: Project, rows: int, columns: int) -> Project:
    """With another number of rows and columns. Refused where text or fields would fall outside, with their list."""
    panel = changed(project.panel, rows=rows, columns=columns)
    if panel == project.panel:
        return project
    outside = tuple(_outside(project, rows, columns))
    if outside:
        why = translate("edits", "{columns} columns and {rows} rows are not enough for {parts}")
        raise EditRefused(why.format(columns=columns, rows=rows, parts=name_uses(outside)), outside)
    screens = tuple(_of_rows(screen, rows) for screen in project.screens)
    return changed(project, panel=panel, screens=screens)


def set_repertoire(project: Project, repertoire: RepertoireName) -> Project:
    """With another set of characters that the panel can show."""
    return _with_panel(project, repertoire=repertoire)


def set_keys(project: Project, keys: Iterable[str]) -> Project:
    """With other keys on the panel. Refused, with the list of uses, where one that goes is used."""
    wanted = tuple(keys)
    for key in wanted:
        if wanted.count(key) > 1:
            why = translate("edits", "there are two keys '{key}'; each key needs a name of its own")
            raise EditRefused(why.format(key=key))
    for key in project.panel.keys:
        if key not in wanted:
            must_be_unused(project, "key", key)
    return _with_panel(project, keys=wanted)


def rename_key(project: Project, key: str, new_key: str) -> Project:
    """With another name for a key; screen changes, actions and the keys of the entry follow."""
    must_exist("key", key, project.panel.keys)
    if new_key == key:
        return project
    must_be_free("key", new_key, project.panel.keys)
    keys = tuple(new_key if each == key else each for each in project.panel.keys)
    return renamed(_with_panel(project, keys=keys), "key", key, new_key)


def set_start(project: Project, screen_name: str) -> Project:
    """With another first screen."""
    must_exist("screen", screen_name, project.screen_named)
    return _with_panel(project, start=screen_name)


def change_entry(project: Project, **changes: Any) -> Project:
    """With other keys, another way or another time-out of the entry (see EntryKeys)."""
    return _with_panel(project, entry=changed(project.panel.entry, **changes))


def set_title(project: Project, title: str) -> Project:
    """With another title."""
    return project if title == project.title else changed(project, title=title)


def set_notes(project: Project, notes: str) -> Project:
    """With other notes of the project."""
    return project if notes == project.notes else changed(project, notes=notes)


def _with_panel(project: Project, **changes: Any) -> Project:
    panel = changed(project.panel, **changes)
    return project if panel == project.panel else changed(project, panel=panel)


def _of_rows(screen: Screen, rows: int) -> Screen:
    """The screen with as many rows of text in every language; more only where text stood outside the panel before."""
    text = _text_of_rows(screen.text, rows)
    text_in = {language: _text_of_rows(others, rows) for language, others in screen.text_in.items()}
    return screen if (text, text_in) == (screen.text, screen.text_in) else changed(screen, text=text, text_in=text_in)


def _text_of_rows(text: tuple[str, ...], rows: int) -> tuple[str, ...]:
    kept = list(text)
    while len(kept) > rows and not kept[-1].strip(" "):
        kept.pop()
    return (*kept, *[""] * (rows - len(kept))) if kept else ()


def _outside(project: Project, rows: int, columns: int) -> Iterable[Use]:
    """The rows of text and the fields that would leave the panel."""
    panel = project.panel

    def leaves(row: int, end: int) -> bool:
        return (row >= rows or end > columns) and row < panel.rows and end <= panel.columns

    for number, screen in enumerate(project.screens):
        written: list[tuple[Place, tuple[str, ...]]] = [(("text",), screen.text)]
        written += [(("text_in", language), text) for language, text in screen.text_in.items()]
        places: list[Place] = [
            ("screen", number, *keys, row)
            for keys, text in written
            for row, line in enumerate(text)
            if line.strip(" ") and leaves(row, len(line.rstrip(" ")))
        ]
        places += [
            ("screen", number, "field", index)
            for index, field in enumerate(screen.fields)
            if leaves(field.at[0], field.at[1] + field.width)
        ]
        for place in places:
            yield Use(in_words(project, place), place)
