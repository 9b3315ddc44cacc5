"""How soon the settings and the unit of an unknown device are found, over all that it may be: in seconds of the line.

python -m tests.bench.settings_search

Nothing is drawn and no clock is read: each of the 32 settings x 247 units, quick or late, is weighed by its prior.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import product
from typing import NamedTuple

from app.probing.priors import usual_priors
from app.probing.settings_search import TUNING_S, Attempt, SettingsOrder, SettingsState

QUANTILES = (0.5, 0.8, 0.9, 0.95)


class Expected(NamedTuple):
    """Seconds until the device is found."""

    mean: float
    quantiles: tuple[float, ...]
    """See QUANTILES."""


def expected(order: Iterable[Attempt]) -> Expected:
    """Of an order in which to try."""
    priors = usual_priors()
    seconds = total = share = 0.0
    settings = None
    quantiles: list[float] = []
    for attempt in order:
        seconds += attempt.cost_s - (TUNING_S if attempt.settings == settings else 0.0)
        settings = attempt.settings
        weight = priors.settings[settings] * priors.units[attempt.unit]
        weight *= priors.late if attempt.late else 1 - priors.late
        total += weight * seconds
        share += weight
        quantiles += [seconds] * sum(share >= wanted for wanted in QUANTILES[len(quantiles) :])
    return Expected(total / share, tuple(quantiles))


def ours() -> Sequence[Attempt]:
    """The order of the program."""
    return SettingsOrder(usual_priors(), SettingsState()).left()


def unit_by_unit() -> list[Attempt]:
    """What a person does: every setting for unit 1, then for unit 2; and all again more patiently."""
    priors = usual_priors()
    return [
        Attempt(settings, unit, late)
        for late, unit, settings in product((False, True), sorted(priors.units), sorted(priors.settings))
    ]


def setting_by_setting() -> list[Attempt]:
    """And every unit at the likeliest setting, then at the next."""
    priors = usual_priors()
    likely = sorted(priors.settings, key=lambda one: -priors.settings[one])
    return [
        Attempt(settings, unit, late) for late, settings, unit in product((False, True), likely, sorted(priors.units))
    ]


def main() -> None:
    """Print the three."""
    for name, order in (
        ("ours", ours()),
        ("unit by unit", unit_by_unit()),
        ("setting by setting", setting_by_setting()),
    ):
        found = expected(order)
        shares = "  ".join(f"{share:.0%} {at:.1f} s" for share, at in zip(QUANTILES, found.quantiles, strict=True))
        print(f"{name:20} mean {found.mean:6.1f} s  {shares}")


if __name__ == "__main__":
    main()
