"""What the keys of a table of parts do; which they are stands in `widgets.kit.own_keys`."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtGui import QKeyEvent

from widgets.kit.own_keys import TABLE

if TYPE_CHECKING:
    from widgets.design.tables.part_table import PartTable


def press(table: PartTable, event: QKeyEvent) -> None:
    """Do what a key asks for; the event is accepted if that was anything."""
    deed = TABLE.deed(event)
    run = None if deed is None else (_of_rows(table) | _of_cells(table)).get(deed)
    if run is not None:
        run()
        event.accept()


def _of_rows(table: PartTable) -> dict[str, Callable[[], object]]:
    grid = table.table
    deeds: dict[str, Callable[[], object]] = {
        "add": table.add,
        "delete": table.delete,
        "duplicate": table.duplicate,
        "duplicate rows": table.duplicate_rows,
        "delete rows": table.delete_rows,
        "move up": lambda: table.move_rows(-1),
        "move down": lambda: table.move_rows(1),
        "open": table.open_current,
        "whole rows": lambda: grid.select_rows(list(grid.area().rows), current=grid.currentIndex().row()),
    }
    if table.editing is None:
        deeds["down"] = table.open_current
    return deeds


def _of_cells(table: PartTable) -> dict[str, Callable[[], object]]:
    work = table.work
    if work is None:
        return {}

    def cut() -> None:
        work.copy()
        table.delete()

    return {
        "copy": work.copy,
        "copy headed": lambda: work.copy(headed=True),
        "paste": work.paste,
        "cut": cut,
        "narrow": table.to_narrow,
        "fill": work.fill_current,
        "down": lambda: work.down(1),
        "up": lambda: work.down(-1),
    }
