"""Problems in words."""

from __future__ import annotations

import pytest

from app.project.problems import Problem, did_you_mean, one_of, quoted


def test_a_problem_as_text() -> None:
    assert str(Problem("signal 'x'", "is wrong", "mend it")) == "signal 'x': is wrong; mend it"
    assert str(Problem("", "is wrong")) == "is wrong"


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("sped", "did you mean 'speed'?"),
        ("SPEED", "did you mean 'speed'?"),
        ("speeed", "did you mean 'speed'?"),
        ("current", ""),
        ("", ""),
        ("speed" * 100, ""),
    ],
)
def test_the_nearest_name(name: str, expected: str) -> None:
    assert did_you_mean(name, ["ramp", "speed", "start"]) == expected


def test_no_names() -> None:
    assert did_you_mean("speed", []) == ""


def test_quoting() -> None:
    assert quoted("a\x00\u202eb") == "'a??b'"
    assert len(quoted("x" * 1000)) == 62
    assert one_of(["a"]) == "'a'"
    assert one_of(["a", "b", "c"]) == "'a', 'b' or 'c'"
