"""A small project for tests of the bench: a drive and a bank on one TCP line, a jog key, a set point, two screens."""

from __future__ import annotations

from app.project.model import Project
from app.project_file.files import parse

TEXT = """
format = 2
title = "Bench"

[panel]
start = "run"
keys = ["left", "right", "up", "down", "enter", "escape", "jog", "start", "stop"]

[[line]]
name = "hall"
kind = "tcp"
host = "127.0.0.1"
port = {port}
timeout_ms = 150

[[follower]]
name = "fan"
line = "hall"
unit = 1
simulate = "drive"

[[follower]]
name = "tank"
line = "hall"
unit = 2

[[signal]]
name = "command"
follower = "fan"
register = 300
write = true

[[signal]]
name = "run"
bit = {{ of = "command", number = 4 }}
write = true

[[signal]]
name = "set point"
follower = "fan"
register = 310
scale = {{ raw = [0, 10000], value = [0, 50] }}
unit = "Hz"
decimals = 1
limits = [0, 50]
step = 0.5
start_value = 20.0
write = true
every_ms = 100

[[signal]]
name = "frequency"
follower = "fan"
table = "input"
register = 401
encoding = "int16"
scale = {{ raw = [0, 10000], value = [0, 50] }}
unit = "Hz"
decimals = 1
every_ms = 100

[[signal]]
name = "fan fault"
follower = "fan"
table = "discrete"
register = 3
texts = {{ 0 = "no fault", 1 = "FAULT" }}
every_ms = 100

[[signal]]
name = "remote"
follower = "fan"
table = "discrete"
register = 0
texts = {{ 0 = "local", 1 = "remote" }}
every_ms = 100

[[signal]]
name = "level"
follower = "tank"
register = 5
unit = "%"
start_value = 63
every_ms = 100

[[signal]]
name = "recipe"
held = 4

[[screen]]
name = "run"
text = ["Set point         Hz", "Speed             Hz", "", ""]
[[screen.field]]
at = [0, 12]
width = 5
signal = "set point"
entry = true
[[screen.field]]
at = [1, 12]
width = 5
signal = "frequency"
[[screen.field]]
at = [2, 0]
width = 8
signal = "fan fault"
kind = "choice"

[[screen]]
name = "tank"
text = ["Tank level     %", "", "", ""]
[[screen.field]]
at = [0, 11]
width = 3
signal = "level"

[[screen_change]]
key = "right"
to = "next"
[[screen_change]]
key = "left"
to = "previous"

[[action]]
key = "jog"
do = "momentary"
signal = "run"
[[action]]
key = "start"
do = "set"
signal = "run"
[[action]]
key = "stop"
do = "clear"
signal = "run"
"""


def bench_project(port: int = 1502) -> Project:
    """The project; its line leads to this TCP port of this computer."""
    return parse(TEXT.format(port=port))
