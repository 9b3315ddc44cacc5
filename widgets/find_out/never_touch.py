"""The line in which registers are named that must not be touched, as some are cleared by reading."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, get_args

from PySide6.QtWidgets import QLineEdit, QWidget

from app.probing.requests import Untouched
from app.signals.numbering import LAST_ADDRESS, Table
from widgets.kit.elided import shorten_placeholder

_TABLES: Final[tuple[Table, ...]] = get_args(Table)


class NeverTouch(QLineEdit):
    """Tables and wire addresses: holding:100-119, input:7."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Never touch"))
        shorten_placeholder(self, self.tr("e.g. holding:100-119, input:7"))

    def untouched(self) -> Untouched:
        """What is named. Raises ValueError in words."""
        found: dict[Table, list[range]] = {}
        for part in filter(None, (part.strip() for part in self.text().split(","))):
            name, _, numbers = part.partition(":")
            table = next((one for one in _TABLES if one == name.strip()), None)
            span = address_span(numbers)
            if table is None or span is None:
                text = self.tr("\u201c{part}\u201d names no registers; write holding:100-119, with the wire addresses")
                raise ValueError(text.format(part=part))
            found.setdefault(table, []).append(range(span[0], span[1] + 1))
        return found


def address_span(text: str) -> Sequence[int] | None:
    """The first and the last wire address of "0-9999" or "7"; None if it is no such thing."""
    first, dash, last = (part.strip() for part in text.partition("-"))
    if not first.isdecimal() or len(first) > 5 or (dash and not (last.isdecimal() and len(last) <= 5)):
        return None
    begin, end = int(first), int(last or first)
    return (begin, end) if begin <= end <= LAST_ADDRESS else None
