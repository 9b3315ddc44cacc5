"""A comparison of two projects told in words, for the command line and the window."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from app.comparison.comparison import Change, ChangeKind, Comparison, Difference, ScreenDifference, Sort
from app.language import mark, translate
from app.project.problems import quoted

SIGNS: Final[dict[ChangeKind, str]] = {"added": "+", "removed": "-", "renamed": ">", "changed": "~"}
"""One character a kind, beside the word."""

_LONGEST: Final = 90

_TITLES: Final[dict[tuple[Sort, ChangeKind], str]] = {
    ("line", "added"): mark("comparison", "line {after} added"),
    ("line", "removed"): mark("comparison", "line {before} removed"),
    ("line", "renamed"): mark("comparison", "line {before} renamed to {after}"),
    ("line", "changed"): mark("comparison", "line {after} modified"),
    ("follower", "added"): mark("comparison", "device {after} added"),
    ("follower", "removed"): mark("comparison", "device {before} removed"),
    ("follower", "renamed"): mark("comparison", "device {before} renamed to {after}"),
    ("follower", "changed"): mark("comparison", "device {after} modified"),
    ("signal", "added"): mark("comparison", "signal {after} added"),
    ("signal", "removed"): mark("comparison", "signal {before} removed"),
    ("signal", "renamed"): mark("comparison", "signal {before} renamed to {after}"),
    ("signal", "changed"): mark("comparison", "signal {after} modified"),
    ("screen", "added"): mark("comparison", "screen {after} added"),
    ("screen", "removed"): mark("comparison", "screen {before} removed"),
    ("screen", "renamed"): mark("comparison", "screen {before} renamed to {after}"),
    ("screen", "changed"): mark("comparison", "screen {after} modified"),
    ("field", "added"): mark("comparison", "field added: {after}"),
    ("field", "removed"): mark("comparison", "field removed: {before}"),
    ("field", "changed"): mark("comparison", "field modified: {before}"),
    ("screen_change", "added"): mark("comparison", "screen change added: {after}"),
    ("screen_change", "removed"): mark("comparison", "screen change removed: {before}"),
    ("screen_change", "changed"): mark("comparison", "screen change modified: {before}"),
    ("action", "added"): mark("comparison", "action added: {after}"),
    ("action", "removed"): mark("comparison", "action removed: {before}"),
    ("action", "changed"): mark("comparison", "action modified: {before}"),
}

_ORDERS: Final[dict[Sort, str]] = {
    "line": mark("comparison", "order of lines modified"),
    "follower": mark("comparison", "order of devices modified"),
    "signal": mark("comparison", "order of signals modified"),
    "screen": mark("comparison", "order of screens modified"),
    "screen_change": mark("comparison", "order of screen changes modified"),
    "action": mark("comparison", "order of actions modified"),
}


def title(difference: Difference) -> str:
    """What happened to a part, in a few words."""
    template = translate("comparison", _TITLES[difference.sort, difference.kind])
    return template.format(
        before=_name(difference.sort, difference.before), after=_name(difference.sort, difference.after)
    )


def order_text(sort: Sort) -> str:
    """That parts of a sort stand in another order."""
    return translate("comparison", _ORDERS[sort])


def change_text(change: Change) -> str:
    """One key, before and after."""
    if change.key == "field":
        return translate("comparison", "order of fields modified: {before}, now {after}").format(
            before=change.before, after=change.after
        )
    nothing = translate("comparison", "nothing")
    return translate("comparison", "{key}: {before} -> {after}").format(
        key=change.key, before=_shorten(change.before) or nothing, after=_shorten(change.after) or nothing
    )


def details(difference: Difference) -> Iterator[str]:
    """Everything about one part that changed, a line each."""
    yield from (change_text(change) for change in difference.changes)
    if isinstance(difference, ScreenDifference):
        for field in difference.fields:
            yield f"{SIGNS[field.kind]} {title(field)}"
            yield from (f"    {change_text(change)}" for change in field.changes)


def in_lines(comparison: Comparison) -> Iterator[str]:
    """The whole comparison for a terminal, nothing if both are the same."""
    for head, changes in (
        (translate("comparison", "project modified"), comparison.project),
        (translate("comparison", "panel modified"), comparison.panel),
    ):
        if changes:
            yield f"{SIGNS['changed']} {head}"
            yield from (f"    {change_text(change)}" for change in changes)
    for part in comparison.parts:
        yield f"{SIGNS[part.kind]} {title(part)}"
        yield from (f"    {line}" for line in details(part))
    yield from (f"{SIGNS['changed']} {order_text(sort)}" for sort in comparison.reordered)


def summary(comparison: Comparison) -> str:
    """How much differs, in one line."""
    if comparison.same:
        return translate("comparison", "no differences")
    counts = [
        (translate("comparison", "screens: {count}"), len(comparison.screens)),
        (translate("comparison", "signals: {count}"), len(comparison.signals)),
        (translate("comparison", "lines and devices: {count}"), len(comparison.lines) + len(comparison.followers)),
        (
            translate("comparison", "screen changes and actions: {count}"),
            len(comparison.screen_changes) + len(comparison.actions),
        ),
        (translate("comparison", "panel and project: {count}"), len(comparison.panel) + len(comparison.project)),
        (translate("comparison", "order modified: {count}"), len(comparison.reordered)),
    ]
    parts = ", ".join(words.format(count=count) for words, count in counts if count)
    return translate("comparison", "differences in {parts}").format(parts=parts)


def as_json(comparison: Comparison) -> dict[str, Any]:
    """The whole comparison for another program."""
    return {
        "same": comparison.same,
        "project": [_change(change) for change in comparison.project],
        "panel": [_change(change) for change in comparison.panel],
        "lines": [_part(part) for part in comparison.lines],
        "followers": [_part(part) for part in comparison.followers],
        "signals": [_part(part) for part in comparison.signals],
        "screens": [_part(part) for part in comparison.screens],
        "screen_changes": [_part(part) for part in comparison.screen_changes],
        "actions": [_part(part) for part in comparison.actions],
        "reordered": list(comparison.reordered),
    }


def _change(change: Change) -> dict[str, str]:
    return {"key": change.key, "before": change.before, "after": change.after}


def _part(part: Difference) -> dict[str, Any]:
    told: dict[str, Any] = {
        "kind": part.kind,
        "before": part.before,
        "after": part.after,
        "changes": [_change(change) for change in part.changes],
    }
    if isinstance(part, ScreenDifference):
        told["cells"] = [list(cell) for cell in sorted(part.cells)]
        told["fields"] = [_part(field) for field in part.fields]
    return told


def _name(sort: Sort, text: str) -> str:
    """A name between quotation marks; a part without one by its keys."""
    if sort in ("field", "screen_change", "action"):
        return _shorten(text.removeprefix("{ ").removesuffix(" }"))
    return quoted(text)


def _shorten(text: str) -> str:
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "\u2026"
