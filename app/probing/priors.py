"""How likely each setting and unit address is before anything was asked: data with its reasons, and the order by it."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Final, TypeVar

from app.modbus.serial_port import LineSettings
from app.probing.probe import MOST_UNIT

K = TypeVar("K")

EXPECTED: Final = 0.8
"""Common practice, no source: what a project says is mostly so."""


@dataclass(frozen=True, slots=True)
class Priors:
    """Shares, each table adding up to 1."""

    settings: Mapping[LineSettings, float]
    units: Mapping[int, float]
    late: float
    """That an answer comes only to whoever waits longer, or asks again."""

    def among(self, settings: Iterable[LineSettings] = (), units: Iterable[int] = ()) -> Priors:
        """The same where only these can be; empty: all. What is not in the data at all is as likely as its least."""
        return Priors(_among(self.settings, tuple(settings)), _among(self.units, tuple(units)), self.late)

    def expecting(self, unit: int | None) -> Priors:
        """The same where somebody said that it is this unit; who says so is right in EXPECTED of all cases."""
        if unit is None or unit not in self.units:
            return self
        units = {one: share * (1 - EXPECTED) for one, share in self.units.items()}
        return Priors(self.settings, {**units, unit: units[unit] + EXPECTED}, self.late)

    def likeliest_units(self) -> list[int]:
        """All units, the likeliest first."""
        return sorted(self.units, key=lambda unit: (-self.units[unit], unit))


def _among(known: Mapping[K, float], wanted: tuple[K, ...]) -> Mapping[K, float]:
    if not wanted:
        return known
    least = min(known.values())
    shares = {one: known.get(one, least) for one in wanted}
    whole = sum(shares.values())
    return {one: share / whole for one, share in shares.items()}


@cache
def usual_priors() -> Priors:
    """Those of `resources/discovery/priors.toml`."""
    data = tomllib.loads((resources.files("resources") / "discovery" / "priors.toml").read_text("utf-8"))
    settings = {
        LineSettings(speed["baud"], form["parity"], form["stop_bits"]): float(speed["weight"] * form["weight"])
        for speed in data["speed"]
        for form in data["characters"]
    }
    units = {
        unit: part["weight"] / (part["last"] - part["first"] + 1)
        for part in data["unit"]
        for unit in range(part["first"], part["last"] + 1)
    }
    if sorted(units) != list(range(1, MOST_UNIT + 1)):
        raise ValueError("priors.toml: each unit from 1 to 247 once")
    return Priors(_shares(settings), _shares(units), data["late"]["weight"] / data["late"]["of"])


def _shares(weights: Mapping[K, float]) -> Mapping[K, float]:
    whole = sum(weights.values())
    return {one: weight / whole for one, weight in weights.items()}
