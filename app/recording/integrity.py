"""Which rows of a recording can be believed: a damaged file costs what is damaged, and not the rest."""

from __future__ import annotations

import datetime
import json
import sqlite3
from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from app.recording.tables import QUALITIES, SECOND

LONGEST: Final = 20 * 366 * 86_400 * SECOND
"""Microseconds: no time of a recording lies farther from its beginning."""

MOST_IN_BLOCK: Final = 4096
"""Samples: more than this program puts into a block."""

_YEARS: Final = range(1970, 9000)


def _time(column: str) -> str:
    return f"typeof({column}) = 'integer' AND {column} BETWEEN -{LONGEST} AND {LONGEST}"


def _text(*columns: str) -> str:
    return " AND ".join(f"typeof({column}) = 'text'" for column in columns)


_SOUND: Final = {
    "meta": _text("key", "value"),
    "clock": f"{_time('t')} AND {_text('civil')}",
    "signal": f"{_text('name')} AND typeof(words) = 'integer'",
    # Only columns of the index, so that a look at all blocks reads none of their data.
    "block": (
        f"{_time('first')} AND {_time('last')} AND first <= last "
        f"AND typeof(count) = 'integer' AND count BETWEEN 1 AND {MOST_IN_BLOCK} "
        "AND typeof(low) IN ('real', 'null') AND typeof(high) IN ('real', 'null')"
    ),
    "loose": (
        f"{_time('t')} AND typeof(quality) = 'integer' AND quality BETWEEN 0 AND {len(QUALITIES) - 1} "
        "AND typeof(words) = 'blob'"
    ),
    "held": f"{_time('t')} AND {_text('signal', 'value')}",
    "event": f"{_time('t')} AND {_text('kind', 'subject', 'text', 'data')}",
}


def believe_sound_rows(database: sqlite3.Connection) -> list[str]:
    """Have the names of the tables stand for their sound rows from now on; gives the tables that have others too.

    Raises sqlite3.Error if the file is no database. Nothing is written to it.
    """
    harmed = []
    for table, sound in _SOUND.items():
        database.execute(f"CREATE TEMP VIEW {table} AS SELECT * FROM main.{table} WHERE {sound}")
        query = f"SELECT EXISTS (SELECT 1 FROM main.{table} WHERE NOT ({sound}))"
        try:
            (found,) = database.execute(query).fetchone()
        except sqlite3.DatabaseError:
            continue  # whoever asks for its rows is told
        if found:
            harmed.append(table)
    return harmed


def civil_of(text: str) -> datetime.datetime | None:
    """The civil time in a text, with its zone; None if it is none."""
    try:
        found = datetime.datetime.fromisoformat(text)
    except ValueError:
        return None
    return found if found.tzinfo is not None and found.year in _YEARS else None


def fraction_of(text: str) -> Fraction | None:
    """The number in a text; None if it is none, or too large to be meant."""
    if len(text) > 1000 or "e" in text.lower():
        return None
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        return None


def particulars_of(text: str) -> Mapping[str, str] | None:
    """What the JSON text of an event holds; None if it is none."""
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        return None
    if not isinstance(found, dict) or not all(isinstance(value, str) for value in found.values()):
        return None
    return MappingProxyType(found)
