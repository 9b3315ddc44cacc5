"""What becomes of one row, in a sentence: so that a wrong numbering or scale is seen before anything comes in."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from app.exchange.import_plan import Incoming
from app.language import translate
from app.project.model import BitSignal, Follower, RegisterSignal
from app.signals.encoding import is_text
from app.signals.numbering import NotARegister, wire_address
from app.signals.scaling import StraightLine
from app.signals.text import spoken_digits

_EXAMPLE = 1000
"""A raw number by which a scale is shown."""


def account(incoming: Incoming, followers: Mapping[str, Follower]) -> str:
    """Where a signal that comes in stands on the line and what its numbers mean."""
    signal = incoming.signal
    if isinstance(signal, BitSignal):
        return translate("exchange", "Row {row}: '{name}', bit {bit} of '{of}'").format(
            row=incoming.row, name=signal.name, bit=signal.bit.number, of=signal.bit.of
        )
    if not isinstance(signal, RegisterSignal):
        return translate("exchange", "Row {row}: '{name}', a held value of the panel").format(
            row=incoming.row, name=signal.name
        )
    try:
        address = str(wire_address(followers[signal.follower].numbering, signal.table, signal.number))
    except (KeyError, NotARegister):
        address = "?"
    said = translate(
        "exchange", "Row {row}: '{name}', {follower}, {table} {number}, address {address} (0-based)"
    ).format(
        row=incoming.row,
        name=signal.name,
        follower=signal.follower,
        table=signal.table,
        number=signal.number,
        address=address,
    )
    if signal.table in ("coil", "discrete"):
        return said
    if is_text(signal.encoding):
        return f"{said}, {signal.encoding}"
    return f"{said}, {signal.encoding}; {_example(signal)}"


def _example(signal: RegisterSignal) -> str:
    value = Fraction(_EXAMPLE)
    if signal.scale is not None:
        value = StraightLine(*map(Fraction, signal.scale.raw), *map(Fraction, signal.scale.value)).value(_EXAMPLE)
    return (
        translate("exchange", "raw {raw} is {value} {unit}")
        .format(raw=_EXAMPLE, value=spoken_digits(value, signal.decimals), unit=signal.unit)
        .rstrip()
    )
