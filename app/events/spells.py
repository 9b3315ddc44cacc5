"""Troubles that come and go, told once: with the reason that is known in the end, and short ones by their number."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from app.client.faults import FaultKind
from app.client.statistics import OUTAGE_S
from app.events.events import Event, EventKind
from app.language import translate

TOLD_AFTER_S: Final = 2.0
"""A trouble is told after so many seconds, as of its beginning: what looks like silence may be a late answer."""
TOGETHER_S: Final = 60.0
"""Short troubles that follow one are told together, so many seconds after it."""


@dataclass(slots=True)
class _Short:
    """Troubles of less than OUTAGE_S: the first one was told at once, `more` were not. Times are monotonic seconds."""

    told_at: float
    last: float = 0.0
    more: int = 0
    reason: str = ""


@dataclass(slots=True)
class _Spell:
    """How one line, or one device, does; None until that is known."""

    well: bool | None = None
    begun: float = 0.0
    reason: str = ""
    kind: FaultKind | None = None
    told: bool = False
    short: _Short | None = None


class Spells:
    """Makes events of the troubles of lines and devices, by name. All times are `time.monotonic()` in seconds."""

    def __init__(self) -> None:
        self._of: dict[str, _Spell] = {}

    def look(
        self, name: str, well: bool, since: float, reason: str, kind: FaultKind | None, back: str, now: float
    ) -> Iterator[Event]:
        """It is well, or not, `since` then; `back` says that it is well again. How it is at first is no event."""
        spell = self._of.setdefault(name, _Spell())
        if well is not spell.well:
            first, spell.well = spell.well is None, well
            if not well:
                spell.begun, spell.reason, spell.kind, spell.told = since, reason, kind, first
            elif not first:
                yield from self._over(name, spell, since, back)
        if not well:
            if (spell.kind, kind) != (FaultKind.LATE, FaultKind.SILENCE):
                if spell.told and (spell.kind, kind) == (FaultKind.SILENCE, FaultKind.LATE):
                    yield Event(now, EventKind.LINE_FAULT, name, reason)
                spell.reason, spell.kind = reason, kind
            if not spell.told and now - spell.begun >= TOLD_AFTER_S:
                yield from self._tell(name, spell)
        short = spell.short
        if short is not None and now - short.told_at > TOGETHER_S:
            yield from self._count(name, short)
            spell.short = _Short(now) if short.more else None

    def nothing_yet(self, name: str) -> None:
        """It was not asked yet: if it does not answer, that is an event."""
        spell = self._of.setdefault(name, _Spell())
        if spell.well is None:
            spell.well = True

    def end(self) -> Iterator[Event]:
        """What waits to be told, when nobody looks any more."""
        for name, spell in self._of.items():
            if not spell.well and spell.well is not None and not spell.told:
                yield from self._tell(name, spell)
            if spell.short is not None:
                yield from self._count(name, spell.short)
                spell.short.more = 0

    def _over(self, name: str, spell: _Spell, at: float, back: str) -> Iterator[Event]:
        if spell.told or at - spell.begun >= OUTAGE_S:
            if not spell.told:
                yield from self._tell(name, spell)
            yield Event(at, EventKind.LINE_BACK, name, back)
        elif spell.short is None:
            spell.short = _Short(at)
            words = translate("record", "fault for {seconds:.1f} s: {reason}")
            text = words.format(seconds=at - spell.begun, reason=spell.reason)
            yield Event(spell.begun, EventKind.LINE_FAULT, name, text)
        else:
            spell.short.more += 1
            spell.short.last, spell.short.reason = spell.begun, spell.reason

    @staticmethod
    def _tell(name: str, spell: _Spell) -> Iterator[Event]:
        spell.told = True
        yield Event(spell.begun, EventKind.LINE_FAULT, name, spell.reason)

    @staticmethod
    def _count(name: str, short: _Short) -> Iterator[Event]:
        if short.more:
            words = translate("record", "short faults within {seconds:.0f} s: {count}, the last one: {reason}")
            yield Event(
                short.last,
                EventKind.LINE_FAULT,
                name,
                words.format(seconds=short.last - short.told_at, count=short.more, reason=short.reason),
            )
