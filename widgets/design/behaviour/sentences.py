"""Screen changes and actions as sentences: fixed words, and words that can be changed, each with its choices.

The language decides the order of the words: every sentence is a template of its own in which words have names.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from PySide6.QtCore import QCoreApplication

from app.project.model import Action, Condition, HeldSignal, HeldValue, Project, ScreenChange
from app.project.purpose import CLEARING
from app.signals.typed import number, plain, whole
from widgets.design.forms.signal_picker import signal_choices
from widgets.document.unfinished import COMPARING, BehaviourRule, changed_rule, no_condition, unmade
from widgets.face.keypad import key_legend

translate = QCoreApplication.translate
Choices = Sequence[tuple[str, str]]
"""What is stored, and what a person reads."""
LONGEST_IDLE_S: Final = 86_400
RELATIVE: Final = ("next", "previous")
_SLOT: Final = re.compile(r"\{(\w+)\}")
_BY_KEY_ONLY: Final = ("momentary", "begin-entry", "next-language")
_NO_SIGNAL: Final = ("next-language",)


@dataclass(frozen=True, slots=True)
class Word:
    """A word that can be changed: what of the rule it is, what is stored, what a person reads.

    `text` asks for what is not chosen yet, and `unit` stands behind a number.
    """

    slot: str
    value: str
    text: str
    empty: bool = False
    unit: str = ""

    @property
    def shown(self) -> str:
        """The text, with its unit."""
        return f"{self.text} {self.unit}" if self.unit and not self.empty else self.text


SentencePart = str | Word


def word_names() -> dict[str, str]:
    """What each changeable word is called."""
    return {
        "cause": translate("Sentences", "Cause"),
        "key": translate("Sentences", "Key"),
        "signal": translate("Sentences", "Signal of the condition"),
        "is": translate("Sentences", "Comparison"),
        "value": translate("Sentences", "Value to compare with"),
        "idle": translate("Sentences", "Time without a key"),
        "do": translate("Sentences", "What it does"),
        "to": translate("Sentences", "Target screen"),
        "target": translate("Sentences", "Signal"),
        "number": translate("Sentences", "Value"),
        "held": translate("Sentences", "Held value"),
        "from": translate("Sentences", "On screen"),
        "stops": translate("Sentences", "Stop command"),
    }


def sentence(project: Project, rule: BehaviourRule, *, whole: bool = False) -> list[SentencePart]:
    """The sentence of a rule. `whole`: also with what is usually left out, such as where it counts."""
    template = _cause_template(rule).replace("{deed}", _deed_template(rule, whole=whole))
    if (whole or _stop_word(rule)) and isinstance(rule, Action) and _can_stop(rule):
        template = translate("Sentences", "{sentence}, {stops}").replace("{sentence}", template)
    if whole and rule.when is None:
        template = translate("Sentences", "{sentence} on {from}").replace("{sentence}", template)
    pieces: list[SentencePart] = []
    at = 0
    for found in _SLOT.finditer(template):
        if words := template[at : found.start()].strip():
            pieces.append(words)
        pieces.append(_word(project, rule, found[1]))
        at = found.end()
    if words := template[at:].strip():
        pieces.append(words)
    return pieces


def sentence_text(project: Project, rule: BehaviourRule) -> str:
    """The sentence as a person reads or hears it."""
    return text_of(sentence(project, rule))


def text_of(pieces: Sequence[SentencePart]) -> str:
    """All words one after another."""
    text = " ".join(each if isinstance(each, str) else each.shown for each in pieces)
    return re.sub(r" ([,:])", r"\1", text)


def deed_text(project: Project, rule: BehaviourRule) -> str:
    """What the rule does, as the end of its sentence: "shows screen Motor", "sets Run"."""
    pieces = _SLOT.split(_deed_template(rule))
    texts = [each if at % 2 == 0 else _word(project, rule, each).shown for at, each in enumerate(pieces)]
    return "".join(texts)


# The words of a sentence


def cause_of(rule: BehaviourRule) -> str:
    """`key`, `when`, or `idle`."""
    if rule.key is not None:
        return "key"
    return "when" if rule.when is not None else "idle"


def deed_of(rule: BehaviourRule) -> str:
    """What it does, as the choices of `do` name it; empty: not chosen yet."""
    if isinstance(rule, ScreenChange):
        return "change"
    return "write-held" if isinstance(rule.value, HeldValue) else rule.do


def _cause_template(rule: BehaviourRule) -> str:
    if rule.key is not None:
        return translate("Sentences", "Key {key} {deed}")
    if rule.when is None:
        return translate("Sentences", "After {idle} without a key {deed}")
    compared = rule.when.is_ in COMPARING
    if isinstance(rule, ScreenChange):
        if compared:
            return translate("Sentences", "While {signal} {is} {value} {deed}")
        return translate("Sentences", "While {signal} {is} {deed}")
    if compared:
        return translate("Sentences", "When {signal} {is} {value} {deed}")
    return translate("Sentences", "When {signal} {is} {deed}")


def _deed_template(rule: BehaviourRule, *, whole: bool = False) -> str:
    """The end of a sentence; `whole`: as it is edited, where the choice of what is done says all of that itself."""
    deed = deed_of(rule)
    if whole:
        deed = {"momentary": "set", "next-language": ""}.get(deed, deed)
    if rule.key is None:
        return {
            "": translate("ConditionDeeds", "{do}"),
            "change": translate("ConditionDeeds", "{do} {to}"),
            "write": translate("ConditionDeeds", "{do} {number} to {target}"),
            "write-held": translate("ConditionDeeds", "{do} {held} to {target}"),
        }.get(deed, translate("ConditionDeeds", "{do} {target}"))
    return {
        "": translate("KeyDeeds", "{do}"),
        "change": translate("KeyDeeds", "{do} {to}"),
        "write": translate("KeyDeeds", "{do} {number} to {target}"),
        "write-held": translate("KeyDeeds", "{do} {held} to {target}"),
        "momentary": translate("KeyDeeds", "{do} {target} while it is held"),
        "next-language": translate("KeyDeeds", "{do} to the next language"),
    }.get(deed, translate("KeyDeeds", "{do} {target}"))


def _deed_words(*, by_key: bool) -> dict[str, str]:
    if not by_key:
        return {
            "": translate("ConditionDeeds", "do what?"),
            "change": translate("ConditionDeeds", "show screen"),
            "set": translate("ConditionDeeds", "set"),
            "clear": translate("ConditionDeeds", "clear"),
            "toggle": translate("ConditionDeeds", "toggle"),
            "write": translate("ConditionDeeds", "write"),
            "write-held": translate("ConditionDeeds", "write the value of"),
        }
    return {
        "": translate("KeyDeeds", "does what?"),
        "change": translate("KeyDeeds", "shows screen"),
        "set": translate("KeyDeeds", "sets"),
        "clear": translate("KeyDeeds", "clears"),
        "toggle": translate("KeyDeeds", "toggles"),
        "write": translate("KeyDeeds", "writes"),
        "write-held": translate("KeyDeeds", "writes the value of"),
        "momentary": translate("KeyDeeds", "sets"),
        "begin-entry": translate("KeyDeeds", "edits"),
        "next-language": translate("KeyDeeds", "switches"),
    }


def _comparisons(*, lasting: bool) -> dict[str, str]:
    if lasting:
        return {
            "set": translate("Sentences", "is set"),
            "clear": translate("Sentences", "is clear"),
            "above": translate("Sentences", "is above"),
            "below": translate("Sentences", "is below"),
            "equal": translate("Sentences", "equals"),
        }
    return {
        "set": translate("Sentences", "becomes set"),
        "clear": translate("Sentences", "becomes clear"),
        "above": translate("Sentences", "rises above"),
        "below": translate("Sentences", "falls below"),
        "equal": translate("Sentences", "becomes equal to"),
    }


def _word(project: Project, rule: BehaviourRule, slot: str) -> Word:
    value = word_value(rule, slot)
    unit = _unit(project, rule, slot)
    options = {} if slot in _NAMES_OF_PARTS else dict(choices(project, rule, slot) or ())
    if slot == "do":  # the list says more, where it has to tell two apart
        options = _deed_words(by_key=rule.key is not None)
        if isinstance(rule, ScreenChange) and rule.to in RELATIVE:
            options["change"] = translate("KeyDeeds", "shows")
    elif slot == "to":
        options = dict(_ring())
    if value or slot in ("from", "stops") or (slot == "target" and deed_of(rule) == "begin-entry"):
        if not value and slot == "target":
            return Word(slot, value, _first_field())
        if not value and slot == "from":
            return Word(slot, value, _every_screen())
        text = key_legend(value) if slot == "key" else options.get(value, value)
        return Word(slot, value, text, unit=unit)
    return Word(slot, value, options.get("") or _questions()[slot], empty=True, unit=unit)


_NAMES_OF_PARTS: Final = ("key", "signal", "to", "target", "held", "from")
"""Words that are shown as they are stored: the names of parts."""
TYPED: Final = ("value", "idle", "number")


def _questions() -> dict[str, str]:
    signal, value = translate("Sentences", "which signal?"), translate("Sentences", "which value?")
    return {
        "key": translate("Sentences", "which key?"),
        "signal": signal,
        "is": translate("Sentences", "is what?"),
        "value": value,
        "idle": translate("Sentences", "how long?"),
        "to": translate("Sentences", "which one?"),
        "target": signal,
        "number": value,
        "held": translate("Sentences", "which held value?"),
    }


def word_value(rule: BehaviourRule, slot: str) -> str:
    """What is stored of a word, as text; empty: nothing is chosen."""
    when = rule.when
    if slot == "cause":
        return cause_of(rule)
    if slot == "do":
        return deed_of(rule)
    if slot in ("signal", "is", "value"):
        return "" if when is None else {"signal": when.signal, "is": when.is_, "value": plain(when.value)}[slot]
    if slot == "idle":
        return str(rule.idle_s) if isinstance(rule, ScreenChange) and rule.idle_s else ""
    if isinstance(rule, ScreenChange):
        return {"key": rule.key, "from": rule.from_, "to": rule.to}.get(slot) or ""
    if slot == "number":
        return "" if isinstance(rule.value, HeldValue) else plain(rule.value)
    if slot == "held":
        return rule.value.from_ if isinstance(rule.value, HeldValue) else ""
    return {"key": rule.key, "from": rule.from_, "target": rule.signal, "stops": _stop_word(rule)}.get(slot) or ""


def _unit(project: Project, rule: BehaviourRule, slot: str) -> str:
    if slot == "idle":
        return "s"
    name = ""
    if slot == "value" and rule.when is not None:
        name = rule.when.signal
    elif slot == "number" and isinstance(rule, Action):
        name = rule.signal or ""
    signal = project.signal_named.get(name)
    return "" if signal is None else signal.unit


def _can_stop(rule: Action) -> bool:
    writes = bool(rule.signal) and rule.do not in ("", "begin-entry", "next-language")
    return writes and not isinstance(rule.value, HeldValue)


def _stop_word(rule: BehaviourRule) -> str:
    """`yes` or `no` where that is not what its deed means by itself."""
    if not isinstance(rule, Action) or rule.stops is None or rule.stops == (rule.do in CLEARING):
        return ""
    return "yes" if rule.stops else "no"


def _every_screen() -> str:
    return translate("Sentences", "every screen")


def _first_field() -> str:
    return translate("Sentences", "the first entry field")


def _ring() -> list[tuple[str, str]]:
    return [
        ("next", translate("Sentences", "the next screen")),
        ("previous", translate("Sentences", "the previous screen")),
    ]


# What can be chosen for a word


def choices(project: Project, rule: BehaviourRule, slot: str) -> Choices | None:
    """What can be chosen for a word; None: it is typed."""
    by_key = rule.key is not None
    match slot:
        case "cause":
            return _causes(rule)
        case "key":
            return [(key, key_legend(key)) for key in project.panel.keys]
        case "from":
            return [("", _every_screen()), *((name, name) for name in project.screen_named)]
        case "to":
            return [*(_ring() if by_key else ()), *((name, name) for name in project.screen_named)]
        case "do":
            return _deeds(rule)
        case "is":
            return list(_comparisons(lasting=isinstance(rule, ScreenChange)).items())
        case "signal":
            return signal_choices(project)
        case "target":
            first = [("", _first_field())] if deed_of(rule) == "begin-entry" else []
            return [*first, *signal_choices(project)] if first else signal_choices(project)
        case "held":
            return [(part.name, part.name) for part in project.signals if isinstance(part, HeldSignal)]
        case "stops":
            once = translate("Sentences", "sent once")
            if isinstance(rule, Action) and rule.do in CLEARING:
                return [("", translate("Sentences", "its 0 repeated until confirmed")), ("no", once)]
            return [("", once), ("yes", translate("Sentences", "repeated until confirmed"))]
    return None


def _causes(rule: BehaviourRule) -> Choices:
    found = [
        ("key", translate("Sentences", "by a key")),
        ("when", translate("Sentences", "by a condition")),
    ]
    return (
        [*found, ("idle", translate("Sentences", "after time without a key"))] if deed_of(rule) == "change" else found
    )


def _deeds(rule: BehaviourRule) -> Choices:
    if cause_of(rule) == "idle":
        return [("change", _deed_words(by_key=False)["change"])]
    words = _deed_words(by_key=rule.key is not None)
    if rule.key is not None:
        words["momentary"] = translate("KeyDeeds", "sets while it is held")
        words["next-language"] = translate("KeyDeeds", "switches to the next language")
    return [(deed, text) for deed, text in words.items() if deed]


# What becomes of a rule by another word


def with_word(project: Project, rule: BehaviourRule, slot: str, text: str) -> BehaviourRule:
    """The rule with another word, complete or not. Raises ValueError in words for what cannot be meant."""
    match slot:
        case "key" | "to":
            return changed_rule(rule, {slot: text})
        case "from":
            return changed_rule(rule, {"from_": text or None})
        case "idle":
            return changed_rule(rule, {"idle_s": _idle(text)})
        case "signal" | "is" | "value":
            return changed_rule(rule, {"when": _compared(rule.when or no_condition(), slot, text)})
        case "target":
            return changed_rule(rule, {"signal": text or None})
        case "number":
            return changed_rule(rule, {"value": number(text)})
        case "held":
            return changed_rule(rule, {"value": HeldValue(from_=text)})
        case "stops":
            return changed_rule(rule, {"stops": {"": None, "yes": True, "no": False}[text]})
        case "do":
            return _doing(project, rule, text)
    return _caused(rule, text)


def _idle(text: str) -> int:
    seconds = whole(text)
    if not 1 <= seconds <= LONGEST_IDLE_S:
        raise ValueError(translate("Sentences", "the time must be 1 to {most} s").format(most=LONGEST_IDLE_S))
    return seconds


def _compared(when: Condition, slot: str, text: str) -> Condition:
    now: dict[str, Any] = {"signal": when.signal, "is_": when.is_, "value": when.value}
    if slot == "value":
        now["value"] = number(text)
    else:
        now["signal" if slot == "signal" else "is_"] = text
    if now["is_"] not in COMPARING:
        now["value"] = None
    return Condition.model_construct(**now)


def _doing(project: Project, rule: BehaviourRule, deed: str) -> BehaviourRule:
    if deed == deed_of(rule):
        return rule
    same: dict[str, Any] = {"key": rule.key, "from_": rule.from_, "when": rule.when}
    if deed == "change":
        return unmade(ScreenChange, **same, to="")
    if deed == "write-held" and not any(isinstance(part, HeldSignal) for part in project.signals):
        raise ValueError(translate("Sentences", "the project has no held value yet; add one in the Signals view"))
    keeps = isinstance(rule, Action) and deed not in _NO_SIGNAL
    return unmade(
        Action,
        **same,
        do="write" if deed == "write-held" else deed,
        signal=rule.signal if keeps and isinstance(rule, Action) else None,
        value=HeldValue(from_="") if deed == "write-held" else None,
    )


def _caused(rule: BehaviourRule, cause: str) -> BehaviourRule:
    if cause == cause_of(rule):
        return rule
    changes: dict[str, Any] = {"key": "" if cause == "key" else None}
    changes["when"] = no_condition() if cause == "when" else None
    if cause == "when":
        changes["from_"] = None
    if isinstance(rule, ScreenChange):
        changes["idle_s"] = 0 if cause == "idle" else None
        if cause != "key" and rule.to in RELATIVE:
            changes["to"] = ""
    elif cause != "key" and rule.do in _BY_KEY_ONLY:
        changes |= {"do": "", "stops": None}
    return changed_rule(rule, changes)
