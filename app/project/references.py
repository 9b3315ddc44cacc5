"""The names by which the parts of a project refer to each other: followed, checked and renamed from one table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from typing import Final, Literal, TypeVar

from app.language import mark, translate
from app.project.model import BitSignal, HeldSignal, Panel, Part, Project
from app.project.paths import at_key, attributes, follow, in_words
from app.project.problems import MOST_PROBLEMS, Place, Problem, did_you_mean, quoted

NamedKind = Literal["line", "follower", "signal", "screen", "key"]

_Sought = Literal["line", "follower", "signal", "screen", "key", "register", "held"]
"""What a reference must lead to: also a signal that is no bit itself, and a held value."""

_REFERENCES: Final[tuple[tuple[tuple[str, ...], _Sought], ...]] = (
    (("panel", "start"), "screen"),
    (("panel", "language"), "signal"),
    (("follower", "line"), "line"),
    (("signal", "follower"), "follower"),
    (("signal", "bit", "of"), "register"),
    (("screen", "blink", "when", "signal"), "signal"),
    (("screen", "field", "signal"), "signal"),
    (("screen", "field", "blink", "signal"), "signal"),
    (("screen_change", "from"), "screen"),
    (("screen_change", "key"), "key"),
    (("screen_change", "when", "signal"), "signal"),
    (("screen_change", "to"), "screen"),
    (("action", "from"), "screen"),
    (("action", "key"), "key"),
    (("action", "when", "signal"), "signal"),
    (("action", "signal"), "signal"),
    (("action", "value", "from"), "held"),
)
"""Every key of the file whose content is a name."""

_ENTRY_KEYS: Final = tuple(
    ("panel", "entry", serves) for serves in ("begin", "up", "down", "left", "right", "confirm", "abandon")
)
"""These follow a renamed key too, but may name a key that the panel does not have: that step is then not offered."""

_TEXTS_IN: Final = (("panel", "messages_in"), ("screen", "text_in"), ("signal", "texts_in"))
"""Where texts stand under the name of a language."""

RELATIVE_SCREENS: Final = ("next", "previous")
"""What a screen change may lead to besides a screen; no screen can be called so."""

_MOST_HINTS: Final = 200
"""Looking for the nearest name takes time: a file with more mistakes than this gets no more hints."""


@dataclass(frozen=True, slots=True)
class Use:
    """A place where a name is used: `where` in words, `place` for programs."""

    where: str
    place: Place


def uses(project: Project, kind: NamedKind, name: str) -> tuple[Use, ...]:
    """All places that use the `kind` called `name`, in the order of the file's sections."""
    return uses_of(project, kind, {name})[name]


def uses_of(project: Project, kind: NamedKind, names: Collection[str]) -> dict[str, tuple[Use, ...]]:
    """The same for each of several names at once."""
    found: dict[str, list[Use]] = {name: [] for name in names}
    for place, _, used in _references(project, kind):
        if used in found and not (place[-1] == "to" and used in RELATIVE_SCREENS):
            found[used].append(Use(in_words(project, place[:-1]), place))
    return {name: tuple(places) for name, places in found.items()}


def use_counts(project: Project, kind: NamedKind) -> Counter[str]:
    """How many places use each name of a kind."""
    return Counter(
        name
        for keys, sought in _REFERENCES
        if _kind(sought) == kind
        for _, under in _in_parts(at_key(project, keys[0]), keys)
        for _, name in under
    )


def dangling(project: Project) -> tuple[Problem, ...]:
    """The names in `project` that point to nothing, or to something that cannot serve there."""
    return tuple(_dangling(project))


def name_clashes(project: Project) -> tuple[Problem, ...]:
    """The names in `project` that two things of a kind have, and names that cannot be given."""
    return tuple(_name_clashes(project))


def problems_of_names(root: object) -> list[Problem]:
    """Both of the above, for a project or for the plain tables of a file, whatever is wrong with them otherwise."""
    return [*islice(_name_clashes(root), MOST_PROBLEMS), *islice(_dangling(root), MOST_PROBLEMS)]


def renamed(project: Project, kind: NamedKind, old: str, new: str) -> Project:
    """`project` with every use of a name changed. The thing itself keeps its name: that is the caller's edit."""
    return renamed_all(project, kind, {old: new})


def renamed_all(project: Project, kind: NamedKind, names: Mapping[str, str]) -> Project:
    """The same for several names at once, old to new: two things may even exchange their names."""

    def change(name: object) -> object:
        return names.get(name, name) if isinstance(name, str) else name

    for keys, sought in _REFERENCES:
        if _kind(sought) == kind:
            project = _rewritten(project, keys, change)
    if kind == "key":
        for keys in _ENTRY_KEYS:
            project = _rewritten(project, keys, change)
    return project


def _kind(sought: _Sought) -> NamedKind:
    if sought == "register" or sought == "held":
        return "signal"
    return sought


def _references(root: object, kind: NamedKind | None = None) -> Iterator[tuple[Place, _Sought, str]]:
    """All references, or those to one kind of things."""
    for keys, sought in _REFERENCES:
        if kind is None or _kind(sought) == kind:
            for place, name in _names_under(root, keys):
                yield place, sought, name


_Names = tuple[tuple[Place, str], ...]
"""Names, each with the place where it stands in a part."""


@dataclass(frozen=True, slots=True)
class _LookedThrough:
    """A section of the file, and the names under some keys in those of its parts that have any."""

    section: object
    names: tuple[tuple[Place, _Names], ...]
    of_part: Mapping[int, tuple[object, _Names]]
    """By the identity of the part, which is held here, so that no other part can have it meanwhile."""


_LATEST: Final[dict[tuple[str, ...], _LookedThrough]] = {}
"""What was looked through last under some keys."""


def _names_under(root: object, keys: tuple[str, ...]) -> Iterator[tuple[Place, str]]:
    if not isinstance(root, Project):
        yield from [(place, name) for place, name in follow(root, keys) if isinstance(name, str)]
        return
    for at, names in _in_parts(at_key(root, keys[0]), keys):
        for place, name in names:
            yield (*at, *place), name


def _in_parts(section: object, keys: tuple[str, ...]) -> tuple[tuple[Place, _Names], ...]:
    """The names in the parts of a section of a project, each part with its place; those without any are left out.

    Projects share the parts that an edit leaves alone, and tables and forms ask who uses a name at every edit: so what
    was found in a part is kept as long as it is in the section.
    """
    latest = _LATEST.get(keys)
    if latest is None or latest.section is not section:
        listed = isinstance(section, tuple)
        known = {} if latest is None else latest.of_part
        of_part: dict[int, tuple[object, _Names]] = {}
        names = []
        for index, part in enumerate(section if isinstance(section, tuple) else (section,)):
            kept = known.get(id(part)) or (part, _names_in(part, keys))
            of_part[id(part)] = kept
            if kept[1]:
                names.append(((keys[0], index) if listed else keys[:1], kept[1]))
        latest = _LATEST[keys] = _LookedThrough(section, tuple(names), of_part)
    return latest.names


def _names_in(part: object, keys: tuple[str, ...]) -> _Names:
    return tuple([(place, name) for place, name in follow(part, keys[1:]) if isinstance(name, str)])


def _names(root: object, kind: NamedKind) -> list[tuple[Place, str]]:
    """Everything of a kind that has a name, each with its place. The panel's keys are their own names."""
    if kind == "key":
        panel = at_key(root, "panel")
        if isinstance(panel, dict) and "keys" not in panel:
            return [((), key) for key in Panel.model_fields["keys"].default]
        found = follow(panel, ("keys",), ("panel",))
    else:
        found = follow(root, (kind, "name"))
    return [(place, name) for place, name in found if isinstance(name, str)]


def _name_clashes(root: object) -> Iterator[Problem]:
    kinds: tuple[NamedKind, ...] = ("key", "line", "follower", "signal", "screen")
    for kind in kinds:
        first: dict[str, int] = {}
        for place, name in _names(root, kind):
            if not place:
                continue
            index = next((step for step in reversed(place) if isinstance(step, int)), 0)
            at = place if kind == "key" else place[:-1]
            if name in first:
                place_said, same, own = (translate("project", text) for text in _TWICE[kind])
                yield Problem(
                    place_said.format(number=index + 1),
                    same.format(number=first[name] + 1, name=quoted(name)),
                    own,
                    at,
                )
            first.setdefault(name, index)
            if kind == "screen" and name in RELATIVE_SCREENS:
                yield Problem(
                    translate("project", "screen {number}").format(number=index + 1),
                    translate("project", "cannot be called {name}").format(name=quoted(name)),
                    translate("project", "screen changes use this word; choose another name"),
                    at,
                )


_TWICE: Final[dict[NamedKind, tuple[str, str, str]]] = {
    "key": (
        mark("project", "panel, key {number}"),
        mark("project", "has the same name as key {number}, {name}"),
        mark("project", "each key needs a unique name"),
    ),
    "line": (
        mark("project", "line {number}"),
        mark("project", "has the same name as line {number}, {name}"),
        mark("project", "each line needs a unique name"),
    ),
    "follower": (
        mark("project", "device {number}"),
        mark("project", "has the same name as device {number}, {name}"),
        mark("project", "each device needs a unique name"),
    ),
    "signal": (
        mark("project", "signal {number}"),
        mark("project", "has the same name as signal {number}, {name}"),
        mark("project", "each signal needs a unique name"),
    ),
    "screen": (
        mark("project", "screen {number}"),
        mark("project", "has the same name as screen {number}, {name}"),
        mark("project", "each screen needs a unique name"),
    ),
}
"""Of a name given twice: where, what is wrong, what to do."""


def _dangling(root: object) -> Iterator[Problem]:
    known = known_names(root)
    wrong = Counter[str]()
    for place, sought, name in _references(root):
        if known.lacks(sought, name, place):
            wrong[_kind(sought)] += 1
            message, hint = known.why(sought, name, place, guess=wrong.total() <= _MOST_HINTS)
            yield Problem(in_words(root, place[:-1]), message, hint, place)
    for section, key in _TEXTS_IN:
        for place, texts in follow(root, (section, key)):
            for problem in _unknown_languages(known, place, texts):
                yield Problem(in_words(root, problem.place[:-1]), problem.message, problem.hint, problem.place)


def dangling_in(part: Part, section: str, known: KnownNames) -> Iterator[Problem]:
    """As `dangling`, for one part of a section of the file ("signal", "screen", "panel", ...).

    The places are relative to the part, and `where` is left empty.
    """
    for keys, sought in _REFERENCES:
        if keys[0] != section:
            continue
        for place, name in follow(part, keys[1:]):
            if isinstance(name, str) and known.lacks(sought, name, place):
                message, hint = known.why(sought, name, (section, *place), guess=True)
                yield Problem("", message, hint, place)
    for named, key in _TEXTS_IN:
        if named == section:
            yield from _unknown_languages(known, (key,), at_key(part, key))


@dataclass(frozen=True, slots=True)
class KnownNames:
    """What the names in a project can point to."""

    of_kind: Mapping[NamedKind, frozenset[str]]
    bits: frozenset[str]
    held: frozenset[str]
    languages: tuple[str, ...]

    def lacks(self, sought: _Sought, name: str, place: Place) -> bool:
        """Whether a name at this place points to nothing that can serve there."""
        kind = _kind(sought)
        if name not in self.of_kind[kind]:
            return not (kind == "screen" and place[-1] == "to" and name in RELATIVE_SCREENS)
        return (sought == "register" and name in self.bits) or (sought == "held" and name not in self.held)

    def fitting(self, section: str, place: Place) -> frozenset[str]:
        """The names that can stand at a place, relative to its part, of a section of the file; empty if none can."""
        sought = dict(_REFERENCES).get((section, *[step for step in place if isinstance(step, str)]))
        if sought is None:
            return frozenset()
        if sought == "held":
            return self.held
        return self.of_kind[_kind(sought)] - (self.bits if sought == "register" else frozenset())

    def why(self, sought: _Sought, name: str, place: Place, *, guess: bool) -> tuple[str, str]:
        """Of a name that is lacking: what is wrong with it and what to do; the nearest name only with `guess`."""
        kind = _kind(sought)
        if name in self.of_kind[kind]:
            if sought == "register":
                return (
                    translate("project", "signal {name} is itself a bit").format(name=quoted(name)),
                    translate("project", "use the signal that contains the bits"),
                )
            return (
                translate("project", "signal {name} is not a held value").format(name=quoted(name)),
                translate("project", "use a signal with 'held', or a number"),
            )
        hint = did_you_mean(name, self.of_kind[kind]) if guess else ""
        missing = _MISSING["start" if place == ("panel", "start") else kind]
        return translate("project", missing).format(name=quoted(name)), hint


_MISSING: Final = {
    "line": mark("project", "line {name} does not exist"),
    "follower": mark("project", "device {name} does not exist"),
    "signal": mark("project", "signal {name} does not exist"),
    "screen": mark("project", "screen {name} does not exist"),
    "key": mark("project", "key {name} does not exist"),
    "start": mark("project", "start screen {name} does not exist"),
}


def known_names(root: object) -> KnownNames:
    """What names can point to in a project, or in the plain tables of a file."""
    if isinstance(root, Project):
        return _names_of(root)
    kinds: tuple[NamedKind, ...] = ("line", "follower", "signal", "screen", "key")
    languages = at_key(at_key(root, "panel"), "languages")
    return KnownNames(
        {kind: frozenset([name for _, name in _names(root, kind)]) for kind in kinds},
        frozenset(_names_with(root, "bit")),
        frozenset(_names_with(root, "held")),
        tuple([name for name in languages if isinstance(name, str)]) if isinstance(languages, list | tuple) else (),
    )


def _names_of(project: Project) -> KnownNames:
    """The same for a project, a good deal quicker: it is asked for at every edit."""
    return KnownNames(
        {
            "line": frozenset(project.line_named),
            "follower": frozenset(project.follower_named),
            "signal": frozenset(project.signal_named),
            "screen": frozenset(project.screen_named),
            "key": frozenset(project.panel.keys),
        },
        frozenset([signal.name for signal in project.signals if isinstance(signal, BitSignal)]),
        frozenset([signal.name for signal in project.signals if isinstance(signal, HeldSignal)]),
        project.panel.languages,
    )


def _unknown_languages(known: KnownNames, place: Place, texts: object) -> Iterator[Problem]:
    """Texts in a language that the panel does not have, or that is the one of the plain texts."""
    for language in texts if isinstance(texts, dict) else ():
        if language in known.languages[1:]:
            continue
        if language in known.languages:
            message = translate("project", "{language} is the first language; its texts belong in {key}").format(
                language=quoted(language), key=quoted(str(place[-1])[:-3])
            )
            hint = translate("project", "remove them here, or change the order of the languages")
        else:
            message = translate("project", "language {language} does not exist").format(language=quoted(language))
            near = did_you_mean(language, known.languages[1:])
            hint = near or translate("project", "add it to the panel's 'languages', after the first")
        yield Problem("", message, hint, (*place, language))


def _names_with(root: object, key: str) -> set[str]:
    signals = at_key(root, "signal")
    found: set[str] = set()
    for signal in signals if isinstance(signals, list | tuple) else ():
        name = at_key(signal, "name")
        if isinstance(name, str) and at_key(signal, key) is not None:
            found.add(name)
    return found


_P = TypeVar("_P", bound=Part)


def _rewritten(part: _P, keys: tuple[str, ...], change: Callable[[object], object]) -> _P:
    """`part` with `change` applied to all that stands under `keys`; the same object where nothing changes."""
    attribute = attributes(type(part)).get(keys[0])
    if attribute is None:
        return part
    old = getattr(part, attribute)
    new: object
    if len(keys) == 1:
        new = change(old)
        if new == old:
            return part
    elif isinstance(old, tuple):
        items = tuple(_rewritten(item, keys[1:], change) if isinstance(item, Part) else item for item in old)
        if all(item is before for item, before in zip(items, old, strict=True)):
            return part
        new = items
    elif isinstance(old, Part):
        new = _rewritten(old, keys[1:], change)
        if new is old:
            return part
    else:
        return part
    return part.replace(**{attribute: new})
