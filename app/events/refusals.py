"""Devices that answer, and refuse readings with an exception: told by device, not by reading."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from app.events.events import Event, EventKind
from app.events.spells import Spells
from app.language import translate
from app.line.samples import Sample
from app.project.binding import bindings
from app.project.model import Project
from app.signals.reading import Quality

SETTLED_S: Final = 1.0
"""The number of refused readings is told when it has not changed for so many seconds: a block that is refused is asked
in pieces, until those are found that the device does not have."""
AT_MOST_S: Final = 5.0
"""It is told after so many seconds in any case."""


@dataclass(slots=True)
class _Device:
    """What one device refuses: by register signal how many readings that are, a bit being one too."""

    total: int
    refused: dict[str, int] = field(default_factory=dict)
    told: int = 0
    """How many readings were told as refused."""
    since: float | None = None
    """From when on (`time.monotonic()`) it refuses another number than that."""
    changed: float = 0.0
    most: int = 0
    reason: str = ""

    @property
    def count(self) -> int:
        return sum(self.refused.values())

    def words(self, count: int) -> str:
        told = translate("record", "{count} of {total} readings are refused: {reason}")
        return told.format(count=count, total=self.total, reason=self.reason)


class Refusals:
    """Makes events of refused readings. All times are `time.monotonic()` in seconds."""

    def __init__(self, project: Project) -> None:
        bound = bindings(project)
        self._device_of = {name: each.follower.name for name, each in bound.items()}
        self._weights = Counter(each.base.name for each in bound.values())
        self._devices = {name: _Device(total) for name, total in Counter(self._device_of.values()).items()}
        self._short = Spells()

    def sample(self, sample: Sample) -> None:
        """A reading arrived, or is refused. What is merely not read leaves things as they are."""
        quality, name = sample.reading.quality, sample.signal
        if quality not in (Quality.GOOD, Quality.REFUSED) or name not in self._device_of:
            return
        device = self._devices[self._device_of[name]]
        if (quality is Quality.REFUSED) is (name in device.refused):
            return
        if quality is Quality.REFUSED:
            device.refused[name], device.reason = self._weights[name], sample.reading.reason
        else:
            del device.refused[name]
        device.changed = sample.at
        if device.since is None:
            device.since, device.most = sample.at, 0
        device.most = max(device.most, device.count)

    def look(self, now: float) -> Iterator[Event]:
        """What is to be told by now."""
        for name, device in self._devices.items():
            since = device.since
            if since is not None and (
                device.count == device.told or now - device.changed >= SETTLED_S or now - since >= AT_MOST_S
            ):
                yield from self._tell(name, device, since)
            yield from self._short.look(name, True, now, "", None, "", now)

    def end(self) -> Iterator[Event]:
        """What waits to be told, when nobody looks any more."""
        for name, device in self._devices.items():
            if device.since is not None:
                yield from self._tell(name, device, device.since)
        yield from self._short.end()

    def _tell(self, name: str, device: _Device, since: float) -> Iterator[Event]:
        count, before = device.count, device.told
        device.told, device.since = count, None
        back = translate("record", "now only {count} of {total} readings are refused").format(
            count=count, total=device.total
        )
        if not count:
            back = translate("record", "no more readings are refused")
        if count > before:
            yield Event(since, EventKind.LINE_FAULT, name, device.words(count))
        elif count < before:
            yield Event(since, EventKind.LINE_BACK, name, back)
        elif device.most > before:
            yield from self._short.look(name, False, since, device.words(device.most), None, back, since)
            yield from self._short.look(name, True, device.changed, "", None, back, device.changed)
