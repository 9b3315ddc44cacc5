"""Copies of signals that count up: the names by their number, the registers by a step, bits to the next bit."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from typing import Final

from app.edits.refused import EditRefused, changed, must_exist
from app.edits.several import put_parts
from app.language import translate
from app.project.model import AnySignal, BitSignal, Project, RegisterSignal
from app.project.problems import quoted
from app.signals.encoding import register_count

MOST_COPIES: Final = 2_000
"""More at once is a slip of the finger."""

_LAST_NUMBER: Final = re.compile(r"(\d+)(?=\D*$)")


def counted_name(name: str, up: int) -> str:
    """The name with its last number so much higher, as many digits wide at least: "belt 09 speed", 2: "belt 11 speed".

    A name without a number counts as number 1: "speed", 1: "speed 2".
    """
    match = _LAST_NUMBER.search(name)
    if match is None:
        return f"{name} {up + 1}"
    digits = match[1]
    return f"{name[: match.start()]}{int(digits) + up:0{len(digits)}d}{name[match.end() :]}"


def likely_step(project: Project, names: Sequence[str]) -> int:
    """How many registers further on the next number of these signals is likely to stand, at least 1.

    As many as they take from the first to the last; of a series, so many for each of its numbers.
    """
    registers = [part for name in names if isinstance(part := project.signal_named.get(name), RegisterSignal)]
    if not registers:
        return 1
    ends = [part.number + _size(part) for part in registers]
    span = max(ends) - min(part.number for part in registers)
    return max(1, -(-span // _first_free(names, frozenset(names), 1)))


def counted_copies(project: Project, names: Sequence[str], copies: int, step: int) -> tuple[AnySignal, ...]:
    """`copies` of each of these signals, all of the first number first.

    Every copy of the group has a number that is free for all of its names; with each number registers are `step`
    further on. A bit of a signal of the group is taken of that signal's copy; a bit of another is the next bit of it.
    Raises EditRefused if a copy cannot be: no such register or bit, a name too long.
    """
    for name in names:
        must_exist("signal", name, project.signal_named)
    if not 1 <= copies <= MOST_COPIES:
        raise EditRefused(
            translate("edits", "the number of copies must be 1 to {most}, not {number}").format(
                most=MOST_COPIES, number=copies
            )
        )
    found: list[AnySignal] = []
    taken = set(project.signal_named)
    up = 0
    for _ in range(copies):
        up = _first_free(names, taken, up + 1)
        new = {name: counted_name(name, up) for name in names}
        taken.update(new.values())
        for name in names:
            try:
                found.append(_copy(project.signal_named[name], new, up, step))
            except EditRefused as refused:
                raise EditRefused(
                    translate("edits", "the copy {name}: {reason}").format(
                        name=quoted(new[name]), reason=refused.message
                    )
                ) from None
    return tuple(found)


def add_counted_copies(project: Project, names: Sequence[str], copies: int, step: int) -> Project:
    """With those copies behind the last of the signals that they are copies of."""
    found = counted_copies(project, names, copies, step)
    after = put_parts(project, "signal", {}, found)
    last = max(index for index, part in enumerate(project.signals) if part.name in set(names))
    return changed(after, signals=(*project.signals[: last + 1], *found, *project.signals[last + 1 :]))


def numbered_names(pattern: str, count: int, first: int, step: int = 1) -> tuple[str, ...]:
    """`count` names of a pattern in which '#' stands for the number, '##' for one of two digits at least, and so on.

    Raises EditRefused if there is no '#', or more than one run of them.
    """
    runs = re.findall("#+", pattern)
    if len(runs) != 1:
        raise EditRefused(translate("edits", "write '#' once where the number belongs: 'belt # speed'"))
    return tuple(pattern.replace(runs[0], f"{first + n * step:0{len(runs[0])}d}") for n in range(count))


def _first_free(names: Sequence[str], taken: Collection[str], up: int) -> int:
    while any(counted_name(name, up) in taken for name in names):
        up += 1
    return up


def _copy(signal: AnySignal, new: dict[str, str], up: int, step: int) -> AnySignal:
    name = new[signal.name]
    if isinstance(signal, RegisterSignal):
        return changed(signal, name=name, number=signal.number + up * step)
    if isinstance(signal, BitSignal):
        of = new.get(signal.bit.of)
        bit = changed(signal.bit, of=of) if of else changed(signal.bit, number=signal.bit.number + up)
        return changed(signal, name=name, bit=bit)
    return changed(signal, name=name)


def _size(signal: RegisterSignal) -> int:
    if signal.table in ("coil", "discrete"):
        return 1
    try:
        return register_count(signal.encoding, signal.length)
    except ValueError:
        return 1
