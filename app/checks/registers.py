"""Rules about registers: numbers that name none, reads that are too long, bits that are not there, registers shared."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from app.checks import fixes
from app.checks.context import CheckContext, RegisterRun
from app.checks.finding import Fix, Violation
from app.checks.rule import each, whole
from app.language import translate
from app.project.binding import bindings, whole_registers
from app.project.capability import never_read, not_offered
from app.project.model import AnySignal, BitSignal, Follower, RegisterSignal
from app.project.problems import quoted
from app.signals.encoding import bit_place, has_word_order, is_integer, register_count
from app.signals.numbering import LAST_ADDRESS, NotARegister, wire_address


@each("signal", name="register-outside")
def register_outside(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A register number that names no register of its table in the follower's numbering, or one whose value runs over
    the end of the table (wire address 65535).
    """
    follower = context.project.follower_named.get(signal.follower) if isinstance(signal, RegisterSignal) else None
    if follower is None or not isinstance(signal, RegisterSignal):
        return
    try:
        address = wire_address(follower.numbering, signal.table, signal.number)
    except NotARegister as error:
        yield Violation(
            "error",
            ("register",),
            str(error),
            translate("checks", "check the manual of device {follower}; its numbering is set to '{numbering}'").format(
                follower=quoted(follower.name), numbering=follower.numbering
            ),
        )
        return
    count = _count(context, signal)
    if count is not None and address + count > LAST_ADDRESS + 1:
        yield Violation(
            "error",
            ("register",),
            translate(
                "checks", "its {count} registers starting at address {address} (0-based) end beyond {last}"
            ).format(count=count, address=address, last=LAST_ADDRESS),
            translate("checks", "correct the register or the data type"),
        )


def _count(context: CheckContext, signal: RegisterSignal) -> int | None:
    if context.of_one_bit(signal):
        return 1
    try:
        return register_count(signal.encoding, signal.length)
    except ValueError:
        return None


@each("signal", name="read-too-long")
def read_too_long(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A value of more registers than the follower answers in one read: it can never be read whole."""
    block = context.block(signal)
    if block is not None and not context.of_one_bit(block.signal) and block.count > block.follower.max_registers:
        yield Violation(
            "error",
            (),
            translate(
                "checks",
                "it takes {count} registers, but device {follower} answers at most {most} per read "
                "(\u201cRegisters per read\u201d)",
            ).format(count=block.count, follower=quoted(block.follower.name), most=block.follower.max_registers),
            translate("checks", "correct the limit of the device, or read a shorter value"),
        )


@each("follower", name="never-read-signal")
def never_read_nothing(_context: CheckContext, follower: Follower) -> Iterator[Violation]:
    """A range of what is never read that names no registers."""
    for part in follower.never_read:
        for number in (part.first, part.last):
            try:
                wire_address(follower.numbering, part.table, number)
            except NotARegister as error:
                hint = translate(
                    "checks", "correct the range (\u201cNever read\u201d); it uses the numbering of the device's manual"
                )
                message = translate("checks", "never-read range: {reason}").format(reason=error)
                yield Violation("error", (), message, hint)
                break


@each("signal", name="never-read-signal")
def never_read_signal(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A signal in registers that are never to be read, or such a range that names no registers."""
    block = context.block(signal)
    if block is None:
        return
    for first, end in never_read(block.follower, block.table):
        if block.address < end and first < block.end:
            yield Violation(
                "error",
                (),
                translate(
                    "checks", "it is in registers that are never read from device {follower} (\u201cNever read\u201d)"
                ).format(follower=quoted(block.follower.name)),
                translate("checks", "remove the signal, or correct the range"),
            )
            break


@each("signal", name="write-not-offered")
def write_not_offered(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A signal that may be written, but with no function code that its follower offers."""
    if not isinstance(signal, BitSignal | RegisterSignal) or not signal.write:
        return
    binding = bindings(context.project).get(signal.name)
    if binding is None or binding.table not in ("coil", "holding"):
        return
    reason = not_offered(binding)
    if reason is not None:
        yield Violation(
            "error",
            (),
            translate("checks", "{reason}; it can never be written").format(reason=reason),
            translate(
                "checks",
                "do not allow writing, or correct the functions that the device offers (\u201cWrites with\u201d)",
            ),
            _unwritten(),
        )


def _unwritten() -> Fix:
    return Fix(translate("checks", "Make it read-only"), fixes.set_at, (("write",), False))


@whole("signals", "followers", name="registers-overlap")
def registers_overlap(context: CheckContext) -> Iterator[Violation]:
    """Two signals that take parts of each other's registers, or read the same ones in two encodings.

    The same registers in the same encoding are none: one value may well be shown in two scales.
    """
    tables: dict[tuple[str, str], list[RegisterRun]] = defaultdict(list)
    for block in context.blocks:
        tables[block.follower.name, block.table].append(block)
    for blocks in tables.values():
        blocks.sort(key=lambda block: (block.address, block.index))
        longest: RegisterRun | None = None
        for block in blocks:
            if longest is not None and block.address < longest.end and not _alike(context, longest, block):
                first, second = sorted((longest, block), key=lambda one: one.index)
                yield Violation(
                    "warning",
                    ("signal", second.index),
                    translate("checks", "it overlaps registers of {signal}: {second} against {first}").format(
                        signal=quoted(first.signal.name), second=_run_text(second), first=_run_text(first)
                    ),
                    translate("checks", "check both in the manual; probably a register or a data type is wrong"),
                )
            if longest is None or block.end > longest.end:
                longest = block


def _alike(context: CheckContext, first: RegisterRun, second: RegisterRun) -> bool:
    same = first.address == second.address and first.count == second.count
    return same and (context.of_one_bit(first.signal) or first.signal.encoding == second.signal.encoding)


def _run_text(block: RegisterRun) -> str:
    if block.count == 1:
        return translate("checks", "{encoding} at register {register}").format(
            encoding=block.signal.encoding, register=block.signal.number
        )
    return translate("checks", "{encoding} at registers {first} to {last}").format(
        encoding=block.signal.encoding, first=block.signal.number, last=block.signal.number + block.count - 1
    )


@each("signal", name="write-to-read-only")
def write_to_read_only(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A signal that may be written in a table that can only be read."""
    base = context.word_of(signal) if isinstance(signal, BitSignal) else signal
    if not isinstance(base, RegisterSignal) or base.table not in ("input", "discrete"):
        return
    if not isinstance(signal, BitSignal | RegisterSignal) or not signal.write:
        return
    writable = "coil" if base.table == "discrete" else "holding"
    yield Violation(
        "error",
        (),
        translate("checks", "it is writable, but the table '{table}' is read-only").format(table=base.table),
        translate("checks", "do not allow writing, or use the table '{table}' if the device has it there").format(
            table=writable
        ),
        _unwritten(),
    )


@each("signal", name="refresh-without-write")
def refresh_without_write(_context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A signal to be written again and again that may not be written."""
    if isinstance(signal, RegisterSignal) and signal.refresh_ms > 0 and not signal.write:
        yield Violation(
            "warning",
            (),
            translate(
                "checks", "it is set to be written every {every} ms (\u201cWrite interval\u201d), but is read-only"
            ).format(every=signal.refresh_ms),
            translate("checks", "allow writing, or leave \u201cWrite interval\u201d blank"),
            Fix(translate("checks", "Disable repeated writing"), fixes.set_at, (("refresh_ms",), 0)),
        )


@each("signal", name="bit-outside-word")
def bit_outside_word(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A bit that its word does not have, or of a value that is not made of bits."""
    word = context.word_of(signal) if isinstance(signal, BitSignal) else None
    if word is None or not isinstance(signal, BitSignal):
        return
    if context.of_one_bit(word):
        yield Violation(
            "error",
            ("bit",),
            translate("checks", "{signal} is in the table '{table}' and is one bit itself").format(
                signal=quoted(word.name), table=word.table
            ),
            translate("checks", "use {signal} instead of a bit of it").format(signal=quoted(word.name)),
        )
        return
    try:
        bit_place(word.encoding, signal.bit.number)
    except ValueError as error:
        if is_integer(word.encoding):
            hint = translate("checks", "bits are numbered from 0, the least significant")
        else:
            hint = translate("checks", "read {signal} as uint16 or uint32").format(signal=quoted(word.name))
        message = translate("checks", "bit {number} of {signal}: {reason}").format(
            number=signal.bit.number, signal=quoted(word.name), reason=error
        )
        yield Violation("error", ("bit",), message, hint)


@each("signal", name="string-length")
def string_length(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A string whose length is not given, or a length for what is no string."""
    if not isinstance(signal, RegisterSignal):
        return
    if context.is_text(signal) and signal.length is None:
        yield Violation(
            "error",
            (),
            translate("checks", "it is a string without a length"),
            translate(
                "checks", "set the number of registers (\u201cLength\u201d), two characters each: 8 for 16 characters"
            ),
        )
    elif not context.is_text(signal) and signal.length is not None:
        yield Violation(
            "warning",
            (),
            translate(
                "checks", "it has a length of {length} registers but is not a string; the length has no effect"
            ).format(length=signal.length),
            translate("checks", "remove the \u201cLength\u201d, or choose the \u201cData type\u201d string"),
            Fix(translate("checks", "Remove the length"), fixes.set_at, (("length",), None)),
        )


@each("signal", name="word-order-without-meaning")
def word_order_without_meaning(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """An order of words said of what has only one, or of a text: it is not looked at."""
    if not isinstance(signal, RegisterSignal) or signal.word_order is None:
        return
    if context.of_one_bit(signal):
        message = translate("checks", "it is a single bit; its word order has no effect")
    elif has_word_order(signal.encoding):
        return
    elif context.is_text(signal):
        message = translate("checks", "it is a text, read from its first register on; its word order has no effect")
    else:
        message = translate("checks", "it has one register; its word order has no effect")
    fix = Fix(translate("checks", "Remove the word order"), fixes.set_at, (("word_order",), None))
    yield Violation("warning", (), message, translate("checks", "remove its own \u201cWord order\u201d"), fix)


@each("signal", name="hexadecimal-without-meaning")
def hexadecimal_without_meaning(_context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """Hexadecimal said of what is no whole number in registers: it is not looked at."""
    if isinstance(signal, RegisterSignal) and signal.hex and not whole_registers(signal):
        yield Violation(
            "warning",
            (),
            translate("checks", "it is not a whole number in registers and cannot be shown in hexadecimal"),
            translate("checks", "switch \u201cHexadecimal\u201d off"),
            Fix(translate("checks", "Show it in decimal"), fixes.set_at, (("hex",), False)),
        )


@each("signal", name="scale-without-meaning")
def scale_without_meaning(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A scale on a single bit or on a text: it is not applied."""
    if not isinstance(signal, RegisterSignal) or signal.scale is None:
        return
    if context.of_one_bit(signal):
        message = translate("checks", "it is a single bit; its scale has no effect")
    elif context.is_text(signal):
        message = translate("checks", "it is a text; its scale has no effect")
    else:
        return
    fix = Fix(translate("checks", "Remove the scale"), fixes.set_at, (("scale",), None))
    yield Violation("warning", (), message, translate("checks", "remove the \u201cScale\u201d"), fix)
