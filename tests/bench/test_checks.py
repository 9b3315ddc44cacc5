"""What checking costs: all rules over a project of 200 screens and 2 000 signals. Wanted: under 1 s."""

from __future__ import annotations

from typing import Any

from pytest_benchmark.fixture import BenchmarkFixture

from app.checks import Finding, check
from app.project.model import Project


def test_a_big_project_is_checked(benchmark: BenchmarkFixture, big_project: Project) -> None:
    def fresh() -> tuple[tuple[Any, ...], dict[str, Any]]:
        # A project value of its own each time, whose bindings and paging have to be worked out anew.
        return (Project.model_validate(big_project.model_dump(by_alias=True, exclude_unset=True)),), {}

    findings: tuple[Finding, ...] = benchmark.pedantic(check, setup=fresh, rounds=5)
    assert not [finding for finding in findings if finding.severity == "error"]
