"""All rules, run over one project after another; what has not changed in between is not looked at again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import groupby
from operator import is_, itemgetter
from typing import Final

from app.checks import (
    actions,
    entry,
    keys,
    languages,
    lines,
    messages,
    names,
    paging,
    registers,
    room,
    screens,
    stops,
    whole,
)
from app.checks.accepting import split_accepted
from app.checks.context import CheckContext
from app.checks.finding import SEVERITY_ORDER, Finding, Violation
from app.checks.rule import RULES, Fact, PartKind, Rule
from app.project.model import Part, Project
from app.project.paths import attributes, in_words
from app.project.problems import Place

RULE_MODULES = (
    names,
    whole,
    lines,
    registers,
    screens,
    room,
    paging,
    keys,
    entry,
    actions,
    stops,
    languages,
    messages,
)
"""The modules of rules: named here, so that their rules are in the list once this module is imported."""

_KINDS: Final[tuple[PartKind | None, ...]] = (None, "line", "follower", "signal", "screen", "screen_change", "action")
_PAUSE_AFTER: Final = 200
"""So many parts that have not changed are passed over before whoever drives the check may do something else."""


def check(project: Project) -> tuple[Finding, ...]:
    """All findings in `project` that are not accepted there, the most severe first, then in the order of the rules.

    Any project value can be checked, also one with dangling names; nothing is changed and nothing raised.
    """
    return Checker().check(project)


class Checker:
    """Checks one project after another and remembers what it found in the parts that they share.

    `steps` does it bit by bit, none of them longer than a few milliseconds in a project of 2 000 signals, so that a
    window can check between two keys. A check that is dropped half-way has not been in vain: the next one takes
    over what it found. Belongs to one thread.
    """

    def __init__(self) -> None:
        self.findings: tuple[Finding, ...] = ()
        """What was found in `project` and is not accepted; the same object as before if nothing else was found."""
        self.accepted: tuple[Finding, ...] = ()
        """What was found and is accepted, likewise."""
        self._found: tuple[Finding, ...] = ()
        self.project: Project | None = None
        """The project that was checked last, to the end."""
        self.part = 0.0
        """How far the check is that goes on, 0 to 1."""
        self._context: CheckContext | None = None
        self._looks = _looks()
        self._told: list[_Told] = []
        """What each of these told when a check was last through."""

    def check(self, project: Project) -> tuple[Finding, ...]:
        """As the function `check`."""
        for _ in self.steps(project):
            pass
        return self.findings

    def steps(self, project: Project) -> Iterator[None]:
        """Check `project`, pausing again and again. When it is through, `findings` and `project` are up to date."""
        context = self._context = CheckContext(project, self._context)
        for number, look in enumerate(self._looks):
            self.part = number / len(self._looks)
            yield from look.look(context)
        now = [look.told for look in self._looks]
        # Not against what was told when this began: a check that was dropped half-way may have found something else.
        if self.project is None or not all(map(is_, now, self._told)):
            told = [each for one in now for each in one]
            told.sort(key=itemgetter(0))
            self._found = tuple([finding for _, finding in told])
        waiting, accepted = split_accepted(project, self._found)
        if waiting != self.findings:
            self.findings = waiting
        if accepted != self.accepted:
            self.accepted = accepted
        self._told = now
        self.project = project


_Order = tuple[int, int, int, int]
"""Where a finding comes in the list: its gravity, its rule, the kind and the index of its part."""

_Told = list[tuple[_Order, Finding]]


@dataclass(slots=True)
class _Seen:
    """What the rules found in one part, and all that they could see besides it."""

    part: Part
    epoch: object
    dependencies: tuple[object, ...]
    faults: tuple[tuple[int, Rule, Violation], ...]
    index: int = -1
    """Where the part stood when `told` was put into words."""
    told: _Told = field(default_factory=list)


class _Look:
    """Some rules that look at the same, and what they found last. `told` is another object if that has changed."""

    def __init__(self, rules: list[tuple[int, Rule]]) -> None:
        self.told: _Told = []
        self._rules = rules
        self._depends_on: tuple[Fact, ...] = rules[0][1].depends_on
        self._done_for: CheckContext | None = None

    def look(self, context: CheckContext) -> Iterator[None]:
        """Look at what has changed since the last time that this came to its end."""
        raise NotImplementedError


class _LookAtAll(_Look):
    """A rule about how parts go together."""

    def look(self, context: CheckContext) -> Iterator[None]:
        if self._done_for is None or not all(context.same(self._done_for, fact) for fact in self._depends_on):
            (order, rule) = self._rules[0]
            told = [_finding_of(context.project, rule, order, fault, ()) for fault in rule.function(context)]
            if told != self.told:
                self.told = told
            self._done_for = context  # before the pause, in which this may be dropped for a project as it was before
            yield


class _LookAtEach(_Look):
    """Rules about the parts of one kind, one by one."""

    def __init__(self, kind: PartKind, rules: list[tuple[int, Rule]]) -> None:
        super().__init__(rules)
        self._kind = kind
        self._attribute = attributes(Project)[kind]
        self._seen: dict[int, _Seen] = {}
        """By the identity of the part, which is held here, so that no other part can have it meanwhile."""
        self._seen_with: CheckContext | None = None
        """Whose facts the rules saw besides."""

    def look(self, context: CheckContext) -> Iterator[None]:
        if self._seen_with is None or not all(context.same(self._seen_with, fact) for fact in self._depends_on):
            self._seen = {}
        self._seen_with = context
        parts: tuple[Part, ...] = getattr(context.project, self._attribute)
        done = self._done_for
        if (
            done is not None
            and (self._seen or not parts)
            and done.epoch is context.epoch
            and getattr(done.project, self._attribute) is parts
        ):
            return
        self._done_for = None
        kept: dict[int, _Seen] = {}
        told: _Told = []
        for index, part in enumerate(parts):
            seen = self._seen.get(id(part))
            if seen is None or not _still(seen, context):
                seen = self._seen[id(part)] = self._look_at(context, part)
                yield
            elif index % _PAUSE_AFTER == 0:
                yield
            kept[id(part)] = seen
            if seen.faults:
                if seen.index != index:
                    seen.index = index
                    place = (self._kind, index)
                    seen.told = [
                        _finding_of(context.project, rule, order, fault, place) for order, rule, fault in seen.faults
                    ]
                told += seen.told
        self._seen = kept
        if told != self.told:
            self.told = told
        self._done_for = context

    def _look_at(self, context: CheckContext, part: Part) -> _Seen:
        faults = tuple([(order, rule, fault) for order, rule in self._rules for fault in rule.function(context, part)])
        return _Seen(part, context.epoch, context.dependencies(part), faults)


def _still(seen: _Seen, context: CheckContext) -> bool:
    """Whether all that could be seen besides the part is what it was."""
    if seen.epoch is context.epoch:
        return True
    dependencies = context.dependencies(seen.part)
    if len(dependencies) != len(seen.dependencies) or not all(map(is_, dependencies, seen.dependencies)):
        return False
    seen.epoch = context.epoch
    return True


def _finding_of(project: Project, rule: Rule, order: int, fault: Violation, part: Place) -> tuple[_Order, Finding]:
    place = (*part, *fault.place)
    index = place[1] if len(place) > 1 and isinstance(place[1], int) else -1
    finding = Finding(rule.name, fault.severity, _where(project, place), fault.message, fault.hint, place, fault.fix)
    return (SEVERITY_ORDER[fault.severity], order, _KINDS.index(rule.kind), index if part else -1), finding


def _where(project: Project, place: Place) -> str:
    """The part in words; the one key of it that is wrong is told by the message."""
    if len(place) == 1 and place != ("panel",):
        return in_words(project, ())
    return in_words(project, place[:-1] if len(place) > 1 and isinstance(place[-1], str) else place)


def _looks() -> list[_Look]:
    """All rules, those together that look at the same."""
    first: dict[str, int] = {}
    numbered = [(first.setdefault(rule.name, len(first)), rule) for rule in RULES]
    looks: list[_Look] = [_LookAtAll([each]) for each in numbered if each[1].kind is None]

    def alike(each: tuple[int, Rule]) -> tuple[int, tuple[Fact, ...]]:
        return _KINDS.index(each[1].kind), each[1].depends_on

    of_parts = sorted([each for each in numbered if each[1].kind is not None], key=alike)
    for (kind, _), rules in groupby(of_parts, alike):
        looks.append(_LookAtEach(_KINDS[kind], list(rules)))  # type: ignore[arg-type]
    return looks
