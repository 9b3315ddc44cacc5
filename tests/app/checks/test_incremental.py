"""Looking again only at what changed: it finds what a fresh look finds, and no rule looks at what it does not name."""

from __future__ import annotations

from decimal import Decimal
from itertools import islice
from typing import TYPE_CHECKING, Any

from hypothesis import given, settings, strategies as st

from app.checks import Checker, check
from app.checks.context import CheckContext, signals_named_in
from app.checks.finding import Violation
from app.checks.rule import RULES, Rule
from app.project.model import BitSignal, Field, Part, Project, RegisterSignal, Screen
from tests.fuzz.test_checks import PROJECTS

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft

SECTIONS = ("lines", "followers", "signals", "screens", "screen_changes", "actions")


@st.composite
def sequences(draw: st.DrawFn) -> list[Project]:
    """A project, and what became of it by edits that take sections or single parts from others, move and drop parts."""
    pool = [Project.model_validate(draw(PROJECTS)) for _ in range(3)]
    projects = [pool[0]]
    for _ in range(draw(st.integers(1, 6))):
        now, other = projects[-1], draw(st.sampled_from(pool))
        section = draw(st.sampled_from((*SECTIONS, "panel")))
        if section == "panel":
            projects.append(now.replace(panel=other.panel))
            continue
        parts, others = getattr(now, section), getattr(other, section)
        how = draw(st.sampled_from(("other", "one", "less", "turned", "doubled", "back")))
        if how == "back":
            projects.append(draw(st.sampled_from(projects)))
            continue
        new = {
            "other": others,
            "one": (*parts[:1], *others[:1], *parts[2:]),
            "less": parts[1:],
            "turned": parts[::-1],
            "doubled": (*parts, *parts[-1:]),
        }[how]
        projects.append(now.replace(**{section: new}))
    return projects


@settings(max_examples=8, deadline=None)
@given(sequences(), st.data())
def test_looking_again_finds_what_a_fresh_look_finds(projects: list[Project], data: st.DataObject) -> None:
    checker = Checker()
    for project in projects:
        for _ in checker.steps(project):
            if data.draw(st.integers(0, 9)) == 0:
                break  # overtaken by the next edit
        else:
            assert checker.project is project
            assert checker.findings == check(project)
    assert checker.check(projects[-1]) == check(projects[-1])


def test_nothing_is_looked_at_that_is_the_same(good: Draft) -> None:
    checker = Checker()
    first = checker.check(good.project)
    assert checker.check(good.project.replace(title="Another title")) is first
    broken = good.field("run", 0, width=3).project
    steps = sum(1 for _ in checker.steps(broken))
    assert steps < 15, "one screen was edited"
    assert checker.findings != first


def faults(rule: Rule, project: Project) -> list[tuple[int, Violation]]:
    """What one rule finds in all that it looks at, with the index of the part."""
    context = CheckContext(project)
    if rule.kind is None:
        return [(-1, fault) for fault in rule.function(context)]
    return [(at, fault) for at, part in enumerate(parts_of(project, rule)) for fault in rule.function(context, part)]


def parts_of(project: Project, rule: Rule) -> tuple[Part, ...]:
    parts: tuple[Part, ...] = getattr(project, f"{rule.kind}s")
    return parts


def hidden(project: Project, rule: Rule) -> Project:
    """The project without what a rule about the whole does not say that it looks at."""
    depends_on: set[str] = set(rule.depends_on)
    if "used" in depends_on:
        depends_on |= {"screen_changes", "actions", "shown", "signals"}
    if "known_names" in depends_on:
        depends_on |= {"panel", "lines", "followers", "signals", "screen_names"}
    kept: dict[str, Any] = {
        section: getattr(project, section) if section in depends_on else ()
        for section in ("lines", "followers", "signals", "screen_changes", "actions")
    }
    kept["screens"] = ()
    if depends_on & {"screen_names", "entered", "entered_names", "chosen", "shown"}:
        kept["screens"] = tuple(
            Screen(
                name=screen.name,
                fields=tuple(known_of(field, depends_on) for field in screen.fields if seen(field, depends_on)),
            )
            for screen in project.screens
        )
    panel = project.panel if "panel" in depends_on else project.panel.replace(keys=(), languages=(), rows=1, columns=1)
    return Project(panel=panel, **kept)


def seen(field: Field, depends_on: set[str]) -> bool:
    by_entry = field.entry and bool(depends_on & {"entered", "entered_names"})
    return "shown" in depends_on or by_entry or (field.kind == "choice" and "chosen" in depends_on)


def known_of(field: Field, depends_on: set[str]) -> Field:
    blink = field.blink if "shown" in depends_on else None
    return Field(at=(0, 0), width=1, signal=field.signal, kind=field.kind, entry=field.entry, blink=blink)


@settings(max_examples=8, deadline=None)
@given(PROJECTS)
def test_a_rule_about_the_whole_looks_only_at_what_it_names(tables: dict[str, Any]) -> None:
    project = Project.model_validate(tables)
    for rule in RULES:
        if rule.kind is None:
            assert faults(rule, hidden(project, rule)) == faults(rule, project), rule.name


@settings(max_examples=8, deadline=None)
@given(PROJECTS)
def test_a_rule_about_one_part_looks_only_at_it_and_what_it_stands_on(tables: dict[str, Any]) -> None:
    project = Project.model_validate(tables)
    for rule in RULES:
        if rule.kind is None:
            continue
        context = CheckContext(project)
        around = hidden(project, rule).replace(panel=project.panel)
        for part in parts_of(project, rule):
            names = set(signals_named_in(part))
            own = (part,) if isinstance(part, RegisterSignal | BitSignal) else ()
            named = [signal for name in names if (signal := project.signal_named.get(name)) is not None]
            words = {signal.bit.of for signal in (*named, *own) if isinstance(signal, BitSignal)}
            based = [signal for name in words - names if (signal := project.signal_named.get(name)) is not None]
            signals = (*named, *based, *[signal for signal in own if signal not in named])
            read = {signal.follower for signal in signals if isinstance(signal, RegisterSignal)}
            followers = tuple(follower for name in read if (follower := project.follower_named.get(name)) is not None)
            small = around
            if not set(rule.depends_on) & {"known_names", "signals", "used"}:
                small = small.replace(signals=signals, followers=followers)
            assert list(rule.function(CheckContext(small), part)) == list(rule.function(context, part)), rule.name


def test_what_a_dropped_check_found_is_told_by_the_next(good: Draft) -> None:
    broken = good.signal("speed set", limits=(Decimal(-5), Decimal(50))).project
    checker = Checker()
    checker.check(good.project)
    steps = sum(1 for _ in Checker().steps(broken))
    for after in range(1, steps + 1):
        for number, _ in enumerate(checker.steps(broken), start=1):
            if number == after:
                break
        assert checker.check(broken) == check(broken)
        assert checker.check(good.project) == check(good.project)


def test_a_check_dropped_half_way_leaves_nothing_of_its_project(good: Draft) -> None:
    """At any of its pauses, with the project as it was before looked at again."""
    before, after = good.project, good.project.replace(panel=good.project.panel.replace(messages={"kept": "{limit}"}))
    assert check(before) != check(after)
    pauses = 0
    for pauses in range(1, 1000):
        checker = Checker()
        checker.check(before)
        steps = checker.steps(after)
        if sum(1 for _ in islice(steps, pauses)) < pauses:
            break
        assert checker.check(before) == check(before)
    assert pauses > 5
