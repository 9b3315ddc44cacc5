"""The list of findings: filtered, ordered, led from and mended by keys and mouse, and steady while it changes."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings, strategies as st
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.checks import check
from app.edits import add_line, set_title
from app.project.model import Field, HeldSignal, Project, TcpLine
from app.project_file.files import load
from projects import demo_path
from tests.builders import fresh_project
from widgets.design.findings_model import FindingRow, FindingsModel
from widgets.design.workspace import DesignWorkspace
from widgets.document.document import Document
from widgets.kit.dialogs.questions import TextQuestion

Key = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def document() -> Document:
    return Document(load(demo_path("drying-hall")))


@pytest.fixture
def design(document: Document, qtbot: QtBot) -> DesignWorkspace:
    workspace = DesignWorkspace(document)
    qtbot.addWidget(workspace)
    workspace.resize(1366, 700)
    with qtbot.waitExposed(workspace):
        workspace.show()
    workspace.activateWindow()
    qtbot.waitUntil(lambda: workspace.checks.up_to_date)
    return workspace


def spoiled(project: Project) -> Project:
    """Two fields too narrow on the first screen, and characters that the panel lacks on another."""
    first, second = project.screens[:2]
    fields = tuple(field.replace(width=1) if number < 2 else field for number, field in enumerate(first.fields))
    return project.replace(
        screens=(
            first.replace(fields=fields),
            second.replace(text=("caf\u0113", *second.text[1:])),
            *project.screens[2:],
        )
    )


def sound_project() -> Project:
    """A project in which nothing is found: the checks themselves say what has to go."""
    project = fresh_project()
    held = HeldSignal(name="rate", held=Decimal(5))
    screen = project.screens[0].replace(fields=(Field(at=(0, 0), width=8, signal="rate"),))
    project = project.replace(signals=(held,), screens=(screen,))
    assert check(project) == ()
    return project


def shown(design: DesignWorkspace) -> list[str]:
    """The rules of what is listed, from the top."""
    return [row.finding.rule for row in design.findings.model.rows if row.finding is not None]


def spoil(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    document.do("Spoil", spoiled)
    qtbot.waitUntil(lambda: design.checks.up_to_date)
    assert "field-too-narrow" in shown(design)


def focus() -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def test_findings_come_by_themselves_as_one_edits(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    before = shown(design)
    document.do("Spoil", spoiled)
    assert not design.checks.up_to_date
    qtbot.waitUntil(lambda: shown(design) != before)
    document.undo()
    qtbot.waitUntil(lambda: shown(design) == before)


def test_before_the_first_check_nobody_says_that_nothing_was_found(qtbot: QtBot) -> None:
    document = Document(spoiled(load(demo_path("drying-hall"))))
    design = DesignWorkspace(document)
    qtbot.addWidget(design)
    summary = design.findings.summary
    assert summary.text() == "checking\u2026"
    qtbot.waitUntil(lambda: design.checks.checked)
    assert summary.text() == ""
    document.open(sound_project(), None)
    assert summary.text() == "checking\u2026"
    qtbot.waitUntil(lambda: design.checks.checked)
    assert summary.text() == "nothing found"


def test_typing_a_character_that_the_panel_lacks_is_found_and_mended_by_keys(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    spoil(design, document, qtbot)
    QTest.keyClick(focus(), Key.Key_F8)
    assert focus() is design.findings.tree
    rules = shown(design)
    at = rules.index("character-missing")
    QTest.keyClick(design.findings.tree, Key.Key_Home)
    for _ in range(at):
        QTest.keyClick(design.findings.tree, Key.Key_Down)
    assert "caf" in design.findings.fix.text()
    QTest.keyClick(focus(), Key.Key_F7, CONTROL)
    assert document.project.screens[1].text[0] == "cafe"
    assert "character-missing" not in shown(design)
    assert document.undo_name == "Write 'cafe'"
    document.undo()
    assert document.project.screens[1].text[0] == "caf\u0113"


def test_the_button_mends_and_the_next_finding_is_ready(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    spoil(design, document, qtbot)
    fixable = next(
        number
        for number, row in enumerate(design.findings.model.rows)
        if row.finding is not None and row.finding.fix is not None
    )
    index = design.findings.model.index(fixable, 1)
    design.findings.tree.scrollTo(index)
    QTest.mouseClick(
        design.findings.tree.viewport(), Qt.MouseButton.LeftButton, pos=design.findings.tree.visualRect(index).center()
    )
    gone = design.findings.current()
    assert gone is not None
    steps = document.undo_name
    QTest.mouseClick(design.findings.fix, Qt.MouseButton.LeftButton)
    assert document.undo_name != steps
    assert gone not in design.findings.model.rows
    assert design.findings.current() is not None


def test_what_cannot_be_mended_says_so(design: DesignWorkspace, qtbot: QtBot) -> None:
    QTest.keyClick(focus(), Key.Key_F7, CONTROL)
    qtbot.waitUntil(design.notice.isVisible)
    assert "Nothing was found" in design.notice.text.text()


def test_the_next_and_the_former_finding_are_led_to_from_anywhere(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    spoil(design, document, qtbot)
    QTest.keyClick(focus(), Key.Key_F8, CONTROL)
    first = design.findings.current()
    assert first is design.findings.model.rows[0]
    QTest.keyClick(focus(), Key.Key_F8, CONTROL)
    assert design.findings.current() is design.findings.model.rows[1]
    QTest.keyClick(focus(), Key.Key_F8, CONTROL | SHIFT)
    QTest.keyClick(focus(), Key.Key_F8, CONTROL | SHIFT)
    assert design.findings.current() is design.findings.model.rows[-1]


def test_what_is_selected_stays_so_while_others_come_and_go(
    design: DesignWorkspace, document: Document, qtbot: QtBot
) -> None:
    spoil(design, document, qtbot)
    at = shown(design).index("character-missing")
    design.findings.select(at)
    chosen = design.findings.current()
    project = document.project
    document.do(
        "Mend two", lambda now: now.replace(screens=(load(demo_path("drying-hall")).screens[0], *now.screens[1:]))
    )
    qtbot.waitUntil(lambda: design.checks.up_to_date)
    assert "field-too-narrow" not in shown(design)
    assert design.findings.current() == chosen
    document.do(
        "Move it down",
        lambda _: project.replace(screens=(project.screens[2], *project.screens[:2], *project.screens[3:])),
    )
    qtbot.waitUntil(lambda: design.checks.up_to_date)
    now = design.findings.current()
    assert now is not None
    assert now.finding is not None
    assert now.finding.rule == "character-missing"


def test_filters_hide_and_bring_back(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    spoil(design, document, qtbot)
    errors = design.findings.filters["error"]
    count = int(errors.text().rsplit(" ", 1)[1])
    assert count >= 3
    before = len(design.findings.model.rows)
    errors.setFocus()
    QTest.keyClick(errors, Key.Key_Space)
    assert len(design.findings.model.rows) == before - count
    assert f"{count} hidden" in design.findings.summary.text()
    QTest.keyClick(errors, Key.Key_Space)
    assert len(design.findings.model.rows) == before


def test_the_order_by_place_goes_through_the_project(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    spoil(design, document, qtbot)
    order = design.findings.order
    order.setFocus()
    QTest.keyClick(order, Key.Key_Down)
    places = [row.finding.place[:2] for row in design.findings.model.rows if row.finding is not None]
    screens = [place for place in places if place[:1] == ("screen",)]
    assert screens == sorted(screens)
    assert [places.index(place) for place in screens] == sorted(places.index(place) for place in screens)


def test_where_a_signal_is_missing_is_led_to(qtbot: QtBot) -> None:
    document = Document(fresh_project())
    design = DesignWorkspace(document)
    qtbot.addWidget(design)
    with qtbot.waitExposed(design):
        design.show()
    qtbot.waitUntil(lambda: design.checks.up_to_date)
    row = next(row for row in design.findings.model.rows if "no signal yet" in row.what)
    design.findings.select(design.findings.model.rows.index(row))
    QTest.keyClick(design.findings.tree, Key.Key_Return)
    assert design.view == "lines"


def test_another_title_is_no_reason_to_list_anew(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    listed = list(design.findings.model.rows)
    document.do("Title", lambda project: set_title(project, "Other"))
    qtbot.waitUntil(lambda: design.checks.up_to_date)
    assert all(now is then for now, then in zip(design.findings.model.rows, listed, strict=True))


ROWS = st.lists(st.integers(0, 12), max_size=9).map(
    lambda numbers: [FindingRow("note", str(number), "what", "hint") for number in numbers]
)


@settings(deadline=None)
@given(st.lists(ROWS, max_size=4))
def test_the_model_shows_any_rows_after_any_others(lists: list[list[FindingRow]]) -> None:
    model = FindingsModel()
    mirror: list[FindingRow] = []
    model.rowsAboutToBeRemoved.connect(lambda _parent, first, last: mirror.__delitem__(slice(first, last + 1)))
    model.rowsInserted.connect(
        lambda _parent, first, last: mirror.__setitem__(slice(first, first), model.rows[first : last + 1])
    )
    for rows in lists:
        model.show(rows)
        assert model.rows == rows
        assert mirror == rows


def test_a_finding_is_accepted_with_a_reason_listed_apart_and_taken_back(qtbot: QtBot) -> None:
    spare = TcpLine(name="spare", host="192.0.2.9")
    document = Document(add_line(load(demo_path("booster-pump")), spare))
    design = DesignWorkspace(document)
    qtbot.addWidget(design)
    design.resize(1366, 768)
    with qtbot.waitActive(design):
        design.show()
    design.checks.finish()
    before, found = document.project, design.findings
    assert not found.accepted.isVisible()
    rule = "unused"
    found.select(shown(design).index(rule))

    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, TextQuestion)
        QTest.keyClicks(dialog.line, "the manual names no others")
        QTest.keyClick(dialog.line, Qt.Key.Key_Return)

    QTimer.singleShot(0, answer)
    QTest.mouseClick(found.accept, Qt.MouseButton.LeftButton)
    assert [each.reason for each in document.project.accepted] == ["the manual names no others"]
    assert rule not in {each.rule for each in found.findings}
    assert found.accepted.text() == "Accepted: 1"
    QTest.mouseClick(found.accepted, Qt.MouseButton.LeftButton)
    row = found.select(-1)
    assert row is not None
    assert (row.kind, row.hint) == ("accepted", "accepted: the manual names no others")
    assert found.accept.text() == "Withdraw acceptance"
    QTest.mouseClick(found.accept, Qt.MouseButton.LeftButton)
    assert document.project == before
    assert rule in {each.rule for each in found.findings}
    document.undo()
    design.checks.finish()
    assert rule not in {each.rule for each in found.findings}, "undone like everything"


def test_an_error_cannot_be_accepted(design: DesignWorkspace, document: Document, qtbot: QtBot) -> None:
    spoil(design, document, qtbot)
    found = design.findings
    wrong = next(number for number, row in enumerate(found.model.rows) if row.kind == "error")
    found.select(wrong)
    assert not found.accept.isEnabled()
    assert "An error cannot be accepted" in found.accept.toolTip()
