"""Editing the lines and the followers on them."""

from __future__ import annotations

from typing import Any

from app.project.edits.refused import (
    changed,
    free_name,
    moved,
    must_be_free,
    must_be_index,
    must_be_unused,
    must_exist,
    with_names_in_order,
)
from app.project.model import Follower, Project, SerialLine, SerialOverTcpLine, TcpLine
from app.project.references import renamed

AnyLine = SerialLine | TcpLine | SerialOverTcpLine


def add_line(project: Project, line: AnyLine) -> Project:
    """With one more line, the last."""
    must_be_free("line", line.name, project.line_named)
    return changed(project, lines=(*project.lines, line))


def change_line(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a line; `name` among them renames it, and its followers go along."""
    new_name = changes.pop("name", name)
    if changes:
        project = replace_line(project, name, changed(project.lines[_line_index(project, name)], **changes))
    return rename_line(project, name, new_name)


def replace_line(project: Project, name: str, line: AnyLine) -> Project:
    """With `line` in the place of the one called `name`, whose name it takes: of another kind, say."""
    index = _line_index(project, name)
    line = changed(line, name=name) if line.name != name else line
    return project if line == project.lines[index] else _with_line(project, index, line)


def rename_line(project: Project, name: str, new_name: str) -> Project:
    """With another name for a line; its followers go along."""
    index = _line_index(project, name)
    if new_name == name:
        return project
    must_be_free("line", new_name, project.line_named)
    after = _with_line(project, index, changed(project.lines[index], name=new_name))
    return renamed(after, "line", name, new_name)


def delete_line(project: Project, name: str) -> Project:
    """Without a line. Refused while followers are on it, with their list."""
    index = _line_index(project, name)
    must_be_unused(project, "line", name)
    return changed(project, lines=(*project.lines[:index], *project.lines[index + 1 :]))


def add_follower(project: Project, follower: Follower) -> Project:
    """With one more follower, the last."""
    must_be_free("follower", follower.name, project.follower_named)
    return with_names_in_order(changed(project, followers=(*project.followers, follower)), project)


def duplicate_follower(project: Project, name: str, new_name: str | None = None) -> Project:
    """With a copy of a follower at the end, without its signals."""
    new_name = free_name(name, project.follower_named) if new_name is None else new_name
    return add_follower(project, changed(project.followers[_follower_index(project, name)], name=new_name))


def change_follower(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a follower; `name` among them renames it, and its signals go along."""
    new_name = changes.pop("name", name)
    index = _follower_index(project, name)
    follower = changed(project.followers[index], **changes)
    if follower != project.followers[index]:
        project = with_names_in_order(_with_follower(project, index, follower), project)
    return rename_follower(project, name, new_name)


def rename_follower(project: Project, name: str, new_name: str) -> Project:
    """With another name for a follower; its signals go along."""
    index = _follower_index(project, name)
    if new_name == name:
        return project
    must_be_free("follower", new_name, project.follower_named)
    after = _with_follower(project, index, changed(project.followers[index], name=new_name))
    return renamed(after, "follower", name, new_name)


def delete_follower(project: Project, name: str) -> Project:
    """Without a follower. Refused while signals are read from it, with their list."""
    index = _follower_index(project, name)
    must_be_unused(project, "follower", name)
    return changed(project, followers=(*project.followers[:index], *project.followers[index + 1 :]))


def move_follower(project: Project, name: str, to: int) -> Project:
    """With a follower at index `to` of the list."""
    index = _follower_index(project, name)
    must_be_index("follower", to, len(project.followers))
    return project if to == index else changed(project, followers=moved(project.followers, index, to))


def _line_index(project: Project, name: str) -> int:
    must_exist("line", name, project.line_named)
    line = project.line_named[name]
    return next(index for index, other in enumerate(project.lines) if other is line)


def _follower_index(project: Project, name: str) -> int:
    must_exist("follower", name, project.follower_named)
    follower = project.follower_named[name]
    return next(index for index, other in enumerate(project.followers) if other is follower)


def _with_line(project: Project, index: int, line: AnyLine) -> Project:
    return changed(project, lines=(*project.lines[:index], line, *project.lines[index + 1 :]))


def _with_follower(project: Project, index: int, follower: Follower) -> Project:
    return changed(project, followers=(*project.followers[:index], follower, *project.followers[index + 1 :]))
