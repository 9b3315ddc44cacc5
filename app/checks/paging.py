"""Rules about the way from screen to screen: what is never shown, and from where there is no way back."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks.finding import Fault
from app.checks.rule import rule
from app.checks.survey import Survey
from app.project.model import Condition
from app.project.problems import Place, quoted


@rule("unreachable-screen")
def unreachable_screen(survey: Survey) -> Iterator[Fault]:
    """A screen that no key, no condition and no idle time leads to: nobody ever sees it."""
    place = {screen.name: index for index, screen in reversed(list(enumerate(survey.project.screens)))}
    for name in survey.paging.unreachable:
        yield Fault(
            "warning",
            ("screen", place[name]),
            f"nothing leads to it from the start screen {quoted(survey.paging.start)}",
            "add a turn to it, or remove the screen",
        )


@rule("dead-end")
def dead_end(survey: Survey) -> Iterator[Fault]:
    """A screen from which neither keys nor idle time lead back to the start: the operator is stuck."""
    place = {screen.name: index for index, screen in reversed(list(enumerate(survey.project.screens)))}
    for name in survey.paging.no_way_back:
        yield Fault(
            "warning",
            ("screen", place[name]),
            f"no key leads from it back to the start screen {quoted(survey.paging.start)}, and no idle time does",
            "add a turn by a key, say 'escape', or after idle time",
        )


@rule("override-never-shown")
def override_never_shown(survey: Survey) -> Iterator[Fault]:
    """An override whose condition an earlier one has too: the earlier one is always shown in its place."""
    first: list[tuple[Condition, int]] = []
    for index, turn in enumerate(survey.project.turns):
        if turn.when is None or turn.to not in survey.project.screen_named:
            continue
        earlier = next((place for condition, place in first if condition == turn.when), None)
        if earlier is None:
            first.append((turn.when, index))
            continue
        shown = survey.project.turns[earlier].to
        yield Fault(
            "warning",
            ("turn", index),
            f"its condition is that of turn {earlier + 1}, so {quoted(shown)} is shown and {quoted(turn.to)} never",
            "mend one of the two conditions or remove one of the turns",
        )


@rule("idle-turns-fight")
def idle_turns_fight(survey: Survey) -> Iterator[Fault]:
    """Two idle turns from one screen: the one that waits longer never comes.

    Two from every screen to different ones are none: the second leads away from the screen that the first leads to.
    """
    soonest: dict[tuple[str | None, str], int] = {}
    turns = survey.project.turns
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
        place: Place = ("turn", later)
        yield Fault(
            "warning",
            place,
            f"turn {sooner + 1} leads to {quoted(turns[sooner].to)} after {turns[sooner].idle_s} s already, so this "
            "one never comes",
            "remove one of the two, or give them different screens ('from')",
        )
