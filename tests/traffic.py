"""What another master and its devices say on an RTU line, byte by byte, with noise and damage if wanted."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field

from app.modbus.crc import crc


def framed(unit: int, pdu: bytes) -> bytes:
    body = bytes((unit,)) + pdu
    return body + crc(body).to_bytes(2, "little")


def words_of(values: Sequence[int]) -> bytes:
    return b"".join(value.to_bytes(2, "big") for value in values)


def ask(unit: int, function: int, first: int, count: int) -> bytes:
    return framed(unit, bytes((function,)) + words_of((first, count)))


def answer(unit: int, function: int, values: Sequence[int]) -> bytes:
    data = words_of(values)
    return framed(unit, bytes((function, len(data))) + data)


def bits_answer(unit: int, function: int, bits: Sequence[int]) -> bytes:
    data = sum(bit << place for place, bit in enumerate(bits)).to_bytes(-(-len(bits) // 8), "little")
    return framed(unit, bytes((function, len(data))) + data)


def write_many(unit: int, first: int, values: Sequence[int]) -> bytes:
    return framed(unit, b"\x10" + words_of((first, len(values))) + bytes((2 * len(values),)) + words_of(values))


@dataclass
class Traffic:
    """Exchanges drawn by chance; `pairs` are those that stay whole."""

    seed: int
    noise: float = 0.02
    """Share of frames in front of which stand 1 to 20 bytes of noise."""
    damage: float = 0.02
    """Share of frames of which one bit is turned over."""
    lost: float = 0.0
    """Share of exchanges whose answer does not come."""
    data: bytearray = field(default_factory=bytearray)
    frames: int = 0
    """Those that are whole."""
    whole_pairs: int = 0
    pairs: set[tuple[bytes, bytes]] = field(default_factory=set)

    def __post_init__(self) -> None:
        self._random = random.Random(self.seed)

    def fill(self, size: int) -> Traffic:
        """Until there are so many bytes."""
        draw = self._random
        polls = [
            (unit, function, draw.randrange(60_000), draw.randint(1, 1000 if function < 3 else 60))
            for unit in (1, 3, 17, 99)
            for function in (1, 2, 3, 3, 4)
        ]
        while len(self.data) < size:
            unit, function, first, count = draw.choice(polls)
            kind = draw.random()
            if kind < 0.05:
                request = framed(unit, b"\x06" + words_of((first, draw.randrange(65_536))))
                reply = request
            elif kind < 0.1:
                request = write_many(unit, first, [draw.randrange(65_536) for _ in range(min(count, 100))])
                reply = framed(unit, request[1:6])
            elif kind < 0.12:
                request = ask(unit, function, first, count)
                reply = framed(unit, bytes((function | 0x80, 2)))
            elif function < 3:
                request = ask(unit, function, first, count)
                reply = bits_answer(unit, function, [draw.randrange(2) for _ in range(count)])
            else:
                request = ask(unit, function, first, count)
                reply = answer(unit, function, [draw.randrange(65_536) for _ in range(count)])
            self._exchange(request, None if draw.random() < self.lost else reply)
        return self

    def _exchange(self, request: bytes, reply: bytes | None) -> None:
        whole = self._put(request)
        if reply is not None and self._put(reply) and whole:
            self.pairs.add((request, reply))
            self.whole_pairs += 1

    def _put(self, frame: bytes) -> bool:
        draw = self._random
        if draw.random() < self.noise:
            self.data += draw.randbytes(draw.randint(1, 20))
        if draw.random() < self.damage:
            bad = bytearray(frame)
            bad[draw.randrange(len(bad))] ^= 1 << draw.randrange(8)
            self.data += bad
            return False
        self.data += frame
        self.frames += 1
        return True
