"""What the XML of a worksheet says and the library that reads it does not: its extent, unsaved results, errors.

Source of the names: ECMA-376, part 1, SpreadsheetML: c is a cell, its r where it stands, its t what it holds, f a
formula and v the value that was saved.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from app.exchange.sheet import MOST_COLUMNS, MOST_ROWS, CannotRead, Progress
from app.language import translate

_FAR_OUTSIDE: Final = re.compile(
    rb""" r *= *["'](?:(?:[A-Za-z]{3,}|[Ii][W-Zw-z]|[J-Zj-z][A-Za-z])[0-9]+|[A-Za-z]{0,2}[0-9]{6,})["']"""
)
"""A cell or a row beyond column IV, the 256th, or row 99 999: MOST_COLUMNS and MOST_ROWS, found without counting."""
_BLANKS: Final = bytes.maketrans(b"\t\r\n", b"   ")
_FORMULAS_BEGIN: Final = (b"<f>", b"<f ", b"<f/", b":f>", b":f ", b":f/")
_FORMULA: Final = re.compile(
    rb"<(?:\w+:)?c\s([^>]*)>\s*<(?:\w+:)?f\b(?:[^>]*/>|[^>]*>[^<]*</(?:\w+:)?f>)\s*(?:<(?:\w+:)?v[^>]*>([^<]*)<)?"
)
_PLACE: Final = re.compile(rb'(?:^|\s)r="([A-Za-z]+)([0-9]+)"')
_ERROR_CELL: Final = re.compile(
    rb"""<(?:\w+:)?c\s([^>]*?\bt\s*=\s*["']e["'][^>]*)>.*?<(?:\w+:)?v[^>]*>\s*([^<]*?)\s*<""", re.DOTALL
)
_PIECE: Final = 1024 * 1024
"""Bytes that are searched at once: meanwhile nothing else of the program runs."""

_REFERENCE: Final = 64
"""More bytes than a reference to a cell has."""


@dataclass(slots=True)
class Oddities:
    """Cells that need a word, by row and column, from 0."""

    without_result: set[tuple[int, int]] = field(default_factory=set)
    """Formulas whose result was not saved."""
    errors: dict[tuple[int, int], str] = field(default_factory=dict)
    """Errors by their names; the library gives such cells as empty."""


def look_through(content: bytes, progress: Progress, first: float, last: float) -> Oddities:
    """Look through the XML of a worksheet. `progress` is told parts from `first` to `last`.

    Raises CannotRead if a cell stands far outside: the library lays a sheet out as a full rectangle, and one cell at
    its far end would take all the memory there is.
    """
    found = Oddities()
    for at, piece in _pieces(content):
        progress(first + (last - first) * at / len(content))
        _must_be_of_usual_size(piece)
        if any(begin in piece for begin in _FORMULAS_BEGIN):
            _add_without_result(piece, found)
        if b'"e"' in piece or b"'e'" in piece:
            _add_errors(piece, found)
    return found


def _pieces(content: bytes) -> Iterator[tuple[int, bytes]]:
    """The content in pieces that end behind a row, each with its place."""
    at = 0
    while at < len(content):
        end = content.find(b"row>", at + _PIECE, at + 16 * _PIECE)
        if end >= 0:
            yield at, content[at : (end := end + 4)]
        else:
            end = at + 16 * _PIECE
            yield at, content[at : end + _REFERENCE]  # what is cut apart here is whole in one of both
        at = end


def _must_be_of_usual_size(piece: bytes) -> None:
    far = _FAR_OUTSIDE.search(piece.translate(_BLANKS))
    if far is not None:
        place = re.sub(rb"""^ r *= *|["']""", b"", far[0]).decode("ascii", "replace")
        raise CannotRead(
            translate(
                "exchange",
                "The sheet extends to {place}; at most {rows} rows and {columns} columns are read. Delete cells far "
                "outside the list, or split the list.",
            ).format(place=place[:20], rows=MOST_ROWS, columns=MOST_COLUMNS)
        )


def _add_without_result(piece: bytes, found: Oddities) -> None:
    for attributes, result in _FORMULA.findall(piece):
        place = _PLACE.search(attributes)
        if not result.strip() and b't="str"' not in attributes and place is not None:
            found.without_result.add((int(place[2]) - 1, _column(place[1])))


def _add_errors(piece: bytes, found: Oddities) -> None:
    for attributes, text in _ERROR_CELL.findall(piece):
        place = _PLACE.search(attributes)
        if place is not None:
            found.errors[int(place[2]) - 1, _column(place[1])] = text.decode("ascii", "replace")


def _column(letters: bytes) -> int:
    number = 0
    for letter in letters.upper():
        number = number * 26 + letter - 64
    return number - 1
