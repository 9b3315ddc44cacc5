"""Which trouble of a two-wire line is likely, in a technician's words, each with its evidence and what to do.

What is said follows from how a line works and from common practice (no source); the rates of a wrong speed and of a
wrong parity from a port that is modelled bit by bit, as in the tests. A cause is never proved by this: it is what to
look at first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from app.language import Template, mark, translate
from app.listening.evidence import FEW, LineEvidence

TroubleKind = Literal[
    "speed",
    "parity",
    "termination",
    "swapped wires",
    "same address",
    "ground",
    "bias",
    "echo",
    "late switching",
    "lost characters",
    "other protocol",
    "contact",
]
Likelihood = Literal["very likely", "likely", "possible"]

_ORDER: Final[tuple[Likelihood, ...]] = ("very likely", "likely", "possible")
_ALL_PARITY: Final = 0.9
"""Parity errors a character from which on all characters have the other parity; at a wrong speed it is about a half."""
_SOME_PARITY: Final = 0.2
_NO_FRAMING: Final = 0.05
_MANY_FRAMING: Final = 0.2
"""Framing errors a character from which on speed or parity are wrong, rather than the line disturbed: modelled, a wrong
speed gives 0.2 to 0.9, errors and breaks together."""
_RUNS: Final = 0.55
"""The same by bytes alone, where the port does not count errors; chance would give 0.035."""
_USUAL_SPEEDS: Final = 5
"""Speeds after which a wrong one is no longer the first guess."""
_DISTURBED: Final = 0.01
"""Garbled answers, of all that came, from which on a line is called disturbed."""
_ONE_UNIT: Final = 0.3
"""Garbled answers from which on a unit is worse than its line, if others have fewer than `_OTHERS`."""
_OTHERS: Final = 0.05
_OFTEN: Final = 5
_NOISE_A_SECOND: Final = 0.2
_NOISE: Final = 3
_AT_REST: Final = 2
"""Characters at one setting up to which nobody has spoken, but the line rests at the wrong level."""
_ASCII: Final = 0.95

_TITLES: Final[dict[TroubleKind, Template]] = {
    "speed": mark("trouble", "The speed is another one"),
    "parity": mark("trouble", "The parity is another one"),
    "termination": mark("trouble", "The line is disturbed: termination, shield or cable"),
    "swapped wires": mark("trouble", "The two data wires are swapped"),
    "same address": mark("trouble", "Two devices have the same unit address"),
    "ground": mark("trouble", "The common (ground) wire between the devices is missing"),
    "bias": mark("trouble", "The line floats between frames"),
    "echo": mark("trouble", "The adapter repeats what is sent (echo)"),
    "late switching": mark("trouble", "The adapter switches to receiving too late"),
    "lost characters": mark("trouble", "This computer lost characters"),
    "other protocol": mark("trouble", "Another protocol is spoken, or ASCII mode"),
    "contact": mark("trouble", "A device is off or not connected, or a contact is loose"),
}
_TO_DO: Final[dict[TroubleKind, Template]] = {
    "speed": mark("trouble", "Try the remaining speeds, or read the speed off the device."),
    "parity": mark("trouble", "Try the other parities at the same speed."),
    "termination": mark(
        "trouble",
        "Put 120 ohm at both ends of the line and nowhere else, connect the shield, avoid stubs, and keep away from "
        "motor cables.",
    ),
    "swapped wires": mark(
        "trouble", "Swap the two data wires at the adapter; makers do not agree on which is A and which is B."
    ),
    "same address": mark(
        "trouble",
        "Disconnect one device after the other until its answers are sound and come once. If only one is there, check "
        "its own wiring, and converters that send twice.",
    ),
    "ground": mark(
        "trouble",
        "Connect the common terminals of all devices and of the adapter with a third wire; where their supplies are "
        "far apart, use an isolated adapter.",
    ),
    "bias": mark(
        "trouble",
        "Switch on the bias resistors at one place of the line, and see that there are no more than two terminations.",
    ),
    "echo": mark(
        "trouble",
        "This is not a fault, and shows that the adapter works. Say in the settings of the line that the adapter "
        "echoes.",
    ),
    "late switching": mark(
        "trouble", "Shorten the turn-off delay of the adapter, or increase the answer delay of the device."
    ),
    "lost characters": mark(
        "trouble", "Use another port or adapter, or a lower speed; the line itself is not to blame."
    ),
    "other protocol": mark("trouble", "Look up which protocol the devices are set to, and set them to RTU mode."),
    "contact": mark(
        "trouble",
        "Check supply and terminals (is it the right pair?), and whether the device is set to be operated over the "
        "line.",
    ),
}


@dataclass(frozen=True, slots=True)
class Suspicion:
    """One likely cause and what speaks for it."""

    kind: TroubleKind
    likelihood: Likelihood
    evidence: str
    """A whole sentence, with the counts that it rests on."""
    unit: int | None = None
    """The one device that it is about, if it is."""

    @property
    def title(self) -> str:
        """The cause in a few words."""
        return _TITLES[self.kind].translated()

    @property
    def to_do(self) -> str:
        """What to try."""
        return _TO_DO[self.kind].translated()

    @property
    def likely(self) -> str:
        """How likely, in words."""
        if self.likelihood == "very likely":
            return translate("trouble", "very likely")
        return translate("trouble", "likely") if self.likelihood == "likely" else translate("trouble", "possible")


@dataclass(frozen=True, slots=True)
class LineTrouble:
    """All suspicions, likeliest first, and a sentence on how far the evidence goes."""

    suspicions: tuple[Suspicion, ...]
    summary: str


def line_trouble(evidence: Sequence[LineEvidence], *, finished: bool = True, two_wires: bool = True) -> LineTrouble:
    """What is likely wrong, from what was counted at each setting that was tried.

    `finished`: most was tried of what is likely. A silence that was cut short tells nothing, since the settings of the
    device may be the next ones. Without `two_wires`, as on a network, nothing is said about any.
    """
    requests = sum(one.requests for one in evidence)
    best = max(evidence, key=lambda one: one.frames, default=None)
    if best is None or not any(one.requests or one.characters for one in evidence):
        return LineTrouble((), translate("trouble", "Too little was received to say anything about the line."))
    understood, silent = best.frames >= 2, not any(one.characters for one in evidence)
    if silent and not finished:
        words = translate("trouble", "Too early to say: so far none of {count} requests was answered. Search on.")
        return LineTrouble(tuple(_echoes(evidence)), words.format(count=requests))
    if not two_wires and not understood:
        words = translate(
            "trouble",
            "The connection stands, but none of {count} requests was answered. Check the host and its port, and "
            "whether Modbus TCP is switched on at the device; many serve only a few clients at a time.",
        )
        return LineTrouble((), words.format(count=requests))
    all_finds = _at_the_right_speed(best) if understood else _nobody_understood(evidence)
    finds = sorted(all_finds if two_wires else (), key=lambda one: _ORDER.index(one.likelihood))
    return LineTrouble(tuple(finds), _summary(finds, understood=understood, silent=silent))


def _summary(finds: Sequence[Suspicion], *, understood: bool, silent: bool) -> str:
    faults = [one for one in finds if one.kind != "echo"]
    if not faults:
        return (
            translate("trouble", "Nothing that was received points to trouble on the line.")
            if understood
            else translate("trouble", "What was received does not tell what is wrong.")
        )
    if silent:
        return translate("trouble", "Nobody answered, which has several causes; check in this order.")
    if len(faults) > 1 and faults[0].likelihood == faults[1].likelihood:
        return translate("trouble", "What was received does not tell which it is; check in this order.")
    return translate("trouble", "What was received points to one cause more than to others.")


# Somebody is understood


def _at_the_right_speed(line: LineEvidence) -> Iterator[Suspicion]:
    yield from _echo(line)
    yield from _wrong_parity(line)
    yield from _same_address(line)
    yield from _disturbed(line)
    yield from _noise(line)
    if line.overruns:
        yield Suspicion(
            "lost characters",
            "very likely",
            translate("trouble", "{count} characters were lost because nobody fetched them in time (overruns).").format(
                count=line.overruns
            ),
        )


def _echo(line: LineEvidence) -> Iterator[Suspicion]:
    if line.echoes and line.echoes >= 0.5 * line.requests:
        yield Suspicion(
            "echo",
            "very likely",
            translate("trouble", "{count} of {total} requests came back.").format(
                count=line.echoes, total=line.requests
            ),
        )


def _echoes(evidence: Sequence[LineEvidence]) -> Iterator[Suspicion]:
    for one in [one for one in evidence if one.echoes][:1]:
        yield from _echo(one)


def _wrong_parity(line: LineEvidence) -> Iterator[Suspicion]:
    parity, framing = line.share(line.parity_errors), line.share(line.framing_errors)
    if parity is not None and parity >= _ALL_PARITY:
        yield Suspicion(
            "parity",
            "very likely",
            translate("trouble", "Frames are sound, but {count} of {total} characters have a wrong parity bit.").format(
                count=line.parity_errors, total=line.characters
            ),
        )
    elif framing is not None and framing >= _MANY_FRAMING:
        yield Suspicion(
            "parity",
            "very likely",
            translate(
                "trouble",
                "Frames are sound, but {count} of {total} characters have no stop bit where one is expected: the "
                "devices send a parity bit.",
            ).format(count=line.framing_errors, total=line.characters),
        )


def _same_address(line: LineEvidence) -> Iterator[Suspicion]:
    for number, unit in line.units.items():
        came = unit.answers + unit.garbled
        others = [one for other, one in line.units.items() if other != number and one.answers >= _OFTEN]
        if unit.doubled >= 2:
            words = translate("trouble", "{count} requests to unit {unit} were answered twice.").format(
                count=unit.doubled, unit=number
            )
        elif (
            came >= _OFTEN
            and unit.garbled_share >= _ONE_UNIT
            and others
            and all(one.garbled_share < _OTHERS for one in others)
        ):
            words = translate(
                "trouble",
                "{count} of {total} answers of unit {unit} are garbled, but hardly any of the other devices'.",
            ).format(count=unit.garbled, total=came, unit=number)
        else:
            continue
        yield Suspicion("same address", "likely", words, number)


def _disturbed(line: LineEvidence) -> Iterator[Suspicion]:
    came = line.answers + line.garbled
    if line.headless >= 2:
        yield Suspicion(
            "late switching",
            "very likely",
            translate("trouble", "{count} answers lacked nothing but their first byte.").format(count=line.headless),
        )
    rest = line.garbled - line.headless
    if rest >= 2 and rest >= _DISTURBED * came:
        yield Suspicion(
            "termination",
            "likely" if line.one_bit >= 0.5 * (line.looked_into - line.headless) else "possible",
            translate("trouble", "{count} of {total} answers are garbled, {single} of them by a single bit.").format(
                count=line.garbled, total=came, single=line.one_bit
            ),
        )
    silent = sum(unit.silences for unit in line.units.values() if unit.answers)
    if line.answers >= _OFTEN and silent >= max(2, _OTHERS * (line.answers + silent)):
        yield Suspicion(
            "contact",
            "possible",
            translate("trouble", "Devices that do answer were silent {count} times of {total}.").format(
                count=silent, total=line.answers + silent
            ),
        )


def _noise(line: LineEvidence) -> Iterator[Suspicion]:
    if line.idle_stray < max(_NOISE, _NOISE_A_SECOND * line.idle_s):
        return
    words = translate("trouble", "{count} stray characters came in {seconds} s in which nothing was sent.").format(
        count=line.idle_stray, seconds=round(line.idle_s, 1)
    )
    disturbed = line.garbled >= 2
    if disturbed:
        yield Suspicion("ground", "likely", words)
    yield Suspicion("bias", "possible" if disturbed else "likely", words)


# Nobody is understood


def _nobody_understood(evidence: Sequence[LineEvidence]) -> Iterator[Suspicion]:
    received = [one for one in evidence if one.characters]
    tried = max(1, len({one.settings.baud for one in evidence if one.settings is not None}))
    echoes = list(_echoes(evidence))
    yield from echoes
    if not received:
        yield from _silence(sum(one.requests for one in evidence), tried, echo=bool(echoes))
        return
    stray = sum(one.stray for one in received)
    if stray >= FEW and sum(one.ascii for one in received) >= _ASCII * stray:
        yield Suspicion(
            "other protocol",
            "very likely",
            translate("trouble", "What came consists of colons, digits and the letters A to F, as in ASCII mode."),
        )
        return
    # A line that rests at the wrong level is one break whenever the port is set anew, and nothing else comes.
    if all(one.characters <= _AT_REST and one.breaks == one.characters for one in received) and len(received) > 1:
        yield Suspicion(
            "swapped wires",
            "likely",
            translate(
                "trouble",
                "The line rests at the wrong level: only a break came whenever the port was set to another speed.",
            ),
        )
        return
    sound = list(_stop_bits_right(received))
    yield from sound or _stop_bits_wrong(received, tried)


def _stop_bits_right(received: Sequence[LineEvidence]) -> Iterator[Suspicion]:
    """The speed is right where hardly any stop bit is missing, though no frame is sound."""
    for one in received:
        parity, framing = one.share(one.parity_errors), one.share(one.framing_errors)
        if framing is None or framing >= _NO_FRAMING or one.breaks or one.runs >= _RUNS * one.stray:
            continue
        if parity is not None and parity >= _SOME_PARITY:
            yield Suspicion(
                "parity",
                "likely",
                translate(
                    "trouble",
                    "At {settings} {count} of {total} characters have a wrong parity bit, but their stop bits are "
                    "right.",
                ).format(settings=one.settings, count=one.parity_errors, total=one.characters),
            )
        else:
            yield Suspicion(
                "other protocol",
                "possible",
                translate("trouble", "At {settings} {total} characters came undamaged, but no frame.").format(
                    settings=one.settings, total=one.characters
                ),
            )


def _stop_bits_wrong(received: Sequence[LineEvidence], tried: int) -> Iterator[Suspicion]:
    framing = sum((one.framing_errors or 0) + (one.breaks or 0) for one in received)
    whole = sum(one.characters for one in received)
    runs, stray = sum(one.runs for one in received), sum(one.stray for one in received)
    if whole < FEW or (framing < _MANY_FRAMING * whole and runs < _RUNS * stray):
        return
    if framing:
        words = translate(
            "trouble",
            "Of {total} characters {count} have no stop bit where one is expected, and no frame is sound; speeds "
            "tried: {tried}.",
        ).format(count=framing, total=whole, tried=tried)
    else:
        words = translate(
            "trouble",
            "Of {total} characters {count} are zeros or a single run of ones, and no frame is sound; speeds tried: "
            "{tried}.",
        ).format(count=runs, total=stray, tried=tried)
    many = tried >= _USUAL_SPEEDS
    yield Suspicion("speed", "possible" if many else "likely", words)
    # Characters without a parity bit look like those of another speed to a port that expects one.
    if all(one.settings is None or one.settings.parity != "none" for one in received):
        yield Suspicion("parity", "possible", words)
    yield Suspicion("swapped wires", "likely" if many else "possible", words)


def _silence(requests: int, tried: int, *, echo: bool) -> Iterator[Suspicion]:
    words = (
        translate("trouble", "Our own requests came back, but no answer to any of {count}; speeds tried: {tried}.")
        if echo
        else translate("trouble", "Not one character came back for {count} requests; speeds tried: {tried}.")
    ).format(count=requests, tried=tried)
    yield Suspicion("contact", "likely", words)
    yield Suspicion("swapped wires", "possible", words)
    if tried < _USUAL_SPEEDS:
        yield Suspicion("speed", "possible", words)
