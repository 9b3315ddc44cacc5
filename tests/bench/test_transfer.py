"""Copying, pasting, finding and replacing in a project far larger than any panel needs."""

from __future__ import annotations

from pytest_benchmark.fixture import BenchmarkFixture

from app.edits import (
    Block,
    Sought,
    arrivals,
    cells_of,
    find,
    paste_cells,
    paste_screens,
    replace_all,
    screens_of,
)
from app.project_file.files import dump, parse
from tests.big_project import big_project

WHOLE = Block(0, 0, 4, 40)


def test_a_whole_screen_goes_over_the_clipboard(benchmark: BenchmarkFixture) -> None:
    project = big_project()
    empty = project.screens[0].replace(fields=(), text=(), name="empty")
    target = project.replace(screens=(*project.screens, empty))

    def over() -> object:
        piece = parse(dump(cells_of(project, "screen 1", WHOLE)))
        assert arrivals(target, piece).nothing
        return paste_cells(target, piece, "empty", 0, 0)

    assert benchmark(over) != target


def test_all_screens_are_pasted_into_another_project(benchmark: BenchmarkFixture) -> None:
    project = big_project()
    small = big_project(screens=1, signals=10)
    piece = screens_of(project, project.screen_named)
    after = benchmark(lambda: paste_screens(small, piece))
    assert len(after.screens) == 201


def test_a_letter_is_found_everywhere(benchmark: BenchmarkFixture) -> None:
    project = big_project()
    assert benchmark(lambda: find(project, Sought("e")))


def test_a_letter_is_replaced_everywhere(benchmark: BenchmarkFixture) -> None:
    project = big_project()
    result = benchmark(lambda: replace_all(project, Sought("e"), "o"))
    assert result.count > 1000
