"""Cases about screens: what stands on each, where its keys lead, where idle time leads, what covers it."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from app.language import translate
from app.panel.conditions import in_words
from app.panel.machine import ASIDE_S
from app.project.model import Project
from app.proposing.draft import TrialDraft, expect, screen_is
from app.proposing.face import rows_expected
from app.trial.script import Expectation, KeyStep, TrialStep, WaitStep

_NOT_YET_S: Final = 2
"""So long before the idle time is over the screen must still be there."""


def screen_cases(draft: TrialDraft) -> None:
    """What stands on each screen whatever the values are, in every language."""
    for screen in draft.screens:
        name = screen.name
        reached = draft.go(name)
        if reached is None:
            words = translate("trial", "Screen '{screen}' is never shown: nothing leads to it.")
            if name not in draft.routes.unreachable:
                words = translate("trial", "Screen '{screen}' is not shown: nobody can make its condition hold.")
            draft.lacks(words.format(screen=name))
            continue
        steps = [*reached.steps]
        if not steps:
            steps.append(screen_is(name))
        for number, chosen in draft.languages(name):
            steps += chosen
            steps += [expect(seen) for seen in rows_expected(draft.project, name, reached.known, number)]
        draft.add(translate("trial", "Screen '{screen}'").format(screen=name), steps)


def blinking_gap(draft: TrialDraft) -> None:
    """What blinks is nothing that a step can expect."""
    if any(True for screen in draft.screens for _ in screen.conditions):
        draft.lacks(translate("trial", "Whether cells blink is not tried: a person has to look."))


def key_cases(draft: TrialDraft) -> None:
    """Every key that changes the screen, pressed on every screen where it does."""
    for screen in draft.screens:
        reached = draft.go(screen.name)
        arrows = draft.routes.leaving(screen.name)
        if reached is None or not arrows:
            continue
        steps: list[TrialStep] = [*reached.steps]
        at, again = screen.name, False
        for arrow in arrows:
            if again and reached.override is not None:
                # Left by a key, it is shown again while its condition holds.
                steps.append(WaitStep(wait=Expectation(screen=screen.name), within_s=Decimal(round(ASIDE_S) + 5)))
            elif at != screen.name:
                back = draft.routes.steps(at, screen.name)
                if back is None:
                    draft.add(_keys_of(screen.name), steps)
                    steps = [*reached.steps]
                else:
                    steps += back
            steps += [KeyStep(key=arrow.label), screen_is(arrow.target)]
            at, again = arrow.target, True
        draft.add(_keys_of(screen.name), steps)


def _keys_of(screen: str) -> str:
    return translate("trial", "Keys of screen '{screen}'").format(screen=screen)


def idle_cases(draft: TrialDraft) -> None:
    """Every idle return, from every screen where it counts: not too early, and to the right screen."""
    told: set[int] = set()
    for screen in draft.screens:
        found = draft.behaviour.idle_screen_change(screen.name)
        steps = draft.routes.steps(draft.routes.start, screen.name)
        if found is None or steps is None:
            continue
        index, screen_change = found
        idle_s = screen_change.idle_s or 0
        told.add(index)
        # The wait counts from the last key; what goes before it has to be quick.
        early = max(idle_s - _NOT_YET_S, 0)
        steps = [
            *steps,
            WaitStep(wait=Decimal(early)),
            screen_is(screen.name),
            screen_is(screen_change.to, within_s=2 * _NOT_YET_S),
        ]
        words = translate("trial", "Idle for {seconds} s on '{screen}' leads to '{to}'")
        name = words.format(seconds=idle_s, screen=screen.name, to=screen_change.to)
        draft.add(name, steps)
    for index, screen_change in enumerate(draft.project.screen_changes):
        if screen_change.idle_s is not None and index not in told:
            words = translate("trial", "Screen change {number} (idle) never comes about.")
            draft.lacks(words.format(number=index + 1))


def override_cases(draft: TrialDraft) -> None:
    """Every override, at its limit and beyond it, and gone again."""
    for index, way in draft.override_ways():
        screen_change = draft.project.screen_changes[index]
        assert screen_change.when is not None
        words = in_words(screen_change.when)
        if way is None:
            draft.lacks(
                translate(
                    "trial", "Override '{screen}' is not tried: nobody can bring it about that {condition}."
                ).format(screen=screen_change.to, condition=words)
            )
            continue
        hidden = _covered_by(draft, index)
        if hidden is not None:
            sentence = translate("trial", "Override '{screen}' is not tried: '{other}' is shown before it.")
            draft.lacks(sentence.format(screen=screen_change.to, other=hidden))
            continue
        start = draft.routes.start
        steps: list[TrialStep] = [*way.calm]
        if way.just_not:
            steps += [*way.just_not, expect(Expectation(screen=start), Decimal(1))]
        else:
            steps.append(screen_is(start))
        steps += [*way.raising, screen_is(screen_change.to)]
        if way.clearing:
            steps += [*way.clearing, screen_is(start)]
        else:
            sentence = translate("trial", "It is not tried whether override '{screen}' ends.")
            draft.lacks(sentence.format(screen=screen_change.to))
        name = translate("trial", "Override '{screen}': {condition}").format(screen=screen_change.to, condition=words)
        draft.add(name, steps)


def _covered_by(draft: TrialDraft, index: int) -> str | None:
    """The screen of an override that goes before another one whenever that one's condition holds."""
    way = dict(draft.override_ways())[index]
    assert way is not None
    project: Project = draft.project
    for one in draft.behaviour.overrides:
        if one.index == index:
            return None
        if any(draft.holds_with(one.condition, name, value) for name, value in way.known.items()):
            return one.to if one.to != project.screen_changes[index].to else None
    return None
