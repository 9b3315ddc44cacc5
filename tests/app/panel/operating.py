"""A panel under test with somebody in front of it: presses keys, lets time pass, sets readings, remembers effects."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from app.panel.machine import Effect, KeyDown, KeyUp, Mode, PanelEvent, ReleaseAll, State, Tick, Write, begin, step
from app.panel.rendering import Attribute, Rows, render
from app.project.model import Project
from app.signals.reading import Quality, Reading
from tests.builders import project_of

FOLLOWER: dict[str, Any] = {
    "line": [{"name": "line", "kind": "tcp", "host": "pump.example"}],
    "follower": [{"name": "pump", "line": "line"}],
}


def register(name: str, number: int, **more: Any) -> dict[str, Any]:
    """A writable register signal, as the project file has it."""
    return {"name": name, "follower": "pump", "register": number, "write": True, **more}


def exact(value: Any) -> Any:
    """Floats become the decimal numbers that were written, as the reader of project files does it."""
    if isinstance(value, float):
        return Decimal(repr(value))
    if isinstance(value, dict):
        return {key: exact(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [exact(inner) for inner in value]
    return value


def project(**parts: Any) -> Project:
    """A project with one follower; `panel` may leave out what does not matter."""
    panel = {"rows": 2, "columns": 16, **parts.pop("panel", {})}
    return project_of(**exact({**FOLLOWER, "panel": panel, **parts}))


class Operator:
    """Stands in front of one panel. Time begins at 100 s."""

    def __init__(self, project: Project) -> None:
        self.project = project
        self.at = 100.0
        self.readings: dict[str, Reading] = {}
        self.effects: list[Effect] = []
        self.state: State = begin(project, self.at)

    def feed(self, event: PanelEvent) -> tuple[Effect, ...]:
        self.state, effects = step(self.project, self.state, event, self.readings)
        self.effects += effects
        return effects

    def down(self, key: str) -> tuple[Effect, ...]:
        return self.feed(KeyDown(key, self.at))

    def up(self, key: str) -> tuple[Effect, ...]:
        return self.feed(KeyUp(key, self.at))

    def press(self, *keys: str) -> tuple[Effect, ...]:
        """Press keys one after another, 0.1 s each. Returns what all of them brought about."""
        effects: tuple[Effect, ...] = ()
        for key in keys:
            effects += self.down(key)
            self.at += 0.1
            effects += self.up(key)
        return effects

    def wait(self, seconds: float, every: float = 0.05) -> tuple[Effect, ...]:
        """Let time pass, with a tick every so often and one at the end."""
        effects: tuple[Effect, ...] = ()
        end = self.at + seconds
        while self.at < end:
            self.at = min(self.at + every, end)
            effects += self.feed(Tick(self.at))
        return effects

    def tick(self) -> tuple[Effect, ...]:
        return self.feed(Tick(self.at))

    def release_all(self) -> tuple[Effect, ...]:
        return self.feed(ReleaseAll(self.at))

    def read(self, name: str, value: Fraction | int | str, quality: Quality = Quality.GOOD, reason: str = "") -> None:
        """Set one reading, without telling the panel yet."""
        raw = value if isinstance(value, int | str) else float(value)
        self.readings[name] = Reading(
            raw, value if isinstance(value, str) else Fraction(value), quality, reason, self.at
        )

    def lose(self, name: str, quality: Quality = Quality.STALE, reason: str = "no answer") -> None:
        """Turn a reading bad; its value stays as the last one."""
        last = self.readings.get(name, Reading())
        self.readings[name] = Reading(last.raw, last.value, quality, reason, last.time)

    def does(self, mode: Mode) -> bool:
        return self.state.mode is mode

    @property
    def rows(self) -> Rows:
        return render(self.project, self.state, self.readings, self.at)

    @property
    def texts(self) -> list[str]:
        return [row.text for row in self.rows]

    @property
    def told(self) -> str:
        """The message that lies over whole rows, its words joined again; empty if there is none."""
        inverse = self.looks(Attribute.INVERSE)
        return " ".join(text.strip() for text, look in zip(self.texts, inverse, strict=True) if text == look)

    def looks(self, attribute: Attribute) -> list[str]:
        """For each row, the cells that have the attribute: their characters, and '.' for the others."""
        return [
            "".join(
                character if look & attribute else "." for character, look in zip(row.text, row.attributes, strict=True)
            )
            for row in self.rows
        ]

    @property
    def writes(self) -> list[tuple[str, Fraction | int]]:
        """All writes so far."""
        return [(effect.signal, effect.value) for effect in self.effects if isinstance(effect, Write)]
