"""What loading, saving and editing cost in a project of 200 screens and 2000 signals."""

from __future__ import annotations

from pathlib import Path

from pytest_benchmark.fixture import BenchmarkFixture

from app import edits
from app.project.model import Project
from app.project_file.files import dump, load, save


def test_loading(benchmark: BenchmarkFixture, big_project: Project, tmp_path: Path) -> None:
    path = tmp_path / "big.toml"
    path.write_text(dump(big_project), encoding="utf-8")
    assert benchmark(load, path) == big_project


def test_saving(benchmark: BenchmarkFixture, big_project: Project, tmp_path: Path) -> None:
    path = tmp_path / "big.toml"
    benchmark(save, big_project, path)
    assert load(path) == big_project


def test_typing_a_letter(benchmark: BenchmarkFixture, big_project: Project) -> None:
    after = benchmark(edits.type_text, big_project, "screen 100", 0, 0, "x")
    assert after.screen_named["screen 100"].text[0].startswith("xelt")


def test_renaming_a_signal(benchmark: BenchmarkFixture, big_project: Project) -> None:
    after = benchmark(edits.rename_signal, big_project, "signal 0", "belt speed")
    assert after.screens[0].fields[0].signal == "belt speed"


def test_moving_a_field(benchmark: BenchmarkFixture, big_project: Project) -> None:
    after = benchmark(edits.move_fields, big_project, "screen 100", [0], 0, -1)
    assert after.screen_named["screen 100"].fields[0].at == (0, 5)
