"""Project files of earlier formats, brought forward one format at a time."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from app.language import translate
from app.project.model import FORMAT

Tables = dict[str, Any]
"""A project file as TOML has it: tables, lists, texts, numbers (`int` and `Decimal`)."""

MIGRATIONS: dict[int, Callable[[Tables], Tables]] = {}
"""For each earlier format, what makes the next one of it. The key `format` is set by `migrated`, not by the entries.

A new format 2 adds the entry `1: from_1_to_2` and a test with a file of format 1. Entries are never changed afterwards.
"""


class UnknownFormat(Exception):
    """The format cannot be read; the message says why, `hint` what to do."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


def migrated(tables: Tables) -> Tables:
    """`tables` in the present format.

    The key `format` must be a whole number. Raises UnknownFormat if it is newer than this program, or older than
    the entries of MIGRATIONS reach.
    """
    found = int(tables["format"])
    if found > FORMAT:
        raise UnknownFormat(
            translate("project", "the file has format {shown}, and this program reads formats up to {last}").format(
                shown=_shown(found), last=FORMAT
            ),
            translate("project", "open it with a newer Fanlight"),
        )
    for number in range(found, FORMAT) if found >= min(MIGRATIONS, default=FORMAT) else (found,):
        if number == FORMAT:
            break
        if number not in MIGRATIONS:
            raise UnknownFormat(
                translate("project", "there is no format {shown}").format(shown=_shown(found)),
                translate("project", "the present format is {format}").format(format=FORMAT),
            )
        tables = {**MIGRATIONS[number](tables), "format": number + 1}
    return tables


def _shown(number: int) -> str:
    return str(number) if abs(number) < 10**6 else translate("project", "of that number")
