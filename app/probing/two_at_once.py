"""Whether a device on Modbus TCP takes a second request before it has answered the first.

The protocol leaves that to the device, and tells answers apart by the transaction identifier (MODBUS Messaging on
TCP/IP Implementation Guide V1.0b, from memory). Many small devices take one request from each packet that arrives and
lose the second, so both leave in one go, which is the hardest case: whoever polls cannot choose what a network joins.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations
from typing import Final

from app.probing import requests
from app.probing.found import FoundFollower
from app.probing.probe import Probe, ProbedLine

ROUNDS: Final = 5
"""So many pairs have to be answered whole."""
FAILURES: Final = 2
"""So many pairs that were not, while the device answers what is asked alone, are no chance."""
_COUNTS: Final = (2, 4, 1, 9)
"""Registers of a read; 2 and 4 also suit a device that gives them in pairs only, 9 bits are a byte more than 1."""


def requests_in_flight(line: ProbedLine, device: FoundFollower, never: requests.Untouched) -> int | None:
    """How many requests it takes at the same time: 2, which was tried, or 1.

    None if nothing can be said: on a line that carries one frame at a time, where no two registers are known whose
    answers could be told apart, or where it stays silent altogether. Raises what `ask_both` raises.
    """
    pair = None if line.framing == "rtu" else _pair(device, never)
    if pair is None:
        return None
    whole = failed = 0
    while whole < ROUNDS:
        if all(result.kind == "answer" for result in line.ask_both(pair, 2 * device.patience_s)):
            whole += 1
            continue
        failed += 1
        if line.ask(pair[0], device.patience_s).kind != "answer":
            return None
        if failed == FAILURES:
            return 1
    return 2


def _pair(device: FoundFollower, never: requests.Untouched) -> tuple[Probe, Probe] | None:
    """Two reads of which neither's answer passes for the other's."""
    reads = [read for read in _reads(device) if not requests.touches(read, never)]
    return next(
        ((one, other) for one, other in combinations(reads, 2) if _form_of_answer(one) != _form_of_answer(other)), None
    )


def _reads(device: FoundFollower) -> Iterator[Probe]:
    longest = {part.table: part for part in sorted(device.ranges, key=lambda part: part.last - part.first)}
    for table, part in longest.items():
        most = part.last - part.first + 1
        if table in ("holding", "input"):
            most = min(most, device.longest_read or most)
        yield from (requests.read(device.unit, table, part.first, count) for count in _fitting(most))


def _fitting(most: int) -> Iterable[int]:
    return (count for count in _COUNTS if count <= most)


def _form_of_answer(read: Probe) -> tuple[int, int]:
    return read.function, requests.bytes_of_answer(read)
