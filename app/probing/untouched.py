"""What must never be touched, as a person writes it: holding:100-119, input:7, with the wire addresses."""

from __future__ import annotations

from typing import Final, get_args

from app.probing.requests import Untouched
from app.signals.numbering import LAST_ADDRESS, Table

_TABLES: Final[dict[str, Table]] = {**{table: table for table in get_args(Table)}, "coils": "coil"}


def parse_untouched(text: str) -> Untouched:
    """Raises ValueError with the part that names no registers."""
    found: dict[Table, list[range]] = {}
    for part in filter(None, (part.strip() for part in text.split(","))):
        name, _, numbers = part.partition(":")
        table, span = _TABLES.get(name.strip()), address_span(numbers)
        if table is None or span is None:
            raise ValueError(part)
        found.setdefault(table, []).append(range(span[0], span[1] + 1))
    return found


def untouched_text(never: Untouched) -> str:
    """As `parse_untouched` reads it."""
    return ", ".join(
        f"{table}:{span[0]}" + (f"-{span[-1]}" if len(span) > 1 else "")
        for table, spans in never.items()
        for span in spans
    )


def all_of(*several: Untouched) -> Untouched:
    """What any of these names, each range once."""
    found: dict[Table, dict[range, None]] = {}
    for never in several:
        for table, spans in never.items():
            found.setdefault(table, {}).update(dict.fromkeys(spans))
    return {table: tuple(spans) for table, spans in found.items()}


def address_span(text: str) -> tuple[int, int] | None:
    """The first and the last wire address of "0-9999" or "7"; None if it is no such thing."""
    first, dash, last = (part.strip() for part in text.partition("-"))
    if not first.isdecimal() or len(first) > 5 or (dash and not (last.isdecimal() and len(last) <= 5)):
        return None
    begin, end = int(first), int(last or first)
    return (begin, end) if begin <= end <= LAST_ADDRESS else None
