"""Rules about what a field has to show: whether there is room for every value, and a text for every choice."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from itertools import chain, islice

from app.checks import fixes
from app.checks.context import CheckContext, fields_of
from app.checks.finding import Fix, Severity, Violation
from app.checks.rule import each
from app.checks.screens import cells
from app.language import translate
from app.project.binding import step_of, whole_registers
from app.project.model import OTHERWISE, AnySignal, Field, HeldSignal, Panel, RegisterSignal, Screen, by_number
from app.project.problems import Place, quoted
from app.signals.text import hexadecimal_width, number_width, spoken_digits


@each("screen", name="field-too-narrow")
def field_too_narrow(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A field with no room for some value that its signal can take: it would show '#' instead.

    Proved over the whole raw range, sign and decimals included: the follower may hold any value, whatever the limits
    of the entry say. It is an error if a value within the limits (or any value, where there are none) has no room
    and a warning otherwise. Floats are proved over their limits only, since their raw range goes to 10 to the 38th
    and more.
    """
    for place, field in fields_of(screen):
        signal = context.signal(field.signal)
        if signal is None or field.kind == "bar":
            continue
        if field.kind == "choice" and signal.texts:
            yield from _narrow_for_text(context.panel, screen, place, field, signal)
        elif isinstance(signal, RegisterSignal) and context.is_text(signal):
            yield from _narrow_for_string(context.panel, screen, place, field, signal)
        elif field.kind == "hexadecimal" and whole_registers(signal):
            yield from _narrow_for_hexadecimal(context.panel, screen, place, field, signal)
        else:
            yield from _narrow_for_number(context, screen, place, field, signal)


def widen_fix(panel: Panel, screen: Screen, place: Place, width: int) -> Fix | None:
    """The field so wide, to the right or else to the left; None if the cells there are not free."""
    index = place[1]
    assert isinstance(index, int)
    at = fixes.room_for(panel, screen, index, width)
    if at is None:
        return None
    words = translate("checks", "Make the field {cells} wide").format(cells=cells(width))
    return Fix(words, fixes.reshape_field, (at, width))


def _narrow_for_text(
    panel: Panel, screen: Screen, place: Place, field: Field, signal: AnySignal
) -> Iterator[Violation]:
    value, text = max(signal.texts.items(), key=lambda item: len(item[1]))
    if len(text) > field.width:
        yield Violation(
            "error",
            place,
            translate(
                "checks",
                "{text}, the text of {signal} for {value}, has {count} characters, but the field is {cells} wide",
            ).format(
                text=quoted(text), signal=quoted(signal.name), value=value, count=len(text), cells=cells(field.width)
            ),
            translate("checks", "make the field {cells} wide or shorten the text").format(cells=cells(len(text))),
            widen_fix(panel, screen, place, len(text)),
        )


def _narrow_for_hexadecimal(
    panel: Panel, screen: Screen, place: Place, field: Field, signal: AnySignal
) -> Iterator[Violation]:
    needed = hexadecimal_width(whole_registers(signal))
    if needed > field.width:
        yield Violation(
            "error",
            place,
            translate("checks", "{signal} in hexadecimal needs {cells}; the field has {width}").format(
                signal=quoted(signal.name), cells=cells(needed), width=field.width
            ),
            translate("checks", "make the field {cells} wide").format(cells=cells(needed)),
            widen_fix(panel, screen, place, needed),
        )


@each("screen", name="not-hexadecimal")
def not_hexadecimal(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A field in hexadecimal that cannot be: of a signal that is no whole number in registers, or one to be changed."""
    for place, field in fields_of(screen):
        signal = context.signal(field.signal)
        if field.kind != "hexadecimal" or signal is None:
            continue
        if not whole_registers(signal):
            said = translate("checks", "{signal} is not a whole number in registers, so it is shown in decimal")
        elif field.entry:
            said = translate("checks", "{signal} is shown in hexadecimal, but entered in decimal")
        else:
            continue
        as_number = _narrow_for_number(context, screen, place, field.replace(kind="number"), signal)
        fits = not whole_registers(signal) or all(found.severity != "error" for found in as_number)
        yield Violation(
            "warning",
            place,
            said.format(signal=quoted(signal.name)),
            translate("checks", "change it to a number field"),
            Fix(translate("checks", "Show it as a number"), fixes.set_at, (("kind",), "number")) if fits else None,
        )


def _narrow_for_string(
    panel: Panel, screen: Screen, place: Place, field: Field, signal: RegisterSignal
) -> Iterator[Violation]:
    count = 0 if signal.length is None else 2 * signal.length
    if count > field.width:
        yield Violation(
            "warning",
            place,
            translate("checks", "{signal} can have {count} characters, but the field is {cells} wide").format(
                signal=quoted(signal.name), count=count, cells=cells(field.width)
            ),
            translate("checks", "make the field {cells} wide, or read fewer registers (\u201cLength\u201d)").format(
                cells=cells(count)
            ),
            widen_fix(panel, screen, place, count),
        )


def _narrow_for_number(
    context: CheckContext, screen: Screen, place: Place, field: Field, signal: AnySignal
) -> Iterator[Violation]:
    span = context.span(signal.name)
    limits = None if signal.limits is None else (Fraction(signal.limits[0]), Fraction(signal.limits[1]))
    if span is None and context.is_float(signal):
        yield Violation(
            "note",
            place,
            translate("checks", "{signal} is a float without limits, so no field width is certain to be enough").format(
                signal=quoted(signal.name)
            ),
            translate("checks", "set limits for the values to expect"),
        )
    if span is None and isinstance(signal, HeldSignal):
        span = Fraction(signal.held), Fraction(signal.held)
    if span is None:
        return
    worst = _widest(span, signal.decimals)
    needed = number_width(worst, signal.decimals)
    if needed <= field.width:
        return
    severity: Severity = "error"
    if limits is not None and number_width(_widest(limits, signal.decimals), signal.decimals) <= field.width:
        severity = "warning"
    if signal.decimals:
        hint = translate("checks", "make the field {cells} wide, or show fewer decimals")
    else:
        hint = translate("checks", "make the field {cells} wide")
    yield Violation(
        severity,
        place,
        translate("checks", "{signal} can be {value}, which needs {cells}; the field has {width}").format(
            signal=quoted(signal.name),
            value=spoken_digits(worst, signal.decimals),
            cells=cells(needed),
            width=field.width,
        ),
        hint.format(cells=cells(needed)),
        widen_fix(context.panel, screen, place, needed),
    )


def _widest(span: tuple[Fraction, Fraction], decimals: int) -> Fraction:
    return max(span, key=lambda value: number_width(value, decimals))


@each("screen", name="choice-without-text")
def choice_without_text(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A choice field whose signal can take values that have no text."""
    for place, field in fields_of(screen):
        signal = context.signal(field.signal)
        if field.kind != "choice" or signal is None:
            continue
        if not signal.texts:
            yield Violation(
                "warning",
                place,
                translate("checks", "{signal} has no texts to choose from").format(signal=quoted(signal.name)),
                translate("checks", "give the signal \u201cTexts\u201d, or make it a number field"),
                _texts_or_number(context, screen, place, field, signal),
            )
            continue
        lacking = _without_text(context, signal)
        if lacking is None:
            continue
        severity: Severity = "warning" if context.of_one_bit(signal) else "note"
        yield Violation(
            severity,
            place,
            translate(
                "checks", "{signal} can be {value}, but there is no text for it; the number would be shown"
            ).format(signal=quoted(signal.name), value=lacking),
            translate(
                "checks", "add a text for {value} if it can occur, or one for all other values: otherwise = ..."
            ).format(value=lacking),
            _text_for(signal, field, (lacking,)) if context.of_one_bit(signal) else None,
        )


_ON_AND_OFF = {"0": "off", "1": "on"}


def _text_for(signal: AnySignal, field: Field, values: tuple[str, ...]) -> Fix | None:
    """The texts off and on for what is one bit, if the field has room for them."""
    texts = tuple([(value, _ON_AND_OFF[value]) for value in values if value in _ON_AND_OFF])
    if not texts or max(len(text) for _, text in texts) > field.width:
        return None
    said = ", ".join(f"{value} = {quoted(text)}" for value, text in texts)
    words = translate("checks", "Give {signal} the text {texts}").format(signal=quoted(signal.name), texts=said)
    return Fix(words, fixes.add_texts, (signal.name, texts))


def _texts_or_number(
    context: CheckContext, screen: Screen, place: Place, field: Field, signal: AnySignal
) -> Fix | None:
    """Texts for one bit; else a number field, if the number has room in it."""
    if context.of_one_bit(signal):
        found = _text_for(signal, field, ("0", "1"))
        if found is not None:
            return found
    as_number = field.replace(kind="number")
    worse = (
        _narrow_for_string(context.panel, screen, place, as_number, signal)
        if isinstance(signal, RegisterSignal) and context.is_text(signal)
        else _narrow_for_number(context, screen, place, as_number, signal)
    )
    if any(fault.severity == "error" for fault in worse):
        return None
    return Fix(translate("checks", "Change it to a number field"), fixes.set_at, (("kind",), "number"))


def _without_text(context: CheckContext, signal: AnySignal) -> str | None:
    """The value nearest to zero that the signal can take and that has no text; None if all have one, or of floats."""
    span = context.span(signal.name)
    if span is None or context.is_float(signal) or OTHERWISE in signal.texts:
        return None
    size = context.count_size(signal) or (
        Fraction(1) if context.of_one_bit(signal) else step_of(context.project, signal.name)
    )
    low, high = span
    # Where a span holds zero, it is a whole number of counts away from its ends: begin with the count nearest to it.
    begin = low + max(0, math.ceil(-low / size)) * size
    upward = (begin + size * count for count in range(math.floor((high - begin) / size) + 1))
    downward = (begin - size * count for count in range(1, math.floor((begin - low) / size) + 1))
    known = {Fraction(value) for value in by_number(signal.texts)}
    # One more value than there are texts is enough to find one without.
    lacking = next((value for value in islice(chain(upward, downward), len(known) + 1) if value not in known), None)
    return None if lacking is None else spoken_digits(lacking, 0 if lacking.denominator == 1 else signal.decimals)


@each("signal", name="text-for-no-value")
def text_for_no_value(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A text for a value that the signal can never take: probably a slip in the number."""
    span = context.span(signal.name) if signal.texts else None
    if span is None:
        return
    for value, text in signal.texts.items():
        if value != OTHERWISE and not span[0] <= int(value) <= span[1]:
            words = translate("checks", "Remove the text {text}").format(text=quoted(text))
            fix = Fix(words, fixes.drop_text, (value,))
            yield Violation(
                "warning",
                (),
                translate("checks", "the text {text} is for {value}, which the signal can never have").format(
                    text=quoted(text), value=value
                ),
                translate("checks", "the signal is {low} to {high}: correct the number or remove it").format(
                    low=spoken_digits(span[0], 0), high=spoken_digits(span[1], 0)
                ),
                # Without its last text a signal would be shown as a number, for which a field may have no room.
                fix if len(signal.texts) > 1 else None,
            )
