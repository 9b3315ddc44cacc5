"""The one look of dialogs: where their buttons stand, what Enter does, and how large they open."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QListWidget, QWidget
from pytestqt.qtbot import QtBot

from tests.widgets.driving import focused
from widgets.kit.dialogs import dialog as module
from widgets.kit.dialogs.dialog import QUESTION, Dialog
from widgets.kit.look import LEAST_BUTTON
from widgets.shell.application import make_application

KEY = Qt.Key


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    make_application()  # with the program's own style
    made = QWidget()
    qtbot.addWidget(made)
    made.resize(1000, 600)
    made.show()
    return made


def opened(dialog: Dialog, qtbot: QtBot) -> Dialog:
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    return dialog


def asking(window: QWidget, *, writes: bool = False) -> tuple[Dialog, list[str]]:
    dialog, done = Dialog(window, width=QUESTION), []
    dialog.tell("Rename it?", "Everything that uses it follows.")
    dialog.add_row("&Name", QLineEdit())
    dialog.add_extra("Copy", lambda: done.append("copied"))
    dialog.add_deed("Go", lambda: done.append("done"), writes=writes)
    dialog.add_cancel(safe=writes)
    return dialog, done


def test_the_extra_is_at_the_left_the_deed_and_the_way_out_at_the_right(window: QWidget, qtbot: QtBot) -> None:
    dialog, _ = asking(window)
    opened(dialog, qtbot)
    places = {each.text(): each.geometry() for each in dialog.buttons.buttons()}
    extra, deed, out = (next(place for name, place in places.items() if part in name) for part in ("py", "Go", "ancel"))
    assert extra.left() == 0
    assert extra.right() < deed.left()
    assert abs(deed.right() - out.left()) < 20
    assert out.right() == dialog.buttons.width() - 1
    assert min(place.width() for place in places.values()) >= LEAST_BUTTON


def test_enter_in_an_editor_does_the_deed(window: QWidget, qtbot: QtBot) -> None:
    dialog, done = asking(window)
    opened(dialog, qtbot)
    QTest.keyClick(dialog.findChildren(QLineEdit)[0], KEY.Key_Return)
    assert done == ["done"]
    assert dialog.deed.property("look") == "primary"


def test_where_the_deed_writes_the_way_out_has_the_focus_and_enter(window: QWidget, qtbot: QtBot) -> None:
    dialog, done = asking(window, writes=True)
    opened(dialog, qtbot)
    assert "ancel" in getattr(focused(), "text")()  # noqa: B009 - a button
    assert dialog.deed.property("look") != "primary"
    QTest.keyClick(dialog.findChildren(QLineEdit)[0], KEY.Key_Return)
    assert done == []
    assert not dialog.isVisible()


def test_a_button_that_has_the_focus_is_the_one_that_enter_presses(window: QWidget, qtbot: QtBot) -> None:
    dialog, done = asking(window)
    opened(dialog, qtbot)
    next(each for each in dialog.buttons.buttons() if each.text() == "Copy").setFocus()
    QTest.keyClick(focused(), KEY.Key_Return)
    assert done == ["copied"]


def test_all_that_it_says_has_room_and_it_is_no_larger_than_its_window(window: QWidget, qtbot: QtBot) -> None:
    dialog, _ = asking(window)
    dialog.tell(
        "What is to be done?", "One sentence that goes over several lines of a dialog so narrow. " * 4, "caution"
    )
    opened(dialog, qtbot)
    assert dialog.width() == QUESTION
    for label in (dialog.headline, dialog.sentence):
        assert label.height() >= label.heightForWidth(label.width())
    window.resize(500, 300)
    high = Dialog(window, height=900)
    high.add_close()
    opened(high, qtbot)
    assert high.height() == 300
    assert high.width() == 500


def test_a_screen_reader_gets_the_sentence_and_the_names_of_the_rows(window: QWidget) -> None:
    dialog, _ = asking(window)
    assert dialog.windowTitle() == "Rename it?"
    assert dialog.accessibleDescription() == "Everything that uses it follows."
    assert dialog.findChildren(QLineEdit)[0].accessibleName() == "Name"


def test_one_with_a_table_comes_back_as_large_as_it_was_left(
    window: QWidget, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_left", {})

    def make() -> Dialog:
        dialog = Dialog(window, height=300)
        dialog.body.addWidget(QListWidget(), 1)
        dialog.add_close()
        return opened(dialog, qtbot)

    first = make()
    assert first.height() == 300
    first.resize(640, 420)
    first.close()
    assert make().size() == QSize(640, 420)


def test_rows_that_have_no_room_are_scrolled(window: QWidget, qtbot: QtBot) -> None:
    dialog = Dialog(window)
    dialog.let_form_scroll()
    editors = [QLineEdit() for _ in range(40)]
    for number, editor in enumerate(editors):
        dialog.add_row(f"Row {number}", editor)
    dialog.add_close()
    opened(dialog, qtbot)
    assert dialog.height() == window.height()
    assert editors[-1].visibleRegion().isEmpty()
    editors[0].setFocus()
    for _ in range(39):
        QTest.keyClick(focused(), KEY.Key_Tab)
    assert not editors[-1].visibleRegion().isEmpty()
