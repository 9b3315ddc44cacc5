"""A project without a single finding, and edits that break it in one place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from app.checks import Finding, check
from app.project.model import Action, Field, Follower, Panel, Part, Project, Screen, ScreenChange
from app.project.problems import Place
from app.project_file.files import parse

GOOD = """
format = 2
title = "Conveyor"

[panel]
rows = 4
columns = 20
keys = ["left", "right", "up", "down", "enter", "escape", "start", "stop", "jog"]
start = "run"

[[line]]
name = "hall"
kind = "serial"
device = "/dev/ttyUSB0"

[[line]]
name = "yard"
kind = "tcp"
host = "192.0.2.7"

[[follower]]
name = "belt"
line = "hall"
unit = 3
communication_timeout_ms = 3000
simulate = "drive"

[[follower]]
name = "scale"
line = "yard"
numbering = "prefixed"
max_registers = 8

[[signal]]
name = "command"
follower = "belt"
register = 300
write = true

[[signal]]
name = "run"
bit = { of = "command", number = 4 }
write = true

[[signal]]
name = "speed set"
follower = "belt"
register = 310
scale = { raw = [0, 10000], value = [0, 50] }
unit = "Hz"
decimals = 1
limits = [5, 50]
step = 0.1
write = true
start_value = 20

[[signal]]
name = "status"
follower = "belt"
table = "input"
register = 400

[[signal]]
name = "running"
bit = { of = "status", number = 4 }
texts = { 0 = "stopped", 1 = "running" }

[[signal]]
name = "fault"
bit = { of = "status", number = 7 }

[[signal]]
name = "frequency"
follower = "belt"
table = "input"
register = 401
encoding = "int16"
scale = { raw = [0, 10000], value = [0, 50] }
unit = "Hz"
decimals = 1

[[signal]]
name = "power"
follower = "belt"
table = "input"
register = 408
encoding = "float32"
unit = "kW"
decimals = 1
limits = [-10, 10]

[[signal]]
name = "weight"
follower = "scale"
table = "input"
register = 30001
encoding = "uint32"
unit = "kg"

[[signal]]
name = "batch"
follower = "scale"
table = "input"
register = 30011
encoding = "string"
length = 4

[[signal]]
name = "lamp"
follower = "scale"
table = "coil"
register = 1
texts = { 0 = "off", 1 = "on" }
write = true

[[signal]]
name = "slow speed"
held = 10.0
unit = "Hz"
decimals = 1
limits = [5, 20]
step = 0.5

[[screen]]
name = "run"
text = [
  "Set point        Hz",
  "Speed            Hz",
]

[[screen.field]]
at = [0, 11]
width = 5
signal = "speed set"
entry = true

[[screen.field]]
at = [1, 10]
width = 6
signal = "frequency"

[[screen.field]]
at = [2, 0]
width = 7
signal = "running"
kind = "choice"

[[screen.field]]
at = [3, 0]
width = 20
signal = "frequency"
kind = "bar"
range = [0, 50]

[[screen]]
name = "scale"
text = [
  "Weight           kg",
  "Batch",
  "Lamp          Slow",
  "Power            kW",
]

[[screen.field]]
at = [0, 7]
width = 10
signal = "weight"

[[screen.field]]
at = [1, 6]
width = 8
signal = "batch"

[[screen.field]]
at = [2, 5]
width = 3
signal = "lamp"
kind = "choice"
entry = true

[[screen.field]]
at = [3, 10]
width = 5
signal = "power"

[[screen]]
name = "slow"
text = ["Slow speed       Hz"]

[[screen.field]]
at = [0, 12]
width = 4
signal = "slow speed"
entry = true

[[screen]]
name = "fault"
text = ["Fault"]

[[screen_change]]
key = "right"
to = "next"

[[screen_change]]
key = "left"
to = "previous"

[[screen_change]]
when = { signal = "fault" }
to = "fault"

[[screen_change]]
idle_s = 120
to = "run"

[[action]]
key = "start"
do = "set"
signal = "run"

[[action]]
key = "stop"
do = "clear"
signal = "run"

[[action]]
from = "slow"
key = "jog"
do = "momentary"
signal = "run"

[[action]]
from = "scale"
key = "jog"
do = "write"
signal = "speed set"
value = { from = "slow speed" }
"""

SECTIONS = {
    "line": "lines",
    "follower": "followers",
    "signal": "signals",
    "screen": "screens",
    "screen_change": "screen_changes",
}
SECTIONS |= {"action": "actions", "field": "fields"}


@dataclass(frozen=True)
class Draft:
    """A project under edit. Every edit gives another draft, so a broken one and a mended one can share a beginning."""

    project: Project

    def place(self, kind: str, name: str) -> Place:
        """Where the part of that name stands."""
        names = [part.name for part in getattr(self.project, SECTIONS[kind])]
        return (kind, names.index(name))

    def change(self, place: Place, **changes: Any) -> Draft:
        """The part at `place` with other attributes."""
        changed = _changed(self.project, place, changes)
        assert isinstance(changed, Project)
        return Draft(changed)

    def signal(self, name: str, **changes: Any) -> Draft:
        return self.change(self.place("signal", name), **changes)

    def field(self, screen: str, number: int, **changes: Any) -> Draft:
        return self.change((*self.place("screen", screen), "field", number), **changes)

    def panel(self, **changes: Any) -> Draft:
        return Draft(self.project.replace(panel=self.project.panel.replace(**changes)))

    def add(self, *parts: Part) -> Draft:
        """The project with parts added at the ends of their sections."""
        project = self.project
        for part in parts:
            section = {Follower: "followers", Screen: "screens", ScreenChange: "screen_changes", Action: "actions"}.get(
                type(part)
            )
            section = section or ("lines" if "Line" in type(part).__name__ else "signals")
            project = project.replace(**{section: (*getattr(project, section), part)})
        return Draft(project)

    def add_field(self, screen: str, field: Field) -> Draft:
        place = self.place("screen", screen)
        index = place[1]
        assert isinstance(index, int)
        return self.change(place, fields=(*self.project.screens[index].fields, field))

    def without(self, place: Place) -> Draft:
        """The project without the part at `place`, which is one of a section."""
        kind, index = place
        section = SECTIONS[str(kind)]
        parts = getattr(self.project, section)
        assert isinstance(index, int)
        return Draft(self.project.replace(**{section: parts[:index] + parts[index + 1 :]}))

    def only(self) -> Finding:
        """The one finding that there is."""
        found = check(self.project)
        assert len(found) == 1, "\n".join(str(finding) for finding in found) or "nothing found"
        assert found[0].message
        assert found[0].hint
        return found[0]

    def all(self) -> tuple[Finding, ...]:
        return check(self.project)

    def only_of(self, rule: str) -> Finding:
        """The one finding of that rule, where others cannot but come with it."""
        found = [finding for finding in check(self.project) if finding.rule == rule]
        assert len(found) == 1, "\n".join(str(finding) for finding in found) or "nothing found"
        assert found[0].message
        assert found[0].hint
        return found[0]

    def only_all(self, rule: str) -> list[Finding]:
        """All findings, which are all of that rule."""
        found = list(check(self.project))
        assert {finding.rule for finding in found} == {rule}, "\n".join(str(finding) for finding in found)
        return found

    def clean(self) -> bool:
        """Whether nothing at all is found."""
        found = check(self.project)
        assert not found, "\n".join(str(finding) for finding in found)
        return True


def _changed(part: Part, place: Place, changes: dict[str, Any]) -> Part:
    if not place:
        return part.replace(**changes)
    kind, index, *rest = place
    assert isinstance(index, int)
    section = SECTIONS[str(kind)]
    parts = getattr(part, section)
    new = _changed(parts[index], tuple(rest), changes)
    return part.replace(**{section: (*parts[:index], new, *parts[index + 1 :])})


@pytest.fixture(scope="session")
def good() -> Draft:
    """A project in which nothing is found."""
    return Draft(parse(GOOD))


@pytest.fixture
def empty() -> Draft:
    """A project as it is begun: a panel, and a name for its first screen."""
    return Draft(Project(panel=Panel(start="run")))
