"""The two tables of "Which register is it?": what was typed off the display, and the registers that agree with it."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from decimal import Decimal
from typing import Final

from PySide6.QtCore import QObject

from app.language import with_mark
from app.matching.advice import Namer
from app.matching.candidates import Candidate, MatchResult, RegisterMeaning
from app.matching.shown import Shown
from app.matching.usual_scales import usual_scale
from widgets.kit.tables import TableModel, to_the_right


class ShownColumn(enum.IntEnum):
    """The columns of what was typed."""

    NUMBER = 0
    SHOWN = 1
    REGISTERS = 2
    REMARK = 3


class ShownModel(TableModel):
    """What the display showed, the first reading first."""

    alignment = to_the_right(ShownColumn.NUMBER, ShownColumn.REGISTERS)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = self.tr("No."), self.tr("Display shows"), self.tr("Registers read"), self.tr("Remark")
        self._rows: Sequence[tuple[Shown, int]] = ()
        self._told: Sequence[int] = ()

    def show(self, rows: Sequence[tuple[Shown, int]], told: Sequence[int]) -> None:
        """Show these, each with how many registers were read at that moment, and which tell anything."""
        self.beginResetModel()
        self._rows, self._told = rows, told
        self.endResetModel()

    def count(self) -> int:
        """How many there are."""
        return len(self._rows)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        shown, registers = self._rows[row]
        if column == ShownColumn.NUMBER:
            return str(row + 1), "ink"
        if column == ShownColumn.SHOWN:
            return shown_text(shown), "ink"
        if column == ShownColumn.REGISTERS:
            return str(registers), "ink"
        if row in self._told:
            return "", "ink"
        return (self.tr("no evidence: 0") if not shown.value else self.tr("no evidence: the same value again")), "faint"


class CandidateColumn(enum.IntEnum):
    """The columns of what agrees."""

    REGISTER = 0
    VALUE = 1
    RAW = 2
    ENCODING = 3
    ORDER = 4
    SCALE = 5
    CHANCE = 6


class CandidatesModel(TableModel):
    """Registers that agree, the likeliest first."""

    alignment = to_the_right(CandidateColumn.VALUE, CandidateColumn.RAW)

    def __init__(self, name: Namer, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.titles = (
            self.tr("Register"),
            self.tr("Value"),
            self.tr("Raw"),
            self.tr("Data type"),
            self.tr("Order"),
            self.tr("Scale"),
            self.tr("By chance"),
        )
        self.explained = {
            CandidateColumn.VALUE: self.tr("What it came to at the last reading"),
            CandidateColumn.CHANCE: self.tr(
                "How likely it is that the register agrees by chance, or that another one is meant"
            ),
        }
        self._name = name
        self._result = MatchResult((), ())

    def use(self, name: Namer) -> None:
        """Call registers by other names."""
        self._name = name

    def show(self, result: MatchResult) -> None:
        """Show these instead."""
        self.beginResetModel()
        self._result = result
        self.endResetModel()

    @property
    def result(self) -> MatchResult:
        """What is shown."""
        return self._result

    def candidate(self, row: int) -> Candidate:
        """One of them."""
        return self._result.candidates[row]

    def count(self) -> int:
        """How many there are."""
        return len(self._result.candidates)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        return self._text(self.candidate(row), column), "ink"

    def tip(self, row: int, column: int) -> str:
        """Of the data type also what else it may be, of the scale why it is usual."""
        candidate = self.candidate(row)
        usual = None if candidate.best.offset else usual_scale(candidate.best.slope)
        if column == CandidateColumn.SCALE and usual is not None:
            return usual.reason.translated()
        if column == CandidateColumn.ENCODING and candidate.also:
            others = ", ".join(
                dict.fromkeys(f"{each.way.encoding} ({self._register(each)})" for each in candidate.also)
            )
            return self.tr("It may be as well: {others}").format(others=others)
        return super().tip(row, column)

    def _register(self, meaning: RegisterMeaning) -> str:
        return self._name(meaning.table, meaning.places[0], meaning.places[-1])

    def _text(self, candidate: Candidate, column: int) -> str:
        best = candidate.best
        if column == CandidateColumn.REGISTER:
            return self._register(best)
        if column == CandidateColumn.VALUE:
            return value_text(candidate, self._result.readings)
        if column == CandidateColumn.RAW:
            return with_mark(f"{candidate.raws[-1]:.9g}")
        if column == CandidateColumn.ENCODING:
            return best.way.encoding
        if column == CandidateColumn.ORDER:
            return self._order(best)
        if column == CandidateColumn.SCALE:
            return scale_text(*best.points)
        return self.tr("1 in {count}").format(count=_count_text(candidate.chance))

    def _order(self, meaning: RegisterMeaning) -> str:
        words, low_byte = meaning.way.width > 1, meaning.way.byte_order == "low-first"
        if words and meaning.way.word_order == "low-first":
            return self.tr("low word, low byte first") if low_byte else self.tr("low word first")
        return self.tr("low byte first") if low_byte else self.tr("high word first") if words else ""


_OFTEN: Final = 0.1
"""From here on a decimal is told: 1 in 2 and 1 in 1.4 are not the same."""


def _count_text(chance: float) -> str:
    if chance > _OFTEN:
        return with_mark(f"{1 / chance:.1f}")
    digits = 10 ** max(0, len(str(round(1 / chance))) - 2)
    return f"{round(1 / chance / digits) * digits:,}".replace(",", "\N{NARROW NO-BREAK SPACE}")


def decimals_of(readings: Sequence[Shown]) -> int:
    """As many as the display shows at most."""
    return max((each.decimals for each in readings), default=0)


def unit_of(readings: Sequence[Shown]) -> str:
    """The unit that was typed last."""
    return next((each.unit for each in reversed(readings) if each.unit), "")


def value_text(candidate: Candidate, readings: Sequence[Shown]) -> str:
    """What a register came to at the last reading, as the display shows it, with one digit more."""
    value = candidate.best.value(candidate.raws[-1])
    return f"{with_mark(f'{value:.{decimals_of(readings) + 1}f}')} {unit_of(readings)}".strip()


def shown_text(shown: Shown) -> str:
    """What was typed, and how far from it the display may have been, if that is more than its last digit says."""
    if shown.step <= shown.digit:
        return shown.text
    return f"{shown.text} \u00b1 {with_mark(f'{float(shown.half):g}')}"


def scale_text(raw: tuple[Decimal, Decimal], value: tuple[Decimal, Decimal]) -> str:
    """The scale as two points: '0 to 16384 = 0 to 100'; a factor where it is one."""
    if not raw[0] and not value[0] and value[1] == 1:
        return with_mark(f"\u00f7 {raw[1]}") if raw[1] != 1 else "\u00d7 1"
    if not raw[0] and not value[0] and raw[1] == 1:
        return with_mark(f"\u00d7 {value[1]}")
    ends = [with_mark(str(each)) for each in (*raw, *value)]
    return f"{ends[0]}\u2026{ends[1]} = {ends[2]}\u2026{ends[3]}"
