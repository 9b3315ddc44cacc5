"""The page "Line": where to search, what is known already, and what has to be known before anything is asked."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QStackedWidget, QVBoxLayout, QWidget

from app.client.endpoint import USUAL_PORT, Endpoint, LineKind
from app.discovery.search import Wanted
from app.errors import FanlightError
from app.modbus.serial_port import LineSettings
from app.probing.priors import usual_priors
from app.probing.probe import MOST_UNIT
from app.probing.requests import Untouched
from app.starters.answers import USUAL_PORT as USUAL_SERIAL_PORT
from widgets.find_out.never_touch import NeverTouch
from widgets.kit.controls import Choice, Segments, WholeNumber
from widgets.kit.dialogs.dialog import Sign, WholeArea
from widgets.kit.elided import shorten_placeholder
from widgets.kit.flow import FlowLayout
from widgets.kit.plain import plain_label
from widgets.kit.scaling import line_height, scaled
from widgets.welcome.serial_choice import SerialChoice


class LinePage(QWidget):
    """Says by `changed` when something else is chosen; `problem` why it cannot be begun with what is chosen."""

    changed = Signal()
    go_on = Signal()
    """Enter was pressed in a line."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._first: int | None = None
        """The unit address that a project gives the device that is looked for."""
        self._make_place()
        self._make_known()
        self._make_cautions()
        rows, outer = QWidget(), QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.setSpacing(scaled(8))
        outer.addWidget(WholeArea(rows))
        outer.addWidget(self.consent)  # in sight however little room there is: nothing begins without it
        outer.addWidget(self.state)
        outer.addStretch(1)
        layout = QVBoxLayout(rows)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(scaled(8))
        for part in (
            plain_label(self.tr("Where is the device connected?"), "heading"),
            self.kind,
            self.places,
            plain_label(self.tr("What is known already?"), "heading"),
            self.known,
            self.known_rows,
            plain_label(self.tr("Before anything is asked"), "heading"),
            self.cautions,
            _row((self.tr("&Never touch"), self.never, 1)),
        ):
            layout.addWidget(part)
        layout.addStretch(1)
        self._show()

    # Its parts

    def _make_place(self) -> None:
        self.kind = Segments(
            [
                ("serial", self.tr("Serial port")),
                ("tcp", self.tr("Modbus TCP")),
                ("serial-over-tcp", self.tr("RTU over TCP")),
            ]
        )
        self.kind.setAccessibleName(self.tr("Where is the device connected?"))
        self.kind.chosen.connect(lambda _key: self._show())
        self.port = SerialChoice(USUAL_SERIAL_PORT)
        self.port.editTextChanged.connect(lambda _text: self.changed.emit())
        self.port.line.returnPressed.connect(self.go_on)
        self.host = QLineEdit()
        self.host.setAccessibleName(self.tr("Host"))
        shorten_placeholder(self.host, self.tr("e.g. 192.168.0.10"))
        self.host.textChanged.connect(lambda _text: self.changed.emit())
        self.host.returnPressed.connect(self.go_on)
        self.tcp_port = WholeNumber()
        self.tcp_port.setAccessibleName(self.tr("Port"))
        self.tcp_port.setRange(1, 65_535)
        self.tcp_port.setValue(USUAL_PORT)
        self.tcp_port.lineEdit().returnPressed.connect(self.go_on)
        self.places = QStackedWidget()
        self.places.addWidget(_row((self.tr("Port"), self.port, 1)))
        self.places.addWidget(_row((self.tr("Host"), self.host, 1), (self.tr("Port"), self.tcp_port, 0)))

    def _make_known(self) -> None:
        self.known = Segments([("search", self.tr("Nothing: search all")), ("known", self.tr("Some of it"))])
        self.known.setAccessibleName(self.tr("What is known already?"))
        self.known.chosen.connect(lambda _key: self._show())
        priors = usual_priors()
        self.speed = Choice()
        self.speed.setAccessibleName(self.tr("Speed"))
        self.speed.addItem(self.tr("any speed"), 0)
        for baud in sorted({settings.baud for settings in priors.settings}):
            self.speed.addItem(str(baud), baud)
        self.characters = Choice()
        self.characters.setAccessibleName(self.tr("Parity and stop bits"))
        self.characters.addItem(self.tr("any parity"), "")
        for settings in sorted({str(settings).partition(" ")[2] for settings in priors.settings}):
            self.characters.addItem(settings, settings)
        self.units = QLineEdit()
        self.units.setAccessibleName(self.tr("Unit addresses"))
        shorten_placeholder(self.units, self.tr("all, or e.g. 1-20, 100"))
        self.units.textChanged.connect(lambda _text: self.changed.emit())
        self.units.returnPressed.connect(self.go_on)
        self.serial_known = (
            _row((self.tr("Speed"), self.speed, 1)),
            _row((self.tr("Characters"), self.characters, 1)),
        )
        self.known_rows = QWidget()
        rows = FlowLayout(self.known_rows, spacing=scaled(16))
        for part in self.serial_known:
            rows.addWidget(part)
        self.units.setMinimumWidth(scaled(220))
        rows.addWidget(_row((self.tr("Unit addresses"), self.units, 1)))

    def _make_cautions(self) -> None:
        texts = (
            self.tr("This search reads and never writes. It tries settings one after the other, which takes minutes."),
            self.tr(
                "Reading can disturb a machine, too: where another client commands it, its requests are lost. Search "
                "on a line that nobody else uses. It listens first, and sends nothing while somebody speaks."
            ),
            self.tr(
                "Some devices clear counters or faults when they are read. Name the registers that must not be "
                "touched: the search leaves them out from its first question on."
            ),
        )
        self.cautions = QWidget()
        rows = QVBoxLayout(self.cautions)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(scaled(4))
        for text in texts:
            row = QHBoxLayout()
            row.addWidget(Sign("caution"), 0)
            row.addWidget(plain_label(text, wrap=True), 1)
            rows.addLayout(row)
        self.never = NeverTouch()
        self.never.textChanged.connect(lambda _text: self.changed.emit())
        self.never.returnPressed.connect(self.go_on)
        self.consent = QCheckBox(self.tr("The machine is safe &meanwhile, and I may do this."))
        self.consent.toggled.connect(lambda _on: self.changed.emit())
        self.state = plain_label("", "fault", wrap=True)
        self.state.setMinimumHeight(line_height(20, lines=2))

    def _show(self) -> None:
        serial = self.kind.current == "serial"
        self.places.setCurrentIndex(0 if serial else 1)
        some = self.known.current == "known"
        self.known_rows.setEnabled(some)
        for part in self.serial_known:
            part.setVisible(serial)
        self.changed.emit()

    # What is chosen

    @property
    def place(self) -> QWidget:
        """Where one says where the device is."""
        return self.port if self.kind.current == "serial" else self.host

    def choose(self, endpoint: Endpoint, unit: int | None = None, never: Untouched | None = None) -> None:
        """Begin with this line, ask `unit` before all others, and touch `never` not at all."""
        self._first = unit
        self.never.name_too(never or {})
        kind: LineKind = endpoint.kind
        self.kind.choose(kind)
        if kind == "serial":
            self.port.choose(endpoint.device)
        else:
            self.host.setText(endpoint.host)
            self.tcp_port.setValue(endpoint.port)
        self._show()

    def endpoint(self) -> Endpoint:
        """Where to search. Raises FanlightError for what is no name of a place."""
        match self.kind.current:
            case "serial":
                return Endpoint.serial(self.port.port)
            case "tcp":
                return Endpoint.tcp(self.host.text().strip(), self.tcp_port.value())
        return Endpoint.serial_over_tcp(self.host.text().strip(), self.tcp_port.value())

    def wanted(self) -> Wanted:
        """What is searched for. Raises ValueError in words for units or registers that are none."""
        never = self.never.untouched()
        if self.known.current != "known":
            return Wanted(never=never, first_unit=self._first)
        settings: tuple[LineSettings, ...] = ()
        baud, characters = self.speed.currentData(), self.characters.currentData()
        if self.kind.current == "serial" and (baud or characters):
            settings = tuple(
                one
                for one in usual_priors().settings
                if baud in (0, one.baud) and characters in ("", str(one).partition(" ")[2])
            )
        return Wanted(units=self._units(), settings=settings, never=never, first_unit=self._first)

    def _units(self) -> tuple[int, ...]:
        least, most = (0, 255) if self.kind.current == "tcp" else (1, MOST_UNIT)
        found: list[int] = []
        for part in filter(None, (part.strip() for part in self.units.text().split(","))):
            first, dash, last = (each.strip() for each in part.partition("-"))
            if not first.isdecimal() or (dash and not last.isdecimal()):
                raise ValueError(self._no_unit(part, least, most))
            span = range(int(first), int(last or first) + 1)
            if not span or span[0] < least or span[-1] > most:
                raise ValueError(self._no_unit(part, least, most))
            found += span
        return tuple(dict.fromkeys(found))

    def _no_unit(self, part: str, least: int, most: int) -> str:
        text = self.tr("\u201c{part}\u201d names no unit addresses; they are {least} to {most}, such as 1-20, 100")
        return text.format(part=part, least=least, most=most)

    def problem(self) -> str:
        """Why it cannot be begun, in words; empty if it can."""
        if self.kind.current == "serial":
            if not self.port.port:
                return self.tr("Choose a serial port.")
        elif not self.host.text().strip():
            return self.tr("Enter the host: its name or its IP address.")
        try:
            self.endpoint()
            self.wanted()
        except (FanlightError, ValueError) as why:
            return str(why)
        return "" if self.consent.isChecked() else self.tr("Tick the sentence above first.")

    def tell(self, words: str) -> None:
        """Say why it was not begun."""
        self.state.setText(words)


def _row(*parts: tuple[str, QWidget, int]) -> QWidget:
    row = QWidget()
    layout = QHBoxLayout(row)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(scaled(8))
    for words, editor, stretch in parts:
        label = plain_label(words)
        label.setBuddy(editor)
        layout.addWidget(label)
        layout.addWidget(editor, stretch)
    if not any(stretch for *_, stretch in parts):
        layout.addStretch(1)
    return row
