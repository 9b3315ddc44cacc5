"""The table of all ways to read a signal: register, data type, order, what stands there, and what speaks for it."""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum
from fractions import Fraction
from typing import Final

from PySide6.QtCore import QObject

from app.discovery.repairs import WayToRead
from app.project.binding import Binding
from app.signals.encoding import exact, has_word_order
from app.signals.numbering import NotARegister, documented_number
from app.signals.text import spoken_digits
from widgets.kit.tables import TableModel, Trim, to_the_right

_LONG: Final = 10**12
"""Numbers from here on are written with a power of ten."""


class WayColumn(IntEnum):
    """The columns from the left."""

    REGISTER = 0
    TYPE = 1
    ORDER = 2
    RAW = 3
    VALUE = 4
    WHY = 5


class WaysModel(TableModel):
    """The likeliest first; the one that the project has now stands out."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = (
            self.tr("Register"),
            self.tr("Data type"),
            self.tr("Order"),
            self.tr("Raw"),
            self.tr("Value"),
            self.tr("Why"),
        )
        self.alignment = to_the_right(WayColumn.REGISTER, WayColumn.RAW, WayColumn.VALUE)
        self._ways: Sequence[WayToRead] = ()
        self._binding: Binding | None = None
        self._best = "unknown"
        """How the likeliest stands: only what stands so well has a tick."""

    def count(self) -> int:
        """How many ways there are."""
        return len(self._ways)

    def way(self, row: int) -> WayToRead:
        """What stands in a row."""
        return self._ways[row]

    def row_of(self, wanted: WayToRead) -> int:
        """Where the same way stands now; -1 if it is gone."""
        places = [(way.address, way.way) for way in self._ways]
        return places.index(found) if (found := (wanted.address, wanted.way)) in places else -1

    def show_ways(self, binding: Binding, ways: Sequence[WayToRead]) -> bool:
        """Show these; gives whether rows moved."""
        former = [(way.address, way.way) for way in self._ways]
        moved = former != [(way.address, way.way) for way in ways]
        if moved:
            self.beginResetModel()
        self._binding, self._ways = binding, ways
        told = [way.standing for way in ways if way.standing != "unknown"]
        self._best = told[0] if told else "unknown"
        if moved:
            self.endResetModel()
        elif ways:
            self.dataChanged.emit(self.index(0, 0), self.index(len(ways) - 1, len(WayColumn) - 1))
        return moved

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell, and the name of its colour."""
        way = self._ways[row]
        match column:
            case WayColumn.REGISTER:
                return self._number(way.address), "ink"
            case WayColumn.TYPE:
                return way.way.encoding, "ink"
            case WayColumn.ORDER:
                return self._order(way), "faint"
            case WayColumn.RAW:
                return "" if way.raw is None else raw_words(way.raw), "ink"
            case WayColumn.VALUE:
                return self._value(way), "ink"
            case _:
                return self._why(way), "faint" if way.standing in ("unknown", "does not fit") else "ink"

    def trim(self, row: int, column: int) -> Trim | None:
        """A tick before what the likeliest has to say; what the project has now is bold."""
        way = self._ways[row]
        if column != WayColumn.WHY:
            return Trim(strong=True) if way.present else None
        good = way.standing in ("fits", "confirmed", "clear") and way.standing == self._best
        return Trim("state-good", "good", strong=way.present) if good else Trim(strong=way.present)

    def _number(self, address: int) -> str:
        assert self._binding is not None
        base = self._binding.base
        try:
            return str(documented_number(self._binding.follower.numbering, base.table, address))
        except NotARegister:
            return "-"

    def _order(self, way: WayToRead) -> str:
        words, bytes_ = way.way.word_order == "low-first", way.way.byte_order == "low-first"
        if words and bytes_:
            return self.tr("words and bytes swapped")
        if bytes_:
            return self.tr("bytes swapped")
        if words:
            return self.tr("words swapped")
        return self.tr("standard") if has_word_order(way.way.encoding) else ""

    def _value(self, way: WayToRead) -> str:
        binding = self._binding
        if binding is None or way.raw is None:
            return ""
        line = way.fitted.line if way.fitted is not None else binding.scale
        value = line.value(exact(way.way.encoding, way.raw))
        return f"{_figures(value, binding.signal.decimals)} {binding.signal.unit}".rstrip()

    def _why(self, way: WayToRead) -> str:
        if not way.present:
            return way.evidence
        if not way.evidence:
            return self.tr("now in the project")
        return self.tr("now in the project: {evidence}").format(evidence=way.evidence)


def raw_words(raw: int | float) -> str:
    """A raw number in few characters."""
    return str(raw) if isinstance(raw, int) else f"{raw:.6g}"


def _figures(value: Fraction, decimals: int) -> str:
    return f"{float(value):.3e}" if abs(value) >= _LONG else spoken_digits(value, decimals)
