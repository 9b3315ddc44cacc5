"""A trend written out: the picture as PNG or SVG, the values as CSV."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from PySide6.QtCore import QBuffer, QCoreApplication, QIODevice, QPoint
from PySide6.QtGui import QImage, QPaintDevice, QPainter
from PySide6.QtSvg import QSvgGenerator
from PySide6.QtWidgets import QWidget

from app.curves.source import CurveSource
from app.exchange.quoting import quoted
from app.language import DecimalMark, decimal_mark
from app.recording.export import number_cell
from widgets.document.save_as import FileKind
from widgets.kit import palette

translate = QCoreApplication.translate

SHARPNESS: Final = 2
"""Pixels of a saved picture for each one on the screen, so that it can be printed."""


def picture(trend: QWidget, ending: str) -> bytes:
    """The picture of a trend as it is shown, with its legend: SVG if `ending` is .svg, else PNG."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    if ending.lower() == ".svg":
        drawing = QSvgGenerator()
        drawing.setOutputDevice(buffer)
        drawing.setSize(trend.size())
        drawing.setViewBox(trend.rect())
        _render(trend, drawing)
    else:
        image = QImage(trend.size() * SHARPNESS, QImage.Format.Format_RGB32)
        image.setDevicePixelRatio(SHARPNESS)
        image.fill(palette.current().colour("base"))
        _render(trend, image)
        image.save(buffer, "PNG")  # type: ignore[call-overload]  # the stubs want the name of the format as bytes
    return bytes(buffer.data().data())


def _render(trend: QWidget, on: QPaintDevice) -> None:
    painter = QPainter(on)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    trend.render(painter, QPoint())
    painter.end()


@dataclass(frozen=True, slots=True)
class Spreadsheet:
    """For whom values are written."""

    kind: FileKind
    delimiter: str
    mark: DecimalMark


def spreadsheets() -> list[Spreadsheet]:
    """Those to choose from, that of the language of the window first."""
    found = [
        Spreadsheet(FileKind(translate("Spreadsheet", "Comma-separated values (*.csv)"), ".csv"), ",", "."),
        Spreadsheet(FileKind(translate("Spreadsheet", "Semicolons and decimal comma (*.csv)"), ".csv"), ";", ","),
    ]
    return sorted(found, key=lambda each: each.mark != decimal_mark())


def chosen_spreadsheet(kind: FileKind) -> Spreadsheet:
    """The one that was chosen with a file."""
    return next(each for each in spreadsheets() if each.kind == kind)


def values_text(source: CurveSource, names: Sequence[str], begin: float, end: float, form: Spreadsheet) -> str:
    """The samples of signals from `begin` to `end` as CSV: civil time, seconds, and a column for each signal.

    Every row is a moment at which one of them was read; cells of the others are empty. A signal that could not be read
    has the word "lost" there.
    """
    text = io.StringIO()
    writer = csv.writer(text, delimiter=form.delimiter, lineterminator="\n")
    project = source.project
    headings = []
    for name in names:
        unit = project.signal_named[name].unit
        headings.append(f"{name} [{unit}]" if unit else name)
    writer.writerow(["time", "seconds", *map(quoted, headings)])
    rows: dict[float, list[str]] = {}
    for column, name in enumerate(names):
        times, values = source.window(name, begin, end)
        for at, value in zip(times.tolist(), values.tolist(), strict=True):
            if begin <= at <= end:
                cell = "lost" if np.isnan(value) else number_cell(f"{value:.12g}", form.mark)
                rows.setdefault(at, [""] * len(names))[column] = cell
    for at in sorted(rows):
        seconds = number_cell(f"{at - begin:.6f}", form.mark)
        writer.writerow([source.civil(at).isoformat(timespec="milliseconds"), seconds, *rows[at]])
    return text.getvalue()
