"""The page "Which register is it?", operated by keys against a device whose registers are in a dictionary."""

from __future__ import annotations

import datetime
import random
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.discovery.into_project import NamedRegister
from app.discovery.past import PastRegisters
from app.matching.reading_ways import RegisterWords
from app.signals.numbering import Table
from tests.app.matching.test_match import at, crowd
from tests.widgets.driving import shown
from widgets.find_out import which_register
from widgets.find_out.match_tables import CandidateColumn, ShownColumn
from widgets.find_out.which_register import WhichRegisterPage


class Device:
    """Register 37 counts 100 % as 4000h, among others that never change."""

    def __init__(self, page: WhichRegisterPage) -> None:
        self.raw, self.trouble = 0, ""
        self.reads = 0
        self.moves_by = 0
        """By how much register 37 is more at the next read."""
        self.stray: random.Random | None = None
        """What twenty registers hold that move by themselves, though not between the two reads."""
        self._strayed: list[int] = []
        self._page = page
        page.read_wanted.connect(self.read)

    def read(self) -> None:
        self.reads += 1
        if self.trouble:
            self._page.cannot_read(self.trouble)
            return
        held = at(crowd(1), 37, self.raw)
        self.raw += self.moves_by
        if self.stray is not None:
            if self.reads % 2:
                self._strayed = [self.stray.randrange(65_536) for _ in range(20)]
            held = at(crowd(1), 20, *self._strayed)
        words: RegisterWords = {("holding", address): word for address, word in held.items()}
        self._page.take(words)


def from_one(table: Table, first: int, last: int) -> str:
    return f"{table} {first + 1}" if first == last else f"{table} {first + 1} to {last + 1}"


@pytest.fixture(autouse=True)
def without_a_pause(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(which_register, "AGAIN_MS", 1)


@pytest.fixture
def page(qtbot: QtBot) -> Iterator[WhichRegisterPage]:
    made = shown(WhichRegisterPage(from_one), qtbot, 900, 640)
    yield made
    made.stop()


@pytest.fixture
def device(page: WhichRegisterPage) -> Device:
    return Device(page)


def enter(page: WhichRegisterPage, device: Device, qtbot: QtBot, raw: int, text: str) -> None:
    """Set the device, type what its display shows, press Enter, and wait for what comes of it."""
    device.raw = raw
    count = len(page.readings)
    page.value.setFocus()
    QTest.keyClicks(page.value, text)
    QTest.keyClick(page.value, Qt.Key.Key_Return)
    qtbot.waitUntil(page.read_button.isEnabled)
    if len(page.readings) > count:
        qtbot.waitUntil(lambda: len(page.candidates.result.readings) == len(page.readings))


def cells(page: WhichRegisterPage, column: CandidateColumn) -> list[str]:
    return [page.candidates.cell(row, column)[0] for row in range(page.candidates.count())]


def test_two_readings_by_keys_then_a_name(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    assert not page.table.isVisible()
    enter(page, device, qtbot, 6824, "41.65 %")
    assert "One value alone" in page.said.text()
    enter(page, device, qtbot, 1212, "7.40")
    first = [page.candidates.cell(0, column)[0] for column in CandidateColumn]
    assert first[:6] == ["holding 38", "7.397 %", "1212", "uint16", "", "0\u202616384 = 0\u2026100"]
    assert first[6].startswith("1 in ")
    assert page.candidates.tip(0, CandidateColumn.SCALE) == "4000h is 100 %"
    assert "int16" in page.candidates.tip(0, CandidateColumn.ENCODING)
    assert page.table.isVisible()
    assert page.value.text() == ""

    named: list[NamedRegister] = []
    page.named.connect(named.append)
    page.named.connect(lambda register: page.take_named(register, ""))
    assert not page.use_button.isEnabled()
    page.table.setFocus()
    QTest.keyClick(page.table, Qt.Key.Key_Return)
    assert page.signal_name.hasFocus()
    QTest.keyClicks(page.signal_name, "speed")
    QTest.keyClick(page.signal_name, Qt.Key.Key_Return)
    (made,) = named
    assert (made.name, made.table, made.address, made.encoding) == ("speed", "holding", 37, "uint16")
    assert (made.unit, made.decimals) == ("%", 2)
    assert made.scale is not None
    assert (made.scale.raw, made.scale.value) == ((Decimal(0), Decimal(16_384)), (Decimal(0), Decimal(100)))
    assert page.so_far.text() == "Named so far: speed (holding 38)"
    assert not page.readings, "the next value begins anew"
    assert page.value.hasFocus()


def test_what_is_no_number_is_marked_and_nothing_is_read(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    enter(page, device, qtbot, 0, "Hz")
    assert device.reads == 0
    assert "does not begin with a number" in page.state.text()
    assert page.value.property("look") == "wrong"
    QTest.keyClicks(page.value, "2")
    assert page.state.text() == ""
    assert not page.value.property("look")


def test_the_display_may_move_by_more(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    page.step.setText("-1")
    enter(page, device, qtbot, 1244, "622.0")
    assert "greater than 0" in page.state.text()
    page.step.setText("0.5 rpm")
    page.value.clear()
    enter(page, device, qtbot, 1244, "622.0")
    enter(page, device, qtbot, 600, "300.0")
    assert cells(page, CandidateColumn.SCALE)[0] == "\u00f7 2"
    assert page.step.text() == "0.5 rpm", "the display is the same"
    told = [page.readings_model.cell(row, ShownColumn.SHOWN)[0] for row in range(2)]
    assert told == ["622.0 \u00b1 0.25", "300.0 \u00b1 0.25"], "a coarse reading is seen to be one"
    page.use_chosen()
    assert page.state.text() == "Enter a name first."
    page.signal_name.setText("motor speed")
    page.use_chosen()
    assert page.step.text() == "", "another display moves by another step"


def test_what_agrees_by_chance_is_chosen_by_nobody(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    device.stray = random.Random(3)
    for text in ("7.7 A", "5.5 A", "9.0 A"):
        enter(page, device, qtbot, 0, text)
    assert page.candidates.count()
    assert "agrees by chance, most likely" in page.said.text()
    page.signal_name.setText("current")
    assert not page.use_button.isEnabled()
    page.table.selectRow(0)
    assert page.use_button.isEnabled()


def test_the_newest_reading_is_in_sight(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    for raw, text in ((4165, "41.65"), (1240, "12.40"), (3310, "33.10"), (870, "8.70"), (2290, "22.90")):
        enter(page, device, qtbot, raw, text)
    newest = page.readings_table.visualRect(page.readings_model.index(4, ShownColumn.SHOWN))
    assert page.readings_table.viewport().rect().contains(newest.center())


def test_zeros_are_told_and_readings_can_be_removed(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    enter(page, device, qtbot, 0, "0.00")
    enter(page, device, qtbot, 6824, "41.65")
    assert page.readings_model.cell(0, ShownColumn.REMARK)[0] == "no evidence: 0"
    assert "0 is no evidence" in page.said.text()
    page.readings_table.selectRow(0)
    QTest.keyClick(page.readings_table, Qt.Key.Key_Delete)
    assert [each.shown.text for each in page.readings] == ["41.65"]
    qtbot.waitUntil(lambda: len(page.candidates.result.readings) == 1)
    assert "0 is no evidence" not in page.said.text()


def test_when_nothing_can_be_read_what_was_typed_stays(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    device.trouble = "The device does not answer."
    enter(page, device, qtbot, 0, "41.65")
    assert page.state.text() == "The device does not answer."
    assert page.value.text() == "41.65"
    assert page.read_button.isEnabled()


def test_a_reading_of_a_moving_display_is_kept_only_if_one_insists(
    page: WhichRegisterPage, device: Device, qtbot: QtBot
) -> None:
    enter(page, device, qtbot, 1212, "7.40 %")
    assert (device.reads, len(page.readings)) == (2, 1)
    device.moves_by = 400
    enter(page, device, qtbot, 6824, "41.65 %")
    assert page.state.text() == "The display was still moving: wait until it stands, then read again."
    assert len(page.readings) == 1
    assert page.value.selectedText() == "41.65 %", "what is typed next takes its place"
    assert page.keep_button.isVisible()

    device.moves_by = 0
    enter(page, device, qtbot, 6824, "41.65 %")
    assert (len(page.readings), page.state.text(), page.keep_button.isVisible()) == (2, "", False)
    assert cells(page, CandidateColumn.REGISTER)[0] == "holding 38"

    device.moves_by = 400
    enter(page, device, qtbot, 3000, "18.31 %")
    QTest.mouseClick(page.keep_button, Qt.MouseButton.LeftButton)
    assert [each.shown.text for each in page.readings] == ["7.40 %", "41.65 %", "18.31 %"]
    assert page.readings[2].registers["holding", 37] == 3000, "as it was when it was typed"
    assert not page.keep_button.isVisible()


def test_while_it_is_read_nothing_else_is_asked(page: WhichRegisterPage, qtbot: QtBot) -> None:
    asked: list[None] = []
    page.read_wanted.connect(lambda: asked.append(None))
    QTest.keyClicks(page.value, "41.65")
    QTest.keyClick(page.value, Qt.Key.Key_Return)
    QTest.keyClick(page.value, Qt.Key.Key_Return)
    assert len(asked) == 1
    assert not page.read_button.isEnabled()
    page.begin_anew()
    page.take({})
    assert not page.readings, "an answer to what nobody asks any more"


def test_another_device_begins_anew(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    enter(page, device, qtbot, 6824, "41.65")
    page.begin_anew(lambda table, first, last: f"{table} at {first}")
    assert page.candidates.count() == 0
    assert not page.table.isVisible()
    enter(page, device, qtbot, 6824, "41.65")
    assert cells(page, CandidateColumn.REGISTER)[0].startswith("holding at ")


# Without asking the device


BEGIN = datetime.datetime(2026, 3, 1, 14, 6, 0, tzinfo=datetime.UTC)


def past(page: WhichRegisterPage, unit: int = 7) -> PastRegisters:
    """Register 37 held one value for a minute, then another."""

    def registers(at_s: float) -> RegisterWords:
        raw = 6824 if at_s < 60 else 1212
        return {("holding", address): word for address, word in at(crowd(1), 37, raw).items()}

    return PastRegisters(f"run.fanrec, unit {unit}", unit, BEGIN, 120.0, registers)


def look_up(page: WhichRegisterPage, text: str, moment: str) -> None:
    for line, typed in ((page.value, text), (page.moment, moment)):
        line.clear()
        QTest.keyClicks(line, typed)
    QTest.keyClick(page.moment, Qt.Key.Key_Return)


def test_from_a_recording_the_device_is_not_asked(page: WhichRegisterPage, device: Device, qtbot: QtBot) -> None:
    assert not page.moment.isVisible()
    wanted: list[None] = []
    page.recording_wanted.connect(lambda: wanted.append(None))
    page.source.setFocus()
    QTest.keyClick(page.source, Qt.Key.Key_End)
    assert len(wanted) == 1
    assert page.source.currentIndex() == 0, "nobody has chosen one yet"
    page.add_past([past(page, 3), past(page)], 7)
    assert page.source.currentText() == "run.fanrec, unit 7"
    assert "14:06:00 to 14:08:00" in page.intro.text()
    look_up(page, "41.65 %", "14:06:30")
    look_up(page, "7.40", "14:07:30")
    qtbot.waitUntil(lambda: len(page.candidates.result.readings) == 2)
    assert cells(page, CandidateColumn.REGISTER)[0] == "holding 38"
    assert device.reads == 0
    page.begin_anew(None, past(page))
    assert [page.source.itemText(at) for at in range(page.source.count())] == [
        "the device, now",
        "run.fanrec, unit 7",
        "a recording\u2026",
    ]
    enter(page, device, qtbot, 6824, "41.65")
    assert device.reads == 2


def test_a_time_outside_is_marked_and_what_was_typed_stays(page: WhichRegisterPage) -> None:
    page.add_past([past(page)], 7)
    look_up(page, "41.65", "15:00")
    assert "from 14:06:00 to 14:08:00" in page.state.text()
    assert page.moment.property("look") == "wrong"
    assert page.value.text() == "41.65"
    assert not page.readings
    page.add_past([replace(past(page), registers=lambda _at: {})], 7)
    look_up(page, "41.65", "14:07")
    assert page.state.text() == "Nothing is known of the registers of that time."
