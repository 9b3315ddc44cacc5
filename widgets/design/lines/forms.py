"""The properties of lines and followers."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, Final

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QWidget

from app import edits
from app.project.attributes import word_orders
from app.project.binding import bindings
from app.project.drive_roles import OWN_REGISTERS, REGISTER_MAPS
from app.project.model import UNCHOSEN_HOST, Follower, NeverRead, SerialLine, SerialOverTcpLine, TcpLine
from app.signals.typed import number, plain, whole
from app.starters.answers import USUAL_PORT
from widgets.design.forms.part_form import PartForm
from widgets.design.forms.rows import ChoiceRow, InfoRow, LineRow
from widgets.design.lines.port_row import PortRow
from widgets.document.document import Document, Edit
from widgets.document.drafts import Drafts, DraftTexts

translate = QCoreApplication.translate
_RANGE: Final = re.compile(
    r"(?:(?P<table>coil|discrete|holding|input)\s+)?(?P<first>\d{1,6})(?:\s*-\s*(?P<last>\d{1,6}))?"
)
BAUD_RATES: Final = ("1200", "2400", "4800", "9600", "19200", "38400", "57600", "115200")


def line_kinds() -> list[tuple[str, str]]:
    """The kinds of lines: stored word and what a person reads."""
    return [
        ("serial", translate("LineForm", "serial port (RTU)")),
        ("tcp", translate("LineForm", "Modbus TCP")),
        ("serial-over-tcp", translate("LineForm", "RTU frames over TCP")),
    ]


class LineForm(PartForm):
    """Shows and edits one line, by name."""

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, parent)
        self.step_name = self.tr("Change line")
        self.name_row(self.tr("Name"), edits.rename_line, self.tr("Renaming updates every use"))
        self.add(
            ChoiceRow(
                self.tr("Kind"),
                lambda: None if self.part is None else (self.part.kind,),
                self.put(self._read_kind),
                line_kinds,
            )
        )
        self.add(
            PortRow(
                self.tr("Port"),
                lambda: (self.part.device,) if isinstance(self.part, SerialLine) else None,
                self.put(lambda texts: self.change(device=texts[0])),
                self.tr("For example /dev/ttyUSB0 or COM3; Alt and arrow down show the ports of this computer"),
            )
        )
        self.line(self.tr("Baud"), "baud", whole, completions=lambda: BAUD_RATES)
        self.choice(self.tr("Parity"), "parity", _parities)
        self.choice(self.tr("Stop bits"), "stop_bits", lambda: [("1", "1"), ("2", "2")], read=whole)
        self.line(self.tr("Host"), "host", str.strip, self.tr("Host name or IP address"))
        self.line(self.tr("TCP port"), "port", whole)
        self.line(self.tr("Time-out"), "timeout_ms", whole, self.tr("Longest wait for an answer"), suffix="ms")
        self.add(InfoRow(self.tr("Devices"), self._followers_text))
        self.finish()

    @property
    def part(self) -> SerialLine | TcpLine | SerialOverTcpLine | None:
        """The line that is shown."""
        name = self.subject[1] if isinstance(self.subject, tuple) else ""
        return self.project.line_named.get(name)

    def change(self, **changes: Any) -> Edit:
        """The edit that changes attributes of the line."""
        name = self.subject[1] if isinstance(self.subject, tuple) else ""
        return lambda project: edits.change_line(project, name, **changes)

    def _read_kind(self, texts: DraftTexts) -> Edit:
        part = self.part
        if part is None or part.kind == texts[0]:
            return lambda project: project
        other = line_of_kind(texts[0], part.name, part)
        return lambda project: edits.replace_line(project, part.name, other)

    def _followers_text(self) -> DraftTexts | None:
        part = self.part
        if part is None:
            return None
        names = [f"{each.name} ({each.unit})" for each in self.project.followers if each.line == part.name]
        return (", ".join(names) if names else self.tr("none yet"),)


def line_of_kind(
    kind: str, name: str, like: SerialLine | TcpLine | SerialOverTcpLine | None = None
) -> SerialLine | TcpLine | SerialOverTcpLine:
    """A new line of a kind, with what another one has in common with it."""
    timeout = like.timeout_ms if like is not None else 300
    if kind == "serial":
        return SerialLine(name=name, timeout_ms=timeout, device=USUAL_PORT)
    host = like.host if isinstance(like, TcpLine | SerialOverTcpLine) else UNCHOSEN_HOST
    port = like.port if isinstance(like, TcpLine | SerialOverTcpLine) else 502
    if kind == "tcp":
        return TcpLine(name=name, timeout_ms=timeout, host=host, port=port)
    return SerialOverTcpLine(name=name, timeout_ms=timeout, host=host, port=port)


class FollowerForm(PartForm):
    """Shows and edits one follower, by name."""

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, parent)
        self.step_name = self.tr("Change device")
        self.name_row(self.tr("Name"), edits.rename_follower, self.tr("Renaming updates every use"))
        self.choice(self.tr("Line"), "line", lambda: [(part.name, part.name) for part in self.project.lines])
        self.line(
            self.tr("Unit address"),
            "unit",
            whole,
            self.tr("Address on the line: 1 to 247; on Modbus TCP also 255 or 0"),
        )
        self.choice(self.tr("Numbering"), "numbering", numberings, self.tr("Register numbering used in its manual"))
        self.add(InfoRow(self.tr("Signals"), self._signals_text))
        self.add_heading(self.tr("Reading and writing"), closed=True)
        self.choice(
            self.tr("Word order"),
            "word_order",
            _orders,
            self.tr("Order of the words in a value of two or more registers"),
        )
        self.choice(self.tr("Byte order"), "byte_order", _orders, self.tr("Order of the two bytes in each word"))
        self.line(
            self.tr("Registers per read"),
            "max_registers",
            whole,
            self.tr("Most registers that the device returns in one read"),
            suffix=self.tr("registers"),
        )
        self.check(self.tr("Gaps"), "gaps", self.tr("may read across unused registers"))
        self.add(
            LineRow(
                self.tr("Never read"),
                lambda: None if self.part is None else (ranges_text(self.part.never_read),),
                self.put(lambda texts: self.change(never_read=ranges(texts[0]))),
                self.tr(
                    "Ranges in the device's numbering, e.g. holding 500-599, input 7. Never read, not even to "
                    "bridge a gap"
                ),
            )
        )
        self.line(
            self.tr("Writes with"),
            "write_functions",
            functions,
            self.tr("Function codes that the device offers for writing: 5, 6, 15, 16, and 22 (mask write)"),
        )
        self.line(
            self.tr("Communication time-out"),
            "communication_timeout_ms",
            whole,
            self.tr("The device stops by itself if not polled for this long. 0: not monitored"),
            suffix="ms",
        )
        self.add_heading(self.tr("Simulation"))
        self.add(
            ChoiceRow(
                self.tr("Simulated as"),
                lambda: None if self.part is None else (self.part.simulated.model,),
                self.put(lambda texts: self.change(simulate=texts[0])),
                simulations,
                self.tr("How the device is simulated when none is connected"),
            )
        )
        self.add(
            ChoiceRow(
                self.tr("Register map"),
                lambda: None if self._roles() else self._machine("register_map"),
                self.put(lambda texts: self._with_machine("register_map", texts[0])),
                register_maps,
                self.tr("Control word and status word of the drive's built-in registers"),
            )
        )
        self.add(InfoRow(self.tr("Registers"), self._registers_text))
        for attribute, label, suffix in (
            ("power_kw", self.tr("Motor power"), "kW"),
            ("speed_rpm", self.tr("Rated speed"), self.tr("1/min")),
            ("voltage", self.tr("Rated voltage"), "V"),
            ("load_share", self.tr("Load torque"), self.tr("x rated torque")),
            ("friction", self.tr("Friction"), self.tr("x rated torque")),
            ("inertia", self.tr("Inertia"), "kg m\u00b2"),
        ):
            self._machine_number(attribute, label, suffix)
        self._machine_choice("load", self.tr("Load curve"), loads)
        self._machine_choice("trip_class", self.tr("Trip class"), lambda: [(each, each) for each in ("10", "20", "30")])
        self.finish()

    def _registers_text(self) -> DraftTexts | None:
        """Which registers a simulated drive has."""
        part = self.part
        if part is None or part.simulated.model != "drive":
            return None
        if count := self._roles():
            return (self.tr("signals with a role: {count}").format(count=count),)
        first, last = OWN_REGISTERS["holding"]
        return (
            self.tr("built-in registers ({first} to {last}) until a signal is given a role").format(
                first=first, last=last
            ),
        )

    def _roles(self) -> int:
        """How many signals of the follower have a role in the drive."""
        return sum(
            self.part is not None and binding.follower.name == self.part.name and binding.signal.drive_role is not None
            for binding in bindings(self.project).values()
        )

    def _machine(self, attribute: str) -> DraftTexts | None:
        """A datum of the machine that a simulated drive moves."""
        part = self.part
        if part is None or part.simulated.model != "drive":
            return None
        value = getattr(part.simulated, attribute)
        return (value if isinstance(value, str) else plain(value),)

    def _with_machine(self, attribute: str, value: Any) -> Edit:
        part = self.part
        if part is None:
            return lambda project: project
        return self.change(simulate=part.simulated.replace(**{attribute: value}))

    def _machine_number(self, attribute: str, label: str, suffix: str) -> None:
        self.add(
            LineRow(
                label,
                lambda: self._machine(attribute),
                self.put(lambda texts: self._with_machine(attribute, number(texts[0]))),
                suffix=suffix,
                numeric=True,
            )
        )

    def _machine_choice(self, attribute: str, label: str, options: Callable[[], list[tuple[str, str]]]) -> None:
        def read(text: str) -> Any:
            return int(text) if text.isdecimal() else text

        self.add(
            ChoiceRow(
                label,
                lambda: self._machine(attribute),
                self.put(lambda texts: self._with_machine(attribute, read(texts[0]))),
                options,
            )
        )

    @property
    def part(self) -> Follower | None:
        """The follower that is shown."""
        name = self.subject[1] if isinstance(self.subject, tuple) else ""
        return self.project.follower_named.get(name)

    def change(self, **changes: Any) -> Edit:
        """The edit that changes attributes of the follower."""
        name = self.subject[1] if isinstance(self.subject, tuple) else ""
        return lambda project: edits.change_follower(project, name, **changes)

    def _signals_text(self) -> DraftTexts | None:
        part = self.part
        if part is None:
            return None
        count = sum(getattr(signal, "follower", None) == part.name for signal in self.project.signals)
        return (str(count),)


def ranges_text(parts: tuple[NeverRead, ...]) -> str:
    """Ranges as a person types them: 'holding 500-599, input 7'."""
    return ", ".join(
        f"{part.table} {part.first}" + (f"-{part.last}" if part.last != part.first else "") for part in parts
    )


def ranges(text: str) -> tuple[NeverRead, ...]:
    """What `ranges_text` gives; a range without a table is in holding registers. Raises ValueError in words."""
    found = []
    for piece in filter(None, (piece.strip() for piece in text.split(","))):
        match = _RANGE.fullmatch(piece)
        if match is None:
            raise ValueError(
                translate(
                    "FollowerForm", "'{text}' is not a range; write for example: holding 500-599, input 7"
                ).format(text=piece)
            )
        first = int(match["first"])
        last = int(match["last"] or first)
        if last < first:
            raise ValueError(translate("FollowerForm", "'{text}' ends before it begins").format(text=piece))
        found.append(NeverRead.model_validate({"table": match["table"] or "holding", "first": first, "last": last}))
    return tuple(found)


def functions(text: str) -> tuple[int, ...]:
    """Function codes with commas between. Raises ValueError in words."""
    found = tuple(dict.fromkeys(whole(piece) for piece in text.split(",") if piece.strip()))
    for code in found:
        if code not in (5, 6, 15, 16, 22):
            raise ValueError(translate("FollowerForm", "{code} is not one of 5, 6, 15, 16 and 22").format(code=code))
    return found


def _parities() -> list[tuple[str, str]]:
    return [
        ("even", translate("LineForm", "even")),
        ("odd", translate("LineForm", "odd")),
        ("none", translate("LineForm", "none")),
    ]


def _orders() -> list[tuple[str, str]]:
    return list(word_orders().items())


def numberings() -> list[tuple[str, str]]:
    """How a manual may count registers: stored word and what a person reads."""
    return [
        ("from-0", translate("FollowerForm", "from 0, as in the frames")),
        ("from-1", translate("FollowerForm", "from 1")),
        ("prefixed", translate("FollowerForm", "prefixed by the table (40001)")),
    ]


def register_maps() -> list[tuple[str, str]]:
    """Which built-in registers a simulated drive has: stored word and what a person reads."""
    return [(name, translate("project", text)) for name, text in REGISTER_MAPS.items()]


def loads() -> list[tuple[str, str]]:
    """How the torque of a load goes with the speed: stored word and what a person reads."""
    return [
        ("quadratic", translate("FollowerForm", "with the square of the speed: fan, pump")),
        ("linear", translate("FollowerForm", "proportional to the speed: mixer")),
        ("constant", translate("FollowerForm", "constant at every speed: conveyor")),
    ]


def simulations() -> list[tuple[str, str]]:
    """What can simulate a follower: stored word and what a person reads."""
    return [
        ("bank", translate("FollowerForm", "bank of registers")),
        ("drive", translate("FollowerForm", "drive with motor and load")),
    ]
