"""What is to be said about a match: what tells nothing, what cannot be told apart yet, and what would separate it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import Final

from app.language import translate, with_mark
from app.matching.candidates import Candidate, MatchResult, RegisterMeaning
from app.matching.shown import Shown
from app.signals.encoding import EncodingName, raw_range
from app.signals.numbering import Table, register_text
from app.signals.scaling import round_half_away

CLEAR: Final = 0.001
"""A candidate is clear at 'by chance 1 in 1000', or better."""
_IN_QUESTION: Final = 0.98
"""Another candidate is worth a word as long as it is not more likely than this to be a coincidence."""
_MERE_CHANCE: Final = 0.9
"""What is more likely than this to be a coincidence is no finding (common practice, no source)."""
_MOST_NAMED: Final = 3
_WITHOUT_SIGN: Final[dict[EncodingName, EncodingName]] = {"int16": "uint16", "int32": "uint32", "int64": "uint64"}
_FEW_DIGITS: Final = 2

Namer = Callable[[Table, int, int], str]
"""From a table, the first and the last wire address to what people call these registers."""


def advice(match: MatchResult, name: Namer = register_text) -> tuple[str, ...]:
    """Sentences, the most important first."""
    return tuple(_sentences(match, name))


def mere_chance(match: MatchResult) -> bool:
    """Whether even the likeliest register agrees by chance, as far as one can tell after several values."""
    first = next(iter(match.candidates), None)
    return first is not None and len(match.told) > 1 and first.chance > _MERE_CHANCE and not first.twins


def _sentences(match: MatchResult, name: Namer) -> Iterator[str]:
    if not match.readings:
        return
    yield from _silent(match)
    if not match.told:
        return
    if len(match.told) == 1:
        yield translate(
            "matching", "One value alone is no evidence: change the value at the device, then read and type again."
        )
    if match.changed == 0:
        yield translate(
            "matching",
            "No register changed between the readings. Were the registers read again after the value had changed? "
            "Perhaps it is in a table or a range that was not read.",
        )
        return
    if not match.candidates:
        yield _nothing(match)
        return
    if len(match.told) > 1:
        yield from _to_separate(match, name)
    yield from _about_the_first(match.candidates[0], match, name)


def _silent(match: MatchResult) -> Iterator[str]:
    zeros = [at for at, each in enumerate(match.readings) if not each.value]
    again = [at for at, each in enumerate(match.readings) if each.value and at not in match.told]
    if zeros:
        yield translate(
            "matching",
            "0 is no evidence, since many registers contain 0 (reading {numbers}); read it at another value.",
        ).format(numbers=_numbers(zeros))
    if again:
        yield translate(
            "matching", "The same value once more is no evidence (reading {numbers}); change it at the device first."
        ).format(numbers=_numbers(again))


def _nothing(match: MatchResult) -> str:
    units = {each.unit.casefold(): each.unit for each in match.readings if each.unit}
    if len(units) > 1:
        return translate(
            "matching",
            "No register agrees with all readings, which have different units: {units}. All of them must be of one "
            "and the same value; remove the others.",
        ).format(units=", ".join(units.values()))
    if len(match.told) < 3:
        return translate(
            "matching",
            "No register agrees with all readings by a usual scale. Remove a reading that was mistyped, or during "
            "which the value moved. A third reading at another value finds any straight line.",
        )
    return translate(
        "matching",
        "No register agrees with all readings. Check what was typed; perhaps the value changed between the display and "
        "the reading, or it is in a table or a range that was not read.",
    )


def _about_the_first(first: Candidate, match: MatchResult, name: Namer) -> Iterator[str]:
    called, encoding = name_of(first.best, name), first.best.way.encoding
    if first.one_off:
        yield translate(
            "matching",
            "Reading {numbers}: {register} agrees if the last digit was typed one too high or too low, or the display "
            "cuts off.",
        ).format(register=called, numbers=_numbers(first.one_off))
    wider = [each for each in first.also if each.way.width > first.best.way.width]
    if wider:
        yield translate(
            "matching",
            "The shortest data type is told: {register} as {encoding}. It may be the low word of a longer number "
            "({others}); a value above {value} would tell.",
        ).format(
            register=called,
            encoding=encoding,
            others=", ".join(
                dict.fromkeys(f"{each.way.encoding}: {name_of(each, name)}" for each in wider[:_MOST_NAMED])
            ),
            value=_at(first.best, match, raw_range(_WITHOUT_SIGN.get(encoding, encoding))[1]),
        )
    unsigned = _WITHOUT_SIGN.get(encoding, encoding)
    signed = next((with_sign for with_sign, without in _WITHOUT_SIGN.items() if without == unsigned), None)
    open_sign = {unsigned, signed} - {encoding}
    if any(each.way.encoding in open_sign and each.places == first.best.places for each in first.also):
        yield translate(
            "matching", "Whether {register} has a sign is open: a value below 0 would tell, or one above {value}."
        ).format(register=called, value=_at(first.best, match, raw_range(signed or encoding)[1]))


def _to_separate(match: MatchResult, name: Namer) -> Iterator[str]:
    first, *others = match.candidates
    if first.twins:
        yield translate(
            "matching",
            "The same value at every reading: {registers}. A set point and its actual value differ while the machine "
            "runs up: type a value on its way with a coarser step, and press Enter as the display passes it.",
        ).format(registers=", ".join(name_of(each, name) for each in (first.best, *first.twins)[: _MOST_NAMED + 1]))
    rivals = [each for each in others if each.chance < _IN_QUESTION and each.best not in first.twins]
    if first.chance <= CLEAR:
        return
    if mere_chance(match):
        yield translate(
            "matching",
            "{register} agrees by chance, most likely. Remove a reading that was mistyped, or during which the value "
            "moved, and read it again while it stands still.",
        ).format(register=name_of(first.best, name))
    elif rivals:
        yield translate(
            "matching", "Other registers are possible as well: {count}. Read it again at a quite different value."
        ).format(count=len(rivals))
    elif not first.twins:  # these stay the same at every value
        yield translate("matching", "Read it again at another value, to be sure.")
    yield from _uneven(match.readings)


def _uneven(readings: Sequence[Shown]) -> Iterator[str]:
    """Asked for where only round values were typed."""
    finest = min(readings, key=lambda each: each.step)
    counts = [round(abs(each.value / each.step)) for each in readings if each.value]
    if all(len(str(count).rstrip("0")) <= _FEW_DIGITS for count in counts):
        value = Fraction(7, 10) * max(abs(each.value) for each in readings) + 3 * finest.step
        yield translate(
            "matching", "An uneven value such as {value} says more than a round one, which many registers contain."
        ).format(value=_spoken(round_half_away(value / finest.step) * finest.step, finest.decimals))


def name_of(explanation: RegisterMeaning, name: Namer = register_text) -> str:
    """What people call the registers of an explanation."""
    return name(explanation.table, explanation.places[0], explanation.places[-1])


def _at(explanation: RegisterMeaning, match: MatchResult, raw: Fraction) -> str:
    decimals = max(each.decimals for each in match.readings)
    unit = next((each.unit for each in match.readings if each.unit), "")
    return (
        f"{_spoken(round_half_away(explanation.slope * raw + explanation.offset, decimals), decimals)} {unit}".strip()
    )


def _spoken(value: Fraction, decimals: int) -> str:
    return with_mark(f"{float(value):.{decimals}f}")


def _numbers(places: Sequence[int]) -> str:
    return ", ".join(str(at + 1) for at in places)
