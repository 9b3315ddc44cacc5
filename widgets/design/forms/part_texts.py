"""Conditions, screen changes and actions as phrases that a person reads."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.project.model import Action, Condition, HeldValue, ScreenChange

translate = QCoreApplication.translate


def condition_text(condition: Condition) -> str:
    """A condition as a clause: "fault is set", "level is above 80"."""
    words = {
        "set": translate("phrases", "{signal} is set"),
        "clear": translate("phrases", "{signal} is clear"),
        "above": translate("phrases", "{signal} is above {value}"),
        "below": translate("phrases", "{signal} is below {value}"),
        "equal": translate("phrases", "{signal} equals {value}"),
    }
    return words[condition.is_].format(signal=condition.signal or _to_choose(), value=condition.value)


def when_text(condition: Condition) -> str:
    """The same where there is little room: "when fault ≠ 0", "when level > 80"."""
    sign = {"above": ">", "below": "<", "equal": "=", "set": "\N{NOT EQUAL TO}", "clear": "="}[condition.is_]
    return translate("phrases", "when {signal} {sign} {value}").format(
        signal=condition.signal or _to_choose(), sign=sign, value=0 if condition.value is None else condition.value
    )


def _to_choose() -> str:
    """Stands in the place of what a rule that is not complete lacks."""
    return translate("phrases", "(choose)")


def cause_text(part: ScreenChange | Action) -> str:
    """The cause of a screen change or an action: "key right", "when fault is set", "after 9 s without a key press"."""
    if part.key is not None:
        return translate("phrases", "key {key}").format(key=part.key or _to_choose())
    if part.when is not None:
        return translate("phrases", "when {condition}").format(condition=condition_text(part.when))
    if isinstance(part, ScreenChange) and part.idle_s is not None:
        return translate("phrases", "after {seconds} s without a key press").format(seconds=part.idle_s)
    return ""


def from_text(part: ScreenChange | Action) -> str:
    """Where a screen change or an action counts."""
    return part.from_ if part.from_ is not None else translate("phrases", "every screen")


def target_text(screen_change: ScreenChange) -> str:
    """Where a screen change goes."""
    return {
        "next": translate("phrases", "the next screen"),
        "previous": translate("phrases", "the previous screen"),
    }.get(screen_change.to, screen_change.to or _to_choose())


def deed_text(action: Action) -> str:
    """What an action does: "sets run_command", "writes 5 to preset"."""
    signal = action.signal or ("" if action.do == "begin-entry" else _to_choose())
    if not action.do:
        return _to_choose()
    if action.do == "write":
        value = action.value
        what = (
            translate("phrases", "the value of {signal}").format(signal=value.from_ or _to_choose())
            if isinstance(value, HeldValue)
            else _to_choose()
            if value is None
            else str(value)
        )
        return translate("phrases", "writes {what} to {signal}").format(what=what, signal=signal)
    if action.do == "begin-entry":
        return (
            translate("phrases", "starts entry of {signal}").format(signal=signal)
            if signal
            else translate("phrases", "starts entry")
        )
    if action.do == "next-language":
        return translate("phrases", "switches to the next language")
    words = {
        "set": translate("phrases", "sets {signal}"),
        "clear": translate("phrases", "clears {signal}"),
        "toggle": translate("phrases", "toggles {signal}"),
        "momentary": translate("phrases", "sets {signal} while the key is held"),
    }
    return words[action.do].format(signal=signal)
