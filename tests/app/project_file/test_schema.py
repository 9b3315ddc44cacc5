"""The JSON Schema of the project file."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import Any

import jsonschema
import pytest

from app.project.model import Project
from app.project_file.files import dump
from app.project_file.schema import SCHEMA_FILE, schema, schema_text
from projects import demo_path, demos


@pytest.fixture(scope="module")
def judge() -> jsonschema.Draft202012Validator:
    jsonschema.Draft202012Validator.check_schema(schema())
    return jsonschema.Draft202012Validator(schema())


def test_the_file_is_current() -> None:
    stored = (files("resources") / SCHEMA_FILE).read_text(encoding="utf-8")
    assert stored == schema_text(), "run: python -m app.project_file.schema"


@pytest.mark.parametrize("name", demos())
def test_it_accepts_the_demo_projects(judge: jsonschema.Draft202012Validator, name: str) -> None:
    judge.validate(tomllib.loads(demo_path(name).read_text(encoding="utf-8")))


def test_it_accepts_a_large_project(judge: jsonschema.Draft202012Validator, big_project: Project) -> None:
    some = big_project.replace(signals=big_project.signals[:50], screens=big_project.screens[:5])
    judge.validate(tomllib.loads(dump(some)))


@pytest.mark.parametrize(
    "change",
    [
        {"format": 1},
        {"titel": "x"},
        {"panel": {}},
        {"panel": {"start": "run", "rows": 0}},
        {"panel": {"start": "run", "rows": "4"}},
        {"line": [{"name": "x", "host": "h"}]},
        {"line": [{"name": "x", "kind": "tpc", "host": "h"}]},
        {"line": [{"name": "x", "kind": "tcp", "host": "h", "baud": 9600}]},
        *({"follower": [{"name": "x", "line": "y", "unit": unit}]} for unit in (-1, 248, 254, 256)),
        {"signal": [{"name": "x"}]},
        {"signal": [{"name": "x", "held": 1, "register": 5}]},
        {"signal": [{"name": "x", "held": 1, "step": 0}]},
        {"signal": [{"name": "x", "held": 1, "limits": [1]}]},
        {"signal": [{"name": "x", "held": 1, "limits": [1, 2, 3]}]},
        {"signal": [{"name": "x", "held": 1, "texts": {"a": "b"}}]},
        {"signal": [{"name": "x", "follower": "f", "number": 5}]},
        {"screen": [{"name": "run", "field": [{"at": [0, 0], "width": 5}]}]},
        {"screen_change": [{"key": "up"}]},
    ],
)
def test_it_refuses_what_the_program_refuses(judge: jsonschema.Draft202012Validator, change: dict[str, Any]) -> None:
    whole = {"format": 2, "panel": {"start": "run"}, "screen": [{"name": "run"}]}
    judge.validate(whole)
    assert not judge.is_valid(whole | change)


@pytest.mark.parametrize("unit", [0, 1, 247, 255])
def test_it_accepts_every_unit(judge: jsonschema.Draft202012Validator, unit: int) -> None:
    whole = {"format": 2, "panel": {"start": "run"}, "screen": [{"name": "run"}]}
    judge.validate(whole | {"follower": [{"name": "x", "line": "y", "unit": unit}]})
