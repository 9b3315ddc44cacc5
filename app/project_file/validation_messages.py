"""What validation found wrong, in our own words."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterable
from decimal import Decimal
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from app.language import mark, translate
from app.project.model import (
    Accepted,
    Action,
    Bit,
    BitSignal,
    Blinking,
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
    ScreenChange,
    SerialLine,
    SerialOverTcpLine,
    Simulated,
    TcpLine,
)
from app.project.paths import at_key, in_words
from app.project.problems import MOST_PROBLEMS, Place, Problem, did_you_mean, one_of, quoted
from app.project_file.layout import LAYOUTS

_TABLES: Final = ("line", "follower", "signal", "screen", "screen_change", "action", "field", "accepted")
"""Keys that hold a list of tables: [[signal]]."""

_LINES: Final[dict[str, type[Part]]] = {"serial": SerialLine, "tcp": TcpLine, "serial-over-tcp": SerialOverTcpLine}

_PARTS: Final[dict[tuple[str, ...], tuple[type[Part], str]]] = {
    (): (Project, mark("parts", "a project")),
    ("panel",): (Panel, mark("parts", "a panel")),
    ("panel", "entry"): (EntryKeys, mark("parts", "the entry keys")),
    ("follower",): (Follower, mark("parts", "a device")),
    ("follower", "simulate"): (Simulated, mark("parts", "the simulation of a device")),
    ("follower", "never_read"): (NeverRead, mark("parts", "a range that is never read")),
    ("signal", "scale"): (Scale, mark("parts", "a scale")),
    ("signal", "bit"): (Bit, mark("parts", "a bit")),
    ("screen",): (Screen, mark("parts", "a screen")),
    ("screen", "blink"): (Blinking, mark("parts", "a blinking part")),
    ("screen", "blink", "when"): (Condition, mark("parts", "a condition")),
    ("screen", "field"): (Field, mark("parts", "a field")),
    ("screen", "field", "blink"): (Condition, mark("parts", "a condition")),
    ("screen_change",): (ScreenChange, mark("parts", "a screen change")),
    ("screen_change", "when"): (Condition, mark("parts", "a condition")),
    ("action",): (Action, mark("parts", "an action")),
    ("action", "when"): (Condition, mark("parts", "a condition")),
    ("action", "value"): (HeldValue, mark("parts", "a held value reference")),
    ("accepted",): (Accepted, mark("parts", "an accepted finding")),
}

_HINTS: Final = {
    ("panel",): mark("project", "add [panel] with start = the name of the first screen"),
    ("panel", "start"): mark("project", "enter the first screen"),
    ("format",): mark("project", "write 'format = 2' at the top"),
    ("line", "kind"): mark("project", "write {kinds}"),
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
        (bool, translate("project", "true or false")),
        (str, translate("project", "a text")),
        (int, translate("project", "a whole number")),
        ((Decimal, float), translate("project", "a number with decimals")),
        ((list, tuple), translate("project", "a list")),
        ((dict, Part), translate("project", "a table")),
        ((datetime.date, datetime.time), translate("project", "a date or time")),
    )
    return next((words for types, words in kinds if isinstance(value, types)), translate("project", "nothing"))


def _edit_refusals(error: ValidationError) -> Iterable[str]:
    for details in error.errors(include_url=False):
        keys = [step for step in details["loc"] if isinstance(step, str) and step.isidentifier()]
        message, hint = message_of(details)
        if details["type"] == "missing":
            message, hint = _is_missing(details["loc"][-1]), ""
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
        named = len(place) == 3 and (place[0], place[2]) == ("follower", "simulate")
        if named or (len(place) == 2 and place[0] in ("line", "signal")):
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
    if place[-1] == "start_value":
        choice = translate("project", "a number or a text")
    else:
        choice = translate("project", 'a number or { from = "the name of a held value" }')
    return _need_text(choice, kind_of(value))


def _need_text(what: str, given: str) -> str:
    return translate("project", "must be {what}, not {given}").format(what=what, given=given)


def _is_missing(key: object) -> str:
    return translate("project", "{key} is missing").format(key=quoted(str(key)))


def _problem(details: ErrorDetails, root: object, place: Place) -> Problem:
    if details["type"] == "extra_forbidden":
        return _unknown_key(root, place)
    if details["type"] in ("missing", "union_tag_not_found"):
        return _missing_key(details, root, place)
    message, hint = message_of(details)
    if details["type"] == "union_tag_invalid":
        place = (*place, "kind")
    if place and place[-1] in _TABLES and isinstance(details["input"], dict) and "tuple" in details["type"]:
        message = translate("project", "needs a list of tables")
        hint = translate("project", "write [[{keys}]] instead of [{keys}]").format(keys=".".join(_keys(place)))
    return Problem(in_words(root, place), message, hint, place)


def _unknown_key(root: object, place: Place) -> Problem:
    holder, key = place[:-1], str(place[-1])
    model, noun = _part_at(root, holder)
    keys = LAYOUTS[model].keys
    hint = did_you_mean(key, keys) or translate("project", "possible keys: {keys}").format(keys=", ".join(keys))
    message = translate("project", "{key} is not a key of {part}").format(key=quoted(key), part=noun)
    return Problem(in_words(root, holder), message, hint, place)


def _missing_key(details: ErrorDetails, root: object, place: Place) -> Problem:
    if details["type"] == "union_tag_not_found":
        place = (*place, "kind")
    if isinstance(place[-1], int):  # an item of a pair
        pair = place[:-1]
        given = at_key_path(root, pair)
        length = len(given) if isinstance(given, list | tuple) else 0
        message = translate("project", "needs 2 numbers, not {count}").format(count=length)
        return Problem(in_words(root, pair), message, "", pair)
    hint = _HINTS.get(_keys(place), "")
    hint = translate("project", hint).format(kinds=one_of(_LINES)) if hint else ""
    return Problem(in_words(root, place[:-1]), _is_missing(place[-1]), hint, place)


def _keys(place: Place) -> tuple[str, ...]:
    return tuple(step for step in place if isinstance(step, str))


def _part_at(root: object, place: Place) -> tuple[type[Part], str]:
    """The model of the table at `place`, and what one such thing is called."""
    keys = _keys(place)
    table = at_key_path(root, place)
    if keys == ("line",):
        kind = str(at_key(table, "kind"))
        return _LINES[kind], translate("parts", "a line of kind {kind}").format(kind=quoted(kind))
    if keys == ("signal",):
        if at_key(table, "bit") is not None:
            return BitSignal, translate("parts", "a bit signal")
        if at_key(table, "held") is not None:
            return HeldSignal, translate("parts", "a held value")
        return RegisterSignal, translate("parts", "a signal")
    model, noun = _PARTS[keys]
    return model, translate("parts", noun)


def message_of(details: ErrorDetails) -> tuple[str, str]:
    """The message and hint for one finding of pydantic, in our own words."""
    context: dict[str, Any] = details.get("ctx", {})
    words = _WORDS.get(details["type"])
    if words is not None:
        return words(context, details["input"])
    # A kind of finding that no model makes today: its own words are better than none.
    return details["msg"][:1].lower() + details["msg"][1:], ""


def _needs(what: str) -> Callable[[dict[str, Any], object], tuple[str, str]]:
    return lambda _, value: (_need_text(translate("project", what), kind_of(value)), "")


def _bound_message(words: str, key: str) -> Callable[[dict[str, Any], object], tuple[str, str]]:
    return lambda context, value: (translate("project", words).format(bound=context[key], value=_short(value)), "")


def _says(message: str) -> Callable[[dict[str, Any], object], tuple[str, str]]:
    return lambda *_: (translate("project", message), "")


def _choice(context: dict[str, Any], value: object) -> tuple[str, str]:
    given = value.get("kind") if isinstance(value, dict) else value  # of a line, the table as a whole is refused
    expected = str(context.get("expected") or context.get("expected_tags"))
    choices = re.findall(r"'([^']*)'", expected)
    said = quoted(given) if isinstance(given, str) else _short(given) if type(given) is int else kind_of(given)
    hint = did_you_mean(given, choices) if isinstance(given, str) else ""
    return _need_text(one_of(choices) if choices else expected, said), hint


def _pattern(context: dict[str, Any], value: object) -> tuple[str, str]:
    if "[0-9]" in str(context["pattern"]):
        message = translate("project", "{key} is not a whole number").format(key=quoted(str(value)))
        return message, translate(
            "project",
            "state texts are for whole numbers, and 'otherwise' for all others: { 0 = \"stopped\", otherwise = "
            '"unknown" }',
        )
    message = translate("project", "starts or ends with a space, or contains a control character")
    return message, translate("project", "remove it")


def _too_long(context: dict[str, Any], value: object) -> tuple[str, str]:
    most = context["max_length"]
    if not isinstance(value, list | tuple | str | dict):
        return translate("project", "can have at most {most}").format(most=most), ""
    return translate("project", "can have at most {most}, not {count}").format(most=most, count=len(value)), ""


def _long_string(context: dict[str, Any], value: str) -> tuple[str, str]:
    words = translate("project", "has {count} characters; at most {most} are allowed")
    return words.format(count=len(value), most=context["max_length"]), ""


def _digits(key: str) -> Callable[[dict[str, Any], object], tuple[str, str]]:
    return lambda context, _: (translate("project", "has more than {most} digits").format(most=context[key]), "")


def _short(value: object) -> str:
    text = f"{value:f}" if isinstance(value, Decimal) and abs(value.adjusted()) < 40 else ""
    if isinstance(value, int) and abs(value) < 10**40:
        text = str(value)
    return text if text and len(text) <= 40 else translate("project", "a smaller number")


_WORDS: Final[dict[str, Callable[[dict[str, Any], Any], tuple[str, str]]]] = {
    "int_type": _needs(mark("project", "a whole number")),
    "is_instance_of": _needs(mark("project", "a number")),
    "decimal_type": _needs(mark("project", "a number")),
    "string_type": _needs(mark("project", "a text")),
    "string_unicode": _says(mark("project", "contains half of a surrogate pair, which cannot be saved")),
    "bool_type": _needs(mark("project", "true or false")),
    "tuple_type": _needs(mark("project", "a list")),
    "dict_type": _needs(mark("project", "a table")),
    "model_type": _needs(mark("project", "a table")),
    "model_attributes_type": _needs(mark("project", "a table")),
    "greater_than": _bound_message(mark("project", "must be a number above {bound}, not {value}"), "gt"),
    "greater_than_equal": _bound_message(mark("project", "must be at least {bound}, not {value}"), "ge"),
    "less_than_equal": _bound_message(mark("project", "must be at most {bound}, not {value}"), "le"),
    "literal_error": _choice,
    "union_tag_invalid": _choice,
    "string_pattern_mismatch": _pattern,
    "string_too_short": _says(mark("project", "is empty")),
    "string_too_long": _long_string,
    "too_long": _too_long,
    "decimal_max_digits": _digits("max_digits"),
    "decimal_whole_digits": _digits("whole_digits"),
    "finite_number": _says(mark("project", "must be a finite number")),
    "value_error": lambda context, _: (str(context["error"]), ""),
}
