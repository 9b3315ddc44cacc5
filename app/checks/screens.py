"""Rules about what stands on a screen: text, fields, room and characters."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from itertools import combinations

from app.checks import fixes
from app.checks.context import CheckContext, fields_of
from app.checks.finding import Fix, Violation
from app.checks.rule import each
from app.language import translate
from app.project.model import AnySignal, Field, Panel, Screen
from app.project.problems import Place, quoted
from app.signals.repertoire import REPERTOIRES, missing


@each("screen", name="text-outside-panel")
def text_outside_panel(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """Static text beyond the last row or column: it is never seen."""
    for row, text in enumerate(screen.text):
        yield from outside(context.panel, ("text", row), row, text)


def outside(panel: Panel, place: Place, row: int, text: str) -> Iterator[Violation]:
    """What of one row of text lies outside the panel."""
    text = text.rstrip()
    if row >= panel.rows and text:
        yield Violation(
            "error",
            place,
            translate("checks", "{text} is below the last of the panel's {rows} rows").format(
                text=quoted(text.strip()), rows=panel.rows
            ),
            translate("checks", "move it up or to another screen"),
            Fix(translate("checks", "Remove this text"), fixes.set_here, ("",)),
        )
    elif len(text) > panel.columns:
        yield Violation(
            "error",
            place,
            translate("checks", "the text has {count} characters, the panel {columns} columns: {lost} is lost").format(
                count=len(text), columns=panel.columns, lost=quoted(text[panel.columns :])
            ),
            translate("checks", "shorten the text"),
            Fix(
                translate("checks", "Cut the text off at the last column"),
                fixes.set_here,
                (text[: panel.columns].rstrip(),),
            ),
        )


@each("screen", name="field-outside-panel")
def field_outside_panel(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A field that is not wholly on the panel: its value would be cut."""
    panel = context.panel
    for place, field in fields_of(screen):
        row, column = field.at
        if not 0 <= row < panel.rows:
            yield Violation(
                "error",
                place,
                translate("checks", "the field of {signal} is on row {row}; the panel has the rows 0 to {last}").format(
                    signal=quoted(field.signal), row=row, last=panel.rows - 1
                ),
                translate("checks", "move the field"),
                _elsewhere(panel, screen, place),
            )
        elif column < 0 or column + field.width > panel.columns:
            yield Violation(
                "error",
                place,
                translate(
                    "checks", "the field of {signal} takes the columns {first} to {end}; the panel has 0 to {last}"
                ).format(
                    signal=quoted(field.signal),
                    first=column,
                    end=column + field.width - 1,
                    last=panel.columns - 1,
                ),
                translate("checks", "move the field or make it narrower"),
                _elsewhere(panel, screen, place),
            )


def _elsewhere(panel: Panel, screen: Screen, place: Place) -> Fix | None:
    """The field moved to cells that are free; None if there are none."""
    index = place[1]
    assert isinstance(index, int)
    found = fixes.free_run(panel, screen, index)
    if found is None:
        return None
    words = translate("checks", "Move the field to row {row}, column {column}").format(row=found[0], column=found[1])
    return Fix(words, fixes.reshape_field, (found, screen.fields[index].width))


@each("screen", name="blinking-outside-panel")
def blinking_outside_panel(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """Cells that are to blink, and that the panel does not have."""
    for number, blinking in enumerate(screen.blinking):
        if not any(blinking.cells(context.panel)):
            yield Violation(
                "warning",
                ("blink", number),
                translate("checks", "the cells that are to blink lie outside the panel"),
                translate("checks", "give them a place on the panel, or delete this"),
            )


@each("screen", name="fields-overlap")
def fields_overlap(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """Two fields in the same cells: one hides a part of the other, and the rest reads like a value."""
    for (_, first), (number, second) in combinations(enumerate(screen.fields), 2):
        shared = _overlap(first, second)
        if shared:
            yield Violation(
                "error",
                ("field", number),
                translate("checks", "it covers {cells} of the field of {signal} on row {row}").format(
                    cells=cells(shared), signal=quoted(first.signal), row=second.at[0]
                ),
                translate("checks", "move one of them or make it narrower"),
                _elsewhere(context.panel, screen, ("field", number)),
            )


def _overlap(first: Field, second: Field) -> int:
    if first.at[0] != second.at[0]:
        return 0
    left = max(first.at[1], second.at[1])
    return max(0, min(first.at[1] + first.width, second.at[1] + second.width) - left)


def cells(count: int) -> str:
    """So many cells, in words."""
    return (translate("checks", "{count} cell") if count == 1 else translate("checks", "{count} cells")).format(
        count=count
    )


@each("screen", name="field-over-text")
def field_over_text(_context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A field over static text: the text under it is never seen."""
    for place, field in fields_of(screen):
        row, column = field.at
        if 0 <= row < len(screen.text) and column >= 0:
            hidden = screen.text[row][column : column + field.width].strip()
            if hidden:
                yield Violation(
                    "warning",
                    place,
                    translate("checks", "the field of {signal} hides the text {text}").format(
                        signal=quoted(field.signal), text=quoted(hidden)
                    ),
                    translate("checks", "clear that text, or move the field"),
                    Fix(translate("checks", "Clear the text under the field"), fixes.blank_under),
                )


@each("screen", "signal", name="character-missing")
def character_missing(context: CheckContext, part: Screen | AnySignal) -> Iterator[Violation]:
    """A character that the panel's repertoire lacks: '?' is shown in its place."""
    name = context.panel.repertoire
    if isinstance(part, Screen):
        for row, text in enumerate(part.text):
            if lacking := missing(name, text):
                message = translate(
                    "checks",
                    "the text contains {characters}, missing in the panel's character set '{repertoire}'; '?' would "
                    "be shown",
                ).format(characters=name_characters(lacking), repertoire=name)
                yield _lacking(("text", row), message, lacking, respelled(name, text), fixes.set_here)
        return
    if lacking := missing(name, part.unit):
        message = translate(
            "checks",
            "the unit {unit} contains {characters}, missing in the panel's character set '{repertoire}'; '?' would be "
            "shown",
        ).format(unit=quoted(part.unit), characters=name_characters(lacking), repertoire=name)
        yield _lacking((), message, lacking, respelled(name, part.unit), fixes.set_at, ("unit",))
    for value, text in part.texts.items():
        if lacking := missing(name, text):
            message = translate(
                "checks",
                "the text {text} for {value} contains {characters}, missing in the panel's character set "
                "'{repertoire}'; '?' would be shown",
            ).format(text=quoted(text), value=value, characters=name_characters(lacking), repertoire=name)
            yield _lacking((), message, lacking, respelled(name, text), fixes.set_at, ("texts", value))


def name_characters(characters: str) -> str:
    """Characters for a message, each with its number."""
    return " ".join(f"'{character}' (U+{ord(character):04X})" for character in characters)


def instead_of(lacking: str) -> str:
    """What to do about characters that the panel's repertoire lacks: which other one would have all of them."""
    having = ", ".join(name for name in REPERTOIRES if not missing(name, lacking))
    if not having:
        return translate("checks", "use other characters; no character set has all of these")
    return translate(
        "checks",
        "use other characters; if the real panel can show these, choose its character set: {names}",
    ).format(names=having)


def _lacking(
    place: Place, message: str, lacking: str, spelled: str | None, deed: fixes.FixFunction, keys: Place | None = None
) -> Violation:
    fix = None
    if spelled is not None:
        words = translate("checks", "Write {text}").format(text=quoted(spelled.strip()))
        fix = Fix(words, deed, (spelled,) if keys is None else (keys, spelled))
    return Violation("error", place, message, instead_of(lacking), fix)


_PLAIN = str.maketrans(
    {"\u2013": "-", "\u2014": "-", "\u2018": "'", "\u2019": "'", "\u201c": '"', "\u201d": '"', "\u00d7": "x"}
)


def respelled(repertoire: str, text: str) -> str | None:
    """The text in characters that the repertoire has, each in its place; None if there is no such spelling.

    A letter without its accents, plain quotation marks and dashes, a plain digit for a raised one.
    """
    spelled = ""
    for character in text:
        if missing(repertoire, character):
            plain = unicodedata.normalize("NFKD", character).translate(_PLAIN)[:1]
            if not plain or missing(repertoire, plain):
                return None
            character = plain
        spelled += character
    return spelled


@each("screen", name="bar-without-range")
def bar_without_range(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A bar whose empty and full ends are not known or are the same: it cannot be drawn."""
    for place, field in fields_of(screen):
        signal = context.signal(field.signal)
        if field.kind != "bar" or signal is None:
            continue
        ends = field.range or signal.limits or context.span(field.signal)
        if context.is_text(signal):
            yield Violation(
                "error",
                place,
                translate("checks", "{signal} is a text and cannot be shown as a bar").format(
                    signal=quoted(signal.name)
                ),
                translate("checks", "change it to a number field"),
                Fix(translate("checks", "Change it to a number field"), fixes.set_at, (("kind",), "number")),
            )
        elif ends is None:
            yield Violation(
                "error",
                place,
                translate(
                    "checks", "the bar of {signal} has no range: the field has no range and the signal has no limits"
                ).format(signal=quoted(signal.name)),
                translate("checks", "set the \u201cBar range\u201d of the field"),
            )
        elif ends[0] == ends[1]:
            yield Violation(
                "error",
                place,
                translate("checks", "the bar of {signal} is empty and full at the same value, {value}").format(
                    signal=quoted(signal.name), value=ends[0]
                ),
                translate("checks", "set a range with two different ends"),
            )
