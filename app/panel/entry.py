"""Entry: the value that the operator is changing, step by step or digit by digit, always within its limits."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from app.errors import FanlightError
from app.language import translate
from app.panel.messages import Saying, above, below, bounds, of_refusal
from app.project.binding import refusal, step_of, unwritable
from app.project.model import AnySignal, BitSignal, Field, Project, RegisterSignal, by_number
from app.signals.reading import Quality, Reading
from app.signals.scaling import round_half_away
from app.signals.text import number_width

REPEAT_AFTER_S: Final = 0.5
"""A key held this long begins to repeat."""
REPEAT_EVERY_S: Final = 0.1
"""Then it repeats this often."""
ACCELERATION: Final = ((30, 100), (10, 10), (0, 1))
"""After so many repeats (descending) one repeat counts for so many steps: ten from 1.5 s on, a hundred from 3.5 s."""
SHARE_OF_SPAN: Final = 20
"""But one repeat never goes further than this share (1/20) of the way from the lower limit to the upper one."""


class EntryRefused(FanlightError):
    """The value of a field cannot be changed now; the text says why in full, `saying` what the panel says of it."""

    def __init__(self, reason: str, saying: Saying) -> None:
        super().__init__(reason)
        self.saying = saying


@dataclass(frozen=True, slots=True)
class Repeat:
    """A key held down while it changes the value: its way (1 up, -1 down), when it next repeats, how often it has."""

    key: str
    way: int
    next_at: float
    count: int = 0


@dataclass(frozen=True, slots=True)
class Editing:
    """The value under change. `low` and `high` bound it (None: no bound); `choices`, if any, are all it may be."""

    old: Fraction
    value: Fraction
    low: Fraction | None = None
    high: Fraction | None = None
    choices: tuple[Fraction, ...] = ()
    digit: int | None = None
    """By digit: the power of ten that the cursor stands on (0 units, -1 tenths). None: by step."""
    repeat: Repeat | None = None


@dataclass(frozen=True, slots=True)
class Entry:
    """Entry on the shown screen: the fields to choose from, in reading order, and the chosen one's value, if begun."""

    fields: tuple[int, ...]
    """Indexes in the screen's fields. Only one: there is nothing to choose."""
    place: int = 0
    editing: Editing | None = None

    @property
    def field(self) -> int:
        """The chosen field: its index in the screen's fields."""
        return self.fields[self.place]


def start(project: Project, field: Field, reading: Reading, by_digit: bool) -> tuple[Editing, Saying | None]:
    """Begin to change what `field` shows, from its reading. Returns the editing and a message, mostly none.

    A value that is stale may be changed; one that was never read, refused or implausible may not, since the operator
    would change something that he has not seen. A value outside its limits begins at the nearest limit and says so.
    Raises EntryRefused.
    """
    reason = unwritable(project, field.signal)
    if reason is not None:
        raise EntryRefused(reason, of_refusal(project, field.signal))
    signal = project.signal_named[field.signal]
    if isinstance(reading.value, str):
        raise EntryRefused(translate("panel", "a text cannot be changed"), Saying("read_only"))
    if reading.value is None or reading.quality not in (Quality.GOOD, Quality.STALE):
        raise EntryRefused(reading.why or translate("panel", "there is no value"), Saying("no_value"))
    value = reading.value

    choices = _choices(field, signal)
    if choices:
        allowed = tuple(choice for choice in choices if refusal(project, signal.name, choice) is None)
        if not allowed:
            reason = refusal(project, signal.name, choices[0])
            raise EntryRefused(
                reason or translate("panel", "no choice is allowed"), of_refusal(project, signal.name, choices[0])
            )
        # The first look is at what is there, even where it is none of the choices; the first step goes to one.
        return Editing(old=value, value=value, choices=allowed), None

    low, high = bounds(project, signal.name) or (None, None)
    if low is not None and high is not None and low > high:
        raise EntryRefused(
            translate("panel", "its limits are outside the range of its registers"), Saying("not_possible")
        )
    within, message = _clamp(signal, value, low, high)
    return Editing(old=value, value=within, low=low, high=high, digit=-signal.decimals if by_digit else None), message


def change(project: Project, field: Field, editing: Editing, way: int) -> tuple[Editing, Saying | None]:
    """Change the value once, up (`way` 1) or down (-1). Returns the editing and a message, none unless it hit a limit.

    By step the value goes up or down by exactly the signal's step. By digit it is first taken as it is shown, then goes
    up or down by the power of ten under the cursor, with carry. Choices go round.
    """
    if editing.choices:
        return replace(editing, value=_next_choice(editing.choices, editing.value, way)), None
    signal = project.signal_named[field.signal]
    if editing.digit is not None:
        new = round_half_away(editing.value, signal.decimals) + way * Fraction(10) ** editing.digit
    else:
        step = step_of(project, signal.name)
        new = editing.value + way * _factor(editing, step) * step
    new, message = _clamp(signal, new, editing.low, editing.high)
    if field.kind not in ("bar", "hexadecimal") and number_width(new, signal.decimals) > field.width >= number_width(
        editing.value, signal.decimals
    ):
        return editing, Saying("no_room")
    return replace(editing, value=new), message


def move_cursor(project: Project, field: Field, editing: Editing, way: int) -> Editing:
    """By digit: move the cursor to the next higher (`way` 1) or lower (-1) digit, as far as the field has room."""
    if editing.digit is None:
        return editing
    decimals = project.signal_named[field.signal].decimals
    digit = min(max(editing.digit + way, -decimals), _highest_digit(editing, field, decimals))
    return replace(editing, digit=digit)


def cursor_cell(project: Project, field: Field, editing: Editing) -> int | None:
    """By digit: in which cell of the field, from 0, the digit under the cursor stands; None by step."""
    if editing.digit is None:
        return None
    decimals = project.signal_named[field.signal].decimals
    from_right = editing.digit + decimals + (1 if decimals and editing.digit >= 0 else 0)
    cell = field.width - 1 - from_right
    return cell if cell >= 0 else None


def _choices(field: Field, signal: AnySignal) -> tuple[Fraction, ...]:
    """What the value may be if it is one of a few, in rising order; empty for a number."""
    if field.kind == "choice" and signal.texts:
        return tuple(sorted(Fraction(value) for value in by_number(signal.texts)))
    if isinstance(signal, BitSignal) or (isinstance(signal, RegisterSignal) and signal.table in ("coil", "discrete")):
        return (Fraction(0), Fraction(1))
    return ()


def _next_choice(choices: tuple[Fraction, ...], value: Fraction, way: int) -> Fraction:
    if way > 0:
        return next((choice for choice in choices if choice > value), choices[0])
    return next((choice for choice in reversed(choices) if choice < value), choices[-1])


def _clamp(
    signal: AnySignal,
    value: Fraction,
    low: Fraction | None,
    high: Fraction | None,
) -> tuple[Fraction, Saying | None]:
    if high is not None and value > high:
        return high, above(signal, high)
    if low is not None and value < low:
        return low, below(signal, low)
    return value, None


def _factor(editing: Editing, step: Fraction) -> int:
    """How many steps one repeat counts for."""
    if editing.repeat is None:
        return 1
    for after, factor in ACCELERATION:
        if editing.repeat.count < after:
            continue
        if editing.low is None or editing.high is None:
            return factor
        if factor * step * SHARE_OF_SPAN <= editing.high - editing.low:
            return factor
    return 1


def _highest_digit(editing: Editing, field: Field, decimals: int) -> int:
    """The highest power of ten that the cursor may stand on: within the bounds and within the field."""
    signed = editing.low is None or editing.low < 0
    room = field.width - (decimals + 1 if decimals else 0) - (1 if signed else 0)
    highest = room - 1
    if editing.low is not None and editing.high is not None:
        largest = math.floor(max(abs(editing.low), abs(editing.high)))
        highest = min(highest, len(str(largest)) - 1)
    return max(highest, -decimals)
