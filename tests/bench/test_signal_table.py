"""What the table of signals costs with 2 000 and with 20 000 of them: an edit shown, sorting, filtering, pasting.

Wanted: an edit and what it redraws within a frame (16 ms) at 2 000; nothing longer than a breath at 20 000.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app.edits import change_signal
from tests.big_project import big_project
from widgets.design.signals.signals_view import SignalsView
from widgets.document.document import Document
from widgets.document.drafts import Drafts


@pytest.fixture(params=[2_000, 20_000])
def view(request: pytest.FixtureRequest, measured: bool, qtbot: QtBot) -> SignalsView:
    document = Document(big_project(signals=request.param if measured else request.param // 10))
    view = SignalsView(document, Drafts())
    qtbot.addWidget(view)
    view.resize(786, 430)
    document.changed.connect(lambda: view.show_project(document.project, frozenset()))
    with qtbot.waitExposed(view):
        view.show()
    view.show_project(document.project, frozenset())
    return view


def edits_of(view: SignalsView) -> Callable[[], None]:
    document = view.table.editing.document if view.table.editing is not None else None
    assert document is not None
    screen_change = 0

    def edit() -> None:
        nonlocal screen_change
        screen_change += 1
        unit = f"u{screen_change}"
        document.do("Change", lambda project: change_signal(project, "signal 5", unit=unit))
        QGuiApplication.processEvents()

    return edit


def test_an_edit_is_shown(benchmark: BenchmarkFixture, view: SignalsView) -> None:
    benchmark(edits_of(view))
    assert view.table.model.parts[5].unit.startswith("u")


def test_sorted_by_name(benchmark: BenchmarkFixture, view: SignalsView) -> None:
    benchmark(lambda: view.table.sort(0, Qt.SortOrder.AscendingOrder))
    assert view.table.model.part(2).name == "signal 2"


def test_filtered_by_a_text(benchmark: BenchmarkFixture, view: SignalsView) -> None:
    def narrow() -> None:
        view.table.narrow.setText("conveyor 3")
        view.table.narrow.setText("")

    benchmark(narrow)
    assert view.table.model.shown == len(view.table.model.parts)


def test_a_thousand_rows_are_pasted(benchmark: BenchmarkFixture, view: SignalsView) -> None:
    work = view.table.work
    assert work is not None
    count = len(view.table.model.parts)
    rows = "".join(f"fresh {number}\tconveyor 1\tinput\t{number}\n" for number in range(1_000))
    QGuiApplication.clipboard().setText(rows)
    benchmark.pedantic(lambda: work.paste(as_new=True), rounds=1)
    assert len(view.table.model.parts) == count + 1_000
