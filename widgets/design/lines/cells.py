"""The columns of the tables of lines and followers, and what a text typed or pasted there means."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from typing import Any, Final

from PySide6.QtCore import QCoreApplication

from app.edits.refused import free_name
from app.modbus.ports_here import ports_here
from app.planning.plan import LinePlan
from app.project.model import Follower, Project, RegisterSignal, SerialLine
from app.project.value_texts import choice_of
from app.signals.typed import whole
from widgets.design.lines.forms import line_kinds, line_of_kind, numberings, simulations
from widgets.design.values.cell_reading import CellReader, CellRefused, ColumnTexts
from widgets.design.values.column import Column

translate = QCoreApplication.translate
_LETTERS: Final = {"even": "E", "odd": "O", "none": "N"}
_SERIAL: Final = re.compile(r"(\S+)(?:\s+(\d+)(?:\s+(?:8\s*)?([EON])\s*([12])?)?)?", re.IGNORECASE)


def line_columns(plans: Mapping[str, LinePlan]) -> list[Column]:
    """The columns of the table of lines. `plans` says how each is read, as far as that is known."""
    return [
        Column(
            translate("LineCells", "Name"),
            lambda _project, part: part.name,
            key="name",
            read=lambda _project, _part, text: {"name": text.strip()},
            form_row=lambda _part: translate("LineForm", "Name"),
        ),
        Column(
            translate("LineCells", "Kind"),
            lambda _project, part: dict(line_kinds())[part.kind],
            160,
            key="kind",
            read=lambda _project, _part, _text: {},
            completions=lambda _project, _part: list(dict(line_kinds()).values()),
        ),
        Column(
            translate("LineCells", "Connection"),
            lambda _project, part: where_text(part),
            200,
            key="where",
            read=_read_where,
            hint=translate("LineCells", "The port: COM3 19200 8E1; or the host and its TCP port: 192.168.0.10:502"),
            completions=lambda _project, part: port_settings(part),
            also=("host", "device", "port"),
        ),
        Column(
            translate("LineCells", "Time-out"),
            lambda _project, part: f"{part.timeout_ms} ms",
            80,
            True,
            key="timeout_ms",
            read=lambda _project, _part, text: {"timeout_ms": whole(text.strip().removesuffix("ms"))},
            content=lambda _project, part: str(part.timeout_ms),
            order=lambda _project, part: part.timeout_ms,
            hint=translate("LineCells", "Longest wait for an answer, in milliseconds"),
            form_row=lambda _part: translate("LineForm", "Time-out"),
            numbers=True,
            also=("timeout",),
        ),
        Column(
            translate("LineCells", "Poll cycle"),
            lambda _project, part: f"{plans[part.name].cycle_ms:.0f} ms" if part.name in plans else "",
            90,
            True,
            key="cycle",
            hint=translate("LineCells", "Time in which all registers of the line are read once, predicted"),
        ),
        Column(
            translate("LineCells", "Bus load"),
            lambda _project, part: f"{100 * plans[part.name].load:.0f} %" if part.name in plans else "",
            84,
            True,
            key="load",
            hint=translate(
                "LineCells", "Share of its time that the line reads, predicted; above 100 % it falls behind"
            ),
            ink=lambda _project, part: "caution" if part.name in plans and plans[part.name].load > 1 else "ink",
        ),
    ]


def follower_columns() -> list[Column]:
    """The columns of the table of followers."""
    return [
        Column(
            translate("LineCells", "Name"),
            lambda _project, part: part.name,
            key="name",
            read=lambda _project, _part, text: {"name": text.strip()},
            form_row=lambda _part: translate("FollowerForm", "Name"),
        ),
        Column(
            translate("LineCells", "Line"),
            lambda _project, part: part.line,
            150,
            key="line",
            read=lambda project, _part, text: {"line": choice_of(text, {name: name for name in project.line_named})},
            completions=lambda project, _part: list(project.line_named),
            leads=True,
            form_row=lambda _part: translate("FollowerForm", "Line"),
        ),
        Column(
            translate("LineCells", "Unit address"),
            lambda _project, part: str(part.unit),
            60,
            True,
            key="unit",
            read=lambda _project, _part, text: {"unit": whole(text)},
            order=lambda _project, part: part.unit,
            hint=translate("LineCells", "Address on the line: 1 to 247; on Modbus TCP also 255 or 0"),
            form_row=lambda _part: translate("FollowerForm", "Unit address"),
            numbers=True,
            also=("address", "id"),
        ),
        Column(
            translate("LineCells", "Signals"),
            lambda project, part: str(_signal_count(project, part)),
            70,
            True,
            key="signals",
            order=_signal_count,
        ),
        Column(
            translate("LineCells", "Numbering"),
            lambda _project, part: dict(numberings())[part.numbering],
            180,
            key="numbering",
            read=lambda _project, _part, text: {"numbering": choice_of(text, dict(numberings()))},
            completions=lambda _project, _part: list(dict(numberings()).values()),
            hint=translate("LineCells", "How its manual counts registers"),
            form_row=lambda _part: translate("FollowerForm", "Numbering"),
        ),
        Column(
            translate("LineCells", "Simulated as"),
            lambda _project, part: dict(simulations())[part.simulated.model],
            190,
            key="simulate",
            read=lambda _project, _part, text: {"simulate": choice_of(text, dict(simulations()))},
            completions=lambda _project, _part: list(dict(simulations()).values()),
        ),
    ]


def line_reader(columns: list[Column]) -> CellReader:
    """How rows of the table of lines are read."""
    return CellReader("line", columns, _prepare_line, lambda project: new_name(project, "line"))


def follower_reader(columns: list[Column]) -> CellReader:
    """How rows of the table of followers are read."""
    return CellReader("follower", columns, _prepare_follower, lambda project: new_name(project, "follower"))


def where_text(line: Any) -> str:
    """Where a line goes: "COM3  19200 8E1", "192.168.0.10:502"."""
    if isinstance(line, SerialLine):
        return f"{line.device}  {line.baud} 8{_LETTERS[line.parity]}{line.stop_bits}"
    return f"{line.host}:{line.port}"


def port_settings(line: Any) -> list[str]:
    """The ports of this computer with the settings of the line, to choose from; none for a line that is no port."""
    if not isinstance(line, SerialLine):
        return []
    return [where_text(line.replace(device=port.device)) for port in ports_here()]


def free_unit(project: Project, line: str, otherwise: int = 1) -> int:
    """The first address that no follower on a line has; `otherwise` if all are taken."""
    taken = {part.unit for part in project.followers if part.line == line}
    return next((unit for unit in range(1, 248) if unit not in taken), otherwise)


_counted: Final[list[tuple[object, Counter[str]]]] = [((), Counter())]
"""The signals that were counted last, and how many of them each follower has."""


def _signal_count(project: Project, part: Follower) -> int:
    signals, counts = _counted[0]
    if signals is not project.signals:
        counts = Counter([signal.follower for signal in project.signals if isinstance(signal, RegisterSignal)])
        _counted[0] = project.signals, counts
    return counts[part.name]


def _read_where(_project: Project, part: Any, text: str) -> dict[str, Any]:
    text = text.strip()
    if isinstance(part, SerialLine):
        match = _SERIAL.fullmatch(text)
        if match is None:
            raise ValueError(translate("LineCells", "enter the port and its settings: COM3 19200 8E1"))
        found: dict[str, Any] = {"device": match[1]}
        if match[2]:
            found["baud"] = int(match[2])
        if match[3]:
            found["parity"] = next(word for word, letter in _LETTERS.items() if letter == match[3].upper())
        if match[4]:
            found["stop_bits"] = int(match[4])
        return found
    host, colon, port = text.rpartition(":")
    if not colon:
        return {"host": text}
    return {"host": host, "port": whole(port)}


def _prepare_line(_project: Project, part: Any, texts: ColumnTexts, _above: Any) -> tuple[Any, ColumnTexts]:
    kinds = dict(line_kinds())
    wanted = texts.get("kind", "").strip()
    try:
        kind = choice_of(wanted, kinds) if wanted else part.kind if part is not None else "tcp"
    except ValueError as error:
        raise CellRefused("kind", str(error)) from None
    if part is None:
        return line_of_kind(kind, _need_name("line", texts)), {key: text for key, text in texts.items() if text.strip()}
    return (part if kind == part.kind else line_of_kind(kind, part.name, part)), texts


def _prepare_follower(project: Project, part: Any, texts: ColumnTexts, _above: Any) -> tuple[Any, ColumnTexts]:
    if part is not None:
        return part, texts
    if not project.lines:
        raise CellRefused("line", translate("LineCells", "a device needs a line; add one first"))
    line = project.lines[0].name
    return Follower(name=_need_name("follower", texts), line=line, unit=free_unit(project, line)), {
        key: text for key, text in texts.items() if text.strip()
    }


def _need_name(wanted: str, texts: ColumnTexts) -> str:
    if texts.get("name", "").strip():
        return wanted  # the name that was given is read with the other cells
    raise CellRefused("name", translate("LineCells", "a new row needs a name"))


def new_name(project: Project, kind: str) -> str:
    """A free name for a new line or follower."""
    if kind == "line":
        return free_name(translate("LineCells", "line"), project.line_named)
    return free_name(translate("LineCells", "device"), project.follower_named)
