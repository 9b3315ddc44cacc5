"""Which read goes next: what is shown first, and nobody starves."""

from __future__ import annotations

from dataclasses import dataclass

from app.planning.schedule import SHOWN_IN_A_ROW, Schedule


@dataclass(frozen=True)
class Read:
    signals: tuple[str, ...]
    every_s: float = 1.0


A, B, C = Read(("a",)), Read(("b", "more")), Read(("c",))


def schedule(*reads: Read, at: float = 0.0) -> Schedule[Read]:
    made: Schedule[Read] = Schedule()
    for read in reads:
        made.put(read, at)
    return made


def order(made: Schedule[Read], now: float) -> list[Read]:
    taken = []
    while (entry := made.take(now)) is not None:
        taken.append(entry[1])
    return taken


def test_what_is_due_first_goes_first_and_what_is_not_due_waits() -> None:
    made: Schedule[Read] = Schedule()
    made.put(A, 3.0)
    made.put(B, 1.0)
    made.put(C, 9.0)
    assert made.next_due == 1.0
    assert order(made, 5.0) == [B, A]
    assert made.next_due == 9.0
    made.clear()
    assert made.next_due is None


def test_what_is_shown_goes_first() -> None:
    made = schedule(A, B, C)
    made.show(["more"], 0.0)
    assert order(made, 1.0) == [B, A, C]


def test_the_others_are_not_starved_by_what_is_shown() -> None:
    made = schedule(A, B)
    made.show(["b"], 0.0)
    taken = []
    for _ in range(40):  # a line that can never do all: the shown read is due again at once
        entry = made.take(10.0)
        assert entry is not None
        taken.append(entry[1])
        made.put(entry[1], entry[0] + 0.001)
    assert taken.count(A) == 40 // (SHOWN_IN_A_ROW + 1)


def test_what_comes_on_the_screen_is_read_at_once_unless_it_is_fresh() -> None:
    slow, fresh = Read(("slow",), 60.0), Read(("fresh",), 60.0)
    made: Schedule[Read] = Schedule()
    made.put(slow, 130.0)  # read at 70
    made.put(fresh, 159.9)  # read at 99.9
    made.show(["slow", "fresh"], 100.0)
    assert made.take(100.0) == (100.0, slow)
    assert made.take(100.0) is None
    made.put(slow, 160.0)
    made.show(["slow", "fresh"], 110.0)
    assert made.take(110.0) is None
