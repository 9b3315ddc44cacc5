"""Imported SunSpec models against the reference library: every point at its address, read as it reads it.

Source: PyPI `pysunspec2`: its models (`sunspec2/models/json`) and its device model (`sunspec2.device`), which lays
points out and decodes them from registers by itself.
"""

from __future__ import annotations

import json
import random
import re
import struct
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import sunspec2
from sunspec2 import device, mb

from app.exchange.column_mapping import Guess
from app.exchange.import_plan import ImportPlan, ImportTarget
from app.exchange.importing import OF_MODELS, match_again
from app.exchange.reading import ReadOptions, read, source
from app.exchange.sunspec import ModelWay, model_of
from app.project.binding import bind
from app.project.model import BitSignal, Follower, Project, RegisterSignal, TcpLine
from app.project_file.files import dump, parse
from app.signals.encoding import Implausible, has_word_order

FOLDER = Path(sunspec2.__file__).parent / "models" / "json"
MODELS = sorted(FOLDER.glob("model_*.json"), key=lambda path: int(path.stem.removeprefix("model_")))
START = 40_070
REPEATS = 2
FACTOR = -1
LINE = TcpLine(name="roof", host="192.0.2.1")
INVERTER = Follower(name="inverter", line="roof")
PROJECT = Project.model_validate(
    {
        "panel": {"start": "run"},
        "screen": [{"name": "run"}],
        "line": [{"name": "roof", "kind": "tcp", "host": "192.0.2.1"}],
        "follower": [{"name": "inverter", "line": "roof"}],
    }
)


def brought(path: Path, follower: Follower = INVERTER, **exponents: int) -> ImportPlan:
    data = path.read_bytes()
    model = model_of(data)
    way = ReadOptions(
        model=ModelWay(START, tuple((group, REPEATS) for group in model.repeated), tuple(exponents.items()))
    )
    sheet, way = read(source(path.name, data), way)
    target = ImportTarget(follower, LINE)
    done = match_again(source(path.name, data), way, sheet, Guess(OF_MODELS), OF_MODELS, PROJECT, target)
    return done.plan


def laid_out(definition: dict[str, Any]) -> list[tuple[str, int, dict[str, Any]]]:
    """The points of a model as the reference lays them out: path, offset, definition."""
    model = device.Model(definition["id"], model_def=_with_counts(definition))
    found: list[tuple[str, int, dict[str, Any]]] = []

    def walk(group: Any, path: str) -> None:
        for point in group.points.values():
            found.append((f"{path}{point.pdef['name']}", point.offset, point.pdef))
        for name, inner in group.groups.items():
            if isinstance(inner, list):
                for number, one in enumerate(inner, start=1):
                    walk(one, f"{path}{name}{number}.")
            else:
                walk(inner, f"{path}{name}.")

    walk(model, "")
    return found


def _with_counts(definition: dict[str, Any]) -> dict[str, Any]:
    copy: dict[str, Any] = json.loads(json.dumps(definition))

    def fill(group: dict[str, Any]) -> None:
        for inner in group.get("groups", ()):
            if inner.get("count", 1) == 0 or isinstance(inner.get("count"), str):
                inner["count"] = REPEATS
            fill(inner)

    fill(copy["group"])
    return copy


def was_called(path: str, name: str) -> bool:
    """Whether a signal's name is a path whose groups lost letters at their ends to fit into 40 characters."""
    pattern = r"\.".join([*(re.sub(r"\w", r"\g<0>?", part) for part in path.split(".")[:-1]), path.split(".")[-1]])
    return len(path) > 40 and re.fullmatch(pattern, name) is not None


@pytest.mark.parametrize("path", MODELS, ids=lambda path: path.stem)
def test_every_point_stands_where_the_reference_puts_it(path: Path) -> None:
    chance = random.Random(20_260_401)
    definition = json.loads(path.read_text("utf-8"))
    factors = model_of(path.read_bytes()).scale_factors
    made = brought(path, INVERTER, **dict.fromkeys(factors, FACTOR))
    after = made.edit(PROJECT)
    assert parse(dump(after)) == after
    expected = laid_out(definition)
    left_out = made.left_out()
    names = {incoming.signal.name for incoming in made.incoming if not isinstance(incoming.signal, BitSignal)}
    wanted = [(name, offset, pdef) for name, offset, pdef in expected if pdef["type"] != "pad"]
    unfit = [pdef for _, _, pdef in wanted if pdef["type"] in ("ipv6addr", "eui48") or int(pdef["size"]) > 125]
    assert len(left_out) == len(unfit)
    assert len(names) == len(wanted) - len(unfit)
    for name, offset, pdef in wanted:
        if pdef in unfit:
            continue
        called = next(signal for signal in after.signals if signal.name == name or was_called(name, signal.name))
        binding = bind(after, called.name)
        reference = device.Point(pdef)
        assert (binding.address, binding.count) == (START + offset, reference.len)
        data = chance.randbytes(2 * binding.count)
        if pdef["type"] == "string":
            data = bytes(chance.choices(b"ABCxyz019-_.", k=2 * binding.count))
        words = [int.from_bytes(data[at : at + 2], "big") for at in range(0, len(data), 2)]
        number = reference.info.data_to(data)
        try:
            _, value = binding.decode(words)
        except Implausible:
            assert number is None or number != number or abs(number) == float("inf")
            continue
        if isinstance(value, str):
            assert value == number
            continue
        sf = pdef.get("sf")
        power = sf if isinstance(sf, int) else FACTOR if sf is not None else 0
        exact = Fraction(number) if isinstance(number, int) else value
        assert value == exact * Fraction(10) ** power
        symbols = {str(symbol["value"]): symbol for symbol in pdef.get("symbols", ())}
        if pdef["type"].startswith("enum"):
            assert set(called.texts) == set(symbols)
        elif pdef["type"].startswith("bitfield"):
            for symbol in symbols.values():
                bit = next(
                    signal
                    for signal in after.signals
                    if isinstance(signal, BitSignal) and signal.bit.of == name and signal.bit.number == symbol["value"]
                )
                assert bind(after, bit.name).decode(words)[0] == number >> symbol["value"] & 1
        assert getattr(called, "write", None) == (pdef.get("access") == "RW")


def test_unknown_scale_factors_leave_their_points_unscaled_with_a_note() -> None:
    path = FOLDER / "model_103.json"
    made = brought(path)
    after = made.edit(PROJECT)
    current = after.signal_named["A"]
    assert getattr(current, "scale", None) is None
    assert "x 10 to the power of A_SF" in current.notes
    assert "A_SF" in after.signal_named
    scaled = brought(path, A_SF=-2).edit(PROJECT).signal_named["A"]
    assert scaled.decimals == 2
    assert "power of" not in scaled.notes
    assert getattr(scaled, "scale", None) is not None
    assert bind(brought(path, A_SF=-2).edit(PROJECT), "A").decode([1234])[1] == Fraction(Decimal("12.34"))


def test_the_usual_addresses_are_those_of_the_reference() -> None:
    common = json.loads((FOLDER / "model_1.json").read_text("utf-8"))
    assert model_of((FOLDER / "model_1.json").read_bytes()).usual_start == 40_002
    length = sum(point["size"] for point in common["group"]["points"])
    assert model_of((FOLDER / "model_103.json").read_bytes()).usual_start == 40_002 + length
    assert mb.SUNS_UNIMPL_UINT16 == 65_535


@pytest.mark.parametrize(
    ("model", "name", "encode", "sent"),
    [(103, "WH", mb.u32_to_data, 3_000_123_456), (113, "Hz", mb.f32_to_data, 41.65)],
)
def test_a_device_that_sends_other_values_low_word_first_is_still_read_as_the_models_say(
    model: int, name: str, encode: Callable[[float], bytes], sent: float
) -> None:
    turned = PROJECT.replace(followers=(INVERTER.replace(word_order="low-first"),))
    after = brought(FOLDER / f"model_{model}.json", turned.followers[0]).edit(turned)
    raw, _ = bind(after, name).decode(struct.unpack(">2H", encode(sent)))
    assert raw == pytest.approx(sent, rel=1e-6)
    orders = {bind(after, signal.name).word_order for signal in after.signals if is_long(signal)}
    assert orders == {"high-first"}


def is_long(signal: object) -> bool:
    return isinstance(signal, RegisterSignal) and has_word_order(signal.encoding)
