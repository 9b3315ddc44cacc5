"""The rows of a sheet converted to what signals are made of, with a note for every cell that cannot be understood."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import Any, Final, Literal, TypeAlias

from app.errors import FanlightError
from app.exchange.column_mapping import Matching, length_unit
from app.exchange.numbers import RegisterText, factor, register_text
from app.exchange.quoting import NO_UNIT, unquoted
from app.exchange.scales import scaled
from app.exchange.sheet import NOTHING, Progress, Sheet, SheetCell, SheetRow, UnusableCell, cell_text, no_progress
from app.exchange.titles import Key
from app.exchange.words import (
    EncodingWord,
    encoding_of,
    encoding_word,
    may_mean_bytes,
    order_word,
    registers_of,
    table_word,
)
from app.language import DecimalMark, translate
from app.project.attributes import ATTRIBUTES, NOTES, NUMBER, OPTIONAL_WHOLE, TEXT, TEXTS, WHOLE, YES_NO, PartAttribute
from app.project.model import BitSignal, HeldSignal, Presentation, RegisterSignal
from app.project.value_texts import NotKnown, choice_of, read_yes, texts_in, texts_in_languages
from app.signals.encoding import has_word_order
from app.signals.numbering import Table
from app.signals.numbers import number, span, whole_number

RemarkLevel: TypeAlias = Literal["fault", "aside", "remark"]
"""fault: the row stays out because of this. aside: it is no signal and stays out. remark: it comes in all the same."""

LONGEST_NAME: Final = 40
LONGEST_UNIT: Final = 16
_SCALES: Final[tuple[Key, ...]] = (
    "raw_1", "raw_2", "value_1", "value_2", "factor", "divisor", "exponent", "offset"
)  # fmt: skip
_LIMITS: Final[tuple[Key, ...]] = ("lower", "upper", "range", "step")
_MODELS: Final = (RegisterSignal, BitSignal, HeldSignal)
_OWN_WAYS: Final = frozenset(
    {
        "name",
        "follower",
        "table",
        "register",
        "encoding",
        "length",
        "word_order",
        "bit",
        "held",
        "unit",
        "step",
        "texts_in",
        "start_value",
        "notes",
    }
)
"""Attributes that are read together with others, or change what is said of others."""
_TEXTS: Final[frozenset[Key]] = frozenset({"name", "follower", "unit", "notes", "bit_of", "start_value", "write"})
"""Keys for which a dash is a text as any other, or says something."""
_DECIMALS_OF_FLOATS: Final = 2
"""Shown of a float for which a list gives neither decimals nor a factor."""


@dataclass(frozen=True, slots=True)
class Note:
    """Something to say about a row. As text: "row 17, column C: '4000x' is no register number"."""

    row: int
    """As the file's own program counts."""
    column: int
    """From 0; -1: the row as a whole."""
    message: str
    level: RemarkLevel = "fault"


@dataclass(slots=True)
class Draft:
    """What a row says, before names and followers are looked up."""

    row: int
    name: str = ""
    follower: str = ""
    """Empty: the one that was chosen for the whole list."""
    table: Table | None = None
    place: RegisterText | None = None
    bit: int | None = None
    bit_of: str = ""
    held: Decimal | None = None
    rest: dict[str, Any] = field(default_factory=dict)
    """Attributes of the signal that need no looking up."""

    @property
    def model(self) -> type[Presentation]:
        """The kind of signal that it is to become."""
        return HeldSignal if self.held is not None else BitSignal if self.is_bit else RegisterSignal

    @property
    def is_bit(self) -> bool:
        """Whether it is a bit of another signal."""
        return self.bit is not None or bool(self.bit_of)


@dataclass(frozen=True, slots=True)
class ParsedRows:
    """All that the rows say."""

    drafts: tuple[Draft, ...]
    notes: tuple[Note, ...]
    rows: int
    """Rows below the titles."""


def drafts_of(sheet: Sheet, matching: Matching, progress: Progress = no_progress) -> ParsedRows:
    """What the rows of a sheet say by a matching. A row with a fault gives no draft.

    Raises Stopped if `progress` does.
    """
    reader = _RowReader(sheet, matching)
    rows = matching.rows(sheet)
    drafts: list[Draft] = []
    notes: list[Note] = []
    for at, row in enumerate(rows):
        if at % 500 == 0:
            progress(at / max(1, len(rows)))
        draft, found = reader.read(row)
        notes += found
        if draft is not None:
            drafts.append(draft)
    return ParsedRows(tuple(drafts), tuple(notes), len(rows))


class _Refused(FanlightError, ValueError):
    """A cell cannot be understood."""


class _RowReader:
    """Reads one row after the other by one matching."""

    def __init__(self, sheet: Sheet, matching: Matching) -> None:
        self._at: dict[Key, int] = {key: column for column, key in enumerate(matching.columns) if key is not None}
        self._mark: DecimalMark | None = matching.mark
        self._hexadecimal = matching.hexadecimal
        self._table = matching.table
        self._length_unit = length_unit(matching, sheet)
        # Most lists have few of the columns there may be: asking a row for all of them would take half of the time.
        self._scales, self._limited = (any(key in self._at for key in keys) for keys in (_SCALES, _LIMITS))
        self._plain = [
            (key, self._reader(attribute), [model for model in _MODELS if key in model.model_fields])
            for key, attribute in ATTRIBUTES.items()
            if key in self._at and key not in _OWN_WAYS
        ]
        self._row: SheetRow = SheetRow(0, ())
        self._notes: list[Note] = []

    def read(self, row: SheetRow) -> tuple[Draft | None, list[Note]]:
        self._row, self._notes = row, []
        if _count_filled(row) == 1 and len(self._at) > 1:
            self._note("register", translate("exchange", "recognised as a heading between rows"), "aside")
            return None, self._notes
        draft = Draft(row.number)
        self._read_place(draft)
        if draft.place is None and draft.held is None and not draft.is_bit and not self._has_faults():
            self._note("register", translate("exchange", "the register is missing"))
            return None, self._notes
        self._read_name(draft)
        word = self._take("encoding", lambda cell: encoding_word(_text(cell)))
        if draft.place is not None and not draft.is_bit:
            self._read_encoding(draft, word)
            if self._scales:
                self._read_scale(draft, word)
            elif word is not None and word.kind == "float":
                draft.rest["decimals"] = _DECIMALS_OF_FLOATS
            self._read_start_value(draft)
        self._read_shown(draft)
        for key, read, models in self._plain:
            if draft.model in models:
                self._store(draft, key, read)
        return (None if self._has_faults() else draft), self._notes

    def _has_faults(self) -> bool:
        return bool(self._notes) and any(note.level == "fault" for note in self._notes)

    def _note(self, key: Key | None, message: str, level: RemarkLevel = "fault") -> None:
        self._notes.append(Note(self._row.number, -1 if key is None else self._at.get(key, -1), message, level))

    def _take(self, key: Key, read: Callable[[SheetCell], Any]) -> Any:
        """What a cell says; None where it is empty, or says nothing that can be understood, which is noted."""
        column = self._at.get(key)
        cells = self._row.cells
        if column is None or column >= len(cells) or (not (cell := cells[column]) and cell == ""):
            return None
        if isinstance(cell, str) and (cell.isspace() or (key not in _TEXTS and cell.strip().casefold() in NOTHING)):
            return None
        if isinstance(cell, UnusableCell):
            self._note(key, cell.why)
            return None
        try:
            return read(cell)
        except ValueError as error:
            self._note(key, str(error))
            return None

    def _reader(self, attribute: PartAttribute) -> Callable[[SheetCell], Any]:
        """How the cells of an attribute are read that needs no way of its own."""
        choices = attribute.choices
        if choices is not None:
            return lambda cell: choice_of(_text(cell), choices(None))
        return {
            WHOLE: self._whole,
            OPTIONAL_WHOLE: self._whole,
            NUMBER: self._number,
            YES_NO: lambda cell: cell if isinstance(cell, bool) else read_yes(_text(cell)),
            TEXT: _exact_or_line,
            NOTES: _block_text,
            TEXTS: lambda cell: dict(texts_in(_block_text(cell))),
        }[attribute.kind]

    def _store(self, draft: Draft, key: Key, read: Callable[[SheetCell], Any], attribute: str = "") -> None:
        found = self._take(key, read)
        if found is not None:
            draft.rest[attribute or key] = found

    def _number(self, cell: SheetCell) -> Decimal:
        return cell if isinstance(cell, Decimal) else number(_text(cell), self._mark)

    def _whole(self, cell: SheetCell) -> int:
        if isinstance(cell, Decimal):
            if cell != cell.to_integral_value():
                raise _Refused(translate("exchange", "'{text}' is not a whole number").format(text=cell_text(cell)))
            return int(cell)
        return whole_number(_text(cell), self._mark)

    # Where it stands

    def _read_place(self, draft: Draft) -> None:
        draft.held = self._take("held", self._number)
        if draft.held is not None:
            return
        draft.follower = self._take("follower", _line) or ""
        draft.bit = self._take("bit", self._bit)
        draft.bit_of = self._take("bit_of", _line) or ""
        if draft.bit_of:
            if draft.bit is None and not self._has_faults():
                self._note("bit", translate("exchange", "the bit number is missing"))
            return
        draft.table = self._take("table", lambda cell: table_word(_text(cell)))
        coil = (draft.table or self._table) == "coil"
        draft.place = self._take("register", lambda cell: self._register(cell, coil=coil))
        if draft.place is not None and draft.place.bit is not None:
            if draft.bit is not None and draft.bit != draft.place.bit:
                self._note("bit", translate("exchange", "the register contains a different bit number"))
            draft.bit = draft.place.bit
        if draft.bit is not None and draft.place is None and not self._has_faults():
            self._note("register", translate("exchange", "a bit needs its register, or the name of its signal"))
        if draft.bit is not None and draft.table in ("coil", "discrete"):
            draft.bit = None  # lists say "bit 0" of single bits too
            self._note("bit", translate("exchange", "a coil or discrete input has no bits; this is ignored"), "remark")

    def _register(self, cell: SheetCell, *, coil: bool) -> RegisterText:
        if isinstance(cell, Decimal):
            if cell == cell.to_integral_value() and 0 <= cell < 10**7 and not self._hexadecimal:
                return RegisterText(int(cell))
            if cell != cell.to_integral_value():
                raise _Refused(
                    translate(
                        "exchange",
                        "{number} is not a register; write a bit of a register as text, or in a separate column",
                    ).format(number=cell_text(cell))
                )
        return register_text(_text(cell), hexadecimal=self._hexadecimal, coil=coil)

    def _bit(self, cell: SheetCell) -> int:
        text = cell_text(cell).casefold().removeprefix("bit").strip()
        found = self._whole(text)
        if not 0 <= found <= 63:
            raise _Refused(
                translate("exchange", "'{text}' is not a bit; bits are 0 to 63").format(text=cell_text(cell))
            )
        return found

    # What it is called

    def _read_name(self, draft: Draft) -> None:
        notes = self._take("notes", _block_text)
        name = self._take("name", _exact_or_line)
        if "name" in self._at and not name and not self._has_faults():
            self._note("name", translate("exchange", "the name is missing"))
        if name and len(name) > LONGEST_NAME:
            self._note(
                "name",
                translate(
                    "exchange", "the name has {count} characters and was cut to {most}; the full name is in the notes"
                ).format(count=len(name), most=LONGEST_NAME),
                "remark",
            )
            notes = f"{name}\n{notes}" if notes else name
            name = name[:LONGEST_NAME].rstrip()
        draft.name = name or ""
        if notes:
            draft.rest["notes"] = notes

    # What it holds

    def _read_encoding(self, draft: Draft, word: EncodingWord | None) -> None:
        length, counts = self._take("length", self._length) or (None, "")
        if draft.table in ("coil", "discrete"):
            return
        place = draft.place
        if length is None and place is not None and place.last is not None:
            length, counts = place.last - place.number + 1, "registers"
        if word is None:
            if length is not None and length > 1 and "encoding" in self._at and not self._has_faults():
                self._note(
                    "encoding", translate("exchange", "the data type is missing for a value of several registers")
                )
            return
        if word.kind == "string" and counts == "" and length is not None:
            counts = "registers"
        try:
            draft.rest["encoding"], registers = encoding_of(word, length)
        except NotKnown as error:
            self._note("encoding", str(error))
            return
        if registers is not None:
            draft.rest["length"] = registers
        if word.bits == 8:
            self._note("encoding", translate("exchange", "an 8-bit value: the whole register is read"), "remark")
        order = self._take("word_order", lambda cell: order_word(_text(cell))) or word.order
        if order is not None and has_word_order(draft.rest["encoding"]):
            draft.rest["word_order"] = order
            told = " ".join(str(self._take(key, _text) or "") for key in ("word_order", "encoding"))
            if order == "low-first" and may_mean_bytes(told):
                self._note(
                    "word_order" if "word_order" in self._at else "encoding",
                    translate(
                        "exchange",
                        "'little endian' is taken as the word order; if it also applies to the bytes of each word, "
                        "set the byte order of the device",
                    ),
                    "remark",
                )

    def _length(self, cell: SheetCell) -> tuple[int, str]:
        return registers_of(_text(cell), self._length_unit, self._mark)

    def _read_scale(self, draft: Draft, word: EncodingWord | None) -> None:
        points = [self._take(key, self._number) for key in ("raw_1", "raw_2", "value_1", "value_2")]
        given: tuple[Fraction, str] | None = self._take("factor", self._factor)
        divisor = self._take("divisor", self._divisor)
        exponent = self._take("exponent", self._exponent)
        found = scaled(given[0] if given else None, divisor, exponent, self._take("offset", self._number))
        if given is not None and given[1] and len(given[1]) <= LONGEST_UNIT:
            draft.rest.setdefault("unit", given[1])
        if any(point is not None for point in points):
            if None in points:
                if not self._has_faults():
                    self._note(None, translate("exchange", "a scale needs two raw numbers and their two values"))
            elif found.points is not None:
                self._note(None, translate("exchange", "there are two scales, one by points and one by a factor"))
            else:
                draft.rest["scale"] = (*points,)
        elif found.points is not None:
            draft.rest["scale"] = found.points
            if found.decimals:
                draft.rest["decimals"] = found.decimals
        elif word is not None and word.kind == "float":
            draft.rest["decimals"] = _DECIMALS_OF_FLOATS

    def _exponent(self, cell: SheetCell) -> int:
        found = self._whole(cell)
        if abs(found) > 30:
            raise _Refused(translate("exchange", "the exponent must be -30 to 30"))
        return found

    def _factor(self, cell: SheetCell) -> tuple[Fraction, str]:
        if isinstance(cell, Decimal):
            return factor(f"{cell:f}", ".")
        return factor(_text(cell), self._mark)

    def _divisor(self, cell: SheetCell) -> Fraction:
        found = Fraction(self._number(cell))
        if not found:
            raise _Refused(translate("exchange", "a factor cannot be divided by 0"))
        return found

    def _read_start_value(self, draft: Draft) -> None:
        text = draft.rest.get("encoding") == "string"
        self._store(draft, "start_value", _exact_text if text else self._number_or_quoted)

    def _number_or_quoted(self, cell: SheetCell) -> Decimal | str:
        quoted = unquoted(cell) if isinstance(cell, str) else None
        return quoted if quoted is not None else self._number(cell)

    # How it is shown

    def _read_shown(self, draft: Draft) -> None:
        unit = self._take("unit", _unit)
        if unit is not None:
            if len(unit) > LONGEST_UNIT:
                self._note(
                    "unit",
                    translate(
                        "exchange", "the unit has {count} characters, more than {most}; it was moved to the notes"
                    ).format(count=len(unit), most=LONGEST_UNIT),
                    "remark",
                )
                notes = draft.rest.get("notes")
                draft.rest["notes"] = f"{notes}\n{unit}" if notes else unit
            else:
                draft.rest["unit"] = unit
        if self._limited:
            self._read_limits(draft)
        others = self._take("texts_in", lambda cell: texts_in_languages(_block_text(cell)))
        if others:
            draft.rest["texts_in"] = others

    def _read_limits(self, draft: Draft) -> None:
        step = self._take("step", self._number)
        if step:
            draft.rest["step"] = step
        lower, upper = self._take("lower", self._number), self._take("upper", self._number)
        both = self._take("range", lambda cell: span(_text(cell), self._number))
        if lower is None and upper is None:
            if both is not None:
                draft.rest["limits"] = both
            return
        if lower is None or upper is None:
            if both is not None:
                draft.rest["limits"] = both
            elif not self._has_faults():
                missing: Key = "lower" if lower is None else "upper"
                self._note(
                    missing,
                    translate("exchange", "only one limit is given; without the other it is ignored"),
                    "remark",
                )
            return
        draft.rest["limits"] = (lower, upper)


def _count_filled(row: SheetRow) -> int:
    """How many cells of a row hold something; 2 stands for more."""
    count = 0
    for cell in row.cells:
        if not isinstance(cell, str) or (cell and not cell.isspace()):
            count += 1
            if count == 2:
                break
    return count


def _text(cell: SheetCell) -> str:
    return cell.strip() if isinstance(cell, str) else cell_text(cell)


def _line(cell: SheetCell) -> str:
    """A text in one line: a name. What stands in quotation marks counts exactly."""
    return _exact_or_line(cell)


def _exact_or_line(cell: SheetCell) -> str:
    quoted = unquoted(cell) if isinstance(cell, str) else None
    return quoted if quoted is not None else cell_text(cell)


def _unit(cell: SheetCell) -> str:
    return "" if isinstance(cell, str) and cell.strip() in NO_UNIT else _exact_or_line(cell)


def _exact_text(cell: SheetCell) -> str:
    quoted = unquoted(cell) if isinstance(cell, str) else None
    return quoted if quoted is not None else _text(cell)


def _block_text(cell: SheetCell) -> str:
    """A text of several lines, its line ends made equal. What stands in quotation marks counts exactly."""
    quoted = unquoted(cell) if isinstance(cell, str) else None
    return quoted if quoted is not None else _text(cell).replace("\r\n", "\n")
