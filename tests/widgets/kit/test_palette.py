"""The colours: readable in both palettes, and in step with the system."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication

import widgets
from widgets.kit import palette
from widgets.kit.palette import DARK, GROUNDS, LIGHT, TEXT_PAIRS, Appearance, Colours, Theme, contrast


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
