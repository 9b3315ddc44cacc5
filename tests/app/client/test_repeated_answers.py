"""Answers that come twice: when an answer is proved to be its own, and what a second one says."""

from __future__ import annotations

from math import inf

from hypothesis import given, settings, strategies as st

from app.client.repeated_answers import CAREFUL_S, HOLD_S, KNOWN_AFTER, REPEATED_WITHIN_S, Chain, Repeats
from app.modbus.requests import Request, read_request, write_register, write_registers

A, B, C = (read_request(3, "holding", address, 1) for address in (10, 20, 30))
TWO = read_request(3, "holding", 40, 2)


def answer(request: Request, value: int) -> bytes:
    return request.answer_head + value.to_bytes(request.answer_length - 2, "big")


class Line:
    """Asks and takes answers at given times; each is due 5 ms after it came."""

    def __init__(self) -> None:
        self.repeats = Repeats()
        self.let_out: list[str] = []

    def asked(self, request: Request, pdu: bytes, at: float, name: str) -> None:
        self.repeats.note_request(request)
        self.repeats.note_answer(request, pdu, at, at + 0.005)
        chain = self.repeats.chain(request, pdu)
        assert chain is not None
        chain.waiting.append(lambda: self.let_out.append(name))


def test_an_answer_is_let_out_when_its_own_would_have_come() -> None:
    line = Line()
    line.asked(A, answer(A, 1), 1.0, "a")
    line.repeats.prove(1.004)
    assert line.let_out == []
    assert line.repeats.next_due == 1.005
    line.repeats.prove(1.005)
    assert line.let_out == ["a"]
    assert line.repeats.next_due == inf


def test_an_answer_is_proved_while_the_next_request_is_outstanding() -> None:
    line = Line()
    line.asked(A, answer(A, 1), 1.0, "a")
    line.repeats.note_request(B)
    line.repeats.prove(1.006)
    assert line.let_out == ["a"]
    line.repeats.note_answer(B, answer(B, 2), 1.1, 1.105)
    chain = line.repeats.chain(B)
    assert chain is not None
    assert (chain.answers, chain.oldest) == (1, 1.1)


def test_the_next_answer_of_its_shape_puts_the_proof_off() -> None:
    line = Line()
    line.asked(A, answer(A, 1), 1.0, "a")
    line.asked(B, answer(B, 2), 1.004, "b")
    line.repeats.note_request(TWO)
    line.repeats.prove(1.006)
    assert line.let_out == []
    line.repeats.prove(1.009)
    assert line.let_out == ["a", "b"]


def test_one_answer_too_many_drops_the_whole_chain_and_no_other() -> None:
    line = Line()
    line.asked(A, answer(A, 1), 1.0, "a")
    line.asked(B, answer(A, 1), 1.01, "the copy of a")
    line.asked(C, answer(B, 2), 1.02, "b for c")
    line.asked(TWO, answer(TWO, 7), 1.021, "two")
    unasked = line.repeats.note_unasked(3, answer(C, 3), 1.022)
    assert unasked is not None
    assert not unasked.differs, "it may be the true answer to the last one"
    line.repeats.prove(2.0)
    assert line.let_out == ["two"]


def test_a_copy_of_the_only_answer_of_its_shape_takes_nothing_away() -> None:
    line = Line()
    line.asked(A, answer(A, 1), 1.0, "a")
    unasked = line.repeats.note_unasked(3, answer(A, 1), 1.003)
    assert unasked is not None
    assert unasked.request is A
    assert unasked.delay_s is not None
    assert round(unasked.delay_s, 6) == 0.003
    line.repeats.prove(2.0)
    assert line.let_out == ["a"]


def test_an_answer_like_that_to_another_request_is_not_taken_for_its_copy() -> None:
    line = Line()
    line.asked(A, answer(A, 0), 1.0, "a")
    line.repeats.prove(1.01)
    line.asked(B, answer(B, 1), 1.01, "b")
    line.repeats.prove(1.02)
    line.asked(C, answer(B, 1), 1.03, "the copy of b")
    line.repeats.note_unasked(3, answer(C, 0), 1.031)
    line.repeats.prove(2.0)
    assert line.let_out == ["a", "b"]


def test_another_answer_to_the_only_request_of_its_shape_is_of_a_second_device() -> None:
    line = Line()
    line.asked(A, answer(A, 1), 1.0, "a")
    line.asked(TWO, answer(TWO, 7), 1.001, "two")
    unasked = line.repeats.note_unasked(3, answer(A, 9), 1.003)
    assert unasked is not None
    assert unasked.differs
    assert line.repeats.differing(3, 1.1)
    line.repeats.prove(2.0)
    assert line.let_out == [], "of neither device anything is believed"
    assert not line.repeats.differing(3, 1.003 + CAREFUL_S)


def test_a_unit_that_never_answered_sends_nothing_unasked() -> None:
    assert Line().repeats.note_unasked(3, answer(A, 1), 1.0) is None


def test_an_answer_that_may_be_late_makes_its_chain_doubtful() -> None:
    line = Line()
    line.asked(A, answer(A, 1), 1.0, "a")
    line.repeats.doubt(3, answer(TWO, 1))
    line.repeats.doubt(3, answer(B, 2))
    line.repeats.prove(2.0)
    assert line.let_out == []


def test_no_shape_is_used_again_while_a_copy_may_come() -> None:
    line = Line()
    line.asked(A, answer(A, 1), 1.0, "a")
    assert line.repeats.taken_heads(3, 1.001) == {}, "nothing of the kind has happened yet"
    line.repeats.note_unasked(3, answer(A, 1), 1.01)
    assert line.repeats.taken_heads(3, 1.02) == {A.answer_head: 1.0 + REPEATED_WITHIN_S}
    for number in range(2, 2 + KNOWN_AFTER):
        line.asked(A, answer(A, number), float(number), "a")
        line.repeats.note_unasked(3, answer(A, number), number + 0.03)
    assert line.repeats.taken_heads(3, number + 0.06) == {A.answer_head: number + 0.07}
    assert line.repeats.taken_heads(3, number + 0.08) == {}
    assert line.repeats.careful(3, number + 0.02 + CAREFUL_S)
    assert not line.repeats.careful(3, number + 0.04 + CAREFUL_S)


def test_a_refusal_belongs_to_the_refusals_of_its_function() -> None:
    line = Line()
    refusal = b"\x83\x02"
    line.asked(A, refusal, 1.0, "a")
    assert line.repeats.times_known(3, refusal, 1.1) == 1
    assert line.repeats.chain(A) is None
    assert line.repeats.chain(A, refusal) is not None


def test_acknowledgements_of_different_writes_are_known_as_the_same() -> None:
    line = Line()
    for value in (1, 2):
        write = write_registers(3, 50, [value])
        line.asked(write, write.answer_head, 1.0, "w")
    assert line.repeats.times_known(3, write.answer_head, 1.1) == 2


def test_one_copy_of_each_acknowledgement_that_repeats_its_request_may_be_due_to_an_echo() -> None:
    line = Line()
    write = write_register(3, 50, 7)
    line.asked(write, write.pdu, 1.0, "w")
    assert not line.repeats.careful(3, 1.01)
    assert line.repeats.perhaps_echo(write.rtu, 1.01)
    assert line.repeats.careful(3, 1.01), "until that is known"
    assert not line.repeats.perhaps_echo(write.rtu, 1.02), "the answer came three times"
    assert line.repeats.echoes() == [(write.rtu, 1.01)]
    assert line.repeats.echoes() == []
    assert not line.repeats.careful(3, 1.02)
    assert not line.repeats.perhaps_echo(write_register(3, 50, 8).rtu, 1.02), "nobody asked for that"
    line.asked(A, answer(A, 1), 1.1, "a")
    assert not line.repeats.perhaps_echo(bytes((3,)) + answer(A, 1) + b"\0\0", 1.11), "the answer to a read is no echo"


def test_a_pause_is_taken_when_it_is_cheap_or_the_chain_is_old() -> None:
    chain = Chain(oldest=1.0, answers=3, due=1.055)
    assert not chain.wants_pause(1.05), "5 ms after 50 ms are too much"
    assert chain.wants_pause(1.0545)
    assert Chain(oldest=1.0, answers=3, due=9.0).wants_pause(1.01 + HOLD_S)


@settings(max_examples=300)
@given(
    st.lists(st.tuples(st.integers(0, 3), st.booleans(), st.floats(0.0005, 0.2)), min_size=1, max_size=40),
    st.floats(0.001, 0.004),
    st.sampled_from([2, 3, 1000]),
)
def test_whatever_comes_twice_no_wrong_value_is_let_out(
    plan: list[tuple[int, bool, float]], takes: float, values: int
) -> None:
    """A unit that answers in order and within 5 ms, on a line that takes the first answer of the right shape.

    Of each request: which of three registers (or of two at once) is read, whether its answer comes twice, and after how
    long. There are so many different `values`.
    """
    line = Line()
    requests = (A, B, C, TWO)
    on_the_way: list[tuple[float, bytes]] = []
    true: dict[str, bytes] = {}
    taken: dict[str, bytes] = {}
    now = 1.0
    for number, (which, twice, delay) in enumerate(plan):
        request, name = requests[which], str(number)
        # The line is silent for 1 ms before a request; what came meanwhile was not asked for.
        now += 0.001
        for at, pdu in [entry for entry in on_the_way if entry[0] <= now]:
            on_the_way.remove((at, pdu))
            line.repeats.note_unasked(3, pdu, at)
        line.repeats.prove(now)
        chain = line.repeats.chain(request)
        if chain is not None and chain.wants_pause(now):
            now = chain.due
            for at, pdu in [entry for entry in on_the_way if entry[0] <= now]:
                on_the_way.remove((at, pdu))
                line.repeats.note_unasked(3, pdu, at)
            line.repeats.prove(now)
        if request.answer_head in line.repeats.taken_heads(3, now):
            continue
        line.repeats.note_request(request)
        true[name] = answer(request, (which + number // 5) % values)
        on_the_way.append((now + takes, true[name]))
        if twice:
            on_the_way.append((now + takes + delay, true[name]))
        on_the_way.sort()
        sent = now
        line.repeats.prove(on_the_way[0][0] - 1e-9)
        while True:
            now, pdu = on_the_way.pop(0)
            if pdu.startswith(request.answer_head):
                break
            line.repeats.note_unasked(3, pdu, now)
        taken[name] = pdu
        line.repeats.note_answer(request, pdu, now, max(sent + 0.005, now + 0.001))
        chain = line.repeats.chain(request)
        assert chain is not None
        chain.waiting.append(lambda name=name: line.let_out.append(name))  # type: ignore[misc]
    for at, pdu in on_the_way:
        line.repeats.prove(at - 1e-9)
        line.repeats.note_unasked(3, pdu, at)
    line.repeats.prove(now + 1)
    assert [name for name in line.let_out if taken[name] != true[name]] == []
