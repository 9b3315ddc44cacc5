"""How everything stands: the worst that is wrong with the lines, the devices and the data, whole and in words.

A line that is down explains devices that do not answer, and a device that does not answer explains data that are old:
what is nearest to the cause leads.
"""

from __future__ import annotations

import enum
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from app.client.faults import FaultKind
from app.language import translate
from app.line.states import FollowerState, Snapshot
from app.project.binding import bindings
from app.project.model import Project
from app.signals.reading import Quality, Reading

SLOW: Final = 0.8
"""Of the time-out of its line: a device whose answers take longer than this is said to be slow, before answers are
lost. Common practice, no source."""
NAMED: Final = 3
"""So many names are told; the others are counted."""


class StatusLevel(enum.IntEnum):
    """What is wrong, the worst last."""

    GOOD = 0
    WAITING = 1
    """Something was not asked yet, or did not have the time to answer."""
    DATA = 2
    DEVICE = 3
    LINE = 4


@dataclass(frozen=True, slots=True)
class Status:
    """How it stands, led by the worst.

    `kind` is for programs: good, connecting, waiting, doubtful, stale, implausible, refused, slow, refusing, unasked,
    two-devices, not-answering, silent, closed or cannot-open. `names` are those of the lines, the devices or the
    signals that it is about. `words` say it in a few words, `advice` says what was seen and what to do; empty if there
    is nothing to do.
    """

    level: StatusLevel
    kind: str
    words: str
    advice: str = ""
    names: tuple[str, ...] = ()

    @property
    def sentence(self) -> str:
        """All of it."""
        return f"{self.words}: {self.advice}" if self.advice else self.words

    def as_json(self) -> dict[str, Any]:
        """For another program to read."""
        return {
            "level": self.level.name.lower(),
            "kind": self.kind,
            "names": list(self.names),
            "words": self.words,
            "advice": self.advice,
        }


@dataclass(slots=True)
class _Tally:
    """What is wrong with the readings of one device."""

    total: int = 0
    wrong: dict[str, list[tuple[str, str]]] = field(default_factory=dict)
    """The names and the reasons, by kind."""

    def add(self, name: str, reading: Reading) -> None:
        self.total += 1
        if reading.quality is Quality.GOOD and not reading.doubt:
            return
        kind = "doubtful" if reading.quality is Quality.GOOD else str(reading.quality)
        self.wrong.setdefault(kind, []).append((name, reading.doubt or reading.why))


class Statuses:
    """How the lines, the devices and the data of a project stood at the moment of a snapshot."""

    def __init__(self, project: Project, snapshot: Snapshot) -> None:
        self.project = project
        self._snapshot = snapshot
        self._tallies = {follower.name: _Tally() for follower in project.followers}
        found = bindings(project)
        for name, reading in snapshot.readings.items():
            binding = found.get(name)
            if binding is not None:
                self._tallies[binding.follower.name].add(name, reading)

    @property
    def not_good(self) -> int:
        """How many readings are not good, or doubtful."""
        return sum(len(wrong) for tally in self._tallies.values() for wrong in tally.wrong.values())

    @property
    def worst(self) -> Status:
        """Of everything."""
        return self._of([follower.name for follower in self.project.followers])

    def of(self, follower: str) -> Status:
        """Of one device, with its line and its data."""
        return self._of([follower])

    def _of(self, names: Sequence[str]) -> Status:
        states = [state for name in names if (state := self._snapshot.followers.get(name)) is not None]
        for each in (self._lines, self._devices, self._data):
            for status in each(states):
                return status
        total = sum(self._tallies[state.name].total for state in states)
        return Status(StatusLevel.GOOD, "good", translate("bus", "all {count} readings are good").format(count=total))

    def _lines(self, states: Sequence[FollowerState]) -> Iterator[Status]:
        for line in self._snapshot.lines.values():
            asked = [state for state in self._snapshot.followers.values() if state.line == line.name]
            if not any(state.line == line.name for state in states):
                continue
            if line.connecting:
                continue
            if not line.connected and line.reason:
                closed = line.good > 0
                words = (
                    translate("bus", "Line {line} is down")
                    if closed
                    else translate("bus", "Line {line} cannot be opened")
                )
                kind = "closed" if closed else "cannot-open"
                yield Status(StatusLevel.LINE, kind, words.format(line=line.name), line.reason, (line.name,))
            elif line.connected and len(asked) > 1 and all(state.answering is False for state in asked):
                words = translate("bus", "No device answers on line {line}").format(line=line.name)
                yield Status(StatusLevel.LINE, "silent", words, asked[0].reason, (line.name,))

    def _devices(self, states: Sequence[FollowerState]) -> Iterator[Status]:
        lost = [state for state in states if state.answering is False]
        silent = [state for state in lost if state.fault not in (FaultKind.LATE, FaultKind.UNASKED)]
        if silent:
            words = _count_text(
                silent,
                translate("bus", "{name} does not answer"),
                translate("bus", "{count} devices do not answer: {names}"),
            )
            yield Status(StatusLevel.DEVICE, "not-answering", words, silent[0].reason, _names(silent))
        yield from _double_answers(states)
        lost = [state for state in lost if state.fault is FaultKind.LATE]
        for state in states:
            tally = self._tallies[state.name]
            refused = tally.wrong.get("refused", [])
            if tally.total and len(refused) == tally.total:
                words = translate("bus", "{name} refuses all {count} readings")
                told = words.format(name=state.name, count=tally.total)
                yield Status(StatusLevel.DEVICE, "refusing", told, refused[0][1], (state.name,))
        if lost:
            words = _count_text(
                lost,
                translate("bus", "{name} answers too late"),
                translate("bus", "{count} devices answer too late: {names}"),
            )
            yield Status(StatusLevel.DEVICE, "slow", words, lost[0].reason, _names(lost))
        limits = {line.name: line.timeout_ms for line in self.project.lines}
        for state in states:
            limit = limits.get(state.line, 0)
            if state.answering and state.answer_ms is not None and limit and state.answer_ms > SLOW * limit:
                words = translate("bus", "{name} answers slowly").format(name=state.name)
                advice = translate(
                    "bus", "answers take {ms} ms of the line's {limit} ms time-out; increase the time-out"
                ).format(ms=round(state.answer_ms), limit=limit)
                yield Status(StatusLevel.DEVICE, "slow", words, advice, (state.name,))

    def _data(self, states: Sequence[FollowerState]) -> Iterator[Status]:
        tallies = [self._tallies[state.name] for state in states]
        total = sum(tally.total for tally in tallies)
        for kind in ("refused", "implausible", "stale", "doubtful", "none"):
            wrong = [each for tally in tallies for each in tally.wrong.get(kind, [])]
            if not wrong:
                continue
            names = tuple(name for name, _reason in wrong)
            words = _of_readings(kind).format(count=len(wrong), total=total)
            if kind == "none":
                connecting = all(state.answering is None for state in states)
                yield Status(StatusLevel.WAITING, "connecting" if connecting else "waiting", words, wrong[0][1], names)
            else:
                advice = f"{_name_list(names)}: {wrong[0][1]}" if wrong[0][1] else _name_list(names)
                yield Status(StatusLevel.DATA, kind, words, advice, names)


def _double_answers(states: Sequence[FollowerState]) -> Iterator[Status]:
    """Answers come twice: of two devices, or of a device that is heard twice."""
    told = [state for state in states if state.fault is FaultKind.UNASKED]
    two = [state for state in told if state.two_devices]
    if two:
        words = _count_text(
            two,
            translate("bus", "Two devices answer at the address of {name}"),
            translate("bus", "Two devices answer at each of {count} addresses: {names}"),
        )
        yield Status(StatusLevel.DEVICE, "two-devices", words, two[0].reason, _names(two))
    if told:
        words = _count_text(
            told,
            translate("bus", "{name} answers twice"),
            translate("bus", "{count} devices answer twice: {names}"),
        )
        yield Status(StatusLevel.DEVICE, "unasked", words, told[0].reason, _names(told))


def _of_readings(kind: str) -> str:
    return {
        "refused": translate("bus", "{count} of {total} readings are refused"),
        "implausible": translate("bus", "{count} of {total} readings are implausible"),
        "stale": translate("bus", "{count} of {total} readings are old"),
        "doubtful": translate("bus", "{count} of {total} readings are doubtful"),
        "none": translate("bus", "{count} of {total} readings were not read yet"),
    }[kind]


def _names(states: Sequence[FollowerState]) -> tuple[str, ...]:
    return tuple(state.name for state in states)


def _count_text(states: Sequence[FollowerState], one: str, several: str) -> str:
    if len(states) == 1:
        return one.format(name=states[0].name)
    return several.format(count=len(states), names=_name_list(_names(states)))


def _name_list(names: Sequence[str]) -> str:
    listed = ", ".join(names[:NAMED])
    more = len(names) - NAMED
    return translate("bus", "{names} and {count} more").format(names=listed, count=more) if more > 0 else listed
