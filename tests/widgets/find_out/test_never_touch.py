"""The line in which registers are named that must not be touched."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from widgets.find_out.never_touch import NeverTouch, address_span


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


@pytest.mark.parametrize(
    ("text", "span"), [("0-65535", (0, 65_535)), ("7", (7, 7)), ("0-65536", None), ("", None), ("1-2-3", None)]
)
def test_spans(text: str, span: tuple[int, int] | None) -> None:
    assert address_span(text) == span
