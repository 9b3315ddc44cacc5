"""Icons: one hand, one box, in the colours that are asked for; states that can be told apart without colour."""

from __future__ import annotations

import gc
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QIcon, QImage
from pytestqt.qtbot import QtBot

import resources
import widgets
from widgets.kit import palette
from widgets.kit.icons import STATES, icon, state_icon

FOLDER = Path(resources.__path__[0]) / "icons"
NAMES = sorted(path.stem for path in FOLDER.glob("*.svg") if not path.stem.startswith("fanlight"))
SIZE = QSize(48, 48)


def image(shown: QIcon, mode: QIcon.Mode = QIcon.Mode.Normal) -> QImage:
    return shown.pixmap(SIZE, mode).toImage().convertToFormat(QImage.Format.Format_ARGB32)


def colours_in(picture: QImage) -> set[str]:
    pixels = (picture.pixelColor(x, y) for x in range(picture.width()) for y in range(picture.height()))
    return {pixel.name() for pixel in pixels if pixel.alpha() == 255}


@pytest.mark.parametrize("name", NAMES)
def test_each_is_drawn_by_the_same_pen_in_the_same_box(name: str) -> None:
    root = ElementTree.parse(FOLDER / f"{name}.svg").getroot()
    pen = {key: root.get(key) for key in ("viewBox", "fill", "stroke", "stroke-width", "stroke-linecap")}
    assert pen == {
        "viewBox": "0 0 16 16",
        "fill": "none",
        "stroke": "currentColor",
        "stroke-width": "1.6",
        "stroke-linecap": "round",
    }


@pytest.mark.parametrize("name", NAMES)
def test_each_shows_something_in_the_colour_that_is_asked_for(qtbot: QtBot, name: str) -> None:
    colours = palette.current()
    for colour in ("ink", "accent"):
        assert getattr(colours, colour) in colours_in(image(icon(name, colour)))
    disabled = colours_in(image(icon(name), QIcon.Mode.Disabled))
    assert (colours.off in disabled, colours.ink in disabled) == (True, False)


def test_no_two_are_the_same(qtbot: QtBot) -> None:
    pictures = {name: image(icon(name)) for name in NAMES}
    assert not [(a, b) for a in NAMES for b in NAMES if a < b and pictures[a] == pictures[b]]


def test_each_state_has_a_shape_of_its_own(qtbot: QtBot) -> None:
    # In one colour, as whoever sees no colours sees them: any two differ in a tenth of what they draw.
    shapes = {}
    for state in STATES:
        picture = image(icon(f"state-{state}", "ink"))
        shapes[state] = {
            (x, y) for x in range(48) for y in range(48) if picture.pixelColor(x, y).name() == palette.current().ink
        }
    for first in STATES:
        for second in STATES:
            if first != second:
                either, both = shapes[first] | shapes[second], shapes[first] & shapes[second]
                assert len(both) < 0.9 * len(either), (first, second)


def test_a_state_that_nothing_is_in_is_off(qtbot: QtBot) -> None:
    colours = palette.current()
    assert colours.fault in colours_in(image(state_icon("alarm")))
    none = colours_in(image(state_icon("alarm", none=True)))
    assert (colours.off in none, colours.fault in none) == (True, False)


def test_an_icon_that_is_not_there_is_told_at_once() -> None:
    with pytest.raises(FileNotFoundError):
        icon("no such icon")


def test_icons_outlive_what_made_them(qtbot: QtBot) -> None:
    """The engine is an object of ours that Qt owns."""
    kept = [QIcon(icon("plus")) for _ in range(50)]
    gc.collect()
    assert {image(each).cacheKey() != 0 for each in kept} == {True}
    copies = [QIcon(each) for each in kept]
    del kept
    gc.collect()
    assert all(not image(each).isNull() for each in copies)


def test_every_icon_that_is_named_in_the_program_is_there() -> None:
    named = set()
    for path in Path(widgets.__path__[0]).rglob("*.py"):
        named |= set(re.findall(r"""\b(?:icon|tool|paint_icon)\((?:painter, )?"([a-z-]+)\"""", path.read_text("utf-8")))
    assert len(named) > 5
    assert named - set(NAMES) == set()
