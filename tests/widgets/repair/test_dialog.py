"""A signal that looks wrong, in the real dialog at a device on a bare socket: found, put right by a button, undone."""

from __future__ import annotations

import datetime
import struct
from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from app.edits.lines import change_follower
from app.project.binding import bind
from app.project.model import AnySignal, HeldSignal, Project, Scale, Screen, TcpLine
from app.snapshots.files import save
from app.snapshots.snapshot import RegisterPlace, RegisterSnapshot
from tests.builders import pump_project, word
from tests.outside.lossy_device import LossyDevice
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.live.live_session import LiveSession
from widgets.repair.dialog import RepairDialog
from widgets.repair.ways_model import WayColumn
from widgets.shell.window import BENCH, DESIGN, MainWindow

HUNDREDTH = Scale(raw=(Decimal(0), Decimal(100)), value=(Decimal(0), Decimal(1)))


class Device(LossyDevice):
    """Has the registers 300 to 320, and refuses all that is longer or elsewhere."""

    def _answer(self, pdu: bytes) -> bytes:
        address, count = struct.unpack(">HH", pdu[1:5])
        if pdu[0] != 3 or not 300 <= address <= address + count - 1 <= 320:
            return bytes((pdu[0] | 0x80, 2))
        return super()._answer(pdu)


@pytest.fixture
def device() -> Iterator[Device]:
    with Device("tcp", 0.0) as device:
        device.words = {309: 8330, 310: 3, 311: 7}
        yield device
        assert not device.log, "nothing is written"


def project_at(device: Device, *signals: AnySignal) -> Project:
    line = TcpLine(name="bus", host="127.0.0.1", port=int(device.where))
    return pump_project(*signals, line=line).replace(screens=(Screen(name="a"),))


@pytest.fixture
def live(qtbot: QtBot) -> Iterator[LiveSession]:
    live = LiveSession()
    yield live
    live.disconnect_from_line()


Opened = Callable[..., tuple[Document, RepairDialog]]


@pytest.fixture
def opened(qtbot: QtBot, live: LiveSession) -> Iterator[Opened]:
    made: list[RepairDialog] = []

    def open_for(project: Project, name: str = "speed", *, connected: bool = True) -> tuple[Document, RepairDialog]:
        document = Document(project)
        if connected:
            live.connect_to(project, None)
        made.append(dialog := RepairDialog(document, live, Settings(keep=False), name))
        dialog.show()
        if connected:
            qtbot.waitUntil(lambda: dialog.model.count() > 0, timeout=10_000)
        return document, dialog

    yield open_for
    for dialog in made:
        if isValid(dialog):
            dialog.close()


def typed(dialog: RepairDialog, text: str) -> None:
    dialog.shown_value.setFocus()
    QTest.keyClicks(dialog.shown_value, text)
    QTest.keyClick(dialog.shown_value, Qt.Key.Key_Return)


def test_off_by_one_and_a_wrong_scale_are_put_right_step_by_step_and_undone(
    qtbot: QtBot, opened: Opened, device: Device
) -> None:
    project = project_at(device, word("speed", 310, scale=HUNDREDTH, decimals=2), word("other", 316))
    document, dialog = opened(project)
    assert "now in the project" in dialog.model.cell(0, WayColumn.WHY)[0]
    assert dialog.model.cell(0, WayColumn.RAW)[0] == "3"
    assert list(dialog.repair_buttons) == []
    typed(dialog, "41.65")
    device.words[309] = 5000
    qtbot.waitUntil(lambda: any(dialog.model.way(row).raw == 5000 for row in range(dialog.model.count())), timeout=9000)
    typed(dialog, "25.00")
    assert [dialog.model.cell(0, column)[0] for column in (WayColumn.REGISTER, WayColumn.VALUE)] == ["309", "25.00"]
    assert list(dialog.repair_buttons) == ["numbering", "register", "scale"]
    dialog.repair_buttons["numbering"].click()  # type: ignore[attr-defined]
    assert document.project.followers[0].numbering == "from-1"
    assert list(dialog.repair_buttons) == ["scale"], "the row stays the chosen one"
    dialog.repair_buttons["scale"].click()  # type: ignore[attr-defined]
    assert list(dialog.repair_buttons) == []
    speed = bind(document.project, "speed")
    assert (speed.address, speed.decode([8330])[1]) == (309, Fraction("41.65"))
    dialog.undo.click()
    dialog.undo.click()
    assert document.project == project
    assert not dialog.undo.isEnabled()


def snapshot(path: Path, *words: int, first: int = 308, unit: int = 1) -> Path:
    held: dict[RegisterPlace, int] = {("holding", first + at): word for at, word in enumerate(words)}
    taken = datetime.datetime(2026, 3, 1, 8, 0, tzinfo=datetime.UTC)
    save(RegisterSnapshot("pump", unit, "bus", "from-0", taken, held), path)
    return path


def test_a_signal_is_put_right_by_snapshots_without_a_device(
    opened: Opened, device: Device, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    project = project_at(device, word("speed", 310, scale=HUNDREDTH, decimals=2))
    document, dialog = opened(project, connected=False)
    unit = project.followers[0].unit
    files = iter(
        (
            snapshot(tmp_path / "other.toml", 1, 2, 3, unit=unit + 1),
            snapshot(tmp_path / "elsewhere.toml", 1, 2, first=400, unit=unit),
            snapshot(tmp_path / "fast.toml", 0, 8330, 3, 7, unit=unit),
            snapshot(tmp_path / "slow.toml", 0, 5000, 3, 7, unit=unit),
            "",
        )
    )
    monkeypatch.setattr("widgets.repair.dialog.QFileDialog.getOpenFileName", lambda *_: (str(next(files)), ""))
    for words in (f"of unit {unit + 1}", "does not hold the registers of 'speed'"):
        dialog.open_button.click()
        assert words in dialog.told.text()
        assert not dialog.model.count()
    dialog.open_button.click()
    assert "fast.toml" in dialog.told.text()
    typed(dialog, "41.65")
    dialog.open_button.click()
    typed(dialog, "25.00")
    assert "41.65; 25.00" in dialog.told.text()
    assert [dialog.model.cell(0, column)[0] for column in (WayColumn.REGISTER, WayColumn.VALUE)] == ["309", "25.00"]
    dialog.open_button.click()
    dialog.repair_buttons["register"].click()  # type: ignore[attr-defined]
    dialog.repair_buttons["scale"].click()  # type: ignore[attr-defined]
    speed = bind(document.project, "speed")
    assert (speed.address, speed.decode([8330])[1]) == (309, Fraction("41.65"))
    assert device.requests == 0


def test_a_snapshot_stands_in_the_place_of_what_is_read(
    opened: Opened, device: Device, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    project = project_at(device, word("speed", 310, scale=HUNDREDTH))
    document, dialog = opened(project)
    file = snapshot(tmp_path / "then.toml", 0, 8330, 4711, 7, unit=project.followers[0].unit)
    monkeypatch.setattr("widgets.repair.dialog.QFileDialog.getOpenFileName", lambda *_: (str(file), ""))
    dialog.open_button.click()
    assert dialog.model.cell(0, WayColumn.RAW)[0] == "4711"
    assert dialog._reads._wanted is None
    document.do("", lambda project: change_follower(project, project.followers[0].name, word_order="low-first"))
    assert dialog._reads._wanted is None, "and no step in the project brings them back"
    assert dialog.model.cell(0, WayColumn.RAW)[0] == "4711"


def test_a_row_is_chosen_by_the_keyboard(opened: Opened, device: Device) -> None:
    project = project_at(device, word("speed", 310))
    document, dialog = opened(project)
    dialog.table.setFocus()
    QTest.keyClick(dialog.table, Qt.Key.Key_Down)
    chosen = dialog.model.way(dialog.table.currentIndex().row())
    button = next(iter(dialog.repair_buttons.values()))
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Return)
    assert document.undo_name == "Put a signal right"
    assert document.project != project
    at_it = dialog.model.way(dialog.table.currentIndex().row())
    assert (at_it.address, at_it.way) == (chosen.address, chosen.way), "the row stays the chosen one"


def test_registers_at_the_end_of_what_the_device_has_are_read_one_by_one(opened: Opened, device: Device) -> None:
    device.words[320] = 417
    _, dialog = opened(project_at(device, word("speed", 320)))
    raws = {dialog.model.way(row).address: dialog.model.way(row).raw for row in range(dialog.model.count())}
    assert set(raws) == {319, 320}, "from 321 on it refuses"


def test_without_a_connection_nothing_is_compared(opened: Opened, device: Device) -> None:
    _, dialog = opened(project_at(device, word("speed", 310)), connected=False)
    typed(dialog, "41.65")
    assert "Nothing has been read" in dialog.told.text()
    assert dialog.shown_value.text() == "41.65", "what was typed stays"
    assert dialog.model.count() == 0
    assert not device.requests


def test_a_device_that_the_connection_does_not_know_is_said(
    qtbot: QtBot, opened: Opened, live: LiveSession, device: Device
) -> None:
    project = project_at(device, word("speed", 310))
    live.connect_to(project, None)
    renamed = change_follower(project, "pump", name="fan")
    _, dialog = opened(renamed, connected=False)
    assert dialog.model.count() == 0
    assert "connect again" in dialog.trouble


def test_a_text_that_is_no_number_is_refused(opened: Opened, device: Device) -> None:
    _, dialog = opened(project_at(device, word("speed", 310)))
    typed(dialog, "fast")
    assert "number" in dialog.told.text()
    assert dialog.shown_value.text() == "fast"


def test_it_closes_when_the_signal_goes(opened: Opened, device: Device) -> None:
    document, dialog = opened(project_at(device, word("speed", 310), word("other", 316)))
    document.do("Delete", lambda project: project.replace(signals=project.signals[1:]))
    assert not dialog.isVisible()


@pytest.mark.usefixtures("own_settings", "no_thread_is_left")
def test_it_opens_from_the_table_of_signals_its_form_and_the_readings_at_a_live_device(
    qtbot: QtBot, device: Device
) -> None:
    window = MainWindow(workspace=BENCH)
    qtbot.addWidget(window)
    window.resize(1366, 768)
    window.show()
    window.document.open(project_at(device, word("speed", 310), HeldSignal(name="own", held=Decimal(1))), None)
    window.live.connect_to(window.document.project, None)
    qtbot.waitUntil(lambda: bool(window.bench.readings.model.rowCount()))

    def shown() -> list[RepairDialog]:
        return [dialog for dialog in window.findChildren(RepairDialog) if dialog.isVisible()]

    names = [window.bench.readings.model.name(row) for row in range(window.bench.readings.model.rowCount())]
    window.bench.readings.view.selectRow(names.index("speed"))
    window.bench.wrong_action.trigger()
    (dialog,) = shown()
    assert "speed" in dialog.windowTitle()
    qtbot.waitUntil(lambda: shown()[0].model.count() > 0, timeout=10_000)
    dialog.close()
    window.show_workspace(DESIGN)
    window.design.show_view("signals")
    table = window.design.signals.table.table
    table.setFocus()
    window.design.signals.select(1)
    QTest.keyClick(table, Qt.Key.Key_Up)
    window.design.signals.wrong_wanted.emit()
    (dialog,) = shown()
    qtbot.waitUntil(lambda: shown()[0].model.count() > 0, timeout=10_000)
    dialog.close()
    QTest.keyClick(table, Qt.Key.Key_Down)
    window.design.signals.wrong_wanted.emit()
    assert not shown(), "a held value is in no register"
    window.live.disconnect_from_line()
    window.leave()
