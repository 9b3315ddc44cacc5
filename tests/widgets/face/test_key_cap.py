"""Keys beside words: what stands on their caps."""

from __future__ import annotations

from PySide6.QtGui import QFont
from pytestqt.qtbot import QtBot

from widgets.face.key_cap import cap_legend, cap_width
from widgets.face.keypad import key_legend


def test_arrows_are_drawn_and_other_keys_named() -> None:
    arrows = [cap_legend(key) for key in ("left", "Right", "up", "down")]
    assert len(set(arrows)) == 4
    assert all(len(each) == 1 and not each.isascii() for each in arrows)
    assert cap_legend("escape") == key_legend("escape")
    assert cap_legend("f1") == "F1"


def test_a_cap_is_as_wide_as_its_legend_needs(qtbot: QtBot) -> None:
    font = QFont()
    assert cap_width("A", font) == cap_width("I", font), "short ones are alike"
    assert cap_width("ACKNOWLEDGE", font) > cap_width("STOP", font) >= cap_width("A", font)
