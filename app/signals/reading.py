"""One signal's latest value, with its time and its quality."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.language import mark, translate

Raw = int | float | str
"""What stands in the registers, decoded but not scaled: a count, an IEEE 754 number or a text."""

Value = Fraction | str
"""An engineering value. Numbers stay exact; they are rounded only where they are shown."""


class Quality(enum.StrEnum):
    """How far a reading can be trusted. Everything but `GOOD` comes with a reason."""

    GOOD = "good"
    STALE = "stale"
    """Was good; too old to be shown as live."""
    NONE = "none"
    """Never read."""
    REFUSED = "refused"
    """The follower answered with an exception."""
    IMPLAUSIBLE = "implausible"
    """The registers hold something that the encoding cannot mean (a BCD digit above 9, not a number)."""


NOT_YET: Final = mark("signals", "not read yet")
"""Why a signal has no value before it was first asked for."""


@dataclass(frozen=True, slots=True)
class Reading:
    """The latest value of one signal.

    `value` is the last good value (also while `quality` is `stale`), or None if there never was one.
    `time` is `time.monotonic()` in seconds at the moment the answer arrived, or None.
    `reason` says in words why the quality is not good; empty while it is. `doubt` says of a good value why it hardly
    can be what its signal says, and what to check; empty if there is no doubt. It is shown all the same.
    """

    raw: Raw | None = None
    value: Value | None = None
    quality: Quality = Quality.NONE
    reason: str = NOT_YET
    time: float | None = None
    doubt: str = ""

    @property
    def why(self) -> str:
        """The reason in the language that is spoken; empty while the quality is good."""
        return translate("signals", NOT_YET) if self.reason == NOT_YET else self.reason

    @property
    def good(self) -> bool:
        """Whether the value may be shown as live."""
        return self.quality is Quality.GOOD

    def age(self, now: float) -> float | None:
        """Seconds since the value arrived, or None if none ever did. `now` is `time.monotonic()`."""
        return None if self.time is None else max(0.0, now - self.time)


NEVER_READ = Reading()
