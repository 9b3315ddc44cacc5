"""The glass: what is painted, what lies where, and what is reported."""

from __future__ import annotations

from dataclasses import fields

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.panel.rendering import Attribute, Row
from widgets.face.blinking import BLINK_MS
from widgets.face.cells import CellGrid, runs
from widgets.face.colours import DARK, LIGHT, FaceColours
from widgets.face.marks import Outline
from widgets.kit.palette import contrast


def row(text: str, columns: int = 20, **looks: tuple[int, int]) -> Row:
    attributes = [Attribute.NONE] * columns
    for look, (start, stop) in looks.items():
        for column in range(start, stop):
            attributes[column] |= Attribute[look.upper()]
    return Row(text.ljust(columns), tuple(attributes))


BLANK = row("")


@pytest.fixture
def grid(qtbot: QtBot) -> CellGrid:
    made = CellGrid()
    qtbot.addWidget(made)
    made.resize(made.sizeHint())
    with qtbot.waitExposed(made):
        made.show()
    return made


def picture(grid: CellGrid) -> QImage:
    return grid.grab().toImage()


def cell_picture(grid: CellGrid, at_row: int, column: int, width: int = 1) -> QImage:
    return picture(grid).copy(grid.cell_rect(at_row, column, width))


def share_of(image: QImage, colour: str) -> float:
    pixels = [image.pixelColor(x, y).name() for x in range(image.width()) for y in range(image.height())]
    return pixels.count(colour) / len(pixels)


def test_runs_are_the_longest_stretches_of_one_look() -> None:
    found = list(runs(row("Set  41.7 Hz", inverse=(5, 9), stale=(7, 9))))
    assert [(column, text) for column, text, _ in found] == [(0, "Set  "), (5, "41"), (7, ".7"), (9, " Hz        ")]
    assert found[2][2] == Attribute.INVERSE | Attribute.STALE


def test_blank_plain_stretches_are_not_painted_but_blank_inverse_ones_are() -> None:
    assert list(runs(BLANK)) == []
    assert [(column, text) for column, text, _ in runs(row("", inverse=(3, 5)))] == [(3, "  ")]


def test_every_character_stands_in_its_own_cell(grid: CellGrid) -> None:
    grid.set_rows((row("W" * 20), row("i" * 20), BLANK, BLANK))
    first = cell_picture(grid, 0, 0)
    assert all(cell_picture(grid, 0, column) == first for column in range(20))
    assert cell_picture(grid, 1, 0) == cell_picture(grid, 1, 19)


def test_a_character_of_another_width_moves_no_other(grid: CellGrid) -> None:
    grid.set_rows((row("ab" + "\N{HALFWIDTH KATAKANA LETTER A}" + "cd"), row("abxcd"), BLANK, BLANK))
    for column in (0, 1, 3, 4):
        assert cell_picture(grid, 0, column) == cell_picture(grid, 1, column)
    assert cell_picture(grid, 0, 2) != cell_picture(grid, 3, 2), "the odd character itself is drawn"


def test_inverse_cells_are_filled_with_ink(grid: CellGrid) -> None:
    grid.set_rows((row("", inverse=(4, 8)), BLANK, BLANK, BLANK))
    assert share_of(cell_picture(grid, 0, 4, 4), LIGHT.ink.name()) > 0.9
    assert share_of(cell_picture(grid, 0, 9, 4), LIGHT.ink.name()) == 0


def test_stale_cells_differ_by_shape_not_by_colour_alone(grid: CellGrid) -> None:
    grid.set_rows((row("41.7"), row("41.7", stale=(0, 4)), BLANK, row("", stale=(0, 4))))
    live, stale = cell_picture(grid, 0, 0, 4), cell_picture(grid, 1, 0, 4)
    threshold = QImage.Format.Format_Mono
    assert live.convertToFormat(threshold) != stale.convertToFormat(threshold)
    assert share_of(cell_picture(grid, 3, 0, 4), LIGHT.hatch.name()) > 0.05, "hatched even where blank"


def test_blinking_cells_go_out_and_come_back(grid: CellGrid, qtbot: QtBot) -> None:
    grid.set_rows((row("FAULT ok", blink=(0, 5)), BLANK, BLANK, BLANK))
    lit = cell_picture(grid, 0, 0, 5)
    steady = cell_picture(grid, 0, 6, 2)
    qtbot.waitUntil(lambda: cell_picture(grid, 0, 0, 5) != lit, timeout=6 * BLINK_MS)
    assert share_of(cell_picture(grid, 0, 0, 5), LIGHT.ink.name()) == 0
    assert cell_picture(grid, 0, 6, 2) == steady
    qtbot.waitUntil(lambda: cell_picture(grid, 0, 0, 5) == lit, timeout=6 * BLINK_MS)


def test_nothing_blinks_on_once_the_blinking_cells_are_gone(grid: CellGrid, qtbot: QtBot) -> None:
    grid.set_rows((row("FAULT", blink=(0, 5)), BLANK, BLANK, BLANK))
    lit = cell_picture(grid, 0, 0, 5)
    qtbot.waitUntil(lambda: cell_picture(grid, 0, 0, 5) != lit, timeout=6 * BLINK_MS)
    grid.set_rows((row("FAULT"), BLANK, BLANK, BLANK))
    assert cell_picture(grid, 0, 0, 5) == lit, "a steady text must not be caught in the dark half"


def test_the_cell_under_a_pixel(grid: CellGrid) -> None:
    for cell in ((0, 0), (3, 19), (2, 7)):
        assert grid.cell_at(grid.cell_rect(*cell).center()) == cell
    assert grid.cell_at(QPoint(-50, -50)) == (0, 0)
    assert grid.cell_at(QPoint(-50, -50), inside=True) is None


@pytest.mark.parametrize("ruler", [False, True])
def test_a_press_a_drag_and_a_release_name_their_cells(grid: CellGrid, qtbot: QtBot, ruler: bool) -> None:
    grid.set_ruler(ruler)
    grid.resize(grid.sizeHint())
    start, end = grid.cell_rect(1, 2).center(), grid.cell_rect(3, 9).center()
    with qtbot.waitSignal(grid.cell_pressed) as pressed:
        QTest.mousePress(grid, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier, start)
    assert pressed.args == [1, 2, Qt.KeyboardModifier.ControlModifier]
    with qtbot.waitSignal(grid.cell_dragged) as dragged:
        QTest.mouseMove(grid, end)
    assert dragged.args[:2] == [3, 9]
    with qtbot.waitSignal(grid.cell_released) as released:
        QTest.mouseRelease(grid, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, end)
    assert released.args == [3, 9, Qt.KeyboardModifier.NoModifier]


def test_only_the_edge_of_the_selected_outline_is_a_handle(grid: CellGrid, qtbot: QtBot) -> None:
    grid.set_outlines([Outline(0, 2, 4), Outline(2, 2, 4, selected=True)])
    edge = grid.cell_rect(2, 5)
    with qtbot.waitSignal(grid.handle_pressed) as pressed:
        QTest.mousePress(
            grid, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, QPoint(edge.right(), edge.center().y())
        )
    assert pressed.args == [1, False]
    left = QPoint(grid.cell_rect(2, 2).left(), edge.center().y())
    assert grid.handle_at(left) == (1, True)
    other = grid.cell_rect(0, 5)
    assert grid.handle_at(QPoint(other.right(), other.center().y())) is None


def test_only_changed_rows_are_painted_again(qtbot: QtBot) -> None:
    painted: list[QRect] = []

    class Watched(CellGrid):
        def paintEvent(self, event) -> None:  # type: ignore[no-untyped-def]
            painted.append(event.rect())
            super().paintEvent(event)

    grid = Watched()
    qtbot.addWidget(grid)
    grid.resize(grid.sizeHint())
    rows = tuple(row(f"row {n}") for n in range(4))
    grid.set_rows(rows)
    with qtbot.waitExposed(grid):
        grid.show()
    qtbot.waitUntil(lambda: bool(painted))
    painted.clear()
    grid.set_rows((*rows[:2], row("other"), rows[3]))
    qtbot.waitUntil(lambda: bool(painted))
    assert painted == [grid.row_rect(2)]


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_the_colours_of_the_face_can_be_read(colours: FaceColours) -> None:
    # WCAG 2.2, success criteria 1.4.3 (text 4.5), 1.4.6 (text 7) and 1.4.11 (shapes 3).
    def ratio(front: str, back: str) -> float:
        return contrast(getattr(colours, front).name(), getattr(colours, back).name())

    assert ratio("ink", "cell") >= 7
    assert ratio("ink", "glass") >= 7
    assert ratio("dim", "cell") >= 4.5
    assert ratio("dim", "hatch") >= 4.5
    assert ratio("dim", "glass") >= 4.5, "the numbers of the ruler"
    for key in ("key", "key_low"):
        assert ratio("key_ink", key) >= 7
        assert ratio("key_off", key) >= 3
    for bezel in ("bezel", "bezel_low"):
        assert ratio("key_low", bezel) >= 3
        assert ratio("lit", bezel) >= 3
        assert ratio("mark", bezel) >= 3
    for shape in ("accent", "wrong"):
        assert ratio(shape, "cell") >= 3


def test_the_keys_are_the_same_in_both_palettes() -> None:
    keys = [name for name in fields_of(LIGHT) if name.startswith("key")]
    assert len(keys) > 4
    assert all(getattr(LIGHT, name) == getattr(DARK, name) for name in keys)


def fields_of(colours: FaceColours) -> list[str]:
    return [field.name for field in fields(colours)]
