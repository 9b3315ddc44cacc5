"""The whole search on one line: listen, find the settings, find the units, find out what each of them is.

A device is looked at as soon as it is clear that it is one: to wait for all the addresses where nobody answers costs
minutes, and what is likely stands at the front.

It can be stopped at any time, by a person, by its budget or by the line; what was found and what was tried is in the
state, which goes into a file, and from which a later search goes on.
"""

from __future__ import annotations

import statistics
from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass, field, replace
from typing import Any, Final, Literal

from app.discovery.hearing import hear, listen_at
from app.language import mark, translate
from app.listening.evidence import EvidenceGatherer
from app.listening.heard import Heard
from app.listening.trouble import LineTrouble, line_trouble
from app.modbus.serial_port import LineSettings
from app.probing import requests
from app.probing.found import Found, FoundFollower, FoundRange, StoppedBy
from app.probing.priors import Priors, usual_priors
from app.probing.probe import (
    NO_ANSWER,
    NO_PATH,
    PROBE_TIMEOUT_S,
    CannotProbe,
    Overheard,
    Probe,
    ProbedLine,
    ProbeResult,
    SearchStopped,
    SomebodyElse,
)
from app.probing.settings_search import (
    LATE_TIMEOUT_S,
    Attempt,
    Outlook,
    SettingsOrder,
    SettingsState,
    find_settings,
    settings_of,
)
from app.probing.two_at_once import requests_in_flight
from app.probing.unit_search import (
    NETWORK_TIMEOUT_S,
    NextUnit,
    UnitState,
    find_units,
    units_in_order,
)
from app.signals.numbering import LAST_ADDRESS, Table

LISTEN_S: Final = 1.0
"""How long is listened before anything is sent, in seconds."""
_UNSENT: Final = 6
"""A request for which the line was not quiet so often: it is somebody else's."""
_OUTLOOK_EVERY: Final = 10
"""Attempts after which is worked out anew how far it still is: all that is left has to be looked at for that."""
_IN_SECONDS: Final = 120
"""What takes longer is told in minutes."""
_MOST_TRIED: Final = 0.2
"""The share of probability left, from which on a silent line is no longer one that was given too little time."""
_KNOWN: Final = frozenset(requests.ASKED)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is searched for, and how far."""

    units: tuple[int, ...] = ()
    """Empty: all."""
    settings: tuple[LineSettings, ...] = ()
    """Empty: all usual ones."""
    tables: tuple[Table, ...] = tuple(requests.FUNCTION_OF)
    first: int = 0
    """The first wire address of the registers that are looked for."""
    last: int = LAST_ADDRESS
    listen_s: float = LISTEN_S
    budget_s: float | None = None
    """Seconds for all of it; None: as long as it takes."""
    first_unit: int | None = None
    """The unit address that somebody gave the device: asked before all others, and all others all the same."""
    never: requests.Untouched = field(default_factory=dict)
    """What is never touched, whatever else is wanted: not by the first question either."""


@dataclass(slots=True)
class SearchState:
    """Where a search stands. All of it goes into a file, so that a search that was ended goes on from there."""

    found: Found = field(default_factory=Found)
    settings: SettingsState = field(default_factory=SettingsState)
    units: UnitState = field(default_factory=UnitState)
    units_done: bool = False
    examined: set[int] = field(default_factory=set)
    """Units of which all is known that is ever asked."""
    why: str = ""
    """What ended the last search, in words, if something went wrong."""

    def as_json(self) -> dict[str, object]:
        """For a file."""
        found = self.found
        return {
            "settings": None if found.settings is None else [*found.settings],
            "followers": [{**asdict(one), "identification": dict(one.identification)} for one in found.followers],
            "probes": found.probes,
            "seconds": found.seconds,
            "settings_tried": self.settings.as_json(),
            "units_asked": self.units.as_json(),
            "units_done": self.units_done,
            "examined": sorted(self.examined),
        }

    @classmethod
    def from_json(cls, data: dict[str, Any]) -> SearchState:
        """Raises KeyError, TypeError or ValueError for what `as_json` did not make."""
        found = Found(
            None if data["settings"] is None else settings_of(*data["settings"]),
            None,
            tuple(map(FoundFollower.from_json, data["followers"])),
            int(data["probes"]),
            float(data["seconds"]),
        )
        settings = SettingsState.from_json(data["settings_tried"])
        units = UnitState.from_json(data["units_asked"])
        return cls(found, settings, units, bool(data["units_done"]), set(map(int, data["examined"])))


OnFound = Callable[[Found, str, float | None], object]
"""The newest of what is found, a sentence on what is done now, and the seconds that it may still take if that is
known."""

Grown = Callable[[FoundFollower, str, float | None], object]
"""The same of one device while it is examined."""

Examine = Callable[[ProbedLine, FoundFollower, Wanted, Grown], FoundFollower]
"""Find out what a device is and has, and tell it as it grows."""


class _BudgetSpent(SearchStopped):
    pass


class _Watched:
    """The line, on which all is counted, nothing is asked any more once the budget is spent, and nothing at all of what
    is never to be touched."""

    def __init__(self, line: ProbedLine, wanted: Wanted) -> None:
        self.probes = 0
        self.waited: defaultdict[int, list[float]] = defaultdict(list)
        self.settings: LineSettings | None = None
        self.evidence: dict[LineSettings | None, EvidenceGatherer] = {}
        self.begin = line.now()
        self._line = line
        self._budget_s = wanted.budget_s
        self._never = wanted.never

    @property
    def serial(self) -> bool:
        return self._line.serial

    @property
    def framing(self) -> Literal["rtu", "tcp"]:
        return self._line.framing

    def now(self) -> float:
        return self._line.now()

    @property
    def left_s(self) -> float | None:
        """Of the budget."""
        return None if self._budget_s is None else self._budget_s - (self.now() - self.begin)

    def _look_at_budget(self) -> None:
        if self.left_s is not None and self.left_s <= 0:
            raise _BudgetSpent

    def tune(self, settings: LineSettings) -> None:
        self.settings = settings
        self._line.tune(settings)

    def listen(self, seconds: float) -> Overheard:
        self._look_at_budget()
        overheard = self._line.listen(seconds)
        self.settings = overheard.settings
        return overheard

    def ask(self, probe: Probe, timeout_s: float) -> ProbeResult:
        """An answer, or silence; never a request that was not sent: it is tried again until somebody has to give up."""
        if requests.touches(probe, self._never):
            raise ValueError(probe)  # a mistake of the program
        for _ in range(_UNSENT):
            self._look_at_budget()
            result = self._line.ask(probe, timeout_s)
            if result.sent:
                self.probes += 1
                self._note(result)
                return result
        raise SomebodyElse(
            mark(
                "finding out",
                "something speaks on this line without a pause, so nothing can be asked; find out what it is, or "
                "disconnect it",
            )
        )

    def ask_both(self, probes: tuple[Probe, Probe], timeout_s: float) -> Sequence[ProbeResult]:
        if any(requests.touches(probe, self._never) for probe in probes):
            raise ValueError(probes)  # a mistake of the program
        self._look_at_budget()
        self.probes += len(probes)
        return self._line.ask_both(probes, timeout_s)

    @property
    def patience_s(self) -> float:
        return self._line.patience_s

    def late_answers(self, wait_s: float) -> Sequence[ProbeResult]:
        self._look_at_budget()
        return self._line.late_answers(wait_s if self.left_s is None else min(wait_s, self.left_s))

    def _note(self, result: ProbeResult) -> None:
        if result.alive and not result.in_vain and result.waited_s is not None:
            self.waited[result.probe.unit].append(result.waited_s)
        self._gatherer().asked(
            result.probe.unit,
            result.kind,
            result.received,
            echo=requests.rtu(result.probe) if result.echoed else b"",
            doubled=result.twice,
            parity_errors=result.parity_errors,
            framing_errors=result.framing_errors,
        )

    def overheard(self, overheard: Overheard, frames: int, stray: int) -> None:
        """Evidence of what came without having been asked for."""
        self._gatherer().listened(
            overheard.seconds,
            overheard.data,
            frames,
            stray,
            parity_errors=overheard.parity_errors,
            framing_errors=overheard.framing_errors,
            breaks=overheard.breaks,
        )

    def _gatherer(self) -> EvidenceGatherer:
        return self.evidence.setdefault(self.settings, EvidenceGatherer(self.settings))


class Search:
    """One search. `run` does it, from one thread; `state` and `trouble` may be looked at afterwards."""

    def __init__(
        self,
        line: ProbedLine,
        wanted: Wanted,
        state: SearchState,
        told: OnFound = lambda _found, _sentence, _seconds: None,
        examine: Examine = lambda _line, follower, _wanted, _grown: follower,
    ) -> None:
        self.state = state
        self._line = _Watched(line, wanted)
        self._wanted = wanted
        self._told = told
        self._examine = examine
        self._outlook: Outlook | None = None
        self.heard: Heard | None = None
        """What was understood of another master, with all values over time, which `state` has not."""
        self._before = state.found.probes, state.found.seconds

    @property
    def trouble(self) -> LineTrouble:
        """What may be wrong with the line, from all that came."""
        left = 1.0 if self._outlook is None else self._outlook.left
        return line_trouble(
            [gatherer.evidence() for gatherer in self._line.evidence.values()],
            finished=self.state.found.stopped_by == "done" or left <= _MOST_TRIED,
            two_wires=self._line.framing == "rtu",
        )

    def run(self) -> Found:
        """Search until all is found or something ends it, and give back what was found: it is in `state` too."""
        self.state.why = ""
        self._set(stopped_by="done", heard=None)
        try:
            if self._listen():
                return self._end("somebody else")
            if self._settings():
                self._units()
                self._devices()
                self._two_at_once()
            return self._end("done")
        except _BudgetSpent:
            return self._end("budget")
        except SearchStopped:
            return self._end("person")
        except SomebodyElse as why:
            self.state.why = str(why)
            return self._listen_instead()
        except CannotProbe as why:
            self.state.why = str(why)
            return self._end("port gone")

    def _end(self, by: StoppedBy) -> Found:
        self._set(stopped_by=by)
        return self.state.found

    def _set(self, **changed: Any) -> None:
        probes, seconds = self._before
        seconds += self._line.now() - self._line.begin
        found = replace(self.state.found, probes=probes + self._line.probes, seconds=seconds, **changed)
        self.state.found = found

    def _tell(self, sentence: str, seconds: float | None = None) -> None:
        self._set()
        left = self._line.left_s
        if left is not None:
            seconds = left if seconds is None else min(left, seconds)
        self._told(self.state.found, sentence, seconds)

    # Listening

    def _listen(self) -> bool:
        """Whether somebody else is master."""
        if self._line.framing == "tcp" or not self._wanted.listen_s:
            return False
        self._tell(translate("finding out", "Listening whether somebody else speaks on the line."))
        priors = usual_priors().among(self._wanted.settings)
        order = sorted(priors.settings, key=lambda one: -priors.settings[one])
        if self._line.serial:
            self._line.tune(self.state.found.settings or order[0])
        heard = hear(self._line, order, self._wanted.listen_s, self._hearing, self._line.overheard)
        return heard is not None and self._take(heard)

    def _hearing(self, heard: Heard) -> None:
        if not heard.characters:
            return
        if heard.understood:
            self._take(heard)
        sentence = translate(
            "finding out", "Listening at {settings}: {characters} characters, {frames} of their frames are sound."
        ).format(settings=heard.settings or "-", characters=heard.characters, frames=heard.frames)
        self._tell(sentence)

    def _take(self, heard: Heard) -> bool:
        if not heard.understood:
            return False
        followers = tuple(
            FoundFollower(
                unit.unit,
                functions=tuple(function for function in unit.functions if function in _KNOWN),
                ranges=tuple(FoundRange(*part) for part in unit.ranges),
            )
            for unit in heard.units
            if unit.answers
        )
        settings = heard.settings or self.state.found.settings
        self.heard = heard
        self._set(heard=heard.as_json(), followers=followers, settings=settings)
        return True

    def _listen_instead(self) -> Found:
        """Somebody else spoke in the midst of the search: nothing is asked any more, but all that they say counts."""
        known = self.state.found.followers
        with suppress(SearchStopped, CannotProbe):
            self._take(listen_at(self._line, None, 5.0, self._hearing, self._line.overheard))
        now = {one.unit: one for one in self.state.found.followers}
        self._set(followers=tuple({**now, **{one.unit: one for one in known}}.values()))
        return self._end("somebody else")

    @property
    def _never_holding(self) -> Sequence[range]:
        return self._wanted.never.get("holding", ())

    @property
    def _priors(self) -> Priors:
        return usual_priors().expecting(self._wanted.first_unit)

    # Settings

    def _settings(self) -> bool:
        """Whether somebody answers as far as settings go; then the line has them."""
        state = self.state
        if not self._line.serial:
            return True
        if state.found.settings is not None:
            self._line.tune(state.found.settings)
            return True
        priors = self._priors.among(self._wanted.settings, self._wanted.units)
        understood = find_settings(
            self._line, SettingsOrder(priors, state.settings), self._trying, never=self._never_holding
        )
        if understood is None:
            return False
        self._set(settings=understood.settings)
        # Its answer was believed already; a first look at the unit that gave it would be a second confirmation.
        first = understood.results[0]
        state.units.asked.add(understood.unit)
        if first.in_vain:
            state.units.behind_gateway[understood.unit] = first.code
        else:
            state.units.answering.append(understood.unit)
        self._show_units()
        return True

    def _trying(self, attempt: Attempt, order: SettingsOrder) -> None:
        if self._outlook is None or self._line.probes % _OUTLOOK_EVERY == 0:
            self._outlook = order.outlook()
        # No more is known than that, so no other figure stands beside it.
        self._tell(trying(attempt, self._outlook))

    # Units

    def _units(self) -> None:
        if self.state.units_done:
            return
        network = self._line.framing == "tcp"
        units = units_in_order(self._priors, network, self._wanted.units)
        timeout_s = NETWORK_TIMEOUT_S if network else PROBE_TIMEOUT_S
        slow = max((max(waited) for waited in self._line.waited.values()), default=0.0)
        timeout_s = min(max(timeout_s, 2 * slow), LATE_TIMEOUT_S)

        def asked(next_one: NextUnit) -> None:
            self._show_units()
            if self.state.units.apart:
                self._devices(next_one.left, next_one.seconds)
            sentence = (
                translate("finding out", "Asking unit {unit} once more, {left} units are left.")
                if next_one.again
                else translate("finding out", "Asking unit {unit}, {left} units are left.")
            )
            self._tell(sentence.format(unit=next_one.unit, left=next_one.left), next_one.seconds)

        find_units(self._line, units, self.state.units, timeout_s, asked, never=self._never_holding)
        self._show_units()
        self.state.units_done = True

    def _show_units(self) -> None:
        """Put those that answer among what was found."""
        units = self.state.units
        known = {one.unit: one for one in self.state.found.followers if not one.gateway}
        followers = [known.get(unit) or self._new(unit) for unit in units.answering]
        if units.every_unit:
            notes = (translate("finding out", "It answers to every unit address."),)
            followers = [replace(one, notes=tuple(dict.fromkeys((*one.notes, *notes)))) for one in followers]
        self._set(followers=(*followers, *self._gateway()))

    def _new(self, unit: int) -> FoundFollower:
        waited = self._line.waited.get(unit, ())
        return FoundFollower(unit, round(1000 * statistics.median(waited), 1) if waited else None)

    def _gateway(self) -> Sequence[FoundFollower]:
        said: Mapping[int, int] = self.state.units.behind_gateway
        how: dict[int, Literal["", "no path", "no answer"]] = {NO_PATH: "no path", NO_ANSWER: "no answer"}
        followers = []
        for code, count in sorted(Counter(said.values()).items()):
            unit = min(one for one in said if said[one] == code)
            note = translate("finding out", "A gateway says of {count} unit addresses that nobody answers there.")
            followers.append(FoundFollower(unit, gateway=how[code], notes=(note.format(count=count),)))
        return followers

    # Devices

    def _devices(self, units_left: int = 0, units_s: float = 0.0) -> None:
        """Examine those that were not, while `units_left` units are not asked yet, which takes `units_s`."""

        def grown(follower: FoundFollower, sentence: str, seconds: float | None) -> None:
            self._put(follower)
            if units_left:
                then = translate("finding out", "Then {left} more units are asked.").format(left=units_left)
                sentence = f"{sentence} {then}"
            self._tell(sentence, None if seconds is None else seconds + units_s)

        for follower in self.state.found.followers:
            if follower.gateway or follower.unit in self.state.examined:
                continue
            self._put(self._examine(self._line, follower, self._wanted, grown))
            self.state.examined.add(follower.unit)

    def _two_at_once(self) -> None:
        """As the last thing, when all else is known: a device may close the connection over it."""
        if self._line.framing == "rtu":
            return
        for follower in self.state.found.followers:
            if follower.in_flight is None and not follower.gateway:
                sentence = translate("finding out", "Asking unit {unit} for two things at once.")
                self._tell(sentence.format(unit=follower.unit))
                self._put(replace(follower, in_flight=requests_in_flight(self._line, follower, self._wanted.never)))

    def _put(self, follower: FoundFollower) -> None:
        followers = self.state.found.followers
        self._set(followers=tuple(follower if one.unit == follower.unit else one for one in followers))


def trying(attempt: Attempt, outlook: Outlook) -> str:
    """What is tried, and what can be expected of it, in words."""
    sentence = (
        translate(
            "finding out",
            "Trying {settings}, unit {unit}: {tried} of 100 devices would have answered by now; to find one of the "
            "others takes another {time} s on average.",
        )
        if outlook.seconds < _IN_SECONDS
        else translate(
            "finding out",
            "Trying {settings}, unit {unit}: {tried} of 100 devices would have answered by now; to find one of the "
            "others takes another {time} min on average.",
        )
    )
    time = max(1, round(outlook.seconds if outlook.seconds < _IN_SECONDS else outlook.seconds / 60))
    tried = int(100 * (1 - outlook.left))
    return sentence.format(settings=attempt.settings, unit=attempt.unit, tried=tried, time=time)
