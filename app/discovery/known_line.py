"""What a project says already of the devices on a line that is searched: how they count, what must not be read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, get_args

from app.probing.found import FoundRange
from app.probing.requests import Untouched
from app.probing.untouched import all_of
from app.project.capability import never_read
from app.project.model import Project
from app.signals.numbering import Numbering, Table

_TABLES: Final[tuple[Table, ...]] = get_args(Table)


@dataclass(frozen=True, slots=True)
class KnownLine:
    """By unit address."""

    numbering: Mapping[int, Numbering] = field(default_factory=dict)
    never_read: Mapping[int, Untouched] = field(default_factory=dict)
    """In wire addresses."""

    @property
    def never(self) -> Untouched:
        """What is left out of a search of the whole line. Whoever looks for one device asks the others too, and whether
        a device still has the address that the project gives it is just what is not known."""
        return all_of(*self.never_read.values())

    def never_read_of(self, unit: int, never: Untouched) -> tuple[FoundRange, ...]:
        """Of what was left out, that which stays so for this unit in a project: not what it says of others alone."""
        own = self.never_read.get(unit, {})
        return tuple(
            FoundRange(table, span.start, span.stop - 1)
            for table, spans in never.items()
            for span in spans
            if span in own.get(table, ()) or span not in self.never.get(table, ())
        )


def known_line(project: Project, line: str) -> KnownLine:
    """Of the line of that name."""
    there = [follower for follower in project.followers if follower.line == line]
    return KnownLine(
        {follower.unit: follower.numbering for follower in there},
        {
            follower.unit: {
                table: [range(*span) for span in spans] for table in _TABLES if (spans := never_read(follower, table))
            }
            for follower in there
        },
    )
