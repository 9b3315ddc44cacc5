"""What the display of a device shows, as a person types it: "25.0 Hz", "25,0", "-3", "1 450 min-1"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.language import translate
from app.signals.typed import number

_GROUPS: Final = re.compile(r"([-+\u2212\u2013]?[0-9]{1,3}(?:[ \u00a0\u2007\u2009\u202f'][0-9]{3})+)(?![0-9])")
_NUMBER: Final = re.compile(r"[-+\u2212\u2013]?\s*(?:0[xX][0-9A-Fa-f]+|[0-9.,]+(?:[eE][-+]?[0-9]+(?![\w.]))?)")


@dataclass(frozen=True, slots=True)
class Shown:
    """A value, known to half a step of the display to either side."""

    value: Fraction
    step: Fraction
    """By how much the display moves at least: its last digit, or what somebody said."""
    digit: Fraction
    """What one of the last digit is worth."""
    unit: str = ""
    text: str = ""
    """As it was typed."""

    @property
    def half(self) -> Fraction:
        """Half a step."""
        return self.step / 2

    @property
    def decimals(self) -> int:
        """Digits behind the decimal mark, 0 or more."""
        return max(0, len(str(self.digit.denominator)) - 1)


def shown(text: str, step: Fraction | None = None) -> Shown:
    """What was typed, with or without a unit behind it. The decimal mark is that of the language, where it matters.

    `step` is by how much the display moves, if not by one of its last digit. Raises ValueError in words.
    """
    typed = text.strip()
    if (groups := _GROUPS.match(typed)) is not None:
        typed = re.sub("[^-+\u2212\u2013.,0-9]", "", groups[1]) + typed[groups.end() :]
    found = _NUMBER.match(typed)
    if found is None:
        raise ValueError(
            translate(
                "matching", "'{text}' does not begin with a number; enter what the display shows: 25.0 Hz"
            ).format(text=" ".join(text.split())[:40])
        )
    value = number(re.sub(r"\s", "", found[0]))
    exponent = value.as_tuple().exponent
    assert isinstance(exponent, int)
    digit = Fraction(10) ** exponent
    if step is not None and step <= 0:
        raise ValueError(translate("matching", "the step of a display is greater than 0"))
    return Shown(Fraction(value), step or digit, digit, typed[found.end() :].strip()[:20], " ".join(text.split()))
