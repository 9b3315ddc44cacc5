"""Which registers are read together, in which order, how often, and how long that takes.

Within one follower, table and freshness, signals are grouped so that the predicted time on the line is least: a gap is
read along when that costs less than another request. The values of one signal are never split over two reads.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

from app.bus.endpoint import Endpoint
from app.bus.requests import MOST_BITS
from app.bus.timing import Pace, pace_of
from app.project.binding import bindings, unbound
from app.project.model import Project, RegisterSignal
from app.signals.numbering import Table


@dataclass(frozen=True, slots=True)
class Span:
    """Where one signal stands in its table: `count` registers or bits from wire address `address` on."""

    signal: str
    address: int
    count: int

    @property
    def end(self) -> int:
        """The first address behind it."""
        return self.address + self.count


@dataclass(frozen=True, slots=True)
class Read:
    """Registers or bits that are read together.

    `address` is the wire address, from 0; `count` is in registers or bits; `every_ms` is how often it is read, `ms` the
    predicted time on the line, both in milliseconds.
    """

    line: str
    follower: str
    unit: int
    table: Table
    address: int
    count: int
    every_ms: int
    ms: float
    spans: tuple[Span, ...]

    @property
    def signals(self) -> tuple[str, ...]:
        """The signals that it brings, by address."""
        return tuple(span.signal for span in self.spans)

    def halves(self, pace: Pace) -> tuple[Read, Read] | None:
        """Two reads that bring the same signals, split at the widest gap near the middle; None if it has one signal."""
        if len(self.spans) < 2:
            return None
        cuts = range(1, len(self.spans))
        middle = len(self.spans) / 2

        def worth(cut: int) -> tuple[int, float]:
            gap = self.spans[cut].address - max(span.end for span in self.spans[:cut])
            return gap, -abs(cut - middle)

        cut = max(cuts, key=worth)
        return self._of(self.spans[:cut], pace), self._of(self.spans[cut:], pace)

    def _of(self, spans: tuple[Span, ...], pace: Pace) -> Read:
        address, count = _extent(spans)
        return replace(self, address=address, count=count, ms=pace.read_ms(self.table, count), spans=spans)


@dataclass(frozen=True, slots=True)
class LinePlan:
    """The reads of one line, in the order in which one pass takes them."""

    line: str
    reads: tuple[Read, ...]

    @property
    def cycle_ms(self) -> float:
        """Predicted time of one pass over all reads, in milliseconds."""
        return sum(read.ms for read in self.reads)


@dataclass(frozen=True, slots=True)
class Plan:
    """The reads of all lines. `left_out` says of signals that cannot be read why not, by name."""

    lines: tuple[LinePlan, ...]
    left_out: Mapping[str, str]

    def of_line(self, name: str) -> LinePlan:
        """The plan of one line; empty if the line has nothing to read."""
        return next((line for line in self.lines if line.line == name), LinePlan(name, ()))

    def as_json(self) -> dict[str, Any]:
        """The plan in plain types, as `fanlight plan --json` gives it out."""
        return {
            "lines": [
                {
                    "line": line.line,
                    "cycle_ms": round(line.cycle_ms, 3),
                    "reads": [
                        {
                            "follower": read.follower,
                            "unit": read.unit,
                            "table": read.table,
                            "address": read.address,
                            "count": read.count,
                            "signals": list(read.signals),
                            "every_ms": read.every_ms,
                            "ms": round(read.ms, 3),
                        }
                        for read in line.reads
                    ],
                }
                for line in self.lines
            ]
        }


def make_plan(project: Project, line_name: str | None = None, endpoints: Mapping[str, Endpoint] | None = None) -> Plan:
    """The plan of all lines of `project`, or of one.

    Costs are those of where each line leads: by `endpoints`, else where the project says.
    """
    groups: dict[str, dict[tuple[str, Table, int], list[Span]]] = {}
    bound = bindings(project)
    for name, binding in bound.items():
        signal = binding.signal
        if isinstance(signal, RegisterSignal):
            of_line = groups.setdefault(binding.follower.line, {})
            key = binding.follower.name, binding.table, signal.every_ms
            of_line.setdefault(key, []).append(Span(name, binding.address, binding.count))
    plans = []
    for line in project.lines:
        if line_name is not None and line.name != line_name:
            continue
        pace = pace_of((endpoints or {}).get(line.name) or Endpoint.of_line(line))
        reads: list[Read] = []
        for (follower_name, table, every_ms), spans in groups.get(line.name, {}).items():
            follower = project.follower_named[follower_name]
            most = follower.max_registers if table in ("holding", "input") else MOST_BITS
            for group in group_spans(spans, pace, table, most, gaps=follower.gaps):
                address, count = _extent(group)
                ms = pace.read_ms(table, count)
                reads.append(
                    Read(line.name, follower_name, follower.unit, table, address, count, every_ms, ms, tuple(group))
                )
        reads.sort(key=lambda read: read.every_ms)
        plans.append(LinePlan(line.name, tuple(reads)))
    return Plan(tuple(plans), MappingProxyType(dict(unbound(project))))


def group_spans(spans: Iterable[Span], pace: Pace, table: Table, most: int, *, gaps: bool = True) -> list[list[Span]]:
    """The grouping of `spans` into reads of at most `most` registers or bits whose predicted time is least.

    Without `gaps` a read never brings an address that no span has. A span longer than `most` is read alone. Spans that
    lie inside another are read along with it at no cost.
    """
    atoms: list[list[Span]] = []
    """Spans that reach further than all before them, each with those inside it: starts and ends both increase."""
    for span in sorted(spans, key=lambda span: (span.address, -span.count, span.signal)):
        if atoms and span.end <= atoms[-1][0].end:
            atoms[-1].append(span)
        else:
            atoms.append([span])
    find = _cheapest_registers if table in ("holding", "input") else _cheapest_bits
    groups: list[list[Span]] = []
    for run in [atoms] if gaps else _without_gaps(atoms):
        begins = find([atom[0].address for atom in run], [atom[0].end for atom in run], pace, most)
        found: list[list[Span]] = []
        i = len(run)
        while i > 0:
            begin = begins[i - 1]
            group = [span for atom in run[begin:i] for span in atom]
            found.append(sorted(group, key=lambda span: (span.address, span.end, span.signal)))
            i = begin
        groups += reversed(found)
    return groups


def _without_gaps(atoms: list[list[Span]]) -> list[list[list[Span]]]:
    """The runs of atoms between which addresses are missing."""
    runs: list[list[list[Span]]] = []
    for atom in atoms:
        if runs and atom[0].address <= runs[-1][-1][0].end:
            runs[-1].append(atom)
        else:
            runs.append([atom])
    return runs


def _cheapest_registers(starts: list[int], ends: list[int], pace: Pace, most: int) -> list[int]:
    """For each i the begin of the last read in the cheapest grouping of the first i + 1 atoms, in linear time.

    best[i + 1] = fixed + word * ends[i] + min over the begins j that `most` allows of (best[j] - word * starts[j]): the
    minimum of a window that only moves forward, kept in a queue of candidates that can still win.
    """
    word = 2 * pace.byte_ms
    best = [0.0]
    begins: list[int] = []
    candidates: deque[tuple[float, int]] = deque()
    for i, end in enumerate(ends):
        value = best[i] - word * starts[i]
        while candidates and candidates[-1][0] >= value:
            candidates.pop()
        candidates.append((value, i))
        while candidates[0][1] < i and end - starts[candidates[0][1]] > most:
            candidates.popleft()
        least, begin = candidates[0]
        best.append(pace.fixed_ms + word * end + least)
        begins.append(begin)
    return begins


def _cheapest_bits(starts: list[int], ends: list[int], pace: Pace, most: int) -> list[int]:
    """As for registers; eight bits cost as much as one, so every begin has to be looked at."""
    best = [0.0]
    begins: list[int] = []
    for i, end in enumerate(ends):
        least, begin = best[i] + pace.byte_ms * ((end - starts[i] + 7) // 8), i
        for j in range(i - 1, -1, -1):
            count = end - starts[j]
            if count > most:
                break
            cost = best[j] + pace.byte_ms * ((count + 7) // 8)
            if cost < least:
                least, begin = cost, j
        best.append(pace.fixed_ms + least)
        begins.append(begin)
    return begins


def _extent(spans: Sequence[Span]) -> tuple[int, int]:
    """Address and count of the read that brings `spans`, in order of address."""
    address = spans[0].address
    return address, max(span.end for span in spans) - address
