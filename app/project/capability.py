"""What may be asked of a follower: the ranges that are never read, and the function that writes a signal."""

from __future__ import annotations

from app.language import translate
from app.project.binding import Binding, bindings, refusal
from app.project.model import Follower, Project, WriteFunction
from app.signals.numbering import NotARegister, Table, wire_address
from app.signals.reading import Value


def never_read(follower: Follower, table: Table) -> tuple[tuple[int, int], ...]:
    """The wire addresses of `table` that are never read: each range from its first to behind its last.

    Numbers that name no register are passed over; a check finds them.
    """
    found = []
    for part in follower.never_read:
        if part.table == table:
            try:
                first, last = (wire_address(follower.numbering, table, number) for number in (part.first, part.last))
            except NotARegister:
                continue
            found.append((first, last + 1))
    return tuple(sorted(found))


def write_function(binding: Binding) -> WriteFunction | None:
    """The function code that writes a signal at `binding`, of those that its follower offers; None if there is none.

    One register by function 06 rather than 16, one coil by 05 rather than 15. A bit by 22, else with its register.
    A value of several registers only by 16: written one by one, the follower would hold half of it in between.
    """
    if binding.single:
        ways: tuple[WriteFunction, ...] = (5, 15)
    elif binding.bit is not None:
        ways = (22, 6, 16)
    else:
        ways = (6, 16) if binding.count == 1 else (16,)
    return next((way for way in ways if way in binding.follower.write_functions), None)


def not_offered(binding: Binding) -> str | None:
    """Why a signal cannot be written with what its follower offers; None if it can."""
    if write_function(binding) is not None:
        return None
    if binding.count > 1 and binding.bit is None:
        why = translate(
            "project",
            "a value of {count} registers is written with function 16, which device '{follower}' does not offer",
        )
    elif binding.bit is not None:
        why = translate(
            "project", "it is written with function 06 or 16, or 22, which device '{follower}' does not offer"
        )
    elif binding.single:
        why = translate("project", "it is written with function 05 or 15, which device '{follower}' does not offer")
    else:
        why = translate("project", "it is written with function 06 or 16, which device '{follower}' does not offer")
    return why.format(count=binding.count, follower=binding.follower.name)


def cannot_write(project: Project, name: str, value: Value | int) -> str | None:
    """Why the project forbids this value to be written to the signal, or its follower offers no way; None if it may.

    Asked where a value leaves the panel, and where it is handed to the line. What the line permits at the moment is
    another question, asked last as the request goes out (`app.line.writer`).
    """
    binding = bindings(project).get(name)
    return refusal(project, name, value) or (None if binding is None else not_offered(binding))
