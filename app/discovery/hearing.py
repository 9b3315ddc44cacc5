"""Listening before anything is sent: whether somebody else is master, at which settings, and what they ask for."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final

from app.listening.heard import Heard
from app.listening.listener import Listener
from app.modbus.serial_port import LineSettings
from app.probing.probe import Overheard, ProbedLine

SLICE_S: Final = 0.5
AT_EACH_S: Final = 2.0
"""How long a line on which somebody speaks is listened to at each setting: masters poll more often than that."""
AT_LEAST_S: Final = 10.0
"""How long a master that is understood is listened to: most come round to all that they ask for in that time."""
_FORMS: Final = (("even", 1), ("none", 1))
"""A port that takes characters with a parity bit understands 8E1, 8O1 and 8N2 alike, as ports do not check parity of
their own accord; it does not understand 8N1 where characters follow each other at once, and the other way round."""

OnOverheard = Callable[[Overheard, int, int], object]
"""What came, how many good frames stood in it, how many characters belong to none."""
OnHeard = Callable[[Heard], object]


def hear(
    line: ProbedLine,
    first: Iterable[LineSettings],
    seconds: float,
    told: OnHeard = lambda _heard: None,
    evidence: OnOverheard = lambda _overheard, _frames, _stray: None,
) -> Heard | None:
    """Listen for so many seconds. None if nobody spoke; else what was understood, at whichever setting it was.

    A line that spoke is listened to at the speeds of all the settings of `first`, in their order: at a wrong speed too
    something comes. Raises CannotProbe, SearchStopped.
    """
    heard = listen_at(line, None, seconds, told, evidence)
    if heard.characters and not heard.understood and line.serial:
        speeds = dict.fromkeys(settings.baud for settings in first)
        for settings in [LineSettings(baud, parity, stop) for baud in speeds for parity, stop in _FORMS]:  # type: ignore[arg-type]
            heard = listen_at(line, settings, max(AT_EACH_S, seconds), told, evidence)
            if heard.understood:
                break
    if not heard.characters:
        return None
    if heard.understood and heard.seconds < AT_LEAST_S:
        heard = listen_at(line, heard.settings, AT_LEAST_S, told, evidence)
    return heard


def listen_at(
    line: ProbedLine,
    settings: LineSettings | None,
    seconds: float,
    told: OnHeard = lambda _heard: None,
    evidence: OnOverheard = lambda _overheard, _frames, _stray: None,
) -> Heard:
    """What is understood in so many seconds at these settings; None: as they are. It is `told` as it grows."""
    if settings is not None and line.serial:
        line.tune(settings)
    listener = Listener()
    begin = line.now()
    while True:
        at = line.now() - begin
        frames, stray = listener.frames, listener.stray
        overheard = line.listen(max(0.01, min(SLICE_S, seconds - at)))
        for after, data in overheard.pieces:
            listener.feed(data, at + after)
        evidence(overheard, listener.frames - frames, listener.stray - stray)
        passed = line.now() - begin
        heard = listener.heard(overheard.settings, passed)
        told(heard)
        if passed >= seconds:
            return heard
