"""How long the panel takes: one rendering, one step, the paging graph of a large project."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from app.panel.machine import KeyDown, State, Tick, begin, step
from app.panel.paging import PagingGraph
from app.panel.rendering import render
from app.project.model import Project
from app.signals.reading import Quality, Reading


def busy(rows: int, columns: int, fields_a_row: int, screens: int = 1) -> tuple[Project, dict[str, Reading]]:
    """A project with a screen full of fields, each with a blink condition, and a reading for each signal."""
    count = rows * fields_a_row
    width = columns // fields_a_row - 2
    scale = {"raw": [0, 10_000], "value": [0, 50]}
    signals: list[dict[str, Any]] = [
        {"name": f"s{number}", "follower": "f", "register": number, "scale": scale, "decimals": 1, "write": True}
        for number in range(count)
    ]
    fields = [
        {
            "at": [number // fields_a_row, number % fields_a_row * (columns // fields_a_row)],
            "width": width,
            "signal": f"s{number}",
            "blink": {"signal": f"s{number}", "is": "above", "value": 40},
            "entry": True,
        }
        for number in range(count)
    ]
    project = Project.model_validate(
        {
            "panel": {"rows": rows, "columns": columns, "start": "screen 0"},
            "line": [{"name": "l", "kind": "tcp", "host": "panel.example"}],
            "follower": [{"name": "f", "line": "l"}],
            "signal": signals,
            "screen": [
                {"name": f"screen {number}", "text": ["Text" * (columns // 4)] * rows, "field": fields}
                for number in range(screens)
            ],
            "screen_change": [
                {"key": "right", "to": "next"},
                {"key": "left", "to": "previous"},
                *({"when": {"signal": f"s{n}", "is": "above", "value": 99}, "to": "screen 0"} for n in range(count)),
            ],
        }
    )
    readings = {
        f"s{number}": Reading(number * 97, Fraction(number * 97, 200), Quality.GOOD, "", 0.0) for number in range(count)
    }
    return project, readings


@pytest.mark.parametrize(("rows", "columns", "fields_a_row"), [(4, 20, 2), (16, 40, 4)])
def test_render(benchmark: BenchmarkFixture, rows: int, columns: int, fields_a_row: int) -> None:
    project, readings = busy(rows, columns, fields_a_row)
    state = begin(project, 0.0)
    shown = benchmark(render, project, state, readings, 1.0)
    assert len(shown) == rows


@pytest.mark.parametrize(("rows", "columns", "fields_a_row"), [(4, 20, 2), (16, 40, 4)])
def test_step_of_a_tick(benchmark: BenchmarkFixture, rows: int, columns: int, fields_a_row: int) -> None:
    project, readings = busy(rows, columns, fields_a_row)
    state = begin(project, 0.0)
    after, effects = benchmark(step, project, state, Tick(1.0), readings)
    assert after.shown == "screen 0"
    assert effects == ()


def test_step_of_a_key_and_the_face_after_it(benchmark: BenchmarkFixture) -> None:
    project, readings = busy(4, 20, 2)
    state = begin(project, 0.0)

    def press() -> State:
        after, _ = step(project, state, KeyDown("enter", 1.0), readings)
        render(project, after, readings, 1.0)
        return after

    assert benchmark(press).entry is not None


def test_paging_graph_of_200_screens(benchmark: BenchmarkFixture) -> None:
    project, _ = busy(1, 20, 1, screens=200)

    def work_out() -> PagingGraph:
        graph = PagingGraph(project)
        assert graph.no_way_back == graph.unreachable
        assert len(graph.edges) > 400
        return graph

    assert max(benchmark(work_out).presses_from_start.values()) > 50
