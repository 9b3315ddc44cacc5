"""The Design workplace as a whole: a design made by keyboard and mouse, forms that check, findings that lead there."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st
from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QIcon
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QMenu, QPlainTextEdit, QWidget
from pytestqt.qtbot import QtBot

from app.checks import check
from app.project.model import BitSignal, Field, Project, RegisterSignal, TcpLine
from app.project_file.files import dump, load, parse
from projects import demo_path
from tests.builders import fresh_project
from tests.widgets.design import sentences
from tests.widgets.driving import designed
from widgets.design.findings_model import FindingKind, severity_icon
from widgets.design.forms.form import Form, FormRow
from widgets.design.forms.signal_picker import SignalPicker
from widgets.design.tables.part_table import PartTable
from widgets.design.views import VIEWS
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document, Selection
from widgets.kit import palette
from widgets.kit.commands import why_off
from widgets.kit.focus import next_stop
from widgets.kit.palette import contrast

Key = Qt.Key
NO = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
W = TypeVar("W")


@pytest.fixture
def empty(qapp: object, qtbot: QtBot) -> DesignWorkspace:
    return designed(Document(fresh_project()), qtbot)


def must(widget: W | None) -> W:
    assert widget is not None
    return widget


def row_of(form: Form, label: str) -> FormRow:
    return next(row for row in form.rows if row.label == label and not row.isHidden())


def editor_of(form: Form, label: str, number: int = 0) -> QWidget:
    return row_of(form, label).editors()[number]


def type_over(form: Form, label: str, text: str, number: int = 0) -> None:
    editor = editor_of(form, label, number)
    editor.setFocus()
    QTest.keyClick(editor, Key.Key_A, CTRL)
    if text:
        QTest.keyClicks(editor, text)
    else:
        QTest.keyClick(editor, Key.Key_Delete)


def choose(form: Form, label: str, text: str, number: int = 0) -> None:
    """Choose by the keyboard: open the list, go to the entry, Enter."""
    box = editor_of(form, label, number)
    assert isinstance(box, QComboBox)
    box.setFocus()
    wanted = box.findText(text)
    assert wanted >= 0, [box.itemText(n) for n in range(box.count())]
    QTest.keyClick(box, Key.Key_Home)
    for _ in range(wanted):
        QTest.keyClick(box, Key.Key_Down)


def reason(form: Form, label: str) -> str:
    row = row_of(form, label)
    return row.message.text() if not row.message.isHidden() else ""


def add(table: PartTable, entry: int | None = None) -> None:
    """Add a part by the keyboard; `entry` counts in the menu where there is one."""
    table.table.setFocus()
    if entry is None:
        QTest.keyClick(table.table, Key.Key_Insert)
        return
    menu = table.add_button.menu()
    assert isinstance(menu, QMenu)
    menu.popup(QPoint(0, 0))
    for _ in range(entry + 1):
        QTest.keyClick(menu, Key.Key_Down)
    QTest.keyClick(menu, Key.Key_Return)


def signals(project: Project) -> dict[str, RegisterSignal]:
    return {signal.name: signal for signal in project.signals if isinstance(signal, RegisterSignal)}


# A whole design


def test_a_whole_design_from_nothing_and_back(empty: DesignWorkspace, qtbot: QtBot) -> None:
    """Panel, line, follower, signals, screens, fields, screen change, action, all in the window; then undone."""
    design, document = empty, empty.document
    first = document.project
    panel = design.inspector.panel_form
    design.show_view("panel")
    type_over(panel, "Rows", "2")
    type_over(panel, "Columns", "16")
    type_over(panel, "Keys", "left, right, enter, start")
    type_over(panel, "Title", "Two lines")
    assert (document.project.panel.rows, document.project.panel.columns) == (2, 16)
    assert document.project.panel.keys == ("left", "right", "enter", "start")

    design.show_view("lines")
    add(design.lines.lines, 1)
    line = design.inspector.line_form
    type_over(line, "Name", "hall")
    type_over(line, "Host", "10.0.0.7")
    type_over(line, "TCP port", "1502")
    found = document.project.lines[0]
    assert isinstance(found, TcpLine)
    assert (found.name, found.host, found.port) == ("hall", "10.0.0.7", 1502)
    add(design.lines.followers)
    follower = design.inspector.follower_form
    type_over(follower, "Name", "fan")
    type_over(follower, "Unit address", "12")
    choose(follower, "Numbering", "from 1")
    assert (document.project.followers[0].unit, document.project.followers[0].numbering) == (12, "from-1")

    design.show_view("signals")
    add(design.signals.table, 0)
    form = design.inspector.signal_form
    type_over(form, "Name", "speed")
    type_over(form, "Register", "311")
    choose(form, "Data type", "int16")
    for label, raw, value in (("Scale, from", "0", "0"), ("Scale, to", "10000", "50")):
        type_over(form, label, raw, 0)
        type_over(form, label, value, 1)
    type_over(form, "Unit", "Hz")
    type_over(form, "Decimals", "1")
    type_over(form, "Limits", "0", 0)
    type_over(form, "Limits", "50", 1)
    editor_of(form, "Writing").setFocus()
    QTest.keyClick(editor_of(form, "Writing"), Key.Key_Space)
    speed = signals(document.project)["speed"]
    assert speed.scale is not None
    assert [*map(int, speed.scale.raw), *map(int, speed.scale.value)] == [0, 10000, 0, 50]
    assert (speed.number, speed.encoding, speed.unit, speed.decimals, speed.write) == (311, "int16", "Hz", 1, True)
    assert row_of(form, "Address (from 0)").texts() == ("310",)
    add(design.signals.table, 1)
    type_over(form, "Name", "fast")
    type_over(form, "Bit", "3")
    editor_of(form, "Texts").setFocus()
    QTest.keyClicks(editor_of(form, "Texts"), "0 = slow")
    QTest.keyClick(editor_of(form, "Texts"), Key.Key_Return)
    QTest.keyClicks(editor_of(form, "Texts"), "1 = fast")
    fast = document.project.signal_named["fast"]
    assert isinstance(fast, BitSignal)
    assert (fast.bit.of, fast.bit.number, fast.texts) == ("speed", 3, {"0": "slow", "1": "fast"})

    design.show_view("screen")
    face = design.editor.face
    QTest.keyClicks(face, "Speed")
    QTest.keyClick(face, Key.Key_Right)
    QTest.keyClick(face, Key.Key_Return, CTRL)
    picker = next(widget for widget in QApplication.topLevelWidgets() if widget.objectName() == "signal picker")
    search = picker.findChild(QLineEdit)
    assert isinstance(search, QLineEdit)
    QTest.keyClicks(search, "speed int16")
    QTest.keyClick(search, Key.Key_Return)
    placed = document.project.screens[0].fields[0]
    assert (placed.signal, placed.at, placed.width) == ("speed", (0, 6), 6)
    design.inspector.choose_form(design.inspector.field_form)
    entry = editor_of(design.inspector.field_form, "Entry")
    entry.setFocus()
    QTest.keyClick(entry, Key.Key_Space)
    assert document.project.screens[0].fields[0].entry

    screens = design.screens.list.list
    screens.setFocus()
    QTest.keyClick(screens, Key.Key_Insert)
    name = screens.findChild(QLineEdit)
    assert isinstance(name, QLineEdit)
    QTest.keyClick(name, Key.Key_A, CTRL)
    QTest.keyClicks(name, "second")
    QTest.keyClick(name, Key.Key_Return)
    qtbot.waitUntil(lambda: [screen.name for screen in document.project.screens] == ["first", "second"])

    design.show_view("behaviour")
    design.behaviour.add_screen_change("key")
    sentences.choose(design, "key", "right")
    sentences.choose(design, "from", "first")
    sentences.choose(design, "to", "second")
    assert document.project.screen_changes[0].model_dump(exclude_none=True) == {
        "from_": "first",
        "key": "right",
        "to": "second",
    }
    design.behaviour.add_action("key")
    sentences.choose(design, "key", "start")
    sentences.choose(design, "do", "writes")
    sentences.choose(design, "target", "speed")
    sentences.type_word(design, "number", "12.5")
    assert str(document.project.actions[0].value) == "12.5"
    sentences.choose(design, "stops", "repeated until confirmed")
    assert document.project.actions[0].stops is True
    sentences.choose(design, "do", "clears")
    assert document.project.actions[0].stops is None
    sentences.choose(design, "stops", "sent once")
    assert document.project.actions[0].stops is False

    whole = document.project
    assert parse(dump(whole)) == whole
    while document.undo_name is not None:
        document.undo()
    assert document.project is first
    while document.redo_name is not None:
        document.redo()
    assert document.project is whole


# Forms


def test_what_is_wrong_is_said_beside_the_row_and_not_taken_over(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    design.navigator.show_signal("speed set point")
    form = design.inspector.signal_form
    type_over(form, "Register", "31o")
    assert reason(form, "Register") == "'31o' is not a whole number"
    assert document.project == before, "not even the 31 that stood there on the way"
    type_over(form, "Limits", "80", 0)
    assert "80" in reason(form, "Limits")
    assert document.project == before


def test_what_is_wrong_is_kept_until_it_is_right(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_signal("speed set point")
    form = design.inspector.signal_form
    type_over(form, "Register", "31o")
    design.navigator.show_signal("command")
    assert reason(form, "Register") == ""
    assert "1 pending" in design.findings.summary.text()
    design.navigator.show_signal("speed set point")
    assert row_of(form, "Register").texts() == ("31o",)
    assert reason(form, "Register")
    editor = editor_of(form, "Register")
    editor.setFocus()
    QTest.keyClick(editor, Key.Key_End)
    QTest.keyClick(editor, Key.Key_Backspace)
    QTest.keyClicks(editor, "5")
    assert reason(form, "Register") == ""
    assert signals(document.project)["speed set point"].number == 315
    assert "pending" not in design.findings.summary.text()


def test_a_draft_in_the_findings_leads_to_its_row(design: DesignWorkspace) -> None:
    design.navigator.show_signal("speed set point")
    type_over(design.inspector.signal_form, "Step", "fast")
    design.show_view("map")
    first = design.findings.model.index(0, 1)
    assert "speed set point" in first.data()
    tree = design.findings.tree
    QTest.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, NO, tree.visualRect(first).center())
    assert design.view == "signals"
    assert editor_of(design.inspector.signal_form, "Step").hasFocus()


def test_undo_in_a_row_drops_what_is_wrong_and_then_undoes_the_document(
    design: DesignWorkspace, document: Document
) -> None:
    design.navigator.show_signal("speed set point")
    form = design.inspector.signal_form
    type_over(form, "Step", "fast")
    QTest.keyClick(editor_of(form, "Step"), Key.Key_Z, CTRL)
    assert reason(form, "Step") == ""
    assert row_of(form, "Step").texts() == (str(signals(document.project)["speed set point"].step),)


def test_half_typed_numbers_stay_as_they_are_typed(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_signal("speed set point")
    form = design.inspector.signal_form
    type_over(form, "Step", "5.")
    assert row_of(form, "Step").texts() == ("5.",)
    QTest.keyClicks(editor_of(form, "Step"), "50")
    assert row_of(form, "Step").texts() == ("5.50",)
    type_over(form, "Step", "2,5")
    assert str(signals(document.project)["speed set point"].step) == "2.5", "a comma is taken for the point"


def test_one_point_of_a_scale_waits_for_the_other(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_signal("fault code")
    form = design.inspector.signal_form
    type_over(form, "Scale, from", "0", 0)
    assert reason(form, "Scale, from")
    type_over(form, "Scale, from", "0", 1)
    type_over(form, "Scale, to", "10", 0)
    assert signals(document.project)["fault code"].scale is None
    type_over(form, "Scale, to", "1", 1)
    assert signals(document.project)["fault code"].scale is not None
    assert reason(form, "Scale, from") == reason(form, "Scale, to") == ""
    assert design.drafts.all() == ()


def test_renaming_a_signal_changes_every_use_in_one_step(design: DesignWorkspace, document: Document) -> None:
    before = document.project
    design.navigator.show_signal("speed set point")
    type_over(design.inspector.signal_form, "Name", "reference")
    used = {field.signal for screen in document.project.screens for field in screen.fields}
    assert "reference" in used
    assert "speed set point" not in used
    assert not check_errors(document.project)
    document.undo()
    assert document.project == before


def check_errors(project: Project) -> list[str]:
    return [str(finding) for finding in check(project) if finding.severity == "error"]


def test_a_name_that_is_taken_is_refused_and_the_old_one_stays(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_signal("speed set point")
    form = design.inspector.signal_form
    type_over(form, "Name", "command")
    assert "'command'" in reason(form, "Name")
    assert "speed set point" in document.project.signal_named


def test_a_key_is_renamed_where_it_is_listed(design: DesignWorkspace, document: Document) -> None:
    form = design.inspector.panel_form
    design.show_view("panel")
    keys = [("go" if key == "start" else key) for key in document.project.panel.keys]
    type_over(form, "Keys", ", ".join(keys))
    assert "go" in document.project.panel.keys
    assert "go" in {action.key for action in document.project.actions}


def test_a_panel_too_small_for_its_screens_is_refused_in_words(design: DesignWorkspace, document: Document) -> None:
    form = design.inspector.panel_form
    design.show_view("panel")
    type_over(form, "Rows", "2")
    assert "not enough for screen" in reason(form, "Rows")
    assert document.project.panel.rows == 4


def test_a_field_is_edited_in_its_form(design: DesignWorkspace, document: Document) -> None:
    document.select(Selection("run", (2, 10), (2,)))
    form = design.inspector.field_form
    assert design.inspector.current_form() is form, "selecting a field shows its properties"
    type_over(form, "Row, column", "30", 1)
    assert reason(form, "Row, column")
    type_over(form, "Row, column", "8", 1)
    assert document.project.screen_named["run"].fields[2].at == (2, 7)
    choose(form, "Blinks when", "fault", 0)
    blink = document.project.screen_named["run"].fields[2].blink
    assert blink is not None
    assert (blink.signal, blink.is_) == ("fault", "set")
    choose(form, "Blinks when", "(never)", 0)
    assert document.project.screen_named["run"].fields[2].blink is None


def test_the_cause_of_a_screen_change_is_changed(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_screen_change(0)
    before = document.project
    sentences.choose(design, "cause", "after time without a key")
    assert document.project is before, "no time that nobody chose"
    sentences.type_word(design, "idle", "45")
    assert document.project.screen_changes[0].idle_s == 45
    sentences.choose(design, "cause", "by a condition")
    assert document.project.screen_changes[0].idle_s == 45, "as it was, until a signal is chosen"
    sentences.choose(design, "signal", "status")
    sentences.choose(design, "is", "is set")
    screen_change = document.project.screen_changes[0]
    assert screen_change.when is not None
    assert screen_change.from_ is None
    sentences.choose(design, "is", "is above")
    assert sentences.note(design).endswith("the value to compare with")
    sentences.type_word(design, "value", "3")
    screen_change = document.project.screen_changes[0]
    assert screen_change.when is not None
    assert (screen_change.when.is_, str(screen_change.when.value)) == ("above", "3")


# Lists and tables


def test_screens_are_reordered_duplicated_and_deleted_by_keys(design: DesignWorkspace, document: Document) -> None:
    view = design.screens.list.list
    view.setFocus()
    names = [screen.name for screen in document.project.screens]
    QTest.keyClick(view, Key.Key_Down, ALT)
    assert [screen.name for screen in document.project.screens] == [names[1], names[0], *names[2:]]
    assert design.screens.list.current() == names[0]
    QTest.keyClick(view, Key.Key_D, CTRL)
    copy = document.project.screens[2]
    assert copy.fields == document.project.screens[1].fields
    assert document.selection.screen == copy.name
    QTest.keyClick(view, Key.Key_Delete)
    assert len(document.project.screens) == len(names)


def test_a_screen_that_turns_lead_to_is_deleted_only_with_them(design: DesignWorkspace, document: Document) -> None:
    document.select_screen("measured")
    view = design.screens.list.list
    view.setFocus()
    QTest.keyClick(view, Key.Key_Delete)
    assert "measured" in document.project.screen_named
    assert design.notice.isVisible()
    assert "go to it" in design.notice.text.text()
    QTest.mouseClick(design.notice.button, Qt.MouseButton.LeftButton)
    assert "measured" not in document.project.screen_named
    assert all(
        "measured" not in (screen_change.from_, screen_change.to) for screen_change in document.project.screen_changes
    )
    document.undo()
    assert "measured" in document.project.screen_named


def test_the_start_screen_is_not_deleted(design: DesignWorkspace, document: Document) -> None:
    view = design.screens.list.list
    view.setFocus()
    QTest.keyClick(view, Key.Key_Delete)
    assert "it is the start screen" in design.notice.text.text()
    assert not design.notice.button.isVisible()
    assert "run" in document.project.screen_named


def test_a_used_signal_is_not_deleted_and_an_unused_one_is(design: DesignWorkspace, document: Document) -> None:
    design.show_view("signals")
    table = design.signals.table
    names = [signal.name for signal in document.project.signals]
    table.select(names.index("speed set point"))
    QTest.keyClick(table.table, Key.Key_Delete)
    assert "is used by" in design.notice.text.text()
    QTest.keyClick(table.table, Key.Key_D, CTRL)
    assert len(document.project.signals) == len(names) + 1
    assert table.current() == names.index("speed set point") + 1
    QTest.keyClick(table.table, Key.Key_Delete)
    assert [signal.name for signal in document.project.signals] == names


def test_the_list_of_signals_is_narrowed(design: DesignWorkspace, document: Document) -> None:
    design.show_view("signals")
    table = design.signals.table
    QTest.keyClicks(table.narrow, "input 40")
    shown = table.table.model().rowCount()
    assert 0 < shown < len(document.project.signals)
    design.navigator.show_signal("command")
    assert table.narrow.text() == "", "going to a signal that is hidden shows it"
    assert document.project.signals[table.current()].name == "command"


# Findings


def test_a_finding_is_shown_marked_and_leads_to_its_place(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    index = len(document.project.screen_named["times"].fields)
    bad = Field(at=(0, 0), width=2, signal="speed set point")
    document.do("Spoil", lambda project: with_field(project, "times", bad))
    design.show_view("lines")
    screens = [screen.name for screen in document.project.screens]
    place = ("screen", screens.index("times"), "field", index)
    qtbot.waitUntil(lambda: any(finding.place[:4] == place for finding in design.findings.findings))
    tree = design.findings.tree
    rows = design.findings.model.rows
    at = next(number for number, row in enumerate(rows) if f"'times', field {index + 1}" in row.where)
    tree.setFocus()
    QTest.keyClick(tree, Key.Key_Home)
    for _ in range(at):
        QTest.keyClick(tree, Key.Key_Down)
    QTest.keyClick(tree, Key.Key_Return)
    assert design.view == "screen"
    assert document.selection.screen == "times"
    assert document.selection.fields == (index,)
    assert design.editor.face.grid.outlines[index].wrong
    assert design.findings.filters["error"].text() != "Errors: 0"


def with_field(project: Project, name: str, field: Field) -> Project:
    screens = tuple(
        screen.replace(fields=(*screen.fields, field)) if screen.name == name else screen for screen in project.screens
    )
    return project.replace(screens=screens)


@pytest.mark.parametrize(
    ("place", "view"),
    [
        ((), "panel"),
        (("panel", "keys"), "panel"),
        (("screen", 1, "text", 2), "screen"),
        (("screen", 1, "field", 0, "signal"), "screen"),
        (("signal", 3), "signals"),
        (("screen_change", 1), "behaviour"),
        (("action", 1), "behaviour"),
        (("line", 0), "lines"),
        (("follower", 0), "lines"),
        (("screen", 999), "panel"),
        (("signal", 999), "panel"),
    ],
)
def test_every_kind_of_place_is_gone_to(
    design: DesignWorkspace, document: Document, place: tuple[str | int, ...], view: str
) -> None:
    design.show_view("map")
    design.navigator.go_to(place)
    assert design.view == view


# The map


def test_the_map_shows_screens_and_turns_and_opens_a_screen(design: DesignWorkspace, document: Document) -> None:
    design.show_view("map")
    assert set(design.map.nodes) == set(document.project.screen_named)
    labels = {(edge.arrow.from_, edge.arrow.to): edge.label for edge in design.map.edges}
    assert labels["run", "measured"] == "RIGHT"
    assert [(inlet.inlet.to, inlet.label) for inlet in design.map.inlets if "fault" in inlet.label] == [
        ("fault", "when fault \N{NOT EQUAL TO} 0")
    ]
    design.map.setFocus()
    QTest.keyClick(design.map, Key.Key_Right)
    assert document.selection.screen == "measured"
    QTest.keyClick(design.map, Key.Key_Return)
    assert design.view == "screen"


def test_a_double_click_on_the_map_opens_a_screen(design: DesignWorkspace, document: Document) -> None:
    design.show_view("map")
    node = design.map.nodes["times"]
    point = design.map.mapFromScene(node.sceneBoundingRect().center())
    QTest.mouseDClick(design.map.viewport(), Qt.MouseButton.LeftButton, NO, point)
    assert design.view == "screen"
    assert document.selection.screen == "times"


def test_a_screen_that_nothing_leads_to_stands_out(design: DesignWorkspace, document: Document) -> None:
    design.screens.add()
    design.show_view("map")
    facts = design.map.nodes[document.project.screens[1].name].facts
    assert facts.caution
    assert "unreachable" in facts.words


# The whole


def test_another_project_forgets_what_was_typed(design: DesignWorkspace, document: Document) -> None:
    design.navigator.show_signal("speed set point")
    type_over(design.inspector.signal_form, "Step", "fast")
    document.open(load(demo_path("drying-hall")), None)
    assert design.drafts.all() == ()
    design.checks.finish()
    assert "pending" not in design.findings.summary.text()


@pytest.mark.parametrize("view", VIEWS)
def test_a_click_on_a_tab_gives_the_view_the_focus(design: DesignWorkspace, view: str) -> None:
    design.navigator.to_properties()
    assert design.inspector.isAncestorOf(must(QApplication.focusWidget()))
    other = "signals" if view != "signals" else "lines"
    design.show_view(other)
    design.navigator.to_properties()
    bar = design.views.tabs
    QTest.mouseClick(bar, Qt.MouseButton.LeftButton, pos=bar.tabRect(VIEWS.index(view)).center())
    assert design.view == view
    assert must(design.views.currentWidget()).isAncestorOf(must(QApplication.focusWidget()))
    assert design.findings.current() is None, "the focus went through the findings"


@pytest.mark.parametrize(("view", "tables"), [("signals", 1), ("lines", 2)])
def test_what_is_added_is_ready_to_be_filled_in(design: DesignWorkspace, view: str, tables: int) -> None:
    design.show_view(view)
    found = must(design.views.currentWidget()).findChildren(PartTable)
    assert len(found) == tables
    for table in found:
        count = len(table.model.parts)
        add(table, 0 if table.add_button.menu() is not None else None)
        assert len(table.model.parts) == count + 1
        focus = must(QApplication.focusWidget())
        form = must(design.inspector.current_form())
        assert focus is next(row.editors()[0] for row in form.rows if row.editors())
        if isinstance(focus, QLineEdit):
            assert focus.selectedText() == focus.text(), "the first character typed replaces the name"


def test_the_name_of_what_is_added_one_after_the_other_by_the_mouse_is_typed_over(
    design: DesignWorkspace, document: Document
) -> None:
    design.show_view("lines")
    for name in ("agitator", "mixer"):
        QTest.mouseClick(design.lines.followers.add_button, Qt.MouseButton.LeftButton)
        QTest.keyClicks(must(QApplication.focusWidget()), name)
        assert document.project.followers[-1].name == name


def test_a_register_signal_without_a_follower_leads_to_the_followers(empty: DesignWorkspace) -> None:
    empty.show_view("signals")
    add(empty.signals.table, 0)
    assert empty.notice.isVisible()
    assert empty.notice.button.text() == "Lines and devices"
    QTest.mouseClick(empty.notice.button, Qt.MouseButton.LeftButton)
    assert empty.view == "lines"
    assert not empty.notice.isVisible()


def test_words_of_a_box_use_as_many_lines_as_they_need_and_count_for_it(
    design: DesignWorkspace, document: Document
) -> None:
    design.show_view("lines")
    design.lines.select("follower", 0)
    design.navigator.show_properties()
    form = design.inspector.follower_form
    QApplication.processEvents()
    area = must(form.parentWidget())
    assert form.width() <= area.width(), "the form is cut off at the right"
    row = row_of(form, "Gaps")
    words = must(row.findChild(QLabel))
    before = document.project.followers[0].gaps
    QTest.mouseClick(words, Qt.MouseButton.LeftButton)
    assert document.project.followers[0].gaps is not before
    assert must(QApplication.focusWidget()) is row.editors()[0]


def test_a_finding_in_a_selected_row_keeps_its_shape() -> None:
    kinds: tuple[FindingKind, ...] = ("error", "warning", "note", "draft")
    for severity in kinds:
        chosen = severity_icon(severity).pixmap(QSize(16, 16), QIcon.Mode.Selected).toImage()
        drawn = [chosen.pixelColor(x, y) for x in range(chosen.width()) for y in range(chosen.height())]
        soft = palette.current().soft
        assert max(contrast(each.name(), soft) for each in drawn if each.alpha() == 255) >= 4.5, severity


def test_nothing_looks_out_from_behind_a_name_that_is_typed(design: DesignWorkspace) -> None:
    screens = design.screens.list.list
    screens.setFocus()
    QTest.keyClick(screens, Key.Key_F2)
    editor = must(QApplication.focusWidget())
    assert isinstance(editor, QLineEdit)
    row = screens.visualRect(screens.currentIndex())
    image = screens.viewport().grab(row).toImage()
    place = editor.geometry().translated(-row.topLeft())
    right = [image.pixelColor(x, y).name() for x in range(place.left() + 4, row.width() - 4) for y in (3, 4, 5, 6, 7)]
    assert len(set(right)) == 1, "the name is drawn behind the editor"
    QTest.keyClick(editor, Key.Key_Escape)
    QApplication.processEvents()
    image = screens.viewport().grab(row).toImage()
    again = {
        image.pixelColor(x, y).name() for x in range(place.left() + 4, row.width() - 4) for y in range(row.height())
    }
    assert len(again) > 1, "the name is back"


def test_everything_can_be_reached_by_tab_and_has_a_name(design: DesignWorkspace) -> None:
    for view in VIEWS:
        design.show_view(view)
        seen: set[int] = set()
        while (widget := QApplication.focusWidget()) is not None and id(widget) not in seen:
            seen.add(id(widget))
            named = widget.accessibleName() or getattr(widget, "text", str)()
            assert named, f"{type(widget).__name__} in view {view} has no name to be read aloud"
            backwards = isinstance(widget, QPlainTextEdit)
            assert not backwards or widget.tabChangesFocus()  # type: ignore[attr-defined]
            assert next_stop(design, forward=True), "as the window does it"
        assert len(seen) > 8, f"Tab comes round after {len(seen)} stops in view {view}"


@pytest.mark.parametrize("view", VIEWS)
def test_no_button_or_caption_is_cut_off(design: DesignWorkspace, view: str) -> None:
    design.show_view(view)
    QApplication.processEvents()
    for button in design.findChildren(QWidget):
        inside = isinstance(button.parentWidget(), QLineEdit)  # an icon that Qt itself fits in
        if button.isVisible() and not inside and type(button).__name__ in ("QPushButton", "QToolButton", "QCheckBox"):
            assert button.width() >= button.minimumSizeHint().width(), button.accessibleName()
    form = design.inspector.current_form()
    for row in form.rows if form is not None else ():
        if row.caption.isVisible():
            needed = row.caption.fontMetrics().boundingRect(
                QRect(0, 0, row.caption.width(), 1000), Qt.TextFlag.TextWordWrap, row.label
            )
            assert needed.width() <= row.caption.width(), row.label


KEYS: list[Callable[[QWidget], None]] = [
    lambda face: QTest.keyClicks(face, "ab "),
    lambda face: QTest.keyClick(face, Key.Key_Right),
    lambda face: QTest.keyClick(face, Key.Key_Down),
    lambda face: QTest.keyClick(face, Key.Key_Left, CTRL),
    lambda face: QTest.keyClick(face, Key.Key_Right, CTRL),
    lambda face: QTest.keyClick(face, Key.Key_Left, ALT),
    lambda face: QTest.keyClick(face, Key.Key_Down, ALT),
    lambda face: QTest.keyClick(face, Key.Key_Right, ALT | SHIFT),
    lambda face: QTest.keyClick(face, Key.Key_Left, ALT | SHIFT),
    lambda face: QTest.keyClick(face, Key.Key_Delete),
    lambda face: QTest.keyClick(face, Key.Key_Backspace),
    lambda face: QTest.keyClick(face, Key.Key_Insert),
    lambda face: QTest.keyClick(face, Key.Key_D, CTRL),
    lambda face: QTest.keyClick(face, Key.Key_Down, SHIFT),
    lambda face: QTest.keyClick(face, Key.Key_Right, SHIFT),
    lambda face: QTest.keyClick(face, Key.Key_Escape),
    lambda face: QTest.keyClick(face, Key.Key_PageDown),
    lambda face: QTest.keyClick(face, Key.Key_C, CTRL),
    lambda face: QTest.keyClick(face, Key.Key_V, CTRL),
    lambda face: QTest.keyClick(face, Key.Key_X, CTRL),
]


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.sampled_from(range(len(KEYS))), max_size=40))
def test_any_keys_undone_give_the_first_project_back(design: DesignWorkspace, keys: list[int]) -> None:
    document = design.document
    first = load(demo_path("booster-pump"))
    document.open(first, None)
    design.show_view("screen")
    for key in keys:
        KEYS[key](design.editor.face)
        assert parse(dump(document.project)) == document.project
    last = document.project
    while document.undo_name is not None:
        document.undo()
    assert document.project is first
    while document.redo_name is not None:
        document.redo()
    assert document.project is last


def test_the_search_opens_from_the_list_of_screens(design: DesignWorkspace, qtbot: QtBot) -> None:
    design.screens.list.list.setFocus()
    qtbot.waitUntil(design.screens.list.list.hasFocus)
    QTest.keyClick(design.screens.list.list, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    assert design.editor.find_bar.sought.hasFocus()
    QTest.keyClick(design.editor.find_bar.sought, Qt.Key.Key_Escape)
    qtbot.waitUntil(design.editor.face.hasFocus)


def test_a_command_of_the_face_brings_the_screen_to_the_front(design: DesignWorkspace) -> None:
    design.show_view("signals")
    design.editor.actions_of.find.trigger()
    assert design.view == "screen"
    assert design.editor.find_bar.isVisible()


def test_while_the_panel_is_tried_its_screen_is_not_edited(design: DesignWorkspace) -> None:
    design.try_it()
    assert design.editor.tryout.running
    actions = [*design.editor.actions_of.transfer, design.editor.actions_of.find]
    assert not any(action.isEnabled() for action in actions)
    assert why_off(actions[0]) == "the panel is being tried out"
    before = design.document.project
    screen = before.screens[0]
    design.document.select(Selection(screen.name, screen.fields[0].at, (0,)))
    QTest.keyClick(design.editor.tryout, Qt.Key.Key_Delete, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(design.editor.tryout, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert design.document.project is before
    assert design.editor.findChild(SignalPicker) is None
    design.try_it()
    assert all(action.isEnabled() for action in actions)
