"""What conditions and fields see: the readings of the line, with the held values and the bits of signals."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from app.project.binding import derive_bit
from app.project.model import BitSignal, HeldSignal, Project
from app.signals.reading import NEVER_READ, Quality, Reading


class View(Mapping[str, Reading]):
    """The reading of every signal of a project, by name. Made afresh for each look; works out only what is asked.

    A held value always reads good. A bit that the line does not report comes from the reading of its word and has that
    word's quality. A signal that nobody read is "not read yet".
    """

    def __init__(self, project: Project, held: Mapping[str, Fraction], readings: Mapping[str, Reading]) -> None:
        self._project = project
        self._held = held
        self._readings = readings
        self._derived: dict[str, Reading] = {}

    def __getitem__(self, name: str) -> Reading:
        found = self._derived.get(name)
        if found is None:
            found = self._derived[name] = self._look(name)
        return found

    def _look(self, name: str) -> Reading:
        signal = self._project.signal_named[name]
        if isinstance(signal, HeldSignal):
            value = self._held.get(name)
            if value is None:
                value = Fraction(signal.held)
            raw = value.numerator if value.denominator == 1 else float(value)
            return Reading(raw=raw, value=value, quality=Quality.GOOD, reason="")
        found = self._readings.get(name)
        if found is not None:
            return found
        return derive_bit(self._project, signal, self) if isinstance(signal, BitSignal) else NEVER_READ

    def __iter__(self) -> Iterator[str]:
        return iter(self._project.signal_named)

    def __len__(self) -> int:
        return len(self._project.signal_named)
