"""The inputs of a simulated follower and the trouble between it and its line, in a window that stays open."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QDoubleSpinBox,
    QWidget,
)

from widgets.kit.controls import Choice, DecimalNumber, UnitLine, WholeNumber
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.plain import plain_label

if TYPE_CHECKING:  # followers are simulated only when a project is connected
    from app.follower.register_bank import RegisterBank

REBOOT_S: Final = 5.0


class TroubleDialog(Dialog):
    """What somebody at the bench can do to one simulated follower. Everything acts at once."""

    def __init__(self, bank: RegisterBank, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bank = bank
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.tell(
            self.tr("Inputs and line of \u201c{name}\u201d").format(name=bank.name),
            self.tr("What somebody at the simulated device could do to it. Everything acts at once."),
        )
        self.let_form_scroll()
        inputs = getattr(bank, "inputs", None)
        if inputs is not None:
            self._add_inputs(inputs)
        self._add_faults()
        self.reboot = self.add_extra(
            self.tr("Restart (offline for {seconds} s)").format(seconds=f"{REBOOT_S:g}"), lambda: bank.reboot(REBOOT_S)
        )
        self.clear = self.add_extra(self.tr("Clear all line faults"), self._clear)
        self.add_close()

    def _add_inputs(self, inputs: Any) -> None:
        self.form.addRow(plain_label(self.tr("Inputs of the drive"), "heading"))
        self.supply = self._share(self.tr("Supply voltage"), lambda: inputs.supply, 150)
        self.supply.valueChanged.connect(lambda value: setattr(inputs, "supply", value / 100))
        self.preset = Choice()
        self.preset.addItem(self.tr("none"), 0)
        for number in range(1, 5):
            self.preset.addItem(str(number), number)
        self.preset.setCurrentIndex(self.preset.findData(inputs.preset))
        self.preset.activated.connect(lambda _index: setattr(inputs, "preset", self.preset.currentData()))
        self.add_row(self.tr("Preset speed"), self.preset)
        self._check(self.tr("Safe torque off (STO)"), inputs, "safe_torque_off")
        self._check(self.tr("External fault"), inputs, "external_fault").setToolTip(
            self.tr(
                "The external fault input of the drive is active; the drive trips and stays stopped until the "
                "fault is reset."
            )
        )
        self._check(self.tr("Local"), inputs, "remote", on=False).setToolTip(
            self.tr("The drive is switched to local: it takes no commands from the bus.")
        )

    def _add_faults(self) -> None:
        faults = self._bank.faults
        self.form.addRow(plain_label(self.tr("Line faults"), "heading"))
        self._numbers: list[tuple[QDoubleSpinBox, Callable[[], float]]] = []
        for attribute, label in (
            ("delay_ms", self.tr("Answer delay")),
            ("jitter_ms", self.tr("Jitter +/-")),
        ):
            box = DecimalNumber()
            box.setRange(0, 60_000)
            box.setDecimals(0)
            box.setLineEdit(UnitLine("ms"))
            box.setValue(getattr(faults, attribute))
            box.valueChanged.connect(lambda value, attribute=attribute: setattr(faults, attribute, value))
            self._numbers.append((box, lambda attribute=attribute: getattr(faults, attribute)))  # type: ignore[misc]
            self.add_row(label, box)
        for attribute, label in (
            ("silence", self.tr("Missing answers")),
            ("noise", self.tr("Answers preceded by noise")),
            ("bad_crc", self.tr("Wrong checksums")),
            ("exceptions", self.tr("Exception responses")),
        ):
            share = self._share(label, lambda attribute=attribute: getattr(faults, attribute), 100)  # type: ignore[misc]
            share.valueChanged.connect(lambda value, attribute=attribute: setattr(faults, attribute, value / 100))
        from app.client.faults import EXCEPTIONS, exception_text

        self.code = Choice()
        for code in EXCEPTIONS:
            self.code.addItem(exception_text(code)[0], code)
        self.code.setCurrentIndex(max(0, self.code.findData(faults.exception)))
        self.code.activated.connect(lambda _index: setattr(faults, "exception", self.code.currentData()))
        self.add_row(self.tr("Exception code"), self.code)
        self.seed = WholeNumber()
        self.seed.setRange(0, 2**31 - 1)
        self.seed.setValue(faults.seed)
        self.seed.setToolTip(self.tr("The same number gives the same faults in the same order"))
        self.seed.valueChanged.connect(faults.reseed)
        self.add_row(self.tr("Random seed"), self.seed)

    def _check(self, label: str, inputs: Any, attribute: str, *, on: bool = True) -> QCheckBox:
        box = QCheckBox(label)
        box.setChecked(getattr(inputs, attribute) is on)
        box.toggled.connect(lambda checked: setattr(inputs, attribute, checked is on))
        self.form.addRow(box)
        return box

    def _share(self, label: str, get: Callable[[], float], most: int) -> QDoubleSpinBox:
        box = DecimalNumber()
        box.setRange(0, most)
        box.setDecimals(0)
        box.setLineEdit(UnitLine("%"))
        box.setValue(100 * get())
        self.add_row(label, box)
        if most == 100:
            self._numbers.append((box, lambda: 100 * get()))
        return box

    def _clear(self) -> None:
        self._bank.faults.clear()
        for box, get in self._numbers:
            box.setValue(get())
