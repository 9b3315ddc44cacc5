"""Samples of one signal as arrays: packed into blocks, taken out again, and turned into engineering values."""

from __future__ import annotations

import itertools
import zlib
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from app.language import translate
from app.project.binding import Binding
from app.recording.gathering import Gathering
from app.recording.tables import GOOD, QUALITIES
from app.signals.scaling import STRAIGHT_THROUGH

LONGEST_STEP: Final = 2**32 - 1
"""Microseconds between two samples of one block: over an hour."""

LEAST_GAP: Final = 2_000_000
GAP_STEPS: Final = 20
"""A step of at least so many microseconds, and so many times as long as most, is a gap."""

_PACKED_LEVEL: Final = 1
"""Of zlib. Higher levels save little on counts that hardly change and take several times as long."""

_NUMBERS: Final = {
    "uint16": ">u2",
    "int16": ">i2",
    "uint32": ">u4",
    "int32": ">i4",
    "uint64": ">u8",
    "int64": ">i8",
    "float32": ">f4",
    "float64": ">f8",
}


@dataclass(frozen=True, slots=True)
class Samples:
    """Samples in the order of their times: microseconds since the recording began, qualities by number, registers.

    `words` has a row for each sample, of zeros where nothing was read.
    """

    times: NDArray[np.int64]
    qualities: NDArray[np.uint8]
    words: NDArray[np.uint16]

    def __len__(self) -> int:
        return len(self.times)

    @classmethod
    def none(cls, width: int) -> Samples:
        """No samples, of signals of `width` registers."""
        return cls(np.empty(0, np.int64), np.empty(0, np.uint8), np.empty((0, width), np.uint16))

    @classmethod
    def of(cls, gathered: Gathering) -> Samples:
        """What was gathered: the same memory. While this is there, no more can be added to it."""
        return cls(
            np.frombuffer(gathered.times, np.int64),
            np.frombuffer(gathered.qualities, np.uint8),
            np.frombuffer(gathered.words, np.uint16).reshape(-1, gathered.width),
        )

    @classmethod
    def joined(cls, parts: list[Samples], width: int) -> Samples:
        """All of these, one behind the other."""
        if not parts:
            return cls.none(width)
        if len(parts) == 1:
            return parts[0]
        return cls(
            np.concatenate([part.times for part in parts]),
            np.concatenate([part.qualities for part in parts]),
            np.concatenate([part.words for part in parts]),
        )

    def part(self, which: slice | NDArray[np.bool_] | NDArray[np.intp]) -> Samples:
        """Some of them."""
        return Samples(self.times[which], self.qualities[which], self.words[which])

    def runs(self) -> list[Samples]:
        """The same in parts that fit a block: without gaps, so that no block hides one, and without steps backwards."""
        steps = np.diff(self.times)
        gap = max(LEAST_GAP, GAP_STEPS * float(np.median(steps))) if len(steps) else LEAST_GAP
        cuts = np.flatnonzero((steps > min(gap, LONGEST_STEP)) | (steps < 0)) + 1
        edges = [0, *cuts.tolist(), len(self)]
        return [self.part(slice(begin, end)) for begin, end in itertools.pairwise(edges) if end > begin]


def pack(samples: Samples, *, compress: bool) -> bytes:
    """The `data` of a block. `samples` must be one of `Samples.runs`."""
    steps = np.diff(samples.times, prepend=samples.times[:1]).astype("<u4")
    data = steps.tobytes() + samples.qualities.tobytes() + samples.words.astype("<u2").tobytes()
    return zlib.compress(data, _PACKED_LEVEL) if compress else data


def unpack(data: object, first: int, count: int, width: int, *, packed: bool) -> Samples:
    """What `pack` made `data` of. Raises ValueError if it is damaged."""
    due = count * (5 + 2 * width)
    if not isinstance(data, bytes):
        raise ValueError(translate("record", "a block of samples is empty"))
    try:
        plain = _inflate(data, due) if packed else data
    except zlib.error as why:
        raise ValueError(translate("record", "a block of samples cannot be read: {why}").format(why=why)) from None
    if len(plain) != due:
        why_not = translate("record", "a block of {count} samples has {found} bytes instead of {due}")
        raise ValueError(why_not.format(count=count, found=len(plain), due=due))
    steps = np.frombuffer(plain, "<u4", count)
    qualities = np.frombuffer(plain, np.uint8, count, 4 * count)
    if qualities.max() >= len(QUALITIES):
        raise ValueError(translate("record", "a block of samples contains an unknown quality code"))
    words = np.frombuffer(plain, "<u2", count * width, 5 * count).reshape(count, width)
    times = np.cumsum(steps, dtype=np.int64)
    times += first
    return Samples(times, qualities, words.astype(np.uint16, copy=False))


def _inflate(data: bytes, due: int) -> bytes:
    """What was compressed, hardly more of it than is due: a damaged block must not fill the memory."""
    inflater = zlib.decompressobj()
    plain = inflater.decompress(data, due + 1)
    if len(plain) <= due and not inflater.eof:
        raise zlib.error("incomplete or truncated stream")
    return plain


def values(binding: Binding, samples: Samples) -> NDArray[np.float64]:
    """Engineering values as floating-point numbers; not-a-number where a sample is not good, and for texts.

    As `binding.decode` has them, but for the rounding of binary floating point.
    """
    found = np.full(len(samples), np.nan)
    if binding.base.encoding == "string" and not binding.single:
        return found
    good = samples.qualities == GOOD
    words = samples.words if good.all() else samples.words[good]
    if len(words):
        found[good] = _values(binding, words)
    return found


def _values(binding: Binding, words: NDArray[np.uint16]) -> NDArray[np.float64]:
    if binding.single:
        on_or_off: NDArray[np.float64] = (words[:, 0] != 0).astype(np.float64)
        return on_or_off
    if binding.follower.byte_order == "low-first":
        words = words.byteswap()
    if binding.word_order == "low-first":
        words = words[:, ::-1]
    encoding = binding.base.encoding
    if encoding in ("bcd16", "bcd32"):
        raw: NDArray[np.float64] = _bcd(words)
    else:
        numbers: NDArray[Any] = np.frombuffer(np.ascontiguousarray(words, ">u2").tobytes(), _NUMBERS[encoding])
        if binding.bit is not None:
            on: NDArray[Any] = numbers.astype(np.uint64) >> np.uint64(binding.bit) & np.uint64(1)
            return on.astype(np.float64)
        raw = numbers.astype(np.float64)
    scale = binding.scale
    if scale is STRAIGHT_THROUGH:
        return raw
    return (raw - float(scale.raw0)) * float(scale.slope) + float(scale.value0)


def _bcd(words: NDArray[np.uint16]) -> NDArray[np.float64]:
    total = np.zeros(len(words))
    for column in range(words.shape[1]):
        for shift in (12, 8, 4, 0):
            total = total * 10 + (words[:, column] >> shift & 0xF)
    return total
