"""The colours of the panel face, light and dark."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QLinearGradient, QPalette


@dataclass(frozen=True, slots=True)
class FaceColours:
    """One set of colours. Ink on glass has a contrast of at least 7 to 1, dim ink at least 4.5 to 1."""

    bezel: QColor
    """At the top; `bezel_low` at the bottom."""
    bezel_low: QColor
    rim: QColor
    edge: QColor
    """Of the bezel, where light falls on it."""
    mark: QColor
    lit: QColor
    """The accent, drawn on the bezel."""
    glass: QColor
    cell: QColor
    ink: QColor
    dim: QColor
    hatch: QColor
    accent: QColor
    accent_ink: QColor
    wrong: QColor
    key: QColor
    """At the top; `key_low` at the bottom."""
    key_low: QColor
    key_down: QColor
    key_rim: QColor
    key_ink: QColor
    key_off: QColor
    """The legend of a key that cannot be used now."""


_KEYS: Final = {
    "key": QColor("#e9e7ee"),
    "key_low": QColor("#d3d0da"),
    "key_down": QColor("#bab6c4"),
    "key_rim": QColor("#24202b"),
    "key_ink": QColor("#24202b"),
    "key_off": QColor("#6b6577"),
}
"""The keys are the same in both sets: the panel is an object, and so they lie in the same light."""

LIGHT: Final = FaceColours(
    bezel=QColor("#4b4755"),
    bezel_low=QColor("#3a3743"),
    rim=QColor("#2a2731"),
    edge=QColor("#5c5767"),
    mark=QColor("#a59daf"),
    lit=QColor("#d9b8f8"),
    glass=QColor("#efe5d1"),
    cell=QColor("#f6eedd"),
    ink=QColor("#2a2135"),
    dim=QColor("#6a6072"),
    hatch=QColor("#eadfca"),
    accent=QColor("#6c2f9e"),
    accent_ink=QColor("#ffffff"),
    wrong=QColor("#a51f17"),
    **_KEYS,
)

DARK: Final = FaceColours(
    bezel=QColor("#3d3946"),
    bezel_low=QColor("#2f2b37"),
    rim=QColor("#0c0a0f"),
    edge=QColor("#57525f"),
    mark=QColor("#a59daf"),
    lit=QColor("#cba3f3"),
    glass=QColor("#17131d"),
    cell=QColor("#1f1a27"),
    ink=QColor("#f4e6cf"),
    dim=QColor("#a89c8d"),
    hatch=QColor("#3a3243"),
    accent=QColor("#cba3f3"),
    accent_ink=QColor("#22103a"),
    wrong=QColor("#ff978c"),
    **_KEYS,
)


def upright(area: QRectF, top: QColor, bottom: QColor) -> QLinearGradient:
    """From one colour at the upper edge of an area to another at its lower one."""
    shade = QLinearGradient(area.topLeft(), area.bottomLeft())
    shade.setColorAt(0, top)
    shade.setColorAt(1, bottom)
    return shade


def is_dark(palette: QPalette) -> bool:
    """Whether a window of this palette shows light text on a dark ground."""
    ground, text = palette.color(QPalette.ColorRole.Window), palette.color(QPalette.ColorRole.WindowText)
    return ground.lightness() < text.lightness()


def face_colours(palette: QPalette) -> FaceColours:
    """The set that goes with a window's palette."""
    return DARK if is_dark(palette) else LIGHT
