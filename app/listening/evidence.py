"""What a line showed while it was asked and listened to, counted, at one setting: what trouble is judged by."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from app.listening.settings import SINGLE_RUNS
from app.modbus.crc import crc, crc_fits
from app.modbus.serial_port import LineSettings

_ASCII: Final = frozenset(b":0123456789ABCDEF\r\n")
_LOOKED_INTO: Final = 50
"""How many garbled answers are looked into; later ones are only counted."""

ProbeOutcome = Literal["answer", "exception", "garbled", "silence"]


@dataclass(frozen=True, slots=True)
class UnitEvidence:
    """Of one unit: how many of its answers were sound, garbled, doubled; how often it was silent."""

    answers: int = 0
    garbled: int = 0
    doubled: int = 0
    silences: int = 0

    @property
    def garbled_share(self) -> float:
        """Of what came from it, 0..1."""
        return self.garbled / max(1, self.answers + self.garbled)


@dataclass(frozen=True, slots=True)
class LineEvidence:
    """All counts are since the beginning. Errors of characters are None where the port cannot tell them."""

    settings: LineSettings | None = None
    requests: int = 0
    echoes: int = 0
    """Requests of ours that came back in front of whatever else came."""
    characters: int = 0
    """Received in all, echoes not counted."""
    frames: int = 0
    """With a good CRC, of whomever."""
    runs: int = 0
    """Characters outside of good frames with only zeros, or a single run of ones."""
    ascii: int = 0
    """Characters outside of good frames that frames in ASCII mode consist of, their eighth bit left aside."""
    stray: int = 0
    """Characters outside of good frames."""
    idle_s: float = 0.0
    """How long was listened without sending, in seconds."""
    idle_stray: int = 0
    """Characters that belong to no frame, received meanwhile."""
    one_bit: int = 0
    """Garbled answers that are sound with one bit turned over."""
    headless: int = 0
    """Garbled answers that are sound with their first byte put in front."""
    looked_into: int = 0
    """Garbled answers of which these two were tried."""
    parity_errors: int | None = None
    framing_errors: int | None = None
    overruns: int | None = None
    breaks: int | None = None
    units: Mapping[int, UnitEvidence] = field(default_factory=dict)

    @property
    def answers(self) -> int:
        """Sound answers to requests of ours."""
        return sum(unit.answers for unit in self.units.values())

    @property
    def garbled(self) -> int:
        """Garbled answers to requests of ours."""
        return sum(unit.garbled for unit in self.units.values())

    def share(self, errors: int | None) -> float | None:
        """Errors a character; None if they are not known or too few characters came to say."""
        return None if errors is None or self.characters < FEW else errors / self.characters


FEW: Final = 20
"""Characters below which a rate says nothing."""


class EvidenceGatherer:
    """Counts what comes of requests and of listening, at one setting."""

    def __init__(self, settings: LineSettings | None = None) -> None:
        self._settings = settings
        self._counts: Counter[str] = Counter()
        self._errors: dict[str, int] = {}
        self._idle_s = 0.0
        self._units: dict[int, Counter[str]] = {}

    def asked(
        self,
        unit: int,
        outcome: ProbeOutcome,
        received: bytes,
        *,
        echo: bytes = b"",
        doubled: bool = False,
        **errors: int | None,
    ) -> None:
        """One request and what came of it. `received` is all that came; `echo` our own request, if that came first;
        `errors` are parity_errors, framing_errors, overruns and breaks."""
        self._counts["requests"] += 1
        self._counts["echoes"] += bool(echo)
        came = received.removeprefix(echo)
        self._counts["characters"] += len(came)
        its = self._units.setdefault(unit, Counter())
        if outcome == "silence":
            its["silences"] += 1
        elif outcome == "garbled":
            its["garbled"] += 1
            self._stray(came)
            self._look_into(unit, came)
        else:
            its["answers"] += 1
            self._counts["frames"] += 1
        its["doubled"] += doubled
        self._add(errors)

    def listened(self, seconds: float, data: bytes, frames: int, stray: int, **errors: int | None) -> None:
        """So long nothing was sent; `frames` with a good CRC stood in `data`, and `stray` characters in none."""
        self._idle_s += seconds
        self._counts["characters"] += len(data)
        self._counts["frames"] += frames
        self._counts["idle_stray"] += stray
        if not frames:
            self._stray(data)
        else:
            self._counts["stray"] += stray
        self._add(errors)

    def _add(self, errors: Mapping[str, int | None]) -> None:
        for name, count in errors.items():
            if count is not None:
                self._errors[name] = self._errors.get(name, 0) + count

    def _stray(self, data: bytes) -> None:
        self._counts["stray"] += len(data)
        self._counts["runs"] += sum(byte in SINGLE_RUNS for byte in data)
        self._counts["ascii"] += sum(byte & 0x7F in _ASCII for byte in data)

    def _look_into(self, unit: int, frame: bytes) -> None:
        if self._counts["looked_into"] >= _LOOKED_INTO or len(frame) < 4:
            return
        self._counts["looked_into"] += 1
        self._counts["headless"] += crc_fits(bytes((unit,)) + frame)
        self._counts["one_bit"] += _one_bit_off(frame)

    def evidence(self) -> LineEvidence:
        """All that was counted until now."""
        units = {unit: UnitEvidence(**counts) for unit, counts in sorted(self._units.items())}
        return LineEvidence(self._settings, idle_s=self._idle_s, units=units, **self._counts, **self._errors)


def _one_bit_off(frame: bytes) -> bool:
    """Whether some single bit turned over makes the CRC fit.

    The remainder of the frame is then that of this bit alone, and CRCs of equally long frames differ by just that.
    """
    wrong = crc(frame)
    rest = bytes(len(frame))
    zero = crc(rest)
    return any(
        crc(rest[:at] + bytes((1 << bit,)) + rest[at + 1 :]) ^ zero == wrong
        for at in range(len(frame))
        for bit in range(8)
    )
