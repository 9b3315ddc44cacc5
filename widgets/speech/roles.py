"""Roles for assistive technology of widgets that draw themselves: Qt takes such a one for a mere frame."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QObject
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QAccessibleWidget, QWidget
from shiboken6 import isValid

_ROLES: Final[dict[str, QAccessible.Role]] = {}
_made: list[QAccessibleInterface] = []
"""Qt owns them and deletes each with its widget; what is kept here keeps Python from doing so before."""


def give_role(kind: type[QWidget], role: QAccessible.Role) -> None:
    """Let every widget of this class have this role."""
    if not _ROLES:
        QAccessible.installFactory(_make)
    _ROLES[kind.__name__] = role


def _make(kind: str, widget: QObject) -> QAccessibleInterface | None:
    role = _ROLES.get(kind)
    if role is None or not isinstance(widget, QWidget):
        return None
    _made[:] = [each for each in _made if isValid(each)]
    made = QAccessibleWidget(widget, role)
    _made.append(made)
    return made
