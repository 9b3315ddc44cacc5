"""Editing turns and actions: what keys, conditions and time do."""

from __future__ import annotations

from typing import Any

from app.project.edits.refused import changed, made, moved, must_be_index, with_names_in_order
from app.project.model import Action, Condition, Project, Turn


def add_turn(project: Project, turn: Turn, at: int | None = None) -> Project:
    """With one more turn, at index `at` or at the end; of two overrides that hold, the earlier is shown."""
    at = len(project.turns) if at is None else max(0, min(at, len(project.turns)))
    return with_names_in_order(changed(project, turns=(*project.turns[:at], turn, *project.turns[at:])), project)


def change_turn(project: Project, index: int, **changes: Any) -> Project:
    """With other attributes of a turn. To change its cause, set the new one and the old one to None at once."""
    must_be_index("turn", index, len(project.turns))
    turn = changed(project.turns[index], **changes)
    if turn == project.turns[index]:
        return project
    turns = (*project.turns[:index], turn, *project.turns[index + 1 :])
    return with_names_in_order(changed(project, turns=turns), project)


def delete_turn(project: Project, index: int) -> Project:
    """Without a turn."""
    must_be_index("turn", index, len(project.turns))
    return changed(project, turns=(*project.turns[:index], *project.turns[index + 1 :]))


def move_turn(project: Project, index: int, to: int) -> Project:
    """With a turn at index `to` of the list."""
    must_be_index("turn", index, len(project.turns))
    must_be_index("turn", to, len(project.turns))
    return project if to == index else changed(project, turns=moved(project.turns, index, to))


def add_action(project: Project, action: Action, at: int | None = None) -> Project:
    """With one more action, at index `at` or at the end."""
    at = len(project.actions) if at is None else max(0, min(at, len(project.actions)))
    actions = (*project.actions[:at], action, *project.actions[at:])
    return with_names_in_order(changed(project, actions=actions), project)


def change_action(project: Project, index: int, **changes: Any) -> Project:
    """With other attributes of an action. To change its cause, set the new one and the old one to None at once."""
    must_be_index("action", index, len(project.actions))
    action = changed(project.actions[index], **changes)
    if action == project.actions[index]:
        return project
    actions = (*project.actions[:index], action, *project.actions[index + 1 :])
    return with_names_in_order(changed(project, actions=actions), project)


def delete_action(project: Project, index: int) -> Project:
    """Without an action."""
    must_be_index("action", index, len(project.actions))
    return changed(project, actions=(*project.actions[:index], *project.actions[index + 1 :]))


def move_action(project: Project, index: int, to: int) -> Project:
    """With an action at index `to` of the list."""
    must_be_index("action", index, len(project.actions))
    must_be_index("action", to, len(project.actions))
    return project if to == index else changed(project, actions=moved(project.actions, index, to))


def turn(**attributes: Any) -> Turn:
    """A new turn. Raises EditRefused, in words, if the attributes do not fit."""
    return made(Turn, **attributes)


def action(**attributes: Any) -> Action:
    """A new action. Raises EditRefused, in words, if the attributes do not fit."""
    return made(Action, **attributes)


def condition(**attributes: Any) -> Condition:
    """A new condition. Raises EditRefused, in words, if the attributes do not fit."""
    return made(Condition, **attributes)
