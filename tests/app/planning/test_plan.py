"""Grouping reads: the least time on the line, and what must never be read together."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.client.endpoint import Endpoint
from app.client.timing import pace_of
from app.planning.plan import make_plan
from app.project.model import (
    Bit,
    BitSignal,
    HeldSignal,
    NeverRead,
    Project,
    SerialLine,
    Signal,
)
from tests.builders import pump_project, word

SERIAL = pace_of(Endpoint.serial("x", baud=19_200))


def project(*signals: Signal, **follower: Any) -> Project:
    return pump_project(*signals, line=SerialLine(name="bus", device="/dev/ttyS9"), **follower)


def reads(project: Project) -> list[tuple[str, int, int, tuple[str, ...]]]:
    return [(read.table, read.address, read.count, read.signals) for read in make_plan(project).lines[0].reads]


def test_a_small_gap_is_read_along_and_a_wide_one_is_not() -> None:
    assert reads(project(word("a", 310), word("b", 315), word("c", 400))) == [
        ("holding", 310, 6, ("a", "b")),
        ("holding", 400, 1, ("c",)),
    ]


def test_tables_are_read_apart() -> None:
    found = reads(project(word("a", 1), word("b", 2, table="input"), word("c", 3, table="coil")))
    assert found == [("holding", 1, 1, ("a",)), ("input", 2, 1, ("b",)), ("coil", 3, 1, ("c",))]


def periods(project: Project) -> list[tuple[int, int, int]]:
    return [(read.every_ms, read.address, read.count) for read in make_plan(project).lines[0].reads]


def test_a_slow_signal_among_fast_ones_rides_along_for_nothing() -> None:
    assert periods(project(word("a", 1), word("slow", 2, every_ms=10_000), word("b", 3))) == [(500, 1, 3)]
    assert periods(project(word("a", 1), word("the same", 1, every_ms=10_000))) == [(500, 1, 1)]


def test_a_slow_signal_beside_a_fast_one_joins_it_only_where_that_is_cheaper() -> None:
    # At 19 200 Bd a register takes 1.15 ms and a read of its own 12.6 ms: worth it from every 5.5 s on.
    assert periods(project(word("a", 1), word("slow", 2, every_ms=5000))) == [(500, 1, 2)]
    assert periods(project(word("a", 1), word("slow", 2, every_ms=6000))) == [(500, 1, 1), (6000, 2, 1)]


def test_a_slow_read_reaches_across_a_fast_one() -> None:
    words = (word("s", 0, every_ms=60_000), word("a", 5, every_ms=50), word("t", 9, every_ms=60_000))
    assert periods(project(*words)) == [(50, 5, 1), (60_000, 0, 10)]


def test_what_is_never_read_is_not_read_along_and_its_signals_are_left_out() -> None:
    never = (NeverRead(table="holding", first=12, last=12), NeverRead(table="input", first=10, last=20))
    plan = make_plan(project(word("a", 10), word("b", 14), word("c", 12), never_read=never))
    assert [read.signals for read in plan.lines[0].reads] == [("a",), ("b",)]
    assert "never read" in plan.left_out["c"]
    assert reads(project(word("a", 10), word("b", 14))) == [("holding", 10, 5, ("a", "b"))]


def test_a_range_that_is_never_read_counts_as_the_follower_does() -> None:
    never = (NeverRead(table="holding", first=40_012, last=40_013),)
    words = (word("a", 40_011), word("b", 40_014))
    assert [read[1:3] for read in reads(project(*words, numbering="prefixed", never_read=never))] == [(10, 1), (13, 1)]


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
    assert plan.lines[0].reads[0].signals == ("b",)
    assert "70000" in plan.left_out["a"]


def test_a_project_without_signals_has_an_empty_plan() -> None:
    plan = make_plan(project())
    assert plan.lines[0].reads == ()
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


def test_a_refused_read_is_split_at_its_gap() -> None:
    (read,) = make_plan(project(word("a", 10), word("b", 11), word("c", 14))).lines[0].reads
    halves = read.halves(SERIAL)
    assert halves is not None
    assert [(half.address, half.count, half.signals) for half in halves] == [(10, 2, ("a", "b")), (14, 1, ("c",))]
    assert halves[1].halves(SERIAL) is None


def test_what_is_read_across_and_the_load_of_the_line() -> None:
    [line] = make_plan(project(word("a", 310), word("b", 315), word("c", 400, every_ms=1000))).lines
    first, other = line.reads
    assert first.gaps == ((311, 315),)
    assert other.gaps == ()
    # By hand: each read takes its time so many times a second.
    assert line.load == pytest.approx(2 * first.ms / 1000 + other.ms / 1000)
