"""Rules about what the panel says of its own accord: in which language, in which letters, and whether it has room."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from app.checks import fixes
from app.checks.context import CheckContext
from app.checks.finding import Fix, Violation
from app.checks.rule import whole
from app.checks.screens import instead_of, name_characters, respelled
from app.language import mark, translate
from app.panel.messages import widest
from app.project.messages import (
    MESSAGES,
    PLACEHOLDERS,
    Known,
    chosen_form,
    fill_in,
    fits,
    in_rows,
    known_language,
    message_rows,
    unsaid,
    words_in,
)
from app.project.model import Panel, PanelMessage
from app.project.problems import Place, quoted
from app.signals.repertoire import missing, spelled

FILL_IN: Final[dict[Known, str]] = {
    "en": mark("checks", "Fill in the English messages"),
    "de": mark("checks", "Fill in the German messages"),
}
"""What is offered where words are ready in the language of the panel."""


@whole("panel", name="translation-missing")
def translation_of_messages_missing(context: CheckContext) -> Iterator[Violation]:
    """Messages of the panel that one of its languages leaves out: the operator reads them in another one."""
    panel = context.panel
    for number, language in enumerate(panel.languages):
        lacking = list(unsaid(panel, number))
        if not lacking:
            continue
        if len(lacking) == len(MESSAGES):
            message = translate("checks", "the panel's own messages are not written in {language}").format(
                language=quoted(language)
            )
        else:
            words = panel.messages.get(lacking[0]) or chosen_form(panel, "en", lacking[0])
            message = translate("checks", "{count} of the panel's own messages are not in {language}: {text}").format(
                count=len(lacking), language=quoted(language), text=quoted(words)
            )
        known = known_language(language)
        yield Violation(
            "warning",
            _place(panel, number),
            message,
            translate("checks", "write the messages of the panel in that language too"),
            None if known is None else Fix(translate("checks", FILL_IN[known]), fixes.fill_messages, (number, known)),
        )


@whole("panel", "signals", "followers", "screen_changes", "actions", "entered_names", name="message-too-long")
def message_too_long(context: CheckContext) -> Iterator[Violation]:
    """A message of the panel without room for all of its words, with the longest value that can stand in it."""
    panel = context.panel
    values: dict[PanelMessage, str] | None = None
    for number, message, words in _own_messages(panel):
        value = ""
        if PLACEHOLDERS.get(message, "\0") in words:
            values = widest(context.project, context.entered_names) if values is None else values
            value = values[message]
        text = fill_in(message, words, value)
        if fits(panel, text):
            continue
        yield Violation(
            "warning",
            (*_place(panel, number), message),
            translate(
                "checks", "{text} needs {rows} rows of {columns} cells, but only {room} are guaranteed for a message"
            ).format(
                text=quoted(text),
                rows=len(in_rows(spelled(panel.repertoire, text), panel.columns)),
                columns=panel.columns,
                room=message_rows(panel),
            ),
            translate("checks", "shorten it"),
            _shorter(panel, number, message, value),
        )


def _shorter(panel: Panel, number: int, message: PanelMessage, value: str) -> Fix | None:
    """The words that are ready in the language, if the panel has room for these."""
    known = known_language(panel.languages[number]) if panel.languages else None
    if known is None:
        return None
    words = spelled(panel.repertoire, chosen_form(panel, known, message, value))
    if not fits(panel, fill_in(message, words, value)):
        return None
    return Fix(translate("checks", "Write {text}").format(text=quoted(words)), fixes.set_here, (words,))


@whole("panel", name="message-character")
def message_character(context: CheckContext) -> Iterator[Violation]:
    """A character in a message that the panel's repertoire lacks: another spelling, or '?', is shown in its place."""
    panel = context.panel
    for number, message, words in _own_messages(panel):
        lacking = missing(panel.repertoire, words)
        if not lacking:
            continue
        shown = spelled(panel.repertoire, words)
        other = shown if shown.count("?") == words.count("?") else respelled(panel.repertoire, words)
        yield Violation(
            "warning",
            (*_place(panel, number), message),
            translate(
                "checks",
                "{text} contains {characters}, missing in the panel's character set {repertoire}; it shows {shown}",
            ).format(
                text=quoted(words),
                characters=name_characters(lacking),
                repertoire=quoted(panel.repertoire),
                shown=quoted(shown),
            ),
            instead_of(lacking),
            None
            if other is None
            else Fix(translate("checks", "Write {text}").format(text=quoted(other)), fixes.set_here, (other,)),
        )


@whole("panel", name="message-value")
def message_value(context: CheckContext) -> Iterator[Violation]:
    """A place for a value in a message that has no such value: the operator would read the braces."""
    panel = context.panel
    for number, message, words in _own_messages(panel):
        own = PLACEHOLDERS.get(message)
        for strange in dict.fromkeys(re.findall(r"\{\w*\}", words)):
            if strange == own:
                continue
            hint = (
                translate("checks", "remove it; this message has no value")
                if own is None
                else translate("checks", "write {place} where the value belongs").format(place=own)
            )
            yield Violation(
                "warning",
                (*_place(panel, number), message),
                translate("checks", "{place} in {text} is not replaced by a value").format(
                    place=strange, text=quoted(words)
                ),
                hint,
            )


def _own_messages(panel: Panel) -> Iterator[tuple[int, PanelMessage, str]]:
    """What the project itself says, in every language: its number, the message, its words."""
    for number in range(max(1, len(panel.languages))):
        for message, words in words_in(panel, number).items():
            yield number, message, words


def _place(panel: Panel, number: int) -> Place:
    return ("panel", "messages") if number == 0 else ("panel", "messages_in", panel.languages[number])
