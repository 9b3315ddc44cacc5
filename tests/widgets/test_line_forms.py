"""What is typed into the rows of a follower: ranges that are never read, and function codes."""

from __future__ import annotations

import pytest

from app.project.model import NeverRead
from widgets.line_forms import functions, ranges, ranges_text


def test_ranges_are_read_as_they_are_shown() -> None:
    parts = (NeverRead(table="holding", first=500, last=599), NeverRead(table="input", first=7, last=7))
    assert ranges_text(parts) == "holding 500-599, input 7"
    assert ranges("holding 500-599, input 7") == parts
    assert ranges(" 500 - 599 ,input 7,") == parts
    assert ranges("") == ()


@pytest.mark.parametrize(
    ("text", "words"), [("holdings 5", "is no range"), ("5-", "is no range"), ("9-5", "ends before it begins")]
)
def test_what_is_no_range_is_said(text: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        ranges(text)


def test_function_codes() -> None:
    assert functions("5, 6,16 ,6") == (5, 6, 16)
    assert functions("") == ()
    for text, words in (("3", "3 is not one of"), ("six", "is not a whole number")):
        with pytest.raises(ValueError, match=words):
            functions(text)
