"""The signals of a project as a table with a column for each of their keys, as an import reads it back unchanged."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Final, TypeAlias

from app.exchange.quoting import NO_UNIT, quoted
from app.exchange.titles import TITLES, Key
from app.project.attributes import (
    CHOICE,
    NOTES,
    NUMBER,
    OPTIONAL_WHOLE,
    SIGNAL,
    TEXT,
    TEXTS,
    WHOLE,
    YES_NO,
    Kind,
    PartAttribute,
)
from app.project.model import AnySignal, BitSignal, RegisterSignal
from app.project.value_texts import written_languages, written_texts


@dataclass(frozen=True, slots=True)
class Exact:
    """A text that must stay one, whatever it looks like: the start of a string register."""

    text: str


@dataclass(frozen=True, slots=True)
class OneLine:
    """A text in one line, in which an import takes several blanks for one: a name or a unit."""

    text: str


ListedValue: TypeAlias = str | Decimal | Exact | OneLine | None
"""What a cell is to hold; None: nothing."""

ValueGetter: TypeAlias = Callable[[AnySignal], ListedValue]


def _register(read: Callable[[RegisterSignal], ListedValue]) -> ValueGetter:
    return lambda signal: read(signal) if isinstance(signal, RegisterSignal) else None


def _bit(read: Callable[[BitSignal], ListedValue]) -> ValueGetter:
    return lambda signal: read(signal) if isinstance(signal, BitSignal) else None


def _scale(end: str, at: int) -> ValueGetter:
    return _register(lambda signal: None if signal.scale is None else getattr(signal.scale, end)[at])


def _limit(at: int) -> ValueGetter:
    return lambda signal: None if signal.limits is None else signal.limits[at]


def _start(signal: RegisterSignal) -> ListedValue:
    start = signal.start_value
    return Exact(start) if isinstance(start, str) else start


_OWN_WAYS: Final[dict[Key, ValueGetter]] = {
    "register": _register(lambda signal: Decimal(signal.number)),
    "raw_1": _scale("raw", 0),
    "value_1": _scale("value", 0),
    "raw_2": _scale("raw", 1),
    "value_2": _scale("value", 1),
    "lower": _limit(0),
    "upper": _limit(1),
    "texts_in": lambda signal: written_languages(signal.texts_in) or None,
    "start_value": _register(_start),
    "bit_of": _bit(lambda signal: OneLine(signal.bit.of)),
    "bit": _bit(lambda signal: Decimal(signal.bit.number)),
}

_BY_KIND: Final[dict[Kind, Callable[[Any], ListedValue]]] = {
    TEXT: lambda value: OneLine(value) if value else None,
    NOTES: lambda value: value or None,
    CHOICE: lambda value: value,
    YES_NO: lambda value: "yes" if value else "no",
    WHOLE: Decimal,
    OPTIONAL_WHOLE: Decimal,
    NUMBER: lambda value: value,
    TEXTS: lambda value: written_texts(value) or None,
}


def _as_it_is(attribute: PartAttribute) -> ValueGetter:
    def read(signal: AnySignal) -> ListedValue:
        value = getattr(signal, attribute.key, None)
        return None if value is None else _BY_KIND[attribute.kind](value)

    return read


COLUMNS: Final[dict[Key, ValueGetter]] = {
    column.key: _OWN_WAYS.get(column.key) or _as_it_is(attribute)
    for attribute in SIGNAL
    for column in attribute.list_columns
    if column.key in (attribute.key, *_OWN_WAYS)
}
"""How each column reads a signal."""


def titles() -> tuple[str, ...]:
    """The titles of all columns, in English: files go from one place to another."""
    return tuple(TITLES[key] for key in COLUMNS)


def listing(signals: Sequence[AnySignal]) -> list[tuple[ListedValue, ...]]:
    """A row of values for each signal, without the titles."""
    columns = tuple(COLUMNS.values())
    return [tuple(column(signal) for column in columns) for signal in signals]


def written(value: str | Exact | OneLine, *, formulas: bool) -> str:
    """A text as it stands in a cell. `formulas`: nothing that a spreadsheet would calculate stands there bare."""
    if isinstance(value, Exact):
        return quoted(value.text, always=True)
    if isinstance(value, OneLine):
        changed = " ".join(value.text.split()) != value.text or value.text in NO_UNIT
        return quoted(value.text, always=changed, formulas=formulas)
    return quoted(value, formulas=formulas)
