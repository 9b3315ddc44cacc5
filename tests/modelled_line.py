"""A line with a clock of its own and a hidden device on it: what each end makes of the other's bits is worked out."""

from __future__ import annotations

import struct
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from app.probing import requests
from app.probing.probe import LineSettings, Overheard, Probe, ProbeResult
from tests.serial_port import received
from tests.staged_follower import crc

USUAL: Final = LineSettings(19_200, "even", 1)


@dataclass
class HiddenDevice:
    """Answers 03 and 04 from `holding` and `inputs`; whoever asks for anything else is refused. Seconds."""

    unit: int = 1
    settings: LineSettings = USUAL
    holding: Mapping[int, int] = field(default_factory=lambda: {address: address for address in range(10)})
    inputs: Mapping[int, int] = field(default_factory=dict)
    answers_after_s: float = 0.02
    longest: int = 125
    functions: frozenset[int] = frozenset((3, 4))
    every_unit: bool = False
    own: Callable[[bytes], bytes | None] | None = None
    """A PDU to a PDU; None for silence. In place of all the above."""
    asked: list[bytes] = field(default_factory=list)

    def answer(self, pdu: bytes) -> bytes | None:
        """What it says to a request, without unit and CRC."""
        self.asked.append(pdu)
        if self.own is not None:
            return self.own(pdu)
        function = pdu[0]
        if function not in self.functions or function not in (3, 4):
            return bytes((function | 0x80, 1))
        first, count = struct.unpack(">HH", pdu[1:5])
        if not 1 <= count <= self.longest:
            return bytes((function | 0x80, 3))
        bank = self.holding if function == 3 else self.inputs
        words = [bank.get(first + place) for place in range(count)]
        if None in words:
            return bytes((function | 0x80, 2))
        return struct.pack(f">BB{count}H", function, 2 * count, *(word or 0 for word in words))


class ModelledLine:
    """See app.probing.probe.ProbedLine. Time passes only by what is done on it."""

    def __init__(
        self,
        devices: Iterable[HiddenDevice],
        framing: Literal["rtu", "tcp"] = "rtu",
        speaks: Callable[[LineSettings, float], bytes] | None = None,
    ) -> None:
        """`speaks`: what another master's talk comes out as at some settings, in so many seconds."""
        self.devices = list(devices)
        self.framing: Literal["rtu", "tcp"] = framing
        self.serial = framing == "rtu"
        self.settings = LineSettings(19_200, "even", 1)
        self.clock = 0.0
        self.sent: Counter[int] = Counter()
        self.tuned = 0
        self._speaks = speaks

    def now(self) -> float:
        return self.clock

    def tune(self, settings: LineSettings) -> None:
        if settings != self.settings:
            self.tuned += 1
            self.clock += 0.03
        self.settings = settings

    def listen(self, seconds: float) -> Overheard:
        data = self._speaks(self.settings, seconds) if self._speaks else b""
        self.clock += seconds
        return Overheard(self.settings, seconds, [(seconds, data)] if data else [])

    def ask(self, probe: Probe, timeout_s: float) -> ProbeResult:
        assert requests.may_be_sent(probe)
        self.sent[probe.function] += 1
        begin = self.clock
        character_s = self.settings.character_s if self.serial else 0.0
        frame = bytes((probe.unit,)) + probe.pdu
        frame += crc(frame)
        self.clock += len(frame) * character_s
        for device in self.devices:
            heard = self._carried(frame, self.settings, device.settings)
            if heard[-2:] != crc(heard[:-2]) or not (heard[0] == device.unit or device.every_unit):
                continue
            pdu = device.answer(heard[1:-2])
            if pdu is None or device.answers_after_s > timeout_s:
                break
            body = heard[:1] + pdu
            back = self._carried(body + crc(body), device.settings, self.settings)
            self.clock += device.answers_after_s + len(back) * character_s
            found = requests.answers_in(probe, back)[0]
            took = self.clock - begin
            if not found:
                return ProbeResult(probe, "garbled", b"", back, device.answers_after_s, took)
            kind: Literal["answer", "exception"] = "exception" if found[0][0] & 0x80 else "answer"
            return ProbeResult(probe, kind, found[0], back, device.answers_after_s, took)
        self.clock = max(self.clock, begin + len(frame) * character_s + timeout_s)
        return ProbeResult(probe, "silence", took_s=self.clock - begin)

    def ask_both(self, probes: tuple[Probe, Probe], timeout_s: float) -> list[ProbeResult]:
        assert self.framing == "tcp"
        return [self.ask(probe, timeout_s) for probe in probes]

    patience_s = 0.0

    def late_answers(self, wait_s: float) -> list[ProbeResult]:
        return []

    def _carried(self, data: bytes, sender: LineSettings, receiver: LineSettings) -> bytes:
        """What arrives. A device that has parity looks at it; one without takes what its stop bit allows."""
        if not self.serial or sender == receiver or (sender.baud, sender.parity) == (receiver.baud, receiver.parity):
            return data
        if sender.baud == receiver.baud and "none" not in (sender.parity, receiver.parity):
            return b""  # every second character at least has the wrong parity bit
        return received(data, (sender.baud, sender.parity), (receiver.baud, receiver.parity))
