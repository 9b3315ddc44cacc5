"""The line view over real lines: listing, choosing, filtering, pausing, copying, saving, and finding it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QTreeWidgetItem, QWidget
from pytestqt.qtbot import QtBot

from app.client.faults import Fault, FaultKind
from app.client.transactions import Transaction
from app.diagnosis.register_names import NO_NAMES
from app.modbus.requests import read_request
from app.project_file.files import save
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import button_of, words_of
from widgets.kit import palette
from widgets.live.line_view import LineView
from widgets.live.transaction_parts import BYTES, MEANING, PART, TransactionParts
from widgets.live.transactions_table import (
    TransactionColumn,
    TransactionFilter,
    TransactionRow,
    TransactionsModel,
    TransactionsTable,
)
from widgets.shell.window import DESIGN, MainWindow

READ = read_request(1, "holding", 310, 1)
# The check sums were worked out by tests.staged_follower.crc, bit by bit.
ANSWER = bytes.fromhex("01 03 02 20 8A 20 23")
SILENCE = Fault(FaultKind.SILENCE, "unit 1 did not answer")


pytestmark = pytest.mark.usefixtures("own_settings", "no_thread_is_left")


def connect(window: MainWindow, folder: Path) -> None:
    path = folder / "hall.toml"
    project = bench_project()
    # A busy computer answers late now and then.
    save(project.replace(lines=tuple(line.replace(timeout_ms=500) for line in project.lines)), path)
    window.open_file(path)
    window.show_workspace(1)
    window.connecting.connect_line()


@pytest.fixture
def window(window: MainWindow, qtbot: QtBot, tmp_path: Path) -> MainWindow:
    """The window on the bench, live against simulated followers over a real socket, its line view open."""
    connect(window, tmp_path)
    QTest.keyClick(window, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: window.line.view.model.rowCount() > 5)
    return window


@pytest.fixture
def view(window: MainWindow) -> LineView:
    return window.line.view


def test_made_late_it_lists_all_since_the_connection(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("widgets.shell.line_place.LINE_VIEW_AFTER_MS", 3_600_000)
    came: list[Transaction] = []
    made = MainWindow()
    made.live.transactions.connect(came.extend)
    connect(made, tmp_path)
    qtbot.waitUntil(lambda: len(came) > 5)
    assert made.findChild(LineView) is None
    assert made.line.view.waiting == len(came)
    made.show()
    made.menus.line_view.trigger()
    qtbot.waitUntil(lambda: made.line.view.model.place(came[-1]) is not None)
    assert made.line.view.model.place(came[0]) is not None
    made.leave()
    made.deleteLater()


def test_unasked_it_is_made_soon_after_its_window(qtbot: QtBot) -> None:
    made = MainWindow()
    assert made.findChild(LineView) is None
    qtbot.waitUntil(lambda: made.findChild(LineView) is not None)
    made.leave()
    made.deleteLater()


def transaction(at: float, fault: Fault | None = None, follower: str = "fan") -> Transaction:
    received = b"" if fault else ANSWER
    return Transaction(
        at=at, line="hall", follower=follower, request=READ, sent=READ.rtu, received=received, ms=12.9, fault=fault
    )


def rows(count: int, first: int = 0) -> list[TransactionRow]:
    return [TransactionRow(transaction(float(n)), float(n), NO_NAMES) for n in range(first, first + count)]


def cells(model: TransactionsModel, row: int) -> list[str]:
    return [str(model.index(row, column).data()) for column in TransactionColumn]


def parts(shown: TransactionParts) -> list[tuple[str, str, str]]:
    """The rows below the heads of the frames."""
    tops = [head(shown, number) for number in range(shown.tree.topLevelItemCount())]
    items = [child(top, place) for top in tops for place in range(top.childCount())]
    return [(item.text(BYTES), item.text(PART), item.text(MEANING)) for item in items]


def head(shown: TransactionParts, number: int) -> QTreeWidgetItem:
    """The row above a frame."""
    item = shown.tree.topLevelItem(number)
    assert item is not None
    return item


def child(top: QTreeWidgetItem, place: int) -> QTreeWidgetItem:
    """A row of a frame."""
    item = top.child(place)
    assert item is not None
    return item


def silence(window: MainWindow, follower: str, on: bool = True) -> None:
    session = window.live.session
    assert session is not None
    assert session.simulation is not None
    session.simulation.models[follower].silent = on


# Over a real line


def test_opened_by_its_shortcut_it_lists_what_goes_over_the_line(window: MainWindow, view: LineView) -> None:
    assert view.isVisible()
    assert view.table.hasFocus()
    told = [cells(view.model, row) for row in range(view.model.rowCount())]
    assert {one[TransactionColumn.FOLLOWER] for one in told} == {"fan", "tank"}
    (level, *_) = [one for one in told if one[TransactionColumn.WHAT] == "read holding 5"]
    assert level[TransactionColumn.RESULT] == "good"
    assert float(level[TransactionColumn.MEASURED]) > 0


def test_chosen_by_keyboard_a_transaction_is_taken_apart(view: LineView, qtbot: QtBot) -> None:
    place = next(row for row in range(view.model.rowCount()) if view.model.row(row).transaction.follower == "tank")
    QTest.keyClick(view.table, Qt.Key.Key_Home, Qt.KeyboardModifier.ControlModifier)
    for _ in range(place):
        QTest.keyClick(view.table, Qt.Key.Key_Down)
    (row,) = view.table.selected_rows()
    assert row is view.model.row(place)
    shown = parts(view.parts)
    assert bytes.fromhex("".join(text for text, _, _ in shown)) == row.transaction.sent + row.transaction.received
    assert shown[-1] == ("00 3F", "register 5", "level = 63 %")
    assert "tank: read holding 5" in view.parts.head.text()
    QTest.keyClick(view.table, Qt.Key.Key_Tab)
    assert view.parts.tree.hasFocus()
    QTest.keyClick(view.parts.tree, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert "register 5: level = 63 %" in QApplication.clipboard().text()


def test_a_fault_is_told_by_an_icon_and_words_and_can_be_shown_alone(
    window: MainWindow, view: LineView, qtbot: QtBot
) -> None:
    silence(window, "tank")
    QTest.keyClick(window, Qt.Key.Key_X, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert view.only_faults.isChecked()
    qtbot.waitUntil(lambda: "tank" in [row.transaction.follower for row in view.model.shown])
    assert all(row.transaction.fault for row in view.model.shown)
    place = next(n for n, row in enumerate(view.model.shown) if row.transaction.follower == "tank")
    assert cells(view.model, place)[TransactionColumn.RESULT] == "no answer"
    trim = view.model.trim(place, TransactionColumn.RESULT)
    assert trim is not None
    assert trim.icon == "state-alarm"
    view.table.choose(place)
    assert "unit 2 did not answer" in view.parts.fault.text()
    assert view.parts.fault.isVisible()
    qtbot.waitUntil(lambda: "\u26a0 no answer: " in view.figures.text())
    assert f" of {view.model.total} shown" in view.told.text()


def test_the_statistics_tell_cycle_use_of_the_wire_and_turnaround(view: LineView, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: "tank: longest: " in view.figures.text())
    told = dict(line.strip().rsplit(": ", 1) for line in view.figures.text().splitlines() if ": " in line)
    assert int(told["Requests"]) >= int(told["Good answers"]) > 0
    assert told["Bus load"].endswith(" %")
    times = [float(told[f"fan: {what}"].removesuffix(" ms")) for what in ("response time", "95 % within", "longest")]
    assert times == sorted(times)
    assert float(told["Poll cycle"].removesuffix(" ms")) > 0


def test_paused_it_stands_still_and_goes_on_collecting(window: MainWindow, view: LineView, qtbot: QtBot) -> None:
    modifiers = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(window, Qt.Key.Key_P, modifiers)
    before = view.model.shown
    qtbot.waitUntil(lambda: view.waiting > 5)
    assert view.model.shown == before
    assert "Paused" in view.told.text()
    waiting = view.waiting
    QTest.keyClick(window, Qt.Key.Key_P, modifiers)
    assert view.model.rowCount() >= len(before) + waiting
    assert view.waiting == 0


def test_hidden_it_goes_on_collecting(window: MainWindow, view: LineView, qtbot: QtBot) -> None:
    QTest.keyClick(window, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    assert not view.isVisible()
    before = view.model.total
    qtbot.waitUntil(lambda: view.waiting > 5)
    assert view.model.total == before
    QTest.keyClick(window, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    assert view.model.total >= before + 5


@pytest.mark.parametrize(
    ("words", "deed"),
    [
        ("level", "read holding 5"),
        ("020300050001", "read holding 5"),
        ("FREQUENCY", "read input 401"),
        ("no such thing", None),
    ],
)
def test_the_filter_looks_at_signals_registers_and_bytes(view: LineView, words: str, deed: str | None) -> None:
    QTest.keyClick(view.window(), Qt.Key.Key_G, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert view.words.hasFocus()
    QTest.keyClicks(view.words, words)
    found = {view.model.row(row).transaction.kind for row in range(view.model.rowCount())}
    assert found == ({deed} if deed else set())
    view.words.clear()
    assert view.model.rowCount() == view.model.total


def test_one_follower_alone(view: LineView) -> None:
    assert [view.follower.itemText(n) for n in range(view.follower.count())] == ["All devices", "fan", "tank"]
    view.follower.setFocus()
    QTest.keyClick(view.follower, Qt.Key.Key_End)
    assert view.follower.currentText() == "tank"
    assert {view.model.row(row).transaction.follower for row in range(view.model.rowCount())} == {"tank"}


def test_the_strip_opens_it_on_the_transaction_that_was_stepped_to(window: MainWindow, view: LineView) -> None:
    QTest.keyClick(window, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    window.strip.setFocus()
    for _ in range(3):
        QTest.keyClick(window.strip, Qt.Key.Key_Left)
    chosen = window.strip.chosen
    assert chosen is not None
    QTest.keyClick(window.strip, Qt.Key.Key_Return)
    assert view.isVisible()
    (row,) = view.table.selected_rows()
    assert row.transaction is chosen.transaction
    assert window.menus.line_view.isChecked()


def test_the_strip_finds_a_transaction_that_the_filter_hides(window: MainWindow, view: LineView) -> None:
    view.words.setText("no such thing")
    window.strip.setFocus()
    QTest.keyClick(window.strip, Qt.Key.Key_Left)
    QTest.keyClick(window.strip, Qt.Key.Key_Return)
    assert len(view.table.selected_rows()) == 1
    assert view.words.text() == ""


def test_its_key_goes_there_and_back_to_the_panel(window: MainWindow, view: LineView) -> None:
    assert window.bench.shows_line
    QTest.keySequence(window, "Ctrl+L")
    assert not view.isVisible()
    assert window.bench.face.hasFocus()
    assert not window.menus.line_view.isChecked()
    window.show_workspace(DESIGN)
    QTest.keySequence(window, "Ctrl+L")
    assert window.workspace is window.bench
    assert view.isVisible()
    assert window.menus.line_view.isChecked()


def test_the_menu_knows_whether_it_is_in_sight(window: MainWindow, view: LineView) -> None:
    window.bench.tabs.setCurrentIndex(0)
    assert not window.menus.line_view.isChecked()
    window.bench.tabs.setCurrentIndex(window.bench.tabs.count() - 1)
    assert window.menus.line_view.isChecked()
    window.show_workspace(DESIGN)
    assert not window.menus.line_view.isChecked()
    assert not view.isVisible()


def test_it_can_have_a_window_of_its_own(window: MainWindow, view: LineView) -> None:
    window.menus.line_window.trigger()
    assert window.line.apart
    assert view.isVisible()
    assert view.window() is window.line.window
    window.bench.operate()
    assert view.isVisible(), "beside the panel"
    window.bench.show_line()
    assert any("window of its own" in label.text() for label in window.bench.findChildren(QLabel) if label.isVisible())
    window.menus.line_window.trigger()
    assert not window.line.apart
    assert view.isVisible()
    assert view.window() is window


def test_its_own_window_closed_it_is_in_the_bench_again_and_nobody_is_led_there(
    window: MainWindow, view: LineView
) -> None:
    window.menus.line_window.trigger()
    window.show_workspace(DESIGN)
    window.line.window.close()
    assert window.workspace is window.design
    assert not window.menus.line_window.isChecked()
    window.menus.line_view.trigger()
    assert view.isVisible()
    assert view.window() is window


def test_disconnected_it_keeps_what_it_has(window: MainWindow, view: LineView) -> None:
    window.connecting.disconnect_line()
    kept = view.model.total
    assert kept > 5
    window.connecting.connect_line()
    assert view.model.total >= kept


def test_everything_can_be_reached_and_has_a_name(view: LineView) -> None:
    reached: list[QWidget] = []
    view.table.setFocus()
    while (focus := QApplication.focusWidget()) not in reached and focus is not None and view.isAncestorOf(focus):
        reached.append(focus)
        QTest.keyClick(focus, Qt.Key.Key_Tab)
    wanted = {view.table, view.parts.tree, view.figures}
    assert wanted <= set(reached)
    backwards: list[QWidget] = []
    view.table.setFocus()
    while (focus := QApplication.focusWidget()) not in backwards and focus is not None and view.isAncestorOf(focus):
        backwards.append(focus)
        QTest.keyClick(focus, Qt.Key.Key_Backtab)
    assert {view.follower, view.words, view.only_faults} <= set(backwards)
    for widget in (view.table, view.parts.tree, view.figures, view.follower, view.words):
        assert widget.accessibleName()


# Copying and saving


def test_copies_a_line_each_or_every_byte_in_words(window: MainWindow, view: LineView) -> None:
    view.pause_action.setChecked(True)
    view.table.choose(0)
    QTest.keyClick(view.table, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClick(view.table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert len(QApplication.clipboard().text().splitlines()) == 2
    QTest.keyClick(window, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert QApplication.clipboard().text().count("sent: request") == 2


@pytest.mark.parametrize("words", [False, True])
def test_saves_what_is_shown_with_the_statistics(
    view: LineView, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: bool
) -> None:
    qtbot.waitUntil(lambda: "Requests" in view.figures.text())
    view.pause_action.setChecked(True)
    path = tmp_path / "line.txt"

    def name(_parent: QWidget, _title: str, _start: str, filters: str, *_: object) -> tuple[str, str]:
        return str(path), filters.split(";;")[words]

    # The system's own file dialog cannot be operated in a test: it answers this.
    monkeypatch.setattr(QFileDialog, "getSaveFileName", name)
    view.save_action.trigger()
    text = path.read_text("utf-8")
    count = text.count("sent: request") if words else text.count("> ")
    assert count == view.model.rowCount()
    assert "level" in text or not words
    assert "Requests: " in text


def test_what_cannot_be_saved_is_said(view: LineView, tmp_path: Path) -> None:
    said: list[str] = []

    def answer() -> None:
        box = QApplication.activeModalWidget()
        said.append(words_of(box))
        button_of(box, "Close").click()

    QTimer.singleShot(0, answer)
    assert not view.save_to(tmp_path / "no such folder" / "line.txt", words=False)
    assert "no such folder" in said[0]
    assert "Choose another folder" in said[0]


# The list itself


@pytest.fixture
def table(qtbot: QtBot) -> TransactionsTable:
    made = TransactionsTable(TransactionsModel(keep=100, slack=20))
    qtbot.addWidget(made)
    made.resize(700, 200)
    with qtbot.waitExposed(made):
        made.show()
    return made


def in_sight(table: TransactionsTable) -> tuple[float, float]:
    """The times of the first and the last row that are in sight."""
    model = table.model()
    assert isinstance(model, TransactionsModel)
    last = table.rowAt(table.viewport().height() - 2)
    return model.row(table.rowAt(1)).at, model.row(last).at


def test_it_follows_the_newest(table: TransactionsTable) -> None:
    table.add(rows(50))
    assert in_sight(table)[1] == 49
    table.add(rows(3, 50))
    assert in_sight(table)[1] == 52


def test_what_is_looked_at_stays_in_sight_while_rows_come_and_go(table: TransactionsTable) -> None:
    table.add(rows(120))
    table.choose(60)
    before = in_sight(table)
    table.add(rows(30, 120))
    model = table.model()
    assert isinstance(model, TransactionsModel)
    assert model.total == 100
    assert in_sight(table) == before
    assert [row.at for row in table.selected_rows()] == [60]
    assert not table.following


def test_scrolled_back_it_stays_and_at_the_end_it_follows_again(table: TransactionsTable) -> None:
    table.add(rows(50))
    bar = table.verticalScrollBar()
    bar.setValue(0)
    table.add(rows(5, 50))
    assert in_sight(table)[0] == 0
    bar.setValue(bar.maximum())
    table.add(rows(5, 55))
    assert in_sight(table)[1] == 59


def test_only_so_many_are_kept(table: TransactionsTable) -> None:
    model = table.model()
    assert isinstance(model, TransactionsModel)
    for first in range(0, 1000, 7):
        table.add(rows(7, first))
        assert model.rowCount() <= 120
    assert model.row(model.rowCount() - 1).at == 1000
    assert model.total == model.rowCount() >= 100


def test_filtered_it_lets_go_of_the_oldest_too(qtbot: QtBot) -> None:
    model = TransactionsModel(keep=10, slack=5)
    model.want(TransactionFilter(faults_only=True))
    for n in range(100):
        fault = SILENCE if n % 2 else None
        model.add([TransactionRow(transaction(float(n), fault), float(n), NO_NAMES)])
        assert all(row.at > n - 16 for row in model.shown)
        assert all(row.transaction.fault for row in model.shown)
    model.want(TransactionFilter())
    assert [row.at for row in model.shown][-10:] == [float(n) for n in range(90, 100)]


def test_escape_goes_back_to_the_newest(window: MainWindow, view: LineView, qtbot: QtBot) -> None:
    view.table.choose(0)
    assert view.newest_action.isEnabled()
    QTest.keyClick(view.table, Qt.Key.Key_Escape)
    assert view.table.following
    assert view.table.selected_rows() == ()
    assert not view.newest_action.isEnabled()


def test_emptied_it_begins_anew(view: LineView, qtbot: QtBot) -> None:
    view.table.choose(0)
    first = view.model.row(0)
    view.clear_action.trigger()
    assert view.parts.explanation is None
    qtbot.waitUntil(lambda: view.model.rowCount() > 0)
    assert view.model.row(0) is not first


# The bytes


@pytest.fixture
def shown(qtbot: QtBot) -> TransactionParts:
    made = TransactionParts()
    qtbot.addWidget(made)
    made.resize(500, 400)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_what_is_wrong_carries_a_mark(shown: TransactionParts) -> None:
    spoilt = ANSWER[:-1] + b"\x00"
    bad = transaction(1.0)._replace(received=spoilt, fault=Fault(FaultKind.BAD_CRC, "it arrived damaged"))
    shown.show_row(TransactionRow(bad, 1.0, NO_NAMES))
    marked = [row for row in parts(shown) if row[2].startswith("\u26a0")]
    assert [(row[0], row[1]) for row in marked] == [("20 00", "check sum")]
    assert "20 23" in marked[0][2]


def test_nothing_received_is_said(shown: TransactionParts) -> None:
    shown.show_row(TransactionRow(transaction(1.0, SILENCE), 1.0, NO_NAMES))
    last = head(shown, shown.tree.topLevelItemCount() - 1)
    assert last.text(0) == "Received: nothing"


def test_long_words_get_the_room_they_need(shown: TransactionParts) -> None:
    refused = bytes.fromhex("01 83 02 C0 F1")
    shown.show_row(TransactionRow(transaction(1.0)._replace(received=refused), 1.0, NO_NAMES))
    shown.resize(330, 400)
    QApplication.processEvents()
    top = head(shown, 1)
    items = [child(top, place) for place in range(3)]
    heights = {item.text(PART): shown.tree.visualItemRect(item).height() for item in items}
    assert heights["exception code"] > heights["unit address"]


@pytest.mark.parametrize("colours", [palette.LIGHT, palette.DARK], ids=["light", "dark"])
def test_both_looks_draw_faults_in_the_colour_of_faults(
    table: TransactionsTable, monkeypatch: pytest.MonkeyPatch, colours: palette.Colours
) -> None:
    monkeypatch.setattr(palette, "_current", colours)
    table.add([TransactionRow(transaction(1.0, SILENCE), 1.0, NO_NAMES)])
    image = table.viewport().grab().toImage()
    wanted = QColor(colours.fault)
    left = table.columnViewportPosition(TransactionColumn.RESULT)
    near: Callable[[int, int], bool] = lambda x, y: (  # noqa: E731
        abs(image.pixelColor(x, y).red() - wanted.red()) + abs(image.pixelColor(x, y).blue() - wanted.blue()) < 60
    )
    assert any(near(x, y) for x in range(left, left + 120) for y in range(table.rowHeight(0)))


def test_in_a_window_of_its_own_no_number_and_no_name_is_cut(window: MainWindow, qtbot: QtBot) -> None:
    window.menus.line_view.setChecked(True)
    window.menus.line_window.setChecked(True)
    view = window.line.view
    qtbot.waitUntil(view.isVisible)
    assert view.table.horizontalScrollBar().maximum() == 0
    assert view.parts.tree.horizontalScrollBar().maximum() == 0
    label = view.figures.fontMetrics().horizontalAdvance("pump: response time") + view.figures.indentation()
    assert view.figures.columnWidth(0) >= label
    window.menus.line_window.setChecked(False)
