"""Which fonts texts and cells are drawn in on each system: of those named the first that is there.

What is not there is left out: what Qt takes instead may have serifs, or letters of several widths.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtGui import QFont, QFontDatabase, QFontInfo

TEXTS_ON_WINDOWS: Final = ("Segoe UI Variable Text", "Segoe UI")
TEXTS: Final = ("Noto Sans", "DejaVu Sans")
CELLS_ON: Final = {"win32": ("Cascadia Mono", "Consolas"), "darwin": ("SF Mono", "Menlo")}
CELLS: Final = ("DejaVu Sans Mono", "Noto Sans Mono")
"""In this order: lines of the second are a sixth higher, which leaves smaller letters on the same glass."""


def text_families(drawn: str, there: Callable[[str], bool], system: str = sys.platform) -> list[str]:
    """The families for texts on a `system` (as `sys.platform`) that draws `drawn` unasked; none where that is right.

    It is on macOS, and on a desktop whose user chose a font: DejaVu Sans, the widest of all, is mostly nobody's choice.
    """
    if system != "win32" and drawn not in TEXTS:
        return []
    names = (*TEXTS_ON_WINDOWS, *TEXTS) if system == "win32" else TEXTS
    return [name for name in names if there(name)]


def cell_families(fixed: Sequence[str], there: Callable[[str], bool], system: str = sys.platform) -> list[str]:
    """The families for cells on a `system` (as `sys.platform`) whose own families of fixed pitch are `fixed`."""
    return [name for name in (*CELLS_ON.get(system, ()), *CELLS, *fixed) if there(name)]


def for_texts(font: QFont) -> QFont:
    """`font`, which the system has for programs, in the family that we draw texts in."""
    families = text_families(QFontInfo(font).family(), QFontDatabase.hasFamily)
    return _among(font, families, QFont.StyleHint.SansSerif)


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
