"""Frames, request and answer pairs and the map of their registers from the bytes of others, without their timing.

Adapters hand bytes on in lumps, so silence between frames is no help: the CRC says where a frame is, and that an answer
follows its request says which of two shapes it has. A CRC fits by chance in noise, about nine times a megabyte, so
nothing is believed until it came twice.
"""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Iterable
from typing import Final

from app.listening.frames import (
    FOR_EVERYBODY,
    MORE,
    NONE,
    SHORTEST_REQUEST,
    LengthRule,
    MasterRequest,
    answer_length,
    request_length,
    values,
)
from app.listening.heard import Heard, HeardRequest, HeardUnit, HeardValues
from app.modbus.crc import crc_fits
from app.modbus.serial_port import LineSettings
from app.signals.numbering import Table

SURE: Final = 2
"""How often something has to be heard before it is believed."""
MOST_SAMPLES: Final = 4096
"""Changes that are kept of one request."""
STRAY_BETWEEN: Final = 3
"""Characters that may stand between a request and its answer: a driver that is switched on makes one or two. More of
them may be a damaged answer and a damaged request, after which the next answer is that to another request."""
PAUSE_S: Final = 0.5
"""After such a pause nothing that had begun goes on: adapters hand on what they have after 16 ms (common practice, no
source)."""
LONGEST_ANSWER_S: Final = 3.0
"""An answer that comes later is not believed to be that to the request before it."""


class _Heard:
    """All that was heard of one request."""

    __slots__ = ("answered", "asked", "changes", "last_s", "payload", "refused")

    def __init__(self) -> None:
        self.asked = 0
        self.answered = 0
        self.refused: Counter[int] = Counter()
        self.changes: deque[tuple[float, bytes]] = deque(maxlen=MOST_SAMPLES)
        self.payload: bytes | None = None
        self.last_s = 0.0

    def hold(self, payload: bytes, at_s: float) -> None:
        self.answered += 1
        self.last_s = at_s
        if payload and payload != self.payload:
            self.payload = payload
            self.changes.append((at_s, payload))


_Key = tuple[int, int, bool, Table, int, int]
"""Unit, function, whether it writes, table, first address, count."""


class Listener:
    """Is fed what comes from a line, says what is understood of it so far. Sends nothing; keeps a bounded amount."""

    def __init__(self) -> None:
        self._data = b""
        self._pieces: deque[tuple[int, float]] = deque()
        """Where each piece ends in all that came, and when it came."""
        self._gone = 0
        """Characters before those that are kept."""
        self._asked: MasterRequest | None = None
        self._stray_since = 0
        self._requests: dict[_Key, _Heard] = {}
        self._functions: Counter[tuple[int, int]] = Counter()
        self._last_s = 0.0
        self.frames = 0
        self.pairs = 0
        self.stray = 0

    def feed(self, data: bytes, at_s: float) -> None:
        """More came, at so many seconds since the beginning (they never decrease)."""
        if self._data and at_s - self._last_s > PAUSE_S:
            self._read(wait=False)
        self._last_s = at_s
        self._data += data
        self._pieces.append((self._gone + len(self._data), at_s))
        self._read(wait=True)

    def _read(self, *, wait: bool) -> None:
        data, end = self._data, len(self._data)
        at = 0
        while end - at >= SHORTEST_REQUEST:
            length = self._frame(data, at, end - at)
            if length == MORE and wait:
                break
            if length > 0:
                at += length
            else:
                self.stray += 1
                self._stray_since += 1
                at += 1
        if not wait:
            self.stray += end - at
            self._stray_since += end - at
            at = end
        self._data = data[at:]
        self._gone += at
        while self._pieces and self._pieces[0][0] <= self._gone:
            self._pieces.popleft()

    def _time(self, end: int) -> float:
        """When the character before `end` came."""
        end += self._gone
        while len(self._pieces) > 1 and self._pieces[0][0] < end:
            self._pieces.popleft()
        return self._pieces[0][1]

    def _frame(self, data: bytes, at: int, left: int) -> int:
        """The length of the frame at `at`, which is then counted; MORE if one may have begun; NONE."""
        unit, function = data[at], data[at + 1]
        if unit > 247 or not function & 0x7F:
            return NONE
        asked = self._asked
        answer_next = asked is not None and (unit, function & 0x7F) == (asked.unit, asked.function)
        rules: tuple[tuple[LengthRule, bool], ...] = ((request_length, False), (answer_length, True))
        more = False
        for rule, answers in reversed(rules) if answer_next else rules:
            if not unit and (answers or function not in FOR_EVERYBODY):
                continue
            length = rule(data, at, left)
            if length == MORE or length > left:
                more = True
            elif length > 0:
                frame = data[at : at + length]
                if crc_fits(frame) and not (answers and answer_next and not self._may_answer(frame)):
                    self._take(frame, self._time(at + length), answers=answers)
                    return length
        return MORE if more else NONE

    def _may_answer(self, frame: bytes) -> bool:
        """Not so if it has the shape of a request too, and does not fit the one that is waiting for its answer."""
        return self._asked is None or self._asked.answered_by(frame) or request_length(frame, 0, len(frame)) < 0

    def _take(self, frame: bytes, at_s: float, *, answers: bool) -> None:
        self.frames += 1
        asked, stray = self._asked, self._stray_since
        self._stray_since = 0
        if not answers:
            self._asked = MasterRequest(frame, at_s)
            for _, heard in self._of(self._asked):
                heard.asked += 1
                if not frame[0]:
                    heard.hold(self._asked.carried, at_s)
                    heard.answered = 0
            return
        self._asked = None
        near = asked is not None and stray <= STRAY_BETWEEN and at_s - asked.time_s <= LONGEST_ANSWER_S
        if asked is None or not near or not asked.answered_by(frame):
            return
        self.pairs += 1
        self._functions[asked.unit, asked.function] += 1
        for writes, heard in self._of(asked):
            if frame[1] & 0x80:
                heard.refused[frame[2]] += 1
            else:
                heard.hold(asked.carried if writes else frame[3:-2], at_s)

    def _of(self, asked: MasterRequest) -> Iterable[tuple[bool, _Heard]]:
        """What is known of a request: of its registers read, and of those written."""
        for writes, part in ((False, asked.read), (True, asked.written)):
            if part is not None:
                key = (asked.unit, asked.function, writes, *part)
                heard = self._requests.get(key)
                if heard is None:
                    heard = self._requests[key] = _Heard()
                yield writes, heard

    def heard(self, settings: LineSettings | None, seconds: float) -> Heard:
        """What is understood so far, after so many seconds of listening."""
        sure = {unit for (unit, _), count in self._functions.items() if count >= SURE}
        units: dict[int, list[HeardRequest]] = {}
        for key, heard in sorted(self._requests.items()):
            unit, function, writes, table, first, count = key
            proved = heard.answered + heard.refused.total()
            # A write is often done once; its echo confirms it at a unit that is known already.
            if max(proved, heard.asked) >= SURE or (writes and proved and unit in sure):
                samples = tuple(HeardValues(at, values(function, count, payload)) for at, payload in heard.changes)
                units.setdefault(unit, []).append(
                    HeardRequest(
                        function,
                        table,
                        first,
                        count,
                        writes,
                        heard.asked,
                        heard.answered,
                        dict(heard.refused),
                        heard.last_s,
                        samples if proved >= SURE or writes else (),
                    )
                )
        return Heard(
            settings,
            seconds,
            self._gone + len(self._data),
            self.frames,
            self.pairs,
            self.stray,
            tuple(self._unit(unit, requests) for unit, requests in sorted(units.items())),
        )

    def _unit(self, unit: int, requests: list[HeardRequest]) -> HeardUnit:
        functions = {request.function for request in requests}
        functions |= {function for (one, function), count in self._functions.items() if one == unit and count >= SURE}
        requests.sort(key=lambda one: (one.table, one.first, one.count, one.writes))
        return HeardUnit(unit, tuple(sorted(functions)), tuple(requests))
