"""A file that another program has changed meanwhile is not overwritten unasked."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.project.files import ChangedOnDisk, ProjectSaveError, digest_of, load, load_known, save, set_aside
from app.project.model import Project
from tests.fresh import fresh_project


def called(title: str) -> Project:
    return fresh_project().but(title=title)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "pump.toml"
    save(called("first"), path)
    return path


def test_the_file_as_it_was_read_is_saved_over(file: Path) -> None:
    project, known = load_known(file)
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
