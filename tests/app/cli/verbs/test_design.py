"""`fanlight compare`: what differs between two files, for people and for programs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app import edits
from app.cli.parser import main
from app.project_file.files import save
from tests.widgets.bench_project import bench_project


@pytest.fixture
def files(tmp_path: Path) -> tuple[Path, Path]:
    project = bench_project()
    after = edits.type_text(edits.rename_signal(project, "level", "fill"), "tank", 0, 0, "Tonk")
    paths = tmp_path / "before.toml", tmp_path / "after.toml"
    save(project, paths[0])
    save(after, paths[1])
    return paths


def test_the_same_is_0_and_says_nothing_on_standard_output(
    files: tuple[Path, Path], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", str(files[0]), str(files[0])]) == 0
    assert capsys.readouterr() == ("", "no differences\n")


def test_what_differs_is_1(files: tuple[Path, Path], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *map(str, files)]) == 1
    out, said = capsys.readouterr()
    assert out.splitlines() == [
        "> signal 'level' renamed to 'fill'",
        "~ screen 'tank' modified",
        '    text, row 1: "Tank level     %" -> "Tonk level     %"',
    ]
    assert said == "differences in screens: 1, signals: 1\n"


def test_json(files: tuple[Path, Path], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *map(str, files), "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert told["screens"][0]["cells"] == [[0, 1]]
    assert set(told) == {
        "same",
        "project",
        "panel",
        "lines",
        "followers",
        "signals",
        "screens",
        "screen_changes",
        "actions",
        "reordered",
    }


@pytest.mark.parametrize("which", [0, 1])
def test_what_cannot_be_read_is_2(
    files: tuple[Path, Path], which: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    names = [str(path) for path in files]
    names[which] = str(tmp_path / "gone.toml")
    assert main(["compare", *names]) == 2
    out, said = capsys.readouterr()
    assert out == ""
    assert "gone.toml: file not found" in said
