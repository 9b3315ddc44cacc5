"""Rules about names: those that point to nothing, and those given twice."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks import fixes
from app.checks.context import CheckContext, section_of
from app.checks.finding import Fix, Violation
from app.checks.rule import each, whole
from app.language import translate
from app.project.model import Action, Part, ScreenChange
from app.project.paths import at_key
from app.project.problems import Place, Problem, nearest, quoted
from app.project.references import RELATIVE_SCREENS, dangling_in, name_clashes


@each("follower", "signal", "screen", "screen_change", "action", name="dangling-name", depends_on=("known_names",))
def dangling_name(context: CheckContext, part: Part) -> Iterator[Violation]:
    """A name that points to nothing, or to what cannot serve there: whatever hangs on it does not work."""
    section = section_of(part)
    for problem in dangling_in(part, section, context.known_names):
        yield _fault(problem, problem.place, _fix(context, part, section, problem))


@whole("panel", "known_names", name="dangling-name")
def dangling_name_of_panel(context: CheckContext) -> Iterator[Violation]:
    """A first screen, or a signal that chooses the language, that does not exist."""
    for problem in dangling_in(context.panel, "panel", context.known_names):
        yield _fault(problem, ("panel", *problem.place), None)


def _fault(problem: Problem, place: Place, fix: Fix | None) -> Violation:
    return Violation(
        "error",
        place,
        problem.message,
        problem.hint or translate("checks", "add it, or choose an existing one"),
        fix,
    )


def _fix(context: CheckContext, part: Part, section: str, problem: Problem) -> Fix | None:
    """The nearest name that exists in the place of the wrong one; else a screen change or an action goes altogether."""
    name: object = part
    for step in problem.place:
        name = at_key(name, step)
    known = context.known_names.fitting(section, problem.place)
    near = nearest(name, known) if isinstance(name, str) else None
    if near is not None:
        return Fix(translate("checks", "Use {name} there instead").format(name=quoted(near)), fixes.set_here, (near,))
    if isinstance(part, ScreenChange):
        return Fix(translate("checks", "Remove this screen change"), fixes.remove)
    return Fix(translate("checks", "Remove this action"), fixes.remove) if isinstance(part, Action) else None


@whole("panel", "lines", "followers", "signals", "screen_names", name="name-clash")
def name_clash(context: CheckContext) -> Iterator[Violation]:
    """A name that two parts of a kind have, or that has a meaning of its own: only one of them can be meant."""
    if not _names_recur(context):
        return
    for problem in name_clashes(context.project):
        if problem.place[:1] == ("panel",):
            words = translate("checks", "Remove the second of the two keys")
        else:
            words = translate("checks", "Give it a unique name; references keep pointing to the first one")
        yield Violation("error", problem.place, problem.message, problem.hint, Fix(words, fixes.rename_apart))


def _names_recur(context: CheckContext) -> bool:
    """Whether looking for clashes is worth its time."""
    project = context.project
    apart = (
        (project.line_named, project.lines),
        (project.follower_named, project.followers),
        (project.signal_named, project.signals),
        (set(context.screen_names), context.screen_names),
        (set(project.panel.keys), project.panel.keys),
    )
    return any(len(names) < len(parts) for names, parts in apart) or any(
        name in RELATIVE_SCREENS for name in context.screen_names
    )
