"""Rules about registers: numbers that name none, reads that are too long, bits that are not there, registers shared."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from app.checks.finding import Fault
from app.checks.rule import rule
from app.checks.survey import Block, Survey
from app.project.binding import bindings
from app.project.capability import never_read, not_offered
from app.project.model import BitSignal, RegisterSignal
from app.project.problems import Place, quoted
from app.signals.encoding import bit_place, is_integer, register_count
from app.signals.numbering import LAST_ADDRESS, NotARegister, wire_address


@rule("register-outside")
def register_outside(survey: Survey) -> Iterator[Fault]:
    """A register number that names no register of its table in the follower's numbering, or one whose value runs over
    the end of the table (wire address 65535).
    """
    for index, signal in enumerate(survey.project.signals):
        follower = survey.project.follower_named.get(signal.follower) if isinstance(signal, RegisterSignal) else None
        if follower is None or not isinstance(signal, RegisterSignal):
            continue
        place: Place = ("signal", index, "register")
        try:
            address = wire_address(follower.numbering, signal.table, signal.number)
        except NotARegister as error:
            yield Fault(
                "error",
                place,
                str(error),
                f"look it up in the manual of follower {quoted(follower.name)}, which is said to count "
                f"'{follower.numbering}'",
            )
            continue
        count = _count(survey, signal)
        if count is not None and address + count > LAST_ADDRESS + 1:
            yield Fault(
                "error",
                place,
                f"its {count} registers from wire address {address} on end beyond {LAST_ADDRESS}",
                "mend the register or the encoding",
            )


def _count(survey: Survey, signal: RegisterSignal) -> int | None:
    if survey.of_one_bit(signal):
        return 1
    try:
        return register_count(signal.encoding, signal.length)
    except ValueError:
        return None


@rule("read-too-long")
def read_too_long(survey: Survey) -> Iterator[Fault]:
    """A value of more registers than the follower answers in one read: it can never be read whole."""
    for block in survey.blocks:
        if not survey.of_one_bit(block.signal) and block.count > block.follower.max_registers:
            yield Fault(
                "error",
                ("signal", block.index),
                f"it takes {block.count} registers, and follower {quoted(block.follower.name)} answers "
                f"{block.follower.max_registers} in one read ('max_registers')",
                "mend the limit of the follower, or read a shorter value",
            )


@rule("never-read-signal")
def never_read_signal(survey: Survey) -> Iterator[Fault]:
    """A signal in registers that are never to be read, or such a range that names no registers."""
    for index, follower in enumerate(survey.project.followers):
        for part in follower.never_read:
            for number in (part.first, part.last):
                try:
                    wire_address(follower.numbering, part.table, number)
                except NotARegister as error:
                    hint = "mend the range ('never_read'); it counts as the follower's manual does"
                    yield Fault("error", ("follower", index), f"of what is never read, {error}", hint)
                    break
    for block in survey.blocks:
        for first, end in never_read(block.follower, block.table):
            if block.address < end and first < block.end:
                yield Fault(
                    "error",
                    ("signal", block.index),
                    f"it stands in registers that are never read from follower {quoted(block.follower.name)} "
                    "('never_read')",
                    "remove the signal, or mend the range",
                )
                break


@rule("write-not-offered")
def write_not_offered(survey: Survey) -> Iterator[Fault]:
    """A signal that may be written, but with no function code that its follower offers."""
    for index, signal in enumerate(survey.project.signals):
        if not isinstance(signal, BitSignal | RegisterSignal) or not signal.write:
            continue
        binding = bindings(survey.project).get(signal.name)
        if binding is None or binding.table not in ("coil", "holding"):
            continue
        reason = not_offered(binding)
        if reason is not None:
            hint = "take 'write' off, or mend what the follower offers ('write_functions')"
            yield Fault("error", ("signal", index), f"{reason}; it can never be written", hint)


@rule("registers-overlap")
def registers_overlap(survey: Survey) -> Iterator[Fault]:
    """Two signals that take parts of each other's registers, or read the same ones in two encodings.

    The same registers in the same encoding are none: one value may well be shown in two scales.
    """
    tables: dict[tuple[str, str], list[Block]] = defaultdict(list)
    for block in survey.blocks:
        tables[block.follower.name, block.table].append(block)
    for blocks in tables.values():
        blocks.sort(key=lambda block: (block.address, block.index))
        longest: Block | None = None
        for block in blocks:
            if longest is not None and block.address < longest.end and not _alike(survey, longest, block):
                first, second = sorted((longest, block), key=lambda one: one.index)
                yield Fault(
                    "warning",
                    ("signal", second.index),
                    f"it shares registers with {quoted(first.signal.name)}: {_said(second)} against {_said(first)}",
                    "look up both in the manual; one register or one encoding is probably wrong",
                )
            if longest is None or block.end > longest.end:
                longest = block


def _alike(survey: Survey, first: Block, second: Block) -> bool:
    same = first.address == second.address and first.count == second.count
    return same and (survey.of_one_bit(first.signal) or first.signal.encoding == second.signal.encoding)


def _said(block: Block) -> str:
    if block.count == 1:
        return f"{block.signal.encoding} at register {block.signal.number}"
    return f"{block.signal.encoding} at the registers {block.signal.number} to {block.signal.number + block.count - 1}"


@rule("write-to-read-only")
def write_to_read_only(survey: Survey) -> Iterator[Fault]:
    """A signal that may be written in a table that can only be read."""
    for index, signal in enumerate(survey.project.signals):
        base = survey.word_of(signal) if isinstance(signal, BitSignal) else signal
        if not isinstance(base, RegisterSignal) or base.table not in ("input", "discrete"):
            continue
        if not isinstance(signal, BitSignal | RegisterSignal) or not signal.write:
            continue
        writable = "coil" if base.table == "discrete" else "holding"
        yield Fault(
            "error",
            ("signal", index),
            f"it may be written, but the table '{base.table}' can only be read",
            f"take 'write' off, or name the table '{writable}' if the follower has it there",
        )


@rule("refresh-without-write")
def refresh_without_write(survey: Survey) -> Iterator[Fault]:
    """A signal to be written again and again that may not be written."""
    for index, signal in enumerate(survey.project.signals):
        if isinstance(signal, RegisterSignal) and signal.refresh_ms > 0 and not signal.write:
            yield Fault(
                "warning",
                ("signal", index),
                f"it is to be written every {signal.refresh_ms} ms ('refresh_ms'), but may not be written",
                "let it be written ('write'), or take 'refresh_ms' off",
            )


@rule("bit-outside-word")
def bit_outside_word(survey: Survey) -> Iterator[Fault]:
    """A bit that its word does not have, or of a value that is not made of bits."""
    for index, signal in enumerate(survey.project.signals):
        word = survey.word_of(signal) if isinstance(signal, BitSignal) else None
        if word is None or not isinstance(signal, BitSignal):
            continue
        place: Place = ("signal", index, "bit")
        if survey.of_one_bit(word):
            yield Fault(
                "error",
                place,
                f"{quoted(word.name)} is in the table '{word.table}' and is one bit itself",
                f"use {quoted(word.name)} instead of a bit of it",
            )
            continue
        try:
            bit_place(word.encoding, signal.bit.number)
        except ValueError as error:
            hint = "bits are counted from 0, the least significant" if is_integer(word.encoding) else ""
            yield Fault(
                "error",
                place,
                f"bit {signal.bit.number} of {quoted(word.name)}: {error}",
                hint or f"read {quoted(word.name)} as uint16 or uint32",
            )


@rule("string-length")
def string_length(survey: Survey) -> Iterator[Fault]:
    """A string whose length is not given, or a length for what is no string."""
    for index, signal in enumerate(survey.project.signals):
        if not isinstance(signal, RegisterSignal):
            continue
        if survey.is_text(signal) and signal.length is None:
            yield Fault(
                "error",
                ("signal", index),
                "it is a string, and its length is not given",
                "give its registers, two characters each: 'length = 8' for 16 characters",
            )
        elif not survey.is_text(signal) and signal.length is not None:
            yield Fault(
                "warning",
                ("signal", index),
                f"it has a length ('length = {signal.length}') but is no string; the length means nothing",
                "take 'length' off, or choose the encoding 'string'",
            )


@rule("scale-without-meaning")
def scale_without_meaning(survey: Survey) -> Iterator[Fault]:
    """A scale on a single bit or on a text: it is not applied."""
    for index, signal in enumerate(survey.project.signals):
        if not isinstance(signal, RegisterSignal) or signal.scale is None:
            continue
        if survey.of_one_bit(signal) or survey.is_text(signal):
            what = "a single bit" if survey.of_one_bit(signal) else "a text"
            yield Fault("warning", ("signal", index), f"it is {what}; its scale is not applied", "take 'scale' off")
