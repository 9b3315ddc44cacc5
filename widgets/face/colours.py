"""The colours of the panel face, light and dark."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtGui import QColor, QPalette


@dataclass(frozen=True, slots=True)
class FaceColours:
    """One set of colours. Ink on glass has a contrast of at least 7 to 1, dim ink at least 4.5 to 1."""

    bezel: QColor
    rim: QColor
    mark: QColor
    glass: QColor
    cell: QColor
    ink: QColor
    dim: QColor
    hatch: QColor
    accent: QColor
    accent_ink: QColor
    wrong: QColor
    key: QColor
    key_down: QColor
    key_rim: QColor
    key_ink: QColor
    ruler: QColor


LIGHT: Final = FaceColours(
    bezel=QColor("#cdd1d6"),
    rim=QColor("#a3aab2"),
    mark=QColor("#6d7680"),
    glass=QColor("#f3ead9"),
    cell=QColor("#faf4e8"),
    ink=QColor("#2a2135"),
    dim=QColor("#5d5568"),
    hatch=QColor("#dfd3bd"),
    accent=QColor("#7a3fa0"),
    accent_ink=QColor("#ffffff"),
    wrong=QColor("#b3261e"),
    key=QColor("#eceef0"),
    key_down=QColor("#bfc5cc"),
    key_rim=QColor("#8b949e"),
    key_ink=QColor("#23282e"),
    ruler=QColor("#4d555e"),
)

DARK: Final = FaceColours(
    bezel=QColor("#383541"),
    rim=QColor("#57525f"),
    mark=QColor("#a59daf"),
    glass=QColor("#17131d"),
    cell=QColor("#1f1a27"),
    ink=QColor("#f4e6cf"),
    dim=QColor("#a89c8d"),
    hatch=QColor("#3a3243"),
    accent=QColor("#d2a2f2"),
    accent_ink=QColor("#1c1523"),
    wrong=QColor("#ff8f85"),
    key=QColor("#4a4654"),
    key_down=QColor("#2a2732"),
    key_rim=QColor("#78717f"),
    key_ink=QColor("#f1edf5"),
    ruler=QColor("#c2bbca"),
)


def is_dark(palette: QPalette) -> bool:
    """Whether a window of this palette shows light text on a dark ground."""
    ground, text = palette.color(QPalette.ColorRole.Window), palette.color(QPalette.ColorRole.WindowText)
    return ground.lightness() < text.lightness()


def face_colours(palette: QPalette) -> FaceColours:
    """The set that goes with a window's palette."""
    return DARK if is_dark(palette) else LIGHT
