"""Where to connect to, and the one button that connects and disconnects; in the header of the window."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final

from PySide6.QtCore import QCoreApplication, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QWidget

from app.modbus.ports_here import PortHere, ports_here
from app.project.model import Line, Project, SerialLine
from widgets.document.document import Document
from widgets.frame.connecting import REAL, SIMULATED, Connecting
from widgets.kit import palette
from widgets.kit.elided import ShortChoice
from widgets.kit.look import set_look
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled

translate = QCoreApplication.translate
WIDE, NARROW = 190, 120
"""Of the choice, in pixels at 100 per cent: with room, and in a narrow window. What it says changes it never."""
BETWEEN: Final = 8
PADDING: Final = 20
"""Beside the longest text of the button, in pixels at 100 per cent."""
DOT: Final = 8
"""Across, of the dot that says that another design would be connected; in pixels at 100 per cent."""


class ConnectBar(QWidget):
    """Target and button stand still in every state: connected or not, armed or not, whatever the line is called."""

    def __init__(self, connecting: Connecting, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._connecting = connecting
        self._document = document
        self.where = _Target(lambda: self._name_lines(ports=True))
        self.where.addItems(["", ""])
        self.where.setAccessibleName(self.tr("Connect to"))
        self.where.activated.connect(connecting.choose)
        self.caption = QLabel(self.tr("L&ine"))
        self.caption.setProperty("look", "faint")
        self.caption.setBuddy(self.where)
        self._leads = False
        self.button = _OneWidth(self.tr("Connect"), self.tr("Disconnect"), self.tr("Reconnect"))
        self.button.clicked.connect(connecting.toggle)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(scaled(BETWEEN))
        for widget in (self.caption, self.where, self.button):
            row.addWidget(widget)
        connecting.where_changed.connect(self._follow)
        self._name_lines()
        self.fit(short=False, narrow=False)
        self._follow()

    def lead(self, on: bool) -> None:
        """Whether to connect is what one comes to the workspace in front for: then the button is its primary one."""
        if on != self._leads:
            self._leads = on
            self._follow()

    def fit(self, *, short: bool, narrow: bool) -> None:
        """Give way in a narrow header: without the word, then with a narrow choice."""
        self.caption.setVisible(not short)
        self.where.setFixedWidth(scaled(NARROW if narrow else WIDE))
        self.setFixedWidth(self.width_as(short=short, narrow=narrow))

    def width_as(self, *, short: bool, narrow: bool) -> int:
        """Pixels that the bar would take."""
        caption = 0 if short else self.caption.sizeHint().width() + scaled(BETWEEN)
        return caption + scaled(NARROW if narrow else WIDE) + scaled(BETWEEN) + self.button.sizeHint().width()

    def _follow(self) -> None:
        live, changed = self._connecting.live, self._connecting.changed
        self._name_lines()
        self.where.setCurrentIndex(self._connecting.where)
        self.where.setEnabled(not live.connected)
        self.button.mark(changed)
        if changed:
            text = self.tr("Reconnect")
            tip = self.tr("The design was changed after connecting. The panel still runs the previous version.")
        elif live.connected:
            text, tip = self.tr("Disconnect"), self._where_words()
        else:
            text, tip = self.tr("Connect"), ""
        if text != self.button.text():
            self.button.setText(text)
        action = (
            self._connecting.disconnect_action if live.connected and not changed else (self._connecting.connect_action)
        )
        keys = action.shortcut().toString(action.shortcut().SequenceFormat.NativeText)
        self.button.setToolTip(plain_tip("\n".join(filter(None, (f"{text}  {keys}", tip)))))
        self.button.setAccessibleDescription(tip)
        set_look(self.button, "primary" if self._leads and not live.connected else "")

    def _where_words(self) -> str:
        session = self._connecting.live.session
        if session is None:
            return ""
        at = self.tr("{line} at {endpoint}")
        return ", ".join(at.format(line=name, endpoint=endpoint) for name, endpoint in session.endpoints.items())

    def _name_lines(self, *, ports: bool = False) -> None:
        """Say what can be connected to; with `ports` as this computer calls them, which may take a moment."""
        project = self._document.project
        self.where.setItemText(SIMULATED, self.tr("Simulated devices"))
        self.where.setItemText(REAL, real_words(project, ports_here() if ports else ()))


class _Target(ShortChoice):
    """The choice of the target. Its entries name the ports of this computer as they are when it is opened."""

    def __init__(self, refresh: Callable[[], object]) -> None:
        super().__init__()
        self._refresh = refresh

    def showPopup(self) -> None:
        self._refresh()
        widest = max(self.fontMetrics().horizontalAdvance(self.itemText(at)) for at in range(self.count()))
        self.view().setMinimumWidth(min(widest + scaled(32), self.window().width()))
        super().showPopup()


class _OneWidth(QPushButton):
    """A button with one of several texts, as wide with each as with the widest, that can carry a dot."""

    def __init__(self, *texts: str) -> None:
        super().__init__(texts[0])
        self._texts = texts
        self._marked = False
        self.setAutoDefault(False)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def mark(self, on: bool) -> None:
        """Carry the dot, or no longer."""
        if on != self._marked:
            self._marked = on
            self.update()

    def sizeHint(self) -> QSize:
        """As wide as the widest text needs in the heaviest look, with room for the dot on either side."""
        font = QFont(self.font())
        font.setWeight(QFont.Weight.DemiBold)
        widest = max(QFontMetrics(font).horizontalAdvance(text) for text in self._texts)
        return QSize(widest + 2 * scaled(PADDING), super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self._marked:
            painter = QPainter(self)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(palette.current().colour("accent"))
            side = scaled(DOT)
            painter.drawEllipse(side // 2 + 1, (self.height() - side) // 2, side, side)


def real_words(project: Project, ports: Iterable[PortHere] = ()) -> str:
    """Where the lines of a project lead. `ports`: the serial ports of this computer, as far as they are known."""
    described = {port.device: port.description for port in ports}
    named = ", ".join(_line_words(line, described) for line in project.lines)
    return named or translate("ConnectBar", "no line in this project")


def _line_words(line: Line, described: dict[str, str]) -> str:
    if not isinstance(line, SerialLine):
        return f"{line.name} \u00b7 {line.host}:{line.port}"
    words = f"{line.name} \u00b7 {line.device}"
    return f"{words} ({described[line.device]})" if described.get(line.device) else words
