"""All points of the SunSpec information models, read and written as the reference library does it.

Source: PyPI `pysunspec2`, `sunspec2/models/json/model_*.json` (the models) and `sunspec2.device.Point` (the reference).
A scale factor f of SunSpec means: value = raw x 10^f.
"""

from __future__ import annotations

import json
import random
import struct
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import sunspec2
from sunspec2 import device

from app.project.binding import Binding, bind, bindings, shown_text
from app.project.model import Project
from app.signals.encoding import EncodingName, Implausible, decode

OURS: dict[str, EncodingName] = {
    "int16": "int16",
    "sunssf": "int16",
    "uint16": "uint16",
    "count": "uint16",
    "acc16": "uint16",
    "enum16": "uint16",
    "bitfield16": "uint16",
    "pad": "uint16",
    "int32": "int32",
    "uint32": "uint32",
    "acc32": "uint32",
    "enum32": "uint32",
    "bitfield32": "uint32",
    "ipaddr": "uint32",
    "int64": "int64",
    "uint64": "uint64",
    "acc64": "uint64",
    "float32": "float32",
    "float64": "float64",
    "string": "string",
}
"""The encoding for each type of point. Left out: ipv6addr and eui48, which are neither numbers nor texts."""

WITHOUT = {"ipv6addr", "eui48"}
SEED = 20_260_401


@cache
def models() -> dict[str, list[dict[str, Any]]]:
    folder = Path(sunspec2.__file__).parent / "models" / "json"
    return {
        file.stem: list(points(json.loads(file.read_text(encoding="utf-8"))["group"]))
        for file in sorted(folder.glob("model_*.json"))
    }


def points(group: dict[str, Any]) -> Iterator[dict[str, Any]]:
    yield from group.get("points", ())
    for inner in group.get("groups", ()):
        yield from points(inner)


MODELS = sorted(models(), key=lambda stem: int(stem.removeprefix("model_")))


def too_long(point: dict[str, Any]) -> bool:
    """Whether one read cannot bring the point: 125 registers are the most, so no signal can be made of it."""
    return int(point["size"]) > 125


def project_of(model: list[dict[str, Any]], factor: int | None = None) -> Project:
    """A project with one signal for each point we have an encoding for, named by its place in the model."""
    signals: list[dict[str, Any]] = []
    for place, point in enumerate(model):
        if point["type"] in WITHOUT or too_long(point):
            continue
        signal: dict[str, Any] = {
            "name": str(place),
            "follower": "inverter",
            "register": 40_001,
            "encoding": OURS[point["type"]],
            "length": int(point["size"]) if point["type"] == "string" else None,
            "texts": {str(symbol["value"]): symbol["name"] for symbol in point.get("symbols", ())},
        }
        if factor is not None and "sf" in point:
            signal["scale"] = {"raw": [0, 1], "value": [0, Decimal(f"1e{factor}")]}
        signals.append(signal)
        if point["type"].startswith("bitfield"):
            signals += [
                {"name": f"{place}.{symbol['value']}", "bit": {"of": str(place), "number": symbol["value"]}}
                for symbol in point.get("symbols", ())
            ]
    return Project.model_validate(
        {
            "panel": {"start": "run"},
            "follower": [{"name": "inverter", "line": "roof", "numbering": "prefixed"}],
            "signal": signals,
        }
    )


def payloads(point: dict[str, Any], chance: random.Random) -> list[bytes]:
    """Registers worth trying, as bytes in the order of the wire."""
    size = int(point["size"]) * 2
    if point["type"] == "string":
        texts = ("", "A", "Pump 7", "x" * (size - 1), "".join(chance.choices("ABCxyz019-_.", k=size)))
        return [text.encode("ascii")[:size].ljust(size, b"\0") for text in texts]
    if point["type"] in ("float32", "float64"):
        form = ">f" if size == 4 else ">d"
        numbers = (0.0, 1.0, 41.65, -273.15, 1e-30, 3e38, chance.uniform(-1e6, 1e6))
        nan_and_infinity = (b"\x7f\xc0".ljust(size, b"\0"), struct.pack(form, float("inf")))
        return [struct.pack(form, number) for number in numbers] + list(nan_and_infinity)
    edges = (b"\0" * size, b"\xff" * size, b"\x80".ljust(size, b"\0"), b"\x7f".ljust(size, b"\xff"))
    return [*edges, b"\0" * (size - 1) + b"\1", *(chance.randbytes(size) for _ in range(3))]


def words_of(data: bytes) -> tuple[int, ...]:
    return struct.unpack(f">{len(data) // 2}H", data)


def bytes_of(words: tuple[int, ...] | bool) -> bytes:
    assert not isinstance(words, bool)
    return struct.pack(f">{len(words)}H", *words)


def test_every_point_of_every_model_is_looked_at() -> None:
    kinds = Counter(point["type"] for model in models().values() for point in model)
    assert kinds.total() >= 3_802  # what the models hold today
    assert set(kinds) <= set(OURS) | WITHOUT
    assert sum(kinds[kind] for kind in WITHOUT) < 10


@pytest.mark.parametrize("model", MODELS)
def test_points_read_and_write_as_in_the_reference(model: str) -> None:
    chance = random.Random(SEED)
    project = project_of(models()[model])
    looked_at = 0
    for place, pdef in enumerate(models()[model]):
        if pdef["type"] in WITHOUT or too_long(pdef):
            continue
        binding = bind(project, str(place))
        reference = device.Point(pdef)
        assert (binding.address, binding.count) == (0, reference.len)
        for data in payloads(pdef, chance):
            expected = reference.info.data_to(data)
            if expected is None or expected == float("inf"):  # not a number, which the reference has no value for
                with pytest.raises(Implausible):
                    binding.decode(words_of(data))
                continue
            if pdef["type"] == "string":
                expected = expected.rstrip("\0")  # the reference leaves one NUL of an empty text
            raw, value = binding.decode(words_of(data))
            assert raw == expected
            reference.set_value(expected)
            assert bytes_of(binding.encode(value)) == reference.get_mb()
            looked_at += 1
    assert looked_at


def test_texts_too_long_for_one_read_still_read_as_in_the_reference() -> None:
    chance = random.Random(SEED)
    long = [point for model in models().values() for point in model if too_long(point)]
    assert long
    for pdef in long:
        assert pdef["type"] == "string"
        for data in payloads(pdef, chance):
            assert decode("string", words_of(data)) == device.Point(pdef).info.data_to(data).rstrip("\0")


@pytest.mark.parametrize("factor", [-10, -3, -1, 0, 2, 5])
def test_scale_factors_mean_what_they_mean_in_the_reference(factor: int) -> None:
    chance = random.Random(SEED)
    scaled = 0
    for model in models().values():
        project = project_of(model, factor)
        for place, pdef in enumerate(model):
            if "sf" not in pdef or pdef["type"] in WITHOUT:
                continue
            binding = bind(project, str(place))
            for data in payloads(pdef, chance):
                reference = scaled_reference(pdef, factor, data)
                raw, value = binding.decode(words_of(data))
                assert isinstance(value, Fraction)
                assert value == Fraction(raw) * Fraction(10) ** factor
                if reference.value is None or abs(reference.value) >= 2**50:
                    continue  # the reference's word for 'not implemented', or beyond what its binary floats keep apart
                assert abs(float(value) - reference.cvalue) <= 1e-14 * abs(reference.cvalue)
                reference.cvalue = float(value)
                assert bytes_of(binding.encode(value)) == reference.get_mb() == data
                scaled += 1
    assert scaled > 5_000


def scaled_reference(pdef: dict[str, Any], factor: int, data: bytes) -> Any:
    group = SimpleNamespace(points={pdef["sf"]: SimpleNamespace(value=factor)})
    point = device.Point(pdef, group=group, model=group, data=data)
    if isinstance(pdef["sf"], int):
        point.sf_value = factor
    return point


def test_bits_of_bitfields_and_texts_of_enumerations() -> None:
    chance = random.Random(SEED)
    bits = texts = 0
    for model in models().values():
        project = project_of(model)
        for binding in bindings(project).values():
            if binding.bit is not None:
                bits += 1
                check_bit(binding, chance)
        for place, pdef in enumerate(model):
            if pdef["type"] not in ("enum16", "enum32"):
                continue
            for symbol in pdef.get("symbols", ()):
                data = device.Point(pdef).info.to_data(symbol["value"])
                _, value = bind(project, str(place)).decode(words_of(data))
                assert shown_text(project, str(place), value, 60, "choice").rstrip() == symbol["name"]
                texts += 1
    assert bits > 500
    assert texts > 500


def check_bit(binding: Binding, chance: random.Random) -> None:
    """A bit reads as the reference's integer shifted, and writing it changes nothing else."""
    data = chance.randbytes(2 * binding.count)
    number = int.from_bytes(data, "big")
    assert binding.bit is not None
    assert binding.decode(words_of(data))[0] == number >> binding.bit & 1
    for state in (0, 1):
        written = int.from_bytes(bytes_of(binding.encode(state, words_of(data))), "big")
        assert written == (number | 1 << binding.bit if state else number & ~(1 << binding.bit))
