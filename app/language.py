"""The language that the program speaks to people: English, or whatever a translator set from outside makes of it.

Texts in `app` are English templates: `translate("checks", "the key {key} goes nowhere").format(key=...)`. The context
names the room, so that one word can be translated differently in two. The window puts Qt's translator in here; the
command line leaves it out, since scripts read what it says. Texts that are made while a module is imported are
wrapped in `mark`, which only makes them findable, and translated where they are used.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

Translator = Callable[[str, str], str]
"""From a context and an English template to the template in the language that is spoken."""


def _english(context: str, text: str) -> str:  # noqa: ARG001
    return text


DecimalMark = Literal[".", ","]

_translator: Translator = _english
_decimal_mark: DecimalMark = "."


def speak(translator: Translator | None, decimal_mark: DecimalMark = ".") -> None:
    """Translate with `translator` and write numbers with this mark from now on; None speaks English again."""
    global _translator, _decimal_mark
    _translator, _decimal_mark = translator or _english, decimal_mark


def decimal_mark() -> DecimalMark:
    """What stands before the decimals of numbers that people read and type; in files it is always the point."""
    return _decimal_mark


def with_mark(number: str) -> str:
    """A number with a decimal point, as people read it in the language that is spoken."""
    return number if _decimal_mark == "." else number.replace(".", _decimal_mark)


def current_translator() -> Translator:
    """Whatever translates now: who keeps texts that are made, keeps this with them and makes them anew for another."""
    return _translator


def translate(context: str, text: str) -> str:
    """`text` in the language that is spoken; itself if it has no translation."""
    return _translator(context, text)


class Template(str):
    """A text that is translated later, in its context."""

    __slots__ = ("context",)
    context: str

    def translated(self) -> str:
        """The text in the language that is spoken; itself if it has no translation."""
        return _translator(self.context, self)


def mark(context: str, text: str) -> Template:
    """`text` itself, which is translated later and found by the collector of texts already here."""
    template = Template(text)
    template.context = context
    return template
