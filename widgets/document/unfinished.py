"""Screen changes and actions that lack something while they are made or changed: not in the project until complete.

Half a rule would act, or would have to be completed with something that nobody chose. What is shown of it here is made
without validation; a project never holds it.
"""

from __future__ import annotations

from typing import Any, Final, Literal, TypeVar

from PySide6.QtCore import QCoreApplication, QObject, Signal

from app.project.model import Action, Condition, HeldValue, Project, ScreenChange

translate = QCoreApplication.translate
BehaviourRule = ScreenChange | Action
_R = TypeVar("_R", ScreenChange, Action)
RuleKind = Literal["screen_change", "action"]
COMPARING: Final = ("above", "below", "equal")
"""Comparisons with a value."""


class Unfinished(QObject):
    """The rules that are not complete yet: new ones, listed behind the others, and changes of some that there are.

    Each is kept until it is complete or put away, whatever else is begun meanwhile.
    """

    changed = Signal()
    """A rule is begun, goes on or is put away."""
    completed = Signal(str, bool)
    """A rule of that kind, perhaps a new one, is on its way into the project, whose change follows."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._kept: list[tuple[BehaviourRule, BehaviourRule | None]] = []
        """Each with the one of the project that it is to replace, None: it is new."""

    def begin(
        self, rule: BehaviourRule, former: BehaviourRule | None = None, instead: BehaviourRule | None = None
    ) -> None:
        """Keep this rule; `former` is the one of the project that it is to replace, None: it is new. It takes the
        place of `instead` if that is kept."""
        at = self._at(instead)
        self._kept[at : at + 1] = [(rule, former)]
        self.changed.emit()

    def drop(self, *rules: BehaviourRule) -> None:
        """They are not wanted any more."""
        self._keep([entry for entry in self._kept if all(entry[0] is not rule for rule in rules)])

    def clear(self) -> None:
        """None is wanted any more."""
        self._keep([])

    def follow(self, project: Project) -> None:
        """Drop changes of rules that are gone or were changed otherwise."""
        if self._kept:
            there = {id(rule) for rule in (*project.screen_changes, *project.actions)}
            self._keep([entry for entry in self._kept if entry[1] is None or id(entry[1]) in there])

    def _keep(self, entries: list[tuple[BehaviourRule, BehaviourRule | None]]) -> None:
        if len(entries) < len(self._kept):
            self._kept = entries
            self.changed.emit()

    def complete(self, rule: BehaviourRule) -> None:
        """This one lacks nothing any more."""
        _, former = self._kept.pop(self._at(rule))
        kind = _kind(rule)
        self.completed.emit(kind, former is None or _kind(former) != kind)

    def take_over(self, other: Unfinished) -> None:
        """Go on with what another one keeps."""
        self._kept = list(other._kept)

    def all(self) -> tuple[BehaviourRule, ...]:
        """The rules that are not complete."""
        return tuple(rule for rule, _ in self._kept)

    def new(self, kind: RuleKind) -> tuple[BehaviourRule, ...]:
        """The new rules of that kind."""
        return tuple(rule for rule, former in self._kept if former is None and kind == _kind(rule))

    def rule(self, project: Project, kind: RuleKind, index: int) -> BehaviourRule | None:
        """What is shown at a place of the list: the rule of the project, or what is to become of it."""
        rules = of_kind(project, kind)
        if 0 <= index < len(rules):
            return next((rule for rule, former in self._kept if former is rules[index]), rules[index])
        new = self.new(kind)
        return new[index - len(rules)] if 0 <= index - len(rules) < len(new) else None

    def place(self, project: Project, rule: BehaviourRule) -> tuple[RuleKind, int]:
        """Which list a rule that is not complete is shown in, and where."""
        former = self._kept[self._at(rule)][1]
        kind = _kind(former or rule)
        rules = of_kind(project, kind)
        among = rules if former is not None else (*rules, *self.new(kind))
        wanted = former if former is not None else rule
        return kind, next((at for at, each in enumerate(among) if each is wanted), len(rules))

    def _at(self, rule: BehaviourRule | None) -> int:
        return next((at for at, (each, _) in enumerate(self._kept) if each is rule), len(self._kept))

    def keeps(self, rule: BehaviourRule | None) -> bool:
        """Whether this is one that is not complete."""
        return self._at(rule) < len(self._kept)

    def is_new(self, rule: BehaviourRule) -> bool:
        """Whether a rule that is not complete is to be added, not to replace another one."""
        return self._kept[self._at(rule)][1] is None


def of_kind(project: Project, kind: RuleKind) -> tuple[BehaviourRule, ...]:
    """The screen changes or the actions of a project."""
    return project.screen_changes if kind == "screen_change" else project.actions


def _kind(rule: BehaviourRule) -> RuleKind:
    return "screen_change" if isinstance(rule, ScreenChange) else "action"


def unmade(rule: type[_R], **given: Any) -> _R:
    """A rule of which only this is chosen."""
    return rule.model_construct(**given)


def changed_rule(rule: BehaviourRule, changes: dict[str, Any]) -> BehaviourRule:
    """The rule with other attributes, whether that makes sense or not."""
    return type(rule).model_construct(**{name: getattr(rule, name) for name in type(rule).model_fields} | changes)


def no_condition() -> Condition:
    """A condition of which nothing is chosen yet."""
    nothing: dict[str, Any] = {"signal": "", "is_": "", "value": None}
    return Condition.model_construct(**nothing)


def lacking(rule: BehaviourRule) -> list[str]:
    """What is still to be chosen, in words."""
    lacks = []
    if rule.key == "":
        lacks.append(translate("Unfinished", "the key"))
    if rule.when is not None:
        if not rule.when.signal:
            lacks.append(translate("Unfinished", "the signal of the condition"))
        if not rule.when.is_:
            lacks.append(translate("Unfinished", "the comparison"))
        elif rule.when.is_ in COMPARING and rule.when.value is None:
            lacks.append(translate("Unfinished", "the value to compare with"))
    elif rule.key is None and not (isinstance(rule, ScreenChange) and rule.idle_s):
        lacks.append(translate("Unfinished", "the time without a key"))
    if isinstance(rule, ScreenChange):
        return lacks if rule.to else [*lacks, translate("Unfinished", "the target screen")]
    if not rule.do:
        lacks.append(translate("Unfinished", "what it does"))
    if not rule.signal and rule.do not in ("begin-entry", "next-language"):
        lacks.append(translate("Unfinished", "the signal"))
    if rule.do == "write" and (rule.value is None or (isinstance(rule.value, HeldValue) and not rule.value.from_)):
        lacks.append(translate("Unfinished", "the value"))
    return lacks
