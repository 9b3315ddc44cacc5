"""JSON in one form only, so that the same content gives the same bytes and can be signed.

Keys in order, one a line, UTF-8; no numbers with decimals, which every reader rounds in its own way: they are texts.
"""

from __future__ import annotations

import json
from typing import Any

from pydantic_core import to_json

from app.errors import FanlightError
from app.language import mark


class NotCanonical(FanlightError):
    """A text is not such JSON; the message says where."""


def canonical_json(value: object) -> bytes:
    """The bytes of plain tables, lists, texts, whole numbers, true, false and null. Raises TypeError for all else.

    The first key stands in the first line.
    """
    content: bytes = to_json(_in_order(value), indent=1)
    return (content.replace(b"{\n ", b"{", 1) if content.startswith(b"{\n ") else content) + b"\n"


def parsed_json(content: bytes) -> Any:
    """What stands in such bytes. Raises NotCanonical; a key twice in one table is one of the reasons."""
    try:
        return json.loads(
            content.decode(), object_pairs_hook=_once, parse_float=_no_decimals, parse_constant=_no_decimals
        )
    except UnicodeDecodeError:
        raise NotCanonical(mark("trial", "it is not UTF-8")) from None
    except json.JSONDecodeError as error:
        raise NotCanonical(
            mark("trial", "line {line}: it is not JSON ({what})"), line=error.lineno, what=error.msg
        ) from None
    except RecursionError:
        raise NotCanonical(mark("trial", "it is nested too deeply")) from None


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    table = dict(pairs)
    if len(table) < len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise NotCanonical(mark("trial", "the key '{key}' stands twice in one table"), key=twice)
    return table


def _no_decimals(text: str) -> Any:
    raise NotCanonical(
        mark("trial", "{number} is a number with decimals, which such a file does not have"), number=text
    )


def _in_order(value: object) -> object:
    if isinstance(value, dict):
        return {key: _in_order(value[key]) for key in sorted(value)}
    if isinstance(value, list | tuple):
        return [_in_order(part) for part in value]
    if value is None or isinstance(value, str | int):
        return value
    raise TypeError(f"{type(value).__name__} has no place in such JSON")
