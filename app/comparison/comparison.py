"""Two projects compared by their parts: what was added, removed, renamed or changed from one to the other.

What follows from a new name alone is no difference of its own: fields of a signal that is only called otherwise are the
same. New names are guessed; a part that is called otherwise *and* was much changed is told as removed and added.
"""

from __future__ import annotations

import difflib
from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal, TypeVar

from app.language import translate
from app.project.model import (
    Action,
    BitSignal,
    EntryKeys,
    Field,
    Follower,
    Line,
    Panel,
    Part,
    Project,
    RegisterSignal,
    Screen,
    ScreenChange,
    SerialLine,
    Signal,
)
from app.project.paths import attributes
from app.project.references import NamedKind, renamed
from app.project_file.canonical import inline, part_text
from app.project_file.layout import LAYOUTS

ChangeKind = Literal["added", "removed", "renamed", "changed"]
Sort = Literal["line", "follower", "signal", "screen", "field", "screen_change", "action"]

ALIKE: Final = 0.6
"""From this likeness of words and fields on, 0 to 1, a screen that is gone and a new one are taken for the same."""


@dataclass(frozen=True, slots=True)
class Change:
    """One key of the file with another content. The texts are as in the file; empty where the key is not there."""

    key: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Difference:
    """One part that differs. `before` and `after` name it on both sides (empty where it is not there)."""

    sort: Sort
    kind: ChangeKind
    before: str
    after: str
    changes: tuple[Change, ...] = ()
    indexes: tuple[int | None, int | None] = (None, None)
    """Where it stands in its list, counted from 0, on both sides."""


@dataclass(frozen=True, slots=True)
class ScreenDifference(Difference):
    """A screen that differs, down to its cells."""

    cells: frozenset[tuple[int, int]] = frozenset()
    """Row and column, from 0, of the cells whose static text differs in the first language."""
    fields: tuple[Difference, ...] = ()
    """Added, removed and changed fields. Their indexes are those in the screen's tuple."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """All that differs between two projects, in the order of the file."""

    project: tuple[Change, ...] = ()
    panel: tuple[Change, ...] = ()
    lines: tuple[Difference, ...] = ()
    followers: tuple[Difference, ...] = ()
    signals: tuple[Difference, ...] = ()
    screens: tuple[ScreenDifference, ...] = ()
    screen_changes: tuple[Difference, ...] = ()
    actions: tuple[Difference, ...] = ()
    reordered: tuple[Sort, ...] = ()
    """Parts that stand in another order, apart from those that were added or removed."""

    @property
    def same(self) -> bool:
        """Whether nothing differs."""
        return not (self.project or self.panel or self.reordered or self.parts)

    @property
    def parts(self) -> tuple[Difference, ...]:
        """The parts that differ, in the order of the file."""
        return (*self.lines, *self.followers, *self.signals, *self.screens, *self.screen_changes, *self.actions)


def compare(before: Project, after: Project) -> Comparison:
    """What differs from `before` to `after`."""
    reordered: list[Sort] = []
    project, lines = _match_names(before, before.lines, after.lines, "line", _likely_line, reordered)
    project, followers = _match_names(
        project, project.followers, after.followers, "follower", _likely_follower, reordered
    )
    project, signals = _match_names(project, project.signals, after.signals, "signal", _likely_signal, reordered)
    project, screens = _screens(project, after, reordered)
    return Comparison(
        project=_changes(
            before, after, leave=("panel", "line", "follower", "signal", "screen", "screen_change", "action")
        ),
        panel=_changes(project.panel, after.panel),
        lines=lines,
        followers=followers,
        signals=signals,
        screens=screens,
        screen_changes=_compare_unnamed("screen_change", project.screen_changes, after.screen_changes, reordered),
        actions=_compare_unnamed("action", project.actions, after.actions, reordered),
        reordered=tuple(reordered),
    )


# Keys ---------------------------------------------------------------------------------------------------------------


def _changes(before: Part, after: Part, *, leave: Sequence[str] = (), prefix: str = "") -> tuple[Change, ...]:
    """The keys that differ between two parts, which may be of different kinds."""
    return tuple(_each_change(before, after, leave, prefix))


def _each_change(before: Part, after: Part, leave: Sequence[str], prefix: str) -> Iterator[Change]:
    old_names, new_names = attributes(type(before)), attributes(type(after))
    for key in dict.fromkeys((*LAYOUTS[type(before)].keys, *LAYOUTS[type(after)].keys)):
        if key in leave:
            continue
        old = getattr(before, old_names[key]) if key in old_names else None
        new = getattr(after, new_names[key]) if key in new_names else None
        if old == new:
            continue
        if isinstance(old, EntryKeys) and isinstance(new, EntryKeys):
            yield from _each_change(old, new, (), f"{prefix}{key}.")
        elif isinstance(old, Mapping) or isinstance(new, Mapping):
            yield from _entries(f"{prefix}{key}", old or {}, new or {})
        elif key == "text":
            yield from _rows(f"{prefix}{key}", old or (), new or ())
        else:
            yield Change(prefix + key, _text(old), _text(new))


def _entries(key: str, old: Mapping[str, object], new: Mapping[str, object]) -> Iterator[Change]:
    for entry in dict.fromkeys((*old, *new)):
        before, after = old.get(entry), new.get(entry)
        if before == after:
            continue
        at = f"{key}.{entry}"
        if isinstance(before, Mapping) or isinstance(after, Mapping):
            yield from _entries(at, _mapping(before), _mapping(after))
        elif isinstance(before, tuple) or isinstance(after, tuple):
            yield from _rows(at, before if isinstance(before, tuple) else (), after if isinstance(after, tuple) else ())
        else:
            yield Change(at, _text(before), _text(after))


def _mapping(value: object) -> Mapping[str, object]:
    return value if isinstance(value, Mapping) else {}


def _rows(key: str, old: Sequence[object], new: Sequence[object]) -> Iterator[Change]:
    """The rows of a text, counted from 1."""
    for row in range(max(len(old), len(new))):
        before, after = (_text(rows[row]) if row < len(rows) else "" for rows in (old, new))
        if before != after:
            yield Change(translate("comparison", "{key}, row {number}").format(key=key, number=row + 1), before, after)


def _text(value: object) -> str:
    return "" if value is None else inline(value)


# Parts with names ---------------------------------------------------------------------------------------------------

_N = Line | Follower | Signal | Screen
_Tell = Callable[[Any], Hashable]
"""What tells a part from others of its sort; None where nothing does."""


def _match_names(
    project: Project,
    before: Sequence[_N],
    after: Sequence[_N],
    sort: Literal["line", "follower", "signal"],
    likely: _Tell,
    reordered: list[Sort],
) -> tuple[Project, tuple[Difference, ...]]:
    """`project` with the new names of its parts of one sort, and what differs."""
    pairs = _new_names(before, after, (_but_the_name, likely))
    project, before = _with_names(project, sort, before, pairs)
    return project, tuple(_differences(sort, before, after, pairs, reordered))


def _differences(
    sort: Sort, before: Sequence[_N], after: Sequence[_N], pairs: Mapping[str, str], reordered: list[Sort]
) -> Iterator[Difference]:
    """Parts whose names agree by now; `pairs` are the new names of those that had others."""
    former = {new: old for old, new in pairs.items()}
    old, new = _by_name(before), _by_name(after)
    common = [name for name in new if name in old]
    if common != [name for name in old if name in new]:
        reordered.append(sort)
    for place in _merge_keys(old, new):
        name = place[0]
        if place not in new:
            yield Difference(sort, "removed", name, "", indexes=(old[place][0], None))
        elif place not in old:
            yield Difference(sort, "added", "", name, indexes=(None, new[place][0]))
        else:
            (at, then), (at_now, now) = old[place], new[place]
            changes = () if then is now else _changes(then, now, leave=("name",))
            kind: ChangeKind = "renamed" if name in former else "changed"
            if changes or kind == "renamed":
                yield Difference(sort, kind, former.get(name, name), name, changes, (at, at_now))


def _by_name(parts: Sequence[_N]) -> dict[tuple[str, int], tuple[int, _N]]:
    """Parts by their name; of those with one name the second is numbered 1, and so on."""
    seen: Counter[str] = Counter()
    found: dict[tuple[str, int], tuple[int, _N]] = {}
    for index, part in enumerate(parts):
        found[part.name, seen[part.name]] = (index, part)
        seen[part.name] += 1
    return found


_K = TypeVar("_K", bound=Hashable)


def _merge_keys(old: Mapping[_K, object], new: Mapping[_K, object]) -> list[_K]:
    """The keys of both in one order: that of the new ones, the removed ones behind what they stood behind."""
    order = list(new)
    last: _K | None = None
    for key in old:
        if key not in new:
            order.insert(order.index(last) + 1 if last is not None else 0, key)
        last = key
    return order


def _new_names(before: Sequence[_N], after: Sequence[_N], tells: Sequence[_Tell]) -> dict[str, str]:
    """New names by old ones: of parts that are gone and parts that are new, those that one of `tells` makes equal."""
    old_names, new_names = {part.name for part in before}, {part.name for part in after}
    gone = [part for part in before if part.name not in new_names]
    fresh = [part for part in after if part.name not in old_names]
    pairs: dict[str, str] = {}
    for tell in tells:
        old, new = _only(gone, tell), _only(fresh, tell)
        for key, part in old.items():
            if key in new:
                pairs[part.name] = new[key].name
        gone = [part for part in gone if part.name not in pairs]
        taken = set(pairs.values())
        fresh = [part for part in fresh if part.name not in taken]
    return pairs


def _only(parts: Iterable[_N], tell: _Tell) -> dict[Hashable, _N]:
    """Parts by what tells them, where that is not None and tells only one."""
    found: dict[Hashable, list[_N]] = {}
    for part in parts:
        found.setdefault(tell(part), []).append(part)
    return {key: same[0] for key, same in found.items() if key is not None and len(same) == 1}


def _but_the_name(part: Part) -> Hashable:
    return part_text(part.model_copy(update={"name": ""}), type(part).__name__)


def _likely_line(line: Line) -> Hashable:
    return (line.kind, line.device) if isinstance(line, SerialLine) else (line.kind, line.host, line.port)


def _likely_follower(follower: Follower) -> Hashable:
    return follower.line, follower.unit


def _likely_signal(signal: Signal) -> Hashable:
    if isinstance(signal, RegisterSignal):
        return signal.follower, signal.table, signal.number, signal.encoding
    if isinstance(signal, BitSignal):
        return signal.bit.of, signal.bit.number
    return None


def _with_names(
    project: Project, kind: NamedKind, parts: Sequence[_N], pairs: Mapping[str, str]
) -> tuple[Project, Sequence[_N]]:
    """`project` and its parts with new names, wherever they are used."""
    if not pairs:
        return project, parts
    attribute = attributes(Project)[kind]
    for old, new in pairs.items():
        project = renamed(project, kind, old, new)
    parts = tuple(
        part.replace(name=pairs[part.name]) if part.name in pairs else part for part in getattr(project, attribute)
    )
    return project.model_copy(update={attribute: parts}), parts


# Screens ------------------------------------------------------------------------------------------------------------


def _screens(before: Project, after: Project, reordered: list[Sort]) -> tuple[Project, tuple[ScreenDifference, ...]]:
    pairs = _new_names(before.screens, after.screens, (_but_the_name,))
    pairs |= _alike(before.screens, after.screens, pairs)
    project, screens = _with_names(before, "screen", before.screens, pairs)
    found = []
    for each in _differences("screen", screens, after.screens, pairs, reordered):
        at, at_now = each.indexes
        then = None if at is None else project.screens[at]
        now = None if at_now is None else after.screens[at_now]
        fields, order = _fields(() if then is None else then.fields, () if now is None else now.fields)
        changes = tuple(change for change in each.changes if change.key != "field") + order
        if then is None or now is None:
            fields = ()
        cells = _cells(then, now, before.panel, after.panel)
        found.append(
            ScreenDifference("screen", each.kind, each.before, each.after, changes, each.indexes, cells, fields)
        )
    return project, tuple(found)


def _alike(before: Sequence[Screen], after: Sequence[Screen], pairs: Mapping[str, str]) -> dict[str, str]:
    """New names of screens that were changed a little too: the most similar first."""
    old_names, new_names = {screen.name for screen in before}, {screen.name for screen in after}
    taken = set(pairs.values())
    gone = [screen for screen in before if screen.name not in new_names and screen.name not in pairs]
    fresh = [screen for screen in after if screen.name not in old_names and screen.name not in taken]
    if len(gone) * len(fresh) > 2500:  # another project altogether
        return {}
    ratios = sorted(
        ((_likeness(old, new), place, old.name, new.name) for place, old in enumerate(gone) for new in fresh),
        key=lambda each: (-each[0], each[1]),
    )
    found: dict[str, str] = {}
    for ratio, _, old_name, new_name in ratios:
        if ratio >= ALIKE and old_name not in found and new_name not in found.values():
            found[old_name] = new_name
    return found


def _likeness(old: Screen, new: Screen) -> float:
    matcher = difflib.SequenceMatcher(None, _content(old), _content(new), autojunk=False)
    if not any(_content(old)) or matcher.real_quick_ratio() < ALIKE or matcher.quick_ratio() < ALIKE:
        return 0.0  # of empty screens nobody can say which is which
    return matcher.ratio()


def _content(screen: Screen) -> list[str]:
    words = [word for row in screen.text for word in row.split()]
    return words + [field.signal for field in screen.fields]


def _cells(then: Screen | None, now: Screen | None, old: Panel, new: Panel) -> frozenset[tuple[int, int]]:
    """The cells of either panel where the static text differs."""
    if then is None or now is None:
        return frozenset()
    rows, columns = max(old.rows, new.rows), max(old.columns, new.columns)
    found = set()
    for row in range(rows):
        before, after = (
            (screen.text[row] if row < len(screen.text) else "").ljust(columns)[:columns] for screen in (then, now)
        )
        if before != after:
            found |= {(row, column) for column in range(columns) if before[column] != after[column]}
    return frozenset(found)


def _fields(before: Sequence[Field], after: Sequence[Field]) -> tuple[tuple[Difference, ...], tuple[Change, ...]]:
    """What differs among the fields of a screen, and whether those that are left stand in another order."""
    tells: tuple[_Tell, ...] = (
        lambda field: part_text(field, "field"),
        lambda field: (field.signal, field.kind, field.at[0]),
        lambda field: (field.signal, field.kind),
        lambda field: field.at,
    )
    pairs = _pair(before, after, tells)
    return _differences_of_pairs("field", before, after, pairs), _order(pairs, "field")


# Parts without names ------------------------------------------------------------------------------------------------


def _compare_unnamed(
    sort: Literal["screen_change", "action"],
    before: Sequence[ScreenChange] | Sequence[Action],
    after: Sequence[ScreenChange] | Sequence[Action],
    reordered: list[Sort],
) -> tuple[Difference, ...]:
    tells: tuple[_Tell, ...] = (lambda part: part_text(part, sort), _cause, _effect)
    pairs = _pair(before, after, tells)
    if _order(pairs, sort):
        reordered.append(sort)
    return _differences_of_pairs(sort, before, after, pairs)


def _cause(part: ScreenChange | Action) -> Hashable:
    when = None if part.when is None else inline(part.when)
    return part.from_, part.key, when, isinstance(part, ScreenChange) and part.idle_s is not None


def _effect(part: ScreenChange | Action) -> Hashable:
    return (part.from_, part.to) if isinstance(part, ScreenChange) else (part.from_, part.do, part.signal)


def _pair(before: Sequence[Part], after: Sequence[Part], tells: Sequence[_Tell]) -> list[tuple[int, int]]:
    """Indexes of parts that belong together: equal by the first of `tells` that makes them so, in their order."""
    old, new = dict(enumerate(before)), dict(enumerate(after))
    pairs: list[tuple[int, int]] = []
    for tell in tells:
        waiting: dict[Hashable, list[int]] = {}
        for index, part in new.items():
            waiting.setdefault(tell(part), []).append(index)
        for index, part in list(old.items()):
            same = waiting.get(tell(part))
            if same:
                pairs.append((index, same[0]))
                del new[same.pop(0)], old[index]
    return sorted(pairs)


def _order(pairs: Sequence[tuple[int, int]], key: str) -> tuple[Change, ...]:
    """A change of order among those that belong together, as a change of their list."""
    there = [index for _, index in pairs]
    if there == sorted(there):
        return ()
    return (Change(key, _numbers(old for old, _ in pairs), _numbers(old for old, _ in sorted(pairs, key=_second))),)


def _second(pair: tuple[int, int]) -> int:
    return pair[1]


def _numbers(indexes: Iterable[int]) -> str:
    return ", ".join(str(index + 1) for index in indexes)


def _differences_of_pairs(
    sort: Sort, before: Sequence[Part], after: Sequence[Part], pairs: Sequence[tuple[int, int]]
) -> tuple[Difference, ...]:
    there = dict(pairs)
    back = {new: old for old, new in pairs}
    found = []
    old_places = dict.fromkeys(there.get(index, -1 - index) for index in range(len(before)))
    for place in _merge_keys(old_places, dict.fromkeys(range(len(after)))):
        if place < 0:
            old = -1 - place
            found.append(Difference(sort, "removed", inline(before[old]), "", indexes=(old, None)))
        elif place not in back:
            found.append(Difference(sort, "added", "", inline(after[place]), indexes=(None, place)))
        else:
            then, now = before[back[place]], after[place]
            if changes := _changes(then, now):
                found.append(Difference(sort, "changed", inline(then), inline(now), changes, (back[place], place)))
    return tuple(found)
