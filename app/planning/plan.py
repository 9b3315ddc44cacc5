"""Which registers are read together, in which order, how often, and how long that takes.

Within one table of a follower, signals are grouped so that they take the least share of the line's time: a gap is read
along when that costs less than another request, and a signal that may be old joins a read that is made more often when
that costs less than its own. The values of one signal are never split over two reads.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

from app.client.endpoint import Endpoint
from app.client.timing import Pace, pace_of
from app.language import translate
from app.modbus.requests import MOST_BITS
from app.planning.grouping import group_spans
from app.planning.spans import AddressRange, Span
from app.project.binding import bindings, unbound
from app.project.capability import never_read
from app.project.model import Follower, Project, RegisterSignal
from app.signals.numbering import Table


@dataclass(frozen=True, slots=True)
class Read:
    """Registers or bits that are read together.

    `address` is the wire address, from 0; `count` is in registers or bits; `every_ms` is how often it is read, `ms` the
    predicted time on the line, both in milliseconds.
    """

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

    @property
    def gaps(self) -> tuple[AddressRange, ...]:
        """The addresses that are read though no signal has them: each range from its first to behind its last."""
        found, end = [], self.address
        for span in sorted(self.spans, key=lambda span: span.address):
            if span.address > end:
                found.append((end, span.address))
            end = max(end, span.end)
        return tuple(found)

    def halves(self, pace: Pace) -> tuple[Read, Read] | None:
        """Two reads that bring the same signals, split at the widest gap near the middle; None if it has one signal.

        Both are made as often as this one.
        """
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

    @property
    def load(self) -> float:
        """The share of the line's time that reading takes, above 1 where it cannot be made as often as wanted."""
        return sum(read.ms / read.every_ms for read in self.reads)


@dataclass(frozen=True, slots=True)
class ReadPlan:
    """The reads of all lines. `left_out` says of signals that cannot be read why not, by name."""

    lines: tuple[LinePlan, ...]
    left_out: Mapping[str, str]

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


def make_plan(
    project: Project, line_name: str | None = None, endpoints: Mapping[str, Endpoint] | None = None
) -> ReadPlan:
    """The plan of all lines of `project`, or of one.

    Costs are those of where each line leads: by `endpoints`, else where the project says.
    """
    tables: dict[str, dict[tuple[str, Table], list[Span]]] = {}
    left_out = dict(unbound(project))
    forbidden: dict[tuple[str, Table], tuple[AddressRange, ...]] = {}
    for name, binding in bindings(project).items():
        signal = binding.signal
        if not isinstance(signal, RegisterSignal):
            continue
        follower = binding.follower
        key = follower.name, binding.table
        span = Span(name, binding.address, binding.count, signal.every_ms)
        if follower.never_read:
            ranges = forbidden.setdefault(key, never_read(follower, binding.table))
            if any(span.address < end and first < span.end for first, end in ranges):
                left_out[name] = translate(
                    "bus",
                    "signal '{signal}' is in registers that are never read from device '{follower}'; correct its "
                    "register or the range ('never_read')",
                ).format(signal=name, follower=follower.name)
                continue
        tables.setdefault(follower.line, {}).setdefault(key, []).append(span)
    plans = []
    for line in project.lines:
        if line_name is not None and line.name != line_name:
            continue
        pace = pace_of((endpoints or {}).get(line.name) or Endpoint.of_line(line))
        reads: list[Read] = []
        for (follower_name, table), spans in tables.get(line.name, {}).items():
            follower = project.follower_named[follower_name]
            never = forbidden.get((follower_name, table), ())
            reads += reads_of(follower, table, spans, pace, never)
        reads.sort(key=lambda read: read.every_ms)
        plans.append(LinePlan(line.name, tuple(reads)))
    return ReadPlan(tuple(plans), MappingProxyType(left_out))


def reads_of(
    follower: Follower, table: Table, spans: Iterable[Span], pace: Pace, never: Sequence[AddressRange] = ()
) -> list[Read]:
    """The reads that bring `spans` of one table at the least cost and never bring an address of the ranges `never`."""
    most = follower.max_registers if table in ("holding", "input") else MOST_BITS
    reads = []
    for group in group_spans(spans, pace, table, most, gaps=follower.gaps, never=never):
        address, count = _extent(group.spans)
        ms = pace.read_ms(table, count)
        reads.append(
            Read(
                follower.name,
                follower.unit,
                table,
                address,
                count,
                group.every_ms,
                ms,
                group.spans,
            )
        )
    return reads


def _extent(spans: Sequence[Span]) -> tuple[int, int]:
    """Address and count of the read that brings `spans`, in order of address."""
    address = spans[0].address
    return address, max([span.address + span.count for span in spans]) - address
