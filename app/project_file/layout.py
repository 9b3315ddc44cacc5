"""What the project file looks like: which keys each table has, in which order, and which are always written.

Written even at their default are those that help the reader: what a thing is (`kind`, `table`, `encoding`) and what
must agree with the device (`baud`, `word_order`, ...).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.project.attributes import keys_of
from app.project.model import (
    Accepted,
    Action,
    Bit,
    BitSignal,
    Blinking,
    Condition,
    EntryKeys,
    Field,
    Follower,
    HeldSignal,
    HeldValue,
    NeverRead,
    Panel,
    Part,
    Project,
    RegisterSignal,
    Scale,
    Screen,
    ScreenChange,
    SerialLine,
    SerialOverTcpLine,
    Simulated,
    TcpLine,
)


@dataclass(frozen=True, slots=True)
class TableLayout:
    """How the table of one model is written: all its keys in order, and those that are stated even at their default."""

    keys: tuple[str, ...]
    stated: frozenset[str] = frozenset()


def _layout(keys: str, stated: str = "") -> TableLayout:
    return TableLayout(tuple(keys.split()), frozenset(stated.split()))


LAYOUTS: Final[dict[type[Part], TableLayout]] = {
    Project: _layout(
        "format title notes panel line follower signal screen screen_change action accepted", "format title"
    ),
    Panel: _layout(
        "rows columns repertoire keys languages language start entry messages messages_in",
        "rows columns repertoire keys",
    ),
    EntryKeys: _layout("begin up down left right confirm abandon by timeout_s"),
    SerialLine: _layout("name kind device baud parity stop_bits timeout_ms", "kind baud parity stop_bits timeout_ms"),
    TcpLine: _layout("name kind host port timeout_ms in_flight", "kind port timeout_ms"),
    SerialOverTcpLine: _layout("name kind host port timeout_ms", "kind port timeout_ms"),
    Follower: _layout(
        "name line unit numbering word_order byte_order max_registers gaps never_read write_functions "
        "communication_timeout_ms simulate",
        "unit numbering word_order simulate",
    ),
    Simulated: _layout(
        "model register_map power_kw speed_rpm poles voltage power_factor efficiency load load_share friction inertia "
        "trip_class",
        "model",
    ),
    NeverRead: _layout("table first last", "table"),
    RegisterSignal: TableLayout(keys_of(RegisterSignal), frozenset({"table", "encoding"})),
    BitSignal: TableLayout(keys_of(BitSignal)),
    HeldSignal: TableLayout(keys_of(HeldSignal)),
    Scale: _layout("raw value"),
    Bit: _layout("of number"),
    Condition: _layout("signal is value", "is"),
    Screen: _layout("name text text_in notes map blink field"),
    Blinking: _layout("at width when"),
    Field: _layout("at width signal kind entry range blink", "kind"),
    ScreenChange: _layout("from key when idle_s to"),
    Action: _layout("from key when do signal value stops"),
    HeldValue: _layout("from"),
    Accepted: _layout("rule about reason"),
}
"""Every model that stands in a file."""


def layout_of(model: type[Part]) -> TableLayout:
    """How its table is written; of a model that stands in no project file, its keys as they are declared.

    There, what must be said is stated, and so is the format.
    """
    if model in LAYOUTS:
        return LAYOUTS[model]
    keys = tuple(field.alias or name for name, field in model.model_fields.items())
    stated = {field.alias or name for name, field in model.model_fields.items() if field.is_required()}
    return TableLayout(keys, frozenset(stated | {"format"} & {*keys}))
