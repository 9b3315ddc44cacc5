"""A file that another program has changed meanwhile is not overwritten unasked."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.project.model import Project
from app.project_file.files import ChangedOnDisk, ProjectSaveError, digest_of, load, load_known, save, set_aside
from app.project_file.locks import alone
from tests.builders import fresh_project


def called(title: str) -> Project:
    return fresh_project().replace(title=title)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "pump.toml"
    save(called("first"), path)
    return path


def test_the_file_as_it_was_read_is_saved_over(file: Path) -> None:
    project, known, _ = load_known(file)
    assert project == called("first")
    known = save(called("second"), file, known=known)
    assert known == digest_of(file)
    save(called("third"), file, known=known)
    assert load(file).title == "third"


def test_a_file_changed_meanwhile_is_not(file: Path) -> None:
    known = digest_of(file)
    save(called("theirs"), file)
    with pytest.raises(ChangedOnDisk, match=r"pump\.toml was not saved: another program has changed the file"):
        save(called("mine"), file, known=known)
    assert load(file).title == "theirs"
    assert sorted(path.name for path in file.parent.iterdir()) == ["pump.toml", "pump.toml.bak"]


def test_nor_is_what_can_no_longer_be_read_as_a_project(file: Path) -> None:
    known = digest_of(file)
    file.write_bytes(b"\0" * 5_000_000)
    with pytest.raises(ChangedOnDisk):
        save(called("mine"), file, known=known)
    assert file.stat().st_size == 5_000_000


def test_a_file_touched_but_the_same_is_the_same(file: Path) -> None:
    known = digest_of(file)
    file.write_bytes(file.read_bytes())
    save(called("second"), file, known=known)
    assert load(file).title == "second"


def test_a_file_that_is_gone_is_written_anew(file: Path) -> None:
    known = digest_of(file)
    file.unlink()
    assert digest_of(file) is None
    save(called("mine"), file, known=known)
    assert load(file).title == "mine"


def test_the_version_of_another_is_set_aside_under_a_free_name(file: Path) -> None:
    text = file.read_bytes()
    (file.parent / "pump theirs.toml").write_text("taken")
    place = set_aside(file, "pump theirs.toml")
    assert place == file.parent / "pump theirs 2.toml"
    assert place.read_bytes() == text
    assert load(place) == load(file)


def test_what_cannot_be_set_aside_is_said(file: Path) -> None:
    with pytest.raises(ProjectSaveError, match="was not written"):
        set_aside(file.with_name("gone.toml"), "pump theirs.toml")


COUNTER = """
import sys
from app.project_file.files import ChangedOnDisk, load_known, save

saved = 0
while saved < 40:
    project, known, _ = load_known(sys.argv[1])
    try:
        save(project.replace(notes=str(int(project.notes) + 1)), sys.argv[1], known=known)
    except ChangedOnDisk:
        continue
    saved += 1
"""
"""Counts the notes of a project up, forty times; what somebody else has saved meanwhile is read anew first."""


def test_of_two_programs_that_save_at_the_same_time_none_overwrites_the_other(file: Path) -> None:
    save(called("first").replace(notes="0"), file)
    programs = [subprocess.Popen([sys.executable, "-c", COUNTER, str(file)], stderr=subprocess.PIPE) for _ in range(2)]
    for program in programs:
        _, err = program.communicate(timeout=100)
        assert program.returncode == 0, err
    assert load(file).notes == "80"


def test_a_save_that_waits_too_long_for_another_one_says_so(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.project_file.locks.PATIENCE_S", 0.01)
    with alone(file), pytest.raises(ProjectSaveError, match="another program is saving this file; try again"):
        save(called("second"), file)
    assert load(file).title == "first"


def test_what_killed_saves_have_left_is_cleared_away(file: Path) -> None:
    old, new, other = (
        file.with_name(f".{name}.tmp") for name in ("pump.toml.0123456789ab", "pump.toml.ba9876543210", "b")
    )
    for path in (old, new, other):
        path.touch()
    for path in (old, other):
        os.utime(path, (1e9, 1e9))
    save(called("second"), file)
    assert [path.exists() for path in (old, new, other)] == [False, True, True]
