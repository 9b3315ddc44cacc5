"""One ring of focus in every window: the Tab key reaches all there is, in reading order, forth and back."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from shiboken6 import isValid

from tests.pictures.panes import Pane, panes
from tests.pictures.stage import Setting, settle, settle_until, staged
from tests.widgets.walking import steps_back, walk
from widgets.kit.focus import next_stop
from widgets.shell.window import MainWindow


@pytest.fixture(scope="module")
def window() -> Iterator[MainWindow]:
    with staged(Setting()) as made:
        yield made


@pytest.mark.parametrize("pane", panes(), ids=lambda pane: pane.name)
def test_tab_reaches_all_in_reading_order_both_ways(window: MainWindow, pane: Pane) -> None:
    with pane.open(window) as opened:
        top = opened.window()
        top.activateWindow()
        settle_until(top.isActiveWindow)
        if top.focusWidget() is None or top.focusWidget() is top:
            next_stop(top, forward=True)
        settle()
        forth = walk(top)
        assert len(steps_back(forth)) <= 1, steps_back(forth)
        back = walk(top, back=True)
        forth = [each for each in forth if isValid(each)]
        assert [each for each in back[1:] if each in forth] == [each for each in reversed(forth[1:]) if each in back]
