"""Project files: read with all problems told at once, written so that nothing is lost."""

from __future__ import annotations

import errno
import hashlib
import os
import re
import shutil
import stat
import tomllib
from decimal import Decimal, DecimalException
from pathlib import Path
from typing import Final, NamedTuple

from pydantic import ValidationError

from app.errors import FanlightError
from app.language import mark, translate
from app.project.model import FORMAT, Project
from app.project.paths import kind_name
from app.project.problems import Problem
from app.project.references import problems_of_names
from app.project_file.bounded_read import NotOrdinary, read_ordinary
from app.project_file.canonical import canonical
from app.project_file.locks import HeldByOthers, alone
from app.project_file.migration import Tables, UnknownFormat, migrated
from app.project_file.replace_file import clear_leftovers, sync_folder, temporary, write_new
from app.project_file.validation_messages import kind_of, problems_of

BACKUP: Final = ".bak"
_FORMAT: Final = re.compile(rb"^format\s*=\s*([0-9]{1,3})\b", re.MULTILINE)
_HEAD: Final = 65_536
"""Bytes of a file in which its format is looked for before it is replaced."""
"""Behind the name of a file: what it held before it was saved last."""

LARGEST_FILE: Final = 4 * 1024 * 1024
"""Bytes. A project of 200 screens and 2000 signals has about an eighth of this."""

_MOST_VALUES: Final = 200_000
"""Keys and items of lists in one file; the same project has a fifth of this. Bounds the work a hostile file makes."""

_MOST_SHOWN: Final = 30
"""How many problems are written out before "and ... more"."""

_TOKEN: Final = re.compile(
    r"""
    "{3} (?:[^\\]|\\.?)*? (?:"{3,5}|\Z)  # texts of several lines; one left open reaches to the end
    | '{3} .*? (?:'{3,5}|\Z)
    | (?P<comment> \# [^\n]*+ )
    | (?P<deep> (?<![\w-]) (?: (?: [\w-]++ | "[^"\n]*+" | '[^'\n]*+' ) [ \t]*+ \. [ \t]*+ ){32} )
    | " (?:[^"\\\n]|\\[^\n])*+ "?
    | ' [^'\n]*+ '?
    """,
    re.DOTALL | re.VERBOSE,
)
"""What matters in TOML before it is parsed: its texts, so as to skip them, comments, and keys of 32 steps or more.

The TOML parser takes time in the square of the length of such keys.
"""


class ProjectFileError(FanlightError):
    """A project file cannot be opened. As text: the file, and every problem in it.

    `unreadable` tells the trouble with the file as such (missing, no text, no TOML, a newer format) from mistakes in
    the project that it holds.
    """

    def __init__(
        self,
        problems: tuple[Problem, ...],
        path: str | os.PathLike[str] | None = None,
        *,
        unreadable: bool = False,
    ) -> None:
        super().__init__()
        self.problems = problems
        self.path = None if path is None else Path(path)
        self.unreadable = unreadable

    def __str__(self) -> str:
        file = str(self.path) if self.path else translate("project", "the project")
        if len(self.problems) == 1:
            return f"{file}: {self.problems[0]}"
        shown = [f"  {problem}" for problem in self.problems[:_MOST_SHOWN]]
        if len(self.problems) > _MOST_SHOWN:
            more = translate("project", "and {count} more").format(count=len(self.problems) - _MOST_SHOWN)
            shown.append(f"  {more}")
        return "\n".join(
            [translate("project", "{file}: {count} problems").format(file=file, count=len(self.problems)), *shown]
        )


class ProjectSaveError(FanlightError):
    """A project was not saved, and the former file is as it was. The message says why and what to do."""


class ChangedOnDisk(ProjectSaveError):
    """A project was not saved, because another program has changed the file since it was read or saved here."""


# Reading ------------------------------------------------------------------------------------------------------------


class Loaded(NamedTuple):
    """A project as it came from a file."""

    project: Project
    known: str
    """The digest by which `save` knows whether the file is still the same."""
    format: int
    """The format of the file; the project is in the present one."""


def load(path: str | os.PathLike[str]) -> Project:
    """The project in a file. Raises ProjectFileError with all that is wrong with it."""
    return load_known(path).project


def load_known(path: str | os.PathLike[str]) -> Loaded:
    """The project in a file, with what is to be known about the file.

    Raises ProjectFileError with all that is wrong with it.
    """
    try:
        content = _content(Path(path))
        project, number = _parse(content, loose=False)
        return Loaded(project, digest(content), number)
    except ProjectFileError as error:
        raise ProjectFileError(error.problems, path, unreadable=error.unreadable) from None


def digest(content: bytes) -> str:
    """What tells one content of a file from another."""
    return hashlib.sha256(content).hexdigest()


def digest_of(path: str | os.PathLike[str]) -> str | None:
    """The digest of what a file holds now; None if it cannot be read or is far too large for a project."""
    try:
        return digest(_content(Path(path)))
    except ProjectFileError:
        return None


def parse(text: str | bytes, *, loose: bool = False) -> Project:
    """The project in the text of a project file; bytes are UTF-8, with or without a byte order mark.

    Raises ProjectFileError with all that is wrong with it. With `loose` names may point to nothing, as they may in
    the middle of an edit: for a copy of work that was not saved yet.
    """
    return _parse(text, loose=loose)[0]


def _parse(text: str | bytes, *, loose: bool) -> tuple[Project, int]:
    """The same, with the format of the text."""
    tables = _tables(_decode(text) if isinstance(text, bytes) else text.removeprefix("\ufeff"))
    problems = _format_problems(tables)
    number = FORMAT if problems else int(tables["format"])
    if not problems:
        try:
            tables = migrated(tables)
        except UnknownFormat as why:
            raise _unreadable(str(why), why.hint) from None
    project: Project | None = None
    try:
        # Attribute names such as `number` for `register` serve code only: a file has one way to say a thing.
        project = Project.model_validate(tables, by_alias=True, by_name=False)
    except ValidationError as error:
        found = [problem for problem in problems_of(error, tables) if problem.place != ("format",)]
        problems += found
    if not loose:
        problems += problems_of_names(tables)
    if project is None or problems:
        raise ProjectFileError(tuple(sorted(problems, key=_order)))
    return project, number


def read_tables(path: str | os.PathLike[str]) -> Tables:
    """The plain tables of a TOML file, for other files than projects: its numbers exact, its size and depth bounded.

    Raises ProjectFileError.
    """
    try:
        return _tables(_decode(_content(Path(path))))
    except ProjectFileError as error:
        raise ProjectFileError(error.problems, path, unreadable=error.unreadable) from None


def has_comments(text: str) -> bool:
    """Whether a project file holds remarks after '#'. Saving does not keep them; they belong into `notes`."""
    return any(token["comment"] for token in _TOKEN.finditer(text))


def _content(path: Path) -> bytes:
    try:
        content = read_ordinary(path, LARGEST_FILE)
    except NotOrdinary:
        raise _unreadable(
            translate("project", "this is not a regular file"), translate("project", "choose a project file")
        ) from None
    except IsADirectoryError:
        raise _unreadable(
            translate("project", "this is a folder"), translate("project", "choose a project file in it")
        ) from None
    except FileNotFoundError:
        raise _unreadable(
            translate("project", "file not found"), translate("project", "check the name and the folder")
        ) from None
    except PermissionError:
        if path.is_dir():  # what Windows says of a folder
            raise _unreadable(
                translate("project", "this is a folder"), translate("project", "choose a project file in it")
            ) from None
        raise _unreadable(
            translate("project", "no permission to read this file"),
            translate("project", "ask its owner for permission"),
        ) from None
    except (OSError, ValueError) as error:
        raise _unreadable(
            translate("project", "the file cannot be read: {reason}").format(reason=_reason(error)),
            translate("project", "check the name and the disk"),
        ) from None
    if len(content) > LARGEST_FILE:
        raise _unreadable(
            translate("project", "the file has more than {most} MB, too large for a project").format(
                most=LARGEST_FILE // 1024**2
            ),
            translate("project", "choose a project file"),
        )
    return content


def _unreadable(message: str, hint: str) -> ProjectFileError:
    return ProjectFileError((Problem("", message, hint),), unreadable=True)


def _decode(content: bytes) -> str:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _unreadable(
            translate("project", "the text is UTF-16, not UTF-8"), translate("project", "save it again as UTF-8")
        )
    if b"\0" in content:
        raise _unreadable(
            translate("project", "this is not a text file"), translate("project", "choose a project file")
        )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise _unreadable(
            translate("project", "line {line} contains a character that is not UTF-8").format(line=line),
            translate("project", "save the file again as UTF-8"),
        ) from None


def _tables(text: str) -> Tables:
    if not text.strip():
        raise _unreadable(
            translate("project", "the file is empty"),
            translate("project", "start a new project, or use the backup next to it"),
        )
    # Keys cannot go over several lines; most files need no closer look.
    dotted = any(line.count(".") >= 32 for line in text.split("\n"))
    if dotted and any(token["deep"] for token in _TOKEN.finditer(text)):
        raise _too_deep()
    try:
        tables = tomllib.loads(text, parse_float=_exact)
    except tomllib.TOMLDecodeError as error:
        message = str(error)
        found = re.fullmatch(r"(?P<what>.*) \(at line (?P<line>\d+), column (?P<column>\d+)\)", message, re.DOTALL)
        if found is not None:
            where, what = (
                translate("project", "line {line}, column {column}").format(line=found["line"], column=found["column"]),
                found["what"],
            )
        else:
            where, what = translate("project", "end of the file"), message.removesuffix(" (at end of document)")
        what = what[:1].lower() + what[1:200]
        raise ProjectFileError(
            (Problem(where, translate("project", "this is not TOML: {what}").format(what=what)),), unreadable=True
        ) from None
    except RecursionError:
        raise _too_deep() from None
    except (ValueError, DecimalException):
        raise _unreadable(
            translate("project", "a number has too many digits"), translate("project", "too much for a project")
        ) from None
    if _values(tables) > _MOST_VALUES:
        raise _unreadable(
            translate("project", "the file contains more than {most} values").format(most=_MOST_VALUES),
            translate("project", "too much for a project"),
        )
    return tables


def _too_deep() -> ProjectFileError:
    return _unreadable(
        translate("project", "tables or lists are nested too deeply"),
        translate("project", "too much for a project"),
    )


def _values(tables: Tables) -> int:
    """How many keys and items of lists there are in all, counted without recursion and not far beyond the limit."""
    count = 0
    waiting: list[object] = [tables]
    while waiting and count <= _MOST_VALUES:
        node = waiting.pop()
        inside = node.values() if isinstance(node, dict) else node if isinstance(node, list) else ()
        count += len(inside)
        waiting += [value for value in inside if isinstance(value, dict | list)]
    return count


def _exact(text: str) -> Decimal:
    return Decimal(text)


def _format_problems(tables: Tables) -> list[Problem]:
    if "format" not in tables:
        return [
            Problem(
                kind_name("project"),
                translate("project", "'format' is missing"),
                translate("project", "the current format is written 'format = {format}'").format(format=FORMAT),
                ("format",),
            )
        ]
    number = tables["format"]
    if not isinstance(number, int) or isinstance(number, bool):
        return [
            Problem(
                "format",
                translate("project", "must be a whole number, not {kind_of}").format(kind_of=kind_of(number)),
                translate("project", "write {format}").format(format=FORMAT),
                ("format",),
            )
        ]
    return []


_SECTIONS: Final = (
    "format",
    "title",
    "notes",
    "panel",
    "line",
    "follower",
    "signal",
    "screen",
    "screen_change",
    "action",
    "accepted",
)


def _order(problem: Problem) -> tuple[int, tuple[int, ...]]:
    """Sorts problems as the file is read: by section, by number within it."""
    section = problem.place[0] if problem.place else ""
    rank = _SECTIONS.index(str(section)) if section in _SECTIONS else len(_SECTIONS)
    return rank, tuple(step for step in problem.place if isinstance(step, int))


def _reason(error: Exception) -> str:
    words = (error.strerror if isinstance(error, OSError) else None) or str(error) or type(error).__name__
    return words[:1].lower() + words[1:]


# Writing ------------------------------------------------------------------------------------------------------------


def dump(project: Project) -> str:
    """The canonical text of a project file: `parse(dump(project)) == project`, and equal projects give equal texts."""
    return canonical(project)


def save(project: Project, path: str | os.PathLike[str], *, known: str | None = None) -> str:
    """Write `project` to a file, all of it or nothing; the former file stays beside it as `<name>.bak`.

    A former file of an earlier format stays under the name that `kept_as` gives too, since saves that follow replace
    `<name>.bak`, and no other file can be opened by the program that wrote it.

    A link is followed; permissions are kept. Returns the digest of what the file holds now. Raises ProjectSaveError,
    and the former file is as it was; also when names point to nothing, because such a file could not be opened again.
    `known` is the digest of the file as it was read or saved last: if it holds anything else now, ChangedOnDisk is
    raised. A file that is gone is written anew.
    """
    asked = Path(path)
    if problems := problems_of_names(project):
        raise ProjectSaveError(
            mark("project", "{asked} was not saved, because it could not be opened afterwards: {problems}"),
            asked=asked,
            problems=problems[0],
        )
    content = dump(project).encode()
    try:
        target = Path(os.path.realpath(asked))
        with alone(target):
            _replace(target, content, known)
        clear_leftovers(target)
    except (OSError, ValueError) as error:
        raise ProjectSaveError(
            mark("project", "{asked} was not saved: {save_trouble}"),
            asked=asked,
            save_trouble=_save_trouble(error, asked),
        ) from None
    return digest(content)


def set_aside(path: Path, name: str) -> Path:
    """Copy what stands in a file to `name` beside it, or to the first free name like it. Returns where it is.

    Raises ProjectSaveError.
    """
    wanted = path.with_name(name)
    place, number = wanted, 1
    try:
        while place.exists():
            number += 1
            place = wanted.with_name(f"{wanted.stem} {number}{wanted.suffix}")
        write_new(place, path.read_bytes())
        shutil.copymode(path, place)
    except OSError as error:
        raise ProjectSaveError(
            translate("project", "{place} was not written: {save_trouble}").format(
                place=place, save_trouble=_save_trouble(error, place)
            )
        ) from None
    return place


def may_write(path: Path) -> bool:
    """Whether a file is there that this account may write."""
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


class _Unfit(FanlightError, ValueError):
    """The target cannot be a project file."""


def _replace(target: Path, content: bytes, known: str | None) -> None:
    mode: int | None = None
    if target.is_symlink():  # though all links were followed
        raise _Unfit(translate("project", "the link leads back to itself; choose another name"))
    if target.exists():
        mode = target.stat().st_mode
        if not stat.S_ISREG(mode):
            raise _Unfit(translate("project", "a folder or a system device has this name; choose another name"))
        if not may_write(target):
            raise _Unfit(
                translate("project", "the file is write-protected; save under another name, or remove the protection")
            )
    with temporary(target) as new:
        write_new(new, content)
        if known is not None and mode is not None and digest_of(target) != known:
            raise ChangedOnDisk(
                mark("project", "{name} was not saved: another program has changed the file in the meantime"),
                name=target.name,
            )
        if mode is not None:
            new.chmod(stat.S_IMODE(mode))
            _back_up(target)
        new.replace(target)
    sync_folder(target.parent)


def kept_as(name: str, format_: int) -> str:
    """What a file of an earlier format is called once it is saved in the present one."""
    return f"{name}.format-{format_}{BACKUP}"


def _back_up(target: Path) -> None:
    """Keep the former file as `<name>.bak`, itself put in place in one step, and one of an earlier format for good."""
    names = [target.name + BACKUP]
    if (former := _former_format(target)) is not None:
        names.append(kept_as(target.name, former))
    for name in names:
        with temporary(target) as copy:
            try:
                copy.hardlink_to(target)
            except (OSError, NotImplementedError):  # sticks and network drives without hard links
                shutil.copy2(target, copy)
            copy.replace(target.with_name(name))


def _former_format(target: Path) -> int | None:
    """The format of a project file if it is an earlier one."""
    try:
        with target.open("rb") as file:
            found = _FORMAT.search(file.read(_HEAD))
    except OSError:
        return None
    return int(found[1]) if found and int(found[1]) < FORMAT else None


def _save_trouble(error: Exception, path: Path) -> str:
    if isinstance(error, _Unfit):
        return str(error)
    if isinstance(error, HeldByOthers):
        return translate("project", "another program is saving this file; try again")
    match getattr(error, "errno", None):
        case errno.ENOSPC | errno.EDQUOT:
            return translate("project", "the disk is full; free some space, or save somewhere else")
        case errno.EFBIG:
            return translate("project", "the file would exceed the size limit of this account; save somewhere else")
        case errno.EACCES | errno.EPERM:
            return translate("project", "no permission to write there; save in another folder")
        case errno.EROFS:
            return translate("project", "the disk is read-only; save in another folder")
        case errno.ENOENT | errno.ENOTDIR:
            return translate("project", "there is no folder {parent}; choose one that exists").format(
                parent=path.parent
            )
        case errno.ENAMETOOLONG:
            return translate("project", "the name is too long; choose a shorter one")
    return translate("project", "{reason}; save somewhere else").format(reason=_reason(error))
