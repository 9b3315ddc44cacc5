"""What decoding and binding cost: fifty signals at 10 Hz, a project of two thousand."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from pytest_benchmark.fixture import BenchmarkFixture

from app.project.binding import bindings, derive_bits, shown_text
from app.project.model import Project
from app.signals.reading import Reading
from tests.builders import project_of


def project(registers: int, bits: int) -> Project:
    signals: list[dict[str, Any]] = [
        {
            "name": f"speed {number}",
            "follower": "pump",
            "register": number,
            "encoding": "int16",
            "scale": {"raw": [0, 10_000], "value": [0, Decimal("50.5")]},
            "decimals": 1,
        }
        for number in range(registers)
    ]
    signals += [
        {"name": f"bit {number}", "bit": {"of": f"speed {number % registers}", "number": number % 16}}
        for number in range(bits)
    ]
    follower = {"name": "pump", "line": "pumproom"}
    return project_of(follower=[follower], signal=signals)


def test_fifty_signals_decoded_and_shown(benchmark: BenchmarkFixture) -> None:
    whole = project(40, 10)

    def one_pass() -> list[str]:
        readings: dict[str, Reading] = {
            name: binding.reading((number,), 1.0)
            for number, (name, binding) in enumerate(bindings(whole).items())
            if binding.bit is None
        }
        readings |= derive_bits(whole, readings)
        return [shown_text(whole, name, reading.value, 6, "number") for name, reading in readings.items()]

    shown = benchmark(one_pass)
    assert len(shown) == 50
    assert shown[30].strip() == "0.2"  # 30 x 50.5 / 10000 = 0.1515


def test_two_thousand_signals_bound(benchmark: BenchmarkFixture) -> None:
    whole = project(1_500, 500)

    def fresh() -> tuple[tuple[Project], dict[str, Any]]:
        # a deep copy shares no signal, so that nothing is taken over from before
        return (whole.model_copy(deep=True),), {}

    assert len(benchmark.pedantic(bindings, setup=fresh, rounds=3)) == 2_000


def test_two_thousand_signals_bound_after_an_edit(benchmark: BenchmarkFixture) -> None:
    whole = project(1_500, 500)
    bindings(whole)

    def edited() -> tuple[tuple[Project], dict[str, Any]]:
        return (whole.replace(title="edited"),), {}

    assert len(benchmark.pedantic(bindings, setup=edited, rounds=3)) == 2_000
