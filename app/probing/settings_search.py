"""Which speed, parity and unit address an unknown device has: the order in which they are tried, and when it is sure.

One of about 16 000 combinations is right. Trying them in the order of probability per second finds it soonest on
average: of two neighbours in any order, exchanging them helps if and only if the later one has more probability per
second (the exchange argument of Smith's rule for weighted completion times, W. E. Smith 1956, from memory). Each is
tried twice at most: with a short time-out, and later with a long one, which also catches what a disturbance took.

- Any answer counts, exceptions too: only the right settings give a frame whose CRC fits.
- A CRC fits by chance once in 65 536 tries, so nothing is believed until it answered again.
- A device may be deaf to what comes behind a request to another one, until it is asked again: libmodbus takes that for
  the other one's answer. So the patient try ends with a short one of the same unit (tried with libmodbus 3.1.6).
- Bytes that make no frame say that somebody is there who does not speak so. They make the same speed with another
  parity likelier, and the same settings: something may have disturbed the answer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from itertools import islice
from typing import Any, Final

from app.modbus.serial_port import LineSettings
from app.probing import requests
from app.probing.priors import Priors
from app.probing.probe import PROBE_TIMEOUT_S, Probe, ProbedLine, ProbeResult

LATE_TIMEOUT_S: Final = 1.0
"""Of the second try: devices that sleep, radio links, converters with a long way."""
CONFIRMATIONS: Final = 3
"""How often a first answer is asked for again, until one comes."""
BYTES_SAY: Final = 6.0
"""How many times likelier bytes without a frame make the speed at which they came, and the settings themselves."""
MOST_SAID: Final = 40.0
"""Noise comes at every setting: no more than that altogether."""
TUNING_S: Final = 0.03
"""What changing the settings costs, since late answers are waited for."""
_ANSWER_CHARACTERS: Final = 8


@dataclass(frozen=True, slots=True)
class Attempt:
    """One thing to try."""

    settings: LineSettings
    unit: int
    late: bool = False
    """With the long time-out."""

    @property
    def timeout_s(self) -> float:
        """Seconds until its answer has to begin."""
        return LATE_TIMEOUT_S if self.late else PROBE_TIMEOUT_S

    @property
    def cost_s(self) -> float:
        """What it takes if nobody answers, in seconds."""
        once = self.timeout_s + TUNING_S + _ANSWER_CHARACTERS * self.settings.character_s
        # Between the two is listened for as long as the second may take.
        return once + self.late * (2 * PROBE_TIMEOUT_S + _ANSWER_CHARACTERS * self.settings.character_s)


@dataclass(slots=True)
class SettingsState:
    """What was tried and what was learned: kept in a file, a search goes on from it."""

    tried: set[tuple[LineSettings, int, bool]] = field(default_factory=set)
    said: dict[LineSettings, float] = field(default_factory=dict)
    """How many times likelier what came made these settings."""

    def as_json(self) -> dict[str, object]:
        """For a file."""
        return {
            "tried": [[*settings, unit, late] for settings, unit, late in sorted(self.tried)],
            "said": [[*settings, times] for settings, times in sorted(self.said.items())],
        }

    @classmethod
    def from_json(cls, data: dict[str, Any]) -> SettingsState:
        """Raises KeyError, TypeError or ValueError for what `as_json` did not make."""
        state = cls()
        for *settings, unit, late in data["tried"]:
            state.tried.add((settings_of(*settings), int(unit), bool(late)))
        for *settings, times in data["said"]:
            state.said[settings_of(*settings)] = float(times)
        return state


def settings_of(baud: int, parity: str, stop_bits: int) -> LineSettings:
    """Of what a file says. Raises ValueError."""
    for known in ("none", "even", "odd"):
        if parity == known:
            return LineSettings(int(baud), known, 2 if stop_bits == 2 else 1)
    raise ValueError(parity)


@dataclass(frozen=True, slots=True)
class Outlook:
    """Where a search stands. Seconds are expected ones, as far as the priors are true."""

    left: float
    """The share of probability that was not tried, 0..1."""
    seconds: float
    """Until the device is found, if it is among what is left."""
    seconds_all: float
    """Until everything was tried."""


class SettingsOrder:
    """All attempts, the one with the most probability per second first."""

    def __init__(self, priors: Priors, state: SettingsState) -> None:
        self.state = state
        self._priors = priors
        self._order: list[Attempt] = []
        self._sort()

    def _sort(self) -> None:
        attempts = [
            Attempt(settings, unit, late)
            for settings in self._priors.settings
            for unit in self._priors.units
            for late in (False, True)
            if (settings, unit, late) not in self.state.tried
        ]
        # The next one is taken off the end.
        attempts.sort(key=lambda one: (self._gain(one) / one.cost_s, one.settings, -one.unit))
        self._order = attempts

    def _gain(self, attempt: Attempt) -> float:
        priors = self._priors
        share = priors.settings[attempt.settings] * priors.units[attempt.unit]
        share *= self.state.said.get(attempt.settings, 1.0)
        return share * (priors.late if attempt.late else 1 - priors.late)

    def next(self) -> Attempt | None:
        """What to try now; None after everything was."""
        return self._order[-1] if self._order else None

    def left(self) -> list[Attempt]:
        """All that was not tried, in order."""
        return self._order[::-1]

    def note(self, attempt: Attempt, result: ProbeResult) -> None:
        """It was tried, and that came of it."""
        if self._order and self._order[-1] == attempt:
            self._order.pop()
        self.state.tried.add((attempt.settings, attempt.unit, attempt.late))
        if result.kind == "garbled" and result.sent:
            self._learn(attempt.settings)

    def _learn(self, heard: LineSettings) -> None:
        said = self.state.said
        for settings in self._priors.settings:
            if settings.baud == heard.baud:
                said[settings] = min(MOST_SAID, said.get(settings, 1.0) * BYTES_SAY)
        self._sort()

    def outlook(self) -> Outlook:
        """How much is left, and what it costs."""
        left = seconds = weighted = 0.0
        for attempt in reversed(self._order):
            seconds += attempt.cost_s
            gain = self._gain(attempt)
            left += gain
            weighted += gain * seconds
        gone = sum(
            self._gain(Attempt(settings, unit, late))
            for settings, unit, late in self.state.tried
            if settings in self._priors.settings and unit in self._priors.units
        )
        whole = left + gone
        return Outlook(left / whole if whole else 0.0, weighted / left if left else 0.0, seconds)


OnAttempt = Callable[[Attempt, SettingsOrder], object]
"""Told what is about to be tried."""


@dataclass(frozen=True, slots=True)
class Understood:
    """Settings at which a unit answered, twice."""

    settings: LineSettings
    unit: int
    results: tuple[ProbeResult, ...]


def _questions(unit: int, never: Iterable[range]) -> Iterator[Probe]:
    """Each another one. Where no holding register may be read, it is asked what it calls itself."""
    for address in requests.touchable(never):
        yield requests.read(unit, "holding", address)
    yield requests.server_id(unit)
    yield requests.identification(unit)


def first_question(unit: int, never: Iterable[range] = ()) -> Probe:
    """What is asked of a unit that may be there: whatever it has to say to that, it is there. `never` are wire
    addresses of holding registers that are not touched."""
    return next(_questions(unit, never))


def confirm(line: ProbedLine, unit: int, timeout_s: float, never: Iterable[range] = ()) -> ProbeResult | None:
    """Ask a unit that has answered once more, something else: its answer, or None, and then the first was chance."""
    for probe in islice(_questions(unit, never), 1, 1 + CONFIRMATIONS):
        result = line.ask(probe, timeout_s)
        if result.alive:
            return result
    return None


def find_settings(
    line: ProbedLine,
    order: SettingsOrder,
    told: OnAttempt = lambda _attempt, _order: None,
    evidence: Callable[[ProbeResult], object] = lambda _result: None,
    never: Iterable[range] = (),
) -> Understood | None:
    """Try until a unit answers twice at the same settings; None if nobody does. Raises what `ask` raises; what was
    tried until then stays in the state of `order`. `never` are holding registers that are not touched."""
    never = tuple(never)
    while (attempt := order.next()) is not None:
        told(attempt, order)
        line.tune(attempt.settings)
        result = line.ask(first_question(attempt.unit, never), attempt.timeout_s)
        evidence(result)
        if attempt.late and result.kind == "silence":
            result = line.ask(first_question(attempt.unit, never), PROBE_TIMEOUT_S)
            evidence(result)
        if result.alive:
            again = confirm(line, attempt.unit, attempt.timeout_s, never)
            if again is not None:
                evidence(again)
                return Understood(attempt.settings, attempt.unit, (result, again))
        order.note(attempt, result)
    return None


def parse_settings(text: str) -> tuple[LineSettings, ...]:
    """Settings as a person writes them, '19200 8E1, 9600 8N2'. Raises ValueError with the part that is none."""
    found = []
    for part in text.split(","):
        baud, _, form = part.strip().partition(" ")
        form = form.strip().upper()
        parity = {"N": "none", "E": "even", "O": "odd"}.get(form[1:2], "")
        if not baud.isdecimal() or len(form) != 3 or form[0] != "8" or form[2] not in "12" or not parity:
            raise ValueError(part.strip())
        if not 50 <= int(baud) <= 4_000_000:
            raise ValueError(part.strip())
        found.append(settings_of(int(baud), parity, int(form[2])))
    return tuple(found)


def settings_text(settings: Iterable[LineSettings]) -> str:
    """As `parse_settings` reads it."""
    return ", ".join(map(str, settings))
