"""Cases that differ in a few words only, put into one with a row for each."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from itertools import groupby, takewhile
from typing import Any, Final

from pydantic import ValidationError

from app.trial.script import HOLE, Case

_LEAST: Final = 3
"""So many cases at least are worth a table."""
_MOST_COLUMNS: Final = 6
_NAMES: Final = {"order": "order", "text": "text", "like": "pattern", "name": "case"}


def folded(cases: Iterable[Case]) -> list[Case]:
    """The same cases, neighbours of one shape folded into one with rows. What is run is the same."""
    found: list[Case] = []
    for _, group in groupby(cases, key=_shape):
        alike = list(group)
        whole = _fold(alike) if len(alike) >= _LEAST else None
        found += alike if whole is None else [whole]
    return found


def _fold(cases: Sequence[Case]) -> Case | None:
    tables = [_written(case) for case in cases]
    places = [place for place in _texts(tables[0]) if len({_at(table, place) for table in tables}) > 1]
    columns: dict[str, tuple[str, ...]] = {}
    merged = _written(cases[0])
    for place in sorted(places, key=lambda place: place != ("name",)):
        values = [str(_at(table, place)) for table in tables]
        start = _beginning(values)
        end = _beginning([value[len(start) :][::-1] for value in values])[::-1]
        parts = tuple(value[len(start) : len(value) - len(end)] for value in values)
        if any(HOLE.search(value) for value in values) or not all(parts):
            return None
        name = next((name for name, known in columns.items() if known == parts), None)
        if name is None:
            wanted = _NAMES.get(str(place[-1]), str(place[-1]))
            number = sum(each.partition(" ")[0] == wanted for each in columns)
            name = f"{wanted} {number + 1}" if number else wanted
            columns[name] = parts
        _put(merged, place, f"{start}{{{name}}}{end}")
    if not columns or len(columns) > _MOST_COLUMNS:
        return None
    merged["each"] = [{name: _cell(parts[row]) for name, parts in columns.items()} for row in range(len(cases))]
    try:
        whole = Case.model_validate(merged, by_alias=True, by_name=False)
        return whole if [_written(case) for case in whole.rows()] == tables else None
    except ValidationError:
        return None


def _beginning(texts: Sequence[str]) -> str:
    """What all texts begin with."""
    alike = takewhile(lambda letters: len(set(letters)) == 1, zip(*texts, strict=False))
    return "".join(letters[0] for letters in alike)


def _cell(text: str) -> Decimal | str:
    """Numbers as numbers, where they are written as a file writes them."""
    return Decimal(text) if text.isdecimal() and (text == "0" or text[0] != "0") else text


def _written(case: Case) -> dict[str, Any]:
    return case.model_dump(by_alias=True, exclude_unset=True)


def _shape(case: Case) -> str:
    """What all cases of one table have in common: everything but what their texts say."""
    if case.each:
        return f"{id(case)}"
    return repr(_without_texts(_written(case)))


def _without_texts(node: object, key: object = "") -> object:
    if isinstance(node, str):
        return str if key in _NAMES else node
    if isinstance(node, dict):
        return {name: _without_texts(value, name) for name, value in node.items()}
    if isinstance(node, list | tuple):
        return [_without_texts(item, key) for item in node]
    return node


def _texts(node: object, place: tuple[str | int, ...] = ()) -> Iterable[tuple[str | int, ...]]:
    if isinstance(node, str) and place[-1] in _NAMES:
        yield place
    elif isinstance(node, dict):
        for name, value in node.items():
            yield from _texts(value, (*place, name))
    elif isinstance(node, list | tuple):
        for number, item in enumerate(node):
            yield from _texts(item, (*place, number))


def _at(node: Any, place: tuple[str | int, ...]) -> object:
    for step in place:
        node = node[step]
    return node


def _put(node: Any, place: tuple[str | int, ...], value: str) -> None:
    for step in place[:-1]:
        node = node[step]
    node[place[-1]] = value
