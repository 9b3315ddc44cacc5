"""What a history kept, saved as a recording afterwards: the same file that a recorder would have written."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

import numpy as np

from app.events.events import Event, EventKind
from app.language import translate
from app.recording.clock import microseconds
from app.recording.gathering import Gathering
from app.recording.history import Kept
from app.recording.samples import Samples
from app.recording.writer import Writer

COMMIT_EVERY = 200_000
"""Samples."""


def save(
    kept: Kept, path: Path, curves: Iterable[str] = (), tell: Callable[[float], object] = lambda _part: None
) -> int:
    """Write a recording of it into a new file, in the caller's own time; gives how many samples.

    `curves` are the signals to be shown first when it is played. `tell` is told again and again which part is done, 0
    to 1; what it raises ends the saving.
    Raises CannotRecord; then there is no such file, unless there was one before.
    """
    writer = Writer(path, kept.project, clock=kept.clock, begin=kept.begin, screen=kept.screen)
    try:
        done, whole = 0, sum(len(block) for blocks in kept.samples.values() for block in blocks)
        writer.curves(curves)
        for at, signal, value in kept.held:
            writer.keep_held(signal, at, value)
        for event in kept.events:
            writer.event(event)
        words = translate("record", "saved from the values kept since then")
        writer.event(Event(kept.begin, EventKind.RECORDING, path.name, words))
        for signal, blocks in kept.samples.items():
            for samples in _from(blocks, microseconds(kept.begin)):
                tell(done / whole)
                writer.add_block(signal, samples)
                done += len(samples)
                if writer.waiting >= COMMIT_EVERY:
                    writer.commit()
        writer.close(kept.end)
    except BaseException:
        writer.abandon()
        path.unlink(missing_ok=True)
        for ending in ("-wal", "-shm"):
            path.with_name(path.name + ending).unlink(missing_ok=True)
        raise
    return writer.samples


def _from(blocks: list[Gathering], begin: int) -> list[Samples]:
    """The samples from a moment on, and the last one before: what it was then is not known by any other."""
    parts = [Samples.of(block) for block in blocks if len(block)]
    first = next((number for number, part in enumerate(parts) if part.times[-1] >= begin), len(parts) - 1)
    if parts and parts[first].times[0] >= begin and first:
        first -= 1
    parts = parts[max(0, first) :]
    if parts:
        place = int(np.searchsorted(parts[0].times, begin, side="left")) - 1
        parts[0] = parts[0].part(slice(max(0, place), None))
    return parts
