"""How much of another master's traffic is understood amid noise, whether anything false is, and how fast."""

from __future__ import annotations

import time
from collections.abc import Callable

from app.listening.heard import Heard, HeardRequest
from app.listening.listener import Listener
from tests.traffic import Traffic, answer, ask, bits_answer, framed, words_of, write_many

LUMP = 200_000
FOUND = 0.999
FASTEST_LINE = 115_200 / 11
"""Characters a second at 115 200 Bd."""


def said(unit: int, request: HeardRequest, words: tuple[int, ...]) -> tuple[bytes, bytes]:
    """The frames that a value comes from, made anew."""
    if request.function == 6:
        write = framed(unit, b"\x06" + words_of((request.first, *words)))
        return write, write
    if request.function == 16:
        write = write_many(unit, request.first, words)
        return write, framed(unit, write[1:6])
    reply = (bits_answer if request.function < 3 else answer)(unit, request.function, words)
    return ask(unit, request.function, request.first, request.count), reply


def false_values(heard: Heard, since_s: float, truth: set[tuple[bytes, bytes]]) -> int:
    return sum(
        said(unit.unit, request, sample.words) not in truth
        for unit in heard.units
        for request in unit.requests
        for sample in request.samples
        if sample.time_s >= since_s
    )


def test_what_is_understood_amid_noise(measured: bool, record_property: Callable[[str, object], None]) -> None:
    traffic = Traffic(7, noise=0.02, damage=0.02, lost=0.01).fill(10_000_000 if measured else 400_000)
    listener = Listener()
    took = 0.0
    false = 0
    for place, at in enumerate(range(0, len(traffic.data), LUMP)):
        begin = time.perf_counter()
        listener.feed(bytes(traffic.data[at : at + LUMP]), float(place))
        took += time.perf_counter() - begin
        false += false_values(listener.heard(None, place), place, traffic.pairs)
    found = listener.frames / traffic.frames
    times = len(traffic.data) / took / FASTEST_LINE
    pairs = listener.pairs / traffic.whole_pairs
    record_property("found", found)
    print(
        f"\n{found:.4%} of {traffic.frames} whole frames in {len(traffic.data)} bytes, "
        f"{pairs:.3%} of {traffic.whole_pairs} pairs, {false} false values; {times:.0f} times as fast as 115200 Bd"
    )
    assert false == 0
    assert FOUND <= found <= 1.0001
    assert 0.97 <= pairs <= 1  # between those of the rest stood more noise than is allowed
    if measured:
        assert times >= 10
