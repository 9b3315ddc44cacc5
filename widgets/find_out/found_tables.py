"""The tables of what was found: devices, facts of one, its registers, what another client asks, what has a name."""

from __future__ import annotations

import enum
from collections.abc import Mapping, Sequence
from typing import Final, Generic, TypeVar

from PySide6.QtCore import QObject

from app.discovery.into_project import NamedRegister
from app.language import with_mark
from app.matching.advice import Namer
from app.probing.found import FoundFollower
from app.signals.numbering import Table
from app.snapshots.snapshot import RegisterPlace
from widgets.find_out.match_tables import scale_text
from widgets.kit.tables import TableModel, to_the_right

R = TypeVar("R")
_WORD: Final = 0x10000


class _RowsModel(TableModel, Generic[R]):
    """A row for each of what is shown."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.rows: Sequence[R] = ()

    def show(self, rows: Sequence[R]) -> None:
        """Show these; what is chosen stays chosen while as many are shown."""
        if rows == self.rows:
            return
        if len(rows) == len(self.rows):
            self.rows = rows
            self.dataChanged.emit(self.index(0, 0), self.index(len(rows) - 1, len(self.titles) - 1))
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def count(self) -> int:
        """How many there are."""
        return len(self.rows)


class DevicesModel(_RowsModel[FoundFollower]):
    """Devices that answer, as they are found."""

    alignment = to_the_right(0, 1, 2)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = (
            self.tr("Unit address"),
            self.tr("Answers after"),
            self.tr("Registers"),
            self.tr("What it calls itself"),
        )

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        device = self.rows[row]
        match column:
            case 0:
                return str(device.unit), "ink"
            case 1:
                return milliseconds(device.response_ms), "ink"
            case 2:
                count = sum(part.last - part.first + 1 for part in device.ranges)
                return str(count) if count else "", "ink"
        return title_of(device) or self.tr("no name"), "ink" if title_of(device) else "faint"


def title_of(device: FoundFollower) -> str:
    """What a device calls itself, in one line; empty if it does not say."""
    names = device.identification
    parts = [names.get(key, "") for key in ("VendorName", "ProductCode", "MajorMinorRevision")]
    return " ".join(filter(None, parts)) or names.get("ProductName", "") or names.get("ServerId", "")


def milliseconds(value: float | None) -> str:
    """A time as it is shown; empty if it is not known."""
    return "" if value is None else with_mark(f"{value:.1f} ms" if value < 10 else f"{value:.0f} ms")


class FactsModel(_RowsModel[tuple[str, str]]):
    """What is known of one device: a title and a text a row."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = self.tr("Property"), self.tr("Found")

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        return self.rows[row][column], "ink" if column else "faint"


class FoundColumn(enum.IntEnum):
    """The columns of registers."""

    REGISTER = 0
    DECIMAL = 1
    SIGNED = 2
    HEX = 3
    NAME = 4


class FoundRegistersModel(TableModel):
    """Registers and what they held when they were read last."""

    alignment = to_the_right(FoundColumn.DECIMAL, FoundColumn.SIGNED, FoundColumn.HEX)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = (
            self.tr("Register"),
            self.tr("Decimal"),
            self.tr("With sign"),
            self.tr("Hexadecimal"),
            self.tr("Name"),
        )
        self._places: Sequence[RegisterPlace] = ()
        self._held: Mapping[RegisterPlace, int] = {}
        self._changed: frozenset[RegisterPlace] = frozenset()
        self._names: Mapping[RegisterPlace, str] = {}
        self._name: Namer = lambda table, first, _last: f"{table} {first}"

    def show(self, held: Mapping[RegisterPlace, int], names: Mapping[RegisterPlace, str], name: Namer) -> None:
        """Show these; what differs from before is marked."""
        changed = frozenset(place for place, word in held.items() if self._held.get(place, word) != word)
        same = len(held) == len(self._places) and all(place in held for place in self._places)
        if not same:
            self.beginResetModel()
            self._places = sorted(held, key=lambda place: (_TABLES.index(place[0]), place[1]))
        self._held, self._changed, self._names, self._name = dict(held), changed, names, name
        if not same:
            self.endResetModel()
        elif held:
            self.dataChanged.emit(self.index(0, 0), self.index(len(held) - 1, len(self.titles) - 1))

    def place(self, row: int) -> RegisterPlace:
        """Table and wire address."""
        return self._places[row]

    def count(self) -> int:
        """How many there are."""
        return len(self._places)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        place = self._places[row]
        word = self._held[place]
        ink = "accent" if place in self._changed else "ink"
        bit = place[0] in ("coil", "discrete")
        match column:
            case FoundColumn.REGISTER:
                return self._name(place[0], place[1], place[1]), "ink"
            case FoundColumn.DECIMAL:
                return str(word), ink
            case FoundColumn.SIGNED:
                return "" if bit else str(word - _WORD if word >= _WORD // 2 else word), ink
            case FoundColumn.HEX:
                return "" if bit else f"{word:04X}h", ink
        return self._names.get(place, ""), "ink"


_TABLES: Final[tuple[Table, ...]] = ("holding", "input", "discrete", "coil")


class HeardModel(_RowsModel[tuple[str, str, str, str]]):
    """What another client asks for: unit, what, how often it was answered, the newest values."""

    alignment = to_the_right(0, 2)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = self.tr("Unit address"), self.tr("Asks for"), self.tr("Answered"), self.tr("Newest values")

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        return self.rows[row][column], "ink"


class NamedModel(_RowsModel[tuple[int, NamedRegister, str]]):
    """Registers that have a name: the unit address of their device, what they are, and what people call the place."""

    alignment = to_the_right(0)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = (
            self.tr("Unit address"),
            self.tr("Signal"),
            self.tr("Register"),
            self.tr("Data type"),
            self.tr("Scale"),
            self.tr("Unit"),
        )

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        unit, register, place = self.rows[row]
        scale = register.scale
        texts = (
            str(unit),
            register.name,
            place,
            register.encoding,
            "" if scale is None else scale_text(scale.raw, scale.value),
            register.unit,
        )
        return texts[column], "ink"
