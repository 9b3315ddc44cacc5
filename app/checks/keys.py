"""Rules about keys: two causes that fight for one, and keys that are taken for something else.

What the panel does with a key (see `app.panel.machine`) says what a conflict is. A turn with `from` goes before one
without, and all actions of a key are done before its turn: neither is a conflict, both may be meant. Two turns of the
same key with the same `from` are one, since the second is never taken; so are two actions of one key on one screen
that write to the same place.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from app.checks.finding import Fault
from app.checks.rule import rule
from app.checks.survey import Survey, overlap
from app.project.model import Action
from app.project.problems import quoted


@rule("turns-fight")
def turns_fight(survey: Survey) -> Iterator[Fault]:
    """Two turns by one key on one screen: the second is never taken."""
    first: dict[tuple[str | None, str], int] = {}
    for index, turn in enumerate(survey.project.turns):
        if turn.key is None:
            continue
        earlier = first.setdefault((turn.from_, turn.key), index)
        if earlier != index:
            where = "on every screen" if turn.from_ is None else f"on screen {quoted(turn.from_)}"
            yield Fault(
                "error",
                ("turn", index),
                f"the key {quoted(turn.key)} {where} turns to {quoted(survey.project.turns[earlier].to)} already, by "
                f"turn {earlier + 1}",
                "remove one of the two or give it another key",
            )


@rule("turn-to-itself")
def turn_to_itself(survey: Survey) -> Iterator[Fault]:
    """A turn from a screen to that same screen: the key does nothing."""
    for index, turn in enumerate(survey.project.turns):
        if turn.from_ is not None and turn.from_ == turn.to:
            yield Fault(
                "warning",
                ("turn", index),
                f"it leads from {quoted(turn.to)} to the same screen, so nothing happens",
                "name another screen in 'to', or remove the turn",
            )


@rule("actions-fight")
def actions_fight(survey: Survey) -> Iterator[Fault]:
    """Two actions by one key on one screen that write to the same place: the one undoes or repeats the other."""
    by_key: dict[str, list[tuple[int, Action]]] = {}
    for index, action in enumerate(survey.project.actions):
        if action.key is not None and action.signal is not None and action.do != "begin-entry":
            by_key.setdefault(action.key, []).append((index, action))
    for key, actions in by_key.items():
        for (earlier, first), (index, second) in combinations(actions, 2):
            if not overlap(first, second):
                continue
            one, other = first.signal or "", second.signal or ""
            word = survey.source(one)
            same_word = word is not None and word is survey.source(other) and word.name in (one, other)
            if one != other and not same_word:
                continue
            repeated = (first.do, first.signal, first.value) == (second.do, second.signal, second.value)
            yield Fault(
                "warning" if repeated and second.do != "toggle" else "error",
                ("action", index),
                f"the key {quoted(key)} already does '{first.do}' on {quoted(one)}, by action {earlier + 1}; this one "
                f"does '{second.do}' on {'the same signal' if one == other else quoted(other)} right after it",
                "remove one of the two, or give it another key or another screen ('from')",
            )


@rule("momentary-turned-away")
def momentary_turned_away(survey: Survey) -> Iterator[Fault]:
    """A momentary action whose key turns the screen too: the turn ends it the moment it begins."""
    for place, action in survey.actions():
        if action.do != "momentary" or action.key is None:
            continue
        for index, turn in enumerate(survey.project.turns):
            if turn.key == action.key and (None in (turn.from_, action.from_) or turn.from_ == action.from_):
                yield Fault(
                    "error",
                    place,
                    f"the key {quoted(action.key)} also turns the screen (turn {index + 1}), which ends the action at "
                    "once",
                    "give the turn or the action another key",
                )
                break


@rule("begin-key-taken")
def begin_key_taken(survey: Survey) -> Iterator[Fault]:
    """A screen with entry whose begin key has a turn or an action there: entry cannot be begun."""
    project = survey.project
    begin = project.panel.entry.begin
    for index, screen in enumerate(project.screens):
        if not any(field.entry for field in screen.fields):
            continue
        actions = [action for action in survey.key_actions(screen.name) if action.do == "begin-entry"]
        if any(action.key in project.panel.keys for action in actions):
            continue
        takers = [
            f"turn {number + 1}"
            for number, turn in enumerate(project.turns)
            if turn.key == begin and turn.from_ in (None, screen.name) and turn.to != screen.name
        ]
        takers += [
            f"action {number + 1}"
            for number, action in enumerate(project.actions)
            if action.key == begin and action.from_ in (None, screen.name)
        ]
        if takers:
            yield Fault(
                "error",
                ("screen", index),
                f"its fields allow entry, but the key {quoted(begin)} that begins it is taken by {takers[0]}",
                "give that another key, or begin entry by an action of another key",
            )


@rule("nothing-to-enter")
def nothing_to_enter(survey: Survey) -> Iterator[Fault]:
    """An action that begins entry where there is no field to enter: the key only brings a refusal."""
    project = survey.project
    for place, action in survey.actions():
        if action.do != "begin-entry":
            continue
        shown = {action.from_} if action.from_ is not None else set(project.screen_named)
        # The turn of the same key goes before the entry.
        shown |= {turn.to for turn in project.turns if turn.key == action.key}
        if shown & {"next", "previous"}:
            shown = set(project.screen_named)
        screens = [project.screen_named[name] for name in shown if name in project.screen_named]
        fields = [field for screen in screens for field in screen.fields if field.entry]
        if not any(action.signal in (None, field.signal) for field in fields):
            what = "a value" if action.signal is None else quoted(action.signal)
            yield Fault(
                "warning",
                place,
                f"it begins the entry of {what}, but no screen it acts on has a field with entry for that",
                "allow entry on a field there, or remove the action",
            )
