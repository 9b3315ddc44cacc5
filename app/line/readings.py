"""The newest readings of all signals on the lines, and when each grows too old to be shown as live."""

from __future__ import annotations

import time
from collections.abc import Iterable, Mapping
from typing import Final

from app.language import translate
from app.line.samples import SampleBus
from app.project.binding import Binding, Words, bindings, derive_bit, derive_bits
from app.project.model import BitSignal, Project, RegisterSignal
from app.signals.reading import NEVER_READ, Quality, Reading, Value

MISSED_READS: Final = 3
"""A reading is stale after this many of its reads should have come and did not."""
LEAST_LIFE_S: Final = 0.3
"""No reading is stale sooner, in seconds: a display cannot be read faster."""


class Readings:
    """The readings of one project. Belongs to the engine's thread; `now` gives out values."""

    def __init__(
        self,
        project: Project,
        cycle_ms: Mapping[str, float],
        left_out: Mapping[str, str],
        bus: SampleBus | None = None,
    ) -> None:
        """`cycle_ms` is the predicted time of one pass, by line: no reading can be fresher than that.

        `left_out` says of signals that are not read why not. `bus` gets every reading as it comes.
        """
        self._project = project
        self._bus = bus or SampleBus()
        self._newest: dict[str, Reading] = {}
        self._words: dict[str, Words] = {}
        """What each reading was decoded from."""
        self._life_s: dict[str, float] = {}
        for name, binding in bindings(project).items():
            if isinstance(binding.signal, RegisterSignal):
                every_ms = max(binding.signal.every_ms, cycle_ms.get(binding.follower.line, 0.0))
                self._newest[name] = NEVER_READ
                self._life_s[name] = max(LEAST_LIFE_S, MISSED_READS * every_ms / 1000)
        for name, reason in left_out.items():
            self._newest[name] = Reading(quality=Quality.NONE, reason=reason)

    def ever_read(self, name: str) -> bool:
        """Whether a signal ever had a value."""
        return self._newest[name].value is not None

    def take(self, binding: Binding, words: Words, at: float) -> None:
        """Registers of one signal arrived at `at`; they are no news if later ones are there already."""
        name = binding.signal.name
        former = self._newest[name]
        if former.time is not None and at < former.time:
            return
        if former.good and not former.doubt and self._words.get(name) == words:
            # Most registers hold what they held, and decoding, of floats above all, is what a reading costs.
            reading = Reading(former.raw, former.value, Quality.GOOD, "", at)
        else:
            reading = binding.reading(words, at, former)
            self._words[name] = words
        self._newest[name] = reading
        if self._bus.wanted:
            self._bus.put(name, at, (words,) if isinstance(words, int) else words, reading)

    def mark_refused(self, names: Iterable[str], reason: str) -> None:
        """The follower refuses these."""
        for name in names:
            former = self._newest[name]
            self._lose(name, Reading(former.raw, former.value, Quality.REFUSED, reason, former.time))

    def mark_lost(self, names: Iterable[str], reason: str) -> None:
        """These can no longer be read: what was good is stale from now on."""
        for name in names:
            former = self._newest[name]
            quality = Quality.NONE if former.value is None else Quality.STALE
            self._lose(name, Reading(former.raw, former.value, quality, reason, former.time))

    def _lose(self, name: str, reading: Reading) -> None:
        lost = reading.quality is not self._newest[name].quality
        self._newest[name] = reading
        if lost and self._bus.wanted:
            self._bus.put(name, time.monotonic(), (), reading)

    def known_value(self, name: str) -> Value | None:
        """The value of a signal, or of a bit, if its reading is good."""
        reading = self._newest.get(name)
        if reading is None:
            signal = self._project.signal_named.get(name)
            if not isinstance(signal, BitSignal):
                return None
            reading = derive_bit(self._project, signal, self._newest)
        return reading.value if reading.good else None

    def words(self, name: str, since: float) -> tuple[int, ...] | None:
        """The registers of a signal as they were read last, at `since` (monotonic seconds) or later, if they were.

        Whatever has become of its reading: also of one that is old by now, or whose register is refused.
        """
        reading, words = self._newest.get(name), self._words.get(name)
        if reading is None or reading.time is None or reading.time < since or words is None:
            return None
        return (words,) if isinstance(words, int) else tuple(words)

    def unread(self, names: Iterable[str], reason: str) -> None:
        """A read of these failed: those without any value get the reason; the others live on until they are too old."""
        self.mark_lost((name for name in names if self._newest[name].value is None), reason)

    def age(self, now: float) -> bool:
        """Let readings grow old. Gives whether any changed."""
        old = [
            name
            for name, reading in self._newest.items()
            if reading.quality is Quality.GOOD and reading.time is not None and now - reading.time > self._life_s[name]
        ]
        for name in old:
            self.mark_lost(
                (name,), translate("bus", "no newer value within {life_s:.1f} s").format(life_s=self._life_s[name])
            )
        return bool(old)

    def now(self) -> dict[str, Reading]:
        """All readings, with those of the bit signals."""
        bits = derive_bits(self._project, self._newest)
        for name, reading in bits.items():
            if reading == NEVER_READ:
                bits[name] = NEVER_READ  # by identity, so that "not read yet" is one thing everywhere
        return {**self._newest, **bits}
