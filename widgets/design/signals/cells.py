"""What a text typed or pasted into a cell of a signal means, and how a row of texts becomes a signal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any, Final

from PySide6.QtCore import QCoreApplication

from app.edits.refused import free_name
from app.project.attributes import is_in_registers
from app.project.model import AnySignal, Bit, BitSignal, HeldSignal, Presentation, Project, RegisterSignal
from app.project.problems import did_you_mean
from app.project.value_texts import choice_of
from app.signals.encoding import ENCODINGS, register_count
from app.signals.typed import number, whole
from widgets.design.values.cell_reading import CellReader, CellRefused, ColumnTexts
from widgets.design.values.column import Column
from widgets.design.values.signal_texts import table_words

translate = QCoreApplication.translate
TABLES: Final = ("holding", "input", "coil", "discrete", "bit", "held")
_SHOWN: Final = tuple(name for name in Presentation.model_fields if name != "name")


def signal_reader(columns: Sequence[Column]) -> CellReader:
    """How rows of the table of signals are read."""
    return CellReader("signal", columns, _prepare, new_signal_name, _leads)


# Reading the cells


def table_of(part: AnySignal) -> str:
    """One of TABLES."""
    return "bit" if isinstance(part, BitSignal) else "held" if isinstance(part, HeldSignal) else part.table


def units(project: Project) -> list[str]:
    """The units that the project uses, the most frequent first."""
    counts: dict[str, int] = {}
    for part in project.signals:
        if part.unit:
            counts[part.unit] = counts.get(part.unit, 0) + 1
    return sorted(counts, key=lambda unit: (-counts[unit], unit))


def from_text(_project: Project, part: Any) -> str:
    """What a signal is read from: its follower, or the signal that holds the bit."""
    of: str = part.bit.of if isinstance(part, BitSignal) else part.follower
    return of


def from_choices(project: Project, part: Any) -> list[str]:
    """What a signal may be read from."""
    if isinstance(part, BitSignal):
        return [each.name for each in project.signals if is_in_registers(each)]
    return list(project.follower_named)


def read_from(project: Project, part: Any, text: str) -> dict[str, Any]:
    """The follower, or the signal that holds the bit. Raises ValueError in words, as all of these do."""
    if isinstance(part, BitSignal):
        return {"bit": part.bit.replace(of=_word_signal(project, text))}
    return {"follower": choice_of(text, {name: name for name in project.follower_named})}


def _word_signal(project: Project, text: str) -> str:
    name = text.strip()
    if not name:
        raise ValueError(translate("SignalCells", "a bit needs the signal that contains it"))
    # Whether there is one is only known once all rows are in; one that is there and cannot serve is told here.
    part = project.signal_named.get(name)
    if isinstance(part, BitSignal | HeldSignal):
        raise ValueError(translate("SignalCells", "'{name}' has no bits; enter a register signal").format(name=name))
    return name


def read_table(_project: Project, part: Any, text: str) -> dict[str, Any]:
    """The table of a register; `bit` and `held` are other kinds of signals and done before."""
    wanted = choice_of(text, table_words())
    return {} if wanted == table_of(part) or wanted in ("bit", "held") else {"table": wanted}


def read_register(_project: Project, part: Any, text: str) -> dict[str, Any]:
    """The number of the register, or of the bit: 3, bit 3, .3."""
    if isinstance(part, BitSignal):
        bit = text.strip()
        word = translate("SignalCells", "bit {number}").format(number="").strip()
        for each in (word, "bit", "."):
            bit = bit.removeprefix(each).strip()
        return {"bit": part.bit.replace(number=whole(bit))}
    return {"number": whole(text)}


def register_order(part: Any) -> tuple[Any, ...]:
    """For sorting: registers by their number, then bits by theirs."""
    return (1, part.bit.number) if isinstance(part, BitSignal) else (0, part.number)


def encoding_text(part: Any) -> str:
    """The encoding; of a string also its length in registers: "string 8"."""
    length = f" {part.length}" if part.encoding == "string" and part.length is not None else ""
    return f"{part.encoding}{length}"


def read_encoding(text: str) -> dict[str, Any]:
    """The encoding; of a string also its length in registers."""
    name, _, length = text.strip().partition(" ")
    encoding = choice_of(name, {each: each for each in ENCODINGS})
    if encoding != "string":
        if length.strip():
            raise ValueError(translate("SignalCells", "only a string has a length: string 8"))
        return {"encoding": encoding, "length": None}
    if not length.strip():
        raise ValueError(translate("SignalCells", "a string needs its length in registers: string 8"))
    return {"encoding": encoding, "length": whole(length)}


def read_start(_project: Project, part: Any, text: str) -> dict[str, Any]:
    """The first content of a held value, or what a simulated follower holds at first."""
    if isinstance(part, HeldSignal):
        return {"held": number(text)}
    if not text.strip():
        return {"start_value": None}
    return {"start_value": text if part.encoding == "string" and is_in_registers(part) else number(text)}


def _leads(known: Mapping[str, Any], before: Any, after: Any) -> tuple[str, str, Any] | None:
    """Whether a bit is taken of a signal that holds bits."""
    was = before.bit.of if isinstance(before, BitSignal) else None
    if not isinstance(after, BitSignal) or after.bit.of == was:
        return None
    word = known.get(after.bit.of)
    if word is None:
        hint = did_you_mean(after.bit.of, known)
        why = translate("SignalCells", "signal '{name}' does not exist").format(name=after.bit.of)
        why = f"{why}; {hint}" if hint else why
    elif isinstance(word, BitSignal):
        why = translate("SignalCells", "'{name}' has no bits; enter a register signal").format(name=after.bit.of)
    else:
        return None
    return "from", why, after.replace(bit=before.bit) if isinstance(before, BitSignal) else None


# New signals, and signals that become another kind


def _prepare(project: Project, part: Any, texts: ColumnTexts, above: Any) -> tuple[Any, ColumnTexts]:
    wanted = texts.get("table", "").strip()
    try:
        table = choice_of(wanted or (table_of(part) if part is not None else "holding"), table_words())
    except ValueError as error:
        raise CellRefused("table", str(error)) from None
    given = {key: text for key, text in texts.items() if part is not None or text.strip() or (text and key == "notes")}
    if part is not None and (table == table_of(part) or {table, table_of(part)} <= set(TABLES[:4])):
        return part, given
    kept: dict[str, Any] = {key: getattr(part, key) for key in _SHOWN} if part is not None else {}
    name = part.name if part is not None else _new_name(texts)
    if table == "held":
        return HeldSignal(name=name, held=Decimal(0), **kept), given
    if isinstance(part, RegisterSignal | BitSignal):
        kept["write"] = part.write
    if table == "bit":
        try:
            of = _word_signal(project, texts.get("from", ""))
        except ValueError as error:
            raise CellRefused("from" if "from" in texts else "table", str(error)) from None
        return BitSignal(name=name, bit=Bit(of=of, number=0), **kept), given
    if not project.followers:
        raise CellRefused("from", translate("SignalCells", "a register needs a device; add one first"))
    follower = project.followers[0].name
    if isinstance(above, RegisterSignal) and above.follower in project.follower_named:
        follower = above.follower
    if texts.get("from", "").strip():
        try:
            follower = choice_of(texts["from"], {each: each for each in project.follower_named})
        except ValueError as error:
            raise CellRefused("from", str(error)) from None
    number_ = free_register(project, follower, table, above)
    return RegisterSignal.model_validate(
        {"name": name, "follower": follower, "table": table, "number": number_, **kept}
    ), given


def _new_name(texts: ColumnTexts) -> str:
    if texts.get("name", "").strip():
        return "signal"  # the name that was given is read with the other cells
    raise CellRefused("name", translate("SignalCells", "a new signal needs a name"))


def free_register(project: Project, follower: str, table: str = "holding", above: Any = None) -> int:
    """The number behind the last register of a follower, or behind the signal in the row above."""
    same = [
        part
        for part in ((above,) if above is not None else project.signals)
        if isinstance(part, RegisterSignal) and part.follower == follower and part.table == table
    ]
    if not same and above is not None:
        return free_register(project, follower, table)
    if same:
        return max(part.number + _registers(part) for part in same)
    if project.follower_named[follower].numbering == "prefixed":
        return {"coil": 1, "discrete": 10001, "input": 30001}.get(table, 40001)
    return 0 if project.follower_named[follower].numbering == "from-0" else 1


def _registers(part: RegisterSignal) -> int:
    try:
        return register_count(part.encoding, part.length) if is_in_registers(part) else 1
    except ValueError:
        return 1


def new_signal_name(project: Project, wanted: str = "") -> str:
    """`wanted`, or with a number behind it."""
    return free_name(wanted or translate("SignalCells", "signal"), project.signal_named)
