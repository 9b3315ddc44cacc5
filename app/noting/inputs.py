"""What a person does to simulated devices, told as orders of a trial by looking at them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from app.follower.drive_bank import DriveBank
from app.follower.operate import SWITCHES
from app.follower.register_bank import RegisterBank


class InputsWatched:
    """The inputs of simulated devices: their switches, the supply, the preset speed, and whether they are silent."""

    def __init__(self, models: Mapping[str, RegisterBank]) -> None:
        self._models = models
        self._were = dict(self._now())

    def orders(self) -> tuple[str, ...]:
        """What was changed since the last look, each as an order: DEVICE.WHAT=VALUE."""
        now = dict(self._now())
        changed = [f"{what}={value}" for what, value in now.items() if value != self._were[what]]
        self._were = now
        return tuple(changed)

    def _now(self) -> Iterator[tuple[str, str]]:
        for name, model in self._models.items():
            yield f"{name}.silent", _on(model.silent)
            if isinstance(model, DriveBank):
                for switch, (attribute, means) in SWITCHES.items():
                    yield f"{name}.{switch}", _on(getattr(model.inputs, attribute) is means)
                yield f"{name}.supply", str(round(100 * model.inputs.supply))
                yield f"{name}.preset", str(model.inputs.preset)


def _on(state: bool) -> str:
    return "on" if state else "off"
