"""Samples as arrays: packed and taken out again, and decoded as the rest of the program decodes them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from app.project.binding import Binding, bindings
from app.project_file.files import parse
from app.recording.samples import LEAST_GAP, Samples, pack, unpack, values
from app.recording.tables import QUALITY_NUMBER
from app.signals.encoding import Implausible
from app.signals.reading import Quality

GOOD = QUALITY_NUMBER[Quality.GOOD]
NUMERIC = ["uint16", "int16", "uint32", "int32", "uint64", "int64", "float32", "float64", "bcd16", "bcd32"]


def bound(encoding: str, word_order: str, byte_order: str, more: str = "") -> Binding:
    text = (
        'format = 2\n[panel]\nstart = "s"\n[[screen]]\nname = "s"\n'
        '[[line]]\nname = "l"\nkind = "tcp"\nhost = "h"\n'
        f'[[follower]]\nname = "f"\nline = "l"\nword_order = "{word_order}"\nbyte_order = "{byte_order}"\n'
        f'[[signal]]\nname = "x"\nfollower = "f"\nregister = 1\nencoding = "{encoding}"\n{more}\n'
    )
    return bindings(parse(text))["x"]


def samples_of(words: Sequence[tuple[int, ...]], quality: int = GOOD) -> Samples:
    count = len(words)
    return Samples(
        np.arange(count, dtype=np.int64),
        np.full(count, quality, np.uint8),
        np.array(words, np.uint16).reshape(count, -1),
    )


@settings(max_examples=200, deadline=None)
@given(
    encoding=st.sampled_from(NUMERIC),
    word_order=st.sampled_from(["high-first", "low-first"]),
    byte_order=st.sampled_from(["high-first", "low-first"]),
    scaled=st.booleans(),
    own=st.sampled_from(["", "high-first", "low-first"]),
    data=st.data(),
)
def test_values_are_what_a_reading_has(
    encoding: str, word_order: str, byte_order: str, scaled: bool, own: str, data: st.DataObject
) -> None:
    scale = "scale = { raw = [3, 1000], value = [-7.5, 50] }" * scaled
    binding = bound(encoding, word_order, byte_order, f"{scale}\n{own and f'word_order = {own!r}'}")
    word = st.integers(0, 0xFFFF)
    rows = data.draw(st.lists(st.tuples(*[word] * binding.count), min_size=1, max_size=8))
    expected: list[float | None] = []
    for row in rows:
        try:
            value = binding.decode(row)[1]
            assert isinstance(value, Fraction)
            expected.append(float(value))
        except Implausible:
            expected.append(None)
    plausible = [row for row, value in zip(rows, expected, strict=True) if value is not None]
    found = values(binding, samples_of(plausible)) if plausible else np.empty(0)
    for value, want in zip(found, [value for value in expected if value is not None], strict=True):
        # A float32 is read as the shortest decimal that means it: 0.1, not 0.100000001490116.
        assert math.isclose(value, want, rel_tol=1e-6 if encoding == "float32" else 1e-12, abs_tol=1e-9)


@pytest.mark.parametrize("bit", [0, 7, 15, 31])
def test_bits_are_taken_out_of_their_words(bit: int) -> None:
    text = (
        'format = 2\n[panel]\nstart = "s"\n[[screen]]\nname = "s"\n'
        '[[line]]\nname = "l"\nkind = "tcp"\nhost = "h"\n[[follower]]\nname = "f"\nline = "l"\n'
        '[[signal]]\nname = "w"\nfollower = "f"\nregister = 1\nencoding = "int32"\n'
        f'[[signal]]\nname = "b"\nbit = {{ of = "w", number = {bit} }}\n'
    )
    binding = bindings(parse(text))["b"]
    rows = [(0x8000, 0x8081), (0, 0), (0xFFFF, 0xFFFF)]
    assert values(binding, samples_of(rows)).tolist() == [float(binding.decode(row)[0]) for row in rows]


def test_what_is_not_good_has_no_value() -> None:
    binding = bound("uint16", "high-first", "high-first")
    samples = samples_of([(1,), (2,), (3,)])
    samples.qualities[1] = QUALITY_NUMBER[Quality.STALE]
    found = values(binding, samples)
    assert found[[0, 2]].tolist() == [1.0, 3.0]
    assert math.isnan(found[1])


@given(
    steps=st.lists(st.integers(0, 2**32 - 1), max_size=30),
    first=st.integers(-(10**6), 10**15),
    width=st.integers(1, 4),
    compress=st.booleans(),
    data=st.data(),
)
def test_a_packed_block_is_itself_again(
    steps: list[int], first: int, width: int, compress: bool, data: st.DataObject
) -> None:
    count = len(steps) + 1
    before = Samples(
        np.cumsum([first, *steps], dtype=np.int64),
        np.array(data.draw(st.lists(st.integers(0, 4), min_size=count, max_size=count)), np.uint8),
        np.array(
            data.draw(st.lists(st.integers(0, 0xFFFF), min_size=count * width, max_size=count * width)), np.uint16
        ).reshape(count, width),
    )
    after = unpack(pack(before, compress=compress), first, count, width, packed=compress)
    assert after.times.tolist() == before.times.tolist()
    assert after.qualities.tolist() == before.qualities.tolist()
    assert after.words.tolist() == before.words.tolist()


@pytest.mark.parametrize("damage", [lambda data: data[:-1], lambda data: b"no zlib", lambda data: data + b"x"])
def test_a_damaged_block_is_told(damage: Any) -> None:
    data = pack(samples_of([(1,), (2,)]), compress=False)
    with pytest.raises(ValueError, match="block"):
        unpack(damage(data), 0, 2, 1, packed=damage(b"") == b"no zlib")


def test_no_block_goes_over_a_gap_or_back_in_time() -> None:
    times = np.array([0, 100_000, 200_000, 200_000 + LEAST_GAP + 1, 2_400_000, 2_300_000], np.int64)
    whole = Samples(times, np.zeros(6, np.uint8), np.arange(6, dtype=np.uint16).reshape(6, 1))
    runs = whole.runs()
    assert [run.words[:, 0].tolist() for run in runs] == [[0, 1, 2], [3, 4], [5]]
    assert Samples.joined(runs, 1).times.tolist() == times.tolist()


def test_a_slow_signal_is_one_run() -> None:
    times = np.arange(10, dtype=np.int64) * 60_000_000
    assert len(Samples(times, np.zeros(10, np.uint8), np.zeros((10, 1), np.uint16)).runs()) == 1
