"""The one client that asks an unknown line. It cannot write, and it gives way to everybody else.

What holds, and why:

- Only what `requests.may_be_sent` knows leaves, which is asked as the last thing: functions that read, to one unit.
- On a serial line nothing is sent before it was listened to for FIRST_LISTEN_S, nor before 3.5 characters of silence.
  Sound frames that nobody asked for are another master's: after SURE that are alike nothing is sent any more. One
  alone may be noise, of which about nine in a megabyte pass for a frame.
- One request is outstanding, but where it is found out whether a device on Modbus TCP takes two. A late answer would
  pass for the next of its kind, so before the same unit is asked again after a silence the line is listened to once
  more: for LATE_S if the unit is one that answers, until LATE_LOOKS have shown that what it does not answer in time it
  does not answer at all. Before other settings are taken the line is only emptied: what comes later is hardly ever a
  frame there, and whoever searches asks again before believing it.
- An adapter may hand our own frames back. The echo of a read is no answer to it, that of 08 is: such an answer proves
  nothing on a line that was not seen to give answers without an echo.
- A second answer to one request comes from a second device at the address, or from whatever repeats frames. The first
  answers of each unit are listened behind for that; once it was seen, all are.
- On Modbus TCP each answer names its request, so all of this is left out there: what comes late is kept for whoever
  asked, and a gateway that was seen to be slow is given its own time. One that closes the connection, and a device that
  does, is connected to again.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Container, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from math import inf
from typing import Final, Literal

from app.client.endpoint import Endpoint
from app.language import mark
from app.modbus.framing import REQUEST, SHORTEST_RTU, mbap_frames, sound_frames
from app.modbus.serial_port import LineSettings
from app.probing import requests
from app.probing.given_up import GivenUp
from app.probing.probe import MOST_UNIT, CannotProbe, Overheard, Probe, ProbeResult, SearchStopped, SomebodyElse
from app.probing.wire import SLICE_S, ProbedWire, wire_to

FIRST_LISTEN_S: Final = 0.5
"""Before the first request at all. A master that polls is heard in that time (common practice, no source)."""
SURE: Final = 2
"""So many frames of one unit, or with one content, are no chance."""
LATE_S: Final = 1.0
"""Within that time a device that sleeps answers (common practice, no source)."""
LATE_LOOKS: Final = 3
RESTLESS_S: Final = 2.0
"""For so long a line that spoke by itself is not trusted to be silent after a few characters' time."""
PATIENCE_S: Final = 0.5
"""How long is waited for silence on a line that somebody fills, before the request is given up unsent."""
BETWEEN_PIECES_S: Final = 0.03
"""The longest pause inside one answer: adapters hand on what they have after 16 ms (common practice, no source)."""
BETWEEN_PIECES_NETWORK_S: Final = 0.06
REPEATED_S: Final = 0.06
"""Within that time a second answer comes, if one does (measured with repeaters: 5 to 30 ms)."""
LISTENED_BEHIND: Final = 2
"""How many first answers of each unit are listened behind."""
MOST_AT_ONCE: Final = 1024
"""More bytes than that are no answer."""
_BYTES_OF_ANY_NUMBER: Final = (1, 2, requests.SERVER_ID)
"""Functions whose answer may carry three bytes, and then is as long as a request."""
SILENT_CHARACTERS: Final = 3.5
LEAST_SILENCE_S: Final = 0.00175
"""V1.02 (from memory): above 19 200 Bd the silence no longer shrinks."""


class ReadingLine:
    """See ProbedLine, which it is. Use it in a `with`; everything from one thread, but `stop` may be set by another.

    `endpoint.timeout_ms` is not looked at: whoever asks says how long. `stopped` is asked at least every 20 ms.
    """

    def __init__(self, endpoint: Endpoint, stopped: Callable[[], bool] = lambda: False) -> None:
        self.endpoint = endpoint
        self.settings: LineSettings | None = None
        if endpoint.kind == "serial":
            self.settings = LineSettings(endpoint.baud, endpoint.parity, endpoint.stop_bits)
        self.sent: Counter[int] = Counter()
        """Requests that left, by function."""
        self.echoes: bool | None = None
        """Whether our own frames come back; None as long as no answer told."""
        self._stopped = stopped
        self._wire: ProbedWire = wire_to(endpoint)
        self._listened = False
        self._others: Counter[int | bytes] = Counter()
        """Frames of others, by unit and by what they say."""
        self._silent: dict[int, Probe] = {}
        """What each unit was asked last, if it was not answered: the answer may still come."""
        self._never_late: Counter[int] = Counter()
        """How often the answer of a unit was waited for in vain for LATE_S."""
        self._asked: set[int] = set()
        self._answered: Counter[int] = Counter()
        """Answers by unit."""
        self._repeats = False
        self._request = b""
        """The last one that left, which may come back."""
        self._disturbed = -inf
        """When something came last that nobody asked for."""
        self._transaction = 0
        self._given_up = GivenUp()
        self._late: list[ProbeResult] = []
        self._rest = b""
        """Of a connection: what has come and is no whole frame yet."""

    def __enter__(self) -> ReadingLine:
        """Raises CannotProbe in words."""
        self._wire.open()
        return self

    def __exit__(self, *_: object) -> None:
        self._wire.close()

    @property
    def serial(self) -> bool:
        """Whether it has settings."""
        return self.endpoint.kind == "serial"

    @property
    def framing(self) -> Literal["rtu", "tcp"]:
        """How frames are told apart."""
        return "rtu" if self.endpoint.rtu else "tcp"

    def now(self) -> float:
        """Seconds on a clock that only goes forward."""
        return time.perf_counter()

    def tune(self, settings: LineSettings) -> None:
        """Take other settings. What is still under way at the former ones is waited for and forgotten."""
        if not self.serial:
            raise ValueError("only a serial port has settings")
        if settings == self.settings:
            return
        if self._silent:
            self._gather(BETWEEN_PIECES_S)
        self._silent.clear()
        self._wire.tune(settings)
        self.settings = settings
        self._gather(0.0)

    def listen(self, seconds: float) -> Overheard:
        """Send nothing for so long, and give back what came, with the time of each piece."""
        begin, before = self.now(), self._wire.errors
        pieces: list[tuple[float, bytes]] = []
        while (left := begin + seconds - self.now()) > 0:
            data = self._receive(left)
            if data:
                self._disturbed = self.now()
                pieces.append((self._disturbed - begin, data))
        self._listened = self._listened or seconds >= FIRST_LISTEN_S
        self._note_others(b"".join(piece for _, piece in pieces))
        errors = self._wire.errors.since(before)
        passed = self.now() - begin
        return Overheard(self.settings, passed, pieces, errors.parity, errors.framing, errors.breaks)

    def ask(self, probe: Probe, timeout_s: float) -> ProbeResult:
        """Send one request, wait for its answer to begin within `timeout_s`. Raises CannotProbe, SomebodyElse,
        SearchStopped, and ValueError for what may not be sent at all."""
        self._look_whether_allowed(probe)
        return self._ask_rtu(probe, timeout_s) if self.endpoint.rtu else self._ask_tcp((probe,), timeout_s)[0]

    def ask_both(self, probes: tuple[Probe, Probe], timeout_s: float) -> Sequence[ProbeResult]:
        """Send two requests in one go and wait for both answers; a connection that is closed at that is opened again.
        Raises what `ask` raises, and ValueError on anything but Modbus TCP."""
        if self.endpoint.rtu:
            raise ValueError("this line carries one request at a time")
        for probe in probes:
            self._look_whether_allowed(probe)
        return self._ask_tcp(probes, timeout_s)

    @property
    def patience_s(self) -> float:
        """See ProbedLine."""
        return self._given_up.patience_s

    def late_answers(self, wait_s: float) -> Sequence[ProbeResult]:
        """See ProbedLine."""
        if self.endpoint.rtu:
            return ()
        end = self.now() + wait_s
        with self._connected():
            while self._given_up and not self._late:
                piece = self._receive_until(max(end, self._given_up.free))
                if not piece:
                    break
                self._rest += piece
                self._take_frames(())
        late, self._late = self._late, []
        return late

    def _look_whether_allowed(self, probe: Probe) -> None:
        least = 1 if self.endpoint.rtu else 0
        if not least <= probe.unit <= (MOST_UNIT if least else 255) or not requests.may_be_sent(probe):
            raise ValueError(f"{probe} may not be sent")

    # RTU

    def _ask_rtu(self, probe: Probe, timeout_s: float) -> ProbeResult:
        if not self._listened:
            self.listen(FIRST_LISTEN_S)
        self._give_way()
        if probe.unit in self._silent:
            self._wait_for_late(self._silent.pop(probe.unit), timeout_s)
        noise = self._wait_for_silence()
        if noise is not None:
            return ProbeResult(probe, "garbled", received=noise, took_s=PATIENCE_S, sent=False)
        self._give_way()
        request = requests.rtu(probe)
        begin, before = self.now(), self._wire.errors
        self._asked.add(probe.unit)
        self._send(probe, frame=request)
        end = begin + len(request) * self._character_s
        data, first = self._receive_answer(probe, request, end, end + timeout_s)
        took = self.now() - begin
        if data and (self._repeats or self._answered[probe.unit] < LISTENED_BEHIND):
            data += self._gather(REPEATED_S)
        waited = None if first is None else max(0.0, first - end)
        errors = self._wire.errors.since(before)
        result = self._judge(probe, request, data, waited, took)
        return replace(result, parity_errors=errors.parity, framing_errors=errors.framing)

    def _receive_answer(self, probe: Probe, request: bytes, end: float, deadline: float) -> tuple[bytes, float | None]:
        """All that came until the answer was whole or nothing came any more; and when the first byte behind an echo
        did."""
        data = b""
        first: float | None = None
        quiet = BETWEEN_PIECES_S if self.serial else BETWEEN_PIECES_NETWORK_S
        while True:
            behind = self._behind_echo(data, request)
            if behind and first is None:
                first = self.now() - len(behind) * self._character_s
            limit = max(deadline, end) if not behind else self.now() + quiet
            if behind and requests.answers_in(probe, behind)[0]:
                return data, first
            piece = self._receive_until(limit)
            if not piece or len(data) > MOST_AT_ONCE:
                return data, first
            data += piece

    def _behind_echo(self, data: bytes, request: bytes) -> bytes:
        """What came, without the echo of the request; of 08 only on a line that is known to echo, as it could be the
        answer."""
        if request[1] == requests.ECHO_QUERY and self.echoes is not True:
            return data
        if data.startswith(request):
            return data[len(request) :]
        return b"" if request.startswith(data) else data

    def _judge(self, probe: Probe, request: bytes, data: bytes, waited: float | None, took: float) -> ProbeResult:
        behind = self._behind_echo(data, request)
        echoed = data.startswith(request) and probe.function != requests.ECHO_QUERY
        answers, _ = requests.answers_in(probe, behind)
        if answers:
            if probe.function == requests.ECHO_QUERY and self.echoes is None:
                # Whether that is the device or the adapter, nobody can say.
                return ProbeResult(probe, "garbled", b"", data, waited, took, echoed=True)
            if probe.function != requests.ECHO_QUERY:
                self.echoes = echoed
            self._answered[probe.unit] += 1
            twice = len(answers) > 1
            self._repeats = self._repeats or twice
            return ProbeResult(probe, _kind(answers[0]), answers[0], data, waited, took, echoed=echoed, twice=twice)
        if echoed and not behind:
            self.echoes = True
        self._silent[probe.unit] = probe
        self._note_others(behind)
        return ProbeResult(probe, "garbled" if behind else "silence", b"", data, waited, took, echoed=echoed)

    def _wait_for_late(self, probe: Probe, timeout_s: float) -> None:
        """Wait for the answer to a request that has had none, until it has come or will not come any more."""
        may_be_late = bool(self._answered[probe.unit]) and self._never_late[probe.unit] < LATE_LOOKS
        end = self.now() + (max(LATE_S, timeout_s) if may_be_late else timeout_s)
        data = b""
        while piece := self._receive_until(end):
            data += piece
            if requests.answers_in(probe, self._behind_echo(data, requests.rtu(probe)))[0]:
                self._never_late[probe.unit] = 0
                self._note_others(data)
                return
            if len(data) > MOST_AT_ONCE:
                break
        self._never_late[probe.unit] += may_be_late
        self._note_others(data)

    def _wait_for_silence(self) -> bytes | None:
        """Wait until nobody has spoken for 3.5 characters; what filled the line, if that takes too long. Where somebody
        spoke of late, adapters' pauses do not pass for silence."""
        heard = b""
        limit = self.now() + PATIENCE_S
        while data := self._receive_until(self.now() + self._silence_s):
            self._disturbed = self.now()
            heard += data
            if self.now() > limit:
                self._note_others(heard)
                return heard
        self._note_others(heard)
        return None

    @property
    def _silence_s(self) -> float:
        silence = max(LEAST_SILENCE_S, SILENT_CHARACTERS * self._character_s)
        return max(silence, BETWEEN_PIECES_S) if self.now() - self._disturbed < RESTLESS_S else silence

    def _note_others(self, data: bytes) -> None:
        """Look for frames of others in what nobody asked for."""
        if self.endpoint.rtu and data:
            for frame in sound_frames(data):
                if frame[0] not in self._asked or (_only_a_request(frame) and frame != self._request):
                    self._others.update((frame[0], frame[1:-2]))

    def _give_way(self) -> None:
        if any(times >= SURE for times in self._others.values()):
            raise SomebodyElse(
                mark(
                    "finding out",
                    "another client is asking devices on this line, so nothing more is sent; disconnect it to search, "
                    "or listen to it",
                )
            )

    @property
    def _character_s(self) -> float:
        return self.settings.character_s if self.settings else 0.0

    # Modbus TCP

    def _ask_tcp(self, probes: Sequence[Probe], timeout_s: float) -> list[ProbeResult]:
        asked: dict[bytes, Probe] = {}
        for probe in probes:
            self._transaction = self._transaction % 0xFFFF + 1
            asked[self._transaction.to_bytes(2, "big")] = probe
        begin = self.now()
        received = b""
        answered: dict[bytes, ProbeResult] = {}
        with self._connected():
            self._send(*probes, frame=b"".join(requests.mbap(probe, int.from_bytes(at)) for at, probe in asked.items()))
            for label, probe in asked.items():
                self._given_up.sent(label, probe, begin)
            while len(answered) < len(asked):
                # What came late has told in the meantime how long it may take.
                piece = self._receive_until(max(begin + timeout_s, self._given_up.free))
                if not piece:
                    break
                self._rest += piece
                ours, now_answered = self._take_frames(asked)
                received += ours
                answered |= now_answered
        received += self._rest
        kind: Literal["garbled", "silence"] = "garbled" if received else "silence"
        nothing = (ProbeResult(probe, kind, b"", received, None, self.now() - begin) for probe in probes)
        return [answered.get(label, none) for label, none in zip(asked, nothing, strict=True)]

    def _take_frames(self, asked: Container[bytes]) -> tuple[bytes, dict[bytes, ProbeResult]]:
        """The frames that have come whole and belong to what is `asked` now, and what is answered by them. Answers to
        former requests are kept."""
        frames, self._rest = mbap_frames(self._rest, final=False)
        answered: dict[bytes, ProbeResult] = {}
        for frame in frames:
            label, unit, pdu = frame[:2], frame[6], frame[7:]
            probe = self._given_up.asked_as(label)
            if probe is None or unit != probe.unit or not requests.is_answer(probe, pdu):
                continue
            code = pdu[1] if _kind(pdu) == "exception" else 0
            took = self._given_up.answered(label, code, label not in asked, self.now())
            result = ProbeResult(probe, _kind(pdu), pdu, frame, took, took)
            if label in asked:
                answered[label] = result
            else:
                self._late.append(result)
        return b"".join(frame for frame in frames if frame[:2] in asked), answered

    @contextmanager
    def _connected(self) -> Iterator[None]:
        """Connect again if the connection is closed: some devices do that instead of answering for a unit that they
        do not have."""
        try:
            yield
        except CannotProbe:
            self._given_up.forget()
            self._rest = b""
            self._wire.open()

    # Bytes

    def _send(self, *probes: Probe, frame: bytes) -> None:
        self._look_whether_stopped()
        self.sent.update(probe.function for probe in probes)
        self._request = frame
        self._wire.send(frame)

    def _receive(self, limit_s: float) -> bytes:
        self._look_whether_stopped()
        return self._wire.receive(min(limit_s, SLICE_S))

    def _receive_until(self, deadline: float) -> bytes:
        while True:
            data = self._receive(max(0.0, deadline - self.now()))
            if data or self.now() >= deadline:
                return data

    def _gather(self, seconds: float) -> bytes:
        """All that comes in so long."""
        end = self.now() + seconds
        data = b""
        while piece := self._receive_until(end):
            data += piece
            if len(data) > MOST_AT_ONCE:
                break
        return data

    def _look_whether_stopped(self) -> None:
        if self._stopped():
            raise SearchStopped


def _kind(pdu: bytes) -> Literal["answer", "exception"]:
    return "exception" if pdu[0] & 0x80 else "answer"


def _only_a_request(frame: bytes) -> bool:
    """Whether a frame has the form of a request and not that of an answer to anything that is ever asked."""
    counted = frame[1] in _BYTES_OF_ANY_NUMBER and frame[2] + SHORTEST_RTU == REQUEST
    return len(frame) == REQUEST and not counted and frame[1] != requests.ECHO_QUERY
