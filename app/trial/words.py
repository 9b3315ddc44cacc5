"""What the steps of a trial do and expect, in words for its reader and its record."""

from __future__ import annotations

from decimal import Decimal

from app.events.alarms import WORDS, AlarmState
from app.language import translate
from app.project.model import Project
from app.project_file.canonical import number_text
from app.trial.script import (
    AskStep,
    EnterStep,
    Expectation,
    ExpectStep,
    FigureOrHole,
    KeysStep,
    KeyStep,
    MeasureStep,
    NoteStep,
    OrderStep,
    TrialStep,
    WaitStep,
)


def step_words(project: Project, step: TrialStep, *, simulated: bool = True) -> str:
    """What a step does, in one line.

    Not `simulated`, an order to a simulated device is what a person does by hand instead.
    """
    if isinstance(step, KeyStep):
        return _key_words(step)
    if isinstance(step, KeysStep):
        return translate("trial", "press {keys}").format(keys=", ".join(step.keys))
    if isinstance(step, EnterStep):
        words = translate("trial", "enter {value} for '{signal}'")
        if step.refused:
            words = translate("trial", "try to enter {value} for '{signal}': must not be possible")
        return words.format(value=with_unit(project, step.enter, step.value), signal=step.enter)
    if isinstance(step, OrderStep):
        if not simulated and step.by_hand is not None:
            return translate("trial", "by hand: {what}").format(what=step.by_hand)
        return translate("trial", "simulated: {order}").format(order=step.order)
    if isinstance(step, WaitStep):
        if isinstance(step.wait, Expectation):
            return translate("trial", "wait until {what}").format(what=expectation_words(project, step.wait))
        return translate("trial", "wait {seconds} s").format(seconds=number_text(step.wait))
    if isinstance(step, ExpectStep):
        words = translate("trial", "expect: {what}").format(what=expectation_words(project, step.expect))
        if step.hold_s:
            words += translate("trial", ", for {seconds} s").format(seconds=number_text(step.hold_s))
        return words
    if isinstance(step, AskStep):
        return step.ask
    if isinstance(step, MeasureStep):
        return translate("trial", "measure: {what}").format(what=step.measure)
    assert isinstance(step, NoteStep)
    return step.note


def expectation_words(project: Project, seen: Expectation) -> str:
    """What is expected, in one line: "row 2 is 'stopped'", "'frequency' is 20 Hz, give or take 0.2"."""
    if seen.signal is not None:
        return _signal_words(project, seen)
    if seen.event is not None:
        words = translate("trial", "event '{event}'").format(event=seen.event)
        return words + (translate("trial", " of '{about}'").format(about=seen.about) if seen.about else "")
    if seen.alarm is not None:
        state = translate("record", WORDS[AlarmState(seen.state or "NORM")])
        return translate("trial", "alarm '{alarm}' is {state}").format(alarm=seen.alarm, state=state)
    parts = []
    if seen.screen is not None:
        parts.append(translate("trial", "screen '{screen}' is shown").format(screen=seen.screen))
    if seen.row is not None:
        ways = (
            (seen.text, translate("trial", "row {row} is '{text}'")),
            (seen.like, translate("trial", "row {row} is like '{text}'")),
            (seen.cells, translate("trial", "row {row} is '{text}', cell by cell")),
        )
        parts += [words.format(row=seen.row, text=text) for text, words in ways if text is not None]
    return ", ".join(parts)


def in_columns(project: Project, step: TrialStep, *, simulated: bool = True) -> tuple[str, str]:
    """What a step does, and what is expected of it, for a list that has a column for either."""
    if isinstance(step, ExpectStep | WaitStep) and (seen := _expectation(step)) is not None:
        words = translate("trial", "look at {what}")
        if isinstance(step, WaitStep):
            words = translate("trial", "wait for {what}")
        expected = _wanted_words(project, seen)
        if step.within_s is not None:
            expected += translate("trial", ", within {seconds} s").format(seconds=number_text(step.within_s))
        if isinstance(step, ExpectStep) and step.hold_s:
            expected += translate("trial", ", for {seconds} s").format(seconds=number_text(step.hold_s))
        return words.format(what=_subject_words(seen)), expected
    if isinstance(step, AskStep):
        return translate("trial", "ask: {question}").format(question=step.ask), translate("trial", "yes")
    if isinstance(step, MeasureStep):
        return step_words(project, step), range_words(step.at_least, step.at_most, step.unit)
    return step_words(project, step, simulated=simulated), ""


def range_words(at_least: FigureOrHole | None, at_most: FigureOrHole | None, unit: str) -> str:
    """The range of a measurement: "360 to 440 V"."""
    if at_least is not None and at_most is not None:
        words = translate("trial", "{low} to {high} {unit}")
    elif at_least is not None:
        words = translate("trial", "at least {low} {unit}")
    elif at_most is not None:
        words = translate("trial", "at most {high} {unit}")
    else:
        words = translate("trial", "any value, {unit}") if unit else translate("trial", "any value")
    return words.format(low=_figure(at_least), high=_figure(at_most), unit=unit).rstrip()


def with_unit(project: Project, signal: str, value: FigureOrHole | None) -> str:
    """A figure with the unit of its signal."""
    known = project.signal_named.get(signal)
    return f"{_figure(value)} {known.unit if known is not None else ''}".rstrip()


def _signal_words(project: Project, seen: Expectation) -> str:
    name = seen.signal or ""
    if seen.quality is not None:
        qualities = (seen.quality,) if isinstance(seen.quality, str) else seen.quality
        return translate("trial", "'{signal}' reads {quality}").format(signal=name, quality=" / ".join(qualities))
    if seen.text is not None:
        return translate("trial", "'{signal}' is '{text}'").format(signal=name, text=seen.text)
    if seen.value is not None:
        words = translate("trial", "'{signal}' is {value}")
        if seen.tolerance is not None:
            words = translate("trial", "'{signal}' is {value}, give or take {tolerance}")
        tolerance = seen.tolerance if isinstance(seen.tolerance, str) else _figure(seen.tolerance)
        return words.format(signal=name, value=with_unit(project, name, seen.value), tolerance=tolerance)
    return translate("trial", "'{signal}' is {bounds}").format(signal=name, bounds=_bounds_words(project, seen))


def _expectation(step: ExpectStep | WaitStep) -> Expectation | None:
    seen = step.expect if isinstance(step, ExpectStep) else step.wait
    return seen if isinstance(seen, Expectation) else None


def _subject_words(seen: Expectation) -> str:
    """What is looked at, without what is expected of it."""
    if seen.signal is not None:
        return translate("trial", "'{signal}'").format(signal=seen.signal)
    if seen.event is not None and seen.about is None:
        return translate("trial", "an event")
    if seen.event is not None:
        return translate("trial", "an event of '{about}'").format(about=seen.about)
    if seen.alarm is not None:
        return translate("trial", "alarm '{alarm}'").format(alarm=seen.alarm)
    if seen.row is None:
        return translate("trial", "the screen")
    if seen.screen is None:
        return translate("trial", "row {row}").format(row=seen.row)
    return translate("trial", "screen '{screen}', row {row}").format(screen=seen.screen, row=seen.row)


def _wanted_words(project: Project, seen: Expectation) -> str:
    """What is expected of what is looked at."""
    if seen.signal is not None:
        return _of_signal(project, seen)
    if seen.event is not None:
        return translate("trial", "'{text}'").format(text=seen.event)
    if seen.alarm is not None:
        return translate("record", WORDS[AlarmState(seen.state or "NORM")])
    if seen.like is not None:
        return translate("trial", "like '{text}'").format(text=seen.like)
    if seen.cells is not None:
        return translate("trial", "'{text}', cell by cell").format(text=seen.cells)
    return translate("trial", "'{text}'").format(text=seen.screen if seen.row is None else seen.text)


def _of_signal(project: Project, seen: Expectation) -> str:
    name = seen.signal or ""
    if seen.quality is not None:
        qualities = (seen.quality,) if isinstance(seen.quality, str) else seen.quality
        return " / ".join(qualities)
    if seen.text is not None:
        return translate("trial", "'{text}'").format(text=seen.text)
    if seen.value is None:
        return _bounds_words(project, seen)
    if seen.tolerance is None:
        return with_unit(project, name, seen.value)
    tolerance = seen.tolerance if isinstance(seen.tolerance, str) else _figure(seen.tolerance)
    return translate("trial", "{value} \u00b1 {tolerance}").format(
        value=with_unit(project, name, seen.value), tolerance=tolerance
    )


def _bounds_words(project: Project, seen: Expectation) -> str:
    name, bounds = seen.signal or "", []
    if seen.above is not None:
        bounds.append(translate("trial", "above {value}").format(value=with_unit(project, name, seen.above)))
    if seen.below is not None:
        bounds.append(translate("trial", "below {value}").format(value=with_unit(project, name, seen.below)))
    return translate("trial", " and ").join(bounds)


def _key_words(step: KeyStep) -> str:
    words = translate("trial", "press {key}").format(key=step.key)
    if step.times > 1:
        words = translate("trial", "press {key} {times} times").format(key=step.key, times=step.times)
    if step.hold_s:
        words += translate("trial", ", held for {seconds} s").format(seconds=number_text(step.hold_s))
    return words


def _figure(value: FigureOrHole | None) -> str:
    return "" if value is None else number_text(value) if isinstance(value, Decimal) else value
