"""Editing the lines and the followers on them."""

from __future__ import annotations

from typing import Any

from app.project.edits.refused import changed, free_name, moved, must_be_index, must_exist
from app.project.edits.several import delete_parts, put_parts
from app.project.model import Follower, Project, SerialLine, SerialOverTcpLine, TcpLine

AnyLine = SerialLine | TcpLine | SerialOverTcpLine


def add_line(project: Project, line: AnyLine) -> Project:
    """With one more line, the last."""
    return put_parts(project, "line", {}, [line])


def change_line(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a line; `name` among them renames it, and its followers go along."""
    index = _line_index(project, name)
    return put_parts(project, "line", {index: changed(project.lines[index], **changes)})


def replace_line(project: Project, name: str, line: AnyLine) -> Project:
    """With `line` in the place of the one called `name`, whose name it takes: of another kind, say."""
    index = _line_index(project, name)
    return put_parts(project, "line", {index: changed(line, name=name) if line.name != name else line})


def rename_line(project: Project, name: str, new_name: str) -> Project:
    """With another name for a line; its followers go along."""
    return change_line(project, name, name=new_name)


def delete_line(project: Project, name: str) -> Project:
    """Without a line. Refused while followers are on it, with their list."""
    return delete_parts(project, "line", [_line_index(project, name)])


def move_line(project: Project, name: str, to: int) -> Project:
    """With a line at index `to` of the list."""
    index = _line_index(project, name)
    must_be_index("line", to, len(project.lines))
    return project if to == index else changed(project, lines=moved(project.lines, index, to))


def add_follower(project: Project, follower: Follower) -> Project:
    """With one more follower, the last."""
    return put_parts(project, "follower", {}, [follower])


def duplicate_follower(project: Project, name: str, new_name: str | None = None) -> Project:
    """With a copy of a follower at the end, without its signals."""
    new_name = free_name(name, project.follower_named) if new_name is None else new_name
    return add_follower(project, changed(project.followers[_follower_index(project, name)], name=new_name))


def change_follower(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a follower; `name` among them renames it, and its signals go along."""
    index = _follower_index(project, name)
    return put_parts(project, "follower", {index: changed(project.followers[index], **changes)})


def rename_follower(project: Project, name: str, new_name: str) -> Project:
    """With another name for a follower; its signals go along."""
    return change_follower(project, name, name=new_name)


def delete_follower(project: Project, name: str) -> Project:
    """Without a follower. Refused while signals are read from it, with their list."""
    return delete_parts(project, "follower", [_follower_index(project, name)])


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
