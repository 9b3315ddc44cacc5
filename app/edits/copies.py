"""Copies of signals by an offset: the names by a number, the registers by a step, on the same device or another."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from app.edits.refused import EditRefused, changed, free_name, must_exist
from app.edits.several import index_of, put_parts
from app.language import translate
from app.project.model import AnySignal, BitSignal, Follower, Project, RegisterSignal
from app.project.problems import quoted
from app.signals.encoding import register_count
from app.signals.numbering import LAST_ADDRESS, NotARegister, wire_address

MOST_COPIES: Final = 2_000
"""More at once is a slip of the finger."""
LAST: Final = -1
"""The last number of a name, whichever that is."""
_NUMBER: Final = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class Copying:
    """How signals are copied."""

    copies: int = 1
    step: int = 1
    """Registers further on with each copy."""
    counted: int | None = LAST
    """Which number of the names is counted up, the first is 0; None: a number is put behind them, as is behind names
    that do not have it."""
    device: str | None = None
    """The device that the copies are read from; None: that of each signal."""
    first_unit: int | None = None
    """The unit address of the first of as many new devices, each with one copy; None: no device is added."""


@dataclass(frozen=True, slots=True)
class CopiedSignal:
    """A signal that a copy would be: `fault` says why it cannot be, `doubt` what is better looked at."""

    source: str
    name: str
    signal: AnySignal | None
    fault: str = ""
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class CopyPlan:
    """What would come of copying, all signals of the first copy first."""

    signals: tuple[CopiedSignal, ...]
    devices: tuple[Follower, ...] = ()
    """New ones."""
    skipped: int = 0
    """Numbers that are left out, with their registers, since a name with them is taken."""

    def fault(self) -> str:
        """Why it cannot be done; empty if it can."""
        return next(
            (
                translate("edits", "the copy {name}: {reason}").format(name=quoted(each.name), reason=each.fault)
                for each in self.signals
                if each.fault
            ),
            "",
        )


def counted_name(name: str, up: int, counted: int | None = LAST) -> str:
    """The name with a number of it so much higher, as many digits wide at least: "belt 09 speed", 2: "belt 11 speed".

    Without that number it counts as number 1 of its name: "speed", 1: "speed 2".
    """
    found = list(_NUMBER.finditer(name))
    if counted is None or not -len(found) <= counted < len(found):
        return f"{name} {up + 1}"
    match = found[counted]
    digits = match[0]
    return f"{name[: match.start()]}{int(digits) + up:0{len(digits)}d}{name[match.end() :]}"


def numbers_in(names: Iterable[str]) -> int:
    """How many numbers all of the names have."""
    return min((len(_NUMBER.findall(name)) for name in names), default=0)


def likely_step(project: Project, names: Sequence[str]) -> int:
    """How many registers further on the next number of these signals is likely to stand, at least 1.

    As many as they take from the first to the last; of a series, so many for each of its numbers.
    """
    registers = [part for name in names if isinstance(part := project.signal_named.get(name), RegisterSignal)]
    if not registers:
        return 1
    ends = [part.number + _size(part) for part in registers]
    span = max(ends) - min(part.number for part in registers)
    return max(1, -(-span // _first_free(names, frozenset(names), 1, LAST)))


def plan_copies(project: Project, names: Sequence[str], copying: Copying) -> CopyPlan:
    """What would come of copying these signals.

    Every copy of the group has a number that is free for all of its names; with each number registers are a step
    further on. A bit of a signal of the group is taken of that signal's copy; a bit of another is the next bit of it.
    A copy on the same device has no role in it: one signal has. Raises EditRefused for what is no number of copies or
    no signal, and for new devices of signals that belong to several.
    """
    for name in names:
        must_exist("signal", name, project.signal_named)
    if not 1 <= copying.copies <= MOST_COPIES:
        raise EditRefused(
            translate("edits", "the number of copies must be 1 to {most}, not {number}").format(
                most=MOST_COPIES, number=copying.copies
            )
        )
    return _Copier(project, names, copying).plan()


def add_copies(project: Project, names: Sequence[str], copying: Copying) -> Project:
    """With those copies behind the last of the signals that they are copies of, and their devices at the end.

    Raises EditRefused if one of them cannot be.
    """
    plan = plan_copies(project, names, copying)
    if fault := plan.fault():
        raise EditRefused(fault)
    found = [each.signal for each in plan.signals if each.signal is not None]
    after = put_parts(project, "follower", {}, plan.devices) if plan.devices else project
    after = put_parts(after, "signal", {}, found)
    chosen = set(names)
    last = max(index for index, part in enumerate(project.signals) if part.name in chosen)
    return changed(after, signals=(*project.signals[: last + 1], *found, *project.signals[last + 1 :]))


def duplicate_signal(project: Project, name: str) -> Project:
    """With a copy of a signal right behind it and those of its bits that follow it.

    A bit is the next one that is free; a role is not copied.
    """
    index = index_of(project, "signal", name)
    signal = project.signals[index]
    changes: dict[str, object] = {"name": free_name(name, project.signal_named)}
    if isinstance(signal, BitSignal):
        changes["bit"] = changed(signal.bit, number=_next_bit(project, signal))
    if getattr(signal, "drive_role", None) is not None:
        changes["drive_role"] = None
    copy = changed(signal, **changes)
    after = put_parts(project, "signal", {}, [copy])
    at = index + 1
    while at < len(project.signals) and _is_bit_of(project.signals[at], name):
        at += 1
    return changed(after, signals=(*project.signals[:at], copy, *project.signals[at:]))


def numbered_names(pattern: str, count: int, first: int, step: int = 1) -> tuple[str, ...]:
    """`count` names of a pattern in which '#' stands for the number, '##' for one of two digits at least, and so on.

    Raises EditRefused if there is no '#', or more than one run of them.
    """
    runs = re.findall("#+", pattern)
    if len(runs) != 1:
        raise EditRefused(translate("edits", "write '#' once where the number belongs: 'belt # speed'"))
    return tuple(pattern.replace(runs[0], f"{first + n * step:0{len(runs[0])}d}") for n in range(count))


class _Copier:
    def __init__(self, project: Project, names: Sequence[str], copying: Copying) -> None:
        self._project = project
        self._names = names
        self._how = copying
        self._devices: dict[str, Follower] = {}
        self._faults: dict[str, str] = {}
        """Of new devices, by their names."""
        self._taken: dict[tuple[str, str, int], str] = {}
        """Which signal has a register of a device and table."""

    def plan(self) -> CopyPlan:
        project, names, how = self._project, self._names, self._how
        for signal in project.signals:
            self._take(signal)
        found: list[CopiedSignal] = []
        taken = set(project.signal_named)
        up = 0
        for copy in range(how.copies):
            up = _first_free(names, taken, up + 1, how.counted)
            new = {name: counted_name(name, up, how.counted) for name in names}
            taken.update(new.values())
            device = self._device(copy, up)
            found += [self._copy(project.signal_named[name], new, up, device) for name in names]
        return CopyPlan(tuple(found), tuple(self._devices.values()), up - how.copies)

    def _device(self, copy: int, up: int) -> str | None:
        """The device of one copy, made if it is to be a new one; None: that of each signal."""
        how = self._how
        if how.first_unit is None:
            return how.device
        owners = {part.follower for each in self._names if isinstance(part := self._signal(each), RegisterSignal)}
        if len(owners) != 1:
            raise EditRefused(translate("edits", "a new device for each copy needs registers of one device only"))
        former = self._project.follower_named[owners.pop()]
        unit = how.first_unit + copy
        taken = {*self._project.follower_named, *self._devices, *self._faults}
        name = free_name(counted_name(former.name, up, how.counted), taken)
        there = next((one for one in self._project.followers if (one.line, one.unit) == (former.line, unit)), None)
        if there is not None:
            self._faults[name] = translate("edits", "unit address {unit} belongs to device '{device}'").format(
                unit=unit, device=there.name
            )
        else:
            try:
                self._devices[name] = changed(former, name=name, unit=unit)
            except EditRefused as refused:
                self._faults[name] = refused.message
        return name

    def _signal(self, name: str) -> AnySignal:
        return self._project.signal_named[name]

    def _copy(self, signal: AnySignal, new: dict[str, str], up: int, device: str | None) -> CopiedSignal:
        name = new[signal.name]
        stays = device is None or (isinstance(signal, RegisterSignal) and signal.follower == device)
        changes: dict[str, object] = {"name": name}
        if stays and getattr(signal, "drive_role", None) is not None:
            changes["drive_role"] = None
        if device in self._faults:
            return CopiedSignal(signal.name, name, None, self._faults[device])
        if isinstance(signal, RegisterSignal):
            changes |= {"number": signal.number + up * self._how.step, "follower": device or signal.follower}
        elif isinstance(signal, BitSignal):
            of = new.get(signal.bit.of)
            changes["bit"] = {"of": of or signal.bit.of, "number": signal.bit.number + (0 if of else up)}
        try:
            made = changed(signal, **changes)
        except EditRefused as refused:
            return CopiedSignal(signal.name, name, None, refused.message)
        fault = self._no_such_place(made)
        doubt = "" if fault else self._doubt(made)
        self._take(made)
        return CopiedSignal(signal.name, name, None if fault else made, fault, doubt)

    def _no_such_place(self, signal: AnySignal) -> str:
        """Why there is no such register or bit; empty if there is one."""
        if isinstance(signal, BitSignal):
            word = self._project.signal_named.get(signal.bit.of)
            if isinstance(word, RegisterSignal) and signal.bit.number >= _bits(word):
                return translate("edits", "signal '{word}' has no bit {bit}").format(
                    word=word.name, bit=signal.bit.number
                )
        if not isinstance(signal, RegisterSignal):
            return ""
        device = self._follower(signal)
        if device is None:
            return ""
        try:
            first = wire_address(device.numbering, signal.table, signal.number)
        except NotARegister as error:
            return str(error)
        if first + _size(signal) - 1 > LAST_ADDRESS:
            return translate("edits", "the value extends beyond the last register")
        if _size(signal) > device.max_registers:
            words = translate("edits", "device '{device}' returns {most} registers at once, the value has {size}")
            return words.format(device=device.name, most=device.max_registers, size=_size(signal))
        for part in device.never_read:
            if part.table == signal.table and part.first <= signal.number + _size(signal) - 1 <= part.last:
                return translate("edits", "device '{device}' is never asked for register {number}").format(
                    device=device.name, number=signal.number
                )
        return ""

    def _doubt(self, signal: AnySignal) -> str:
        """What is better looked at: another signal in the same register, no way to write on another device."""
        elsewhere = self._how.device is not None or self._how.first_unit is not None
        if isinstance(signal, BitSignal) and elsewhere and signal.bit.of in self._project.signal_named:
            return translate("edits", "a bit of '{word}', which is not copied").format(word=signal.bit.of)
        if not isinstance(signal, RegisterSignal):
            return ""
        if other := next((self._taken[place] for place in _places(signal) if place in self._taken), ""):
            return translate("edits", "'{signal}' is in the same register").format(signal=other)
        device = self._follower(signal)
        needed = (5, 15) if signal.table == "coil" else (6, 16) if _size(signal) == 1 else (16,)
        if signal.write and device is not None and not set(needed) & set(device.write_functions):
            return translate("edits", "device '{device}' offers no function that writes it").format(device=device.name)
        return ""

    def _follower(self, signal: RegisterSignal) -> Follower | None:
        return self._devices.get(signal.follower) or self._project.follower_named.get(signal.follower)

    def _take(self, signal: AnySignal) -> None:
        if isinstance(signal, RegisterSignal):
            for place in _places(signal):
                self._taken.setdefault(place, signal.name)


def _first_free(names: Sequence[str], taken: Collection[str], up: int, counted: int | None) -> int:
    while any(counted_name(name, up, counted) in taken for name in names):
        up += 1
    return up


def _is_bit_of(signal: AnySignal, name: str) -> bool:
    return isinstance(signal, BitSignal) and signal.bit.of == name


def _next_bit(project: Project, bit: BitSignal) -> int:
    """The next bit of the same signal that no other one is, then the first such; the same if there is none."""
    word = project.signal_named.get(bit.bit.of)
    count = _bits(word) if isinstance(word, RegisterSignal) else 64
    taken = {each.bit.number for each in project.signals if isinstance(each, BitSignal) and each.bit.of == bit.bit.of}
    order = [*range(bit.bit.number + 1, count), *range(bit.bit.number)]
    return next((number for number in order if number not in taken), bit.bit.number)


def _places(signal: RegisterSignal) -> list[tuple[str, str, int]]:
    return [(signal.follower, signal.table, signal.number + at) for at in range(_size(signal))]


def _bits(word: RegisterSignal) -> int:
    return 16 * _size(word)


def _size(signal: RegisterSignal) -> int:
    if signal.table in ("coil", "discrete"):
        return 1
    try:
        return register_count(signal.encoding, signal.length)
    except ValueError:
        return 1
