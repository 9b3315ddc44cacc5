"""The properties of screen changes and actions: where they count, what brings them about, what they do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QWidget

from app import edits
from app.project.model import Action, HeldSignal, HeldValue, Project, ScreenChange
from app.project.purpose import CLEARING
from app.signals.typed import number, plain, whole
from widgets.design.forms.condition_row import ConditionRow, condition_texts, read_condition
from widgets.design.forms.part_form import PartForm
from widgets.design.forms.rows import ChoiceRow, InfoRow, LineRow
from widgets.design.forms.signal_picker import signal_choices
from widgets.document.document import Document, Edit
from widgets.document.drafts import Drafts, DraftTexts
from widgets.document.unfinished import RuleKind, Unfinished, changed_rule, lacking, no_condition, of_kind

translate = QCoreApplication.translate
EVERYWHERE = ""


class _CausedForm(PartForm):
    """What screen changes and actions share: `from` and a cause. An incomplete rule is kept out of the project."""

    kind: RuleKind

    def __init__(self, document: Document, drafts: Drafts, begun: Unfinished, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, parent)
        self.begun = begun
        self.add(InfoRow(self.tr("State"), self._state))

    @property
    def _index(self) -> int:
        return self.subject[1] if isinstance(self.subject, tuple) else -1

    def change(self, **changes: Any) -> Edit:
        """The edit that changes attributes of the rule, or adds it; none as long as it lacks something."""
        rule, index = self.part, self._index
        rules = of_kind(self.project, self.kind)
        former = rules[index] if 0 <= index < len(rules) else None
        if rule is None:
            return lambda project: project
        wanted = changed_rule(rule, changes)
        if lacking(wanted):
            self.begun.begin(wanted, former, rule)
            return lambda project: project
        attributes = {name: getattr(wanted, name) for name in type(wanted).model_fields}

        def edit(project: Project) -> Project:
            if self.kind == "screen_change":
                if former is None:
                    project = edits.add_screen_change(project, ScreenChange(**attributes))
                else:
                    project = edits.edit_screen_change(project, index, **attributes)
            elif former is None:
                project = edits.add_action(project, Action(**attributes))
            else:
                project = edits.change_action(project, index, **attributes)
            if self.begun.keeps(rule):
                self.begun.complete(rule)
            return project

        return edit

    def _state(self) -> DraftTexts | None:
        rule = self.part
        if rule is None or not self.begun.keeps(rule):
            return None
        words = (
            self.tr("Incomplete, so it has no effect yet. Missing: {what}")
            if self.begun.is_new(rule)
            else self.tr("Incomplete, so nothing is changed yet. Missing: {what}")
        )
        return (words.format(what=", ".join(lacking(rule))),)

    def _from_row(self) -> None:
        self.add(
            ChoiceRow(
                self.tr("On screen"),
                lambda: None if self.part is None or self.part.when is not None else (self.part.from_ or EVERYWHERE,),
                self.put(lambda texts: self.change(from_=texts[0] or None)),
                lambda: [(EVERYWHERE, self.tr("every screen")), *((n, n) for n in self.project.screen_named)],
            )
        )

    def _cause_rows(self, causes: list[tuple[str, str]]) -> None:
        self.add(
            ChoiceRow(
                self.tr("Cause"),
                lambda: None if self.part is None else (cause_of(self.part),),
                self.put(self._read_cause),
                lambda: causes,
            )
        )
        self.add(
            ChoiceRow(
                self.tr("Key"),
                lambda: None if self.part is None or self.part.key is None else (self.part.key,),
                self.put(lambda texts: self.change(key=texts[0])),
                lambda: [(key, key) for key in self.project.panel.keys],
            )
        )
        self.add(
            ConditionRow(
                self.tr("Condition"),
                lambda: None if self.part is None or self.part.when is None else condition_texts(self.part.when),
                self.put(self._read_when),
                lambda: signal_choices(self.project),
            )
        )

    def _read_when(self, texts: DraftTexts) -> Edit:
        condition = read_condition(texts)
        if condition is None:
            raise ValueError(self.tr("choose the signal of the condition"))
        return self.change(when=condition)

    def _read_cause(self, texts: DraftTexts) -> Edit:
        part = self.part
        cause = texts[0]
        if part is None or cause == cause_of(part):
            return lambda project: project
        changes: dict[str, Any] = {"key": None, "when": None}
        if isinstance(part, ScreenChange):
            changes["idle_s"] = None
        if cause == "key":
            changes["key"] = ""
        elif cause == "idle":
            changes["idle_s"] = 120
        else:
            names = self.project.signal_named
            if not names:
                raise ValueError(self.tr("a condition needs a signal; the project has none yet"))
            changes["when"] = no_condition()
            changes["from_"] = None
        if cause != "key" and isinstance(part, ScreenChange) and part.to in ("next", "previous"):
            changes["to"] = ""
        return self.change(**changes)


class ScreenChangeForm(_CausedForm):
    """Shows and edits one screen change, by its index."""

    kind = "screen_change"

    def __init__(self, document: Document, drafts: Drafts, begun: Unfinished, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, begun, parent)
        self.step_name = self.tr("Change screen change")
        self._cause_rows(
            [
                ("key", self.tr("a key")),
                ("when", self.tr("a condition (override)")),
                ("idle", self.tr("idle time")),
            ]
        )
        self.add(
            LineRow(
                self.tr("Idle time"),
                lambda: None if self.part is None or self.part.idle_s is None else (str(self.part.idle_s),),
                self.put(lambda texts: self.change(idle_s=whole(texts[0]))),
                self.tr("Seconds without a key press"),
                suffix="s",
            )
        )
        self._from_row()
        self.add(
            ChoiceRow(
                self.tr("Goes to"),
                lambda: None if self.part is None else (self.part.to,),
                self.put(lambda texts: self.change(to=texts[0])),
                self._targets,
            )
        )
        self.add(InfoRow(self.tr("Meaning"), self._meaning))
        self.finish()

    @property
    def part(self) -> ScreenChange | None:
        """The screen change that is shown."""
        rule = self.begun.rule(self.project, "screen_change", self._index)
        return rule if isinstance(rule, ScreenChange) else None

    def _targets(self) -> list[tuple[str, str]]:
        ring = []
        if self.part is not None and self.part.key is not None:
            ring = [("next", self.tr("the next screen")), ("previous", self.tr("the previous screen"))]
        return ring + [(name, name) for name in self.project.screen_named]

    def _meaning(self) -> DraftTexts | None:
        part = self.part
        if part is None:
            return None
        if part.when is not None:
            text = self.tr(
                "While the condition is true, this screen replaces the one that the operator is on. If "
                "several overrides apply, the first of them in the list is shown."
            )
        elif part.idle_s is not None:
            text = self.tr("After this time without a key press the panel changes the screen by itself.")
        elif part.from_ is None:
            text = self.tr("On every screen, except where the same key has its own screen change.")
        else:
            text = self.tr("On this screen the key goes there.")
        return (text,)


class ActionForm(_CausedForm):
    """Shows and edits one action, by its index."""

    kind = "action"

    def __init__(self, document: Document, drafts: Drafts, begun: Unfinished, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, begun, parent)
        self.step_name = self.tr("Change action")
        self._cause_rows([("key", self.tr("a key")), ("when", self.tr("a condition, when it becomes true"))])
        self._from_row()
        self.add(
            ChoiceRow(
                self.tr("Effect"),
                lambda: None if self.part is None else (self.part.do,),
                self.put(self._read_do),
                self._deeds,
            )
        )
        self.add(
            ChoiceRow(
                self.tr("Signal"),
                lambda: None if self.part is None or self.part.do == "next-language" else (self.part.signal or "",),
                self.put(lambda texts: self.change(signal=texts[0] or None)),
                self._signals,
            )
        )
        self.add(
            ChoiceRow(
                self.tr("Value"),
                lambda: None if self.part is None or self.part.do != "write" else (_value_kind(self.part),),
                self.put(self._read_value_kind),
                lambda: [("number", self.tr("a number")), ("held", self.tr("a held value"))],
            )
        )
        self.add(
            LineRow(
                self.tr("Number"),
                lambda: (
                    (plain(part.value),) if (part := self.part) is not None and _value_kind(part) == "number" else None
                ),
                self.put(lambda texts: self.change(value=number(texts[0]))),
            )
        )
        self.add(
            ChoiceRow(
                self.tr("Held value"),
                lambda: (
                    (part.value.from_,)
                    if (part := self.part) is not None and isinstance(part.value, HeldValue)
                    else None
                ),
                self.put(lambda texts: self.change(value=HeldValue(from_=texts[0]))),
                self._held_signals,
            )
        )
        self.add(
            ChoiceRow(
                self.tr("Stop command"),
                lambda: None if self.part is None or not _can_stop(self.part) else (_stop_word(self.part),),
                self.put(lambda texts: self.change(stops={"": None, "yes": True, "no": False}[texts[0]])),
                self._stop_choices,
            )
        )
        self.finish()

    @property
    def part(self) -> Action | None:
        """The action that is shown."""
        rule = self.begun.rule(self.project, "action", self._index)
        return rule if isinstance(rule, Action) else None

    def _deeds(self) -> list[tuple[str, str]]:
        deeds = [
            ("set", self.tr("sets the signal")),
            ("clear", self.tr("clears the signal")),
            ("toggle", self.tr("toggles the signal")),
            ("write", self.tr("writes a value to it")),
        ]
        if self.part is not None and self.part.key is not None:
            deeds += [
                ("momentary", self.tr("sets it while the key is held")),
                ("begin-entry", self.tr("starts entry")),
                ("next-language", self.tr("switches to the next language")),
            ]
        return deeds

    def _stop_choices(self) -> list[tuple[str, str]]:
        once = self.tr("no: sent once")
        if self.part is not None and self.part.do in CLEARING:
            return [("", self.tr("yes, by writing 0: repeated until confirmed")), ("no", once)]
        return [("", once), ("yes", self.tr("yes: repeated until confirmed"))]

    def _signals(self) -> Sequence[tuple[str, str]]:
        names = signal_choices(self.project)
        if self.part is not None and self.part.do == "begin-entry":
            return [("", self.tr("(the first entry field)")), *names]
        return names

    def _held_signals(self) -> list[tuple[str, str]]:
        return [(part.name, part.name) for part in self.project.signals if isinstance(part, HeldSignal)]

    def _read_do(self, texts: DraftTexts) -> Edit:
        part = self.part
        if part is None:
            return lambda project: project
        changes: dict[str, Any] = {"do": texts[0], "stops": None}
        if texts[0] != "write":
            changes["value"] = None
        if texts[0] == "next-language":
            changes["signal"] = None
        return self.change(**changes)

    def _read_value_kind(self, texts: DraftTexts) -> Edit:
        if texts[0] == "number":
            return self.change(value=None)
        if not self._held_signals():
            raise ValueError(self.tr("the project has no held value yet; add one in the Signals view"))
        return self.change(value=HeldValue(from_=""), stops=None)


def cause_of(part: ScreenChange | Action) -> str:
    """`key`, `when` or `idle`."""
    if part.key is not None:
        return "key"
    return "when" if part.when is not None else "idle"


def _can_stop(part: Action) -> bool:
    return part.do not in ("", "begin-entry", "next-language") and not isinstance(part.value, HeldValue)


def _stop_word(part: Action) -> str:
    """`yes` or `no` where that is not what its deed means by itself."""
    if part.stops is None or part.stops == (part.do in CLEARING):
        return ""
    return "yes" if part.stops else "no"


def _value_kind(part: Action) -> str:
    if part.do != "write":
        return ""
    return "held" if isinstance(part.value, HeldValue) else "number"
