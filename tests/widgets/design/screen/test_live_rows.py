"""Live values in the fields of the screen under edit, from a project that runs on real sockets."""

from __future__ import annotations

from fractions import Fraction

import pytest
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app import edits
from app.panel.rendering import Attribute
from app.signals.reading import Quality, Reading
from tests.widgets.bench_project import bench_project
from tests.widgets.design.screen.driving import CTRL, SHIFT, Key, click
from widgets.design.screen.editor import ScreenEditor
from widgets.design.screen.live_rows import LiveReadings, live_rows
from widgets.document.document import Document, Selection
from widgets.face.sample_values import FieldContents
from widgets.live.live_session import LiveSession


@pytest.fixture
def document(qapp: object) -> Document:
    return Document(bench_project())


@pytest.fixture(autouse=True)
def _connectable(editor: ScreenEditor, live: LiveSession) -> None:
    editor.set_readings_source(LiveReadings(live, editor))


def place_of(document: Document, signal: str) -> tuple[str, int]:
    return next(
        (screen.name, index)
        for screen in document.project.screens
        for index, field in enumerate(screen.fields)
        if field.signal == signal
    )


def look_at(document: Document, signal: str) -> None:
    screen, index = place_of(document, signal)
    document.select(Selection(screen, document.project.screen_named[screen].fields[index].at, (index,)))


def text_in(editor: ScreenEditor, document: Document, signal: str) -> str:
    screen, index = place_of(document, signal)
    field = document.project.screen_named[screen].fields[index]
    return editor.face.rows[field.at[0]].text[field.at[1] : field.at[1] + field.width]


def test_unconnected_it_says_so_and_shows_dashes(editor: ScreenEditor, document: Document) -> None:
    look_at(document, "set point")
    QTest.keyClick(editor.face, Key.Key_F5, CTRL | SHIFT)
    assert editor.shown is FieldContents.LIVE
    assert set(text_in(editor, document, "set point")) == {"-"}
    assert editor.status.note.isVisible()
    assert "nothing is connected" in editor.status.note.text()
    QTest.keyClick(editor.face, Key.Key_F2, CTRL | SHIFT)
    assert not editor.status.note.isVisible()


def test_connected_it_shows_what_is_read(
    editor: ScreenEditor, document: Document, live: LiveSession, qtbot: QtBot
) -> None:
    look_at(document, "set point")
    editor.set_shown(FieldContents.LIVE)
    live.connect_to(document.project, "simulated")
    qtbot.waitUntil(lambda: text_in(editor, document, "set point").strip() == "20.0")
    assert not editor.status.note.isVisible()
    assert "reads 20.0 Hz" in editor.status.what.text()
    live.disconnect_from_line()
    assert set(text_in(editor, document, "set point")) == {"-"}
    assert editor.status.note.isVisible()


def test_a_signal_changed_since_then_shows_nothing_old(
    editor: ScreenEditor, document: Document, live: LiveSession, qtbot: QtBot
) -> None:
    look_at(document, "set point")
    editor.set_shown(FieldContents.LIVE)
    live.connect_to(document.project, "simulated")
    qtbot.waitUntil(lambda: text_in(editor, document, "set point").strip() == "20.0")
    document.do("Change", lambda project: edits.change_signal(project, "set point", number=311))
    assert set(text_in(editor, document, "set point")) == {"-"}
    assert "changed after connecting" in editor.status.what.text()
    document.undo()
    assert text_in(editor, document, "set point").strip() == "20.0"


def test_editing_goes_on_while_values_come(
    editor: ScreenEditor, document: Document, live: LiveSession, qtbot: QtBot
) -> None:
    look_at(document, "set point")
    editor.set_shown(FieldContents.LIVE)
    live.connect_to(document.project, "simulated")
    qtbot.waitUntil(lambda: text_in(editor, document, "set point").strip() == "20.0")
    row = document.project.panel.rows - 1
    click(editor, row, 0)
    column = next(c for c in range(20) if editor.face.rows[row].text[c] == " ")
    click(editor, row, column)
    done: list[object] = []
    live.happened.connect(done.append)
    QTest.keyClicks(editor.face, "z")
    assert editor.face.rows[row].text[column] == "z"
    with qtbot.waitSignals([live.frame, live.frame]):
        pass
    assert editor.face.rows[row].text[column] == "z"
    assert done == [], "no key of the editor reaches the panel that runs"


def test_stale_and_missing_values_look_like_on_the_panel() -> None:
    project = bench_project()
    screen = next(screen for screen in project.screens if any(field.signal == "set point" for field in screen.fields))
    field = next(field for field in screen.fields if field.signal == "set point")
    reading = Reading(4000, None, Quality.REFUSED, "exception 2", 1.0)
    row = live_rows(project, screen, {"set point": reading})[field.at[0]]
    assert set(row.text[field.at[1] : field.at[1] + field.width]) == {"-"}

    stale = Reading(4000, Fraction(20), Quality.STALE, "too old", 1.0)
    row = live_rows(project, screen, {"set point": stale})[field.at[0]]
    assert row.text[field.at[1] : field.at[1] + field.width].strip() == "20.0"
    assert row.attributes[field.at[1]] & Attribute.STALE
