"""What is typed into the rows of a follower: ranges that are never read, and function codes."""

from __future__ import annotations

import pytest

from app.project.model import UNCHOSEN_HOST, NeverRead, SerialLine, TcpLine
from widgets.design.lines.forms import functions, line_of_kind, ranges, ranges_text


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
def test_no_address_is_made_up_for_a_line(kind: str) -> None:
    for like in (None, SerialLine(name="hall", device="COM3")):
        line = line_of_kind(kind, "hall", like)
        assert not isinstance(line, SerialLine)
        assert line.host == UNCHOSEN_HOST
    kept = line_of_kind(kind, "hall", TcpLine(name="hall", host="192.0.2.9", port=1502))
    assert not isinstance(kept, SerialLine)
    assert (kept.host, kept.port) == ("192.0.2.9", 1502)


def test_ranges_are_read_as_they_are_shown() -> None:
    parts = (NeverRead(table="holding", first=500, last=599), NeverRead(table="input", first=7, last=7))
    assert ranges_text(parts) == "holding 500-599, input 7"
    assert ranges("holding 500-599, input 7") == parts
    assert ranges(" 500 - 599 ,input 7,") == parts
    assert ranges("") == ()


@pytest.mark.parametrize(
    ("text", "words"), [("holdings 5", "is not a range"), ("5-", "is not a range"), ("9-5", "ends before it begins")]
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
