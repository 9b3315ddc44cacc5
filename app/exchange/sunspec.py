"""SunSpec model files (JSON) laid out as register lists.

Source: SunSpec Device Information Model Specification, as its models and schema stand in PyPI `pysunspec2`. Addresses
are those of the wire, from 0; a model begins with its ID and its length. A scale factor f means: value = raw x 10^f.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Final

from app.exchange.row_parser import LONGEST_NAME
from app.exchange.sheet import CannotRead, Sheet, SheetCell, SheetRow, UnusableCell
from app.exchange.titles import TITLES, Key
from app.language import mark, translate
from app.project.value_texts import written_texts

FIRST_ADDRESSES: Final = (40_000, 50_000, 0)
"""Where a device may keep the two registers that say SunS, the preferred one first."""

_MARKER: Final = 2
_COMMON: Final = 68
"""Registers of the common model (1) with its ID and length, which comes before all others."""
_MOST_REPEATS: Final = 200
_MOST_POINTS: Final = 20_000
_LARGEST_POINT: Final = 65_536
_SHORTEST_GROUP: Final = 3
"""Letters that stay of the name of a group."""
_STATIC_EVERY_MS: Final = 60_000
"""How often a point is read that does not change while the device runs."""

_ENCODINGS: Final[Mapping[str, str]] = {
    "int16": "int16",
    "sunssf": "int16",
    "uint16": "uint16",
    "count": "uint16",
    "acc16": "uint16",
    "raw16": "uint16",
    "enum16": "uint16",
    "bitfield16": "uint16",
    "int32": "int32",
    "uint32": "uint32",
    "acc32": "uint32",
    "enum32": "uint32",
    "bitfield32": "uint32",
    "ipaddr": "uint32",
    "int64": "int64",
    "uint64": "uint64",
    "acc64": "uint64",
    "bitfield64": "uint64",
    "float32": "float32",
    "float64": "float64",
    "string": "string",
}

COLUMNS: Final[tuple[Key, ...]] = (
    "name",
    "table",
    "register",
    "encoding",
    "length",
    "exponent",
    "unit",
    "write",
    "texts",
    "every_ms",
    "bit_of",
    "bit",
    "notes",
)
"""What the columns of a model laid out hold."""


@dataclass(frozen=True, slots=True)
class SunSpecModel:
    """A model as its file describes it."""

    id: int
    label: str
    group: Mapping[str, Any] = field(repr=False)
    repeated: tuple[str, ...]
    """Groups that a device has as many of as it likes, by their paths; how many is for the user to say."""
    scale_factors: tuple[str, ...]
    """Points that hold the exponent of others; their values stand in the device only."""

    @property
    def usual_start(self) -> int:
        """The address of its ID in a device that has the common model and this one only."""
        return FIRST_ADDRESSES[0] + _MARKER + (0 if self.id == 1 else _COMMON)


@dataclass(frozen=True, slots=True)
class ModelWay:
    """What a model does not say by itself."""

    start: int | None = None
    """The address of the model's ID on the wire. None: the usual one."""
    repeats: tuple[tuple[str, int], ...] = ()
    """How many there are of each repeated group; 1 if not said."""
    exponents: tuple[tuple[str, int], ...] = ()
    """The exponent that each scale factor holds, as far as it is known."""
    bits: bool = True
    """Each named bit of a bitfield becomes a signal too."""


def model_of(data: bytes) -> SunSpecModel:
    """The model in a file. Raises CannotRead for JSON that is none, or is wrong in itself."""
    try:
        root = json.loads(data.decode("utf-8-sig"))
    except (ValueError, RecursionError):
        raise CannotRead(
            mark("exchange", "The file starts like JSON but is not valid JSON. Is it incomplete?")
        ) from None
    group = root.get("group") if isinstance(root, dict) else None
    number = root.get("id") if isinstance(root, dict) else None
    if not isinstance(group, dict) or not isinstance(number, int) or not isinstance(group.get("points"), list):
        raise CannotRead(
            mark("exchange", "This JSON is not a SunSpec model: it needs an 'id' and a 'group' with 'points'.")
        )
    _check(group, str(group.get("name", "group")), 0)
    factors = sorted({point["sf"] for point in _all_points(group) if isinstance(point.get("sf"), str)})
    return SunSpecModel(
        number,
        str(group.get("label") or group.get("name") or number),
        group,
        tuple(_repeating_names(group, "")),
        tuple(factors),
    )


def model_sheet(model: SunSpecModel, way: ModelWay = ModelWay()) -> Sheet:
    """The points of a model as rows with the titles of an export. Raises CannotRead if it becomes far too long."""
    start = model.usual_start if way.start is None else way.start
    rows: list[SheetRow] = [SheetRow(1, tuple(TITLES[key] for key in COLUMNS))]
    layout = _Layout(model, way)
    end = start
    for point in layout.points(model.group, start, "", {}):
        for cells in point:
            rows.append(SheetRow(len(rows) + 1, cells))
        if len(rows) > _MOST_POINTS:
            raise CannotRead(
                mark("exchange", "The model has more than {most} points; use fewer repetitions of its groups."),
                most=_MOST_POINTS,
            )
    end = layout.end
    remarks = [
        translate(
            "exchange",
            "Model {id}, {label}: holding registers, addresses {first} to {last} (0-based).",
        ).format(id=model.id, label=model.label, first=start, last=end - 1)
    ]
    unknown = [name for name in model.scale_factors if name not in dict(way.exponents)]
    if unknown:
        remarks.append(
            translate(
                "exchange",
                "Scale factors stored only in the device: {names}. Read them there and fill them in; until then their "
                "points are imported unscaled, with a note.",
            ).format(names=", ".join(unknown))
        )
    if layout.padding:
        remarks.append(translate("exchange", "Padding registers skipped: {count}").format(count=layout.padding))
    remarks.append(
        translate(
            "exchange",
            "For points it does not implement, a device returns the largest or smallest number of the type, such as "
            "65535 or -32768.",
        )
    )
    return Sheet(tuple(rows), len(COLUMNS), tuple(remarks))


class _Layout:
    """Lays the points of a model out one behind the other."""

    def __init__(self, model: SunSpecModel, way: ModelWay) -> None:
        self._repeats = dict(way.repeats)
        self._exponents = dict(way.exponents)
        self._bits = way.bits
        self._id = model.id
        self.end = 0
        self.padding = 0

    def points(
        self, group: Mapping[str, Any], at: int, path: str, factors: Mapping[str, str], key: str = ""
    ) -> Iterator[list[tuple[SheetCell, ...]]]:
        """The rows of each point of a group and of the groups in it, from address `at` on."""
        here = {point["name"]: f"{path}{point['name']}" for point in group.get("points", ())}
        known = {**factors, **here}
        for point in group.get("points", ()):
            if point["type"] == "pad":
                self.padding += 1
            else:
                yield self._rows(point, at, path, known)
            at += point["size"]
            self.end = at
        for inner in group.get("groups", ()):
            name = inner["name"]
            inner_key = f"{key}.{name}" if key else name
            count = inner.get("count", 1)
            several = not isinstance(count, int) or count != 1
            if not isinstance(count, int) or count == 0:
                count = self._repeats.get(inner_key, 1)
            for number in range(1, count + 1):
                below = f"{path}{name}{number}." if several else f"{path}{name}."
                yield from self.points(inner, at, below, known, inner_key)
                at = self.end

    def _rows(
        self, point: Mapping[str, Any], at: int, path: str, factors: Mapping[str, str]
    ) -> list[tuple[SheetCell, ...]]:
        name = _fitting(f"{path}{point['name']}")
        kind = point["type"]
        texts: dict[str, str] = {}
        symbols = [symbol for symbol in point.get("symbols", ()) if isinstance(symbol, dict)]
        if kind.startswith("enum"):
            texts = {str(symbol["value"]): str(symbol.get("label") or symbol["name"]) for symbol in symbols}
        exponent, said = self._exponent(point, factors)
        notes = [str(point[key]) for key in ("label", "desc") if point.get(key)]
        unit = " ".join(str(point.get("units", "")).split())
        cells: dict[Key, SheetCell] = {
            "name": name,
            "table": "holding",
            "register": Decimal(at),
            "encoding": _ENCODINGS.get(kind) or _no_encoding(kind),
            "length": Decimal(point["size"]) if kind == "string" else "",
            "exponent": "" if exponent is None else Decimal(exponent),
            "unit": unit if len(unit) <= 16 else "",
            "write": "RW" if point.get("access") == "RW" else "R",
            "texts": written_texts(texts),
            "every_ms": Decimal(_STATIC_EVERY_MS) if point.get("static") == "S" else "",
            "notes": "\n".join([*notes, *said]),
        }
        rows = [tuple(cells.get(key, "") for key in COLUMNS)]
        if self._bits and kind.startswith("bitfield"):
            for symbol in symbols:
                bit: dict[Key, SheetCell] = {
                    "name": _fitting(f"{path}{point['name']}.{symbol['name']}"),
                    "bit_of": name,
                    "bit": Decimal(symbol["value"]),
                    "write": "RW" if point.get("access") == "RW" else "R",
                    "notes": str(symbol.get("label") or symbol.get("desc") or ""),
                }
                rows.append(tuple(bit.get(key, "") for key in COLUMNS))
        return rows

    def _exponent(self, point: Mapping[str, Any], factors: Mapping[str, str]) -> tuple[int | None, list[str]]:
        given = point.get("sf")
        if given is None:
            return None, []
        if isinstance(given, int):
            return given, []
        if given in self._exponents:
            return self._exponents[given], []
        return None, [
            translate("exchange", "Unscaled: value = raw number x 10 to the power of {name}").format(
                name=factors.get(given, given)
            )
        ]


def _fitting(name: str) -> str:
    """A path as a signal can be called: the names of its groups lose letters at their ends until it fits."""
    *groups, last = name.split(".")
    while len(".".join([*groups, last])) > LONGEST_NAME:
        at = max(range(len(groups)), key=lambda number: len(groups[number]), default=-1)
        letters = groups[at].rstrip("0123456789") if groups else ""
        if len(letters) <= _SHORTEST_GROUP:
            break
        groups[at] = letters[:-1] + groups[at][len(letters) :]
    return ".".join([*groups, last])


def _no_encoding(kind: str) -> UnusableCell:
    return UnusableCell(kind, translate("exchange", "points of type {type} are not supported").format(type=kind))


def _repeating_names(group: Mapping[str, Any], key: str) -> Iterator[str]:
    for inner in group.get("groups", ()):
        path = f"{key}.{inner['name']}" if key else inner["name"]
        count = inner.get("count", 1)
        if not isinstance(count, int) or count == 0:
            yield path
        yield from _repeating_names(inner, path)


def _all_points(group: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    yield from group.get("points", ())
    for inner in group.get("groups", ()):
        yield from _all_points(inner)


def _check(group: Any, path: str, depth: int) -> None:
    """Raises CannotRead, naming the place, for what a model cannot be laid out by."""
    if not isinstance(group, dict) or not isinstance(group.get("name"), str) or depth > 8:
        raise _wrong(path)
    count = group.get("count", 1)
    if (
        isinstance(count, bool)
        or not isinstance(count, int | str)
        or (isinstance(count, int) and not 0 <= count <= _MOST_REPEATS)
    ):
        raise _wrong(f"{path}, 'count'")
    for key in ("points", "groups"):
        if not isinstance(group.get(key, []), list):
            raise _wrong(f"{path}, '{key}'")
    for number, point in enumerate(group.get("points", ()), start=1):
        where = f"{path}, point {number}"
        if (
            not isinstance(point, dict)
            or not isinstance(point.get("name"), str)
            or not isinstance(point.get("type"), str)
        ):
            raise _wrong(where)
        size = point.get("size")
        if not isinstance(size, int) or isinstance(size, bool) or not 1 <= size <= _LARGEST_POINT:
            raise _wrong(f"{path}.{point['name']}, 'size'")
        if not isinstance(point.get("sf", ""), str | int) or isinstance(point.get("sf"), bool):
            raise _wrong(f"{path}.{point['name']}, 'sf'")
        if isinstance(point.get("sf"), int) and abs(point["sf"]) > 30:
            raise _wrong(f"{path}.{point['name']}, 'sf'")
        symbols = point.get("symbols", [])
        if not isinstance(symbols, list):
            raise _wrong(f"{path}.{point['name']}, 'symbols'")
        for symbol in symbols:
            if not isinstance(symbol, dict) or "name" not in symbol or not isinstance(symbol.get("value"), int):
                raise _wrong(f"{path}.{point['name']}, 'symbols'")
    for inner in group.get("groups", ()):
        _check(inner, f"{path}.{inner.get('name', '?') if isinstance(inner, dict) else '?'}", depth + 1)


def _wrong(where: str) -> CannotRead:
    return CannotRead(translate("exchange", "This SunSpec model has an error at {where}.").format(where=where[:200]))
