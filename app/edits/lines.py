"""Editing the lines and the followers on them."""

from __future__ import annotations

from typing import Any

from app.edits.refused import changed
from app.edits.several import change_part, index_of, put_parts
from app.project.model import Follower, Project, SerialLine, SerialOverTcpLine, TcpLine

AnyLine = SerialLine | TcpLine | SerialOverTcpLine


def add_line(project: Project, line: AnyLine) -> Project:
    """With one more line, the last."""
    return put_parts(project, "line", {}, [line])


def change_line(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a line; `name` among them renames it, and its followers go along."""
    return change_part(project, "line", index_of(project, "line", name), **changes)


def replace_line(project: Project, name: str, line: AnyLine) -> Project:
    """With `line` in the place of the one called `name`, whose name it takes: of another kind, say."""
    index = index_of(project, "line", name)
    return put_parts(project, "line", {index: changed(line, name=name) if line.name != name else line})


def rename_line(project: Project, name: str, new_name: str) -> Project:
    """With another name for a line; its followers go along."""
    return change_line(project, name, name=new_name)


def add_follower(project: Project, follower: Follower) -> Project:
    """With one more follower, the last."""
    return put_parts(project, "follower", {}, [follower])


def change_follower(project: Project, name: str, /, **changes: Any) -> Project:
    """With other attributes of a follower; `name` among them renames it, and its signals go along."""
    return change_part(project, "follower", index_of(project, "follower", name), **changes)


def rename_follower(project: Project, name: str, new_name: str) -> Project:
    """With another name for a follower; its signals go along."""
    return change_follower(project, name, name=new_name)
