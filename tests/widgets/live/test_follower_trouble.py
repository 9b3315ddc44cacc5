"""The window with the inputs of a simulated follower and the trouble on its line: everything acts at once."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QDoubleSpinBox, QWidget
from pytestqt.qtbot import QtBot

from app.follower.drive_bank import DriveBank
from app.follower.simulation import Simulation
from app.project_file.files import load
from projects import demo_path
from widgets.live.follower_card import FollowerCard
from widgets.live.follower_trouble import TroubleDialog


@pytest.fixture
def simulation() -> Simulation:
    return Simulation(load(demo_path("drying-hall")))


@pytest.fixture
def dialog(qtbot: QtBot, simulation: Simulation) -> TroubleDialog:
    made = TroubleDialog(simulation.models["fan"])
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    made.show()
    return made


def number(dialog: TroubleDialog, name: str) -> QDoubleSpinBox:
    return next(box for box in dialog.findChildren(QDoubleSpinBox) if box.accessibleName() == name)


def type_into(box: QWidget, text: str) -> None:
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(box, text)
    QTest.keyClick(box, Qt.Key.Key_Tab)


def test_inputs_act_at_once(dialog: TroubleDialog, simulation: Simulation) -> None:
    fan = simulation.models["fan"]
    assert isinstance(fan, DriveBank)
    for box in dialog.findChildren(QCheckBox):
        box.setFocus()
        QTest.keyClick(box, Qt.Key.Key_Space)
    assert [box.text() for box in dialog.findChildren(QCheckBox)] == [
        "Safe torque off (STO)",
        "External fault",
        "Local",
    ]
    assert fan.inputs.safe_torque_off
    assert fan.inputs.external_fault
    assert not fan.inputs.remote
    dialog.preset.setFocus()
    QTest.keyClick(dialog.preset, Qt.Key.Key_End)
    assert fan.inputs.preset == 4
    type_into(dialog.supply, "80")
    assert fan.inputs.supply == 0.8


def test_trouble_is_ordered_and_cleared(dialog: TroubleDialog, simulation: Simulation) -> None:
    faults = simulation.models["fan"].faults
    type_into(number(dialog, "Answer delay"), "250")
    type_into(number(dialog, "Missing answers"), "5")
    type_into(number(dialog, "Wrong checksums"), "10")
    dialog.code.setFocus()
    QTest.keyClick(dialog.code, Qt.Key.Key_Home)
    assert (faults.delay_ms, faults.silence, faults.bad_crc, faults.exception) == (250, 0.05, 0.1, 1)
    QTest.mouseClick(dialog.reboot, Qt.MouseButton.LeftButton)
    assert faults.away
    QTest.mouseClick(dialog.clear, Qt.MouseButton.LeftButton)
    assert not faults.any
    assert number(dialog, "Missing answers").value() == 0


def test_a_bank_has_trouble_but_no_inputs(qtbot: QtBot, simulation: Simulation) -> None:
    made = TroubleDialog(simulation.models["climate"])
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    assert not made.findChildren(QCheckBox)
    assert number(made, "Missing answers") is not None


def test_it_opens_from_the_card_and_goes_with_it(qtbot: QtBot, simulation: Simulation) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    card = FollowerCard(simulation.project, simulation.project.followers[0], window)
    card.simulate(simulation.models["fan"])
    window.show()
    assert card.switches is not None
    card.switches.more.trigger()
    assert len(window.findChildren(TroubleDialog)) == 1
    card.deleteLater()
    qtbot.waitUntil(lambda: not window.findChildren(TroubleDialog))
