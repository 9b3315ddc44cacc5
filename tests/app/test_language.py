"""Texts of the program go through whatever translator is set."""

from collections.abc import Iterator

import pytest

from app.language import decimal_mark, mark, speak, translate, with_mark


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    yield
    speak(None)


def test_without_a_translator_a_text_is_itself() -> None:
    assert translate("checks", "the key {key}") == "the key {key}"


def test_the_translator_is_asked_with_context_and_text() -> None:
    speak(lambda context, text: f"{context}/{text[::-1]}")
    assert translate("checks", "key") == "checks/yek"
    speak(None)
    assert translate("checks", "key") == "key"


def test_a_marked_text_is_translated_only_when_it_is_used() -> None:
    speak(lambda context, text: text.upper())
    marked = mark("faults", "silence")
    assert (marked, translate("faults", marked)) == ("silence", "SILENCE")


def test_numbers_are_written_with_the_mark_of_the_language() -> None:
    assert (decimal_mark(), with_mark("41.65")) == (".", "41.65")
    speak(None, ",")
    assert (decimal_mark(), with_mark("41.65"), with_mark("7")) == (",", "41,65", "7")
