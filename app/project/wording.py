"""What validation found wrong, in our own words."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterable
from decimal import Decimal
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from app.project.layout import LAYOUTS
from app.project.model import (
    Action,
    Bit,
    BitSignal,
    Condition,
    EntryKeys,
    Field,
    Follower,
    HeldSignal,
    HeldValue,
    NeverRead,
    Panel,
    Part,
    Project,
    RegisterSignal,
    Scale,
    Screen,
    SerialLine,
    SerialOverTcpLine,
    TcpLine,
    Turn,
)
from app.project.places import at_key, in_words
from app.project.problems import MOST_PROBLEMS, Place, Problem, did_you_mean, one_of, quoted

_TABLES: Final = ("line", "follower", "signal", "screen", "turn", "action", "field")
"""Keys that hold a list of tables: [[signal]]."""

_LINES: Final[dict[str, type[Part]]] = {"serial": SerialLine, "tcp": TcpLine, "serial-over-tcp": SerialOverTcpLine}

_PARTS: Final[dict[tuple[str, ...], tuple[type[Part], str]]] = {
    (): (Project, "a project"),
    ("panel",): (Panel, "a panel"),
    ("panel", "entry"): (EntryKeys, "the entry keys"),
    ("follower",): (Follower, "a follower"),
    ("follower", "never_read"): (NeverRead, "a range that is never read"),
    ("signal", "scale"): (Scale, "a scale"),
    ("signal", "bit"): (Bit, "a bit"),
    ("screen",): (Screen, "a screen"),
    ("screen", "field"): (Field, "a field"),
    ("screen", "field", "blink"): (Condition, "a condition"),
    ("turn",): (Turn, "a turn"),
    ("turn", "when"): (Condition, "a condition"),
    ("action",): (Action, "an action"),
    ("action", "when"): (Condition, "a condition"),
    ("action", "value"): (HeldValue, "a value taken from the panel"),
}

_HINTS: Final = {
    ("panel",): "write [panel] with start = the name of the first screen",
    ("panel", "start"): "name the first screen",
    ("format",): "write 'format = 1' at the top",
    ("line", "kind"): f"write {one_of(_LINES)}",
}
"""What to do where a key is missing."""


def problems_of(error: ValidationError, root: object) -> list[Problem]:
    """The findings of `error` on the tables `root` of a project file."""
    found: dict[Place, Problem] = {}
    for details in error.errors(include_url=False)[:MOST_PROBLEMS]:
        place, branch = _place(details["loc"])
        if place in found and branch:
            continue
        value = at_key_path(root, place)
        if branch and branch != "HeldValue" and isinstance(value, dict) and place[0] == "action":
            continue  # a table was meant to be the other branch
        if branch and not _fits_branch(branch, value):
            found[place] = Problem(in_words(root, place), _either_or(place, value), "", place)
            continue
        problem = _problem(details, root, place)
        # A pair of the wrong length and its missing items would say the same thing twice.
        found.setdefault(problem.place, problem)
    return list(found.values())


def refusal_of(error: ValidationError) -> str:
    """The findings of `error` on one part that was to be edited, as one sentence."""
    return "; ".join(dict.fromkeys(_edit_refusals(error)))


def at_key_path(root: object, place: Place) -> object:
    """What stands at `place`, or None."""
    for step in place:
        root = at_key(root, step)
    return root


def kind_of(value: object) -> str:
    """What a value of a project file is, in words, to stand after "needs a number, not "."""
    kinds: tuple[tuple[type | tuple[type, ...], str], ...] = (
        (bool, "a yes or no"),
        (str, "a text"),
        (int, "a whole number"),
        ((Decimal, float), "a number with decimals"),
        ((list, tuple), "a list"),
        ((dict, Part), "a table"),
        ((datetime.date, datetime.time), "a date or time"),
    )
    return next((words for types, words in kinds if isinstance(value, types)), "nothing")


def _edit_refusals(error: ValidationError) -> Iterable[str]:
    for details in error.errors(include_url=False):
        keys = [step for step in details["loc"] if isinstance(step, str) and step.isidentifier()]
        message, hint = _message(details)
        if details["type"] == "missing":
            message, hint = f"{quoted(str(details['loc'][-1]))} is missing", ""
            keys = keys[:-1]
        yield ": ".join(part for part in (keys[0] if keys else "", message) if part) + (f" ({hint})" if hint else "")


def _place(loc: tuple[int | str, ...]) -> tuple[Place, str]:
    """The place of the file at which pydantic found something, and the branch of a plain union it was trying.

    Its own steps, the names of the branches of unions, are left out.
    """
    place: list[int | str] = []
    steps = iter(loc)
    for step in steps:
        if step == "[key]":
            continue
        place.append(step)
        if len(place) == 2 and place[0] in ("line", "signal"):
            next(steps, None)
        elif len(place) == 3 and (place[0], place[2]) in (("signal", "start_value"), ("action", "value")):
            branch = next(steps, "")
            if branch == "HeldValue":
                place += steps
            return tuple(place), str(branch)
    return tuple(place), ""


def _fits_branch(branch: str, value: object) -> bool:
    """Whether a message about this branch of a union helps who wrote `value`."""
    if branch == "HeldValue":
        return isinstance(value, dict) or value is None or isinstance(value, str)
    return branch.startswith("function") and isinstance(value, int | Decimal) and not isinstance(value, bool)


def _either_or(place: Place, value: object) -> str:
    choice = "a number or a text" if place[-1] == "start_value" else 'a number or { from = "the name of a held value" }'
    return f"needs {choice}, not {kind_of(value)}"


def _problem(details: ErrorDetails, root: object, place: Place) -> Problem:
    if details["type"] == "extra_forbidden":
        return _unknown_key(root, place)
    if details["type"] in ("missing", "union_tag_not_found"):
        return _missing_key(details, root, place)
    message, hint = _message(details)
    if details["type"] == "union_tag_invalid":
        place = (*place, "kind")
    if place and place[-1] in _TABLES and isinstance(details["input"], dict) and "tuple" in details["type"]:
        message, hint = "needs a list of tables", f"write [[{'.'.join(_keys(place))}]] for [{'.'.join(_keys(place))}]"
    return Problem(in_words(root, place), message, hint, place)


def _unknown_key(root: object, place: Place) -> Problem:
    holder, key = place[:-1], str(place[-1])
    model, noun = _part_at(root, holder)
    keys = LAYOUTS[model].keys
    hint = did_you_mean(key, keys) or f"its keys are {', '.join(keys)}"
    return Problem(in_words(root, holder), f"{quoted(key)} is not a key of {noun}", hint, place)


def _missing_key(details: ErrorDetails, root: object, place: Place) -> Problem:
    if details["type"] == "union_tag_not_found":
        place = (*place, "kind")
    if isinstance(place[-1], int):  # an item of a pair
        pair = place[:-1]
        given = at_key_path(root, pair)
        length = len(given) if isinstance(given, list | tuple) else 0
        return Problem(in_words(root, pair), f"needs 2 numbers, not {length}", "", pair)
    hint = _HINTS.get(_keys(place), "")
    return Problem(in_words(root, place[:-1]), f"{quoted(place[-1])} is missing", hint, place)


def _keys(place: Place) -> tuple[str, ...]:
    return tuple(step for step in place if isinstance(step, str))


def _part_at(root: object, place: Place) -> tuple[type[Part], str]:
    """The model of the table at `place`, and what one such thing is called."""
    keys = _keys(place)
    table = at_key_path(root, place)
    if keys == ("line",):
        kind = str(at_key(table, "kind"))
        return _LINES[kind], f"a line of kind {quoted(kind)}"
    if keys == ("signal",):
        if at_key(table, "bit") is not None:
            return BitSignal, "a bit signal"
        if at_key(table, "held") is not None:
            return HeldSignal, "a held value"
        return RegisterSignal, "a signal"
    return _PARTS[keys]


def _message(details: ErrorDetails) -> tuple[str, str]:
    """The message and hint for one finding of pydantic."""
    context: dict[str, Any] = details.get("ctx", {})
    words = _WORDS.get(details["type"])
    if words is not None:
        return words(context, details["input"])
    # A kind of finding that no model makes today: its own words are better than none.
    return details["msg"][:1].lower() + details["msg"][1:], ""


def _needs(what: str) -> Callable[[dict[str, Any], object], tuple[str, str]]:
    return lambda _, value: (f"needs {what}, not {kind_of(value)}", "")


def _bound(words: str, key: str) -> Callable[[dict[str, Any], object], tuple[str, str]]:
    return lambda context, value: (f"needs {words} {context[key]}, not {_short(value)}", "")


def _says(message: str) -> Callable[[dict[str, Any], object], tuple[str, str]]:
    return lambda *_: (message, "")


def _choice(context: dict[str, Any], value: object) -> tuple[str, str]:
    given = value.get("kind") if isinstance(value, dict) else value  # of a line, the table as a whole is refused
    expected = str(context.get("expected") or context.get("expected_tags"))
    choices = re.findall(r"'([^']*)'", expected)
    said = quoted(given) if isinstance(given, str) else _short(given) if type(given) is int else kind_of(given)
    hint = did_you_mean(given, choices) if isinstance(given, str) else ""
    return f"needs {one_of(choices) if choices else expected}, not {said}", hint


def _pattern(context: dict[str, Any], value: object) -> tuple[str, str]:
    if "[0-9]" in str(context["pattern"]):
        return f"{quoted(str(value))} is not a whole number", 'texts belong to whole numbers: { 0 = "stopped" }'
    return "has a blank at an end or a control character", "take it out"


def _too_long(context: dict[str, Any], value: object) -> tuple[str, str]:
    length = f", not {len(value)}" if isinstance(value, list | tuple | str | dict) else ""
    return f"holds at most {context['max_length']}{length}", ""


def _short(value: object) -> str:
    text = f"{value:f}" if isinstance(value, Decimal) and abs(value.adjusted()) < 40 else ""
    if isinstance(value, int) and abs(value) < 10**40:
        text = str(value)
    return text if text and len(text) <= 40 else "a number of that size"


_WORDS: Final[dict[str, Callable[[dict[str, Any], Any], tuple[str, str]]]] = {
    "int_type": _needs("a whole number"),
    "is_instance_of": _needs("a number"),
    "decimal_type": _needs("a number"),
    "string_type": _needs("a text"),
    "string_unicode": _says("holds half of a character pair, which no file can hold"),
    "bool_type": _needs("true or false"),
    "tuple_type": _needs("a list"),
    "dict_type": _needs("a table"),
    "model_type": _needs("a table"),
    "model_attributes_type": _needs("a table"),
    "greater_than": _bound("a number above", "gt"),
    "greater_than_equal": _bound("at least", "ge"),
    "less_than_equal": _bound("at most", "le"),
    "literal_error": _choice,
    "union_tag_invalid": _choice,
    "string_pattern_mismatch": _pattern,
    "string_too_short": _says("is empty"),
    "string_too_long": lambda context, value: (
        f"has {len(value)} characters; at most {context['max_length']} are allowed",
        "",
    ),
    "too_long": _too_long,
    "decimal_max_digits": lambda context, _: (f"has more than {context['max_digits']} digits", ""),
    "decimal_whole_digits": lambda context, _: (f"has more than {context['whole_digits']} digits", ""),
    "finite_number": _says("needs a finite number"),
    "value_error": lambda context, _: (str(context["error"]), ""),
}
