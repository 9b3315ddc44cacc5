"""Bringing register lists in by the dialog: looked at, matched, brought in as one step, and nothing lost on the way."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QTimer, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QFileDialog, QPushButton
from pytestqt.qtbot import QtBot

from app.exchange.sheet import Progress
from app.project.model import RegisterSignal
from app.project_file.files import load
from projects import demo_path
from widgets.design.exchange import import_list
from widgets.design.exchange.import_list import ImportDialog
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.document.settings import Settings

Key = Qt.Key
LEFT = Qt.MouseButton.LeftButton

LIST = """\
Register,Name,Type,Scale,Unit,Access
500,flow,UINT,0.1,l/s,R
501,pressure,UINT,0.01,bar,R
502x,level,UINT,,m,R
503,valve,mystery,,,RW
504,mode,UINT,,,RW
"""


@pytest.fixture
def settings() -> Settings:
    return Settings(keep=False)


Opened = Callable[..., ImportDialog]


@pytest.fixture
def opened(qtbot: QtBot, tmp_path: Path, document: Document, settings: Settings) -> Opened:
    def make(content: str | bytes = LIST, name: str = "list.csv") -> ImportDialog:
        path = tmp_path / name
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        dialog = ImportDialog(document, settings, path)
        qtbot.addWidget(dialog)
        with qtbot.waitActive(dialog):
            dialog.show()
            dialog.activateWindow()
        settled(qtbot, dialog)
        return dialog

    return make


def settled(qtbot: QtBot, dialog: ImportDialog) -> None:
    qtbot.waitUntil(lambda: not dialog.work.busy, timeout=20_000)


def press(button: QPushButton) -> None:
    assert button.isEnabled(), button.text()
    QTest.mouseClick(button, LEFT)


def choose(editor: QComboBox, text: str) -> None:
    """Open the box and choose by the keyboard, as a person does."""
    editor.setFocus()
    QTest.keyClick(editor, Key.Key_Home)
    for _ in range(editor.count()):
        if editor.currentText() == text:
            return
        QTest.keyClick(editor, Key.Key_Down)
    raise AssertionError(f"{text} is not offered")


def match(editor: QComboBox, text: str) -> None:
    """Open the list of keys over a column, and choose by the keyboard."""
    editor.setFocus()
    QTest.keyClick(editor, Key.Key_Down)
    assert editor.view().isVisible()
    QTest.keyClick(editor.view(), Key.Key_Home)
    for at in range(editor.count()):
        if editor.itemText(at) == text:
            break
        QTest.keyClick(editor.view(), Key.Key_Down)
    QTest.keyClick(editor.view(), Key.Key_Return)
    assert editor.currentText() == text


def said(dialog: ImportDialog) -> list[tuple[str, ...]]:
    model = dialog.notes.model()
    return [
        tuple(str(model.index(row, column).data()) for column in range(model.columnCount()))
        for row in range(model.rowCount())
    ]


def test_enter_chooses_a_file_and_enter_brings_in_what_was_chosen(
    qtbot: QtBot, tmp_path: Path, document: Document, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "list.csv"
    path.write_text(LIST)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    dialog = ImportDialog(document, settings)
    qtbot.addWidget(dialog)
    with qtbot.waitActive(dialog):
        dialog.show()
        dialog.activateWindow()
    focus = dialog.focusWidget()
    assert focus is not None
    QTest.keyClick(focus, Key.Key_Return)
    qtbot.waitUntil(lambda: dialog.bring_in.isEnabled())
    focus = dialog.focusWidget()
    assert focus is not None
    QTest.keyClick(focus, Key.Key_Return)
    assert dialog.result() == ImportDialog.DialogCode.Accepted
    assert "flow" in document.project.signal_named


def test_import_asks_for_the_file_first_and_enter_brings_it_in(
    qtbot: QtBot, tmp_path: Path, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    design = DesignWorkspace(document)
    qtbot.addWidget(design)
    design.show()
    before = document.project
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    design.import_signals()  # nothing chosen: no window comes up that would have to be closed
    path = tmp_path / "list.csv"
    path.write_text(LIST)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))

    def enter() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, ImportDialog) or not dialog.bring_in.isEnabled():
            QTimer.singleShot(20, enter)
            return
        assert dialog.file.text() == str(path)
        focus = dialog.focusWidget()
        assert focus is not None
        QTest.keyClick(focus, Key.Key_Return)

    QTimer.singleShot(0, enter)
    design.import_signals()
    assert document.project is not before
    assert design.view == "signals"


def test_what_is_good_comes_in_as_one_step_and_the_rest_is_named(opened: Opened, document: Document) -> None:
    before = document.project
    dialog = opened()
    assert dialog.bring_in.text() == "&Import 3 of 5 signals"
    notes = said(dialog)
    assert [note[:3] for note in notes] == [
        ("\N{WARNING SIGN} 4", "A, Register", "502x"),
        ("\N{WARNING SIGN} 5", "C, Data type", "mystery"),
    ]
    press(dialog.bring_in)
    assert not dialog.isVisible()
    new = document.project.signals[len(before.signals) :]
    assert [signal.name for signal in new] == ["flow", "pressure", "mode"]
    assert isinstance(new[0], RegisterSignal)
    assert (new[0].follower, new[0].number, new[0].unit) == ("pump", 500, "l/s")
    assert document.undo_name == "Import signals"
    document.undo()
    assert document.project is before


def test_a_note_leads_to_its_cell(opened: Opened) -> None:
    dialog = opened()
    dialog.notes.setFocus()
    QTest.mouseClick(
        dialog.notes.viewport(), LEFT, pos=dialog.notes.visualRect(dialog.notes.model().index(1, 0)).center()
    )
    index = dialog.table.currentIndex()
    assert (index.row(), index.column()) == (4, 2)
    assert "mystery" in str(index.data())


def test_notes_are_copied_as_text(opened: Opened) -> None:
    dialog = opened()
    dialog.notes.setFocus()
    QTest.keyClick(dialog.notes, Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(dialog.notes, Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert "A, Register\t502x" in QApplication.clipboard().text()


def test_a_column_is_matched_by_hand_and_remembered(opened: Opened, document: Document, qtbot: QtBot) -> None:
    dialog = opened("Foo,Bar,Baz\nflow,500,first\npressure,501,second\n")
    match(dialog.table.header.boxes[2], "Notes")
    settled(qtbot, dialog)
    press(dialog.bring_in)
    assert document.project.signal_named["flow"].notes == "first"
    again = opened("Foo,Bar,Baz\nspeed of fan,510,third\n", "next.csv")
    assert again.table.header.boxes[2].currentText() == "Notes"
    assert "as in the last list with these titles" in again.remarks.text()


def test_one_key_is_held_by_one_column(opened: Opened, qtbot: QtBot) -> None:
    dialog = opened()
    match(dialog.table.header.boxes[4], "Name")
    settled(qtbot, dialog)
    assert dialog.table.header.boxes[1].currentIndex() == 0
    assert dialog.table.header.boxes[4].currentText() == "Name"


def test_names_that_exist(opened: Opened, document: Document, qtbot: QtBot) -> None:
    dialog = opened("Name,Register\ncommand,700\nflow,701\n")
    assert dialog.bring_in.text() == "&Import 1 of 2 signals"
    assert "already" in said(dialog)[0][3]
    choose(dialog.target.there, "update them")
    settled(qtbot, dialog)
    assert dialog.bring_in.text() == "&Import 2 of 2 signals"
    assert "Updated: 1" in dialog.summary.text()
    press(dialog.bring_in)
    replaced = document.project.signal_named["command"]
    assert isinstance(replaced, RegisterSignal)
    assert replaced.number == 700


def test_a_new_follower_comes_in_with_its_signals(opened: Opened, document: Document, qtbot: QtBot) -> None:
    dialog = opened("Name,Register\nflow,40001\nlevel,40002\n", "flow meter.csv")
    choose(dialog.target.follower, "New device")
    settled(qtbot, dialog)
    assert dialog.target.name.text() == "flow meter"
    assert "New devices: flow meter" in dialog.summary.text()
    press(dialog.bring_in)
    follower = document.project.follower_named["flow meter"]
    assert (follower.numbering, follower.line) == ("prefixed", document.project.lines[0].name)
    document.undo()
    assert "flow meter" not in document.project.follower_named


def test_a_wrong_separator_and_back(opened: Opened, qtbot: QtBot) -> None:
    dialog = opened()
    choose(dialog.reading.separator, "Semicolon ;")
    settled(qtbot, dialog)
    assert "only one column" in dialog.remarks.text()
    assert not dialog.bring_in.isEnabled()
    choose(dialog.reading.separator, "Comma ,")
    settled(qtbot, dialog)
    assert dialog.bring_in.text() == "&Import 3 of 5 signals"


def test_the_decimal_mark_is_asked_for_where_it_cannot_be_known(opened: Opened, qtbot: QtBot) -> None:
    dialog = opened("Name;Register;Min;Max\nflow;500;0;1,500\n")
    assert not dialog.bring_in.isEnabled()
    assert "can mean 1.500 or 1500" in said(dialog)[0][3]
    choose(dialog.reading.decimal_mark, "Comma, 0,1")
    settled(qtbot, dialog)
    assert dialog.bring_in.text() == "&Import 1 of 1 signals"


def test_titles_in_another_row(opened: Opened, qtbot: QtBot) -> None:
    dialog = opened("Name,Register\nName,Register\nflow,1\n")
    dialog.reading.heading.setFocus()
    QTest.keyClick(dialog.reading.heading, Key.Key_Up)
    settled(qtbot, dialog)
    assert dialog.reading.heading.value() == 2
    assert dialog.bring_in.text() == "&Import 1 of 1 signals"


def test_sheets_of_a_workbook(opened: Opened, qtbot: QtBot, tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    first = book.active
    assert first is not None
    first.append(["Nothing here"])
    second = book.create_sheet("Registers")
    for row in (["Name", "Register", "Factor"], ["flow", 500, 0.1], ["level", 501, "=1/10"]):
        second.append(row)
    book.save(tmp_path / "book.xlsx")
    dialog = opened((tmp_path / "book.xlsx").read_bytes(), "book.xlsx")
    assert dialog.reading.sheet.currentText() == "Registers", "the sheet with titles that are known"
    assert dialog.bring_in.text() == "&Import 1 of 2 signals"
    assert "C3" in dialog.remarks.text()
    assert "without its result" in said(dialog)[0][3]
    choose(dialog.reading.sheet, "Sheet")
    settled(qtbot, dialog)
    assert not dialog.bring_in.isEnabled()


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "is empty"),
        (b"PK\x03\x04 cut short", "damaged or incomplete"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 old", "old binary format"),
        (b"{ not json", "is not valid JSON"),
        (b"\x00\x01\x02\x03\x04" * 40, "neither a text nor a workbook"),
    ],
)
def test_what_holds_no_list_is_said_and_another_file_may_follow(
    opened: Opened,
    document: Document,
    content: bytes,
    words: str,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    before = document.project
    dialog = opened(content, "bad.xlsx")
    assert words in dialog.trouble.text()
    assert not dialog.bring_in.isEnabled()
    assert not dialog.table.isVisible()
    assert document.project is before
    good = tmp_path / "good.csv"
    good.write_text("Name,Register\nflow,1\n", "utf-8")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args: (str(good), ""))
    press(dialog.choose)
    settled(qtbot, dialog)
    assert not dialog.trouble.isVisible()
    assert dialog.bring_in.text() == "&Import 1 of 1 signals"


def test_undo_after_a_refused_import_takes_back_the_step_before_it(opened: Opened, document: Document) -> None:
    document.do("Retitle", lambda project: project.replace(title="other"))
    dialog = opened("Name,Register\nflow,1\n")
    # What the list was read for changes while the dialog is open: its follower goes.
    bare = document.project.replace(
        followers=(), signals=(), screens=document.project.screens[:1], actions=(), screen_changes=()
    )
    bare = bare.replace(screens=(bare.screens[0].replace(fields=()),))
    document.do("Clear", lambda _project: bare)
    press(dialog.bring_in)
    assert dialog.isVisible()
    assert "Nothing was imported" in dialog.trouble.text()
    assert document.project == bare
    assert document.undo_name == "Clear"
    document.undo()
    document.undo()
    assert document.project == load(demo_path("booster-pump"))


def test_long_work_shows_its_progress_and_is_stopped(
    opened: Opened, document: Document, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    dialog = opened()
    before = document.project
    reached = threading.Event()

    def endless(_done: object, _project: object, _target: object, progress: Progress) -> object:
        progress(0.4)
        reached.set()
        while True:
            progress(0.5)

    monkeypatch.setattr(import_list, "plan_again", endless)
    choose(dialog.target.there, "update them")
    qtbot.waitUntil(reached.is_set)
    assert not dialog.bring_in.isEnabled()
    qtbot.waitUntil(lambda: dialog.stop.isVisible() and dialog.progress.value() >= 40)
    press(dialog.stop)
    settled(qtbot, dialog)
    assert "Stopped. Nothing was changed" in dialog.trouble.text()
    assert document.project is before
    assert dialog.isVisible()


def test_escape_stops_first_and_closes_then(opened: Opened, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    dialog = opened()

    def endless(_done: object, _project: object, _target: object, progress: Progress) -> object:
        while True:
            progress(0.5)

    monkeypatch.setattr(import_list, "plan_again", endless)
    choose(dialog.target.there, "update them")
    assert dialog.work.busy
    QTest.keyClick(dialog, Key.Key_Escape)
    settled(qtbot, dialog)
    assert dialog.isVisible()
    QTest.keyClick(dialog, Key.Key_Escape)
    assert not dialog.isVisible()


def test_closing_ends_the_thread(opened: Opened, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    dialog = opened()
    started = threading.Event()

    def endless(_done: object, _project: object, _target: object, progress: Progress) -> object:
        started.set()
        while True:
            progress(0.5)

    monkeypatch.setattr(import_list, "plan_again", endless)
    choose(dialog.target.there, "update them")
    qtbot.waitUntil(started.is_set)
    dialog.close()
    assert not any("fanlight-long-work" in thread.name for thread in threading.enumerate())


def test_the_window_goes_on_while_a_large_list_is_read(
    qtbot: QtBot, tmp_path: Path, document: Document, settings: Settings
) -> None:
    path = tmp_path / "large.csv"
    rows = "".join(f"signal {number},{number + 1000},UINT,0.1\n" for number in range(20_000))
    path.write_text(f"Name,Register,Type,Factor\n{rows}", "utf-8")
    dialog = ImportDialog(document, settings, path)
    qtbot.addWidget(dialog)
    dialog.show()
    beats = 0

    def beat() -> None:
        nonlocal beats
        beats += dialog.work.busy

    timer = QTimer()
    timer.timeout.connect(beat)
    timer.start(5)
    qtbot.waitUntil(lambda: not dialog.work.busy, timeout=60_000)
    assert beats > 10
    assert dialog.bring_in.text() == "&Import 20000 of 20000 signals"


MODEL = {
    "id": 64_001,
    "group": {
        "name": "pump",
        "type": "group",
        "points": [
            {"name": "ID", "type": "uint16", "size": 1, "value": 64_001},
            {"name": "L", "type": "uint16", "size": 1},
            {"name": "Flow", "type": "uint16", "size": 1, "sf": "Flow_SF", "units": "l/s", "label": "Flow"},
            {"name": "Flow_SF", "type": "sunssf", "size": 1},
            {"name": "St", "type": "bitfield16", "size": 1, "symbols": [{"name": "RUN", "value": 0}]},
        ],
    },
}


def test_a_model_asks_for_what_it_does_not_say(opened: Opened, document: Document, qtbot: QtBot) -> None:
    dialog = opened(json.dumps(MODEL), "model.json")
    assert dialog.model.start.value() == 40_070
    assert "Flow_SF" in dialog.remarks.text()
    assert not dialog.reading.isVisible()
    factor = dialog.model.factors["Flow_SF"]
    assert factor.text() == "unknown"
    factor.setFocus()
    factor.selectAll()
    QTest.keyClicks(factor, "-1")
    QTest.keyClick(factor, Key.Key_Tab)
    settled(qtbot, dialog)
    press(dialog.bring_in)
    flow = document.project.signal_named["Flow"]
    assert isinstance(flow, RegisterSignal)
    assert (flow.number, flow.decimals, flow.unit) == (40_072, 1, "l/s")
    assert flow.scale is not None
    assert "St.RUN" in document.project.signal_named


def test_a_list_is_dropped_on_the_table_of_signals(
    qtbot: QtBot, tmp_path: Path, document: Document, settings: Settings
) -> None:
    path = tmp_path / "list.csv"
    path.write_text(LIST, "utf-8")
    design = DesignWorkspace(document, settings)
    qtbot.addWidget(design)
    design.resize(1366, 640)
    design.show()
    design.show_view("signals")

    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, ImportDialog) or not dialog.bring_in.isEnabled():
            QTimer.singleShot(10, answer)
            return
        press(dialog.bring_in)

    QTimer.singleShot(10, answer)
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    enter = QDragEnterEvent(QPoint(9, 9), Qt.DropAction.CopyAction, data, LEFT, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(design.signals, enter)
    assert enter.isAccepted()
    drop = QDropEvent(QPointF(9, 9), Qt.DropAction.CopyAction, data, LEFT, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(design.signals, drop)
    qtbot.waitUntil(lambda: "flow" in document.project.signal_named, timeout=20_000)
    assert document.project.signals[design.signals.current()].name == "flow"
    assert "Imported signals: 3" in design.notice.text.text()


def test_every_choice_has_a_name_and_is_reached_by_tab(opened: Opened) -> None:
    dialog = opened()
    reached = set()
    dialog.choose.setFocus()
    for _ in range(60):
        focused = QApplication.focusWidget()
        assert focused is not None
        QTest.keyClick(focused, Key.Key_Tab)
        reached.add(QApplication.focusWidget())
    wanted = [dialog.reading.separator, dialog.reading.decimal_mark, dialog.target.follower, dialog.table, dialog.notes]
    wanted += [*dialog.table.header.boxes, dialog.bring_in]
    for widget in wanted:
        assert widget in reached, widget
        assert widget.accessibleName() or isinstance(widget, QPushButton)


def test_what_becomes_of_a_row_is_said_before_it_comes_in(opened: Opened, qtbot: QtBot) -> None:
    dialog = opened("Name,Register,Factor,Unit,Type\nflow,40001,0.1,l/s,u16\nlevel,x,,,u16\n")
    assert dialog.becomes.text() == (
        "Row 2: 'flow', pump, holding 0, address 0 (0-based), uint16; raw 1000 is 100.0 l/s"
    )
    choose(dialog.reading.numbering, "from 1")
    settled(qtbot, dialog)
    assert "holding 40000, address 40000 (0-based)" in dialog.becomes.text()
    dialog.table.setFocus()
    QTest.keyClick(dialog.table, Key.Key_Down)
    QTest.keyClick(dialog.table, Key.Key_Down)
    assert dialog.becomes.text() == "Row 3 skipped: 'x' is not a register number"
