"""What the registers of a device held at moments of the past: from a recording, or from what another master read."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass

from app.language import translate
from app.listening.heard import Heard
from app.matching.reading_ways import RegisterWords
from app.recording.reader import Recording


@dataclass(frozen=True, slots=True)
class PastRegisters:
    """Of one device. `registers` takes seconds since `begin`, and gives all that was known by then."""

    title: str
    unit: int
    begin: datetime.datetime
    """Civil time, with its zone."""
    seconds: float
    """How long it goes on."""
    registers: Callable[[float], RegisterWords]

    @property
    def end(self) -> datetime.datetime:
        """Civil time, with its zone."""
        return self.begin + datetime.timedelta(seconds=self.seconds)

    def moment(self, text: str) -> float:
        """Seconds since the beginning of a time of day as a person writes it, 14:06 or 14:06:12.5.

        Of several days it is the first on which it lies inside. Raises ValueError in words.
        """
        span = {"begin": f"{self.begin:%H:%M:%S}", "end": f"{self.end:%H:%M:%S}"}
        try:
            time = datetime.time.fromisoformat(text.strip().replace(",", "."))
        except ValueError:
            words = translate("past", "Enter the time of day at which the display showed it, such as {begin}.")
            raise ValueError(words.format(**span)) from None
        # A beginning that is shown without its fraction is meant to be inside.
        at = datetime.datetime.combine(self.begin.date(), time, self.begin.tzinfo)
        seconds = (at - self.begin).total_seconds()
        seconds += 86_400 if seconds <= -1 else 0
        if seconds - self.seconds >= 1:
            words = translate("past", "Nothing is known of that time: it goes from {begin} to {end}.")
            raise ValueError(words.format(**span))
        return min(max(seconds, 0.0), self.seconds)


def recorded(recording: Recording) -> tuple[PastRegisters, ...]:
    """Of each device of a recording; the recording has to stay open."""
    first, last = recording.span()

    def past(follower: str, unit: int) -> PastRegisters:
        title = translate("past", "{file}, {device}").format(file=recording.path.name, device=follower)
        return PastRegisters(
            title,
            unit,
            recording.civil(first),
            last - first,
            lambda at: recording.registers(follower, first + at),
        )

    return tuple(past(one.name, one.unit) for one in recording.project.followers)


def heard_of(heard: Heard, unit: int, until: datetime.datetime) -> PastRegisters | None:
    """Of one device that another master reads; `until` is when the listening ended. None: it was not heard."""
    its = heard.unit(unit)
    if its is None or not its.answers:
        return None
    begin = until - datetime.timedelta(seconds=heard.seconds)
    return PastRegisters(translate("past", "what was heard"), unit, begin, heard.seconds, its.words)
