"""A project to edit."""

from __future__ import annotations

import pytest

from app.project.model import Project
from app.project_file.files import parse

WHOLE = """
format = 2
[panel]
rows = 3
columns = 16
start = "run"
[[line]]
name = "hall"
kind = "serial"
device = "COM3"
[[follower]]
name = "fan"
line = "hall"
[[signal]]
name = "speed"
follower = "fan"
register = 401
[[signal]]
name = "command"
follower = "fan"
register = 300
write = true
[[signal]]
name = "running"
bit = { of = "command", number = 4 }
[[signal]]
name = "preset"
held = 5
[[signal]]
name = "spare"
held = 1
[[screen]]
name = "run"
text = ["Speed      Hz", "", "State"]
[[screen.field]]
at = [0, 6]
width = 5
signal = "speed"
[[screen.field]]
at = [2, 6]
width = 7
signal = "running"
kind = "choice"
blink = { signal = "running" }
[[screen]]
name = "status"
text = ["Status"]
[[screen]]
name = "fault"
[[screen_change]]
from = "run"
key = "right"
to = "status"
[[screen_change]]
from = "status"
key = "left"
to = "run"
[[screen_change]]
when = { signal = "running" }
to = "fault"
[[action]]
key = "up"
do = "write"
signal = "speed"
value = { from = "preset" }
[[action]]
from = "status"
key = "down"
do = "set"
signal = "running"
"""


@pytest.fixture
def project() -> Project:
    return parse(WHOLE)
