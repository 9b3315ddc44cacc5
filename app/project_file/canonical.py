"""A project as canonical TOML: equal projects give equal text, and a diff shows what changed.

The keys stand in the order of `layout`. What equals its default is left out, unless the layout states it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from functools import cache, lru_cache
from typing import Final

import tomli_w

from app.project.model import EntryKeys, Panel, Part, Project
from app.project.paths import attributes
from app.project_file.layout import layout_of

_LONGEST_LINE: Final = 120
"""A table that would make a longer line is written out below, a key a line."""

_ROW_BY_ROW: Final = frozenset({"each", "step", "clean_up"})
"""Lists of short tables that are read one below the other: each is a line."""

_LAST: Final = 10**21
"""Behind every number that can be a key."""
_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")


def canonical(project: Project) -> str:
    """The text of the project file, with "\\n" between its lines."""
    return canonical_text(project)


def canonical_text(whole: Part) -> str:
    """The text of any file that a part is the whole of: its keys in the order of the layout, or of its model."""
    return "".join(_table(whole, ""))


def part_text(part: Part, key: str) -> str:
    """What stands in the text of a project for one part of a list; `key` is that of the list."""
    return "".join([f"\n[[{key}]]\n", *_table(part, key)])


def number_text(number: Decimal) -> str:
    """The shortest exact way to write a finite number, never with an exponent: "50", "0.1", "-3"."""
    if number == 0:
        return "0"
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _table(part: Part, path: str) -> Iterator[str]:
    """The lines of a table and of the tables below it."""
    below: list[tuple[str, object]] = []
    for key, value in _contents(part):
        at = f"{path}.{key}" if path else key
        if key in _ROW_BY_ROW and isinstance(value, tuple):
            yield f"{key} = {_lines(map(inline, value))}\n"
        elif isinstance(value, Panel | EntryKeys) or (
            isinstance(value, tuple) and value and isinstance(value[0], Part)
        ):
            below.append((at, value))
        elif isinstance(value, tuple) and key == "text":
            yield f"text = {_rows(value)}\n"
        elif isinstance(value, Mapping) and key == "text_in":
            below.append((at, {language: value[language] for language in sorted(value)}))
        elif isinstance(value, Mapping) and key == "messages":
            below.append((at, value))
        elif isinstance(value, Mapping) and key == "messages_in":
            below += [(f"{at}.{_key(language)}", value[language]) for language in sorted(value)]
        elif key == "notes" and isinstance(value, str):
            yield f"notes = {_long_text(value)}\n"
        else:
            line = f"{key} = {inline(value)}\n"
            if isinstance(value, Mapping) and len(line) > _LONGEST_LINE:
                below.append((at, value))
            else:
                yield line
    for at, value in below:
        if isinstance(value, Part):
            yield f"\n[{at}]\n"
            yield from _table(value, at)
        elif isinstance(value, Mapping):
            yield f"\n[{at}]\n"
            yield from (f"{key} = {content}\n" for key, content in _entries(value, upright=True))
        elif isinstance(value, tuple):
            for item in value:
                yield f"\n[[{at}]]\n"
                yield from _table(item, at)


def _contents(part: Part) -> Iterator[tuple[str, object]]:
    """The keys that are written, in order, with their values."""
    for key, attribute, stated, default in _plan(type(part)):
        value = getattr(part, attribute)
        if stated or value != default:
            yield key, value


@cache
def _plan(model: type[Part]) -> tuple[tuple[str, str, bool, object], ...]:
    layout = layout_of(model)
    named = attributes(model)
    return tuple(
        (key, named[key], key in layout.stated, model.model_fields[named[key]].get_default()) for key in layout.keys
    )


def inline(value: object) -> str:
    """A value on one line."""
    if isinstance(value, Decimal):
        return number_text(value)
    if isinstance(value, tuple):
        return f"[{', '.join(inline(item) for item in value)}]"
    if isinstance(value, Part):
        return f"{{ {', '.join(f'{key} = {inline(content)}' for key, content in _contents(value))} }}"
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{key} = {content}' for key, content in _entries(value))} }}"
    return _scalar(value)


def _entries(entries: Mapping[str, object], *, upright: bool = False) -> Iterator[tuple[str, str]]:
    """Texts in the order of their values, or whatever languages have in the order of their names."""
    for key in sorted(entries, key=_in_order):
        value = entries[key]
        content = _rows(value) if upright and isinstance(value, tuple) else inline(value)
        yield _key(key), content


def _key(key: str) -> str:
    return key if _BARE_KEY.fullmatch(key) else _scalar(key)


def _in_order(key: str) -> tuple[int, str]:
    return (int(key), key) if key.removeprefix("-").isdecimal() else (_LAST, key)


def _rows(rows: tuple[object, ...]) -> str:
    """A list of texts, one below the other as they stand on the panel."""
    return _lines(map(_scalar, rows))


def _lines(items: Iterable[str]) -> str:
    """A list, an item a line."""
    return "[\n" + "".join(f"  {item},\n" for item in items) + "]"


@lru_cache(maxsize=4096, typed=True)
def _scalar(value: object) -> str:
    return tomli_w.dumps({"k": value}).removeprefix("k = ").removesuffix("\n")


def _long_text(text: str) -> str:
    """Remarks of several lines stay several lines, so that a diff shows which one changed."""
    if "\n" not in text or "\r" in text:
        return _scalar(text)
    return tomli_w.dumps({"k": text}, multiline_strings=True).removeprefix("k = ").removesuffix("\n")
