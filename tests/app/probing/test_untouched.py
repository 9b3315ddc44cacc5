"""What must never be touched, as a person writes it."""

from __future__ import annotations

import pytest

from app.probing.untouched import address_span, all_of, parse_untouched, untouched_text


def test_tables_and_wire_addresses_there_and_back() -> None:
    never = parse_untouched(" holding:100-119,input : 7 , coils:0-0,coil:9,")
    assert never == {"holding": [range(100, 120)], "input": [range(7, 8)], "coil": [range(1), range(9, 10)]}
    assert untouched_text(never) == "holding:100-119, input:7, coil:0, coil:9"
    assert parse_untouched(untouched_text(never)) == never
    assert (parse_untouched(""), untouched_text({})) == ({}, "")


@pytest.mark.parametrize("text", ["7", "holding", "holdings:7", "holding:9-2", "input:65536", "coil:-3", "coil:1-"])
def test_what_names_none_is_said(text: str) -> None:
    with pytest.raises(ValueError, match=f"^{text}$"):
        parse_untouched(f"holding:1, {text}")


def test_several_are_joined_without_what_is_there_twice() -> None:
    one, other = parse_untouched("holding:1-2, input:3"), parse_untouched("coil:1, holding:5, holding:1-2")
    assert untouched_text(all_of(one, other)) == "holding:1-2, holding:5, input:3, coil:1"
    assert all_of() == {}


@pytest.mark.parametrize(
    ("text", "span"), [("0-65535", (0, 65_535)), ("7", (7, 7)), ("0-65536", None), ("", None), ("1-2-3", None)]
)
def test_spans(text: str, span: tuple[int, int] | None) -> None:
    assert address_span(text) == span
