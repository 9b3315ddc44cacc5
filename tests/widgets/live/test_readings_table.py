"""The table of readings: every value with its quality in words, sorted and filtered, copied as text."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QFont, QFontMetrics, QImage, QPainter, QRegion
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.project.binding import plain_text
from app.project.model import Bit, BitSignal, HeldSignal, Panel, Project, RegisterSignal, Screen, TcpLine
from app.project_file.files import load
from app.signals.raw_text import RawForm
from app.signals.reading import NEVER_READ, Quality, Reading, Value
from projects import demo_path
from tests.builders import pump_project
from widgets.kit.quick_cells import QuickCells
from widgets.kit.scaling import heading_margin
from widgets.kit.tables import Trim
from widgets.live.readings_model import DOUBTFUL, HELD, STATES, ReadingColumn, age_text, quality_words
from widgets.live.readings_table import ReadingsTable

NOW = 1000.0


def project() -> Project:
    def signal(name: str, number: int, **more: object) -> RegisterSignal:
        return RegisterSignal(name=name, follower="pump", number=number, **more)  # type: ignore[arg-type]

    return pump_project(
        signal("speed", 1, decimals=1, unit="Hz"),
        signal("level", 2, unit="%"),
        signal("mode", 3, texts={"0": "stopped", "1": "running"}),
        signal("power", 4, encoding="float32"),
        signal("label", 6, encoding="string", length=2),
        line=TcpLine(name="line", host="127.0.0.1"),
        unit=1,
    ).replace(panel=Panel(start="run"), screens=(Screen(name="run"),))


READINGS: Mapping[str, Reading] = {
    "speed": Reading(raw=500, value=Fraction("41.65"), quality=Quality.GOOD, reason="", time=NOW - 0.1),
    "level": Reading(raw=100, value=Fraction(100), quality=Quality.STALE, reason="no answer since 5 s", time=NOW - 5),
    "mode": Reading(raw=1, value=Fraction(1), quality=Quality.GOOD, reason="", time=NOW - 0.1),
    "power": Reading(raw=0.5, value=Fraction(1, 2), quality=Quality.IMPLAUSIBLE, reason="not a number", time=NOW - 200),
    "label": Reading(quality=Quality.REFUSED, reason="refused with exception 02"),
}


@pytest.fixture
def table(qtbot: QtBot) -> ReadingsTable:
    made = ReadingsTable()
    qtbot.addWidget(made)
    made.set_project(project())
    made.set_readings(READINGS, NOW)
    made.resize(900, 400)
    with qtbot.waitExposed(made):
        made.show()
    return made


def must_have(trim: Trim | None) -> Trim:
    assert trim is not None
    return trim


def cells(table: ReadingsTable, column: ReadingColumn) -> list[str]:
    return [str(table.model.index(row, column).data()) for row in range(table.model.rowCount())]


def test_shows_every_signal_in_the_order_of_the_project(table: ReadingsTable) -> None:
    assert cells(table, ReadingColumn.SIGNAL) == ["speed", "level", "mode", "power", "label"]
    # A half is rounded away from zero: 41.65 shows 41.7 (common practice, no source).
    assert cells(table, ReadingColumn.VALUE) == ["41.7 Hz", "100 %", "running", "1", ""]
    assert cells(table, ReadingColumn.RAW) == ["500", "100", "1", "0.5", ""]
    assert cells(table, ReadingColumn.AGE) == ["< 1 s", "5 s", "< 1 s", "3 min", ""]
    assert cells(table, ReadingColumn.REASON) == [
        "",
        "no answer since 5 s",
        "",
        "not a number",
        "refused with exception 02",
    ]


def test_quality_is_told_by_an_icon_and_a_word(table: ReadingsTable) -> None:
    assert cells(table, ReadingColumn.QUALITY) == ["good", "old", "good", "implausible", "refused"]
    assert [table.model.cell(row, ReadingColumn.QUALITY)[1] for row in range(5)] == [
        "good",
        "caution",
        "good",
        "fault",
        "fault",
    ]
    icons = [must_have(table.model.trim(row, ReadingColumn.QUALITY)).icon for row in range(5)]
    assert icons == ["state-good", "state-caution", "state-good", "state-alarm", "state-alarm"]
    assert set(STATES) == {*map(str, Quality), DOUBTFUL, HELD}
    assert len({quality_words(quality) for quality in Quality}) == len(Quality)


def test_what_was_never_read_says_so(table: ReadingsTable) -> None:
    table.set_readings({}, NOW)
    assert set(cells(table, ReadingColumn.QUALITY)) == {"never read"}
    assert set(cells(table, ReadingColumn.REASON)) == {NEVER_READ.reason}
    assert table.summary.text() == "5 of 5 not good"


def test_the_summary_counts(table: ReadingsTable) -> None:
    assert table.summary.text() == "3 of 5 not good"
    good = Reading(raw=1, value=Fraction(1), quality=Quality.GOOD, reason="", time=NOW)
    table.set_readings(dict.fromkeys(READINGS, good), NOW)
    assert table.summary.text() == "all 5 good"


def test_numbers_sort_by_size_and_texts_after_them(table: ReadingsTable) -> None:
    head = table.view.horizontalHeader()
    place = QPoint(head.sectionViewportPosition(ReadingColumn.VALUE) + 10, 8)
    QTest.mouseClick(head.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert table.model.sort_column == ReadingColumn.VALUE
    assert cells(table, ReadingColumn.SIGNAL) == ["power", "mode", "speed", "level", "label"]


def test_a_sorted_table_keeps_sorted_while_values_move(table: ReadingsTable) -> None:
    table.view.sortByColumn(ReadingColumn.VALUE, Qt.SortOrder.AscendingOrder)
    moved = dict(READINGS, speed=Reading(raw=1, value=Fraction(-3), quality=Quality.GOOD, reason="", time=NOW))
    table.set_readings(moved, NOW)
    assert cells(table, ReadingColumn.SIGNAL)[0] == "speed"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("spe", ["speed"]),
        ("OLD", ["level"]),
        ("exception 02", ["label"]),
        ("running", ["mode"]),
        ("answer 5 s", ["level"]),
        ("nothing of that", []),
    ],
)
def test_the_filter_looks_at_names_values_qualities_and_reasons(
    table: ReadingsTable, text: str, found: list[str]
) -> None:
    QTest.keyClicks(table.filter, text)
    assert cells(table, ReadingColumn.SIGNAL) == found
    table.filter.clear()
    assert len(cells(table, ReadingColumn.SIGNAL)) == 5


def test_only_those_that_are_not_good_follows_the_readings(table: ReadingsTable) -> None:
    QTest.keyClick(table.not_good, Qt.Key.Key_Space)
    assert cells(table, ReadingColumn.SIGNAL) == ["level", "power", "label"]
    back = dict(READINGS, level=READINGS["speed"], mode=Reading(raw=1, value=Fraction(1), quality=Quality.STALE))
    table.set_readings(back, NOW)
    assert cells(table, ReadingColumn.SIGNAL) == ["mode", "power", "label"]


def test_only_what_changed_is_drawn_again(table: ReadingsTable, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[tuple[int, ReadingColumn]] = []
    cells = table.view.itemDelegate()
    assert isinstance(cells, QuickCells)
    draw = cells.draw

    def note(
        painter: QPainter, rect: QRect, metrics: QFontMetrics, row: int, column: int, *, selected: bool = False
    ) -> None:
        drawn.append((row, ReadingColumn(column)))
        draw(painter, rect, metrics, row, column, selected=selected)

    table.view.viewport().repaint()
    monkeypatch.setattr(cells, "draw", note)
    table.set_readings(READINGS, NOW + 0.2)
    QApplication.processEvents()
    assert drawn == []
    moved = dict(READINGS, speed=Reading(raw=501, value=Fraction(39), quality=Quality.GOOD, reason="", time=NOW))
    table.set_readings(moved, NOW + 0.2)
    qtbot.waitUntil(lambda: bool(drawn))
    assert set(drawn) == {(0, ReadingColumn.VALUE), (0, ReadingColumn.RAW)}


def test_of_many_signals_only_those_in_sight_are_worked_out(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    names = [f"signal {number}" for number in range(20_000)]
    many = project().replace(
        signals=tuple(RegisterSignal(name=name, follower="pump", number=at) for at, name in enumerate(names))
    )
    table = ReadingsTable()
    qtbot.addWidget(table)
    table.set_project(many)
    table.resize(900, 400)
    with qtbot.waitExposed(table):
        table.show()
    worked_out: list[str] = []

    def note(project: Project, name: str, value: Value | int | None) -> str:
        worked_out.append(name)
        return plain_text(project, name, value)

    monkeypatch.setattr("widgets.live.readings_model.plain_text", note)
    for count in range(3):
        value = Reading(raw=count, value=Fraction(count), quality=Quality.GOOD, reason="", time=NOW)
        table.set_readings(dict.fromkeys(names, value), NOW + count)
        QApplication.processEvents()
    assert 0 < len(set(worked_out)) < 60
    assert len(worked_out) == 3 * len(set(worked_out)), "each once for each reading"


def test_a_doubtful_value_is_shown_said_and_counted(table: ReadingsTable) -> None:
    doubtful = Reading(-1, Fraction(-22), Quality.GOOD, "", NOW, doubt="outside its limits")
    table.set_readings({**READINGS, "speed": doubtful}, NOW)
    assert cells(table, ReadingColumn.VALUE)[0] == "-22.0 Hz"
    assert cells(table, ReadingColumn.QUALITY)[0] == "doubtful"
    assert cells(table, ReadingColumn.REASON)[0] == "outside its limits"
    assert table.summary.text() == "4 of 5 not good"
    QTest.keyClick(table.not_good, Qt.Key.Key_Space)
    assert cells(table, ReadingColumn.SIGNAL)[0] == "speed"


def test_raw_numbers_in_decimal_hexadecimal_and_bits(table: ReadingsTable) -> None:
    fault = Reading(raw=36864, value=Fraction(36864), quality=Quality.GOOD, reason="", time=NOW)
    table.set_readings({**READINGS, "speed": fault}, NOW)
    seen = []
    for _ in range(3):
        seen.append(cells(table, ReadingColumn.RAW)[0])
        longest = max(cells(table, ReadingColumn.RAW), key=len)
        assert table.view.columnWidth(ReadingColumn.RAW) > table.view.fontMetrics().horizontalAdvance(longest), (
            "it is cut"
        )
        table.next_raw_form()
    assert seen == ["36864", "9000h", "1001 0000 0000 0000"]
    assert cells(table, ReadingColumn.RAW)[0] == "36864", "once more, and it is as at first"


def test_what_is_selected_stays_so_while_rows_come_and_go(table: ReadingsTable) -> None:
    QTest.keyClick(table.not_good, Qt.Key.Key_Space)
    table.view.selectRow(2)
    assert table.current_signal() == "label"
    table.set_readings({**READINGS, "level": READINGS["speed"]}, NOW)
    assert cells(table, ReadingColumn.SIGNAL) == ["power", "label"]
    assert table.current_signal() == "label"
    assert [index.row() for index in table.view.selectionModel().selectedRows()] == [1]


def test_an_age_grows_while_nothing_new_comes(table: ReadingsTable) -> None:
    table.set_readings(READINGS, NOW + 60)
    assert cells(table, ReadingColumn.AGE)[:2] == ["60 s", "65 s"]


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(None, "–"), (0.0, "< 1 s"), (1.9, "1 s"), (119.9, "119 s"), (120, "2 min"), (7199, "119 min"), (7200, "2 h")],
)
def test_ages_in_words(seconds: float | None, text: str) -> None:
    assert age_text(seconds) == text


def test_selected_rows_are_copied_as_text(table: ReadingsTable) -> None:
    table.view.setFocus()
    table.view.selectRow(1)
    QTest.keySequence(table.view, "Ctrl+C")
    assert QApplication.clipboard().text() == "level\t100 %\told\t100\t5 s\tno answer since 5 s"


def test_many_changes_are_drawn_a_moment_later_and_not_lost(table: ReadingsTable) -> None:
    def all_at(value: int) -> dict[str, Reading]:
        return dict.fromkeys(
            READINGS, Reading(raw=value, value=Fraction(value), quality=Quality.GOOD, reason="", time=NOW)
        )

    def shown() -> QImage:
        QApplication.processEvents()
        return table.screen().grabWindow(table.winId()).toImage()

    table.set_readings(all_at(1), NOW)
    first = shown()
    table.set_readings(all_at(2), NOW + 0.01)
    assert shown() == first
    table.set_readings(all_at(2), NOW + 0.3)
    assert shown() == table.grab().toImage() != first


def test_a_part_is_drawn_as_in_the_whole(table: ReadingsTable) -> None:
    table.view.selectRow(2)
    QApplication.processEvents()
    viewport = table.view.viewport()
    # Both cut through the texts of rows that lie in both.
    viewport.repaint(QRegion(100, 8, 90, 40).united(QRegion(60, 30, 400, 50)))
    assert table.screen().grabWindow(table.winId()).toImage() == table.grab().toImage()


def with_bits() -> Project:
    named = project()
    bit = BitSignal(name="ready", bit=Bit(of="mode", number=2))
    last = HeldSignal(name="recipe", held=Decimal(4))
    return named.replace(signals=(bit, *named.signals, last))


def test_bits_stand_under_their_word_in_the_order_of_the_project(table: ReadingsTable) -> None:
    table.set_project(with_bits())
    table.set_readings(READINGS, NOW)
    assert cells(table, ReadingColumn.SIGNAL) == ["speed", "level", "mode", "ready", "power", "label", "recipe"]
    assert must_have(table.model.trim(3, ReadingColumn.SIGNAL)).indent == 1
    assert table.model.trim(2, ReadingColumn.SIGNAL) is None
    table.view.sortByColumn(ReadingColumn.SIGNAL, Qt.SortOrder.AscendingOrder)
    assert all(table.model.trim(row, ReadingColumn.SIGNAL) is None for row in range(7)), "sorted, there is no under"


def test_a_panel_value_is_no_reading_and_never_not_good(table: ReadingsTable) -> None:
    table.set_project(with_bits())
    for quality in Quality:
        held = Reading(value=Fraction(4), quality=quality, reason="whatever", time=NOW - 900)
        table.set_readings({**READINGS, "recipe": held}, NOW)
        row = [str(table.model.index(6, column).data()) for column in ReadingColumn]
        assert row == ["recipe", "4", "panel value", "\u2013", "\u2013", ""]
        assert table.model.cell(6, ReadingColumn.QUALITY)[1] == "faint"
    assert table.summary.text() == "4 of 7 not good"


def test_before_anything_is_read_it_says_what_to_do_and_warns_of_nothing(table: ReadingsTable) -> None:
    assert table.view.isVisible()
    table.set_project(project())
    assert not table.view.isVisible()
    assert table.empty.isVisible()
    assert table.empty.title.text() == "Not connected yet"
    assert "5 signals" in table.empty.sentence.text()
    assert (table.summary.state, table.summary.text()) == ("unread", "5 signals")
    table.set_readings({}, NOW)
    assert table.view.isVisible()
    inks = {table.model.cell(row, column)[1] for row in range(5) for column in ReadingColumn}
    assert inks <= {"ink", "faint"}, "what was never read is no warning"


def test_old_values_stay_but_faint_and_their_age_stands_out(table: ReadingsTable) -> None:
    assert table.model.cell(1, ReadingColumn.VALUE) == ("100 %", "faint")
    assert table.model.cell(1, ReadingColumn.AGE) == ("5 s", "caution")
    assert table.model.cell(0, ReadingColumn.AGE) == ("< 1 s", "faint")


def test_what_is_wrong_with_a_whole_device_is_said_in_the_head(table: ReadingsTable) -> None:
    table.set_worst("pump does not answer")
    assert (table.summary.state, table.summary.text()) == ("alarm", "pump does not answer")
    table.set_worst("")
    assert (table.summary.state, table.summary.text()) == ("caution", "3 of 5 not good")


def test_a_value_that_was_written_stands_out_for_a_moment(table: ReadingsTable) -> None:
    table.view.viewport().repaint()
    table.set_written("speed", NOW)
    assert table.model.changes(0, 4) == [(0, column) for column in ReadingColumn if column != ReadingColumn.SIGNAL]
    assert must_have(table.model.trim(0, ReadingColumn.VALUE)).ground == "soft"
    table.set_readings(READINGS, NOW + 1.1)
    assert must_have(table.model.trim(0, ReadingColumn.VALUE)).ground == ""


def test_the_reason_has_a_column_where_there_is_room(table: ReadingsTable) -> None:
    table.resize(560, 400)
    assert table.view.isColumnHidden(ReadingColumn.REASON)
    header = table.view.horizontalHeader()
    assert header.length() == table.view.viewport().width(), "nothing is left over and nothing is cut off"
    table.resize(1000, 400)
    assert not table.view.isColumnHidden(ReadingColumn.REASON)


def test_raw_numbers_are_chosen_by_a_menu(table: ReadingsTable) -> None:
    menu = table.raw_button.menu()
    assert menu is not None
    chosen: list[object] = []
    table.raw_form_chosen.connect(chosen.append)
    menu.actions()[1].trigger()
    assert table.raw_button.text() == "Raw: hexadecimal"
    assert chosen == [RawForm.HEXADECIMAL]
    table.choose_raw_form(RawForm.BITS)
    assert menu.actions()[2].isChecked()


def test_no_value_of_a_project_is_cut(table: ReadingsTable) -> None:
    """Words are longer than numbers: "DC link undervoltage" had lost its end."""
    table.set_project(load(demo_path("booster-pump")))
    words = [*table.model.value_words(), "123456.7 kW"]
    font = QFont(table.view.font())
    font.setWeight(QFont.Weight.DemiBold)
    room = table.view.columnWidth(ReadingColumn.VALUE) - 2 * heading_margin()
    assert words
    assert max(map(QFontMetrics(font).horizontalAdvance, words)) <= room
