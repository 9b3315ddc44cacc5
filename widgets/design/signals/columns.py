"""The columns of the table of signals."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from app.project.attributes import ATTRIBUTES, NOTES, SCALE, TEXTS, YES_NO, attribute_text, is_in_registers
from app.project.model import BitSignal, HeldSignal
from app.signals.encoding import ENCODINGS
from app.signals.typed import plain
from widgets.design.signals.cells import (
    encoding_text,
    from_choices,
    from_text,
    read_encoding,
    read_from,
    read_register,
    read_start,
    read_table,
    register_order,
    table_of,
    units,
)
from widgets.design.signals.uses import places_text, use_counts
from widgets.design.values.column import Column
from widgets.design.values.signal_texts import table_words

translate = QCoreApplication.translate


def signal_columns() -> list[Column]:
    """All columns, in their order from the left."""
    columns = [
        Column(
            translate("SignalCells", "Name"),
            lambda _project, part: part.name,
            190,
            key="name",
            read=lambda _project, _part, text: {"name": text.strip()},
            completions=lambda project, _part: list(project.signal_named),
            hint=translate("SignalCells", "Renaming updates every use"),
            sign=lambda project, part: "" if use_counts(project)[part.name] else "caution",
            inset=lambda part: isinstance(part, BitSignal),
            form_row=lambda _part: translate("SignalForm", "Name"),
        ),
        Column(
            translate("SignalCells", "Device"),
            from_text,
            116,
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
            applies=is_in_registers,
            completions=lambda _project, _part: list(ENCODINGS),
            hint=translate(
                "SignalCells",
                "Data type of the value in the registers; a string with its number of registers: string 8",
            ),
            form_row=lambda _part: translate("SignalForm", "Data type"),
            also=("data type", "format"),
        ),
        replace(attribute_column("unit"), width=62, completions=lambda project, _part: units(project)),
        replace(
            attribute_column("decimals"),
            text=lambda _project, part: "" if isinstance(part, BitSignal) and not part.decimals else str(part.decimals),
        ),
        attribute_column("limits"),
        replace(
            write := attribute_column("write"),
            text=lambda _project, part: "\N{CHECK MARK}" if getattr(part, "write", False) else "",
            content=write.text,
            tip=write.text,
            order=lambda _project, part: not getattr(part, "write", False),
        ),
        replace(attribute_column("drive_role"), title=translate("SignalCells", "Role in simulation")),
        Column(
            translate("SignalCells", "Used"),
            lambda project, part: str(use_counts(project)[part.name]),
            52,
            True,
            key="uses",
            order=lambda project, part: use_counts(project)[part.name],
            tip=lambda project, part: places_text(project, part.name),
            hint=translate("SignalCells", "How many fields, screen changes, actions and bits use it"),
            ink=lambda project, part: "ink" if use_counts(project)[part.name] else "caution",
            also=("uses",),
        ),
        attribute_column("word_order"),
        replace(attribute_column("scale"), form_row=lambda _part: translate("SignalForm", "Scale, from")),
        attribute_column("step"),
        attribute_column("every_ms"),
        attribute_column("refresh_ms"),
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
    ]
    there = {column.key for column in columns}
    columns += [attribute_column(key) for key, each in ATTRIBUTES.items() if each.width and key not in there]
    last = next(at for at, column in enumerate(columns) if column.key == "uses")
    return [replace(column, seldom=at > last) for at, column in enumerate(columns)]


def attribute_column(key: str) -> Column:
    """The column of an attribute that needs no way of its own."""
    attribute = ATTRIBUTES[key]
    label, kind = attribute_text(attribute.label), attribute.kind
    chosen = attribute.choices is not None or kind is YES_NO
    return Column(
        attribute_text(attribute.title) or label,
        lambda _project, part: attribute.text(part),
        attribute.width,
        kind.right,
        key=key,
        read=lambda _project, part, text: {key: attribute.read(part, text)},
        applies=attribute.is_of,
        completions=(lambda _project, part: attribute.options(part)) if chosen else None,
        order=(lambda _project, part: getattr(part, key, None)) if kind.numbers and kind is not SCALE else None,
        hint=attribute_text(attribute.hint),
        form_row=None if kind in (YES_NO, TEXTS, NOTES) else lambda _part: label,
        numbers=kind.numbers,
        also=attribute.also,
    )
