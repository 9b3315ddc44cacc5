"""Every rule that a project can hold reads as a sentence, and each of its words can be changed."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

import pytest

from app.project.model import Action, Condition, HeldValue, Project, ScreenChange
from widgets.design.behaviour.sentences import (
    Word,
    choices,
    sentence,
    sentence_text,
    text_of,
    with_word,
    word_names,
    word_value,
)
from widgets.document.unfinished import BehaviourRule, lacking

ON = Condition.model_validate({"signal": "running", "is": "set"})
HIGH = Condition.model_validate({"signal": "frequency", "is": "above", "value": Decimal("41.65")})
SENTENCES: Final[dict[str, BehaviourRule]] = {
    "Key RIGHT shows screen measured": ScreenChange(key="right", to="measured", from_="run"),
    "Key RIGHT shows the next screen": ScreenChange(key="right", to="next"),
    "While running is set show screen fault": ScreenChange(when=ON, to="fault"),
    "While frequency is above 41.65 Hz show screen fault": ScreenChange(when=HIGH, to="fault"),
    "After 90 s without a key show screen run": ScreenChange(idle_s=90, to="run"),
    "Key START sets run command": Action(key="start", do="set", signal="run command"),
    "Key STOP clears run command": Action(key="stop", do="clear", signal="run command"),
    "Key STOP clears run command, sent once": Action(key="stop", do="clear", signal="run command", stops=False),
    "Key F1 toggles run command": Action(key="f1", do="toggle", signal="run command"),
    "Key F1 writes 30 Hz to speed set point": Action(key="f1", do="write", signal="speed set point", value=Decimal(30)),
    "Key F1 writes 0 Hz to speed set point, repeated until confirmed": Action(
        key="f1", do="write", signal="speed set point", value=Decimal(0), stops=True
    ),
    "Key F1 writes the value of filling ramp to ramp up": Action(
        key="f1", do="write", signal="ramp up", value=HeldValue(from_="filling ramp")
    ),
    "Key RESET sets fault reset while it is held": Action(key="reset", do="momentary", signal="fault reset"),
    "Key ENTER edits speed set point": Action(key="enter", do="begin-entry", signal="speed set point"),
    "Key ENTER edits the first entry field": Action(key="enter", do="begin-entry"),
    "Key F1 switches to the next language": Action(key="f1", do="next-language"),
    "When running becomes set clear run command": Action(when=ON, do="clear", signal="run command"),
    "When frequency rises above 41.65 Hz write 30 Hz to speed set point": Action(
        when=HIGH, do="write", signal="speed set point", value=Decimal(30)
    ),
}
"""All forms that `app.project.model` allows, as a technician says them."""


@pytest.mark.parametrize("text", SENTENCES)
def test_a_rule_reads_as_a_sentence(pump: Project, text: str) -> None:
    assert sentence_text(pump, SENTENCES[text]) == text


def test_what_the_choice_of_a_deed_says_is_not_said_again_where_it_is_edited(pump: Project) -> None:
    for text in ("Key RESET sets fault reset while it is held", "Key F1 switches to the next language"):
        pieces = sentence(pump, SENTENCES[text], whole=True)
        assert not [piece for piece in pieces if isinstance(piece, str) and ("held" in piece or "language" in piece)]


def all_words(project: Project) -> Iterator[tuple[BehaviourRule, Word]]:
    for rule in SENTENCES.values():
        for piece in sentence(project, rule, whole=True):
            if isinstance(piece, Word):
                yield rule, piece


def test_every_word_has_a_name_and_can_stay_as_it_is(pump: Project) -> None:
    for rule, word in all_words(pump):
        assert word_names()[word.slot]
        assert not word.empty
        offered = choices(pump, rule, word.slot)
        assert offered is None or word.value in [value for value, _ in offered], (rule, word)
        assert with_word(pump, rule, word.slot, word.value).model_dump() == rule.model_dump()


def test_every_choice_makes_what_it_says(pump: Project) -> None:
    """Whatever is chosen stands there then; and what is complete by that can be read into a project."""
    for rule, word in all_words(pump):
        for value, _ in choices(pump, rule, word.slot) or ():
            wanted = with_word(pump, rule, word.slot, value)
            assert word_value(wanted, word.slot) == value, (rule, word, value)
            assert text_of(sentence(pump, wanted))
            if not lacking(wanted):
                made = type(wanted).model_validate(wanted.model_dump(by_alias=True, exclude_none=True))
                assert word_value(made, word.slot) == value


def test_a_number_that_cannot_be_meant_is_refused_in_words(pump: Project) -> None:
    for slot, text in (("idle", "0"), ("idle", "86401"), ("idle", "soon"), ("value", "1,5,2"), ("number", "")):
        with pytest.raises(ValueError, match=r"\w+ \w+"):
            with_word(pump, SENTENCES["After 90 s without a key show screen run"], slot, text)
