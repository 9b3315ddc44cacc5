"""What a screen reader gets of every pane: a name for whatever takes the focus, words for every cell of a table."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QAbstractListModel, QModelIndex, Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QAbstractItemView, QAbstractSpinBox, QComboBox, QHeaderView, QScrollBar, QWidget

from tests.pictures.panes import panes
from tests.pictures.stage import Setting, staged
from widgets.kit.language import Language

MOST_ROWS = 40
DISPLAY, PICTURE, SPOKEN = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.DecorationRole,
    Qt.ItemDataRole.AccessibleTextRole,
)


def below(top: QWidget) -> Iterator[QWidget]:
    for widget in [top, *top.findChildren(QWidget)]:
        if widget.isVisible() and widget.window() is top.window():
            yield widget


def takes_focus(widget: QWidget) -> bool:
    by_key = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
    if not by_key or widget.focusProxy() is not None or widget.isWindow():
        return False
    inner = isinstance(widget.parentWidget(), QComboBox | QAbstractSpinBox)  # the box itself has the name
    return widget.isEnabled() and not inner and not isinstance(widget, QScrollBar)


def nameless(top: QWidget) -> Iterator[str]:
    for widget in below(top):
        if takes_focus(widget):
            interface = QAccessible.queryAccessibleInterface(widget)
            if interface is None or not is_called(widget, interface):
                parents = [type(widget).__name__]
                step = widget.parentWidget()
                while step is not None and len(parents) < 4:
                    parents.append(type(step).__name__)
                    step = step.parentWidget()
                yield " < ".join(parents)


def is_called(widget: QWidget, interface: QAccessibleInterface) -> bool:
    """Whether it is said what it is; where Linux has the text of a box for its name, by a label or a description."""
    name, description = (interface.text(what).strip() for what in (QAccessible.Text.Name, QAccessible.Text.Description))
    if isinstance(widget, QComboBox) and name == widget.currentText().strip():
        return bool(description) or any(interface.relations(QAccessible.RelationFlag.Label))
    return bool(name or description)


def silent_cells(top: QWidget) -> Iterator[str]:
    """Cells that show a picture and say nothing."""
    for view in below(top):
        if not isinstance(view, QAbstractItemView) or isinstance(view, QHeaderView) or view.model() is None:
            continue
        model = view.model()
        columns = 1 if isinstance(model, QAbstractListModel) else model.columnCount()
        for row in range(min(model.rowCount(), MOST_ROWS)):
            for column in range(columns):
                index = model.index(row, column, QModelIndex())
                words = index.data(DISPLAY) or index.data(SPOKEN)
                if index.data(PICTURE) is not None and not words:
                    yield f"{type(view).__name__}, row {row}, column {column}"


@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
def test_everything_that_takes_the_focus_has_a_name_and_every_cell_words(language: Language) -> None:
    found: dict[str, list[str]] = {}
    with staged(Setting(language=language)) as window:
        for pane in panes():
            with pane.open(window) as shown:
                told = [*nameless(shown), *silent_cells(shown)]
                if told:
                    found[pane.name] = told
    words = "\n".join(f"{name}:\n  " + "\n  ".join(told) for name, told in found.items())
    assert not found, f"without a name for assistive technology (setAccessibleName):\n{words}"


def test_tables_have_headings_that_are_read() -> None:
    silent = []
    with staged(Setting()) as window:
        for pane in panes():
            with pane.open(window) as shown:
                for view in below(shown):
                    if isinstance(view, QHeaderView) and view.orientation() == Qt.Orientation.Horizontal:
                        model = view.model()
                        titles = [model.headerData(at, view.orientation()) for at in range(model.columnCount())]
                        if not all(titles) and len(titles) > 1:
                            silent.append(f"{pane.name}: {type(view.parentWidget()).__name__} {titles}")
    assert sorted(set(silent)) == []
