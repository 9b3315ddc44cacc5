"""What one device is and has, asked on behalf of a search: its names, functions and registers, and a snapshot of them.

What registers held when they were found is kept, so nothing has to be read twice.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING, Any, Final

from app.client.faults import EXCEPTIONS, exception_text
from app.language import translate
from app.probing import requests
from app.probing.found import FoundFollower
from app.probing.identification import identify, reading_functions
from app.probing.probe import ProbedLine
from app.probing.registers import Pass, RegisterSearch, RegisterState, estimate, sunspec_models
from app.signals.numbering import LAST_ADDRESS, Table
from app.snapshots.snapshot import RegisterPlace, RegisterSnapshot, UnreadableRange

if TYPE_CHECKING:
    from app.discovery.search import Grown, Wanted

TOLD_EVERY: Final = 5
"""Requests between two tellings."""
_ORDER: Final[tuple[Table, ...]] = ("holding", "input", "discrete", "coil")


class Examination:
    """Examines one device after the other."""

    def __init__(self, how: Pass = "likely") -> None:
        self.how: Pass = how
        self.states: dict[tuple[int, Table], RegisterState] = {}

    def __call__(self, line: ProbedLine, follower: FoundFollower, wanted: Wanted, grown: Grown) -> FoundFollower:
        """Ask, and tell as it grows. Raises what `ask` raises; the registers that were found until then are kept."""
        unit = follower.unit
        timeout_s = follower.patience_s
        grown(follower, translate("finding out", "Asking unit {unit} what it is.").format(unit=unit), None)
        names, functions = identify(line, unit, timeout_s)
        functions |= reading_functions(line, unit, timeout_s, wanted.never)
        follower = replace(follower, identification=names, functions=tuple(sorted(functions)))
        grown(follower, translate("finding out", "Asking unit {unit} what it is.").format(unit=unit), None)
        tables = [
            table for table in _ORDER if table in wanted.tables and requests.FUNCTION_OF[table] in follower.functions
        ]
        span = range(wanted.first, min(wanted.last, LAST_ADDRESS) + 1)
        for place, table in enumerate(tables):
            follower = self._search(line, follower, table, span, wanted.never, len(tables) - place, timeout_s, grown)
        return self._described(follower)

    def _search(
        self,
        line: ProbedLine,
        follower: FoundFollower,
        table: Table,
        span: range,
        never: requests.Untouched,
        tables_left: int,
        timeout_s: float,
        grown: Grown,
    ) -> FoundFollower:
        state = self.states.setdefault((follower.unit, table), RegisterState())
        most, _ = estimate(self.how, 1, 0.0, span)
        begin, before = line.now(), state.probes
        text = translate("finding out", "Looking for {table} registers of unit {unit}: {count} found.")

        def told(state: RegisterState) -> None:
            done = state.probes - before
            if done % TOLD_EVERY == 0:
                each_s = (line.now() - begin) / done
                left = max(0, most - done) + (tables_left - 1) * most
                sentence = text.format(table=table, unit=follower.unit, count=len(state.words))
                grown(self._described(follower), sentence, left * each_s)

        search = RegisterSearch(
            line,
            follower.unit,
            table,
            state,
            span=span,
            never=never.get(table, ()),
            timeout_s=timeout_s,
            told=told,
        )
        search.run(self.how)
        return self._described(follower)

    def _described(self, follower: FoundFollower) -> FoundFollower:
        """With all that is known of its registers."""
        states = {table: state for (unit, table), state in self.states.items() if unit == follower.unit}
        waited = sorted(1000 * seconds for state in states.values() for seconds in state.response_s)
        longest = [states[table].longest_read for table in ("holding", "input") if table in states]
        known = [read for read in longest if read is not None]
        return replace(
            follower,
            response_ms=round(waited[len(waited) // 2], 1) if waited else follower.response_ms,
            slow_response_ms=round(waited[ceil(0.99 * len(waited)) - 1], 1) if waited else follower.slow_response_ms,
            longest_read=min(known, default=follower.longest_read),
            ranges=tuple(part for table in _ORDER if table in states for part in states[table].ranges(table)),
            notes=tuple(dict.fromkeys((*follower.notes, *_notes(states)))),
        )

    def registers(self, unit: int) -> dict[RegisterPlace, int]:
        """What was read of a unit: words, or bits as 0 and 1."""
        return {
            (table, address): word
            for (one, table), state in self.states.items()
            if one == unit
            for address, word in state.words.items()
        }

    def snapshot(self, unit: int, line: str, name: str = "") -> RegisterSnapshot:
        """All that was read of a unit, as an ordinary snapshot that counts registers as the wire does, from 0."""
        not_readable = [
            UnreadableRange(table, first, last, _reason(code))
            for (one, table), state in self.states.items()
            if one == unit
            for first, last, code in _runs_near(state)
        ]
        return RegisterSnapshot(
            name or translate("finding out", "unit {unit}").format(unit=unit),
            unit,
            line,
            "from-0",
            datetime.datetime.now().astimezone(),
            self.registers(unit),
            not_readable=tuple(not_readable),
        )

    def as_json(self) -> list[object]:
        """For a file."""
        return [[unit, table, state.as_json()] for (unit, table), state in self.states.items()]

    def take_json(self, data: list[Any]) -> None:
        """What `as_json` gave. Raises KeyError, TypeError or ValueError."""
        tables: dict[str, Table] = {table: table for table in _ORDER}
        self.states = {(int(unit), tables[table]): RegisterState.from_json(state) for unit, table, state in data}


def _reason(code: int) -> str:
    if code in EXCEPTIONS:
        return exception_text(code)[0]
    return translate("finding out", "no answer") if not code else translate("finding out", "refused")


def _runs_near(state: RegisterState) -> list[tuple[int, int, int]]:
    """What cannot be read and stands beside what can: a snapshot need not list thousands of single refusals."""
    near = [(first, last, code) for first, last, code in state.refused_ranges()]
    return [run for run in near if run[0] - 1 in state.words or run[1] + 1 in state.words]


def _notes(states: Mapping[Table, RegisterState]) -> list[str]:
    notes = []
    for table, state in states.items():
        if state.everywhere:
            text = translate(
                "finding out",
                "It answers to every address of table {table}, so which registers it really has cannot be told.",
            )
            notes.append(text.format(table=table))
        if state.in_pairs:
            text = translate("finding out", "It gives registers of table {table} in pairs only.")
            notes.append(text.format(table=table))
    if "holding" in states and (found := sunspec_models(states["holding"].words)) is not None:
        base, models = found
        text = translate("finding out", "A SunSpec map begins at address {base}; its models: {models}.")
        notes.append(text.format(base=base, models=", ".join(str(number) for number, _ in models)))
    if any(state.words for state in states.values()):
        notes.append(
            translate(
                "finding out",
                "Whether it stops when nobody asks it any more cannot be found out by reading: see its manual.",
            )
        )
    return notes
