"""Rules about the way from screen to screen: what is never shown, and from where there is no way back."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks import fixes
from app.checks.context import CheckContext
from app.checks.finding import Fix, Violation
from app.checks.keys import remove_screen_change
from app.checks.rule import whole
from app.language import translate
from app.project.model import Condition
from app.project.problems import Place, quoted
from app.project.references import RELATIVE_SCREENS


@whole("panel", "screen_changes", "actions", "screen_names", "entered", name="unreachable-screen")
def unreachable_screen(context: CheckContext) -> Iterator[Violation]:
    """A screen that no key, no condition and no idle time leads to: nobody ever sees it."""
    start = context.paging.start
    for name in context.paging.unreachable:
        yield Violation(
            "warning",
            ("screen", context.screen_names.index(name)),
            translate("checks", "it cannot be reached from the start screen {screen}").format(screen=quoted(start)),
            translate("checks", "add a screen change to it, or remove the screen"),
            _screen_change(context, start, name, ()),
        )


@whole("panel", "screen_changes", "actions", "screen_names", "entered", name="dead-end")
def dead_end(context: CheckContext) -> Iterator[Violation]:
    """A screen from which neither keys nor idle time lead back to the start: the operator is stuck."""
    start = context.paging.start
    for name in context.paging.no_way_back:
        yield Violation(
            "warning",
            ("screen", context.screen_names.index(name)),
            translate(
                "checks", "there is no way back from it to the start screen {screen}, neither by key nor by idle time"
            ).format(screen=quoted(start)),
            translate("checks", "add a screen change by a key, such as ESCAPE, or after idle time"),
            _screen_change(context, name, start, ("escape", "left")),
        )


def _screen_change(context: CheckContext, source: str, target: str, wished: tuple[str, ...]) -> Fix | None:
    """A screen change by the first key, the wished ones first, that does nothing on the source screen yet."""
    taken = {
        screen_change.key for screen_change in context.project.screen_changes if screen_change.from_ in (None, source)
    }
    taken |= {action.key for action in context.project.actions if action.from_ in (None, source)}
    if source in context.entered:
        taken.add(context.panel.entry.begin)
    keys = [key for key in (*wished, *context.panel.keys) if key in context.panel.keys and key not in taken]
    if not keys or target in RELATIVE_SCREENS:
        return None
    words = translate("checks", "Make key {key} go from {source} to {target}").format(
        key=quoted(keys[0]), source=quoted(source), target=quoted(target)
    )
    return Fix(words, fixes.add_screen_change, (keys[0], source, target))


@whole("screen_changes", "screen_names", name="override-never-shown")
def override_never_shown(context: CheckContext) -> Iterator[Violation]:
    """An override whose condition an earlier one has too: the earlier one is always shown in its place."""
    screens = set(context.screen_names)
    first: list[tuple[Condition, int]] = []
    for index, screen_change in enumerate(context.project.screen_changes):
        if screen_change.when is None or screen_change.to not in screens:
            continue
        earlier = next((place for condition, place in first if condition == screen_change.when), None)
        if earlier is None:
            first.append((screen_change.when, index))
            continue
        yield Violation(
            "warning",
            ("screen_change", index),
            translate(
                "checks",
                "its condition is the same as that of screen change {number}, so {shown} is shown and {hidden} never "
                "is",
            ).format(
                number=earlier + 1,
                shown=quoted(context.project.screen_changes[earlier].to),
                hidden=quoted(screen_change.to),
            ),
            translate("checks", "correct one of the conditions, or remove one of the screen changes"),
            remove_screen_change(),
        )


@whole("screen_changes", name="idle-screen-changes-conflict")
def idle_screen_changes_conflict(context: CheckContext) -> Iterator[Violation]:
    """Two idle screen changes from one screen: the one that waits longer never comes.

    Two from every screen to different ones are none: the second leads away from the screen that the first leads to.
    """
    soonest: dict[tuple[str | None, str], int] = {}
    screen_changes = context.project.screen_changes
    for index, screen_change in enumerate(screen_changes):
        if screen_change.idle_s is None:
            continue
        cause = (screen_change.from_, screen_change.to if screen_change.from_ is None else "")
        earlier = soonest.setdefault(cause, index)
        if earlier == index:
            continue
        former_wait = screen_changes[earlier].idle_s or 0
        later, sooner = (index, earlier) if screen_change.idle_s >= former_wait else (earlier, index)
        soonest[cause] = sooner
        place: Place = ("screen_change", later)
        yield Violation(
            "warning",
            place,
            translate(
                "checks", "screen change {number} already goes to {screen} after {seconds} s, so this one never happens"
            ).format(
                number=sooner + 1, screen=quoted(screen_changes[sooner].to), seconds=screen_changes[sooner].idle_s
            ),
            translate("checks", "delete one of the two, or choose different screens for them"),
            remove_screen_change(),
        )
