"""Trouble on order between a simulated follower and its line: seeded, so that a demonstration repeats."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final

from app.language import translate

NOISE_BYTES: Final = 6
"""Bytes of noise at most, before an answer."""
LONGEST_S: Final = 60.0
"""Of a delay or a reboot."""


@dataclass(slots=True)
class Faults:
    """What happens to the answers of one follower. Set from any thread.

    `delay_ms` is how much later than it would each answer comes, give or take `jitter_ms`; the shares, 0 to 1, say how
    many answers are left out (`silence`), come behind noise (`noise`), have a wrong checksum (`bad_crc`; both on lines
    with RTU frames only), or are an exception with the code `exception` instead (`exceptions`).
    """

    delay_ms: float = 0.0
    jitter_ms: float = 0.0
    silence: float = 0.0
    noise: float = 0.0
    bad_crc: float = 0.0
    exceptions: float = 0.0
    exception: int = 4
    seed: int = 0
    clock: Callable[[], float] = time.monotonic
    _chance: random.Random = field(default_factory=lambda: random.Random(0))
    _away_until: float = 0.0

    def reseed(self, seed: int) -> None:
        """Let the same faults come again in the same order."""
        self.seed = seed
        self._chance = random.Random(seed)

    def leave(self, seconds: float) -> None:
        """Be away for so long, as a device that starts anew is (at most `LONGEST_S`)."""
        self._away_until = self.clock() + min(seconds, LONGEST_S)

    @property
    def away(self) -> bool:
        """Whether it starts anew just now."""
        return self.clock() < self._away_until

    @property
    def any(self) -> bool:
        """Whether anything is ordered."""
        return self.away or any(
            (self.delay_ms, self.jitter_ms, self.silence, self.noise, self.bad_crc, self.exceptions)
        )

    def answer(self, pdu: bytes) -> bytes | None:
        """What comes instead of this answer: itself, an exception, or nothing."""
        if self.away or self._hits(self.silence):
            return None
        if self._hits(self.exceptions):
            return bytes((pdu[0] | 0x80, self.exception))
        return pdu

    def wait_s(self) -> float:
        """How long this answer is held back, in seconds."""
        if not self.delay_ms and not self.jitter_ms:
            return 0.0
        ms = self.delay_ms + self._chance.uniform(-self.jitter_ms, self.jitter_ms)
        return min(max(0.0, ms / 1000), LONGEST_S)

    def frame(self, frame: bytes) -> bytes:
        """What stands on a serial line instead of this RTU frame."""
        if self._hits(self.bad_crc):
            frame = frame[:-1] + bytes((frame[-1] ^ 0xFF,))
        if self._hits(self.noise):
            frame = self._chance.randbytes(self._chance.randint(1, NOISE_BYTES)) + frame
        return frame

    def clear(self) -> None:
        """No trouble any more; a reboot that is under way ends."""
        self.delay_ms = self.jitter_ms = self.silence = self.noise = self.bad_crc = self.exceptions = 0.0
        self._away_until = 0.0

    def _hits(self, share: float) -> bool:
        # Chance is asked only where something is ordered, so that what is ordered alone decides the order of faults.
        return share > 0 and self._chance.random() < share


def order_fault(faults: Faults, what: str, value: str) -> bool:
    """Order one kind of trouble by its word; False if there is no such word. Raises ValueError in words.

    `delay` and `jitter` in milliseconds; `silence`, `noise`, `crc` and `exceptions` as a percentage of the answers;
    `exception` the code; `seed` a whole number.
    """
    if what in ("delay", "jitter"):
        setattr(faults, f"{what}_ms", number(value, what, 0, LONGEST_S * 1000))
    elif what in ("silence", "noise", "exceptions"):
        setattr(faults, what, number(value.removesuffix("%"), what, 0, 100) / 100)
    elif what == "crc":
        faults.bad_crc = number(value.removesuffix("%"), what, 0, 100) / 100
    elif what == "exception":
        faults.exception = int(number(value, what, 1, 255))
        if not faults.exceptions:
            faults.exceptions = 1.0
    elif what == "seed":
        faults.reseed(int(number(value, what, 0, 2**31)))
    else:
        return False
    return True


def number(text: str, what: str, least: float, most: float) -> float:
    """A number that is ordered of `what`, from `least` to `most`. Raises ValueError in words."""
    try:
        found = float(text)
    except ValueError:
        found = float("nan")
    if not least <= found <= most:
        raise ValueError(
            translate("follower", "{what} must be a number from {least} to {most}, not '{text}'").format(
                what=what, least=f"{least:g}", most=f"{most:g}", text=text
            )
        )
    return found
