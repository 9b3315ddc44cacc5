"""Editing screen changes and actions: what keys, conditions and time do."""

from __future__ import annotations

from typing import Any

from app.edits.refused import changed, made, with_names_in_order
from app.edits.several import change_part, delete_parts, rule_leads_on
from app.project.model import Action, Condition, Project, ScreenChange


def add_screen_change(project: Project, screen_change: ScreenChange, at: int | None = None) -> Project:
    """With one more screen change, at index `at` or at the end; of two overrides that hold, the earlier is shown."""
    at = len(project.screen_changes) if at is None else max(0, min(at, len(project.screen_changes)))
    changes = (*project.screen_changes[:at], screen_change, *project.screen_changes[at:])
    after = changed(project, screen_changes=changes)
    return after if rule_leads_on(project, screen_change) else with_names_in_order(after, project)


def edit_screen_change(project: Project, index: int, **changes: Any) -> Project:
    """With other attributes of a screen change. For another cause, set that and the old one, to None, at once."""
    return change_part(project, "screen_change", index, **changes)


def delete_screen_change(project: Project, index: int) -> Project:
    """Without a screen change."""
    return delete_parts(project, "screen_change", [index])


def add_action(project: Project, action: Action, at: int | None = None) -> Project:
    """With one more action, at index `at` or at the end."""
    at = len(project.actions) if at is None else max(0, min(at, len(project.actions)))
    actions = (*project.actions[:at], action, *project.actions[at:])
    after = changed(project, actions=actions)
    return after if rule_leads_on(project, action) else with_names_in_order(after, project)


def change_action(project: Project, index: int, **changes: Any) -> Project:
    """With other attributes of an action. To change its cause, set the new one and the old one to None at once."""
    return change_part(project, "action", index, **changes)


def screen_change(**attributes: Any) -> ScreenChange:
    """A new screen change. Raises EditRefused, in words, if the attributes do not fit."""
    return made(ScreenChange, **attributes)


def action(**attributes: Any) -> Action:
    """A new action. Raises EditRefused, in words, if the attributes do not fit."""
    return made(Action, **attributes)


def condition(**attributes: Any) -> Condition:
    """A new condition. Raises EditRefused, in words, if the attributes do not fit."""
    return made(Condition, **attributes)
