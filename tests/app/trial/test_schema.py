"""The schema of trial files: in step with the models, and of the same mind as the program."""

from __future__ import annotations

import json
import tomllib
from importlib.resources import files
from typing import Any

import jsonschema
import pytest

from app.trial.schema import SCHEMA_FILE, schema_text
from app.trial.script_file import TrialFileError, trial_of
from tests.app.trial.trials import PUMP

HEAD = 'format = 1\n[[case]]\nname = "a"\n[[case.step]]\n'


def judged(text: str) -> tuple[bool, bool]:
    schema: dict[str, Any] = json.loads(schema_text())
    tables = tomllib.loads(text)
    try:
        from decimal import Decimal

        trial_of(tomllib.loads(text, parse_float=Decimal))
        ours = True
    except TrialFileError:
        ours = False
    return jsonschema.Draft202012Validator(schema).is_valid(tables), ours


def test_the_file_in_resources_is_that_of_the_models() -> None:
    assert (files("resources") / SCHEMA_FILE).read_text(encoding="utf-8") == schema_text()


@pytest.mark.parametrize("text", [PUMP, HEAD + 'key = "start"\nhold_s = 0.5\n', HEAD + "wait = 2\n"])
def test_what_the_program_takes_the_schema_takes(text: str) -> None:
    assert judged(text) == (True, True)


@pytest.mark.parametrize(
    "text",
    [
        HEAD + "key = 1\n",
        HEAD + 'key = "start"\nhold_s = -1\n',
        HEAD + 'press = "start"\n',
        HEAD + "expect = { row = 0, text = 'x' }\n",
        HEAD + 'key = "start"\nhold = 1\n',
        'format = 1\n[[case]]\nname = ""\n',
        '[[case]]\nname = "a"\n',
    ],
)
def test_what_the_schema_refuses_the_program_refuses(text: str) -> None:
    assert judged(text) == (False, False)
