"""A turn or an action that is being made or changed and lacks something: kept out of the project until it is complete.

Half a rule would act, or would have to be completed with something that nobody chose. What is shown of it here is made
without validation; a project never holds it.
"""

from __future__ import annotations

from typing import Any, Literal, TypeVar

from PySide6.QtCore import QCoreApplication, QObject, Signal

from app.project.model import Action, Condition, HeldValue, Project, Turn

translate = QCoreApplication.translate
Rule = Turn | Action
_R = TypeVar("_R", Turn, Action)
Kind = Literal["turn", "action"]


class Begun(QObject):
    """The one rule that is not complete yet: a new one, listed behind the others, or a change of one that there is."""

    changed = Signal()
    """Another rule is begun, or none any more."""
    completed = Signal()
    """The rule is on its way into the project, whose change follows."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rule: Rule | None = None
        self._former: Rule | None = None

    def begin(self, rule: Rule, former: Rule | None = None) -> None:
        """Keep this rule; `former` is the one of the project that it is to replace, None: it is new."""
        self._rule, self._former = rule, former
        self.changed.emit()

    def drop(self) -> None:
        """It is not wanted any more."""
        if self._rule is not None:
            self._rule = self._former = None
            self.changed.emit()

    def follow(self, project: Project) -> None:
        """Drop a change of a rule that is gone or was changed otherwise."""
        if self._former is not None and all(rule is not self._former for rule in (*project.turns, *project.actions)):
            self.drop()

    def complete(self) -> None:
        """It lacks nothing any more."""
        self._rule = self._former = None
        self.completed.emit()

    def succeed(self, other: Begun) -> None:
        """Go on with what another one keeps."""
        self._rule, self._former = other._rule, other._former

    def new(self, kind: Kind) -> tuple[Rule, ...]:
        """The new rule of that kind, if there is one."""
        return (self._rule,) if self._rule is not None and self._former is None and kind == _kind(self._rule) else ()

    def rule(self, project: Project, kind: Kind, index: int) -> Rule | None:
        """What is shown at a place of the list: the rule of the project, or what is to become of it."""
        rules = of_kind(project, kind)
        if 0 <= index < len(rules):
            return self._rule if self._former is rules[index] else rules[index]
        return self._rule if index == len(rules) and self.new(kind) else None

    def place(self, project: Project) -> tuple[Kind, int] | None:
        """Which list the rule is shown in, and where; None if there is none."""
        if self._rule is None:
            return None
        kind = _kind(self._rule)
        rules = of_kind(project, kind)
        return kind, next((at for at, rule in enumerate(rules) if rule is self._former), len(rules))

    @property
    def lacks(self) -> list[str]:
        """What is still to be chosen, in words; empty if no rule is begun."""
        return [] if self._rule is None else lacking(self._rule)

    def keeps(self, rule: Rule | None) -> bool:
        """Whether this is the rule that is not complete."""
        return rule is not None and rule is self._rule

    @property
    def is_new(self) -> bool:
        """Whether it is to be added, not to replace another one."""
        return self._former is None


def of_kind(project: Project, kind: Kind) -> tuple[Rule, ...]:
    """The turns or the actions of a project."""
    return project.turns if kind == "turn" else project.actions


def _kind(rule: Rule) -> Kind:
    return "turn" if isinstance(rule, Turn) else "action"


def unmade(rule: type[_R], **given: Any) -> _R:
    """A rule of which only this is chosen."""
    return rule.model_construct(**given)


def changed_rule(rule: Rule, changes: dict[str, Any]) -> Rule:
    """The rule with other attributes, whether that makes sense or not."""
    return type(rule).model_construct(**{name: getattr(rule, name) for name in type(rule).model_fields} | changes)


def no_condition() -> Condition:
    """A condition of which nothing is chosen yet."""
    return Condition.model_construct(signal="", is_="set", value=None)


def lacking(rule: Rule) -> list[str]:
    """What is still to be chosen, in words."""
    lacks = []
    idle = isinstance(rule, Turn) and rule.idle_s is not None
    if rule.key == "":
        lacks.append(translate("Begun", "the key"))
    elif rule.when is not None and not rule.when.signal:
        lacks.append(translate("Begun", "the signal of the condition"))
    elif rule.key is None and rule.when is None and not idle:
        lacks.append(translate("Begun", "the cause"))
    if isinstance(rule, Turn):
        return lacks if rule.to else [*lacks, translate("Begun", "the screen that it goes to")]
    if not rule.do:
        lacks.append(translate("Begun", "what it does"))
    if not rule.signal and rule.do not in ("begin-entry", "next-language"):
        lacks.append(translate("Begun", "the signal"))
    if rule.do == "write" and (rule.value is None or (isinstance(rule.value, HeldValue) and not rule.value.from_)):
        lacks.append(translate("Begun", "the value"))
    return lacks
