"""Titles of columns: what the program writes and shows, it knows again."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from xml.etree import ElementTree

import pytest

from app.exchange.titles import TITLES, Key, key_of_title
from tests.app.exchange.test_import_plan import brought, notes, signal

GERMAN = files("resources") / "translations" / "fanlight_de.ts"


@pytest.mark.parametrize(("key", "title"), TITLES.items())
def test_the_title_of_every_column_is_known(key: Key, title: str) -> None:
    assert key_of_title(title) == key


@pytest.mark.parametrize(("key", "title"), TITLES.items())
def test_so_is_its_german_one(key: Key, title: str) -> None:
    rooms = ElementTree.fromstring(GERMAN.read_text("utf-8")).iter("context")
    texts = next(room for room in rooms if room.findtext("name") == "attributes")
    [german] = [text.findtext("translation") for text in texts.iter("message") if text.findtext("source") == title]
    assert key_of_title(german) == key


@pytest.mark.parametrize(("former", "key"), [("Plays", "drive_role"), ("Texts in other languages", "texts_in")])
def test_titles_of_earlier_exports_are_known(former: str, key: Key) -> None:
    assert key_of_title(former) == key


def test_roles_of_an_earlier_export_are_kept(tmp_path: Path) -> None:
    done = brought(tmp_path, "Name,Register,Plays\ncommand,1,run\n")
    assert notes(done) == []
    assert signal(done, "command").drive_role == "run"
