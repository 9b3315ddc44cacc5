"""Registers as found and as left in a real dialog, against a follower that counts writes."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from app.project.model import Screen
from app.snapshots.files import open_snapshot
from tests.builders import pump_project, word
from tests.staged_follower import Registers, StagedFollower
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.live.live_session import LiveSession
from widgets.snapshots.dialog import SnapshotsDialog
from widgets.snapshots.registers_table import RegisterColumn
from widgets.snapshots.restoring_dialog import RestoringDialog

PROJECT = pump_project(
    word("limit", 15, write=True, unit="Hz"),
    word("speed", 16),
).replace(screens=(Screen(name="a"),))


@pytest.fixture
def registers() -> Registers:
    return Registers({15: 4, 16: 100})


@pytest.fixture(
    params=["tcp", pytest.param("serial", marks=pytest.mark.skipif(os.name != "posix", reason="needs a pty"))]
)
def staged(request: pytest.FixtureRequest, registers: Registers) -> Iterator[StagedFollower]:
    follower = StagedFollower(request.param, registers, 100)
    follower.start()
    yield follower
    follower.stop()


@pytest.fixture
def live(qtbot: QtBot, staged: StagedFollower) -> Iterator[LiveSession]:
    live = LiveSession()
    live.connect_to(PROJECT, staged.endpoint)
    yield live
    live.disconnect_from_line()


@pytest.fixture
def dialog(qtbot: QtBot, live: LiveSession) -> Iterator[SnapshotsDialog]:
    made = SnapshotsDialog(Document(PROJECT), live, Settings(keep=False))
    made.show()
    yield made
    made.close()


def cells(dialog: SnapshotsDialog) -> list[list[str]]:
    model = dialog.table.registers
    return [[str(model.index(row, at).data()) for at in range(len(RegisterColumn))] for row in range(model.rowCount())]


def click(button: object) -> None:
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)  # type: ignore[call-overload]


def test_taken_changed_compared_and_written_back(
    dialog: SnapshotsDialog,
    live: LiveSession,
    staged: StagedFollower,
    registers: Registers,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = tmp_path / "found.toml"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    QTest.keyClicks(dialog.ranges, "holding:20-22")
    click(dialog.take_button)
    qtbot.waitUntil(path.exists)
    qtbot.waitUntil(lambda: "Registers: 5" in dialog.state.text())
    assert open_snapshot(path).registers["holding", 15] == 4
    live.session.engine.arm("bus")  # type: ignore[union-attr]
    assert live.session.engine.write("limit", 9).result(5).ok  # type: ignore[union-attr]
    live.session.engine.arm("bus", False)  # type: ignore[union-attr]
    before = writes(staged)
    click(dialog.live_button)
    qtbot.waitUntil(lambda: "Differences: 1 of 5" in dialog.state.text())
    assert cells(dialog) == [["holding register 15, 'limit'", "15", "4 Hz", "9 Hz", ""]]
    assert [row.signal for row in dialog.table.registers.ticked] == ["limit"]
    assert not dialog.write_button.isEnabled()
    click(dialog.write_button)
    assert "not armed" in dialog.write_button.toolTip()
    assert "not armed" in dialog.why.text(), "seen without a mouse, too"
    assert writes(staged) == before
    live.arm()
    assert dialog.write_button.isEnabled()
    assert not dialog.why.text()

    def confirm() -> None:
        asked = QApplication.activeModalWidget()
        assert isinstance(asked, RestoringDialog)
        assert asked.tree.topLevelItem(0).text(2) == "4 Hz"  # type: ignore[union-attr]
        QTest.mousePress(asked.hold, Qt.MouseButton.LeftButton)

    QTimer.singleShot(0, confirm)
    click(dialog.write_button)
    qtbot.waitUntil(lambda: "Written: 1. Not written: 0" in dialog.state.text())
    assert writes(staged) == before + 1
    assert live.session.engine.read("pump", "holding", 15, 1).result(5) == (4,)  # type: ignore[union-attr]


def test_a_wrong_range_is_told(dialog: SnapshotsDialog, tmp_path: Path) -> None:
    QTest.keyClicks(dialog.ranges, "holding")
    dialog.take_into(tmp_path / "x.toml")
    assert "is not a range" in dialog.state.text()
    assert not (tmp_path / "x.toml").exists()


def writes(staged: StagedFollower) -> int:
    return sum(asked.function > 4 for asked in staged.asked)


def test_disconnecting_ends_the_offer_to_write(
    dialog: SnapshotsDialog, live: LiveSession, qtbot: QtBot, tmp_path: Path
) -> None:
    dialog.take_into(tmp_path / "found.toml")
    qtbot.waitUntil(lambda: "Registers: 2" in dialog.state.text())
    live.arm()
    click(dialog.live_button)
    qtbot.waitUntil(lambda: "Differences: 0 of 2" in dialog.state.text())
    live.disconnect_from_line()
    assert not dialog.live_button.isEnabled()
    assert "Connect first" in dialog.why.text()
    assert "Compare with the device now" in dialog.write_button.toolTip()


def test_the_space_bar_ticks_every_selected_line(
    dialog: SnapshotsDialog, live: LiveSession, staged: StagedFollower, qtbot: QtBot, tmp_path: Path
) -> None:
    QTest.keyClicks(dialog.ranges, "holding:20-21")
    dialog.take_into(tmp_path / "found.toml")
    qtbot.waitUntil(lambda: "Registers: 4" in dialog.state.text())
    engine = live.session.engine  # type: ignore[union-attr]
    engine.arm("bus")
    assert engine.write("limit", 9).result(5).ok
    assert all(engine.write_register("pump", "holding", at, 8).result(5).ok for at in (20, 21))
    click(dialog.live_button)
    qtbot.waitUntil(lambda: "Differences: 3 of 4" in dialog.state.text())
    model = dialog.table.registers
    assert [row.address for row in model.ticked] == [15]
    assert "check the manual first" in cells(dialog)[1][RegisterColumn.REMARK]
    QTest.keyClick(dialog.table, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(dialog.table, Qt.Key.Key_Space)
    assert [row.address for row in model.ticked] == [15, 20, 21]
    QTest.keyClick(dialog.table, Qt.Key.Key_Space)
    assert model.ticked == []
    assert "Nothing is ticked" in dialog.write_button.toolTip()
    QTest.keyClick(dialog.table, Qt.Key.Key_End)
    QTest.keyClick(dialog.table, Qt.Key.Key_Space)
    assert [row.address for row in model.ticked] == [21]


def test_what_is_shown_is_exported(
    dialog: SnapshotsDialog, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert not dialog.export_button.isEnabled()
    dialog.take_into(tmp_path / "found.toml")
    qtbot.waitUntil(lambda: "Registers: 2" in dialog.state.text())
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "x.csv"), ""))
    click(dialog.export_button)
    assert (tmp_path / "x.csv").read_text("utf-8-sig").splitlines() == [
        "table,register,wire address,signal,value",
        "holding,15,15,limit,4 Hz",
        "holding,16,16,speed,100",
    ]


def test_a_name_without_its_ending_gets_it(
    dialog: SnapshotsDialog, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "pump 1.5 kW"), ""))
    click(dialog.take_button)
    file = tmp_path / "pump 1.5 kW.registers.toml"
    qtbot.waitUntil(lambda: file.name in dialog.state.text())
    assert open_snapshot(file).registers["holding", 15] == 4
