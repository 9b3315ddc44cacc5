"""How fast cells blink, and that whoever does not want it sees them lit."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.pictures.stage import Setting, staged
from tests.widgets.face.test_cells import BLANK, cell_picture, grid, row
from widgets.document.settings import Settings
from widgets.face.blinking import BLINK_MS, blinks, let_blink
from widgets.face.cells import CellGrid

__all__ = ["grid"]


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    yield
    let_blink(True)


def test_it_is_neither_faster_nor_slower_than_signal_lights() -> None:
    # 0.8 to 5 Hz: common practice, no source. WCAG 2.2, success criterion 2.3.1: at most three flashes in a second.
    per_second = 1000 / (2 * BLINK_MS)
    assert 0.8 <= per_second <= 3


def test_turned_off_they_stay_lit(grid: CellGrid, qtbot: QtBot) -> None:
    grid.set_rows((row("FAULT", blink=(0, 5)), BLANK, BLANK, BLANK))
    lit = cell_picture(grid, 0, 0, 5)
    qtbot.waitUntil(lambda: cell_picture(grid, 0, 0, 5) != lit, timeout=6 * BLINK_MS)
    let_blink(False)
    qtbot.waitUntil(lambda: cell_picture(grid, 0, 0, 5) == lit, timeout=6 * BLINK_MS)
    seen = set()
    for _ in range(6):
        QTest.qWait(BLINK_MS // 2)  # nothing happens: there is nothing else to wait for
        seen.add(cell_picture(grid, 0, 0, 5) == lit)
    assert seen == {True}
    let_blink(True)
    qtbot.waitUntil(lambda: cell_picture(grid, 0, 0, 5) != lit, timeout=6 * BLINK_MS)


def test_the_menu_turns_it_off_for_good() -> None:
    with staged(Setting()) as window:
        assert window.menus.blinking.isChecked()
        window.menus.blinking.trigger()
        assert (blinks(), Settings().blinks) == (False, False)
