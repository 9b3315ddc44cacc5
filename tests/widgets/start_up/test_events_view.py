"""Events and alarms as they are looked at: narrowed, copied, saved, acknowledged, remarked on."""

from __future__ import annotations

import csv
import datetime
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.events.events import Event, EventKind
from tests.widgets.driving import shown
from widgets.document.settings import Settings
from widgets.kit.icons import SIDE
from widgets.kit.scaling import heading_margin, scaled
from widgets.start_up.events_table import BESIDE, EventColumn, EventGroup, EventsModel, kind_text
from widgets.start_up.events_view import EventsView

ALT_SHIFT = Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ShiftModifier
EVENTS = (
    Event(1.5, EventKind.SCREEN_CHANGED, "run", "the panel shows 'run': key right"),
    Event(2.25, EventKind.RISE, "running", "running"),
    Event(3.0, EventKind.ALARM, "fault", "fault is set: active, not acknowledged", {"state": "UNACK"}),
    Event(4.0, EventKind.ENTERED, "speed", "the operator changed 41.7 Hz to 40.0 Hz"),
)


def civil(at: float) -> datetime.datetime:
    return datetime.datetime(2030, 1, 2, 3, 4, 5, tzinfo=datetime.UTC) + datetime.timedelta(seconds=at)


@pytest.fixture
def view(qtbot: QtBot) -> EventsView:
    made = EventsView(Settings(keep=False))
    made.set_source_clock(civil)
    made.add_events(EVENTS)
    return shown(made, qtbot, 900, 400)


def column(view: EventsView, number: int) -> list[str]:
    return [str(view.model.index(row, number).data()) for row in range(view.model.rowCount())]


def test_events_stand_in_order_with_their_times_and_words(view: EventsView) -> None:
    assert column(view, 0) == ["03:04:06.500", "03:04:07.250", "03:04:08.000", "03:04:09.000"]
    assert column(view, 2) == ["run", "running", "fault", "speed"]
    assert all(text for text in column(view, 1))


def test_the_list_is_narrowed_by_words_and_by_kinds(view: EventsView) -> None:
    view.filter.setFocus()
    QTest.keyClicks(view.filter, "40.0 ENTERED")
    assert column(view, 2) == ["speed"]
    view.filter.clear()
    alarms = view.toggles[EventGroup.ALARMS]
    assert [toggle.text() for toggle in view.toggles.values()] == ["Alarms 1", "Written 1", "Signals 1", "Line 0"]
    alarms.setFocus()
    QTest.keyClick(alarms, Qt.Key.Key_Space)
    assert column(view, 2) == ["fault"]
    assert column(view, 4) == ["active, not acknowledged"]
    view.add_events(
        (Event(5.0, EventKind.FALL, "running", "stopped"), Event(6.0, EventKind.LINE_FAULT, "pump", "silence"))
    )
    assert column(view, 2) == ["fault", "pump"]
    assert alarms.text() == "Alarms 2"
    view.toggles[EventGroup.SIGNALS].click()
    assert column(view, 2) == ["running", "fault", "running", "pump"], "those of either"
    alarms.click()
    view.toggles[EventGroup.SIGNALS].click()
    assert view.model.rowCount() == view.model.total == 6
    where = [toggle.geometry() for toggle in view.toggles.values()]
    view.add_events(tuple(Event(7.0, EventKind.ALARM, "hot", "racks") for _ in range(500)))
    assert [toggle.geometry() for toggle in view.toggles.values()] == where, "no toggle moves as the counts grow"


def test_a_remark_is_written_with_enter(view: EventsView, qtbot: QtBot) -> None:
    QTest.keyClick(view, Qt.Key.Key_R, ALT_SHIFT)
    assert view.note.hasFocus()
    QTest.keyClicks(view.note, "  oil is warm ")
    with qtbot.waitSignal(view.note_wanted) as wanted:
        QTest.keyClick(view.note, Qt.Key.Key_Return)
    assert wanted.args == ["oil is warm"]
    assert view.note.text() == ""
    with qtbot.assertNotEmitted(view.note_wanted):
        QTest.keyClick(view.note, Qt.Key.Key_Return)
    view.set_notes_allowed(False)
    assert not view.note.isEnabled()


def test_enter_goes_to_the_moment_of_an_event(view: EventsView, qtbot: QtBot) -> None:
    view.table.setFocus()
    view.table.selectRow(1)
    with qtbot.waitSignal(view.moment_chosen) as chosen:
        QTest.keyClick(view.table, Qt.Key.Key_Return)
    assert chosen.args == [2.25]


def test_events_are_copied_for_a_spreadsheet(view: EventsView) -> None:
    view.table.setFocus()
    view.table.selectRow(3)
    QTest.keyClick(view.table, Qt.Key.Key_C, ALT_SHIFT)
    rows = [line.split("\t") for line in QGuiApplication.clipboard().text().splitlines()]
    assert rows[0] == ["Time", "What", "Where", "In words", "State"]
    assert rows[1][0] == "2030-01-02T03:04:09.000+00:00"
    assert rows[1][2:] == ["speed", "the operator changed 41.7 Hz to 40.0 Hz", ""]
    assert len(rows) == 2


def test_events_are_saved_and_what_cannot_be_is_told(
    view: EventsView, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "events"), ""))
    view.save()
    with (tmp_path / "events.csv").open(encoding="utf-8-sig", newline="") as file:
        assert [row[2] for row in csv.reader(file)][1:] == ["run", "running", "fault", "speed"]
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "nowhere" / "e.csv"), ""))
    with qtbot.waitSignal(view.said) as said:
        view.save()
    assert "cannot be written" in said.args[0]


def test_the_oldest_go_and_the_newest_is_followed(view: EventsView) -> None:
    model = EventsModel(keep=100, slack=10)
    model.add(Event(float(number), EventKind.NOTE, "", str(number)) for number in range(105))
    assert model.total == 105
    model.add(Event(float(number), EventKind.NOTE, "", str(number)) for number in range(105, 120))
    assert (model.total, model.shown[0].text, model.shown[-1].text) == (100, "20", "119")
    view.add_events(tuple(Event(10.0 + number, EventKind.NOTE, "", "x") for number in range(200)))
    bar = view.table.verticalScrollBar()
    assert bar.value() == bar.maximum()
    bar.setValue(0)
    view.add_events((Event(999.0, EventKind.NOTE, "", "new"),))
    assert bar.value() == 0


def test_the_newest_is_in_sight_also_of_what_came_while_it_was_hidden(view: EventsView, qtbot: QtBot) -> None:
    view.hide()
    view.add_events(tuple(Event(10.0 + number, EventKind.NOTE, "", "x") for number in range(200)))
    view.resize(900, 300)
    view.show()
    bar = view.table.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 150)
    qtbot.waitUntil(lambda: bar.value() == bar.maximum())


def test_no_kind_of_event_is_cut(view: EventsView) -> None:
    width = view.table.columnWidth(EventColumn.KIND) - 2 * heading_margin() - scaled(SIDE + BESIDE)
    metrics, right = view.table.fontMetrics(), Qt.TextElideMode.ElideRight
    assert [metrics.elidedText(kind_text(kind), right, width) for kind in EventKind] == [
        kind_text(kind) for kind in EventKind
    ]


def test_an_event_that_is_told_late_stands_at_its_time(view: EventsView) -> None:
    def note(at: float) -> Event:
        return Event(at, EventKind.NOTE, "", "told")

    view.add_events((note(5.0),))
    view.add_events((note(0.5), note(2.5), note(6.0)))
    assert [event.at for event in view.model.shown] == [0.5, 1.5, 2.25, 2.5, 3.0, 4.0, 5.0, 6.0]
    view.filter.setText("told")
    view.add_events((note(5.5),))
    assert [event.at for event in view.model.shown] == [0.5, 2.5, 5.0, 5.5, 6.0]
    view.filter.clear()
    assert len(view.model.shown) == view.model.total == 9
    view.set_events((note(2.0), note(1.0)))
    assert [event.at for event in view.model.shown] == [1.0, 2.0]
