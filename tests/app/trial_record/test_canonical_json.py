"""JSON that gives the same bytes for the same content, and that any other reader reads the same."""

from __future__ import annotations

import contextlib
import json

import pytest
from hypothesis import given, strategies as st

from app.trial_record.canonical_json import DEEPEST, NotCanonical, canonical_json, parsed_json

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


@pytest.mark.parametrize("value", [1.0, {"a": [1, 2.5]}, {"a": {1, 2}}, b"x", {1: 2}, {True: 1, "a": 2}])
def test_what_has_no_one_form_is_refused(value: object) -> None:
    with pytest.raises(TypeError):
        canonical_json(value)


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b'{"a": 1, "b": 1, "a": 2}', "the key 'a' stands twice"),
        (b'{"a": {"b": 1, "b": 1}}', "the key 'b' stands twice"),
        (b"1.5", "1.5 is a number with decimals"),
        (b"1e5", "1e5 is a number with decimals"),
        (b"NaN", "NaN is a number with decimals"),
        (b"{", "line 1: it is not JSON"),
        (b'{"a": 1,\n "b": 2} x', "line 2: it is not JSON"),
        (b"\xff", "it is not UTF-8"),
        (b'"\\ud800"', "it is not UTF-8"),
        (b'[{"\\udc00": 1}]', "it is not UTF-8"),
        (b"9" * 5000, "a number in it has too many digits"),
        (b"[" * 100_000, "it is nested too deeply"),
        (b"[" * (DEEPEST + 1) + b"]" * (DEEPEST + 1), "it is nested too deeply"),
    ],
)
def test_what_is_none_is_refused_in_words(content: bytes, why: str) -> None:
    with pytest.raises(NotCanonical, match=why):
        parsed_json(content)
    assert parsed_json(b"[" * DEEPEST + b"]" * DEEPEST)


@given(st.binary(max_size=60) | st.text(max_size=60).map(str.encode))
def test_anything_is_read_or_refused_in_words(content: bytes) -> None:
    with contextlib.suppress(NotCanonical):
        found = parsed_json(content)
        assert parsed_json(canonical_json(found)) == found


def test_half_a_letter_is_not_written() -> None:
    with pytest.raises(ValueError, match="surrogates not allowed"):
        canonical_json({"a": "\ud800"})
