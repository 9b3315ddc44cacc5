"""The window that finds out an unknown device, operated against devices that share no code with the program."""

from __future__ import annotations

import os
import socket
import struct
import sys
import threading
from collections.abc import Iterator
from datetime import datetime, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog
from pytestqt.qtbot import QtBot

from app.checks.run import check
from app.client.endpoint import Endpoint
from app.discovery.into_project import NamedRegister
from app.matching.scale import points_of
from app.project.model import Project, RegisterSignal, Scale, SerialLine
from app.recording.reader import Recording
from app.signals.reading import Quality
from app.snapshots.files import open_snapshot
from tests.app.recording.test_reader import Clocks, writer
from tests.staged_follower import Asked, StagedFollower
from tests.widgets.driving import button_of, press, shown, type_in, when_asked, words_of
from tests.widgets.shell.test_menus import access_keys
from widgets.document.settings import Settings
from widgets.find_out.match_tables import CandidateColumn
from widgets.find_out.window import LINE, PROJECT, REGISTERS, SEARCH, WHICH, FindOutWindow
from widgets.kit.language import Language, Translation
from widgets.kit.scaling import scaled

HELD = {**{address: 3 * address for address in range(12)}, **{100 + place: 500 + place for place in range(20)}}
UNIT = 41


class Drive:
    """Registers in a dictionary; register 7 is a speed in hundredths of a hertz. It counts what it is asked for."""

    def __init__(self) -> None:
        self.held = dict(HELD)

    def answer(self, asked: Asked) -> Iterator[bytes]:
        if asked.unit != UNIT:
            return
        if asked.function == 17:
            yield asked.framed(b"\x11\x05HX-4\xff")
        elif asked.function != 3:
            yield asked.framed(bytes((asked.function | 0x80, 1)))
        else:
            span = range(asked.address, asked.address + asked.count)
            if all(address in self.held for address in span):
                words = struct.pack(f">{asked.count}H", *(self.held[address] for address in span))
                yield asked.framed(bytes((3, len(words))) + words)
            else:
                yield asked.framed(b"\x83\x02")


@pytest.fixture
def drive() -> Drive:
    return Drive()


@pytest.fixture
def device(drive: Drive) -> Iterator[StagedFollower]:
    with StagedFollower("tcp", drive.answer) as staged:
        yield staged


def opened(qtbot: QtBot, **ways: Any) -> FindOutWindow:
    """A window that does not ask anybody when the test closes it."""
    made = FindOutWindow(Settings(keep=False), **ways)
    qtbot.addWidget(made, before_close_func=FindOutWindow.leave)
    return shown(made, qtbot, 1040, 660)


@pytest.fixture
def window(qtbot: QtBot, own_settings: None) -> FindOutWindow:
    return opened(qtbot, project_open=lambda: True)


def begin(window: FindOutWindow, endpoint: Endpoint, units: str = "38-44") -> None:
    """Fill in the first page, as a person does who knows roughly which unit it is, and press the button."""
    window.begin_at(endpoint)
    window.line.known.buttons["known"].click()
    window.line.units.setText(units)
    assert not window.go_button.isEnabled()
    window.line.consent.setChecked(True)
    assert window.go_button.isEnabled()
    window.go_button.click()


def found(window: FindOutWindow, device: StagedFollower, qtbot: QtBot) -> None:
    """Go on until the search has found the device."""
    begin(window, device.endpoint, str(UNIT))
    # Two tables of some thousand beginnings are more than a test waits for.
    qtbot.waitUntil(lambda: window.step == SEARCH and not window.about.at_work, timeout=60_000)
    assert [one.unit for one in window.about.devices] == [UNIT]


def test_from_the_line_to_a_project(
    window: FindOutWindow, device: StagedFollower, drive: Drive, qtbot: QtBot, tmp_path: Path
) -> None:
    found(window, device, qtbot)
    assert window.about.devices[0].identification == {"ServerId": "HX-4"}
    assert {at: word for (_, at), word in window.about.registers(UNIT).items()} == HELD
    window.go_button.click()
    assert window.step == REGISTERS
    assert window.registers.model.count() == len(HELD)
    window.go_button.click()
    assert window.step == WHICH
    for raw, text in ((4165, "41.65 Hz"), (1240, "12.40 Hz")):
        drive.held[7] = raw
        window.which.value.setFocus()
        QTest.keyClicks(window.which.value, text)
        QTest.keyClick(window.which.value, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda: window.which.value.text() == "" and not window.about.at_work)
    qtbot.waitUntil(lambda: len(window.which.match.readings) == 2 and bool(window.which.match.candidates))
    QTest.keyClicks(window.which.signal_name, "speed")
    window.which.use_button.click()
    assert [one.name for one in window.about.named[UNIT]] == ["speed"]
    spoken = [window.steps.item(step).data(Qt.ItemDataRole.AccessibleTextRole) for step in range(5)]
    assert [words.rpartition(", ")[2] for words in spoken] == ["done", "done", "done", "done", "open"]
    window.go_to(PROJECT)
    with qtbot.waitSignal(window.project_made) as made:
        window.go_button.click()
    project: Project = made.args[0]
    signal = project.signal_named["speed"]
    assert isinstance(signal, RegisterSignal)
    assert (signal.number, signal.unit, signal.table) == (7, "Hz", "holding")
    assert signal.scale is not None
    assert not [finding for finding in check(project) if finding.severity == "error"]
    # Only what reads was ever asked for.
    assert {asked.function for asked in device.asked} <= {1, 2, 3, 4, 17, 43}


def test_enter_in_a_line_does_what_the_line_is_for_and_nothing_else(
    window: FindOutWindow, device: StagedFollower, drive: Drive, qtbot: QtBot
) -> None:
    found(window, device, qtbot)
    window.go_to(REGISTERS)
    window.registers.table.selectRow(2)
    questions = when_asked(lambda dialog: dialog.reject())
    QTest.keyClick(window.registers.table, Qt.Key.Key_Return)
    assert "Name this register" in words_of(questions[0])
    assert window.step == REGISTERS
    window.go_to(WHICH)
    which = window.which
    for mistyped in ("Hz", "-"):
        which.value.setText(mistyped)
        QTest.keyClick(which.value, Qt.Key.Key_Return)
        assert (window.step, bool(which.state.text())) == (WHICH, True)
    for raw, text in ((4165, "41.65 Hz"), (1240, "12.40 Hz")):
        drive.held[7] = raw
        which.value.setText(text)
        QTest.keyClick(which.value, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda: which.value.text() == "" and not window.about.at_work)
    qtbot.waitUntil(lambda: len(which.match.readings) == 2 and bool(which.match.candidates))
    which.table.setFocus()
    QTest.keyClick(which.table, Qt.Key.Key_Return)
    assert (window.step, window.focusWidget()) == (WHICH, which.signal_name)
    QTest.keyClicks(which.signal_name, "speed")
    which.decimals.setFocus()
    QTest.keyClick(which.decimals, Qt.Key.Key_Return)
    assert [one.name for one in window.about.named[UNIT]] == ["speed"]
    assert window.step == WHICH
    window.go_to(REGISTERS)
    asked = len(device.asked)
    window.registers.closer.set_open(True)
    window.registers.span.setFocus()
    QTest.keyClick(window.registers.span, Qt.Key.Key_Return)
    assert window.about.at_work
    window.stop_button.click()
    qtbot.waitUntil(lambda: not window.about.at_work)
    assert len(device.asked) >= asked


def test_each_page_begins_where_something_is_done_first(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot
) -> None:
    assert window.line.port.hasFocus(), "not the button that closes"
    found(window, device, qtbot)
    for step, part in ((REGISTERS, window.registers.table), (WHICH, window.which.value), (PROJECT, window.steps)):
        window.go_button.setFocus()
        window.go_to(step)
        assert part.hasFocus(), step
    QTest.keyClick(window.steps, Qt.Key.Key_Up)
    assert (window.step, window.steps.hasFocus()) == (WHICH, True)
    QTest.keyClicks(window.steps, "20.00 Hz")
    assert window.step == WHICH, "a value that was meant for the page leads nowhere"
    QTest.keyClick(window.steps, Qt.Key.Key_Up)
    window.go_button.click()
    assert window.which.value.hasFocus(), "it has left the list"


@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
def test_no_access_key_of_a_page_is_ambiguous(
    language: Language, speech: Translation, own_settings: None, device: StagedFollower, qtbot: QtBot
) -> None:
    speech.speak(language)
    window = opened(qtbot, project_open=lambda: True)
    found(window, device, qtbot)
    window.about.name(UNIT, NamedRegister("a", "holding", 3))
    window.registers.closer.set_open(True)
    for step in (LINE, SEARCH, REGISTERS, WHICH, PROJECT):
        window.go_to(step)
        owners: dict[str, list[str]] = {}
        for key, owner in access_keys(window):
            owners.setdefault(key, []).append(owner)
        assert len(owners) > 3
        assert {key: two for key, two in owners.items() if key and len(two) > 1} == {}, step


def test_one_goes_on_with_what_answered_before_the_search_was_stopped(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot
) -> None:
    begin(window, device.endpoint, "41-247")
    assert not window.again_button.isVisible()
    qtbot.waitUntil(lambda: "stop it to go on" in window.search.figures.text(), timeout=20_000)
    assert window.about.devices[0].ranges
    assert not window.again_button.isVisible()
    assert "stop it" in window.go_button.toolTip()
    window.stop_button.click()
    qtbot.waitUntil(lambda: not window.about.at_work)
    assert window.search.now.text().startswith("Stopped. Devices that answer so far: 1.")
    assert window.again_button.isVisible()
    assert (window.go_button.text(), window.go_button.isDefault()) == ("&Next", True)
    window.go_button.click()
    assert window.step == REGISTERS
    assert not window.again_button.isVisible()


def test_is_stopped_and_goes_on(window: FindOutWindow, device: StagedFollower, qtbot: QtBot) -> None:
    begin(window, device.endpoint)
    qtbot.waitUntil(lambda: len(device.asked) > 20 and window.stop_button.isEnabled())
    window.stop_button.click()
    qtbot.waitUntil(lambda: not window.about.at_work)
    asked = len(device.asked)
    assert str(window.about.found.stopped_by) == "person"
    qtbot.wait(100)
    assert len(device.asked) == asked
    (window.again_button if window.about.devices else window.go_button).click()
    qtbot.waitUntil(lambda: window.about.at_work)
    qtbot.waitUntil(lambda: not window.about.at_work, timeout=60_000)
    assert str(window.about.found.stopped_by) == "done"
    assert {at: word for (_, at), word in window.about.registers(UNIT).items()} == HELD


def test_a_line_that_a_session_has_is_left_alone(qtbot: QtBot, own_settings: None, device: StagedFollower) -> None:
    window = opened(qtbot, holds=lambda _: "this line is connected")
    begin(window, device.endpoint)
    assert window.step == LINE
    assert "this line is connected" in window.line.state.text()
    assert device.asked == []


def test_nothing_is_asked_without_consent(window: FindOutWindow, device: StagedFollower) -> None:
    window.begin_at(device.endpoint)
    QTest.keyClick(window.line.host, Qt.Key.Key_Return)
    assert window.step == LINE
    assert "Tick" in window.line.state.text()
    assert device.asked == []


def test_the_consent_is_in_sight_where_the_rest_has_to_be_scrolled(window: FindOutWindow, qtbot: QtBot) -> None:
    window.resize(700, 400)
    qtbot.waitUntil(lambda: window.height() <= 460)
    consent = window.line.consent
    assert not window.line.never.visibleRegion().contains(window.line.never.rect())
    assert consent.visibleRegion().boundingRect() == consent.rect()


@pytest.mark.parametrize("text", ["0x7", "9-3", "300", "1-", "-4"])
def test_units_that_are_none_are_told(window: FindOutWindow, text: str) -> None:
    window.line.known.buttons["known"].click()
    window.line.host.setText("localhost")
    window.line.kind.buttons["tcp"].click()
    window.line.consent.setChecked(True)
    window.line.units.setText(text)
    assert "unit addresses" in window.line.problem()
    assert not window.go_button.isEnabled()


def test_a_line_that_cannot_be_opened_is_told(window: FindOutWindow, qtbot: QtBot) -> None:
    begin(window, Endpoint.serial("/dev/no-such-port"))
    qtbot.waitUntil(lambda: not window.about.at_work)
    assert "no-such-port" in window.search.now.text()
    window.back_button.click()
    assert window.step == LINE


def test_closing_ends_the_work(window: FindOutWindow, device: StagedFollower, qtbot: QtBot) -> None:
    begin(window, device.endpoint, "1-247")
    qtbot.waitUntil(lambda: len(device.asked) > 3)
    window.leave()
    asked = len(device.asked)
    qtbot.wait(100)
    assert len(device.asked) == asked


def test_the_snapshot_is_saved(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found(window, device, qtbot)
    window.go_to(REGISTERS)
    path = tmp_path / "as-found.registers.toml"
    monkeypatch.setattr("widgets.find_out.window.where_to_save", lambda *_a, **_k: (path, None))
    window.registers.save_button.click()
    assert {at: word for (_, at), word in open_snapshot(path).registers.items()} == HELD


def test_what_is_never_to_be_touched_is_read_from_the_line(window: FindOutWindow) -> None:
    window.line.never.setText("holding:100-119, input:7")
    assert window.registers.never.untouched() == {"holding": [range(100, 120)], "input": [range(7, 8)]}
    window.registers.never.setText("holding:9-2")
    assert "names no registers" in window.line.problem()
    assert not window.registers.search_button.isEnabled()


def test_names_are_taken_away_again(window: FindOutWindow, device: StagedFollower, qtbot: QtBot) -> None:
    found(window, device, qtbot)
    window.about.name(UNIT, NamedRegister("a", "holding", 3))
    window.about.name(UNIT, NamedRegister("b", "holding", 3))
    assert [one.name for one in window.about.named[UNIT]] == ["b"]
    window.go_to(PROJECT)
    window.project.table.selectRow(0)
    window.project.remove_button.click()
    assert window.about.named[UNIT] == ()


def test_a_scale_is_told_in_the_same_words_when_it_has_a_name(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot
) -> None:
    """As "Which register?" does: factors as factors, and none of it cut."""
    found(window, device, qtbot)
    for address, slope, offset in ((3, Fraction(1, 100), Fraction(0)), (4, Fraction(3, 1229), Fraction(1, 20))):
        raw, value = points_of(slope, offset)
        window.about.name(UNIT, NamedRegister(f"a{address}", "holding", address, scale=Scale(raw=raw, value=value)))
    window.go_to(PROJECT)
    model, table = window.project.model, window.project.table
    assert [model.cell(row, 4)[0] for row in range(2)] == ["\u00f7 100", "0\u20261229 = 0.05\u20263.05"]
    for each, column in ((table, 4), (window.which.table, CandidateColumn.SCALE)):
        longest = each.fontMetrics().horizontalAdvance("0\u2026717 = 2.0925\u20263.0925")
        assert each.columnWidth(column) >= longest + scaled(16)


def test_two_registers_of_one_name_are_both_kept_and_it_is_said(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot
) -> None:
    found(window, device, qtbot)
    window.go_to(WHICH)
    for address in (3, 4, 4):
        window.which.named.emit(NamedRegister("speed", "holding", address))
    assert [(one.name, one.address) for one in window.about.named[UNIT]] == [("speed", 3), ("speed 2", 4)]
    assert "speed 2" in window.which.state.text()
    assert "speed 2 (" in window.which.so_far.text()
    window.go_to(REGISTERS)

    def call_it_speed(_dialog: QDialog) -> None:
        type_in("speed")
        press(Qt.Key.Key_Return)

    when_asked(call_it_speed)
    window.registers.name_wanted.emit(("holding", 5))
    assert "speed 3" in window.registers.state.text()
    made: list[Project] = []
    window.project_made.connect(made.append)
    window.go_to(PROJECT)
    window.go_button.click()
    signals = [(signal.name, signal.number) for signal in made[0].signals if isinstance(signal, RegisterSignal)]
    assert signals == [("speed", 3), ("speed 2", 4), ("speed 3", 5)]


def test_two_devices_may_not_have_one_name_for_theirs(window: FindOutWindow) -> None:
    window.about.name(7, NamedRegister("speed", "holding", 3))
    assert window.about.name(8, NamedRegister("speed", "holding", 3)) == "speed 2"
    assert window.about.name(8, NamedRegister("speed 2", "holding", 3)) == "speed 2"


def test_what_must_not_be_touched_is_left_out_from_the_first_question_on(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot
) -> None:
    window.line.never.setText("holding:0-4, holding:105-109, input:0-65535")
    found(window, device, qtbot)
    untouched = {*range(5), *range(105, 110)}
    reads = [range(asked.address, asked.address + asked.count) for asked in device.asked if asked.function == 3]
    assert reads
    assert not untouched & {address for span in reads for address in span}
    assert all(asked.function != 4 for asked in device.asked)
    assert {at for (_, at) in window.about.registers(UNIT)} == HELD.keys() - untouched
    before = len(device.asked)
    window.go_to(REGISTERS)
    window.registers.read_button.click()
    qtbot.waitUntil(lambda: len(device.asked) > before and not window.about.at_work)
    assert not any(asked.address in untouched for asked in device.asked[before:] if asked.function == 3)


def test_stopping_a_closer_search_loses_nothing(window: FindOutWindow, device: StagedFollower, qtbot: QtBot) -> None:
    found(window, device, qtbot)
    window.about.name(UNIT, NamedRegister("a", "holding", 3))
    window.go_to(REGISTERS)
    window.registers.how.setCurrentIndex(window.registers.how.findData("all"))
    before = len(device.asked)
    window.registers.search_button.click()
    qtbot.waitUntil(lambda: len(device.asked) > before + 20)
    window.stop_button.click()
    assert not window.stop_button.isEnabled()
    qtbot.waitUntil(lambda: not window.about.at_work)
    assert window.step == SEARCH
    window.again_button.click()
    assert window.about.at_work
    assert window.about.examination.how == "all"
    window.stop_button.click()
    qtbot.waitUntil(lambda: not window.about.at_work)
    assert [one.name for one in window.about.named[UNIT]] == ["a"]
    assert {at for (_, at) in window.about.registers(UNIT)} >= HELD.keys()


def test_names_are_not_forgotten_unasked(window: FindOutWindow, device: StagedFollower, qtbot: QtBot) -> None:
    found(window, device, qtbot)
    window.about.name(UNIT, NamedRegister("a", "holding", 3))
    window.go_to(LINE)
    questions = when_asked(lambda dialog: dialog.reject())
    window.go_button.click()
    assert "forget" in words_of(questions[0])
    assert window.about.named[UNIT]
    assert not window.about.at_work
    when_asked(lambda dialog: button_of(dialog, "Search anew").click())
    window.go_button.click()
    assert window.about.at_work
    assert not window.about.named


@pytest.mark.parametrize("free", [True, False])
def test_a_connected_line_is_offered_to_be_let_go(
    qtbot: QtBot, own_settings: None, device: StagedFollower, free: bool
) -> None:
    held = ["this line is connected"]

    def let_go(_endpoint: Endpoint) -> bool:
        if free:
            held[0] = ""
        return free

    window = opened(qtbot, holds=lambda _: held[0], let_go=let_go)
    begin(window, device.endpoint)
    assert window.about.at_work == free
    assert window.line.state.text() == ("" if free else "this line is connected")
    window.leave()


def test_a_line_that_may_not_be_let_go_is_asked_about_once(
    qtbot: QtBot, own_settings: None, device: StagedFollower
) -> None:
    asked: list[Endpoint] = []

    def let_go(endpoint: Endpoint) -> bool:
        asked.append(endpoint)
        return False

    window = opened(qtbot, holds=lambda _: "this line is connected", let_go=let_go)
    window.begin_at(device.endpoint)
    window.line.consent.setChecked(True)
    window.line.host.setFocus()
    QTest.keyClick(window.line.host, Qt.Key.Key_Return)
    assert len(asked) == 1


@pytest.mark.skipif(sys.platform != "linux", reason="a full queue of connections is silent there")
def test_closing_does_not_wait_for_a_host_that_does_not_accept(window: FindOutWindow, qtbot: QtBot) -> None:
    with socket.create_server(("127.0.0.1", 0), backlog=0) as full:
        place = full.getsockname()
        queued = [socket.socket() for _ in range(2)]
        for one in queued:
            one.setblocking(False)
            one.connect_ex(place)
        begin(window, Endpoint.tcp("127.0.0.1", place[1]))
        about = window.about
        assert about.at_work
        window.leave()
        # It was not waited for, and it ends by itself.
        assert any(thread.name == "fanlight-finding-out" for thread in threading.enumerate())
        for one in queued:
            one.close()
        qtbot.waitUntil(lambda: not about.at_work, timeout=10_000)


# Closing


def test_closing_in_mid_search_asks_and_goes_on(window: FindOutWindow, device: StagedFollower, qtbot: QtBot) -> None:
    begin(window, device.endpoint, "1-247")
    qtbot.waitUntil(lambda: len(device.asked) > 3)
    questions = when_asked(lambda dialog: QTest.keyClick(dialog, Qt.Key.Key_Return))
    QTest.keyClick(window, Qt.Key.Key_Escape)
    assert "End the search" in words_of(questions[0])
    assert window.isVisible(), "Enter goes on looking"
    assert window.about.at_work
    asked = len(device.asked)
    qtbot.waitUntil(lambda: len(device.asked) > asked)
    when_asked(lambda dialog: QTest.keyClick(dialog, Qt.Key.Key_Escape))
    window.close()
    assert window.isVisible()
    when_asked(lambda dialog: button_of(dialog, "Close").click())
    window.close()
    assert not window.isVisible()
    qtbot.waitUntil(lambda: not window.about.at_work)


def test_what_was_found_can_be_kept_as_a_snapshot(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found(window, device, qtbot)
    window.about.name(UNIT, NamedRegister("a", "holding", 3))
    places: list[tuple[Path, None] | None] = [None, (tmp_path / "no folder" / "x.registers.toml", None)]
    path = tmp_path / "found.registers.toml"
    places.append((path, None))
    monkeypatch.setattr("widgets.find_out.window.where_to_save", lambda *_a, **_k: places.pop(0))
    for left in (2, 1):
        questions = when_asked(lambda dialog: button_of(dialog, "Save a snapshot").click())
        window.close()
        assert window.isVisible(), "nothing was saved, as nobody said where, or as that is no place"
        assert len(places) == left
    assert f"{len(HELD)} registers of one device" in words_of(questions[0])
    assert "Names of registers: 1" in words_of(questions[0])
    assert "cannot be written" in window.sentence.text()
    when_asked(lambda dialog: button_of(dialog, "Save a snapshot").click())
    window.close()
    assert not window.isVisible()
    assert {at: word for (_, at), word in open_snapshot(path).registers.items()} == HELD


def test_nothing_is_asked_where_nothing_would_be_lost(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert window.may_close()
    found(window, device, qtbot)
    monkeypatch.setattr(
        "widgets.find_out.window.where_to_save", lambda *_a, **_k: (tmp_path / "x.registers.toml", None)
    )
    window.registers.save_wanted.emit()
    assert window.may_close()
    window.about.name(UNIT, NamedRegister("a", "holding", 3))
    questions = when_asked(lambda dialog: dialog.reject())
    assert not window.may_close()
    assert "registers of one device" not in words_of(questions[0])


def test_a_snapshot_holds_what_was_read_last(
    window: FindOutWindow, device: StagedFollower, drive: Drive, qtbot: QtBot
) -> None:
    found(window, device, qtbot)
    window.go_to(REGISTERS)
    drive.held[7] = 4165
    window.registers.read_button.click()
    qtbot.waitUntil(lambda: not window.about.at_work)
    assert window.about.snapshot(UNIT).registers["holding", 7] == 4165
    assert window.about.lost_units == [UNIT]


def test_the_page_of_the_registers_says_when_they_were_read(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot
) -> None:
    before = datetime.now().astimezone()
    found(window, device, qtbot)
    window.go_to(REGISTERS)
    between = window.about.read_between(UNIT)
    assert between is not None
    assert before <= between[0] < between[1] <= datetime.now().astimezone()
    assert window.registers.when.text().startswith("Values read ")
    assert f"{between[1]:%H:%M:%S}" in window.registers.when.text()
    window.registers.read_button.click()
    qtbot.waitUntil(lambda: not window.about.at_work)
    again = window.about.read_between(UNIT)
    assert again is not None
    assert again[0] > between[1], "all of them were read again"
    assert f"{again[1]:%H:%M:%S}" in window.registers.when.text()


@pytest.mark.parametrize("is_open", [True, False])
def test_adding_to_a_project_says_why_it_cannot_be_chosen(
    is_open: bool, qtbot: QtBot, own_settings: None, device: StagedFollower
) -> None:
    window = opened(qtbot, project_open=lambda: is_open)
    found(window, device, qtbot)
    window.go_to(PROJECT)
    button = window.join_button
    assert button.isEnabled() is is_open
    assert bool(button.toolTip()) is not is_open
    assert "No project is open" in button.accessibleDescription() or is_open
    assert button.toolTip() == button.accessibleDescription()


def test_a_register_is_found_from_a_recording_and_the_device_is_not_asked(
    window: FindOutWindow, device: StagedFollower, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found(window, device, qtbot)
    clocks = Clocks()
    path = tmp_path / "run.fanrec"
    written = writer(path, clocks)
    for second, raw in enumerate((8330, 1240)):
        written.add("speed", clocks.now + 10 * second, Quality.GOOD, (raw,))
        written.add("hours", clocks.now + 10 * second, Quality.GOOD, (1, 2 + second))
    written.close()
    monkeypatch.setattr("widgets.find_out.window.QFileDialog.getOpenFileName", lambda *_: (str(path), ""))
    window.go_to(WHICH)
    asked = len(device.asked)
    QTest.keyClick(window.which.source, Qt.Key.Key_End)
    assert "run.fanrec" in window.which.source.currentText()
    with Recording.open(path) as recording:
        begin = recording.civil(recording.span()[0])
    for text, seconds in (("41.65 Hz", 2), ("6.20 Hz", 10)):
        QTest.keyClicks(window.which.value, text)
        window.which.moment.setText(f"{begin + timedelta(seconds=seconds):%H:%M:%S}")
        QTest.keyClick(window.which.moment, Qt.Key.Key_Return)
    assert len(window.which.readings) == 2, window.which.state.text()
    qtbot.waitUntil(lambda: len(window.which.match.readings) == 2 and bool(window.which.match.candidates))
    best = window.which.match.candidates[0].best
    assert (best.table, best.address, best.slope) == ("holding", 1, Fraction(1, 200))
    assert len(device.asked) == asked
    monkeypatch.setattr("widgets.find_out.window.QFileDialog.getOpenFileName", lambda *_: (str(tmp_path / "no"), ""))
    QTest.keyClick(window.which.source, Qt.Key.Key_End)
    assert "there is no file" in window.which.state.text()


SPEED = 38_400


class SerialDrive(Drive):
    """Understands one speed only. A pty has no parity: its driver takes that off."""

    def __init__(self) -> None:
        super().__init__()
        self.staged: StagedFollower | None = None

    def answer(self, asked: Asked) -> Iterator[bytes]:
        import termios

        assert self.staged is not None
        port = os.open(self.staged.endpoint.device, os.O_RDWR | os.O_NOCTTY)
        speed = termios.tcgetattr(port)[5]
        os.close(port)
        if speed == termios.B38400:
            yield from super().answer(asked)


@pytest.fixture
def serial(tmp_path: Path) -> Iterator[StagedFollower]:
    drive = SerialDrive()
    with StagedFollower("serial", drive.answer, link=tmp_path / "adapter") as staged:
        drive.staged = staged
        yield staged


@pytest.mark.skipif(sys.platform == "win32", reason="no ptys")
def test_a_serial_device_of_which_nothing_is_known_but_its_unit(
    window: FindOutWindow, serial: StagedFollower, qtbot: QtBot
) -> None:
    begin(window, serial.endpoint, str(UNIT))
    qtbot.waitUntil(lambda: bool(window.about.devices) and bool(window.about.devices[0].functions), timeout=120_000)
    window.stop_button.click()
    qtbot.waitUntil(lambda: not window.about.at_work)
    settings = window.about.found.settings
    assert settings is not None
    assert settings.baud == SPEED
    assert [one.unit for one in window.about.devices] == [UNIT]
    window.go_to(PROJECT)
    with qtbot.waitSignal(window.project_made) as made:
        window.go_button.click()
    line = made.args[0].lines[0]
    assert isinstance(line, SerialLine)
    assert (line.device, line.baud) == (serial.endpoint.device, SPEED)
    # Nothing else was sent, and nothing to everybody.
    assert {asked.function for asked in serial.asked} <= {1, 2, 3, 4, 8, 17, 43}
    assert {asked.unit for asked in serial.asked} == {UNIT}


@pytest.mark.skipif(sys.platform == "win32", reason="no ptys")
def test_a_port_that_goes_away_in_the_midst(window: FindOutWindow, serial: StagedFollower, qtbot: QtBot) -> None:
    begin(window, serial.endpoint, str(UNIT))
    qtbot.waitUntil(lambda: len(serial.asked) > 3, timeout=30_000)
    serial.stop()
    qtbot.waitUntil(lambda: not window.about.at_work)
    assert window.about.found.stopped_by == "port gone"
    assert serial.endpoint.device in window.search.now.text()
    serial.start()
    window.go_button.click()
    qtbot.waitUntil(lambda: bool(window.about.devices), timeout=120_000)
    assert window.about.found.settings is not None
    assert window.about.found.settings.baud == SPEED
