"""The register numbers of manuals and the addresses on the wire.

Manuals count registers in three ways: from 0, as the wire does; from 1; or from 1 with the table's digit in front
(1: discrete, 3: input, 4: holding, 0: coil), in five digits (40001..49999) or six (400001..465536). The wire counts
from 0 to 65535 in each of the four tables.
"""

from __future__ import annotations

from typing import Final, Literal

from app.errors import FanlightError
from app.language import mark, translate

Table = Literal["coil", "discrete", "holding", "input"]
Numbering = Literal["from-0", "from-1", "prefixed"]

LAST_ADDRESS: Final = 65_535
"""The greatest address on the wire."""

_PREFIX: Final[dict[Table, int]] = {"coil": 0, "discrete": 1, "input": 3, "holding": 4}
_TABLE: Final[dict[int, Table]] = {prefix: table for table, prefix in _PREFIX.items()}
_REGISTERS: Final[dict[Table, tuple[str, str]]] = {
    "coil": (mark("signals", "coil {first}"), mark("signals", "coils {first} to {last}")),
    "discrete": (mark("signals", "discrete input {first}"), mark("signals", "discrete inputs {first} to {last}")),
    "holding": (mark("signals", "holding register {first}"), mark("signals", "holding registers {first} to {last}")),
    "input": (mark("signals", "input register {first}"), mark("signals", "input registers {first} to {last}")),
}
_FIVE: Final = 10_000
_SIX: Final = 100_000


class NotARegister(FanlightError, ValueError):
    """The number names no register of the table. The message says which numbers would."""


def wire_address(numbering: Numbering, table: Table, number: int) -> int:
    """The address on the wire, 0..65535, of a register as the manual numbers it.

    Leading zeros are lost on the way here, so a prefixed coil is just 1..65536. A coil number that reads as a
    five-digit number of another table (40001) is refused rather than guessed at.
    Raises NotARegister if the number is out of range or its prefix is not the table's.
    """
    if numbering == "from-0":
        if not 0 <= number <= LAST_ADDRESS:
            raise _outside(table, number, 0, LAST_ADDRESS)
        return number
    if numbering == "from-1":
        if not 1 <= number <= LAST_ADDRESS + 1:
            if number == 0:
                raise NotARegister(
                    mark(
                        "signals",
                        "register 0 is not in 1..{last}; if the manual has a register 0, the numbering is 'from-0'",
                    ),
                    last=LAST_ADDRESS + 1,
                )
            raise _outside(table, number, 1, LAST_ADDRESS + 1)
        return number - 1
    return _prefixed_address(table, number)


def documented_number(numbering: Numbering, table: Table, address: int, digits: Literal[5, 6] = 5) -> int:
    """The number that a manual would give the register at an address on the wire (0..65535).

    `digits` is for prefixed numbers; addresses above 9998 have six digits in any case.
    Raises NotARegister if the address is out of range or has no unmistakable number (some prefixed coils).
    """
    if not 0 <= address <= LAST_ADDRESS:
        raise NotARegister(mark("signals", "address {address} is not in 0..{last}"), address=address, last=LAST_ADDRESS)
    if numbering == "from-0":
        return address
    number = address + 1
    if numbering == "prefixed":
        size = _FIVE if digits == 5 and number < _FIVE else _SIX
        number += _PREFIX[table] * size
        _prefixed_address(table, number)
    return number


def register_text(table: Table, first: int, last: int | None = None) -> str:
    """A register, or the registers up to `last`: "holding register 310", "coils 16 to 20"."""
    one, several = _REGISTERS[table]
    if last is None or last == first:
        return translate("signals", one).format(first=first)
    return translate("signals", several).format(first=first, last=last)


def _prefixed_address(table: Table, number: int) -> int:
    prefix = _PREFIX[table]
    named = _named_by_prefix(number)
    if named is not None and named[0] == table:
        return named[1]
    if prefix == 0 and named is None and _FIVE <= number <= LAST_ADDRESS + 1:
        return number - 1  # a coil of six digits, 0xxxxx, that reads as nothing else
    if named is not None:
        raise NotARegister(
            mark(
                "signals",
                "register {number} has the prefix of the table '{other}' (number {rest}), but the signal has table "
                "'{table}'; {rule}",
            ),
            number=number,
            rest=named[1] + 1,
            other=named[0],
            table=table,
            rule=_rule(table),
        )
    raise NotARegister(
        mark("signals", "register {number} does not have the prefix of the table '{table}'; {rule}"),
        number=number,
        table=table,
        rule=_rule(table),
    )


def _named_by_prefix(number: int) -> tuple[Table, int] | None:
    """The table and the wire address that a prefixed number names, if it reads as one."""
    for size, count in ((_FIVE, _FIVE - 1), (_SIX, LAST_ADDRESS + 1)):
        prefix, rest = divmod(number, size)
        if 1 <= rest <= count and prefix in _TABLE and (size == _FIVE or prefix > 0):
            return _TABLE[prefix], rest - 1
    return None


def _rule(table: Table) -> str:
    prefix = _PREFIX[table]
    if prefix == 0:
        return translate(
            "signals", "prefixed coils are 1..9999, or up to 65536 if no other table uses these five digits"
        )
    return translate("signals", "its registers are {prefix}0001..{prefix}9999 or {prefix}00001..{prefix}65536").format(
        prefix=prefix
    )


def _outside(table: Table, number: int, first: int, last: int) -> NotARegister:
    named = _named_by_prefix(number)
    if named is None or named[0] != table:
        return NotARegister(
            translate("signals", "register {number} is not in {first}..{last}").format(
                number=number, first=first, last=last
            )
        )
    return NotARegister(
        translate(
            "signals",
            "register {number} is not in {first}..{last}; it looks like number {rest} of the table '{table}': is the "
            "numbering 'prefixed'?",
        ).format(number=number, first=first, last=last, rest=named[1] + 1, table=table)
    )
