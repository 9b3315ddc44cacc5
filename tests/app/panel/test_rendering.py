"""What the panel shows: cells, looks, dashes, messages."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import pytest

from app.panel.machine import MESSAGE_S, WriteFailed
from app.panel.rendering import Attribute, message_alone
from app.project.messages import message_rows
from app.project.model import Panel
from app.signals.reading import Quality
from tests.app.panel.operating import Operator, project, register


def panel(
    *fields: dict[str, Any], text: list[str] | None = None, blink: Sequence[dict[str, Any]] = (), **panel_keys: Any
) -> Operator:
    return Operator(
        project(
            panel=panel_keys,
            signal=[
                register("speed", 310, encoding="int16", scale={"raw": [0, 10], "value": [0, 1]}, decimals=1),
                register("mode", 311, texts={"0": "off", "1": "très vite"}),
                register("tag", 312, encoding="string", length=4),
                {"name": "on", "bit": {"of": "mode", "number": 0}},
            ],
            screen=[{"name": "run", "text": text or [], "blink": list(blink), "field": list(fields)}],
        )
    )


def field(at: tuple[int, int], width: int, signal: str, **more: Any) -> dict[str, Any]:
    return {"at": list(at), "width": width, "signal": signal, **more}


def test_texts_are_filled_up_and_cut_to_the_panel() -> None:
    operator = panel(text=["Speed", "a line that is longer than the panel", "one row too many"])
    assert operator.texts == ["Speed           ", "a line that is l"]
    assert all(len(row.attributes) == 16 for row in operator.rows)


def test_characters_that_the_panel_lacks_show_as_question_marks() -> None:
    shown = panel(text=["für 5 °C", "tab\there"])
    assert shown.texts == ["f?r 5 ?C        ", "tab?here        "]
    assert panel(text=["für 5 °C"], repertoire="latin-1").texts[0] == "für 5 °C        "


def test_a_number_stands_at_the_right_of_its_field() -> None:
    operator = panel(field((0, 4), 6, "speed"), text=["abcdefghijklmnop"])
    operator.read("speed", Fraction("-41.65"))
    assert operator.texts[0] == "abcd -41.7klmnop"


def test_a_number_that_does_not_fit_is_never_cut() -> None:
    operator = panel(field((0, 0), 3, "speed"), field((1, 14), 6, "speed"), field((1, -2), 6, "speed"))
    operator.read("speed", Fraction("12.5"))
    assert operator.texts == ["###             ", "####          ##"]


def test_a_field_off_the_panel_shows_nothing() -> None:
    operator = panel(field((2, 0), 4, "speed"), field((0, 16), 4, "speed"), field((-1, 0), 4, "speed"))
    operator.read("speed", 1)
    assert operator.texts == [" " * 16] * 2


def test_of_overlapping_fields_the_later_one_is_seen() -> None:
    operator = panel(field((0, 0), 6, "speed"), field((0, 4), 3, "mode", kind="choice"))
    operator.read("speed", Fraction("12.5"))
    operator.read("mode", 0)
    assert operator.texts[0] == "  12off         "


@pytest.mark.parametrize("quality", [Quality.NONE, Quality.REFUSED, Quality.IMPLAUSIBLE])
@pytest.mark.parametrize("kind", ["number", "hexadecimal", "choice", "bar"])
def test_a_value_that_may_not_be_shown_is_dashes(quality: Quality, kind: str) -> None:
    operator = panel(field((0, 2), 5, "speed", kind=kind, range=[0, 50]))
    operator.read("speed", 25, quality, "why")
    assert operator.texts[0] == "  -----         "
    assert operator.looks(Attribute.STALE)[0] == "." * 16


def test_a_signal_that_does_not_exist_is_dashes() -> None:
    assert panel(field((0, 2), 5, "gone")).texts[0] == "  -----         "


def test_a_stale_value_has_the_stale_look() -> None:
    operator = panel(field((0, 2), 5, "speed"), field((1, 0), 3, "on", kind="choice"))
    operator.read("speed", 25)
    operator.read("mode", 1)
    assert operator.looks(Attribute.STALE) == ["." * 16] * 2
    operator.lose("speed")
    operator.lose("mode")
    assert operator.looks(Attribute.STALE) == [".. 25.0.........", "1  ............."]


def test_a_choice_shows_its_text_and_a_string_signal_its_own() -> None:
    operator = panel(field((0, 0), 10, "mode", kind="choice"), field((1, 0), 8, "tag"))
    operator.read("mode", 1)
    operator.read("tag", "P-101")
    assert operator.texts == ["tr?s vite       ", "P-101           "]


@pytest.mark.parametrize(
    ("value", "shown"),
    [("0", "        "), ("25", "====    "), ("50", "========"), ("51", "=======>"), ("-1", "<       ")],
)
def test_a_bar(value: str, shown: str) -> None:
    operator = panel(field((0, 4), 8, "speed", kind="bar", range=[0, 50]))
    operator.read("speed", Fraction(value))
    assert operator.texts[0] == f"    {shown}    "


def test_a_field_blinks_while_its_condition_holds_on_good_readings() -> None:
    operator = panel(field((0, 2), 5, "speed", blink={"signal": "on"}))
    operator.read("speed", 25)
    assert operator.looks(Attribute.BLINK)[0] == "." * 16
    operator.read("mode", 1)
    assert operator.looks(Attribute.BLINK)[0] == ".. 25.0........."
    operator.lose("mode")
    assert operator.looks(Attribute.BLINK)[0] == "." * 16


def test_text_and_values_blink_together_but_not_the_value_under_change() -> None:
    on = {"when": {"signal": "on"}}
    operator = panel(
        field((0, 2), 5, "speed", entry=True),
        text=["A", "STOPPED"],
        blink=[{"at": [0, 0], "width": 9, **on}, {"at": [1, 12], "width": 9, **on}, {"at": [7, 0], "width": 1, **on}],
    )
    operator.read("speed", 25)
    assert operator.looks(Attribute.BLINK) == ["." * 16] * 2
    operator.read("mode", 1)
    assert operator.looks(Attribute.BLINK) == ["A  25.0  .......", "............    "]
    operator.press("enter")
    assert operator.looks(Attribute.BLINK)[0] == "A ....0  ......."  # the cursor only
    whole = panel(text=["A"], blink=[on])
    whole.read("mode", 1)
    assert whole.looks(Attribute.BLINK) == [row.text for row in whole.rows]


def test_the_value_under_change_is_inverse_and_not_the_reading() -> None:
    operator = panel(field((0, 2), 6, "speed", entry=True))
    operator.read("speed", 25)
    operator.press("enter", "up")
    operator.read("speed", 99)
    assert operator.looks(Attribute.INVERSE)[0] == "..  25.1........"


def test_by_step_the_last_character_under_change_blinks_and_of_a_field_that_is_only_chosen_none_does() -> None:
    operator = panel(field((0, 2), 6, "speed", entry=True), field((1, 0), 6, "mode", entry=True))
    operator.read("speed", 25)
    operator.press("enter")
    assert operator.looks(Attribute.INVERSE)[0] == "..  25.0........"
    assert operator.looks(Attribute.BLINK)[0] == "." * 16
    operator.press("enter", "up")
    assert operator.looks(Attribute.INVERSE)[0] == "..  25.1........"
    assert operator.looks(Attribute.BLINK)[0] == ".......1........"
    operator.press("enter")
    assert operator.looks(Attribute.BLINK)[0] == "." * 16, "the value is taken, a field is chosen again"


def failed(operator: Operator) -> None:
    operator.feed(WriteFailed("speed", "no answer", operator.at))


def test_a_message_lies_over_the_last_row_in_characters_of_the_panel() -> None:
    operator = panel(text=["first", "last"], messages={"not_written": "nothing: \u03a9"})
    failed(operator)
    assert operator.texts == ["first           ", "nothing: ?      "]
    assert operator.looks(Attribute.INVERSE) == ["." * 16, "nothing: ?      "]
    operator = panel(text=["first", "last"], messages={"not_written": "\xfcbernommen: nein"})
    failed(operator)
    assert operator.texts[1] == "uebernommen: nei"


def test_a_message_that_is_over_is_not_drawn_even_before_the_next_tick() -> None:
    operator = panel(text=["first", "last"])
    failed(operator)
    operator.at += MESSAGE_S
    assert operator.texts[1] == "last            "


LONG = "not written: line 'pump room' is not armed"


def test_a_message_does_not_hide_the_value_under_change() -> None:
    operator = panel(field((1, 2), 6, "speed", entry=True), text=["first"], messages={"not_written": LONG})
    operator.read("speed", 25)
    operator.press("enter")
    failed(operator)
    assert operator.texts == ["not written: lin", "    25.0        "]


def test_a_long_message_takes_as_many_rows_as_its_words_need() -> None:
    operator = panel(text=["one", "two", "three", "four"], rows=4, messages={"not_written": LONG})
    failed(operator)
    assert operator.texts == ["one             ", "not written:    ", "line 'pump room'", "is not armed    "]
    operator = panel(text=["one", "two", "three", "four"], rows=4, messages={"not_written": "word " * 30})
    failed(operator)
    assert operator.texts[0] == "one             "


@pytest.mark.parametrize("words", ["no", "\xfcbernommen: nein", LONG, "word " * 30])
@pytest.mark.parametrize("rows", [1, 2, 4])
def test_a_message_alone_is_as_a_panel_shows_it_while_no_value_is_under_change(words: str, rows: int) -> None:
    operator = panel(rows=rows, messages={"not_written": words})
    failed(operator)
    alone = message_alone(operator.project.panel, words)
    assert [row.text for row in alone] == operator.texts[-len(alone) :]
    assert [text for text in operator.looks(Attribute.INVERSE) if text.strip(".")] == [row.text for row in alone]


def test_a_message_without_words_is_a_row_without_them() -> None:
    (row,) = message_alone(Panel(columns=3, start="run"), "")
    assert row.text == "   "


def test_a_long_message_leaves_the_value_under_change_free() -> None:
    operator = panel(field((2, 2), 6, "speed", entry=True), rows=4, messages={"not_written": LONG})
    operator.read("speed", 25)
    operator.press("enter")
    failed(operator)
    assert operator.texts == ["not written:    ", "line 'pump room'", "    25.0        ", " " * 16]


@pytest.mark.parametrize("rows", range(1, 17))
def test_a_message_of_as_many_rows_as_it_may_have_is_shown_whole_beside_any_value_under_change(rows: int) -> None:
    words = [f"word{number:02}" for number in range(message_rows(Panel(rows=rows, start="run")))]
    for row in range(rows):
        operator = panel(
            field((row, 2), 6, "speed", entry=True), rows=rows, columns=8, messages={"not_written": " ".join(words)}
        )
        operator.read("speed", 25)
        operator.press("enter")
        failed(operator)
        assert [text.strip() for text in operator.texts if "word" in text] == words
        assert rows == 1 or operator.texts[row] == "    25.0"


def test_a_panel_of_one_row_and_one_column() -> None:
    operator = panel(field((0, 0), 1, "mode"), rows=1, columns=1)
    operator.read("mode", 7)
    assert operator.texts == ["7"]
    failed(operator)
    assert operator.texts == ["n"]
