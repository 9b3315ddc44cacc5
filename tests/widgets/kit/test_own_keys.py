"""Every key of the tables of keys, pressed in a real widget: it does what the sheet of keys says.

Each table has a check for each of its deeds here, and none for anything else; every key of a deed is pressed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app import edits
from app.panel.paging import PagingGraph
from app.project.model import Project, Screen
from app.project_file.files import load
from projects import demo_path
from widgets.design.page_map.items import PageMap
from widgets.design.tables.cell_editor import CellEditor
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document, Selection
from widgets.kit.own_keys import (
    OwnKeys,
    cell_keys,
    face_keys,
    map_keys,
    screens_keys,
    strip_keys,
    table_keys,
    tray_keys,
)
from widgets.live.activity_strip import ActivityStrip, StripMark

Check = Callable[[Callable[[], None]], object]
"""Sets things up, presses the key by what it is given, and gives whether that did what it should."""


@dataclass
class Checks:
    """The checks of one table, by deed."""

    keys: OwnKeys
    focus: Callable[[], QWidget | None]
    checks: dict[str, Check] = field(default_factory=dict)

    def run(self) -> None:
        deeds = {deed: keys for row in self.keys.rows for deed, keys in row.deeds.items()}
        assert set(deeds) == set(self.checks)
        failed = [
            f"{deed}: {key}"
            for deed, keys in deeds.items()
            for key in keys.split(" .. ")
            if not self.checks[deed](lambda key=key: self._press(key))  # type: ignore[misc]
        ]
        assert failed == []

    def _press(self, key: str) -> None:
        combination = QKeySequence(key)[0]  # type: ignore[index]
        widget = self.focus()
        assert widget is not None
        QTest.keyClick(widget, combination.key(), combination.keyboardModifiers())


def test_of_the_face(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    editor = design.editor
    before = document.project
    editor.face.setFocus()

    def moves(start: tuple[int, int], end: tuple[int, int]) -> Check:
        def check(press: Callable[[], None]) -> object:
            editor.commands.go(*start)
            press()
            return document.selection.cell == end

        return check

    def stretches(*block: int) -> Check:
        def check(press: Callable[[], None]) -> object:
            editor.commands.go(1, 5)
            press()
            return document.selection.block == QRect(*block)

        return check

    def changes(start: tuple[int, int], changed: Callable[[], object]) -> Check:
        def check(press: Callable[[], None]) -> object:
            editor.commands.go(*start)
            press()
            done = changed()
            document.undo()
            return done and document.project is before

        return check

    def shows(first: str, then: str) -> Check:
        def check(press: Callable[[], None]) -> object:
            document.select_screen(first)
            press()
            shown = document.selection.screen == then
            document.select_screen("run")
            return shown

        return check

    def enter(press: Callable[[], None]) -> object:
        editor.commands.go(1, 11)
        press()
        form = design.inspector.field_form
        focused = QApplication.focusWidget()
        opened = design.inspector.current_form() is form and focused is not None and form.isAncestorOf(focused)
        editor.face.setFocus()
        return opened and moves((1, 5), (2, 0))(press)

    def tries(press: Callable[[], None]) -> object:
        editor.commands.go(1, 11)
        press()
        tried = editor.tryout.running
        design.try_it()
        return tried and not editor.tryout.running

    def escapes(press: Callable[[], None]) -> object:
        editor.commands.select_all()
        press()
        return document.selection.block is None

    def places(press: Callable[[], None]) -> object:
        editor.commands.go(0, 13)
        press()
        pickers = [each for each in QApplication.topLevelWidgets() if each.objectName() == "signal picker"]
        shown = any(each.isVisible() for each in pickers)
        for each in pickers:
            each.close()
        return shown

    def row(number: int) -> str:
        text = document.project.screen_named["run"].text
        return text[number] if number < len(text) else ""

    Checks(
        face_keys(),
        lambda: editor.face,
        {
            "left": moves((1, 5), (1, 4)),
            "right": moves((1, 5), (1, 6)),
            "up": moves((1, 5), (0, 5)),
            "down": moves((1, 5), (2, 5)),
            "field before": moves((1, 11), (0, 14)),
            "field after": moves((1, 11), (2, 10)),
            "row begin": moves((1, 5), (1, 0)),
            "row end": moves((1, 5), (1, 19)),
            "screen begin": moves((1, 5), (0, 0)),
            "screen end": moves((1, 5), (3, 19)),
            "block left": stretches(4, 1, 2, 1),
            "block right": stretches(5, 1, 2, 1),
            "block up": stretches(5, 0, 1, 2),
            "block down": stretches(5, 1, 1, 2),
            "block to row begin": stretches(0, 1, 6, 1),
            "block to row end": stretches(5, 1, 15, 1),
            "block to screen begin": stretches(0, 0, 6, 2),
            "block to screen end": stretches(5, 1, 15, 3),
            "enter": enter,
            "try": tries,
            "delete": changes((1, 0), lambda: row(1).startswith(" et point")),
            "backspace": changes((1, 1), lambda: row(1).startswith(" et point")),
            "screen before": shows("measured", "run"),
            "screen after": shows("run", "measured"),
            "escape": escapes,
            "place": places,
        },
    ).run()


def test_of_the_page_map(qtbot: QtBot) -> None:
    project = load(demo_path("drying-hall"))
    view = PageMap()
    qtbot.addWidget(view)
    view.resize(900, 600)
    view.set_project(project, PagingGraph(project))
    with qtbot.waitExposed(view):
        view.show()
    view.setFocus()
    told: list[object] = []
    for signal in (view.screens_placed, view.ring_moved, view.screen_opened, view.add_wanted, view.delete_wanted):
        signal.connect(lambda *what: told.append(what))

    def ways(dx: int, dy: int, *, also: bool) -> Check:
        def check(press: Callable[[], None]) -> object:
            """From some screen there is another one in that direction, and it is gone to."""
            for name, node in view.nodes.items():
                view.choose((node,))
                press()
                chosen = view.selected_screens()
                others = [each for each in chosen if each != name]
                if others:
                    to = view.nodes[others[0]].pos() - node.pos()
                    return (to.x() * dx + to.y() * dy) > 0 and (name in chosen) is also
            return False

        return check

    def tells(what: Callable[[], object], wanted: Callable[[tuple[object, ...]], object]) -> Check:
        def check(press: Callable[[], None]) -> object:
            what()
            told.clear()
            press()
            return len(told) == 1 and wanted(told[0])  # type: ignore[arg-type]

        return check

    start = project.panel.start
    ring = view.map_scene.ring_at(start)
    assert ring is not None
    at = ring.screens.index(start)

    def chosen(name: str = start) -> Callable[[], object]:
        return lambda: view.choose((view.nodes[name],))

    def moved(dx: int, dy: int) -> Check:
        x, y = view.map_scene.places[start]
        return tells(chosen(), lambda what: what[0] == {start: (x + dx, y + dy)})

    def scaled_by(press: Callable[[], None]) -> float:
        before = view.transform().m11()
        press()
        return view.transform().m11() / before

    def screen_changes(press: Callable[[], None]) -> object:
        chosen()()
        press()
        return view.selected_screen_change() is not None

    def to_start(press: Callable[[], None]) -> object:
        chosen(next(name for name in view.nodes if name != start))()
        press()
        return view.selected_screen() == start

    def whole(press: Callable[[], None]) -> object:
        view.zoom(3)
        return scaled_by(press) < 0.9

    Checks(
        map_keys(),
        lambda: view,
        {
            "left": ways(-1, 0, also=False),
            "right": ways(1, 0, also=False),
            "up": ways(0, -1, also=False),
            "down": ways(0, 1, also=False),
            "also left": ways(-1, 0, also=True),
            "also right": ways(1, 0, also=True),
            "also up": ways(0, -1, also=True),
            "also down": ways(0, 1, also=True),
            "move left": moved(-1, 0),
            "move right": moved(1, 0),
            "move up": moved(0, -1),
            "move down": moved(0, 1),
            "ring back": tells(chosen(), lambda what: what == (start, (at - 1) % len(ring.screens))),
            "ring on": tells(chosen(), lambda what: what == (start, (at + 1) % len(ring.screens))),
            "screen change before": screen_changes,
            "screen change after": screen_changes,
            "start": to_start,
            "open": tells(chosen(), lambda what: what == (start,)),
            "add": tells(chosen(), lambda what: what == (None,)),
            "delete": tells(chosen(), lambda what: what == ()),
            "larger": lambda press: scaled_by(press) > 1,
            "smaller": lambda press: scaled_by(press) < 1,
            "whole": whole,
        },
    ).run()


def test_of_the_list_of_screens(design: DesignWorkspace, document: Document) -> None:
    names = design.screens.list.list
    before = document.project

    def focus() -> QWidget:
        names.setFocus()
        return names

    def opens(press: Callable[[], None]) -> object:
        document.select_screen("times")
        design.show_view("map")
        press()
        return design.view == "screen" and document.selection.screen == "times"

    def editing() -> bool:
        edit = names.findChild(QLineEdit)
        found = edit is not None and edit.isVisible()
        if isinstance(edit, QLineEdit):
            QTest.keyClick(edit, Qt.Key.Key_Escape)
        return found

    def renames(press: Callable[[], None]) -> object:
        press()
        return editing()

    def adds(press: Callable[[], None]) -> object:
        press()
        added = len(document.project.screens) == len(before.screens) + 1
        editing()
        document.undo()
        return added

    def deletes(press: Callable[[], None]) -> object:
        spare = Screen(name="spare", text=())
        document.do("Add", lambda project: project.replace(screens=(*project.screens, spare)))
        document.select_screen("spare")
        press()
        return document.project.screens == before.screens

    Checks(screens_keys(), focus, {"open": opens, "rename": renames, "add": adds, "delete": deletes}).run()
    assert document.project == before


class Table:
    """The table of signals, driven at its cells."""

    def __init__(self, design: DesignWorkspace) -> None:
        self.design = design
        self.document = design.document
        self.before: Project = design.document.project
        self.table = design.signals.table
        self.grid = self.table.table

    def go(self, name: str, key: str) -> None:
        column = [each.key for each in self.grid.parts.columns].index(key)
        place = [each.name for each in self.document.project.signals].index(name)
        self.grid.setFocus()
        self.grid.go(place, column)

    def unit(self, name: str) -> str:
        return self.document.project.signal_named[name].unit

    def undone(self, done: object) -> object:
        while self.document.project is not self.before:
            self.document.undo()
        return done


@pytest.fixture
def table(design: DesignWorkspace) -> Table:
    design.show_view("signals")
    return Table(design)


SET_POINT = "speed set point"


def test_of_the_tray(table: Table) -> None:
    design, document = table.design, table.document
    tray = design.left.tray
    design.show_view("screen")
    document.do("t", lambda project: edits.add_screen(project, "empty"), select=Selection("empty"))
    before = document.project

    def places(press: Callable[[], None]) -> object:
        document.select(Selection("empty", (0, 0)))
        tray.choose(["frequency"])
        tray.list.setFocus()
        press()
        placed, text = document.project.screen_named["empty"].fields, document.project.screen_named["empty"].text[0]
        if document.project is not before:
            document.undo()
        return text if placed else None

    def finds(press: Callable[[], None]) -> object:
        tray.list.setFocus()
        press()
        return tray.search.hasFocus()

    Checks(
        tray_keys(),
        lambda: tray.list,
        {
            "place": lambda press: str(places(press)).startswith("Frequency"),
            "value": lambda press: places(press) == "",
            "find": finds,
        },
    ).run()


def test_of_the_tables(table: Table) -> None:
    grid, document, clipboard = table.grid, table.document, QApplication.clipboard()
    count = len(document.project.signals)
    focus: list[QWidget] = [grid]

    def at(key: str, then: Callable[[], object], name: str = SET_POINT) -> Check:
        def check(press: Callable[[], None]) -> object:
            clipboard.setText("kHz")
            table.go(name, key)
            press()
            return table.undone(then())

        return check

    def names() -> list[str]:
        return [each.name for each in document.project.signals]

    def adds(press: Callable[[], None]) -> object:
        """In a table with one kind of rows; with several a menu opens."""
        table.design.show_view("lines")
        followers = table.design.lines.followers
        followers.table.setFocus()
        focus[0] = followers.table
        press()
        focus[0] = grid
        added = len(document.project.followers) == len(table.before.followers) + 1
        table.undone(True)
        table.design.show_view("signals")
        return added

    def deletes_rows(press: Callable[[], None]) -> object:
        table.go("status", "unit")
        table.table.duplicate_rows()
        table.go("status 2", "unit")
        press()
        return table.undone(len(document.project.signals) == count)

    def fills(press: Callable[[], None]) -> object:
        table.go(SET_POINT, "unit")
        QTest.keyClick(grid, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
        row, column = grid.area().rows[0], grid.area().columns[0]
        grid.selectionModel().setCurrentIndex(
            grid.parts.index(row, column), grid.selectionModel().SelectionFlag.NoUpdate
        )
        press()
        return table.undone(table.unit("ramp up") == "Hz")

    def opens(press: Callable[[], None]) -> object:
        table.go(SET_POINT, "unit")
        press()
        focused = QApplication.focusWidget()
        return focused is not None and table.design.inspector.isAncestorOf(focused)

    def goes(way: int) -> Check:
        def check(press: Callable[[], None]) -> object:
            table.go(SET_POINT, "unit")
            index = grid.currentIndex()
            press()
            return (grid.currentIndex().row(), grid.currentIndex().column()) == grid.next_editable(
                index.row(), index.column(), way
            )

        return check

    def leaves(press: Callable[[], None]) -> object:
        table.go(SET_POINT, "unit")
        grid.setFocus()
        press()
        left = not grid.hasFocus()
        grid.setFocus()
        return left

    def escapes(press: Callable[[], None]) -> object:
        table.go(SET_POINT, "unit")
        QTest.keyClick(grid, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
        press()
        one = len(grid.area().rows) == 1 and grid.hasFocus()
        return one and leaves(press)

    here = names().index(SET_POINT)
    Checks(
        table_keys(),
        lambda: focus[0],
        {
            "add": adds,
            "delete": at("unit", lambda: table.unit(SET_POINT) == ""),
            "whole rows": at("unit", lambda: grid.area().whole and grid.area().rows == (here,)),
            "all": at("unit", lambda: len(grid.area().rows) == count),
            "down": at("unit", lambda: grid.currentIndex().row() == here + 1),
            "up": at("unit", lambda: grid.currentIndex().row() == here - 1),
            "next cell": goes(1),
            "cell before": goes(-1),
            "leave": leaves,
            "leave back": leaves,
            "escape": escapes,
            "open": opens,
            "fill": fills,
            "cut": at("unit", lambda: (clipboard.text(), table.unit(SET_POINT)) == ("Hz", "")),
            "copy": at("unit", lambda: (clipboard.text(), table.unit(SET_POINT)) == ("Hz", "Hz")),
            "copy headed": at("unit", lambda: clipboard.text() == "Unit\nHz\n"),
            "paste": at("unit", lambda: table.unit(SET_POINT) == "kHz"),
            "narrow": at("unit", lambda: table.table.narrow.hasFocus()),
            "duplicate": at("unit", lambda: len(document.project.signals) == count + 1),
            "duplicate rows": at("unit", lambda: len(document.project.signals) == count + 1),
            "delete rows": deletes_rows,
            "move up": at("unit", lambda: names().index(SET_POINT) == here - 1),
            "move down": at("unit", lambda: names().index(SET_POINT) == here + 1),
        },
    ).run()


def test_of_a_cell(table: Table) -> None:
    grid, document = table.grid, table.document

    def editor() -> CellEditor:
        focused = QApplication.focusWidget()
        assert isinstance(focused, CellEditor)
        return focused

    def typed(text: str, then: Callable[[], object], *, rows: int = 1) -> Check:
        def check(press: Callable[[], None]) -> object:
            table.go(SET_POINT, "unit")
            if rows > 1:
                QTest.keyClick(grid, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
            grid.edit(grid.currentIndex())
            editor().setText(text)
            press()
            done = then()
            if isinstance(QApplication.focusWidget(), CellEditor):
                QTest.keyClick(editor(), Qt.Key.Key_Escape)
            return table.undone(done)

        return check

    def begins(press: Callable[[], None]) -> object:
        table.go(SET_POINT, "unit")
        press()
        begun = editor().text() == "Hz"
        QTest.keyClick(editor(), Qt.Key.Key_Escape)
        return begun

    def chooses(press: Callable[[], None]) -> object:
        table.go(SET_POINT, "table")
        grid.edit(grid.currentIndex())
        cell = editor()
        press()
        popup = cell.completer().popup()
        assert popup is not None
        shown = popup.isVisible()
        popup.hide()
        QTest.keyClick(cell, Qt.Key.Key_Escape)
        return shown

    table.go(SET_POINT, "unit")
    here, column = grid.currentIndex().row(), grid.currentIndex().column()

    def taken_and_at(down: int, right: int) -> Callable[[], object]:
        return lambda: (
            table.unit(SET_POINT) == "kHz"
            and (grid.currentIndex().row(), grid.currentIndex().column()) == (here + down, column + right)
        )

    Checks(
        cell_keys(),
        QApplication.focusWidget,
        {
            "begin": begins,
            "enter": typed("kHz", taken_and_at(1, 0)),
            "enter up": typed("kHz", taken_and_at(-1, 0)),
            "tab": typed("kHz", taken_and_at(0, 1)),
            "back tab": typed("kHz", taken_and_at(0, -1)),
            "all": typed("kHz", lambda: (table.unit(SET_POINT), table.unit("ramp up")) == ("kHz", "kHz"), rows=2),
            "choose": chooses,
            "escape": typed("kHz", lambda: document.project is table.before),
        },
    ).run()


def test_of_the_line_strip(qtbot: QtBot) -> None:
    strip = ActivityStrip()
    qtbot.addWidget(strip)
    strip.set_lines(["pumproom", "roof"])
    strip.resize(1200, strip.sizeHint().height())
    with qtbot.waitExposed(strip):
        strip.show()
    marks = [
        StripMark(line, f"{line} {at}", good=True, write=False, at=float(at))
        for at, line in enumerate(["pumproom", "roof", "pumproom", "roof"])
    ]
    strip.add(marks)
    strip.setFocus()
    opened: list[object] = []
    strip.opened.connect(opened.append)

    def steps(begin: int, end: int) -> Check:
        def check(press: Callable[[], None]) -> object:
            strip.choose((marks[begin].line, marks[begin]))
            press()
            return strip.chosen is marks[end]

        return check

    def opens(press: Callable[[], None]) -> object:
        strip.choose(("roof", marks[1]))
        opened.clear()
        press()
        return opened == [marks[1]]

    def leaves(press: Callable[[], None]) -> object:
        press()
        return strip.chosen is None

    Checks(
        strip_keys(),
        lambda: strip,
        {
            "older": steps(2, 0),
            "newer": steps(0, 2),
            "line above": steps(3, 2),
            "line below": steps(2, 3),
            "open": opens,
            "escape": leaves,
        },
    ).run()
