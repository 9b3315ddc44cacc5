"""What is done to screen changes and actions by their sentences: words changed, rows added, copied, moved, deleted."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Final, Literal

from PySide6.QtCore import QCoreApplication, QObject, Signal

from app import edits
from app.edits.several import delete_parts, order_parts, shifted_order
from app.project.model import Action, Condition, Project, ScreenChange
from widgets.design.behaviour.sentences import sentence_text, with_word
from widgets.document.document import Document, Edit
from widgets.document.unfinished import BehaviourRule, RuleKind, Unfinished, lacking, no_condition, of_kind, unmade

translate = QCoreApplication.translate
RulePlace = tuple[RuleKind, int]
"""Which list a rule stands in, and where; new rules that are not complete are counted behind the others."""
SentenceCause = Literal["key", "show", "when", "idle"]
"""By a key; a screen shown while a condition is true; what is done when it becomes true; after time without a key."""
LONGEST_NAME: Final = 70
"""Characters of a sentence that stand in the name of a step."""

USUAL_DEEDS: Final = {"start": "set", "stop": "clear", "reset": "momentary"}
"""What keys of these names do, of a signal that is still to be chosen. Common practice, no source."""


class RuleEdits(QObject):
    """The edits of one document, and of the rules that are not complete yet."""

    wanted = Signal(str, int)
    """This rule is to be chosen: it is new, or stands elsewhere than before. May come before it is there."""

    def __init__(self, document: Document, begun: Unfinished, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.begun = begun

    @property
    def project(self) -> Project:
        """The project as it is now."""
        return self.document.project

    def rule(self, place: RulePlace) -> BehaviourRule | None:
        """What stands at a place, as it is or as it is to become."""
        return self.begun.rule(self.project, *place)

    def rules(self, kind: RuleKind) -> tuple[BehaviourRule, ...]:
        """All of a kind in their order, new ones that are not complete at the end."""
        there = of_kind(self.project, kind)
        if not self.begun.all():
            return there
        rules = (*there, *self.begun.new(kind))
        return tuple(self.begun.rule(self.project, kind, at) or rule for at, rule in enumerate(rules))

    def put(self, place: RulePlace, slot: str, text: str) -> str | None:
        """Take a word over. Returns None, or in words why not. What is not complete then is kept until it is."""
        kind, index = place
        rule = self.rule(place)
        if rule is None:
            return None
        try:
            wanted = with_word(self.project, rule, slot, text)
        except ValueError as error:
            return str(error)
        there = of_kind(self.project, kind)
        former = there[index] if index < len(there) else None
        if lacking(wanted):
            self.begun.begin(wanted, former, rule)
            if former is None:
                self.wanted.emit(*self.begun.place(self.project, wanted))
            return None
        complete = _complete(wanted)
        if complete == former:
            self.begun.drop(rule)
            return None
        new_kind: RuleKind = "screen_change" if isinstance(complete, ScreenChange) else "action"
        stays = former is not None and new_kind == kind
        if not stays:
            self.wanted.emit(new_kind, len(of_kind(self.project, new_kind)))

        def edit(project: Project) -> Project:
            if stays:
                project = _changed(project, index, complete)
            else:
                project = _added(project, complete, None)
                if former is not None:
                    project = delete_parts(project, kind, [index])
            if self.begun.keeps(rule):
                self.begun.complete(rule)
            return project

        name = self._step("Change", complete) if former is not None else self._step("Add", complete)
        reason = self.document.do(name, edit, merge=(kind, index, slot), aloud=False)
        if reason is not None and not stays:
            self.wanted.emit(*place)
        return reason

    # Whole rows

    def begin(self, cause: SentenceCause, screen: str | None = None, key: str = "") -> None:
        """Begin a sentence in which nothing is chosen that would make it act; with `screen`: of a key there.

        A key that is called after what it does, such as START, begins with that, on every screen.
        """
        rule: BehaviourRule
        if cause == "key":
            deed = USUAL_DEEDS.get(key.lower(), "")
            rule = unmade(Action, key=key, from_=None if deed else screen, do=deed)
        elif cause == "show":
            rule = unmade(ScreenChange, when=no_condition(), to="")
        elif cause == "when":
            rule = unmade(Action, when=no_condition(), do="")
        else:
            rule = unmade(ScreenChange, from_=screen, idle_s=0, to="")
        self.start(rule)

    def start(self, rule: BehaviourRule) -> None:
        """Begin a sentence with what this rule has of it, if there is what it needs."""
        refusal = self._cannot_begin(rule)
        if refusal:
            self.document.refused.emit(refusal)
            return
        self.begun.begin(rule)
        self.wanted.emit(*self.begun.place(self.project, rule))

    def _cannot_begin(self, rule: BehaviourRule) -> str:
        project = self.project
        if rule.key is not None and not project.panel.keys:
            return self.tr("The panel has no keys; add some in its properties first.")
        if rule.when is not None and not project.signals:
            return self.tr("A condition needs a signal; add one first.")
        if isinstance(rule, ScreenChange) and not project.screens:
            return self.tr("A screen change needs a screen to go to; add one first.")
        return ""

    def duplicate(self, place: RulePlace) -> None:
        """A copy behind a rule that is complete."""
        kind, index = place
        there = of_kind(self.project, kind)
        if index >= len(there):
            return
        rule = there[index]
        self.wanted.emit(kind, index + 1)
        if self._do(self._step("Copy", rule), lambda project: _added(project, rule, index + 1)):
            self.wanted.emit(kind, index + 1)

    def delete(self, places: Sequence[RulePlace]) -> None:
        """Delete these, as one step; those that are not complete are dropped."""
        going = [rule for place in places if (rule := self.rule(place)) is not None]
        complete = {
            kind: [at for of, at in places if of == kind and at < len(of_kind(self.project, kind))] for kind in _KINDS
        }
        self.begun.drop(*(rule for rule in going if self.begun.keeps(rule)))
        if not any(complete.values()):
            return

        def edit(project: Project) -> Project:
            for kind, indices in complete.items():
                project = delete_parts(project, kind, indices)
            return project

        self._do(self._step("Delete", *going), edit)

    def move(self, places: Sequence[RulePlace], way: Literal[-1, 1], among: Sequence[RulePlace]) -> None:
        """Move some rules of one kind one place up (-1) or down (1) among others; they are shown in this order."""
        kind = places[0][0]
        slots = [at for of, at in among if of == kind and at < len(of_kind(self.project, kind))]
        chosen = [slots.index(at) for of, at in places if of == kind and at in slots]
        self._order(kind, slots, shifted_order(len(slots), chosen, way), places)

    def move_to(self, place: RulePlace, to: int, among: Sequence[RulePlace]) -> None:
        """Move a rule to the place `to` has among others of its kind."""
        kind, index = place
        slots = [at for of, at in among if of == kind and at < len(of_kind(self.project, kind))]
        if index in slots:
            order = [at for at in range(len(slots)) if slots[at] != index]
            order.insert(min(max(to, 0), len(order)), slots.index(index))
            self._order(kind, slots, order, [place])

    def _order(self, kind: RuleKind, slots: Sequence[int], order: Sequence[int], places: Sequence[RulePlace]) -> None:
        """Put what stands at `slots` of the list into another order; what stands between them stays where it is."""
        whole = list(range(len(of_kind(self.project, kind))))
        for slot, other in zip(slots, order, strict=True):
            whole[slot] = slots[other]
        rules = [rule for place in places if (rule := self.rule(place)) is not None]
        if not rules or whole == sorted(whole):
            return
        self.wanted.emit(kind, whole.index(places[0][1]))
        self._do(self._step("Move", *rules), lambda project: order_parts(project, kind, whole))

    def _do(self, name: str, edit: Edit) -> bool:
        return self.document.do(name, edit) is None

    def _step(self, deed: str, *rules: BehaviourRule) -> str:
        """What a step is called: by its sentence, or by how many there are."""
        if len(rules) > 1:
            words = {
                "Delete": self.tr("Delete {count} sentences"),
                "Move": self.tr("Move {count} sentences"),
            }[deed]
            return words.format(count=len(rules))
        words = {
            "Add": self.tr("Add \u201c{sentence}\u201d"),
            "Change": self.tr("Change \u201c{sentence}\u201d"),
            "Copy": self.tr("Duplicate \u201c{sentence}\u201d"),
            "Delete": self.tr("Delete \u201c{sentence}\u201d"),
            "Move": self.tr("Move \u201c{sentence}\u201d"),
        }[deed]
        text = sentence_text(self.project, rules[0])
        return words.format(sentence=textwrap.shorten(text, LONGEST_NAME, placeholder="\u2026"))


_KINDS: Final[tuple[RuleKind, RuleKind]] = ("screen_change", "action")


def _complete(rule: BehaviourRule) -> BehaviourRule:
    """The rule with a condition that is one."""
    when = rule.when
    if when is None:
        return rule
    given = {"signal": when.signal, "is": when.is_} | ({} if when.value is None else {"value": when.value})
    return rule.model_copy(update={"when": Condition.model_validate(given)})


def _attributes(rule: BehaviourRule) -> dict[str, object]:
    return {name: getattr(rule, name) for name in type(rule).model_fields}


def _changed(project: Project, index: int, rule: BehaviourRule) -> Project:
    if isinstance(rule, ScreenChange):
        return edits.edit_screen_change(project, index, **_attributes(rule))
    return edits.change_action(project, index, **_attributes(rule))


def _added(project: Project, rule: BehaviourRule, at: int | None) -> Project:
    """With one more rule, validated."""
    if isinstance(rule, ScreenChange):
        return edits.add_screen_change(project, edits.screen_change(**_attributes(rule)), at)
    return edits.add_action(project, edits.action(**_attributes(rule)), at)
