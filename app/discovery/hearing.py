"""Listening before anything is sent: whether somebody else is master, at which settings, and what they ask for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Final

from app.listening.heard import Heard
from app.listening.listener import Listener
from app.listening.settings import settings_spoken, speeds_to_try
from app.modbus.serial_port import LineSettings
from app.probing.probe import Overheard, ProbedLine

SLICE_S: Final = 0.5
AT_EACH_S: Final = 2.0
"""How long a line on which somebody speaks is listened to at each setting: masters poll more often than that."""
AT_LEAST_S: Final = 10.0
"""How long a master that is understood is listened to: most come round to all that they ask for in that time."""
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

    A line that spoke is listened to at the speeds of all the settings of `first`: at a wrong speed too something comes,
    and says whether to go on with faster or slower ones. Raises CannotProbe, SearchStopped.
    """
    heard, data = _listen(line, None, seconds, told, evidence)
    if heard.characters and not heard.understood and line.serial:
        usual = list(dict.fromkeys(settings.baud for settings in first))
        tried = {} if heard.settings is None or heard.settings.baud in usual else {heard.settings.baud: data}
        while not heard.understood and (left := speeds_to_try(usual, tried)):
            # A port with a parity bit understands 8E1, 8O1 and 8N2 alike, as ports do not check parity of their own
            # accord; it does not understand 8N1 where characters follow each other at once.
            for settings in (LineSettings(left[0], "even", 1), LineSettings(left[0], "none", 1)):
                heard, data = _listen(line, settings, max(AT_EACH_S, seconds), told, evidence)
                if heard.understood:
                    break
            tried[left[0]] = data
    if not heard.characters:
        return None
    if heard.understood and heard.seconds < AT_LEAST_S:
        heard, _ = _listen(line, heard.settings, AT_LEAST_S, told, evidence)
    return heard


def listen_at(
    line: ProbedLine,
    settings: LineSettings | None,
    seconds: float,
    told: OnHeard = lambda _heard: None,
    evidence: OnOverheard = lambda _overheard, _frames, _stray: None,
) -> Heard:
    """What is understood in so many seconds at these settings; None: as they are. It is `told` as it grows."""
    return _listen(line, settings, seconds, told, evidence)[0]


def _listen(
    line: ProbedLine, settings: LineSettings | None, seconds: float, told: OnHeard, evidence: OnOverheard
) -> tuple[Heard, bytes]:
    """See `listen_at`; and all that came."""
    if settings is not None and line.serial:
        line.tune(settings)
    listener = Listener()
    data = b""
    errors: list[tuple[int | None, int | None]] = []
    begin = line.now()
    while True:
        at = line.now() - begin
        frames, stray = listener.frames, listener.stray
        overheard = line.listen(max(0.01, min(SLICE_S, seconds - at)))
        for after, piece in overheard.pieces:
            listener.feed(piece, at + after)
        data += overheard.data
        missed = overheard.framing_errors
        errors.append((overheard.parity_errors, None if missed is None else missed + (overheard.breaks or 0)))
        evidence(overheard, listener.frames - frames, listener.stray - stray)
        passed = line.now() - begin
        heard = listener.heard(overheard.settings, passed)
        told(heard)
        if passed >= seconds:
            return _with_parity(heard, data, errors), data


def _with_parity(heard: Heard, data: bytes, errors: Sequence[tuple[int | None, int | None]]) -> Heard:
    """With the settings that the damaged characters tell, where the port counts them."""
    if heard.settings is None or not heard.understood:
        return heard
    parity, framing = (
        None if None in counts else sum(count or 0 for count in counts) for counts in zip(*errors, strict=True)
    )
    verdict = settings_spoken(heard.settings, data, parity, framing)
    return replace(heard, settings=verdict.settings, parity_known=True) if verdict.sure else heard
