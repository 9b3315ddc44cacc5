"""JSON that gives the same bytes for the same content, and that any other reader reads the same."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, strategies as st

from app.trial_record.canonical_json import NotCanonical, canonical_json, parsed_json

PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(st.characters(codec="utf-8")),
    lambda inside: st.lists(inside, max_size=4) | st.dictionaries(st.text(max_size=8), inside, max_size=4),
    max_leaves=20,
)


@given(st.dictionaries(st.text(max_size=8), PLAIN, max_size=5))
def test_it_reads_back_the_same_here_and_elsewhere(value: dict[str, object]) -> None:
    content = canonical_json(value)
    assert parsed_json(content) == json.loads(content) == value
    assert canonical_json(dict(reversed(value.items()))) == content, "whatever order it came in"
    assert content.endswith(b"\n")


def test_its_first_line_has_the_first_key() -> None:
    assert canonical_json({"b": 1, "a": "\u00e4"}) == '{"a": "\u00e4",\n "b": 1\n}\n'.encode()


@pytest.mark.parametrize("value", [1.0, {"a": [1, 2.5]}, {"a": {1, 2}}, b"x"])
def test_what_has_no_one_form_is_refused(value: object) -> None:
    with pytest.raises(TypeError):
        canonical_json(value)


@pytest.mark.parametrize("content", [b'{"a": 1, "a": 2}', b"1.5", b"NaN", b"{", b"\xff", b"[" * 100_000])
def test_what_is_none_is_refused_in_words(content: bytes) -> None:
    with pytest.raises(NotCanonical) as told:
        parsed_json(content)
    assert str(told.value)
