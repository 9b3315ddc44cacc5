"""The canonical text: as the design shows it, stable, and complete."""

from __future__ import annotations

import tomllib
from decimal import Decimal

import pytest

from app.project.model import HeldSignal, Panel, Part, Project, Screen
from app.project.paths import attributes
from app.project_file.canonical import number_text
from app.project_file.files import dump, parse
from app.project_file.layout import LAYOUTS

WHOLE = """\
format = 2
title = "Booster pump"
notes = \"\"\"
One pump.
Two tanks.\"\"\"

[panel]
rows = 2
columns = 20
repertoire = "ascii"
keys = ["left", "right", "enter"]
start = "run"

[panel.entry]
by = "digit"
timeout_s = 10

[[line]]
name = "pumproom"
kind = "serial"
device = "/dev/ttyUSB0"
baud = 19200
parity = "even"
stop_bits = 1
timeout_ms = 300

[[line]]
name = "roof"
kind = "tcp"
host = "192.0.2.7"
port = 502
timeout_ms = 500

[[follower]]
name = "pump"
line = "pumproom"
unit = 3
numbering = "from-0"
word_order = "high-first"
simulate = "drive"

[[signal]]
name = "speed_set"
follower = "pump"
table = "holding"
register = 310
encoding = "uint16"
scale = { raw = [0, 10000], value = [0, 50] }
unit = "Hz"
decimals = 1
limits = [0, 50]
step = 0.1
write = true
start_value = 7.5

[[signal]]
name = "status"
follower = "pump"
table = "input"
register = 400
encoding = "uint16"

[[signal]]
name = "running"
bit = { of = "status", number = 2 }
texts = { -1 = "?", 0 = "stopped", 1 = "running" }

[[signal]]
name = "fault"
follower = "pump"
table = "input"
register = 404
encoding = "uint16"
notes = "See its manual."

[signal.texts]
0 = "no fault"
1 = "more current than the motor can bear"
2 = "more voltage than the direct-current link can bear"
10 = "too hot"

[[signal]]
name = "preset"
held = 5
limits = [-0.5, 1000]

[[screen]]
name = "run"
text = [
  "Set point         Hz",
  "",
]

[[screen.field]]
at = [0, 12]
width = 5
signal = "speed_set"
kind = "number"
entry = true
blink = { signal = "running", is = "set" }

[[screen.field]]
at = [1, 0]
width = 8
signal = "running"
kind = "choice"

[[screen]]
name = "fault"

[[screen_change]]
from = "run"
key = "right"
to = "next"

[[screen_change]]
when = { signal = "status", is = "above", value = 7 }
to = "fault"

[[screen_change]]
idle_s = 120
to = "run"

[[action]]
from = "run"
key = "enter"
do = "write"
signal = "speed_set"
value = { from = "preset" }

[[action]]
key = "left"
do = "write"
signal = "speed_set"
value = 0.25
"""


def test_the_text_of_a_project_that_has_everything() -> None:
    assert dump(parse(WHOLE)) == WHOLE


def test_another_spelling_of_the_same_is_written_the_same() -> None:
    other = (
        WHOLE.replace("timeout_ms = 300", "timeout_ms = 3_0_0 # why")
        .replace("held = 5", "held = 5.000")
        .replace("[-0.5, 1000]", "[-5e-1,1e3]")
        .replace('0 = "stopped", 1 = "running"', "1 = 'running', 0 = 'stopped'")
    )
    assert dump(parse(other)) == WHOLE


@pytest.mark.parametrize(
    ("number", "text"),
    [
        ("0", "0"),
        ("-0", "0"),
        ("0.00", "0"),
        ("0E+9", "0"),
        ("5.0", "5"),
        ("50", "50"),
        ("1E+2", "100"),
        ("0.10", "0.1"),
        ("-12.50", "-12.5"),
        ("1E-7", "0.0000001"),
        ("18446744073709551615", "18446744073709551615"),
        ("0.1234567890123456789012345678901234567890", "0.123456789012345678901234567890123456789"),
    ],
)
def test_numbers_are_short_and_exact(number: str, text: str) -> None:
    assert number_text(Decimal(number)) == text
    assert Decimal(text) == Decimal(number)


@pytest.mark.parametrize(
    "text",
    [
        '"',
        "\\",
        "\t",
        "\n",
        "\r\n",
        "\x00\x7f",
        "\u2028",
        "ä µ °",
        "🙂",
        "'''",
        '"""',
        "a\n\\\n b",
        '"\n"""\n',
        " ",
    ],
)
def test_every_text_comes_back(text: str) -> None:
    project = Project(
        title=text, notes=text, panel=Panel(start="run"), screens=(Screen(name="run", text=(text,), notes=text),)
    )
    assert parse(dump(project)) == project
    assert tomllib.loads(dump(project))["notes" if text else "title"] == text


def test_texts_stand_in_the_order_of_their_values_whatever_they_were_written_in() -> None:
    def told(texts: dict[str, str]) -> str:
        signal = HeldSignal(name="x", held=Decimal(0), texts=texts)
        return dump(Project(panel=Panel(start="run"), screens=(Screen(name="run"),), signals=(signal,)))

    assert told({"10": "b", "-2": "a", "9": "c"}) == told({"9": "c", "10": "b", "-2": "a"})
    assert 'texts = { -2 = "a", 9 = "c", 10 = "b" }' in told({"10": "b", "-2": "a", "9": "c"})


def parts(base: type[Part]) -> set[type[Part]]:
    found = {base}.union(*(parts(model) for model in base.__subclasses__()))
    return {model for model in found if model.__module__ == "app.project.model"}


def test_the_layout_has_every_model_and_every_key() -> None:
    # Abstract models stand in no file themselves.
    assert {model.__name__ for model in parts(Part) - set(LAYOUTS)} == {"Part", "LinePart", "Presentation"}
    for model, layout in LAYOUTS.items():
        assert sorted(layout.keys) == sorted(attributes(model)), model
        assert layout.stated <= set(layout.keys), model
