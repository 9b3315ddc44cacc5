"""Which column of a sheet holds which key: guessed from titles and contents, remembered for equal titles."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final, get_args

from app.errors import FanlightError
from app.exchange.numbers import factor, register_text
from app.exchange.sheet import NOTHING, Sheet, SheetCell, SheetRow, cell_text
from app.exchange.titles import TITLES, Key, key_of_title, says_hexadecimal, unit_in_title
from app.exchange.words import encoding_word, order_word, table_word
from app.language import DecimalMark, translate
from app.project.attributes import ATTRIBUTES, YES_NO
from app.project.value_texts import NotKnown, read_yes, texts_in
from app.signals.numbering import NotARegister, Numbering, Table, wire_address
from app.signals.numbers import NotANumber, find_mark, number, span
from app.signals.order import WordOrder

_HEADING_WITHIN: Final = 40
"""Rows at the head of a sheet among which the titles are looked for."""
_SAMPLE: Final = 300
"""Rows by whose contents a column is judged."""


@dataclass(frozen=True, slots=True)
class Matching:
    """How the rows of one sheet are to be understood."""

    columns: tuple[Key | None, ...]
    """The key that each column holds; None: it is ignored."""
    heading: int = 0
    """The number of the row with the titles; what is above it is ignored. 0: there is none."""
    mark: DecimalMark | None = None
    """The decimal mark of the file; None: not known, and what could be read in two ways is refused."""
    hexadecimal: bool = False
    """Registers in plain digits are hexadecimal."""
    numbering: Numbering | None = None
    """How the list counts registers; None: as the follower does."""
    table: Table = "holding"
    """The table of registers for which the list names none."""
    word_order: WordOrder | None = None
    """The order of words of values for which the list names none; None: as the follower has it."""

    def title_row(self, sheet: Sheet) -> SheetRow | None:
        """The row with the titles, if there is one."""
        return next((row for row in sheet.rows if row.number == self.heading), None)

    def rows(self, sheet: Sheet) -> tuple[SheetRow, ...]:
        """The rows below the titles."""
        return tuple(row for row in sheet.rows if row.number > self.heading)

    def titles(self, sheet: Sheet) -> tuple[str, ...]:
        """The title of each column; empty where there is none."""
        row = self.title_row(sheet)
        return tuple(cell_text(row.cell(column)) if row else "" for column in range(sheet.columns))

    def column_of(self, key: Key) -> int:
        """The column that holds a key; -1 if none does."""
        return self.columns.index(key) if key in self.columns else -1

    def with_key(self, column: int, key: Key | None) -> Matching:
        """With a column taken for a key; another column that was taken for it is ignored."""
        columns = [None if other == key else other for other in self.columns]
        columns[column] = key
        return replace(self, columns=tuple(columns))


@dataclass(frozen=True, slots=True)
class Guess:
    """A matching, and what led to it in words."""

    matching: Matching
    remarks: tuple[str, ...] = ()


def guess(sheet: Sheet, heading: int | None = None) -> Guess:
    """The matching that a sheet suggests by its titles and contents. `heading`: the row of the titles, 0 for none."""
    row = _heading(sheet) if heading is None else next((row for row in sheet.rows if row.number == heading), None)
    at = row.number if row else 0
    below = [other for other in sheet.rows if other.number > at]
    sample = below[:_SAMPLE]
    remarks: list[str] = []
    keys = _by_titles(sheet, row, sample, remarks)
    _notes_that_are_texts(keys, row, below)
    _by_contents(keys, sheet, sample)
    matching = Matching(tuple(keys), at)
    register = matching.column_of("register")
    title = row.cell(register) if row and register >= 0 else ""
    matching = replace(matching, hexadecimal=isinstance(title, str) and says_hexadecimal(title))
    matching = _with_mark(matching, below, remarks)
    matching = replace(matching, numbering=_numbering(matching, sample))
    _doubt_factors(matching, sample, remarks)
    return Guess(matching, tuple(remarks))


def known_titles(sheet: Sheet) -> frozenset[Key]:
    """The keys for which the titles of a sheet are known; none without a row of titles."""
    row = _heading(sheet)
    return frozenset(key for cell in row.cells if (key := key_of_title(cell)) is not None) if row else frozenset()


# Titles ---------------------------------------------------------------------------------------------------------------


def _heading(sheet: Sheet) -> SheetRow | None:
    """The row whose cells are titles that are known; without one, a first row of texts above rows with numbers."""
    rows = sheet.rows[:_HEADING_WITHIN]
    known = [(len({key_of_title(cell) for cell in row.cells} - {None}), -at, row) for at, row in enumerate(rows)]
    best = max(known, default=None, key=lambda entry: entry[:2])
    if best is not None and best[0] >= 2:
        return best[2]
    if len(rows) > 1 and all(isinstance(cell, str) and not _has_digit(cell) for cell in rows[0].cells):
        return rows[0] if any(_has_digit(cell_text(cell)) for cell in rows[1].cells) else None
    return None


def _has_digit(text: str) -> bool:
    return any(character.isdigit() for character in text)


def _by_titles(sheet: Sheet, row: SheetRow | None, sample: Sequence[SheetRow], remarks: list[str]) -> list[Key | None]:
    keys: list[Key | None] = [None] * sheet.columns
    if row is None:
        return keys
    wanted: dict[Key, list[int]] = {}
    for column in range(sheet.columns):
        key = key_of_title(row.cell(column))
        if key is not None:
            wanted.setdefault(key, []).append(column)
    for key, columns in wanted.items():
        fitting = [
            column
            for column in columns
            if cell_text(row.cell(column)).casefold() == TITLES[key].casefold() or _fits(key, sample, column)
        ]
        if not fitting and key in ("register", "encoding"):
            fitting = columns  # its faults must be seen, row by row
        if fitting:
            keys[min(fitting, key=lambda column: _rank(key, cell_text(row.cell(column))))] = key
        else:
            remarks.append(
                translate("exchange", "Column {title} is ignored: its content does not match its title.").format(
                    title=cell_text(row.cell(columns[0]))
                )
            )
    return keys


def _notes_that_are_texts(keys: list[Key | None], titles: SheetRow | None, rows: Sequence[SheetRow]) -> None:
    """Take a column of notes for texts per value where none is meant for them and all its cells list some.

    But not where its title is our own for notes: there somebody wrote them as such.
    """
    if titles is None or "notes" not in keys or "texts" in keys:
        return
    column = keys.index("notes")
    if cell_text(titles.cell(column)).casefold() == TITLES["notes"].casefold():
        return
    cells = [cell for row in rows if (cell := cell_text(row.cell(column))).casefold() not in ("", *NOTHING)]
    if cells and all(map(_lists_texts, cells)):
        keys[column] = "texts"


def _lists_texts(cell: str) -> bool:
    try:
        return len(texts_in(cell)) > 1
    except NotKnown:
        return False


def _rank(key: Key, title: str) -> tuple[bool, bool]:
    """Of two columns with titles for one key: the plain title first, a hexadecimal one last."""
    return says_hexadecimal(title), title.casefold() != TITLES[key].casefold()


def _fits(key: Key, sample: Sequence[SheetRow], column: int) -> bool:
    """Whether what stands below a title can be what the title says. A third of it is enough: lists have bad rows."""
    test = _TESTS.get(key)
    cells = [cell for row in sample if cell_text(cell := row.cell(column)).casefold() not in ("", *NOTHING)]
    return test is None or not cells or sum(map(test, cells)) * 3 >= len(cells)


def _parses(parse: Callable[[str], object]) -> Callable[[SheetCell], bool]:
    def test(cell: SheetCell) -> bool:
        try:
            parse(cell_text(cell))
        except FanlightError:
            return False
        return True

    return test


def _is_number(text: str) -> object:
    return number(text, ".") if text.count(",") != 1 else number(text, ",")


_TESTS: Final[dict[Key, Callable[[SheetCell], bool]]] = {
    "register": _parses(lambda text: register_text(text, hexadecimal=True)),
    "encoding": _parses(encoding_word),
    "word_order": _parses(order_word),
    "table": _parses(table_word),
    **{key: _parses(read_yes) for key, attribute in ATTRIBUTES.items() if attribute.kind is YES_NO},
    "decimals": _parses(_is_number),
    "factor": _parses(lambda text: factor(text, "," if "," in text else ".")),
    "divisor": _parses(_is_number),
    "exponent": _parses(_is_number),
    "offset": _parses(_is_number),
    "range": _parses(lambda text: span(text, lambda part: number(part, "," if "," in text else "."))),
    "texts": _parses(texts_in),
}


# Contents -------------------------------------------------------------------------------------------------------------


def _by_contents(keys: list[Key | None], sheet: Sheet, sample: Sequence[SheetRow]) -> None:
    """Match columns whose titles say nothing, where what stands below can hardly be anything else."""
    for key in ("encoding", "table", "register", "name"):
        if key in keys:
            continue
        for column in range(sheet.columns):
            cells = [row.cell(column) for row in sample if row.cell(column) != ""]
            if keys[column] is None and len(cells) * 2 > len(sample) and _surely(key, cells):
                keys[column] = key
                break


def _surely(key: str, cells: Sequence[SheetCell]) -> bool:
    texts = [cell_text(cell) for cell in cells]
    if key == "name":
        words = [text for text in texts if any(character.isalpha() for character in text)]
        return len(words) * 10 >= len(texts) * 9 and len(set(texts)) * 10 >= len(texts) * 9
    if key == "register":
        rising = all(text.isdecimal() for text in texts) and len(set(texts)) * 3 >= len(texts) * 2
        return rising and any(int(text) > 100 for text in texts)
    test = _TESTS["encoding" if key == "encoding" else "table"]
    return any(not text.isdecimal() for text in texts) and sum(map(test, cells)) * 10 >= len(cells) * 9


_NUMBERS: Final[tuple[Key, ...]] = (
    "factor",
    "divisor",
    "offset",
    "raw_1",
    "raw_2",
    "value_1",
    "value_2",
    "lower",
    "upper",
    "step",
    "start_value",
    "held",
)


def _with_mark(matching: Matching, rows: Sequence[SheetRow], remarks: list[str]) -> Matching:
    columns = [column for column, key in enumerate(matching.columns) if key in _NUMBERS]
    texts = (cell for row in rows for column in columns if isinstance(cell := row.cell(column), str) and cell)
    found = find_mark(texts)
    if found.contrary:
        remarks.append(
            translate(
                "exchange",
                "The list contains two number formats, {first} and {second}. Check that the decimal mark is right.",
            ).format(first=found.example, second=found.contrary)
        )
    return replace(matching, mark=found.mark)


def _numbering(matching: Matching, sample: Sequence[SheetRow]) -> Numbering | None:
    """How the registers seem to be counted; None where they do not tell, or belong to followers that say it."""
    column = matching.column_of("register")
    if column < 0 or matching.column_of("follower") >= 0:
        return None
    numbers: list[int] = []
    for row in sample:
        try:
            text = cell_text(row.cell(column))
            if text:
                numbers.append(register_text(text, hexadecimal=matching.hexadecimal).number)
        except NotANumber:
            continue
    if not numbers:
        return None
    if sum(prefixed_table(number) is not None for number in numbers) * 20 >= len(numbers) * 19:
        return "prefixed"
    return "from-0" if 0 in numbers else None


def prefixed_table(number: int) -> Table | None:
    """The table of registers that a number such as 40001 names by its first digit; None if it names none."""
    if number < 10_000:
        return None
    for table in ("holding", "input", "discrete"):
        try:
            wire_address("prefixed", table, number)
        except NotARegister:
            continue
        return table
    return None


def _doubt_factors(matching: Matching, sample: Sequence[SheetRow], remarks: list[str]) -> None:
    column = matching.column_of("factor")
    if column < 0:
        return
    found = {cell_text(row.cell(column)) for row in sample} - {""}
    if found and found <= {"1", "10", "100", "1000", "10000"} and found != {"1"}:
        remarks.append(
            translate(
                "exchange",
                "The factors are {factors}. If the list means raw number / {example}, assign the column to the "
                "divisor.",
            ).format(factors=", ".join(sorted(found, key=int)), example=max(found, key=int))
        )


# Memory ---------------------------------------------------------------------------------------------------------------


def signature(titles: Sequence[str]) -> str:
    """A short text that is the same for lists with the same titles in the same order; empty without titles."""
    plain = [" ".join(title.casefold().split()) for title in titles]
    if not any(plain):
        return ""
    return hashlib.sha256(json.dumps(plain).encode()).hexdigest()[:24]


def memory_text(matching: Matching) -> str:
    """A matching as a text that is kept for the next list of its kind."""
    return json.dumps(
        {
            "columns": list(matching.columns),
            "mark": matching.mark,
            "hexadecimal": matching.hexadecimal,
            "numbering": matching.numbering,
            "table": matching.table,
        }
    )


def from_memory(text: str, guessed: Matching) -> Matching | None:
    """A matching that was kept, for a sheet for which `guessed` was guessed; None if the text is not one that fits.

    The decimal mark is that of the sheet itself where it tells one.
    """
    try:
        kept: Any = json.loads(text)
        columns = kept["columns"]
        fits = (
            len(columns) == len(guessed.columns)
            and all(key is None or key in TITLES for key in columns)
            and kept["mark"] in (None, *get_args(DecimalMark))
            and kept["numbering"] in (None, *get_args(Numbering))
            and kept["table"] in get_args(Table)
        )
    except (ValueError, KeyError, TypeError):
        return None
    if not fits:
        return None
    return Matching(
        tuple(columns),
        guessed.heading,
        guessed.mark or kept["mark"],
        kept["hexadecimal"] is True,
        kept["numbering"],
        kept["table"],
    )


def length_unit(matching: Matching, sheet: Sheet) -> str:
    """What the column with the length counts, as its title says: "bits", "bytes", "registers"; empty if it does not."""
    column = matching.column_of("length")
    if column < 0:
        return ""
    title = matching.titles(sheet)[column]
    words = title.casefold()
    return unit_in_title(title) or ("bits" if "bit" in words else "bytes" if "byte" in words else "")
