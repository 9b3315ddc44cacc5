"""Which registers a device has: asked from likely beginnings on, grown from each hit, the edges bisected.

- Of a block of registers nothing is known but whether it can be read whole, so edges are found by halving: about
  2 log2(125) requests for each.
- Behind each edge a few addresses are tried at growing distances, as blocks often have holes.
- Passes over the whole range come later and only if they are wanted: they cost far more than they find.

What devices do, and what is made of it:

- Some answer to every address. That is asked first, at addresses that nobody uses: then registers cannot be told from
  gaps, and it is said.
- Some are silent where others refuse, or a gateway says that they are. Silence is asked again until it is clear that it
  is meant so.
- Some refuse one register of a value of two: where nothing could be read one by one, two are asked for.
- Some return fewer registers at once than the standard allows (exception 03, or silence): the limit is learned.
- Busy (05, 06) and failing (04) ones are asked again.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any, Final, Literal

from app.probing import requests
from app.probing.found import FoundRange
from app.probing.probe import PROBE_TIMEOUT_S, ProbedLine, ProbeResult
from app.signals.numbering import LAST_ADDRESS, Table

Pass = Literal["likely", "tens", "all"]
"""How densely is looked: from likely beginnings on; at every tenth address as well; at every address."""

USUAL_SPAN: Final = range(LAST_ADDRESS + 1)
BEYOND_AN_EDGE: Final = (1, 2, 3, 4, 6, 9, 14, 20, 30, 45, 64, 100)
"""How far behind an edge registers are looked for."""
ROUND: Final = (10, 50, 100, 256, 1000)
ROUNDS: Final = 4
"""And at how many multiples of each of these behind an edge: whoever begins a block at a round number does so again."""
NOBODYS: Final = 5
"""Addresses drawn by chance from the upper half: if all can be read, all can."""
ATTEMPTS: Final = 3
"""How often is asked of a device that is busy, or whose answer was lost."""
SILENCES_MEANT: Final = 4
"""After so many addresses at which it stayed silent whenever it was asked, silence is its way to refuse."""
READ_OF_ALL: Final = 2000
"""Registers that are read of a device that answers to every address."""
SUNSPEC: Final = (0x5375, 0x6E53)
"""`SunS`, with which a map of SunSpec models begins (SunSpec Information Model, from memory)."""
SUNSPEC_BASES: Final = (40_000, 50_000, 0)

_ABSENT, _ADDRESS, _COUNT, _FAILING = 1, 2, 3, 4
_BUSY: Final = (5, 6)
_HIGH: Final = range(20_000, 65_000)


@dataclass(slots=True)
class RegisterState:
    """What is known of one table of one unit; it goes into a file and comes back."""

    words: dict[int, int] = field(default_factory=dict)
    """By wire address: words, or bits as 0 and 1."""
    refused: dict[int, int] = field(default_factory=dict)
    """Addresses that cannot be read, by the exception code; 0 is silence."""
    longest: int = 0
    """The longest read that was answered."""
    too_long: int | None = None
    """The shortest read that was refused for its length."""
    absent: bool = False
    """The device does not have the function."""
    everywhere: bool = False
    """It answers to every address."""
    in_pairs: bool = False
    """It refuses to give one register alone."""
    silent_refusals: int = 0
    probes: int = 0
    response_s: list[float] = field(default_factory=list)

    def as_json(self) -> dict[str, object]:
        """For a file."""
        return {
            "words": sorted(self.words.items()),
            "refused": sorted(self.refused.items()),
            **{name: getattr(self, name) for name in _PLAIN},
        }

    @classmethod
    def from_json(cls, data: dict[str, Any]) -> RegisterState:
        """Raises KeyError, TypeError or ValueError for what `as_json` did not make."""
        words, refused = ({int(at): int(held) for at, held in data[key]} for key in ("words", "refused"))
        return cls(words, refused, **{name: data[name] for name in _PLAIN})

    def ranges(self, table: Table) -> tuple[FoundRange, ...]:
        """What can be read, neighbours joined."""
        return tuple(FoundRange(table, first, last) for first, last in _joined(self.words))

    def refused_ranges(self) -> list[tuple[int, int, int]]:
        """First, last and exception code of what cannot."""
        found: list[tuple[int, int, int]] = []
        for address, code in sorted(self.refused.items()):
            if found and found[-1][1:] == (address - 1, code):
                found[-1] = (found[-1][0], address, code)
            else:
                found.append((address, address, code))
        return found

    @property
    def longest_read(self) -> int | None:
        """Most registers in one read, if that is known: something longer was refused for its length, or nothing is."""
        return self.longest if self.too_long == self.longest + 1 else None


_PLAIN: Final = (
    "longest",
    "too_long",
    "absent",
    "everywhere",
    "in_pairs",
    "silent_refusals",
    "probes",
    "response_s",
)


def _joined(addresses: Iterable[int]) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    for address in sorted(addresses):
        if found and found[-1][1] == address - 1:
            found[-1] = (found[-1][0], address)
        else:
            found.append((address, address))
    return found


def likely_beginnings(span: range = USUAL_SPAN) -> Iterator[int]:
    """Where maps begin, the likeliest first (common practice, no source; SunSpec's bases aside)."""
    seen: set[int] = set()
    near = (
        SUNSPEC_BASES,
        range(17),
        (100, 200, 256, 300, 400, 500, 512, 1000, 1024, 2000, 3000, 4000, 4096, 5000, 8192, 10_000, 0x1000, 0x2000),
        range(20, 64, 4),
        range(0, 2000, 50),
        range(0, LAST_ADDRESS, 1000),
    )
    far = (
        range(0, LAST_ADDRESS + 1, 4096),
        range(0, 1000, 10),
        range(0, 10_000, 100),
        range(10_000, LAST_ADDRESS, 500),
        range(0, LAST_ADDRESS + 1, 1024),
    )
    # A list that counts from 1 begins one address behind a round one, or one before it.
    asked = [base + beside for group in near for base in group for beside in (0, 1, -1)]
    for address in (*asked, *(base for group in far for base in group)):
        if address in span and address not in seen:
            seen.add(address)
            yield address


def beginnings(how: Pass, span: range) -> Iterator[int]:
    """All addresses from which is looked, in order."""
    yield from likely_beginnings(span)
    if how != "likely":
        yield from (address for address in span if address % 10 == 0)
    if how == "all":
        yield from span


def estimate(how: Pass, tables: int, exchange_s: float, span: range = USUAL_SPAN) -> tuple[int, float]:
    """Requests that a search takes at most if little is there, and seconds; a hit costs some 30 more."""
    probes = tables * len(set(beginnings(how, span)))
    return probes, probes * exchange_s


OnRegisters = Callable[[RegisterState], object]
"""Told after each request; what it raises ends the search, and what was found stays."""


class RegisterSearch:
    """Looks for the registers of one table of one unit. `never` holds addresses that are not touched at all."""

    def __init__(
        self,
        line: ProbedLine,
        unit: int,
        table: Table,
        state: RegisterState,
        *,
        span: range = USUAL_SPAN,
        never: Iterable[range] = (),
        timeout_s: float = PROBE_TIMEOUT_S,
        told: OnRegisters = lambda _state: None,
        evidence: Callable[[ProbeResult], object] = lambda _result: None,
    ) -> None:
        self.state = state
        self._line = line
        self._unit = unit
        self._table: Table = table
        self._span = span
        self._never = tuple(never)
        self._timeout_s = timeout_s
        self._told = told
        self._evidence = evidence

    def run(self, how: Pass = "likely") -> None:
        """Look. Raises what `ask` and `told` raise."""
        if self.state.absent or (not self.state.words and self._answers_everywhere()):
            return
        self._pass("likely")
        if not self.state.words and not self.state.absent and not self._silent_device:
            # Nothing at all, one by one: perhaps it gives values of two registers only.
            self.state.in_pairs = True
            self.state.refused = {}
            self._pass("likely")
        self._find_longest()
        if how != "likely":
            self._pass(how)

    def _pass(self, how: Pass) -> None:
        for address in beginnings(how, self._span):
            if self.state.absent:
                return
            if self._unknown(address) and self._try(address):
                self._grow(address)

    @property
    def _silent_device(self) -> bool:
        return self.state.silent_refusals >= SILENCES_MEANT

    @property
    def _cap(self) -> int:
        return min(requests.MOST[self._table], (self.state.too_long or 3000) - 1)

    def _unknown(self, address: int) -> bool:
        known = address in self.state.words or address in self.state.refused
        return not known and address in self._span and not any(address in span for span in self._never)

    def _free(self, address: int, count: int) -> bool:
        """Whether all of these may be asked for."""
        inside = address >= self._span.start and address + count <= self._span.stop
        return inside and not any(address < span.stop and span.start < address + count for span in self._never)

    def _try(self, address: int) -> bool:
        return self._read(address, 2 if self.state.in_pairs else 1)

    def _read(self, address: int, count: int) -> bool:
        """Read so many, and keep what they hold; or note why not, if that says something of one address."""
        if not self._free(address, count):
            return False
        result = self._ask(address, count)
        if result.kind == "answer":
            self.state.words.update(enumerate(requests.words_of(result), address))
            self.state.longest = max(self.state.longest, count)
            return True
        if result.code == _ABSENT:
            self.state.absent = not self.state.words
        least = 2 if self.state.in_pairs else 1
        if result.code == _COUNT and count > least:
            self.state.too_long = min(count, self.state.too_long or count)
        elif count == least:
            self.state.refused[address] = result.code
            self.state.silent_refusals += result.in_vain
        return False

    def _ask(self, address: int, count: int) -> ProbeResult:
        """What came at last, of a device that may be busy and a line that may lose answers."""
        result = None
        for attempt in range(ATTEMPTS):
            result = self._line.ask(requests.read(self._unit, self._table, address, count), self._timeout_s)
            self.state.probes += 1
            if result.waited_s is not None and result.alive and not result.in_vain:
                self.state.response_s.append(result.waited_s)
            self._evidence(result)
            self._told(self.state)
            if result.in_vain:
                if self._silent_device or attempt:
                    break
            elif result.alive and result.code not in (*_BUSY, _FAILING):
                break
        assert result is not None
        return result

    def _answers_everywhere(self) -> bool:
        """Whether addresses that nobody uses can be read; then some of the first registers are read and no more."""
        high = [address for address in _HIGH if address in self._span] or list(self._span)
        drawn = random.Random(self._unit).sample(high, min(NOBODYS, len(high)))
        for address in drawn:
            if self._unknown(address) and not self._read(address, 1):
                return False
        if len(drawn) < NOBODYS or len(self._span) < 10 * NOBODYS:
            return False
        self.state.everywhere = True
        for address in drawn:
            self.state.words.pop(address, None)
        self._extend(self._span.start, 1, READ_OF_ALL)
        return True

    def _grow(self, hit: int) -> None:
        """From a register that can be read to the edges of its block, and beyond them over small holes."""
        hits = [hit]
        while hits:
            address = hits.pop()
            least = 2 if self.state.in_pairs else 1
            last = self._extend(address + least, 1)
            first = self._extend(address - 1, -1)
            for beyond in _around(first, last):
                if self._unknown(beyond) and self._try(beyond):
                    hits.append(beyond)
                    break

    def _extend(self, start: int, way: Literal[1, -1], most: int = LAST_ADDRESS + 1) -> int:
        """Read on from `start` upwards or downwards until an edge; the last address that could be read."""
        at, size, left = start, 2, most
        while left > 0:
            while at in self.state.words:
                at += way
            size = min(size, self._cap, left, self._room(at, way))
            if size < 1:
                break
            if self._block(at, way, size):
                at += way * size
                left -= size
                size *= 2
            elif size > self._cap:
                continue  # it was too long, and may be there all the same
            else:
                return self._edge(at, way, size)
        return at - way

    def _room(self, at: int, way: Literal[1, -1]) -> int:
        """Addresses until what is not to be read, or is known not to be there."""
        room = 0
        while room < self._cap and self._unknown(at + way * room):
            room += 1
        return room

    def _block(self, at: int, way: Literal[1, -1], size: int) -> bool:
        return self._read(at if way > 0 else at - size + 1, size)

    def _edge(self, at: int, way: Literal[1, -1], size: int) -> int:
        """Halve a block that cannot be read whole, until the first register that cannot be is known."""
        least = 2 if self.state.in_pairs else 1
        while size > least:
            half = size // 2
            if self._block(at, way, half):
                at += way * half
                size -= half
            else:
                size = half
        if self._unknown(at):
            # It stands behind what could be read and in front of nothing: it is what the block was refused for.
            self.state.refused.setdefault(at, _ADDRESS)
        return at - way

    def _find_longest(self) -> None:
        """How many it returns at once: only where it has so many side by side."""
        runs = sorted(_joined(self.state.words), key=lambda run: run[0] - run[1])
        if not runs or self.state.everywhere:
            return
        first, last = runs[0]
        while self.state.too_long != self.state.longest + 1:
            limit = min(self._cap, last - first + 1)
            if limit <= self.state.longest:
                break
            size = limit if self.state.too_long is None else (self.state.longest + limit + 1) // 2
            if not self._read(first, size):
                self.state.too_long = min(size, self.state.too_long or size)
        if self.state.longest == requests.MOST[self._table]:
            self.state.too_long = self.state.longest + 1


def _around(first: int, last: int) -> Iterator[int]:
    """Where else registers may be if there is a block from `first` to `last`, the nearest first."""
    for distance in BEYOND_AN_EDGE:
        yield last + distance
        yield first - distance
    # Lists that count from 1 are one address away from round numbers.
    rounds = {base * (last // base + step) for base in ROUND for step in range(1, ROUNDS + 1)}
    for beyond in sorted(rounds):
        yield from (beyond, beyond + 1, beyond - 1)


def sunspec_models(words: dict[int, int]) -> tuple[int, list[tuple[int, int]]] | None:
    """Where a map of SunSpec models begins, and each model's number with its length in registers; None without one.

    A model is its number, its length and so many registers; number 0xFFFF ends the map (SunSpec, from memory).
    """
    for base in SUNSPEC_BASES:
        if (words.get(base), words.get(base + 1)) != SUNSPEC:
            continue
        models = []
        at = base + 2
        while (number := words.get(at)) not in (None, 0xFFFF) and (length := words.get(at + 1)) is not None:
            assert number is not None
            models.append((number, length))
            at += 2 + length
        return base, models
    return None
