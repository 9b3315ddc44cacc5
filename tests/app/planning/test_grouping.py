"""The grouping of reads against every grouping that there is: none costs less, of several periods hardly any."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence

import pytest

from app.client.timing import Pace
from app.planning.grouping import group_spans
from app.planning.spans import Span
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


def beyond_the_cheapest(table: Table, periods: Sequence[tuple[int, ...]], seeds: int) -> list[float]:
    """How much more groupings of random maps cost than the cheapest of all that are allowed, as a share, each."""
    beyond = []
    for seed in range(seeds):
        chance = random.Random(f"{table} {seed}")
        for case in range(120):
            room, of_map = chance.choice((10, 25, 60)), chance.choice(periods)
            widths = (1, 1, 2, 4, 7) if table == "holding" else (1,)
            spans = [
                Span(f"s{n}", chance.randrange(room), chance.choice(widths), chance.choice(of_map))
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
            assert all(allowed(group) for group in groups), f"case {case}: {spans}"
            least = min(
                cost(other, pace, table) for other in every_grouping(spans) if all(allowed(group) for group in other)
            )
            beyond.append(cost(groups, pace, table) / least - 1)
            assert beyond[-1] >= -1e-9
    return beyond


@pytest.mark.parametrize("table", ["holding", "coil"])
def test_with_one_period_the_grouping_is_as_cheap_as_the_cheapest_of_all(table: Table) -> None:
    assert max(beyond_the_cheapest(table, [(500,)], 6)) < 1e-9


def test_with_several_periods_hardly_any_grouping_is_cheaper() -> None:
    # Of 1440 maps of registers 1.9 % cost more than the cheapest, nearly all with signals that overlap: of all maps
    # 0.14 % on average, one in a hundred over 4 %, the worst 34 %; of bits none of them.
    beyond = sorted(beyond_the_cheapest("holding", PERIODS, 12))
    assert sum(beyond) / len(beyond) < 0.002
    assert sum(each > 1e-9 for each in beyond) / len(beyond) < 0.025
    assert beyond[int(0.99 * len(beyond))] < 0.05
    assert beyond[-1] < 0.35
    assert max(beyond_the_cheapest("coil", PERIODS, 12)) < 1e-9


def cheapest_cut(spans: list[Span], pace: Pace, table: Table, most: int) -> float:
    """The least cost of cutting signals, in order of address, into stretches read together: all cuts are tried."""
    best = [0.0]
    for last in range(len(spans)):
        end, period, least = 0, spans[last].every_ms, float("inf")
        for begin in range(last, -1, -1):
            end, period = max(end, spans[begin].end), min(period, spans[begin].every_ms)
            if end - spans[begin].address <= most or begin == last:
                least = min(least, best[begin] + pace.read_ms(table, end - spans[begin].address) / period)
        best.append(least)
    return best[-1]


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("table", ["holding", "coil"])
def test_no_cut_of_a_long_table_is_cheaper(table: Table, seed: int) -> None:
    """Begins of stretches that cannot win any more are left out on the way: none of them could have."""
    chance = random.Random(f"{table} {seed}")
    periods, address = chance.choice(PERIODS), 0
    spans: list[Span] = []
    for number in range(400):
        count = chance.choice((1, 1, 2, 4)) if table == "holding" else 1
        spans.append(Span(f"s{number}", address, count, chance.choice(periods)))
        address += count + chance.choice((-1, 0, 0, 0, 1, 4, 9)) if count > 1 else chance.choice((1, 1, 1, 2, 5, 10))
    pace = Pace(chance.choice((1.0, 6.0, 13.0)), chance.choice((0.001, 0.57, 1.0)), 0.0, 0.0)
    most = chance.choice((16, 125, 2000))
    groups = [list(group.spans) for group in group_spans(spans, pace, table, most)]
    assert cost(groups, pace, table) <= cheapest_cut(spans, pace, table, most) * (1 + 1e-9)


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
