"""Rules about the way from screen to screen: what is never shown, and from where there is no way back."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks import fixes
from app.checks.context import Survey
from app.checks.finding import Fault, Mend
from app.checks.keys import remove_turn
from app.checks.rule import whole
from app.language import translate
from app.project.model import Condition
from app.project.problems import Place, quoted
from app.project.references import RELATIVE_SCREENS


@whole("panel", "screen_changes", "actions", "screen_names", "entered", name="unreachable-screen")
def unreachable_screen(survey: Survey) -> Iterator[Fault]:
    """A screen that no key, no condition and no idle time leads to: nobody ever sees it."""
    start = survey.paging.start
    for name in survey.paging.unreachable:
        yield Fault(
            "warning",
            ("screen", survey.screen_names.index(name)),
            translate("checks", "nothing leads to it from the start screen {screen}").format(screen=quoted(start)),
            translate("checks", "add a turn to it, or remove the screen"),
            _turn(survey, start, name, ()),
        )


@whole("panel", "screen_changes", "actions", "screen_names", "entered", name="dead-end")
def dead_end(survey: Survey) -> Iterator[Fault]:
    """A screen from which neither keys nor idle time lead back to the start: the operator is stuck."""
    start = survey.paging.start
    for name in survey.paging.no_way_back:
        yield Fault(
            "warning",
            ("screen", survey.screen_names.index(name)),
            translate("checks", "no key leads from it back to the start screen {screen}, and no idle time does").format(
                screen=quoted(start)
            ),
            translate("checks", "add a turn by a key, say 'escape', or after idle time"),
            _turn(survey, name, start, ("escape", "left")),
        )


def _turn(survey: Survey, source: str, target: str, wished: tuple[str, ...]) -> Mend | None:
    """A turn by the first key, the wished ones before the others, that does nothing on the source screen yet."""
    taken = {turn.key for turn in survey.project.screen_changes if turn.from_ in (None, source)}
    taken |= {action.key for action in survey.project.actions if action.from_ in (None, source)}
    if source in survey.entered:
        taken.add(survey.panel.entry.begin)
    keys = [key for key in (*wished, *survey.panel.keys) if key in survey.panel.keys and key not in taken]
    if not keys or target in RELATIVE_SCREENS:
        return None
    words = translate("checks", "Let the key {key} turn from {source} to {target}").format(
        key=quoted(keys[0]), source=quoted(source), target=quoted(target)
    )
    return Mend(words, fixes.add_turn, (keys[0], source, target))


@whole("screen_changes", "screen_names", name="override-never-shown")
def override_never_shown(survey: Survey) -> Iterator[Fault]:
    """An override whose condition an earlier one has too: the earlier one is always shown in its place."""
    screens = set(survey.screen_names)
    first: list[tuple[Condition, int]] = []
    for index, turn in enumerate(survey.project.screen_changes):
        if turn.when is None or turn.to not in screens:
            continue
        earlier = next((place for condition, place in first if condition == turn.when), None)
        if earlier is None:
            first.append((turn.when, index))
            continue
        yield Fault(
            "warning",
            ("screen_change", index),
            translate(
                "checks", "its condition is that of turn {number}, so {shown} is shown and {hidden} never"
            ).format(
                number=earlier + 1, shown=quoted(survey.project.screen_changes[earlier].to), hidden=quoted(turn.to)
            ),
            translate("checks", "mend one of the two conditions or remove one of the turns"),
            remove_turn(),
        )


@whole("screen_changes", name="idle-screen-changes-conflict")
def idle_turns_fight(survey: Survey) -> Iterator[Fault]:
    """Two idle turns from one screen: the one that waits longer never comes.

    Two from every screen to different ones are none: the second leads away from the screen that the first leads to.
    """
    soonest: dict[tuple[str | None, str], int] = {}
    turns = survey.project.screen_changes
    for index, turn in enumerate(turns):
        if turn.idle_s is None:
            continue
        cause = (turn.from_, turn.to if turn.from_ is None else "")
        earlier = soonest.setdefault(cause, index)
        if earlier == index:
            continue
        former_wait = turns[earlier].idle_s or 0
        later, sooner = (index, earlier) if turn.idle_s >= former_wait else (earlier, index)
        soonest[cause] = sooner
        place: Place = ("screen_change", later)
        yield Fault(
            "warning",
            place,
            translate(
                "checks", "turn {number} leads to {screen} after {seconds} s already, so this one never comes"
            ).format(number=sooner + 1, screen=quoted(turns[sooner].to), seconds=turns[sooner].idle_s),
            translate("checks", "remove one of the two, or give them different screens ('from')"),
            remove_turn(),
        )
