"""The grouping of reads against every grouping that there is: none may cost less."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from app.bus.grouping import group_spans
from app.bus.spans import Span
from app.bus.timing import Pace
from app.signals.numbering import Table

PERIODS = ((500,), (100, 200), (100, 1000), (100, 250, 1000), (50, 100, 400, 5000), (10, 20, 30, 40, 50, 60))


def every_grouping(spans: list[Span]) -> Iterator[list[list[Span]]]:
    """All ways to part a list into groups, not only into runs of neighbours."""
    if not spans:
        yield []
        return
    first, rest = spans[0], spans[1:]
    for groups in every_grouping(rest):
        yield [[first], *groups]
        for index in range(len(groups)):
            yield [*groups[:index], [first, *groups[index]], *groups[index + 1 :]]


def extent(group: list[Span]) -> tuple[int, int]:
    return min(span.address for span in group), max(span.end for span in group)


def cost(groups: list[list[Span]], pace: Pace, table: Table) -> float:
    """Time on the line per time: each read as often as its most impatient signal wants."""
    total = 0.0
    for group in groups:
        first, end = extent(group)
        total += pace.read_ms(table, end - first) / min(span.every_ms for span in group)
    return total


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("table", ["holding", "coil"])
def test_the_grouping_is_as_cheap_as_the_cheapest_of_all(table: Table, seed: int) -> None:
    chance = random.Random(f"{table} {seed}")
    for case in range(120):
        room, periods = chance.choice((10, 25, 60)), chance.choice(PERIODS)
        widths = (1, 1, 2, 4, 7) if table == "holding" else (1,)
        spans = [
            Span(f"s{n}", chance.randrange(room), chance.choice(widths), chance.choice(periods))
            for n in range(chance.randrange(1, 8))
        ]
        most = chance.choice((7, 9, 16, 125))
        pace = Pace(chance.choice((1.0, 4.0, 13.0, 40.0)), 1.0, 0.0, 0.0)
        gaps = chance.random() < 0.8
        never = [
            (first, first + 2)
            for first in range(0, room, 9)
            if chance.random() < 0.3 and all(span.end <= first or span.address >= first + 2 for span in spans)
        ]
        named = {address for span in spans for address in range(span.address, span.end)}

        def allowed(group: list[Span]) -> bool:
            first, end = extent(group)
            return (
                end - first <= most  # noqa: B023 - used within the round only
                and all(end <= begin or first >= behind for begin, behind in never)  # noqa: B023
                and (gaps or all(address in named for address in range(first, end)))  # noqa: B023
            )

        found = group_spans(spans, pace, table, most, gaps=gaps, never=never)
        groups = [list(group.spans) for group in found]
        assert sorted(span.signal for group in groups for span in group) == sorted(span.signal for span in spans)
        assert all(group.every_ms == min(span.every_ms for span in group.spans) for group in found)
        assert all(allowed(group) for group in groups)
        least = min(
            cost(other, pace, table) for other in every_grouping(spans) if all(allowed(group) for group in other)
        )
        assert cost(groups, pace, table) == pytest.approx(least, rel=1e-9), f"case {case}: {spans}"


@pytest.mark.parametrize("seed", range(6))
def test_two_ways_to_the_cheapest_plan_agree_on_long_tables(seed: int) -> None:
    """Registers whose signals do not overlap go one way; a fast one inside a wide slow one sends all the other way."""
    chance = random.Random(seed)
    periods = chance.choice(((100, 1000), (100, 250, 1000)))
    spans: list[Span] = []
    address = 0
    for number in range(60):
        count = chance.choice((1, 1, 2, 4))
        spans.append(Span(f"s{number}", address, count, chance.choice(periods)))
        address += count + chance.choice((0, 0, 0, 1, 4, 9))
    pace = Pace(chance.choice((6.0, 13.0)), 1.0, 0.0, 0.0)
    apart = address + 1000
    overlapping = [Span("wide", apart, 4, 1000), Span("inside", apart + 1, 1, 100)]
    one_way = [list(group.spans) for group in group_spans(spans, pace, "holding", 16)]
    other_way = [list(group.spans) for group in group_spans(spans + overlapping, pace, "holding", 16)]
    alone = [list(group.spans) for group in group_spans(overlapping, pace, "holding", 16)]
    assert cost(one_way, pace, "holding") + cost(alone, pace, "holding") == pytest.approx(
        cost(other_way, pace, "holding"), rel=1e-9
    )


def test_a_value_longer_than_the_follower_allows_is_read_alone_with_what_lies_in_it() -> None:
    spans = [Span("text", 0, 20), Span("inside", 3, 1), Span("next", 20, 1)]
    groups = group_spans(spans, Pace(10.0, 1.0, 0.0, 0.0), "holding", 8)
    assert [[span.signal for span in group.spans] for group in groups] == [["text", "inside"], ["next"]]


def test_many_bits_of_two_periods_cost_no_more_than_all_at_the_faster_one_or_apart() -> None:
    chance = random.Random(5)
    addresses = sorted(chance.sample(range(8000), 2000))
    spans = [Span(f"b{n}", address, 1, chance.choice((100, 1000))) for n, address in enumerate(addresses)]
    pace = Pace(11.0, 0.57, 0.0, 0.0)

    def total(*parts: list[Span]) -> float:
        groups = [list(group.spans) for part in parts for group in group_spans(part, pace, "coil", 2000)]
        return cost(groups, pace, "coil")

    found = total(spans)
    fast = [Span(span.signal, span.address, 1, 100) for span in spans]
    assert found <= total(fast) * 1.001
    assert found <= total([s for s in spans if s.every_ms == 100], [s for s in spans if s.every_ms == 1000]) * 1.001


def test_a_table_of_very_many_periods_reads_none_less_often_than_asked() -> None:
    chance = random.Random(9)
    spans = [Span(f"s{n}", 2 * n, 1, chance.choice(range(100, 2000, 100))) for n in range(300)]
    groups = group_spans(spans, Pace(11.0, 0.57, 0.0, 0.0), "holding", 125)
    assert sorted(span.signal for group in groups for span in group.spans) == sorted(span.signal for span in spans)
    assert all(group.every_ms <= span.every_ms for group in groups for span in group.spans)


def test_nothing_to_read() -> None:
    assert group_spans([], Pace(10.0, 1.0, 0.0, 0.0), "holding", 8) == []
