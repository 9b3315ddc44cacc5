"""How long a repaint of the whole glass takes. Aims: 4 x 20 under 0.5 ms, 16 x 40 under 2 ms."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QImage
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app.panel.rendering import Attribute, Row, Rows
from widgets.face.cells import CellGrid


def busy_rows(rows: int, columns: int) -> Rows:
    """Text, an inverse field, a stale field and a blinking one on every row."""
    looks = [Attribute.NONE] * columns
    for start, look in ((4, Attribute.INVERSE), (9, Attribute.STALE), (14, Attribute.BLINK)):
        looks[start : start + 4] = [look] * 4
    text = "Set 41.7 Hz is 37.9 now and so on; "
    return tuple(Row((text[row:] + text * 4)[:columns], tuple(looks)) for row in range(rows))


@pytest.mark.parametrize(("rows", "columns"), [(4, 20), (16, 40)])
def test_repaint(benchmark: BenchmarkFixture, qtbot: QtBot, rows: int, columns: int) -> None:
    grid = CellGrid()
    qtbot.addWidget(grid)
    grid.set_count(rows, columns)
    grid.set_rows(busy_rows(rows, columns))
    grid.resize(grid.sizeHint())
    image = QImage(grid.size(), QImage.Format.Format_RGB32)
    benchmark(grid.render, image)
    for row in range(rows):
        plain, inverse = (image.pixelColor(grid.cell_rect(row, column).topLeft()) for column in (0, 4))
        assert plain != inverse, "the ground of an inverse cell is another one"
