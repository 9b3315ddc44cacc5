"""Fonts by system. Which families a system brings is from memory."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtGui import QFont, QFontInfo, QFontMetricsF
from pytestqt.qtbot import QtBot

import widgets
from widgets.kit.fonts import LEAST, TEXTS, cell_families, for_cells, text_families
from widgets.shell.application import make_application

NEW = {"Segoe UI Variable Text", "Segoe UI", "Cascadia Mono", "Consolas", "Courier New", "Tahoma"}
OLDER = {"Segoe UI", "Consolas", "Courier New", "Tahoma"}
MACOS = {"Menlo", "Courier New", "Helvetica Neue"}
DEBIAN = {"DejaVu Sans", "DejaVu Sans Mono"}


@pytest.mark.parametrize(
    ("system", "drawn", "there", "first"),
    [
        ("win32", "Segoe UI", NEW, "Segoe UI Variable Text"),
        ("win32", "Segoe UI", OLDER, "Segoe UI"),
        ("win32", "Century Schoolbook", DEBIAN, "DejaVu Sans"),  # a Windows without its fonts: drawn with serifs
        ("darwin", ".AppleSystemUIFont", MACOS | {"Noto Sans"}, None),
        ("linux", "Ubuntu Sans", DEBIAN | {"Ubuntu Sans", "Noto Sans"}, None),
        ("linux", "DejaVu Sans", DEBIAN | {"Noto Sans"}, "Noto Sans"),
        ("linux", "DejaVu Sans", DEBIAN | {"Liberation Sans", "Inter"}, "Inter"),
        ("linux", "DejaVu Sans", DEBIAN, "DejaVu Sans"),
        ("linux", "Open Sans", DEBIAN | {"Open Sans", "Noto Sans"}, "Open Sans"),
        ("linux", "Helvetica", {"Helvetica"}, None),
    ],
)
def test_texts_are_drawn_in(system: str, drawn: str, there: set[str], first: str | None) -> None:
    families = text_families(drawn, there.__contains__, system)
    assert next(iter(families), None) == first
    assert set(families) <= there


@pytest.mark.parametrize(
    ("system", "fixed", "there", "first"),
    [
        ("win32", "Courier New", NEW, "Cascadia Mono"),
        ("win32", "Courier New", OLDER, "Consolas"),
        ("win32", "Courier New", DEBIAN, "DejaVu Sans Mono"),
        ("darwin", "Menlo", MACOS, "Menlo"),
        ("linux", "monospace", DEBIAN | {"Noto Sans Mono"}, "DejaVu Sans Mono"),
        ("linux", "Ubuntu Mono", {"Ubuntu Mono"}, "Ubuntu Mono"),
        ("linux", "monospace", set[str](), None),
    ],
)
def test_cells_are_drawn_in(system: str, fixed: str, there: set[str], first: str | None) -> None:
    families = cell_families([fixed], there.__contains__, system)
    assert next(iter(families), None) == first
    assert set(families) <= there


def test_what_is_drawn_here(qtbot: QtBot) -> None:
    application = make_application()
    drawn = QFontInfo(application.font()).family()
    if drawn in TEXTS:
        assert application.font().families()[0] == drawn, (
            "the name of a group, such as Sans Serif, is not left to chance"
        )
    assert QFontInfo(application.font()).pixelSize() >= LEAST
    large = QFont(application.font())
    large.setPixelSize(2 * QFontInfo(large).pixelSize())
    large.setBold(True)
    cells = for_cells(large)
    assert len({QFontMetricsF(cells).horizontalAdvance(letter) for letter in "iW0.\u00e4"}) == 1
    assert (cells.pixelSize(), cells.bold()) == (large.pixelSize(), True)


def test_no_other_place_names_a_family() -> None:
    texts = {path.name: path.read_text("utf-8") for path in Path(widgets.__file__).parent.rglob("*.py")}
    assert {name for name, text in texts.items() if "setFamil" in text or "QFontDatabase" in text} == {"fonts.py"}
