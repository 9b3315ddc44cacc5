"""A signal that looks wrong: every way to read its registers and their neighbours, and the edits that put it right.

Off by one, another order of words or bytes, another data type, another scale. The caller reads the registers live or
takes them out of a snapshot, and types what the device's own display shows; nothing here asks a line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any, Final, Literal, NamedTuple

from app.edits.lines import change_follower
from app.edits.refused import EditRefused
from app.edits.signals import change_signal
from app.errors import FanlightError
from app.language import mark, translate
from app.matching.neighbours import likely_orders, neighbours
from app.matching.reading_ways import WAYS, RegisterWords, Way
from app.matching.scale import FittedScale, NoStraightLine, ScalePoint, fit
from app.matching.usual_scales import USUAL_SCALES
from app.project.binding import Binding, bind, unbound
from app.project.capability import never_read
from app.project.model import Project, RegisterSignal, Scale
from app.project.problems import quoted
from app.signals.encoding import exact, has_word_order, is_text
from app.signals.numbering import LAST_ADDRESS, NotARegister, Numbering, documented_number
from app.signals.typed import number
from app.snapshots.snapshot import RegisterSnapshot

_LONGEST: Final = 4
"""Registers of the longest number."""
_WEIGHTS: Final = sum(each.weight for each in USUAL_SCALES)
_SELDOM: Final = {"address": 0.2, "encoding": 0.1, "word_order": 0.2, "byte_order": 0.05}
"""How likely it is that each is wrong, beside that it is right (guesses of ours, of the order of magnitude)."""

Standing = Literal["fits", "confirmed", "possible", "clear", "unknown", "does not fit"]
"""How a way stands to what the display showed: a usual scale fits, a free one confirmed by a reading more than it
needs, a free one that nothing confirms; without readings an order that alone makes sense, or nothing known."""
_RANK: Final[dict[Standing, int]] = {
    "fits": 0, "confirmed": 1, "clear": 2, "possible": 3, "unknown": 4, "does not fit": 5
}  # fmt: skip


class ShownValue(NamedTuple):
    """What the device's own display shows, give or take half of its last digit."""

    value: Fraction
    half: Fraction

    @classmethod
    def of(cls, text: str) -> ShownValue:
        """As a person types it: 41.65. Raises ValueError, in words."""
        typed = number(text)
        exponent = typed.as_tuple().exponent
        return cls(Fraction(typed), Fraction(10) ** (exponent if isinstance(exponent, int) else 0) / 2)


class Moment(NamedTuple):
    """The registers at one time, and what the display showed then, if somebody looked."""

    registers: RegisterWords
    shown: ShownValue | None = None


@dataclass(frozen=True, slots=True)
class WayToRead:
    """One way to read the signal: from a wire address on, in a data type and orders, by a scale."""

    address: int
    way: Way
    raw: int | float | None
    """What stands there now; None where it holds no number of this kind."""
    present: bool
    """It is what the project says now."""
    standing: Standing = "unknown"
    fitted: FittedScale | None = None
    """The scale that the display asks for; None: that of the signal, as far as known."""
    evidence: str = ""
    """In a sentence; empty where there is none."""
    prior: float = 1.0


class Repair(NamedTuple):
    """One edit of the project, an ordinary one."""

    key: Literal["numbering", "register", "encoding", "follower orders", "signal order", "scale"]
    words: str
    """Of its button."""
    consequence: str
    """What it changes, in one sentence."""
    edit: Callable[[Project], Project]


def can_be_explained(project: Project, name: str) -> bool:
    """Whether it is a number in registers that can be found on the line: of nothing else there are several ways."""
    signal = project.signal_named.get(name)
    return (
        isinstance(signal, RegisterSignal)
        and signal.table in ("holding", "input")
        and not is_text(signal.encoding)
        and name not in unbound(project)
    )


def registers_to_read(project: Project, name: str) -> tuple[tuple[int, int], ...]:
    """The wire addresses that the ways need, as (first, count); without those that must never be read."""
    binding = bind(project, name)
    wanted = range(max(binding.address - 1, 0), min(binding.address + _LONGEST, LAST_ADDRESS) + 1)
    kept_off = never_read(binding.follower, binding.table)
    allowed = [at for at in wanted if not any(first <= at < end for first, end in kept_off)]
    runs: list[tuple[int, int]] = []
    for at in allowed:
        first, count = runs[-1] if runs else (at, 0)
        if first + count == at and count < binding.follower.max_registers:
            runs[-1:] = [(first, count + 1)]
        else:
            runs.append((at, 1))
    return tuple(runs)


def moment_in(project: Project, name: str, snapshot: RegisterSnapshot) -> Moment:
    """What a snapshot says of the registers of the signal and around it; nothing is asked, so those that must never be
    read may be among them. Raises FanlightError if it is of another device, or has not all registers of the signal."""
    binding = bind(project, name)
    if snapshot.unit != binding.follower.unit:
        raise FanlightError(
            mark("discovery", "this snapshot is of unit {unit}, and device {device} is unit {own}"),
            unit=snapshot.unit,
            device=quoted(binding.follower.name),
            own=binding.follower.unit,
        )
    if snapshot.words(binding.table, binding.address, binding.count) is None:
        raise FanlightError(
            mark("discovery", "this snapshot does not hold the registers of {signal}"), signal=quoted(name)
        )
    around = ((binding.table, at) for at in range(binding.address - 1, binding.address + _LONGEST + 1))
    return Moment({place: snapshot.registers[place] for place in around if place in snapshot.registers})


def explanations(project: Project, name: str, history: Sequence[Moment]) -> tuple[WayToRead, ...]:
    """All ways to read the signal, the likeliest first; without readings of the display the present one is first.

    `history` is one moment or more, the newest last.
    """
    binding = bind(project, name)
    found = [
        _explained(binding, history, each.address, each.way, each.raws)
        for each in neighbours([moment.registers for moment in history], binding.table, binding.address)
    ]
    if not any(moment.shown is not None and moment.shown.value for moment in history):
        found = _by_order(binding, history, found)
    order = {way: at for at, way in enumerate(WAYS)}

    def key(each: WayToRead) -> tuple[Any, ...]:
        first = each.present and each.standing in ("unknown", "clear")
        return not first, _RANK[each.standing], -each.prior, each.way.width, order[each.way], each.address

    return tuple(sorted(found, key=key))


def repairs(project: Project, name: str, chosen: WayToRead) -> tuple[Repair, ...]:
    """The edits that lead to one way to read the signal, each by itself; none where the project says it already."""
    return tuple(
        repair for repair in _repairs(project, name, chosen) if repair is not None and _leads_somewhere(project, repair)
    )


def scale_of(fitted: FittedScale) -> Scale | None:
    """The scale as a signal has it; None where the value is the raw number."""
    raw, value = fitted.points
    return None if raw == value else Scale(raw=raw, value=value)


# What speaks for a way -----------------------------------------------------------------------------------------------


def _present(binding: Binding) -> Way:
    base = binding.base
    words = binding.word_order if has_word_order(base.encoding) else "high-first"
    return Way(base.encoding, words, binding.follower.byte_order)


def _explained(
    binding: Binding, history: Sequence[Moment], address: int, way: Way, raws: Sequence[int | float | None]
) -> WayToRead:
    present = _present(binding)
    prior = 1.0
    for differs, what in (
        (address != binding.address, "address"),
        (way.encoding != present.encoding, "encoding"),
        (has_word_order(way.encoding) and way.word_order != binding.word_order, "word_order"),
        (way.byte_order != present.byte_order, "byte_order"),
    ):
        prior *= _SELDOM[what] if differs else 1.0
    same = address == binding.address and way == present
    bare = WayToRead(address, way, raws[-1], same, prior=prior)
    seen = [(raw, moment.shown) for raw, moment in zip(raws, history, strict=True) if moment.shown is not None]
    if not any(shown.value for _, shown in seen):
        return bare
    if any(raw is None for raw, _ in seen):
        return _with(bare, "does not fit")
    points = [ScalePoint(exact(way.encoding, raw), shown.value, shown.half) for raw, shown in seen if raw is not None]
    return _judged(binding, bare, points)


def _judged(binding: Binding, bare: WayToRead, points: Sequence[ScalePoint]) -> WayToRead:
    several = len({point.raw for point in points}) > 1
    if all(abs(binding.scale.value(point.raw) - point.value) <= point.half for point in points):
        text = translate("discovery", "its scale gives what the display shows")
        return _with(bare, "fits", text if several else _unsure(text))
    try:
        fitted = fit(points)
    except NoStraightLine as error:
        return _with(bare, "does not fit", str(error) if len(points) > 1 else "")
    if fitted.usual is not None:
        text = translate("discovery", "{raw} = {value} gives what the display shows").format(
            raw=fitted.usual.raw, value=fitted.usual.value
        )
        prior = bare.prior * fitted.usual.weight / _WEIGHTS
        return _with(bare, "fits", text if several else _unsure(text), fitted, prior)
    if fitted.spare:
        text = translate("discovery", "a straight line fits all readings")
        return _with(bare, "confirmed", text, fitted)
    if not several:
        return _with(bare, "does not fit")
    text = translate("discovery", "a straight line; a third reading must confirm it")
    return _with(bare, "possible", text, fitted)


def _unsure(text: str) -> str:
    return translate("discovery", "{text}; check at another value").format(text=text)


def _with(
    bare: WayToRead,
    standing: Standing,
    evidence: str = "",
    fitted: FittedScale | None = None,
    prior: float | None = None,
) -> WayToRead:
    return WayToRead(bare.address, bare.way, bare.raw, bare.present, standing, fitted, evidence, prior or bare.prior)


def _by_order(binding: Binding, history: Sequence[Moment], found: Sequence[WayToRead]) -> list[WayToRead]:
    """What the orders say by themselves: a counter's fast word, a float's plausible size."""
    registers = [moment.registers for moment in history]
    orders = likely_orders(registers, binding.table, binding.address, binding.base.encoding)
    said = {Way(binding.base.encoding, order.word_order, order.byte_order): order for order in orders}
    told = []
    for each in found:
        order = said.get(each.way) if each.address == binding.address else None
        standing: Standing = "clear" if order is not None and order.clear else "unknown"
        told.append(each if order is None else _with(each, standing, order.evidence))
    return told


# What puts it right --------------------------------------------------------------------------------------------------


def _repairs(project: Project, name: str, chosen: WayToRead) -> Iterator[Repair | None]:
    binding = bind(project, name)
    follower, way = binding.follower, chosen.way
    if chosen.address != binding.address:
        yield _renumber_device(project, binding, chosen.address)
        yield _renumber_signal(binding, chosen.address)
    if way.encoding != binding.base.encoding:
        yield Repair(
            "encoding",
            translate("discovery", "Data type {encoding}").format(encoding=way.encoding),
            translate("discovery", "Reads {signal} as {encoding} instead of {former}.").format(
                signal=quoted(name), encoding=way.encoding, former=binding.base.encoding
            ),
            lambda project: change_signal(project, name, encoding=way.encoding),
        )
    ordered = has_word_order(way.encoding)
    words = ordered and way.word_order != binding.word_order
    changes: dict[str, Any] = {}
    if words and binding.base.word_order is None:
        changes["word_order"] = way.word_order
    if way.byte_order != follower.byte_order:
        changes["byte_order"] = way.byte_order
    if changes:
        yield _device_orders(project, binding, changes)
    if words:
        yield Repair(
            "signal order",
            translate("discovery", "Word order of this signal"),
            translate("discovery", "Only {signal} is read with the other word first.").format(signal=quoted(name)),
            lambda project: change_signal(project, name, word_order=way.word_order),
        )
    if chosen.fitted is not None:
        scale = scale_of(chosen.fitted)
        if scale is None:
            said = translate("discovery", "The value of {signal} is the raw number.").format(signal=quoted(name))
        else:
            said = translate("discovery", "Raw {raw0} is {value0} and raw {raw1} is {value1} {unit}").format(
                raw0=_plain(scale.raw[0]),
                raw1=_plain(scale.raw[1]),
                value0=_plain(scale.value[0]),
                value1=_plain(scale.value[1]),
                unit=binding.signal.unit,
            )
            said = said.rstrip() + "."
        yield Repair(
            "scale",
            translate("discovery", "This scale"),
            said,
            lambda project: change_signal(project, name, scale=scale),
        )


def _renumber_device(project: Project, binding: Binding, address: int) -> Repair | None:
    """By the numbering of the device: its manual counts from 1 and the project from 0, or the other way round."""
    follower = binding.follower
    to: Numbering | None = None
    if follower.numbering == "from-0" and address == binding.address - 1:
        to = "from-1"
    if follower.numbering == "from-1" and address == binding.address + 1:
        to = "from-0"
    if to is None:
        return None
    count = sum(isinstance(one, RegisterSignal) and one.follower == follower.name for one in project.signals)
    counted = (
        translate("discovery", "The manual of {device} counts from 1: all its signals ({count}) are read one lower.")
        if to == "from-1"
        else translate(
            "discovery", "The manual of {device} counts from 0: all its signals ({count}) are read one higher."
        )
    )
    return Repair(
        "numbering",
        translate("discovery", "Numbering of the device"),
        counted.format(device=quoted(follower.name), count=count),
        lambda project: change_follower(project, follower.name, numbering=to),
    )


def _renumber_signal(binding: Binding, address: int) -> Repair | None:
    base = binding.base
    try:
        to = documented_number(binding.follower.numbering, base.table, address, 6 if base.number >= 100_000 else 5)
    except NotARegister:
        return None
    return Repair(
        "register",
        translate("discovery", "Register {number}").format(number=to),
        translate("discovery", "Only {signal} is read from register {number} instead of {former}.").format(
            signal=quoted(base.name), number=to, former=base.number
        ),
        lambda project: change_signal(project, base.name, number=to),
    )


def _device_orders(project: Project, binding: Binding, changes: dict[str, Any]) -> Repair:
    follower = binding.follower
    touched = [
        signal
        for signal in project.signals
        if isinstance(signal, RegisterSignal)
        and signal.follower == follower.name
        and signal.table in ("holding", "input")
        and ("byte_order" in changes or (has_word_order(signal.encoding) and signal.word_order is None))
    ]
    if "byte_order" in changes and "word_order" in changes:
        words = translate("discovery", "Word and byte order of the device")
    elif "byte_order" in changes:
        words = translate("discovery", "Byte order of the device")
    else:
        words = translate("discovery", "Word order of the device")
    return Repair(
        "follower orders",
        words,
        translate(
            "discovery", "All signals of {device} that this order is for ({count}) are read the other way."
        ).format(device=quoted(follower.name), count=len(touched)),
        lambda project: change_follower(project, follower.name, **changes),
    )


def _leads_somewhere(project: Project, repair: Repair) -> bool:
    """Whether it changes something, and leaves every signal a register that exists."""
    try:
        after = repair.edit(project)
    except EditRefused:
        return False
    return after != project and unbound(after).keys() <= unbound(project).keys()


def _plain(value: Decimal) -> str:
    return f"{value.normalize():f}"
