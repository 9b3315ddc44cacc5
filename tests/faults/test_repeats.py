"""Answers that come twice bring no wrong value and confirm no write; on a line without them nothing is lost."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from concurrent.futures import Future, ThreadPoolExecutor

import pytest

from app.client.faults import FaultKind
from tests.faults.repeats import Doubled, Doubling, doubled_line, doubled_writes, doublings

AT_ONCE = 4
TRANSACTIONS = 400
"""Of each kind; `python -m tests.faults --repeats 100000` makes more of them."""
AT_MOST_S = 6.0
"""A line on which two devices answer is asked seldom."""

KINDS = {f"{kind.name}, {'a pty' if kind.pty else 'RTU over TCP'}": kind for kind in doublings()}


@pytest.fixture(scope="module")
def doubled(request: pytest.FixtureRequest) -> Iterator[Mapping[str, Future[Doubled]]]:
    wanted = [item.callspec.params.get("kind") for item in request.session.items if hasattr(item, "callspec")]
    pool = ThreadPoolExecutor(AT_ONCE)
    yield {
        name: pool.submit(doubled_line, kind, TRANSACTIONS, seed, AT_MOST_S)
        for seed, (name, kind) in enumerate(KINDS.items())
        if name in wanted
    }
    pool.shutdown(cancel_futures=True)


@pytest.mark.parametrize("kind", KINDS)
def test_an_answer_that_comes_twice_brings_no_wrong_value(kind: str, doubled: Mapping[str, Future[Doubled]]) -> None:
    outcome = doubled[kind].result()
    assert outcome.wrong == []
    assert set(outcome.faults) <= {FaultKind.UNASKED}
    if KINDS[kind].share > 0.01:
        assert outcome.faults[FaultKind.UNASKED]
    if not KINDS[kind].second:
        assert outcome.samples > outcome.transactions / 3
    elif KINDS[kind].share == 1:
        assert outcome.samples <= 16, "each signal once, before the second device was heard of"


def test_without_second_answers_every_read_becomes_a_value() -> None:
    outcome = doubled_line(Doubling("none", 0, 0, 0.0), TRANSACTIONS, 1)
    assert not outcome.faults
    assert outcome.wrong == []
    assert outcome.samples > 0.9 * outcome.transactions


@pytest.mark.parametrize("delay", [25, 60, 110])
def test_a_second_acknowledgement_confirms_no_other_write(delay: int) -> None:
    done, not_done, untrue = doubled_writes(Doubling("writes", delay, delay, deaf=3), 18, delay)
    assert untrue == []
    assert done >= 10
    assert not_done >= 6


def test_the_staging_sees_a_wrong_value(monkeypatch: pytest.MonkeyPatch) -> None:
    from app.client.client import Client

    monkeypatch.setattr(Client, "when_proved", lambda self, request, let_out: let_out())
    monkeypatch.setattr(Client, "unambiguous", lambda self, request, **_: (request, 0.0))
    assert doubled_line(Doubling("always, after 10 ms", 10, 10), TRANSACTIONS, 1).wrong
