"""What was found on a line, as a project: a new one that runs at once, or an edit of one that is there.

Every function gives a new project back, so that the window can undo what it did. Nothing here asks a line.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice
from math import ceil
from pathlib import Path
from typing import Final

from app.client.endpoint import USUAL_PORT, Endpoint
from app.discovery.first_screens import first_panel, with_first_screens
from app.discovery.known_line import KnownLine
from app.edits.incoming import follower as new_follower
from app.edits.lines import AnyLine, add_follower, add_line, change_follower, replace_line
from app.edits.refused import EditRefused, changed, free_name, made
from app.edits.several import put_parts
from app.edits.signals import register_signal
from app.language import mark, translate
from app.probing.found import Found, FoundFollower, FoundRange
from app.probing.identification import SERVER_ID
from app.probing.requests import Untouched
from app.project.model import (
    Follower,
    NeverRead,
    Project,
    RegisterSignal,
    Scale,
    SerialLine,
    SerialOverTcpLine,
    TcpLine,
)
from app.project.problems import quoted
from app.project_file.files import ProjectSaveError, save
from app.signals.encoding import EncodingName, has_word_order
from app.signals.numbering import Numbering, Table, documented_number, register_text
from app.signals.order import WordOrder
from app.signals.visible import visible

LEAST_TIMEOUT_MS: Final = 300
"""A device that answered fast while it was searched for may have more to do later (common practice, no source)."""
_TIMES_SLOWEST: Final = 3
_STEP_MS: Final = 50
_MOST_NAME: Final = 40
UNNAMED: Final = 12
"""So many of the registers of a device that nobody named anything on become signals, as they are."""


@dataclass(frozen=True, slots=True)
class NamedRegister:
    """What a person says that a register holds. `address` is that on the wire, from 0."""

    name: str
    table: Table
    address: int
    encoding: EncodingName = "uint16"
    length: int | None = None
    """Of a text: its registers."""
    word_order: WordOrder = "high-first"
    byte_order: WordOrder = "high-first"
    scale: Scale | None = None
    unit: str = ""
    decimals: int = 0
    texts: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ChosenDevice:
    """A device that was found, and what the person made of it."""

    found: FoundFollower
    registers: tuple[NamedRegister, ...] = ()
    name: str = ""
    """Left out: what the device says that it is, or 'device'."""
    numbering: Numbering = "from-0"
    """How its manual counts registers."""
    never_read: tuple[FoundRange, ...] = ()
    """What the person does not want to be read, in addresses on the wire."""


def new_project(place: Endpoint, found: Found, devices: Sequence[ChosenDevice], title: str = "") -> Project:
    """A project of these devices at this place, whose panel shows their first signals at once.

    Raises EditRefused, as `added_to` does.
    """
    panel, screen = first_panel()
    project = added_to(Project(panel=panel, screens=(screen,)), place, found, devices)
    names = [follower.name for follower in project.followers]
    title = " ".join(visible(title).split()) or ", ".join(names)
    said = [
        translate("discovery", "{device}: {what}").format(device=name, what=_identified(device.found))
        for name, device in zip(names, devices, strict=True)
        if device.found.identification
    ]
    project = project.replace(title=title, notes="\n".join(said))
    return with_first_screens(project, title.upper())


def added_to(project: Project, place: Endpoint, found: Found, devices: Sequence[ChosenDevice]) -> Project:
    """With these devices and their signals; a line or a device that is there already is used.

    The settings found on a serial line become those of its line: they were answered. A device that is there keeps its
    name, its numbering and its orders. Raises EditRefused where registers need different orders of bytes, which a
    device has but one of, and NotARegister for a register that the numbering cannot name.
    """
    line = _line(place, found, devices)
    of_kind = (one for one in project.lines if one.kind == line.kind)
    there = next((one for one in of_kind if Endpoint.of_line(one).same_place(place)), None)
    if there is None:
        line = changed(line, name=free_name(line.name, project.line_named))
        project = add_line(project, line)
    else:
        project = replace_line(project, there.name, _settled(there, line))
        line = there
    for device in devices:
        project = _with_device(project, line.name, device)
    return project


def all_found(found: Found, never: Untouched | None = None, known: KnownLine | None = None) -> tuple[ChosenDevice, ...]:
    """Every device that was found, with its first registers as they are: what is made while nobody names anything.

    `never` was left out of the search, and `known` is what a project says of the line already.
    """
    known = known or KnownLine()
    return tuple(
        ChosenDevice(
            device,
            tuple(_unnamed(device.ranges)),
            numbering=known.numbering.get(device.unit, "from-0"),
            never_read=known.never_read_of(device.unit, never or {}),
        )
        for device in found.followers
        if not device.gateway
    )


def save_found(
    place: Endpoint, found: Found, path: Path, *, overwrite: bool = False, never: Untouched | None = None
) -> Project:
    """Write a project of all that was found to a file, and give it back; `never` stays unread in it.

    Raises ProjectSaveError: also if nothing was found, or if the file is there and nobody said to overwrite it.
    """
    devices = all_found(found, never)
    if not devices:
        raise ProjectSaveError(mark("discovery", "{path} was not written: no device was found"), path=path)
    if path.exists() and not overwrite:
        raise ProjectSaveError(
            mark("discovery", "{path} already exists and was not overwritten: choose another name"), path=path
        )
    project = new_project(place, found, devices)
    save(project, path)
    return project


def fitting_timeout_ms(devices: Iterable[FoundFollower]) -> int:
    """How long the line should wait for an answer to begin: three times the slowest that was seen, in 50 ms steps.

    300 to 60 000 ms (common practice, no source).
    """
    slowest = max((one.slow_response_ms or one.response_ms or 0.0 for one in devices), default=0.0)
    return min(max(LEAST_TIMEOUT_MS, _STEP_MS * ceil(_TIMES_SLOWEST * slowest / _STEP_MS)), 60_000)


# The line ------------------------------------------------------------------------------------------------------------


def _line(place: Endpoint, found: Found, devices: Sequence[ChosenDevice]) -> AnyLine:
    timeout_ms = fitting_timeout_ms(device.found for device in devices)
    name = _line_name(place)
    if place.kind == "serial":
        settings = found.settings
        return made(
            SerialLine,
            name=name,
            device=place.device,
            baud=settings.baud if settings else place.baud,
            parity=settings.parity if settings else place.parity,
            stop_bits=settings.stop_bits if settings else place.stop_bits,
            timeout_ms=timeout_ms,
        )
    if place.kind == "serial-over-tcp":
        return made(SerialOverTcpLine, name=name, host=place.host, port=place.port, timeout_ms=timeout_ms)
    in_flight = min((device.found.in_flight or 1 for device in devices), default=1)
    return made(
        TcpLine,
        name=name,
        host=place.host,
        port=place.port,
        timeout_ms=timeout_ms,
        in_flight=max(1, min(in_flight, 16)),
    )


def _line_name(place: Endpoint) -> str:
    """What tells it from other lines: its port without the folder, or its host with a port that is not the usual."""
    if place.kind == "serial":
        said = re.split(r"[/\\]", place.device)[-1]
    else:
        said = place.host if place.port == USUAL_PORT else f"{place.host}:{place.port}"
    return _as_name(said) or translate("starters", "line")


def _settled(there: AnyLine, found: AnyLine) -> AnyLine:
    """The line of the project as it has to be for both: those on it, and those that were found."""
    timeout_ms = max(there.timeout_ms, found.timeout_ms)
    if isinstance(found, TcpLine) and isinstance(there, TcpLine):
        return changed(there, timeout_ms=timeout_ms, in_flight=min(there.in_flight, found.in_flight))
    if isinstance(found, SerialLine):
        settings = {"baud": found.baud, "parity": found.parity, "stop_bits": found.stop_bits}
        return changed(there, timeout_ms=timeout_ms, **settings)
    return changed(there, timeout_ms=timeout_ms)


# The devices ---------------------------------------------------------------------------------------------------------


def _with_device(project: Project, line: str, device: ChosenDevice) -> Project:
    found = device.found
    there = next((one for one in project.followers if (one.line, one.unit) == (line, found.unit)), None)
    follower = _joined(there, device) if there is not None else _new_device(project, line, device)
    if there is None:
        project = add_follower(project, follower)
    else:
        kept = {key: getattr(follower, key) for key in ("max_registers", "gaps", "never_read")}
        project = change_follower(project, there.name, **kept)
    signals: dict[str, RegisterSignal] = {}
    for register in device.registers:
        signal = _signal(register, follower, {*project.signal_named, *signals})
        signals[signal.name] = signal
    return put_parts(project, "signal", {}, list(signals.values()))


def _new_device(project: Project, line: str, device: ChosenDevice) -> Follower:
    orders = Counter(one.word_order for one in device.registers if has_word_order(one.encoding))
    return new_follower(
        name=free_name(_named(device), project.follower_named),
        line=line,
        unit=device.found.unit,
        numbering=device.numbering,
        word_order=orders.most_common(1)[0][0] if orders else "high-first",
        byte_order=_byte_order(device, None),
        max_registers=device.found.longest_read or 125,
        gaps=_may_read_across(device.found),
        never_read=_never_read(device, device.numbering),
    )


def _joined(there: Follower, device: ChosenDevice) -> Follower:
    _byte_order(device, there)
    added = tuple(part for part in _never_read(device, there.numbering) if part not in there.never_read)
    return changed(
        there,
        max_registers=device.found.longest_read or there.max_registers,
        gaps=there.gaps and _may_read_across(device.found),
        never_read=(*there.never_read, *added),
    )


def _byte_order(device: ChosenDevice, there: Follower | None) -> WordOrder:
    """The order of bytes that all registers have. Raises EditRefused if they, or `there`, have different ones."""
    words = [one for one in device.registers if one.table in ("holding", "input")]
    if not words:
        return there.byte_order if there is not None else "high-first"
    order = there.byte_order if there is not None else words[0].byte_order
    odd = next((one for one in words if one.byte_order != order), None)
    if odd is None:
        return order
    raise EditRefused(
        translate(
            "discovery",
            "{name} has another order of bytes than the other signals of this device; a device has one for all of "
            "them. Choose the same order, or leave {name} out.",
        ).format(name=quoted(odd.name))
    )


def _may_read_across(found: FoundFollower) -> bool:
    """Whether a read may go across registers that nobody wants: what lies between two known ranges is refused."""
    tables = Counter(each.table for each in found.ranges)
    return bool(tables) and max(tables.values()) == 1


def _never_read(device: ChosenDevice, numbering: Numbering) -> tuple[NeverRead, ...]:
    return tuple(
        made(
            NeverRead,
            table=part.table,
            first=documented_number(numbering, part.table, part.first),
            last=documented_number(numbering, part.table, part.last),
        )
        for part in device.never_read
    )


def _named(device: ChosenDevice) -> str:
    said = device.found.identification
    wanted = (device.name, *(said.get(key, "") for key in ("ProductName", "ModelName", "ProductCode", SERVER_ID)))
    return next((name for name in map(_as_name, wanted) if name), translate("starters", "device"))


def _as_name(text: str) -> str:
    """What others wrote, as a name may be: without control characters, no longer than one."""
    return " ".join(visible(text).split())[:_MOST_NAME].strip()


def _identified(found: FoundFollower) -> str:
    return ", ".join(f"{key} {' '.join(visible(text).split())}" for key, text in found.identification.items())


# The signals ---------------------------------------------------------------------------------------------------------


def _signal(register: NamedRegister, follower: Follower, taken: set[str]) -> RegisterSignal:
    single = register.table in ("coil", "discrete")
    own_order = has_word_order(register.encoding) and register.word_order != follower.word_order
    scale = register.scale
    numbers = (
        {}
        if single
        else {
            "encoding": register.encoding,
            "length": register.length,
            "word_order": register.word_order if own_order else None,
            "scale": None if scale is None or scale.raw == scale.value else scale,
            "decimals": register.decimals,
        }
    )
    return register_signal(
        name=free_name(_as_name(register.name) or translate("edits", "signal"), taken),
        follower=follower.name,
        table=register.table,
        number=documented_number(follower.numbering, register.table, register.address),
        unit=register.unit,
        texts=dict(register.texts),
        **numbers,
    )


def _unnamed(ranges: Iterable[FoundRange]) -> Iterable[NamedRegister]:
    places = ((part.table, address) for part in ranges for address in range(part.first, part.last + 1))
    return (NamedRegister(register_text(table, at), table, at) for table, at in islice(places, UNNAMED))
