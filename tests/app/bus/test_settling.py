"""What may still come after a time-out, and asking so that it cannot be mistaken."""

from __future__ import annotations

from app.bus.requests import read_request, write_register
from app.bus.settling import Settling

TEN = read_request(3, "holding", 10, 10)
OTHER_TEN = read_request(3, "holding", 20, 10)
ONE = read_request(3, "holding", 10, 1)


def unsettled(*requests: object) -> Settling:
    settling = Settling(5.0)
    for request in requests:
        settling.unanswered(request, 0.0)  # type: ignore[arg-type]
    return settling


def test_nothing_open_nothing_to_mistake() -> None:
    assert Settling(5.0).distinct(TEN, 0.0) is TEN


def test_a_read_of_the_same_shape_is_asked_shorter() -> None:
    settling = unsettled(TEN)
    assert settling.mistakable(OTHER_TEN, 1.0)
    asked = settling.distinct(OTHER_TEN, 1.0)
    assert asked is not None
    assert asked.address >= 20
    assert asked.address + asked.count <= 30
    assert asked.answer_head != TEN.answer_head


def test_both_ends_of_the_range_are_tried_in_turn() -> None:
    first = unsettled(TEN).distinct(TEN, 1.0)
    assert first is not None
    second = unsettled(TEN, first).distinct(TEN, 1.0)
    assert second is not None
    assert (first.address, first.count, second.address, second.count) == (10, 9, 12, 8)


def test_another_unit_function_or_length_cannot_be_mistaken() -> None:
    settling = unsettled(TEN)
    for request in (read_request(4, "holding", 10, 10), read_request(3, "input", 10, 10), ONE):
        assert not settling.mistakable(request, 1.0)


def test_one_register_is_asked_longer_within_the_address_range() -> None:
    last = read_request(3, "holding", 65_535, 1)
    asked = unsettled(last).distinct(last, 1.0)
    assert asked is not None
    assert (asked.address, asked.count) == (65_534, 2)


def test_where_only_named_registers_may_be_read_no_more_are_asked() -> None:
    assert unsettled(ONE).distinct(ONE, 1.0, wider=False) is None
    shorter = unsettled(TEN).distinct(TEN, 1.0, wider=False)
    assert shorter is not None
    assert shorter.count == 9


def test_bits_are_told_apart_by_their_bytes() -> None:
    coil = read_request(3, "coil", 10, 3)
    asked = unsettled(coil).distinct(coil, 1.0)
    assert asked is not None
    assert asked.answer_head != coil.answer_head


def test_a_write_is_not_varied() -> None:
    write = write_register(3, 1, 2)
    assert unsettled(write).distinct(write, 1.0) is None
    assert unsettled(write).distinct(write_register(3, 1, 3), 1.0) is not None


def test_an_unmistakable_answer_clears_all_before_it() -> None:
    settling = unsettled(TEN, ONE)
    settling.answered(read_request(3, "holding", 10, 9))
    assert settling.distinct(TEN, 1.0) is TEN


def test_an_exception_may_have_been_meant_for_the_oldest() -> None:
    settling = unsettled(TEN)
    nine = read_request(3, "holding", 10, 9)
    settling.answered(nine, refused=True)
    assert not settling.mistakable(TEN, 1.0)
    assert settling.mistakable(nine, 1.0)


def test_patience_ends() -> None:
    settling = unsettled(TEN)
    assert settling.mistakable(TEN, 4.9)
    assert not settling.mistakable(TEN, 5.1)


def test_a_new_connection_forgets() -> None:
    settling = unsettled(TEN)
    settling.forget()
    assert not settling.mistakable(TEN, 0.1)
