"""Bringing earlier formats forward."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.checks import Checker
from app.project.model import FORMAT
from app.project_file import migration
from app.project_file.files import ProjectFileError, dump, load, load_known, parse, save
from app.project_file.migration import MIGRATIONS, Tables, UnknownFormat, migrated
from tests.former_formats import FORMAT_1, FORMAT_2, FORMER


def test_the_present_format_is_left_alone() -> None:
    tables: Tables = {"format": FORMAT, "title": "x"}
    assert migrated(tables) is tables


def test_formats_are_brought_forward_one_at_a_time(monkeypatch: pytest.MonkeyPatch) -> None:
    # Formats that never were: the title was called "headline", before that "name".
    monkeypatch.setattr(migration, "FORMAT", 3)
    monkeypatch.setitem(MIGRATIONS, 1, lambda tables: {"headline": tables["name"]})
    monkeypatch.setitem(MIGRATIONS, 2, lambda tables: {"title": tables["headline"]})
    old: Tables = {"format": 1, "name": "x"}
    assert migrated(old) == {"format": 3, "title": "x"}
    assert old == {"format": 1, "name": "x"}
    assert migrated({"format": 2, "headline": "x"}) == {"format": 3, "title": "x"}


@pytest.mark.parametrize(("number", "words"), [(3, "reads formats up to 2"), (0, "no format 0"), (-1, "no format -1")])
def test_other_formats_are_refused(number: int, words: str) -> None:
    with pytest.raises(UnknownFormat, match=words):
        migrated({"format": number})


def test_every_earlier_format_has_its_step() -> None:
    assert sorted(MIGRATIONS) == list(range(1, FORMAT))


# Format 1 -------------------------------------------------------------------------------------------------------------


def test_there_are_files_of_format_1() -> None:
    assert FORMER == ("booster-pump", "drying-hall", "every-word")
    words = "".join((FORMAT_1 / f"{name}.toml").read_text("utf-8") for name in FORMER)
    assert all(word in words for word in ("[[turn]]", "plays = ", "hd44780-a00", "hd44780-a02", "idle-turns-fight"))


@pytest.mark.parametrize("name", FORMER)
def test_a_file_of_format_1_is_the_same_project_as_its_text_in_format_2(name: str) -> None:
    former, now = load_known(FORMAT_1 / f"{name}.toml"), load_known(FORMAT_2 / f"{name}.toml")
    assert (former.format, now.format) == (1, 2)
    assert former.project == now.project
    assert dump(former.project) == (FORMAT_2 / f"{name}.toml").read_bytes().decode()


@pytest.mark.parametrize("name", FORMER)
def test_saving_it_writes_the_present_format_and_keeps_the_former_file(name: str, tmp_path: Path) -> None:
    path = tmp_path / "old.toml"
    before = (FORMAT_1 / f"{name}.toml").read_bytes()
    path.write_bytes(before)
    project, known, _ = load_known(path)
    assert path.read_bytes() == before, "opening writes nothing"
    save(project, path, known=known)
    assert path.read_bytes().startswith(b"format = 2\n")
    assert path.with_name("old.toml.bak").read_bytes() == before
    assert load(path) == project == load(path.with_name("old.toml.bak"))
    save(project, path)
    assert path.with_name("old.toml.bak").read_bytes().startswith(b"format = 2\n")
    assert path.with_name("old.toml.format-1.bak").read_bytes() == before, "further saves leave it alone"


def test_what_was_accepted_stays_accepted() -> None:
    """The entries were made by the program that wrote format 1: one of every finding that could be accepted."""
    checker = Checker()
    project = load(FORMAT_1 / "every-word.toml")
    found = checker.check(project)
    assert {finding.severity for finding in found} == {"error"}
    assert len(checker.accepted) == len(project.accepted) == 9
    assert {"screen-change-to-itself", "idle-screen-changes-conflict", "drive-without-role", "message-too-long"} <= {
        finding.rule for finding in checker.accepted
    }


def test_names_and_texts_that_look_like_the_old_words_stay() -> None:
    project = load(FORMAT_1 / "every-word.toml")
    assert "plays" in project.signal_named
    assert "turn" in project.screen_named
    assert project.screen_named["run"].text == ("turn /  plays", "turn")


def test_the_words_of_two_formats_do_not_mix() -> None:
    mixed = (FORMAT_1 / "every-word.toml").read_text("utf-8") + '[[screen_change]]\nkey = "f1"\nto = "run"\n'
    with pytest.raises(ProjectFileError, match="'turn' is not a key of a project"):
        parse(mixed)
    with pytest.raises(ProjectFileError, match=r"'plays' is not a key of a (bit )?signal"):
        parse((FORMAT_2 / "every-word.toml").read_text("utf-8").replace("drive_role", "plays"))


@pytest.mark.parametrize(
    "odd",
    [
        {"turn": 5, "panel": "x", "signal": "y", "accepted": {}},
        {
            "turn": {},
            "panel": {"repertoire": []},
            "signal": [1, {"plays": {}}],
            "accepted": [2, {"about": 1, "rule": {}}],
        },
        {},
    ],
)
def test_what_makes_no_sense_is_left_for_the_checks(odd: Tables) -> None:
    after = migrated({"format": 1, **odd})
    assert after["format"] == 2
    assert len(after) == len(odd) + 1


def test_a_newer_format_is_refused_plainly(tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    path.write_text('format = 3\n[panel]\nstart = "run"\n', "utf-8")
    with pytest.raises(ProjectFileError) as caught:
        load(path)
    assert caught.value.unreadable
    assert str(caught.value) == (
        f"{path}: the file has format 3, but this program reads formats up to 2; open it with a newer Fanlight"
    )
