"""What stands where there is nothing yet, in the upper two fifths."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from widgets.kit.controls import push_button
from widgets.kit.empty_state import EmptyState


def test_it_stands_above_the_middle_and_leads_on(qtbot: QtBot) -> None:
    pressed: list[bool] = []
    button = push_button("Connect to simulated devices", lambda: pressed.append(True))
    empty = EmptyState("No curves yet", "Values are kept from the moment the line is connected.", button)
    qtbot.addWidget(empty)
    empty.resize(600, 500)
    empty.show()
    assert 100 < (empty.title.geometry().top() + button.geometry().bottom()) / 2 < 250
    button.click()
    assert pressed == [True]
    empty.say("Nothing here", "Another sentence.")
    assert (empty.title.text(), empty.sentence.text()) == ("Nothing here", "Another sentence.")
