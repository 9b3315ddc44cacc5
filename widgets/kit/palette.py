"""The colours of the window around the panel, light and dark, with every pair that carries text named."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from functools import cache
from typing import Final

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from widgets.kit import scaling


class Appearance(enum.StrEnum):
    """What the user asked for."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


@dataclass(frozen=True, slots=True)
class Colours:
    """One set of colours, each as `#rrggbb`.

    A colour never tells anything alone: whatever is drawn in `good`, `caution` or `fault` has a word or a shape too.
    """

    dark: bool
    window: str
    """Behind everything."""
    base: str
    """Behind lists, tables and text that can be edited."""
    band: str
    """Every other row of a table; bars and headings."""
    raised: str
    """Buttons."""
    line: str
    """Thin lines between parts."""
    edge: str
    """Around what can be filled in or pressed."""
    ink: str
    """Text."""
    faint: str
    """Text of less weight: units, times, hints."""
    off: str
    """Text of what cannot be used now."""
    accent: str
    """What is selected, has the focus, or is the next thing to do."""
    on_accent: str
    good: str
    caution: str
    fault: str
    armed: str
    """Behind the words that say that motion can start."""
    on_armed: str

    def colour(self, name: str) -> QColor:
        """The colour called `name` (an attribute of this class)."""
        return _colour(getattr(self, name))


@cache
def _colour(code: str) -> QColor:
    return QColor(code)


LIGHT: Final = Colours(
    dark=False,
    window="#f1f3f4",
    base="#ffffff",
    band="#f5f7f8",
    raised="#fbfcfc",
    line="#c9cfd3",
    edge="#7c878f",
    ink="#182127",
    faint="#525f67",
    off="#87929a",
    accent="#73399a",
    on_accent="#ffffff",
    good="#1b6b3a",
    caution="#845400",
    fault="#a62117",
    armed="#f6b73c",
    on_armed="#2a1a00",
)
DARK: Final = Colours(
    dark=True,
    window="#1b2126",
    base="#14191d",
    band="#1a2025",
    raised="#2a333a",
    line="#3a454d",
    edge="#75828c",
    ink="#e6ebee",
    faint="#a3b0b9",
    off="#6f7c85",
    accent="#cf9cf0",
    on_accent="#24102f",
    good="#74d093",
    caution="#e8b353",
    fault="#ff9183",
    armed="#f0a72e",
    on_armed="#2a1a00",
)

TEXT_PAIRS: Final = tuple(
    (front, back)
    for fronts, backs in (
        (("ink", "faint", "accent", "good", "caution", "fault"), ("window", "base", "band", "raised")),
        (("on_accent",), ("accent",)),
        (("on_armed",), ("armed",)),
        (("base",), ("fault",)),
    )
    for front in fronts
    for back in backs
)
"""Every pair of colours in which something is written: (front, back)."""


def contrast(first: str, second: str) -> float:
    """The contrast ratio of two colours `#rrggbb`, 1 to 21.

    Formula: WCAG 2.2, definitions of "contrast ratio" and "relative luminance".
    """
    darker, lighter = sorted((_luminance(first), _luminance(second)))
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[place : place + 2], 16) / 255) for place in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


class Theme(QObject):
    """Keeps the application's palette in step with the system, or with what the user chose instead."""

    changed = Signal()

    def __init__(self, application: QApplication) -> None:
        super().__init__(application)
        self._application = application
        self._wish = Appearance.SYSTEM
        self._font = application.font()
        application.styleHints().colorSchemeChanged.connect(self._apply)

    @property
    def appearance(self) -> Appearance:
        """What the user asked for."""
        return self._wish

    def resize(self, percent: int) -> None:
        """Draw windows that are made from now on at this many per cent of what the system asks for, 100 to 200."""
        scaling.use(self._application, self._font, percent)

    def choose(self, appearance: Appearance) -> None:
        """Use this appearance from now on."""
        global _current
        self._wish = appearance
        dark = appearance is Appearance.DARK or (appearance is Appearance.SYSTEM and system_is_dark())
        _current = DARK if dark else LIGHT
        self._application.setPalette(qt_palette(_current))
        self.changed.emit()

    def _apply(self) -> None:
        self.choose(self._wish)


_current: Colours = LIGHT


def current() -> Colours:
    """The colours in use. Ask again at each repaint; a change of palette repaints every widget."""
    return _current


def system_is_dark() -> bool:
    """Whether the desktop asks for a dark look; False where it says nothing."""
    return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark


GOOD: Final = QPalette.ColorRole.LinkVisited
CAUTION: Final = QPalette.ColorRole.Midlight
FAULT: Final = QPalette.ColorRole.BrightText
ON_ARMED: Final = QPalette.ColorRole.Shadow
"""Roles of our palette that hold a colour which Qt has no role for; Fusion draws nothing of ours with them."""


def qt_palette(colours: Colours) -> QPalette:
    """These colours in Qt's roles."""
    palette = QPalette()
    role = QPalette.ColorRole
    for name, roles in {
        "window": (role.Window,),
        "base": (role.Base,),
        "band": (role.AlternateBase, role.ToolTipBase),
        "raised": (role.Button,),
        "ink": (role.WindowText, role.Text, role.ButtonText, role.ToolTipText),
        "faint": (role.PlaceholderText,),
        "accent": (role.Highlight, role.Accent, role.Link),
        "on_accent": (role.HighlightedText,),
        "good": (GOOD,),
        "caution": (CAUTION,),
        "fault": (FAULT,),
        "on_armed": (ON_ARMED,),
    }.items():
        for each in roles:
            palette.setColor(each, colours.colour(name))
    # Fusion draws frames and grooves with these; left to Qt they would be derived for a light desktop.
    palette.setColor(role.Light, colours.colour("raised").lighter(120))
    palette.setColor(role.Mid, colours.colour("line"))
    palette.setColor(role.Dark, colours.colour("line").darker(125))
    for each in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, each, colours.colour("off"))
    palette.setColor(QPalette.ColorGroup.Disabled, role.Highlight, colours.colour("line"))
    palette.setColor(QPalette.ColorGroup.Disabled, role.HighlightedText, colours.colour("ink"))
    return palette
