"""What a device calls itself, and which functions that read it has.

Both ways to ask for a name are optional in the standard (43/14 and 17), so a refusal says nothing but that. Whether a
device stops by itself when nobody asks it any more cannot be found out by reading.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import islice
from typing import Final

from app.probing import requests
from app.probing.probe import ProbedLine, ProbeResult

OBJECTS: Final[Mapping[int, str]] = {
    0: "VendorName",
    1: "ProductCode",
    2: "MajorMinorRevision",
    3: "VendorUrl",
    4: "ProductName",
    5: "ModelName",
    6: "UserApplicationName",
}
"""As V1.1b3, section 6.21, names them (from memory). Others are the device's own: `Object80` and so on."""
SERVER_ID: Final = "ServerId"
_BASIC, _REGULAR = 1, 2
_ABSENT: Final = 1
_GO_ON: Final = 16
"""How many answers one identification may take."""


def identify(line: ProbedLine, unit: int, timeout_s: float) -> tuple[dict[str, str], set[int]]:
    """What a unit calls itself, by the standard's names, and which of 17 and 43 it has. Raises what `ask` raises."""
    names: dict[str, str] = {}
    functions = set()
    for level in (_BASIC, _REGULAR):
        objects, supported = _objects(line, unit, level, timeout_s)
        if not supported:
            break
        functions.add(requests.ENCAPSULATED)
        for number, held in sorted(objects.items()):
            if text := text_of(held):
                names[OBJECTS.get(number, f"Object{number:02X}")] = text
    result = _patient(line, unit, requests.SERVER_ID, timeout_s)
    if result.kind == "answer":
        functions.add(requests.SERVER_ID)
        if text := server_text(result.pdu):
            names[SERVER_ID] = text
    return names, functions


def reading_functions(
    line: ProbedLine, unit: int, timeout_s: float, never: requests.Untouched | None = None
) -> set[int]:
    """Which of 01 to 04 a unit has: any answer of its own says so but exception 01. Raises what `ask` raises.

    Of a table that must `never` be touched as a whole it is not found out.
    """
    found = set()
    for table, function in requests.FUNCTION_OF.items():
        for address in islice(requests.touchable((never or {}).get(table, ())), 2):
            result = line.ask(requests.read(unit, table, address), timeout_s)
            if result.alive and not result.in_vain:
                if result.code != _ABSENT:
                    found.add(function)
                break
    return found


def _objects(line: ProbedLine, unit: int, level: int, timeout_s: float) -> tuple[dict[int, bytes], bool]:
    found: dict[int, bytes] = {}
    first: int | None = 0 if level == _BASIC else 3
    supported = False
    for _ in range(_GO_ON):
        if first is None:
            break
        result = line.ask(requests.identification(unit, first, 1 if level == _BASIC else 2), timeout_s)
        objects, following = requests.objects_of(result)
        supported = supported or result.kind == "answer"
        found |= objects
        # Some devices say again and again that more follows.
        first = following if following is not None and following not in found and objects else None
    return found, supported


def _patient(line: ProbedLine, unit: int, function: int, timeout_s: float) -> ProbeResult:
    probe = requests.server_id(unit) if function == requests.SERVER_ID else requests.echo_query(unit)
    result = line.ask(probe, timeout_s)
    return result if result.alive and not result.in_vain else line.ask(probe, timeout_s)


def server_text(pdu: bytes) -> str:
    """What an answer to 17 says in letters: what it carries is the device's own, with its run indicator behind it."""
    return text_of(pdu[2:])


def text_of(held: bytes) -> str:
    """The letters in bytes that a device gives as its name, as they may be shown; empty without any."""
    letters = "".join(chr(byte) if 0x20 <= byte < 0x7F or 0xA1 <= byte < 0xFF else " " for byte in held)
    return " ".join(letters.split())
