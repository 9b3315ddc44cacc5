"""What is asked of an unknown line, and what comes back: the words that all searches and the one client share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, Protocol

from app.errors import FanlightError
from app.modbus.serial_port import LineSettings as LineSettings

MOST_UNIT: Final = 247
"""The last unit address (MODBUS over Serial Line V1.02, from memory). Unit 0 is everybody, and is never asked on a
serial line."""

PROBE_TIMEOUT_S: Final = 0.1
"""How long an answer may take to begin, as long as nothing is known of the device."""

NO_PATH, NO_ANSWER = 10, 11
"""Exception codes of gateways (V1.1b3, section 7, from memory): there is no way to the unit, or it did not answer."""


@dataclass(frozen=True, slots=True)
class Probe:
    """One request to one unit. Made by `app.probing.requests` alone, which knows no function that writes."""

    unit: int
    pdu: bytes

    @property
    def function(self) -> int:
        """The function code."""
        return self.pdu[0]


ResultKind = Literal["answer", "exception", "garbled", "silence"]
"""A true answer; an exception (`code` says which); bytes that are neither; nothing."""


@dataclass(frozen=True, slots=True)
class ProbeResult:
    """What came of one probe. Times in seconds.

    `pdu` is the verified answer, exceptions included, else empty. `received` is all that came, as it came: evidence
    also where it proves nothing. `waited_s` is from the end of the request to the first byte, None if none came;
    `took_s` the whole exchange. `parity_errors` and `framing_errors` count characters; None where the port cannot tell.
    """

    probe: Probe
    kind: ResultKind
    pdu: bytes = b""
    received: bytes = b""
    waited_s: float | None = None
    took_s: float = 0.0
    parity_errors: int | None = None
    framing_errors: int | None = None
    echoed: bool = False
    """Our own request came back in front of whatever else came."""
    twice: bool = False
    """The answer came more than once, or a second one to the same request."""
    sent: bool = True
    """False if the line was never quiet enough to send anything: `received` is what filled it."""

    @property
    def code(self) -> int:
        """The exception code; 0 of anything else."""
        return self.pdu[1] if self.kind == "exception" else 0

    @property
    def alive(self) -> bool:
        """Whether somebody is there: a verified answer, exceptions too."""
        return self.kind in ("answer", "exception")

    @property
    def in_vain(self) -> bool:
        """Whether the unit itself said nothing: silence, or a gateway's word that there was none."""
        return self.kind == "silence" or self.code in (NO_PATH, NO_ANSWER)


@dataclass(frozen=True, slots=True)
class Overheard:
    """What was received while nothing was sent, at one setting. `pieces` are (seconds since the beginning, bytes)."""

    settings: LineSettings | None
    seconds: float
    pieces: Sequence[tuple[float, bytes]]
    parity_errors: int | None = None
    framing_errors: int | None = None
    breaks: int | None = None

    @property
    def data(self) -> bytes:
        """All bytes."""
        return b"".join(piece for _, piece in self.pieces)


class CannotProbe(FanlightError):
    """The line cannot be opened or is gone; the message says what happened and what to do."""


class SomebodyElse(FanlightError):
    """Another master was heard, so nothing more is sent."""


class ProbedLine(Protocol):
    """A line that can be asked and listened to, one thing at a time: real, or modelled in a test with its own clock.

    Whoever searches calls it from one thread. Any call may raise `SearchStopped`: somebody wants an end.
    """

    @property
    def serial(self) -> bool:
        """Whether it has settings: a serial port of this computer."""

    @property
    def framing(self) -> Literal["rtu", "tcp"]:
        """How frames are told apart."""

    def now(self) -> float:
        """Seconds on the line's own clock."""

    def tune(self, settings: LineSettings) -> None:
        """From now on so many bits a second and so on; late answers of the former settings are drained. Serial only."""

    def ask(self, probe: Probe, timeout_s: float) -> ProbeResult:
        """Send one request, wait for its answer. Raises CannotProbe, SomebodyElse, SearchStopped."""

    def ask_both(self, probes: tuple[Probe, Probe], timeout_s: float) -> Sequence[ProbeResult]:
        """Send two requests in one go and wait for both answers: on Modbus TCP alone, and only to find out whether that
        can be done. Raises ValueError on any other line, and what `ask` raises."""

    @property
    def patience_s(self) -> float:
        """How long a gateway on Modbus TCP was seen to take for one request; 0 as long as none came late. `ask` waits
        for so long on its own account."""

    def late_answers(self, wait_s: float) -> Sequence[ProbeResult]:
        """Answers to requests that were given up, on Modbus TCP, where each names its request; waited for at most
        `wait_s` if none has come. Empty on any other line. Raises CannotProbe, SearchStopped."""

    def listen(self, seconds: float) -> Overheard:
        """Send nothing, and give back what was heard. Raises CannotProbe, SearchStopped."""


class SearchStopped(FanlightError):
    """Somebody wants the search to end; what was found until then is kept."""
