"""Walking through a window by the Tab key, and what such a walk has to reach in which order."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractSpinBox, QApplication, QComboBox, QWidget
from shiboken6 import isValid

from tests.pictures.stage import settle

MOST = 300
NO, SHIFT, CONTROL = (
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.ControlModifier,
)


def called(widget: QWidget) -> str:
    return f"{type(widget).__name__} '{widget.accessibleName() or getattr(widget, 'text', str)()}'"


def stops(window: QWidget) -> list[QWidget]:
    """All that is in sight, can be used and says that the Tab key stops at it."""
    return [
        widget
        for widget in window.findChildren(QWidget)
        if widget.window() is window
        and widget.isVisible()
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.focusProxy() is None
        and not isinstance(widget.parentWidget(), QComboBox | QAbstractSpinBox)
    ]


def walk(window: QWidget, *, back: bool = False) -> list[QWidget]:
    """What has the focus one after the other, from what has it now until that has it again.

    It must have been at everything that was in sight all the while: in Design, where one is decides what else is there.
    """
    all_the_while = stops(window)
    seen: list[QWidget] = []
    here = _focused(window)
    while here not in seen:
        seen.append(here)
        assert len(seen) < MOST, "it never comes round"
        for modifiers in (NO, CONTROL):  # in a table of cells the key goes by cells, and leaves it with Ctrl
            if _focused(window) is here:
                QTest.keyClick(here, Qt.Key.Key_Tab, modifiers | (SHIFT if back else NO))
                settle()
        here = _focused(window)
        in_sight = stops(window)
        all_the_while = [each for each in all_the_while if isValid(each) and each in in_sight]
    assert [called(each) for each in all_the_while if isValid(each) and each not in seen] == [], (
        "back" if back else "forth"
    )
    assert here is seen[0], f"it comes round to {called(here)} and not to {called(seen[0])}, where it began"
    return [each for each in seen if isValid(each)]


def steps_back(ring: list[QWidget]) -> list[str]:
    """The steps of a ring that do not go on as one reads: down or to the right, seen in what both lie in.

    Each ring has one: from its end to its beginning.
    """
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
    return [f"{called(one)} -> {called(two)}" for one, two in pairs if not _read_on(one, two)]


def _read_on(one: QWidget, two: QWidget) -> bool:
    if one.isAncestorOf(two):
        return True
    common = one
    while not common.isAncestorOf(two):
        parent = common.parentWidget()
        assert parent is not None
        common = parent
    first, second = (_place(next(_within(common, each)), common) for each in (one, two))
    beside = first.top() <= second.bottom() and second.top() <= first.bottom()
    return first.left() <= second.left() if beside else first.bottom() < second.top()


def _within(common: QWidget, widget: QWidget) -> Iterator[QWidget]:
    """The part of `common` that the widget lies in."""
    step = widget
    while step is not common and step.parentWidget() is not common:
        parent = step.parentWidget()
        assert parent is not None
        step = parent
    yield step


def _place(widget: QWidget, within: QWidget) -> QRect:
    return QRect(widget.mapTo(within, QPoint(0, 0)), widget.size())


def _focused(window: QWidget) -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None, "nothing has the focus"
    assert widget.window() is window, f"the focus left the window for {called(widget)}"
    return widget
