"""The ways to the window that finds out an unknown device, and what becomes of what it found."""

from __future__ import annotations

import socket

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.client.endpoint import Endpoint
from app.discovery.into_project import NamedRegister
from app.edits.lines import change_follower
from app.follower.simulation import Simulation
from app.probing.found import Found, FoundFollower, FoundRange
from app.project.model import NeverRead, Project
from app.signals.numbering import documented_number
from tests.widgets.bench_project import bench_project
from tests.widgets.driving import button_of, connect, when_asked, words_of
from widgets.find_out.window import FindOutWindow
from widgets.frame.connecting import REAL
from widgets.kit.language import Language
from widgets.shell.window import MainWindow

PLACE = Endpoint.tcp("127.0.0.1", 15_020)
DEVICE = FoundFollower(9, functions=(3,), ranges=(FoundRange("holding", 0, 19),), longest_read=20)


@pytest.fixture
def working(window: MainWindow, pump: Project) -> MainWindow:
    """With a project open."""
    window.take(pump, None)
    return window


def opened(window: MainWindow) -> FindOutWindow:
    window.finding_out.action.trigger()
    made = window.finding_out.window
    assert made is not None
    return made


def found(made: FindOutWindow) -> None:
    """As after a search."""
    made.about.begin_at(PLACE)
    made.about.state.found = Found(None, None, (DEVICE,), probes=10)
    made.about.name(9, NamedRegister("speed", "holding", 3, unit="Hz", decimals=1))
    made.about.changed.emit()


def test_the_start_page_leads_there(window: MainWindow) -> None:
    window.beginning.show()
    card = window.beginning.page.cards[2]
    assert "unknown" in card.accessibleName()
    QTest.mouseClick(card, Qt.MouseButton.LeftButton)
    assert window.finding_out.window is not None


def test_it_is_one_window(window: MainWindow) -> None:
    first = opened(window)
    assert opened(window) is first
    first.close()
    assert window.finding_out.window is None


def test_a_project_is_made_and_nothing_is_connected(window: MainWindow, qtbot: QtBot) -> None:
    made = opened(window)
    found(made)
    made.go_to(4)
    made.go_button.click()
    project = window.document.project
    assert [follower.unit for follower in project.followers] == [9]
    assert "speed" in project.signal_named
    assert window.document.modified
    assert window.document.path is None
    assert window.connecting.where == REAL
    assert not window.live.connected
    assert window.finding_out.window is None


def test_what_was_found_is_added_and_taken_away_again(working: MainWindow) -> None:
    before = working.document.project
    made = opened(working)
    found(made)
    made.go_to(4)
    made.join_button.click()
    assert "speed" in working.document.project.signal_named
    assert len(working.document.project.followers) == len(before.followers) + 1
    working.document.undo()
    assert working.document.project == before


def test_a_line_that_is_connected_is_not_searched(window: MainWindow, device: Simulation, qtbot: QtBot) -> None:
    connect(window, device, qtbot)
    session = window.live.session
    assert session is not None
    endpoint = next(iter(session.endpoints.values()))
    made = opened(window)
    made.begin_at(endpoint)
    made.line.consent.setChecked(True)
    questions = when_asked(lambda dialog: dialog.reject())
    made.go_button.click()
    assert "Disconnect" in words_of(questions[0])
    assert not made.about.at_work
    assert window.live.connected
    assert "connected" in made.line.state.text()
    when_asked(lambda dialog: button_of(dialog, "Disconnect").click())
    made.go_button.click()
    assert made.about.at_work
    assert not window.live.connected


def test_a_line_that_is_connected_is_not_searched_by_another_name_either(
    window: MainWindow, device: Simulation, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    really = socket.getaddrinfo
    monkeypatch.setattr(
        "socket.getaddrinfo",
        lambda host, *rest, **more: really("127.0.0.1" if host == "drive.example" else host, *rest, **more),
    )
    connect(window, device, qtbot)
    session = window.live.session
    assert session is not None
    made = opened(window)
    made.begin_at(Endpoint.tcp("drive.example", next(iter(session.endpoints.values())).port))
    made.line.consent.setChecked(True)
    when_asked(lambda dialog: dialog.reject())
    made.go_button.click()
    assert not made.about.at_work
    assert "connected" in made.line.state.text()


def test_an_armed_line_is_not_even_offered(window: MainWindow, device: Simulation, qtbot: QtBot) -> None:
    connect(window, device, qtbot)
    window.live.arm()
    session = window.live.session
    assert session is not None
    made = opened(window)
    made.begin_at(next(iter(session.endpoints.values())))
    made.line.consent.setChecked(True)
    made.go_button.click()
    assert not made.about.at_work
    assert window.live.connected
    assert "armed" in made.line.state.text()


def test_a_line_that_is_searched_is_not_connected(window: MainWindow, device: Simulation, qtbot: QtBot) -> None:
    _, port = device.serve_tcp(None, "127.0.0.1", 0)
    window.take(bench_project(port), None)
    window.connecting.choose(REAL)
    made = opened(window)
    made.begin_at(Endpoint.tcp("localhost", port))
    made.line.consent.setChecked(True)
    made.go_button.click()
    assert made.about.at_work
    refusals: list[str] = []
    window.connecting.refused.connect(refusals.append)
    window.connecting.connect_line()
    assert not window.live.connected
    assert "looked for" in refusals[-1]
    made.about.stop()
    qtbot.waitUntil(lambda: not made.about.at_work)
    window.connecting.connect_line()
    assert window.live.connected


def test_a_second_device_brings_its_own_line_to_the_front(working: MainWindow) -> None:
    """Else the line that is shown would be searched in its place."""
    made = opened(working)
    made.begin_at(Endpoint.tcp("127.0.0.1", 15_021))
    follower = working.document.project.followers[0]
    working.bench.cards.find_wanted.emit(follower.name)
    assert working.finding_out.window is made
    line = working.document.project.line_named[follower.line]
    assert str(made.line.endpoint()) == str(Endpoint.of_line(line))
    assert made.line.wanted().first_unit == follower.unit


def test_a_device_that_does_not_answer_leads_to_its_line(working: MainWindow) -> None:
    follower = working.document.project.followers[0]
    working.bench.cards.find_wanted.emit(follower.name)
    made = working.finding_out.window
    assert made is not None
    line = working.document.project.line_named[follower.line]
    assert str(made.line.endpoint()) == str(Endpoint.of_line(line))


def test_a_device_of_a_project_brings_what_must_not_be_touched_and_how_it_counts(working: MainWindow) -> None:
    project = working.document.project
    follower = project.followers[0]
    unread = NeverRead(
        table="holding",
        first=documented_number(follower.numbering, "holding", 100),
        last=documented_number(follower.numbering, "holding", 100),
    )
    working.document.do("", lambda project: change_follower(project, follower.name, never_read=(unread,)))
    working.bench.cards.find_wanted.emit(follower.name)
    made = working.finding_out.window
    assert made is not None
    assert made.line.never.text() == "holding:100"
    assert made.registers.never.text() == "holding:100"
    assert made.line.wanted().never == {"holding": [range(100, 101)]}
    made.about.begin_at(made.line.endpoint())
    assert made.about.numbering[follower.unit] == follower.numbering
    made.about.begin_at(Endpoint.tcp("192.0.2.99"))
    assert made.about.numbering == {}, "of another line nothing is known"


def test_the_program_does_not_end_before_it_was_asked_about_what_was_found(working: MainWindow) -> None:
    made = opened(working)
    found(made)
    questions = when_asked(lambda dialog: QTest.keyClick(dialog, Qt.Key.Key_Escape))
    working.close()
    assert "forget what was found" in words_of(questions[0])
    assert working.isVisible()
    assert made.isVisible()
    when_asked(lambda dialog: button_of(dialog, "Close").click())
    working.close()
    assert not working.isVisible()
    assert working.finding_out.window is None


def test_what_became_a_project_is_not_asked_about(working: MainWindow) -> None:
    made = opened(working)
    found(made)
    made.go_to(4)
    made.join_button.click()
    assert working.finding_out.window is None


def test_five_clicks_lead_from_the_start_page_to_live_values(
    window: MainWindow, device: Simulation, qtbot: QtBot
) -> None:
    """With a port that is chosen already; the fifth connects, which is an act of its own, and may be Space."""
    _, port = device.serve_tcp(None, "127.0.0.1", 0)
    clicked: list[QWidget] = []

    def click(target: QWidget) -> None:
        clicked.append(target)
        QTest.mouseClick(target, Qt.MouseButton.LeftButton, pos=QPoint(12, target.height() // 2))

    window.beginning.show()
    click(window.beginning.page.cards[2])
    made = window.finding_out.window
    assert made is not None
    made.begin_at(Endpoint.tcp("127.0.0.1", port))
    made.line.known.choose("known")
    made.line.units.setText("1-10")
    click(made.line.consent)
    click(made.go_button)
    qtbot.waitUntil(lambda: bool(made.about.devices) and not made.about.at_work, timeout=60_000)
    click(made.quick_button)
    assert window.finding_out.window is None
    connect_button = window.header.connect_bar.button
    window.activateWindow()
    qtbot.waitUntil(connect_button.hasFocus)
    assert not window.live.connected
    click(connect_button)
    qtbot.waitUntil(lambda: any(each.good for each in window.live.readings().values()))
    assert len(clicked) == 5
    window.connecting.disconnect_line()


def test_another_language_waits_for_the_next_start_where_something_would_be_lost(working: MainWindow) -> None:
    chosen: list[object] = []
    working.language_chosen.connect(chosen.append)
    working.size_chosen.connect(chosen.append)
    made = opened(working)
    found(made)
    when_asked(lambda dialog: QTest.keyClick(dialog, Qt.Key.Key_Escape))
    working.choose_language(Language.GERMAN)
    when_asked(lambda dialog: QTest.keyClick(dialog, Qt.Key.Key_Escape))
    working.choose_size(125)
    assert chosen == []
    assert made.isVisible()
    assert (working.settings.language, working.settings.size) == (Language.GERMAN, 125)
    when_asked(lambda dialog: button_of(dialog, "Close").click())
    working.choose_language(Language.GERMAN)
    assert chosen == [Language.GERMAN]
