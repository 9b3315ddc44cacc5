"""Every fault of the table on every framing: no wrong value, the right name, and well again within two time-outs."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from concurrent.futures import Future, ThreadPoolExecutor

import pytest

from tests.faults.flips import Flips, disturbed_line, worst_damage
from tests.faults.stage import RECOVERS_WITHIN, Outcome, run, staged
from tests.faults.table import ALL, FAULTS, RTU, StagedFault
from tests.staged_follower import Answer, Asked

AT_ONCE = 4
"""Lines that are staged at the same time: they mostly wait."""
FLIPPED_TRANSACTIONS = 400
"""On each of four lines; `python -m tests.faults --flips 100000` makes more of them."""

FRAMINGS = ALL if os.name == "posix" else ALL[:2]
CASES = {
    f"{fault.name} [{framing}]": (fault, framing)
    for fault in FAULTS
    for framing in fault.framings
    if framing in FRAMINGS
}
DISTURBED = {
    f"{framing}, {'noise ahead' if noise else 'no noise'}": (framing, noise)
    for framing in RTU
    if framing in FRAMINGS
    for noise in (False, True)
}


@pytest.fixture(scope="module")
def outcomes(request: pytest.FixtureRequest) -> Iterator[Mapping[str, Future[Outcome]]]:
    """The cases that were selected, several at once."""
    wanted = [item.callspec.params.get("case") for item in request.session.items if hasattr(item, "callspec")]
    pool = ThreadPoolExecutor(AT_ONCE)
    yield {case: pool.submit(staged, *CASES[case]) for case in wanted if case in CASES}
    pool.shutdown(cancel_futures=True)


@pytest.fixture(scope="module")
def disturbed(request: pytest.FixtureRequest) -> Iterator[Mapping[str, Future[Flips]]]:
    pool = ThreadPoolExecutor(AT_ONCE)
    yield {
        case: pool.submit(disturbed_line, framing, FLIPPED_TRANSACTIONS, seed, noise=noise)
        for seed, (case, (framing, noise)) in enumerate(DISTURBED.items())
    }
    pool.shutdown(cancel_futures=True)


@pytest.mark.parametrize("case", CASES)
def test_a_fault_brings_no_wrong_value_is_named_and_is_survived(
    case: str, outcomes: Mapping[str, Future[Outcome]]
) -> None:
    outcome = outcomes[case].result()
    assert outcome.wrong == []
    assert outcome.problems == []
    assert outcome.values
    assert outcome.recovered is not None
    assert outcome.recovered <= RECOVERS_WITHIN or outcome.fault.named is None


@pytest.mark.parametrize("line", DISTURBED)
def test_flipped_bits_bring_no_wrong_value(line: str, disturbed: Mapping[str, Future[Flips]]) -> None:
    flips = disturbed[line].result()
    assert flips.damaged_answers > FLIPPED_TRANSACTIONS / 8
    assert flips.values
    # The CRC finds every damage of up to three bits, and of the rest all but one in 32 768: of so few frames one in
    # about a million runs would let a wrong value pass.
    assert flips.wrong == []


def test_skipping_noise_lets_no_more_damaged_frames_pass_than_their_crc_does() -> None:
    passed = worst_damage(65_536, seed=1)
    assert passed.by_crc == passed.by_guard == passed.by_guard_after_noise
    assert passed.by_crc <= 8  # one is expected; more than eight come once in a million seeds


def test_the_watch_sees_a_wrong_value() -> None:
    lie = StagedFault(
        "answers with another word",
        lambda asked, pdu: [asked.framed(pdu[:-1] + bytes((pdu[-1] ^ 1,)))],
        shows=None,
    )
    assert run(lie, "tcp").wrong


def test_the_watch_sees_an_old_value() -> None:
    former: dict[bytes, bytes] = {}

    def of_before(asked: Asked, pdu: bytes) -> Answer:
        before, former[asked.pdu] = former.get(asked.pdu, pdu), pdu
        return [asked.framed(before)]

    assert run(StagedFault("answers with the value of before", of_before, shows=None), "tcp").wrong
