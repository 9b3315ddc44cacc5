"""Which fonts texts and cells are drawn in on each system: of those named the first that is there.

What is not there is left out: what Qt takes instead may have serifs, or letters of several widths.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtGui import QFont, QFontDatabase, QFontInfo

TEXTS_ON_WINDOWS: Final = ("Segoe UI Variable Text", "Segoe UI")
TEXTS: Final = ("Inter", "Noto Sans", "Open Sans", "Cantarell", "Liberation Sans", "DejaVu Sans")
"""The last, the widest of all, is mostly nobody's choice: it gives way to any of the others."""
LEAST: Final = 13
"""Pixels of the size of texts, where a system asks for less."""
CELLS_ON: Final = {"win32": ("Cascadia Mono", "Consolas"), "darwin": ("SF Mono", "Menlo")}
CELLS: Final = ("DejaVu Sans Mono", "Noto Sans Mono")
"""In this order: lines of the second are a sixth higher, which leaves smaller letters on the same glass."""


def text_families(drawn: str, there: Callable[[str], bool], system: str = sys.platform) -> list[str]:
    """The families for texts on a `system` (as `sys.platform`) that draws `drawn` unasked; none where that is right.

    It is on macOS, and on a desktop whose user chose a font.
    """
    if system == "win32":
        return [name for name in (*TEXTS_ON_WINDOWS, *TEXTS) if there(name)]
    if drawn in TEXTS:
        return [name for name in (TEXTS if drawn == TEXTS[-1] else (drawn,)) if there(name)]
    return []


def cell_families(fixed: Sequence[str], there: Callable[[str], bool], system: str = sys.platform) -> list[str]:
    """The families for cells on a `system` (as `sys.platform`) whose own families of fixed pitch are `fixed`."""
    return [name for name in (*CELLS_ON.get(system, ()), *CELLS, *fixed) if there(name)]


def for_texts(font: QFont) -> QFont:
    """`font`, which the system has for programs, in the family that we draw texts in."""
    families = text_families(QFontInfo(font).family(), QFontDatabase.hasFamily)
    ours = _among(font, families, QFont.StyleHint.SansSerif)
    if QFontInfo(ours).pixelSize() < LEAST:
        ours.setPixelSize(LEAST)
    return ours


def for_figures(font: QFont) -> QFont:
    """`font` with figures that are all equally wide, so that they stand below one another."""
    ours = QFont(font)
    ours.setFeature(QFont.Tag("tnum"), 1)
    return ours


def for_cells(font: QFont) -> QFont:
    """A font whose letters are all equally wide, otherwise like `font`."""
    fixed = QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont).families()
    other = _among(font, cell_families(fixed, QFontDatabase.hasFamily), QFont.StyleHint.Monospace)
    other.setFixedPitch(True)
    return other


def _among(font: QFont, families: list[str], hint: QFont.StyleHint) -> QFont:
    other = QFont(font)
    if families:
        other.setFamilies(families)
    other.setStyleHint(hint)
    return other
