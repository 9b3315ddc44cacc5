"""The serial ports of this computer to choose from, or another one to be typed."""

from __future__ import annotations

import contextlib
import threading
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from app.language import Template, mark
from app.modbus.serial_port import PortTrouble, port_trouble, ports_here
from widgets.kit.controls import Choice

TROUBLE: Final[dict[PortTrouble, Template]] = {
    "no permission": mark("starters", "{port} (no permission)"),
    "in use": mark("starters", "{port} (in use)"),
}


class SerialChoice(Choice):
    """Lists the ports with what the system says of them; looked for aside, since some systems take a second."""

    _found = Signal(object)

    def __init__(self, usual: str, parent: QWidget | None = None) -> None:
        """`usual` stands there until a port is found, or something is typed."""
        super().__init__(parent)
        self._usual = usual
        self.setEditable(True)
        self.setInsertPolicy(Choice.InsertPolicy.NoInsert)
        self.setAccessibleName(self.tr("Serial port"))
        self.setSizeAdjustPolicy(Choice.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(16)
        self.setEditText(usual)
        self.activated.connect(self._show_device)
        self._found.connect(self._list)
        self.look()

    @property
    def port(self) -> str:
        """What opens the port: /dev/ttyUSB0, COM3."""
        return self.currentText().strip()

    def look(self) -> None:
        """Find out which ports there are now."""

        def look() -> None:
            found = [(device, description, port_trouble(device)) for device, description in ports_here().items()]
            with contextlib.suppress(RuntimeError):  # the dialog may be gone
                self._found.emit(found)

        threading.Thread(target=look, name="serial ports", daemon=True).start()

    def _list(self, ports: list[tuple[str, str, PortTrouble]]) -> None:
        typed = self.port
        self.clear()
        for device, description, trouble in ports:
            words = f"{device}  \u2013  {description}" if description else device
            if trouble:
                words = TROUBLE[trouble].translated().format(port=words)
            self.addItem(words, device)
        free = next((device for device, _, trouble in ports if not trouble), "")
        self.setEditText(free if typed == self._usual and free else typed)

    def _show_device(self, index: int) -> None:
        self.setEditText(str(self.itemData(index, Qt.ItemDataRole.UserRole)))
