"""What keeping copies of unsaved work costs the one who types, and comparing two versions, with 200 screens."""

from __future__ import annotations

from pytest_benchmark.fixture import BenchmarkFixture

from app import edits
from app.comparison.comparison import compare
from app.project.model import Project
from app.project_file.canonical import canonical
from app.project_file.files import parse
from app.project_file.incremental_dump import KeptText


def test_text_of_a_copy_after_an_edit(benchmark: BenchmarkFixture, big_project: Project) -> None:
    kept = KeptText()
    kept.text(big_project)
    typed = iter(range(10**9))

    def edited() -> tuple[tuple[Project], dict[str, object]]:
        letter = "abcdefgh"[next(typed) % 8]
        return (edits.type_text(big_project, "screen 5", 0, 0, letter),), {}

    benchmark.pedantic(kept.text, setup=edited, rounds=50)
    assert kept.text(big_project) == canonical(big_project)


def test_comparing_two_files(benchmark: BenchmarkFixture, big_project: Project) -> None:
    other = edits.rename_signal(edits.type_text(big_project, "screen 5", 0, 0, "x"), "signal 3", "belt")
    other = parse(canonical(other))
    assert len(benchmark(compare, big_project, other).parts) == 2
