"""The columns of the table of signals."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.project.model import BitSignal, HeldSignal, RegisterSignal
from app.project.value_texts import (
    read_scale,
    read_span,
    read_texts,
    read_yes,
    scale_text,
    span_text,
    written_texts,
    yes_no,
)
from app.signals.encoding import ENCODINGS
from app.signals.typed import optional_number, plain, whole
from widgets.design.signals.cells import (
    encoding_text,
    from_choices,
    from_text,
    in_words,
    is_of_several_words,
    read_encoding,
    read_from,
    read_order,
    read_register,
    read_start,
    read_table,
    register_order,
    table_of,
    units,
)
from widgets.design.signals.uses import places_text, use_counts
from widgets.design.values.column import Column
from widgets.design.values.drive_roles import drive_values, read_role, role_text
from widgets.design.values.signal_texts import (
    orders,
    table_words,
    uses_text,
)

translate = QCoreApplication.translate


def signal_columns() -> list[Column]:
    """All columns, in their order from the left."""
    return [
        Column(
            translate("SignalCells", "Name"),
            lambda _project, part: part.name,
            key="name",
            read=lambda _project, _part, text: {"name": text.strip()},
            completions=lambda project, _part: list(project.signal_named),
            hint=translate("SignalCells", "Renaming updates every use"),
            form_row=lambda _part: translate("SignalForm", "Name"),
        ),
        Column(
            translate("SignalCells", "From"),
            from_text,
            84,
            key="from",
            read=read_from,
            applies=lambda part: not isinstance(part, HeldSignal),
            completions=from_choices,
            leads=True,
            hint=translate("SignalCells", "The device that it is read from; for a bit, the signal that contains it"),
            form_row=lambda part: (
                translate("SignalForm", "In signal")
                if isinstance(part, BitSignal)
                else translate("SignalForm", "Device")
            ),
            also=("follower", "device", "of"),
        ),
        Column(
            translate("SignalCells", "Table"),
            lambda _project, part: table_words()[table_of(part)],
            66,
            key="table",
            read=read_table,
            leads=True,
            completions=lambda _project, _part: list(table_words().values()),
            hint=translate(
                "SignalCells", "holding, input, coil, discrete; bit (of another signal); held (in the panel)"
            ),
            form_row=lambda _part: translate("SignalForm", "Table"),
            also=("kind", "type"),
        ),
        Column(
            translate("SignalCells", "Register"),
            lambda _project, part: (
                translate("SignalCells", "bit {number}").format(number=part.bit.number)
                if isinstance(part, BitSignal)
                else str(part.number)
            ),
            66,
            True,
            key="register",
            read=read_register,
            content=lambda _project, part: str(part.bit.number if isinstance(part, BitSignal) else part.number),
            applies=lambda part: not isinstance(part, HeldSignal),
            order=lambda _project, part: None if isinstance(part, HeldSignal) else register_order(part),
            hint=translate("SignalCells", "The number from the manual of the device; for a bit its number, from 0"),
            form_row=lambda part: (
                translate("SignalForm", "Bit") if isinstance(part, BitSignal) else translate("SignalForm", "Register")
            ),
            numbers=True,
            also=("address", "number"),
        ),
        Column(
            translate("SignalCells", "Data type"),
            lambda _project, part: encoding_text(part),
            68,
            key="encoding",
            read=lambda _project, _part, text: read_encoding(text),
            applies=in_words,
            completions=lambda _project, _part: list(ENCODINGS),
            hint=translate(
                "SignalCells",
                "Data type of the value in the registers; a string with its number of registers: string 8",
            ),
            form_row=lambda _part: translate("SignalForm", "Data type"),
            also=("data type", "format"),
        ),
        Column(
            translate("SignalCells", "Unit"),
            lambda _project, part: part.unit,
            46,
            key="unit",
            read=lambda _project, _part, text: {"unit": text.strip()},
            completions=lambda project, _part: units(project),
            form_row=lambda _part: translate("SignalForm", "Unit"),
            also=("units",),
        ),
        Column(
            translate("SignalCells", "Dec."),
            lambda _project, part: "" if isinstance(part, BitSignal) and not part.decimals else str(part.decimals),
            40,
            True,
            key="decimals",
            read=lambda _project, _part, text: {"decimals": whole(text) if text.strip() else 0},
            order=lambda _project, part: part.decimals,
            hint=translate("SignalCells", "Decimals shown"),
            form_row=lambda _part: translate("SignalForm", "Decimals"),
            numbers=True,
        ),
        Column(
            translate("SignalCells", "Limits"),
            lambda _project, part: "" if part.limits is None else span_text(part.limits),
            88,
            key="limits",
            read=lambda _project, _part, text: {"limits": read_span(text)},
            order=lambda _project, part: part.limits,
            hint=translate("SignalCells", "Lowest and highest value that may be entered: 0 to 50"),
            form_row=lambda _part: translate("SignalForm", "Limits"),
            numbers=True,
            also=("range",),
        ),
        Column(
            translate("SignalCells", "Write"),
            lambda _project, part: yes_no()[part.write],
            46,
            key="write",
            read=lambda _project, _part, text: {"write": read_yes(text)},
            applies=lambda part: not isinstance(part, HeldSignal),
            completions=lambda _project, _part: list(yes_no().values()),
            hint=translate("SignalCells", "Whether writing is allowed"),
            also=("writable",),
        ),
        Column(
            translate("SignalCells", "Uses"),
            lambda project, part: uses_text(use_counts(project)[part.name]),
            62,
            True,
            key="uses",
            order=lambda project, part: use_counts(project)[part.name],
            tip=lambda project, part: places_text(project, part.name),
            hint=translate("SignalCells", "How many fields, screen changes, actions and bits use it"),
        ),
        Column(
            translate("SignalCells", "Word order"),
            lambda _project, part: "" if part.word_order is None else dict(orders())[part.word_order],
            88,
            key="word_order",
            read=lambda _project, _part, text: {"word_order": read_order(text)},
            applies=is_of_several_words,
            completions=lambda _project, _part: [words for _, words in orders()],
            hint=translate(
                "SignalCells", "Order of the words in values of two or more registers; empty: as set for the device"
            ),
            form_row=lambda _part: translate("SignalForm", "Word order"),
            also=("word_order", "endianness"),
        ),
        Column(
            translate("SignalCells", "Scale"),
            lambda _project, part: scale_text(part.scale),
            150,
            key="scale",
            read=lambda _project, _part, text: {"scale": read_scale(text)},
            applies=lambda part: in_words(part) and part.encoding != "string",
            hint=translate("SignalCells", "Two points, raw = value: 0 to 10000 = 0 to 50; or a factor: x 0.1"),
            form_row=lambda _part: translate("SignalForm", "Scale, from"),
            numbers=True,
            also=("scaling", "factor"),
        ),
        Column(
            translate("SignalCells", "Step"),
            lambda _project, part: plain(part.step),
            50,
            True,
            key="step",
            read=lambda _project, _part, text: {"step": optional_number(text)},
            order=lambda _project, part: part.step,
            hint=translate("SignalCells", "Change per key press"),
            form_row=lambda _part: translate("SignalForm", "Step"),
            numbers=True,
        ),
        Column(
            translate("SignalCells", "Poll ms"),
            lambda _project, part: str(part.every_ms),
            62,
            True,
            key="every_ms",
            read=lambda _project, _part, text: {"every_ms": whole(text)},
            applies=lambda part: isinstance(part, RegisterSignal),
            order=lambda _project, part: getattr(part, "every_ms", None),
            hint=translate("SignalCells", "Poll interval in ms"),
            form_row=lambda _part: translate("SignalForm", "Poll interval"),
            numbers=True,
        ),
        Column(
            translate("SignalCells", "Write ms"),
            lambda _project, part: str(part.refresh_ms),
            66,
            True,
            key="refresh_ms",
            read=lambda _project, _part, text: {"refresh_ms": whole(text) if text.strip() else 0},
            applies=lambda part: isinstance(part, RegisterSignal),
            order=lambda _project, part: getattr(part, "refresh_ms", None),
            hint=translate("SignalCells", "Write repeat interval in ms; 0: write on change only"),
            form_row=lambda _part: translate("SignalForm", "Write interval"),
            numbers=True,
        ),
        Column(
            translate("SignalCells", "Start"),
            lambda _project, part: plain(part.held if isinstance(part, HeldSignal) else part.start_value),
            60,
            True,
            key="start",
            read=read_start,
            applies=lambda part: not isinstance(part, BitSignal),
            hint=translate("SignalCells", "Start value of a held value, or of a register in the simulated device"),
            form_row=lambda _part: translate("SignalForm", "Start value"),
            numbers=True,
            also=("start value", "start_value", "held"),
        ),
        Column(
            translate("SignalCells", "Role (in the simulation)"),
            lambda _project, part: role_text(part),
            120,
            key="drive_role",
            read=lambda _project, part, text: {"drive_role": read_role(part, text)},
            applies=lambda part: not isinstance(part, HeldSignal),
            completions=lambda _project, part: list(drive_values(part).values()),
            hint=translate(
                "SignalCells", "Role of this signal in the simulated drive, such as run or output frequency"
            ),
            form_row=lambda _part: translate("SignalForm", "Role"),
            also=("drive",),
        ),
        Column(
            translate("SignalCells", "Texts"),
            lambda _project, part: written_texts(part.texts),
            160,
            key="texts",
            read=lambda _project, _part, text: {"texts": read_texts(text)},
            hint=translate("SignalCells", "A text per value: 0 = stopped; 1 = running"),
        ),
        Column(
            translate("SignalCells", "Notes"),
            lambda _project, part: part.notes,
            220,
            key="notes",
            read=lambda _project, _part, text: {"notes": text},
            also=("comment", "description"),
        ),
    ]
