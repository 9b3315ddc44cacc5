"""Cases about what is shown of the devices' values: numbers, bars, texts and bits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from app.language import translate
from app.project.binding import bindings, plain_text, shown_text, value_span
from app.project.model import OTHERWISE, Condition, HeldSignal, RegisterSignal, by_number
from app.proposing.draft import Reached, TrialDraft, expect, signal_is
from app.proposing.face import fields_of, row_expected, rows_expected, shape
from app.proposing.machine import Situation, decimal
from app.signals.encoding import is_float, is_text
from app.signals.reading import Value
from app.signals.text import OVERFLOW
from app.trial.script import Expectation, OrderStep, TrialStep

_PLACES: Final = (Fraction(7, 8), Fraction(1, 2), Fraction(1, 8))
"""Where in its range a number is tried: a wrong scale, sign or order of words cannot be right at all three."""
_TRIES: Final = 64
_NUMBERS: Final = ("number", "hexadecimal", "bar")


# Numbers that can be set


def number_cases(draft: TrialDraft) -> None:
    """Every number, bar and hexadecimal number whose registers can be set, at three values on each of its screens."""
    for screen in draft.screens:
        reached = draft.go(screen.name)
        if reached is None:
            continue
        fields = list(fields_of(draft.project, screen.name, *_NUMBERS))
        names = [field.signal for field in fields if draft.machine.settable(field.signal)]
        names = list(dict.fromkeys(names))
        if not names:
            continue
        steps: list[TrialStep] = [*reached.steps]
        known: dict[str, Value] = {**_held(draft), **reached.known}
        for number, place in enumerate(_PLACES):
            for index, name in enumerate(names):
                value = _sample(draft, screen.name, reached, name, place, 3 * index + number)
                if value is not None:
                    known[name] = value
                    steps.append(draft.machine.order(name, value))
            rows = rows_expected(draft.project, screen.name, known, about=frozenset(names))
            steps += [expect(seen) for seen in rows]
        draft.add(translate("trial", "Numbers on '{screen}'").format(screen=screen.name), steps)


def hidden_cases(draft: TrialDraft) -> None:
    """The signals that can be set and that no field shows as a number: what the devices hold is what is read."""
    shown = {field.signal for screen in draft.screens for field in screen.fields if field.kind in _NUMBERS}
    steps: list[TrialStep] = []
    for name in draft.project.signal_named:
        if name in shown or not draft.machine.settable(name):
            continue
        for value in _plain_samples(draft, name):
            steps.append(draft.machine.order(name, value))
            if isinstance(value, Fraction):
                steps.append(signal_is(name, decimal(value)))
            else:
                steps.append(expect(Expectation(signal=name, text=value)))
    if steps:
        draft.add(translate("trial", "Signals that no screen shows as numbers"), steps)


def _plain_samples(draft: TrialDraft, name: str) -> Iterator[Value]:
    binding = bindings(draft.project)[name]
    if is_text(binding.base.encoding) and not binding.single:
        yield "AB"
        return
    start = draft.machine.start_values.get(name)
    if binding.single or binding.bit is not None:
        both = [Fraction(1), Fraction(0)]
        values: Iterable[Fraction] = both if start != 1 else reversed(both)
    else:
        found = (_sample(draft, "", None, name, place, 1) for place in _PLACES)
        values = [value for value in found if isinstance(value, Fraction)]
    for value in values:
        if draft.raises_nothing(name, value) and draft.machine.takes(name, value):
            yield value


def _held(draft: TrialDraft) -> dict[str, Value]:
    return {
        signal.name: Fraction(signal.held)
        for signal in draft.project.signal_named.values()
        if isinstance(signal, HeldSignal)
    }


def _sample(
    draft: TrialDraft, screen: str, reached: Reached | None, name: str, place: Fraction, salt: int
) -> Value | None:
    """A value that the fields of a signal can show, that leaves the screen where it is, and that the device takes."""
    project = draft.project
    binding = bindings(project)[name]
    if is_text(binding.base.encoding) and not binding.single:
        return "AB"
    ends = _range(draft, name)
    if ends is None:
        return None
    widths = [field for field in project.screen_named[screen].fields if field.signal == name] if screen else []
    wanted = project.screen_changes[reached.override].when if reached and reached.override is not None else None
    low, high = _within_conditions(draft, name, wanted, *ends)
    for nth in range(_TRIES):
        # Away from the wanted place by more and more, first to one side, then to the other.
        share = place + Fraction((nth + 1) // 2 * (1 if nth % 2 else -1), _TRIES) + Fraction(salt, 997)
        if not 0 <= share <= 1:
            continue
        value = _held_by_registers(draft, name, low + (high - low) * share)
        if value is None or not low <= value <= high:
            continue
        if wanted is not None and wanted.signal == name:
            if not draft.holds_with(wanted, name, value):
                continue
        elif not draft.raises_nothing(name, value):
            continue
        texts = [shown_text(project, name, value, field.width, field.kind) for field in widths if field.kind != "bar"]
        if any(text.startswith(OVERFLOW) for text in texts) or not draft.machine.takes(name, value):
            continue
        return value
    return None


def _within_conditions(
    draft: TrialDraft, name: str, wanted: Condition | None, low: Fraction, high: Fraction
) -> tuple[Fraction, Fraction]:
    """The part of a range in which no condition on the signal holds, or else the wanted one does."""
    conditions = [one.condition for one in draft.behaviour.overrides]
    conditions += [one.condition for one in draft.behaviour.conditionals]
    if wanted is not None and wanted.signal == name:
        conditions = [wanted]
    for condition in conditions:
        if condition.signal != name or condition.value is None or condition.is_ == "equal":
            continue
        limit = Fraction(condition.value)
        if (condition.is_ == "above") is (condition is wanted):
            low = max(low, limit)
        else:
            high = min(high, limit)
    return low, high


def _held_by_registers(draft: TrialDraft, name: str, value: Fraction) -> Fraction | None:
    """The value next to it that its registers hold, rounded to what is shown where that is exact."""
    binding = bindings(draft.project)[name]
    decimals = binding.signal.decimals
    rounded = Fraction(round(value * 10**decimals), 10**decimals)
    if is_float(binding.base.encoding) and not binding.single:
        return rounded
    try:
        return draft.machine.nearest(name, rounded)
    except ValueError:
        return None


def _range(draft: TrialDraft, name: str) -> tuple[Fraction, Fraction] | None:
    signal = draft.project.signal_named[name]
    if signal.limits is not None:
        return Fraction(signal.limits[0]), Fraction(signal.limits[1])
    span = value_span(draft.project, name)
    if span is not None or not isinstance(signal, RegisterSignal):
        return span
    return Fraction(-1000), Fraction(1000)  # a float without limits


# Numbers that a drive works out


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
                if name not in _shown_anywhere(draft) and _is_number(stage.values[name])
            ]
            name = translate("trial", "Device '{device}': {what}").format(device=drive, what=_what(situation))
            draft.add(name, steps)


def _is_number(value: Value) -> bool:
    return isinstance(value, Fraction)


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
    known: dict[str, Value] = {**_held(draft)}
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
        seen = row_expected(project, screen, row, known)
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


# Texts


def text_cases(draft: TrialDraft) -> None:
    """Every text of every choice, on every screen that shows it, in every language."""
    for screen in draft.screens:
        if draft.go(screen.name) is None:
            continue
        for name in dict.fromkeys(field.signal for field in fields_of(draft.project, screen.name, "choice")):
            values = list(_values_with_texts(draft, name))
            if not values:
                continue
            if draft.machine.settable(name):
                _texts_by_order(draft, screen.name, name, values)
            else:
                for value in values:
                    _text_by_drive(draft, screen.name, name, value)


def _values_with_texts(draft: TrialDraft, name: str) -> Iterator[Fraction | None]:
    """The values that have a text; at last one that has the text of all others, None if a drive shall find it."""
    texts = draft.project.signal_named[name].texts
    for value in sorted(by_number(texts)):
        yield Fraction(value)
    if OTHERWISE in texts:
        span = value_span(draft.project, name)
        free = (Fraction(number) for number in range(256) if number not in by_number(texts))
        settable = draft.machine.settable(name)
        yield next((one for one in free if span and span[0] <= one <= span[1]), None) if settable else None


def _texts_by_order(draft: TrialDraft, screen: str, name: str, values: Sequence[Fraction | None]) -> None:
    """Values that can be set: one case with a row for each."""
    reached = draft.go(screen)
    assert reached is not None
    rows: list[Mapping[str, object]] = []
    languages = draft.languages(screen)
    places = [field.at[0] for field in fields_of(draft.project, screen, "choice") if field.signal == name]
    if not 0 <= places[0] < draft.project.panel.rows:
        return
    like = False
    for value in values:
        if value is None:
            continue
        if not draft.raises_nothing(name, value) and not _raises(draft, reached, name, value):
            _text_lacks(draft, screen, name, value, translate("trial", "an override covers it"))
            continue
        row: dict[str, object] = {"value": decimal(value)}
        for number, _ in languages:
            seen = row_expected(draft.project, screen, places[0], {**reached.known, name: value}, number)
            text = "" if seen is None else seen.text if seen.text is not None else seen.like
            like = like or (seen is not None and seen.like is not None)
            row[f"text {number + 1}" if number else "text"] = text
        rows.append(row)
    if not rows:
        return
    first = bindings(draft.project)[name].follower.name
    steps: list[TrialStep] = [*reached.steps, OrderStep(order=f"{first}.{name}={{value}}")]
    for number, chosen in languages:
        hole = f"{{text {number + 1}}}" if number else "{text}"
        seen = Expectation(screen=screen, row=places[0] + 1, like=hole)
        steps += [*chosen, expect(seen if like else Expectation(screen=screen, row=places[0] + 1, text=hole))]
    words = translate("trial", "Texts of '{signal}' on '{screen}': {value}")
    draft.add(words.format(signal=name, screen=screen, value="{value}"), steps, each=rows)


def _raises(draft: TrialDraft, reached: Reached, name: str, value: Value) -> bool:
    """Whether the value is the very one by which its screen is shown."""
    if reached.override is None:
        return False
    condition = draft.project.screen_changes[reached.override].when
    return condition is not None and draft.holds_with(condition, name, value)


def _text_by_drive(draft: TrialDraft, screen: str, name: str, value: Fraction | None) -> None:
    """A value that a drive shows in one of its situations."""
    numbers = by_number(draft.project.signal_named[name].texts)
    covering = {one.to for one in draft.behaviour.overrides}  # what the panel says when one is left covers rows
    for situation in draft.machine.situations:
        for number, stage in enumerate(situation.stages):
            shown = stage.values.get(name)
            if not isinstance(shown, Fraction) or name not in stage.steady:
                continue
            if (shown != value) if value is not None else (shown in numbers):
                continue
            way = [] if stage.screen == screen else draft.routes.steps(stage.screen, screen)
            if way is None or (way and stage.screen in covering):
                continue
            steps: list[TrialStep] = [*situation.until(number), *way]
            for language, chosen in draft.languages(screen):
                steps += chosen
                steps += [
                    expect(seen)
                    for seen in rows_expected(draft.project, screen, {name: shown}, language, frozenset([name]))
                ]
            text = plain_text(draft.project, name, shown)
            words = translate("trial", "'{signal}' on '{screen}': {text}")
            draft.add(words.format(signal=name, screen=screen, text=text), steps)
            return
    _text_lacks(draft, screen, name, value, translate("trial", "the simulated device cannot be brought to it"))


def _text_lacks(draft: TrialDraft, screen: str, name: str, value: Fraction | None, why: str) -> None:
    texts = draft.project.signal_named[name].texts
    text = texts.get(OTHERWISE, "") if value is None else plain_text(draft.project, name, value)
    words = translate("trial", "Text '{text}' of '{signal}' on '{screen}' is not tried: {why}.")
    draft.lacks(words.format(text=text, signal=name, screen=screen, why=why))
