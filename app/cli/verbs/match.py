"""The verb of the command line that finds the register of a value: which one holds what a display shows."""

from __future__ import annotations

import argparse
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from app.cli.options import add_json
from app.cli.outcome import FINE, FOUND_WRONG, CouldNotRun, put, put_json, say, tell

if TYPE_CHECKING:
    from decimal import Decimal

    from app.matching.candidates import RegisterMeaning
    from app.matching.shown import Shown
    from app.signals.numbering import Table
    from app.snapshots.snapshot import RegisterSnapshot

_SHOWN = 10


def match_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight match`."""
    verb.add_argument(
        "readings",
        metavar="SNAPSHOT=VALUE",
        nargs="+",
        help="a snapshot, and what the display of the device showed meanwhile, such as first.registers.toml='25.0 Hz'",
    )
    verb.add_argument(
        "--step", metavar="STEP", help="by how much the display moves at least; left out: by one of its last digit"
    )
    add_json(verb)


def match(args: argparse.Namespace) -> int:
    """Find the register that holds what a display shows, in snapshots that were taken at different values."""
    from app.matching.advice import advice, name_of
    from app.matching.candidates import DisplayReading
    from app.matching.match import match as compare
    from app.project.raw_register import number_of
    from app.signals.numbering import register_text

    step = None if args.step is None else _shown(args.step, None, "--step").value
    read = [_reading(text, step) for text in args.readings]
    if len({(snapshot.line, snapshot.unit) for snapshot, _ in read}) > 1:
        say("these snapshots are not all of one device; a match needs one device at different values")
    found = compare([DisplayReading(snapshot.registers, value) for snapshot, value in read])
    if args.json:
        put_json(
            {
                "candidates": [
                    {
                        **_explanation(each.best),
                        "chance": float(f"{each.chance:.3g}"),
                        "also": [_explanation(other) for other in each.also],
                        "twins": [_explanation(other) for other in each.twins],
                    }
                    for each in found.candidates
                ]
            }
        )
    else:
        numbering = read[0][0].numbering

        def name(table: Table, first: int, last: int) -> str:
            return register_text(table, number_of(numbering, table, first), number_of(numbering, table, last))

        for each in found.candidates[:_SHOWN]:
            raw, value = each.best.points
            put(
                f"{name_of(each.best, name)}: {_way(each.best)}, {raw[0]} to {raw[1]} is {value[0]} to {value[1]}, "
                f"by chance 1 in {each.one_in}"
            )
        if len(found.candidates) > _SHOWN:
            put(f"and {len(found.candidates) - _SHOWN} more, less likely")
        if not found.candidates:
            tell("no register agrees")
        tell(*advice(found, name))
    return FINE if found.candidates else FOUND_WRONG


def _reading(text: str, step: Fraction | None) -> tuple[RegisterSnapshot, Shown]:
    from app.snapshots.files import open_snapshot

    path, equals, value = text.rpartition("=")
    if not equals or not path:
        raise CouldNotRun(f"'{text}' is not SNAPSHOT=VALUE, such as first.registers.toml='25.0 Hz'")
    return open_snapshot(Path(path)), _shown(value, step, text)


def _shown(text: str, step: Fraction | None, where: str) -> Shown:
    from app.matching.shown import shown

    try:
        return shown(text, step)
    except ValueError as why:
        raise CouldNotRun(f"{where}: {why}") from None


def _explanation(explanation: RegisterMeaning) -> dict[str, object]:
    raw, value = explanation.points
    return {
        "table": explanation.table,
        "address": explanation.address,
        "encoding": explanation.way.encoding,
        "word_order": explanation.way.word_order,
        "byte_order": explanation.way.byte_order,
        "scale": {"raw": [*map(_number, raw)], "value": [*map(_number, value)]},
    }


def _number(exact: Decimal) -> int | float:
    return int(exact) if exact == exact.to_integral_value() else float(exact)


def _way(explanation: RegisterMeaning) -> str:
    orders: list[str] = [explanation.way.encoding]
    if explanation.way.width > 1 and explanation.way.word_order == "low-first":
        orders.append("low word first")
    if explanation.way.byte_order == "low-first":
        orders.append("low byte first")
    return " ".join(orders)
