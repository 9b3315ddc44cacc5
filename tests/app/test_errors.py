"""The one base of errors: its words, and that every kind of error of the program is one."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest

from app.errors import FanlightError
from app.language import mark, speak, translate

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def german() -> Iterator[None]:
    known = {("bus", "line '{line}' is busy"): "Linie '{line}' ist belegt"}
    speak(lambda context, text: known.get((context, text), text))
    yield
    speak(None)


def test_the_sentence_is_made_where_it_is_shown(german: None) -> None:
    error = FanlightError(mark("bus", "line '{line}' is busy"), line="l {1}")
    assert str(error) == "Linie 'l {1}' ist belegt"
    speak(None)
    assert str(error) == "line 'l {1}' is busy"
    assert (error.code, error.parameters) == ("line '{line}' is busy", {"line": "l {1}"})


def test_a_whole_text_is_shown_as_it_is(german: None) -> None:
    assert str(FanlightError(translate("bus", "line '{line}' is busy").format(line="{a}"))) == "Linie '{a}' ist belegt"
    assert str(FanlightError()) == ""


def test_every_kind_of_error_has_the_one_base() -> None:
    """By name over all sources, so that a kind is seen wherever it stands."""
    bases = {
        node.name: [base.id for base in node.bases if isinstance(base, ast.Name)]
        for path in (ROOT / "app").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ClassDef)
    }

    def leads_to(name: str, goals: set[str]) -> bool:
        return name in goals or any(leads_to(base, goals) for base in bases.get(name, ()))

    errors = {name for name in bases if leads_to(name, {"Exception", "ValueError", "OSError", "TimeoutError"})}
    assert len(errors) > 30
    assert {name for name in errors if not leads_to(name, {"FanlightError"})} == set()


def test_every_place_in_a_sentence_has_its_parameter() -> None:
    wrong, seen = [], 0
    for path in (ROOT / "app").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            error = node.exc if isinstance(node, ast.Raise) else None
            marked = error.args[0] if isinstance(error, ast.Call) and error.args else None
            if not isinstance(error, ast.Call) or not isinstance(marked, ast.Call):
                continue
            if not isinstance(marked.func, ast.Name) or marked.func.id != "mark":
                continue
            seen += 1
            sentence = ast.literal_eval(marked.args[1])
            named = {name.split(".")[0] for _, name, _, _ in Formatter().parse(sentence) if name is not None}
            # Where it is (`place`) and which answer it is about (`about`) are told beside the sentence.
            if named != {each.arg for each in error.keywords} - {"place", "about"}:
                wrong.append(f"{path}:{error.lineno}: {sentence}")
    assert seen > 0
    assert wrong == []
