"""Register lists written as CSV and XLSX, all of a file or nothing of it."""

from __future__ import annotations

import contextlib
import csv
import io
import os
import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Final, Literal, TypeAlias

from app.errors import FanlightError
from app.exchange.listing import COLUMNS, ListedValue, listing, titles, written
from app.exchange.sheet import Progress, no_progress
from app.language import DecimalMark, mark, translate
from app.project.model import AnySignal
from app.project_file.canonical import number_text

Separator: TypeAlias = Literal[",", ";", "\t"]

_LONGEST_CELL: Final = 32_767
"""Characters of a cell of a workbook: ECMA-376 leaves it open, spreadsheet programs cut what is longer."""
_WIDTHS: Final = (8, 48)
"""The narrowest and the widest column of a workbook, in characters."""


class CannotWrite(FanlightError):
    """A list was not written, and a former file is as it was. As text: why, and what to do."""


@dataclass(frozen=True, slots=True)
class TextStyle:
    """How a CSV file is written."""

    separator: Separator = ","
    mark: DecimalMark = "."
    """The decimal mark; not the same sign as the separator."""
    byte_order_mark: bool = True
    """Spreadsheet programs take the file for UTF-8 by this."""


def as_text(signals: Sequence[AnySignal], style: TextStyle = TextStyle(), progress: Progress = no_progress) -> bytes:
    """The signals as CSV (RFC 4180), UTF-8. Raises Stopped if `progress` does."""
    buffer = io.StringIO(newline="")
    writer = csv.writer(buffer, delimiter=style.separator)
    writer.writerow(titles())
    for at, row in enumerate(listing(signals)):
        if at % 1000 == 0:
            progress(at / len(signals))
        writer.writerow([_text_cell(value, style.mark) for value in row])
    return buffer.getvalue().encode("utf-8-sig" if style.byte_order_mark else "utf-8")


def _text_cell(value: ListedValue, mark: DecimalMark) -> str:
    if value is None:
        return ""
    if not isinstance(value, Decimal):
        return written(value, formulas=True)
    text = number_text(value)
    whole, point, rest = text.partition(".")
    if not point:
        return text
    # 1.234 could be read as 1234 elsewhere; a zero more and it cannot.
    return f"{whole}{mark}{rest}{'0' if len(rest) == 3 else ''}"


def as_workbook(signals: Sequence[AnySignal], progress: Progress = no_progress) -> bytes:
    """The signals as an XLSX workbook of one sheet. Raises CannotWrite, Stopped if `progress` does."""
    import xlsxwriter  # here, since most sessions export no workbook

    buffer = io.BytesIO()
    book = xlsxwriter.Workbook(buffer, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    sheet = book.add_worksheet("Signals")
    heading = book.add_format({"bold": True, "bottom": 1})
    top = book.add_format({"valign": "top"})
    lines = book.add_format({"valign": "top", "text_wrap": True})
    widths = [len(title) for title in titles()]
    for column, title in enumerate(titles()):
        sheet.write_string(0, column, title, heading)
    for at, row in enumerate(listing(signals), start=1):
        if at % 500 == 0:
            progress(0.7 * at / len(signals))
        for column, value in enumerate(row):
            if value is None:
                continue
            if isinstance(value, Decimal) and (number := _as_float(value)) is not None:
                sheet.write_number(at, column, number, top)
                continue
            text = number_text(value) if isinstance(value, Decimal) else written(value, formulas=False)
            if len(text) > _LONGEST_CELL:
                raise CannotWrite(
                    mark(
                        "exchange",
                        "Signal '{name}' has a text of more than {most} characters, too long for a cell of a "
                        "workbook. Export as CSV.",
                    ),
                    name=signals[at - 1].name,
                    most=_LONGEST_CELL,
                )
            sheet.write_string(at, column, text, lines if "\n" in text else top)
            widths[column] = max(widths[column], max(map(len, text.split("\n"))))
    for column, width in enumerate(widths):
        sheet.set_column(column, column, min(max(width + 2, _WIDTHS[0]), _WIDTHS[1]))
    sheet.freeze_panes(1, 1)
    sheet.autofilter(0, 0, max(1, len(signals)), len(COLUMNS) - 1)
    progress(0.8)
    book.close()
    return buffer.getvalue()


def _as_float(value: Decimal) -> float | None:
    """The number as a cell holds it; None if it would not come back as it is: such go out as text."""
    digits = number_text(value).replace(".", "").replace("-", "").strip("0")
    number = float(value)
    return number if len(digits) <= 15 and Decimal(repr(number)) == value else None


def write_file(path: Path, content: bytes) -> None:
    """Put `content` into a file, in one step. Raises CannotWrite, and a former file is as it was."""
    target = Path(os.path.realpath(path))
    temporary = target.with_name(f".{target.name[:40]}.{secrets.token_hex(6)}.tmp")
    try:
        with temporary.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if target.is_dir():
            raise IsADirectoryError
        if target.exists() and not os.access(target, os.W_OK):
            raise PermissionError
        temporary.replace(target)
    except (OSError, ValueError) as error:
        raise CannotWrite(_why(error, path)) from None
    finally:
        with contextlib.suppress(OSError, ValueError):
            temporary.unlink(missing_ok=True)


def _why(error: Exception, path: Path) -> str:
    name = path.name
    if isinstance(error, IsADirectoryError):
        return translate("exchange", "{file} was not written: there is a folder with this name.").format(file=name)
    if isinstance(error, PermissionError):
        return translate(
            "exchange",
            "{file} was not written: it is write-protected, open in another program, or in a folder without write "
            "permission.",
        ).format(file=name)
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return translate("exchange", "{file} was not written: there is no folder {folder}.").format(
            file=name, folder=path.parent
        )
    reason = (error.strerror if isinstance(error, OSError) else None) or str(error)
    return translate("exchange", "{file} was not written: {reason}.").format(file=name, reason=reason)
