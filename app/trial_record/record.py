"""The record of a trial: what was run, against what, by whom, and what was seen, as a file that can be signed.

It proves a functional test and no more (IEC 60204-1, clause 18.6, from memory), and says so.
"""

from __future__ import annotations

import os
import platform
import sys
from collections.abc import Mapping
from dataclasses import MISSING, dataclass, field, fields, is_dataclass, replace
from datetime import UTC, date, datetime
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any, Final, Literal

from pydantic import TypeAdapter, ValidationError

from app.client.endpoint import Endpoint
from app.errors import FanlightError
from app.language import mark, translate
from app.project.model import Project
from app.project_file.bounded_read import NotOrdinary, read_ordinary
from app.project_file.canonical import canonical_text
from app.project_file.files import digest
from app.project_file.replace_file import write_whole
from app.trial.outcome import CaseOutcome, Exempted, TrialOutcome, Verdict, verdict_of
from app.trial.script import Trial
from app.trial.script_file import project_digest
from app.trial_record.canonical_json import NotCanonical, canonical_json, parsed_json

FORMAT: Final = 1
"""The version of the record that this program writes."""
ENDING: Final = ".trial.json"
"""How the name of a record ends."""
NAMESPACE: Final = "trial@fanlight"
"""What signatures of records are for: none of another purpose is taken for one."""
LARGEST_RECORD: Final = 256 * 1024 * 1024
"""Bytes. Ten thousand steps have some ten million."""

SIMULATED, DEVICE = "simulated devices", "device"
CLAIM: Final = (
    "A functional test as in IEC 60204-1, 18.6: that the panel showed and did what is listed here, on the day named "
    "here. It proves no other verification of clause 18, and no safety function."
)
_LIBRARIES: Final = ("fanlight", "pymodbus", "pyserial", "cryptography")


class CannotUseRecord(FanlightError):
    """A record cannot be read or written; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class FileUsed:
    """A file that belongs to a record: its name, what it is called, and the SHA-256 of what it held."""

    name: str
    title: str
    digest: str


@dataclass(frozen=True, slots=True)
class LineUsed:
    """A line as it was used: where it led, and its settings in words."""

    name: str
    where: str
    settings: str = ""


@dataclass(frozen=True, slots=True)
class DeviceUsed:
    """A device as it was met: its unit address, and what it calls itself, where it does."""

    name: str
    line: str
    unit: int
    identification: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class TrialRecord:
    """Everything that a record holds. Times are UTC by the computer's clock; `clock_set_s` is how far it was set."""

    against: Literal["simulated devices", "device"]
    result: Verdict
    project: FileUsed
    trial: FileUsed
    cases: tuple[CaseOutcome, ...]
    began: datetime
    ended: datetime
    finished: bool
    took_s: float
    by: str = ""
    place: str = ""
    stage: str = ""
    remarks: str = ""
    lines: tuple[LineUsed, ...] = ()
    devices: tuple[DeviceUsed, ...] = ()
    exceptions: tuple[Exempted, ...] = ()
    program: dict[str, str] = field(default_factory=dict)
    coverage: dict[str, Any] = field(default_factory=dict)
    recordings: tuple[FileUsed, ...] = ()
    clock_set_s: float = 0.0
    real_time: bool = True
    """Whether seconds were seconds; else those of the models, which run as quickly as the computer can."""
    claim: str = ""
    format: int = 0

    def accepting(self, case: str, by: str, reason: str) -> TrialRecord:
        """The same, with somebody who accepts that a case did not pass. Raises CannotUseRecord if that is not said."""
        if not by.strip() or not reason.strip():
            raise CannotUseRecord(mark("trial", "an exception needs a name and a reason"))
        others = tuple(one for one in self.exceptions if one.case != case)
        return replace(self, exceptions=(*others, Exempted(case, by.strip(), reason.strip()))).judged()

    def judged(self) -> TrialRecord:
        """The same, with the result that follows from its cases and exceptions."""
        results = [(case.name, case.result) for case in self.cases]
        return replace(self, result=verdict_of(results, self.exceptions, finished=self.finished))


@dataclass(frozen=True, slots=True)
class Circumstances:
    """What a run does not know of itself: who runs it, where, and what is at the other end."""

    by: str = ""
    place: str = ""
    project_file: str = ""
    trial_file: str = ""
    endpoints: Mapping[str, Endpoint] = field(default_factory=dict)
    identification: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    """What devices call themselves, by their names in the project."""


def record_of(outcome: TrialOutcome, trial: Trial, project: Project, around: Circumstances) -> TrialRecord:
    """The record of a run."""
    head = record_head(trial, project, around, simulated=outcome.simulated, began=outcome.began)
    return replace(
        head,
        real_time=outcome.real_time,
        cases=outcome.cases,
        ended=outcome.ended,
        finished=outcome.finished,
        took_s=outcome.took_s,
        clock_set_s=outcome.clock_set_s,
        exceptions=outcome.exceptions,
    ).judged()


def record_head(
    trial: Trial, project: Project, around: Circumstances, *, simulated: bool, began: datetime
) -> TrialRecord:
    """The record of a run that has only begun."""
    return TrialRecord(
        against=SIMULATED if simulated else DEVICE,  # type: ignore[arg-type]
        result=Verdict.UNFINISHED,
        project=FileUsed(_name(around.project_file), project.title, project_digest(project)),
        trial=FileUsed(_name(around.trial_file), trial.title, digest(canonical_text(trial).encode())),
        cases=(),
        began=began,
        ended=began,
        finished=False,
        took_s=0.0,
        by=around.by,
        place=around.place,
        stage=trial.stage,
        lines=tuple(
            LineUsed(line.name, str(around.endpoints.get(line.name, "")), _settings(around.endpoints.get(line.name)))
            for line in project.lines
        ),
        devices=tuple(
            DeviceUsed(each.name, each.line, each.unit, dict(around.identification.get(each.name, {})))
            for each in project.followers
        ),
        program=versions(),
        claim=CLAIM,
        format=FORMAT,
    )


def versions() -> dict[str, str]:
    """This program and what it runs on, each with its version."""
    found = {"python": platform.python_version(), "system": f"{platform.system()} {platform.release()}"}
    for name in _LIBRARIES:
        try:
            found[name] = version(name)
        except PackageNotFoundError:
            found[name] = "unknown" if not getattr(sys, "frozen", False) else "built in"
    return found


# The file ------------------------------------------------------------------------------------------------------------


def recording_of(record: Path) -> Path:
    """Where the curves of a run are kept whose record will be this file."""
    return record.with_name(record.name.removesuffix(".json") + ".fanrec")


def record_bytes(record: TrialRecord) -> bytes:
    """The record as its file holds it: keys in order, numbers with decimals as texts, UTF-8.

    Its first line says what it was run against.
    """
    return canonical_json(plain(record))


def save_record(record: TrialRecord, path: str | os.PathLike[str]) -> bytes:
    """Write a record to a file, all of it or nothing; gives what stands there now. Raises CannotUseRecord."""
    content = record_bytes(record)
    try:
        write_whole(Path(path), content)
    except OSError as why:
        raise CannotUseRecord(
            mark("trial", "the record was not written to {file}: {why}"), file=path, why=why.strerror or str(why)
        ) from None
    return content


def load_record(path: str | os.PathLike[str]) -> TrialRecord:
    """The record in a file. Raises CannotUseRecord."""
    return record_in(read_record(path), path)


def read_record(path: str | os.PathLike[str]) -> bytes:
    """The bytes of a record's file, which is what a signature is of. Raises CannotUseRecord."""
    try:
        content = read_ordinary(Path(path), LARGEST_RECORD)
    except NotOrdinary:
        raise CannotUseRecord(mark("trial", "{file} is not a regular file"), file=path) from None
    except (OSError, ValueError) as why:
        said = getattr(why, "strerror", None) or str(why)
        raise CannotUseRecord(mark("trial", "{file} cannot be read: {why}"), file=path, why=said) from None
    if len(content) > LARGEST_RECORD:
        raise CannotUseRecord(mark("trial", "{file} is too large for a record"), file=path)
    return content


def record_in(content: bytes, path: str | os.PathLike[str] = "") -> TrialRecord:
    """The record in the bytes of a file. Raises CannotUseRecord."""
    try:
        return record_from(parsed_json(content))
    except (NotCanonical, ValidationError) as why:
        said = str(why) if isinstance(why, NotCanonical) else _first(why)
        raise CannotUseRecord(
            mark("trial", "{file} is not a record of a trial: {why}"), file=path or translate("trial", "this"), why=said
        ) from None


def record_from(tables: object) -> TrialRecord:
    """The record in plain tables. Raises pydantic.ValidationError."""
    return _adapter().validate_python(tables)


def plain(value: object) -> Any:
    """A value of a record as plain tables: dates as ISO 8601, numbers with decimals as texts, defaults left out."""
    if isinstance(value, str) and not isinstance(value, Enum):
        # What a terminal or a name of a file gave that is not UTF-8 has no place in a file that is.
        return value if value.isascii() else value.encode(errors="replace").decode()
    if value is None or (isinstance(value, int) and not isinstance(value, Enum)):
        return value
    if isinstance(value, list | tuple):
        return [plain(part) for part in value]
    if is_dataclass(value) and not isinstance(value, type):
        told = {}
        for name, default in _named(type(value)):
            part = getattr(value, name)
            if part is not default and part != default:
                told[name] = plain(part)
        if isinstance(value, CaseOutcome):  # what follows from its steps, for whoever reads the file without us
            told |= {"result": value.result.value} | ({"reason": value.reason} if value.reason else {})
        return told
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float):
        return f"{value:.3f}"
    if isinstance(value, Fraction | Decimal):
        return str(value)
    if isinstance(value, Mapping):
        return {plain(str(key)): plain(part) for key, part in value.items()}
    raise TypeError(f"{type(value).__name__} has no place in a record")


@cache
def _adapter() -> TypeAdapter[TrialRecord]:
    return TypeAdapter(TrialRecord)


@cache
def _named(model: type[Any]) -> tuple[tuple[str, object], ...]:
    """The fields of a part of a record, each with what is left out: its default."""
    return tuple(
        (each.name, each.default_factory() if each.default_factory is not MISSING else each.default)
        for each in fields(model)
    )


def _first(error: ValidationError) -> str:
    details = error.errors(include_url=False)[0]
    place = ".".join(map(str, details["loc"]))
    if details["type"] == "missing":
        return translate("trial", "'{key}' is missing").format(key=place)
    return f"{place}: {details['msg']}"


def _name(path: str) -> str:
    return Path(path).name if path else ""


def _settings(endpoint: Endpoint | None) -> str:
    if endpoint is None:
        return ""
    time_out = f"time-out {endpoint.timeout_ms} ms"
    if endpoint.kind != "serial":
        return time_out
    return f"{endpoint.baud} bit/s 8{endpoint.parity[0].upper()}{endpoint.stop_bits}, {time_out}"
