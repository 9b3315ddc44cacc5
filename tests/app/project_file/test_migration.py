"""Bringing earlier formats forward."""

from __future__ import annotations

import pytest

from app.project_file import migration
from app.project_file.migration import MIGRATIONS, Tables, UnknownFormat, migrated


def test_the_present_format_is_left_alone() -> None:
    tables: Tables = {"format": 1, "title": "x"}
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


@pytest.mark.parametrize(("number", "words"), [(2, "reads formats up to 1"), (0, "no format 0"), (-1, "no format -1")])
def test_other_formats_are_refused(number: int, words: str) -> None:
    with pytest.raises(UnknownFormat, match=words):
        migrated({"format": number})
