"""What each key of the panel does on one screen, and which rules say so."""

from __future__ import annotations

from dataclasses import dataclass

from app.panel.layout import PanelLayout
from app.project.model import Project
from widgets.design.behaviour.rule_edits import RuleEdits, RulePlace
from widgets.design.behaviour.sentences import deed_text, translate
from widgets.document.unfinished import BehaviourRule


@dataclass(frozen=True, slots=True)
class KeyLine:
    """One thing that a key does: the words, the rule that says so, and whether it does so on every screen.

    Without words the key is free. `place` None: no rule, but that the key begins entry (see `EntryKeys`).
    """

    key: str
    words: str = ""
    place: RulePlace | None = None
    everywhere: bool = False
    complete: bool = True


def key_lines(edits: RuleEdits, screen: str) -> list[KeyLine]:
    """A line for everything that a key does on this screen, in the order of the keys; one for each that is free."""
    project = edits.project
    layout = PanelLayout.of(project)
    at = {id(action): index for index, action in enumerate(project.actions)}
    found: list[KeyLine] = []
    for key in project.panel.keys:
        uses = [
            _use(project, key, action, ("action", at[id(action)]))
            for action in layout.behaviour.key_actions(screen, key)
        ]
        change = layout.behaviour.key_screen_change(screen, key)
        if change is not None:
            uses.append(_use(project, key, change[1], ("screen_change", change[0])))
        uses += [
            KeyLine(key, translate("Keys", "new: not complete"), edits.begun.place(project, rule), complete=False)
            for rule in edits.begun.all()
            if rule.key == key and rule.from_ in (None, screen) and edits.begun.is_new(rule)
        ]
        if not uses and key == project.panel.entry.begin and screen in project.screen_named:
            fields = layout.screen(screen).entry_fields
            if fields:
                signal = project.screen_named[screen].fields[fields[0]].signal
                uses.append(KeyLine(key, translate("Keys", "edits {signal}").format(signal=signal)))
        found += uses or [KeyLine(key)]
    return found


def _use(project: Project, key: str, rule: BehaviourRule, place: RulePlace) -> KeyLine:
    return KeyLine(key, deed_text(project, rule), place, everywhere=rule.from_ is None)
