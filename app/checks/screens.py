"""Rules about what stands on a screen: text, fields, room and characters."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from itertools import chain, combinations, islice

from app.checks.finding import Fault, Severity
from app.checks.rule import rule
from app.checks.survey import AnySignal, Survey
from app.project.binding import step_of
from app.project.model import Field, HeldSignal, RegisterSignal
from app.project.problems import Place
from app.signals.repertoire import missing
from app.signals.text import number_digits, number_width


@rule("text-outside-panel")
def text_outside_panel(survey: Survey) -> Iterator[Fault]:
    """Static text beyond the last row or column: it is never seen."""
    panel = survey.project.panel
    for index, screen in enumerate(survey.project.screens):
        for row, text in enumerate(screen.text):
            if row >= panel.rows and text.strip():
                yield Fault(
                    "error",
                    ("screen", index, "text", row),
                    f"'{text.strip()}' is below the last of the panel's {panel.rows} rows",
                    "move it up or to another screen",
                )
            elif len(text.rstrip()) > panel.columns:
                yield Fault(
                    "error",
                    ("screen", index, "text", row),
                    f"the text has {len(text.rstrip())} characters, the panel {panel.columns} columns: "
                    f"'{text.rstrip()[panel.columns :]}' is lost",
                    "shorten the text",
                )


@rule("field-outside-panel")
def field_outside_panel(survey: Survey) -> Iterator[Fault]:
    """A field that is not wholly on the panel: its value would be cut."""
    panel = survey.project.panel
    for place, _, field in survey.fields():
        row, column = field.at
        if not 0 <= row < panel.rows:
            yield Fault(
                "error",
                place,
                f"the field of '{field.signal}' is on row {row}; the panel has the rows 0 to {panel.rows - 1}",
                "move the field",
            )
        elif column < 0 or column + field.width > panel.columns:
            yield Fault(
                "error",
                place,
                f"the field of '{field.signal}' takes the columns {column} to {column + field.width - 1}; "
                f"the panel has 0 to {panel.columns - 1}",
                "move the field or make it narrower",
            )


@rule("fields-overlap")
def fields_overlap(survey: Survey) -> Iterator[Fault]:
    """Two fields in the same cells: one hides a part of the other, and the rest reads like a value."""
    for index, screen in enumerate(survey.project.screens):
        for (_, first), (number, second) in combinations(enumerate(screen.fields), 2):
            shared = _shared(first, second)
            if shared:
                yield Fault(
                    "error",
                    ("screen", index, "field", number),
                    f"it covers {_cells(shared)} of the field of '{first.signal}' on row {second.at[0]}",
                    "move one of them or make it narrower",
                )


def _shared(first: Field, second: Field) -> int:
    if first.at[0] != second.at[0]:
        return 0
    left = max(first.at[1], second.at[1])
    return max(0, min(first.at[1] + first.width, second.at[1] + second.width) - left)


@rule("field-over-text")
def field_over_text(survey: Survey) -> Iterator[Fault]:
    """A field over static text: the text under it is never seen."""
    for place, screen, field in survey.fields():
        row, column = field.at
        if 0 <= row < len(screen.text) and column >= 0:
            hidden = screen.text[row][column : column + field.width].strip()
            if hidden:
                yield Fault(
                    "warning",
                    place,
                    f"the field of '{field.signal}' hides the text '{hidden}'",
                    "put blanks there, or move the field",
                )


@rule("field-too-narrow")
def field_too_narrow(survey: Survey) -> Iterator[Fault]:
    """A field with no room for some value that its signal can take: it would show '#' instead.

    Proved over the whole raw range, sign and decimals included: the follower may hold any value, whatever the limits
    of the entry say. It is an error if a value within the limits (or any value, where there are none) has no room
    and a warning otherwise. Floats are proved over their limits only, since their raw range goes to 10 to the 38th
    and more.
    """
    for place, _, field in survey.fields():
        signal = survey.signal(field.signal)
        if signal is None or field.kind == "bar":
            continue
        if field.kind == "choice" and signal.texts:
            yield from _narrow_for_text(place, field, signal)
        elif isinstance(signal, RegisterSignal) and survey.is_text(signal):
            yield from _narrow_for_string(place, field, signal)
        else:
            yield from _narrow_for_number(survey, place, field, signal)


def _narrow_for_text(place: Place, field: Field, signal: AnySignal) -> Iterator[Fault]:
    value, text = max(signal.texts.items(), key=lambda item: len(item[1]))
    if len(text) > field.width:
        yield Fault(
            "error",
            place,
            f"'{text}', the text of '{signal.name}' for {value}, has {len(text)} characters and the field "
            f"{_cells(field.width)}",
            f"make the field {_cells(len(text))} wide or shorten the text",
        )


def _narrow_for_string(place: Place, field: Field, signal: RegisterSignal) -> Iterator[Fault]:
    if signal.length is not None and 2 * signal.length > field.width:
        yield Fault(
            "warning",
            place,
            f"'{signal.name}' may have {2 * signal.length} characters and the field has {_cells(field.width)}",
            f"make the field {_cells(2 * signal.length)} wide, or read fewer registers ('length')",
        )


def _narrow_for_number(survey: Survey, place: Place, field: Field, signal: AnySignal) -> Iterator[Fault]:
    span = survey.span(signal.name)
    limits = None if signal.limits is None else (Fraction(signal.limits[0]), Fraction(signal.limits[1]))
    if span is None and survey.is_float(signal):
        yield Fault(
            "note",
            place,
            f"'{signal.name}' is a float without limits, so no width can be proved enough",
            "give the signal the limits of the values to expect",
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
    yield Fault(
        severity,
        place,
        f"'{signal.name}' can be {number_digits(worst, signal.decimals)}, which needs {_cells(needed)}; the field has "
        f"{field.width}",
        f"make the field {_cells(needed)} wide" + (", or show fewer decimals" if signal.decimals else ""),
    )


def _widest(span: tuple[Fraction, Fraction], decimals: int) -> Fraction:
    return max(span, key=lambda value: number_width(value, decimals))


def _cells(count: int) -> str:
    return f"{count} cell" if count == 1 else f"{count} cells"


@rule("choice-without-text")
def choice_without_text(survey: Survey) -> Iterator[Fault]:
    """A choice field whose signal can take values that have no text."""
    for place, _, field in survey.fields():
        signal = survey.signal(field.signal)
        if field.kind != "choice" or signal is None:
            continue
        if not signal.texts:
            yield Fault(
                "warning",
                place,
                f"'{signal.name}' has no texts to choose from",
                "give the signal 'texts', or make it a number field",
            )
            continue
        lacking = _without_text(survey, signal)
        if lacking is not None:
            severity: Severity = "warning" if survey.of_one_bit(signal) else "note"
            yield Fault(
                severity,
                place,
                f"'{signal.name}' can be {lacking}, and there is no text for that; its number would be shown",
                f"add a text for {lacking} if it can come about",
            )


def _without_text(survey: Survey, signal: AnySignal) -> str | None:
    """The value nearest to zero that the signal can take and that has no text; None if all have one, or of floats."""
    span = survey.span(signal.name)
    if span is None or survey.is_float(signal):
        return None
    size = survey.count_size(signal) or (
        Fraction(1) if survey.of_one_bit(signal) else step_of(survey.project, signal.name)
    )
    low, high = span
    # Where a span holds zero, it is a whole number of counts away from its ends: begin with the count nearest to it.
    begin = low + max(0, math.ceil(-low / size)) * size
    upward = (begin + size * count for count in range(math.floor((high - begin) / size) + 1))
    downward = (begin - size * count for count in range(1, math.floor((begin - low) / size) + 1))
    known = {Fraction(int(value)) for value in signal.texts}
    # One more value than there are texts is enough to find one without.
    lacking = next((value for value in islice(chain(upward, downward), len(known) + 1) if value not in known), None)
    return None if lacking is None else number_digits(lacking, 0 if lacking.denominator == 1 else signal.decimals)


@rule("text-for-no-value")
def text_for_no_value(survey: Survey) -> Iterator[Fault]:
    """A text for a value that the signal can never take: probably a slip in the number."""
    for index, signal in enumerate(survey.project.signals):
        span = survey.span(signal.name) if signal.texts else None
        if span is None:
            continue
        for value, text in signal.texts.items():
            if not span[0] <= int(value) <= span[1]:
                yield Fault(
                    "warning",
                    ("signal", index),
                    f"the text '{text}' is for {value}, which the signal can never be",
                    f"it is {number_digits(span[0], 0)} to {number_digits(span[1], 0)}: mend the number or remove it",
                )


@rule("character-missing")
def character_missing(survey: Survey) -> Iterator[Fault]:
    """A character that the panel's repertoire lacks: '?' is shown in its place."""
    project = survey.project
    name = project.panel.repertoire
    for index, screen in enumerate(project.screens):
        for row, text in enumerate(screen.text):
            if lacking := missing(name, text):
                yield _lacking(("screen", index, "text", row), "the text has", lacking, name)
    for index, signal in enumerate(project.signals):
        place: Place = ("signal", index)
        if lacking := missing(name, signal.unit):
            yield _lacking(place, f"the unit '{signal.unit}' has", lacking, name)
        for value, text in signal.texts.items():
            if lacking := missing(name, text):
                yield _lacking(place, f"the text '{text}' for {value} has", lacking, name)


def _lacking(place: Place, what: str, lacking: str, name: str) -> Fault:
    listed = " ".join(f"'{character}' (U+{ord(character):04X})" for character in lacking)
    return Fault(
        "error",
        place,
        f"{what} {listed}, which the panel's repertoire '{name}' lacks; '?' would be shown",
        "write it with other characters, or choose the repertoire of the panel that you have",
    )


@rule("bar-without-range")
def bar_without_range(survey: Survey) -> Iterator[Fault]:
    """A bar whose empty and full ends are not known or are the same: it cannot be drawn."""
    for place, _, field in survey.fields():
        signal = survey.signal(field.signal)
        if field.kind != "bar" or signal is None:
            continue
        ends = field.range or signal.limits or survey.span(field.signal)
        if survey.is_text(signal):
            yield Fault("error", place, f"'{signal.name}' is a text and has no bar", "make it a number field")
        elif ends is None:
            yield Fault(
                "error",
                place,
                f"the bar of '{signal.name}' has no ends: the field has no range and the signal no limits",
                "give the field 'range = [empty, full]'",
            )
        elif ends[0] == ends[1]:
            yield Fault(
                "error",
                place,
                f"the bar of '{signal.name}' is empty and full at the same value, {ends[0]}",
                "give the field a range with two different ends",
            )
