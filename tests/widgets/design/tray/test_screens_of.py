"""A screen of these: several signals on as many new screens as they need."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.checks import check
from app.project.model import Project, Screen
from tests.builders import demo
from tests.widgets.driving import designed
from widgets.design.tray.screens_of import ScreensOfDialog, pages_of, screens_of
from widgets.document.document import Document
from widgets.face.keypad import key_legend
from widgets.face.sample_values import FieldContents, specimen_rows


def sized(project: Project, rows: int, columns: int) -> Project:
    """The signals of a project on a panel of this size, with one empty screen."""
    panel = project.panel.replace(rows=rows, columns=columns, start="s")
    screen = Screen(name="s", text=("",) * rows)
    return project.replace(panel=panel, screens=(screen,), screen_changes=(), actions=())


@pytest.mark.parametrize(("rows", "columns"), [(1, 16), (2, 16), (4, 20), (4, 40), (8, 40)])
@pytest.mark.parametrize("headed", [True, False])
def test_all_signals_of_the_demos_are_laid_out_and_fit(rows: int, columns: int, headed: bool) -> None:
    if headed and rows == 1:
        return
    for name in ("booster-pump", "drying-hall"):
        project = sized(demo(name), rows, columns)
        names = list(project.signal_named)
        after, made = screens_of(project, names, "Values", 1, headed=headed)
        shown = [field.signal for screen in made for field in after.screen_named[screen].fields]
        assert shown == names, "all of them, once, in their order"
        wrong = {finding.rule for finding in check(after) if finding.place[:1] == ("screen",)}
        assert not wrong & {"field-outside", "fields-overlap", "text-covered"}
        for screen in made:
            for row in specimen_rows(after, after.screen_named[screen], FieldContents.WIDEST):
                if columns >= 20:
                    assert "##" not in row.text, (screen, row.text)


def test_digits_stand_under_one_another_and_units_too() -> None:
    project = sized(demo("booster-pump"), 4, 20)
    after, made = screens_of(project, ["frequency", "current", "shaft speed"], "Measured", 1, headed=True)
    screen = after.screen_named[made[0]]
    assert screen.text[0] == "Measured"
    assert len({field.at[1] + field.width for field in screen.fields}) == 1
    assert len({row.rindex(unit) for row, unit in zip(screen.text[1:], ("Hz", "A", "1/min"), strict=True)}) == 1


def test_screens_are_called_after_the_title_and_stand_behind_the_current_one() -> None:
    project = demo("booster-pump")
    after, made = screens_of(project, list(project.signal_named)[:7], "run", 1, headed=True)
    assert made == ["run 2", "run 3", "run 4"]
    assert list(after.screen_named)[:4] == ["run", "run 2", "run 3", "run 4"]


def test_a_value_that_leaves_no_room_for_its_label_has_it_in_the_row_above() -> None:
    project = sized(demo("booster-pump"), 4, 20)
    assert pages_of(project, ["fault code", "current"], headed=True) == [[("fault code", True), ("current", False)]]
    after, made = screens_of(project, ["fault code", "current"], "Values", 1, headed=True)
    screen = after.screen_named[made[0]]
    assert screen.text[1] == "Fault code"
    assert [field.at[0] for field in screen.fields] == [2, 3]


def test_the_dialog_makes_them_in_one_step_that_is_undone_in_one(qapp: object, qtbot: QtBot) -> None:
    document = Document(demo("booster-pump"))
    design = designed(document, qtbot)
    first = document.project
    design.left.tray.choose(["frequency", "current", "power", "DC link"])
    design.left.make_screens(design.left.tray.chosen())
    dialog = QApplication.activeModalWidget()
    assert isinstance(dialog, ScreensOfDialog)
    assert "4 signals on 2 screens" in dialog.summary.text()
    dialog.title.selectAll()
    QTest.keyClicks(dialog.title, "Drive")
    assert dialog.grid.rows[0].text.startswith("Drive")
    keys = [key for key in document.project.panel.keys if key_legend(key) in dialog.ring.currentText().split()]
    assert len(keys) == 2, "a ring is offered"
    QTest.keyClick(dialog.title, Qt.Key.Key_Return)
    assert [name for name in document.project.screen_named if name.startswith("Drive")] == ["Drive", "Drive 2"]
    assert document.selection.screen == "Drive"
    changes = {(each.from_, each.key, each.to) for each in document.project.screen_changes} - {
        (each.from_, each.key, each.to) for each in first.screen_changes
    }
    assert changes == {("Drive", key, "Drive 2") for key in keys} | {("Drive 2", key, "Drive") for key in keys}
    assert document.undo_name == "Make screens of 4 signals"
    document.undo()
    assert document.project is first


def test_without_signals_it_says_what_to_select(qapp: object, qtbot: QtBot) -> None:
    design = designed(Document(demo("booster-pump")), qtbot)
    design.left.make_screens([])
    assert "Select signals first" in design.notice.text.text()


def test_an_empty_title_makes_nothing(qapp: object, qtbot: QtBot) -> None:
    document = Document(demo("booster-pump"))
    dialog = ScreensOfDialog(document, ["frequency"])
    qtbot.addWidget(dialog)
    dialog.title.clear()
    assert not dialog.make.isEnabled()
    dialog.title.setText("x")
    assert dialog.make.isEnabled()
