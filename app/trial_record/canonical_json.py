"""JSON in one form only, so that the same content gives the same bytes and can be signed.

Keys in order, one a line, UTF-8; no numbers with decimals, which every reader rounds in its own way: they are texts.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable
from typing import Any, Final

from pydantic_core import to_json

from app.errors import FanlightError
from app.language import mark

DEEPEST: Final = 50
"""Levels at most in what is read: tables and lists in each other, and what stands in the innermost."""
_TOO_DEEP: Final = mark("trial", "it is nested too deeply")


class NotCanonical(FanlightError):
    """A text is not such JSON; the message says where."""


def canonical_json(value: object) -> bytes:
    """The bytes of plain tables, lists, texts, whole numbers, true, false and null.

    The first key stands in the first line. Raises TypeError for all else, ValueError for a text that UTF-8 cannot hold.
    """
    content: bytes = to_json(_in_order(value), indent=1)
    return (content.replace(b"{\n ", b"{", 1) if content.startswith(b"{\n ") else content) + b"\n"


def parsed_json(content: bytes) -> Any:
    """What stands in such bytes. Raises NotCanonical; a key twice in one table is one of the reasons."""
    try:
        found = json.loads(
            content.decode(), object_pairs_hook=_once, parse_float=_no_decimals, parse_constant=_no_decimals
        )
        _look_through(found)
    except UnicodeError:
        raise NotCanonical(mark("trial", "it is not UTF-8")) from None
    except json.JSONDecodeError as error:
        raise NotCanonical(
            mark("trial", "line {line}: it is not JSON ({what})"), line=error.lineno, what=error.msg
        ) from None
    except RecursionError:
        raise NotCanonical(_TOO_DEEP) from None
    except ValueError:  # of int(), which takes only so many digits
        raise NotCanonical(mark("trial", "a number in it has too many digits")) from None
    return found


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    table = dict(pairs)
    if len(table) < len(pairs):
        twice, _ = Counter(key for key, _ in pairs).most_common(1)[0]
        raise NotCanonical(mark("trial", "the key '{key}' stands twice in one table"), key=twice)
    return table


def _look_through(value: object) -> None:
    """Raises NotCanonical if it is too deep, UnicodeEncodeError for half a letter by an escape, which UTF-8 has not."""
    level = [value]
    for _ in range(DEEPEST):
        for part in level:
            if isinstance(part, str) and not part.isascii():
                part.encode()
        level = [part for each in level for part in _parts(each)]
        if not level:
            return
    raise NotCanonical(_TOO_DEEP)


def _parts(value: object) -> Iterable[object]:
    if isinstance(value, dict):
        return (*value, *value.values())
    return value if isinstance(value, list) else ()


def _no_decimals(text: str) -> Any:
    raise NotCanonical(
        mark("trial", "{number} is a number with decimals, which such a file does not have"), number=text
    )


def _in_order(value: object) -> object:
    if isinstance(value, dict):
        if not all(isinstance(key, str) for key in value):
            raise TypeError("a key that is not a text has no place in such JSON")
        return {key: _in_order(value[key]) for key in sorted(value)}
    if isinstance(value, list | tuple):
        return [_in_order(part) for part in value]
    if value is None or isinstance(value, str | int):
        return value
    raise TypeError(f"{type(value).__name__} has no place in such JSON")
