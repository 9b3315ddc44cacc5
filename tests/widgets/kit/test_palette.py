"""The colours: readable in both palettes, and in step with the system."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication

import widgets
from widgets.kit import palette
from widgets.kit.palette import (
    DARK,
    GROUNDS,
    LIGHT,
    STRONG_DARK,
    STRONG_LIGHT,
    TEXT_PAIRS,
    Appearance,
    Colours,
    Theme,
    contrast,
)

AMBER = re.compile(r"""(colour|WriteState).*["'](on_)?armed["']""")
SETS = ["light", "dark", "light, more contrast", "dark, more contrast"]


@pytest.fixture
def theme(qapp: QApplication) -> Iterator[Theme]:
    before = qapp.palette()
    made = Theme(qapp)
    yield made
    made.choose(Appearance.LIGHT)
    qapp.setPalette(before)
    made.deleteLater()


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(("front", "back"), TEXT_PAIRS)
def test_every_pair_that_carries_text_is_readable(colours: Colours, front: str, back: str) -> None:
    # WCAG 2.2, success criterion 1.4.3 (level AA): 4.5 to 1 for normal text.
    assert contrast(getattr(colours, front), getattr(colours, back)) >= 4.5


@pytest.mark.parametrize("colours", [LIGHT, DARK, STRONG_LIGHT, STRONG_DARK], ids=SETS)
def test_what_must_be_read_at_a_glance_has_more(colours: Colours) -> None:
    # WCAG 2.2, success criterion 1.4.6 (level AAA): 7 to 1.
    for front, back in (("on_armed", "armed"), ("on_accent", "accent"), ("on_accent", "accent_hover")):
        assert contrast(getattr(colours, front), getattr(colours, back)) >= 7


@pytest.mark.parametrize("colours", [STRONG_LIGHT, STRONG_DARK], ids=SETS[2:])
def test_more_contrast_is_more(colours: Colours) -> None:
    # WCAG 2.2, success criteria 1.4.6 for texts, and for outlines that of texts, 1.4.3.
    for front, back in TEXT_PAIRS:
        assert contrast(getattr(colours, front), getattr(colours, back)) >= 7, (front, back)
    for ground in GROUNDS:
        for part in ("edge", "off"):
            assert contrast(getattr(colours, part), getattr(colours, ground)) >= 4.5, (part, ground)


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_the_focus_and_the_edges_of_controls_stand_out(colours: Colours) -> None:
    # WCAG 2.2, success criterion 1.4.11: 3 to 1 for parts of controls that one must see.
    for ground in GROUNDS:
        for part in ("accent", "edge", "off"):
            assert contrast(getattr(colours, part), getattr(colours, ground)) >= 3, (part, ground)


@pytest.mark.parametrize(
    ("first", "second", "ratio"),
    [
        # WCAG 2.2 defines the range of the ratio as 1 to 21.
        ("#000000", "#ffffff", 21.0),
        ("#336699", "#336699", 1.0),
        # Common knowledge among designers, from memory: #767676 is the lightest grey that passes 4.5 on white.
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
    ],
)
def test_contrast_as_wcag_defines_it(first: str, second: str, ratio: float) -> None:
    assert contrast(first, second) == pytest.approx(ratio, abs=0.01)
    assert contrast(second, first) == contrast(first, second)


def test_no_widget_has_a_style_sheet() -> None:
    """Under one, every change of the window takes many times as long: `widgets/kit/look.py` draws instead."""
    for file in Path(widgets.__path__[0]).rglob("*.py"):
        assert "setStyleSheet(" not in file.read_text("utf-8"), file


def test_a_choice_of_the_user_changes_palette_and_sheet(theme: Theme, qapp: QApplication) -> None:
    theme.choose(Appearance.DARK)
    assert palette.current() is DARK
    assert qapp.palette().color(QPalette.ColorRole.Window).name() == DARK.pane
    theme.choose(Appearance.LIGHT)
    assert palette.current() is LIGHT
    assert qapp.palette().color(QPalette.ColorRole.Text).name() == LIGHT.ink


def test_the_system_decides_unless_the_user_did(
    theme: Theme, qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(palette, "system_is_dark", lambda: True)
    theme.choose(Appearance.SYSTEM)
    assert palette.current() is DARK
    monkeypatch.setattr(palette, "system_is_dark", lambda: False)
    qapp.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Light)
    assert palette.current() is LIGHT
    theme.choose(Appearance.DARK)
    qapp.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Light)
    assert palette.current() is DARK


def test_more_contrast_follows_the_system(theme: Theme, qapp: QApplication, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(palette, "system_wants_contrast", lambda: True)
    theme.choose(Appearance.DARK)
    assert palette.current() is STRONG_DARK
    theme.choose(Appearance.LIGHT)
    assert palette.current() is STRONG_LIGHT
    monkeypatch.setattr(palette, "system_wants_contrast", lambda: False)
    hints = qapp.styleHints()
    if not hasattr(hints, "accessibility"):  # before Qt 6.10
        return
    hints.accessibility().contrastPreferenceChanged.emit(Qt.ContrastPreference.NoPreference)
    assert palette.current() is LIGHT


def test_every_colour_that_is_named_somewhere_is_one() -> None:
    """`colour` takes a name, which no type checker looks at."""
    names = {field.name for field in fields(Colours)}
    found = set()
    for path in Path(widgets.__path__[0]).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "colour":
                for word in ast.walk(node.args[0]) if node.args else ():
                    if isinstance(word, ast.Constant) and isinstance(word.value, str) and not _compared(node, word):
                        found.add((path.name, word.value))
    assert len(found) > 50
    assert {each for each in found if each[1] not in names} == set()


def _compared(call: ast.Call, word: ast.AST) -> bool:
    return any(word in ast.walk(each) for each in ast.walk(call) if isinstance(each, ast.Compare | ast.JoinedStr))


def test_the_amber_of_arming_is_used_for_nothing_else() -> None:
    """By the painters; `tests/pictures/test_measures.py` looks for it in what is drawn."""
    home = Path(widgets.__path__[0])
    users = {path.relative_to(home).as_posix() for path in home.rglob("*.py") if AMBER.search(path.read_text("utf-8"))}
    assert users == {"frame/badge.py"}
