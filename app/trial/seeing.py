"""Whether what a trial expects is to be seen now, and what is seen instead.

Nothing old counts: what is judged must have been read after the last deed of the trial.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from app.events.events import Event
from app.language import translate
from app.project.binding import plain_text
from app.project.model import BitSignal, HeldSignal, Project, RegisterSignal
from app.signals.reading import Quality, Reading
from app.trial.outcome import Seen, SeenReading
from app.trial.script import Expectation, FigureOrHole
from app.trial.stand import Stand

SURE_S = 2
"""An expectation is given this many seconds at least, besides the time that reading takes."""


@dataclass(frozen=True, slots=True)
class Glance:
    """One look: whether it is as expected, what is there instead in one line, and whether that can be judged at all."""

    holds: bool
    found: str
    blocked: str = ""
    """Why nothing can be said: the device does not answer."""


def look(stand: Stand, seen: Expectation, since: float, events: Sequence[Event]) -> Glance:
    """Look once. `since` is when the trial last did something, by the clock of the stand, `events` what came since."""
    if seen.signal is not None:
        return _at_signal(stand, seen, since)
    if seen.event is not None:
        found = any(event.kind == seen.event and seen.about in (None, event.subject) for event in events)
        last = events[-1] if events else None
        return Glance(found, "" if last is None else f"{last.kind} {last.subject}".strip())
    if seen.alarm is not None:
        alarms = [alarm for alarm in stand.alarms.values() if alarm.screen == seen.alarm]
        return Glance(
            any(alarm.state == seen.state for alarm in alarms), ", ".join(str(alarm.state) for alarm in alarms)
        )
    return _at_panel(stand, seen, since)


def concerned(stand: Stand, seen: Expectation) -> tuple[str, ...]:
    """The signals that an expectation is about: its own, or those of the fields in its row."""
    project = stand.project
    if seen.signal is not None:
        return (seen.signal,) if seen.signal in project.signal_named else ()
    screen = project.screen_named.get(seen.screen or stand.panel.state.shown)
    if screen is None or seen.row is None:
        return ()
    names = [field.signal for field in screen.fields if field.at[0] == seen.row - 1]
    return tuple(name for name in dict.fromkeys(names) if name in project.signal_named)


def patience(stand: Stand, seen: Expectation) -> float:
    """How long an expectation is waited for if the trial does not say: twice the time to read it, and SURE_S."""
    project = stand.project
    longest = max((line.timeout_ms for line in project.lines), default=0)
    slowest = max((_every_ms(project, name) for name in concerned(stand, seen)), default=0)
    return SURE_S + 2 * (slowest + longest) / 1000


def picture(stand: Stand, names: Sequence[str]) -> Seen:
    """All that is to be seen now, and the readings of these signals."""
    readings = stand.readings()
    now = stand.now()
    told = tuple(seen_reading(stand.project, name, readings[name], now) for name in names)
    return Seen(stand.panel.state.shown, stand.rows(), told)


def seen_reading(project: Project, name: str, reading: Reading, now: float) -> SeenReading:
    """A reading as the record has it."""
    value = reading.value
    return SeenReading(
        name,
        value_words(project, name, reading),
        "" if reading.raw is None or value is None else str(reading.raw),
        str(reading.quality),
        reading.why,
        reading.age(now),
    )


def value_words(project: Project, name: str, reading: Reading) -> str:
    """The value of a reading with its unit; empty if it has none."""
    if reading.value is None:
        return ""
    return f"{plain_text(project, name, reading.value)} {project.signal_named[name].unit}".rstrip()


def fits(project: Project, seen: Expectation, value: Fraction) -> bool:
    """Whether a value is what is expected: within the tolerance, or strictly between the bounds."""
    if seen.value is not None:
        wanted = fraction(seen.value)
        return abs(value - wanted) <= tolerance_of(project, seen, wanted)
    over = seen.above is None or value > fraction(seen.above)
    return over and (seen.below is None or value < fraction(seen.below))


def tolerance_of(project: Project, seen: Expectation, wanted: Fraction) -> Fraction:
    """How far a value may be from the wanted one: left out, half of the last digit that is shown."""
    if isinstance(seen.tolerance, str):
        return abs(wanted) * Fraction(seen.tolerance.removesuffix("%")) / 100
    if seen.tolerance is not None:
        return Fraction(seen.tolerance)
    signal = project.signal_named.get(seen.signal or "")
    return Fraction(1, 2 * 10 ** (signal.decimals if signal is not None else 0))


def fraction(figure: FigureOrHole) -> Fraction:
    """A figure as an exact number. Raises ValueError for a placeholder that nothing was put for."""
    return Fraction(figure if isinstance(figure, Decimal) else str(figure))


def _at_signal(stand: Stand, seen: Expectation, since: float) -> Glance:
    project, name = stand.project, seen.signal or ""
    if name not in project.signal_named:
        return Glance(False, translate("trial", "there is no such signal"))
    reading = stand.readings()[name]
    if seen.quality is not None:
        wanted = (seen.quality,) if isinstance(seen.quality, str) else seen.quality
        holds = reading.quality in wanted and (not reading.good or fresh(project, name, reading, since))
        return Glance(holds, f"{reading.quality} {reading.why}".rstrip(), "")
    if not reading.good:
        silent = reading.quality in (Quality.STALE, Quality.NONE)
        return Glance(False, f"{reading.quality}: {reading.why}", reading.why if silent else "")
    words = value_words(project, name, reading)
    if not fresh(project, name, reading, since):
        return Glance(False, words, translate("trial", "it was not read again"))
    value = reading.value
    if seen.text is not None:
        text = value if isinstance(value, str) else plain_text(project, name, value)
        return Glance(text == seen.text, words)
    return Glance(isinstance(value, Fraction) and fits(project, seen, value), words)


def _at_panel(stand: Stand, seen: Expectation, since: float) -> Glance:
    project, shown = stand.project, stand.panel.state.shown
    if seen.screen is not None and shown != seen.screen:
        return Glance(False, translate("trial", "screen '{screen}' is shown").format(screen=shown))
    if seen.row is None:
        return Glance(True, shown)
    rows = stand.rows()
    if seen.row > len(rows):
        return Glance(False, translate("trial", "the panel has {rows} rows").format(rows=len(rows)))
    text = rows[seen.row - 1]
    found = translate("trial", "row {row} is '{text}'").format(row=seen.row, text=text.rstrip())
    readings = stand.readings()
    for name in concerned(stand, seen):
        if readings[name].good and not fresh(project, name, readings[name], since):
            return Glance(False, found, translate("trial", "'{signal}' was not read again").format(signal=name))
    if _row_fits(seen, text):
        return Glance(True, found)
    silent = [
        readings[name].why for name in concerned(stand, seen) if readings[name].quality in (Quality.STALE, Quality.NONE)
    ]
    return Glance(False, found, silent[0] if silent else "")


def _row_fits(seen: Expectation, text: str) -> bool:
    if seen.cells is not None:
        return text == seen.cells.ljust(len(text))
    if seen.like is not None:
        letters = (
            ".*" if letter == "*" else "." if letter == "?" else re.escape(letter) for letter in seen.like.strip()
        )
        return re.fullmatch("".join(letters), text.strip(), re.DOTALL) is not None
    return text.strip() == (seen.text or "").strip()


def fresh(project: Project, name: str, reading: Reading, since: float) -> bool:
    """Whether a good reading is newer than the last deed; a value that the panel holds always is."""
    return isinstance(project.signal_named[name], HeldSignal) or (reading.time is not None and reading.time >= since)


def _every_ms(project: Project, name: str) -> int:
    signal = project.signal_named[name]
    if isinstance(signal, BitSignal):
        signal = project.signal_named.get(signal.bit.of, signal)
    return signal.every_ms if isinstance(signal, RegisterSignal) else 0
