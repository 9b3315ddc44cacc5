"""The line in which registers are named that must not be touched."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from widgets.find_out.never_touch import NeverTouch


@pytest.fixture
def line(qtbot: QtBot) -> NeverTouch:
    made = NeverTouch()
    qtbot.addWidget(made)
    return made


def test_tables_and_wire_addresses(line: NeverTouch) -> None:
    line.setText(" holding:100-119,input : 7 , holding:0-0,")
    assert line.untouched() == {"holding": [range(100, 120), range(1)], "input": [range(7, 8)]}
    line.clear()
    assert line.untouched() == {}


@pytest.mark.parametrize("text", ["7", "holding", "holdings:7", "holding:9-2", "input:65536", "coil:-3", "coil:1-"])
def test_what_names_none_is_told(line: NeverTouch, text: str) -> None:
    line.setText(f"holding:1, {text}")
    with pytest.raises(ValueError, match=f"\u201c{text}\u201d names no registers"):
        line.untouched()


def test_others_are_named_beside_what_a_person_typed(line: NeverTouch) -> None:
    line.name_too({"holding": (range(7, 8),)})
    assert line.text() == "holding:7"
    line.setText("input:3-4,holding:7")
    line.name_too({"holding": (range(7, 8), range(100, 120))})
    assert line.untouched() == {"input": [range(3, 5)], "holding": [range(7, 8), range(100, 120)]}
    line.setText("nonsense")
    line.name_too({"holding": (range(7, 8),)})
    assert line.text() == "nonsense, holding:7"
    line.setText("input:3")
    line.name_too({})
    assert line.text() == "input:3"
