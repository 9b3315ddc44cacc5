"""What the windows offer says what it is for.

Ruff's D102 asks for a docstring on each method, also where Qt has given it its name and its meaning, and there it would
only be told again. So it is off in widgets/, and this asks for one wherever nothing of Qt's is overridden.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator
from functools import cached_property
from types import FunctionType
from typing import Any, Final

import widgets

OF_QT: Final = {"PySide6", "Shiboken", "pyqtgraph"}


def public_classes() -> Iterator[type]:
    for module in pkgutil.walk_packages(widgets.__path__, "widgets."):
        for each in vars(importlib.import_module(module.name)).values():
            if isinstance(each, type) and each.__module__ == module.name and not each.__name__.startswith("_"):
                yield each


def written(member: Any) -> FunctionType | None:
    """The function behind a method or a property; None if it is something else."""
    match member:
        case staticmethod() | classmethod():
            member = member.__func__
        case property():
            member = member.fget
        case cached_property():
            member = member.func
    return member if isinstance(member, FunctionType) else None


def overrides_qt(owner: type, name: str) -> bool:
    return any(base.__module__.partition(".")[0] in OF_QT and name in vars(base) for base in owner.__mro__)


def undocumented(owner: type) -> Iterator[str]:
    for name, member in vars(owner).items():
        function = written(member)
        if function is None or name.startswith("_") or function.__doc__ or overrides_qt(owner, name):
            continue
        if function.__module__ == owner.__module__:  # a dataclass and a protocol get some from elsewhere
            yield f"{owner.__module__}.{owner.__name__}.{name}"


def test_methods_that_are_not_qts_have_a_docstring() -> None:
    classes = list(public_classes())
    assert len(classes) > 100
    assert [name for owner in classes for name in undocumented(owner)] == []
