"""The serial ports of this computer to choose from, or another one to be typed."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QCoreApplication,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSignalBlocker,
    Qt,
)
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from app.modbus.ports_here import PortHere
from widgets.kit.controls import Choice
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled
from widgets.welcome.port_watch import PortWatch

translate = QCoreApplication.translate
_Index = QModelIndex | QPersistentModelIndex


class SerialChoice(Choice):
    """Lists the ports with what the system says of them, free ones first. While it is on show it sees them come and go.

    As long as nobody typed or chose one, the port that was plugged in last stands there, else the first free one.
    """

    def __init__(self, usual: str, parent: QWidget | None = None, hint: str = "") -> None:
        """`usual` stands there until a port is found; if it is empty, none is put there that nobody chose."""
        super().__init__(parent)
        self._usual = self._by_itself = usual
        self._hint = hint
        self._seen: list[str] | None = None
        self._new: list[str] = []
        """The newest first."""
        self._ports = _Ports(self)
        self.setEditable(True)
        self.setModel(self._ports)
        self.setInsertPolicy(Choice.InsertPolicy.NoInsert)
        self.setAccessibleName(self.tr("Serial port"))
        self.setSizeAdjustPolicy(Choice.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(8)
        self.setEditText(usual)
        self.editTextChanged.connect(self._tip)
        self.line.textEdited.connect(self._keep)
        self.activated.connect(self._keep)
        self._watch = PortWatch(self)
        self._watch.found.connect(self._list)
        if usual:
            self.look()

    @property
    def line(self) -> QLineEdit:
        """Where it is typed."""
        line = self.lineEdit()
        assert line is not None  # there is one in what is editable
        return line

    @property
    def port(self) -> str:
        """What opens the port: /dev/ttyUSB0, COM3."""
        return self.currentText().strip()

    def choose(self, device: str) -> None:
        """Let this port stand there, whichever is found."""
        self._keep()
        self._put(device)

    def look(self) -> None:
        """Find out which ports there are now."""
        self._watch.look()

    def _keep(self, _what: object = None) -> None:
        self._by_itself = ""

    def _list(self, ports: tuple[PortHere, ...]) -> None:
        here = [port.device for port in ports]
        if self._seen is not None:
            come = [device for device in here if device not in self._seen]
            self._new = [*come, *(device for device in self._new if device in here)]
        self._seen = here
        typed, marked = self.currentText(), self.view().currentIndex().data(Qt.ItemDataRole.EditRole)
        with QSignalBlocker(self):  # Qt puts an entry into the line whenever the list is another, and would tell of it
            if not self._ports.show(ports, self._new):
                return
            self._put(typed)
        if self._by_itself and self.port == self._by_itself:
            self._by_itself = self._best(ports)
            self._put(self._by_itself)
        self._tip()
        if self.view().isVisible():
            self.showPopup()
            if marked != typed:  # somebody has moved in it
                self.view().setCurrentIndex(self._ports.index(self.findData(marked, Qt.ItemDataRole.EditRole)))

    def _put(self, device: str) -> None:
        """Let it stand there, marked in the list if it is one of these."""
        at = self.findData(device, Qt.ItemDataRole.EditRole)
        if at < 0:
            with QSignalBlocker(self):  # that empties the line
                self.setCurrentIndex(at)
        else:
            self.setCurrentIndex(at)
        self.setEditText(device)

    def _best(self, ports: tuple[PortHere, ...]) -> str:
        free = [port.device for port in ports if not port.trouble]
        plugged_in = [device for device in self._new if device in free]
        stays = [port.device for port in ports if port.device == self._by_itself]
        return (plugged_in or stays or free or [self._usual])[0]

    def _tip(self) -> None:
        known = self._ports.tips.get(self.port, "")
        self.setToolTip(plain_tip("\n".join(filter(None, (known, self._hint)))))

    def showPopup(self) -> None:
        """Open the list, as wide as what it says."""
        texts = [self._ports.index(row).data() for row in range(self._ports.rowCount())]
        widest = max((self.view().fontMetrics().horizontalAdvance(text) for text in texts), default=0)
        self.view().setMinimumWidth(min(widest + scaled(32), self.window().width()))
        super().showPopup()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._watch.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._watch.stop()
        self._new = []


class _Ports(QAbstractListModel):
    """What is read of each port is all that is known of it; what is edited is its name."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._rows: list[tuple[str, str]] = []
        self.tips: dict[str, str] = {}
        """By device: what is known of it, and how to get it."""

    def show(self, ports: Sequence[PortHere], new: Collection[str]) -> bool:
        """List these, free ones first. Whether that is another list than before."""
        in_order = sorted(ports, key=lambda port: bool(port.trouble))
        rows = [(port.device, port_words(port, new=port.device in new)) for port in in_order]
        if rows == self._rows:
            return False
        self.beginResetModel()
        self._rows = rows
        to_do = {port.device: port.to_do for port in ports}
        self.tips = {device: "\n".join(filter(None, (words, to_do[device]))) for device, words in rows}
        self.endResetModel()
        return True

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self._rows)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        device, words = self._rows[index.row()]
        match role:
            case Qt.ItemDataRole.DisplayRole:
                return words
            case Qt.ItemDataRole.EditRole:
                return device
            case Qt.ItemDataRole.ToolTipRole:
                return plain_tip(self.tips[device])
        return None


def port_words(port: PortHere, *, new: bool = False) -> str:
    """A port with all that is known of it: "COM3  –  RS-485 adapter, serial number A12 (in use)"."""
    troubles = {
        "": "",
        "in use": translate("SerialChoice", "in use"),
        "in use by this program": translate("SerialChoice", "in use by this program"),
        "no permission": translate("SerialChoice", "no permission"),
    }
    number = translate("SerialChoice", "serial number {number}").format(number=port.serial_number)
    maker = "" if port.maker in port.description else port.maker
    about = ", ".join(filter(None, (port.description, maker, port.serial_number and number)))
    marks = ", ".join(filter(None, (translate("SerialChoice", "new") if new else "", troubles[port.trouble])))
    words = f"{port.device}  \u2013  {about}" if about else port.device
    return f"{words} ({marks})" if marks else words
