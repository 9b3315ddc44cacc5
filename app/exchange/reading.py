"""Files that hold register lists: which kind a file is, by its content, and the table in it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final, Literal, TypeAlias

from app.exchange.delimited import TextWay, read_text
from app.exchange.sheet import LARGEST_FILE, CannotRead, Progress, Sheet, no_progress
from app.exchange.sunspec import ModelWay, SunSpecModel, model_of, model_sheet
from app.exchange.workbook import read_sheet, sheet_names
from app.language import mark
from app.project_file.bounded_read import NotOrdinary, read_ordinary

ListKind: TypeAlias = Literal["text", "workbook", "model"]

ENDINGS: Final = (".csv", ".txt", ".tsv", ".xlsx", ".xlsm", ".json")
"""How the names of files end that may hold a register list."""

_OLD_OR_LOCKED: Final = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


@dataclass(frozen=True, slots=True)
class ListSource:
    """The content of a file, and of which kind it is."""

    name: str
    """Of the file, without its folder."""
    kind: ListKind
    data: bytes = field(repr=False)
    sheets: tuple[str, ...] = ()
    """Of a workbook."""
    model: SunSpecModel | None = None


@dataclass(frozen=True, slots=True)
class ReadOptions:
    """How a source was or is to be read; what is None is found out."""

    text: TextWay = field(default_factory=TextWay)
    sheet: str | None = None
    model: ModelWay = field(default_factory=ModelWay)


def source_of(path: Path) -> ListSource:
    """The content of a file. Raises CannotRead, in words, for everything that holds no register list."""
    try:
        data = read_ordinary(path, LARGEST_FILE)
    except NotOrdinary:
        raise CannotRead(mark("exchange", "This is not a regular file. Choose a CSV, XLSX or JSON file.")) from None
    except FileNotFoundError:
        raise CannotRead(mark("exchange", "File not found. Check the name and the folder.")) from None
    except IsADirectoryError:
        raise CannotRead(mark("exchange", "This is a folder. Choose a file in it.")) from None
    except PermissionError:
        raise CannotRead(mark("exchange", "No permission to read this file.")) from None
    except (OSError, ValueError) as error:
        reason = (error.strerror if isinstance(error, OSError) else None) or str(error)
        raise CannotRead(mark("exchange", "The file cannot be read: {reason}."), reason=reason) from None
    return source(path.name, data)


def source(name: str, data: bytes) -> ListSource:
    """The content of a file called `name`. Raises CannotRead."""
    if len(data) > LARGEST_FILE:
        raise CannotRead(
            mark("exchange", "The file has more than {size} MB, too large for a register list."),
            size=LARGEST_FILE // 1024**2,
        )
    if not data.strip(b"\0 \t\r\n"):
        raise CannotRead(mark("exchange", "The file is empty."))
    if data.startswith(_OLD_OR_LOCKED):
        raise CannotRead(
            mark(
                "exchange",
                "This is a workbook in the old binary format (XLS), or password-protected. Save it as XLSX without a "
                "password and import it.",
            )
        )
    if data.startswith(b"%PDF"):
        raise CannotRead(
            mark("exchange", "This is a PDF. Copy its table into a spreadsheet, save that as XLSX and import it.")
        )
    if data.startswith(b"PK"):
        return ListSource(name, "workbook", data, sheets=sheet_names(data))
    if data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{"):
        return ListSource(name, "model", data, model=model_of(data))
    return ListSource(name, "text", data)


def read(source: ListSource, way: ReadOptions, progress: Progress = no_progress) -> tuple[Sheet, ReadOptions]:
    """The table in a source, and the way in which it was read.

    Raises CannotRead; Stopped if `progress` does.
    """
    if source.kind == "workbook":
        sheet = read_sheet(source.data, way.sheet, progress)
        return sheet, replace(way, sheet=sheet.name)
    if source.model is not None:
        return model_sheet(source.model, way.model), way
    sheet, text = read_text(source.data, way.text, progress)
    return sheet, replace(way, text=text)
