"""The colours of the window around the panel, light and dark, with every pair that carries text named."""

from __future__ import annotations

import enum
from dataclasses import dataclass, replace
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
    frame: str
    """Behind the menu, the header, bars of tools and the status bar."""
    canvas: str
    """Behind the face of the panel, the page map and the page."""
    pane: str
    """Behind side panes, headings of tables and dialogs."""
    base: str
    """Behind lists, tables and text that can be edited."""
    raised: str
    """Buttons."""
    hover: str
    """Under the pointer."""
    soft: str
    """Behind what is selected, and a button that is on."""
    line: str
    """Hairlines between parts, which mean nothing."""
    edge: str
    """Around what can be filled in or pressed."""
    ink: str
    """Text."""
    faint: str
    """Text of less weight: units, times, hints."""
    off: str
    """Text, icon and arrow of what cannot be used now."""
    accent: str
    """What is selected, has the focus, or is the next thing to do."""
    accent_hover: str
    """The accent under the pointer."""
    on_accent: str
    good: str
    caution: str
    fault: str
    sim: str
    """What is simulated: nothing real can move."""
    good_soft: str
    """The grounds of notices, on which their own colour is written."""
    caution_soft: str
    fault_soft: str
    sim_soft: str
    armed: str = "#ffb31a"
    """Behind the words that say that motion can start, and nothing else in the window."""
    on_armed: str = "#221600"

    def colour(self, name: str) -> QColor:
        """The colour called `name` (an attribute of this class)."""
        return _colour(getattr(self, name))


@cache
def _colour(code: str) -> QColor:
    return QColor(code)


LIGHT: Final = Colours(
    dark=False,
    frame="#f1eff4",
    canvas="#dfdde5",
    pane="#f8f7fa",
    base="#ffffff",
    raised="#ffffff",
    hover="#ece8f1",
    soft="#ece1f5",
    line="#dcd9e2",
    edge="#807a8b",
    ink="#1d1927",
    faint="#585264",
    off="#817a8c",
    accent="#6c2f9e",
    accent_hover="#57247f",
    on_accent="#ffffff",
    good="#17673a",
    caution="#7d4d00",
    fault="#a51f17",
    sim="#1b5a8c",
    good_soft="#dff1e5",
    caution_soft="#fbecc9",
    fault_soft="#fbe2df",
    sim_soft="#deebf6",
)
DARK: Final = Colours(
    dark=True,
    frame="#211e28",
    canvas="#121016",
    pane="#1b1921",
    base="#15131a",
    raised="#2d2936",
    hover="#38333f",
    soft="#3a2b4c",
    line="#35303d",
    edge="#827c8d",
    ink="#ece8f1",
    faint="#b0a9ba",
    off="#857e90",
    accent="#cba3f3",
    accent_hover="#dcc0fa",
    on_accent="#22103a",
    good="#79d39a",
    caution="#edbc60",
    fault="#ff978c",
    sim="#8ac4f4",
    good_soft="#1c3226",
    caution_soft="#38290f",
    fault_soft="#421d1b",
    sim_soft="#19303f",
)
STRONG_LIGHT: Final = replace(
    LIGHT,
    line="#807a8b",
    edge="#3b3645",
    ink="#000000",
    faint="#2e2937",
    off="#5f596a",
    accent="#4c1a76",
    accent_hover="#33104f",
    good="#0b4526",
    caution="#553300",
    fault="#75120c",
    sim="#0e3e63",
)
STRONG_DARK: Final = replace(
    DARK,
    line="#827c8d",
    edge="#cbc5d3",
    ink="#ffffff",
    faint="#e0dbe6",
    off="#aaa4b4",
    accent="#e3ccfb",
    accent_hover="#f3e8fd",
    good="#a9e8c0",
    caution="#f8d795",
    fault="#ffc3bc",
    sim="#b9dcf9",
)
"""Where the system asks for more contrast: the same grounds with stronger inks and outlines."""

GROUNDS: Final = ("frame", "canvas", "pane", "base", "raised", "hover", "soft")
"""What anything may be written on."""
INKS: Final = ("ink", "faint", "accent", "good", "caution", "fault", "sim")
"""What may be written on each of the grounds."""
STATES: Final = ("good", "caution", "fault", "sim")
"""Colours that have a soft ground of their own, for notices."""
TEXT_PAIRS: Final = (
    *((front, back) for front in INKS for back in GROUNDS),
    *((front, f"{state}_soft") for state in STATES for front in (state, "ink")),
    ("on_accent", "accent"),
    ("on_accent", "accent_hover"),
    ("on_armed", "armed"),
    ("base", "fault"),
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
        hints = application.styleHints()
        hints.colorSchemeChanged.connect(self._apply)
        if hasattr(hints, "accessibility"):  # since Qt 6.10
            hints.accessibility().contrastPreferenceChanged.connect(self._apply)

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
        _current = _SETS[dark, system_wants_contrast()]
        self._application.setPalette(qt_palette(_current))
        self.changed.emit()

    def _apply(self) -> None:
        self.choose(self._wish)


_SETS: Final = {
    (False, False): LIGHT,
    (True, False): DARK,
    (False, True): STRONG_LIGHT,
    (True, True): STRONG_DARK,
}
"""By whether they are dark, and whether more contrast is wanted."""
_current: Colours = LIGHT


def current() -> Colours:
    """The colours in use. Ask again at each repaint; a change of palette repaints every widget."""
    return _current


def system_is_dark() -> bool:
    """Whether the desktop asks for a dark look; False where it says nothing."""
    return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark


def system_wants_contrast() -> bool:
    """Whether the desktop asks for more contrast; False where it says nothing, as before Qt 6.10."""
    hints = QGuiApplication.styleHints()
    if not hasattr(hints, "accessibility"):
        return False
    return hints.accessibility().contrastPreference() == Qt.ContrastPreference.HighContrast


GOOD: Final = QPalette.ColorRole.LinkVisited
CAUTION: Final = QPalette.ColorRole.Midlight
FAULT: Final = QPalette.ColorRole.BrightText
SIM: Final = QPalette.ColorRole.Light
"""Roles of our palette that hold a colour which Qt has no role for; Fusion draws nothing of ours with them."""


def qt_palette(colours: Colours) -> QPalette:
    """These colours in Qt's roles."""
    palette = QPalette()
    role = QPalette.ColorRole
    for name, roles in {
        "pane": (role.Window, role.AlternateBase),
        "base": (role.Base, role.ToolTipBase),
        "raised": (role.Button,),
        "ink": (role.WindowText, role.Text, role.ButtonText, role.ToolTipText),
        "faint": (role.PlaceholderText,),
        "accent": (role.Highlight, role.Accent, role.Link),
        "on_accent": (role.HighlightedText,),
        "good": (GOOD,),
        "caution": (CAUTION,),
        "fault": (FAULT,),
        "sim": (SIM,),
    }.items():
        for each in roles:
            palette.setColor(each, colours.colour(name))
    # Fusion draws frames and grooves with these; left to Qt they would be derived for a light desktop.
    palette.setColor(role.Mid, colours.colour("line"))
    palette.setColor(role.Dark, colours.colour("line").darker(125))
    for each in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, each, colours.colour("off"))
    palette.setColor(QPalette.ColorGroup.Disabled, role.Highlight, colours.colour("line"))
    palette.setColor(QPalette.ColorGroup.Disabled, role.HighlightedText, colours.colour("ink"))
    return palette
