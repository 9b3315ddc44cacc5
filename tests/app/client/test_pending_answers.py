"""What may still come after a time-out, and asking so that it cannot be mistaken."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field

import pytest
from hypothesis import given, settings, strategies as st

from app.client.pending_answers import MOST_SHAPES, PendingAnswers
from app.modbus.requests import RETURN_QUERY_DATA, Request, read_request, write_register

TEN = read_request(3, "holding", 10, 10)
OTHER_TEN = read_request(3, "holding", 20, 10)
ONE = read_request(3, "holding", 10, 1)


def unsettled(*requests: Request) -> PendingAnswers:
    settling = PendingAnswers(60.0)
    for request in requests:
        settling.note_silence(request, 0.0)
    return settling


def test_nothing_open_nothing_to_mistake() -> None:
    assert PendingAnswers(60.0).unambiguous(TEN, 0.0) is TEN


def test_a_read_of_the_same_shape_is_asked_shorter() -> None:
    settling = unsettled(TEN)
    assert settling.mistakable(OTHER_TEN)
    asked = settling.unambiguous(OTHER_TEN, 1.0)
    assert asked is not None
    assert asked.address >= 20
    assert asked.address + asked.count <= 30
    assert asked.answer_head != TEN.answer_head


def test_both_ends_of_the_range_are_tried_in_turn() -> None:
    first = unsettled(TEN).unambiguous(TEN, 1.0)
    assert first is not None
    second = unsettled(TEN, first).unambiguous(TEN, 1.0)
    assert second is not None
    assert (first.address, first.count, second.address, second.count) == (10, 9, 12, 8)


def test_another_unit_function_or_length_cannot_be_mistaken() -> None:
    settling = unsettled(TEN)
    for request in (read_request(4, "holding", 10, 10), read_request(3, "input", 10, 10), ONE):
        assert not settling.mistakable(request)


def test_one_register_is_asked_longer_within_the_address_range() -> None:
    last = read_request(3, "holding", 65_535, 1)
    asked = unsettled(last).unambiguous(last, 1.0)
    assert asked is not None
    assert (asked.address, asked.count) == (65_534, 2)


def test_where_only_named_registers_may_be_read_no_more_are_asked() -> None:
    shorter = unsettled(TEN).unambiguous(TEN, 1.0, wider=False)
    assert shorter is not None
    assert shorter.count == 9


def test_where_no_other_length_is_left_a_number_is_sent_to_be_given_back() -> None:
    settling = unsettled(ONE)
    marker = settling.unambiguous(ONE, 1.0, wider=False)
    assert marker is not None
    # MODBUS Application Protocol V1.1b3, section 6.8 (from memory): function 08, sub-function 00 00, two bytes of data.
    assert marker.pdu[:3] == bytes.fromhex("08 00 00")
    assert marker.answer_head == marker.pdu
    assert marker.count == 0
    assert not marker.writes
    settling.note_silence(marker, 1.0)
    again = settling.unambiguous(ONE, 2.0, wider=False)
    assert again is not None
    assert again.function == RETURN_QUERY_DATA
    assert again.pdu != marker.pdu, "the late answer to the first is not that to the second"
    settling.note_answer(again)
    assert settling.unambiguous(ONE, 3.0, wider=False) is ONE


def test_a_refused_number_is_as_good() -> None:
    settling = unsettled(ONE)
    marker = settling.unambiguous(ONE, 1.0, wider=False)
    assert marker is not None
    settling.note_answer(marker, refused=True)
    assert settling.unambiguous(ONE, 2.0, wider=False) is ONE


def test_a_late_refusal_of_an_earlier_number_clears_only_what_was_before_it() -> None:
    settling = unsettled(ONE)
    marker = settling.unambiguous(ONE, 1.0, wider=False)
    assert marker is not None
    settling.note_silence(marker, 1.0)
    two = read_request(3, "holding", 30, 2)
    settling.note_silence(two, 2.0)
    again = settling.unambiguous(ONE, 3.0, wider=False)
    assert again is not None
    settling.note_answer(again, refused=True)
    assert not settling.mistakable(ONE)
    assert settling.mistakable(two)


def test_the_last_resort_is_for_a_follower_that_cannot_be_asked_otherwise() -> None:
    settling = unsettled(ONE)
    assert settling.unambiguous(ONE, 59.0, wider=False) is not ONE
    assert settling.unambiguous(ONE, 61.0, wider=False) is ONE
    patient = unsettled(TEN)
    assert patient.unambiguous(TEN, 1e6) is not TEN


def test_where_only_copies_may_come_a_read_is_made_longer_first_and_never_longer_than_the_follower_takes() -> None:
    settling = PendingAnswers(60.0)
    taken = {ONE.answer_head}
    longer = settling.unambiguous(ONE, 1.0, taken=taken)
    assert longer is not None
    assert (longer.address, longer.count) == (ONE.address, 2)
    assert settling.unambiguous(ONE, 1.0, taken=taken, at_most=1) is None
    assert settling.unambiguous(ONE, 1.0, taken=taken, wider=False) is None, "time alone helps"
    shorter = settling.unambiguous(TEN, 1.0, taken={TEN.answer_head}, at_most=10)
    assert shorter is not None
    assert shorter.count == 9


def test_bits_are_told_apart_by_their_bytes() -> None:
    coil = read_request(3, "coil", 10, 3)
    asked = unsettled(coil).unambiguous(coil, 1.0)
    assert asked is not None
    assert asked.answer_head != coil.answer_head


def test_a_write_is_not_varied() -> None:
    write = write_register(3, 1, 2)
    assert unsettled(write).unambiguous(write, 1.0) is None
    assert unsettled(write).unambiguous(write_register(3, 1, 3), 1.0) is not None


def test_an_unmistakable_answer_clears_all_before_it() -> None:
    settling = unsettled(TEN, ONE)
    settling.note_answer(read_request(3, "holding", 10, 9))
    assert settling.unambiguous(TEN, 1.0) is TEN
    assert not settling.owes(3)


def test_an_exception_may_have_been_meant_for_the_oldest() -> None:
    settling = unsettled(TEN)
    nine = read_request(3, "holding", 10, 9)
    settling.note_answer(nine, refused=True)
    assert not settling.mistakable(TEN)
    assert settling.mistakable(nine)


def test_an_exception_of_a_function_that_nobody_else_asked_clears_all() -> None:
    settling = unsettled(TEN)
    settling.note_answer(read_request(3, "input", 10, 10), refused=True)
    assert not settling.owes(3)


def test_a_dead_follower_uses_up_only_so_many_lengths_and_is_then_asked_for_a_proof() -> None:
    settling = PendingAnswers(60.0)
    asked = []
    for second in range(1000):
        request = settling.unambiguous(TEN, float(second))
        assert request is not None
        settling.note_silence(request, float(second))
        asked.append(request)
    assert len({request.answer_head for request in asked}) == MOST_SHAPES
    proof = settling.unambiguous(TEN, 1000.0)
    assert proof is not None
    assert proof.count == 0, "its answer may be that of any of the thousand, so it brings no value"
    settling.note_answer(proof)
    assert settling.unambiguous(TEN, 1001.0) is TEN


@dataclass
class _LateFollower:
    """Answers in order, each request after as many further ones as chance says, or never; register n holds n."""

    waiting: deque[tuple[Request, int]] = field(default_factory=deque)
    clock: int = 0

    def ask(self, request: Request, late: int | None) -> None:
        self.clock += 1
        if late is not None:
            self.waiting.append((request, self.clock + late))

    def answers(self) -> list[Request]:
        """Whose answers are on the wire now."""
        out = []
        while self.waiting and self.waiting[0][1] <= self.clock:
            out.append(self.waiting.popleft()[0])
        return out


SHAPES = [
    TEN,
    OTHER_TEN,
    ONE,
    read_request(3, "holding", 20, 1),
    read_request(3, "holding", 20, 2),
    read_request(3, "input", 20, 2),
]


@pytest.mark.parametrize("wider", [True, False])
@given(
    plan=st.lists(
        st.tuples(st.sampled_from(SHAPES), st.one_of(st.none(), st.integers(0, 30))), min_size=1, max_size=80
    ),
    refusing=st.booleans(),
)
@settings(max_examples=400, deadline=None)
def test_however_late_and_whatever_is_lost_no_answer_is_taken_for_anothers(
    wider: bool, plan: list[tuple[Request, int | None]], refusing: bool
) -> None:
    settling = PendingAnswers(1e9)
    follower = _LateFollower()
    for wanted, late in plan:
        request = settling.unambiguous(wanted, 0.0, wider=wider)
        assert request is not None
        follower.ask(request, late)
        # Of all that is on the wire the guard lets pass the first that looks like the answer.
        refused = refusing and request.function == RETURN_QUERY_DATA
        passed = next(
            (
                one
                for one in follower.answers()
                if one.answer_head == request.answer_head or (refused and one.function == request.function)
            ),
            None,
        )
        if passed is None:
            settling.note_silence(request, 0.0)
            continue
        if request.count:
            assert passed is request, "a value was taken for another's"
        settling.note_answer(request, refused=refused)
    # With a follower that is on time again, values come back.
    follower.waiting.clear()
    settled = 0
    for _ in range(60):
        request = settling.unambiguous(TEN, 0.0, wider=wider)
        assert request is not None
        settling.note_answer(request)
        if request is TEN:
            settled += 1
    assert settled > 1


def test_a_request_that_was_wrongly_answered_is_not_taken_for_answered_late() -> None:
    frame = bytes((3, *ONE.answer_head, 0, 0, 0, 0))
    settling = PendingAnswers(60.0)
    settling.note_silence(ONE, 1.0, wrongly=True)
    assert settling.late(frame) is None
    assert settling.mistakable(ONE)
    settling = unsettled(ONE)
    assert settling.late(frame) == (ONE, 0.0)
