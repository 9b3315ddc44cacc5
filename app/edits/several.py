"""Editing several parts of one kind at once: replaced, added, deleted and put into another order in one step."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any, Final, Literal

from app.edits.refused import (
    EditRefused,
    changed,
    must_be_free,
    must_be_index,
    must_exist,
    name_uses,
    with_names_in_order,
)
from app.language import translate
from app.project.model import (
    Action,
    BitSignal,
    Follower,
    HeldSignal,
    HeldValue,
    Part,
    Project,
    RegisterSignal,
    ScreenChange,
)
from app.project.problems import quoted
from app.project.references import RELATIVE_SCREENS, NamedKind, Use, renamed_all, uses_of

ListedKind = Literal["line", "follower", "signal", "screen_change", "action"]
"""The kinds of parts that stand in a list of the project."""
Named = Literal["line", "follower", "signal"]
"""Those of them whose parts have names."""

_LIST: Final[dict[ListedKind, str]] = {
    "line": "lines",
    "follower": "followers",
    "signal": "signals",
    "screen_change": "screen_changes",
    "action": "actions",
}
_MOST_NAMED: Final = 6
_NAMED: Final[dict[ListedKind, NamedKind]] = {"line": "line", "follower": "follower", "signal": "signal"}


def parts_of(project: Project, kind: ListedKind) -> tuple[Any, ...]:
    """The list of a kind."""
    parts: tuple[Any, ...] = getattr(project, _LIST[kind])
    return parts


def index_of(project: Project, kind: Named, name: str) -> int:
    """Where the part of this name stands in its list. Raises EditRefused if there is none."""
    known: Mapping[str, Part] = getattr(project, f"{kind}_named")
    must_exist(kind, name, known)
    part = known[name]
    return next(index for index, other in enumerate(parts_of(project, kind)) if other is part)


def put_parts(project: Project, kind: ListedKind, parts: Mapping[int, Part], added: Sequence[Part] = ()) -> Project:
    """With other parts at some indices of the list, and `added` behind its end.

    A part that has another name than the one in its place renames that: its uses follow, also where several names
    change at once or are exchanged. Refused where a name is taken or would point to nothing.
    """
    before = parts_of(project, kind)
    for index in parts:
        must_be_index(kind, index, len(before))
    parts = {index: part for index, part in parts.items() if part != before[index]}
    if not parts and not added:
        return project
    after = project
    if kind in _NAMED:
        names = {
            before[index].name: name for index, part in parts.items() if (name := _name(part)) != before[index].name
        }
        _names_must_be_free(project, _NAMED[kind], names, [_name(part) for part in added])
        if names:
            after = renamed_all(project, _NAMED[kind], names)
    new = list(parts_of(after, kind))
    for index, part in parts.items():
        new[index] = _following(part, before[index], new[index])
    after = changed(after, **{_LIST[kind]: (*new, *added)})
    steps = [*((before[index], new[index]) for index in parts), *((None, part) for part in added)]
    return after if all(_leads_on(after, old, part) for old, part in steps) else with_names_in_order(after, project)


def change_part(project: Project, kind: ListedKind, index: int, **changes: Any) -> Project:
    """With other attributes of the part at an index of the list; a new name renames it, and its uses follow."""
    parts = parts_of(project, kind)
    must_be_index(kind, index, len(parts))
    return put_parts(project, kind, {index: changed(parts[index], **changes)})


def delete_parts(project: Project, kind: ListedKind, indices: Collection[int]) -> Project:
    """Without some parts. Refused while something that stays uses one of them, with the list of uses."""
    parts = parts_of(project, kind)
    for index in indices:
        must_be_index(kind, index, len(parts))
    gone = frozenset(indices)
    if kind in _NAMED:
        found = uses_that_stay(project, kind, gone)
        if found:
            places = tuple(use for uses in found.values() for use in uses)
            raise EditRefused(_in_use(kind, list(found), places), places)
    kept = tuple(part for index, part in enumerate(parts) if index not in gone)
    return project if len(kept) == len(parts) else changed(project, **{_LIST[kind]: kept})


def uses_that_stay(project: Project, kind: ListedKind, indices: Collection[int]) -> dict[str, tuple[Use, ...]]:
    """Of the parts at `indices` that something else uses: the name and those uses that do not stand in one of them."""
    parts = parts_of(project, kind)
    gone = frozenset(indices)
    found = uses_of(project, _NAMED[kind], [parts[index].name for index in sorted(gone)])
    staying = {
        name: tuple(use for use in uses if not (use.place[0] == kind and use.place[1] in gone))
        for name, uses in found.items()
    }
    return {name: uses for name, uses in staying.items() if uses}


def order_parts(project: Project, kind: ListedKind, order: Sequence[int]) -> Project:
    """With the list in another order: `order` names every index once, the one that is to stand first, first."""
    parts = parts_of(project, kind)
    if sorted(order) != list(range(len(parts))):
        raise EditRefused(translate("edits", "the new order must contain every part once"))
    if list(order) == list(range(len(parts))):
        return project
    return changed(project, **{_LIST[kind]: tuple(parts[index] for index in order)})


def shifted_order(count: int, indices: Collection[int], way: Literal[-1, 1]) -> tuple[int, ...]:
    """The order in which some of `count` parts are one place further up (-1) or down (1), as far as there is room."""
    order = list(range(count))
    chosen = set(indices)
    for place in range(count) if way < 0 else range(count - 1, -1, -1):
        to = place + way
        if order[place] in chosen and 0 <= to < count and order[to] not in chosen:
            order[place], order[to] = order[to], order[place]
    return tuple(order)


def _in_use(kind: ListedKind, names: Sequence[str], places: Sequence[Use]) -> str:
    if len(names) == 1:
        text = {
            "signal": translate("edits", "signal {name} cannot be deleted: it is used by {places}"),
            "follower": translate("edits", "device {name} cannot be deleted: it is used by {places}"),
            "line": translate("edits", "line {name} cannot be deleted: it is used by {places}"),
        }[kind]
        return text.format(name=quoted(names[0]), places=name_uses(places))
    shown = ", ".join(quoted(name) for name in names[:_MOST_NAMED])
    if len(names) > _MOST_NAMED:
        shown = translate("edits", "{names} and others").format(names=shown)
    return translate("edits", "{names} cannot be deleted: they are used by {places}").format(
        names=shown, places=name_uses(places)
    )


def _name(part: Any) -> str:
    name: str = part.name
    return name


def _names_must_be_free(project: Project, kind: NamedKind, names: Mapping[str, str], added: Sequence[str]) -> None:
    """Names may be taken over from parts that get another one in the same step."""
    known: Mapping[str, Any] = getattr(project, f"{kind}_named")
    new: set[str] = set()
    for name in (*names.values(), *added):
        if name in new or (name in known and name not in names):
            must_be_free(kind, name, {name})
        new.add(name)


def _following(part: Part, before: Part, renamed: Part) -> Part:
    """`part`; the bit of a signal that got another name in the same step follows it, unless it was given another."""
    if not (isinstance(part, BitSignal) and isinstance(before, BitSignal) and isinstance(renamed, BitSignal)):
        return part
    if part.bit.of != before.bit.of or renamed.bit.of == before.bit.of:
        return part
    return changed(part, bit=changed(part.bit, of=renamed.bit.of))


def _leads_on(project: Project, before: Part | None, part: Part) -> bool:
    """Whether it is plain without looking at the whole project that a new part leaves no name pointing to nothing."""
    if before is not None and type(before) is not type(part):
        return False
    if before is not None and getattr(before, "texts_in", None) != getattr(part, "texts_in", None):
        return False
    if before is None and getattr(part, "texts_in", None):
        return False
    if isinstance(part, RegisterSignal):
        return part.follower in project.follower_named
    if isinstance(part, BitSignal):
        word = project.signal_named.get(part.bit.of)
        return word is not None and not isinstance(word, BitSignal)
    if isinstance(part, Follower):
        return part.line in project.line_named
    return rule_leads_on(project, part) if isinstance(part, ScreenChange | Action) else True


def rule_leads_on(project: Project, rule: ScreenChange | Action) -> bool:
    """Whether all that a screen change or an action names is there: screens, a key, signals."""
    signals, screens = project.signal_named, project.screen_named
    named = [] if rule.when is None else [rule.when.signal]
    if isinstance(rule, ScreenChange):
        if rule.to not in screens and rule.to not in RELATIVE_SCREENS:
            return False
    else:
        named += [] if rule.signal is None else [rule.signal]
        if isinstance(rule.value, HeldValue) and not isinstance(signals.get(rule.value.from_), HeldSignal):
            return False
    if rule.from_ is not None and rule.from_ not in screens:
        return False
    return (rule.key is None or rule.key in project.panel.keys) and all(name in signals for name in named)
