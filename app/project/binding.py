"""What a signal of a project means on the line and on the panel: its registers, its span, its text, its refusals.

The functions take a project and a signal's name. What they work out for a project is kept as long as that project
lives, and what an edit did not touch is taken over, so asking again costs a look-up.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import Final, TypeAlias

from app.errors import FanlightError
from app.language import Translator, current_translator, mark, translate
from app.project.doubts import Trusted, trust_in
from app.project.model import (
    OTHERWISE,
    AnySignal,
    BitSignal,
    FieldKind,
    Follower,
    HeldSignal,
    Project,
    RegisterSignal,
    Scale,
    by_number,
)
from app.project.project_cache import ProjectCache
from app.signals.encoding import (
    Implausible,
    OutOfRange,
    bit_place,
    decode,
    encode,
    exact,
    is_float,
    is_integer,
    is_text,
    raw_range,
    register_count,
)
from app.signals.numbering import LAST_ADDRESS, Table, wire_address
from app.signals.order import WordOrder
from app.signals.reading import NEVER_READ, Quality, Raw, Reading, Value
from app.signals.repertoire import characters, shown
from app.signals.scaling import STRAIGHT_THROUGH, StraightLine, round_half_away, rounded_count
from app.signals.text import (
    FULL_BLOCK,
    PLAIN_FULL,
    bar_text,
    choice_text,
    hexadecimal_digits,
    hexadecimal_text,
    number_digits,
    number_text,
    spoken_digits,
)

Words: TypeAlias = Sequence[int] | Sequence[bool] | int
"""What a read brings for one signal: its registers, or its one coil or discrete input (alone or in a sequence)."""

UNKNOWN: Final = "-"
"""Fills the run of cells of a signal that has no value."""


class Unbound(FanlightError, ValueError):
    """The signal cannot be found on the line. The message says why and what to correct."""


@dataclass(frozen=True, slots=True)
class Binding:
    """Where a register signal or a bit signal stands on the line, and how to read and write it there.

    `table`, `address` (on the wire, from 0) and `count` are what to read. For a bit signal they are those of its base,
    the register signal whose bit it is; for a register signal the base is the signal itself.
    """

    signal: RegisterSignal | BitSignal
    base: RegisterSignal
    follower: Follower
    table: Table
    address: int
    count: int
    scale: StraightLine
    bit: int | None = None
    """Of a bit signal: the number of the bit in the base's value, 0 the least significant."""
    trusted: Trusted | None = None
    """What is believed of its numbers; None if anything is."""

    @property
    def single(self) -> bool:
        """Whether it is a coil or a discrete input rather than registers."""
        return self.table in ("coil", "discrete")

    @property
    def word_order(self) -> WordOrder:
        """The order of the words of its value: its own, or its follower's."""
        return self.base.word_order or self.follower.word_order

    def decode(self, words: Words) -> tuple[Raw, Value]:
        """The raw value and the engineering value of what was read at `address`.

        `words` are `count` registers, lowest address first, or the one coil or discrete input.
        Raises Implausible if the encoding cannot mean them.
        """
        if self.single:
            on = int(bool(words if isinstance(words, int) else words[0]))
            return on, Fraction(on)
        if isinstance(words, int):
            words = (words,)
        raw = decode(self.base.encoding, words, self.word_order, self.follower.byte_order)
        if self.bit is not None:
            on = int(raw) >> self.bit & 1
            return on, Fraction(on)
        if isinstance(raw, str):
            return raw, raw
        if self.scale is STRAIGHT_THROUGH:
            return raw, exact(self.base.encoding, raw)
        return raw, self.scale.value(raw if isinstance(raw, int) else exact(self.base.encoding, raw))

    def reading(self, words: Words, at: float, former: Reading = NEVER_READ) -> Reading:
        """The reading of what was read at `address`; `at` is `time.monotonic()` at the arrival of the answer.

        Implausible registers give a reading of that quality, which keeps the former reading's value and time. A value
        that its signal hardly can have is good, and says why it is doubtful.
        """
        try:
            raw, value = self.decode(words)
        except Implausible as error:
            return Reading(former.raw, former.value, Quality.IMPLAUSIBLE, str(error), former.time)
        return Reading(raw, value, Quality.GOOD, "", at, "" if self.trusted is None else self.trusted.doubt(raw))

    def encode(self, value: Value | int, words: Sequence[int] | None = None) -> tuple[int, ...] | bool:
        """What to write at `address` for an engineering value: registers, or the state of the one coil.

        Registers of whole numbers take the nearest count, a half away from zero; floats the nearest float. A bit
        signal needs `words`, the registers as they are now, and gives them back with its one bit changed.
        Limits are not looked at here; see `refusal`.
        Raises OutOfRange if the encoding cannot hold the value.
        """
        if self.single:
            return _on(value)
        if self.bit is not None:
            if words is None:
                raise OutOfRange(
                    mark("project", "a bit can only be written into a register that has been read; read it first")
                )
            _, keep, put = self.mask_write(value)
            index, _ = bit_place(self.base.encoding, self.bit, self.word_order, self.follower.byte_order)
            return tuple(word & keep | put if place == index else word for place, word in enumerate(words))
        raw: str | int | Fraction
        if isinstance(value, str):
            raw = value
        else:
            raw = self.scale.raw(value)
            if not is_float(self.base.encoding):
                raw = rounded_count(raw, 1)
        return encode(self.base.encoding, raw, self.word_order, self.follower.byte_order, self.base.length)

    def mask_write(self, value: Value | int) -> tuple[int, int, int]:
        """The register on the wire that holds a bit signal's bit, and the AND and OR masks that write it.

        As function code 22 takes them: the register becomes (itself AND and-mask) OR (or-mask AND NOT and-mask).
        Raises OutOfRange if the signal is no bit of a register or the value is neither 0 nor 1.
        """
        if self.bit is None:
            raise OutOfRange(mark("project", "signal '{name}' is not a bit of a register"), name=self.signal.name)
        index, place = bit_place(self.base.encoding, self.bit, self.word_order, self.follower.byte_order)
        mask = 1 << place
        return self.address + index, 0xFFFF & ~mask, mask if _on(value) else 0


@dataclass(frozen=True, slots=True)
class _Bound:
    """Everything worked out for one project."""

    bindings: Mapping[str, Binding]
    unbound: Mapping[str, str]
    bits: tuple[BitSignal, ...]


_OF_PROJECT: Final = ProjectCache[tuple[_Bound, Translator]]()
"""With the translator, since some of it is said in words."""
_OF_FOLLOWERS: Final = ProjectCache[tuple[Mapping[str, Binding], Mapping[str, dict[str, Binding]]]]()
_latest: _Bound = _Bound({}, {}, ())


def bindings(project: Project) -> Mapping[str, Binding]:
    """The bindings of all register and bit signals that can be found on the line, by name, in the order of the file.

    Held values have none; signals with something to correct are in `unbound`.
    """
    return _bind(project).bindings


def bindings_of(project: Project, follower: str) -> Mapping[str, Binding]:
    """Those of `bindings` that stand on one follower, in the order of the file."""
    bound = bindings(project)
    kept = _OF_FOLLOWERS.get(project)
    if kept is None or kept[0] is not bound:
        parted: dict[str, dict[str, Binding]] = {}
        for name, binding in bound.items():
            parted.setdefault(binding.follower.name, {})[name] = binding
        kept = bound, parted
        _OF_FOLLOWERS.keep(project, kept)
    return MappingProxyType(kept[1].get(follower, {}))


def unbound(project: Project) -> Mapping[str, str]:
    """Why register and bit signals cannot be found on the line, by name; empty if all can."""
    return _bind(project).unbound


def bind(project: Project, name: str) -> Binding:
    """The binding of one signal. Raises Unbound, saying why there is none."""
    bound = _bind(project)
    found = bound.bindings.get(name)
    if found is not None:
        return found
    signal = project.signal_named.get(name)
    if signal is None:
        raise Unbound(mark("project", "there is no signal '{name}'"), name=name)
    if isinstance(signal, HeldSignal):
        raise Unbound(mark("project", "signal '{name}' is a held value, not on the line"), name=name)
    raise Unbound(bound.unbound[name])


def derive_bits(project: Project, readings: Mapping[str, Reading]) -> dict[str, Reading]:
    """The readings of all bit signals, from the readings of the signals whose bits they are.

    Quality, reason and time are the base's; without a raw value of the base a bit has none either.
    """
    bound = _bind(project)
    return {signal.name: _derive(bound, signal, readings) for signal in bound.bits}


def derive_bit(project: Project, signal: BitSignal, readings: Mapping[str, Reading]) -> Reading:
    """The reading of one bit signal of the project, as `derive_bits` has it."""
    return _derive(_bind(project), signal, readings)


def value_span(project: Project, name: str) -> tuple[Fraction, Fraction] | None:
    """The least and the greatest value that the signal can take, whatever stands in its registers.

    Whole-number encodings: the whole raw range, scaled. Bits, coils and discrete inputs: 0 to 1. Held values: their
    limits, since only entry and actions change them. Floats: their limits too, if they have any; a float register can
    hold anything up to 3.4e38 or 1.8e308, which says nothing about a field.
    None if there is no such span: text, floats and held values without limits, and unknown signals.
    """
    signal = project.signal_named.get(name)
    if signal is None:
        return None
    if isinstance(signal, BitSignal) or (isinstance(signal, RegisterSignal) and signal.table in ("coil", "discrete")):
        return Fraction(0), Fraction(1)
    if isinstance(signal, HeldSignal) or is_float(signal.encoding):
        return _limits(signal)
    if is_text(signal.encoding):
        return None
    line = _line(signal.scale)
    least, greatest = raw_range(signal.encoding)
    ends = line.value(least), line.value(greatest)
    return min(ends), max(ends)


def step_of(project: Project, name: str) -> Fraction:
    """By how much one press of a key changes the value; above 0.

    The signal's own step; left out, one unit of its last decimal, but never less than one raw count.
    Raises Unbound if there is no such signal.
    """
    signal = project.signal_named.get(name)
    if signal is None:
        raise Unbound(mark("project", "there is no signal '{name}'"), name=name)
    if signal.step is not None:
        return Fraction(signal.step)
    if isinstance(signal, BitSignal):
        return Fraction(1)
    decimal = Fraction(1, 10**signal.decimals)
    if isinstance(signal, HeldSignal) or is_float(signal.encoding) or is_text(signal.encoding):
        return decimal
    if signal.table in ("coil", "discrete"):
        return Fraction(1)
    return max(decimal, abs(_line(signal.scale).slope))


def unwritable(project: Project, name: str) -> str | None:
    """Why no value at all may be written to the signal, or None if some may."""
    signal = project.signal_named.get(name)
    if signal is None:
        return translate("project", "there is no signal '{name}'").format(name=name)
    if isinstance(signal, HeldSignal):
        return None
    if not signal.write:
        return translate("project", "signal '{name}' is read-only ('write' is not set)").format(name=name)
    try:
        binding = bind(project, name)
    except Unbound as error:
        return str(error)
    if binding.table in ("discrete", "input"):
        return translate("project", "signal '{name}' is in the table '{table}', which is read-only").format(
            name=name, table=binding.table
        )
    return None


def refusal(project: Project, name: str, value: Value | int) -> str | None:
    """Why this value may not be written to the signal, or None if it may.

    Looked at in this order: whether the signal may be written at all, its limits, what its scale and encoding can hold.
    A value within the limits may be written even if the nearest raw count lies a fraction of a count beyond them.
    """
    reason = unwritable(project, name)
    if reason is not None:
        return reason
    signal = project.signal_named[name]
    if isinstance(signal, RegisterSignal) and not isinstance(value, str) and is_text(signal.encoding):
        return translate("project", "{said} is a number, but signal '{name}' is a text").format(
            said=_exact_text(signal, value), name=name
        )
    if isinstance(value, str) and not (isinstance(signal, RegisterSignal) and is_text(signal.encoding)):
        return translate("project", "'{value}' is a text, but signal '{name}' is a number").format(
            value=value, name=name
        )
    limits = _limits(signal)
    if limits is not None and not isinstance(value, str):
        if value < limits[0]:
            return translate("project", "{said} is below the limit {limit}").format(
                said=_exact_text(signal, value), limit=_exact_text(signal, limits[0])
            )
        if value > limits[1]:
            return translate("project", "{said} is above the limit {limit}").format(
                said=_exact_text(signal, value), limit=_exact_text(signal, limits[1])
            )
    return None if isinstance(signal, HeldSignal) else unencodable(bind(project, name), value)


def shown_text(
    project: Project,
    name: str,
    value: Value | int | None,
    width: int,
    kind: FieldKind,
    bar_range: tuple[Fraction, Fraction] | None = None,
) -> str:
    """What `width` cells show of a value of the signal: exactly `width` characters of the panel's repertoire.

    `number`: at the right, with the signal's decimals. `hexadecimal`: at the right, four digits for each register and
    an h; what is no whole number in registers (see `whole_registers`) is shown as a number. `choice`: the value's text
    at the left; a value without a text shows its number there. `bar`: from `bar_range` (empty, full), left out the
    limits, left out the value span. A text (of a string signal) is at the left in every kind. What does not fit is all
    '#', a value that is None all '-', and so is a bar that has no range.
    """
    signal = project.signal_named.get(name)
    if value is None or signal is None:
        return UNKNOWN * width
    repertoire = project.panel.repertoire
    if isinstance(value, str):
        return choice_text(shown(repertoire, value), width)
    if kind == "choice":
        text = _text_of(signal, value)
        if text is None:
            return choice_text(number_digits(value, signal.decimals), width)
        return choice_text(shown(repertoire, text), width)
    registers = whole_registers(signal) if kind == "hexadecimal" else 0
    if registers:
        return hexadecimal_text(value, width, registers)
    if kind == "bar":
        ends = bar_range or _limits(signal) or value_span(project, name)
        if ends is None:
            return UNKNOWN * width
        full = FULL_BLOCK if FULL_BLOCK in characters(repertoire) else PLAIN_FULL
        return bar_text(value, ends[0], ends[1], width, full)
    return number_text(value, width, signal.decimals)


def whole_registers(signal: AnySignal) -> int:
    """How many registers hold the whole number that a signal is, so that it can be shown in hexadecimal: 1, 2 or 4.

    0 for everything else: scaled numbers, floats, BCD, texts, and what is in no register of its own.
    """
    if not isinstance(signal, RegisterSignal) or signal.table in ("coil", "discrete") or signal.scale is not None:
        return 0
    return register_count(signal.encoding) if is_integer(signal.encoding) else 0


def plain_text(
    project: Project, name: str, value: Value | int | None, digits: Callable[[int | Fraction, int], str] = spoken_digits
) -> str:
    """The value as a person would write it, as wide as it gets and without its unit: for tables and messages.

    Its text if the signal has one for it, with the number behind it where that is the text of all other values; else
    the number, in hexadecimal if the signal says so, else with its decimals; empty for None.
    """
    if value is None:
        return ""
    signal = project.signal_named.get(name)
    if isinstance(value, str) or signal is None:
        return str(value)
    registers = whole_registers(signal) if isinstance(signal, RegisterSignal) and signal.hex else 0
    number = (hexadecimal_digits(value, registers) if registers else None) or digits(value, signal.decimals)
    text = _own_text_of(signal, value)
    if text is None and OTHERWISE in signal.texts:
        return f"{signal.texts[OTHERWISE]} ({number})"
    return number if text is None else text


_BIT_VALUES: Final = (Fraction(0), Fraction(1))


def _derive(bound: _Bound, signal: BitSignal, readings: Mapping[str, Reading]) -> Reading:
    if signal.name not in bound.bindings:
        return Reading(None, None, Quality.IMPLAUSIBLE, bound.unbound[signal.name], None)
    base = readings.get(signal.bit.of, NEVER_READ)
    if not isinstance(base.raw, int):
        return Reading(None, None, base.quality, base.reason, base.time)
    on = base.raw >> signal.bit.number & 1
    return Reading(on, _BIT_VALUES[on], base.quality, base.reason, base.time)


def _bind(project: Project) -> _Bound:
    global _latest
    kept = _OF_PROJECT.get(project)
    if kept is not None and kept[1] is current_translator():
        return kept[0]
    bound = _latest = _work_out(project, _latest)
    _OF_PROJECT.keep(project, (bound, current_translator()))
    return bound


def _work_out(project: Project, former: _Bound) -> _Bound:
    found: dict[str, Binding] = {}
    failed: dict[str, str] = {}
    bits: list[BitSignal] = []
    for name, signal in project.signal_named.items():
        if isinstance(signal, HeldSignal):
            continue
        if isinstance(signal, BitSignal):
            bits.append(signal)
        try:
            base = signal if isinstance(signal, RegisterSignal) else _base(project, signal)
            follower = project.follower_named.get(base.follower)
            if follower is None:
                raise Unbound(
                    mark("project", "signal '{name}': there is no device '{follower}'"),
                    name=base.name,
                    follower=base.follower,
                )
            known = former.bindings.get(name)
            if known and known.signal is signal and known.base is base and known.follower is follower:
                found[name] = known
            else:
                found[name] = _binding(signal, base, follower)
        except Unbound as error:
            failed[name] = str(error)
    return _Bound(MappingProxyType(found), MappingProxyType(failed), tuple(bits))


def _base(project: Project, signal: BitSignal) -> RegisterSignal:
    base = project.signal_named.get(signal.bit.of)
    if base is None:
        raise Unbound(
            mark("project", "signal '{name}': there is no signal '{of}' that could contain the bit"),
            name=signal.name,
            of=signal.bit.of,
        )
    if not isinstance(base, RegisterSignal):
        if isinstance(base, HeldSignal):
            why = translate("project", "signal '{name}': '{base}' is a held value; only registers have bits")
        else:
            why = translate("project", "signal '{name}': '{base}' is itself one bit; only registers have bits")
        raise Unbound(why.format(name=signal.name, base=base.name))
    if base.table in ("coil", "discrete"):
        raise Unbound(
            mark("project", "signal '{name}': '{base}' is in the table '{table}' and is itself one bit"),
            name=signal.name,
            base=base.name,
            table=base.table,
        )
    return base


def _binding(signal: RegisterSignal | BitSignal, base: RegisterSignal, follower: Follower) -> Binding:
    try:
        address = wire_address(follower.numbering, base.table, base.number)
        single = base.table in ("coil", "discrete")
        count = 1 if single else register_count(base.encoding, base.length)
        bit = None
        if isinstance(signal, BitSignal):
            bit = signal.bit.number
            bit_place(base.encoding, bit)
    except ValueError as error:
        raise Unbound(mark("project", "signal '{name}': {why}"), name=signal.name, why=error) from error
    if address + count - 1 > LAST_ADDRESS:
        raise Unbound(
            mark(
                "project",
                "signal '{name}': its {count} registers starting at address {address} (0-based) end beyond {last}",
            ),
            name=signal.name,
            count=count,
            address=address,
            last=LAST_ADDRESS,
        )
    number = not single and bit is None
    scale = _line(base.scale) if number else STRAIGHT_THROUGH
    return Binding(
        signal, base, follower, base.table, address, count, scale, bit, trust_in(base, scale) if number else None
    )


def _line(scale: Scale | None) -> StraightLine:
    return STRAIGHT_THROUGH if scale is None else _line_through(*scale.raw, *scale.value)


@lru_cache(maxsize=1024)
def _line_through(raw0: Decimal, raw1: Decimal, value0: Decimal, value1: Decimal) -> StraightLine:
    return StraightLine(Fraction(raw0), Fraction(raw1), Fraction(value0), Fraction(value1))


def _limits(signal: AnySignal) -> tuple[Fraction, Fraction] | None:
    return None if signal.limits is None else (Fraction(signal.limits[0]), Fraction(signal.limits[1]))


def _on(value: Value | int) -> bool:
    if isinstance(value, str) or value not in (0, 1):
        raise OutOfRange(mark("project", "{value} is not possible for a single bit; use 0 or 1"), value=value)
    return value == 1


def unencodable(binding: Binding, value: Value | int) -> str | None:
    """Why the registers cannot hold this value, or None if they can."""
    encoding = binding.base.encoding
    try:
        if binding.bit is not None:
            binding.mask_write(value)
        else:
            binding.encode(value)
    except OutOfRange as error:
        if binding.single or binding.bit is not None or isinstance(value, str) or is_float(encoding):
            return str(error)
        raw = round_half_away(binding.scale.raw(value))
        least, greatest = raw_range(encoding)
        return translate(
            "project", "{said} would be raw {raw}; the range of {encoding} is {least} to {greatest}"
        ).format(said=_exact_text(binding.signal, value), raw=raw, encoding=encoding, least=least, greatest=greatest)
    return None


def _text_of(signal: AnySignal, value: int | Fraction) -> str | None:
    text = _own_text_of(signal, value)
    return signal.texts.get(OTHERWISE) if text is None else text


def _own_text_of(signal: AnySignal, value: int | Fraction) -> str | None:
    if not signal.texts or Fraction(value).denominator != 1:
        return None
    number = int(value)
    text = signal.texts.get(str(number))
    return by_number(signal.texts).get(number) if text is None else text


def _exact_text(signal: AnySignal, value: int | Fraction) -> str:
    """The value for a message: with as many decimals as it takes to be exact, three more than shown at most."""
    decimals = signal.decimals
    while decimals < signal.decimals + 3 and round_half_away(value, decimals) != value:
        decimals += 1
    return f"{spoken_digits(value, decimals)} {signal.unit}".rstrip()
