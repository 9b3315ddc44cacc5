"""What each attribute of a signal is, in one table: its key in the file, its words, how values are read and written.

The order of keys in a project file, the rows of the form, the columns of the table, the columns of register lists and
the descriptions of the schema are taken from here. A new attribute is a field of the model, an entry here, and what it
is for: what needs no way of its own gets its row and its columns by that.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import KW_ONLY, dataclass
from typing import Any, Final, Literal, TypeAlias

from app.language import mark, translate
from app.project.binding import whole_registers
from app.project.drive_roles import DRIVE_BITS, DRIVE_VALUES
from app.project.model import BitSignal, Part, RegisterSignal
from app.project.value_texts import (
    choice_of,
    read_scale,
    read_span,
    read_texts,
    read_yes,
    scale_text,
    span_text,
    written_texts,
    yes_no,
)
from app.signals.encoding import ENCODINGS, has_word_order
from app.signals.typed import optional_number, plain, whole

Group: TypeAlias = Literal["source", "scale", "shown", "write", "changed", "simulated", "documentation"]
"""Where in its form an attribute stands."""


@dataclass(frozen=True, slots=True)
class Kind:
    """How values are read and written. `read` raises ValueError in words."""

    name: str
    read: Callable[[str], Any] = str.strip
    text: Callable[[Any], str] = plain
    right: bool = False
    """Whether they stand at the right in a column."""
    numbers: bool = False
    """Whether a comma in them is a question of how numbers are written."""


def _optional_whole(text: str) -> int | None:
    return whole(text) if text.strip() else None


TEXT: Final = Kind("text")
NOTES: Final = Kind("notes", str)
CHOICE: Final = Kind("choice")
YES_NO: Final = Kind("yes or no", read_yes, lambda value: yes_no()[value])
WHOLE: Final = Kind("whole number", whole, right=True, numbers=True)
OPTIONAL_WHOLE: Final = Kind("whole number or nothing", _optional_whole, right=True, numbers=True)
NUMBER: Final = Kind("number", optional_number, right=True, numbers=True)
SPAN: Final = Kind("span", read_span, lambda span: "" if span is None else span_text(span), numbers=True)
SCALE: Final = Kind("scale", read_scale, scale_text, numbers=True)
TEXTS: Final = Kind("texts", read_texts, written_texts)


@dataclass(frozen=True, slots=True)
class ListColumn:
    """A column of a register list: exports write it under its title, in English; imports know it by that and others."""

    key: str
    title: str
    hint: str


def _any_signal(_signal: Any) -> bool:
    return True


@dataclass(frozen=True, slots=True)
class PartAttribute:
    """An attribute of a signal. Texts are templates in English, see `attribute_text`."""

    key: str
    """In the file."""
    label: str
    kind: Kind
    group: Group
    hint: str = ""
    _: KW_ONLY
    title: str = ""
    """Over a column of a table, where the label is too long."""
    width: int = 0
    """Of that column, in pixels; 0: the table has no such column, or a wider one of its own."""
    also: tuple[str, ...] = ()
    """What its column may be called in pasted tables and register lists, besides its key and titles."""
    list_title: str = ""
    """Over its column in a register list, where that is not the label."""
    list_hint: str = ""
    columns: tuple[ListColumn, ...] = ()
    """Its columns in a register list, where it is more than one."""
    unit: str = ""
    yes: str = ""
    """What a box says that is ticked for yes."""
    choices: Callable[[Any], Mapping[str, str]] | None = None
    """From a signal (None: any) to its choices: stored word -> what a person reads."""
    none: str = ""
    """What no choice is called; empty: one has to be made."""
    cleared: Any = None
    """What an empty cell means where there must be a value."""
    applies: Callable[[Any], bool] = _any_signal
    """Whether it says anything of a signal that has it."""

    @property
    def list_columns(self) -> tuple[ListColumn, ...]:
        """Its columns in a register list."""
        return self.columns or (ListColumn(self.key, self.list_title or self.label, self.list_hint or self.hint),)

    def is_of(self, signal: Any) -> bool:
        """Whether a signal has it."""
        return hasattr(signal, self.key) and self.applies(signal)

    def options(self, signal: Any) -> list[str]:
        """What there is to choose from, as a person reads it."""
        if self.choices is not None:
            return list(self.choices(signal).values())
        return list(yes_no().values()) if self.kind is YES_NO else []

    def text(self, signal: Any) -> str:
        """Its value as it stands in a cell."""
        value = getattr(signal, self.key)
        if self.choices is not None:
            return "" if value is None else self.choices(signal)[value]
        return self.kind.text(value)

    def read(self, signal: Any, text: str) -> Any:
        """The value that a text in a cell means. Raises ValueError in words."""
        if not text.strip() and self.cleared is not None:
            return self.cleared
        if self.choices is None:
            return self.kind.read(text)
        return choice_of(text, self.choices(signal)) if text.strip() or not self.none else None


def attribute_text(template: str) -> str:
    """A label, title, hint or unit of this table in the language that is spoken."""
    return translate("attributes", template) if template else ""


# Which signals have what


def is_in_registers(signal: object) -> bool:
    """Whether a signal is read from 16-bit registers."""
    return isinstance(signal, RegisterSignal) and signal.table in ("holding", "input")


def is_string(signal: object) -> bool:
    """Whether a signal is a text."""
    return isinstance(signal, RegisterSignal) and signal.encoding == "string"


def is_number(signal: object) -> bool:
    """Whether a signal is a number, or on and off."""
    return not is_string(signal)


def is_scaled(signal: object) -> bool:
    """Whether a signal is a number in registers."""
    return is_in_registers(signal) and not is_string(signal)


def is_of_several_words(signal: object) -> bool:
    """Whether the words of its value may come in one order or the other."""
    return isinstance(signal, RegisterSignal) and is_in_registers(signal) and has_word_order(signal.encoding)


# Choices


def word_orders() -> dict[str, str]:
    """The two orders of words or bytes: stored word -> what a person reads."""
    return {
        "high-first": translate("FollowerForm", "high first (standard)"),
        "low-first": translate("FollowerForm", "low first"),
    }


def drive_values(signal: Any = None) -> dict[str, str]:
    """What a signal can be to a simulated drive, stored word -> what a person reads: single bits what is on or off."""
    bits = isinstance(signal, BitSignal) or getattr(signal, "table", "") in ("coil", "discrete")
    return {
        value: translate("project", words) for value, words in DRIVE_VALUES.items() if not bits or value in DRIVE_BITS
    }


SIGNAL: Final[tuple[PartAttribute, ...]] = (
    PartAttribute(
        "name",
        mark("attributes", "Name"),
        TEXT,
        "source",
        list_hint=mark("attributes", "Name of the signal. Left out: its table and register"),
    ),
    PartAttribute(
        "follower",
        mark("attributes", "Device"),
        TEXT,
        "source",
        list_hint=mark("attributes", "Name of the device. Left out: the device chosen above"),
    ),
    PartAttribute(
        "table",
        mark("attributes", "Table"),
        CHOICE,
        "source",
        list_hint=mark("attributes", "Coil, discrete, holding or input, or the function code that reads it"),
    ),
    PartAttribute(
        "register",
        mark("attributes", "Register"),
        WHOLE,
        "source",
        mark("attributes", "The number from the manual of the device"),
        list_hint=mark("attributes", "A number such as 310, 40001, 0x136, 40001-40002 or 40001.3 for a bit"),
    ),
    PartAttribute(
        "encoding",
        mark("attributes", "Data type"),
        CHOICE,
        "source",
        mark("attributes", "Data type of the value in the registers"),
        list_hint=mark("attributes", "uint16, INT, REAL, DWORD, unsigned 32, string and similar"),
        choices=lambda _signal: {name: name for name in ENCODINGS},
        applies=is_in_registers,
    ),
    PartAttribute(
        "length",
        mark("attributes", "Length"),
        OPTIONAL_WHOLE,
        "source",
        mark("attributes", "Number of registers, two characters each"),
        list_hint=mark("attributes", "Number of registers of a value; also '32 bit' or '4 bytes'"),
        unit=mark("attributes", "registers"),
        applies=is_string,
    ),
    PartAttribute(
        "word_order",
        mark("attributes", "Word order"),
        CHOICE,
        "source",
        mark("attributes", "Order of the words in a value of two or more registers. Left out: as set for the device"),
        width=88,
        also=("endianness",),
        list_hint=mark("attributes", "high-first, CDAB, little endian and similar. Left out: as set for the device"),
        choices=lambda _signal: word_orders(),
        none=mark("attributes", "(as set for the device)"),
        applies=is_of_several_words,
    ),
    PartAttribute(
        "bit",
        mark("attributes", "Bit"),
        WHOLE,
        "source",
        columns=(
            ListColumn("bit_of", mark("attributes", "Bit of"), mark("attributes", "The signal that contains this bit")),
            ListColumn(
                "bit",
                mark("attributes", "Bit"),
                mark("attributes", "The number of the bit, 0 is the least significant"),
            ),
        ),
    ),
    PartAttribute(
        "held",
        mark("attributes", "Start value"),
        NUMBER,
        "source",
        mark("attributes", "Value when the panel is switched on"),
        list_title=mark("attributes", "Held value"),
    ),
    PartAttribute(
        "scale",
        mark("attributes", "Scale"),
        SCALE,
        "scale",
        mark("attributes", "Two points, raw = value, for example 0 to 10000 = 0 to 50; or a factor, for example x 0.1"),
        width=150,
        also=("scaling", "factor"),
        columns=(
            ListColumn(
                "raw_1",
                mark("attributes", "Raw 1"),
                mark("attributes", "A raw number, the first of two points of a straight line"),
            ),
            ListColumn(
                "value_1", mark("attributes", "Value 1"), mark("attributes", "The value of the first raw number")
            ),
            ListColumn(
                "raw_2",
                mark("attributes", "Raw 2"),
                mark("attributes", "A raw number, the second of two points of a straight line"),
            ),
            ListColumn(
                "value_2", mark("attributes", "Value 2"), mark("attributes", "The value of the second raw number")
            ),
            ListColumn(
                "factor",
                mark("attributes", "Factor"),
                mark("attributes", "Value = raw number x factor: 0.1, x0.1, /10 or 1/10"),
            ),
            ListColumn(
                "divisor", mark("attributes", "Divisor"), mark("attributes", "Value = raw number / divisor: 10, 100")
            ),
            ListColumn(
                "exponent",
                mark("attributes", "Exponent of ten"),
                mark("attributes", "Value = raw number x 10 to this power: -1, 2"),
            ),
            ListColumn(
                "offset",
                mark("attributes", "Offset"),
                mark("attributes", "Added to the value after the factor, in engineering units"),
            ),
        ),
        applies=is_scaled,
    ),
    PartAttribute(
        "unit",
        mark("attributes", "Unit"),
        TEXT,
        "shown",
        mark("attributes", "The engineering unit: Hz, °C, bar"),
        width=46,
        also=("units",),
    ),
    PartAttribute(
        "decimals",
        mark("attributes", "Decimals"),
        WHOLE,
        "shown",
        mark("attributes", "Decimals shown"),
        title=mark("attributes", "Dec."),
        width=40,
        list_hint=mark("attributes", "Decimals shown. Left out: as many as the factor has"),
        cleared=0,
        applies=is_number,
    ),
    PartAttribute(
        "hex",
        mark("attributes", "Hexadecimal"),
        YES_NO,
        "shown",
        mark("attributes", "Whether its number is shown as manuals print control words and status words: 047Fh"),
        title=mark("attributes", "Hex"),
        width=46,
        also=("hexadezimal angezeigt",),
        list_title=mark("attributes", "Shown in hexadecimal"),
        yes=mark("attributes", "shown as 047Fh"),
        applies=lambda signal: whole_registers(signal) > 0,
    ),
    PartAttribute(
        "limits",
        mark("attributes", "Limits"),
        SPAN,
        "changed",
        mark("attributes", "Lowest and highest value that may be entered, for example 0 to 50"),
        width=88,
        also=("range",),
        columns=(
            ListColumn(
                "lower", mark("attributes", "Lower limit"), mark("attributes", "The lowest value that can be entered")
            ),
            ListColumn(
                "upper", mark("attributes", "Upper limit"), mark("attributes", "The highest value that can be entered")
            ),
            ListColumn(
                "range",
                mark("attributes", "Limits (one cell)"),
                mark("attributes", "Both limits in one cell, for example 0..50 or -10 to 10"),
            ),
        ),
    ),
    PartAttribute(
        "step",
        mark("attributes", "Step"),
        NUMBER,
        "changed",
        mark("attributes", "Change per key press. Left out: one unit of the last decimal"),
        width=50,
    ),
    PartAttribute(
        "texts",
        mark("attributes", "Texts"),
        TEXTS,
        "shown",
        mark(
            "attributes",
            "A text per value, for example 0 = stopped; 1 = running. otherwise = unknown applies to all other values",
        ),
        width=160,
        list_title=mark("attributes", "State texts"),
    ),
    PartAttribute(
        "texts_in",
        mark("attributes", "Texts in other languages"),
        TEXTS,
        "shown",
        mark("attributes", "The texts in the panel's other languages, as far as they differ"),
        list_title=mark("attributes", "State texts in other languages"),
        list_hint=mark("attributes", "A line for each other language of the panel, such as Deutsch: 0=steht; 1=läuft"),
    ),
    PartAttribute(
        "write",
        mark("attributes", "Writing"),
        YES_NO,
        "write",
        mark("attributes", "Whether writing is allowed"),
        title=mark("attributes", "Write"),
        width=46,
        also=("writable",),
        list_title=mark("attributes", "Write"),
        list_hint=mark("attributes", "Writable or not: R/W, RO, yes, no"),
        yes=mark("attributes", "allowed"),
    ),
    PartAttribute(
        "every_ms",
        mark("attributes", "Poll interval"),
        WHOLE,
        "changed",
        mark("attributes", "Poll interval in ms"),
        title=mark("attributes", "Poll ms"),
        width=62,
        list_title=mark("attributes", "Every ms"),
        unit="ms",
    ),
    PartAttribute(
        "refresh_ms",
        mark("attributes", "Write interval"),
        WHOLE,
        "changed",
        mark(
            "attributes",
            "For devices with a communication time-out: the value is written again at this interval, in "
            "ms. 0: on change only",
        ),
        title=mark("attributes", "Write ms"),
        width=66,
        list_title=mark("attributes", "Rewrite ms"),
        unit="ms",
        cleared=0,
    ),
    PartAttribute(
        "start_value",
        mark("attributes", "Start value"),
        NUMBER,
        "simulated",
        mark("attributes", "Start value in the simulated device"),
    ),
    PartAttribute(
        "drive_role",
        mark("attributes", "Role"),
        CHOICE,
        "simulated",
        mark(
            "attributes",
            "Role of this signal in the simulated drive. Once any signal has a role, the drive uses the "
            "project's registers instead of its built-in ones",
        ),
        title=mark("attributes", "Role (in the simulation)"),
        width=120,
        list_title=mark("attributes", "Drive role"),
        choices=drive_values,
        none=mark("attributes", "(no role)"),
    ),
    PartAttribute(
        "notes",
        mark("attributes", "Notes"),
        NOTES,
        "documentation",
        width=220,
        also=("comment", "description"),
        list_hint=mark("attributes", "A description or remarks"),
    ),
)
"""The attributes of signals, in their order in a file."""

ATTRIBUTES: Final = {attribute.key: attribute for attribute in SIGNAL}
"""By key."""


def keys_of(model: type[Part]) -> tuple[str, ...]:
    """The keys of a kind of signal in the file, in their order."""
    keys = {field.alias or name for name, field in model.model_fields.items()}
    return tuple(attribute.key for attribute in SIGNAL if attribute.key in keys)
