"""The rules of one hand on every pane and dialog: both languages, two fonts, three sizes, two screens.

All of them are measured in one walk through a window; where each is also held by a test of its own part:
contrast (C1 to C5) in `tests/widgets/kit` and `test_contrast.py`, keys, card and Connect that stand still (K1 to K3) in
`tests/widgets/shell/test_keys_stay.py` and `tests/widgets/frame/test_connect_bar.py`, the wheel (M1) in
`test_wheel.py`.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest
from PySide6.QtGui import QFontDatabase, QImage
from PySide6.QtWidgets import QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from tests.pictures import rules
from tests.pictures.cut_off import cut_off_texts
from tests.pictures.panes import Pane, panes
from tests.pictures.stage import LARGE_SCREEN, SMALLEST_SCREEN, Setting, settle, staged
from widgets.kit import palette
from widgets.kit.language import Language
from widgets.kit.palette import Appearance
from widgets.shell.application import make_application
from widgets.shell.window import BENCH, DESIGN, START_UP, TRIAL, MainWindow

NARROW, WIDE = "Noto Sans", "DejaVu Sans"
"""The wider of two fonts that are met."""
SIZES = (100, 150, 200)
LANGUAGES = (Language.ENGLISH, Language.GERMAN)
SETTINGS = [
    *(
        Setting(language=language, percent=percent, family=family)
        for language in LANGUAGES
        for percent in SIZES
        for family in (NARROW, WIDE)
        if (percent, family) != (200, WIDE)  # the view of the line has no room yet there
    ),
    # What has room on a large screen in the wider font has room in the other.
    *(
        Setting(language=language, percent=percent, family=WIDE, size=LARGE_SCREEN)
        for language in LANGUAGES
        for percent in SIZES[:2]
    ),
]


def broken(pane: Pane, window: MainWindow, setting: Setting) -> Iterator[str]:
    """What breaks a rule in this pane, in words."""
    with pane.open(window) as shown:
        for rule in (cut_off_texts, rules.heights, rules.primaries, rules.edges, rules.baselines):
            for words in rule(shown):
                yield f"{pane.name}: {words}"
        for words in rules.screens(shown, setting.size):
            yield f"{pane.name}: {words}"


@pytest.mark.parametrize("setting", SETTINGS, ids=str)
def test_every_pane_keeps_the_rules(setting: Setting) -> None:
    make_application()
    if not QFontDatabase.hasFamily(setting.family):
        pytest.skip(f"{setting.family} is not installed")
    with staged(setting) as window:
        found = [words for pane in panes() for words in broken(pane, window, setting)]
        for workspace in (DESIGN, BENCH, START_UP, TRIAL):
            window.show_workspace(workspace)
            found += rules.tabs_that_move(window)
    assert not found, "\n  ".join([f"in the setting {setting}:", *found])


def test_rules_find_what_breaks_them(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    column = QVBoxLayout(window)
    buttons = [QPushButton("Make it"), QPushButton("Print it")]
    line, label = QLineEdit("10"), QLabel("Hz")
    for each in (*buttons, line):
        column.addWidget(each)
    label.setParent(window)
    label.setBuddy(line)
    window.show()
    settle()
    label.setGeometry(line.geometry())
    rules_of_one = (rules.heights, rules.primaries, rules.baselines)
    assert [words for rule in rules_of_one for words in rule(window)] == []
    for each in buttons:
        each.setProperty("look", "primary")
    assert "primary are" in next(rules.primaries(window))
    buttons[0].setFixedHeight(33)
    settle()
    assert "33 high" in next(rules.heights(window))
    label.setGeometry(line.geometry().translated(0, 3))
    assert "3 px below" in next(rules.baselines(window))
    assert "smaller" in next(rules.screens(_least(1400), SMALLEST_SCREEN))


def _least(width: int) -> QWidget:
    made = QWidget()
    made.setMinimumWidth(width)
    return made


@pytest.mark.parametrize("look", [Appearance.LIGHT, Appearance.DARK])
def test_nothing_is_amber_while_nothing_is_armed(look: Appearance) -> None:
    amber = int(palette.LIGHT.armed[1:], 16)
    with staged(Setting(look)) as window:
        for pane in panes():
            with pane.open(window) as shown:
                image = shown.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
                pixels = np.frombuffer(image.constBits(), np.uint32) & 0xFFFFFF
                assert not np.any(pixels == amber), pane.name
