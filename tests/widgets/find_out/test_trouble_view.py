"""Trouble of the line stands on the page of the search, with its evidence, also beside devices that answer."""

from __future__ import annotations

from collections.abc import Iterator
from unittest.mock import patch

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.listening.trouble import LineTrouble, Suspicion
from app.probing.found import Found, FoundFollower
from tests.widgets.driving import shown
from widgets.find_out.investigation import Investigation
from widgets.find_out.search_page import SearchPage

SWAPPED = Suspicion("swapped wires", "likely", "The line rests at the wrong level.")
NOISE = Suspicion("bias", "possible", "9 stray characters came in 3 s.")


@pytest.fixture
def page(qtbot: QtBot) -> Iterator[SearchPage]:
    made = shown(SearchPage(Investigation()), qtbot, 700, 420)
    yield made
    made.about.close()


def tell(page: SearchPage, found: Found, *suspicions: Suspicion) -> None:
    page.about.state.found = found
    page.about.trouble = LineTrouble(suspicions, "What was received points to one cause more than to others.")
    page.about.changed.emit()


def words(page: SearchPage) -> list[str]:
    return [each.text() for each in page.trouble.findChildren(QLabel) if each.isVisible()]


def test_where_nobody_answered_each_suspicion_has_its_evidence_and_what_to_do(page: SearchPage, qtbot: QtBot) -> None:
    tell(page, Found(probes=9), SWAPPED, NOISE)
    said = words(page)
    assert said[1:4] == ["The two data wires are swapped (likely)", SWAPPED.evidence, SWAPPED.to_do]
    assert len(said) == 7
    assert NOISE.to_do in page.trouble.accessibleDescription()
    assert not page.tables.isVisible()
    tell(page, Found(probes=9), NOISE)
    qtbot.waitUntil(lambda: len(words(page)) == 4)


def test_it_stands_beside_a_device_that_answers(page: SearchPage) -> None:
    device = FoundFollower(7)
    tell(page, Found(followers=(device,), probes=9), NOISE)
    assert page.tables.isVisible()
    assert NOISE.evidence in words(page)
    tell(page, Found(followers=(device,), probes=9))
    assert not page.trouble.isVisible()


def test_nothing_is_said_of_the_line_while_it_is_searched(page: SearchPage) -> None:
    with patch.object(Investigation, "at_work", True):
        tell(page, Found(probes=9), SWAPPED)
        assert not page.trouble.isVisible()
        assert page.empty.isVisible()
    page.about.changed.emit()
    assert page.trouble.isVisible()
    assert not page.empty.isVisible()


def test_what_has_no_room_is_reached_by_keys(page: SearchPage, qtbot: QtBot) -> None:
    tell(page, Found(probes=9), *[SWAPPED, NOISE] * 6)
    page.trouble.setFocus()
    bar = page.trouble.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    QTest.keyClick(page.trouble, Qt.Key.Key_PageDown)
    assert bar.value() > 0
