"""What a write is for, as the file says it: 'stops', and what holds without it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from app.comparison.comparison import compare
from app.comparison.words import in_lines
from app.project.model import Action
from app.project.purpose import Purpose, purpose_of
from app.project_file.files import ProjectFileError, dump, parse

HEAD = """
format = 2
[panel]
start = "run"
keys = ["stop"]
[[line]]
name = "line"
kind = "tcp"
host = "drive.example"
[[follower]]
name = "drive"
line = "line"
[[signal]]
name = "run"
follower = "drive"
register = 1
write = true
[[signal]]
name = "preset"
held = 0
[[screen]]
name = "run"
[[action]]
key = "stop"
signal = "run"
"""


@pytest.mark.parametrize(
    ("deed", "value", "purpose"),
    [
        ({"do": "clear"}, 0, Purpose.STOP),
        ({"do": "clear", "stops": False}, 0, Purpose.VALUE),
        ({"do": "set"}, 1, Purpose.VALUE),
        ({"do": "set", "stops": True}, 1, Purpose.STOP),
        ({"do": "toggle"}, 0, Purpose.STOP),
        ({"do": "toggle"}, 1, Purpose.VALUE),
        ({"do": "toggle", "stops": False}, 0, Purpose.VALUE),
        ({"do": "momentary"}, 1, Purpose.VALUE),
        ({"do": "momentary"}, 0, Purpose.RELEASE),
        ({"do": "momentary", "stops": False}, 0, Purpose.VALUE),
        ({"do": "write", "value": 0}, 0, Purpose.VALUE),
        ({"do": "write", "value": 0, "stops": True}, 0, Purpose.STOP),
        ({"do": "write", "value": 1150, "stops": True}, 1150, Purpose.STOP),
    ],
)
def test_what_a_write_is_for(deed: dict[str, Any], value: int, purpose: Purpose) -> None:
    assert purpose_of(Action(key="stop", signal="run", **deed), Fraction(value)) is purpose


def test_a_file_keeps_it_and_a_comparison_tells_it() -> None:
    before, after = parse(HEAD + 'do = "clear"\n'), parse(HEAD + 'do = "clear"\nstops = false\n')
    assert 'do = "clear"\nsignal = "run"\nstops = false\n' in dump(after)
    assert "stops" not in dump(before)
    assert parse(dump(after)) == after
    assert any("stops" in line and "false" in line for line in in_lines(compare(before, after)))


@pytest.mark.parametrize(
    ("deed", "words"),
    [
        ('do = "begin-entry"\nstops = true\n', "'stops' is only for actions that write a value, not for 'begin-entry'"),
        ('do = "write"\nvalue = { from = "preset" }\nstops = true\n', "a held value can start something"),
    ],
)
def test_what_cannot_stop_is_refused(deed: str, words: str) -> None:
    with pytest.raises(ProjectFileError, match=words):
        parse(HEAD + deed)
