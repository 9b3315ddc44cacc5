"""Cases about a drive that was started: what it works out is what the screens show."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from app.language import translate
from app.project.binding import shown_text
from app.proposing.draft import TrialDraft, expect, signal_is
from app.proposing.face import fields_of, row_expected, shape
from app.proposing.machine import Situation, decimal
from app.signals.reading import Value
from app.trial.script import Expectation, OrderStep, TrialStep


def running_cases(draft: TrialDraft) -> None:
    """What the screens show of a drive that runs, at three set points, and of its run time."""
    project = draft.project
    for drive in draft.machine.drives:
        situations = [*draft.machine.at_references(drive)]
        running = draft.machine.running.get(drive)
        if running is None:
            words = translate("trial", "Device '{device}' is not tried running: no key starts it.")
            draft.lacks(words.format(device=drive))
            situations = []
        elif not situations:
            situations = [running]
        situations += draft.machine.aged(drive)
        for situation in situations:
            stage = situation.stages[-1]
            if stage.screen not in project.screen_named:
                continue
            steps: list[TrialStep] = [*situation.until(len(situation.stages))]
            seen = _seen_of(draft, stage.values.keys())
            at = stage.screen
            for screen in seen:
                way = draft.routes.steps(at, screen)
                if way is None:
                    continue
                steps += way
                at = screen
                steps += list(_rows_of_drive(draft, screen, situation))
            known = {name for name in stage.values if name in stage.steady}
            steps += [
                signal_is(name, decimal(Fraction(stage.values[name])))
                for name in sorted(known)
                if name not in _shown_anywhere(draft) and isinstance(stage.values[name], Fraction)
            ]
            name = translate("trial", "Device '{device}': {what}").format(device=drive, what=_what(situation))
            draft.add(name, steps, simulated=True)


def _what(situation: Situation) -> str:
    orders = [step.order.partition(".")[2] for step in situation.until(9) if isinstance(step, OrderStep)]
    return ", ".join(orders) or translate("trial", "running")


def _shown_anywhere(draft: TrialDraft) -> set[str]:
    return {field.signal for screen in draft.shown_screens for field in draft.project.screen_named[screen].fields}


def _seen_of(draft: TrialDraft, names: Iterable[str]) -> list[str]:
    """The screens that keys lead to and that show one of these signals."""
    wanted = set(names)
    return [
        screen.name
        for screen in draft.screens
        if draft.routes.keys(draft.routes.start, screen.name) is not None
        and any(field.signal in wanted for field in screen.fields)
    ]


def _rows_of_drive(draft: TrialDraft, screen: str, situation: Situation) -> Iterator[TrialStep]:
    """The rows with a drive's values: as they are where they are steady, else in their shape and roughly."""
    project, stage = draft.project, situation.stages[-1]
    known: dict[str, Value] = {**draft.held}
    known |= {name: value for name, value in stage.values.items() if name in stage.steady}
    moving = [
        field
        for field in fields_of(project, screen, "number")
        if field.signal in stage.values and field.signal not in stage.steady
    ]
    for row in range(project.panel.rows):
        fields = [field for field in project.screen_named[screen].fields if field.at[0] == row]
        if not any(field.signal in stage.values for field in fields):
            continue
        seen = row_expected(project, screen, row, known, roughly=stage.values)
        moves = [field for field in moving if field.at[0] == row]
        if seen is not None and seen.like is not None and len(moves) == 1 and seen.like.count("*") == 1:
            text = shown_text(project, moves[0].signal, stage.values[moves[0].signal], moves[0].width, "number")
            seen = seen.replace(like=seen.like.replace("*", shape(text)))
        if seen is not None:
            yield expect(seen)
    for field in moving:
        value = stage.values[field.signal]
        if isinstance(value, Fraction) and value:
            yield expect(Expectation(signal=field.signal, value=decimal(round(value, 3)), tolerance="10%"))
