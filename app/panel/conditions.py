"""Whether a condition holds, judged on good readings only."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from app.language import translate
from app.project.model import Condition
from app.signals.reading import Reading


def holds(condition: Condition, readings: Mapping[str, Reading]) -> bool | None:
    """Whether `condition` holds, or None if that cannot be judged: no good reading, or a text instead of a number.

    Who asks decides what "cannot be judged" means. An override does not newly begin on it, and one that is shown
    stays until a good reading clears it; an action waits for the next good reading; a field does not blink.
    """
    reading = readings.get(condition.signal)
    if reading is None or not reading.good or reading.value is None or isinstance(reading.value, str):
        return None
    value = reading.value
    if condition.is_ == "set":
        return value != 0
    if condition.is_ == "clear":
        return value == 0
    if condition.value is None:  # a condition made without validation
        return None
    other = _exact(condition.value)
    if condition.is_ == "above":
        return value > other
    if condition.is_ == "below":
        return value < other
    return value == other


def in_words(condition: Condition) -> str:
    """The condition for a log or a label: "fault is set", "pressure is above 4.5"."""
    words = {
        "set": translate("panel", "{signal} is set"),
        "clear": translate("panel", "{signal} is clear"),
        "above": translate("panel", "{signal} is above {value}"),
        "below": translate("panel", "{signal} is below {value}"),
        "equal": translate("panel", "{signal} equals {value}"),
    }
    return words[condition.is_].format(signal=condition.signal, value=condition.value)


@lru_cache(maxsize=1024)
def _exact(value: Decimal) -> Fraction:
    # Every condition is judged at every tick, always against the same few numbers.
    return Fraction(value)
