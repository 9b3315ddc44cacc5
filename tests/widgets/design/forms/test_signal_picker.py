"""Choosing a signal by a few letters."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.project.model import HeldSignal, RegisterSignal
from app.project_file.files import load
from projects import demo_path
from widgets.design.forms.signal_picker import SignalPicker


@pytest.mark.parametrize(
    ("typed", "placed"),
    [
        ("at speed", "at speed"),
        ("speed", "Speed reference"),
        ("ref", "Speed reference"),
        ("pump float32", "Speed reference"),
        ("PRESS", "suction pressure"),
    ],
)
def test_enter_places_what_fits_best(qtbot: QtBot, typed: str, placed: str) -> None:
    project = load(demo_path("booster-pump"))
    reference = RegisterSignal(name="Speed reference", follower="pump", number=900, encoding="float32")
    others = [HeldSignal(name=name, held=Decimal(0)) for name in ("at speed", "overpressure", "suction pressure")]
    picker = SignalPicker(project.replace(signals=(reference, *others), screens=(), screen_changes=(), actions=()))
    qtbot.addWidget(picker)
    picked: list[str] = []
    picker.picked.connect(lambda name, _kind, _entry: picked.append(name))
    picker.show()
    QTest.keyClicks(picker.search, typed)
    QTest.keyClick(picker.search, Qt.Key.Key_Return)
    assert picked == [placed]


def test_entry_is_offered_for_what_can_be_written(qtbot: QtBot) -> None:
    project = load(demo_path("booster-pump"))
    picker = SignalPicker(project)
    qtbot.addWidget(picker)
    picked: list[tuple[str, bool]] = []
    picker.picked.connect(lambda name, _kind, entry: picked.append((name, entry)))
    picker.show()
    QTest.keyClicks(picker.search, "speed set point")
    assert picker.entry.isEnabled()
    assert not picker.entry.isChecked(), "never by an Enter that was meant for the signal"
    picker.entry.setChecked(True)
    picker.kind.setCurrentIndex(picker.kind.findData("bar"))
    assert not picker.entry.isEnabled()
    picker.kind.setCurrentIndex(picker.kind.findData("number"))
    assert picker.entry.isChecked()
    picker.search.clear()
    QTest.keyClicks(picker.search, "frequency")
    assert not picker.entry.isEnabled(), "it is only read"
    picker.search.clear()
    QTest.keyClicks(picker.search, "speed set point")
    assert not picker.entry.isChecked()
    picker.entry.setChecked(True)
    QTest.keyClick(picker.search, Qt.Key.Key_Return)
    assert picked == [("speed set point", True)]
