"""Where in a project something stands: found by the keys of the file, told in words.

Works alike on a project and on the plain tables of a file that is not a project yet, so that all problems of a bad file
can be told at once, also those that would only show after the others are put right.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Final

from app.language import mark, translate
from app.project.model import Part
from app.project.problems import Place, quoted

_LISTED: Final = {"text": "row", "keys": "key"}
"""What one item of a plain list is called."""

_COUNTED: Final = ("field", "step", "clean_up")
"""Things without a name that are told by their number, inside of others too."""

_CALLED: Final = {
    "project": mark("project", "project"),
    "panel": mark("project", "panel"),
    "line": mark("project", "line"),
    "follower": mark("project", "device"),
    "signal": mark("project", "signal"),
    "screen": mark("project", "screen"),
    "field": mark("project", "field"),
    "screen_change": mark("project", "screen change"),
    "action": mark("project", "action"),
    "key": mark("project", "key"),
    "row": mark("project", "row"),
    "item": mark("project", "item"),
    "text": mark("project", "text"),
    "text_in": mark("project", "text"),
    "bit": mark("project", "bit"),
    "value": mark("project", "value"),
    "when": mark("project", "when"),
    "blink": mark("project", "blink"),
    "entry": mark("project", "entry"),
    "texts": mark("project", "state texts"),
    "texts_in": mark("project", "state texts"),
    "messages": mark("project", "messages"),
    "messages_in": mark("project", "messages"),
    "case": mark("project", "case"),
    "step": mark("project", "step"),
    "clean_up": mark("project", "clean-up step"),
}
"""What people call a thing; other keys of the file have no other name than in the file."""


def kind_name(kind: str) -> str:
    """What people call a kind of things, which the file calls `kind`: "screen", "follower"."""
    return translate("project", _CALLED[kind])


@cache
def attributes(model: type[Part]) -> dict[str, str]:
    """The attribute of a model for each key of the file."""
    return {field.alias or name: name for name, field in model.model_fields.items()}


def at_key(node: object, key: str | int) -> object:
    """What `node` (a part, a table or a list) has under a key of the file, or None."""
    if isinstance(key, int):
        return node[key] if isinstance(node, list | tuple) and 0 <= key < len(node) else None
    if isinstance(node, Part):
        attribute = attributes(type(node)).get(key)
        return None if attribute is None else getattr(node, attribute)
    return node.get(key) if isinstance(node, dict) else None


def follow(node: object, keys: tuple[str, ...], place: Place = ()) -> Iterator[tuple[Place, object]]:
    """All that stands under `keys`, every item of the lists on the way, each with its place."""
    # Level by level: a generator inside a generator for each name would take several times as long.
    level: Iterable[tuple[Place, object]] = _items(place, node)
    for key in keys:
        level = _below(level, key)
    return iter(level)


def _below(level: Iterable[tuple[Place, object]], key: str) -> Iterator[tuple[Place, object]]:
    for place, node in level:
        below = at_key(node, key)
        if below is None:
            continue
        if isinstance(below, list | tuple):
            yield from _items((*place, key), below)
        else:
            yield (*place, key), below


def _items(place: Place, node: object) -> Iterator[tuple[Place, object]]:
    if isinstance(node, list | tuple):
        for index, item in enumerate(node):
            if item is not None and not isinstance(item, list | tuple):
                yield (*place, index), item
    elif node is not None:
        yield place, node


def in_words(root: object, place: Place) -> str:
    """`place` for people, counted from 1: "screen 'run', field 2, blink". The project itself is "project"."""
    words: list[str] = []
    node = root
    listed = ""
    for step in place:
        node = at_key(node, step)
        if isinstance(step, str):
            words.append(kind_name(step) if step in _CALLED else quoted(step)[1:-1])
            listed = "text" if listed == "text_in" else step
            continue
        name = at_key(node, "name")
        if isinstance(name, str) and name:
            words[-1] += f" {quoted(name)}"
        elif len(words) == 1 or listed in _COUNTED:
            words[-1] += f" {step + 1}"
        else:
            words.append(f"{kind_name(_LISTED.get(listed, 'item'))} {step + 1}")
    return ", ".join(words) or kind_name("project")
