"""The way of the Tab key: through everything of a window that takes the focus, in the order in which one reads."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QScrollArea, QWidget

Placed = tuple[QRect, QWidget]


def next_stop(window: QWidget, *, forward: bool) -> bool:
    """Give the focus to the next stop of `window`, or to the one before; after the last comes the first.

    False where there is none. For `focusNextPrevChild`: Qt's own ring is in the order in which widgets were made, so
    that keys of another panel come last, and setting a focus proxy while a part has no window yet splits it (Qt 6.11).
    """
    stops = list(stops_of(window))
    if not stops:
        return False
    focused = window.focusWidget()
    at = stops.index(focused) if focused in stops else _after(stops, focused, forward=forward)
    stop = stops[(at + (1 if forward else -1)) % len(stops)]
    stop.setFocus(Qt.FocusReason.TabFocusReason if forward else Qt.FocusReason.BacktabFocusReason)
    step = stop.parentWidget()
    while step is not None:
        if isinstance(step, QScrollArea):
            step.ensureWidgetVisible(stop)
        step = None if step.isWindow() else step.parentWidget()
    return True


class RingDialog(QDialog):
    """A dialog through which the Tab key goes as one reads: its buttons too, which systems order differently."""

    def focusNextPrevChild(self, forward: bool) -> bool:
        return next_stop(self, forward=forward)


def stops_of(window: QWidget) -> Iterator[QWidget]:
    """What the Tab key stops at, in the order in which one reads."""
    behaviour = QGuiApplication.styleHints().tabFocusBehavior()
    everything = behaviour is Qt.TabFocusBehavior.TabFocusAllControls  # not so where macOS was told otherwise
    return _stops(window, Qt.FocusPolicy.TabFocus if everything else Qt.FocusPolicy.StrongFocus)


def _stops(within: QWidget, policy: Qt.FocusPolicy) -> Iterator[QWidget]:
    children = [
        (child.geometry(), child)
        for child in within.children()
        if isinstance(child, QWidget) and child.isVisible() and child.isEnabled() and not child.isWindow()
    ]
    for _, child in as_read(children):
        if child.focusPolicy() & policy == policy and child.focusProxy() is None:
            yield child
        yield from _stops(child, policy)


def _after(stops: Sequence[QWidget], focused: QWidget | None, *, forward: bool) -> int:
    """Which stop the one that has the focus stands for, though it is none (a page that was clicked)."""
    inside = [at for at, stop in enumerate(stops) if focused is not None and focused.isAncestorOf(stop)]
    if not inside:
        return -1 if forward else 0
    return inside[0] - 1 if forward else inside[-1] + 1


def as_read(placed: Sequence[Placed]) -> list[Placed]:
    """These in reading order: cut into bands by gaps that go through, first rows, then columns, and so on within each.

    Source: Nagy and Seth, "Hierarchical representation of optically scanned documents", 1984 (recursive X-Y cut).
    """
    for edges in (_rows, _columns):
        bands = _bands(placed, edges)
        if len(bands) > 1:
            return [each for band in bands for each in as_read(band)]
    return sorted(placed, key=lambda each: (each[0].top(), each[0].left()))


def _rows(rect: QRect) -> tuple[int, int]:
    return rect.top(), rect.bottom()


def _columns(rect: QRect) -> tuple[int, int]:
    return rect.left(), rect.right()


def _bands(placed: Sequence[Placed], edges: Callable[[QRect], tuple[int, int]]) -> list[list[Placed]]:
    bands: list[list[Placed]] = []
    end = 0
    for each in sorted(placed, key=lambda each: edges(each[0])):
        first, last = edges(each[0])
        if not bands or first > end:
            bands.append([])
            end = last
        bands[-1].append(each)
        end = max(end, last)
    return bands
