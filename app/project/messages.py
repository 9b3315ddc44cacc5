"""The few messages that a panel shows of its own accord: which there are, and words for them.

A project says them in its own words, in every language of its panel (`panel.messages`, `panel.messages_in`). What it
leaves out is said in English. For languages that are known here there are words ready to be taken into a project, each
also in a form that a row of 16 cells has room for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from textwrap import wrap
from types import MappingProxyType
from typing import Final, Literal, get_args

from app.project.model import Panel, PanelMessage
from app.signals.repertoire import spelled

MESSAGES: Final[tuple[PanelMessage, ...]] = get_args(PanelMessage)
"""Every message, in the order in which people are shown them."""

PLACEHOLDERS: Final[Mapping[PanelMessage, str]] = MappingProxyType(
    {"at_most": "{limit}", "at_least": "{limit}", "kept": "{value}", "still_on": "{screen}"}
)
"""What is put into a message where it stands in its words: a limit, a value with its unit, the name of a screen."""

Known = Literal["en", "de"]
"""A language that words are ready in, by its ISO 639 code."""

_Forms = Mapping[PanelMessage, tuple[str, ...]]

READY: Final[Mapping[Known, _Forms]] = MappingProxyType(
    {
        "en": {
            "at_most": ("at most {limit}", "max {limit}"),
            "at_least": ("at least {limit}", "min {limit}"),
            "no_room": ("no room for more digits", "no more digits"),
            "read_only": ("this cannot be changed", "read only"),
            "nothing_to_enter": ("nothing to enter here", "nothing to enter"),
            "no_value": ("no value has been read", "no value"),
            "not_possible": ("not possible",),
            "still_on": ("still active: {screen}", "still active"),
            "writing_off": ("not written: writing is off", "writing is off"),
            "no_connection": ("not written: no connection", "no connection"),
            "no_answer": ("not written: no answer", "no answer"),
            "refused": ("not written: the device refuses it", "device refuses"),
            "kept": ("the device keeps {value}", "stays {value}", "not accepted"),
            "not_confirmed": ("not confirmed, check the value", "not confirmed"),
            "not_written": ("not written",),
        },
        "de": {
            "at_most": ("höchstens {limit}", "max. {limit}", "max {limit}"),
            "at_least": ("mindestens {limit}", "min. {limit}", "min {limit}"),
            "no_room": ("kein Platz für mehr Stellen", "mehr geht nicht"),
            "read_only": ("nicht änderbar",),
            "nothing_to_enter": ("hier ist nichts einzugeben", "keine Eingabe"),
            "no_value": ("kein gelesener Wert", "kein Wert"),
            "not_possible": ("nicht möglich",),
            "still_on": ("steht noch an: {screen}", "steht noch an"),
            "writing_off": ("nicht geschrieben: Schreiben ist aus", "Schreiben aus"),
            "no_connection": ("nicht geschrieben: keine Verbindung", "keine Verbindung"),
            "no_answer": ("nicht geschrieben: keine Antwort", "keine Antwort"),
            "refused": ("nicht geschrieben: Gerät lehnt ab", "Gerät lehnt ab"),
            "kept": ("das Gerät bleibt bei {value}", "bleibt {value}", "anderer Wert"),
            "not_confirmed": ("nicht bestätigt, Wert prüfen", "nicht bestätigt"),
            "not_written": ("nicht geschrieben", "nicht geschr."),
        },
    }
)
"""Words for every message, the longest first and the shortest last."""

_NAMES: Final[Mapping[Known, frozenset[str]]] = MappingProxyType(
    {
        "en": frozenset({"english", "englisch", "anglais", "en", "eng", "gb", "uk", "us"}),
        "de": frozenset({"german", "deutsch", "allemand", "de", "deu", "ger", "d"}),
    }
)


def known_language(name: str) -> Known | None:
    """The language that a project calls `name`, if words are ready in it: "Deutsch", "German" or "de" are German."""
    return next((known for known, names in _NAMES.items() if name.strip().casefold() in names), None)


def message_rows(panel: Panel) -> int:
    """So many rows a message has room for, wherever the value under change stands, which it never covers."""
    return max(1, panel.rows // 2)


def in_rows(text: str, columns: int) -> list[str]:
    """A message broken into rows, between words where that is possible."""
    return wrap(text, columns)


def fits(panel: Panel, text: str) -> bool:
    """Whether the panel shows the whole message, in the letters that it has."""
    return len(in_rows(spelled(panel.repertoire, text), panel.columns)) <= message_rows(panel)


def fill_in(message: PanelMessage, words: str, value: str) -> str:
    """The words of a message with `value` in its place. Other braces stay as they are."""
    placeholder = PLACEHOLDERS.get(message)
    return words if placeholder is None else words.replace(placeholder, value)


def chosen_form(panel: Panel, known: Known, message: PanelMessage, value: str = "") -> str:
    """The longest of the words ready in a language that the panel has room for with `value`; else the shortest."""
    forms = READY[known][message]
    return next((form for form in forms if fits(panel, fill_in(message, form, value))), forms[-1])


def ready_words(panel: Panel, known: Known, widest: Mapping[PanelMessage, str]) -> dict[PanelMessage, str]:
    """Words for every message in letters that the panel has.

    `widest` holds the longest of the values that can come into a message; so there is room for all of them.
    """
    return {
        message: spelled(panel.repertoire, chosen_form(panel, known, message, widest.get(message, "")))
        for message in MESSAGES
    }


def words_in(panel: Panel, number: int) -> Mapping[PanelMessage, str]:
    """What the project itself says in a language, its index among the panel's; nothing of what it leaves out."""
    if not 0 < number < len(panel.languages):
        return panel.messages
    return panel.messages_in.get(panel.languages[number], {})


def unsaid(panel: Panel, number: int) -> Iterator[PanelMessage]:
    """The messages that a language of the panel leaves out, so that they are shown in another language.

    Not those that are shown in English where English is what the language is. Of a panel whose one language has no name
    nobody knows which it is.
    """
    if not panel.languages:
        return
    english = known_language(panel.languages[number]) == "en"
    said = words_in(panel, number)
    for message in MESSAGES:
        if message not in said and not (english and message not in panel.messages):
            yield message
