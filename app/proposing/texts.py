"""Cases about texts: each text of each choice, on every screen that shows it, in every language."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from app.language import translate
from app.project.binding import bindings, plain_text, value_span
from app.project.model import OTHERWISE, HeldSignal, by_number
from app.proposing.draft import Reached, TrialDraft, expect
from app.proposing.face import fields_of, row_expected, rows_expected
from app.proposing.machine import decimal
from app.signals.reading import Value
from app.trial.script import Expectation, OrderStep, TrialStep


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


def hidden_text_cases(draft: TrialDraft) -> None:
    """The texts of signals that no screen shows: lists and alarms of the program say them."""
    shown = {field.signal for screen in draft.shown_screens for field in fields_of(draft.project, screen, "choice")}
    for name, signal in draft.project.signal_named.items():
        if not signal.texts or name in shown or isinstance(signal, HeldSignal):
            continue
        for value in _values_with_texts(draft, name):
            found = _brought_to(draft, name, value)
            if found is None:
                continue
            steps, text = found
            words = translate("trial", "Text '{text}' of '{signal}'").format(text=text, signal=name)
            draft.add(words, [*steps, expect(Expectation(signal=name, text=text))], simulated=True)


def _brought_to(draft: TrialDraft, name: str, value: Fraction | None) -> tuple[list[TrialStep], str] | None:
    """The steps after which a signal reads a value, or one without a text of its own (None), and its text then."""
    if draft.machine.settable(name):
        if value is None or not draft.machine.takes(name, value) or not draft.raises_nothing(name, value):
            return None
        return [draft.machine.order(name, value)], plain_text(draft.project, name, value)
    numbers = by_number(draft.project.signal_named[name].texts)
    for situation in draft.machine.situations:
        for number, stage in enumerate(situation.stages):
            read = stage.values.get(name)
            if not isinstance(read, Fraction) or name not in stage.steady:
                continue
            if read == value or (value is None and read not in numbers):
                return [*situation.until(number)], plain_text(draft.project, name, read)
    return None


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
            words = translate("trial", "Text '{text}' of '{signal}' on '{screen}'")
            draft.add(words.format(signal=name, screen=screen, text=text), steps, simulated=True)
            return
    _text_lacks(draft, screen, name, value, translate("trial", "the simulated device cannot be brought to it"))


def _text_lacks(draft: TrialDraft, screen: str, name: str, value: Fraction | None, why: str) -> None:
    texts = draft.project.signal_named[name].texts
    text = texts.get(OTHERWISE, "") if value is None else plain_text(draft.project, name, value)
    words = translate("trial", "Text '{text}' of '{signal}' on '{screen}' is not tried: {why}.")
    draft.lacks(words.format(text=text, signal=name, screen=screen, why=why))
