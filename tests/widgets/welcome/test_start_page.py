"""The start page: cards by arrows and Enter, recent files with their pictures, narrow and wide."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from projects import demo_path
from tests.widgets.driving import focused, press, shown
from widgets.welcome.recent_list import LARGEST, RecentList, look_at
from widgets.welcome.start_page import StartPage

KEY = Qt.Key


@pytest.fixture
def page(qtbot: QtBot) -> StartPage:
    page = shown(StartPage(), qtbot, 1366, 640)
    page.setFocus()
    return page


@pytest.fixture
def files(tmp_path: Path) -> tuple[Path, ...]:
    names = ("pump.toml", "hall.toml", "broken.toml", "gone.toml")
    paths = tuple(tmp_path / name for name in names)
    paths[0].write_bytes(demo_path("booster-pump").read_bytes())
    paths[1].write_bytes(demo_path("drying-hall").read_bytes())
    paths[2].write_text("no project")
    return paths


def found_all(recent: RecentList, files: tuple[Path, ...], qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: all(recent.found(path) is not None for path in files))


def test_arrows_walk_the_cards(page: StartPage) -> None:
    demo, new, empty, opens = page.cards
    assert focused() is demo
    for key, there in (
        (KEY.Key_Up, demo),
        (KEY.Key_Left, demo),
        (KEY.Key_Right, new),
        (KEY.Key_Right, new),
        (KEY.Key_Down, opens),
        (KEY.Key_Down, opens),
        (KEY.Key_Left, empty),
        (KEY.Key_Up, demo),
    ):
        press(key)
        assert focused() is there


@pytest.mark.parametrize("key", [KEY.Key_Return, KEY.Key_Enter, KEY.Key_Space])
def test_enter_takes_a_card_and_so_does_a_click(page: StartPage, key: Qt.Key) -> None:
    taken: list[str] = []
    page.demo_wanted.connect(lambda: taken.append("demo"))
    page.new_wanted.connect(lambda: taken.append("new"))
    page.find_out_wanted.connect(lambda: taken.append("find out"))
    page.open_wanted.connect(lambda: taken.append("open"))
    for card in page.cards:
        card.setFocus()
        press(key)
    assert taken == ["demo", "new", "find out", "open"]
    QTest.mouseClick(page.cards[1], Qt.MouseButton.LeftButton)
    assert taken[-1] == "new"


def test_recent_files_are_named_and_pictured(page: StartPage, files: tuple[Path, ...], qtbot: QtBot) -> None:
    page.show_files(files)
    found_all(page.recent, files, qtbot)
    texts = [page.recent.item(row).text() for row in range(page.recent.count())]
    assert texts == ["Booster pump of a small tank farm", "Herb drying hall", "broken", "gone"]
    pictures = [page.recent.picture(path, 1.0) for path in files]
    assert [picture is not None for picture in pictures] == [True, True, False, False]
    assert "not found" in page.recent.details(files[3])
    assert "today" in page.recent.details(files[0])
    assert "not found" not in page.recent.details(files[2])
    spoken = page.recent.item(3).data(Qt.ItemDataRole.AccessibleTextRole)
    assert "gone" in spoken
    assert "not found" in spoken


def test_a_file_of_another_day_says_which(page: StartPage, files: tuple[Path, ...], qtbot: QtBot) -> None:
    day = time.mktime((2026, 5, 12, 9, 0, 0, 0, 0, -1))
    os.utime(files[0], (day, day))
    page.show_files(files[:1])
    found_all(page.recent, files[:1], qtbot)
    assert "today" not in page.recent.details(files[0])
    assert "12" in page.recent.details(files[0])


def test_a_recent_file_is_opened_by_arrow_and_enter(page: StartPage, files: tuple[Path, ...], qtbot: QtBot) -> None:
    page.show_files(files)
    wanted: list[Path] = []
    page.file_wanted.connect(wanted.append)
    page.cards[1].setFocus()
    press(KEY.Key_Right)
    assert focused() is page.recent
    press(KEY.Key_Down)
    press(KEY.Key_Return)
    assert wanted == [files[1]]
    press(KEY.Key_Left)
    assert focused() is page.cards[1]
    where = page.recent.visualItemRect(page.recent.item(0)).center()
    QTest.mouseClick(page.recent.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert wanted == [files[1], files[0]]


def test_what_a_former_list_found_is_not_told_of_the_next(
    page: StartPage, files: tuple[Path, ...], qtbot: QtBot
) -> None:
    page.show_files(files)
    page.show_files(files[1:2])
    found_all(page.recent, files[1:2], qtbot)
    assert page.recent.count() == 1
    assert page.recent.item(0).text() == "Herb drying hall"


def test_without_recent_files_the_place_says_what_it_is_for(page: StartPage) -> None:
    page.show_files(())
    assert not page.recent.isVisible()
    assert any("listed here" in each.text() for each in page.findChildren(type(page._nothing)) if each.isVisible())


def test_a_very_large_file_is_listed_without_a_picture(tmp_path: Path) -> None:
    path = tmp_path / "large.toml"
    path.write_bytes(b"#" * (LARGEST + 1))
    found = look_at(path)
    assert found.there
    assert found.rows == ()


@pytest.mark.parametrize(("width", "columns", "beside"), [(1366, 2, True), (900, 2, False), (600, 1, False)])
def test_in_a_narrow_window_cards_stand_below_one_another(
    page: StartPage, files: tuple[Path, ...], qtbot: QtBot, width: int, columns: int, beside: bool
) -> None:
    page.show_files(files)
    page.resize(width, 640)
    qtbot.waitUntil(lambda: page.width() == width)
    demo, new, *_ = page.cards

    def is_laid_out() -> bool:
        right_of_cards = page.recent.mapTo(page, page.recent.rect().topLeft()).x() > demo.mapTo(page, QPoint()).x()
        return (new.y() == demo.y()) == (columns == 2) and right_of_cards == beside

    qtbot.waitUntil(is_laid_out)
    assert page.horizontalScrollBar().maximum() == 0
