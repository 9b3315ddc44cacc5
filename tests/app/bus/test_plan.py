"""Grouping reads: the least time on the line, and what must never be read together."""

from __future__ import annotations

import random
from decimal import Decimal
from itertools import combinations
from typing import Any

import pytest

from app.bus.endpoint import Endpoint
from app.bus.plan import Span, group_spans, make_plan
from app.bus.timing import Pace, pace_of
from app.project.model import Bit, BitSignal, Follower, HeldSignal, Panel, Project, RegisterSignal, SerialLine, Signal
from app.signals.numbering import Table

SERIAL = pace_of(Endpoint.serial("x", baud=19_200))


def project(*signals: Signal, **follower: Any) -> Project:
    return Project(
        panel=Panel(start="a"),
        lines=(SerialLine(name="bus", device="/dev/ttyS9"),),
        followers=(Follower(name="pump", line="bus", unit=3, **follower),),
        signals=signals,
    )


def word(name: str, number: int, **more: Any) -> RegisterSignal:
    return RegisterSignal(name=name, follower="pump", number=number, **more)


def reads(project: Project) -> list[tuple[str, int, int, tuple[str, ...]]]:
    return [(read.table, read.address, read.count, read.signals) for read in make_plan(project).of_line("bus").reads]


def test_a_small_gap_is_read_along_and_a_wide_one_is_not() -> None:
    assert reads(project(word("a", 310), word("b", 315), word("c", 400))) == [
        ("holding", 310, 6, ("a", "b")),
        ("holding", 400, 1, ("c",)),
    ]


def test_tables_and_rates_are_read_apart() -> None:
    found = reads(
        project(word("slow", 1, every_ms=2000), word("a", 1), word("b", 2, table="input"), word("c", 3, table="coil"))
    )
    assert found == [
        ("holding", 1, 1, ("a",)),
        ("input", 2, 1, ("b",)),
        ("coil", 3, 1, ("c",)),
        ("holding", 1, 1, ("slow",)),
    ]


def test_a_value_of_two_registers_is_never_split() -> None:
    found = reads(project(word("a", 0), word("b", 1, encoding="uint32"), word("c", 3), max_registers=2))
    assert found == [("holding", 0, 1, ("a",)), ("holding", 1, 2, ("b",)), ("holding", 3, 1, ("c",))]


def test_the_followers_limit_is_kept_even_at_one_register() -> None:
    assert [read[2] for read in reads(project(*(word(f"s{n}", n) for n in range(5)), max_registers=1))] == [1] * 5


def test_a_follower_that_has_only_named_registers_is_asked_for_no_others() -> None:
    words = (word("a", 0), word("b", 1), word("c", 3), word("d", 5, encoding="uint32"), word("e", 7))
    assert [read[1:3] for read in reads(project(*words))] == [(0, 8)]
    assert [read[1:3] for read in reads(project(*words, gaps=False))] == [(0, 2), (3, 1), (5, 3)]


def test_the_wire_address_is_planned_not_the_documented_number() -> None:
    assert reads(project(word("a", 40_311), numbering="prefixed")) == [("holding", 310, 1, ("a",))]


def test_bits_and_held_values_ask_for_nothing_of_their_own() -> None:
    found = reads(
        project(word("a", 1), BitSignal(name="b", bit=Bit(of="a", number=2)), HeldSignal(name="h", held=Decimal(1)))
    )
    assert found == [("holding", 1, 1, ("a",))]


def test_signals_that_cannot_be_found_are_left_out_and_said() -> None:
    plan = make_plan(project(word("a", 70_000), word("b", 2)))
    assert plan.of_line("bus").reads[0].signals == ("b",)
    assert "70000" in plan.left_out["a"]


def test_a_project_without_signals_has_an_empty_plan() -> None:
    plan = make_plan(project())
    assert plan.of_line("bus").reads == ()
    assert plan.as_json() == {"lines": [{"line": "bus", "cycle_ms": 0, "reads": []}]}


def test_as_json() -> None:
    (line,) = make_plan(project(word("a", 310), word("b", 311))).as_json()["lines"]
    assert line["line"] == "bus"
    assert line["cycle_ms"] == pytest.approx(13.75, abs=0.05)
    (read,) = line["reads"]
    assert read["ms"] == line["cycle_ms"]
    assert {key: read[key] for key in ("follower", "unit", "table", "address", "count", "signals")} == {
        "follower": "pump",
        "unit": 3,
        "table": "holding",
        "address": 310,
        "count": 2,
        "signals": ["a", "b"],
    }


def cost(groups: list[list[Span]], pace: Pace, table: Table) -> float:
    return sum(pace.read_ms(table, max(s.end for s in group) - min(s.address for s in group)) for group in groups)


def every_grouping(spans: list[Span]) -> list[list[list[Span]]]:
    """All ways to part a list into groups, not only into runs of neighbours."""
    if not spans:
        return [[]]
    first, rest = spans[0], spans[1:]
    found = []
    for size in range(len(rest) + 1):
        for others in combinations(rest, size):
            remaining = [span for span in rest if span not in others]
            found += [[[first, *others], *more] for more in every_grouping(remaining)]
    return found


@pytest.mark.parametrize("table", ["holding", "discrete"])
def test_the_grouping_is_as_cheap_as_the_cheapest_of_all(table: Table) -> None:
    random.seed(7)
    for case in range(150):
        spans = [
            Span(f"s{n}", random.randrange(60), random.choice((1, 1, 2, 4) if table == "holding" else (1,)))
            for n in range(random.randrange(1, 7))
        ]
        most = random.choice((4, 6, 12, 125))
        pace = Pace(random.choice((1.0, 8.0, 13.0, 40.0)), 1.0, 0.0, 0.0)
        found = group_spans(spans, pace, table, most)
        assert sorted(span.signal for group in found for span in group) == sorted(span.signal for span in spans)

        def allowed(groups: list[list[Span]], most: int = most) -> bool:
            return all(max(s.end for s in group) - min(s.address for s in group) <= most for group in groups)

        assert allowed(found)
        least = min(cost(groups, pace, table) for groups in every_grouping(spans) if allowed(groups))
        assert cost(found, pace, table) == pytest.approx(least), f"case {case}: {spans}"


def test_a_refused_read_is_split_at_its_gap() -> None:
    (read,) = make_plan(project(word("a", 10), word("b", 11), word("c", 14))).of_line("bus").reads
    halves = read.halves(SERIAL)
    assert halves is not None
    assert [(half.address, half.count, half.signals) for half in halves] == [(10, 2, ("a", "b")), (14, 1, ("c",))]
    assert halves[1].halves(SERIAL) is None
